//! Potential energy of a pose, its slope and its curvature: weights going down against slings and twist being stretched.
//!
//! `E = Σ mᵢ g zᵢ + Σ ½ k (ℓ − L₀)²₊ + Σ ½ (GJ/s) φ² + Σ ½ EI ∫w″²` — ℓ the length of a member's path in the pose,
//! φ a bay's twist, w the bent line.
//! Everything is differentiated by hand; rotations are small turns δ of the present attitude,
//! `r → r + δ×r + ½ δ×(δ×r)`.

use nalgebra::{DMatrix, DVector, Matrix3};

use super::Vec3;
use super::model::{AnchorKind, BodyModel, EdgeModel, PathStop, Ride};
use super::system::{Placed, System};
use super::wrap::NO_LENGTH_M;

/// A straight run of a member between two things it touches.
#[derive(Debug, Clone, Copy)]
pub(super) struct Segment {
    from: PathStop,
    to: PathStop,
    direction: Vec3,
    length_m: f64,
}

impl Segment {
    /// Curvature of its length with the difference of its ends: `(I − nnᵀ)/ℓ`.
    fn bending(&self) -> Matrix3<f64> {
        if self.length_m < NO_LENGTH_M {
            return Matrix3::zeros();
        }
        (Matrix3::identity() - self.direction * self.direction.transpose()) / self.length_m
    }
}

impl System {
    /// The energy of the placed pose, J.
    pub fn energy_j(&self) -> f64 {
        let hung: f64 = self
            .model
            .loads
            .iter()
            .map(|(anchor, weight_n)| weight_n * self.anchors[*anchor].at_m.z)
            .sum();
        let stretched: f64 = self
            .members
            .iter()
            .zip(&self.stiffness_n_per_m)
            .map(|(member, stiffness)| 0.5 * member.tension_n * member.tension_n / stiffness)
            .sum();
        let twisted: f64 = self
            .model
            .bodies
            .iter()
            .flat_map(|body| {
                body.bay_stiffness_n_m
                    .iter()
                    .enumerate()
                    .map(|(bay, k)| (body.first_bay + bay, k))
            })
            .map(|(bay, stiffness)| 0.5 * stiffness * self.pose.twist_rad[bay] * self.pose.twist_rad[bay])
            .sum();
        hung + stretched + twisted + self.bent_j()
    }

    fn bent_j(&self) -> f64 {
        let bodies = self.model.bodies.iter().filter(|body| body.bends > 0);
        let of_body = |body: &BodyModel| {
            let bends_m = &self.pose.bend_m[body.first_bend..body.first_bend + body.bends];
            let stiffness = body.bend_stiffness_n_per_m.iter().enumerate();
            let part = |(at, k): (usize, &f64)| 0.5 * k * bends_m[at / body.bends] * bends_m[at % body.bends];
            stiffness.map(part).sum::<f64>()
        };
        bodies.map(of_body).sum()
    }

    /// Slope and curvature of the energy at the placed pose.
    pub fn differentiate(&mut self) {
        self.gradient.fill(0.0);
        self.curvature.fill(0.0);
        self.fill_columns();
        for placed in &mut self.anchors {
            placed.slope_n = Vec3::zeros();
        }
        for (anchor, weight_n) in &self.model.loads {
            self.anchors[*anchor].slope_n.z += weight_n;
        }
        for member in 0..self.members.len() {
            if self.members[member].tension_n > 0.0 {
                self.add_member(member);
            }
        }
        for anchor in 0..self.anchors.len() {
            self.add_slope(anchor);
        }
        self.add_bays();
    }

    fn fill_columns(&mut self) {
        let reach_m = self.model.reach_m;
        let units = [Vec3::x() * reach_m, Vec3::y() * reach_m, Vec3::z() * reach_m];
        for (anchor, placed) in self.model.anchors.iter().zip(&self.anchors) {
            let columns = &mut self.columns[anchor.first_column..anchor.first_column + anchor.columns];
            let offset = match anchor.kind {
                AnchorKind::Fixed => continue,
                AnchorKind::Free { offset } => offset,
                AnchorKind::OnBody { body, .. } => self.model.bodies[body].offset,
            };
            for (axis, unit) in units.iter().enumerate() {
                columns[axis] = (offset + axis, *unit);
            }
            if let AnchorKind::OnBody { body, ride, .. } = anchor.kind {
                let model = &self.model.bodies[body];
                for axis in 0..model.turns {
                    let about = self.turns[body] * model.axes.column(axis);
                    columns[3 + axis] = (offset + 3 + axis, about.cross(&placed.arm_m));
                }
                for bay in 0..model.bays {
                    let at = 3 + model.turns + bay;
                    columns[at] = (offset + at, placed.swing_m * self.model.shares[ride.share + bay]);
                }
                for bend in 0..model.bends {
                    let at = 3 + model.turns + model.bays + bend;
                    let moves = self.turns[body] * self.model.bendings[ride.bend + bend] * reach_m;
                    columns[at] = (offset + at, moves);
                }
            }
        }
    }

    /// Adds a taut member: `½k(ℓ−L₀)²` has curvature `k ∇ℓ∇ℓᵀ + T ∇²ℓ`.
    fn add_member(&mut self, member: usize) {
        self.trace(member);
        let tension_n = self.members[member].tension_n;
        for index in 0..self.segments.len() {
            let segment = self.segments[index];
            self.anchors[segment.from.anchor].slope_n -= segment.direction * tension_n;
            self.anchors[segment.to.anchor].slope_n += segment.direction * tension_n;
        }
        let stiffness = self.stiffness_n_per_m[member];
        if let [segment] = self.segments[..] {
            // one straight run: stretching and turning in one
            let along = segment.direction * segment.direction.transpose() * stiffness;
            self.add_spring(&segment, along + segment.bending() * tension_n);
            return;
        }
        for index in 0..self.segments.len() {
            let segment = self.segments[index];
            self.add_spring(&segment, segment.bending() * tension_n);
        }
        self.fill_row();
        add_outer(&mut self.curvature, &self.row, stiffness);
        if self.segments.iter().any(|segment| segment.to.edge.is_some()) {
            self.add_sliding(tension_n);
        }
    }

    /// Lists the straight runs of a member.
    fn trace(&mut self, member: usize) {
        self.segments.clear();
        let mut before: Option<PathStop> = None;
        for stop in &self.model.members[member].path {
            if stop.edge.is_none_or(|edge| self.lines[edge].touching) {
                if let Some(from) = before {
                    let run_m = self.anchors[stop.anchor].at_m - self.anchors[from.anchor].at_m;
                    let length_m = run_m.norm();
                    let direction = if length_m < NO_LENGTH_M {
                        Vec3::zeros()
                    } else {
                        run_m / length_m
                    };
                    self.segments.push(Segment {
                        from,
                        to: *stop,
                        direction,
                        length_m,
                    });
                }
                before = Some(*stop);
            }
        }
    }

    /// Slope of a traced member's length by unknown, as a sparse row.
    fn fill_row(&mut self) {
        self.row.clear();
        for segment in &self.segments {
            for (stop, sign) in [(segment.from, -1.0), (segment.to, 1.0)] {
                let anchor = &self.model.anchors[stop.anchor];
                let columns = &self.columns[anchor.first_column..anchor.first_column + anchor.columns];
                let slopes = columns
                    .iter()
                    .map(|(unknown, moves)| (*unknown, sign * moves.dot(&segment.direction)));
                self.row.extend(slopes);
            }
        }
    }

    /// Slope of a member's length by unknown, whether it is taut or not, written over `slope`.
    pub fn length_slope(&mut self, member: usize, slope: &mut DVector<f64>) {
        self.trace(member);
        self.fill_row();
        slope.fill(0.0);
        for (unknown, value) in &self.row {
            slope[*unknown] += value;
        }
    }

    /// Adds `Dᵀ S D`, D how the difference of the segment's ends moves, S its stiffness as a spring in space, N/m.
    fn add_spring(&mut self, segment: &Segment, spring_n_per_m: Matrix3<f64>) {
        let model = &self.model.anchors;
        let range = |anchor: usize| {
            let anchor = &model[anchor];
            anchor.first_column..anchor.first_column + anchor.columns
        };
        let ends = [(range(segment.from.anchor), -1.0), (range(segment.to.anchor), 1.0)];
        let rows = self.curvature.nrows();
        let entries = self.curvature.as_mut_slice();
        for (from, from_sign) in &ends {
            for (column, moves) in &self.columns[from.clone()] {
                let bent = spring_n_per_m * moves * *from_sign;
                for (to, to_sign) in &ends {
                    for (row, other) in &self.columns[to.clone()] {
                        if row >= column {
                            entries[row + column * rows] += to_sign * other.dot(&bent);
                        }
                    }
                }
            }
        }
    }

    /// Lets the contacts of a traced member slide: takes `T ℓ_qs ℓ_ss⁻¹ ℓ_sq` off, s the slides, eliminated in order.
    fn add_sliding(&mut self, tension_n: f64) {
        let mut before: Option<(Vec3, f64)> = None;
        let mut contact = 0;
        for index in 1..self.segments.len() {
            let (arriving, leaving) = (self.segments[index - 1], self.segments[index]);
            let Some(edge) = leaving.from.edge else {
                before = None;
                continue;
            };
            let along = self.lines[edge].along;
            let (bend_in, bend_out) = (arriving.bending() * along, leaving.bending() * along);
            let mut pivot = along.dot(&(bend_in + bend_out));
            self.contact_rows.column_mut(contact).fill(0.0);
            self.add_contact_row(contact, &arriving, bend_in);
            self.add_contact_row(contact, &leaving, -bend_out);
            self.add_contact_turning(contact, edge, arriving.direction - leaving.direction);
            if let Some((along_before, pivot_before)) = before {
                let coupling = -along_before.dot(&bend_in);
                let (earlier, mut later) = self.contact_rows.columns_range_pair_mut(contact - 1, contact);
                later.axpy(-coupling / pivot_before, &earlier, 1.0);
                pivot -= coupling * coupling / pivot_before;
            }
            if pivot > 0.0 {
                let row = self.contact_rows.column(contact);
                self.curvature.syger(-tension_n / pivot, &row, &row, 1.0);
                before = Some((along, pivot));
            } else {
                before = None;
            }
            contact += 1;
        }
    }

    fn add_contact_row(&mut self, contact: usize, segment: &Segment, bent: Vec3) {
        for (stop, sign) in [(segment.from, -1.0), (segment.to, 1.0)] {
            let anchor = &self.model.anchors[stop.anchor];
            for (unknown, moves) in &self.columns[anchor.first_column..anchor.first_column + anchor.columns] {
                self.contact_rows[(*unknown, contact)] += sign * moves.dot(&bent);
            }
        }
    }

    /// The edge's own direction turns with its body.
    fn add_contact_turning(&mut self, contact: usize, edge: usize, slope: Vec3) {
        let EdgeModel { body, anchor, .. } = self.model.edges[edge];
        let model = &self.model.bodies[body];
        let along = self.lines[edge].along;
        for axis in 0..model.turns {
            let about = self.turns[body] * model.axes.column(axis);
            self.contact_rows[(model.offset + 3 + axis, contact)] += about.cross(&along).dot(&slope);
        }
        if let AnchorKind::OnBody { ride, .. } = self.model.anchors[anchor].kind {
            let swing = self.turns[body].column(0).cross(&along).dot(&slope);
            for bay in 0..model.bays {
                let share = self.model.shares[ride.share + bay];
                self.contact_rows[(model.offset + 3 + model.turns + bay, contact)] += share * swing;
            }
        }
    }

    /// Adds an anchor's slope to the unknowns it moves with, and the curvature of its own path.
    fn add_slope(&mut self, index: usize) {
        let slope_n = self.anchors[index].slope_n;
        if slope_n == Vec3::zeros() {
            return;
        }
        let anchor = self.model.anchors[index];
        for (unknown, moves) in &self.columns[anchor.first_column..anchor.first_column + anchor.columns] {
            self.gradient[*unknown] += moves.dot(&slope_n);
        }
        if let AnchorKind::OnBody { body, ride, .. } = anchor.kind {
            self.add_path_curvature(body, ride, index);
        }
    }

    /// An anchor on a body moves on a curve: `∂²r/∂δ² = ½(δ×(δ×r))`, `∂²r/∂δ∂φ = δ×w`, `∂²r/∂φ² = e×w`,
    /// `∂²r/∂δ∂q = δ×u` with u its move by a bending.
    fn add_path_curvature(&mut self, body: usize, ride: Ride, index: usize) {
        let model = &self.model.bodies[body];
        let Placed {
            arm_m,
            swing_m,
            swing_rate_m,
            slope_n,
            ..
        } = self.anchors[index];
        let first = model.offset + 3;
        let lever = slope_n.dot(&arm_m);
        for a in 0..model.turns {
            let about_a = self.turns[body] * model.axes.column(a);
            let (slope_a, arm_a) = (slope_n.dot(&about_a), arm_m.dot(&about_a));
            for b in 0..=a {
                let about_b = self.turns[body] * model.axes.column(b);
                let mixed = 0.5 * (slope_a * arm_m.dot(&about_b) + slope_n.dot(&about_b) * arm_a);
                self.curvature[(first + a, first + b)] += mixed - if a == b { lever } else { 0.0 };
            }
        }
        for bend in 0..model.bends {
            let moves = self.turns[body] * self.model.bendings[ride.bend + bend] * self.model.reach_m;
            for axis in 0..model.turns {
                let about = self.turns[body] * model.axes.column(axis);
                self.curvature[(model.bend_offset() + bend, first + axis)] += about.cross(&moves).dot(&slope_n);
            }
        }
        if model.bays == 0 {
            return;
        }
        let shares = &self.model.shares[ride.share..ride.share + model.bays];
        let twist = first + model.turns;
        for (bay, share) in shares.iter().enumerate() {
            for axis in 0..model.turns {
                let about = self.turns[body] * model.axes.column(axis);
                self.curvature[(twist + bay, first + axis)] += share * about.cross(&swing_m).dot(&slope_n);
            }
            for (other, other_share) in shares[..=bay].iter().enumerate() {
                self.curvature[(twist + bay, twist + other)] += share * other_share * swing_rate_m.dot(&slope_n);
            }
        }
    }

    fn add_bays(&mut self) {
        for body in &self.model.bodies {
            for (bay, stiffness) in body.bay_stiffness_n_m.iter().enumerate() {
                let unknown = body.offset + 3 + body.turns + bay;
                self.gradient[unknown] += stiffness * self.pose.twist_rad[body.first_bay + bay];
                self.curvature[(unknown, unknown)] += stiffness;
            }
            for (at, stiffness) in body.bend_stiffness_n_per_m.iter().enumerate() {
                let (row, column) = (at / body.bends, at % body.bends);
                let (first, reach_m) = (body.bend_offset(), self.model.reach_m);
                self.gradient[first + row] += stiffness * reach_m * self.pose.bend_m[body.first_bend + column];
                if row >= column {
                    self.curvature[(first + row, first + column)] += stiffness * reach_m * reach_m;
                }
            }
        }
    }
}

/// Adds `factor · row rowᵀ` to the lower triangle, the row sparse, an unknown perhaps in it more than once.
fn add_outer(curvature: &mut DMatrix<f64>, row: &[(usize, f64)], factor: f64) {
    let rows = curvature.nrows();
    let entries = curvature.as_mut_slice();
    for (column, value) in row {
        let scaled = factor * value;
        for (other, other_value) in row {
            if other >= column {
                entries[other + column * rows] += scaled * other_value;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::{Bend, Body, Edge, MassItem, Member, Point, Stop, Twist};

    /// A twisting and bending body on a running sling, a plain one, one over two edges and a hanging weight, tilted.
    fn everything() -> System {
        let node = |node| Stop::Node { body: 0, node };
        let rig = Rig {
            bodies: vec![Body {
                masses: vec![
                    MassItem {
                        mass_kg: 700.0,
                        at_m: [0.5, 0.3, 0.4],
                    },
                    MassItem {
                        mass_kg: 500.0,
                        at_m: [3.0, -0.2, 0.6],
                    },
                    MassItem {
                        mass_kg: 300.0,
                        at_m: [7.5, 0.4, 1.0],
                    },
                ],
                nodes_m: vec![[1.0, -1.0, 0.0], [4.0, 1.0, 0.1], [7.0, -1.2, 0.0], [6.0, 1.1, 0.0]],
                edges: vec![
                    Edge {
                        from_m: [0.0, 1.5, 2.0],
                        to_m: [8.0, 1.6, 2.1],
                        outward: [0.0, 1.0, 1.0],
                    },
                    Edge {
                        from_m: [0.0, 1.6, 1.0],
                        to_m: [8.0, 1.5, 0.9],
                        outward: [0.0, 1.0, 0.1],
                    },
                ],
                twist: Some(Twist {
                    axis_yz_m: [0.1, 0.3],
                    sections_x_m: vec![1.0, 4.0, 7.0],
                    gj_n_m2: 4e4,
                }),
                bend: Some(Bend {
                    neutral_z_m: 0.9,
                    sections_x_m: vec![1.0, 3.0, 6.0, 7.0],
                    ei_n_m2: 3e4,
                }),
                at_m: [-4.0, 0.0, -6.0],
                heading_rad: 0.2,
                ..Body::default()
            }],
            points: vec![
                Point {
                    at_m: [0.0, 0.0, 0.0],
                    mass_kg: 0.0,
                    fixed: true,
                },
                Point {
                    at_m: [0.5, 0.2, -1.5],
                    mass_kg: 40.0,
                    fixed: false,
                },
            ],
            members: vec![
                Member {
                    path: vec![node(0), Stop::Point(1), node(2)],
                    length_m: 9.0,
                    ea_n: 3e5,
                    fittings: Vec::new(),
                },
                Member::between(Stop::Point(0), Stop::Point(1), 1.4, 2e5),
                Member {
                    path: vec![
                        Stop::Point(1),
                        Stop::Edge { body: 0, edge: 0 },
                        Stop::Edge { body: 0, edge: 1 },
                        node(3),
                    ],
                    length_m: 4.0,
                    ea_n: 2e5,
                    fittings: Vec::new(),
                },
                Member::between(Stop::Point(0), node(1), 5.0, 1e5),
            ],
        };
        let mut system = System::new(&rig).expect("a valid rig");
        let unknowns = system.model.unknowns;
        system.held.copy_from(&system.pose);
        system.step = DVector::from_fn(unknowns, |unknown, _| 0.02 * (1.0 + unknown as f64 * 7.3 % 3.0));
        system.move_by(1.0);
        system
    }

    fn slope_of(system: &mut System, unknown: usize, step: f64) -> f64 {
        let mut at = |share: f64| {
            system.step.fill(0.0);
            system.step[unknown] = step;
            system.move_by(share);
            system.place()
        };
        (at(1.0) - at(-1.0)) / (2.0 * step)
    }

    /// Independent of the hand-made derivatives: central differences of the energy itself.
    #[test]
    fn gradient_is_the_slope_of_the_energy() {
        let mut system = everything();
        system.held.copy_from(&system.pose.clone());
        system.place();
        assert!(
            system.members.iter().all(|member| member.tension_n > 0.0),
            "every term is in play"
        );
        assert!(system.lines.iter().all(|line| line.touching), "both edges are touched");
        system.differentiate();
        let gradient = system.gradient.clone();
        for unknown in 0..system.model.unknowns {
            let slope = slope_of(&mut system, unknown, 1e-5);
            assert!(
                (slope - gradient[unknown]).abs() < 1e-6 * gradient.amax(),
                "{unknown}: {slope} {}",
                gradient[unknown]
            );
        }
    }

    /// Second differences of the energy, in the same small turns the curvature is written in.
    #[test]
    fn curvature_is_the_change_of_the_slope() {
        let mut system = everything();
        system.held.copy_from(&system.pose.clone());
        system.place();
        system.differentiate();
        let curvature = system.curvature.clone();
        let step = 2e-4;
        for row in 0..system.model.unknowns {
            for column in 0..=row {
                let mut at = |a: f64, b: f64| {
                    system.step.fill(0.0);
                    system.step[row] += a * step;
                    system.step[column] += b * step;
                    system.move_by(1.0);
                    system.place()
                };
                let second = (at(1.0, 1.0) - at(1.0, -1.0) - at(-1.0, 1.0) + at(-1.0, -1.0)) / (4.0 * step * step);
                let given = curvature[(row, column)];
                assert!(
                    (second - given).abs() < 2e-5 * curvature.amax(),
                    "{row},{column}: {second} {given}"
                );
            }
        }
    }
}
