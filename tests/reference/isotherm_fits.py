# SPDX-License-Identifier: MPL-2.0
# Writes isotherm_fits.csv: least-squares isotherms of published points by SciPy, from many starts.
# Run in this folder: /usr/bin/python3 isotherm_fits.py
import csv
import itertools

import numpy as np
import scipy
from scipy.optimize import least_squares


def rows(name):
    with open(name) as f:
        return [r for r in csv.reader(f) if not r[0].startswith("#")]


def celsius(f):
    return (float(f) - 32) / 1.8


def dry(wet_percent):
    w = float(wet_percent) / 100
    return w / (1 - w)


corn = rows("grain_equilibrium_corn_wb.csv")
one = next(r for r in corn[1:] if r[0] == "70")
points = {"corn_70F": [(float(h) / 100, dry(v), celsius("70")) for h, v in zip(corn[0][1:], one[1:])]}
points["corn_70F_low"] = points["corn_70F"][:5]  # BET holds up to about aw 0.5
points["corn"] = [(float(h) / 100, dry(v), celsius(r[0])) for r in corn[1:] for h, v in zip(corn[0][1:], r[1:])]
for r in rows("grain_equilibrium_wb.csv")[1:]:
    points.setdefault(r[0], []).extend(
        (float(r[1]) / 100, dry(v), celsius(f)) for f, v in zip((35, 50, 70, 100), r[2:]))

with np.errstate(all="ignore"):
    models = {
        "GAB": (lambda p, a, t: p[0] * p[1] * p[2] * a / ((1 - p[2] * a) * (1 - p[2] * a + p[1] * p[2] * a)),
                itertools.product((0.05, 0.1), (3, 10, 40), (0.5, 0.8))),
        "BET": (lambda p, a, t: p[0] * p[1] * a / ((1 - a) * (1 - a + p[1] * a)),
                itertools.product((0.03, 0.1), (3, 30))),
        "Oswin": (lambda p, a, t: p[0] * (a / (1 - a)) ** p[1], [(0.1, 0.3)]),
        "Halsey": (lambda p, a, t: (-p[0] / np.log(a)) ** (1 / p[1]), [(0.01, 2), (0.1, 1)]),
        "Henderson": (lambda p, a, t: (-np.log(1 - a) / p[0]) ** (1 / p[1]), [(30, 2), (5, 1)]),
        "Peleg": (lambda p, a, t: p[0] * a ** p[1] + p[2] * a ** p[3],
                  itertools.product((0.15,), (0.3, 0.6), (0.15,), (3, 8))),
        "modified Henderson": (lambda p, a, t: (-np.log(1 - a) / (p[0] * (t + p[2]))) ** (1 / p[1]) / 100,
                               [(1e-4, 1.8, 50), (4e-5, 2.1, 50)]),
        "modified Chung-Pfost": (lambda p, a, t: -np.log(-(t + p[2]) * np.log(a) / p[0]) / p[1] / 100,
                                 [(300, 0.17, 30), (500, 0.2, 60)]),
        "modified Halsey": (lambda p, a, t: (-np.exp(p[0] + p[1] * t) / np.log(a)) ** (1 / p[2]) / 100,
                            [(3, -0.005, 1.5), (5, -0.01, 2.2)]),
        "modified Oswin": (lambda p, a, t: (p[0] + p[1] * t) * (a / (1 - a)) ** (1 / p[2]) / 100,
                           [(13, -0.05, 3)]),
    }
    cases = [(m, "corn_70F") for m in ("GAB", "Oswin", "Halsey", "Henderson", "Peleg")]
    cases += [("BET", "corn_70F_low")]
    cases += [(m, "corn") for m in models if m.startswith("modified")]
    cases += [("modified Halsey", "soybean"), ("modified Henderson", "long grain rice"), ("modified Oswin", "durum wheat")]
    out = [f"# Least-squares isotherms of the points in grain_equilibrium_corn_wb.csv and grain_equilibrium_wb.csv by SciPy "
           f"{scipy.__version__} (isotherm_fits.py); moisture kg/kg dry basis; sd: standard errors",
           "model,points,n,p1,p2,p3,p4,sd1,sd2,sd3,sd4,residual_sum,deviation"]
    for model, name in cases:
        f, starts = models[model]
        a, x, t = np.array(points[name]).T
        best = None
        for start in starts:
            start = np.array(start, float)
            r = least_squares(lambda q: f(q * start, a, t) - x, np.ones(len(start)), method="lm", xtol=1e-15,
                              ftol=1e-15, gtol=1e-15, max_nfev=100000)
            if best is None or r.cost < best[0].cost:
                best = (r, start)
        r, start = best
        p = r.x * start
        rss = 2 * r.cost
        J = r.jac / start
        sd = np.sqrt(np.diag(np.linalg.inv(J.T @ J)) * rss / (len(x) - len(p)))
        pad = [""] * (4 - len(p))
        out.append(",".join([model, name, str(len(x))] + [f"{v:.10g}" for v in p] + pad + [f"{v:.6g}" for v in sd] + pad +
                            [f"{rss:.8g}", f"{np.mean(np.abs(f(p, a, t) - x) / x):.8g}"]))
with open("isotherm_fits.csv", "w") as f:
    f.write("\n".join(out) + "\n")
