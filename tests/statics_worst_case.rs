//! The worst case within the bands is the one that trying every sign of every length finds.
#![allow(clippy::unwrap_used, clippy::float_cmp, clippy::disallowed_methods)] // tests: a panic is a failure, and std's functions are not what is tested
mod rigs;

use rigs::*;
use setday::statics::{Bands, CgShift, Member, NoHang, Rig, WorstSearch, hang, worst_case};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

/// Largest tension of every member over every combination of length signs, each solved on its own from the drawing.
fn every_sign(rig: &Rig, tolerance_m: f64) -> Vec<f64> {
    let count = rig.members.len();
    let mut worst = vec![0.0; count];
    for signs in 0..1_u32 << count {
        let mut rig = rig.clone();
        for (index, member) in rig.members.iter_mut().enumerate() {
            member.length_m += if signs >> index & 1 == 1 {
                tolerance_m
            } else {
                -tolerance_m
            };
        }
        for (worst, tension_n) in worst.iter_mut().zip(tensions_n(&hang(&rig, None).unwrap())) {
            *worst = f64::max(*worst, tension_n);
        }
    }
    worst
}

#[track_caller]
fn check(rig: &Rig, tolerance_m: f64) {
    let bands = Bands {
        length_tolerance_m: vec![tolerance_m; rig.members.len()],
        ..Bands::default()
    };
    let found = worst_case(rig, &bands);
    assert_eq!(found.refusals, []);
    for (member, (found, expected_n)) in found.members.iter().zip(every_sign(rig, tolerance_m)).enumerate() {
        let found_n = found.as_ref().unwrap().tension_n;
        assert!(
            (found_n / expected_n - 1.0).abs() < 1e-7,
            "member {member}: {found_n} of {expected_n}"
        );
    }
    assert!(found.solved <= 1 + (1 << rig.members.len()));
}

/// Legs to uneven places on a box, with its centre of gravity off the middle and below the picks.
fn uneven(cg_m: [f64; 3], ea_n: f64, more: &[[f64; 3]]) -> Rig {
    let mut picks = four_picks(4.0, 1.8, 0.0).to_vec();
    picks[1][0] += 0.7;
    picks[2][2] += 0.3;
    picks.extend_from_slice(more);
    bridle(vec![lump(11_000.0, cg_m)], &picks, [0.2, 0.1, 6.5], &[], ea_n)
}

/// Twenty-four rigs of four legs: places of the centre of gravity, stiffnesses and tolerances, from all taut to two slack.
#[test]
fn four_legs_as_full_enumeration() {
    for cg_m in [[0.0, 0.0, -0.4], [0.6, 0.0, -0.4], [0.3, -0.4, -0.6], [-0.8, 0.3, 0.5]] {
        for ea_n in [8e6, 40e6] {
            for tolerance_m in [0.005, 0.02, 0.05] {
                check(&uneven(cg_m, ea_n, &[]), tolerance_m);
            }
        }
    }
}

/// Searched a case at a time it finds the same, and says where it was stopped.
#[test]
fn in_slices_as_at_once() {
    let rig = uneven([0.3, -0.4, -0.6], 40e6, &[[0.1, -1.8, 0.0], [-0.1, 1.8, 0.0]]);
    let bands = Bands {
        length_tolerance_m: vec![0.02; 6],
        ea_factors: vec![0.75, 1.25],
        ..Bands::default()
    };
    let whole = worst_case(&rig, &bands);
    let mut search = WorstSearch::new(&rig, &bands);
    let mut slices = 0;
    while !search.go_on(1) {
        slices += 1;
        assert!(search.solved() <= slices);
    }
    assert!(slices > 50, "{slices}");
    assert_eq!(search.found(), whole);
    assert!(!whole.cut_short);
    let mut stopped = WorstSearch::new(&rig, &bands);
    assert!(!stopped.go_on(10));
    assert!(stopped.found().cut_short);
}

/// Six legs, where two more may go slack in turn.
#[test]
fn six_legs_as_full_enumeration() {
    for (cg_m, tolerance_m) in [
        ([0.3, 0.1, -0.5], 0.005),
        ([0.3, 0.1, -0.5], 0.02),
        ([-0.5, 0.2, -0.8], 0.012),
    ] {
        check(&uneven(cg_m, 30e6, &[[0.1, -1.8, 0.0], [-0.1, 1.8, 0.0]]), tolerance_m);
    }
}

/// A box that twists, and one hung from bars: ten members, 1024 cases.
#[test]
fn twist_and_bars_as_full_enumeration() {
    let mut twisting = uneven([0.4, 0.2, -0.5], 40e6, &[]);
    twisting.bodies[0].twist = twist([0.0, 1.0], &[-4.0, 4.4], 3e6);
    check(&twisting, 0.02);
    let tier = kitchen_box(33_720.0, [28.33, 24.0], [14.5, 15.15, 14.5, 15.15], 16.0, 60e6);
    check(&tier.rig(), 0.01);
}

/// The bound on the worst leg's vertical share, min(end, side), is never passed, and is reached when lengths are far enough off.
#[test]
fn never_beyond_the_stiff_box_bound() {
    let rig = bridle(
        vec![lump(20_000.0, [0.6, 0.2, -0.3])],
        &four_picks(6.0, 2.0, 0.0),
        [0.6, 0.2, 8.0],
        &[],
        2e9,
    );
    let sin = |member: usize| 8.0 / rig.members[member].free_length_m();
    let bound_n = 0.55 * 20_000.0 * G_M_S2;
    let share = |tolerance_m: f64| {
        let bands = Bands {
            length_tolerance_m: vec![tolerance_m; 4],
            ..Bands::default()
        };
        worst_case(&rig, &bands).members[2].as_ref().unwrap().tension_n * sin(2) / bound_n
    };
    assert!(share(2e-4) < 1.0);
    assert!((share(2e-3) - 1.0).abs() < 2e-3, "{}", share(2e-3));
}

/// Over the whole of the bands: shifts, stiffnesses and twist are each solved, and the case named gives the tension named.
#[test]
fn the_case_named_gives_the_tension_named() {
    let mut rig = uneven([0.2, 0.0, -0.5], 40e6, &[]);
    rig.bodies[0].twist = twist([0.0, 1.0], &[-4.0, 4.4], 3e6);
    let shift = |x_m: f64, y_m: f64| CgShift {
        body: 0,
        by_m: [x_m, y_m, 0.1],
    };
    let bands = Bands {
        cg_shifts: vec![shift(0.3, 0.2), shift(0.3, -0.2), shift(-0.3, 0.2), shift(-0.3, -0.2)],
        length_tolerance_m: vec![0.01; 4],
        ea_factors: vec![0.75, 1.25],
        gj_n_m2: vec![0.0, f64::INFINITY],
        ei_n_m2: Vec::new(),
    };
    let found = worst_case(&rig, &bands);
    assert_eq!(found.refusals, []);
    for (index, worst) in found.members.iter().enumerate() {
        let worst = worst.as_ref().unwrap();
        let mut rig = rig.clone();
        if let Some(shift) = worst.case.cg_shift.map(|shift| bands.cg_shifts[shift]) {
            (0..3).for_each(|axis| rig.bodies[0].masses[0].at_m[axis] += shift.by_m[axis]);
        }
        for (member, longer_m) in rig.members.iter_mut().zip(&worst.case.longer_m) {
            member.length_m += longer_m;
            member.ea_n *= worst.case.ea_factor;
        }
        rig.bodies[0].twist = twist([0.0, 1.0], &[-4.0, 4.4], worst.case.gj_n_m2.unwrap());
        let tension_n = tensions_n(&hang(&rig, None).unwrap())[index];
        assert!((tension_n / worst.tension_n - 1.0).abs() < 1e-7);
        assert_eq!(
            (worst.case.ea_factor, worst.case.gj_n_m2),
            (1.25, Some(f64::INFINITY)),
            "stiff is worse"
        );
    }
    let nominal = hang(&rig, None).unwrap().bodies[0].tilt_along_rad;
    let [low, high] = found.tilts[0].along_rad;
    assert!(low < nominal && nominal < high);
}

/// What cannot be computed is said, not left out: a fault, and a case that goes over.
#[test]
fn refusals_are_listed() {
    let rig = uneven([0.2, 0.0, -0.5], 40e6, &[]);
    let none = Bands {
        length_tolerance_m: vec![f64::NAN; 4],
        ..Bands::default()
    };
    let found = worst_case(&rig, &none);
    assert_eq!((found.members, found.solved), (vec![None; 4], 0));
    assert!(matches!(found.refusals[0].reason, NoHang::Input(_)));
    let whole = Bands {
        length_tolerance_m: vec![rig.members[0].length_m; 4],
        ..Bands::default()
    };
    let missing = Bands {
        cg_shifts: vec![CgShift {
            body: 3,
            by_m: [0.0; 3],
        }],
        ..Bands::default()
    };
    let nothing = Bands {
        ea_factors: vec![0.0],
        ..Bands::default()
    };
    for bands in [whole, missing, nothing] {
        let found = worst_case(&rig, &bands);
        assert!(
            found.solved == 0 && matches!(found.refusals[0].reason, NoHang::Input(_)),
            "{bands:?}"
        );
    }
    let over = Bands {
        cg_shifts: vec![CgShift {
            body: 0,
            by_m: [0.0, 0.0, 12.0],
        }],
        ..Bands::default()
    };
    let found = worst_case(&rig, &over);
    assert_eq!((found.refusals.len(), found.refusals[0].case.cg_shift), (1, Some(0)));
    let empty = worst_case(
        &Rig {
            members: vec![Member {
                path: Vec::new(),
                ..rig.members[0].clone()
            }],
            ..rig
        },
        &none,
    );
    assert!(matches!(empty.refusals[0].reason, NoHang::Input(_)));
}
