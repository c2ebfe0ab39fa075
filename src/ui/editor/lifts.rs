//! The lifts, in the order of the day.

use super::{use_assessment, use_plan};
use crate::plan::Load;
use crate::quantity::{Safe, Unit, show};
use crate::ui::tables::{Beside, Form, Table, part_of_plan};
use yew::prelude::*;

/// What every lift has; the rest stands in the form below the table.
const COLUMNS: [&str; 8] = ["Lift", "What", "Box", "Rig", "Pick spots", "Add", "Boom", "Note"];

/// The lifts of the day.
#[component]
pub(super) fn Lifts() -> Html {
    let (plan, assessment) = (use_plan(), use_assessment());
    let row = use_state_eq(|| 0_usize);
    let onrow = {
        let row = row.setter();
        use_callback((), move |at, ()| row.set(at))
    };
    let beside: Vec<Beside> = assessment
        .lifts
        .iter()
        .map(|lift| Beside {
            figures: vec![
                lift.use_of_chart
                    .map_or_else(|| "—".into(), |used| show(used, Unit::Percent, 1, Safe::Up)),
                lift.outcome.word().into(),
            ],
            messages: assessment
                .messages
                .iter()
                .filter(|m| m.about == lift.id)
                .map(|m| m.text.clone())
                .collect(),
        })
        .collect();
    let lifts = part_of_plan!(lifts);
    let details = plan.lifts.get(*row).filter(|lift| !matches!(lift.load, Load::Box { .. })).map(|lift| {
        let name = format!("lift {}", lift.number);
        html! { <><h3>{ format!("Lift {}: its load", lift.number) }</h3><Form place={lifts.item(*row).named(name)} only={&DETAILS[..]} /></> }
    });
    html! {
        <>
            <h2>{ "Lifts" }</h2>
            <p class="hint">{ "Add: contingency on the weight; blank takes the limits' figure by how the weight is known. Boom: blank takes the length that uses least of the chart. Pick spots: the one with the smallest use is taken" }</p>
            <Table place={lifts.clone()} caption="Lifts" only={&COLUMNS[..]} follows={vec!["Use of chart", "Outcome"]} {beside} {onrow} />
            { details.unwrap_or_default() }
        </>
    }
}

const DETAILS: [&str; 20] = [
    "Panel",
    "Hinge to its CG",
    "Hinge to the pull",
    "Pull at least, share of the panel",
    "Hinge across, from the side at y = 0",
    "Hinge above the underside of the floor",
    "Pull along the box, from the end at x = 0",
    "Panel reaches from its hinge to",
    "CG square to the line hinge to pull, up",
    "Panel at the start, from the horizontal",
    "Panel at the end, from the horizontal",
    "Hook beside the plumb, at most",
    "Folded flap at its edge",
    "Flap laid over, from the horizontal",
    "Held back by",
    "Bundle",
    "Weight of the bundle",
    "Set down east of the origin",
    "and north of it",
    "Set down above grade",
];
