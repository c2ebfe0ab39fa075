"""Bars under compression and bending by ASME BTH-1 (from memory), worked out apart from the program.

Sections come from numerical integration (scipy.integrate over the ring or the square), not from closed forms; the column curve's
meeting point is found with scipy.optimize; moments by numerical integration of the load. Units: kip, inch, ksi.

Run: pip install numpy scipy; python3 tests/oracles/bth1.py > tests/oracles/bth1.txt
"""

import platform

import numpy as np
import scipy
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq

E = 29000.0


def pipe(d, t):
    """Area and second moment of a ring by integration in polar coordinates."""
    ri, ro = d / 2 - t, d / 2
    area, _ = dblquad(lambda r, _: r, 0, 2 * np.pi, ri, ro)
    second, _ = dblquad(lambda r, a: r * (r * np.sin(a)) ** 2, 0, 2 * np.pi, ri, ro)
    return area, second


def tube(b, t):
    """Area and second moment of a square ring by integration over its height."""
    inner = b / 2 - t

    def width(y):
        return b if abs(y) > inner else 2 * t

    points = [-inner, inner]
    area, _ = quad(width, -b / 2, b / 2, points=points)
    second, _ = quad(lambda y: width(y) * y * y, -b / 2, b / 2, points=points)
    return area, second


def column(fy, nd, slender):
    cc = brentq(lambda s: np.pi**2 * E / s**2 - fy / 2, 1.0, 1000.0)
    if slender <= cc:
        num = fy - fy * slender**2 / (2 * cc**2)
        den = nd + nd * 9 / 40 * (slender / cc) - nd * 3 / 40 * (slender / cc) ** 3
        return num / den, cc
    return np.pi**2 * E / (1.15 * nd * slender**2), cc


def combined(area, second, depth, length, fy, nd, axial, moment):
    r = np.sqrt(second / area)
    fa, fb = axial / area, moment * (depth / 2) / second
    allowed, _ = column(fy, nd, length / r)
    euler = np.pi**2 * E / (1.15 * nd * (length / r) ** 2)
    buckles = fa / allowed + fb / ((1 - fa / euler) * fy / nd)
    plain = fa / (fy / nd) + fb / (fy / nd)
    return length / r, allowed, fa, fb, max(buckles, plain)


def own_weight_moment(weight, length):
    """Largest moment of an even weight between two ends, kip-inch: half the weight at the end less what lies between."""
    half, _ = quad(lambda x: weight / length * (length / 2 - x), 0, length / 2)
    return weight / 2 * length / 2 - half


CASES = [
    # name, section, depth in, length in, Fy ksi, Nd, compression kip, eccentricity in, own weight kip
    ("pipe 8.625 x 0.322, 32 ft", pipe(8.625, 0.322), 8.625, 384.0, 35.0, 3.0, 13.838, 3.0, 1.640),
    ("pipe 6.625 x 0.432, 20 ft", pipe(6.625, 0.432), 6.625, 240.0, 35.0, 2.0, 30.0, 2.0, 0.572),
    ("pipe 4.5 x 0.237, 20 ft, slender", pipe(4.5, 0.237), 4.5, 240.0, 35.0, 2.0, 8.0, 0.5, 0.216),
    ("tube 6 x 0.375, 14 ft", tube(6.0, 0.375), 6.0, 168.0, 46.0, 3.0, 7.5, 1.5, 0.470),
    ("tube 8 x 0.5, 32 ft", tube(8.0, 0.5), 8.0, 384.0, 46.0, 3.0, 25.0, 4.0, 1.560),
    ("tube 4 x 0.25, 24 ft, slender", tube(4.0, 0.25), 4.0, 288.0, 46.0, 3.0, 4.0, 0.25, 0.293),
    ("tube 10 x 0.375, 40 ft, bending only", tube(10.0, 0.375), 10.0, 480.0, 50.0, 3.0, 0.0, 0.0, 1.900),
]


def main():
    print(f"python {platform.python_version()}, numpy {np.__version__}, scipy {scipy.__version__}")
    print("name | A in2 | I in4 | KL/r | Fa ksi | fa ksi | fb ksi | use")
    for name, (area, second), depth, length, fy, nd, axial, e, weight in CASES:
        moment = axial * e + own_weight_moment(weight, length)
        slender, allowed, fa, fb, use = combined(area, second, depth, length, fy, nd, axial, moment)
        print(f"{name} | {area:.6f} | {second:.6f} | {slender:.5f} | {allowed:.6f} | {fa:.6f} | {fb:.6f} | {use:.6f}")
    print("Fy ksi | Nd | Cc | Fa just below | Fa just above")
    for fy in (36.0, 50.0):
        for nd in (2.0, 3.0):
            _, cc = column(fy, nd, 1.0)
            below, above = column(fy, nd, cc * (1 - 1e-9))[0], column(fy, nd, cc * (1 + 1e-9))[0]
            print(f"{fy} | {nd} | {cc:.6f} | {below:.6f} | {above:.6f}")
    print("lug: t 1, hole 2.06, pin 2, end 1.5, side 1.5 in, Fy 36, Fu 58, Nd 3; kip: tension, splitting, shear out, bearing, pin")
    print(" | ".join(f"{x:.6f}" for x in lug(1.0, 2.06, 2.0, 1.5, 1.5, 36.0, 58.0, 3.0)))


def lug(t, dh, dp, a, be, fy, fu, nd):
    cr = 1 - 0.275 * np.sqrt(1 - dp**2 / dh**2)
    beff = min(be, 4 * t, be * 0.6 * fu / fy * np.sqrt(dh / be))
    radius = a + dh / 2
    phi = np.deg2rad(55 * dp / dh)
    shear_plane, _ = quad(lambda p: np.sin(p), 0, phi)
    return (
        cr * fu / (1.2 * nd) * 2 * t * beff,
        cr * fu / (1.2 * nd) * (1.13 * (radius - dh / 2) + 0.92 * be / (1 + be / dh)) * t,
        0.7 * fu / (1.2 * nd) * 2 * (a + dp / 2 * shear_plane) * t,
        1.25 * fy / nd * dp * t,
        fy / (np.sqrt(3) * nd) * 2 * np.pi * dp**2 / 4,
    )


main()
