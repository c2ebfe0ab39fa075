//! The scenario's assessment is the same to the last bit natively and in the browser: both compute this hash of it.
#![allow(clippy::unwrap_used)]

use setday::evaluate::evaluate;
use setday::plan::sample;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

/// Written by the native run with `SETDAY_WRITE_HASH=1 cargo test --test same_bits`; the browser's run compares.
const KEPT: &str = include_str!("same_bits.txt");

/// FNV-1a, 64 bits, over the assessment's JSON, in which every number has all its digits.
fn hash() -> String {
    let text = serde_json::to_string(&evaluate(&sample::plan())).unwrap();
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |h, b| {
        (h ^ u64::from(b)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    format!("{hash:016x}\n")
}

#[test]
fn the_assessment_has_the_kept_hash() {
    let found = hash();
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("SETDAY_WRITE_HASH").is_some() {
        std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/same_bits.txt"), &found).unwrap();
        return;
    }
    assert_eq!(
        found, KEPT,
        "results changed: if that is meant, write the hash anew natively; if only here, the two builds differ"
    );
}
