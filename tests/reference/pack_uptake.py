# SPDX-License-Identifier: MPL-2.0
# Writes pack_uptake.csv: days for packed food to reach its limit, by integrating the uptake over time (SciPy) with
# the saturation pressure of the iapws library. Run in this folder: /usr/bin/python3 pack_uptake.py
import iapws
import scipy
from iapws.iapws97 import _PSat_T
from scipy.integrate import solve_ivp


def gab(aw, xm, c, k):
    return xm * c * k * aw / ((1 - k * aw) * (1 - k * aw + c * k * aw))


def inverse(f, x, low=0.0, high=0.999):
    for _ in range(200):
        mid = (low + high) / 2
        low, high = (mid, high) if f(mid) < x else (low, mid)
    return (low + high) / 2


lines = [f"# Days to the limit of packed food: uptake integrated over time by SciPy {scipy.__version__}, saturation "
         f"pressure of IAPWS-IF97 by iapws {iapws.__version__} (pack_uptake.py). GAB; solids g, area m2, permeance "
         f"g/(m2 day kPa)", "Xm,C,K,solids,start,limit,area,permeance,temp_C,rh,days"]
for xm, c, k, solids, start, limit, area, permeance, temp, rh in [
        (0.10, 10, 0.80, 95, 0.05, 0.12, 0.06, 1.5, 25, 0.75),
        (0.20, 11.84, 1.143, 400, 0.08, 0.25, 0.12, 0.4, 30, 0.65),
        (0.06, 20, 0.95, 250, 0.0, 0.08, 0.05, 3.0, 38, 0.90)]:
    p = _PSat_T(temp + 273.15) * 1000  # kPa
    high = min(0.999, 0.999 / k)
    flux = lambda t, x: [permeance * area * p * (rh - inverse(lambda a: gab(a, xm, c, k), x[0], 0, high)) / solids]
    reached = lambda t, x: x[0] - limit
    reached.terminal = True
    run = solve_ivp(flux, (0, 1e6), [start], events=reached, rtol=1e-10, atol=1e-13)
    lines.append(",".join(str(v) for v in (xm, c, k, solids, start, limit, area, permeance, temp, rh)) +
                 f",{run.t_events[0][0]:.9g}")
open("pack_uptake.csv", "w").write("\n".join(lines) + "\n")
