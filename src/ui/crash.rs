//! A crash covers the page, so that nobody works from numbers that no longer follow the plan.

use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// The overlay, in `www/crash.js`: plain script, because nothing of the app can be relied on after a panic.
    #[wasm_bindgen(js_name = setdayCrash)]
    fn setday_crash(message: &str);
}

/// Makes every panic show the overlay. Call before the first render: Yew installs its own hook there if it finds none
/// set through it, and a hook set through `std::panic` does not count.
pub(super) fn cover_the_page_on_panic() {
    yew::set_custom_panic_hook(Box::new(|panic| setday_crash(&panic.to_string())));
}

/// Panics when the address becomes `#/panic`, for the test of the overlay. Test builds only.
#[cfg(feature = "panic-button")]
pub(super) fn panic_when_asked() {
    let window = web_sys::window().expect("a page has a window");
    let asked = window.clone();
    let listener = Closure::<dyn Fn()>::new(move || {
        assert!(
            asked.location().hash().as_deref() != Ok("#/panic"),
            "a panic that was asked for"
        );
    });
    window
        .add_event_listener_with_callback("hashchange", listener.as_ref().unchecked_ref())
        .expect("a window takes listeners");
    listener.forget();
}
