//! Power lines: how near boom, ropes, load and tag lines come, by whose rules, and whose word is missing.

use super::LiftResult;
use super::crane_side::CraneSide;
use super::further::PlacedLift;
use super::swing::Path;
use super::{Assessment, EndKind};
use crate::check::{Check, Finding, Outcome, Working};
use crate::geometry::{distance_m, offset, polygon_distance_m, rotate};
use crate::plan::{Plan, PowerLine};
use crate::quantity::{Length, both};
use crate::rules::{Keep, keep_away, trigger_m};

/// How near each part comes to a line in plan, m; below 0 it reaches across. The wire is taken where the wind may blow it to, as far as that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distances {
    /// Boom, head, ropes and rigging over the swing.
    pub boom_m: f64,
    /// The load as it lies at pick and set.
    pub standing_m: f64,
    /// The load turned square to how it lies at the pick.
    pub crosswise_m: Option<f64>,
    /// The load if it turns freely on its hook, anywhere on the way.
    pub turning_m: f64,
    /// The end of a tag line from its farthest corner.
    pub tag_line_m: Option<f64>,
    /// All that reaches out at the crane's largest working radius.
    pub working_radius_m: Option<f64>,
}

impl Distances {
    /// The nearest of boom, ropes, rigging and load.
    pub fn nearest_m(&self) -> f64 {
        self.boom_m.min(self.standing_m).min(self.turning_m)
    }

    /// Each by its name, the tag line and the working radius last.
    pub fn named(&self) -> Vec<(&'static str, f64)> {
        let mut all = vec![
            ("boom, ropes and rigging over the swing", self.boom_m),
            ("load as it lies at pick and set", self.standing_m),
        ];
        all.extend(self.crosswise_m.map(|m| ("load turned crosswise at the pick", m)));
        all.push(("load turning freely on its hook", self.turning_m));
        all.extend(self.tag_line_m.map(|m| ("end of a tag line", m)));
        all.extend(
            self.working_radius_m
                .map(|m| ("all of it at the crane's largest working radius", m)),
        );
        all
    }
}

/// Findings on power lines for one lift.
///
/// The rules' distance begins at the crane's largest working radius (29 CFR 1926.1408, 1926.1409), and the load's far corner reaches beyond the
/// hook. A voltage that nobody confirmed is a hold, never a pass.
pub fn findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let lines = &placed.plan.site.power_lines;
    lines
        .iter()
        .filter_map(|line| finding(placed.plan, line, placed.crane, placed.lift))
        .collect()
}

/// What a line is called.
pub fn name_of(line: &PowerLine) -> &str {
    if line.name.trim().is_empty() {
        "power line"
    } else {
        &line.name
    }
}

/// The voltage as told, kV; `None` where it is not a number.
pub fn kilovolts(line: &PowerLine) -> Option<f64> {
    let text = line.kilovolts.trim().trim_end_matches("kV").trim();
    text.parse().ok().filter(|kv: &f64| kv.is_finite() && *kv >= 0.0)
}

fn is_confirmed(line: &PowerLine) -> bool {
    !line.confirmed.trim().is_empty()
}

/// From which distance the rules begin: as typed, else by the rules of the site.
pub fn trigger_of(plan: &Plan, line: &PowerLine) -> Option<Keep> {
    let told = is_confirmed(line).then(|| kilovolts(line)).flatten();
    if line.trigger.is_blank() {
        return Some(trigger_m(plan.site.rules, told));
    }
    line.trigger.not_negative().map(|typed| Keep {
        away_m: Some(typed.to_m()),
        source: "as entered for the line",
    })
}

/// How near everything comes to a line on one lift; `None` where line or crane have no place.
pub fn distances(plan: &Plan, line: &PowerLine, crane: &CraneSide<'_>, lift: &LiftResult) -> Option<Distances> {
    let wire = [line.from.metres()?, line.to.metres()?];
    let at_m = crane.at_m?;
    let path = Path::of(plan, crane, lift)?;
    let blown_m = line.blow_out.not_negative().map_or(0.0, Length::to_m);
    let away = |polygon: &[[f64; 2]]| polygon_distance_m(polygon, &wire).map_or(f64::INFINITY, |m| m - blown_m);
    let least = |all: &mut dyn Iterator<Item = f64>| all.fold(f64::INFINITY, f64::min);
    let reach_m = reach_m(lift);
    // the hook over the swing, at either radius; the boom's foot lies within it
    let mut hook_m = least(&mut lift.ends.iter().map(|end| away(&[at_m, end.hook_m])));
    for (slew_rad, _) in path.steps() {
        let turn = (
            libm::cos(slew_rad + crane.heading_rad),
            libm::sin(slew_rad + crane.heading_rad),
        );
        for radius_m in path.radii_m {
            hook_m = hook_m.min(away(&[offset(at_m, rotate([radius_m, 0.0], turn))]));
        }
    }
    let standing_m = least(&mut lift.ends.iter().map(|end| {
        if end.outline_m.is_empty() {
            away(&[end.hook_m])
        } else {
            away(&end.outline_m)
        }
    }));
    let pick = lift
        .ends
        .iter()
        .find(|end| end.end == EndKind::Pick && !end.outline_m.is_empty());
    let crosswise_m = pick.map(|end| {
        let turned = |p: &[f64; 2]| {
            offset(
                middle(&end.outline_m),
                rotate(minus(*p, middle(&end.outline_m)), (0.0, 1.0)),
            )
        };
        let outline: Vec<[f64; 2]> = end.outline_m.iter().map(turned).collect();
        away(&outline)
    });
    let tag_line_m = plan
        .limits
        .tag_line
        .not_negative()
        .map(|length| hook_m - reach_m - length.to_m());
    let radius_m = crane
        .table
        .as_ref()
        .and_then(|table| table.radii().next_back())
        .map(Length::to_m);
    Some(Distances {
        boom_m: hook_m,
        standing_m,
        crosswise_m,
        turning_m: hook_m - reach_m,
        tag_line_m,
        working_radius_m: radius_m.map(|radius_m| away(&[at_m]) - radius_m - reach_m),
    })
}

fn middle(outline: &[[f64; 2]]) -> [f64; 2] {
    [0, 1].map(|i| outline.iter().map(|p| p[i]).sum::<f64>() / outline.len() as f64)
}

fn minus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] - b[0], a[1] - b[1]]
}

/// The distances of one lift to every line, for a view; `None` beside a line that has no place.
pub fn wires_of(plan: &Plan, assessment: &Assessment, index: usize) -> Vec<Option<Distances>> {
    let crane = super::crane_side::resolve(plan);
    let lift = assessment.lifts.get(index);
    let lines = plan.site.power_lines.iter();
    lines.map(|line| distances(plan, line, &crane, lift?)).collect()
}

fn finding(plan: &Plan, line: &PowerLine, crane: &CraneSide<'_>, lift: &LiftResult) -> Option<Finding> {
    let subject = name_of(line).to_owned();
    let trigger = trigger_of(plan, line).and_then(|keep| keep.away_m.map(|m| (m, keep.source)));
    let placed = line.from.metres().is_some() && line.to.metres().is_some();
    let Some((trigger_m, trigger_source)) = trigger.filter(|_| placed) else {
        return Some(Finding::not_checked(
            Check::PowerLine,
            subject,
            "where the line runs and from which distance its rules begin",
        ));
    };
    let found = distances(plan, line, crane, lift)?;
    let reaches = found.working_radius_m.is_none_or(|m| m <= trigger_m) || found.nearest_m() <= trigger_m;
    if !reaches {
        return None;
    }
    let mut finding = if !is_confirmed(line) {
        let until = format!(
            "line voltage not confirmed (the load comes within {} of the line in plan)",
            both(found.standing_m.max(0.0))
        );
        Finding::of(Check::PowerLine, subject, Outcome::Held { until })
    } else {
        confirmed(plan, line, &found)
    };
    if found.nearest_m() < trigger_m {
        let turning = if found.standing_m.min(found.boom_m) < trigger_m {
            ""
        } else {
            " when it turns"
        };
        finding = finding.caution(format!("inside the {} trigger{turning}", both(trigger_m)));
    }
    let still = if line.sag.is_blank() || line.blow_out.is_blank() {
        "distance in plan, below 0 across the line; sag and blow-out are not entered: to the wire as it hangs still"
    } else {
        "distance in plan, below 0 across the line, to the wire blown out"
    };
    let trigger_line = Working::new(
        "distance at which the rules begin, at the crane's largest working radius",
        "d_t",
        "by rule",
        Length::m(trigger_m),
        trigger_source,
    );
    let lines = found.named().into_iter().map(|(name, m)| {
        Working::new(
            "distance in plan",
            "d",
            "from the line, the wire blown out as far as that is known",
            Length::m(m),
            "distances in plan: the height of a wire is guessed too often",
        )
        .of(name.to_owned(), still.into())
    });
    Some(finding.working(core::iter::once(trigger_line).chain(lines)))
}

/// A line whose voltage the utility has confirmed: dead and earthed at 0 kV, else by its band.
fn confirmed(plan: &Plan, line: &PowerLine, found: &Distances) -> Finding {
    let subject = name_of(line).to_owned();
    let Some(kv) = kilovolts(line) else {
        let missing = format!(
            "read \"{}\" as its voltage: expected kilovolts such as 25, or 0 for a line that is dead and earthed",
            line.kilovolts.trim()
        );
        return Finding::not_checked(Check::PowerLine, subject, missing);
    };
    if kv <= 0.0 {
        let subject = format!("{subject}, dead and earthed by the word of {}", line.confirmed.trim());
        return Finding::of(Check::PowerLine, subject, Outcome::Within)
            .caution("see the earths in place before the first lift; treat as live until then");
    }
    let keep = keep_away(plan.site.rules, kv);
    let Some(away_m) = keep.away_m else {
        let missing = format!(
            "the distance that the line's owner or an engineer sets at {kv} kV ({})",
            keep.source
        );
        return Finding::not_checked(Check::PowerLine, subject, missing);
    };
    let nearest = Length::m(found.nearest_m());
    Finding::at_least(
        Check::PowerLine,
        format!("{subject}, {kv} kV"),
        Length::m(away_m).into(),
        nearest.into(),
    )
    .working([Working::new(
        "distance to keep",
        "d_k",
        "by voltage, the upper value of a band included",
        Length::m(away_m),
        keep.source,
    )])
}

/// How far the load reaches beyond the hook when it turns, m.
fn reach_m(lift: &LiftResult) -> f64 {
    let corners = lift
        .ends
        .iter()
        .flat_map(|end| end.outline_m.iter().map(|p| distance_m(*p, end.hook_m)));
    corners.fold(0.0, f64::max)
}
