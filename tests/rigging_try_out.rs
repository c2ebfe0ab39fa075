//! Rigs tried out beside the plan: one leg long under a stiff and a soft box, one end on a running sling, the level reference, wall contact.
//!
//! Sources stand beside their checks.
#![allow(clippy::unwrap_used)]

use setday::evaluate::{evaluate, try_out as try_lift};
use setday::plan::{example, sample};
use setday::rigging::{HangingLoad, Line, Run, SlingSetUp, Stretch, Tried, TryOut, Wall, try_out};

/// 12 t, picks ±5 × ±2 m at 3 m, the centre of gravity at their height, in a box of 12 × 4 × 3 m.
fn load() -> HangingLoad {
    HangingLoad {
        mass_kg: 12_000.0,
        cg_m: [6.0, 2.0, 3.0],
        picks_m: vec![[1.0, 0.0, 3.0], [1.0, 4.0, 3.0], [11.0, 0.0, 3.0], [11.0, 4.0, 3.0]],
        edges_m: Vec::new(),
        length_m: 12.0,
        width_m: 4.0,
        height_m: 3.0,
    }
}

/// Hook 7 m above the picks, EA 40 MN.
fn legs() -> SlingSetUp {
    SlingSetUp::FourLegs {
        legs: [Line {
            length_m: 78.0_f64.sqrt(),
            ea_n: Some([40e6; 2]),
        }; 4],
    }
}

fn one_long() -> TryOut {
    TryOut {
        longer_m: vec![0.03],
        stretch: Stretch::Stiff,
        ..TryOut::nominal()
    }
}

fn kn(tried: &Tried) -> [f64; 4] {
    core::array::from_fn(|i| tried.legs[i].tension_n / 1e3)
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} ± {tolerance}"
    );
}

/// Stiff box: 71.1 and 3.1 kN of 37.1 (statics of the skew, one leg longer: 1 ± EA·Δ/(4·L·T₀), derived).
#[test]
fn one_leg_long_under_a_stiff_box() {
    let tried = try_out(&load(), &legs(), &one_long()).unwrap();
    for (found, expected) in kn(&tried).into_iter().zip([3.1, 71.1, 71.1, 3.1]) {
        near(found, expected, 0.05);
    }
    near(tried.racking_m, 0.0, 0.0);
}

/// A box that twists freely carries no torque: every leg its 37.1 kN, and the twist takes up the length.
#[test]
fn a_free_box_evens_out_and_twists() {
    let free = TryOut {
        gj_n_m2: 0.0,
        ..one_long()
    };
    let tried = try_out(&load(), &legs(), &free).unwrap();
    for found in kn(&tried) {
        near(found, 37.1, 0.2);
    }
    // by hand: a pick 2 m beside and 1.5 m above the axis moves along its leg by φ/2·(2·7 + 1.5·2)/L, and the four moves make up Δ:
    // φ = Δ·L/34 = 0.03·8.832/34, out of plane by φ·4 m
    near(tried.twist_rad.abs(), 0.007_793, 1e-5);
    near(tried.racking_m, 0.031_17, 5e-5);
    let between = TryOut {
        gj_n_m2: 100e6,
        ..one_long()
    };
    let soft = try_out(&load(), &legs(), &between).unwrap();
    assert!(kn(&soft)[1] < 70.0 && kn(&soft)[1] > 40.0, "{:?}", kn(&soft));
}

/// Three tensions from three equations: the pair has one tension, and the other two legs share evenly, whatever one leg's length.
#[test]
fn a_running_sling_evens_out() {
    let equalised = TryOut {
        equalised_end: Some(1),
        ..one_long()
    };
    let tried = try_out(&load(), &legs(), &equalised).unwrap();
    for found in kn(&tried) {
        near(found, 37.1, 0.2);
    }
}

#[test]
fn nominal_is_the_assessment() {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    for (index, lift) in assessment.lifts.iter().enumerate().take(5) {
        let hung = lift.rig.hung.as_ref().unwrap();
        let tried = try_lift(&plan, index, &TryOut::nominal()).unwrap();
        near(tried.along_rad, hung.along.tilt_rad, 1e-12);
        near(tried.across_rad, hung.across.tilt_rad, 1e-12);
        for (a, b) in tried
            .hung
            .box_m
            .iter()
            .flatten()
            .zip(hung.figure.box_m.iter().flatten())
        {
            near(*a, *b, 1e-9);
        }
        for (a, b) in tried
            .hung
            .legs_m
            .iter()
            .flatten()
            .flatten()
            .zip(hung.figure.legs_m.iter().flatten().flatten())
        {
            near(*a, *b, 1e-9);
        }
        // level is level, and below the same hook
        let floor = tried.level.box_m.map(|p| p[2]);
        for k in 1..4 {
            near(floor[k], floor[0], 1e-12);
        }
        for bar in &tried.level.bars_m {
            near(bar[0][2], bar[1][2], 1e-12);
        }
    }
}

/// A pick at the floor, on the wall, and a hook above the middle: at the eave the leg is inside the wall by the slope of the leg. By hand, a box 3 m
/// high on picks 2 m from the middle across and 5 m along, hook 8 m up: 2·3/8 = 0.75 m inside the side wall.
#[test]
fn a_leg_to_a_floor_pick_touches_the_wall() {
    let mut load = load();
    load.picks_m.iter_mut().for_each(|p| p[2] = 0.0);
    load.cg_m[2] = 1.2;
    let set_up = SlingSetUp::FourLegs {
        legs: [Line {
            length_m: (25.0 + 4.0 + 64.0_f64).sqrt(),
            ea_n: None,
        }; 4],
    };
    let tried = try_out(&load, &set_up, &TryOut::nominal()).unwrap();
    assert_eq!(tried.touches.len(), 4);
    for touch in &tried.touches {
        near(touch.inside_m, 0.75, 0.002);
        assert_eq!(touch.wall, Wall::Side(touch.member % 2));
        near(touch.at_m[2] - tried.hung.box_m[4][2], 0.0, 1e-3);
    }
    // picks at the eave: nothing to touch
    let tried = try_out(&self::load(), &legs(), &one_long()).unwrap();
    assert!(tried.touches.is_empty());
}

/// The example that the page shows and docs/hang.md pictures: 71.1 and 3.1 kN of 37.1, 1.92 and 0.08.
#[test]
fn the_example_gives_the_figures_of_the_docs() {
    let plan = example::four_legs();
    let stiff = |longer_m: f64| {
        let what = TryOut {
            longer_m: vec![longer_m],
            stretch: Stretch::Stiff,
            ..TryOut::nominal()
        };
        kn(&try_lift(&plan, 0, &what).unwrap())
    };
    let (equal, long) = (stiff(0.0), stiff(example::LONGER_M));
    for ((equal, long), (kn, share)) in
        equal
            .into_iter()
            .zip(long)
            .zip([(3.1, 0.08), (71.1, 1.92), (71.1, 1.92), (3.1, 0.08)])
    {
        near(equal, 37.1, 0.05);
        near(long, kn, 0.05);
        near(long / equal, share, 0.005);
    }
    // past 32 mm two legs are slack, and it still hangs
    assert!(
        try_lift(
            &plan,
            0,
            &TryOut {
                longer_m: vec![0.05],
                stretch: Stretch::Stiff,
                ..TryOut::nominal()
            }
        )
        .unwrap()
        .legs[0]
            .slack
    );
    for end in [0, 1] {
        for longer_m in [-0.05, 0.05] {
            let what = TryOut {
                longer_m: vec![longer_m],
                stretch: Stretch::Stiff,
                equalised_end: Some(end),
                ..TryOut::nominal()
            };
            assert!(try_lift(&plan, 0, &what).unwrap().legs.iter().all(|leg| !leg.slack));
        }
    }
}

/// The same legs led over the eaves: they bend there, lie along the wall below and are inside nothing.
#[test]
fn a_leg_over_the_eave_bends_and_is_outside() {
    let mut load = load();
    load.picks_m.iter_mut().for_each(|p| p[2] = 0.0);
    load.cg_m[2] = 1.2;
    load.edges_m = vec![[[0.0, 0.0, 3.0], [12.0, 0.0, 3.0]], [[0.0, 4.0, 3.0], [12.0, 4.0, 3.0]]];
    let line = Line {
        length_m: 11.0,
        ea_n: Some([20e6; 2]),
    };
    let leg = |pick: usize| (line, vec![Run::Hook, Run::Edge(pick % 2), Run::Pick(pick)]);
    let set_up = SlingSetUp::Pieces {
        hung: Vec::new(),
        legs: (0..4).map(leg).collect(),
    };
    let tried = try_out(&load, &set_up, &TryOut::nominal()).unwrap();
    assert!(tried.touches.is_empty(), "{:?}", tried.touches);
    assert_eq!(
        tried.bends.iter().map(|(leg, _)| *leg).collect::<Vec<_>>(),
        [0, 1, 2, 3]
    );
    for ((leg, at_m), level) in tried.bends.iter().zip(&tried.level.ways_m) {
        near(at_m[2], tried.hung.box_m[4][2], 1e-6);
        assert_eq!((tried.hung.ways_m[*leg].len(), level.len()), (3, 3));
        // it hangs level, so level is where it hangs
        for k in 0..3 {
            near(level[1][k], at_m[k], 1e-6);
        }
    }
}
