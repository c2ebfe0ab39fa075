//! The checks of a crane with one boom at one end of a lift.

use super::boom::{Block, Boom, Slewed};
use super::exceeds;
use super::ratings::{Cell, Column};

/// How a check came out, from the mildest to the gravest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Within its limit.
    Within,
    /// A number is missing.
    Unknown,
    /// Outside its limit.
    Outside,
}

impl Grade {
    fn of(demand: f64, limit: f64) -> Self {
        if exceeds(demand, limit) {
            Self::Outside
        } else {
            Self::Within
        }
    }
}

/// A crane with one boom of one chart; each part may be unknown.
#[derive(Clone, Debug)]
pub struct Boomed {
    /// The boom.
    pub boom: Option<Boom>,
    /// The chart at that boom length; blank where the length is off the chart.
    pub column: Option<Column>,
    /// There is a chart at all.
    pub has_chart: bool,
}

/// What the user demands; each may be unknown.
#[derive(Clone, Copy, Debug)]
pub struct Demands {
    /// Added to every radius, m.
    pub radius_allowance_m: Option<f64>,
    /// Largest use of the chart, a share.
    pub chart_use: Option<f64>,
    /// Smallest gap under the boom, m.
    pub boom_gap_m: Option<f64>,
}

/// What the hook carries.
#[derive(Clone, Copy, Debug)]
pub enum Gross {
    /// A number is missing.
    Unknown,
    /// So much, kg.
    Kg(f64),
    /// So much and the hoist rope below the head.
    WithRope {
        /// Without the rope, kg.
        kg: f64,
        /// All parts of the rope, kg/m.
        rope_kg_per_m: f64,
        /// Hook above grade when the load is down, m.
        hook_m: f64,
    },
}

impl Gross {
    fn kg(self, head_m: Option<f64>) -> Option<f64> {
        match self {
            Self::Unknown => None,
            Self::Kg(kg) => Some(kg),
            Self::WithRope {
                kg,
                rope_kg_per_m,
                hook_m,
            } => Some(kg + rope_kg_per_m * (head_m? - hook_m).max(0.0)),
        }
    }
}

/// One end of a lift, wherever the crane stands.
#[derive(Clone, Debug)]
pub struct End {
    /// Hook, east and north, m.
    pub hook_m: [f64; 2],
    /// The load as it is carried.
    pub load: Block,
    /// Boom head needed above grade, m.
    pub head_needed_m: Option<f64>,
    /// What the hook carries.
    pub gross: Gross,
}

/// What the checks of one end say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// Whether the boom reaches out to the hook.
    pub reach: Grade,
    /// Boom head above the headroom stack.
    pub head: Grade,
    /// Boom above the load and what is set.
    pub gap: Grade,
    /// Use of the chart.
    pub chart: Grade,
    /// That use; infinite where there is none.
    pub use_of_chart: f64,
}

impl Answer {
    /// The gravest of all but the chart.
    pub fn fit(&self) -> Grade {
        self.reach.max(self.head).max(self.gap)
    }
}

/// The first check that is not within, in the order in which they are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stop {
    /// No rating, or the use of the chart above its limit.
    Chart,
    /// The boom does not reach out to the hook.
    Reach,
    /// Boom head below the headroom stack.
    Head,
    /// Boom too near the load or what is set.
    Gap,
}

impl Boomed {
    /// What stops one end, or the use of the chart where nothing does; the same checks as [`check`](Self::check), none after the first that is
    /// not within.
    pub fn stop(&self, turn: Slewed, end: &End, standing: &[Block], demands: &Demands) -> Result<f64, Stop> {
        let radius_m = turn.radius_m + demands.radius_allowance_m.unwrap_or(0.0);
        let head_m = self.boom.and_then(|boom| boom.head_height_m(radius_m));
        let (chart, use_of_chart) = self.chart(radius_m, end.gross.kg(head_m), demands);
        let within = |grade: Grade, stop: Stop| if grade == Grade::Within { Ok(()) } else { Err(stop) };
        within(chart, Stop::Chart)?;
        within(self.reach(head_m, demands), Stop::Reach)?;
        within(head_grade(head_m, end), Stop::Head)?;
        within(self.gap(turn, head_m, end, standing, demands), Stop::Gap)?;
        Ok(use_of_chart)
    }

    /// Checks one end with the slew centre at a point; `standing` are the boxes that are set.
    pub fn check(&self, at_m: [f64; 2], end: &End, standing: &[Block], demands: &Demands) -> Answer {
        let turn = Slewed::new(at_m, end.hook_m);
        let radius_m = turn.radius_m + demands.radius_allowance_m.unwrap_or(0.0);
        let head_m = self.boom.and_then(|boom| boom.head_height_m(radius_m));
        let (chart, use_of_chart) = self.chart(radius_m, end.gross.kg(head_m), demands);
        Answer {
            reach: self.reach(head_m, demands),
            head: head_grade(head_m, end),
            gap: self.gap(turn, head_m, end, standing, demands),
            chart,
            use_of_chart,
        }
    }

    fn reach(&self, head_m: Option<f64>, demands: &Demands) -> Grade {
        match (self.boom, head_m, demands.radius_allowance_m) {
            (Some(_), None, _) => Grade::Outside,
            (Some(_), Some(_), Some(_)) => Grade::Within,
            _ => Grade::Unknown,
        }
    }

    /// Use of the chart, and how it stands to the limit.
    pub fn chart(&self, radius_m: f64, gross_kg: Option<f64>, demands: &Demands) -> (Grade, f64) {
        let cell = match &self.column {
            Some(column) => column.at(radius_m),
            None if self.has_chart => Cell::NotAllowed,
            None => return (Grade::Unknown, f64::INFINITY),
        };
        match (cell, gross_kg, demands.chart_use) {
            (Cell::NotAllowed, ..) => (Grade::Outside, f64::INFINITY),
            (Cell::CapacityKg(kg), Some(gross_kg), Some(limit)) => {
                let used = gross_kg / kg;
                (Grade::of(used, limit), used)
            }
            _ => (Grade::Unknown, f64::INFINITY),
        }
    }

    fn gap(&self, turn: Slewed, head_m: Option<f64>, end: &End, standing: &[Block], demands: &Demands) -> Grade {
        let (Some(boom), Some(_)) = (self.boom, head_m) else {
            return Grade::Within;
        };
        // the axis of the boom is drawn to the radius without its allowance
        let Some(head_m) = boom.head_height_m(turn.radius_m) else {
            return Grade::Within;
        };
        let mut near = core::iter::once(&end.load).chain(standing);
        match demands.boom_gap_m {
            Some(gap_m) if near.all(|block| block.is_clear(&boom, turn, head_m, gap_m)) => Grade::Within,
            Some(_) => Grade::Outside,
            None if near.all(|block| block.outline_m.is_empty()) => Grade::Within,
            None => Grade::Unknown,
        }
    }
}

fn head_grade(head_m: Option<f64>, end: &End) -> Grade {
    match (head_m, end.head_needed_m) {
        // no reach is told as such
        (None, _) => Grade::Within,
        (Some(_), None) => Grade::Unknown,
        (Some(head_m), Some(needed_m)) => Grade::of(needed_m, head_m),
    }
}
