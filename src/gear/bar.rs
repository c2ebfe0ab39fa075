//! Bars, frames and beams by their steel: squeezed by slanting slings, bent by their own weight and by lugs beside their axis, or both.
//!
//! The rules are those of ASME BTH-1, from memory: look the edition in force up. Only closed sections: an open one may buckle sideways, for which
//! nothing here stands.

use core::f64::consts::PI;

/// Modulus of elasticity of steel, Pa: 29 000 ksi (ASME BTH-1, from memory).
pub const STEEL_E_PA: f64 = 29_000.0e3 * PSI_PA;
/// A pound-force per square inch, Pa (NIST SP 811, B.8).
const PSI_PA: f64 = 6_894.757_293_168_361;

/// How a device is used, which sets the factor that its strength is divided by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum DesignCategory {
    /// Loads and surroundings are known and even: 2.00.
    A,
    /// They are not: 3.00.
    #[default]
    B,
}

impl DesignCategory {
    /// Nominal design factor. Source: ASME BTH-1, design categories A and B (from memory).
    pub const fn factor(self) -> f64 {
        match self {
            Self::A => 2.0,
            Self::B => 3.0,
        }
    }
}

/// A closed section, alike about both axes or taken at its weaker one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Area, m².
    pub area_m2: f64,
    /// Section modulus for bending up and down, m³.
    pub modulus_m3: f64,
    /// Radius of gyration in the plane of bending, m.
    pub bending_radius_m: f64,
    /// Smallest radius of gyration, m.
    pub least_radius_m: f64,
    /// Free width of its wall over its thickness, and what it may be at most times √(E/Fy) or E/Fy; `None` for a section given by its figures.
    pub wall: Option<WallRatio>,
}

/// How thin a wall is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WallRatio {
    /// Outside diameter over thickness.
    Pipe(f64),
    /// Flat part of a side over thickness.
    Flat(f64),
}

impl Section {
    /// A pipe: `A = π(D² − d²)/4`, `I = π(D⁴ − d⁴)/64`. `None` unless 0 < 2t < D. Source: mechanics of materials.
    pub fn pipe(outside_m: f64, wall_m: f64) -> Option<Self> {
        let inside_m = outside_m - 2.0 * wall_m;
        if !(wall_m > 0.0 && inside_m > 0.0) {
            return None;
        }
        let [outer2, inner2] = [outside_m * outside_m, inside_m * inside_m];
        let area_m2 = PI * (outer2 - inner2) / 4.0;
        let second_m4 = PI * (outer2 * outer2 - inner2 * inner2) / 64.0;
        let wall = WallRatio::Pipe(outside_m / wall_m);
        Self::of(area_m2, second_m4, None, outside_m, Some(wall))
    }

    /// A square tube with sharp corners: `A = B² − b²`, `I = (B⁴ − b⁴)/12`. `None` unless 0 < 2t < B. Source: mechanics of materials.
    ///
    /// Rounded corners take a few per cent off: enter such a tube by its figures where that matters.
    pub fn square_tube(outside_m: f64, wall_m: f64) -> Option<Self> {
        let inside_m = outside_m - 2.0 * wall_m;
        if !(wall_m > 0.0 && inside_m > 0.0) {
            return None;
        }
        let [outer2, inner2] = [outside_m * outside_m, inside_m * inside_m];
        let second_m4 = (outer2 * outer2 - inner2 * inner2) / 12.0;
        // flat part: three thicknesses less than the outside (AISC, where the corner is not known)
        let wall = WallRatio::Flat((outside_m - 3.0 * wall_m) / wall_m);
        Self::of(outer2 - inner2, second_m4, None, outside_m, Some(wall))
    }

    /// A closed section by its figures: area, second moment for bending up and down, smallest radius of gyration, depth. `None` unless all are above nothing.
    pub fn by_figures(area_m2: f64, second_m4: f64, least_radius_m: f64, depth_m: f64) -> Option<Self> {
        Self::of(area_m2, second_m4, Some(least_radius_m), depth_m, None)
    }

    fn of(area_m2: f64, second_m4: f64, least_m: Option<f64>, depth_m: f64, wall: Option<WallRatio>) -> Option<Self> {
        let bending_radius_m = (second_m4 / area_m2).sqrt();
        let least_radius_m = least_m.unwrap_or(bending_radius_m).min(bending_radius_m);
        let all = [area_m2, second_m4, least_radius_m, depth_m];
        all.iter().all(|x| x.is_finite() && *x > 0.0).then_some(Self {
            area_m2,
            modulus_m3: 2.0 * second_m4 / depth_m,
            bending_radius_m,
            least_radius_m,
            wall,
        })
    }

    /// Whether its wall is too thin for stresses over the whole section: `D/t > 0.11·E/Fy` for pipe, flat part `> 1.40·√(E/Fy)` for tube.
    ///
    /// Source: ASME BTH-1 and AISC ASD, limits of noncompact sections (from memory).
    pub fn is_thin_walled(&self, yield_pa: f64) -> bool {
        match self.wall {
            None => false,
            Some(WallRatio::Pipe(ratio)) => ratio > 0.11 * STEEL_E_PA / yield_pa,
            Some(WallRatio::Flat(ratio)) => ratio > 1.40 * (STEEL_E_PA / yield_pa).sqrt(),
        }
    }
}

/// Slenderness at which a strut goes from the one formula to the other: `Cc = √(2π²E/Fy)`. Source: ASME BTH-1 (from memory), as AISC ASD.
pub fn critical_slenderness(yield_pa: f64) -> f64 {
    (2.0 * PI * PI * STEEL_E_PA / yield_pa).sqrt()
}

/// Allowable compression, Pa, of a strut of slenderness `KL/r`, with design factor `Nd`:
///
/// up to Cc `Fa = [1 − x²/2]·Fy/{Nd·[1 + 9x/40 − 3x³/40]}` with `x = (KL/r)/Cc`, beyond `Fa = π²E/(1.15·Nd·(KL/r)²)`.
///
/// The two meet at Cc. At Nd 5/3 the first is the column formula of AISC ASD. Source: ASME BTH-1 (from memory).
pub fn allowable_compression_pa(slenderness: f64, yield_pa: f64, factor: f64) -> f64 {
    let x = slenderness / critical_slenderness(yield_pa);
    if x > 1.0 {
        return euler_pa(slenderness, factor);
    }
    (1.0 - x * x / 2.0) * yield_pa / (factor * (1.0 + 9.0 * x / 40.0 - 3.0 * x * x * x / 40.0))
}

/// Euler's stress over 1.15 times the design factor, Pa: `F'e = π²E/(1.15·Nd·(KL/r)²)`. Source: ASME BTH-1 (from memory).
pub fn euler_pa(slenderness: f64, factor: f64) -> f64 {
    PI * PI * STEEL_E_PA / (1.15 * factor * slenderness * slenderness)
}

/// Allowable bending, Pa: `Fb = Fy/Nd`, for a closed section whose wall is not too thin; the 1.10 that compact ones are given is left out.
/// Source: ASME BTH-1 (from memory).
pub fn allowable_bending_pa(yield_pa: f64, factor: f64) -> f64 {
    yield_pa / factor
}

/// What a bar is made of and how long it is free.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Its section.
    pub section: Section,
    /// Yield strength, Pa.
    pub yield_pa: f64,
    /// How it is used.
    pub category: DesignCategory,
    /// Free length, pinned at both ends (K 1), m.
    pub length_m: f64,
}

/// What acts at one cut of a bar.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cut {
    /// Compression, N; below nothing it is pulled.
    pub compression_n: f64,
    /// Bending moment, N·m.
    pub moment_n_m: f64,
}

/// A bar under compression and bending.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Combined {
    /// At which cut.
    pub cut: Cut,
    /// Compression over area, Pa.
    pub axial_pa: f64,
    /// What that may be, Pa.
    pub allowed_axial_pa: f64,
    /// Moment over section modulus, Pa.
    pub bending_pa: f64,
    /// What that may be, Pa.
    pub allowed_bending_pa: f64,
    /// Euler's stress in the plane of bending over 1.15 Nd, Pa.
    pub euler_pa: f64,
    /// Largest slenderness.
    pub slenderness: f64,
    /// Use: at most 1 holds. Infinite where the compression alone reaches Euler's stress.
    pub used: f64,
}

impl Bar {
    /// Combined stress at a cut: the larger of
    /// `fa/Fa + Cm·fb/[(1 − fa/F'e)·Fb]` and `fa/(Fy/Nd) + fb/Fb`, with Cm 1 (pinned ends, loads between them). A pull counts in the second alone.
    ///
    /// The simpler sum that small compressions are allowed is left out: this gives a little more. Source: ASME BTH-1 (from memory).
    pub fn combined(&self, cut: Cut) -> Combined {
        let (section, factor) = (&self.section, self.category.factor());
        let slenderness = self.length_m / section.least_radius_m;
        let allowed_axial_pa = allowable_compression_pa(slenderness, self.yield_pa, factor);
        let allowed_bending_pa = allowable_bending_pa(self.yield_pa, factor);
        let euler_pa = euler_pa(self.length_m / section.bending_radius_m, factor);
        let (axial_pa, bending_pa) = (
            cut.compression_n / section.area_m2,
            cut.moment_n_m.abs() / section.modulus_m3,
        );
        let plain = axial_pa.abs() / (self.yield_pa / factor) + bending_pa / allowed_bending_pa;
        let left = 1.0 - axial_pa.max(0.0) / euler_pa;
        let buckled = if axial_pa <= 0.0 {
            0.0
        } else if left <= 0.0 {
            f64::INFINITY
        } else {
            axial_pa / allowed_axial_pa + bending_pa / (left * allowed_bending_pa)
        };
        Combined {
            cut,
            axial_pa,
            allowed_axial_pa,
            bending_pa,
            allowed_bending_pa,
            euler_pa,
            slenderness,
            used: plain.max(buckled),
        }
    }

    /// The worst of several cuts; `None` of none.
    pub fn worst(&self, cuts: &[Cut]) -> Option<Combined> {
        let each = cuts.iter().map(|cut| self.combined(*cut));
        each.max_by(|a, b| a.used.total_cmp(&b.used))
    }
}

/// A force on a bar, in space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Where it takes hold, m.
    pub at_m: [f64; 3],
    /// The force on the bar, N, z up.
    pub force_n: [f64; 3],
}

/// Cuts in each stretch between two pulls: its ends and places between, where the moment of an even weight is largest.
const CUTS: usize = 16;

/// What acts along a straight bar whose axis runs from one place to another, under pulls at its lugs and its own even weight, cut by cut.
///
/// Compression along the axis and the bending moment square to it, in whichever plane. Source: equilibrium of the part to one side of the cut.
pub fn cuts(axis_m: [[f64; 3]; 2], pulls: &[Pull], weight_n: f64) -> Vec<Cut> {
    let [from, to] = axis_m;
    let length_m = dot(minus(to, from), minus(to, from)).sqrt();
    if length_m.is_nan() || length_m <= 0.0 {
        return Vec::new();
    }
    let along: [f64; 3] = core::array::from_fn(|k| (to[k] - from[k]) / length_m);
    let place = |p: [f64; 3]| dot(minus(p, from), along);
    let mut places: Vec<f64> = pulls.iter().map(|pull| place(pull.at_m)).collect();
    places.extend([0.0, length_m]);
    places.sort_unstable_by(f64::total_cmp);
    let mut cuts = Vec::with_capacity(places.len() * CUTS);
    for ends in places.windows(2).filter(|ends| ends[1] - ends[0] > 1e-9) {
        for i in 0..=CUTS {
            let s = ends[0] + (ends[1] - ends[0]) * i as f64 / CUTS as f64;
            // a cut at a lug is taken just inside its stretch
            let left = pulls.iter().filter(|pull| place(pull.at_m) < (ends[0] + ends[1]) / 2.0);
            let at: [f64; 3] = core::array::from_fn(|k| from[k] + s * along[k]);
            let (mut force, mut moment) = ([0.0; 3], [0.0; 3]);
            let own = s.clamp(0.0, length_m);
            let own = Pull {
                at_m: core::array::from_fn(|k| from[k] + own / 2.0 * along[k]),
                force_n: [0.0, 0.0, -weight_n * own / length_m],
            };
            for pull in left.chain(core::iter::once(&own)) {
                let turns = cross(minus(pull.at_m, at), pull.force_n);
                (0..3).for_each(|k| {
                    force[k] += pull.force_n[k];
                    moment[k] += turns[k];
                });
            }
            let twist = dot(moment, along);
            let bending: [f64; 3] = core::array::from_fn(|k| moment[k] - twist * along[k]);
            cuts.push(Cut {
                compression_n: dot(force, along),
                moment_n_m: dot(bending, bending).sqrt(),
            });
        }
    }
    cuts
}

fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|k| a[k] - b[k])
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|k| a[k] * b[k]).sum()
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The strut formulas meet at Cc: half the yield over 1.15 Nd from both.
    #[test]
    fn continuous_at_the_critical_slenderness() {
        for yield_pa in [248.0e6, 345.0e6, 460.0e6] {
            let cc = critical_slenderness(yield_pa);
            let [below, above] =
                [cc * (1.0 - 1e-9), cc * (1.0 + 1e-9)].map(|s| allowable_compression_pa(s, yield_pa, 3.0));
            assert_relative_eq!(below, above, max_relative = 1e-7);
            assert_relative_eq!(below, yield_pa / (2.0 * 1.15 * 3.0), max_relative = 1e-7);
        }
    }

    /// A lifting beam of 6.096 m (20 ft) with 177.9 kN (40 kip) at its ends and a lug in its middle: W·S/4 and no compression.
    #[test]
    fn a_lifting_beam_only_bends() {
        let half = 88.964e3;
        let pulls = [
            Pull {
                at_m: [0.0, 0.0, -0.2],
                force_n: [0.0, 0.0, -half],
            },
            Pull {
                at_m: [3.048, 0.0, 0.3],
                force_n: [0.0, 0.0, 2.0 * half],
            },
            Pull {
                at_m: [6.096, 0.0, -0.2],
                force_n: [0.0, 0.0, -half],
            },
        ];
        let cuts = cuts([[0.0; 3], [6.096, 0.0, 0.0]], &pulls, 0.0);
        let most = cuts.iter().map(|c| c.moment_n_m).fold(0.0, f64::max);
        assert_relative_eq!(most, half * 3.048, max_relative = 1e-12);
        assert!(cuts.iter().all(|c| c.compression_n.abs() < 1e-9));
    }

    /// A bar squeezed at lugs 0.25 m over its axis, weightless: the moment is C·e all along. Its own weight of 2 kN over 8 m adds wL²/8 in the middle,
    /// for both squeeze the upper side: by hand 100·0.25 = 25 and 25 + 2·8/8 = 27 kN·m.
    #[test]
    fn a_lug_over_the_axis_bends() {
        let up = 50.0e3;
        let pull = |x: f64, inward: f64| Pull {
            at_m: [x, 0.0, 0.25],
            force_n: [inward, 0.0, up],
        };
        let below = |x: f64, half: f64| Pull {
            at_m: [x, 0.0, 0.0],
            force_n: [0.0, 0.0, -up + half],
        };
        let axis = [[0.0; 3], [8.0, 0.0, 0.0]];
        let at_middle = |weight_n: f64| {
            let half = weight_n / 2.0;
            let all = [
                pull(0.0, 100.0e3),
                below(0.0, half),
                pull(8.0, -100.0e3),
                below(8.0, half),
            ];
            let cuts = cuts(axis, &all, weight_n);
            let middle = cuts[CUTS / 2];
            assert_relative_eq!(middle.compression_n, 100.0e3, max_relative = 1e-12);
            middle.moment_n_m
        };
        assert_relative_eq!(at_middle(0.0), 25.0e3, max_relative = 1e-12);
        assert_relative_eq!(at_middle(2.0e3), 27.0e3, max_relative = 1e-12);
    }

    #[test]
    fn what_is_no_section_is_none() {
        assert!(Section::pipe(0.1, 0.05).is_none());
        assert!(Section::square_tube(0.1, 0.0).is_none());
        assert!(Section::by_figures(0.0, 1.0, 1.0, 1.0).is_none());
        assert!(cuts([[0.0; 3]; 2], &[], 1.0).is_empty());
        let thin = Section::pipe(0.6, 0.004).unwrap();
        assert!(thin.is_thin_walled(345.0e6));
    }
}
