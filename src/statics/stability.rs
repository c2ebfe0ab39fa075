//! Whether a pose at rest is a stable one, and if not, which way it goes.

use nalgebra::{DMatrix, DVector, DVectorView, SymmetricEigen};

use super::Vec3;
use super::fault::{NoHang, Part};
use super::model::AnchorKind;
use super::newton::UPRIGHT_COS;
use super::system::System;

/// Least curvature of a stable pose, as a share of weight times reach. Below it a motion meets no resistance.
const LEAST_CURVATURE: f64 = 1e-8;
/// Share of a motion that may be other than turning about the vertical for it to count as free turning.
const OTHER_THAN_TURNING: f64 = 1e-3;

/// How a pose at rest answers to the members' lengths.
pub(super) struct Slopes {
    /// Change of each member's tension, as rows, with each member's length, N/m.
    pub tension_n_per_m: DMatrix<f64>,
    /// Change of the unknowns with each member's length, per m.
    pub follows_per_m: Vec<DVector<f64>>,
}

impl System {
    /// A true minimum resists every motion, turning about the vertical apart where that is free.
    pub fn check_stable(&mut self) -> Result<(), NoHang> {
        let least_j = LEAST_CURVATURE * self.model.weight_n * self.model.reach_m;
        if let Some(factor) = self.factorise(-least_j, 0.0) {
            self.factor = factor.unpack_dirty();
            return Ok(());
        }
        let mut matrix = self.curvature.clone();
        self.hold_plumb(&mut matrix);
        matrix.fill_upper_triangle_with_lower_triangle();
        let SymmetricEigen {
            eigenvectors,
            eigenvalues,
        } = SymmetricEigen::new(matrix);
        let softest = eigenvalues.imin();
        if eigenvalues[softest] < -least_j {
            return Err(self.goes_over(eigenvectors.column(softest)));
        }
        let free = eigenvalues.iter().enumerate().filter(|(_, value)| **value <= least_j);
        let loose = free
            .map(|(mode, _)| eigenvectors.column(mode))
            .find(|motion| !self.turns_freely(*motion));
        loose.map_or(Ok(()), |motion| {
            Err(NoHang::Mechanism {
                part: self.moves_most(motion),
            })
        })
    }

    /// The body that leans most in a motion, and the side of it that goes down.
    fn goes_over(&self, motion: DVectorView<'_, f64>) -> NoHang {
        let leans = (0..self.model.bodies.len()).map(|body| {
            let turn = self.turns[body].transpose() * self.turn_of(body, motion);
            (body, libm::hypot(turn.x, turn.y), [turn.y, -turn.x])
        });
        match leans.max_by(|a, b| a.1.total_cmp(&b.1)) {
            Some((body, size, [x, y])) if size > 0.0 => NoHang::GoesOver {
                body,
                toward: [x / size, y / size],
                either_way: true,
            },
            _ => NoHang::Mechanism {
                part: self.moves_most(motion),
            },
        }
    }

    /// Turn of a body in a motion, world axes.
    fn turn_of(&self, body: usize, motion: DVectorView<'_, f64>) -> Vec3 {
        let model = &self.model.bodies[body];
        (0..model.turns).fold(Vec3::zeros(), |turn, axis| {
            turn + self.turns[body] * model.axes.column(axis) * motion[model.offset + 3 + axis]
        })
    }

    /// Whether a motion is turning about verticals, each part its own, that lifts nothing.
    fn turns_freely(&self, motion: DVectorView<'_, f64>) -> bool {
        let bodies = (0..self.model.bodies.len()).map(|body| {
            let turn = self.turn_of(body, motion);
            let model = &self.model.bodies[body];
            let twist = motion
                .rows(model.offset + 3 + model.turns, model.bays + model.bends)
                .norm();
            libm::hypot(turn.x, turn.y)
                .max(motion[model.offset + 2].abs())
                .max(twist)
        });
        let points = self.model.anchors.iter().filter_map(|anchor| match anchor.kind {
            AnchorKind::Free { offset } => Some(motion[offset + 2].abs()),
            _ => None,
        });
        let turning = (0..self.model.bodies.len())
            .map(|body| self.turn_of(body, motion).z.abs())
            .fold(0.0, f64::max);
        bodies.chain(points).all(|other| other < OTHER_THAN_TURNING) && turning > 0.1
    }

    fn moves_most(&self, motion: DVectorView<'_, f64>) -> Part {
        let size = |first: usize, count: usize| motion.rows(first, count).norm();
        let bodies = self
            .model
            .bodies
            .iter()
            .enumerate()
            .map(|(index, body)| (Part::Body(index), size(body.offset, body.unknowns())));
        let points = self
            .model
            .anchors
            .iter()
            .enumerate()
            .filter_map(|(index, anchor)| match anchor.kind {
                AnchorKind::Free { offset } => Some((Part::Point(index), size(offset, 3))),
                _ => None,
            });
        bodies
            .chain(points)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map_or(Part::Rig, |(part, _)| part)
    }

    /// A body that hangs leaning past upright, and the side of it that went down.
    pub fn overturned(&self) -> Option<(usize, [f64; 2])> {
        (0..self.model.bodies.len()).find_map(|index| {
            let body = &self.model.bodies[index];
            let turn = &self.turns[index];
            let along = body.axes.column(2);
            let over = match body.turns {
                3 => turn[(2, 2)] < UPRIGHT_COS,
                // A line that was drawn level must not end steep.
                2 => {
                    along.z.abs() < UPRIGHT_COS && (turn * along).z.abs() > libm::sqrt(1.0 - UPRIGHT_COS * UPRIGHT_COS)
                }
                _ => false,
            };
            let down = Vec3::new(-turn[(2, 0)], -turn[(2, 1)], 0.0).try_normalize(f64::MIN_POSITIVE);
            let lean = self.leans[index]
                .or(down.map(|down| [down.x, down.y]))
                .unwrap_or([1.0, 0.0]);
            over.then_some((index, lean))
        })
    }

    /// How each member's tension changes with each member's length, N/m, as rows: `∂Tᵢ/∂Lⱼ = kᵢ(∇ℓᵢᵀ H⁻¹ ∇ℓⱼ kⱼ − δᵢⱼ)`; and how
    /// the pose follows, per m.
    ///
    /// A slack member's row is that of the tension it would carry if it could push: how near it is to taking up.
    /// Source: derived, the equilibrium ∇E = 0 differentiated with respect to Lⱼ.
    pub fn slopes(&mut self) -> Option<Slopes> {
        let count = self.members.len();
        let factor = self.factorise(0.0, 0.0)?;
        let mut slopes: Vec<DVector<f64>> = Vec::with_capacity(count);
        for member in 0..count {
            let mut slope = DVector::zeros(self.model.unknowns);
            self.length_slope(member, &mut slope);
            slopes.push(slope);
        }
        let follow = |(member, slope): (usize, &DVector<f64>)| {
            let taut = self.members[member].tension_n > 0.0;
            factor.solve(slope) * if taut { self.stiffness_n_per_m[member] } else { 0.0 }
        };
        let follows_per_m: Vec<DVector<f64>> = slopes.iter().enumerate().map(follow).collect();
        let tension_n_per_m = DMatrix::from_fn(count, count, |i, j| {
            let own = if i == j { 1.0 } else { 0.0 };
            self.stiffness_n_per_m[i] * (slopes[i].dot(&follows_per_m[j]) - own)
        });
        self.factor = factor.unpack_dirty();
        Some(Slopes {
            tension_n_per_m,
            follows_per_m,
        })
    }
}
