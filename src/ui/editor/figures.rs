//! Figures that follow from the plan, in its units.

use crate::check::Amount;
use crate::quantity::{AreaDensity, Length, Mass, Safe, Unit, UnitSystem, show};
use crate::ui::fields::Typing;

/// A weight, rounded up: it is a demand.
pub fn mass(system: UnitSystem, kg: f64) -> String {
    Amount::Mass(Mass::kg(kg)).show(system, Safe::Up)
}

/// A plain length.
pub fn length(system: UnitSystem, m: f64) -> String {
    Amount::Length(Length::m(m)).show(system, Safe::Nearest)
}

/// A weight and a place.
pub fn mass_and_length(typing: Typing, kg: f64, m: f64) -> (String, String) {
    (mass(typing.system, kg), length(typing.system, m))
}

/// Mass per floor area, rounded up.
pub fn per_area(system: UnitSystem, kg_per_m2: f64) -> String {
    let unit = match system {
        UnitSystem::Us => Unit::Psf,
        UnitSystem::Metric => Unit::KgPerM2,
    };
    show(AreaDensity::kg_per_m2(kg_per_m2), unit, 1, Safe::Up)
}
