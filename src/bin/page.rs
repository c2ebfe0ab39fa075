//! The first module of the page: the day. `www/rest.js` loads the second one, `setday-desk`, when an address asks for more.
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

/// Whether all that was edited is kept, so that the page can be handed over.
#[wasm_bindgen]
pub fn can_hand_over() -> bool {
    first::can_hand_over()
}

/// Ends this module's page and gives what the next module goes on with.
#[wasm_bindgen]
pub fn hand_over() -> String {
    first::hand_over()
}

/// Tells that the second module could not be loaded; quietly where nobody has asked for a view.
#[wasm_bindgen]
pub fn rest_is_missing(reason: &str, quietly: bool) {
    first::rest_is_missing(reason, quietly);
}
