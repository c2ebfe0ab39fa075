//! Racking: how far the box is wrung between its picks, and what that does to the sheathing.
//!
//! The box counts as one closed cell of four sheathed faces; its axis runs at half width and half height. A box with an open side is no such
//! cell: it resists by warping, and no figure is given for it here.
//! Sources: R. Bredt (closed cell); W. C. Young and R. G. Budynas, Roark's Formulas for Stress and Strain, table of torsion (from memory).

/// A weight in the box and how far beside its axis it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurningLoad {
    /// Weight, N.
    pub weight_n: f64,
    /// Where it begins along the box, m.
    pub from_m: f64,
    /// Where it ends, m.
    pub to_m: f64,
    /// Beside the axis towards the second side as it hangs, m.
    pub aside_m: f64,
}

/// A pull on one pick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurningPull {
    /// Where along the box, m.
    pub x_m: f64,
    /// Beside the axis towards the second side as it hangs, m.
    pub aside_m: f64,
    /// Over the axis, m.
    pub over_m: f64,
    /// Upwards, N.
    pub up_n: f64,
    /// Towards the second side, N.
    pub across_n: f64,
}

/// All that turns the box about its axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TurningBox {
    /// Its weights.
    pub loads: Vec<TurningLoad>,
    /// Its pulls.
    pub pulls: Vec<TurningPull>,
}

impl TurningBox {
    /// Torque that the box carries at x, N·m: `Σ(y F_z − z F_y)` of all before x; by size the larger of that and of all behind x, which are
    /// the same for a box at rest.
    pub fn torque_n_m(&self, x_m: f64) -> f64 {
        let (before, all) = (self.before_n_m(x_m), self.before_n_m(f64::INFINITY));
        if (all - before).abs() > before.abs() {
            before - all
        } else {
            before
        }
    }

    /// What of the turning is left over, N·m: nothing for a box at rest.
    pub fn left_over_n_m(&self) -> f64 {
        self.before_n_m(f64::INFINITY)
    }

    fn before_n_m(&self, x_m: f64) -> f64 {
        let pulled = self.pulls.iter().filter(|p| p.x_m < x_m);
        let pulled: f64 = pulled.map(|p| p.aside_m * p.up_n - p.over_m * p.across_n).sum();
        let weighed = |load: &TurningLoad| {
            let run_m = load.to_m - load.from_m;
            let share = if run_m > 0.0 {
                ((x_m - load.from_m) / run_m).clamp(0.0, 1.0)
            } else {
                f64::from(u8::from(load.from_m < x_m))
            };
            share * load.weight_n * load.aside_m
        };
        pulled - self.loads.iter().map(weighed).sum::<f64>()
    }

    /// Largest torque between two sections of picks, N·m, with its sign, and the mean that turns the one against the other.
    pub fn between_n_m(&self, [from_m, to_m]: [f64; 2]) -> (f64, f64) {
        let at = |i: u32| from_m + (to_m - from_m) * (f64::from(i) + 0.5) / f64::from(STEPS);
        let all: Vec<f64> = (0..STEPS).map(|i| self.torque_n_m(at(i))).collect();
        let ends = [from_m + SAME_M, to_m - SAME_M].map(|x_m| self.torque_n_m(x_m));
        let largest = all
            .iter()
            .chain(&ends)
            .fold(0.0, |most: f64, t| if t.abs() > most.abs() { *t } else { most });
        (largest, all.iter().sum::<f64>() / f64::from(STEPS))
    }
}

/// Steps of a bay for its mean torque.
const STEPS: u32 = 64;
/// Just beside a section, m.
const SAME_M: f64 = 1e-9;

/// Width and height of the cell, and the shear stiffness of its faces as they stand: floor, roof, first side, second side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Faces {
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Gt of each face, N/m (SDPWS Ga), above nothing.
    pub gt_n_per_m: [f64; 4],
}

impl Faces {
    /// Area inside, m².
    pub fn area_m2(&self) -> f64 {
        self.width_m * self.height_m
    }

    /// Shear angle of each face under a torque, rad.
    pub fn shear_rad(&self, torque_n_m: f64) -> [f64; 4] {
        self.gt_n_per_m
            .map(|gt| panel_shear_rad(torque_n_m, self.area_m2(), gt))
    }
}

/// Shear flow round a closed cell, N/m: `q = T/(2A)`. Source: R. Bredt.
pub fn shear_flow_n_per_m(torque_n_m: f64, area_m2: f64) -> f64 {
    torque_n_m / (2.0 * area_m2)
}

/// Shear angle of a face of a closed cell, rad: `γ = T/(2A·Gt)`, Gt the face's shear force per length over shear angle (SDPWS Ga).
pub fn panel_shear_rad(torque_n_m: f64, area_m2: f64, gt_n_per_m: f64) -> f64 {
    shear_flow_n_per_m(torque_n_m, area_m2) / gt_n_per_m
}

/// How far the head of a sheathed panel moves against its foot, m: `Δ = v h/Ga`.
///
/// `shear_n_per_m` shear force per length, `gt_n_per_m` its shear stiffness. Source: AWC SDPWS-2008, apparent shear stiffness Ga.
pub fn slab_drift_m(shear_n_per_m: f64, height_m: f64, gt_n_per_m: f64) -> f64 {
    shear_n_per_m * height_m / gt_n_per_m
}

/// What share of its shear stiffness a wall with openings keeps: `F = r/(3 − 2r)`, r its sheathing area ratio, 0 to 1.
///
/// Source: H. Sugiyama and T. Matsumoto 1994, the basis of the perforated shear wall factor of SDPWS (from memory).
pub fn sheathed_share(area_ratio: f64) -> f64 {
    let r = area_ratio.clamp(0.0, 1.0);
    r / (3.0 - 2.0 * r)
}

/// GJ of the same faces slit open along one edge, N·m²: `Σ Gt·s·t²/3`, as thin strips; t the thickness of a face, m.
///
/// Source: St Venant torsion of thin open sections, `J = Σ s t³/3` (Gere, from memory). Warping is not in it.
pub fn open_strips_gj_n_m2(faces: &Faces, thickness_m: f64) -> f64 {
    let widths_m = [faces.width_m, faces.width_m, faces.height_m, faces.height_m];
    let strips = widths_m.iter().zip(faces.gt_n_per_m);
    strips.map(|(s, gt)| gt * s * thickness_m * thickness_m / 3.0).sum()
}

/// Torque when the box stands on bolsters of which one corner is lower, N·m: `T = GJ·δ/(w·s)`, no more than lifts that corner off: `T ≤ R·w`.
///
/// `low_m` how much lower, `width_m` and `span_m` between the bolsters' corners, `lightest_n` what the lightest corner carries.
/// Source: derived, twist δ/w over the length s; a corner that has lifted off carries nothing.
pub fn torque_when_uneven_n_m(gj_n_m2: f64, low_m: f64, width_m: f64, span_m: f64, lightest_n: f64) -> f64 {
    (gj_n_m2 * low_m / (width_m * span_m)).min(lightest_n * width_m)
}

/// Torque while one corner is still held down, N·m: `T = F·w/2` at most, F what holds it. Source: derived, moment about the axis.
pub fn torque_when_corner_held_n_m(held_n: f64, width_m: f64) -> f64 {
    held_n * width_m / 2.0
}
