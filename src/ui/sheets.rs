//! The sheets to print: one lift a page, one rigging card a page, void as soon as the plan has changed.

use super::browser;
use super::drawing::picture_in_mm;
use super::route::Route;
use super::show;
use super::store::Shared;
use crate::evaluate::Assessment;
use crate::plan::Plan;
use crate::sheet::{CheckRow, Content, Format, Place, Section, Sheet, lift_sheet, rigging_card};
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

const PAPERS: [(Format, &str); 2] = [(Format::Letter, "Letter"), (Format::A4, "A4")];

const fn paper_class(format: Format) -> &'static str {
    match format {
        Format::Letter => "letter",
        Format::A4 => "a4",
    }
}

/// For whom the sheets are.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// One a lift, for the cab.
    Lifts,
    /// One a box, for the rigger.
    Cards,
    /// All of them.
    Both,
}

impl Kind {
    const ALL: [(Self, &'static str); 3] = [
        (Self::Lifts, "Lift sheets"),
        (Self::Cards, "Rigging cards"),
        (Self::Both, "Both"),
    ];
}

/// Shows them. They are made from the plan as it was when the view was opened.
#[component]
pub fn Sheets(props: &Props) -> Html {
    let format = use_state(|| Format::Letter);
    let kind = use_state(|| Kind::Lifts);
    let made_from = use_state(|| (props.plan.clone(), props.assessment.clone()));
    let sheets = use_memo(
        ((*made_from).clone(), *kind, *format, props.only),
        |((plan, assessment), kind, format, only)| make(plan, assessment, *kind, *format, *only),
    );
    let void = made_from.0 != props.plan;
    let again = {
        let (made_from, now) = (made_from.setter(), (props.plan.clone(), props.assessment.clone()));
        move |_| made_from.set(now.clone())
    };
    html! {
        <div class={classes!("sheets", paper_class(*format), void.then_some("void"))}>
            <div class="view-head no-print">
                <h2>{ "Sheets" }</h2>
                { switch("What to print", &Kind::ALL, *kind, kind.setter()) }
                { switch("Paper", &PAPERS, *format, format.setter()) }
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
            { for sheets.iter().map(|sheet| page(sheet, void)) }
        </div>
    }
}

fn make(plan: &Plan, assessment: &Assessment, kind: Kind, format: Format, only: Option<u32>) -> Vec<Sheet> {
    let lifts = plan.lifts.iter().enumerate();
    let wanted = lifts.filter(|(_, lift)| only.is_none_or(|number| number == lift.number));
    let wanted: Vec<usize> = wanted.map(|(index, _)| index).collect();
    let mut sheets = Vec::new();
    if kind != Kind::Cards {
        sheets.extend(
            wanted
                .iter()
                .flat_map(|index| lift_sheet(plan, assessment, *index, format)),
        );
    }
    if kind != Kind::Lifts {
        sheets.extend(
            wanted
                .iter()
                .flat_map(|index| rigging_card(plan, assessment, *index, format)),
        );
    }
    sheets
}

const fn nothing(kind: Kind) -> &'static str {
    match kind {
        Kind::Lifts | Kind::Both => "No lift of that number in this plan, so there is no sheet.",
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

fn page(sheet: &Sheet, void: bool) -> Html {
    let cell = |(label, value): &(String, String)| {
        html! { <div class="cell"><dt>{ label }</dt><dd>{ value }</dd></div> }
    };
    let footer = &sheet.footer;
    html! {
        <article class="page" aria-label={sheet.title.clone()}>
            if void { <p class="stamp" aria-hidden="true">{ "VOID" }</p> }
            <div class="page-head">
                <div class="page-title">
                    <h3>{ &sheet.title }</h3>
                    if let Some(words) = &footer.watermark { <p class="watermark">{ words }</p> }
                </div>
                if void {
                    <p class="caution-line void-line">{ "VOID: the plan has changed since this sheet was made" }</p>
                } else {
                    <p class="caution-line">{ &sheet.caution }</p>
                }
                <dl class="page-cells">{ for sheet.header.iter().map(cell) }</dl>
            </div>
            <div class="page-body">{ for sheet.sections.chunk_by(in_one_band).map(band) }</div>
            <div class="page-foot">
                <span>{ &footer.project }</span>
                <span>{ &footer.caution }</span>
                <span>{ "plan " }{ &footer.checksum }</span>
                <span class="number">{ footer.number() }</span>
            </div>
        </article>
    }
}

/// What does not run from margin to margin stands beside what follows it, until something does.
fn in_one_band(a: &Section, b: &Section) -> bool {
    a.place != Place::Across && b.place != Place::Across && (a.place == b.place || a.place == Place::Left)
}

fn band(sections: &[Section]) -> Html {
    if sections.iter().all(|s| s.place == Place::Across) {
        return html! { { for sections.iter().map(section) } };
    }
    let left = sections.iter().filter(|s| s.place == Place::Left);
    let right = sections.iter().filter(|s| s.place == Place::Right);
    html! {
        <div class="band">
            if sections[0].place == Place::Left { <div class="left">{ for left.map(section) }</div> }
            <div class="right">{ for right.map(section) }</div>
        </div>
    }
}

fn section(section: &Section) -> Html {
    let (kind, inside) = contents(section);
    let columns = ["", "", "two", "three", "four", "five"]
        .get(section.columns)
        .copied()
        .unwrap_or_default();
    html! {
        <section class={classes!("part", kind, columns, section.large.then_some("large"))}>
            if !section.heading.is_empty() { <h4>{ &section.heading }</h4> }
            { inside }
        </section>
    }
}

/// The contents and the name of their sort.
fn contents(section: &Section) -> (&'static str, Html) {
    let list = |lines: &[String]| html! { <ul>{ for lines.iter().map(|line| html! { <li>{ line }</li> }) }</ul> };
    match &section.content {
        Content::Outcome(outcome, sentence) => {
            let inside = html! { <p>{ show::mark(outcome) }<b>{ sentence }</b></p> };
            ("verdict-line", inside)
        }
        Content::Figures(figures) => {
            let figure = |f: &crate::sheet::KeyFigure| {
                html! { <div><dt>{ &f.label }</dt><dd><b>{ &f.value }</b><span>{ &f.below }</span></dd></div> }
            };
            ("strip", html! { <dl>{ for figures.iter().map(figure) }</dl> })
        }
        Content::Rows(rows) => {
            let row = |(label, value): &(String, String)| html! { <div><dt>{ label }</dt><dd>{ value }</dd></div> };
            let kind = if section.place == Place::Across {
                "entries"
            } else {
                "rows"
            };
            (kind, html! { <dl>{ for rows.iter().map(row) }</dl> })
        }
        Content::Lines(lines) => ("lines", list(lines)),
        Content::Run(sentences) => {
            let sentence = |(word, text): &(String, String)| html! { <><b>{ word }</b>{ " " }{ text }{ "  " }</> };
            ("run", html! { <p>{ for sentences.iter().map(sentence) }</p> })
        }
        Content::Ticks(lines) => ("ticks", list(lines)),
        Content::Table { head, shares, rows } => {
            let each = rows.len().div_ceil(section.columns).max(1);
            let kind = if section.place == Place::Left {
                "table narrow"
            } else {
                "table"
            };
            (
                kind,
                html! { <div class="beside">{ for rows.chunks(each).map(|rows| table(head, shares, rows)) }</div> },
            )
        }
        Content::Checks(rows) => {
            let each = rows.len().div_ceil(section.columns).max(1);
            let last = if section.columns > 1 { "" } else { "Outcome" };
            let inside = rows.chunks(each).map(|rows| checks(rows, last));
            ("checks", html! { <div class="beside">{ for inside }</div> })
        }
        Content::Blanks(labels) => {
            let blank = |label: &String| html! { <li>{ label }<span class="blank"></span></li> };
            ("blanks", html! { <ul>{ for labels.iter().map(blank) }</ul> })
        }
        Content::Drawing(scene) => ("picture", picture_in_mm(scene)),
    }
}

fn table(head: &[String], shares: &[f64], rows: &[Vec<String>]) -> Html {
    let row = |cells: &Vec<String>| html! { <tr>{ for cells.iter().map(|cell| html! { <td>{ cell }</td> }) }</tr> };
    let column = |share: &f64| html! { <col width={format!("{:.1}%", share * 100.0)} /> };
    html! {
        <table>
            <colgroup>{ for shares.iter().map(column) }</colgroup>
            <thead><tr>{ for head.iter().map(|words| head_cell(words)) }</tr></thead>
            <tbody>{ for rows.iter().map(row) }</tbody>
        </table>
    }
}

fn head_cell(words: &str) -> Html {
    match words {
        "" => html! { <td></td> },
        words => html! { <th scope="col">{ words }</th> },
    }
}

fn checks(rows: &[CheckRow], last: &str) -> Html {
    let row = |row: &CheckRow| {
        html! {
            <tr class={show::outcome_class(&row.outcome)}>
                if let Some(figures) = &row.figures {
                    <td>{ &row.what }</td>
                    { for figures.iter().map(|figure| html! { <td class="figure">{ figure }</td> }) }
                } else {
                    <td colspan="4">{ &row.what }</td>
                }
                <td>{ show::mark(&row.outcome) }</td>
            </tr>
        }
    };
    let compared = rows.iter().any(|row| row.figures.is_some());
    let head = ["Check", "Demand", "Limit", "Share", last].map(str::to_owned);
    html! {
        <table>
            <colgroup><col /><col class="amount" /><col class="amount" /><col class="share" /><col class="word" /></colgroup>
            if compared { <thead><tr>{ for head.iter().map(|words| head_cell(words)) }</tr></thead> }
            <tbody>{ for rows.iter().map(row) }</tbody>
        </table>
    }
}
