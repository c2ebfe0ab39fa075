//! Sheets of the invented scenario.

use super::*;
use crate::check::Outcome;
use crate::evaluate::evaluate;
use crate::plan::sample;
use crate::quantity::{Entry, Unit};

fn rows(sheet: &Sheet, heading: &str) -> Vec<Vec<String>> {
    let section = sheet.sections.iter().find(|s| s.heading == heading).unwrap();
    match &section.content {
        Content::Rows(rows) => rows.iter().map(|(a, b)| vec![a.clone(), b.clone()]).collect(),
        Content::Table { rows, .. } => rows.clone(),
        Content::Lines(lines) | Content::Blanks(lines) => lines.iter().map(|l| vec![l.clone()]).collect(),
        Content::Drawing(_) => Vec::new(),
    }
}

#[track_caller]
fn value(sheet: &Sheet, heading: &str, label: &str) -> Vec<String> {
    let row = rows(sheet, heading).into_iter().find(|r| r[0].contains(label));
    row.unwrap_or_else(|| panic!("no {label} under {heading}"))[1..].to_vec()
}

fn every_sheet(plan: &Plan, assessment: &Assessment) -> Vec<Sheet> {
    (0..plan.lifts.len())
        .flat_map(|i| [lift_sheet(plan, assessment, i), rigging_card(plan, assessment, i)])
        .flatten()
        .collect()
}

/// Derived by hand from the scenario's entries for lift 5.
///
/// Radius: hook at (−4.2, −14.6), crane at (8, −6.5): √(12.2² + 8.1²) = 14.6441 m = 48.0449 ft, printed up. Rating: 17.1 t at the 15 m
/// row = 37,699.05 lb, printed down. Head needed at the pick: floor 1.15 + carry 1.0 + hook + block 1.2 + two-block 2.0 m.
#[test]
fn the_sheet_of_lift_five() {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    let sheet = lift_sheet(&plan, &assessment, 4).unwrap();
    assert_eq!(sheet.title, "Lift 5 of 8, box B1");
    let rating = |label| value(&sheet, "Radius and rating", label);
    assert_eq!(rating("Radius on the plan")[0], "48.05 ft");
    assert_eq!(rating("Rating")[0], "37,699 lb");
    assert_eq!(rating("USE OF")[0], "84.4 %");
    assert_eq!(rating("Governs")[0], "at the pick");
    assert_eq!(sheet.footer.page, (5, 8));
    let watermark = sheet.footer.watermark.as_deref();
    assert_eq!(watermark, Some("INVENTED SAMPLE, never use it for a lift"));
    assert!(sheet.text().contains("INVENTED SAMPLE, not a real crane"));
    assert!(sheet.text().contains("line voltage not confirmed"));
    let known = &value(&sheet, "Hook load", "Load as known")[0];
    assert!(known.starts_with("26,180 lb; scale ticket of 2027-05-04"), "{known}");
    assert_eq!(value(&sheet, "Hook load", "Contingency"), ["3.0 %"]);
}

/// By hand: nominal 30,000 × 1.05 = 31,500, against a printed gross of 30,900 (the load at 27,000 with 900 more) and of 32,700 (2,700 more).
#[test]
fn the_trial_lift_stops_at_the_smaller_figure() {
    approx::assert_abs_diff_eq!(trial_stop_kg(30_900.0, 27_900.0, 27_000.0), 30_900.0);
    approx::assert_abs_diff_eq!(trial_stop_kg(32_700.0, 29_700.0, 27_000.0), 31_500.0, epsilon = 1e-9);
}

#[test]
fn a_sheet_claims_no_more_than_the_limits_entered() {
    let plan = sample::plan();
    for sheet in every_sheet(&plan, &evaluate(&plan)) {
        let text = sheet.text().to_lowercase();
        for word in ["safe", "approved", "ok to", "✓"] {
            assert!(!text.contains(word), "{}: {word}", sheet.title);
        }
        // "certified" stands only where it speaks of people
        assert!(
            !text
                .replace("certified where the law wants it", "")
                .contains("certified")
        );
        assert!(sheet.caution.contains("not a permit"));
        assert!(text.contains("anyone may stop the lift"));
        assert!(sheet.footer.watermark.is_some());
    }
}

#[test]
fn tables_are_as_wide_as_their_heads() {
    let plan = sample::plan();
    for section in every_sheet(&plan, &evaluate(&plan))
        .into_iter()
        .flat_map(|s| s.sections)
    {
        if let Content::Table { head, rows } = section.content {
            assert!(rows.iter().all(|r| r.len() == head.len()), "{}", section.heading);
        }
    }
}

#[test]
fn a_card_is_for_boxes_on_slings() {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    let cards: Vec<bool> = (0..8).map(|i| rigging_card(&plan, &assessment, i).is_some()).collect();
    assert_eq!(cards, [true, true, true, true, true, false, false, false]);
    assert!(lift_sheet(&plan, &assessment, 8).is_none());
    let card = rigging_card(&plan, &assessment, 1).unwrap();
    assert!(card.text().contains("Heavy end: kitchen end"));
}

/// An unknown weight stays unknown on paper, and the first line says that the lift cannot be checked.
#[test]
fn unknown_is_printed_as_unknown() {
    let mut plan = sample::plan();
    for crane in &mut plan.cranes {
        crane.block_mass = Entry::blank(Unit::Kg);
    }
    let assessment = evaluate(&plan);
    let sheet = lift_sheet(&plan, &assessment, 4).unwrap();
    assert!(matches!(assessment.lifts[4].outcome, Outcome::NotChecked { .. }));
    let first = &rows(&sheet, "Outcome")[0][0];
    assert!(first.contains("cannot be checked: weight of the hook block"), "{first}");
    assert_eq!(value(&sheet, "Hook load", "GROSS LOAD"), ["not known"]);
    assert_eq!(value(&sheet, "Trial lift", "STOP"), ["not known"]);
    assert_eq!(value(&sheet, "Radius and rating", "USE OF"), ["not known", "not known"]);
}

#[test]
fn metric_sheets_are_metric() {
    let mut plan = sample::plan();
    plan.project.units = UnitSystem::Metric;
    let sheet = lift_sheet(&plan, &evaluate(&plan), 4).unwrap();
    assert_eq!(value(&sheet, "Radius and rating", "Radius on the plan")[0], "14.65 m");
    assert_eq!(value(&sheet, "Radius and rating", "Rating")[0], "17.10 t");
    assert!(value(&sheet, "Trial lift", "Lift")[0].starts_with("150 mm"));
}
