//! Setday: one agreed set of numbers for the day a crane sets factory-built house boxes.
#![cfg_attr(test, allow(clippy::float_cmp))]

pub mod quantity;
#[cfg(feature = "web")]
pub mod ui;
