//! What goes on paper, as data: one sheet a lift for the cab, one card a box for the rigger.
//!
//! Nothing here knows of pages or fonts: whoever prints lays a [`Sheet`] out on Letter or A4, one to a page.

mod card;
mod cautions;
mod checksum;
mod lift;
#[cfg(test)]
mod tests;

pub use card::rigging_card;
pub use checksum::{checksum, fnv1a_64};
pub use lift::{lift_sheet, trial_stop_kg};

use crate::drawing::Scene;
use crate::evaluate::Assessment;
use crate::plan::Plan;
use crate::quantity::UnitSystem;

/// One sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What it is: "Lift 5 of 8, box B1".
    pub title: String,
    /// The title block: label and value.
    pub header: Vec<(String, String)>,
    /// The line right below the title block.
    pub caution: String,
    /// What it says, in order.
    pub sections: Vec<Section>,
    /// What stands at the bottom.
    pub footer: Footer,
}

/// A part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading.
    pub heading: String,
    /// What is in it.
    pub content: Content,
    /// Set large: what must be read first.
    pub large: bool,
}

/// What a section holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// Label and value.
    Rows(Vec<(String, String)>),
    /// Sentences.
    Lines(Vec<String>),
    /// A table.
    Table {
        /// Column heads.
        head: Vec<String>,
        /// Rows, each as long as the head.
        rows: Vec<Vec<String>>,
    },
    /// Labels, each with a line to write on.
    Blanks(Vec<String>),
    /// A drawing.
    Drawing(Box<Scene>),
}

/// The bottom of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Footer {
    /// Project, revision and its date.
    pub project: String,
    /// Which sheet of how many.
    pub page: (usize, usize),
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

impl Section {
    fn new(heading: &str, content: Content) -> Self {
        Self {
            heading: heading.to_owned(),
            content,
            large: false,
        }
    }
    fn rows(heading: &str, rows: Vec<(String, String)>) -> Self {
        Self::new(heading, Content::Rows(rows))
    }
    fn lines<T: Into<String>>(heading: &str, lines: impl IntoIterator<Item = T>) -> Self {
        Self::new(heading, Content::Lines(lines.into_iter().map(Into::into).collect()))
    }
    fn blanks(heading: &str, labels: &[&str]) -> Self {
        Self::new(
            heading,
            Content::Blanks(labels.iter().map(|l| (*l).to_owned()).collect()),
        )
    }
    fn table(heading: &str, head: &[&str], rows: Vec<Vec<String>>) -> Self {
        let head = head.iter().map(|h| (*h).to_owned()).collect();
        Self::new(heading, Content::Table { head, rows })
    }
    fn drawing(scene: Scene) -> Self {
        Self::new(&scene.title.clone(), Content::Drawing(Box::new(scene)))
    }
    fn large(mut self) -> Self {
        self.large = true;
        self
    }
}

impl Sheet {
    /// Every text on it in reading order; a drawing gives its facts.
    pub fn text(&self) -> String {
        let mut lines = vec![self.title.clone(), self.caution.clone()];
        let pair = |(label, value): &(String, String)| format!("{label}: {value}");
        lines.extend(self.header.iter().map(pair));
        for section in &self.sections {
            lines.push(section.heading.clone());
            match &section.content {
                Content::Rows(rows) => lines.extend(rows.iter().map(pair)),
                Content::Lines(text) | Content::Blanks(text) => lines.extend(text.iter().cloned()),
                Content::Table { head, rows } => {
                    lines.push(head.join(" | "));
                    lines.extend(rows.iter().map(|row| row.join(" | ")));
                }
                Content::Drawing(scene) => lines.extend(scene.facts.iter().cloned()),
            }
        }
        lines.push(self.footer.project.clone());
        lines.extend(self.footer.watermark.clone());
        lines.join("\n")
    }
}

/// What every sheet's title block holds; what is not entered says so.
fn header(plan: &Plan, assessment: &Assessment) -> Vec<(String, String)> {
    let entered = |text: &str| {
        let text = text.trim();
        if text.is_empty() { "not entered" } else { text }.to_owned()
    };
    let project = &plan.project;
    let units = match project.units {
        UnitSystem::Us => "feet, pounds",
        UnitSystem::Metric => "metres, tonnes",
    };
    [
        ("Project", entered(&project.name)),
        ("Place", entered(&project.place)),
        ("Set day", entered(&project.set_day)),
        (
            "Revision",
            entered(&format!("{} {}", project.revision, project.revised)),
        ),
        ("Prepared by", entered(&project.prepared_by)),
        ("Status", "DRAFT, not reviewed".into()),
        ("Units", units.into()),
        ("Crane", entered(&assessment.crane.name)),
        ("Configuration", entered(&assessment.crane.chart)),
    ]
    .map(|(label, value)| (label.to_owned(), value))
    .to_vec()
}

fn footer(plan: &Plan, page: (usize, usize)) -> Footer {
    let project = &plan.project;
    let name = format!("{}, revision {} {}", project.name, project.revision, project.revised);
    Footer {
        project: name.trim().to_owned(),
        page,
        checksum: checksum(plan),
        caution: "Planning aid, not a permit. Destroy older sheets.".into(),
        watermark: project
            .invented
            .then(|| "INVENTED SAMPLE, never use it for a lift".to_owned()),
    }
}
