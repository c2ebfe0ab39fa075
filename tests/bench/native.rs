//! The cases on this machine: `cargo bench --bench native`.

mod cases;

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    let mut criterion = criterion::Criterion::default().configure_from_args();
    for (name, work) in cases::CASES {
        criterion.bench_function(name, |bencher| bencher.iter(work));
    }
    criterion.final_summary();
}

#[cfg(target_arch = "wasm32")]
fn main() {
    // Criterion does not run in the browser: chromium.rs is what runs there.
    let _ = cases::CASES;
}
