//! Changes of a list, and keys that stay with its rows.

use super::{Described, Plain};
use crate::plan::{Id, next_name};
use crate::ui::fields::Typing;

/// A change of a list.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// A text is put into a row's column.
    Set {
        /// Which row.
        row: usize,
        /// Which column.
        column: usize,
        /// The text.
        text: String,
    },
    /// An empty row is added behind a row, or at the end.
    Add {
        /// Behind which.
        after: Option<usize>,
    },
    /// A row is repeated behind itself.
    Duplicate(usize),
    /// A row is taken out.
    Delete(usize),
    /// A row changes places with the one above or below.
    Move {
        /// Which row.
        row: usize,
        /// Upwards.
        up: bool,
    },
    /// A row takes the text of the row above.
    CopyDown {
        /// Which row.
        row: usize,
        /// Which column.
        column: usize,
    },
    /// A row's text is put into all rows below it.
    FillDown {
        /// From which row.
        row: usize,
        /// Which column.
        column: usize,
    },
}

impl Edit {
    /// What the undo list calls it, in a list with these columns and row names.
    pub fn name(&self, one: &str, columns: &[Plain], labels: &[String]) -> String {
        let label = |row: usize| labels.get(row).map_or("", String::as_str);
        let head = |column: usize| columns.get(column).map_or_else(String::new, |c| c.head.to_lowercase());
        match self {
            Self::Set { row, column, .. } => format!("{} {}", label(*row), head(*column)),
            Self::CopyDown { row, column } => format!("{} {} from the row above", label(*row), head(*column)),
            Self::Add { .. } => format!("{one} added"),
            Self::Duplicate(row) => format!("{} repeated", label(*row)),
            Self::Delete(row) => format!("{} deleted", label(*row)),
            Self::Move { row, .. } => format!("{} moved", label(*row)),
            Self::FillDown { row, column } => format!("{} filled down from {}", head(*column), label(*row)),
        }
    }

    /// Makes the change; where there is no such row, nothing.
    pub fn apply<R: Described>(&self, rows: &mut Vec<R>, typing: Typing) {
        let columns = R::columns();
        match self {
            Self::Set { row, column, text } => {
                if let Some(r) = rows.get_mut(*row) {
                    set(r, *column, text, typing);
                }
            }
            Self::Add { after } => {
                let at = after.map_or(rows.len(), |row| (row + 1).min(rows.len()));
                let mut fresh = R::default();
                name_anew(&mut fresh, rows);
                rows.insert(at, fresh);
            }
            Self::Duplicate(row) => {
                if let Some(one) = rows.get(*row) {
                    let copy = one.copied(fresh_name(one, rows));
                    rows.insert(row + 1, copy);
                }
            }
            Self::Delete(row) => {
                if *row < rows.len() {
                    rows.remove(*row);
                }
            }
            Self::Move { row, up } => {
                let to = if *up { row.checked_sub(1) } else { Some(row + 1) };
                if let Some(to) = to.filter(|to| (*to).max(*row) < rows.len()) {
                    rows.swap(*row, to);
                }
            }
            Self::CopyDown { row, column } => {
                let above = row.checked_sub(1).and_then(|above| rows.get(above));
                let text = above.zip(columns.get(*column)).and_then(|(r, c)| (c.get)(r, typing));
                if let (Some(text), Some(c), Some(r)) = (text, columns.get(*column), rows.get_mut(*row)) {
                    (c.set)(r, &text, typing);
                }
            }
            Self::FillDown { row, column } => {
                let text = rows
                    .get(*row)
                    .zip(columns.get(*column))
                    .and_then(|(r, c)| (c.get)(r, typing));
                if let (Some(text), Some(c)) = (text, columns.get(*column)) {
                    rows.iter_mut().skip(row + 1).for_each(|r| (c.set)(r, &text, typing));
                }
            }
        }
    }
}

/// Puts a text into a column.
pub(super) fn set<R: Described>(row: &mut R, column: usize, text: &str, typing: Typing) {
    if let Some(column) = R::columns().get(column) {
        (column.set)(row, text, typing);
    }
}

/// Gives a thing the next free name after the last one of its list: "A1-30" behind "A1-29".
pub(super) fn name_anew<R: Described>(thing: &mut R, rows: &[R]) {
    let name = fresh_name(thing, rows);
    thing.set_id(name);
}

fn fresh_name<R: Described>(thing: &R, rows: &[R]) -> Id {
    let taken: Vec<&str> = rows.iter().filter_map(|r| r.id().map(Id::as_str)).collect();
    let stem = thing
        .id()
        .filter(|id| !id.is_empty())
        .map(Id::as_str)
        .or(taken.last().copied())
        .unwrap_or_default();
    Id(next_name(stem, &taken))
}

/// Keys for the rows of a list. A row keeps its key while it or its place in the list lasts.
#[derive(Debug, Default)]
pub struct Keys<R> {
    rows: Vec<R>,
    keys: Vec<u32>,
    made: u32,
}

impl<R: Clone + PartialEq> Keys<R> {
    /// The keys of the list as it is now.
    ///
    /// What is unchanged at both ends keeps its keys; between them a row that is equal to an old one takes its key, then what is left
    /// goes by place, so that an edited row stays itself.
    pub fn follow(&mut self, rows: &[R]) -> Vec<u32> {
        if self.rows == rows {
            return self.keys.clone();
        }
        let head = self.rows.iter().zip(rows).take_while(|(a, b)| a == b).count();
        let longest = self.rows.len().min(rows.len()) - head;
        let tail = self
            .rows
            .iter()
            .rev()
            .zip(rows.iter().rev())
            .take(longest)
            .take_while(|(a, b)| a == b)
            .count();
        let old = head..self.rows.len() - tail;
        let new = head..rows.len() - tail;
        let mut free: Vec<Option<usize>> = old.clone().map(Some).collect();
        let mut middle: Vec<Option<u32>> = new
            .clone()
            .map(|at| {
                let same = free
                    .iter()
                    .position(|slot| slot.is_some_and(|from| self.rows[from] == rows[at]))?;
                free[same].take().map(|from| self.keys[from])
            })
            .collect();
        if old.len() == new.len() {
            for (key, slot) in middle.iter_mut().zip(&mut free) {
                if key.is_none() {
                    *key = slot.take().map(|from| self.keys[from]);
                }
            }
        }
        let middle: Vec<u32> = middle
            .into_iter()
            .map(|key| key.unwrap_or_else(|| self.fresh()))
            .collect();
        let keys: Vec<u32> = [&self.keys[..head], &middle, &self.keys[old.end..]].concat();
        self.rows = rows.to_vec();
        self.keys = keys.clone();
        keys
    }

    fn fresh(&mut self) -> u32 {
        self.made = self.made.wrapping_add(1);
        self.made
    }
}
