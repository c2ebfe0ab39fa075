//! Plane and space geometry in metres: rectangles, polygons, distances; room on a sheet; the order of short lists.
//!
//! Site frame: east, north (and up). Angles are anticlockwise from east, in radians.

mod distance;
mod plane;
mod room;
mod sorted;

pub use distance::segments_distance_m;
pub use plane::{contains, convex_hull, distance_m, offset, polygon_distance_m, rectangle, rotate};
pub use room::{Ink, Inks, Plate};
pub use sorted::sort_short;
