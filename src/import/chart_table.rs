//! Finding the table in pasted text: its heads, its rows, and the lines that are neither.

use super::chart_words::{any_length, length_in, length_or_bare, own_unit, says_boom, says_radius};
use super::grid::{Grid, Line};
use crate::crane::{BOOM_LENGTHS_M, CellReading, read_cell};
use crate::quantity::{DecimalMark, Length, Unit};
use core::cmp::Ordering;

/// A table as text, before anybody knows what its figures mean.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Table {
    /// Lines of heads, top to bottom; the first field is the corner.
    pub heads: Vec<Vec<String>>,
    pub rows: Vec<Row>,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    /// Line of the pasted text, from 1.
    pub line: usize,
    /// What stands in front.
    pub label: String,
    /// What stands behind, up to the last field that is not empty.
    pub cells: Vec<String>,
}

/// What the numbers across the top are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Across {
    Booms,
    Radii,
}

impl Table {
    /// Columns behind the labels, up to the last with a figure in a row or a length in a head.
    fn width(&self) -> usize {
        let in_rows = self.rows.iter().map(|r| r.cells.len());
        let in_heads = self
            .heads
            .iter()
            .map(|line| line.iter().rposition(|h| length_in(h).is_some()).unwrap_or(0));
        in_rows.chain(in_heads).max().unwrap_or(0)
    }

    /// The length over each column, from the lowest line that has one; the plain text where there is none.
    pub(super) fn head_texts(&self) -> Vec<String> {
        let head = |column: usize| {
            let texts = || {
                self.heads
                    .iter()
                    .rev()
                    .filter_map(move |line| line.get(column + 1))
                    .filter(|t| !t.is_empty())
            };
            texts()
                .find_map(|text| length_in(text))
                .or_else(|| texts().next().cloned())
                .unwrap_or_default()
        };
        (0..self.width()).map(head).collect()
    }

    /// Every text that should be a number.
    pub(super) fn figures(&self) -> impl Iterator<Item = &str> {
        let in_rows = self
            .rows
            .iter()
            .flat_map(|r| core::iter::once(&r.label).chain(&r.cells));
        let heads = self.heads.iter().flat_map(|line| line.iter().skip(1));
        in_rows
            .chain(heads)
            .map(String::as_str)
            .filter(|t| t.starts_with(|c: char| c.is_ascii_digit()))
    }

    /// No boom is as short as the smallest radius: the side with the smaller numbers has the radii.
    pub(super) fn across_by_figures(&self) -> Option<Across> {
        let labels: Vec<&str> = self.rows.iter().map(|r| r.label.as_str()).collect();
        let heads = self.head_texts();
        let mut units = heads
            .iter()
            .map(String::as_str)
            .chain(labels.iter().copied())
            .filter_map(own_unit::<Length>);
        let unit = units.next().unwrap_or(Unit::M);
        let down = labels
            .iter()
            .filter_map(|text| length_or_bare(text, unit))
            .reduce(Length::min)?;
        let across = heads
            .iter()
            .filter_map(|text| length_or_bare(text, unit))
            .reduce(Length::min)?;
        match down.partial_cmp(&across)? {
            Ordering::Less => Some(Across::Booms),
            Ordering::Greater => Some(Across::Radii),
            Ordering::Equal => None,
        }
    }

    /// Whether the side across (or down, if the radii run across) may hold boom lengths, in metres or in feet.
    pub(super) fn may_have_booms(&self, across: Across) -> bool {
        let texts = match across {
            Across::Booms => self.head_texts(),
            Across::Radii => self.rows.iter().map(|r| r.label.clone()).collect(),
        };
        // a bare number counts as metres here: one in feet only has to stay below the longest in feet
        let longest = BOOM_LENGTHS_M.1 / Unit::Ft.to_si(1.0);
        texts
            .iter()
            .filter_map(|t| any_length(t))
            .all(|l| (BOOM_LENGTHS_M.0..=longest).contains(&l.to_m()))
    }

    /// As the words in the corner and over the columns have it.
    pub(super) fn across_by_words(&self) -> Option<Across> {
        let corner = |says: fn(&str) -> bool| self.heads.iter().filter_map(|line| line.first()).any(|t| says(t));
        let over = |says: fn(&str) -> bool| self.heads.iter().flat_map(|line| line.iter().skip(1)).any(|t| says(t));
        match (
            corner(says_radius),
            corner(says_boom),
            over(says_radius),
            over(says_boom),
        ) {
            (true, false, false, _) | (false, false, false, true) => Some(Across::Booms),
            (false, true, _, false) | (false, false, true, false) => Some(Across::Radii),
            _ => None,
        }
    }

    /// Rows for columns.
    pub(super) fn turned(&self) -> Self {
        let corner = "radius".to_owned();
        let heads = core::iter::once(corner)
            .chain(self.rows.iter().map(|r| r.label.clone()))
            .collect();
        let line = self.rows.first().map_or(0, |r| r.line);
        let rows = self.head_texts().into_iter().enumerate().map(|(column, label)| {
            let cell = |r: &Row| r.cells.get(column).cloned().unwrap_or_default();
            Row {
                line,
                label,
                cells: self.rows.iter().map(cell).collect(),
            }
        });
        Self {
            heads: vec![heads],
            rows: rows.collect(),
        }
    }

    /// Where it stands and what it holds, for a question.
    pub(super) fn described(&self) -> String {
        let (Some(first), Some(last)) = (self.rows.first(), self.rows.last()) else {
            return String::new();
        };
        format!(
            "lines {} to {}: rows {} to {}, columns {}",
            first.line,
            last.line,
            first.label,
            last.label,
            self.head_texts().join(", ")
        )
    }
}

/// The tables of a pasted text, and its other lines.
pub(super) fn tables(grid: &Grid) -> (Vec<Table>, Vec<(usize, String)>) {
    let first_column = first_column(&grid.lines);
    let mut tables: Vec<Table> = Vec::new();
    let mut texts: Vec<(usize, String)> = Vec::new();
    // lines since the last row, which may turn out to be heads
    let mut pending: Vec<Line> = Vec::new();
    for line in &grid.lines {
        let fields: Vec<String> = line.fields.iter().skip(first_column).cloned().collect();
        let line = Line {
            number: line.number,
            fields,
        };
        let Some(row) = as_row(&line) else {
            pending.push(line);
            continue;
        };
        let head_lines = split_off_heads(&mut pending, row.cells.len());
        let heads: Vec<Vec<String>> = head_lines.iter().map(|line| line.fields.clone()).collect();
        let heads = if tables.is_empty() || are_heads(&heads) {
            heads
        } else {
            pending.extend(head_lines);
            Vec::new()
        };
        texts.extend(pending.drain(..).map(|line| as_text(&line, grid.delimiter)));
        match tables.last_mut() {
            // heads repeated at the top of a page, or none: the table goes on
            Some(table) if heads.is_empty() || heads == table.heads => table.rows.push(row),
            _ => tables.push(Table { heads, rows: vec![row] }),
        }
    }
    texts.extend(pending.iter().map(|line| as_text(line, grid.delimiter)));
    (tables.into_iter().flat_map(split_merged).collect(), texts)
}

/// The column of the labels: the first that is not empty all the way down.
fn first_column(lines: &[Line]) -> usize {
    let filled = |line: &Line| line.fields.iter().position(|f| !f.is_empty());
    lines
        .iter()
        .filter(|line| line.fields.len() > 1)
        .filter_map(filled)
        .min()
        .unwrap_or(0)
}

/// A line that belongs to no table, put together again.
fn as_text(line: &Line, delimiter: Option<char>) -> (usize, String) {
    let filled: Vec<&str> = line
        .fields
        .iter()
        .map(String::as_str)
        .filter(|f| !f.is_empty())
        .collect();
    let joint = match delimiter {
        Some(',') => ", ",
        Some(';') => "; ",
        _ => " ",
    };
    (line.number, filled.join(joint))
}

/// A row of the table: a length in front, and a capacity or a sign for "not allowed" somewhere behind it.
fn as_row(line: &Line) -> Option<Row> {
    let (label, cells) = line.fields.split_first()?;
    any_length(label)?;
    if !cells.iter().any(|c| !c.is_empty() && is_cell(c)) {
        return None;
    }
    let used = cells.iter().rposition(|c| !c.is_empty()).map_or(0, |last| last + 1);
    Some(Row {
        line: line.number,
        label: label.clone(),
        cells: cells[..used].to_vec(),
    })
}

fn is_cell(text: &str) -> bool {
    let reads = |mark| !matches!(read_cell(text, Unit::T, mark), CellReading::Wrong(_));
    reads(DecimalMark::Point) || reads(DecimalMark::Comma)
}

/// Longest text of a column head.
const LONGEST_HEAD: usize = 24;

/// Takes the lines of heads from the end of the lines before a table.
///
/// Going up, lines belong to the heads until there is a number over every column; then also lines of words over several
/// columns, as in a wrapped head.
fn split_off_heads(pending: &mut Vec<Line>, width: usize) -> Vec<Line> {
    let has_number = |line: &Line, column: usize| line.fields.get(column + 1).is_some_and(|f| length_in(f).is_some());
    let mut start = pending.len();
    while let Some(line) = start.checked_sub(1).map(|i| &pending[i]) {
        let columns = width.max(1);
        let complete = (0..columns).all(|column| pending[start..].iter().any(|below| has_number(below, column)));
        let is_short = line.fields.iter().all(|f| f.chars().count() <= LONGEST_HEAD);
        let over_columns = line.fields.iter().skip(1).any(|f| !f.is_empty());
        let only_words = !line.fields.iter().any(|f| f.contains(|c: char| c.is_ascii_digit()));
        if !is_short || (complete && !(over_columns && only_words)) {
            break;
        }
        start -= 1;
    }
    pending.split_off(start)
}

/// Whether lines between two rows are heads of another table: their lengths grow. The capacities of a row with an
/// unreadable radius do not.
fn are_heads(heads: &[Vec<String>]) -> bool {
    let texts = Table {
        heads: heads.to_vec(),
        rows: Vec::new(),
    }
    .head_texts();
    let lengths: Vec<Length> = texts.iter().filter_map(|text| any_length(text)).collect();
    let speak = heads.iter().flatten().any(|text| says_radius(text) || says_boom(text));
    lengths.windows(2).all(|w| w[0] < w[1]) && (lengths.len() > 1 || speak)
}

/// Tables merged into one repeat their radii: one after the other, or row by row.
fn split_merged(table: Table) -> Vec<Table> {
    let radii_m: Vec<f64> = table
        .rows
        .iter()
        .map(|r| any_length(&r.label).map_or(0.0, Length::to_m))
        .collect();
    let same = |a: f64, b: f64| (a - b).abs() < 1e-9 * a.abs();
    let earlier = |i: usize| radii_m[..i].iter().filter(|&&r| same(r, radii_m[i])).count();
    let repeats = (0..radii_m.len()).filter(|&i| earlier(i) > 0).count();
    // a single repeat is rather a typing error: the chart itself reports it
    if repeats < 2 {
        return vec![table];
    }
    let side_by_side = radii_m.windows(2).filter(|w| same(w[0], w[1])).count() * 2 > repeats;
    let falls = radii_m.windows(2).filter(|w| w[1] < w[0]).count() * 2 > radii_m.len();
    let mut part = 0;
    let mut parts: Vec<Vec<Row>> = Vec::new();
    for (i, row) in table.rows.into_iter().enumerate() {
        if side_by_side {
            part = earlier(i);
        } else if i > 0 && (radii_m[i] < radii_m[i - 1]) != falls {
            part += 1;
        }
        if parts.len() <= part {
            parts.resize_with(part + 1, Vec::new);
        }
        parts[part].push(row);
    }
    parts
        .into_iter()
        .map(|rows| Table {
            heads: table.heads.clone(),
            rows,
        })
        .collect()
}
