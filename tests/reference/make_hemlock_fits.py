# SPDX-License-Identifier: MPL-2.0
"""Least-squares fits of the curve models and of the slab series to hemlock_drying.csv by scipy, with no code of ours.

    /usr/bin/python3 make_hemlock_fits.py > hemlock_fits.csv

The ratio of 1 at time 0 is so by definition and is left out. u: standard errors of equal noise. r: those of HC2
(MacKinnon and White 1985, J. Econometrics 29:305) with the error of the first weighing, which all ratios share, as
one more reading's; the larger of both.
"""
import csv
import math

import numpy as np
from scipy.optimize import curve_fit

rows = [r for r in csv.reader(open("hemlock_drying.csv")) if not r[0].startswith(("#", "t"))]
t = np.array([float(r[0]) for r in rows])[1:]
y = (np.array([float(r[1]) for r in rows])[1:] - 6.6) / (127 - 6.6)
MODELS = {
    "Lewis": (lambda t, k: np.exp(-k * t), [0.1]),
    "Page": (lambda t, k, n: np.exp(-k * t**n), [0.1, 1]),
    "Henderson-Pabis": (lambda t, a, k: a * np.exp(-k * t), [1, 0.1]),
    "logarithmic": (lambda t, a, k, c: a * np.exp(-k * t) + c, [1, 0.1, 0]),
    "two-term": (lambda t, a, k0, b, k1: a * np.exp(-k0 * t) + b * np.exp(-k1 * t), [0.12, 0.4, 0.89, 0.13]),
    "Verma": (lambda t, a, k, g: a * np.exp(-k * t) + (1 - a) * np.exp(-g * t), [0.11, 0.36, 0.13]),
    "Midilli": (lambda t, a, k, n, b: a * np.exp(-k * t**n) + b * t, [1, 0.1, 1, 0]),
    "Weibull": (lambda t, alpha, beta: np.exp(-((t / alpha) ** beta)), [10, 1]),
}


def robust(model, p, cov, shared=True):
    f = model(t, *p)
    step = 1e-6 * np.abs(p)
    J = np.array([(model(t, *(p + s)) - model(t, *(p - s))) / (2 * s.sum()) for s in np.diag(step)]).T
    bread = np.linalg.inv(J.T @ J)
    h = np.einsum("ij,jk,ik->i", J, bread, J)
    e = y - f
    s2 = e @ e / (t.size - p.size)
    c = bread @ J.T @ f
    noise = np.where(1 - h > 1e-6, e**2 / np.maximum(1 - h, 1e-6), s2)  # s2: a reading that settles a parameter alone
    wide = bread @ J.T @ np.diag(noise) @ J @ bread + shared * s2 * np.outer(c, c)
    return np.sqrt(np.maximum(np.diag(wide), np.diag(cov)))


def slab(t, k):  # k = D/L^2 in 1/h
    return sum(8 / (np.pi**2 * m * m) * np.exp(-m * m * np.pi**2 * k * t / 4) for m in range(1, 4001, 2))


print("# Least squares by scipy.optimize.curve_fit on hemlock_drying.csv, made by make_hemlock_fits.py")
print("model,rmse,aicc,p1,u1,r1,p2,u2,r2,p3,u3,r3,p4,u4,r4")
for name, (model, start) in MODELS.items():
    p, cov = curve_fit(model, t, y, p0=start, ftol=1e-15, xtol=1e-15, gtol=1e-15, maxfev=100000)
    rss, n, k = float(np.sum((model(t, *p) - y) ** 2)), t.size, len(p) + 1
    aicc = n * math.log(rss / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1)
    cells = [v for three in zip(p, np.sqrt(np.diag(cov)), robust(model, p, cov)) for v in three]
    print(",".join([name, f"{math.sqrt(rss / n):.9g}", f"{aicc:.9g}"] + [f"{v:.9g}" for v in cells]))
# The slab with a height for the error of the first mass, which is a reading, too.
t, y = np.concatenate([[0], t]), np.concatenate([[1], y])
model = lambda t, k, a: a * np.where(t > 0, slab(t, k), 1)
p, cov = curve_fit(model, t, y, p0=[0.1, 1], ftol=1e-15, xtol=1e-15, gtol=1e-15)
cells = [v for three in zip(p, np.sqrt(np.diag(cov)), robust(model, p, cov, shared=False)) for v in three]
print(",".join(["slab", f"{math.sqrt(float(np.mean((model(t, *p) - y) ** 2))):.9g}", ""] + [f"{v:.9g}" for v in cells]))
t, y = t[1:], y[1:]

# The moistures themselves, that at the start X0 one of the parameters (the last): X - 0.066 = (X0 - 0.066) MR.
t = np.concatenate([[0], t])
y = np.array([float(r[1]) for r in rows]) / 100 - 0.066
for name in ["Lewis", "Page", "Henderson-Pabis"]:
    ratio, start = MODELS[name]
    model = lambda t, *p: p[-1] * np.where(t > 0, ratio(t, *p[:-1]), 1)
    p, cov = curve_fit(model, t, y, p0=start + [1.2], ftol=1e-15, xtol=1e-15, gtol=1e-15, maxfev=100000)
    rss, n, k = float(np.sum((model(t, *p) - y) ** 2)), t.size, len(p) + 1
    aicc = n * math.log(rss / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1)
    cells = [v for three in zip(p, np.sqrt(np.diag(cov)), robust(model, p, cov, shared=False)) for v in three]
    print(",".join([f"run {name}", f"{math.sqrt(rss / n):.9g}", f"{aicc:.9g}"] + [f"{v:.9g}" for v in cells]))
