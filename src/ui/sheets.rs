//! The sheets to print: lifts, rigging cards, the site, the truck's rigging; void as soon as the plan has changed.

use super::browser;
use super::drawing::picture_in_mm;
use super::issue::IssuePanel;
use super::route::Route;
use super::show;
use super::store::Shared;
use crate::evaluate::{Assessment, day_plan};
use crate::plan::Plan;
use crate::sheet::{
    CheckRow, Content, Format, Place, Section, Sheet, crane_order_sheet, hire_sheet, lift_sheet, rigging_card,
    rigging_list, sequence_sheet, site_sheet,
};
use web_sys::HtmlSelectElement;
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

/// Which sheets.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// One a lift, for the cab.
    Lifts,
    /// One a box, for the rigger.
    Cards,
    /// The lot to scale.
    Site,
    /// The rigging of the truck.
    List,
    /// The lifts in order with their times.
    Sequence,
    /// What is ordered of the yard.
    Order,
    /// What the day costs.
    Hire,
    /// All of them.
    All,
}

impl Kind {
    const OF_THE_DAY: [(Self, &'static str); 8] = [
        (Self::Lifts, "Lift sheets"),
        (Self::Cards, "Rigging cards"),
        (Self::Site, "Site sheet"),
        (Self::List, "Rigging list"),
        (Self::Sequence, "Sequence"),
        (Self::Order, "Crane order"),
        (Self::Hire, "Hire page"),
        (Self::All, "All"),
    ];
    const OF_A_LIFT: [(Self, &'static str); 3] = [
        (Self::Lifts, "Lift sheet"),
        (Self::Cards, "Rigging card"),
        (Self::All, "Both"),
    ];

    /// Whether sheets of a kind are among these.
    fn has(self, kind: Self) -> bool {
        self == kind || self == Self::All
    }
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
    // of those, the one of that title
    let one = use_state(|| None::<String>);
    {
        // to issue the plan is to make its sheets
        let (made_from, now) = (made_from.setter(), (props.plan.clone(), props.assessment.clone()));
        let first = use_mut_ref(|| true);
        use_effect_with(props.plan.issues.len(), move |_| {
            if !first.replace(false) {
                made_from.set(now);
            }
        });
    }
    let stale = made_from.0 != props.plan;
    let void = stale || made_from.0.status().starts_with("VOID");
    let kinds = if props.only.is_some() {
        &Kind::OF_A_LIFT[..]
    } else {
        &Kind::OF_THE_DAY
    };
    // what was chosen among other sheets says nothing of these
    let here = one
        .as_ref()
        .filter(|title| sheets.iter().any(|sheet| sheet.title == **title));
    let shown = sheets
        .iter()
        .filter(|sheet| here.is_none_or(|title| is_of(sheet, title)));
    let again = {
        let (made_from, now) = (made_from.setter(), (props.plan.clone(), props.assessment.clone()));
        move |_| made_from.set(now.clone())
    };
    html! {
        <div class={classes!("sheets", paper_class(*format), void.then_some("void"))}>
            <div class="view-head no-print">
                <h2>{ "Sheets" }</h2>
                { switch("What to print", kinds, *kind, kind.setter()) }
                { which_one(&sheets, here, one.setter()) }
                { switch("Paper", &PAPERS, *format, format.setter()) }
                { which(props) }
                <button type="button" class="main" onclick={|_| browser::print()}>{ "Print" }</button>
            </div>
            <IssuePanel plan={props.plan.clone()} />
            if stale {
                <div class="void-notice" role="alert">
                    <p><b>{ "VOID" }</b>{ " The plan has changed since these sheets were made. Do not hand them out." }</p>
                    <button type="button" class="no-print" onclick={again}>{ "Make the sheets anew" }</button>
                </div>
            } else if void {
                <div class="void-notice" role="alert">
                    <p><b>{ "VOID" }</b>{ " The plan has changed since it was issued. Issue it anew before sheets are handed out, and destroy the older ones." }</p>
                </div>
            }
            { no_sequence(&made_from.0, &made_from.1, *kind, props.only) }
            if sheets.is_empty() { <p>{ nothing(*kind) }</p> }
            { for shown.map(|sheet| page(sheet, stale)) }
        </div>
    }
}

fn make(plan: &Plan, assessment: &Assessment, kind: Kind, format: Format, only: Option<u32>) -> Vec<Sheet> {
    let lifts = plan.lifts.iter().enumerate();
    let wanted = lifts.filter(|(_, lift)| only.is_none_or(|number| number == lift.number));
    let wanted: Vec<usize> = wanted.map(|(index, _)| index).collect();
    let mut sheets = Vec::new();
    if kind.has(Kind::Lifts) {
        sheets.extend(
            wanted
                .iter()
                .flat_map(|index| lift_sheet(plan, assessment, *index, format)),
        );
    }
    if kind.has(Kind::Cards) {
        sheets.extend(
            wanted
                .iter()
                .flat_map(|index| rigging_card(plan, assessment, *index, format)),
        );
    }
    if only.is_none() && kind.has(Kind::Site) {
        sheets.extend(site_sheet(plan, assessment, format));
    }
    if only.is_none() && kind.has(Kind::List) {
        sheets.extend(rigging_list(plan, assessment, format));
    }
    if only.is_none() && kind.has(Kind::Sequence) {
        sheets.extend(sequence_sheet(plan, assessment, format));
    }
    if only.is_none() && kind.has(Kind::Order) {
        sheets.extend(crane_order_sheet(plan, assessment, format));
    }
    if only.is_none() && kind.has(Kind::Hire) {
        sheets.extend(hire_sheet(plan, assessment, format));
    }
    sheets
}

/// Why there is no sequence sheet among the sheets, where the order cannot be.
fn no_sequence(plan: &Plan, assessment: &Assessment, kind: Kind, only: Option<u32>) -> Html {
    if only.is_some() || !kind.has(Kind::Sequence) {
        return Html::default();
    }
    let conflicts = day_plan(plan, assessment).conflicts;
    if conflicts.is_empty() {
        return Html::default();
    }
    html! {
        <div class="void-notice no-print" role="alert">
            <p><b>{ "No sequence sheet" }</b>{ ": the order cannot be" }</p>
            <ul>{ for conflicts.iter().map(|words| html! { <li>{ words }</li> }) }</ul>
        </div>
    }
}

/// Whether a sheet has that title, or goes on from one that has.
fn is_of(sheet: &Sheet, title: &str) -> bool {
    sheet
        .title
        .strip_prefix(title)
        .is_some_and(|rest| rest.is_empty() || sheet.footer.continued)
}

/// One of several sheets, by its title.
fn which_one(sheets: &[Sheet], one: Option<&String>, set: UseStateSetter<Option<String>>) -> Html {
    let titles: Vec<&String> = sheets
        .iter()
        .filter(|s| !s.footer.continued)
        .map(|s| &s.title)
        .collect();
    if titles.len() < 2 {
        return Html::default();
    }
    let onchange = move |event: Event| {
        let title = event.target_unchecked_into::<HtmlSelectElement>().value();
        set.set(Some(title).filter(|title| !title.is_empty()));
    };
    let option =
        |title: &String| html! { <option value={title.clone()} selected={one == Some(title)}>{ title }</option> };
    html! {
        <select class="which-one" aria-label="Which of them" {onchange}>
            <option value="" selected={one.is_none()}>{ format!("all {}", titles.len()) }</option>
            { for titles.into_iter().map(option) }
        </select>
    }
}

const fn nothing(kind: Kind) -> &'static str {
    match kind {
        Kind::Lifts | Kind::All => "No lift of that number in this plan, so there is no sheet.",
        Kind::Cards => "No box that hangs on slings among these lifts, so there is no card.",
        Kind::Site => "Neither foundation nor crane has a place in this plan, so there is no site sheet.",
        Kind::List => "No gear in this plan, so there is no list.",
        Kind::Sequence => "No lift in this plan, or an order that cannot be, so there is no sequence sheet.",
        Kind::Order => "No crane is set up in this plan, so there is no crane order.",
        Kind::Hire => "No rates in this plan, so there is no hire page.",
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

/// What is said on a sheet that was made before the plan changed.
const STALE: &str = "VOID: the plan has changed since this sheet was made";

fn page(sheet: &Sheet, stale: bool) -> Html {
    let void = if stale { Some(STALE) } else { sheet.void.as_deref() };
    let cell = |(label, value): &(String, String)| {
        html! { <div class="cell"><dt>{ label }</dt><dd>{ value }</dd></div> }
    };
    let footer = &sheet.footer;
    html! {
        <article class="page" aria-label={sheet.title.clone()}>
            if void.is_some() { <p class="stamp" aria-hidden="true">{ "VOID" }</p> }
            <div class="page-head">
                <div class="page-title">
                    <h3>{ &sheet.title }</h3>
                    if let Some(words) = &footer.watermark { <p class="watermark">{ words }</p> }
                </div>
                if let Some(why) = void {
                    <p class="caution-line void-line">{ why }</p>
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
