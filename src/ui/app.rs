//! The whole page: state at the root, contexts for those who read it, the view that the address names.

use super::about::{About, FirstStart};
use super::browser;
use super::day::Day;
use super::editor::Editor;
use super::keep;
use super::lift::LiftView;
use super::notices::{NoticeList, Notices, Tell, Teller};
use super::plans::{Plans, open_file};
use super::rig::RigView;
use super::route::{Route, use_route};
use super::sheets::Sheets;
use super::shell::TitleBlock;
use super::store::{Dispatch, Shared, State};
use crate::evaluate::Assessment;
use crate::plan::Plan;
use std::rc::Rc;
use yew::prelude::*;

/// The whole page.
#[component]
pub fn App() -> Html {
    let start = use_memo((), |()| keep::start());
    let state = {
        let start = Rc::clone(&start);
        use_reducer_eq(move || State::new(start.plan.clone()))
    };
    let notices = use_reducer_eq(Notices::default);
    let (dispatch, teller): (Dispatch, Teller) = (state.dispatcher(), notices.dispatcher());
    let plan = state.plan();
    keep::use_keeping(&plan, &teller);
    use_drop_anywhere(&dispatch, &teller);
    {
        let teller = teller.clone();
        use_effect_with((), move |()| {
            for notice in &start.notices {
                teller.dispatch(Tell::Say(notice.clone()));
            }
        });
    }
    let route = use_route();
    let accepted = use_accepted(&plan, state.opened);
    use_title(&plan, &route);
    if !accepted.0 {
        return html! { <FirstStart onaccept={accepted.1} invented={plan.project.invented} /> };
    }
    html! {
        <ContextProvider<Dispatch> context={dispatch.clone()}>
            <ContextProvider<Shared<Plan>> context={plan.clone()}>
            <ContextProvider<Shared<Assessment>> context={state.assessment.clone()}>
                <a class="skip" href="#view" onclick={skip}>{ "Skip to the view" }</a>
                <TitleBlock plan={plan.clone()} route={route.clone()} dispatch={dispatch.clone()} steps={state.steps()} />
                <NoticeList notices={(*notices).clone()} teller={teller.clone()} />
                <main id="view" tabindex="-1">
                    { view(&route, &plan, &state, &dispatch, &teller) }
                </main>
            </ContextProvider<Shared<Assessment>>>
            </ContextProvider<Shared<Plan>>>
        </ContextProvider<Dispatch>>
    }
}

/// The address belongs to the views, so the way past the title block moves the focus only.
fn skip(event: MouseEvent) {
    event.prevent_default();
    browser::focus_without_scrolling("view");
}

fn view(route: &Route, plan: &Shared<Plan>, state: &State, dispatch: &Dispatch, teller: &Teller) -> Html {
    let (plan, assessment, dispatch): (_, Shared<Assessment>, _) =
        (plan.clone(), state.assessment.clone(), dispatch.clone());
    match route {
        Route::Day => html! { <Day {plan} {assessment} {dispatch} /> },
        Route::Lift(number) => html! { <LiftView {plan} {assessment} number={*number} /> },
        Route::Rig(number) => html! { <RigView {plan} {assessment} number={*number} /> },
        Route::Sheets(only) => html! { <Sheets key={route.address()} {plan} {assessment} only={*only} /> },
        Route::Plans => html! { <Plans {plan} {dispatch} teller={teller.clone()} /> },
        Route::About => html! { <About /> },
        Route::Edit(part) => html! { <Editor part={part.clone()} /> },
        Route::Unknown(path) => unknown(path),
    }
}

fn unknown(path: &str) -> Html {
    html! {
        <article class="text">
            <h2>{ "No such view" }</h2>
            <p>{ format!("The address names \"{path}\", which is no view of this program.") }</p>
            <p><a href={Route::Day.address()}>{ "To the day" }</a></p>
        </article>
    }
}

/// Whether the cautions were accepted for the plan that is open, and what accepts them.
#[hook]
fn use_accepted(plan: &Shared<Plan>, opened: u32) -> (bool, Callback<()>) {
    // Which opened plan they were accepted for in this visit: the store may refuse to remember.
    let accepted_for = use_state(|| None::<u32>);
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
                open_file(file, dispatch.clone(), teller.clone());
            }
        });
        move || {
            over();
            drop();
        }
    });
}
