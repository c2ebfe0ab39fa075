//! One row of a table. It renders only when something of its own changes.

use super::cell::{AnyField, Head};
use super::edit::Edit;
use std::rc::Rc;
use yew::prelude::*;

/// What stands beside a row and is not typed: figures that follow, and what is wrong.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beside {
    /// One for each head of the table's figures.
    pub figures: Vec<String>,
    /// Messages about the row.
    pub messages: Vec<String>,
}

#[derive(Clone, Properties, PartialEq)]
pub(super) struct RowProps {
    /// Path of the table and the row's key: what the ids of its fields begin with.
    pub id: AttrValue,
    /// Its place in the list.
    pub index: usize,
    /// Its name.
    pub label: AttrValue,
    /// The columns shown.
    pub heads: Rc<Vec<Head>>,
    /// Its texts, one for each head.
    pub texts: Vec<Option<AttrValue>>,
    /// What stands beside it.
    pub beside: Beside,
    /// It is the row in hand.
    pub in_hand: bool,
    /// Gets its changes.
    pub onedit: Callback<Edit>,
}

/// How a table finds a field again.
pub fn cell_name(row: usize, column: usize) -> String {
    format!("{row}:{column}")
}

#[component]
pub(super) fn Row(props: &RowProps) -> Html {
    // the same callbacks at each render, so that a commit renders only the field that it changed
    let commits = use_memo(
        (props.onedit.clone(), props.index, Rc::clone(&props.heads)),
        |(onedit, row, heads)| {
            let one = |head: &Head| {
                let (row, column) = (*row, head.column);
                onedit.reform(move |text: String| Edit::Set { row, column, text })
            };
            heads.iter().map(one).collect::<Vec<Callback<String>>>()
        },
    );
    let width = props.heads.len() + props.beside.figures.len() + 1;
    html! {
        <>
            <tr class={props.in_hand.then_some("in-hand")}>
                <th scope="row">{ props.index + 1 }</th>
                { for props.heads.iter().zip(&props.texts).zip(commits.iter()).map(|((head, text), oncommit)| cell(props, head, text.as_ref(), oncommit)) }
                { for props.beside.figures.iter().map(|figure| html! { <td class="follows">{ figure }</td> }) }
            </tr>
            if !props.beside.messages.is_empty() {
                <tr class="messages"><td colspan={width.to_string()}>{ for props.beside.messages.iter().map(|text| html! { <p>{ text }</p> }) }</td></tr>
            }
        </>
    }
}

fn cell(props: &RowProps, head: &Head, text: Option<&AttrValue>, oncommit: &Callback<String>) -> Html {
    let Some(text) = text else {
        return html! { <td class={classes!(head.class(), "no-cell")}></td> };
    };
    let (row, column) = (props.index, head.column);
    let id = format!("{}-{column}", props.id);
    let label: AttrValue = format!("{}, {}", props.label, head.text).into();
    html! {
        <td class={head.class()}>
            <AnyField {id} {label} widget={head.widget.clone()} text={text.clone()} oncommit={oncommit.clone()} cell={Some(AttrValue::from(cell_name(row, column)))} />
        </td>
    }
}
