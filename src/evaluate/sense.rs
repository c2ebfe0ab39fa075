//! Numbers that can be read but cannot be meant: below zero where nothing is below zero.

use crate::check::Message;
use crate::plan::{Id, Plan};
use crate::quantity::{Entry, Readable};

/// Where a number below zero stands that has no meaning there. Such a number counts as not entered.
pub fn messages(plan: &Plan) -> Vec<Message> {
    let mut found = Found { messages: Vec::new() };
    let l = &plan.limits;
    let about = Id::from("limits");
    found.check(&about, "limit on the use of the chart", &l.chart_use);
    found.check(&about, "radius allowance", &l.radius_allowance);
    found.check(&about, "set-up tolerance", &l.set_up_tolerance);
    found.check(&about, "dynamic factor", &l.dynamic_factor);
    found.check(&about, "carry clearance", &l.carry_clearance);
    found.check(&about, "boom gap", &l.boom_gap);
    found.check(&about, "limit of gear use", &l.gear_use);
    found.check(&about, "level limit", &l.level);
    found.check(&about, "flattest leg angle", &l.leg_angle_stop);
    found.check(&about, "leg angle for a caution", &l.leg_angle_caution);
    found.check(&about, "length tolerance of the legs", &l.length_tolerance);
    found.check(&about, "band of the components' weights", &l.mass_band);
    found.check(&about, "band of the components' places", &l.place_band);
    for (place, entry) in [
        ("contingency, weighed", &l.contingency_weighed),
        ("contingency, weighed early", &l.contingency_weighed_early),
        ("contingency, take-off", &l.contingency_takeoff),
        ("contingency, estimated per area", &l.contingency_per_area),
    ] {
        found.check(&about, place, entry);
    }
    for lift in &plan.lifts {
        found.check(
            &lift.id,
            &format!("contingency of lift {}", lift.number),
            &lift.contingency,
        );
    }
    for house in &plan.boxes {
        found.check(&house.id, "stiffness against twist", &house.gj);
        found.check(&house.id, "stiffness against bending", &house.ei);
        for (panel, name) in house.panels.iter().zip(["floor", "roof", "first side", "second side"]) {
            found.check(&house.id, &format!("shear stiffness of the {name}"), panel);
        }
        for row in &house.components {
            found.check(
                &house.id,
                &format!("row {}, band of its weight", row.id),
                &row.mass_band,
            );
            found.check(
                &house.id,
                &format!("row {}, band of its place", row.id),
                &row.place_band,
            );
        }
    }
    for item in &plan.gear {
        found.check(&item.id, "own weight", &item.mass);
        found.check(&item.id, "rating", &item.rating);
        found.check(&item.id, "length", &item.length);
        found.check(&item.id, "longest length", &item.longest);
        found.check(&item.id, "diameter", &item.diameter);
    }
    for c in &plan.cranes {
        found.check(&c.id, "boom pin height", &c.pin_height);
        found.check(&c.id, "boom depth", &c.boom_depth);
        found.check(&c.id, "hook block", &c.block_mass);
        found.check(&c.id, "block height", &c.block_height);
        found.check(&c.id, "two-block margin", &c.two_block);
        found.check(&c.id, "hoist rope", &c.rope);
        found.check(&c.id, "hanging rope", &c.hanging_rope);
        found.check(&c.id, "stowed on the boom", &c.stowed);
        found.check(&c.id, "mat size", &c.mat);
    }
    found.check(
        &Id::from("site"),
        "width of the strip that takes no load",
        &plan.site.no_load_offset,
    );
    found.messages
}

struct Found {
    messages: Vec<Message>,
}

impl Found {
    fn check<Q: Readable>(&mut self, about: &Id, place: &str, entry: &Entry<Q>) {
        if entry.get().is_some() && entry.not_negative().is_none() {
            self.messages.push(Message {
                about: about.clone(),
                place: place.to_owned(),
                text: format!(
                    "\"{}\" is below zero: expected zero or more; it counts as not entered until it is mended",
                    entry.text()
                ),
                blocks: true,
            });
        }
    }
}
