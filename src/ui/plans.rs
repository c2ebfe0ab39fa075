//! Opening and saving: plan files, the scenario, an empty plan, the next job, and the plans on this device.

use super::browser;
use super::file;
use super::keep;
use super::keeper::{self, Place};
use super::notices::{Tell, Teller};
use super::plan_list::PlanList;
use super::record::Record;
use super::route::Route;
use super::shelf::{self, Kept};
use super::store::{Action, Dispatch, Shared};
use super::versions::Versions;
use crate::plan::{LEFT_BLANK, Plan, example, next_job, sample};
use std::rc::Rc;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the view works with.
#[derive(Clone, Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// Opens plans.
    pub dispatch: Dispatch,
    /// Tells what went wrong.
    pub teller: Teller,
    /// Where the plan is kept.
    pub place: Option<Shared<Place>>,
}

/// What stands on the shelf, or why it cannot be read; none while it is asked.
pub type OnShelf = Option<Rc<Result<Vec<Kept>, String>>>;

/// Shows the ways in and out, and the plans that are kept.
#[component]
pub fn Plans(props: &Props) -> Html {
    let (on_shelf, promised) = use_shelf();
    let last = kept(&on_shelf)
        .iter()
        .find_map(|kept| Some((kept.id.clone(), kept.record.as_ref().ok()?.label())));
    let open = {
        let (dispatch, teller) = (props.dispatch.clone(), props.teller.clone());
        move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                file::open(file, dispatch.clone(), teller.clone());
            }
            // so that the same file can be chosen again
            input.set_value("");
        }
    };
    let (place, record) = match &props.place {
        Some(place) => (place.clone(), record_of(&on_shelf, &place.id())),
        None => (Place::fresh(""), None),
    };
    html! {
        <article class="plans">
            <section class="text">
                <h2>{ "Save" }</h2>
                <p>{ "Every edit is kept on this device at once. A file is what you send, print from elsewhere and keep for ten years." }</p>
                { file::save_button(&props.plan, &props.teller) }
                <h2>{ "Open" }</h2>
                <p>{ "The plan on the page stays in the list below once it was edited. A plan file may also be dropped anywhere on the page." }</p>
                <label class="file"><span>{ "Open a plan file" }</span><input type="file" accept=".json,application/json" onchange={open} /></label>
                if let Some((id, label)) = last { { next_job_button(props, id, label) } }
                { open_button(props, "Start an empty plan", || (Plan::default(), Some("started empty".into()))) }
                { open_button(props, "Open the invented sample", || (sample::plan(), None)) }
                { open_button(props, "Open the invented example: four legs, one long", || (example::four_legs(), None)) }
            </section>
            <PlanList on_shelf={on_shelf.clone()} here={place.id()} turn={place.turn()} promised={*promised} dispatch={props.dispatch.clone()} teller={props.teller.clone()} />
            if let Some(record) = record {
                <Versions up_to_date={record.turn == place.turn() && !keeper::waits()} key={place.id()} id={place.id()} {record} plan={props.plan.clone()} dispatch={props.dispatch.clone()} teller={props.teller.clone()} />
            }
        </article>
    }
}

/// What stands on the shelf, asked anew at each change, and whether the browser promised not to clear it.
#[hook]
fn use_shelf() -> (OnShelf, Rc<Option<bool>>) {
    let seen = use_state(|| (None, Rc::new(None)));
    {
        let seen = seen.setter();
        use_effect_with((), move |()| {
            let ask = Callback::from(move |()| {
                let seen = seen.clone();
                yew::platform::spawn_local(async move {
                    let list = shelf::list().await;
                    seen.set((Some(Rc::new(list)), Rc::new(browser::is_persisted().await)));
                });
            });
            keeper::watch(Some(ask.clone()));
            ask.emit(());
            || keeper::watch(None)
        });
    }
    (*seen).clone()
}

/// The plans of the shelf, as far as it answered.
pub fn kept(on_shelf: &OnShelf) -> &[Kept] {
    match on_shelf.as_deref() {
        Some(Ok(list)) => list,
        _ => &[],
    }
}

fn record_of(on_shelf: &OnShelf, id: &str) -> Option<Shared<Record>> {
    let kept = kept(on_shelf).iter().find(|kept| kept.id == id)?;
    Some(Shared(Rc::new(kept.record.clone().ok()?)))
}

/// Another plan in place of this one; kept at once where the name of its first version is given.
fn open_button(props: &Props, words: &'static str, what: fn() -> (Plan, Option<String>)) -> Html {
    let dispatch = props.dispatch.clone();
    let go = move |_| {
        let (plan, edit) = what();
        dispatch.dispatch(Action::Open(Box::new(plan), Place::fresh(""), edit));
        browser::go_to(&Route::Day.address());
    };
    html! { <button type="button" onclick={go}>{ words }</button> }
}

/// The next job, from the plan that was edited last.
fn next_job_button(props: &Props, id: String, label: String) -> Html {
    let (dispatch, teller) = (props.dispatch.clone(), props.teller.clone());
    let words = format!("Start from the last job: {label}");
    let go = move |_| {
        let (dispatch, teller, id, label) = (dispatch.clone(), teller.clone(), id.clone(), label.clone());
        yew::platform::spawn_local(async move {
            match from_shelf(&id).await {
                Ok((last, _)) => {
                    let next = next_job(&last);
                    let marked = if next.project.invented {
                        ". It is still marked as invented, as its gear and charts are"
                    } else {
                        ""
                    };
                    let told = format!(
                        "Started from {label}. Taken over: {} kinds of gear, {} cranes with their charts, the limits, the units, who prepared it. {LEFT_BLANK}{marked}",
                        next.gear.len(),
                        next.cranes.len()
                    );
                    dispatch.dispatch(Action::Open(
                        Box::new(next),
                        Place::fresh(""),
                        Some(format!("started from {label}")),
                    ));
                    teller.dispatch(Tell::Say(told));
                    browser::go_to(&Route::Day.address());
                }
                Err(error) => teller.dispatch(Tell::Say(format!("{label} was not opened: {error}"))),
            }
        });
    };
    html! { <button type="button" onclick={go}>{ words }</button> }
}

/// A plan of the shelf, as it stands there when all that was edited is kept.
pub async fn from_shelf(id: &str) -> Result<(Plan, Shared<Place>), String> {
    keeper::at_rest().await;
    let kept = shelf::read(id).await?;
    let kept = kept.ok_or("it is no longer on this device; another window may have deleted it")?;
    keep::open(kept).map(|(opened, place)| (opened.plan, place))
}
