//! Boxes: size, ticket, picks, placement, and what each is made of.

use super::unit_weights::UnitWeights;
use super::{chooser, figures, places, use_assessment, use_plan};
use crate::check::Finding;
use crate::evaluate::{Assessment, BoxResult, cg_envelope};
use crate::plan::{Assembly, Component, HouseBox, Id, Opening, Place3, Shape, Ticket, mirrored, next_name, twin};
use crate::quantity::UnitSystem;
use crate::takeoff::{self, Envelope, UnitWeight, Weighing, WeightGrade};
use crate::ui::Dispatch;
use crate::ui::tables::{Beside, Form, Mirror, Place, Table, part, part_of_plan};
use yew::prelude::*;

const LIST: [&str; 5] = ["Box", "Name", "Length", "Width", "Shipped height"];
const NAMES: [&str; 4] = [
    "End at x = 0",
    "End at x = length",
    "Side at y = 0",
    "Side at y = width",
];
const START: [&str; 1] = ["Weight per floor area"];
const LAST_ITEM: [&str; 1] = ["Last item added, year-month-day"];
const STIFFNESS: [&str; 19] = [
    "Stiff against twist",
    "Stiffness against twist, GJ",
    "Shear stiffness of the floor, Ga",
    "Shear stiffness of the roof, Ga",
    "Shear stiffness of the side at y = 0, Ga",
    "Shear stiffness of the side at y = width, Ga",
    "Floor sheathed, area ratio",
    "Roof sheathed, area ratio",
    "Side at y = 0 sheathed, area ratio",
    "Side at y = width sheathed, area ratio",
    "Stiffness against bending, EI",
    "EI of the rims alone, a bound",
    "EI of the walls as girders, a bound",
    "Neutral axis above the underside of the floor",
    "Sagging moment that the factory allows",
    "Hogging moment that the factory allows",
    "Shear that the factory allows",
    "Picks no nearer to an end than",
    "Picks no farther from it than",
];
const PLACEMENT: [&str; 4] = [
    "Corner x = 0, y = 0 lands east of the origin",
    "and north of it",
    "Direction of the box, from east anticlockwise",
    "Underside of its floor above grade, set",
];

/// All boxes, and one of them in full.
#[component]
pub(super) fn Boxes() -> Html {
    let (plan, assessment) = (use_plan(), use_assessment());
    let chosen = use_state_eq(|| 0_usize);
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let units = plan.project.units;
    let beside: Vec<Beside> = assessment
        .boxes
        .iter()
        .map(|result| Beside {
            figures: list_figures(result, units),
            messages: assessment
                .messages
                .iter()
                .filter(|m| m.about == result.id && m.place == "boxes")
                .map(|m| m.text.clone())
                .collect(),
        })
        .collect();
    html! {
        <>
            <h2>{ "Boxes" }</h2>
            <Table place={part_of_plan!(boxes)} caption="Boxes" only={&LIST[..]}
                follows={vec!["Take-off", "Ticket", "To plan with", "Per floor area"]} {beside} onrow={onchoose.clone()} />
            { chooser(&plan.boxes, *chosen, |b| b.id.to_string(), &onchoose) }
            if *chosen < plan.boxes.len() { <OneBox key={*chosen} index={*chosen} /> }
        </>
    }
}

fn list_figures(result: &BoxResult, units: UnitSystem) -> Vec<String> {
    let mass = |kg: Option<f64>| kg.map_or_else(|| "—".into(), |kg| figures::mass(units, kg));
    vec![
        takeoff_words(result, units),
        mass(result.ticket_kg),
        mass(result.planned.map(|planned| planned.mass_kg)),
        result
            .floor_kg_per_m2
            .map_or_else(|| "—".into(), |v| figures::per_area(units, v)),
    ]
}

/// The sum of the rows; with unknown rows it says so.
fn takeoff_words(result: &BoxResult, units: UnitSystem) -> String {
    let known = figures::mass(units, result.takeoff.known_mass_kg);
    match (result.takeoff.unknown, result.takeoff.total) {
        (0, Some(_)) => known,
        (0, None) => "no weight yet".into(),
        (unknown, _) => format!("at least {known}, {unknown} unknown"),
    }
}

#[derive(Properties, PartialEq)]
struct OneBoxProps {
    index: usize,
}

/// One box in full.
#[component]
fn OneBox(props: &OneBoxProps) -> Html {
    let (plan, assessment) = (use_plan(), use_assessment());
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let row = use_state_eq(|| None::<usize>);
    let onrow = {
        let row = row.setter();
        use_callback((), move |at, ()| row.set(Some(at)))
    };
    let (Some(house), Some(result)) = (plan.boxes.get(props.index), assessment.boxes.get(props.index)) else {
        return html! {};
    };
    let units = plan.project.units;
    let place = places::house_box(&plan, props.index);
    let band = cg_envelope(&plan, house).ok().map(|(band, _)| band).filter(is_wide);
    let mirror = Mirror {
        own: house.id.to_string(),
        width: house.width.get(),
        ends: [0, 1].map(|end| end_words(house, end)),
        length: house.length.get(),
    };
    html! {
        <article>
            <h2>{ format!("Box {} {}", house.id, house.name) }</h2>
            <Copying index={props.index} house={house.clone()} others={plan.boxes.iter().map(|b| b.id.clone()).collect::<Vec<_>>()} />
            <Totals house={house.clone()} result={result.clone()} {band} {units} assemblies={plan.assemblies.to_vec()} />
            <h3>{ "Weight per floor area, to start from" }</h3>
            <p class="hint">{ "Length × width × this, taken to act at the middle. It counts as an estimate until there is a take-off or a ticket, and holds the lift" }</p>
            <Form place={place.clone()} only={&START[..]} />
            <h3>{ "Which end and which side is which" }</h3>
            <p class="hint">{ "In words that a rigger sees: hitch end, kitchen end, street side, marriage line. x runs along the box from the first end, y across it from the first side, z up from the underside of the floor" }</p>
            <Form place={place.clone()} only={&NAMES[..]} />
            <h3>{ "Components" }</h3>
            <div class="placing">
            <Views house={house.clone()} cg={result.cg_m} {band} row={*row} assemblies={plan.assemblies.to_vec()} />
            <Table place={part!(place, components)} caption={format!("Components of box {}", house.id)}
                beside={component_messages(house, &assessment)} {mirror} {onrow} />
            </div>
            { mid_height(&place, house, &dispatch) }
            { unit_weights(&place, house, *row, units, &dispatch) }
            { openings(&place, house, *row) }
            <h3>{ "Picks" }</h3>
            <p class="hint">{ "Four in this order: first end first side, first end second side, second end first side, second end second side. Two, three, six or eight: a rig entered piece by piece names them by their place in this list" }</p>
            <Table place={part!(place, picks).named(format!("box {}, picks", house.id))} caption="Picks" />
            <h3>{ "Edges that a strap may bend round" }</h3>
            <Table place={part!(place, edges).named(format!("box {}, edges", house.id))} caption="Edges" />
            <h3>{ "How stiff and how strong it is" }</h3>
            <p class="hint">{ "For the worst that its legs can see, and for the box as a beam. Bending shares between legs with picks at three sections or more; blank: from following its picks to rigid. Sheathed, area ratio: 100 % without openings; blank where Ga is of the face as it stands. What is blank here is never guessed: sag and racking cannot be checked then" }</p>
            <Form place={place.clone()} only={&STIFFNESS[..]} />
            <h3>{ "Size" }</h3>
            <Form place={place.clone()} only={&LIST[..]} />
            <h3>{ "Ticket" }</h3>
            <Form place={place.clone()} only={&LAST_ITEM[..]} />
            <TicketForm place={place.clone()} ticket={house.ticket.clone()} {units} by_axles={result.by_axles.clone()} ends={[0, 1].map(|end| end_words(house, end))} />
            <h3>{ "Where it is set" }</h3>
            <Form place={place.clone()} only={&PLACEMENT[..]} />
        </article>
    }
}

fn end_words(house: &HouseBox, end: usize) -> String {
    let words = &house.ends[end];
    if words.is_empty() {
        ["first end", "second end"][end].into()
    } else {
        words.clone()
    }
}

fn side_words(house: &HouseBox) -> String {
    let words = &house.sides[0];
    if words.is_empty() {
        "first side".into()
    } else {
        words.clone()
    }
}

/// The messages of each component, in the order of the rows.
fn component_messages(house: &HouseBox, assessment: &Assessment) -> Vec<Beside> {
    let messages = |component: &Component| {
        let place = format!("row {} ({})", component.id, component.name);
        assessment
            .messages
            .iter()
            .filter(|m| m.about == house.id && m.place == place)
            .map(|m| m.text.clone())
            .collect()
    };
    house
        .components
        .iter()
        .map(|component| Beside {
            figures: Vec::new(),
            messages: messages(component),
        })
        .collect()
}

/// The holes in the panel of the row in hand.
fn openings(place: &Place<HouseBox>, house: &HouseBox, row: Option<usize>) -> Html {
    let panel = row.and_then(|at| Some((at, house.components.get(at)?)));
    let Some((at, component)) = panel.filter(|(_, c)| matches!(c.shape, Shape::Panel { .. })) else {
        return html! {};
    };
    let place: Place<Vec<Opening>> = part!(place, components).item(at).part_if(
        "openings",
        |c| match &c.shape {
            Shape::Panel { openings, .. } => Some(openings),
            _ => None,
        },
        |c| match &mut c.shape {
            Shape::Panel { openings, .. } => Some(openings),
            _ => None,
        },
    );
    let name = format!("box {}, row {}", house.id, component.id);
    html! { <><h3>{ format!("Openings in row {} {}", component.id, component.name) }</h3><Table place={place.named(name)} caption="Openings" /></> }
}

/// Mid-height for the rows that lack only their height, for somebody who wants to go on without it.
fn mid_height(place: &Place<HouseBox>, house: &HouseBox, dispatch: &Dispatch) -> Html {
    let rows = takeoff::rows_without_height(house);
    if rows == 0 {
        return html! {};
    }
    let (place, dispatch) = (place.clone(), dispatch.clone());
    let onclick = Callback::from(move |_: MouseEvent| {
        place.edit(&dispatch, "mid-height assumed", takeoff::assume_mid_height);
    });
    let known = house.height.not_negative().is_some();
    html! {
        <p class="hint">
            { format!("{rows} of {} rows have no height z. ", house.components.len()) }
            <button type="button" disabled={!known} {onclick}>{ "Take mid-height there, marked as assumed" }</button>
            if !known { { " Enter the shipped height of the box first" } }
        </p>
    }
}

/// The library for the row in hand.
fn unit_weights(
    place: &Place<HouseBox>,
    house: &HouseBox,
    row: Option<usize>,
    units: UnitSystem,
    dispatch: &Dispatch,
) -> Html {
    let in_hand = row.and_then(|at| Some((at, house.components.get(at)?)));
    let into = in_hand.map(|(_, row)| AttrValue::from(format!("row {} {}", row.id, row.name)));
    let onpick = {
        let (place, dispatch) = (place.clone(), dispatch.clone());
        let row = in_hand.map(|(at, row)| (at, format!("row {} unit weight from the library", row.id)));
        Callback::from(move |picked: UnitWeight| {
            if let Some((at, what)) = &row {
                let row = part!(place, components).item(*at);
                row.edit(&dispatch, what, move |row| picked.put(row));
            }
        })
    };
    html! { <UnitWeights id="components" goes={into} {units} {onpick} /> }
}

#[derive(Properties, PartialEq)]
struct CopyingProps {
    index: usize,
    house: HouseBox,
    others: Vec<Id>,
}

/// Another box from this one, as it is or turned end for end.
#[component]
fn Copying(props: &CopyingProps) -> Html {
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let CopyingProps { index, house, others } = props;
    let taken: Vec<&str> = others.iter().map(Id::as_str).collect();
    let id = Id(next_name(house.id.as_str(), &taken));
    let turned = mirrored(house);
    let make = |source: HouseBox, what: String| {
        let (dispatch, id, at) = (dispatch.clone(), id.clone(), index + 1);
        Callback::from(move |_: MouseEvent| {
            let copy = twin(&source, id.clone());
            part_of_plan!(boxes).edit(&dispatch, &what, move |boxes| boxes.insert(at.min(boxes.len()), copy));
        })
    };
    let as_it_is = make(house.clone(), format!("box {id} copied from {}", house.id));
    let trouble = turned.as_ref().err().cloned();
    let end_for_end = make(
        turned.unwrap_or_default(),
        format!("box {id} copied from {}, turned end for end", house.id),
    );
    html! {
        <div class="copying">
            <button type="button" onclick={as_it_is}>{ format!("Copy as box {id}") }</button>
            <button type="button" disabled={trouble.is_some()} onclick={end_for_end}>{ format!("Copy as box {id}, turned end for end") }</button>
            <p class="hint">{ trouble.unwrap_or_else(|| "Ticket, days and place on the site stay with this box. Turned, every x becomes length − x and the words for the ends are left blank".into()) }</p>
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct TicketProps {
    place: Place<HouseBox>,
    ticket: Option<Ticket>,
    units: UnitSystem,
    by_axles: Option<Weighing>,
    ends: [String; 2],
}

/// The ticket, if the box was weighed.
#[component]
fn TicketForm(props: &TicketProps) -> Html {
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let place = props.place.clone();
    let weighed = props.ticket.is_some();
    let onclick = Callback::from(move |_: MouseEvent| {
        let what = if weighed { "ticket taken out" } else { "ticket added" };
        place.edit(&dispatch, what, move |house| {
            house.ticket = (!weighed).then(Ticket::default)
        });
    });
    let ticket = props
        .place
        .part_if("ticket", |house| house.ticket.as_ref(), |house| house.ticket.as_mut());
    let ticket = ticket.named(format!("{} ticket", props.place.name()));
    let points = part!(ticket, weigh_points);
    let loads = props.by_axles.as_ref().map_or(&[][..], |w| &w.loads_kg);
    let beside: Vec<Beside> = loads
        .iter()
        .map(|kg| Beside {
            figures: vec![figures::mass(props.units, *kg)],
            messages: Vec::new(),
        })
        .collect();
    html! {
        <>
            if weighed {
                <p class="hint">{ "Left blank, the weight is the sum of the axle groups below" }</p>
                <Form place={ticket} />
                <h4>{ "Axle groups or load cells" }</h4>
                <p class="hint">{ format!("The same carrier with the box and empty; cells under the box itself: 0 empty. Along from the {}, below zero before it; the middle of each group", props.ends[0]) }</p>
                <Table place={points} caption="Axle groups or load cells" follows={vec!["Box on it"]} {beside} />
            }
            <button type="button" {onclick}>{ if weighed { "Take the ticket out" } else { "Add a ticket" } }</button>
        </>
    }
}

#[derive(Properties, PartialEq)]
struct TotalsProps {
    house: HouseBox,
    result: BoxResult,
    band: Option<Envelope>,
    units: UnitSystem,
    assemblies: Vec<Assembly>,
}

/// What follows from the box as typed so far.
#[component]
fn Totals(props: &TotalsProps) -> Html {
    let (house, result, units) = (&props.house, &props.result, props.units);
    let length = |m: f64| figures::length(units, m);
    let cg = result.cg_m.map_or_else(
        || "not known yet".into(),
        |[x, y, z]| {
            format!(
                "{} from the {}, {} from the {}, {} up",
                length(x),
                end_words(house, 0),
                length(y),
                side_words(house),
                length(z)
            )
        },
    );
    let from_picks = result.cg_from_picks_m.map_or_else(
        || "not known yet".into(),
        |[along, across]| from_picks(house, along, across, units),
    );
    let planned = result.planned.map_or_else(
        || "no weight yet".into(),
        |p| format!("{}, {}", figures::mass(units, p.mass_kg), grade_words(p.grade)),
    );
    let mut rows = vec![
        ("Take-off", takeoff_words(result, units)),
        ("Ticket", ticket_words(house, result, units)),
        ("By axle groups", axle_words(house, result, units)),
        ("Weight to plan with", planned),
        ("CG", cg),
        ("CG from the middle of the picks", from_picks),
        (
            "Per floor area",
            result
                .floor_kg_per_m2
                .map_or_else(|| "—".into(), |v| figures::per_area(units, v)),
        ),
    ];
    rows.extend(props.band.map(|band| ("CG may be", band_words(house, &band, units))));
    html! {
        <section class="totals" aria-live="polite">
            <dl>{ for rows.into_iter().map(|(name, figure)| html! { <div><dt>{ name }</dt><dd>{ figure }</dd></div> }) }</dl>
            { heaviest(house, units, &props.assemblies) }
            { for result.findings.iter().filter(|f| !f.outcome.is_within() || !f.cautions.is_empty()).map(finding) }
        </section>
    }
}

/// Whether there is a place that the centre of gravity may be at besides its own: a band of less than 1 mm shows nothing.
fn is_wide(band: &Envelope) -> bool {
    (0..2).any(|axis| band.high_m[axis] - band.low_m[axis] > 0.001)
}

/// Where the centre of gravity may be: what a ticket finds beyond the take-off is anywhere in the box.
fn band_words(house: &HouseBox, band: &Envelope, units: UnitSystem) -> String {
    let range = |axis: usize| {
        let [low, high] = [band.low_m[axis], band.high_m[axis]].map(|m| figures::length(units, m));
        format!("{low} to {high}")
    };
    format!(
        "{} from the {}, {} from the {}",
        range(0),
        end_words(house, 0),
        range(1),
        side_words(house)
    )
}

fn grade_words(grade: WeightGrade) -> &'static str {
    match grade {
        WeightGrade::WeighedAfterLoading => "weighed after loading",
        WeightGrade::WeighedEarly => "weighed early or axle by axle",
        WeightGrade::TakeOff => "from the take-off",
        WeightGrade::PerArea => "estimated per floor area",
    }
}

/// The ticket beside the take-off.
fn ticket_words(house: &HouseBox, result: &BoxResult, units: UnitSystem) -> String {
    let Some(kg) = result.ticket_kg else {
        return "none".into();
    };
    let mut words = vec![figures::mass(units, kg)];
    if let Some(date) = house
        .ticket
        .as_ref()
        .map(|t| t.date.trim())
        .filter(|date| !date.is_empty())
    {
        words.push(format!("of {date}"));
    }
    if let Some(since) = result.since_kg {
        words.push(format!("and {} loaded since", figures::mass(units, since)));
    }
    if let Some(takeoff) = result.takeoff.total {
        let over = kg + result.since_kg.unwrap_or_default() - takeoff.mass_kg;
        let side = if over < 0.0 { "less than" } else { "more than" };
        words.push(format!("{} {side} the take-off", figures::mass(units, over.abs())));
    }
    words.join(", ")
}

fn axle_words(house: &HouseBox, result: &BoxResult, units: UnitSystem) -> String {
    let Some(weighing) = &result.by_axles else {
        return "none".into();
    };
    let mut words = vec![figures::mass(units, weighing.mass_kg)];
    if let Some(x) = weighing.x_m {
        words.push(format!(
            "CG {} from the {}",
            figures::length(units, x),
            end_words(house, 0)
        ));
    }
    if let Some(y) = weighing.y_m {
        words.push(format!("{} from the {}", figures::length(units, y), side_words(house)));
    }
    words.join(", ")
}

fn from_picks(house: &HouseBox, along_m: f64, across_m: f64, units: UnitSystem) -> String {
    let side = |side: usize| {
        if house.sides[side].is_empty() {
            ["first side", "second side"][side].to_owned()
        } else {
            house.sides[side].clone()
        }
    };
    format!(
        "{} towards the {}, {} towards the {}",
        figures::length(units, along_m.abs()),
        end_words(house, usize::from(along_m > 0.0)),
        figures::length(units, across_m.abs()),
        side(usize::from(across_m > 0.0)),
    )
}

/// The heaviest five, so that a wrong unit or a turned end is seen.
fn heaviest(house: &HouseBox, units: UnitSystem, assemblies: &[Assembly]) -> Html {
    let mut items: Vec<_> = house
        .components
        .iter()
        .filter_map(|c| Some((takeoff::item(c, assemblies).ok()?, c)))
        .collect();
    items.sort_by(|(a, _), (b, _)| b.mass_kg.total_cmp(&a.mass_kg));
    let words = |(item, c): &(takeoff::Item, &Component)| {
        html! { <li>{ format!("{} {}: {} at {} from the {}", c.id, c.name, figures::mass(units, item.mass_kg), figures::length(units, item.at_m[0]), end_words(house, 0)) }</li> }
    };
    if items.is_empty() {
        return html! {};
    }
    html! { <div class="heaviest"><p>{ "The heaviest" }</p><ol>{ for items.iter().take(5).map(words) }</ol></div> }
}

fn finding(finding: &Finding) -> Html {
    html! { <p class="finding">{ finding.sentence() }{ for finding.cautions.iter().map(|text| html! { <span class="caution">{ text }</span> }) }</p> }
}

#[derive(Properties, PartialEq)]
struct ViewsProps {
    house: HouseBox,
    cg: Option<[f64; 3]>,
    band: Option<Envelope>,
    row: Option<usize>,
    assemblies: Vec<Assembly>,
}

/// The places of the components, from above and from the side; the row in hand stands out.
#[component]
fn Views(props: &ViewsProps) -> Html {
    let size =
        [&props.house.length, &props.house.width, &props.house.height].map(|entry| entry.get().map(|l| l.to_m()));
    let [Some(length), Some(width), Some(height)] = size else {
        return html! { <p class="none">{ "Enter the size of the box to see where its components are" }</p> };
    };
    if !(length > 0.0 && width > 0.0 && height > 0.0) {
        return html! {};
    }
    html! {
        <div class="views">
            { view(props, &format!("From above: the {} at the bottom, the {} at the top", side(props, 0), side(props, 1)), 1, length, width) }
            { view(props, &format!("From the {}", side(props, 0)), 2, length, height) }
        </div>
    }
}

fn side(props: &ViewsProps, which: usize) -> &str {
    match props.house.sides[which].trim() {
        "" => ["first side", "second side"][which],
        words => words,
    }
}

/// The form of a component in a view: a line, or the corners of a face; `None` for a point and while a place is blank.
fn outline(shape: &Shape, axis: usize, up: impl Fn(f64) -> f64) -> Option<String> {
    let corners = match shape {
        Shape::Point { .. } => return None,
        Shape::Line { from, to } => vec![from.metres()?, to.metres()?],
        Shape::Panel { corner, along, up, .. } => {
            let (a, b, d) = (corner.metres()?, along.metres()?, up.metres()?);
            vec![a, b, core::array::from_fn(|i| b[i] + d[i] - a[i]), d]
        }
        Shape::Block { from, to } => {
            let (a, c) = (from.metres()?, to.metres()?);
            let corner = |x: f64, other: f64| {
                let mut place = a;
                (place[0], place[axis]) = (x, other);
                place
            };
            vec![a, corner(c[0], a[axis]), corner(c[0], c[axis]), corner(a[0], c[axis])]
        }
    };
    let points = corners.iter().map(|c| format!("{:.3} {:.3}", c[0], up(c[axis])));
    Some(format!("M{}z", points.collect::<Vec<_>>().join("L")))
}

/// Space round a view, m.
const ROUND: f64 = 0.8;

/// One view: x to the right, the other axis upwards.
fn view(props: &ViewsProps, name: &str, axis: usize, length: f64, depth: f64) -> Html {
    let frame = format!(
        "{:.2} {:.2} {:.2} {:.2}",
        -ROUND,
        -ROUND,
        length + 2.0 * ROUND,
        depth + 2.3 * ROUND
    );
    let up = |v: f64| depth - v;
    let heaviest = props
        .house
        .components
        .iter()
        .filter_map(|c| takeoff::item(c, &props.assemblies).ok())
        .map(|i| i.mass_kg.abs())
        .fold(1.0, f64::max);
    let mark = |(at, component): (usize, &Component)| {
        let item = takeoff::item(component, &props.assemblies).ok()?;
        // area of a mark goes with weight
        let radius = 0.08 + 0.5 * (item.mass_kg.abs() / heaviest).sqrt();
        let class = if props.row == Some(at) { "item in-hand" } else { "item" };
        Some(
            html! { <circle {class} cx={format!("{:.3}", item.at_m[0])} cy={format!("{:.3}", up(item.at_m[axis]))} r={format!("{radius:.3}")}><title>{ format!("{} {}", component.id, component.name) }</title></circle> },
        )
    };
    let pick = |pick: &Place3| {
        let at = pick.metres()?;
        let (x, y) = (at[0], up(at[axis]));
        Some(html! { <path class="pick" d={format!("M{:.3} {:.3}l.2 .35h-.4z", x, y)} /> })
    };
    let cg = props.cg.map(|cg| {
        let (x, y) = (cg[0], up(cg[axis]));
        html! { <g class="cg"><circle cx={format!("{x:.3}")} cy={format!("{y:.3}")} r=".3" /><path d={format!("M{x:.3} {y:.3}h.3a.3 .3 0 0 0 -.3 -.3zm0 0h-.3a.3 .3 0 0 0 .3 .3z")} /></g> }
    });
    let band = props.band.map(|Envelope { low_m, high_m }| {
        let size = |axis: usize| format!("{:.3}", high_m[axis] - low_m[axis]);
        html! { <rect class="band" x={format!("{:.3}", low_m[0])} y={format!("{:.3}", up(high_m[axis]))} width={size(0)} height={size(axis)}><title>{ "The centre of gravity may be anywhere in here" }</title></rect> }
    });
    let in_hand = props.row.and_then(|at| props.house.components.get(at));
    let form = in_hand.and_then(|row| outline(&row.shape, axis, up));
    let called = in_hand.and_then(|row| {
        let [x, _, _] = takeoff::item(row, &props.assemblies).ok()?.at_m;
        let anchor = if x > length / 2.0 { "end" } else { "start" };
        let words = format!("{} {}", row.id, row.name);
        Some(html! { <text class="called" x={format!("{x:.2}")} y="-.2" text-anchor={anchor}>{ words }</text> })
    });
    let words = |end: usize, x: f64, anchor: &'static str| html! { <text x={format!("{x:.2}")} y={format!("{:.2}", depth + 0.75)} text-anchor={anchor}>{ end_words(&props.house, end) }</text> };
    html! {
        <figure>
            <figcaption>{ name.to_owned() }</figcaption>
            <svg viewBox={frame} role="img" aria-label={format!("{name}: places of the components")}>
                <rect class="outline" x="0" y="0" width={format!("{length:.3}")} height={format!("{depth:.3}")} />
                if let Some(d) = form { <path class="form-in-hand" {d} /> }
                { for props.house.components.iter().enumerate().filter_map(mark) }
                { called.unwrap_or_default() }
                { for props.house.picks.iter().filter_map(pick) }
                { band.unwrap_or_default() }
                { cg.unwrap_or_default() }
                { words(0, 0.0, "start") }
                { words(1, length, "end") }
            </svg>
        </figure>
    }
}
