//! The one place where a plan becomes results: `evaluate(&Plan) -> Assessment`, total and pure.
//!
//! No clock, no randomness, no input or output, no panic. What is missing gives a finding that says so. A view that needs a number takes it
//! from the [`Assessment`].

mod assessment;
mod boxes;
mod crane_side;
mod headline;
mod level_set_ups;
mod lifts;
mod loads;
mod order;
mod ready;
mod rigs;
mod sense;
mod trial;
mod wires;
mod worst_hang;

pub use assessment::{
    Assessment, BoxResult, CraneResult, EndKind, EndResult, GrossLine, Headline, LiftResult, LoadResult, RigResult,
    StandingBox,
};
pub use crane_side::DEFAULT_RADIUS_ALLOWANCE_M;
pub use level_set_ups::{IdealLeg, LevelAnswer, LevelSetUp, level_set_ups};
pub use rigs::{end_name, leg_of, member_name, side_name, stiffness_of};
pub use trial::{TrialAnswer, TrialReading, reading_stop, trial_lift};
pub use worst_hang::{WorstHang, cg_envelope, hang_with_errors, worst_hang};

use crate::plan::Plan;

/// Works out everything that a plan says.
pub fn evaluate(plan: &Plan) -> Assessment {
    let boxes: Vec<BoxResult> = plan.boxes.iter().map(boxes::assess).collect();
    let mut messages = order::messages(plan);
    messages.extend(sense::messages(plan));
    messages.extend(boxes.iter().flat_map(|b| b.messages.iter().cloned()));
    let crane = crane_side::resolve(plan);
    messages.extend(crane.messages.iter().cloned());
    let lifts: Vec<LiftResult> = plan
        .lifts
        .iter()
        .enumerate()
        .map(|(index, _)| lifts::assess(plan, index, &boxes, &crane))
        .collect();
    let headline = headline::write(plan, &lifts);
    Assessment {
        units: plan.project.units,
        boxes,
        crane: crane.result(plan),
        lifts,
        messages,
        headline,
    }
}
