//! What does not hang says why, and nothing that can be typed makes the solver panic.
#![allow(clippy::unwrap_used)] // the helpers are tests too
mod rigs;

use rigs::*;
use setday::statics::{
    Body, BodyState, Fitting, InputFault, Member, NoHang, Part, Point, Rig, State, Stop, Twist, hang,
};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

fn sound() -> Rig {
    bridle(
        vec![lump(12_000.0, [0.2, 0.1, -0.4])],
        &four_picks(5.0, 2.0, 0.0),
        [0.0, 0.0, 7.0],
        &[],
        40e6,
    )
}

fn reason(rig: &Rig) -> NoHang {
    hang(rig, None).expect_err("this rig must not hang")
}

/// A change to a sound rig that makes it unsound.
type Change = fn(&mut Rig);

#[track_caller]
fn check(change: Change, expected: InputFault) {
    let mut rig = sound();
    hang(&rig, None).expect("sound before the change");
    change(&mut rig);
    assert_eq!(reason(&rig), NoHang::Input(expected));
}

#[test]
fn faults_in_the_data_are_named() {
    let (body, member, point) = (Part::Body(0), Part::Member(0), Part::Point(0));
    check(|rig| rig.members.clear(), InputFault::Empty);
    check(|rig| *rig = Rig::default(), InputFault::Empty);
    check(|rig| rig.bodies.clear(), InputFault::Empty);
    check(|rig| rig.points[0].fixed = false, InputFault::NothingFixed);
    check(|rig| rig.bodies[0].masses.clear(), InputFault::Weightless);
    check(|rig| rig.bodies[0].masses[0].mass_kg = 0.0, InputFault::Weightless);
    check(
        |rig| rig.bodies[0].masses[0].mass_kg = -1.0,
        InputFault::Negative {
            part: body,
            what: "mass",
        },
    );
    check(
        |rig| rig.bodies[0].masses[0].mass_kg = f64::NAN,
        InputFault::NotANumber {
            part: body,
            what: "mass",
        },
    );
    let what = "place of a node";
    check(
        |rig| rig.bodies[0].nodes_m[2][1] = f64::INFINITY,
        InputFault::NotANumber {
            part: body,
            what: "place of a node",
        },
    );
    check(
        |rig| rig.bodies[0].nodes_m[0][0] = f64::NAN,
        InputFault::NotANumber { part: body, what },
    );
    check(
        |rig| rig.bodies[0].at_m[0] = f64::NAN,
        InputFault::NotANumber {
            part: body,
            what: "drawn place",
        },
    );
    check(
        |rig| rig.points[0].at_m[2] = f64::NAN,
        InputFault::NotANumber {
            part: point,
            what: "place",
        },
    );
    check(
        |rig| rig.members[0].length_m = 0.0,
        InputFault::NotPositive {
            part: member,
            what: "length",
        },
    );
    check(
        |rig| rig.members[0].length_m = f64::INFINITY,
        InputFault::NotANumber {
            part: member,
            what: "length",
        },
    );
    check(
        |rig| rig.members[0].ea_n = -1.0,
        InputFault::NotPositive {
            part: member,
            what: "axial stiffness EA",
        },
    );
    check(
        |rig| {
            rig.members[0].fittings.push(Fitting {
                length_m: 0.1,
                stiffness_n_per_m: 0.0,
            })
        },
        InputFault::NotPositive {
            part: member,
            what: "stiffness of a fitting",
        },
    );
    check(|rig| rig.members[0].ea_n = 1e30, InputFault::TooStiff { member: 0 });
    check(
        |rig| rig.members[0].path.truncate(1),
        InputFault::LooseEnd { member: 0 },
    );
    check(
        |rig| rig.members[0].path[1] = Stop::Edge { body: 0, edge: 0 },
        InputFault::LooseEnd { member: 0 },
    );
    check(
        |rig| rig.members[0].path[1] = node(0, 9),
        InputFault::NoSuchStop { member: 0 },
    );
    check(
        |rig| rig.members[0].path[1] = node(7, 0),
        InputFault::NoSuchStop { member: 0 },
    );
    check(
        |rig| rig.members[0].path[1] = HOOK,
        InputFault::NoSuchStop { member: 0 },
    );
    check(
        |rig| rig.bodies.push(rig.bodies[0].clone()),
        InputFault::Adrift { part: Part::Body(1) },
    );
    check(
        |rig| {
            rig.points.push(Point {
                at_m: [0.0; 3],
                mass_kg: 1.0,
                fixed: false,
            })
        },
        InputFault::Adrift { part: Part::Point(1) },
    );
    check(
        |rig| rig.bodies[0].twist = twist([0.0; 2], &[5.0, -5.0], 1e6),
        InputFault::SectionsNotRising { part: Part::Body(0) },
    );
    check(
        |rig| rig.bodies[0].twist = twist([0.0; 2], &[-5.0, 5.0], f64::NAN),
        InputFault::Negative {
            part: Part::Body(0),
            what: "torsional rigidity GJ",
        },
    );
    check(
        |rig| rig.bodies[0].edges.push(edge([0.0; 3], [0.0; 3], [0.0, 0.0, 1.0])),
        InputFault::NotPositive {
            part: Part::Body(0),
            what: "length of an edge",
        },
    );
    check(
        |rig| rig.bodies[0].faces_m.push(vec![[0.0; 3]; 4]),
        InputFault::NotPositive {
            part: Part::Body(0),
            what: "area of a face",
        },
    );
}

#[test]
fn a_start_that_does_not_fit_is_refused() {
    let rig = sound();
    let good = hang(&rig, None).unwrap().state;
    let misfits = [
        State::default(),
        State {
            bodies: vec![BodyState {
                attitude: [0.0; 4],
                ..good.bodies[0].clone()
            }],
            ..good.clone()
        },
        State {
            bodies: vec![BodyState {
                at_m: [f64::NAN; 3],
                ..good.bodies[0].clone()
            }],
            ..good.clone()
        },
        State {
            bodies: vec![BodyState {
                twist_rad: vec![0.1],
                bend_m: Vec::new(),
                ..good.bodies[0].clone()
            }],
            ..good.clone()
        },
    ];
    for misfit in misfits {
        assert_eq!(
            hang(&rig, Some(&misfit)),
            Err(NoHang::Input(InputFault::StartDoesNotFit))
        );
    }
    assert_eq!(
        hang(&rig, Some(&good)).unwrap().steps,
        0,
        "a pose at rest is where it ends"
    );
}

#[test]
fn hook_below_the_picks() {
    let mut rig = sound();
    rig.points[0].at_m[2] = -0.5;
    assert_eq!(
        reason(&rig),
        NoHang::HookBelowPick {
            member: 0,
            below_m: 0.5
        }
    );
    let text = reason(&rig).to_string();
    assert_eq!(
        text,
        "member 1: its fixed end is drawn 0.500 m below the end it carries; raise the hook or lower the load"
    );
}

#[test]
fn slings_shorter_than_the_span() {
    let mut rig = sound();
    rig.members.iter_mut().for_each(|member| member.length_m = 5.0);
    let NoHang::ShorterThanSpan {
        members: [0, 1],
        length_m,
        span_m,
    } = reason(&rig)
    else {
        panic!("{}", reason(&rig))
    };
    assert_eq!((length_m, span_m), (10.0, 10.0));
    let through = Member {
        path: vec![node(0, 0), HOOK, node(0, 2)],
        length_m: 10.0,
        ea_n: 40e6,
        fittings: Vec::new(),
    };
    rig.members = vec![through];
    assert!(matches!(reason(&rig), NoHang::ShorterThanSpan { members: [0, 0], .. }));
}

/// Four legs of which no two are too short, but all together are: the box would hang on slings stretched by a third.
#[test]
fn slings_that_close_only_by_stretching() {
    let node_m = [[-5.0, 0.0, 0.0], [5.0, 0.0, 0.0]];
    let hooks = [hook([-9.0, 0.0, 6.0]), hook([9.0, 0.0, 6.0])];
    let rig = Rig {
        bodies: vec![Body {
            masses: vec![lump(9000.0, [0.0, 0.0, -1.0])],
            nodes_m: node_m.to_vec(),
            ..Body::default()
        }],
        points: hooks.to_vec(),
        members: vec![
            Member::between(Stop::Point(0), node(0, 0), 2.0, 40e6),
            Member::between(Stop::Point(1), node(0, 1), 2.0, 40e6),
        ],
    };
    assert!(
        matches!(reason(&rig), NoHang::Overstretched { .. }),
        "{:?}",
        reason(&rig)
    );
}

#[test]
fn centre_of_gravity_outside_the_picks() {
    for cg_m in [[5.8, 0.0, 0.3], [0.0, -2.6, 0.2], [6.0, 2.4, 0.4]] {
        let mut rig = sound();
        rig.bodies[0].masses[0].at_m = cg_m;
        let NoHang::CgOutsidePicks { body: 0, outside_m } = reason(&rig) else {
            panic!("{:?}", reason(&rig))
        };
        let beyond = f64::max(cg_m[0].abs() - 5.0, cg_m[1].abs() - 2.0);
        assert!((outside_m - beyond).abs() < 1e-12);
    }
}

/// Which way it goes over: toward the side where the centre of gravity is, or either way when it is in the middle.
#[test]
fn top_heavy_goes_over_toward_its_heavy_side() {
    for (cg_m, toward) in [
        ([0.0, 0.3, 8.0], [0.0, 1.0]),
        ([0.0, -0.3, 8.0], [0.0, -1.0]),
        ([-0.9, 0.0, 8.0], [-1.0, 0.0]),
    ] {
        let mut rig = sound();
        rig.bodies[0].masses[0].at_m = cg_m;
        let NoHang::GoesOver {
            body: 0,
            toward: found,
            either_way: false,
        } = reason(&rig)
        else {
            panic!("{:?}", reason(&rig))
        };
        assert!(found[0] * toward[0] + found[1] * toward[1] > 0.9, "{cg_m:?}: {found:?}");
    }
    let mut rig = sound();
    rig.bodies[0].masses[0].at_m = [0.0, 0.0, 8.0];
    assert!(
        matches!(reason(&rig), NoHang::GoesOver { either_way: true, .. }),
        "{:?}",
        reason(&rig)
    );
}

/// A knot that weighs nothing on two slack strings can be anywhere.
#[test]
fn mechanisms_are_named() {
    let mut rig = sound();
    rig.points.push(Point {
        at_m: [0.0, 0.0, 5.0],
        mass_kg: 0.0,
        fixed: false,
    });
    rig.members.push(Member::between(HOOK, Stop::Point(1), 30.0, 1e6));
    assert_eq!(reason(&rig), NoHang::Mechanism { part: Part::Point(1) });
    let rocking = {
        let mut rig = stiff_box_on_four(0.05, 40e6);
        rig.members[2].length_m += 0.05;
        reason(&rig)
    };
    assert_eq!(
        rocking,
        NoHang::Mechanism { part: Part::Body(0) },
        "two legs, the centre of gravity on their line"
    );
}

/// Turning about a single sling is free and is no fault; so is a load that turns below a bar.
#[test]
fn free_turning_is_allowed() {
    let single = Rig {
        bodies: vec![Body {
            masses: vec![lump(4000.0, [0.1, 0.2, -1.0])],
            nodes_m: vec![[0.1, 0.2, 0.0]],
            at_m: [0.0, 0.0, -6.0],
            ..Body::default()
        }],
        points: vec![hook([0.0; 3])],
        members: vec![Member::between(HOOK, node(0, 0), 5.0, 40e6)],
    };
    let hung = hang(&single, None).unwrap();
    assert!((hung.members[0].tension_n / (4000.0 * G_M_S2) - 1.0).abs() < 1e-9);
    let mut below_bar = single;
    below_bar.bodies.push(Body {
        masses: vec![lump(300.0, [0.0, 0.0, -0.1])],
        nodes_m: vec![[-2.0, 0.0, 0.0], [2.0, 0.0, 0.0], [0.0, 0.0, -0.3]],
        at_m: [0.0, 0.0, -2.0],
        ..Body::default()
    });
    below_bar.members = vec![
        Member::between(HOOK, node(1, 0), 3.0, 40e6),
        Member::between(HOOK, node(1, 1), 3.0, 40e6),
        Member::between(node(1, 2), node(0, 0), 3.0, 40e6),
    ];
    assert!(hang(&below_bar, None).is_ok(), "{:?}", hang(&below_bar, None));
}

#[test]
fn messages_end_without_a_full_stop() {
    let reasons = [
        NoHang::Input(InputFault::Empty),
        NoHang::Input(InputFault::Adrift { part: Part::Body(0) }),
        NoHang::Input(InputFault::NotANumber {
            part: Part::Member(2),
            what: "length",
        }),
        NoHang::CgOutsidePicks {
            body: 0,
            outside_m: 0.2,
        },
        NoHang::GoesOver {
            body: 0,
            toward: [0.0, -1.0],
            either_way: true,
        },
        NoHang::Mechanism { part: Part::Point(3) },
        NoHang::NotConverged {
            force_n: 1.0,
            moment_n_m: 2.0,
        },
        NoHang::Overstretched { member: 1, strain: 0.3 },
    ];
    for reason in reasons {
        let text = reason.to_string();
        assert!(
            !text.ends_with('.') && !text.contains("NaN") && text.len() > 20,
            "{text}"
        );
    }
    assert_eq!(
        NoHang::GoesOver {
            body: 0,
            toward: [0.0, -1.0],
            either_way: true
        }
        .to_string(),
        "body 1: no stable balance, it goes over toward its −y side or the opposite side; raise the hook, spread the slings \
         or lower the centre of gravity"
    );
}

#[test]
fn twist_of_a_line_is_kept() {
    let mut rig = sound();
    rig.bodies[0].twist = Some(Twist {
        axis_yz_m: [0.0; 2],
        sections_x_m: vec![-5.0, 5.0],
        gj_n_m2: 0.0,
    });
    assert!(
        hang(&rig, None).is_ok(),
        "without torsional rigidity the legs share by statics alone"
    );
}
