//! The second module of the page: every view. It goes on where the first one, `setday-page`, has handed over.

use wasm_bindgen::prelude::*;

/// Nothing runs before [`take_over`].
fn main() {}

/// Shows the page with what the first module handed over; quietly where nobody has asked for another view.
#[wasm_bindgen]
pub fn take_over(handed: &str, quietly: bool) -> Result<(), JsError> {
    setday::ui::desk::take_over(handed, quietly).map_err(|error| JsError::new(&error))
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
