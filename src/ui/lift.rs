//! One lift: pick beside set, how the gross load adds up, every finding with its working, the drawings.

use super::figure::Drawing;
use super::findings::Findings;
use super::ledger::{head_spare, use_or_not_allowed};
use super::outdoors::Outdoors;
use super::route::Route;
use super::show::{self, NONE, figure, kilograms, length_unit, mass_unit, shown};
use super::store::Shared;
use crate::check::Amount;
use crate::drawing::CraneView;
use crate::evaluate::{Assessment, EndKind, EndResult, LiftResult};
use crate::plan::Plan;
use crate::quantity::{Safe, UnitSystem};
use yew::prelude::*;

/// Which lift of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// The lift's number.
    pub number: u32,
}

/// Shows it.
#[component]
pub fn LiftView(props: &Props) -> Html {
    let assessment = &props.assessment;
    let Some(index) = assessment.lifts.iter().position(|lift| lift.number == props.number) else {
        return no_such_lift(props.number);
    };
    let lift = &assessment.lifts[index];
    let units = assessment.units;
    let draw = |view| {
        html! { <Drawing<CraneView> plan={props.plan.clone()} assessment={assessment.clone()} {view} /> }
    };
    html! {
        <article class="lift">
            { heading(assessment, index, Route::Lift) }
            <div class="lift-body">
                <div class="lift-figures">
                    { key_figures(&props.plan, lift, units) }
                    { note(&props.plan, lift) }
                    { both_ends(lift, units) }
                    { gross_load(lift, units) }
                </div>
                <div class="lift-drawings">
                    { for lift.ends.iter().map(|end| draw(CraneView::Elevation(index, end.end))) }
                    { draw(CraneView::Chart(index)) }
                    { draw(CraneView::Plan(Some(index))) }
                </div>
            </div>
            <h2>{ "Findings" }</h2>
            <Findings findings={lift.findings.clone()} {units} />
        </article>
    }
}

/// Said where an address names a lift that is not in the plan.
pub fn no_such_lift(number: u32) -> Html {
    html! {
        <article>
            <h2>{ format!("No lift {number} in this plan") }</h2>
            <p><a href={Route::Day.address()}>{ "Back to the ledger" }</a></p>
        </article>
    }
}

/// The lift's name and outcome, and the ways to its neighbours and to its other views.
pub fn heading(assessment: &Assessment, index: usize, route: fn(u32) -> Route) -> Html {
    let lift = &assessment.lifts[index];
    let neighbour = |step: isize, words: &'static str| {
        let number = index
            .checked_add_signed(step)
            .and_then(|i| assessment.lifts.get(i))
            .map(|l| l.number);
        number.map(|number| html! { <a href={route(number).address()}>{ words }{ " " }{ number }</a> })
    };
    let here = route(lift.number);
    let way = |to: Route, words: &'static str| (to != here).then(|| html! { <a href={to.address()}>{ words }</a> });
    let others = [
        way(Route::Lift(lift.number), "Crane and findings"),
        way(Route::Ground(lift.number), "Ground, wind, wires"),
        way(Route::Rig(lift.number), "Rigger's view"),
        way(Route::Structure(lift.number), "Box and roof"),
    ];
    html! {
        <div class="view-head">
            <h2>{ format!("Lift {}: {}", lift.number, lift.title) }</h2>
            { show::mark(&lift.outcome) }
            <nav class="ways" aria-label="Other lifts">
                <a href={Route::Day.address()}>{ "Ledger" }</a>
                { for others.into_iter().flatten() }
                <a href={Route::Sheets(Some(lift.number)).address()}>{ "Sheet" }</a>
                { neighbour(-1, "Lift") }
                { neighbour(1, "Lift") }
            </nav>
            if !lift.outcome.is_within() { <p class="why">{ lift.outcome.words() }</p> }
            <Outdoors />
        </div>
    }
}

fn key_figures(plan: &Plan, lift: &LiftResult, units: UnitSystem) -> Html {
    let governing = lift.governing();
    let governs = governing.map_or(NONE, |end| end.end.words());
    let figures = [
        (
            "Use of the chart",
            shown(lift.use_of_chart, units, Safe::Up),
            governs.to_owned(),
        ),
        (
            "Your limit",
            shown(plan.limits.chart_use.get(), units, Safe::Down),
            "of the rating".to_owned(),
        ),
        (
            "Gross load",
            shown(governing.and_then(|end| end.gross), units, Safe::Up),
            "on the boom head".to_owned(),
        ),
        (
            "Crane may move",
            shown(lift.may_move, units, Safe::Down),
            "any way, before the chart's limit".to_owned(),
        ),
    ];
    let one = |(name, value, below): (&'static str, String, String)| {
        html! { <div><dt>{ name }</dt><dd>{ value }<span>{ below }</span></dd></div> }
    };
    html! { <dl class="key-figures">{ for figures.map(one) }</dl> }
}

fn note(plan: &Plan, lift: &LiftResult) -> Html {
    let note = plan
        .lifts
        .iter()
        .find(|l| l.id == lift.id)
        .map_or("", |l| l.note.trim());
    if note.is_empty() {
        Html::default()
    } else {
        html! { <p class="note">{ note }</p> }
    }
}

/// A row of the table of both ends: its name, its unit, its figure.
type EndRow = (&'static str, &'static str, fn(&EndResult, UnitSystem) -> String);

/// Pick beside set: the same figures with the same weight.
fn both_ends(lift: &LiftResult, units: UnitSystem) -> Html {
    if lift.ends.is_empty() {
        return Html::default();
    }
    let (length, mass) = (length_unit(units), mass_unit(units));
    let rows: [EndRow; 14] = [
        ("Radius, slew centre to hook", length, |e, u| {
            figure(Some(show::metres(e.radius_m)), u, Safe::Up)
        }),
        ("Radius with the allowance", length, |e, u| {
            figure(Some(e.planned_radius), u, Safe::Up)
        }),
        ("Row of the chart read", length, |e, u| figure(e.row, u, Safe::Nearest)),
        ("Rating", mass, |e, u| figure(e.rating, u, Safe::Down)),
        ("Gross load", mass, |e, u| figure(e.gross, u, Safe::Up)),
        ("Use of the chart", "%", |e, u| figure(e.use_of_chart, u, Safe::Up)),
        ("Use at the next row", "%", |e, u| {
            let off = e.rating.is_some() && e.next_row_use.is_none();
            use_or_not_allowed(e.next_row_use.map(Amount::Share), off, u)
        }),
        ("Hook may be farther out by", length, |e, u| {
            figure(e.may_move, u, Safe::Down)
        }),
        ("Boom angle, from the horizontal", "°", |e, u| {
            figure(e.boom_angle, u, Safe::Nearest)
        }),
        ("Boom head above grade", length, |e, u| figure(e.head, u, Safe::Down)),
        ("Boom head needed", length, |e, u| figure(e.head_needed, u, Safe::Up)),
        ("Head spare", length, |e, u| figure(head_spare(e), u, Safe::Down)),
        ("Boom gap, least", length, |e, u| figure(e.boom_gap, u, Safe::Down)),
        ("Load's underside above grade", length, |e, u| {
            figure(Some(show::metres(e.floor_m)), u, Safe::Nearest)
        }),
    ];
    let governs = lift.governing().map(|end| end.end);
    let head = |end: &EndResult| {
        let word = match end.end {
            EndKind::Pick => "Pick",
            EndKind::Set => "Set",
        };
        let place = if end.end == EndKind::Pick {
            lift.spot.as_ref().map(|s| format!(" {s}"))
        } else {
            None
        };
        html! {
            <th scope="col" class="figure">
                { word }{ place }
                if governs == Some(end.end) { <span class="unit">{ "governs" }</span> }
            </th>
        }
    };
    let row = |(name, unit, text): EndRow| {
        let cells = lift
            .ends
            .iter()
            .map(|end| html! { <td class="figure">{ text(end, units) }</td> });
        html! { <tr><th scope="row">{ name }</th><td class="unit">{ unit }</td>{ for cells }</tr> }
    };
    html! {
        <table class="figures">
            <caption>{ "Pick and set, boom " }{ shown(lift.boom_m.map(show::metres), units, Safe::Nearest) }</caption>
            <thead><tr><td></td><td></td>{ for lift.ends.iter().map(head) }</tr></thead>
            <tbody>
                { for rows.map(row) }
                { for lift.ends.iter().filter_map(no_rating) }
            </tbody>
        </table>
    }
}

fn no_rating(end: &EndResult) -> Option<Html> {
    let reason = end.no_rating.as_ref()?;
    Some(html! { <tr><td colspan="4" class="why">{ format!("No rating {}: {reason}", end.end.words()) }</td></tr> })
}

/// How the gross load at the governing end adds up.
fn gross_load(lift: &LiftResult, units: UnitSystem) -> Html {
    let load = &lift.load;
    let plain =
        |name: &str, value: String| html! { <tr><th scope="row">{ name }</th><td class="figure">{ value }</td></tr> };
    let contingency = load.contingency.map_or_else(String::new, |share| {
        format!("Contingency, {}", Amount::Share(share).show(units, Safe::Up))
    });
    let added = load
        .bare_kg
        .zip(load.planned_kg)
        .map(|(bare, planned)| kilograms(planned - bare));
    let end = lift.governing().or_else(|| lift.ends.first());
    let line = |line: &crate::evaluate::GrossLine| {
        let name = if line.in_chart {
            format!("{} (taken off in the chart: not counted)", line.name)
        } else {
            line.name.into()
        };
        plain(&name, figure(Some(line.mass), units, Safe::Up))
    };
    html! {
        <table class="figures gross">
            <caption>{ "How the gross load adds up, " }{ mass_unit(units) }</caption>
            <tbody>
                { plain("Load before contingency", figure(load.bare_kg.map(kilograms), units, Safe::Up)) }
                if load.contingency.is_some() { { plain(&contingency, figure(added, units, Safe::Up)) } }
                if let Some(end) = end {
                    { for end.gross_lines.iter().map(line) }
                }
            </tbody>
            if let Some(end) = end {
                <tfoot>{ plain("Gross load", figure(end.gross, units, Safe::Up)) }</tfoot>
            }
        </table>
    }
}
