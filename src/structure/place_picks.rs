//! Where picks would strain the box least, for the weight as it lies and within what the factory allows.

use super::{Beam, Pull, Sharing, reactions_n};

/// What is to be small.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// The largest moment, sagging or hogging.
    Moment,
    /// The largest sag or droop from the line of the picks; where it is least does not depend on EI, as long as that is one from end to end.
    Sag,
}

/// Two places for picks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestPicks {
    /// Where along the box, m.
    pub at_m: [f64; 2],
    /// What is then the largest: moment, N·m, or sag times EI, N·m³, by size.
    pub least: f64,
}

/// Two pick sections that make the largest moment, or the largest sag, least.
///
/// `from_end_m`: how near to and how far from either end they may be. The centre of gravity must hang between them. `None` where no such place is.
/// A grid first, then golden sections inside its best cell, one in the other: the largest of several smooth curves has one lowest place there.
pub fn best_picks(beam: &Beam, from_end_m: [f64; 2], aim: Aim) -> Option<BestPicks> {
    let [near_m, far_m] = from_end_m;
    let step_m = (far_m - near_m) / f64::from(STEPS);
    let mut best: Option<BestPicks> = None;
    let steps = |i: u32| near_m + step_m * f64::from(i);
    for a in (0..=STEPS).map(steps) {
        for b in (0..=STEPS).map(steps) {
            better(&mut best, beam, [a, beam.length_m - b], aim);
        }
    }
    let from = best?;
    let clamped = |m: f64| [m - step_m, m + step_m].map(|m| m.clamp(near_m, far_m));
    let second = |first_m: f64| {
        let range = clamped(beam.length_m - from.at_m[1]);
        golden(range, |b| worst(beam, [first_m, beam.length_m - b], aim))
    };
    let (first_m, _) = golden(clamped(from.at_m[0]), |a| second(a).1);
    let (second_m, _) = second(first_m);
    better(&mut best, beam, [first_m, beam.length_m - second_m], aim);
    best
}

fn better(best: &mut Option<BestPicks>, beam: &Beam, at_m: [f64; 2], aim: Aim) {
    let least = worst(beam, at_m, aim);
    if least.is_finite() && best.is_none_or(|b| least < b.least) {
        *best = Some(BestPicks { at_m, least });
    }
}

/// The largest moment or sag times EI, by size, with picks at two places; endless where the box would tip.
fn worst(beam: &Beam, at_m: [f64; 2], aim: Aim) -> f64 {
    let cg_m = beam.cg_m();
    if !(at_m[0] < cg_m && cg_m < at_m[1]) {
        return f64::INFINITY;
    }
    let mut held = beam.clone();
    held.pulls = at_m
        .map(|x_m| Pull {
            x_m,
            up_n: 0.0,
            along_n: 0.0,
            lever_m: 0.0,
        })
        .to_vec();
    let Some(ups_n) = reactions_n(&held, Sharing::RigidBox) else {
        return f64::INFINITY;
    };
    for (pull, up_n) in held.pulls.iter_mut().zip(ups_n) {
        pull.up_n = up_n;
    }
    let extremes = match aim {
        Aim::Moment => held.largest_moments(),
        Aim::Sag => held.largest_sags(),
    };
    extremes.iter().fold(0.0, |most, e| most.max(e.value.abs()))
}

/// Where a function with one lowest place is lowest, and how low. Source: J. Kiefer 1953, golden section search.
fn golden([mut low, mut high]: [f64; 2], of: impl Fn(f64) -> f64) -> (f64, f64) {
    let inner = |low: f64, high: f64| [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    let [mut a, mut b] = inner(low, high).map(|x| (x, of(x)));
    while high - low > FINE_M {
        if a.1 <= b.1 {
            (high, b) = (b.0, a);
            let x = inner(low, high)[0];
            a = (x, of(x));
        } else {
            (low, a) = (a.0, b);
            let x = inner(low, high)[1];
            b = (x, of(x));
        }
    }
    let ends = [low, high].map(|x| (x, of(x)));
    [a, b, ends[0], ends[1]]
        .into_iter()
        .fold(a, |best, x| if x.1 < best.1 { x } else { best })
}

/// Grid of the first look.
const STEPS: u32 = 12;
/// Finer than picks are placed, m.
const FINE_M: f64 = 1e-4;
/// (√5 − 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
