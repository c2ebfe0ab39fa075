//! What a crane costs: amounts in whole cents, rates as they were told, hours as they are billed, lines that add up to their total.

mod bill;
mod compare;
mod money;
mod quick;
mod rate;

pub use bill::{Bill, Hours, Line, Overtime, Priced, Rates, Side, bill, billed_s, overtime_s};
pub use compare::{Difference, break_even_s, differences};
pub use money::{Money, Share, ratio_of};
pub use quick::{QuickAnswer, QuickInput, quick_size};
pub use rate::{Basis, Per, Told, WANTED, Wanted, read_rate, wanted};
