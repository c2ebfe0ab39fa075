//! Every piece from the hook to the picks with its load, the weakest by name; and what straps round an eave do.

use crate::check::Finding;
use crate::evaluate::{Assessment, EavePush, PathPiece, eave_pushes, if_slanting, is_on_the_path, load_path, weakest};
use crate::gear::profile::in_words;
use crate::plan::{HouseBox, Plan};
use crate::quantity::{Length, Mass, Safe, UnitSystem};
use crate::rigging::Hung;
use crate::ui::show::{self, shown};
use yew::prelude::*;

/// The weakest piece, and the table of all.
pub fn load_path_section(plan: &Plan, assessment: &Assessment, index: usize) -> Html {
    let units = assessment.units;
    let pieces = load_path(plan, assessment, index);
    let Some(lift) = assessment.lifts.get(index).filter(|_| !pieces.is_empty()) else {
        return Html::default();
    };
    let nearest = weakest(&lift.findings);
    let missing = pieces.iter().filter(|piece| piece.finding.ratio.is_none()).count();
    let told = match (nearest, missing) {
        (None, _) => "No piece could be compared with what it may carry".to_owned(),
        (Some(finding), 0) => weakest_words(finding, units),
        (Some(finding), n) => format!("{}; {n} not compared, see below", weakest_words(finding, units)),
    };
    let is_weakest = |piece: &PathPiece| nearest == Some(&piece.finding);
    let row = |piece: &PathPiece| piece_row(plan, piece, is_weakest(piece), units);
    let pressing = pieces
        .iter()
        .filter(|p| is_weakest(p) || !p.finding.outcome.is_within());
    let table = |caption: String, rows: Html| {
        html! {
            <table class="legs path">
                <caption>{ caption }</caption>
                <thead><tr>
                    <th scope="col">{ "Where" }</th>
                    <th scope="col">{ "Piece" }</th>
                    <th scope="col" class="figure">{ "Load" }</th>
                    <th scope="col" class="figure">{ "May carry" }</th>
                    <th scope="col" class="figure">{ "Use" }</th>
                    <th scope="col">{ "Outcome" }</th>
                </tr></thead>
                <tbody>{ rows }</tbody>
            </table>
        }
    };
    html! {
        <section class="load-path">
            <h2>{ "Load path, from the hook down" }</h2>
            <p class="weakest"><b>{ told }</b></p>
            <p class="note">{ format!("Loads: {}. Capacity: rating × hitch × choke × bend × side pull, each by the table of its material", in_words(&plan.limits)) }</p>
            { table("The weakest piece, and each that is not within".into(), html! { { for pressing.map(row) } }) }
            <details class="worked">
                <summary>{ format!("All {} pieces and picks, from the hook down", pieces.len()) }</summary>
                { table("A piece without a rating, or a pick without the factory's limits, cannot be checked".into(), html! { { for pieces.iter().map(row) } }) }
            </details>
        </section>
    }
}

fn weakest_words(finding: &Finding, units: UnitSystem) -> String {
    let share = finding
        .compared(units)
        .map_or_else(String::new, |figures| format!(", {}", figures[2]));
    format!("Weakest: {}{share}", finding.subject)
}

fn piece_row(plan: &Plan, piece: &PathPiece, is_weakest: bool, units: UnitSystem) -> Html {
    let finding = &piece.finding;
    let [load, may, used] = finding
        .compared(units)
        .unwrap_or_else(|| [show::NONE, show::NONE, show::NONE].map(str::to_owned));
    let name = plan.gear_item(&piece.gear).map_or("", |item| item.name.as_str());
    let role = if is_weakest {
        format!("{}, WEAKEST", piece.role)
    } else {
        piece.role.to_owned()
    };
    html! {
        <tr class={classes!(is_weakest.then_some("weakest"), show::outcome_class(&finding.outcome))}>
            <th scope="row">{ &piece.place }<span class="why">{ role }</span></th>
            <td class="gear"><b>{ &piece.gear.0 }</b><span class="why">{ name }</span></td>
            <td class="figure" data-label="Load">{ load }</td>
            <td class="figure" data-label="May carry">{ may }</td>
            <td class="figure" data-label="Use">{ used }</td>
            <td data-label="Outcome">{ show::mark(&finding.outcome) }
                if !finding.outcome.is_within() { <span class="why">{ finding.outcome.words() }</span> }
            </td>
        </tr>
    }
}

/// Findings on pieces that are within stand in the table of the load path; their working opens from here.
pub fn parted(findings: Vec<Finding>) -> (Vec<Finding>, Vec<Finding>) {
    let is_told = |f: &Finding| is_on_the_path(f.check) && f.outcome.is_within() && f.cautions.is_empty();
    findings.into_iter().partition(|f| !is_told(f))
}

/// Heights of the apex over the eave that are shown.
const RISES_FT: [f64; 5] = [4.0, 6.0, 8.0, 12.0, 16.0];
const RISES_M: [f64; 5] = [1.2, 1.8, 2.5, 3.5, 5.0];

/// Straps that press on an eave as they hang, and what slanting ones would do.
pub fn eave_section(house: &HouseBox, hung: &Hung, units: UnitSystem) -> Html {
    let rises: Vec<Length> = match units {
        UnitSystem::Us => RISES_FT.iter().map(|ft| Length::ft(*ft)).collect(),
        UnitSystem::Metric => RISES_M.iter().map(|m| Length::m(*m)).collect(),
    };
    let (pressing, slanting) = (eave_pushes(house, hung), if_slanting(house, hung, &rises));
    if slanting.is_empty() {
        return Html::default();
    }
    let limit = house.eave_push.not_negative();
    let needed = limit
        .zip(slanting.first())
        .and_then(|(limit, push)| push.rise_needed(limit));
    let told = match (limit, needed) {
        (Some(limit), Some(rise)) => format!(
            "The factory's limit for the push on an eave is {}: it needs a rise of {}",
            shown(Some(limit), units, Safe::Down),
            shown(Some(rise), units, Safe::Up)
        ),
        _ => "The factory's limit for the push on an eave is not entered: ask".to_owned(),
    };
    html! {
        <section class="eaves">
            <h2>{ "Straps round an eave" }</h2>
            if !pressing.is_empty() { { pushes("As it hangs, these press on an eave", &pressing, true, units) } }
            { pushes("If the straps slanted to one apex over the middle of the box: the heaviest pick", &slanting, false, units) }
            <p class="note">{ told }{ ". Without friction at the eave the pick at the floor is pulled with the strap's tension, not with what it lifts. Straps as wide apart as the box push nothing" }</p>
        </section>
    }
}

fn pushes(caption: &'static str, pushes: &[EavePush], named: bool, units: UnitSystem) -> Html {
    let mass = |force: crate::quantity::Force| shown(Some(force.as_mass()), units, Safe::Up);
    let row = |push: &EavePush| {
        let rise = shown(Some(push.rise), units, Safe::Nearest);
        let name = if named {
            format!("{}, {rise} above", push.place)
        } else {
            rise
        };
        html! {
            <tr>
                <th scope="row">{ name }</th>
                <td class="figure" data-label="Push on the eave">{ mass(push.push) }</td>
                <td class="figure" data-label="Strap, and pull at the pick">{ mass(push.tension) }</td>
                <td class="figure" data-label="Pressed down">{ mass(push.down) }</td>
            </tr>
        }
    };
    let lifts = pushes.first().map_or(Mass::ZERO, |push| push.vertical.as_mass());
    let caption = if named {
        caption.to_owned()
    } else {
        format!("{caption}, {}", shown(Some(lifts), units, Safe::Up))
    };
    html! {
        <table class="legs">
            <caption>{ caption }</caption>
            <thead><tr>
                <th scope="col">{ if named { "Strap" } else { "Apex above the eave" } }</th>
                <th scope="col" class="figure">{ "Push on the eave" }</th>
                <th scope="col" class="figure">{ "Strap, and pull at the pick" }</th>
                <th scope="col" class="figure">{ "Pressed down" }</th>
            </tr></thead>
            <tbody>{ for pushes.iter().map(row) }</tbody>
        </table>
    }
}
