//! Keeps every edit that was committed: at once, one write at a time, the newest next. Never over what another window has written.

use super::browser;
use super::notices::{Tell, Teller};
use super::record::{self, Next, Title};
use super::shelf::{self, Kept, Taken, Written};
use super::store::Shared;
use crate::plan::{Plan, format};
use core::cell::{Cell, RefCell};
use core::time::Duration;
use serde_json::json;
use std::collections::VecDeque;
use std::rc::Rc;
use yew::prelude::*;

/// Which plan was open last, in this tab and on this device; the crash overlay offers it.
const OPEN: &str = "setday.open";
/// What stands there while the sample is open and was not edited.
pub const SAMPLE: &str = "sample";
/// Before the key of a plan: its last edit, set down while the page was being left and the shelf had not answered yet.
pub const SET_DOWN: &str = "setday.unwritten.";
/// The browser was asked to keep the plans.
const ASKED: &str = "setday.asked";
/// How the windows of this browser talk to each other.
const CHANNEL: &str = "setday";
/// The longest that anything waits for the shelf.
const PATIENCE: Duration = Duration::from_secs(5);

const ALSO_OPEN: &str = "This plan is also open in another window of this browser. Nothing will be overwritten: if both are edited, the one that is edited second becomes a plan of its own. Better close one of them";
const EDITED_ELSEWHERE: &str = "The plan on this page was edited in another window of this browser, and stands here as it was before. To go on with the newer one, open it under Plans. An edit made here becomes a plan of its own; nothing is overwritten";
const DELETED_ELSEWHERE: &str = "The plan on this page was deleted in another window of this browser. The next edit made here keeps it as a plan of its own";

/// Where the plan on the page stands on the shelf.
#[derive(Debug)]
pub struct Place {
    id: RefCell<String>,
    turn: Cell<u32>,
    note: RefCell<String>,
}

impl Place {
    /// The place of a plan that is not on the shelf yet.
    pub fn fresh(note: &str) -> Shared<Self> {
        Self::at(browser::new_name(), 0, note)
    }

    /// The place of a plan that is.
    pub fn of(kept: &Kept) -> Shared<Self> {
        match &kept.record {
            Ok(record) => Self::at(kept.id.clone(), record.turn, &record.note),
            Err(_) => Self::fresh(""),
        }
    }

    /// The place of a plan by its key and the turn that was seen of it.
    pub fn at(id: String, turn: u32, note: &str) -> Shared<Self> {
        Shared(Rc::new(Self {
            id: RefCell::new(id),
            turn: Cell::new(turn),
            note: RefCell::new(note.to_owned()),
        }))
    }

    /// The plan's key.
    pub fn id(&self) -> String {
        self.id.borrow().clone()
    }

    /// The turn of the record that this window has seen last; 0 before the first write.
    pub fn turn(&self) -> u32 {
        self.turn.get()
    }
}

/// A commit that is not on the shelf yet.
#[derive(Clone)]
struct Due {
    place: Shared<Place>,
    plan: Rc<Plan>,
    edit: String,
    gesture: Option<u32>,
    at_ms: f64,
    count: u64,
}

impl Due {
    fn next(&self) -> Next {
        Next {
            turn: self.place.turn(),
            window: KEEPER.with(|keeper| keeper.window.borrow().clone()),
            count: self.count,
            title: title_of(&self.plan),
            note: self.place.note.borrow().clone(),
            at_ms: self.at_ms,
            edit: self.edit.clone(),
            gesture: self.gesture,
        }
    }
}

/// By what a plan is known in the list.
pub fn title_of(plan: &Plan) -> Title {
    Title {
        name: plan.project.name.clone(),
        place: plan.project.place.clone(),
        set_day: plan.project.set_day.clone(),
    }
}

/// What one page keeps in mind; the second module goes on with it.
#[derive(Default)]
struct Keeper {
    /// The page's name among the windows; a page loaded anew has another.
    window: RefCell<String>,
    /// Commits so far.
    count: Cell<u64>,
    /// Waiting to be written; the first one is being written while `writing`.
    due: RefCell<VecDeque<Due>>,
    writing: Cell<bool>,
    /// Writes the plan's text.
    saver: RefCell<format::Saver>,
    /// The shelf refused the last write.
    refused: Cell<bool>,
    /// A pointer is down: a drag is committed when it lets go.
    held: Cell<bool>,
    /// The place of the plan on the page.
    shown: RefCell<Option<Shared<Place>>>,
    teller: RefCell<Option<Teller>>,
    channel: RefCell<Option<browser::Channel>>,
    /// Deleted plans, until the page is left.
    deleted: RefCell<Vec<Taken>>,
    /// Told when something on the shelf has changed.
    watch: RefCell<Option<Callback<()>>>,
}

thread_local! {
    static KEEPER: Keeper = Keeper::default();
}

/// Starts for a page that was loaded anew.
pub fn begin() {
    KEEPER.with(|keeper| keeper.window.replace(browser::new_name()));
}

/// Takes an edit that was committed. Called by the reducer: a render may skip a state, an edit must not be skipped.
pub fn commit(place: &Shared<Place>, plan: &Rc<Plan>, edit: String, gesture: Option<u32>) {
    KEEPER.with(|keeper| {
        keeper.count.set(keeper.count.get() + 1);
        let due = Due {
            place: place.clone(),
            plan: Rc::clone(plan),
            edit,
            gesture,
            at_ms: browser::now_ms(),
            count: keeper.count.get(),
        };
        let mut waiting = keeper.due.borrow_mut();
        // the first one is out of reach while it is being written
        let in_reach = waiting.len() > usize::from(keeper.writing.get());
        if in_reach && waiting.back().is_some_and(|last| last.place == due.place) {
            waiting.pop_back();
        }
        waiting.push_back(due);
    });
    write_what_is_due();
}

fn write_what_is_due() {
    if KEEPER.with(|keeper| keeper.writing.replace(true)) {
        return;
    }
    yew::platform::spawn_local(async {
        while let Some(due) = next_due() {
            let outcome = keep(&due).await;
            if !settle(&due, outcome) {
                break;
            }
        }
        KEEPER.with(|keeper| keeper.writing.set(false));
    });
}

fn next_due() -> Option<Due> {
    KEEPER.with(|keeper| {
        let first = keeper.due.borrow().front().cloned()?;
        let dragging = first.gesture.is_some() && keeper.held.get();
        (!dragging).then_some(first)
    })
}

/// Writes one commit. Where another window was faster, the plan of this one becomes a plan of its own.
async fn keep(due: &Due) -> Result<(), String> {
    let text = KEEPER.with(|keeper| keeper.saver.borrow_mut().save(&due.plan));
    let set_down = format!("{SET_DOWN}{}", due.place.id());
    let mut written = shelf::write(&due.place.id(), due.next(), &text).await?;
    if matches!(written, Written::Conflict) {
        let kept = record::label(&due.plan.project.name, "this window's copy");
        due.place.id.replace(browser::new_name());
        due.place.turn.set(0);
        due.place.note.replace("this window's copy".into());
        written = shelf::write(&due.place.id(), due.next(), &text).await?;
        forget_the_others();
        tell(Tell::Say(format!(
            "The plan was edited or deleted in another window after it was opened here. Nothing was overwritten: what that window did stays, and this window's plan is kept on its own as \"{kept}\", under Plans"
        )));
    }
    if let Written::Kept(record) = written {
        due.place.turn.set(record.turn);
        due.place.note.replace(record.note);
    }
    // a page that was left and came back, or an edit that waited since an earlier visit
    browser::remove_store(&set_down);
    Ok(())
}

/// Draws the line under a write; whether to go on with the next one.
fn settle(due: &Due, outcome: Result<(), String>) -> bool {
    match outcome {
        Ok(()) => {
            let (refused, shown) = KEEPER.with(|keeper| {
                keeper.due.borrow_mut().pop_front();
                (keeper.refused.replace(false), keeper.shown.borrow().clone())
            });
            if refused {
                tell(Tell::Kept);
            }
            if shown.as_ref() == Some(&due.place) {
                remember_open(&due.place.id());
            }
            say_to_windows("wrote", &due.place);
            ask_to_persist();
            changed();
            true
        }
        Err(reason) => {
            KEEPER.with(|keeper| keeper.refused.set(true));
            tell(Tell::OfferFile(not_kept(&reason)));
            KEEPER.with(|keeper| {
                let mut waiting = keeper.due.borrow_mut();
                // it waits for the next edit, which may find room; a newer one takes its place
                let newer = waiting.get(1).is_some_and(|next| next.place == due.place);
                if newer {
                    waiting.pop_front();
                }
                newer
            })
        }
    }
}

/// Said when the shelf refuses.
pub fn not_kept(reason: &str) -> String {
    format!(
        "The plan is not kept on this device: the browser's store refuses ({reason}). Save the plan as a file before you leave the page. The next edit tries again"
    )
}

/// Says that the shelf refused before anything was written.
pub fn refused() {
    KEEPER.with(|keeper| keeper.refused.set(true));
}

fn tell(what: Tell) {
    KEEPER.with(|keeper| {
        if let Some(teller) = &*keeper.teller.borrow() {
            teller.dispatch(what);
        }
    });
}

/// What was told about other windows no longer holds.
fn forget_the_others() {
    for told in [ALSO_OPEN, EDITED_ELSEWHERE, DELETED_ELSEWHERE] {
        tell(Tell::Dismiss(told.into()));
    }
}

fn changed() {
    let watch = KEEPER.with(|keeper| keeper.watch.borrow().clone());
    if let Some(watch) = watch {
        watch.emit(());
    }
}

/// Who is told when something on the shelf has changed; one at a time.
pub fn watch(watch: Option<Callback<()>>) {
    KEEPER.with(|keeper| keeper.watch.replace(watch));
}

/// The plan that the shelf has refused, which may be another one than that on the page.
pub fn unkept() -> Option<Shared<Plan>> {
    KEEPER.with(|keeper| {
        let waiting = keeper.due.borrow();
        let first = waiting.front().filter(|_| keeper.refused.get())?;
        Some(Shared(Rc::clone(&first.plan)))
    })
}

/// Whether an edit waits to be kept.
pub fn waits() -> bool {
    KEEPER.with(|keeper| !keeper.due.borrow().is_empty())
}

/// Whether all that was committed is on the shelf, or was refused. Ends a drag: whoever asks is about to do something else.
pub fn is_at_rest() -> bool {
    let waiting = KEEPER.with(|keeper| {
        keeper.held.set(false);
        !keeper.due.borrow().is_empty() && !keeper.refused.get()
    });
    if waiting {
        write_what_is_due();
    }
    !waiting && !KEEPER.with(|keeper| keeper.writing.get())
}

/// Waits for it.
pub async fn at_rest() {
    let pause = Duration::from_millis(4);
    let mut waited = Duration::ZERO;
    while !is_at_rest() && waited < PATIENCE {
        yew::platform::time::sleep(pause).await;
        waited += pause;
    }
}

fn remember_open(id: &str) {
    // where the store refuses, the plan edited last is opened at the next visit
    let _ = browser::write_store(OPEN, id);
    let _ = browser::write_tab_store(OPEN, id);
}

/// The plan that was open last: in this tab, else on this device.
pub fn open_last() -> Option<String> {
    browser::read_tab_store(OPEN).or_else(|| browser::read_store(OPEN).ok().flatten())
}

/// Asks the browser, once on this device, not to clear the plans by itself.
fn ask_to_persist() {
    if browser::read_store(ASKED).is_ok_and(|asked| asked.is_none()) && browser::write_store(ASKED, "yes").is_ok() {
        yew::platform::spawn_local(async {
            browser::ask_to_persist().await;
            changed();
        });
    }
}

/// Says something about a plan to the other windows.
fn say_to_windows(what: &str, place: &Place) {
    say_of(what, &place.id());
}

fn say_of(what: &str, id: &str) {
    KEEPER.with(|keeper| {
        if let Some(channel) = &*keeper.channel.borrow() {
            channel.say(&format!("{what} {id}"));
        }
    });
}

/// Hears what another window says.
fn hear(said: &str) {
    let Some((what, id)) = said.split_once(' ') else {
        return;
    };
    if matches!(what, "wrote" | "gone") {
        changed();
    }
    let here = KEEPER.with(|keeper| keeper.shown.borrow().clone());
    let Some(place) = here.filter(|place| place.id() == id) else {
        return;
    };
    match what {
        "here" => {
            say_to_windows("also", &place);
            tell(Tell::Say(ALSO_OPEN.into()));
        }
        "also" => tell(Tell::Say(ALSO_OPEN.into())),
        "left" => {
            tell(Tell::Dismiss(ALSO_OPEN.into()));
            // a third window may still show it
            say_to_windows("ask", &place);
        }
        "ask" => say_to_windows("also", &place),
        "wrote" => tell(Tell::Say(EDITED_ELSEWHERE.into())),
        "gone" => tell(Tell::Say(DELETED_ELSEWHERE.into())),
        _ => {}
    }
}

/// The plan on the page is another one now.
fn show(place: &Shared<Place>) {
    let (before, due) = KEEPER.with(|keeper| {
        let due = keeper.due.borrow().iter().any(|due| due.place == *place);
        (keeper.shown.replace(Some(place.clone())), due)
    });
    if let Some(before) = before {
        forget_the_others();
        say_to_windows("left", &before);
    }
    let unedited = place.turn() == 0 && !due;
    remember_open(&if unedited { SAMPLE.to_owned() } else { place.id() });
    say_to_windows("here", place);
}

/// Keeps what is edited on this page.
#[hook]
pub fn use_keeping(place: Option<Shared<Place>>, teller: &Teller) {
    {
        let teller = teller.clone();
        use_effect_with((), move |()| {
            KEEPER.with(|keeper| {
                keeper.teller.replace(Some(teller));
                keeper.channel.replace(browser::Channel::open(CHANNEL, hear));
            });
            let release = || {
                KEEPER.with(|keeper| keeper.held.set(false));
                write_what_is_due();
            };
            let ends = [
                browser::on_window("pointerdown", |_| KEEPER.with(|keeper| keeper.held.set(true))),
                browser::on_window("pointerup", move |_| release()),
                browser::on_window("pointercancel", move |_| release()),
                browser::on_window("pagehide", |_| {
                    set_down();
                    if let Some(place) = KEEPER.with(|keeper| keeper.shown.borrow().clone()) {
                        say_to_windows("left", &place);
                    }
                }),
                browser::on_window("beforeunload", |event| {
                    // the browser asks whether to leave
                    if KEEPER.with(|keeper| keeper.refused.get() && !keeper.due.borrow().is_empty()) {
                        event.prevent_default();
                    }
                }),
            ];
            move || {
                for end in ends {
                    end();
                }
                KEEPER.with(|keeper| {
                    keeper.channel.replace(None);
                    keeper.teller.replace(None);
                });
            }
        });
    }
    use_effect_with(place, move |place| {
        if let Some(place) = place {
            show(place);
        }
    });
}

/// Sets down what the shelf has not answered yet, in the one store that answers at once: the page is being left.
fn set_down() {
    KEEPER.with(|keeper| {
        for due in keeper.due.borrow().iter() {
            let next = due.next();
            let text = json!({
                "turn": next.turn, "window": next.window, "count": next.count, "note": next.note,
                "at": next.at_ms, "edit": next.edit, "gesture": next.gesture, "text": format::save(&due.plan),
            });
            // where this store refuses too, the notice has said that the plan is not kept
            let _ = browser::write_store(&format!("{SET_DOWN}{}", due.place.id()), &text.to_string());
        }
    });
}

/// Key and name of the deleted plans, until the page is left.
pub fn deleted() -> Vec<(String, String)> {
    let names = |taken: &Taken| (taken.id.clone(), taken.label.clone());
    KEEPER.with(|keeper| keeper.deleted.borrow().iter().map(names).collect())
}

/// Deletes a plan; until the page is left it can be put back.
pub async fn delete(id: &str, label: String) -> Result<(), String> {
    at_rest().await;
    if let Some(taken) = shelf::take(id, label).await? {
        KEEPER.with(|keeper| keeper.deleted.borrow_mut().push(taken));
    }
    say_of("gone", id);
    changed();
    Ok(())
}

/// Puts a deleted plan back.
pub async fn put_back(id: &str) -> Result<(), String> {
    let taken = KEEPER.with(|keeper| keeper.deleted.borrow().iter().find(|taken| taken.id == id).cloned());
    if let Some(taken) = taken {
        shelf::put_back(&taken).await?;
        KEEPER.with(|keeper| keeper.deleted.borrow_mut().retain(|other| other.id != id));
    }
    changed();
    Ok(())
}

/// Writes a plan that is not on the page as a new one.
pub async fn add(title: Title, note: &str, edit: &str, text: &str) -> Result<String, String> {
    let id = browser::new_name();
    put(&id, title, note, edit, text).await?;
    changed();
    Ok(id)
}

/// The same under a key that is given; where that is taken, nothing is written.
pub async fn put(id: &str, title: Title, note: &str, edit: &str, text: &str) -> Result<(), String> {
    let next = Next {
        turn: 0,
        window: String::new(),
        count: 1,
        title,
        note: note.to_owned(),
        at_ms: browser::now_ms(),
        edit: edit.to_owned(),
        gesture: None,
    };
    shelf::write(id, next, text).await.map(|_| ())
}
