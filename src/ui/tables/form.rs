//! One thing of the plan, field under field.

use super::cell::{AnyField, Head};
use super::column::Described;
use super::place::Place;
use crate::plan::Plan;
use crate::ui::fields::{Source, Typing};
use crate::ui::{Dispatch, Shared};
use yew::prelude::*;

/// One thing of the plan.
#[derive(Properties, PartialEq)]
pub struct FormProps<R: Described> {
    /// Where it is.
    pub place: Place<R>,
    /// Heads of the fields to show; empty: all.
    #[prop_or_default]
    pub only: &'static [&'static str],
}

/// All fields of a thing, each with its reading, its messages and its source.
#[component]
pub fn Form<R: Described>(props: &FormProps<R>) -> Html {
    let plan = use_context::<Shared<Plan>>().expect("an editor stands inside the page, which holds the plan");
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let typing = use_context::<Typing>().unwrap_or_default();
    let columns = use_memo((), |()| R::columns());
    let Some(this) = props.place.see(&plan) else {
        return html! {};
    };
    let row = |head: Head| {
        let column = head.column;
        let described = &columns[column];
        let text = (described.get)(this, typing)?;
        let head_class = head.class();
        let id: AttrValue = format!("{}-{column}", props.place.path()).into();
        let oncommit = committer(&props.place, &dispatch, head.text, described.set, typing);
        let source = described.said.map(|(see, put)| {
            let (place, dispatch, what) = (
                props.place.clone(),
                dispatch.clone(),
                format!("{} source", head.text.to_lowercase()),
            );
            let oncommit = Callback::from(move |said| place.edit(&dispatch, &what, move |this| put(this, said)));
            html! { <Source id={id.clone()} said={see(this).cloned()} {oncommit} /> }
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

fn committer<R: Described>(
    place: &Place<R>,
    dispatch: &Dispatch,
    head: &str,
    set: fn(&mut R, &str, Typing),
    typing: Typing,
) -> Callback<String> {
    let (place, dispatch, what) = (place.clone(), dispatch.clone(), head.to_lowercase());
    Callback::from(move |text: String| {
        place.edit_named(&dispatch, place.name_of(&what), move |this| set(this, &text, typing))
    })
}
