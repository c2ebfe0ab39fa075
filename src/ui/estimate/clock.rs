//! The day on the clock: when the crane is done, what each step takes, when carriers come, what stands at each step.

use super::super::drawing::Drawn;
use super::super::figure::Drawing;
use super::super::route::Route;
use super::super::store::{Action, Dispatch, Shared};
use super::data::{Data, asked, sentences};
use super::record::Record;
use crate::drawing::{Paper, Scene, day_view, day_view_proportion, plan_view};
use crate::evaluate::{Assessment, DayPlan, at_step, clashes, clock_words, day_plan, fewer_changes, reorder};
use crate::plan::Plan;
use std::rc::Rc;
use yew::prelude::*;

/// The plan and what follows from it.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the edits.
    pub dispatch: Dispatch,
}

/// What is drawn of the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum DayDrawing {
    /// The line of time of so many lifts.
    Line(usize),
    /// The lot at one lift.
    Step(usize),
}

impl Drawn for DayDrawing {
    fn proportion(self) -> f64 {
        match self {
            Self::Line(lifts) => day_view_proportion(lifts),
            Self::Step(_) => 0.95,
        }
    }
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        match self {
            Self::Line(_) => day_view(&day_plan(plan, assessment), paper),
            Self::Step(index) => {
                let (plan, assessment) = at_step(plan, assessment, index);
                plan_view(&plan, &assessment, Some(index), paper)
            }
        }
    }
}

/// Shows it.
#[component]
pub fn ClockView(props: &Props) -> Html {
    let Props {
        plan,
        assessment,
        dispatch,
    } = props;
    let day = use_memo((plan.clone(), assessment.clone()), |(plan, assessment)| {
        day_plan(plan, assessment)
    });
    let line = DayDrawing::Line(plan.lifts.len());
    html! {
        <article class="estimate">
            <div class="view-head">
                <h2>{ "The day on the clock" }</h2>
                <nav class="ways" aria-label="Near this view">
                    <a href="#/edit/clock">{ "Minutes and times" }</a>
                    <a href={Route::Cost.address()}>{ "Cost" }</a>
                    <a href={Route::Sheets(None).address()}>{ "Sheets" }</a>
                </nav>
            </div>
            <p class="sentence">{ in_words(&day) }</p>
            { asked("To be entered first", &day.asked, "#/edit/clock", "Enter minutes and times") }
            { sentences("The order cannot be", &day.conflicts) }
            { sentences("Look out", &day.cautions) }
            <Rearrange plan={plan.clone()} dispatch={dispatch.clone()} />
            <h3>{ "Line of time" }</h3>
            <Drawing<DayDrawing> plan={plan.clone()} assessment={assessment.clone()} view={line} />
            { steps(&day) }
            { carriers(plan, &day) }
            <StepByStep plan={plan.clone()} assessment={assessment.clone()} />
            <Record plan={plan.clone()} assessment={assessment.clone()} dispatch={dispatch.clone()} />
        </article>
    }
}

/// "The crane is done by 15:02 on half of such days …"
fn in_words(day: &DayPlan) -> String {
    let Some(done) = day.done else {
        return "When the crane is done cannot be worked out: times or minutes are missing.".into();
    };
    let together = day.together.map_or_else(String::new, |band| {
        format!(
            " If every step went at its best, as a rule, at its worst together: {}, {}, {}.",
            clock_words(band.low),
            clock_words(band.likely),
            clock_words(band.high)
        )
    });
    format!(
        "The crane is done between {} and {} on 8 days of 10, by {} on half of them.{together}",
        clock_words(done.low),
        clock_words(done.high),
        clock_words(done.likely)
    )
}

fn steps(day: &DayPlan) -> Html {
    let time = |band: Option<crate::day::Band>, of: fn(crate::day::Band) -> u32| {
        band.map_or_else(|| "—".into(), |band| clock_words(of(band)))
    };
    let rows: Vec<Vec<String>> = day
        .steps
        .iter()
        .map(|step| {
            vec![
                step.words.clone(),
                format!("{} / {} / {}", step.takes.low, step.takes.likely, step.takes.high),
                time(step.begins, |b| b.low),
                time(step.begins, |b| b.likely),
                time(step.ends, |b| b.likely),
                time(step.ends, |b| b.high),
            ]
        })
        .collect();
    let head = [
        "Step",
        "Minutes: at best / as a rule / at worst",
        "Begins, 1 day of 10",
        "Begins, half",
        "Ends, half",
        "Ends, 9 of 10",
    ]
    .map(str::to_owned)
    .to_vec();
    html! { <><h3>{ "Steps" }</h3><Data caption="Steps of the day" {head} {rows} figures_from={1} /></> }
}

fn carriers(plan: &Plan, day: &DayPlan) -> Html {
    if day.carriers.is_empty() {
        return Html::default();
    }
    let rows: Vec<Vec<String>> = day
        .carriers
        .iter()
        .map(|carrier| {
            let lift = plan.lifts.get(carrier.lift).map_or(0, |lift| lift.number);
            let time = |minute: Option<u32>, none: &str| minute.map_or_else(|| none.to_owned(), clock_words);
            vec![
                format!("Carrier of lift {lift}"),
                carrier.spot.to_string(),
                time(carrier.free_min, "from the start"),
                clock_words(carrier.latest_min),
                time(carrier.told_min, "not told"),
            ]
        })
        .collect();
    let head = [
        "Carrier",
        "Spot",
        "Spot is free",
        "There by, so that nobody waits",
        "Told to come",
    ]
    .map(str::to_owned)
    .to_vec();
    html! {
        <>
            <h3>{ "Carriers" }</h3>
            <p class="hint">{ "Where the spot is free later than the carrier is to be there, the crane waits for the change of carriers, or the next one stands at another spot" }</p>
            <Data caption="Carriers" {head} {rows} figures_from={2} />
        </>
    }
}

#[derive(Properties, PartialEq)]
struct RearrangeProps {
    plan: Shared<Plan>,
    dispatch: Dispatch,
}

/// Offers an order with fewer changes of the rig.
#[component]
fn Rearrange(props: &RearrangeProps) -> Html {
    let found = use_memo(props.plan.clone(), |plan| fewer_changes(plan));
    let said = match &*found {
        Err(circle) => return html! { <p class="messages">{ circle.clone() }</p> },
        Ok((_, own)) if props.plan.lifts.len() < 2 => {
            return html! { <p class="hint">{ format!("The rig changes {own} times") }</p> };
        }
        Ok((found, own)) if found.changes >= *own => {
            let none = if found.fewest {
                "no order that keeps what must come first has fewer"
            } else {
                "no order with fewer was found"
            };
            return html! { <p class="hint">{ format!("The rig changes {own} times in this order; {none}") }</p> };
        }
        Ok((found, own)) => {
            let lifts: Vec<String> = found
                .order
                .iter()
                .filter_map(|&index| props.plan.lifts.get(index))
                .map(|lift| lift.number.to_string())
                .collect();
            let fewest = if found.fewest {
                "the fewest there can be"
            } else {
                "the fewest that were found"
            };
            format!(
                "The rig changes {own} times in this order. In the order {} it changes {} times, {fewest}; what must come first stays first.",
                lifts.join(", "),
                found.changes
            )
        }
    };
    let take = {
        let (found, dispatch) = (Rc::clone(&found), props.dispatch.clone());
        move |_| {
            if let Ok((found, _)) = &*found {
                let order = found.order.clone();
                dispatch.dispatch(Action::edit("order of lifts", move |plan| reorder(plan, &order)));
            }
        }
    };
    html! {
        <section class="offer">
            <p>{ said }</p>
            <button type="button" onclick={take}>{ "Put the lifts into that order" }</button>
        </section>
    }
}

#[derive(Properties, PartialEq)]
struct StepProps {
    plan: Shared<Plan>,
    assessment: Shared<Assessment>,
}

/// The lot at each lift: only what is set by then.
#[component]
fn StepByStep(props: &StepProps) -> Html {
    let at = use_state_eq(|| 0_usize);
    let count = props.plan.lifts.len();
    if count == 0 {
        return Html::default();
    }
    let index = (*at).min(count - 1);
    let lift = &props.plan.lifts[index];
    let title = props
        .assessment
        .lifts
        .get(index)
        .map_or_else(String::new, |lift| lift.title.clone());
    let found = clashes(&props.plan, &props.assessment, index);
    let go = |to: Option<usize>, words: &'static str| {
        let at = at.setter();
        html! { <button type="button" disabled={to.is_none()} onclick={move |_| at.set(to.unwrap_or(0))}>{ words }</button> }
    };
    html! {
        <section class="step-by-step">
            <h3>{ format!("Step by step: lift {} of {count}, {title}", lift.number) }</h3>
            <div class="chooser" role="group" aria-label="Which lift">
                { go(index.checked_sub(1), "Lift before") }
                { go(Some(index + 1).filter(|next| *next < count), "Lift after") }
            </div>
            if found.is_empty() {
                <p role="status">{ "No clash on the ground with what is set before it, the crane's mats and its tail" }</p>
            } else {
                <ul role="status" class="messages">{ for found.iter().map(|words| html! { <li>{ words }</li> }) }</ul>
            }
            <Drawing<DayDrawing> plan={props.plan.clone()} assessment={props.assessment.clone()} view={DayDrawing::Step(index)} />
        </section>
    }
}
