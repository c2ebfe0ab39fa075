//! What scripts call, in headless Chromium: `cargo test --target wasm32-unknown-unknown --features web --test web_api`.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
// The lint does not see that these are tests.
#![allow(clippy::unwrap_used)]

use js_sys::{JSON, Reflect};
use setday::api::{check, drawing_svg, version};
use setday::plan::sample;
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn at(value: &JsValue, path: &[&str]) -> JsValue {
    path.iter().fold(value.clone(), |value, key| {
        Reflect::get(&value, &(*key).into()).unwrap()
    })
}

fn message(error: wasm_bindgen::JsError) -> String {
    js_sys::Error::from(JsValue::from(error)).message().into()
}

/// The sentence and 84.4 %: the scenario's own script (tests/oracles).
#[wasm_bindgen_test]
fn a_plan_is_checked_as_text_and_as_object() {
    let text = JsValue::from(sample::FILE);
    let object = JSON::parse(sample::FILE).unwrap();
    for plan in [text, object] {
        let assessment = check(&plan).map_err(message).unwrap();
        let sentence = at(&assessment, &["headline", "text"]).as_string().unwrap();
        assert!(
            sentence.starts_with("Lift 5, box B1: 84.4 % of the rating at the pick."),
            "{sentence}"
        );
        let used = at(&assessment, &["lifts", "4", "use_of_chart"]).as_f64().unwrap();
        assert!((used - 0.844).abs() < 5e-4, "{used}");
    }
}

#[wasm_bindgen_test]
fn what_cannot_be_read_is_said() {
    let said = message(check(&"{}".into()).unwrap_err());
    assert!(said.contains("expected \"format\": \"setday plan\""), "{said}");
    let said = message(check(&JsValue::UNDEFINED).unwrap_err());
    assert!(said.contains("expected the text of a plan file"), "{said}");
    let said = message(drawing_svg(&sample::FILE.into(), "elevation-pick", None).unwrap_err());
    assert!(
        said.contains("without a lift: expected one of plan, elevation-pick"),
        "{said}"
    );
    let said = message(drawing_svg(&sample::FILE.into(), "chart", Some(9)).unwrap_err());
    assert!(
        said.contains("read lift 9: expected one of the plan's lifts, 1, 2, 3, 4, 5, 6, 7, 8"),
        "{said}"
    );
}

#[wasm_bindgen_test]
fn drawings_are_files_of_their_own() {
    for (view, lift) in [("plan", None), ("chart", Some(5)), ("rig-hung", Some(2))] {
        let svg = drawing_svg(&sample::FILE.into(), view, lift).map_err(message).unwrap();
        assert!(
            svg.starts_with("<svg xmlns=") && svg.ends_with("</svg>") && svg.contains("<style>"),
            "{view}"
        );
    }
}

#[wasm_bindgen_test]
fn the_version_is_the_packages() {
    assert_eq!(version(), env!("CARGO_PKG_VERSION"));
}
