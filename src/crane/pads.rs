//! What stands on each outrigger while the crane swings.
//!
//! Frame of the carrier: x towards its front, y to its left, origin on the slew axis, metres. A slew is the boom's direction from the front,
//! anticlockwise. Weights are in kg: loads on pads come out as masses.

use core::f64::consts::TAU;

/// Which pads in which order: front left, rear left, rear right, front right.
const SIDES: [[f64; 2]; 4] = [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]];

/// Where the four pads are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Base {
    /// Between front and rear pads, m.
    pub length_m: f64,
    /// Between left and right pads, m.
    pub width_m: f64,
    /// Middle of the four ahead of the slew axis, m.
    pub ahead_m: f64,
}

/// What weighs on the crane, as sums.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// All of it, kg.
    pub total_kg: f64,
    /// Moment of what does not turn, about the slew axis towards the front, kg·m.
    pub fixed_kg_m: f64,
    /// Moment of what turns, about the slew axis in the boom's direction, kg·m.
    pub turning_kg_m: f64,
}

/// Parts of the crane with their arms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    /// Carrier, kg, and its centre of gravity ahead of the slew axis, m.
    pub carrier: [f64; 2],
    /// Upper works without counterweight and boom, kg, and how far behind the slew axis, m.
    pub upper: [f64; 2],
    /// Counterweight, kg, and how far behind the slew axis, m.
    pub counterweight: [f64; 2],
    /// Boom, kg, and its centre of gravity from the pin as a share of its length.
    pub boom: [f64; 2],
    /// Boom pin behind the slew axis, m.
    pub pin_back_m: f64,
}

impl Parts {
    /// Their sums with a load on the hook: `r_boom = s·(R + a) − a`.
    ///
    /// Source: statics.
    pub fn with_load(&self, load_kg: f64, radius_m: f64) -> Weights {
        let [boom_kg, share] = self.boom;
        let boom_m = share * (radius_m + self.pin_back_m) - self.pin_back_m;
        Weights {
            total_kg: self.carrier[0] + self.upper[0] + self.counterweight[0] + boom_kg + load_kg,
            fixed_kg_m: self.carrier[0] * self.carrier[1],
            turning_kg_m: load_kg * radius_m + boom_kg * boom_m
                - self.upper[0] * self.upper[1]
                - self.counterweight[0] * self.counterweight[1],
        }
    }
}

/// What the pads carry at one slew.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PadLoads {
    /// On each, kg: front left, rear left, rear right, front right; none is below 0.
    pub pads_kg: [f64; 4],
    /// The pad that has come off the ground, if one has.
    pub lifted: Option<usize>,
}

impl PadLoads {
    /// The largest, kg.
    pub fn largest_kg(&self) -> f64 {
        self.pads_kg.into_iter().fold(0.0, f64::max)
    }
}

/// Loads on four pads: `P = V/4 ± M_x/(2·d_x) ± M_y/(2·d_y)`, moments about the middle of the pads. Where one comes out below 0 by `a`: it is 0, the one
/// across the diagonal gets `a` more and each of the other two `a` less. `None` where two lift: it tips.
///
/// `total_kg` V, `moment_kg_m` towards the front and to the left.
///
/// Source: statics of a stiff frame on four equal springs; the uplift: Shapiro, Cranes and Derricks, p. 278.
pub fn pad_loads(total_kg: f64, moment_kg_m: [f64; 2], base: Base) -> Option<PadLoads> {
    let [along, across] = [
        moment_kg_m[0] / (2.0 * base.length_m),
        moment_kg_m[1] / (2.0 * base.width_m),
    ];
    let mut pads_kg = SIDES.map(|[x, y]| total_kg / 4.0 + x * along + y * across);
    let rounding_kg = -1e-9 * total_kg;
    let lifted = (0..4).find(|i| pads_kg[*i] < rounding_kg);
    if let Some(lifted) = lifted {
        let uplift_kg = -pads_kg[lifted];
        for (i, load_kg) in pads_kg.iter_mut().enumerate() {
            // the lifted one and the one across the diagonal are an even number of corners apart
            *load_kg += if (i + lifted) % 2 == 0 { uplift_kg } else { -uplift_kg };
        }
    }
    let stands = pads_kg.iter().all(|load_kg| *load_kg >= rounding_kg);
    stands.then(|| PadLoads {
        pads_kg: pads_kg.map(|load_kg| load_kg.max(0.0)),
        lifted,
    })
}

impl Weights {
    /// The moments about the middle of the pads at a slew: towards the front, to the left.
    pub fn moment_kg_m(&self, base: Base, slew_rad: f64) -> [f64; 2] {
        [
            self.fixed_kg_m + self.turning_kg_m * libm::cos(slew_rad) - self.total_kg * base.ahead_m,
            self.turning_kg_m * libm::sin(slew_rad),
        ]
    }

    /// Loads on the pads at a slew; `None` where it tips.
    pub fn at(&self, base: Base, slew_rad: f64) -> Option<PadLoads> {
        pad_loads(self.total_kg, self.moment_kg_m(base, slew_rad), base)
    }

    /// The slew at which a pad carries most, from `from_rad` on over `sweep_rad` (either way), and that load in kg; infinite where it tips.
    ///
    /// What a pad carries is a sine of the slew, whether all four stand (its rise is towards its own corner, `tan φ = (y/d_y)/(x/d_x)`), the one across
    /// has lifted (twice the rise, the same slew) or one beside it has (along or across the carrier): the largest is at one of these eight slews, or
    /// where the swing begins or ends. Derived.
    pub fn worst(&self, base: Base, from_rad: f64, sweep_rad: f64) -> (f64, f64) {
        let load_kg = |slew_rad: f64| self.at(base, slew_rad).map_or(f64::INFINITY, |p| p.largest_kg());
        let corners = SIDES.map(|[x, y]| libm::atan2(y / base.width_m, x / base.length_m));
        let square = [0.0, 0.25, 0.5, 0.75].map(|part| part * TAU);
        let mut worst = (from_rad, load_kg(from_rad));
        let inside = corners
            .into_iter()
            .chain(square)
            .filter_map(|slew| passed(slew, from_rad, sweep_rad));
        for slew_rad in inside.chain([from_rad + sweep_rad]) {
            let kg = load_kg(slew_rad);
            if kg > worst.1 {
                worst = (slew_rad, kg);
            }
        }
        worst
    }
}

/// A slew as it is passed on the way from another over a sweep; `None` where it is not.
fn passed(slew_rad: f64, from_rad: f64, sweep_rad: f64) -> Option<f64> {
    let sense = if sweep_rad < 0.0 { -1.0 } else { 1.0 };
    let turns = (slew_rad - from_rad) * sense / TAU;
    let ahead_rad = (turns - turns.floor()) * TAU;
    (ahead_rad <= sweep_rad.abs()).then_some(from_rad + sense * ahead_rad)
}

/// Rule of thumb for the most on one outrigger, kg: a share of crane and load, 0.65 in the Queensland code of practice.
///
/// Source: Queensland, Mobile crane code of practice (2006), seen in a second publication.
pub fn rule_of_thumb_kg(share: f64, crane_kg: f64, load_kg: f64) -> f64 {
    share * (crane_kg + load_kg)
}

/// Side of the square that a mat brings to bear, m: the float's and what the mat spreads beyond it each way, no more than the mat's own.
///
/// Source: spread of a mat with its own stiffness, common practice (timber 0.3 m thick spreads about 0.3 m each way).
pub fn effective_side_m(mat_m: f64, float_m: f64, spread_m: f64) -> f64 {
    mat_m.min(float_m + 2.0 * spread_m)
}

/// Pressure under a square, Pa: `p = (P + m)·g/b²`.
///
/// Source: statics.
pub fn bearing_pa(pad_kg: f64, mat_kg: f64, side_m: f64) -> f64 {
    (pad_kg + mat_kg) * crate::quantity::STANDARD_GRAVITY_M_S2 / (side_m * side_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pad_that_lifts_is_carried_by_the_other_three() {
        let base = Base {
            length_m: 6.0,
            width_m: 6.0,
            ahead_m: 0.0,
        };
        let loads = pad_loads(100.0, [200.0, 200.0], base).unwrap();
        assert_eq!(loads.lifted, Some(2));
        assert_eq!(loads.pads_kg[2], 0.0);
        assert_eq!(pad_loads(100.0, [301.0, 0.0], base), None, "beyond the pads it tips");
        assert_eq!(pad_loads(100.0, [310.0, 280.0], base), None);
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// ΣP = V and both moments close, whatever lifts; it tips just where the resultant leaves the rectangle of the pads.
        #[test]
        fn pads_are_at_rest(v in 1e3_f64..5e5, x in -1.2_f64..1.2, y in -1.2_f64..1.2, l in 3.0_f64..10.0, w in 3.0_f64..10.0) {
            let base = Base { length_m: l, width_m: w, ahead_m: 0.0 };
            let moment = [v * x * l / 2.0, v * y * w / 2.0];
            let inside = x.abs().max(y.abs());
            match pad_loads(v, moment, base) {
                None => prop_assert!(inside > 1.0 - 1e-6),
                Some(loads) => {
                    prop_assert!(inside < 1.0 + 1e-6);
                    let sum = |of: &dyn Fn(usize) -> f64| (0..4).map(|i| loads.pads_kg[i] * of(i)).sum::<f64>();
                    prop_assert!((sum(&|_| 1.0) - v).abs() <= 1e-7 * v);
                    prop_assert!((sum(&|i| SIDES[i][0] * l / 2.0) - moment[0]).abs() <= 1e-7 * v * l);
                    prop_assert!((sum(&|i| SIDES[i][1] * w / 2.0) - moment[1]).abs() <= 1e-7 * v * w);
                    prop_assert!(loads.pads_kg.iter().all(|p| *p >= 0.0));
                }
            }
        }
    }
}
