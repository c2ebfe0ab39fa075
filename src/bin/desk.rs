//! The second module of the page: every view and every check. It takes over from the first one, `setday-page`.

use wasm_bindgen::prelude::*;

/// Nothing runs before [`take_over`].
fn main() {}

/// Shows the page. `end` ends the first module's at the last moment; `steps`: somebody has asked for the view.
#[wasm_bindgen]
pub async fn take_over(accepted: bool, steps: bool, end: js_sys::Function) {
    let end = move || {
        if let Err(error) = end.call0(&JsValue::NULL) {
            wasm_bindgen::throw_val(error);
        }
    };
    setday::ui::desk::take_over(accepted, steps, end).await;
}

/// See [`setday::api::check`].
#[wasm_bindgen]
pub fn check(plan: &JsValue) -> Result<JsValue, JsError> {
    setday::api::check(plan)
}

/// See [`setday::api::drawing_svg`].
#[wasm_bindgen]
pub fn drawing_svg(plan: &JsValue, view: &str, lift: Option<u32>) -> Result<String, JsError> {
    setday::api::drawing_svg(plan, view, lift)
}

/// See [`setday::api::version`].
#[wasm_bindgen]
pub fn version() -> String {
    setday::api::version()
}

/// See [`setday::api::PlaceSearch`]; for the worker in `www/search.js`.
#[wasm_bindgen]
pub struct PlaceSearch(setday::api::PlaceSearch);

#[wasm_bindgen]
impl PlaceSearch {
    /// Begins over the lot of a plan, in steps of so many metres.
    #[wasm_bindgen(constructor)]
    pub fn new(plan: &JsValue, step_m: f64) -> Result<PlaceSearch, JsError> {
        setday::api::PlaceSearch::new(plan, step_m).map(Self)
    }

    /// Looks at so many more places; `false` when none is left.
    pub fn go_on(&mut self, places: usize) -> bool {
        self.0.go_on(places)
    }

    /// What was found so far.
    pub fn found(&self) -> Result<JsValue, JsError> {
        self.0.found()
    }

    /// What was found at each place, one list a configuration.
    pub fn codes(&self) -> Vec<js_sys::Uint8Array> {
        self.0.codes()
    }
}
