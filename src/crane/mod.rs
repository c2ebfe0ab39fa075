//! Cranes: rating charts and how they are read, boom geometry.

mod chart;
mod geometry;

pub use chart::{ChartIssue, ChartRow, Configuration, Deductions, RatedAt, RatingChart, RatingTable};
pub use geometry::{Boom, head_needed_m};
