//! What the program is, the cautions in full, and their acceptance before a plan is opened for the first time.

use super::cautions::{self, Caution};
use yew::prelude::*;

/// All cautions.
#[component]
pub fn About() -> Html {
    html! {
        <article class="text">
            <h2>{ "Cautions" }</h2>
            <p>{ cautions::LINE }</p>
            { list(cautions::ALL.iter()) }
            <h2>{ "About Setday" }</h2>
            <p>{ "Setday works out the day a hired crane sets factory-built house boxes: weights and centres of gravity, how each box hangs, the slings, the crane's chart at pick and at set, the sheets for the cab. It runs in this browser alone and needs no network once it was opened." }</p>
        </article>
    }
}

fn list<'a>(cautions: impl Iterator<Item = &'a Caution>) -> Html {
    let one = |caution: &Caution| html! { <><dt>{ caution.topic }</dt><dd>{ caution.text }</dd></> };
    html! { <dl class="cautions">{ for cautions.map(one) }</dl> }
}

/// What is to be accepted once for a plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// Told that it was.
    pub onaccept: Callback<()>,
    /// The plan is the invented sample.
    pub invented: bool,
}

/// Shows what is to be accepted.
#[component]
pub fn FirstStart(props: &Props) -> Html {
    let accept = props.onaccept.reform(|_: MouseEvent| ());
    html! {
        <main id="view" class="first-start text" tabindex="-1">
            <p class="mark-name">{ "Setday" }</p>
            <h1>{ "Read this before you plan a lift" }</h1>
            if props.invented { <p class="invented">{ cautions::INVENTED }</p> }
            { list(cautions::ALL.iter().filter(|caution| caution.at_first)) }
            <details>
                <summary>{ "All cautions" }</summary>
                { list(cautions::ALL.iter().filter(|caution| !caution.at_first)) }
            </details>
            <button type="button" class="main" onclick={accept}>{ "I have read this: open the plan" }</button>
        </main>
    }
}
