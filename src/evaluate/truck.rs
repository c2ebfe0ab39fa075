//! The gear of a rig against the truck: no piece in two places, nothing in the load path left unplaced, tags and inspections, and what looks like a slip.

use super::further::HungLift;
use super::rigs::{legs_of, named_pieces, set_up};
use crate::check::{Check, Finding, Outcome};
use crate::plan::{Arrangement, GearItem, GearKind, HouseBox, Id, Load, Plan, Rig};
use crate::quantity::{Angle, Length, Mass, Ratio, both};
use crate::rigging::{self, HangingLoad, Line, MemberKind, SlingSetUp};
use crate::takeoff::day;
use std::collections::BTreeMap;

/// Findings on the pieces of a rig.
pub fn findings(lift: &HungLift<'_>) -> Vec<Finding> {
    let plan = lift.plan;
    let Some(rig) = plan.rig(&lift.lift.rig) else {
        return Vec::new();
    };
    let house = match &lift.lift.load {
        Load::Box { id } => plan.house_box(id),
        _ => None,
    };
    let mut findings = counted(plan, rig);
    findings.extend(
        rig.pieces
            .iter()
            .filter_map(|p| plan.gear_item(&p.gear))
            .flat_map(|item| slips(plan, item)),
    );
    findings.extend(house.iter().flat_map(|house| odd_lengths(plan, rig, house)));
    findings.extend(house.and_then(|house| inside_the_box(lift, house)));
    findings.extend(spread_on_the_hook(lift, rig));
    findings.extend(house.and_then(|house| cure(lift, rig, house)));
    findings
}

/// Every piece that the legs name must hang on the hook, no more of it than the truck has, and whatever joins pieces must have its place.
fn counted(plan: &Plan, rig: &Rig) -> Vec<Finding> {
    let mut used: BTreeMap<&str, u32> = BTreeMap::new();
    for id in named_pieces(&rig.arrangement)
        .into_iter()
        .chain([&rig.link])
        .filter(|id| !id.is_empty())
    {
        *used.entry(id.as_str()).or_default() += 1;
    }
    let counted = |id: &str| -> u32 {
        let same = rig.pieces.iter().filter(|p| p.gear.as_str() == id);
        same.map(|p| p.count).sum()
    };
    let missing = used.iter().filter(|(id, n)| counted(id) < **n).map(|(id, n)| {
        let text = format!(
            "{id} is used {n} times by the legs of rig {}, counted {} times in its weight: mend the list of pieces",
            rig.id,
            counted(id)
        );
        Finding::of(Check::Truck, text, Outcome::Outside)
    });
    let over = rig.pieces.iter().filter_map(|piece| {
        let on_truck = plan.gear_item(&piece.gear)?.quantity;
        (piece.count > on_truck).then(|| {
            let text = format!("{} × {}, {on_truck} on the truck", piece.count, piece.gear);
            Finding::of(Check::Truck, text, Outcome::Outside)
        })
    });
    let unplaced = rig.pieces.iter().filter_map(|piece| {
        let n = used.get(piece.gear.as_str()).copied().unwrap_or(0);
        let joins = joins_pieces(plan.gear_item(&piece.gear)?.kind);
        let simple = matches!(rig.arrangement, Arrangement::Simple { .. });
        (joins && !simple && piece.count > n).then(|| {
            let missing = format!(
                "where {} of the {} × {} are: name each above or below its leg, or on the hook",
                piece.count - n,
                piece.count,
                piece.gear
            );
            Finding::not_checked(Check::Gear, format!("{} in the load path", piece.gear), missing)
        })
    });
    missing.chain(over).chain(unplaced).collect()
}

/// Whether a piece joins others, so that it is in the load path wherever it hangs on the hook.
const fn joins_pieces(kind: GearKind) -> bool {
    matches!(
        kind,
        GearKind::Shackle | GearKind::Link | GearKind::Block | GearKind::EyeBolt | GearKind::Pin
    )
}

/// What of a piece cannot be meant, or waits for somebody's word.
fn slips(plan: &Plan, item: &GearItem) -> Vec<Finding> {
    let held = |until: String| Finding::of(Check::Truck, item.id.to_string(), Outcome::Held { until });
    let mut findings = Vec::new();
    if item.kind == GearKind::Bar && item.mass.get().is_some_and(|mass| mass == Mass::ZERO) {
        findings.push(held(format!(
            "the own weight of {} is entered: 0 was read, a bar weighs a few hundred pounds or more; really nothing?",
            item.id
        )));
    }
    findings.extend(other_hitch(item).map(held));
    findings.extend(weak_for_its_rating(plan, item));
    findings.extend(inspection(plan, item));
    findings
}

/// A tag has three figures: a choker's is 75 or 80 % of the vertical one, a basket's twice it.
fn other_hitch(item: &GearItem) -> Option<String> {
    let vertical = item.rating.not_negative()?.to_kg();
    let said = |kg: Option<f64>, low: f64, high: f64| kg.is_some_and(|kg| kg < low * vertical || kg > high * vertical);
    let kg = |entry: &crate::quantity::Entry<Mass>| entry.not_negative().map(Mass::to_kg);
    if vertical <= 0.0 || !said(kg(&item.choker), 0.6, 1.0) && !said(kg(&item.basket), 1.6, 2.4) {
        return None;
    }
    Some(format!(
        "somebody has looked at the tag of {}: vertical {}, choker {}, basket {} were read; a choker is 75 or 80 % of vertical and a basket twice it. Was one figure typed for another hitch?",
        item.id,
        text(&item.rating),
        text(&item.choker),
        text(&item.basket)
    ))
}

fn text(entry: &crate::quantity::Entry<Mass>) -> String {
    match entry.text().trim() {
        "" => "blank".into(),
        typed if typed.ends_with(|c: char| c.is_ascii_digit()) => format!("{typed} {}", entry.unit().symbol()),
        typed => typed.to_owned(),
    }
}

/// A rating above its share of the breaking load.
fn weak_for_its_rating(plan: &Plan, item: &GearItem) -> Option<Finding> {
    let design = plan.limits.design_factor.get().map(Ratio::to_of).filter(|k| *k > 0.0)?;
    let (rating, breaking) = (item.rating.not_negative()?, item.breaking.not_negative()?);
    let subject = format!("rating of {} against its breaking load over {design}", item.id);
    let limit = breaking / design;
    (rating.to_kg() > limit.to_kg()).then(|| Finding::at_most(Check::Gear, subject, rating.into(), limit.into()))
}

/// A piece that was inspected too long before the set day is held; one whose day is not entered gets a caution.
fn inspection(plan: &Plan, item: &GearItem) -> Option<Finding> {
    let months = plan.limits.inspection_months.not_negative()?.to_of();
    if item.kind.is_idle() {
        return None;
    }
    let subject = format!("inspection of {}", item.id);
    let typed = item.inspected.trim();
    let Some(inspected) = day(typed) else {
        let what = if typed.is_empty() {
            "the day of its last inspection is not entered".to_owned()
        } else {
            format!("day of its last inspection: \"{typed}\" was read, year-month-day is expected")
        };
        return Some(Finding::of(Check::Truck, subject, Outcome::Within).caution(what));
    };
    let set_day = day(&plan.project.set_day)?;
    let passed = |(y, m, d): (u16, u8, u8)| f64::from(y) * 12.0 + f64::from(m) + f64::from(d) / 32.0;
    let since = passed(set_day) - passed(inspected);
    (since > months).then(|| {
        let until = format!(
            "{} is inspected: last on {typed}, at most {months} months before the set day are entered",
            item.id
        );
        Finding::of(Check::Truck, subject, Outcome::Held { until })
    })
}

/// A sling far longer or shorter than the box is wide, whose length was typed without a unit, is asked about.
fn odd_lengths(plan: &Plan, rig: &Rig, house: &HouseBox) -> Vec<Finding> {
    let Some(width_m) = house.width.get().map(Length::to_m).filter(|m| *m > 0.0) else {
        return Vec::new();
    };
    let mut ids: Vec<&Id> = Vec::new();
    for leg in legs_of(&rig.arrangement) {
        if !ids.contains(&&leg.sling) {
            ids.push(&leg.sling);
        }
    }
    let odd = |item: &&GearItem| {
        let length_m = item.length.not_negative().map(Length::to_m);
        length_m.is_some_and(|m| m > 3.0 * width_m || m < 0.5 * width_m)
    };
    let items = ids.into_iter().filter_map(|id| plan.gear_item(id));
    items.filter(odd).map(|item| odd_length(item, width_m)).collect()
}

fn odd_length(item: &GearItem, width_m: f64) -> Finding {
    let length_m = item.length.get().map_or(0.0, Length::to_m);
    let subject = format!("length of {}", item.id);
    let read = format!(
        "length of {} read as {}, beside a box {} wide",
        item.id,
        both(length_m),
        both(width_m)
    );
    let bare = item.length.text().trim().ends_with(|c: char| c.is_ascii_digit());
    if bare {
        let until = format!("{read}: feet or metres? Type the unit behind it");
        return Finding::of(Check::Truck, subject, Outcome::Held { until });
    }
    Finding::of(Check::Truck, subject, Outcome::Within).caution(read)
}

/// A hook that is not above the box was measured from elsewhere, or the legs are too short.
fn inside_the_box(lift: &HungLift<'_>, house: &HouseBox) -> Option<Finding> {
    let hook_m = lift.rig.hook_above_m?;
    let height_m = house.height.get()?.to_m();
    let cg_m = lift.house.and_then(|house| house.cg_m).map(|cg| cg[2]);
    if hook_m > height_m {
        return None;
    }
    let below_cg = cg_m.filter(|cg| hook_m <= *cg).map_or_else(String::new, |cg| {
        format!(", and below its centre of gravity at {}", both(cg))
    });
    let text = format!(
        "the hook would be inside the box: {} above the underside of its floor was read{below_cg}, its top is at {}; is it measured from the picks or from grade? Expected from the underside of the floor; else lengthen the legs",
        both(hook_m),
        both(height_m)
    );
    Some(Finding::of(Check::Stability, text, Outcome::Outside))
}

/// Legs that hang on the hook itself may not spread beyond the limit: a link lets them.
fn spread_on_the_hook(lift: &HungLift<'_>, rig: &Rig) -> Option<Finding> {
    let hung = lift.rig.hung.as_ref()?;
    if !rig.link.is_empty() {
        return None;
    }
    let hook = hung.figure.hook_m;
    let away = |way: &Vec<[f64; 3]>| {
        let at_hook = |p: &[f64; 3]| (0..3).all(|k| (p[k] - hook[k]).abs() < 1e-6);
        let next = match way.as_slice() {
            [first, next, ..] if at_hook(first) => next,
            [.., next, last] if at_hook(last) => next,
            _ => return None,
        };
        let d: [f64; 3] = core::array::from_fn(|k| next[k] - hook[k]);
        let size = d.iter().map(|x| x * x).sum::<f64>().sqrt();
        (size > 0.0).then(|| d.map(|x| x / size))
    };
    let ways: Vec<[f64; 3]> = hung.figure.ways_m.iter().filter_map(away).collect();
    let angle = |a: &[f64; 3], b: &[f64; 3]| libm::acos((0..3).map(|k| a[k] * b[k]).sum::<f64>().clamp(-1.0, 1.0));
    let pairs = ways
        .iter()
        .enumerate()
        .flat_map(|(i, a)| ways[i + 1..].iter().map(move |b| angle(a, b)));
    let widest = Angle::rad(pairs.reduce(f64::max)?);
    let subject = "legs on the hook, included angle";
    let Some(limit) = lift.plan.limits.hook_angle.not_negative() else {
        let missing = "how wide legs may spread on the hook itself is not entered in the limits";
        return Some(Finding::not_checked(Check::LegAngle, subject, missing));
    };
    let finding = Finding::at_most(Check::LegAngle, subject, widest.into(), limit.into());
    Some(if finding.outcome.is_within() {
        finding
    } else {
        finding.caution("put a master link between hook and legs, or lengthen them")
    })
}

/// Longest that legs are tried at, as a multiple of their length.
const LONGEST: f64 = 8.0;
/// Halvings of the search for the shortest legs that hang.
const HALVINGS: usize = 12;

/// Where the load does not hang: whether longer legs would cure it, and how long.
fn cure(lift: &HungLift<'_>, rig: &Rig, house: &HouseBox) -> Option<Finding> {
    if lift.rig.hung.is_some() {
        return None;
    }
    let plan = lift.plan;
    let cg_m = lift.house?.cg_m;
    let (_, load) = super::rigs::hanging_load(plan, lift.lift, lift.load, cg_m).ok()?;
    let set_up = set_up(plan, rig, house).ok()?;
    // what does not hang for a reason that length cures
    rigging::hang(&load, &set_up).err()?;
    let (what, kinds): (&str, fn(MemberKind) -> bool) = match set_up {
        SlingSetUp::BarAndCrossBars { .. } => ("bridle legs", |kind| matches!(kind, MemberKind::Bridle(_))),
        _ => ("legs", |_| true),
    };
    let needed = shortest(&load, &set_up, kinds)?;
    let text = format!(
        "this rig is not stable with its {what} as they are{}; it hangs with {what} of {} or longer, and rolls less the longer they are",
        margins(&load, &set_up),
        both(needed)
    );
    Some(Finding::of(Check::Stability, text, Outcome::Outside))
}

/// `H − h` across, in words: how far the bridle's apex is above what would turn the box over.
fn margins(load: &HangingLoad, set_up: &SlingSetUp) -> String {
    let SlingSetUp::BarAndCrossBars {
        bridles, cross_lugs_m, ..
    } = set_up
    else {
        return String::new();
    };
    let [a, b, _, _] = load.four_picks_m();
    let rise = |legs: &[Line; 2]| {
        rigging::closed_form::apex_m(legs[0].length_m, legs[1].length_m, *cross_lugs_m).map_or(0.0, |(_, up)| up)
    };
    let across = rigging::closed_form::Across {
        load_kg: load.mass_kg,
        bars_kg: 0.0,
        cg_offset_m: 0.0,
        apex_offset_m: 0.0,
        rise_m: bridles.iter().map(rise).sum::<f64>() / 2.0,
        cg_m: load.cg_m[2] - load.four_picks_m().iter().map(|p| p[2]).sum::<f64>() / 4.0,
        lugs_m: *cross_lugs_m,
        picks_m: b[1] - a[1],
    };
    format!(" (roll margin H − h {})", both(across.margin_m()))
}

/// Shortest length of certain legs, all lengthened alike, with which the load hangs, m, to the millimetre upwards.
fn shortest(load: &HangingLoad, set_up: &SlingSetUp, kinds: fn(MemberKind) -> bool) -> Option<f64> {
    let hangs = |times: f64| {
        let longer = lengthened(set_up, kinds, times);
        rigging::hang(load, &longer).is_ok()
    };
    let (mut low, mut high) = (1.0, 2.0);
    while !hangs(high) {
        low = high;
        high *= 2.0;
        if high > LONGEST {
            return None;
        }
    }
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if hangs(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    let longest = member_lines(set_up)
        .into_iter()
        .filter(|(kind, _)| kinds(*kind))
        .map(|(_, line)| line.length_m);
    Some((longest.reduce(f64::max)? * high * 1000.0).ceil() / 1000.0)
}

/// Legs of a set-up with what they are.
fn member_lines(set_up: &SlingSetUp) -> Vec<(MemberKind, Line)> {
    let kind = |index: usize| match set_up {
        SlingSetUp::BarAndCrossBars { .. } => match index % 5 {
            0 => MemberKind::Top { end: index / 5 },
            at => {
                let corner = rigging::Corner {
                    end: index / 5,
                    side: (at - 1) / 2,
                };
                if at % 2 == 1 {
                    MemberKind::Bridle(corner)
                } else {
                    MemberKind::Strap(corner)
                }
            }
        },
        _ => MemberKind::Line(index),
    };
    set_up
        .lines()
        .into_iter()
        .enumerate()
        .map(|(i, line)| (kind(i), *line))
        .collect()
}

fn lengthened(set_up: &SlingSetUp, kinds: fn(MemberKind) -> bool, times: f64) -> SlingSetUp {
    let lines = member_lines(set_up);
    set_up.with_lines(|index, line| Line {
        length_m: if kinds(lines[index].0) {
            line.length_m * times
        } else {
            line.length_m
        },
        ..line
    })
}
