//! A block of cells out of a spreadsheet, and what its columns are.

use super::Described;
use super::column::{Kind, Plain};
use super::list::Fresh;
use crate::quantity::{DecimalMark, Reading, Unit, UnitSystem, read_si, written_si};
use crate::ui::fields::{Nuance, Typing, understood};

/// A block of cells as text.
pub type Block = Vec<Vec<String>>;

/// Takes a pasted text apart: tabs between cells, or semicolons, or commas.
pub fn block(text: &str) -> Block {
    let mark = mark(text);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mark)
        .has_headers(false)
        .flexible(true)
        // an inch mark at the end of a cell is no quote
        .quoting(text.lines().any(|line| {
            line.split(char::from(mark))
                .any(|cell| cell.trim_start().starts_with('"'))
        }))
        .trim(csv::Trim::All)
        .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let records = reader.records().map_while(Result::ok);
    let cells = records.map(|record| record.iter().map(str::to_owned).collect::<Vec<_>>());
    cells.filter(|row| row.iter().any(|cell| !cell.is_empty())).collect()
}

/// What stands between the cells: tabs where there are any, else what the first line has more of.
fn mark(text: &str) -> u8 {
    if text.contains('\t') {
        return b'\t';
    }
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let count = |mark: char| first.matches(mark).count();
    if count(';') > count(',') { b';' } else { b',' }
}

/// A list as CSV, for a spreadsheet and to be pasted again: the unit of bare numbers stands in the heads.
pub fn as_csv<R: Described>(rows: &[R], typing: Typing) -> String {
    let columns = R::columns();
    let mut writer = csv::Writer::from_writer(Vec::new());
    let head = |plain: &Plain| match plain.kind.unit(typing) {
        Some(unit) if unit != Unit::One => format!("{} ({})", plain.head, unit.symbol()),
        _ => plain.head.to_owned(),
    };
    let heads = columns.iter().map(|column| head(&column.plain));
    let mut written = writer.write_record(heads);
    for row in rows {
        let cells = columns
            .iter()
            .map(|column| (column.get)(row, typing).unwrap_or_default());
        written = written.and_then(|()| writer.write_record(cells));
    }
    written.expect("memory takes every row, and all have the same number of cells");
    let bytes = writer.into_inner().expect("memory takes what is left to write");
    String::from_utf8_lossy(&bytes).into_owned()
}

/// What a column of the block goes into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Take {
    /// Which column of the table.
    pub column: usize,
    /// The unit of its bare numbers.
    pub unit: Option<Unit>,
}

/// What the columns of a block are.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mapping {
    /// The first row holds heads.
    pub headed: bool,
    /// For each column of the block; `None` is left out.
    pub takes: Vec<Option<Take>>,
}

/// What the columns seem to be: by the heads in the first row, else one after the other from a column on.
pub fn guess(block: &Block, columns: &[Plain], from: usize, typing: Typing) -> Mapping {
    let width = block.iter().map(Vec::len).max().unwrap_or(0);
    let first: &[String] = block.first().map_or(&[], Vec::as_slice);
    let by_head = settled(
        (0..width)
            .map(|at| headed(first.get(at).map_or("", String::as_str), columns, typing))
            .collect(),
    );
    let known = by_head.iter().flatten().count();
    if known >= 2 || (known == 1 && width == 1) {
        return Mapping {
            headed: true,
            takes: without_doubles(by_head, typing),
        };
    }
    let plain = |at: usize| {
        let column = from + at;
        columns.get(column).map(|c| Take {
            column,
            unit: c.kind.unit(typing),
        })
    };
    Mapping {
        headed: false,
        takes: (0..width).map(plain).collect(),
    }
}

/// One column for each head: what only one head names goes to it, and a head such as "item" takes what is left of its meanings.
fn settled(meanings: Vec<Vec<Take>>) -> Vec<Option<Take>> {
    let sure: Vec<usize> = meanings.iter().filter(|m| m.len() == 1).map(|m| m[0].column).collect();
    let one = |m: Vec<Take>| {
        m.iter()
            .find(|take| m.len() == 1 || !sure.contains(&take.column))
            .copied()
    };
    meanings.into_iter().map(one).collect()
}

/// The columns that a head such as "weight_lb" may name, with the unit in it; the one that is called so comes first.
fn headed(head: &str, columns: &[Plain], typing: Typing) -> Vec<Take> {
    let words: Vec<String> = head
        .split(|c: char| !(c.is_alphanumeric() || c == '/' || c == '²'))
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let mut meanings: Vec<(bool, Take)> = Vec::new();
    for (column, c) in columns.iter().enumerate() {
        let usual = c.kind.unit(typing);
        let unit = usual.and_then(|usual| words.iter().find_map(|word| same_kind(word, usual)));
        let rest: Vec<&str> = words
            .iter()
            .map(String::as_str)
            .filter(|word| unit.is_none() || usual.and_then(|usual| same_kind(word, usual)).is_none())
            .collect();
        let rest = rest.join(" ");
        let called = rest == c.head.to_lowercase();
        if called || c.also.contains(&rest.as_str()) {
            let unit = unit.or(usual);
            meanings.push((called, Take { column, unit }));
        }
    }
    meanings.sort_by_key(|(called, _)| !called);
    meanings.into_iter().map(|(_, take)| take).collect()
}

/// The unit that a word spells, if it measures the same kind of thing as another.
fn same_kind(word: &str, other: Unit) -> Option<Unit> {
    units_like(other).find(|unit| unit.symbol().eq_ignore_ascii_case(word) || unit.name().eq_ignore_ascii_case(word))
}

/// All units that measure the same kind of thing.
pub fn units_like(unit: Unit) -> impl Iterator<Item = Unit> {
    Unit::ALL
        .iter()
        .copied()
        .filter(move |other| other.si_key() == unit.si_key())
}

/// Where two columns of the block are for one of the table (pounds beside kilograms), the one in the plan's own units is kept.
fn without_doubles(mut takes: Vec<Option<Take>>, typing: Typing) -> Vec<Option<Take>> {
    for at in 0..takes.len() {
        let Some(take) = takes[at] else { continue };
        let twins: Vec<usize> = (0..takes.len())
            .filter(|other| takes[*other].is_some_and(|t| t.column == take.column))
            .collect();
        let kept = twins
            .iter()
            .copied()
            .find(|twin| takes[*twin].is_some_and(|t| is_own(t.unit, typing.system)))
            .unwrap_or(twins[0]);
        for twin in twins {
            if twin != kept {
                takes[twin] = None;
            }
        }
    }
    takes
}

fn is_own(unit: Option<Unit>, system: UnitSystem) -> bool {
    let us = matches!(
        unit,
        Some(Unit::Ft | Unit::Inch | Unit::Lb | Unit::Kip | Unit::UsTon | Unit::Psf | Unit::Plf)
    );
    us == (system == UnitSystem::Us)
}

/// Heads over the column that says which box a row belongs to.
const BOX_HEADS: [&str; 6] = ["box", "module", "unit", "box id", "module id", "box no"];

/// The column of a block that says which box each row belongs to, and the boxes it names, in their order.
pub fn box_column(block: &Block) -> Option<(usize, Vec<String>)> {
    let heads = block.first()?;
    let plain = |head: &str| head.to_lowercase().replace('_', " ");
    let at = heads.iter().position(|head| BOX_HEADS.contains(&plain(head).trim()))?;
    let mut boxes: Vec<String> = Vec::new();
    for name in block.iter().skip(1).filter_map(|row| row.get(at)) {
        if !name.is_empty() && !boxes.contains(name) {
            boxes.push(name.clone());
        }
    }
    (!boxes.is_empty()).then_some((at, boxes))
}

/// Which sign marks the decimals of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decimals {
    /// Nothing in it depends on that, or its cells read one way only.
    Sure(DecimalMark),
    /// A cell such as "1.560" has two meanings here.
    Ask,
}

/// What the decimals of a block are: a sign before three digits may be a decimal or stand between thousands.
///
/// Cells that can be read one way only decide ("4.5", "4,11"). Without such a cell a point before three digits beside commas is asked about.
pub fn decimals(block: &Block, usual: DecimalMark) -> Decimals {
    let figures = || {
        block
            .iter()
            .flatten()
            .map(String::as_str)
            .filter(|cell| is_figure(cell))
    };
    let clear = |sign: char| figures().any(|cell| is_clear_decimal(cell, sign));
    let group = |sign: char| figures().any(|cell| is_group(cell, sign));
    match (clear('.'), clear(',')) {
        (true, false) => Decimals::Sure(DecimalMark::Point),
        (false, true) => Decimals::Sure(DecimalMark::Comma),
        (true, true) if group('.') || group(',') => Decimals::Ask,
        (false, false) if group('.') && figures().any(|cell| cell.contains(',')) => Decimals::Ask,
        _ => Decimals::Sure(usual),
    }
}

/// The digits in front of a cell, with the signs among them.
fn digits(cell: &str) -> &str {
    let cell = cell.trim().trim_start_matches(['-', '−', '+']);
    let end = cell
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
        .unwrap_or(cell.len());
    &cell[..end]
}

fn is_figure(cell: &str) -> bool {
    digits(cell).starts_with(|c: char| c.is_ascii_digit())
}

/// One sign with one to three digits before it and three behind: decimals or thousands.
fn is_group(cell: &str, sign: char) -> bool {
    let whole_and_rest = digits(cell).split_once(sign);
    whole_and_rest.is_some_and(|(whole, rest)| {
        (1..=3).contains(&whole.len())
            && rest.len() == 3
            && !whole.starts_with('0')
            && (whole.to_owned() + rest).bytes().all(|b| b.is_ascii_digit())
    })
}

/// A sign that cannot stand between thousands.
fn is_clear_decimal(cell: &str, sign: char) -> bool {
    let other = if sign == '.' { ',' } else { '.' };
    let Some((whole, rest)) = digits(cell).rsplit_once(sign) else {
        return false;
    };
    !whole.contains(sign)
        && !rest.contains(other)
        && !rest.is_empty()
        && (whole.contains(other) || !is_group(cell, sign))
}

/// A cell as it is typed into the plan: a bare number in another unit than the plan's own gets it written behind, and one with other decimals is written
/// with the plan's.
pub fn as_typed(text: &str, take: Take, kind: Kind, typing: Typing, decimals: DecimalMark) -> String {
    let (Some(unit), Some(own)) = (take.unit, kind.unit(typing)) else {
        return text.to_owned();
    };
    if decimals != typing.mark
        && let Reading::Is(si) = read_si(text, unit, decimals, unit.dimension())
    {
        return if read_si(text, own, typing.mark, own.dimension()) == Reading::Is(si) {
            text.to_owned()
        } else {
            written_si(si, unit, typing.mark)
        };
    }
    if unit == own || text.is_empty() {
        return text.to_owned();
    }
    let named = format!("{text} {}", unit.symbol());
    if is_read(&named, own, typing.mark) {
        named
    } else {
        text.to_owned()
    }
}

fn is_read(text: &str, unit: Unit, mark: DecimalMark) -> bool {
    understood(text, unit, mark, Nuance::None).trouble.is_empty()
}

/// What a block becomes, and what in it could not be read.
pub struct Taken {
    /// The rows.
    pub rows: Vec<Fresh>,
    /// Line by line what could not be read.
    pub troubles: Vec<String>,
}

/// Turns a block into rows; of several boxes only those of one: a column and the name in it.
pub fn taken(
    block: &Block,
    mapping: &Mapping,
    columns: &[Plain],
    typing: Typing,
    decimals: DecimalMark,
    only: Option<(usize, &str)>,
) -> Taken {
    let mut rows: Vec<Fresh> = Vec::new();
    let mut troubles = Vec::new();
    for (at, cells) in block.iter().enumerate().skip(usize::from(mapping.headed)) {
        if only.is_some_and(|(column, name)| cells.get(column).map(String::as_str) != Some(name)) {
            continue;
        }
        let mut row = Fresh::new();
        for (cell, take) in cells.iter().zip(&mapping.takes) {
            let Some((take, column)) = take.and_then(|take| Some((take, columns.get(take.column)?))) else {
                continue;
            };
            let text = as_typed(cell, take, column.kind, typing, decimals);
            if let Some(own) = column.kind.unit(typing) {
                let says = understood(&text, own, typing.mark, Nuance::None);
                if !says.trouble.is_empty() {
                    troubles.push(format!(
                        "line {}, {}: {}",
                        at + 1,
                        column.head.to_lowercase(),
                        says.trouble
                    ));
                }
            }
            row.push((take.column, text));
        }
        rows.push(row);
    }
    Taken { rows, troubles }
}
