//! Which crane stands where: crane, configuration, place.

use super::fields::{Choice, NumberField, Options, Typing, shown};
use super::store::{Action, Dispatch, Shared};
use crate::plan::{Id, Pad, Plan, Point, SetUp};
use crate::quantity::{Entry, Length, Unit};
use std::rc::Rc;
use yew::prelude::*;

/// The finest step that the crane's place is written with, per metre.
const STEPS_PER_M: f64 = 100.0;

/// A length as it is written into the plan when somebody drags: whole centimetres.
pub fn dragged(m: f64) -> Entry<Length> {
    let rounded = (m * STEPS_PER_M).round() / STEPS_PER_M;
    // adding 0 turns −0 into 0
    Entry::typed(format!("{} m", rounded + 0.0), Unit::M)
}

/// Puts the slew centre somewhere, in metres east and north.
pub fn move_crane(gesture: u32, [east_m, north_m]: [f64; 2]) -> Action {
    Action::Edit {
        name: "move the crane".into(),
        gesture: Some(gesture),
        change: Box::new(move |plan| {
            plan.set_up.at = Point {
                east: dragged(east_m),
                north: dragged(north_m),
            };
        }),
    }
}

/// The panel's input.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// Takes the edits.
    pub dispatch: Dispatch,
}

/// Crane, configuration, named places and the place typed in figures.
#[component]
pub fn SetUpPanel(props: &Props) -> Html {
    let plan = &props.plan;
    let set_up = &plan.set_up;
    let cranes = plan
        .cranes
        .iter()
        .map(|c| (c.id.to_string().into(), format!("{}: {}", c.id, c.name).into()));
    let charts = plan.crane(&set_up.crane).into_iter().flat_map(|crane| &crane.charts);
    let charts = charts.map(|chart| (chart.id.clone().into(), chart.name.clone().into()));
    let (cranes, charts) = (
        with_none(cranes, "no crane chosen"),
        with_none(charts, "no chart chosen"),
    );
    let choose_crane = choose(props, "choose the crane", |plan, id| {
        let first = plan
            .crane(&id)
            .and_then(|crane| crane.charts.first())
            .map(|chart| Id(chart.id.clone()));
        plan.set_up.chart = first.unwrap_or_default();
        plan.set_up.crane = id;
    });
    let choose_chart = choose(props, "choose the configuration", |plan, id| plan.set_up.chart = id);
    html! {
        <section class="set-up" aria-labelledby="set-up-title">
            <h2 id="set-up-title">{ "Crane set-up" }</h2>
            <div class="set-up-fields">
                <div>
                    <label for="set-up-crane">{ "Crane" }</label>
                    <Choice id="set-up-crane" options={cranes} chosen={set_up.crane.to_string()} onchoose={choose_crane} />
                </div>
                <div>
                    <label for="set-up-chart">{ "Configuration and chart" }</label>
                    <Choice id="set-up-chart" options={charts} chosen={set_up.chart.to_string()} onchoose={choose_chart} />
                </div>
                { place(props, "set-up-east", "Slew centre east", &set_up.at.east, |set_up, entry| set_up.at.east = entry) }
                { place(props, "set-up-north", "Slew centre north", &set_up.at.north, |set_up, entry| set_up.at.north = entry) }
            </div>
            <div class="pads" role="group" aria-label="Stand the crane at a named place">
                { for plan.site.pads.iter().map(|pad| pad_button(props, pad)) }
            </div>
        </section>
    }
}

fn with_none(options: impl Iterator<Item = (AttrValue, AttrValue)>, words: &'static str) -> Options {
    Rc::new(
        core::iter::once((AttrValue::default(), words.into()))
            .chain(options)
            .collect(),
    )
}

fn choose(props: &Props, name: &'static str, change: fn(&mut Plan, Id)) -> Callback<String> {
    let dispatch = props.dispatch.clone();
    Callback::from(move |value: String| {
        dispatch.dispatch(Action::edit(name, move |plan| change(plan, Id(value))));
    })
}

fn pad_button(props: &Props, pad: &Pad) -> Html {
    let here = pad.at.metres().is_some() && pad.at.metres() == props.plan.set_up.at.metres();
    let go = {
        let (dispatch, at, name) = (
            props.dispatch.clone(),
            pad.at.clone(),
            format!("stand the crane at {}", pad.id),
        );
        move |_| {
            let at = at.clone();
            dispatch.dispatch(Action::edit(name.clone(), move |plan| plan.set_up.at = at));
        }
    };
    html! {
        <button key={pad.id.to_string()} type="button" aria-pressed={here.to_string()} title={pad.note.clone()} onclick={go}>
            { &pad.id.0 }<span class="unseen">{ ": " }{ &pad.note }</span>
        </button>
    }
}

fn place(
    props: &Props,
    id: &'static str,
    label: &'static str,
    entry: &Entry<Length>,
    write: fn(&mut SetUp, Entry<Length>),
) -> Html {
    let (unit, mark) = (entry.unit(), Typing::of(&props.plan.project).mark);
    let dispatch = props.dispatch.clone();
    let oncommit = Callback::from(move |text: String| {
        dispatch.dispatch(Action::edit(label.to_ascii_lowercase(), move |plan| {
            write(&mut plan.set_up, Entry::typed_with(text, unit, mark));
        }));
    });
    html! {
        <div>
            <label for={id}>{ label }</label>
            <NumberField {id} text={shown(entry, unit, mark)} {unit} {oncommit} />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dragged_place_is_written_in_whole_centimetres() {
        for (m, text) in [(8.2549, "8.25 m"), (-6.8, "-6.8 m"), (-0.001, "0 m"), (12.0, "12 m")] {
            assert_eq!(dragged(m).text(), text);
        }
    }
}
