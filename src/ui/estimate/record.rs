//! What the day taught: minutes and weights as they were, offered for the next job.

use super::super::store::{Action, Dispatch, Shared};
use crate::evaluate::{Assessment, learned, step_words};
use crate::plan::{Plan, Step, StepTime};
use crate::quantity::{AreaDensity, Entry, Safe, Unit, UnitSystem, show};
use yew::prelude::*;

/// The plan and what follows from it.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the edits.
    pub dispatch: Dispatch,
}

/// The record of the day beside the plan.
#[component]
pub fn Record(props: &Props) -> Html {
    let learned = use_memo((props.plan.clone(), props.assessment.clone()), |(plan, assessment)| {
        learned(plan, assessment)
    });
    if props.plan.day.lifted.is_empty() {
        return html! { <p class="hint no-print"><a href="#/edit/clock">{ "After the day, enter radii, readings and minutes as lifted" }</a></p> };
    }
    let take = {
        let (dispatch, minutes) = (props.dispatch.clone(), learned.minutes.clone());
        move |_| {
            let minutes = minutes.clone();
            dispatch.dispatch(Action::edit("minutes as they were", move |plan| {
                for (step, minutes, lifts) in &minutes {
                    put_minutes(plan, *step, *minutes, *lifts);
                }
            }));
        }
    };
    html! {
        <section class="as-lifted">
            <h3>{ "As lifted" }</h3>
            <ul>
                { for learned.readings.iter().map(|words| html! { <li>{ words }</li> }) }
                { for learned.minutes.iter().map(|(step, [low, middle, high], lifts)| html! {
                    <li>{ format!("{}: {low} to {high} min, the middle one {middle}, of {lifts}", step_words(*step)) }</li>
                }) }
            </ul>
            if let Some(per_area) = learned.per_area {
                <button type="button" class="no-print" onclick={take_weight(props, per_area)}>
                    { format!("Take {} of floor as the weight for the next quick size", per_area_words(per_area, props.assessment.units)) }
                </button>
            }
            if !learned.minutes.is_empty() {
                <button type="button" class="no-print" onclick={take}>{ "Take these minutes as the plan's, for the next job" }</button>
            }
        </section>
    }
}

/// Rounded up: it stands for a weight.
fn per_area_words(per_area: AreaDensity, units: UnitSystem) -> String {
    let unit = match units {
        UnitSystem::Us => Unit::Psf,
        UnitSystem::Metric => Unit::KgPerM2,
    };
    show(per_area, unit, 1, Safe::Up)
}

fn take_weight(props: &Props, per_area: AreaDensity) -> Callback<MouseEvent> {
    let (dispatch, units) = (props.dispatch.clone(), props.assessment.units);
    Callback::from(move |_| {
        let words = per_area_words(per_area, units);
        dispatch.dispatch(Action::edit("weight per floor area", move |plan| {
            let (who, when) = (
                format!("as lifted, {}", plan.project.name),
                plan.project.set_day.clone(),
            );
            plan.hire.quick.per_area = Entry::typed(words, Unit::Psf).said_by(who, when, "");
        }));
    })
}

/// Puts minutes into the row of a step for any crane, with where they come from.
fn put_minutes(plan: &mut Plan, step: Step, minutes: [u32; 3], lifts: usize) {
    let project = plan.project.name.clone();
    let [low, likely, high] = minutes.map(|minutes| Entry::typed(format!("{minutes} min"), Unit::Minute));
    let likely = likely.said_by(
        format!("as lifted, {project}"),
        plan.project.set_day.clone(),
        format!("{lifts} lifts"),
    );
    let row = StepTime {
        step,
        low,
        likely,
        high,
        ..StepTime::default()
    };
    let rows = &mut plan.day.minutes;
    match rows.iter().position(|row| row.step == step && row.crane.is_empty()) {
        Some(at) => rows[at] = row,
        None => rows.push(row),
    }
}
