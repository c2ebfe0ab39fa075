//! Boom, head and hook against figures worked out by hand; the sums are in [`crate::reach`], where the search finds them too.

pub use crate::reach::{Boom, head_needed_m};

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
