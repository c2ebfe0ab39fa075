//! The lift sheet: what the operator and the crew need for one lift, on one page. What only the rigger needs is on the rigging card.

use super::page::{self, Flexible, Format, LEFT_MM};
use super::{CheckRow, Content, KeyFigure, Place, Section, Sheet, blank, cautions};
use crate::check::{Amount, Check, Finding, Outcome};
use crate::crane::RatingChart;
use crate::drawing::{Paper, StructureView, elevation, plan_view, tape};
use crate::evaluate::{
    Assessment, BoxResult, EndKind, EndResult, LiftResult, arc_of, is_on_the_path, reading_stop, wind_stops,
};
use crate::geometry::distance_m;
use crate::plan::{Crane, HouseBox, Lift, Load, Plan};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, Safe, Said, Unit, UnitSystem, feet_inches, number};
use crate::takeoff::WeightGrade;

/// Least height of the drawings, mm.
const LEAST_DRAWING_MM: f64 = 52.0;
/// Most height of the drawings, mm.
const MOST_DRAWING_MM: f64 = 100.0;
/// What stands where nothing is known.
const UNKNOWN: &str = "not known";
/// What stands where nothing belongs.
const NONE: &str = "—";

/// The sheet of the lift of that index: one page, and others only where a plan has more checks or notes than a page holds. Empty where there is no
/// such lift.
pub fn lift_sheet(plan: &Plan, assessment: &Assessment, index: usize, format: Format) -> Vec<Sheet> {
    let (Some(lift), Some(result)) = (plan.lifts.get(index), assessment.lifts.get(index)) else {
        return Vec::new();
    };
    let writer = Writer {
        plan,
        assessment,
        lift,
        result,
        units: assessment.units,
    };
    let all = plan.lifts.len();
    let title = format!("Lift {} of {all}, {}", result.number, result.title);
    let blank = blank(plan, assessment, title, ("lift sheet", (index + 1, all)), true);
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let fitted = |short: bool| {
        let mut sections = writer.sections(short);
        let beside = Flexible::BesideTheColumn;
        let (free_mm, off) = page::fit(&mut sections, room_mm, wide_mm, &beside, LEAST_DRAWING_MM);
        (sections, free_mm, off)
    };
    // where checks in full do not fit, those within are named with their shares only
    let in_full = fitted(false);
    let (mut sections, free_mm, off) = if in_full.2.is_empty() { in_full } else { fitted(true) };
    let each_mm = (wide_mm - LEFT_MM - 2.0 * page::GUTTER_MM) / 2.0;
    let paper = Paper::printed(each_mm, free_mm.min(MOST_DRAWING_MM));
    let end = result
        .governing()
        .or(result.ends.first())
        .map_or(EndKind::Set, |e| e.end);
    let beside = match lift.load {
        Load::RoofRaise { .. } => StructureView::Raise(index).scene(plan, assessment, paper),
        _ => elevation(plan, assessment, index, end, paper),
    };
    let drawings = [plan_view(plan, assessment, Some(index), paper), beside];
    let after = sections
        .iter()
        .rposition(|s| s.place == Place::Left)
        .map_or(0, |i| i + 1);
    sections.splice(after..after, drawings.map(Section::drawing));
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

const HOLD_POINTS: [&str; 6] = [
    "Crane, slabs, boom, outriggers as above",
    "Floats on mats, level; tail swing barred",
    "Bolts and straps to the carrier off",
    "Picks, pins, shackles, softeners seen",
    "Utility's word on the wires in hand",
    "Toolbox talk held, lift read back",
];
const RAISE_HOLD_POINTS: [&str; 6] = [
    "Crane, slabs, boom, outriggers as above",
    "Floats on mats, level; tail swing barred",
    "Panel's travel straps off, hinges seen",
    "Picks, pins, shackles, softeners seen",
    "Knee walls, struts, nails, hands named",
    "Restraint tended; talk held, read back",
];
/// Blanks to fill in, in rows of four: measured on site, who does what, whom to call.
const BLANKS: [&str; 16] = [
    "Radius at the pick",
    "Trial reading",
    "Lift director",
    "Hospital",
    "Radius at the set",
    "Gust",
    "Operator",
    "First-aider",
    "Centre to corners",
    "Tilt along, across",
    "Rigger",
    "Utility, emergency",
    "Radio or signals",
    "Chart in the cab",
    "Signal person",
    "Date, time",
];

/// The reading at which a lift's trial stops, as it is shown and printed.
pub fn stop(result: &LiftResult, units: UnitSystem) -> String {
    reading_stop(result).map_or_else(|| UNKNOWN.into(), |(mass, safe)| Amount::Mass(mass).show(units, safe))
}

/// A length as a tag has it: to the sixteenth of an inch, or to the centimetre.
pub(super) fn tag(metres: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => feet_inches(Length::m(metres)),
        UnitSystem::Metric => Amount::Length(Length::m(metres)).show(units, Safe::Nearest),
    }
}

/// An amount, or that it is not known.
pub(super) fn shown(amount: Option<impl Into<Amount>>, units: UnitSystem, safe: Safe) -> String {
    amount.map_or_else(|| UNKNOWN.into(), |a| a.into().show(units, safe))
}

/// The name of an end or a side, or its number.
pub(super) fn name_of(names: &[String; 2], which: usize, kind: &str) -> String {
    match names[which].as_str() {
        "" => format!("{} {kind}", ["first", "second"][which]),
        name => name.to_owned(),
    }
}

/// Who said it and when.
fn said(said: Option<&Said>) -> String {
    let parts: Vec<&str> = said
        .map(|s| [s.who.as_str(), s.when.as_str(), s.note.as_str()])
        .unwrap_or_default()
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    if parts.is_empty() {
        "source not entered".into()
    } else {
        parts.join(", ")
    }
}

struct Writer<'a> {
    plan: &'a Plan,
    assessment: &'a Assessment,
    lift: &'a Lift,
    result: &'a LiftResult,
    units: UnitSystem,
}

impl Writer<'_> {
    fn up(&self, amount: Option<impl Into<Amount>>) -> String {
        shown(amount, self.units, Safe::Up)
    }
    fn down(&self, amount: Option<impl Into<Amount>>) -> String {
        shown(amount, self.units, Safe::Down)
    }

    /// All but the drawings; in short, the checks that are within are a sentence.
    fn sections(&self, short: bool) -> Vec<Section> {
        let (pressing, within) = self.checks();
        let mut sections = vec![
            self.outcome(),
            self.key_figures(),
            self.chart_reading().at(Place::Left),
            self.hook_load().at(Place::Left),
            Section::rows("", self.entries()),
        ];
        if !pressing.is_empty() {
            sections.push(Section::checks("", pressing));
        }
        if !within.is_empty() {
            sections.push(if short {
                // those that caution of something with figures stand above
                let plain = self.result.findings.iter().filter(|f| f.outcome.is_within());
                let plain = plain.filter(|f| f.cautions.is_empty() || f.demand.is_none());
                Section::rows("", vec![("Within".into(), in_a_sentence(plain))])
            } else {
                Section::checks("", within).columns(2)
            });
        }
        let raise = matches!(self.lift.load, Load::RoofRaise { .. });
        let holds = if raise { RAISE_HOLD_POINTS } else { HOLD_POINTS };
        let holds = holds.map(str::to_owned).to_vec();
        if raise {
            sections.push(Section::lines("", [cautions::RAISE_LARGE]).large());
        }
        sections.extend([
            Section::new("", Content::Ticks(holds)).columns(3),
            Section::blanks("", &BLANKS).columns(4),
            Section::lines("", cautions::LIFT_LARGE).large(),
            Section::run(&cautions::LIFT),
        ]);
        sections
    }

    /// The gravest outcome in words; for a lift outside, what it is outside of.
    fn outcome(&self) -> Section {
        let result = self.result;
        let mut words = result.outcome.words();
        if result.outcome == Outcome::Outside {
            let outside = result.findings.iter().filter(|f| f.outcome == Outcome::Outside);
            let mut what: Vec<String> = Vec::new();
            for title in outside.map(|f| f.check.title().to_lowercase()) {
                if !what.contains(&title) {
                    what.push(title);
                }
            }
            words = format!("{words}: {}", what.join(", "));
        }
        let sentence = format!("Lift {}, {}: {words}", result.number, result.title);
        Section::new("", Content::Outcome(result.outcome.clone(), sentence))
    }

    /// What the operator reads at arm's length.
    fn key_figures(&self) -> Section {
        let (result, end) = (self.result, self.result.governing().or(self.result.ends.first()));
        let chart = self.crane_and_chart().1;
        let at = end.map_or(String::new(), |e| e.end.words().to_owned());
        let in_chart = |length: Option<Length>, unit: Option<Unit>| {
            length
                .zip(unit.filter(|u| *u != self.usual()))
                .map_or_else(String::new, |(l, u)| in_unit(l, u))
        };
        let boom = result.boom_m.map(Length::m);
        let limit = self
            .plan
            .limits
            .chart_use
            .get()
            .map_or(UNKNOWN.to_owned(), |l| self.down(Some(l)));
        let (wind, wind_of) = self.wind_stop();
        let figures = [
            ("GROSS LOAD", self.up(end.and_then(|e| e.gross)), at.clone()),
            ("RADIUS", self.up(end.map(|e| e.planned_radius)), at),
            (
                "BOOM",
                shown(boom, self.units, Safe::Nearest),
                in_chart(boom, chart.and_then(|c| c.boom_unit)),
            ),
            (
                "RATING",
                self.down(end.and_then(|e| e.rating)),
                end.and_then(|e| e.row).map_or(String::new(), |row| {
                    format!(
                        "row {}",
                        in_unit(row, chart.and_then(|c| c.radius_unit).unwrap_or(self.usual()))
                    )
                }),
            ),
            ("USE", self.up(result.use_of_chart), format!("limit {limit}")),
            ("STOP ABOVE", stop(result, self.units), "reading, trial lift".into()),
            ("WIND STOP", self.down(wind), wind_of.into()),
        ];
        let figures = figures.map(|(label, value, below)| KeyFigure {
            label: label.into(),
            value,
            below,
        });
        Section::new("", Content::Figures(figures.to_vec()))
    }

    const fn usual(&self) -> Unit {
        match self.units {
            UnitSystem::Us => Unit::Ft,
            UnitSystem::Metric => Unit::M,
        }
    }

    /// A row of the chart: in the reader's unit, and as the chart in the cab has it where that is another.
    fn chart_row(&self, row: Option<Length>, unit: Option<Unit>) -> String {
        let shown = shown(row, self.units, Safe::Nearest);
        match row.zip(unit.filter(|u| *u != self.usual())) {
            Some((row, unit)) => format!("{} = {shown}", in_unit(row, unit)),
            None => shown,
        }
    }

    fn the_box(&self) -> Option<(&HouseBox, &BoxResult)> {
        let Load::Box { id } = &self.lift.load else {
            return None;
        };
        let result = self.assessment.boxes.iter().find(|b| b.id == *id)?;
        Some((self.plan.house_box(id)?, result))
    }

    /// How the weight is known, from whom and when.
    fn weight_source(&self) -> String {
        match &self.lift.load {
            Load::RoofRaise { panel, .. } => {
                format!(
                    "pull at the panel's edge; weight of the panel: {}",
                    said(panel.said.as_ref())
                )
            }
            Load::Bundle { mass, .. } => said(mass.said.as_ref()),
            Load::Box { .. } => self.the_box().map_or(UNKNOWN.into(), |(house, result)| {
                let source = box_weight_source(house, result.planned.map(|p| p.grade));
                let heavy = result.cg_from_picks_m.map(|o| heavy_end(house, o[0], self.units));
                format!("{source}{}", heavy.unwrap_or_default())
            }),
        }
    }

    /// From the bare load to the gross load, line by line.
    fn hook_load(&self) -> Section {
        let load = &self.result.load;
        let kg = |kg: Option<f64>| self.up(kg.map(Mass::kg));
        let known = format!("Load as known, {} + {}", kg(load.bare_kg), self.up(load.contingency));
        let mut rows = Vec::new();
        let end = self.result.governing().or(self.result.ends.first());
        match end.filter(|e| !e.gross_lines.is_empty()) {
            Some(end) => {
                // nothing stowed is no line
                let lines = end.gross_lines.iter().filter(|line| line.mass.to_kg() > 0.0);
                rows.extend(lines.map(|line| {
                    let note = if line.in_chart {
                        ", in the chart already: not counted"
                    } else {
                        ""
                    };
                    (line.name.to_owned(), format!("{}{note}", self.up(Some(line.mass))))
                }));
                if let Some((label, _)) = rows.first_mut() {
                    *label = known;
                }
                rows.push(("GROSS LOAD".into(), self.up(end.gross)));
            }
            None => {
                rows.push((known, kg(load.planned_kg)));
                rows.push(("Rigging below the block".into(), kg(load.rigging_kg)));
                rows.push(("GROSS LOAD".into(), UNKNOWN.into()));
            }
        }
        rows.extend(load.missing.iter().map(|m| ("Missing".to_owned(), m.clone())));
        Section::rows("Hook load", rows)
    }

    fn crane_and_chart(&self) -> (Option<&Crane>, Option<&RatingChart>) {
        let crane = self.plan.crane(&self.plan.set_up.crane);
        let chart = crane.and_then(|c| c.charts.iter().find(|chart| chart.id == self.plan.set_up.chart.0));
        (crane, chart)
    }

    /// Pick and set side by side, as the chart reads them.
    fn chart_reading(&self) -> Section {
        let result = self.result;
        let share = |s: Option<Ratio>, none: &str| s.map_or_else(|| none.to_owned(), |s| self.up(Some(s)));
        let ends = [EndKind::Pick, EndKind::Set].map(|kind| result.ends.iter().find(|e| e.end == kind));
        let row = |label: &str, value: &dyn Fn(&EndResult) -> String| {
            let [pick, set] = ends.map(|end| end.map_or(NONE.to_owned(), value));
            vec![label.to_owned(), pick, set]
        };
        let rating = |e: &EndResult| e.no_rating.clone().unwrap_or_else(|| self.down(e.rating));
        let next = |e: &EndResult| {
            let none = if e.rating.is_some() { "not allowed" } else { UNKNOWN };
            share(e.next_row_use, none)
        };
        let unit = self.crane_and_chart().1.and_then(|c| c.radius_unit);
        let mut rows = vec![row("Radius", &|e| self.up(Some(Length::m(e.radius_m))))];
        if self.plan.limits.radius_allowance.get().is_none_or(|a| a.to_m() != 0.0) {
            let typed = self.plan.limits.radius_allowance.text().trim();
            let label = format!("With {typed} allowance");
            rows.push(row(&label, &|e| self.up(Some(e.planned_radius))));
        }
        rows.extend([
            row("Chart row", &|e| self.chart_row(e.row, unit)),
            row("Rating", &rating),
        ]);
        let gross = ends.map(|end| end.map(|e| self.up(e.gross)));
        if gross[0] != gross[1] && !gross.contains(&None) {
            rows.push(row("Gross load", &|e| self.up(e.gross)));
        }
        rows.extend([
            row("USE", &|e| share(e.use_of_chart, UNKNOWN)),
            row("Next row", &next),
            row("May go out", &|e| self.down(e.may_move)),
        ]);
        if result.default_allowance_use.is_some() || result.default_allowance_not_allowed {
            let used = share(result.default_allowance_use, "not allowed");
            rows.push(vec!["0.3 m more".into(), used, "worst end".into()]);
        }
        let governs = result.governing().map(|e| e.end);
        let name = |kind: EndKind, name: String| {
            if governs == Some(kind) {
                format!("{name}, governs")
            } else {
                name
            }
        };
        let pick = result
            .spot
            .as_ref()
            .map_or("Pick".into(), |spot| format!("Pick {spot}"));
        let (pick, set) = (name(EndKind::Pick, pick), name(EndKind::Set, "Set".into()));
        let head = [("", 0.25), (pick.as_str(), 0.375), (set.as_str(), 0.375)];
        Section::table("Radius and rating", &head, rows)
    }

    /// The gust at which this lift stops: the lower of the crane's for this load and that of tag lines and landing.
    fn wind_stop(&self) -> (Option<Amount>, &'static str) {
        let index = self.plan.lifts.iter().position(|l| l.id == self.lift.id);
        let stop = index.and_then(|i| wind_stops(self.plan, self.assessment).into_iter().nth(i));
        let landing = self.plan.limits.wind_landing.not_negative();
        match (stop, landing) {
            (Some(Ok(stop)), Some(landing)) if landing < stop.speed => {
                (Some(landing.into()), "gust, your landing limit")
            }
            (Some(Ok(stop)), _) => (Some(stop.speed.into()), "gust at the head"),
            _ => {
                let chart = self.crane_and_chart().0.and_then(|c| c.chart_wind.not_negative());
                (chart.map(Amount::Speed), "chart's limit")
            }
        }
    }

    /// Load on an outrigger, pressure under a mat and what the ground bears, with where each comes from.
    fn ground(&self) -> Option<String> {
        let finding = self
            .result
            .findings
            .iter()
            .find(|f| f.check == Check::Ground && f.demand.is_some())?;
        let load = finding.working.first()?;
        let [pressure, bears, _] = finding.compared(self.units)?;
        let load_words = load.result.show(self.units, Safe::Up);
        Some(format!(
            "; {load_words} on an outrigger ({}): {pressure} under a mat, bears {bears}",
            load.source
        ))
    }

    /// What is entered about the crane, the site and the load: a label and its text each.
    fn entries(&self) -> Vec<(String, String)> {
        let mut rows = vec![
            ("Chart".to_owned(), self.chart_words()),
            (
                "Crane stands".to_owned(),
                format!("{}{}", self.stand(), self.ground().unwrap_or_default()),
            ),
            ("Weight from".to_owned(), self.weight_source()),
        ];
        for line in &self.plan.site.power_lines {
            rows.push(("Power line".to_owned(), self.power_line(line)));
        }
        for cable in &self.plan.site.cables {
            let clear = self.down(cable.clear.get());
            let note = if cable.note.is_empty() {
                String::new()
            } else {
                format!("; {}", cable.note)
            };
            rows.push((
                "Cable".to_owned(),
                format!("{}: clear height below {clear}{note}", cable.name),
            ));
        }
        if !self.lift.note.trim().is_empty() {
            rows.push(("Note".into(), self.lift.note.trim().to_owned()));
        }
        rows.extend(self.raise());
        let height = match self.units {
            UnitSystem::Us => "6 in",
            UnitSystem::Metric => "150 mm",
        };
        let stop = stop(self.result, self.units);
        rows.push((
            "Trial lift".into(),
            format!("{height} and hold: level? brakes? floats? {DOWN} above {stop}, {IF}"),
        ));
        rows
    }

    /// What a roof raise asks over its arc.
    fn raise(&self) -> Vec<(String, String)> {
        let Load::RoofRaise { arc: entered, .. } = &self.lift.load else {
            return Vec::new();
        };
        let Some(Ok(arc)) = arc_of(self.plan, self.lift) else {
            return vec![("Arc".into(), UNKNOWN.into())];
        };
        let mass = |n: f64| self.up(Some(Force::n(n.abs()).as_mass()));
        let angle = |rad: f64| Amount::Angle(Angle::rad(rad)).show(self.units, Safe::Nearest);
        let mut text = format!("{} to {} from the horizontal", angle(arc.from_rad), angle(arc.to_rad));
        if let Some(worst) = arc.largest_pull() {
            text = format!(
                "{text}; largest pull {} at {}; hinge carries {} up, {} sideways; hook within {} of plumb over the edge",
                mass(worst.pull_n),
                angle(worst.angle_rad),
                mass(worst.hinge_up_n),
                mass(worst.hinge_along_n),
                shown(entered.hook_off.get(), self.units, Safe::Down)
            );
        }
        let restraint = match entered.restraint.trim() {
            "" => "nothing entered".to_owned(),
            by => by.to_owned(),
        };
        vec![("Arc".into(), text), ("Held back by".into(), restraint)]
    }

    fn chart_words(&self) -> String {
        let chart = self.crane_and_chart().1;
        chart.map_or(UNKNOWN.into(), |chart| {
            format!("{}; from {}", chart.name, said(Some(&chart.said)))
        })
    }

    /// Where the slew centre is: its pad, and two foundation corners.
    fn stand(&self) -> String {
        let crane = &self.assessment.crane;
        let tie = |(corner, metres): &(usize, f64)| {
            let [east, north] = self.plan.site.foundation.get(*corner)?.metres()?;
            let [away, east, north] = [*metres, east, north].map(|m| tape(m, self.units));
            Some(format!("{away} to the corner at {east} east, {north} north"))
        };
        let near = |p: [f64; 2]| crane.at_m.is_some_and(|at| distance_m(at, p) < 0.05);
        let pad = self.plan.site.pads.iter().find(|pad| pad.at.metres().is_some_and(near));
        let mut parts: Vec<String> = pad.map(|pad| format!("pad {}", pad.id)).into_iter().collect();
        parts.extend(crane.ties.iter().filter_map(tie));
        if crane.at_m.is_none() {
            parts.push(UNKNOWN.into());
        }
        parts.join("; ")
    }

    fn power_line(&self, line: &crate::plan::PowerLine) -> String {
        let voltage = match line.kilovolts.trim() {
            "" => "voltage not known".into(),
            kilovolts => format!("{kilovolts} kV as told"),
        };
        let confirmed = match line.confirmed.trim() {
            "" => "NOT CONFIRMED".into(),
            who => format!("confirmed: {who}"),
        };
        let height = self.down(line.height.get());
        format!(
            "{}: {voltage}, {confirmed}; lowest wire {height} up; treat as live",
            line.name
        )
    }

    /// The checks that must be read, gravest first, and those within: of several of one sort the one nearest its limit.
    fn checks(&self) -> (Vec<CheckRow>, Vec<CheckRow>) {
        let findings = &self.result.findings;
        let grave = findings.iter().filter(|f| !f.outcome.is_within());
        let mut pressing: Vec<CheckRow> = alike(grave).iter().map(|alike| self.pressing(alike)).collect();
        let mut plain = Vec::new();
        for of_sort in by_sort(findings.iter().filter(|f| f.outcome.is_within())) {
            // what has no figures to compare carries its caution in the list of those within
            let rows = if of_sort[0].cautions.is_empty() || of_sort[0].demand.is_none() {
                &mut plain
            } else {
                &mut pressing
            };
            rows.extend(self.nearest(&of_sort));
        }
        (pressing, plain)
    }

    /// The row of findings that say the same of several pieces: the worst of them in full, the others by name.
    fn pressing(&self, alike: &[&Finding]) -> CheckRow {
        let worse = |a: &&Finding, b: &&Finding| a.ratio.unwrap_or(-1.0) < b.ratio.unwrap_or(-1.0);
        let finding = alike.iter().copied().reduce(|a, b| if worse(&a, &b) { b } else { a });
        let finding = finding.expect("findings are told together with others like them, never none");
        let mut what = format!("{}, {}", finding.check.title(), finding.subject);
        // a pick among pieces says that it is one
        let named = |f: &&Finding| match f.check {
            check if check == finding.check => f.subject.clone(),
            check => format!("{}, {}", check.title(), f.subject),
        };
        let others: Vec<String> = alike
            .iter()
            .copied()
            .filter(|f| *f != finding)
            .map(|f| named(&f))
            .collect();
        match others.len() {
            0 => {}
            n if n > NAMED && alike.iter().all(|f| is_on_the_path(f.check)) => {
                what = format!("{what}; and {n} more pieces and picks, each on the rigging card");
            }
            _ => what = format!("{what}; also {}", others.join("; ")),
        }
        let why = match &finding.outcome {
            // said in the sentence on top already
            outcome if *outcome == self.result.outcome => None,
            Outcome::NotChecked { missing: why } | Outcome::Held { until: why } => Some(why),
            Outcome::Within | Outcome::Outside => None,
        };
        let mut told: Vec<&String> = Vec::new();
        for text in why.into_iter().chain(alike.iter().flat_map(|f| &f.cautions)) {
            if !told.contains(&text) {
                told.push(text);
                what = format!("{what}: {text}");
            }
        }
        CheckRow {
            what,
            figures: finding.compared(self.units),
            outcome: finding.outcome.clone(),
        }
    }

    /// The row of several findings of one sort: that of the one nearest its limit, with what they caution of.
    fn nearest(&self, of_sort: &[&Finding]) -> Option<CheckRow> {
        let nearest = of_sort
            .iter()
            .max_by(|a, b| a.ratio.unwrap_or(-1.0).total_cmp(&b.ratio.unwrap_or(-1.0)))?;
        let sort = sort_of(nearest);
        let mut what = match (nearest.check, of_sort.len()) {
            (Check::Gear | Check::Pick, n) if n > 1 => {
                let picks = of_sort.iter().any(|f| f.check == Check::Pick);
                let also = if picks {
                    format!(" / {}", Check::Pick.title())
                } else {
                    String::new()
                };
                format!("{sort}{also}, nearest of {n}: {}", nearest.subject)
            }
            (_, n) if n > 1 => format!("{sort}, nearest of {n}"),
            _ => sort,
        };
        for text in &nearest.cautions {
            what = format!("{what}: {text}");
        }
        Some(CheckRow {
            what,
            figures: nearest.compared(self.units),
            outcome: Outcome::Within,
        })
    }
}

/// Checks that are within in one sentence: each by name, with the share of the limit of the one nearest to it, and what they caution of.
fn in_a_sentence<'a>(within: impl Iterator<Item = &'a Finding>) -> String {
    let mut words: Vec<(&str, f64, Vec<&str>)> = Vec::new();
    for finding in within {
        let title = finding.check.title();
        let at = words.iter().position(|w| w.0 == title).unwrap_or_else(|| {
            words.push((title, -1.0, Vec::new()));
            words.len() - 1
        });
        words[at].1 = words[at].1.max(finding.ratio.unwrap_or(-1.0));
        if finding.demand.is_none() {
            words[at].2.extend(finding.cautions.iter().map(String::as_str));
        }
    }
    let one = |(title, ratio, cautions): &(&str, f64, Vec<&str>)| {
        let mut text = (*title).to_owned();
        if *ratio >= 0.0 {
            text = format!(
                "{text} {}",
                Amount::Share(Ratio::of(*ratio)).show(UnitSystem::Metric, Safe::Up)
            );
        }
        for caution in cautions {
            text = format!("{text}: {caution}");
        }
        text
    };
    words.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// Findings of one sort with the same cautions together, in the order of their first.
fn by_sort<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Vec<&'a Finding>> {
    let mut sorts: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        let alike = |of_sort: &&mut Vec<&Finding>| {
            sort_of(of_sort[0]) == sort_of(finding) && of_sort[0].cautions == finding.cautions
        };
        match sorts.iter_mut().find(alike) {
            Some(of_sort) => of_sort.push(finding),
            None => sorts.push(vec![finding]),
        }
    }
    sorts
}

/// So many pieces are named on a lift sheet beside the worst; all of them stand on the rigging card.
const NAMED: usize = 2;

/// Findings on pieces and picks, on eaves and on legs that come out alike, together; every other one by itself.
fn alike<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Vec<&'a Finding>> {
    let of_rig = |check| is_on_the_path(check) || matches!(check, Check::Eave | Check::LegAngle);
    let mut groups: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings {
        let same = |group: &&mut Vec<&Finding>| {
            let first = group[0];
            let same_check =
                first.check == finding.check || is_on_the_path(first.check) && is_on_the_path(finding.check);
            of_rig(first.check) && same_check && first.outcome == finding.outcome
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(finding),
            None => groups.push(vec![finding]),
        }
    }
    groups
}

/// Which findings stand for each other: those of one check, at the pick and at the set apart.
fn sort_of(finding: &Finding) -> String {
    // the picks are the last of the path
    let check = if is_on_the_path(finding.check) {
        Check::Gear
    } else {
        finding.check
    };
    let title = check.title();
    let end = [EndKind::Pick, EndKind::Set]
        .into_iter()
        .find(|end| finding.subject.starts_with(end.words()));
    end.map_or_else(|| title.to_owned(), |end| format!("{title} {}", end.words()))
}

/// Which end is heavy, in words that can be seen on the box.
fn heavy_end(house: &HouseBox, along_m: f64, units: UnitSystem) -> String {
    let heavy = name_of(&house.ends, usize::from(along_m > 0.0), "end");
    format!("; heavy: {heavy} (CG {} off centre)", tape(along_m.abs(), units))
}

/// A length in the unit of a chart, as the chart has it.
fn in_unit(length: Length, unit: Unit) -> String {
    let figure = number(unit.from_si(length.to_m()), 2, Safe::Nearest);
    let figure = if figure.contains('.') {
        figure.trim_end_matches('0').trim_end_matches('.')
    } else {
        &figure
    };
    format!("{figure} {}", unit.symbol())
}

/// When a trial lift goes down again.
const DOWN: &str = "DOWN, and find out why, if the reading is";
const IF: &str = "a float moves, the box hangs out of level, the radius is not the one above, wind is at its limit, or anyone says stop";

/// Where a box's weight comes from.
fn box_weight_source(house: &HouseBox, grade: Option<WeightGrade>) -> String {
    let ticket = || {
        let ticket = house.ticket.as_ref();
        let date = ticket
            .map(|t| t.date.trim())
            .filter(|d| !d.is_empty())
            .unwrap_or("no date");
        let who = ticket
            .and_then(|t| t.mass.said.as_ref())
            .map(|s| format!(", {}", s.who))
            .unwrap_or_default();
        format!("scale ticket of {date}{who}")
    };
    match grade {
        Some(WeightGrade::WeighedAfterLoading) => format!("{}, weighed complete", ticket()),
        Some(WeightGrade::WeighedEarly) => format!("{}, weighed before loading ended", ticket()),
        Some(WeightGrade::TakeOff) => format!("take-off, last item added {}", house.last_item_added),
        Some(WeightGrade::PerArea) => "estimated per floor area, neither taken off nor weighed".into(),
        None => UNKNOWN.into(),
    }
}
