//! The rigger's view: one lift at a time, big, ends named in words that can be seen on the box.

mod asked;
mod path;
mod try_out;

use crate::check::Check;
use crate::drawing::{Seen, View};
use crate::evaluate::{Assessment, LiftResult, Stretched, end_name, leg_finding, leg_of, member_name, side_name};
use crate::plan::{HouseBox, Load, Plan, Rig};
use crate::quantity::{Length, Safe, UnitSystem, feet_inches};
use crate::rigging::{Hung, Level, Member};
use crate::sheet::stop;
use crate::ui::cautions;
use crate::ui::figure::Drawing;
use crate::ui::findings::Findings;
use crate::ui::lift::{heading, no_such_lift};
use crate::ui::route::Route;
use crate::ui::show::{self, NONE, kilograms, radians, shown};
use crate::ui::store::Shared;
use asked::Asked;
use try_out::TryOutPanel;
use yew::prelude::*;

/// A rise below this is level, m: less than a tape shows.
const LEVEL_M: f64 = 0.0005;

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

/// Shows it.
#[component]
pub fn RigView(props: &Props) -> Html {
    let (plan, assessment) = (&props.plan, &props.assessment);
    let Some(index) = assessment.lifts.iter().position(|lift| lift.number == props.number) else {
        return no_such_lift(props.number);
    };
    let lift = &assessment.lifts[index];
    let units = assessment.units;
    let rig = plan.rig(&lift.rig.id);
    let hang = lift.rig.hung.as_ref().zip(rig).zip(lifted_box(plan, lift));
    let draw = |view| html! { <Drawing<View> plan={plan.clone()} assessment={assessment.clone()} {view} /> };
    let findings: Vec<_> = lift
        .findings
        .iter()
        .filter(|f| is_for_the_rigger(f.check))
        .cloned()
        .collect();
    let (findings, worked) = path::parted(findings);
    html! {
        <article class="rig">
            <div class="on-each-page"><p>
                if plan.project.invented { { cautions::INVENTED }{ " " } }
                { cautions::LINE }
            </p></div>
            { heading(assessment, index, Route::Rig) }
            { weights(lift, units) }
            if let Some(((hung, rig), house)) = hang {
                { hang_in_words(house, hung, units) }
                if let Some(stretched) = &lift.rig.stretched { { with_stretch(house, hung, stretched, units) } }
                { legs(plan, rig, house, lift, hung, units) }
                <div class="rig-drawings">
                    { for views(index).map(draw) }
                </div>
                <TryOutPanel plan={plan.clone()} assessment={assessment.clone()} lift={index} house={house.clone()} hung={hung.clone()} />
                <Asked plan={plan.clone()} lift={index} rig={rig.id.clone()} house={house.clone()} {units} stop={stop(lift, units)} />
            }
            if let Some(reason) = &lift.rig.why_not { <p class="note">{ reason }</p> }
            { path::load_path_section(plan, assessment, index) }
            if let Some(((hung, _), house)) = hang { { path::eave_section(house, hung, units) } }
            if let Some(rig) = rig { { pieces(plan, rig) } }
            <p class="note stop">{ "Lift a hand's breadth and look: level? Down, and find out why, if the reading is above " }<b>{ stop(lift, units) }</b>{ ". Anyone may stop the lift." }</p>
            <h2>{ "Findings on the rigging" }</h2>
            <Findings {findings} {units} />
            if !worked.is_empty() {
                <details class="worked"><summary>{ format!("Working of the {} pieces and picks that are within", worked.len()) }</summary><Findings findings={worked} {units} /></details>
            }
        </article>
    }
}

fn views(lift: usize) -> [View; 7] {
    [
        View::Hung(lift, Seen::Isometric),
        View::Hung(lift, Seen::Side),
        View::Hung(lift, Seen::End(1)),
        View::RigSide(lift),
        View::RigEnd(lift, 0),
        View::RigEnd(lift, 1),
        View::RigTop(lift),
    ]
}

fn is_for_the_rigger(check: Check) -> bool {
    matches!(
        check,
        Check::Weight
            | Check::LevelAlong
            | Check::LevelAcross
            | Check::Stability
            | Check::Gear
            | Check::Pick
            | Check::Eave
            | Check::LegAngle
            | Check::Truck
    )
}

fn lifted_box<'a>(plan: &'a Plan, lift: &LiftResult) -> Option<&'a HouseBox> {
    let planned = plan.lifts.iter().find(|l| l.id == lift.id)?;
    match &planned.load {
        Load::Box { id } => plan.house_box(id),
        _ => None,
    }
}

fn weights(lift: &LiftResult, units: UnitSystem) -> Html {
    let load = &lift.load;
    let hook = load
        .planned_kg
        .zip(load.rigging_kg)
        .map(|(load, rigging)| kilograms(load + rigging));
    let figures = [
        (
            "Load on the hook",
            shown(hook, units, Safe::Up),
            "load and rigging, without the block",
        ),
        (
            "Load",
            shown(load.planned_kg.map(kilograms), units, Safe::Up),
            "with its contingency",
        ),
        (
            "Rigging",
            shown(load.rigging_kg.map(kilograms), units, Safe::Up),
            "below the block",
        ),
        (
            "Hook above the floor",
            lift.rig.hook_above_m.map_or(NONE.into(), |m| tape(m, units)),
            "underside of the load",
        ),
    ];
    let one = |(name, value, below): (&'static str, String, &'static str)| {
        html! { <div><dt>{ name }</dt><dd>{ value }<span>{ below }</span></dd></div> }
    };
    html! { <dl class="key-figures big">{ for figures.map(one) }</dl> }
}

/// A length as fine as slings and links are measured: to the sixteenth of an inch, or the centimetre.
fn tape(m: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => feet_inches(Length::m(m)),
        UnitSystem::Metric => show::metres(m).show(units, Safe::Nearest),
    }
}

/// Which end and which side hang low, and by how much.
fn hang_in_words(house: &HouseBox, hung: &Hung, units: UnitSystem) -> Html {
    let line = |level: &Level, name: fn(&HouseBox, usize) -> &str, way: &str| {
        if level.rise_m.abs() < LEVEL_M {
            return html! { <li>{ format!("level over the {way}") }</li> };
        }
        let low = name(house, usize::from(level.tilt_rad > 0.0));
        let angle = radians(level.tilt_rad.abs()).show(units, Safe::Up);
        let rise = tape(level.rise_m.abs(), units);
        html! { <li><b>{ low }</b>{ format!(" hangs low by {rise} over the {way} ({angle})") }</li> }
    };
    html! {
        <ul class="hang">
            { line(&hung.along, end_name, "length") }
            { line(&hung.across, side_name, "width") }
        </ul>
    }
}

/// The level that is judged, beside the level that the gear's stretch makes of it.
fn with_stretch(house: &HouseBox, hung: &Hung, stretched: &Stretched, units: UnitSystem) -> Html {
    let tilt = |rad: f64, low: fn(&HouseBox, usize) -> &str| {
        let angle = radians(rad.abs()).show(units, Safe::Up);
        let low = (rad.abs() > 1e-5).then(|| format!("{} low", low(house, usize::from(rad > 0.0))));
        html! { <span>{ angle }<span class="why">{ low.unwrap_or_default() }</span></span> }
    };
    let so = stretched.along.zip(stretched.across).zip(stretched.hook_above);
    let row = |name: &'static str, along_rad: f64, across_rad: f64, hook_m: f64| {
        html! {
            <tr>
                <th scope="row">{ name }</th>
                <td class="figure" data-label="Out of level along">{ tilt(along_rad, end_name) }</td>
                <td class="figure" data-label="Out of level across">{ tilt(across_rad, side_name) }</td>
                <td class="figure" data-label="Hook above the floor">{ tape(hook_m, units) }</td>
            </tr>
        }
    };
    html! {
        <>
            <table class="legs">
                <caption>{ "Level without stretch, which the ledger judges, and with every leg at the soft end of its band" }</caption>
                <thead><tr>
                    <th scope="col">{ "Legs" }</th>
                    <th scope="col" class="figure">{ "Out of level along" }</th>
                    <th scope="col" class="figure">{ "Out of level across" }</th>
                    <th scope="col" class="figure">{ "Hook above the floor" }</th>
                </tr></thead>
                <tbody>
                    { row("Without stretch", hung.along.tilt_rad, hung.across.tilt_rad, hung.hook_above_floor_m) }
                    { for so.map(|((along, across), hook)| row("Stretched", along.to_rad(), across.to_rad(), hook.to_m())) }
                </tbody>
            </table>
            <p class="note">{ &stretched.words }</p>
        </>
    }
}

fn legs(plan: &Plan, rig: &Rig, house: &HouseBox, lift: &LiftResult, hung: &Hung, units: UnitSystem) -> Html {
    let row = |member: &Member| {
        let name = member_name(house, member.kind);
        let finding = leg_finding(&lift.findings, &name);
        let load = shown(finding.and_then(|f| f.demand), units, Safe::Up);
        let used = shown(finding.and_then(|f| f.ratio).map(show::share), units, Safe::Up);
        html! {
            <tr>
                <th scope="row">{ name }</th>
                <td class="gear">{ leg_in_words(plan, rig, member) }</td>
                <td class="figure" data-label="Length">{ tape(member.length_m, units) }</td>
                <td class="figure" data-label="From the horizontal">{ radians(member.angle_rad).show(units, Safe::Down) }</td>
                <td class="figure" data-label="Load">{ if member.slack { "slack".into() } else { load } }</td>
                <td class="figure" data-label="Use of its limit">{ used }</td>
            </tr>
        }
    };
    html! {
        <table class="legs">
            <caption>{ "Legs: gear from the truck, with whole links added" }</caption>
            <thead><tr>
                <th scope="col">{ "Leg" }</th>
                <th scope="col">{ "Sling" }</th>
                <th scope="col" class="figure">{ "Length" }</th>
                <th scope="col" class="figure">{ "From the horizontal" }</th>
                <th scope="col" class="figure">{ "Load" }</th>
                <th scope="col" class="figure">{ "Use of its limit" }</th>
            </tr></thead>
            <tbody>{ for hung.members.iter().map(row) }</tbody>
        </table>
    }
}

/// "G03 + 2 links" with the sling's own name below.
fn leg_in_words(plan: &Plan, rig: &Rig, member: &Member) -> Html {
    let Some(leg) = leg_of(rig, member.kind) else {
        return html! { { NONE } };
    };
    let links = match leg.links {
        0 => String::new(),
        1 => " + 1 link".into(),
        n => format!(" + {n} links"),
    };
    let name = plan.gear_item(&leg.sling).map_or("", |gear| gear.name.as_str());
    html! { <><b>{ &leg.sling.0 }{ links }</b><span class="why">{ name }</span></> }
}

/// All that hangs on the hook, to lay out and count.
fn pieces(plan: &Plan, rig: &Rig) -> Html {
    let piece = |piece: &crate::plan::Piece| {
        let name = plan
            .gear_item(&piece.gear)
            .map_or("not on the truck's list", |gear| gear.name.as_str());
        html! { <tr><td class="figure">{ piece.count }</td><th scope="row">{ &piece.gear.0 }</th><td>{ name }</td></tr> }
    };
    html! {
        <table class="pieces">
            <caption>{ format!("Lay out for {}", if rig.name.is_empty() { rig.id.as_str() } else { &rig.name }) }</caption>
            <tbody>{ for rig.pieces.iter().map(piece) }</tbody>
        </table>
    }
}
