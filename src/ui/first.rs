//! The first module of the page: a look at the day and the cautions, nothing to edit yet. Everything else comes with [`super::desk`], which takes over.

use super::about::{About, FirstStart};
use super::day::Day;
use super::drawing::{Drawn as _, picture, use_paper};
use super::keep;
use super::route::{Route, use_route, use_title};
use super::shell::{TitleBlock, skip_link, unknown};
use super::store::Shared;
use crate::drawing::CraneView;
use crate::evaluate::{AWAITED, Assessment, Hangs};
use crate::plan::Plan;
use core::cell::{Cell, RefCell};
use std::rc::Rc;
use yew::prelude::*;

thread_local! {
    static RUNNING: RefCell<Option<AppHandle<First>>> = const { RefCell::new(None) };
    /// The plan to look at, until the page has taken it.
    static GLANCE: RefCell<Option<Plan>> = const { RefCell::new(None) };
    static ACCEPTED: Cell<bool> = const { Cell::new(false) };
    static TROUBLE: RefCell<Option<UseStateSetter<AttrValue>>> = const { RefCell::new(None) };
}

/// What there is to look at.
type Look = Rc<Option<(Shared<Plan>, Shared<Assessment>)>>;

#[component]
fn First() -> Html {
    let look: Look = use_memo((), |()| {
        let plan = Rc::new(GLANCE.take()?);
        let assessment = Hangs::of(&plan, AWAITED).assessment();
        Some((Shared(plan), Shared(Rc::new(assessment))))
    });
    let trouble = use_state(AttrValue::default);
    TROUBLE.replace(Some(trouble.setter()));
    let accepted = use_state(|| look.as_ref().as_ref().is_some_and(|(plan, _)| keep::is_accepted(plan)));
    ACCEPTED.set(*accepted);
    let route = use_route();
    let Some((plan, assessment)) = look.as_ref().clone() else {
        return html! { <main id="view" class="text"><h1>{ "Setday" }</h1>{ told(&trouble, opening()) }</main> };
    };
    use_title(&plan, &route);
    if !*accepted {
        let accept = {
            let (plan, accepted) = (plan.clone(), accepted.clone());
            Callback::from(move |()| {
                keep::accept(&plan);
                accepted.set(true);
            })
        };
        return html! { <FirstStart onaccept={accept} invented={plan.project.invented} /> };
    }
    html! {
        <>
            { skip_link() }
            <TitleBlock plan={plan.clone()} route={route.clone()} />
            <main id="view" tabindex="-1">
                { told(&trouble, Html::default()) }
                { view(&route, plan, assessment) }
            </main>
        </>
    }
}

/// What went wrong, in place of what stands there else.
fn told(trouble: &AttrValue, otherwise: Html) -> Html {
    if trouble.is_empty() {
        return otherwise;
    }
    html! { <p class="notice" role="alert">{ trouble }</p> }
}

fn view(route: &Route, plan: Shared<Plan>, assessment: Shared<Assessment>) -> Html {
    match route {
        Route::Day => html! { <Day assessment={assessment.clone()}><PlanToLookAt {plan} {assessment} /></Day> },
        Route::About => html! { <About /> },
        Route::Unknown(path) => unknown(path),
        _ => opening(),
    }
}

/// While the other module is loaded.
fn opening() -> Html {
    html! { <article class="text" role="status"><p>{ "Opening this view. The first time, its part of the program is loaded." }</p></article> }
}

#[derive(Properties, PartialEq)]
struct PlanProps {
    plan: Shared<Plan>,
    assessment: Shared<Assessment>,
}

/// The plan's drawing with the crane where it stands.
#[component]
fn PlanToLookAt(props: &PlanProps) -> Html {
    let place = use_node_ref();
    let view = CraneView::Plan(None);
    let scene = view.scene(&props.plan, &props.assessment, use_paper(&place, view.proportion()));
    html! {
        <section class="plan" aria-labelledby="plan-title">
            <h2 id="plan-title">{ "Plan" }</h2>
            <div ref={place} class="drawing">{ picture(&scene) }</div>
            <p class="hint" role="status">{ "The crane can be moved when the other part of the program is loaded, in a moment." }</p>
        </section>
    }
}

/// Starts the page, once the shelf has answered.
pub fn start() {
    super::cover_panics();
    yew::platform::spawn_local(async {
        GLANCE.replace(keep::glance().await);
        RUNNING.replace(Some(yew::Renderer::<First>::new().render()));
    });
}

/// Whether this module holds the view of an address (from `#` on).
pub fn shows(hash: &str) -> bool {
    matches!(Route::read(hash), Route::Day | Route::About | Route::Unknown(_))
}

/// Whether the page is shown.
pub fn is_shown() -> bool {
    RUNNING.with_borrow(Option::is_some)
}

/// Whether the cautions were accepted for the plan that is shown.
pub fn accepted() -> bool {
    ACCEPTED.get()
}

/// Ends the page: the other module takes its place.
pub fn end() {
    TROUBLE.take();
    if let Some(page) = RUNNING.take() {
        page.destroy();
    }
}

/// Tells that the second module could not be loaded.
pub fn rest_is_missing(reason: &str) {
    if let Some(trouble) = TROUBLE.with_borrow(Clone::clone) {
        trouble.set(format!("Nothing but a look at the day can be had: the other views, and the checks of gear, box, ground, wind and wires, could not be loaded ({reason}). Load the page again when there is a network; after one whole load the program needs none").into());
    }
}
