//! Keeps the plan on this device after each edit and brings it back at the next visit.

use super::browser;
use super::notices::{Tell, Teller};
use super::store::Shared;
use crate::plan::{History, Plan, format, sample};
use core::cell::RefCell;
use core::time::Duration;
use std::rc::Rc;
use yew::prelude::*;

/// Where the last plan is kept; the crash overlay offers what stands here.
const LAST_PLAN: &str = "setday.plan.last";
/// Where a kept plan goes that could not be read, so that the next edit does not write over it.
const PUT_ASIDE: &str = "setday.plan.aside";
/// Plans whose cautions were accepted, one a line.
const ACCEPTED: &str = "setday.accepted";
/// Edits that follow each other faster are kept together.
const PAUSE: Duration = Duration::from_millis(300);

/// What the page opens with.
pub struct Start {
    /// The plan.
    pub history: History,
    /// What to tell about it.
    pub notices: Vec<String>,
    /// The cautions were accepted for it in this visit.
    pub accepted: bool,
    /// The page goes on from another module: the view is shown as after a step to it.
    pub goes_on: bool,
}

/// The plan of the last visit; at the first visit the scenario.
pub fn start() -> Start {
    let with = |plan, notices| Start {
        history: History::new(plan),
        notices,
        accepted: false,
        goes_on: false,
    };
    let sample_with = |notices| with(sample::plan(), notices);
    match browser::read_store(LAST_PLAN) {
        Ok(None) => sample_with(Vec::new()),
        Ok(Some(text)) => match format::open(&text) {
            Ok(opened) => {
                let told = |note: &String| format!("In the plan kept on this device: {note}");
                with(opened.plan, opened.notes.iter().map(told).collect())
            }
            Err(error) => {
                let aside = match browser::write_store(PUT_ASIDE, &text) {
                    Ok(()) => "It is put aside: save it as a file under Plans".to_owned(),
                    Err(reason) => format!("It could not be put aside ({reason}): the next edit writes over it"),
                };
                sample_with(vec![format!(
                    "The plan kept on this device was not opened: {error}. {aside}"
                )])
            }
        },
        Err(reason) => sample_with(vec![not_kept(&reason)]),
    }
}

/// The text of a kept plan that could not be read.
pub fn put_aside() -> Option<String> {
    browser::read_store(PUT_ASIDE).ok().flatten()
}

fn not_kept(reason: &str) -> String {
    format!(
        "Plans are not kept on this device: the browser's store refuses ({reason}). Save the plan as a file before you leave the page"
    )
}

/// What was not written yet, and whom to tell if it cannot be.
struct Pending {
    plan: RefCell<Option<Shared<Plan>>>,
    teller: Teller,
}

impl Pending {
    fn write(&self) {
        if let Some(plan) = self.plan.take()
            && let Err(reason) = browser::write_store(LAST_PLAN, &format::save(&plan))
        {
            self.teller.dispatch(Tell::Say(not_kept(&reason)));
        }
    }
}

/// Keeps each next plan, a moment after the edit or when the page is left.
#[hook]
pub fn use_keeping(plan: &Shared<Plan>, teller: &Teller) {
    let pending = use_memo((), |()| Pending {
        plan: RefCell::new(None),
        teller: teller.clone(),
    });
    {
        let pending = Rc::clone(&pending);
        let first = use_mut_ref(|| true);
        use_effect_with(plan.clone(), move |plan| {
            if first.replace(false) {
                return;
            }
            *pending.plan.borrow_mut() = Some(plan.clone());
            let plan = plan.clone();
            yew::platform::spawn_local(async move {
                yew::platform::time::sleep(PAUSE).await;
                if pending.plan.borrow().as_ref() == Some(&plan) {
                    pending.write();
                }
            });
        });
    }
    let teller = teller.clone();
    use_effect_with((), move |()| {
        let leaving = {
            let pending = Rc::clone(&pending);
            browser::on_window("pagehide", move |_| pending.write())
        };
        let elsewhere = browser::on_window("storage", move |event| {
            if browser::store_key(&event).as_deref() == Some(LAST_PLAN) {
                teller.dispatch(Tell::Say(
                    "A plan was also edited in another window of this browser: the last edit of either is the one that is kept. Close one of them, or save both as files".into(),
                ));
            }
        });
        move || {
            leaving();
            elsewhere();
            pending.write();
        }
    });
}

/// The line that stands for a plan among the accepted ones.
fn line_of(plan: &Plan) -> String {
    format!("{} / {}", plan.project.name.trim(), plan.project.place.trim()).replace('\n', " ")
}

/// Whether the cautions were accepted for this plan.
pub fn is_accepted(plan: &Plan) -> bool {
    let line = line_of(plan);
    browser::read_store(ACCEPTED)
        .ok()
        .flatten()
        .is_some_and(|text| text.lines().any(|other| other == line))
}

/// Remembers that they were. Where the store refuses, they are shown again at the next visit.
pub fn accept(plan: &Plan) {
    if is_accepted(plan) {
        return;
    }
    let lines = browser::read_store(ACCEPTED).ok().flatten().unwrap_or_default();
    let _ = browser::write_store(ACCEPTED, &format!("{lines}{}\n", line_of(plan)));
}

/// A file's name for a plan: "the-halden-rev-A.json".
pub fn file_name(plan: &Plan) -> String {
    let words = |text: &str| {
        let kept: String = text
            .chars()
            .map(|c| if c.is_alphanumeric() { c } else { ' ' })
            .collect();
        kept.split_whitespace().collect::<Vec<_>>().join("-")
    };
    let name = words(&plan.project.name).to_ascii_lowercase();
    let name = if name.is_empty() { "set-day-plan" } else { &name };
    match words(&plan.project.revision) {
        revision if revision.is_empty() => format!("{name}.json"),
        revision => format!("{name}-rev-{revision}.json"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_after_project_and_revision() {
        let mut plan = Plan::default();
        assert_eq!(file_name(&plan), "set-day-plan-rev-A.json");
        plan.project.name = "The Halden: lot 7/8".into();
        plan.project.revision = String::new();
        assert_eq!(file_name(&plan), "the-halden-lot-7-8.json");
    }
}
