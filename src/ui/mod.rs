//! What the planner sees in the browser: the page around the core. Nothing is computed here.

mod about;
mod app;
mod browser;
mod cautions;
mod closer;
mod crash;
mod day;
pub mod desk;
mod drawing;
pub mod editor;
mod estimate;
pub mod fields;
mod figure;
mod file;
mod findings;
pub mod first;
mod ground;
mod issue;
mod keep;
mod keeper;
mod ledger;
mod lift;
mod notices;
mod outdoors;
mod places;
mod plan_drawing;
mod plan_list;
mod plans;
mod record;
mod rig;
mod route;
mod set_up;
mod sheets;
mod shelf;
mod shell;
mod show;
mod store;
mod structure;
pub mod tables;
mod versions;

pub use app::App;
pub use notices::{Tell, Teller};
pub use store::{Action, Dispatch, Shared, State};

fn cover_panics() {
    crash::cover_the_page_on_panic();
    #[cfg(feature = "panic-button")]
    crash::panic_when_asked();
}
