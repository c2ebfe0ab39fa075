//! The plan file: plain JSON with a format name and a version, readable in ten years.

use super::{HouseBox, Plan};
use crate::json::Json as _;
use serde_json::{Map, Value};
use std::rc::Rc;

/// The format's name, in every file.
pub const FORMAT: &str = "setday plan";
/// The version that this build writes.
pub const VERSION: u64 = 1;

/// One step of migration: from a version to the next one.
type Step = fn(Value) -> Value;

/// The steps from version 1 up; adding a version without its step does not compile.
const STEPS: [Step; VERSION as usize - 1] = [];

/// Why a file could not be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OpenError {
    /// Not JSON, or broken off: where, and what was read.
    Unreadable {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader found.
        found: String,
    },
    /// JSON, but not a plan of ours.
    OtherFormat {
        /// What the file says it is.
        found: String,
    },
    /// Written by a newer build.
    TooNew {
        /// The file's version.
        found: u64,
    },
    /// Has the right name, but a part is not what a plan holds.
    Broken {
        /// What the reader found.
        found: String,
    },
}

impl core::fmt::Display for OpenError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Unreadable { line, column, found } => write!(
                f,
                "the file stops making sense at line {line}, column {column} ({found}): expected a whole Setday plan file; it may be half-written: open an earlier copy"
            ),
            Self::OtherFormat { found } => write!(
                f,
                "the file says it is {found}: expected \"format\": \"{FORMAT}\"; choose a file that was saved by Setday"
            ),
            Self::TooNew { found } => write!(
                f,
                "the file is version {found}, this build reads up to version {VERSION}: open it with a newer Setday"
            ),
            Self::Broken { found } => {
                write!(
                    f,
                    "a part of the plan could not be read ({found}): nothing was opened, the file is unchanged; open an earlier copy or mend that part"
                )
            }
        }
    }
}

/// A plan that was opened, and what in the file was not taken over.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The plan.
    pub plan: Plan,
    /// Places in the file that this build did not understand or reads differently, as paths.
    pub notes: Vec<String>,
}

/// Writes a plan as a file.
pub fn save(plan: &Plan) -> String {
    let mut file = Map::new();
    file.insert("format".into(), FORMAT.into());
    file.insert("version".into(), VERSION.into());
    file.insert(
        "caution".into(),
        "A planning aid. A qualified lift planner, the operator, the crane's own chart and the local rules decide."
            .into(),
    );
    file.insert("plan".into(), plan.write());
    serde_json::to_string_pretty(&Value::Object(file)).expect("a JSON value always becomes text") + "\n"
}

/// Writes a plan anew after each edit: a box that has not changed since keeps its text, so that the size of the house does not slow the typing.
#[derive(Debug, Default)]
pub struct Saver {
    plan: Rc<Plan>,
    boxes: Vec<String>,
}

/// How the list of boxes of a plan without any stands in its file.
const NO_BOXES: &str = "\n    \"boxes\": []";

impl Saver {
    /// The same text as [`save`] gives.
    pub fn save(&mut self, plan: &Rc<Plan>) -> String {
        let known = core::mem::replace(&mut self.plan, Rc::clone(plan));
        for (at, house) in plan.boxes.iter().enumerate() {
            if at >= self.boxes.len() {
                self.boxes.push(indented(house));
            } else if known.boxes.get(at) != Some(house) {
                self.boxes[at] = indented(house);
            }
        }
        self.boxes.truncate(plan.boxes.len());
        let rest = save(&Plan {
            boxes: Vec::new().into(),
            ..(**plan).clone()
        });
        let Some((before, behind)) = rest.split_once(NO_BOXES).filter(|_| !self.boxes.is_empty()) else {
            return rest;
        };
        let mut text =
            String::with_capacity(rest.len() + self.boxes.iter().map(|text| text.len() + 2).sum::<usize>() + 32);
        text.push_str(before);
        text.push_str("\n    \"boxes\": [");
        for (at, house) in self.boxes.iter().enumerate() {
            text.push_str(if at == 0 { "\n" } else { ",\n" });
            text.push_str(house);
        }
        text.push_str("\n    ]");
        text.push_str(behind);
        text
    }
}

/// A box as it stands in the list of the file. No line of its text is broken inside a string.
fn indented(house: &HouseBox) -> String {
    let text = serde_json::to_string_pretty(&house.write()).expect("a JSON value always becomes text");
    format!("      {}", text.replace('\n', "\n      "))
}

/// Reads a plan file of this or an older version.
pub fn open(text: &str) -> Result<Opened, OpenError> {
    let file: Value = serde_json::from_str(text).map_err(|error| OpenError::Unreadable {
        line: error.line(),
        column: error.column(),
        found: error.to_string(),
    })?;
    match file.get("format").and_then(Value::as_str) {
        Some(FORMAT) => {}
        Some(other) => {
            return Err(OpenError::OtherFormat {
                found: format!("\"{other}\""),
            });
        }
        None => {
            return Err(OpenError::OtherFormat {
                found: "a file without a format name".into(),
            });
        }
    }
    let Some(version) = file.get("version").and_then(Value::as_u64).filter(|v| *v >= 1) else {
        return Err(OpenError::Broken {
            found: "no version number".into(),
        });
    };
    if version > VERSION {
        return Err(OpenError::TooNew { found: version });
    }
    let body = STEPS
        .iter()
        .skip(version as usize - 1)
        .fold(file, |value, step| step(value));
    let body = body.get("plan").cloned().ok_or(OpenError::Broken {
        found: "no plan in it".into(),
    })?;
    let mut plan = Plan::default();
    plan.read(body.clone()).map_err(|error| OpenError::Broken {
        found: format!("plan.{error}"),
    })?;
    let mut notes = Vec::new();
    let read = plan.write();
    differences(&body, &read, "plan", &mut notes);
    Ok(Opened { plan, notes })
}

/// Lists what the file holds and the plan does not, or holds otherwise, by its path.
fn differences(file: &Value, read: &Value, path: &str, notes: &mut Vec<String>) {
    match (file, read) {
        (Value::Object(a), Value::Object(b)) => {
            for (key, value) in a {
                let path = format!("{path}.{key}");
                match b.get(key) {
                    Some(other) => differences(value, other, &path, notes),
                    None if matches!(value, Value::Null | Value::Bool(false)) => {}
                    None => notes.push(format!("{path}: not understood by this build, left out")),
                }
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            for (index, (value, other)) in a.iter().zip(b).enumerate() {
                differences(value, other, &format!("{path}[{}]", index + 1), notes);
            }
        }
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap_or(f64::NAN), b.as_f64().unwrap_or(f64::NAN));
            if (a - b).abs() > 1e-9 * a.abs().max(1.0) {
                notes.push(format!(
                    "{path}: the file says {a}, what was typed gives {b}, which is used"
                ));
            }
        }
        (a, b) if a == b => {}
        (a, b) => notes.push(format!("{path}: the file says {a}, read as {b}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample;

    #[test]
    fn a_plan_written_after_each_edit_is_the_same_file() {
        let mut saver = Saver::default();
        let mut plan = sample::plan();
        let edits: [fn(&mut Plan); 7] = [
            |_| {},
            |plan| plan.boxes[1].name = "two\nlines \"boxes\": []".into(),
            |plan| plan.project.name = "another".into(),
            |plan| drop(plan.boxes.remove(0)),
            |plan| plan.boxes.push(HouseBox::default()),
            |plan| plan.boxes.swap(0, 2),
            |plan| plan.boxes.clear(),
        ];
        for edit in edits {
            edit(&mut plan);
            assert_eq!(saver.save(&Rc::new(plan.clone())), save(&plan));
        }
    }
}
