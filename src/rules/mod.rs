//! Rules as data: what a country's rule book asks of wires and lets the ground bear, each with its source.
//!
//! Editions change: each table is a pointer to the edition in force where the crane stands.

mod lines;
mod soil;

pub use lines::{Keep, keep_away, trigger_m};
pub use soil::{Presumed, Soil, presumed};

/// Whose rules the plan is held against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Profile {
    /// Nobody has said: the strictest of all counts.
    #[default]
    NotSaid,
    /// United States, federal.
    Us,
    /// Ontario.
    Ontario,
    /// Alberta.
    Alberta,
    /// British Columbia.
    BritishColumbia,
}

impl Profile {
    /// Those that are named.
    pub const NAMED: [Self; 4] = [Self::Us, Self::Ontario, Self::Alberta, Self::BritishColumbia];
}
