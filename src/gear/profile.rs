//! Rules of a country to start the limits from: each figure with its source, all of them the user's to change.
//!
//! The rows are data in `profiles.csv`. Applied, they stand in the plan's limits as if typed, with their source beside them.

use crate::plan::{FactorFormat, Limits};
use crate::quantity::{Entry, Readable, Said, Unit};
use crate::takeoff::Standing;

/// One rule of a profile.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Whose: "US", "Alberta".
    pub profile: String,
    /// Which limit it is, by its field's name.
    pub field: String,
    /// What is typed there.
    pub value: String,
    /// Where it stands.
    pub source: String,
    /// How well it is founded.
    pub standing: Standing,
}

/// All rules of all profiles. A row that cannot be read is left out; a test holds that none is.
pub fn rules() -> Vec<Rule> {
    let mut reader = csv::Reader::from_reader(include_str!("profiles.csv").as_bytes());
    let row = |record: csv::StringRecord| {
        let cell = |at: usize| record.get(at).map(str::to_owned);
        Some(Rule {
            profile: cell(0)?,
            field: cell(1)?,
            value: cell(2)?,
            source: cell(3)?,
            standing: Standing::read(record.get(4)?)?,
        })
    };
    reader.records().filter_map(|record| row(record.ok()?)).collect()
}

/// Names of the profiles, in their order.
pub fn profiles() -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for rule in rules() {
        if !names.contains(&rule.profile) {
            names.push(rule.profile);
        }
    }
    names
}

/// Puts a profile into the limits: its rules with their sources. What it says nothing on and only another profile had is blank: not known.
pub fn apply(limits: &mut Limits, profile: &str) {
    limits.profile = profile.to_owned();
    limits.skew_factor = Entry::default();
    limits.consequence_factor = Entry::default();
    limits.breaking_factor = Entry::default();
    limits.design_factor = Entry::default();
    limits.proof_test = Entry::default();
    for rule in rules().iter().filter(|rule| rule.profile == profile) {
        put(limits, rule);
    }
}

fn put(limits: &mut Limits, rule: &Rule) {
    match rule.field.as_str() {
        "format" => {
            limits.format = if rule.value == "marine" {
                FactorFormat::Marine
            } else {
                FactorFormat::Trade
            }
        }
        "dynamic_factor" => set(&mut limits.dynamic_factor, rule, Unit::One),
        "skew_factor" => set(&mut limits.skew_factor, rule, Unit::One),
        "consequence_factor" => set(&mut limits.consequence_factor, rule, Unit::One),
        "gear_use" => set(&mut limits.gear_use, rule, Unit::Percent),
        "legs_counted" => set(&mut limits.legs_counted, rule, Unit::One),
        "leg_angle_stop" => set(&mut limits.leg_angle_stop, rule, Unit::Deg),
        "leg_angle_caution" => set(&mut limits.leg_angle_caution, rule, Unit::Deg),
        "hook_angle" => set(&mut limits.hook_angle, rule, Unit::Deg),
        "design_factor" => set(&mut limits.design_factor, rule, Unit::One),
        "inspection_months" => set(&mut limits.inspection_months, rule, Unit::One),
        "proof_test" => set(&mut limits.proof_test, rule, Unit::Percent),
        _ => {}
    }
}

fn set<Q: Readable>(entry: &mut Entry<Q>, rule: &Rule, unit: Unit) {
    *entry = Entry::typed(rule.value.clone(), unit);
    entry.said = Some(Said {
        who: format!("{} starter: {}", rule.profile, rule.source),
        when: String::new(),
        note: rule.standing.words().to_owned(),
    });
}

/// What loads on gear are held against, in words: one format for all pieces.
pub fn in_words(limits: &Limits) -> String {
    let typed = |text: &str| {
        if text.trim().is_empty() {
            "?".to_owned()
        } else {
            text.trim().to_owned()
        }
    };
    let dynamic = typed(limits.dynamic_factor.text());
    match limits.format {
        FactorFormat::Trade => format!("static × {dynamic}, against the tag's rating"),
        FactorFormat::Marine => format!(
            "static × {dynamic} dynamic × {} skew × {} consequence, against breaking load / {}",
            typed(limits.skew_factor.text()),
            typed(limits.consequence_factor.text()),
            typed(limits.breaking_factor.text())
        ),
    }
}

/// The rules in force as the limits have them: name, figure as typed, source; what was typed over a starter has no source.
pub fn in_force(limits: &Limits) -> Vec<(&'static str, String, String)> {
    fn row<Q: Readable>(name: &'static str, entry: &Entry<Q>) -> (&'static str, String, String) {
        let text = entry.text().trim();
        let text = if text.is_empty() { "not entered" } else { text };
        let source = entry.said.as_ref().map_or_else(String::new, |said| said.who.clone());
        (name, text.to_owned(), source)
    }
    let mut rows = vec![
        row("Dynamic factor", &limits.dynamic_factor),
        row("Use of a piece's rating, at most", &limits.gear_use),
        row("Legs that count of a set of three or four", &limits.legs_counted),
        row("No leg flatter than, from the horizontal", &limits.leg_angle_stop),
        row(
            "Caution for legs flatter than, from the horizontal",
            &limits.leg_angle_caution,
        ),
        row("Legs straight on the hook, included angle at most", &limits.hook_angle),
        row("Breaking load over rating, at least", &limits.design_factor),
        row("Months between inspections", &limits.inspection_months),
        row("Proof test of bars and frames", &limits.proof_test),
    ];
    if limits.format == FactorFormat::Marine {
        rows.insert(1, row("Skew factor", &limits.skew_factor));
        rows.insert(2, row("Consequence factor", &limits.consequence_factor));
        rows.insert(3, row("Breaking load is divided by", &limits.breaking_factor));
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_is_read_and_goes_into_a_limit() {
        assert_eq!(rules().len(), include_str!("profiles.csv").lines().count() - 1);
        assert_eq!(
            profiles(),
            ["US", "Ontario", "BC", "Alberta", "UK and EU", "Offshore practice"]
        );
        for rule in rules() {
            let mut limits = Limits::default();
            let before = limits.clone();
            put(&mut limits, &rule);
            let same = rule.field == "format" && rule.value == "trade";
            assert!(same || limits != before, "{rule:?} goes nowhere");
            assert!(rule.source.len() > 8, "{rule:?}");
        }
    }

    #[test]
    fn a_profile_takes_nothing_over_from_another() {
        let mut limits = Limits::default();
        apply(&mut limits, "Offshore practice");
        assert!(limits.consequence_factor.get().is_some() && limits.format == FactorFormat::Marine);
        apply(&mut limits, "Alberta");
        assert!(limits.consequence_factor.is_blank() && limits.format == FactorFormat::Trade);
        let rows = in_force(&limits);
        let design = rows.iter().find(|row| row.0.starts_with("Breaking load over")).unwrap();
        assert!(design.1 == "5" && design.2.contains("s. 292"), "{design:?}");
    }
}
