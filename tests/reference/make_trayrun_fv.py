#!/usr/bin/python3
# SPDX-License-Identifier: MPL-2.0
"""Writes trayrun_fv.csv: trays as finite volumes, along the air and through the slices.

Independent of the library in its model as well: a tray is cut into cells along the air, each with a moisture, a
temperature and an air of its own, where the library takes one moisture a tray and a closed form for what the air loses
along it. For diffusion each cell is a slab of layers, where the library takes the rate that belongs to the mean moisture.
Air: an ideal mixture, IAPWS-97 saturation. Time: implicit Euler for the temperatures, explicit for the moistures.

The last rows are plans: the bench's Lewis curve, stretched, in a room's air that is heated, with as much of it as carries
the water off in the stretched time at an exit humidity of 0.4.
"""
import math
import pathlib

from iapws.iapws97 import _PSat_T

CELLS, LAYERS, STEP = 40, 24, 0.004  # h


def psat(t):
    return 1000 * _PSat_T(t + 273.15)


class Air:
    """Dry air and vapour at a pressure, kPa; temperatures °C, enthalpies kJ/kg dry air."""

    def __init__(self, p):
        self.p = p

    def ratio(self, t, rh):
        e = rh * psat(t)
        return 0.622 * e / (self.p - e)

    def rh(self, t, w):
        return w * self.p / (0.622 + w) / psat(t)

    @staticmethod
    def enthalpy(t, w):
        return 1.006 * t + w * (2501 + 1.86 * t)

    @staticmethod
    def temp(h, w):
        return (h - 2501 * w) / (1.006 + 1.86 * w)

    def volume(self, t, w):
        return 0.287055 * (t + 273.15) * (1 + w / 0.622) / self.p

    def bulb(self, t, w, near):
        """By secants from a neighbour's wet bulb."""
        def gap(b):
            ws = self.ratio(b, 1)
            return self.enthalpy(t, w) + (ws - w) * 4.19 * b - self.enthalpy(b, ws)
        a, b = near, near + 0.5
        fa, fb = gap(a), gap(b)
        for _ in range(30):
            if abs(fb) < 1e-7 or fa == fb:
                break
            a, b, fa = b, b - fb * (b - a) / (fb - fa), fb
            fb = gap(b)
        return b


def latent(t):
    return 2501 - 2.38 * t


def capacity(x):
    return 0.837 + (0.837 + 3.349) * x


class Curve:
    """MR = exp(−k t^n): its rate at a ratio, and the mean rate of the fastest tenth of its fall."""

    def __init__(self, k, n=1.0):
        self.k, self.n = k, n

    def time(self, m):
        return (-math.log(m) / self.k) ** (1 / self.n)

    def start(self, x0, xe):
        return [(x0 - xe)] * CELLS

    def moisture(self, free):
        return free

    def rate(self, free, span):
        m = min(free / span, 1 - 1e-6)
        return span * self.k * self.n * self.time(m) ** (self.n - 1) * m

    def dry(self, free, amount, _):
        return free - amount

    def fastest(self):
        marks = [self.time(1 - 1e-6)] + [self.time(1 - 0.1 * i) for i in range(1, 10)]
        return max(0.1 / (b - a) for a, b in zip(marks, marks[1:]))


class Slab:
    """Layers from the surface to the middle; only the first touches the surface, which is at the equilibrium."""

    def __init__(self, d_m2_h, half_m):
        self.d, self.h = d_m2_h / half_m ** 2, 1 / LAYERS  # of the half thickness

    def start(self, x0, xe):
        return [[x0 - xe] * LAYERS for _ in range(CELLS)]

    def moisture(self, free):
        return sum(free) / LAYERS

    def rate(self, free, _):
        return 2 * self.d / self.h * free[0]

    def dry(self, free, amount, dt):
        new = list(free)
        for i in range(LAYERS - 1):
            flux = self.d * (free[i + 1] - free[i]) / self.h * dt / self.h
            new[i] += flux
            new[i + 1] -= flux
        new[0] -= amount * LAYERS
        return new

    def fastest(self):
        """Short times: MR = 1 − 2 sqrt(Fo/π), so a tenth is gone at Fo = 0.01 π/4."""
        return 0.1 * self.d / (0.0025 * math.pi)


def run(model, air, temp, w_in, flow, solids, x0, xe, target, trays=1, step=STEP):
    """Hours until the mean moisture of every tray is at the target. flow: dry air, kg/h; solids: of a tray, kg."""
    share, span = solids / CELLS, x0 - xe
    bulb_in = air.bulb(temp, w_in, 25.0)
    ha = model.fastest() * span * share * latent(bulb_in) / (temp - bulb_in)  # kJ/(h K) of a cell
    free = [model.start(x0, xe) for _ in range(trays)]
    heat = [[bulb_in] * CELLS for _ in range(trays)]
    clock, before = 0.0, x0
    while True:
        t, w, bulb = temp, w_in, bulb_in
        for tray in range(trays):
            can_in = air.ratio(bulb, 1) - w
            for j in range(CELLS):
                bulb = air.bulb(t, w, bulb) if (tray, j) != (0, 0) else bulb_in
                can = max(air.ratio(bulb, 1) - w, 0.0)
                n0 = share * model.rate(free[tray][j], span)
                wet = max(ha, n0 * latent(bulb_in) / (temp - bulb_in)) if n0 > 0 else ha
                n = min(n0 * can / can_in, wet * (t - bulb) / latent(bulb)) if can > 0 else 0.0
                x = xe + model.moisture(free[tray][j])
                c, tp = share * capacity(x), heat[tray][j]
                new = (tp + step / c * (ha * t - n * latent(tp))) / (1 + step * ha / c)
                h = air.enthalpy(t, w) - (c * (new - tp) / step - n * 4.186 * tp) / flow
                heat[tray][j] = new
                free[tray][j] = model.dry(free[tray][j], n * step / share, step)
                w += n / flow
                t = air.temp(h, w)
        clock += step
        wettest = xe + max(sum(map(model.moisture, cells)) / CELLS for cells in free)
        if wettest <= target:
            return clock - step * (target - wettest) / (before - wettest)
        before = wettest


def pickup(air, t, w, rh):
    """Adiabatic, from that state until the relative humidity."""
    bulb = air.bulb(t, w, 25.0)
    low, high = w, air.ratio(bulb, 1)
    for _ in range(60):
        mid = (low + high) / 2
        h = air.enthalpy(t, w) + (mid - w) * 4.19 * bulb
        low, high = (mid, high) if air.rh(air.temp(h, mid), mid) < rh else (low, mid)
    return low - w


def plan(air, room, rh, trays=1):
    """4 kg of prepared material a m² at 80 %, to 20 %, in 6 h on the bench at 60 °C: a full tray of half a m²."""
    w = air.ratio(room, rh)
    flow = trays * 1.5 / 6 / pickup(air, 60, w, 0.4)
    return run(Curve(math.log(16) / 6), air, 60, w, flow, 0.4, 4, 0, 0.25, trays)


def main():
    page, slab = Curve(0.45, 1.1), Slab(3e-10 * 3600, 0.0025)
    with open(pathlib.Path(__file__).with_name("trayrun_fv.csv"), "w", encoding="utf-8") as out:
        out.write("# written by make_trayrun_fv.py: see there\n")
        out.write("# model,trays,pressure_kPa,temp_C,rh,flow_m3_h,time_h: solids 0.3 kg a tray, X 4 to 0.15, Xe 0.05\n")
        for name, model, trays, p, temp, rh, flow in (
                ("Page", page, 1, 101.325, 60, 0.12, 1000), ("Page", page, 1, 101.325, 60, 0.12, 30),
                ("Page", page, 1, 80, 60, 0.12, 30), ("Page", page, 4, 101.325, 55, 0.15, 150),
                ("diffusion", slab, 1, 101.325, 60, 0.12, 1000), ("diffusion", slab, 1, 87.7, 50, 0.15, 60)):
            air = Air(p)
            w = air.ratio(temp, rh)
            hours = run(model, air, temp, w, flow / air.volume(temp, w), 0.3, 4, 0.05, 0.15, trays)
            out.write(f"{name},{trays},{p},{temp},{rh},{flow},{hours:.4f}\n")
        for p, room, rh, trays in ((101.325, 22, 0.65, 1), (87.7, 17, 0.8, 1), (87.7, 17, 0.8, 5)):
            out.write(f"plan,{trays},{p},{room},{rh},,{plan(Air(p), room, rh, trays):.4f}\n")


if __name__ == "__main__":
    main()
