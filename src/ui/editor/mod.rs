//! The forms in which every part of the plan is typed.

mod assemblies;
mod boxes;
mod charts;
mod cranes;
mod describe;
mod describe_day;
mod figures;
mod gear;
mod lifts;
mod money;
mod places;
mod rigs;
mod simple;
mod unit_weights;

use super::fields::Typing;
use super::tables::Described;
use crate::evaluate::Assessment;
use crate::plan::Plan;
use crate::ui::Shared;
use yew::prelude::*;

/// The parts of a plan: the word in the address and the words on the page.
pub const PARTS: [(&str, &str); 12] = [
    ("boxes", "Boxes"),
    ("assemblies", "Assemblies"),
    ("gear", "Gear"),
    ("rigs", "Rigs"),
    ("cranes", "Cranes"),
    ("charts", "Charts"),
    ("lifts", "Lifts"),
    ("limits", "Limits"),
    ("site", "Site"),
    ("clock", "Clock"),
    ("rates", "Rates"),
    ("project", "Project"),
];

/// Which part is edited.
#[derive(Properties, PartialEq)]
pub struct EditorProps {
    /// Its word in the address.
    pub part: AttrValue,
}

/// The forms of one part of the plan under a row of links to all parts.
///
/// Reads the contexts `Dispatch`, `Shared<Plan>` and `Shared<Assessment>`.
#[component]
pub fn Editor(props: &EditorProps) -> Html {
    let plan = use_plan();
    let typing = Typing::of(&plan.project);
    let link = |(word, words): &(&'static str, &'static str)| {
        html! { <a href={format!("#/edit/{word}")} aria-current={(props.part == *word).then_some("page")}>{ *words }</a> }
    };
    html! {
        <ContextProvider<Typing> context={typing}>
            <section class="editor">
                <nav class="parts" aria-label="Parts of the plan">{ for PARTS.iter().map(link) }</nav>
                { part(&props.part) }
            </section>
        </ContextProvider<Typing>>
    }
}

fn part(word: &str) -> Html {
    match word {
        "boxes" => html! { <boxes::Boxes /> },
        "assemblies" => html! { <assemblies::Assemblies /> },
        "gear" => html! { <gear::Gear /> },
        "rigs" => html! { <rigs::Rigs /> },
        "cranes" => html! { <cranes::Cranes /> },
        "charts" => html! { <charts::Charts /> },
        "lifts" => html! { <lifts::Lifts /> },
        "limits" => html! { <simple::Bounds /> },
        "site" => html! { <simple::Lot /> },
        "clock" => html! { <money::Clock /> },
        "rates" => html! { <money::Money /> },
        "project" => html! { <simple::TitleBlock /> },
        other => {
            html! { <p class="none">{ format!("read \"{other}\" in the address: expected one of the parts above; choose one") }</p> }
        }
    }
}

/// The plan.
#[hook]
fn use_plan() -> Shared<Plan> {
    use_context().expect("an editor stands inside the page, which holds the plan")
}

/// What follows from the plan.
#[hook]
fn use_assessment() -> Shared<Assessment> {
    use_context().expect("an editor stands inside the page, which holds the assessment")
}

/// Buttons to choose one of a list: the one chosen is shown below them. Nothing where there is nothing to choose.
fn chooser<R: Described>(list: &[R], chosen: usize, words: impl Fn(&R) -> String, onchoose: &Callback<usize>) -> Html {
    let button = |(index, one): (usize, &R)| {
        let onclick = onchoose.reform(move |_: MouseEvent| index);
        html! { <button type="button" aria-pressed={(index == chosen).to_string()} {onclick}>{ words(one) }</button> }
    };
    html! { <div class="chooser" role="group">{ for list.iter().enumerate().map(button) }</div> }
}
