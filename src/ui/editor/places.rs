//! The ways to the parts of the plan.

use crate::crane::RatingChart;
use crate::plan::{Crane, HouseBox, Plan, Rig};
use crate::ui::tables::{Described, Place, part, part_of_plan};

/// One of a list, called by its name.
fn named<R: Described>(place: &Place<Vec<R>>, plan: &Plan, index: usize) -> Place<R> {
    let label = place
        .see(plan)
        .and_then(|list| list.get(index))
        .map(|one| one.label(index));
    place.item(index).named(label.unwrap_or_default())
}

/// A box.
pub fn house_box(plan: &Plan, index: usize) -> Place<HouseBox> {
    named(&part_of_plan!(boxes), plan, index)
}

/// A rig.
pub fn rig(plan: &Plan, index: usize) -> Place<Rig> {
    named(&part_of_plan!(rigs), plan, index)
}

/// A crane.
pub fn crane(plan: &Plan, index: usize) -> Place<Crane> {
    named(&part_of_plan!(cranes), plan, index)
}

/// A chart of a crane.
pub fn chart(plan: &Plan, crane_index: usize, index: usize) -> Place<RatingChart> {
    let crane = crane(plan, crane_index);
    let charts = part!(crane, charts);
    let id = charts
        .see(plan)
        .and_then(|list| list.get(index))
        .map(|chart| chart.id.clone());
    charts
        .item(index)
        .named(format!("{}, chart {}", crane.name(), id.unwrap_or_default()))
}
