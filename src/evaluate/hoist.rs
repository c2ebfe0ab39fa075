//! The hoist and the trial lift: line pull and rope, breaking free of the carrier, the reading, and lifts that need more than this program.

use super::further::PlacedLift;
use super::{EndKind, EndResult, LiftResult, reading_stop};
use crate::check::{Amount, Check, Finding, Outcome, Working, exceeds};
use crate::crane::{hoisting_ratio, parts_needed, rope_needed_m};
use crate::plan::{Crane, Scope};
use crate::quantity::{Length, Mass};
use crate::rules::Profile;

/// Findings on the hoist, the trial lift and the kind of lift.
pub fn findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(scope(placed.plan.lifts[placed.index].scope));
    if let Some(crane) = placed.crane.crane {
        findings.extend(line_pull(crane, placed.lift));
        findings.extend(rope(crane, placed.lift));
    }
    findings.extend(break_out(placed));
    findings.extend(reading(placed));
    findings.extend(particular(placed));
    findings
}

/// Why a lift of that kind is none of this program's.
fn scope(scope: Scope) -> Option<Finding> {
    let (subject, why) = match scope {
        Scope::Plain => return None,
        Scope::People => (
            "people are lifted",
            "people are lifted at half the chart, on a platform of their own with a trial lift and a proof test (29 CFR 1926.1431)",
        ),
        Scope::TwoCranes => (
            "two cranes share the load",
            "how two cranes share a load changes as either moves; such a lift is an engineer's (29 CFR 1926.1432)",
        ),
        Scope::Occupied => (
            "the load goes over a place where people are",
            "nobody is under a load: clear the place, or let the lift director choose another way (29 CFR 1926.1425)",
        ),
    };
    let missing = format!("outside this program: {why}");
    Some(Finding::not_checked(Check::Scope, subject, missing))
}

/// The largest gross load of the lift.
fn gross(lift: &LiftResult) -> Option<Mass> {
    let loads: Option<Vec<Mass>> = lift.ends.iter().map(|end| end.gross).collect();
    loads?.into_iter().reduce(Mass::max)
}

/// Nothing where the gross load is not known: that is told already.
fn line_pull(crane: &Crane, lift: &LiftResult) -> Option<Finding> {
    let gross = gross(lift)?;
    let subject = format!("{} parts of line", crane.parts);
    let missing = |what: &str| Some(Finding::not_checked(Check::LinePull, subject.clone(), what));
    let Some(allowed) = crane.line_pull.not_negative() else {
        return missing("the most that one part of the crane's line may pull");
    };
    let Some(friction) = crane.sheaves.friction() else {
        return missing("what the crane's sheaves run on");
    };
    let ratio = hoisting_ratio(crane.parts, friction);
    let pull = gross.weight() / ratio;
    let mut finding = Finding::at_most(Check::LinePull, subject.clone(), pull.into(), allowed.into()).working([
        Working::new(
            "pull in the line while hoisting",
            "S",
            "G·g/((1 − K⁻ᴺ)/(K − 1))",
            pull,
            "riggers' handbooks",
        )
        .input("G", "gross load", gross)
        .input("N", "parts of line", Amount::Factor(f64::from(crane.parts)))
        .input("K", "friction of a sheave", Amount::Factor(friction)),
        Working::new(
            "load over line pull",
            "n",
            "(1 − K⁻ᴺ)/(K − 1)",
            Amount::Factor(ratio),
            "riggers' handbooks",
        ),
    ]);
    if finding.outcome == Outcome::Outside {
        let needed = parts_needed(gross.weight().to_n(), allowed.to_n(), friction);
        finding = finding.caution(needed.map_or_else(
            || "no number of parts is enough".to_owned(),
            |parts| format!("{parts} parts are needed"),
        ));
    }
    Some(finding)
}

/// The rope on the drum against what the lift unwinds; nothing where boom or hook height are not known, which is told already.
fn rope(crane: &Crane, lift: &LiftResult) -> Option<Finding> {
    let subject = "rope on the drum";
    let Some(has) = crane.rope_length.not_negative() else {
        return Some(Finding::not_checked(
            Check::LinePull,
            subject,
            "how much hoist rope is on the drum",
        ));
    };
    let at = |end: &EndResult| {
        let hook_m = end.floor_m + lift.rig.hook_above_m?;
        Some(rope_needed_m(crane.parts, end.head?.to_m(), hook_m, lift.boom_m?))
    };
    let needed: Option<Vec<f64>> = lift.ends.iter().map(at).collect();
    let needed_m = needed.and_then(|all| all.into_iter().reduce(f64::max))?;
    let needed = Length::m(needed_m);
    let working = Working::new(
        "rope from the drum to the block at its lowest",
        "l",
        "N·(z − z_hook) + L",
        needed,
        "geometry; the turns that stay on the drum come on top, see the maker's book",
    )
    .input("N", "parts of line", Amount::Factor(f64::from(crane.parts)));
    Some(Finding::at_least(Check::LinePull, subject, needed.into(), has.into()).working([working]))
}

/// The pull as a load comes free of carrier, seal or ice, against the whole rating at the pick.
fn break_out(placed: &PlacedLift<'_>) -> Option<Finding> {
    let pick = placed.lift.ends.iter().find(|end| end.end == EndKind::Pick)?;
    let (gross, rating) = (pick.gross?, pick.rating?);
    let subject = "break-out from the carrier";
    let Some(more) = placed.plan.limits.break_out.not_negative() else {
        let missing = "by how much more than its weight a load may pull as it comes free: the limits";
        return Some(Finding::not_checked(Check::TrialLift, subject, missing));
    };
    let pull = gross * (1.0 + more.to_of());
    Some(
        Finding::at_most(Check::TrialLift, subject, pull.into(), rating.into()).working([Working::new(
            "pull as it comes free, where to stop",
            "G_b",
            "G·(1 + b)",
            pull,
            "bolts, straps and seals off first; the needle stops here (common practice)",
        )
        .input("G", "gross load at the pick", gross)
        .input("b", "more than its weight", more)]),
    )
}

/// What the indicator showed against the stop value; nothing before somebody has read it.
fn reading(placed: &PlacedLift<'_>) -> Option<Finding> {
    let entry = &placed.plan.lifts[placed.index].reading;
    if entry.is_blank() {
        return None;
    }
    let subject = "reading of the load indicator";
    let Some(read) = entry.not_negative() else {
        return Some(Finding::not_checked(
            Check::TrialLift,
            subject,
            "the reading typed in the lift cannot be read",
        ));
    };
    let Some((stop, _)) = reading_stop(placed.lift) else {
        return Some(Finding::not_checked(
            Check::TrialLift,
            subject,
            "the gross load that it is held against",
        ));
    };
    let finding = Finding::at_most(Check::TrialLift, subject, read.into(), stop.into()).working([Working::new(
        "where the trial lift stops",
        "G_s",
        "min(1.05·G₀, G)",
        stop,
        "5 % over the load without contingency, or the gross load, whichever is less",
    )]);
    Some(if finding.outcome == Outcome::Outside {
        finding.caution("set down and find the weight before anything else")
    } else {
        finding
    })
}

/// Why rule books ask more of a lift with that use of the chart: plan, meeting, supervisor. `radius_share` is the radius over the crane's largest.
///
/// United States: above 75 % (29 CFR 1926.751, steel erection; USACE form 16-3). British Columbia: above 90 % at more than half the largest radius (WorkSafeBC OHS
/// Regulation, part 14). Where no rules are chosen, or none are known: above 75 %.
pub fn critical(rules: Profile, used: f64, radius_share: Option<f64>) -> Option<String> {
    match rules {
        Profile::BritishColumbia => {
            let far = radius_share.is_none_or(|share| exceeds(share, 0.5));
            (exceeds(used, 0.9) && far)
                .then(|| "above 90 % of the chart at more than half the largest radius (WorkSafeBC part 14)".into())
        }
        Profile::Us | Profile::Ontario | Profile::Alberta | Profile::NotSaid => {
            exceeds(used, 0.75).then(|| "above 75 %, 29 CFR 1926.751, USACE form 16-3: confirm the weight first".into())
        }
    }
}

fn particular(placed: &PlacedLift<'_>) -> Option<Finding> {
    let used = placed.lift.use_of_chart?;
    let largest_m = placed.crane.table.as_ref()?.radii().next_back()?.to_m();
    let radius_m = placed.lift.governing()?.radius_m;
    let why = critical(placed.plan.site.rules, used.to_of(), Some(radius_m / largest_m))?;
    let subject = "use of the chart";
    Some(Finding::of(Check::Critical, subject, Outcome::Within).caution(why))
}
