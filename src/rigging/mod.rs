//! How a load hangs on the gear: leg angles, tensions, tilt and roll.

pub mod closed_form;
mod hand;
mod hung;

pub use hand::hang;
pub use hung::{Corner, HangingLoad, Hung, Level, Member, MemberKind, SlingSetUp};
