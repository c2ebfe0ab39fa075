//! Figures and outcomes as the page shows them.

use crate::check::{Amount, Outcome};
use crate::quantity::{Angle, Length, Mass, Ratio, Safe, UnitSystem};
use yew::prelude::*;

/// What stands where there is no figure.
pub const NONE: &str = "—";

/// An amount with its unit, or a dash.
pub fn shown(amount: Option<impl Into<Amount>>, units: UnitSystem, safe: Safe) -> String {
    amount.map_or_else(|| NONE.into(), |amount| amount.into().show(units, safe))
}

/// An amount without its unit, which stands in the column's head, or a dash.
pub fn figure(amount: Option<impl Into<Amount>>, units: UnitSystem, safe: Safe) -> String {
    amount.map_or_else(|| NONE.into(), |amount| amount.into().figure(units, safe))
}

/// The units that columns carry in their heads.
pub fn length_unit(units: UnitSystem) -> &'static str {
    Amount::Length(Length::ZERO).unit(units).symbol()
}

/// The unit of masses.
pub fn mass_unit(units: UnitSystem) -> &'static str {
    Amount::Mass(Mass::kg(0.0)).unit(units).symbol()
}

/// Metres as a length.
pub fn metres(m: f64) -> Amount {
    Amount::Length(Length::m(m))
}

/// Kilograms as a mass.
pub fn kilograms(kg: f64) -> Amount {
    Amount::Mass(Mass::kg(kg))
}

/// Radians as an angle.
pub fn radians(rad: f64) -> Amount {
    Amount::Angle(Angle::rad(rad))
}

/// A share of one.
pub fn share(of_one: f64) -> Amount {
    Amount::Share(Ratio::of(of_one))
}

/// The class that gives an outcome its look.
pub const fn outcome_class(outcome: &Outcome) -> &'static str {
    match outcome {
        Outcome::Within => "within",
        Outcome::Held { .. } => "held",
        Outcome::NotChecked { .. } => "unchecked",
        Outcome::Outside => "outside",
    }
}

/// The one word of an outcome, drawn so that it reads without colour.
pub fn mark(outcome: &Outcome) -> Html {
    html! { <span class={classes!("mark", outcome_class(outcome))}>{ outcome.word() }</span> }
}

/// What is missing or waited for, without the particulars in brackets.
pub fn reason(outcome: &Outcome) -> Option<&str> {
    match outcome {
        Outcome::NotChecked { missing: text } | Outcome::Held { until: text } => {
            Some(text.split_once(" (").map_or(text, |(before, _)| before))
        }
        Outcome::Within | Outcome::Outside => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn particulars_are_left_to_the_lift() {
        let held = Outcome::Held {
            until: "voltage not confirmed (line along the road)".into(),
        };
        assert_eq!(reason(&held), Some("voltage not confirmed"));
        assert_eq!(reason(&Outcome::Outside), None);
    }
}
