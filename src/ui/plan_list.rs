//! The plans on this device: open, duplicate, save as a file, delete.

use super::browser;
use super::file;
use super::keeper;
use super::notices::{Tell, Teller};
use super::plans::{OnShelf, from_shelf, kept};
use super::record::{Record, Title};
use super::route::Route;
use super::shelf::{self, Kept};
use super::store::{Action, Dispatch};
use yew::prelude::*;

/// Why a record of a plan is left alone.
const DAMAGED: &str = "It stays as it is; save it as a file, and mend it or open it with the build that wrote it";

/// What the list works with.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// What stands on the shelf.
    pub on_shelf: OnShelf,
    /// The plan on the page.
    pub here: String,
    /// The turn of it that the page has seen.
    pub turn: u32,
    /// The browser promised not to clear the plans; none: it does not say.
    pub promised: Option<bool>,
    /// Opens plans.
    pub dispatch: Dispatch,
    /// Tells what went wrong.
    pub teller: Teller,
}

/// What can be done with a plan of the list.
#[derive(Clone, Copy)]
enum Deed {
    Open,
    Duplicate,
    Save,
    Delete,
    PutBack,
}

/// Shows them.
#[component]
pub fn PlanList(props: &Props) -> Html {
    // the plan that somebody is asked about
    let asked = use_state(|| None::<String>);
    {
        let asked = asked.clone();
        use_effect_with((*asked).clone(), |asked| {
            if asked.is_some() {
                browser::focus_without_scrolling("keep-it");
            }
        });
    }
    let row = |kept: &Kept| {
        let label = label_of(kept);
        let doing = if asked.as_deref() == Some(&kept.id) {
            html! {
                <>
                    <p class="question">{ format!("Delete {label} with all its versions?") }</p>
                    { button(props, Deed::Delete, "Delete it", &kept.id, &label, &asked, false) }
                    { ask_button("Keep it", "keep-it", None, &label, &asked) }
                </>
            }
        } else {
            let here = kept.id == props.here;
            let newer = kept.record.as_ref().is_ok_and(|record| record.turn > props.turn);
            html! {
                <>
                    { button(props, Deed::Open, "Open", &kept.id, &label, &asked, here && !newer) }
                    { button(props, Deed::Duplicate, "Duplicate", &kept.id, &label, &asked, false) }
                    { button(props, Deed::Save, "Save as a file", &kept.id, &label, &asked, false) }
                    if !here { { ask_button("Delete", "", Some(kept.id.clone()), &label, &asked) } }
                </>
            }
        };
        html! {
            <li key={kept.id.clone()}>
                <div class="what"><b>{ &label }</b>{ about(kept, kept.id == props.here) }</div>
                <div class="do">{ doing }</div>
            </li>
        }
    };
    let deleted = keeper::deleted();
    let list = match props.on_shelf.as_deref() {
        None => html! { <p role="status">{ "Looking at what is kept" }</p> },
        Some(Err(reason)) => html! { <p>{ format!("The plans on this device cannot be read: {reason}") }</p> },
        Some(Ok(list)) if list.is_empty() && deleted.is_empty() => {
            html! { <p>{ "None yet. A plan stands here from its first edit on." }</p> }
        }
        Some(Ok(_)) => html! {
            <ul class="shelf">
                { for kept(&props.on_shelf).iter().map(row) }
                { for deleted.iter().map(|(id, label)| html! {
                    <li key={id.clone()} class="deleted">
                        <div class="what"><b>{ label }</b><span>{ "Deleted. Until the page is left this can be undone" }</span></div>
                        <div class="do">{ button(props, Deed::PutBack, "Undo deleting", id, label, &asked, false) }</div>
                    </li>
                }) }
            </ul>
        },
    };
    html! {
        <section aria-labelledby="shelf-title">
            <h2 id="shelf-title" tabindex="-1">{ "Plans on this device" }</h2>
            { list }
            { promise(props.promised) }
        </section>
    }
}

fn label_of(kept: &Kept) -> String {
    kept.record
        .as_ref()
        .map_or_else(|_| "Plan whose record cannot be read".into(), Record::label)
}

/// Place, day and last edit of a plan; of a damaged one, what is wrong.
fn about(kept: &Kept, here: bool) -> Html {
    let record = match &kept.record {
        Ok(record) => record,
        Err(error) => return html! { <span>{ format!("This build stops at: {error}. {DAMAGED}") }</span> },
    };
    let Title { place, set_day, .. } = &record.title;
    let site: Vec<&str> = [place.trim(), set_day.trim()]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    let edit = record.versions.last().map_or("", |version| &version.edit);
    html! {
        <>
            if here { <span class="here">{ "On the page" }</span> }
            if !site.is_empty() { <span>{ site.join(", ") }</span> }
            <span>{ format!("Last edit {}: {edit}", browser::local_time(record.edited_ms())) }</span>
        </>
    }
}

/// Whether the browser will clear the plans by itself.
fn promise(promised: Option<bool>) -> Html {
    let words = match promised {
        Some(true) => "This browser will not clear them by itself. Clearing the site's data, by hand, still does.",
        Some(false) => "This browser may clear them when the device runs short of room: keep a file of what matters.",
        None => "This browser does not say whether it may clear them: keep a file of what matters.",
    };
    html! { <p class="promise">{ words }</p> }
}

/// A button of the row; the plan's name is in it for those who hear the page.
fn button(
    props: &Props,
    deed: Deed,
    words: &'static str,
    id: &str,
    label: &str,
    asked: &UseStateHandle<Option<String>>,
    disabled: bool,
) -> Html {
    let (dispatch, teller, id, asked) = (
        props.dispatch.clone(),
        props.teller.clone(),
        id.to_owned(),
        asked.clone(),
    );
    let told = label.to_owned();
    let go = move |_| {
        let (dispatch, teller, id, label) = (dispatch.clone(), teller.clone(), id.clone(), told.clone());
        asked.set(None);
        yew::platform::spawn_local(async move {
            if let Err(error) = perform(deed, &id, &label, &dispatch, &teller).await {
                let what = match deed {
                    Deed::Open => "opened",
                    Deed::Duplicate => "duplicated",
                    Deed::Save => "saved as a file",
                    Deed::Delete => "deleted",
                    Deed::PutBack => "put back",
                };
                let stays = if matches!(deed, Deed::Open) {
                    format!(". {DAMAGED}")
                } else {
                    String::new()
                };
                teller.dispatch(Tell::Say(format!("{label} was not {what}: {error}{stays}")));
            }
        });
    };
    html! { <button type="button" {disabled} onclick={go}>{ words }<span class="unseen">{ " " }{ label }</span></button> }
}

fn ask_button(
    words: &'static str,
    id: &'static str,
    ask: Option<String>,
    label: &str,
    asked: &UseStateHandle<Option<String>>,
) -> Html {
    let asked = asked.clone();
    let go = move |_| asked.set(ask.clone());
    let id = (!id.is_empty()).then_some(id);
    html! { <button type="button" {id} onclick={go}>{ words }<span class="unseen">{ " " }{ label }</span></button> }
}

async fn perform(deed: Deed, id: &str, label: &str, dispatch: &Dispatch, teller: &Teller) -> Result<(), String> {
    match deed {
        Deed::Open => {
            let (plan, place) = from_shelf(id).await?;
            dispatch.dispatch(Action::Open(Box::new(plan), place, None));
            browser::go_to(&Route::Day.address());
        }
        Deed::Duplicate => {
            let (kept, text) = whole(id).await?;
            let title = kept.record.map_or_else(|_| Title::default(), |record| record.title);
            keeper::add(title, "copy", &format!("duplicate of {label}"), &text).await?;
        }
        Deed::Save => {
            let (_, text) = whole(id).await?;
            file::save_text(
                &format!("{}.json", file::words(label).to_ascii_lowercase()),
                &text,
                teller,
            );
        }
        Deed::Delete => {
            keeper::delete(id, label.to_owned()).await?;
            browser::focus_without_scrolling("shelf-title");
        }
        Deed::PutBack => {
            keeper::put_back(id).await?;
            browser::focus_without_scrolling("shelf-title");
        }
    }
    Ok(())
}

/// A plan's record and text, whatever they are.
async fn whole(id: &str) -> Result<(Kept, String), String> {
    keeper::at_rest().await;
    shelf::read(id)
        .await?
        .ok_or_else(|| "it is no longer on this device".into())
}
