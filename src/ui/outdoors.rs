//! What a phone needs on the lot: a look that can be read in the sun, and a screen that stays on.

use super::browser;
use js_sys::{Function, Promise, Reflect};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use yew::prelude::*;

/// Where the choice is kept.
const SUN: &str = "setday.sun";

/// Puts on the look that was chosen last.
pub fn put_on_look() {
    browser::mark_page("sun", is_sun());
}

fn is_sun() -> bool {
    // a store that refuses has no choice in it
    matches!(browser::read_store(SUN), Ok(Some(chosen)) if chosen == "yes")
}

/// The two buttons.
#[component]
pub fn Outdoors() -> Html {
    let sun = use_state(is_sun);
    let awake = use_awake();
    let turn = {
        let sun = sun.clone();
        move |_| {
            let next = !*sun;
            // a store that refuses forgets the choice with the page
            let _ = browser::write_store(SUN, if next { "yes" } else { "no" });
            browser::mark_page("sun", next);
            sun.set(next);
        }
    };
    let hold = {
        let awake = awake.clone();
        move |_| awake.turn()
    };
    html! {
        <div class="outdoors no-print" role="group" aria-label="Outdoors">
            <button type="button" aria-pressed={sun.to_string()} onclick={turn}>{ "Sun" }</button>
            <button type="button" aria-pressed={awake.is_held().to_string()} onclick={hold}>{ "Keep the screen on" }</button>
            <span role="status">{ awake.words() }</span>
        </div>
    }
}

/// Whether the browser keeps the screen on.
#[derive(Clone, PartialEq)]
enum State {
    /// Not asked.
    Off,
    /// It does.
    Held,
    /// It did not, and why.
    Refused(String),
}

#[derive(Clone)]
struct Awake {
    state: UseStateHandle<State>,
    lock: Rc<core::cell::RefCell<JsValue>>,
}

impl Awake {
    fn is_held(&self) -> bool {
        *self.state == State::Held
    }

    fn words(&self) -> String {
        match &*self.state {
            State::Off => String::new(),
            State::Held => "The screen stays on while this page is in front".into(),
            State::Refused(reason) => format!("The screen is not kept on: {reason}"),
        }
    }

    fn turn(&self) {
        if self.is_held() {
            let_go(&self.lock.replace(JsValue::UNDEFINED));
            self.state.set(State::Off);
        } else {
            self.ask();
        }
    }

    fn ask(&self) {
        let Self { state, lock } = self.clone();
        yew::platform::spawn_local(async move {
            match ask().await {
                Ok(held) => {
                    lock.replace(held);
                    state.set(State::Held);
                }
                Err(reason) => state.set(State::Refused(reason)),
            }
        });
    }
}

/// The browser lets go of the screen when the page goes out of sight; it is asked again when the page is back.
#[hook]
fn use_awake() -> Awake {
    let awake = Awake {
        state: use_state(|| State::Off),
        lock: use_mut_ref(|| JsValue::UNDEFINED),
    };
    {
        let awake = awake.clone();
        use_effect_with(awake.is_held(), move |held| {
            let back = held.then(|| {
                let awake = awake.clone();
                browser::on_window("visibilitychange", move |_| {
                    if browser::is_in_sight() {
                        awake.ask();
                    }
                })
            });
            move || {
                if let Some(back) = back {
                    back();
                }
            }
        });
    }
    {
        let lock = Rc::clone(&awake.lock);
        use_effect_with((), move |()| move || let_go(&lock.borrow()));
    }
    awake
}

/// Asks for a lock on the screen (W3C Screen Wake Lock), which is `navigator.wakeLock.request("screen")`.
async fn ask() -> Result<JsValue, String> {
    let reason = |error: JsValue| browser::reason(&error);
    let api = Reflect::get(&browser::window().navigator(), &"wakeLock".into()).map_err(reason)?;
    if api.is_undefined() {
        return Err("this browser cannot; set the phone's own screen time instead".into());
    }
    let request: Function = Reflect::get(&api, &"request".into()).map_err(reason)?.unchecked_into();
    let promise: Promise = request.call1(&api, &"screen".into()).map_err(reason)?.unchecked_into();
    let refused = |error: JsValue| {
        format!(
            "the browser refuses ({}); a low battery is the usual reason",
            browser::reason(&error)
        )
    };
    JsFuture::from(promise).await.map_err(refused)
}

fn let_go(lock: &JsValue) {
    if let Ok(release) = Reflect::get(lock, &"release".into())
        && let Some(release) = release.dyn_ref::<Function>()
    {
        // what was let go already need not be
        let _ = release.call0(lock);
    }
}
