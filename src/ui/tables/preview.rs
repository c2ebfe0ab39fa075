//! A pasted block before it goes into the plan: which column is what, in which unit, from which end.

use super::block::{Block, Mapping, Take, Taken, block, guess, taken, units_like};
use super::column::Plain;
use super::list::{AnyList, Where};
use crate::plan::Plan;
use crate::quantity::{Length, Reading, Unit, read};
use crate::ui::fields::{Check, Choice, Options, Typing, written};
use crate::ui::{Dispatch, Shared};
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// The two ends that x may be measured from.
#[derive(Clone, Debug, PartialEq)]
pub struct Mirror {
    /// The end at x = 0 and the other one, in words.
    pub ends: [String; 2],
    /// From one to the other; `None` while it is not known.
    pub length: Option<Length>,
}

#[derive(Properties, PartialEq)]
pub(super) struct PreviewProps {
    pub place: AnyList,
    /// What was pasted; empty: it is typed or pasted here.
    pub text: String,
    /// Row and column that the person was in.
    pub hand: (usize, usize),
    pub mirror: Option<Mirror>,
    pub onclose: Callback<()>,
}

/// What the person said about the block.
#[derive(Clone, PartialEq)]
struct Said {
    mapping: Mapping,
    /// Which end x is measured from, 0 or 1; `None` until the person says.
    end: Option<usize>,
    put: Where,
}

/// How many rows and how many troubles are shown.
const SHOWN: usize = 6;

#[component]
pub(super) fn Preview(props: &PreviewProps) -> Html {
    let plan = use_context::<Shared<Plan>>().expect("an editor stands inside the page, which holds the plan");
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let typing = use_context::<Typing>().unwrap_or_default();
    let columns = use_memo(props.place.clone(), |place| place.columns());
    let text = use_state_eq(|| props.text.clone());
    let cells = use_memo((*text).clone(), |text| block(text));
    let said = use_state_eq(|| None::<Said>);
    let labels = props.place.labels(&plan);
    let (row_in_hand, column_in_hand) = props.hand;
    let now = (*said).clone().unwrap_or_else(|| Said {
        mapping: guess(&cells, &columns, column_in_hand, typing),
        end: None,
        put: if row_in_hand < labels.len() && !props.text.is_empty() && !guess(&cells, &columns, 0, typing).headed {
            Where::Over(row_in_hand)
        } else {
            Where::End
        },
    });
    let say = {
        let (said, now) = (said.setter(), now.clone());
        Callback::from(move |change: Box<dyn FnOnce(&mut Said)>| {
            let mut next = now.clone();
            change(&mut next);
            said.set(Some(next));
        })
    };
    let mut result = taken(&cells, &now.mapping, &columns, typing);
    let turned = turn(&mut result, &columns, &now, props.mirror.as_ref(), typing);
    let ready = turned.is_ok() && !result.rows.is_empty() && now.mapping.takes.iter().any(Option::is_some);
    let accept = {
        let (place, put, fresh, onclose) = (props.place.clone(), now.put, result.rows.clone(), props.onclose.clone());
        Callback::from(move |_: MouseEvent| {
            let what = format!("{} pasted", rows_words(fresh.len()));
            place.put(&dispatch, &what, fresh.clone(), put, typing);
            onclose.emit(());
        })
    };
    let ontext = {
        let (text, said) = (text.setter(), said.setter());
        Callback::from(move |event: InputEvent| {
            text.set(event.target_unchecked_into::<HtmlTextAreaElement>().value());
            said.set(None);
        })
    };
    html! {
        <section class="preview" aria-label="Pasted block">
            <h4>{ "Pasted block: what is what?" }</h4>
            if props.text.is_empty() {
                <textarea class="entry" rows="5" aria-label="Table to paste" placeholder="Paste cells of a spreadsheet, or lines with commas" value={(*text).clone()} oninput={ontext} />
            }
            if !cells.is_empty() {
                { grid(props.place.place().0, &cells, &columns, &now.mapping, typing, &say) }
                { questions(props, &columns, &labels, &now, &say) }
                { heaviest(props.place.weigh(&plan, &result.rows, now.put, typing)) }
                { troubles(&result.troubles, turned.err()) }
            }
            <div class="tools">
                <button type="button" class="main" disabled={!ready} onclick={accept}>{ format!("Put {} into the plan", rows_words(result.rows.len())) }</button>
                <button type="button" onclick={props.onclose.reform(|_| ())}>{ "Drop" }</button>
            </div>
        </section>
    }
}

fn rows_words(count: usize) -> String {
    if count == 1 {
        "1 row".into()
    } else {
        format!("{count} rows")
    }
}

type Say = Callback<Box<dyn FnOnce(&mut Said)>>;

/// The first rows of the block under a choice of what each column is.
fn grid(path: &str, cells: &Block, columns: &[Plain], mapping: &Mapping, typing: Typing, say: &Say) -> Html {
    let left_out = (AttrValue::from(""), AttrValue::from("left out"));
    let names = columns
        .iter()
        .enumerate()
        .map(|(at, c)| (at.to_string().into(), c.head.into()));
    let options: Options = Options::new(std::iter::once(left_out).chain(names).collect());
    let chooser = |(at, take): (usize, &Option<Take>)| {
        let take = *take;
        let kinds: Vec<Option<Unit>> = columns.iter().map(|c| c.kind.unit(typing)).collect();
        let onchoose = say.reform(move |key: String| {
            let column: Option<usize> = key.parse().ok();
            let take = column.map(|column| Take {
                column,
                unit: kinds.get(column).copied().flatten(),
            });
            Box::new(move |said: &mut Said| said.mapping.takes[at] = take) as Box<dyn FnOnce(&mut Said)>
        });
        let chosen = take.map_or_else(String::new, |take| take.column.to_string());
        html! {
            <th scope="col">
                <Choice id={format!("{path}-paste-{at}")} label={Some(AttrValue::from(format!("Column {} is", at + 1)))} {chosen} options={options.clone()} {onchoose} />
                { unit_chooser(path, at, take, say) }
            </th>
        }
    };
    let row = |cells: &Vec<String>| html! { <tr>{ for (0..mapping.takes.len()).map(|at| html! { <td>{ cells.get(at).cloned().unwrap_or_default() }</td> }) }</tr> };
    let more = cells.len().saturating_sub(SHOWN);
    html! {
        <div class="scroll" tabindex="-1">
            <table>
                <thead><tr>{ for mapping.takes.iter().enumerate().map(chooser) }</tr></thead>
                <tbody>{ for cells.iter().take(SHOWN).map(row) }</tbody>
            </table>
            if more > 0 { <p>{ format!("and {more} more lines") }</p> }
        </div>
    }
}

fn unit_chooser(path: &str, at: usize, take: Option<Take>, say: &Say) -> Html {
    let Some(unit) = take
        .and_then(|take| take.unit)
        .filter(|unit| units_like(*unit).count() > 1)
    else {
        return html! {};
    };
    let options = Options::new(
        units_like(unit)
            .map(|unit| (unit.name().into(), unit.name().into()))
            .collect(),
    );
    let onchoose = say.reform(move |name: String| {
        let unit = units_like(unit).find(|unit| unit.name() == name);
        Box::new(move |said: &mut Said| {
            if let Some(take) = &mut said.mapping.takes[at] {
                take.unit = unit;
            }
        }) as Box<dyn FnOnce(&mut Said)>
    });
    html! { <Choice id={format!("{path}-paste-unit-{at}")} label={Some(AttrValue::from(format!("Column {} is in", at + 1)))} chosen={unit.name()} {options} {onchoose} /> }
}

/// What else has to be said: heads, from which end, where to.
fn questions(props: &PreviewProps, columns: &[Plain], labels: &[String], now: &Said, say: &Say) -> Html {
    let path = props.place.place().0;
    let row_in_hand = props.hand.0;
    let onhead =
        say.reform(|on| Box::new(move |said: &mut Said| said.mapping.headed = on) as Box<dyn FnOnce(&mut Said)>);
    let onput = say.reform(move |key: String| {
        let put = match key.as_str() {
            "over" => Where::Over(row_in_hand),
            "instead" => Where::Instead,
            _ => Where::End,
        };
        Box::new(move |said: &mut Said| said.put = put) as Box<dyn FnOnce(&mut Said)>
    });
    let mut places = vec![("end".into(), "behind the last row".into())];
    if let Some(label) = labels.get(row_in_hand) {
        places.push(("over".into(), format!("over the rows from {label} on").into()));
    }
    if !labels.is_empty() {
        places.push(("instead".into(), format!("instead of all {} rows", labels.len()).into()));
    }
    let put = match now.put {
        Where::Over(_) => "over",
        Where::End => "end",
        Where::Instead => "instead",
    };
    let end = props.mirror.as_ref().filter(|_| columns.iter().any(|c| c.along)).map(|mirror| {
        let onend = say.reform(|key: String| Box::new(move |said: &mut Said| said.end = key.parse().ok()) as Box<dyn FnOnce(&mut Said)>);
        let ask = ("".into(), "which end?".into());
        let ends = mirror.ends.iter().enumerate().map(|(at, end)| (at.to_string().into(), end.clone().into()));
        let options = Options::new(std::iter::once(ask).chain(ends).collect());
        let chosen = now.end.map_or_else(String::new, |end| end.to_string());
        html! { <label>{ "x is measured from the" }<Choice id={format!("{path}-paste-end")} {chosen} {options} onchoose={onend} /></label> }
    });
    html! {
        <div class="questions">
            <label><Check id={format!("{path}-paste-head")} on={now.mapping.headed} onset={onhead} />{ "The first line holds heads" }</label>
            { end.unwrap_or_default() }
            <label>{ "They go" }<Choice id={format!("{path}-paste-where")} chosen={put} options={Options::new(places)} onchoose={onput} /></label>
        </div>
    }
}

/// Turns x round where it was measured from the other end; the text then says what was read.
fn turn(
    result: &mut Taken,
    columns: &[Plain],
    said: &Said,
    mirror: Option<&Mirror>,
    typing: Typing,
) -> Result<(), String> {
    let measured = said
        .mapping
        .takes
        .iter()
        .flatten()
        .any(|take| columns.get(take.column).is_some_and(|c| c.along));
    let Some(mirror) = mirror.filter(|_| measured) else {
        return Ok(());
    };
    let end = said.end.ok_or_else(|| {
        format!(
            "x from which end? say whether it was measured from the {} or the {}",
            mirror.ends[0], mirror.ends[1]
        )
    })?;
    if end == 0 {
        return Ok(());
    }
    let length = mirror
        .length
        .ok_or("the box has no length yet: enter it first, so that x can be taken from the other end")?;
    for (column, text) in result.rows.iter_mut().flatten() {
        let Some(unit) = columns
            .get(*column)
            .filter(|c| c.along)
            .and_then(|c| c.kind.unit(typing))
        else {
            continue;
        };
        if let Reading::Is(x) = read::<Length>(text, unit, typing.mark) {
            *text = written(length - x, unit, typing.mark);
        }
    }
    Ok(())
}

/// The heaviest five, so that a turned or wrongly read block is seen.
fn heaviest(mut weighed: Vec<(f64, String)>) -> Html {
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    if weighed.is_empty() {
        return html! {};
    }
    html! {
        <div class="heaviest">
            <p>{ "The heaviest as read:" }</p>
            <ol>{ for weighed.iter().take(5).map(|(_, text)| html! { <li>{ text }</li> }) }</ol>
        </div>
    }
}

fn troubles(troubles: &[String], blocked: Option<String>) -> Html {
    let more = troubles.len().saturating_sub(SHOWN);
    html! {
        <div role="status">
            { for blocked.iter().chain(troubles.iter().take(SHOWN)).map(|text| html! { <p class="trouble">{ text }</p> }) }
            if more > 0 { <p class="trouble">{ format!("and {more} more cells; what is not read stays as text and counts as unknown") }</p> }
        </div>
    }
}
