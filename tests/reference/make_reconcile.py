# SPDX-License-Identifier: MPL-2.0
"""Writes reconcile.csv: four measurements made to agree by a general constrained minimiser.

    /usr/bin/python3 make_reconcile.py > reconcile.csv

scipy's trust-constr works in units of u, on the balance fresh (1 - start) = dried (1 - final); the covariance after
adjustment comes from the null space of the constraint's numerical gradient, not from the formula the library uses.
An error is noticed in 9 of 10 runs where the noncentral chi squared of one degree of freedom exceeds the 5 % point with
probability 0.9.
"""
import numpy as np
import scipy
from scipy.linalg import null_space
from scipy.optimize import NonlinearConstraint, brentq, minimize
from scipy.stats import chi2, ncx2

CASES = [  # fresh, u, start, u, dried, u, final, u: masses in g
    (1000, 1, 0.85, 0.005, 170, 0.5, 0.10, 0.005),
    (1000, 1, 0.85, 0.005, 160, 0.5, 0.10, 0.005),
    (5000, 10, 0.80, 0.01, 1150, 5, 0.08, 0.002),
    (250, 0.1, 0.90, 0.002, 27, 0.1, 0.05, 0.004),
    (1000, 0, 0.85, 0.01, 170, 0, 0.10, 0.01),
    (1000, 5, 0.85, 0, 160, 5, 0.10, 0),
    (1000, 100, 0.80, 0.05, 300, 30, 0.10, 0.05),
    (1000, 0, 0.80, 0.02, 260, 0, 0.15, 0),
    (412.5, 0.1, 0.865, 0.004, 61.2, 0.1, 0.0, 0.0),
]


def balance(x):
    return x[0] * (1 - x[1]) - x[2] * (1 - x[3])


print(f"# Source: scipy {scipy.__version__} trust-constr, written by make_reconcile.py. Columns: fresh;u;start;u;dried;u;"
      "final;u; then adjusted fresh, start, dried, final; their u; chi2; u solids; u water; noticeable in fresh, in dried (g)")
NONCENTRALITY = brentq(lambda x: ncx2.sf(chi2.ppf(0.95, 1), 1, x) - 0.9, 1, 30)
for case in CASES:
    m, u = np.array(case[0::2], float), np.array(case[1::2], float)
    free = u > 0

    def at(z):
        x = m.copy()
        x[free] += z * u[free]
        return x

    scale = m[0] * np.max(np.abs([(1 - m[1]) * u[0] / m[0], u[1], (1 - m[3]) * u[2] / m[0], u[3]]))
    constraint = NonlinearConstraint(lambda z: balance(at(z)) / scale, 0, 0, jac=lambda z: jac(z)[None, :])

    def gradient(x):
        return np.array([1 - x[1], -x[0], -(1 - x[3]), x[2]])

    def jac(z):
        return gradient(at(z))[free] * u[free] / scale

    found = minimize(lambda z: z @ z, np.zeros(free.sum()), jac=lambda z: 2 * z, hess=lambda z: 2 * np.eye(len(z)),
                     constraints=[constraint], method="trust-constr",
                     options=dict(gtol=1e-13, xtol=1e-15, barrier_tol=1e-13, maxiter=5000))
    x = at(found.x)
    assert abs(balance(x)) < 1e-8 * m[0], (case, balance(x))
    step = 1e-5
    numerical = np.array([(balance(at(found.x + step * e)) - balance(at(found.x - step * e))) / (2 * step)
                          for e in np.eye(free.sum())])
    basis = null_space(numerical[None, :])
    covariance = np.zeros((4, 4))
    covariance[np.ix_(free, free)] = np.diag(u[free]) @ basis @ basis.T @ np.diag(u[free])
    solids, water = np.array([1 - x[1], -x[0], 0, 0]), np.array([1, 0, -1, 0])
    out = list(case) + list(x) + list(np.sqrt(np.diag(covariance))) + [
        found.fun, np.sqrt(solids @ covariance @ solids), np.sqrt(max(0.0, water @ covariance @ water))]
    everything = np.array([(balance(x + 1e-5 * e) - balance(x - 1e-5 * e)) / 2e-5 for e in np.eye(4)])
    out += list(np.sqrt(NONCENTRALITY) * np.linalg.norm(everything * u) / np.abs(everything[[0, 2]]))
    print(";".join(repr(float(v)) for v in out))
