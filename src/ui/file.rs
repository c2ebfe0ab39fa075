//! Plans as files: saved by the browser, read from what somebody chose or dropped.

use super::browser;
use super::keeper::Place;
use super::notices::{Tell, Teller};
use super::route::Route;
use super::store::{Action, Dispatch, Shared};
use crate::plan::{Plan, format};
use web_sys::File;
use yew::prelude::*;

/// Reads a plan file and opens it; what stands in the way is told, and the open plan stays.
pub fn open(file: File, dispatch: Dispatch, teller: Teller) {
    yew::platform::spawn_local(async move {
        let name = file.name();
        let opened = match browser::text_of(file).await {
            Ok(text) => format::open(&text).map_err(|error| error.to_string()),
            Err(reason) => Err(format!("the file could not be read ({reason}): choose it again")),
        };
        match opened {
            Ok(opened) => {
                for note in opened.notes {
                    teller.dispatch(Tell::Say(format!("{name}: {note}")));
                }
                let edit = format!("opened {name}");
                dispatch.dispatch(Action::Open(Box::new(opened.plan), Place::fresh(""), Some(edit)));
                browser::go_to(&Route::Day.address());
            }
            Err(error) => teller.dispatch(Tell::Say(format!(
                "{name} was not opened: {error}. The plan on the page is unchanged"
            ))),
        }
    });
}

/// Saves a text as a file; a refusal is told.
pub fn save_text(name: &str, text: &str, teller: &Teller) {
    if let Err(reason) = browser::download(name, text) {
        teller.dispatch(Tell::Say(format!(
            "{name} was not saved: the browser refuses ({reason})"
        )));
    }
}

/// Saves the plan on the page.
pub fn save_button(plan: &Shared<Plan>, teller: &Teller) -> Html {
    let name = name_of(plan);
    let save = {
        let (plan, teller, name) = (plan.clone(), teller.clone(), name.clone());
        move |_| save_text(&name, &format::save(&plan), &teller)
    };
    html! { <button type="button" class="main" onclick={save}>{ "Save " }{ name }</button> }
}

/// A file's name for a plan: "the-halden-rev-A.json".
pub fn name_of(plan: &Plan) -> String {
    let name = words(&plan.project.name).to_ascii_lowercase();
    let name = if name.is_empty() { "set-day-plan" } else { &name };
    match words(&plan.project.revision) {
        revision if revision.is_empty() => format!("{name}.json"),
        revision => format!("{name}-rev-{revision}.json"),
    }
}

/// Letters and digits of a text, its words joined by "-".
pub fn words(text: &str) -> String {
    let kept: String = text
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    kept.split_whitespace().collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_after_project_and_revision() {
        let mut plan = Plan::default();
        assert_eq!(name_of(&plan), "set-day-plan-rev-A.json");
        plan.project.name = "The Halden: lot 7/8".into();
        plan.project.revision = String::new();
        assert_eq!(name_of(&plan), "the-halden-lot-7-8.json");
    }
}
