//! A crane with one chart at one place: every lift of the day with every boom and every pick spot.

use super::boom::{Block, Slewed};
use super::end::{Boomed, Demands, End, Stop};

/// One lift, wherever the crane stands.
#[derive(Clone, Debug)]
pub struct StandLift {
    /// Where it may be picked; `None` for a lift that has no pick apart from where it is set.
    pub picks: Vec<Option<End>>,
    /// Where it is set.
    pub set: End,
    /// The boom lengths it may be made with, as places in [`Stand::boomed`].
    pub booms: Vec<usize>,
    /// The boxes that stand by then.
    pub standing: Vec<Block>,
}

/// A crane with one chart.
#[derive(Clone, Debug)]
pub struct Stand {
    /// With each boom length.
    pub boomed: Vec<Boomed>,
    /// The lifts in the plan's order.
    pub lifts: Vec<StandLift>,
    /// What the user demands.
    pub demands: Demands,
}

/// What can be said of a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standpoint {
    /// The first lift that cannot be made within the limits, and the check that stops the way to make it that comes farthest.
    pub stop: Option<(usize, Stop)>,
    /// Where all can be made: the largest of the lifts' uses of the chart, each made with the boom and the spot that use least.
    pub use_of_chart: f64,
    /// How many checks were made: a boom and a spot each, at pick and at set.
    pub checks: u32,
}

impl Stand {
    /// Looks at every lift from a place.
    pub fn at(&self, at_m: [f64; 2]) -> Standpoint {
        let mut checks = 0;
        let mut largest: f64 = 0.0;
        for (index, lift) in self.lifts.iter().enumerate() {
            match self.lift(lift, at_m, &mut checks) {
                Ok(use_of_chart) => largest = largest.max(use_of_chart),
                Err(stop) => {
                    return Standpoint {
                        stop: Some((index, stop)),
                        use_of_chart: f64::INFINITY,
                        checks,
                    };
                }
            }
        }
        Standpoint {
            stop: None,
            use_of_chart: largest,
            checks,
        }
    }

    /// The least use of the chart that a lift can be made with, or what stops the way that comes farthest.
    fn lift(&self, lift: &StandLift, at_m: [f64; 2], checks: &mut u32) -> Result<f64, Stop> {
        let set_turn = Slewed::new(at_m, lift.set.hook_m);
        let mut best: Result<f64, Stop> = Err(Stop::Chart);
        for pick in &lift.picks {
            let pick = pick.as_ref().map(|end| (end, Slewed::new(at_m, end.hook_m)));
            for &boom in &lift.booms {
                *checks += 1;
                let boomed = &self.boomed[boom];
                let stop = |end, turn| boomed.stop(turn, end, &lift.standing, &self.demands);
                let picked = pick.map_or(Ok(0.0), |(end, turn)| stop(end, turn));
                let found = match picked {
                    Ok(used) => stop(&lift.set, set_turn).map(|other| used.max(other)),
                    stopped => stopped,
                };
                best = match (best, found) {
                    (Ok(a), Ok(b)) => Ok(a.min(b)),
                    (Ok(a), Err(_)) => Ok(a),
                    (Err(_), Ok(b)) => Ok(b),
                    (Err(a), Err(b)) => Err(a.max(b)),
                };
            }
        }
        best
    }
}
