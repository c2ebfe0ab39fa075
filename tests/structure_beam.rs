//! The box as a beam against a frame library (`oracles/box_beam.py`, printed with its version in `oracles/box_beam.txt`) and against beams as
//! handbooks print them.
#![allow(clippy::unwrap_used)]

use setday::structure::{Aim, Beam, Load, Pull, Sharing, best_picks, reactions_n};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const PRINTED: &str = include_str!("oracles/box_beam.txt");
/// EI of the library's beams, N·m².
const EI: f64 = 1.0e7;

const EVEN: &[(f64, f64, f64)] = &[(120e3, 0.0, 12.0)];
const LUMPS: &[(f64, f64, f64)] = &[
    (20600.0, 0.5, 0.5),
    (32400.0, 4.0, 4.0),
    (25500.0, 7.0, 7.0),
    (29400.0, 12.5, 12.5),
    (14700.0, 15.0, 15.0),
];
const MIXED: &[(f64, f64, f64)] = &[
    (90e3, 0.0, 15.85),
    (12e3, 11.0, 14.0),
    (4e3, 14.5, 14.5),
    (15e3, 0.0, 7.2),
    (9e3, 2.0, 2.0),
    (6.5e3, 15.85, 15.85),
];

fn printed(case: &str, what: &str) -> Vec<f64> {
    let head = format!("{case} {what} ");
    let line = PRINTED.lines().find_map(|line| line.strip_prefix(&head)).unwrap();
    line.split(' ').map(|value| value.parse().unwrap()).collect()
}

/// A beam on picks, each with the pull along the box and its height over the neutral axis.
fn beam(length_m: f64, loads: &[(f64, f64, f64)], picks: &[(f64, f64, f64)], sharing: Sharing) -> Beam {
    let load = |&(weight_n, from_m, to_m): &(f64, f64, f64)| Load { weight_n, from_m, to_m };
    let pull = |&(x_m, along_n, lever_m): &(f64, f64, f64)| Pull {
        x_m,
        up_n: 0.0,
        along_n,
        lever_m,
    };
    let mut beam = Beam {
        length_m,
        loads: loads.iter().map(load).collect(),
        pulls: picks.iter().map(pull).collect(),
    };
    for (pull, up_n) in beam.pulls.clone().iter().zip(reactions_n(&beam, sharing).unwrap()) {
        let at = beam.pulls.iter().position(|p| p.x_m == pull.x_m).unwrap();
        beam.pulls[at].up_n = up_n;
    }
    beam
}

#[track_caller]
fn near(found: f64, expected: f64, absolute: f64, relative: f64) {
    let allowed = absolute.max(relative * expected.abs());
    assert!((found - expected).abs() <= allowed, "{found} is not {expected}");
}

/// Every figure that the library printed of a case: eight digits, and what it leaves of nothing.
#[track_caller]
fn check(case: &str, beam: &Beam) {
    for (pull, expected) in beam.pulls.iter().zip(printed(case, "reactions_n")) {
        near(pull.up_n, expected, 1e-2, 1e-6);
    }
    let at_m = printed(case, "moment_at_m");
    for ((x_m, moment), shear) in at_m
        .iter()
        .zip(printed(case, "moment_n_m"))
        .zip(printed(case, "shear_n"))
    {
        near(beam.moment_n_m(*x_m), moment, 1e-1, 1e-6);
        near(beam.shear_n(*x_m).abs(), shear, 1e-2, 1e-6);
    }
    for (x_m, sag) in printed(case, "sag_at_m").iter().zip(printed(case, "sag_m")) {
        near(beam.sag_n_m3(*x_m) / EI, sag, 1e-8, 1e-6);
    }
    // beyond the second end nothing is left
    near(beam.moment_n_m(beam.length_m + 1.0), 0.0, 1e-6, 0.0);
    near(beam.axial_n(beam.length_m + 1.0), 0.0, 1e-9, 0.0);
}

#[test]
fn two_picks() {
    let two = |case: &str, length_m, loads, [a, b]: [f64; 2]| {
        let picks = [(a, 0.0, 0.0), (b, 0.0, 0.0)];
        check(case, &beam(length_m, loads, &picks, Sharing::RigidBox));
    };
    two("even_at_its_ends", 12.0, EVEN, [0.0, 12.0]);
    two("even_overhanging", 12.0, EVEN, [2.4, 9.6]);
    two("even_one_overhang", 12.0, EVEN, [0.0, 8.4]);
    two("one_lump_middle", 10.0, &[(50e3, 5.0, 5.0)], [0.0, 10.0]);
    two("one_lump_aside", 10.0, &[(50e3, 7.0, 7.0)], [0.0, 10.0]);
    two("lumps", 16.0, LUMPS, [3.0, 13.0]);
    two("mixed", 15.85, MIXED, [3.05, 12.8]);
}

#[test]
fn inclined_legs_bend_the_box_and_press_it() {
    let low = [(3.05, 30e3, -1.4), (12.8, -30e3, -1.4)];
    let pressed = beam(15.85, MIXED, &low, Sharing::RigidBox);
    check("mixed_inclined_legs", &pressed);
    assert_eq!([1.0, 8.0, 14.0].map(|x| pressed.axial_n(x)), [0.0, 30e3, 0.0]);
    let uneven = [(3.05, 30e3, -1.4), (12.8, -30e3, 0.6)];
    check(
        "inclined_legs_uneven_picks",
        &beam(15.85, MIXED, &uneven, Sharing::RigidBox),
    );
}

#[test]
fn six_and_eight_picks_on_one_line() {
    let on = |at_m: &[f64]| at_m.iter().map(|x| (*x, 0.0, 0.0)).collect::<Vec<_>>();
    let level = Sharing::LevelPicks;
    check("three_level_picks", &beam(15.85, MIXED, &on(&[2.0, 7.6, 13.6]), level));
    check(
        "four_level_picks",
        &beam(15.85, MIXED, &on(&[1.5, 6.0, 10.0, 14.4]), level),
    );
    check(
        "four_even_level_picks",
        &beam(12.0, EVEN, &on(&[0.0, 4.0, 8.0, 12.0]), level),
    );
}

/// The library's stiff beam on four alike springs: a straight line of pulls, here to the little that its beam still bends.
#[test]
fn a_rigid_box_on_alike_slings() {
    let picks = [1.5, 6.0, 10.0, 14.4].map(|x| (x, 0.0, 0.0));
    let rigid = beam(15.85, MIXED, &picks, Sharing::RigidBox);
    for (pull, expected) in rigid.pulls.iter().zip(printed("four_springs_stiff_box", "reactions_n")) {
        near(pull.up_n, expected, 0.0, 1e-3);
    }
}

/// Bays that carry themselves: W/6, W/3, W/3, W/6 of an even beam over three bays; no moment at the inner picks.
#[test]
fn a_limp_box_is_simple_spans() {
    let picks = [0.0, 4.0, 8.0, 12.0].map(|x| (x, 0.0, 0.0));
    let limp = beam(12.0, EVEN, &picks, Sharing::LimpBox);
    for (pull, expected) in limp.pulls.iter().zip([20e3, 40e3, 40e3, 20e3]) {
        near(pull.up_n, expected, 1e-6, 0.0);
    }
    near(limp.moment_n_m(4.0), 0.0, 1e-6, 0.0);
    near(limp.moment_n_m(8.0), 0.0, 1e-6, 0.0);
}

/// Beams as handbooks print them (Machinery's Handbook, AISC Manual table 3-23, from memory): wL²/8, 5wL⁴/384, PL/4, PL³/48, the beam over three
/// equal spans 0.4, 1.1, 1.1, 0.4 wl with 0.1 wl² over its supports, over two 3/8, 5/4, 3/8.
#[test]
fn printed_beams() {
    let even = beam(12.0, EVEN, &[(0.0, 0.0, 0.0), (12.0, 0.0, 0.0)], Sharing::RigidBox);
    near(even.largest_moments()[0].value, 1e4 * 144.0 / 8.0, 1e-6, 0.0);
    near(
        even.largest_sags()[0].value,
        5.0 * 1e4 * 12f64.powi(4) / 384.0,
        0.0,
        1e-12,
    );
    near(even.largest_shear().value.abs(), 60e3, 1e-3, 0.0);
    let lump = beam(
        10.0,
        &[(50e3, 5.0, 5.0)],
        &[(0.0, 0.0, 0.0), (10.0, 0.0, 0.0)],
        Sharing::RigidBox,
    );
    near(lump.largest_moments()[0].value, 50e3 * 10.0 / 4.0, 1e-3, 0.0);
    near(lump.largest_sags()[0].value, 50e3 * 1000.0 / 48.0, 0.0, 1e-9);
    let three = beam(
        12.0,
        EVEN,
        &[0.0, 4.0, 8.0, 12.0].map(|x| (x, 0.0, 0.0)),
        Sharing::LevelPicks,
    );
    for (pull, share) in three.pulls.iter().zip([0.4, 1.1, 1.1, 0.4]) {
        near(pull.up_n, share * 1e4 * 4.0, 1e-6, 0.0);
    }
    near(three.moment_n_m(4.0), -0.1 * 1e4 * 16.0, 1e-6, 0.0);
    let two = beam(
        12.0,
        EVEN,
        &[0.0, 6.0, 12.0].map(|x| (x, 0.0, 0.0)),
        Sharing::LevelPicks,
    );
    for (pull, share) in two.pulls.iter().zip([0.375, 1.25, 0.375]) {
        near(pull.up_n, share * 1e4 * 6.0, 1e-6, 0.0);
    }
}

/// Uniform beam on two picks: 0.20711 L for the least moment, which is 0.021447 wL², and 0.22315 L for the least sag. Gere, Mechanics of
/// Materials, problem 5.6-18; Machinery's Handbook beam cases.
#[test]
fn best_picks_of_an_even_box() {
    let even = beam(12.0, EVEN, &[(2.0, 0.0, 0.0), (10.0, 0.0, 0.0)], Sharing::RigidBox);
    let anywhere = [0.0, 5.9];
    let moment = best_picks(&even, anywhere, Aim::Moment).unwrap();
    near(moment.at_m[0] / 12.0, 0.20711, 1e-5, 0.0);
    near(1.0 - moment.at_m[1] / 12.0, 0.20711, 1e-5, 0.0);
    near(moment.least / (1e4 * 144.0), 0.021447, 1e-6, 0.0);
    let sag = best_picks(&even, anywhere, Aim::Sag).unwrap();
    near(sag.at_m[0] / 12.0, 0.22315, 1e-5, 0.0);
    near(1.0 - sag.at_m[1] / 12.0, 0.22315, 1e-5, 0.0);
    // the factory allows less: the nearest it allows
    let held = best_picks(&even, [0.5, 2.0], Aim::Moment).unwrap();
    near(held.at_m[0], 2.0, 1e-6, 0.0);
    assert_eq!(best_picks(&even, [7.0, 8.0], Aim::Moment), None);
}

/// Gere 5.6-18: a bar 305 × 22 × 915 mm at 7.5 MPa, best supports 189.5 mm from its ends, q = 10.28 kN/m.
#[test]
fn gere_5_6_18() {
    let section_m3 = 0.305 * 0.022 * 0.022 / 6.0;
    let even = beam(
        0.915,
        &[(1.0, 0.0, 0.915)],
        &[(0.1, 0.0, 0.0), (0.8, 0.0, 0.0)],
        Sharing::RigidBox,
    );
    let best = best_picks(&even, [0.0, 0.45], Aim::Moment).unwrap();
    near(best.at_m[0], 0.1895, 5e-5, 0.0);
    near(7.5e6 * section_m3 / best.least / 0.915, 10.28e3, 5.0, 0.0);
}

/// An uneven box against a general minimiser (scipy, Nelder–Mead) over the beam's own bending: the largest moment and sag it can be brought down to.
#[test]
fn best_picks_of_an_uneven_box() {
    let uneven = beam(15.85, MIXED, &[(3.05, 0.0, 0.0), (12.8, 0.0, 0.0)], Sharing::RigidBox);
    for (aim, what) in [(Aim::Moment, "moment"), (Aim::Sag, "sag")] {
        let found = best_picks(&uneven, [0.0, 7.9], aim).unwrap();
        let expected = printed("best_mixed", what);
        near(found.least, expected[2], 0.0, 2e-3);
        near(found.at_m[0], expected[0], 0.03, 0.0);
        near(found.at_m[1], expected[1], 0.03, 0.0);
    }
}

#[test]
fn nothing_to_hang_by() {
    let mut none = beam(12.0, EVEN, &[(2.0, 0.0, 0.0), (10.0, 0.0, 0.0)], Sharing::RigidBox);
    none.pulls.truncate(1);
    assert_eq!(reactions_n(&none, Sharing::RigidBox), None);
    none.pulls = vec![none.pulls[0]; 2];
    assert_eq!(reactions_n(&none, Sharing::LevelPicks), None);
}
