//! Cranes and where one of them stands.

use super::{chooser, places, use_plan};
use crate::plan::{Crane, crane_file};
use crate::ui::browser;
use crate::ui::fields::Source;
use crate::ui::file;
use crate::ui::store::Action;
use crate::ui::tables::{Form, Table, part, part_of_plan, whole_plan};
use crate::ui::{Dispatch, tables::Place};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The cranes.
#[component]
pub(super) fn Cranes() -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let chosen = use_state_eq(|| {
        plan.cranes
            .iter()
            .position(|crane| crane.id == plan.set_up.crane)
            .unwrap_or(0)
    });
    let told = use_state_eq(String::new);
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let one = plan.cranes.get(*chosen).map(|crane| {
        let place = places::crane(&plan, *chosen);
        html! {
            <>
                <h3>{ format!("Crane {}", crane.id) }</h3>
                { save_button(crane, &told) }
                <div class="form-row"><span>{ "Where its figures come from" }</span>{ source(&place, crane, dispatch.clone()) }</div>
                <Form {place} />
            </>
        }
    });
    html! {
        <>
            <h2>{ "Which crane stands where" }</h2>
            <Form place={part!(whole_plan(), set_up).named("set-up")} />
            <h2>{ "Cranes" }</h2>
            { open_button(&dispatch, &told) }
            if !told.is_empty() { <p class="why" role="status">{ &*told }</p> }
            <Table place={part_of_plan!(cranes)} caption="Cranes" only={&["Crane", "Class and make-up"][..]} onrow={onchoose.clone()} />
            { chooser(&plan.cranes, *chosen, |crane| crane.id.to_string(), &onchoose) }
            { one.unwrap_or_default() }
        </>
    }
}

fn source(place: &Place<Crane>, crane: &Crane, dispatch: Dispatch) -> Html {
    let place = place.clone();
    let id = format!("{}-said", place.path());
    let oncommit = Callback::from(move |said| place.edit(&dispatch, "source", move |crane| crane.said = said));
    html! { <Source {id} said={crane.said.clone()} {oncommit} /> }
}

/// The crane with its charts as a file of its own.
fn save_button(crane: &Crane, told: &UseStateHandle<String>) -> Html {
    let name = format!("{}.crane.json", file::words(crane.id.as_str()));
    let save = {
        let (crane, name, told) = (crane.clone(), name.clone(), told.setter());
        move |_| {
            if let Err(reason) = browser::download(&name, &crane_file::save(&crane)) {
                told.set(format!("{name} was not saved: the browser refuses ({reason})"));
            }
        }
    };
    html! { <button type="button" onclick={save}>{ "Save as " }{ name }</button> }
}

/// Takes a crane in from its file: in place of the one with its short name, or beside the others.
fn open_button(dispatch: &Dispatch, told: &UseStateHandle<String>) -> Html {
    let (dispatch, told) = (dispatch.clone(), told.setter());
    let open = move |event: Event| {
        let input: HtmlInputElement = event.target_unchecked_into();
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            let (dispatch, told) = (dispatch.clone(), told.clone());
            yew::platform::spawn_local(async move {
                let name = file.name();
                let read = match browser::text_of(file).await {
                    Ok(text) => crane_file::open(&text),
                    Err(reason) => Err(format!("the file could not be read ({reason}): choose it again")),
                };
                match read {
                    Ok(crane) => {
                        told.set(format!(
                            "{name}: crane {} with {} charts is in the plan",
                            crane.id,
                            crane.charts.len()
                        ));
                        dispatch.dispatch(Action::edit(format!("crane {} from {name}", crane.id), move |plan| {
                            crane_file::put(&mut plan.cranes, crane);
                        }));
                    }
                    Err(error) => told.set(format!("{name} was not taken in: {error}. The cranes are unchanged")),
                }
            });
        }
        // so that the same file can be chosen again
        input.set_value("");
    };
    html! { <label class="file"><span>{ "Take in a crane from its file" }</span><input type="file" accept=".json,application/json" onchange={open} /></label> }
}
