//! The box as a structure, and the roof that is raised: one lift at a time, each figure with what it was taken from.

use super::figure::Drawing;
use super::findings::Findings;
use super::lift::{heading, no_such_lift};
use super::route::Route;
use super::show::{self, figure, length_unit, mass_unit, metres, radians, shown};
use super::store::Shared;
use crate::check::{Amount, Check, Outcome};
use crate::drawing::StructureView;
use crate::evaluate::{
    ArcPoint, Assessment, BeamCase, Bound, BoxBeam, Racking, RackingCase, Stiffness, box_beam, end_name, pick_places,
    racking, racking_finding, raise_arc, sag_findings, stiffnesses,
};
use crate::plan::{HouseBox, Load, Plan, RaiseArc};
use crate::quantity::{Force, Length, Moment, Safe, UnitSystem, number};
use crate::structure::{Arc, Extreme};
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

/// Angles of the table over the arc.
const ARC_STEPS: u32 = 10;

/// Shows it.
#[component]
pub fn BoxAndRoof(props: &Props) -> Html {
    let (plan, assessment) = (&props.plan, &props.assessment);
    let Some(index) = assessment.lifts.iter().position(|lift| lift.number == props.number) else {
        return no_such_lift(props.number);
    };
    let lift = &assessment.lifts[index];
    let units = assessment.units;
    let inside = match plan.lifts.get(index).map(|lift| &lift.load) {
        Some(Load::Box { id }) => plan.house_box(id).map(|house| the_box(props, index, house)),
        Some(Load::RoofRaise { arc, .. }) => Some(the_raise(props, index, arc)),
        _ => None,
    };
    let is_ours = |check| {
        matches!(
            check,
            Check::BoxBeam | Check::BoxSag | Check::Racking | Check::RoofRaise
        )
    };
    let findings: Vec<_> = lift.findings.iter().filter(|f| is_ours(f.check)).cloned().collect();
    html! {
        <article class="rig structure">
            { heading(assessment, index, Route::Structure) }
            { inside.unwrap_or_else(|| html! { <p class="note">{ "Neither a box nor a roof raise: there is nothing to bend here" }</p> }) }
            if !findings.is_empty() {
                <h2>{ "Findings" }</h2>
                <Findings {findings} {units} />
            }
        </article>
    }
}

fn draw(props: &Props, view: StructureView) -> Html {
    html! { <Drawing<StructureView> plan={props.plan.clone()} assessment={props.assessment.clone()} {view} /> }
}

fn why(what: &str, reason: &str) -> Html {
    html! { <p class="note">{ format!("{what} cannot be worked out: {reason}") }</p> }
}

fn key_figures(figures: Vec<(&'static str, String, String)>) -> Html {
    let one = |(name, value, below): (&'static str, String, String)| {
        html! { <div><dt>{ name }</dt><dd>{ value }<span>{ below }</span></dd></div> }
    };
    html! { <dl class="key-figures big">{ for figures.into_iter().map(one) }</dl> }
}

fn basis(words: &[String]) -> Html {
    html! { <ul class="basis">{ for words.iter().map(|line| html! { <li>{ line }</li> }) }</ul> }
}

/// A table whose cells carry the name of their column, for a narrow screen.
fn table(caption: String, heads: &[String], rows: Vec<(String, Vec<String>)>) -> Html {
    let row = |(name, cells): (String, Vec<String>)| {
        let cells = cells.into_iter().zip(&heads[1..]);
        let cell =
            |(text, head): (String, &String)| html! { <td class="figure" data-label={head.clone()}>{ text }</td> };
        html! { <tr><th scope="row">{ name }</th>{ for cells.map(cell) }</tr> }
    };
    let head =
        |(i, head): (usize, &String)| html! { <th scope="col" class={(i > 0).then_some("figure")}>{ head }</th> };
    html! {
        <table class="legs">
            <caption>{ caption }</caption>
            <thead><tr>{ for heads.iter().enumerate().map(head) }</tr></thead>
            <tbody>{ for rows.into_iter().map(row) }</tbody>
        </table>
    }
}

fn heads<const N: usize>(names: [&str; N]) -> Vec<String> {
    names.map(str::to_owned).to_vec()
}

fn moment(n_m: f64) -> Amount {
    Amount::Moment(Moment::n_m(n_m.abs()))
}

fn force(n: f64) -> Amount {
    Amount::Force(Force::n(n.abs()))
}

fn small(m: f64) -> Amount {
    Amount::Small(Length::m(m.abs()))
}

fn word(outcome: &Outcome) -> String {
    outcome.word().to_owned()
}

fn the_box(props: &Props, index: usize, house: &HouseBox) -> Html {
    let (plan, assessment) = (&props.plan, &props.assessment);
    let beam = match box_beam(plan, assessment, index) {
        Ok(beam) => beam,
        Err(reason) => return why("The box as a beam", &reason),
    };
    let units = assessment.units;
    let at = |e: Extreme| {
        format!(
            "{} from {}",
            metres(e.x_m).show(units, Safe::Nearest),
            end_name(house, 0)
        )
    };
    let [sag, hog] = beam.moments();
    let mut figures = vec![
        ("Sagging moment", moment(sag.value).show(units, Safe::Up), at(sag)),
        ("Hogging moment", moment(hog.value).show(units, Safe::Up), at(hog)),
        (
            "Shear",
            force(beam.shear().value).show(units, Safe::Up),
            at(beam.shear()),
        ),
        (
            "Compression",
            force(beam.axial_n()).show(units, Safe::Up),
            "between its picks, from inclined legs".into(),
        ),
    ];
    let racked = racking(plan, assessment, index);
    if let Ok(racked) = &racked {
        figures.push((
            "Torque between picks",
            moment(racked.cases[0].torque_n_m).show(units, Safe::Up),
            "as it hangs".into(),
        ));
        let twist = racked.twist(&racked.cases[0]);
        figures.push((
            "One corner out of plane",
            shown(twist.map(|(_, m)| small(m)), units, Safe::Up),
            twist.map_or_else(
                || "stiffness against twist not known".into(),
                |(rad, _)| format!("twist {}", radians(rad).show(units, Safe::Up)),
            ),
        ));
    }
    let stiff = !stiffnesses(house).is_empty();
    html! {
        <>
            { key_figures(figures) }
            <div class="rig-drawings">
                { draw(props, StructureView::Moment(index)) }
                { draw(props, StructureView::Shear(index)) }
                if stiff { { draw(props, StructureView::Sag(index)) } }
            </div>
            { sags(plan, house, &beam, units) }
            if beam.cases.len() > 1 { { cases(&beam, units) } }
            { best(house, &beam, units) }
            { basis(&beam.basis) }
            <h2>{ "Racking" }</h2>
            { match &racked {
                Ok(racked) => racking_table(plan, racked, units),
                Err(reason) => why("Racking", reason),
            } }
        </>
    }
}

/// Sag and droop with what is known of the stiffness; the bounds by their names.
fn sags(plan: &Plan, house: &HouseBox, beam: &BoxBeam, units: UnitSystem) -> Html {
    let known = stiffnesses(house);
    if known.is_empty() {
        let missing = format!(
            "cannot be checked: how stiff box {} is against bending is not entered. Moments only; no stiffness is guessed",
            house.id
        );
        return html! { <p class="note"><b>{ "Sag: " }</b>{ missing }</p> };
    }
    let [between, beyond] = beam.sags();
    let source = |s: &Stiffness| match s.bound {
        Bound::Figure => house.ei.said.as_ref(),
        Bound::AtMost => house.ei_rim.said.as_ref(),
        Bound::AtLeast => house.ei_wall.said.as_ref(),
    };
    let row = |s: &Stiffness| {
        let reading = match s.bound {
            Bound::Figure => "",
            Bound::AtMost => "no more than ",
            Bound::AtLeast => "no less than ",
        };
        let safe = if s.bound == Bound::AtLeast {
            Safe::Down
        } else {
            Safe::Up
        };
        let shown = |e: Extreme| format!("{reading}{}", small(e.value / s.ei_n_m2).show(units, safe));
        let who = source(s).map_or("nobody named", |said| said.who.as_str());
        (format!("{}; from: {who}", s.words), vec![shown(between), shown(beyond)])
    };
    let outcomes: Vec<String> = sag_findings(plan, house, beam)
        .iter()
        .map(|f| match f.compared(units) {
            Some([demand, limit, _]) => format!("{}: {demand} of {limit}, {}", f.subject, f.outcome.words()),
            None => format!("{}: {}", f.subject, f.outcome.words()),
        })
        .collect();
    html! {
        <>
            { table("Sag from the line of the outer picks".into(), &heads(["Stiffness against bending", "Between the picks", "Beyond them"]), known.iter().map(row).collect()) }
            { basis(&outcomes) }
        </>
    }
}

/// Every way of loading and sharing: with more than two sections of picks the truth lies between the bounds.
fn cases(beam: &BoxBeam, units: UnitSystem) -> Html {
    let row = |case: &BeamCase| {
        let pulls: Vec<String> = case
            .beam
            .pulls
            .iter()
            .map(|p| force(p.up_n).show(units, Safe::Up))
            .collect();
        let cells = vec![
            moment(case.moments[0].value).show(units, Safe::Up),
            moment(case.moments[1].value).show(units, Safe::Up),
            force(case.shear.value).show(units, Safe::Up),
            pulls.join(" · "),
        ];
        (case.words.clone(), cells)
    };
    let names = heads(["Taken", "Sagging", "Hogging", "Shear", "Pull at each section of picks"]);
    table(
        "Cases: the worst of each counts".into(),
        &names,
        beam.cases.iter().map(row).collect(),
    )
}

fn best(house: &HouseBox, beam: &BoxBeam, units: UnitSystem) -> Html {
    let (sag, hog) = (beam.moments()[0].value.abs(), beam.moments()[1].value.abs());
    let now_m: Vec<String> = beam
        .sections_m
        .iter()
        .map(|m| metres(*m).show(units, Safe::Nearest))
        .collect();
    match pick_places(house, beam) {
        Ok([by_moment, by_sag]) => {
            let places = |at_m: [f64; 2]| at_m.map(|m| metres(m).show(units, Safe::Nearest)).join(" · ");
            let length_m = beam.cases.first().map_or(1.0, |case| case.beam.length_m);
            let over = |at_m: [f64; 2]| format!("{:.4} L · {:.4} L", at_m[0] / length_m, 1.0 - at_m[1] / length_m);
            let rows = vec![
                (
                    "as they are".to_owned(),
                    vec![
                        now_m.join(" · "),
                        String::new(),
                        moment(sag.max(hog)).show(units, Safe::Up),
                    ],
                ),
                (
                    "least moment".to_owned(),
                    vec![
                        places(by_moment.at_m),
                        over(by_moment.at_m),
                        moment(by_moment.least).show(units, Safe::Up),
                    ],
                ),
                (
                    "least sag".to_owned(),
                    vec![places(by_sag.at_m), over(by_sag.at_m), String::new()],
                ),
            ];
            let names = heads([
                "Two sections of picks",
                "From the first end",
                "From each end",
                "Largest moment",
            ]);
            table(
                "Where picks would strain this box least, within the factory's range; even weight: 0.2071 L and 0.2232 L. Pick points are the factory engineer's".into(),
                &names,
                rows,
            )
        }
        Err(reason) => why("Better places for picks", &format!("{reason} is not entered")),
    }
}

fn racking_table(plan: &Plan, racked: &Racking, units: UnitSystem) -> Html {
    let row = |case: &RackingCase| {
        let finding = racking_finding(plan, racked, case.torque_n_m);
        let face = finding.compared(units).map_or_else(
            || show::NONE.to_owned(),
            |[demand, limit, _]| format!("{demand} of {limit}"),
        );
        let twist = racked.twist(case);
        let cells = vec![
            moment(case.torque_n_m).show(units, Safe::Up),
            face,
            shown(twist.map(|(rad, _)| radians(rad)), units, Safe::Up),
            shown(twist.map(|(_, m)| small(m)), units, Safe::Up),
            word(&finding.outcome),
        ];
        (case.words.clone(), cells)
    };
    let names = heads([
        "Case",
        "Torque",
        "Worst face racks",
        "Twist",
        "One corner out of plane",
        "Outcome",
    ]);
    let mut notes = racked.basis.clone();
    notes.push("limits on racking are yours: the default is judgement, not published".into());
    for missing in [racked.faces.as_ref().err(), racked.gj_n_m2.as_ref().err()]
        .into_iter()
        .flatten()
    {
        let line = format!("cannot be checked: {missing}");
        if !notes.contains(&line) {
            notes.push(line);
        }
    }
    if let Some(share) = racked.open_share() {
        notes.push(format!(
            "with one side open it would keep at most {} % of its stiffness against twist (thin strips, boards taken as 25 mm): an open marriage side is no closed cell",
            number(share * 100.0, 3, Safe::Up)
        ));
    }
    if racked.cases.iter().all(|case| !case.words.contains("equaliser")) {
        notes.push("an equaliser would change nothing here: no four legs go straight to one hook, each end already shares by itself".into());
    }
    html! {
        <>
            { table("Torque between the picks, and what it does to the sheathing".into(), &names, racked.cases.iter().map(row).collect()) }
            { basis(&notes) }
        </>
    }
}

fn the_raise(props: &Props, index: usize, entered: &RaiseArc) -> Html {
    let (plan, assessment) = (&props.plan, &props.assessment);
    let (arc, points) = match raise_arc(plan, assessment, index, ARC_STEPS) {
        Ok(found) => found,
        Err(reason) => return why("The raise", &reason),
    };
    let units = assessment.units;
    let lift = &assessment.lifts[index];
    let mass = |n: f64| Amount::Mass(Force::n(n.abs()).as_mass());
    let worst = arc.largest_pull();
    let radii = points.iter().map(|p| p.end.radius_m);
    let (least, most) = (radii.clone().fold(f64::INFINITY, f64::min), radii.fold(0.0, f64::max));
    let figures = vec![
        (
            "Largest pull",
            shown(worst.map(|w| mass(w.pull_n)), units, Safe::Up),
            "over the whole arc".into(),
        ),
        (
            "Planned with",
            shown(lift.load.planned_kg.map(show::kilograms), units, Safe::Up),
            "larger of that and the least share, with the contingency".into(),
        ),
        (
            "Hinge carries",
            shown(worst.map(|w| mass(w.hinge_up_n)), units, Safe::Up),
            "upwards, both ends together".into(),
        ),
        (
            "Hinge pushed",
            shown(worst.map(|w| mass(w.hinge_along_n)), units, Safe::Up),
            "sideways".into(),
        ),
        (
            "Radius",
            format!(
                "{} to {}",
                figure(Some(metres(least)), units, Safe::Down),
                metres(most).show(units, Safe::Up)
            ),
            "over the arc".into(),
        ),
        (
            "Balance",
            radians(arc.panel.balance_rad()).show(units, Safe::Nearest),
            "there the panel wants to fall the other way".into(),
        ),
    ];
    html! {
        <>
            { key_figures(figures) }
            <p class="note stop">
                <b>{ "Nobody under the panel until it is tied." }</b>
                { " Knee walls and struts stand and are nailed before the sling goes slack. The lift director looks at each raise; its legs change length and its load moves while it is up." }
            </p>
            if !entered.restraint.trim().is_empty() { <p class="note">{ "Held back by: " }{ entered.restraint.trim() }</p> }
            <div class="rig-drawings">
                { draw(props, StructureView::Raise(index)) }
                { draw(props, StructureView::Pull(index)) }
            </div>
            { arc_table(&arc, &points, units) }
        </>
    }
}

fn arc_table(arc: &Arc, points: &[ArcPoint], units: UnitSystem) -> Html {
    let mass = |n: Option<f64>| figure(n.map(|n| Amount::Mass(Force::n(n).as_mass())), units, Safe::Up);
    let row = |p: &ArcPoint| {
        let pull = p.pull;
        let pick = arc.panel.pick_m(p.angle_rad);
        let cells = vec![
            mass(pull.map(|q| q.plumb_n)),
            mass(pull.map(|q| q.pull_n)),
            mass(pull.map(|q| q.hinge_up_n)),
            mass(pull.map(|q| q.hinge_along_n)),
            figure(Some(metres(pick[0])), units, Safe::Nearest),
            figure(Some(metres(pick[1])), units, Safe::Nearest),
            figure(Some(metres(p.end.radius_m)), units, Safe::Up),
            shown(p.end.use_of_chart, units, Safe::Up),
        ];
        (radians(p.angle_rad).show(units, Safe::Nearest), cells)
    };
    let (kg, m) = (mass_unit(units), length_unit(units));
    let names = [
        "Panel, from the horizontal".to_owned(),
        format!("Plumb pull, {kg}"),
        format!("Pull at worst lean, {kg}"),
        format!("Hinge up, {kg}"),
        format!("Hinge sideways, {kg}"),
        format!("Pick out, {m}"),
        format!("Pick up, {m}"),
        format!("Radius, {m}"),
        "Use of chart".to_owned(),
    ];
    table(
        "Over the whole arc; the pick is from the hinge, the hook plumb over it".into(),
        &names,
        points.iter().map(row).collect(),
    )
}
