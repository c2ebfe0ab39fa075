//! The crane order: the configuration that the plan rests on, to be confirmed in writing.

use super::lift::shown;
use super::page::{self, Flexible, Format};
use super::{Section, Sheet, blank, cautions};
use crate::evaluate::{Assessment, EndKind, LiftResult};
use crate::plan::{Plan, RateFor};
use crate::quantity::{Length, Mass, Safe};

/// What stands where nothing belongs.
const NONE: &str = "—";
/// What stands where nobody entered anything.
const NOT_ENTERED: &str = "not entered";
/// Who confirms, in rows of four.
const SIGNED: [&str; 4] = ["Confirmed for the yard by", "Date", "Ordered by", "Date"];

/// The sheet. Empty where no crane is set up.
pub fn crane_order_sheet(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    if plan.crane(&plan.set_up.crane).is_none() {
        return Vec::new();
    }
    let blank = blank(plan, assessment, "Crane order".into(), ("crane order", (1, 1)), false);
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let mut sections = vec![
        Section::lines("", cautions::ORDER_LARGE).large(),
        configuration(plan, assessment),
        lifts(assessment),
        Section::blanks("", &SIGNED).columns(4),
        Section::run(&cautions::ORDER),
    ];
    let (_, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, 0.0);
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

fn entered(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() { NOT_ENTERED } else { text }.to_owned()
}

/// What is ordered beside room for what the yard confirms.
fn configuration(plan: &Plan, assessment: &Assessment) -> Section {
    let units = assessment.units;
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut add = |what: &str, ordered: String| rows.push(vec![what.to_owned(), ordered, String::new()]);
    if let Some(crane) = plan.crane(&plan.set_up.crane) {
        add("Crane, class and make-up", entered(&crane.name));
        add("Serial number of the machine that comes", NONE.into());
        if let Some(chart) = crane.charts.iter().find(|chart| chart.id == plan.set_up.chart.as_str()) {
            add(
                "Rating chart",
                entered(if chart.name.is_empty() { &chart.id } else { &chart.name }),
            );
            add(
                "Chart copied from, by whom, when",
                entered([chart.said.who.trim(), chart.said.when.trim()].join(" ").trim()),
            );
            add(
                "Counterweight",
                shown(chart.configuration.counterweight.get(), units, Safe::Nearest),
            );
            add("Outriggers", entered(&chart.configuration.outriggers));
            add("Sector", entered(&chart.configuration.sector));
        }
        let booms = assessment.lifts.iter().filter_map(|lift| lift.boom_m);
        let longest = booms.fold(None, |most: Option<f64>, boom| Some(most.map_or(boom, |m| m.max(boom))));
        add("Longest main boom used", shown(longest.map(Length::m), units, Safe::Up));
        add("Hook block", shown(crane.block_mass.get(), units, Safe::Up));
        add(
            "Parts of line",
            if crane.parts == 0 {
                NOT_ENTERED.into()
            } else {
                crane.parts.to_string()
            },
        );
        add(
            "Stowed on the boom",
            if crane.stowed.is_blank() {
                NOT_ENTERED.into()
            } else {
                shown(crane.stowed.get(), units, Safe::Up)
            },
        );
        add("Mats, side", shown(crane.mat.get(), units, Safe::Up));
        add("Counterweight trucks", counted(plan, RateFor::CounterweightTruck));
    }
    add("Set day", entered(&plan.project.set_day));
    add("On site at", entered(&plan.day.start));
    add("Weather day, called by whom and when", NONE.into());
    let head = [("What", 0.3), ("Ordered", 0.4), ("Confirmed by the yard", 0.3)];
    Section::table("", &head, rows)
}

/// How many the rates count for the crane that is set up.
fn counted(plan: &Plan, item: RateFor) -> String {
    let here = |crane: &crate::plan::Id| crane.is_empty() || *crane == plan.set_up.crane;
    let row = plan
        .hire
        .rates
        .iter()
        .find(|rate| rate.item == item && here(&rate.crane));
    row.map_or_else(|| NOT_ENTERED.into(), |rate| entered(rate.count.text()))
}

/// What each lift asks of the crane.
fn lifts(assessment: &Assessment) -> Section {
    let units = assessment.units;
    let row = |lift: &LiftResult| {
        let radius = |kind: EndKind| {
            lift.ends
                .iter()
                .find(|end| end.end == kind)
                .map_or(NONE.into(), |end| shown(Some(Length::m(end.radius_m)), units, Safe::Up))
        };
        let most = |of: fn(&crate::evaluate::EndResult) -> Option<f64>| {
            lift.ends
                .iter()
                .filter_map(of)
                .fold(None, |most: Option<f64>, x| Some(most.map_or(x, |m| m.max(x))))
        };
        vec![
            format!("{} {}", lift.number, lift.title),
            shown(most(|end| end.gross.map(Mass::to_kg)).map(Mass::kg), units, Safe::Up),
            radius(EndKind::Pick),
            radius(EndKind::Set),
            shown(lift.boom_m.map(Length::m), units, Safe::Nearest),
            shown(
                most(|end| end.head_needed.map(Length::to_m)).map(Length::m),
                units,
                Safe::Up,
            ),
            shown(lift.use_of_chart, units, Safe::Up),
        ]
    };
    let head = [
        ("Lift", 0.26),
        ("Gross load", 0.15),
        ("Radius, pick", 0.13),
        ("Radius, set", 0.13),
        ("Boom", 0.11),
        ("Head needed", 0.13),
        ("Use", 0.09),
    ];
    Section::table("", &head, assessment.lifts.iter().map(row).collect())
}
