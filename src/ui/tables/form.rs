//! One thing of the plan, field under field.

use super::cell::{AnyField, Head};
use super::list::AnyThing;
use crate::plan::Plan;
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
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let typing = use_context::<Typing>().unwrap_or_default();
    let columns = use_memo(props.place.clone(), |place| place.columns());
    let Some(texts) = props.place.texts(&plan, typing) else {
        return html! {};
    };
    let row = |head: Head| {
        let column = head.column;
        let text = texts[column].clone()?;
        let head_class = head.class();
        let id: AttrValue = format!("{}-{column}", props.place.place().0).into();
        let oncommit = {
            let (place, dispatch) = (props.place.clone(), dispatch.clone());
            Callback::from(move |text: String| place.set(&dispatch, column, text, typing))
        };
        let source = props.place.said(&plan, column).map(|said| {
            let (place, dispatch) = (props.place.clone(), dispatch.clone());
            let oncommit = Callback::from(move |said| place.put_said(&dispatch, column, said));
            html! { <Source id={id.clone()} {said} {oncommit} /> }
        });
        Some(html! {
            <div class={classes!("form-row", head_class)}>
                <label for={id.clone()}>{ head.text }</label>
                <AnyField {id} widget={head.widget} {text} {oncommit} />
                { source.unwrap_or_default() }
            </div>
        })
    };
    html! { <div class="form">{ for Head::all(&columns, &plan, typing).into_iter().filter(|head| props.only.is_empty() || props.only.contains(&head.text)).filter_map(row) }</div> }
}
