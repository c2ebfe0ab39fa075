//! Fields of words and of whole numbers.

use super::Cell;
use super::draft::use_draft;
use yew::prelude::*;

/// Words.
#[derive(Clone, Properties, PartialEq)]
pub struct TextProps {
    /// The input's id.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands.
    #[prop_or_default]
    pub label: Cell,
    /// The text as the plan has it.
    pub text: AttrValue,
    /// Several lines.
    #[prop_or_default]
    pub long: bool,
    /// Names that the text may list; anything else is refused. Empty: any text.
    #[prop_or_default]
    pub names: super::Options,
    /// Gets the text when it is committed.
    pub oncommit: Callback<String>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
    /// Closed against typing.
    #[prop_or_default]
    pub closed: bool,
}

/// The names of a list such as "K1, K3".
pub(crate) fn listed(text: &str) -> impl Iterator<Item = &str> {
    text.split([',', ';', ' '])
        .map(str::trim)
        .filter(|name| !name.is_empty())
}

/// A field of words.
#[component]
pub fn TextField(props: &TextProps) -> Html {
    let draft = use_draft(&props.text, &props.oncommit, |_| true);
    let unknown = if props.names.is_empty() {
        None
    } else {
        listed(&draft.text).find(|name| !props.names.iter().any(|(key, _)| key == name))
    };
    let note_id = format!("{}-note", props.id);
    let input = if props.long {
        html! {
            <textarea id={props.id.clone()} class="entry" aria-label={props.label.clone()} rows="3" value={draft.text.clone()} readonly={props.closed}
                oninput={draft.oninput} onblur={draft.onblur} />
        }
    } else {
        html! {
            <input type="text" autocomplete="off" id={props.id.clone()} class="entry" aria-label={props.label.clone()} value={draft.text.clone()}
                readonly={props.closed} data-cell={props.cell.clone()} aria-invalid={unknown.map(|_| "true")}
                aria-describedby={unknown.map(|_| note_id.clone())}
                oninput={draft.oninput} onblur={draft.onblur} onkeydown={draft.onkeydown} />
        }
    };
    let trouble = unknown.map(|name| {
        let names: Vec<&str> = props.names.iter().map(|(key, _)| key.as_str()).collect();
        format!(
            "read \"{name}\": expected names out of {}; mend the name or add it where it is kept",
            names.join(", ")
        )
    });
    html! {
        <span class={classes!("field", trouble.is_some().then_some("wrong"))}>
            { input }
            if let Some(trouble) = trouble { <span id={note_id} role="status" class="trouble">{ trouble }</span> }
        </span>
    }
}

/// A whole number.
#[derive(Clone, Properties, PartialEq)]
pub struct CountProps {
    /// The input's id.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands.
    #[prop_or_default]
    pub label: Cell,
    /// The count as the plan has it.
    pub count: u32,
    /// Gets the count when it is committed.
    pub oncommit: Callback<u32>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
}

/// The count that a text says.
pub(crate) fn count(text: &str) -> Option<u32> {
    text.trim().parse().ok()
}

/// A field of a whole number; what is none stays in the field and out of the plan, with a word about it.
#[component]
pub fn CountField(props: &CountProps) -> Html {
    let oncommit = {
        let oncommit = props.oncommit.clone();
        Callback::from(move |text: String| {
            if let Some(count) = count(&text) {
                oncommit.emit(count);
            }
        })
    };
    let draft = use_draft(&props.count.to_string().into(), &oncommit, |text| count(text).is_some());
    let wrong = count(&draft.text).is_none();
    let note_id = format!("{}-note", props.id);
    let trouble = format!(
        "read \"{}\": expected a whole number such as 4; the plan keeps {} until then",
        draft.text, props.count
    );
    html! {
        <span class={classes!("field", wrong.then_some("wrong"))}>
            <input type="text" inputmode="numeric" autocomplete="off" id={props.id.clone()} class="entry number" aria-label={props.label.clone()}
                value={draft.text.clone()} data-cell={props.cell.clone()} aria-invalid={wrong.then_some("true")}
                aria-describedby={wrong.then(|| note_id.clone())}
                oninput={draft.oninput} onblur={draft.onblur} onkeydown={draft.onkeydown} />
            if wrong { <span id={note_id} role="status" class="trouble">{ trouble }</span> }
        </span>
    }
}
