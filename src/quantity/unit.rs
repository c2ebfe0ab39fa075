//! Units: the names under which people type and read quantities.

use super::kinds::{
    Angle, Area, AreaDensity, Density, Duration, Force, Length, LinearDensity, Mass, Moment, Pressure, Quantity, Ratio,
    Rigidity, ShearStiffness, Speed, Volume,
};
use serde::Serialize;

/// A quantity that people type and read in named units.
pub trait Readable: Quantity {
    /// Every unit it may be typed in; the first is the SI unit.
    const UNITS: &'static [Unit];
    /// What it is, for messages: "a length".
    const KIND: &'static str;
    /// Two well typed examples, for messages: "12 ft 6 in or 3.81 m".
    const EXAMPLE: &'static str;
    /// The unit its figures are usually shown in.
    fn usual(system: UnitSystem) -> Unit;
    /// The same without the type.
    const DIMENSION: &'static Dimension = &Dimension {
        units: Self::UNITS,
        kind: Self::KIND,
        example: Self::EXAMPLE,
    };
}

/// A quantity as data, for code that is the same for all of them: one copy of it is loaded, not one a quantity.
#[derive(Debug)]
pub struct Dimension {
    /// Every unit it may be typed in; the first is the SI unit.
    pub units: &'static [Unit],
    /// What it is, for messages.
    pub kind: &'static str,
    /// Two well typed examples, for messages.
    pub example: &'static str,
}

impl Dimension {
    /// Whether `unit` is one of its units.
    pub fn has(&self, unit: Unit) -> bool {
        self.units.contains(&unit)
    }

    /// Its unit that people spell so; capitals do not matter.
    pub fn spelled(&self, text: &str) -> Option<Unit> {
        self.units.iter().copied().find(|unit| unit.is_spelled(text))
    }
}

/// The units a project shows its figures in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Feet and pounds.
    #[default]
    Us,
    /// Metres and tonnes.
    Metric,
}

macro_rules! units {
    ($($kind:ident $kind_text:literal $example:literal us $us:ident metric $metric:ident {
        $($unit:ident $key:literal $symbol:literal $name:literal $from:ident $to:ident [$($spelling:literal),*];)+
    })+) => {
        /// A unit of some quantity.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
        #[allow(missing_docs)] // each unit's name says it: see `Unit::name`
        pub enum Unit { $($(#[serde(rename = $key)] $unit,)+)+ }

        /// A plain number.
        impl Default for Unit { fn default() -> Self { Self::One } }

        impl Unit {
            /// Every unit.
            pub const ALL: &'static [Self] = &[$($(Self::$unit,)+)+];
            /// As it stands behind a printed number: "lb", "kg/m²"; "1" for a plain ratio.
            pub const fn symbol(self) -> &'static str { match self { $($(Self::$unit => $symbol,)+)+ } }
            /// In full: "US ton (2,000 lb)".
            pub const fn name(self) -> &'static str { match self { $($(Self::$unit => $name,)+)+ } }
            /// The key of the SI unit of its quantity; units with the same one measure the same kind of thing.
            pub const fn si_key(self) -> &'static str { match self { $($(Self::$unit => <$kind as Quantity>::SI,)+)+ } }
            /// What it is a unit of.
            pub const fn dimension(self) -> &'static Dimension { match self { $($(Self::$unit => $kind::DIMENSION,)+)+ } }
            /// Its quantity's usual unit in a system of units.
            pub fn usual(self, system: UnitSystem) -> Self { match self { $($(Self::$unit => <$kind as Readable>::usual(system),)+)+ } }
            /// The SI number of `value` of this unit.
            pub fn to_si(self, value: f64) -> f64 { match self { $($(Self::$unit => $kind::$from(value).si(),)+)+ } }
            /// How many of this unit the SI number is.
            pub fn from_si(self, si: f64) -> f64 { match self { $($(Self::$unit => $kind::from_si(si).$to(),)+)+ } }
            /// As a plan file holds it: "ft", "kg/m2".
            pub const fn key(self) -> &'static str { match self { $($(Self::$unit => $key,)+)+ } }
            /// Ways people spell it besides its symbol and its name; capitals do not matter.
            const fn spellings(self) -> &'static [&'static str] { match self { $($(Self::$unit => &[$key, $($spelling),*],)+)+ } }
        }
        $(impl Readable for $kind {
            const UNITS: &'static [Unit] = &[$(Unit::$unit,)+];
            const KIND: &'static str = $kind_text;
            const EXAMPLE: &'static str = $example;
            fn usual(system: UnitSystem) -> Unit {
                match system { UnitSystem::Us => Unit::$us, UnitSystem::Metric => Unit::$metric }
            }
        })+
    };
}

units! {
    Length "a length" "12 ft 6 in or 3.81 m" us Ft metric M {
        M "m" "m" "metre" m to_m ["metres", "meter", "meters"];
        Cm "cm" "cm" "centimetre" cm to_cm ["centimetres", "centimeter", "centimeters"];
        Mm "mm" "mm" "millimetre" mm to_mm ["millimetres", "millimeter", "millimeters"];
        Ft "ft" "ft" "foot" ft to_ft ["ft.", "feet", "'"];
        Inch "in" "in" "inch" inch to_inch ["in.", "inches", "\""];
    }
    Area "an area" "700 ft2 or 65 m2" us Ft2 metric M2 {
        M2 "m2" "m²" "square metre" m2 to_m2 ["m^2", "sq m", "square metres", "square meter", "square meters"];
        Ft2 "ft2" "ft²" "square foot" ft2 to_ft2 ["ft^2", "sq ft", "sf", "square feet"];
    }
    Volume "a volume" "7,000 ft3 or 200 m3" us Ft3 metric M3 {
        M3 "m3" "m³" "cubic metre" m3 to_m3 ["m^3", "cu m", "cubic metres", "cubic meter", "cubic meters"];
        Ft3 "ft3" "ft³" "cubic foot" ft3 to_ft3 ["ft^3", "cu ft", "cf", "cubic feet"];
    }
    Mass "a mass" "33,720 lb or 8 t" us Lb metric T {
        Kg "kg" "kg" "kilogram" kg to_kg ["kgs", "kilograms", "kilo", "kilos"];
        T "t" "t" "tonne (1,000 kg)" t to_t ["tonne", "tonnes", "metric ton", "metric tons"];
        Lb "lb" "lb" "pound" lb to_lb ["lb.", "lbs", "lbs.", "pounds"];
        Kip "kip" "kip" "kip (1,000 lb)" kip to_kip ["kips", "klb", "klbs"];
        UsTon "US ton" "US ton" "US ton (2,000 lb)" us_ton to_us_ton ["us tons", "short ton", "short tons"];
        LongTon "long ton" "long ton" "long ton (2,240 lb)" long_ton to_long_ton ["long tons"];
    }
    LinearDensity "a mass per length" "2.5 plf or 3.7 kg/m" us Plf metric KgPerM {
        KgPerM "kg/m" "kg/m" "kilogram per metre" kg_per_m to_kg_per_m [];
        Plf "plf" "plf" "pound per foot" plf to_plf ["lb/ft", "lbs/ft"];
    }
    AreaDensity "a mass per area" "12 psf or 60 kg/m2" us Psf metric KgPerM2 {
        KgPerM2 "kg/m2" "kg/m²" "kilogram per square metre" kg_per_m2 to_kg_per_m2 ["kg/m^2"];
        Psf "psf" "psf" "pound per square foot" psf to_psf ["lb/ft2", "lb/ft²", "lb/ft^2", "lbs/ft2"];
    }
    Density "a mass per volume" "35 pcf or 560 kg/m3" us Pcf metric KgPerM3 {
        KgPerM3 "kg/m3" "kg/m³" "kilogram per cubic metre" kg_per_m3 to_kg_per_m3 ["kg/m^3"];
        Pcf "pcf" "pcf" "pound per cubic foot" pcf to_pcf ["lb/ft3", "lb/ft³", "lb/ft^3", "lbs/ft3"];
    }
    Force "a force" "8,000 lbf or 36 kN" us Lbf metric Kn {
        N "N" "N" "newton" n to_n ["newtons"];
        Kn "kN" "kN" "kilonewton" kn to_kn ["kilonewtons"];
        Lbf "lbf" "lbf" "pound-force" lbf to_lbf ["lb", "lbs", "pounds"];
        KipForce "kipf" "kip" "kip-force (1,000 lbf)" kip_force to_kip_force ["kips"];
    }
    Pressure "a pressure" "1,500 psf or 72 kPa" us PsfForce metric Kpa {
        Pa "Pa" "Pa" "pascal" pa to_pa ["pascals", "N/m2", "N/m²"];
        Kpa "kPa" "kPa" "kilopascal" kpa to_kpa ["kN/m2", "kN/m²"];
        PsfForce "lbf/ft2" "psf" "pound-force per square foot" psf_force to_psf_force ["lb/ft2", "lb/ft²"];
    }
    Moment "a moment" "30 kip·ft or 40 kN·m" us KipFt metric KnM {
        NM "N*m" "N·m" "newton metre" n_m to_n_m ["N m", "Nm"];
        KnM "kN*m" "kN·m" "kilonewton metre" kn_m to_kn_m ["kN m", "kNm"];
        KipFt "kip*ft" "kip·ft" "kip foot" kip_ft to_kip_ft ["kip ft", "kip-ft", "k-ft"];
    }
    Rigidity "a stiffness against twist or bending" "5,000 kN·m2 or 12,000 kip·ft2" us KipFt2 metric KnM2 {
        NM2 "N*m2" "N·m²" "newton square metre" n_m2 to_n_m2 ["N m2", "N·m2", "Nm2"];
        KnM2 "kN*m2" "kN·m²" "kilonewton square metre" kn_m2 to_kn_m2 ["kN m2", "kN·m2", "kNm2"];
        KipFt2 "kip*ft2" "kip·ft²" "kip square foot" kip_ft2 to_kip_ft2 ["kip ft2", "kip·ft2", "kip-ft2"];
    }
    ShearStiffness "a shear stiffness of a panel" "15 kip/in or 2.6 kN/mm" us KipPerInch metric KnPerMm {
        NPerM "N/m" "N/m" "newton per metre" n_per_m to_n_per_m [];
        KnPerMm "kN/mm" "kN/mm" "kilonewton per millimetre" kn_per_mm to_kn_per_mm ["MN/m"];
        KipPerInch "kip/in" "kip/in" "kip per inch" kip_per_inch to_kip_per_inch ["kips/in", "kip/inch"];
    }
    Angle "an angle" "60 deg" us Deg metric Deg {
        Rad "rad" "rad" "radian" rad to_rad ["radians"];
        Deg "deg" "°" "degree" deg to_deg ["degs", "degrees"];
    }
    Speed "a speed" "20 mph or 9 m/s" us Mph metric MPerS {
        MPerS "m/s" "m/s" "metre a second" m_per_s to_m_per_s ["mps"];
        KmPerH "km/h" "km/h" "kilometre an hour" km_per_h to_km_per_h ["kph", "kmh"];
        Mph "mph" "mph" "mile an hour" mph to_mph ["mi/h"];
    }
    Duration "a time" "45 min or 4 h" us Minute metric Minute {
        S "s" "s" "second" s to_s ["sec", "seconds"];
        Minute "min" "min" "minute" minute to_minute ["mins", "minutes"];
        Hour "h" "h" "hour" hour to_hour ["hr", "hrs", "hours"];
    }
    Ratio "a share" "10 % or 0.1" us Percent metric Percent {
        One "1" "1" "part of one" of to_of [];
        Percent "%" "%" "per cent" percent to_percent ["percent", "pct"];
    }
}

impl Unit {
    /// Whether it is a unit of `Q`.
    pub fn measures<Q: Readable>(self) -> bool {
        Q::DIMENSION.has(self)
    }

    /// The unit of `Q` that people spell so; capitals do not matter.
    pub fn spelled<Q: Readable>(text: &str) -> Option<Self> {
        Q::DIMENSION.spelled(text)
    }

    /// Any unit that people spell so, whatever it measures.
    pub fn spelled_anywhere(text: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|unit| unit.is_spelled(text))
    }

    fn is_spelled(self, text: &str) -> bool {
        let same = |spelling: &str| spelling.eq_ignore_ascii_case(text);
        // "1" is the file's key of a plain ratio, never a unit somebody writes behind a number
        self != Self::One && (same(self.symbol()) || same(self.name()) || self.spellings().iter().any(|s| same(s)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each unit belongs to one quantity only, and the first unit of a quantity is its SI unit.
    #[test]
    fn units_and_quantities_agree() {
        fn check<Q: Readable>() -> usize {
            assert_eq!(Q::UNITS[0].to_si(1.25), 1.25, "{}", Q::KIND);
            assert_eq!(Q::UNITS[0].key(), Q::SI);
            for unit in Q::UNITS {
                assert_eq!(unit.si_key(), Q::SI, "{unit:?}");
            }
            assert!(Q::usual(UnitSystem::Us).measures::<Q>() && Q::usual(UnitSystem::Metric).measures::<Q>());
            Q::UNITS.len()
        }
        let counted = [
            check::<Length>(),
            check::<Area>(),
            check::<Volume>(),
            check::<Mass>(),
            check::<LinearDensity>(),
            check::<AreaDensity>(),
            check::<Density>(),
            check::<Force>(),
            check::<Pressure>(),
            check::<Moment>(),
            check::<Rigidity>(),
            check::<ShearStiffness>(),
            check::<Angle>(),
            check::<Speed>(),
            check::<Duration>(),
            check::<Ratio>(),
        ];
        assert_eq!(counted.iter().sum::<usize>(), Unit::ALL.len());
    }

    #[test]
    fn no_two_units_have_the_same_key() {
        let keys: std::collections::BTreeSet<_> = Unit::ALL.iter().map(|unit| unit.key()).collect();
        assert_eq!(keys.len(), Unit::ALL.len());
        assert_eq!([Unit::KgPerM2.key(), Unit::Percent.key()], ["kg/m2", "%"]);
    }

    #[test]
    fn no_spelling_names_two_units_of_one_quantity() {
        for &unit in Unit::ALL {
            for spelling in unit.spellings() {
                let same: Vec<_> = Unit::ALL
                    .iter()
                    .filter(|u| u.si_key() == unit.si_key() && u.is_spelled(spelling))
                    .collect();
                assert!(
                    same.is_empty() && unit == Unit::One || same == [&unit],
                    "{spelling}: {same:?}"
                );
            }
        }
    }
}

/// Every factor against the general-purpose unit library `uom` (its data: NIST SP 811 and the SI brochure).
#[cfg(all(test, not(target_arch = "wasm32")))]
mod oracle {
    use super::Unit;
    use uom::si::f64::*;
    use uom::si::*;

    /// One of every unit in SI, by `uom`.
    fn by_uom(unit: Unit) -> f64 {
        let lb = Mass::new::<mass::pound>(1.0);
        let foot = Length::new::<length::foot>(1.0);
        let si_force = |f: Force| f.get::<force::newton>();
        match unit {
            Unit::M => Length::new::<length::meter>(1.0).value,
            Unit::Cm => Length::new::<length::centimeter>(1.0).value,
            Unit::Mm => Length::new::<length::millimeter>(1.0).value,
            Unit::Ft => foot.value,
            Unit::Inch => Length::new::<length::inch>(1.0).value,
            Unit::M2 => Area::new::<area::square_meter>(1.0).value,
            Unit::Ft2 => Area::new::<area::square_foot>(1.0).value,
            Unit::M3 => Volume::new::<volume::cubic_meter>(1.0).value,
            Unit::Ft3 => Volume::new::<volume::cubic_foot>(1.0).value,
            Unit::Kg => Mass::new::<mass::kilogram>(1.0).value,
            Unit::T => Mass::new::<mass::ton>(1.0).value,
            Unit::Lb => lb.value,
            Unit::Kip => 1000.0 * lb.value,
            Unit::UsTon => Mass::new::<mass::ton_short>(1.0).value,
            Unit::LongTon => Mass::new::<mass::ton_long>(1.0).value,
            Unit::KgPerM => 1.0,
            Unit::Plf => (lb / foot).value,
            Unit::KgPerM2 => 1.0,
            Unit::Psf => (lb / foot / foot).value,
            Unit::KgPerM3 => 1.0,
            Unit::Pcf => (lb / foot / foot / foot).value,
            Unit::N => si_force(Force::new::<force::newton>(1.0)),
            Unit::Kn => si_force(Force::new::<force::kilonewton>(1.0)),
            Unit::Lbf => si_force(Force::new::<force::pound_force>(1.0)),
            Unit::KipForce => si_force(Force::new::<force::kip>(1.0)),
            Unit::Pa => Pressure::new::<pressure::pascal>(1.0).value,
            Unit::Kpa => Pressure::new::<pressure::kilopascal>(1.0).value,
            Unit::PsfForce => Pressure::new::<pressure::pound_force_per_square_foot>(1.0).value,
            Unit::NM => 1.0,
            Unit::KnM => si_force(Force::new::<force::kilonewton>(1.0)),
            Unit::KipFt => si_force(Force::new::<force::kip>(1.0)) * foot.value,
            Unit::NM2 => 1.0,
            Unit::KnM2 => si_force(Force::new::<force::kilonewton>(1.0)),
            Unit::KipFt2 => si_force(Force::new::<force::kip>(1.0)) * (foot * foot).value,
            Unit::NPerM => 1.0,
            Unit::KnPerMm => si_force(Force::new::<force::kilonewton>(1000.0)),
            Unit::KipPerInch => si_force(Force::new::<force::kip>(1.0)) / Length::new::<length::inch>(1.0).value,
            Unit::Rad => Angle::new::<angle::radian>(1.0).value,
            Unit::Deg => Angle::new::<angle::degree>(1.0).value,
            Unit::MPerS => Velocity::new::<velocity::meter_per_second>(1.0).value,
            Unit::KmPerH => Velocity::new::<velocity::kilometer_per_hour>(1.0).value,
            Unit::Mph => Velocity::new::<velocity::mile_per_hour>(1.0).value,
            Unit::S => Time::new::<time::second>(1.0).value,
            Unit::Minute => Time::new::<time::minute>(1.0).value,
            Unit::Hour => Time::new::<time::hour>(1.0).value,
            Unit::One => Ratio::new::<ratio::ratio>(1.0).value,
            Unit::Percent => Ratio::new::<ratio::percent>(1.0).value,
        }
    }

    #[test]
    fn every_factor() {
        for &unit in Unit::ALL {
            // uom prints the factors that NIST SP 811 rounds to seven figures with those seven
            approx::assert_relative_eq!(unit.to_si(1.0), by_uom(unit), max_relative = 5e-7);
            approx::assert_relative_eq!(unit.from_si(unit.to_si(7.0)), 7.0, max_relative = 1e-14);
        }
    }
}
