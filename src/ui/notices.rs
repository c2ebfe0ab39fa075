//! What the program has to tell: that a file did not open, that the plan is not kept.

use super::file;
use super::keeper;
use super::store::Shared;
use crate::plan::Plan;
use std::rc::Rc;
use yew::prelude::*;

/// One thing that was told.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// In words.
    pub text: AttrValue,
    /// The plan on the page is offered as a file: it is not kept, or the view that saves it did not come.
    pub offers_file: bool,
}

impl Notice {
    /// Something to be read.
    pub fn say(text: impl Into<AttrValue>) -> Self {
        Self {
            text: text.into(),
            offers_file: false,
        }
    }

    /// The same, with the plan as a file.
    pub fn offer_file(text: impl Into<AttrValue>) -> Self {
        Self {
            text: text.into(),
            offers_file: true,
        }
    }
}

/// What stands on the page until somebody takes it away.
#[derive(Clone, Default, PartialEq)]
pub struct Notices(pub Vec<Notice>);

/// What can happen to it.
pub enum Tell {
    /// Something is to be told. What stands there already is not told twice.
    Say(String),
    /// The same, with the plan on the page as a file. It takes the place of an earlier one of its kind.
    OfferFile(String),
    /// The file is no longer called for: the plan is kept again.
    Kept,
    /// It was read.
    Dismiss(AttrValue),
}

/// Tells things.
pub type Teller = UseReducerDispatcher<Notices>;

impl Reducible for Notices {
    type Action = Tell;

    fn reduce(self: Rc<Self>, action: Tell) -> Rc<Self> {
        let mut list = self.0.clone();
        let told = match action {
            Tell::Say(text) => Some(Notice::say(text)),
            Tell::OfferFile(text) => {
                list.retain(|other| !other.offers_file);
                Some(Notice::offer_file(text))
            }
            Tell::Kept => {
                list.retain(|other| !other.offers_file);
                None
            }
            Tell::Dismiss(text) => {
                list.retain(|other| other.text != text);
                None
            }
        };
        if let Some(notice) = told {
            list.retain(|other| other.text != notice.text);
            list.push(notice);
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
    /// What is offered as a file.
    pub plan: Shared<Plan>,
}

/// Shows them.
#[component]
pub fn NoticeList(props: &Props) -> Html {
    let notice = |notice: &Notice| {
        let dismiss = {
            let (teller, text) = (props.teller.clone(), notice.text.clone());
            move |_| teller.dispatch(Tell::Dismiss(text.clone()))
        };
        html! {
            <div key={notice.text.to_string()} class="notice">
                <p>{ &notice.text }</p>
                if notice.offers_file { { file::save_button(&keeper::unkept().unwrap_or_else(|| props.plan.clone()), &props.teller) } }
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
