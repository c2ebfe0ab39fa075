//! Cranes: rating charts and how they are read, boom geometry, what the outriggers carry, line pull, wind.

mod body;
mod chart;
mod chart_check;
mod chart_doc;
mod geometry;
mod line_pull;
mod outriggers;
mod pads;
mod sector;
mod wind;

pub(crate) use chart_check::BOOM_LENGTHS_M;

pub use body::{Body, turned_m};
pub use chart::{Axis, Rated, RatingTable};
pub use chart_check::{ChartIssue, IssueKind};
pub use chart_doc::{
    CellReading, ChartRow, Configuration, ConfirmedCell, Deductions, RatingChart, Support, read_cell, split_marks,
};
pub use geometry::{Boom, head_needed_m};
pub use line_pull::{Sheaves, hoisting_ratio, parts_needed, rope_needed_m};
pub use outriggers::Extension;
pub use pads::{Base, PadLoads, Parts, Weights, bearing_pa, effective_side_m, pad_loads, rule_of_thumb_kg};
pub use sector::{Sector, around};
pub use wind::{CHART_AREA_M2_PER_KG, force_n, gust_factor, largest_face_m2, permitted_m_s, pressure_pa};
