//! The lifts of the day.

use super::{Id, Point};
use crate::json::{choice, fields, names};
use crate::quantity::{Angle, Area, Entry, Length, Mass, Ratio};

/// One lift.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lift {
    /// Stable name of the row.
    pub id: Id,
    /// Number in the order of the day, as printed.
    pub number: u32,
    /// What is lifted.
    pub load: Load,
    /// How it hangs.
    pub rig: Id,
    /// Where it may be picked: the spot with the smallest use of the chart is taken.
    pub picks: Vec<Id>,
    /// Added to the weight. Blank: by how the weight is known.
    pub contingency: Entry<Ratio>,
    /// Boom length. Blank: the length within every crane check that uses least of the chart.
    pub boom: Entry<Length>,
    /// What else to know.
    pub note: String,
    /// Which way the crane swings from pick to set.
    pub swing: Swing,
    /// The largest face that the load shows to the wind; blank: a box's own, over its diagonal.
    pub wind_area: Entry<Area>,
    /// What the load indicator showed at the trial lift. Blank: not lifted yet.
    pub reading: Entry<Mass>,
    /// Lifts of these kinds are outside this program.
    pub scope: Scope,
}

/// Which way the crane swings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Swing {
    /// The shorter way.
    #[default]
    Short,
    /// Anticlockwise as seen from above.
    Anticlockwise,
    /// Clockwise.
    Clockwise,
}

/// What makes a lift none of this program's.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scope {
    /// Nothing: one crane, a load, nobody on it and nobody under it.
    #[default]
    Plain,
    /// People are lifted.
    People,
    /// Two cranes share the load.
    TwoCranes,
    /// It goes over a place where people are.
    Occupied,
}

/// What is lifted.
#[derive(Clone, Debug, PartialEq)]
#[allow(
    clippy::large_enum_variant,
    reason = "a plan holds few of them, boxing would only blur the document"
)]
pub enum Load {
    /// A house box, from a pick spot to its place.
    Box {
        /// Which.
        id: Id,
    },
    /// A hinged roof half raised on a box that is set.
    RoofRaise {
        /// The box it is hinged to.
        on: Id,
        /// Weight of the panel.
        panel: Entry<Mass>,
        /// Hinge to the panel's centre of gravity.
        hinge_to_cg: Entry<Length>,
        /// Hinge to where the pull takes hold.
        hinge_to_pull: Entry<Length>,
        /// The pull is planned as at least this share of the panel.
        least_share: Entry<Ratio>,
        /// Where it turns and how far.
        arc: RaiseArc,
    },
    /// A bundle of loose parts.
    Bundle {
        /// What.
        name: String,
        /// Its weight.
        mass: Entry<Mass>,
        /// Where it is set down.
        set: Point,
        /// Height it is set down at, above grade.
        set_height: Entry<Length>,
    },
}

/// Where a roof half is hinged, in the frame of its box, and the way it goes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RaiseArc {
    /// Hinge line across the box, from its first side.
    pub hinge_across: Entry<Length>,
    /// Hinge line over the underside of the floor.
    pub hinge_up: Entry<Length>,
    /// Where along the box the pull takes hold.
    pub pull_along: Entry<Length>,
    /// The panel reaches from its hinge towards the second side; else towards the first.
    pub toward_second: bool,
    /// Centre of gravity square to the line from hinge to pull; above nothing on the upper side.
    pub cg_square: Entry<Length>,
    /// Angle of the panel from the horizontal when the pull begins.
    pub from: Entry<Angle>,
    /// Angle at which its knee walls go in.
    pub to: Entry<Angle>,
    /// How far the hook may be beside the plumb over the pick, either way.
    pub hook_off: Entry<Length>,
    /// Weight of the flap that lies folded back along its edge, part of the panel's weight. Blank: there is none.
    pub flap: Entry<Mass>,
    /// Angle of the flap from the horizontal when it is laid over.
    pub flap_to: Entry<Angle>,
    /// What holds the panel or its flap back past its balance, and who tends it.
    pub restraint: String,
}

impl Default for Load {
    fn default() -> Self {
        Self::Box { id: Id::default() }
    }
}

impl Load {
    /// The box that it is, or is hinged to.
    pub fn house(&self) -> Option<&Id> {
        match self {
            Self::Box { id } => Some(id),
            Self::RoofRaise { on, .. } => Some(on),
            Self::Bundle { .. } => None,
        }
    }
}

fields! {
    RaiseArc { hinge_across, hinge_up, pull_along, toward_second, cg_square, from, to, hook_off; flap, flap_to, restraint }
    Lift { id, number, load, rig, picks, contingency, boom, note; swing, wind_area, reading, scope }
}

names!(Swing { "short" => Short, "anticlockwise" => Anticlockwise, "clockwise" => Clockwise });
names!(Scope { "plain" => Plain, "people" => People, "two_cranes" => TwoCranes, "occupied" => Occupied });

choice!(Load {
    "box" => Box { id },
    "roof_raise" => RoofRaise { on, panel, hinge_to_cg, hinge_to_pull, least_share, arc },
    "bundle" => Bundle { name, mass, set, set_height },
});
