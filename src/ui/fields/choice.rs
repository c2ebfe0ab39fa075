//! One of several, and yes or no.

use super::Cell;
use std::rc::Rc;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// What may be chosen: what goes into the plan and what a person reads.
pub type Options = Rc<Vec<(AttrValue, AttrValue)>>;

/// One of several.
#[derive(Clone, Properties, PartialEq)]
pub struct ChoiceProps {
    /// The input's id.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands.
    #[prop_or_default]
    pub label: Cell,
    /// What the plan has.
    pub chosen: AttrValue,
    /// What may be chosen.
    pub options: Options,
    /// Gets what is chosen.
    pub onchoose: Callback<String>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
    /// Closed against choosing.
    #[prop_or_default]
    pub closed: bool,
}

/// One of several. It always shows what the plan has, also when the plan refuses what was chosen.
#[component]
pub fn Choice(props: &ChoiceProps) -> Html {
    let select = use_node_ref();
    let count = use_state(|| 0_u32);
    {
        // after every render: the value of a select only holds once its options are there
        let (select, chosen) = (select.clone(), props.chosen.clone());
        use_effect(move || {
            if let Some(select) = select.cast::<HtmlSelectElement>() {
                select.set_value(&chosen);
            }
        });
    }
    let onchange = {
        let (onchoose, count, now) = (props.onchoose.clone(), count.setter(), *count);
        Callback::from(move |event: Event| {
            onchoose.emit(event.target_unchecked_into::<HtmlSelectElement>().value());
            // a render, whether or not the plan takes the choice
            count.set(now.wrapping_add(1));
        })
    };
    let known = props.options.iter().any(|(key, _)| *key == props.chosen);
    html! {
        <select ref={select} id={props.id.clone()} class="entry" aria-label={props.label.clone()} data-cell={props.cell.clone()}
            disabled={props.closed} {onchange}>
            if !known { <option value={props.chosen.clone()}>{ unlisted(&props.chosen) }</option> }
            { for props.options.iter().map(|(key, words)| html! { <option value={key.clone()}>{ words.clone() }</option> }) }
        </select>
    }
}

fn unlisted(chosen: &str) -> String {
    if chosen.is_empty() {
        "—".into()
    } else {
        format!("{chosen} (not in the plan)")
    }
}

/// Yes or no.
#[derive(Clone, Properties, PartialEq)]
pub struct CheckProps {
    /// The input's id.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands.
    #[prop_or_default]
    pub label: Cell,
    /// What the plan has.
    pub on: bool,
    /// Gets what is wanted.
    pub onset: Callback<bool>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
}

/// A box to tick.
#[component]
pub fn Check(props: &CheckProps) -> Html {
    let onset = props.onset.clone();
    let onchange =
        Callback::from(move |event: Event| onset.emit(event.target_unchecked_into::<HtmlInputElement>().checked()));
    html! {
        <input type="checkbox" id={props.id.clone()} class="check" aria-label={props.label.clone()} data-cell={props.cell.clone()}
            checked={props.on} {onchange} />
    }
}
