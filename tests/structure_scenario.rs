//! The scenario's heavy kitchen box and its two roof raises, against figures worked out from the plan file by other means
//! (`oracles/kitchen_box.py`: a frame library and a plane body in balance), and what is said where a stiffness is missing.
#![allow(clippy::unwrap_used, clippy::float_cmp)]

use setday::check::{Check, Finding, Outcome};
use setday::evaluate::{Bound, box_beam, evaluate, pick_places, racking, raise_arc, sag_findings, stiffnesses};
use setday::plan::{Arrangement, Leg, Load, Place3, Plan, Torsion, format};
use setday::quantity::{Entry, Unit};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const PRINTED: &str = include_str!("oracles/kitchen_box.txt");
/// Lifts of the plan, by row.
const KITCHEN: usize = 1;
const RAISES: [usize; 2] = [5, 6];

fn scenario() -> Plan {
    format::open(include_str!("plans/v1/halden.json")).unwrap().plan
}

fn printed(case: &str, what: &str) -> Vec<f64> {
    let head = format!("{case} {what} ");
    let line = PRINTED.lines().find_map(|line| line.strip_prefix(&head)).unwrap();
    line.split(' ').map(|value| value.parse().unwrap()).collect()
}

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    assert!(
        (found - expected).abs() <= relative * expected.abs(),
        "{found} is not {expected}"
    );
}

/// Reactions exact to the printed digits; largest moments and sags to the grid that the library was read at.
#[test]
fn the_kitchen_box_as_a_beam() {
    let plan = scenario();
    let assessment = evaluate(&plan);
    let beam = box_beam(&plan, &assessment, KITCHEN).unwrap();
    assert_eq!(
        beam.cases.len(),
        1,
        "every row of the box has its reach, its legs are plumb along it"
    );
    near(beam.cases[0].beam.weight_n(), printed("kitchen", "weight_n")[0], 1e-6);
    for (pull, expected) in beam.cases[0].beam.pulls.iter().zip(printed("kitchen", "reactions_n")) {
        near(pull.up_n, expected, 1e-6);
    }
    let moments = printed("kitchen", "moments_n_m");
    near(beam.moments()[0].value, moments[0], 2e-3);
    near(beam.moments()[1].value, moments[1], 1e-4);
    near(beam.shear().value.abs(), printed("kitchen", "shear_n")[0], 1e-2);
    let sags = printed("kitchen", "sags_m");
    let ei = stiffnesses(&plan.boxes[0])[0].ei_n_m2;
    near(beam.sags()[0].value / ei, sags[0], 2e-3);
    near(beam.sags()[1].value / ei, sags[1], 2e-3);
}

/// The heavy end is where its picks should go, and stay within the factory's 4 to 14 ft.
#[test]
fn better_picks_for_the_kitchen_box() {
    let plan = scenario();
    let assessment = evaluate(&plan);
    let beam = box_beam(&plan, &assessment, KITCHEN).unwrap();
    let [by_moment, by_sag] = pick_places(&plan.boxes[0], &beam).unwrap();
    let now = beam.moments().map(|e| e.value.abs());
    assert!(by_moment.least < now[0].max(now[1]));
    for at_m in [by_moment.at_m, by_sag.at_m] {
        let from_ends = [at_m[0], 15.8496 - at_m[1]];
        assert!(from_ends.iter().all(|m| (1.2191..=4.2673).contains(m)), "{from_ends:?}");
    }
}

#[test]
fn both_raises_over_their_arcs() {
    let plan = scenario();
    let assessment = evaluate(&plan);
    for lift in RAISES {
        let id = plan.lifts[lift].id.as_str();
        let (arc, points) = raise_arc(&plan, &assessment, lift, 10).unwrap();
        for (point, radius) in points.iter().zip(printed(id, "radius_m")) {
            near(point.end.radius_m, radius, 1e-6);
        }
        for (point, pull) in points.iter().zip(printed(id, "pull_n")) {
            near(point.pull.unwrap().pull_n, pull, 1e-6);
        }
        // each raise is a lift: 5,200 lb × 0.6 + 15 % = 3,588 lb, and the crane at both ends of the arc
        let result = &assessment.lifts[lift];
        near(result.load.planned_kg.unwrap() / 0.453_592_37, 3588.0, 1e-9);
        assert_eq!(result.ends.len(), 2);
        near(result.ends[0].radius_m, points[0].end.radius_m, 1e-12);
        near(result.ends[1].radius_m, points[10].end.radius_m, 1e-12);
        assert_eq!(arc.passes_balance_rad(), None);
        let said: Vec<&Finding> = result.findings.iter().filter(|f| f.check == Check::RoofRaise).collect();
        assert!(
            said.iter()
                .any(|f| f.subject.contains("flap passes its balance") && f.outcome.is_within())
        );
        let worst = result
            .findings
            .iter()
            .find(|f| f.check == Check::ChartUse && f.subject.contains("worst of the arc"));
        let largest = points
            .iter()
            .filter_map(|p| p.end.use_of_chart)
            .map(|u| u.to_of())
            .fold(0.0, f64::max);
        near(worst.unwrap().demand.unwrap().si(), largest, 1e-9);
    }
}

/// Past its balance, or with a flap that goes over, a raise without a restraint is held.
#[test]
fn without_a_restraint_a_raise_is_held() {
    let mut plan = scenario();
    if let Load::RoofRaise { arc, .. } = &mut plan.lifts[RAISES[0]].load {
        arc.restraint.clear();
    }
    let held = |plan: &Plan| {
        let assessment = evaluate(plan);
        let findings = assessment.lifts[RAISES[0]].findings.clone();
        findings
            .into_iter()
            .filter(|f| f.check == Check::RoofRaise && matches!(f.outcome, Outcome::Held { .. }))
            .count()
    };
    assert_eq!(held(&plan), 1);
    if let Load::RoofRaise { arc, hinge_to_cg, .. } = &mut plan.lifts[RAISES[0]].load {
        arc.cg_square = Entry::typed("8 ft", Unit::Ft);
        arc.to = Entry::typed("60 deg", Unit::Deg);
        *hinge_to_cg = Entry::typed("7 ft", Unit::Ft);
    }
    assert_eq!(held(&plan), 2);
}

/// A raise whose arc is not entered: pull by levers as before, the rest cannot be checked and says what is missing.
#[test]
fn a_raise_without_an_arc() {
    let mut plan = scenario();
    if let Load::RoofRaise { arc, .. } = &mut plan.lifts[RAISES[0]].load {
        *arc = Default::default();
    }
    let result = &evaluate(&plan).lifts[RAISES[0]];
    near(result.load.planned_kg.unwrap() / 0.453_592_37, 3588.0, 1e-9);
    let missing = result.findings.iter().find_map(|f| match &f.outcome {
        Outcome::NotChecked { missing } if f.check == Check::RoofRaise => Some(missing.clone()),
        _ => None,
    });
    assert!(missing.unwrap().contains("its angle at the start"));
    assert_eq!(result.ends.len(), 1);
}

fn kitchen_finding(plan: &Plan, check: Check) -> Vec<Finding> {
    let assessment = evaluate(plan);
    let findings = assessment.lifts[KITCHEN].findings.iter();
    findings.filter(|f| f.check == check).cloned().collect()
}

/// Missing stiffness: the moments stand, the sag cannot be checked; nothing is guessed.
#[test]
fn without_a_stiffness_there_are_moments_only() {
    let mut plan = scenario();
    let house = &mut plan.boxes[0];
    (house.ei, house.ei_rim, house.ei_wall) = Default::default();
    assert_eq!(kitchen_finding(&plan, Check::BoxBeam).len(), 3);
    let sag = kitchen_finding(&plan, Check::BoxSag);
    assert!(
        matches!(&sag[..], [Finding { outcome: Outcome::NotChecked { missing }, .. }] if missing.contains("is not entered"))
    );
    let assessment = evaluate(&plan);
    let beam = box_beam(&plan, &assessment, KITCHEN).unwrap();
    assert!(beam.moments()[1].value < 0.0);
    assert!(stiffnesses(&plan.boxes[0]).is_empty());
}

/// With bounds alone: outside by the rims and within as girders is neither.
#[test]
fn bounds_are_said_as_bounds() {
    let mut plan = scenario();
    plan.boxes[0].ei = Entry::default();
    let sag = kitchen_finding(&plan, Check::BoxSag);
    assert!(
        sag.iter().all(|f| matches!(f.outcome, Outcome::NotChecked { .. })),
        "{sag:?}"
    );
    let known = stiffnesses(&plan.boxes[0]);
    assert_eq!(
        known.iter().map(|s| s.bound).collect::<Vec<_>>(),
        [Bound::AtMost, Bound::AtLeast]
    );
    // walls that are too soft even as girders are outside
    plan.boxes[0].ei_wall = Entry::typed("4,000 kip ft2", Unit::KipFt2);
    assert!(
        kitchen_finding(&plan, Check::BoxSag)
            .iter()
            .any(|f| f.outcome == Outcome::Outside)
    );
    // no limit: not held against any
    plan.limits.sag = Entry::default();
    assert!(kitchen_finding(&plan, Check::BoxSag).is_empty());
    let assessment = evaluate(&plan);
    let beam = box_beam(&plan, &assessment, KITCHEN).unwrap();
    assert!(sag_findings(&plan, &plan.boxes[0], &beam).is_empty());
}

/// An open marriage side is no closed cell, and an unknown sheathing is no figure.
#[test]
fn racking_without_a_closed_cell_cannot_be_checked() {
    let mut plan = scenario();
    assert!(kitchen_finding(&plan, Check::Racking)[0].outcome.is_within());
    plan.boxes[0].torsion = Torsion::OpenSide;
    let open = kitchen_finding(&plan, Check::Racking);
    assert!(matches!(&open[0].outcome, Outcome::NotChecked { missing } if missing.contains("open")));
    plan.boxes[0].torsion = Torsion::Panels;
    plan.boxes[0].panels[2] = Entry::default();
    let unknown = kitchen_finding(&plan, Check::Racking);
    assert!(matches!(&unknown[0].outcome, Outcome::NotChecked { missing } if missing.contains("Ga of the first side")));
    let assessment = evaluate(&plan);
    let racked = racking(&plan, &assessment, KITCHEN).unwrap();
    assert!(racked.cases[0].torque_n_m > 0.0 && racked.faces.is_err());
}

/// Straight to one hook, lengths share: an equaliser at an end takes the doubt out, and the bound with it.
#[test]
fn an_equaliser_takes_the_doubt_out_of_four_legs() {
    let mut plan = setday::plan::example::four_legs();
    let house = &mut plan.boxes[0];
    house.torsion = Torsion::Panels;
    house.panels = core::array::from_fn(|_| Entry::typed("15 kip/in", Unit::KipPerInch));
    let assessment = evaluate(&plan);
    let racked = racking(&plan, &assessment, 0).unwrap();
    let of = |words: &str| {
        racked
            .cases
            .iter()
            .find(|case| case.words.contains(words))
            .unwrap()
            .torque_n_m
    };
    let (bound, equal) = (of("of any lengths"), of("with an equaliser"));
    assert!(
        bound > 3.0 * equal.max(racked.cases[0].torque_n_m) && bound > 1.0,
        "{bound} {equal}"
    );
}

/// A limit or a share that cannot be read drops no check: it says what was read.
#[test]
fn a_limit_typed_wrong_drops_no_check() {
    let mut plan = scenario();
    plan.limits.sag = Entry::typed("a bit", Unit::Percent);
    plan.limits.racking = Entry::typed("some", Unit::Percent);
    plan.boxes[0].shear = Entry::typed("lots", Unit::Lbf);
    let said = |check, word: &str| {
        let findings = kitchen_finding(&plan, check);
        findings
            .iter()
            .any(|f| matches!(&f.outcome, Outcome::NotChecked { missing } if missing.contains(word)))
    };
    assert!(said(Check::BoxSag, "\"a bit\" was read"));
    assert!(said(Check::Racking, "\"some\" was read"));
    assert!(said(Check::BoxBeam, "\"lots\" was read"));
    plan.limits.racking = Entry::typed("0.2 %", Unit::Percent);
    plan.boxes[0].sheathed[1] = Entry::typed("most", Unit::Percent);
    let racked = kitchen_finding(&plan, Check::Racking);
    assert!(matches!(&racked[0].outcome, Outcome::NotChecked { missing } if missing.contains("\"most\" was read")));
}

/// More than two sections of picks: every sharing is run, the limp and the rigid box by their names as bounds.
#[test]
fn six_picks_share_between_bounds() {
    let mut plan = scenario();
    let middle = |y: &str| Place3 {
        x: Entry::typed("27 ft", Unit::Ft),
        y: Entry::typed(y, Unit::Ft),
        z: Entry::typed("0.4 ft", Unit::Ft),
    };
    plan.boxes[0].picks.extend([middle("0 ft"), middle("13.5 ft")]);
    let sling = |pick: usize| Leg {
        sling: "G03".into(),
        runs: format!("hook > pick {pick}"),
        ..Leg::default()
    };
    let rig = plan.rigs.iter_mut().find(|r| r.id.as_str() == "RA1").unwrap();
    rig.arrangement = Arrangement::PieceByPiece {
        hung: Vec::new(),
        legs: (1..=6).map(sling).collect(),
    };
    for item in &mut plan.gear {
        if item.id.as_str() == "G03" {
            item.length = Entry::typed("60 ft", Unit::Ft);
        }
    }
    let assessment = evaluate(&plan);
    let beam = box_beam(&plan, &assessment, KITCHEN).unwrap();
    assert_eq!(beam.sections_m.len(), 3);
    let words: Vec<&str> = beam.cases.iter().map(|case| case.words.as_str()).collect();
    assert_eq!(words.len(), 3, "{words:?}");
    assert!(
        words[0].contains("rigid box") && words[2].contains("each bay by itself (bound)"),
        "{words:?}"
    );
    // six legs to one hook lean: they press the box, and the neutral axis is entered
    assert!(beam.axial_n() > 0.0);
    for case in &beam.cases {
        let up: f64 = case.beam.pulls.iter().map(|p| p.up_n).sum();
        near(up, case.beam.weight_n(), 1e-12);
    }
}
