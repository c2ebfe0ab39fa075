//! A quick size for a quote: five numbers, the capacity that is needed, what on the site would change it. Never a lift plan: it is not printed.

use super::super::route::Route;
use super::super::store::Shared;
use super::data::{Data, asked, sentences};
use crate::check::Amount;
use crate::evaluate::{QuickResult, SITE_FACTS, quick};
use crate::plan::Plan;
use crate::quantity::{Safe, UnitSystem};
use crate::sheet::money_note;
use crate::ui::fields::Typing;
use crate::ui::tables::{Form, part, part_of_plan};
use yew::prelude::*;

/// The plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
}

/// Shows it.
#[component]
pub fn QuickView(props: &Props) -> Html {
    let plan = &props.plan;
    let place = part!(part_of_plan!(hire), quick).named("quick size");
    let inside = match quick(plan) {
        Err(missing) => {
            html! { <p role="status" class="hint">{ format!("Still to be entered: {}", missing.join(", ")) }</p> }
        }
        Ok(result) => answer(plan, &result),
    };
    html! {
        <article class="estimate quick">
            <div class="view-head">
                <h2>{ "Quick size for a quote" }</h2>
                <nav class="ways" aria-label="Near this view">
                    <a href={Route::Cost.address()}>{ "Cost" }</a>
                    <a href="#/edit/rates">{ "Rates" }</a>
                    <a href="#/edit/charts">{ "Charts" }</a>
                </nav>
                <p class="why">{ "For a quote only, never a lift plan: it is not printed. A site visit and a plan come before any lift." }</p>
            </div>
            <ContextProvider<Typing> context={Typing::of(&plan.project)}>
                <div class="editor"><Form {place} /></div>
            </ContextProvider<Typing>>
            { inside }
        </article>
    }
}

fn answer(plan: &Plan, result: &QuickResult) -> Html {
    let units: UnitSystem = plan.project.units;
    let size = &result.size;
    let mass = |mass| Amount::Mass(mass).show(units, Safe::Up);
    let length = |length| Amount::Length(length).show(units, Safe::Up);
    let figures = [
        ("A box, with 10 % for what estimates leave out", mass(size.house_box)),
        ("On the hook, with 2 t for bars, slings and block", mass(size.gross)),
        ("Farthest box from the crane", length(size.set_radius)),
        ("Carrier in the near lane from the crane", length(size.pick_radius)),
    ];
    let facts: Vec<String> = SITE_FACTS.iter().map(|fact| (*fact).to_owned()).collect();
    html! {
        <>
            <p class="sentence" role="status"><b>{ format!("It {}.", result.words) }</b>{ " Needs a site visit." }</p>
            <dl class="rows">{ for figures.into_iter().map(|(label, value)| html! { <div><dt>{ label }</dt><dd>{ value }</dd></div> }) }</dl>
            { cranes(plan, result) }
            { sentences("What on the site would change it", &facts) }
        </>
    }
}

fn cranes(plan: &Plan, result: &QuickResult) -> Html {
    if plan.cranes.iter().all(|crane| crane.charts.is_empty()) {
        return html! { <p>{ "No rating chart in this plan, so no class is named: ask the yard for a chart that says this much there, or enter one." }</p> };
    }
    let Some(first) = result.cranes.first() else {
        return html! { <p><b>{ "None of your charts says that much there." }</b></p> };
    };
    let units = plan.project.units;
    let row = |one: &crate::evaluate::QuickCrane| {
        let mut row = vec![
            one.crane.to_string(),
            one.chart.clone(),
            Amount::Mass(one.rating).show(units, Safe::Down),
        ];
        match &one.price {
            Ok(band) => row.extend(band.iter().map(ToString::to_string)),
            Err(_) => row.extend(["—", "no price", "—"].map(str::to_owned)),
        }
        row
    };
    let rows: Vec<Vec<String>> = result.cranes.iter().map(row).collect();
    let questions = first.price.clone().err().unwrap_or_default();
    let head = ["Crane", "Chart", "Says there", "Low", "Likely", "High"]
        .map(str::to_owned)
        .to_vec();
    html! {
        <>
            <h3>{ "Your charts that say as much, the smallest first" }</h3>
            <p class="hint">{ "Height, reach over what is set, ground and lines are not looked at. " }{ money_note(plan) }</p>
            <Data caption="Quick size" {head} {rows} figures_from={2} />
            { asked("For a price", &questions, "#/edit/rates", "Enter rates") }
        </>
    }
}
