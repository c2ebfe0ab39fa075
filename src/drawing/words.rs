//! Figures on drawings, in the reader's units and rounded to the safe side.

use crate::check::Amount;
use crate::quantity::{Length, Safe, UnitSystem, feet_inches, number};

/// A length to be laid out with a tape: feet and inches to the inch, or metres to the centimetre.
pub fn tape(metres: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => feet_inches(Length::inch(Length::m(metres).to_inch().round())),
        UnitSystem::Metric => Amount::Length(Length::m(metres)).show(units, Safe::Nearest),
    }
}

/// A small length: to the sixteenth of an inch, or the millimetre.
pub fn fine(metres: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => feet_inches(Length::m(metres)),
        UnitSystem::Metric => format!("{} mm", number(metres * 1000.0, 0, Safe::Nearest)),
    }
}

/// A length as it is, to the nearest figure.
pub fn near(metres: f64, units: UnitSystem) -> String {
    Amount::Length(Length::m(metres)).show(units, Safe::Nearest)
}

/// A length that is asked for: never shown smaller than it is.
pub fn up(metres: f64, units: UnitSystem) -> String {
    Amount::Length(Length::m(metres)).show(units, Safe::Up)
}

/// A length that is there: never shown larger than it is.
pub fn down(metres: f64, units: UnitSystem) -> String {
    Amount::Length(Length::m(metres)).show(units, Safe::Down)
}
