//! Opening and saving: plan files, the scenario, an empty plan.

use super::browser;
use super::keep;
use super::notices::{Tell, Teller};
use super::route::Route;
use super::store::{Action, Dispatch, Shared};
use crate::plan::{Plan, format, sample};
use web_sys::{File, HtmlInputElement};
use yew::prelude::*;

/// Reads a plan file and opens it; what stands in the way is told, and the open plan stays.
pub fn open_file(file: File, dispatch: Dispatch, teller: Teller) {
    yew::platform::spawn_local(async move {
        let name = file.name();
        let opened = match browser::text_of(file).await {
            Ok(text) => format::open(&text).map_err(|error| error.to_string()),
            Err(reason) => Err(format!("the file could not be read ({reason}): choose it again")),
        };
        match opened {
            Ok(opened) => {
                for note in opened.notes {
                    teller.dispatch(Tell::Say(format!("{name}: {note}")));
                }
                dispatch.dispatch(Action::Open(Box::new(opened.plan)));
                browser::go_to(&Route::Day.address());
            }
            Err(error) => teller.dispatch(Tell::Say(format!(
                "{name} was not opened: {error}. The plan on the page is unchanged"
            ))),
        }
    });
}

/// What the view works with.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// Opens plans.
    pub dispatch: Dispatch,
    /// Tells what went wrong.
    pub teller: Teller,
}

/// Shows the ways in and out.
#[component]
pub fn Plans(props: &Props) -> Html {
    let aside = use_memo((), |()| keep::put_aside());
    let save = {
        let (plan, teller) = (props.plan.clone(), props.teller.clone());
        move |_| save_as(&keep::file_name(&plan), &format::save(&plan), &teller)
    };
    let open = {
        let (dispatch, teller) = (props.dispatch.clone(), props.teller.clone());
        move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                open_file(file, dispatch.clone(), teller.clone());
            }
            // so that the same file can be chosen again
            input.set_value("");
        }
    };
    html! {
        <article class="text plans">
            <h2>{ "Save" }</h2>
            <p>{ "The plan is kept on this device as you work. A file is what you send, print from elsewhere and keep for ten years." }</p>
            <button type="button" class="main" onclick={save}>{ "Save " }{ keep::file_name(&props.plan) }</button>
            <h2>{ "Open" }</h2>
            <p>{ "Another plan takes the place of the one on the page: save that one first. A plan file may also be dropped anywhere on the page." }</p>
            <label class="file"><span>{ "Open a plan file" }</span><input type="file" accept=".json,application/json" onchange={open} /></label>
            { replace(props, "Open the invented sample", || Action::Open(Box::new(sample::plan()))) }
            { replace(props, "Start an empty plan", || Action::Open(Box::default())) }
            if let Some(text) = (*aside).clone() { { put_aside(props, text) } }
        </article>
    }
}

fn save_as(name: &str, text: &str, teller: &Teller) {
    if let Err(reason) = browser::download(name, text) {
        teller.dispatch(Tell::Say(format!(
            "{name} was not saved: the browser refuses ({reason})"
        )));
    }
}

fn replace(props: &Props, words: &'static str, action: fn() -> Action) -> Html {
    let dispatch = props.dispatch.clone();
    let go = move |_| {
        dispatch.dispatch(action());
        browser::go_to(&Route::Day.address());
    };
    html! { <button type="button" onclick={go}>{ words }</button> }
}

fn put_aside(props: &Props, text: String) -> Html {
    let teller = props.teller.clone();
    let save = move |_| save_as("plan-that-could-not-be-read.json", &text, &teller);
    html! {
        <>
            <h2>{ "Put aside" }</h2>
            <p>{ "A plan that was kept on this device could not be read by this build. Save it, and mend it or open it with the build that wrote it." }</p>
            <button type="button" onclick={save}>{ "Save the plan that was put aside" }</button>
        </>
    }
}
