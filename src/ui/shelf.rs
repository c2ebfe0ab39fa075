//! The shelf on this device: the browser's database with a record for each plan and the texts of its last versions.
//!
//! Two tables, all of it text: `plans` (plan → its record as JSON) and `texts` ([plan, turn] → the plan file of that version). Every change is
//! one transaction, and it counts as made only when the browser says that it is on the disk.

use super::browser;
use super::record::{self, Next, Record, Step};
use crate::geometry::sort_short;
use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{DomException, IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction};

const NAME: &str = "setday";
const VERSION: u32 = 1;
const PLANS: &str = "plans";
const TEXTS: &str = "texts";
/// How long the database may take to open.
const PATIENCE_MS: i32 = 5_000;

#[wasm_bindgen]
extern "C" {
    /// The browser's `IDBDatabase` with the options of a transaction, which web-sys counts as unstable.
    type Database;
    #[wasm_bindgen(method, catch)]
    fn transaction(this: &Database, tables: &Array, mode: &str, options: &Object) -> Result<IdbTransaction, JsValue>;
}

/// The open database; closed when dropped, so that it never stands in the way of a newer build.
struct Shelf(IdbDatabase);

impl Drop for Shelf {
    fn drop(&mut self) {
        self.0.close();
    }
}

/// A transaction on both tables.
struct Work {
    plans: IdbObjectStore,
    texts: IdbObjectStore,
    transaction: IdbTransaction,
    done: JsFuture,
    _shelf: Shelf,
}

impl Work {
    async fn begin(mode: &str) -> Result<Self, String> {
        let shelf = open().await?;
        let options = Object::new();
        // on the disk, not only with the system: the machine may lose its power
        Reflect::set(&options, &"durability".into(), &"strict".into()).map_err(plain)?;
        let tables = Array::of2(&PLANS.into(), &TEXTS.into());
        let database: &Database = shelf.0.unchecked_ref();
        let transaction = database.transaction(&tables, mode, &options).map_err(plain)?;
        let done = JsFuture::from(Promise::new(&mut |resolve, reject| {
            transaction.set_oncomplete(Some(&resolve));
            transaction.set_onabort(Some(&reject));
        }));
        Ok(Self {
            plans: transaction.object_store(PLANS).map_err(plain)?,
            texts: transaction.object_store(TEXTS).map_err(plain)?,
            transaction,
            done,
            _shelf: shelf,
        })
    }

    /// Ends when all of it is on the disk.
    async fn end(self) -> Result<(), String> {
        match self.done.await {
            Ok(_) => Ok(()),
            Err(_) => Err(said(self.transaction.error())),
        }
    }
}

async fn open() -> Result<Shelf, String> {
    let factory = browser::window().indexed_db().map_err(plain)?;
    let factory = factory.ok_or("this browser has no store for plans")?;
    let request = factory.open_with_u32(NAME, VERSION).map_err(plain)?;
    let asked = request.clone();
    let set_up = Closure::<dyn Fn()>::new(move || {
        let database: Option<IdbDatabase> = asked.result().ok().and_then(|result| result.dyn_into().ok());
        for table in [PLANS, TEXTS] {
            // a failure ends the request with an error
            let _ = database.as_ref().map(|database| database.create_object_store(table));
        }
    });
    request.set_onupgradeneeded(Some(set_up.as_ref().unchecked_ref()));
    let answered = Promise::race(&Array::of2(&answer_to(&request), &patience()));
    match JsFuture::from(answered).await {
        Ok(_) => request
            .result()
            .map(|database| Shelf(database.unchecked_into()))
            .map_err(plain),
        Err(late) if late.is_undefined() => {
            // the database may still come to be set up
            set_up.forget();
            Err(format!("it has not answered for {} s", PATIENCE_MS / 1000))
        }
        Err(_) => Err(said(request.error().ok().flatten())),
    }
}

/// A promise that fails after a while: there are browsers whose database never answers, and a page must not wait for it for ever.
fn patience() -> Promise {
    Promise::new(&mut |_, reject| {
        // without a timer the database is waited for
        let _ = browser::window().set_timeout_with_callback_and_timeout_and_arguments_0(&reject, PATIENCE_MS);
    })
}

fn answer_to(request: &IdbRequest) -> Promise {
    Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    })
}

/// What a request comes to. The transaction stays alive while only answers of its own are awaited.
async fn answer(request: Result<IdbRequest, JsValue>) -> Result<JsValue, String> {
    let request = request.map_err(plain)?;
    match JsFuture::from(answer_to(&request)).await {
        Ok(_) => request.result().map_err(plain),
        Err(_) => Err(said(request.error().ok().flatten())),
    }
}

fn said(error: Option<DomException>) -> String {
    error.map_or_else(|| "the browser gives no reason".into(), |error| plain(error.into()))
}

/// What went wrong, in plain words.
#[allow(clippy::needless_pass_by_value)] // as errors come
fn plain(error: JsValue) -> String {
    let name = error.dyn_ref::<DomException>().map(DomException::name);
    let reason = browser::reason(&error);
    match name.as_deref() {
        Some("QuotaExceededError") => "it is full".into(),
        Some("VersionError") => {
            format!("it was set up by a newer Setday: found a newer one, this build reads version {VERSION} ({reason})")
        }
        Some("SecurityError" | "InvalidStateError" | "NotAllowedError") => {
            format!("the browser does not allow it: {reason}")
        }
        _ => reason,
    }
}

fn key(id: &str, turn: u32) -> JsValue {
    Array::of2(&id.into(), &turn.into()).into()
}

/// All texts of a plan; as a key, a list comes after every number.
fn all_texts(id: &str) -> Result<JsValue, String> {
    let (first, last) = (Array::of1(&id.into()), Array::of2(&id.into(), &Array::new()));
    IdbKeyRange::bound(&first, &last).map(Into::into).map_err(plain)
}

/// A record as it stands. What is there but is no text counts as a damaged one.
fn standing(value: &JsValue) -> Option<String> {
    (!value.is_undefined()).then(|| value.as_string().unwrap_or_default())
}

/// What became of a write.
pub enum Written {
    /// It is on the disk, with this record.
    Kept(Record),
    /// A later edit of the same window was there already.
    Late,
    /// Nothing was written: see [`Step::Conflict`].
    Conflict,
}

/// Writes a plan, if [`record::step`] allows it by what stands there now.
pub async fn write(id: &str, next: Next, text: &str) -> Result<Written, String> {
    let work = Work::begin("readwrite").await?;
    let stands = standing(&answer(work.plans.get(&id.into())).await?);
    let (record, dropped) = match record::step(stands.as_deref(), next) {
        Step::Write(record, dropped) => (record, dropped),
        Step::Late => return Ok(Written::Late),
        Step::Conflict => return Ok(Written::Conflict),
    };
    work.plans
        .put_with_key(&record.written().into(), &id.into())
        .map_err(plain)?;
    work.texts
        .put_with_key(&text.into(), &key(id, record.turn))
        .map_err(plain)?;
    for turn in dropped {
        work.texts.delete(&key(id, turn)).map_err(plain)?;
    }
    work.end().await?;
    Ok(Written::Kept(record))
}

/// A plan on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// The plan's key.
    pub id: String,
    /// Its record, or why that cannot be read.
    pub record: Result<Record, String>,
}

/// All plans, the one edited last on top.
pub async fn list() -> Result<Vec<Kept>, String> {
    let work = Work::begin("readonly").await?;
    let ids = answer(work.plans.get_all_keys()).await?;
    let records = answer(work.plans.get_all()).await?;
    let (ids, records) = (Array::from(&ids), Array::from(&records));
    let mut all: Vec<Kept> = ids
        .iter()
        .zip(records.iter())
        .map(|(id, record)| Kept {
            id: id.as_string().unwrap_or_default(),
            record: Record::read(&standing(&record).unwrap_or_default()),
        })
        .collect();
    let edited = |kept: &Kept| kept.record.as_ref().map_or(0.0, Record::edited_ms);
    sort_short(&mut all, |a, b| edited(b).total_cmp(&edited(a)));
    Ok(all)
}

/// A plan's record and its newest text; of a damaged record, the newest text that there is. None where nothing stands.
pub async fn read(id: &str) -> Result<Option<(Kept, String)>, String> {
    let work = Work::begin("readonly").await?;
    let Some(raw) = standing(&answer(work.plans.get(&id.into())).await?) else {
        return Ok(None);
    };
    let record = Record::read(&raw);
    let text = match &record {
        Ok(record) => answer(work.texts.get(&key(id, record.turn))).await?.as_string(),
        Err(_) => Array::from(&answer(work.texts.get_all_with_key(&all_texts(id)?)).await?)
            .pop()
            .as_string(),
    };
    let kept = Kept {
        id: id.to_owned(),
        record,
    };
    // a record without any text is itself what can be saved
    Ok(Some((kept, text.unwrap_or(raw))))
}

/// The text of one version.
pub async fn text_at(id: &str, turn: u32) -> Result<Option<String>, String> {
    let work = Work::begin("readonly").await?;
    Ok(answer(work.texts.get(&key(id, turn))).await?.as_string())
}

/// A plan that was taken off the shelf, whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Taken {
    /// Its key.
    pub id: String,
    /// Its name in the list.
    pub label: String,
    /// Its record as it stood.
    pub record: String,
    /// Its texts by turn.
    pub texts: Vec<(u32, String)>,
}

/// Takes a plan off the shelf.
pub async fn take(id: &str, label: String) -> Result<Option<Taken>, String> {
    let work = Work::begin("readwrite").await?;
    let Some(record) = standing(&answer(work.plans.get(&id.into())).await?) else {
        return Ok(None);
    };
    let range = all_texts(id)?;
    let turns = Array::from(&answer(work.texts.get_all_keys_with_key(&range)).await?);
    let texts = Array::from(&answer(work.texts.get_all_with_key(&range)).await?);
    let turn = |key: JsValue| Array::from(&key).get(1).as_f64().unwrap_or(0.0) as u32;
    let texts = turns
        .iter()
        .zip(texts.iter())
        .map(|(key, text)| (turn(key), text.as_string().unwrap_or_default()));
    let taken = Taken {
        id: id.to_owned(),
        label,
        record,
        texts: texts.collect(),
    };
    work.plans.delete(&id.into()).map_err(plain)?;
    work.texts.delete(&range).map_err(plain)?;
    work.end().await?;
    Ok(Some(taken))
}

/// Puts back what was taken off; refused where something stands in its place.
pub async fn put_back(taken: &Taken) -> Result<(), String> {
    let work = Work::begin("readwrite").await?;
    answer(
        work.plans
            .add_with_key(&taken.record.as_str().into(), &taken.id.as_str().into()),
    )
    .await?;
    for (turn, text) in &taken.texts {
        work.texts
            .put_with_key(&text.into(), &key(&taken.id, *turn))
            .map_err(plain)?;
    }
    work.end().await
}
