//! Plane and space geometry in metres: rectangles, polygons, distances.
//!
//! Site frame: east, north (and up). Angles are anticlockwise from east, in radians.

mod distance;
mod plane;

pub use distance::segments_distance_m;
pub use plane::{contains, convex_hull, distance_m, offset, polygon_distance_m, rectangle, rotate};
