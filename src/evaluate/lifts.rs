//! One lift: its weights, its hang, and the crane at pick and set with the spot and the boom that use least of the chart.

use super::crane_side::{CraneSide, DEFAULT_RADIUS_ALLOWANCE_M, Hanging, Target, demands};
use super::further::{Further, HungLift, PlacedLift};
use super::raise::{RaiseSite, raise_site};
use super::{BoxResult, EndKind, EndResult, LiftResult, LoadResult, RigResult, StandingBox, loads, rigs};
use crate::check::{Check, Finding, Outcome, gravest};
use crate::geometry::sort_short;
use crate::geometry::{distance_m, rectangle, rotate};
use crate::plan::{HouseBox, Id, Lift, Load, PickSpot, Plan};
use crate::quantity::{Length, Ratio};
use crate::reach::{Answer, Block, Boomed, Grade};
use core::cmp::Ordering;

/// What of a lift does not depend on where the crane stands.
#[derive(Clone, Debug)]
pub struct Hang {
    load: LoadResult,
    rig: RigResult,
    cg_m: Option<[f64; 3]>,
    findings: Vec<Finding>,
}

/// Works out a lift's weights and how it hangs.
pub fn hang(plan: &Plan, lift: &Lift, boxes: &[BoxResult], further: Further) -> Hang {
    let load = loads::assess(plan, lift, boxes);
    let house = lifted_box(plan, lift).and_then(|house| boxes.iter().find(|b| b.id == house.id));
    let cg_m = house.and_then(|house| house.cg_m);
    let (rig, mut findings) = rigs::assess(plan, lift, &load, cg_m);
    findings.extend(
        load.missing
            .iter()
            .map(|missing| Finding::not_checked(Check::Weight, "the load", missing.clone())),
    );
    findings.extend(house.iter().flat_map(|house| house.findings.clone()));
    let hung = HungLift {
        plan,
        lift,
        house,
        load: &load,
        rig: &rig,
    };
    findings.extend(further.of_hang.iter().flat_map(|check| check(&hung)));
    Hang {
        load,
        rig,
        cg_m,
        findings,
    }
}

/// Works out one lift of the plan.
pub fn assess(plan: &Plan, index: usize, hang: Hang, crane: &CraneSide<'_>, further: Further) -> LiftResult {
    let lift = &plan.lifts[index];
    let Hang {
        load,
        rig,
        cg_m,
        mut findings,
    } = hang;
    findings.extend(crane.findings.iter().cloned());
    let hanging = Hanging {
        planned_kg: load.planned_kg,
        rigging_kg: load.rigging_kg,
        hook_above_m: rig.hook_above_m,
    };
    let standing = standing_boxes(plan, index);
    let mut result = LiftResult {
        id: lift.id.clone(),
        number: lift.number,
        title: title(lift),
        load,
        rig,
        spot: None,
        boom_m: None,
        ends: Vec::new(),
        governs: None,
        use_of_chart: None,
        next_row_use: None,
        next_row_not_allowed: false,
        default_allowance_use: None,
        default_allowance_not_allowed: false,
        may_move: None,
        findings: Vec::new(),
        outcome: Outcome::Within,
    };
    match best_case(plan, lift, cg_m, crane, hanging, &standing) {
        Ok(mut case) => {
            findings.append(&mut case.findings);
            take(plan, crane, case, &mut result);
            let placed = PlacedLift {
                plan,
                index,
                crane,
                lift: &result,
                standing: &standing,
            };
            findings.extend(further.of_place.iter().flat_map(|check| check(&placed)));
        }
        Err(missing) => findings.push(Finding::not_checked(Check::ChartUse, "the lift", missing)),
    }
    sort_short(&mut findings, |a, b| b.outcome.gravity().cmp(&a.outcome.gravity()));
    result.outcome = gravest(&findings);
    result.findings = findings;
    result
}

/// What a lift is called.
pub fn title(lift: &Lift) -> String {
    match &lift.load {
        Load::Box { id } => format!("box {id}"),
        Load::RoofRaise { on, .. } => format!("roof raise on {on}"),
        Load::Bundle { name, .. } => name.clone(),
    }
}

pub fn lifted_box<'a>(plan: &'a Plan, lift: &Lift) -> Option<&'a HouseBox> {
    match &lift.load {
        Load::Box { id } => plan.house_box(id),
        _ => None,
    }
}

/// One way to make a lift: a spot and a boom.
struct Case {
    spot: Option<Id>,
    boom_m: f64,
    ends: Vec<EndResult>,
    findings: Vec<Finding>,
}

/// What a way to make a lift is measured by; smaller is better: first whether the boom reaches over the load at all, then the gravest outcome,
/// then the use of the chart.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
struct Rank {
    fit: Grade,
    all: Grade,
    use_of_chart: f64,
}

impl Rank {
    const BEST: Self = Self {
        fit: Grade::Within,
        all: Grade::Within,
        use_of_chart: 0.0,
    };

    fn with(self, answer: &Answer) -> Self {
        Self {
            fit: self.fit.max(answer.fit()),
            all: self.all.max(answer.fit()).max(answer.chart),
            use_of_chart: self.use_of_chart.max(answer.use_of_chart),
        }
    }

    /// With the crane standing in the carrier's way, or not.
    fn with_carrier(self, is_clear: Option<bool>) -> Self {
        let grade = if is_clear == Some(false) {
            Grade::Outside
        } else {
            Grade::Within
        };
        Self {
            fit: self.fit.max(grade),
            all: self.all.max(grade),
            ..self
        }
    }

    fn is_better_than(&self, other: &Self) -> bool {
        self.partial_cmp(other) == Some(Ordering::Less)
    }
}

/// The way that reaches over the load, with the least grave outcome, and among equals the least use of the chart: the first of the best.
fn best_case(
    plan: &Plan,
    lift: &Lift,
    cg_m: Option<[f64; 3]>,
    crane: &CraneSide<'_>,
    hanging: Hanging,
    standing: &[StandingBox],
) -> Result<Case, String> {
    let at_m = crane.at_m.ok_or("where the crane stands is not entered")?;
    let limits = &plan.limits;
    let booms: Vec<(f64, Boomed)> = booms_m(plan, lift, crane)?
        .iter()
        .map(|&m| (m, crane.boomed(m)))
        .collect();
    let set = set_target(plan, lift, cg_m)?;
    let picks = pick_targets(plan, lift, cg_m)?;
    let blocks: Vec<Block> = standing.iter().map(StandingBox::block).collect();
    let demands = demands(limits);
    let set_end = crane.end(limits, &set, hanging);
    let mut best: Option<(Rank, usize, f64)> = None;
    for (nth, (_, pick)) in picks.iter().enumerate() {
        let pick_end = pick.as_ref().map(|pick| crane.end(limits, pick, hanging));
        let carrier = pick.as_ref().and_then(|pick| crane.is_clear_of_carrier(pick));
        for (boom_m, boomed) in &booms {
            let rank = pick_end
                .iter()
                .chain([&set_end])
                .map(|end| boomed.check(at_m, end, &blocks, &demands))
                .fold(Rank::BEST.with_carrier(carrier), |rank, answer| rank.with(&answer));
            if best.is_none_or(|(least, ..)| rank.is_better_than(&least)) {
                best = Some((rank, nth, *boom_m));
            }
        }
    }
    let (_, nth, boom_m) = best.ok_or("no pick spot is named for this lift")?;
    let (spot, pick) = &picks[nth];
    let named = named_blocks(standing);
    let (mut ends, mut findings) = (Vec::new(), Vec::new());
    for target in pick.iter().chain([&set]) {
        let (end, found) = crane.at_end(limits, boom_m, target, hanging, &named);
        ends.push(end);
        findings.extend(found);
    }
    Ok(Case {
        spot: spot.clone(),
        boom_m,
        ends,
        findings,
    })
}

/// The boom of the lift, else that of the day, else every one of the chart.
/// Boxes that are set, each with what it is called.
pub fn named_blocks(standing: &[StandingBox]) -> Vec<(String, Block)> {
    standing.iter().map(|b| (format!("box {}", b.id), b.block())).collect()
}

fn booms_m(plan: &Plan, lift: &Lift, crane: &CraneSide) -> Result<Vec<f64>, String> {
    let boom = if lift.boom.is_blank() {
        &plan.set_up.boom
    } else {
        &lift.boom
    };
    match boom.get() {
        Some(boom) => Ok(vec![boom.to_m()]),
        None if !boom.is_blank() => Err("the boom length of the lift cannot be read".into()),
        None if crane.booms_m().is_empty() => Err("the rating chart has no boom lengths to choose from".into()),
        None => Ok(crane.booms_m()),
    }
}

/// Where the load is set down.
fn set_target(plan: &Plan, lift: &Lift, cg_m: Option<[f64; 3]>) -> Result<Target, String> {
    let end = EndKind::Set;
    match &lift.load {
        Load::Box { id } => {
            let house = plan
                .house_box(id)
                .ok_or_else(|| format!("box {id} is not in the plan"))?;
            let cg_m = cg_m.ok_or_else(|| format!("the centre of gravity of box {id}"))?;
            let (corner, heading_rad, floor_m) = placed(house)?;
            let cg = rotate([cg_m[0], cg_m[1]], (libm::cos(heading_rad), libm::sin(heading_rad)));
            let hook_m = [corner[0] + cg[0], corner[1] + cg[1]];
            box_target(end, house, cg_m, hook_m, heading_rad, floor_m)
        }
        Load::RoofRaise { on, .. } => {
            if let Some(Ok(site)) = raise_site(plan, lift) {
                return Ok(site.target(end, site.arc().to_rad));
            }
            let house = plan
                .house_box(on)
                .ok_or_else(|| format!("box {on} is not in the plan"))?;
            let (corner, heading_rad, floor_m) = placed(house)?;
            let (l, w, h) = size_m(house)?;
            let middle = rotate([l / 2.0, w / 2.0], (libm::cos(heading_rad), libm::sin(heading_rad)));
            let hook_m = [corner[0] + middle[0], corner[1] + middle[1]];
            Ok(Target {
                end,
                hook_m,
                floor_m: floor_m + h,
                outline_m: Vec::new(),
                height_m: 0.0,
            })
        }
        Load::Bundle {
            name, set, set_height, ..
        } => {
            let hook_m = set.metres().ok_or_else(|| format!("where {name} is set down"))?;
            let floor_m = set_height
                .not_negative()
                .ok_or_else(|| format!("the height at which {name} is set down"))?
                .to_m();
            Ok(Target {
                end,
                hook_m,
                floor_m,
                outline_m: Vec::new(),
                height_m: 0.0,
            })
        }
    }
}

/// A pick spot by name and where the load is there; a roof raise begins where its arc does.
type Pick = (Option<Id>, Option<Target>);

/// The pick spots that the lift may use; a roof raise has none.
fn pick_targets(plan: &Plan, lift: &Lift, cg_m: Option<[f64; 3]>) -> Result<Vec<Pick>, String> {
    if let Load::RoofRaise { .. } = lift.load {
        let at_start = |site: RaiseSite| site.target(EndKind::Pick, site.arc().from_rad);
        return Ok(vec![(None, raise_site(plan, lift).and_then(Result::ok).map(at_start))]);
    }
    lift.picks
        .iter()
        .map(|id| {
            let spot = plan
                .spot(id)
                .ok_or_else(|| format!("pick spot {id} is not in the plan"))?;
            Ok((Some(id.clone()), Some(pick_target(plan, lift, cg_m, spot)?)))
        })
        .collect()
}

fn pick_target(plan: &Plan, lift: &Lift, cg_m: Option<[f64; 3]>, spot: &PickSpot) -> Result<Target, String> {
    let missing = |what: &str| format!("{what} of pick spot {}", spot.id);
    let hook_m = spot.at.metres().ok_or_else(|| missing("the place"))?;
    let floor_m = spot
        .floor
        .not_negative()
        .ok_or_else(|| missing("the height of the carrier's deck"))?
        .to_m();
    match lifted_box(plan, lift) {
        Some(house) => {
            let heading_rad = spot.heading.get().ok_or_else(|| missing("the heading"))?.to_rad();
            let cg_m = cg_m.ok_or_else(|| format!("the centre of gravity of box {}", house.id))?;
            box_target(EndKind::Pick, house, cg_m, hook_m, heading_rad, floor_m)
        }
        None => Ok(Target {
            end: EndKind::Pick,
            hook_m,
            floor_m,
            outline_m: Vec::new(),
            height_m: 0.0,
        }),
    }
}

fn box_target(
    end: EndKind,
    house: &HouseBox,
    cg_m: [f64; 3],
    hook_m: [f64; 2],
    heading_rad: f64,
    floor_m: f64,
) -> Result<Target, String> {
    let (l, w, h) = size_m(house)?;
    let turn = (libm::cos(heading_rad), libm::sin(heading_rad));
    let outline_m = rectangle(hook_m, turn, [-cg_m[0], -cg_m[1]], [l - cg_m[0], w - cg_m[1]]).to_vec();
    Ok(Target {
        end,
        hook_m,
        floor_m,
        outline_m,
        height_m: h,
    })
}

fn size_m(house: &HouseBox) -> Result<(f64, f64, f64), String> {
    let size = house
        .length
        .not_negative()
        .zip(house.width.not_negative())
        .zip(house.height.not_negative());
    let ((l, w), h) = size.ok_or_else(|| format!("length, width and height of box {}", house.id))?;
    Ok((l.to_m(), w.to_m(), h.to_m()))
}

pub fn placed(house: &HouseBox) -> Result<([f64; 2], f64, f64), String> {
    let placed = house
        .set_corner
        .metres()
        .zip(house.set_heading.get())
        .zip(house.set_floor.get());
    let ((corner, heading), floor) =
        placed.ok_or_else(|| format!("where box {} is set: corner, heading, floor height", house.id))?;
    Ok((corner, heading.to_rad(), floor.to_m()))
}

/// The boxes that earlier lifts have set.
pub fn standing_boxes(plan: &Plan, index: usize) -> Vec<StandingBox> {
    plan.lifts[..index]
        .iter()
        .filter_map(|lift| standing(lifted_box(plan, lift)?))
        .collect()
}

/// A box in its place; `None` where its place or size is unknown.
pub fn standing(house: &HouseBox) -> Option<StandingBox> {
    let (corner, heading_rad, floor_m) = placed(house).ok()?;
    let (l, w, h) = size_m(house).ok()?;
    let outline_m = rectangle(
        corner,
        (libm::cos(heading_rad), libm::sin(heading_rad)),
        [0.0, 0.0],
        [l, w],
    );
    Some(StandingBox {
        id: house.id.clone(),
        outline_m,
        top_m: floor_m + h,
    })
}

/// Takes a case into the result, with what governs.
fn take(plan: &Plan, crane: &CraneSide, case: Case, result: &mut LiftResult) {
    let use_of = |e: &EndResult| e.use_of_chart.map_or(f64::INFINITY, Ratio::to_of);
    result.governs = case
        .ends
        .iter()
        .enumerate()
        .max_by(|a, b| use_of(a.1).total_cmp(&use_of(b.1)))
        .map(|(i, _)| i);
    result.spot = case.spot;
    result.boom_m = Some(case.boom_m);
    result.ends = case.ends;
    let every = |f: fn(&EndResult) -> Option<Ratio>| -> Option<Ratio> {
        result
            .ends
            .iter()
            .map(f)
            .collect::<Option<Vec<_>>>()?
            .into_iter()
            .reduce(Ratio::max)
    };
    result.use_of_chart = every(|e| e.use_of_chart);
    result.next_row_use = every(|e| e.next_row_use);
    result.next_row_not_allowed = result.use_of_chart.is_some() && result.next_row_use.is_none();
    result.may_move = result
        .ends
        .iter()
        .map(|e| e.may_move)
        .collect::<Option<Vec<_>>>()
        .and_then(|m| m.into_iter().reduce(Length::min));
    let default = default_allowance(plan, crane, result, case.boom_m);
    if let Some(used) = default {
        result.default_allowance_use = used;
        result.default_allowance_not_allowed = used.is_none();
    }
}

/// Use of the chart with the default radius allowance, where the plan's is smaller; the inner `None` is "no rating".
fn default_allowance(plan: &Plan, crane: &CraneSide, result: &LiftResult, boom_m: f64) -> Option<Option<Ratio>> {
    let allowance_m = plan.limits.radius_allowance.not_negative()?.to_m();
    let table = crane
        .table
        .as_ref()
        .filter(|_| allowance_m < DEFAULT_RADIUS_ALLOWANCE_M)?;
    let at = crane.at_m?;
    let uses: Option<Vec<Ratio>> = result
        .ends
        .iter()
        .map(|end| {
            let radius = Length::m(distance_m(at, end.hook_m) + DEFAULT_RADIUS_ALLOWANCE_M);
            Some(Ratio::of(
                end.gross? / table.rating(radius, Length::m(boom_m)).capacity()?,
            ))
        })
        .collect();
    result.use_of_chart?;
    Some(uses.and_then(|u| u.into_iter().reduce(Ratio::max)))
}
