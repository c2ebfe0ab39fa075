"""A hinged panel on a sling, over its whole arc, as a plane body in balance: three equations in three unknowns, solved with numpy.

No formula of moments about the hinge is used: the panel's points are turned by a rotation matrix, and pull and hinge forces come from
the sums of all forces and of all moments about the origin of the site. Units N, m, degrees from the horizontal.

Run: pip install numpy; python3 tests/oracles/roof_raise.py > tests/oracles/roof_raise.txt
"""

import numpy as np

HINGE = np.array([3.7, 6.9])


def balance(weight, d, n, l, a, lean):
    """Pull, and force of the hinge on the panel outwards and up; lean of the sling from plumb towards the hinge."""
    turn = np.array([[np.cos(a), -np.sin(a)], [np.sin(a), np.cos(a)]])
    cg, pick = HINGE + turn @ [d, n], HINGE + turn @ [l, 0.0]
    sling = np.array([-np.sin(lean), np.cos(lean)])
    cross = lambda p, f: p[0] * f[1] - p[1] * f[0]
    m = np.array([
        [sling[0], 1.0, 0.0],
        [sling[1], 0.0, 1.0],
        [cross(pick, sling), cross(HINGE, [1.0, 0.0]), cross(HINGE, [0.0, 1.0])],
    ])
    load = np.array([0.0, -weight])
    return np.linalg.solve(m, -np.array([load[0], load[1], cross(cg, load)]))


PANELS = [
    ("sample", 23131.09, 2.2555, 0.0, 4.0234, 0.0, 25.0),
    ("square", 18000.0, 2.4, 0.35, 4.6, -5.0, 95.0),
    ("over", 9000.0, 1.1, 0.6, 2.0, 0.0, 140.0),
]

print("# numpy", np.__version__)
print("# panel angle_deg lean_deg pull_n hinge_along_n hinge_up_n")
for name, weight, d, n, l, low, high in PANELS:
    for lean in (0.0, 3.0, -3.0, 12.0, -12.0):
        for a in np.linspace(low, high, 9):
            try:
                pull, along, up = balance(weight, d, n, l, np.radians(a), np.radians(lean))
            except np.linalg.LinAlgError:
                continue
            if np.cos(np.radians(a - lean)) < 0.02:
                # the sling runs along the panel, or pushes: a sling cannot
                continue
            print(name, f"{a:.10g} {lean:g} {pull:.9g} {along:.9g} {up:.9g}")
