//! The rig from the side, from an end and from the top.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::scene::{Anchor, Frame, Item, MarkKind, Role, Scene};
use super::words::{tape, up};
use crate::check::{Amount, Finding};
use crate::evaluate::{Assessment, LiftResult, leg_finding, member_name};
use crate::plan::{HouseBox, Load, Plan};
use crate::quantity::{Angle, Force, Length, Safe, UnitSystem, number};
use crate::rigging::{Figure, Hung, Level, Member, MemberKind};

type P = [f64; 2];
type P3 = [f64; 3];

/// The box of a lift; `None` for other loads.
pub fn lifted<'a>(plan: &'a Plan, lift: &LiftResult) -> Option<&'a HouseBox> {
    match &plan.lifts.iter().find(|l| l.id == lift.id)?.load {
        Load::Box { id } => plan.house_box(id),
        Load::RoofRaise { .. } | Load::Bundle { .. } => None,
    }
}

/// The lowest corner of the floor of a box as it hangs, m.
pub fn floor_m(figure: &Figure) -> f64 {
    figure.box_m[..4].iter().map(|p| p[2]).fold(f64::INFINITY, f64::min)
}

/// The rig from the side: along the box, first end on the left.
///
/// Frame: that of the hang's figure, seen along y: metres along the box and up, the origin at its corner before it tilts.
pub fn rig_side(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    view(plan, assessment, lift, paper, View::Side)
}

/// The rig from an end (0 the first, 1 the second): across the box, first side on the left.
///
/// Frame: as [`rig_side`], seen along x: metres across the box and up.
pub fn rig_end(plan: &Plan, assessment: &Assessment, lift: usize, end: usize, paper: Paper) -> Scene {
    view(plan, assessment, lift, paper, View::End(end.min(1)))
}

/// The rig from above.
///
/// Frame: as [`rig_side`], seen from above: metres along the box and across it.
pub fn rig_top(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    view(plan, assessment, lift, paper, View::Top)
}

#[derive(Clone, Copy, PartialEq)]
enum View {
    Side,
    End(usize),
    Top,
}

impl View {
    /// What is seen of a point in the box frame.
    fn of(self, p: P3) -> P {
        match self {
            Self::Side => [p[0], p[2]],
            Self::End(_) => [p[1], p[2]],
            Self::Top => [p[0], p[1]],
        }
    }

    /// Whether a member is written beside its line in this view.
    fn writes(self, kind: MemberKind) -> bool {
        match (self, kind) {
            (Self::Side, MemberKind::Top { .. }) => true,
            // seen from the side the legs of the first side lie in front
            (Self::Side, MemberKind::Leg(c)) => c.side == 0,
            (Self::End(end), MemberKind::Bridle(c) | MemberKind::Strap(c) | MemberKind::Leg(c)) => c.end == end,
            _ => false,
        }
    }

    /// Whether a member is drawn at all: from an end only what belongs to it.
    fn draws(self, kind: MemberKind) -> bool {
        match (self, kind) {
            (Self::End(end), MemberKind::Bridle(c) | MemberKind::Strap(c) | MemberKind::Leg(c)) => c.end == end,
            (Self::End(end), MemberKind::Top { end: e }) => e == end,
            _ => true,
        }
    }
}

/// All that a view draws from.
struct Rigged<'a> {
    lift: &'a LiftResult,
    house: &'a HouseBox,
    hung: &'a Hung,
    figure: &'a Figure,
    cg_from_picks_m: [f64; 2],
    units: UnitSystem,
}

fn rigged<'a>(plan: &'a Plan, assessment: &'a Assessment, index: usize) -> Option<Rigged<'a>> {
    let lift = assessment.lifts.get(index)?;
    let house = lifted(plan, lift)?;
    let result = assessment.boxes.iter().find(|b| b.id == house.id)?;
    let hung = lift.rig.hung.as_ref()?;
    Some(Rigged {
        lift,
        house,
        hung,
        figure: &hung.figure,
        cg_from_picks_m: result.cg_from_picks_m?,
        units: assessment.units,
    })
}

fn view(plan: &Plan, assessment: &Assessment, index: usize, paper: Paper, view: View) -> Scene {
    let paper = paper.usable();
    let Some(rig) = rigged(plan, assessment, index) else {
        return nothing_to_show(assessment.lifts.get(index), paper);
    };
    let (low, high) = extent(&rig, view);
    let size = paper.lettering_mm();
    // for the tilt above and the names below, which take less
    let below_mm = if paper.printed && view != View::Top {
        0.4 * size
    } else {
        0.0
    };
    let over_mm = if paper.printed { 5.2 } else { 6.0 } * size;
    let room = [paper.width_mm - 12.0 * size, paper.height_mm - foot_mm(paper) - over_mm];
    let scale = border::scale([high[0] - low[0], high[1] - low[1]], room);
    let mm = 1000.0 / scale;
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0 - (low[0] + high[0]) / 2.0 * mm,
        y0_mm: (paper.height_mm - foot_mm(paper)) / 2.0 + below_mm + (low[1] + high[1]) / 2.0 * mm,
        mm_per_x: mm,
        mm_per_y: mm,
        x_unit: "m",
        y_unit: "m",
    };
    let window = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
    let mut draw = Draw {
        pen: Pen::new(frame, paper, window),
        rig,
        view,
    };
    draw.all();
    border::border(&mut draw.pen);
    let name = draw.name();
    let title = format!(
        "{}, lift {} {}",
        name.to_uppercase(),
        draw.rig.lift.number,
        draw.rig.lift.title
    );
    let note = format!(
        "{}; angles from the horizontal",
        border::scale_note(scale, draw.rig.units)
    );
    border::foot(&mut draw.pen, title, note);
    let facts = draw.facts();
    let title = format!("{name}, lift {}, {}", draw.rig.lift.number, draw.rig.lift.title);
    draw.pen.finish(title, facts)
}

/// Said instead of a drawing.
pub(super) fn nothing_to_show(lift: Option<&LiftResult>, paper: Paper) -> Scene {
    let frame = Frame {
        x0_mm: 0.0,
        y0_mm: paper.height_mm,
        mm_per_x: 1.0,
        mm_per_y: 1.0,
        x_unit: "m",
        y_unit: "m",
    };
    let mut pen = Pen::new(frame, paper, [0.0, 0.0, paper.width_mm, paper.height_mm]);
    let why = lift
        .and_then(|l| l.rig.why_not.clone())
        .unwrap_or_else(|| "there is no hang for this lift".into());
    let text = format!("The rig cannot be drawn: {why}");
    pen.paragraph([3.0, 6.0], paper.width_mm - 8.0, &Words::new(text.clone()).strong());
    pen.finish("Rig".into(), vec![format!("{text}.")])
}

fn extent(rig: &Rigged, view: View) -> (P, P) {
    let figure = rig.figure;
    let ends = figure.bars_m.iter().flatten().chain(&figure.box_m);
    let points = ends.chain([&figure.hook_m]).map(|p| view.of(*p));
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    for p in points {
        low = [low[0].min(p[0]), low[1].min(p[1])];
        high = [high[0].max(p[0]), high[1].max(p[1])];
    }
    (low, high)
}

struct Draw<'a> {
    pen: Pen,
    rig: Rigged<'a>,
    view: View,
}

impl Draw<'_> {
    fn name(&self) -> String {
        match self.view {
            View::Side => "Rig from the side".into(),
            View::End(end) => format!("Rig at the {}", name_of(&self.rig.house.ends, end, "end")),
            View::Top => "Rig from the top".into(),
        }
    }

    fn all(&mut self) {
        self.body();
        self.members();
        self.marks();
        match self.view {
            View::Top => self.shares(),
            View::Side | View::End(_) => self.heights(),
        }
    }

    fn body(&mut self) {
        let face = match self.view {
            View::Top => [4, 5, 6, 7],
            View::End(0) => [0, 3, 7, 4],
            View::End(_) => [1, 2, 6, 5],
            View::Side => [0, 1, 5, 4],
        };
        let corners: [P3; 4] = face.map(|i| self.rig.figure.box_m[i]);
        let seen = corners.map(|p| self.view.of(p));
        let item = Some(Item::Box(self.rig.house.id.clone()));
        self.pen.outline(Role::BodyHeavy, item, &seen);
        let names = match self.view {
            View::End(_) => &self.rig.house.sides,
            _ => &self.rig.house.ends,
        };
        let kind = if matches!(self.view, View::End(_)) {
            "side"
        } else {
            "end"
        };
        let heavy = self.heavy();
        let words = [0, 1].map(|i| {
            let name = name_of(names, i, kind);
            if heavy == Some(i) {
                Words::new(format!("{name}: HEAVY {}", kind.to_uppercase())).strong()
            } else {
                Words::new(name)
            }
        });
        // under the box where both have room there, else to either side of it
        let ends = [0, 1].map(|i| self.pen.on_sheet(seen[i]));
        let together: f64 = words.iter().map(|w| self.pen.width_mm(w)).sum();
        let (first, second) = if together + 4.0 < ends[1][0] - ends[0][0] {
            (Anchor::Start, Anchor::End)
        } else {
            (Anchor::End, Anchor::Start)
        };
        let below_mm = 1.6 * self.pen.size_mm;
        for ((words, [x, y]), anchor) in words.into_iter().zip(ends).zip([first, second]) {
            self.pen.fixed([x, y + below_mm], anchor, words);
        }
    }

    /// Which end (or side) is heavier: towards which the centre of gravity lies from the middle of the picks.
    fn heavy(&self) -> Option<usize> {
        let offset = match self.view {
            View::End(_) => self.rig.cg_from_picks_m[1],
            _ => self.rig.cg_from_picks_m[0],
        };
        (offset.abs() > 0.01).then_some(usize::from(offset > 0.0))
    }

    fn members(&mut self) {
        let (hung, figure) = (self.rig.hung, self.rig.figure);
        for (index, (member, [a, b])) in hung.members.iter().zip(&figure.legs_m).enumerate() {
            if !self.view.draws(member.kind) {
                continue;
            }
            let (p, q) = (self.view.of(*a), self.view.of(*b));
            let role = if member.slack { Role::Hidden } else { Role::Outline };
            self.pen.line(role, Some(Item::Member(index)), &[p, q]);
            if self.view.writes(member.kind) {
                let (first, second) = self.member_words(index);
                let second = second.map(|(text, outside)| {
                    let words = Words::new(text).rank(1).of(Item::Member(index));
                    if outside { words.plate() } else { words.strong() }
                });
                self.pen.along(p, q, Words::new(first).rank(6).of(Item::Member(index)));
                if let Some(second) = second {
                    self.pen.along(p, q, second);
                }
            }
        }
        // the bar along the box comes first; from an end it is seen on end, and of the cross bars only the near one
        for (i, [a, b]) in figure.bars_m.iter().enumerate() {
            if matches!(self.view, View::End(end) if i != end + 1) {
                continue;
            }
            let (p, q) = (self.view.of(*a), self.view.of(*b));
            self.pen.line(Role::Heavy, Some(Item::Bar), &[p, q]);
        }
    }

    /// Length and angle; tension and use.
    fn member_words(&self, index: usize) -> (String, Option<(String, bool)>) {
        let (member, units) = (&self.rig.hung.members[index], self.rig.units);
        let angle = Amount::Angle(Angle::rad(member.angle_rad)).show(units, Safe::Down);
        let first = if matches!(member.kind, MemberKind::Strap(_)) {
            tape_fine(member.length_m, units)
        } else {
            format!("{} at {angle}", tape_fine(member.length_m, units))
        };
        let finding = self.gear_finding(member);
        let demand = finding
            .and_then(|f| f.demand)
            .unwrap_or(Amount::Mass(Force::n(member.tension_n).as_mass()));
        let share = finding
            .and_then(|f| f.ratio)
            .map_or(String::new(), |r| format!(", {} %", number(r * 100.0, 1, Safe::Up)));
        let outside = finding.is_some_and(|f| f.outcome.gravity() >= 3);
        (
            first,
            Some((format!("{}{share}", demand.show(units, Safe::Up)), outside)),
        )
    }

    fn gear_finding(&self, member: &Member) -> Option<&Finding> {
        leg_finding(&self.rig.lift.findings, &member_name(self.rig.house, member.kind))
    }

    fn marks(&mut self) {
        let size = self.pen.size_mm;
        for pick in self.picks() {
            let at = self.view.of(pick);
            self.pen.mark(Role::Body, None, at, MarkKind::Ring, 0.8 * size);
        }
        let cg = self.view.of(self.rig.figure.cg_m);
        self.pen.mark(
            Role::Body,
            Some(Item::CentreOfGravity),
            cg,
            MarkKind::CentreOfGravity,
            1.5 * size,
        );
        let hook = self.view.of(self.rig.figure.hook_m);
        if self.view != View::Top {
            let floor = [hook[0], floor_m(self.rig.figure)];
            self.pen.line(Role::Centre, Some(Item::Hook), &[hook, floor]);
        }
        self.pen
            .mark(Role::Solid, Some(Item::Hook), hook, MarkKind::Dot, 0.8 * size);
        self.pen
            .beside(hook, 0.5 * size, Words::new("hook").strong().rank(3).of(Item::Hook));
        let kind = if matches!(self.view, View::End(_)) { 1 } else { 0 };
        let offset = self.rig.cg_from_picks_m[kind];
        let names = [&self.rig.house.ends, &self.rig.house.sides][kind];
        let toward = name_of(names, usize::from(offset > 0.0), ["end", "side"][kind]);
        let text = if offset.abs() > 0.005 {
            format!("CG {} towards {toward}", tape(offset.abs(), self.rig.units))
        } else {
            "CG".into()
        };
        self.pen
            .beside(cg, 0.8 * size, Words::new(text).rank(2).of(Item::CentreOfGravity));
    }

    /// Hook over the floor, and the tilt as rigged.
    fn heights(&mut self) {
        let (units, hung) = (self.rig.units, self.rig.hung);
        let (hook, floor) = (self.view.of(self.rig.figure.hook_m), floor_m(self.rig.figure));
        let corners = self.rig.figure.box_m.iter().map(|p| self.view.of(*p)[0]);
        let right = corners.fold(f64::NEG_INFINITY, f64::max);
        let words = Words::new(format!("hook above floor {}", up(hung.hook_above_floor_m, units))).rank(3);
        let x = self.pen.moved([right, 0.0], [4.0 * self.pen.size_mm, 0.0])[0];
        self.pen.line(Role::Dimension, None, &[hook, [x, hook[1]]]);
        self.pen
            .dimension(Some(Item::Hook), [x, floor], [x, hook[1]], 0.0, words);
        let (level, names, word) = match self.view {
            View::End(_) => (hung.across, &self.rig.house.sides, "side"),
            _ => (hung.along, &self.rig.house.ends, "end"),
        };
        self.pen.fixed(
            [2.5, 1.8 * self.pen.size_mm],
            Anchor::Start,
            Words::new(tilt_words(level, names, word, units)).strong(),
        );
    }

    /// Four shares, and the share to design with where a stiff box may take more.
    fn shares(&mut self) {
        let units = self.rig.units;
        let total: f64 = self.at_picks().map(|(m, _)| shared_vertical_n(m)).sum();
        let members: Vec<(Member, P3)> = self.at_picks().map(|(m, p)| (m.clone(), p)).collect();
        for (member, pick) in members {
            let vertical_n = shared_vertical_n(&member);
            let share = if total > 0.0 { vertical_n / total } else { 0.0 };
            let mut text = format!(
                "{} ({} %)",
                Amount::Mass(Force::n(vertical_n).as_mass()).show(units, Safe::Up),
                number(share * 100.0, 1, Safe::Nearest)
            );
            if member.tension_n > member.shared_n * 1.001 {
                let bound = Amount::Mass(Force::n(member.tension_n).as_mass()).show(units, Safe::Up);
                text = format!("{text}, leg up to {bound}");
            }
            let at = self.view.of(pick);
            self.pen
                .beside(at, 0.5 * self.pen.size_mm, Words::new(text).strong().rank(1));
        }
        for side in 0..2 {
            let name = name_of(&self.rig.house.sides, side, "side");
            let corners = [[4, 5], [7, 6]][side].map(|i| self.view.of(self.rig.figure.box_m[i]));
            let middle = [0, 1].map(|k| (corners[0][k] + corners[1][k]) / 2.0);
            let [x_mm, y_mm] = self.pen.on_sheet(middle);
            let away = if side == 0 { 1.6 } else { -1.4 } * self.pen.size_mm;
            self.pen.fixed([x_mm, y_mm + away], Anchor::Middle, Words::new(name));
        }
    }

    /// The members that take hold of the box, each with its pick: the lower of its ends.
    fn at_picks(&self) -> impl Iterator<Item = (&Member, P3)> {
        let members = self.rig.hung.members.iter().zip(&self.rig.figure.legs_m);
        members
            .filter(|(m, _)| matches!(m.kind, MemberKind::Leg(_) | MemberKind::Strap(_)))
            .map(|(m, [a, b])| (m, if a[2] < b[2] { *a } else { *b }))
    }

    fn picks(&self) -> Vec<P3> {
        self.at_picks().map(|(_, pick)| pick).collect()
    }

    /// What this view says, in sentences.
    fn facts(&self) -> Vec<String> {
        let (units, hung, house) = (self.rig.units, self.rig.hung, self.rig.house);
        let mut facts = vec![format!(
            "Hook above the underside of the floor {}.",
            up(hung.hook_above_floor_m, units)
        )];
        facts.push(match self.view {
            View::End(_) => format!("{}.", tilt_words(hung.across, &house.sides, "side", units)),
            _ => format!("{}.", tilt_words(hung.along, &house.ends, "end", units)),
        });
        for (index, member) in hung.members.iter().enumerate() {
            let name = member_name(house, member.kind);
            let slack = if member.slack { ", slack" } else { "" };
            let at_a_pick = matches!(member.kind, MemberKind::Leg(_) | MemberKind::Strap(_));
            if self.view == View::Top && at_a_pick {
                let share = Amount::Mass(Force::n(shared_vertical_n(member)).as_mass()).show(units, Safe::Up);
                facts.push(format!("{name}: carries {share}{slack}."));
            } else if self.view.writes(member.kind) || self.view == View::Side && member.slack {
                let (first, second) = self.member_words(index);
                let second = second.map_or(String::new(), |(s, _)| format!(", {s}"));
                facts.push(format!("{name}: {first}{second}{slack}."));
            }
        }
        facts
    }
}

/// What a pick carries if every leg takes its share, N: the bound that a leg of a stiff box may come to is written as the leg's.
fn shared_vertical_n(member: &Member) -> f64 {
    if member.tension_n > 0.0 {
        member.vertical_n * member.shared_n / member.tension_n
    } else {
        0.0
    }
}

/// A sling length as its tag has it: to the sixteenth, or to the centimetre.
fn tape_fine(metres: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => crate::quantity::feet_inches(Length::m(metres)),
        UnitSystem::Metric => tape(metres, units),
    }
}

fn name_of(names: &[String; 2], which: usize, kind: &str) -> String {
    if names[which].is_empty() {
        format!("{} {kind}", ["first", "second"][which])
    } else {
        names[which].clone()
    }
}

/// "kitchen end 0.52 ft low (0.57°)".
fn tilt_words(level: Level, names: &[String; 2], kind: &str, units: UnitSystem) -> String {
    let angle = Amount::Angle(Angle::rad(level.tilt_rad.abs())).show(units, Safe::Up);
    let low = name_of(names, usize::from(level.tilt_rad > 0.0), kind);
    format!(
        "{low} hangs {} low ({angle} out of level)",
        up(level.rise_m.abs(), units)
    )
}
