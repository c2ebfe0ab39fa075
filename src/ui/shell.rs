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

/// The way past the title block. The address belongs to the views, so it moves the focus only.
pub fn skip_link() -> Html {
    let skip = |event: MouseEvent| {
        event.prevent_default();
        browser::focus_without_scrolling("view");
    };
    html! { <a class="skip" href="#view" onclick={skip}>{ "Skip to the view" }</a> }
}

/// Said where an address names no view.
pub fn unknown(path: &str) -> Html {
    html! {
        <article class="text">
            <h2>{ "No such view" }</h2>
            <p>{ format!("The address names \"{path}\", which is no view of this program.") }</p>
            <p><a href={Route::Day.address()}>{ "To the day" }</a></p>
        </article>
    }
}

/// What the frame shows.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// The view inside the frame.
    pub route: Route,
    /// The tools beside the ways to the views.
    #[prop_or_default]
    pub children: Html,
}

/// The title block, as on a drawing sheet.
#[component]
pub fn TitleBlock(props: &Props) -> Html {
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
                <div class="tools">{ props.children.clone() }</div>
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
            matches!(
                now,
                Route::Day | Route::Lift(_) | Route::Rig(_) | Route::Structure(_) | Route::Ground(_)
            ),
        ),
        ("Edit", Route::Edit("boxes".into()), matches!(now, Route::Edit(_))),
        ("Clock", Route::Clock, matches!(now, Route::Clock)),
        ("Cost", Route::Cost, matches!(now, Route::Cost | Route::Quick)),
        ("Sheets", Route::Sheets(None), matches!(now, Route::Sheets(_))),
        ("Where", Route::Places, matches!(now, Route::Places)),
        ("Plans", Route::Plans, matches!(now, Route::Plans)),
        ("Cautions", Route::About, matches!(now, Route::About)),
    ];
    let way = |(words, route, here): (&'static str, Route, bool)| {
        html! { <li><a href={route.address()} aria-current={here.then_some("page")}>{ words }</a></li> }
    };
    html! { <nav aria-label="Views"><ul>{ for ways.map(way) }</ul></nav> }
}

/// Units of results, undo and redo, with the names of what can be undone and redone.
pub fn tools(plan: &Plan, dispatch: &Dispatch, (undo, redo): (Option<String>, Option<String>)) -> Html {
    html! {
        <>
            { units(plan, dispatch) }
            { step(dispatch, "Undo", undo, || Action::Undo) }
            { step(dispatch, "Redo", redo, || Action::Redo) }
        </>
    }
}

fn units(plan: &Plan, dispatch: &Dispatch) -> Html {
    let button = |units: UnitSystem, words: &'static str, full: &'static str| {
        let pressed = plan.project.units == units;
        let dispatch = dispatch.clone();
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

fn step(dispatch: &Dispatch, word: &'static str, name: Option<String>, action: fn() -> Action) -> Html {
    let dispatch = dispatch.clone();
    html! {
        <button type="button" class="step" disabled={name.is_none()} onclick={move |_| dispatch.dispatch(action())}>
            { word }
            if let Some(name) = name { <span class="step-name">{ name }</span> }
        </button>
    }
}

/// Ctrl+Z and Ctrl+Y (Command on a Mac), except while somebody types: the field has its own undo.
#[hook]
pub fn use_undo_keys(dispatch: &Dispatch) {
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
