//! What the planner sees in the browser: the page around the core. Nothing is computed here.

mod crash;
pub mod editor;
pub mod fields;
mod store;
pub mod tables;

pub use store::{Action, Dispatch, Shared, State};

use crate::plan::{Plan, sample};
use yew::prelude::*;

/// Starts the app in the page's body.
pub fn start() {
    crash::cover_the_page_on_panic();
    #[cfg(feature = "panic-button")]
    crash::panic_when_asked();
    yew::Renderer::<App>::new().render();
}

/// The whole page: state at the root, contexts for those who read it.
#[component]
pub fn App() -> Html {
    let state = use_reducer_eq(|| State::new(sample::plan()));
    let (plan, assessment, dispatch): (Shared<Plan>, _, Dispatch) =
        (state.plan(), state.assessment.clone(), state.dispatcher());
    html! {
        <ContextProvider<Dispatch> context={dispatch}>
            <ContextProvider<Shared<Plan>> context={plan}>
                <main>
                    <h1>{ "Setday" }</h1>
                    <p>{ assessment.headline.text.clone() }</p>
                </main>
            </ContextProvider<Shared<Plan>>>
        </ContextProvider<Dispatch>>
    }
}
