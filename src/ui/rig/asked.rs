//! What is worked out when the rigger asks for it: the worst case, set-ups that hang level, what a trial lift says. Off the typing path, and gone when
//! the plan changes.

use super::tape;
use crate::check::Amount;
use crate::evaluate::{LevelAnswer, LevelSetUp, TrialReading, WorstHang, WorstHangSearch, level_set_ups, trial_lift};
use crate::plan::{HouseBox, Id, Plan};
use crate::quantity::{Angle, DecimalMark, Force, Length, Mass, Reading, Safe, Unit, UnitSystem, number, read};
use crate::ui::browser;
use crate::ui::fields::{Choice, NumberField, Options, Typing};
use crate::ui::show;
use crate::ui::store::{Action, Dispatch, Shared};
use std::cell::Cell;
use std::rc::Rc;
use yew::prelude::*;

/// Which lift of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// The lift's index.
    pub lift: usize,
    /// Its rig.
    pub rig: Id,
    /// The box on the rig.
    pub house: HouseBox,
    /// The reader's units.
    pub units: UnitSystem,
    /// The load indicator's reading at which to stop.
    pub stop: AttrValue,
}

type Answer<T> = Option<Rc<Result<T, String>>>;

/// The search for the worst case stands back for the page after so long, ms: a third of what an eye sees as a stop.
const SLICE_MS: f64 = 12.0;
/// Cases between two looks at the clock: about a millisecond.
const CASES: usize = 8;
/// How often the count of cases is shown, ms.
const TELL_MS: f64 = 250.0;

/// A search that is under way.
#[derive(Default)]
struct Work {
    /// Counts up with each search and each plan: a search that finds another number is out of date.
    turn: Cell<u32>,
    /// What has been found so far will do.
    enough: Cell<bool>,
}

/// The worst case, what asks for it, how many cases are solved while it is searched, and what says that these will do.
#[hook]
fn use_worst(
    plan: &Shared<Plan>,
    lift: usize,
) -> (
    Answer<WorstHang>,
    Callback<MouseEvent>,
    Option<usize>,
    Callback<MouseEvent>,
) {
    let (answer, set) = use_answer::<WorstHang>(plan);
    let solved = use_state_eq(|| None::<usize>);
    let work = use_memo((), |()| Work::default());
    {
        let (work, solved) = (Rc::clone(&work), solved.setter());
        use_effect_with((plan.clone(), lift), move |_| {
            move || {
                work.turn.set(work.turn.get() + 1);
                solved.set(None);
            }
        });
    }
    let ask = {
        let (plan, work, solved) = (plan.clone(), Rc::clone(&work), solved.setter());
        Callback::from(move |_| {
            work.turn.set(work.turn.get() + 1);
            work.enough.set(false);
            let found = search_worst(plan.clone(), lift, Rc::clone(&work), solved.clone());
            let set = set.clone();
            yew::platform::spawn_local(async move {
                if let Some(found) = found.await {
                    set.emit(found);
                }
            });
        })
    };
    let enough = Callback::from(move |_| work.enough.set(true));
    (answer, ask, *solved, enough)
}

/// Searches in slices; `None` where another search or plan has come in between.
async fn search_worst(
    plan: Shared<Plan>,
    lift: usize,
    work: Rc<Work>,
    solved: UseStateSetter<Option<usize>>,
) -> Option<Result<WorstHang, String>> {
    let turn = work.turn.get();
    let mut search = match WorstHangSearch::new(&plan, lift) {
        Ok(search) => search,
        Err(why) => return Some(Err(why)),
    };
    let mut told_ms = browser::now_ms();
    loop {
        let from_ms = browser::now_ms();
        let mut done = false;
        while !done && browser::now_ms() - from_ms < SLICE_MS {
            done = search.go_on(CASES);
        }
        if done || work.enough.get() {
            break;
        }
        if from_ms - told_ms >= TELL_MS {
            told_ms = from_ms;
            solved.set(Some(search.solved()));
        }
        browser::breathe().await;
        if work.turn.get() != turn {
            return None;
        }
    }
    solved.set(None);
    Some(search.found(&plan))
}

/// An answer that holds for one plan only, and what sets it.
#[hook]
fn use_answer<T: 'static>(plan: &Shared<Plan>) -> (Answer<T>, Callback<Result<T, String>>) {
    let kept = use_state(|| None::<(Shared<Plan>, Rc<Result<T, String>>)>);
    let answer = kept
        .as_ref()
        .filter(|(of, _)| of == plan)
        .map(|(_, answer)| Rc::clone(answer));
    let set = {
        let (setter, plan) = (kept.setter(), plan.clone());
        Callback::from(move |answer| setter.set(Some((plan.clone(), Rc::new(answer)))))
    };
    (answer, set)
}

/// The worst case, set-ups that hang level, the trial lift.
#[component]
pub fn Asked(props: &Props) -> Html {
    let (worst, ask_worst, solved, enough) = use_worst(&props.plan, props.lift);
    let (level, set_level) = use_answer::<LevelAnswer>(&props.plan);
    let dispatch = use_context::<Dispatch>();
    let (plan, lift) = (props.plan.clone(), props.lift);
    let ask_level = move |_: MouseEvent| set_level.emit(level_set_ups(&plan, lift));
    html! {
        <>
            <section class="asked" aria-labelledby="worst-title">
                <h2 id="worst-title">{ "Worst case" }</h2>
                <p>{ "Every sling a little long or short, the centre of gravity anywhere that weights and ticket allow, slings and box stiff or soft: the most each leg can carry, beside what it carries nominally. The combination that loads a leg most is looked for and solved in full; on four legs the bound of a stiff box stands above it." }</p>
                <button type="button" onclick={ask_worst}>{ "Work out the worst case" }</button>
                if let Some(solved) = solved {
                    <p>{ format!("Searching: {} cases solved", number(solved as f64, 0, Safe::Nearest)) }{ " " }<button type="button" onclick={enough}>{ "Stop here" }</button></p>
                }
                { answered(&worst, |found| worst_case(found, props.units)) }
            </section>
            <section class="asked" aria-labelledby="level-title">
                <h2 id="level-title">{ "Level from the truck" }</h2>
                <p>{ "Slings, shorteners, shackles and adjusters of the gear list, each piece once, in the arrangement of this rig." }</p>
                <button type="button" onclick={ask_level}>{ "Look for set-ups that hang level" }</button>
                { answered(&level, |found| level_answer(found, props, dispatch.as_ref())) }
            </section>
            <Trial plan={props.plan.clone()} lift={props.lift} rig={props.rig.clone()} house={props.house.clone()} units={props.units} stop={props.stop.clone()} />
        </>
    }
}

fn answered<T>(answer: &Answer<T>, show: impl FnOnce(&T) -> Html) -> Html {
    let inside = match answer.as_deref() {
        None => return html! { <div role="status"></div> },
        Some(Ok(found)) => show(found),
        Some(Err(why)) => html! { <p class="note">{ format!("cannot be checked: {why}") }</p> },
    };
    html! { <div role="status">{ inside }</div> }
}

fn tension(n: f64, units: UnitSystem) -> String {
    // as the load tables have it: what hangs on the leg
    let mass: Mass = Force::n(n).as_mass();
    Amount::Mass(mass).show(units, Safe::Up)
}

fn worst_case(found: &WorstHang, units: UnitSystem) -> Html {
    let row = |i: usize| {
        let (member, check) = (&found.worst.members[i], &found.checks[i]);
        let bound = member.bound_n.is_some_and(|bound_n| bound_n >= member.demand_n());
        html! {
            <tr>
                <th scope="row">{ &found.names[i] }</th>
                <td class="figure" data-label="Nominal">{ tension(member.nominal_n, units) }</td>
                <td class="figure" data-label="Solved worst">{ tension(member.worst_n, units) }</td>
                <td class="figure" data-label="Design with"><b>{ tension(member.demand_n(), units) }</b>
                    if bound { <span class="why">{ "bound of a stiff box" }</span> }
                </td>
                <td class="figure" data-label="Use of its limit">{ show::shown(check.ratio.map(show::share), units, Safe::Up) }{ " " }{ show::mark(&check.outcome) }</td>
                <td class="case" data-label="When">{ &found.cases[i] }</td>
            </tr>
        }
    };
    let tilt = |rad: [f64; 2]| Amount::Angle(Angle::rad(rad[0].abs().max(rad[1].abs()))).show(units, Safe::Up);
    let re_rig = match found.expect_to_re_rig {
        Some(true) => {
            "Within that envelope the box may hang further out of level than the limit entered: expect to re-rig"
        }
        Some(false) => "All through that envelope the box hangs within the level limit entered",
        None => "Cannot be checked: no level limit is entered",
    };
    html! {
        <>
            <table class="legs worst">
                <caption>{ format!("The most each leg can carry, of {} cases solved", number(found.worst.solved as f64, 0, Safe::Nearest)) }</caption>
                <thead><tr><th scope="col">{ "Leg" }</th><th scope="col" class="figure">{ "Nominal" }</th><th scope="col" class="figure">{ "Solved worst" }</th><th scope="col" class="figure">{ "Design with" }</th><th scope="col" class="figure">{ "Use of its limit" }</th><th scope="col">{ "Solved worst when" }</th></tr></thead>
                <tbody>{ for (0..found.names.len()).map(row) }</tbody>
            </table>
            <ul class="hang">
                <li>{ format!("Out of level along by up to {}, across by up to {}", tilt(found.worst.along_rad), tilt(found.worst.across_rad)) }</li>
                <li>{ re_rig }</li>
                { for found.refused.iter().map(|why| html! { <li>{ format!("Does not hang, or only just: {why}") }</li> }) }
                if found.worst.cut_short { <li>{ "The search was stopped early: a worse case may be left" }</li> }
            </ul>
            { bending(found, units) }
            <details><summary>{ "What was taken as known and as unknown" }</summary><ul>{ for found.basis.iter().map(|line| html! { <li>{ line }</li> }) }</ul></details>
        </>
    }
}

/// Picks at three or more sections: what each leg carries at both bounds of the box's bending.
fn bending(found: &WorstHang, units: UnitSystem) -> Html {
    let Some([free_n, rigid_n]) = &found.worst.bending_n else {
        return Html::default();
    };
    let row = |(i, name): (usize, &String)| {
        html! {
            <tr>
                <th scope="row">{ name }</th>
                <td class="figure" data-label="Box follows its picks">{ tension(free_n[i], units) }</td>
                <td class="figure" data-label="Rigid box">{ tension(rigid_n[i], units) }</td>
            </tr>
        }
    };
    html! {
        <>
            <table class="legs">
                <caption>{ "How the picks share: the two bounds of a box that bends up and down, lengths as entered" }</caption>
                <thead><tr><th scope="col">{ "Leg" }</th><th scope="col" class="figure">{ "Box follows its picks" }</th><th scope="col" class="figure">{ "Rigid box" }</th></tr></thead>
                <tbody>{ for found.names.iter().enumerate().map(row) }</tbody>
            </table>
            <p class="note">{ "What a leg carries lies between the two; which is nearer is not known without the box's stiffness against bending. The worst case above has both in it." }</p>
        </>
    }
}

fn level_answer(found: &LevelAnswer, props: &Props, dispatch: Option<&Dispatch>) -> Html {
    let ideal = found.ideal.iter().map(|leg| {
        let length = tape(leg.length.to_m(), props.units);
        html! { <li>{ format!("{}: {length}", leg.name) }</li> }
    });
    html! {
        <>
            if found.set_ups.is_empty() { <p><b>{ &found.words }</b></p> }
            <ol class="set-ups">{ for found.set_ups.iter().map(|set_up| one_set_up(set_up, props, dispatch)) }</ol>
            if !found.refused.is_empty() {
                <details><summary>{ format!("{} that would hang level but are refused", found.refused.len()) }</summary>
                    <ul>{ for found.refused.iter().map(|set_up| html! { <li>{ format!("{}: {}", set_up.words, set_up.refused.as_deref().unwrap_or_default()) }</li> }) }</ul>
                </details>
            }
            if !found.ideal.is_empty() {
                <details><summary>{ "Lengths that would hang it level" }</summary><ul>{ for ideal }</ul></details>
            }
        </>
    }
}

fn one_set_up(set_up: &LevelSetUp, props: &Props, dispatch: Option<&Dispatch>) -> Html {
    let tilt = |angle: Angle| Amount::Angle(Angle::rad(angle.to_rad().abs())).show(props.units, Safe::Up);
    let is_now = props
        .plan
        .rig(&props.rig)
        .is_some_and(|rig| rig.arrangement == set_up.arrangement);
    let lifts = props.plan.lifts.iter().enumerate();
    let others: Vec<String> = lifts
        .filter(|(i, lift)| *i != props.lift && lift.rig == props.rig)
        .map(|(_, lift)| format!("lift {}", lift.number))
        .collect();
    let others = others.join(", ");
    let take = dispatch.map(|dispatch| {
        let (dispatch, rig) = (dispatch.clone(), props.rig.clone());
        let (arrangement, pieces) = (set_up.arrangement.clone(), set_up.pieces.clone());
        Callback::from(move |_: MouseEvent| {
            let (wanted, arrangement, pieces) = (rig.clone(), arrangement.clone(), pieces.clone());
            dispatch.dispatch(Action::edit(format!("rig {rig} legs that hang level"), move |plan| {
                if let Some(rig) = plan.rigs.iter_mut().find(|rig| rig.id == wanted) {
                    rig.arrangement = arrangement;
                    rig.pieces = pieces;
                }
            }));
        })
    });
    html! {
        <li>
            <p><b>{ &set_up.words }</b></p>
            <p>{ format!(
                "Out of level along {}, across {}; hook {} above the floor; most used: {}, {}; {} pieces",
                tilt(set_up.along),
                tilt(set_up.across),
                tape(set_up.hook_above.to_m(), props.units),
                set_up.most_used.0,
                Amount::Share(set_up.most_used.1).show(props.units, Safe::Up),
                set_up.piece_count,
            ) }</p>
            if is_now {
                <p><b>{ "As the rig has it now" }</b></p>
            } else if let Some(onclick) = take {
                if !others.is_empty() { <p>{ format!("The rig is also that of {others}") }</p> }
                <button type="button" {onclick}>{ "Put it into the rig" }</button>
            }
        </li>
    }
}

/// What was read with the load a hand's breadth off the ground, and what follows.
#[component]
fn Trial(props: &Props) -> Html {
    let (answer, set) = use_answer(&props.plan);
    let low = use_state_eq(|| [0_usize; 2]);
    let lower = use_state_eq(|| [String::new(), String::new()]);
    let dispatch = use_context::<Dispatch>();
    let typing = Typing::of(&props.plan.project);
    let unit = match props.units {
        UnitSystem::Us => Unit::Inch,
        UnitSystem::Metric => Unit::Mm,
    };
    let choice = |id: &'static str, label: &'static str, names: &[String; 2], at: usize| {
        let options: Options = Rc::new(
            (0..2)
                .map(|i| (AttrValue::from(i.to_string()), names[i].clone().into()))
                .collect(),
        );
        let (setter, now) = (low.setter(), *low);
        let onchoose = Callback::from(move |key: String| {
            let mut next = now;
            next[at] = usize::from(key == "1");
            setter.set(next);
        });
        html! { <div><label for={id}>{ label }</label><Choice {id} {options} chosen={low[at].to_string()} {onchoose} /></div> }
    };
    let amount = |id: &'static str, label: &'static str, at: usize| {
        let (setter, now) = (lower.setter(), (*lower).clone());
        let oncommit = Callback::from(move |text: String| {
            let mut next = now.clone();
            next[at] = text;
            setter.set(next);
        });
        html! { <div><label for={id}>{ label }</label><NumberField {id} text={lower[at].clone()} {unit} {oncommit} /></div> }
    };
    let ask = {
        let (plan, lift, low, lower) = (props.plan.clone(), props.lift, *low, (*lower).clone());
        move |_: MouseEvent| {
            let reading = reading(low, &lower, unit, typing.mark);
            set.emit(reading.and_then(|reading| trial_lift(&plan, lift, &reading)));
        }
    };
    html! {
        <ContextProvider<Typing> context={typing}>
            <section class="asked" aria-labelledby="trial-title">
                <h2 id="trial-title">{ "Trial lift" }</h2>
                <p>{ "Measured: with the load a hand's breadth off the ground and at rest, which end and which side hang low, at the floor from a level line, and by how much over the whole length and the whole width." }</p>
                <p>{ "Taken as known: weight and height of the centre of gravity as in the take-off; every leg as long as entered, without stretch; the rig as it is in the plan; no wind, nothing touching the box or its walls." }</p>
                <p>{ "Stop, set down and find out why if the load indicator reads above " }<b>{ &props.stop }</b></p>
                <div class="try-out-fields">
                    { choice("trial-end", "Low end", &props.house.ends, 0) }
                    { amount("trial-end-by", "Lower over the length by", 0) }
                    { choice("trial-side", "Low side", &props.house.sides, 1) }
                    { amount("trial-side-by", "Lower over the width by", 1) }
                </div>
                <button type="button" onclick={ask}>{ "Find the centre of gravity and new legs" }</button>
                { answered(&answer, |found: &crate::evaluate::TrialAnswer| html! {
                    <>
                        <p><b>{ &found.words }</b></p>
                        if let Some(level) = &found.level { { level_answer(level, props, dispatch.as_ref()) } }
                    </>
                }) }
            </section>
        </ContextProvider<Typing>>
    }
}

/// What was measured; a blank is not taken as level.
fn reading(low: [usize; 2], lower: &[String; 2], unit: Unit, mark: DecimalMark) -> Result<TrialReading, String> {
    let length = |at: usize, what: &str| match read::<Length>(&lower[at], unit, mark) {
        Reading::Is(length) if length.to_m() >= 0.0 => Ok(length),
        Reading::Is(_) => Err(format!(
            "the {what} was read as below zero: type how much lower it hangs, 0 where it is level"
        )),
        Reading::Blank => Err(format!(
            "the {what} is blank: type how much lower it hangs, 0 where it is level"
        )),
        Reading::Ask(why) | Reading::Wrong(why) => Err(why),
    };
    Ok(TrialReading {
        low_end: low[0],
        end_lower: length(0, "height over the length")?,
        low_side: low[1],
        side_lower: length(1, "height over the width")?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_blank_height_is_asked_for_and_never_taken_as_level() {
        let read = |a: &str, b: &str| reading([0, 1], &[a.into(), b.into()], Unit::Inch, DecimalMark::Point);
        let found = read("2 1/2", "0").unwrap();
        approx::assert_relative_eq!(found.end_lower.to_m(), 0.0635, max_relative = 1e-12);
        assert_eq!((found.low_end, found.low_side), (0, 1));
        assert!(
            read("", "0")
                .unwrap_err()
                .contains("the height over the length is blank")
        );
        assert!(read("1", "-2").unwrap_err().contains("below zero"));
        assert!(read("1", "two").unwrap_err().contains("expected a length"));
    }
}
