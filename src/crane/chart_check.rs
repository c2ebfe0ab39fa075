//! What somebody has to look at in a rating chart before it is used.

use super::chart::RatingTable;
use super::chart_doc::{CellReading, RatingChart, Support, read_cell, split_marks};
use crate::quantity::{Length, Mass, Readable, Reading, Unit, read};
use crate::reach::Cell;
use serde::Serialize;

/// Shortest and longest boom length taken for one, in metres: beyond them the columns are probably something else.
///
/// Judgement, no source: the main booms of hired cranes lie well inside.
pub(crate) const BOOM_LENGTHS_M: (f64, f64) = (6.0, 100.0);

/// How near two radii count as the same, relative.
const SAME: f64 = 1e-9;

/// What is odd about a chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum IssueKind {
    /// Nobody has said a unit.
    MissingUnit,
    /// No rows or no columns.
    Empty,
    /// The column heads are no boom lengths.
    BoomHeads,
    /// A radius cannot be read.
    Radius,
    /// A radius stands in the table twice.
    RepeatedRadius,
    /// The radii neither rise nor fall all the way.
    Unsorted,
    /// A row has more cells than there are boom lengths.
    LongRow,
    /// A capacity cannot be read.
    Unreadable,
    /// A capacity is larger than one at a smaller radius.
    Rising,
    /// The chart is for lifting on tyres.
    OnRubber,
}

/// Something in a chart that somebody has to look at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChartIssue {
    /// What is odd.
    pub kind: IssueKind,
    /// Row of the chart, from 0; `None` for the whole chart or its heads.
    pub row: Option<usize>,
    /// Column of the chart, from 0.
    pub column: Option<usize>,
    /// What was read, and where.
    pub read: String,
    /// What was expected.
    pub expected: String,
    /// How to fix it.
    pub fix: String,
    /// Whether readings are refused until it is dealt with: all of them if the chart gives no table, else those that
    /// need the odd cells.
    pub blocks: bool,
}

impl ChartIssue {
    /// All of it in one line.
    pub fn message(&self) -> String {
        format!("{}: expected {}; {}", self.read, self.expected, self.fix)
    }

    fn whole(kind: IssueKind, read: impl Into<String>, expected: impl Into<String>, fix: impl Into<String>) -> Self {
        Self {
            kind,
            row: None,
            column: None,
            read: read.into(),
            expected: expected.into(),
            fix: fix.into(),
            blocks: true,
        }
    }

    fn at_row(self, row: usize) -> Self {
        Self { row: Some(row), ..self }
    }

    fn at_column(self, column: usize) -> Self {
        Self {
            column: Some(column),
            ..self
        }
    }
}

/// See [`RatingChart::table`].
pub(super) fn table(chart: &RatingChart) -> (Option<RatingTable>, Vec<ChartIssue>) {
    let mut issues = Vec::new();
    let numbers = numbers(chart, &mut issues);
    if chart.configuration.support == Support::Rubber {
        issues.push(ChartIssue {
            blocks: false,
            ..ChartIssue::whole(
                IssueKind::OnRubber,
                "a chart for lifting on tyres",
                "a chart for lifting on outriggers or crawlers",
                "a box is not lifted on tyres: enter the outrigger chart",
            )
        });
    }
    (numbers, issues)
}

fn numbers(chart: &RatingChart, issues: &mut Vec<ChartIssue>) -> Option<RatingTable> {
    let radius_unit = needed::<Length>(chart.radius_unit, "radii", issues);
    let boom_unit = needed::<Length>(chart.boom_unit, "boom lengths", issues);
    let capacity_unit = needed::<Mass>(chart.capacity_unit, "capacities", issues);
    let (radius_unit, boom_unit, capacity_unit) = (radius_unit?, boom_unit?, capacity_unit?);
    if chart.rows.is_empty() || chart.booms.is_empty() {
        issues.push(ChartIssue::whole(
            IssueKind::Empty,
            format!("{} rows and {} boom lengths", chart.rows.len(), chart.booms.len()),
            "at least one of each",
            "type or paste the chart",
        ));
        return None;
    }
    let booms_m = booms_m(chart, boom_unit, issues);
    let radii_m = radii_m(chart, radius_unit, issues);
    let fits = rows_fit(chart, issues);
    let (booms_m, radii_m) = (booms_m?, radii_m?);
    fits.then(|| {
        let order = rising_order(&radii_m);
        let cells = cells(chart, &order, capacity_unit, issues);
        RatingTable::new(booms_m, order.iter().map(|&row| radii_m[row]).collect(), order, cells)
    })
}

fn needed<Q: Readable>(unit: Option<Unit>, what: &str, issues: &mut Vec<ChartIssue>) -> Option<Unit> {
    let known = unit.filter(|u| u.measures::<Q>());
    if known.is_none() {
        issues.push(ChartIssue::whole(
            IssueKind::MissingUnit,
            format!("the {what} have no unit"),
            format!("the unit of {}", Q::KIND),
            "say which unit the chart is printed in",
        ));
    }
    known
}

fn booms_m(chart: &RatingChart, unit: Unit, issues: &mut Vec<ChartIssue>) -> Option<Vec<f64>> {
    let mut booms_m: Vec<f64> = Vec::new();
    for (column, text) in chart.booms.iter().enumerate() {
        let expected = match length(text, unit, chart) {
            Err(message) => Some(message),
            Ok(m) if !(BOOM_LENGTHS_M.0..=BOOM_LENGTHS_M.1).contains(&m) => {
                Some("boom lengths between 6 m (20 ft) and 100 m (328 ft)".to_owned())
            }
            Ok(m) if booms_m.last().is_some_and(|&before| m <= before) => {
                Some("boom lengths that grow from left to right".to_owned())
            }
            Ok(m) => {
                booms_m.push(m);
                None
            }
        };
        if let Some(expected) = expected {
            let fix = "correct it, or paste the table by boom length: columns of boom angles or parts of line are another table";
            issues.push(
                ChartIssue::whole(
                    IssueKind::BoomHeads,
                    format!("column {} is headed \"{text}\"", column + 1),
                    expected,
                    fix,
                )
                .at_column(column),
            );
        }
    }
    (booms_m.len() == chart.booms.len()).then_some(booms_m)
}

fn radii_m(chart: &RatingChart, unit: Unit, issues: &mut Vec<ChartIssue>) -> Option<Vec<f64>> {
    let mut radii_m = Vec::new();
    for (row, text) in chart.rows.iter().map(|r| r.radius.as_str()).enumerate() {
        match length(text, unit, chart) {
            Ok(m) if m > 0.0 => radii_m.push(m),
            Ok(_) => issues.push(bad_radius(row, text, "a radius above zero".to_owned())),
            Err(message) => issues.push(bad_radius(row, text, message)),
        }
    }
    if radii_m.len() < chart.rows.len() {
        return None;
    }
    if let Some((first, second)) = repeated(&radii_m) {
        issues.push(
            ChartIssue::whole(
                IssueKind::RepeatedRadius,
                format!(
                    "radius \"{}\" in rows {} and {}",
                    chart.rows[second].radius,
                    first + 1,
                    second + 1
                ),
                "each radius once",
                "two tables seem to be merged: split them into one chart per configuration",
            )
            .at_row(second),
        );
        return None;
    }
    if let Some(row) = out_of_order(&radii_m) {
        issues.push(
            ChartIssue::whole(
                IssueKind::Unsorted,
                format!(
                    "radius \"{}\" in row {} after \"{}\"",
                    chart.rows[row].radius,
                    row + 1,
                    chart.rows[row - 1].radius
                ),
                "radii that grow from row to row",
                "compare the rows with the printed chart and put them in order",
            )
            .at_row(row),
        );
        return None;
    }
    Some(radii_m)
}

fn bad_radius(row: usize, text: &str, expected: String) -> ChartIssue {
    let read = format!("row {} has the radius \"{text}\"", row + 1);
    ChartIssue::whole(
        IssueKind::Radius,
        read,
        expected,
        "correct the radius or remove the row",
    )
    .at_row(row)
}

/// In metres, or what was expected.
fn length(text: &str, unit: Unit, chart: &RatingChart) -> Result<f64, String> {
    match read::<Length>(split_marks(text).0, unit, chart.decimal) {
        Reading::Is(length) => Ok(length.to_m()),
        Reading::Blank => Err(format!("a length such as {}", Length::EXAMPLE)),
        Reading::Ask(message) | Reading::Wrong(message) => Err(message),
    }
}

/// The first two rows with the same radius.
fn repeated(radii_m: &[f64]) -> Option<(usize, usize)> {
    let same = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs();
    (1..radii_m.len()).find_map(|b| (0..b).find(|&a| same(radii_m[a], radii_m[b])).map(|a| (a, b)))
}

/// The first row that breaks the direction of the first two.
fn out_of_order(radii_m: &[f64]) -> Option<usize> {
    let falls = radii_m.len() > 1 && radii_m[1] < radii_m[0];
    (1..radii_m.len()).find(|&row| (radii_m[row] < radii_m[row - 1]) != falls)
}

/// The rows by rising radius: as they stand, or from the bottom up.
fn rising_order(radii_m: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..radii_m.len()).collect();
    if radii_m.first() > radii_m.last() {
        order.reverse();
    }
    order
}

fn rows_fit(chart: &RatingChart, issues: &mut Vec<ChartIssue>) -> bool {
    let mut fits = true;
    for (row, r) in chart.rows.iter().enumerate() {
        if r.cells
            .iter()
            .skip(chart.booms.len())
            .any(|cell| !cell.trim().is_empty())
        {
            fits = false;
            issues.push(
                ChartIssue::whole(
                    IssueKind::LongRow,
                    format!("row {} (radius {}) has {} capacities", row + 1, r.radius, r.cells.len()),
                    format!("no more than the {} boom lengths", chart.booms.len()),
                    "compare the row and the heads with the printed chart",
                )
                .at_row(row),
            );
        }
    }
    fits
}

/// The cells in rising order of radius, odd ones marked.
fn cells(chart: &RatingChart, order: &[usize], unit: Unit, issues: &mut Vec<ChartIssue>) -> Vec<Cell> {
    let width = chart.booms.len();
    let mut cells = Vec::with_capacity(order.len() * width);
    for &row in order {
        for column in 0..width {
            cells.push(match read_cell(chart.cell(row, column), unit, chart.decimal) {
                CellReading::NotAllowed => Cell::NotAllowed,
                CellReading::Capacity(mass) => Cell::CapacityKg(mass.to_kg()),
                CellReading::Wrong(message) => {
                    issues.push(unreadable(chart, row, column, message));
                    Cell::Unconfirmed
                }
            });
        }
    }
    for column in 0..width {
        mark_rising(chart, order, column, &mut cells, issues);
    }
    cells
}

fn unreadable(chart: &RatingChart, row: usize, column: usize, message: String) -> ChartIssue {
    ChartIssue::whole(
        IssueKind::Unreadable,
        format!("\"{}\" at {}", chart.cell(row, column), place(chart, row, column)),
        message,
        "correct it, or leave it blank if the chart prints no capacity there",
    )
    .at_row(row)
    .at_column(column)
}

fn place(chart: &RatingChart, row: usize, column: usize) -> String {
    format!("radius {}, boom {}", chart.rows[row].radius, chart.booms[column])
}

/// Marks every capacity above one at a smaller radius, and the one before it, until a person has confirmed the rise.
fn mark_rising(chart: &RatingChart, order: &[usize], column: usize, cells: &mut [Cell], issues: &mut Vec<ChartIssue>) {
    let width = chart.booms.len();
    // place in `order`, kilograms
    let capacities: Vec<(usize, f64)> = (0..order.len())
        .filter_map(|i| match cells[i * width + column] {
            Cell::CapacityKg(kg) => Some((i, kg)),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        })
        .collect();
    let mut smallest_kg = f64::INFINITY;
    for (n, &(i, kg)) in capacities.iter().enumerate() {
        if kg <= smallest_kg || chart.is_confirmed(order[i], column) {
            smallest_kg = kg;
            continue;
        }
        let (before, before_kg) = capacities[n - 1];
        cells[i * width + column] = Cell::Unconfirmed;
        cells[before * width + column] = Cell::Unconfirmed;
        if kg > before_kg {
            issues.push(rising(chart, order[before], order[i], column));
        }
    }
}

fn rising(chart: &RatingChart, before: usize, row: usize, column: usize) -> ChartIssue {
    ChartIssue::whole(
        IssueKind::Rising,
        format!("\"{}\" at {}", chart.cell(row, column), place(chart, row, column)),
        format!(
            "no more than the \"{}\" at radius {}, since capacity falls as the radius grows",
            chart.cell(before, column),
            chart.rows[before].radius
        ),
        "compare both cells with the printed chart, then correct the wrong one or confirm that it is printed so",
    )
    .at_row(row)
    .at_column(column)
}
