//! Cranes and where one of them stands.

use super::{chooser, places, use_plan};
use crate::plan::Crane;
use crate::ui::fields::Source;
use crate::ui::tables::{Form, Table, part, part_of_plan, whole_plan};
use crate::ui::{Dispatch, tables::Place};
use yew::prelude::*;

/// The cranes.
#[component]
pub(super) fn Cranes() -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let chosen = use_state_eq(|| {
        plan.cranes
            .iter()
            .position(|crane| crane.id == plan.set_up.crane)
            .unwrap_or(0)
    });
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let one = plan.cranes.get(*chosen).map(|crane| {
        let place = places::crane(&plan, *chosen);
        html! {
            <>
                <h3>{ format!("Crane {}", crane.id) }</h3>
                <div class="form-row"><span>{ "Where its figures come from" }</span>{ source(&place, crane, dispatch) }</div>
                <Form {place} />
            </>
        }
    });
    html! {
        <>
            <h2>{ "Which crane stands where" }</h2>
            <Form place={part!(whole_plan(), set_up).named("set-up")} />
            <h2>{ "Cranes" }</h2>
            <Table place={part_of_plan!(cranes)} caption="Cranes" only={&["Crane", "Class and make-up"][..]} onrow={onchoose.clone()} />
            { chooser(&plan.cranes, *chosen, |crane| crane.id.to_string(), &onchoose) }
            { one.unwrap_or_default() }
        </>
    }
}

fn source(place: &Place<Crane>, crane: &Crane, dispatch: Dispatch) -> Html {
    let place = place.clone();
    let id = format!("{}-said", place.path());
    let oncommit = Callback::from(move |said| place.edit(&dispatch, "source", move |crane| crane.said = said));
    html! { <Source {id} said={crane.said.clone()} {oncommit} /> }
}
