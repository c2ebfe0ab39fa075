//! The take-off: what a box is made of becomes its weight and its centre of gravity.
//!
//! Frame: x along the box from its first end, y across from its first side, z up from the underside of the floor; kg and m.

mod assembly;
mod body;
mod day;
mod envelope;
mod heights;
mod items;
mod library;
mod planned;
mod plausible;
mod weighing;

pub use assembly::{assembly_kg_per_m2, layer_kg_per_m2};
pub use body::{CentreOfGravity, TakeOff, centre_of_gravity};
pub use day::{Day, day};
pub use envelope::{Banded, Envelope, Spread, envelope, spread};
pub use heights::{ASSUMED, assume_mid_height, assumed_heights, rows_without_height};
pub use items::{Item, item};
pub use library::{Standing, UnitWeight, library};
pub use planned::{Planned, Weighed, WeightGrade, by_axles, estimate, planned_weight, weighed};
pub use plausible::{odd_per_area, odd_unit};
pub use weighing::{Weighing, weighing};
