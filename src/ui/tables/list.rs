//! Lists and things of the plan without their types: tables and forms are made once, not once for each kind of row.

use super::column::{Described, Heavy, Plain};
use super::edit::{Edit, name_anew, set};
use super::place::Place;
use crate::plan::{Id, Plan};
use crate::quantity::Said;
use crate::ui::Dispatch;
use crate::ui::fields::Typing;
use std::rc::Rc;
use yew::AttrValue;
use yew::html::IntoPropValue;

/// The texts of a row, one for each column; `None` where the row has no such thing.
pub type Texts = Vec<Option<String>>;

/// A row out of a pasted block: columns and what goes into them.
pub type Fresh = Vec<(usize, String)>;

/// Where pasted rows go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Where {
    /// Over the rows from one on.
    Over(usize),
    /// Behind the last row.
    End,
    /// Instead of all rows.
    Instead,
}

/// A list of the plan, whatever its rows are.
pub trait List {
    /// Steps from the plan to it, and its name in the undo list.
    fn place(&self) -> (&AttrValue, &AttrValue);
    /// What one row is called.
    fn one(&self) -> &'static str;
    /// Its columns.
    fn columns(&self) -> Vec<Plain>;
    /// The texts of its rows.
    fn texts(&self, plan: &Plan, typing: Typing) -> Vec<Texts>;
    /// The names of its rows.
    fn labels(&self, plan: &Plan) -> Vec<String>;
    /// One row by itself, by its name.
    fn row(&self, row: usize, label: &str) -> AnyThing;
    /// Makes a change, as one step.
    fn edit(&self, dispatch: &Dispatch, what: &str, edit: Edit, typing: Typing);
    /// Puts pasted rows, as one step.
    fn put(&self, dispatch: &Dispatch, what: &str, fresh: Vec<Fresh>, put: Where, typing: Typing);
    /// What pasted rows would weigh and where, for those that weigh, and what to ask about them.
    fn weigh(&self, plan: &Plan, fresh: &[Fresh], put: Where, typing: Typing) -> (Vec<Heavy>, Vec<String>);
}

/// A thing of the plan, whatever it is.
pub trait Thing {
    /// Steps from the plan to it, and its name in the undo list.
    fn place(&self) -> (&AttrValue, &AttrValue);
    /// Its fields.
    fn columns(&self) -> Vec<Plain>;
    /// The texts of its fields; `None` where the plan has no such thing.
    fn texts(&self, plan: &Plan, typing: Typing) -> Option<Texts>;
    /// The source of a field; `None` where it takes none.
    fn said(&self, plan: &Plan, column: usize) -> Option<Option<Said>>;
    /// Puts a text into a field, as one step.
    fn set(&self, dispatch: &Dispatch, column: usize, text: String, typing: Typing);
    /// Puts a source, as one step.
    fn put_said(&self, dispatch: &Dispatch, column: usize, said: Option<Said>);
}

macro_rules! handle {
    ($(#[$doc:meta])* $name:ident($of:ident) from $place:ty) => {
        $(#[$doc])*
        #[derive(Clone)]
        pub struct $name(Rc<dyn $of>);

        impl PartialEq for $name {
            fn eq(&self, other: &Self) -> bool {
                self.0.place() == other.0.place()
            }
        }
        impl core::ops::Deref for $name {
            type Target = dyn $of;
            fn deref(&self) -> &Self::Target {
                &*self.0
            }
        }
        impl<R: Described> IntoPropValue<$name> for $place {
            fn into_prop_value(self) -> $name {
                $name(Rc::new(self))
            }
        }
    };
}
handle! {
    /// Some list. Two are equal when they are at the same place.
    AnyList(List) from Place<Vec<R>>
}
handle! {
    /// Some thing. Two are equal when they are at the same place.
    AnyThing(Thing) from Place<R>
}

fn plain<R: Described>() -> Vec<Plain> {
    R::columns().iter().map(|column| column.plain).collect()
}

fn texts_of<R: Described>(row: &R, typing: Typing) -> Texts {
    R::columns().iter().map(|column| (column.get)(row, typing)).collect()
}

impl<R: Described> List for Place<Vec<R>> {
    fn place(&self) -> (&AttrValue, &AttrValue) {
        (self.path(), self.name())
    }

    fn one(&self) -> &'static str {
        R::ONE
    }

    fn columns(&self) -> Vec<Plain> {
        plain::<R>()
    }

    fn texts(&self, plan: &Plan, typing: Typing) -> Vec<Texts> {
        self.see(plan)
            .into_iter()
            .flatten()
            .map(|row| texts_of(row, typing))
            .collect()
    }

    fn labels(&self, plan: &Plan) -> Vec<String> {
        self.see(plan)
            .into_iter()
            .flatten()
            .enumerate()
            .map(|(index, row)| row.label(index))
            .collect()
    }

    fn row(&self, row: usize, label: &str) -> AnyThing {
        AnyThing(Rc::new(self.item(row).named(self.name_of(label))))
    }

    fn edit(&self, dispatch: &Dispatch, what: &str, edit: Edit, typing: Typing) {
        match edit {
            Edit::Set { row, column, text } => {
                self.item(row)
                    .edit_named(dispatch, self.name_of(what), move |r| set(r, column, &text, typing));
            }
            edit => Self::edit(self, dispatch, what, move |rows| edit.apply(rows, typing)),
        }
    }

    fn put(&self, dispatch: &Dispatch, what: &str, fresh: Vec<Fresh>, put: Where, typing: Typing) {
        Self::edit(self, dispatch, what, move |rows| put_rows(rows, &fresh, put, typing));
    }

    fn weigh(&self, plan: &Plan, fresh: &[Fresh], put: Where, typing: Typing) -> (Vec<Heavy>, Vec<String>) {
        let rows = self.see(plan).map_or(&[][..], Vec::as_slice);
        let row = |(at, texts): (usize, &Fresh)| filled(rows, texts, put, at, typing);
        let rows: Vec<R> = fresh.iter().enumerate().map(row).collect();
        let heavy = rows.iter().filter_map(|row| row.weighs(plan, typing)).collect();
        (heavy, R::questions(&rows))
    }
}

/// A pasted row; over an old one it keeps what the block does not hold.
fn filled<R: Described>(rows: &[R], texts: &Fresh, put: Where, at: usize, typing: Typing) -> R {
    let old = match put {
        Where::Over(from) => rows.get(from + at).cloned(),
        Where::End | Where::Instead => None,
    };
    let mut row = old.unwrap_or_default();
    for (column, text) in texts {
        set(&mut row, *column, text, typing);
    }
    row
}

fn put_rows<R: Described>(rows: &mut Vec<R>, fresh: &[Fresh], put: Where, typing: Typing) {
    let mut named: Vec<R> = if put == Where::Instead {
        Vec::new()
    } else {
        rows.clone()
    };
    let old = named.len();
    for (at, texts) in fresh.iter().enumerate() {
        let mut row = filled(rows, texts, put, at, typing);
        if row.id().is_some_and(Id::is_empty) {
            name_anew(&mut row, &named);
        }
        named.push(row);
    }
    let fresh = named.split_off(old);
    match put {
        Where::End => rows.extend(fresh),
        Where::Instead => *rows = fresh,
        Where::Over(from) => {
            let from = from.min(rows.len());
            let to = (from + fresh.len()).min(rows.len());
            rows.splice(from..to, fresh);
        }
    }
}

impl<R: Described> Thing for Place<R> {
    fn place(&self) -> (&AttrValue, &AttrValue) {
        (self.path(), self.name())
    }

    fn columns(&self) -> Vec<Plain> {
        plain::<R>()
    }

    fn texts(&self, plan: &Plan, typing: Typing) -> Option<Texts> {
        self.see(plan).map(|this| texts_of(this, typing))
    }

    fn said(&self, plan: &Plan, column: usize) -> Option<Option<Said>> {
        let (see, _) = R::columns().get(column)?.said?;
        Some(see(self.see(plan)?).cloned())
    }

    fn set(&self, dispatch: &Dispatch, column: usize, text: String, typing: Typing) {
        let columns = R::columns();
        let Some(described) = columns.get(column) else { return };
        let (name, set) = (self.name_of(&described.plain.head.to_lowercase()), described.set);
        self.edit_named(dispatch, name, move |this| set(this, &text, typing));
    }

    fn put_said(&self, dispatch: &Dispatch, column: usize, said: Option<Said>) {
        let columns = R::columns();
        let Some((described, (_, put))) = columns.get(column).and_then(|c| Some((c, c.said?))) else {
            return;
        };
        let what = format!("{} source", described.plain.head.to_lowercase());
        Self::edit(self, dispatch, &what, move |this| put(this, said));
    }
}
