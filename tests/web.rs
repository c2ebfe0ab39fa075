//! The page in headless Chromium: `cargo test --target wasm32-unknown-unknown --features web --test web`.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
// The lint does not see that these are tests.
#![allow(clippy::unwrap_used)]

use std::time::Duration;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// The first visit: the cautions are to be accepted, then the day is shown.
#[wasm_bindgen_test]
async fn the_page_opens_with_the_cautions() {
    // the test runner's page has an address of its own
    web_sys::window().unwrap().location().set_hash("#/").unwrap();
    let document = web_sys::window().unwrap().document().unwrap();
    let root = document.create_element("div").unwrap();
    document.body().unwrap().append_child(&root).unwrap();
    yew::Renderer::<setday::ui::App>::with_root(root.clone()).render();
    assert_eq!(text(&root, "h1").await, "Read this before you plan a lift");
    let accept = root.query_selector("button").unwrap().unwrap();
    accept.unchecked_into::<web_sys::HtmlElement>().click();
    for _ in 0..1000 {
        if text(&root, "h1").await == "The Halden" {
            return;
        }
        yew::platform::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("the day does not come");
}

/// The text of the first such element, once it is on the page: a slow machine renders later.
async fn text(root: &web_sys::Element, selector: &str) -> String {
    for _ in 0..500 {
        if let Some(text) = root
            .query_selector(selector)
            .unwrap()
            .and_then(|element| element.text_content())
        {
            return text;
        }
        yew::platform::time::sleep(Duration::from_millis(10)).await;
    }
    panic!("{selector} does not come");
}
