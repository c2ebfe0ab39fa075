//! What a rig at rest is read for: pulls, angles, level, twist and what touches what.

use super::Vec3;
use super::bend::Shapes;
use super::model::{AnchorKind, bay_shares};
use super::rig::{Body, Rig, State, Stop};
use super::system::System;
use super::wrap::direction;

/// A rig at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Hang {
    /// Where everything is; a good start for a rig that differs little.
    pub state: State,
    /// One per member.
    pub members: Vec<MemberHang>,
    /// One per body.
    pub bodies: Vec<BodyHang>,
    /// Load on every point of the rig that is fixed: the point and the force on it, N.
    pub supports: Vec<(usize, [f64; 3])>,
    /// Downward load on the fixed points together, N.
    pub hook_load_n: f64,
    /// Members that pass in front of or behind a watched face. Reported only: a face holds nothing.
    pub faces: Vec<FaceContact>,
    /// Largest force left over, N.
    pub residual_force_n: f64,
    /// Largest moment left over, N·m.
    pub residual_moment_n_m: f64,
    /// Newton's steps taken.
    pub steps: usize,
}

/// One member at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct MemberHang {
    /// Tension, N; zero when slack.
    pub tension_n: f64,
    /// Carries nothing.
    pub slack: bool,
    /// Length of its path less its length without load, m: stretch, or minus the slack.
    pub stretch_m: f64,
    /// Angle of each straight run from the horizontal, rad, 0 to π/2, in the order of the path.
    pub angles_from_horizontal_rad: Vec<f64>,
    /// Edges it bends round.
    pub contacts: Vec<Contact>,
}

/// A member bending round an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// The body.
    pub body: usize,
    /// Its edge.
    pub edge: usize,
    /// Where, m.
    pub at_m: [f64; 3],
    /// How far that is beyond the edge's ends, m; zero on it. The solver takes the edge as the whole line.
    pub beyond_end_m: f64,
    /// Angle the member turns through, rad.
    pub angle_rad: f64,
    /// Force on the body, N.
    pub force_n: [f64; 3],
}

/// One body at rest.
#[derive(Debug, Clone, PartialEq)]
pub struct BodyHang {
    /// Lean of its x from the horizontal, rad, positive when the +x end is up.
    pub tilt_along_rad: f64,
    /// Lean of its y from the horizontal, rad, positive when the +y side is up; of the section with the centre of gravity.
    pub tilt_across_rad: f64,
    /// Rise from end to end, m: length times the sine of the tilt along.
    pub rise_along_m: f64,
    /// Rise from side to side, m: width times the sine of the tilt across.
    pub rise_across_m: f64,
    /// Heading of its x in plan, rad from the x of space toward its y.
    pub heading_rad: f64,
    /// Its corners in space, m.
    pub corners_m: Vec<[f64; 3]>,
    /// What pulls at each node in use.
    pub picks: Vec<Pick>,
    /// One per bay of its twist, also where that is rigid.
    pub bays: Vec<Bay>,
    /// How far each inner section of its bending is above the line through the first and the last, m; empty where it does
    /// not bend.
    pub bend_m: Vec<f64>,
}

/// The pull of all members at one node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pick {
    /// The node.
    pub node: usize,
    /// Where it is, m, riding with its section.
    pub at_m: [f64; 3],
    /// Pull on the body, N, along the body's own x, y, z (of its first section).
    pub force_n: [f64; 3],
    /// Part of it straight up, N.
    pub vertical_n: f64,
    /// Part of it in the body's plan along x, N, positive toward the middle of the nodes in use.
    pub inward_along_n: f64,
    /// The same along y, N.
    pub inward_across_n: f64,
}

/// Twist of one bay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bay {
    /// Angle of its far section against its near one, rad about x.
    pub twist_rad: f64,
    /// Torque it carries, N·m: GJ/s times the angle, and for a rigid body what keeps the angle at nothing.
    pub torque_n_m: f64,
    /// How far one corner pick lies out of the plane of the other three, m: the sine of the angle times the picks' width.
    pub racking_m: f64,
}

/// A member over a watched face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceContact {
    /// The body.
    pub body: usize,
    /// Its face.
    pub face: usize,
    /// The member.
    pub member: usize,
    /// Least distance in front of the face, m, the end made fast to the body apart; negative is behind it: contact.
    pub clearance_m: f64,
}

/// Bounds of the tension beyond an edge, N, for a tension before it: `T e^(−μβ)` to `T e^(μβ)`.
///
/// μ the friction, β the angle turned through, rad. Source: Euler–Eytelwein belt friction. The solver takes edges as
/// frictionless; the run that holds the load up keeps its tension, the run beyond the edge lies between these.
pub fn friction_bounds(tension_n: f64, angle_rad: f64, friction: f64) -> (f64, f64) {
    let ratio = libm::exp(friction * angle_rad);
    (tension_n / ratio, tension_n * ratio)
}

/// Reads a system at rest.
pub(super) fn report(rig: &Rig, system: &mut System) -> Hang {
    system.differentiate();
    let residual = system.residual();
    let supports = supports(rig, system);
    Hang {
        state: system.model.state_of(&system.pose),
        members: (0..rig.members.len())
            .map(|member| member_hang(rig, system, member))
            .collect(),
        bodies: (0..rig.bodies.len()).map(|body| body_hang(rig, system, body)).collect(),
        hook_load_n: -supports.iter().map(|(_, force_n)| force_n[2]).sum::<f64>(),
        supports,
        faces: faces(rig, system),
        residual_force_n: residual.force_n,
        residual_moment_n_m: residual.moment_n_m,
        steps: system.steps,
    }
}

/// Forces on the fixed points; with no weight on them, the slope of the energy is minus the members' pull.
fn supports(rig: &Rig, system: &System) -> Vec<(usize, [f64; 3])> {
    let fixed = rig.points.iter().enumerate().filter(|(_, point)| point.fixed);
    fixed
        .map(|(index, _)| (index, (-system.anchors[index].slope_n).into()))
        .collect()
}

/// Places a member touches now, m from the model's origin, in order, with its stops.
fn touched(rig: &Rig, system: &System, member: usize) -> Vec<(Stop, Vec3)> {
    let stops = rig.members[member].path.iter().zip(&system.model.members[member].path);
    let touching = stops.filter(|(_, on)| on.edge.is_none_or(|edge| system.lines[edge].touching));
    touching
        .map(|(stop, on)| (*stop, system.anchors[on.anchor].at_m))
        .collect()
}

fn member_hang(rig: &Rig, system: &System, member: usize) -> MemberHang {
    let now = system.members[member];
    let places = touched(rig, system, member);
    let runs = places.windows(2).map(|pair| pair[1].1 - pair[0].1);
    MemberHang {
        tension_n: now.tension_n,
        slack: now.tension_n <= 0.0,
        stretch_m: now.length_m - system.model.members[member].free_length_m,
        angles_from_horizontal_rad: runs.map(from_horizontal_rad).collect(),
        contacts: places
            .windows(3)
            .filter_map(|three| contact(rig, system, three, now.tension_n))
            .collect(),
    }
}

/// Angle of a run from the horizontal, rad.
fn from_horizontal_rad(run_m: Vec3) -> f64 {
    libm::atan2(run_m.z.abs(), libm::hypot(run_m.x, run_m.y))
}

fn contact(rig: &Rig, system: &System, three: &[(Stop, Vec3)], tension_n: f64) -> Option<Contact> {
    let (Stop::Edge { body, edge }, at_m) = three[1] else {
        return None;
    };
    let (back, on) = (three[0].1 - at_m, three[2].1 - at_m);
    let force_n = (direction(at_m, three[0].1) + direction(at_m, three[2].1)) * tension_n;
    let line = rig.bodies[body].edges[edge];
    let [from_m, to_m] = [line.from_m, line.to_m].map(|end| in_space_m(&rig.bodies[body], system, body, end));
    let length_m = (to_m - from_m).norm();
    let along_m = (at_m - from_m).dot(&(to_m - from_m)) / length_m;
    Some(Contact {
        body,
        edge,
        at_m: (at_m + system.model.origin_m).into(),
        beyond_end_m: (-along_m).max(along_m - length_m).max(0.0),
        angle_rad: std::f64::consts::PI - libm::atan2(back.cross(&on).norm(), back.dot(&on)),
        force_n: force_n.into(),
    })
}

fn body_hang(rig: &Rig, system: &System, index: usize) -> BodyHang {
    let body = &rig.bodies[index];
    let turn = &system.turns[index];
    let section = section_turn(body, system, index, body.cg_m().map_or(0.0, |cg_m| cg_m[0]));
    let (x, y) = (turn.column(0), turn * section.column(1));
    let outline = if body.corners_m.is_empty() {
        &body.nodes_m
    } else {
        &body.corners_m
    };
    BodyHang {
        tilt_along_rad: lean_rad(x.z),
        tilt_across_rad: lean_rad(y.z),
        rise_along_m: extent_m(outline, 0) * x.z,
        rise_across_m: extent_m(outline, 1) * y.z,
        heading_rad: libm::atan2(x.y, x.x),
        corners_m: body
            .corners_m
            .iter()
            .map(|at_m| (in_space_m(body, system, index, *at_m) + system.model.origin_m).into())
            .collect(),
        picks: picks(rig, system, index),
        bays: bays(rig, system, index),
        bend_m: bends_m(system, index).to_vec(),
    }
}

/// Angle whose sine is `rise`, rad, rounding past ±1 cut off.
fn lean_rad(rise: f64) -> f64 {
    libm::asin(rise.clamp(-1.0, 1.0))
}

fn extent_m(places_m: &[[f64; 3]], axis: usize) -> f64 {
    let (low_m, high_m) = places_m
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low_m, high_m), at_m| {
            (low_m.min(at_m[axis]), high_m.max(at_m[axis]))
        });
    (high_m - low_m).max(0.0)
}

/// Turn of the section at `x_m` against the body's first section.
fn section_turn(body: &Body, system: &System, index: usize, x_m: f64) -> nalgebra::Matrix3<f64> {
    let model = &system.model.bodies[index];
    let Some(twist) = body.twist.as_ref().filter(|_| model.bays > 0) else {
        return nalgebra::Matrix3::identity();
    };
    let bays = &system.pose.twist_rad[model.first_bay..model.first_bay + model.bays];
    let twist_rad = bay_shares(&twist.sections_x_m, x_m)
        .zip(bays)
        .map(|(share, twist_rad)| share * twist_rad)
        .sum();
    *nalgebra::Rotation3::from_axis_angle(&Vec3::x_axis(), twist_rad).matrix()
}

/// Where a place of a body is, m from the model's origin, riding with its section.
fn in_space_m(body: &Body, system: &System, index: usize, at_m: [f64; 3]) -> Vec3 {
    let model = &system.model.bodies[index];
    let axis_m = model.twist_axis_m;
    let local_m = Vec3::from(at_m) - model.reference_m;
    let section = section_turn(body, system, index, at_m[0]);
    let bent_m = bent_m(body, system, index, at_m);
    system.pose.bodies[index].0 + system.turns[index] * (axis_m + section * (local_m - axis_m) + bent_m)
}

fn bends_m(system: &System, index: usize) -> &[f64] {
    let model = &system.model.bodies[index];
    &system.pose.bend_m[model.first_bend..model.first_bend + model.bends]
}

/// How far a place of a body is moved by its bending, m, body frame.
fn bent_m(body: &Body, system: &System, index: usize, at_m: [f64; 3]) -> Vec3 {
    let Some(bend) = body.bending() else {
        return Vec3::zeros();
    };
    let shapes = Shapes::over(&bend.sections_x_m);
    let moved = |(shape, bend_m): (usize, &f64)| {
        let (height, slope) = shapes.at(shape, at_m[0]);
        Vec3::new(-slope * (at_m[2] - bend.neutral_z_m), 0.0, height) * *bend_m
    };
    bends_m(system, index).iter().enumerate().map(moved).sum()
}

/// Nodes of a body that a member touches, with the pull there.
fn pulls(rig: &Rig, system: &System, index: usize) -> Vec<(usize, Vec3)> {
    let in_use = |node: usize| {
        let stop = Stop::Node { body: index, node };
        rig.members.iter().any(|member| member.path.contains(&stop))
    };
    let first = system.model.first_node[index];
    let nodes = (0..rig.bodies[index].nodes_m.len()).filter(|node| in_use(*node));
    nodes
        .map(|node| (node, -system.anchors[first + node].slope_n))
        .collect()
}

fn picks(rig: &Rig, system: &System, index: usize) -> Vec<Pick> {
    let pulls = pulls(rig, system, index);
    let nodes_m = &rig.bodies[index].nodes_m;
    let middle =
        |axis: usize| pulls.iter().map(|(node, _)| nodes_m[*node][axis]).sum::<f64>() / pulls.len().max(1) as f64;
    let (middle_x_m, middle_y_m) = (middle(0), middle(1));
    let inward = |force_n: f64, off_m: f64| {
        if off_m == 0.0 {
            force_n.abs()
        } else {
            -force_n * off_m.signum()
        }
    };
    let pick = |(node, pull): &(usize, Vec3)| {
        let own = system.turns[index].transpose() * pull;
        let [x_m, y_m, _] = nodes_m[*node];
        Pick {
            node: *node,
            at_m: (in_space_m(&rig.bodies[index], system, index, nodes_m[*node]) + system.model.origin_m).into(),
            force_n: own.into(),
            vertical_n: pull.z,
            inward_along_n: inward(own.x, x_m - middle_x_m),
            inward_across_n: inward(own.y, y_m - middle_y_m),
        }
    };
    pulls.iter().map(pick).collect()
}

fn bays(rig: &Rig, system: &System, index: usize) -> Vec<Bay> {
    let body = &rig.bodies[index];
    let Some(twist) = &body.twist else { return Vec::new() };
    let model = &system.model.bodies[index];
    let in_use: Vec<[f64; 3]> = pulls(rig, system, index)
        .iter()
        .map(|(node, _)| body.nodes_m[*node])
        .collect();
    let width_m = extent_m(&in_use, 1);
    (0..twist.sections_x_m.len() - 1)
        .map(|bay| {
            let twist_rad = if model.bays > 0 {
                system.pose.twist_rad[model.first_bay + bay]
            } else {
                0.0
            };
            let torque_n_m = bay_torque_n_m(rig, system, index, bay);
            Bay {
                twist_rad,
                torque_n_m,
                racking_m: libm::sin(twist_rad) * width_m,
            }
        })
        .collect()
}

/// Torque a bay carries, N·m: the moment about the twist axis of all that acts on the body, each force by the share of the
/// bay's twist it rides with.
///
/// `Σ wᵢ (rᵢ × Fᵢ)·e`, the force that goes with the bay's angle. Source: derived, virtual work. Where a weight sits within
/// the bay the torque changes along it and this is its mean.
fn bay_torque_n_m(rig: &Rig, system: &System, index: usize, bay: usize) -> f64 {
    let body = &rig.bodies[index];
    let Some(twist) = &body.twist else { return 0.0 };
    let axis = system.turns[index].column(0).into_owned();
    let on_axis_m = in_space_m(body, system, index, [0.0, twist.axis_yz_m[0], twist.axis_yz_m[1]]);
    let turning = |at_m: [f64; 3], place_m: Vec3, force_n: Vec3| {
        let share = bay_shares(&twist.sections_x_m, at_m[0]).nth(bay).unwrap_or_default();
        share * (place_m - on_axis_m).cross(&force_n).dot(&axis)
    };
    let pulled: f64 = pulls(rig, system, index)
        .iter()
        .map(|(node, pull)| {
            turning(
                body.nodes_m[*node],
                in_space_m(body, system, index, body.nodes_m[*node]),
                *pull,
            )
        })
        .sum();
    let hung: f64 = body
        .masses
        .iter()
        .map(|item| {
            let weight_n = item.mass_kg * crate::STANDARD_GRAVITY_M_S2;
            turning(
                item.at_m,
                in_space_m(body, system, index, item.at_m),
                -Vec3::z() * weight_n,
            )
        })
        .sum();
    let pressed: f64 = system
        .model
        .edges
        .iter()
        .filter(|edge| edge.body == index)
        .map(|edge| {
            let placed = &system.anchors[edge.anchor];
            let AnchorKind::OnBody { ride, .. } = system.model.anchors[edge.anchor].kind else {
                return 0.0;
            };
            let share = system.model.shares.get(ride.share + bay).copied().unwrap_or_default();
            -share * (placed.at_m - on_axis_m).cross(&placed.slope_n).dot(&axis)
        })
        .sum();
    pulled + hung + pressed
}

fn faces(rig: &Rig, system: &System) -> Vec<FaceContact> {
    let mut found = Vec::new();
    for (body, owner) in rig.bodies.iter().enumerate() {
        for (face, corners_m) in owner.faces_m.iter().enumerate() {
            let corners_m: Vec<Vec3> = corners_m
                .iter()
                .map(|at_m| in_space_m(owner, system, body, *at_m))
                .collect();
            for member in 0..rig.members.len() {
                let places = touched(rig, system, member);
                let runs = places
                    .windows(2)
                    .filter_map(|run| run_clearance_m(&corners_m, (body, system.pose.bodies[body].0), run));
                if let Some(clearance_m) = runs.reduce(f64::min) {
                    found.push(FaceContact {
                        body,
                        face,
                        member,
                        clearance_m,
                    });
                }
            }
        }
    }
    found
}

/// Least distance of a straight run in front of a face, over the part of it that is over the face, m.
///
/// None for a run made fast to the body on the far side of its middle: that one belongs to another face.
fn run_clearance_m(corners_m: &[Vec3], (body, middle_m): (usize, Vec3), run: &[(Stop, Vec3)]) -> Option<f64> {
    let normal = area_vector_m2(corners_m).normalize();
    let ((from, from_m), (to, to_m)) = (run[0], run[1]);
    let (mut first, mut last): (f64, f64) = (0.0, 1.0);
    for (index, corner_m) in corners_m.iter().enumerate() {
        let inward = normal.cross(&(corners_m[(index + 1) % corners_m.len()] - corner_m));
        let (a, b) = ((from_m - corner_m).dot(&inward), (to_m - corner_m).dot(&inward));
        match (a >= 0.0, b >= 0.0) {
            (false, false) => return None,
            (false, true) => first = first.max(a / (a - b)),
            (true, false) => last = last.min(a / (a - b)),
            (true, true) => {}
        }
    }
    if first > last {
        return None;
    }
    let on_body = |stop: Stop| matches!(stop, Stop::Node { body: on, .. } | Stop::Edge { body: on, .. } if on == body);
    let front_m = |at_m: Vec3| (at_m - corners_m[0]).dot(&normal);
    let far_side = |end_m: Vec3| front_m(end_m) < front_m(middle_m);
    let (first_m, last_m) = (front_m(from_m.lerp(&to_m, first)), front_m(from_m.lerp(&to_m, last)));
    match (on_body(from), on_body(to)) {
        (true, _) => Some(last_m).filter(|_| !far_side(from_m)),
        (_, true) => Some(first_m).filter(|_| !far_side(to_m)),
        _ => Some(first_m.min(last_m)),
    }
}

/// Normal of a flat face with its area as length, m²: half the sum of `rᵢ × rᵢ₊₁`.
fn area_vector_m2(corners_m: &[Vec3]) -> Vec3 {
    let first_m = corners_m.first().copied().unwrap_or_default();
    let fan = corners_m
        .windows(2)
        .map(|pair| (pair[0] - first_m).cross(&(pair[1] - first_m)));
    fan.sum::<Vec3>() / 2.0
}

pub(super) fn face_area_vector_m2(corners_m: &[[f64; 3]]) -> Vec3 {
    area_vector_m2(&corners_m.iter().map(|at_m| Vec3::from(*at_m)).collect::<Vec<_>>())
}
