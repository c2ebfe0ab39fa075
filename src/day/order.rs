//! The order of lifts with the fewest changes of the rig: what must come first stays first.

use std::collections::BTreeSet;

/// How many lifts an order may have.
pub const MOST_JOBS: usize = 64;
/// So many different sets of finished lifts are followed at once; where there are more, the farthest on are, and the order is called good instead of best.
const MOST_STATES: usize = 4000;

/// One lift, for its order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Job {
    /// Which rig it hangs on: lifts with the same number need no change between them.
    pub rig: usize,
    /// The lifts that must be done before, one bit each by their index.
    pub after: u64,
}

/// An order of lifts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ordered {
    /// Indices of the jobs.
    pub order: Vec<usize>,
    /// How often the rig changes between two of them.
    pub changes: usize,
    /// No order has fewer; else it is only the best that was found.
    pub fewest: bool,
}

/// Why there is no order: these lifts wait for each other.
pub type Circle = Vec<usize>;

/// How often the rig changes along an order.
pub fn changes(jobs: &[Job], order: &[usize]) -> usize {
    order
        .windows(2)
        .filter(|two| jobs[two[0]].rig != jobs[two[1]].rig)
        .count()
}

/// Whether each lift of an order comes after all that must be done before it.
pub fn follows_the_rules(jobs: &[Job], order: &[usize]) -> bool {
    let mut done = 0_u64;
    order.iter().all(|&job| {
        let may = jobs[job].after & !done == 0;
        done |= 1 << job;
        may
    })
}

/// What stands after taking all lifts that a rig can take, and the order they were taken in.
#[derive(Clone, Debug)]
struct State {
    done: u64,
    rig: usize,
    order: Vec<usize>,
}

/// The order with the fewest changes of the rig; among those, one that takes lifts of the same rig in the order given.
///
/// Search by number of changes, breadth first over the sets of finished lifts. With a rig on the hook every lift that hangs on it and may be done is
/// done: moving it forward breaks no rule, and taking it out of its later place never adds a change, so no better order is lost. The answer is the
/// best as long as no more than some thousands of sets are reached at once.
///
/// # Errors
/// The lifts that wait for each other in a circle, or more than [`MOST_JOBS`].
pub fn fewest_changes(jobs: &[Job]) -> Result<Ordered, Circle> {
    if jobs.len() > MOST_JOBS {
        return Err((MOST_JOBS..jobs.len()).collect());
    }
    if let Some(circle) = circle(jobs) {
        return Err(circle);
    }
    let all = if jobs.len() == MOST_JOBS {
        u64::MAX
    } else {
        (1_u64 << jobs.len()) - 1
    };
    let mut states = vec![State {
        done: 0,
        rig: usize::MAX,
        order: Vec::new(),
    }];
    let mut fewest = true;
    while let Some(state) = states.iter().find(|state| state.done != all).cloned() {
        let mut next: Vec<State> = Vec::new();
        let mut seen = BTreeSet::new();
        for state in &states {
            for rig in rigs_that_can_follow(jobs, state) {
                let mut after = state.clone();
                after.rig = rig;
                take_all(jobs, &mut after);
                if seen.insert((after.done, rig)) {
                    next.push(after);
                }
            }
        }
        if let Some(finished) = next.iter().find(|state| state.done == all) {
            let order = finished.order.clone();
            return Ok(Ordered {
                changes: changes(jobs, &order),
                order,
                fewest,
            });
        }
        if next.len() > MOST_STATES {
            fewest = false;
            next.sort_by_key(|state| core::cmp::Reverse(state.done.count_ones()));
            next.truncate(MOST_STATES);
        }
        debug_assert!(!next.is_empty(), "without a circle some lift may follow {state:?}");
        states = next;
    }
    Ok(Ordered {
        order: Vec::new(),
        changes: 0,
        fewest: true,
    })
}

fn may_follow(job: &Job, index: usize, done: u64) -> bool {
    done & (1 << index) == 0 && job.after & !done == 0
}

fn rigs_that_can_follow(jobs: &[Job], state: &State) -> BTreeSet<usize> {
    let free = jobs
        .iter()
        .enumerate()
        .filter(|(index, job)| may_follow(job, *index, state.done));
    free.map(|(_, job)| job.rig).filter(|rig| *rig != state.rig).collect()
}

fn take_all(jobs: &[Job], state: &mut State) {
    while let Some(index) =
        (0..jobs.len()).find(|&index| jobs[index].rig == state.rig && may_follow(&jobs[index], index, state.done))
    {
        state.done |= 1 << index;
        state.order.push(index);
    }
}

/// Lifts that wait for each other, or for one that is not there.
fn circle(jobs: &[Job]) -> Option<Circle> {
    let mut done = 0_u64;
    while let Some(index) = (0..jobs.len()).find(|&index| may_follow(&jobs[index], index, done)) {
        done |= 1 << index;
    }
    let stuck: Circle = (0..jobs.len()).filter(|index| done & (1 << index) == 0).collect();
    (!stuck.is_empty()).then_some(stuck)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every order there is, by trying.
    fn brute_force(jobs: &[Job]) -> Option<usize> {
        fn go(jobs: &[Job], order: &mut Vec<usize>, best: &mut Option<usize>) {
            if order.len() == jobs.len() {
                let found = changes(jobs, order);
                *best = Some(best.map_or(found, |b| b.min(found)));
                return;
            }
            for index in 0..jobs.len() {
                if order.contains(&index)
                    || jobs[index].after.count_ones() as usize
                        != (0..jobs.len())
                            .filter(|&j| jobs[index].after & (1 << j) != 0 && order.contains(&j))
                            .count()
                {
                    continue;
                }
                order.push(index);
                go(jobs, order, best);
                order.pop();
            }
        }
        let mut best = None;
        go(jobs, &mut Vec::new(), &mut best);
        best
    }

    /// A small generator of numbers, so that the cases are the same everywhere.
    struct Numbers(u64);
    impl Numbers {
        fn below(&mut self, n: u64) -> u64 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 33) % n
        }
    }

    fn random_jobs(numbers: &mut Numbers, count: usize) -> Vec<Job> {
        (0..count)
            .map(|index| {
                let mut after = 0;
                for earlier in 0..index {
                    if numbers.below(4) == 0 {
                        after |= 1 << earlier;
                    }
                }
                Job {
                    rig: numbers.below(3) as usize,
                    after,
                }
            })
            .collect()
    }

    #[test]
    fn trying_every_order_of_up_to_eight_lifts_finds_no_fewer_changes() {
        let mut numbers = Numbers(9);
        for count in 0..=8 {
            for _ in 0..if count == 8 { 40 } else { 60 } {
                let jobs = random_jobs(&mut numbers, count);
                let found = fewest_changes(&jobs).unwrap();
                assert_eq!(Some(found.changes), brute_force(&jobs), "{jobs:?}");
                assert!(found.fewest && follows_the_rules(&jobs, &found.order) && found.order.len() == count);
            }
        }
    }

    /// Six lower boxes on two rigs by turns, an upper box on each, on a third and a fourth rig by turns.
    #[test]
    fn twelve_boxes_go_in_three_changes_and_no_upper_box_comes_before_its_lower_one() {
        let jobs: Vec<Job> = (0..12)
            .map(|index| match index {
                0..6 => Job {
                    rig: index % 2,
                    after: 0,
                },
                upper => Job {
                    rig: 2 + upper % 2,
                    after: 1 << (upper - 6),
                },
            })
            .collect();
        let given: Vec<usize> = (0..12).collect();
        assert_eq!(changes(&jobs, &given), 11);
        let found = fewest_changes(&jobs).unwrap();
        assert_eq!((found.changes, found.fewest), (3, true));
        assert!(follows_the_rules(&jobs, &found.order));
        assert_eq!(found.order, [0, 2, 4, 1, 3, 5, 6, 8, 10, 7, 9, 11]);
    }

    #[test]
    fn lifts_that_wait_for_each_other_are_named() {
        let jobs = [
            Job { rig: 0, after: 0 },
            Job { rig: 0, after: 0b100 },
            Job { rig: 1, after: 0b010 },
        ];
        assert_eq!(fewest_changes(&jobs), Err(vec![1, 2]));
    }

    #[test]
    fn forty_lifts_on_many_rigs_come_to_an_order_that_follows_the_rules() {
        let mut numbers = Numbers(4);
        let jobs: Vec<Job> = random_jobs(&mut numbers, 40)
            .into_iter()
            .enumerate()
            .map(|(i, job)| Job {
                rig: (i * 7) % 9,
                ..job
            })
            .collect();
        let found = fewest_changes(&jobs).unwrap();
        assert_eq!(found.order.len(), 40);
        assert!(follows_the_rules(&jobs, &found.order));
        let given: Vec<usize> = (0..40).collect();
        assert!(found.changes <= changes(&jobs, &given));
    }
}
