//! The second module of the page: every view and every check. It takes over from [`super::first`].

use super::about::About;
use super::app::{App, Opening, Seen, open_with};
use super::day::Day;
use super::editor::Editor;
use super::estimate::{ClockView, CostView, QuickView};
use super::ground::GroundChecks;
use super::keep;
use super::lift::LiftView;
use super::places::Places;
use super::plan_drawing::PlanDrawing;
use super::plans::Plans;
use super::rig::RigView;
use super::route::Route;
use super::set_up::SetUpPanel;
use super::sheets::Sheets;
use super::shell::unknown;
use super::structure::BoxAndRoof;
use yew::prelude::*;

/// The view of an address.
pub fn view(route: &Route, seen: Seen) -> Html {
    let Seen {
        plan,
        assessment,
        dispatch,
        teller,
        place,
    } = seen;
    match route {
        Route::Day => html! {
            <Day assessment={assessment.clone()}>
                <PlanDrawing plan={plan.clone()} {assessment} dispatch={dispatch.clone()} />
                <SetUpPanel {plan} {dispatch} />
            </Day>
        },
        Route::Lift(number) => html! { <LiftView {plan} {assessment} number={*number} /> },
        Route::Structure(number) => {
            html! { <BoxAndRoof key={route.address()} {plan} {assessment} number={*number} /> }
        }
        Route::Rig(number) => html! { <RigView key={route.address()} {plan} {assessment} number={*number} /> },
        Route::Ground(number) => html! { <GroundChecks {plan} {assessment} number={*number} /> },
        Route::Sheets(only) => html! { <Sheets key={route.address()} {plan} {assessment} only={*only} /> },
        Route::Places => html! { <Places {plan} {assessment} {dispatch} /> },
        Route::Clock => html! { <ClockView {plan} {assessment} {dispatch} /> },
        Route::Cost => html! { <CostView {plan} {assessment} {dispatch} /> },
        Route::Quick => html! { <QuickView {plan} /> },
        Route::Plans => html! { <Plans {plan} {dispatch} {teller} {place} /> },
        Route::Edit(part) => html! { <Editor part={part.clone()} /> },
        Route::About => html! { <About /> },
        Route::Unknown(path) => unknown(path),
    }
}

/// Shows the page in place of the first module's, which `end` ends at the last moment. `accepted`: the cautions were, in this visit;
/// `steps`: somebody has asked for the view.
pub async fn take_over(accepted: bool, steps: bool, end: impl FnOnce()) {
    super::cover_panics();
    super::outdoors::put_on_look();
    let start = keep::start().await;
    open_with(Opening { start, accepted, steps });
    end();
    yew::Renderer::<App>::new().render();
}
