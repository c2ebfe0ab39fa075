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
