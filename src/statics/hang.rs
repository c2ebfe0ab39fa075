//! One rig, one answer: how it hangs, or why it does not.

use super::drawing::{self, outside_m, touches};
use super::fault::NoHang;
use super::model::Pose;
use super::newton::TOLERANCE;
use super::report::{self, Hang};
use super::rig::{Rig, State};
use super::system::System;

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
        drawing::fault(rig).map_or(Ok(()), Err)?;
        Self::new(rig)
    }

    /// Moves the system to rest, from `start` or from the drawing, and judges what it comes to.
    pub fn come_to_rest(&mut self, rig: &Rig, start: Option<&Pose>) -> Result<(), NoHang> {
        self.steps = 0;
        self.leans.fill(None);
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
