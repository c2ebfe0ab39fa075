//! Setday: one agreed set of numbers for the day a crane sets factory-built house boxes.
#![cfg_attr(test, allow(clippy::float_cmp))]

pub mod crane;
pub mod import;
pub mod quantity;
