"""What each section of picks carries when the box bends between them: a beam on springs by the direct stiffness method.

Plane beam elements (cubic Hermite, two unknowns a node) assembled with numpy, a node at every mass and every pick, the
straps as springs; no spline and no influence line is used. Lengths m, masses kg, EI N m2, springs N/m.

Run: pip install numpy; python3 tests/oracles/continuous_beam.py > tests/oracles/continuous_beam.txt
"""

import platform

import numpy as np

G = 9.80665


def reactions(masses, sections, springs, ei, longer=None):
    """Force in each spring, N; a spring may be longer than the others (m)."""
    longer = longer or [0.0] * len(sections)
    xs = sorted({x for _, x in masses} | set(sections))
    n = len(xs)
    k, f = np.zeros((2 * n, 2 * n)), np.zeros(2 * n)
    for i in range(n - 1):
        h = xs[i + 1] - xs[i]
        a = np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                      [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
        k[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += ei / h**3 * a
    for mass, x in masses:
        f[2 * xs.index(x)] -= mass * G
    for x, spring, long in zip(sections, springs, longer):
        at = 2 * xs.index(x)
        k[at, at] += spring
        f[at] -= spring * long
    w = np.linalg.solve(k, f)
    return [-spring * (w[2 * xs.index(x)] + long) for x, spring, long in zip(sections, springs, longer)]


MASSES = [(2100.0, -7.5), (3300.0, -4.0), (2600.0, -1.0), (1800.0, 1.5), (3000.0, 4.5), (1500.0, 7.0)]
EVEN = [(100.0, 0.05 + 0.1 * i) for i in range(120)]

CASES = [
    ("two_spans", MASSES, [-5.0, 0.5, 5.0], [4.0e6, 5.0e6, 4.0e6], 3.0e7, None),
    ("two_spans_soft_box", MASSES, [-5.0, 0.5, 5.0], [4.0e6, 5.0e6, 4.0e6], 3.0e4, None),
    ("two_spans_stiff_box", MASSES, [-5.0, 0.5, 5.0], [4.0e6, 5.0e6, 4.0e6], 3.0e10, None),
    ("two_spans_one_long", MASSES, [-5.0, 0.5, 5.0], [4.0e6, 5.0e6, 4.0e6], 3.0e7, [0.0, 0.004, 0.0]),
    ("three_spans", MASSES, [-6.0, -1.5, 2.0, 6.0], [4.0e6, 6.0e6, 6.0e6, 4.0e6], 2.0e7, None),
    ("even_two_spans", EVEN, [0.0, 6.0, 12.0], [4.0e6, 4.0e6, 4.0e6], 2.0e2, None),
]

print(f"# python {platform.python_version()}, numpy {np.__version__}")
for name, masses, sections, springs, ei, longer in CASES:
    print(name, "section_n", *(f"{r:.10g}" for r in reactions(masses, sections, springs, ei, longer)))
