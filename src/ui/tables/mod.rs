//! Lists and things of the plan as tables and forms, made from one description of their columns.

mod block;
mod cell;
mod column;
mod edit;
mod form;
mod list;
mod place;
mod preview;
mod row;
mod table;

pub use block::{Block, Decimals, Mapping, Take, Taken, as_csv, block, box_column, decimals, guess, taken};
pub use cell::{AnyField, Head, Widget};
pub use column::{Column, Described, Heavy, Kind, Plain, Worded, YES, is_yes};
pub use edit::{Edit, Keys};
pub use form::Form;
pub use list::{AnyList, AnyThing, Fresh, List, Texts, Thing, Where};
pub use place::{Place, whole_plan};
pub use preview::Mirror;
pub use row::{Beside, cell_name};
pub use table::{Table, go_on};

pub(crate) use column::{check, choice, count, id, long, number, number_if, text};
pub(crate) use place::{part, part_of_plan};
