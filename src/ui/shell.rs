//! The frame of every screen: title block, cautions in sight, ways to the other views.

use super::browser;
use super::cautions;
use super::route::Route;
use super::show::NONE;
use super::store::{Action, Dispatch, Shared};
use crate::plan::Plan;
use crate::quantity::UnitSystem;
use wasm_bindgen::JsCast as _;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// What the frame shows.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// The view inside the frame.
    pub route: Route,
    /// Takes the edits.
    pub dispatch: Dispatch,
    /// Names of what can be undone and redone.
    pub steps: (Option<String>, Option<String>),
}

/// The title block, as on a drawing sheet.
#[component]
pub fn TitleBlock(props: &Props) -> Html {
    use_undo_keys(&props.dispatch);
    let project = &props.plan.project;
    let name = if project.name.trim().is_empty() {
        "Project without a name"
    } else {
        &project.name
    };
    html! {
        <header class="title-block">
            if project.invented {
                <p class="invented">{ cautions::INVENTED }</p>
            }
            <div class="cells">
                <div class="cell project"><span class="label">{ "Project" }</span><h1>{ name }</h1></div>
                { cell("place", "Place", &project.place) }
                { cell("", "Set day", &project.set_day) }
                { cell("", "Revision", &revision(&project.revision, &project.revised)) }
                { cell("", "Status", &props.plan.status()) }
                <div class="cell mark-cell"><span class="label">{ "Made with" }</span><a href="#/about">{ "Setday" }</a></div>
            </div>
            <p class="caution-line">{ cautions::LINE }</p>
            <div class="bar">
                { ways(&props.route) }
                <div class="tools">
                    { units(props) }
                    { step(props, "Undo", props.steps.0.as_deref(), || Action::Undo) }
                    { step(props, "Redo", props.steps.1.as_deref(), || Action::Redo) }
                </div>
            </div>
        </header>
    }
}

fn cell(class: &'static str, label: &'static str, text: &str) -> Html {
    let text = if text.trim().is_empty() { NONE } else { text };
    html! { <div class={classes!("cell", class)}><span class="label">{ label }</span><span>{ text }</span></div> }
}

fn revision(letter: &str, date: &str) -> String {
    match (letter.trim(), date.trim()) {
        (letter, "") => letter.to_owned(),
        (letter, date) => format!("{letter}, {date}"),
    }
}

/// The ways to the other views.
fn ways(now: &Route) -> Html {
    let ways = [
        (
            "Day",
            Route::Day,
            matches!(now, Route::Day | Route::Lift(_) | Route::Rig(_) | Route::Ground(_)),
        ),
        ("Edit", Route::Edit("boxes".into()), matches!(now, Route::Edit(_))),
        ("Sheets", Route::Sheets(None), matches!(now, Route::Sheets(_))),
        ("Plans", Route::Plans, matches!(now, Route::Plans)),
        ("Cautions", Route::About, matches!(now, Route::About)),
    ];
    let way = |(words, route, here): (&'static str, Route, bool)| {
        html! { <li><a href={route.address()} aria-current={here.then_some("page")}>{ words }</a></li> }
    };
    html! { <nav aria-label="Views"><ul>{ for ways.map(way) }</ul></nav> }
}

fn units(props: &Props) -> Html {
    let button = |units: UnitSystem, words: &'static str, full: &'static str| {
        let pressed = props.plan.project.units == units;
        let dispatch = props.dispatch.clone();
        let choose = move |_| dispatch.dispatch(Action::edit("units", move |plan| plan.project.units = units));
        html! { <button type="button" aria-pressed={pressed.to_string()} aria-label={full} onclick={choose}>{ words }</button> }
    };
    html! {
        <div class="switch" role="group" aria-label="Units of results">
            { button(UnitSystem::Us, "ft lb", "Feet and pounds") }
            { button(UnitSystem::Metric, "m t", "Metres and tonnes") }
        </div>
    }
}

fn step(props: &Props, word: &'static str, name: Option<&str>, action: fn() -> Action) -> Html {
    let dispatch = props.dispatch.clone();
    html! {
        <button type="button" class="step" disabled={name.is_none()} onclick={move |_| dispatch.dispatch(action())}>
            { word }
            if let Some(name) = name { <span class="step-name">{ name }</span> }
        </button>
    }
}

/// Ctrl+Z and Ctrl+Y (Command on a Mac), except while somebody types: the field has its own undo.
#[hook]
fn use_undo_keys(dispatch: &Dispatch) {
    let dispatch = dispatch.clone();
    use_effect_with((), move |()| {
        browser::on_window("keydown", move |event| {
            let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
                return;
            };
            if !(event.ctrl_key() || event.meta_key()) || browser::is_typing() {
                return;
            }
            match (event.key().as_str(), event.shift_key()) {
                ("z", false) => dispatch.dispatch(Action::Undo),
                ("y", false) | ("Z", true) => dispatch.dispatch(Action::Redo),
                _ => return,
            }
            event.prevent_default();
        })
    });
}
