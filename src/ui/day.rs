//! The day at a glance: the sentence on top, the ledger of lifts, the plan beside it.

use super::ledger::Ledger;
use super::route::Route;
use super::show;
use super::store::Shared;
use crate::check::{Message, Outcome};
use crate::evaluate::Assessment;
use yew::prelude::*;

/// What the day is made from.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// The plan's drawing, and the crane's set-up.
    pub children: Html,
}

/// Shows it.
#[component]
pub fn Day(props: &Props) -> Html {
    let assessment = &props.assessment;
    html! {
        <div class="day">
            <div class="day-top">
                { headline(assessment) }
                { messages(&assessment.messages) }
            </div>
            <div class="day-ledger"><Ledger assessment={assessment.clone()} /></div>
            <div class="day-plan">{ props.children.clone() }</div>
        </div>
    }
}

/// The sentence on top, and how many lifts came out how.
fn headline(assessment: &Assessment) -> Html {
    let headline = &assessment.headline;
    // the first part names the lift and leads to it
    let (first, rest) = headline.text.split_once(". ").unwrap_or((&headline.text, ""));
    let first = match headline.lift.and_then(|index| assessment.lifts.get(index)) {
        Some(lift) => html! { <a href={Route::Lift(lift.number).address()}>{ first }</a> },
        None => html! { { first } },
    };
    html! {
        <section class={classes!("headline", show::outcome_class(&headline.outcome))} aria-labelledby="headline-title">
            <h2 id="headline-title" class="unseen">{ "The day in one sentence" }</h2>
            <p class="sentence" aria-live="polite">
                <b>{ first }</b>
                if !rest.is_empty() { { ". " }{ rest } }
            </p>
            <p class="tally">{ tally(assessment) }</p>
        </section>
    }
}

/// "8 lifts: 5 outside, 3 held".
pub fn tally(assessment: &Assessment) -> String {
    let kinds = [
        "outside the limits entered",
        "cannot be checked",
        "held",
        "within the limits entered",
    ];
    let kind = |outcome: &Outcome| match outcome {
        Outcome::Outside => 0,
        Outcome::NotChecked { .. } => 1,
        Outcome::Held { .. } => 2,
        Outcome::Within => 3,
    };
    let counted = kinds.iter().enumerate().filter_map(|(at, words)| {
        let count = assessment.lifts.iter().filter(|lift| kind(&lift.outcome) == at).count();
        (count > 0).then(|| format!("{count} {words}"))
    });
    let all = assessment.lifts.len();
    let lifts = if all == 1 { "lift" } else { "lifts" };
    match counted.collect::<Vec<_>>().join(", ") {
        parts if parts.is_empty() => format!("{all} {lifts}"),
        parts => format!("{all} {lifts}: {parts}"),
    }
}

/// What is wrong in the plan, and where.
pub fn messages(messages: &[Message]) -> Html {
    if messages.is_empty() {
        return Html::default();
    }
    html! {
        <ul class="messages" aria-label="What is wrong in the plan">
            { for messages.iter().map(|m| html! { <li><b>{ &m.place }</b>{ ": " }{ &m.text }</li> }) }
        </ul>
    }
}
