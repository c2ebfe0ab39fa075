//! The weight to plan with.

use super::{Day, Weighing, day, weighing};
use crate::plan::{HouseBox, Ticket, WeighedWhen};

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
    /// So much per floor area.
    PerArea,
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

/// A ticket brought up to the day: what was weighed, and what went in since.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// What the ticket says, kg.
    pub ticket_kg: f64,
    /// What is dated after it, kg.
    pub since_kg: f64,
    /// How it is known.
    pub grade: WeightGrade,
    /// Everything went in before it.
    pub complete: bool,
}

impl Weighed {
    /// The ticket with what went in since.
    pub fn mass_kg(&self) -> f64 {
        self.ticket_kg + self.since_kg
    }
}

/// A ticket with what was loaded after it: `(day, kg)` of each dated row of the take-off.
///
/// The ticket's weight is the one typed, else the sum of its axle groups (`by_axles`). It counts as weighed early where it says so, where it is
/// a sum of axle groups, and where anything went in later. `None` without a weight.
///
/// Source: planning rule of this tool, stated in docs/method.md.
pub fn weighed(
    ticket: &Ticket,
    by_axles: Option<&Weighing>,
    last_item: Option<Day>,
    loaded: &[(Day, f64)],
) -> Option<Weighed> {
    let typed_kg = ticket.mass.get().map(|mass| mass.to_kg());
    let axles_kg = by_axles.filter(|_| ticket.mass.is_blank()).map(|w| w.mass_kg);
    let on = day(&ticket.date);
    let since_kg = loaded
        .iter()
        .filter(|(when, _)| on.is_some_and(|on| *when > on))
        .fold(0.0, |sum, (_, kg)| sum + kg);
    let latest = loaded.iter().map(|(when, _)| *when).chain(last_item).max();
    let outdated = on.zip(latest).is_some_and(|(on, latest)| latest > on);
    let early = ticket.weighed == WeighedWhen::BeforeLoading || axles_kg.is_some() || outdated;
    Some(Weighed {
        ticket_kg: typed_kg.or(axles_kg)?,
        since_kg,
        grade: if early {
            WeightGrade::WeighedEarly
        } else {
            WeightGrade::WeighedAfterLoading
        },
        complete: on.zip(latest).is_some_and(|(on, latest)| latest < on),
    })
}

/// The weight to plan with: the larger of ticket and take-off.
///
/// A lower ticket replaces the take-off only if everything in the box is dated before it. The estimate per floor area stands only where there is
/// neither. `None` when none of them is known.
///
/// Source: planning rule of this tool, stated in docs/method.md.
pub fn planned_weight(takeoff_kg: Option<f64>, weighed: Option<&Weighed>, estimate_kg: Option<f64>) -> Option<Planned> {
    let plain = |mass_kg, grade| Planned {
        mass_kg,
        grade,
        unplaced_kg: 0.0,
    };
    match (takeoff_kg, weighed) {
        (None, None) => estimate_kg.map(|kg| plain(kg, WeightGrade::PerArea)),
        (None, Some(weighed)) => Some(plain(weighed.mass_kg(), weighed.grade)),
        (Some(kg), Some(weighed)) if weighed.mass_kg() >= kg || weighed.complete => Some(Planned {
            unplaced_kg: (weighed.mass_kg() - kg).max(0.0),
            ..plain(weighed.mass_kg(), weighed.grade)
        }),
        (Some(kg), _) => Some(plain(kg, WeightGrade::TakeOff)),
    }
}

/// The estimate of a box per floor area, kg and where it is taken to act, m: `W = L·B·w`, in the middle of the box.
///
/// A take-off replaces it; then it only stands beside. `None` where nothing is estimated; an error where
/// something is missing.
///
/// Source: common practice for a first figure; the middle is an assumption and is said so.
pub fn estimate(house: &HouseBox, size_m: Option<[f64; 3]>) -> Option<Result<(f64, [f64; 3]), String>> {
    if house.estimate.is_blank() {
        return None;
    }
    let per_area = house.estimate.get().filter(|w| w.to_kg_per_m2() > 0.0);
    Some(match (per_area, size_m) {
        (Some(per_area), Some(size_m)) => Ok((
            per_area.to_kg_per_m2() * size_m[0] * size_m[1],
            size_m.map(|side| side / 2.0),
        )),
        (Some(_), None) => {
            Err("length, width and height of the box are needed for a weight per floor area: enter them".into())
        }
        (None, _) => Err(format!(
            "read \"{}\", expected a weight per floor area above nothing such as 40 psf or 200 kg/m²: mend it, or blank it",
            house.estimate.text()
        )),
    })
}

/// What the weigh points of a box's ticket say; `None` without any.
pub fn by_axles(ticket: Option<&Ticket>) -> Option<Result<Weighing, String>> {
    let points = &ticket?.weigh_points;
    (!points.is_empty()).then(|| weighing(points))
}
