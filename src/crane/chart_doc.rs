//! A rating chart as the plan keeps it: every cell as it was typed or pasted, with its source.

use super::chart::RatingTable;
use super::chart_check::{self, ChartIssue};
use crate::quantity::{DecimalMark, Entry, Length, Mass, Quantity as _, Reading, Said, Unit, read};

/// One rating chart: one crane in one configuration.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RatingChart {
    /// What lifts name it by; whoever adds the chart to a plan gives it.
    pub id: String,
    /// As people call it.
    pub name: String,
    /// The set-up it holds for.
    pub configuration: Configuration,
    /// Where the chart comes from.
    pub said: Said,
    /// Unit of a bare radius; `None` until somebody says.
    pub radius_unit: Option<Unit>,
    /// Unit of a bare boom length; `None` until somebody says.
    pub boom_unit: Option<Unit>,
    /// Unit of a bare capacity; `None` until somebody says.
    pub capacity_unit: Option<Unit>,
    /// The sign before the decimals.
    pub decimal: DecimalMark,
    /// Boom lengths, left to right.
    pub booms: Vec<String>,
    /// Rows, one per radius.
    pub rows: Vec<ChartRow>,
    /// Lines of text that belong to the chart.
    pub footnotes: Vec<String>,
    /// What the printed capacities already have taken off.
    pub includes: Deductions,
    /// Cells that a person compared with the printed chart though they look odd.
    pub confirmed: Vec<ConfirmedCell>,
    /// Closed against edits.
    pub locked: bool,
}

/// The set-up a chart holds for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Configuration {
    /// Counterweight on the crane.
    pub counterweight: Entry<Mass>,
    /// Outrigger extension as the chart states it: "100 % (7.0 x 7.0 m)".
    pub outriggers: String,
    /// What the crane stands on.
    pub support: Support,
    /// The working sector as the chart states it: "360 deg", "over rear 120 deg".
    pub sector: String,
    /// The most that any one outrigger carries, from the maker's sheet for this configuration.
    pub outrigger_load: Entry<Mass>,
    /// Distance between outrigger pads front to back; blank: the crane's.
    pub base_length: Entry<Length>,
    /// Distance between outrigger pads across; blank: the crane's.
    pub base_width: Entry<Length>,
    /// Weight of the crane rigged so, counterweight and boom included.
    pub rigged: Entry<Mass>,
    /// What the ratings are limited by, as the chart marks it: "structure", "stability".
    pub rated_by: String,
}

/// What the crane stands on while it lifts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Support {
    /// Outriggers.
    #[default]
    Outriggers,
    /// Its tyres, standing or picking and carrying.
    Rubber,
    /// Crawler tracks.
    Crawlers,
}

/// One row of a chart.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ChartRow {
    /// The radius as typed.
    pub radius: String,
    /// The capacities as typed, one per boom length; a missing or blank one is "not allowed".
    pub cells: Vec<String>,
}

/// What the printed capacities already have taken off; all `false` is a gross chart, from which everything comes off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Deductions {
    /// Hook block and ball.
    pub hook_block: bool,
    /// Hoist rope hanging below the boom head.
    pub hanging_rope: bool,
    /// Slings, shackles, spreaders.
    pub rigging: bool,
    /// Stowed jib, auxiliary head and the like.
    pub stowed_attachments: bool,
}

/// A cell that a person compared with the printed chart.
///
/// It holds the typed texts: when one of them changes, the confirmation no longer applies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ConfirmedCell {
    /// The row's radius as typed.
    pub radius: String,
    /// The column's boom length as typed.
    pub boom: String,
    /// The capacity as typed.
    pub cell: String,
}

impl RatingChart {
    /// The numbers of the chart, and everything in it that somebody has to look at.
    ///
    /// There is no table while a unit is missing or the rows and columns cannot be told apart. A single odd or
    /// unreadable cell leaves a table that refuses to read it.
    pub fn table(&self) -> (Option<RatingTable>, Vec<ChartIssue>) {
        chart_check::table(self)
    }

    /// The typed text of a cell; empty where the row ends before it.
    pub fn cell(&self, row: usize, column: usize) -> &str {
        self.rows
            .get(row)
            .and_then(|r| r.cells.get(column))
            .map_or("", String::as_str)
    }

    /// Whether a person confirmed this cell as it stands now.
    pub fn is_confirmed(&self, row: usize, column: usize) -> bool {
        let (Some(r), Some(boom)) = (self.rows.get(row), self.booms.get(column)) else {
            return false;
        };
        let cell = self.cell(row, column);
        self.confirmed
            .iter()
            .any(|c| c.radius == r.radius && c.boom == *boom && c.cell == cell)
    }

    /// Notes that a person compared this cell with the printed chart.
    pub fn confirm(&mut self, row: usize, column: usize) {
        let (Some(r), Some(boom)) = (self.rows.get(row), self.booms.get(column)) else {
            return;
        };
        let confirmed = ConfirmedCell {
            radius: r.radius.clone(),
            boom: boom.clone(),
            cell: self.cell(row, column).to_owned(),
        };
        if !self.confirmed.contains(&confirmed) {
            self.confirmed.push(confirmed);
        }
    }
}

/// What a cell of a chart says.
#[derive(Clone, Debug, PartialEq)]
pub enum CellReading {
    /// Blank, a dash, "n/a", a lone footnote mark, zero: this combination is not allowed.
    NotAllowed,
    /// A capacity.
    Capacity(Mass),
    /// Neither: the message says why.
    Wrong(String),
}

/// Reads a capacity cell; footnote marks around the number are left aside.
pub fn read_cell(text: &str, unit: Unit, mark: DecimalMark) -> CellReading {
    let (number, _) = split_marks(text);
    if is_not_allowed(number) {
        return CellReading::NotAllowed;
    }
    match read::<Mass>(number, unit, mark) {
        Reading::Blank => CellReading::NotAllowed,
        Reading::Is(mass) if mass.si() > 0.0 => CellReading::Capacity(mass),
        Reading::Is(mass) if mass.si() == 0.0 => CellReading::NotAllowed,
        Reading::Is(_) => CellReading::Wrong(format!("read \"{number}\": a capacity is not negative")),
        Reading::Ask(message) | Reading::Wrong(message) => CellReading::Wrong(message),
    }
}

/// The number without the footnote marks before and behind it, and the marks: "57,300*" is "57,300" and "*".
pub fn split_marks(text: &str) -> (&str, String) {
    const MARKS: [char; 17] = [
        '*', '†', '‡', '§', '¶', '^', '¹', '²', '³', '⁰', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹', '\u{fe0f}',
    ];
    let mut marks = String::new();
    let mut rest = text.trim();
    loop {
        let bare = rest.trim_start_matches(MARKS);
        let shorter = bare.trim_end_matches(MARKS);
        marks.push_str(&rest[..rest.len() - bare.len()]);
        marks.push_str(&bare[shorter.len()..]);
        let shorter = shorter.trim();
        let (number, bracket) = split_bracket(shorter);
        marks.push_str(bracket);
        if number.len() == rest.len() {
            return (rest, marks);
        }
        rest = number;
    }
}

/// A short footnote number in brackets at the end: "57,300 (1)", "57,300 2)".
fn split_bracket(text: &str) -> (&str, &str) {
    const LONGEST: usize = 4;
    let Some(inner) = text.strip_suffix([')', ']']) else {
        return (text, "");
    };
    match inner.rfind(['(', '[', ' ']) {
        Some(start) if text.len() - start <= LONGEST => (text[..start].trim_end(), text[start..].trim_start()),
        _ => (text, ""),
    }
}

fn is_not_allowed(number: &str) -> bool {
    let only_signs = number
        .chars()
        .all(|c| matches!(c, '-' | '−' | '‐' | '‑' | '–' | '—' | '―' | '.' | '…' | '/' | ' '));
    only_signs
        || ["n/a", "n.a.", "na", "x", "not allowed", "not permitted"]
            .iter()
            .any(|t| number.eq_ignore_ascii_case(t))
}
