//! Sheets of the invented scenario.

use super::*;
use crate::check::Outcome;
use crate::evaluate::evaluate;
use crate::plan::sample;
use crate::quantity::{Entry, Unit};

fn rows(sheet: &Sheet, heading: &str) -> Vec<Vec<String>> {
    let under = sheet.sections.iter().filter(|s| s.heading == heading);
    let rows = |section: &Section| match &section.content {
        Content::Rows(rows) => rows.iter().map(|(a, b)| vec![a.clone(), b.clone()]).collect(),
        Content::Table { rows, .. } => rows.clone(),
        _ => Vec::new(),
    };
    under.flat_map(rows).collect()
}

#[track_caller]
fn value(sheet: &Sheet, heading: &str, label: &str) -> Vec<String> {
    let row = rows(sheet, heading).into_iter().find(|r| r[0].contains(label));
    row.unwrap_or_else(|| panic!("no {label} under {heading}"))[1..].to_vec()
}

fn every_sheet(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    (0..plan.lifts.len())
        .flat_map(|i| {
            [
                lift_sheet(plan, assessment, i, format),
                rigging_card(plan, assessment, i, format),
            ]
        })
        .chain([
            site_sheet(plan, assessment, format),
            rigging_list(plan, assessment, format),
        ])
        .flatten()
        .collect()
}

/// The only page of a lift's sheet on Letter.
#[track_caller]
fn the_sheet(plan: &Plan, assessment: &Assessment, index: usize) -> Sheet {
    let mut pages = lift_sheet(plan, assessment, index, Format::Letter);
    assert_eq!(pages.len(), 1);
    pages.remove(0)
}

fn key_figure<'a>(sheet: &'a Sheet, label: &str) -> &'a KeyFigure {
    let figures = sheet.sections.iter().find_map(|s| match &s.content {
        Content::Figures(figures) => figures.iter().find(|f| f.label == label),
        _ => None,
    });
    figures.unwrap()
}

/// The plan as it is given, and as it goes wrong in the yard.
fn plans() -> Vec<(&'static str, Plan)> {
    let mut back = sample::plan();
    back.set_up.at.north = Entry::typed("-6.8 m", Unit::M);
    let mut old_legs = sample::plan();
    for rig in &mut old_legs.rigs {
        if let crate::plan::Arrangement::BarAndCrossBars { bridles, .. } = &mut rig.arrangement {
            for leg in bridles.iter_mut().flatten() {
                (leg.sling, leg.links) = ("G06a".into(), 0);
            }
        }
    }
    let mut small_crane = sample::plan();
    (small_crane.set_up.crane, small_crane.set_up.chart.0) = ("S60".into(), "S60-full".into());
    vec![
        ("as given", sample::plan()),
        ("0.3 m back", back),
        ("9 ft legs", old_legs),
        ("small crane", small_crane),
    ]
}

/// Derived by hand from the scenario's entries for lift 5.
///
/// Radius: hook at (−4.2, −14.6), crane at (8, −6.5): √(12.2² + 8.1²) = 14.6441 m = 48.0449 ft, printed up. Rating: 17.1 t at the 15 m
/// row = 37,699.05 lb, printed down. Head needed at the pick: floor 1.15 + carry 1.0 + hook + block 1.2 + two-block 2.0 m.
#[test]
fn the_sheet_of_lift_five() {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    let sheet = the_sheet(&plan, &assessment, 4);
    assert_eq!(sheet.title, "Lift 5 of 8, box B1");
    let rating = |label| value(&sheet, "Radius and rating", label);
    assert_eq!(rating("Radius")[0], "48.05 ft");
    assert_eq!(rating("Rating")[0], "37,699 lb");
    assert_eq!(rating("USE")[0], "84.4 %");
    assert_eq!(rating("0.3 m more")[0], "84.4 %");
    let figure = |label| key_figure(&sheet, label);
    assert_eq!(
        (figure("RADIUS").value.as_str(), figure("RADIUS").below.as_str()),
        ("48.05 ft", "at the pick")
    );
    assert_eq!(figure("GROSS LOAD").value, "31,817 lb");
    // the printed gross is less than nominal × 1.05: the stop is the same figure
    assert_eq!(figure("STOP ABOVE").value, "31,817 lb");
    assert_eq!(sheet.footer.page, (5, 8));
    let watermark = sheet.footer.watermark.as_deref();
    assert_eq!(watermark, Some("INVENTED SAMPLE, never use it for a lift"));
    assert!(sheet.text().contains("INVENTED SAMPLE, not a real crane"));
    assert!(sheet.text().contains("line voltage not confirmed"));
    assert_eq!(
        value(&sheet, "Hook load", "Load as known, 26,180 lb + 3.0 %"),
        ["26,966 lb"]
    );
    let source = &value(&sheet, "", "Weight from")[0];
    assert!(source.starts_with("scale ticket of 2027-05-04"), "{source}");
}

/// Nothing is cut to fit: the sheets of the day are a page each, also where lifts go outside.
#[test]
fn every_lift_is_one_page_and_every_card() {
    for (name, mut plan) in plans() {
        for units in [UnitSystem::Us, UnitSystem::Metric] {
            plan.project.units = units;
            let assessment = evaluate(&plan);
            for format in Format::ALL {
                for index in 0..plan.lifts.len() {
                    let pages = lift_sheet(&plan, &assessment, index, format);
                    assert_eq!(pages.len(), 1, "{name}, {units:?}, {format:?}, lift {}", index + 1);
                    // a card that has overloaded pieces to name may go on
                    let most = if name == "9 ft legs" { 2 } else { 1 };
                    let cards = rigging_card(&plan, &assessment, index, format).len();
                    assert!(
                        cards <= most,
                        "{name}, {units:?}, {format:?}, card of lift {}: {cards}",
                        index + 1
                    );
                }
            }
        }
    }
}

/// Whatever is not within the limits entered stands on paper: its check, its subject and why.
#[test]
fn nothing_that_is_not_within_is_left_out() {
    for (name, plan) in plans() {
        let assessment = evaluate(&plan);
        for (index, lift) in assessment.lifts.iter().enumerate() {
            let pages = lift_sheet(&plan, &assessment, index, Format::Letter);
            let text: String = pages.iter().map(Sheet::text).collect();
            let card = rigging_card(&plan, &assessment, index, Format::Letter);
            let card = card.iter().map(Sheet::text).collect::<String>();
            for finding in &lift.findings {
                if !finding.outcome.is_within() {
                    let row = [finding.check.title(), &finding.subject];
                    // a lift sheet names the worst of many pieces, the rigging card each
                    let on_card = |part: &str| card.contains(part) && crate::evaluate::is_on_the_path(finding.check);
                    let told = |part: &&str| text.contains(*part) || on_card(part);
                    assert!(row.iter().all(told), "{name}: {row:?}");
                }
                if let Outcome::NotChecked { missing: why } | Outcome::Held { until: why } = &finding.outcome {
                    assert!(text.contains(why), "{name}: {why}");
                }
                assert!(finding.cautions.iter().all(|caution| text.contains(caution)), "{name}");
                assert!(
                    text.contains(finding.check.title()),
                    "{name}: {}",
                    finding.check.title()
                );
            }
        }
    }
}

/// More than a page holds goes on to pages of the same number, each row on one of them.
#[test]
fn what_does_not_fit_goes_on() {
    let mut plan = sample::plan();
    let line = plan.site.power_lines[0].clone();
    for n in 0..150 {
        let mut another = line.clone();
        another.name = format!("line {n:03}");
        plan.site.power_lines.push(another);
    }
    let assessment = evaluate(&plan);
    for format in Format::ALL {
        let pages = lift_sheet(&plan, &assessment, 4, format);
        assert!(pages.len() > 2, "{}", pages.len());
        let numbers: Vec<String> = pages.iter().map(|p| p.footer.number()).collect();
        assert_eq!(numbers[0], "lift sheet 5 / 8");
        assert!(numbers[1..].iter().all(|n| n == "lift sheet 5 / 8, continued"));
        assert_eq!(pages[1].title, "Lift 5 of 8, box B1, continued");
        let text: String = pages.iter().map(Sheet::text).collect();
        for n in 0..150 {
            // once where the lines are named, once in its check; the sentence on top has one of them more
            let row = format!("line {n:03}: 25 kV");
            assert_eq!(text.matches(&row).count(), 1, "{row}");
            let check = format!("Power line, line {n:03}");
            assert_eq!(text.matches(&check).count(), 1, "{check}");
        }
        for page in &pages {
            assert_eq!(page.caution, CAUTION);
            assert!(page.footer.watermark.is_some());
        }
    }
}

/// By hand, kg: nominal 30,000 × 1.05 = 31,500, against a printed gross of 30,900.4 (the load at 27,000 with 900.4 more) and of 32,700 (2,700 more).
#[test]
fn the_trial_lift_stops_at_the_smaller_figure() {
    let plan = sample::plan();
    let mut lift = evaluate(&plan).lifts[4].clone();
    lift.load.bare_kg = Some(27_000.0);
    let mut stop = |planned: f64, gross: f64| {
        lift.load.planned_kg = Some(planned);
        lift.ends[0].gross = Some(crate::quantity::Mass::kg(gross));
        stop(&lift, UnitSystem::Metric)
    };
    // as it is printed among the figures: rounded up, the stop no less than the gross load
    assert_eq!(stop(27_900.4, 30_900.4), "30.91 t");
    assert_eq!(stop(29_700.0, 32_700.0), "31.50 t");
    // 1.05 × 30,003 = 31,503.15
    assert_eq!(stop(29_700.0, 32_703.0), "31.50 t");
}

#[test]
fn a_sheet_claims_no_more_than_the_limits_entered() {
    let plan = sample::plan();
    for sheet in every_sheet(&plan, &evaluate(&plan), Format::A4) {
        let text = sheet.text().to_lowercase();
        for word in ["safe", "approved", "ok to", "✓"] {
            assert!(!text.contains(word), "{}: {word}", sheet.title);
        }
        // the rigging list is for the truck, not for the lift
        let of_a_lift = sheet.footer.sort != "rigging list";
        // "certified" stands only where it speaks of people
        assert!(
            !text
                .replace("certified where the law wants it", "")
                .contains("certified")
        );
        assert!(sheet.caution.contains("not a permit"));
        assert_eq!(text.contains("anyone may stop the lift"), of_a_lift, "{}", sheet.title);
        assert!(sheet.footer.watermark.is_some());
    }
}

#[test]
fn tables_are_as_wide_as_their_heads() {
    let plan = sample::plan();
    for section in every_sheet(&plan, &evaluate(&plan), Format::A4)
        .into_iter()
        .flat_map(|s| s.sections)
    {
        if let Content::Table { head, shares, rows } = section.content {
            assert!(rows.iter().all(|r| r.len() == head.len()), "{}", section.heading);
            approx::assert_abs_diff_eq!(shares.iter().sum::<f64>(), 1.0, epsilon = 1e-9);
        }
    }
}

#[test]
fn a_card_is_for_boxes_on_slings() {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    let card = |i| rigging_card(&plan, &assessment, i, Format::Letter);
    let cards: Vec<usize> = (0..8).map(|i| card(i).len()).collect();
    assert_eq!(cards, [1, 1, 1, 1, 1, 0, 0, 0]);
    assert!(lift_sheet(&plan, &assessment, 8, Format::Letter).is_empty());
    assert_eq!(key_figure(&card(1)[0], "HEAVY END").value, "kitchen end");
    assert_eq!(card(4)[0].footer.number(), "rigging card 5 / 5");
}

/// An unknown weight stays unknown on paper, and the first line says that the lift cannot be checked.
#[test]
fn unknown_is_printed_as_unknown() {
    let mut plan = sample::plan();
    for crane in &mut plan.cranes {
        crane.block_mass = Entry::blank(Unit::Kg);
    }
    let assessment = evaluate(&plan);
    let sheet = the_sheet(&plan, &assessment, 4);
    assert!(matches!(assessment.lifts[4].outcome, Outcome::NotChecked { .. }));
    let Content::Outcome(_, first) = &sheet.sections[0].content else {
        panic!("the outcome comes first")
    };
    assert!(first.contains("cannot be checked: weight of the hook block"), "{first}");
    assert_eq!(value(&sheet, "Hook load", "GROSS LOAD"), ["not known"]);
    assert_eq!(key_figure(&sheet, "STOP ABOVE").value, "not known");
    assert_eq!(value(&sheet, "Radius and rating", "USE"), ["not known", "not known"]);
}

#[test]
fn metric_sheets_are_metric() {
    let mut plan = sample::plan();
    plan.project.units = UnitSystem::Metric;
    let sheet = the_sheet(&plan, &evaluate(&plan), 4);
    assert_eq!(value(&sheet, "Radius and rating", "Radius")[0], "14.65 m");
    assert_eq!(value(&sheet, "Radius and rating", "Rating")[0], "17.10 t");
    assert!(value(&sheet, "", "Trial lift")[0].starts_with("150 mm"));
}

/// Radii as for the sheet of lift 5 above; ties by hand: from the crane at (8, −6.5) to the corners, which the plan's drawing has too.
#[test]
fn the_site_sheet_is_a_page_to_scale() {
    let mut plan = sample::plan();
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        plan.project.units = units;
        let assessment = evaluate(&plan);
        for format in Format::ALL {
            let pages = site_sheet(&plan, &assessment, format);
            assert_eq!(pages.len(), 1, "{units:?}, {format:?}");
            let sheet = &pages[0];
            assert_eq!(sheet.footer.number(), "site sheet 1 / 1");
            let scene = sheet.sections.iter().find_map(|s| match &s.content {
                Content::Drawing(scene) => Some(scene),
                _ => None,
            });
            assert!(
                scene.unwrap().title.contains(", scale 1 : "),
                "{}",
                scene.unwrap().title
            );
            assert!(scene.unwrap().height_mm > 110.0);
        }
    }
    plan.project.units = UnitSystem::Us;
    let sheet = &site_sheet(&plan, &evaluate(&plan), Format::Letter)[0];
    let lift = &value(sheet, "", "5 box B1");
    assert_eq!(
        (lift[1].as_str(), lift[4].as_str(), lift[5].as_str()),
        ("48.05 ft", "31,817 lb", "84.4 %")
    );
    let text = sheet.text();
    for words in ["33 ft 5 in", "33 ft 10 in", "Measured by", "treat every wire as live"] {
        assert!(text.to_lowercase().contains(&words.to_lowercase()), "{words}");
    }
    assert!(site_sheet(&Plan::default(), &evaluate(&Plan::default()), Format::A4).is_empty());
}

/// Each piece of the truck once, its rating as somebody typed it, and which lifts hang on it.
#[test]
fn the_rigging_list_has_each_piece_once() {
    let mut plan = sample::plan();
    plan.gear[0].rating = Entry::typed("9", Unit::T);
    plan.gear[1].rating = Entry::blank(Unit::Kg);
    plan.gear[2].tag_legible = false;
    let first = plan.rigs[0].pieces[0].gear.clone();
    let missing = plan.gear.iter().position(|item| item.id == first).unwrap();
    let gone = plan.gear.remove(missing);
    let assessment = evaluate(&plan);
    for format in Format::ALL {
        let pages = rigging_list(&plan, &assessment, format);
        let listed: Vec<Vec<String>> = pages
            .iter()
            .flat_map(|p| &p.sections)
            .filter_map(|s| match &s.content {
                Content::Table { rows, .. } => Some(rows.clone()),
                _ => None,
            })
            .flatten()
            .collect();
        let ids: Vec<&str> = listed.iter().map(|row| row[0].as_str()).collect();
        let mut expected: Vec<&str> = plan.gear.iter().map(|item| item.id.as_str()).collect();
        expected.push(gone.id.as_str());
        assert_eq!(ids, expected, "{format:?}");
        for item in &plan.gear {
            let row = listed.iter().find(|row| row[0] == item.id.as_str()).unwrap();
            assert!(
                item.rating.is_blank() || row[2].starts_with(item.rating.text()),
                "{row:?}"
            );
        }
        assert_eq!(listed.last().unwrap()[1], "NOT ON THE TRUCK'S LIST");
        assert!(listed.last().unwrap()[6].ends_with("TOO FEW"));
        assert!(listed.iter().any(|row| row[2] == "9 t") || missing == 0);
        assert!(listed.iter().any(|row| row[3] == "no rating"));
    }
}

/// Any change after the issue stands on every sheet, in its title block and above it.
#[test]
fn a_changed_plan_makes_every_sheet_void() {
    let mut plan = sample::plan();
    crate::plan::issue(&mut plan, "B", "2027-05-06", "J. Example");
    let checksum = plan.issues[0].checksum.clone();
    for sheet in every_sheet(&plan, &evaluate(&plan), Format::Letter) {
        assert_eq!(sheet.void, None);
        let text = sheet.text();
        assert!(
            text.contains("Status: Issued 2027-05-06, reviewed, name entered: J. Example"),
            "{text}"
        );
        assert!(text.contains("revision B 2027-05-06"), "{text}");
        assert_eq!(sheet.footer.checksum, checksum);
    }
    plan.boxes[0].ends[0] = "porch end".into();
    let assessment = evaluate(&plan);
    for format in Format::ALL {
        let sheets = every_sheet(&plan, &assessment, format);
        assert_eq!(sheets.iter().filter(|s| !s.footer.continued).count(), 15);
        for sheet in sheets {
            let text = sheet.text();
            assert!(
                text.contains("VOID: the plan has changed since revision B was issued on 2027-05-06"),
                "{text}"
            );
            assert!(
                text.contains("Status: VOID: changed since issue B of 2027-05-06"),
                "{text}"
            );
            assert_ne!(sheet.footer.checksum, checksum);
        }
        // a longer title block takes no sheet over its page
        assert!((0..8).all(|i| lift_sheet(&plan, &assessment, i, format).len() == 1));
    }
}
