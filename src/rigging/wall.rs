//! Where a leg, on its way up from a pick, would pass through the box: which wall it touches there, and how far inside.

use super::hung::{HangingLoad, Wall, WallTouch};

/// A leg is said to touch a wall where it would pass this far inside, m: less than a corner softener.
const TOUCHES_M: f64 = 0.005;

type P3 = [f64; 3];

/// The straight run of a leg from a pick to what it touches next, in space, m.
pub(super) struct FromPick {
    /// The leg, by its place among the members.
    pub member: usize,
    /// The pick, by its place in the box's list.
    pub pick: usize,
    /// From the pick to what comes next.
    pub run_m: [P3; 2],
}

/// The runs that come inside the box. `box_m`: its corners as it hangs, in the order of [`super::Figure::box_m`].
///
/// The box is the solid of its length, width and height. A leg that is made fast to one wall has to come round the top of that wall, however near
/// another one is: the wall is the one nearest to the pick, and the depth is that behind this wall where the run leaves the box, in nearly all cases
/// at the height of the eave. A pick that lies inside the wall counts with its depth: the leg passes there. Derived: a line clipped by six planes.
pub(super) fn touches(load: &HangingLoad, box_m: &[P3; 8], runs: impl Iterator<Item = FromPick>) -> Vec<WallTouch> {
    runs.filter_map(|run| touch(load, box_m, &run)).collect()
}

fn touch(load: &HangingLoad, box_m: &[P3; 8], run: &FromPick) -> Option<WallTouch> {
    let section = Section::at(load, box_m, run.run_m[0])?;
    let [from, to] = run.run_m.map(|p| inside_of_m(load, section.in_box_m(p)));
    if from[ROOF] <= TOUCHES_M {
        return None;
    }
    let [enters, leaves] = inside(&from, &to)?;
    let depth_m = |wall: usize, t: f64| from[wall] + t * (to[wall] - from[wall]);
    let nearest_m = from[..4].iter().copied().fold(f64::INFINITY, f64::min);
    let wall = (0..4)
        .filter(|wall| from[*wall] <= nearest_m + TOUCHES_M)
        .min_by(|a, b| depth_m(*a, leaves).total_cmp(&depth_m(*b, leaves)))?;
    let deepest = if depth_m(wall, enters) > depth_m(wall, leaves) {
        enters
    } else {
        leaves
    };
    let inside_m = depth_m(wall, deepest);
    let [a, b] = run.run_m;
    (inside_m > TOUCHES_M).then(|| WallTouch {
        member: run.member,
        pick: run.pick,
        wall: [Wall::Side(0), Wall::Side(1), Wall::End(0), Wall::End(1)][wall],
        inside_m,
        at_m: core::array::from_fn(|k| a[k] + deepest * (b[k] - a[k])),
    })
}

const ROOF: usize = 5;

/// Distances of a place inside the two sides, the two ends, the floor and the roof, m; below nothing outside.
fn inside_of_m(load: &HangingLoad, [x, y, z]: P3) -> [f64; 6] {
    [y, load.width_m - y, x, load.length_m - x, z, load.height_m - z]
}

/// Which part of a run is inside all six faces, as shares of it; `None` where none is.
fn inside(from: &[f64; 6], to: &[f64; 6]) -> Option<[f64; 2]> {
    let mut part = [0.0_f64, 1.0_f64];
    for (from, to) in from.iter().zip(to) {
        let crosses = from / (from - to);
        if to > from {
            part[0] = part[0].max(crosses);
        } else if to < from {
            part[1] = part[1].min(crosses);
        } else if *from < 0.0 {
            return None;
        }
    }
    (part[0] < part[1]).then_some(part)
}

/// The box's own axes at one place of its length: a twisted box has others at each end.
struct Section {
    at_m: P3,
    x_m: f64,
    axes: [P3; 3],
}

impl Section {
    /// At the section of a place; `None` for a box without size.
    fn at(load: &HangingLoad, box_m: &[P3; 8], p: P3) -> Option<Self> {
        let sizes_m = [load.length_m, load.width_m, load.height_m];
        if sizes_m.iter().any(|size_m| *size_m <= 0.0) {
            return None;
        }
        let [along, up, across, far_across, far_up] =
            [[0, 1], [0, 4], [0, 3], [1, 2], [1, 5]].map(|[from, to]| minus(box_m[to], box_m[from]));
        let share = (dot(minus(p, box_m[0]), along) / dot(along, along)).clamp(0.0, 1.0);
        let between = |a: P3, b: P3| core::array::from_fn(|k| a[k] + share * (b[k] - a[k]));
        let axes = [along, between(across, far_across), between(up, far_up)];
        Some(Self {
            at_m: between(box_m[0], box_m[1]),
            x_m: share * load.length_m,
            axes: axes.map(|axis| axis.map(|x| x / dot(axis, axis).sqrt())),
        })
    }

    fn in_box_m(&self, p: P3) -> P3 {
        let away = minus(p, self.at_m);
        let [x, y, z] = self.axes.map(|axis| dot(away, axis));
        [self.x_m + x, y, z]
    }
}

fn minus(a: P3, b: P3) -> P3 {
    core::array::from_fn(|k| a[k] - b[k])
}

fn dot(a: P3, b: P3) -> f64 {
    (0..3).map(|k| a[k] * b[k]).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A box of 12 × 4 × 3 m, level, its first corner at the origin.
    fn found(run_m: [P3; 2]) -> Option<(Wall, f64, P3)> {
        let load = HangingLoad {
            length_m: 12.0,
            width_m: 4.0,
            height_m: 3.0,
            ..HangingLoad::default()
        };
        let floor = [[0.0, 0.0], [12.0, 0.0], [12.0, 4.0], [0.0, 4.0]];
        let box_m = core::array::from_fn(|i| {
            let [x, y] = floor[i % 4];
            [x, y, if i < 4 { 0.0 } else { 3.0 }]
        });
        let run = FromPick {
            member: 0,
            pick: 0,
            run_m,
        };
        touches(&load, &box_m, core::iter::once(run))
            .pop()
            .map(|touch| (touch.wall, touch.inside_m, touch.at_m))
    }

    #[track_caller]
    fn is(run_m: [P3; 2], wall: Wall, inside_m: f64, at_m: P3) {
        let (found_wall, found_m, found_at_m) = found(run_m).unwrap();
        assert_eq!(found_wall, wall);
        assert!((found_m - inside_m).abs() < 1e-12, "{found_m}");
        assert!(
            (0..3).all(|k| (found_at_m[k] - at_m[k]).abs() < 1e-12),
            "{found_at_m:?}"
        );
    }

    /// By hand, similar triangles: 3 m up of 6 m is half the way, so that a lean of 1 m over 6 m is 0.5 m inside at the eave.
    #[test]
    fn a_leg_that_leans_in_is_inside_at_the_eave() {
        is([[5.0, 0.0, 0.0], [5.0, 1.0, 6.0]], Wall::Side(0), 0.5, [5.0, 0.5, 3.0]);
        is([[5.0, 4.0, 0.0], [5.0, 3.0, 6.0]], Wall::Side(1), 0.5, [5.0, 3.5, 3.0]);
        is(
            [[12.0, 2.0, 1.0], [11.0, 2.0, 5.0]],
            Wall::End(1),
            0.5,
            [11.5, 2.0, 3.0],
        );
    }

    /// Made fast to the side 0.2 m from the end, 0.5 m behind the side at the eave: the end is nearer there, but the leg comes over the side's top.
    #[test]
    fn the_wall_is_the_one_it_is_made_fast_to() {
        is([[0.2, 0.0, 0.0], [0.2, 1.0, 6.0]], Wall::Side(0), 0.5, [0.2, 0.5, 3.0]);
        // at the very corner it comes round whichever is nearer
        is([[0.0, 0.0, 0.0], [0.4, 1.0, 6.0]], Wall::End(0), 0.2, [0.2, 0.5, 3.0]);
    }

    /// A plumb strap from a pick 0.1 m inside the wall is 0.1 m inside all the way up.
    #[test]
    fn a_recessed_pick_counts_with_its_depth() {
        is([[5.0, 0.1, 0.0], [5.0, 0.1, 6.0]], Wall::Side(0), 0.1, [5.0, 0.1, 3.0]);
    }

    /// It enters 1 m up, where it has come in by the 0.1 m that the pick stands out, and is 0.2 m inside at the eave.
    #[test]
    fn a_pick_that_stands_out() {
        is([[5.0, -0.1, 0.0], [5.0, 0.5, 6.0]], Wall::Side(0), 0.2, [5.0, 0.2, 3.0]);
    }

    /// Out of the end before it comes to the eave: 2 m along and 1 m up of (4, 1, 2), half of 1 m in.
    #[test]
    fn it_may_leave_through_another_wall() {
        is([[2.0, 0.0, 0.0], [-2.0, 1.0, 2.0]], Wall::Side(0), 0.5, [0.0, 0.5, 1.0]);
    }

    #[test]
    fn what_stays_outside_touches_nothing() {
        for run_m in [
            [[5.0, 0.0, 0.0], [5.0, -0.5, 6.0]],
            [[5.0, 0.0, 0.0], [9.0, 0.0, 6.0]],
            [[5.0, 1.0, 3.0], [6.0, 2.0, 9.0]],
            [[5.0, -0.2, 0.0], [5.0, 0.0, 6.0]],
            [[5.0, 0.0, 0.0], [5.0, 0.009, 6.0]],
        ] {
            assert!(found(run_m).is_none(), "{run_m:?}");
        }
    }
}
