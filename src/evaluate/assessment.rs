//! What `evaluate` answers with. Plain data in SI, with units in names or types.

use crate::check::{Finding, Message, Outcome};
use crate::plan::Id;
use crate::quantity::{Angle, Length, Mass, Ratio, UnitSystem};
use crate::reach::Block;
use crate::rigging::Hung;
use crate::takeoff::{Planned, TakeOff, Weighing};
use serde::Serialize;

/// Everything that follows from a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Assessment {
    /// Units to show results in.
    pub units: UnitSystem,
    /// The boxes, in the plan's order.
    pub boxes: Vec<BoxResult>,
    /// The crane that is set up, as far as it is known.
    pub crane: CraneResult,
    /// The lifts, in the plan's order.
    pub lifts: Vec<LiftResult>,
    /// What is wrong in the plan, and where.
    pub messages: Vec<Message>,
    /// The sentence on top.
    pub headline: Headline,
}

/// The worst lift in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Headline {
    /// Which lift it speaks of, as an index.
    pub lift: Option<usize>,
    /// The sentence.
    pub text: String,
    /// The gravest outcome of all lifts.
    pub outcome: Outcome,
    /// How far the crane may move, any way, before a lift that is within comes to be outside; `None` where one is outside already or nothing limits.
    pub may_move: Option<Length>,
    /// The lift that fails first then.
    pub fails_first: Option<usize>,
}

/// A box's weight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BoxResult {
    /// Which box.
    pub id: Id,
    /// Sum of its components.
    pub takeoff: TakeOff,
    /// Its ticket, kg.
    pub ticket_kg: Option<f64>,
    /// What is dated after the ticket and is added to it, kg.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub since_kg: Option<f64>,
    /// What its axle groups or load cells showed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by_axles: Option<Weighing>,
    /// Its weight per floor area as estimated, kg: it stands only where there is neither take-off nor ticket.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub estimate_kg: Option<f64>,
    /// The weight that stands for it, before contingency.
    pub planned: Option<Planned>,
    /// Centre of gravity in the box frame, m.
    pub cg_m: Option<[f64; 3]>,
    /// Centre of gravity from the middle of the picks, along and across, m.
    pub cg_from_picks_m: Option<[f64; 2]>,
    /// Mass per floor area, kg/m².
    pub floor_kg_per_m2: Option<f64>,
    /// Length, width, height as shipped, m.
    pub size_m: Option<[f64; 3]>,
    /// Checks.
    pub findings: Vec<Finding>,
    /// What is wrong with its entries.
    pub messages: Vec<Message>,
}

/// The crane on the ground.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CraneResult {
    /// Its name.
    pub name: String,
    /// Its chart's name.
    pub chart: String,
    /// Slew centre, east and north, m.
    pub at_m: Option<[f64; 2]>,
    /// Direction of the carrier's front, from east anticlockwise, rad.
    pub heading_rad: f64,
    /// Corners of each outrigger mat, m.
    pub mats_m: Vec<[[f64; 2]; 4]>,
    /// Radius of the tail swing, m.
    pub tail_m: Option<f64>,
    /// Distances from the slew centre to the nearest two foundation corners: index of the corner, m.
    pub ties: Vec<(usize, f64)>,
}

/// One lift.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LiftResult {
    /// Row name.
    pub id: Id,
    /// Number as printed.
    pub number: u32,
    /// What is lifted, in words: "box B1".
    pub title: String,
    /// The weights.
    pub load: LoadResult,
    /// How it hangs.
    pub rig: RigResult,
    /// The pick spot taken.
    pub spot: Option<Id>,
    /// The boom taken, m.
    pub boom_m: Option<f64>,
    /// At the pick and at the set; empty where the crane side cannot be worked out.
    pub ends: Vec<EndResult>,
    /// Which end governs: an index into `ends`.
    pub governs: Option<usize>,
    /// The largest use of the chart.
    pub use_of_chart: Option<Ratio>,
    /// The same one row farther out.
    pub next_row_use: Option<Ratio>,
    /// The next row is blank or off the chart.
    pub next_row_not_allowed: bool,
    /// The same with the default radius allowance, where the plan's differs.
    pub default_allowance_use: Option<Ratio>,
    /// With the default allowance there is no rating.
    pub default_allowance_not_allowed: bool,
    /// How far the crane may move before the chart's limit is passed.
    pub may_move: Option<Length>,
    /// All checks.
    pub findings: Vec<Finding>,
    /// The gravest of them.
    pub outcome: Outcome,
}

impl LiftResult {
    /// The gravest outcome of the crane's own checks: chart, reach, head height, boom gap, footprint.
    pub fn crane_side(&self) -> Outcome {
        crate::check::gravest(self.findings.iter().filter(|f| f.check.is_crane_side()))
    }
    /// The end that governs.
    pub fn governing(&self) -> Option<&EndResult> {
        self.ends.get(self.governs?)
    }
}

/// Weights of a lift.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct LoadResult {
    /// The load before contingency, kg.
    pub bare_kg: Option<f64>,
    /// Contingency added.
    pub contingency: Option<Ratio>,
    /// Planned weight of the load: bare × (1 + contingency), kg.
    pub planned_kg: Option<f64>,
    /// Rigging below the block, kg.
    pub rigging_kg: Option<f64>,
    /// Why one of them is unknown.
    pub missing: Vec<String>,
}

/// One line of a gross load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GrossLine {
    /// What.
    pub name: &'static str,
    /// How much.
    pub mass: Mass,
    /// The chart has it taken off already: not counted.
    pub in_chart: bool,
}

/// How a lift hangs.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RigResult {
    /// The rig's name.
    pub id: Id,
    /// Hook above the load's underside, m.
    pub hook_above_m: Option<f64>,
    /// The hang, for a box on slings.
    pub hung: Option<Hung>,
    /// Rating of each member's sling, kg, in the order of the hang's members.
    pub ratings_kg: Vec<Option<f64>>,
    /// How it hangs with its legs stretched.
    pub stretched: Option<Stretched>,
    /// Why there is none.
    pub why_not: Option<String>,
}

/// The level with the legs at the soft end of their stiffness, at the nominal centre of gravity. The level that is judged is the one without.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretched {
    /// Tilt along; above 0 the second end hangs lower. `None` where it does not hang so, as the next two.
    pub along: Option<Angle>,
    /// Tilt across; above 0 the second side hangs lower.
    pub across: Option<Angle>,
    /// Hook above the underside of the floor.
    pub hook_above: Option<Length>,
    /// Steeper than the level limit; `None` without one.
    pub beyond_level: Option<bool>,
    /// In a sentence.
    pub words: String,
}

/// Which end of a lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EndKind {
    /// Off the carrier.
    Pick,
    /// Onto its place.
    Set,
}

impl EndKind {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Pick => "at the pick",
            Self::Set => "at the set",
        }
    }
}

/// One end of a lift, as the crane sees it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EndResult {
    /// Which.
    pub end: EndKind,
    /// Hook, east and north, m.
    pub hook_m: [f64; 2],
    /// Underside of the load above grade, m.
    pub floor_m: f64,
    /// Outline of the load in plan, m; empty for a load without one.
    pub outline_m: Vec<[f64; 2]>,
    /// Top of the load above grade when it is carried clear, m.
    pub top_m: f64,
    /// Slew centre to hook in plan, m.
    pub radius_m: f64,
    /// With the allowance.
    pub planned_radius: Length,
    /// Row of the chart that is read.
    pub row: Option<Length>,
    /// The chart's rating.
    pub rating: Option<Mass>,
    /// Why there is none.
    pub no_rating: Option<String>,
    /// Gross load, line by line.
    pub gross_lines: Vec<GrossLine>,
    /// Gross load.
    pub gross: Option<Mass>,
    /// Gross load over rating.
    pub use_of_chart: Option<Ratio>,
    /// The same one row farther out.
    pub next_row_use: Option<Ratio>,
    /// How much farther the hook may be before the chart's limit is passed.
    pub may_move: Option<Length>,
    /// Boom angle from the horizontal.
    pub boom_angle: Option<Angle>,
    /// Boom head above grade.
    pub head: Option<Length>,
    /// Boom head needed above grade.
    pub head_needed: Option<Length>,
    /// Smallest gap from the boom to the load and to boxes that are set.
    pub boom_gap: Option<Length>,
}

/// A box that is already set when a lift is made.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StandingBox {
    /// Which.
    pub id: Id,
    /// Its outline in plan, m.
    pub outline_m: [[f64; 2]; 4],
    /// Its top above grade, m.
    pub top_m: f64,
}

impl StandingBox {
    /// The same in numbers only.
    pub fn block(&self) -> Block {
        Block::new(self.outline_m.to_vec(), self.top_m)
    }
}
