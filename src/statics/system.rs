//! A rig in a pose: where every attachment is, which edges the straps touch, and how the pose is moved.

use nalgebra::{DMatrix, DVector, Matrix3, Quaternion, UnitQuaternion};

use super::Vec3;
use super::energy::Segment;
use super::fault::NoHang;
use super::model::{AnchorKind, EdgeModel, Model, Pose, Ride};
use super::rig::Rig;
use super::wrap::{self, Line};

/// A model in a pose, with room for all that is computed there.
#[derive(Debug, Clone)]
pub(super) struct System {
    pub model: Model,
    pub pose: Pose,
    pub held: Pose,
    pub anchors: Vec<Placed>,
    pub turns: Vec<Matrix3<f64>>,
    pub lines: Vec<Line>,
    /// Columns of every anchor: which unknown, and how the anchor moves with it.
    pub columns: Vec<(usize, Vec3)>,
    pub members: Vec<Stretched>,
    /// Stiffness in use, N/m: below the true one while a start is being worked out.
    pub stiffness_n_per_m: Vec<f64>,
    /// Slope of the energy by unknown.
    pub gradient: DVector<f64>,
    /// Its curvature; only the lower triangle is filled.
    pub curvature: DMatrix<f64>,
    pub factor: DMatrix<f64>,
    pub step: DVector<f64>,
    /// Turning about the plumb line, as a step.
    pub plumb_turn: DVector<f64>,
    /// Steps taken so far.
    pub steps: usize,
    /// Which side of each body went down when it first leant past upright.
    pub leans: Vec<Option<[f64; 2]>>,
    /// Straight runs of the member being added, its length's slope by unknown, and its contacts' rows.
    pub segments: Vec<Segment>,
    pub row: Vec<(usize, f64)>,
    pub contact_rows: DMatrix<f64>,
}

/// Where an anchor is, and how it moves.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Placed {
    pub at_m: Vec3,
    /// From the body's reference.
    pub arm_m: Vec3,
    /// How it moves with its section's twist, and how that itself changes.
    pub swing_m: Vec3,
    pub swing_rate_m: Vec3,
    /// Slope of the energy with its place: minus the force on it, N.
    pub slope_n: Vec3,
}

#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Stretched {
    pub length_m: f64,
    pub tension_n: f64,
}

impl System {
    pub fn new(rig: &Rig) -> Result<Self, NoHang> {
        let model = Model::new(rig)?;
        let pose = model.drawn(rig);
        let unknowns = model.unknowns;
        let contacts = model
            .members
            .iter()
            .map(|member| member.path.iter().filter(|stop| stop.edge.is_some()).count());
        let most_contacts = contacts.max().unwrap_or(0);
        let edge = |edge: &EdgeModel| Line {
            at_m: edge.at_m,
            along: edge.along,
            outward: edge.outward,
            slide_m: 0.0,
            touching: false,
        };
        Ok(Self {
            held: pose.clone(),
            pose,
            anchors: vec![Placed::default(); model.anchors.len()],
            turns: vec![Matrix3::identity(); model.bodies.len()],
            lines: model.edges.iter().map(edge).collect(),
            columns: vec![(0, Vec3::zeros()); model.columns],
            members: vec![Stretched::default(); model.members.len()],
            stiffness_n_per_m: model.members.iter().map(|member| member.stiffness_n_per_m).collect(),
            gradient: DVector::zeros(unknowns),
            curvature: DMatrix::zeros(unknowns, unknowns),
            factor: DMatrix::zeros(unknowns, unknowns),
            step: DVector::zeros(unknowns),
            plumb_turn: DVector::zeros(unknowns),
            steps: 0,
            leans: vec![None; model.bodies.len()],
            segments: Vec::with_capacity(8),
            row: Vec::with_capacity(4 * 9),
            contact_rows: DMatrix::zeros(unknowns, most_contacts),
            model,
        })
    }

    /// Puts every anchor where the pose has it, lets straps settle on their edges, and sums the energy, J.
    pub fn place(&mut self) -> f64 {
        for (turn, (_, attitude)) in self.turns.iter_mut().zip(&self.pose.bodies) {
            *turn = *attitude.to_rotation_matrix().matrix();
        }
        for index in 0..self.model.anchors.len() {
            self.place_anchor(index);
        }
        for member in 0..self.members.len() {
            self.stretch(member);
        }
        self.energy_j()
    }

    fn place_anchor(&mut self, index: usize) {
        let placed = match self.model.anchors[index].kind {
            AnchorKind::Fixed | AnchorKind::Free { .. } => Placed {
                at_m: self.pose.points[index],
                ..Placed::default()
            },
            AnchorKind::OnBody { body, local_m, ride } => self.placed_on(body, local_m, ride),
        };
        self.anchors[index] = placed;
    }

    fn placed_on(&self, body: usize, local_m: Vec3, ride: Ride) -> Placed {
        let model = &self.model.bodies[body];
        let (turn, reference_m) = (&self.turns[body], self.pose.bodies[body].0);
        let bent_m = self.bent_m(body, ride);
        if model.bays == 0 {
            let arm_m = turn * (local_m + bent_m);
            return Placed {
                at_m: reference_m + arm_m,
                arm_m,
                ..Placed::default()
            };
        }
        let off_axis_m = local_m - model.twist_axis_m;
        let (sin, cos) = libm::sincos(self.section_twist_rad(body, ride));
        let (y, z) = (
            cos * off_axis_m.y - sin * off_axis_m.z,
            sin * off_axis_m.y + cos * off_axis_m.z,
        );
        let arm_m = turn * (model.twist_axis_m + Vec3::new(off_axis_m.x, y, z) + bent_m);
        Placed {
            at_m: reference_m + arm_m,
            arm_m,
            swing_m: turn * Vec3::new(0.0, -z, y),
            swing_rate_m: turn * Vec3::new(0.0, -y, -z),
            slope_n: Vec3::zeros(),
        }
    }

    /// Twist of the section an anchor rides with, against the body's first section, rad.
    pub fn section_twist_rad(&self, body: usize, ride: Ride) -> f64 {
        let model = &self.model.bodies[body];
        let shares = &self.model.shares[ride.share..ride.share + model.bays];
        let twists = &self.pose.twist_rad[model.first_bay..model.first_bay + model.bays];
        shares
            .iter()
            .zip(twists)
            .map(|(share, twist_rad)| share * twist_rad)
            .sum()
    }

    /// How far an anchor is moved by its body's bending, m, body frame.
    fn bent_m(&self, body: usize, ride: Ride) -> Vec3 {
        let model = &self.model.bodies[body];
        let moves = &self.model.bendings[ride.bend..ride.bend + model.bends];
        let bends_m = &self.pose.bend_m[model.first_bend..model.first_bend + model.bends];
        moves
            .iter()
            .zip(bends_m)
            .fold(Vec3::zeros(), |sum_m, (moves, bend_m)| sum_m + moves * *bend_m)
    }

    /// Length of a member's path and the tension it comes to.
    fn stretch(&mut self, member: usize) {
        self.settle_on_edges(member);
        let mut length_m = 0.0;
        let mut before: Option<usize> = None;
        for stop in &self.model.members[member].path {
            if stop.edge.is_none_or(|edge| self.lines[edge].touching) {
                if let Some(before) = before {
                    length_m += (self.anchors[stop.anchor].at_m - self.anchors[before].at_m).norm();
                }
                before = Some(stop.anchor);
            }
        }
        let stretch_m = length_m - self.model.members[member].free_length_m;
        self.members[member] = Stretched {
            length_m,
            tension_n: (self.stiffness_n_per_m[member] * stretch_m).max(0.0),
        };
    }

    /// Settles each run of edges of a member between the stops before and after it.
    fn settle_on_edges(&mut self, member: usize) {
        let mut index = 0;
        while index < self.model.members[member].path.len() {
            let path = &self.model.members[member].path;
            let edges = path[index..].iter().map_while(|stop| stop.edge).count();
            if edges > 0 {
                let first = path[index].edge.unwrap_or_default();
                let (before, after) = (path[index - 1].anchor, path[index + edges].anchor);
                self.settle_run(first, edges, before, after);
            }
            index += edges.max(1);
        }
    }

    /// Edges of one run are numbered one after the other.
    fn settle_run(&mut self, first: usize, edges: usize, before: usize, after: usize) {
        for edge in first..first + edges {
            let line = self.line(edge);
            self.lines[edge] = line;
        }
        let (from_m, to_m) = (self.anchors[before].at_m, self.anchors[after].at_m);
        wrap::settle(from_m, to_m, &mut self.lines[first..first + edges]);
        for edge in first..first + edges {
            let model = self.model.edges[edge];
            if let AnchorKind::OnBody { body, ride, .. } = self.model.anchors[model.anchor].kind {
                let local_m = model.at_m + model.along * self.lines[edge].slide_m;
                self.anchors[model.anchor] = self.placed_on(body, local_m, ride);
            }
        }
    }

    /// An edge in space, with the contact where it was last.
    fn line(&self, edge: usize) -> Line {
        let model = &self.model.edges[edge];
        let at = match self.model.anchors[model.anchor].kind {
            AnchorKind::OnBody { body, ride, .. } => {
                let axis = &self.turns[body].column(0).into_owned();
                let twist_rad = self.section_twist_rad(body, ride);
                let turn = UnitQuaternion::from_scaled_axis(axis * twist_rad).to_rotation_matrix() * self.turns[body];
                (
                    self.placed_on(body, model.at_m, ride).at_m,
                    turn * model.along,
                    turn * model.outward,
                )
            }
            _ => (model.at_m, model.along, model.outward),
        };
        let (at_m, along, outward) = at;
        Line {
            at_m,
            along,
            outward,
            slide_m: self.lines[edge].slide_m,
            touching: true,
        }
    }

    /// What each member would pull if it could also push, N: below zero for a slack one, by how far it is from taking up.
    pub fn pulls_n(&self) -> impl Iterator<Item = f64> + '_ {
        let members = self.members.iter().zip(&self.model.members);
        members.map(|(now, member)| member.stiffness_n_per_m * (now.length_m - member.free_length_m))
    }

    /// Moves from the held pose by `share` of the step.
    ///
    /// A turn δ is made as the unit quaternion of `(1, δ/2)`, which agrees with the turn by |δ| to second order.
    pub fn move_by(&mut self, share: f64) {
        let Self {
            model,
            pose,
            held,
            step,
            ..
        } = self;
        let far = share * model.reach_m;
        for (index, body) in model.bodies.iter().enumerate() {
            let (reference_m, attitude) = held.bodies[index];
            let at = body.offset;
            let mut turn = Vec3::zeros();
            let attitude_matrix = if body.turns == 0 {
                Matrix3::identity()
            } else {
                attitude.to_rotation_matrix().into_inner()
            };
            for axis in 0..body.turns {
                turn += attitude_matrix * body.axes.column(axis) * (share * step[at + 3 + axis]);
            }
            let turned = UnitQuaternion::new_normalize(Quaternion::from_parts(1.0, turn / 2.0)) * attitude;
            pose.bodies[index] = (
                reference_m + Vec3::new(step[at], step[at + 1], step[at + 2]) * far,
                turned,
            );
            for bay in 0..body.bays {
                let twist = body.first_bay + bay;
                pose.twist_rad[twist] = held.twist_rad[twist] + share * step[at + 3 + body.turns + bay];
            }
            for bend in 0..body.bends {
                let of_all = body.first_bend + bend;
                pose.bend_m[of_all] = held.bend_m[of_all] + far * step[body.bend_offset() + bend];
            }
        }
        for (index, at_m) in pose.points.iter_mut().enumerate() {
            if let AnchorKind::Free { offset } = model.anchors[index].kind {
                *at_m = held.points[index] + Vec3::new(step[offset], step[offset + 1], step[offset + 2]) * far;
            }
        }
    }
}
