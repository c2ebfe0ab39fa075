//! The issue of a plan: under which letter and day it goes out, what has changed since, what changed from one revision to the next.

use super::browser;
use super::store::{Action, Dispatch, Shared};
use crate::plan::{Issue, Plan, Standing, differences, format, inputs, issue, next_revision};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the panel works with.
#[derive(Clone, Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
}

/// What is typed before it is issued.
#[derive(Clone, Default, PartialEq)]
struct Typed {
    revision: String,
    date: String,
    reviewed_by: String,
}

/// Shows how the plan stands, issues it, and lists what changed.
#[component]
pub fn IssuePanel(props: &Props) -> Html {
    let dispatch = use_context::<Dispatch>();
    let plan = &props.plan;
    let issued = plan.issues.len();
    let typed = use_state(|| proposed(plan));
    let wrong = use_state(|| None::<String>);
    {
        // after an issue the next letter is proposed
        let (typed, plan) = (typed.setter(), plan.clone());
        use_effect_with(issued, move |_| typed.set(proposed(&plan)));
    }
    let field = |id: &'static str, label: &'static str, text: &str, put: fn(&mut Typed, String)| {
        let typed = typed.clone();
        let oninput = move |event: InputEvent| {
            let input: HtmlInputElement = event.target_unchecked_into();
            let mut next = (*typed).clone();
            put(&mut next, input.value());
            typed.set(next);
        };
        html! {
            <div><label for={id}>{ label }</label><input type="text" autocomplete="off" {id} value={text.to_owned()} {oninput} /></div>
        }
    };
    let go = {
        let (typed, plan, wrong) = (typed.clone(), plan.clone(), wrong.setter());
        move |_| {
            let fault = fault(&plan, &typed);
            if let (None, Some(dispatch)) = (&fault, &dispatch) {
                let Typed {
                    revision,
                    date,
                    reviewed_by,
                } = (*typed).clone();
                let name = format!("issue revision {}", revision.trim());
                dispatch.dispatch(Action::edit(name, move |plan| {
                    issue(plan, revision.trim(), date.trim(), reviewed_by.trim());
                }));
            }
            wrong.set(fault);
        }
    };
    let standing = plan.standing();
    html! {
        <details class="issue no-print" open={matches!(standing, Standing::Void(_))}>
            <summary><b>{ "Issue" }</b><span>{ in_words(standing) }</span></summary>
            if let Standing::Void(issue) = standing { { since(issue, plan) } }
            <div class="issue-fields">
                { field("issue-revision", "Revision", &typed.revision, |t, text| t.revision = text) }
                { field("issue-date", "Date", &typed.date, |t, text| t.date = text) }
                { field("issue-reviewed", "Reviewed by, a name typed", &typed.reviewed_by, |t, text| t.reviewed_by = text) }
                <button type="button" class="main" onclick={go}>{ "Issue revision " }{ typed.revision.trim() }</button>
            </div>
            if let Some(wrong) = &*wrong { <p class="wrong" role="alert">{ wrong }</p> }
            <p class="why">{ "The plan keeps the letter, the date and the checksum of its inputs, which stand on each sheet. Any later change of an input makes the sheets void and clears the name" }</p>
            if issued > 0 {
                <h3>{ "Revisions issued" }</h3>
                <ol class="issues">{ for plan.issues.iter().enumerate().rev().map(|(nth, issue)| revision(plan, nth, issue)) }</ol>
            }
            <CompareFile plan={plan.clone()} />
        </details>
    }
}

fn proposed(plan: &Plan) -> Typed {
    let now = browser::local_time(browser::now_ms());
    Typed {
        revision: next_revision(plan),
        date: now.split(' ').next().unwrap_or_default().into(),
        reviewed_by: plan.project.reviewed_by.clone(),
    }
}

/// What keeps it from being issued.
fn fault(plan: &Plan, typed: &Typed) -> Option<String> {
    let revision = typed.revision.trim();
    if revision.is_empty() {
        return Some("Revision: read nothing, expected a letter: type the one that this issue gets, such as B".into());
    }
    if typed.date.trim().is_empty() {
        return Some("Date: read nothing, expected the day of the issue: type it, such as 2027-05-06".into());
    }
    let earlier = plan.issues.iter().find(|issue| issue.revision.trim() == revision)?;
    Some(format!(
        "Revision: read \"{revision}\", which went out on {}: give this issue another letter",
        earlier.date
    ))
}

fn in_words(standing: Standing<'_>) -> String {
    match standing {
        Standing::NotIssued => "not issued yet: sheets printed now are a draft".into(),
        Standing::Issued(issue) => format!(
            "revision {} of {}, inputs unchanged, plan {}",
            issue.revision, issue.date, issue.checksum
        ),
        Standing::Void(issue) => format!(
            "VOID: the plan has changed since revision {} was issued on {}",
            issue.revision, issue.date
        ),
    }
}

fn since(issue: &Issue, plan: &Plan) -> Html {
    match &issue.inputs {
        Some(before) => html! {
            <>
                <p><b>{ format!("Changed since revision {}:", issue.revision) }</b></p>
                { lines(&differences(&before.0, &inputs(plan))) }
            </>
        },
        None => {
            html! { <p>{ "What has changed cannot be told: this file does not hold the inputs of its last issue" }</p> }
        }
    }
}

fn lines(lines: &[String]) -> Html {
    html! { <ul class="changes">{ for lines.iter().map(|line| html! { <li>{ line }</li> }) }</ul> }
}

fn revision(plan: &Plan, nth: usize, issue: &Issue) -> Html {
    let review = match issue.reviewed_by.as_str() {
        "" => "not reviewed".to_owned(),
        name => format!("reviewed, name entered: {name}"),
    };
    let before = nth.checked_sub(1).and_then(|nth| plan.issues.get(nth));
    html! {
        <li>
            <b>{ format!("Revision {}", issue.revision) }</b>{ format!(", {}, plan {}, {review}", issue.date, issue.checksum) }
            if let Some(before) = before {
                <details>
                    <summary>{ format!("Changed from revision {}: {}", before.revision, count(issue.changes.len())) }</summary>
                    { lines(&issue.changes) }
                </details>
            }
        </li>
    }
}

fn count(lines: usize) -> String {
    match lines {
        0 => "nothing".into(),
        1 => "1 input".into(),
        n => format!("{n} inputs"),
    }
}

/// What differs between the plan on the page and a plan file: another revision that somebody has in hand.
#[component]
fn CompareFile(props: &Props) -> Html {
    let told = use_state(|| None::<(String, Vec<String>)>);
    let onchange = {
        let (told, plan) = (told.setter(), props.plan.clone());
        move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            let Some(file) = input.files().and_then(|files| files.get(0)) else {
                return;
            };
            input.set_value("");
            let (told, plan) = (told.clone(), plan.clone());
            yew::platform::spawn_local(async move {
                let name = file.name();
                let text = browser::text_of(file).await;
                let read = text.and_then(|text| format::open(&text).map_err(|error| error.to_string()));
                told.set(Some(match read {
                    Err(error) => (format!("{name} was not read: {error}"), Vec::new()),
                    Ok(opened) => {
                        let lines = differences(&inputs(&opened.plan), &inputs(&plan));
                        let head = format!("From {name} to the plan on the page: {}", count(lines.len()));
                        (head, lines)
                    }
                }));
            });
        }
    };
    html! {
        <div class="compare">
            <label class="file"><span>{ "Compare with the plan file of another revision" }</span><input type="file" accept=".json,application/json" {onchange} /></label>
            <div role="status">
                if let Some((head, changes)) = &*told { <p><b>{ head }</b></p>{ lines(changes) } }
            </div>
        </div>
    }
}
