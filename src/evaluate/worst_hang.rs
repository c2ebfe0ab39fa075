//! The worst that the gear of a lift can see within what is known, in words; and the hang with the legs' lengths off.
//!
//! Off the typing path: [`evaluate`](super::evaluate) hangs a lift once, this hangs it for hundreds of cases. Strength is to be judged by
//! [`WorstMember::demand_n`]; level by the nominal hang, with the envelope's tilt beside it as "expect to re-rig".

use super::ready::{Ready, ready};
use super::rigs::{corner_name, dynamic_factor, end_name, level_limit, rating_kg, side_name, stiffness_of};
use super::{BoxResult, member_name};
use crate::check::{Check, Finding};
use crate::plan::{Component, GearItem, HouseBox, Plan, Torsion};
use crate::quantity::{Entry, Force, Mass, Quantity, Readable, Rigidity, Safe, Unit, UnitSystem, show};
use crate::rigging::{self, Doubt, Hung, MemberKind, Off, WorstCase, WorstLift, WorstMember};
use crate::statics::MassItem;
use crate::takeoff::{self, Banded, Envelope, Spread};
use serde::Serialize;

/// The worst of a lift, with words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorstHang {
    /// Tensions and tilts.
    pub worst: WorstLift,
    /// Name of each member, in their order.
    pub names: Vec<String>,
    /// Each member's worst against its rating, in their order.
    pub checks: Vec<Finding>,
    /// The case behind each member's worst, in words: "centre of gravity towards kitchen end; this leg short; stiff slings".
    pub cases: Vec<String>,
    /// Cases that do not hang, each with its reason.
    pub refused: Vec<String>,
    /// How far the centre of gravity can be.
    pub envelope: Envelope,
    /// How far it is likely to be, as standard deviations.
    pub spread: Option<Spread>,
    /// Within the envelope the box may hang further out of level than the limit entered: expect to re-rig. `None` without that limit.
    pub expect_to_re_rig: Option<bool>,
    /// What was taken as known and as unknown.
    pub basis: Vec<String>,
}

/// The worst of one lift over the envelope of its centre of gravity, the length tolerance, the stretch of its gear and the twist of its box.
///
/// # Errors
/// What is missing, in words: also a blank length tolerance, which is never taken as nothing.
pub fn worst_hang(plan: &Plan, lift_index: usize) -> Result<WorstHang, String> {
    let mut search = WorstHangSearch::new(plan, lift_index)?;
    while !search.go_on(usize::MAX) {}
    search.found(plan)
}

/// The search of [`worst_hang`] a few cases at a time: a rig of twelve legs takes a second or two, and a page must not stand still for that.
pub struct WorstHangSearch {
    lift_index: usize,
    search: rigging::WorstSearch,
    envelope: Envelope,
    spread: Option<Spread>,
    basis: Vec<String>,
}

impl WorstHangSearch {
    /// Reads the plan; nothing is searched yet.
    ///
    /// # Errors
    /// As [`worst_hang`].
    pub fn new(plan: &Plan, lift_index: usize) -> Result<Self, String> {
        let ready = ready(plan, lift_index)?;
        let tolerance = plan.limits.length_tolerance.not_negative();
        let tolerance = tolerance.ok_or("the length tolerance of the legs is not entered in the limits")?;
        let (items, mut basis) = banded_items(plan, ready.house, &ready.box_result)?;
        let envelope =
            takeoff::envelope(&items).ok_or("the bands of the weights leave no weight for sure: narrow them")?;
        let doubt = Doubt {
            cg_low_m: envelope.low_m,
            cg_high_m: envelope.high_m,
            length_tolerance_m: tolerance.to_m(),
            gj_n_m2: gj_n_m2(ready.house)?,
            ei_n_m2: ei_n_m2(ready.house)?,
            masses: masses(plan, ready.house),
        };
        let unit = if plan.project.units == UnitSystem::Us {
            Unit::Inch
        } else {
            Unit::Mm
        };
        basis.push(format!("lengths of the legs: each ± {}", shown(tolerance, unit, 2)));
        basis.extend(gear_of(plan, &ready).into_iter().map(stretch_words));
        basis.push(twist_words(ready.house.torsion, &doubt.gj_n_m2));
        Ok(Self {
            lift_index,
            search: rigging::WorstSearch::new(&ready.load, &ready.set_up, &doubt)?,
            envelope,
            spread: takeoff::spread(&items),
            basis,
        })
    }

    /// Solves at most twice so many cases more, and says whether all is done.
    pub fn go_on(&mut self, most: usize) -> bool {
        self.search.go_on(most)
    }

    /// Cases solved so far.
    pub fn solved(&self) -> usize {
        self.search.solved()
    }

    /// The worst so far, in words of the plan that it was begun with; stopped before the end it says that it is cut short.
    ///
    /// # Errors
    /// As [`worst_hang`].
    pub fn found(self, plan: &Plan) -> Result<WorstHang, String> {
        let ready = ready(plan, self.lift_index)?;
        let (worst, mut basis) = (self.search.found(), self.basis);
        if worst.bending_n.is_some() {
            basis.push(bending_words(&ei_n_m2(ready.house)?));
        }
        Ok(told(plan, &ready, worst, self.envelope, self.spread, basis))
    }
}

/// How one lift hangs when each member, in the order of its hang, is longer by so much than nominal, m; legs at their stiff end.
///
/// # Errors
/// What is missing, or why it does not hang so.
pub fn hang_with_errors(plan: &Plan, lift_index: usize, longer_m: &[f64]) -> Result<Hung, String> {
    if let Some(bad) = longer_m.iter().find(|m| !m.is_finite()) {
        return Err(format!(
            "an error of {bad} m in a leg's length was read, a number is expected"
        ));
    }
    let ready = ready(plan, lift_index)?;
    let hung = rigging::hang_with_errors(&ready.load, &ready.set_up, longer_m)?;
    if longer_m.len() > hung.members.len() {
        return Err(format!(
            "{} errors in length were given, the rig has {} members",
            longer_m.len(),
            hung.members.len()
        ));
    }
    Ok(hung)
}

/// The same with soft legs or a box that twists or bends: `off.masses` is filled in from the box's rows.
///
/// # Errors
/// As [`hang_with_errors`].
pub fn hang_off(plan: &Plan, lift_index: usize, off: &Off) -> Result<Hung, String> {
    let ready = ready(plan, lift_index)?;
    let numbers = off.longer_m.iter().chain(&off.gj_n_m2).chain(&off.ei_n_m2);
    if let Some(bad) = numbers.into_iter().find(|x| x.is_nan()) {
        return Err(format!("{bad} was read, a number is expected"));
    }
    let off = Off {
        masses: masses(plan, ready.house),
        ..off.clone()
    };
    rigging::hang_off(&ready.load, &ready.set_up, &off)
}

/// The furthest and the likely place of a box's centre of gravity, or what is missing for it.
///
/// # Errors
/// A row without weight or place, or a band that cannot be read.
pub fn cg_envelope(plan: &Plan, house: &HouseBox) -> Result<(Envelope, Option<Spread>), String> {
    let (items, _) = banded_items(plan, house, &super::boxes::assess(plan, house))?;
    let envelope = takeoff::envelope(&items).ok_or("no weight yet: enter the components of the box")?;
    Ok((envelope, takeoff::spread(&items)))
}

fn told(
    plan: &Plan,
    ready: &Ready<'_>,
    worst: WorstLift,
    envelope: Envelope,
    spread: Option<Spread>,
    basis: Vec<String>,
) -> WorstHang {
    let house = ready.house;
    let kinds: Vec<MemberKind> = worst.members.iter().map(|m| m.kind).collect();
    let say = |case: &WorstCase, this: Option<usize>| case_words(house, case, &kinds, this);
    let of_member = |(i, m): (usize, &WorstMember)| {
        m.case
            .as_ref()
            .map_or_else(|| "no case could be solved".into(), |case| say(case, Some(i)))
    };
    let steepest = [worst.along_rad, worst.across_rad]
        .into_iter()
        .flatten()
        .fold(0.0, |a: f64, b| a.max(b.abs()));
    WorstHang {
        names: kinds.iter().map(|kind| member_name(house, *kind)).collect(),
        checks: worst.members.iter().map(|m| worst_finding(plan, ready, m)).collect(),
        cases: worst.members.iter().enumerate().map(of_member).collect(),
        refused: worst
            .refused
            .iter()
            .map(|(case, why)| format!("{}: {why}", say(case, None)))
            .collect(),
        envelope,
        spread,
        expect_to_re_rig: level_limit(plan).map(|limit| steepest > limit.to_rad()),
        basis,
        worst,
    }
}

/// What a member is to be designed with against the rating of its pieces.
fn worst_finding(plan: &Plan, ready: &Ready<'_>, member: &WorstMember) -> Finding {
    let name = member_name(ready.house, member.kind);
    let known = (
        dynamic_factor(plan),
        plan.limits.gear_use.not_negative(),
        rating_kg(plan, ready.rig, member.kind),
    );
    let (Some(factor), Some(allowed), Some(rating_kg)) = known else {
        let missing = "a rating with a legible tag, the dynamic factor (1 or more) or the limit of gear use";
        return Finding::not_checked(Check::Gear, name, missing);
    };
    let demand = Force::n(member.demand_n() * factor.to_of()).as_mass();
    let limit = Mass::kg(rating_kg * allowed.to_of());
    Finding::at_most(Check::Gear, name, demand.into(), limit.into())
}

/// The rows of a box with their bands, and the ticket's difference anywhere in it; with what was taken as known.
fn banded_items(plan: &Plan, house: &HouseBox, result: &BoxResult) -> Result<(Vec<Banded>, Vec<String>), String> {
    if house.components.is_empty() {
        return Err("no take-off: where the weight may act is not known; enter the components of the box".into());
    }
    let mut items = house
        .components
        .iter()
        .map(|row| banded(plan, row).map_err(|why| format!("row {} ({}): {why}", row.id, row.name)))
        .collect::<Result<Vec<_>, _>>()?;
    let mut basis = Vec::new();
    let bands = [
        plan.limits.mass_band.is_blank() && house.components.iter().any(|row| row.mass_band.is_blank()),
        plan.limits.place_band.is_blank() && house.components.iter().any(|row| row.place_band.is_blank()),
    ];
    for (blank, what) in bands.into_iter().zip(["weights", "places"]) {
        basis.push(if blank {
            format!("bands of the components' {what}: not entered for all rows; those count as exact here")
        } else {
            format!("bands of the components' {what}: as entered")
        });
    }
    let unplaced_kg = result.planned.map_or(0.0, |planned| planned.unplaced_kg);
    if unplaced_kg > 0.0 {
        let size_m = result
            .size_m
            .ok_or("the box's size, in which the ticket's difference may be anywhere")?;
        items.push(Banded::anywhere(unplaced_kg, size_m));
        let unit = Mass::usual(plan.project.units);
        let shown = show(
            Mass::kg(unplaced_kg),
            unit,
            if unit == Unit::T { 3 } else { 0 },
            Safe::Up,
        );
        basis.push(format!("the ticket's {shown} beyond the take-off: anywhere in the box"));
    }
    Ok((items, basis))
}

fn banded(plan: &Plan, row: &Component) -> Result<Banded, String> {
    let item = takeoff::item(row, &plan.assemblies)?;
    let share = band("band of its weight", &row.mass_band, &plan.limits.mass_band)?;
    let off_m = band("band of its place", &row.place_band, &plan.limits.place_band)?;
    Ok(Banded {
        item,
        mass_off_kg: item.mass_kg.abs() * share.min(1.0),
        place_off_m: [off_m; 3],
        group: row.group.trim().to_owned(),
    })
}

/// A row's band, or the default in the limits; both blank is none. SI.
fn band<Q: Readable>(what: &str, own: &Entry<Q>, default: &Entry<Q>) -> Result<f64, String> {
    let entry = if own.is_blank() { default } else { own };
    if entry.is_blank() {
        return Ok(0.0);
    }
    let read = entry.not_negative().map(Quantity::si);
    read.ok_or_else(|| {
        format!(
            "{what}: \"{}\" was read, {} of zero or more is expected",
            entry.text(),
            Q::KIND
        )
    })
}

/// Where the box's mass is, row by row; empty where a row is not known.
pub(super) fn masses(plan: &Plan, house: &HouseBox) -> Vec<MassItem> {
    let items: Result<Vec<_>, _> = house
        .components
        .iter()
        .map(|row| takeoff::item(row, &plan.assemblies))
        .collect();
    let as_mass = |item: takeoff::Item| MassItem {
        mass_kg: item.mass_kg,
        at_m: item.at_m,
    };
    items.map_or_else(|_| Vec::new(), |items| items.into_iter().map(as_mass).collect())
}

/// Stiffnesses against twist to run, N·m².
fn gj_n_m2(house: &HouseBox) -> Result<Vec<f64>, String> {
    let typed = house.gj.not_negative().map(Quantity::si);
    if typed.is_none() && (house.torsion == Torsion::Typed || !house.gj.is_blank()) {
        return Err(format!(
            "stiffness against twist of box {}: \"{}\" was read, {} is expected, such as {}",
            house.id,
            house.gj.text(),
            Rigidity::KIND,
            Rigidity::EXAMPLE
        ));
    }
    Ok(match house.torsion {
        Torsion::Rigid => vec![f64::INFINITY],
        Torsion::Typed => typed.into_iter().collect(),
        Torsion::Panels => vec![panels_gj_n_m2(house)?],
        Torsion::OpenSide | Torsion::Unknown => [Some(0.0), typed, Some(f64::INFINITY)].into_iter().flatten().collect(),
    })
}

/// GJ of the box from its sheathing, N·m².
fn panels_gj_n_m2(house: &HouseBox) -> Result<f64, String> {
    let faces = super::racking::faces_of(house)?;
    Ok(rigging::closed_box_gj_n_m2(
        faces.width_m,
        faces.height_m,
        faces.gt_n_per_m,
    ))
}

/// Six or eight picks: what is known of the bending that shares between them.
fn bending_words(ei_n_m2: &[f64]) -> String {
    if ei_n_m2.len() > 1 {
        "vertical bending of the box: not known; from following its picks to rigid, the worst of both is taken".into()
    } else {
        "vertical bending of the box: as entered".into()
    }
}

/// Rigidities against bending to run, N·m²: the typed one; without one from following its picks to rigid.
fn ei_n_m2(house: &HouseBox) -> Result<Vec<f64>, String> {
    if house.ei.is_blank() {
        return Ok(vec![0.0, f64::INFINITY]);
    }
    let read = house.ei.not_negative().map(Quantity::si);
    let read = read.ok_or_else(|| {
        format!(
            "stiffness against bending of box {}: \"{}\" was read, {} is expected, such as {}",
            house.id,
            house.ei.text(),
            Rigidity::KIND,
            Rigidity::EXAMPLE
        )
    })?;
    Ok(vec![read])
}

fn twist_words(torsion: Torsion, gj_n_m2: &[f64]) -> String {
    let known = match torsion {
        Torsion::Unknown => "not known",
        Torsion::Rigid => "rigid, as entered",
        Torsion::Typed => "as entered",
        Torsion::Panels => "from its sheathing, 4A²/Σ(s/Gt) (Bredt), closed all round",
        Torsion::OpenSide => "one side open",
    };
    if gj_n_m2.len() > 1 {
        format!("twist of the box: {known}; from none to rigid, the worst of all is taken")
    } else {
        format!("twist of the box: {known}")
    }
}

/// The kinds of gear in the legs, each once.
fn gear_of<'a>(plan: &'a Plan, ready: &Ready<'_>) -> Vec<&'a GearItem> {
    let used: Vec<_> = super::rigs::named_pieces(&ready.rig.arrangement).collect();
    let is_leg = |item: &&GearItem| used.contains(&&item.id) && item.kind != crate::plan::GearKind::Bar;
    plan.gear.iter().filter(is_leg).collect()
}

fn stretch_words(item: &GearItem) -> String {
    match stiffness_of(item) {
        Some(ea) => format!("{}: {}", item.id, ea.source),
        None if item.rating.not_negative().is_some() => format!(
            "{}: what it is made of is not entered; from 10 % stretch at its rating to none (common practice, no source)",
            item.id
        ),
        None => format!(
            "{}: neither what it is made of nor its rating is entered; taken without stretch",
            item.id
        ),
    }
}

fn shown<Q: Readable>(q: Q, unit: Unit, decimals: u8) -> String {
    show(q, unit, decimals, Safe::Nearest)
}

/// A case in words; `this` is the member it is told for.
fn case_words(house: &HouseBox, case: &WorstCase, kinds: &[MemberKind], this: Option<usize>) -> String {
    [
        Some(cg_words(house, case.cg_at)),
        length_words(house, case, kinds, this),
        Some(if case.stiff { "stiff slings" } else { "soft slings" }.to_owned()),
        case.gj_n_m2.map(|gj| {
            if gj > 0.0 {
                format!("box twists, GJ {:.0} kN·m²", gj / 1e3)
            } else {
                "box twists freely".into()
            }
        }),
        case.ei_n_m2.map(|ei| {
            if ei > 0.0 {
                format!("box bends, EI {:.0} kN·m²", ei / 1e3)
            } else {
                "box bends freely".into()
            }
        }),
    ]
    .into_iter()
    .flatten()
    .collect::<Vec<_>>()
    .join("; ")
}

fn cg_words(house: &HouseBox, [x, y, z]: [i8; 3]) -> String {
    let of = |sign: i8, low: &str, high: &str| match sign {
        0 => None,
        s => Some(if s < 0 { low } else { high }.to_owned()),
    };
    let towards = [
        of(x, end_name(house, 0), end_name(house, 1)),
        of(y, side_name(house, 0), side_name(house, 1)),
    ];
    let towards: Vec<String> = towards.into_iter().flatten().collect();
    let place = if towards.is_empty() {
        "as taken off".to_owned()
    } else {
        format!("towards {}", towards.join(" and "))
    };
    let height = of(z, ", low", ", high").unwrap_or_default();
    format!("centre of gravity {place}{height}")
}

/// "this leg short" and, on a rig of four legs, the others by name.
fn length_words(house: &HouseBox, case: &WorstCase, kinds: &[MemberKind], this: Option<usize>) -> Option<String> {
    let word = |m: f64| match m {
        m if m < 0.0 => Some("short"),
        m if m > 0.0 => Some("long"),
        _ => None,
    };
    let own = this
        .and_then(|i| word(*case.longer_m.get(i)?))
        .map(|word| format!("this leg {word}"));
    let four = kinds.iter().all(|kind| matches!(kind, MemberKind::Leg(_)));
    let others = kinds
        .iter()
        .zip(&case.longer_m)
        .enumerate()
        .filter(|(i, _)| four && this != Some(*i));
    let others = others.filter_map(|(_, (kind, m))| match kind {
        MemberKind::Leg(corner) => Some(format!("{} {}", corner_name(house, *corner), word(*m)?)),
        _ => None,
    });
    let all: Vec<String> = own.into_iter().chain(others).collect();
    (!all.is_empty()).then(|| all.join(", "))
}
