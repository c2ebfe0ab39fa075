//! A house box: its size, what it is made of, where slings take hold, where it goes.
//!
//! Box frame: x along the box from its first end, y across it from its first side, z up from the underside of the floor.

use super::{Id, Point};
use crate::json::{choice, fields, names};
use crate::quantity::{
    Angle, Area, AreaDensity, Density, Entry, Force, Length, LinearDensity, Mass, Moment, Ratio, Rigidity, Said,
    ShearStiffness, Volume,
};

/// A factory-built house box.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HouseBox {
    /// Short name painted on the box.
    pub id: Id,
    /// What it is.
    pub name: String,
    /// The end at x = 0 and the end at x = length, in words a rigger sees ("west end", "kitchen end").
    pub ends: [String; 2],
    /// The side at y = 0 and the side at y = width, in words.
    pub sides: [String; 2],
    /// Overall length.
    pub length: Entry<Length>,
    /// Overall width.
    pub width: Entry<Length>,
    /// Height as shipped, from the underside of the floor.
    pub height: Entry<Length>,
    /// What it is made of.
    pub components: Vec<Component>,
    /// The day the last item went in, as year-month-day.
    pub last_item_added: String,
    /// Weight per floor area to start from while there is no take-off.
    pub estimate: Entry<AreaDensity>,
    /// The scale ticket, if it was weighed.
    pub ticket: Option<Ticket>,
    /// Where slings take hold.
    pub picks: Vec<Place3>,
    /// How stiff it is against twist.
    pub torsion: Torsion,
    /// Torsional rigidity, where there is a figure.
    pub gj: Entry<Rigidity>,
    /// Shear stiffness of the sheathing round the box, for its torsional rigidity: floor, roof, first side, second side.
    pub panels: [Entry<ShearStiffness>; 4],
    /// How much of each face is sheathed: the area ratio r of Sugiyama. Blank: `panels` are of the faces as they stand.
    pub sheathed: [Entry<Ratio>; 4],
    /// Rigidity against bending up and down, where there is a figure. Blank: anything from nothing to rigid.
    pub ei: Entry<Rigidity>,
    /// The same of the floor's rims alone, the least that it can be: a bound.
    pub ei_rim: Entry<Rigidity>,
    /// The same of its side walls as girders with all they have, the most that it can be: a bound.
    pub ei_wall: Entry<Rigidity>,
    /// Height of the neutral axis over the underside of the floor.
    pub neutral: Entry<Length>,
    /// Largest moment that the factory allows: sagging, hogging. Blank: not held against any.
    pub moments: [Entry<Moment>; 2],
    /// Largest shear that the factory allows. Blank: not held against any.
    pub shear: Entry<Force>,
    /// How near to and how far from either end the factory lets picks be.
    pub pick_range: [Entry<Length>; 2],
    /// Edges that a strap may bend round: eaves, the edges of the floor.
    pub edges: Vec<BoxEdge>,
    /// Where the corner x = 0, y = 0 lands on the site.
    pub set_corner: Point,
    /// Direction of the box's x axis on the site, from east, anticlockwise.
    pub set_heading: Entry<Angle>,
    /// Height of the underside of its floor when set, above grade.
    pub set_floor: Entry<Length>,
}

/// How stiff a box is against twist between its picks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Torsion {
    /// Nobody said: anything from nothing to rigid.
    #[default]
    Unknown,
    /// It does not twist.
    Rigid,
    /// As stiff as `gj` says.
    Typed,
    /// As its sheathing says, all four faces round it closed: `panels`.
    Panels,
    /// One long side is open, so that it resists by warping and not by GJ: anything from nothing to rigid.
    OpenSide,
}

/// A straight edge that a strap may bend round without friction.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BoxEdge {
    /// What the legs call it: "eave 1".
    pub id: Id,
    /// One end.
    pub from: Place3,
    /// The other end.
    pub to: Place3,
}

/// A place in the box frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Place3 {
    /// Along the box.
    pub x: Entry<Length>,
    /// Across the box.
    pub y: Entry<Length>,
    /// Up from the underside of the floor.
    pub z: Entry<Length>,
}

impl Place3 {
    /// The coordinates in metres; `None` where one is unknown.
    pub fn metres(&self) -> Option<[f64; 3]> {
        Some([self.x.get()?.to_m(), self.y.get()?.to_m(), self.z.get()?.to_m()])
    }
}

/// A weight ticket.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ticket {
    /// Weight of the box alone, carrier and tractor taken off. Blank: the sum of `weigh_points`.
    pub mass: Entry<Mass>,
    /// The day it was weighed, as year-month-day.
    pub date: String,
    /// Before or after the last item was loaded.
    pub weighed: WeighedWhen,
    /// What the scale showed under each axle group or load cell.
    pub weigh_points: Vec<WeighPoint>,
}

/// One axle group of the carrier, or one load cell, as a scale showed it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WeighPoint {
    /// Which: "front group", "bogie", "cell at the kitchen corner".
    pub name: String,
    /// With the box on it.
    pub gross: Entry<Mass>,
    /// The same empty; a cell under the box itself has a tare of 0.
    pub tare: Entry<Mass>,
    /// Where it is along the box, from the first end; before that end it is below zero.
    pub x: Entry<Length>,
    /// Where it is across the box, from the first side. Blank: the group reaches over the whole width.
    pub y: Entry<Length>,
}

/// When a box was weighed, which sets how far its ticket is trusted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WeighedWhen {
    /// Complete, with everything that rides in it.
    #[default]
    AfterLoading,
    /// Before loading was complete, or axle by axle and summed.
    BeforeLoading,
}

/// One item of the take-off.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Component {
    /// Row name.
    pub id: Id,
    /// What it is.
    pub name: String,
    /// How its weight is known.
    pub weight: Weight,
    /// Where it is and what form it has; its centroid is computed.
    pub shape: Shape,
    /// How far an item that is entered by one place reaches along the box, for the box as a beam. Blank: a lump, or anything up to its nearer end.
    pub run: Entry<Length>,
    /// How far its weight may be off, as a share either way. Blank: the default in the limits.
    pub mass_band: Entry<Ratio>,
    /// How far its place may be off, either way in x, y and z. Blank: the default in the limits.
    pub place_band: Entry<Length>,
    /// Rows with the same name here are wrong together: the same board, the same moisture.
    pub group: String,
    /// The day it went in, as year-month-day: after a ticket's day it is added to the ticket.
    pub loaded: String,
    /// It is taken off the total instead of added.
    pub deduction: bool,
    /// It reaches outside the box on purpose.
    pub overhang: bool,
    /// Who said so, when.
    pub said: Option<Said>,
}

/// How the weight of a component is known.
#[derive(Clone, Debug, PartialEq)]
pub enum Weight {
    /// As one figure.
    Lump {
        /// The weight.
        mass: Entry<Mass>,
    },
    /// So many of one kind.
    Count {
        /// How many.
        count: Entry<Ratio>,
        /// The weight of one.
        each: Entry<Mass>,
    },
    /// By the run; a blank length is taken from the line that it lies on.
    Length {
        /// Weight per length.
        density: Entry<LinearDensity>,
        /// Length of the run.
        length: Entry<Length>,
    },
    /// By the face; a blank area is taken from the panel, less its openings.
    Area {
        /// Weight per area.
        density: Entry<AreaDensity>,
        /// Net area.
        area: Entry<Area>,
    },
    /// By the face, of an assembly of the plan; a blank area is taken from the panel, less its openings.
    Assembly {
        /// Which.
        assembly: Id,
        /// Net area.
        area: Entry<Area>,
    },
    /// By the bulk; a blank volume is taken from the block.
    Volume {
        /// Weight per volume.
        density: Entry<Density>,
        /// Volume.
        volume: Entry<Volume>,
    },
}

impl Default for Weight {
    fn default() -> Self {
        Self::Lump { mass: Entry::default() }
    }
}

/// Where a component is.
#[derive(Clone, Debug, PartialEq)]
#[allow(
    clippy::large_enum_variant,
    reason = "the large one is rare, boxing would only blur the document"
)]
pub enum Shape {
    /// All of it at one place.
    Point {
        /// Its centre of gravity.
        at: Place3,
    },
    /// Even along a straight line.
    Line {
        /// One end.
        from: Place3,
        /// The other end.
        to: Place3,
    },
    /// Even over a rectangle (a slanting one too), less openings.
    Panel {
        /// One corner.
        corner: Place3,
        /// The corner at the far end of the first edge.
        along: Place3,
        /// The corner at the far end of the second edge.
        up: Place3,
        /// Holes in it.
        openings: Vec<Opening>,
    },
    /// Even in an upright block.
    Block {
        /// The corner with the smallest coordinates.
        from: Place3,
        /// The corner with the largest.
        to: Place3,
    },
}

impl Default for Shape {
    fn default() -> Self {
        Self::Point { at: Place3::default() }
    }
}

/// A rectangular hole in a panel, placed from the panel's corner along its two edges.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opening {
    /// From the corner along the first edge.
    pub from_along: Entry<Length>,
    /// From the corner along the second edge.
    pub from_up: Entry<Length>,
    /// Size along the first edge.
    pub width: Entry<Length>,
    /// Size along the second edge.
    pub height: Entry<Length>,
}

fields! {
    HouseBox { id, name, ends, sides, length, width, height, components, last_item_added, ticket, picks, set_corner, set_heading, set_floor; torsion, gj, panels, ei, edges, estimate, sheathed, ei_rim, ei_wall, neutral, moments, shear, pick_range }
    BoxEdge { id, from, to }
    Place3 { x, y, z }
    Ticket { mass, date, weighed; weigh_points }
    WeighPoint { name, gross, tare, x, y }
    Component { id, name, weight, shape, deduction, overhang, said; mass_band, place_band, group, loaded, run }
    Opening { from_along, from_up, width, height }
}

choice!(Weight {
    "lump" => Lump { mass },
    "count" => Count { count, each },
    "length" => Length { density, length },
    "area" => Area { density, area },
    "volume" => Volume { density, volume },
    "assembly" => Assembly { assembly, area },
});

choice!(Shape {
    "point" => Point { at },
    "line" => Line { from, to },
    "panel" => Panel { corner, along, up, openings },
    "block" => Block { from, to },
});

names!(WeighedWhen { "after_loading" => AfterLoading, "before_loading" => BeforeLoading });
names!(Torsion { "unknown" => Unknown, "rigid" => Rigid, "typed" => Typed, "panels" => Panels, "open_side" => OpenSide });
