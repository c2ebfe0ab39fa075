//! What a lift weighs: the load with its contingency, and the rigging under the block.

use super::raise::{arc_of, computed_pull_kg};
use super::{BoxResult, LoadResult};
use crate::plan::{Lift, Load, Plan, Rig};
use crate::quantity::Ratio;
use crate::structure::planned_pull;
use crate::takeoff::WeightGrade;

pub fn assess(plan: &Plan, lift: &Lift, boxes: &[BoxResult]) -> LoadResult {
    let mut missing = Vec::new();
    let bare = bare_kg(plan, lift, boxes).map_err(|why| missing.push(why)).ok();
    let contingency = bare.and_then(|(_, grade)| contingency(plan, lift, grade));
    if bare.is_some() && contingency.is_none() {
        missing.push("contingency not entered: in the lift, or its default in the limits".into());
    }
    let rigging_kg = match plan.rig(&lift.rig) {
        Some(rig) => rigging_kg(plan, rig).map_err(|why| missing.push(why)).ok(),
        None => {
            missing.push(if lift.rig.is_empty() {
                "no rig named for this lift".into()
            } else {
                format!("rig {} is not in the plan", lift.rig)
            });
            None
        }
    };
    let planned_kg = bare.zip(contingency).map(|((kg, _), c)| kg * (1.0 + c.to_of()));
    LoadResult {
        bare_kg: bare.map(|(kg, _)| kg),
        contingency,
        planned_kg,
        rigging_kg,
        missing,
    }
}

fn bare_kg(plan: &Plan, lift: &Lift, boxes: &[BoxResult]) -> Result<(f64, WeightGrade), String> {
    match &lift.load {
        Load::Box { id } => {
            let result = boxes
                .iter()
                .find(|b| b.id == *id)
                .ok_or_else(|| format!("box {id} is not in the plan"))?;
            if let Some(blocking) = result.messages.iter().find(|m| m.blocks) {
                return Err(format!("weight of box {id}: {}: {}", blocking.place, blocking.text));
            }
            let planned = result.planned.ok_or_else(|| format!("no weight yet for box {id}"))?;
            Ok((planned.mass_kg, planned.grade))
        }
        Load::RoofRaise {
            panel,
            hinge_to_cg,
            hinge_to_pull,
            least_share,
            ..
        } => {
            let all = panel
                .not_negative()
                .zip(hinge_to_cg.not_negative())
                .zip(hinge_to_pull.not_negative())
                .zip(least_share.not_negative());
            let (((panel, cg), pull), least) =
                all.ok_or("roof panel: weight, hinge distances and least share must all be entered")?;
            if pull.to_m() <= 0.0 {
                return Err("roof panel: the distance from hinge to pull must be above nothing".into());
            }
            let arc = arc_of(plan, lift).and_then(Result::ok);
            let computed_kg = computed_pull_kg(arc.as_ref(), panel.to_kg(), cg.to_m(), pull.to_m())
                .ok_or("roof panel: somewhere on its arc the sling runs along the panel and cannot hold it")?;
            Ok((
                planned_pull(computed_kg, panel.to_kg(), least.to_of()),
                WeightGrade::TakeOff,
            ))
        }
        Load::Bundle { name, mass, .. } => {
            let mass = mass
                .not_negative()
                .ok_or_else(|| format!("weight of {name} not entered"))?;
            Ok((mass.to_kg(), WeightGrade::TakeOff))
        }
    }
}

fn contingency(plan: &Plan, lift: &Lift, grade: WeightGrade) -> Option<Ratio> {
    let default = match grade {
        WeightGrade::WeighedAfterLoading => &plan.limits.contingency_weighed,
        WeightGrade::WeighedEarly => &plan.limits.contingency_weighed_early,
        WeightGrade::TakeOff => &plan.limits.contingency_takeoff,
        WeightGrade::PerArea => &plan.limits.contingency_per_area,
    };
    lift.contingency.get_or(|| default.get()).filter(|c| c.to_of() >= 0.0)
}

fn rigging_kg(plan: &Plan, rig: &Rig) -> Result<f64, String> {
    rig.pieces.iter().try_fold(0.0, |sum, piece| {
        let item = plan
            .gear_item(&piece.gear)
            .ok_or_else(|| format!("rig {}: {} is not on the truck's list", rig.id, piece.gear))?;
        let mass = item
            .mass
            .not_negative()
            .ok_or_else(|| format!("own weight of {} ({}) not entered", item.id, item.name))?;
        Ok(sum + f64::from(piece.count) * mass.to_kg())
    })
}
