//! Setday: one agreed set of numbers for the day a crane sets factory-built house boxes.
//!
//! ```text
//! plan file ──plan::format──▶ Plan ──evaluate──▶ Assessment ──▶ tables, sheets, drawings (a Scene, then SVG)
//!                              ▲
//!                              └── an edit (a field commits) makes the next Plan
//! ```
//!
//! [`quantity`] holds numbers with their units and what was typed; [`plan`] the document; [`takeoff`], [`rigging`] and [`crane`] the
//! sums of the trade; [`structure`] the box as a beam and the roof that is raised; [`statics`] how a load hangs; [`check`] what a finding is; [`mod@evaluate`] the one place where a plan becomes results.
#![cfg_attr(test, allow(clippy::float_cmp))]

#[cfg(feature = "web")]
pub mod api;
pub mod check;
pub mod crane;
pub mod drawing;
pub mod evaluate;
pub mod import;
pub mod json;
pub mod plan;
pub mod quantity;
pub mod rigging;
pub mod rules;
pub mod sheet;
pub mod structure;
pub mod takeoff;
#[cfg(feature = "web")]
pub mod ui;

/// How a load hangs: bodies, points and members at rest.
pub use setday_statics as statics;
/// Plane and space geometry, and one end of a lift in numbers; they live with the statics, which is optimised for speed.
pub use setday_statics::{geometry, reach};
