//! Who said a number, when, and what there is to add.

use super::TextField;
use crate::quantity::Said;
use yew::prelude::*;

/// The source of a number.
#[derive(Properties, PartialEq)]
pub struct SourceProps {
    /// The id of the field it belongs to.
    pub id: AttrValue,
    /// The source as the plan has it.
    pub said: Option<Said>,
    /// Gets the source as it is to be.
    pub oncommit: Callback<Option<Said>>,
}

/// A source: one short line, which opens to be written.
#[component]
pub fn Source(props: &SourceProps) -> Html {
    let said = props.said.clone().unwrap_or_default();
    let field = |part: &str, label: &str, text: &str, put: fn(&mut Said, String)| {
        let (oncommit, said) = (props.oncommit.clone(), said.clone());
        let oncommit = Callback::from(move |text: String| {
            let mut said = said.clone();
            put(&mut said, text.trim().to_owned());
            oncommit.emit((said != Said::default()).then_some(said));
        });
        let id: AttrValue = format!("{}-{part}", props.id).into();
        html! { <><label for={id.clone()}>{ label }</label><TextField {id} text={text.to_owned()} {oncommit} /></> }
    };
    let line = [said.who.as_str(), said.when.as_str(), said.note.as_str()];
    let line: Vec<&str> = line.into_iter().filter(|part| !part.is_empty()).collect();
    html! {
        <details class="source">
            <summary>{ if line.is_empty() { "source".to_owned() } else { line.join(", ") } }</summary>
            <div class="source-fields">
                { field("who", "Who said so", &said.who, |said, text| said.who = text) }
                { field("when", "When", &said.when, |said, text| said.when = text) }
                { field("more", "Note", &said.note, |said, text| said.note = text) }
            </div>
        </details>
    }
}
