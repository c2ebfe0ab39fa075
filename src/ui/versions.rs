//! The last versions of the plan on the page: to look at one, to bring it back.

use super::browser;
use super::day::tally;
use super::keeper;
use super::notices::{Tell, Teller};
use super::record::{Record, Version};
use super::shelf;
use super::store::{Action, Dispatch, Shared};
use crate::evaluate::evaluate;
use crate::plan::{Plan, differences, format};
use yew::prelude::*;

/// More lines than that help nobody.
const LINES: usize = 24;

/// What the list works with.
#[derive(Clone, Properties, PartialEq)]
pub struct Props {
    /// The plan's key on the shelf.
    pub id: String,
    /// Its record.
    pub record: Shared<Record>,
    /// The plan on the page.
    pub plan: Shared<Plan>,
    /// The newest version is the plan on the page: nothing waits to be kept, no other window has written.
    pub up_to_date: bool,
    /// Takes the edit that brings a version back.
    pub dispatch: Dispatch,
    /// Tells what went wrong.
    pub teller: Teller,
}

/// A version that somebody looks at.
#[derive(Clone, PartialEq)]
struct Look {
    turn: u32,
    /// The day in one sentence, as it was then.
    headline: String,
    tally: String,
    /// What has changed since.
    since: Vec<String>,
}

/// Shows them, the newest on top.
#[component]
pub fn Versions(props: &Props) -> Html {
    let look = use_state(|| None::<Look>);
    let row = |(nth, version): (usize, &Version)| {
        let open = look.as_ref().filter(|look| look.turn == version.turn);
        html! {
            <li key={version.turn}>
                <div class="what"><b>{ &version.edit }</b><span>{ browser::local_time(version.at_ms) }</span></div>
                <div class="do">
                    if nth == 0 && props.up_to_date {
                        <span class="here">{ "On the page" }</span>
                    } else {
                        { look_button(props, version, &look, open.is_some()) }
                        { bring_back_button(props, version) }
                    }
                </div>
                if let Some(look) = open { { shown(look) } }
            </li>
        }
    };
    html! {
        <section aria-labelledby="versions-title">
            <h2 id="versions-title">{ "Versions of this plan" }</h2>
            <p class="text">{ "The last 20, each as it stood after an edit. Bringing one back is an edit like any other: it can be undone." }</p>
            <ol class="shelf">{ for props.record.versions.iter().rev().enumerate().map(row) }</ol>
        </section>
    }
}

fn shown(look: &Look) -> Html {
    let more = look.since.len().saturating_sub(LINES);
    html! {
        <div class="look" role="status">
            <p>{ &look.headline }</p>
            <p>{ &look.tally }</p>
            if look.since.is_empty() {
                <p>{ "The plan on the page is the same" }</p>
            } else {
                <p>{ "From that version to the plan on the page:" }</p>
                <ul>{ for look.since.iter().take(LINES).map(|line| html! { <li>{ line }</li> }) }</ul>
            }
            if more > 0 { <p>{ format!("and {more} more") }</p> }
        </div>
    }
}

fn look_button(props: &Props, version: &Version, look: &UseStateHandle<Option<Look>>, open: bool) -> Html {
    let (props, look, turn, at) = (
        props.clone(),
        look.clone(),
        version.turn,
        browser::local_time(version.at_ms),
    );
    let go = move |_| {
        if open {
            look.set(None);
            return;
        }
        let (props, look) = (props.clone(), look.clone());
        yew::platform::spawn_local(async move {
            if let Some(version) = version_or_tell(&props, turn).await {
                let assessment = evaluate(&version);
                look.set(Some(Look {
                    turn,
                    headline: assessment.headline.text.clone(),
                    tally: tally(&assessment),
                    since: differences(&version, &props.plan),
                }));
            }
        });
    };
    html! {
        <button type="button" aria-expanded={open.to_string()} onclick={go}>{ "Look at it" }<span class="unseen">{ format!(": {}, {at}", version.edit) }</span></button>
    }
}

fn bring_back_button(props: &Props, version: &Version) -> Html {
    let (props, turn, at) = (props.clone(), version.turn, browser::local_time(version.at_ms));
    let words = format!(": {}, {at}", version.edit);
    let go = move |_| {
        let (props, at) = (props.clone(), at.clone());
        yew::platform::spawn_local(async move {
            if let Some(version) = version_or_tell(&props, turn).await {
                props
                    .dispatch
                    .dispatch(Action::edit(format!("bring back the version of {at}"), move |plan| {
                        *plan = version
                    }));
            }
        });
    };
    html! { <button type="button" onclick={go}>{ "Bring it back" }<span class="unseen">{ words }</span></button> }
}

/// A version from the shelf; what stands in the way is told.
async fn version_or_tell(props: &Props, turn: u32) -> Option<Plan> {
    keeper::at_rest().await;
    let read = match shelf::text_at(&props.id, turn).await {
        Ok(Some(text)) => format::open(&text).map_err(|error| error.to_string()),
        Ok(None) => Err("it is no longer on this device".into()),
        Err(reason) => Err(reason),
    };
    match read {
        Ok(opened) => Some(opened.plan),
        Err(error) => {
            props.teller.dispatch(Tell::Say(format!(
                "That version was not opened: {error}. The plan on the page is unchanged"
            )));
            None
        }
    }
}
