//! A rating chart out of pasted text: nothing filled in, nothing converted unasked.

use super::chart_table::{Across, Table, tables};
use super::chart_words::{Hints, MarkEvidence, mark_evidence, own_unit, says_angle_or_parts};
use super::grid::{Grid, grid};
use crate::crane::{
    CellReading, ChartRow, Configuration, Deductions, IssueKind, RatingChart, Support, read_cell, split_marks,
};
use crate::quantity::{DecimalMark, Entry, Length, Mass, Readable, Safe, Said, Unit, show};
use serde::Serialize;
use std::collections::BTreeMap;

/// What the importer may have to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum QuestionId {
    /// Which of several tables.
    Table,
    /// Which sign stands before the decimals.
    DecimalMark,
    /// What the columns are.
    Columns,
    /// Unit of radii and boom lengths.
    LengthUnit,
    /// Unit of capacities.
    CapacityUnit,
    /// On outriggers or on tyres.
    Support,
}

/// Something only the person with the printed chart can say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Question {
    /// Which one it is: the key of its answer.
    pub id: QuestionId,
    /// The question.
    pub text: String,
    /// The answers to choose from.
    pub choices: Vec<Choice>,
}

/// One possible answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// What goes into [`ChartAnswers`].
    pub key: String,
    /// What a person reads.
    pub text: String,
}

/// What is known besides the pasted text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChartAnswers {
    /// The class of the crane, a plausible largest capacity.
    pub crane_class: Option<Mass>,
    /// The keys chosen so far.
    pub given: BTreeMap<QuestionId, String>,
}

impl ChartAnswers {
    /// The same with one more answer.
    #[must_use]
    pub fn with(mut self, id: QuestionId, key: impl Into<String>) -> Self {
        self.given.insert(id, key.into());
        self
    }
}

/// Something the importer did or saw.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Note {
    /// Line of the pasted text, from 1.
    pub line: Option<usize>,
    /// What there is to know.
    pub text: String,
}

/// What became of a pasted chart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChartImport {
    /// The chart, once no question is open; its `id` is left empty. [`RatingChart::table`] tells what is odd in it.
    pub chart: Option<RatingChart>,
    /// What has to be answered first.
    pub questions: Vec<Question>,
    /// What was seen on the way.
    pub notes: Vec<Note>,
}

/// Reads a rating chart from our own CSV form, from a spreadsheet or from the text of a page.
///
/// Columns stand between tabs, semicolons, commas or bars, or under each other behind at least two spaces. Radii may run
/// down or across. Blanks and dashes stay "not allowed". Lines of text are kept as footnotes. Where the text leaves
/// something open, or its largest capacity does not fit the crane, it is asked and there is no chart yet.
pub fn read_chart(text: &str, answers: &ChartAnswers) -> ChartImport {
    let mut desk = Desk {
        answers,
        questions: Vec::new(),
        notes: Vec::new(),
    };
    let chart = desk.chart(&grid(text));
    let chart = if desk.questions.is_empty() { chart } else { None };
    ChartImport {
        chart,
        questions: desk.questions,
        notes: desk.notes,
    }
}

/// Where a chart is put together: open questions and notes pile up here.
struct Desk<'a> {
    answers: &'a ChartAnswers,
    questions: Vec<Question>,
    notes: Vec<Note>,
}

impl Desk<'_> {
    fn note(&mut self, line: Option<usize>, text: impl Into<String>) {
        self.notes.push(Note {
            line,
            text: text.into(),
        });
    }

    /// The answer given to a question; else the question is put.
    fn ask(&mut self, id: QuestionId, text: String, choices: Vec<Choice>) -> Option<String> {
        if let Some(given) = self.answers.given.get(&id) {
            if choices.iter().any(|c| c.key == *given) {
                return Some(given.clone());
            }
            self.note(None, format!("the answer \"{given}\" is none of the choices"));
        }
        self.questions.push(Question { id, text, choices });
        None
    }

    fn chart(&mut self, grid: &Grid) -> Option<RatingChart> {
        let (tables, lines_of_text) = tables(grid);
        let table = self.chosen_table(tables)?;
        if table.head_texts().iter().all(String::is_empty) {
            self.note(
                None,
                "no boom lengths stand above the table: paste the row of heads too",
            );
            return None;
        }
        self.note_lines_between_rows(&table, &lines_of_text);
        let mut hints = Hints::default();
        let heads = table.heads.iter().flatten().map(String::as_str);
        let texts = lines_of_text
            .iter()
            .chain(&grid.comments)
            .map(|(_, text)| text.as_str());
        heads.chain(texts).for_each(|text| hints.scan(text));
        let decimal = self.decimal_mark(&table, grid.delimiter);
        let across = self.across(&table);
        let support = self.support(&grid.comments, hints.on_rubber);
        let table = if across? == Across::Radii {
            self.turned(&table)
        } else {
            table
        };
        let booms = table.head_texts();
        let (radius_unit, boom_unit) = self.length_units(&table, &booms, &hints);
        let capacity_unit = self.capacity_unit(&table, &hints, decimal);
        let rows = table
            .rows
            .into_iter()
            .map(|r| ChartRow {
                radius: r.label,
                cells: r.cells,
            })
            .collect();
        let mut chart = RatingChart {
            radius_unit,
            boom_unit,
            capacity_unit,
            decimal: decimal?,
            booms,
            rows,
            ..RatingChart::default()
        };
        chart.configuration.support = support?;
        self.add_text(&mut chart, &grid.comments, &lines_of_text);
        self.look_over(&chart)?;
        Some(chart)
    }

    fn note_lines_between_rows(&mut self, table: &Table, lines_of_text: &[(usize, String)]) {
        let (Some(first), Some(last)) = (table.rows.first(), table.rows.last()) else {
            return;
        };
        for (line, text) in lines_of_text
            .iter()
            .filter(|(line, _)| (first.line..last.line).contains(line))
        {
            self.note(
                Some(*line),
                format!("not read as a row, kept as a footnote: \"{text}\""),
            );
        }
    }

    fn chosen_table(&mut self, mut tables: Vec<Table>) -> Option<Table> {
        if tables.is_empty() {
            self.note(
                None,
                "no table found: expected rows that begin with a radius, with tabs, semicolons, commas or at least two \
                 spaces between the columns",
            );
            return None;
        }
        if tables.len() == 1 {
            return tables.pop();
        }
        let choices = tables
            .iter()
            .enumerate()
            .map(|(i, t)| choice(&(i + 1).to_string(), t.described()))
            .collect();
        let text = format!(
            "{} tables found, for {} configurations or cranes: each is a chart of its own. Which one is to be read now?",
            tables.len(),
            tables.len()
        );
        let chosen = self.ask(QuestionId::Table, text, choices)?;
        let index = chosen.parse::<usize>().ok()?.checked_sub(1)?;
        (index < tables.len()).then(|| tables.swap_remove(index))
    }

    fn decimal_mark(&mut self, table: &Table, delimiter: Option<char>) -> Option<DecimalMark> {
        let evidence: Vec<(MarkEvidence, &str)> = table
            .figures()
            .map(|text| (mark_evidence(text), text))
            .filter(|(e, _)| *e != MarkEvidence::None)
            .collect();
        let first = |wanted: MarkEvidence| evidence.iter().find(|(e, _)| *e == wanted).map(|(_, text)| *text);
        let point = first(MarkEvidence::Only(DecimalMark::Point));
        let comma = first(MarkEvidence::Only(DecimalMark::Comma));
        let doubtful = match (point, comma) {
            (Some(_), None) => return Some(DecimalMark::Point),
            (None, Some(text)) => {
                self.note(None, format!("\"{text}\" read with a decimal comma"));
                return Some(DecimalMark::Comma);
            }
            (Some(point), Some(comma)) => format!("\"{point}\" and \"{comma}\" stand in one table"),
            (None, None) => {
                let dotted = first(MarkEvidence::Either { sign: '.' });
                // where semicolons part the columns, commas are often decimal
                let commas = first(MarkEvidence::Either { sign: ',' }).filter(|_| delimiter == Some(';'));
                match dotted.or(commas) {
                    Some(text) => format!("\"{text}\" may have thousands or three decimals"),
                    None => return Some(DecimalMark::Point),
                }
            }
        };
        let choices = vec![choice(".", "the point: 12.5"), choice(",", "the comma: 12,5")];
        let answer = self.ask(
            QuestionId::DecimalMark,
            format!("{doubtful}: which sign stands before the decimals in this chart?"),
            choices,
        )?;
        Some(if answer == "," {
            DecimalMark::Comma
        } else {
            DecimalMark::Point
        })
    }

    /// What runs across the top: as the words say if the figures agree, else asked.
    fn across(&mut self, table: &Table) -> Option<Across> {
        let odd_heads = table
            .heads
            .iter()
            .flat_map(|line| line.iter().skip(1))
            .any(|head| says_angle_or_parts(head));
        if !odd_heads && !self.answers.given.contains_key(&QuestionId::Columns) {
            let agreed = match (table.across_by_words(), table.across_by_figures()) {
                (Some(words), Some(figures)) => (words == figures).then_some(words),
                (one, other) => one.or(other),
            };
            if let Some(across) = agreed.filter(|&across| table.may_have_booms(across)) {
                return Some(across);
            }
        }
        self.ask_columns(&table.head_texts().join(", "))
    }

    fn ask_columns(&mut self, heads: &str) -> Option<Across> {
        let choices = vec![
            choice("booms", "boom lengths"),
            choice("radii", "radii"),
            choice("other", "boom angles, parts of line or something else"),
        ];
        let answer = self.ask(
            QuestionId::Columns,
            format!("The columns are headed {heads}: what is that?"),
            choices,
        )?;
        match answer.as_str() {
            "booms" => Some(Across::Booms),
            "radii" => Some(Across::Radii),
            _ => {
                self.note(
                    None,
                    "a table by boom angle or parts of line is not read: paste the table by boom length",
                );
                None
            }
        }
    }

    fn turned(&mut self, table: &Table) -> Table {
        self.note(None, "the radii ran across: the table was turned");
        table.turned()
    }

    fn support(&mut self, comments: &[(usize, String)], on_rubber: bool) -> Option<Support> {
        match value_of(comments, "support").map(str::to_lowercase).as_deref() {
            Some("outriggers") => return Some(Support::Outriggers),
            Some("rubber") => return Some(Support::Rubber),
            Some("crawlers") => return Some(Support::Crawlers),
            Some(other) => self.note(
                None,
                format!("support \"{other}\": expected outriggers, rubber or crawlers"),
            ),
            None => {}
        }
        if !on_rubber {
            return Some(Support::Outriggers);
        }
        let choices = vec![
            choice("outriggers", "on outriggers"),
            choice("rubber", "on tyres, standing or driving"),
            choice("crawlers", "on crawlers"),
        ];
        let answer = self.ask(
            QuestionId::Support,
            "The text speaks of tyres: what does the crane stand on while this chart holds?".to_owned(),
            choices,
        )?;
        Some(match answer.as_str() {
            "rubber" => Support::Rubber,
            "crawlers" => Support::Crawlers,
            _ => Support::Outriggers,
        })
    }

    /// Units of bare radii and bare boom lengths; what the text leaves open is asked once for both.
    fn length_units(&mut self, table: &Table, booms: &[String], hints: &Hints) -> (Option<Unit>, Option<Unit>) {
        let radius = shared_unit::<Length>(table.rows.iter().map(|r| r.label.as_str()));
        let radius = radius.or(hints.radius.unit()).or(hints.length.unit());
        let boom = shared_unit::<Length>(booms.iter().map(String::as_str))
            .or(hints.boom.unit())
            .or(hints.length.unit());
        if radius.is_some() && boom.is_some() {
            return (radius, boom);
        }
        let what = match (radius, boom) {
            (None, None) => "radii and boom lengths",
            (None, Some(_)) => "radii",
            _ => "boom lengths",
        };
        let figure = table.rows.first().map_or("", |r| r.label.as_str());
        let text = format!("Which unit are the {what} in? The first radius reads \"{figure}\"");
        let asked = self.ask(
            QuestionId::LengthUnit,
            text,
            vec![choice("ft", "feet"), choice("m", "metres")],
        );
        let asked = asked.map(|key| if key == "ft" { Unit::Ft } else { Unit::M });
        (radius.or(asked), boom.or(asked))
    }

    /// Unit of bare capacities: as the text says if the largest one fits the crane, else asked.
    fn capacity_unit(&mut self, table: &Table, hints: &Hints, decimal: Option<DecimalMark>) -> Option<Unit> {
        let cells = || table.rows.iter().flat_map(|r| &r.cells).map(String::as_str);
        let stated =
            shared_unit::<Mass>(cells().filter(|c| c.contains(|c: char| c.is_ascii_digit()))).or(hints.capacity.unit());
        let decimal = decimal?;
        let largest = |unit| {
            let capacities = cells().filter_map(|cell| match read_cell(cell, unit, decimal) {
                CellReading::Capacity(mass) => Some(mass),
                CellReading::NotAllowed | CellReading::Wrong(_) => None,
            });
            capacities.reduce(Mass::max)
        };
        let class = self.answers.crane_class;
        let text = match (stated, class) {
            (Some(unit), None) => return Some(unit),
            (Some(unit), Some(class)) => {
                let largest = largest(unit)?;
                if fits_class(largest, class) {
                    return Some(unit);
                }
                format!(
                    "The largest capacity would be {}, and the crane is of the {} class: which unit are the capacities in?",
                    show(largest, unit, 1, Safe::Nearest),
                    show(class, Unit::T, 0, Safe::Nearest)
                )
            }
            (None, _) => "Which unit are the capacities in?".to_owned(),
        };
        let choices = [Unit::T, Unit::Kip, Unit::Lb, Unit::Kg, Unit::UsTon]
            .into_iter()
            .map(|unit| {
                let would_be = largest(unit).map_or(String::new(), |m| format!(": the largest is {}", in_both(m)));
                choice(unit.symbol(), format!("{}{would_be}", unit.name()))
            });
        let answer = self.ask(QuestionId::CapacityUnit, text, choices.collect())?;
        Unit::spelled::<Mass>(&answer)
    }

    /// Name, configuration, source and footnotes, out of the comments of our own form and the lines of text.
    fn add_text(&mut self, chart: &mut RatingChart, comments: &[(usize, String)], lines: &[(usize, String)]) {
        let value = |key| value_of(comments, key).unwrap_or_default().to_owned();
        let title = lines.first().map(|(_, text)| text.clone()).unwrap_or_default();
        chart.name = value_of(comments, "name").map_or(title, str::to_owned);
        let bare = chart.capacity_unit.unwrap_or(Unit::T);
        chart.configuration = Configuration {
            counterweight: Entry::typed_with(value("counterweight"), bare, chart.decimal),
            outriggers: value("outriggers"),
            sector: value("sector"),
            support: chart.configuration.support,
            outrigger_load: Entry::typed_with(value("largest outrigger load"), bare, chart.decimal),
            rated_by: value("rated by"),
            ..Configuration::default()
        };
        chart.said = Said {
            who: value("source"),
            when: value("date"),
            note: String::new(),
        };
        chart.includes = self.deductions(comments);
        let loose = comments.iter().filter(|(_, text)| key_and_value(text).is_none());
        chart.footnotes = loose.chain(lines).map(|(_, text)| text.clone()).collect();
    }

    fn deductions(&mut self, comments: &[(usize, String)]) -> Deductions {
        let mut includes = Deductions::default();
        let listed = value_of(comments, "already taken off").unwrap_or_default();
        for item in listed.split(',').map(str::trim).filter(|item| !item.is_empty()) {
            match item.to_lowercase().as_str() {
                "hook block" => includes.hook_block = true,
                "hanging rope" => includes.hanging_rope = true,
                "rigging" => includes.rigging = true,
                "stowed attachments" => includes.stowed_attachments = true,
                "nothing" => {}
                _ => self.note(
                    None,
                    format!(
                        "\"{item}\" already taken off: expected hook block, hanging rope, rigging, stowed attachments or \
                         nothing; counted as not taken off"
                    ),
                ),
            }
        }
        includes
    }

    /// A last look at the finished chart: heads that are no boom lengths are asked, blanks and marks are counted.
    fn look_over(&mut self, chart: &RatingChart) -> Option<()> {
        if self.questions.is_empty()
            && !self.answers.given.contains_key(&QuestionId::Columns)
            && chart.table().1.iter().any(|issue| issue.kind == IssueKind::BoomHeads)
        {
            self.ask_columns(&chart.booms.join(", "))?;
        }
        let width = chart.booms.len();
        let cells = (0..chart.rows.len()).flat_map(|row| (0..width).map(move |column| chart.cell(row, column)));
        let unit = chart.capacity_unit.unwrap_or(Unit::T);
        let (mut blank, mut marked) = (0, 0);
        for cell in cells {
            match read_cell(cell, unit, chart.decimal) {
                CellReading::NotAllowed => blank += 1,
                CellReading::Capacity(_) if !split_marks(cell).1.is_empty() => marked += 1,
                CellReading::Capacity(_) | CellReading::Wrong(_) => {}
            }
        }
        self.note(
            None,
            format!("{blank} of {} cells are blank: not allowed", chart.rows.len() * width),
        );
        if marked > 0 {
            self.note(
                None,
                format!("{marked} capacities carry a footnote mark: read the footnotes"),
            );
        }
        Some(())
    }
}

fn choice(key: &str, text: impl Into<String>) -> Choice {
    Choice {
        key: key.to_owned(),
        text: text.into(),
    }
}

fn in_both(mass: Mass) -> String {
    format!(
        "{} or {}",
        show(mass, Unit::T, 1, Safe::Nearest),
        show(mass, Unit::Lb, 0, Safe::Nearest)
    )
}

/// Whether the largest capacity of a chart may belong to a crane of this class.
///
/// Judgement, no source. No chart goes above the class it is named after, and charts for less counterweight or half
/// outriggers keep more than 55 % of it at the smallest radius. Mistaken units fall outside: 1,000 lb for tonnes is a
/// factor 2.2, US tons for tonnes a factor 1.1.
fn fits_class(largest: Mass, class: Mass) -> bool {
    (0.55..=1.05).contains(&(largest / class))
}

/// The unit of `Q` behind every one of these numbers, if all have the same.
fn shared_unit<'a, Q: Readable>(mut texts: impl Iterator<Item = &'a str>) -> Option<Unit> {
    let first = own_unit::<Q>(texts.next()?)?;
    texts.all(|text| own_unit::<Q>(text) == Some(first)).then_some(first)
}

/// The keys that the comments of our own form may have.
const KEYS: [&str; 9] = [
    "name",
    "counterweight",
    "outriggers",
    "support",
    "sector",
    "capacity",
    "already taken off",
    "source",
    "date",
];

fn key_and_value(comment: &str) -> Option<(&str, &str)> {
    let (key, value) = comment.split_once(':')?;
    KEYS.into_iter()
        .find(|k| k.eq_ignore_ascii_case(key.trim()))
        .map(|k| (k, value.trim()))
}

fn value_of<'a>(comments: &'a [(usize, String)], key: &str) -> Option<&'a str> {
    comments
        .iter()
        .filter_map(|(_, text)| key_and_value(text))
        .find(|(k, _)| *k == key)
        .map(|(_, value)| value)
}
