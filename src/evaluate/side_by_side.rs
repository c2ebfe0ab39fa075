//! Four fixed legs beside the same legs with one end equalised: what sharing by lengths costs.

use super::ready::ready;
use super::{end_name, member_name};
use crate::plan::Plan;
use crate::quantity::{Angle, Force, Mass};
use crate::rigging::{self, Hung};
use serde::Serialize;

/// Four legs both ways.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SideBySide {
    /// Each leg by its name.
    pub names: [String; 4],
    /// Four fixed legs: what each is designed with, the most that small differences in length can put on it.
    pub fixed: [Mass; 4],
    /// One end equalised: what each leg carries whatever the lengths. The two legs of that end are one sling that runs freely over the hook.
    pub equalised: [Mass; 4],
    /// Which end is equalised, 0 the first.
    pub end: usize,
    /// Tilt along and across so; above 0 the second end or side hangs lower.
    pub tilts: [Angle; 2],
    /// In a sentence.
    pub words: String,
}

/// Compares four fixed legs with the same rig equalised at the end where it hangs more level.
///
/// # Errors
/// What is missing, another arrangement than four legs, or why it does not hang equalised.
pub fn side_by_side(plan: &Plan, lift_index: usize) -> Result<SideBySide, String> {
    let ready = ready(plan, lift_index)?;
    let fixed = rigging::hang(&ready.load, &ready.set_up)?;
    let steepest = |hung: &Hung| hung.along.tilt_rad.abs().max(hung.across.tilt_rad.abs());
    let (end, hung) = match [0, 1].map(|end| rigging::equalised(&ready.load, &ready.set_up, end)) {
        [Ok(first), Ok(second)] if steepest(&second) < steepest(&first) => (1, second),
        [Ok(first), _] => (0, first),
        [_, Ok(second)] => (1, second),
        [Err(why), _] => return Err(why),
    };
    let of_leg = |leg: usize| rigging::equalised_member(end, leg);
    let mass = |n: f64| Force::n(n).as_mass();
    let words = format!(
        "four fixed legs are planned with up to {:.2} times what they carry with the legs of the {} running over the hook as one sling",
        (0..4)
            .map(|leg| fixed.members[leg].tension_n / hung.members[of_leg(leg)].shared_n)
            .fold(0.0, f64::max),
        end_name(ready.house, end)
    );
    Ok(SideBySide {
        names: core::array::from_fn(|leg| member_name(ready.house, fixed.members[leg].kind)),
        fixed: core::array::from_fn(|leg| mass(fixed.members[leg].tension_n)),
        equalised: core::array::from_fn(|leg| mass(hung.members[of_leg(leg)].shared_n)),
        end,
        tilts: [Angle::rad(hung.along.tilt_rad), Angle::rad(hung.across.tilt_rad)],
        words,
    })
}
