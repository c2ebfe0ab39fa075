//! Boxes: take-off, ticket, centre of gravity against the picks.

use super::BoxResult;
use crate::check::{Amount, Check, Finding, Message, Outcome, Working};
use crate::plan::{Component, HouseBox};
use crate::quantity::{Length, Mass, Ratio, Reading, both};
use crate::takeoff::{self, CentreOfGravity, Item, TakeOff};

/// A ticket this many times the take-off looks like a gross weight (common practice, no source).
const TICKET_LOOKS_GROSS: f64 = 1.4;
/// Ticket and take-off this far apart are a caution, and twice as far not within until explained (common practice, no source).
const TICKET_CAUTION: f64 = 0.05;

pub fn assess(house: &HouseBox) -> BoxResult {
    let mut messages = Vec::new();
    let size_m = size_m(house);
    let takeoff = take_off(house, size_m, &mut messages);
    let ticket_kg = house.ticket.as_ref().and_then(|t| t.mass.get()).map(|m| m.to_kg());
    messages.extend(ticket_message(house));
    let total = takeoff.total;
    let planned = takeoff::planned_weight(total.map(|t| t.mass_kg), house.ticket.as_ref(), &house.last_item_added);
    let cg_m = total.map(|t| t.at_m);
    let floor_kg_per_m2 = planned
        .zip(size_m)
        .map(|(p, [l, w, _])| p.mass_kg / (l * w))
        .filter(|v| v.is_finite());
    let mut result = BoxResult {
        id: house.id.clone(),
        ticket_kg,
        planned,
        cg_m,
        cg_from_picks_m: cg_m.and_then(|cg| from_pick_middle_m(house, cg)),
        floor_kg_per_m2,
        size_m,
        findings: Vec::new(),
        messages,
        takeoff,
    };
    result.findings.push(weight_finding(house, &result));
    result.findings.extend(ticket_finding(&result));
    result
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

fn take_off(house: &HouseBox, size_m: Option<[f64; 3]>, messages: &mut Vec<Message>) -> TakeOff {
    let mut items: Vec<Item> = Vec::with_capacity(house.components.len());
    let mut unknown = 0;
    for component in &house.components {
        match takeoff::item(component) {
            Ok(item) => {
                items.push(item);
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
    }
    let known_mass_kg = items.iter().map(|i| i.mass_kg).sum();
    let total = if unknown == 0 {
        takeoff::centre_of_gravity(&items)
    } else {
        None
    };
    TakeOff {
        known_mass_kg,
        unknown,
        total,
    }
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

fn weight_finding(house: &HouseBox, result: &BoxResult) -> Finding {
    let subject = format!("box {}", house.id);
    if let Some(first) = result.messages.iter().find(|m| m.blocks) {
        return Finding::not_checked(Check::Weight, subject, format!("{}: {}", first.place, first.text));
    }
    let (Some(planned), Some(total)) = (result.planned, result.takeoff.total) else {
        return Finding::not_checked(Check::Weight, subject, "no weight yet: enter the components of the box");
    };
    Finding::of(Check::Weight, subject, Outcome::Within)
        .working([
            sum_working(result.takeoff.known_mass_kg, house.components.len()),
            cg_working(&total),
        ])
        .working([Working::new(
            "weight that stands for the box before its contingency",
            "m",
            "the larger of ticket and take-off",
            Mass::kg(planned.mass_kg),
            "planning rule, docs/method.md",
        )])
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

fn ticket_finding(result: &BoxResult) -> Option<Finding> {
    let ticket_kg = result.ticket_kg?;
    let takeoff_kg = result.takeoff.total?.mass_kg;
    let ratio = ticket_kg / takeoff_kg;
    let working = Working::new(
        "ticket over take-off",
        "r",
        "T/W − 1",
        Ratio::of(ratio - 1.0),
        "comparison",
    )
    .input("T", "ticket", Mass::kg(ticket_kg))
    .input("W", "take-off", Mass::kg(takeoff_kg));
    let mut finding = Finding::of(Check::Ticket, format!("box {}", result.id), Outcome::Within).working([working]);
    finding.demand = Some(Mass::kg(ticket_kg).into());
    finding.limit = Some(Mass::kg(takeoff_kg).into());
    finding.ratio = Some(ratio);
    if ratio > TICKET_LOOKS_GROSS {
        finding.outcome = Outcome::Held {
            until: "the ticket is far above the take-off: were carrier and tractor taken off?".into(),
        };
    } else if (ratio - 1.0).abs() > 2.0 * TICKET_CAUTION {
        finding.outcome = Outcome::Held {
            until: "ticket and take-off differ by more than 10 %: find out why".into(),
        };
    } else if (ratio - 1.0).abs() > TICKET_CAUTION {
        finding = finding
            .caution("ticket and take-off differ by more than 5 %: the missing weight can be anywhere in the box");
    }
    Some(finding)
}
