//! The ground plan, in metres or feet east and north of an origin that is a foundation corner.

use super::Id;
use crate::json::{fields, names};
use crate::quantity::{Angle, Entry, Length, Pressure};
use crate::rules::{Profile, Soil};

/// A point on the ground.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Point {
    /// East of the origin.
    pub east: Entry<Length>,
    /// North of the origin.
    pub north: Entry<Length>,
}

impl Point {
    /// East and north in metres; `None` where one is unknown.
    pub fn metres(&self) -> Option<[f64; 2]> {
        Some([self.east.get()?.to_m(), self.north.get()?.to_m()])
    }
}

/// The lot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Site {
    /// Outside of the foundation.
    pub foundation: Vec<Point>,
    /// Width of the strip round the foundation that takes no outrigger.
    pub no_load_offset: Entry<Length>,
    /// Why that wide, who said so.
    pub no_load_basis: String,
    /// Depth of the foundation's excavation.
    pub excavation_depth: Entry<Length>,
    /// How far it was dug out beyond the foundation.
    pub overdig: Entry<Length>,
    /// Whose rules hold here.
    pub rules: Profile,
    /// Areas of the lot.
    pub zones: Vec<Zone>,
    /// Trees and other things that stand up.
    pub obstacles: Vec<Obstacle>,
    /// Power lines.
    pub power_lines: Vec<PowerLine>,
    /// Other overhead cables.
    pub cables: Vec<Cable>,
    /// Where boxes are picked from.
    pub spots: Vec<PickSpot>,
    /// Named places where the crane may stand.
    pub pads: Vec<Pad>,
}

/// An area of the lot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Zone {
    /// Name.
    pub name: String,
    /// What it means.
    pub kind: ZoneKind,
    /// Its outline.
    pub outline: Vec<Point>,
    /// What the ground may bear; blank: unknown.
    pub bearing: Entry<Pressure>,
    /// What it is made of: where nobody has tested it, the rules presume what it bears.
    pub soil: Soil,
    /// Depth of an excavation, height of a wall.
    pub depth: Entry<Length>,
    /// Who said so, what it is made of.
    pub note: String,
}

/// What an area means for a crane.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ZoneKind {
    /// Road.
    Road,
    /// Driveway or yard with a made surface.
    Driveway,
    /// Open ground.
    #[default]
    Ground,
    /// Nothing heavy may stand here.
    NoLoad,
    /// The owner's line.
    Property,
    /// An excavation, or a wall that holds ground back: nothing heavy near its edge.
    Excavation,
}

/// Something that stands up, round in plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Obstacle {
    /// Name.
    pub name: String,
    /// Its middle.
    pub at: Point,
    /// Its reach in plan.
    pub radius: Entry<Length>,
    /// Its height above grade.
    pub height: Entry<Length>,
}

/// A power line between two points.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PowerLine {
    /// Name.
    pub name: String,
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Height of the lowest wire above grade.
    pub height: Entry<Length>,
    /// Voltage in kilovolts, as told; blank: unknown.
    pub kilovolts: String,
    /// Who at the utility confirmed the voltage, and when; blank: not confirmed.
    pub confirmed: String,
    /// Distance inside which the rules for lines begin.
    pub trigger: Entry<Length>,
    /// How far the wire hangs below the height told when it is hot or iced.
    pub sag: Entry<Length>,
    /// How far the wind blows it out to the side.
    pub blow_out: Entry<Length>,
}

/// Another overhead cable between two points.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cable {
    /// Name.
    pub name: String,
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Clear height below it.
    pub clear: Entry<Length>,
    /// What it means for the day.
    pub note: String,
}

/// Where a carrier stops to be unloaded.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PickSpot {
    /// Short name.
    pub id: Id,
    /// Where the load's centre of gravity is.
    pub at: Point,
    /// Direction of the box's x axis on its carrier, from east, anticlockwise.
    pub heading: Entry<Angle>,
    /// Height of the underside of the load's floor on the carrier, above grade.
    pub floor: Entry<Length>,
    /// What else to know.
    pub note: String,
}

/// A named place where the crane may stand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pad {
    /// Short name.
    pub id: Id,
    /// Slew centre.
    pub at: Point,
    /// What else to know.
    pub note: String,
}

/// How an area is marked on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Outline only.
    None,
    /// Hatched: nothing heavy here.
    Hatched,
}

impl ZoneKind {
    /// How the drawing marks it.
    pub fn fill(self) -> Fill {
        match self {
            Self::NoLoad | Self::Excavation => Fill::Hatched,
            _ => Fill::None,
        }
    }
}

fields! {
    Point { east, north }
    Site { foundation, no_load_offset, no_load_basis, zones, obstacles, power_lines, cables, spots, pads; excavation_depth, overdig, rules }
    Zone { name, kind, outline, bearing, note; soil, depth }
    Obstacle { name, at, radius, height }
    PowerLine { name, from, to, height, kilovolts, confirmed, trigger; sag, blow_out }
    Cable { name, from, to, clear, note }
    PickSpot { id, at, heading, floor, note }
    Pad { id, at, note }
}

names!(ZoneKind {
    "road" => Road, "driveway" => Driveway, "ground" => Ground, "no_load" => NoLoad, "property" => Property,
    "excavation" => Excavation,
});

names!(Profile {
    "not_said" => NotSaid, "us" => Us, "ontario" => Ontario, "alberta" => Alberta, "british_columbia" => BritishColumbia,
});

names!(Soil {
    "not_said" => NotSaid, "unknown" => Unknown, "rock" => Rock, "soft_rock" => SoftRock, "gravel" => Gravel, "sand" => Sand, "till" => Till,
    "stiff_clay" => StiffClay, "firm_clay" => FirmClay, "soft" => Soft, "fill" => Fill,
});
