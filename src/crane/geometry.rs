//! Boom, head and hook: where the boom is when the hook is at a radius.
//!
//! Crane frame: r out from the slew axis towards the hook, z up from grade. The boom pin is `pin_back_m` behind the axis.

use crate::geometry::segments_distance_m;

/// A crane's boom geometry with a boom length chosen.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
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

/// Height of boom head needed, m: `z = floor + clearance + rig + block + two-block`.
///
/// `floor_m` landing height of the load's underside, `carry_m` clearance over it, `hook_m` hook above the load's underside,
/// `block_m` block above the hook, `two_block_m` head above the block.
///
/// Source: headroom stack, common practice.
pub fn head_needed_m(floor_m: f64, carry_m: f64, hook_m: f64, block_m: f64, two_block_m: f64) -> f64 {
    floor_m + carry_m + hook_m + block_m + two_block_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    const BOOM_FT: Boom = Boom {
        length_m: 120.0,
        pin_back_m: 6.0,
        pin_height_m: 9.0,
        depth_m: 3.0,
    };

    /// Derived: right triangle; a 120 ft boom, pin 6 ft behind and 9 ft up, at 60 ft (all in feet).
    #[test]
    fn head_height_and_angle() {
        assert_abs_diff_eq!(BOOM_FT.angle_rad(60.0).unwrap().to_degrees(), 56.633, epsilon = 0.001);
        assert_abs_diff_eq!(BOOM_FT.head_height_m(60.0).unwrap(), 109.22, epsilon = 0.01);
        let no_offset = Boom {
            pin_back_m: 0.0,
            ..BOOM_FT
        };
        assert_abs_diff_eq!(no_offset.angle_rad(60.0).unwrap().to_degrees(), 60.0, epsilon = 1e-9);
        assert_abs_diff_eq!(no_offset.head_height_m(60.0).unwrap(), 112.92, epsilon = 0.01);
    }

    /// Derived: 57 + 6 > 60.
    #[test]
    fn out_of_reach_is_none() {
        let short = Boom {
            length_m: 60.0,
            ..BOOM_FT
        };
        assert_eq!(short.head_height_m(57.0), None);
        assert_eq!(short.angle_rad(57.0), None);
        assert_eq!(short.gap_m(57.0, &[[40.0, -5.0], [40.0, 5.0]], 3.0), None);
    }

    /// Derived: perpendicular from the near top edge 8 ft before the hook, 30 ft up, less half of 3 ft.
    #[test]
    fn gap_to_a_box_broadside() {
        let corners = [[52.0, -26.0], [68.0, -26.0], [68.0, 26.0], [52.0, 26.0]];
        assert_abs_diff_eq!(BOOM_FT.gap_m(60.0, &corners, 30.0).unwrap(), 35.39, epsilon = 0.05);
    }

    /// Derived: sum of a headroom stack in feet; the rig's rise is a bridle over 30 ft at 60° from the horizontal.
    #[test]
    fn headroom_stack() {
        let rig = 12.0 + 4.0 + 1.5 + 15.0 * libm::tan(core::f64::consts::FRAC_PI_3);
        assert_abs_diff_eq!(head_needed_m(11.0, 3.0, rig, 5.0, 6.0), 68.48, epsilon = 0.02);
    }
}
