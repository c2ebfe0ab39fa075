//! What the page opens with: the plan of the last visit from the shelf, what an earlier build kept, what was set down while the page was left.

use super::browser;
use super::keeper::{self, Place, SAMPLE, SET_DOWN};
use super::notices::Notice;
use super::record::{Next, Title};
use super::shelf::{self, Kept, Written};
use super::store::Shared;
use crate::plan::format::Opened;
use crate::plan::{History, Plan, format, sample};
use serde_json::Value;

/// Where earlier builds kept the one plan; taken over once.
const LAST_PLAN: &str = "setday.plan.last";
/// Where they put a plan that could not be read.
const PUT_ASIDE: &str = "setday.plan.aside";
/// Plans whose cautions were accepted, one a line.
const ACCEPTED: &str = "setday.accepted";
/// Stands for the name of a text that is no plan to this build.
const UNREAD: &str = "Plan that could not be read";

/// What the page opens with.
pub struct Start {
    /// The plan.
    pub history: History,
    /// Where it is kept.
    pub place: Shared<Place>,
    /// What to tell about it.
    pub notices: Vec<Notice>,
    /// The cautions were accepted for it in this visit.
    pub accepted: bool,
    /// The page goes on from another module: the view is shown as after a step to it.
    pub goes_on: bool,
}

impl Start {
    fn with(plan: Plan, place: Shared<Place>, notices: Vec<Notice>) -> Self {
        Self {
            history: History::new(plan),
            place,
            notices,
            accepted: false,
            goes_on: false,
        }
    }

    /// The invented scenario; it is kept from its first edit on.
    pub fn sample(notices: Vec<Notice>) -> Self {
        Self::with(sample::plan(), Place::fresh(""), notices)
    }
}

/// The plan of the last visit; at the first visit the scenario.
pub async fn start() -> Start {
    keeper::begin();
    let mut notices = Vec::new();
    match from_shelf(&mut notices).await {
        Ok(Some((opened, place))) => {
            let told = |note: &String| Notice::say(format!("In the plan kept on this device: {note}"));
            notices.extend(opened.notes.iter().map(told));
            Start::with(opened.plan, place, notices)
        }
        Ok(None) => Start::sample(notices),
        Err(reason) => {
            keeper::refused();
            notices.push(Notice::offer_file(keeper::not_kept(&reason)));
            // an earlier build's plan is still where it was
            let earlier = browser::read_store(LAST_PLAN).ok().flatten();
            match earlier.and_then(|text| format::open(&text).ok()) {
                Some(opened) => Start::with(opened.plan, Place::fresh(""), notices),
                None => Start::sample(notices),
            }
        }
    }
}

/// The plan to open. The error says why the shelf refuses.
async fn from_shelf(notices: &mut Vec<Notice>) -> Result<Option<(Opened, Shared<Place>)>, String> {
    let list = shelf::list().await?;
    let taken_over = take_over().await?;
    let set_down = take_up(notices).await?;
    let wanted = match taken_over.or(set_down).or_else(keeper::open_last) {
        Some(id) if id == SAMPLE => return Ok(None),
        wanted => wanted,
    };
    let newest = || list.iter().find(|kept| kept.record.is_ok()).map(|kept| kept.id.clone());
    let mut found = None;
    if let Some(id) = &wanted {
        found = shelf::read(id).await?;
    }
    if let (None, Some(id)) = (&found, newest()) {
        found = shelf::read(&id).await?;
    }
    match found.map(open) {
        None => Ok(None),
        Some(Ok(opened)) => Ok(Some(opened)),
        Some(Err(error)) => {
            notices.push(Notice::say(format!(
                "The plan kept on this device was not opened: {error}. It is put aside as it is: save it as a file under Plans"
            )));
            Ok(None)
        }
    }
}

/// Reads a plan of the shelf. The error says what is wrong with it.
pub fn open((kept, text): (Kept, String)) -> Result<(Opened, Shared<Place>), String> {
    kept.record.as_ref().map_err(Clone::clone)?;
    let opened = format::open(&text).map_err(|error| error.to_string())?;
    Ok((opened, Place::of(&kept)))
}

/// Takes over what an earlier build has kept; the plan to go on with.
async fn take_over() -> Result<Option<String>, String> {
    let mut plan = None;
    for key in [PUT_ASIDE, LAST_PLAN] {
        if let Some(text) = browser::read_store(key).ok().flatten() {
            plan = Some(put_aside(&text, "kept by an earlier build").await?);
            browser::remove_store(key);
        }
    }
    Ok(plan)
}

/// Puts a text on the shelf as it is. Its key follows from it, so that two windows that start at once put it there once.
async fn put_aside(text: &str, edit: &str) -> Result<String, String> {
    let title = format::open(text).map_or_else(
        |_| Title {
            name: UNREAD.into(),
            ..Title::default()
        },
        |opened| keeper::title_of(&opened.plan),
    );
    let id = format!("earlier-{:016x}", digest(text));
    keeper::put(&id, title, "", edit, text).await?;
    Ok(id)
}

/// FNV-1a, 64 bits (IETF draft-eastlake-fnv): enough to tell texts apart that nobody forges.
fn digest(text: &str) -> u64 {
    let step = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    text.bytes().fold(0xcbf2_9ce4_8422_2325, step)
}

/// Puts on the shelf what was set down while a page was left; the plan to go on with where its place was taken.
async fn take_up(notices: &mut Vec<Notice>) -> Result<Option<String>, String> {
    let mut copy = None;
    for (id, written) in browser::stored_under(SET_DOWN) {
        let Some((next, text)) = read_set_down(&written) else {
            put_aside(&written, "set down when a page was left").await?;
            browser::remove_store(&format!("{SET_DOWN}{id}"));
            continue;
        };
        if matches!(shelf::write(&id, next.clone(), &text).await?, Written::Conflict) {
            let own = keeper::add(next.title, "this window's copy", &next.edit, &text).await?;
            notices.push(Notice::say(
                "A plan was edited in two windows when one of them was closed. Nothing was overwritten: both stand under Plans, the one of the window that was closed as \"this window's copy\"",
            ));
            copy = (keeper::open_last().as_deref() == Some(&id)).then_some(own).or(copy);
        }
        browser::remove_store(&format!("{SET_DOWN}{id}"));
    }
    Ok(copy)
}

fn read_set_down(written: &str) -> Option<(Next, String)> {
    let value: Value = serde_json::from_str(written).ok()?;
    let number = |key: &str| u32::try_from(value[key].as_u64()?).ok();
    let text = |key: &str| value[key].as_str().map(str::to_owned);
    let plan = text("text")?;
    let next = Next {
        turn: number("turn")?,
        window: text("window")?,
        count: value["count"].as_u64()?,
        title: keeper::title_of(&format::open(&plan).ok()?.plan),
        note: text("note")?,
        at_ms: value["at"].as_f64()?,
        edit: text("edit")?,
        gesture: number("gesture"),
    };
    Some((next, plan))
}

/// The line that stands for a plan among the accepted ones.
fn line_of(plan: &Plan) -> String {
    format!("{} / {}", plan.project.name.trim(), plan.project.place.trim()).replace('\n', " ")
}

/// Whether the cautions were accepted for this plan.
pub fn is_accepted(plan: &Plan) -> bool {
    let line = line_of(plan);
    browser::read_store(ACCEPTED)
        .ok()
        .flatten()
        .is_some_and(|text| text.lines().any(|other| other == line))
}

/// Remembers that they were. Where the store refuses, they are shown again at the next visit.
pub fn accept(plan: &Plan) {
    if is_accepted(plan) {
        return;
    }
    let lines = browser::read_store(ACCEPTED).ok().flatten().unwrap_or_default();
    let _ = browser::write_store(ACCEPTED, &format!("{lines}{}\n", line_of(plan)));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values of the draft's own table (appendix C).
    #[test]
    fn the_digest_is_fnv_1a() {
        assert_eq!(digest(""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(digest("a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(digest("foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn what_was_set_down_half_is_no_edit() {
        for text in ["", "{\"turn\": 1", "{\"turn\": 1, \"window\": \"a\"}"] {
            assert!(read_set_down(text).is_none(), "{text}");
        }
    }
}
