//! The sheets to print: one lift a leaf, the back for what is looked up and filled in, void as soon as the plan has changed.

use super::browser;
use super::drawing::picture;
use super::route::Route;
use super::store::Shared;
use crate::evaluate::Assessment;
use crate::plan::Plan;
use crate::sheet::{Content, Section, Sheet, lift_sheet, rigging_card};
use yew::prelude::*;

/// Which sheets of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Of the lift of this number only.
    pub only: Option<u32>,
}

/// The size of the paper.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Size {
    Letter,
    A4,
}

impl Size {
    const ALL: [(Self, &'static str); 2] = [(Self::Letter, "Letter"), (Self::A4, "A4")];

    const fn class(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }
}

/// For whom the sheets are.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// One a lift, for the cab.
    Lifts,
    /// One a box, for the rigger.
    Cards,
}

impl Kind {
    const ALL: [(Self, &'static str); 2] = [(Self::Lifts, "Lift sheets"), (Self::Cards, "Rigging cards")];
}

/// Shows them. They are made from the plan as it was when the view was opened.
#[component]
pub fn Sheets(props: &Props) -> Html {
    let size = use_state(|| Size::Letter);
    let kind = use_state(|| Kind::Lifts);
    let made_from = use_state(|| (props.plan.clone(), props.assessment.clone()));
    let sheets = use_memo(
        ((*made_from).clone(), *kind, props.only),
        |((plan, assessment), kind, only)| make(plan, assessment, *kind, *only),
    );
    let void = made_from.0 != props.plan;
    let again = {
        let (made_from, now) = (made_from.setter(), (props.plan.clone(), props.assessment.clone()));
        move |_| made_from.set(now.clone())
    };
    html! {
        <div class={classes!("sheets", size.class(), (*kind == Kind::Cards).then_some("cards"), void.then_some("void"))}>
            <div class="view-head no-print">
                <h2>{ "Sheets" }</h2>
                { switch("What to print", &Kind::ALL, *kind, kind.setter()) }
                { switch("Paper", &Size::ALL, *size, size.setter()) }
                { which(props) }
                <button type="button" class="main" onclick={|_| browser::print()}>{ "Print" }</button>
            </div>
            if void {
                <div class="void-notice" role="alert">
                    <p><b>{ "VOID" }</b>{ " The plan has changed since these sheets were made. Do not hand them out." }</p>
                    <button type="button" class="no-print" onclick={again}>{ "Make the sheets anew" }</button>
                </div>
            }
            if sheets.is_empty() { <p>{ nothing(*kind) }</p> }
            { for sheets.iter().map(|sheet| leaf(sheet, void)) }
        </div>
    }
}

fn make(plan: &Plan, assessment: &Assessment, kind: Kind, only: Option<u32>) -> Vec<Sheet> {
    let make = match kind {
        Kind::Lifts => lift_sheet,
        Kind::Cards => rigging_card,
    };
    let lifts = plan.lifts.iter().enumerate();
    let wanted = lifts.filter(|(_, lift)| only.is_none_or(|number| number == lift.number));
    wanted.filter_map(|(index, _)| make(plan, assessment, index)).collect()
}

const fn nothing(kind: Kind) -> &'static str {
    match kind {
        Kind::Lifts => "No lift of that number in this plan, so there is no sheet.",
        Kind::Cards => "No box that hangs on slings among these lifts, so there is no card.",
    }
}

fn which(props: &Props) -> Html {
    match props.only {
        Some(number) => html! {
            <>
                <a href={Route::Lift(number).address()}>{ format!("Lift {number}") }</a>
                <a href={Route::Sheets(None).address()}>{ "All sheets" }</a>
            </>
        },
        None => Html::default(),
    }
}

fn switch<T: Copy + PartialEq + 'static>(
    label: &'static str,
    choices: &[(T, &'static str)],
    now: T,
    set: UseStateSetter<T>,
) -> Html {
    let button = |(choice, words): &(T, &'static str)| {
        let (choice, set) = (*choice, set.clone());
        html! { <button type="button" aria-pressed={(choice == now).to_string()} onclick={move |_| set.set(choice)}>{ *words }</button> }
    };
    html! { <div class="switch" role="group" aria-label={label}>{ for choices.iter().map(button) }</div> }
}

/// What stands on the back: what is looked up, filled in and kept, not what the operator works from.
const BACK: [&str; 8] = [
    "Centre of gravity",
    "Rigging on the hook",
    "Legs",
    "Measured on site",
    "Names and signatures",
    "Emergency",
    "Cautions",
    "Checked",
];

/// A sheet's front and, where it has one, its back.
fn leaf(sheet: &Sheet, void: bool) -> Html {
    let is_behind = |section: &&Section| BACK.contains(&section.heading.as_str());
    let (back, front): (Vec<&Section>, Vec<&Section>) = sheet.sections.iter().partition(is_behind);
    html! {
        <>
            { page(sheet, "", &front, void) }
            if !back.is_empty() { { page(sheet, ", back", &back, void) } }
        </>
    }
}

fn page(sheet: &Sheet, side: &'static str, sections: &[&Section], void: bool) -> Html {
    let cell = |(label, value): &(String, String)| {
        html! { <div class="cell"><dt class="label">{ label }</dt><dd>{ value }</dd></div> }
    };
    let footer = &sheet.footer;
    html! {
        <article class={classes!("page", if side.is_empty() { "front" } else { "back" })} aria-label={format!("{}{side}", sheet.title)}>
            if void {
                <p class="void-line">{ "VOID: the plan has changed since this sheet was made" }</p>
                <p class="stamp" aria-hidden="true">{ "VOID" }</p>
            }
            if let Some(words) = &footer.watermark { <p class="invented">{ words }</p> }
            <div class="page-head">
                <h3>{ &sheet.title }{ side }</h3>
                <p class="caution-line">{ &sheet.caution }</p>
                <dl class="cells">{ for sheet.header.iter().map(cell) }</dl>
            </div>
            <div class="page-body">{ for sections.chunk_by(both_drawn).map(group) }</div>
            <div class="page-foot">
                <span>{ &footer.project }</span>
                <span>{ &footer.caution }</span>
                <span>{ "plan " }{ &footer.checksum }</span>
                <span class="number">{ format!("{} / {}{side}", footer.page.0, footer.page.1) }</span>
            </div>
        </article>
    }
}

/// Drawings that follow each other stand side by side.
fn both_drawn(a: &&Section, b: &&Section) -> bool {
    matches!((&a.content, &b.content), (Content::Drawing(_), Content::Drawing(_)))
}

fn group(sections: &[&Section]) -> Html {
    let parts = sections.iter().map(|part| section(part));
    if sections.len() == 1 {
        html! { { for parts } }
    } else {
        html! { <div class="pictures">{ for parts }</div> }
    }
}

fn section(section: &Section) -> Html {
    let kind = match section.content {
        Content::Rows(_) => "rows",
        Content::Lines(_) => "lines",
        Content::Table { .. } => "table",
        Content::Blanks(_) => "blanks",
        Content::Drawing(_) => "picture",
    };
    html! {
        <section class={classes!("part", kind, section.large.then_some("large"))}>
            if kind != "picture" { <h4>{ &section.heading }</h4> }
            { content(&section.content) }
        </section>
    }
}

fn content(content: &Content) -> Html {
    match content {
        Content::Rows(rows) => {
            let row = |(label, value): &(String, String)| html! { <div><dt>{ label }</dt><dd>{ value }</dd></div> };
            html! { <dl>{ for rows.iter().map(row) }</dl> }
        }
        Content::Lines(lines) => html! { <ul>{ for lines.iter().map(|line| html! { <li>{ line }</li> }) }</ul> },
        Content::Table { head, rows } => table(head, rows),
        Content::Blanks(labels) => {
            html! { <ul>{ for labels.iter().map(|label| html! { <li>{ label }<span class="blank"></span></li> }) }</ul> }
        }
        Content::Drawing(scene) => picture(scene),
    }
}

fn table(head: &[String], rows: &[Vec<String>]) -> Html {
    let row = |cells: &Vec<String>| html! { <tr>{ for cells.iter().map(|cell| html! { <td>{ cell }</td> }) }</tr> };
    let head_cell = |words: &String| match words.as_str() {
        "" => html! { <td></td> },
        words => html! { <th scope="col">{ words }</th> },
    };
    html! {
        <table>
            <thead><tr>{ for head.iter().map(head_cell) }</tr></thead>
            <tbody>{ for rows.iter().map(row) }</tbody>
        </table>
    }
}
