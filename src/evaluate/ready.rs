//! One lift of the plan, ready to hang: its load, its set-up, and the box it is made of.

use super::rigs::{hanging_load, set_up};
use super::{BoxResult, boxes, loads};
use crate::plan::{HouseBox, Plan, Rig};
use crate::rigging::{HangingLoad, SlingSetUp};

/// A lift of a box whose numbers are all there.
pub struct Ready<'a> {
    pub rig: &'a Rig,
    pub house: &'a HouseBox,
    pub box_result: BoxResult,
    pub load: HangingLoad,
    pub set_up: SlingSetUp,
}

/// Reads a lift, or says what is missing.
pub fn ready(plan: &Plan, lift_index: usize) -> Result<Ready<'_>, String> {
    let lift = plan.lifts.get(lift_index).ok_or_else(|| {
        format!(
            "there is no lift in row {}: the plan has {}",
            lift_index + 1,
            plan.lifts.len()
        )
    })?;
    let rig = plan
        .rig(&lift.rig)
        .ok_or("no rig for this lift: name one in the lift's row")?;
    let house = super::lifts::lifted_box(plan, lift)
        .ok_or("this rig is for a box: choose a rig that only gives its hook height")?;
    let box_result = boxes::assess(plan, house);
    let load_result = loads::assess(plan, lift, core::slice::from_ref(&box_result));
    if load_result.planned_kg.is_none()
        && let Some(missing) = load_result.missing.first()
    {
        return Err(missing.clone());
    }
    let (house, load) = hanging_load(plan, lift, &load_result, box_result.cg_m)?;
    let set_up = set_up(plan, rig, house)?;
    Ok(Ready {
        rig,
        house,
        box_result,
        load,
        set_up,
    })
}
