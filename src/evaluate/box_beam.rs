//! The box as a beam on its slings: from the rows of the take-off and the hang to shear, moment and sag, and the checks on them.

use super::further::HungLift;
use super::{Assessment, BoxResult};
use crate::check::{Amount, Check, Finding, Outcome, Working};
use crate::plan::{Component, HouseBox, Load as Lifted, Place3, Plan, Shape};
use crate::quantity::{
    Entry, Force, Length, Mass, Moment, Quantity as _, Readable, Rigidity, STANDARD_GRAVITY_M_S2 as G, both,
};
use crate::rigging::{Hung, PickPull};
use crate::structure::{Aim, Beam, BestPicks, Extreme, Load, Pull, Sharing, best_picks, reactions_n};
use crate::takeoff;

/// Picks this near along the box are one section, m.
const ONE_SECTION_M: f64 = 0.05;
/// Inward pulls below this share of the weight bend the box by nothing worth telling.
const LEANS: f64 = 0.002;

/// One way in which the box may be loaded and shared between its picks, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamCase {
    /// What is taken in it; empty where there is but one.
    pub words: String,
    /// The beam with its pulls.
    pub beam: Beam,
    /// Largest sagging and hogging moment, N·m.
    pub moments: [Extreme; 2],
    /// Largest shear, N.
    pub shear: Extreme,
    /// Largest sag times EI between the outer picks and beyond them, N·m³.
    pub sags: [Extreme; 2],
}

/// A lift's box as a beam.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxBeam {
    /// Every case; the worst of them counts.
    pub cases: Vec<BeamCase>,
    /// Sections of picks along the box, m.
    pub sections_m: Vec<f64>,
    /// What was taken as known, a sentence each.
    pub basis: Vec<String>,
}

/// A stiffness against bending and what it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stiffness {
    /// EI, N·m².
    pub ei_n_m2: f64,
    /// "as entered", "bound: rims alone".
    pub words: &'static str,
    /// Less than this the sag cannot be, more, or neither: it is the figure.
    pub bound: Bound,
}

/// What a stiffness says of the sag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// The sag is this.
    Figure,
    /// The sag is this at most.
    AtMost,
    /// The sag is this at least.
    AtLeast,
}

impl BoxBeam {
    /// The case with the largest of something by size, and that.
    fn worst(&self, of: impl Fn(&BeamCase) -> Extreme) -> Extreme {
        let all = self.cases.iter().map(of);
        all.fold(
            Extreme::default(),
            |a, b| if b.value.abs() > a.value.abs() { b } else { a },
        )
    }

    /// Largest sagging and hogging moment of all cases, N·m.
    pub fn moments(&self) -> [Extreme; 2] {
        [0, 1].map(|i| self.worst(|case| case.moments[i]))
    }

    /// Largest shear of all cases, N.
    pub fn shear(&self) -> Extreme {
        self.worst(|case| case.shear)
    }

    /// Largest sag times EI of all cases, N·m³: between the outer picks and beyond them.
    pub fn sags(&self) -> [Extreme; 2] {
        [0, 1].map(|i| self.worst(|case| case.sags[i]))
    }

    /// Largest compression along the box, N.
    pub fn axial_n(&self) -> f64 {
        let of = |case: &BeamCase| {
            let between = self.sections_m.windows(2).map(|pair| (pair[0] + pair[1]) / 2.0);
            between.map(|x_m| case.beam.axial_n(x_m)).fold(0.0, f64::max)
        };
        self.cases.iter().map(of).fold(0.0, f64::max)
    }

    /// How far the outer picks are apart, and the longer of both overhangs, m.
    pub fn spans_m(&self) -> [f64; 2] {
        let (first, last) = (self.sections_m.first(), self.sections_m.last());
        let (first, last) = (first.copied().unwrap_or_default(), last.copied().unwrap_or_default());
        let length_m = self.cases.first().map_or(0.0, |case| case.beam.length_m);
        [last - first, first.max(length_m - last)]
    }
}

/// What is known of how stiff a box is against bending, the figure before the bounds.
pub fn stiffnesses(house: &HouseBox) -> Vec<Stiffness> {
    let known = |entry: &Entry<Rigidity>, words, bound| {
        let ei_n_m2 = entry.not_negative().map(|ei| ei.si()).filter(|ei| *ei > 0.0)?;
        Some(Stiffness { ei_n_m2, words, bound })
    };
    [
        known(&house.ei, "EI as entered", Bound::Figure),
        known(&house.ei_rim, "bound: rims alone", Bound::AtMost),
        known(&house.ei_wall, "bound: walls as girders", Bound::AtLeast),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The box of a lift as a beam, or what is missing.
///
/// # Errors
/// No box, no hang, no weight, or a row without a place.
pub fn box_beam(plan: &Plan, assessment: &Assessment, lift_index: usize) -> Result<BoxBeam, String> {
    let (house, of_box, planned_kg, hung) = hung_box(plan, assessment, lift_index)?;
    beam_of(plan, house, of_box, planned_kg, hung)
}

/// The box of a lift with its weight and how it hangs.
pub type HungBox<'a> = (&'a HouseBox, &'a BoxResult, Option<f64>, &'a Hung);

/// Looks it up.
///
/// # Errors
/// No lift in that row, no box, no hang.
pub fn hung_box<'a>(plan: &'a Plan, assessment: &'a Assessment, lift_index: usize) -> Result<HungBox<'a>, String> {
    let (Some(lift), Some(result)) = (plan.lifts.get(lift_index), assessment.lifts.get(lift_index)) else {
        return Err(format!("there is no lift in row {}", lift_index + 1));
    };
    let Lifted::Box { id } = &lift.load else {
        return Err("this lift is no box".into());
    };
    let house = plan
        .house_box(id)
        .ok_or_else(|| format!("box {id} is not in the plan"))?;
    let of_box = assessment.boxes.iter().find(|b| b.id == *id);
    let of_box = of_box.ok_or_else(|| format!("box {id} is not in the plan"))?;
    let hung = result.rig.hung.as_ref().ok_or_else(|| {
        let why = result
            .rig
            .why_not
            .clone()
            .unwrap_or_else(|| "its rig gives no legs".into());
        format!("it does not hang: {why}")
    })?;
    Ok((house, of_box, result.load.planned_kg, hung))
}

/// The same from its parts.
fn beam_of(
    plan: &Plan,
    house: &HouseBox,
    result: &BoxResult,
    planned_kg: Option<f64>,
    hung: &Hung,
) -> Result<BoxBeam, String> {
    let planned_kg = planned_kg.ok_or("the weight of the load")?;
    let [length_m, _, height_m] = result.size_m.ok_or("length, width and height of the box")?;
    let rows = rows(plan, house, result, length_m)?;
    let mut basis = Vec::new();
    let sum_kg: f64 = rows.iter().map(|row| row.mass_kg).sum();
    if sum_kg <= 0.0 {
        return Err("no weight yet: enter the components of the box".into());
    }
    let scale = planned_kg / sum_kg;
    basis.push(format!(
        "every row of the take-off × {scale:.3}, so that together they are the planned weight and lie about the centre of gravity of the hang"
    ));
    let loads = |spread: bool| -> Vec<Load> {
        let load = |row: &Row| {
            let half_m = row.half_m.unwrap_or(if spread {
                row.at_m.min(length_m - row.at_m).max(0.0)
            } else {
                0.0
            });
            Load {
                weight_n: row.mass_kg * scale * G,
                from_m: row.at_m - half_m,
                to_m: row.at_m + half_m,
            }
        };
        rows.iter().map(load).collect()
    };
    let unknown_kg: f64 = rows
        .iter()
        .filter(|row| row.half_m.is_none())
        .map(|row| row.mass_kg.abs())
        .sum();
    let mut spreads = vec![("", loads(false))];
    if unknown_kg > 0.0 {
        basis.push(format!(
            "how far rows of together {:.0} lb ({:.0} kg) reach along the box is not entered: as lumps, and spread to their nearer end; the worse of both counts",
            Mass::kg(unknown_kg).to_lb(),
            unknown_kg
        ));
        spreads = vec![
            ("rows without a reach as lumps", loads(false)),
            ("rows without a reach spread", loads(true)),
        ];
    }
    let (pulls, levers) = pulls(house, hung, planned_kg * G, height_m, &mut basis)?;
    let sharings: &[Sharing] = if pulls.len() > 2 {
        &Sharing::ALL
    } else {
        &[Sharing::RigidBox]
    };
    let mut cases = Vec::new();
    for (spread, loads) in &spreads {
        for (lever, neutral_m) in &levers {
            for sharing in sharings {
                let mut beam = Beam {
                    length_m,
                    loads: loads.clone(),
                    pulls: pulls.iter().map(|p| p.over(*neutral_m)).collect(),
                };
                let ups_n = reactions_n(&beam, *sharing).ok_or("picks at two places along the box or more")?;
                for (pull, up_n) in beam.pulls.iter_mut().zip(ups_n) {
                    pull.up_n = up_n;
                }
                let shared = if sharings.len() > 1 { sharing.words() } else { "" };
                let words = [shared, spread, lever].into_iter().filter(|w| !w.is_empty());
                cases.push(BeamCase {
                    words: words.collect::<Vec<_>>().join("; "),
                    moments: beam.largest_moments(),
                    shear: beam.largest_shear(),
                    sags: beam.largest_sags(),
                    beam,
                });
            }
        }
    }
    Ok(BoxBeam {
        cases,
        sections_m: pulls.iter().map(|p| p.x_m).collect(),
        basis,
    })
}

/// A row of the take-off along the box.
struct Row {
    mass_kg: f64,
    at_m: f64,
    /// Half of what it reaches along the box, m; `None` where that is not entered.
    half_m: Option<f64>,
}

fn rows(plan: &Plan, house: &HouseBox, result: &BoxResult, length_m: f64) -> Result<Vec<Row>, String> {
    if house.components.is_empty() {
        let cg_m = result.cg_m.ok_or("the centre of gravity")?;
        return Ok(vec![Row {
            mass_kg: 1.0,
            at_m: cg_m[0],
            half_m: None,
        }]);
    }
    let row = |component: &Component| {
        let item = takeoff::item(component, &plan.assemblies)
            .map_err(|why| format!("row {} ({}): {why}", component.id, component.name))?;
        let half_m = half_m(component, item.at_m[0]);
        Ok(Row {
            mass_kg: item.mass_kg,
            at_m: item.at_m[0],
            half_m: half_m.map(|half| half.min(item.at_m[0].min(length_m - item.at_m[0]).max(0.0))),
        })
    };
    house.components.iter().map(row).collect()
}

/// Half of what a component reaches along the box about its centroid, m.
pub fn half_m(component: &Component, at_m: f64) -> Option<f64> {
    if let Some(run) = component.run.not_negative() {
        return Some(run.to_m() / 2.0);
    }
    let x = |place: &Place3| place.x.get().map(Length::to_m);
    let ends: Vec<f64> = match &component.shape {
        Shape::Point { .. } => return None,
        Shape::Line { from, to } | Shape::Block { from, to } => vec![x(from)?, x(to)?],
        Shape::Panel { corner, along, up, .. } => vec![x(corner)?, x(along)?, x(up)?],
    };
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // openings move the centroid: as much on both sides of it as there is on the shorter
    Some((at_m - low).min(high - at_m).max(0.0))
}

/// A section of picks as the hang gives it.
struct Section {
    x_m: f64,
    z_m: f64,
    along_n: f64,
}

impl Section {
    const fn over(&self, neutral_m: f64) -> Pull {
        Pull {
            x_m: self.x_m,
            up_n: 0.0,
            along_n: self.along_n,
            lever_m: self.z_m - neutral_m,
        }
    }
}

/// Heights of the neutral axis to run, m, each with its words.
type Levers = Vec<(&'static str, f64)>;

/// Sections of picks with what pulls along the box, and the heights of the neutral axis to run.
fn pulls(
    house: &HouseBox,
    hung: &Hung,
    weight_n: f64,
    height_m: f64,
    basis: &mut Vec<String>,
) -> Result<(Vec<Section>, Levers), String> {
    let place = |pull: &PickPull| house.picks.get(pull.pick).and_then(Place3::metres);
    let places: Option<Vec<[f64; 3]>> = hung.picks.iter().map(place).collect();
    let places = places.ok_or("a pick point has no place: x, y and z")?;
    let middle_m = places.iter().map(|p| p[0]).sum::<f64>() / places.len().max(1) as f64;
    let mut sections: Vec<(Section, usize)> = Vec::new();
    for (pull, [x_m, _, z_m]) in hung.picks.iter().zip(&places) {
        let along_n = pull.inward_along_n * (middle_m - x_m).signum();
        match sections.iter_mut().find(|(s, _)| (s.x_m - x_m).abs() < ONE_SECTION_M) {
            Some((section, count)) => {
                section.along_n += along_n;
                section.z_m += (z_m - section.z_m) / (*count as f64 + 1.0);
                *count += 1;
            }
            None => {
                let section = Section {
                    x_m: *x_m,
                    z_m: *z_m,
                    along_n,
                };
                sections.push((section, 1));
            }
        }
    }
    let mut sections: Vec<Section> = sections.into_iter().map(|(section, _)| section).collect();
    sections.sort_by(|a, b| a.x_m.total_cmp(&b.x_m));
    let most_n = sections.iter().map(|s| s.along_n.abs()).fold(0.0, f64::max);
    if most_n < LEANS * weight_n {
        sections.iter_mut().for_each(|s| s.along_n = 0.0);
        basis.push("its legs are plumb along the box: they neither press nor bend it".into());
        return Ok((sections, vec![("", 0.0)]));
    }
    // what presses from one end presses back from the other, but for the little that the box leans
    let over_n = sections.iter().map(|s| s.along_n).sum::<f64>() / sections.len() as f64;
    sections.iter_mut().for_each(|s| s.along_n -= over_n);
    let levers = match house.neutral.get() {
        Some(neutral) => vec![("", neutral.to_m())],
        None => {
            basis.push("the height of the neutral axis is not entered: inclined legs bend the box by H × (pick height − neutral axis); at the floor and at the top, the worse of both counts".into());
            vec![
                ("neutral axis at the floor", 0.0),
                ("neutral axis at the top", height_m),
            ]
        }
    };
    Ok((sections, levers))
}

/// Where picks would strain the box least, within what the factory allows.
///
/// # Errors
/// What is missing.
pub fn pick_places(house: &HouseBox, beam: &BoxBeam) -> Result<[BestPicks; 2], String> {
    let [near, far] = &house.pick_range;
    let range = near.not_negative().zip(far.not_negative());
    let (near, far) = range.ok_or("how near to and how far from an end the factory lets picks be")?;
    let case = beam.cases.first().ok_or("a beam")?;
    let none = || {
        format!(
            "no place between {} and {} from both ends holds the centre of gravity between the picks",
            both(near.to_m()),
            both(far.to_m())
        )
    };
    let best = |aim| best_picks(&case.beam, [near.to_m(), far.to_m()], aim).ok_or_else(none);
    Ok([best(Aim::Moment)?, best(Aim::Sag)?])
}

/// The checks on a box as a beam.
pub fn findings(hung: &HungLift<'_>) -> Vec<Finding> {
    let (Lifted::Box { id }, Some(result), Some(hang)) = (&hung.lift.load, hung.house, &hung.rig.hung) else {
        return Vec::new();
    };
    let Some(house) = hung.plan.house_box(id) else {
        return Vec::new();
    };
    let beam = match beam_of(hung.plan, house, result, hung.load.planned_kg, hang) {
        Ok(beam) => beam,
        Err(missing) => return vec![Finding::not_checked(Check::BoxBeam, "the box", missing)],
    };
    strength_findings(house, &beam)
        .into_iter()
        .chain(sag_findings(hung.plan, house, &beam))
        .collect()
}

/// A limit as entered: nothing where it is blank, and what was read where it cannot be read, so that a slip drops no check.
pub fn limit_of<Q: Readable>(what: &str, entry: &Entry<Q>) -> Option<Result<Q, String>> {
    if entry.is_blank() {
        return None;
    }
    let read = || {
        format!(
            "{what}: \"{}\" was read, {} is expected, such as {}",
            entry.text(),
            Q::KIND,
            Q::EXAMPLE
        )
    };
    Some(entry.not_negative().ok_or_else(read))
}

/// Shear and moments against what the factory allows; nothing where it says nothing.
pub fn strength_findings(house: &HouseBox, beam: &BoxBeam) -> Vec<Finding> {
    let [sag, hog] = beam.moments();
    let one = |subject: &str, symbol, formula, most: Extreme, demand: Amount, limit: Option<Result<Amount, String>>| {
        Some(match limit? {
            Ok(limit) => {
                let source = "a beam in balance under the rows of the take-off";
                let working = Working::new("largest along the box", symbol, formula, demand, source).input(
                    "x",
                    "from the first end",
                    Length::m(most.x_m),
                );
                Finding::at_most(Check::BoxBeam, subject, demand, limit).working([working])
            }
            Err(missing) => Finding::not_checked(Check::BoxBeam, subject, missing),
        })
    };
    let shear = beam.shear();
    let allowed =
        |i: usize| limit_of("moment that the factory allows", &house.moments[i]).map(|m| m.map(Amount::Moment));
    let allowed_shear = limit_of("shear that the factory allows", &house.shear).map(|f| f.map(Amount::Force));
    let moment = |n_m: f64| Amount::Moment(Moment::n_m(n_m.abs()));
    let sum = "Σ R⟨x−a⟩ + Σ H e − Σ W⟨x−b⟩";
    let shear_n = Amount::Force(Force::n(shear.value.abs()));
    [
        one("sagging moment", "M", sum, sag, moment(sag.value), allowed(0)),
        one("hogging moment", "M", sum, hog, moment(hog.value), allowed(1)),
        one("shear", "V", "Σ R − Σ W", shear, shear_n, allowed_shear),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Sag between the picks and droop beyond them against the limit entered; without a stiffness they cannot be checked.
pub fn sag_findings(plan: &Plan, house: &HouseBox, beam: &BoxBeam) -> Vec<Finding> {
    let not_checked = |missing| vec![Finding::not_checked(Check::BoxSag, "the box", missing)];
    let limit = match limit_of("limit on sag", &plan.limits.sag) {
        None => return Vec::new(),
        Some(Err(missing)) => return not_checked(missing),
        Some(Ok(limit)) => limit,
    };
    let known = stiffnesses(house);
    if known.is_empty() {
        return not_checked(format!(
            "how stiff box {} is against bending: EI, or a bound of it, is not entered; moments are known, the sag is not",
            house.id
        ));
    }
    let [span_m, over_m] = beam.spans_m();
    let sags = beam.sags();
    let parts = [
        ("between the picks", sags[0], span_m),
        ("beyond the picks", sags[1], 2.0 * over_m),
    ];
    let of_part = |(subject, sag, reach_m): (&'static str, Extreme, f64)| {
        let allowed_m = limit.to_of() * reach_m;
        sag_finding(subject, sag, allowed_m, &known)
    };
    parts
        .into_iter()
        .filter(|(_, _, reach_m)| *reach_m > 0.0)
        .map(of_part)
        .collect()
}

fn sag_finding(subject: &'static str, sag: Extreme, allowed_m: f64, known: &[Stiffness]) -> Finding {
    let with = |stiffness: &Stiffness| {
        let demand = Amount::Small(Length::m(sag.value.abs() / stiffness.ei_n_m2));
        let words = match stiffness.bound {
            Bound::Figure => subject.to_owned(),
            Bound::AtMost | Bound::AtLeast => format!("{subject}, {}", stiffness.words),
        };
        let working = Working::new(
            "sag under the line of the outer picks",
            "v",
            "∬M dx²/EI",
            demand,
            stiffness.words,
        )
        .input("x", "from the first end", Length::m(sag.x_m));
        Finding::at_most(Check::BoxSag, words, demand, Amount::Small(Length::m(allowed_m))).working([working])
    };
    let of = |bound| known.iter().find(|s| s.bound == bound).map(with);
    if let Some(figure) = of(Bound::Figure) {
        return figure;
    }
    let (most, least) = (of(Bound::AtMost), of(Bound::AtLeast));
    match (most, least) {
        // even the softer bound is within, or even the stiffer one is not
        (Some(most), _) if most.outcome.is_within() => most,
        (_, Some(least)) if !least.outcome.is_within() => least,
        (most, least) => {
            let between = most.or(least);
            let missing = "EI itself: its bounds lie on both sides of the limit entered, or only one of them is known";
            let mut finding = between.unwrap_or_else(|| Finding::not_checked(Check::BoxSag, subject, missing));
            finding.outcome = Outcome::NotChecked {
                missing: missing.into(),
            };
            finding
        }
    }
}
