//! The invented scenario that a first visit opens. It says everywhere that it is invented.

use super::{Plan, format};

/// The scenario's plan file in its shortest form: every first visit loads it.
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
    use serde_json::Value;

    /// The scenario as people save it.
    const SAVED: &str = include_str!("../../tests/plans/v1/halden.json");

    /// Without spaces, and without the numbers that are worked out anew from what was typed.
    fn shortest(saved: &str) -> String {
        fn shorten(value: &mut Value) {
            match value {
                Value::Object(group) => {
                    if group.contains_key("typed") {
                        group.retain(|key, _| matches!(key.as_str(), "typed" | "unit" | "decimal" | "said"));
                    }
                    group.values_mut().for_each(shorten);
                }
                Value::Array(list) => list.iter_mut().for_each(shorten),
                _ => {}
            }
        }
        let mut value: Value = serde_json::from_str(saved).unwrap();
        shorten(&mut value);
        value.to_string()
    }

    #[test]
    fn the_scenario_opens_and_saves_to_the_file_of_which_it_is_the_shortest_form() {
        if std::env::var_os("SETDAY_WRITE_SAMPLE").is_some() {
            let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/plan/sample/halden.json");
            std::fs::write(path, shortest(SAVED)).unwrap();
            return;
        }
        assert_eq!(FILE, shortest(SAVED));
        let opened = format::open(FILE).unwrap();
        assert_eq!(opened.notes, Vec::<String>::new());
        assert_eq!(format::save(&opened.plan), SAVED);
        assert!(opened.plan.project.invented);
    }
}
