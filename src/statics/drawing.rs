//! What a rig's drawing shows without solving anything: a hook below what it carries, slings that cannot reach, a centre of
//! gravity outside its picks.

use super::Vec3;
use super::fault::NoHang;
use super::rig::{Member, Rig, Stop};
use crate::geometry::{convex_hull, distance_m};

/// What the drawing shows without solving anything.
pub(super) fn fault(rig: &Rig) -> Option<NoHang> {
    below_pick(rig).or_else(|| shorter_than_span(rig))
}

/// Whether a member is made fast to a body or runs through a node of it.
pub(super) fn touches(member: &Member, body: usize) -> bool {
    member
        .path
        .iter()
        .any(|stop| matches!(*stop, Stop::Node { body: on, .. } if on == body))
}

/// Where a stop is drawn, m.
fn drawn_m(rig: &Rig, stop: Stop) -> [f64; 3] {
    let on_body = |body: usize, at_m: [f64; 3]| {
        let body = &rig.bodies[body];
        let (sin, cos) = libm::sincos(body.heading_rad);
        let [x, y, z] = at_m;
        [
            body.at_m[0] + cos * x - sin * y,
            body.at_m[1] + sin * x + cos * y,
            body.at_m[2] + z,
        ]
    };
    match stop {
        Stop::Point(point) => rig.points[point].at_m,
        Stop::Node { body, node } => on_body(body, rig.bodies[body].nodes_m[node]),
        Stop::Edge { body, edge } => on_body(body, rig.bodies[body].edges[edge].from_m),
    }
}

/// A member from a fixed point whose other end is drawn level with it or above.
fn below_pick(rig: &Rig) -> Option<NoHang> {
    let is_fixed = |stop: Stop| matches!(stop, Stop::Point(point) if rig.points[point].fixed);
    rig.members.iter().enumerate().find_map(|(index, member)| {
        let ends = [member.path[0], member.path[member.path.len() - 1]];
        let (hook, pick) = match ends.map(is_fixed) {
            [true, false] => (ends[0], ends[1]),
            [false, true] => (ends[1], ends[0]),
            _ => return None,
        };
        let below_m = drawn_m(rig, pick)[2] - drawn_m(rig, hook)[2];
        (below_m >= 0.0).then_some(NoHang::HookBelowPick { member: index, below_m })
    })
}

/// Members that cannot reach: two plain ones from one stop to one body, or one with both ends on one body.
fn shorter_than_span(rig: &Rig) -> Option<NoHang> {
    let lone = rig.members.iter().enumerate().find_map(|(index, member)| {
        let ends = [member.path[0], member.path[member.path.len() - 1]];
        short(rig, [index, index], ends, member.free_length_m())
    });
    lone.or_else(|| {
        (0..rig.members.len()).find_map(|a| (a + 1..rig.members.len()).find_map(|b| pair_short(rig, [a, b])))
    })
}

/// Two plain members that share a stop and are together shorter than the distance between their other ends.
fn pair_short(rig: &Rig, [a, b]: [usize; 2]) -> Option<NoHang> {
    let (&[a_from, a_to], &[b_from, b_to]) = (&rig.members[a].path[..], &rig.members[b].path[..]) else {
        return None;
    };
    let ways = [
        (a_from, b_from, a_to, b_to),
        (a_from, b_to, a_to, b_from),
        (a_to, b_from, a_from, b_to),
        (a_to, b_to, a_from, b_from),
    ];
    let (_, _, a_end, b_end) = ways.into_iter().find(|(a_shared, b_shared, ..)| a_shared == b_shared)?;
    let length_m = rig.members[a].free_length_m() + rig.members[b].free_length_m();
    short(rig, [a, b], [a_end, b_end], length_m)
}

/// Whether a length falls short of the distance between two nodes of one body.
fn short(rig: &Rig, members: [usize; 2], ends: [Stop; 2], length_m: f64) -> Option<NoHang> {
    let [Stop::Node { body: a, node: from }, Stop::Node { body: b, node: to }] = ends else {
        return None;
    };
    if a != b {
        return None;
    }
    let nodes_m = &rig.bodies[a].nodes_m;
    let span_m = (Vec3::from(nodes_m[from]) - Vec3::from(nodes_m[to])).norm();
    (span_m > 0.0 && length_m <= span_m).then_some(NoHang::ShorterThanSpan {
        members,
        length_m,
        span_m,
    })
}

/// How far a body's centre of gravity is outside its picks in its own plan, m, if it is.
///
/// Only for a body that carries nothing: every member on it goes up as drawn. Two picks are a line, and the centre of
/// gravity may be beside it but not beyond its ends.
pub(super) fn outside_m(rig: &Rig, body: usize) -> Option<f64> {
    let cg_m = rig.bodies[body].cg_m()?;
    let on_body =
        |stop: &Stop| matches!(*stop, Stop::Node { body: on, .. } | Stop::Edge { body: on, .. } if on == body);
    let mut picks_m: Vec<[f64; 2]> = Vec::new();
    for member in rig.members.iter().filter(|member| touches(member, body)) {
        let nodes = member.path.iter().filter_map(|stop| match *stop {
            Stop::Node { body: on, node } if on == body => {
                Some((drawn_m(rig, *stop)[2], rig.bodies[body].nodes_m[node]))
            }
            _ => None,
        });
        let others = member
            .path
            .iter()
            .filter(|stop| !on_body(stop))
            .map(|stop| drawn_m(rig, *stop)[2]);
        let top_m = others.fold(f64::NEG_INFINITY, f64::max);
        for (height_m, [x_m, y_m, _]) in nodes {
            if height_m >= top_m {
                return None;
            }
            picks_m.push([x_m, y_m]);
        }
    }
    outside_hull_m(&picks_m, [cg_m[0], cg_m[1]])
}

/// How far a place is outside the convex hull of others, m; for others on one line, how far beyond its ends.
fn outside_hull_m(places_m: &[[f64; 2]], at_m: [f64; 2]) -> Option<f64> {
    let hull = convex_hull(places_m);
    let from = *hull.first()?;
    let to = hull
        .iter()
        .copied()
        .max_by(|a, b| distance_m(from, *a).total_cmp(&distance_m(from, *b)))?;
    let span_m = distance_m(from, to);
    if span_m == 0.0 {
        return None;
    }
    // How far a place is to the right of the way from one place to another.
    let right_m = |a: [f64; 2], b: [f64; 2], p: [f64; 2]| {
        ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / distance_m(a, b)
    };
    let on_one_line = hull
        .iter()
        .all(|place| right_m(from, to, *place).abs() <= 1e-9 * span_m);
    let outside_m = if on_one_line {
        let along_m = ((at_m[0] - from[0]) * (to[0] - from[0]) + (at_m[1] - from[1]) * (to[1] - from[1])) / span_m;
        (-along_m).max(along_m - span_m)
    } else {
        let sides = (0..hull.len()).map(|side| right_m(hull[side], hull[(side + 1) % hull.len()], at_m));
        sides.fold(f64::NEG_INFINITY, f64::max)
    };
    Some(outside_m).filter(|outside_m| *outside_m > 0.0)
}
