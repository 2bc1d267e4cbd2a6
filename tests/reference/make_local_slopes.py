# SPDX-License-Identifier: MPL-2.0
"""Slopes by local polynomials, by NumPy's least squares; how well a smoother predicts is found by really leaving each
reading out. Invented readings, with noise.

    /usr/bin/python3 make_local_slopes.py > local_slopes.csv
"""
import numpy as np

X = np.array([0, 0.4, 1.1, 1.5, 2.0, 2.9, 3.3, 4.1, 5.0, 5.6, 6.7, 7.3, 8.2, 9.6, 10.1, 11.4])
NOISE = np.array([9, -14, 6, 11, -8, -12, 15, 2, -10, 7, 12, -16, 4, -5, 13, -3])
SETS = {"steep": 5 * np.exp(-0.9 * X) + 1e-3 * NOISE, "slow": 5 * np.exp(-0.15 * X) + 1e-2 * NOISE,
        "wavy": np.sin(X) + 2e-3 * NOISE}


def window(at, size):
    chosen, left, right = [at], at - 1, at + 1
    while len(chosen) < size and (left >= 0 or right < len(X)):
        take_left = right >= len(X) or (left >= 0 and X[at] - X[left] <= X[right] - X[at])
        chosen.append(left if take_left else right)
        left, right = (left - 1, right) if take_left else (left, right + 1)
    return np.array(chosen)


def polynomial(y, at, size, degree, without=False):
    chosen = window(at, size)
    reach = 1.1 * abs(X[chosen[-1]] - X[at])
    if without:
        chosen = chosen[1:]
    d = X[chosen] - X[at]
    weight = np.sqrt((1 - abs(d / reach) ** 3) ** 3)
    return np.linalg.lstsq(np.vander(d, degree + 1, increasing=True) * weight[:, None], y[chosen] * weight, rcond=None)[0]


def gap_slope(y, at, size):
    chosen = window(at, size)
    gap, rest = X[at] - X[chosen[1]], X[chosen[1]] - X[chosen[-1]]
    return (y[at] - y[chosen[1]]) / gap if gap * rest > 0 and abs(gap) > abs(rest) else None


print("# local polynomials (Cleveland 1979) by NumPy, made by make_local_slopes.py")
print("set,x,y,slope")
for name, y in SETS.items():
    best, least = None, np.inf
    for degree in (2, 3):
        size = len(X)
        while size >= 5:
            error = sum((y[i] - polynomial(y, i, size, degree, True)[0]) ** 2 for i in range(len(X)))
            if error < 0.9 * least:
                best, least = (size, degree), error
            size = size * 10 // 13
    for i, x in enumerate(X):
        slope = gap_slope(y, i, best[0])
        print(f"{name},{x:g},{y[i]:.15g},{polynomial(y, i, *best)[1] if slope is None else slope:.12g}")
