//! The library of unit weights: searched by words, each row with its source, chosen by a button.

use crate::quantity::{Reading, Safe, UnitSystem, read_si, show_si};
use crate::takeoff::{UnitWeight, library};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The library.
#[derive(Properties, PartialEq)]
pub struct UnitWeightsProps {
    /// The search field's id begins so.
    pub id: AttrValue,
    /// Where a chosen row goes, in words; `None`: nothing is in hand yet.
    pub goes: Option<AttrValue>,
    /// What is weighed by the piece is left out.
    #[prop_or_default]
    pub no_pieces: bool,
    /// Units of the plan.
    pub units: UnitSystem,
    /// Gets the row chosen.
    pub onpick: Callback<UnitWeight>,
}

/// How many rows are shown at a time.
const SHOWN: usize = 10;

/// A search field over the library, and what it finds.
#[component]
pub fn UnitWeights(props: &UnitWeightsProps) -> Html {
    let rows = use_memo(props.no_pieces, |no_pieces| {
        let mut rows = library();
        rows.retain(|row| !*no_pieces || row.layer().is_some());
        rows
    });
    let search = use_state_eq(String::new);
    let oninput = {
        let search = search.setter();
        Callback::from(move |event: InputEvent| search.set(event.target_unchecked_into::<HtmlInputElement>().value()))
    };
    let found: Vec<&UnitWeight> = rows.iter().filter(|row| row.matches(&search)).collect();
    let id = format!("{}-search", props.id);
    let told = match (found.len(), &props.goes) {
        (0, _) => format!(
            "No row has all of \"{}\": try fewer words, or type the unit weight with its source",
            *search
        ),
        (_, None) => "Click into a row of the table first: the unit weight goes there".into(),
        (1, Some(into)) => format!("1 row; chosen, it goes into {into}"),
        (count, Some(into)) => format!("{count} rows; the one chosen goes into {into}"),
    };
    let row = |row: &&UnitWeight| {
        let (onpick, chosen) = (props.onpick.clone(), (*row).clone());
        let onclick = Callback::from(move |_: MouseEvent| onpick.emit(chosen.clone()));
        html! {
            <li>
                <button type="button" disabled={props.goes.is_none()} aria-label={format!("Take {}, {}", row.name, row.form)} {onclick}>{ "Take" }</button>
                <span class="what">{ format!("{}, {}", row.name, row.form) }</span>
                <b>{ figure(row, props.units) }</b>
                <span class="from">{ format!("{}; {}", row.source, row.standing.words()) }</span>
            </li>
        }
    };
    let more = found.len().saturating_sub(SHOWN);
    html! {
        <details class="library">
            <summary>{ "Library of unit weights, each with its source" }</summary>
            <label for={id.clone()}>{ "Search: material, size, source" }</label>
            <input type="search" autocomplete="off" class="entry" {id} value={(*search).clone()} {oninput} />
            <p class="hint" role="status">{ told }</p>
            <ul>{ for found.iter().take(SHOWN).map(row) }</ul>
            if more > 0 { <p class="hint">{ format!("and {more} more: add a word") }</p> }
        </details>
    }
}

/// The figure as its source has it, and in the plan's own unit where that is another.
fn figure(row: &UnitWeight, units: UnitSystem) -> String {
    let printed = format!("{} {}", row.figure, row.unit.symbol());
    let usual = row.unit.usual(units);
    match read_si(
        &printed,
        row.unit,
        crate::quantity::DecimalMark::Point,
        row.unit.dimension(),
    ) {
        Reading::Is(si) if usual != row.unit => format!("{printed} = {}", show_si(si, usual, 2, Safe::Nearest)),
        _ => printed,
    }
}
