//! Boxes: take-off, ticket, centre of gravity against the picks.

use super::BoxResult;
use crate::check::{Amount, Check, Finding, Message, Outcome, Working};
use crate::plan::{Assembly, Component, HouseBox, LayerWeight, Plan, Weight};
use crate::quantity::{AreaDensity, Length, Mass, Ratio, Reading, Said, both};
use crate::takeoff::{self, CentreOfGravity, Day, Item, TakeOff, Weighed, Weighing};

/// A ticket this many times the take-off looks like a gross weight (common practice, no source).
const TICKET_LOOKS_GROSS: f64 = 1.4;
/// Ticket and take-off this far apart are a caution, and twice as far not within until explained (common practice, no source).
const TICKET_CAUTION: f64 = 0.05;

/// Weighed, a box of more than this per floor area looks like a gross weight, psf (common practice, no source: boxes have 27 to 50).
const FLOOR_LOOKS_GROSS_PSF: f64 = 60.0;
/// A centre of gravity this share of the span from the edge of the picks leaves the far legs nearly empty (common practice, no source).
const EDGE: f64 = 0.05;
/// Weighed and taken off, centres of gravity this share of the length apart are not within until explained (common practice, no source).
const CG_APART: f64 = 0.02;

pub fn assess(plan: &Plan, house: &HouseBox) -> BoxResult {
    let mut messages = Vec::new();
    let size_m = size_m(house);
    let (takeoff, loaded) = take_off(plan, house, size_m, &mut messages);
    messages.extend(ticket_message(house));
    day_messages(house, &mut messages);
    let is_bare = house.components.is_empty();
    let mut known = Known {
        house,
        messages: &mut messages,
    };
    // beside a figure that stands anyway, a wrong one is only told
    let is_needed = house.ticket.as_ref().is_some_and(|ticket| ticket.mass.get().is_none());
    let by_axles = known.or_told("axle groups", takeoff::by_axles(house.ticket.as_ref()), is_needed);
    let estimate = known.or_told("weight per floor area", takeoff::estimate(house, size_m), is_bare);
    let last_item = takeoff::day(&house.last_item_added);
    let weighed = house
        .ticket
        .as_ref()
        .and_then(|ticket| takeoff::weighed(ticket, by_axles.as_ref(), last_item, &loaded));
    let total = takeoff.total;
    let estimate_kg = estimate.map(|(kg, _)| kg);
    let planned = takeoff::planned_weight(
        total.map(|t| t.mass_kg),
        weighed.as_ref(),
        estimate_kg.filter(|_| is_bare),
    );
    let cg_m = match (total, estimate) {
        (Some(total), _) => Some(total.at_m),
        (None, Some((_, middle_m))) if is_bare => Some(weighed_place_m(by_axles.as_ref(), middle_m)),
        (None, _) => None,
    };
    let floor_kg_per_m2 = planned
        .zip(size_m)
        .map(|(p, [l, w, _])| p.mass_kg / (l * w))
        .filter(|v| v.is_finite());
    let mut result = BoxResult {
        id: house.id.clone(),
        ticket_kg: weighed.as_ref().map(|w| w.ticket_kg),
        since_kg: weighed.as_ref().map(|w| w.since_kg).filter(|kg| *kg > 0.0),
        by_axles,
        estimate_kg,
        planned,
        cg_m,
        cg_from_picks_m: cg_m.and_then(|cg| from_pick_middle_m(house, cg)),
        floor_kg_per_m2,
        size_m,
        findings: Vec::new(),
        messages,
        takeoff,
    };
    result.findings.push(weight_finding(plan, house, &result));
    result.findings.extend(estimate_finding(plan, house, &result));
    result.findings.extend(ticket_finding(house, &result, weighed.as_ref()));
    result.findings.extend(axles_finding(house, &result));
    result
}

/// What is known of a box, and what is told where it is not.
struct Known<'a> {
    house: &'a HouseBox,
    messages: &'a mut Vec<Message>,
}

impl Known<'_> {
    /// What was found, or a message why not.
    fn or_told<T>(&mut self, place: &str, found: Option<Result<T, String>>, blocks: bool) -> Option<T> {
        match found? {
            Ok(found) => Some(found),
            Err(text) => {
                self.messages.push(Message {
                    about: self.house.id.clone(),
                    place: place.into(),
                    text,
                    blocks,
                });
                None
            }
        }
    }
}

/// The assumed middle of a box, moved to where it was weighed.
fn weighed_place_m(by_axles: Option<&Weighing>, middle_m: [f64; 3]) -> [f64; 3] {
    let weighed = by_axles.map_or([None; 2], |w| [w.x_m, w.y_m]);
    [
        weighed[0].unwrap_or(middle_m[0]),
        weighed[1].unwrap_or(middle_m[1]),
        middle_m[2],
    ]
}

fn size_m(house: &HouseBox) -> Option<[f64; 3]> {
    let size = [
        house.length.not_negative()?.to_m(),
        house.width.not_negative()?.to_m(),
        house.height.not_negative()?.to_m(),
    ];
    size.iter().all(|s| *s > 0.0).then_some(size)
}

fn from_pick_middle_m(house: &HouseBox, cg_m: [f64; 3]) -> Option<[f64; 2]> {
    let picks: Option<Vec<[f64; 3]>> = house.picks.iter().map(|p| p.metres()).collect();
    let picks = picks.filter(|p| !p.is_empty())?;
    Some(core::array::from_fn(|axis| {
        cg_m[axis] - picks.iter().map(|p| p[axis]).sum::<f64>() / picks.len() as f64
    }))
}

/// The sum of the rows, and what went in on which day.
fn take_off(
    plan: &Plan,
    house: &HouseBox,
    size_m: Option<[f64; 3]>,
    messages: &mut Vec<Message>,
) -> (TakeOff, Vec<(Day, f64)>) {
    let mut items: Vec<Item> = Vec::with_capacity(house.components.len());
    let mut loaded = Vec::new();
    let mut unknown = 0;
    let odd_unit = takeoff::odd_unit(&house.components);
    for (at, component) in house.components.iter().enumerate() {
        match takeoff::item(component, &plan.assemblies) {
            Ok(item) => {
                items.push(item);
                loaded.extend(takeoff::day(&component.loaded).map(|day| (day, item.mass_kg)));
                messages.extend(item_message(house, component, &item, size_m));
            }
            Err(text) => {
                unknown += 1;
                messages.push(message(
                    house,
                    component,
                    format!("{text}; the row counts as unknown, not as nothing"),
                    true,
                ));
            }
        }
        if let Some((row, text)) = &odd_unit
            && *row == at
        {
            messages.push(message(house, component, text.clone(), false));
        }
        if let Some(text) = takeoff::odd_per_area(component) {
            messages.push(message(house, component, text, false));
        }
    }
    let known_mass_kg = items.iter().map(|i| i.mass_kg).sum();
    let total = if unknown == 0 {
        takeoff::centre_of_gravity(&items)
    } else {
        None
    };
    let takeoff = TakeOff {
        known_mass_kg,
        unknown,
        total,
    };
    (takeoff, loaded)
}

fn message(house: &HouseBox, component: &Component, text: String, blocks: bool) -> Message {
    Message {
        about: house.id.clone(),
        place: format!("row {} ({})", component.id, component.name),
        text,
        blocks,
    }
}

/// A ticket with a text that is no weight must not be passed over for the take-off.
fn ticket_message(house: &HouseBox) -> Option<Message> {
    let mass = &house.ticket.as_ref()?.mass;
    let read = match mass.reading() {
        Reading::Blank => return None,
        Reading::Is(mass) if mass.to_kg() > 0.0 => return None,
        Reading::Is(_) => "a ticket of nothing or less: enter the weight of the box, or take the ticket out".to_owned(),
        Reading::Ask(text) | Reading::Wrong(text) => text,
    };
    Some(Message {
        about: house.id.clone(),
        place: "scale ticket".into(),
        text: read,
        blocks: true,
    })
}

/// Days that cannot be told from other days: they would decide nothing, in silence.
fn day_messages(house: &HouseBox, messages: &mut Vec<Message>) {
    let mut check = |place: &dyn Fn() -> String, text: &str| {
        if !text.trim().is_empty() && takeoff::day(text).is_none() {
            messages.push(Message {
                about: house.id.clone(),
                place: place(),
                text: format!(
                    "read \"{text}\" as a day: expected year-month-day such as 2027-05-03; until then it is not compared with other days"
                ),
                blocks: false,
            });
        }
    };
    check(&|| "day of the last item".into(), &house.last_item_added);
    if let Some(ticket) = &house.ticket {
        check(&|| "day of the ticket".into(), &ticket.date);
    }
    for row in &house.components {
        check(&|| format!("row {} ({})", row.id, row.name), &row.loaded);
    }
}

/// Zero weight, or a place outside the box that nobody meant.
fn item_message(house: &HouseBox, component: &Component, item: &Item, size_m: Option<[f64; 3]>) -> Option<Message> {
    if item.mass_kg.abs() < f64::MIN_POSITIVE {
        return Some(message(
            house,
            component,
            "zero weight: remove the row or enter a weight".into(),
            false,
        ));
    }
    let size_m = size_m.filter(|_| !component.overhang)?;
    let axis = (0..3).find(|&axis| item.at_m[axis] < -1e-9 || item.at_m[axis] > size_m[axis] + 1e-9)?;
    let (name, measure) = [("x", "length"), ("y", "width"), ("z", "height")][axis];
    let text = format!(
        "{name} is {}, outside the box's {measure} of {}: mend the figure, or mark the row as an overhang on purpose",
        both(item.at_m[axis]),
        both(size_m[axis])
    );
    Some(message(house, component, text, true))
}

fn weight_finding(plan: &Plan, house: &HouseBox, result: &BoxResult) -> Finding {
    let subject = format!("box {}", house.id);
    if let Some(first) = result.messages.iter().find(|m| m.blocks) {
        return Finding::not_checked(Check::Weight, subject, format!("{}: {}", first.place, first.text));
    }
    let Some(planned) = result.planned else {
        return Finding::not_checked(
            Check::Weight,
            subject,
            "no weight yet: enter the components of the box, its ticket, or a weight per floor area to start from",
        );
    };
    let mut finding = match (result.takeoff.total, result.estimate_kg, result.cg_m) {
        (Some(total), ..) => Finding::of(Check::Weight, subject, Outcome::Within)
            .working([
                sum_working(result.takeoff.known_mass_kg, house.components.len()),
                cg_working(&total),
            ])
            .working(assemblies_working(plan, house)),
        (None, Some(estimate_kg), Some(_)) => {
            let until = if result.ticket_kg.is_some() {
                "no take-off: where the weight acts is estimated, at the middle of the box where it was not weighed; enter the components"
            } else {
                "weight estimated per area, taken to act at the middle of the box: enter the components, or weigh it"
            };
            let outcome = Outcome::Held { until: until.into() };
            let working = estimate_working(house, result, estimate_kg);
            Finding::of(Check::Weight, subject, outcome).working(working)
        }
        _ => {
            return Finding::not_checked(
                Check::Weight,
                subject,
                "the ticket says how much it is, not where it acts: enter the components of the box, or a weight per floor area to start from",
            );
        }
    };
    let psf = result
        .floor_kg_per_m2
        .map_or(0.0, |w| AreaDensity::kg_per_m2(w).to_psf());
    if result.ticket_kg.is_some() && psf > FLOOR_LOOKS_GROSS_PSF {
        finding = finding.caution(format!(
            "weighed, the box has {psf:.0} psf ({:.0} kg/m²) of floor, more than 60 psf (293 kg/m²): were carrier and tractor taken off?",
            AreaDensity::psf(psf).to_kg_per_m2()
        ));
    }
    let assumed = takeoff::assumed_heights(house);
    if assumed > 0 {
        finding = finding.caution(format!(
            "the height of {assumed} of {} rows is assumed at mid-height: tilt and roll rest on that",
            house.components.len()
        ));
    }
    if let (Some(cg_m), false) = (result.cg_m, house.picks.is_empty()) {
        finding.cautions.extend(edge_caution(house, cg_m));
    }
    finding.working([Working::new(
        "weight that stands for the box before its contingency",
        "m",
        "the larger of ticket and take-off",
        Mass::kg(planned.mass_kg),
        "planning rule, docs/method.md",
    )])
}

/// The centre of gravity beyond the picks, or within them and near an edge, so that the legs at the other edge carry next to nothing.
fn edge_caution(house: &HouseBox, cg_m: [f64; 3]) -> Option<String> {
    let picks: Vec<[f64; 3]> = house.picks.iter().map(|pick| pick.metres()).collect::<Option<_>>()?;
    (0..2).find_map(|axis| {
        let along = |pick: &[f64; 3]| pick[axis];
        let low_m = picks.iter().map(along).fold(f64::INFINITY, f64::min);
        let span_m = picks.iter().map(along).fold(f64::NEG_INFINITY, f64::max) - low_m;
        let share = (cg_m[axis] - low_m) / span_m;
        let least = share.min(1.0 - share);
        let name = ["x", "y"][axis];
        if span_m <= 0.0 {
            return None;
        }
        if least < 0.0 {
            let (near, side) = if share < 0.0 { (0, "less") } else { (1, "more") };
            return Some(format!(
                "the centre of gravity is {} beyond the picks at the {}: do not lift at these picks; those there must have {name} {side} than {}",
                both(-least * span_m),
                end_or_side(house, axis, near),
                both(cg_m[axis])
            ));
        }
        let far = end_or_side(house, axis, usize::from(share < 0.5));
        (0.0..EDGE).contains(&least).then(|| {
            format!(
                "the picks at the {far} carry {:.1} % of the weight, less than 5 %: the centre of gravity {} further off empties them",
                100.0 * least,
                both(least * span_m)
            )
        })
    })
}

/// What an end (axis 0) or a side (axis 1) of a box is called.
fn end_or_side(house: &HouseBox, axis: usize, which: usize) -> &str {
    match [&house.ends, &house.sides][axis][which].trim() {
        "" => [["first end", "second end"], ["first side", "second side"]][axis][which],
        words => words,
    }
}

fn estimate_working(house: &HouseBox, result: &BoxResult, estimate_kg: f64) -> Option<Working> {
    let [length_m, width_m, _] = result.size_m?;
    let per_area = house.estimate.get()?;
    let who = house.estimate.said.as_ref().map_or("", |said| said.who.trim());
    let working = Working::new(
        "weight estimated per floor area",
        "W",
        "L·B·w",
        Mass::kg(estimate_kg),
        "estimate, no source entered",
    )
    .input("L", "length", Length::m(length_m))
    .input("B", "width", Length::m(width_m))
    .input("w", "per floor area", Amount::PerArea(per_area));
    Some(match who {
        "" => working,
        who => {
            let meaning = working.meaning.to_string();
            working.of(meaning, format!("estimate, {who}"))
        }
    })
}

/// A take-off that is far below what the box was estimated at may only have begun.
fn estimate_finding(plan: &Plan, house: &HouseBox, result: &BoxResult) -> Option<Finding> {
    let (takeoff_kg, estimate_kg) = (result.takeoff.total?.mass_kg, result.estimate_kg?);
    let share = plan.limits.contingency_per_area.not_negative()?.to_of();
    let short = 1.0 - takeoff_kg / estimate_kg;
    let outcome = if short > share {
        Outcome::Held {
            until: format!(
                "the take-off is {:.0} % below the estimate per floor area: is every component in? Complete it, or blank the estimate",
                100.0 * short
            ),
        }
    } else {
        Outcome::Within
    };
    let subject = format!("box {}, take-off for its estimate", house.id);
    let finding = Finding::of(Check::Weight, subject, outcome);
    Some(finding.working(estimate_working(house, result, estimate_kg)))
}

/// Each assembly that the box uses, layer by layer.
fn assemblies_working(plan: &Plan, house: &HouseBox) -> Vec<Working> {
    let mut working = Vec::new();
    for assembly in &plan.assemblies {
        let is_used =
            |row: &Component| matches!(&row.weight, Weight::Assembly { assembly: id, .. } if *id == assembly.id);
        let total = takeoff::assembly_kg_per_m2(assembly);
        if let (true, Ok(total)) = (house.components.iter().any(is_used), total) {
            assembly_working(assembly, total, &mut working);
        }
    }
    working
}

fn assembly_working(assembly: &Assembly, total_kg_per_m2: f64, working: &mut Vec<Working>) {
    let line = |symbol, formula, kg_per_m2, layer: &str, source| {
        let meaning = format!("assembly {} {}: {layer}", assembly.id, assembly.name);
        let result = Amount::PerArea(AreaDensity::kg_per_m2(kg_per_m2));
        Working::new("", symbol, formula, result, "").of(meaning, source)
    };
    for layer in &assembly.layers {
        let Ok(kg_per_m2) = takeoff::layer_kg_per_m2(layer) else {
            continue;
        };
        let (formula, said, inputs) = match &layer.weight {
            LayerWeight::Area { density } => ("as entered", &density.said, [None, None]),
            LayerWeight::Volume { density, thickness } => {
                let per_volume = density.get().map(|v| ("ρ", "per volume", Amount::PerVolume(v)));
                let thickness = thickness.get().map(|l| ("t", "thickness", Amount::Length(l)));
                ("ρ·t", &density.said, [per_volume, thickness])
            }
            LayerWeight::Length { density, spacing } => {
                let per_length = density.get().map(|v| ("μ", "per length", Amount::PerLength(v)));
                let spacing = spacing.get().map(|l| ("s", "spacing", Amount::Length(l)));
                ("μ/s", &density.said, [per_length, spacing])
            }
        };
        let mut line = line("wᵢ", formula, kg_per_m2, &layer.name, who(said.as_ref()));
        for (symbol, meaning, value) in inputs.into_iter().flatten() {
            line = line.input(symbol, meaning, value);
        }
        working.push(line);
    }
    working.push(line("w", "Σwᵢ", total_kg_per_m2, "all layers", "sum".into()));
}

fn who(said: Option<&Said>) -> String {
    match said.map(|said| (said.who.trim(), said.note.trim())) {
        None | Some(("", "")) => "typed, no source entered".into(),
        Some((who, "")) => who.into(),
        Some((who, note)) => format!("{who}; {note}"),
    }
}

fn sum_working(mass_kg: f64, rows: usize) -> Working {
    Working::new(
        "weight of the take-off, all rows added",
        "W",
        "Σmᵢ",
        Mass::kg(mass_kg),
        "sum",
    )
    .input("n", "rows", Amount::Factor(rows as f64))
}

fn cg_working(total: &CentreOfGravity) -> Working {
    Working::new(
        "centre of gravity from the first end",
        "x",
        "Σmᵢxᵢ/W",
        Length::m(total.at_m[0]),
        "first moments (any statics textbook)",
    )
}

fn ticket_finding(house: &HouseBox, result: &BoxResult, weighed: Option<&Weighed>) -> Option<Finding> {
    let weighed = weighed?;
    let takeoff_kg = result.takeoff.total?.mass_kg;
    let ratio = weighed.mass_kg() / takeoff_kg;
    let formula = if result.since_kg.is_some() {
        "(T + S)/W − 1"
    } else {
        "T/W − 1"
    };
    let mut working = Working::new(
        "ticket over take-off",
        "r",
        formula,
        Ratio::of(ratio - 1.0),
        "comparison",
    )
    .input("T", "ticket", Mass::kg(weighed.ticket_kg));
    if let Some(since_kg) = result.since_kg {
        working = working.input("S", "loaded since", Mass::kg(since_kg));
    }
    let working = working.input("W", "take-off", Mass::kg(takeoff_kg));
    let mut finding = Finding::of(Check::Ticket, format!("box {}", result.id), Outcome::Within).working([working]);
    finding.demand = Some(Mass::kg(weighed.mass_kg()).into());
    finding.limit = Some(Mass::kg(takeoff_kg).into());
    finding.ratio = Some(ratio);
    if ratio > TICKET_LOOKS_GROSS {
        finding.outcome = held("the ticket is far above the take-off: were carrier and tractor taken off?");
    } else if (ratio - 1.0).abs() > 2.0 * TICKET_CAUTION {
        match why_apart(house) {
            "" => {
                finding.outcome = held(
                    "ticket and take-off differ by more than 10 %: find out why, and write it as the note of the ticket's source",
                )
            }
            why => {
                finding = finding.caution(format!(
                    "ticket and take-off differ by more than 10 %; noted why: {why}"
                ))
            }
        }
    } else if (ratio - 1.0).abs() > TICKET_CAUTION {
        finding = finding
            .caution("ticket and take-off differ by more than 5 %: the missing weight can be anywhere in the box");
    }
    Some(stale(house, finding))
}

/// What somebody noted about the ticket's weight; empty where nobody did.
fn why_apart(house: &HouseBox) -> &str {
    let said = house.ticket.as_ref().and_then(|ticket| ticket.mass.said.as_ref());
    said.map_or("", |said| said.note.trim())
}

fn held(until: impl Into<String>) -> Outcome {
    Outcome::Held { until: until.into() }
}

/// What went in after the day of the ticket.
fn stale(house: &HouseBox, mut finding: Finding) -> Finding {
    let Some((ticket, on)) = house.ticket.as_ref().and_then(|t| Some((t, takeoff::day(&t.date)?))) else {
        return finding;
    };
    let mut rows = Vec::new();
    for row in &house.components {
        if takeoff::day(&row.loaded).is_some_and(|when| when > on) {
            rows.push(format!("{} {}", row.id, row.name));
        }
    }
    if !rows.is_empty() {
        return finding.caution(format!(
            "loaded after the ticket of {} and added to it: {}; weigh again where you can",
            ticket.date.trim(),
            rows.join(", ")
        ));
    }
    if takeoff::day(&house.last_item_added).is_some_and(|last| last > on) && finding.outcome.is_within() {
        finding.outcome = held(format!(
            "the last item went in on {}, after the ticket of {}: weigh again, or give the rows that went in since their day",
            house.last_item_added.trim(),
            ticket.date.trim()
        ));
    }
    finding
}

/// Symbols of the weigh points' loads.
const LOADS: [&str; 8] = ["R₁", "R₂", "R₃", "R₄", "R₅", "R₆", "R₇", "R₈"];

/// The box as its axle groups show it, beside ticket and take-off.
fn axles_finding(house: &HouseBox, result: &BoxResult) -> Option<Finding> {
    let weighing = result.by_axles.as_ref()?;
    let source = "moments about the first end, e.g. FAA-H-8083-1, weighing";
    let mut sum = Working::new(
        "weight by axle groups, gross less tare of each",
        "W",
        "ΣRᵢ",
        Mass::kg(weighing.mass_kg),
        source,
    );
    for (symbol, load_kg) in LOADS.into_iter().zip(&weighing.loads_kg) {
        sum = sum.input(symbol, "gross less tare", Mass::kg(*load_kg));
    }
    let place = weighing.x_m.map(|x_m| {
        Working::new(
            "centre of gravity from the first end, by axle groups",
            "x",
            "ΣRᵢxᵢ/W",
            Length::m(x_m),
            source,
        )
    });
    let subject = format!("box {}, by axle groups", result.id);
    let mut finding =
        Finding::of(Check::Ticket, subject, Outcome::Within).working([Some(sum), place].into_iter().flatten());
    if let Some((apart_m, limit_m)) = apart_m(weighing, result) {
        finding.demand = Some(Length::m(apart_m).into());
        finding.limit = Some(Length::m(limit_m).into());
        if apart_m > limit_m {
            finding.outcome = held(format!(
                "weighed and taken off, the centre of gravity is {} apart along the box, more than 2 % of its length: look for the missing item",
                both(apart_m)
            ));
        }
    }
    let typed_kg = house.ticket.as_ref().and_then(|t| t.mass.get()).map(Mass::to_kg);
    if typed_kg.is_some_and(|kg| (weighing.mass_kg / kg - 1.0).abs() > TICKET_CAUTION) {
        finding = finding.caution("ticket and the sum of the axle groups differ by more than 5 %: sloped ground, fuel, or another carrier's tare");
    }
    Some(finding)
}

/// How far the weighed centre of gravity is from the take-off's along the box, and how far it may be, m.
fn apart_m(weighing: &Weighing, result: &BoxResult) -> Option<(f64, f64)> {
    let taken_m = result.takeoff.total?.at_m[0];
    Some(((weighing.x_m? - taken_m).abs(), CG_APART * result.size_m?[0]))
}
