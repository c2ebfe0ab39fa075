//! The first module of the page: the day and the cautions, and keeping what is edited. The other views come with [`super::desk`].

use super::about::About;
use super::app::{Page, Seen, Views, unknown};
use super::day::Day;
use super::handing;
use super::keep::{self, Start};
use super::keeper;
use super::notices::Tell;
use super::route::Route;
use core::cell::RefCell;
use yew::prelude::*;

#[component]
fn First() -> Html {
    html! { <Page views={Views(view)} start={opened as fn() -> Start} /> }
}

/// The view of an address, where this module holds it.
pub fn view(route: &Route, seen: Seen) -> Option<Html> {
    let Seen {
        plan,
        assessment,
        dispatch,
        ..
    } = seen;
    Some(match route {
        Route::Day => html! { <Day {plan} {assessment} {dispatch} /> },
        Route::About => html! { <About /> },
        Route::Unknown(path) => unknown(path),
        Route::Lift(_) | Route::Rig(_) | Route::Ground(_) | Route::Sheets(_) | Route::Edit(_) | Route::Plans => {
            return None;
        }
    })
}

thread_local! {
    static RUNNING: RefCell<Option<AppHandle<First>>> = const { RefCell::new(None) };
    /// What the shelf gave, until the page has taken it.
    static OPENED: RefCell<Option<Start>> = const { RefCell::new(None) };
}

fn opened() -> Start {
    OPENED
        .take()
        .expect("the page is rendered once, with what the shelf gave")
}

/// Starts the page, once the shelf has answered.
pub fn start() {
    super::cover_panics();
    yew::platform::spawn_local(async {
        OPENED.replace(Some(keep::start().await));
        RUNNING.replace(Some(yew::Renderer::<First>::new().render()));
    });
}

/// Whether this module holds the view of an address (from `#` on).
pub fn shows(hash: &str) -> bool {
    matches!(Route::read(hash), Route::Day | Route::About | Route::Unknown(_))
}

/// Whether the page was shown and all that was edited is kept, so that it can be handed over.
pub fn can_hand_over() -> bool {
    handing::is_shown() && keeper::is_at_rest()
}

/// Ends the page and gives what the next module goes on with.
pub fn hand_over() -> String {
    let handed = handing::text();
    if let Some(page) = RUNNING.take() {
        page.destroy();
    }
    handed
}

/// Tells that the second module could not be loaded; quietly where nobody has asked for a view.
pub fn rest_is_missing(reason: &str, quietly: bool) {
    let (what, again) = if quietly {
        (
            "Gear, box, ground, wind and wires were not checked",
            "Load the page again",
        )
    } else {
        ("This view was not opened", "Open it again")
    };
    if let Some(teller) = handing::teller() {
        teller.dispatch(Tell::OfferFile(format!(
            "{what}: that part of the program could not be loaded ({reason}). Nothing in the plan has changed. {again} when there is a network; after one whole load the program needs none. The plan can be saved as a file from here"
        )));
    }
}
