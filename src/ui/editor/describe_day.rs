//! The columns of the day's clock and of its cost.

use super::describe::{LENGTH, cranes, named};
use crate::evaluate::step_words;
use crate::hire::{WANTED, wanted};
use crate::plan::{
    AsLifted, Before, Break, Hire, Id, Load, Offer, Plan, Quick, Quoted, Rate, RateFor, SetDay, Step, StepTime, Truck,
};
use crate::quantity::Unit;
use crate::ui::fields::{Bare, Options};
use crate::ui::tables::{Column, Described, Kind, Worded, check, choice, count, id, number, number_if, text};

const TIME: Bare = Bare::only(Unit::Minute);
const PLAIN: Bare = Bare::only(Unit::One);
const HEAVY: Bare = Bare::new(Unit::Lb, Unit::T);
const AREA: Bare = Bare::new(Unit::Ft2, Unit::M2);
const PER_AREA: Bare = Bare::new(Unit::Psf, Unit::KgPerM2);

/// The lifts by their rows.
fn lifts(plan: &Plan) -> Options {
    let words: Vec<(&Id, String)> = plan
        .lifts
        .iter()
        .map(|lift| {
            let what = match &lift.load {
                Load::Box { id } => format!("lift {}, box {id}", lift.number),
                Load::RoofRaise { on, .. } => format!("lift {}, roof of {on}", lift.number),
                Load::Bundle { name, .. } => format!("lift {}, {name}", lift.number),
            };
            (&lift.id, what)
        })
        .collect();
    named(words.iter().map(|(id, words)| (*id, words.as_str())))
}

fn pads(plan: &Plan) -> Options {
    named(plan.site.pads.iter().map(|pad| (&pad.id, pad.note.as_str())))
}

/// The charts of all cranes, each once.
fn all_charts(plan: &Plan) -> Options {
    let charts = plan.cranes.iter().flat_map(|crane| &crane.charts);
    let mut all: Vec<(yew::AttrValue, yew::AttrValue)> = vec![("".into(), "none".into())];
    for chart in charts {
        let words = if chart.name.is_empty() {
            chart.id.clone()
        } else {
            format!("{} {}", chart.id, chart.name)
        };
        if all.iter().all(|(id, _)| id.as_str() != chart.id) {
            all.push((chart.id.clone().into(), words.into()));
        }
    }
    Options::new(all)
}

impl Worded for Step {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::SetUp, step_words(Self::SetUp)),
        (Self::Box, step_words(Self::Box)),
        (Self::FirstBox, step_words(Self::FirstBox)),
        (Self::RoofRaise, step_words(Self::RoofRaise)),
        (Self::Bundle, step_words(Self::Bundle)),
        (Self::ReRig, step_words(Self::ReRig)),
        (Self::Carrier, step_words(Self::Carrier)),
        (Self::Ready, step_words(Self::Ready)),
        (Self::StripDown, step_words(Self::StripDown)),
    ];
}

impl Worded for RateFor {
    const WORDS: &'static [(Self, &'static str)] = &{
        let mut words = [(Self::Hire, ""); WANTED.len()];
        let mut at = 0;
        while at < WANTED.len() {
            words[at] = (WANTED[at].0, WANTED[at].1);
            at += 1;
        }
        words
    };
}

impl Described for SetDay {
    const ONE: &'static str = "day";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Crane on site at", start),
            text!("Light to lift from", light_from),
            text!("Light until", light_to),
        ]
    }
}

impl Described for StepTime {
    const ONE: &'static str = "step";
    fn columns() -> Vec<Column<Self>> {
        vec![
            choice!("Step", Step, step),
            id!("Crane", cranes, crane),
            number!("At best", TIME, low).also(&["low", "best"]),
            number!("As a rule", TIME, likely).also(&["likely", "minutes"]),
            number!("At worst", TIME, high).also(&["high", "worst"]),
        ]
    }
}

impl Described for Break {
    const ONE: &'static str = "break";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("From", at),
            number!("How long", TIME, length),
            check!("Crane is billed", billed),
        ]
    }
}

impl Described for Before {
    const ONE: &'static str = "rule";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("First", lifts, first),
            id!("Before", lifts, then),
            text!("Why", why),
        ]
    }
}

impl Described for Truck {
    const ONE: &'static str = "carrier";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Brings", lifts, lift),
            text!("On its spot at", arrives),
            text!("Who said so", note),
        ]
    }
}

impl Described for AsLifted {
    const ONE: &'static str = "record";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Lift", lifts, lift),
            number!("Radius at the pick", LENGTH, pick_radius),
            number!("Radius at the set", LENGTH, set_radius),
            number!("Load reading", HEAVY, reading),
            number!("Took", TIME, took),
            text!("Who wrote it down", note),
        ]
    }
}

impl Described for Hire {
    const ONE: &'static str = "hire";
    fn columns() -> Vec<Column<Self>> {
        vec![text!("Currency of all amounts", currency), text!("Note on taxes", tax)]
    }
}

impl Described for Rate {
    const ONE: &'static str = "rate";
    fn label(&self, index: usize) -> String {
        format!("rate {}, {}", index + 1, wanted(self.item).0)
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            choice!("For", RateFor, item).also(&["item"]),
            id!("Crane", cranes, crane),
            number!("How many", PLAIN, count).also(&["count"]),
            text!("Rate", likely).also(&["value", "amount", "price"]),
            text!("At best", low),
            text!("At worst", high),
            text!("More words", what),
            text!("Who said so", said.who),
            text!("When", said.when),
            text!("Note", said.note),
        ]
    }
}

impl Described for Offer {
    const ONE: &'static str = "offer";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Crane", cranes, crane),
            id!("Chart", all_charts, chart),
            id!("Pad", pads, pad),
        ]
    }
}

impl Described for Quick {
    const ONE: &'static str = "quick size";
    fn columns() -> Vec<Column<Self>> {
        vec![
            count!("Boxes", boxes),
            number!("Floor area of all boxes", AREA, floor),
            number!("Weight per floor area", PER_AREA, per_area),
            number!("Foundation along the road", LENGTH, along),
            number!("Foundation away from the road", LENGTH, deep),
            number!("Foundation to the road's near edge", LENGTH, to_road),
        ]
    }
}

impl Described for Quoted {
    const ONE: &'static str = "line";
    fn columns() -> Vec<Column<Self>> {
        vec![
            choice!("For", RateFor, item),
            text!("In words", what),
            text!("Amount", amount),
        ]
    }
}
