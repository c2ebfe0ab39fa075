//! A rig tried out beside the plan: one leg longer or shorter, a box that gives, two legs that are one running sling, side by side.

use super::LEVEL_M;
use crate::check::Amount;
use crate::drawing::{
    HungDrawing, Paper, Scene, Seen, as_it_hangs, factor_for, fine, slack_words, tension_words, touch_words,
};
use crate::evaluate::{Assessment, end_name, member_name, side_by_side, side_name, try_out};
use crate::plan::{HouseBox, Plan, example};
use crate::quantity::{
    Angle, Force, Length, Mass, Quantity as _, Readable as _, Rigidity, Safe, UnitSystem, feet_inches, number, show,
};
use crate::rigging::{Corner, Hung, MemberKind, Stretch, Tried, TryOut};
use crate::ui::drawing::{picture, use_paper};
use crate::ui::fields::{Choice, Options};
use crate::ui::route::Route;
use crate::ui::show::NONE;
use crate::ui::store::Shared;
use std::rc::Rc;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// How far the slider goes either way, mm: more than slings of one length differ by.
const MOST_MM: i32 = 50;
/// Stiffnesses against twist of the box that gives, kN·m². Ours, to show what twist does.
const GIVES_KN_M2: [f64; 3] = [1e5, 1e4, 0.0];
/// How the slings stretch: in words, at which end of their band, how much softer than that.
const SLINGS: [(&str, Stretch, f64); 4] = [
    ("as stiff as they may be", Stretch::Stiff, 1.0),
    ("as soft as they may be", Stretch::Soft, 1.0),
    ("ten times softer, as webs are", Stretch::Soft, 10.0),
    ("without stretch", Stretch::None, 1.0),
];
/// What is tried, as chosen.
#[derive(Clone, Copy, PartialEq)]
struct Chosen {
    leg: usize,
    longer_mm: i32,
    slings: usize,
    gives: usize,
    /// Which of the ways beside each other is drawn.
    drawn: usize,
    seen: usize,
}

/// A way to hang it, to stand beside others.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// Every leg as long as entered.
    Equal,
    Stiff,
    Gives,
    /// The legs of this end are one sling over the hook.
    Equalised(usize),
}

/// The ways to compare for a leg: the last only on four legs.
fn ways(kinds: &[MemberKind], leg: usize) -> Vec<Way> {
    let four = kinds.len() == 4 && kinds.iter().all(|kind| matches!(kind, MemberKind::Leg(_)));
    let end = match kinds.get(leg) {
        Some(MemberKind::Leg(Corner { end, .. })) if four => Some(Way::Equalised(*end)),
        _ => None,
    };
    [Way::Equal, Way::Stiff, Way::Gives].into_iter().chain(end).collect()
}

impl Chosen {
    fn what(self, way: Way, gj_n_m2: f64) -> TryOut {
        let mut longer_m = vec![0.0; self.leg + 1];
        longer_m[self.leg] = f64::from(self.longer_mm) / 1000.0;
        let (_, stretch, softer) = SLINGS[self.slings];
        TryOut {
            longer_m: if way == Way::Equal { Vec::new() } else { longer_m },
            stretch,
            softer,
            gj_n_m2: if way == Way::Gives { gj_n_m2 } else { f64::INFINITY },
            equalised_end: match way {
                Way::Equalised(end) => Some(end),
                _ => None,
            },
            ..TryOut::nominal()
        }
    }
}

/// Which lift of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// The lift's index.
    pub lift: usize,
    /// The box on the rig.
    pub house: HouseBox,
    /// Its nominal hang.
    pub hung: Hung,
}

/// Shows what comes of it, at each step of the slider.
#[component]
pub fn TryOutPanel(props: &Props) -> Html {
    let chosen = use_state_eq(|| Chosen {
        leg: 0,
        longer_mm: example::starts_longer_mm(&props.plan),
        slings: 0,
        gives: 0,
        drawn: 1,
        seen: 0,
    });
    let place = use_node_ref();
    let paper = use_paper(&place, 1.1);
    let units = props.assessment.units;
    let kinds: Vec<MemberKind> = props.hung.members.iter().map(|member| member.kind).collect();
    let boxes = boxes_kn_m2(&props.house);
    let gj_n_m2 = boxes[chosen.gives.min(boxes.len() - 1)] * 1000.0;
    let ways = ways(&kinds, chosen.leg);
    let solve = |longer_mm: i32, way: Way| {
        let chosen = Chosen { longer_mm, ..*chosen };
        try_out(&props.plan, props.lift, &chosen.what(way, gj_n_m2))
    };
    let answers: Vec<(Way, Result<Tried, String>)> =
        ways.iter().map(|way| (*way, solve(chosen.longer_mm, *way))).collect();
    let drawn = chosen.drawn.min(ways.len() - 1);
    // one factor for all of the slider's way, so that the picture grows with the length
    let factor = {
        let still = Chosen {
            longer_mm: 0,
            ..*chosen
        };
        let key = (props.plan.clone(), props.lift, still);
        *use_memo(key, |_| {
            let found =
                [-MOST_MM, MOST_MM, 0].map(|mm| solve(mm, ways[drawn]).map_or(0.0, |tried| tried.steepest_rad()));
            factor_for(found.into_iter().fold(0.0, f64::max))
        })
    };
    let seen = [Seen::Isometric, Seen::Side, Seen::End(0), Seen::End(1)][chosen.seen];
    let title = {
        let lift = &props.assessment.lifts[props.lift];
        format!(
            "lift {} {}, tried out: {}",
            lift.number,
            lift.title,
            way_words(ways[drawn], &props.house)
        )
    };
    html! {
        <section class="try-out" aria-labelledby="try-out-title">
            <h2 id="try-out-title">{ "Try out: what if a leg is long" }</h2>
            <p class="note">{ "Trying out, not in the plan: the plan, its sheets and its figures stay as they are. The tensions below are what each hang gives, to the nearest figure, not what to choose gear by." }</p>
            { controls(&chosen, &kinds, &boxes, &ways, props, units) }
            <div class="try-out-seen">
                { side_table(&answers, &kinds, drawn, &props.house, units) }
                <div ref={place} class="drawing">{ match &answers[drawn].1 {
                    Ok(tried) => picture(&scene(&title, props, tried, factor, seen, paper)),
                    Err(why) => html! { <p class="note">{ format!("It does not hang so: {why}") }</p> },
                } }</div>
            </div>
            { in_words(&props.house, answers[drawn].1.as_ref().ok()) }
            if ways.len() == 4 { { fixed_or_equalised(props) } }
        </section>
    }
}

/// Stiffnesses of a box that gives, kN·m²: ours, and the one entered.
fn boxes_kn_m2(house: &HouseBox) -> Vec<f64> {
    let entered = house.gj.not_negative().map(|gj| gj.si() / 1000.0);
    GIVES_KN_M2.into_iter().chain(entered).collect()
}

fn scene(title: &str, props: &Props, tried: &Tried, factor: f64, seen: Seen, paper: Paper) -> Scene {
    let drawing = HungDrawing {
        title,
        house: &props.house,
        tried,
        factor,
        units: props.assessment.units,
    };
    as_it_hangs(&drawing, seen, paper)
}

fn way_words(way: Way, house: &HouseBox) -> String {
    match way {
        Way::Equal => "lengths as entered".into(),
        Way::Stiff => "stiff box".into(),
        Way::Gives => "box that gives".into(),
        Way::Equalised(end) => format!("legs of the {} as one sling", end_name(house, end)),
    }
}

fn box_words(index: usize, kn_m2: f64, units: UnitSystem) -> String {
    let gj = show(Rigidity::kn_m2(kn_m2), Rigidity::usual(units), 0, Safe::Nearest);
    match index {
        _ if index >= GIVES_KN_M2.len() => format!("GJ {gj}, as entered"),
        _ if kn_m2 > 0.0 => format!("GJ {gj}"),
        _ => "twists freely".into(),
    }
}

fn controls(
    chosen: &UseStateHandle<Chosen>,
    kinds: &[MemberKind],
    boxes: &[f64],
    ways: &[Way],
    props: &Props,
    units: UnitSystem,
) -> Html {
    let now = **chosen;
    let house = &props.house;
    let select = |id: &'static str,
                  label: &'static str,
                  names: Vec<String>,
                  at: usize,
                  change: fn(Chosen, usize) -> Chosen| {
        let setter = chosen.setter();
        let onchoose = Callback::from(move |key: String| {
            if let Ok(index) = key.parse() {
                setter.set(change(now, index));
            }
        });
        let keyed = names
            .into_iter()
            .enumerate()
            .map(|(i, name)| (AttrValue::from(i.to_string()), name.into()));
        let options: Options = Rc::new(keyed.collect());
        html! { <div><label for={id}>{ label }</label><Choice {id} {options} chosen={at.to_string()} {onchoose} /></div> }
    };
    let slide = {
        let setter = chosen.setter();
        Callback::from(move |event: InputEvent| {
            let text = event.target_unchecked_into::<HtmlInputElement>().value();
            if let Ok(longer_mm) = text.parse::<i32>() {
                setter.set(Chosen { longer_mm, ..now });
            }
        })
    };
    let reset = {
        let setter = chosen.setter();
        Callback::from(move |_: MouseEvent| setter.set(Chosen { longer_mm: 0, ..now }))
    };
    let legs = kinds.iter().map(|kind| member_name(house, *kind)).collect();
    let slings = SLINGS.map(|(words, ..)| words.into()).to_vec();
    let gives = boxes
        .iter()
        .enumerate()
        .map(|(i, gj)| box_words(i, *gj, units))
        .collect();
    let drawn = ways.iter().map(|way| way_words(*way, house)).collect();
    let seen = ["isometric".into(), format!("{} in front", side_name(house, 0))]
        .into_iter()
        .chain([0, 1].map(|end| format!("at the {}", end_name(house, end))))
        .collect();
    html! {
        <div class="try-out-fields">
            { select("try-leg", "Leg", legs, now.leg, |now, leg| Chosen { leg, ..now }) }
            { select("try-slings", "Slings", slings, now.slings, |now, slings| Chosen { slings, ..now }) }
            { select("try-box", "Box that gives", gives, now.gives, |now, gives| Chosen { gives, ..now }) }
            { select("try-drawn", "Drawn", drawn, now.drawn.min(ways.len() - 1), |now, drawn| Chosen { drawn, ..now }) }
            { select("try-seen", "Seen", seen, now.seen, |now, seen| Chosen { seen, ..now }) }
            <div class="slide">
                <label for="try-longer">{ "Longer than nominal" }</label>
                <input id="try-longer" type="range" min={(-MOST_MM).to_string()} max={MOST_MM.to_string()} step="1"
                    value={now.longer_mm.to_string()} aria-valuetext={longer_words(now.longer_mm, units)} oninput={slide} />
                <output for="try-longer">{ longer_words(now.longer_mm, units) }</output>
                <button type="button" onclick={reset} disabled={now.longer_mm == 0}>{ "Back to nominal" }</button>
            </div>
        </div>
    }
}

/// "30 mm longer", "1 3/16 in (30 mm) shorter", "as nominal".
fn longer_words(mm: i32, units: UnitSystem) -> String {
    let size = match units {
        UnitSystem::Metric => format!("{} mm", mm.abs()),
        UnitSystem::Us => format!("{} ({} mm)", feet_inches(Length::mm(f64::from(mm.abs()))), mm.abs()),
    };
    match mm {
        0 => "as nominal".into(),
        1.. => format!("{size} longer"),
        _ => format!("{size} shorter"),
    }
}

/// What a leg carries, and how many times what it carries with all lengths as entered.
fn carried(tried: &Tried, leg: usize, equal: Option<&Tried>, units: UnitSystem) -> Html {
    let of = |tried: &Tried| tried.legs.get(leg).map(|leg| leg.tension_n).filter(|n| *n > 0.0);
    let times = of(tried)
        .zip(equal.and_then(of))
        .map(|(n, equal_n)| format!("× {}", number(n / equal_n, 2, Safe::Nearest)));
    // tags are in tonnes, where the leg is in kilonewtons
    let mass = of(tried)
        .filter(|_| units == UnitSystem::Metric)
        .map(|n| Amount::Mass(Force::n(n).as_mass()).show(units, Safe::Nearest));
    let below: Vec<String> = times.into_iter().chain(mass).collect();
    html! { <>{ tension_words(tried, leg, units) }<span class="why">{ below.join(", ") }</span></> }
}

/// The legs, one row each, in each way to hang it.
fn side_table(
    answers: &[(Way, Result<Tried, String>)],
    kinds: &[MemberKind],
    drawn: usize,
    house: &HouseBox,
    units: UnitSystem,
) -> Html {
    let equal = answers[0].1.as_ref().ok();
    let heads: Vec<String> = answers.iter().map(|(way, _)| way_words(*way, house)).collect();
    let row = |name: String, cell: &dyn Fn(&Tried, Way) -> Html| {
        let cells = answers.iter().zip(&heads).enumerate().map(|(i, ((way, tried), head))| {
            let inside = tried.as_ref().map_or_else(|_| html! { { NONE } }, |tried| cell(tried, *way));
            html! { <td class={classes!("figure", (i == drawn).then_some("drawn"))} data-label={head.clone()}><span>{ inside }</span></td> }
        });
        html! { <tr><th scope="row">{ name }</th>{ for cells }</tr> }
    };
    let leg = |(i, kind): (usize, &MemberKind)| {
        let cell = |tried: &Tried, way: Way| carried(tried, i, equal.filter(|_| way != Way::Equal), units);
        row(member_name(house, *kind), &cell)
    };
    let tilt = |rad: f64, low: fn(&HouseBox, usize) -> &str| {
        let angle = Amount::Angle(Angle::rad(rad.abs())).show(units, Safe::Up);
        let low = (rad.abs() > 1e-5).then(|| format!("{} low", low(house, usize::from(rad > 0.0))));
        html! { <>{ angle }<span class="why">{ low.unwrap_or_default() }</span></> }
    };
    let twist = |tried: &Tried| match tried.racking_m {
        m if m > LEVEL_M => fine(m, units),
        _ => NONE.into(),
    };
    let refused = answers.iter().zip(&heads).filter_map(|((_, tried), head)| {
        let why = tried.as_ref().err()?;
        Some(html! { <p class="note">{ format!("{head}: it does not hang so: {why}") }</p> })
    });
    html! {
        <div>
            <table class="legs side-by-side">
                <caption>{ "What each leg carries, side by side; × what it carries with all lengths as entered" }</caption>
                <thead><tr><th scope="col">{ "Leg" }</th>{ for heads.iter().map(|head| html! { <th scope="col" class="figure">{ head }</th> }) }</tr></thead>
                <tbody>
                    { for kinds.iter().enumerate().map(leg) }
                    { row("Out of level along".into(), &|tried, _| tilt(tried.along_rad, end_name)) }
                    { row("Out of level across".into(), &|tried, _| tilt(tried.across_rad, side_name)) }
                    { row("Twist: one pick out of the plane of the others".into(), &|tried, _| html! { { twist(tried) } }) }
                </tbody>
            </table>
            { for refused }
        </div>
    }
}

fn in_words(house: &HouseBox, tried: Option<&Tried>) -> Html {
    let lines = tried.map(|tried| [slack_words(house, tried), touch_words(house, tried)]);
    let lines = lines.into_iter().flatten().flatten();
    html! { <div role="status"><ul class="hang">{ for lines.map(|line| html! { <li>{ line }</li> }) }</ul></div> }
}

/// What four fixed legs are planned with, beside the same legs equalised.
fn fixed_or_equalised(props: &Props) -> Html {
    let units = props.assessment.units;
    let both = match side_by_side(&props.plan, props.lift) {
        Ok(both) => both,
        Err(why) => return html! { <p class="note">{ why }</p> },
    };
    let running = format!("Legs of the {} as one sling", end_name(&props.house, both.end));
    let mass = |mass: Mass| Amount::Mass(mass).show(units, Safe::Up);
    let row = |leg: usize| {
        html! {
            <tr>
                <th scope="row">{ &both.names[leg] }</th>
                <td class="figure" data-label="Four fixed legs">{ mass(both.fixed[leg]) }</td>
                <td class="figure" data-label={running.clone()}>{ mass(both.equalised[leg]) }</td>
            </tr>
        }
    };
    let tilts = both
        .tilts
        .map(|tilt| Amount::Angle(Angle::rad(tilt.to_rad().abs())).show(units, Safe::Up));
    html! {
        <>
            <table class="legs">
                <caption>{ "Four fixed legs beside the same rig with one end equalised: what each leg is planned with" }</caption>
                <thead><tr><th scope="col">{ "Leg" }</th><th scope="col" class="figure">{ "Four fixed legs" }</th><th scope="col" class="figure">{ running.clone() }</th></tr></thead>
                <tbody>{ for (0..4).map(row) }</tbody>
            </table>
            <p class="note">
                { &both.words }{ format!("; it then hangs out of level along by {}, across by {}. ", tilts[0], tilts[1]) }
                <a href={Route::Plans.address()}>{ "An invented example, four legs and one long, is under Plans" }</a>
            </p>
        </>
    }
}
