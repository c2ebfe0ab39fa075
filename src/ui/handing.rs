//! What one module of the page hands over to the next: the plan with its history, what was told, what was accepted.

use super::keeper;
use super::notices::{Notice, Notices, Teller};
use super::route::day_left_at;
use super::store::State;
use crate::plan::History;
use core::cell::RefCell;
use serde_json::{Value, json};
use yew::UseReducerHandle;

/// What the next module goes on with.
#[derive(Clone, Debug, PartialEq)]
pub struct Handed {
    /// The plan, with what can be undone and redone.
    pub history: History,
    /// Where the plan is kept: [`Place::to_json`].
    pub place: Value,
    /// What the keeper has in mind: [`keeper::to_json`].
    pub keeper: Value,
    /// What stands in the notices.
    pub notices: Vec<Notice>,
    /// The cautions were accepted for this plan.
    pub accepted: bool,
    /// How far down the day was left, CSS pixels.
    pub day_left_at: f64,
}

impl Handed {
    fn written(&self) -> String {
        json!({
            "history": self.history.to_json(),
            "place": self.place,
            "keeper": self.keeper,
            "notices": self.notices.iter().map(|notice| json!([&*notice.text, notice.offers_file])).collect::<Vec<_>>(),
            "accepted": self.accepted,
            "day_left_at": self.day_left_at,
        })
        .to_string()
    }

    /// Reads what the other module wrote.
    pub fn read(text: &str) -> Result<Self, String> {
        let mut value: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
        let notice = |notice: &Value| {
            Some(Notice {
                text: notice[0].as_str()?.to_owned().into(),
                offers_file: notice[1] == true,
            })
        };
        let notices = value["notices"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(notice)
            .collect();
        Ok(Self {
            place: value["place"].take(),
            keeper: value["keeper"].take(),
            notices,
            accepted: value["accepted"] == true,
            day_left_at: value["day_left_at"].as_f64().unwrap_or(0.0),
            history: History::from_json(value["history"].take()).map_err(|error| error.to_string())?,
        })
    }
}

/// The page as it was rendered last.
pub struct Shown {
    /// Its plan, and where that is kept.
    pub state: UseReducerHandle<State>,
    /// Its notices.
    pub notices: UseReducerHandle<Notices>,
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

/// Whether the page was shown.
pub fn is_shown() -> bool {
    SHOWN.with_borrow(Option::is_some)
}

/// What is handed over, as text; empty before the page was shown.
pub fn text() -> String {
    let handed = |shown: &Shown| Handed {
        history: shown.state.history().clone(),
        place: shown.state.place.as_ref().map_or(Value::Null, |place| place.to_json()),
        keeper: keeper::to_json(),
        notices: shown.notices.0.clone(),
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
            place: json!({ "id": "a-1", "turn": 7, "note": "copy" }),
            keeper: json!({ "window": "w", "count": 9, "unkept": null, "deleted": [["b", "B", "{}", [[3, "text"]]]] }),
            notices: vec![Notice::say("A plan was not opened"), Notice::offer_file("It is full")],
            accepted: true,
            day_left_at: 812.5,
        };
        assert_eq!(Handed::read(&handed.written()), Ok(handed));
        assert!(Handed::read("").is_err());
    }
}
