//! One thing of the plan, field under field.

use super::cell::{AnyField, Head};
use super::list::AnyThing;
use crate::plan::Plan;
use crate::quantity::Said;
use crate::ui::fields::{Source, Typing};
use crate::ui::{Dispatch, Shared};
use yew::prelude::*;

/// One thing of the plan.
#[derive(Properties, PartialEq)]
pub struct FormProps {
    /// Where it is.
    pub place: AnyThing,
    /// Heads of the fields to show; empty: all.
    #[prop_or_default]
    pub only: &'static [&'static str],
}

/// All fields of a thing, each with its reading, its messages and its source.
#[component]
pub fn Form(props: &FormProps) -> Html {
    let plan = use_context::<Shared<Plan>>().expect("an editor stands inside the page, which holds the plan");
    let typing = use_context::<Typing>().unwrap_or_default();
    let columns = use_memo(props.place.clone(), |place| place.columns());
    let Some(texts) = props.place.texts(&plan, typing) else {
        return html! {};
    };
    let field = |head: Head| {
        let (text, said) = (texts[head.column].clone()?, props.place.said(&plan, head.column));
        Some(html! { <Field place={props.place.clone()} {head} {text} {said} /> })
    };
    let mut heads = Head::all(&columns, &plan, typing);
    heads.retain(|head| props.only.is_empty() || props.only.contains(&head.text));
    html! { <div class="form">{ for heads.into_iter().filter_map(field) }</div> }
}

#[derive(Properties, PartialEq)]
struct FieldProps {
    place: AnyThing,
    head: Head,
    text: AttrValue,
    /// Its source; `None` where it takes none.
    said: Option<Option<Said>>,
}

/// One field of a thing. It renders only when something of its own changes.
#[component]
fn Field(props: &FieldProps) -> Html {
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let typing = use_context::<Typing>().unwrap_or_default();
    let FieldProps {
        place,
        head,
        text,
        said,
    } = props;
    let column = head.column;
    let id: AttrValue = format!("{}-{column}", place.place().0).into();
    let oncommit = {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        Callback::from(move |text: String| place.set(&dispatch, column, text, typing))
    };
    let source = said.clone().map(|said| {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        let oncommit = Callback::from(move |said| place.put_said(&dispatch, column, said));
        html! { <Source id={id.clone()} {said} {oncommit} /> }
    });
    html! {
        <div class={classes!("form-row", head.class())}>
            <label for={id.clone()}>{ head.text }</label>
            <AnyField {id} widget={head.widget.clone()} text={text.clone()} {oncommit} />
            { source.unwrap_or_default() }
        </div>
    }
}
