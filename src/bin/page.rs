//! The first module of the page: a look at the day. `www/rest.js` loads the second one, `setday-desk`, behind it.
//!
//! It is small because it is what a phone loads before anything is shown; see docs/performance.md.

use setday::ui::first;
use wasm_bindgen::prelude::*;

fn main() {
    first::start();
}

/// Whether this module holds the view of an address (from `#` on).
#[wasm_bindgen]
pub fn shows(hash: &str) -> bool {
    first::shows(hash)
}

/// Whether the page is shown.
#[wasm_bindgen]
pub fn is_shown() -> bool {
    first::is_shown()
}

/// Whether the cautions were accepted for the plan that is shown.
#[wasm_bindgen]
pub fn accepted() -> bool {
    first::accepted()
}

/// Ends this module's page.
#[wasm_bindgen]
pub fn end() {
    first::end();
}

/// Tells that the second module could not be loaded.
#[wasm_bindgen]
pub fn rest_is_missing(reason: &str) {
    first::rest_is_missing(reason);
}
