//! The weight to plan with.

use crate::plan::{Ticket, WeighedWhen};

/// How a weight is known; it sets only the default of the contingency.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WeightGrade {
    /// Weighed complete.
    WeighedAfterLoading,
    /// Weighed early or axle by axle.
    WeighedEarly,
    /// From the take-off only.
    TakeOff,
}

/// The weight that stands for a box before its contingency.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Planned {
    /// Mass, kg.
    pub mass_kg: f64,
    /// How it is known.
    pub grade: WeightGrade,
    /// Ticket less take-off, kg, where the ticket is the larger: its place in the box is unknown.
    pub unplaced_kg: f64,
}

/// The weight to plan with: the larger of ticket and take-off.
///
/// A lower ticket replaces the take-off only if it is dated after the last item was added (both dates as year-month-day).
/// `None` when neither is known.
///
/// Source: planning rule of this tool, stated in docs/method.md.
pub fn planned_weight(takeoff_kg: Option<f64>, ticket: Option<&Ticket>, last_item_added: &str) -> Option<Planned> {
    let ticket = ticket.and_then(|t| Some((t.mass.get()?.to_kg(), t)));
    match (takeoff_kg, ticket) {
        (None, None) => None,
        (Some(mass_kg), None) => Some(Planned {
            mass_kg,
            grade: WeightGrade::TakeOff,
            unplaced_kg: 0.0,
        }),
        (None, Some((mass_kg, ticket))) => Some(Planned {
            mass_kg,
            grade: grade(ticket),
            unplaced_kg: 0.0,
        }),
        (Some(takeoff_kg), Some((mass_kg, ticket))) => {
            let later = !last_item_added.trim().is_empty() && ticket.date.trim() > last_item_added.trim();
            if mass_kg >= takeoff_kg || later {
                let unplaced_kg = (mass_kg - takeoff_kg).max(0.0);
                Some(Planned {
                    mass_kg,
                    grade: grade(ticket),
                    unplaced_kg,
                })
            } else {
                Some(Planned {
                    mass_kg: takeoff_kg,
                    grade: WeightGrade::TakeOff,
                    unplaced_kg: 0.0,
                })
            }
        }
    }
}

fn grade(ticket: &Ticket) -> WeightGrade {
    match ticket.weighed {
        WeighedWhen::AfterLoading => WeightGrade::WeighedAfterLoading,
        WeighedWhen::BeforeLoading => WeightGrade::WeighedEarly,
    }
}
