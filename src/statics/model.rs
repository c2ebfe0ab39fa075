//! The rig laid out for the solver: which numbers are unknown, and where every attachment sits on its body.

use nalgebra::{Matrix3, Quaternion, Unit, UnitQuaternion};

use super::STANDARD_GRAVITY_M_S2;
use super::Vec3;
use super::bend::Shapes;
use super::fault::{InputFault, NoHang};
use super::rig::{Body, BodyState, Member, Rig, State, Stop};

/// Spread below which attachments count as lying on one line or in one point, as a share of the body's size.
const ON_ONE_LINE: f64 = 1e-9;
/// A member must not be stiffer than this many times weight over reach: it then stretches by a millionth of the reach
/// under the whole weight, and rounding in its length is still less than the tolerance on force.
const STIFFEST: f64 = 1e6;

/// Everything that does not change while the rig moves.
///
/// Unknowns, in order: each body's three translations (in units of `reach_m`), its rotations, its bay angles, its
/// bending (in units of `reach_m`); then the free points' translations.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub bodies: Vec<BodyModel>,
    /// Points of the rig first, then each body's nodes, then mass items of bodies, then edge contacts.
    pub anchors: Vec<Anchor>,
    /// Share of each bay's twist that an anchor sees, bays of its body in order.
    pub shares: Vec<f64>,
    /// How an anchor moves with each bending of its body, m per m, body frame, bendings of its body in order.
    pub bendings: Vec<Vec3>,
    pub members: Vec<MemberModel>,
    pub edges: Vec<EdgeModel>,
    /// Weights, N, each on its anchor.
    pub loads: Vec<(usize, f64)>,
    pub unknowns: usize,
    /// Columns of all anchors together.
    pub columns: usize,
    pub bays: usize,
    pub bends: usize,
    /// Total weight, N.
    pub weight_n: f64,
    /// Largest distance of an attachment from its body's reference: the length that makes the unknowns alike.
    pub reach_m: f64,
    /// A fixed point in use: places are counted from it, so that a rig drawn far from the origin loses no digits.
    pub origin_m: Vec3,
    /// All fixed points in use are on the vertical through the origin: turning about it changes nothing.
    pub one_plumb: bool,
    /// Anchor of each body's first node.
    pub first_node: Vec<usize>,
}

#[derive(Debug, Clone)]
pub(super) struct BodyModel {
    /// Its first unknown.
    pub offset: usize,
    /// Rotations kept: none for a body that is one point, two for one that is a line (its spin moves nothing).
    pub turns: usize,
    /// Axes it turns about, body frame, as columns.
    pub axes: Matrix3<f64>,
    /// Its first bay among all bays.
    pub first_bay: usize,
    pub bays: usize,
    /// GJ over bay length, N·m per rad, by bay.
    pub bay_stiffness_n_m: Vec<f64>,
    /// Where the unknowns' reference is, m, body frame: the centre of gravity, so that the choice of origin cancels.
    pub reference_m: Vec3,
    /// Its first bending among all bendings.
    pub first_bend: usize,
    pub bends: usize,
    /// EI times the shapes' energy, N/m, `bends` × `bends`.
    pub bend_stiffness_n_per_m: Vec<f64>,
    /// Twist axis, m, relative to the reference.
    pub twist_axis_m: Vec3,
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Anchor {
    pub kind: AnchorKind,
    /// First of its columns, and how many.
    pub first_column: usize,
    pub columns: usize,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum AnchorKind {
    Fixed,
    Free {
        offset: usize,
    },
    /// `local_m` relative to the body's reference.
    OnBody {
        body: usize,
        local_m: Vec3,
        ride: Ride,
    },
}

/// What of its body's twist and bending an anchor sees: first of its shares and of its bendings.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ride {
    pub share: usize,
    pub bend: usize,
}

#[derive(Debug, Clone)]
pub(super) struct MemberModel {
    pub path: Vec<PathStop>,
    pub free_length_m: f64,
    pub stiffness_n_per_m: f64,
}

#[derive(Debug, Clone, Copy)]
pub(super) struct PathStop {
    pub anchor: usize,
    /// Which edge contact it is, if it is one.
    pub edge: Option<usize>,
}

/// An edge as one member sees it; body frame, relative to the reference, unit vectors.
#[derive(Debug, Clone, Copy)]
pub(super) struct EdgeModel {
    pub anchor: usize,
    pub body: usize,
    pub at_m: Vec3,
    pub along: Vec3,
    pub outward: Vec3,
}

/// Values of the unknowns.
#[derive(Debug, Clone, Default)]
pub(super) struct Pose {
    /// References of the bodies, m, and their attitudes.
    pub bodies: Vec<(Vec3, UnitQuaternion<f64>)>,
    /// Bay angles of all bodies, rad.
    pub twist_rad: Vec<f64>,
    /// Bendings of all bodies, m.
    pub bend_m: Vec<f64>,
    /// All points, m, the fixed ones too.
    pub points: Vec<Vec3>,
}

impl BodyModel {
    /// How many unknowns move it.
    pub fn unknowns(&self) -> usize {
        3 + self.turns + self.bays + self.bends
    }

    /// Its first bending among the unknowns.
    pub fn bend_offset(&self) -> usize {
        self.offset + 3 + self.turns + self.bays
    }
}

impl Pose {
    /// Copies without a new allocation.
    pub fn copy_from(&mut self, other: &Self) {
        self.bodies.clone_from(&other.bodies);
        self.twist_rad.clone_from(&other.twist_rad);
        self.bend_m.clone_from(&other.bend_m);
        self.points.clone_from(&other.points);
    }
}

impl Model {
    pub fn new(rig: &Rig) -> Result<Self, NoHang> {
        let mut model = Self {
            bodies: Vec::with_capacity(rig.bodies.len()),
            anchors: Vec::new(),
            shares: Vec::new(),
            bendings: Vec::new(),
            members: Vec::with_capacity(rig.members.len()),
            edges: Vec::new(),
            loads: Vec::new(),
            unknowns: 0,
            columns: 0,
            bays: 0,
            bends: 0,
            weight_n: 0.0,
            reach_m: 0.0,
            origin_m: Vec3::zeros(),
            one_plumb: false,
            first_node: Vec::with_capacity(rig.bodies.len()),
        };
        for (index, body) in rig.bodies.iter().enumerate() {
            model.add_body(rig, index, body);
        }
        for point in &rig.points {
            let kind = if point.fixed {
                AnchorKind::Fixed
            } else {
                AnchorKind::Free { offset: model.unknowns }
            };
            let anchor = model.add_anchor(kind);
            if !point.fixed {
                model.unknowns += 3;
                model.loads.push((anchor, point.mass_kg * STANDARD_GRAVITY_M_S2));
            }
        }
        for (index, body) in rig.bodies.iter().enumerate() {
            model.first_node.push(model.anchors.len());
            for node_m in &body.nodes_m {
                model.add_on_body(body, index, Vec3::from(*node_m), node_m[0]);
            }
        }
        for (index, body) in rig.bodies.iter().enumerate() {
            model.add_loads(index, body);
        }
        for member in &rig.members {
            model.add_member(rig, member);
        }
        model.weight_n = model.loads.iter().map(|(_, weight_n)| weight_n).sum();
        model.reach_m = model.reach_m(rig);
        (model.origin_m, model.one_plumb) = plumb(rig);
        match model
            .members
            .iter()
            .position(|member| model.too_stiff(member.stiffness_n_per_m))
        {
            Some(member) => Err(NoHang::Input(InputFault::TooStiff { member })),
            None => Ok(model),
        }
    }

    pub fn too_stiff(&self, stiffness_n_per_m: f64) -> bool {
        stiffness_n_per_m * self.reach_m > STIFFEST * self.weight_n
    }

    fn add_body(&mut self, rig: &Rig, index: usize, body: &Body) {
        let attached = attached_m(rig, index, body);
        let count = attached.len().max(1) as f64;
        let middle_m = attached.iter().sum::<Vec3>() / count;
        let reference_m = body.cg_m().map_or(middle_m, Vec3::from);
        let bays = body.bays();
        let bending = body.bending();
        let shapes = bending.map_or_else(Shapes::default, |bend| Shapes::over(&bend.sections_x_m));
        let bends = shapes.count();
        let (turns, axes) = if bays + bends > 0 {
            (3, Matrix3::identity())
        } else {
            turning_axes(&attached)
        };
        let twist = body.twist.as_ref().filter(|_| bays > 0);
        self.bodies.push(BodyModel {
            offset: self.unknowns,
            turns,
            axes,
            first_bay: self.bays,
            bays,
            bay_stiffness_n_m: twist.map_or_else(Vec::new, |twist| {
                twist
                    .sections_x_m
                    .windows(2)
                    .map(|bay| twist.gj_n_m2 / (bay[1] - bay[0]))
                    .collect()
            }),
            reference_m,
            first_bend: self.bends,
            bends,
            bend_stiffness_n_per_m: (0..bends * bends)
                .map(|at| bending.map_or(0.0, |bend| bend.ei_n_m2) * shapes.stiffness(at / bends, at % bends))
                .collect(),
            twist_axis_m: twist.map_or_else(Vec3::zeros, |twist| {
                Vec3::new(reference_m.x, twist.axis_yz_m[0], twist.axis_yz_m[1]) - reference_m
            }),
        });
        self.unknowns += 3 + turns + bays + bends;
        self.bays += bays;
        self.bends += bends;
    }

    fn add_anchor(&mut self, kind: AnchorKind) -> usize {
        let columns = match kind {
            AnchorKind::Fixed => 0,
            AnchorKind::Free { .. } => 3,
            AnchorKind::OnBody { body, .. } => self.bodies[body].unknowns(),
        };
        self.anchors.push(Anchor {
            kind,
            first_column: self.columns,
            columns,
        });
        self.columns += columns;
        self.anchors.len() - 1
    }

    /// Adds an anchor at a place of a body, riding with the section at `section_x_m`.
    fn add_on_body(&mut self, body: &Body, index: usize, at_m: Vec3, section_x_m: f64) -> usize {
        let ride = Ride {
            share: self.shares.len(),
            bend: self.bendings.len(),
        };
        if let Some(twist) = body.twist.as_ref().filter(|_| self.bodies[index].bays > 0) {
            self.shares.extend(bay_shares(&twist.sections_x_m, section_x_m));
        }
        if let Some(bend) = body.bending() {
            let shapes = Shapes::over(&bend.sections_x_m);
            let above_m = at_m.z - bend.neutral_z_m;
            self.bendings.extend((0..shapes.count()).map(|shape| {
                let (height, slope) = shapes.at(shape, section_x_m);
                Vec3::new(-slope * above_m, 0.0, height)
            }));
        }
        let local_m = at_m - self.bodies[index].reference_m;
        self.add_anchor(AnchorKind::OnBody {
            body: index,
            local_m,
            ride,
        })
    }

    /// Puts a body's weight on it: item by item where it twists or bends, else at the centre of gravity.
    fn add_loads(&mut self, index: usize, body: &Body) {
        if self.bodies[index].bays + self.bodies[index].bends > 0 {
            for item in &body.masses {
                let anchor = self.add_on_body(body, index, Vec3::from(item.at_m), item.at_m[0]);
                self.loads.push((anchor, item.mass_kg * STANDARD_GRAVITY_M_S2));
            }
        } else if let Some(cg_m) = body.cg_m() {
            let anchor = self.add_on_body(body, index, Vec3::from(cg_m), cg_m[0]);
            self.loads.push((anchor, body.mass_kg() * STANDARD_GRAVITY_M_S2));
        }
    }

    fn add_member(&mut self, rig: &Rig, member: &Member) {
        let path = member.path.iter().map(|stop| match *stop {
            Stop::Point(point) => PathStop {
                anchor: point,
                edge: None,
            },
            Stop::Node { body, node } => PathStop {
                anchor: self.first_node[body] + node,
                edge: None,
            },
            Stop::Edge { body, edge } => self.add_edge(rig, member, body, edge),
        });
        let path = path.collect();
        self.members.push(MemberModel {
            path,
            free_length_m: member.free_length_m(),
            stiffness_n_per_m: member.stiffness_n_per_m(),
        });
    }

    fn add_edge(&mut self, rig: &Rig, member: &Member, body: usize, edge: usize) -> PathStop {
        let owner = &rig.bodies[body];
        let edge = &owner.edges[edge];
        let (from_m, to_m) = (Vec3::from(edge.from_m), Vec3::from(edge.to_m));
        let middle_m = (from_m + to_m) / 2.0;
        let along = (to_m - from_m).normalize();
        let outward = Vec3::from(edge.outward);
        let own_node = member.path.iter().find_map(|stop| match *stop {
            Stop::Node { body: on, node } if on == body => Some(owner.nodes_m[node][0]),
            _ => None,
        });
        let anchor = self.add_on_body(owner, body, middle_m, own_node.unwrap_or(middle_m.x));
        self.edges.push(EdgeModel {
            anchor,
            body,
            at_m: middle_m - self.bodies[body].reference_m,
            along,
            outward: (outward - along * along.dot(&outward)).normalize(),
        });
        PathStop {
            anchor,
            edge: Some(self.edges.len() - 1),
        }
    }

    fn reach_m(&self, rig: &Rig) -> f64 {
        let arms = self.members.iter().flat_map(|member| &member.path).filter_map(|stop| {
            match self.anchors[stop.anchor].kind {
                AnchorKind::OnBody { local_m, .. } => Some(local_m.norm()),
                _ => None,
            }
        });
        let arm_m = arms.fold(0.0, f64::max);
        let lengths_m = rig.members.iter().map(Member::free_length_m);
        if arm_m > 0.0 {
            arm_m
        } else {
            lengths_m.fold(0.0, f64::max)
        }
    }

    /// The pose the rig is drawn in.
    pub fn drawn(&self, rig: &Rig) -> Pose {
        let bodies = rig.bodies.iter().zip(&self.bodies).map(|(body, model)| {
            let attitude = UnitQuaternion::from_axis_angle(&Vec3::z_axis(), body.heading_rad);
            (
                Vec3::from(body.at_m) - self.origin_m + attitude * model.reference_m,
                attitude,
            )
        });
        Pose {
            bodies: bodies.collect(),
            twist_rad: vec![0.0; self.bays],
            bend_m: vec![0.0; self.bends],
            points: rig
                .points
                .iter()
                .map(|point| Vec3::from(point.at_m) - self.origin_m)
                .collect(),
        }
    }

    /// The pose of a state; fixed points stay where the rig has them.
    pub fn pose_of(&self, rig: &Rig, state: &State) -> Result<Pose, NoHang> {
        let misfit = NoHang::Input(InputFault::StartDoesNotFit);
        if state.bodies.len() != self.bodies.len() || state.points_m.len() != rig.points.len() {
            return Err(misfit);
        }
        let mut pose = self.drawn(rig);
        for (index, (body, model)) in state.bodies.iter().zip(&self.bodies).enumerate() {
            let [w, x, y, z] = body.attitude;
            let attitude = Unit::try_new(Quaternion::new(w, x, y, z), 1e-3).ok_or(misfit.clone())?;
            let fits = |given: usize, own: usize| given == own || given == 0;
            if !fits(body.twist_rad.len(), model.bays) || !fits(body.bend_m.len(), model.bends) {
                return Err(misfit);
            }
            pose.bodies[index] = (
                Vec3::from(body.at_m) - self.origin_m + attitude * model.reference_m,
                attitude,
            );
            for (bay, twist_rad) in body.twist_rad.iter().enumerate() {
                pose.twist_rad[model.first_bay + bay] = *twist_rad;
            }
            for (bend, bend_m) in body.bend_m.iter().enumerate() {
                pose.bend_m[model.first_bend + bend] = *bend_m;
            }
        }
        for (index, _) in rig.points.iter().enumerate().filter(|(_, point)| !point.fixed) {
            pose.points[index] = Vec3::from(state.points_m[index]) - self.origin_m;
        }
        let numbers = pose
            .bodies
            .iter()
            .flat_map(|(at_m, attitude)| at_m.iter().chain(attitude.coords.iter()));
        let finite = numbers
            .chain(&pose.twist_rad)
            .chain(&pose.bend_m)
            .chain(pose.points.iter().flatten())
            .all(|x| x.is_finite());
        if finite { Ok(pose) } else { Err(misfit) }
    }

    /// The state of a pose.
    pub fn state_of(&self, pose: &Pose) -> State {
        let bodies = pose
            .bodies
            .iter()
            .zip(&self.bodies)
            .map(|((reference_m, attitude), model)| BodyState {
                at_m: (reference_m + self.origin_m - attitude * model.reference_m).into(),
                attitude: [attitude.w, attitude.i, attitude.j, attitude.k],
                twist_rad: pose.twist_rad[model.first_bay..model.first_bay + model.bays].to_vec(),
                bend_m: pose.bend_m[model.first_bend..model.first_bend + model.bends].to_vec(),
            });
        let points = pose.points.iter().map(|at_m| (at_m + self.origin_m).into());
        State {
            bodies: bodies.collect(),
            points_m: points.collect(),
        }
    }
}

/// Share of each bay's twist at `x_m`: none before the bay, all beyond it, even between.
pub(super) fn bay_shares(sections_x_m: &[f64], x_m: f64) -> impl Iterator<Item = f64> + '_ {
    sections_x_m
        .windows(2)
        .map(move |bay| ((x_m - bay[0]) / (bay[1] - bay[0])).clamp(0.0, 1.0))
}

/// Places of a body that feel a force: nodes and edges in use, and its mass.
fn attached_m(rig: &Rig, index: usize, body: &Body) -> Vec<Vec3> {
    let stops = rig.members.iter().flat_map(|member| &member.path);
    let mut places_m: Vec<Vec3> = Vec::new();
    for stop in stops {
        match *stop {
            Stop::Node { body: on, node } if on == index => places_m.push(Vec3::from(body.nodes_m[node])),
            Stop::Edge { body: on, edge } if on == index => {
                places_m.extend([Vec3::from(body.edges[edge].from_m), Vec3::from(body.edges[edge].to_m)]);
            }
            _ => {}
        }
    }
    places_m.extend(body.cg_m().map(Vec3::from));
    places_m
}

/// Axes a body can be turned about with any effect, as columns, and how many there are.
fn turning_axes(attached_m: &[Vec3]) -> (usize, Matrix3<f64>) {
    let first_m = attached_m.first().copied().unwrap_or_default();
    let far = attached_m
        .iter()
        .map(|at_m| at_m - first_m)
        .fold(Vec3::zeros(), |far, arm| {
            if arm.norm_squared() > far.norm_squared() {
                arm
            } else {
                far
            }
        });
    let size_m = far.norm();
    if size_m <= f64::MIN_POSITIVE {
        return (0, Matrix3::identity());
    }
    let along = far / size_m;
    let off_line_m = attached_m
        .iter()
        .map(|at_m| (at_m - first_m).cross(&along).norm())
        .fold(0.0, f64::max);
    if off_line_m > ON_ONE_LINE * size_m {
        return (3, Matrix3::identity());
    }
    let across = along.cross(&Vec3::ith(along.iamin(), 1.0)).normalize();
    (2, Matrix3::from_columns(&[across, along.cross(&across), along]))
}

/// A fixed point in use, and whether all others are on its vertical.
fn plumb(rig: &Rig) -> (Vec3, bool) {
    let mut fixed = rig
        .members
        .iter()
        .flat_map(|member| &member.path)
        .filter_map(|stop| match *stop {
            Stop::Point(point) => Some(&rig.points[point]).filter(|point| point.fixed),
            _ => None,
        });
    let Some(first) = fixed.next() else {
        return (Vec3::zeros(), false);
    };
    let same = |a: f64, b: f64| (a - b).abs() <= f64::EPSILON * a.abs().max(b.abs());
    let one = fixed.all(|point| same(point.at_m[0], first.at_m[0]) && same(point.at_m[1], first.at_m[1]));
    (Vec3::from(first.at_m), one)
}
