//! The first module of the page: the day, opening and saving, the cautions. The other views come with [`super::desk`].

use super::about::About;
use super::app::{Page, Seen, Views, unknown};
use super::day::Day;
use super::handing;
use super::keep;
use super::notices::Tell;
use super::plans::Plans;
use super::route::Route;
use core::cell::RefCell;
use yew::prelude::*;

#[component]
fn First() -> Html {
    html! { <Page views={Views(view)} start={keep::start as fn() -> keep::Start} /> }
}

/// The view of an address, where this module holds it.
pub fn view(route: &Route, seen: Seen) -> Option<Html> {
    let Seen {
        plan,
        assessment,
        dispatch,
        teller,
    } = seen;
    Some(match route {
        Route::Day => html! { <Day {plan} {assessment} {dispatch} /> },
        Route::Plans => html! { <Plans {plan} {dispatch} {teller} /> },
        Route::About => html! { <About /> },
        Route::Unknown(path) => unknown(path),
        Route::Lift(_) | Route::Rig(_) | Route::Sheets(_) | Route::Edit(_) => return None,
    })
}

thread_local! {
    static RUNNING: RefCell<Option<AppHandle<First>>> = const { RefCell::new(None) };
}

/// Starts the page.
pub fn start() {
    super::cover_panics();
    RUNNING.replace(Some(yew::Renderer::<First>::new().render()));
}

/// Whether this module holds the view of an address (from `#` on).
pub fn shows(hash: &str) -> bool {
    let later = |route| {
        matches!(
            route,
            Route::Lift(_) | Route::Rig(_) | Route::Sheets(_) | Route::Edit(_)
        )
    };
    !later(Route::read(hash))
}

/// Ends the page and gives what the next module goes on with.
pub fn hand_over() -> String {
    let handed = handing::text();
    if let Some(page) = RUNNING.take() {
        page.destroy();
    }
    handed
}

/// Tells that the second module could not be loaded.
pub fn rest_is_missing(reason: &str) {
    if let Some(teller) = handing::teller() {
        teller.dispatch(Tell::Say(format!(
            "This view was not opened: its part of the program could not be loaded ({reason}). Nothing in the plan has changed. Open it again when there is a network; after one whole load the program needs none"
        )));
    }
}
