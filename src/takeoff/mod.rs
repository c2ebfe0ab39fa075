//! The take-off: what a box is made of becomes its weight and its centre of gravity.
//!
//! Frame: x along the box from its first end, y across from its first side, z up from the underside of the floor; kg and m.

mod body;
mod envelope;
mod items;
mod planned;

pub use body::{CentreOfGravity, TakeOff, centre_of_gravity};
pub use envelope::{Banded, Envelope, Spread, envelope, spread};
pub use items::{Item, item};
pub use planned::{Planned, WeightGrade, planned_weight};
