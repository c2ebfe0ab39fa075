//! The checks beyond weight, hang, chart and reach: gear, box, ground, wind and wires, each list in one place.
//!
//! They are a list that is handed to the evaluation, so that the page's first module can be small: it hands over [`AWAITED`], which holds
//! every lift until the other module has brought [`ALL`].

use super::crane_side::CraneSide;
use super::{
    BoxResult, LiftResult, LoadResult, RigResult, StandingBox, box_beam, day, eaves, ground, hoist, load_path, racking,
    raise, swing, truck, wind, wires,
};
use crate::check::{Check, Finding, Outcome};
use crate::plan::{Lift, Plan};

/// A lift whose weights and hang are known; where the crane stands plays no part, nor any box but its own: what follows from it is kept
/// until its lift, its box, or a part of the plan other than boxes and lifts changes.
#[derive(Clone, Copy, Debug)]
pub struct HungLift<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The lift.
    pub lift: &'a Lift,
    /// The box that is lifted, if it is one.
    pub house: Option<&'a BoxResult>,
    /// Its weights.
    pub load: &'a LoadResult,
    /// How it hangs.
    pub rig: &'a RigResult,
}

/// A lift with the crane in its place, its boom and its pick spot chosen.
#[derive(Clone, Copy, Debug)]
pub struct PlacedLift<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The lift's row in the plan.
    pub index: usize,
    /// The crane that is set up.
    pub crane: &'a CraneSide<'a>,
    /// The lift; its findings are not gathered yet.
    pub lift: &'a LiftResult,
    /// The boxes that earlier lifts have set.
    pub standing: &'a [StandingBox],
}

/// A check of the whole day: each finding with the row of its lift.
pub type OfDay = fn(&Plan) -> Vec<(usize, Finding)>;

/// Lists of checks; each check answers with its findings.
#[derive(Clone, Copy, Debug)]
pub struct Further {
    /// Worked out anew only when a part of the plan other than the set-up changes.
    pub of_day: &'static [OfDay],
    /// Worked out anew only when a weight or a rig changes.
    pub of_hang: &'static [fn(&HungLift<'_>) -> Vec<Finding>],
    /// Worked out anew whenever the crane moves.
    pub of_place: &'static [fn(&PlacedLift<'_>) -> Vec<Finding>],
}

/// Every check.
pub const ALL: Further = Further {
    of_day: &[day::order_findings],
    of_hang: &[
        load_path::findings,
        eaves::findings,
        truck::findings,
        box_beam::findings,
        racking::findings,
        raise::hung_findings,
    ],
    of_place: &[
        |placed| load_path::hook_findings(placed.plan, placed.lift),
        wires::findings,
        swing::findings,
        ground::findings,
        wind::findings,
        hoist::findings,
        raise::placed_findings,
    ],
};

/// None of them: each lift is held until they are there.
pub const AWAITED: Further = Further {
    of_day: &[],
    of_hang: &[],
    of_place: &[|_| vec![awaited()]],
};

fn awaited() -> Finding {
    let until = "gear, box, ground, wind and wires are checked, their part of the program is being loaded".into();
    Finding::of(Check::Further, "the other checks", Outcome::Held { until })
}
