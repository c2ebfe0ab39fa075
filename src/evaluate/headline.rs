//! The sentence on top: the worst lift in words.

use super::{Headline, LiftResult};
use crate::check::{Amount, Check, Outcome, gravest};
use crate::plan::Plan;
use crate::quantity::{Length, Safe};

/// Picks the worst lift and says what is worst about it.
pub fn write(plan: &Plan, lifts: &[LiftResult]) -> Headline {
    let Some((index, lift)) = worst(lifts) else {
        return Headline {
            lift: None,
            text: "No lifts yet: enter a box, a crane with its chart, and a lift.".into(),
            outcome: Outcome::NotChecked {
                missing: "nothing was checked".into(),
            },
            may_move: None,
            fails_first: None,
        };
    };
    let outcome = gravest(lifts.iter().flat_map(|l| &l.findings));
    let first = lifts
        .iter()
        .enumerate()
        .filter_map(|(i, l)| Some((i, l.may_move?)))
        .min_by(|a, b| a.1.to_m().total_cmp(&b.1.to_m()));
    let within = lifts.iter().all(|l| l.crane_side().gravity() <= 1);
    let (fails_first, may_move) = first.filter(|_| within).unzip();
    let text = [
        Some(use_sentence(plan, lift)),
        Some(outcome_sentence(lift)),
        move_sentence(plan, lifts, fails_first, may_move),
    ]
    .into_iter()
    .flatten()
    .collect::<Vec<_>>()
    .join(" ");
    Headline {
        lift: Some(index),
        text,
        outcome,
        may_move,
        fails_first,
    }
}

/// The gravest lift on the crane's side; among equals the one that uses most of the chart.
fn worst(lifts: &[LiftResult]) -> Option<(usize, &LiftResult)> {
    lifts.iter().enumerate().max_by(|(_, a), (_, b)| {
        let key = |l: &LiftResult| l.use_of_chart.map_or(f64::NEG_INFINITY, |u| u.to_of());
        let gravity = |l: &LiftResult| l.crane_side().gravity();
        gravity(a).cmp(&gravity(b)).then(key(a).total_cmp(&key(b)))
    })
}

fn use_sentence(plan: &Plan, lift: &LiftResult) -> String {
    let name = format!("Lift {}, {}:", lift.number, lift.title);
    let limit = plan
        .limits
        .chart_use
        .not_negative()
        .map(|l| Amount::Share(l).show(plan.project.units, Safe::Down));
    match (lift.use_of_chart, lift.governing(), limit) {
        (Some(used), Some(end), Some(limit)) => {
            let used = Amount::Share(used).show(plan.project.units, Safe::Up);
            format!(
                "{name} {used} of the rating {}. Your limit is {limit}.",
                end.end.words()
            )
        }
        _ => format!("{name} no use of the chart can be given."),
    }
}

fn outcome_sentence(lift: &LiftResult) -> String {
    let outcome = lift.crane_side();
    match (
        &outcome,
        lift.findings
            .iter()
            .find(|f| f.check.is_crane_side() && f.outcome == outcome),
    ) {
        (Outcome::Within, _) | (_, None) => "The crane's checks are within the limits entered.".into(),
        (_, Some(finding)) if finding.check == Check::ChartUse => format!("It is {}.", outcome.words()),
        (_, Some(finding)) => format!("{}.", finding.sentence()),
    }
}

fn move_sentence(plan: &Plan, lifts: &[LiftResult], first: Option<usize>, may_move: Option<Length>) -> Option<String> {
    let distance = Amount::Length(may_move?).show(plan.project.units, Safe::Down);
    let lift = lifts.get(first?)?;
    Some(format!(
        "The crane may move {distance}; then lift {}, {}, fails first.",
        lift.number, lift.title
    ))
}
