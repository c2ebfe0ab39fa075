#!/usr/bin/env python3
"""Outrigger loads of a mobile crane by another way, for `tests/crane_checks.rs`.

    python3 -m venv v && v/bin/pip install numpy scipy
    v/bin/python pad_loads.py > pad_loads.txt

The crane is a stiff frame on four equal springs that push and never pull. Of all pad loads that are at rest (sum and both moments), the springs take
those of least energy, sum of squares, with none below nothing: a quadratic programme, solved by scipy.optimize.nnls with the equations of rest as very
heavy rows. Nothing here knows the rule "set it to 0, add to the diagonal". The worst slew is found on a grid of 0.01 degrees, then 0.0005.
Weights in t, lengths in m, the slew from the carrier's front, anticlockwise.
"""
import math
import sys

import numpy as np
import scipy
from scipy.optimize import nnls

SIDES = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]], float)  # front left, rear left, rear right, front right
HEAVY = 1e5


def pads(c, slew):
    xy = SIDES * [c["length"] / 2, c["width"] / 2] + [c["ahead"], 0.0]
    u = np.array([math.cos(slew), math.sin(slew)])
    boom_r = c["boom_cg"] * (c["radius"] + c["pin_back"]) - c["pin_back"]
    weights = [
        (c["carrier"], np.array([c["carrier_ahead"], 0.0])),
        (c["upper"], -c["upper_behind"] * u),
        (c["counterweight"], -c["counterweight_behind"] * u),
        (c["boom"], boom_r * u),
        (c["load"], c["radius"] * u),
    ]
    total = sum(w for w, _ in weights)
    moment = sum(w * p for w, p in weights)
    rest = np.vstack([np.ones(4), xy.T]) * HEAVY
    p, residual = nnls(np.vstack([rest, np.eye(4)]), np.concatenate([[total * HEAVY, *(moment * HEAVY)], np.zeros(4)]), maxiter=1000)
    off = np.abs(np.vstack([np.ones(4), xy.T]) @ p - [total, *moment]).max()
    return None if off > 1e-3 * total else p


def worst(c):
    best = (0.0, 0.0)
    a, b, step = c["from"], c["to"], 0.1
    while True:
        for d in np.arange(min(a, b), max(a, b) + step / 2, step):
            d = min(d, max(c["from"], c["to"]))
            p = pads(c, math.radians(d))
            load = math.inf if p is None else p.max()
            if load > best[1] + 1e-12:
                best = (float(d), load)
        if step < 1e-3 or math.isinf(best[1]):
            return best
        a, b, step = max(min(c["from"], c["to"]), best[0] - step), min(max(c["from"], c["to"]), best[0] + step), step / 20


S90 = dict(length=7.0, width=7.0, ahead=0.0, pin_back=1.4, carrier=28.0, carrier_ahead=0.6, upper=8.0, upper_behind=0.5, counterweight=22.5,
           counterweight_behind=3.2, boom=11.5, boom_cg=0.42)
CASES = [
    ("90 t, heaviest box at 9.42 m, all round", S90, dict(load=17.94, radius=9.42), 0, 360),
    ("90 t, box picked at 14.64 m, a quarter to the left", S90, dict(load=14.43, radius=14.64), 20, 110),
    ("90 t, the same over the rear", S90, dict(load=14.43, radius=14.64), 150, 205),
    ("90 t, nothing on the hook, boom up", S90, dict(load=0.61, radius=3.0), 0, 360),
    ("90 t, narrow base", dict(S90, width=5.2), dict(load=14.43, radius=14.64), -60, 60),
    ("90 t, narrow base, over the side", dict(S90, width=5.2), dict(load=14.43, radius=14.64), 60, 120),
    ("90 t, pads 0.8 m ahead of the axis", dict(S90, ahead=0.8), dict(load=16.27, radius=12.92), 0, 360),
    ("90 t, at the edge of its chart, a pad lifts", S90, dict(load=13.7, radius=18.0), 30, 60),
    ("90 t, far beyond its chart, a pad lifts all the way", S90, dict(load=17.0, radius=18.0), 38, 52),
    ("60 t, little counterweight, a pad lifts", dict(S90, length=6.4, width=6.2, carrier=20.0, upper=6.0, counterweight=3.0, boom=7.0), dict(load=9.0, radius=13.0), 30, 150),
    ("200 t, full counterweight, nothing on the hook", dict(S90, length=8.7, width=8.3, pin_back=1.8, carrier=34.0, carrier_ahead=0.9, upper=11.0, upper_behind=0.7,
                                                            counterweight=69.0, counterweight_behind=4.1, boom=15.0), dict(load=1.15, radius=4.0), 0, 360),
    ("a square of 20 with the load in its middle (ft and anything)", dict(length=20.0, width=20.0, ahead=0.0, pin_back=0.0, carrier=0.0, carrier_ahead=0.0, upper=0.0,
                                                                      upper_behind=0.0, counterweight=0.0, counterweight_behind=0.0, boom=0.0, boom_cg=0.0), dict(load=100.0, radius=6.0), 90, 90),
]


def main():
    print("python", sys.version.split()[0], "numpy", np.__version__, "scipy", scipy.__version__)
    for name, crane, lift, a, b in CASES:
        c = dict(crane, **lift, **{"from": a, "to": b})
        slew, load = worst(c)
        p = pads(c, math.radians(slew))
        print(f"{name}: worst at {slew:.3f} deg, {load:.5f} t;", "pads " + " ".join(f"{x:.5f}" for x in p))


if __name__ == "__main__":
    main()
