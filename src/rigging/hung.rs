//! What goes into a hang and what comes out of it. The seam between the plan and whatever computes the hang.

use serde::Serialize;

/// The load, in its own frame: x along from the first end, y across from the first side, z up from the underside of the floor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HangingLoad {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Centre of gravity, m.
    pub cg_m: [f64; 3],
    /// Pick points, m. Four: first end first side, first end second side, second end first side, second end second side.
    pub picks_m: Vec<[f64; 3]>,
    /// Edges that a strap may bend round, m, each from one end to the other.
    pub edges_m: Vec<[[f64; 3]; 2]>,
    /// Overall length, m: for the rise from end to end.
    pub length_m: f64,
    /// Overall width, m.
    pub width_m: f64,
    /// Height as shipped, m.
    pub height_m: f64,
}

impl SlingSetUp {
    /// Every leg, in the order of the members of the hang.
    pub fn lines(&self) -> Vec<&Line> {
        match self {
            Self::FourLegs { legs } => legs.iter().collect(),
            Self::Pieces { legs, .. } => legs.iter().map(|(line, _)| line).collect(),
            Self::BarAndCrossBars {
                top, bridles, straps, ..
            } => (0..2)
                .flat_map(|end| {
                    let [a, b] = [0, 1].map(|side| [&bridles[end][side], &straps[end][side]]);
                    [&top[end], a[0], a[1], b[0], b[1]]
                })
                .collect(),
        }
    }

    /// The same with every leg changed: its place among the members, and what it is.
    #[must_use]
    pub fn with_lines(&self, change: impl Fn(usize, Line) -> Line) -> Self {
        let mut next = self.clone();
        match &mut next {
            Self::FourLegs { legs } => (0..4).for_each(|i| legs[i] = change(i, legs[i])),
            Self::Pieces { legs, .. } => {
                for (i, (line, _)) in legs.iter_mut().enumerate() {
                    *line = change(i, *line);
                }
            }
            Self::BarAndCrossBars {
                top, bridles, straps, ..
            } => {
                for end in 0..2 {
                    top[end] = change(5 * end, top[end]);
                    for side in 0..2 {
                        let at = 5 * end + 2 * side;
                        bridles[end][side] = change(at + 1, bridles[end][side]);
                        straps[end][side] = change(at + 2, straps[end][side]);
                    }
                }
            }
        }
        next
    }
}

impl HangingLoad {
    /// The picks of a load that has four; missing ones count as at the origin: [`super::build`] refuses such a load.
    pub fn four_picks_m(&self) -> [[f64; 3]; 4] {
        core::array::from_fn(|i| self.picks_m.get(i).copied().unwrap_or_default())
    }
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
#[allow(clippy::large_enum_variant, reason = "made once a hang, boxing would only blur it")]
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
    /// Piece by piece.
    Pieces {
        /// Bars, frames, beams and blocks between hook and box.
        hung: Vec<HungBody>,
        /// Every leg with what it touches, in order.
        legs: Vec<(Line, Vec<Run>)>,
    },
}

/// A piece between hook and box.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HungBody {
    /// Own mass, kg.
    pub mass_kg: f64,
    /// Centre of gravity, m, in the frame of its lugs.
    pub cg_m: [f64; 3],
    /// Its lugs as it hangs level, m: x along the box, y across, z up. None: a point.
    pub lugs_m: Vec<[f64; 3]>,
}

/// What a leg touches on its way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// The hook.
    Hook,
    /// A pick of the load.
    Pick(usize),
    /// A lug of a piece; of a point, whichever lug.
    Lug {
        /// The piece.
        piece: usize,
        /// Its lug.
        lug: usize,
    },
    /// An edge of the load.
    Edge(usize),
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
    /// A leg of a rig that is entered piece by piece, by its place in the list.
    Line(usize),
}

impl MemberKind {
    /// What it is, without its place.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Leg(_) => "a leg",
            Self::Top { .. } => "a top leg",
            Self::Bridle(_) => "a bridle leg",
            Self::Strap(_) => "a strap",
            Self::Line(_) => "a leg",
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
    /// Angle from the horizontal, rad; of the flattest of its runs.
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
    /// Righting height: how far the apex is above what would turn the box over, m. `None` where it cannot be told.
    pub margin_m: Option<f64>,
    /// Centre of gravity beside the plumb of the hook as rigged, m; above 0 towards the second end (or side).
    pub offset_m: Option<f64>,
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
    /// The pieces of a rig that is entered piece by piece, in its order.
    pub pieces: Vec<PieceHung>,
    /// What each pick in use is pulled with.
    pub picks: Vec<PickPull>,
    /// Where legs bend round edges of the box.
    pub edges: Vec<EdgePress>,
    /// Legs that touch a wall: reported only, a wall holds nothing and gives no stability.
    pub walls: Vec<WallTouch>,
    /// Twist of each bay between pick sections; empty for a box that was taken as rigid.
    pub twist: Vec<TwistBay>,
    /// Where the hook is over the box, in the box frame, m.
    pub hook_over_m: [f64; 2],
    /// Where everything is, for drawings.
    pub figure: Figure,
}

/// A bar, frame, beam or block at rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PieceHung {
    /// What hangs below it, kg: the figure that a bar's rating is for.
    pub below_kg: f64,
    /// Compression along the line between its two lugs that are farthest apart, N; below nothing where it is pulled.
    pub compression_n: Option<f64>,
}

/// The pull at one pick.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PickPull {
    /// Which, by its place in the box's list.
    pub pick: usize,
    /// Part of it straight up, N.
    pub vertical_n: f64,
    /// Part along the box towards the middle of the picks, N.
    pub inward_along_n: f64,
    /// Part across the box towards the middle of the picks, N.
    pub inward_across_n: f64,
}

/// Twist of the box between two sections of picks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TwistBay {
    /// Angle of the far section against the near one, rad.
    pub twist_rad: f64,
    /// How far one corner pick is out of the plane of the other three, m.
    pub racking_m: f64,
}

/// A leg bending round an edge of the box.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EdgePress {
    /// The leg, by its place among the members.
    pub member: usize,
    /// The edge, by its place in the box's list.
    pub edge: usize,
    /// Where, in space, m.
    pub at_m: [f64; 3],
    /// Angle it bends through, rad.
    pub bend_rad: f64,
    /// Force on the box: along, across and up, N, as it hangs.
    pub force_n: [f64; 3],
    /// How far beyond the edge's ends that is, m; zero on it.
    pub beyond_end_m: f64,
}

/// A leg against a wall.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WallTouch {
    /// The leg, by its place among the members.
    pub member: usize,
    /// The pick that it comes from, by its place in the box's list.
    pub pick: usize,
    /// The wall that the pick is nearest to.
    pub wall: Wall,
    /// How far inside this wall it would pass, m.
    pub inside_m: f64,
    /// Where, in space, m: in nearly all cases at the height of the eave.
    pub at_m: [f64; 3],
}

/// A wall of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Wall {
    /// Across the box, 0 at its first end.
    End(usize),
    /// Along the box, 0 on its first side.
    Side(usize),
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
    /// The legs from end to end, in the order of the members.
    pub legs_m: Vec<[[f64; 3]; 2]>,
    /// The whole way of each leg: its ends, and between them what it runs over.
    pub ways_m: Vec<Vec<[f64; 3]>>,
}
