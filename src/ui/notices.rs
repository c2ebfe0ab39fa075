//! What the program has to tell: that a file did not open, that the plan is not kept.

use std::rc::Rc;
use yew::prelude::*;

/// What stands on the page until somebody takes it away.
#[derive(Clone, Default, PartialEq)]
pub struct Notices(Vec<AttrValue>);

impl Notices {
    /// The texts, newest last.
    pub fn texts(&self) -> Vec<String> {
        self.0.iter().map(ToString::to_string).collect()
    }
}

/// What can happen to it.
pub enum Tell {
    /// Something is to be told. What stands there already is not told twice.
    Say(String),
    /// It was read.
    Dismiss(AttrValue),
}

/// Tells things.
pub type Teller = UseReducerDispatcher<Notices>;

impl Reducible for Notices {
    type Action = Tell;

    fn reduce(self: Rc<Self>, action: Tell) -> Rc<Self> {
        let mut list = self.0.clone();
        match action {
            Tell::Say(text) => {
                let text = AttrValue::from(text);
                list.retain(|other| *other != text);
                list.push(text);
            }
            Tell::Dismiss(text) => list.retain(|other| *other != text),
        }
        Rc::new(Self(list))
    }
}

/// The notices, newest last.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// What to show.
    pub notices: Notices,
    /// Takes them away.
    pub teller: Teller,
}

/// Shows them.
#[component]
pub fn NoticeList(props: &Props) -> Html {
    let notice = |text: &AttrValue| {
        let dismiss = {
            let (teller, text) = (props.teller.clone(), text.clone());
            move |_| teller.dispatch(Tell::Dismiss(text.clone()))
        };
        html! {
            <div key={text.to_string()} class="notice">
                <p>{ text }</p>
                <button type="button" onclick={dismiss}>{ "Close" }</button>
            </div>
        }
    };
    html! {
        <div class="notices" role="status">
            { for props.notices.0.iter().map(notice) }
        </div>
    }
}
