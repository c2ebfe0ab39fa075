//! The hang solver against a general-purpose optimiser: rigs solved with scipy by `oracles/hang_reference.py`, whose printed
//! values (with the versions that made them) are `oracles/hang_reference.txt`.
#![allow(clippy::unwrap_used, clippy::float_cmp, clippy::disallowed_methods)] // tests: a panic is a failure, and std's functions are not what is tested
mod rigs;

use rigs::*;
use setday::statics::{Body, Hang, MassItem, Member, Point, Rig, Stop, hang};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const PRINTED: &str = include_str!("oracles/hang_reference.txt");

/// Values the reference printed for one case under one name; none if it printed none.
fn printed(case: &str, name: &str) -> Vec<f64> {
    let head = format!("{case} {name} ");
    let line = PRINTED.lines().find_map(|line| line.strip_prefix(&head));
    line.map_or_else(Vec::new, |line| {
        line.split(' ').map(|value| value.parse().unwrap()).collect()
    })
}

#[track_caller]
fn same(case: &str, name: &str, values: &[f64], tolerance: f64) {
    let expected = printed(case, name);
    assert_eq!(expected.len(), values.len(), "{case} {name}");
    for (value, expected) in values.iter().zip(expected) {
        assert!(
            (value - expected).abs() <= tolerance,
            "{case} {name}: {value} is not {expected}"
        );
    }
}

/// Tensions to 1e-8 of the hook load, angles and places to 1e-8 rad and m.
#[track_caller]
fn check(case: &str, rig: &Rig) -> Hang {
    let hung = hang(rig, None).unwrap_or_else(|reason| panic!("{case}: {reason}"));
    same(case, "tension_n", &tensions_n(&hung), 1e-8 * hung.hook_load_n);
    let load = &hung.bodies[0];
    same(case, "tilt_along_rad", &[load.tilt_along_rad], 1e-8);
    if rig.bodies[0].twist.is_none() {
        same(case, "tilt_across_rad", &[load.tilt_across_rad], 1e-8);
    }
    same(case, "origin_z_m", &[hung.state.bodies[0].at_m[2]], 1e-8);
    let twist_rad: Vec<f64> = load.bays.iter().map(|bay| bay.twist_rad).collect();
    same(case, "twist_rad", &twist_rad, 1e-8);
    same(case, "bend_m", &load.bend_m, 1e-8);
    hung
}

#[test]
fn slack_legs() {
    let masses = vec![lump(12_000.0, [0.4, 0.1, -0.5])];
    let rig = bridle(
        masses,
        &four_picks(5.0, 2.0, 0.0),
        [0.0, 0.0, 7.0],
        &[0.08, 0.0, 0.06, 0.0],
        40e6,
    );
    assert!(check("slack_legs", &rig).members[0].slack);
}

#[test]
fn uneven_picks() {
    let picks = [[-4.6, -1.9, 0.0], [5.2, -2.1, 0.4], [4.7, 2.0, 0.1], [-5.0, 1.7, 0.6]];
    let masses = vec![lump(13_500.0, [0.5, -0.2, 0.3])];
    check(
        "uneven_picks",
        &bridle(masses, &picks, [0.3, 0.1, 7.5], &[0.0, 0.01, -0.02, 0.015], 25e6),
    );
}

#[test]
fn cg_above_picks() {
    let masses = vec![lump(11_000.0, [0.35, -0.25, 2.2])];
    let rig = bridle(
        masses,
        &four_picks(4.5, 2.0, 0.0),
        [0.0, 0.0, 6.5],
        &[0.0, 0.0, 0.01, 0.0],
        30e6,
    );
    check("cg_above_picks", &rig);
}

#[test]
fn two_tiers() {
    let tier = TwoTier {
        box_masses: vec![lump(15_300.0, [9.1, 1.85, 1.27])],
        picks_m: [[3.0, 0.0, 0.1], [12.8, 0.0, 0.1], [12.8, 4.1, 0.1], [3.0, 4.1, 0.1]],
        twist: None,
        bar_m: 9.8,
        bar_kg: 744.0,
        cross_m: 4.26,
        cross_kg: 213.0,
        top_m: [8.63, 7.31],
        bridle_m: [4.42, 4.52, 4.42, 4.52],
        strap_m: 4.88,
        ea_n: 60e6,
    };
    let mut rig = tier.rig();
    rig.points[0].at_m = [7.9, 2.05, 15.5];
    rig.members[6..].iter_mut().for_each(|strap| strap.ea_n = 9e6);
    check("two_tiers", &rig);
}

#[test]
fn lifting_beam() {
    let beam = Body {
        masses: vec![lump(620.0, [0.02, 0.01, 0.0])],
        nodes_m: vec![[0.05, 0.0, 0.35], [-2.8, 0.0, -0.25], [2.8, 0.0, -0.25]],
        at_m: [0.0, 0.0, 4.0],
        ..Body::default()
    };
    let load = Body {
        masses: vec![lump(8000.0, [0.25, 0.1, -0.3])],
        nodes_m: four_picks(3.0, 1.2, 0.0).to_vec(),
        ..Body::default()
    };
    let strap = |lug, pick| Member::between(node(1, lug), node(0, pick), 4.0, 20e6);
    let rig = Rig {
        bodies: vec![load, beam],
        points: vec![hook([0.0, 0.0, 8.5])],
        members: vec![
            Member::between(HOOK, node(1, 0), 4.2, 50e6),
            strap(1, 0),
            strap(2, 1),
            strap(2, 2),
            strap(1, 3),
        ],
    };
    check("lifting_beam", &rig);
}

#[test]
fn six_picks() {
    let mut picks = four_picks(5.5, 2.0, 0.0).to_vec();
    picks.extend([[0.2, -2.0, 0.1], [-0.1, 2.0, 0.0]]);
    let longer_m = [0.0, 0.004, 0.0, -0.006, 0.02, 0.002];
    let rig = bridle(
        vec![lump(14_000.0, [0.4, 0.2, -0.2])],
        &picks,
        [0.0, 0.0, 8.0],
        &longer_m,
        35e6,
    );
    assert!(check("six_picks", &rig).members[4].slack);
}

#[test]
fn running_sling() {
    let picks = four_picks(4.0, 1.8, 0.0);
    let saddles = [[-0.5, 0.0, 6.0], [0.5, 0.0, 6.0]];
    let sling = |saddle: usize, picked: [usize; 2], longer_m: f64| Member {
        path: vec![node(0, picked[0]), Stop::Point(saddle), node(0, picked[1])],
        length_m: 2.0 * distance_m(saddles[saddle], picks[picked[0]]) + longer_m,
        ea_n: 30e6,
        fittings: Vec::new(),
    };
    let rig = Rig {
        bodies: vec![Body {
            masses: vec![lump(9000.0, [0.3, 0.25, -0.6])],
            nodes_m: picks.to_vec(),
            ..Body::default()
        }],
        points: saddles.map(hook).to_vec(),
        members: vec![sling(0, [0, 3], 0.0), sling(1, [1, 2], 0.03)],
    };
    check("running_sling", &rig);
}

fn twist_items() -> Vec<MassItem> {
    vec![
        lump(3000.0, [-6.0, 0.4, 1.0]),
        lump(5200.0, [-1.0, -0.3, 1.4]),
        lump(4100.0, [4.5, 0.5, 0.9]),
        lump(900.0, [7.0, -1.0, 2.0]),
    ]
}

fn twisting(picks: &[[f64; 3]], hook_m: [f64; 3], longer_m: &[f64], axis: [f64; 2], sections: &[f64], gj: f64) -> Rig {
    let mut rig = bridle(twist_items(), picks, hook_m, longer_m, 40e6);
    rig.bodies[0].twist = twist(axis, sections, gj);
    rig
}

#[test]
fn twisting_box() {
    let picks = four_picks(5.0, 2.0, 0.0);
    check(
        "twisting_box",
        &twisting(&picks, [0.4, 0.0, 7.0], &[0.03], [0.1, 1.2], &[-5.0, 5.0], 2.5e6),
    );
    check(
        "soft_box",
        &twisting(&picks, [0.4, 0.0, 7.0], &[0.05], [0.0, 0.5], &[-5.0, 5.0], 0.0),
    );
}

#[test]
fn twisting_in_two_bays() {
    let mut picks = four_picks(5.0, 2.0, 0.0).to_vec();
    picks.extend([[0.5, -2.0, 0.0], [0.5, 2.0, 0.0]]);
    let longer_m = [0.02, 0.0, -0.01, 0.0, 0.01];
    let rig = twisting(
        &picks,
        [0.4, 0.0, 7.5],
        &longer_m,
        [-0.2, 0.8],
        &[-5.0, 0.5, 5.0],
        1.5e6,
    );
    let hung = check("twisting_two_bays", &rig);
    for (bay, length_m) in hung.bodies[0].bays.iter().zip([5.5, 4.5]) {
        let torque_n_m = 1.5e6 / length_m * bay.twist_rad;
        assert!(
            (bay.torque_n_m / torque_n_m - 1.0).abs() < 1e-4,
            "GJ/s times the angle is what the forces put in"
        );
    }
}

#[test]
fn bending_between_six_picks() {
    let mut picks = four_picks(5.5, 2.0, 0.0).to_vec();
    picks.extend([[0.4, -2.0, 0.1], [0.4, 2.0, 0.0]]);
    let longer_m = [0.0, 0.004, 0.0, -0.006, -0.01, 0.002];
    let mut rig = bridle(twist_items(), &picks, [0.4, 0.0, 8.0], &longer_m, 35e6);
    rig.bodies[0].bend = bend(1.1, &[-5.5, 0.4, 5.5], 6e7);
    check("bending_six_picks", &rig);
}

#[test]
fn bending_and_twisting_between_eight() {
    let sections_m = [-6.0, -2.0, 2.5, 6.0];
    let picks: Vec<_> = sections_m
        .iter()
        .flat_map(|x_m| [[*x_m, -2.0, 0.3], [*x_m, 2.0, 0.3]])
        .collect();
    let longer_m = [0.0, 0.01, 0.004, 0.0, -0.004, 0.0, 0.006, 0.0];
    let mut rig = bridle(twist_items(), &picks, [0.1, 0.0, 9.0], &longer_m, 30e6);
    rig.bodies[0].twist = twist([0.1, 0.9], &sections_m, 2e6);
    rig.bodies[0].bend = bend(1.4, &sections_m, 2e7);
    check("bending_and_twisting", &rig);
}

#[test]
fn block_and_links() {
    let picks = four_picks(4.2, 1.9, 0.0);
    let (block_m, shackle_m) = ([0.0, 0.0, 7.0], [-2.1, -0.95, 3.5]);
    let point = |mass_kg, at_m| Point {
        at_m,
        mass_kg,
        fixed: false,
    };
    let (block, shackle) = (Stop::Point(1), Stop::Point(2));
    let mut members = vec![
        Member::between(HOOK, block, 5.0, 80e6),
        Member::between(block, shackle, distance_m(block_m, shackle_m), 30e6),
        Member::between(shackle, node(0, 0), distance_m(shackle_m, picks[0]) + 0.01, 30e6),
    ];
    members.extend((1..4).map(|pick| Member::between(block, node(0, pick), distance_m(block_m, picks[pick]), 30e6)));
    let rig = Rig {
        bodies: vec![Body {
            masses: vec![lump(10_500.0, [-0.3, 0.2, -0.4])],
            nodes_m: picks.to_vec(),
            ..Body::default()
        }],
        points: vec![hook([0.0, 0.0, 12.0]), point(380.0, block_m), point(45.0, shackle_m)],
        members,
    };
    check("block_and_links", &rig);
}

#[test]
fn two_hooks() {
    let leg = |at: usize, pick: usize, length_m: f64| Member::between(Stop::Point(at), node(0, pick), length_m, 30e6);
    let rig = Rig {
        bodies: vec![Body {
            masses: vec![lump(16_000.0, [0.6, 0.2, -0.5])],
            nodes_m: four_picks(4.0, 1.5, 0.0).to_vec(),
            heading_rad: 0.15,
            ..Body::default()
        }],
        points: vec![hook([-3.0, 0.1, 6.0]), hook([3.2, -0.2, 6.4])],
        members: vec![leg(0, 0, 6.35), leg(0, 3, 6.37), leg(1, 1, 6.7), leg(1, 2, 6.68)],
    };
    check("two_hooks", &rig);
}

#[test]
fn straps_over_eaves() {
    let edges = vec![
        edge([-5.0, -2.2, 2.8], [5.0, -2.3, 2.9], [0.0, -1.0, 0.3]),
        edge([-5.0, 2.25, 2.8], [5.0, 2.2, 2.8], [0.0, 1.0, 0.3]),
    ];
    let strap = |pick: usize, edge: usize, length_m: f64| Member {
        path: vec![HOOK, Stop::Edge { body: 0, edge }, node(0, pick)],
        length_m,
        ea_n: 12e6,
        fittings: Vec::new(),
    };
    let rig = Rig {
        bodies: vec![Body {
            masses: vec![lump(9500.0, [0.2, 0.1, 1.2])],
            nodes_m: four_picks(3.0, 2.0, 0.0).to_vec(),
            edges: edges.clone(),
            ..Body::default()
        }],
        points: vec![hook([0.0, 0.0, 9.0])],
        members: vec![strap(0, 0, 9.75), strap(1, 0, 9.8), strap(2, 1, 9.8), strap(3, 1, 9.75)],
    };
    let hung = check("straps_over_eaves", &rig);
    let slides: Vec<f64> = hung
        .members
        .iter()
        .map(|member| slide_m(&hung, &edges, &member.contacts[0]))
        .collect();
    same("straps_over_eaves", "slide_m", &slides, 1e-8);
}

/// Where along its edge a contact is, m from the middle: the contact taken back into the body's frame.
fn slide_m(hung: &Hang, edges: &[setday::statics::Edge], contact: &setday::statics::Contact) -> f64 {
    use nalgebra::{Quaternion, UnitQuaternion, Vector3};
    let [w, x, y, z] = hung.state.bodies[0].attitude;
    let attitude = UnitQuaternion::from_quaternion(Quaternion::new(w, x, y, z));
    let own_m = attitude.inverse() * (Vector3::from(contact.at_m) - Vector3::from(hung.state.bodies[0].at_m));
    let (from_m, to_m) = (
        Vector3::from(edges[contact.edge].from_m),
        Vector3::from(edges[contact.edge].to_m),
    );
    (own_m - (from_m + to_m) / 2.0).dot(&(to_m - from_m).normalize())
}
