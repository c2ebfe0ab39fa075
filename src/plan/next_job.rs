//! The next job from the last one: what a crew brings again, without what belongs to the last house.

use super::{Hire, Plan, Project, Quick, SetDay, SetUp};

/// What the next job still needs, in words.
pub const LEFT_BLANK: &str = "Left blank: the project's name, place, set day and notes, the site, where the crane stands, boxes, sling set-ups, lifts";

/// A new plan with the gear, the assemblies that a factory builds again, the cranes with their charts, minutes and rates, the limits, the units and the people of the last one. The mark of invented
/// data goes with them. Sling set-ups stay behind: their links were counted for the last house's boxes.
pub fn next_job(last: &Plan) -> Plan {
    let Project {
        prepared_by,
        owner,
        units,
        decimal,
        invented,
        ..
    } = last.project.clone();
    Plan {
        project: Project {
            prepared_by,
            owner,
            units,
            decimal,
            invented,
            ..Project::default()
        },
        limits: last.limits.clone(),
        assemblies: last.assemblies.clone(),
        gear: last.gear.clone(),
        cranes: last.cranes.clone(),
        set_up: SetUp {
            crane: last.set_up.crane.clone(),
            chart: last.set_up.chart.clone(),
            ..SetUp::default()
        },
        day: SetDay {
            minutes: last.day.minutes.clone(),
            ..SetDay::default()
        }
        .into(),
        hire: Hire {
            currency: last.hire.currency.clone(),
            tax: last.hire.tax.clone(),
            rates: last.hire.rates.clone(),
            quick: Quick {
                per_area: last.hire.quick.per_area.clone(),
                ..Quick::default()
            },
            ..Hire::default()
        }
        .into(),
        ..Plan::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample;

    #[test]
    fn the_gear_comes_along_and_the_house_stays() {
        let last = sample::plan();
        let next = next_job(&last);
        assert_eq!(
            (next.gear.len(), next.cranes.len()),
            (last.gear.len(), last.cranes.len())
        );
        assert!(!next.gear.is_empty() && next.cranes.iter().any(|crane| !crane.charts.is_empty()));
        assert_eq!(next.limits, last.limits);
        assert_eq!(
            (&next.hire.rates, &next.day.minutes),
            (&last.hire.rates, &last.day.minutes)
        );
        assert_eq!(next.hire.quick.per_area, last.hire.quick.per_area);
        assert!(next.hire.offers.is_empty() && next.day.start.is_empty());
        assert_eq!(next.set_up.crane.as_str(), "S90");
        assert_eq!(next.set_up.at.metres(), None, "where it stands is the next site's");
        assert!(next.boxes.is_empty() && next.lifts.is_empty() && next.rigs.is_empty());
        assert_eq!(next.site, Plan::default().site);
        assert_eq!(next.project.name, "");
        assert!(next.project.invented, "its charts are as invented as they were");
    }
}
