//! What is read off a rig at rest: straps round eaves, watched faces, pulls at the picks, twist of a rigid box, levels.
#![allow(clippy::unwrap_used, clippy::float_cmp, clippy::disallowed_methods)] // tests: a panic is a failure, and std's functions are not what is tested
mod rigs;

use rigs::*;
use setday::statics::{Body, Hang, Member, NoHang, Rig, Stop, friction_bounds, hang};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[track_caller]
fn close(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected} within {tolerance}"
    );
}

/// A box 8 m long under a bar of its picks' length: straps from the bar's ends to floor picks on the walls, round the eaves.
fn under_narrow_bar(mass_kg: f64, half_m: f64, eave_m: f64, rise_m: f64, wrapped: bool) -> Rig {
    let picks = four_picks(3.0, half_m, 0.0);
    let eave = |side: f64| {
        edge(
            [-4.0, side * half_m, eave_m],
            [4.0, side * half_m, eave_m],
            [0.0, side, 0.4],
        )
    };
    let wall = |side: f64| {
        let corner = |x_m: f64, z_m: f64| [x_m, side * half_m, z_m];
        let corners = vec![
            corner(-4.0, 0.0),
            corner(4.0, 0.0),
            corner(4.0, eave_m),
            corner(-4.0, eave_m),
        ];
        if side < 0.0 {
            corners
        } else {
            corners.into_iter().rev().collect()
        }
    };
    let bar_z_m = eave_m + rise_m;
    let strap = |lug: usize, side: usize, pick: usize| {
        let (over, length_m) = (Stop::Edge { body: 0, edge: side }, half_m.hypot(rise_m) + eave_m);
        let (path, length_m) = if wrapped {
            (vec![node(1, lug), over, node(0, pick)], length_m)
        } else {
            (vec![node(1, lug), node(0, pick)], half_m.hypot(bar_z_m))
        };
        Member {
            path,
            length_m,
            ea_n: 1e9,
            fittings: Vec::new(),
        }
    };
    Rig {
        bodies: vec![
            Body {
                masses: vec![lump(mass_kg, [0.0, 0.0, 0.8])],
                nodes_m: picks.to_vec(),
                edges: vec![eave(-1.0), eave(1.0)],
                faces_m: vec![wall(-1.0), wall(1.0)],
                corners_m: vec![[-4.0, -half_m, 0.0], [4.0, half_m, eave_m]],
                ..Body::default()
            },
            Body {
                nodes_m: vec![[-3.0, 0.0, 0.0], [3.0, 0.0, 0.0]],
                at_m: [0.0, 0.0, bar_z_m],
                ..Body::default()
            },
        ],
        points: vec![hook([0.0, 0.0, bar_z_m + 4.0])],
        members: vec![
            Member::between(HOOK, node(1, 0), 5.0, 1e9),
            Member::between(HOOK, node(1, 1), 5.0, 1e9),
            strap(0, 0, 0),
            strap(1, 0, 1),
            strap(1, 1, 2),
            strap(0, 1, 3),
        ],
    }
}

/// Inward push at the eave V·b/rise, and a floor pick that carries the strap's whole tension: 12 000 lb a strap, half-width
/// 6.75 ft, rise 4 ft → 20 250 lb; rise 12 ft → 6750 lb. Source: derived: statics of a strap bent over an edge.
#[test]
fn straps_round_the_eaves() {
    for (rise_ft, push_lb) in [(4.0, 20_250.0), (12.0, 6750.0)] {
        let (half_m, rise_m) = (6.75 * M_PER_FT, rise_ft * M_PER_FT);
        let rig = under_narrow_bar(48_000.0 * KG_PER_LB, half_m, 9.0 * M_PER_FT, rise_m, true);
        let hung = hang(&rig, None).unwrap();
        for strap in &hung.members[2..] {
            let contact = strap.contacts[0];
            close(contact.force_n[1].abs() / N_PER_LB, push_lb, push_lb * 1e-3);
            close(contact.angle_rad, (half_m / rise_m).atan(), 1e-3);
            assert_eq!(contact.beyond_end_m, 0.0);
        }
        let strap_n = 12_000.0 * N_PER_LB * half_m.hypot(rise_m) / rise_m;
        for pick in &hung.bodies[0].picks {
            close(pick.vertical_n / strap_n, 1.0, 1e-3);
            close(pick.inward_across_n / strap_n, 0.0, 1e-3);
        }
        close(hung.hook_load_n / N_PER_LB, 48_000.0, 0.01);
        close(hung.members[2].angles_from_horizontal_rad[1].to_degrees(), 90.0, 0.05);
    }
}

/// An edge that ends short of the strap is said to be passed by so much.
#[test]
fn a_contact_beyond_the_end_of_its_edge() {
    let mut rig = under_narrow_bar(9000.0, 1.5, 2.5, 4.0, true);
    rig.bodies[0].edges[0].to_m[0] = 2.0;
    let hung = hang(&rig, None).unwrap();
    close(hung.members[3].contacts[0].beyond_end_m, 1.0, 1e-3);
    assert_eq!(hung.members[2].contacts[0].beyond_end_m, 0.0);
}

/// e^(μβ): a full turn with μ 0.3 holds 6.59 times. Source: Euler–Eytelwein, as printed in mechanics textbooks (from memory).
#[test]
fn friction_over_an_edge() {
    let (low_n, high_n) = friction_bounds(1000.0, std::f64::consts::TAU, 0.3);
    close(high_n, 6586.0, 1.0);
    close(low_n * high_n, 1e6, 1e-3);
    assert_eq!(friction_bounds(1000.0, 1.2, 0.0), (1000.0, 1000.0));
}

/// An edge the strap does not reach is not touched: the same answer as without it.
#[test]
fn edges_are_one_sided() {
    let mut clear = under_narrow_bar(9000.0, 1.5, 2.5, 4.0, true);
    for edge in &mut clear.bodies[0].edges {
        [&mut edge.from_m, &mut edge.to_m]
            .into_iter()
            .for_each(|end| end[1] *= 0.2);
    }
    clear.members[2..]
        .iter_mut()
        .for_each(|strap| strap.length_m = 1.5_f64.hypot(6.5));
    let straight = hang(&under_narrow_bar(9000.0, 1.5, 2.5, 4.0, false), None).unwrap();
    let clear = hang(&clear, None).unwrap();
    assert!(clear.members.iter().all(|member| member.contacts.is_empty()));
    for (a, b) in tensions_n(&straight).into_iter().zip(tensions_n(&clear)) {
        close(a, b, 1e-6 * a);
    }
}

/// Clearance at the top of a wall by similar triangles: a strap from the floor to a point `half` inside is behind the eave by
/// half × eave height / total height. Source: derived: geometry.
#[test]
fn a_strap_behind_a_wall_is_reported_not_counted() {
    let rig = under_narrow_bar(9000.0, 1.5, 2.5, 4.0, false);
    let hung = hang(&rig, None).unwrap();
    assert_eq!(hung.faces.len(), 4, "each strap over its own wall: {:?}", hung.faces);
    for contact in &hung.faces {
        close(contact.clearance_m, -1.5 * 2.5 / 6.5, 1e-4);
    }
    let mut without = rig.clone();
    without.bodies[0].faces_m.clear();
    assert_eq!(tensions_n(&hang(&without, None).unwrap()), tensions_n(&hung));
    let mut wide = rig;
    wide.bodies[1].nodes_m = vec![[-3.0, -1.7, 0.0], [3.0, -1.7, 0.0], [3.0, 1.7, 0.0], [-3.0, 1.7, 0.0]];
    wide.members.truncate(2);
    wide.members = (0..4)
        .map(|lug| Member::between(HOOK, node(1, lug), 5.3, 1e9))
        .collect();
    wide.members
        .extend((0..4).map(|lug| Member::between(node(1, lug), node(0, lug), 6.503, 1e9)));
    let hung = hang(&wide, None).unwrap();
    assert!(
        hung.faces
            .iter()
            .all(|face| face.clearance_m > 0.07 && face.clearance_m < 0.08),
        "{:?}",
        hung.faces
    );
}

/// Slings that only pass under a box, round its four long edges, let it slide out of them: one end down, either end.
#[test]
fn frictionless_slings_do_not_hold_endwise() {
    let (half_m, eave_m) = (1.6, 3.0);
    let edges = [(-1.0, eave_m), (-1.0, 0.0), (1.0, 0.0), (1.0, eave_m)].map(|(side, z_m): (f64, f64)| {
        let up = if z_m > 0.0 { 0.3 } else { -1.0 };
        edge([-4.0, side * half_m, z_m], [4.0, side * half_m, z_m], [0.0, side, up])
    });
    let sling = |lug: usize, anchor: usize| Member {
        path: std::iter::once(node(1, lug))
            .chain((0..4).map(|edge| Stop::Edge { body: 0, edge }))
            .chain(std::iter::once(node(1, anchor)))
            .collect(),
        length_m: 2.0 * (half_m.hypot(4.0) + eave_m + half_m),
        ea_n: 50e6,
        fittings: Vec::new(),
    };
    let bar = vec![[-3.0, 0.0, 0.0], [3.0, 0.0, 0.0], [-3.0, 0.0, 0.0], [3.0, 0.0, 0.0]];
    let rig = Rig {
        bodies: vec![
            Body {
                masses: vec![lump(9000.0, [0.0, 0.0, 0.8])],
                edges: edges.to_vec(),
                ..Body::default()
            },
            Body {
                masses: vec![lump(400.0, [0.0; 3])],
                nodes_m: bar,
                at_m: [0.0, 0.0, eave_m + 4.0],
                ..Body::default()
            },
        ],
        points: vec![hook([0.0, 0.0, eave_m + 8.0])],
        members: vec![
            Member::between(HOOK, node(1, 0), 5.0, 50e6),
            Member::between(HOOK, node(1, 1), 5.0, 50e6),
            sling(0, 2),
            sling(1, 3),
        ],
    };
    let Err(NoHang::GoesOver {
        body: 0,
        toward,
        either_way: true,
    }) = hang(&rig, None)
    else {
        panic!("{:?}", hang(&rig, None))
    };
    close(toward[0].abs(), 1.0, 1e-6);
}

fn with_long_leg(gj_n_m2: f64) -> Hang {
    let mut rig = stiff_box_on_four(0.03, 40e6);
    rig.bodies[0].masses = vec![lump(6000.0, [-5.0, 0.0, 0.0]), lump(6000.0, [5.0, 0.0, 0.0])];
    rig.bodies[0].twist = twist([0.0, 0.0], &[-5.0, 5.0], gj_n_m2);
    hang(&rig, None).unwrap()
}

/// Torque in the bay between the picks of a rigid box: half the difference of an end's vertical pulls times half the width,
/// from the formula for one long leg: ΔT sinθ · 2 m, ΔT = 67.94 kN. Source: derived: statics of one half of the box.
#[test]
fn torque_in_a_rigid_box() {
    let hung = with_long_leg(f64::INFINITY);
    let sin = 7.0 / distance_m([5.0, 2.0, 0.0], [0.0, 0.0, 7.0]);
    let bay = hung.bodies[0].bays[0];
    close(bay.torque_n_m.abs() / (67.94e3 * sin * 2.0), 1.0, 3e-3);
    assert_eq!((bay.twist_rad, bay.racking_m), (0.0, 0.0));
}

/// A softer box twists more and carries less torque; a bay's torque is GJ/s times its angle; racking is the angle over the
/// width between picks.
#[test]
fn twist_goes_with_torque() {
    let bays = [1e8, 1e7, 1e6].map(|gj_n_m2| (gj_n_m2, with_long_leg(gj_n_m2).bodies[0].bays[0]));
    for (gj_n_m2, bay) in bays {
        close(bay.torque_n_m / (gj_n_m2 / 10.0 * bay.twist_rad), 1.0, 1e-6);
        close(bay.racking_m / bay.twist_rad, 4.0, 1e-3);
    }
    assert!(
        bays.windows(2)
            .all(|pair| pair[0].1.torque_n_m.abs() > pair[1].1.torque_n_m.abs())
    );
    assert!(
        bays.windows(2)
            .all(|pair| pair[0].1.twist_rad.abs() < pair[1].1.twist_rad.abs())
    );
}

/// Heading, rise and corners are those of the pose: a box drawn at 30° keeps its heading about a single hook.
#[test]
fn level_and_heading() {
    let mut rig = bridle(
        vec![lump(9000.0, [0.4, -0.2, -0.5])],
        &four_picks(4.0, 1.5, 0.0),
        [0.0, 0.0, 6.0],
        &[],
        40e6,
    );
    rig.bodies[0].corners_m = vec![[-6.0, -2.0, 0.0], [6.0, -2.0, 0.0], [6.0, 2.0, 0.0], [-6.0, 2.0, 0.0]];
    rig.bodies[0].heading_rad = 30.0_f64.to_radians();
    let hung = hang(&rig, None).unwrap();
    let load = &hung.bodies[0];
    close(load.heading_rad.to_degrees(), 30.0, 0.5);
    close(load.rise_along_m, 12.0 * load.tilt_along_rad.sin(), 1e-12);
    close(load.corners_m[1][2] - load.corners_m[0][2], load.rise_along_m, 1e-12);
    close(load.corners_m[2][2] - load.corners_m[1][2], load.rise_across_m, 1e-12);
    assert!(
        load.tilt_along_rad < 0.0 && load.tilt_across_rad > 0.0,
        "low where the centre of gravity is"
    );
    let inward: Vec<bool> = load
        .picks
        .iter()
        .map(|pick| pick.inward_along_n > 0.0 && pick.inward_across_n > 0.0)
        .collect();
    assert_eq!(inward, [true; 4]);
}
