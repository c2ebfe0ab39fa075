//! Drawings: plan, elevation, rating curve and rig, each made as data first and only then written as SVG.
//!
//! A view is a function from the plan and its assessment to a [`Scene`]. The same scene is shown, printed, exported and tested; it
//! holds shapes with roles and no colours.

mod scene;
mod svg;

pub use scene::{Anchor, Form, Frame, Item, MarkKind, Role, Scene, Shape};
pub use svg::{STYLE, svg, svg_file};
mod pending;
pub use pending::*;
