//! Whatever stands in a plan: no panic, no NaN, no pass that rests on a number that is not there.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used)]

use proptest::prelude::*;
use serde_json::Value;
use setday::check::Outcome;
use setday::evaluate::evaluate;
use setday::plan::format::{self, OpenError};
use setday::plan::{Plan, sample};

/// The scenario as people save it.
const SAVED: &str = include_str!("plans/v1/halden.json");

/// Every place in the scenario's file where somebody typed a number, as a JSON pointer.
fn typed_places() -> Vec<String> {
    fn walk(value: &Value, path: &str, places: &mut Vec<String>) {
        match value {
            Value::Object(map) => {
                if map.contains_key("typed") {
                    places.push(format!("{path}/typed"));
                }
                for (key, value) in map {
                    walk(value, &format!("{path}/{key}"), places);
                }
            }
            Value::Array(list) => {
                for (index, value) in list.iter().enumerate() {
                    walk(value, &format!("{path}/{index}"), places);
                }
            }
            _ => {}
        }
    }
    let mut places = Vec::new();
    walk(&scenario(), "", &mut places);
    places
}

fn scenario() -> Value {
    serde_json::from_str(SAVED).unwrap()
}

fn opened(file: &Value) -> Plan {
    format::open(&file.to_string()).unwrap().plan
}

const ODD: [&str; 16] = [
    "",
    " ",
    "abc",
    "-1",
    "0",
    "1e400",
    "#NUM!",
    "∞",
    "99999999999999",
    "0.0000000001",
    "12 ton",
    "3 m 4",
    "−5 ft",
    "1.250,5",
    "½",
    "4 lb ft",
];

#[track_caller]
fn no_nonsense(plan: &Plan) {
    let assessment = evaluate(plan);
    let text = format!("{assessment:?}");
    for none in ["NaN", "inf,", "(inf"] {
        if let Some(at) = text.find(none) {
            let around: String = text[..at]
                .chars()
                .rev()
                .take(160)
                .collect::<Vec<_>>()
                .into_iter()
                .rev()
                .collect();
            panic!("a number that is none in the assessment: …{around}{none}");
        }
    }
    for lift in &assessment.lifts {
        if lift.outcome.is_within() {
            assert!(
                lift.use_of_chart.is_some(),
                "lift {} is within without a use of the chart",
                lift.number
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn odd_texts_anywhere(picks in prop::collection::vec((0_usize..100_000, 0_usize..ODD.len()), 1..6)) {
        let places = typed_places();
        let mut file = scenario();
        for (place, odd) in picks {
            *file.pointer_mut(&places[place % places.len()]).unwrap() = Value::from(ODD[odd]);
        }
        no_nonsense(&opened(&file));
    }
}

/// Blanking any one number either leaves a lift's outcome at "cannot be checked" or worse, or the number plays no part in it.
/// It never makes a lift read better than it did.
#[test]
fn a_blank_never_improves_a_lift() {
    let before = evaluate(&sample::plan());
    for place in typed_places() {
        // Blank on purpose: the rule's own default, the ticket, or the computed value stands in, all of them stated in the plan's format page.
        if ["/contingency/", "/boom/", "/hanging_rope/", "/stowed/", "/ticket/"]
            .iter()
            .any(|p| place.contains(p))
        {
            continue;
        }
        let mut file = scenario();
        *file.pointer_mut(&place).unwrap() = Value::from("");
        let plan = opened(&file);
        no_nonsense(&plan);
        for (old, new) in before.lifts.iter().zip(&evaluate(&plan).lifts) {
            assert!(
                new.outcome.gravity() >= old.outcome.gravity(),
                "{place} blank: lift {} reads better than before",
                new.number
            );
        }
    }
}

#[test]
fn an_empty_plan_has_an_answer() {
    let assessment = evaluate(&Plan::default());
    assert!(matches!(assessment.headline.outcome, Outcome::NotChecked { .. }));
    assert!(assessment.headline.text.contains("No lifts yet"));
}

#[test]
fn a_half_written_file_says_where_it_ends() {
    let half = &SAVED[..SAVED.len() / 2];
    let Err(error @ OpenError::Unreadable { line, .. }) = format::open(half) else {
        panic!("half a file must not open")
    };
    assert!(line > 1000);
    assert!(error.to_string().contains("half-written"), "{error}");
}

#[test]
fn a_newer_file_is_refused_with_both_versions() {
    let text = SAVED.replacen("\"version\": 1", "\"version\": 7", 1);
    let error = format::open(&text).unwrap_err();
    assert_eq!(error, OpenError::TooNew { found: 7 });
    assert!(
        error.to_string().contains("version 7") && error.to_string().contains("up to version 1"),
        "{error}"
    );
}

#[test]
fn another_programs_file_is_refused() {
    assert!(matches!(
        format::open("{\"hello\": 1}"),
        Err(OpenError::OtherFormat { .. })
    ));
    assert!(matches!(format::open("[1, 2]"), Err(OpenError::OtherFormat { .. })));
    assert!(matches!(
        format::open("{\"format\":\"setday plan\",\"version\":1,\"plan\":{\"boxes\":3}}"),
        Err(OpenError::Broken { .. })
    ));
}

#[test]
fn what_is_not_understood_is_named() {
    let text = SAVED.replacen("\"prepared_by\"", "\"prepared_bye\"", 1);
    let opened = format::open(&text).unwrap();
    assert_eq!(
        opened.notes,
        ["plan.project.prepared_bye: not understood by this build, left out"]
    );
}

/// Earlier builds wrote what is false and who said nothing in full.
#[test]
fn a_chart_of_an_earlier_build_opens_without_a_notice() {
    let mut file: Value = serde_json::from_str(SAVED).unwrap();
    let chart = &mut file["plan"]["cranes"][0]["charts"][0];
    chart["includes"] = serde_json::json!({ "hook_block": false, "hanging_rope": false, "rigging": false, "stowed_attachments": false });
    chart["said"] = serde_json::json!({});
    chart["radius_unit"] = Value::Null;
    assert_eq!(format::open(&file.to_string()).unwrap().notes, Vec::<String>::new());
}

/// The number beside what was typed is for readers: what was typed counts, and a difference is named.
#[test]
fn a_figure_changed_by_hand_is_named() {
    let mut file = scenario();
    *file.pointer_mut("/plan/boxes/0/length/m").unwrap() = Value::from(99.0);
    let opened = format::open(&file.to_string()).unwrap();
    assert_eq!(opened.notes.len(), 1);
    assert!(
        opened.notes[0].contains("plan.boxes[1].length.m: the file says 99"),
        "{:?}",
        opened.notes
    );
}

#[test]
fn messages_say_row_and_remedy() {
    let mut plan = sample::plan();
    plan.boxes[0].components[2].weight = setday::plan::Weight::default();
    let assessment = evaluate(&plan);
    let message = assessment.messages.iter().find(|m| m.blocks).unwrap();
    assert!(
        message.place.contains("A1-03") && message.text.contains("weight not entered"),
        "{message:?}"
    );
    let lift = assessment.lifts.iter().find(|l| l.number == 2).unwrap();
    assert!(matches!(lift.outcome, Outcome::NotChecked { .. }));
    assert!(assessment.boxes[0].takeoff.total.is_none());
    assert!(assessment.boxes[0].takeoff.known_mass_kg > 0.0);
}

/// Every test that docs/bad-input.md names stands in the file that it names.
#[test]
fn the_page_on_bad_input_names_tests_that_exist() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = std::fs::read_to_string(root.join("docs/bad-input.md")).unwrap();
    let mut named = 0;
    for row in page.lines().filter(|line| line.starts_with('|') && line.contains('`')) {
        let tests = row.trim_end_matches('|').rsplit('|').next().unwrap();
        let words: Vec<&str> = tests.split('`').skip(1).step_by(2).collect();
        let pairs = words.chunks_exact(2);
        assert!(
            pairs.remainder().is_empty() && pairs.len() > 0,
            "a file and a test, again and again: {row}"
        );
        for pair in pairs {
            let (file, test) = (pair[0], pair[1]);
            let text = std::fs::read_to_string(root.join(file)).unwrap_or_else(|error| panic!("{file}: {error}"));
            let declared = if file.ends_with(".rs") {
                format!("fn {test}(")
            } else {
                format!("test(\"{test}\"")
            };
            assert!(text.contains(&declared), "{file} has no test {test}");
            named += 1;
        }
    }
    assert!(named > 50, "{named} tests named");
}
