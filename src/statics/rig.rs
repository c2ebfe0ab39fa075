//! A rig as data: what hangs, what it hangs from, and what ties the two together.

use super::fault::{InputFault, NoHang, Part};

/// Bodies, points and the members between them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rig {
    /// Rigid bodies, and bodies that are rigid but for twist.
    pub bodies: Vec<Body>,
    /// Points that are fixed (the hook) or that carry mass (a block, a link, a shackle).
    pub points: Vec<Point>,
    /// Tension-only members.
    pub members: Vec<Member>,
}

/// A rigid body. Its frame: x along, y across, z up, the origin anywhere.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Body {
    /// What it weighs and where. Empty: weightless.
    pub masses: Vec<MassItem>,
    /// Where members may be made fast, m, body frame.
    pub nodes_m: Vec<[f64; 3]>,
    /// Edges a member may bend round.
    pub edges: Vec<Edge>,
    /// Flat convex faces to watch (a wall, an eave), each as its corners, anticlockwise seen from outside, m, body frame.
    /// A member that passes behind one is reported; the face holds nothing.
    pub faces_m: Vec<Vec<[f64; 3]>>,
    /// Corners of the outline, m, body frame: the end-to-end rise is measured over them, over the nodes if there are none.
    pub corners_m: Vec<[f64; 3]>,
    /// How it twists; `None` is rigid.
    pub twist: Option<Twist>,
    /// How it bends up and down; `None` is rigid.
    pub bend: Option<Bend>,
    /// Where its origin is drawn, m: the solver starts there.
    pub at_m: [f64; 3],
    /// Heading it is drawn at, rad about z, level.
    pub heading_rad: f64,
}

/// A lump of mass on a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MassItem {
    /// Mass, kg, zero or more.
    pub mass_kg: f64,
    /// Where, m, body frame.
    pub at_m: [f64; 3],
}

/// St Venant twist of a body between given sections, about an axis parallel to its x.
///
/// Each bay between two sections turns by one angle, spread evenly over it, against a stiffness GJ divided by the bay's
/// length; what lies beyond the first and the last section rides with that section. Every node and every mass item rides
/// the same field. Sections stay rigid in their own plane and do not warp.
#[derive(Debug, Clone, PartialEq)]
pub struct Twist {
    /// Where the axis (the shear centre) runs: y and z, m, body frame.
    pub axis_yz_m: [f64; 2],
    /// Sections where the body is picked: x, m, body frame, rising, two or more.
    pub sections_x_m: Vec<f64>,
    /// Torsional rigidity, N·m², zero or more. Infinite: rigid, and the angles are dropped.
    pub gj_n_m2: f64,
}

/// Vertical bending of a body between given sections, as a beam of Euler and Bernoulli of one stiffness.
///
/// Each section between the first and the last goes up or down from the line through those two by one length; between
/// sections the body takes the shape of a thin strip held there, beyond them it goes straight on. Sections stay plane:
/// what lies above the neutral axis moves along x as its section turns. Every node and every mass item rides the same
/// field. Small beside the body: lengths along it do not change to second order.
#[derive(Debug, Clone, PartialEq)]
pub struct Bend {
    /// Height of the neutral axis: z, m, body frame.
    pub neutral_z_m: f64,
    /// Sections where the body is picked: x, m, body frame, rising, two or more. Two do not bend it.
    pub sections_x_m: Vec<f64>,
    /// Flexural rigidity EI, N·m², zero or more. Infinite: rigid, and the lengths are dropped.
    pub ei_n_m2: f64,
}

/// A straight edge of a body that a member may bend round without friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// One end, m, body frame.
    pub from_m: [f64; 3],
    /// The other end, m, body frame. The edge is taken as the whole line through both.
    pub to_m: [f64; 3],
    /// Which way is out of the body: any length, body frame.
    pub outward: [f64; 3],
}

/// A point that is fixed, or that moves and may have mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Where it is held, or where it is drawn, m.
    pub at_m: [f64; 3],
    /// Mass, kg, zero or more; without effect on a fixed point.
    pub mass_kg: f64,
    /// Held in place.
    pub fixed: bool,
}

/// A tension-only member with one tension from end to end: a sling, or one that runs through stops between its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// What it touches, in order, two or more: the first and the last are its ends.
    pub path: Vec<Stop>,
    /// Length without load, m, the fittings apart.
    pub length_m: f64,
    /// Axial stiffness EA, N: load over strain.
    pub ea_n: f64,
    /// Fittings in series.
    pub fittings: Vec<Fitting>,
}

/// A fitting in series with a member: links, a shortener.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitting {
    /// Length it adds, m, zero or more.
    pub length_m: f64,
    /// Stiffness, N/m; infinite is rigid.
    pub stiffness_n_per_m: f64,
}

/// One thing a member touches on its way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// A point of the rig.
    Point(usize),
    /// A node of a body.
    Node {
        /// The body.
        body: usize,
        /// Its node.
        node: usize,
    },
    /// An edge of a body: touched only where the member would otherwise pass inside it. Never an end.
    Edge {
        /// The body.
        body: usize,
        /// Its edge.
        edge: usize,
    },
}

/// Where everything is: a result, and a start for the next solve.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct State {
    /// One per body.
    pub bodies: Vec<BodyState>,
    /// One per point, m.
    pub points_m: Vec<[f64; 3]>,
}

/// Where one body is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BodyState {
    /// Its origin, m.
    pub at_m: [f64; 3],
    /// Its attitude as a unit quaternion: w, x, y, z.
    pub attitude: [f64; 4],
    /// Twist of each bay, rad; empty for a rigid body.
    pub twist_rad: Vec<f64>,
    /// How far each inner section of its bending is above the line through the first and the last, m; empty for a rigid
    /// body.
    pub bend_m: Vec<f64>,
}

impl Member {
    /// A plain member between two stops.
    pub fn between(from: Stop, to: Stop, length_m: f64, ea_n: f64) -> Self {
        Self {
            path: vec![from, to],
            length_m,
            ea_n,
            fittings: Vec::new(),
        }
    }

    /// Length without load, fittings included, m.
    pub fn free_length_m(&self) -> f64 {
        self.length_m + self.fittings.iter().map(|fitting| fitting.length_m).sum::<f64>()
    }

    /// Stiffness from end to end, N/m.
    ///
    /// `1/k = L/EA + Σ 1/kᵢ`: the member and its fittings are springs in series. Source: derived, statics.
    pub fn stiffness_n_per_m(&self) -> f64 {
        let fittings_m_per_n: f64 = self
            .fittings
            .iter()
            .map(|fitting| 1.0 / fitting.stiffness_n_per_m)
            .sum();
        1.0 / (self.length_m / self.ea_n + fittings_m_per_n)
    }
}

impl Body {
    /// Mass, kg.
    pub fn mass_kg(&self) -> f64 {
        self.masses.iter().map(|item| item.mass_kg).sum()
    }

    /// Centre of gravity, m, body frame: `Σ mᵢxᵢ / Σ mᵢ`. `None` for a weightless body.
    pub fn cg_m(&self) -> Option<[f64; 3]> {
        let mass_kg = self.mass_kg();
        (mass_kg > 0.0).then(|| {
            std::array::from_fn(|axis| {
                self.masses
                    .iter()
                    .map(|item| item.mass_kg * item.at_m[axis])
                    .sum::<f64>()
                    / mass_kg
            })
        })
    }

    /// Bays that can twist: none for a rigid body.
    pub(super) fn bays(&self) -> usize {
        self.twist
            .as_ref()
            .filter(|twist| twist.gj_n_m2.is_finite())
            .map_or(0, |twist| twist.sections_x_m.len() - 1)
    }

    /// Its bending, where it can bend.
    pub(super) fn bending(&self) -> Option<&Bend> {
        self.bend
            .as_ref()
            .filter(|bend| bend.ei_n_m2.is_finite() && bend.sections_x_m.len() > 2)
    }
}

impl Rig {
    /// Refuses what cannot be a rig, naming the first thing wrong.
    pub(super) fn validate(&self) -> Result<(), NoHang> {
        self.input_fault().map_or(Ok(()), |fault| Err(NoHang::Input(fault)))
    }

    fn input_fault(&self) -> Option<InputFault> {
        if self.members.is_empty() || self.bodies.is_empty() && self.points.iter().all(|point| point.fixed) {
            return Some(InputFault::Empty);
        }
        if !self.points.iter().any(|point| point.fixed) {
            return Some(InputFault::NothingFixed);
        }
        let bodies = self
            .bodies
            .iter()
            .enumerate()
            .find_map(|(index, body)| body_fault(index, body));
        let points = || {
            self.points
                .iter()
                .enumerate()
                .find_map(|(index, point)| point_fault(index, point))
        };
        let members = || (0..self.members.len()).find_map(|index| self.member_fault(index));
        bodies
            .or_else(points)
            .or_else(members)
            .or_else(|| self.weightless())
            .or_else(|| self.adrift())
    }

    fn weightless(&self) -> Option<InputFault> {
        let points = self
            .points
            .iter()
            .filter(|point| !point.fixed)
            .map(|point| point.mass_kg);
        let mass_kg: f64 = self.bodies.iter().map(Body::mass_kg).chain(points).sum();
        if !mass_kg.is_finite() {
            return Some(InputFault::NotANumber {
                part: Part::Rig,
                what: "total mass",
            });
        }
        (mass_kg <= 0.0).then_some(InputFault::Weightless)
    }

    fn member_fault(&self, index: usize) -> Option<InputFault> {
        let part = Part::Member(index);
        let member = &self.members[index];
        let is_edge = |stop: Option<&Stop>| matches!(stop, Some(Stop::Edge { .. }));
        if member.path.len() < 2 || is_edge(member.path.first()) || is_edge(member.path.last()) {
            return Some(InputFault::LooseEnd { member: index });
        }
        if member.path.iter().any(|stop| !self.has(*stop)) || member.path.windows(2).any(|pair| pair[0] == pair[1]) {
            return Some(InputFault::NoSuchStop { member: index });
        }
        let fittings = || {
            member.fittings.iter().find_map(|fitting| {
                let stiffness = (fitting.stiffness_n_per_m.is_nan() || fitting.stiffness_n_per_m <= 0.0).then_some(
                    InputFault::NotPositive {
                        part,
                        what: "stiffness of a fitting",
                    },
                );
                negative(part, "length of a fitting", fitting.length_m).or(stiffness)
            })
        };
        not_positive(part, "length", member.length_m)
            .or_else(|| not_positive(part, "axial stiffness EA", member.ea_n))
            .or_else(fittings)
            .or_else(|| not_positive(part, "stiffness", member.stiffness_n_per_m()))
    }

    fn has(&self, stop: Stop) -> bool {
        match stop {
            Stop::Point(point) => point < self.points.len(),
            Stop::Node { body, node } => self.bodies.get(body).is_some_and(|body| node < body.nodes_m.len()),
            Stop::Edge { body, edge } => self.bodies.get(body).is_some_and(|body| edge < body.edges.len()),
        }
    }

    /// A part that no chain of members ties to a fixed point.
    fn adrift(&self) -> Option<InputFault> {
        let mut body_held = vec![false; self.bodies.len()];
        let mut point_held: Vec<bool> = self.points.iter().map(|point| point.fixed).collect();
        let part_count = body_held.len() + point_held.len();
        for _ in 0..part_count {
            for member in &self.members {
                let held = member.path.iter().any(|stop| match *stop {
                    Stop::Point(point) => point_held[point],
                    Stop::Node { body, .. } | Stop::Edge { body, .. } => body_held[body],
                });
                for stop in member.path.iter().filter(|_| held) {
                    match *stop {
                        Stop::Point(point) => point_held[point] = true,
                        Stop::Node { body, .. } | Stop::Edge { body, .. } => body_held[body] = true,
                    }
                }
            }
        }
        let body = body_held.iter().position(|held| !held).map(Part::Body);
        let point = || point_held.iter().position(|held| !held).map(Part::Point);
        body.or_else(point).map(|part| InputFault::Adrift { part })
    }
}

fn body_fault(index: usize, body: &Body) -> Option<InputFault> {
    let part = Part::Body(index);
    let place = |what, at_m: &[f64; 3]| at_m.iter().find_map(|x_m| not_finite(part, what, *x_m));
    let masses = body
        .masses
        .iter()
        .find_map(|item| negative(part, "mass", item.mass_kg).or_else(|| place("place of a mass", &item.at_m)));
    let nodes = || body.nodes_m.iter().find_map(|at_m| place("place of a node", at_m));
    let corners = || body.corners_m.iter().find_map(|at_m| place("place of a corner", at_m));
    let edges = || body.edges.iter().find_map(|edge| edge_fault(part, edge));
    let faces = || body.faces_m.iter().find_map(|face| face_fault(part, face));
    let twist = || body.twist.as_ref().and_then(|twist| twist_fault(part, twist));
    let bend = || body.bend.as_ref().and_then(|bend| bend_fault(part, bend));
    let pose = || place("drawn place", &body.at_m).or_else(|| not_finite(part, "heading", body.heading_rad));
    masses
        .or_else(nodes)
        .or_else(corners)
        .or_else(edges)
        .or_else(faces)
        .or_else(twist)
        .or_else(bend)
        .or_else(pose)
}

fn point_fault(index: usize, point: &Point) -> Option<InputFault> {
    let part = Part::Point(index);
    let place = point.at_m.iter().find_map(|x_m| not_finite(part, "place", *x_m));
    place.or_else(|| negative(part, "mass", point.mass_kg))
}

fn edge_fault(part: Part, edge: &Edge) -> Option<InputFault> {
    let numbers = edge.from_m.iter().chain(&edge.to_m).chain(&edge.outward);
    let along = super::Vec3::from(edge.to_m) - super::Vec3::from(edge.from_m);
    let outward_across = super::Vec3::from(edge.outward).cross(&along).norm();
    numbers
        .copied()
        .find_map(|x| not_finite(part, "edge", x))
        .or_else(|| not_positive(part, "length of an edge", along.norm()))
        .or_else(|| not_positive(part, "outward direction across an edge", outward_across))
}

fn face_fault(part: Part, face: &[[f64; 3]]) -> Option<InputFault> {
    let corners = face
        .iter()
        .flatten()
        .copied()
        .find_map(|x_m| not_finite(part, "corner of a face", x_m));
    corners.or_else(|| not_positive(part, "area of a face", super::report::face_area_vector_m2(face).norm()))
}

fn twist_fault(part: Part, twist: &Twist) -> Option<InputFault> {
    let axis = twist
        .axis_yz_m
        .iter()
        .find_map(|x_m| not_finite(part, "twist axis", *x_m));
    axis.or_else(|| sections_fault(part, &twist.sections_x_m))
        .or_else(|| rigidity_fault(part, "torsional rigidity GJ", twist.gj_n_m2))
}

fn bend_fault(part: Part, bend: &Bend) -> Option<InputFault> {
    not_finite(part, "neutral axis", bend.neutral_z_m)
        .or_else(|| sections_fault(part, &bend.sections_x_m))
        .or_else(|| rigidity_fault(part, "flexural rigidity EI", bend.ei_n_m2))
}

fn sections_fault(part: Part, sections_x_m: &[f64]) -> Option<InputFault> {
    let rising = sections_x_m.len() >= 2 && sections_x_m.windows(2).all(|pair| pair[0] < pair[1]);
    sections_x_m
        .iter()
        .find_map(|x_m| not_finite(part, "section", *x_m))
        .or((!rising).then_some(InputFault::SectionsNotRising { part }))
}

/// Infinite is rigid.
fn rigidity_fault(part: Part, what: &'static str, value: f64) -> Option<InputFault> {
    (value.is_nan() || value < 0.0).then_some(InputFault::Negative { part, what })
}

fn not_finite(part: Part, what: &'static str, value: f64) -> Option<InputFault> {
    (!value.is_finite()).then_some(InputFault::NotANumber { part, what })
}

fn negative(part: Part, what: &'static str, value: f64) -> Option<InputFault> {
    not_finite(part, what, value).or((value < 0.0).then_some(InputFault::Negative { part, what }))
}

fn not_positive(part: Part, what: &'static str, value: f64) -> Option<InputFault> {
    not_finite(part, what, value).or((value <= 0.0).then_some(InputFault::NotPositive { part, what }))
}
