//! The number field.

use super::draft::use_draft;
use super::{Bare, Cell, Nuance, Source, Typing, Understood, shown, understood};
use crate::quantity::{Entry, Readable, Said, Unit};
use yew::prelude::*;

/// A number typed as text.
#[derive(Clone, Properties, PartialEq)]
pub struct NumberProps {
    /// The input's id; what is said about it gets the same with `-note`.
    pub id: AttrValue,
    /// Its name for those who cannot see where it stands; left out where a `<label>` names it.
    #[prop_or_default]
    pub label: Cell,
    /// The text as the plan has it.
    pub text: AttrValue,
    /// Unit of a bare number.
    pub unit: Unit,
    /// What else to watch for.
    #[prop_or_default]
    pub nuance: Nuance,
    /// Gets the text when it is committed.
    pub oncommit: Callback<String>,
    /// Its place in a table.
    #[prop_or_default]
    pub cell: Cell,
    /// Closed against typing.
    #[prop_or_default]
    pub closed: bool,
}

/// A number: its text, its unit, and what was understood or is wrong.
#[component]
pub fn NumberField(props: &NumberProps) -> Html {
    let mark = use_context::<Typing>().unwrap_or_default().mark;
    let (unit, nuance) = (props.unit, props.nuance);
    let draft = use_draft(&props.text, &props.oncommit, move |text| {
        !understood(text, unit, mark, nuance).hold
    });
    let focused = use_state_eq(|| false);
    let says = understood(&draft.text, unit, mark, nuance);
    let wrong = !says.trouble.is_empty();
    let in_table = props.cell.is_some();
    let note_id = format!("{}-note", props.id);
    let told = !in_table || wrong || *focused || draft.typed;
    let onblur = {
        let (focused, onblur) = (focused.setter(), draft.onblur.clone());
        Callback::from(move |event| {
            focused.set(false);
            onblur.emit(event);
        })
    };
    let onfocus = {
        let focused = focused.setter();
        Callback::from(move |_| focused.set(true))
    };
    html! {
        <span class={classes!("field", wrong.then_some("wrong"))}>
            <input type="text" inputmode="decimal" autocomplete="off" id={props.id.clone()} aria-label={props.label.clone()}
                class="entry number" value={draft.text.clone()} readonly={props.closed} data-cell={props.cell.clone()}
                aria-invalid={wrong.then_some("true")} aria-describedby={told.then(|| note_id.clone())}
                oninput={draft.oninput} {onblur} {onfocus} onkeydown={draft.onkeydown} />
            if !in_table && unit != Unit::One && is_bare(&draft.text) { <span class="unit">{ unit.symbol() }</span> }
            if told { { note(note_id, says, &draft.choose) } }
        </span>
    }
}

/// Whether a text leaves its unit to the field.
fn is_bare(text: &str) -> bool {
    !text.contains(|c: char| c.is_alphabetic() || "'\"′″’”%°".contains(c))
}

/// What stands beside the text, and the answers to choose from.
fn note(id: String, says: Understood, choose: &Callback<AttrValue>) -> Html {
    let wrong = !says.trouble.is_empty();
    let text = if wrong { says.trouble } else { says.echo };
    let answer = |text: &AttrValue| {
        let (choose, chosen) = (choose.clone(), text.clone());
        // pressed before the field is left, so that leaving it does not commit the text first
        let onmousedown = Callback::from(|event: MouseEvent| event.prevent_default());
        let onclick = Callback::from(move |_| choose.emit(chosen.clone()));
        html! { <button type="button" class="answer" {onmousedown} {onclick}>{ text.clone() }</button> }
    };
    html! {
        <span {id} role="status" class={if wrong { "trouble" } else { "echo" }}>
            { text }
            { for says.answers.iter().map(answer) }
        </span>
    }
}

/// An entry of the plan as a field with its label, its reading and its source.
#[derive(Properties, PartialEq)]
pub struct EntryProps<Q: Readable + 'static> {
    /// The input's id.
    pub id: AttrValue,
    /// Its name.
    pub label: AttrValue,
    /// The entry.
    pub entry: Entry<Q>,
    /// Units of bare numbers; left out: the usual ones.
    #[prop_or_else(Bare::of::<Q>)]
    pub bare: Bare,
    /// What else to watch for.
    #[prop_or_default]
    pub nuance: Nuance,
    /// Gets the entry as typed anew.
    pub oncommit: Callback<Entry<Q>>,
}

/// A number of the plan with its source.
#[component]
pub fn EntryField<Q: Readable + 'static>(props: &EntryProps<Q>) -> Html {
    let typing = use_context::<Typing>().unwrap_or_default();
    let unit = props.bare.unit(typing.system);
    let (entry, oncommit) = (props.entry.clone(), props.oncommit.clone());
    let ontext = Callback::from(move |text: String| {
        let mut entry = entry.clone();
        super::retype(&mut entry, &text, unit, typing.mark);
        oncommit.emit(entry);
    });
    let (entry, oncommit) = (props.entry.clone(), props.oncommit.clone());
    let onsaid = Callback::from(move |said: Option<Said>| {
        let mut entry = entry.clone();
        entry.said = said;
        oncommit.emit(entry);
    });
    html! {
        <div class="form-row">
            <label for={props.id.clone()}>{ props.label.clone() }</label>
            <NumberField id={props.id.clone()} text={shown(&props.entry, unit, typing.mark)} {unit} nuance={props.nuance} oncommit={ontext} />
            <Source id={props.id.clone()} said={props.entry.said.clone()} oncommit={onsaid} />
        </div>
    }
}
