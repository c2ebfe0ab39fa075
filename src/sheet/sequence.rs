//! The sequence sheet: the lifts in order with their times, when each carrier comes, the line of time.

use super::page::{self, Flexible, Format};
use super::{Section, Sheet, blank, cautions};
use crate::drawing::{Paper, day_view};
use crate::evaluate::{Assessment, Carrier, DayPlan, clock_words, day_plan};
use crate::plan::{Plan, Step};

/// Least height of the line of time, mm.
const LEAST_DRAWING_MM: f64 = 60.0;
/// Most height of a line of time, mm.
const MOST_DRAWING_MM: f64 = 120.0;
/// What stands where nothing belongs.
const NONE: &str = "—";
/// Who looked the order over, in rows of four.
const SIGNED: [&str; 4] = ["Lift director", "Operator", "Rigger", "Date, time"];

/// The sheet. Empty where there is no lift, and where the order cannot be: an upper box before its lower one, a number twice.
pub fn sequence_sheet(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    let day = day_plan(plan, assessment);
    if plan.lifts.is_empty() || !day.conflicts.is_empty() {
        return Vec::new();
    }
    let blank = blank(
        plan,
        assessment,
        "Sequence of the day".into(),
        ("sequence sheet", (1, 1)),
        true,
    );
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let mut sections = vec![
        Section::lines("", cautions::SITE_LARGE).large(),
        Section::lines("", said(&day)),
        lifts(plan, assessment, &day),
        Section::blanks("", &SIGNED).columns(4),
        Section::run(&cautions::SEQUENCE),
    ];
    let (free_mm, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, LEAST_DRAWING_MM);
    let paper = Paper::printed(wide_mm, free_mm.min(MOST_DRAWING_MM));
    sections.insert(2, Section::drawing(day_view(&day, paper)));
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

/// When the crane is done, and what to look out for.
fn said(day: &DayPlan) -> Vec<String> {
    let mut lines = vec![match day.done {
        Some(done) => format!(
            "Crane done by {} on half of such days, by {} on 9 of 10. The rig changes {} times.",
            clock_words(done.likely),
            clock_words(done.high),
            day.rig_changes
        ),
        None => format!("When the crane is done cannot be worked out. {}.", day.asked.join("; ")),
    }];
    lines.extend(day.cautions.iter().cloned());
    lines
}

/// A row a lift.
fn lifts(plan: &Plan, assessment: &Assessment, day: &DayPlan) -> Section {
    let row = |(index, lift): (usize, &crate::evaluate::LiftResult)| {
        let own = day.steps.iter().filter(|step| step.lift == Some(index));
        let work = own
            .clone()
            .find(|step| matches!(step.step, Step::Box | Step::RoofRaise | Step::Bundle));
        let last = own.clone().next_back().and_then(|step| step.ends);
        let change = own.clone().any(|step| step.step == Step::ReRig);
        let time = |band: Option<crate::day::Band>, of: fn(crate::day::Band) -> u32| {
            band.map_or_else(|| NONE.into(), |band| clock_words(of(band)))
        };
        let carrier = day.carriers.iter().find(|carrier| carrier.lift == index);
        let rig = plan.lifts.get(index).map_or(NONE.into(), |lift| lift.rig.to_string());
        vec![
            format!("{} {}", lift.number, lift.title),
            if change { format!("{rig}, CHANGE") } else { rig },
            lift.spot.as_ref().map_or(NONE.into(), ToString::to_string),
            carrier.map_or(NONE.into(), there_by),
            time(work.and_then(|step| step.begins), |band| band.likely),
            time(last, |band| band.likely),
            time(last, |band| band.high),
            lift.outcome.word().to_uppercase(),
            String::new(),
        ]
    };
    let head = [
        ("Lift", 0.2),
        ("Rig", 0.14),
        ("Spot", 0.06),
        ("Carrier there by", 0.12),
        ("Begins", 0.08),
        ("Ends", 0.08),
        ("Ends, late", 0.09),
        ("Outcome", 0.12),
        ("Really", 0.11),
    ];
    Section::table("", &head, assessment.lifts.iter().enumerate().map(row).collect())
}

/// When a carrier is on its spot: the time it was told, else the latest.
fn there_by(carrier: &Carrier) -> String {
    match carrier.told_min {
        Some(told) => format!("{}, told", clock_words(told)),
        None => clock_words(carrier.latest_min),
    }
}
