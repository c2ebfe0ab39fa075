//! The cases in headless Chromium: `cargo bench --bench chromium --target wasm32-unknown-unknown`.
#![cfg(target_arch = "wasm32")]

mod cases;

use wasm_bindgen_test::{Criterion, wasm_bindgen_bench, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_bench]
fn in_chromium(criterion: &mut Criterion) {
    for (name, work) in cases::CASES {
        criterion.bench_function(name, |bencher| bencher.iter(work));
    }
}
