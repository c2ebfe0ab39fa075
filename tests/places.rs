//! Where the crane can stand: the search in numbers against the evaluation, against itself in another order, against the scenario's figures.

use setday::evaluate::{Candidate, Found, Grid, Limit, Patch, PlaceSearch, crane_side_limit, evaluate, patch, stood};
use setday::plan::{Plan, sample};
use std::rc::Rc;

/// A search over the whole grid.
fn searched(plan: &Rc<Plan>, grid: Grid) -> PlaceSearch {
    let mut search = PlaceSearch::new(plan, grid);
    while search.go_on(1000) {}
    search
}

#[track_caller]
fn patch_of(search: &PlaceSearch, chart: &str) -> Patch {
    let mut candidates = search.candidates();
    let which = candidates
        .position(|(c, _)| c.chart == chart)
        .expect("the scenario has that chart");
    patch(&search.grid(), search.found(which))
}

/// A generator of random numbers that gives the same ones everywhere (xorshift64, Marsaglia 2003).
struct Random(u64);

impl Random {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % end as u64) as usize
    }
}

/// Every answer of the search is the evaluation's: within where its crane's checks are at the heading given, stopped where they are at none.
#[test]
fn five_hundred_random_places_are_as_evaluated() {
    let plan = Rc::new(sample::plan());
    let grid = Grid::over(&plan, 0.5).unwrap();
    let search = searched(&plan, grid);
    let candidates: Vec<Candidate> = search.candidates().map(|(c, _)| c.clone()).collect();
    let mut random = Random(0x5e7d_a001);
    let mut within = 0;
    for turn in 0..500 {
        let which = random.below(candidates.len());
        // half of them from where something is within, if there is such a place
        let places: Vec<usize> = (0..grid.len())
            .filter(|&n| turn % 2 == 0 || matches!(search.found(which)[n], Found::Within { .. }))
            .collect();
        if places.is_empty() {
            continue;
        }
        let number = places[random.below(places.len())];
        let at_m = grid.point_m(number);
        let assessed = |heading_rad| evaluate(&stood(&plan, &candidates[which], at_m, heading_rad));
        match search.found(which)[number] {
            Found::Within {
                heading_rad,
                use_of_chart,
                held,
            } => {
                within += 1;
                let assessment = assessed(heading_rad);
                assert_eq!(
                    crane_side_limit(&assessment),
                    None,
                    "{:?} at {at_m:?}",
                    candidates[which]
                );
                let largest = assessment
                    .lifts
                    .iter()
                    .map(|l| l.use_of_chart.unwrap().to_of())
                    .fold(0.0, f64::max);
                assert!((use_of_chart - largest).abs() < 1e-12);
                let holds = assessment.lifts.iter().filter(|l| l.outcome.gravity() == 1).count();
                assert_eq!(held, holds);
            }
            Found::Stopped(limit, lift) => {
                let assessment = assessed(plan.set_up.heading.get().unwrap().to_rad());
                let result = &assessment.lifts[lift];
                assert!(
                    result.crane_side().gravity() > 1,
                    "{limit:?} at {at_m:?}: {:?}",
                    candidates[which]
                );
                if let Limit::Check(check) = limit {
                    assert!(
                        result
                            .findings
                            .iter()
                            .any(|f| f.check == check && f.outcome.gravity() > 1)
                    );
                }
            }
        }
    }
    assert!(within > 20, "{within} of them are within");
}

/// On a small lot, every place and every heading by the evaluation alone.
#[test]
fn a_small_lot_by_brute_force() {
    let plan = Rc::new(sample::plan());
    let grid = Grid {
        low_m: [7.0, -7.5],
        step_m: 0.5,
        count: [5, 4],
    };
    let search = searched(&plan, grid);
    for (which, (candidate, lacks)) in search.candidates().enumerate() {
        assert_eq!(lacks, None);
        for number in 0..grid.len() {
            let first = plan.set_up.heading.get().unwrap().to_rad();
            let within = (0..8).any(|i| {
                let heading = first + core::f64::consts::TAU * f64::from(i) / 8.0;
                let plan = stood(&plan, candidate, grid.point_m(number), heading);
                crane_side_limit(&evaluate(&plan)).is_none()
            });
            let found = search.found(which)[number];
            assert_eq!(
                matches!(found, Found::Within { .. }),
                within,
                "{candidate:?} {number} {found:?}"
            );
        }
    }
}

#[test]
fn slices_of_any_size_find_the_same() {
    let plan = Rc::new(sample::plan());
    let grid = Grid {
        low_m: [4.0, -9.0],
        step_m: 1.0,
        count: [9, 5],
    };
    let whole = searched(&plan, grid);
    let mut sliced = PlaceSearch::new(&plan, grid);
    let mut random = Random(7);
    while sliced.go_on(1 + random.below(13)) {}
    for which in 0..whole.candidates().count() {
        assert_eq!(whole.found(which), sliced.found(which));
    }
    assert_eq!((whole.checks(), whole.progress()), (sliced.checks(), sliced.progress()));
}

/// The scenario's figures, from its own independent script: the 90 t crane with its whole counterweight stands in one patch round P1 only, one row of 0.25 m deep,
/// 7 points; with part of it, on outriggers half out, and the small crane nowhere.
#[test]
fn the_scenario_has_one_patch_for_the_crane_that_is_planned() {
    let plan = Rc::new(sample::plan());
    let grid = Grid::over(&plan, 0.25).unwrap();
    let search = searched(&plan, grid);
    let planned = patch_of(&search, "S90-full");
    assert_eq!((planned.places, planned.depth_m), (7, 0.25));
    for chart in ["S60-full", "S60-part", "S90-part", "S90-mid", "S200-part"] {
        assert_eq!(patch_of(&search, chart).places, 0, "{chart}");
    }
    let large = patch_of(&search, "S200-full");
    assert!(large.places > 0 && large.depth_m >= 2.0, "{large:?}");
}
