//! What goes on paper, as data: one sheet a lift for the cab, one card a box for the rigger, the site to scale, the list of the truck's rigging, the sequence, the crane order, what the day costs.
//!
//! A [`Sheet`] is one page. How much fits on it is reckoned here (`page.rs`), with the measures that the page's style sheet has too.

mod card;
mod cautions;
mod crane_order;
mod hire;
mod lift;
mod list;
mod page;
mod sequence;
mod site;
#[cfg(test)]
mod tests;

pub use card::rigging_card;
pub use crane_order::crane_order_sheet;
pub use hire::{MONEY_CAUTION, hire_sheet, money_note};
pub use lift::{lift_sheet, stop};
pub use list::rigging_list;
pub use page::Format;
pub use sequence::sequence_sheet;
pub use site::site_sheet;

use crate::check::Outcome;
use crate::drawing::{Scene, tape};
use crate::evaluate::Assessment;
use crate::plan::{Plan, Standing, checksum};
use crate::quantity::UnitSystem;

/// One sheet: one page.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What it is: "Lift 5 of 8, box B1".
    pub title: String,
    /// The title block: label and value.
    pub header: Vec<(String, String)>,
    /// The line right below the title.
    pub caution: String,
    /// Why it is void, where it is.
    pub void: Option<String>,
    /// What it says, in order.
    pub sections: Vec<Section>,
    /// What stands at the bottom.
    pub footer: Footer,
}

/// A part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading; none where its rows say what they are.
    pub heading: String,
    /// What is in it.
    pub content: Content,
    /// Where it stands.
    pub place: Place,
    /// Set large: what must be read first, or from two steps away.
    pub large: bool,
    /// In how many columns beside each other its contents run.
    pub columns: usize,
}

/// Where a section stands on its page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// From margin to margin.
    Across,
    /// In the narrow column at the left of a band.
    Left,
    /// Right of that column, beside others like it.
    Right,
}

/// What a section holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// What came out: its word and a sentence.
    Outcome(Outcome, String),
    /// The figures that decide, set large.
    Figures(Vec<KeyFigure>),
    /// Label and value.
    Rows(Vec<(String, String)>),
    /// Sentences.
    Lines(Vec<String>),
    /// Sentences that run on, each with a word in front.
    Run(Vec<(String, String)>),
    /// Sentences, each with a square to tick.
    Ticks(Vec<String>),
    /// A table.
    Table {
        /// Column heads.
        head: Vec<String>,
        /// Width of each column as a share of the table's.
        shares: Vec<f64>,
        /// Rows, each as long as the head.
        rows: Vec<Vec<String>>,
    },
    /// Checks with their figures and their outcomes.
    Checks(Vec<CheckRow>),
    /// Labels, each with a line to write on.
    Blanks(Vec<String>),
    /// A drawing at its true size.
    Drawing(Box<Scene>),
}

/// A figure that decides.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyFigure {
    /// What it is.
    pub label: String,
    /// The figure with its unit.
    pub value: String,
    /// What it is held against, or where it holds.
    pub below: String,
}

/// A check on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckRow {
    /// What is checked, and what is to be said about it.
    pub what: String,
    /// Demand, limit, share of the limit; `None` where nothing is compared.
    pub figures: Option<[String; 3]>,
    /// How it came out.
    pub outcome: Outcome,
}

/// The bottom of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Footer {
    /// Project, revision and its date.
    pub project: String,
    /// What sort of sheet: "lift sheet".
    pub sort: &'static str,
    /// Which sheet of how many of its sort.
    pub page: (usize, usize),
    /// It goes on from the page before it, which has the same number.
    pub continued: bool,
    /// What the plan's file came to when the sheet was made: a changed plan shows as another figure.
    pub checksum: String,
    /// The line of caution.
    pub caution: String,
    /// Across the sheet, where the data are invented.
    pub watermark: Option<String>,
}

/// The line at the top of each sheet.
pub const CAUTION: &str =
    "Planning aid, not a permit. A qualified lift planner, the operator and the rules where you are decide.";

impl Footer {
    /// "lift sheet 5 / 8", and whether it goes on from the page before it.
    pub fn number(&self) -> String {
        let ((n, of), continued) = (self.page, if self.continued { ", continued" } else { "" });
        format!("{} {n} / {of}{continued}", self.sort)
    }
}

impl Section {
    fn new(heading: &str, content: Content) -> Self {
        Self {
            heading: heading.to_owned(),
            content,
            place: Place::Across,
            large: false,
            columns: 1,
        }
    }
    fn rows(heading: &str, rows: Vec<(String, String)>) -> Self {
        Self::new(heading, Content::Rows(rows))
    }
    fn lines<T: Into<String>>(heading: &str, lines: impl IntoIterator<Item = T>) -> Self {
        Self::new(heading, Content::Lines(lines.into_iter().map(Into::into).collect()))
    }
    fn run(sentences: &[(&str, &str)]) -> Self {
        let sentences = sentences.iter().map(|(word, text)| ((*word).into(), (*text).into()));
        Self::new("", Content::Run(sentences.collect())).columns(2)
    }
    fn blanks(heading: &str, labels: &[&str]) -> Self {
        Self::new(
            heading,
            Content::Blanks(labels.iter().map(|l| (*l).to_owned()).collect()),
        )
    }
    fn table(heading: &str, head: &[(&str, f64)], rows: Vec<Vec<String>>) -> Self {
        let (head, shares) = head.iter().map(|(name, share)| ((*name).to_owned(), *share)).unzip();
        Self::new(heading, Content::Table { head, shares, rows })
    }
    fn drawing(scene: Scene) -> Self {
        Self::new("", Content::Drawing(Box::new(scene))).at(Place::Right)
    }
    fn large(mut self) -> Self {
        self.large = true;
        self
    }
    fn columns(mut self, columns: usize) -> Self {
        self.columns = columns;
        self
    }
    fn at(mut self, place: Place) -> Self {
        self.place = place;
        self
    }
    /// A row that stands for a check.
    fn checks(heading: &str, rows: Vec<CheckRow>) -> Self {
        Self::new(heading, Content::Checks(rows))
    }
}

impl Sheet {
    /// Every text on it in reading order; a drawing gives its facts.
    pub fn text(&self) -> String {
        let mut lines = vec![self.title.clone(), self.caution.clone()];
        lines.extend(self.void.clone());
        let pair = |(label, value): &(String, String)| format!("{label}: {value}");
        lines.extend(self.header.iter().map(pair));
        for section in &self.sections {
            lines.push(section.heading.clone());
            match &section.content {
                Content::Outcome(_, sentence) => lines.push(sentence.clone()),
                Content::Figures(figures) => {
                    lines.extend(figures.iter().map(|f| format!("{}: {} {}", f.label, f.value, f.below)));
                }
                Content::Rows(rows) | Content::Run(rows) => lines.extend(rows.iter().map(pair)),
                Content::Lines(text) | Content::Ticks(text) | Content::Blanks(text) => {
                    lines.extend(text.iter().cloned());
                }
                Content::Table { head, rows, .. } => {
                    lines.push(head.join(" | "));
                    lines.extend(rows.iter().map(|row| row.join(" | ")));
                }
                Content::Checks(rows) => lines.extend(rows.iter().map(|row| {
                    let figures = row.figures.as_ref().map_or_else(String::new, |f| f.join(" | "));
                    format!("{} | {figures} | {}", row.what, row.outcome.word())
                })),
                Content::Drawing(scene) => lines.extend(scene.facts.iter().cloned()),
            }
        }
        lines.push(self.footer.project.clone());
        lines.push(self.footer.number());
        lines.extend(self.footer.watermark.clone());
        lines.join("\n")
    }
}

/// A sheet with nothing on it yet: its title block, its foot, and whether it is void. `sort` and `page` stand in the foot.
fn blank(
    plan: &Plan,
    assessment: &Assessment,
    title: String,
    (sort, page): (&'static str, (usize, usize)),
    with_crane: bool,
) -> Sheet {
    Sheet {
        title,
        header: header(plan, assessment, with_crane),
        caution: CAUTION.into(),
        void: void(plan),
        sections: Vec::new(),
        footer: footer(plan, sort, page),
    }
}

fn void(plan: &Plan) -> Option<String> {
    match plan.standing() {
        Standing::Void(issue) => Some(format!(
            "VOID: the plan has changed since revision {} was issued on {}. Do not use, destroy this sheet",
            issue.revision, issue.date
        )),
        Standing::NotIssued | Standing::Issued(_) => None,
    }
}

/// What every sheet's title block holds; what is not entered says so. With the crane as it is set up, where the sheet is for the cab.
fn header(plan: &Plan, assessment: &Assessment, with_crane: bool) -> Vec<(String, String)> {
    let entered = |text: &str| {
        let text = text.trim();
        if text.is_empty() { "not entered" } else { text }.to_owned()
    };
    let project = &plan.project;
    let revision = format!("{} {}", project.revision, project.revised);
    let mut cells = vec![
        ("Place", entered(&project.place)),
        ("Set day", entered(&project.set_day)),
        ("Revision", entered(&revision)),
        ("Status", plan.status()),
    ];
    if with_crane {
        cells.push(("Crane", entered(&assessment.crane.name)));
        cells.push(("Set-up", set_up(plan, assessment.units)));
    }
    cells
        .into_iter()
        .map(|(label, value)| (label.to_owned(), value))
        .collect()
}

/// The configuration of the crane's chart, the parts of line and the mats.
fn set_up(plan: &Plan, units: UnitSystem) -> String {
    let known = |what: &str, text: &str| match text.trim() {
        "" => format!("{what} not known"),
        text => format!("{what} {text}"),
    };
    let crane = plan.crane(&plan.set_up.crane);
    let chart = crane.and_then(|c| c.charts.iter().find(|chart| chart.id == plan.set_up.chart.0));
    let (Some(crane), Some(chart)) = (crane, chart) else {
        return "not known".into();
    };
    let setting = &chart.configuration;
    let mat = crane
        .mat
        .not_negative()
        .map_or(String::new(), |m| tape(m.to_m(), units));
    [
        known("counterweight", setting.counterweight.text()),
        known("outriggers", &setting.outriggers),
        known("sector", &setting.sector),
        format!("{} parts", crane.parts),
        known("mats", &mat),
    ]
    .join(", ")
}

fn footer(plan: &Plan, sort: &'static str, page: (usize, usize)) -> Footer {
    let project = &plan.project;
    let entered = |word: &str, text: &str| match text.trim() {
        "" => format!("{word} not entered"),
        text => format!("{word} {text}"),
    };
    let revision = format!("{} {}", project.revision, project.revised);
    let name = [
        project.name.trim().to_owned(),
        project.owner.trim().to_owned(),
        entered("revision", &revision),
        entered("prepared by", &project.prepared_by),
    ];
    Footer {
        project: name
            .iter()
            .filter(|part| !part.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join(", "),
        sort,
        page,
        continued: false,
        checksum: checksum(plan),
        caution: "Not a permit. Destroy older sheets.".into(),
        watermark: project
            .invented
            .then(|| "INVENTED SAMPLE, never use it for a lift".to_owned()),
    }
}
