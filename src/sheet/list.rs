//! The rigging list: every piece on the truck once, its rating as entered, and which lifts need it.

use super::page::{self, Flexible, Format};
use super::{Section, Sheet, blank, cautions};
use crate::evaluate::Assessment;
use crate::gear::profile::{in_force, in_words};
use crate::plan::{GearItem, Id, Plan};

/// What stands where nothing belongs.
const NONE: &str = "—";
/// A square to tick.
const SQUARE: &str = "□";
/// Who looked the pieces over, in rows of four.
const SIGNED: [&str; 4] = ["Rigger", "Tags read by", "Truck", "Date, time"];

/// The list: as many pages as its pieces need. Empty where the truck is.
pub fn rigging_list(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    let rows = rows(plan);
    if rows.is_empty() {
        return Vec::new();
    }
    let title = "Rigging list of the truck".into();
    let blank = blank(plan, assessment, title, ("rigging list", (1, 1)), false);
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let head = [
        ("Piece", 0.08),
        ("What", 0.23),
        ("Rating as entered", 0.11),
        ("Tag", 0.08),
        ("Inspected", 0.08),
        ("On the truck", 0.06),
        ("Most at once", 0.07),
        ("Needed", 0.17),
        ("Loaded", 0.07),
        ("Seen", 0.05),
    ];
    let mut sections = vec![
        Section::lines("", [cautions::CARD_LARGE]).large(),
        Section::table("", &head, rows),
        rules(plan),
        Section::blanks("", &SIGNED).columns(4),
    ];
    let (_, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, 0.0);
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

/// The rules that gear is held to, each with its source.
fn rules(plan: &Plan) -> Section {
    let profile = match plan.limits.profile.trim() {
        "" => "no profile put in".to_owned(),
        name => format!("started from {name}"),
    };
    let heading = format!("Rules for gear, {profile}: {}", in_words(&plan.limits));
    let row = |(name, figure, from): (&str, String, String)| {
        let source = if from.is_empty() {
            String::new()
        } else {
            format!(" ({from})")
        };
        (name.to_owned(), format!("{figure}{source}"))
    };
    Section::rows(&heading, in_force(&plan.limits).into_iter().map(row).collect())
}

/// A row a piece: those on the truck's list in its order, then those that rigs name and the truck does not have.
fn rows(plan: &Plan) -> Vec<Vec<String>> {
    let mut rows: Vec<Vec<String>> = plan.gear.iter().map(|item| row(plan, &item.id, Some(item))).collect();
    let mut missing: Vec<&Id> = Vec::new();
    for piece in plan.rigs.iter().flat_map(|rig| &rig.pieces) {
        if plan.gear_item(&piece.gear).is_none() && !missing.contains(&&piece.gear) {
            missing.push(&piece.gear);
        }
    }
    rows.extend(missing.into_iter().map(|id| row(plan, id, None)));
    rows
}

fn row(plan: &Plan, id: &Id, item: Option<&GearItem>) -> Vec<String> {
    let used = used(plan, id);
    let most = used.iter().map(|(_, count)| *count).max().unwrap_or(0);
    let on_truck = item.map_or(0, |item| item.quantity);
    let short = if most > on_truck { ", TOO FEW" } else { "" };
    let rating = item
        .map(|item| item.rating.text().trim())
        .filter(|text| !text.is_empty());
    let tag = match (item, rating) {
        (None, _) => "not listed",
        (Some(item), None) if item.kind.is_idle() => NONE,
        (Some(_), None) => "no rating",
        (Some(item), _) if item.tag_legible => "legible",
        _ => "NOT LEGIBLE",
    };
    vec![
        id.to_string(),
        item.map_or("NOT ON THE TRUCK'S LIST".into(), |item| item.name.clone()),
        rating.map_or(NONE.into(), |text| with_unit(text, item) + &of_a_set(item)),
        tag.into(),
        item.map(|item| item.inspected.trim())
            .filter(|day| !day.is_empty())
            .map_or(NONE.into(), str::to_owned),
        on_truck.to_string(),
        format!("{most}{short}"),
        lifts_in_words(&used),
        SQUARE.into(),
        SQUARE.into(),
    ]
}

/// For how many legs a rating is, where it is for more than one.
fn of_a_set(item: Option<&GearItem>) -> String {
    match item {
        Some(item) if item.legs > 1 => format!(" for the set of {} at {}", item.legs, item.rated_angle.text().trim()),
        _ => String::new(),
    }
}

/// What was typed, with the unit that a bare number was read in.
fn with_unit(text: &str, item: Option<&GearItem>) -> String {
    match item {
        Some(item) if text.ends_with(|c: char| c.is_ascii_digit()) => format!("{text} {}", item.rating.unit().symbol()),
        _ => text.to_owned(),
    }
}

/// How many of a piece each lift needs: number of the lift, count.
fn used(plan: &Plan, id: &Id) -> Vec<(u32, u32)> {
    let count = |rig: &Id| -> u32 {
        let pieces = plan.rig(rig).map_or(&[][..], |rig| &rig.pieces);
        pieces
            .iter()
            .filter(|piece| piece.gear == *id)
            .map(|piece| piece.count)
            .sum()
    };
    let lifts = plan.lifts.iter().map(|lift| (lift.number, count(&lift.rig)));
    lifts.filter(|(_, count)| *count > 0).collect()
}

/// "2 in lifts 1–5; 1 in lift 6": lifts that follow each other and need as many stand together.
fn lifts_in_words(used: &[(u32, u32)]) -> String {
    let together = |a: &(u32, u32), b: &(u32, u32)| a.1 == b.1 && a.0 + 1 == b.0;
    let part = |run: &[(u32, u32)]| match run {
        [(lift, count)] => format!("{count} in lift {lift}"),
        [(first, count), .., (last, _)] => format!("{count} in lifts {first}–{last}"),
        [] => String::new(),
    };
    let parts: Vec<String> = used.chunk_by(together).map(part).collect();
    if parts.is_empty() {
        NONE.into()
    } else {
        parts.join("; ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lifts_that_need_as_many_stand_together() {
        assert_eq!(
            lifts_in_words(&[(1, 2), (2, 2), (3, 2), (5, 2), (6, 1)]),
            "2 in lifts 1–3; 2 in lift 5; 1 in lift 6"
        );
        assert_eq!(lifts_in_words(&[]), "—");
    }
}
