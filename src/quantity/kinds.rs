//! The newtypes and their conversion factors.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub};
use serde::Serialize;

pub use setday_statics::STANDARD_GRAVITY_M_S2;

/// Metres in a foot, exact (international yard and pound agreement, 1959; NIST SP 811, B.8).
const M_PER_FT: f64 = 0.3048;
/// Kilograms in an avoirdupois pound, exact (international yard and pound agreement, 1959; NIST SP 811, B.8).
const KG_PER_LB: f64 = 0.453_592_37;
/// Newtons in a pound-force: a pound times standard gravity (NIST SP 811, B.8).
const N_PER_LBF: f64 = KG_PER_LB * STANDARD_GRAVITY_M_S2;

/// What every quantity can do: be made from and give back its SI number.
pub trait Quantity: Copy + PartialOrd {
    /// The SI unit's symbol, as written in plan files.
    const SI: &'static str;
    /// From the SI number.
    fn from_si(si: f64) -> Self;
    /// The SI number.
    fn si(self) -> f64;
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident $si:literal { $($unit:ident $to:ident $factor:expr => $unit_name:literal),+ $(,)? })+) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            $(
                #[doc = concat!("From ", $unit_name, ".")]
                pub const fn $unit(value: f64) -> Self { Self(value * $factor) }
                #[doc = concat!("In ", $unit_name, ".")]
                pub const fn $to(self) -> f64 { self.0 / $factor }
            )+
            /// Its size without its sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }
            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
        }
        impl Quantity for $name {
            const SI: &'static str = $si;
            fn from_si(si: f64) -> Self { Self(si) }
            fn si(self) -> f64 { self.0 }
        }
        impl Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl AddAssign for $name { fn add_assign(&mut self, o: Self) { self.0 += o.0; } }
        impl Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self(self.0 * k) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self(self.0 / k) } }
        impl Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0 / o.0 } }
        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self { items.fold(Self::ZERO, |a, b| a + b) }
        }
    )+};
}

quantities! {
    /// A length or a distance.
    Length "m" {
        m to_m 1.0 => "metres", mm to_mm 0.001 => "millimetres", cm to_cm 0.01 => "centimetres",
        ft to_ft M_PER_FT => "feet", inch to_inch M_PER_FT / 12.0 => "inches",
    }
    /// An area.
    Area "m2" { m2 to_m2 1.0 => "square metres", ft2 to_ft2 M_PER_FT * M_PER_FT => "square feet", mm2 to_mm2 1e-6 => "square millimetres" }
    /// A volume.
    Volume "m3" { m3 to_m3 1.0 => "cubic metres", ft3 to_ft3 M_PER_FT * M_PER_FT * M_PER_FT => "cubic feet" }
    /// A mass (what the trade calls weight).
    Mass "kg" {
        kg to_kg 1.0 => "kilograms", t to_t 1000.0 => "tonnes (1,000 kg)", lb to_lb KG_PER_LB => "pounds",
        kip to_kip 1000.0 * KG_PER_LB => "kips (1,000 lb)", us_ton to_us_ton 2000.0 * KG_PER_LB => "US tons (2,000 lb)",
        long_ton to_long_ton 2240.0 * KG_PER_LB => "long tons (2,240 lb)",
    }
    /// Mass per length.
    LinearDensity "kg/m" { kg_per_m to_kg_per_m 1.0 => "kilograms per metre", plf to_plf KG_PER_LB / M_PER_FT => "pounds per foot" }
    /// Mass per area.
    AreaDensity "kg/m2" { kg_per_m2 to_kg_per_m2 1.0 => "kilograms per square metre", psf to_psf KG_PER_LB / (M_PER_FT * M_PER_FT) => "pounds per square foot" }
    /// Mass per volume.
    Density "kg/m3" { kg_per_m3 to_kg_per_m3 1.0 => "kilograms per cubic metre", pcf to_pcf KG_PER_LB / (M_PER_FT * M_PER_FT * M_PER_FT) => "pounds per cubic foot" }
    /// A force.
    Force "N" { n to_n 1.0 => "newtons", kn to_kn 1000.0 => "kilonewtons", lbf to_lbf N_PER_LBF => "pounds-force", kip_force to_kip_force 1000.0 * N_PER_LBF => "kips-force" }
    /// A moment of a force.
    Moment "N*m" { n_m to_n_m 1.0 => "newton metres", kn_m to_kn_m 1000.0 => "kilonewton metres", kip_ft to_kip_ft 1000.0 * N_PER_LBF * M_PER_FT => "kip feet" }
    /// Stiffness of a box against twist (GJ) or against bending (EI).
    Rigidity "N*m2" {
        n_m2 to_n_m2 1.0 => "newton square metres", kn_m2 to_kn_m2 1000.0 => "kilonewton square metres",
        kip_ft2 to_kip_ft2 1000.0 * N_PER_LBF * M_PER_FT * M_PER_FT => "kip square feet",
    }
    /// Shear force per length over shear angle: what a sheathed panel resists with.
    ShearStiffness "N/m" {
        n_per_m to_n_per_m 1.0 => "newtons per metre", kn_per_mm to_kn_per_mm 1e6 => "kilonewtons per millimetre",
        kip_per_inch to_kip_per_inch 1000.0 * N_PER_LBF / (M_PER_FT / 12.0) => "kips per inch",
    }
    /// A pressure or a stress.
    Pressure "Pa" { pa to_pa 1.0 => "pascals", kpa to_kpa 1000.0 => "kilopascals", psf_force to_psf_force N_PER_LBF / (M_PER_FT * M_PER_FT) => "pounds-force per square foot" }
    /// An angle; slopes of slings are from the horizontal.
    Angle "rad" { rad to_rad 1.0 => "radians", deg to_deg core::f64::consts::PI / 180.0 => "degrees" }
    /// A speed.
    Speed "m/s" { m_per_s to_m_per_s 1.0 => "metres a second", km_per_h to_km_per_h 1.0 / 3.6 => "kilometres an hour", mph to_mph 0.44704 => "miles an hour" }
    /// A length of time.
    Duration "s" { s to_s 1.0 => "seconds", minute to_minute 60.0 => "minutes", hour to_hour 3600.0 => "hours" }
    /// A ratio: a use, a share, an allowance.
    Ratio "1" { of to_of 1.0 => "parts of one", percent to_percent 0.01 => "per cent" }
}

impl Mass {
    /// The weight of this mass: `W = m·g`, with standard gravity.
    pub const fn weight(self) -> Force {
        Force::n(self.to_kg() * STANDARD_GRAVITY_M_S2)
    }
}

impl Force {
    /// The mass that weighs this much under standard gravity (a trade's "pounds in the leg").
    pub const fn as_mass(self) -> Mass {
        Mass::kg(self.to_n() / STANDARD_GRAVITY_M_S2)
    }
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area::m2(self.to_m() * other.to_m())
    }
}

impl Angle {
    /// Sine, the same bits natively and in the browser.
    pub fn sin(self) -> f64 {
        libm::sin(self.to_rad())
    }
    /// Cosine, the same bits natively and in the browser.
    pub fn cos(self) -> f64 {
        libm::cos(self.to_rad())
    }
    /// Tangent, the same bits natively and in the browser.
    pub fn tan(self) -> f64 {
        libm::tan(self.to_rad())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(found: f64, expected: f64) {
        approx::assert_relative_eq!(found, expected, max_relative = 1e-12);
    }

    /// NIST SP 811 (2008) appendix B.8, factors as printed.
    #[test]
    fn nist_sp_811_factors() {
        near(Length::ft(1.0).to_m(), 0.3048);
        near(Length::inch(1.0).to_mm(), 25.4);
        near(Mass::lb(1.0).to_kg(), 0.453_592_37);
        near(Mass::us_ton(1.0).to_kg(), 907.184_74);
        near(Speed::mph(1.0).to_m_per_s(), 0.44704);
        approx::assert_relative_eq!(Force::lbf(1.0).to_n(), 4.448_222, max_relative = 1e-7);
        approx::assert_relative_eq!(Pressure::psf_force(1.0).to_pa(), 47.880_26, max_relative = 1e-7);
        approx::assert_relative_eq!(AreaDensity::psf(1.0).to_kg_per_m2(), 4.882_428, max_relative = 1e-6);
        approx::assert_relative_eq!(LinearDensity::plf(1.0).to_kg_per_m(), 1.488_164, max_relative = 1e-6);
        approx::assert_relative_eq!(Density::pcf(1.0).to_kg_per_m3(), 16.018_46, max_relative = 1e-6);
    }
}
