# SPDX-License-Identifier: MPL-2.0
"""Slopes by local polynomials, by NumPy's least squares; how well a smoother predicts is found by really leaving each
reading out. Invented readings, with noise.

    /usr/bin/python3 make_local_slopes.py > local_slopes.csv
"""
import numpy as np

NOISE = 1e-3 * np.array([9, -14, 6, 11, -8, -12, 15, 2, -10, 7, 12, -16, 4, -5, 13, -3])
EVEN = np.array([0, 0.4, 1.1, 1.5, 2.0, 2.9, 3.3, 4.1, 5.0, 5.6, 6.7, 7.3, 8.2, 9.6, 10.1, 11.4])
NIGHT = np.array([0, 0.3, 0.7, 1.0, 1.4, 1.7, 2.1, 2.4, 2.8, 9.0, 9.3, 9.7, 10.0, 10.4, 10.8, 11.1])
SETS = {"steep": (EVEN, 5 * np.exp(-0.9 * EVEN) + NOISE), "slow": (EVEN, 5 * np.exp(-0.15 * EVEN) + 10 * NOISE),
        "wavy": (EVEN, np.sin(EVEN) + 2 * NOISE), "night": (NIGHT, np.exp(-2 * (NIGHT % 9)) + NOISE)}


def window(x, at, size):
    chosen, left, right = [at], at - 1, at + 1
    while len(chosen) < size and (left >= 0 or right < len(x)):
        take_left = right >= len(x) or (left >= 0 and x[at] - x[left] <= x[right] - x[at])
        chosen.append(left if take_left else right)
        left, right = (left - 1, right) if take_left else (left, right + 1)
    return np.array(chosen)


def polynomial(x, y, at, size, degree, without=False):
    chosen = window(x, at, size)
    reach = 1.1 * abs(x[chosen[-1]] - x[at])
    if without:
        chosen = chosen[1:]
    d = x[chosen] - x[at]
    weight = np.sqrt((1 - abs(d / reach) ** 3) ** 3)
    return np.linalg.lstsq(np.vander(d, degree + 1, increasing=True) * weight[:, None], y[chosen] * weight, rcond=None)[0]


print("# local polynomials (Cleveland 1979) by NumPy, made by make_local_slopes.py")
print("set,x,y,slope")
for name, (x, y) in SETS.items():
    best, least = None, np.inf
    for degree in (2, 3):
        size = len(x)
        while size >= 5:
            error = sum((y[i] - polynomial(x, y, i, size, degree, True)[0]) ** 2 for i in range(len(x)))
            if error < 0.9 * least:
                best, least = (size, degree), error
            size = size * 10 // 13
    for i in range(len(x)):
        print(f"{name},{x[i]:g},{y[i]:.15g},{polynomial(x, y, i, *best)[1]:.12g}")
