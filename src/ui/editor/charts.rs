//! Rating charts: typed or pasted cell by cell, compared, then closed.

use super::{chooser, places, use_plan};
use crate::crane::{ChartIssue, ChartRow, IssueKind, RatingChart, split_marks};
use crate::import::{ChartAnswers, ChartImport, Question, QuestionId, read_chart};
use crate::plan::{Crane, Plan};
use crate::quantity::{DecimalMark, Length, Unit, both, read};
use crate::ui::Dispatch;
use crate::ui::fields::{Choice, Options, TextField};
use crate::ui::tables::{Form, Place, cell_name, go_on, part};
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// The charts of one crane, and one of them in full.
#[component]
pub(super) fn Charts() -> Html {
    let plan = use_plan();
    let at = use_state_eq(|| first_shown(&plan));
    let (crane_at, chart_at) = *at;
    let Some(crane) = plan.cranes.get(crane_at) else {
        return html! { <><h2>{ "Charts" }</h2><p class="none">{ "Add a crane first: a chart belongs to a crane" }</p></> };
    };
    let oncrane = {
        let at = at.setter();
        Callback::from(move |index| at.set((index, 0)))
    };
    let onchart = {
        let at = at.setter();
        Callback::from(move |index| at.set((crane_at, index)))
    };
    html! {
        <>
            <h2>{ "Charts" }</h2>
            <p class="hint">{ "A chart typed here is a copy. The maker's chart in the cab, for that serial number and configuration, rules" }</p>
            { chooser(&plan.cranes, crane_at, |crane| crane.id.to_string(), &oncrane) }
            { chooser(&crane.charts, chart_at, |chart| chart.name.clone(), &onchart) }
            <NewChart key={crane_at} place={places::crane(&plan, crane_at)} class={crane_class(crane)} onadded={onchart.clone()} count={crane.charts.len()} />
            if chart_at < crane.charts.len() { <OneChart place={places::chart(&plan, crane_at, chart_at)} /> }
        </>
    }
}

fn first_shown(plan: &Plan) -> (usize, usize) {
    let crane = plan
        .cranes
        .iter()
        .position(|crane| crane.id == plan.set_up.crane)
        .unwrap_or(0);
    let charts = plan.cranes.get(crane).map_or(&[][..], |crane| &crane.charts);
    let chart = charts
        .iter()
        .position(|chart| chart.id == plan.set_up.chart.as_str())
        .unwrap_or(0);
    (crane, chart)
}

/// The largest capacity of the charts that are there, kg: what a pasted chart is compared with.
fn crane_class(crane: &Crane) -> Option<f64> {
    let largest = |chart: &RatingChart| {
        let table = chart.table().0?;
        let (rows, columns) = (table.radii().len(), table.booms().len());
        (0..rows)
            .flat_map(|row| (0..columns).map(move |column| (row, column)))
            .filter_map(|(row, column)| table.printed(row, column))
            .map(|m| m.to_kg())
            .reduce(f64::max)
    };
    crane.charts.iter().filter_map(largest).reduce(f64::max)
}

#[derive(Properties, PartialEq)]
struct NewChartProps {
    place: Place<Crane>,
    class: Option<f64>,
    count: usize,
    onadded: Callback<usize>,
}

/// Adds a chart: an empty one, or one out of pasted text.
#[component]
fn NewChart(props: &NewChartProps) -> Html {
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let text = use_state_eq(|| None::<String>);
    let answers = use_state_eq(Vec::<(QuestionId, String)>::new);
    let add = {
        let (place, dispatch, onadded, count, text) = (
            props.place.clone(),
            dispatch,
            props.onadded.clone(),
            props.count,
            text.setter(),
        );
        Callback::from(move |chart: RatingChart| {
            place.edit(&dispatch, "chart added", move |crane| {
                let id = fresh_id(crane);
                crane.charts.push(RatingChart { id, ..chart });
            });
            text.set(None);
            onadded.emit(count);
        })
    };
    let open = {
        let (text, answers) = (text.setter(), answers.setter());
        Callback::from(move |_: MouseEvent| {
            answers.set(Vec::new());
            text.set(Some(String::new()));
        })
    };
    let empty = add.reform(|_: MouseEvent| RatingChart {
        name: "new chart".into(),
        booms: vec![String::new()],
        rows: vec![ChartRow::default()],
        ..RatingChart::default()
    });
    let Some(pasted) = (*text).clone() else {
        return html! { <div class="tools"><button type="button" onclick={open}>{ "Paste a chart…" }</button><button type="button" onclick={empty}>{ "Add an empty chart" }</button></div> };
    };
    let class = props.class.map(crate::quantity::Mass::kg);
    let given = answers.iter().cloned().fold(
        ChartAnswers {
            crane_class: class,
            ..ChartAnswers::default()
        },
        |all, (id, key)| all.with(id, key),
    );
    let import = read_chart(&pasted, &given);
    let ontext = {
        let text = text.setter();
        Callback::from(move |event: InputEvent| {
            text.set(Some(event.target_unchecked_into::<HtmlTextAreaElement>().value()))
        })
    };
    let onanswer = {
        let (setter, so_far) = (answers.setter(), (*answers).clone());
        Callback::from(move |answer: (QuestionId, String)| {
            let mut all = so_far.clone();
            all.retain(|(id, _)| *id != answer.0);
            all.push(answer);
            setter.set(all);
        })
    };
    let drop = {
        let text = text.setter();
        Callback::from(move |_: MouseEvent| text.set(None))
    };
    html! {
        <section class="preview" aria-label="Pasted chart">
            <h3>{ "Paste a chart" }</h3>
            <textarea class="entry" rows="8" aria-label="Text of the chart" placeholder="Cells of a spreadsheet, lines of a page, or a CSV file" value={pasted.clone()} oninput={ontext} />
            if !pasted.trim().is_empty() { { import_view(&import, &answers, &onanswer) } }
            <div class="tools">
                { accept(&import, &add) }
                <button type="button" onclick={drop}>{ "Drop" }</button>
            </div>
        </section>
    }
}

/// What was seen, what has to be answered, what came out.
fn import_view(
    import: &ChartImport,
    answers: &[(QuestionId, String)],
    onanswer: &Callback<(QuestionId, String)>,
) -> Html {
    let note = |note: &crate::import::Note| {
        let line = note.line.map_or_else(String::new, |line| format!("line {line}: "));
        html! { <li>{ format!("{line}{}", note.text) }</li> }
    };
    let found = import.chart.as_ref().map(|chart| {
        let issues = chart.table().1;
        html! {
            <>
                <p>{ format!("Read: {} radii and {} boom lengths, named \"{}\"", chart.rows.len(), chart.booms.len(), chart.name) }</p>
                { for issues.iter().map(|issue| html! { <p class="trouble">{ issue.message() }</p> }) }
            </>
        }
    });
    html! {
        <div role="status">
            { for import.questions.iter().map(|question| ask(question, answers, onanswer)) }
            <ul class="notes">{ for import.notes.iter().map(note) }</ul>
            { found.unwrap_or_default() }
        </div>
    }
}

fn ask(question: &Question, answers: &[(QuestionId, String)], onanswer: &Callback<(QuestionId, String)>) -> Html {
    let id = question.id;
    let none = ("".into(), "choose".into());
    let options = Options::new(
        std::iter::once(none)
            .chain(
                question
                    .choices
                    .iter()
                    .map(|c| (c.key.clone().into(), c.text.clone().into())),
            )
            .collect(),
    );
    let chosen = answers
        .iter()
        .find(|(of, _)| *of == id)
        .map_or_else(String::new, |(_, key)| key.clone());
    let onchoose = onanswer.reform(move |key| (id, key));
    html! { <label class="question">{ question.text.clone() }<Choice id={format!("chart-question-{id:?}")} {chosen} {options} {onchoose} /></label> }
}

fn accept(import: &ChartImport, add: &Callback<RatingChart>) -> Html {
    let chart = import.chart.clone();
    let disabled = chart.is_none();
    let add = add.clone();
    let onclick = Callback::from(move |_: MouseEvent| {
        if let Some(chart) = chart.clone() {
            add.emit(chart);
        }
    });
    html! { <button type="button" class="main" {disabled} {onclick}>{ "Put the chart into the plan" }</button> }
}

/// A name that no chart of the crane has.
fn fresh_id(crane: &Crane) -> String {
    (1..)
        .map(|number| format!("{}-{number}", crane.id))
        .find(|id| crane.charts.iter().all(|chart| chart.id != *id))
        .unwrap_or_default()
}

#[derive(Properties, PartialEq)]
struct OneChartProps {
    place: Place<RatingChart>,
}

/// One chart: its configuration, its cells, what is odd in it, and whether it is closed.
#[component]
fn OneChart(props: &OneChartProps) -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let place = props.place.clone();
    let Some(chart) = place.see(&plan) else {
        return html! {};
    };
    let issues = chart.table().1;
    let lock = {
        let (place, dispatch, locked) = (place.clone(), dispatch.clone(), chart.locked);
        Callback::from(move |_: MouseEvent| {
            let what = if locked { "unlocked" } else { "locked as compared" };
            place.edit(&dispatch, what, move |chart| chart.locked = !locked);
        })
    };
    let blocked = issues.iter().any(|issue| issue.blocks);
    html! {
        <article>
            <h2>{ format!("Chart {}", chart.name) }</h2>
            <div class="lock">
                <p>{ lock_words(chart.locked, blocked) }</p>
                <button type="button" onclick={lock} disabled={!chart.locked && blocked}>{ if chart.locked { "Unlock to edit" } else { "Lock: compared with the maker's chart" } }</button>
            </div>
            <fieldset disabled={chart.locked}>
                <legend>{ "Configuration it holds for" }</legend>
                <Form place={part!(place, configuration)} />
                <Form place={part!(place, includes)} />
                <Form place={place.clone()} />
                { for issues.iter().map(|issue| issue_view(issue, &place, chart.locked, &dispatch)) }
            </fieldset>
            <Grid place={place.clone()} />
            <fieldset disabled={chart.locked}>
                <legend>{ "Rows and columns" }</legend>
                { grid_tools(&place, &dispatch) }
            </fieldset>
        </article>
    }
}

fn lock_words(locked: bool, blocked: bool) -> &'static str {
    match (locked, blocked) {
        (true, _) => "Locked: compared with the maker's chart. Read-only until it is unlocked",
        (false, true) => "Not locked: lifts cannot be checked. Settle what is odd below, then compare and lock",
        (false, false) => "Not locked: lifts cannot be checked. Compare every cell with the maker's chart, then lock",
    }
}

/// Something odd, and the confirming of the cell that it is about.
fn issue_view(issue: &ChartIssue, place: &Place<RatingChart>, locked: bool, dispatch: &Dispatch) -> Html {
    let cell = issue
        .row
        .zip(issue.column)
        .filter(|_| issue.kind == IssueKind::Rising && !locked);
    let confirm = cell.map(|(row, column)| {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        let onclick = Callback::from(move |_: MouseEvent| {
            place.edit(&dispatch, "cell confirmed", move |chart| chart.confirm(row, column))
        });
        html! { <button type="button" {onclick}>{ "It stands so in the maker's chart" }</button> }
    });
    html! { <p class="trouble">{ issue.message() }{ confirm.unwrap_or_default() }</p> }
}

/// The cells: radii down, boom lengths across.
#[component]
fn Grid(props: &OneChartProps) -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let root = use_node_ref();
    let Some(chart) = props.place.see(&plan) else {
        return html! {};
    };
    let onkeydown = {
        let (root, count) = (root.clone(), chart.rows.len());
        Callback::from(move |event: KeyboardEvent| go_on(&root, &event, count))
    };
    let odd: Vec<(usize, usize)> = chart
        .table()
        .1
        .iter()
        .filter_map(|issue| issue.row.zip(issue.column))
        .collect();
    let place = &props.place;
    let boom = |(column, text): (usize, &String)| {
        let oncommit = commit(
            place,
            &dispatch,
            format!("boom length {}", column + 1),
            move |chart, text| {
                if let Some(boom) = chart.booms.get_mut(column) {
                    *boom = text;
                }
            },
        );
        html! { <th scope="col"><TextField id={format!("{}-boom-{column}", place.path())} label={Some(AttrValue::from(format!("boom length {}", column + 1)))} text={text.clone()} closed={chart.locked} {oncommit} />{ as_read(text, chart.boom_unit, chart.decimal) }</th> }
    };
    let row = |(at, row): (usize, &ChartRow)| {
        let onradius = commit(place, &dispatch, format!("radius {}", at + 1), move |chart, text| {
            if let Some(row) = chart.rows.get_mut(at) {
                row.radius = text;
            }
        });
        let cell = |column: usize| {
            let oncommit = commit(
                place,
                &dispatch,
                format!("radius {}, boom {}", row.radius, chart.booms[column]),
                move |chart, text| set_cell(chart, at, column, text),
            );
            let class = classes!(
                odd.contains(&(at, column)).then_some("odd"),
                chart.is_confirmed(at, column).then_some("confirmed")
            );
            let cell = Some(AttrValue::from(cell_name(at, column + 1)));
            let label: AttrValue = format!("capacity at radius {}, boom {}", row.radius, chart.booms[column]).into();
            html! { <td {class}><TextField id={format!("{}-{at}-{column}", place.path())} label={Some(label)} text={chart.cell(at, column).to_owned()} closed={chart.locked} {cell} {oncommit} /></td> }
        };
        html! {
            <tr key={at}>
                <th scope="row"><TextField id={format!("{}-radius-{at}", place.path())} label={Some(AttrValue::from(format!("radius {}", at + 1)))} text={row.radius.clone()} closed={chart.locked} cell={Some(AttrValue::from(cell_name(at, 0)))} oncommit={onradius} />{ as_read(&row.radius, chart.radius_unit, chart.decimal) }</th>
                { for (0..chart.booms.len()).map(cell) }
            </tr>
        }
    };
    // nothing in a locked chart takes the focus, so that the keys that scroll it need it here
    let stop = if chart.locked { "0" } else { "-1" };
    html! {
        <div class="scroll chart-grid" role="group" aria-label="Capacities" tabindex={stop} ref={root} {onkeydown}>
            <table>
                <caption>{ "Capacities: blank is not allowed" }</caption>
                <thead><tr><th scope="col">{ corner(chart) }</th>{ for chart.booms.iter().enumerate().map(boom) }</tr></thead>
                <tbody>{ for chart.rows.iter().enumerate().map(row) }</tbody>
            </table>
        </div>
    }
}

/// A radius or a boom length as it was read, in both countries' units; nothing where it is not.
fn as_read(text: &str, unit: Option<Unit>, mark: DecimalMark) -> Html {
    let length = unit.and_then(|unit| read::<Length>(split_marks(text).0, unit, mark).value());
    length.map_or_else(
        Html::default,
        |length| html! { <span class="echo">{ both(length.to_m()) }</span> },
    )
}

/// What stands in the corner of the cells: the units as far as they were said.
fn corner(chart: &RatingChart) -> String {
    let unit = |unit: Option<Unit>| unit.map_or("unit?", Unit::symbol);
    format!(
        "Radius {} \\ boom {}, capacity {}",
        unit(chart.radius_unit),
        unit(chart.boom_unit),
        unit(chart.capacity_unit)
    )
}

fn set_cell(chart: &mut RatingChart, row: usize, column: usize, text: String) {
    if let Some(row) = chart.rows.get_mut(row) {
        if row.cells.len() <= column {
            row.cells.resize(column + 1, String::new());
        }
        row.cells[column] = text;
    }
}

fn commit(
    place: &Place<RatingChart>,
    dispatch: &Dispatch,
    what: String,
    put: impl Fn(&mut RatingChart, String) + Clone + 'static,
) -> Callback<String> {
    let (place, dispatch) = (place.clone(), dispatch.clone());
    Callback::from(move |text: String| {
        let put = put.clone();
        place.edit(&dispatch, &what, move |chart| put(chart, text.trim().to_owned()));
    })
}

/// A row or a column more or less.
fn grid_tools(place: &Place<RatingChart>, dispatch: &Dispatch) -> Html {
    let button = |words: &'static str, what: &'static str, change: fn(&mut RatingChart)| {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        let onclick = Callback::from(move |_: MouseEvent| place.edit(&dispatch, what, change));
        html! { <button type="button" {onclick}>{ words }</button> }
    };
    html! {
        <div class="tools">
            { button("Add a radius", "radius added", |chart| chart.rows.push(ChartRow::default())) }
            { button("Add a boom length", "boom length added", |chart| chart.booms.push(String::new())) }
            { button("Take the last radius out", "last radius taken out", |chart| drop(chart.rows.pop())) }
            { button("Take the last boom length out", "last boom length taken out", |chart| {
                chart.booms.pop();
                let width = chart.booms.len();
                chart.rows.iter_mut().for_each(|row| row.cells.truncate(width));
            }) }
        </div>
    }
}
