"""Reference hangs for the solver in src/statics, by a general-purpose optimiser.

Written apart from the solver: every body is its origin and a rotation vector, the energy is summed in plain numpy, its
gradient is taken by complex steps, its minimum is found by scipy.optimize.minimize(method="trust-exact") and polished by
least-squares Newton steps. A strap over an edge has its crossing point as one more unknown. No formula, code or
derivative of the solver is used.

Run: pip install numpy scipy; python3 tests/oracles/hang_reference.py > tests/oracles/hang_reference.txt
"""

import sys

import numpy as np
import scipy
from scipy.interpolate import CubicSpline
from scipy.optimize import minimize

G = 9.80665
INF = float("inf")


def rotation(v):
    """Rodrigues' formula, good for complex numbers and through zero."""
    a2 = v @ v
    if abs(a2) < 1e-12:
        s, c = 1 - a2 / 6, 0.5 - a2 / 24
    else:
        a = np.sqrt(a2)
        s, c = np.sin(a) / a, (1 - np.cos(a)) / a2
    k = np.array([[0, -v[2], v[1]], [v[2], 0, -v[0]], [-v[1], v[0], 0]])
    return np.eye(3) + s * k + c * (k @ k)


def rot_x(a):
    return np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]])


def norm(v):
    return np.sqrt(v @ v)


class Strip:
    """Shapes of a bent body: height and slope at x of each inner section's natural spline, straight beyond the ends."""

    def __init__(self, neutral_z, sections, ei):
        self.neutral_z, self.sections = neutral_z, sections
        self.splines = [CubicSpline(sections, row, bc_type="natural") for row in np.eye(len(sections))[1:-1]]
        def energy(f, g):
            total = 0.0
            for a, b in zip(sections, sections[1:]):
                m = (a + b) / 2
                parts = [f(x, 2) * g(x, 2) for x in (a, m, b)]
                total += (b - a) / 6 * (parts[0] + 4 * parts[1] + parts[2])
            return total
        self.stiffness = ei * np.array([[energy(f, g) for g in self.splines] for f in self.splines])

    def moves(self, at):
        x = min(max(at[0], self.sections[0]), self.sections[-1])
        slopes = [float(f(x, 1)) for f in self.splines]
        heights = [float(f(x)) + slope * (at[0] - x) for f, slope in zip(self.splines, slopes)]
        return [np.array([-slope * (at[2] - self.neutral_z), 0.0, height]) for slope, height in zip(slopes, heights)]


class Rig:
    def __init__(self):
        self.bodies, self.fixed, self.points, self.members = [], [], [], []

    def body(self, masses, nodes, at, heading=0.0, twist=None, edges=(), bend=None):
        self.bodies.append(dict(masses=masses, nodes=nodes, at=at, heading=heading, twist=twist, edges=edges, bend=bend))
        return len(self.bodies) - 1

    def hook(self, at):
        self.fixed.append(np.array(at, float))
        return ("fixed", len(self.fixed) - 1)

    def point(self, mass, at):
        self.points.append((mass, at))
        return ("point", len(self.points) - 1)

    def member(self, path, length, ea, length_for_stiffness=None):
        self.members.append((path, length, ea / (length_for_stiffness or length)))

    def start(self):
        x = []
        for b in self.bodies:
            x += list(b["at"]) + [0.0, 0.0, b["heading"]]
            x += [0.0] * (self.bays(b) + self.bends(b))
        for _, at in self.points:
            x += list(at)
        x += [0.0] * sum(1 for path, _, _ in self.members for stop in path if stop[0] == "edge")
        return np.array(x, float)

    def bays(self, b):
        return 0 if b["twist"] is None else len(b["twist"][1]) - 1

    def bends(self, b):
        return 0 if b["bend"] is None else len(b["bend"].splines)

    def unpack(self, x):
        at, poses = 0, []
        for b in self.bodies:
            n, m = self.bays(b), self.bends(b)
            poses.append((x[at : at + 3], rotation(x[at + 3 : at + 6]), x[at + 6 : at + 6 + n], x[at + 6 + n : at + 6 + n + m]))
            at += 6 + n + m
        points = [x[at + 3 * i : at + 3 * i + 3] for i in range(len(self.points))]
        return poses, points, list(x[at + 3 * len(self.points) :])

    def place(self, poses, body, local, section=None):
        b = self.bodies[body]
        origin, r, phi, sags = poses[body]
        drawn = local = np.asarray(local)
        if b["twist"] is not None:
            (ya, za), sections, _ = b["twist"]
            x = local[0] if section is None else section
            psi = 0
            for i in range(len(sections) - 1):
                psi = psi + phi[i] * min(max((x - sections[i]) / (sections[i + 1] - sections[i]), 0.0), 1.0)
            axis = np.array([0.0, ya, za])
            local = axis + rot_x(psi) @ (local - axis)
        if b["bend"] is not None:
            local = local + sum(q * u for q, u in zip(sags, b["bend"].moves(drawn)))
        return origin + r @ local

    def lengths(self, x):
        poses, points, slides = self.unpack(x)
        out, runs = [], []
        for path, _, _ in self.members:
            section = next((self.bodies[s[1]]["nodes"][s[2]][0] for s in path if s[0] == "node"), None)
            places = []
            for stop in path:
                if stop[0] == "fixed":
                    places.append(self.fixed[stop[1]])
                elif stop[0] == "point":
                    places.append(points[stop[1]])
                elif stop[0] == "node":
                    places.append(self.place(poses, stop[1], self.bodies[stop[1]]["nodes"][stop[2]]))
                else:
                    a, b = self.bodies[stop[1]]["edges"][stop[2]]
                    a, b = np.array(a, float), np.array(b, float)
                    on_edge = (a + b) / 2 + (b - a) / norm(b - a) * slides.pop(0)
                    places.append(self.place(poses, stop[1], on_edge, section))
            runs.append(places)
            out.append(sum(norm(q - p) for p, q in zip(places, places[1:])))
        return out, runs

    def energy(self, x):
        poses, points, _ = self.unpack(x)
        e = 0
        for i, b in enumerate(self.bodies):
            for mass, at in b["masses"]:
                e = e + mass * G * self.place(poses, i, at)[2]
            if b["twist"] is not None:
                _, sections, gj = b["twist"]
                for j in range(len(sections) - 1):
                    e = e + 0.5 * gj / (sections[j + 1] - sections[j]) * poses[i][2][j] ** 2
            if b["bend"] is not None:
                e = e + 0.5 * poses[i][3] @ b["bend"].stiffness @ poses[i][3]
        for (mass, _), at in zip(self.points, points):
            e = e + mass * G * at[2]
        for length, (_, free, k) in zip(self.lengths(x)[0], self.members):
            if np.real(length) > free:
                e = e + 0.5 * k * (length - free) ** 2
        return e

    def gradient(self, x):
        g = np.empty(len(x))
        for i in range(len(x)):
            z = x.astype(complex)
            z[i] += 1e-30j
            g[i] = np.imag(self.energy(z)) / 1e-30
        return g

    def hessian(self, x):
        n, h = len(x), 1e-6
        m = np.empty((n, n))
        for i in range(n):
            d = np.zeros(n)
            d[i] = h
            m[i] = (self.gradient(x + d) - self.gradient(x - d)) / (2 * h)
        return (m + m.T) / 2

    def solve(self):
        x = self.start()
        true = self.members
        for soft in (0.1, 1.0):
            self.members = [(p, l, k * soft) for p, l, k in true]
            # Short steps: long ones jump to a minimum with a body upside down.
            options = dict(gtol=1e-3, maxiter=500, initial_trust_radius=0.05, max_trust_radius=0.1)
            energy = lambda x: float(np.real(self.energy(x)))
            x = minimize(energy, x, jac=self.gradient, hess=self.hessian, method="trust-exact", options=options).x
        self.members = true
        for _ in range(8):
            g = self.gradient(x)
            x = x - np.linalg.lstsq(self.hessian(x), g, rcond=1e-9)[0]
        curvatures = np.linalg.eigvalsh(self.hessian(x))
        return x, np.abs(self.gradient(x)).max(), curvatures[0]


def report(name, rig):
    x, residual, softest = rig.solve()
    lengths, runs = rig.lengths(x)
    poses, _, _ = rig.unpack(x)
    assert all(r[2, 2] > 0.5 for _, r, _, _ in poses), (name, "a body has turned over")
    tensions = [max(k * (length - free), 0.0) for length, (_, free, k) in zip(lengths, rig.members)]
    weight = G * (sum(m for b in rig.bodies for m, _ in b["masses"]) + sum(m for m, _ in rig.points))
    assert residual < 2e-9 * weight, (name, residual)
    assert softest > -1e-4 * weight, (name, softest)
    carried = 0.0
    for tension, places, (path, _, _) in zip(tensions, runs, rig.members):
        for i, stop in enumerate(path):
            if stop[0] == "fixed":
                for j in (i - 1, i + 1):
                    if 0 <= j < len(path):
                        carried += tension * (places[i] - places[j])[2] / norm(places[i] - places[j])
    assert abs(carried - weight) < 1e-7 * weight, (name, carried, weight)
    out = lambda key, values: print(name, key, *(f"{v:.10g}" for v in values))
    out("tension_n", tensions)
    r = poses[0][1]
    out("tilt_along_rad", [np.arcsin(r[2, 0])])
    if rig.bodies[0]["twist"] is None:
        out("tilt_across_rad", [np.arcsin(r[2, 1])])
    out("origin_z_m", [poses[0][0][2]])
    if len(poses[0][2]):
        out("twist_rad", poses[0][2])
    if len(poses[0][3]):
        out("bend_m", poses[0][3])
    if len(rig.unpack(x)[2]):
        out("slide_m", rig.unpack(x)[2])


def dist(a, b):
    return float(np.linalg.norm(np.subtract(a, b)))


def four(hx, hy, z=0.0):
    return [[-hx, -hy, z], [hx, -hy, z], [hx, hy, z], [-hx, hy, z]]


def bridle(mass_items, picks, hook, longer, ea, twist=None, bend=None):
    rig = Rig()
    rig.body(mass_items, picks, [0, 0, 0], twist=twist, bend=bend)
    h = rig.hook(hook)
    for i, pick in enumerate(picks):
        length = dist(hook, pick) + longer[i]
        rig.member([h, ("node", 0, i)], length, ea)
    return rig


def slack_legs():
    return bridle([(12000.0, [0.4, 0.1, -0.5])], four(5.0, 2.0), [0, 0, 7.0], [0.08, 0, 0.06, 0], 40e6)


def uneven_picks():
    picks = [[-4.6, -1.9, 0.0], [5.2, -2.1, 0.4], [4.7, 2.0, 0.1], [-5.0, 1.7, 0.6]]
    return bridle([(13500.0, [0.5, -0.2, 0.3])], picks, [0.3, 0.1, 7.5], [0.0, 0.01, -0.02, 0.015], 25e6)


def cg_above_picks():
    return bridle([(11000.0, [0.35, -0.25, 2.2])], four(4.5, 2.0), [0, 0, 6.5], [0, 0, 0.01, 0], 30e6)


def two_tiers():
    rig = Rig()
    picks = [[3.0, 0.0, 0.1], [12.8, 0.0, 0.1], [12.8, 4.1, 0.1], [3.0, 4.1, 0.1]]
    rig.body([(15300.0, [9.1, 1.85, 1.27])], picks, [0, 0, 0])
    half = np.pi / 2
    rig.body([(744.0, [0, 0, 0])], [[-4.9, 0, 0], [4.9, 0, 0]], [7.9, 2.05, 9.0])
    rig.body([(213.0, [0, 0, 0])], [[-2.13, 0, 0], [2.13, 0, 0]], [3.0, 2.05, 5.0], half)
    rig.body([(213.0, [0, 0, 0])], [[-2.13, 0, 0], [2.13, 0, 0]], [12.8, 2.05, 5.0], half)
    h = rig.hook([7.9, 2.05, 15.5])
    n = lambda b, i: ("node", b, i)
    ea = 60e6
    rig.member([h, n(1, 0)], 8.63, ea)
    rig.member([h, n(1, 1)], 7.31, ea)
    for bar_end, cross in ((0, 2), (1, 3)):
        rig.member([n(1, bar_end), n(cross, 0)], 4.42, ea)
        rig.member([n(1, bar_end), n(cross, 1)], 4.52, ea)
    for cross, end, pick in ((2, 0, 0), (3, 0, 1), (3, 1, 2), (2, 1, 3)):
        rig.member([n(cross, end), n(0, pick)], 4.88, 9e6)
    return rig


def lifting_beam():
    """One sling to the middle of a beam whose lugs are above and below its axis, four straps to the load."""
    rig = Rig()
    rig.body([(8000.0, [0.25, 0.1, -0.3])], four(3.0, 1.2), [0, 0, 0])
    beam = [[0.05, 0.0, 0.35], [-2.8, 0.0, -0.25], [2.8, 0.0, -0.25]]
    rig.body([(620.0, [0.02, 0.01, 0.0])], beam, [0, 0, 4.0])
    h = rig.hook([0, 0, 8.5])
    n = lambda b, i: ("node", b, i)
    rig.member([h, n(1, 0)], 4.2, 50e6)
    for lug, pick in ((1, 0), (2, 1), (2, 2), (1, 3)):
        rig.member([n(1, lug), n(0, pick)], 4.0, 20e6)
    return rig


def six_picks():
    picks = four(5.5, 2.0) + [[0.2, -2.0, 0.1], [-0.1, 2.0, 0.0]]
    return bridle([(14000.0, [0.4, 0.2, -0.2])], picks, [0, 0, 8.0], [0, 0.004, 0, -0.006, 0.02, 0.002], 35e6)


def running_sling():
    """Two slings that each run over the hook's saddle from one pick to another: west pair and east pair."""
    rig = Rig()
    picks = four(4.0, 1.8)
    rig.body([(9000.0, [0.3, 0.25, -0.6])], picks, [0, 0, 0])
    west, east = [-0.5, 0.0, 6.0], [0.5, 0.0, 6.0]
    a, b = rig.hook(west), rig.hook(east)
    n = lambda i: ("node", 0, i)
    rig.member([n(0), a, n(3)], 2 * dist(west, picks[0]), 30e6)
    rig.member([n(1), b, n(2)], 2 * dist(east, picks[1]) + 0.03, 30e6)
    return rig


TWIST_ITEMS = [(3000.0, [-6.0, 0.4, 1.0]), (5200.0, [-1.0, -0.3, 1.4]), (4100.0, [4.5, 0.5, 0.9]), (900.0, [7.0, -1.0, 2.0])]


def twisting_box():
    twist = ((0.1, 1.2), [-5.0, 5.0], 2.5e6)
    return bridle(TWIST_ITEMS, four(5.0, 2.0), [0.4, 0, 7.0], [0.03, 0, 0, 0], 40e6, twist)


def twisting_two_bays():
    picks = four(5.0, 2.0) + [[0.5, -2.0, 0.0], [0.5, 2.0, 0.0]]
    twist = ((-0.2, 0.8), [-5.0, 0.5, 5.0], 1.5e6)
    return bridle(TWIST_ITEMS, picks, [0.4, 0, 7.5], [0.02, 0, -0.01, 0, 0.01, 0], 40e6, twist)


def bending_six_picks():
    picks = four(5.5, 2.0) + [[0.4, -2.0, 0.1], [0.4, 2.0, 0.0]]
    bend = Strip(1.1, [-5.5, 0.4, 5.5], 6e7)
    return bridle(TWIST_ITEMS, picks, [0.4, 0, 8.0], [0.0, 0.004, 0, -0.006, -0.01, 0.002], 35e6, bend=bend)


def bending_and_twisting():
    """Eight picks: three bays that twist and two inner sections that bend, nothing parallel to the neutral axis."""
    sections = [-6.0, -2.0, 2.5, 6.0]
    picks = [[x, y, 0.3] for x in sections for y in (-2.0, 2.0)]
    twist = ((0.1, 0.9), sections, 2e6)
    longer = [0.0, 0.01, 0.004, 0.0, -0.004, 0.0, 0.006, 0.0]
    return bridle(TWIST_ITEMS, picks, [0.1, 0, 9.0], longer, 30e6, twist, Strip(1.4, sections, 2e7))


def soft_box():
    """No torsional rigidity at all: the legs share by statics alone."""
    twist = ((0.0, 0.5), [-5.0, 5.0], 0.0)
    return bridle(TWIST_ITEMS, four(5.0, 2.0), [0.4, 0, 7.0], [0.05, 0, 0, 0], 40e6, twist)


def block_and_links():
    """A hook block on a rope, a master link as a point, a heavy shackle in the middle of one leg."""
    rig = Rig()
    picks = four(4.2, 1.9)
    rig.body([(10500.0, [-0.3, 0.2, -0.4])], picks, [0, 0, 0])
    h = rig.hook([0, 0, 12.0])
    block = rig.point(380.0, [0, 0, 7.0])
    shackle = rig.point(45.0, [-2.1, -0.95, 3.5])
    rig.member([h, block], 5.0, 80e6)
    rig.member([block, shackle], dist([0, 0, 7], [-2.1, -0.95, 3.5]), 30e6)
    rig.member([shackle, ("node", 0, 0)], dist([-2.1, -0.95, 3.5], picks[0]) + 0.01, 30e6)
    for i in (1, 2, 3):
        rig.member([block, ("node", 0, i)], dist([0, 0, 7], picks[i]), 30e6)
    return rig


def two_hooks():
    """Two fixed points a long way apart, the load's centre off the middle, heading drawn askew."""
    rig = Rig()
    picks = four(4.0, 1.5)
    rig.body([(16000.0, [0.6, 0.2, -0.5])], picks, [0, 0, 0], 0.15)
    a, b = rig.hook([-3.0, 0.1, 6.0]), rig.hook([3.2, -0.2, 6.4])
    n = lambda i: ("node", 0, i)
    rig.member([a, n(0)], 6.35, 30e6)
    rig.member([a, n(3)], 6.37, 30e6)
    rig.member([b, n(1)], 6.7, 30e6)
    rig.member([b, n(2)], 6.68, 30e6)
    return rig


def straps_over_eaves():
    """Straps from floor picks bend out round eaves that stand out beyond both; edges not parallel to the box."""
    rig = Rig()
    picks = four(3.0, 2.0)
    edges = [([-5.0, -2.2, 2.8], [5.0, -2.3, 2.9]), ([-5.0, 2.25, 2.8], [5.0, 2.2, 2.8])]
    rig.body([(9500.0, [0.2, 0.1, 1.2])], picks, [0, 0, 0], edges=edges)
    h = rig.hook([0, 0, 9.0])
    n = lambda i: ("node", 0, i)
    lengths = [9.75, 9.8, 9.8, 9.75]
    for i, side in ((0, 0), (1, 0), (2, 1), (3, 1)):
        rig.member([h, ("edge", 0, side), n(i)], lengths[i], 12e6)
    return rig


CASES = [
    slack_legs, uneven_picks, cg_above_picks, two_tiers, lifting_beam, six_picks, running_sling, twisting_box,
    twisting_two_bays, soft_box, block_and_links, two_hooks, straps_over_eaves, bending_six_picks, bending_and_twisting,
]

if __name__ == "__main__":
    print(f"# python {sys.version.split()[0]}, numpy {np.__version__}, scipy {scipy.__version__}")
    for case in CASES:
        report(case.__name__, case())
