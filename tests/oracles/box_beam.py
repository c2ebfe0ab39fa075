"""Boxes as beams: shear, moment and deflection by a general frame library (PyNite, plane frame elements, stiffness method), beside printed tables.

Each case: a straight member with a node at every load end, every support and every 1/40 of its length; supports plumb.
Inclined legs are a couple H e and an axial force H at their pick. Units N, m; EI one from end to end. Moments are positive where the
beam sags, deflections are positive downwards from the line through the outer supports.

Run: pip install PyNiteFEA; python3 tests/oracles/box_beam.py > tests/oracles/box_beam.txt
"""

from importlib.metadata import version

import numpy as np
from Pynite import FEModel3D
from scipy.optimize import minimize

EI = 1.0e7


def solve(length, loads, picks, couples=None, springs=None, ei=EI, cells=40):
    """Reactions, and moment and deflection at many places."""
    couples = couples or [(0.0, 0.0)] * len(picks)
    at = {0.0, length, *picks, *(a for _, a, _ in loads), *(b for _, _, b in loads)}
    at |= {round(length * i / cells, 9) for i in range(cells + 1)}
    xs = sorted(at)
    model = FEModel3D()
    model.add_material("m", 1.0e7, 4.0e6, 0.25, 0.0)
    model.add_section("s", 1.0e4, ei / 1.0e7, ei / 1.0e7, 1.0)
    for i, x in enumerate(xs):
        model.add_node(f"n{i}", x, 0, 0)
        model.def_support(f"n{i}", support_DZ=True, support_RX=True, support_RY=True, support_DX=i == 0)
    for i in range(len(xs) - 1):
        model.add_member(f"b{i}", f"n{i}", f"n{i + 1}", "m", "s")
    for k, x in enumerate(picks):
        node = f"n{xs.index(x)}"
        if springs:
            # a strap: a member 1 m long that pulls
            model.add_section(f"strap{k}", springs[k] / 1.0e7, 1e-9, 1e-9, 1e-9)
            model.add_node(f"top{k}", x, 1.0, 0)
            model.def_support(f"top{k}", *[True] * 6)
            model.add_member(f"strap{k}", node, f"top{k}", "m", f"strap{k}")
        else:
            model.def_support(node, support_DY=True, support_DZ=True, support_RX=True, support_RY=True, support_DX=xs.index(x) == 0)
        h, e = couples[k]
        if h:
            # a pull along the box above the axis bends it so that it sags beyond: about z, clockwise
            model.add_node_load(node, "MZ", -h * e)
            model.add_node_load(node, "FX", h)
    for weight, a, b in loads:
        if a == b:
            model.add_node_load(f"n{xs.index(a)}", "FY", -weight)
            continue
        for i in range(len(xs) - 1):
            if xs[i] >= a - 1e-9 and xs[i + 1] <= b + 1e-9:
                w = -weight / (b - a)
                model.add_member_dist_load(f"b{i}", "Fy", w, w)
    model.analyze(check_statics=False)
    reactions = []
    for k, x in enumerate(picks):
        node = model.nodes[f"n{xs.index(x)}"]
        reactions.append(-springs[k] * node.DY["Combo 1"] if springs else node.RxnFY["Combo 1"])
    rise = {x: model.nodes[f"n{i}"].DY["Combo 1"] for i, x in enumerate(xs)}
    first, last = picks[0], picks[-1]
    chord = lambda x: rise[first] + (rise[last] - rise[first]) * (x - first) / (last - first)
    moment, shear, sag = {}, {}, {}
    for i in range(len(xs) - 1):
        member = model.members[f"b{i}"]
        middle = (xs[i + 1] - xs[i]) / 2
        moment[xs[i] + middle] = -member.moment("Mz", middle)
        shear[xs[i] + middle] = member.shear("Fy", middle)
        sag[xs[i]] = chord(xs[i]) - rise[xs[i]]
    sag[xs[-1]] = chord(xs[-1]) - rise[xs[-1]]
    return reactions, moment, shear, sag


def show(name, length, loads, picks, places, couples=None, springs=None):
    reactions, moment, shear, sag = solve(length, loads, picks, couples, springs)
    nearest = lambda table, x: min(table, key=lambda k: abs(k - x))
    print(name, "reactions_n", *(f"{r:.8g}" for r in reactions))
    ms = [nearest(moment, x) for x in places]
    print(name, "moment_at_m", *(f"{x:.10g}" for x in ms))
    print(name, "moment_n_m", *(f"{moment[x]:.8g}" for x in ms))
    print(name, "shear_n", *(f"{abs(shear[x]):.8g}" for x in ms))
    ss = [nearest(sag, x) for x in places]
    print(name, "sag_at_m", *(f"{x:.10g}" for x in ss))
    print(name, "sag_m", *(f"{sag[x]:.8g}" for x in ss))


EVEN = [(120e3, 0.0, 12.0)]
LUMPS = [(20600.0, 0.5, 0.5), (32400.0, 4.0, 4.0), (25500.0, 7.0, 7.0), (29400.0, 12.5, 12.5), (14700.0, 15.0, 15.0)]
MIXED = [(90e3, 0.0, 15.85), (12e3, 11.0, 14.0), (4e3, 14.5, 14.5), (15e3, 0.0, 7.2), (9e3, 2.0, 2.0), (6.5e3, 15.85, 15.85)]

show("even_at_its_ends", 12.0, EVEN, [0.0, 12.0], [3.0, 6.0, 9.0])
show("even_overhanging", 12.0, EVEN, [2.4, 9.6], [0.0, 1.2, 3.0, 6.0, 12.0])
show("even_one_overhang", 12.0, EVEN, [0.0, 8.4], [3.0, 4.2, 8.1, 12.0])
show("one_lump_middle", 10.0, [(50e3, 5.0, 5.0)], [0.0, 10.0], [2.5, 5.0, 7.5])
show("one_lump_aside", 10.0, [(50e3, 7.0, 7.0)], [0.0, 10.0], [3.0, 6.9, 8.0])
show("lumps", 16.0, LUMPS, [3.0, 13.0], [0.0, 2.0, 5.0, 7.0, 10.0, 14.0, 16.0])
show("mixed", 15.85, MIXED, [3.05, 12.8], [0.0, 2.0, 5.0, 8.0, 11.0, 14.5, 15.85])
show("mixed_inclined_legs", 15.85, MIXED, [3.05, 12.8], [0.0, 5.0, 8.0, 11.0, 15.85], couples=[(30e3, -1.4), (-30e3, -1.4)])
show("inclined_legs_uneven_picks", 15.85, MIXED, [3.05, 12.8], [0.0, 5.0, 8.0, 11.0, 15.85], couples=[(30e3, -1.4), (-30e3, 0.6)])
show("three_level_picks", 15.85, MIXED, [2.0, 7.6, 13.6], [0.0, 4.0, 7.0, 10.0, 15.85])
show("four_level_picks", 15.85, MIXED, [1.5, 6.0, 10.0, 14.4], [0.0, 4.0, 8.0, 12.0, 15.85])
show("four_even_level_picks", 12.0, EVEN, [0.0, 4.0, 8.0, 12.0], [2.0, 4.1, 6.0])
# a stiff beam on four alike springs: the straight line of pulls
reactions, *_ = solve(15.85, MIXED, [1.5, 6.0, 10.0, 14.4], springs=[1e5] * 4, ei=1e10, cells=1)
print("four_springs_stiff_box", "reactions_n", *(f"{r:.7g}" for r in reactions))


def best(loads, length, criterion):
    """Where two picks make the largest value least, by a general minimiser over a dense look at the beam itself."""
    x = np.linspace(0.0, length, 4001)

    def bending(a, b):
        weight = sum(w for w, _, _ in loads)
        cg = sum(w * (s + e) / 2 for w, s, e in loads) / weight
        rb = weight * (cg - a) / (b - a)
        m = (weight - rb) * np.clip(x - a, 0, None) + rb * np.clip(x - b, 0, None)
        for w, s, e in loads:
            m -= w * np.clip(x - s, 0, None) if s == e else w / (e - s) * (np.clip(x - s, 0, None) ** 2 - np.clip(x - e, 0, None) ** 2) / 2
        return m

    def worst(ab):
        a, b = ab
        if a < 0 or b > length or b - a < 0.1:
            return 1e12
        m = bending(a, b)
        if criterion == "moment":
            return np.abs(m).max()
        step = x[1] - x[0]
        slope = np.concatenate([[0], np.cumsum((m[1:] + m[:-1]) / 2 * step)])
        v = np.concatenate([[0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
        chord = np.interp(x, [a, b], [np.interp(a, x, v), np.interp(b, x, v)])
        line = lambda t: np.interp(a, x, v) + (np.interp(b, x, v) - np.interp(a, x, v)) * (t - a) / (b - a)
        return np.abs(v - line(x)).max()

    found = min((minimize(worst, [length * p, length * (1 - p)], method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-9, "maxiter": 4000})
                 for p in (0.12, 0.2, 0.27)), key=lambda r: r.fun)
    return [*found.x, found.fun]


for name, loads in (("even", [(120e3, 0.0, 12.0)]), ("mixed", MIXED)):
    length = 12.0 if name == "even" else 15.85
    for criterion in ("moment", "sag"):
        print("best_" + name, criterion, *(f"{v:.7g}" for v in best(loads, length, criterion)))
print("# PyNiteFEA", version("PyNiteFEA"), "numpy", np.__version__, "scipy", version("scipy"))
