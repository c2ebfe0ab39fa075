//! A strap that slants round an eave: how hard it pushes the eave in, and what the pick at the floor feels.

/// A strap from a pick at the floor straight up a wall to its eave, and from there in to where it is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EaveStrap {
    /// What it carries where it is held: the vertical part there, any unit of force.
    pub vertical: f64,
    /// From the eave in to the plumb of where it is held, m.
    pub inward_m: f64,
    /// From the eave up to where it is held, m; above nothing.
    pub rise_m: f64,
}

impl EaveStrap {
    /// Push on the eave, straight in: `F = V·b/r`. Source: similar triangles.
    pub fn push(&self) -> f64 {
        crate::rigging::closed_form::eave_push_n(self.vertical, self.inward_m, self.rise_m)
    }

    /// Tension in the strap: `T = V·√(1 + (b/r)²)`.
    ///
    /// Without friction at the eave it is the same below it, so that the pick at the floor is pulled with T and not with V. Source: a strap round a
    /// frictionless edge has one tension.
    pub fn tension(&self) -> f64 {
        self.vertical * libm::hypot(1.0, self.inward_m / self.rise_m)
    }

    /// What presses the eave down: `T − V`, for the plumb part below the eave pulls more than the slanting part lifts. Source: equilibrium at the eave.
    pub fn pressed_down(&self) -> f64 {
        self.tension() - self.vertical
    }

    /// Rise that keeps the push within a limit: `r = V·b/F`. `None` for a limit that is not above nothing.
    pub fn rise_needed_m(&self, limit: f64) -> Option<f64> {
        (limit > 0.0).then(|| self.vertical * self.inward_m / limit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A triangle of 3, 4 and 5 by hand: 4 up, 3 in, 8 carried: push 6, tension 10, 2 down; half the push needs twice the rise.
    #[test]
    fn three_four_five() {
        let strap = EaveStrap {
            vertical: 8.0,
            inward_m: 3.0,
            rise_m: 4.0,
        };
        assert_eq!((strap.push(), strap.tension(), strap.pressed_down()), (6.0, 10.0, 2.0));
        assert_eq!(strap.rise_needed_m(3.0), Some(8.0));
        assert_eq!(strap.rise_needed_m(0.0), None);
    }
}
