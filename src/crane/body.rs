//! The crane itself as an obstacle: what turns with the boom, and the outriggers that stand.

use crate::geometry::{polygon_distance_m, rotate};

/// Superstructure, cab and tail as a rectangle that turns with the boom: metres from the slew axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// Farthest ahead, towards the boom.
    pub ahead_m: f64,
    /// Farthest behind: the tail swing.
    pub behind_m: f64,
    /// Farthest to either side, cab included.
    pub side_m: f64,
    /// Top above grade.
    pub top_m: f64,
}

impl Body {
    /// Its outline in a frame whose x is along the boom.
    pub fn outline_m(&self) -> [[f64; 2]; 4] {
        [
            [self.ahead_m, self.side_m],
            [-self.behind_m, self.side_m],
            [-self.behind_m, -self.side_m],
            [self.ahead_m, -self.side_m],
        ]
    }

    /// Distance in plan to a rectangle that hangs on the hook, m; 0 where they overlap.
    ///
    /// `corners_m` are the load's corners from the hook, the load as it lies when the boom points along x.
    pub fn gap_m(&self, radius_m: f64, corners_m: &[[f64; 2]]) -> Option<f64> {
        let load: Vec<[f64; 2]> = corners_m.iter().map(|c| [c[0] + radius_m, c[1]]).collect();
        polygon_distance_m(&self.outline_m(), &load)
    }
}

/// The corners of a load from its hook, turned by an angle.
pub fn turned_m(corners_m: &[[f64; 2]], by_rad: f64) -> Vec<[f64; 2]> {
    let turn = (libm::cos(by_rad), libm::sin(by_rad));
    corners_m.iter().map(|c| rotate(*c, turn)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a box 4 m wide at 9 m, its long side square to the boom, is 7 m from the axis and 5 m from a cab that is 2 m ahead; turned along the boom it
    /// is over the axis.
    #[test]
    fn a_box_across_the_boom_clears_what_a_box_along_it_hits() {
        let body = Body {
            ahead_m: 2.0,
            behind_m: 4.0,
            side_m: 1.5,
            top_m: 3.5,
        };
        let across = [[-2.0, -8.0], [2.0, -8.0], [2.0, 8.0], [-2.0, 8.0]];
        assert_eq!(body.gap_m(9.0, &across), Some(5.0));
        let along = turned_m(&across, core::f64::consts::FRAC_PI_2);
        assert_eq!(body.gap_m(9.0, &along), Some(0.0));
    }
}
