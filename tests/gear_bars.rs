//! Bars and lugs by ASME BTH-1 (from memory) against an independent script: `tests/oracles/bth1.py` (numpy, scipy), printed in `tests/oracles/bth1.txt`.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use setday::gear::bar::{
    Bar, Cut, DesignCategory, Pull, Section, allowable_compression_pa, critical_slenderness, cuts,
};
use setday::gear::lug::Lug;
use setday::quantity::{Force, Length, Pressure};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const PRINTED: &str = include_str!("oracles/bth1.txt");
/// The script prints six decimals.
const PRINT: f64 = 2e-6;

#[derive(Clone, Copy)]
enum Form {
    Pipe,
    Tube,
}

/// What the script was given: name, form, depth (in), wall (in), length (in), Fy (ksi), category, compression (kip), lugs over the axis (in), weight (kip).
#[allow(clippy::type_complexity, reason = "the columns of the script's own table")]
const GIVEN: [(&str, Form, f64, f64, f64, f64, DesignCategory, f64, f64, f64); 7] = [
    (
        "pipe 8.625 x 0.322, 32 ft",
        Form::Pipe,
        8.625,
        0.322,
        384.0,
        35.0,
        DesignCategory::B,
        13.838,
        3.0,
        1.640,
    ),
    (
        "pipe 6.625 x 0.432, 20 ft",
        Form::Pipe,
        6.625,
        0.432,
        240.0,
        35.0,
        DesignCategory::A,
        30.0,
        2.0,
        0.572,
    ),
    (
        "pipe 4.5 x 0.237, 20 ft, slender",
        Form::Pipe,
        4.5,
        0.237,
        240.0,
        35.0,
        DesignCategory::A,
        8.0,
        0.5,
        0.216,
    ),
    (
        "tube 6 x 0.375, 14 ft",
        Form::Tube,
        6.0,
        0.375,
        168.0,
        46.0,
        DesignCategory::B,
        7.5,
        1.5,
        0.470,
    ),
    (
        "tube 8 x 0.5, 32 ft",
        Form::Tube,
        8.0,
        0.5,
        384.0,
        46.0,
        DesignCategory::B,
        25.0,
        4.0,
        1.560,
    ),
    (
        "tube 4 x 0.25, 24 ft, slender",
        Form::Tube,
        4.0,
        0.25,
        288.0,
        46.0,
        DesignCategory::B,
        4.0,
        0.25,
        0.293,
    ),
    (
        "tube 10 x 0.375, 40 ft, bending only",
        Form::Tube,
        10.0,
        0.375,
        480.0,
        50.0,
        DesignCategory::B,
        0.0,
        0.0,
        1.900,
    ),
];

fn printed(name: &str) -> Vec<f64> {
    let line = PRINTED
        .lines()
        .find(|line| line.starts_with(&format!("{name} |")))
        .unwrap();
    line.split('|')
        .skip(1)
        .map(|figure| figure.trim().parse().unwrap())
        .collect()
}

/// The bar between plumb loads, squeezed at lugs above its axis, its own weight along it: cut by cut, as in a rig.
fn acts(length_m: f64, compression_n: f64, over_m: f64, weight_n: f64) -> Vec<Cut> {
    let below_n = 40e3;
    let up_n = below_n + weight_n / 2.0;
    let above = |x: f64, inward: f64| Pull {
        at_m: [x, 0.0, over_m],
        force_n: [inward, 0.0, up_n],
    };
    let below = |x: f64| Pull {
        at_m: [x, 0.0, -0.1],
        force_n: [0.0, 0.0, -below_n],
    };
    let pulls = [
        above(0.0, compression_n),
        below(0.0),
        above(length_m, -compression_n),
        below(length_m),
    ];
    cuts([[0.0; 3], [length_m, 0.0, 0.0]], &pulls, weight_n)
}

#[test]
fn seven_bars_under_compression_and_bending() {
    for (name, form, depth, wall, length, fy, category, compression, over, weight) in GIVEN {
        let [depth_m, wall_m, length_m, over_m] = [depth, wall, length, over].map(|x| Length::inch(x).to_m());
        let section = match form {
            Form::Pipe => Section::pipe(depth_m, wall_m),
            Form::Tube => Section::square_tube(depth_m, wall_m),
        };
        let bar = Bar {
            section: section.unwrap(),
            yield_pa: Pressure::ksi(fy).to_pa(),
            category,
            length_m,
        };
        let newtons = |kip: f64| Force::kip_force(kip).to_n();
        let worst = bar
            .worst(&acts(length_m, newtons(compression), over_m, newtons(weight)))
            .unwrap();
        let ksi = |pa: f64| Pressure::pa(pa).to_ksi();
        let square_inch = Length::inch(1.0).to_m().powi(2);
        let found = [
            bar.section.area_m2 / square_inch,
            bar.section.modulus_m3 * depth_m / 2.0 / square_inch.powi(2),
            worst.slenderness,
            ksi(worst.allowed_axial_pa),
            ksi(worst.axial_pa),
            ksi(worst.bending_pa),
            worst.used,
        ];
        for (found, expected) in found.into_iter().zip(printed(name)) {
            assert!(
                (found - expected).abs() <= PRINT * expected.abs().max(1.0) + 5e-6,
                "{name}: {found} {expected}"
            );
        }
    }
}

#[test]
fn the_column_curve_meets_itself() {
    let rows = PRINTED
        .lines()
        .skip_while(|line| !line.starts_with("Fy ksi"))
        .skip(1)
        .take(4);
    let mut count = 0;
    for row in rows {
        let figures: Vec<f64> = row.split('|').map(|figure| figure.trim().parse().unwrap()).collect();
        let [fy, nd, cc, below, above] = figures[..] else {
            panic!("{row}")
        };
        let fy_pa = Pressure::ksi(fy).to_pa();
        assert_relative_eq!(critical_slenderness(fy_pa), cc, max_relative = 1e-6);
        for (side, expected) in [(1.0 - 1e-9, below), (1.0 + 1e-9, above)] {
            let pa = allowable_compression_pa(critical_slenderness(fy_pa) * side, fy_pa, nd);
            assert_relative_eq!(Pressure::pa(pa).to_ksi(), expected, max_relative = 1e-6);
        }
        count += 1;
    }
    assert_eq!(count, 4);
}

#[test]
fn a_lug_in_five_ways() {
    let line = PRINTED.lines().last().unwrap();
    let expected: Vec<f64> = line.split('|').map(|figure| figure.trim().parse().unwrap()).collect();
    let m = |inches: f64| Length::inch(inches).to_m();
    let lug = Lug {
        thickness_m: m(1.0),
        hole_m: m(2.06),
        pin_m: m(2.0),
        end_m: m(1.5),
        side_m: m(1.5),
        yield_pa: Pressure::ksi(36.0).to_pa(),
        ultimate_pa: Pressure::ksi(58.0).to_pa(),
        category: DesignCategory::B,
    };
    assert!(lug.is_one());
    let strength = lug.strength();
    let found = [
        strength.tension_n,
        strength.splitting_n,
        strength.shear_out_n,
        strength.bearing_n,
        strength.pin_shear_n,
    ];
    for (found, expected) in found.into_iter().zip(&expected) {
        assert_relative_eq!(Force::n(found).to_kip_force(), *expected, max_relative = 1e-6);
    }
    assert_eq!(strength.least().0, "bearing of the pin");
    assert!(!Lug { pin_m: m(2.1), ..lug }.is_one());
}

/// A bar whose compression alone reaches Euler's stress has no use that could be printed.
#[test]
fn a_strut_beyond_euler_is_no_figure() {
    let bar = Bar {
        section: Section::pipe(0.05, 0.004).unwrap(),
        yield_pa: 240e6,
        category: DesignCategory::A,
        length_m: 8.0,
    };
    let cut = Cut {
        compression_n: 50e3,
        moment_n_m: 0.0,
    };
    assert!(bar.combined(cut).used.is_infinite());
    // a pull is no compression: its share of the yield strength alone
    let pulled = bar.combined(Cut {
        compression_n: -50e3,
        moment_n_m: 0.0,
    });
    assert_relative_eq!(
        pulled.used,
        50e3 / bar.section.area_m2 / (240e6 / 2.0),
        max_relative = 1e-12
    );
}
