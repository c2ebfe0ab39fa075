//! Findings, each with its working one tap away, as an engineer writes it.

use super::show::{self, shown};
use crate::check::{Check, Finding, Working};
use crate::quantity::{Safe, UnitSystem};
use yew::prelude::*;

/// The findings of one lift, in groups.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// Gravest first.
    pub findings: Vec<Finding>,
    /// Units to show them in.
    pub units: UnitSystem,
}

/// Whom a check is the business of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Crane,
    Rig,
    Box,
    Load,
    Site,
}

impl Group {
    const ALL: [Self; 5] = [Self::Crane, Self::Site, Self::Rig, Self::Box, Self::Load];

    const fn of(check: Check) -> Self {
        match check {
            check if check.is_crane_side() => Self::Crane,
            Check::CraneLevel | Check::TrialLift | Check::Critical | Check::Scope => Self::Crane,
            Check::PowerLine | Check::Wind | Check::Order => Self::Site,
            Check::BoxBeam | Check::BoxSag | Check::Racking | Check::RoofRaise => Self::Box,
            Check::Weight | Check::Ticket => Self::Load,
            _ => Self::Rig,
        }
    }

    const fn title(self) -> &'static str {
        match self {
            Self::Crane => "Crane",
            Self::Site => "Site and order",
            Self::Rig => "Rigging",
            Self::Box => "Box and roof",
            Self::Load => "Weight",
        }
    }
}

/// Shows them.
#[component]
pub fn Findings(props: &Props) -> Html {
    let group = |group: Group| {
        let mut findings = props.findings.iter().filter(|f| Group::of(f.check) == group).peekable();
        if findings.peek().is_none() {
            return Html::default();
        }
        html! {
            <section class="findings">
                <h3>{ group.title() }</h3>
                { for findings.map(|f| finding(f, props.units)) }
            </section>
        }
    };
    html! { { for Group::ALL.map(group) } }
}

fn finding(finding: &Finding, units: UnitSystem) -> Html {
    let opens = !finding.working.is_empty();
    let line = html! {
        <>
            <span class="what"><b>{ finding.check.title() }</b>{ ", " }{ &finding.subject }</span>
            <span class="compared">{ compared(finding, units) }</span>
            { show::mark(&finding.outcome) }
        </>
    };
    html! {
        <div class={classes!("verdict", show::outcome_class(&finding.outcome))}>
            if opens {
                <details>
                    <summary>{ line }</summary>
                    <div class="working">{ for finding.working.iter().map(|w| working(w, units)) }</div>
                </details>
            } else {
                <div class="summary">{ line }</div>
            }
            if !finding.outcome.is_within() {
                <p class="why">{ finding.outcome.words() }</p>
            }
            { for finding.cautions.iter().map(|text| html! { <p class="why">{ "Caution: " }{ text }</p> }) }
        </div>
    }
}

/// Both sides of the comparison and the share of the limit.
fn compared(finding: &Finding, units: UnitSystem) -> Html {
    let Some([demand, limit, share]) = finding.compared(units) else {
        return Html::default();
    };
    html! {
        <>
            { demand }<span class="of">{ " of " }</span>{ limit }
            if !share.is_empty() { <span class="share">{ share }</span> }
        </>
    }
}

fn working(working: &Working, units: UnitSystem) -> Html {
    let input = |input: &crate::check::Input| {
        html! { <li><code>{ input.symbol }</code>{ " " }{ input.meaning }{ ", " }{ shown(Some(input.value), units, Safe::Nearest) }</li> }
    };
    html! {
        <div class="line">
            <p class="meaning">{ working.meaning.to_string() }</p>
            <p><code>{ working.text(units) }</code></p>
            if !working.inputs.is_empty() {
                <ul>{ for working.inputs.iter().map(input) }</ul>
            }
            <p class="source">{ "Source: " }{ working.source.to_string() }</p>
        </div>
    }
}
