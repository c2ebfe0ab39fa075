//! The plan document: what people typed, as they typed it, and who said so.
//!
//! Nothing here computes. A plan is data with text in it ([`Entry`](crate::quantity::Entry)); `evaluate` reads it and answers
//! with an assessment. Blank means unknown, everywhere.

mod assembly;
mod checksum;
mod crane;
pub mod crane_file;
mod day;
mod differ;
pub mod example;
pub mod format;
mod gear;
mod hire;
mod history;
mod house;
mod issue;
mod lift;
mod next_job;
mod part;
mod project;
pub mod sample;
mod site;
mod twin;

pub use assembly::{Assembly, Layer, LayerWeight};
pub use checksum::{checksum, fnv1a_64};
pub use crane::{Crane, SetUp};
pub use day::{AsLifted, Before, Break, SetDay, Step, StepTime, Truck};
pub use differ::differences;
pub use gear::{Arrangement, BarForm, BarSteel, GearItem, GearKind, HungPiece, Leg, LugSteel, Piece, Rig};
pub use hire::{Hire, Offer, Quick, Quoted, Rate, RateFor};
pub use history::{DEPTH, History};
pub use house::{
    BoxEdge, Component, HouseBox, Opening, Place3, Shape, Ticket, Torsion, WeighPoint, WeighedWhen, Weight,
};
pub use issue::{Inputs, Issue, Standing, inputs, issue, next_revision, same_inputs};
pub use lift::{Lift, Load, RaiseArc, Scope, Swing};
pub use next_job::{LEFT_BLANK, next_job};
pub use part::Part;
pub use project::{FactorFormat, Limits, Project};
pub use site::{Cable, Fill, Obstacle, Pad, PickSpot, Point, PowerLine, Site, Zone, ZoneKind};
pub use twin::{mirrored, next_name, twin};

use crate::json;
use serde::Serialize;

/// A short name by which one thing of the plan refers to another: "A1", "S90", "K2".
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Id(pub String);

impl Id {
    /// The name as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
    /// Whether nothing is named.
    pub fn is_empty(&self) -> bool {
        self.0.trim().is_empty()
    }
}

impl From<&str> for Id {
    fn from(text: &str) -> Self {
        Self(text.to_owned())
    }
}

impl core::fmt::Display for Id {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.0)
    }
}

/// Everything about one set day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// Title block: what, where, when, who.
    pub project: Project,
    /// The limits that every check is made against.
    pub limits: Part<Limits>,
    /// The ground plan.
    pub site: Part<Site>,
    /// The house boxes.
    pub boxes: Part<Vec<HouseBox>>,
    /// Build-ups of layers that components refer to.
    pub assemblies: Part<Vec<Assembly>>,
    /// The gear on the truck.
    pub gear: Part<Vec<GearItem>>,
    /// How loads hang: sling set-ups made from the gear.
    pub rigs: Part<Vec<Rig>>,
    /// Cranes with their rating charts.
    pub cranes: Part<Vec<Crane>>,
    /// Which crane stands where, in which configuration.
    pub set_up: SetUp,
    /// The lifts, in the order of the day.
    pub lifts: Part<Vec<Lift>>,
    /// The clock of the day.
    pub day: Part<SetDay>,
    /// What it costs.
    pub hire: Part<Hire>,
    /// What went out, the last one last.
    pub issues: Part<Vec<Issue>>,
}

impl Plan {
    /// The box of that name.
    pub fn house_box(&self, id: &Id) -> Option<&HouseBox> {
        self.boxes.iter().find(|b| b.id == *id)
    }
    /// The assembly of that name.
    pub fn assembly(&self, id: &Id) -> Option<&Assembly> {
        self.assemblies.iter().find(|a| a.id == *id)
    }
    /// The piece of gear of that name.
    pub fn gear_item(&self, id: &Id) -> Option<&GearItem> {
        self.gear.iter().find(|g| g.id == *id)
    }
    /// The rig of that name.
    pub fn rig(&self, id: &Id) -> Option<&Rig> {
        self.rigs.iter().find(|r| r.id == *id)
    }
    /// The crane of that name.
    pub fn crane(&self, id: &Id) -> Option<&Crane> {
        self.cranes.iter().find(|c| c.id == *id)
    }
    /// The pad of that name.
    pub fn pad(&self, id: &Id) -> Option<&Pad> {
        self.site.pads.iter().find(|p| p.id == *id)
    }
    /// The lift of that row.
    pub fn lift(&self, id: &Id) -> Option<&Lift> {
        self.lifts.iter().find(|l| l.id == *id)
    }
    /// The pick spot of that name.
    pub fn spot(&self, id: &Id) -> Option<&PickSpot> {
        self.site.spots.iter().find(|s| s.id == *id)
    }
}

json::fields! {
    Plan { project, limits, site, boxes, gear, rigs, cranes, set_up, lifts; assemblies, issues, day, hire }
}

impl json::Json for Id {
    fn read(&mut self, value: serde_json::Value) -> Result<(), json::ReadError> {
        self.0.read(value)
    }
    fn write(&self) -> serde_json::Value {
        self.0.write()
    }
}
