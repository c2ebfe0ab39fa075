//! The set day as an order of lifts and a clock: which lift may follow which, how few times the rig changes, and when the crane is done.

mod clock;
mod order;

pub use clock::{Band, Clock, Pause, Spread, Work, run};
pub use order::{Job, MOST_JOBS, Ordered, changes, fewest_changes, follows_the_rules};
