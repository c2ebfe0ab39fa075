//! What the planner sees in the browser: the page around the core.

mod crash;

use yew::prelude::*;

/// Starts the app in the page's body.
pub fn start() {
    crash::cover_the_page_on_panic();
    #[cfg(feature = "panic-button")]
    crash::panic_when_asked();
    yew::Renderer::<App>::new().render();
}

/// The whole page.
#[component]
pub fn App() -> Html {
    html! {
        <main>
            <h1>{ "Setday" }</h1>
        </main>
    }
}
