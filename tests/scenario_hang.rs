//! The project's invented scenario, box A1 on the gear of its truck: how it hangs for the set-ups its story tells of.
//!
//! Expected figures are those of the scenario's own notes, computed by a script that is no part of this project, each to
//! its last printed digit. The weight is the ticket's 33 720 lb with its contingency of 3 %; slings and straps are stiff
//! and weightless, lengths bearing to bearing. A short leg is at the east end, whose x is larger.
#![allow(clippy::unwrap_used)] // tests: a panic is a failure
mod rigs;

use rigs::*;
use setday::statics::{Hang, hang};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const LINK_FT: f64 = 1.97 / 12.0;
const WEIGHT_LB: f64 = 33_720.0 * 1.03;
const LEGS_FT: [f64; 4] = [14.5; 4];

fn hung(top_ft: [f64; 2], bridle_ft: [f64; 4]) -> Hang {
    hang(&kitchen_box(WEIGHT_LB, top_ft, bridle_ft, 16.0, STIFF_N).rig(), None).expect("it hangs")
}

#[track_caller]
fn printed(value: f64, expected: f64, last_digit: f64) {
    assert!(
        (value - expected).abs() <= 0.5 * last_digit,
        "{value} is not printed as {expected}"
    );
}

/// Equal 28 ft top legs: 10.31° lengthwise, low at the east.
#[test]
fn equal_top_legs() {
    printed(
        -hung([28.0, 28.0], LEGS_FT).bodies[0].tilt_along_rad.to_degrees(),
        10.31,
        0.01,
    );
}

/// 28 and 24 ft: 1.00°.
#[test]
fn short_leg_at_the_east() {
    printed(
        -hung([28.0, 24.0], LEGS_FT).bodies[0].tilt_along_rad.to_degrees(),
        1.00,
        0.01,
    );
}

/// 28 ft and two links against 24 ft: 0.02°; the short leg carries 26 665 lb; plain bridle legs leave a roll of 4.75°.
#[test]
fn two_links_on_the_long_leg() {
    let hung = hung([28.0 + 2.0 * LINK_FT, 24.0], LEGS_FT);
    printed(-hung.bodies[0].tilt_along_rad.to_degrees(), 0.02, 0.01);
    printed(hung.bodies[0].tilt_across_rad.to_degrees(), 4.75, 0.01);
    printed(hung.members[1].tension_n / N_PER_LB, 26_665.0, 1.0);
}

/// Four links on each north bridle leg: a roll of 0.05°.
#[test]
fn four_links_on_the_north_legs() {
    let north_ft = 14.5 + 4.0 * LINK_FT;
    let hung = hung([28.0 + 2.0 * LINK_FT, 24.0], [14.5, north_ft, 14.5, north_ft]);
    printed(hung.bodies[0].tilt_across_rad.to_degrees(), 0.05, 0.01);
}

/// The old 9 ft bridle legs: a roll of 23.3°.
#[test]
fn the_old_bridle_legs() {
    let hung = hung([28.0 + 2.0 * LINK_FT, 24.0], [9.0; 4]);
    printed(hung.bodies[0].tilt_across_rad.to_degrees(), 23.3, 0.1);
}
