//! A list of the plan edited like a spreadsheet.

use super::cell::Head;
use super::edit::{Edit, Keys};
use super::list::{AnyList, Texts};
use super::preview::{Mirror, Preview};
use super::row::{Beside, Row, cell_name};
use crate::plan::Plan;
use crate::ui::fields::{Source, Typing};
use crate::ui::{Dispatch, Shared};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast as _;
use web_sys::{ClipboardEvent, Element, HtmlElement, HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// A list of the plan.
#[derive(Properties, PartialEq)]
pub struct TableProps {
    /// Where it is.
    pub place: AnyList,
    /// What it lists, for those who cannot see the heading.
    pub caption: AttrValue,
    /// Heads of the figures that follow from each row.
    #[prop_or_default]
    pub follows: Vec<&'static str>,
    /// What stands beside each row.
    #[prop_or_default]
    pub beside: Vec<Beside>,
    /// The two ends of the box, so that a pasted block may be measured from either.
    #[prop_or_default]
    pub mirror: Option<Mirror>,
    /// Heads of the columns to show; empty: all.
    #[prop_or_default]
    pub only: &'static [&'static str],
    /// Gets the row that the person is in.
    #[prop_or_default]
    pub onrow: Callback<usize>,
}

/// Where the person is: row and column.
type Hand = (usize, usize);

/// A list of the plan edited like a spreadsheet: Tab goes on, the arrows and Enter change rows, Escape drops what is half typed.
#[component]
pub fn Table(props: &TableProps) -> Html {
    let plan = use_context::<Shared<Plan>>().expect("an editor stands inside the page, which holds the plan");
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let typing = use_context::<Typing>().unwrap_or_default();
    let columns = use_memo(props.place.clone(), |place| place.columns());
    let keys = use_mut_ref(Keys::<Texts>::default);
    let root = use_node_ref();
    let hand = use_state_eq(|| None::<Hand>);
    let next = use_mut_ref(|| None::<Goal>);
    let drawn = use_mut_ref(|| plan.clone());
    drawn.replace(plan.clone());
    let at = use_mut_ref(|| None::<Hand>);
    let pasting = use_state_eq(|| None::<String>);

    let rows = props.place.texts(&plan, typing);
    let labels = props.place.labels(&plan);
    let arrival = Arrival {
        root: root.clone(),
        next,
        drawn,
        hand: hand.setter(),
        at: at.clone(),
        onrow: props.onrow.clone(),
    };
    let onedit = use_callback((props.place.clone(), typing, dispatch.clone(), plan.clone()), {
        let (arrival, at) = (arrival.clone(), at.clone());
        move |edit: Edit, (place, typing, dispatch, plan)| {
            let labels = place.labels(plan);
            let next = leave_in(&edit, labels.len(), at.borrow().map_or(0, |(_, column)| column));
            let what = edit.name(place.one(), &place.columns(), &labels);
            place.edit(dispatch, &what, edit, *typing);
            if let Some(next) = next {
                arrival.after(next, plan.clone());
            }
        }
    });
    // rows get one that never changes, so that a commit renders only the row that it changed
    let latest = use_mut_ref(|| onedit.clone());
    latest.replace(onedit.clone());
    let row_edit = use_callback((), move |edit: Edit, ()| {
        let onedit = latest.borrow().clone();
        onedit.emit(edit);
    });
    use_effect(move || arrival.come());

    let mut heads = Head::all(&columns, &plan, typing);
    heads.retain(|head| props.only.is_empty() || props.only.contains(&head.text));
    // the same list for as long as nothing in it changes, so that no row has to look
    let heads = use_memo(visible(heads, &rows), Clone::clone);
    let onfocusin = {
        let (hand, onrow, at) = (hand.setter(), props.onrow.clone(), at.clone());
        Callback::from(move |event: FocusEvent| {
            if let Some(there) = place_of(&event) {
                at.replace(Some(there));
                hand.set(Some(there));
                onrow.emit(there.0);
            }
        })
    };
    let onkeydown = on_keys(&root, onedit.clone(), rows.len());
    let onpaste = {
        let pasting = pasting.setter();
        Callback::from(move |event: Event| {
            if let Some(text) = pasted_block(&event) {
                event.prevent_default();
                pasting.set(Some(text));
            }
        })
    };
    let open_paste = {
        let pasting = pasting.setter();
        Callback::from(move |()| pasting.set(Some(String::new())))
    };
    let close = {
        let pasting = pasting.setter();
        Callback::from(move |()| pasting.set(None))
    };
    let in_hand = hand.filter(|(row, _)| *row < rows.len());
    let row_keys = keys.borrow_mut().follow(&rows);
    let row = |(index, (texts, key)): (usize, (&Texts, u32))| {
        let texts = heads
            .iter()
            .map(|head| texts[head.column].clone().map(AttrValue::from))
            .collect::<Vec<_>>();
        let beside = props.beside.get(index).cloned().unwrap_or_default();
        html! {
            <Row key={key} id={format!("{}-row{key}", props.place.place().0)} {index} label={labels.get(index).cloned().unwrap_or_default()} heads={Rc::clone(&heads)} {texts} {beside}
                in_hand={in_hand.is_some_and(|(at, _)| at == index)} onedit={row_edit.clone()} />
        }
    };
    html! {
        <div class="table" ref={root} {onkeydown} {onfocusin} {onpaste}>
            <div class="over">
                { tools(props.place.one(), in_hand, rows.len(), &at, &onedit, open_paste) }
                { in_hand.map_or_else(Html::default, |hand| source(&props.place, &plan, hand, &labels, &heads, &dispatch)) }
            </div>
            if let Some(text) = &*pasting {
                <Preview place={props.place.clone()} text={text.clone()} hand={in_hand.unwrap_or((rows.len(), 0))} mirror={props.mirror.clone()} onclose={close} />
            }
            <div class="scroll" tabindex="-1">
                <table>
                    <caption>{ props.caption.clone() }</caption>
                    if !rows.is_empty() {
                        <thead><tr><th scope="col">{ "#" }</th>{ for heads.iter().map(head) }{ for props.follows.iter().map(|text| html! { <th scope="col" class="follows">{ text }</th> }) }</tr></thead>
                    }
                    <tbody>{ for rows.iter().zip(row_keys).enumerate().map(row) }</tbody>
                </table>
            </div>
            if rows.is_empty() { <p class="none">{ "None yet: add one, or paste a block from a spreadsheet" }</p> }
        </div>
    }
}

fn head(head: &Head) -> Html {
    html! {
        <th scope="col" class={head.class()}>{ head.text }if let Some(unit) = head.unit() { <span class="unit">{ unit }</span> }</th>
    }
}

/// The columns that some row has; all of them for an empty list.
fn visible(heads: Vec<Head>, rows: &[Texts]) -> Vec<Head> {
    let shown = |head: &Head| rows.is_empty() || rows.iter().any(|texts| texts[head.column].is_some());
    heads.into_iter().filter(shown).collect()
}

/// The buttons above a table. They act on the row in hand.
fn tools(
    one: &str,
    hand: Option<Hand>,
    count: usize,
    at: &Rc<RefCell<Option<Hand>>>,
    onedit: &Callback<Edit>,
    open_paste: Callback<()>,
) -> Html {
    let button = |words: String, hint: &'static str, enabled: bool, edit: fn(Hand) -> Edit| {
        let (at, onedit) = (Rc::clone(at), onedit.clone());
        // the row in hand when it is pressed, which may be newer than the one drawn
        let onclick = Callback::from(move |_| {
            let hand = *at.borrow();
            if let Some(hand) = hand {
                onedit.emit(edit(hand));
            }
        });
        html! { <button type="button" title={hint} disabled={!enabled} {onclick}>{ words }</button> }
    };
    let add = {
        let (at, onedit) = (Rc::clone(at), onedit.clone());
        Callback::from(move |_| {
            let after = at.borrow().map(|(row, _)| row);
            onedit.emit(Edit::Add { after });
        })
    };
    let row = hand.map(|(row, _)| row);
    let below = row.is_some_and(|row| row + 1 < count);
    html! {
        <div class="tools" role="toolbar" aria-label="Rows">
            <button type="button" title="Ctrl Enter" onclick={add}>{ format!("Add {one}") }</button>
            { button("Duplicate".into(), "", row.is_some(), |(row, _)| Edit::Duplicate(row)) }
            { button("Delete".into(), "", row.is_some(), |(row, _)| Edit::Delete(row)) }
            { button("Up".into(), "Alt ↑", row.is_some_and(|row| row > 0), |(row, _)| Edit::Move { row, up: true }) }
            { button("Down".into(), "Alt ↓", below, |(row, _)| Edit::Move { row, up: false }) }
            { button("Fill down".into(), "This row's value into all rows below; Ctrl D takes the value from the row above", below, |(row, column)| Edit::FillDown { row, column }) }
            <button type="button" onclick={open_paste.reform(|_| ())}>{ "Paste a table…" }</button>
            if let Some(row) = row { <span class="hand">{ format!("{one} {} of {count}", row + 1) }</span> }
        </div>
    }
}

/// Who said the figure in hand.
fn source(
    place: &AnyList,
    plan: &Plan,
    (row, column): Hand,
    labels: &[String],
    heads: &[Head],
    dispatch: &Dispatch,
) -> Html {
    let thing = place.row(row, labels.get(row).map_or("", String::as_str));
    let head = heads.iter().find(|head| head.column == column);
    let Some((head, said)) = head.and_then(|head| Some((head, thing.said(plan, column)?))) else {
        return html! {};
    };
    let id = format!("{}-hand-{row}-{column}", place.place().0);
    let dispatch = dispatch.clone();
    let oncommit = Callback::from(move |said| thing.put_said(&dispatch, column, said));
    html! { <div class="source-in-hand"><span>{ head.text }</span><Source key={id.clone()} id={id.clone()} {said} {oncommit} /></div> }
}

/// After adding, repeating, moving and deleting, the person goes where the row went.
fn leave_in(edit: &Edit, count: usize, column: usize) -> Option<Hand> {
    let last = count.checked_sub(1);
    match edit {
        Edit::Set { .. } | Edit::CopyDown { .. } | Edit::FillDown { .. } => None,
        Edit::Add { after } => Some((after.map_or(count, |row| (row + 1).min(count)), 0)),
        Edit::Duplicate(row) => Some((row + 1, column)),
        Edit::Delete(row) => Some(((*row).min(last?.checked_sub(1)?), column)),
        Edit::Move { row, up: true } => Some((row.checked_sub(1)?, column)),
        Edit::Move { row, up: false } => Some(((*row < last?).then_some(row + 1)?, column)),
    }
}

/// Where to go, and the plan before the change that leads there.
type Goal = (Hand, Shared<Plan>);

/// Brings the person to a field of the list as it will be.
#[derive(Clone)]
struct Arrival {
    root: NodeRef,
    next: Rc<RefCell<Option<Goal>>>,
    /// The plan that is on the page.
    drawn: Rc<RefCell<Shared<Plan>>>,
    hand: UseStateSetter<Option<Hand>>,
    /// The row in hand, known at once.
    at: Rc<RefCell<Option<Hand>>>,
    onrow: Callback<usize>,
}

impl Arrival {
    /// Goes there as soon as another plan is on the page.
    ///
    /// Effects alone come too late: on a slow machine Yew lets the browser in before it runs them, and what is typed meanwhile would land in
    /// the old field. A task of our own runs right behind the render and in the same turn.
    fn after(&self, next: Hand, before: Shared<Plan>) {
        self.next.replace(Some((next, before)));
        let arrival = self.clone();
        yew::platform::spawn_local(async move { arrival.come() });
    }

    fn come(&self) {
        let wanted = self.next.borrow().clone();
        let there = wanted
            .filter(|(_, before)| *before != *self.drawn.borrow())
            .map(|(there, _)| there);
        if let Some(there) = there
            && focus(&self.root, there)
        {
            self.next.replace(None);
            // a field that moved with its row had the focus already, and tells nobody that it has another place
            self.at.replace(Some(there));
            self.hand.set(Some(there));
            self.onrow.emit(there.0);
        }
    }
}

/// Focuses a field, or the next one of its row where the row has no such field. Whether there is one.
fn focus(root: &NodeRef, (row, column): Hand) -> bool {
    let Some(root) = root.cast::<Element>() else {
        return false;
    };
    let named = |column: usize| {
        root.query_selector(&format!("[data-cell='{}']", cell_name(row, column)))
            .ok()
            .flatten()
    };
    let any = || root.query_selector(&format!("[data-cell^='{row}:']")).ok().flatten();
    let Some(found) = named(column).or_else(any) else {
        return false;
    };
    if let Some(element) = found.dyn_ref::<HtmlElement>() {
        // focusing fails only on what is not shown
        let _ = element.focus();
    }
    if let Some(input) = found.dyn_ref::<HtmlInputElement>()
        && input.type_() == "text"
    {
        input.select();
    }
    true
}

fn place_of(event: &Event) -> Option<Hand> {
    let element = event.target()?.dyn_into::<Element>().ok()?;
    let name = element.get_attribute("data-cell")?;
    let (row, column) = name.split_once(':')?;
    Some((row.parse().ok()?, column.parse().ok()?))
}

/// Text of several cells, where that is what was pasted.
fn pasted_block(event: &Event) -> Option<String> {
    place_of(event)?;
    let text = event
        .dyn_ref::<ClipboardEvent>()?
        .clipboard_data()?
        .get_data("text/plain")
        .ok()?;
    text.trim_end().contains(['\t', '\n']).then_some(text)
}

/// What the keys do in a table.
fn on_keys(root: &NodeRef, onedit: Callback<Edit>, count: usize) -> Callback<KeyboardEvent> {
    let root = root.clone();
    Callback::from(move |event: KeyboardEvent| {
        let Some((row, column)) = place_of(&event) else {
            return;
        };
        let edit = match (
            event.key().as_str(),
            event.alt_key(),
            event.ctrl_key() || event.meta_key(),
        ) {
            ("Enter", false, true) => Edit::Add { after: Some(row) },
            ("ArrowUp", true, false) => Edit::Move { row, up: true },
            ("ArrowDown", true, false) => Edit::Move { row, up: false },
            ("d", false, true) => Edit::CopyDown { row, column },
            _ => return go_on(&root, &event, count),
        };
        event.prevent_default();
        onedit.emit(edit);
    })
}

/// The keys that only move: arrows up and down, Enter down, Shift Enter up. In a select the arrows stay its own.
pub fn go_on(root: &NodeRef, event: &KeyboardEvent, count: usize) {
    let Some((row, column)) = place_of(event).filter(|_| !(event.alt_key() || event.ctrl_key() || event.meta_key()))
    else {
        return;
    };
    let in_select = event
        .target()
        .is_some_and(|target| target.has_type::<HtmlSelectElement>());
    let to = match event.key().as_str() {
        "ArrowUp" if !in_select => row.checked_sub(1),
        "ArrowDown" if !in_select => Some(row + 1),
        "Enter" if event.shift_key() => row.checked_sub(1),
        "Enter" => Some(row + 1),
        _ => return,
    };
    event.prevent_default();
    if let Some(to) = to.filter(|to| *to < count) {
        focus(root, (to, column));
    }
}
