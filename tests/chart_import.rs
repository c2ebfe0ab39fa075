//! Pasted rating charts come out with the numbers that went in: nothing filled in, nothing converted unasked.

use setday::crane::{IssueKind, Rated, RatingChart, Support};
use setday::import::{ChartAnswers, ChartImport, QuestionId, read_chart};
use setday::quantity::{DecimalMark, Length, Mass, Unit};

const CLEAN_90T: &str = include_str!("../load-charts-sample/invented_90t_full.csv");
const SAMPLES: [(&str, f64, f64); 7] = [
    (include_str!("../load-charts-sample/invented_60t_full.csv"), 60.0, 10.5),
    (include_str!("../load-charts-sample/invented_60t_part.csv"), 60.0, 3.0),
    (CLEAN_90T, 90.0, 22.5),
    (include_str!("../load-charts-sample/invented_90t_mid.csv"), 90.0, 22.5),
    (include_str!("../load-charts-sample/invented_90t_part.csv"), 90.0, 9.5),
    (
        include_str!("../load-charts-sample/invented_200t_full.csv"),
        200.0,
        69.0,
    ),
    (
        include_str!("../load-charts-sample/invented_200t_part.csv"),
        200.0,
        22.0,
    ),
];
const FEET_POUNDS: &str = include_str!("../load-charts-sample/messy_90t_feet_pounds.txt");
const DECIMAL_COMMA: &str = include_str!("../load-charts-sample/messy_90t_semicolon_decimal_comma.csv");
const FIXED_WIDTH: &str = include_str!("../load-charts-sample/messy_90t_fixed_width.txt");
const TRANSPOSED: &str = include_str!("../load-charts-sample/messy_90t_transposed.txt");

fn class(t: f64) -> ChartAnswers {
    ChartAnswers {
        crane_class: Some(Mass::t(t)),
        ..ChartAnswers::default()
    }
}

#[track_caller]
fn imported(text: &str, answers: &ChartAnswers) -> RatingChart {
    let import = read_chart(text, answers);
    assert_eq!(import.questions, []);
    import.chart.unwrap_or_else(|| panic!("no chart: {:?}", import.notes))
}

/// The numbers of one of our own files, taken apart here by hand: radii, boom lengths and capacities in metres and tonnes.
fn by_hand(csv: &str) -> (Vec<f64>, Vec<f64>, Vec<Vec<Option<f64>>>) {
    let mut lines = csv.lines().filter(|line| !line.starts_with('#'));
    let head = lines.next().expect("a line of heads").split(',').skip(1);
    let booms = head
        .map(|h| {
            h.trim_start_matches("boom_")
                .trim_end_matches("_m")
                .parse()
                .expect("a head holds a length")
        })
        .collect();
    let rows = lines.map(|line| {
        line.split(',')
            .map(|field| field.parse().ok())
            .collect::<Vec<Option<f64>>>()
    });
    let (radii, cells) = rows
        .map(|row| (row[0].expect("every row has a radius"), row[1..].to_vec()))
        .unzip();
    (radii, booms, cells)
}

/// The chart's numbers are those of the file, within half a digit of what the paste prints; all but `wrong` cells.
#[track_caller]
fn same_numbers(chart: &RatingChart, file: &str, length_m: f64, capacity_t: f64, wrong: &[(usize, usize)]) {
    let (radii, booms, cells) = by_hand(file);
    let (table, issues) = chart.table();
    assert_eq!(
        issues
            .iter()
            .map(|i| (i.row.expect("a row"), i.column.expect("a column")))
            .collect::<Vec<_>>(),
        wrong
    );
    let table = table.expect("nothing blocks the whole chart");
    let near = |found: Vec<f64>, wanted: &[f64]| {
        assert_eq!(found.len(), wanted.len());
        found
            .iter()
            .zip(wanted)
            .for_each(|(f, w)| assert!((f - w).abs() <= length_m, "{f} for {w}"));
    };
    near(table.radii().map(Length::to_m).collect(), &radii);
    near(table.booms().map(Length::to_m).collect(), &booms);
    for (row, wanted) in cells.iter().enumerate() {
        for (column, wanted) in wanted.iter().enumerate() {
            if wrong.iter().any(|&(r, c)| c == column && (row + 1 == r || row == r)) {
                assert_eq!(table.printed(row, column), None, "odd cells are not read");
                continue;
            }
            match (table.printed(row, column).map(Mass::to_t), wanted) {
                (None, None) => {}
                (Some(found), Some(wanted)) => {
                    assert!(
                        (found - wanted).abs() <= capacity_t,
                        "row {row}, column {column}: {found} for {wanted}"
                    );
                }
                other => panic!("row {row}, column {column}: {other:?}"),
            }
        }
    }
}

/// Half of 0.1 ft and half of 100 lb, the digits of the pastes in feet and pounds.
const HALF_A_DIGIT: (f64, f64) = (0.05 * 0.3048 + 1e-9, 0.05 * 0.453_592_37 + 1e-9);

#[test]
fn our_own_form_is_read_as_it_stands() {
    for (csv, class_t, counterweight_t) in SAMPLES {
        assert!(csv.starts_with("# INVENTED SAMPLE, NOT A REAL CRANE, never for a lift\n"));
        let chart = imported(csv, &class(class_t));
        same_numbers(&chart, csv, 1e-12, 1e-12, &[]);
        assert_eq!(chart.configuration.counterweight.get(), Some(Mass::t(counterweight_t)));
        assert!(chart.configuration.outriggers.ends_with([')', '%']));
        assert_eq!(chart.configuration.support, Support::Outriggers);
        assert_eq!(chart.configuration.sector, "360 deg");
        assert_eq!(chart.said.who, "made-up numbers");
        assert!(chart.name.ends_with("(invented)"));
        assert_eq!(chart.footnotes, ["INVENTED SAMPLE, NOT A REAL CRANE, never for a lift"]);
        // without the crane's class nothing is left to ask either
        assert_eq!(imported(csv, &ChartAnswers::default()), chart);
    }
}

#[test]
fn tabs_feet_and_pounds_with_a_planted_cell() {
    let chart = imported(FEET_POUNDS, &class(90.0));
    // 39.4 ft, 83.7 ft: 58,400 below 53,100
    same_numbers(&chart, CLEAN_90T, HALF_A_DIGIT.0, HALF_A_DIGIT.1, &[(9, 2)]);
    let issue = &chart.table().1[0];
    assert_eq!(issue.kind, IssueKind::Rising);
    assert!(
        issue
            .message()
            .contains("\"58,400\" at radius 39.4, boom 83.7 ft: expected no more than the \"53,100\"")
    );
    let table = chart.table().0.unwrap();
    assert!(matches!(
        table.rating(Length::ft(39.4), Length::ft(83.7)),
        Rated::Unconfirmed { .. }
    ));
    // typed text, footnote marks and lines of text are kept
    assert_eq!(chart.booms[4], "129.6 ft*");
    assert_eq!(chart.cell(3, 4), "57,300*");
    assert_eq!(chart.cell(0, 1), "—");
    assert!(
        chart
            .footnotes
            .iter()
            .any(|f| f == "* = structural limit. Values do not include 2.5% list.")
    );
    assert!(chart.footnotes.iter().any(|f| f.contains("49,600 lb CTWT")));
}

#[test]
fn semicolons_and_decimal_commas() {
    let chart = imported(DECIMAL_COMMA, &class(90.0));
    assert_eq!(chart.decimal, DecimalMark::Comma);
    same_numbers(&chart, CLEAN_90T, 1e-12, 1e-12, &[]);
    assert_eq!(chart.cell(3, 4), "26,0 1)");
    assert!(chart.footnotes.contains(&"1) limited by the boom section".to_owned()));
}

#[test]
fn text_of_a_page_with_columns_held_apart_by_spaces() {
    let chart = imported(FIXED_WIDTH, &class(90.0));
    assert_eq!(chart.capacity_unit, Some(Unit::Kip));
    same_numbers(&chart, CLEAN_90T, HALF_A_DIGIT.0, HALF_A_DIGIT.1, &[]);
    assert_eq!(chart.cell(4, 5), "40.8†");
    assert!(chart.footnotes.contains(&"† reeving limits the load".to_owned()));
}

#[test]
fn radii_across_and_a_wrapped_head() {
    let import = read_chart(TRANSPOSED, &class(90.0));
    assert!(import.notes.iter().any(|n| n.text.contains("the table was turned")));
    let chart = imported(TRANSPOSED, &class(90.0));
    same_numbers(&chart, CLEAN_90T, HALF_A_DIGIT.0, HALF_A_DIGIT.1, &[]);
    assert_eq!(chart.booms[0], "37.7");
    assert_eq!(chart.rows[0].radius, "9.8");
}

/// The one question that a text leaves open, in which `words` stand.
#[track_caller]
fn asks(text: &str, answers: &ChartAnswers, id: QuestionId, words: &[&str]) {
    let ChartImport { chart, questions, .. } = read_chart(text, answers);
    assert!(chart.is_none());
    let [question] = questions.as_slice() else {
        panic!("{questions:?}")
    };
    assert_eq!(question.id, id);
    let choices: Vec<&str> = question.choices.iter().map(|c| c.text.as_str()).collect();
    let all = format!("{} {}", question.text, choices.join(" | "));
    for word in words {
        assert!(all.contains(word), "{all:?} has no {word:?}");
    }
    assert!(!question.text.ends_with('.'));
}

#[test]
fn capacities_in_1000_lb_read_as_tonnes_are_asked() {
    let as_tonnes = FIXED_WIDTH.replace("Capacities in 1,000 lb", "Capacities in t");
    let words = [
        "198.4 t",
        "90 t class",
        "kip (1,000 lb): the largest is 90.0 t or 198,400 lb",
    ];
    asks(&as_tonnes, &class(90.0), QuestionId::CapacityUnit, &words);
    let chart = imported(&as_tonnes, &class(90.0).with(QuestionId::CapacityUnit, "kip"));
    same_numbers(&chart, CLEAN_90T, HALF_A_DIGIT.0, HALF_A_DIGIT.1, &[]);
    // US tons are a tenth smaller than tonnes
    asks(
        CLEAN_90T,
        &class(81.6),
        QuestionId::CapacityUnit,
        &["90.0 t", "82 t class", "US ton (2,000 lb): the largest is 81.6 t"],
    );
    // a person who insists is believed
    let insisted = imported(&as_tonnes, &class(90.0).with(QuestionId::CapacityUnit, "t"));
    assert_eq!(insisted.capacity_unit, Some(Unit::T));
}

#[test]
fn units_that_nobody_names_are_asked_once() {
    let text = "Radius\t11.5\t18.5\n3\t90\t\n4\t68.0\t55.0\n";
    let ChartImport { chart, questions, .. } = read_chart(text, &class(90.0));
    assert!(chart.is_none());
    assert_eq!(
        questions.iter().map(|q| q.id).collect::<Vec<_>>(),
        [QuestionId::LengthUnit, QuestionId::CapacityUnit]
    );
    let answers = class(90.0)
        .with(QuestionId::LengthUnit, "m")
        .with(QuestionId::CapacityUnit, "t");
    let chart = imported(text, &answers);
    assert_eq!(chart.table().0.unwrap().capacity_kg(4.0, 18.5), Some(55_000.0));
    // a unit in some of the cells is no answer for the others
    let mixed = "Radius\tBoom 60 ft\tcapacities in lb\n10\t31,000\n12.5\t30,000\n15.1 ft\t27,500\n";
    asks(
        mixed,
        &ChartAnswers::default(),
        QuestionId::LengthUnit,
        &["radii", "\"10\""],
    );
    let tons = "Radius ft\tBoom 60 ft\tBoom 80 ft\tcapacities in tons\n10\t31\t30\n";
    asks(
        tons,
        &ChartAnswers::default(),
        QuestionId::CapacityUnit,
        &["US ton (2,000 lb)", "tonne (1,000 kg)"],
    );
    let wrong = read_chart(text, &answers.with(QuestionId::LengthUnit, "furlongs"));
    assert!(wrong.chart.is_none() && wrong.notes.iter().any(|n| n.text.contains("furlongs")));
}

#[test]
fn a_point_before_three_digits_is_asked() {
    let dots = "radius_m;boom_11_m;boom_18_m\n# capacity: kg\n3;9.000;\n4;6.800;5.500\n";
    asks(
        dots,
        &ChartAnswers::default(),
        QuestionId::DecimalMark,
        &["9.000", "12.5", "12,5"],
    );
    let capacity_kg = |mark| {
        let chart = imported(dots, &ChartAnswers::default().with(QuestionId::DecimalMark, mark));
        chart.table().0.unwrap().capacity_kg(4.0, 18.0)
    };
    assert_eq!(capacity_kg(","), Some(5500.0));
    assert_eq!(capacity_kg("."), Some(5.5));
    let both = "radius_m\tboom_11_m\tboom_18_m\n# capacity: t\n3,5\t90.5\t\n4\t68.0\t55.0\n";
    asks(
        both,
        &ChartAnswers::default(),
        QuestionId::DecimalMark,
        &["3,5", "90.5"],
    );
}

#[test]
fn columns_that_are_no_boom_lengths_are_asked() {
    let angles = "Radius m\t75°\t70°\t65°\tcapacities in t\n12\t22.0\t21.0\t20.0\n13\t20.2\t19.0\t18.0\n";
    asks(
        angles,
        &ChartAnswers::default(),
        QuestionId::Columns,
        &["75°", "boom angles"],
    );
    let refused = read_chart(angles, &ChartAnswers::default().with(QuestionId::Columns, "other"));
    assert!(refused.chart.is_none() && refused.questions.is_empty());
    assert!(
        refused
            .notes
            .iter()
            .any(|n| n.text.contains("paste the table by boom length"))
    );
    let parts = "Radius, m\t4\t6\t8\ncapacities in t\t\t\t\n3\t22.0\t30.0\t38.0\n13\t20.2\t20.2\t20.2\n";
    asks(
        parts,
        &ChartAnswers::default(),
        QuestionId::Columns,
        &["4, 6, 8", "parts of line"],
    );
    let answers = ChartAnswers::default()
        .with(QuestionId::Columns, "booms")
        .with(QuestionId::LengthUnit, "m");
    let insisted = imported(parts, &answers);
    assert!(
        insisted
            .table()
            .1
            .iter()
            .any(|i| i.kind == IssueKind::BoomHeads && i.blocks)
    );
    let headless = read_chart("3\t90\t80\n4\t68.0\t55.0\n", &ChartAnswers::default());
    assert!(headless.chart.is_none() && headless.notes.iter().any(|n| n.text.contains("row of heads")));
}

#[test]
fn merged_tables_are_split() {
    let one = "Radius m\tBoom 11.5 m\tBoom 18.5 m\n3\t90\t\n4\t68.0\t55.0\n5\t56.0\t50.0\n";
    let rows = "3\t82.8\t\n4\t62.6\t50.6\n5\t50.3\t44.9\n";
    let head = "capacities in t\n";
    let below = format!("{head}{one}{rows}");
    let with_heads = format!("{head}{one}9.5 t counterweight\nRadius m\tBoom 11.5 m\tBoom 25.5 m\n{rows}");
    let row_by_row = format!(
        "{head}Radius m\tBoom 11.5 m\tBoom 18.5 m\n3\t90\t\n3\t82.8\t\n4\t68.0\t55.0\n4\t62.6\t50.6\n5\t56\t50\n5\t50.3\t44.9\n"
    );
    for text in [below, with_heads, row_by_row] {
        asks(&text, &class(90.0), QuestionId::Table, &["2 tables", "rows 3 to 5"]);
        let read = |key: &str| {
            let chart = imported(&text, &class(90.0).with(QuestionId::Table, key));
            chart.table().0.unwrap().capacity_kg(4.0, 11.5)
        };
        assert_eq!((read("1"), read("2")), (Some(68_000.0), Some(62_600.0)));
    }
    // one repeated radius is a typing error: the chart reports it
    let once = imported(&format!("{head}{one}5\t55.0\t49.0\n"), &class(90.0));
    assert_eq!(once.table().1[0].kind, IssueKind::RepeatedRadius);
}

#[test]
fn charts_on_tyres_are_asked() {
    let text = "Pick and carry, capacities in t\nRadius m\tBoom 11.5 m\n3\t22\n4\t18\n";
    asks(
        text,
        &ChartAnswers::default(),
        QuestionId::Support,
        &["tyres", "on outriggers"],
    );
    let chart = imported(text, &ChartAnswers::default().with(QuestionId::Support, "rubber"));
    assert_eq!(chart.table().1[0].kind, IssueKind::OnRubber);
}

#[test]
fn unreadable_cells_stay_as_typed_and_are_reported() {
    let text = "capacities in t\nRadius m\tBoom 11.5 m\tBoom 18.5 m\n3\t90\t\n4\t6B.0\t55.0\n";
    let chart = imported(text, &class(90.0));
    assert_eq!(chart.cell(1, 0), "6B.0");
    let issue = &chart.table().1[0];
    assert_eq!(
        (issue.kind, issue.row, issue.column),
        (IssueKind::Unreadable, Some(1), Some(0))
    );
}

#[test]
fn quoted_cells_bars_commas_and_inch_marks() {
    let quoted = "Radius,\"Boom\n60.7 ft\",Boom 83.7 ft\n# capacity: lb\n\"32'-6\"\"\",\"58,500\",\"57,400\"\n36.1 ft,\"53,800\",n/a\n";
    let inches = "capacity lb\nRadius\tBoom 60.7 ft\tBoom 83.7 ft\n32'-6\"\t58,500\t57,400\n36 1/12 ft\t53,800\t*\n";
    let bars = "| Radius ft | 60.7 ft | 83.7 ft |\n|---|---|---|\n| 32.5 | 58,500 lb | 57,400 lb |\n| 36.1 | 53,800 lb | — |\n";
    for text in [quoted, inches, bars] {
        let answers = ChartAnswers::default().with(QuestionId::LengthUnit, "ft");
        let table = imported(text, &answers).table().0.unwrap();
        assert_eq!(
            table.capacity_kg(32.5 * 0.3048, 83.7 * 0.3048),
            Some(Mass::lb(57_400.0).to_kg()),
            "{text}"
        );
        assert_eq!(table.capacity_kg(33.0 * 0.3048, 83.7 * 0.3048), None);
        assert_eq!(
            table.capacity_kg(33.0 * 0.3048, 60.7 * 0.3048),
            Some(Mass::lb(53_800.0).to_kg())
        );
    }
}

/// Single spaces hold columns apart only while no cell is blank: else nothing tells which cell is missing.
#[test]
fn single_spaces_are_read_only_where_every_row_is_full() {
    let full = "Capacities in lb\nRadius 37.7 ft 60.7 ft 83.7 ft\n9.8 ft 198,400 — —\n13.1 ft 149,900 121,300 101,400*\n* structural\n";
    let chart = imported(full, &class(90.0));
    assert_eq!(chart.cell(1, 2), "101,400*");
    assert_eq!(chart.cell(0, 1), "—");
    assert_eq!(chart.rows[1].radius, "13.1 ft");
    let blank = full.replace("198,400 — —", "198,400");
    assert!(read_chart(&blank, &class(90.0)).chart.is_none());
}

#[test]
fn a_broken_row_is_not_lost_in_silence() {
    let text = "capacities in t\nRadius m\tBoom 11.5 m\tBoom 18.5 m\n3\t90\t\nA\t68\t55\n5\t56\t50\n";
    let import = read_chart(text, &class(90.0));
    assert!(
        import
            .notes
            .iter()
            .any(|n| n.line == Some(4) && n.text.contains("\"A 68 55\"")),
        "{:?}",
        import.notes
    );
}

#[test]
fn text_without_a_table_says_what_was_expected() {
    for text in [
        "",
        "\n\n",
        "a letter about cranes",
        "12",
        "radius_m,boom_11_m\n",
        ";;;\n;;;",
        "# only: comments",
        "\"",
        "1\t",
    ] {
        let import = read_chart(text, &class(90.0));
        assert!(
            import.chart.is_none() && import.questions.is_empty(),
            "{text:?}: {import:?}"
        );
        assert!(
            import.notes.iter().any(|n| n.text.contains("expected rows")),
            "{text:?}"
        );
    }
}

#[cfg(not(target_arch = "wasm32"))]
mod properties {
    use super::*;
    use proptest::prelude::*;

    /// A part of one of the messy pastes, cut and put together again.
    fn scrambled() -> impl Strategy<Value = String> {
        let pastes = [FEET_POUNDS, DECIMAL_COMMA, FIXED_WIDTH, TRANSPOSED, CLEAN_90T];
        let piece = (0_usize..5, 0.0_f64..1.0, 0_usize..200).prop_map(move |(paste, start, length)| {
            let signs: Vec<char> = pastes[paste].chars().collect();
            let start = (start * signs.len() as f64) as usize;
            signs[start..signs.len().min(start + length)].iter().collect::<String>()
        });
        proptest::collection::vec(piece, 0..6).prop_map(|pieces| pieces.concat())
    }

    proptest! {
        /// Whatever is pasted: no panic, and a chart only when nothing is left to ask.
        #[test]
        fn importing_is_total(text in prop_oneof!["\\PC*", "[0-9.,;\t\n|\"'# mftlb—-]{0,200}", scrambled()], t in 0.0_f64..500.0) {
            let import = read_chart(&text, &class(t));
            prop_assert!(import.chart.is_none() || import.questions.is_empty());
            prop_assert!(import.chart.is_some() || !import.questions.is_empty() || !import.notes.is_empty());
            if let Some(chart) = import.chart {
                let _ = chart.table();
            }
        }
    }
}
