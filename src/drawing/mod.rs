//! Drawings: plan, elevation, rating curve and rig, each made as data first and only then written as SVG.
//!
//! A view is a function from the plan and its assessment to a [`Scene`]. The same scene is shown, printed, exported and tested; it
//! holds shapes with roles and no colours.

mod border;
mod chart_view;
mod clip;
mod day_view;
mod elevation;
mod hung_view;
mod lettering;
mod pen;
mod plan_view;
mod recorder;
mod rig_view;
mod scene;
mod site_checks;
mod strip;
mod structure_view;
mod svg;
mod view;
mod words;

#[cfg(test)]
mod tests;

pub use crate::geometry::Plate;
pub use chart_view::chart_view;
pub use day_view::{day_view, day_view_proportion};
pub use elevation::elevation;
pub use hung_view::{HungDrawing, Seen, as_it_hangs, factor_for, hung_view, slack_words, tension_words, touch_words};
pub use lettering::{plates, width_mm};
pub use pen::Paper;
pub use plan_view::{plan_view, site_view};
pub use rig_view::{rig_end, rig_side, rig_top};
pub use scene::{Anchor, Form, Frame, Item, MarkKind, Role, Scene, Shape};
pub use site_checks::{pads_at_worst, pads_over_slew, swing_view, wind_view, wires_view};
pub use structure_view::StructureView;
pub use svg::{Element, STYLE, elements, svg_file, view_box};
pub use view::{CraneView, View};
pub use words::{fine, tape};
