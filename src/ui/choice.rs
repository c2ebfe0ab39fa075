//! A drop-down list that always shows what the plan says, also when the plan refuses a choice.

use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// A list of choices.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// What is chosen.
    pub label: AttrValue,
    /// The choices: value and words.
    pub options: Vec<(AttrValue, AttrValue)>,
    /// The value that stands.
    pub value: AttrValue,
    /// Told the value that people choose.
    pub onchoose: Callback<String>,
}

/// Shows it.
#[component]
pub fn Choice(props: &Props) -> Html {
    let list = use_node_ref();
    {
        let (list, value) = (list.clone(), props.value.clone());
        // after every render: the browser keeps a refused choice on screen otherwise
        use_effect(move || {
            if let Some(list) = list.cast::<HtmlSelectElement>() {
                list.set_value(&value);
            }
        });
    }
    let onchange = props.onchoose.reform(|event: Event| event.target_unchecked_into::<HtmlSelectElement>().value());
    html! {
        <label class="choice">
            <span>{ &props.label }</span>
            <select ref={list} {onchange}>
                { for props.options.iter().map(|(value, words)| html! { <option value={value.clone()}>{ words }</option> }) }
            </select>
        </label>
    }
}
