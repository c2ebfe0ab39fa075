//! What goes into a hang and what comes out of it. The seam between the plan and whatever computes the hang.

use serde::Serialize;

/// The load, in its own frame: x along from the first end, y across from the first side, z up from the underside of the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct HangingLoad {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Centre of gravity, m.
    pub cg_m: [f64; 3],
    /// Pick points, m: first end first side, first end second side, second end first side, second end second side.
    pub picks_m: [[f64; 3]; 4],
    /// Overall length, m: for the rise from end to end.
    pub length_m: f64,
    /// Overall width, m.
    pub width_m: f64,
    /// Height as shipped, m.
    pub height_m: f64,
}

/// A leg as the hang sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Length without load, bearing to bearing, m.
    pub length_m: f64,
    /// Axial stiffness EA at its soft and at its stiff end, N; `None` where it is not known: it does not stretch then.
    pub ea_n: Option<[f64; 2]>,
}

/// Lengths and masses of a sling set-up.
#[derive(Clone, Debug, PartialEq)]
pub enum SlingSetUp {
    /// Four legs from the hook to the picks.
    FourLegs {
        /// Legs in the order of the picks.
        legs: [Line; 4],
    },
    /// A bar on two top legs, a two-leg bridle and a cross bar at each end, plumb straps to the picks.
    BarAndCrossBars {
        /// Mass of the bar, kg.
        bar_kg: f64,
        /// Distance between its lugs, m.
        bar_lugs_m: f64,
        /// Top legs to the first and the second end.
        top: [Line; 2],
        /// Mass of one cross bar, kg.
        cross_kg: f64,
        /// Distance between the lugs of a cross bar, m.
        cross_lugs_m: f64,
        /// Bridle legs: at each end, to the first and the second side.
        bridles: [[Line; 2]; 2],
        /// Straps: at each end, on the first and the second side.
        straps: [[Line; 2]; 2],
    },
}

/// A corner of the box: which end and which side, 0 the first, 1 the second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Corner {
    /// Which end.
    pub end: usize,
    /// Which side.
    pub side: usize,
}

/// Which member of the rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MemberKind {
    /// Leg from the hook to a pick.
    Leg(Corner),
    /// Top leg from the hook to an end of the bar.
    Top {
        /// Which end.
        end: usize,
    },
    /// Bridle leg from an end of the bar to a cross bar.
    Bridle(Corner),
    /// Strap from a cross bar to a pick.
    Strap(Corner),
}

impl MemberKind {
    /// What it is, without its place.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Leg(_) => "a leg",
            Self::Top { .. } => "a top leg",
            Self::Bridle(_) => "a bridle leg",
            Self::Strap(_) => "a strap",
        }
    }
}

/// A member under load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Member {
    /// Which.
    pub kind: MemberKind,
    /// Length, m.
    pub length_m: f64,
    /// Angle from the horizontal, rad.
    pub angle_rad: f64,
    /// Vertical part of its tension, N.
    pub vertical_n: f64,
    /// Tension to design with, N: the stiff-box bound where legs share by their lengths, else the tension itself.
    pub tension_n: f64,
    /// Tension if every leg took its share, N.
    pub shared_n: f64,
    /// It hangs slack.
    pub slack: bool,
}

/// Tilt in one direction.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Level {
    /// Angle, rad; above 0 the second end (or side) hangs lower.
    pub tilt_rad: f64,
    /// Rise from the low to the high end of the box, m.
    pub rise_m: f64,
    /// Righting height: how far the apex is above what would turn the box over, m.
    pub margin_m: f64,
    /// Centre of gravity beside the plumb of the hook as rigged, m; above 0 towards the second end (or side).
    pub offset_m: f64,
}

/// How the load hangs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hung {
    /// Hook above the underside of the box's floor, m.
    pub hook_above_floor_m: f64,
    /// Along the box.
    pub along: Level,
    /// Across the box.
    pub across: Level,
    /// Every leg.
    pub members: Vec<Member>,
    /// Compression in the bar along the box, N.
    pub bar_compression_n: Option<f64>,
    /// Compression in the cross bars at the first and second end, N.
    pub cross_compression_n: Option<[f64; 2]>,
    /// What hangs below the bar, kg: the figure that a bar's rating is for.
    pub below_bar_kg: Option<f64>,
    /// What hangs below each cross bar, kg.
    pub below_cross_kg: Option<[f64; 2]>,
    /// Where the hook is over the box, in the box frame, m.
    pub hook_over_m: [f64; 2],
    /// Where everything is, for drawings.
    pub figure: Figure,
}

/// Where everything is as it hangs, m: x along the box as drawn level, y across it, z up, the origin at the box's own corner before it tilts.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// The hook.
    pub hook_m: [f64; 3],
    /// The box's corners: floor, then top, each first end first side, second end first side, second end second side, first end second side.
    pub box_m: [[f64; 3]; 8],
    /// The box's centre of gravity.
    pub cg_m: [f64; 3],
    /// The bars from lug to lug: the bar along the box, then the cross bars.
    pub bars_m: Vec<[[f64; 3]; 2]>,
    /// The legs, in the order of the members.
    pub legs_m: Vec<[[f64; 3]; 2]>,
}
