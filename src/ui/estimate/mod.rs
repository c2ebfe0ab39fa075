//! The foreman's clock and the estimator's hour: the day on the clock, what each crane costs, a quick size.

mod clock;
mod cost;
mod data;
mod quick;
mod record;

pub use clock::ClockView;
pub use cost::CostView;
pub use quick::QuickView;
