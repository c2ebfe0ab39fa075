//! One crane as a file of its own, with its charts: for the next plan, or for whoever hires it out.

use super::Crane;
use super::format::OpenError;
use crate::json::Json as _;
use serde_json::{Map, Value};

/// The format's name, in every file.
pub const FORMAT: &str = "setday crane";
/// The version that this build reads and writes.
pub const VERSION: u64 = 1;

/// Writes a crane as a file.
pub fn save(crane: &Crane) -> String {
    let mut file = Map::new();
    file.insert("format".into(), FORMAT.into());
    file.insert("version".into(), VERSION.into());
    let caution = "A copy. The maker's book and chart for this serial number as it stands rule.";
    file.insert("caution".into(), caution.into());
    file.insert("crane".into(), crane.write());
    serde_json::to_string_pretty(&Value::Object(file)).expect("a JSON value always becomes text") + "\n"
}

/// Reads a crane's file. Its charts come locked or open as they were saved.
///
/// # Errors
/// Where the text stops making sense, what else it is, a newer version, or which part is not what a crane holds.
pub fn open(text: &str) -> Result<Crane, String> {
    let value: Value = serde_json::from_str(text).map_err(|error| {
        let (line, column) = (error.line(), error.column());
        format!("the file stops making sense at line {line}, column {column}: expected a whole crane file; it may be half-written")
    })?;
    let Value::Object(mut file) = value else {
        return Err(other("no group of fields"));
    };
    match file.get("format").and_then(Value::as_str) {
        Some(FORMAT) => {}
        Some(found) => return Err(other(&format!("\"{found}\""))),
        None => return Err(other("nothing")),
    }
    match file.get("version").and_then(Value::as_u64) {
        Some(found) if found > VERSION => return Err(OpenError::TooNew { found }.to_string()),
        Some(found) if found > 0 => {}
        _ => return Err("the file has no version: expected \"version\": 1".into()),
    }
    let mut crane = Crane::default();
    crane
        .read(file.remove("crane").unwrap_or_default())
        .map_err(|error| format!("a part of the crane could not be read ({error}): mend that part of the file"))?;
    if crane.id.is_empty() {
        return Err("the crane in the file has no short name: expected \"id\": \"S90\" or the like in it".into());
    }
    Ok(crane)
}

fn other(found: &str) -> String {
    format!(
        "the file says it is {found}: expected \"format\": \"{FORMAT}\"; choose a crane file that was saved by Setday"
    )
}

/// Puts a crane into a list: in place of the one with its short name, or at the end. Whether one was replaced.
pub fn put(cranes: &mut Vec<Crane>, crane: Crane) -> bool {
    match cranes.iter_mut().find(|known| known.id == crane.id) {
        Some(known) => {
            *known = crane;
            true
        }
        None => {
            cranes.push(crane);
            false
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample;

    /// The invented samples in load-charts-sample/ are the scenario's cranes as they are saved. `SETDAY_WRITE_SAMPLE=1` writes them anew.
    #[test]
    fn the_sample_files_are_the_scenario_s_cranes() {
        for (name, kept) in [
            ("S60", include_str!("../../load-charts-sample/invented_60t.crane.json")),
            ("S90", include_str!("../../load-charts-sample/invented_90t.crane.json")),
            (
                "S200",
                include_str!("../../load-charts-sample/invented_200t.crane.json"),
            ),
        ] {
            let plan = sample::plan();
            let crane = plan.crane(&name.into()).unwrap();
            if std::env::var_os("SETDAY_WRITE_SAMPLE").is_some() {
                let class = name.trim_start_matches('S');
                let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/load-charts-sample");
                std::fs::write(format!("{folder}/invented_{class}t.crane.json"), save(crane)).unwrap();
                continue;
            }
            assert_eq!(save(crane), kept);
            assert_eq!(&open(kept).unwrap(), crane);
            assert!(crane.name.contains("invented") && !crane.charts.is_empty());
        }
    }

    #[test]
    fn what_is_no_crane_says_why() {
        let says = |text: &str| open(text).unwrap_err();
        assert!(says("{ \"format\": \"setday cr").contains("half-written"));
        assert!(says("{\"format\": \"setday plan\", \"version\": 1}").contains("\"setday plan\""));
        assert!(says("[]").contains("expected \"format\""));
        assert!(says("{\"format\": \"setday crane\", \"version\": 2}").contains("version 2"));
        assert!(says("{\"format\": \"setday crane\"}").contains("no version"));
        assert!(
            says("{\"format\": \"setday crane\", \"version\": 1, \"crane\": {\"parts\": \"six\"}}").contains("parts")
        );
        assert!(says("{\"format\": \"setday crane\", \"version\": 1, \"crane\": {}}").contains("short name"));
    }

    #[test]
    fn a_crane_takes_the_place_of_its_namesake() {
        let mut cranes = sample::plan().cranes.clone();
        let mut crane = cranes[1].clone();
        crane.parts = 8;
        assert!(put(&mut cranes, crane.clone()));
        assert_eq!((cranes.len(), cranes[1].parts), (3, 8));
        crane.id = "S91".into();
        assert!(!put(&mut cranes, crane));
        assert_eq!(cranes.len(), 4);
    }
}
