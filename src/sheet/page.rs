//! How much room a sheet's parts take on Letter and A4, so that each sheet is one page and what does not fit goes on to another, row by row.
//!
//! The measures stand in `www/styles/print.css` too, which lays the same parts out; the end-to-end tests print every sheet and see that none spills.

use super::{Content, Place, Section, Sheet};
use crate::drawing::width_mm;

/// The paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// 8.5 × 11 in.
    Letter,
    /// 210 × 297 mm.
    A4,
}

impl Format {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Letter, Self::A4];

    /// Width and height inside margins of 7 mm, mm.
    pub const fn inside_mm(self) -> [f64; 2] {
        match self {
            Self::Letter => [201.9, 265.0],
            Self::A4 => [196.0, 282.6],
        }
    }
}

/// Size of the lettering, mm: 8.5 points.
const SIZE_MM: f64 = 3.0;
/// A line of it.
const LINE_MM: f64 = 3.3;
/// The rule under a row.
const RULE_MM: f64 = 0.26;
/// A heading with its rule.
const HEADING_MM: f64 = 4.2;
/// Room below a section.
const GAP_MM: f64 = 1.2;
/// Room between columns.
pub(super) const GUTTER_MM: f64 = 3.0;
/// Width of the left column of a band.
pub(super) const LEFT_MM: f64 = 70.0;
/// Labels of rows that run across.
const LABEL_MM: f64 = 26.0;
/// Columns of figures of a check, and of its outcome.
const CHECK_MM: [f64; 2] = [16.0, 15.0];
const OUTCOME_MM: f64 = 20.0;
const WITHIN_MM: f64 = 11.0;
/// A line to write on.
const BLANK_MM: f64 = 5.6;
/// The strip of figures that decide, small and large.
const FIGURES_MM: [f64; 2] = [13.2, 16.2];
/// Kept free against faces that are a little wider.
const SPARE_MM: f64 = 1.8;

/// Lines that a text takes in a width, mm.
fn lines(text: &str, wide_mm: f64, size_mm: f64, bold: bool) -> f64 {
    let mut lines = 1.0;
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if line.is_empty() || width_mm(&longer, size_mm, bold) <= wide_mm {
            line = longer;
        } else {
            lines += 1.0;
            line = word.to_owned();
        }
    }
    lines
}

/// Height of each part of a list that stands in columns beside each other: rows of as many parts, each as high as its highest.
fn grid_mm(parts: &[f64], columns: usize) -> f64 {
    parts
        .chunks(columns)
        .map(|row| row.iter().copied().fold(0.0, f64::max))
        .sum()
}

/// The same where the parts run down one column and then the next.
fn halves_mm(parts: &[f64], columns: usize) -> f64 {
    let each = parts.len().div_ceil(columns).max(1);
    parts.chunks(each).map(|column| column.iter().sum()).fold(0.0, f64::max)
}

/// Height of a section in a width, without the room below it, mm. A drawing has the height that it was made for.
fn height_mm(section: &Section, wide_mm: f64) -> f64 {
    let heading = if section.heading.is_empty() { 0.0 } else { HEADING_MM };
    let columns = section.columns as f64;
    let each_mm = (wide_mm - (columns - 1.0) * GUTTER_MM) / columns;
    heading + contents_mm(section, each_mm)
}

fn contents_mm(section: &Section, wide_mm: f64) -> f64 {
    let (columns, large) = (section.columns, section.large);
    let (size, line) = if large { (3.5, 4.1) } else { (SIZE_MM, LINE_MM) };
    match &section.content {
        Content::Outcome(outcome, sentence) => {
            let word_mm = width_mm(&outcome.word().to_uppercase(), 4.6, true) + 9.0;
            lines(sentence, wide_mm - word_mm, 3.7, true).max(1.7) * 4.3 + 1.8
        }
        Content::Figures(_) => FIGURES_MM[usize::from(large)],
        Content::Rows(rows) => rows
            .iter()
            .map(|(label, value)| row_mm(section.place, label, value, wide_mm))
            .sum(),
        Content::Lines(text) => {
            let each: Vec<f64> = text
                .iter()
                .map(|t| lines(t, wide_mm - 2.0, size, large) * line)
                .collect();
            halves_mm(&each, columns)
        }
        Content::Run(sentences) => {
            let all: Vec<String> = sentences.iter().map(|(word, text)| format!("{word} {text}")).collect();
            (lines(&all.join("  "), wide_mm, size, false) / columns as f64).ceil() * line
        }
        Content::Ticks(text) => {
            let each: Vec<f64> = text
                .iter()
                .map(|t| lines(t, wide_mm - 4.6, size, false) * line + 0.4)
                .collect();
            grid_mm(&each, columns)
        }
        Content::Table { head, shares, rows } => {
            let bold = large || section.place == Place::Left;
            let row = |row: &Vec<String>| cells_mm(row, shares, wide_mm, (large, bold));
            let each: Vec<f64> = rows.iter().map(row).collect();
            cells_mm(head, shares, wide_mm, (large, true)) + halves_mm(&each, columns)
        }
        Content::Checks(rows) => {
            let outcome_mm = if columns > 1 { WITHIN_MM } else { OUTCOME_MM };
            let each: Vec<f64> = rows
                .iter()
                .map(|row| {
                    let figures_mm = if row.figures.is_some() || columns > 1 {
                        2.0 * CHECK_MM[0] + CHECK_MM[1]
                    } else {
                        0.0
                    };
                    let what = lines(
                        &row.what,
                        wide_mm - outcome_mm - figures_mm - 1.5,
                        SIZE_MM,
                        columns == 1,
                    );
                    let word = if columns > 1 {
                        1.0
                    } else {
                        lines(row.outcome.word(), outcome_mm - 3.0, SIZE_MM, true)
                    };
                    what.max(word) * LINE_MM + RULE_MM
                })
                .collect();
            let head = if rows.iter().any(|row| row.figures.is_some()) {
                LINE_MM + RULE_MM
            } else {
                0.0
            };
            head + halves_mm(&each, columns)
        }
        Content::Blanks(labels) => labels.len().div_ceil(columns) as f64 * BLANK_MM,
        Content::Drawing(scene) => scene.height_mm,
    }
}

fn row_mm(place: Place, label: &str, value: &str, wide_mm: f64) -> f64 {
    let label_mm = if place == Place::Across {
        LABEL_MM
    } else {
        width_mm(label, SIZE_MM, false) + 2.0
    };
    lines(value, wide_mm - label_mm, SIZE_MM, true) * LINE_MM + RULE_MM
}

fn cells_mm(cells: &[String], shares: &[f64], wide_mm: f64, (large, bold): (bool, bool)) -> f64 {
    let (size, line) = if large { (3.4, 3.8) } else { (SIZE_MM, LINE_MM) };
    let cell = |(i, (text, share)): (usize, (&String, &f64))| lines(text, share * wide_mm - 1.0, size, bold && i > 0);
    cells.iter().zip(shares).enumerate().map(cell).fold(1.0, f64::max) * line + RULE_MM
}

/// What the parts of a page take up, mm.
struct Taken {
    /// Those across, with the bands' parts that are no column.
    across: f64,
    /// The left columns.
    left: f64,
}

fn taken(sections: &[Section], wide_mm: f64) -> Taken {
    let sum = |place: fn(Place) -> bool, wide_mm: f64| {
        let here = sections.iter().filter(|s| place(s.place));
        here.map(|s| height_mm(s, wide_mm) + GAP_MM).sum()
    };
    Taken {
        across: sum(|p| p == Place::Across, wide_mm),
        left: sum(|p| p == Place::Left, LEFT_MM),
    }
}

/// Height of the title block, of the foot and of the room that is kept free, mm.
pub(super) fn frame_mm(sheet: &Sheet, format: Format) -> f64 {
    let [wide_mm, _] = format.inside_mm();
    let watermark = sheet
        .footer
        .watermark
        .as_deref()
        .map_or(0.0, |w| width_mm(w, SIZE_MM, true) + 8.0);
    let title = lines(&sheet.title, wide_mm - watermark - 6.0, 5.6, true) * 6.8;
    let mut rows = 1.0;
    let mut used = 0.0;
    for (label, value) in &sheet.header {
        let cell = width_mm(label, SIZE_MM, false) + width_mm(value, SIZE_MM, true) + 4.2;
        if used > 0.0 && used + cell > wide_mm - 1.0 {
            rows += (cell / wide_mm).max(1.0).floor();
            used = 0.0;
        }
        used += cell;
    }
    let footer = &sheet.footer;
    let foot = [&footer.project, &footer.caution, &footer.checksum, &footer.number()];
    let foot = foot.iter().map(|text| width_mm(text, SIZE_MM, false)).sum::<f64>() + 7.0 + 3.0 * GUTTER_MM;
    let foot = (foot / wide_mm).ceil() * LINE_MM;
    title + 4.5 + rows * 4.2 + 1.0 + GAP_MM + foot + 1.2 + SPARE_MM
}

/// Which drawings take what is left of a page.
pub(super) enum Flexible {
    /// Those beside the left column: at least as high as it.
    BesideTheColumn,
    /// Some in a band of their own.
    OfTheirOwn,
}

/// Takes rows off the last sections that have rows to spare, until drawings of the least height fit. Gives the height that is left for the
/// drawings, and the rows taken off, in sections of the same headings.
pub(super) fn fit(
    sections: &mut [Section],
    room_mm: f64,
    wide_mm: f64,
    flexible: &Flexible,
    least_mm: f64,
) -> (f64, Vec<Section>) {
    let mut off: Vec<Section> = Vec::new();
    loop {
        let taken = taken(sections, wide_mm);
        let (free, needed) = match flexible {
            Flexible::BesideTheColumn => (room_mm - taken.across - GAP_MM, least_mm.max(taken.left - GAP_MM)),
            Flexible::OfTheirOwn => (room_mm - taken.across - taken.left - GAP_MM, least_mm),
        };
        if free >= needed || !take_a_row(sections, &mut off) {
            return (free.max(needed), off);
        }
    }
}

/// What stands behind a heading that goes on.
const CONTINUED: &str = "continued";

/// Moves the last row of the last section that can spare one to what goes on.
fn take_a_row(sections: &mut [Section], off: &mut Vec<Section>) -> bool {
    let Some(section) = sections.iter_mut().rev().find(|s| s.spare_rows() > 0) else {
        return false;
    };
    let name = match (section.heading.as_str(), &section.content) {
        ("", Content::Checks(_)) => "Checks",
        ("", _) => "Entries",
        (heading, _) => heading.trim_end_matches(CONTINUED).trim_end_matches(", "),
    };
    let heading = format!("{name}, {CONTINUED}");
    let mut row = Some(section.content.pop());
    let alike = |next: &&mut Section| next.heading == heading && next.columns == section.columns;
    for next in off.iter_mut().filter(alike) {
        row = row.and_then(|row| next.content.put_first(row));
    }
    if let Some(content) = row {
        let next = Section {
            heading: heading.clone(),
            content,
            place: Place::Across,
            ..section.clone()
        };
        off.insert(0, next);
    }
    true
}

/// What goes on, cut into pages of a height.
fn pages(mut sections: Vec<Section>, room_mm: f64, wide_mm: f64) -> Vec<Vec<Section>> {
    let mut pages = Vec::new();
    while !sections.is_empty() {
        let (_, off) = fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, 0.0);
        pages.push(core::mem::replace(&mut sections, off));
    }
    pages
}

/// Height of the left column, mm.
pub(super) fn left_mm(sections: &[Section]) -> f64 {
    taken(sections, 0.0).left - GAP_MM
}

/// The page, and pages of the same number for what goes on.
pub(super) fn leaves(
    blank: Sheet,
    sections: Vec<Section>,
    off: Vec<Section>,
    room_mm: f64,
    wide_mm: f64,
) -> Vec<Sheet> {
    let continued = pages(off, room_mm, wide_mm).into_iter().map(|sections| {
        let mut sheet = blank.clone();
        sheet.title = format!("{}, {CONTINUED}", blank.title);
        sheet.footer.continued = true;
        Sheet { sections, ..sheet }
    });
    let mut leaves: Vec<Sheet> = continued.collect();
    leaves.insert(0, Sheet { sections, ..blank });
    leaves
}

impl Section {
    /// How many rows may be taken off: all but one, of checks, rows and tables.
    fn spare_rows(&self) -> usize {
        let rows = match &self.content {
            Content::Rows(rows) if self.place == Place::Across => rows.len(),
            Content::Table { rows, .. } if self.place == Place::Across => rows.len(),
            Content::Checks(rows) => rows.len(),
            _ => 0,
        };
        rows.saturating_sub(1)
    }
}

impl Content {
    /// Takes the last row off, as contents of the same sort. Only for sections with rows to spare.
    fn pop(&mut self) -> Self {
        match self {
            Self::Rows(rows) => Self::Rows(rows.pop().into_iter().collect()),
            Self::Checks(rows) => Self::Checks(rows.pop().into_iter().collect()),
            Self::Table { head, shares, rows } => Self::Table {
                head: head.clone(),
                shares: shares.clone(),
                rows: rows.pop().into_iter().collect(),
            },
            other => other.clone(),
        }
    }

    /// Puts rows of the same sort before its own; gives back what is of another sort.
    fn put_first(&mut self, row: Self) -> Option<Self> {
        match (self, row) {
            (Self::Rows(rows), Self::Rows(more)) => drop(rows.splice(0..0, more)),
            (Self::Checks(rows), Self::Checks(more)) => drop(rows.splice(0..0, more)),
            (Self::Table { rows, .. }, Self::Table { rows: more, .. }) => drop(rows.splice(0..0, more)),
            (_, other) => return Some(other),
        }
        None
    }
}
