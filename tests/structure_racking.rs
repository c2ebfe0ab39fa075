//! Twist and panel shear of the box, and the raise of a roof panel, against figures from outside the project.
#![allow(clippy::unwrap_used)]

use setday::rigging::closed_box_gj_n_m2;
use setday::structure::{
    Arc, Faces, Panel, Sling, TurningBox, TurningLoad, TurningPull, balance_of_flap_rad, flap_restraint_n,
    open_strips_gj_n_m2, panel_shear_rad, planned_pull, sheathed_share, slab_drift_m, torque_when_corner_held_n_m,
    torque_when_uneven_n_m,
};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[track_caller]
fn near(found: f64, expected: f64, absolute: f64) {
    assert!((found - expected).abs() <= absolute, "{found} is not {expected}");
}

/// Square tube 100 × 100 × 5 mm, closed J 5.0e6 mm⁴, slit open 16 667 mm⁴, 300 times less (Bredt; thin strips). With G = 1, Gt is the thickness.
#[test]
fn closed_and_slit_tube() {
    let faces = Faces {
        width_m: 0.1,
        height_m: 0.1,
        gt_n_per_m: [0.005; 4],
    };
    let closed = closed_box_gj_n_m2(faces.width_m, faces.height_m, faces.gt_n_per_m);
    let open = open_strips_gj_n_m2(&faces, 0.005);
    near(closed * 1e12, 5.0e6, 1e-3);
    near(open * 1e12, 16_667.0, 0.5);
    near(closed / open, 300.0, 1e-9);
}

/// Shear panel: 200 plf, 8 ft high, Ga 15 kip/in: 0.1067 in, 1/900 (AWC SDPWS-2008).
#[test]
fn shear_panel() {
    let plf_n_per_m = 4.448_222 / 0.3048;
    let ga_n_per_m = 15_000.0 * 4.448_222 / 0.0254;
    let drift_m = slab_drift_m(200.0 * plf_n_per_m, 8.0 * 0.3048, ga_n_per_m);
    near(drift_m / 0.0254, 0.1067, 5e-5);
    near(drift_m / (8.0 * 0.3048), 1.0 / 900.0, 1e-7);
    // the same flow round a cell, from its torque T = q·2A
    let torque = 200.0 * plf_n_per_m * 2.0 * 10.0;
    near(panel_shear_rad(torque, 10.0, ga_n_per_m), 1.0 / 900.0, 1e-7);
}

/// F = r/(3 − 2r), Sugiyama and Matsumoto: 1 without openings, 0.5 at r = 0.75, 0.25 at r = 0.5, by hand.
#[test]
fn openings() {
    for (r, share) in [(1.0, 1.0), (0.75, 0.5), (0.5, 0.25), (0.0, 0.0)] {
        near(sheathed_share(r), share, 1e-12);
    }
}

/// By hand: a box on two sections 10 m apart, picks 2 m either side of the axis. 10 kN hang 1 m aside at the first section; its first side carries
/// 2.5 and its second 7.5 kN, so that nothing is left for the box. Held level by the second section instead, the whole 10 kN·m go through it.
#[test]
fn torque_between_picks() {
    let load = TurningLoad {
        weight_n: 10e3,
        from_m: 0.0,
        to_m: 0.0,
        aside_m: 1.0,
    };
    let pull = |x_m: f64, aside_m: f64, up_n: f64| TurningPull {
        x_m,
        aside_m,
        over_m: 0.0,
        up_n,
        across_n: 0.0,
    };
    let own = TurningBox {
        loads: vec![load],
        pulls: vec![pull(0.0, -2.0, 2.5e3), pull(0.0, 2.0, 7.5e3)],
    };
    near(own.torque_n_m(5.0), 0.0, 1e-9);
    let through = TurningBox {
        loads: vec![load],
        pulls: vec![
            pull(0.0, -2.0, 5e3),
            pull(0.0, 2.0, 5e3),
            pull(10.0, -2.0, -2.5e3),
            pull(10.0, 2.0, 2.5e3),
        ],
    };
    near(through.left_over_n_m(), 0.0, 1e-9);
    let (largest, mean) = through.between_n_m([0.0, 10.0]);
    near(largest, -10e3, 1e-9);
    near(mean, -10e3, 1e-9);
    // an even strip over the whole length, held at the second section: nothing at its first end, all of it at the second, half in the mean
    let strip = TurningBox {
        loads: vec![TurningLoad { to_m: 10.0, ..load }],
        pulls: vec![pull(10.0, 2.0, 5e3)],
    };
    let (largest, mean) = strip.between_n_m([0.0, 10.0]);
    near(largest, -10e3, 1e-3);
    near(mean, -5e3, 1e-6);
}

/// GJ 6 MN·m², one bolster corner 20 mm low, 4 m wide, 10 m long: 3 kN·m, by hand; a corner that carries 0.5 kN has lifted off at 2 kN·m.
#[test]
fn lift_off_cases() {
    near(torque_when_uneven_n_m(6e6, 0.02, 4.0, 10.0, 20e3), 3e3, 1e-9);
    near(torque_when_uneven_n_m(6e6, 0.02, 4.0, 10.0, 500.0), 2e3, 1e-9);
    near(torque_when_corner_held_n_m(15e3, 4.0), 30e3, 1e-9);
}

/// Every line that the plane body in balance printed (`oracles/roof_raise.py`), over the whole arc with plumb and slanting slings.
#[test]
fn the_whole_arc_against_a_plane_body() {
    let mut seen = 0;
    for line in include_str!("oracles/roof_raise.txt")
        .lines()
        .filter(|l| !l.starts_with('#'))
    {
        let (name, rest) = line.split_once(' ').unwrap();
        let [angle, lean, pull, along, up] = rest.split(' ').map(|v| v.parse().unwrap()).collect::<Vec<f64>>()[..]
        else {
            panic!("{line}");
        };
        let (weight_n, to_cg_m, cg_square_m, to_pull_m) = match name {
            "sample" => (23131.09, 2.2555, 0.0, 4.0234),
            "square" => (18000.0, 2.4, 0.35, 4.6),
            _ => (9000.0, 1.1, 0.6, 2.0),
        };
        let panel = Panel {
            weight_n,
            to_cg_m,
            to_pull_m,
            cg_square_m,
        };
        let sling = Sling {
            lean_rad: lean.to_radians(),
        };
        let found = panel.pull_n(angle.to_radians(), sling).unwrap();
        near(found, pull, 1e-6 * pull.abs() + 1e-4);
        let [hinge_up, hinge_along] = panel.hinge_n(found, sling);
        near(hinge_up, up, 1e-6 * up.abs() + 1e-3);
        near(hinge_along, along, 1e-6 * along.abs() + 1e-3);
        seen += 1;
    }
    assert!(seen > 100, "{seen}");
}

/// The scenario's panel: 5,200 lb, 7.4 ft and 13.2 ft. P = W·d/l for a plumb sling at every angle; planned with the larger of that and 0.6, and 15 %:
/// 3,588 lb.
#[test]
fn the_pull_to_plan_with() {
    let panel = Panel {
        weight_n: 5200.0,
        to_cg_m: 7.4,
        to_pull_m: 13.2,
        cg_square_m: 0.0,
    };
    for angle_deg in [-10.0f64, 0.0, 20.0, 45.0, 80.0] {
        let pull = panel.pull_n(angle_deg.to_radians(), Sling::default()).unwrap();
        near(pull, 5200.0 * 7.4 / 13.2, 1e-9);
    }
    let arc = Arc {
        panel,
        from_rad: 0.0,
        to_rad: 25f64.to_radians(),
        hook_off_m: 2.0,
        hook_above_m: 41.0,
    };
    let largest = arc.largest_pull().unwrap();
    near(planned_pull(largest.pull_n, 5200.0, 0.6) * 1.15, 3588.0, 1e-9);
    // leaning out by 2 ft of 41 at 25°: 2915.2 · cos 25°/cos 27.793° = 2986.6, by hand
    near(largest.pull_n, 2986.6, 0.5);
    near(largest.angle_rad.to_degrees(), 25.0, 1e-9);
}

/// d = 1.1, n = 0.6: it balances at atan(1.1/0.6) = 61.39°; held back at the end of its arc by W (n sin a − d cos a)/l. Along the line itself: 90°.
#[test]
fn past_its_balance() {
    let panel = Panel {
        weight_n: 9000.0,
        to_cg_m: 1.1,
        to_pull_m: 2.0,
        cg_square_m: 0.6,
    };
    near(panel.balance_rad().to_degrees(), 61.3895, 1e-4);
    let arc = |to_deg: f64| Arc {
        panel,
        from_rad: 0.0,
        to_rad: to_deg.to_radians(),
        hook_off_m: 0.0,
        hook_above_m: 10.0,
    };
    assert_eq!(arc(60.0).passes_balance_rad(), None);
    assert_eq!(arc(60.0).restraint_n(), 0.0);
    assert!(arc(62.0).passes_balance_rad().is_some());
    // at 90° only n is left: 9000 · 0.6/2
    near(arc(90.0).restraint_n(), 2700.0, 1e-9);
    // a plumb sling cannot hold an upright panel
    assert_eq!(arc(90.0).largest_pull(), None);
    let flat = Panel {
        cg_square_m: 0.0,
        ..panel
    };
    near(flat.balance_rad().to_degrees(), 90.0, 1e-12);
}

/// A flap of 100 kg folded back and laid over to 30° below level on the other side: past upright, and its whole weight when it lies level.
#[test]
fn a_flap_falls_the_other_way() {
    near(balance_of_flap_rad(-0.5).unwrap().to_degrees(), 90.0, 1e-12);
    assert_eq!(balance_of_flap_rad(2.0), None);
    near(flap_restraint_n(100.0, -0.5), 980.665, 1e-9);
    near(flap_restraint_n(100.0, 60f64.to_radians()), 490.3325, 1e-6);
}
