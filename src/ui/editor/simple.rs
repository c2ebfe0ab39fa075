//! Parts of the plan that are plain lists and forms: limits, site, title block.

use super::gear::Profiles;
use super::use_plan;
use crate::ui::tables::{Form, Table, part, part_of_plan, whole_plan};
use yew::prelude::*;

/// The limits.
#[component]
pub(super) fn Bounds() -> Html {
    html! {
        <>
            <h2>{ "Limits" }</h2>
            <p class="hint">{ "Every check holds its result against these. They are yours to set: the starting values are common practice" }</p>
            <Profiles />
            <Form place={part_of_plan!(limits).named("limits")} />
        </>
    }
}

/// The title block.
#[component]
pub(super) fn TitleBlock() -> Html {
    html! {
        <>
            <h2>{ "Project" }</h2>
            <Form place={part!(whole_plan(), project).named("project")} />
        </>
    }
}

/// The lot.
#[component]
pub(super) fn Lot() -> Html {
    let plan = use_plan();
    let zone = use_state_eq(|| 0_usize);
    let onzone = {
        let zone = zone.setter();
        use_callback((), move |row, ()| zone.set(row))
    };
    let site = part_of_plan!(site).named("site");
    let zones = part!(site, zones).named("");
    let chosen = plan.site.zones.get(*zone).map(|z| {
        let outline = part!(zones.item(*zone), outline).named(format!("zone {}", z.name));
        html! { <><h3>{ format!("Outline of the zone {}", z.name) }</h3><Table place={outline} caption="Corners of the zone" /></> }
    });
    html! {
        <>
            <h2>{ "Site" }</h2>
            <p class="hint">{ "East and north of the origin, which is a corner of the foundation" }</p>
            <h3>{ "Foundation, its outside corners in order" }</h3>
            <Table place={part!(site, foundation).named("foundation")} caption="Corners of the foundation" />
            <Form place={site.clone()} />
            <h3>{ "Spots that boxes are picked from" }</h3>
            <Table place={part!(site, spots).named("")} caption="Pick spots" />
            <h3>{ "Places where the crane may stand" }</h3>
            <Table place={part!(site, pads).named("")} caption="Pads" />
            <h3>{ "Zones" }</h3>
            <Table place={zones} caption="Zones" onrow={onzone} />
            { chosen.unwrap_or_default() }
            <h3>{ "Trees and other things that stand up" }</h3>
            <Table place={part!(site, obstacles).named("")} caption="Obstacles" />
            <h3>{ "Power lines: live until the utility confirms otherwise" }</h3>
            <Table place={part!(site, power_lines).named("")} caption="Power lines" />
            <h3>{ "Other overhead cables" }</h3>
            <Table place={part!(site, cables).named("")} caption="Cables" />
        </>
    }
}
