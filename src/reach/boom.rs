//! Boom, head and hook: where the boom is when the hook is at a radius.
//!
//! Crane frame: r out from the slew axis towards the hook, z up from grade. The boom pin is `pin_back_m` behind the axis.

use crate::geometry::{distance_m, rotate, segments_distance_m};

/// A crane's boom geometry with a boom length chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boom {
    /// Length from pin to head, m.
    pub length_m: f64,
    /// Pin behind the slew axis, m.
    pub pin_back_m: f64,
    /// Pin above grade, m.
    pub pin_height_m: f64,
    /// Depth across its axis, m.
    pub depth_m: f64,
}

impl Boom {
    /// Height of the boom head above grade with the hook at a radius, m: `z = h + √(L² − (R + a)²)`.
    ///
    /// `None` where the boom does not reach: R + a > L. Algebra only, for the search's inner loop.
    ///
    /// Source: right triangle of boom, pin height and radius.
    pub fn head_height_m(&self, radius_m: f64) -> Option<f64> {
        let out_m = radius_m + self.pin_back_m;
        let square = self.length_m * self.length_m - out_m * out_m;
        (radius_m >= 0.0 && square >= 0.0).then(|| self.pin_height_m + square.sqrt())
    }

    /// Boom angle from the horizontal with the hook at a radius, rad: `θ = acos((R + a)/L)`.
    pub fn angle_rad(&self, radius_m: f64) -> Option<f64> {
        let share = (radius_m + self.pin_back_m) / self.length_m;
        (0.0..=1.0).contains(&share).then(|| libm::acos(share))
    }

    /// Smallest distance between the boom's underside and a level polygon, m; below 0 they overlap.
    ///
    /// `corners_m` are in the crane frame turned so that the boom lies over the first axis: out, across; all at height `top_m`.
    /// The distance is taken to the polygon's edges from the boom's axis, less half its depth.
    pub fn gap_m(&self, radius_m: f64, corners_m: &[[f64; 2]], top_m: f64) -> Option<f64> {
        let axis = [
            [-self.pin_back_m, 0.0, self.pin_height_m],
            [radius_m, 0.0, self.head_height_m(radius_m)?],
        ];
        let at = |p: [f64; 2]| [p[0], p[1], top_m];
        let least_m = (0..corners_m.len())
            .map(|i| segments_distance_m(axis, [at(corners_m[i]), at(corners_m[(i + 1) % corners_m.len()])]))
            .fold(f64::INFINITY, f64::min);
        least_m.is_finite().then_some(least_m - self.depth_m / 2.0)
    }
}

/// Something level under the boom: the load as it is carried, a box that is set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// Corners in plan, east and north, m; none where it has no outline.
    pub outline_m: Vec<[f64; 2]>,
    /// Top above grade, m.
    pub top_m: f64,
    middle_m: [f64; 2],
    round_m: f64,
}

impl Block {
    /// From its corners and its top.
    pub fn new(outline_m: Vec<[f64; 2]>, top_m: f64) -> Self {
        let count = outline_m.len().max(1) as f64;
        let mean = |i: usize| outline_m.iter().map(|p| p[i]).sum::<f64>() / count;
        let middle_m = [mean(0), mean(1)];
        let round_m = outline_m.iter().map(|p| distance_m(*p, middle_m)).fold(0.0, f64::max);
        Self {
            outline_m,
            top_m,
            middle_m,
            round_m,
        }
    }

    /// Gap under a boom that stands at a slew centre with its hook at a point, m; `None` where it has no outline or the boom does not reach.
    pub fn gap_m(&self, boom: &Boom, at_m: [f64; 2], hook_m: [f64; 2]) -> Option<f64> {
        let turn = Slewed::new(at_m, hook_m);
        let corners: Vec<[f64; 2]> = self.outline_m.iter().map(|p| turn.seen(*p)).collect();
        boom.gap_m(turn.radius_m, &corners, self.top_m)
    }

    /// A gap that the real one is not below, m: to the circle about it.
    fn least_gap_m(&self, boom: &Boom, turn: Slewed, head_m: f64) -> f64 {
        let middle = turn.seen(self.middle_m);
        let axis = [[-boom.pin_back_m, 0.0, boom.pin_height_m], [turn.radius_m, 0.0, head_m]];
        let point = [middle[0], middle[1], self.top_m];
        segments_distance_m(axis, [point, point]) - self.round_m - boom.depth_m / 2.0
    }

    /// Whether the gap is at least so wide, m; where it has no outline it is.
    pub fn is_clear(&self, boom: &Boom, turn: Slewed, head_m: f64, gap_m: f64) -> bool {
        if self.outline_m.is_empty() || self.least_gap_m(boom, turn, head_m) > gap_m + 1e-6 {
            return true;
        }
        let mut corners = [[0.0; 2]; 8];
        let count = self.outline_m.len();
        let Some(seen) = corners.get_mut(..count) else {
            let corners: Vec<[f64; 2]> = self.outline_m.iter().map(|p| turn.seen(*p)).collect();
            return is_wide(boom.gap_m(turn.radius_m, &corners, self.top_m), gap_m);
        };
        for (to, from) in seen.iter_mut().zip(&self.outline_m) {
            *to = turn.seen(*from);
        }
        is_wide(boom.gap_m(turn.radius_m, seen, self.top_m), gap_m)
    }
}

fn is_wide(found_m: Option<f64>, wanted_m: f64) -> bool {
    found_m.is_none_or(|found_m| !super::exceeds(wanted_m, found_m))
}

/// The site as it is seen from a crane whose boom lies over its hook: out, across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slewed {
    at_m: [f64; 2],
    turn: (f64, f64),
    /// Slew centre to hook in plan, m.
    pub radius_m: f64,
}

impl Slewed {
    /// With the slew centre and the hook, east and north, m.
    pub fn new(at_m: [f64; 2], hook_m: [f64; 2]) -> Self {
        let radius_m = distance_m(at_m, hook_m);
        let (east, north) = (hook_m[0] - at_m[0], hook_m[1] - at_m[1]);
        let turn = if radius_m > 0.0 {
            (east / radius_m, -north / radius_m)
        } else {
            (1.0, 0.0)
        };
        Self { at_m, turn, radius_m }
    }

    /// A point of the site, m.
    pub fn seen(&self, p: [f64; 2]) -> [f64; 2] {
        rotate([p[0] - self.at_m[0], p[1] - self.at_m[1]], self.turn)
    }
}

/// Height of boom head needed, m: `z = floor + clearance + rig + block + two-block`.
///
/// `floor_m` landing height of the load's underside, `carry_m` clearance over it, `hook_m` hook above the load's underside,
/// `block_m` block above the hook, `two_block_m` head above the block.
///
/// Source: headroom stack, common practice.
pub fn head_needed_m(floor_m: f64, carry_m: f64, hook_m: f64, block_m: f64, two_block_m: f64) -> f64 {
    floor_m + carry_m + hook_m + block_m + two_block_m
}
