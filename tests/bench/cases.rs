//! What is timed, natively and in the browser alike. Both benches include this file.

#[path = "../rigs/mod.rs"]
mod rigs;

use rigs::{TwoTier, kitchen_box, stiff_box_on_four, twist};
use setday::evaluate::TrialReading;
use setday::evaluate::{evaluate, hang_with_errors, level_set_ups, trial_lift, worst_hang};
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
    ("evaluate 5 lifts, every check", || with_lifts(0)),
    ("evaluate 50 lifts, every check", || with_lifts(1)),
    ("evaluate 500 lifts, every check", || with_lifts(2)),
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
    ("worst case of the scenario's five boxes", || {
        with_scenario(|plan| {
            (0..5)
                .filter_map(|lift| worst_hang(black_box(plan), lift).ok())
                .map(|found| found.worst.solved as f64)
                .sum()
        })
    }),
    ("hang with a leg's length off", || {
        with_scenario(|plan| hang_with_errors(black_box(plan), 1, &[0.01]).map_or(0.0, |hung| hung.along.tilt_rad))
    }),
    ("level set-ups of the kitchen box", || {
        with_scenario(|plan| level_set_ups(black_box(plan), 1).map_or(0.0, |answer| answer.tried as f64))
    }),
    ("trial lift of the kitchen box, with new legs", || {
        let reading = TrialReading {
            low_end: 1,
            end_lower: Length::m(0.5),
            low_side: 0,
            side_lower: Length::m(0.03),
        };
        with_scenario(|plan| trial_lift(black_box(plan), 1, &reading).map_or(0.0, |answer| answer.cg_m[0]))
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
    static LIFTS: OnceCell<[Plan; 3]> = const { OnceCell::new() };
    static SCENARIO: OnceCell<Plan> = const { OnceCell::new() };
    static RIGS: OnceCell<Rigs> = const { OnceCell::new() };
}

/// The scenario's five boxes over and over, so many lifts in all: what each costs beside the boxes, which are weighed and hung once a lift.
fn with_lifts(which: usize) -> f64 {
    LIFTS.with(|plans| {
        let plans = plans.get_or_init(|| {
            [5, 50, 500].map(|count| {
                let mut plan = sample::plan();
                let five: Vec<_> = plan.lifts.iter().take(5).cloned().collect();
                plan.lifts.clear();
                for i in 0..count {
                    let mut lift = five[i % 5].clone();
                    lift.id = format!("L{}", i + 1).as_str().into();
                    lift.number = i as u32 + 1;
                    plan.lifts.push(lift);
                }
                plan
            })
        });
        evaluate(black_box(&plans[which])).lifts.len() as f64
    })
}

fn with_rigs(work: impl FnOnce(&Rigs) -> f64) -> f64 {
    RIGS.with(|rigs| work(rigs.get_or_init(Rigs::new)))
}

fn with_scenario(work: impl FnOnce(&Plan) -> f64) -> f64 {
    SCENARIO.with(|plan| work(plan.get_or_init(sample::plan)))
}
