//! The rigging card: what hangs on the hook and where, for the rigger, with the rig drawn. One page.

use super::lift::{name_of, shown, stop, tag};
use super::page::{self, Flexible, Format, LEFT_MM};
use super::{Content, KeyFigure, Place, Section, Sheet, blank, cautions};
use crate::check::{Amount, Finding};
use crate::drawing::{Paper, rig_end, rig_side, rig_top, tape};
use crate::evaluate::{
    Assessment, BoxResult, LiftResult, is_on_the_path, leg_finding, leg_of, load_path, member_name, weakest,
};
use crate::gear::profile::in_words;
use crate::plan::{GearKind, HouseBox, Id, Load, Plan, Rig};
use crate::quantity::{Angle, Length, Mass, Ratio, Safe, UnitSystem, number};
use crate::rigging::Hung;

/// Least and most height of the rig from the side and from its heavy end, mm.
const DRAWING_MM: [f64; 2] = [46.0, 105.0];
/// Share of the width that the rig from the side has.
const SIDE_SHARE: f64 = 0.6;
/// What stands where nothing is known.
const UNKNOWN: &str = "not known";
/// What stands where nothing belongs.
const NONE: &str = "—";

/// The card of a box that hangs on slings: one page, and others only where a rig has more pieces, or more of them beyond
/// what they may carry, than a page holds. Empty for other loads and
/// where there is no hang.
pub fn rigging_card(plan: &Plan, assessment: &Assessment, index: usize, format: Format) -> Vec<Sheet> {
    let Some(card) = Card::of(plan, assessment, index) else {
        return Vec::new();
    };
    let all: Vec<usize> = (0..plan.lifts.len())
        .filter(|i| Card::of(plan, assessment, *i).is_some())
        .collect();
    let place = all.iter().position(|i| *i == index).map_or(0, |n| n + 1);
    let title = format!("Rigging card, lift {}, {}", card.result.number, card.result.title);
    let blank = blank(plan, assessment, title, ("rigging card", (place, all.len())), false);
    let mut sections = card.sections();
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let (free_mm, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, DRAWING_MM[0]);
    let high_mm = free_mm.min(DRAWING_MM[1]);
    let side_mm = (wide_mm - page::GUTTER_MM) * SIDE_SHARE;
    let heavy = usize::from(card.result_of_box.cg_from_picks_m.is_some_and(|o| o[0] > 0.0));
    let left_mm = page::left_mm(&sections);
    let top = Paper::printed(wide_mm - LEFT_MM - page::GUTTER_MM, left_mm);
    let end_mm = wide_mm - page::GUTTER_MM - side_mm;
    let mut place = |after: fn(&Section) -> bool, drawings: Vec<Section>| {
        let at = sections.iter().rposition(after).map_or(0, |i| i + 1);
        sections.splice(at..at, drawings);
    };
    place(
        |s| s.place == Place::Left,
        vec![Section::drawing(rig_top(plan, assessment, index, top))],
    );
    let side = rig_side(plan, assessment, index, Paper::printed(side_mm, high_mm));
    let end = rig_end(plan, assessment, index, heavy, Paper::printed(end_mm, high_mm));
    place(|s| s.heading == LEGS, [side, end].map(Section::drawing).to_vec());
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

const LEGS: &str = "Where each sling goes";

struct Card<'a> {
    plan: &'a Plan,
    assessment: &'a Assessment,
    index: usize,
    result: &'a LiftResult,
    result_of_box: &'a BoxResult,
    house: &'a HouseBox,
    rig: &'a Rig,
    hung: &'a Hung,
    units: UnitSystem,
}

impl<'a> Card<'a> {
    fn of(plan: &'a Plan, assessment: &'a Assessment, index: usize) -> Option<Self> {
        let (lift, result) = (plan.lifts.get(index)?, assessment.lifts.get(index)?);
        let Load::Box { id } = &lift.load else {
            return None;
        };
        Some(Self {
            plan,
            assessment,
            index,
            result,
            result_of_box: assessment.boxes.iter().find(|b| b.id == *id)?,
            house: plan.house_box(id)?,
            rig: plan.rig(&lift.rig)?,
            hung: result.rig.hung.as_ref()?,
            units: assessment.units,
        })
    }
}

impl Card<'_> {
    /// All but the drawings.
    fn sections(&self) -> Vec<Section> {
        let checked = ["Rigger", "Tags read", "Trial reading", "Tilt seen", "Date, time"];
        let mut sections = vec![
            self.figures(),
            Section::lines("", [cautions::CARD_LARGE]).large(),
            self.legs(),
        ];
        sections.extend(self.beyond());
        sections.extend([
            self.centre_of_gravity().at(Place::Left),
            Section::run(&cautions::CARD).columns(1).at(Place::Left),
            self.pieces(),
            Section::blanks("", &checked).columns(5),
        ]);
        sections
    }

    fn figures(&self) -> Section {
        let offset = self.result_of_box.cg_from_picks_m;
        let heavy = offset.map_or(UNKNOWN.into(), |o| {
            name_of(&self.house.ends, usize::from(o[0] > 0.0), "end")
        });
        let load = self.result.load.planned_kg.map(Mass::kg);
        let hook = Length::m(self.hung.hook_above_floor_m);
        let figures = [
            ("BOX", self.house.id.to_string(), self.house.name.clone()),
            (
                "LOAD",
                shown(load, self.units, Safe::Up),
                "with its contingency".to_owned(),
            ),
            (
                "STOP ABOVE",
                stop(self.result, self.units),
                "reading, trial lift".to_owned(),
            ),
            (
                "HOOK",
                shown(Some(hook), self.units, Safe::Up),
                "above the floor".to_owned(),
            ),
            ("HEAVY END", heavy, String::new()),
        ];
        let figures = figures.map(|(label, value, below)| KeyFigure {
            label: label.into(),
            value,
            below,
        });
        Section::new("", Content::Figures(figures.to_vec())).large()
    }

    /// Each leg by its place, with the tag to look for, its length, angle, tension and use; last the piece that is nearest its limit.
    fn legs(&self) -> Section {
        let loads = |finding: Option<&Finding>| {
            let compared = finding.and_then(|f| f.compared(self.units));
            compared.unwrap_or_else(|| [UNKNOWN, UNKNOWN, UNKNOWN].map(str::to_owned))
        };
        let mut rows: Vec<Vec<String>> = Vec::new();
        for member in &self.hung.members {
            let name = member_name(self.house, member.kind);
            let finding = leg_finding(&self.result.findings, &name);
            let sling = leg_of(self.rig, member.kind).map_or(UNKNOWN.into(), |leg| match leg.links {
                0 => leg.sling.to_string(),
                links => format!("{} + {links} × {}", leg.sling, leg.shortener),
            });
            let slack = if member.slack { ", SLACK" } else { "" };
            let angle = shown(Some(Angle::rad(member.angle_rad)), self.units, Safe::Down);
            let mut row = vec![format!("{name}{slack}"), sling, tag(member.length_m, self.units), angle];
            row.extend(loads(finding));
            rows.push(row);
        }
        if let Some(nearest) = weakest(&self.result.findings) {
            let mut row = vec![format!("WEAKEST: {}", nearest.subject)];
            row.extend([NONE, NONE, NONE].map(str::to_owned));
            row.extend(loads(Some(nearest)));
            rows.push(row);
        }
        let head = [
            ("Where", 0.315),
            ("Tag, links", 0.15),
            ("Length", 0.125),
            ("Angle from horizontal", 0.115),
            ("Tension", 0.105),
            ("Allowed", 0.105),
            ("Use", 0.085),
        ];
        Section::table(LEGS, &head, rows).large()
    }

    /// Pieces and picks beside the slings that are not within, each by name with its share; none where all are.
    fn beyond(&self) -> Option<Section> {
        let slings: Vec<String> = self
            .hung
            .members
            .iter()
            .map(|m| member_name(self.house, m.kind))
            .collect();
        let is_sling = |f: &Finding| {
            slings
                .iter()
                .any(|name| leg_finding(core::slice::from_ref(f), name).is_some())
        };
        let beyond = |f: &&Finding| is_on_the_path(f.check) && !f.outcome.is_within() && !is_sling(f);
        let one = |f: &Finding| {
            let share = f
                .compared(self.units)
                .map_or_else(String::new, |figures| format!(" {}", figures[2]));
            format!("{}: {}{share}", f.outcome.word(), f.subject)
        };
        let told: Vec<String> = self.result.findings.iter().filter(beyond).map(one).collect();
        (!told.is_empty()).then(|| Section::lines("", [told.join("; ")]))
    }

    fn centre_of_gravity(&self) -> Section {
        let (house, result) = (self.house, self.result_of_box);
        let place = |i: usize| result.cg_m.map_or(UNKNOWN.into(), |cg| tape(cg[i], self.units));
        let mut rows = vec![
            (format!("From the {}", name_of(&house.ends, 0, "end")), place(0)),
            (format!("From the {}", name_of(&house.sides, 0, "side")), place(1)),
            ("Above the underside of the floor".to_owned(), place(2)),
        ];
        if let Some([along, _]) = result.cg_from_picks_m {
            rows.push((
                "From the middle of the picks, along".into(),
                tape(along.abs(), self.units),
            ));
        }
        Section::rows("Centre of gravity", rows)
    }

    /// Every piece on the hook, with the most that any one of it is used.
    fn pieces(&self) -> Section {
        let path = load_path(self.plan, self.assessment, self.index);
        let most = |id: &Id| {
            let of_it = path.iter().filter(|piece| piece.gear == *id);
            let used = of_it.filter_map(|piece| piece.finding.ratio).reduce(f64::max);
            used.map_or_else(
                || NONE.to_owned(),
                |used| Amount::Share(Ratio::of(used)).show(self.units, Safe::Up),
            )
        };
        let rows = self.rig.pieces.iter().map(|piece| {
            let item = self.plan.gear_item(&piece.gear);
            // tag lines and softeners carry nothing and have no tag
            let idle = item.is_some_and(|g| g.kind.is_idle() || g.kind == GearKind::Other && g.rating.is_blank());
            let legible = match item {
                _ if idle => NONE,
                Some(item) if item.tag_legible => "legible",
                Some(_) => "NOT LEGIBLE",
                None => UNKNOWN,
            };
            let rating = shown(item.and_then(|g| g.rating.not_negative()), self.units, Safe::Down);
            vec![
                format!("{} × {}", number(f64::from(piece.count), 0, Safe::Nearest), piece.gear),
                item.map_or_else(|| UNKNOWN.to_owned(), |g| g.name.clone()),
                if idle { NONE.to_owned() } else { rating },
                most(&piece.gear),
                legible.to_owned(),
            ]
        });
        let head = [
            ("Piece", 0.14),
            ("What", 0.49),
            ("Rating", 0.15),
            ("Use", 0.1),
            ("Tag", 0.12),
        ];
        let profile = match self.plan.limits.profile.trim() {
            "" => String::new(),
            name => format!(", rules started from {name}"),
        };
        let heading = format!("Rigging on the hook: {}{profile}", in_words(&self.plan.limits));
        Section::table(&heading, &head, rows.collect()).columns(2)
    }
}
