//! The box as a structure and the roof that is raised: what lifting does to the frame, the sheathing and the hinge.
//!
//! Pure sums in SI: newtons, metres, radians. Box frame: x along, y across, z up from the underside of the floor. Angles are from the horizontal.

mod beam;
mod place_picks;
mod racking;
mod raise;
mod sharing;

pub use beam::{Beam, Extreme, Load, Pull};
pub use place_picks::{Aim, BestPicks, best_picks};
pub use racking::{
    Faces, TurningBox, TurningLoad, TurningPull, open_strips_gj_n_m2, panel_shear_rad, shear_flow_n_per_m,
    sheathed_share, slab_drift_m, torque_when_corner_held_n_m, torque_when_uneven_n_m,
};
pub use raise::{Arc, AtAngle, Panel, Sling, balance_of_flap_rad, flap_restraint_n, planned_pull};
pub use sharing::{Sharing, reactions_n};
