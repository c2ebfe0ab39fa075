//! Typed quantities: SI inside, units only at the edge.
//!
//! Each quantity is a newtype around one SI number. It is made and read by functions that carry the unit in
//! their name (`Length::ft(52.0).to_m()`), so that a bare number never crosses a border unnamed. What people type
//! becomes an [`Entry`]; what they see is printed by [`show`], rounded to the safe side.

mod entry;
mod kinds;
mod print;
mod read;
mod unit;

pub use entry::{Entry, Said};
pub use kinds::{
    Angle, Area, AreaDensity, Density, Duration, Force, Length, LinearDensity, Mass, Moment, Pressure, Quantity, Ratio,
    Rigidity, STANDARD_GRAVITY_M_S2, ShearStiffness, Speed, Volume,
};
pub use print::{Safe, both, feet_inches, number, show, show_si, trimmed, written, written_si};
pub use read::{DecimalMark, Reading, read, read_si};
pub use unit::{Dimension, Readable, Unit, UnitSystem};
