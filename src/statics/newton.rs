//! The search for rest: Newton's steps down the energy, shortened where they overshoot.

use nalgebra::{Cholesky, DMatrix, Dyn};

use super::Vec3;
use super::model::AnchorKind;
use super::system::System;

/// Force left over at rest, as a share of the total weight; the same share of weight times reach for moments.
pub(super) const TOLERANCE: f64 = 1e-9;
/// Tolerance while slings are still softened.
const ROUGH_TOLERANCE: f64 = 1e-3;
/// Softened slings stretch by this share of their length under the whole weight.
const SOFT_STRAIN: f64 = 1.0 / 400.0;
/// Each softened stage is this much stiffer than the one before.
const STAGE: f64 = 100.0;
const MOST_STEPS: usize = 400;
const MOST_HALVINGS: usize = 40;
/// Longest step: rad for turns, shares of the reach for moves. Small enough to stay in the valley the start is in.
const LONGEST_STEP: f64 = 0.3;
/// A slope this small beside the energy cannot be seen in it: there the residual decides.
const UNSEEN: f64 = 1e-12;
/// Smallest pivot, as a share of weight times reach, with which a step is trusted.
const LEAST_PIVOT: f64 = 1e-10;
/// First shift of a curvature that is not that of a valley, as a share of weight times reach.
const FIRST_SHIFT: f64 = 1e-3;
/// Upright no longer: the body's z leans past 60°, cos 60° = 0.5.
pub(super) const UPRIGHT_COS: f64 = 0.5;

/// What is left over of force and moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Residual {
    pub force_n: f64,
    pub moment_n_m: f64,
}

impl System {
    /// Finds rest from the present pose. From a drawing, stiff slings are first softened, so that the way down is wide.
    pub fn relax(&mut self, from_drawing: bool) -> Residual {
        let mut soft = 1.0 / SOFT_STRAIN;
        let stiffest = self.stiffest();
        while from_drawing && soft < stiffest {
            self.soften(soft);
            self.minimise(ROUGH_TOLERANCE);
            soft *= STAGE;
        }
        self.soften(f64::INFINITY);
        self.minimise(TOLERANCE)
    }

    /// Largest EA in units of the total weight.
    fn stiffest(&self) -> f64 {
        let stiff = self
            .model
            .members
            .iter()
            .map(|member| member.stiffness_n_per_m * member.free_length_m);
        stiff.fold(0.0, f64::max) / self.model.weight_n
    }

    /// Caps every member's EA at a multiple of the total weight.
    fn soften(&mut self, most: f64) {
        for (stiffness, member) in self.stiffness_n_per_m.iter_mut().zip(&self.model.members) {
            *stiffness = member
                .stiffness_n_per_m
                .min(most * self.model.weight_n / member.free_length_m);
        }
    }

    fn minimise(&mut self, tolerance: f64) -> Residual {
        let mut energy_j = self.place();
        let mut least = f64::INFINITY;
        let mut patience = 4;
        for _ in 0..MOST_STEPS {
            self.differentiate();
            self.note_lean();
            let residual = self.residual();
            if self.left_over(residual) <= tolerance || !self.find_step() {
                return residual;
            }
            self.steps += 1;
            let slope_j = self.gradient.dot(&self.step);
            let unseen_j = UNSEEN * self.energy_scale_j();
            self.held.copy_from(&self.pose);
            if -slope_j > unseen_j {
                match self.search(energy_j, slope_j) {
                    Some(lower_j) => energy_j = lower_j,
                    None => return residual,
                }
            } else {
                patience -= usize::from(self.left_over(residual) > 0.5 * least);
                least = least.min(self.left_over(residual));
                if patience == 0 {
                    return residual;
                }
                self.move_by(1.0);
                energy_j = self.place();
            }
        }
        self.differentiate();
        self.residual()
    }

    /// Shortens the step until the energy falls as it should (Armijo's rule, with a parabola to guess the length).
    fn search(&mut self, energy_j: f64, slope_j: f64) -> Option<f64> {
        let mut share = (LONGEST_STEP / self.step.amax()).min(1.0);
        for _ in 0..MOST_HALVINGS {
            self.move_by(share);
            let tried_j = self.place();
            if tried_j <= energy_j + 1e-4 * share * slope_j {
                return Some(tried_j);
            }
            let parabola = -slope_j * share * share / (2.0 * (tried_j - energy_j - slope_j * share));
            share = if parabola.is_finite() {
                parabola.clamp(0.1 * share, 0.5 * share)
            } else {
                0.1 * share
            };
        }
        self.pose.copy_from(&self.held);
        self.place();
        None
    }

    /// Newton's step from gradient and curvature; where the curvature is not that of a valley it is shifted until it is.
    fn find_step(&mut self) -> bool {
        let unit_j = self.model.weight_n * self.model.reach_m;
        let mut shift_j = 0.0;
        for _ in 0..24 {
            if let Some(factor) = self.factorise(shift_j, LEAST_PIVOT * unit_j) {
                self.step.copy_from(&self.gradient);
                factor.solve_mut(&mut self.step);
                self.step.neg_mut();
                self.factor = factor.unpack_dirty();
                return self.step.iter().all(|x| x.is_finite());
            }
            shift_j = if shift_j > 0.0 {
                shift_j * 10.0
            } else {
                FIRST_SHIFT * unit_j
            };
        }
        false
    }

    /// Cholesky factor of the shifted curvature, turning about the plumb line held; none unless all pivots are enough.
    pub fn factorise(&mut self, shift_j: f64, least_pivot_j: f64) -> Option<Cholesky<f64, Dyn>> {
        let unknowns = self.model.unknowns;
        let mut matrix = std::mem::replace(&mut self.factor, DMatrix::zeros(0, 0));
        if matrix.nrows() != unknowns {
            matrix = DMatrix::zeros(unknowns, unknowns);
        }
        matrix.copy_from(&self.curvature);
        self.hold_plumb(&mut matrix);
        for unknown in 0..unknowns {
            matrix[(unknown, unknown)] += shift_j;
        }
        let factor = Cholesky::new(matrix)?;
        let enough = factor
            .l_dirty()
            .diagonal()
            .iter()
            .all(|root| root * root > least_pivot_j);
        enough.then_some(factor)
    }

    /// Gives turning about the plumb line, along which the energy is level, a stiffness: it takes no other motion's.
    pub fn hold_plumb(&mut self, matrix: &mut DMatrix<f64>) {
        if !self.model.one_plumb {
            return;
        }
        let turn = &mut self.plumb_turn;
        turn.fill(0.0);
        let reach_m = self.model.reach_m;
        for (index, body) in self.model.bodies.iter().enumerate() {
            let moves = Vec3::z().cross(&self.pose.bodies[index].0) / reach_m;
            turn.fixed_rows_mut::<3>(body.offset).copy_from(&moves);
            for axis in 0..body.turns {
                turn[body.offset + 3 + axis] = (self.turns[index] * body.axes.column(axis)).z;
            }
        }
        for (index, at_m) in self.pose.points.iter().enumerate() {
            if let AnchorKind::Free { offset } = self.model.anchors[index].kind {
                turn.fixed_rows_mut::<3>(offset)
                    .copy_from(&(Vec3::z().cross(at_m) / reach_m));
            }
        }
        let size = turn.norm_squared();
        if size > 0.0 {
            matrix.syger(self.model.weight_n * reach_m / size, turn, turn, 1.0);
        }
    }

    /// Magnitude of the terms the energy is summed from, J.
    fn energy_scale_j(&self) -> f64 {
        let hung: f64 = self
            .model
            .loads
            .iter()
            .map(|(anchor, weight_n)| weight_n * self.anchors[*anchor].at_m.z.abs())
            .sum();
        hung + self.model.weight_n * self.model.reach_m
    }

    pub fn residual(&self) -> Residual {
        let reach_m = self.model.reach_m;
        let force_n = |offset: usize| self.gradient.fixed_rows::<3>(offset).norm() / reach_m;
        let mut residual = Residual {
            force_n: 0.0,
            moment_n_m: 0.0,
        };
        for body in &self.model.bodies {
            residual.force_n = residual.force_n.max(force_n(body.offset));
            let turns = self.gradient.rows(body.offset + 3, body.turns);
            let bays = self.gradient.rows(body.offset + 3 + body.turns, body.bays + body.bends);
            residual.moment_n_m = residual.moment_n_m.max(turns.norm()).max(bays.norm());
        }
        for anchor in &self.model.anchors {
            if let AnchorKind::Free { offset } = anchor.kind {
                residual.force_n = residual.force_n.max(force_n(offset));
            }
        }
        residual
    }

    /// The larger of force over weight and moment over weight times reach.
    pub fn left_over(&self, residual: Residual) -> f64 {
        let Residual { force_n, moment_n_m } = residual;
        let share = force_n.max(moment_n_m / self.model.reach_m) / self.model.weight_n;
        if share.is_nan() { f64::INFINITY } else { share }
    }

    /// Remembers which way each body first leans past upright.
    fn note_lean(&mut self) {
        for (lean, turn) in self.leans.iter_mut().zip(&self.turns) {
            if lean.is_none() && turn[(2, 2)] < UPRIGHT_COS {
                let (x, y) = (-turn[(2, 0)], -turn[(2, 1)]);
                let size = libm::hypot(x, y);
                *lean = (size > 0.0).then(|| [x / size, y / size]);
            }
        }
    }
}
