//! A rig tried out beside the plan: one leg longer or shorter, a box or slings that give, two legs that are one running sling.

use crate::drawing::{HungDrawing, Scene, Seen, as_it_hangs, factor_for, slack_words, tension_words, touch_words};
use crate::evaluate::{Assessment, member_name, try_out};
use crate::plan::{HouseBox, Plan};
use crate::quantity::{Length, Safe, UnitSystem};
use crate::rigging::{Hung, MemberKind, Stretch, Tried, TryOut};
use crate::ui::drawing::{picture, use_paper};
use crate::ui::fields::{Choice, Options};
use crate::ui::show;
use crate::ui::store::Shared;
use std::rc::Rc;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// How far the slider goes either way, mm: more than slings of one length differ by.
const MOST_MM: i32 = 50;
/// Stiffnesses of the box against twist that can be tried, kN·m²: rigid, a box that gives, a soft one. Ours, to show what twist does.
const BOXES_KN_M2: [(&str, &str, f64); 3] = [
    ("rigid", "a rigid box", f64::INFINITY),
    ("gives", "a box that gives: GJ 100,000 kN·m²", 1e5),
    ("soft", "a soft box: GJ 10,000 kN·m²", 1e4),
];
/// How the slings stretch.
const SLINGS: [(&str, &str, Stretch); 3] = [
    ("stiff", "slings as stiff as they may be", Stretch::Stiff),
    ("soft", "slings as soft as they may be", Stretch::Soft),
    ("none", "slings that do not stretch", Stretch::None),
];

/// What is tried, as chosen.
#[derive(Clone, Copy, PartialEq)]
struct Chosen {
    leg: usize,
    longer_mm: i32,
    the_box: usize,
    slings: usize,
    equalised: Option<usize>,
}

impl Chosen {
    fn what(self, legs: usize) -> TryOut {
        let mut longer_m = vec![0.0; legs];
        if let Some(of_leg) = longer_m.get_mut(self.leg) {
            *of_leg = f64::from(self.longer_mm) / 1000.0;
        }
        TryOut {
            longer_m,
            stretch: SLINGS[self.slings].2,
            gj_n_m2: BOXES_KN_M2[self.the_box].2 * 1000.0,
            equalised_end: self.equalised,
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
        longer_mm: 0,
        the_box: 0,
        slings: 0,
        equalised: None,
    });
    let place = use_node_ref();
    let paper = use_paper(&place, 0.9);
    let kinds: Vec<MemberKind> = props.hung.members.iter().map(|member| member.kind).collect();
    let units = props.assessment.units;
    let answer = try_out(&props.plan, props.lift, &chosen.what(kinds.len()));
    let title = {
        let lift = &props.assessment.lifts[props.lift];
        format!("lift {} {}, tried out", lift.number, lift.title)
    };
    html! {
        <section class="try-out" aria-labelledby="try-out-title">
            <h2 id="try-out-title">{ "Try out: what if a leg is long" }</h2>
            <p class="note">{ "Tried out here only: the plan, its sheets and its figures stay as they are. The tensions below are what this one hang gives, not what to choose gear by." }</p>
            { controls(&chosen, &kinds, props, units) }
            { match &answer {
                Ok(tried) => html! {
                    <>
                        { in_words(&props.house, tried) }
                        <div class="try-out-seen">
                            { legs(&props.house, tried, units) }
                            <div ref={place} class="drawing">{ picture(&scene(&title, props, tried, paper)) }</div>
                        </div>
                    </>
                },
                Err(why) => html! { <><p class="note" role="status">{ format!("It does not hang so: {why}") }</p><div ref={place}></div></> },
            } }
        </section>
    }
}

fn scene(title: &str, props: &Props, tried: &Tried, paper: crate::drawing::Paper) -> Scene {
    let drawing = HungDrawing {
        title,
        house: &props.house,
        tried,
        factor: factor_for(tried.steepest_rad()),
        units: props.assessment.units,
    };
    as_it_hangs(&drawing, Seen::Isometric, paper)
}

fn controls(chosen: &UseStateHandle<Chosen>, kinds: &[MemberKind], props: &Props, units: UnitSystem) -> Html {
    let now = **chosen;
    let select = |id: &'static str,
                  label: &'static str,
                  options: Vec<(AttrValue, AttrValue)>,
                  at: AttrValue,
                  change: fn(Chosen, usize) -> Chosen| {
        let setter = chosen.setter();
        let keys: Vec<AttrValue> = options.iter().map(|(key, _)| key.clone()).collect();
        let onchoose = Callback::from(move |key: String| {
            if let Some(index) = keys.iter().position(|known| *known == *key) {
                setter.set(change(now, index));
            }
        });
        let options: Options = Rc::new(options);
        html! { <div><label for={id}>{ label }</label><Choice {id} {options} chosen={at} {onchoose} /></div> }
    };
    let key = |index: usize| AttrValue::from(index.to_string());
    let legs: Vec<_> = kinds
        .iter()
        .enumerate()
        .map(|(index, kind)| (key(index), member_name(&props.house, *kind).into()))
        .collect();
    let named = |list: [(&'static str, &'static str); 3]| list.map(|(key, words)| (key.into(), words.into())).to_vec();
    let is_four = kinds.len() == 4 && kinds.iter().all(|kind| matches!(kind, MemberKind::Leg(_)));
    let ends = || {
        let end = |end: usize| {
            format!(
                "the two legs at the {} run over the hook as one sling",
                props.house.ends[end]
            )
        };
        vec![
            ("fixed".into(), "four fixed legs".into()),
            ("0".into(), end(0).into()),
            ("1".into(), end(1).into()),
        ]
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
    html! {
        <div class="try-out-fields">
            { select("try-leg", "Leg", legs, key(now.leg), |now, leg| Chosen { leg, ..now }) }
            <div class="slide">
                <label for="try-longer">{ "Longer than nominal" }</label>
                <input id="try-longer" type="range" min={(-MOST_MM).to_string()} max={MOST_MM.to_string()} step="1"
                    value={now.longer_mm.to_string()} aria-valuetext={longer_words(now.longer_mm, units)} oninput={slide} />
                <output for="try-longer">{ longer_words(now.longer_mm, units) }</output>
                <button type="button" onclick={reset} disabled={now.longer_mm == 0}>{ "Back to nominal" }</button>
            </div>
            { select("try-slings", "Slings", named(SLINGS.map(|(key, words, _)| (key, words))), SLINGS[now.slings].0.into(), |now, slings| Chosen { slings, ..now }) }
            { select("try-box", "Box", named(BOXES_KN_M2.map(|(key, words, _)| (key, words))), BOXES_KN_M2[now.the_box].0.into(), |now, the_box| Chosen { the_box, ..now }) }
            if is_four {
                { select("try-equalised", "Legs", ends(), now.equalised.map_or("fixed".into(), key), |now, index| Chosen { equalised: index.checked_sub(1), ..now }) }
            }
        </div>
    }
}

/// "30 mm longer", "1 3/16 in shorter", "as nominal".
fn longer_words(mm: i32, units: UnitSystem) -> String {
    let size = match units {
        UnitSystem::Metric => format!("{} mm", mm.abs()),
        UnitSystem::Us => crate::quantity::feet_inches(Length::mm(f64::from(mm.abs()))),
    };
    match mm {
        0 => "as nominal".into(),
        1.. => format!("{size} longer"),
        _ => format!("{size} shorter"),
    }
}

fn in_words(house: &HouseBox, tried: &Tried) -> Html {
    let lines = [slack_words(house, tried), touch_words(house, tried)];
    html! { <div role="status"><ul class="hang">{ for lines.into_iter().flatten().map(|line| html! { <li>{ line }</li> }) }</ul></div> }
}

fn legs(house: &HouseBox, tried: &Tried, units: UnitSystem) -> Html {
    let most_n = tried.legs.iter().map(|leg| leg.tension_n).fold(0.0, f64::max);
    let mean_n = tried.legs.iter().map(|leg| leg.tension_n).sum::<f64>() / tried.legs.len().max(1) as f64;
    let row = |(index, leg): (usize, &crate::rigging::TriedLeg)| {
        let share = crate::quantity::number(leg.tension_n / mean_n, 2, Safe::Nearest);
        html! {
            <tr class={(leg.tension_n >= most_n).then_some("most")}>
                <th scope="row">{ member_name(house, leg.kind) }</th>
                <td class="figure" data-label="Carries">{ tension_words(tried, index, units) }</td>
                <td class="figure" data-label="Of the mean">{ if mean_n > 0.0 { share } else { show::NONE.into() } }</td>
            </tr>
        }
    };
    html! {
        <table class="legs">
            <caption>{ "What each leg carries so" }</caption>
            <thead><tr><th scope="col">{ "Leg" }</th><th scope="col" class="figure">{ "Carries" }</th><th scope="col" class="figure">{ "Of the mean" }</th></tr></thead>
            <tbody>{ for tried.legs.iter().enumerate().map(row) }</tbody>
        </table>
    }
}
