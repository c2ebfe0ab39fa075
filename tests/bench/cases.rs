//! What is timed, natively and in the browser alike. Both benches include this file.

use setday::evaluate::evaluate;
use setday::plan::{Plan, format, sample};
use setday::quantity::Length;
use std::cell::OnceCell;
use std::hint::black_box;

/// A name and the work that is repeated. Its result keeps the work from being left out.
pub type Case = (&'static str, fn() -> f64);

/// Every case.
pub const CASES: &[Case] = &[
    ("feet to metres", || Length::ft(black_box(12.5)).to_m()),
    ("evaluate the scenario", || {
        with_scenario(|plan| evaluate(black_box(plan)).headline.may_move.map_or(0.0, Length::to_m))
    }),
    ("open the scenario's file", || {
        format::open(black_box(sample::FILE)).map_or(0.0, |opened| opened.plan.boxes.len() as f64)
    }),
];

thread_local! {
    static SCENARIO: OnceCell<Plan> = const { OnceCell::new() };
}

fn with_scenario(work: impl FnOnce(&Plan) -> f64) -> f64 {
    SCENARIO.with(|plan| work(plan.get_or_init(sample::plan)))
}
