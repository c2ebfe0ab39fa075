//! The gear on the truck, piece by piece; rows of published tables to start from; and the rules that gear is held to.

use super::{chooser, use_plan};
use crate::gear::profile::{self, in_force, profiles};
use crate::gear::starter::{Starter, starters};
use crate::plan::{GearItem, GearKind, Id, next_name};
use crate::ui::Dispatch;
use crate::ui::browser;
use crate::ui::fields::{Choice, Options, Typing};
use crate::ui::notices::{Tell, Teller};
use crate::ui::tables::{Form, Place, Table, as_csv, part_of_plan};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What of a piece stands in the list; the rest is in its form.
const LISTED: [&str; 11] = [
    "Tag",
    "What",
    "Kind",
    "On the truck",
    "Rating vertical",
    "Weight of one",
    "Length lugs or link",
    "Made of",
    "Tag legible",
    "Last inspected",
    "Note",
];

/// The gear on the truck.
#[component]
pub(super) fn Gear() -> Html {
    let plan = use_plan();
    let typing = use_context::<Typing>().unwrap_or_default();
    let teller = use_context::<Teller>();
    let chosen = use_state_eq(|| 0_usize);
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let save = {
        let plan = plan.clone();
        Callback::from(move |_: MouseEvent| {
            let text = as_csv(&plan.gear, typing);
            let saved = browser::download_as("gear.csv", &text, "text/csv");
            if let (Err(reason), Some(teller)) = (saved, &teller) {
                teller.dispatch(Tell::Say(format!(
                    "gear.csv was not saved: the browser refuses ({reason})"
                )));
            }
        })
    };
    let one = plan.gear.get(*chosen).map(|item| {
        let place = part_of_plan!(gear).item(*chosen).named(format!("gear {}", item.id));
        html! { <Piece key={*chosen} {place} item={item.clone()} /> }
    });
    html! {
        <>
            <h2>{ "Gear on the truck" }</h2>
            <p class="hint">{ "Ratings as on the tag, for one piece unless it says for how many legs; bars as the load hung below them, to the span and the angle of their certificate. Length: slings from bearing to bearing, bars between end lugs, shorteners one link, shackles what one more adds in a leg, adjusters their shortest. No legible tag, no use" }</p>
            <Table place={part_of_plan!(gear)} caption="Gear" only={&LISTED[..]} onrow={onchoose.clone()} />
            <div class="tools"><button type="button" onclick={save}>{ "Save the list as CSV" }</button></div>
            <Starters />
            { chooser(&plan.gear, *chosen, |item| item.id.to_string(), &onchoose) }
            { one.unwrap_or_default() }
        </>
    }
}

#[derive(Properties, PartialEq)]
struct PieceProps {
    place: Place<GearItem>,
    item: GearItem,
}

/// One piece in full; of a bar its steel and its lugs too.
#[component]
fn Piece(props: &PieceProps) -> Html {
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let (place, item) = (&props.place, &props.item);
    let steel = place.part_if("steel", |item| item.steel.as_ref(), |item| item.steel.as_mut());
    let lug = place.part_if("lug", |item| item.lug.as_ref(), |item| item.lug.as_mut());
    let toggle = |what: &'static str, change: fn(&mut GearItem)| {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        let onclick = Callback::from(move |_: MouseEvent| place.edit(&dispatch, what, change));
        html! { <button type="button" {onclick}>{ what }</button> }
    };
    html! {
        <article>
            <h3>{ format!("Gear {} {}", item.id, item.name) }</h3>
            <Form place={place.clone()} />
            if item.kind == GearKind::Bar {
                if item.steel.is_some() {
                    <h4>{ "Its steel: compression and bending by ASME BTH-1 (from memory), closed sections only" }</h4>
                    <Form place={steel.named(format!("{}, steel", place.name()))} />
                    { toggle("Take the steel out", |item| item.steel = None) }
                } else {
                    { toggle("Check it by its steel too", |item| item.steel = Some(Default::default())) }
                }
                if item.lug.is_some() {
                    <h4>{ "Its lugs" }</h4>
                    <Form place={lug.named(format!("{}, lugs", place.name()))} />
                    { toggle("Take the lugs out", |item| item.lug = None) }
                } else {
                    { toggle("Check its lugs too", |item| item.lug = Some(Default::default())) }
                }
            }
        </article>
    }
}

/// How many rows of the tables are shown at a time.
const SHOWN: usize = 10;

/// Rows of published tables, searched by words; one chosen becomes a piece of gear.
#[component]
fn Starters() -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let rows = use_memo((), |()| starters());
    let search = use_state_eq(String::new);
    let oninput = {
        let search = search.setter();
        Callback::from(move |event: InputEvent| search.set(event.target_unchecked_into::<HtmlInputElement>().value()))
    };
    let found: Vec<&Starter> = rows.iter().filter(|row| row.matches(&search)).collect();
    let taken: Vec<String> = plan.gear.iter().map(|item| item.id.to_string()).collect();
    let row = |row: &&Starter| {
        let (dispatch, chosen, taken) = (dispatch.clone(), (*row).clone(), taken.clone());
        let onclick = Callback::from(move |_: MouseEvent| {
            let taken: Vec<&str> = taken.iter().map(String::as_str).collect();
            let mut item = chosen.gear();
            item.id = Id(next_name(taken.last().copied().unwrap_or("G01"), &taken));
            let what = format!("{} from the tables", chosen.name);
            part_of_plan!(gear).edit(&dispatch, &what, move |gear| gear.push(item));
        });
        html! {
            <li>
                <button type="button" aria-label={format!("Take {}", row.words())} {onclick}>{ "Take" }</button>
                <span class="what">{ row.words() }</span>
                <span class="from">{ format!("{}; {}", row.source, row.standing.words()) }</span>
            </li>
        }
    };
    let told = match found.len() {
        0 => format!("No row has all of \"{}\": try fewer words", *search),
        1 => "1 row; chosen, it is added to the list, its tag still to be read".into(),
        count => format!("{count} rows; one chosen is added to the list, its tag still to be read"),
    };
    let more = found.len().saturating_sub(SHOWN);
    html! {
        <details class="library">
            <summary>{ "Tables of published standards to start from" }</summary>
            <p class="hint">{ "The tag in hand counts for more than any table. Own weight, length and how many there are must be entered" }</p>
            <label for="starter-search">{ "Search: what, size, grade, standard" }</label>
            <input type="search" autocomplete="off" class="entry" id="starter-search" value={(*search).clone()} {oninput} />
            <p class="hint" role="status">{ told }</p>
            <ul>{ for found.iter().take(SHOWN).map(row) }</ul>
            if more > 0 { <p class="hint">{ format!("and {more} more: add a word") }</p> }
        </details>
    }
}

/// Rules to start from, and those in force with their sources.
#[component]
pub(super) fn Profiles() -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let names = use_memo((), |()| profiles());
    let current = plan.limits.profile.clone();
    let chosen = use_state_eq(|| current);
    let none = (AttrValue::from(""), AttrValue::from("choose"));
    let each = names.iter().map(|name| (name.clone().into(), name.clone().into()));
    let options = Options::new(std::iter::once(none).chain(each).collect());
    let onchoose = {
        let chosen = chosen.setter();
        Callback::from(move |name: String| chosen.set(name))
    };
    let start = {
        let name = (*chosen).clone();
        Callback::from(move |_: MouseEvent| {
            let (what, name) = (format!("rules of gear as in {name}"), name.clone());
            part_of_plan!(limits).edit(&dispatch, &what, move |limits| profile::apply(limits, &name));
        })
    };
    let row = |(name, figure, source): &(&'static str, String, String)| {
        let source = if source.is_empty() {
            "typed here, no source beside it"
        } else {
            source
        };
        html! { <li><b>{ format!("{name}: {figure}") }</b><span class="why">{ format!("; {source}") }</span></li> }
    };
    html! {
        <section class="profiles">
            <h3>{ "Rules for gear" }</h3>
            <p class="hint">{ "A profile is a start: it puts its figures into the limits below, each with its source, and every one of them is yours to change. Editions change: check the one in force where you are" }</p>
            <div class="tools">
                <label for="profile">{ "Profile" }</label>
                <Choice id="profile" chosen={(*chosen).clone()} {options} {onchoose} />
                <button type="button" disabled={chosen.is_empty()} onclick={start}>{ "Put its figures into the limits" }</button>
            </div>
            <h4>{ profile_words(&plan.limits.profile) }</h4>
            <ul class="rules">{ for in_force(&plan.limits).iter().map(row) }</ul>
        </section>
    }
}

fn profile_words(profile: &str) -> String {
    match profile.trim() {
        "" => "Rules in force; no profile was put in".into(),
        name => format!("Rules in force, started from {name}"),
    }
}
