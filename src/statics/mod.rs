//! How a load hangs: give the bodies, where they may be held and what ties them together, and get back the pose in
//! which everything is at rest, the pull in every sling and what would tip it.
//!
//! A rig is plain data ([`Rig`]): rigid bodies, points and tension-only members. Nothing here knows a particular way of
//! slinging. The pose is a minimum of the potential energy ([`hang`]); lengths, stiffnesses and the centre of gravity
//! are only known within bands, and [`worst_case`] finds the largest pull each member can see inside them.
//!
//! SI throughout, z up, angles from the horizontal. The model, its conditions and its checks are in `docs/hang.md`.

#[path = "../geometry/mod.rs"]
pub mod geometry;
#[path = "../reach/mod.rs"]
pub mod reach;

mod bend;
mod drawing;
mod energy;
mod fault;
mod hang;
mod model;
mod newton;
mod report;
mod rig;
mod stability;
mod system;
mod worst;
mod wrap;

pub use fault::{InputFault, NoHang, Part};
pub use hang::hang;
pub use report::{Bay, BodyHang, Contact, FaceContact, Hang, MemberHang, Pick, friction_bounds};
pub use rig::{Bend, Body, BodyState, Edge, Fitting, MassItem, Member, Point, Rig, State, Stop, Twist};

pub use worst::{Bands, Case, CgShift, Refusal, TiltRange, Worst, WorstCase, WorstSearch, worst_case};

/// A vector in space, m or N as its use says.
type Vec3 = nalgebra::Vector3<f64>;

/// Standard acceleration of gravity, m/s² (3rd CGPM, 1901).
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;
