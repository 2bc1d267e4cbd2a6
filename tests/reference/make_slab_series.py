# SPDX-License-Identifier: MPL-2.0
"""Mean moisture ratio of a slab by 20000 terms of Crank's eq. 4.18.

    /usr/bin/python3 make_slab_series.py > slab_series.csv
"""
import math

print("# 8/pi^2 sum exp(-(2n+1)^2 pi^2 Fo/4)/(2n+1)^2 by 20000 terms (Crank 1975, eq. 4.18), made by make_slab_series.py")
print("Fo,E")
for fo in [1e-4, 1e-3, 5e-3, 0.01, 0.02, 0.05, 0.1, 0.15, 0.1999, 0.2, 0.25, 0.3, 0.4, 0.5, 0.56, 0.6, 0.8, 1, 1.5, 2, 4]:
    terms = [math.exp(-((2 * n + 1) ** 2) * math.pi**2 * fo / 4) / (2 * n + 1) ** 2 for n in range(20000)]
    print(f"{fo},{8 / math.pi**2 * math.fsum(terms):.15g}")
