#!/usr/bin/python3
# SPDX-License-Identifier: MPL-2.0
"""Writes humid_air_iapws.csv: states of moist air by the IAPWS formulation G8-10, as implemented by python3-iapws.

Run it with python3-iapws 1.5 and scipy; it takes some minutes. Nothing of this project is used: the states come from
the Helmholtz energy of humid air (HumidAir._fav), liquid water from IAPWS-95 and ice from IAPWS-06, with equal
chemical potential of water at saturation.

Relative humidity is x / x_s at the same temperature and pressure. The wet bulb is thermodynamic:
h + (W_s - W) h_water = h_s; it counts as wet (not iced) when there is a solution at or above the triple point.
"""
import functools
import pathlib
import warnings

import iapws.humidAir as humid
from iapws import IAPWS95
from iapws._iapws import _Ice, _Sublimation_Pressure
from scipy.optimize import brentq

warnings.simplefilter("ignore")
humid._virial = functools.lru_cache(None)(humid._virial)
AIR = humid.HumidAir()
TRIPLE = 273.16


def mass_fraction(x):
    """Dry air by mass, from the mole fraction of vapour."""
    return 1 / (1 + x / (1 - x) * humid.Mw / humid.Ma)


def helmholtz(T, p, A):
    """Density and Helmholtz energy at a pressure in MPa, by Newton's steps from the ideal gas."""
    rho = p * 1e3 / (8.314472 * T * ((1 - A) / humid.Mw + A / humid.Ma))
    for _ in range(30):
        f = AIR._fav(T, rho, A)
        step = (rho * rho * f["fird"] / 1000 - p) / ((2 * rho * f["fird"] + rho * rho * f["firdd"]) / 1000)
        rho -= step
        if abs(step) < 1e-13 * rho:
            return rho, AIR._fav(T, rho, A)
    raise RuntimeError("density")


@functools.lru_cache(None)
def water(T, p):
    """Gibbs energy and enthalpy of liquid water or ice."""
    if T < TRIPLE:
        ice = _Ice(T, p)
        return ice["g"], ice["h"]
    liquid = IAPWS95(T=T, P=p)
    return liquid.g, liquid.h


@functools.lru_cache(None)
def x_saturated(T, p):
    def difference(x):
        A = mass_fraction(x)
        rho, f = helmholtz(T, p, A)
        return f["fir"] + rho * f["fird"] - A * f["fira"] - water(T, p)[0]

    x = (_Sublimation_Pressure(T) if T < TRIPLE else IAPWS95._Vapor_Pressure(T)) / p
    return brentq(difference, 0.99 * x, min(1.03 * x, 1 - 1e-9), xtol=1e-15, rtol=1e-13)


def state(T, p, x):
    """Humidity ratio, enthalpy and volume per kg of dry air."""
    A = mass_fraction(x)
    rho, f = helmholtz(T, p, A)
    return 1 / A - 1, (f["fir"] - T * f["firt"] + rho * f["fird"]) / A, 1 / (rho * A)


def wet_bulb(T, p, x):
    W, h, _ = state(T, p, x)

    def balance(bulb):
        W_s, h_s, _ = state(bulb, p, x_saturated(bulb, p))
        return h + (W_s - W) * water(bulb, p)[1] - h_s

    if T >= TRIPLE and balance(TRIPLE) >= 0:
        return brentq(balance, TRIPLE, T + 1e-7, xtol=1e-7)
    high = min(T + 1e-7, TRIPLE - 1e-9)
    low = high
    while balance(low) < 0:
        low -= 5
    return brentq(balance, low, high, xtol=1e-7)


def points():
    for p in (80, 90, 101.325, 105):
        for t in (-10, -5, 0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90):
            for rh in (0.05, 0.2, 0.4, 0.6, 0.8, 1):
                yield p, t, rh
    for p in (30, 50, 120):
        for t in (-40, -20, 0, 20, 40, 60, 80, 100):
            for rh in (0.02, 0.3, 1):
                yield p, t, rh
    for p in (30, 50):  # near boiling, where the humidity ratio grows without end
        boiling = brentq(lambda T: IAPWS95._Vapor_Pressure(T) - p / 1000, 300, 400) - 273.15
        for below in (5, 2, 1, 0.5, 0.2):
            for rh in (0.2, 0.6, 1):
                yield p, round(boiling - below, 3), rh


def main():
    path = pathlib.Path(__file__).with_name("humid_air_iapws.csv")
    with path.open("w", encoding="utf-8") as out:
        out.write("# IAPWS G8-10 (2010) humid air with IAPWS-95 and IAPWS-06, computed with python3-iapws 1.5.2 by "
                  "make_humid_air.py; per kg of dry air\n")
        out.write("p_kPa,t_C,rh,W_kg_per_kg,h_kJ_per_kg,v_m3_per_kg,wet_bulb_C\n")
        for p, t, rh in points():
            T, P = t + 273.15, p / 1000
            if T > TRIPLE and IAPWS95._Vapor_Pressure(T) > 0.995 * P:
                continue
            x = rh * x_saturated(T, P)
            W, h, v = state(T, P, x)
            out.write(f"{p},{t},{rh},{W:.9g},{h:.9g},{v:.9g},{wet_bulb(T, P, x) - 273.15:.7f}\n")


main()
