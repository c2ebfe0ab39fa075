//! An amount of any kind, for tables and working.

use crate::quantity::{
    Angle, AreaDensity, Density, Force, Length, LinearDensity, Mass, Moment, Pressure, Quantity as _, Ratio, Safe,
    Speed, Unit, UnitSystem, number,
};
use serde::Serialize;

/// A quantity whose kind is known at run time.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// A length.
    Length(Length),
    /// A length of a few millimetres.
    Small(Length),
    /// A moment.
    Moment(Moment),
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
    /// A stress in steel.
    Stress(Pressure),
    /// A speed.
    Speed(Speed),
    /// A mass per length.
    PerLength(LinearDensity),
    /// A mass per area.
    PerArea(AreaDensity),
    /// A mass per volume.
    PerVolume(Density),
}

impl Amount {
    /// Its SI number.
    pub fn si(self) -> f64 {
        match self {
            Self::Length(q) | Self::Small(q) => q.si(),
            Self::Moment(q) => q.si(),
            Self::Mass(q) => q.si(),
            Self::Force(q) => q.si(),
            Self::Angle(q) => q.si(),
            Self::Share(q) => q.si(),
            Self::Factor(k) => k,
            Self::Pressure(q) | Self::Stress(q) => q.si(),
            Self::Speed(q) => q.si(),
            Self::PerLength(q) => q.si(),
            Self::PerArea(q) => q.si(),
            Self::PerVolume(q) => q.si(),
        }
    }

    /// As text in the reader's units, rounded once, to the given side.
    pub fn show(self, units: UnitSystem, safe: Safe) -> String {
        let figure = self.figure(units, safe);
        match self.unit(units) {
            Unit::One => figure,
            Unit::Deg => format!("{figure}{}", Unit::Deg.symbol()),
            unit => format!("{figure} {}", unit.symbol()),
        }
    }

    /// The figure alone, for a column whose head carries the unit.
    pub fn figure(self, units: UnitSystem, safe: Safe) -> String {
        let (unit, decimals) = self.form(units);
        number(unit.from_si(self.si()), decimals, safe)
    }

    /// The unit that its figures are shown in.
    pub fn unit(self, units: UnitSystem) -> Unit {
        self.form(units).0
    }

    /// The unit and the decimals it is shown with.
    fn form(self, units: UnitSystem) -> (Unit, u8) {
        let us = units == UnitSystem::Us;
        match self {
            Self::Length(_) => (if us { Unit::Ft } else { Unit::M }, 2),
            Self::Small(_) if us => (Unit::Inch, 2),
            Self::Small(_) => (Unit::Mm, 1),
            Self::Moment(_) => (if us { Unit::KipFt } else { Unit::KnM }, 1),
            Self::Mass(_) if us => (Unit::Lb, 0),
            Self::Mass(_) => (Unit::T, 2),
            Self::Force(_) if us => (Unit::Lbf, 0),
            Self::Force(_) => (Unit::Kn, 1),
            Self::Angle(_) => (Unit::Deg, 2),
            Self::Share(_) => (Unit::Percent, 1),
            Self::Factor(_) => (Unit::One, 3),
            Self::Pressure(_) => (if us { Unit::PsfForce } else { Unit::Kpa }, 0),
            Self::Stress(_) => (if us { Unit::Ksi } else { Unit::Mpa }, 1),
            Self::Speed(_) => (if us { Unit::Mph } else { Unit::MPerS }, 1),
            Self::PerLength(_) => (if us { Unit::Plf } else { Unit::KgPerM }, 2),
            Self::PerArea(_) => (if us { Unit::Psf } else { Unit::KgPerM2 }, 2),
            Self::PerVolume(_) => (if us { Unit::Pcf } else { Unit::KgPerM3 }, 1),
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
impl From<Moment> for Amount {
    fn from(q: Moment) -> Self {
        Self::Moment(q)
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
impl From<Speed> for Amount {
    fn from(q: Speed) -> Self {
        Self::Speed(q)
    }
}
impl From<Ratio> for Amount {
    fn from(q: Ratio) -> Self {
        Self::Share(q)
    }
}
