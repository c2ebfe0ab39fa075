//! How loads hang: slings out of the gear, with what comes of it beside each leg.

use super::{chooser, places, use_assessment, use_plan};
use crate::check::Amount;
use crate::evaluate::{Assessment, LiftResult, RigResult, leg_finding};
use crate::plan::{Arrangement, HouseBox, HungPiece, Id, Leg, Load, Plan, Rig};
use crate::quantity::{Angle, Force, Length, Ratio, Safe, Unit, UnitSystem, show};
use crate::rigging::{Corner, Level, MemberKind};
use crate::ui::Dispatch;
use crate::ui::fields::Typing;
use crate::ui::tables::{AnyField, AnyThing, Beside, Form, Head, Place, Table, part, part_of_plan};
use yew::prelude::*;

/// Every name of gear in a rig.
pub(super) fn gear_names(rig: &mut Rig) -> Vec<&mut Id> {
    let mut names: Vec<&mut Id> = rig.pieces.iter_mut().map(|piece| &mut piece.gear).collect();
    names.push(&mut rig.link);
    match &mut rig.arrangement {
        Arrangement::FourLegs { legs } => names.extend(legs.iter_mut().flat_map(names_of)),
        Arrangement::BarAndCrossBars {
            bar,
            top,
            cross_bar,
            bridles,
            straps,
            ..
        } => {
            names.extend([bar, cross_bar]);
            names.extend(
                top.iter_mut()
                    .chain(bridles.iter_mut().flatten())
                    .chain(straps.iter_mut().flatten())
                    .flat_map(names_of),
            );
        }
        Arrangement::PieceByPiece { hung, legs } => {
            names.extend(hung.iter_mut().map(|piece| &mut piece.gear));
            names.extend(legs.iter_mut().flat_map(names_of));
        }
        Arrangement::Simple { .. } => {}
    }
    names
}

fn names_of(leg: &mut Leg) -> [&mut Id; 6] {
    [
        &mut leg.sling,
        &mut leg.shortener,
        &mut leg.shackle,
        &mut leg.adjuster,
        &mut leg.above,
        &mut leg.below,
    ]
}

/// All rigs, and one of them in full.
#[component]
pub(super) fn Rigs() -> Html {
    let (plan, assessment) = (use_plan(), use_assessment());
    let chosen = use_state_eq(|| 0_usize);
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let one = plan.rigs.get(*chosen).map(|rig| {
        let place = places::rig(&plan, *chosen);
        let hangs = hangs(&plan, &assessment, rig);
        html! {
            <article>
                <h2>{ format!("Rig {} {}", rig.id, rig.name) }</h2>
                <Form place={place.clone()} />
                { hangs.as_ref().map_or_else(Html::default, |hangs| result(hangs, plan.project.units)) }
                { legs(&plan, &place, rig, hangs.as_ref()) }
                if matches!(rig.arrangement, Arrangement::PieceByPiece { .. }) {
                    <Pieces key={*chosen} index={*chosen} figures={listed_figures(rig, hangs.as_ref(), plan.project.units)} />
                }
                <h3>{ "All that hangs on the hook with it" }</h3>
                <Table place={part!(place, pieces)} caption="Pieces" />
            </article>
        }
    });
    html! {
        <>
            <h2>{ "Rigs" }</h2>
            <Table place={part_of_plan!(rigs)} caption="Rigs" only={&["Rig", "Name", "Slings run as"][..]} onrow={onchoose.clone()} />
            { chooser(&plan.rigs, *chosen, |rig| rig.id.to_string(), &onchoose) }
            { one.unwrap_or_default() }
        </>
    }
}

/// A rig under the load of the first lift that uses it.
struct Hangs<'a> {
    lift: &'a LiftResult,
    house: Option<&'a HouseBox>,
}

fn hangs<'a>(plan: &'a Plan, assessment: &'a Assessment, rig: &Rig) -> Option<Hangs<'a>> {
    let (lift, result) = plan
        .lifts
        .iter()
        .zip(&assessment.lifts)
        .find(|(lift, _)| lift.rig == rig.id)?;
    let house = match &lift.load {
        Load::Box { id } => plan.house_box(id),
        _ => None,
    };
    Some(Hangs { lift: result, house })
}

/// Tilt both ways, and what hinders.
fn result(hangs: &Hangs<'_>, units: UnitSystem) -> Html {
    let rig: &RigResult = &hangs.lift.rig;
    let title = format!("As lift {} hangs, {}", hangs.lift.number, hangs.lift.title);
    let level = |name: &'static str, level: Level, names: Option<&[String; 2]>| {
        let low = names.map_or_else(String::new, |names| {
            format!(", {} low", names[usize::from(level.tilt_rad > 0.0)])
        });
        let tilt = show(Angle::rad(level.tilt_rad.abs()), Unit::Deg, 2, Safe::Up);
        let rise = Amount::Length(Length::m(level.rise_m.abs())).show(units, Safe::Up);
        html! { <div><dt>{ name }</dt><dd>{ format!("{tilt} from the horizontal, {rise} out of level{low}") }</dd></div> }
    };
    let hung = rig.hung.as_ref().map(|hung| {
        html! { <dl>{ level("Tilt along", hung.along, hangs.house.map(|h| &h.ends)) }{ level("Roll across", hung.across, hangs.house.map(|h| &h.sides)) }</dl> }
    });
    html! {
        <section class="totals" aria-live="polite">
            <p>{ title }</p>
            { hung.unwrap_or_default() }
            { for rig.stretched.iter().map(|stretched| html! { <p>{ stretched.words.clone() }</p> }) }
            { for rig.why_not.iter().map(|why| html! { <p class="finding">{ format!("cannot be checked: {why}") }</p> }) }
        </section>
    }
}

/// The legs of an arrangement in their order.
fn kinds(arrangement: &Arrangement) -> Vec<MemberKind> {
    let corners = || (0..2).flat_map(|end| (0..2).map(move |side| Corner { end, side }));
    match arrangement {
        Arrangement::FourLegs { .. } => corners().map(MemberKind::Leg).collect(),
        Arrangement::BarAndCrossBars { .. } => {
            let top = (0..2).map(|end| MemberKind::Top { end });
            top.chain(corners().map(MemberKind::Bridle))
                .chain(corners().map(MemberKind::Strap))
                .collect()
        }
        // a list of its own
        Arrangement::PieceByPiece { .. } | Arrangement::Simple { .. } => Vec::new(),
    }
}

/// Heads of the figures that follow from a leg.
const FIGURES: [&str; 4] = ["Length", "Angle", "Tension", "Use"];

/// What comes of each leg of a rig that is entered piece by piece.
fn listed_figures(rig: &Rig, hangs: Option<&Hangs<'_>>, units: UnitSystem) -> Vec<Beside> {
    let Arrangement::PieceByPiece { legs, .. } = &rig.arrangement else {
        return Vec::new();
    };
    let figures = |index: usize| {
        let kind = MemberKind::Line(index);
        let none = || ["—"; 4].map(String::from);
        Beside {
            figures: hangs
                .map_or_else(none, |hangs| {
                    leg_figures(hangs.lift, kind, &leg_words(kind, None), units)
                })
                .to_vec(),
            messages: Vec::new(),
        }
    };
    (0..legs.len()).map(figures).collect()
}

#[derive(Properties, PartialEq)]
struct PiecesProps {
    index: usize,
    figures: Vec<Beside>,
}

/// The pieces between hook and box, the lugs of the piece in hand, and every leg with where it runs.
#[component]
fn Pieces(props: &PiecesProps) -> Html {
    let plan = use_plan();
    let row = use_state_eq(|| 0_usize);
    let onrow = {
        let row = row.setter();
        use_callback((), move |at, ()| row.set(at))
    };
    let Some(Arrangement::PieceByPiece { hung, .. }) = plan.rigs.get(props.index).map(|rig| &rig.arrangement) else {
        return html! {};
    };
    let rig = places::rig(&plan, props.index);
    let pieces: Place<Vec<HungPiece>> = rig.part_if(
        "hung",
        |rig| match &rig.arrangement {
            Arrangement::PieceByPiece { hung, .. } => Some(hung),
            _ => None,
        },
        |rig| match &mut rig.arrangement {
            Arrangement::PieceByPiece { hung, .. } => Some(hung),
            _ => None,
        },
    );
    let legs: Place<Vec<Leg>> = rig.part_if(
        "legs",
        |rig| match &rig.arrangement {
            Arrangement::PieceByPiece { legs, .. } => Some(legs),
            _ => None,
        },
        |rig| match &mut rig.arrangement {
            Arrangement::PieceByPiece { legs, .. } => Some(legs),
            _ => None,
        },
    );
    let lugs = hung.get(*row).map(|piece| {
        let place = pieces.item(*row);
        let lugs = part!(place, lugs).named(format!("{}, piece {}, lugs", rig.name(), piece.id));
        html! { <><h3>{ format!("Lugs of piece {}", piece.id) }</h3><Table place={lugs} caption="Lugs" /></> }
    });
    html! {
        <>
            <h3>{ "Bars, frames, beams and blocks" }</h3>
            <p class="hint">{ "Lugs as the piece hangs level, from any one origin: x along the box, y across it, z up. A block has none. CG blank: the middle of the lugs" }</p>
            <Table place={pieces.named(rig.name())} caption="Hung pieces" {onrow} />
            { lugs.unwrap_or_default() }
            <h3>{ "Legs" }</h3>
            <p class="hint">{ "Runs: hook > K1.2, K1.2 > pick 3, pick 1 > B1 > pick 2, hook > eave 1 > pick 1: a piece with its lug, a pick by its place in the box's list, an edge of the box by its name. Angles are from the horizontal" }</p>
            <Table place={legs.named(rig.name())} caption="Legs" follows={FIGURES.to_vec()} beside={props.figures.clone()} />
        </>
    }
}

fn leg(arrangement: &Arrangement, kind: MemberKind) -> Option<&Leg> {
    match (arrangement, kind) {
        (Arrangement::FourLegs { legs }, MemberKind::Leg(c)) => legs.get(2 * c.end + c.side),
        (Arrangement::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => top.get(end),
        (Arrangement::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => bridles.get(c.end)?.get(c.side),
        (Arrangement::BarAndCrossBars { straps, .. }, MemberKind::Strap(c)) => straps.get(c.end)?.get(c.side),
        _ => None,
    }
}

fn leg_mut(arrangement: &mut Arrangement, kind: MemberKind) -> Option<&mut Leg> {
    match (arrangement, kind) {
        (Arrangement::FourLegs { legs }, MemberKind::Leg(c)) => legs.get_mut(2 * c.end + c.side),
        (Arrangement::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => top.get_mut(end),
        (Arrangement::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => {
            bridles.get_mut(c.end)?.get_mut(c.side)
        }
        (Arrangement::BarAndCrossBars { straps, .. }, MemberKind::Strap(c)) => straps.get_mut(c.end)?.get_mut(c.side),
        _ => None,
    }
}

/// "top leg, west end" and the like.
fn leg_words(kind: MemberKind, house: Option<&HouseBox>) -> String {
    let word = |of: fn(&HouseBox) -> &[String; 2], at: usize, plain: [&str; 2]| {
        let own = house.map(|house| of(house)[at].clone()).filter(|own| !own.is_empty());
        own.unwrap_or_else(|| plain[at].to_owned())
    };
    let end = |at| word(|h| &h.ends, at, ["first end", "second end"]);
    let corner = |c: Corner| {
        format!(
            "{} / {}",
            end(c.end),
            word(|h| &h.sides, c.side, ["first side", "second side"])
        )
    };
    match kind {
        MemberKind::Leg(c) => format!("leg, {}", corner(c)),
        MemberKind::Top { end: at } => format!("top leg, {}", end(at)),
        MemberKind::Bridle(c) => format!("bridle leg, {}", corner(c)),
        MemberKind::Strap(c) => format!("strap, {}", corner(c)),
        MemberKind::Line(index) => format!("leg {}", index + 1),
    }
}

/// Columns of a leg whose place in the rig says where it runs.
const LEG_COLUMNS: [&str; 14] = [
    "Sling",
    "Links added",
    "Shortener",
    "Shackles added",
    "Shackle",
    "Adjuster",
    "Adjuster set to",
    "Joined above by",
    "Takes all legs there",
    "Joined below by",
    "Hitch",
    "Angle of choke, or of a basket's parts",
    "Bends over a diameter of",
    "Shackles pulled off their line by",
];

/// Each leg with its sling, what is added and what comes of it.
fn legs(plan: &Plan, place: &Place<Rig>, rig: &Rig, hangs: Option<&Hangs<'_>>) -> Html {
    let kinds = kinds(&rig.arrangement);
    if kinds.is_empty() {
        return html! {};
    }
    let row = |(at, kind): (usize, MemberKind)| {
        let words = leg_words(kind, hangs.and_then(|hangs| hangs.house));
        let figures = hangs.map_or_else(
            || ["—"; 4].map(String::from),
            |hangs| leg_figures(hangs.lift, kind, &words, plan.project.units),
        );
        let place = place
            .part_if(
                &format!("leg-{at}"),
                move |rig| leg(&rig.arrangement, kind),
                move |rig| leg_mut(&mut rig.arrangement, kind),
            )
            .named(format!("{}, {words}", place.name()));
        html! { <LegRow key={at} {place} {words} {figures} /> }
    };
    html! {
        <>
            <h3>{ "Legs" }</h3>
            <p class="hint">{ "Angles are from the horizontal. Tension of a stiff box's legs is the worst share, not a quarter each" }</p>
            <div class="scroll" tabindex="-1">
                <table>
                    <caption>{ "Legs" }</caption>
                    <thead><tr>{ for ["Leg"].into_iter().chain(LEG_COLUMNS).chain(FIGURES).map(|head| html! { <th scope="col">{ head }</th> }) }</tr></thead>
                    <tbody>{ for kinds.into_iter().enumerate().map(row) }</tbody>
                </table>
            </div>
        </>
    }
}

/// Length, angle from the horizontal, tension and use of a leg.
fn leg_figures(lift: &LiftResult, kind: MemberKind, words: &str, units: UnitSystem) -> [String; 4] {
    let none = || "—".to_owned();
    let Some(member) = lift
        .rig
        .hung
        .as_ref()
        .and_then(|hung| hung.members.iter().find(|member| member.kind == kind))
    else {
        return [none(), none(), none(), none()];
    };
    let gear = leg_finding(&lift.findings, words);
    let used = gear.map_or_else(none, |f| match f.ratio {
        Some(ratio) => format!(
            "{} {}",
            show(Ratio::of(ratio), Unit::Percent, 1, Safe::Up),
            f.outcome.word()
        ),
        None => f.outcome.word().to_owned(),
    });
    let tension = if member.slack {
        "slack".to_owned()
    } else {
        Amount::Mass(Force::n(member.tension_n).as_mass()).show(units, Safe::Up)
    };
    [
        Amount::Length(Length::m(member.length_m)).show(units, Safe::Nearest),
        show(Angle::rad(member.angle_rad), Unit::Deg, 1, Safe::Down),
        tension,
        used,
    ]
}

#[derive(Properties, PartialEq)]
struct LegRowProps {
    place: AnyThing,
    words: String,
    figures: [String; 4],
}

/// One leg.
#[component]
fn LegRow(props: &LegRowProps) -> Html {
    let plan = use_plan();
    let typing = use_context::<Typing>().unwrap_or_default();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let columns = props.place.columns();
    let Some(texts) = props.place.texts(&plan, typing) else {
        return html! {};
    };
    let field = |head: Head| {
        let column = head.column;
        let (place, dispatch) = (props.place.clone(), dispatch.clone());
        let oncommit = Callback::from(move |text: String| place.set(&dispatch, column, text, typing));
        let text = texts[column].clone().unwrap_or_default();
        let label: AttrValue = format!("{}, {}", props.words, head.text).into();
        html! { <td class={head.class()}><AnyField id={format!("{}-{column}", props.place.place().0)} {label} widget={head.widget} {text} {oncommit} /></td> }
    };
    html! {
        <tr>
            <th scope="row">{ props.words.clone() }</th>
            { for Head::all(&columns, &plan, typing).into_iter().filter(|head| LEG_COLUMNS.contains(&head.text)).map(field) }
            { for props.figures.iter().map(|figure| html! { <td class="follows">{ figure }</td> }) }
        </tr>
    }
}
