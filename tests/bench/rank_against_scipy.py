# SPDX-License-Identifier: MPL-2.0
"""The time of ranking all eight curve models on 200 points, against scipy's for the same fits, in one run.

    python3 tests/bench/rank_against_scipy.py BUILD/tests/bench/rank_curves

scipy gets one start a model, no bounds (its fastest method), and each side counts its least time of several. Twice:
from a plain start, and from a good one, the minimum that we found moved by a tenth (plain where we found none).
Residual sums of both sides are shown, so that it is seen that both found the same minimum.
"""
import subprocess
import sys
import time
import warnings

import numpy as np
from scipy.optimize import curve_fit

warnings.simplefilter("ignore")
MODELS = {
    "Lewis": (lambda t, k: np.exp(-k * t), [1]),
    "Page": (lambda t, k, n: np.exp(-k * t**n), [1, 1]),
    "Henderson-Pabis": (lambda t, a, k: a * np.exp(-k * t), [1, 1]),
    "logarithmic": (lambda t, a, k, c: a * np.exp(-k * t) + c, [1, 1, 0]),
    "two-term": (lambda t, a, k0, b, k1: a * np.exp(-k0 * t) + b * np.exp(-k1 * t), [0.5, 2, 0.5, 0.5]),
    "Midilli": (lambda t, a, k, n, b: a * np.exp(-k * t**n) + b * t, [1, 1, 1, 0]),
    "Weibull": (lambda t, alpha, beta: np.exp(-((t / alpha) ** beta)), [1, 1]),
    "Verma": (lambda t, a, k, g: a * np.exp(-k * t) + (1 - a) * np.exp(-g * t), [0.5, 2, 0.5]),
}


def scipy_rank(t, y, starts):
    sums = {}
    for name, (model, start) in MODELS.items():
        try:
            p, _ = curve_fit(model, t, y, p0=starts.get(name, start))
            sums[name] = float(np.sum((model(t, *p) - y) ** 2))
        except RuntimeError:
            sums[name] = float("nan")
    return sums


def run(title, t, y):
    text = "".join(f"{a!r} {b!r}\n" for a, b in zip(t.tolist(), y.tolist()))
    out = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True, check=True).stdout.splitlines()
    ours = float(out[0])
    found = {name: [float(x) for x in numbers] for name, *numbers in map(str.split, out[1:])}
    good = {name: 1.1 * np.array(numbers[1:]) for name, numbers in found.items() if numbers}
    ratios = []
    for kind, starts in {"plain": {}, "good": good}.items():
        least = 1e9
        for _ in range(10):
            begin = time.perf_counter()
            sums = scipy_rank(t, y, starts)
            least = min(least, time.perf_counter() - begin)
        ratios.append(ours / least)
        print(f"{title}, {kind} starts: ours {1e3 * ours:.2f} ms, scipy {1e3 * least:.2f} ms, ratio {ratios[-1]:.3f}")
    for name, numbers in found.items():
        ours_sum = f"{numbers[0]:.8g}" if numbers else "not determined"
        print(f"    {name:16s} residual sum {ours_sum:>16s}   scipy {sums[name]:.8g}")
    return max(ratios)


noise = np.random.default_rng(20)
t = np.linspace(0, 10, 200)
worst = max(
    run("Page curve", t, np.exp(-0.5 * t**0.8) + noise.normal(0, 0.005, t.size)),
    run("two terms", t, 0.4 * np.exp(-1.5 * t) + 0.6 * np.exp(-0.25 * t) + noise.normal(0, 0.005, t.size)),
    run("one exponential", t, np.exp(-0.45 * t) + noise.normal(0, 0.005, t.size)),
    run("with a lag", t, np.exp(-0.2 * t**1.4) + noise.normal(0, 0.005, t.size)),
)
print(f"worst ratio {worst:.3f} (a third is the limit)")
sys.exit(worst > 1 / 3)
