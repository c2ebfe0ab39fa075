//! How a load hangs on the gear: leg angles, tensions, tilt and roll.
//!
//! [`hang()`] builds the general rig ([`crate::statics`]) of a sling set-up and tells the result in the trade's terms; [`closed_form`] holds the
//! hand formulas that it is checked against and that figures are followed by.

pub mod closed_form;
mod hang;
mod hung;
mod rig;
mod stiffness;
mod worst;

pub use hang::hang;
pub use hung::{Corner, Figure, HangingLoad, Hung, Level, Line, Member, MemberKind, SlingSetUp};
pub use rig::{BuiltRig, STIFF_N, Stretch, build};
pub use stiffness::{AxialStiffness, axial_stiffness, in_series_n, unknown_stiffness_n};
pub use worst::{Doubt, WorstCase, WorstLift, WorstMember, hang_with_errors, worst};
