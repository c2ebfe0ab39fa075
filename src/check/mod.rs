//! What a check answers: a finding with its demand, its limit, its outcome and the working behind it.

mod amount;
mod working;

pub use crate::reach::exceeds;
pub use amount::Amount;
pub use working::{Input, Working};

use crate::plan::Id;
use crate::quantity::{Ratio, Safe, UnitSystem};
use serde::Serialize;
use std::rc::Rc;

/// How a check came out.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "outcome", rename_all = "snake_case")]
pub enum Outcome {
    /// Within the limits entered.
    Within,
    /// Not decided by numbers: it waits for somebody's word. Never a pass.
    Held {
        /// What must be known first.
        until: String,
    },
    /// A number is missing. Neither within nor outside.
    NotChecked {
        /// What is missing, where to enter it.
        missing: String,
    },
    /// Outside the limits entered.
    Outside,
}

impl Outcome {
    /// The words for it, as shown and printed.
    pub fn words(&self) -> String {
        match self {
            Self::Within => "within the limits entered".into(),
            Self::Outside => "outside the limits entered".into(),
            Self::NotChecked { missing } => format!("cannot be checked: {missing}"),
            Self::Held { until } => format!("within the limits entered, held: {until}"),
        }
    }

    /// One word for a table.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Within => "Within",
            Self::Outside => "Outside",
            Self::NotChecked { .. } => "Cannot be checked",
            Self::Held { .. } => "Held",
        }
    }

    /// The order of gravity: what a lift shows is the gravest of its findings.
    pub const fn gravity(&self) -> u8 {
        match self {
            Self::Within => 0,
            Self::Held { .. } => 1,
            Self::NotChecked { .. } => 2,
            Self::Outside => 3,
        }
    }

    /// Whether it is within.
    pub const fn is_within(&self) -> bool {
        matches!(self, Self::Within)
    }
}

/// What a check is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Check {
    /// The weight and centre of gravity of the load.
    Weight,
    /// The ticket against the take-off.
    Ticket,
    /// Hook load against the chart's rating.
    ChartUse,
    /// Radius reachable with the boom.
    Reach,
    /// Boom head above hook, block and load.
    Headroom,
    /// Boom against the load's edge and boxes that are set.
    BoomGap,
    /// The rating chart itself.
    Chart,
    /// Tilt along the box.
    LevelAlong,
    /// Roll across the box.
    LevelAcross,
    /// Whether the rig hangs in a stable way.
    Stability,
    /// Tension in a piece against its rating.
    Gear,
    /// Pull at a pick against the factory's limits.
    Pick,
    /// Push of a strap on an eave.
    Eave,
    /// Angle of a leg from the horizontal.
    LegAngle,
    /// Shear and moment in the box against what its factory allows.
    BoxBeam,
    /// How far the box sags between its picks and droops beyond them.
    BoxSag,
    /// How far its sheathing is racked.
    Racking,
    /// A hinged roof half on its way up.
    RoofRaise,
    /// Pieces of the rig against the truck.
    Truck,
    /// Voltage of a power line.
    PowerLine,
    /// Outrigger mats against what takes no load.
    Footprint,
    /// The plan's own order and names.
    Order,
    /// The way from pick to set: swing, radii, the chart's sector.
    Swing,
    /// The load against the crane's own body, tail and outriggers.
    CraneBody,
    /// Outriggers, mats, what the ground bears, edges of excavations.
    Ground,
    /// The crane out of level.
    CraneLevel,
    /// Wind on the load.
    Wind,
    /// The hoist's line and its rope.
    LinePull,
    /// What the load indicator shows, and the pull as a load comes free.
    TrialLift,
    /// Lifts that rule books ask more of.
    Critical,
    /// What this program does not plan.
    Scope,
    /// The checks that the program has yet to load.
    Further,
}

impl Check {
    /// Whether the check belongs to the crane (the others belong to the rig, the load or the site's holds).
    pub const fn is_crane_side(self) -> bool {
        matches!(
            self,
            Self::ChartUse
                | Self::Reach
                | Self::Headroom
                | Self::BoomGap
                | Self::Chart
                | Self::Footprint
                | Self::Swing
                | Self::CraneBody
                | Self::Ground
                | Self::LinePull
        )
    }

    /// Its name on screen and paper.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Weight => "Weight and centre of gravity",
            Self::Ticket => "Ticket against take-off",
            Self::ChartUse => "Use of the chart",
            Self::Reach => "Reach",
            Self::Headroom => "Head height",
            Self::BoomGap => "Boom to box",
            Self::Chart => "Rating chart",
            Self::LevelAlong => "Tilt along the box",
            Self::LevelAcross => "Roll across the box",
            Self::Stability => "Stability of the hang",
            Self::Gear => "Load on a piece",
            Self::Pick => "Pull at a pick",
            Self::Eave => "Push on the eave",
            Self::LegAngle => "Leg angle from the horizontal",
            Self::BoxBeam => "Box as a beam",
            Self::BoxSag => "Sag of the box",
            Self::Racking => "Racking of the box",
            Self::RoofRaise => "Roof raise",
            Self::Truck => "Gear on the truck",
            Self::PowerLine => "Power line",
            Self::Footprint => "Crane footprint",
            Self::Order => "Order of lifts",
            Self::Swing => "Swing",
            Self::CraneBody => "Load to crane",
            Self::Ground => "Ground",
            Self::CraneLevel => "Crane level",
            Self::Wind => "Wind",
            Self::LinePull => "Line pull",
            Self::TrialLift => "Trial lift",
            Self::Critical => "Critical lift",
            Self::Scope => "Outside this program",
            Self::Further => "Checks to come",
        }
    }
}

/// The answer of one check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Which check.
    pub check: Check,
    /// What of: "at the pick", "short top leg, kitchen end".
    pub subject: String,
    /// What is asked for.
    pub demand: Option<Amount>,
    /// What is allowed or available.
    pub limit: Option<Amount>,
    /// Demand over limit, where that has a meaning.
    pub ratio: Option<f64>,
    /// How it came out.
    pub outcome: Outcome,
    /// What the reader must be told even when it is within.
    pub cautions: Vec<String>,
    /// How the figures came about; shared, because a finding is copied at each step while the crane is dragged.
    pub working: Rc<Vec<Working>>,
}

impl Finding {
    /// A finding whose demand may not exceed its limit; equal is within.
    ///
    /// Equality is taken with a relative tolerance of 1e-12, so that a figure which is equal on paper is equal here.
    pub fn at_most(check: Check, subject: impl Into<String>, demand: Amount, limit: Amount) -> Self {
        let ratio = demand.si() / limit.si();
        let outcome = if exceeds(demand.si(), limit.si()) {
            Outcome::Outside
        } else {
            Outcome::Within
        };
        Self::of(check, subject, outcome).with(Some(demand), Some(limit), ratio.is_finite().then_some(ratio))
    }

    /// A finding whose available amount must reach what is needed.
    pub fn at_least(check: Check, subject: impl Into<String>, needed: Amount, available: Amount) -> Self {
        Self::at_most(check, subject, needed, available)
    }

    /// A check that lacks a number.
    pub fn not_checked(check: Check, subject: impl Into<String>, missing: impl Into<String>) -> Self {
        Self::of(
            check,
            subject,
            Outcome::NotChecked {
                missing: missing.into(),
            },
        )
    }

    /// A check whose outcome is known without a comparison.
    pub fn of(check: Check, subject: impl Into<String>, outcome: Outcome) -> Self {
        Self {
            check,
            subject: subject.into(),
            demand: None,
            limit: None,
            ratio: None,
            outcome,
            cautions: Vec::new(),
            working: Rc::default(),
        }
    }

    fn with(mut self, demand: Option<Amount>, limit: Option<Amount>, ratio: Option<f64>) -> Self {
        (self.demand, self.limit, self.ratio) = (demand, limit, ratio);
        self
    }

    /// Adds how it was computed.
    #[must_use]
    pub fn working(mut self, working: impl IntoIterator<Item = Working>) -> Self {
        Rc::make_mut(&mut self.working).extend(working);
        self
    }

    /// Adds a caution.
    #[must_use]
    pub fn caution(mut self, text: impl Into<String>) -> Self {
        self.cautions.push(text.into());
        self
    }

    /// Demand, limit and the share of the limit as they are shown: in the same unit, the demand rounded up, what is allowed or there rounded down.
    pub fn compared(&self, units: UnitSystem) -> Option<[String; 3]> {
        let (demand, limit) = (self.demand?, self.limit?);
        let equal = self.outcome.is_within() && self.ratio.is_some_and(|ratio| EQUAL.contains(&ratio));
        let (up, down) = if equal {
            (Safe::Nearest, Safe::Nearest)
        } else {
            (Safe::Up, Safe::Down)
        };
        let share = |ratio| Amount::Share(Ratio::of(ratio)).show(units, Safe::Up);
        let share = self.ratio.map_or_else(String::new, share);
        Some([demand.show(units, up), limit.show(units, down), share])
    }

    /// What it says in one line.
    pub fn sentence(&self) -> String {
        format!("{}, {}: {}", self.check.title(), self.subject, self.outcome.words())
    }
}

/// Equal on paper: rounded to safe sides, such a demand would read as above a limit that it does not pass.
const EQUAL: core::ops::RangeInclusive<f64> = 0.999..=1.0 + 1e-9;

/// The gravest outcome of several, of equal ones the first; nothing checked is not within.
pub fn gravest<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Outcome {
    findings
        .into_iter()
        .map(|finding| &finding.outcome)
        .reduce(|gravest, other| {
            if other.gravity() > gravest.gravity() {
                other
            } else {
                gravest
            }
        })
        .cloned()
        .unwrap_or_else(|| Outcome::NotChecked {
            missing: "nothing was checked".into(),
        })
}

/// A message that belongs to a place of the plan: what was read, what was expected, how to mend it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Message {
    /// The thing it belongs to: a box, a lift, a chart.
    pub about: Id,
    /// Where in it.
    pub place: String,
    /// What was read, what was expected, how to mend it.
    pub text: String,
    /// Nothing that depends on it reads as within.
    pub blocks: bool,
}
