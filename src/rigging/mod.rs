//! How a load hangs on the gear: leg angles, tensions, tilt and roll.
//!
//! [`hang()`] builds the general rig ([`crate::statics`]) of a sling set-up and tells the result in the trade's terms; [`closed_form`] holds the
//! hand formulas that it is checked against and that figures are followed by.

pub mod closed_form;
mod hang;
mod hung;
mod level;
mod rig;
mod stiffness;
mod trial;
mod try_out;
mod worst;

pub use hang::hang;
pub use hung::{Corner, Figure, HangingLoad, Hung, Level, Line, Member, MemberKind, SlingSetUp};
pub use level::{ChosenLeg, FoundSetUp, LevelLimits, LevelSearch, Stock, StockShortener, StockSling, level_set_ups};
pub use rig::{BuiltRig, STIFF_N, Stretch, build};
pub use stiffness::{AxialStiffness, Construction, axial_stiffness, in_series_n, unknown_stiffness_n};
pub use trial::{cg_from_tilt, reading_stop_kg};
pub use try_out::{Touch, Tried, TriedLeg, TryOut, Wall, try_out};
pub use worst::{Doubt, WorstCase, WorstLift, WorstMember, hang_with_errors, worst};
