//! What goes into a plan before it is exact: unit weights, assemblies, a weight per area, tickets, boxes made from boxes. Figures by hand or from the source named.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::float_cmp)]

use approx::assert_relative_eq;
use setday::check::{Check, Finding, Outcome};
use setday::evaluate::{BoxResult, evaluate};
use setday::plan::{
    Assembly, Component, HouseBox, Layer, LayerWeight, Opening, Place3, Plan, Shape, Ticket, WeighPoint, WeighedWhen,
    Weight, format, mirrored, sample, twin,
};
use setday::quantity::{Entry, Length, Readable, Unit, UnitSystem};
use setday::takeoff::{self, Standing, UnitWeight, WeightGrade, library};

/// Kilograms in a pound, exact. Source: NIST SP 811, B.8.
const LB: f64 = 0.453_592_37;

fn entry<Q: Readable>(text: &str) -> Entry<Q> {
    Entry::typed(text, Q::usual(UnitSystem::Us))
}

fn at(x: &str, y: &str, z: &str) -> Place3 {
    Place3 {
        x: entry(x),
        y: entry(y),
        z: entry(z),
    }
}

fn lump(id: &str, mass: &str, x: &str) -> Component {
    Component {
        id: id.into(),
        name: format!("item {id}"),
        weight: Weight::Lump { mass: entry(mass) },
        shape: Shape::Point {
            at: at(x, "6 ft", "4 ft"),
        },
        ..Component::default()
    }
}

fn plan_of(components: Vec<Component>) -> Plan {
    Plan {
        boxes: vec![HouseBox {
            id: "B1".into(),
            length: entry("52 ft"),
            width: entry("13.5 ft"),
            height: entry("11 ft"),
            components,
            ..HouseBox::default()
        }]
        .into(),
        ..Plan::default()
    }
}

fn box_of(plan: &Plan) -> BoxResult {
    evaluate(plan).boxes.remove(0)
}

fn findings(result: &BoxResult, check: Check) -> Vec<&Finding> {
    result.findings.iter().filter(|f| f.check == check).collect()
}

/// What a held finding waits for; empty for any other.
fn until(finding: &Finding) -> &str {
    match &finding.outcome {
        Outcome::Held { until } => until,
        _ => "",
    }
}

fn unit_weight(name: &str, form: &str) -> UnitWeight {
    let rows = library();
    let found = rows.into_iter().find(|row| row.name == name && row.form.contains(form));
    found.unwrap_or_else(|| panic!("no {name} {form} in the library"))
}

#[test]
fn every_row_of_the_library_is_read_and_has_a_source() {
    let lines = include_str!("../src/takeoff/library.csv").lines().count() - 1;
    let rows = library();
    assert_eq!(rows.len(), lines, "rows that cannot be read");
    for row in &rows {
        assert!(
            row.source.len() > 3 && !row.name.is_empty() && !row.form.is_empty(),
            "{row:?}"
        );
        let figure: f64 = row.figure.parse().unwrap();
        assert!(figure > 0.0);
        let mut component = Component::default();
        row.put(&mut component);
        let (si, said) = match &component.weight {
            Weight::Count { each, .. } => (each.get().map(|v| v.to_lb()), &each.said),
            Weight::Length { density, .. } => (density.get().map(|v| v.to_plf()), &density.said),
            Weight::Area { density, .. } => (density.get().map(|v| v.to_psf()), &density.said),
            Weight::Volume { density, .. } => (density.get().map(|v| v.to_pcf()), &density.said),
            other => panic!("{other:?}"),
        };
        assert_relative_eq!(si.unwrap(), figure, max_relative = 1e-12);
        let said = said.as_ref().unwrap();
        assert_eq!(
            (said.who.as_str(), component.name.as_str()),
            (row.source.as_str(), row.name.as_str())
        );
        assert!(said.note.contains(row.standing.words()));
        let guessed = ["typical", "usual", "manufacturer", "trade"]
            .iter()
            .any(|word| row.source.contains(word));
        assert!(
            !guessed || row.standing == Standing::Practice,
            "{row:?} is common practice and must say so"
        );
    }
}

/// Density of lumber, pcf: 62.4·G/(1 + 0.009·G·MC)·(1 + MC/100), MC in per cent. Source: AWC NDS Supplement, whose example of G 0.51 at 30 % is printed 36.4.
fn lumber_pcf(g: f64, moisture: f64) -> f64 {
    62.4 * g / (1.0 + 0.009 * g * moisture) * (1.0 + moisture / 100.0)
}

#[test]
fn lumber_weighs_what_the_nds_formula_says() {
    assert_relative_eq!(lumber_pcf(0.51, 30.0), 36.4, epsilon = 0.05);
    // specific gravities from NDS Table 12.3.3A, from memory
    for (name, g) in [
        ("Lumber Spruce-Pine-Fir", 0.42),
        ("Lumber Spruce-Pine-Fir (South)", 0.36),
        ("Lumber Douglas Fir-Larch", 0.50),
        ("Lumber Douglas Fir-Larch (North)", 0.49),
        ("Lumber Hem-Fir", 0.43),
        ("Lumber Hem-Fir (North)", 0.46),
        ("Lumber Southern Pine", 0.55),
        ("Lumber Northern Species", 0.35),
    ] {
        let row = unit_weight(name, "15 %");
        assert_relative_eq!(row.figure.parse::<f64>().unwrap(), lumber_pcf(g, 15.0), epsilon = 0.051);
    }
    for (name, square_inches) in [
        ("2x4 SPF", 5.25),
        ("2x6 SPF", 8.25),
        ("2x10 SPF", 13.875),
        ("2x12 SPF", 16.875),
    ] {
        let row = unit_weight(name, "19 %");
        let plf = lumber_pcf(0.42, 19.0) * square_inches / 144.0;
        assert_relative_eq!(row.figure.parse::<f64>().unwrap(), plf, epsilon = 0.01);
    }
}

#[test]
fn the_library_is_searched_by_words() {
    let found = |search: &str| library().into_iter().filter(|row| row.matches(search)).count();
    assert_eq!(found("GYPSUM 5/8"), 2);
    assert!(found("hud wall") >= 5);
    assert_eq!(found("no such thing"), 0);
    assert_eq!(found(""), library().len());
}

#[test]
fn a_unit_weight_keeps_what_was_measured() {
    let mut row = Component {
        name: "south wall".into(),
        weight: Weight::Area {
            density: entry("9 psf"),
            area: entry("400 sq ft"),
        },
        ..Component::default()
    };
    unit_weight("Ext. wall 2x4 with lap wood siding", "").put(&mut row);
    let Weight::Area { density, area } = &row.weight else {
        panic!()
    };
    assert_eq!(
        (density.text(), area.text(), row.name.as_str()),
        ("8 psf", "400 sq ft", "south wall")
    );
}

/// A panel 40 ft long and 8 ft high at y = 0 with one opening of 6 × 7 ft.
fn wall() -> Shape {
    Shape::Panel {
        corner: at("4 ft", "0", "1 ft"),
        along: at("44 ft", "0", "1 ft"),
        up: at("4 ft", "0", "9 ft"),
        openings: vec![Opening {
            from_along: entry("10 ft"),
            from_up: entry("0"),
            width: entry("6 ft"),
            height: entry("7 ft"),
        }],
    }
}

fn by_assembly(id: &str, area: &str) -> Component {
    Component {
        id: "B1-01".into(),
        name: "south wall".into(),
        weight: Weight::Assembly {
            assembly: id.into(),
            area: entry(area),
        },
        shape: wall(),
        ..Component::default()
    }
}

/// Studs 1.06 plf each 16 in, sheathing 1.4 psf, gypsum 52.8 pcf 1/2 in thick, insulation 2.5 pcf 3.5 in thick.
fn outside_wall() -> Assembly {
    let layer = |name: &str, weight| Layer {
        name: name.into(),
        weight,
    };
    Assembly {
        id: "W1".into(),
        name: "outside wall".into(),
        layers: vec![
            layer(
                "studs",
                LayerWeight::Length {
                    density: entry("1.06 plf"),
                    spacing: entry("16 in"),
                },
            ),
            unit_weight("OSB", "7/16").layer().unwrap(),
            layer(
                "gypsum",
                LayerWeight::Volume {
                    density: entry("52.8 pcf"),
                    thickness: entry("0.5 in"),
                },
            ),
            layer(
                "insulation",
                LayerWeight::Volume {
                    density: entry("2.5 pcf"),
                    thickness: entry("3.5 in"),
                },
            ),
        ],
    }
}

#[test]
fn an_assembly_weighs_by_its_layers_and_changes_every_box() {
    let mut plan = plan_of(vec![by_assembly("W1", "")]);
    plan.assemblies.push(outside_wall());
    let second = HouseBox {
        id: "B2".into(),
        ..plan.boxes[0].clone()
    };
    plan.boxes.push(second);
    // by hand: 1.06/1.3333 + 1.4 + 52.8/24 + 2.5·3.5/12 = 0.795 + 1.4 + 2.2 + 0.7292 = 5.1242 psf over 320 − 42 = 278 sq ft: 1,424.52 lb
    let found = |plan: &Plan| {
        evaluate(plan)
            .boxes
            .iter()
            .map(|b| b.takeoff.total.unwrap().mass_kg / LB)
            .collect::<Vec<_>>()
    };
    for lb in found(&plan) {
        assert_relative_eq!(lb, 1424.52, epsilon = 0.05);
    }
    plan.assemblies[0].layers[1].weight = LayerWeight::Area {
        density: entry("2.4 psf"),
    };
    for lb in found(&plan) {
        assert_relative_eq!(lb, 1424.52 + 278.0, epsilon = 0.05);
    }
    let typed = Plan {
        boxes: vec![HouseBox {
            components: vec![by_assembly("W1", "100 sq ft")],
            ..plan.boxes[0].clone()
        }]
        .into(),
        ..plan.clone()
    };
    assert_relative_eq!(found(&typed)[0], 612.42, epsilon = 0.05);
}

#[test]
fn the_working_shows_each_layer_with_its_source() {
    let mut plan = plan_of(vec![by_assembly("W1", "")]);
    plan.assemblies.push(outside_wall());
    let result = box_of(&plan);
    let weight = findings(&result, Check::Weight)[0];
    let lines: Vec<String> = weight
        .working
        .iter()
        .map(|w| format!("{} | {} | {}", w.meaning, w.text(UnitSystem::Us), w.source))
        .collect();
    assert!(
        lines.contains(
            &"assembly W1 outside wall: gypsum | wᵢ = ρ·t = 52.8 pcf·0.04 ft = 2.20 psf | typed, no source entered"
                .to_owned()
        ),
        "{lines:#?}"
    );
    assert!(
        lines.iter().any(|line| line.contains("OSB, 7/16 in")
            && line.contains("1.40 psf")
            && line.contains("APA panel weight table")),
        "{lines:#?}"
    );
    assert!(
        lines
            .iter()
            .any(|line| line.contains("all layers | w = Σwᵢ = 5.12 psf")),
        "{lines:#?}"
    );
}

#[track_caller]
fn blocked(plan: &Plan, words: &[&str]) {
    let result = box_of(plan);
    let message = result.messages.iter().find(|m| m.blocks).unwrap();
    let text = format!("{}: {}", message.place, message.text);
    for word in words {
        assert!(text.contains(word), "{word} is not in: {text}");
    }
    assert!(matches!(
        findings(&result, Check::Weight)[0].outcome,
        Outcome::NotChecked { .. }
    ));
}

#[test]
fn an_assembly_that_is_not_whole_says_which_layer_lacks_what() {
    let mut plan = plan_of(vec![by_assembly("W9", "")]);
    plan.assemblies.push(outside_wall());
    blocked(
        &plan,
        &["row B1-01", "read assembly \"W9\"", "add it there or choose another"],
    );
    plan.boxes[0].components[0] = by_assembly("", "");
    blocked(&plan, &["no assembly named"]);
    plan.boxes[0].components[0] = by_assembly("W1", "");
    plan.assemblies[0].layers[2].weight = LayerWeight::Volume {
        density: entry("52.8 pcf"),
        thickness: entry(""),
    };
    blocked(&plan, &["assembly W1, layer 3 (gypsum): thickness not entered"]);
    plan.assemblies[0].layers[2].weight = LayerWeight::Area { density: entry("2 kg") };
    blocked(
        &plan,
        &[
            "layer 3 (gypsum): weight per area: read \"2 kg\"",
            "such as 12 psf or 60 kg/m2",
        ],
    );
    plan.assemblies[0].layers.clear();
    blocked(&plan, &["assembly W1 has no layers yet"]);
}

#[test]
fn what_is_new_survives_the_file_and_old_files_open() {
    let mut plan = plan_of(vec![by_assembly("W1", "278 sq ft")]);
    plan.assemblies.push(outside_wall());
    plan.boxes[0].estimate = entry("40 psf");
    plan.boxes[0].components[0].loaded = "2027-05-04".into();
    plan.boxes[0].ticket = Some(axle_ticket());
    let opened = format::open(&format::save(&plan)).unwrap();
    assert_eq!((opened.plan, opened.notes), (plan, Vec::new()));
    let old = format::open(include_str!("plans/v1/halden.json")).unwrap().plan;
    assert!(old.assemblies.is_empty() && old.boxes.iter().all(|b| b.estimate.is_blank()));
}

#[test]
fn a_weight_per_area_stands_until_there_is_a_take_off() {
    let mut plan = plan_of(Vec::new());
    plan.boxes[0].estimate = entry("40 psf");
    let result = box_of(&plan);
    // by hand: 52 × 13.5 = 702 sq ft at 40 psf: 28,080 lb; the middle is 26, 6.75, 5.5 ft
    let planned = result.planned.unwrap();
    assert_eq!(planned.grade, WeightGrade::PerArea);
    assert_relative_eq!(planned.mass_kg / LB, 28_080.0, max_relative = 1e-12);
    for (found, ft) in result.cg_m.unwrap().into_iter().zip([26.0, 6.75, 5.5]) {
        assert_relative_eq!(found, ft * 0.3048, max_relative = 1e-12);
    }
    let weight = findings(&result, Check::Weight)[0];
    assert!(
        until(weight).starts_with("weight estimated per area"),
        "{:?}",
        weight.outcome
    );
    assert!(
        weight
            .working
            .iter()
            .any(|w| w.text(UnitSystem::Us) == "W = L·B·w = 52.00 ft·13.50 ft·40.00 psf = 28,080 lb")
    );
    plan.boxes[0].components.push(lump("B1-01", "30000 lb", "20 ft"));
    let result = box_of(&plan);
    assert_eq!(result.planned.unwrap().grade, WeightGrade::TakeOff);
    assert_relative_eq!(result.planned.unwrap().mass_kg, 30_000.0 * LB, max_relative = 1e-12);
    assert!(findings(&result, Check::Weight).iter().all(|f| f.outcome.is_within()));
}

/// The scenario's box B1 without its take-off and ticket: its lift counts 20 % on top, and is held.
#[test]
fn a_lift_of_an_estimated_box_takes_the_contingency_of_an_estimate() {
    let mut plan = sample::plan();
    let at = plan.boxes.iter().position(|b| b.id.as_str() == "B1").unwrap();
    plan.boxes[at].components.clear();
    plan.boxes[at].ticket = None;
    plan.boxes[at].estimate = entry("40 psf");
    for lift in &mut plan.lifts {
        lift.contingency = Entry::blank(Unit::Percent);
    }
    let assessment = evaluate(&plan);
    let lift = assessment.lifts.iter().find(|l| l.title == "box B1").unwrap();
    assert_eq!(lift.load.contingency.unwrap().to_percent(), 20.0);
    assert_relative_eq!(lift.load.planned_kg.unwrap() / LB, 33_696.0, max_relative = 1e-12);
    assert!(!lift.outcome.is_within());
    assert!(
        lift.findings
            .iter()
            .any(|f| until(f).starts_with("weight estimated per area"))
    );
    let why = setday::evaluate::worst_hang(
        &plan,
        assessment.lifts.iter().position(|l| l.title == "box B1").unwrap(),
    );
    assert!(why.unwrap_err().contains("no take-off"));
}

#[test]
fn a_take_off_that_has_only_begun_is_held_against_its_estimate() {
    let mut plan = plan_of(vec![lump("B1-01", "5756 lb", "26 ft")]);
    plan.boxes[0].estimate = entry("40 psf");
    let result = box_of(&plan);
    let beside = findings(&result, Check::Weight)[1];
    // 1 − 5,756/28,080 = 79.5 %
    assert!(
        until(beside).starts_with("the take-off is 80 % below the estimate"),
        "{:?}",
        beside.outcome
    );
    for (text, words) in [
        ("-3 psf", "read \"-3 psf\""),
        ("0", "above nothing such as 40 psf"),
        ("forty", "read \"forty\""),
    ] {
        plan.boxes[0].components.clear();
        plan.boxes[0].estimate = entry(text);
        blocked(&plan, &["weight per floor area", words]);
    }
    plan.boxes[0].estimate = entry("40 psf");
    plan.boxes[0].length = entry("");
    blocked(&plan, &["length, width and height of the box are needed"]);
}

fn point(name: &str, gross: &str, tare: &str, x: &str) -> WeighPoint {
    WeighPoint {
        name: name.into(),
        gross: entry(gross),
        tare: entry(tare),
        x: entry(x),
        ..WeighPoint::default()
    }
}

/// Front group 6 ft ahead of the box's first end, rear group 10 ft from its second.
fn axle_ticket() -> Ticket {
    Ticket {
        date: "2027-05-04".into(),
        weigh_points: vec![
            point("front", "24000 lb", "13000 lb", "-6 ft"),
            point("rear", "38000 lb", "17000 lb", "42 ft"),
        ],
        ..Ticket::default()
    }
}

#[test]
fn axle_groups_give_weight_and_place() {
    let mut plan = plan_of(vec![lump("B1-01", "31000 lb", "26 ft")]);
    plan.boxes[0].ticket = Some(axle_ticket());
    let result = box_of(&plan);
    let weighing = result.by_axles.as_ref().unwrap();
    // by hand: 11,000 + 21,000 = 32,000 lb; rear·span/W + offset = 21,000 × 48/32,000 − 6 = 25.5 ft
    assert_relative_eq!(weighing.mass_kg / LB, 32_000.0, max_relative = 1e-12);
    assert_relative_eq!(weighing.x_m.unwrap() / 0.3048, 25.5, max_relative = 1e-12);
    assert_eq!(weighing.y_m, None, "nobody said where across");
    assert_eq!(
        result.planned.unwrap().grade,
        WeightGrade::WeighedEarly,
        "a sum of axle groups"
    );
    assert_relative_eq!(result.planned.unwrap().mass_kg / LB, 32_000.0, max_relative = 1e-12);
    let beside = findings(&result, Check::Ticket)[1];
    // 0.5 ft apart, 2 % of 52 ft is 1.04 ft
    assert!(beside.outcome.is_within(), "{:?}", beside.outcome);
    plan.boxes[0].components[0] = lump("B1-01", "31000 lb", "27 ft");
    let result = box_of(&plan);
    assert!(until(findings(&result, Check::Ticket)[1]).contains("look for the missing item"));
    plan.boxes[0].ticket.as_mut().unwrap().mass = entry("29000 lb");
    let result = box_of(&plan);
    assert_relative_eq!(result.ticket_kg.unwrap() / LB, 29_000.0, max_relative = 1e-12);
    assert!(findings(&result, Check::Ticket)[1].cautions[0].contains("differ by more than 5 %"));
}

#[test]
fn a_blank_tare_is_not_nothing() {
    let mut plan = plan_of(vec![lump("B1-01", "31000 lb", "26 ft")]);
    let mut ticket = axle_ticket();
    ticket.weigh_points[1].tare = entry("");
    plan.boxes[0].ticket = Some(ticket);
    blocked(
        &plan,
        &["axle group 2 (rear): weight empty not entered", "enter 0 for a cell"],
    );
    let ticket = plan.boxes[0].ticket.as_mut().unwrap();
    ticket.weigh_points = vec![point("", "13000 lb", "24000 lb", "0")];
    blocked(&plan, &["comes to -4990 kg", "in each other's place?"]);
}

/// Four cells, the reading of the first exam question above on each half: load cells give the place across too.
#[test]
fn load_cells_give_the_place_across() {
    let cell = |gross: &str, x: &str, y: &str| WeighPoint {
        y: entry(y),
        ..point("", gross, "0", x)
    };
    let cells = [
        cell("8000 lb", "10 ft", "0"),
        cell("9000 lb", "10 ft", "13.5 ft"),
        cell("7000 lb", "42 ft", "0"),
        cell("8000 lb", "42 ft", "13.5 ft"),
    ];
    let weighing = takeoff::weighing(&cells).unwrap();
    // by hand: 32,000 lb; x = (17,000 × 10 + 15,000 × 42)/32,000 = 25 ft; y = 17,000 × 13.5/32,000 = 7.171875 ft
    assert_relative_eq!(weighing.x_m.unwrap() / 0.3048, 25.0, max_relative = 1e-12);
    assert_relative_eq!(weighing.y_m.unwrap() / 0.3048, 7.171_875, max_relative = 1e-12);
}

#[test]
fn a_weighed_box_without_a_take_off_hangs_where_it_was_weighed_and_is_held() {
    let mut plan = plan_of(Vec::new());
    plan.boxes[0].ticket = Some(axle_ticket());
    let result = box_of(&plan);
    let Outcome::NotChecked { missing } = &findings(&result, Check::Weight)[0].outcome else {
        panic!()
    };
    assert!(missing.contains("says how much it is, not where it acts"), "{missing}");
    plan.boxes[0].estimate = entry("40 psf");
    let result = box_of(&plan);
    assert_relative_eq!(result.planned.unwrap().mass_kg / LB, 32_000.0, max_relative = 1e-12);
    assert_relative_eq!(result.cg_m.unwrap()[0] / 0.3048, 25.5, max_relative = 1e-12);
    assert!(until(findings(&result, Check::Weight)[0]).starts_with("no take-off"));
}

fn ticket(mass: &str, date: &str) -> Option<Ticket> {
    Some(Ticket {
        mass: entry(mass),
        date: date.into(),
        weighed: WeighedWhen::AfterLoading,
        weigh_points: Vec::new(),
    })
}

#[test]
fn what_was_loaded_after_the_ticket_is_added_to_it() {
    let mut tile = lump("B1-02", "2000 lb", "42 ft");
    let mut plan = plan_of(vec![lump("B1-01", "30000 lb", "26 ft"), tile.clone()]);
    plan.boxes[0].ticket = ticket("31000 lb", "2027-05-04");
    assert_relative_eq!(
        box_of(&plan).planned.unwrap().mass_kg / LB,
        32_000.0,
        max_relative = 1e-12
    );
    tile.loaded = "2027-05-05".into();
    plan.boxes[0].components[1] = tile;
    let result = box_of(&plan);
    // 31,000 weighed and 2,000 since, where the take-off has 32,000
    assert_relative_eq!(result.planned.unwrap().mass_kg / LB, 33_000.0, max_relative = 1e-12);
    assert_eq!(result.planned.unwrap().grade, WeightGrade::WeighedEarly);
    assert_relative_eq!(result.planned.unwrap().unplaced_kg / LB, 1_000.0, max_relative = 1e-9);
    let caution = &findings(&result, Check::Ticket)[0].cautions[0];
    assert!(
        caution.contains("loaded after the ticket of 2027-05-04 and added to it: B1-02 item B1-02"),
        "{caution}"
    );
}

#[test]
fn a_ticket_older_than_the_last_item_is_held() {
    let mut plan = plan_of(vec![lump("B1-01", "31000 lb", "26 ft")]);
    plan.boxes[0].ticket = ticket("31500 lb", "2027-05-04");
    plan.boxes[0].last_item_added = "2027-05-06".into();
    let result = box_of(&plan);
    assert_eq!(result.planned.unwrap().grade, WeightGrade::WeighedEarly);
    let held = until(findings(&result, Check::Ticket)[0]);
    assert!(
        held.contains("the last item went in on 2027-05-06, after the ticket of 2027-05-04: weigh again"),
        "{held}"
    );
}

/// "May 6" sorts behind "2027-05-04" as text: a lower ticket must not replace the take-off by that.
#[test]
fn a_day_that_is_none_decides_nothing_and_says_so() {
    let mut plan = plan_of(vec![lump("B1-01", "31000 lb", "26 ft")]);
    plan.boxes[0].ticket = ticket("30500 lb", "May 6");
    plan.boxes[0].last_item_added = "2027-05-04".into();
    let result = box_of(&plan);
    assert_relative_eq!(result.planned.unwrap().mass_kg / LB, 31_000.0, max_relative = 1e-12);
    let message = result.messages.iter().find(|m| m.place == "day of the ticket").unwrap();
    assert!(
        message
            .text
            .contains("read \"May 6\" as a day: expected year-month-day such as 2027-05-03")
    );
    plan.boxes[0].ticket = ticket("30500 lb", "2027-05-05");
    assert_relative_eq!(
        box_of(&plan).planned.unwrap().mass_kg / LB,
        30_500.0,
        max_relative = 1e-12
    );
}

fn panel_of(name: &str, density: &str, shape: Shape) -> Component {
    Component {
        id: "B1-07".into(),
        name: name.into(),
        weight: Weight::Area {
            density: entry(density),
            area: entry(""),
        },
        shape,
        ..Component::default()
    }
}

#[test]
fn an_unlikely_weight_per_area_is_asked_about() {
    let flat = || Shape::Panel {
        corner: at("0", "0", "0"),
        along: at("52 ft", "0", "0"),
        up: at("0", "13.5 ft", "0"),
        openings: Vec::new(),
    };
    let asked = |component: &Component| takeoff::odd_per_area(component).unwrap_or_default();
    let heavy = panel_of("south side", "120 psf", wall());
    assert_eq!(
        asked(&heavy),
        "read 120.0 psf (586 kg/m²) for a wall, usual is 4 to 14 psf (20 to 68 kg/m², common practice): did you mean 12.0 psf (59 kg/m²)? mend it, or say who gave it as its source"
    );
    assert!(asked(&panel_of("deck", "70 psf", flat())).contains("for a floor, usual is 6 to 14 psf"));
    assert!(asked(&panel_of("partition 3", "0.6 psf", wall())).contains("did you mean 6.0 psf"));
    assert_eq!(asked(&panel_of("south wall", "9 psf", wall())), "");
    assert_eq!(
        asked(&panel_of("gypsum", "2.2 psf", wall())),
        "",
        "a layer by itself is light"
    );
    let mut sourced = heavy.clone();
    let Weight::Area { density, .. } = &mut sourced.weight else {
        panic!()
    };
    *density = density.clone().said_by("engineer, brick outside", "2027-04-30", "");
    assert_eq!(asked(&sourced), "", "somebody stands by it");
    let result = box_of(&plan_of(vec![heavy]));
    let message = result.messages.iter().find(|m| m.text.contains("120.0 psf")).unwrap();
    assert!(
        message.place.contains("B1-07") && !message.blocks,
        "asked, and not taken out of the sum"
    );
}

#[test]
fn one_row_in_kilograms_among_pounds_is_asked_about() {
    let mut rows: Vec<Component> = (1..=5).map(|n| lump(&format!("B1-0{n}"), "900 lb", "20 ft")).collect();
    assert_eq!(takeoff::odd_unit(&rows), None);
    rows[3] = lump("B1-04", "2560 kg", "20 ft");
    let (at, text) = takeoff::odd_unit(&rows).unwrap();
    // 2,560 kg/0.45359237 = 5,643.8 lb
    assert_eq!(at, 3);
    assert!(
        text.starts_with("read 2,560 kg, which is 5,644 lb, while every other row is in lb: did you mean 2,560 lb?"),
        "{text}"
    );
    let message = box_of(&plan_of(rows.clone())).messages.remove(0);
    assert!(message.place.contains("B1-04") && !message.blocks);
    rows[1] = lump("B1-02", "400 kg", "20 ft");
    assert_eq!(takeoff::odd_unit(&rows), None, "two of each are a habit, not a slip");
}

#[test]
fn a_gross_ticket_is_asked_about_with_and_without_a_take_off() {
    let mut plan = plan_of(vec![lump("B1-01", "31642 lb", "26 ft")]);
    plan.boxes[0].ticket = ticket("61900 lb", "2027-05-04");
    let result = box_of(&plan);
    assert!(until(findings(&result, Check::Ticket)[0]).contains("were carrier and tractor taken off?"));
    plan.boxes[0].components.clear();
    plan.boxes[0].estimate = entry("40 psf");
    let result = box_of(&plan);
    // 61,900 lb on 702 sq ft: 88.2 psf
    assert!(
        findings(&result, Check::Weight)[0].cautions[0].contains("88 psf (431 kg/m²)"),
        "{:?}",
        result.findings
    );
}

/// Every kind of form, mirrored: W stays, x becomes length − x to the last bits that the text keeps, y and z stay.
#[test]
fn a_mirrored_box_has_its_centre_of_gravity_at_the_other_end() {
    let mut plan = sample::plan();
    plan.boxes.truncate(1);
    let house = &mut plan.boxes[0];
    house.components.push(panel_of("wall", "9 psf", wall()));
    house.components.push(Component {
        weight: Weight::Length {
            density: entry("2.8 plf"),
            length: entry(""),
        },
        shape: Shape::Line {
            from: at("3 ft", "1 ft", "1 ft"),
            to: at("33 ft", "1 ft", "1 ft"),
        },
        ..Component::default()
    });
    house.components.push(Component {
        weight: Weight::Volume {
            density: entry("62.4 pcf"),
            volume: entry(""),
        },
        shape: Shape::Block {
            from: at("40 ft", "2 ft", "0"),
            to: at("42 ft", "5 ft", "1 ft"),
        },
        ..Component::default()
    });
    let turned = mirrored(house).unwrap();
    let (before, after) = (
        box_of(&plan),
        box_of(&Plan {
            boxes: vec![turned.clone()].into(),
            ..plan.clone()
        }),
    );
    let length_m = 52.0 * 0.3048;
    let (a, b) = (before.takeoff.total.unwrap(), after.takeoff.total.unwrap());
    assert_relative_eq!(a.mass_kg, b.mass_kg, max_relative = 1e-12);
    assert_relative_eq!(b.at_m[0], length_m - a.at_m[0], epsilon = 1e-9);
    assert_relative_eq!(a.at_m[1], b.at_m[1], epsilon = 1e-12);
    assert_relative_eq!(
        before.cg_from_picks_m.unwrap()[0],
        -after.cg_from_picks_m.unwrap()[0],
        epsilon = 1e-9
    );
    let Shape::Block { from, to } = &turned.components.last().unwrap().shape else {
        panic!()
    };
    assert_eq!(
        (from.x.text(), to.x.text()),
        ("10 ft", "12 ft"),
        "the smaller corner stays the first"
    );
    assert_eq!(
        turned.ends,
        [String::new(), String::new()],
        "which end is the kitchen's now is for a person to say"
    );
    let [first, ..] = &turned.picks[..] else { panic!() };
    let x = |picks: &[Place3], at: usize| picks[at].x.get().unwrap().to_m();
    assert!(x(&turned.picks, 0) < x(&turned.picks, 2), "first end first: {first:?}");
}

#[test]
fn a_twin_leaves_behind_what_is_the_one_boxs_own() {
    let plan = sample::plan();
    let house = &plan.boxes[0];
    let copy = twin(house, "A3".into());
    assert_eq!((copy.id.as_str(), copy.components[0].id.as_str()), ("A3", "A3-01"));
    assert!(copy.ticket.is_none() && copy.last_item_added.is_empty() && copy.set_corner.metres().is_none());
    assert_eq!(
        (copy.components.len(), &copy.ends),
        (house.components.len(), &house.ends)
    );
    let mut short = house.clone();
    short.length = entry::<Length>("");
    assert!(
        mirrored(&short)
            .unwrap_err()
            .contains("enter it first, x is turned round in it")
    );
}

#[track_caller]
fn says(plan: &Plan, row: &str, blocks: bool, words: &[&str]) {
    let result = box_of(plan);
    let found = result.messages.iter().find(|m| m.place.contains(row));
    let message = found.unwrap_or_else(|| panic!("nothing is said about {row}: {:?}", result.messages));
    for word in words {
        assert!(message.text.contains(word), "{word} is not in: {}", message.text);
    }
    assert_eq!(message.blocks, blocks, "{}", message.text);
}

#[test]
fn zero_and_negative_weights_are_told_by_row() {
    let rows = vec![lump("B1-01", "900 lb", "26 ft"), lump("B1-02", "0", "20 ft")];
    let mut plan = plan_of(rows);
    says(
        &plan,
        "B1-02",
        false,
        &["zero weight: remove the row or enter a weight"],
    );
    assert!(box_of(&plan).takeoff.total.is_some());
    plan.boxes[0].components[1] = lump("B1-02", "-340 lb", "20 ft");
    says(
        &plan,
        "B1-02",
        true,
        &[
            "weight -154.2 kg is below nothing",
            "mark the row as a deduction, or mend the figure",
            "counts as unknown",
        ],
    );
    plan.boxes[0].components[1] = Component {
        deduction: true,
        ..lump("B1-02", "340 lb", "20 ft")
    };
    assert_relative_eq!(
        box_of(&plan).takeoff.total.unwrap().mass_kg / LB,
        560.0,
        max_relative = 1e-12
    );
}

#[test]
fn a_box_of_nothing_has_no_weight_and_no_centre() {
    for rows in [
        Vec::new(),
        vec![lump("B1-01", "0", "26 ft"), lump("B1-02", "0", "20 ft")],
    ] {
        let result = box_of(&plan_of(rows));
        let Outcome::NotChecked { missing } = &findings(&result, Check::Weight)[0].outcome else {
            panic!()
        };
        assert!(
            missing.starts_with("no weight yet: enter the components of the box"),
            "{missing}"
        );
        assert!(result.cg_m.is_none() && result.planned.is_none());
    }
}

#[test]
fn a_ticket_far_from_the_take_off_is_a_caution_then_a_hold() {
    let mut plan = plan_of(vec![lump("B1-01", "31642 lb", "26 ft")]);
    plan.boxes[0].ticket = ticket("33720 lb", "2027-05-04");
    let result = box_of(&plan);
    // 33,720/31,642 − 1 = 6.6 %
    assert!(
        findings(&result, Check::Ticket)[0].cautions[0]
            .contains("differ by more than 5 %: the missing weight can be anywhere in the box")
    );
    plan.boxes[0].ticket = ticket("35000 lb", "2027-05-04");
    assert!(until(findings(&box_of(&plan), Check::Ticket)[0]).contains("more than 10 %: find out why"));
    // 35,000 lb stand for the box either way: the larger of the two
    let weighed = plan.boxes[0].ticket.as_mut().unwrap();
    weighed.mass = weighed
        .mass
        .clone()
        .said_by("scale house", "2027-05-04", "three pallets of tile ride inside");
    let result = box_of(&plan);
    let finding = findings(&result, Check::Ticket)[0];
    assert!(
        finding.outcome.is_within() && finding.cautions[0].ends_with("noted why: three pallets of tile ride inside"),
        "{finding:?}"
    );
    assert_relative_eq!(result.planned.unwrap().mass_kg / LB, 35_000.0, max_relative = 1e-12);
}

#[test]
fn a_place_outside_the_box_is_told_with_its_limit() {
    let mut plan = plan_of(vec![lump("B1-01", "12 ton", "26 ft")]);
    says(
        &plan,
        "B1-01",
        true,
        &[
            "weight: read \"12 ton\": which ton? write US ton (2,000 lb)",
            "counts as unknown",
        ],
    );
    plan.boxes[0].components[0] = lump("B1-01", "900 lb", "26 kg");
    says(
        &plan,
        "B1-01",
        true,
        &["x: read \"26 kg\" as a length", "expected a length such as"],
    );
    plan.boxes[0].components[0] = lump("B1-01", "900 lb", "80 ft");
    says(
        &plan,
        "B1-01",
        true,
        &[
            "x is 24.38 m (80.00 ft)",
            "outside the box's length of 15.85 m (52.00 ft)",
            "mark the row as an overhang on purpose",
        ],
    );
    plan.boxes[0].components[0].overhang = true;
    assert!(box_of(&plan).messages.is_empty());
}

fn with_picks(plan: &mut Plan) {
    let xs = ["12 ft", "12 ft", "40 ft", "40 ft"];
    plan.boxes[0].picks = xs
        .iter()
        .zip(["0", "13.5 ft", "0", "13.5 ft"])
        .map(|(x, y)| at(x, y, "0"))
        .collect();
    plan.boxes[0].ends = ["west end".into(), "kitchen end".into()];
}

#[test]
fn a_nearly_empty_pair_of_picks_is_a_caution() {
    let mut plan = plan_of(vec![lump("B1-01", "30000 lb", "39 ft")]);
    with_picks(&mut plan);
    let result = box_of(&plan);
    // (40 − 39)/(40 − 12) = 3.57 % of the weight at the west end; 1 ft on it is nothing
    let caution = &findings(&result, Check::Weight)[0].cautions[0];
    assert!(caution.contains("the picks at the west end carry 3.6 %"), "{caution}");
    assert!(
        caution.contains("0.30 m (1.00 ft) further off empties them"),
        "{caution}"
    );
    plan.boxes[0].components[0] = lump("B1-01", "30000 lb", "26 ft");
    assert!(findings(&box_of(&plan), Check::Weight)[0].cautions.is_empty());
}

/// The scenario's kitchen box with its picks moved to one end: it is told, and the lift is not within.
#[test]
fn a_centre_of_gravity_outside_the_picks_stops_the_lift() {
    let mut plan = sample::plan();
    for (pick, x) in plan.boxes[0].picks.iter_mut().zip(["2 ft", "2 ft", "20 ft", "20 ft"]) {
        pick.x = entry(x);
    }
    let assessment = evaluate(&plan);
    let lift = assessment.lifts.iter().find(|l| l.title == "box A1").unwrap();
    let text = format!("{:?}", lift.findings);
    assert!(
        text.contains("the centre of gravity is outside the picks by") && text.contains("move the picks or the weight"),
        "{text}"
    );
    assert!(!lift.outcome.is_within());
    // 29.81 ft is the scenario's own (tests/oracles/scenario.txt), 9.81 ft beyond picks at 20 ft
    assert!(
        text.contains("2.99 m (9.81 ft) beyond the picks at the kitchen end: do not lift at these picks; those there must have x more than 9.09 m (29.81 ft)"),
        "{text}"
    );
}

/// Two picks on one line: there is no edge to be near, and no number out of nothing.
#[test]
fn picks_in_a_line_give_no_caution_and_no_nonsense() {
    let mut plan = plan_of(vec![lump("B1-01", "30000 lb", "26 ft")]);
    plan.boxes[0].picks = vec![at("12 ft", "6 ft", "0"), at("40 ft", "6 ft", "0")];
    assert!(findings(&box_of(&plan), Check::Weight)[0].cautions.is_empty());
    plan.boxes[0].picks[1].x = entry("12 ft");
    assert!(findings(&box_of(&plan), Check::Weight)[0].cautions.is_empty());
}

#[test]
fn a_missing_height_is_told_and_may_be_assumed_with_a_mark() {
    let mut plan = plan_of(vec![lump("B1-01", "900 lb", "26 ft"), lump("B1-02", "800 lb", "20 ft")]);
    let Shape::Point { at } = &mut plan.boxes[0].components[1].shape else {
        panic!()
    };
    at.z = entry("");
    says(
        &plan,
        "B1-02",
        true,
        &[
            "height z not entered: tilt and roll cannot be checked",
            "take mid-height as an assumption",
        ],
    );
    assert_eq!(takeoff::rows_without_height(&plan.boxes[0]), 1);
    takeoff::assume_mid_height(&mut plan.boxes[0]);
    let result = box_of(&plan);
    // by hand: (900 × 4 + 800 × 5.5)/1,700 = 4.70588 ft
    assert_relative_eq!(result.cg_m.unwrap()[2] / 0.3048, 4.705_882_353, max_relative = 1e-9);
    assert!(
        findings(&result, Check::Weight)[0].cautions[0].contains("the height of 1 of 2 rows is assumed at mid-height")
    );
    let Shape::Point { at } = &plan.boxes[0].components[1].shape else {
        panic!()
    };
    assert_eq!(
        (at.z.text(), at.z.said.as_ref().unwrap().who.as_str()),
        ("5.5 ft", takeoff::ASSUMED)
    );
}

/// The chart of the crane that is set up.
fn chart_of(plan: &mut Plan) -> &mut setday::crane::RatingChart {
    let (crane, chart) = (plan.set_up.crane.clone(), plan.set_up.chart.0.clone());
    let crane = plan.cranes.iter_mut().find(|c| c.id == crane).unwrap();
    crane.charts.iter_mut().find(|c| c.id == chart).unwrap()
}

#[test]
fn a_chart_for_a_sector_or_on_tyres_does_not_pass_in_silence() {
    let held = |sector: &str| {
        let mut plan = sample::plan();
        chart_of(&mut plan).configuration.sector = sector.into();
        let lift = evaluate(&plan).lifts.remove(0);
        let text = lift
            .findings
            .iter()
            .filter(|f| f.check == Check::Chart)
            .map(|f| until(f).to_owned())
            .collect::<String>();
        (text, lift.outcome.is_within())
    };
    let (text, within) = held("over rear");
    assert!(
        text.contains("holds for \"over rear\" only") && text.contains("choose a chart for 360 deg") && !within,
        "{text}"
    );
    assert!(held("").0.contains("sector that the chart holds for is not entered"));
    assert_eq!(held("360 deg").0, "");
    let mut plan = sample::plan();
    chart_of(&mut plan).configuration.support = setday::crane::Support::Rubber;
    let lift = evaluate(&plan).lifts.remove(0);
    assert!(lift.outcome == Outcome::Outside && format!("{:?}", lift.findings).contains("is for lifting on tyres"));
}

/// The first lift with its outriggers measured on site.
fn measured(outriggers: &str) -> (Outcome, String) {
    let mut plan = sample::plan();
    plan.set_up.outriggers = outriggers.into();
    let lift = evaluate(&plan).lifts.remove(0);
    (lift.outcome, format!("{:?}", lift.findings))
}

/// The scenario's chart holds for "100 % (7.0 x 7.0 m)".
#[test]
fn outriggers_measured_short_of_the_chart_stop_the_lift() {
    let as_planned = measured("").0;
    assert_eq!(measured("7.0 m").0, as_planned);
    for short in ["50 %", "7.0 x 5.5 m", "18 ft"] {
        let (outcome, text) = measured(short);
        assert_eq!(outcome, Outcome::Outside, "{short}");
        assert!(
            text.contains("the chart holds for")
                && text.contains("set them out as the chart says, or choose the chart for what is out"),
            "{text}"
        );
    }
    let (outcome, text) = measured("half out");
    assert!(
        !outcome.is_within() && text.contains("such as 100 %, or both as the distance between floats"),
        "{text}"
    );
}

/// A lift beyond the last row of its chart, and one nearer than the first: the lift says where the chart ends and no number stands in its place.
#[test]
fn a_lift_off_the_chart_says_where_the_chart_ends() {
    let kitchen = |plan: &Plan| {
        evaluate(plan)
            .lifts
            .into_iter()
            .find(|lift| lift.title == "box A1")
            .unwrap()
    };
    let mut far = sample::plan();
    far.set_up.at.east = entry("60 m");
    let mut near = sample::plan();
    near.lifts.iter_mut().for_each(|lift| lift.boom = entry("32.5 m"));
    // the box's centre of gravity comes down within 0.2 m of the slew centre at 8 m, -6.5 m
    near.boxes[0].set_corner.east = entry("-1.1 m");
    near.boxes[0].set_corner.north = entry("-8.3 m");
    for plan in [far, near] {
        let lift = kitchen(&plan);
        let text = format!("{:?}", lift.findings);
        assert!(
            text.contains("not on the chart: radius") && text.contains("the chart runs from"),
            "{text}"
        );
        assert!(
            !lift.outcome.is_within() && lift.use_of_chart.is_none(),
            "{:?}",
            lift.use_of_chart
        );
    }
}

/// A lift of a box that weighs nothing yet: the reason stands in its findings, and no figure is made up from nothing.
#[test]
fn a_lift_of_an_empty_box_says_why_nothing_is_worked_out() {
    let mut plan = sample::plan();
    let house = &mut plan.boxes[0];
    house.components.clear();
    house.ticket = None;
    let lift = evaluate(&plan)
        .lifts
        .into_iter()
        .find(|lift| lift.title == "box A1")
        .unwrap();
    assert!(matches!(lift.outcome, Outcome::NotChecked { .. }), "{:?}", lift.outcome);
    let text = format!("{:?}", lift.findings);
    assert!(
        text.contains("no weight yet: enter the components of the box"),
        "{text}"
    );
    assert!(!text.contains("NaN") && lift.use_of_chart.is_none() && lift.load.planned_kg.is_none());
}
