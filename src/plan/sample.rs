//! The invented scenario that a first visit opens. It says everywhere that it is invented.

use super::{Plan, format};

/// The scenario's plan file.
pub const FILE: &str = include_str!("sample/halden.json");

/// The scenario.
pub fn plan() -> Plan {
    format::open(FILE)
        .expect("the scenario's file is read by a test in every build")
        .plan
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scenario_opens_and_saves_to_the_same_file() {
        let opened = format::open(FILE).unwrap();
        assert_eq!(opened.notes, Vec::<String>::new());
        assert_eq!(format::save(&opened.plan), FILE);
        assert!(opened.plan.project.invented);
    }
}
