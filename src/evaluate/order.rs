//! The order of lifts and the names in the plan.

use crate::check::Message;
use crate::plan::{Id, Load, Plan};

/// What is wrong with the order of lifts and with names that stand twice.
pub fn messages(plan: &Plan) -> Vec<Message> {
    let mut messages = Vec::new();
    for (index, lift) in plan.lifts.iter().enumerate() {
        let mut say = |text: String| {
            messages.push(Message {
                about: lift.id.clone(),
                place: format!("lift {}", lift.number),
                text,
                blocks: true,
            });
        };
        let earlier = &plan.lifts[..index];
        if earlier.iter().any(|other| other.number == lift.number) {
            say(format!(
                "number {} stands twice: give every lift its own number",
                lift.number
            ));
        }
        match &lift.load {
            Load::Box { id } => {
                if earlier
                    .iter()
                    .any(|other| matches!(&other.load, Load::Box { id: set } if set == id))
                {
                    say(format!("box {id} is in two lifts: take one out"));
                }
                if plan.house_box(id).is_none() {
                    say(format!("box {id} is not in the plan: choose a box that is"));
                }
            }
            Load::RoofRaise { on, .. } => {
                if !earlier
                    .iter()
                    .any(|other| matches!(&other.load, Load::Box { id: set } if set == on))
                {
                    say(format!(
                        "the roof of box {on} is raised before the box is set: move the lift down"
                    ));
                }
            }
            Load::Bundle { .. } => {}
        }
    }
    messages.extend(twice("boxes", plan.boxes.iter().map(|b| &b.id)));
    messages.extend(twice("gear", plan.gear.iter().map(|g| &g.id)));
    messages.extend(twice("rigs", plan.rigs.iter().map(|r| &r.id)));
    messages.extend(twice("cranes", plan.cranes.iter().map(|c| &c.id)));
    messages
}

fn twice<'a>(list: &str, ids: impl Iterator<Item = &'a Id>) -> Vec<Message> {
    let mut seen = std::collections::BTreeSet::new();
    ids.filter(|id| !seen.insert(*id))
        .map(|id| Message {
            about: id.clone(),
            place: list.to_owned(),
            text: format!("the name {id} stands twice: give every row its own name, the first one is used"),
            blocks: true,
        })
        .collect()
}
