//! Pasted text taken apart into lines and fields, whatever stands between the columns.

use crate::quantity::Unit;

/// One line of pasted text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// Counted from 1, as an editor shows it.
    pub number: usize,
    /// Its fields, trimmed.
    pub fields: Vec<String>,
}

/// Pasted text in fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Grid {
    /// What stood between the fields; `None` if they were aligned by spaces.
    pub delimiter: Option<char>,
    /// Lines that begin with `#`, without it.
    pub comments: Vec<(usize, String)>,
    /// All other lines that are not empty.
    pub lines: Vec<Line>,
}

/// Fewest spaces between two columns of aligned text.
const COLUMN_GAP: &str = "  ";

/// Takes text apart: by tabs, semicolons, bars or commas, by columns of at least two spaces, or by single spaces if that
/// gives every line of figures the same number of fields.
pub(super) fn grid(text: &str) -> Grid {
    let text = text
        .trim_start_matches('\u{feff}')
        .replace("\r\n", "\n")
        .replace(['\r', '\u{2028}'], "\n");
    let mut comments = Vec::new();
    let mut body = Vec::new();
    for (i, line) in text.lines().enumerate() {
        let comment = line.trim_start().strip_prefix('#');
        comments.extend(comment.map(|comment| (i + 1, comment.trim().to_owned())));
        // an empty line in a comment's place keeps the numbers of the lines
        body.push(if comment.is_some() { "" } else { line });
    }
    let delimiter = delimiter(&body);
    let lines = match delimiter {
        Some(delimiter) => delimited(&body.join("\n"), delimiter),
        None => single_spaced(&body).unwrap_or_else(|| aligned(&body)),
    };
    Grid {
        delimiter,
        comments,
        lines,
    }
}

/// What stands between the fields of most lines with figures; `None` for spaces.
fn delimiter(body: &[&str]) -> Option<char> {
    let has_figures = |line: &&&str| line.chars().any(|c| c.is_ascii_digit());
    let with_figures: Vec<&str> = body.iter().filter(has_figures).copied().collect();
    let is_usual = |splits: &dyn Fn(&str) -> bool| {
        let split = with_figures.iter().filter(|line| splits(line)).count();
        split > 0 && split * 2 >= with_figures.len()
    };
    if let Some(c) = ['\t', ';', '|']
        .into_iter()
        .find(|&c| is_usual(&|line| line.contains(c)))
    {
        return Some(c);
    }
    // commas also separate thousands: spaces without a comma before them come first
    let is_spaced = |line: &str| {
        let figures = |parts: &[&str]| is_figures(parts) && !parts.iter().any(|part| part.ends_with(','));
        let between_gaps: Vec<&str> = split_at_gaps(line).into_iter().map(|(_, part)| part).collect();
        let words = with_units_joined(line);
        figures(&between_gaps) || figures(&words.iter().map(String::as_str).collect::<Vec<_>>())
    };
    (!is_usual(&is_spaced) && is_usual(&|line| line.contains(','))).then_some(',')
}

fn delimited(text: &str, delimiter: char) -> Vec<Line> {
    let opens_quote = |line: &str| line.split(delimiter).any(|field| field.trim_start().starts_with('"'));
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter as u8)
        .has_headers(false)
        .flexible(true)
        // an inch mark at the end of a field is no quote
        .quoting(text.lines().any(opens_quote))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut lines = Vec::new();
    for record in reader.records() {
        let record = record.expect("text in memory is UTF-8, and records may have any number of fields");
        let number = record
            .position()
            .map_or(0, |p| usize::try_from(p.line()).unwrap_or(usize::MAX));
        let fields: Vec<String> = record.iter().map(one_line).collect();
        if fields.iter().any(|f| !f.is_empty()) {
            lines.push(Line { number, fields });
        }
    }
    lines
}

fn one_line(field: &str) -> String {
    field.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Where a column of aligned text begins and ends, counted in signs.
type Span = (usize, usize);

/// Fields of text with one space between them, as copied from a page; `None` unless every line of figures has as many.
///
/// Blank cells would leave no trace in such text, so that lines of different length cannot be told apart.
fn single_spaced(body: &[&str]) -> Option<Vec<Line>> {
    let split: Vec<(usize, Vec<String>)> = (1..)
        .zip(body)
        .map(|(number, line)| (number, with_units_joined(line)))
        .filter(|(_, f)| !f.is_empty())
        .collect();
    let is_row = |fields: &[String]| is_figures(&fields.iter().map(String::as_str).collect::<Vec<_>>());
    let mut widths = split
        .iter()
        .filter(|(_, fields)| is_row(fields))
        .map(|(_, fields)| fields.len());
    let width = widths.next()?;
    if !widths.all(|w| w == width) {
        return None;
    }
    let line = |(number, fields): (usize, Vec<String>)| {
        let fields = if fields.len() == width {
            fields
        } else {
            vec![fields.join(" ")]
        };
        Line { number, fields }
    };
    Some(split.into_iter().map(line).collect())
}

/// The words of a line, units joined to the numbers before them.
fn with_units_joined(line: &str) -> Vec<String> {
    let mut fields: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        match fields.last_mut() {
            Some(last) if last.ends_with(|c: char| c.is_ascii_digit()) && Unit::spelled_anywhere(word).is_some() => {
                last.push(' ');
                last.push_str(word);
            }
            _ => fields.push(word.to_owned()),
        }
    }
    fields
}

/// Fields of text whose columns are held apart by spaces: a part belongs to the column it stands under.
fn aligned(body: &[&str]) -> Vec<Line> {
    let split: Vec<(usize, Vec<(Span, &str)>)> = (1..)
        .zip(body)
        .map(|(number, line)| (number, split_at_gaps(line)))
        .filter(|(_, p)| !p.is_empty())
        .collect();
    let is_row = |parts: &&[(Span, &str)]| is_figures(&parts.iter().map(|(_, part)| *part).collect::<Vec<_>>());
    let columns = columns(split.iter().map(|(_, parts)| parts.as_slice()).filter(is_row));
    let line = |(number, parts): (usize, Vec<(Span, &str)>)| {
        let fields = if is_under(&parts, &columns) {
            in_columns(&parts, &columns)
        } else {
            vec![parts.iter().map(|(_, part)| *part).collect::<Vec<_>>().join(" ")]
        };
        Line { number, fields }
    };
    split.into_iter().map(line).collect()
}

/// The parts of a line between gaps of two spaces or more, with their places.
fn split_at_gaps(line: &str) -> Vec<(Span, &str)> {
    let mut parts = Vec::new();
    let mut place = 0;
    for part in line.split(COLUMN_GAP) {
        let trimmed = part.trim();
        if !trimmed.is_empty() {
            let start = place + part.chars().take_while(|c| c.is_whitespace()).count();
            parts.push(((start, start + trimmed.chars().count()), trimmed));
        }
        place += part.chars().count() + COLUMN_GAP.len();
    }
    parts
}

/// A line of a table: a figure in front and nothing but figures and signs behind it.
fn is_figures(parts: &[&str]) -> bool {
    const LONGEST: usize = 15;
    let is_figure = |part: &&str| {
        (!part.starts_with(char::is_alphabetic) || part.eq_ignore_ascii_case("n/a")) && part.chars().count() <= LONGEST
    };
    parts.len() >= 2 && parts[0].starts_with(|c: char| c.is_ascii_digit()) && parts.iter().all(is_figure)
}

/// The columns: parts of different lines that stand under each other, joined.
fn columns<'a>(lines: impl Iterator<Item = &'a [(Span, &'a str)]>) -> Vec<Span> {
    let mut spans: Vec<Span> = lines.flatten().map(|(span, _)| *span).collect();
    spans.sort_unstable();
    let mut columns: Vec<Span> = Vec::new();
    for span in spans {
        match columns.last_mut() {
            Some(last) if span.0 < last.1 => last.1 = last.1.max(span.1),
            _ => columns.push(span),
        }
    }
    columns
}

/// The column a part stands under: the one it shares most with, else the nearest.
fn column_of(span: Span, columns: &[Span]) -> Option<usize> {
    // signs in common; below zero the distance
    let shared = |column: &Span| span.1.min(column.1) as i64 - span.0.max(column.0) as i64;
    (0..columns.len()).max_by_key(|&i| (shared(&columns[i]), core::cmp::Reverse(i)))
}

/// Whether every part has a column of its own.
fn is_under(parts: &[(Span, &str)], columns: &[Span]) -> bool {
    let mut taken: Vec<usize> = parts.iter().filter_map(|(span, _)| column_of(*span, columns)).collect();
    let parts_placed = taken.len();
    taken.dedup();
    parts_placed > 0 && taken.len() == parts_placed
}

fn in_columns(parts: &[(Span, &str)], columns: &[Span]) -> Vec<String> {
    let mut fields = vec![String::new(); columns.len()];
    for (span, part) in parts {
        if let Some(column) = column_of(*span, columns) {
            fields[column] = (*part).to_owned();
        }
    }
    fields
}
