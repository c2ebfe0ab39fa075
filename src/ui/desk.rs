//! The second module of the page: every view. It goes on where [`super::first`] has handed over.

use super::app::{Page, Seen, Views};
use super::editor::Editor;
use super::first;
use super::ground::GroundChecks;
use super::handing::Handed;
use super::keep::Start;
use super::keeper::{self, Place};
use super::lift::LiftView;
use super::plans::Plans;
use super::rig::RigView;
use super::route::{Route, leave_day_at};
use super::sheets::Sheets;
use crate::evaluate::ALL;
use core::cell::RefCell;
use yew::prelude::*;

thread_local! {
    /// What was handed over, and whether quietly, until the page has taken it.
    static HANDED: RefCell<Option<(Handed, bool)>> = const { RefCell::new(None) };
}

/// The whole page.
#[component]
pub fn App() -> Html {
    html! { <Page views={Views(view)} start={start as fn() -> Start} /> }
}

/// With what was handed over; alone, as at a first visit.
fn start() -> Start {
    let Some((handed, quietly)) = HANDED.take() else {
        return Start {
            checks: ALL,
            ..Start::sample(Vec::new())
        };
    };
    leave_day_at(handed.day_left_at);
    let place = Place::from_json(&handed.place).unwrap_or_else(|| Place::fresh(""));
    let unkept = keeper::go_on_with(&handed.keeper);
    if handed.notices.iter().any(|notice| notice.offers_file) {
        keeper::refused();
    }
    if let Some(edit) = unkept {
        keeper::commit(&place, handed.history.present(), edit, None);
    }
    Start {
        history: handed.history,
        place,
        notices: handed.notices,
        accepted: handed.accepted,
        goes_on: true,
        steps: !quietly,
        checks: ALL,
    }
}

fn view(route: &Route, seen: Seen) -> Option<Html> {
    let (plan, assessment) = (seen.plan.clone(), seen.assessment.clone());
    match route {
        Route::Lift(number) => Some(html! { <LiftView {plan} {assessment} number={*number} /> }),
        Route::Rig(number) => Some(html! { <RigView key={route.address()} {plan} {assessment} number={*number} /> }),
        Route::Ground(number) => Some(html! { <GroundChecks {plan} {assessment} number={*number} /> }),
        Route::Sheets(only) => Some(html! { <Sheets key={route.address()} {plan} {assessment} only={*only} /> }),
        Route::Plans => {
            let Seen {
                dispatch,
                teller,
                place,
                ..
            } = seen;
            Some(html! { <Plans {plan} {dispatch} {teller} {place} /> })
        }
        Route::Edit(part) => Some(html! { <Editor part={part.clone()} /> }),
        _ => first::view(route, seen),
    }
}

/// Shows the page with what the first module handed over; quietly where nobody has asked for another view.
pub fn take_over(handed: &str, quietly: bool) -> Result<(), String> {
    super::cover_panics();
    super::outdoors::put_on_look();
    HANDED.replace(Some((Handed::read(handed)?, quietly)));
    yew::Renderer::<App>::new().render();
    Ok(())
}
