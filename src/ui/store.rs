//! The one place where the page's state lives: the plan with its history, and what follows from it.

use super::keeper::{self, Place};
use crate::evaluate::{ALL, Assessment, Hangs};
use crate::plan::{History, Plan};
use std::ops::Deref;
use std::rc::Rc;
use yew::prelude::*;

/// Something shared that counts as equal only when it is the same thing: comparing whole plans at each render would be slow.
#[derive(Debug)]
pub struct Shared<T>(pub Rc<T>);

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}
impl<T> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}
impl<T> Deref for Shared<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

/// What can happen to the plan.
pub enum Action {
    /// A field commits, a row is added, the crane is dragged.
    Edit {
        /// What it is called in the undo list: "box B1 ticket".
        name: String,
        /// Edits of the same gesture are one step.
        gesture: Option<u32>,
        /// The change itself.
        change: Box<dyn FnOnce(&mut Plan)>,
    },
    /// Takes the last edit back.
    Undo,
    /// Makes it again.
    Redo,
    /// Another plan takes the place of this one, with its place on the shelf. It is kept at once where the name of its first version is given,
    /// else from its first edit on.
    Open(Box<Plan>, Shared<Place>, Option<String>),
}

impl Action {
    /// A single edit.
    pub fn edit(name: impl Into<String>, change: impl FnOnce(&mut Plan) + 'static) -> Self {
        Self::Edit {
            name: name.into(),
            gesture: None,
            change: Box::new(change),
        }
    }
}

/// The page's state. Two states are the same when their revisions are: comparing whole histories at each render would be slow.
#[derive(Clone)]
pub struct State {
    history: History,
    /// Kept while the crane is moved about.
    hangs: Hangs,
    /// What follows from the plan.
    pub assessment: Shared<Assessment>,
    /// Counts the changes; a late answer for an older one is dropped.
    pub revision: u64,
    /// Counts the plans that were opened.
    pub opened: u32,
    /// Where the plan is kept; a state by itself is not.
    pub place: Option<Shared<Place>>,
}

impl PartialEq for State {
    fn eq(&self, other: &Self) -> bool {
        self.revision == other.revision
    }
}

impl State {
    /// Starts with a plan and what can be undone of it.
    pub fn new(history: History) -> Self {
        let hangs = Hangs::of(history.present(), ALL);
        Self {
            history,
            assessment: Shared(Rc::new(hangs.assessment())),
            hangs,
            revision: 0,
            opened: 0,
            place: None,
        }
    }

    /// The same, with a place where each edit is kept.
    pub fn kept(history: History, place: Shared<Place>) -> Self {
        Self {
            place: Some(place),
            ..Self::new(history)
        }
    }

    /// The plan.
    pub fn plan(&self) -> Shared<Plan> {
        Shared(Rc::clone(self.history.present()))
    }

    /// The plan with what can be undone and redone.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// Names of what can be undone and redone.
    pub fn steps(&self) -> (Option<String>, Option<String>) {
        (
            self.history.undo_name().map(Into::into),
            self.history.redo_name().map(Into::into),
        )
    }
}

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let mut state = (*self).clone();
        let (name, gesture) = match action {
            Action::Edit { name, gesture, change } => {
                state.history.edit(name.clone(), gesture, change);
                (Some(name), gesture)
            }
            Action::Undo => {
                state.history.undo();
                (state.history.redo_name().map(|name| format!("undo: {name}")), None)
            }
            Action::Redo => {
                state.history.redo();
                (state.history.undo_name().map(|name| format!("redo: {name}")), None)
            }
            Action::Open(plan, place, name) => {
                state.history = History::new(*plan);
                state.opened += 1;
                state.place = Some(place);
                (name, None)
            }
        };
        if Rc::ptr_eq(state.history.present(), self.history.present()) {
            return self;
        }
        state.revision += 1;
        state.hangs = state.hangs.next(state.history.present());
        state.assessment = Shared(Rc::new(state.hangs.assessment()));
        // behind the evaluation: a plan that ends the program is not kept
        if let (Some(place), Some(name)) = (&state.place, name) {
            keeper::commit(place, state.history.present(), name, gesture);
        }
        Rc::new(state)
    }
}

/// Sends actions; never changes, so readers of it are never rendered again for it.
pub type Dispatch = UseReducerDispatcher<State>;
