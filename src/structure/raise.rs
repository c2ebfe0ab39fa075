//! A hinged roof panel on its way up: the pull that holds it, what its hinge carries, where the hook goes, and when it wants to fall the other way.
//!
//! A plane problem: the panel turns about its hinge; its angle a is from the horizontal. Along the line from the hinge to the pick the centre of
//! gravity lies at d and the pick at l; square to that line, on the panel's upper side, it lies at n.

use crate::quantity::STANDARD_GRAVITY_M_S2 as G;

/// A panel that turns about its hinge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Weight, N.
    pub weight_n: f64,
    /// Hinge to centre of gravity along the line to the pick, m.
    pub to_cg_m: f64,
    /// Hinge to pick, m; above nothing.
    pub to_pull_m: f64,
    /// Centre of gravity square to that line, m; above nothing on the upper side.
    pub cg_square_m: f64,
}

/// Which way the sling leans: from plumb, rad, above nothing where the hook is on the hinge's side of the pick.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sling {
    /// Lean from plumb.
    pub lean_rad: f64,
}

/// A raise from one angle to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// The panel.
    pub panel: Panel,
    /// Angle from the horizontal at the start, rad.
    pub from_rad: f64,
    /// At the end, rad.
    pub to_rad: f64,
    /// How far the hook may be beside the plumb over the pick, either way, m.
    pub hook_off_m: f64,
    /// Hook above the pick, m; above nothing.
    pub hook_above_m: f64,
}

/// All of it at one angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtAngle {
    /// Angle of the panel from the horizontal, rad.
    pub angle_rad: f64,
    /// Pull along a plumb sling, N; below nothing where the panel has to be held back.
    pub plumb_n: f64,
    /// Largest pull with the hook as far aside as it may be, N.
    pub pull_n: f64,
    /// How the sling leans then.
    pub sling: Sling,
    /// What the hinge carries upwards then, N; below nothing where it is lifted.
    pub hinge_up_n: f64,
    /// What the hinge is pushed with sideways then, N, by size.
    pub hinge_along_n: f64,
    /// The pick from the hinge, outwards and up, m.
    pub pick_m: [f64; 2],
}

impl Panel {
    /// What turns the panel back down, N·m: `W (d cos a − n sin a)`. Below nothing it wants to fall the other way.
    pub fn falling_n_m(&self, angle_rad: f64) -> f64 {
        self.weight_n * (self.to_cg_m * libm::cos(angle_rad) - self.cg_square_m * libm::sin(angle_rad))
    }

    /// Pull along the sling, N: `P = W (d cos a − n sin a)/(l cos g)`, g the sling from the normal of the hinge–pick line, `g = a − lean`.
    ///
    /// For a plumb sling and n = 0 this is `W d/l` at every angle. `None` where the sling runs along the panel (cos g ≤ 0): it cannot hold it so.
    /// Source: moments about the hinge.
    pub fn pull_n(&self, angle_rad: f64, sling: Sling) -> Option<f64> {
        let square = libm::cos(angle_rad - sling.lean_rad);
        (square > 1e-9).then(|| self.falling_n_m(angle_rad) / (self.to_pull_m * square))
    }

    /// What the hinge gives the panel, upwards and outwards, N: `W − P cos(a − g)` and `P sin(a − g)`. Source: balance of forces.
    pub fn hinge_n(&self, pull_n: f64, sling: Sling) -> [f64; 2] {
        [
            self.weight_n - pull_n * libm::cos(sling.lean_rad),
            pull_n * libm::sin(sling.lean_rad),
        ]
    }

    /// The angle at which nothing turns it, rad: `tan a = d/n`; 90° for a panel whose centre of gravity is on the line.
    pub fn balance_rad(&self) -> f64 {
        libm::atan2(self.to_cg_m, self.cg_square_m)
    }

    /// The pick from the hinge, outwards and up, m.
    pub fn pick_m(&self, angle_rad: f64) -> [f64; 2] {
        [
            self.to_pull_m * libm::cos(angle_rad),
            self.to_pull_m * libm::sin(angle_rad),
        ]
    }
}

impl Arc {
    /// Everything at one angle, with the hook plumb and as far aside as it may be. `None` where the sling cannot hold the panel so.
    pub fn at(&self, angle_rad: f64) -> Option<AtAngle> {
        let lean_rad = libm::atan2(self.hook_off_m, self.hook_above_m);
        let panel = &self.panel;
        let plumb_n = panel.pull_n(angle_rad, Sling::default())?;
        let slings = [0.0, lean_rad, -lean_rad].map(|lean_rad| Sling { lean_rad });
        let mut largest = (slings[0], plumb_n);
        for sling in slings {
            let pull_n = panel.pull_n(angle_rad, sling)?;
            if pull_n.abs() > largest.1.abs() {
                largest = (sling, pull_n);
            }
        }
        let [hinge_up_n, along_n] = panel.hinge_n(largest.1, largest.0);
        Some(AtAngle {
            angle_rad,
            plumb_n,
            pull_n: largest.1,
            sling: largest.0,
            hinge_up_n,
            hinge_along_n: along_n.abs(),
            pick_m: panel.pick_m(angle_rad),
        })
    }

    /// Angles over the whole arc, rad, in so many steps.
    pub fn angles_rad(&self, steps: u32) -> impl Iterator<Item = f64> {
        let (from, sweep) = (self.from_rad, self.to_rad - self.from_rad);
        (0..=steps).map(move |i| from + sweep * f64::from(i) / f64::from(steps.max(1)))
    }

    /// The angle of the arc with the largest pull, by size. `None` where the sling cannot hold the panel somewhere.
    ///
    /// At one lean the pull changes one way only over the arc, its slope having the sign of `−(d sin λ + n cos λ)`: its largest is at an end.
    pub fn largest_pull(&self) -> Option<AtAngle> {
        let (start, end) = (self.at(self.from_rad)?, self.at(self.to_rad)?);
        Some(if start.pull_n.abs() > end.pull_n.abs() {
            start
        } else {
            end
        })
    }

    /// Where the panel passes its balance within the arc, rad.
    pub fn passes_balance_rad(&self) -> Option<f64> {
        let balance_rad = self.panel.balance_rad();
        let (low, high) = (self.from_rad.min(self.to_rad), self.from_rad.max(self.to_rad));
        (balance_rad >= low && balance_rad <= high).then_some(balance_rad)
    }

    /// Force square to the panel at its pick that keeps it from falling the other way, N; nothing where it does not want to.
    pub fn restraint_n(&self) -> f64 {
        let ends = [self.from_rad, self.to_rad].map(|a| -self.panel.falling_n_m(a));
        ends[0].max(ends[1]).max(0.0) / self.panel.to_pull_m
    }
}

/// Pull to plan with: the larger of what is computed and a least share of the panel's weight, in the unit of both. The contingency comes on top.
///
/// Source: common practice, 0.6 of the panel and 15 %.
pub fn planned_pull(computed: f64, weight: f64, least_share: f64) -> f64 {
    computed.max(least_share * weight)
}

/// Where a flap hinged at the panel's edge passes its balance on its way over, rad from the horizontal: upright, if its end lies beyond.
///
/// It starts folded back on the panel and ends at `to_rad`. Source: geometry, its centre of gravity is over its hinge.
pub fn balance_of_flap_rad(to_rad: f64) -> Option<f64> {
    (to_rad < core::f64::consts::FRAC_PI_2).then_some(core::f64::consts::FRAC_PI_2)
}

/// Force at a flap's centre of gravity, square to the flap, that holds it back on its way down to `to_rad`, N: `m g cos a` at its largest.
///
/// Past upright the moment only grows until it lies level. Source: moments about its hinge.
pub fn flap_restraint_n(mass_kg: f64, to_rad: f64) -> f64 {
    let flattest = if to_rad <= 0.0 { 0.0 } else { to_rad };
    mass_kg * G * libm::cos(flattest).max(0.0)
}
