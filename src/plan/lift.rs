//! The lifts of the day.

use super::{Id, Point};
use crate::json::{choice, fields};
use crate::quantity::{Entry, Length, Mass, Ratio};

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
}

/// What is lifted.
#[derive(Clone, Debug, PartialEq)]
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
    Lift { id, number, load, rig, picks, contingency, boom, note }
}

choice!(Load {
    "box" => Box { id },
    "roof_raise" => RoofRaise { on, panel, hinge_to_cg, hinge_to_pull, least_share },
    "bundle" => Bundle { name, mass, set, set_height },
});
