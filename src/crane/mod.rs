//! Cranes: rating charts and how they are read, boom geometry.

mod chart;
mod chart_check;
mod chart_doc;
mod geometry;
mod outriggers;

pub(crate) use chart_check::BOOM_LENGTHS_M;

pub use chart::{Axis, Rated, RatingTable};
pub use chart_check::{ChartIssue, IssueKind};
pub use chart_doc::{
    CellReading, ChartRow, Configuration, ConfirmedCell, Deductions, RatingChart, Support, read_cell, split_marks,
};
pub use geometry::{Boom, head_needed_m};
pub use outriggers::Extension;
