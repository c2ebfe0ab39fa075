//! The page in headless Chromium: `cargo test --target wasm32-unknown-unknown --features web --test web`.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
// The lint does not see that these are tests.
#![allow(clippy::unwrap_used)]

use std::time::Duration;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
async fn the_page_shows_its_name() {
    let document = web_sys::window().unwrap().document().unwrap();
    let root = document.create_element("div").unwrap();
    document.body().unwrap().append_child(&root).unwrap();
    yew::Renderer::<setday::ui::App>::with_root(root.clone()).render();
    yew::platform::time::sleep(Duration::ZERO).await;
    assert_eq!(
        root.query_selector("h1").unwrap().unwrap().text_content().as_deref(),
        Some("Setday")
    );
}
