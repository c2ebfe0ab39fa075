//! Power lines whose voltage nobody has confirmed: a hold on every lift that could come near.

use super::LiftResult;
use super::crane_side::CraneSide;
use crate::check::{Check, Finding, Outcome};
use crate::geometry::{distance_m, polygon_distance_m};
use crate::plan::{Plan, PowerLine};
use crate::quantity::both;

/// Findings on power lines for one lift.
///
/// The rule's distance begins at the crane's largest working radius on its chart (29 CFR 1926.1408/1409), and the load's far corner
/// reaches beyond the hook. A voltage that nobody confirmed is a hold, never a pass.
pub fn findings(plan: &Plan, crane: &CraneSide, lift: &LiftResult) -> Vec<Finding> {
    plan.site
        .power_lines
        .iter()
        .filter_map(|line| finding(line, crane, lift))
        .collect()
}

fn finding(line: &PowerLine, crane: &CraneSide, lift: &LiftResult) -> Option<Finding> {
    let subject = if line.name.is_empty() {
        "power line".to_owned()
    } else {
        line.name.clone()
    };
    let (Some(from), Some(to), Some(trigger)) = (line.from.metres(), line.to.metres(), line.trigger.not_negative())
    else {
        return Some(Finding::not_checked(
            Check::PowerLine,
            subject,
            "where the line runs and from which distance its rules begin",
        ));
    };
    if !line.confirmed.trim().is_empty() {
        return None;
    }
    let at = crane.at_m?;
    let wire = [from, to];
    let reach_m = crane.table.as_ref()?.radii().next_back()?.to_m() + swing_reach_m(lift);
    let away_m = polygon_distance_m(&[at], &wire)?;
    if away_m > reach_m + trigger.to_m() {
        return None;
    }
    let nearest_m = lift
        .ends
        .iter()
        .filter_map(|end| {
            if end.outline_m.is_empty() {
                polygon_distance_m(&[end.hook_m], &wire)
            } else {
                polygon_distance_m(&end.outline_m, &wire)
            }
        })
        .fold(f64::INFINITY, f64::min);
    let until = format!(
        "line voltage not confirmed ({subject}; the load comes within {} of it in plan)",
        both(nearest_m)
    );
    let mut finding = Finding::of(Check::PowerLine, subject, Outcome::Held { until });
    if nearest_m < trigger.to_m() {
        finding = finding.caution(format!(
            "inside the {} at which the rules for power lines begin",
            both(trigger.to_m())
        ));
    }
    Some(finding)
}

/// How far the load reaches beyond the hook when it turns, m.
fn swing_reach_m(lift: &LiftResult) -> f64 {
    let corners = lift
        .ends
        .iter()
        .flat_map(|end| end.outline_m.iter().map(|p| distance_m(*p, end.hook_m)));
    corners.fold(0.0, f64::max)
}
