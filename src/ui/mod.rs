//! What the planner sees in the browser: the page around the core. Nothing is computed here.

mod about;
mod app;
mod browser;
mod cautions;
mod crash;
mod day;
pub mod desk;
mod drawing;
pub mod editor;
pub mod fields;
mod findings;
pub mod first;
mod handing;
mod keep;
mod ledger;
mod lift;
mod notices;
mod plan_drawing;
mod plans;
mod rig;
mod route;
mod set_up;
mod sheets;
mod shell;
mod show;
mod store;
pub mod tables;

pub use desk::App;
pub use notices::{Tell, Teller};
pub use store::{Action, Dispatch, Shared, State};

fn cover_panics() {
    crash::cover_the_page_on_panic();
    #[cfg(feature = "panic-button")]
    crash::panic_when_asked();
}
