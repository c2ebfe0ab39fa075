//! Sums over items: weight and centre of gravity.

use super::Item;

/// A weight and where it acts.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct CentreOfGravity {
    /// Total mass, kg.
    pub mass_kg: f64,
    /// Centre of gravity, m.
    pub at_m: [f64; 3],
}

/// The result of adding up a list of items.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct TakeOff {
    /// Sum of what is known, kg. With unknown items it is a "no less than".
    pub known_mass_kg: f64,
    /// Items whose weight or place is unknown.
    pub unknown: usize,
    /// Weight and centre of gravity, when everything is known and there is weight.
    pub total: Option<CentreOfGravity>,
}

/// Weight and centre of gravity of a list of items.
///
/// `W = Σmᵢ`, `c = Σmᵢcᵢ/W`. Moments are taken about the first item's place, which keeps the digits when the origin is far away.
/// `None` for an empty list or where the masses sum to nothing or less.
///
/// Source: first moments, e.g. Baker & Haynes, Engineering Statics, ch. 7.
pub fn centre_of_gravity(items: &[Item]) -> Option<CentreOfGravity> {
    let about = items.first()?.at_m;
    let mass_kg: f64 = items.iter().map(|item| item.mass_kg).sum();
    let spread: f64 = items.iter().map(|item| item.mass_kg.abs()).sum();
    if mass_kg <= 1e-12 * spread || !mass_kg.is_finite() {
        return None;
    }
    let at_m = core::array::from_fn(|axis| {
        let moment: f64 = items
            .iter()
            .map(|item| item.mass_kg * (item.at_m[axis] - about[axis]))
            .sum();
        about[axis] + moment / mass_kg
    });
    Some(CentreOfGravity { mass_kg, at_m })
}
