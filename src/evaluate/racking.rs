//! Racking: the torque that the hang puts into the box between its picks, and what it does to the sheathing.

use super::box_beam::{half_m, hung_box, limit_of};
use super::further::HungLift;
use super::{Assessment, BoxResult, ready};
use crate::check::{Amount, Check, Finding, Working};
use crate::plan::{Component, HouseBox, Load, Plan, Torsion};
use crate::quantity::{Length, Moment, Quantity as _, STANDARD_GRAVITY_M_S2 as G};
use crate::rigging::{self, Hung, PickPull, SlingSetUp, closed_box_gj_n_m2};
use crate::structure::{
    Faces, TurningBox, TurningLoad, TurningPull, open_strips_gj_n_m2, sheathed_share, torque_when_corner_held_n_m,
    torque_when_uneven_n_m,
};
use crate::takeoff;

/// Thicker than this the boards of no face are, m: for what an open side leaves at most (judgement).
const THICKEST_M: f64 = 0.025;

/// Names of the faces, in the order of their stiffnesses.
pub const FACES: [&str; 4] = ["floor", "roof", "first side", "second side"];

/// One way in which the box comes to be wrung.
#[derive(Clone, Debug, PartialEq)]
pub struct RackingCase {
    /// In words.
    pub words: String,
    /// Largest torque between two sections of picks, N·m.
    pub torque_n_m: f64,
    /// The same by bay: largest and mean.
    pub bays: Vec<(f64, f64)>,
}

/// How a lift racks its box.
#[derive(Clone, Debug, PartialEq)]
pub struct Racking {
    /// As it hangs, then what could be otherwise.
    pub cases: Vec<RackingCase>,
    /// The closed cell; why there is none.
    pub faces: Result<Faces, String>,
    /// Its torsional rigidity, N·m²; why there is none.
    pub gj_n_m2: Result<f64, String>,
    /// Sections of picks, m.
    pub sections_m: Vec<f64>,
    /// Picks apart across the box, m.
    pub width_m: f64,
    /// What was taken as known.
    pub basis: Vec<String>,
}

impl Racking {
    /// Largest shear angle of a face under a torque, rad, and which face.
    pub fn worst_face(&self, torque_n_m: f64) -> Option<(f64, usize)> {
        let faces = self.faces.as_ref().ok()?;
        let shears = faces.shear_rad(torque_n_m.abs());
        (0..4).map(|i| (shears[i], i)).max_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// Width of a face across the run of the box, m.
    pub fn face_m(&self, face: usize) -> f64 {
        let faces = self.faces.as_ref().ok();
        faces.map_or(0.0, |f| if face < 2 { f.width_m } else { f.height_m })
    }

    /// Twist between the first and the last section, rad, and how far one corner pick is then out of the plane of the others, m.
    pub fn twist(&self, case: &RackingCase) -> Option<(f64, f64)> {
        let gj = self.gj_n_m2.as_ref().ok()?;
        let bays = case.bays.iter().zip(self.sections_m.windows(2));
        let twist: f64 = bays.map(|((_, mean), ends)| mean * (ends[1] - ends[0]) / gj).sum();
        Some((twist.abs(), libm::sin(twist.abs()) * self.width_m))
    }

    /// What an open side would leave of the twisting stiffness at most: share of the closed cell's.
    pub fn open_share(&self) -> Option<f64> {
        let faces = self.faces.as_ref().ok()?;
        let closed = closed_box_gj_n_m2(faces.width_m, faces.height_m, faces.gt_n_per_m);
        Some(open_strips_gj_n_m2(faces, THICKEST_M) / closed)
    }
}

/// How the lift racks its box, or what is missing.
///
/// # Errors
/// No box, no hang, or a row without a place.
pub fn racking(plan: &Plan, assessment: &Assessment, lift_index: usize) -> Result<Racking, String> {
    let (house, of_box, planned_kg, hung) = hung_box(plan, assessment, lift_index)?;
    let mut racking = as_it_hangs(plan, house, of_box, planned_kg, hung)?;
    racking
        .cases
        .extend(other_cases(plan, lift_index, house, hung, planned_kg, &racking));
    Ok(racking)
}

/// The faces of the closed cell, or what is missing.
pub fn faces_of(house: &HouseBox) -> Result<Faces, String> {
    let size = house.width.not_negative().zip(house.height.not_negative());
    let (width, height) = size.ok_or_else(|| format!("width and height of box {}", house.id))?;
    if house.torsion == Torsion::OpenSide {
        return Err(format!(
            "one side of box {} is open: it is no closed cell and resists by warping; brace the opening for the lift, or enter an engineer's figure",
            house.id
        ));
    }
    let mut gt_n_per_m = [0.0; 4];
    for (i, gt) in gt_n_per_m.iter_mut().enumerate() {
        let known = house.panels[i].not_negative().map(|v| v.si()).filter(|v| *v > 0.0);
        let whole = known.ok_or_else(|| format!("shear stiffness Ga of the {} of box {}", FACES[i], house.id))?;
        let kept = match limit_of(&format!("sheathed share of the {}", FACES[i]), &house.sheathed[i]) {
            Some(ratio) => sheathed_share(ratio?.to_of()),
            None => 1.0,
        };
        *gt = whole * kept;
    }
    if gt_n_per_m.contains(&0.0) {
        return Err(format!(
            "a face of box {} has nothing sheathed: choose an open side",
            house.id
        ));
    }
    Ok(Faces {
        width_m: width.to_m(),
        height_m: height.to_m(),
        gt_n_per_m,
    })
}

fn gj_of(house: &HouseBox, faces: &Result<Faces, String>) -> Result<f64, String> {
    match house.torsion {
        Torsion::Typed => {
            let gj = house.gj.not_negative().map(|gj| gj.si()).filter(|gj| *gj > 0.0);
            gj.ok_or_else(|| format!("stiffness against twist of box {}", house.id))
        }
        Torsion::Rigid => Ok(f64::INFINITY),
        Torsion::Panels => faces
            .clone()
            .map(|f| closed_box_gj_n_m2(f.width_m, f.height_m, f.gt_n_per_m)),
        Torsion::OpenSide => Err(faces.clone().err().unwrap_or_default()),
        Torsion::Unknown => Err(format!(
            "how stiff box {} is against twist: choose that in the box",
            house.id
        )),
    }
}

/// A place of the box as it hangs, aside from and over its axis, m: rolled about it.
fn rolled([y, z]: [f64; 2], axis: [f64; 2], roll_rad: f64) -> [f64; 2] {
    let (sin, cos) = (libm::sin(roll_rad), libm::cos(roll_rad));
    let (y, z) = (y - axis[0], z - axis[1]);
    [y * cos + z * sin, z * cos - y * sin]
}

fn as_it_hangs(
    plan: &Plan,
    house: &HouseBox,
    result: &BoxResult,
    planned_kg: Option<f64>,
    hung: &Hung,
) -> Result<Racking, String> {
    let planned_kg = planned_kg.ok_or("the weight of the load")?;
    let [_, width_m, height_m] = result.size_m.ok_or("length, width and height of the box")?;
    let axis = [width_m / 2.0, height_m / 2.0];
    let roll_rad = hung.across.tilt_rad;
    let turning = TurningBox {
        loads: loads(plan, house, result, planned_kg, axis, roll_rad)?,
        pulls: pulls(house, hung, axis, roll_rad)?,
    };
    let mut sections_m: Vec<f64> = turning.pulls.iter().map(|p| p.x_m).collect();
    sections_m.sort_by(f64::total_cmp);
    sections_m.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    let ys = turning.pulls.iter().map(|p| p.aside_m);
    let across_m = ys.clone().fold(f64::NEG_INFINITY, f64::max) - ys.fold(f64::INFINITY, f64::min);
    let faces = faces_of(house);
    let gj_n_m2 = gj_of(house, &faces);
    Ok(Racking {
        cases: vec![case("as it hangs".into(), &turning, &sections_m)],
        faces,
        gj_n_m2,
        sections_m,
        width_m: across_m,
        basis: vec![
            "the torque between two sections of picks is what the rows of the take-off and the pulls of the hang leave over on either side; the axis runs at half width and half height".into(),
            "γ = T/(2A·Gt) and GJ = 4A²/Σ(s/Gt) hold for a box that is closed all round (Bredt); a face with openings keeps r/(3 − 2r) of its stiffness".into(),
        ],
    })
}

fn case(words: String, turning: &TurningBox, sections_m: &[f64]) -> RackingCase {
    let bays: Vec<(f64, f64)> = sections_m
        .windows(2)
        .map(|ends| turning.between_n_m([ends[0], ends[1]]))
        .collect();
    let torque_n_m = bays.iter().fold(0.0, |most: f64, (largest, _)| most.max(largest.abs()));
    RackingCase {
        words,
        torque_n_m,
        bays,
    }
}

fn loads(
    plan: &Plan,
    house: &HouseBox,
    result: &BoxResult,
    planned_kg: f64,
    axis: [f64; 2],
    roll_rad: f64,
) -> Result<Vec<TurningLoad>, String> {
    let at = |[x, y, z]: [f64; 3], weight_n: f64, half_m: f64| TurningLoad {
        weight_n,
        from_m: x - half_m,
        to_m: x + half_m,
        aside_m: rolled([y, z], axis, roll_rad)[0],
    };
    if house.components.is_empty() {
        let cg_m = result.cg_m.ok_or("the centre of gravity")?;
        return Ok(vec![at(cg_m, planned_kg * G, 0.0)]);
    }
    let row = |component: &Component| {
        let item = takeoff::item(component, &plan.assemblies)
            .map_err(|why| format!("row {} ({}): {why}", component.id, component.name))?;
        Ok((item, half_m(component, item.at_m[0]).unwrap_or(0.0)))
    };
    let rows: Vec<_> = house.components.iter().map(row).collect::<Result<_, String>>()?;
    let sum_kg: f64 = rows.iter().map(|(item, _)| item.mass_kg).sum();
    Ok(rows
        .into_iter()
        .map(|(item, half_m)| at(item.at_m, item.mass_kg / sum_kg * planned_kg * G, half_m))
        .collect())
}

fn pulls(house: &HouseBox, hung: &Hung, axis: [f64; 2], roll_rad: f64) -> Result<Vec<TurningPull>, String> {
    let pull = |pull: &PickPull| {
        let [x_m, y, z] = house.picks.get(pull.pick).and_then(|p| p.metres())?;
        let [aside_m, over_m] = rolled([y, z], axis, roll_rad);
        Some(TurningPull {
            x_m,
            aside_m,
            over_m,
            up_n: pull.vertical_n,
            across_n: -pull.inward_across_n * aside_m.signum(),
        })
    };
    let pulls: Option<Vec<TurningPull>> = hung.picks.iter().map(pull).collect();
    pulls.ok_or_else(|| "a pick point has no place: x, y and z".into())
}

/// What could be otherwise: four legs of other lengths, an equaliser, an uneven lift-off, a frozen seal.
fn other_cases(
    plan: &Plan,
    lift_index: usize,
    house: &HouseBox,
    hung: &Hung,
    planned_kg: Option<f64>,
    nominal: &Racking,
) -> Vec<RackingCase> {
    let mut cases = Vec::new();
    let own_n_m = nominal.cases[0].torque_n_m;
    let flat = |words: String, torque_n_m: f64| RackingCase {
        words,
        torque_n_m,
        bays: nominal
            .sections_m
            .windows(2)
            .map(|_| (torque_n_m, torque_n_m))
            .collect(),
    };
    if let Ok(ready) = ready::ready(plan, lift_index)
        && matches!(ready.set_up, SlingSetUp::FourLegs { .. })
    {
        let weight_n = ready.load.mass_kg * G;
        cases.push(flat(
            "four legs of any lengths on a stiff box: one diagonal carries what it can (bound)".into(),
            own_n_m + diagonal_n(hung, weight_n) * nominal.width_m,
        ));
        for end in 0..2 {
            let name = super::end_name(house, end);
            let equal = rigging::equalised(&ready.load, &ready.set_up, end);
            let Ok(equal) = equal else { continue };
            let of_box = &ready.box_result;
            if let Ok(found) = as_it_hangs(plan, house, of_box, Some(ready.load.mass_kg), &equal) {
                let [first] = [&found.cases[0]];
                cases.push(RackingCase {
                    words: format!("with an equaliser at {name}: lengths change nothing any more"),
                    ..first.clone()
                });
            }
        }
    }
    let weight_n = planned_kg.map(|kg| kg * G);
    let lightest_n = hung.picks.iter().map(|p| p.vertical_n).fold(f64::INFINITY, f64::min);
    let span_m = nominal
        .sections_m
        .last()
        .zip(nominal.sections_m.first())
        .map_or(0.0, |(b, a)| b - a);
    if let (Some(low), Ok(gj)) = (plan.limits.bolsters.not_negative(), &nominal.gj_n_m2)
        && span_m > 0.0
        && nominal.width_m > 0.0
    {
        let words =
            "case, not held against the lift: on bolsters of which one corner is lower by as much as the limits say"
                .to_owned();
        let torque = torque_when_uneven_n_m(*gj, low.to_m(), nominal.width_m, span_m, lightest_n.max(0.0));
        cases.push(flat(words, torque));
    }
    if let (Some(share), Some(weight_n)) = (plan.limits.held_back.not_negative(), weight_n) {
        let words = "case, not held against the lift: one corner held down by a frozen seal or a bolt, up to the share in the limits (bound)".to_owned();
        let held = torque_when_corner_held_n_m(share.to_of() * weight_n, nominal.width_m);
        cases.push(flat(words, own_n_m + held));
    }
    cases
}

/// How much a diagonal of a stiff box may take over from the other, N at each pick: until a leg hangs slack.
fn diagonal_n(hung: &Hung, weight_n: f64) -> f64 {
    let ups: Vec<f64> = hung.picks.iter().map(|p| p.vertical_n).collect();
    match ups[..] {
        [a, b, c, d] => a.min(d).max(b.min(c)).max(0.0),
        _ => weight_n / 2.0,
    }
}

/// The check on racking: the torque as it hangs, or the bound of four legs that nothing equalises.
pub fn findings(hung: &HungLift<'_>) -> Vec<Finding> {
    let (Load::Box { id }, Some(result), Some(hang)) = (&hung.lift.load, hung.house, &hung.rig.hung) else {
        return Vec::new();
    };
    let Some(house) = hung.plan.house_box(id) else {
        return Vec::new();
    };
    if hung.plan.limits.racking.is_blank() {
        return Vec::new();
    }
    match as_it_hangs(hung.plan, house, result, hung.load.planned_kg, hang) {
        Ok(racking) => {
            let mut torque_n_m = racking.cases[0].torque_n_m;
            let four = hang
                .members
                .iter()
                .all(|m| matches!(m.kind, rigging::MemberKind::Leg(_)));
            if four {
                let weight_n = hung.load.planned_kg.unwrap_or_default() * G;
                torque_n_m += diagonal_n(hang, weight_n) * racking.width_m;
            }
            vec![racking_finding(hung.plan, &racking, torque_n_m)]
        }
        Err(missing) => vec![Finding::not_checked(Check::Racking, "the sheathing", missing)],
    }
}

/// A torque against the limit entered for the sheathing.
pub fn racking_finding(plan: &Plan, racking: &Racking, torque_n_m: f64) -> Finding {
    const SUBJECT: &str = "the sheathing between the picks";
    let faces = match &racking.faces {
        Ok(faces) => faces,
        Err(missing) => return Finding::not_checked(Check::Racking, SUBJECT, missing.clone()),
    };
    let limit = limit_of("limit on racking", &plan.limits.racking);
    let limit = limit.unwrap_or_else(|| Err("the limit on racking is not entered".into()));
    let (limit, (shear_rad, face)) = match limit.and_then(|limit| {
        let worst = racking.worst_face(torque_n_m).ok_or("the sheathing of the faces")?;
        Ok((limit, worst))
    }) {
        Ok(known) => known,
        Err(missing) => return Finding::not_checked(Check::Racking, SUBJECT, missing),
    };
    let face_m = racking.face_m(face);
    let demand = Amount::Small(Length::m(shear_rad * face_m));
    let working = Working::new(
        "shear angle of the face",
        "γ",
        "T/(2·A·Gt)",
        Amount::Factor(shear_rad),
        "R. Bredt, closed cell; Gt = Ga of AWC SDPWS",
    )
    .input("T", "torque between the picks", Moment::n_m(torque_n_m))
    .input("A", "area inside the cell, m²", Amount::Factor(faces.area_m2()))
    .input(
        "Gt",
        "shear stiffness of the face, kN/mm",
        Amount::Factor(faces.gt_n_per_m[face] / 1e6),
    );
    let drift = Working::new("edge of the face against the other", "δ", "γ·s", demand, "small angles").input(
        "s",
        "width of the face",
        Length::m(face_m),
    );
    Finding::at_most(
        Check::Racking,
        format!("worst face, {}", FACES[face]),
        demand,
        Amount::Small(Length::m(limit.to_of() * face_m)),
    )
    .working([working, drift])
}
