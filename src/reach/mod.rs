//! One end of a lift in numbers only: the chart's row and its use, the boom's reach, its head, its gap to what lies under it. The evaluation asks
//! it which boom and which spot to take, the search for a place asks it by the million.
//!
//! Site frame: east, north and up from grade, m. Masses in kg.

mod boom;
mod end;
mod ratings;
mod stand;

pub use boom::{Block, Boom, Slewed, head_needed_m};
pub use end::{Answer, Boomed, Demands, End, Grade, Gross, Stop};
pub use ratings::{Around, Cell, Column, Ratings};
pub use stand::{Stand, StandLift, Standpoint};

/// Whether a demand is above its limit; equal is not (29 CFR 1926.751, "exceeds"). Not a number is above everything.
///
/// Equality is taken with a relative tolerance of 1e-12, so that a figure which is equal on paper is equal here.
pub fn exceeds(demand: f64, limit: f64) -> bool {
    demand.is_nan() || limit.is_nan() || demand > limit + 1e-12 * limit.abs()
}
