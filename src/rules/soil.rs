//! What ground may be presumed to bear where nobody has tested it, by whose rules.

use super::Profile;
use crate::quantity::Pressure;

/// What the ground is made of, as far as it can be seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Soil {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// Somebody has looked and cannot tell.
    Unknown,
    /// Crystalline rock.
    Rock,
    /// Sedimentary or foliated rock.
    SoftRock,
    /// Sandy gravel or gravel.
    Gravel,
    /// Dense sand.
    Sand,
    /// Glacial till.
    Till,
    /// Stiff clay.
    StiffClay,
    /// Firm clay.
    FirmClay,
    /// Soft clay, loose sand.
    Soft,
    /// Fill that nobody has compacted and tested.
    Fill,
}

impl Soil {
    /// Whether a cut in it stands at one to one; loose ground and fill want twice the depth (job's rule of thumb, common practice).
    pub const fn setback_per_depth(self) -> f64 {
        match self {
            Self::Rock | Self::SoftRock | Self::Gravel | Self::Sand | Self::Till | Self::StiffClay | Self::FirmClay => {
                1.0
            }
            Self::NotSaid | Self::Unknown | Self::Soft | Self::Fill => 2.0,
        }
    }
}

/// A presumed value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Presumed {
    /// What it may bear; `None` where the table has no value.
    pub bears: Option<Pressure>,
    /// Where that stands.
    pub source: &'static str,
}

const IBC: &str = "IBC Table 1806.2, presumptive";
const NBC: &str = "NBC/OBC 9.4.4.1, presumptive";

/// What a soil may be presumed to bear.
///
/// United States: IBC Table 1806.2 in psf: 12,000 crystalline rock, 4,000 sedimentary, 3,000 gravel, 2,000 sand, 1,500 clay; soil that nobody
/// knows 1,500 (24 CFR 3285.202(c), for manufactured homes). Canada: NBC/OBC 9.4.4.1 in kPa: dense sand or gravel and stiff clay 150, till 200, firm clay 75,
/// soft 40. Unprepared fill has no value (IBC 1806.2, 9.4.4). With no rules chosen: the smaller of both.
pub fn presumed(profile: Profile, soil: Soil) -> Presumed {
    if soil == Soil::Fill {
        return Presumed {
            bears: None,
            source: "IBC 1806: unprepared fill has no presumptive value",
        };
    }
    match profile {
        Profile::Us => us(soil),
        Profile::Ontario | Profile::Alberta | Profile::BritishColumbia => canada(soil),
        Profile::NotSaid => match (us(soil), canada(soil)) {
            (Presumed { bears: Some(a), .. }, b) if b.bears.is_none_or(|b| a < b) => us(soil),
            (_, b) => b,
        },
    }
}

fn us(soil: Soil) -> Presumed {
    let (psf, source) = match soil {
        Soil::Rock => (Some(12_000.0), IBC),
        Soil::SoftRock => (Some(4_000.0), IBC),
        Soil::Gravel => (Some(3_000.0), IBC),
        Soil::Sand => (Some(2_000.0), IBC),
        Soil::StiffClay | Soil::FirmClay => (Some(1_500.0), IBC),
        Soil::Unknown => (Some(1_500.0), "24 CFR 3285.202, soil not known"),
        Soil::NotSaid | Soil::Till | Soil::Soft | Soil::Fill => (None, IBC),
    };
    Presumed {
        bears: psf.map(Pressure::psf_force),
        source,
    }
}

fn canada(soil: Soil) -> Presumed {
    let kpa = match soil {
        Soil::Gravel | Soil::Sand | Soil::StiffClay => Some(150.0),
        Soil::Till => Some(200.0),
        Soil::FirmClay => Some(75.0),
        Soil::Soft => Some(40.0),
        Soil::NotSaid | Soil::Unknown | Soil::Rock | Soil::SoftRock | Soil::Fill => None,
    };
    Presumed {
        bears: kpa.map(Pressure::kpa),
        source: NBC,
    }
}
