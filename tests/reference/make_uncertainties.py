# SPDX-License-Identifier: MPL-2.0
"""Writes uncertainties.csv: standard uncertainties by python's uncertainties package (first order, exact derivatives).

    /usr/bin/python3 make_uncertainties.py > uncertainties.csv

The formulas are written here anew from their definitions, in the units of a sheet (g, fractions, kg/kg).
"""
import uncertainties
from uncertainties import ufloat

CASES = [
    ("DRIEDMASS", [(1000, 1), (0.85, 0.005), (0.10, 0.004)], lambda f, s, w: f * (1 - s) / (1 - w)),
    ("WATERREMOVED", [(1000, 1), (0.85, 0.005), (0.10, 0.004)], lambda f, s, w: f - f * (1 - s) / (1 - w)),
    ("FRESHFOR", [(150, 0.5), (0.90, 0.003), (0.08, 0.002)], lambda d, s, w: d * (1 - w) / (1 - s)),
    ("FINALMOISTURE", [(412.5, 0.1), (0.865, 0.004), (61.2, 0.1)], lambda f, s, d: 1 - f * (1 - s) / d),
    ("STARTMOISTURE", [(412.5, 0.1), (61.2, 0.1), (0.08, 0.005)], lambda f, d, w: 1 - d * (1 - w) / f),
    ("DRYINGRATIO", [(0.865, 0.004), (0.08, 0.005)], lambda s, w: (1 - w) / (1 - s)),
    ("OVENMOISTURE", [(20.123, 0.001), (25.345, 0.001), (21.011, 0.001)], lambda a, b, c: (b - c) / (b - a)),
    ("STOPMASS", [(310, 0.5), (2000, 2), (0.85, 0.01), (0.12, 0.003)], lambda t, f, s, w: t + f * (1 - s) / (1 - w)),
    ("DRYBASIS", [(0.8, 0.01)], lambda w: w / (1 - w)),
    ("WETBASIS", [(4, 0.1)], lambda x: x / (1 + x)),
    ("MOISTURERATIO", [(1.2, 0.05), (5.5, 0.1), (0.1, 0.02)], lambda x, a, e: (x - e) / (a - e)),
    ("BLENDSHARE", [(0.05, 0.004), (0.23, 0.006), (0.15, 0.001)], lambda a, b, t: (t - b) / (a - b)),
    ("PRORATE", [(400, 0.5), (60, 0.2), (20000, 20)], lambda a, b, c: b * c / a),
    ("REHYDRATIONWATER", [(100, 0.1), (0.1, 0.004), (0.55, 0.01)], lambda d, m, t: d * (t - m) / (1 - t)),
]
print(f"# Source: python3-uncertainties {uncertainties.__version__}, written by make_uncertainties.py. "
      "Columns: function;inputs and their u in turn, separated by spaces;value;u;contributions, separated by spaces")
for name, inputs, formula in CASES:
    x = [ufloat(*pair) for pair in inputs]
    y = formula(*x)
    parts = [abs(y.derivatives.get(v, 0)) * v.std_dev for v in x]
    print(name, " ".join(f"{a!r} {b!r}" for a, b in inputs), repr(y.nominal_value), repr(y.std_dev),
          " ".join(repr(p) for p in parts), sep=";")
