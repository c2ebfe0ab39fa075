//! How a load hangs on the gear: leg angles, tensions, tilt and roll.
//!
//! [`hang()`] builds the general rig ([`crate::statics`]) of a sling set-up and tells the result in the trade's terms; [`closed_form`] holds the
//! hand formulas that it is checked against and that figures are followed by.

pub mod closed_form;
mod hang;
mod hung;
mod level;
mod pieces;
mod rig;
mod share_bound;
mod stiffness;
mod trial;
mod try_out;
mod wall;
mod worst;

pub use hang::{equalised, equalised_member, hang, hang_stretched};
pub use hung::{
    Corner, EdgePress, Figure, HangingLoad, Hung, HungBody, Level, Line, Member, MemberKind, PickPull, PieceHung, Run,
    SlingSetUp, TwistBay, Wall, WallTouch,
};
pub use level::{
    Added, ChosenLeg, FoundSetUp, LevelLimits, LevelSearch, Stock, StockAdjuster, StockShackle, StockShortener,
    StockSling, level_set_ups,
};
pub use rig::{BuiltRig, STIFF_N, Stretch, build};
pub use stiffness::{
    AxialStiffness, Construction, axial_stiffness, closed_box_gj_n_m2, in_series_n, unknown_stiffness_n,
};
pub use trial::{cg_from_tilt, reading_stop_kg};
pub use try_out::{Tried, TriedLeg, TryOut, try_out};
pub use worst::{Doubt, Off, WorstCase, WorstLift, WorstMember, WorstSearch, hang_off, hang_with_errors, worst};
