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
}

impl Start {
    fn with(plan: Plan, place: Shared<Place>, notices: Vec<Notice>) -> Self {
        Self {
            history: History::new(plan),
            place,
            notices,
        }
    }

    /// The invented scenario; it is kept from its first edit on.
    pub fn sample(notices: Vec<Notice>) -> Self {
        Self::with(sample::plan(), Place::fresh(""), notices)
    }
}

/// The plan that [`start`] will open, for a look at it before; `None` where that needs more than reading the shelf.
pub async fn glance() -> Option<Plan> {
    let left = [PUT_ASIDE, LAST_PLAN].map(browser::read_store);
    if left.iter().any(|kept| kept.as_ref().is_ok_and(Option::is_some)) || !browser::stored_under(SET_DOWN).is_empty() {
        return None;
    }
    match keeper::open_last() {
        Some(id) if id == SAMPLE => Some(sample::plan()),
        Some(id) => open(shelf::read(&id).await.ok()??).ok().map(|(opened, _)| opened.plan),
        None => shelf::list().await.ok()?.is_empty().then(sample::plan),
    }
}

/// A plan to open, its place, and the name of its last edit where that is not kept yet.
type Found = (Opened, Shared<Place>, Option<String>);

/// The plan of the last visit; at the first visit the scenario.
pub async fn start() -> Start {
    keeper::begin();
    let mut notices = Vec::new();
    let Some((opened, place, unkept)) = last_visit(&mut notices).await else {
        return Start::sample(notices);
    };
    let told = |note: &String| Notice::say(format!("In the plan kept on this device: {note}"));
    notices.extend(opened.notes.iter().map(told));
    let start = Start::with(opened.plan, place, notices);
    if let Some(edit) = unkept {
        keeper::commit(&start.place, start.history.present(), edit, None);
    }
    start
}

/// What the last visit has left: an edit of it that waits, the plan of an earlier build, the plan that was open, the one edited last.
async fn last_visit(notices: &mut Vec<Notice>) -> Option<Found> {
    let list = shelf::list().await.unwrap_or_else(|reason| {
        refuse(notices, &reason);
        Vec::new()
    });
    let earlier = take_over(notices).await;
    let waiting = take_up(notices).await;
    let wanted = match waiting.or(earlier) {
        Some(GoOn::Unkept(found)) => return Some(*found),
        Some(GoOn::OnShelf(id)) => Some(id),
        None => keeper::open_last(),
    };
    if wanted.as_deref() == Some(SAMPLE) {
        return None;
    }
    let newest = list.iter().find(|kept| kept.record.is_ok()).map(|kept| kept.id.clone());
    for id in wanted.into_iter().chain(newest) {
        match shelf::read(&id).await.map(|kept| kept.map(open)) {
            Ok(None) => {}
            Ok(Some(Ok((opened, place)))) => return Some((opened, place, None)),
            Ok(Some(Err(error))) => {
                notices.push(Notice::say(format!(
                    "The plan kept on this device was not opened: {error}. It is put aside as it is: save it as a file under Plans"
                )));
                return None;
            }
            Err(reason) => {
                refuse(notices, &reason);
                return None;
            }
        }
    }
    None
}

/// Says that the shelf refuses.
fn refuse(notices: &mut Vec<Notice>, reason: &str) {
    keeper::refused();
    notices.retain(|notice| !notice.offers_file);
    notices.push(Notice::offer_file(keeper::not_kept(reason)));
}

/// A plan to go on with.
enum GoOn {
    OnShelf(String),
    /// The shelf refuses it.
    Unkept(Box<Found>),
}

/// Reads a plan of the shelf. The error says what is wrong with it.
pub fn open((kept, text): (Kept, String)) -> Result<(Opened, Shared<Place>), String> {
    kept.record.as_ref().map_err(Clone::clone)?;
    let opened = format::open(&text).map_err(|error| error.to_string())?;
    Ok((opened, Place::of(&kept)))
}

/// Takes over what an earlier build has kept; the plan to go on with. What the shelf refuses stays where it is.
async fn take_over(notices: &mut Vec<Notice>) -> Option<GoOn> {
    const EDIT: &str = "kept by an earlier build";
    let mut plan = None;
    for key in [PUT_ASIDE, LAST_PLAN] {
        let Some(text) = browser::read_store(key).ok().flatten() else {
            continue;
        };
        let id = key_of(&text);
        match put_aside(&id, &text, EDIT).await {
            Ok(()) => {
                browser::remove_store(key);
                plan = Some(GoOn::OnShelf(id));
            }
            Err(reason) => {
                refuse(notices, &reason);
                let opened = format::open(&text).ok();
                plan = opened.map(|opened| GoOn::Unkept(Box::new((opened, Place::at(id, 0, ""), Some(EDIT.into())))));
            }
        }
    }
    plan
}

/// The key of a text that is put on the shelf as it is. It follows from the text, so that two windows that start at once put it there once.
fn key_of(text: &str) -> String {
    format!("earlier-{:016x}", digest(text))
}

/// Puts a text on the shelf as it is; where it stands there already, it stays.
async fn put_aside(id: &str, text: &str, edit: &str) -> Result<(), String> {
    let title = format::open(text).map_or_else(
        |_| Title {
            name: UNREAD.into(),
            ..Title::default()
        },
        |opened| keeper::title_of(&opened.plan),
    );
    keeper::put(id, title, "", edit, text).await
}

/// FNV-1a, 64 bits (IETF draft-eastlake-fnv): enough to tell texts apart that nobody forges.
fn digest(text: &str) -> u64 {
    let step = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    text.bytes().fold(0xcbf2_9ce4_8422_2325, step)
}

/// Puts on the shelf what was set down while a page was left; the plan to go on with, where that is another one or still waits.
async fn take_up(notices: &mut Vec<Notice>) -> Option<GoOn> {
    let mut plan = None;
    for (id, written) in browser::stored_under(SET_DOWN) {
        match take_up_one(&id, &written, notices).await {
            Ok(copy) => {
                browser::remove_store(&format!("{SET_DOWN}{id}"));
                plan = copy.map(GoOn::OnShelf).or(plan);
            }
            Err(reason) => {
                refuse(notices, &reason);
                if let Some((next, opened, _)) = read_set_down(&written) {
                    let place = Place::at(id, next.turn, &next.note);
                    plan = Some(GoOn::Unkept(Box::new((opened, place, Some(next.edit)))));
                }
            }
        }
    }
    plan
}

/// The same for one edit; the key of its plan's copy, where the plan was open last and another window has written since.
async fn take_up_one(id: &str, written: &str, notices: &mut Vec<Notice>) -> Result<Option<String>, String> {
    let Some((next, _, text)) = read_set_down(written) else {
        put_aside(&key_of(written), written, "set down when a page was left").await?;
        return Ok(None);
    };
    if !matches!(shelf::write(id, next.clone(), &text).await?, Written::Conflict) {
        return Ok(None);
    }
    let own = keeper::add(next.title, "this window's copy", &next.edit, &text).await?;
    notices.push(Notice::say(
        "A plan was edited in two windows when one of them was closed. Nothing was overwritten: both stand under Plans, the one of the window that was closed as \"this window's copy\"",
    ));
    Ok((keeper::open_last().as_deref() == Some(id)).then_some(own))
}

fn read_set_down(written: &str) -> Option<(Next, Opened, String)> {
    let value: Value = serde_json::from_str(written).ok()?;
    let number = |key: &str| u32::try_from(value[key].as_u64()?).ok();
    let text = |key: &str| value[key].as_str().map(str::to_owned);
    let plan = text("text")?;
    let opened = format::open(&plan).ok()?;
    let next = Next {
        turn: number("turn")?,
        window: text("window")?,
        count: value["count"].as_u64()?,
        title: keeper::title_of(&opened.plan),
        note: text("note")?,
        at_ms: value["at"].as_f64()?,
        edit: text("edit")?,
        gesture: number("gesture"),
    };
    Some((next, opened, plan))
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
