"""When a crane's day ends: triangular minutes per step put together with numpy.convolve, scipy's triangular distribution giving each whole minute
its chance; beside it the same day drawn at random many times, each step from scipy's continuous distribution.

A carrier that comes later makes the crane wait; a break is taken at the first end of a step from its minute on.

Run: pip install numpy scipy; python3 tests/oracles/day_clock.py > tests/oracles/day_clock.txt
"""

import platform

import numpy as np
import scipy
from scipy import stats

# step: low, likely, high minutes, and the minute before which it cannot begin
HALDEN = [(75, 90, 120, None)] + [(30, 45, 60, None), (0, 0, 20, None), (0, 0, 10, None), (30, 45, 60, None)] * 2
WAITING = [(75, 90, 120, None), (30, 45, 60, 540), (30, 45, 60, 600), (45, 60, 90, None), (15, 20, 30, 740), (45, 60, 75, None)]


def triangle(low, likely, high):
    if low == high:
        return low, np.array([1.0])
    law = stats.triang(c=(likely - low) / (high - low), loc=low, scale=high - low)
    minutes = np.arange(low, high + 1)
    return low, law.cdf(minutes + 0.5) - law.cdf(minutes - 0.5)


def exact(start, steps, pause=None):
    """Chance of each minute of the end; day by minute from 0, apart for before and after the break."""
    size = 4000
    before, after = np.zeros(size), np.zeros(size)
    before[start] = 1.0
    for low, likely, high, not_before in steps:
        if pause:
            at, takes = pause
            due = before.copy()
            due[:at] = 0.0
            before[at:] = 0.0
            after[takes:] += due[:-takes]
        if not_before is not None:
            for part in (before, after):
                part[not_before] += part[:not_before].sum()
                part[:not_before] = 0.0
        first, chance = triangle(low, likely, high)
        shift = lambda part: np.concatenate([np.zeros(first), np.convolve(part, chance)])[:size]
        before, after = shift(before), shift(after)
    return before + after


def drawn(start, steps, pause=None, days=1_000_000):
    """The same with random numbers; minutes are not rounded. Here the break is taken by the day's own clock."""
    rng = np.random.default_rng(9)
    now = np.full(days, float(start))
    rested = np.zeros(days, bool)
    for low, likely, high, not_before in steps:
        if pause:
            due = ~rested & (now >= pause[0] - 0.5)
            now[due] += pause[1]
            rested |= due
        if not_before is not None:
            now = np.maximum(now, not_before)
        now += low if low == high else rng.triangular(low, likely, high, days)
    return now


def row(name, start, steps, pause=None):
    chance = exact(start, steps, pause)
    below = np.cumsum(chance)
    quantile = lambda share: int(np.searchsorted(below, share - 1e-12))
    mean = float(chance @ np.arange(len(chance)))
    days = drawn(start, steps, pause)
    print(f"{name:34} | {quantile(.1):5d} | {quantile(.5):5d} | {quantile(.9):5d} | {mean:.9f} | {below[900]:.12f} | "
          f"{np.quantile(days, .1):.1f} {np.quantile(days, .5):.1f} {np.quantile(days, .9):.1f} {days.mean():.2f}")


print(f"python {platform.python_version()}, numpy {np.__version__}, scipy {scipy.__version__}")
print("minutes from midnight; P10, P50, P90, mean, chance of being done by 15:00; drawn at random P10 P50 P90 mean")
row("nine steps", 360, HALDEN)
row("nine steps, break at 12:00", 360, HALDEN + HALDEN[1:5], (720, 30))
row("carriers late", 360, WAITING)
row("carriers late, break at 10:30", 360, WAITING, (630, 45))
