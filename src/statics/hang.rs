//! One rig, one answer: how it hangs, or why it does not.

use super::energy::System;
use super::fault::NoHang;
use super::model::Pose;
use super::newton::TOLERANCE;
use super::report::{self, Hang};
use super::rig::{Member, Rig, State, Stop};

/// Strain beyond which a member is not stretched but too short.
const MOST_STRAIN: f64 = 0.25;

/// Finds the pose in which the rig hangs at rest.
///
/// The search goes down the potential energy from `start`, or from where the rig is drawn, to the nearest minimum; at
/// the end force balances to 1e-9 of the weight, moments to 1e-9 of weight times the largest pick distance, and every
/// motion but free turning about the vertical meets resistance. Heading is free about a single hook: the one in the
/// answer is the nearest to the start.
///
/// # Errors
/// The reason there is no such pose, or the first fault in the data.
pub fn hang(rig: &Rig, start: Option<&State>) -> Result<Hang, NoHang> {
    let mut system = System::checked(rig)?;
    let start = start.map(|state| system.model.pose_of(rig, state)).transpose()?;
    system.come_to_rest(rig, start.as_ref())?;
    Ok(report::report(rig, &mut system))
}

impl System {
    /// A system of a rig whose data and drawn geometry pass.
    pub fn checked(rig: &Rig) -> Result<Self, NoHang> {
        rig.validate()?;
        drawing_fault(rig).map_or(Ok(()), Err)?;
        Self::new(rig)
    }

    /// Moves the system to rest, from `start` or from the drawing, and judges what it comes to.
    pub fn come_to_rest(&mut self, rig: &Rig, start: Option<&Pose>) -> Result<(), NoHang> {
        let mut residual = None;
        if let Some(start) = start {
            self.pose.copy_from(start);
            residual = Some(self.relax(false)).filter(|residual| self.left_over(*residual) <= TOLERANCE);
        }
        let residual = residual.unwrap_or_else(|| {
            self.pose = self.model.drawn(rig);
            self.relax(true)
        });
        if let Some((body, toward)) = self.overturned() {
            let outside = outside_m(rig, body).map(|outside_m| NoHang::CgOutsidePicks { body, outside_m });
            return Err(outside.unwrap_or(NoHang::GoesOver {
                body,
                toward,
                either_way: false,
            }));
        }
        if let Some(overstretched) = self.overstretched() {
            return Err(overstretched);
        }
        if self.left_over(residual) > TOLERANCE {
            return Err(NoHang::NotConverged {
                force_n: residual.force_n,
                moment_n_m: residual.moment_n_m,
            });
        }
        self.check_stable()?;
        self.swung_off(rig).map_or(Ok(()), Err)
    }

    fn overstretched(&self) -> Option<NoHang> {
        let strains = self
            .members
            .iter()
            .zip(&self.model.members)
            .map(|(now, member)| now.tension_n / member.stiffness_n_per_m / member.free_length_m);
        strains
            .enumerate()
            .find(|(_, strain)| *strain > MOST_STRAIN)
            .map(|(member, strain)| NoHang::Overstretched { member, strain })
    }

    /// A body with its centre of gravity outside its picks that hangs with a slack member.
    fn swung_off(&self, rig: &Rig) -> Option<NoHang> {
        (0..rig.bodies.len()).find_map(|body| {
            let slack = rig
                .members
                .iter()
                .zip(&self.members)
                .any(|(member, now)| now.tension_n <= 0.0 && touches(member, body));
            outside_m(rig, body)
                .filter(|_| slack)
                .map(|outside_m| NoHang::CgOutsidePicks { body, outside_m })
        })
    }
}

/// What the drawing shows without solving anything.
pub(super) fn drawing_fault(rig: &Rig) -> Option<NoHang> {
    below_pick(rig).or_else(|| shorter_than_span(rig))
}

fn touches(member: &Member, body: usize) -> bool {
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
    let span_m = (super::Vec3::from(nodes_m[from]) - super::Vec3::from(nodes_m[to])).norm();
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
fn outside_m(rig: &Rig, body: usize) -> Option<f64> {
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
    report::outside_hull_m(&picks_m, [cg_m[0], cg_m[1]])
}
