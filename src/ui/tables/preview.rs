//! A pasted block before it goes into the plan: which column is what, in which unit, from which end.

use super::block::{Block, Decimals, Mapping, Take, Taken, block, box_column, decimals, guess, taken, units_like};
use super::column::{Heavy, Plain};
use super::list::{AnyList, Where};
use crate::plan::Plan;
use crate::quantity::{DecimalMark, Length, Reading, Unit, both, read};
use crate::ui::browser;
use crate::ui::fields::{Check, Choice, Options, Typing, written};
use crate::ui::notices::{Tell, Teller};
use crate::ui::{Dispatch, Shared};
use web_sys::{HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

/// The box that a pasted block is for: x may be measured from either end, y may have been taken for x, rows may be of other boxes.
#[derive(Clone, Debug, PartialEq)]
pub struct Mirror {
    /// Its name.
    pub own: String,
    /// The end at x = 0 and the other one, in words.
    pub ends: [String; 2],
    /// From one to the other; `None` while it is not known.
    pub length: Option<Length>,
    /// From the first side to the second; `None` while it is not known.
    pub width: Option<Length>,
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
    /// Whose rows go in, where the block names boxes; `None` until the person says.
    only: Option<String>,
    /// The sign before the decimals; `None` until the person says.
    decimals: Option<DecimalMark>,
    /// Places that look as if x and y were swapped are meant so.
    as_read: bool,
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
    let boxes = props.mirror.as_ref().and_then(|_| box_column(&cells));
    let guessed = decimals(&cells, typing.mark);
    let now = (*said).clone().unwrap_or_else(|| Said {
        mapping: guess(&cells, &columns, column_in_hand, typing),
        end: None,
        only: own_rows(&boxes, props.mirror.as_ref()),
        decimals: match guessed {
            Decimals::Sure(mark) => Some(mark),
            Decimals::Ask => None,
        },
        as_read: false,
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
    let only = boxes
        .as_ref()
        .zip(now.only.as_deref())
        .map(|((column, _), name)| (*column, name));
    let marked = now.decimals.unwrap_or(typing.mark);
    let mut result = taken(&cells, &now.mapping, &columns, typing, marked, only);
    let swap = (!now.as_read)
        .then(|| swapped(&result, &columns, props.mirror.as_ref(), typing))
        .flatten();
    let turned = unanswered(&now, boxes.as_ref(), props.mirror.as_ref())
        .and_then(|()| turn(&mut result, &columns, &now, props.mirror.as_ref(), typing));
    let ready =
        turned.is_ok() && swap.is_none() && !result.rows.is_empty() && now.mapping.takes.iter().any(Option::is_some);
    let (weighed, asked) = props.place.weigh(&plan, &result.rows, now.put, typing);
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
    let teller = use_context::<Teller>();
    let onfile = {
        let (text, said) = (text.setter(), said.setter());
        Callback::from(move |event: Event| {
            let file = event
                .target_unchecked_into::<HtmlInputElement>()
                .files()
                .and_then(|files| files.get(0));
            let (text, said, teller) = (text.clone(), said.clone(), teller.clone());
            let Some(file) = file else { return };
            yew::platform::spawn_local(async move {
                match browser::text_of(file).await {
                    Ok(read) => {
                        text.set(read);
                        said.set(None);
                    }
                    Err(reason) => tell(
                        teller.as_ref(),
                        format!("the file could not be read ({reason}): choose it again"),
                    ),
                }
            });
        })
    };
    html! {
        <section class="preview" aria-label="Pasted block">
            <h4>{ "Pasted block: what is what?" }</h4>
            if props.text.is_empty() {
                <textarea class="entry" rows="5" aria-label="Table to paste" placeholder="Paste cells of a spreadsheet, or lines with commas" value={(*text).clone()} oninput={ontext} />
                <label class="file"><span>{ "Or open a CSV file" }</span><input type="file" accept=".csv,.tsv,.txt,text/csv" onchange={onfile} /></label>
            }
            if !cells.is_empty() {
                { grid(props.place.place().0, &cells, &columns, &now.mapping, typing, &say) }
                { questions(props, &columns, &labels, &now, &say) }
                { more_questions(props, boxes.as_ref(), guessed, &now, &say) }
                { swap_question(swap, &columns, &say) }
                { heaviest(&weighed, props.mirror.as_ref()) }
                { for asked.iter().take(SHOWN).map(|text| html! { <p class="trouble">{ text.clone() }</p> }) }
                { troubles(&result.troubles, turned.err()) }
            }
            <div class="tools">
                <button type="button" class="main" disabled={!ready} onclick={accept}>{ format!("Put {} into the plan", rows_words(result.rows.len())) }</button>
                <button type="button" onclick={props.onclose.reform(|_| ())}>{ "Drop" }</button>
            </div>
        </section>
    }
}

/// Says it on the page.
fn tell(teller: Option<&Teller>, words: String) {
    if let Some(teller) = teller {
        teller.dispatch(Tell::Say(words));
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

/// Of a block that names boxes, the rows of this one.
fn own_rows(boxes: &Option<(usize, Vec<String>)>, mirror: Option<&Mirror>) -> Option<String> {
    let (_, names) = boxes.as_ref()?;
    let own = &mirror?.own;
    names.iter().find(|name| *name == own).cloned()
}

/// What has to be said before anything else.
fn unanswered(said: &Said, boxes: Option<&(usize, Vec<String>)>, mirror: Option<&Mirror>) -> Result<(), String> {
    if said.decimals.is_none() {
        return Err("a point before three digits beside commas: is 1.560 one and a half, or fifteen hundred? say which sign marks the decimals of this block".into());
    }
    match (boxes, mirror) {
        (Some((_, names)), Some(mirror)) if said.only.is_none() => Err(format!(
            "the block holds rows of {}, and this is box {}: say whose rows go in",
            names.join(", "),
            mirror.own
        )),
        _ => Ok(()),
    }
}

/// Whose rows, and which sign marks decimals, where the block leaves that open.
fn more_questions(
    props: &PreviewProps,
    boxes: Option<&(usize, Vec<String>)>,
    guessed: Decimals,
    now: &Said,
    say: &Say,
) -> Html {
    let path = props.place.place().0;
    let ask = |words: &'static str| (AttrValue::from(""), AttrValue::from(words));
    let whose = boxes.map(|(_, names)| {
        let onbox = say.reform(|key: String| {
            Box::new(move |said: &mut Said| said.only = Some(key).filter(|key| !key.is_empty())) as Box<dyn FnOnce(&mut Said)>
        });
        let names = names.iter().map(|name| (name.clone().into(), format!("box {name}").into()));
        let options = Options::new(std::iter::once(ask("which box?")).chain(names).collect());
        html! { <label>{ "Rows of" }<Choice id={format!("{path}-paste-box")} chosen={now.only.clone().unwrap_or_default()} {options} onchoose={onbox} /></label> }
    });
    let marks = (guessed == Decimals::Ask).then(|| {
        let onmark = say.reform(|key: String| {
            Box::new(move |said: &mut Said| {
                said.decimals = match key.as_str() {
                    "point" => Some(DecimalMark::Point),
                    "comma" => Some(DecimalMark::Comma),
                    _ => None,
                };
            }) as Box<dyn FnOnce(&mut Said)>
        });
        let options = Options::new(vec![
            ask("which sign?"),
            ("point".into(), "point: 1.560 is about 1 1/2".into()),
            ("comma".into(), "comma: 1.560 is 1560".into()),
        ]);
        let chosen = match now.decimals {
            Some(DecimalMark::Point) => "point",
            Some(DecimalMark::Comma) => "comma",
            None => "",
        };
        html! { <label>{ "Decimals stand behind the" }<Choice id={format!("{path}-paste-decimals")} {chosen} {options} onchoose={onmark} /></label> }
    });
    html! { <div class="questions">{ whose.unwrap_or_default() }{ marks.unwrap_or_default() }</div> }
}

/// Places of a block whose y is beyond the box's width, with the sizes they were held against.
struct Swapped {
    /// As read, m.
    read_m: Vec<[f64; 2]>,
    /// Length and width of the box, m.
    size_m: [f64; 2],
    /// The largest y, m.
    furthest_m: f64,
}

/// Whether x and y look swapped: some y is beyond the width, and swapped every place would be in the box.
fn swapped(result: &Taken, columns: &[Plain], mirror: Option<&Mirror>, typing: Typing) -> Option<Swapped> {
    let mirror = mirror?;
    let size_m = [mirror.length?.to_m(), mirror.width?.to_m()];
    let first = |is: fn(&Plain) -> bool| columns.iter().position(is);
    let (x, y) = (first(|c| c.along)?, first(|c| c.across)?);
    let metres = |row: &super::list::Fresh, column: usize| {
        let unit = columns[column].kind.unit(typing)?;
        let (_, text) = row.iter().find(|(at, _)| *at == column)?;
        Some(read::<Length>(text, unit, typing.mark).value()?.to_m())
    };
    let read_m: Vec<[f64; 2]> = result
        .rows
        .iter()
        .filter_map(|row| Some([metres(row, x)?, metres(row, y)?]))
        .collect();
    let furthest_m = read_m.iter().map(|at| at[1]).fold(0.0, f64::max);
    let slack_m = 1e-6;
    let fits = |at: &[f64; 2]| {
        (-slack_m..=size_m[1] + slack_m).contains(&at[0]) && (-slack_m..=size_m[0] + slack_m).contains(&at[1])
    };
    (furthest_m > size_m[1] + slack_m && read_m.iter().all(fits)).then_some(Swapped {
        read_m,
        size_m,
        furthest_m,
    })
}

/// Asks whether x and y are swapped, both ways drawn.
fn swap_question(swap: Option<Swapped>, columns: &[Plain], say: &Say) -> Html {
    let Some(swap) = swap else {
        return html! {};
    };
    let pairs: Vec<(usize, usize)> = {
        let of = |is: fn(&Plain) -> bool| (0..columns.len()).filter(move |at| is(&columns[*at]));
        of(|c| c.along).zip(of(|c| c.across)).collect()
    };
    let onswap = say.reform(move |_: MouseEvent| {
        let pairs = pairs.clone();
        Box::new(move |said: &mut Said| swap_takes(&mut said.mapping, &pairs)) as Box<dyn FnOnce(&mut Said)>
    });
    let onleave =
        say.reform(|_: MouseEvent| Box::new(|said: &mut Said| said.as_read = true) as Box<dyn FnOnce(&mut Said)>);
    let turned: Vec<[f64; 2]> = swap.read_m.iter().map(|[x, y]| [*y, *x]).collect();
    html! {
        <div class="question">
            <p class="trouble">{ format!("y goes up to {} in a box {} wide, and x never beyond that: are x and y swapped?", both(swap.furthest_m), both(swap.size_m[1])) }</p>
            <div class="views">
                { little_plan("As read", &swap.read_m, swap.size_m) }
                { little_plan("Swapped", &turned, swap.size_m) }
            </div>
            <div class="tools">
                <button type="button" onclick={onswap}>{ "Swap x and y" }</button>
                <button type="button" onclick={onleave}>{ "Leave them as read" }</button>
            </div>
        </div>
    }
}

/// Gives what went into one column of a pair to the other.
fn swap_takes(mapping: &mut Mapping, pairs: &[(usize, usize)]) {
    for take in mapping.takes.iter_mut().flatten() {
        for (along, across) in pairs {
            if take.column == *along {
                take.column = *across;
                break;
            }
            if take.column == *across {
                take.column = *along;
                break;
            }
        }
    }
}

/// The box from above with places in it, as far as they go beyond it too.
fn little_plan(name: &str, places_m: &[[f64; 2]], [length, width]: [f64; 2]) -> Html {
    let most = |axis: usize, size: f64| places_m.iter().map(|at| at[axis]).fold(size, f64::max) + 0.8;
    let least = |axis: usize| places_m.iter().map(|at| at[axis]).fold(0.0, f64::min) - 0.8;
    let (left, right, top, bottom) = (least(0), most(0, length), most(1, width), least(1));
    let frame = format!("{left:.2} {:.2} {:.2} {:.2}", width - top, right - left, top - bottom);
    let near = |a: &[f64; 2], b: &[f64; 2]| (a[0] - b[0]).abs() + (a[1] - b[1]).abs() < 0.6;
    let shown = &places_m[..places_m.len().min(SHOWN)];
    let point = |(at, place): (usize, &[f64; 2])| {
        let (x, y) = (format!("{:.3}", place[0]), format!("{:.3}", width - place[1]));
        // the numbers of those that lie on each other stand together, at the first of them
        let numbers: Vec<String> = (0..shown.len())
            .filter(|other| near(&shown[*other], place))
            .map(|other| (other + 1).to_string())
            .collect();
        let first = !shown[..at].iter().any(|other| near(other, place));
        html! { <g><circle class="item" cx={x.clone()} cy={y.clone()} r=".2" />if first { <text {x} {y} dx=".4" dy=".17">{ numbers.join(", ") }</text> }</g> }
    };
    html! {
        <figure>
            <figcaption>{ name.to_owned() }</figcaption>
            <svg viewBox={frame} role="img" aria-label={format!("{name}, from above")}>
                <rect class="outline" x="0" y="0" width={format!("{length:.3}")} height={format!("{width:.3}")} />
                { for shown.iter().enumerate().map(point) }
            </svg>
        </figure>
    }
}

/// The heaviest five, named and in their places, so that a turned or wrongly read block is seen.
fn heaviest(weighed: &[Heavy], mirror: Option<&Mirror>) -> Html {
    let mut heavy: Vec<&Heavy> = weighed.iter().collect();
    heavy.sort_by(|a, b| b.kg.total_cmp(&a.kg));
    heavy.truncate(5);
    if heavy.is_empty() {
        return html! {};
    }
    let places: Vec<[f64; 2]> = heavy.iter().map(|h| [h.at_m[0], h.at_m[1]]).collect();
    let size = mirror.and_then(|m| Some([m.length?.to_m(), m.width?.to_m()]));
    let ends = mirror.map_or_else(String::new, |m| format!("From above, {} on the left", m.ends[0]));
    html! {
        <div class="heaviest">
            <p>{ "The heaviest as read:" }</p>
            <ol>{ for heavy.iter().map(|h| html! { <li>{ h.words.clone() }</li> }) }</ol>
            if let Some(size) = size { <div class="views">{ little_plan(&ends, &places, size) }</div> }
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
