//! Where in the plan a thing is: how to see it and how to change it.

use super::Described;
use crate::plan::Plan;
use crate::ui::{Action, Dispatch};
use std::rc::Rc;
use yew::AttrValue;

type See<T> = Rc<dyn Fn(&Plan) -> Option<&T>>;
type Find<T> = Rc<dyn Fn(&mut Plan) -> Option<&mut T>>;

/// The way to one thing of the plan. Two are equal when their path and their name are.
pub struct Place<T> {
    path: AttrValue,
    name: AttrValue,
    see: See<T>,
    find: Find<T>,
}

impl<T> Clone for Place<T> {
    fn clone(&self) -> Self {
        Self {
            path: self.path.clone(),
            name: self.name.clone(),
            see: Rc::clone(&self.see),
            find: Rc::clone(&self.find),
        }
    }
}

impl<T> PartialEq for Place<T> {
    fn eq(&self, other: &Self) -> bool {
        self.path == other.path && self.name == other.name
    }
}

/// The plan itself.
pub fn whole_plan() -> Place<Plan> {
    Place {
        path: "plan".into(),
        name: "".into(),
        see: Rc::new(|plan| Some(plan)),
        find: Rc::new(|plan| Some(plan)),
    }
}

impl<T: 'static> Place<T> {
    /// A part of it, if it is there.
    pub fn part_if<U: 'static>(
        &self,
        step: &str,
        see: impl Fn(&T) -> Option<&U> + 'static,
        find: impl Fn(&mut T) -> Option<&mut U> + 'static,
    ) -> Place<U> {
        let (see_this, find_this) = (Rc::clone(&self.see), Rc::clone(&self.find));
        Place {
            path: format!("{}-{step}", self.path).into(),
            name: self.name.clone(),
            see: Rc::new(move |plan| see_this(plan).and_then(&see)),
            find: Rc::new(move |plan| find_this(plan).and_then(&find)),
        }
    }

    /// A part of it.
    pub fn part<U: 'static>(&self, step: &str, see: fn(&T) -> &U, find: fn(&mut T) -> &mut U) -> Place<U> {
        self.part_if(step, move |this| Some(see(this)), move |this| Some(find(this)))
    }

    /// The same, as the undo list calls it: "box B1".
    #[must_use]
    pub fn named(mut self, name: impl Into<AttrValue>) -> Self {
        self.name = name.into();
        self
    }

    /// What the undo list calls it.
    pub fn name(&self) -> &AttrValue {
        &self.name
    }

    /// Steps from the plan to it, for ids of fields.
    pub fn path(&self) -> &AttrValue {
        &self.path
    }

    /// It as it is in a plan.
    pub fn see<'a>(&self, plan: &'a Plan) -> Option<&'a T> {
        (self.see)(plan)
    }

    /// What the undo list calls a change of it.
    pub fn name_of(&self, what: &str) -> String {
        match (self.name.is_empty(), what.is_empty()) {
            (true, _) => what.to_owned(),
            (_, true) => self.name.to_string(),
            _ => format!("{}, {what}", self.name),
        }
    }

    /// Changes it, as one step that undo takes back by that name. Where it is gone meanwhile nothing happens.
    pub fn edit(&self, dispatch: &Dispatch, what: &str, change: impl FnOnce(&mut T) + 'static) {
        let find = Rc::clone(&self.find);
        dispatch.dispatch(Action::edit(self.name_of(what), move |plan| {
            if let Some(this) = find(plan) {
                change(this);
            }
        }));
    }
}

impl<R: Described> Place<R> {
    /// Changes a thing; if that gives it another name, what refers to it follows.
    pub fn edit_named(&self, dispatch: &Dispatch, name: String, change: impl FnOnce(&mut R) + 'static) {
        let find = Rc::clone(&self.find);
        dispatch.dispatch(Action::edit(name, move |plan| {
            let Some(this) = find(plan) else { return };
            let old = this.id().cloned();
            change(this);
            let new = this.id().cloned();
            if let (Some(old), Some(new)) = (old, new)
                && old != new
                && !old.is_empty()
            {
                R::renamed(plan, &old, &new);
            }
        }));
    }
}

impl<T: 'static> Place<Vec<T>> {
    /// One of the list.
    pub fn item(&self, index: usize) -> Place<T> {
        self.part_if(
            &index.to_string(),
            move |list| list.get(index),
            move |list| list.get_mut(index),
        )
    }
}

/// A field of the thing at a place, by its name.
macro_rules! part {
    ($place:expr, $($field:tt)+) => {
        $place.part(stringify!($($field)+), |this| &this.$($field)+, |this| &mut this.$($field)+)
    };
}
pub(crate) use part;

/// The place of a part that copies of the plan share: `part_of_plan!(boxes)`.
macro_rules! part_of_plan {
    ($field:ident) => {
        $crate::ui::tables::whole_plan().part(stringify!($field), |plan| &*plan.$field, |plan| &mut *plan.$field)
    };
}
pub(crate) use part_of_plan;
