"""The scenario's kitchen box as a beam, and its two roof raises, from the plan file alone.

Beam: plane frame elements by PyNite through `box_beam.solve`; largest values read at many places. Torque: rows and pulls summed by hand-made
numpy sums about the middle of the box. Raises: the pick's path on the site by complex numbers, pulls by `roof_raise.balance`.

Run beside the other two: python3 tests/oracles/kitchen_box.py > tests/oracles/kitchen_box.txt
"""

import contextlib
import io
import json
import math
import pathlib

import numpy as np

with contextlib.redirect_stdout(io.StringIO()):
    from box_beam import solve
    from roof_raise import balance

FT, LB, G = 0.3048, 0.45359237, 9.80665
PLAN = json.loads((pathlib.Path(__file__).parent.parent / "plans/v1/halden.json").read_text())["plan"]


def number(entry):
    value, unit = entry["typed"].replace(",", "").split(" ", 1)
    factor = {"ft": FT, "m": 1.0, "mm": 0.001, "lb": LB, "deg": math.pi / 180, "%": 0.01, "kip ft2": 1000 * LB * G * FT * FT}[unit]
    return float(value) * factor


def kitchen():
    box = next(b for b in PLAN["boxes"] if b["id"] == "A1")
    length = number(box["length"])
    rows = []
    for c in box["components"]:
        at, kg, run = c["shape"]["point"]["at"], number(c["weight"]["lump"]["mass"]), number(c["run"])
        x = number(at["x"])
        half = min(run / 2, x, length - x)
        rows.append((kg, x, half, number(at["y"])))
    planned = number(box["ticket"]["mass"]) * 1.03
    scale = planned / sum(r[0] for r in rows)
    # places to a tenth of a millimetre, so that equal ones are one
    tidy = lambda x: round(x, 4)
    loads = [(kg * scale * G, tidy(x - half), tidy(x + half)) for kg, x, half, _ in rows]
    length = tidy(length)
    picks = sorted({tidy(number(p["x"])) for p in box["picks"]})
    reactions, _, shear, sag, moments = solve(length, loads, picks, ei=number(box["ei"]), cells=240)
    print("kitchen weight_n", f"{planned * G:.8g}")
    print("kitchen reactions_n", *(f"{r:.8g}" for r in reactions))
    print("kitchen moments_n_m", f"{max(moments):.6g}", f"{min(moments):.6g}")
    print("kitchen shear_n", f"{max(abs(v) for v in shear.values()):.6g}")
    between = [v for x, v in sag.items() if picks[0] <= x <= picks[1]]
    beyond = [v for x, v in sag.items() if not picks[0] <= x <= picks[1]]
    print("kitchen sags_m", f"{max(between, key=abs):.6g}", f"{max(beyond, key=abs):.6g}")


def raises():
    for lift in PLAN["lifts"]:
        raise_ = lift["load"].get("roof_raise")
        if not raise_:
            continue
        box = next(b for b in PLAN["boxes"] if b["id"] == raise_["on"])
        arc = raise_["arc"]
        corner = complex(number(box["set_corner"]["east"]), number(box["set_corner"]["north"]))
        turn = complex(math.cos(number(box["set_heading"])), math.sin(number(box["set_heading"])))
        crane = complex(number(PLAN["set_up"]["at"]["east"]), number(PLAN["set_up"]["at"]["north"]))
        out = 1.0 if arc.get("toward_second") else -1.0
        weight, d, l, n = number(raise_["panel"]) * G, number(raise_["hinge_to_cg"]), number(raise_["hinge_to_pull"]), number(arc["cg_square"])
        rig = next(r for r in PLAN["rigs"] if r["id"] == lift["rig"])
        lean = math.atan2(number(arc["hook_off"]), number(rig["arrangement"]["simple"]["hook_above"]))
        angles = np.linspace(number(arc["from"]), number(arc["to"]), 11)
        radii = [abs(corner + turn * complex(number(arc["pull_along"]), number(arc["hinge_across"]) + out * l * math.cos(a)) - crane) for a in angles]
        pulls = [max((balance(weight, d, n, l, a, s)[0] for s in (-lean, 0.0, lean)), key=abs) for a in angles]
        print(lift["id"], "radius_m", *(f"{r:.8g}" for r in radii))
        print(lift["id"], "pull_n", *(f"{p:.8g}" for p in pulls))


kitchen()
raises()
