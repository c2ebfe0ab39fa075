//! Setday: one agreed set of numbers for the day a crane sets factory-built house boxes.
#![cfg_attr(test, allow(clippy::float_cmp))]

pub mod check;
pub mod crane;
pub mod evaluate;
pub mod geometry;
pub mod plan;
pub mod quantity;
pub mod rigging;
pub mod takeoff;
