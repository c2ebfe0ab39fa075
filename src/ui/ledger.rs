//! The ledger: one row a lift, with what governs it and one word.

use super::route::Route;
use super::show::{self, NONE, figure, length_unit, mass_unit};
use super::store::Shared;
use crate::check::{Amount, Outcome};
use crate::evaluate::{Assessment, EndKind, EndResult, LiftResult};
use crate::geometry::sort_short;
use crate::quantity::{Length, Safe, UnitSystem};
use yew::prelude::*;

/// The order of the rows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Order {
    /// As the lifts follow each other.
    Day,
    /// Gravest first, then by use of the chart.
    Worst,
}

/// A column: its head, its unit, its figure.
struct Column {
    head: &'static str,
    unit: fn(UnitSystem) -> &'static str,
    text: fn(&LiftResult, UnitSystem) -> String,
}

fn no_unit(_: UnitSystem) -> &'static str {
    ""
}

fn per_cent(_: UnitSystem) -> &'static str {
    "%"
}

fn end_of(lift: &LiftResult, kind: EndKind) -> Option<&EndResult> {
    lift.ends.iter().find(|end| end.end == kind)
}

fn radius(lift: &LiftResult, kind: EndKind, units: UnitSystem) -> String {
    figure(end_of(lift, kind).map(|end| end.planned_radius), units, Safe::Up)
}

/// The smallest of an available length over both ends.
fn least(lift: &LiftResult, of: impl Fn(&EndResult) -> Option<Length>, units: UnitSystem) -> String {
    let least = lift
        .ends
        .iter()
        .filter_map(of)
        .min_by(|a, b| a.to_m().total_cmp(&b.to_m()));
    figure(least, units, Safe::Down)
}

/// Height left between the boom head and what is needed.
pub fn head_spare(end: &EndResult) -> Option<Length> {
    Some(Length::m(end.head?.to_m() - end.head_needed?.to_m()))
}

fn governs(lift: &LiftResult, _: UnitSystem) -> String {
    match lift.governing().map(|end| end.end) {
        Some(EndKind::Pick) => "PICK".into(),
        Some(EndKind::Set) => "SET".into(),
        None => NONE.into(),
    }
}

fn next_row(lift: &LiftResult, units: UnitSystem) -> String {
    use_or_not_allowed(lift.next_row_use.map(Amount::Share), lift.next_row_not_allowed, units)
}

fn with_default_allowance(lift: &LiftResult, units: UnitSystem) -> String {
    use_or_not_allowed(
        lift.default_allowance_use.map(Amount::Share),
        lift.default_allowance_not_allowed,
        units,
    )
}

/// A use of the chart, or the words for a blank in it.
pub fn use_or_not_allowed(share: Option<Amount>, not_allowed: bool, units: UnitSystem) -> String {
    if not_allowed {
        "not allowed".into()
    } else {
        figure(share, units, Safe::Up)
    }
}

const COLUMNS: [Column; 10] = [
    Column {
        head: "Gross load",
        unit: mass_unit,
        text: |l, u| figure(l.governing().and_then(|e| e.gross), u, Safe::Up),
    },
    Column {
        head: "Pick radius",
        unit: length_unit,
        text: |l, u| radius(l, EndKind::Pick, u),
    },
    Column {
        head: "Set radius",
        unit: length_unit,
        text: |l, u| radius(l, EndKind::Set, u),
    },
    Column {
        head: "Governs",
        unit: no_unit,
        text: governs,
    },
    Column {
        head: "Row read",
        unit: length_unit,
        text: |l, u| figure(l.governing().and_then(|e| e.row), u, Safe::Nearest),
    },
    Column {
        head: "Rating",
        unit: mass_unit,
        text: |l, u| figure(l.governing().and_then(|e| e.rating), u, Safe::Down),
    },
    Column {
        head: "Use",
        unit: per_cent,
        text: |l, u| figure(l.use_of_chart, u, Safe::Up),
    },
    Column {
        head: "Next row",
        unit: per_cent,
        text: next_row,
    },
    Column {
        head: "Head spare",
        unit: length_unit,
        text: |l, u| least(l, head_spare, u),
    },
    Column {
        head: "Boom gap",
        unit: length_unit,
        text: |l, u| least(l, |e| e.boom_gap, u),
    },
];

/// Shown where the plan's radius allowance is not the default one.
const WITH_ALLOWANCE: Column = Column {
    head: "With 0.3 m allowance",
    unit: per_cent,
    text: with_default_allowance,
};

/// The ledger's plain figures.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// What follows from the plan.
    pub assessment: Shared<Assessment>,
}

/// Shows the ledger.
#[component]
pub fn Ledger(props: &Props) -> Html {
    let order = use_state(|| Order::Day);
    let assessment = &props.assessment;
    let units = assessment.units;
    let columns = columns(assessment);
    let button = |wanted: Order, words: &'static str| {
        let order = order.clone();
        let pressed = (*order == wanted).to_string();
        html! { <button type="button" aria-pressed={pressed} onclick={move |_| order.set(wanted)}>{ words }</button> }
    };
    html! {
        <section class="ledger" aria-labelledby="ledger-title">
            <div class="section-head">
                <h2 id="ledger-title">{ "Ledger of lifts" }</h2>
                <div class="switch" role="group" aria-label="Order of the rows">
                    { button(Order::Day, "Set order") }
                    { button(Order::Worst, "Worst first") }
                </div>
            </div>
            <table role="table">
                <caption class="unseen">{ "One row a lift. Loads and uses are rounded up, ratings and gaps down." }</caption>
                <thead role="rowgroup"><tr role="row">
                    <th role="columnheader" scope="col">{ "Lift" }</th>
                    { for columns.iter().map(|column| head(column, units)) }
                    <th role="columnheader" scope="col" class="word">{ "Outcome" }</th>
                </tr></thead>
                <tbody role="rowgroup">{ for in_order(assessment, *order).into_iter().map(|lift| row(lift, &columns, units)) }</tbody>
            </table>
        </section>
    }
}

fn columns(assessment: &Assessment) -> Vec<&'static Column> {
    let other_allowance = assessment
        .lifts
        .iter()
        .any(|l| l.default_allowance_use.is_some() || l.default_allowance_not_allowed);
    let mut columns: Vec<&'static Column> = COLUMNS.iter().collect();
    if other_allowance {
        columns.insert(8, &WITH_ALLOWANCE);
    }
    columns
}

fn in_order(assessment: &Assessment, order: Order) -> Vec<&LiftResult> {
    let mut lifts: Vec<&LiftResult> = assessment.lifts.iter().collect();
    if order == Order::Worst {
        let key = |l: &LiftResult| l.use_of_chart.map_or(f64::NEG_INFINITY, |u| u.to_of());
        sort_short(&mut lifts, |a, b| {
            let gravity = b.outcome.gravity().cmp(&a.outcome.gravity());
            gravity.then(key(b).total_cmp(&key(a)))
        });
    }
    lifts
}

fn head(column: &Column, units: UnitSystem) -> Html {
    html! {
        <th role="columnheader" scope="col" class="figure">
            { column.head }<span class="unit">{ (column.unit)(units) }</span>
        </th>
    }
}

fn row(lift: &LiftResult, columns: &[&'static Column], units: UnitSystem) -> Html {
    html! {
        <tr role="row" key={lift.id.to_string()} class={show::outcome_class(&lift.outcome)}>
            <th role="rowheader" scope="row">
                <a href={Route::Lift(lift.number).address()}><b>{ lift.number }</b>{ " " }{ &lift.title }</a>
            </th>
            { for columns.iter().map(|column| cell(column, lift, units)) }
            <td role="cell" class="word">{ show::mark(&lift.outcome) }{ why(lift) }</td>
        </tr>
    }
}

fn cell(column: &Column, lift: &LiftResult, units: UnitSystem) -> Html {
    let label = format!("{} {}", column.head, (column.unit)(units));
    html! { <td role="cell" class="figure" data-label={label.trim_end().to_owned()}>{ (column.text)(lift, units) }</td> }
}

/// Which check makes the lift what it is.
fn why(lift: &LiftResult) -> Html {
    let text = match &lift.outcome {
        Outcome::Within => return Html::default(),
        Outcome::Outside => lift
            .findings
            .iter()
            .find(|finding| finding.outcome == Outcome::Outside)
            .map(|finding| format!("{}, {}", finding.check.title(), finding.subject)),
        other => show::reason(other).map(Into::into),
    };
    html! { <span class="why">{ text.unwrap_or_default() }</span> }
}
