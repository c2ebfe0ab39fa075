//! The site sheet: the lot to a true scale with the crane, the boxes and where the trucks stop, and what is measured before the first lift.

use super::lift::shown;
use super::page::{self, Flexible, Format};
use super::{Section, Sheet, blank, cautions};
use crate::check::Check;
use crate::drawing::{Paper, site_view, tape};
use crate::evaluate::{Assessment, EndKind, LiftResult, wind_stops};
use crate::plan::Plan;
use crate::quantity::{Length, Safe, Speed, number};

/// Least height of the plan, mm.
const LEAST_DRAWING_MM: f64 = 110.0;
/// Most height of the plan, mm.
const MOST_DRAWING_MM: f64 = 190.0;
/// What stands where nothing belongs.
const NONE: &str = "—";
/// Who puts a name to what was measured, in rows of four.
const SIGNED: [&str; 4] = ["Measured by", "Ground seen by", "Lift director", "Date, time"];

/// The sheet: one page, and others only where a plan has more lifts or more to measure than a page holds. Empty where there is nothing on the lot.
pub fn site_sheet(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    if assessment.crane.at_m.is_none() && plan.site.foundation.is_empty() {
        return Vec::new();
    }
    let blank = blank(plan, assessment, "Site".into(), ("site sheet", (1, 1)), true);
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let mut sections = vec![
        Section::lines("", cautions::SITE_LARGE).large(),
        unconfirmed(plan).large(),
        lifts(assessment),
        measured(plan, assessment),
        Section::blanks("", &SIGNED).columns(4),
        Section::run(&cautions::SITE),
    ];
    let (free_mm, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, LEAST_DRAWING_MM);
    let paper = Paper::printed(wide_mm, free_mm.min(MOST_DRAWING_MM));
    sections.insert(1, Section::drawing(site_view(plan, assessment, paper)));
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

/// Lines whose voltage nobody has confirmed, by name.
fn unconfirmed(plan: &Plan) -> Section {
    let lines = plan
        .site
        .power_lines
        .iter()
        .filter(|line| line.confirmed.trim().is_empty());
    let text = lines.map(|line| {
        let told = match line.kilovolts.trim() {
            "" => "voltage not known".into(),
            kilovolts => format!("{kilovolts} kV as told"),
        };
        format!(
            "LINE VOLTAGE NOT CONFIRMED: {}, {told}. Held until the utility confirms it.",
            line.name
        )
    });
    Section::lines("", text)
}

/// A row a lift: where it is picked, how far out, how heavy.
fn lifts(assessment: &Assessment) -> Section {
    let units = assessment.units;
    let row = |lift: &LiftResult| {
        let end = |kind: EndKind| lift.ends.iter().find(|e| e.end == kind);
        let radius = |kind: EndKind| match end(kind) {
            // what is never on a carrier has no pick
            None if !lift.ends.is_empty() => NONE.into(),
            end => shown(end.map(|e| Length::m(e.radius_m)), units, Safe::Up),
        };
        let governing = lift.governing().or(lift.ends.first());
        vec![
            format!("{} {}", lift.number, lift.title),
            lift.spot.as_ref().map_or(NONE.into(), ToString::to_string),
            radius(EndKind::Pick),
            radius(EndKind::Set),
            shown(lift.boom_m.map(Length::m), units, Safe::Nearest),
            shown(governing.and_then(|e| e.gross), units, Safe::Up),
            shown(lift.use_of_chart, units, Safe::Up),
            lift.outcome.word().to_uppercase(),
        ]
    };
    let head = [
        ("Lift", 0.21),
        ("Pick", 0.07),
        ("Radius, pick", 0.13),
        ("Radius, set", 0.13),
        ("Boom", 0.11),
        ("Gross load", 0.13),
        ("Use", 0.09),
        ("Outcome", 0.13),
    ];
    Section::table("", &head, assessment.lifts.iter().map(row).collect())
}

/// What the crew measures before the first lift, as planned, with room for what was found.
fn measured(plan: &Plan, assessment: &Assessment) -> Section {
    let units = assessment.units;
    let crane = &assessment.crane;
    let mut rows = Vec::new();
    let mut add = |what: String, planned: String| rows.push(vec![what, planned, String::new()]);
    for (corner, metres) in &crane.ties {
        if let Some([east, north]) = plan.site.foundation.get(*corner).and_then(crate::plan::Point::metres) {
            let [east, north] = [east, north].map(|m| tape(m, units));
            add(
                format!("Crane centre to the corner at {east} east, {north} north"),
                tape(*metres, units),
            );
        }
    }
    if let Some(heading) = plan.set_up.heading.get() {
        let degrees = number(heading.to_rad().to_degrees(), 0, Safe::Nearest);
        add("Carrier's front, from east anticlockwise".into(), format!("{degrees}°"));
    }
    let mat = plan.crane(&plan.set_up.crane).and_then(|c| c.mat.not_negative());
    add("Side of a mat".into(), shown(mat, units, Safe::Up));
    add(
        "Mats clear of the foundation".into(),
        shown(plan.site.no_load_offset.get(), units, Safe::Up),
    );
    add(
        "Tail swing, clear all round".into(),
        shown(crane.tail_m.map(Length::m), units, Safe::Up),
    );
    let ground = assessment
        .lifts
        .iter()
        .flat_map(|l| &l.findings)
        .find(|f| f.check == Check::Ground && f.demand.is_some());
    if let Some((finding, [pressure, bears, _])) = ground.and_then(|f| Some((f, f.compared(units)?))) {
        if let Some(load) = finding.working.first() {
            let words = load.result.show(units, Safe::Up);
            add(format!("Most on an outrigger, by {}", load.source), words);
        }
        add(format!("Pressure under a mat; the ground bears {bears}"), pressure);
    }
    let lowest = wind_stops(plan, assessment)
        .into_iter()
        .flatten()
        .map(|s| s.speed)
        .reduce(Speed::min);
    add(
        "Gust at which the first lift stops".into(),
        shown(lowest, units, Safe::Down),
    );
    for line in &plan.site.power_lines {
        let asked = shown(line.trigger.get(), units, Safe::Up);
        add(format!("{}: boom, rope and load stay away by", line.name), asked);
    }
    let head = [("Measured on site", 0.5), ("Planned", 0.2), ("Found", 0.3)];
    Section::table("", &head, rows).columns(2)
}
