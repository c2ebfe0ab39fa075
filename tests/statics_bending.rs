//! How six and eight picks share when the box bends between them, against continuous beams: the reactions of handbooks and of
//! a beam on springs solved with numpy (`oracles/continuous_beam.py`, printed with its version in `oracles/continuous_beam.txt`).
#![allow(clippy::unwrap_used, clippy::float_cmp)]
mod rigs;

use rigs::*;
use setday::statics::{Bands, Body, MassItem, Member, NoHang, Point, Rig, Stop, hang, worst_case};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

/// Straps plumb: a fixed point this high above every pick, m.
const STRAP_M: f64 = 20.0;

/// Two plumb straps at each section, together as stiff as the section's spring; masses in the plane of the picks.
fn on_plumb_straps(
    masses: &[(f64, f64)],
    sections_m: &[f64],
    springs_n_per_m: &[f64],
    longer_m: &[f64],
    ei: f64,
) -> Rig {
    let picks: Vec<[f64; 3]> = sections_m
        .iter()
        .flat_map(|x_m| [[*x_m, -2.0, 0.0], [*x_m, 2.0, 0.0]])
        .collect();
    let above = |[x, y, z]: [f64; 3]| hook([x, y, z + STRAP_M]);
    let strap = |index: usize| {
        let longer_m = longer_m.get(index / 2).copied().unwrap_or_default();
        let length_m = STRAP_M + longer_m;
        let ea_n = springs_n_per_m[index / 2] / 2.0 * length_m;
        Member::between(Stop::Point(index), node(0, index), length_m, ea_n)
    };
    // a little below the picks, so that it does not rock
    let items: Vec<MassItem> = masses.iter().map(|(kg, x_m)| lump(*kg, [*x_m, 0.0, -0.01])).collect();
    Rig {
        members: (0..picks.len()).map(strap).collect(),
        points: picks.iter().copied().map(above).collect::<Vec<Point>>(),
        bodies: vec![Body {
            masses: items,
            nodes_m: picks,
            bend: bend(0.0, sections_m, ei),
            ..Body::default()
        }],
    }
}

fn sections_n(rig: &Rig) -> Vec<f64> {
    let hung = hang(rig, None).unwrap();
    let pulls = tensions_n(&hung);
    pulls.chunks(2).map(|pair| pair[0] + pair[1]).collect()
}

#[track_caller]
fn near(found: &[f64], expected: &[f64], tolerance: f64) {
    assert_eq!(found.len(), expected.len());
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }
}

const PRINTED: &str = include_str!("oracles/continuous_beam.txt");

fn printed(case: &str) -> Vec<f64> {
    let head = format!("{case} section_n ");
    let line = PRINTED.lines().find_map(|line| line.strip_prefix(&head)).unwrap();
    line.split(' ').map(|value| value.parse().unwrap()).collect()
}

const MASSES: [(f64, f64); 6] = [
    (2100.0, -7.5),
    (3300.0, -4.0),
    (2600.0, -1.0),
    (1800.0, 1.5),
    (3000.0, 4.5),
    (1500.0, 7.0),
];
const THREE: [f64; 3] = [-5.0, 0.5, 5.0];
const SPRINGS: [f64; 3] = [4e6, 5e6, 4e6];

/// Against the beam on springs, masses between the sections and beyond them: within 0.1 % of the weight, what the straps' lean and the
/// bent box's shortening leave.
#[test]
fn sections_share_as_a_beam_on_springs() {
    let tolerance = 1e-3 * 14_300.0 * G_M_S2;
    for (case, ei, longer_m) in [
        ("two_spans", 3e7, &[][..]),
        ("two_spans_stiff_box", 3e10, &[]),
        ("two_spans_one_long", 3e7, &[0.0, 0.004, 0.0]),
    ] {
        let rig = on_plumb_straps(&MASSES, &THREE, &SPRINGS, longer_m, ei);
        near(&sections_n(&rig), &printed(case), tolerance);
    }
    let sections_m = [-6.0, -1.5, 2.0, 6.0];
    let rig = on_plumb_straps(&MASSES, &sections_m, &[4e6, 6e6, 6e6, 4e6], &[], 2e7);
    near(&sections_n(&rig), &printed("three_spans"), tolerance);
}

/// Nothing to resist bending, stiff straps: three supports of two even spans carry 3/16, 10/16 and 3/16 of the load; four of three
/// spans 4/30, 11/30, 11/30 and 4/30 (continuous beams, uniform load: 0.375, 1.25 and 0.4, 1.1 of wl; AISC manual beam tables, Machinery's
/// Handbook). The load is 120 lumps, which leaves 1e-4 of it.
#[test]
fn even_spans_as_in_the_handbook() {
    let even: Vec<(f64, f64)> = (0..120).map(|i| (100.0, 0.05 + 0.1 * f64::from(i))).collect();
    let weight_n = 12_000.0 * G_M_S2;
    let share = |parts: &[f64], of: f64| parts.iter().map(|p| p / of * weight_n).collect::<Vec<_>>();
    let two = on_plumb_straps(&even, &[0.0, 6.0, 12.0], &[4e7; 3], &[], 0.0);
    near(&sections_n(&two), &share(&[3.0, 10.0, 3.0], 16.0), 1e-4 * weight_n);
    near(&sections_n(&two), &printed("even_two_spans"), 1e-4 * weight_n);
    let three = on_plumb_straps(&even, &[0.0, 4.0, 8.0, 12.0], &[4e7; 4], &[], 0.0);
    near(
        &sections_n(&three),
        &share(&[4.0, 11.0, 11.0, 4.0], 30.0),
        1e-4 * weight_n,
    );
    let rigid = on_plumb_straps(&even, &[0.0, 6.0, 12.0], &[4e7; 3], &[], f64::INFINITY);
    near(&sections_n(&rigid), &share(&[1.0, 1.0, 1.0], 3.0), 1e-6 * weight_n);
}

/// A stiff box takes a short middle pair's whole pull; one that follows its picks takes none of it.
#[test]
fn bending_evens_out_unequal_lengths() {
    let weight_n = 14_300.0 * G_M_S2;
    let middle = |ei: f64, longer_m: f64| {
        let rig = on_plumb_straps(&MASSES, &THREE, &[4e7; 3], &[0.0, longer_m, 0.0], ei);
        sections_n(&rig)[1] / weight_n
    };
    let effect = |ei: f64| middle(ei, -0.001) - middle(ei, 0.001);
    assert!(effect(f64::INFINITY) > 0.2, "{}", effect(f64::INFINITY));
    assert!(effect(2e7) < effect(f64::INFINITY) / 4.0);
    assert!(effect(0.0).abs() < 1e-3);
}

/// Rigid is the coordinate left out, very stiff comes to the same; two sections do not bend.
#[test]
fn rigid_is_the_limit() {
    let of = |sections_m: &[f64], ei: f64| sections_n(&on_plumb_straps(&MASSES, sections_m, &[4e6; 3], &[], ei));
    near(&of(&THREE, f64::INFINITY), &of(&THREE, 1e13), 1.0);
    near(&of(&[-5.0, 5.0], 0.0), &of(&[-5.0, 5.0], f64::INFINITY), 1e-3);
}

/// The worst case runs the rigidities given, and says which one it was.
#[test]
fn the_worst_case_names_its_rigidity() {
    let rig = on_plumb_straps(&MASSES, &THREE, &SPRINGS, &[], f64::INFINITY);
    let bands = Bands {
        ei_n_m2: vec![0.0, 3e7, f64::INFINITY],
        ..Bands::default()
    };
    let found = worst_case(&rig, &bands);
    let worst = |member: usize| found.members[member].clone().unwrap();
    assert_eq!(found.solved, 3);
    assert_eq!(
        worst(2).case.ei_n_m2,
        Some(f64::INFINITY),
        "the middle carries most under a stiff box"
    );
    assert_eq!(
        worst(0).case.ei_n_m2,
        Some(0.0),
        "the end with the overhang under a soft one"
    );
}

#[test]
fn bad_bending_is_refused() {
    let mut rig = on_plumb_straps(&MASSES, &THREE, &SPRINGS, &[], 1e7);
    let mut with = |sections_m: &[f64], ei: f64| {
        rig.bodies[0].bend = bend(0.0, sections_m, ei);
        hang(&rig, None).unwrap_err()
    };
    for reason in [
        with(&[0.0, 0.0, 1.0], 1e7),
        with(&THREE, -1.0),
        with(&THREE, f64::NAN),
        with(&[f64::NAN, 1.0, 2.0], 1e7),
    ] {
        assert!(matches!(reason, NoHang::Input(_)), "{reason}");
    }
}
