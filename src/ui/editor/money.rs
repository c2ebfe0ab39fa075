//! The forms of the day's clock and of its cost.

use super::use_plan;
use crate::hire::{read_rate, wanted};
use crate::quantity::Reading;
use crate::ui::tables::{Beside, Form, Table, part, part_of_plan};
use yew::prelude::*;

/// Times and minutes.
#[component]
pub(super) fn Clock() -> Html {
    let day = part_of_plan!(day).named("day");
    html! {
        <>
            <h2>{ "Clock of the day" }</h2>
            <p class="hint">{ "Times of day such as 06:30. Minutes at best, as a rule, at worst; a step that takes none is 0 min, not blank. A row without a crane holds for any. " }
                <a href="#/clock">{ "The day on the clock" }</a></p>
            <Form place={day.clone()} />
            <h3>{ "Minutes of each step" }</h3>
            <div class="rates"><Table place={part!(day, minutes).named("")} caption="Minutes of each step" /></div>
            <h3>{ "Breaks, taken at the first end of a step from their time on" }</h3>
            <Table place={part!(day, breaks).named("")} caption="Breaks" />
            <h3>{ "When carriers are told to come" }</h3>
            <Table place={part!(day, trucks).named("")} caption="Carriers" />
            <h3>{ "What must come before what, beyond lower boxes before upper ones and boxes before their roofs" }</h3>
            <Table place={part!(day, before).named("")} caption="Rules of order" />
            <h3>{ "As lifted: what was measured on the day" }</h3>
            <Table place={part!(day, lifted).named("")} caption="As lifted" />
        </>
    }
}

/// Rates, offers, quote and invoice.
#[component]
pub(super) fn Money() -> Html {
    let plan = use_plan();
    let mark = plan.project.decimal;
    let asked = |rate: &crate::plan::Rate| {
        let (_, kind, counted) = wanted(rate.item);
        let texts = [&rate.likely, &rate.low, &rate.high];
        let read = texts.map(|text| read_rate(text, kind, mark));
        let mut messages: Vec<String> = Vec::new();
        for reading in read {
            if let Reading::Ask(message) | Reading::Wrong(message) = reading
                && !messages.contains(&message)
            {
                messages.push(message);
            }
        }
        if counted && rate.count.is_blank() && !rate.likely.trim().is_empty() {
            messages.push("how many? Write the number".into());
        }
        Beside {
            figures: Vec::new(),
            messages,
        }
    };
    let beside: Vec<Beside> = plan.hire.rates.iter().map(asked).collect();
    let hire = part_of_plan!(hire).named("hire");
    html! {
        <>
            <h2>{ "Rates" }</h2>
            <p class="hint">{ "A rate says what it is for: 415 per hour, 780 per day, 460 each; hours 8 h; overtime after 8 h on site or 10 h port to port; shares 7 % or 1.5 x. Blank at best or at worst is as the rate. A row without a crane holds for any. Nothing is invented: what has no rate is left out and named. " }
                <a href="#/hire">{ "What each crane costs" }</a></p>
            <Form place={hire.clone()} />
            <div class="rates"><Table place={part!(hire, rates).named("")} caption="Rates" {beside} /></div>
            <h3>{ "Cranes to compare, beside the one that is set up" }</h3>
            <Table place={part!(hire, offers).named("")} caption="Cranes to compare" />
            <h3>{ "The quote, as it went out" }</h3>
            <Table place={part!(hire, quoted).named("")} caption="Lines of the quote" />
            <h3>{ "The invoice" }</h3>
            <Table place={part!(hire, invoiced).named("")} caption="Lines of the invoice" />
        </>
    }
}
