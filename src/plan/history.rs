//! Undo and redo: whole plans, kept behind shared pointers, each with the name of the edit that came after it.

use super::{Plan, same_inputs};
use std::rc::Rc;

/// How many steps can be undone.
pub const DEPTH: usize = 250;

/// A plan with its past and what was undone.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    past: Vec<Step>,
    present: Rc<Plan>,
    future: Vec<Step>,
}

/// A plan as it was before an edit, or after it, and the edit's name ("box B1 ticket").
#[derive(Clone, Debug, PartialEq)]
struct Step {
    plan: Rc<Plan>,
    name: String,
    gesture: Option<u32>,
}

impl History {
    /// Starts with a plan and nothing to undo.
    pub fn new(plan: Plan) -> Self {
        Self {
            past: Vec::new(),
            present: Rc::new(plan),
            future: Vec::new(),
        }
    }

    /// The plan as it is.
    pub fn present(&self) -> &Rc<Plan> {
        &self.present
    }

    /// Makes an edit. Edits of one gesture (a drag) that follow each other are one step. An edit that changes nothing is no step.
    pub fn edit(&mut self, name: impl Into<String>, gesture: Option<u32>, change: impl FnOnce(&mut Plan)) {
        let mut plan = (*self.present).clone();
        change(&mut plan);
        if plan == *self.present {
            return;
        }
        clear_review(&self.present, &mut plan);
        self.future.clear();
        let same = gesture.is_some() && self.past.last().is_some_and(|step| step.gesture == gesture);
        let before = core::mem::replace(&mut self.present, Rc::new(plan));
        if !same {
            self.past.push(Step {
                plan: before,
                name: name.into(),
                gesture,
            });
            if self.past.len() > DEPTH {
                self.past.remove(0);
            }
        }
    }

    /// Name of the edit that undo would take back.
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// Name of the edit that redo would make again.
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Takes the last edit back.
    pub fn undo(&mut self) {
        if let Some(step) = self.past.pop() {
            let after = core::mem::replace(&mut self.present, step.plan);
            self.future.push(Step {
                plan: after,
                name: step.name,
                gesture: None,
            });
        }
    }

    /// Makes the edit again that was taken back last.
    pub fn redo(&mut self) {
        if let Some(step) = self.future.pop() {
            let before = core::mem::replace(&mut self.present, step.plan);
            self.past.push(Step {
                plan: before,
                name: step.name,
                gesture: None,
            });
        }
    }
}

/// A name under a plan stands for what the plan said then: any change of an input clears it, unless the edit puts another name there or issues the plan.
fn clear_review(before: &Plan, after: &mut Plan) {
    let named = after.project.reviewed_by != before.project.reviewed_by || after.issues.len() > before.issues.len();
    if !after.project.reviewed_by.is_empty() && !named && !same_inputs(before, after) {
        after.project.reviewed_by.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rename(history: &mut History, name: &str, gesture: Option<u32>) {
        history.edit(format!("name {name}"), gesture, |plan| plan.project.name = name.into());
    }

    #[test]
    fn a_drag_is_one_step() {
        let mut history = History::new(Plan::default());
        rename(&mut history, "a", Some(1));
        rename(&mut history, "b", Some(1));
        rename(&mut history, "c", Some(2));
        history.undo();
        assert_eq!(history.present().project.name, "b");
        assert_eq!(
            (history.undo_name(), history.redo_name()),
            (Some("name a"), Some("name c"))
        );
        history.undo();
        assert_eq!(history.present().project.name, "");
        history.redo();
        history.redo();
        assert_eq!(history.present().project.name, "c");
    }

    #[test]
    fn any_change_clears_the_name_of_who_reviewed() {
        let mut history = History::new(crate::plan::sample::plan());
        assert_eq!(history.present().project.status(), "Draft, not reviewed");
        let review = |plan: &mut Plan| plan.project.reviewed_by = "J. Example".into();
        history.edit("review", None, review);
        let reviewed = "Reviewed, name entered: J. Example";
        assert_eq!(history.present().project.status(), reviewed);
        history.edit("units", None, |plan| {
            plan.project.units = crate::quantity::UnitSystem::Metric
        });
        assert_eq!(history.present().project.status(), reviewed);
        history.edit("crane", None, |plan| plan.cranes.truncate(1));
        assert_eq!(history.present().project.status(), "Draft, not reviewed");
        history.undo();
        assert_eq!(history.present().project.status(), reviewed);
    }

    #[test]
    fn an_edit_that_changes_nothing_is_no_step() {
        let mut history = History::new(Plan::default());
        history.edit("nothing", None, |_| {});
        assert_eq!(history.undo_name(), None);
    }
}
