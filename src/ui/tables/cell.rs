//! One field of a table or a form, whatever is typed into it.

use super::column::{Kind, Plain, YES, is_yes};
use crate::plan::Plan;
use crate::quantity::Unit;
use crate::ui::fields::{Cell, Check, Choice, CountField, Nuance, NumberField, Options, TextField, Typing, count};
use yew::prelude::*;

/// What is typed into a field, with all it takes to show it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Widget {
    /// Words.
    Text,
    /// Several lines.
    Long,
    /// A number.
    Number(Unit, Nuance),
    /// A whole number.
    Count,
    /// Yes or no.
    Check,
    /// One of several.
    Choice(Options),
    /// Some of several, by name.
    Names(Options),
}

/// The head of a column as it is shown now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Its words.
    pub text: &'static str,
    /// What is typed below it.
    pub widget: Widget,
    /// Which of the columns it is.
    pub column: usize,
}

impl Head {
    /// The heads of all columns under a plan.
    pub fn all(columns: &[Plain], plan: &Plan, typing: Typing) -> Vec<Self> {
        let head = |(column, c): (usize, &Plain)| Self {
            text: c.head,
            widget: match c.kind {
                Kind::Text => Widget::Text,
                Kind::Long => Widget::Long,
                Kind::Number(bare, nuance) => Widget::Number(bare.unit(typing.system), nuance),
                Kind::Count => Widget::Count,
                Kind::Check => Widget::Check,
                Kind::Choice(options) => Widget::Choice(options(plan)),
                Kind::Names(options) => Widget::Names(options(plan)),
            },
            column,
        };
        columns.iter().enumerate().map(head).collect()
    }

    /// The unit that stands in the head.
    pub fn unit(&self) -> Option<&'static str> {
        match self.widget {
            Widget::Number(Unit::One, _) => None,
            Widget::Number(unit, _) => Some(unit.symbol()),
            _ => None,
        }
    }

    /// The class that gives the column its width.
    pub fn class(&self) -> &'static str {
        match self.widget {
            Widget::Text | Widget::Long => "words",
            Widget::Names(_) => "names",
            Widget::Number(..) => "figures",
            Widget::Count => "count",
            Widget::Check => "tick",
            Widget::Choice(_) => "choice",
        }
    }
}

/// A field.
#[derive(Clone, Properties, PartialEq)]
pub struct CellProps {
    /// The input's id.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands.
    #[prop_or_default]
    pub label: Cell,
    /// What is typed into it.
    pub widget: Widget,
    /// The text as the plan has it.
    pub text: AttrValue,
    /// Gets the text when it is committed.
    pub oncommit: Callback<String>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
}

/// A field of whatever kind.
#[component]
pub fn AnyField(props: &CellProps) -> Html {
    let CellProps {
        id,
        label,
        widget,
        text,
        oncommit,
        cell,
    } = props.clone();
    match widget {
        Widget::Text => html! { <TextField {id} {label} {text} {oncommit} {cell} /> },
        Widget::Long => html! { <TextField {id} {label} {text} {oncommit} {cell} long=true /> },
        Widget::Names(names) => html! { <TextField {id} {label} {text} {oncommit} {cell} {names} /> },
        Widget::Number(unit, nuance) => html! { <NumberField {id} {label} {text} {unit} {nuance} {oncommit} {cell} /> },
        Widget::Count => {
            let oncommit = oncommit.reform(|count: u32| count.to_string());
            html! { <CountField {id} {label} count={count(&text).unwrap_or_default()} {oncommit} {cell} /> }
        }
        Widget::Check => {
            let onset = oncommit.reform(|on| if on { YES.to_owned() } else { String::new() });
            html! { <Check {id} {label} on={is_yes(&text)} {onset} {cell} /> }
        }
        Widget::Choice(options) => html! { <Choice {id} {label} chosen={text} {options} onchoose={oncommit} {cell} /> },
    }
}
