//! Rigs that are entered in a plan piece by piece: every arrangement comes from data alone, and hangs as formulas and the scipy reference say
//! (`tests/oracles/hang_reference.py`, printed with versions in `tests/oracles/hang_reference.txt`).
#![allow(clippy::unwrap_used, clippy::disallowed_methods)] // tests: a panic is a failure, and std's functions are not what is tested

use setday::check::{Check, Outcome};
use setday::evaluate::{
    LevelAnswer, LiftResult, TrialReading, evaluate, hang_off, level_set_ups, side_by_side, trial_lift, worst_hang,
};
use setday::plan::{
    Arrangement, BoxEdge, Component, GearItem, GearKind, HouseBox, HungPiece, Leg, Lift, Load, Piece, Place3, Plan,
    Rig, Shape, Torsion, Weight, format, sample,
};
use setday::quantity::{Entry, Length, STANDARD_GRAVITY_M_S2 as G, Unit};
use setday::rigging::{Construction, MemberKind, Off, Wall};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
#[cfg(not(target_arch = "wasm32"))]
use setday::{evaluate::WorstHangSearch, quantity::UnitSystem};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} ± {tolerance}"
    );
}

fn m(value: f64) -> Entry<Length> {
    Entry::typed(format!("{value} m"), Unit::M)
}

fn at([x, y, z]: [f64; 3]) -> Place3 {
    Place3 {
        x: m(x),
        y: m(y),
        z: m(z),
    }
}

/// A plan of one box with one lift on one rig. Places are shifted so that the box frame's corner is its origin.
struct Scene {
    plan: Plan,
    shift_m: [f64; 3],
}

impl Scene {
    /// A box of a size round the origin of `at_m`'s frame, with lumps of mass (kg, place) and picks.
    fn new(size_m: [f64; 3], shift_m: [f64; 3], masses: &[(f64, [f64; 3])], picks: &[[f64; 3]]) -> Self {
        let mut scene = Self {
            plan: Plan::default(),
            shift_m,
        };
        let component = |(index, (kg, place)): (usize, &(f64, [f64; 3]))| Component {
            id: format!("{index}").as_str().into(),
            weight: Weight::Lump {
                mass: Entry::typed(format!("{kg} kg"), Unit::Kg),
            },
            shape: Shape::Point {
                at: scene.place(*place),
            },
            ..Component::default()
        };
        let house = HouseBox {
            id: "Q".into(),
            length: m(size_m[0]),
            width: m(size_m[1]),
            height: m(size_m[2]),
            components: masses.iter().enumerate().map(component).collect(),
            picks: picks.iter().map(|pick| scene.place(*pick)).collect(),
            torsion: Torsion::Rigid,
            ..HouseBox::default()
        };
        scene.plan.boxes.push(house);
        scene.plan.lifts.push(Lift {
            id: "L1".into(),
            number: 1,
            load: Load::Box { id: "Q".into() },
            rig: "R".into(),
            contingency: Entry::typed("0 %", Unit::Percent),
            ..Lift::default()
        });
        scene.plan.rigs.push(Rig {
            id: "R".into(),
            arrangement: Arrangement::PieceByPiece {
                hung: Vec::new(),
                legs: Vec::new(),
            },
            ..Rig::default()
        });
        scene
    }

    fn place(&self, place: [f64; 3]) -> Place3 {
        at(core::array::from_fn(|axis| place[axis] + self.shift_m[axis]))
    }

    fn rig(&mut self) -> (&mut Vec<HungPiece>, &mut Vec<Leg>, &mut Vec<Piece>) {
        let Rig {
            arrangement, pieces, ..
        } = &mut self.plan.rigs[0];
        match arrangement {
            Arrangement::PieceByPiece { hung, legs } => (hung, legs, pieces),
            other => panic!("{other:?}"),
        }
    }

    /// A sling of its own for every leg; polyester whose stiff end, rating over 2 %, is the EA wanted.
    fn leg(&mut self, length_m: f64, ea_n: f64, runs: &str) -> &mut Self {
        let index = self.plan.gear.len();
        let id = format!("S{index}");
        let rating_kg = 0.02 * ea_n / G;
        self.plan.gear.push(GearItem {
            id: id.as_str().into(),
            kind: GearKind::Sling,
            quantity: 1,
            rating: Entry::typed(format!("{rating_kg:.9} kg"), Unit::Kg),
            mass: Entry::typed("0 kg", Unit::Kg),
            length: m(length_m),
            construction: Construction::Polyester,
            tag_legible: true,
            ..GearItem::default()
        });
        let (_, legs, pieces) = self.rig();
        legs.push(Leg {
            sling: id.as_str().into(),
            runs: runs.into(),
            ..Leg::default()
        });
        pieces.push(Piece {
            gear: id.as_str().into(),
            count: 1,
        });
        self
    }

    /// A bar, frame, beam or block with its lugs.
    fn hung(&mut self, id: &str, kg: f64, cg: Option<[f64; 3]>, lugs: &[[f64; 3]]) -> &mut Self {
        self.plan.gear.push(GearItem {
            id: format!("G-{id}").as_str().into(),
            kind: GearKind::Bar,
            quantity: 1,
            rating: Entry::typed("40 t", Unit::T),
            mass: Entry::typed(format!("{kg} kg"), Unit::Kg),
            tag_legible: true,
            ..GearItem::default()
        });
        let (hung, _, pieces) = self.rig();
        hung.push(HungPiece {
            id: id.into(),
            gear: format!("G-{id}").as_str().into(),
            cg: cg.map(at).unwrap_or_default(),
            lugs: lugs.iter().map(|lug| at(*lug)).collect(),
        });
        pieces.push(Piece {
            gear: format!("G-{id}").as_str().into(),
            count: 1,
        });
        self
    }

    /// As the file keeps it: written and opened again, so that each rig is proved to come from data alone.
    /// What is entered for a leg's way.
    fn runs(&self, kind: MemberKind) -> String {
        match (&self.plan.rigs[0].arrangement, kind) {
            (Arrangement::PieceByPiece { legs, .. }, MemberKind::Line(index)) => legs[index].runs.clone(),
            other => panic!("{other:?}"),
        }
    }

    fn lift(&self) -> LiftResult {
        let opened = format::open(&format::save(&self.plan)).unwrap();
        assert_eq!(opened.notes, Vec::<String>::new());
        assert_eq!(opened.plan, self.plan);
        evaluate(&opened.plan).lifts[0].clone()
    }

    #[track_caller]
    fn hangs(&self) -> setday::rigging::Hung {
        let lift = self.lift();
        lift.rig
            .hung
            .unwrap_or_else(|| panic!("{:?} {:?}", lift.rig.why_not, lift.findings))
    }

    /// Tensions with the legs at their stiff end, N.
    #[track_caller]
    fn stiff_n(&self) -> Vec<f64> {
        let hung = hang_off(&self.plan, 0, &Off::default()).unwrap();
        hung.members.iter().map(|member| member.shared_n).collect()
    }
}

const PRINTED: &str = include_str!("oracles/hang_reference.txt");

fn printed(case: &str, name: &str) -> Vec<f64> {
    let head = format!("{case} {name} ");
    let line = PRINTED.lines().find_map(|line| line.strip_prefix(&head)).unwrap();
    line.split(' ').map(|value| value.parse().unwrap()).collect()
}

#[track_caller]
fn as_printed(case: &str, found_n: &[f64]) {
    let expected_n = printed(case, "tension_n");
    assert_eq!(found_n.len(), expected_n.len());
    let most_n = expected_n.iter().copied().fold(0.0, f64::max);
    for (found, expected) in found_n.iter().zip(expected_n) {
        near(*found, expected, 1e-6 * most_n);
    }
}

const EA_N: f64 = 40e6;

/// Two legs to two picks, hook over the centre of gravity: `T₁ = W cos θ₂/sin(θ₁+θ₂)`; 60° and 45°: 0.7321 and 0.5176 of the weight.
#[test]
fn two_legs() {
    let rise = 3.0_f64;
    let (out1, out2) = (rise / 60.0_f64.to_radians().tan(), rise);
    let masses = [(8_000.0, [out1, 0.0, -0.8])];
    let picks = [[0.0, 0.0, 0.0], [out1 + out2, 0.0, 0.0]];
    let mut scene = Scene::new([8.0, 3.0, 3.0], [1.0, 1.5, 2.0], &masses, &picks);
    let length = |out: f64| out.hypot(rise);
    scene
        .leg(length(out1), EA_N, "hook > pick 1")
        .leg(length(out2), EA_N, "hook > pick 2");
    let hung = scene.hangs();
    near(hung.members[0].shared_n / (8_000.0 * G), 0.7321, 1e-4);
    near(hung.members[1].shared_n / (8_000.0 * G), 0.5176, 1e-4);
    near(hung.along.tilt_rad, 0.0, 1e-6);
    near(hung.members[0].tension_n, hung.members[0].shared_n, 1.0);
}

/// Three equal legs at 60° from the horizontal: W/(3 sin 60°).
#[test]
fn three_legs() {
    let around = [90.0_f64, 210.0, 330.0].map(f64::to_radians);
    let picks: Vec<[f64; 3]> = around.iter().map(|a| [2.0 * a.cos(), 2.0 * a.sin(), 0.0]).collect();
    let mut scene = Scene::new([5.0, 5.0, 3.0], [2.5, 2.5, 1.5], &[(6_000.0, [0.0, 0.0, -0.5])], &picks);
    for pick in 1..=3 {
        scene.leg(4.0, EA_N, &format!("hook > pick {pick}"));
    }
    let hung = scene.hangs();
    for member in &hung.members {
        near(member.angle_rad.to_degrees(), 60.0, 1e-4);
        near(
            member.shared_n / (6_000.0 * G),
            1.0 / (3.0 * 60.0_f64.to_radians().sin()),
            1e-6,
        );
        near(member.tension_n, member.shared_n, 1.0);
    }
}

/// W 20 t, picks 12 × 4, centre of gravity off by (0.6, 0.2): the worst leg carries 55 % of the weight, whatever the legs' lengths. The same from
/// the arrangement of four legs.
#[test]
fn four_legs_carry_up_to_the_bound() {
    let picks = [[-6.0, -2.0, 0.0], [-6.0, 2.0, 0.0], [6.0, -2.0, 0.0], [6.0, 2.0, 0.0]];
    let masses = [(20_000.0, [0.6, 0.2, -0.5])];
    let mut scene = Scene::new([14.0, 4.0, 3.0], [7.0, 2.0, 1.0], &masses, &picks);
    for (pick, [x, y, _]) in picks.iter().enumerate() {
        let length = ((x - 0.6).powi(2) + (y - 0.2).powi(2) + 64.0).sqrt();
        scene.leg(length, EA_N, &format!("hook > pick {}", pick + 1));
    }
    let hung = scene.hangs();
    let share = |i: usize| {
        let member = &hung.members[i];
        member.tension_n * member.angle_rad.sin() / (20_000.0 * G)
    };
    // ends 0.45 and 0.55, sides 0.45 and 0.55
    near(share(3), 0.55, 1e-4);
    near(share(0), 0.45, 1e-4);
    let Arrangement::PieceByPiece { legs, .. } = scene.plan.rigs[0].arrangement.clone() else {
        unreachable!()
    };
    scene.plan.rigs[0].arrangement = Arrangement::FourLegs {
        legs: legs.try_into().unwrap(),
    };
    let plain = scene.hangs();
    for (a, b) in plain.members.iter().zip(&hung.members) {
        near(a.tension_n / b.tension_n, 1.0, 1e-4);
        near(a.shared_n / b.shared_n, 1.0, 1e-4);
    }
}

/// Straps 3 m or 8 m under a bar, apex 4 m above it, centre of gravity 1 m below the picks, off by 0.2 m: 2.291° for both (derived; energy minimum);
/// the bar's compression W/(2 tan θ) of each end's pull.
#[test]
fn bar_with_plumb_straps() {
    for strap in [3.0, 8.0] {
        let picks = [[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
        let mut scene = Scene::new(
            [10.0, 3.0, 3.0],
            [5.0, 1.5, 2.0],
            &[(10_000.0, [0.2, 0.0, -1.0])],
            &picks,
        );
        scene.hung("K", 0.0, None, &[[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]]);
        let top = 32.0_f64.sqrt();
        scene.leg(top, EA_N, "hook > K.1").leg(top, EA_N, "hook > K.2");
        scene.leg(strap, EA_N, "K.1 > pick 1").leg(strap, EA_N, "K.2 > pick 2");
        let hung = scene.hangs();
        near(hung.along.tilt_rad.to_degrees(), 2.291, 0.002);
        near(hung.along.margin_m.unwrap(), 5.0, 0.02);
        near(hung.along.offset_m.unwrap(), 0.2, 0.002);
        near(hung.pieces[0].below_kg, 10_000.0, 1.0);
        // W/(2 tan 45°)
        near(hung.pieces[0].compression_n.unwrap() / (10_000.0 * G), 0.5, 2e-3);
    }
}

/// Straps that slant out from a bar of 6 m to picks 8 m apart, 3 m below: T = V/sin θ, and they press the box outward by V/tan θ at each pick, the
/// bar inward by as much less.
#[test]
fn bar_with_slanting_straps() {
    let picks = [[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
    let mut scene = Scene::new(
        [10.0, 3.0, 3.0],
        [5.0, 1.5, 2.0],
        &[(10_000.0, [0.0, 0.0, -1.0])],
        &picks,
    );
    scene.hung("K", 0.0, None, &[[-3.0, 0.0, 0.0], [3.0, 0.0, 0.0]]);
    let (top, strap) = (18.0_f64.sqrt(), 10.0_f64.sqrt());
    scene.leg(top, EA_N, "hook > K.1").leg(top, EA_N, "K.2 > hook");
    scene.leg(strap, EA_N, "K.1 > pick 1").leg(strap, EA_N, "pick 2 > K.2");
    let hung = scene.hangs();
    let half = 10_000.0 * G / 2.0;
    near(hung.members[2].shared_n / half, strap / 3.0, 1e-6);
    near(hung.members[3].shared_n / half, strap / 3.0, 1e-6);
    // pulled towards the middle: the straps rise inward
    near(hung.picks[0].inward_along_n / half, 1.0 / 3.0, 1e-5);
    near(hung.pieces[0].compression_n.unwrap() / half, 1.0 - 1.0 / 3.0, 1e-4);
}

/// The scenario's bar with cross bars (lugs 14 ft, picks 13.5 ft apart), entered piece by piece, hangs as its own arrangement.
#[test]
fn bar_and_cross_bars() {
    let mut plan = sample::plan();
    let before = evaluate(&plan).lifts[1].rig.hung.clone().unwrap();
    let id = plan.lifts[1].rig.clone();
    let rig = plan.rigs.iter_mut().find(|rig| rig.id == id).unwrap();
    let Arrangement::BarAndCrossBars {
        bar,
        top,
        cross_bar,
        bridles,
        straps,
        ..
    } = rig.arrangement.clone()
    else {
        unreachable!()
    };
    let ft = |x: f64, y: f64| Place3 {
        x: Entry::typed(format!("{x} ft"), Unit::Ft),
        y: Entry::typed(format!("{y} ft"), Unit::Ft),
        z: Entry::typed("0 ft", Unit::Ft),
    };
    let piece = |id: &str, gear: &setday::plan::Id, lugs: Vec<Place3>| HungPiece {
        id: id.into(),
        gear: gear.clone(),
        lugs,
        ..HungPiece::default()
    };
    let cross = || vec![ft(0.0, -7.0), ft(0.0, 7.0)];
    let run = |leg: &Leg, runs: String| Leg { runs, ..leg.clone() };
    let mut legs = Vec::new();
    for end in 0..2 {
        legs.push(run(&top[end], format!("hook > Bar.{}", end + 1)));
        for side in 0..2 {
            let lug = format!("C{}.{}", end + 1, side + 1);
            legs.push(run(&bridles[end][side], format!("Bar.{} > {lug}", end + 1)));
            legs.push(run(&straps[end][side], format!("{lug} > pick {}", 2 * end + side + 1)));
        }
    }
    rig.arrangement = Arrangement::PieceByPiece {
        hung: vec![
            piece("Bar", &bar, vec![ft(-16.0, 0.0), ft(16.0, 0.0)]),
            piece("C1", &cross_bar, cross()),
            piece("C2", &cross_bar, cross()),
        ],
        legs,
    };
    let lift = evaluate(&plan).lifts[1].clone();
    assert!(
        lift.findings.iter().all(|f| f.check != Check::Truck),
        "{:?}",
        lift.findings
    );
    let after = lift.rig.hung.unwrap();
    near(after.along.tilt_rad, before.along.tilt_rad, 1e-7);
    near(after.across.tilt_rad, before.across.tilt_rad, 1e-7);
    for (a, b) in after.members.iter().zip(&before.members) {
        near(a.shared_n / b.shared_n, 1.0, 1e-6);
        near(a.tension_n / b.shared_n, 1.0, 1e-6);
    }
    near(after.pieces[0].below_kg, before.below_bar_kg.unwrap(), 10.0);
    near(
        after.pieces[0].compression_n.unwrap() / before.bar_compression_n.unwrap(),
        1.0,
        0.01,
    );
    let on_slings = lift
        .findings
        .iter()
        .filter(|f| f.subject.starts_with("leg ") && f.ratio.is_some());
    assert!(on_slings.count() >= 10);
}

/// A rectangular frame on four legs with plumb straps: each strap a quarter, each leg a quarter of load and frame over sin θ where all share; but of
/// four legs two may carry all: half over sin θ.
#[test]
fn rectangular_frame() {
    let corners = [[-4.0, -1.5, 0.0], [-4.0, 1.5, 0.0], [4.0, -1.5, 0.0], [4.0, 1.5, 0.0]];
    let mut scene = Scene::new(
        [9.0, 3.2, 3.0],
        [4.5, 1.6, 1.2],
        &[(12_000.0, [0.0, 0.0, -0.6])],
        &corners,
    );
    scene.hung("F", 800.0, None, &corners);
    let top = (16.0_f64 + 2.25 + 36.0).sqrt();
    for i in 1..=4 {
        scene.leg(top, EA_N, &format!("hook > F.{i}"));
    }
    for i in 1..=4 {
        scene.leg(3.0, EA_N, &format!("F.{i} > pick {i}"));
    }
    let hung = scene.hangs();
    for member in &hung.members[..4] {
        near(member.shared_n / (12_800.0 * G), top / (4.0 * 6.0), 1e-4);
        near(member.tension_n / (12_800.0 * G), top / (2.0 * 6.0), 1e-3);
    }
    for member in &hung.members[4..] {
        near(member.shared_n / (12_000.0 * G), 0.25, 1e-4);
        near(member.tension_n / (12_000.0 * G), 0.5, 1e-3);
    }
    near(hung.pieces[0].below_kg, 12_000.0, 1.0);
    assert_eq!(hung.figure.bars_m.len(), 4);
}

/// One sling to a beam whose lugs are above and below its axis, four straps to the load, as the scipy reference has it.
#[test]
fn lifting_beam() {
    let picks = [[-3.0, -1.2, 0.0], [3.0, -1.2, 0.0], [3.0, 1.2, 0.0], [-3.0, 1.2, 0.0]];
    let mut scene = Scene::new(
        [7.0, 2.4, 3.0],
        [3.5, 1.2, 1.0],
        &[(8_000.0, [0.25, 0.1, -0.3])],
        &picks,
    );
    let lugs = [[0.05, 0.0, 0.35], [-2.8, 0.0, -0.25], [2.8, 0.0, -0.25]];
    scene.hung("Beam", 620.0, Some([0.02, 0.01, 0.0]), &lugs);
    scene.leg(4.2, 50e6, "hook > Beam.1");
    for (lug, pick) in [(2, 1), (3, 2), (3, 3), (2, 4)] {
        scene.leg(4.0, 20e6, &format!("Beam.{lug} > pick {pick}"));
    }
    as_printed("lifting_beam", &scene.stiff_n());
}

/// Six picks, one leg slack, as the scipy reference has it.
#[test]
fn six_picks() {
    let picks = [
        [-5.5, -2.0, 0.0],
        [5.5, -2.0, 0.0],
        [5.5, 2.0, 0.0],
        [-5.5, 2.0, 0.0],
        [0.2, -2.0, 0.1],
        [-0.1, 2.0, 0.0],
    ];
    let longer = [0.0, 0.004, 0.0, -0.006, 0.02, 0.002];
    let mut scene = Scene::new(
        [12.0, 4.0, 3.0],
        [6.0, 2.0, 1.0],
        &[(14_000.0, [0.4, 0.2, -0.2])],
        &picks,
    );
    for (i, ([x, y, z], longer)) in picks.iter().zip(longer).enumerate() {
        let length = (x * x + y * y + (8.0 - z).powi(2)).sqrt() + longer;
        scene.leg(length, 35e6, &format!("hook > pick {}", i + 1));
    }
    let found = scene.stiff_n();
    as_printed("six_picks", &found);
    // whatever the lengths: no leg's bound is below what it carries here
    let hung = scene.hangs();
    for (member, found) in hung.members.iter().zip(found) {
        assert!(member.tension_n > 0.999 * found, "{} {found}", member.tension_n);
    }
}

/// Eight picks of an even load on plumb straps from a rigid bar each side: rigid, they share alike; a box that bends freely loads them as a continuous
/// beam of three even spans, 0.4 and 1.1 of wl (handbooks). Both bounds are told, the worst takes in both, and the demand covers them.
#[test]
fn eight_picks_between_rigid_and_free() {
    let xs = [-6.0, -2.0, 2.0, 6.0];
    let picks: Vec<[f64; 3]> = [-1.5, 1.5].iter().flat_map(|y| xs.map(|x| [x, *y, 0.0])).collect();
    let masses: Vec<(f64, [f64; 3])> = (0..60)
        .map(|i| (200.0, [-5.9 + 0.2 * f64::from(i), 0.0, -0.3]))
        .collect();
    let mut scene = Scene::new([13.0, 3.2, 3.0], [6.5, 1.6, 1.5], &masses, &picks);
    scene.plan.limits.mass_band = Entry::typed("0 %", Unit::Percent);
    scene.plan.limits.place_band = m(0.0);
    scene.hung("F", 0.0, None, &picks);
    let top = (36.0_f64 + 2.25 + 64.0).sqrt();
    for i in [1, 4, 5, 8] {
        scene.leg(top, 400e6, &format!("hook > F.{i}"));
    }
    for i in 1..=8 {
        scene.leg(3.0, 400e6, &format!("F.{i} > pick {i}"));
    }
    let found = worst_hang(&scene.plan, 0).unwrap();
    let [free, rigid] = found.worst.bending_n.clone().unwrap();
    let weight = 12_000.0 * G;
    for (strap, share) in [0.4, 1.1, 1.1, 0.4].into_iter().chain([0.4, 1.1, 1.1, 0.4]).enumerate() {
        near(rigid[4 + strap] / weight, 1.0 / 8.0, 1e-3);
        near(free[4 + strap] / weight, share / 6.0, 1e-3);
        let member = &found.worst.members[4 + strap];
        assert!(member.worst_n >= free[4 + strap].max(rigid[4 + strap]) * 0.9999);
        assert!(member.demand_n() >= member.worst_n);
    }
    assert!(
        found.basis.iter().any(|line| line.contains("vertical bending")),
        "{:?}",
        found.basis
    );
    assert!(
        found.cases.iter().any(|case| case.contains("bends freely")),
        "{:?}",
        found.cases
    );
    scene.plan.boxes[0].ei = Entry::typed("9000 kN·m2", Unit::KnM2);
    let typed = worst_hang(&scene.plan, 0).unwrap();
    assert!(
        typed.cases.iter().all(|case| case.contains("EI 9000 kN·m²")),
        "{:?}",
        typed.cases
    );
    scene.plan.boxes[0].ei = Entry::typed("stiff", Unit::KnM2);
    assert!(worst_hang(&scene.plan, 0).unwrap_err().contains("bending"));
}

/// Slings that run over blocks under a beam: one tension from end to end, W/(4 sin θ) each; the block's own sling carries half the load and the block.
#[test]
fn running_slings_over_blocks() {
    let picks = [[-4.0, -1.5, 0.0], [-4.0, 1.5, 0.0], [4.0, -1.5, 0.0], [4.0, 1.5, 0.0]];
    let mut scene = Scene::new([9.0, 3.2, 3.0], [4.5, 1.6, 2.0], &[(9_000.0, [0.0, 0.0, -1.5])], &picks);
    scene.hung("Bar", 400.0, None, &[[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]]);
    scene.hung("B1", 60.0, None, &[]).hung("B2", 60.0, None, &[]);
    let top = 41.0_f64.sqrt();
    scene.leg(top, EA_N, "hook > Bar.1").leg(top, EA_N, "hook > Bar.2");
    scene.leg(1.0, EA_N, "Bar.1 > B1").leg(1.0, EA_N, "Bar.2 > B2");
    let half = 2.5; // 1.5 across, 2 up
    scene.leg(2.0 * half, EA_N, "pick 1 > B1 > pick 2");
    scene.leg(2.0 * half, EA_N, "pick 3 > B2 > pick 4");
    let lift = scene.lift();
    // a box on two running slings can roll: nothing but its low centre of gravity holds it
    let hung = lift.rig.hung.unwrap_or_else(|| panic!("{:?}", lift.rig.why_not));
    near(hung.members[4].shared_n / (9_000.0 * G), half / (4.0 * 2.0), 1e-4);
    near(hung.members[2].shared_n / (4_560.0 * G), 1.0, 1e-4);
    near(hung.pieces[1].below_kg, 4_500.0, 1.0);
    assert_eq!(hung.figure.ways_m[4].len(), 3);
}

/// Straps from floor picks round eaves that stand out, as the scipy reference has it; the push on each eave is told.
#[test]
fn straps_wrapped_at_an_eave() {
    let picks = [[-3.0, -2.0, 0.0], [3.0, -2.0, 0.0], [3.0, 2.0, 0.0], [-3.0, 2.0, 0.0]];
    let mut scene = Scene::new([10.0, 4.0, 3.0], [5.0, 2.0, 0.2], &[(9_500.0, [0.2, 0.1, 1.2])], &picks);
    let edge = |id: &str, from: [f64; 3], to: [f64; 3]| BoxEdge {
        id: id.into(),
        from: scene.place(from),
        to: scene.place(to),
    };
    scene.plan.boxes[0].edges = vec![
        edge("south eave", [-5.0, -2.2, 2.8], [5.0, -2.3, 2.9]),
        edge("north eave", [-5.0, 2.25, 2.8], [5.0, 2.2, 2.8]),
    ];
    scene.leg(9.75, 12e6, "hook > south eave > pick 1");
    scene.leg(9.8, 12e6, "hook > south eave > pick 2");
    scene.leg(9.8, 12e6, "hook > north eave > pick 3");
    scene.leg(9.75, 12e6, "hook > north eave > pick 4");
    let hung = hang_off(&scene.plan, 0, &Off::default()).unwrap();
    as_printed(
        "straps_over_eaves",
        &hung.members.iter().map(|m| m.shared_n).collect::<Vec<_>>(),
    );
    assert_eq!(hung.edges.len(), 4);
    for press in &hung.edges {
        let inward = if press.edge == 0 {
            press.force_n[1]
        } else {
            -press.force_n[1]
        };
        assert!(inward > 0.0 && press.bend_rad > 0.1, "{press:?}");
        near(press.beyond_end_m, 0.0, 1e-12);
    }
}

/// Four fixed legs beside the same with one end equalised: half the bound where the load is central, and no more than equilibrium gives.
#[test]
fn equalised_beside_fixed() {
    let picks = [[-5.0, -2.0, 0.0], [-5.0, 2.0, 0.0], [5.0, -2.0, 0.0], [5.0, 2.0, 0.0]];
    let mut scene = Scene::new(
        [12.0, 4.0, 3.0],
        [6.0, 2.0, 1.0],
        &[(12_000.0, [0.0, 0.0, -0.2])],
        &picks,
    );
    let length = 78.0_f64.sqrt();
    for _ in 0..4 {
        scene.leg(length, EA_N, "");
    }
    let Arrangement::PieceByPiece { legs, .. } = scene.plan.rigs[0].arrangement.clone() else {
        unreachable!()
    };
    scene.plan.rigs[0].arrangement = Arrangement::FourLegs {
        legs: legs.try_into().unwrap(),
    };
    let both = side_by_side(&scene.plan, 0).unwrap();
    for leg in 0..4 {
        // 37.1 kN where all share, 74.2 where two may carry all
        near(both.equalised[leg].to_kg() * G / 1e3, 37.1, 0.1);
        near(both.fixed[leg].to_kg() * G / 1e3, 74.2, 0.1);
    }
    assert!(both.words.contains("2.00 times"), "{}", both.words);
    assert!(side_by_side(&sample::plan(), 0).unwrap_err().contains("four legs"));
}

/// A leg from a pick on the floor's edge up through the house to a hook over its middle is told, with the wall; straps outside are not.
#[test]
fn a_leg_through_the_wall_is_told() {
    let picks = [[1.0, 0.0, 0.0], [1.0, 4.0, 0.0], [5.0, 0.0, 0.0], [5.0, 4.0, 0.0]];
    let mut scene = Scene::new([6.0, 4.0, 3.0], [0.0; 3], &[(5_000.0, [3.0, 2.0, 1.0])], &picks);
    for pick in 1..=4 {
        scene.leg(8.0, EA_N, &format!("hook > pick {pick}"));
    }
    let lift = scene.lift();
    let hung = lift.rig.hung.clone().unwrap();
    let walls: Vec<Wall> = hung.walls.iter().map(|touch| touch.wall).collect();
    assert_eq!(walls, [Wall::Side(0), Wall::Side(1), Wall::Side(0), Wall::Side(1)]);
    // 2 m in over a rise of √(8² − 8) m, at the eave 3 m up: 2·3/7.483
    near(hung.walls[0].inside_m, 0.8018, 0.001);
    let cautioned = lift
        .findings
        .iter()
        .filter(|f| f.cautions.iter().any(|c| c.contains("touches the wall")));
    assert_eq!(cautioned.count(), 4);
    assert!(
        evaluate(&sample::plan())
            .lifts
            .iter()
            .all(|l| l.rig.hung.as_ref().is_none_or(|h| h.walls.is_empty()))
    );
}

/// Worst case, level search and trial lift know such rigs too.
#[test]
fn everything_else_works_on_pieces() {
    let picks = [[0.0, 0.0, 0.0], [0.0, 6.0, 0.0], [9.0, 0.0, 0.0], [9.0, 6.0, 0.0]];
    let mut scene = Scene::new([9.0, 6.0, 3.0], [0.0; 3], &[(8_000.0, [4.0, 3.0, 1.0])], &picks);
    for pick in 1..=4 {
        scene.leg(13.0, EA_N, &format!("hook > pick {pick}"));
    }
    for (id, length) in [("long", 13.3417), ("spare", 13.3417)] {
        scene.plan.gear.push(GearItem {
            id: id.into(),
            kind: GearKind::Sling,
            quantity: 1,
            rating: Entry::typed("12 t", Unit::T),
            mass: Entry::typed("0 kg", Unit::Kg),
            length: m(length),
            tag_legible: true,
            ..GearItem::default()
        });
    }
    let worst = worst_hang(&scene.plan, 0).unwrap();
    assert!(worst.worst.members.iter().all(|member| member.bound_n.is_some()));
    // 4² + 3² + 12² = 13², 5² + 3² + 12² = 178: the two 13.34 m slings go to the second end
    let level = level_set_ups(&scene.plan, 0).unwrap();
    let Arrangement::PieceByPiece { legs, .. } = &level.set_ups[0].arrangement else {
        panic!("{level:?}")
    };
    assert!(
        legs[2].sling.as_str().len() > 2 && legs[3].sling.as_str().len() > 2,
        "{legs:?}"
    );
    assert_eq!(legs[3].runs, "hook > pick 4");
    let hung = scene.hangs();
    let reading = TrialReading {
        low_end: usize::from(hung.along.tilt_rad > 0.0),
        end_lower: Length::m(hung.along.rise_m),
        low_side: 0,
        side_lower: Length::m(0.0),
    };
    let trial = trial_lift(&scene.plan, 0, &reading).unwrap();
    near(trial.moved_m[0], 0.0, 1e-3);
}

/// A box that may twist and bend, on eight picks under a frame: twelve legs that small lengths slacken one after the other. The end-to-end tests open
/// it from `tests/plans/twelve-legs.json`; `SETDAY_WRITE_DOCS=1` writes it anew.
#[cfg(not(target_arch = "wasm32"))]
#[test]
fn the_plan_of_twelve_legs_is_current() {
    let xs = [-6.0, -2.0, 2.0, 6.0];
    let side = |y: f64| xs.map(|x: f64| [-x * y.signum(), y, 0.0]);
    let picks: Vec<[f64; 3]> = [-1.5, 1.5].into_iter().flat_map(side).collect();
    let masses: Vec<(f64, [f64; 3])> = (0..6)
        .map(|i| (2_000.0, [-5.0 + 2.0 * f64::from(i), 0.1, -1.6]))
        .collect();
    let mut scene = Scene::new([13.0, 3.2, 3.0], [6.5, 1.6, 3.0], &masses, &picks);
    let project = &mut scene.plan.project;
    (project.name, project.invented, project.units) = ("Twelve legs".into(), true, UnitSystem::Metric);
    project.notes = "INVENTED EXAMPLE. No real box and no real gear. Never use it for a lift.".into();
    scene.plan.boxes[0].torsion = Torsion::Unknown;
    scene.plan.limits.mass_band = Entry::typed("5 %", Unit::Percent);
    scene.plan.limits.place_band = m(0.1);
    scene.hung("F", 600.0, None, &picks);
    let top = (36.0_f64 + 2.25 + 64.0).sqrt();
    for i in [1, 4, 5, 8] {
        scene.leg((top * 1e4).round() / 1e4, 40e6, &format!("hook > F.{i}"));
    }
    for i in 1..=8 {
        scene.leg(4.0, 40e6, &format!("F.{i} > pick {i}"));
    }
    let text = format::save(&scene.plan);
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/plans/twelve-legs.json");
    if std::env::var_os("SETDAY_WRITE_DOCS").is_some() {
        std::fs::write(path, &text).unwrap();
    }
    assert!(
        std::fs::read_to_string(path).unwrap() == text,
        "write it anew with SETDAY_WRITE_DOCS=1"
    );
    // the most that lengths can put on a strap, by hand from the box's own equilibrium: a corner strap min(end's share, side's share), an inner one its
    // side's share; tilted by 0.58° the centre of gravity 1.6 m below the picks is 0.1 − 1.6·0.0101 m off: shares 0.472 and 0.528 of 12 t, ends 0.5
    let hung = scene.hangs();
    for (strap, expected_t) in [5.66, 5.66, 5.66, 5.66, 6.0, 6.34, 6.34, 6.0].into_iter().enumerate() {
        near(hung.members[4 + strap].tension_n / 1e3 / G, expected_t, 0.02);
    }
    let mut search = WorstHangSearch::new(&scene.plan, 0).unwrap();
    assert!(!search.go_on(50));
    // a slice solves no more than it says, and what is stopped says so
    assert!(search.solved() > 0 && search.solved() <= 100);
    let found = search.found(&scene.plan).unwrap();
    assert!(found.worst.cut_short && found.worst.bending_n.is_some());
}

/// Puts slings of these lengths on the truck, twelve tonnes each, and looks for set-ups that hang level.
fn level_with(scene: &mut Scene, lengths_m: &[f64]) -> Result<LevelAnswer, String> {
    for (index, length_m) in lengths_m.iter().enumerate() {
        scene.plan.gear.push(GearItem {
            id: format!("new {index}").as_str().into(),
            kind: GearKind::Sling,
            quantity: 1,
            rating: Entry::typed("30 t", Unit::T),
            mass: Entry::typed("0 kg", Unit::Kg),
            length: m(*length_m),
            tag_legible: true,
            ..GearItem::default()
        });
    }
    level_set_ups(&scene.plan, 0)
}

/// The best set-up takes the new slings in their order and hangs level within 0.05°.
#[track_caller]
fn takes_the_new_slings(scene: &mut Scene, lengths_m: &[f64]) {
    let answer = level_with(scene, lengths_m).unwrap();
    let best = answer.set_ups.first().unwrap_or_else(|| panic!("{}", answer.words));
    let Arrangement::PieceByPiece { legs, .. } = &best.arrangement else {
        panic!("{best:?}")
    };
    let slings: Vec<&str> = legs.iter().map(|leg| leg.sling.as_str()).collect();
    let expected: Vec<String> = (0..lengths_m.len()).map(|index| format!("new {index}")).collect();
    assert_eq!(slings[..lengths_m.len()], expected, "{}", best.words);
    assert!(
        best.along.to_deg().abs() < 0.05 && best.across.to_deg().abs() < 0.05,
        "{best:?}"
    );
    for (ideal, leg) in answer.ideal.iter().zip(legs) {
        assert_eq!(leg.runs, scene.runs(ideal.kind));
    }
}

/// Lengths by right triangles to a hook 6 m over the picks and plumb over the centre of gravity, 0.5 m off the middle of two picks: √(4.5² + 6²),
/// √(3.5² + 6²); of three picks, 0.2 and 0.1 m off.
#[test]
fn two_and_three_legs_are_levelled() {
    let picks = [[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
    let mut scene = Scene::new(
        [10.0, 3.0, 3.0],
        [5.0, 1.5, 2.0],
        &[(10_000.0, [0.5, 0.0, -1.0])],
        &picks,
    );
    scene.leg(7.2, EA_N, "hook > pick 1").leg(7.2, EA_N, "hook > pick 2");
    takes_the_new_slings(&mut scene, &[7.5, 6.9462]);
    let picks = [[-4.0, -1.5, 0.0], [-4.0, 1.5, 0.0], [4.0, 0.0, 0.0]];
    let mut scene = Scene::new(
        [10.0, 3.0, 3.0],
        [5.0, 1.5, 2.0],
        &[(10_000.0, [0.2, 0.1, -1.0])],
        &picks,
    );
    for pick in 1..=3 {
        scene.leg(7.3, EA_N, &format!("hook > pick {pick}"));
    }
    takes_the_new_slings(&mut scene, &[7.4967, 7.4565, 7.1028]);
    // the same three legs below a block on one sling
    let mut scene = Scene::new(
        [10.0, 3.0, 3.0],
        [5.0, 1.5, 2.0],
        &[(10_000.0, [0.2, 0.1, -1.0])],
        &picks,
    );
    scene.hung("B", 60.0, None, &[]);
    for pick in 1..=3 {
        scene.leg(7.3, EA_N, &format!("B > pick {pick}"));
    }
    scene.leg(2.0, EA_N, "hook > B");
    takes_the_new_slings(&mut scene, &[7.4967, 7.4565, 7.1028]);
}

/// Under a bar of 500 kg with plumb straps the hook is to be over the centre of gravity of box and bar, 10·0.6/10.5 m off the middle; 4 m up:
/// √(4.5714² + 4²), √(3.4286² + 4²).
#[test]
fn a_bar_with_plumb_straps_is_levelled_along() {
    let scene = |across_m: f64| {
        let picks = [[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
        let mut scene = Scene::new(
            [10.0, 3.0, 3.0],
            [5.0, 1.5, 2.0],
            &[(10_000.0, [0.6, across_m, -1.0])],
            &picks,
        );
        scene.hung("K", 500.0, None, &[[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]]);
        scene.leg(5.657, EA_N, "hook > K.1").leg(5.657, EA_N, "hook > K.2");
        scene.leg(3.0, EA_N, "K.1 > pick 1").leg(3.0, EA_N, "K.2 > pick 2");
        scene
    };
    takes_the_new_slings(&mut scene(0.0), &[6.0744, 5.2683]);
    // 0.1 m across over 1 m: 5.71° that no top leg changes
    let answer = level_with(&mut scene(0.1), &[6.0744, 5.2683]).unwrap();
    assert!(answer.set_ups.is_empty());
    assert!(
        answer.words.contains("across the second side stays 5.7") && answer.words.contains("over one line"),
        "{}",
        answer.words
    );
}

/// Level is judged against what is entered, and under one hook never against more than 2° (0027/ND rev 11 §5.3.2): 2.29° along with a limit of 5°. Its
/// rise over 10 m is 0.4 m, eight times what can be seated (common practice).
#[test]
fn two_degrees_are_the_most_under_one_hook() {
    let picks = [[-4.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
    let mut scene = Scene::new(
        [10.0, 3.0, 3.0],
        [5.0, 1.5, 2.0],
        &[(10_000.0, [0.2, 0.0, -1.0])],
        &picks,
    );
    let leg = 32.0_f64.sqrt();
    scene.leg(leg, EA_N, "hook > pick 1").leg(leg, EA_N, "hook > pick 2");
    let along = |scene: &Scene| {
        let findings = scene.lift().findings;
        findings.into_iter().find(|f| f.check == Check::LevelAlong).unwrap()
    };
    scene.plan.limits.level = Entry::typed("5°", Unit::Deg);
    let finding = along(&scene);
    assert_eq!(finding.outcome, Outcome::Outside);
    assert!(
        finding
            .cautions
            .iter()
            .any(|c| c.contains("2° is the most under one hook")),
        "{finding:?}"
    );
    assert!(
        finding
            .cautions
            .iter()
            .any(|c| c.contains("more than 50 mm is hard to seat")),
        "{finding:?}"
    );
    scene.plan.limits.level = Entry::typed("1°", Unit::Deg);
    assert!(!along(&scene).cautions.iter().any(|c| c.contains("one hook")));
}

/// A frame of 800 kg on four legs: the hook over 12·(0.5, 0.2)/12.8 m off its middle, 6 m up.
#[test]
fn a_frame_is_levelled() {
    let corners = [[-4.0, -1.5, 0.0], [-4.0, 1.5, 0.0], [4.0, -1.5, 0.0], [4.0, 1.5, 0.0]];
    let mut scene = Scene::new(
        [9.0, 3.2, 3.0],
        [4.5, 1.6, 1.2],
        &[(12_000.0, [0.5, 0.2, -0.6])],
        &corners,
    );
    scene.hung("F", 800.0, None, &corners);
    for i in 1..=4 {
        scene.leg(7.3, EA_N, &format!("hook > F.{i}"));
    }
    for i in 1..=4 {
        scene.leg(3.0, EA_N, &format!("F.{i} > pick {i}"));
    }
    takes_the_new_slings(&mut scene, &[7.6693, 7.5955, 7.1636, 7.0847]);
}

/// Where lengths of legs cannot level a rig the answer says why; a trial lift still tells the centre of gravity.
#[test]
fn what_cannot_be_levelled_by_lengths_is_told() {
    let picks = [[-3.0, -1.2, 0.0], [3.0, -1.2, 0.0], [3.0, 1.2, 0.0], [-3.0, 1.2, 0.0]];
    let size = ([7.0, 2.4, 3.0], [3.5, 1.2, 1.0]);
    let mut scene = Scene::new(size.0, size.1, &[(8_000.0, [0.25, 0.1, -0.3])], &picks);
    let lugs = [[0.05, 0.0, 0.35], [-2.8, 0.0, -0.25], [2.8, 0.0, -0.25]];
    scene.hung("Beam", 620.0, Some([0.02, 0.01, 0.0]), &lugs);
    scene.leg(4.2, 50e6, "hook > Beam.1");
    for (lug, pick) in [(2, 1), (3, 2), (3, 3), (2, 4)] {
        scene.leg(4.0, 20e6, &format!("Beam.{lug} > pick {pick}"));
    }
    let why = level_set_ups(&scene.plan, 0).unwrap_err();
    assert!(
        why.contains("one leg at the top") && why.contains("move the lug"),
        "{why}"
    );
    let hung = scene.hangs();
    let low = |tilt_rad: f64| usize::from(tilt_rad > 0.0);
    let reading = TrialReading {
        low_end: low(hung.along.tilt_rad),
        end_lower: Length::m(hung.along.rise_m),
        low_side: low(hung.across.tilt_rad),
        side_lower: Length::m(hung.across.rise_m),
    };
    let trial = trial_lift(&scene.plan, 0, &reading).unwrap();
    near(trial.moved_m[0], 0.0, 1e-3);
    assert!(
        trial.level.is_none() && trial.words.contains("new legs cannot be searched: all of it hangs"),
        "{}",
        trial.words
    );
    // one sling of a pair that runs over the hook
    let mut scene = Scene::new(size.0, size.1, &[(8_000.0, [0.0, 0.0, -0.3])], &picks);
    scene.leg(12.0, EA_N, "pick 1 > hook > pick 4");
    scene.leg(6.0, EA_N, "hook > pick 2").leg(6.0, EA_N, "hook > pick 3");
    let why = level_set_ups(&scene.plan, 0).unwrap_err();
    assert!(why.contains("leg 1 runs over the top"), "{why}");
}

/// What cannot be read in "runs" is told with what was read, where, and what is expected.
#[test]
fn bad_runs_are_told() {
    let picks = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
    for (runs, expected) in [
        ("hook > pick 3", "\"pick 3\" was read"),
        ("hook > K.3", "\"K.3\" was read"),
        ("hook > K", "\"K\" was read"),
        ("", "\"\" was read"),
        ("hook", "two ends"),
        ("hook > eave", "two ends"),
        ("hook > hook", "twice in a row"),
        ("peg 1 > hook", "\"peg 1\" was read"),
    ] {
        let mut scene = Scene::new([5.0, 3.0, 3.0], [0.5, 1.5, 1.0], &[(5_000.0, [2.0, 0.0, -0.5])], &picks);
        let edge = BoxEdge {
            id: "eave".into(),
            from: at([0.0, 0.0, 3.0]),
            to: at([5.0, 0.0, 3.0]),
        };
        scene.plan.boxes[0].edges.push(edge);
        scene.hung("K", 10.0, None, &[[0.0; 3], [1.0, 0.0, 0.0]]);
        scene.leg(4.0, EA_N, "hook > pick 1").leg(4.0, EA_N, runs);
        let lift = scene.lift();
        let why = lift.rig.why_not.unwrap();
        assert!(why.contains(expected) && why.contains("leg 2"), "{runs}: {why}");
        let stability = lift.findings.iter().find(|f| f.check == Check::Stability).unwrap();
        assert!(matches!(stability.outcome, Outcome::NotChecked { .. }));
    }
}

/// A piece that carries nothing, and legs that are too short, are reasons, not panics.
#[test]
fn pieces_that_cannot_hang() {
    let picks = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
    let why = |build: &dyn Fn(&mut Scene)| {
        let mut scene = Scene::new([5.0, 3.0, 3.0], [0.5, 1.5, 1.0], &[(5_000.0, [2.0, 0.0, -0.5])], &picks);
        build(&mut scene);
        scene.lift().rig.why_not.unwrap()
    };
    let idle = why(&|scene| {
        scene
            .hung("K", 10.0, None, &[[0.0; 3]])
            .leg(4.0, EA_N, "hook > pick 1")
            .leg(4.0, EA_N, "hook > pick 2");
    });
    assert!(idle.contains("carries nothing"), "{idle}");
    let short = why(&|scene| {
        scene.leg(1.0, EA_N, "hook > pick 1").leg(1.5, EA_N, "hook > pick 2");
    });
    assert!(short.contains("do not reach") || short.contains("too short"), "{short}");
    assert!(why(&|_| {}).contains("no leg"));
    let loose = why(&|scene| {
        scene
            .hung("K", 10.0, None, &[[0.0; 3]])
            .leg(4.0, EA_N, "K > pick 1")
            .leg(4.0, EA_N, "K > pick 2");
    });
    assert!(loose.contains("hook"), "{loose}");
}
