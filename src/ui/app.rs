//! The page: state at the root, contexts for those who read it, the view that the address names.

use super::about::FirstStart;
use super::browser;
use super::desk;
use super::file;
use super::keep::{self, Start};
use super::keeper::{self, Place};
use super::notices::{NoticeList, Notices, Teller};
use super::route::{use_route, use_title};
use super::shell::{self, TitleBlock, use_undo_keys};
use super::store::{Dispatch, Shared, State};
use crate::evaluate::Assessment;
use crate::plan::Plan;
use core::cell::RefCell;
use std::rc::Rc;
use yew::prelude::*;

/// What a view works with.
pub struct Seen {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the edits.
    pub dispatch: Dispatch,
    /// Tells what went wrong.
    pub teller: Teller,
    /// Where the plan is kept.
    pub place: Option<Shared<Place>>,
}

/// What the page opens with.
pub struct Opening {
    /// The plan.
    pub start: Start,
    /// The cautions were accepted for it in this visit.
    pub accepted: bool,
    /// Somebody has asked for the view: it is shown as after a step to it.
    pub steps: bool,
}

thread_local! {
    /// Until the page has taken it.
    static OPENING: RefCell<Option<Opening>> = const { RefCell::new(None) };
}

/// Says what the page is to open with.
pub fn open_with(opening: Opening) {
    OPENING.replace(Some(opening));
}

/// The whole page; where nothing was said it opens with the scenario.
#[component]
pub fn App() -> Html {
    let opening = use_memo((), |()| {
        OPENING.take().unwrap_or_else(|| Opening {
            start: Start::sample(Vec::new()),
            accepted: false,
            steps: false,
        })
    });
    let state = {
        let opening = Rc::clone(&opening);
        use_reducer_eq(move || State::kept(opening.start.history.clone(), opening.start.place.clone()))
    };
    let notices = {
        let opening = Rc::clone(&opening);
        use_reducer_eq(move || Notices(opening.start.notices.clone()))
    };
    let (dispatch, teller): (Dispatch, Teller) = (state.dispatcher(), notices.dispatcher());
    let plan = state.plan();
    keeper::use_keeping(state.place.clone(), &teller);
    use_undo_keys(&dispatch);
    use_drop_anywhere(&dispatch, &teller);
    {
        let steps = opening.steps;
        use_effect_with((), move |()| {
            if steps {
                browser::focus_without_scrolling("view");
                browser::scroll_to(0.0);
            }
        });
    }
    let route = use_route();
    let (accepted, accept) = use_accepted(&plan, state.opened, opening.accepted);
    use_title(&plan, &route);
    if !accepted {
        return html! { <FirstStart onaccept={accept} invented={plan.project.invented} /> };
    }
    let seen = Seen {
        plan: plan.clone(),
        assessment: state.assessment.clone(),
        dispatch: dispatch.clone(),
        teller: teller.clone(),
        place: state.place.clone(),
    };
    html! {
        <ContextProvider<Dispatch> context={dispatch.clone()}>
            <ContextProvider<Shared<Plan>> context={plan.clone()}>
            <ContextProvider<Shared<Assessment>> context={state.assessment.clone()}>
                { shell::skip_link() }
                <TitleBlock plan={plan.clone()} route={route.clone()}>{ shell::tools(&plan, &dispatch, state.steps()) }</TitleBlock>
                <NoticeList notices={(*notices).clone()} {teller} plan={plan.clone()} />
                <main id="view" tabindex="-1">
                    { desk::view(&route, seen) }
                </main>
            </ContextProvider<Shared<Assessment>>>
            </ContextProvider<Shared<Plan>>>
        </ContextProvider<Dispatch>>
    }
}

/// Whether the cautions were accepted for the plan that is open, and what accepts them; `before` says that the first plan's were in the module before.
#[hook]
fn use_accepted(plan: &Shared<Plan>, opened: u32, before: bool) -> (bool, Callback<()>) {
    // Which opened plan they were accepted for in this visit: the store may refuse to remember.
    let accepted_for = use_state(|| before.then_some(opened));
    let known = {
        let plan = plan.clone();
        use_memo(opened, move |_| keep::is_accepted(&plan))
    };
    let accepted = *known || *accepted_for == Some(opened);
    {
        let plan = plan.clone();
        let name = (plan.project.name.clone(), plan.project.place.clone());
        use_effect_with((accepted, name), move |(accepted, _)| {
            if *accepted {
                keep::accept(&plan);
            }
        });
    }
    let accept = Callback::from(move |()| accepted_for.set(Some(opened)));
    (accepted, accept)
}

/// A plan file dropped anywhere on the page is opened.
#[hook]
fn use_drop_anywhere(dispatch: &Dispatch, teller: &Teller) {
    let (dispatch, teller) = (dispatch.clone(), teller.clone());
    use_effect_with((), move |()| {
        let over = browser::on_window("dragover", |event| {
            if browser::carries_files(&event) {
                event.prevent_default();
            }
        });
        let drop = browser::on_window("drop", move |event| {
            if let Some(file) = browser::dropped_file(&event) {
                event.prevent_default();
                file::open(file, dispatch.clone(), teller.clone());
            }
        });
        move || {
            over();
            drop();
        }
    });
}
