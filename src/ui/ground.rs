//! The crane's further checks of one lift: outriggers and ground, swing, wind, power lines, hoist; each with its table, its picture and its working.

use super::drawing::Drawn;
use super::figure::Drawing;
use super::findings::Findings;
use super::lift::{heading, no_such_lift};
use super::route::Route;
use super::show::{self, figure, kilograms, length_unit, mass_unit, metres, shown};
use super::store::Shared;
use crate::check::{Amount, Check, Finding};
use crate::drawing::{Paper, Scene, pads_at_worst, pads_over_slew, swing_view, wind_view, wires_view};
use crate::evaluate::{
    Assessment, LiftResult, PAD_NAMES, outriggers_of, trigger_of, under_each, under_mat, wind_stops, wires_of,
};
use crate::plan::Plan;
use crate::quantity::{Safe, Speed, UnitSystem};
use yew::prelude::*;

/// Which lift of which plan.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// The lift's number.
    pub number: u32,
}

/// What is drawn, of which lift.
#[derive(Clone, Copy, PartialEq)]
enum GroundView {
    OverSlew(usize),
    AtWorst(usize),
    Swing(usize),
    Wires(usize),
    Wind,
}

impl Drawn for GroundView {
    fn proportion(self) -> f64 {
        match self {
            Self::OverSlew(_) | Self::Swing(_) => 1.0,
            Self::AtWorst(_) => 0.8,
            Self::Wires(_) | Self::Wind => 0.75,
        }
    }
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        match self {
            Self::OverSlew(lift) => pads_over_slew(plan, assessment, lift, paper),
            Self::AtWorst(lift) => pads_at_worst(plan, assessment, lift, paper),
            Self::Swing(lift) => swing_view(plan, assessment, lift, paper),
            Self::Wires(lift) => wires_view(plan, assessment, lift, paper),
            Self::Wind => wind_view(plan, assessment, paper),
        }
    }
}

/// Shows them.
#[component]
pub fn GroundChecks(props: &Props) -> Html {
    let (plan, assessment) = (&props.plan, &props.assessment);
    let Some(index) = assessment.lifts.iter().position(|lift| lift.number == props.number) else {
        return no_such_lift(props.number);
    };
    let lift = &assessment.lifts[index];
    let units = assessment.units;
    let draw = |view| html! { <Drawing<GroundView> plan={plan.clone()} assessment={assessment.clone()} {view} /> };
    let section = |title: &str, tables: Html, drawings: Html, checks: &[Check]| {
        html! {
            <section>
                <h2>{ title }</h2>
                <div class="lift-body">
                    <div class="lift-figures">{ tables }<Findings findings={of(lift, checks)} {units} /></div>
                    <div class="lift-drawings">{ drawings }</div>
                </div>
            </section>
        }
    };
    html! {
        <article class="lift">
            { heading(assessment, index, Route::Ground) }
            { section(
                "Outriggers and ground",
                html! { <>{ outrigger_table(plan, assessment, index) }{ mats(plan, assessment, index) }</> },
                html! { <>{ draw(GroundView::OverSlew(index)) }{ draw(GroundView::AtWorst(index)) }</> },
                &[Check::Ground, Check::CraneLevel, Check::Footprint],
            ) }
            { section("Swing", Html::default(), draw(GroundView::Swing(index)), &[Check::Swing, Check::CraneBody, Check::BoomGap]) }
            { section("Wind", wind_table(plan, assessment), draw(GroundView::Wind), &[Check::Wind]) }
            { section("Power lines", wires(plan, assessment, index), draw(GroundView::Wires(index)), &[Check::PowerLine]) }
            { section("Hoist and trial lift", Html::default(), Html::default(), &[Check::LinePull, Check::TrialLift, Check::Critical, Check::Scope]) }
        </article>
    }
}

fn of(lift: &LiftResult, checks: &[Check]) -> Vec<Finding> {
    lift.findings
        .iter()
        .filter(|f| checks.contains(&f.check))
        .cloned()
        .collect()
}

/// The load on an outrigger by each way in which it is known, the one that counts first.
fn outrigger_table(plan: &Plan, assessment: &Assessment, index: usize) -> Html {
    let units = assessment.units;
    let Some(outriggers) = outriggers_of(plan, assessment, index) else {
        return html! { <p class="why">{ "Cannot be checked: crane, chart or lift are not known" }</p> };
    };
    let statics = outriggers.statics.map(|worst| worst.kg);
    let counts = outriggers.counts().map(|(_, source)| source.words());
    let note = |words: &str| if counts == Some(words) { "counts" } else { "" };
    let row = |words: &'static str, kg: Option<f64>, lacks: &str| {
        let value = kg.map_or_else(|| lacks.to_owned(), |kg| figure(Some(kilograms(kg)), units, Safe::Up));
        html! { <tr><th scope="row">{ words }</th><td class="figure">{ value }</td><td>{ note(words) }</td></tr> }
    };
    let lacks = outriggers
        .statics_lack
        .map_or_else(|| "not known".to_owned(), |what| format!("lacks {what}"));
    html! {
        <table class="figures">
            <caption>{ "Most on one outrigger, " }{ mass_unit(units) }</caption>
            <tbody>
                { row(crate::evaluate::LoadSource::Sheet.words(), outriggers.sheet_kg, "not entered") }
                { row(crate::evaluate::LoadSource::Statics.words(), statics, &lacks) }
                { row(crate::evaluate::LoadSource::RuleOfThumb.words(), outriggers.thumb_kg, "crane's weight not known") }
            </tbody>
        </table>
    }
}

/// Each mat: the ground under it, what that bears and who says so.
fn mats(plan: &Plan, assessment: &Assessment, index: usize) -> Html {
    let units = assessment.units;
    let pad_kg = outriggers_of(plan, assessment, index)
        .and_then(|o| o.counts())
        .map(|(kg, _)| kg);
    let under = plan
        .crane(&plan.set_up.crane)
        .zip(pad_kg)
        .map(|(crane, kg)| under_mat(crane, kg));
    let pressure = |p| shown(Some(Amount::Pressure(p)), units, Safe::Up);
    let asked = match &under {
        Some(Ok(under)) => {
            let bare = under
                .bare
                .map_or_else(String::new, |bare| format!("; on the bare float {}", pressure(bare)));
            format!(
                "Pressure under a mat {}, {} square bearing{bare}",
                pressure(under.pressure),
                shown(Some(under.side), units, Safe::Nearest)
            )
        }
        Some(Err(lacks)) => format!("Pressure under a mat cannot be checked: {lacks}"),
        None => "Pressure under a mat cannot be checked: the load on an outrigger".into(),
    };
    let row = |(i, bears): (usize, Result<crate::evaluate::Bears, String>)| {
        let (zone, value, source) = match bears {
            Ok(bears) => {
                let value = bears.pressure.map_or("no value".into(), |p| {
                    shown(Some(Amount::Pressure(p)), units, Safe::Down)
                });
                (bears.zone, value, bears.source)
            }
            Err(missing) => ("cannot be checked".into(), show::NONE.to_owned(), missing),
        };
        html! { <tr><th scope="row">{ PAD_NAMES[i % 4] }</th><td>{ zone }</td><td class="figure">{ value }</td><td>{ source }</td></tr> }
    };
    html! {
        <>
            <table class="figures">
                <caption>{ "What the ground bears" }</caption>
                <thead><tr><th scope="col">{ "Mat" }</th><th scope="col">{ "On" }</th><th scope="col" class="figure">{ "Bears" }</th><th scope="col">{ "By" }</th></tr></thead>
                <tbody>{ for under_each(plan, &assessment.crane).into_iter().enumerate().map(row) }</tbody>
            </table>
            <p class="note">{ asked }</p>
        </>
    }
}

/// What may still be lifted in a gust: a column a speed, a row a lift.
fn wind_table(plan: &Plan, assessment: &Assessment) -> Html {
    const SPEEDS_M_S: [f64; 6] = [3.0, 4.0, 5.0, 6.0, 8.0, 10.0];
    let units = assessment.units;
    let speed = |v: Speed, safe| figure(Some(Amount::Speed(v)), units, safe);
    let speeds: Vec<Speed> = match units {
        UnitSystem::Metric => SPEEDS_M_S.map(Speed::m_per_s).to_vec(),
        UnitSystem::Us => [6.0, 8.0, 10.0, 12.0, 15.0, 20.0].map(Speed::mph).to_vec(),
    };
    let unit = Amount::Speed(Speed::ZERO).unit(units).symbol();
    let row = |(lift, stop): (&LiftResult, Result<crate::evaluate::WindStop, String>)| {
        let name = format!("{} {}", lift.number, lift.title);
        match stop {
            Ok(stop) => {
                let cell = |v: &Speed| html! { <td>{ if *v <= stop.speed { "lift" } else { "stop" } }</td> };
                html! { <tr><th scope="row">{ name }</th><td class="figure">{ speed(stop.speed, Safe::Down) }</td>{ for speeds.iter().map(cell) }</tr> }
            }
            Err(why) => {
                html! { <tr><th scope="row">{ name }</th><td colspan={(speeds.len() + 1).to_string()}>{ why }</td></tr> }
            }
        }
    };
    let stops = wind_stops(plan, assessment);
    let landing = shown(plan.limits.wind_landing.get().map(Amount::Speed), units, Safe::Down);
    html! {
        <>
            <table class="figures">
                <caption>{ format!("What may still be lifted in a gust at the boom head, {unit}") }</caption>
                <thead><tr><th scope="col">{ "Lift" }</th><th scope="col" class="figure">{ "Stops at" }</th>{ for speeds.iter().map(|v| html! { <th scope="col">{ speed(*v, Safe::Nearest) }</th> }) }</tr></thead>
                <tbody>{ for assessment.lifts.iter().zip(stops).map(row) }</tbody>
            </table>
            <p class="note">{ format!("It guards the crane. Tag lines and landing stop at {landing} by your limit; the lower of this, the operator's and the maker's counts") }</p>
        </>
    }
}

/// How near each part comes to each line.
fn wires(plan: &Plan, assessment: &Assessment, index: usize) -> Html {
    let units = assessment.units;
    let table = |(line, found): (&crate::plan::PowerLine, Option<crate::evaluate::Distances>)| {
        let Some(found) = found else {
            return html! { <p class="why">{ format!("{}: cannot be checked: where it runs, or where the crane stands", line.name) }</p> };
        };
        let row = |(name, m): (&'static str, f64)| {
            let value = if m <= 0.0 {
                "across the line".into()
            } else {
                figure(Some(metres(m)), units, Safe::Down)
            };
            html! { <tr><th scope="row">{ name }</th><td class="figure">{ value }</td></tr> }
        };
        let trigger = trigger_of(plan, line).and_then(|keep| keep.away_m).map(metres);
        let confirmed = match line.confirmed.trim() {
            "" => "VOLTAGE NOT CONFIRMED: treat as live".to_owned(),
            who => format!("{} kV, confirmed: {who}", line.kilovolts.trim()),
        };
        html! {
            <>
                <p><span class={if line.confirmed.trim().is_empty() { "mark held long" } else { "mark within long" }}>{ confirmed }</span></p>
                <table class="figures">
                    <caption>{ format!("{}: distances in plan, {}; rules begin at {}", line.name, length_unit(units), figure(trigger, units, Safe::Up)) }</caption>
                    <tbody>{ for found.named().into_iter().map(row) }</tbody>
                </table>
            </>
        }
    };
    let lines = plan.site.power_lines.iter().zip(wires_of(plan, assessment, index));
    html! { { for lines.map(table) } }
}
