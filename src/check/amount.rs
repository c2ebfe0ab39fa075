//! An amount of any kind, for tables and working.

use crate::quantity::{
    Angle, Force, Length, Mass, Pressure, Quantity as _, Ratio, Safe, Speed, Unit, UnitSystem, show,
};
use serde::Serialize;

/// A quantity whose kind is known at run time.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// A length.
    Length(Length),
    /// A mass.
    Mass(Mass),
    /// A force.
    Force(Force),
    /// An angle.
    Angle(Angle),
    /// A share, shown in per cent.
    Share(Ratio),
    /// A bare factor.
    Factor(f64),
    /// A pressure.
    Pressure(Pressure),
    /// A speed.
    Speed(Speed),
}

impl Amount {
    /// Its SI number.
    pub fn si(self) -> f64 {
        match self {
            Self::Length(q) => q.si(),
            Self::Mass(q) => q.si(),
            Self::Force(q) => q.si(),
            Self::Angle(q) => q.si(),
            Self::Share(q) => q.si(),
            Self::Factor(k) => k,
            Self::Pressure(q) => q.si(),
            Self::Speed(q) => q.si(),
        }
    }

    /// As text in the reader's units, rounded once, to the given side.
    pub fn show(self, units: UnitSystem, safe: Safe) -> String {
        let us = units == UnitSystem::Us;
        match self {
            Self::Length(q) => show(q, if us { Unit::Ft } else { Unit::M }, 2, safe),
            Self::Mass(q) if us => show(q, Unit::Lb, 0, safe),
            Self::Mass(q) => show(q, Unit::T, 2, safe),
            Self::Force(q) if us => show(q, Unit::Lbf, 0, safe),
            Self::Force(q) => show(q, Unit::Kn, 1, safe),
            Self::Angle(q) => show(q, Unit::Deg, 2, safe),
            Self::Share(q) => show(q, Unit::Percent, 1, safe),
            Self::Factor(k) => crate::quantity::number(k, 3, safe),
            Self::Pressure(q) => show(q, if us { Unit::PsfForce } else { Unit::Kpa }, 0, safe),
            Self::Speed(q) => show(q, if us { Unit::Mph } else { Unit::MPerS }, 1, safe),
        }
    }
}

impl From<Length> for Amount {
    fn from(q: Length) -> Self {
        Self::Length(q)
    }
}
impl From<Mass> for Amount {
    fn from(q: Mass) -> Self {
        Self::Mass(q)
    }
}
impl From<Force> for Amount {
    fn from(q: Force) -> Self {
        Self::Force(q)
    }
}
impl From<Angle> for Amount {
    fn from(q: Angle) -> Self {
        Self::Angle(q)
    }
}
impl From<Ratio> for Amount {
    fn from(q: Ratio) -> Self {
        Self::Share(q)
    }
}
