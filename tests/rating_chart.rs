//! Rating charts are read on the safe side: published rules, odd charts, and what always holds.
#![cfg(not(target_arch = "wasm32"))]

use proptest::prelude::*;
use setday::crane::{Axis, ChartRow, IssueKind, Rated, RatingChart, RatingTable, Support};
use setday::json::Json as _;
use setday::quantity::{DecimalMark, Length, Mass, Unit};

/// A chart in one unit of length and one of mass.
fn chart(units: (Unit, Unit), booms: &[&str], rows: &[(&str, &[&str])]) -> RatingChart {
    let owned = |texts: &[&str]| texts.iter().map(|&t| t.to_owned()).collect::<Vec<_>>();
    RatingChart {
        radius_unit: Some(units.0),
        boom_unit: Some(units.0),
        capacity_unit: Some(units.1),
        booms: owned(booms),
        rows: rows
            .iter()
            .map(|&(radius, cells)| ChartRow {
                radius: radius.to_owned(),
                cells: owned(cells),
            })
            .collect(),
        ..RatingChart::default()
    }
}

const FT_LB: (Unit, Unit) = (Unit::Ft, Unit::Lb);
const M_T: (Unit, Unit) = (Unit::M, Unit::T);

#[track_caller]
fn table(chart: &RatingChart) -> RatingTable {
    match chart.table() {
        (Some(table), issues) if issues.is_empty() => table,
        (_, issues) => panic!("{issues:?}"),
    }
}

/// The reading in one place of a chart in feet and pounds.
#[track_caller]
fn reads_lb(table: &RatingTable, radius_ft: f64, boom_ft: f64, expected_lb: Option<f64>) {
    let rated = table.rating(Length::ft(radius_ft), Length::ft(boom_ft));
    assert_eq!(rated.capacity(), expected_lb.map(Mass::lb), "{rated:?}");
    assert_eq!(
        table.capacity_kg(radius_ft * 0.3048, boom_ft * 0.3048),
        expected_lb.map(|lb| Mass::lb(lb).to_kg())
    );
}

/// US Army TM 5-3810-305-10, note 19: rows 60 ft 31,000 lb and 65 ft 27,500 lb; at 61.2 ft the smaller, 27,500 lb.
#[test]
fn between_radii_the_smaller_rating_holds_tm_5_3810_305_10() {
    let table = table(&chart(FT_LB, &["100"], &[("60", &["31,000"]), ("65", &["27,500"])]));
    reads_lb(&table, 61.2, 100.0, Some(27_500.0));
    reads_lb(&table, 60.0, 100.0, Some(31_000.0));
    reads_lb(&table, 60.000_001, 100.0, Some(27_500.0));
    reads_lb(&table, 65.0, 100.0, Some(27_500.0));
    reads_lb(&table, 65.1, 100.0, None);
    reads_lb(&table, 59.9, 100.0, None);
}

/// The rule of US Army TM 5-3810-306-10: between boom lengths the smaller of the two holds. The numbers are ours.
#[test]
fn between_boom_lengths_the_smaller_rating_holds_tm_5_3810_306_10() {
    let table = table(&chart(
        FT_LB,
        &["60", "80"],
        &[("30", &["40,000", "38,000"]), ("50", &["18,000", "19,000"])],
    ));
    reads_lb(&table, 30.0, 70.0, Some(38_000.0));
    reads_lb(&table, 50.0, 70.0, Some(18_000.0));
    reads_lb(&table, 40.0, 70.0, Some(18_000.0));
    reads_lb(&table, 40.0, 80.0, Some(19_000.0));
    reads_lb(&table, 40.0, 81.0, None);
    reads_lb(&table, 40.0, 59.0, None);
}

/// A reading that lands on a row but for the last bit is on that row, not between it and the next.
#[test]
fn a_listed_radius_is_met_within_the_last_bits() {
    let table = table(&chart(
        M_T,
        &["25.5"],
        &[("0.3", &["50"]), ("12", &["22.0"]), ("13", &["20.2"])],
    ));
    assert_eq!(table.capacity_kg(0.1 + 0.2, 25.5), Some(50_000.0));
    assert_eq!(table.capacity_kg(12.000_000_000_1, 25.5), Some(22_000.0));
    assert_eq!(table.capacity_kg(12.000_001, 25.5), Some(20_200.0));
    assert_eq!(table.capacity_kg(13.000_000_000_1, 25.5), Some(20_200.0));
}

#[test]
fn blank_is_not_allowed_and_never_filled_in() {
    for blank in ["", " ", "-", "—", "–", "--", "n/a", "N/A", "*", "0", "x"] {
        let table = table(&chart(
            M_T,
            &["11.5", "18.5"],
            &[("3", &["90", blank]), ("4", &["68.0", "55.0"]), ("5", &[blank, "50.0"])],
        ));
        let at = |radius_m: f64, boom_m: f64| table.rating(Length::m(radius_m), Length::m(boom_m));
        assert_eq!(at(4.0, 18.5).capacity(), Some(Mass::t(55.0)));
        assert_eq!(at(4.5, 18.5).capacity(), Some(Mass::t(50.0)));
        for (radius_m, boom_m) in [(3.0, 18.5), (3.5, 18.5), (4.5, 11.5), (5.0, 15.0), (3.0, 15.0)] {
            assert!(
                matches!(at(radius_m, boom_m), Rated::NotAllowed { .. }),
                "{radius_m} {boom_m} {blank:?}"
            );
            assert_eq!(table.capacity_kg(radius_m, boom_m), None);
        }
        assert_eq!(table.min_radius(Length::m(18.5)), Some(Length::m(4.0)));
        assert_eq!(table.max_radius(Length::m(11.5)), Some(Length::m(4.0)));
        assert_eq!(table.min_radius(Length::m(12.0)), Some(Length::m(4.0)));
        assert_eq!(table.min_radius(Length::m(19.0)), None);
    }
}

#[test]
fn off_the_chart_says_where_the_chart_ends() {
    let table = table(&chart(M_T, &["32.5"], &[("5", &["34.5"]), ("28.0", &["6.8"])]));
    let reason = |radius_m, boom_m| {
        table
            .rating(Length::m(radius_m), Length::m(boom_m))
            .reason(Unit::M)
            .unwrap()
    };
    assert_eq!(
        reason(29.1, 32.5),
        "not on the chart: radius 29.10 m, the chart runs from 5.0 m to 28.0 m"
    );
    assert_eq!(
        reason(28.001, 32.5),
        "not on the chart: radius 28.01 m, the chart runs from 5.0 m to 28.0 m"
    );
    assert_eq!(
        reason(4.999, 32.5),
        "not on the chart: radius 4.99 m, the chart runs from 5.0 m to 28.0 m"
    );
    assert_eq!(
        reason(10.0, 33.0),
        "not on the chart: boom length 33.00 m, the chart runs from 32.5 m to 32.5 m"
    );
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -5.0, 0.0] {
        assert!(matches!(
            table.rating(Length::m(odd), Length::m(32.5)),
            Rated::OffChart { axis: Axis::Radius, .. }
        ));
        assert!(matches!(
            table.rating(Length::m(10.0), Length::m(odd)),
            Rated::OffChart { axis: Axis::Boom, .. }
        ));
        assert_eq!(table.capacity_kg(odd, 32.5), None);
    }
}

/// The 90 t chart of the invented scenario: what stands in the row used and in the next one.
#[test]
fn a_reading_names_its_row_its_column_and_the_next_row() {
    let table = table(&chart(
        M_T,
        &["25.5", "32.5"],
        &[
            ("12", &["22.0", "21.2"]),
            ("13", &["20.2*", "19.8"]),
            ("14", &["", "18.4"]),
        ],
    ));
    assert_eq!(
        table.rating(Length::m(12.92), Length::m(32.5)),
        Rated::Capacity {
            mass: Mass::t(19.8),
            row_radius: Length::m(13.0),
            column_boom: Length::m(32.5),
            typed_at: (1, 1),
            next_row: Some((Length::m(14.0), Some(Mass::t(18.4)))),
        }
    );
    let next = |radius_m, boom_m| match table.rating(Length::m(radius_m), Length::m(boom_m)) {
        Rated::Capacity { next_row, .. } => next_row,
        other => panic!("{other:?}"),
    };
    assert_eq!(next(12.0, 25.5), Some((Length::m(13.0), Some(Mass::t(20.2)))));
    assert_eq!(next(13.0, 25.5), Some((Length::m(14.0), None)));
    assert_eq!(next(14.0, 32.5), None);
}

/// A chart printed with the largest radius on top is the same chart.
#[test]
fn falling_radii_are_turned_upside_down() {
    let rising = chart(M_T, &["25.5"], &[("12", &["22.0"]), ("13", &["20.2"])]);
    let mut falling = rising.clone();
    falling.rows.reverse();
    let (rising, falling) = (table(&rising), table(&falling));
    assert_eq!(rising.capacity_kg(12.5, 25.5), falling.capacity_kg(12.5, 25.5));
    let Rated::Capacity { typed_at, .. } = falling.rating(Length::m(12.5), Length::m(25.5)) else {
        panic!()
    };
    assert_eq!(typed_at, (0, 0));
}

/// A chart that gives one issue of a kind; its message must name `words`.
#[track_caller]
fn issue(chart: &RatingChart, kind: IssueKind, has_table: bool, words: &[&str]) {
    let (table, issues) = chart.table();
    assert_eq!(table.is_some(), has_table);
    let [issue] = issues.as_slice() else {
        panic!("{issues:?}")
    };
    assert_eq!(issue.kind, kind);
    let message = issue.message();
    for word in words {
        assert!(message.contains(word), "{message:?} has no {word:?}");
    }
    assert!(!message.ends_with('.'));
}

#[test]
fn odd_charts_are_reported() {
    let good: &[(&str, &[&str])] = &[("12", &["22.0"]), ("13", &["20.2"])];
    let of = |booms, rows| chart(M_T, booms, rows);
    issue(
        &of(&["25.5"], &[("12", &["22"]), ("13", &["20"]), ("12", &["18"])]),
        IssueKind::RepeatedRadius,
        false,
        &["\"12\"", "rows 1 and 3", "split them"],
    );
    issue(
        &of(&["25.5"], &[("12", &["22"]), ("14", &["20"]), ("13", &["18"])]),
        IssueKind::Unsorted,
        false,
        &["\"13\"", "row 3", "in order"],
    );
    issue(
        &of(&["3"], good),
        IssueKind::BoomHeads,
        false,
        &["column 1", "\"3\"", "6 m", "boom angles"],
    );
    issue(
        &of(&["75°"], good),
        IssueKind::BoomHeads,
        false,
        &["75°", "boom angles"],
    );
    issue(
        &of(&["parts of line"], good),
        IssueKind::BoomHeads,
        false,
        &["parts of line"],
    );
    issue(
        &of(&["25.5", "25.5"], &[("12", &["22", "21"])]),
        IssueKind::BoomHeads,
        false,
        &["column 2", "grow from left to right"],
    );
    issue(
        &of(&["25.5"], &[("twelve", &["22.0"])]),
        IssueKind::Radius,
        false,
        &["row 1", "twelve", "12 ft 6 in"],
    );
    issue(
        &of(&["25.5"], &[("0", &["22.0"])]),
        IssueKind::Radius,
        false,
        &["above zero"],
    );
    issue(
        &of(&["25.5"], &[("12", &["22", "21"])]),
        IssueKind::LongRow,
        false,
        &["row 1", "2 capacities", "1 boom"],
    );
    issue(&of(&["25.5"], &[]), IssueKind::Empty, false, &["0 rows"]);
    issue(
        &of(&["25.5"], &[("12", &["2z.0"]), ("13", &["20"])]),
        IssueKind::Unreadable,
        true,
        &["2z.0", "radius 12, boom 25.5", "33,720 lb"],
    );
    issue(
        &of(&["25.5"], &[("12", &["-22"])]),
        IssueKind::Unreadable,
        true,
        &["-22", "not negative"],
    );
    let unit_missing = RatingChart {
        capacity_unit: None,
        ..of(&["25.5"], good)
    };
    issue(
        &unit_missing,
        IssueKind::MissingUnit,
        false,
        &["capacities have no unit"],
    );
    let wrong_unit = RatingChart {
        radius_unit: Some(Unit::Lb),
        ..of(&["25.5"], good)
    };
    issue(&wrong_unit, IssueKind::MissingUnit, false, &["radii have no unit"]);
    let mut on_tyres = of(&["25.5"], good);
    on_tyres.configuration.support = Support::Rubber;
    issue(&on_tyres, IssueKind::OnRubber, true, &["tyres", "outrigger chart"]);
}

/// The cell that rises, and the one before it, give no reading until the rise is confirmed; all others do.
#[test]
fn a_rising_capacity_is_refused_until_confirmed() {
    let mut chart = chart(
        FT_LB,
        &["60.7", "83.7"],
        &[
            ("32.8", &["59,500", "58,400"]),
            ("36.1", &["53,800", "53,100"]),
            ("39.4", &["48,900", "58,400"]),
            ("42.7", &["44,800", "44,500"]),
        ],
    );
    issue(
        &chart,
        IssueKind::Rising,
        true,
        &["\"58,400\"", "radius 39.4, boom 83.7", "53,100", "36.1", "confirm"],
    );
    let read = |chart: &RatingChart, radius_ft, boom_ft| {
        chart
            .table()
            .0
            .unwrap()
            .rating(Length::ft(radius_ft), Length::ft(boom_ft))
    };
    for (radius_ft, boom_ft) in [
        (36.1, 83.7),
        (39.4, 83.7),
        (34.0, 83.7),
        (38.0, 83.7),
        (41.0, 83.7),
        (38.0, 70.0),
    ] {
        let rated = read(&chart, radius_ft, boom_ft);
        assert!(matches!(rated, Rated::Unconfirmed { .. }), "{rated:?}");
        assert!(
            rated
                .reason(Unit::Ft)
                .unwrap()
                .contains("compare it with the printed chart")
        );
    }
    assert_eq!(read(&chart, 42.7, 83.7).capacity(), Some(Mass::lb(44_500.0)));
    assert_eq!(read(&chart, 32.8, 83.7).capacity(), Some(Mass::lb(58_400.0)));
    assert_eq!(read(&chart, 38.0, 60.7).capacity(), Some(Mass::lb(48_900.0)));

    chart.confirm(2, 1);
    assert!(chart.table().1.is_empty());
    assert_eq!(read(&chart, 39.4, 83.7).capacity(), Some(Mass::lb(58_400.0)));
    // between the two rows the smaller rating still holds
    assert_eq!(read(&chart, 38.0, 83.7).capacity(), Some(Mass::lb(53_100.0)));
    // a confirmation belongs to the text that was confirmed
    chart.rows[2].cells[1] = "59,000".to_owned();
    issue(&chart, IssueKind::Rising, true, &["\"59,000\""]);
    chart.rows[2].cells[1] = "48,500".to_owned();
    assert!(chart.table().1.is_empty());
}

/// After a rise, a cell that is still larger than one at a smaller radius is no more to be trusted than the rise.
#[test]
fn what_follows_a_rise_is_refused_too() {
    let chart = chart(
        M_T,
        &["25.5"],
        &[("10", &["50"]), ("11", &["60"]), ("12", &["55"]), ("13", &["45"])],
    );
    issue(&chart, IssueKind::Rising, true, &["\"60\""]);
    let table = chart.table().0.unwrap();
    let read: Vec<_> = [10.0, 11.0, 12.0, 13.0].map(|r| table.capacity_kg(r, 25.5)).to_vec();
    assert_eq!(read, [None, None, None, Some(45_000.0)]);
}

#[test]
fn a_chart_survives_the_file_as_it_was_typed() {
    let mut typed = chart(
        FT_LB,
        &["83.7 ft", "106.6 ft*"],
        &[("32'-10\"", &["58,400*", "—"]), ("36.1", &["53,100"])],
    );
    typed.id = "S90".to_owned();
    typed.footnotes.push("* structural limit".to_owned());
    typed.confirm(0, 0);
    let written = typed.write();
    assert_eq!(written["radius_unit"], "ft");
    assert_eq!(written["rows"][0]["cells"][0], "58,400*");
    let mut read = RatingChart::default();
    read.read(written).unwrap();
    assert_eq!(read, typed);
    let error = RatingChart::default()
        .read(serde_json::json!({ "rows": 3 }))
        .unwrap_err();
    assert_eq!(error.to_string(), "rows: read 3, expected a list");
}

#[test]
fn feet_and_inches_decimal_commas_and_own_units_are_read() {
    let mut mixed = chart(
        FT_LB,
        &["60", "18.288 m"],
        &[("32'-6\"", &["14 t"]), ("40 6/12", &["12,5 t†", "9 kip (1)"])],
    );
    mixed.booms[1] = "83,7".to_owned();
    mixed.decimal = DecimalMark::Comma;
    let table = table(&mixed);
    assert_eq!(table.radii().map(Length::to_ft).collect::<Vec<_>>(), [32.5, 40.5]);
    assert_eq!(table.booms().map(Length::to_ft).collect::<Vec<_>>(), [60.0, 83.7]);
    assert_eq!(table.printed(1, 0), Some(Mass::t(12.5)));
    assert_eq!(table.printed(1, 1), Some(Mass::kip(9.0)));
    assert_eq!(table.printed(0, 1), None);
    assert_eq!(table.printed(2, 0), None);
}

/// Strictly growing lengths from a first one.
fn growing(first: core::ops::Range<f64>, count: core::ops::Range<usize>) -> impl Strategy<Value = Vec<f64>> {
    (first, proptest::collection::vec(0.5_f64..5.0, count)).prop_map(|(first, steps)| {
        let mut lengths = vec![first];
        for step in steps {
            lengths.push(lengths[lengths.len() - 1] + step);
        }
        lengths
    })
}

type Numbers = (Vec<f64>, Vec<f64>, Vec<Vec<Option<f64>>>);

/// Radii, boom lengths and capacities that fall with the radius, with blanks.
fn falling_chart() -> impl Strategy<Value = Numbers> {
    (growing(3.0..5.0, 1..8), growing(8.0..15.0, 1..4)).prop_flat_map(|(radii_m, booms_m)| {
        let cell = (0.0_f64..8.0, proptest::bool::weighted(0.1));
        let cells = proptest::collection::vec(proptest::collection::vec(cell, booms_m.len()), radii_m.len());
        (Just(radii_m), Just(booms_m), cells).prop_map(|(radii_m, booms_m, drops)| {
            let mut left = vec![100.0; booms_m.len()];
            let fall = |row: &Vec<(f64, bool)>| {
                let next = |(left, &(drop, blank)): (&mut f64, &(f64, bool))| {
                    *left -= drop;
                    (!blank).then_some(*left)
                };
                left.iter_mut().zip(row).map(next).collect::<Vec<_>>()
            };
            let cells = drops.iter().map(fall).collect();
            (radii_m, booms_m, cells)
        })
    })
}

fn typed((radii_m, booms_m, cells): &Numbers) -> RatingChart {
    let text = |t: &Option<f64>| t.map_or(String::new(), |t| t.to_string());
    RatingChart {
        radius_unit: Some(Unit::M),
        boom_unit: Some(Unit::M),
        capacity_unit: Some(Unit::T),
        booms: booms_m.iter().map(f64::to_string).collect(),
        rows: radii_m
            .iter()
            .zip(cells)
            .map(|(radius, row)| ChartRow {
                radius: radius.to_string(),
                cells: row.iter().map(text).collect(),
            })
            .collect(),
        ..RatingChart::default()
    }
}

/// The listed neighbours of a value and how far between them it lies; `None` outside.
fn neighbours(list: &[f64], value: f64) -> Option<(usize, usize, f64)> {
    let next = list.iter().position(|&x| x >= value)?;
    if list[next] <= value {
        return Some((next, next, 0.0));
    }
    let before = next.checked_sub(1)?;
    Some((before, next, (value - list[before]) / (list[next] - list[before])))
}

proptest! {
    /// Never more than a straight line between the neighbours, never more than any neighbour, nothing beside a blank.
    #[test]
    fn a_reading_never_exceeds_interpolation(numbers in falling_chart(), at in 0.0_f64..1.0, along in 0.0_f64..1.0) {
        let table = typed(&numbers).table().0.unwrap();
        let (radii_m, booms_m, cells) = &numbers;
        let within = |list: &[f64], part: f64| list[0] - 1.0 + part * (list[list.len() - 1] - list[0] + 2.0);
        let (radius_m, boom_m) = (within(radii_m, at), within(booms_m, along));
        let read = table.rating(Length::m(radius_m), Length::m(boom_m)).capacity();
        prop_assert_eq!(read.map(Mass::to_kg), table.capacity_kg(radius_m, boom_m));
        let around = neighbours(radii_m, radius_m).zip(neighbours(booms_m, boom_m));
        let Some(((r0, r1, v), (c0, c1, u))) = around else {
            prop_assert_eq!(read, None);
            return Ok(());
        };
        let corners = [cells[r0][c0], cells[r0][c1], cells[r1][c0], cells[r1][c1]];
        let Some(read) = read else {
            prop_assert!(corners.contains(&None));
            return Ok(());
        };
        let corners = corners.map(|c| c.expect("no reading beside a blank"));
        let straight = (1.0 - v) * ((1.0 - u) * corners[0] + u * corners[1]) + v * ((1.0 - u) * corners[2] + u * corners[3]);
        let slack = 1e-9;
        prop_assert!(read.to_t() <= straight + slack);
        prop_assert!(corners.iter().all(|&c| read.to_t() <= c + slack));
    }

    /// On a chart that falls with the radius a larger radius never gives more.
    #[test]
    fn falling_charts_read_falling(numbers in falling_chart(), boom in 0.0_f64..1.0, near in 0.0_f64..1.0, far in 0.0_f64..1.0) {
        let table = typed(&numbers).table().0.unwrap();
        let (radii_m, booms_m, _) = &numbers;
        let between = |list: &[f64], part: f64| list[0] + part * (list[list.len() - 1] - list[0]);
        let boom_m = between(booms_m, boom);
        let read = |part: f64| table.capacity_kg(between(radii_m, part), boom_m);
        if let (Some(near), Some(far)) = (read(near.min(far)), read(near.max(far))) {
            prop_assert!(far <= near);
        }
    }
}
