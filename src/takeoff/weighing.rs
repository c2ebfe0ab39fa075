//! A box on scales: what its axle groups or load cells showed becomes its weight and where that acts.

use super::{Item, centre_of_gravity};
use crate::plan::WeighPoint;
use crate::quantity::{Entry, Readable};

/// What was weighed point by point.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Weighing {
    /// Gross less tare of each point, kg, in their order.
    pub loads_kg: Vec<f64>,
    /// Weight of the box, kg.
    pub mass_kg: f64,
    /// Where it acts along the box, from its first end, m; `None` where a point's place is not known.
    pub x_m: Option<f64>,
    /// The same across the box.
    pub y_m: Option<f64>,
}

/// Weight and place from the weigh points: `W = ΣRᵢ`, `x = ΣRᵢxᵢ/W`, with `Rᵢ` gross less tare of each.
///
/// It holds however many weigh points share the load and however stiff they are, as long as the ground is level. Of two axle groups it is
/// `x = R_rear·span/W + offset`. A group may be lighter than empty (a steering axle behind a long overhang). Heights do not follow.
/// The error names the point and what it lacks; a blank tare is not zero.
///
/// Source: moments about the first end, e.g. FAA-H-8083-1, weighing.
pub fn weighing(weigh_points: &[WeighPoint]) -> Result<Weighing, String> {
    let loads_kg = weigh_points
        .iter()
        .enumerate()
        .map(|(at, point)| {
            let missing = |what: &str, hint: &str| format!("{}: {what} not entered{hint}", point_words(at, point));
            let gross = known(&point.gross).ok_or_else(|| missing("weight with the box on it", ""))?;
            let tare = known(&point.tare).ok_or_else(|| {
                missing(
                    "weight empty",
                    ": weigh the carrier empty, or enter 0 for a cell under the box itself",
                )
            })?;
            Ok(gross - tare)
        })
        .collect::<Result<Vec<f64>, String>>()?;
    let mass_kg: f64 = loads_kg.iter().sum();
    if mass_kg <= 0.0 {
        return Err(format!(
            "gross less tare comes to {mass_kg:.0} kg: expected the weight of the box; are gross and tare in each other's place?"
        ));
    }
    let along = |place: fn(&WeighPoint) -> &Entry<crate::quantity::Length>| {
        let items: Option<Vec<Item>> = weigh_points
            .iter()
            .zip(&loads_kg)
            .map(|(point, &mass_kg)| {
                let at = place(point).get()?.to_m();
                Some(Item {
                    mass_kg,
                    at_m: [at, 0.0, 0.0],
                })
            })
            .collect();
        Some(centre_of_gravity(&items?)?.at_m[0])
    };
    Ok(Weighing {
        mass_kg,
        x_m: along(|point| &point.x),
        y_m: along(|point| &point.y),
        loads_kg,
    })
}

/// A point as messages call it.
fn point_words(at: usize, point: &WeighPoint) -> String {
    match point.name.trim() {
        "" => format!("axle group {}", at + 1),
        name => format!("axle group {} ({name})", at + 1),
    }
}

fn known<Q: Readable>(entry: &Entry<Q>) -> Option<f64> {
    entry.not_negative().map(|value| value.si())
}
