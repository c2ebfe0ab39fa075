//! The one place where a plan becomes results: `evaluate(&Plan) -> Assessment`, total and pure.
//!
//! No clock, no randomness, no input or output, no panic. What is missing gives a finding that says so. A view that needs a number takes it
//! from the [`Assessment`].

mod assessment;
mod bars;
mod box_beam;
mod boxes;
mod crane_side;
mod day;
mod eaves;
mod further;
mod ground;
mod headline;
mod hire;
mod hoist;
mod level_set_ups;
mod lifts;
mod load_path;
mod loads;
mod order;
mod places;
mod racking;
mod raise;
mod ready;
mod rigs;
mod sense;
mod side_by_side;
mod swing;
mod trial;
mod truck;
mod try_out;
mod wind;
mod wires;
mod worst_hang;

pub use assessment::{
    Assessment, BoxResult, CraneResult, EndKind, EndResult, GrossLine, Headline, LiftResult, LoadResult, RigResult,
    StandingBox, Stretched,
};
pub use box_beam::{
    BeamCase, Bound, BoxBeam, Stiffness, box_beam, pick_places, sag_findings, stiffnesses, strength_findings,
};
pub use crane_side::DEFAULT_RADIUS_ALLOWANCE_M;
pub use day::{
    Carrier, DayPlan, DayStep, Rule, at_step, clashes, clock_words, day_plan, fewer_changes, hours_on_site, read_clock,
    reorder, rules, step_words,
};
pub use eaves::{EavePush, eave_pushes, if_slanting};
pub use further::{ALL, AWAITED, Further, HungLift, PlacedLift};
pub use ground::{Bears, LoadSource, Outriggers, PAD_NAMES, UnderMat, Worst, outriggers_of, under_each, under_mat};
pub use hire::{
    Learned, OfferResult, Price, QuickCrane, QuickResult, SITE_FACTS, as_set_up, break_even, cheapest, learned, offers,
    quick, quote_against_invoice, quote_lines,
};
pub use hoist::critical;
pub use level_set_ups::{IdealLeg, LevelAnswer, LevelSetUp, level_set_ups};
pub use load_path::{PathPiece, is_on_the_path, leg_finding, load_path, rating_kg, weakest};
pub use places::{
    Candidate, CandidateFound, Found, Grid, HEADINGS, KEY, Limit, Patch, PlaceSearch, PlacesFound, crane_side_limit,
    from_two_tapes, patch, stood,
};
pub use racking::{FACES, Racking, RackingCase, racking, racking_finding};
pub use raise::{ArcPoint, arc_of, raise_arc};
pub use rigs::{corner_name, end_name, leg_of, member_name, side_name, stiffness_of};
pub use side_by_side::{SideBySide, side_by_side};
pub use swing::Path;
pub use trial::{TrialAnswer, TrialReading, reading_stop, trial_lift};
pub use try_out::try_out;
pub use wind::{WindStop, wind_stops};
pub use wires::{Distances, trigger_of, wires_of};
pub use worst_hang::{WorstHang, WorstHangSearch, cg_envelope, hang_off, hang_with_errors, worst_hang};

use crate::check::Finding;
use crate::plan::{Lift, Plan};
use std::rc::Rc;

/// Works out everything that a plan says.
pub fn evaluate(plan: &Plan) -> Assessment {
    place(plan, &hang(plan, ALL), ALL, &crane_side::LastChart::default())
}

/// What does not depend on where the crane stands: the boxes, and how each lift hangs, in the plan's order.
#[derive(Debug)]
struct Parts {
    boxes: Vec<BoxResult>,
    lifts: Vec<lifts::Hang>,
    /// Of the day as a whole: the row of a lift, and what is found of it.
    of_day: Vec<(usize, Finding)>,
}

/// The part of an evaluation that is kept from one edit to the next. Its answers are those of [`evaluate`].
#[derive(Clone, Debug)]
pub struct Hangs {
    plan: Rc<Plan>,
    parts: Rc<Parts>,
    further: Further,
    chart: crane_side::LastChart,
}

impl Hangs {
    /// Works it out, with the checks that the program has at hand.
    pub fn of(plan: &Rc<Plan>, further: Further) -> Self {
        Self {
            plan: Rc::clone(plan),
            parts: Rc::new(hang(plan, further)),
            further,
            chart: crane_side::LastChart::default(),
        }
    }

    /// The same for the next plan. Where only the crane's set-up differs all is kept; where boxes and lifts differ, those that do not.
    #[must_use]
    pub fn next(&self, plan: &Rc<Plan>) -> Self {
        let parts = match difference(&self.plan, plan) {
            Difference::SetUp => Rc::clone(&self.parts),
            Difference::BoxesAndLifts => Rc::new(self.hang_anew(plan)),
            Difference::More => Rc::new(hang(plan, self.further)),
        };
        Self {
            plan: Rc::clone(plan),
            parts,
            further: self.further,
            chart: self.chart.clone(),
        }
    }

    /// Works out the boxes that have changed, and the lifts that have or that lift such a box.
    fn hang_anew(&self, plan: &Plan) -> Parts {
        let (was, is) = (&*self.plan, plan);
        let kept_box = |at: usize| {
            (was.boxes.get(at) == is.boxes.get(at))
                .then(|| self.parts.boxes.get(at))
                .flatten()
        };
        let boxes: Vec<BoxResult> = is
            .boxes
            .iter()
            .enumerate()
            .map(|(at, house)| kept_box(at).map_or_else(|| boxes::assess(is, house), Clone::clone))
            .collect();
        let kept_lift = |at: usize, lift: &Lift| {
            let same_box = |id| was.house_box(id) == is.house_box(id);
            let same = was.lifts.get(at) == Some(lift) && lift.load.house().is_none_or(same_box);
            same.then(|| self.parts.lifts.get(at)).flatten()
        };
        let lifts = is.lifts.iter().enumerate();
        let lifts = lifts
            .map(|(at, lift)| {
                kept_lift(at, lift).map_or_else(|| lifts::hang(is, lift, &boxes, self.further), Clone::clone)
            })
            .collect();
        let of_day = of_day(plan, self.further);
        Parts { boxes, lifts, of_day }
    }

    /// One lift with a crane that stands anywhere, in a plan that differs in the set-up only.
    fn lift(&self, plan: &Plan, index: usize, crane: &crane_side::CraneSide<'_>, further: Further) -> LiftResult {
        lifts::assess(plan, index, &self.parts, crane, further)
    }

    /// Everything that the plan says.
    pub fn assessment(&self) -> Assessment {
        place(&self.plan, &self.parts, self.further, &self.chart)
    }
}

/// In what two plans differ, as far as a hang depends on it.
enum Difference {
    SetUp,
    BoxesAndLifts,
    More,
}

fn difference(a: &Plan, b: &Plan) -> Difference {
    // each part is named, so that a new one is not forgotten here
    let Plan {
        project,
        limits,
        site,
        boxes,
        assemblies,
        gear,
        rigs,
        cranes,
        set_up: _,
        lifts,
        day,
        // nothing is evaluated from them
        hire: _,
        issues: _,
    } = a;
    let same = (project, limits, site, cranes, day) == (&b.project, &b.limits, &b.site, &b.cranes, &b.day)
        && (assemblies, gear, rigs) == (&b.assemblies, &b.gear, &b.rigs);
    match same {
        false => Difference::More,
        true if (boxes, lifts) == (&b.boxes, &b.lifts) => Difference::SetUp,
        true => Difference::BoxesAndLifts,
    }
}

fn hang(plan: &Plan, further: Further) -> Parts {
    let boxes: Vec<BoxResult> = plan.boxes.iter().map(|house| boxes::assess(plan, house)).collect();
    let lifts = plan
        .lifts
        .iter()
        .map(|lift| lifts::hang(plan, lift, &boxes, further))
        .collect();
    let of_day = of_day(plan, further);
    Parts { boxes, lifts, of_day }
}

fn of_day(plan: &Plan, further: Further) -> Vec<(usize, Finding)> {
    further.of_day.iter().flat_map(|check| check(plan)).collect()
}

fn place(plan: &Plan, parts: &Parts, further: Further, last: &crane_side::LastChart) -> Assessment {
    let mut messages = order::messages(plan);
    messages.extend(sense::messages(plan));
    messages.extend(parts.boxes.iter().flat_map(|b| b.messages.iter().cloned()));
    let crane = crane_side::resolve_again(plan, last);
    messages.extend(crane.messages.iter().cloned());
    let lifts: Vec<LiftResult> = (0..parts.lifts.len())
        .map(|index| lifts::assess(plan, index, parts, &crane, further))
        .collect();
    let headline = headline::write(plan, &lifts);
    Assessment {
        units: plan.project.units,
        boxes: parts.boxes.clone(),
        crane: crane.result(plan),
        lifts,
        messages,
        headline,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Id, sample};

    #[test]
    fn what_is_kept_from_edit_to_edit_changes_no_answer() {
        let first = Rc::new(sample::plan());
        let hangs = Hangs::of(&first, ALL);
        let check = |kept: bool, change: fn(&mut Plan)| {
            let mut plan = (*first).clone();
            change(&mut plan);
            let plan = Rc::new(plan);
            assert!(plan != first);
            let next = hangs.next(&plan);
            assert_eq!(Rc::ptr_eq(&next.parts, &hangs.parts), kept);
            assert_eq!(next.assessment(), evaluate(&plan));
        };
        check(true, |plan| plan.set_up.at = plan.site.pads[1].at.clone());
        check(true, |plan| plan.set_up.crane = Id::from("S60"));
        check(false, |plan| plan.limits.gear_use = crate::quantity::Entry::default());
        check(false, |plan| plan.rigs.clear());
        check(false, |plan| drop(plan.lifts.pop()));
        check(false, |plan| plan.lifts.swap(0, 2));
        check(false, |plan| plan.boxes.swap(0, 1));
        check(false, |plan| drop(plan.boxes.remove(0)));
        check(false, |plan| drop(plan.boxes[0].components.pop()));
        check(false, |plan| plan.boxes[2].height = crate::quantity::Entry::default());
        check(false, |plan| plan.lifts[3].rig = plan.lifts[0].rig.clone());
    }
}
