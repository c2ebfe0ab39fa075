//! A lift's rig tried out beside the plan, which stays as it is.

use super::ready::ready;
use super::worst_hang::masses;
use crate::plan::Plan;
use crate::rigging::{self, Tried, TryOut};

/// How one lift hangs when its rig is changed so; where the box's mass is comes from the plan.
///
/// # Errors
/// What is missing, a figure that is none, or why it does not hang so.
pub fn try_out(plan: &Plan, lift_index: usize, what: &TryOut) -> Result<Tried, String> {
    if let Some(bad) = what.longer_m.iter().find(|m| !m.is_finite()) {
        return Err(format!(
            "an error of {bad} m in a leg's length was read, a number is expected"
        ));
    }
    if what.gj_n_m2.is_nan() || what.gj_n_m2 < 0.0 || !what.softer.is_finite() || what.softer <= 0.0 {
        return Err("a stiffness below nothing was read: nothing or more is expected".into());
    }
    let ready = ready(plan, lift_index)?;
    let what = TryOut {
        masses: masses(plan, ready.house),
        ..what.clone()
    };
    rigging::try_out(&ready.load, &ready.set_up, &what)
}
