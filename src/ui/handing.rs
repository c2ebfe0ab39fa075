//! What one module of the page hands over to the next: the plan with its history, what was told, what was accepted.

use super::notices::{Notices, Teller};
use super::route::day_left_at;
use crate::plan::History;
use core::cell::RefCell;
use serde_json::{Value, json};

/// What the next module goes on with.
#[derive(Clone, Debug, PartialEq)]
pub struct Handed {
    /// The plan, with what can be undone and redone.
    pub history: History,
    /// What stands in the notices.
    pub notices: Vec<String>,
    /// The cautions were accepted for this plan.
    pub accepted: bool,
    /// How far down the day was left, CSS pixels.
    pub day_left_at: f64,
}

impl Handed {
    fn written(&self) -> String {
        json!({
            "history": self.history.to_json(),
            "notices": self.notices,
            "accepted": self.accepted,
            "day_left_at": self.day_left_at,
        })
        .to_string()
    }

    /// Reads what the other module wrote.
    pub fn read(text: &str) -> Result<Self, String> {
        let mut value: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
        let notices = value["notices"].as_array().into_iter().flatten();
        Ok(Self {
            notices: notices
                .filter_map(|notice| notice.as_str().map(str::to_owned))
                .collect(),
            accepted: value["accepted"] == true,
            day_left_at: value["day_left_at"].as_f64().unwrap_or(0.0),
            history: History::from_json(value["history"].take()).map_err(|error| error.to_string())?,
        })
    }
}

/// The page as it was rendered last.
pub struct Shown {
    /// Its plan.
    pub history: History,
    /// Its notices.
    pub notices: Notices,
    /// Tells more.
    pub teller: Teller,
    /// Whether the cautions were accepted.
    pub accepted: bool,
}

thread_local! {
    static SHOWN: RefCell<Option<Shown>> = const { RefCell::new(None) };
}

/// Remembers what the page shows, for when it is handed over.
pub fn remember(shown: Shown) {
    SHOWN.replace(Some(shown));
}

/// What is handed over, as text; empty before the page was shown.
pub fn text() -> String {
    let handed = |shown: &Shown| Handed {
        history: shown.history.clone(),
        notices: shown.notices.texts(),
        accepted: shown.accepted,
        day_left_at: day_left_at(),
    };
    SHOWN.with_borrow(|shown| shown.as_ref().map(|shown| handed(shown).written()).unwrap_or_default())
}

/// Who tells things on the page, once it is shown.
pub fn teller() -> Option<Teller> {
    SHOWN.with_borrow(|shown| shown.as_ref().map(|shown| shown.teller.clone()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_handed_over_arrives() {
        let mut history = History::new(crate::plan::sample::plan());
        history.edit("project name", None, |plan| plan.project.name = "Äußere Straße".into());
        let handed = Handed {
            history,
            notices: vec!["A plan was not opened".into()],
            accepted: true,
            day_left_at: 812.5,
        };
        assert_eq!(Handed::read(&handed.written()), Ok(handed));
        assert!(Handed::read("").is_err());
    }
}
