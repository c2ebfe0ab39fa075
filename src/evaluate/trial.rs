//! The trial lift in the plan's terms: heights at the corners in, the centre of gravity and new legs out.

use super::level_set_ups::level_for;
use super::ready::ready;
use super::rigs::{end_name, side_name};
use super::{EndKind, LevelAnswer, LiftResult, cg_envelope};
use crate::plan::Plan;
use crate::quantity::{Length, Mass, Safe, Unit, UnitSystem, show};
use crate::rigging::{self, HangingLoad};
use crate::takeoff::Envelope;

/// Outside the envelope by less than this is read as on its edge, m.
const ON_EDGE_M: f64 = 1e-3;

/// What was measured with the load a hand's breadth off the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialReading {
    /// The end that hangs low, 0 the first.
    pub low_end: usize,
    /// How much lower it is than the other end, over the whole length.
    pub end_lower: Length,
    /// The side that hangs low, 0 the first.
    pub low_side: usize,
    /// How much lower it is than the other side, over the whole width.
    pub side_lower: Length,
}

/// What follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialAnswer {
    /// The centre of gravity along and across, box frame, m.
    pub cg_m: [f64; 2],
    /// How far that is from the take-off's, m.
    pub moved_m: [f64; 2],
    /// How far the take-off and its ticket let it be.
    pub envelope: Envelope,
    /// It is farther off than they explain: stop, set down, find the weight.
    pub beyond_envelope: bool,
    /// Legs that hang it level there; `None` beyond the envelope, and where they cannot be searched, which is said in the words.
    pub level: Option<LevelAnswer>,
    /// In a sentence.
    pub words: String,
}

/// Where the centre of gravity is, from the low corner of a trial lift, and what to re-rig to.
///
/// # Errors
/// What is missing, heights that are none, or a tilt that no place explains.
pub fn trial_lift(plan: &Plan, lift_index: usize, reading: &TrialReading) -> Result<TrialAnswer, String> {
    let ready = ready(plan, lift_index)?;
    let load = &ready.load;
    let tilts_rad = [
        tilt_rad("length", reading.low_end, reading.end_lower, load.length_m)?,
        tilt_rad("width", reading.low_side, reading.side_lower, load.width_m)?,
    ];
    let cg_m = rigging::cg_from_tilt(load, &ready.set_up, tilts_rad)?;
    let (envelope, _) = cg_envelope(plan, ready.house)?;
    let outside =
        |axis: usize| cg_m[axis] < envelope.low_m[axis] - ON_EDGE_M || cg_m[axis] > envelope.high_m[axis] + ON_EDGE_M;
    let beyond_envelope = outside(0) || outside(1);
    let there = HangingLoad {
        cg_m: [cg_m[0], cg_m[1], load.cg_m[2]],
        ..load.clone()
    };
    let level = (!beyond_envelope).then(|| level_for(plan, &ready, &there));
    let moved_m = [cg_m[0] - load.cg_m[0], cg_m[1] - load.cg_m[1]];
    let toward = [
        end_name(ready.house, usize::from(moved_m[0] > 0.0)),
        side_name(ready.house, usize::from(moved_m[1] > 0.0)),
    ];
    let place = format!(
        "centre of gravity {} towards the {} and {} towards the {} of where the take-off has it",
        shown(plan, moved_m[0]),
        toward[0],
        shown(plan, moved_m[1]),
        toward[1]
    );
    let words = match &level {
        None => format!("stop and set down: {place}, farther than take-off and ticket explain; find the weight"),
        Some(Ok(level)) => format!("{place}; {}", level.words),
        Some(Err(why)) => format!("{place}; new legs cannot be searched: {why}"),
    };
    Ok(TrialAnswer {
        cg_m,
        moved_m,
        envelope,
        beyond_envelope,
        level: level.and_then(Result::ok),
        words,
    })
}

/// Signed tilt of a rise over a measure of the box: above 0 where the second end or side is low.
fn tilt_rad(what: &str, low: usize, lower: Length, over_m: f64) -> Result<f64, String> {
    let sine = lower.to_m() / over_m;
    if !(0.0..1.0).contains(&sine) || low > 1 {
        return Err(format!(
            "{:.3} m lower over the box's {what} of {over_m:.2} m was read: expected from nothing to less than the {what}",
            lower.to_m()
        ));
    }
    Ok(if low == 1 { libm::asin(sine) } else { -libm::asin(sine) })
}

fn shown(plan: &Plan, m: f64) -> String {
    let unit = if plan.project.units == UnitSystem::Us {
        Unit::Inch
    } else {
        Unit::Mm
    };
    show(Length::m(m.abs()), unit, 0, Safe::Nearest)
}

/// The load indicator's reading at which to stop a trial lift and find out why, and the side it is rounded to in print: the gross load without
/// contingency × 1.05, rounded down, or the gross load as printed, rounded up, whichever is less. At the pick where the lift has one; `None` where
/// the gross load is not known.
pub fn reading_stop(lift: &LiftResult) -> Option<(Mass, Safe)> {
    let pick = lift.ends.iter().find(|end| end.end == EndKind::Pick);
    let gross_kg = pick.or(lift.ends.first())?.gross?.to_kg();
    let contingency_kg = lift.load.planned_kg? - lift.load.bare_kg?;
    let stop_kg = rigging::reading_stop_kg(gross_kg - contingency_kg, gross_kg);
    let safe = if stop_kg < gross_kg { Safe::Down } else { Safe::Up };
    Some((Mass::kg(stop_kg), safe))
}
