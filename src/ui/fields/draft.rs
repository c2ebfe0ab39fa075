//! Text that belongs to the person until it is committed.

use web_sys::HtmlInputElement;
use yew::prelude::*;

/// A half-typed text and the handlers of the input that it stands in.
pub(super) struct Draft {
    /// What the input shows.
    pub text: AttrValue,
    /// Something was typed that is not in the plan.
    pub typed: bool,
    /// For the input.
    pub oninput: Callback<InputEvent>,
    /// For the input.
    pub onblur: Callback<FocusEvent>,
    /// For the input.
    pub onkeydown: Callback<KeyboardEvent>,
    /// Commits a text that was chosen instead of typed.
    pub choose: Callback<AttrValue>,
}

/// What was typed, and the plan's text at that time.
#[derive(Clone, PartialEq)]
struct Typed {
    text: AttrValue,
    over: AttrValue,
}

/// Keeps what is typed over `text` until Enter or leaving the field commits it, Escape drops it, or `text` changes from elsewhere.
///
/// A text that `may_commit` refuses stays in the field and is not committed.
#[hook]
pub(super) fn use_draft(
    text: &AttrValue,
    oncommit: &Callback<String>,
    may_commit: impl Fn(&str) -> bool + 'static,
) -> Draft {
    let typed = use_state_eq(|| None::<Typed>);
    // what was sent and is not yet in the plan: Enter commits and then moves on, which makes the field commit again
    let sent = use_mut_ref(|| None::<String>);
    let valid = (*typed).clone().filter(|typed| typed.over == *text);
    let commit = {
        let (typed, sent, over, oncommit) = (typed.setter(), sent.clone(), text.clone(), oncommit.clone());
        Callback::from(move |text: String| {
            if text == *over {
                typed.set(None);
            } else if may_commit(&text) && sent.borrow().as_deref() != Some(&text) {
                sent.replace(Some(text.clone()));
                typed.set(None);
                oncommit.emit(text);
            }
        })
    };
    let oninput = {
        let (typed, sent, over) = (typed.setter(), sent.clone(), text.clone());
        Callback::from(move |event: InputEvent| {
            sent.replace(None);
            let text = event.target_unchecked_into::<HtmlInputElement>().value().into();
            typed.set(Some(Typed {
                text,
                over: over.clone(),
            }));
        })
    };
    let onblur = commit.reform(|event: FocusEvent| event.target_unchecked_into::<HtmlInputElement>().value());
    let onkeydown = {
        let (typed, commit) = (typed.setter(), commit.clone());
        Callback::from(move |event: KeyboardEvent| match event.key().as_str() {
            "Enter" if !event.shift_key() => commit.emit(event.target_unchecked_into::<HtmlInputElement>().value()),
            "Escape" => typed.set(None),
            _ => {}
        })
    };
    let choose = {
        let sent = sent.clone();
        commit.reform(move |text: AttrValue| {
            sent.replace(None);
            text.to_string()
        })
    };
    Draft {
        typed: valid.is_some(),
        text: valid.map_or_else(|| text.clone(), |typed| typed.text),
        oninput,
        onblur,
        onkeydown,
        choose,
    }
}
