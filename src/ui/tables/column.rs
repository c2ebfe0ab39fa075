//! What a row of the plan consists of: one description serves tables, forms and pasting.

use super::super::fields::{Bare, Nuance, Options, Typing};
use crate::plan::{Id, Plan};
use crate::quantity::{Said, Unit};

/// What is typed into a column.
#[derive(Clone, Copy)]
pub enum Kind {
    /// Words.
    Text,
    /// Several lines of words.
    Long,
    /// A number with a unit.
    Number(Bare, Nuance),
    /// A whole number.
    Count,
    /// Yes or no.
    Check,
    /// One of several.
    Choice(fn(&Plan) -> Options),
    /// Some of several, by name.
    Names(fn(&Plan) -> Options),
}

impl Kind {
    /// The unit of a bare number.
    pub fn unit(self, typing: Typing) -> Option<Unit> {
        match self {
            Self::Number(bare, _) => Some(bare.unit(typing.system)),
            _ => None,
        }
    }
}

/// The source of a number: how to see it and how to put it.
pub type SaidOf<R> = (fn(&R) -> Option<&Said>, fn(&mut R, Option<Said>));

/// What a column is, whatever its rows are.
#[derive(Clone, Copy)]
pub struct Plain {
    /// Its head.
    pub head: &'static str,
    /// Other heads under which it is pasted, in small letters.
    pub also: &'static [&'static str],
    /// What is typed into it.
    pub kind: Kind,
    /// It is measured from the end at x = 0.
    pub along: bool,
    /// It is measured from the side at y = 0.
    pub across: bool,
}

/// A row that weighs something: how much, in words, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct Heavy {
    /// Mass, kg.
    pub kg: f64,
    /// "A1-03 tile: 1,560 lb at x = 42.50 ft".
    pub words: String,
    /// Place, m.
    pub at_m: [f64; 3],
}

/// One column of a table or one field of a form.
pub struct Column<R> {
    /// What it is.
    pub plain: Plain,
    /// The text of a row; `None` where the row has no such thing.
    pub get: fn(&R, Typing) -> Option<String>,
    /// Puts a text.
    pub set: fn(&mut R, &str, Typing),
    /// Its source.
    pub said: Option<SaidOf<R>>,
}

impl<R> Column<R> {
    /// A column without a source.
    pub const fn new(
        head: &'static str,
        kind: Kind,
        get: fn(&R, Typing) -> Option<String>,
        set: fn(&mut R, &str, Typing),
    ) -> Self {
        let plain = Plain {
            head,
            also: &[],
            kind,
            along: false,
            across: false,
        };
        Self {
            plain,
            get,
            set,
            said: None,
        }
    }
    /// The same, pasted under other heads too.
    #[must_use]
    pub const fn also(mut self, also: &'static [&'static str]) -> Self {
        self.plain.also = also;
        self
    }
    /// The same, for a share that is added: a factor typed by mistake is asked about.
    #[must_use]
    pub const fn adding(mut self) -> Self {
        if let Kind::Number(bare, _) = self.plain.kind {
            self.plain.kind = Kind::Number(bare, Nuance::AddPercent);
        }
        self
    }
    /// The same, measured from the end at x = 0.
    #[must_use]
    pub const fn along(mut self) -> Self {
        self.plain.along = true;
        self
    }
    /// The same, measured from the side at y = 0.
    #[must_use]
    pub const fn across(mut self) -> Self {
        self.plain.across = true;
        self
    }
}

/// A thing of the plan whose columns are described.
pub trait Described: Clone + Default + PartialEq + 'static {
    /// One of it, for the undo list: "row".
    const ONE: &'static str = "row";

    /// Its columns.
    fn columns() -> Vec<Column<Self>>;

    /// Its name in the plan, where it has one.
    fn id(&self) -> Option<&Id> {
        None
    }

    /// Gives it a name.
    fn set_id(&mut self, _: Id) {}

    /// Another one like it, by that name.
    #[must_use]
    fn copied(&self, id: Id) -> Self {
        let mut copy = self.clone();
        copy.set_id(id);
        copy
    }

    /// Follows a new name in everything that refers to the old one.
    fn renamed(_: &mut Plan, _: &Id, _: &Id) {}

    /// What it weighs and where that is, for the heaviest of a list.
    fn weighs(&self, _: &Plan, _: Typing) -> Option<Heavy> {
        None
    }

    /// What to ask about a block of rows before they are taken in.
    fn questions(_: &[Self]) -> Vec<String> {
        Vec::new()
    }

    /// What the undo list calls it: "row A1-07".
    fn label(&self, index: usize) -> String {
        match self.id().filter(|id| !id.is_empty()) {
            Some(id) => format!("{} {id}", Self::ONE),
            None => format!("{} {}", Self::ONE, index + 1),
        }
    }
}

/// An enumeration whose members are chosen by their words.
pub trait Worded: Copy + PartialEq + 'static {
    /// Each with its words.
    const WORDS: &'static [(Self, &'static str)];

    /// The words of this one.
    fn words(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(one, _)| *one == self)
            .map_or("", |(_, words)| words)
    }

    /// The one with these words.
    fn worded(words: &str) -> Option<Self> {
        Self::WORDS
            .iter()
            .find(|(_, text)| text.eq_ignore_ascii_case(words.trim()))
            .map(|(one, _)| *one)
    }

    /// All words, for choosing.
    fn options(_: &Plan) -> Options {
        Options::new(
            Self::WORDS
                .iter()
                .map(|(_, words)| ((*words).into(), (*words).into()))
                .collect(),
        )
    }
}

/// "yes" for a box that is ticked.
pub const YES: &str = "yes";

/// Whether a pasted or set text means yes.
pub fn is_yes(text: &str) -> bool {
    ["yes", "y", "true", "1", "x"]
        .iter()
        .any(|yes| text.trim().eq_ignore_ascii_case(yes))
}

/// A column of words.
macro_rules! text {
    ($head:expr, $($field:tt)+) => {
        Column::new($head, Kind::Text, |r: &Self, _| Some(r.$($field)+.to_string()), |r: &mut Self, text, _| r.$($field)+ = text.trim().to_owned())
    };
}
/// A field of several lines.
macro_rules! long {
    ($head:expr, $($field:tt)+) => {
        Column::new($head, Kind::Long, |r: &Self, _| Some(r.$($field)+.to_string()), |r: &mut Self, text, _| r.$($field)+ = text.trim().to_owned())
    };
}
/// A column that names a thing or refers to one; `of` is what may be chosen.
macro_rules! id {
    ($head:expr, $($field:ident).+) => {
        Column::new($head, Kind::Text, |r: &Self, _| Some(r.$($field).+.to_string()), |r: &mut Self, text, _| r.$($field).+ = crate::plan::Id::from(text.trim()))
    };
    ($head:expr, $options:expr, $($field:tt)+) => {
        Column::new($head, Kind::Choice($options), |r: &Self, _| Some(r.$($field)+.to_string()), |r: &mut Self, text, _| r.$($field)+ = crate::plan::Id::from(text.trim()))
    };
}
/// A column of numbers; `bare` is the unit of a bare one.
macro_rules! number {
    ($head:expr, $bare:expr, $($field:tt)+) => {
        number_if!($head, $bare, |r: &Self| Some(&r.$($field)+), |r: &mut Self| Some(&mut r.$($field)+))
    };
}
/// A column of numbers that not every row has.
macro_rules! number_if {
    ($head:expr, $bare:expr, $see:expr, $find:expr) => {
        Column {
            plain: crate::ui::tables::Plain {
                head: $head,
                also: &[],
                kind: Kind::Number($bare, crate::ui::fields::Nuance::None),
                along: false,
                across: false,
            },
            get: |r: &Self, typing| {
                let see: for<'a> fn(&'a Self) -> Option<&'a crate::quantity::Entry<_>> = $see;
                see(r).map(|entry| crate::ui::fields::shown(entry, $bare.unit(typing.system), typing.mark))
            },
            set: |r: &mut Self, text, typing| {
                let find: for<'a> fn(&'a mut Self) -> Option<&'a mut crate::quantity::Entry<_>> = $find;
                if let Some(entry) = find(r) {
                    crate::ui::fields::retype(entry, text, $bare.unit(typing.system), typing.mark);
                }
            },
            said: Some((
                |r: &Self| {
                    let see: for<'a> fn(&'a Self) -> Option<&'a crate::quantity::Entry<_>> = $see;
                    see(r).and_then(|entry| entry.said.as_ref())
                },
                |r: &mut Self, said| {
                    let find: for<'a> fn(&'a mut Self) -> Option<&'a mut crate::quantity::Entry<_>> = $find;
                    if let Some(entry) = find(r) {
                        entry.said = said;
                    }
                },
            )),
        }
    };
}
/// A column of whole numbers.
macro_rules! count {
    ($head:expr, $($field:tt)+) => {
        Column::new($head, Kind::Count, |r: &Self, _| Some(r.$($field)+.to_string()), |r: &mut Self, text, _| {
            if let Some(count) = crate::ui::fields::count(text) {
                r.$($field)+ = count;
            }
        })
    };
}
/// A column of boxes to tick.
macro_rules! check {
    ($head:expr, $($field:tt)+) => {
        Column::new(
            $head,
            Kind::Check,
            |r: &Self, _| Some(if r.$($field)+ { crate::ui::tables::YES.to_owned() } else { String::new() }),
            |r: &mut Self, text, _| r.$($field)+ = crate::ui::tables::is_yes(text),
        )
    };
}
/// A column of one of several, by their words.
macro_rules! choice {
    ($head:expr, $worded:ty, $($field:tt)+) => {
        Column::new($head, Kind::Choice(<$worded as Worded>::options), |r: &Self, _| Some(r.$($field)+.words().to_owned()), |r: &mut Self, text, _| {
            if let Some(one) = <$worded as Worded>::worded(text) {
                r.$($field)+ = one;
            }
        })
    };
}
pub(crate) use {check, choice, count, id, long, number, number_if, text};
