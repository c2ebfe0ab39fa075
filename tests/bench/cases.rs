//! What is timed, natively and in the browser alike. Both benches include this file.

#[path = "../rigs/mod.rs"]
mod rigs;

use rigs::{TwoTier, kitchen_box, stiff_box_on_four, twist};
use setday::evaluate::evaluate;
use setday::plan::{Plan, format, sample};
use setday::quantity::Length;
use setday::statics::{Bands, Rig, State, hang, worst_case};
use std::cell::OnceCell;
use std::hint::black_box;

/// A name and the work that is repeated. Its result keeps the work from being left out.
pub type Case = (&'static str, fn() -> f64);

/// Every case.
pub const CASES: &[Case] = &[
    ("feet to metres", || Length::ft(black_box(12.5)).to_m()),
    ("evaluate the scenario", || {
        with_scenario(|plan| evaluate(black_box(plan)).headline.may_move.map_or(0.0, Length::to_m))
    }),
    ("open the scenario's file", || {
        format::open(black_box(sample::FILE)).map_or(0.0, |opened| opened.plan.boxes.len() as f64)
    }),
    ("hang on four legs", || with_rigs(|rigs| hook_load_n(&rigs.four, None))),
    ("hang with 25 unknowns, from the drawing", || {
        with_rigs(|rigs| hook_load_n(&rigs.tiers, None))
    }),
    ("hang with 25 unknowns, one leg 10 mm longer", || {
        with_rigs(|rigs| hook_load_n(&rigs.longer, Some(&rigs.tiers_at_rest)))
    }),
    ("worst case of four legs, every length ± 10 mm", || {
        with_rigs(|rigs| worst_n(&rigs.four))
    }),
    ("worst case of ten members, every length ± 10 mm", || {
        with_rigs(|rigs| worst_n(&rigs.tiers))
    }),
];

/// Rigs that are solved, built once.
struct Rigs {
    four: Rig,
    tiers: Rig,
    longer: Rig,
    tiers_at_rest: State,
}

impl Rigs {
    fn new() -> Self {
        let legs_ft = [28.33, 24.0];
        let tiers = TwoTier {
            twist: twist([2.0, 1.5], &[3.048, 12.8016], 5e7),
            ..kitchen_box(33_720.0, legs_ft, [14.5; 4], 16.0, 60e6)
        }
        .rig();
        let mut longer = tiers.clone();
        longer.members[1].length_m += 0.01;
        let tiers_at_rest = hang(&tiers, None).expect("the scenario's rig hangs").state;
        let mut four = stiff_box_on_four(0.0, 40e6);
        four.bodies[0].masses[0].at_m = [0.3, 0.1, -0.4];
        Self {
            four,
            tiers,
            longer,
            tiers_at_rest,
        }
    }
}

fn hook_load_n(rig: &Rig, start: Option<&State>) -> f64 {
    hang(black_box(rig), start).map_or(0.0, |at_rest| at_rest.hook_load_n)
}

fn worst_n(rig: &Rig) -> f64 {
    let bands = Bands {
        length_tolerance_m: vec![0.01; rig.members.len()],
        ..Bands::default()
    };
    let found = worst_case(black_box(rig), &bands);
    found
        .members
        .iter()
        .flatten()
        .map(|worst| worst.tension_n)
        .fold(0.0, f64::max)
}

thread_local! {
    static SCENARIO: OnceCell<Plan> = const { OnceCell::new() };
    static RIGS: OnceCell<Rigs> = const { OnceCell::new() };
}

fn with_rigs(work: impl FnOnce(&Rigs) -> f64) -> f64 {
    RIGS.with(|rigs| work(rigs.get_or_init(Rigs::new)))
}

fn with_scenario(work: impl FnOnce(&Plan) -> f64) -> f64 {
    SCENARIO.with(|plan| work(plan.get_or_init(sample::plan)))
}
