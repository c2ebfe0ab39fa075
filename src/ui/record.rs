//! What is kept of a plan beside its texts: its name, its turn, its last versions, and the rule by which one window never writes over another.
//!
//! Pure data: the rule is tested without a browser. [`super::shelf`] applies it inside one transaction of the browser's store.

use serde_json::{Value, json};

/// How many versions of a plan are kept.
pub const VERSIONS: usize = 20;
/// The record's own version; a newer one is left alone.
const RECORD: u64 = 1;

/// One version of a plan: what stands on the shelf after an edit.
#[derive(Clone, Debug, PartialEq)]
pub struct Version {
    /// The turn in which it was written.
    pub turn: u32,
    /// When, milliseconds since 1970 UTC.
    pub at_ms: f64,
    /// The edit that led to it: "box B1 ticket".
    pub edit: String,
    /// Edits of the same gesture are one version.
    pub gesture: Option<u32>,
}

/// By what a plan is known in the list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Title {
    /// The project's name.
    pub name: String,
    /// The project's place.
    pub place: String,
    /// The day of the set.
    pub set_day: String,
}

/// The record of one plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// By what it is known.
    pub title: Title,
    /// How it differs from a plan of the same name: "copy", "this window's copy".
    pub note: String,
    /// Counts the writes: whoever writes next must have seen the last one.
    pub turn: u32,
    /// The window that wrote last.
    pub window: String,
    /// Which of that window's commits this was.
    pub count: u64,
    /// The versions whose texts are kept, oldest first; the last one is the plan.
    pub versions: Vec<Version>,
}

/// A write that somebody wants to make.
#[derive(Clone, Debug)]
pub struct Next {
    /// The turn of the record that the window has seen last; 0 where it wrote none yet.
    pub turn: u32,
    /// The window that writes.
    pub window: String,
    /// Which of its commits this is.
    pub count: u64,
    /// By what the plan is known.
    pub title: Title,
    /// See [`Record::note`].
    pub note: String,
    /// When the edit was made, milliseconds since 1970 UTC.
    pub at_ms: f64,
    /// What it is called.
    pub edit: String,
    /// Its gesture.
    pub gesture: Option<u32>,
}

/// What a write comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// The record takes the place of the one that stands, and the texts of these turns go.
    Write(Record, Vec<u32>),
    /// This window wrote a later edit already.
    Late,
    /// Somebody else wrote since, deleted the plan, or what stands there cannot be read: it is left as it is.
    Conflict,
}

/// Decides on a write by what stands on the shelf. A window always knows its own writes, whatever turn it has heard of.
pub fn step(stands: Option<&str>, next: Next) -> Step {
    let record = match stands.map(Record::read) {
        None if next.turn == 0 => Record {
            title: Title::default(),
            note: String::new(),
            turn: 0,
            window: String::new(),
            count: 0,
            versions: Vec::new(),
        },
        Some(Ok(record)) if record.window == next.window && record.count >= next.count => return Step::Late,
        Some(Ok(record)) if record.window == next.window || record.turn == next.turn => record,
        _ => return Step::Conflict,
    };
    let (record, dropped) = record.with(next);
    Step::Write(record, dropped)
}

impl Record {
    /// The record after a write, and the turns whose versions are no longer kept.
    fn with(mut self, next: Next) -> (Self, Vec<u32>) {
        let turn = self.turn + 1;
        let mut dropped = Vec::new();
        let goes_on = next.gesture.is_some() && self.window == next.window;
        if goes_on && self.versions.last().is_some_and(|last| last.gesture == next.gesture) {
            dropped.extend(self.versions.pop().map(|version| version.turn));
        }
        self.versions.push(Version {
            turn,
            at_ms: next.at_ms,
            edit: next.edit,
            gesture: next.gesture,
        });
        let surplus = self.versions.len().saturating_sub(VERSIONS);
        dropped.extend(self.versions.drain(..surplus).map(|version| version.turn));
        // a plan that got a name of its own needs no note to tell it from another
        let renamed = !self.title.name.is_empty() && self.title.name != next.title.name;
        let note = if renamed { String::new() } else { next.note };
        let record = Self {
            title: next.title,
            note,
            turn,
            window: next.window,
            count: next.count,
            versions: self.versions,
        };
        (record, dropped)
    }

    /// When the plan was edited last, milliseconds since 1970 UTC.
    pub fn edited_ms(&self) -> f64 {
        self.versions.last().map_or(0.0, |version| version.at_ms)
    }

    /// "The Halden (copy)".
    pub fn label(&self) -> String {
        label(&self.title.name, &self.note)
    }

    /// The record as text.
    pub fn written(&self) -> String {
        let version = |version: &Version| json!({ "turn": version.turn, "at": version.at_ms, "edit": version.edit, "gesture": version.gesture });
        json!({
            "record": RECORD,
            "name": self.title.name,
            "place": self.title.place,
            "set_day": self.title.set_day,
            "note": self.note,
            "turn": self.turn,
            "window": self.window,
            "count": self.count,
            "versions": self.versions.iter().map(version).collect::<Vec<_>>(),
        })
        .to_string()
    }

    /// Reads what [`Record::written`] wrote. A record without a version is none: there is no text to it.
    pub fn read(text: &str) -> Result<Self, String> {
        let value: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
        match value["record"].as_u64() {
            Some(RECORD) => {}
            Some(found) => {
                return Err(format!(
                    "the record is version {found}, this build reads version {RECORD}"
                ));
            }
            None => return Err("no record of a plan".into()),
        }
        let versions = value["versions"].as_array().into_iter().flatten().map(read_version);
        let record = Self {
            title: Title {
                name: text_of(&value["name"]),
                place: text_of(&value["place"]),
                set_day: text_of(&value["set_day"]),
            },
            note: text_of(&value["note"]),
            turn: turn_of(&value["turn"]).ok_or("the record has no turn")?,
            window: text_of(&value["window"]),
            count: value["count"].as_u64().unwrap_or(0),
            versions: versions.collect::<Option<_>>().ok_or("a version has no turn")?,
        };
        match record.versions.last() {
            Some(last) if last.turn == record.turn => Ok(record),
            _ => Err("the record names no version of its turn".into()),
        }
    }
}

/// A plan's name with what tells it from another of that name.
pub fn label(name: &str, note: &str) -> String {
    let name = match name.trim() {
        "" => "Plan without a name",
        name => name,
    };
    if note.is_empty() {
        name.to_owned()
    } else {
        format!("{name} ({note})")
    }
}

fn read_version(value: &Value) -> Option<Version> {
    Some(Version {
        turn: turn_of(&value["turn"])?,
        at_ms: value["at"].as_f64().unwrap_or(0.0),
        edit: text_of(&value["edit"]),
        gesture: turn_of(&value["gesture"]),
    })
}

fn text_of(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

fn turn_of(value: &Value) -> Option<u32> {
    u32::try_from(value.as_u64()?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn next(turn: u32, window: &str, count: u64) -> Next {
        Next {
            turn,
            window: window.into(),
            count,
            title: Title {
                name: "The Halden".into(),
                ..Title::default()
            },
            note: String::new(),
            at_ms: 1_000.0 * count as f64,
            edit: format!("edit {count}"),
            gesture: None,
        }
    }

    fn write(stands: Option<&Record>, next: Next) -> (Record, Vec<u32>) {
        match step(stands.map(Record::written).as_deref(), next) {
            Step::Write(record, dropped) => (record, dropped),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_record_is_read_back() {
        let (record, _) = write(None, next(0, "a", 1));
        assert_eq!(Record::read(&record.written()), Ok(record));
    }

    #[test]
    fn what_is_no_record_of_this_build_is_left_alone() {
        let newer = "{\"record\": 2, \"turn\": 1, \"versions\": [{\"turn\": 1}]}";
        assert_eq!(
            Record::read(newer),
            Err("the record is version 2, this build reads version 1".into())
        );
        for stands in [
            newer,
            "half a rec",
            "{}",
            "{\"record\": 1, \"turn\": 1, \"versions\": []}",
        ] {
            assert_eq!(step(Some(stands), next(1, "a", 2)), Step::Conflict, "{stands}");
            assert_eq!(step(Some(stands), next(0, "a", 2)), Step::Conflict, "{stands}");
        }
    }

    #[test]
    fn the_last_twenty_versions_are_kept() {
        let (mut record, _) = write(None, next(0, "a", 1));
        let mut gone = Vec::new();
        for count in 2..=25 {
            let (after, dropped) = write(Some(&record), next(record.turn, "a", count));
            record = after;
            gone.extend(dropped);
        }
        assert_eq!(gone, [1, 2, 3, 4, 5]);
        assert_eq!(record.versions.len(), 20);
        assert_eq!((record.turn, record.versions[0].edit.as_str()), (25, "edit 6"));
        assert_eq!(record.edited_ms(), 25_000.0);
    }

    #[test]
    fn a_gesture_is_one_version() {
        let gesture = |turn, count, gesture| Next {
            gesture: Some(gesture),
            ..next(turn, "a", count)
        };
        let (record, _) = write(None, gesture(0, 1, 7));
        let (record, dropped) = write(Some(&record), gesture(1, 2, 7));
        assert_eq!((record.versions.len(), dropped), (1, vec![1]));
        let (record, dropped) = write(Some(&record), gesture(2, 3, 8));
        assert_eq!((record.versions.len(), dropped), (2, vec![]));
    }

    #[test]
    fn another_windows_write_is_never_written_over() {
        let (seen, _) = write(None, next(0, "a", 1));
        let (record, _) = write(Some(&seen), next(1, "b", 1));
        let stands = record.written();
        assert_eq!(step(Some(&stands), next(1, "a", 2)), Step::Conflict);
        assert_eq!(
            step(Some(&stands), next(0, "c", 1)),
            Step::Conflict,
            "a new plan with a taken name"
        );
        assert_eq!(
            step(None, next(1, "a", 2)),
            Step::Conflict,
            "deleted in the other window"
        );
    }

    #[test]
    fn a_window_knows_its_own_writes() {
        let (record, _) = write(None, next(0, "a", 1));
        let (record, _) = write(Some(&record), next(1, "a", 2));
        // set down when the page was left, with the turn it had heard of by then
        assert_eq!(step(Some(&record.written()), next(1, "a", 2)), Step::Late);
        assert_eq!(write(Some(&record), next(1, "a", 3)).0.turn, 3);
    }

    #[test]
    fn a_note_goes_when_the_plan_gets_another_name() {
        let copy = Next {
            note: "copy".into(),
            ..next(0, "a", 1)
        };
        let (record, _) = write(None, copy.clone());
        assert_eq!(record.label(), "The Halden (copy)");
        let renamed = Next {
            turn: 1,
            count: 2,
            title: Title {
                name: "Lot 8".into(),
                ..Title::default()
            },
            ..copy
        };
        assert_eq!(write(Some(&record), renamed).0.label(), "Lot 8");
        assert_eq!(label(" ", ""), "Plan without a name");
    }
}
