//! A sling set-up of the trade becomes a rig of the general hang: bodies, points and members.

use super::closed_form::apex_m;
use super::hung::{Corner, HangingLoad, HungBody, Line, MemberKind, SlingSetUp};
use super::pieces::pieces;
use crate::quantity::both;
use crate::statics::{Body, Edge, MassItem, Member, Point, Rig, Stop};

/// The stiffness of a leg whose stretch is left out, N: a stretch below a millionth under any box.
pub const STIFF_N: f64 = 1.0e10;

/// Corners in the order in which picks are entered.
pub const CORNERS: [Corner; 4] = [
    Corner { end: 0, side: 0 },
    Corner { end: 0, side: 1 },
    Corner { end: 1, side: 0 },
    Corner { end: 1, side: 1 },
];

/// Whether legs stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// As the soft end of their stiffness says, where it is known.
    Soft,
    /// As the stiff end says.
    Stiff,
    /// Not at all: the geometry of the lengths alone.
    None,
}

/// A rig, and what each of its members is. Body 0 is the box; the hook is point 0.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltRig {
    /// For the general hang.
    pub rig: Rig,
    /// What each member is.
    pub kinds: Vec<MemberKind>,
    /// Where the pieces of a rig that is entered piece by piece stand in it: a body (its first node) or a point.
    pub pieces: Vec<Stop>,
}

impl BuiltRig {
    /// Where a lug of a piece is drawn, m; of a point, the point.
    pub(super) fn place_m(&self, piece: usize, lug: usize) -> [f64; 3] {
        match self.pieces[piece] {
            Stop::Point(point) => self.rig.points[point].at_m,
            Stop::Node { body, .. } | Stop::Edge { body, .. } => {
                let body = &self.rig.bodies[body];
                let lug_m = body.nodes_m.get(lug).copied().unwrap_or_default();
                core::array::from_fn(|axis| body.at_m[axis] + lug_m[axis])
            }
        }
    }

    /// Where the centre of gravity of a piece is drawn, m.
    pub(super) fn piece_cg_m(&self, piece: usize, hung: &HungBody) -> [f64; 3] {
        match self.pieces[piece] {
            Stop::Point(point) => self.rig.points[point].at_m,
            Stop::Node { body, .. } | Stop::Edge { body, .. } => {
                let at_m = self.rig.bodies[body].at_m;
                core::array::from_fn(|axis| at_m[axis] + hung.cg_m[axis])
            }
        }
    }
}

pub(super) const HOOK: Stop = Stop::Point(0);
/// Nodes of a bar: the ends of its axis.
const BAR_ENDS: [usize; 2] = [0, 1];

/// Builds the rig of a load on a sling set-up, drawn about level, or says which lengths cannot close.
pub fn build(load: &HangingLoad, set_up: &SlingSetUp, stretch: Stretch) -> Result<BuiltRig, String> {
    let lengths = Lengths { stretch };
    let listed = matches!(set_up, SlingSetUp::Pieces { .. });
    if !listed && load.picks_m.len() != 4 {
        return Err(format!(
            "{} picks were read, this arrangement needs four: enter the rig piece by piece",
            load.picks_m.len()
        ));
    }
    match set_up {
        SlingSetUp::Pieces { hung, legs } => pieces(load, hung, legs, &lengths),
        SlingSetUp::FourLegs { legs } => four_legs(load, legs, &lengths),
        SlingSetUp::BarAndCrossBars {
            bar_kg,
            bar_lugs_m,
            top,
            cross_kg,
            cross_lugs_m,
            bridles,
            straps,
        } => {
            let bars = Bars {
                bar_kg: *bar_kg,
                bar_m: *bar_lugs_m,
                cross_kg: *cross_kg,
                cross_m: *cross_lugs_m,
            };
            bar_and_cross_bars(load, &bars, top, bridles, straps, &lengths)
        }
    }
}

pub(super) struct Lengths {
    stretch: Stretch,
}

impl Lengths {
    fn member(&self, from: Stop, to: Stop, line: Line) -> Member {
        Member::between(from, to, line.length_m, self.ea_n(line))
    }

    pub(super) fn ea_n(&self, line: Line) -> f64 {
        match (self.stretch, line.ea_n) {
            (Stretch::Soft, Some([soft_n, _])) => soft_n,
            (Stretch::Stiff, Some([_, stiff_n])) => stiff_n,
            (Stretch::None, _) | (_, None) => STIFF_N,
        }
    }
}

/// Why legs do not reach, with the lengths that would do: `out/cos θ` for legs at 45 and 60° from the horizontal.
pub(super) fn too_short(longest_m: f64, out_m: f64) -> String {
    format!(
        "legs of {} are too short: they need more than {} to reach even flat, {} for 45° and {} for 60° from the horizontal",
        both(longest_m),
        both(out_m),
        both(out_m * core::f64::consts::SQRT_2),
        both(out_m * 2.0)
    )
}

struct Bars {
    bar_kg: f64,
    bar_m: f64,
    cross_kg: f64,
    cross_m: f64,
}

pub(super) fn house(load: &HangingLoad) -> Body {
    let (l, w, h) = (load.length_m, load.width_m, load.height_m);
    let floor = [[0.0, 0.0], [l, 0.0], [l, w], [0.0, w]];
    Body {
        masses: vec![MassItem {
            mass_kg: load.mass_kg,
            at_m: load.cg_m,
        }],
        nodes_m: load.picks_m.clone(),
        edges: load.edges_m.iter().map(|edge| outward(load, *edge)).collect(),
        corners_m: [0.0, h].iter().flat_map(|z| floor.map(|[x, y]| [x, y, *z])).collect(),
        ..Body::default()
    }
}

/// An edge of the box; outwards is away from the box's middle.
fn outward(load: &HangingLoad, [from_m, to_m]: [[f64; 3]; 2]) -> Edge {
    let middle_m = [load.length_m, load.width_m, load.height_m].map(|size_m| size_m / 2.0);
    Edge {
        from_m,
        to_m,
        outward: core::array::from_fn(|axis| (from_m[axis] + to_m[axis]) / 2.0 - middle_m[axis]),
    }
}

/// A straight bar drawn level with its middle at a place; `along` is the direction of its axis, 0 for x and 1 for y.
fn bar(mass_kg: f64, lugs_m: f64, along: usize, at_m: [f64; 3]) -> Body {
    let end = |sign: f64| {
        let mut p = [0.0; 3];
        p[along] = sign * lugs_m / 2.0;
        p
    };
    Body {
        masses: vec![MassItem {
            mass_kg,
            at_m: [0.0; 3],
        }],
        nodes_m: vec![end(-1.0), end(1.0)],
        at_m,
        ..Body::default()
    }
}

fn four_legs(load: &HangingLoad, legs: &[Line; 4], lengths: &Lengths) -> Result<BuiltRig, String> {
    let mean = |axis: usize| load.picks_m.iter().map(|p| p[axis]).sum::<f64>() / 4.0;
    let middle = [mean(0), mean(1), mean(2)];
    let longest_m = legs.iter().map(|l| l.length_m).fold(0.0, f64::max);
    let out2 = load
        .picks_m
        .iter()
        .map(|p| (p[0] - middle[0]).powi(2) + (p[1] - middle[1]).powi(2))
        .fold(0.0, f64::max);
    let rise2 = longest_m * longest_m - out2;
    if rise2 <= 0.0 {
        return Err(too_short(longest_m, out2.sqrt()));
    }
    let hook = Point {
        at_m: [middle[0], middle[1], middle[2] + rise2.sqrt()],
        mass_kg: 0.0,
        fixed: true,
    };
    let members = legs
        .iter()
        .enumerate()
        .map(|(node, leg)| lengths.member(HOOK, Stop::Node { body: 0, node }, *leg))
        .collect();
    Ok(BuiltRig {
        rig: Rig {
            bodies: vec![house(load)],
            points: vec![hook],
            members,
        },
        kinds: CORNERS.map(MemberKind::Leg).to_vec(),
        pieces: Vec::new(),
    })
}

fn bar_and_cross_bars(
    load: &HangingLoad,
    bars: &Bars,
    top: &[Line; 2],
    bridles: &[[Line; 2]; 2],
    straps: &[[Line; 2]; 2],
    lengths: &Lengths,
) -> Result<BuiltRig, String> {
    let (hook_m, rise_m) = apex_m(top[0].length_m, top[1].length_m, bars.bar_m).ok_or_else(|| {
        format!(
            "the top legs of {} and {} do not meet over a bar of {}",
            both(top[0].length_m),
            both(top[1].length_m),
            both(bars.bar_m)
        )
    })?;
    let [a, b, c, _] = load.four_picks_m();
    let (mid_x, mid_y) = ((a[0] + c[0]) / 2.0, (a[1] + b[1]) / 2.0);
    let cross_z = load.picks_m.iter().map(|p| p[2]).sum::<f64>() / 4.0
        + straps.iter().flatten().map(|s| s.length_m).sum::<f64>() / 4.0;
    let mut bodies = vec![house(load)];
    let mut members = Vec::with_capacity(10);
    let mut kinds = Vec::with_capacity(10);
    let mut bar_z = f64::NEG_INFINITY;
    for (end, x) in [a[0], c[0]].into_iter().enumerate() {
        let legs = &bridles[end];
        let (_, up_m) = apex_m(legs[0].length_m, legs[1].length_m, bars.cross_m).ok_or_else(|| {
            format!(
                "the bridle legs of {} and {} do not meet over a cross bar of {}",
                both(legs[0].length_m),
                both(legs[1].length_m),
                both(bars.cross_m)
            )
        })?;
        bar_z = bar_z.max(cross_z + up_m);
        bodies.push(bar(bars.cross_kg, bars.cross_m, 1, [x, mid_y, cross_z]));
    }
    let bar_body = bodies.len();
    bodies.push(bar(bars.bar_kg, bars.bar_m, 0, [mid_x, mid_y, bar_z]));
    for end in 0..2 {
        let lug = Stop::Node {
            body: bar_body,
            node: BAR_ENDS[end],
        };
        members.push(lengths.member(HOOK, lug, top[end]));
        kinds.push(MemberKind::Top { end });
        for side in 0..2 {
            let cross_lug = Stop::Node {
                body: 1 + end,
                node: BAR_ENDS[side],
            };
            let pick = Stop::Node {
                body: 0,
                node: 2 * end + side,
            };
            let corner = Corner { end, side };
            members.push(lengths.member(lug, cross_lug, bridles[end][side]));
            kinds.push(MemberKind::Bridle(corner));
            members.push(lengths.member(cross_lug, pick, straps[end][side]));
            kinds.push(MemberKind::Strap(corner));
        }
    }
    let hook = Point {
        at_m: [mid_x - bars.bar_m / 2.0 + hook_m, mid_y, bar_z + rise_m],
        mass_kg: 0.0,
        fixed: true,
    };
    Ok(BuiltRig {
        rig: Rig {
            bodies,
            points: vec![hook],
            members,
        },
        kinds,
        pieces: Vec::new(),
    })
}
