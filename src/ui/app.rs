//! The frame of the page, the same in both modules: state at the root, contexts for those who read it, the view that the address names.

use super::about::FirstStart;
use super::browser;
use super::file;
use super::handing::{self, Shown};
use super::keep::{self, Start};
use super::keeper::{self, Place};
use super::notices::{NoticeList, Notices, Teller};
use super::route::{Route, use_route};
use super::shell::TitleBlock;
use super::store::{Dispatch, Shared, State};
use crate::evaluate::Assessment;
use crate::plan::Plan;
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

/// The views that a module holds: none for an address of the other module.
#[derive(Clone, Copy)]
pub struct Views(pub fn(&Route, Seen) -> Option<Html>);

impl PartialEq for Views {
    /// A module has one set of views.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// What a module puts into the frame.
#[derive(Properties)]
pub struct Props {
    /// Its views.
    pub views: Views,
    /// What it opens with; asked once.
    pub start: fn() -> Start,
}

impl PartialEq for Props {
    /// They are the same for as long as the page is shown.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// The frame with a view in it.
#[component]
pub fn Page(props: &Props) -> Html {
    let start = use_memo((), |()| (props.start)());
    let state = {
        let start = Rc::clone(&start);
        use_reducer_eq(move || State::kept(start.history.clone(), start.place.clone(), start.checks))
    };
    // from the first render on: the page may be handed over before an effect has run
    let notices = {
        let start = Rc::clone(&start);
        use_reducer_eq(move || Notices(start.notices.clone()))
    };
    let (dispatch, teller): (Dispatch, Teller) = (state.dispatcher(), notices.dispatcher());
    let plan = state.plan();
    keeper::use_keeping(state.place.clone(), &teller, start.goes_on);
    use_drop_anywhere(&dispatch, &teller);
    {
        let start = Rc::clone(&start);
        use_effect_with((), move |()| {
            if start.steps {
                browser::focus_without_scrolling("view");
                browser::scroll_to(0.0);
            }
        });
    }
    let route = use_route();
    let (accepted, accept) = use_accepted(&plan, state.opened, start.accepted);
    use_title(&plan, &route);
    handing::remember(Shown {
        state: state.clone(),
        notices: notices.clone(),
        teller: teller.clone(),
        accepted,
    });
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
                <a class="skip" href="#view" onclick={skip}>{ "Skip to the view" }</a>
                <TitleBlock plan={plan.clone()} route={route.clone()} dispatch={dispatch.clone()} steps={state.steps()} />
                <NoticeList notices={(*notices).clone()} {teller} plan={plan.clone()} />
                <main id="view" tabindex="-1">
                    { (props.views.0)(&route, seen).unwrap_or_else(opening) }
                </main>
            </ContextProvider<Shared<Assessment>>>
            </ContextProvider<Shared<Plan>>>
        </ContextProvider<Dispatch>>
    }
}

/// While the other module is loaded, and where it could not be.
fn opening() -> Html {
    html! { <article class="text" role="status"><p>{ "Opening this view. The first time, its part of the program is loaded." }</p></article> }
}

/// The address belongs to the views, so the way past the title block moves the focus only.
fn skip(event: MouseEvent) {
    event.prevent_default();
    browser::focus_without_scrolling("view");
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

#[hook]
fn use_title(plan: &Shared<Plan>, route: &Route) {
    let project = plan.project.name.trim();
    let view = match route {
        Route::Day | Route::Unknown(_) => String::new(),
        Route::Lift(number) => format!("Lift {number}"),
        Route::Rig(number) => format!("Rigging, lift {number}"),
        Route::Ground(number) => format!("Ground, lift {number}"),
        Route::Edit(part) => format!("Edit {part}"),
        Route::Sheets(_) => "Sheets".into(),
        Route::Plans => "Plans".into(),
        Route::About => "Cautions".into(),
    };
    let parts: Vec<&str> = [view.as_str(), project, "Setday"]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    use_effect_with(parts.join(", "), |title| browser::set_title(title));
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
