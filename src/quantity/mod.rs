//! Typed quantities: SI inside, units only at the edge.
//!
//! Each quantity is a newtype around one SI number. It is made and read by functions that carry the unit in
//! their name (`Length::ft(52.0).to_m()`), so that a bare number never crosses a border unnamed.

mod kinds;

pub use kinds::{
    Angle, Area, AreaDensity, Density, Force, Length, LinearDensity, Mass, Pressure, Quantity, Ratio,
    STANDARD_GRAVITY_M_S2, Speed, Volume,
};
