//! The fields that everything is typed into. The text is the person's until it is committed; what was understood stands beside it.

mod choice;
mod draft;
mod number;
mod source;
mod text;
mod typing;

pub use crate::quantity::{trimmed, written};
pub use choice::{Check, Choice, Options};
pub use number::{EntryField, NumberField};
pub use source::Source;
pub use text::{CountField, TextField};
pub(crate) use text::{count, listed};
pub use typing::{Bare, Nuance, Typing, Understood, retype, shown, understood};

use yew::AttrValue;

/// Where a field stands in a table: the table finds it again by this. Empty outside tables.
pub type Cell = Option<AttrValue>;
