//! The lift sheet: everything the operator and the crew need for one lift, on one page.

use super::{CAUTION, Section, Sheet, cautions, footer, header};
use crate::check::{Amount, Check, Finding};
use crate::crane::RatingChart;
use crate::drawing::{Paper, chart_view, plan_view, tape};
use crate::evaluate::{
    Assessment, BoxResult, DEFAULT_RADIUS_ALLOWANCE_M, EndKind, EndResult, LiftResult, leg_of, member_name,
};
use crate::plan::{Crane, GearKind, HouseBox, Lift, Load, Plan};
use crate::quantity::{Angle, Length, Mass, Ratio, Safe, Said, Unit, UnitSystem, feet_inches, number};
use crate::takeoff::WeightGrade;

/// Room of a drawing on a lift sheet: two stand side by side on Letter and A4.
const DRAWING: Paper = Paper {
    width_mm: 93.0,
    height_mm: 58.0,
};
/// What stands where nothing is known.
const UNKNOWN: &str = "not known";
/// What stands where nothing belongs.
const NONE: &str = "—";

/// The sheet of the lift of that index; `None` where there is no such lift.
pub fn lift_sheet(plan: &Plan, assessment: &Assessment, index: usize) -> Option<Sheet> {
    let (lift, result) = (plan.lifts.get(index)?, assessment.lifts.get(index)?);
    let writer = Writer {
        plan,
        assessment,
        lift,
        result,
        units: assessment.units,
    };
    let sections = [
        Some(writer.outcome()),
        Some(writer.hook_load()),
        writer.centre_of_gravity(),
        Some(writer.crane()),
        Some(writer.radius_and_rating()),
        Some(writer.pieces()),
        writer.legs(),
        Some(writer.wires_and_wind()),
        Some(writer.trial_lift()),
        Some(Section::lines("Hold points", HOLD_POINTS)),
        Some(Section::drawing(plan_view(plan, assessment, Some(index), DRAWING))),
        Some(Section::drawing(chart_view(plan, assessment, index, DRAWING))),
        Some(Section::blanks("Measured on site", &MEASURED)),
        Some(Section::blanks("Names and signatures", &ROLES)),
        Some(Section::blanks("Emergency", &EMERGENCY)),
        Some(Section::lines("Read aloud", cautions::LIFT_LARGE).large()),
        Some(Section::lines("Cautions", cautions::LIFT)),
    ];
    Some(Sheet {
        title: format!("Lift {} of {}, {}", result.number, plan.lifts.len(), result.title),
        header: header(plan, assessment),
        caution: CAUTION.into(),
        sections: sections.into_iter().flatten().collect(),
        footer: footer(plan, (index + 1, plan.lifts.len())),
    })
}

const HOLD_POINTS: [&str; 6] = [
    "Crane on site is the one above: serial number, counterweight slabs, boom, outriggers, chart in the cab",
    "Floats on mats, level, tail swing barred off",
    "Bolts and straps to the carrier off",
    "Picks, pins, shackles and softeners seen by the rigger",
    "Wires: word of the utility in hand",
    "Toolbox talk held, operator has read this lift back",
];
const MEASURED: [&str; 6] = [
    "Radius at the pick",
    "Radius at the set",
    "Reading at the trial lift",
    "Gust",
    "Tilt along, across",
    "Crane centre to the two corners",
];
const ROLES: [&str; 5] = [
    "Lift director",
    "Operator",
    "Rigger",
    "Signal person",
    "Radio channel or hand signals",
];
const EMERGENCY: [&str; 4] = [
    "Address for the ambulance, in words",
    "Hospital",
    "First-aider",
    "Utility's emergency number",
];

/// The reading at which the trial lift stops, kg: nominal gross × 1.05 or the printed gross, whichever is less.
///
/// `gross_kg` the gross load of the sheet, `planned_kg` the load in it with its contingency, `bare_kg` the load without.
///
/// Source: planning rule of this tool; 5 % is common practice, no source.
pub fn trial_stop_kg(gross_kg: f64, planned_kg: f64, bare_kg: f64) -> f64 {
    let nominal_kg = gross_kg - planned_kg + bare_kg;
    gross_kg.min(nominal_kg * 1.05)
}

/// The stop of a lift's trial, at the pick where it has one.
pub(super) fn stop(result: &LiftResult) -> Option<Mass> {
    let end = result
        .ends
        .iter()
        .find(|e| e.end == EndKind::Pick)
        .or(result.ends.first())?;
    let kg = trial_stop_kg(end.gross?.to_kg(), result.load.planned_kg?, result.load.bare_kg?);
    Some(Mass::kg(kg))
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
    fn nearest(&self, amount: Option<impl Into<Amount>>) -> String {
        shown(amount, self.units, Safe::Nearest)
    }

    /// A length of the chart: in the reader's unit, and as the chart in the cab has it where that is another.
    fn in_chart(&self, length: Option<Length>, unit: Option<Unit>) -> String {
        let shown = self.nearest(length);
        let usual = if self.units == UnitSystem::Us {
            Unit::Ft
        } else {
            Unit::M
        };
        match length.zip(unit.filter(|u| *u != usual)) {
            Some((length, unit)) => {
                let figure = number(unit.from_si(length.to_m()), 2, Safe::Nearest);
                let figure = figure.trim_end_matches('0').trim_end_matches('.');
                format!("{shown} = {figure} {}", unit.symbol())
            }
            None => shown,
        }
    }

    /// The gravest outcome in words, every finding that is not within, and every caution.
    fn outcome(&self) -> Section {
        let result = self.result;
        let mut lines = vec![format!(
            "Lift {}, {}: {}",
            result.number,
            result.title,
            result.outcome.words()
        )];
        lines.extend(
            result
                .findings
                .iter()
                .filter(|f| f.outcome.gravity() > 0)
                .map(Finding::sentence),
        );
        let cautions = result
            .findings
            .iter()
            .flat_map(|f| f.cautions.iter().map(move |c| (f, c)));
        lines.extend(cautions.map(|(f, caution)| format!("{}, {}: {caution}", f.check.title(), f.subject)));
        Section::lines("Outcome", lines).large()
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
                box_weight_source(house, result.planned.map(|p| p.grade))
            }),
        }
    }

    /// From the bare load to the gross load, line by line.
    fn hook_load(&self) -> Section {
        let load = &self.result.load;
        let kg = |kg: Option<f64>| self.up(kg.map(Mass::kg));
        let known = format!("{}; {}", kg(load.bare_kg), self.weight_source());
        let mut rows = vec![
            ("Load as known".to_owned(), known),
            ("Contingency".to_owned(), self.up(load.contingency)),
        ];
        let end = self.result.governing().or(self.result.ends.first());
        match end.filter(|e| !e.gross_lines.is_empty()) {
            Some(end) => {
                rows.extend(end.gross_lines.iter().map(|line| {
                    let note = if line.in_chart {
                        ", in the chart already: not counted"
                    } else {
                        ""
                    };
                    (line.name.to_owned(), format!("{}{note}", self.up(Some(line.mass))))
                }));
                rows.push(("GROSS LOAD".into(), self.up(end.gross)));
            }
            None => {
                rows.push(("Load with its contingency".into(), kg(load.planned_kg)));
                rows.push(("Rigging below the block".into(), kg(load.rigging_kg)));
                rows.push(("GROSS LOAD".into(), UNKNOWN.into()));
            }
        }
        rows.extend(load.missing.iter().map(|m| ("Missing".to_owned(), m.clone())));
        Section::rows("Hook load", rows)
    }

    fn centre_of_gravity(&self) -> Option<Section> {
        let (house, result) = self.the_box()?;
        let place = |i: usize| result.cg_m.map_or(UNKNOWN.into(), |cg| tape(cg[i], self.units));
        let mut rows = vec![
            (format!("Along, from the {}", name_of(&house.ends, 0, "end")), place(0)),
            (
                format!("Across, from the {}", name_of(&house.sides, 0, "side")),
                place(1),
            ),
            ("Up, from the underside of the floor".to_owned(), place(2)),
        ];
        if let Some([along, _]) = result.cg_from_picks_m {
            let heavy = name_of(&house.ends, usize::from(along > 0.0), "end");
            let away = tape(along.abs(), self.units);
            rows.push((
                "Heavy end".into(),
                format!("{heavy}: {away} from the middle of the picks"),
            ));
        }
        Some(Section::rows("Centre of gravity", rows))
    }

    fn crane_and_chart(&self) -> (Option<&Crane>, Option<&RatingChart>) {
        let crane = self.plan.crane(&self.plan.set_up.crane);
        let chart = crane.and_then(|c| c.charts.iter().find(|chart| chart.id == self.plan.set_up.chart.0));
        (crane, chart)
    }

    fn crane(&self) -> Section {
        let (crane, chart) = self.crane_and_chart();
        let entered = |text: Option<&str>| text.filter(|t| !t.trim().is_empty()).unwrap_or(UNKNOWN).to_owned();
        let setting = chart.map(|c| &c.configuration);
        let rows = [
            ("Crane", entered(crane.map(|c| c.name.as_str()))),
            ("Chart", entered(chart.map(|c| c.name.as_str()))),
            ("Chart from", chart.map_or(UNKNOWN.into(), |c| said(Some(&c.said)))),
            ("Counterweight", entered(setting.map(|s| s.counterweight.text()))),
            ("Outriggers", entered(setting.map(|s| s.outriggers.as_str()))),
            ("Sector", entered(setting.map(|s| s.sector.as_str()))),
            (
                "Boom",
                self.in_chart(self.result.boom_m.map(Length::m), chart.and_then(|c| c.boom_unit)),
            ),
            ("Parts of line", crane.map_or(UNKNOWN.into(), |c| c.parts.to_string())),
            ("Crane centre", self.ties()),
        ];
        Section::rows("Crane", rows.map(|(label, value)| (label.to_owned(), value)).to_vec())
    }

    /// Where the slew centre is, from two foundation corners.
    fn ties(&self) -> String {
        let tie = |(corner, metres): &(usize, f64)| {
            let [east, north] = self.plan.site.foundation.get(*corner)?.metres()?;
            let [away, east, north] = [*metres, east, north].map(|m| tape(m, self.units));
            Some(format!("{away} to the corner at {east} east, {north} north"))
        };
        let ties: Vec<String> = self.assessment.crane.ties.iter().filter_map(tie).collect();
        if ties.is_empty() {
            UNKNOWN.into()
        } else {
            ties.join("; ")
        }
    }

    /// Pick and set side by side.
    fn radius_and_rating(&self) -> Section {
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
        let from = result.spot.as_ref().map_or(NONE.to_owned(), |s| format!("pick {s}"));
        let mut rows = vec![
            vec!["From, to".to_owned(), from, "its place".to_owned()],
            row("Radius on the plan", &|e| self.up(Some(Length::m(e.radius_m)))),
            row("Radius with allowance", &|e| self.up(Some(e.planned_radius))),
            row("Chart row read", &|e| {
                self.in_chart(e.row, self.crane_and_chart().1.and_then(|c| c.radius_unit))
            }),
            row("Rating", &rating),
            row("Gross load", &|e| self.up(e.gross)),
            row("USE OF THE RATING", &|e| share(e.use_of_chart, UNKNOWN)),
            row("Use at the next row", &next),
            row("Boom head needed", &|e| self.up(e.head_needed)),
            row("Boom head there", &|e| self.down(e.head)),
            row("Boom to box, smallest gap", &|e| self.down(e.boom_gap)),
            row("May move farther out", &|e| self.down(e.may_move)),
        ];
        let governs = result.governing().map_or(UNKNOWN.into(), |e| e.end.words().to_owned());
        rows.push(vec!["Governs".into(), governs, String::new()]);
        if result.default_allowance_use.is_some() || result.default_allowance_not_allowed {
            let allowance = self.up(Some(Length::m(DEFAULT_RADIUS_ALLOWANCE_M)));
            let used = share(result.default_allowance_use, "not allowed");
            rows.push(vec![format!("Use with {allowance} allowance"), used, String::new()]);
        }
        Section::table("Radius and rating", &["", "Pick", "Set"], rows)
    }

    /// Every piece on the hook.
    fn pieces(&self) -> Section {
        let rig = self.plan.rig(&self.lift.rig);
        let rows = rig.into_iter().flat_map(|r| &r.pieces).map(|piece| {
            let item = self.plan.gear_item(&piece.gear);
            // tag lines and softeners carry nothing and have no tag
            let idle = item.is_some_and(|g| g.kind == GearKind::Other && g.rating.is_blank());
            let legible = match item {
                _ if idle => NONE,
                Some(item) if item.tag_legible => "yes",
                Some(_) => "NO",
                None => UNKNOWN,
            };
            let rating = self.down(item.and_then(|g| g.rating.not_negative()));
            vec![
                format!("{} × {}", piece.count, piece.gear),
                item.map_or_else(|| UNKNOWN.to_owned(), |g| g.name.clone()),
                if idle { NONE.to_owned() } else { rating },
                legible.to_owned(),
            ]
        });
        let head = ["Piece", "What", "Rating of one", "Tag legible"];
        Section::table("Rigging on the hook", &head, rows.collect())
    }

    /// Each leg with length, angle, tension and use; then the weakest piece.
    fn legs(&self) -> Option<Section> {
        let (house, _) = self.the_box()?;
        let hung = self.result.rig.hung.as_ref()?;
        let rig = self.plan.rig(&self.lift.rig)?;
        let gear = || self.result.findings.iter().filter(|f| f.check == Check::Gear);
        let loads = |finding: Option<&Finding>| {
            let percent = |r: f64| format!("{} %", number(r * 100.0, 1, Safe::Up));
            [
                self.up(finding.and_then(|f| f.demand)),
                self.down(finding.and_then(|f| f.limit)),
                finding.and_then(|f| f.ratio).map_or(UNKNOWN.into(), percent),
            ]
        };
        let mut rows: Vec<Vec<String>> = Vec::new();
        for member in &hung.members {
            let name = member_name(house, member.kind);
            let finding = gear().find(|f| f.subject.starts_with(&name));
            let sling = leg_of(rig, member.kind).map_or(UNKNOWN.into(), |leg| match leg.links {
                0 => leg.sling.to_string(),
                links => format!("{} + {links} links of {}", leg.sling, leg.shortener),
            });
            let slack = if member.slack { ", SLACK" } else { "" };
            let length = tag(member.length_m, self.units);
            let angle = self.down(Some(Angle::rad(member.angle_rad)));
            let mut row = vec![format!("{name}{slack}"), sling, length, angle];
            row.extend(loads(finding));
            rows.push(row);
        }
        let weakest = gear().max_by(|a, b| a.ratio.unwrap_or(0.0).total_cmp(&b.ratio.unwrap_or(0.0)));
        if let Some(weakest) = weakest.filter(|f| f.ratio.is_some()) {
            let mut row = vec![
                format!("WEAKEST: {}", weakest.subject),
                NONE.into(),
                NONE.into(),
                NONE.into(),
            ];
            row.extend(loads(Some(weakest)));
            rows.push(row);
        }
        let head = [
            "Leg",
            "Sling",
            "Length",
            "Angle from the horizontal",
            "Tension",
            "Allowed",
            "Use",
        ];
        Some(Section::table("Legs", &head, rows))
    }

    fn wires_and_wind(&self) -> Section {
        let site = &self.plan.site;
        let mut rows: Vec<(String, String)> = Vec::new();
        for line in &site.power_lines {
            let voltage = match line.kilovolts.trim() {
                "" => "voltage not known".into(),
                kilovolts => format!("{kilovolts} kV as told"),
            };
            let confirmed = match line.confirmed.trim() {
                "" => "NOT CONFIRMED".into(),
                who => format!("confirmed: {who}"),
            };
            let height = self.down(line.height.get());
            let text = format!("{voltage}, {confirmed}; lowest wire up {height}. Treat as live");
            rows.push((line.name.clone(), text));
        }
        let wires = self.result.findings.iter().filter(|f| f.check == Check::PowerLine);
        rows.extend(wires.map(|f| ("Wires".to_owned(), f.outcome.words())));
        for cable in &site.cables {
            let clear = self.down(cable.clear.get());
            rows.push((
                cable.name.clone(),
                format!("clear height below {clear}; {}", cable.note),
            ));
        }
        let wind = self
            .crane_and_chart()
            .0
            .and_then(|c| c.chart_wind.not_negative())
            .map(Amount::Speed);
        let wind = format!(
            "{}; the lower of the operator's and the maker's limit holds",
            self.down(wind)
        );
        rows.push(("Wind up to which the chart holds".into(), wind));
        if !self.lift.note.is_empty() {
            rows.push(("Note".into(), self.lift.note.clone()));
        }
        Section::rows("Wires and wind", rows)
    }

    fn trial_lift(&self) -> Section {
        let height = match self.units {
            UnitSystem::Us => "6 in",
            UnitSystem::Metric => "150 mm",
        };
        let rows = [
            (
                "Lift",
                format!("{height} and hold: level? brakes? floats? reading against this sheet"),
            ),
            ("STOP if the reading is above", self.down(stop(self.result))),
            ("Abort", ABORT.to_owned()),
        ];
        let rows = rows.map(|(label, value)| (label.to_owned(), value)).to_vec();
        Section::rows("Trial lift", rows).large()
    }
}

const ABORT: &str = "reading above the stop, a float moves, the box hangs out of level, the radius is not the one above, \
                     wind at its limit, or anyone says stop: down, and find out why";

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
        None => UNKNOWN.into(),
    }
}
