//! A rig tried out beside the plan: a leg longer, slings or a box that give, one end on a running sling; and where everything would be if level.

use super::hang::{equalised_member, in_box_m, one_end_running, walls, words};
use super::hung::{Corner, Figure, HangingLoad, MemberKind, SlingSetUp, WallTouch};
use super::rig::{BuiltRig, Stretch, build};
use super::worst::giving;
use crate::statics::{self, Hang, MassItem};
use serde::Serialize;

/// Places nearer than this are one, m.
const ONE_PLACE_M: f64 = 1e-6;

/// What is tried.
#[derive(Clone, Debug, PartialEq)]
pub struct TryOut {
    /// What each member is longer than its nominal length, m, in the order of the members; missing ones by nothing.
    pub longer_m: Vec<f64>,
    /// How the legs stretch.
    pub stretch: Stretch,
    /// Legs are softer by this factor than that; above nothing, without effect where they do not stretch.
    pub softer: f64,
    /// Stiffness of the box against twist between its pick sections, N·m²; infinite is rigid.
    pub gj_n_m2: f64,
    /// Where the box's mass is, for the twist. Empty: all at the centre of gravity.
    pub masses: Vec<MassItem>,
    /// On four legs: the two legs at this end are one sling that runs freely over a block at the hook.
    pub equalised_end: Option<usize>,
}

impl TryOut {
    /// As the lift table has it: nominal lengths, no stretch, a rigid box.
    pub const fn nominal() -> Self {
        Self {
            longer_m: Vec::new(),
            stretch: Stretch::None,
            softer: 1.0,
            gj_n_m2: f64::INFINITY,
            masses: Vec::new(),
            equalised_end: None,
        }
    }
}

/// A leg as it hangs so.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TriedLeg {
    /// Which.
    pub kind: MemberKind,
    /// Tension, N: what this hang gives, not what to design with.
    pub tension_n: f64,
    /// It carries nothing.
    pub slack: bool,
}

/// How the load hangs so.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tried {
    /// Every leg, in the order of the members; two legs that are one running sling have its tension.
    pub legs: Vec<TriedLeg>,
    /// Load on the hook, N.
    pub hook_load_n: f64,
    /// Tilt along, rad; above 0 the second end hangs lower.
    pub along_rad: f64,
    /// Tilt across, rad, of the section with the centre of gravity; above 0 the second side hangs lower.
    pub across_rad: f64,
    /// Twist between the farthest pick sections, rad.
    pub twist_rad: f64,
    /// How far one pick lies out of the plane of the other three, m; the most of any bay.
    pub racking_m: f64,
    /// Legs that touch a wall, `member` being their place among the legs. Reported only: a wall holds nothing.
    pub touches: Vec<WallTouch>,
    /// Where legs bend round an edge of the box: the leg, and the place, m.
    pub bends: Vec<(usize, [f64; 3])>,
    /// Where everything is.
    pub hung: Figure,
    /// Where everything would be with box and bars level below the same hook: tilts are drawn larger from there.
    pub level: Figure,
}

/// Corners of the floor in the order of [`Figure::box_m`].
const FLOOR: [Corner; 4] = [
    Corner { end: 0, side: 0 },
    Corner { end: 1, side: 0 },
    Corner { end: 1, side: 1 },
    Corner { end: 0, side: 1 },
];

impl Tried {
    /// The corner of the floor that hangs lowest, and how far below the highest, m.
    pub fn low_corner(&self) -> (Corner, f64) {
        let heights = || self.hung.box_m.iter().map(|p| p[2]).zip(FLOOR);
        let low = heights().min_by(|a, b| a.0.total_cmp(&b.0));
        let high_m = heights().map(|(z, _)| z).fold(f64::NEG_INFINITY, f64::max);
        low.map_or((FLOOR[0], 0.0), |(z, corner)| (corner, high_m - z))
    }

    /// The steepest of its tilts and half its twist, rad: what a drawing has to make visible.
    pub fn steepest_rad(&self) -> f64 {
        let half_twist = self.twist_rad.abs() / 2.0;
        self.along_rad.abs().max(self.across_rad.abs()).max(half_twist)
    }
}

/// How a load hangs on a set-up that is changed so.
///
/// # Errors
/// Why it does not hang, or what cannot be tried on this set-up.
pub fn try_out(load: &HangingLoad, set_up: &SlingSetUp, what: &TryOut) -> Result<Tried, String> {
    let legs = Legs {
        kinds: build(load, set_up, Stretch::None)?.kinds,
        equalised_end: what.equalised_end,
    };
    let running = what.equalised_end.map(|end| one_end_running(set_up, end)).transpose()?;
    let built = build(load, running.as_ref().unwrap_or(set_up), what.stretch)?;
    let mut built = giving(built, load, Some(what.gj_n_m2), None, &what.masses);
    for (leg, longer_m) in what.longer_m.iter().enumerate().take(legs.kinds.len()) {
        built.rig.members[legs.member(leg)].length_m += longer_m;
    }
    if what.stretch != Stretch::None {
        let members = &mut built.rig.members;
        members.iter_mut().for_each(|member| member.ea_n /= what.softer);
    }
    // they ride the twist as corners do
    let marks = load.picks_m.iter().copied().chain([load.cg_m]);
    built.rig.bodies[0].corners_m.extend(marks);
    let at_rest = statics::hang(&built.rig, None).map_err(|reason| words(&reason, &built))?;
    Ok(told(load, &built, &at_rest, &legs))
}

/// The legs as they are told: two that are one running sling are told apart.
struct Legs {
    kinds: Vec<MemberKind>,
    equalised_end: Option<usize>,
}

impl Legs {
    /// The member that a leg is.
    fn member(&self, leg: usize) -> usize {
        self.equalised_end.map_or(leg, |end| equalised_member(end, leg))
    }

    /// The leg of a member that comes from a pick: on four legs it has the pick's place in the list.
    fn leg(&self, member: usize, pick: usize) -> usize {
        if self.equalised_end.is_some() { pick } else { member }
    }
}

fn told(load: &HangingLoad, built: &BuiltRig, at_rest: &Hang, legs: &Legs) -> Tried {
    let house = &at_rest.bodies[0];
    let hung = figure(load, built, at_rest, legs);
    let twists = built.rig.bodies[0].twist.is_some();
    let bays = house.bays.iter().filter(|_| twists);
    let twist_rad: f64 = bays.clone().map(|bay| bay.twist_rad).sum();
    let racking_m = bays.map(|bay| bay.racking_m.abs()).fold(0.0, f64::max);
    let leg = |(i, kind): (usize, &MemberKind)| {
        let pull = &at_rest.members[legs.member(i)];
        TriedLeg {
            kind: *kind,
            tension_n: pull.tension_n,
            slack: pull.slack,
        }
    };
    let picks_m = &house.corners_m[8..8 + load.picks_m.len()];
    let bends_of = |leg: usize| {
        let contacts = &at_rest.members[legs.member(leg)].contacts;
        contacts.iter().map(move |contact| (leg, contact.at_m))
    };
    let bends: Vec<(usize, [f64; 3])> = (0..legs.kinds.len()).flat_map(bends_of).collect();
    let of_leg = |touch: WallTouch| WallTouch {
        member: legs.leg(touch.member, touch.pick),
        ..touch
    };
    Tried {
        legs: legs.kinds.iter().enumerate().map(leg).collect(),
        hook_load_n: at_rest.hook_load_n,
        along_rad: -house.tilt_along_rad,
        across_rad: -house.tilt_across_rad,
        twist_rad,
        racking_m,
        touches: walls(load, built, at_rest).into_iter().map(of_leg).collect(),
        level: level(load, &hung, at_rest, picks_m, &bends, house.heading_rad),
        bends,
        hung,
    }
}

fn is_near(a: [f64; 3], b: [f64; 3]) -> bool {
    (0..3).all(|k| (a[k] - b[k]).abs() < ONE_PLACE_M)
}

/// Where everything is, a running sling told as the two legs it is made of.
fn figure(load: &HangingLoad, built: &BuiltRig, at_rest: &Hang, legs: &Legs) -> Figure {
    let solved = super::hang::figure(load, built, at_rest);
    let way = |leg: usize| {
        let way = &solved.ways_m[legs.member(leg)];
        match (legs.equalised_end, &way[..]) {
            (Some(_), &[first, hook, last]) => vec![hook, [first, last][leg % 2]],
            _ => way.clone(),
        }
    };
    let ways_m: Vec<Vec<[f64; 3]>> = (0..legs.kinds.len()).map(way).collect();
    let corners_m = &at_rest.bodies[0].corners_m;
    Figure {
        cg_m: corners_m[corners_m.len() - 1],
        legs_m: ways_m
            .iter()
            .map(|way| [way.first(), way.last()].map(|end| end.copied().unwrap_or_default()))
            .collect(),
        ways_m,
        ..solved
    }
}

/// Box and bars level, headed as they hang, the box's centre of gravity where it is.
fn level(
    load: &HangingLoad,
    hung: &Figure,
    at_rest: &Hang,
    picks_m: &[[f64; 3]],
    bends: &[(usize, [f64; 3])],
    heading_rad: f64,
) -> Figure {
    let (sin, cos) = libm::sincos(heading_rad);
    let box_place = |p: [f64; 3]| {
        let [x, y, z]: [f64; 3] = core::array::from_fn(|i| p[i] - load.cg_m[i]);
        let [cx, cy, cz] = hung.cg_m;
        [cx + cos * x - sin * y, cy + sin * x + cos * y, cz + z]
    };
    let (l, w, h) = (load.length_m, load.width_m, load.height_m);
    let floor = [[0.0, 0.0], [l, 0.0], [l, w], [0.0, w]];
    let level_picks: Vec<[f64; 3]> = load.picks_m.iter().map(|p| box_place(*p)).collect();
    // bars hang above the picks: level, they stand as far to the side as the picks have moved
    let count = picks_m.len().max(1) as f64;
    let aside = [0, 1].map(|k| picks_m.iter().zip(&level_picks).map(|(a, b)| b[k] - a[k]).sum::<f64>() / count);
    let bars_m: Vec<[[f64; 3]; 2]> = hung.bars_m.iter().map(|bar| level_bar(*bar, aside)).collect();
    let moved = |p: [f64; 3]| {
        if bends.iter().any(|(_, at_m)| is_near(*at_m, p)) {
            return box_place(in_box_m(&at_rest.state.bodies[0], p));
        }
        let from = picks_m.iter().chain(hung.bars_m.iter().flatten());
        let to = level_picks.iter().chain(bars_m.iter().flatten());
        from.zip(to).find(|(a, _)| is_near(**a, p)).map_or(p, |(_, b)| *b)
    };
    Figure {
        hook_m: hung.hook_m,
        box_m: core::array::from_fn(|i| {
            let [x, y] = floor[i % 4];
            box_place([x, y, if i < 4 { 0.0 } else { h }])
        }),
        cg_m: hung.cg_m,
        legs_m: hung.legs_m.iter().map(|leg| leg.map(moved)).collect(),
        ways_m: hung
            .ways_m
            .iter()
            .map(|way| way.iter().copied().map(&moved).collect())
            .collect(),
        bars_m,
    }
}

/// A bar turned level about its middle and moved aside.
fn level_bar([a, b]: [[f64; 3]; 2], aside: [f64; 2]) -> [[f64; 3]; 2] {
    let run = [b[0] - a[0], b[1] - a[1]];
    let length = (run[0] * run[0] + run[1] * run[1] + (b[2] - a[2]).powi(2)).sqrt();
    let flat = libm::hypot(run[0], run[1]).max(1e-9);
    let end = |sign: f64| {
        let along = |k: usize| (a[k] + b[k]) / 2.0 + aside[k] + sign * run[k] / flat * length / 2.0;
        [along(0), along(1), (a[2] + b[2]) / 2.0]
    };
    [end(-1.0), end(1.0)]
}
