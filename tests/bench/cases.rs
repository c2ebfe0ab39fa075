//! What is timed, natively and in the browser alike. Both benches include this file.

use setday::quantity::Length;
use std::hint::black_box;

/// A name and the work that is repeated. Its result keeps the work from being left out.
pub type Case = (&'static str, fn() -> f64);

/// Every case.
pub const CASES: &[Case] = &[("feet to metres", || Length::ft(black_box(12.5)).to_m())];
