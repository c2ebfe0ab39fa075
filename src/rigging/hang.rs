//! How a load hangs: the general hang of its rig, told in the trade's terms.

use super::closed_form::{Across, apex_m, stiff_box_bounds};
use super::hung::{
    EdgePress, Figure, HangingLoad, Hung, Level, Line, Member, MemberKind, PickPull, PieceHung, Run, SlingSetUp,
    TwistBay, WallTouch,
};
use super::rig::{BuiltRig, STIFF_N, Stretch, build};
use super::share_bound::{Part as Balanced, largest_n};
use super::stiffness::in_series_n;
use super::wall::{FromPick, touches};
use crate::quantity::{STANDARD_GRAVITY_M_S2 as G, both};
use crate::statics::{self, BodyState, Hang, NoHang, Part, State, Stop};

/// Picks this far apart in height or plan still count as one rectangle for the stiff box's bound, m.
const RECTANGLE_M: f64 = 0.01;

/// A lug this near the middle of a piece presses neither half, m.
const ONE_PLACE_M: f64 = 1e-6;
/// The centre of gravity is moved by this for the righting height of a rig entered piece by piece, m.
const NUDGE_M: f64 = 0.01;

/// How a load hangs, or why it does not.
///
/// Slings and straps do not stretch and weigh nothing here; bars have their mass. A member's `tension_n` is the one to design with: on four
/// legs to one hook, and on a rig entered piece by piece, the bound for a stiff box, whatever the legs' small differences.
pub fn hang(load: &HangingLoad, set_up: &SlingSetUp) -> Result<Hung, String> {
    let built = build(load, set_up, Stretch::None)?;
    hang_built(load, set_up, &built)
}

/// The same with its legs at the soft end of their stiffness: how stretch moves the level.
pub fn hang_stretched(load: &HangingLoad, set_up: &SlingSetUp) -> Result<Hung, String> {
    let built = build(load, set_up, Stretch::Soft)?;
    hang_built(load, set_up, &built)
}

/// A rig hung with one end's two legs made one sling that runs freely over the hook: its lengths then share nothing unevenly, and equilibrium alone
/// gives every tension. `end` 0 is the first. Only for four legs; which member each is: [`equalised_member`].
pub fn equalised(load: &HangingLoad, set_up: &SlingSetUp, end: usize) -> Result<Hung, String> {
    hang(load, &one_end_running(set_up, end)?)
}

/// Which member of an equalised rig one of the four legs is: the running sling comes first, then the legs of the other end.
pub const fn equalised_member(end: usize, leg: usize) -> usize {
    if leg / 2 == end { 0 } else { 1 + leg % 2 }
}

/// Four legs with the two of one end made one sling over the hook.
pub(super) fn one_end_running(set_up: &SlingSetUp, end: usize) -> Result<SlingSetUp, String> {
    let SlingSetUp::FourLegs { legs } = set_up else {
        return Err("only the two legs of one end of a rig of four legs can be one running sling".into());
    };
    let [a, b, c, d] = [0, 1, 2, 3].map(|i| (2 * end + i) % 4);
    let (first, second) = (legs[a], legs[b]);
    let stiff = |line: Line, end: usize| (line.length_m, line.ea_n.map_or(STIFF_N, |ea_n| ea_n[end]));
    let running = Line {
        length_m: first.length_m + second.length_m,
        ea_n: Some([0, 1].map(|end| in_series_n(&[stiff(first, end), stiff(second, end)]))),
    };
    let fixed = |leg: usize| (legs[leg], vec![Run::Hook, Run::Pick(leg)]);
    Ok(SlingSetUp::Pieces {
        hung: Vec::new(),
        legs: vec![
            (running, vec![Run::Pick(a), Run::Hook, Run::Pick(b)]),
            fixed(c),
            fixed(d),
        ],
    })
}

/// How a rig that was built of the load and the set-up hangs.
pub(super) fn hang_built(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig) -> Result<Hung, String> {
    let at_rest = statics::hang(&built.rig, None).map_err(|reason| words(&reason, built))?;
    Ok(told(load, set_up, built, &at_rest))
}

fn told(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig, at_rest: &Hang) -> Hung {
    let figure = figure(load, built, at_rest);
    let house = &at_rest.bodies[0];
    let levers = levers_m(load, set_up, built, at_rest, &figure);
    let level = |tilt_rad: f64, rise_m: f64, axis: usize| Level {
        tilt_rad: -tilt_rad,
        rise_m: rise_m.abs(),
        margin_m: levers[axis].map(|[_, margin_m]| margin_m),
        offset_m: levers[axis].map(|[offset_m, _]| offset_m),
    };
    let members = members(load, set_up, built, at_rest);
    let floor_m = figure.box_m[..4].iter().map(|p| p[2]).fold(f64::INFINITY, f64::min);
    let across_kn = |kinds: fn(&MemberKind) -> bool| horizontal_n(&members, kinds);
    let on_bars = matches!(set_up, SlingSetUp::BarAndCrossBars { .. });
    let end_of = |end: usize| -> f64 {
        members
            .iter()
            .filter(|m| matches!(m.kind, MemberKind::Strap(c) if c.end == end))
            .map(|m| m.vertical_n)
            .sum::<f64>()
            / G
    };
    let cross_kg = match set_up {
        SlingSetUp::BarAndCrossBars { cross_kg, .. } => *cross_kg,
        _ => 0.0,
    };
    let hook_m = in_box_m(&at_rest.state.bodies[0], figure.hook_m);
    Hung {
        hook_above_floor_m: figure.hook_m[2] - floor_m,
        along: level(house.tilt_along_rad, house.rise_along_m, 0),
        across: level(house.tilt_across_rad, house.rise_across_m, 1),
        bar_compression_n: on_bars.then(|| across_kn(|k| matches!(k, MemberKind::Top { .. }))),
        cross_compression_n: on_bars.then(|| {
            [
                across_kn(|k| matches!(k, MemberKind::Bridle(c) if c.end == 0)),
                across_kn(|k| matches!(k, MemberKind::Bridle(c) if c.end == 1)),
            ]
        }),
        below_bar_kg: on_bars.then_some(load.mass_kg + 2.0 * cross_kg),
        below_cross_kg: on_bars.then(|| [end_of(0), end_of(1)]),
        pieces: pieces_hung(built, at_rest),
        picks: picks(at_rest),
        edges: edges(at_rest),
        walls: walls(load, built, at_rest),
        twist: twist(at_rest),
        hook_over_m: [hook_m[0], hook_m[1]],
        members,
        figure,
    }
}

/// Largest horizontal part of the tensions of some members, N: what a bar between them is pressed with.
fn horizontal_n(members: &[Member], kinds: fn(&MemberKind) -> bool) -> f64 {
    members
        .iter()
        .filter(|m| kinds(&m.kind))
        .map(|m| m.shared_n * libm::cos(m.angle_rad))
        .fold(0.0, f64::max)
}

fn members(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig, at_rest: &Hang) -> Vec<Member> {
    let bounds_n = bounds_n(load, set_up, built, at_rest);
    built
        .kinds
        .iter()
        .zip(&built.rig.members)
        .zip(&at_rest.members)
        .enumerate()
        .map(|(i, ((kind, line), pull))| {
            let angle_rad = flattest_rad(&pull.angles_from_horizontal_rad);
            let sine = libm::sin(angle_rad);
            let bound_n = bounds_n.as_ref().and_then(|bounds_n| bounds_n.get(i).copied());
            let tension_n = bound_n.map_or(pull.tension_n, |bound_n| bound_n.max(pull.tension_n));
            Member {
                kind: *kind,
                length_m: line.length_m,
                angle_rad,
                vertical_n: tension_n * sine,
                tension_n,
                shared_n: pull.tension_n,
                slack: pull.slack,
            }
        })
        .collect()
}

fn flattest_rad(angles_rad: &[f64]) -> f64 {
    angles_rad.iter().copied().reduce(f64::min).unwrap_or_default()
}

/// The most that each member of a stiff box's rig can come to carry, N, where its legs share by their lengths: on four legs by the smaller of end
/// and side share, piece by piece by equilibrium where it hangs.
pub(super) fn bounds_n(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig, at_rest: &Hang) -> Option<Vec<f64>> {
    if matches!(set_up, SlingSetUp::Pieces { .. }) {
        return largest_n(&parts(built, at_rest), built.rig.members.len());
    }
    let shares = four_leg_bounds(load, set_up)?;
    let of_leg = |(leg, share): (&statics::MemberHang, f64)| {
        load.mass_kg * G * share / libm::sin(flattest_rad(&leg.angles_from_horizontal_rad))
    };
    Some(at_rest.members.iter().zip(shares).map(of_leg).collect())
}

/// The parts of a rig at rest with all that pulls at them.
fn parts(built: &BuiltRig, at_rest: &Hang) -> Vec<Balanced> {
    let (rig, state) = (&built.rig, &at_rest.state);
    let body = |(body, now): (&statics::Body, &BodyState)| {
        let at_m = in_space(now, body.cg_m().unwrap_or_default());
        Balanced::of(body.mass_kg(), at_m, false)
    };
    let mut parts: Vec<Balanced> = rig.bodies.iter().zip(&state.bodies).map(body).collect();
    let mut of_point = vec![None; rig.points.len()];
    for (index, point) in rig.points.iter().enumerate().filter(|(_, point)| !point.fixed) {
        of_point[index] = Some(parts.len());
        parts.push(Balanced::of(point.mass_kg, state.points_m[index], true));
    }
    for member in 0..rig.members.len() {
        let way = way(built, at_rest, member);
        for (here, (stop, at_m)) in way.iter().enumerate() {
            let part = match *stop {
                Stop::Point(point) => of_point[point],
                Stop::Node { body, .. } | Stop::Edge { body, .. } => Some(body),
            };
            let beside = [here.checked_sub(1), Some(here + 1)];
            let pulls = beside.into_iter().flatten().filter_map(|there| way.get(there));
            let pull = pulls.fold([0.0; 3], |sum, (_, to_m)| plus(sum, unit(*at_m, *to_m)));
            if let Some(part) = part {
                parts[part].pulls.push((member, pull, *at_m));
            }
        }
    }
    parts
}

fn plus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|axis| a[axis] + b[axis])
}

/// Unit vector from one place to another; none where they are one.
fn unit(from: [f64; 3], to: [f64; 3]) -> [f64; 3] {
    let run: [f64; 3] = core::array::from_fn(|axis| to[axis] - from[axis]);
    let length = run.iter().map(|x| x * x).sum::<f64>().sqrt();
    run.map(|x| if length > 0.0 { x / length } else { 0.0 })
}

/// What a member touches as it hangs, and where, m: an edge only where it bears on it.
fn way(built: &BuiltRig, at_rest: &Hang, member: usize) -> Vec<(Stop, [f64; 3])> {
    let contacts = &at_rest.members[member].contacts;
    let place = |stop: &Stop| match *stop {
        Stop::Point(point) => Some(at_rest.state.points_m[point]),
        Stop::Node { body, node } => at_rest.bodies[body]
            .picks
            .iter()
            .find(|p| p.node == node)
            .map(|p| p.at_m),
        Stop::Edge { body, edge } => contacts
            .iter()
            .find(|c| (c.body, c.edge) == (body, edge))
            .map(|c| c.at_m),
    };
    let path = &built.rig.members[member].path;
    path.iter().filter_map(|stop| Some((*stop, place(stop)?))).collect()
}

/// What hangs below each piece, and what it is pressed with between its farthest lugs.
fn pieces_hung(built: &BuiltRig, at_rest: &Hang) -> Vec<PieceHung> {
    if built.pieces.is_empty() {
        return Vec::new();
    }
    let parts = parts(built, at_rest);
    let bodies = built.rig.bodies.len();
    let part_of = |stop: &Stop| match *stop {
        Stop::Node { body, .. } | Stop::Edge { body, .. } => body,
        // the hook is fixed and no part
        Stop::Point(point) => bodies + point - 1,
    };
    let piece = |stop: &Stop| {
        let down_n =
            |(member, pull, _): &(usize, [f64; 3], [f64; 3])| (-pull[2]).max(0.0) * at_rest.members[*member].tension_n;
        PieceHung {
            below_kg: parts[part_of(stop)].pulls.iter().map(down_n).sum::<f64>() / G,
            compression_n: match *stop {
                Stop::Node { body, .. } => compression_n(&built.rig.bodies[body].nodes_m, &at_rest.bodies[body].picks),
                _ => None,
            },
        }
    };
    built.pieces.iter().map(piece).collect()
}

/// Mean of what both halves of a piece are pressed with along the line between its farthest lugs, N: what its lugs push towards the middle.
fn compression_n(lugs_m: &[[f64; 3]], pulls: &[statics::Pick]) -> Option<f64> {
    let pairs = lugs_m.iter().flat_map(|a| lugs_m.iter().map(move |b| (*a, *b)));
    let length2 = |a: [f64; 3], b: [f64; 3]| (0..3).map(|i| (b[i] - a[i]).powi(2)).sum::<f64>();
    let (a, b) = pairs.max_by(|p, q| length2(p.0, p.1).total_cmp(&length2(q.0, q.1)))?;
    if length2(a, b) <= 0.0 {
        return None;
    }
    let along = unit(a, b);
    let dot = |p: [f64; 3], q: [f64; 3]| (0..3).map(|i| p[i] * q[i]).sum::<f64>();
    let middle = dot(core::array::from_fn(|i| (a[i] + b[i]) / 2.0), along);
    let push = |pull: &statics::Pick| {
        let off_m = middle - dot(lugs_m[pull.node], along);
        let inward = if off_m.abs() < ONE_PLACE_M { 0.0 } else { off_m.signum() };
        dot(pull.force_n, along) * inward
    };
    Some(pulls.iter().map(push).sum::<f64>() / 2.0)
}

fn picks(at_rest: &Hang) -> Vec<PickPull> {
    let pick = |pull: &statics::Pick| PickPull {
        pick: pull.node,
        vertical_n: pull.vertical_n,
        inward_along_n: pull.inward_along_n,
        inward_across_n: pull.inward_across_n,
    };
    at_rest.bodies[0].picks.iter().map(pick).collect()
}

fn edges(at_rest: &Hang) -> Vec<EdgePress> {
    let [w, x, y, z] = at_rest.state.bodies[0].attitude;
    let of_member = |(member, pull): (usize, &statics::MemberHang)| {
        let press = |contact: &statics::Contact| EdgePress {
            member,
            edge: contact.edge,
            at_m: contact.at_m,
            bend_rad: contact.angle_rad,
            force_n: turn([w, -x, -y, -z], contact.force_n),
            beyond_end_m: contact.beyond_end_m,
        };
        pull.contacts.iter().map(press).collect::<Vec<_>>()
    };
    at_rest.members.iter().enumerate().flat_map(of_member).collect()
}

fn twist(at_rest: &Hang) -> Vec<TwistBay> {
    let bay = |bay: &statics::Bay| TwistBay {
        twist_rad: bay.twist_rad,
        racking_m: bay.racking_m,
    };
    at_rest.bodies[0].bays.iter().map(bay).collect()
}

/// Legs that would pass through the box on their way up from a pick.
pub(super) fn walls(load: &HangingLoad, built: &BuiltRig, at_rest: &Hang) -> Vec<WallTouch> {
    let corners_m = &at_rest.bodies[0].corners_m;
    let box_m = core::array::from_fn(|i| corners_m[i]);
    let from_pick = |member: usize, [(stop, at_m), (_, next_m)]: [(Stop, [f64; 3]); 2]| match stop {
        Stop::Node { body: 0, node } => Some(FromPick {
            member,
            pick: node,
            run_m: [at_m, next_m],
        }),
        _ => None,
    };
    let of_member = |member: usize| {
        let way = way(built, at_rest, member);
        let runs = way.windows(2).flat_map(|run| [[run[0], run[1]], [run[1], run[0]]]);
        runs.filter_map(|run| from_pick(member, run)).collect::<Vec<_>>()
    };
    touches(load, &box_m, (0..built.rig.members.len()).flat_map(of_member))
}

/// Shares of a stiff box's bound on four legs to picks that form a rectangle; for other picks any leg may carry up to half and its own share.
pub(super) fn four_leg_bounds(load: &HangingLoad, set_up: &SlingSetUp) -> Option<[f64; 4]> {
    let SlingSetUp::FourLegs { .. } = set_up else {
        return None;
    };
    let [a, b, c, d] = load.four_picks_m();
    let same = |p: f64, q: f64| (p - q).abs() <= RECTANGLE_M;
    let rectangle = same(a[0], b[0]) && same(c[0], d[0]) && same(a[1], c[1]) && same(b[1], d[1]);
    let share = |axis: usize, low: f64, high: f64| ((load.cg_m[axis] - low) / (high - low)).clamp(0.0, 1.0);
    if rectangle {
        Some(stiff_box_bounds(share(0, a[0], c[0]), share(1, a[1], b[1])))
    } else {
        Some([0.5 + (share(0, a[0], c[0]) - 0.5).abs(); 4])
    }
}

/// Offset and righting height along and across, m: by hand formulas, and by a small move of the centre of gravity where there is none.
fn levers_m(
    load: &HangingLoad,
    set_up: &SlingSetUp,
    built: &BuiltRig,
    at_rest: &Hang,
    figure: &Figure,
) -> [Option<[f64; 2]>; 2] {
    if matches!(set_up, SlingSetUp::Pieces { .. }) {
        return [0, 1].map(|axis| nudged_lever_m(built, at_rest, axis));
    }
    let (offsets, margins) = (offsets_m(load, set_up), margins_m(load, set_up, figure));
    [0, 1].map(|axis| Some([offsets[axis], margins[axis]]))
}

/// `H = δ/Δtan(tilt)`, `e = H·tan(tilt)`. Source: tan(tilt) = e/H, differenced.
fn nudged_lever_m(built: &BuiltRig, at_rest: &Hang, axis: usize) -> Option<[f64; 2]> {
    let slope = |hang: &Hang| {
        let house = &hang.bodies[0];
        -libm::tan([house.tilt_along_rad, house.tilt_across_rad][axis])
    };
    let mut rig = built.rig.clone();
    rig.bodies[0]
        .masses
        .iter_mut()
        .for_each(|item| item.at_m[axis] += NUDGE_M);
    let moved = statics::hang(&rig, Some(&at_rest.state)).ok()?;
    let margin_m = NUDGE_M / (slope(&moved) - slope(at_rest));
    (margin_m.is_finite() && margin_m > 0.0).then(|| [margin_m * slope(at_rest), margin_m])
}

/// Centre of gravity beside the plumb of the hook as the lengths put it, along and across, m; positive towards the second end and side.
fn offsets_m(load: &HangingLoad, set_up: &SlingSetUp) -> [f64; 2] {
    let [a, b, c, _] = load.four_picks_m();
    let middle = [(a[0] + c[0]) / 2.0, (a[1] + b[1]) / 2.0];
    let mut offsets = [load.cg_m[0] - middle[0], load.cg_m[1] - middle[1]];
    if let SlingSetUp::BarAndCrossBars {
        bar_lugs_m,
        top,
        cross_lugs_m,
        bridles,
        ..
    } = set_up
    {
        let aside = |legs: &[Line; 2], span_m: f64| {
            apex_m(legs[0].length_m, legs[1].length_m, span_m).map_or(0.0, |(x, _)| x - span_m / 2.0)
        };
        offsets[0] -= aside(top, *bar_lugs_m);
        offsets[1] -= bridles.iter().map(|legs| aside(legs, *cross_lugs_m)).sum::<f64>() / 2.0;
    }
    offsets
}

/// Righting heights along and across, m, by the hand formulas: they say how far from turning over the load is.
fn margins_m(load: &HangingLoad, set_up: &SlingSetUp, figure: &Figure) -> [f64; 2] {
    let picks_m = load.four_picks_m();
    let cg_m = load.cg_m[2] - picks_m.iter().map(|p| p[2]).sum::<f64>() / 4.0;
    match set_up {
        SlingSetUp::FourLegs { .. } | SlingSetUp::Pieces { .. } => [figure.hook_m[2] - figure.cg_m[2]; 2],
        SlingSetUp::BarAndCrossBars {
            bar_lugs_m,
            top,
            cross_kg,
            cross_lugs_m,
            bridles,
            ..
        } => {
            let rise = |legs: &[Line; 2], span_m: f64| {
                apex_m(legs[0].length_m, legs[1].length_m, span_m).map_or(0.0, |(_, up)| up)
            };
            let across = Across {
                load_kg: load.mass_kg,
                bars_kg: 2.0 * cross_kg,
                cg_offset_m: 0.0,
                apex_offset_m: 0.0,
                rise_m: bridles.iter().map(|legs| rise(legs, *cross_lugs_m)).sum::<f64>() / 2.0,
                cg_m,
                lugs_m: *cross_lugs_m,
                picks_m: picks_m[1][1] - picks_m[0][1],
            };
            [rise(top, *bar_lugs_m) - cg_m, across.margin_m()]
        }
    }
}

/// Where everything is as it hangs.
pub(super) fn figure(load: &HangingLoad, built: &BuiltRig, at_rest: &Hang) -> Figure {
    let state = &at_rest.state;
    let corners = &at_rest.bodies[0].corners_m;
    let listed = !built.pieces.is_empty();
    let bodies = built.rig.bodies.len();
    // the bar along the box is drawn first where there is one
    let order: Vec<usize> = if listed || bodies < 2 {
        (1..bodies).collect()
    } else {
        core::iter::once(bodies - 1).chain(1..bodies - 1).collect()
    };
    let ways_m: Vec<Vec<[f64; 3]>> = (0..built.rig.members.len())
        .map(|member| way(built, at_rest, member).into_iter().map(|(_, at_m)| at_m).collect())
        .collect();
    Figure {
        hook_m: state.points_m[0],
        box_m: core::array::from_fn(|i| corners[i]),
        cg_m: in_space(&state.bodies[0], load.cg_m),
        bars_m: order.into_iter().flat_map(|body| bars_m(built, state, body)).collect(),
        legs_m: ways_m
            .iter()
            .map(|way| [way.first(), way.last()].map(|end| end.copied().unwrap_or_default()))
            .collect(),
        ways_m,
    }
}

/// A bar from lug to lug; a frame round its lugs.
fn bars_m(built: &BuiltRig, state: &State, body: usize) -> Vec<[[f64; 3]; 2]> {
    let lugs_m: Vec<[f64; 3]> = built.rig.bodies[body]
        .nodes_m
        .iter()
        .map(|lug_m| in_space(&state.bodies[body], *lug_m))
        .collect();
    let round = (lugs_m.len() > 2).then(|| [lugs_m[lugs_m.len() - 1], lugs_m[0]]);
    lugs_m.windows(2).map(|pair| [pair[0], pair[1]]).chain(round).collect()
}

/// A point of a body in space: its origin and its attitude, a unit quaternion w, x, y, z.
pub(super) fn in_space(body: &BodyState, p: [f64; 3]) -> [f64; 3] {
    let turned = turn(body.attitude, p);
    core::array::from_fn(|i| body.at_m[i] + turned[i])
}

/// Where a place in space is in a body's own frame, m.
pub(super) fn in_box_m(body: &BodyState, at_m: [f64; 3]) -> [f64; 3] {
    let [w, x, y, z] = body.attitude;
    turn([w, -x, -y, -z], core::array::from_fn(|i| at_m[i] - body.at_m[i]))
}

/// `p + 2w(q × p) + 2q × (q × p)`, the rotation by a unit quaternion (w, q).
fn turn([w, x, y, z]: [f64; 4], p: [f64; 3]) -> [f64; 3] {
    let cross = |a: [f64; 3], b: [f64; 3]| {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    };
    let q = [x, y, z];
    let once = cross(q, p);
    let twice = cross(q, once);
    core::array::from_fn(|i| p[i] + 2.0 * (w * once[i] + twice[i]))
}

/// Why it does not hang, in the trade's words.
pub(super) fn words(reason: &NoHang, built: &BuiltRig) -> String {
    let name = |i: &usize| built.kinds.get(*i).map_or("a leg", |kind| kind.words());
    match reason {
        NoHang::CgOutsidePicks { body: 0, outside_m } => {
            format!(
                "the centre of gravity is outside the picks by {}: it tips on lift-off; move the picks or the weight",
                both(*outside_m)
            )
        }
        NoHang::GoesOver {
            body,
            toward,
            either_way,
        } => {
            let what = if *body == 0 { "the box" } else { "a bar" };
            let way = match (toward[0].abs() > toward[1].abs(), either_way) {
                (_, true) if toward[1].abs() > toward[0].abs() => "across, either way",
                (_, true) => "along, either way",
                (true, _) if toward[0] > 0.0 => "towards its second end",
                (true, _) => "towards its first end",
                (false, _) if toward[1] > 0.0 => "towards its second side",
                (false, _) => "towards its first side",
            };
            format!(
                "{what} turns over {way}: the slings hold it too low over its picks for its centre of gravity; lengthen the legs above the bar"
            )
        }
        NoHang::ShorterThanSpan {
            members: [a, b],
            length_m,
            span_m,
        } => {
            format!(
                "too short: {} and {} are {} together and must span {}; lengthen them",
                name(a),
                name(b),
                both(*length_m),
                both(*span_m)
            )
        }
        NoHang::HookBelowPick { member, below_m } => {
            format!(
                "{}: its upper end is {} below the end it carries; lengthen the legs",
                name(member),
                both(*below_m)
            )
        }
        NoHang::Overstretched { member, strain } => {
            format!(
                "{} would have to stretch by {:.0} %: the lengths do not close; check them",
                name(member),
                strain * 100.0
            )
        }
        NoHang::Mechanism { part: Part::Member(i) } => {
            format!("{} can move without resistance: the rig does not hold the box", name(i))
        }
        NoHang::Mechanism { part: Part::Body(body) } => {
            let what = if *body == 0 { "the box" } else { "a bar" };
            format!(
                "{what} can move without resistance, its tensions meanwhile the same: the rig does not hold it still"
            )
        }
        other => other.to_string(),
    }
}
