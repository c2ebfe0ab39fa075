//! The rigging card: the few figures a rigger reads at two metres, with the rig drawn.

use super::lift::{lift_sheet, shown, stop, tag};
use super::{CAUTION, Section, Sheet, cautions, footer, header};
use crate::drawing::{Paper, rig_end, rig_side, rig_top};
use crate::evaluate::{Assessment, leg_of, member_name};
use crate::plan::{HouseBox, Load, Plan, Rig};
use crate::quantity::{Length, Mass, Safe, UnitSystem};
use crate::rigging::Hung;

/// Room of the rig from the side.
const SIDE: Paper = Paper {
    width_mm: 120.0,
    height_mm: 105.0,
};
/// Room of the rig from its heavy end, beside it.
const END: Paper = Paper {
    width_mm: 66.0,
    height_mm: 105.0,
};
/// Room of the rig from the top, below them.
const TOP: Paper = Paper {
    width_mm: 188.0,
    height_mm: 70.0,
};
/// What the card shares with the lift sheet.
const SHARED: [&str; 2] = ["Centre of gravity", "Rigging on the hook"];

/// The card of a box that hangs on slings; `None` for other loads and where there is no hang.
pub fn rigging_card(plan: &Plan, assessment: &Assessment, index: usize) -> Option<Sheet> {
    let (lift, result) = (plan.lifts.get(index)?, assessment.lifts.get(index)?);
    let Load::Box { id } = &lift.load else {
        return None;
    };
    let house = plan.house_box(id)?;
    let hung = result.rig.hung.as_ref()?;
    let units = assessment.units;
    let figures = [
        ("BOX", format!("{id}, {}", house.name)),
        (
            "LOAD WITH CONTINGENCY",
            shown(result.load.planned_kg.map(Mass::kg), units, Safe::Up),
        ),
        ("STOP ABOVE", shown(stop(result), units, Safe::Down)),
        (
            "HOOK ABOVE FLOOR",
            shown(Some(Length::m(hung.hook_above_floor_m)), units, Safe::Up),
        ),
    ];
    let figures = figures.map(|(label, value)| (label.to_owned(), value)).to_vec();
    let offset = assessment.boxes.iter().find(|b| b.id == *id)?.cg_from_picks_m;
    let heavy = usize::from(offset.is_some_and(|o| o[0] > 0.0));
    let mut sections = vec![
        Section::rows("Box", figures).large(),
        Section::lines("Slings", [cautions::CARD_LARGE]).large(),
        where_slings_go(plan, house, plan.rig(&lift.rig)?, hung, units),
    ];
    let sheet = lift_sheet(plan, assessment, index)?;
    sections.extend(
        sheet
            .sections
            .into_iter()
            .filter(|s| SHARED.contains(&s.heading.as_str())),
    );
    sections.extend([
        Section::drawing(rig_side(plan, assessment, index, SIDE)),
        Section::drawing(rig_end(plan, assessment, index, heavy, END)),
        Section::drawing(rig_top(plan, assessment, index, TOP)),
        Section::lines("Cautions", cautions::CARD),
        Section::blanks(
            "Checked",
            &["Rigger", "Time", "Tags read", "Reading at the trial lift", "Tilt seen"],
        ),
    ]);
    Some(Sheet {
        title: format!("Rigging card, lift {}, {}", result.number, result.title),
        header: header(plan, assessment),
        caution: CAUTION.into(),
        sections,
        footer: footer(plan, (index + 1, plan.lifts.len())),
    })
}

/// Each leg by its place, with the tag to look for.
fn where_slings_go(plan: &Plan, house: &HouseBox, rig: &Rig, hung: &Hung, units: UnitSystem) -> Section {
    let row = |member: &crate::rigging::Member| {
        let leg = leg_of(rig, member.kind);
        let item = leg.and_then(|leg| plan.gear_item(&leg.sling));
        let links = leg.filter(|leg| leg.links > 0);
        let links = links.map_or(String::new(), |leg| {
            format!(" + {} links of {}", leg.links, leg.shortener)
        });
        vec![
            member_name(house, member.kind),
            leg.map_or("not known".into(), |leg| leg.sling.to_string()),
            format!("{}{links}", item.map_or("not known", |g| g.name.as_str())),
            tag(member.length_m, units),
        ]
    };
    let rows = hung.members.iter().map(row).collect();
    Section::table("Where each sling goes", &["Where", "Tag", "What", "Length"], rows)
}
