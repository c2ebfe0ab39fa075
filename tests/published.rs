//! Published cases: figures from outside the project, one table entry each in `tests/published/*.toml`, run natively and in Chromium.
//!
//! The number of cases may only grow. `docs/verification.md` is made from the same run: after adding cases, write it anew with
//! `SETDAY_WRITE_DOCS=1 cargo test --test published`.
#![allow(clippy::float_cmp, clippy::unwrap_used)]

use serde::Deserialize;
use setday::check::exceeds;
use setday::crane::{
    Base, Boom, RatingChart, Sheaves, bearing_pa, force_n, gust_factor, head_needed_m, hoisting_ratio, pad_loads,
    parts_needed, permitted_m_s, pressure_pa, rule_of_thumb_kg,
};
use setday::evaluate::{critical, evaluate};
use setday::json::Json;
use setday::plan::{Assembly, Component, Layer, LayerWeight, Load, Opening, Place3, Shape, WeighPoint, Weight, sample};
use setday::quantity::{AreaDensity, Entry, Force, Length, Mass, Pressure, Unit};
use setday::rigging::closed_form as rig;
use setday::rules::{Keep, Profile, Soil, keep_away, presumed, trigger_m};
use setday::takeoff::{self, Item};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use toml::{Table, Value};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// How many cases there are. Raise it with each new one; never lower it.
const CASES: usize = 127;

const FILES: [(&str, &str); 3] = [
    ("Weight and centre of gravity", include_str!("published/weight.toml")),
    ("Rigging", include_str!("published/rigging.toml")),
    ("Crane", include_str!("published/crane.toml")),
];

#[derive(Deserialize)]
struct File {
    case: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    check: String,
    source: String,
    given: Table,
    expected: Table,
    tolerance: Tolerance,
}

#[derive(Deserialize)]
struct Tolerance {
    absolute: Option<f64>,
    relative: Option<f64>,
    because: String,
}

type Found = BTreeMap<&'static str, Value>;

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_published_case() {
    let (mut failures, mut count) = (String::new(), 0);
    let mut table = String::new();
    for (title, text) in FILES {
        let file: File = toml::from_str(text).unwrap();
        writeln!(
            table,
            "\n## {title}\n\n| case | expected | found | tolerance | source |\n|---|---|---|---|---|"
        )
        .unwrap();
        for case in file.case {
            count += 1;
            assert!(
                case.source.len() > 10 && case.tolerance.because.len() > 3,
                "{}: no source or reason",
                case.name
            );
            let found = compute(&case);
            for (key, expected) in &case.expected {
                let Some(value) = found.get(key.as_str()) else {
                    writeln!(failures, "{}: nothing found for {key}", case.name).unwrap();
                    continue;
                };
                if !agrees(expected, value, &case.tolerance) {
                    writeln!(failures, "{}: {key} expected {expected}, found {value}", case.name).unwrap();
                }
            }
            table.push_str(&row(&case, &found));
        }
    }
    assert!(failures.is_empty(), "\n{failures}");
    assert_eq!(
        count, CASES,
        "the number of published cases may only grow: set CASES to {count} if cases were added"
    );
    #[cfg(not(target_arch = "wasm32"))]
    compare_docs(&table, count);
}

/// The page in docs/ holds what this run found.
#[cfg(not(target_arch = "wasm32"))]
fn compare_docs(table: &str, count: usize) {
    let page = format!(
        "# Verification\n\nEach row is a figure from outside the project: a standard, a handbook, a textbook, or statics worked by hand. \
         Made by `tests/published.rs`, which runs the {count} cases natively and in Chromium.\n{table}"
    );
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/verification.md");
    if std::env::var_os("SETDAY_WRITE_DOCS").is_some() {
        std::fs::write(path, &page).unwrap();
    }
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    assert!(
        kept == page,
        "docs/verification.md is not what this run found: SETDAY_WRITE_DOCS=1 cargo test --test published"
    );
}

fn agrees(expected: &Value, found: &Value, tolerance: &Tolerance) -> bool {
    match (number(expected), number(found)) {
        (Some(expected), Some(found)) => {
            let allowed = tolerance
                .absolute
                .unwrap_or(0.0)
                .max(tolerance.relative.unwrap_or(0.0) * expected.abs());
            (expected - found).abs() <= allowed
        }
        _ => expected == found,
    }
}

fn row(case: &Case, found: &Found) -> String {
    let short = |value: &Value| match value {
        Value::Float(x) => {
            let text = format!("{x:.4}");
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        }
        other => other.to_string(),
    };
    let list = |pairs: Vec<(&str, &Value)>| {
        pairs
            .iter()
            .map(|(k, v)| format!("{k} {}", short(v)))
            .collect::<Vec<_>>()
            .join(", ")
    };
    let expected = list(case.expected.iter().map(|(k, v)| (k.as_str(), v)).collect());
    let found = list(
        case.expected
            .keys()
            .filter_map(|k| Some((k.as_str(), found.get(k.as_str())?)))
            .collect(),
    );
    let tolerance = match (case.tolerance.absolute, case.tolerance.relative) {
        (_, Some(relative)) => format!("{} %", relative * 100.0),
        (Some(absolute), None) => format!("±{absolute}"),
        (None, None) => "exact".to_owned(),
    };
    format!(
        "| {} | {expected} | {found} | {tolerance}: {} | {} |\n",
        case.name, case.tolerance.because, case.source
    )
}

fn number(value: &Value) -> Option<f64> {
    match value {
        Value::Float(x) => Some(*x),
        Value::Integer(i) => Some(*i as f64),
        _ => None,
    }
}

impl Case {
    fn num(&self, key: &str) -> f64 {
        self.given
            .get(key)
            .and_then(number)
            .unwrap_or_else(|| panic!("{}: given lacks the number {key}", self.name))
    }
    fn rad(&self, key: &str) -> f64 {
        self.num(key).to_radians()
    }
    /// A choice by the name it has in a plan file.
    fn named<T: Json + Default>(&self, key: &str) -> T {
        let mut choice = T::default();
        choice
            .read(serde_json::Value::from(self.given[key].as_str().unwrap()))
            .unwrap();
        choice
    }
    fn list(&self, key: &str) -> Vec<f64> {
        self.given
            .get(key)
            .and_then(Value::as_array)
            .map(|a| a.iter().filter_map(number).collect())
            .unwrap_or_default()
    }
    fn boom(&self) -> Boom {
        let depth_m = self.given.get("depth").and_then(number).unwrap_or(0.0);
        Boom {
            length_m: self.num("length"),
            pin_back_m: self.num("pin_back"),
            pin_height_m: self.num("pin_height"),
            depth_m,
        }
    }
}

fn found<const N: usize>(values: [(&'static str, f64); N]) -> Found {
    values
        .into_iter()
        .map(|(key, value)| (key, Value::Float(value)))
        .collect()
}

/// Calls the one function of the library that a case is about. Lengths of boom cases may be in any one unit.
fn compute(case: &Case) -> Found {
    match case.check.as_str() {
        "cg" => cg(case),
        "panel" => panel(case),
        "weighing" => weighing(case),
        "assembly_psf" => assembly_psf(case),
        "psf_to_kpa" => {
            let weight = Mass::kg(AreaDensity::psf(case.num("psf")).to_kg_per_m2()).weight();
            found([("kpa", Pressure::pa(weight.to_n()).to_kpa())])
        }
        "symmetric_bridle" => {
            let legs = case.num("legs") as u8;
            found([(
                "tension",
                rig::symmetric_bridle_n(case.num("load"), legs, case.rad("theta_deg")),
            )])
        }
        "bridle_by_lengths" => bridle_by_lengths(case),
        "two_legs" => {
            let [t1, t2] = rig::two_legs_n(case.num("load"), case.rad("theta1_deg"), case.rad("theta2_deg"));
            found([("t1", t1), ("t2", t2)])
        }
        "apex" => {
            let (x, rise) = rig::apex_m(case.num("leg1"), case.num("leg2"), case.num("span")).unwrap();
            found([("x", x), ("rise", rise)])
        }
        "even_shares" => {
            let [a, b, c, d] = rig::even_shares(case.num("along"), case.num("across"));
            found([("first_end", a + b), ("second_end", c + d)])
        }
        "stiff_bound" => {
            let bounds = rig::stiff_box_bounds(case.num("along"), case.num("across"));
            found([("worst", bounds.into_iter().fold(0.0, f64::max))])
        }
        "convention" => convention(case),
        "tilt_one_hook" => {
            let tilt = rig::tilt_one_hook_rad(case.num("offset_m"), case.num("height_m"));
            found([
                ("tilt_deg", tilt.to_degrees()),
                ("rise_m", case.num("length_m") * libm::sin(tilt)),
            ])
        }
        "tilt_under_bar" => {
            let tilt = rig::tilt_under_bar_rad(
                case.num("load_kg"),
                case.num("offset_m"),
                case.num("rise_m"),
                case.num("cg_m"),
                &[],
            );
            let mut all = found([("tilt_deg", tilt.map_or(f64::NAN, f64::to_degrees))]);
            all.insert("stable", Value::Boolean(tilt.is_some()));
            all
        }
        "bar_compression" => bar_compression(case),
        "net_capacity" => {
            let deducted: f64 = case.list("deductions").iter().sum();
            found([("deducted", deducted), ("net", case.num("gross") - deducted)])
        }
        "gross_load" => gross_load(case),
        "chart_rating" => chart_rating(case),
        "exceeds" => {
            let above = exceeds(case.num("gross") / case.num("capacity"), case.num("limit"));
            BTreeMap::from([("above", Value::Boolean(above))])
        }
        "boom" => {
            let (boom, radius) = (case.boom(), case.num("radius"));
            let mut all = found([
                ("angle_deg", boom.angle_rad(radius).map_or(f64::NAN, f64::to_degrees)),
                ("head", boom.head_height_m(radius).unwrap_or(f64::NAN)),
            ]);
            all.insert("reaches", Value::Boolean(boom.head_height_m(radius).is_some()));
            all
        }
        "boom_gap" => {
            let (radius, half) = (case.num("radius"), case.num("half_size"));
            let corners = [
                [radius - half, -26.0],
                [radius + half, -26.0],
                [radius + half, 26.0],
                [radius - half, 26.0],
            ];
            found([("gap", case.boom().gap_m(radius, &corners, case.num("top")).unwrap())])
        }
        "headroom" => {
            let parts = ["floor", "carry", "hook", "block", "two_block"].map(|key| case.num(key));
            found([("head", head_needed_m(parts[0], parts[1], parts[2], parts[3], parts[4]))])
        }
        "boom_drop" => {
            let boom = Boom {
                length_m: case.num("length"),
                pin_back_m: 0.0,
                pin_height_m: 0.0,
                depth_m: 0.0,
            };
            let [before, after] =
                [0.0, case.num("radius_change")].map(|d| boom.head_height_m(case.num("radius") + d).unwrap());
            found([("head_change", after - before)])
        }
        "chart_boom" => chart_boom(case),
        "gross_by_chart" => gross_by_chart(case),
        "critical" => {
            let [us, bc] = [Profile::Us, Profile::BritishColumbia].map(|rules| {
                Value::Boolean(critical(rules, case.num("use"), Some(case.num("radius_share"))).is_some())
            });
            BTreeMap::from([("us", us), ("bc", bc)])
        }
        "out_of_scope" => out_of_scope(case),
        "line_pull" => {
            let ratio = hoisting_ratio(case.num("parts") as u32, sheaves(case));
            found([("ratio", ratio), ("share", 1.0 / ratio)])
        }
        "parts" => {
            let parts = parts_needed(case.num("load"), case.num("line_pull"), sheaves(case)).unwrap();
            found([("parts", f64::from(parts))])
        }
        "pads" => pads(case),
        "tipping" => tipping(case),
        "rule_of_thumb" => found([(
            "load",
            rule_of_thumb_kg(case.num("share"), case.num("crane"), case.num("load")),
        )]),
        // t and t/m²: the side at which the pressure is just borne, squared
        "mat_area" => {
            let bears_pa = Mass::t(case.num("bears")).weight().to_n();
            let pa = |side| bearing_pa(Mass::t(case.num("load")).to_kg(), 0.0, side);
            found([("area", pa(1.0) / bears_pa)])
        }
        "presumed" => presumed_value(case),
        "wind" => wind(case),
        "gust" => found([("factor", gust_factor(case.num("height")))]),
        "line_keep" => distance(keep_away(case.named("rules"), case.num("kilovolts"))),
        "line_trigger" => distance(trigger_m(
            case.named("rules"),
            case.given.get("kilovolts").and_then(number),
        )),
        "billed_hours" => {
            let seconds = |key: &str, each: f64| (case.num(key) * each) as i64;
            let billed = setday::hire::billed_s(seconds("port_to_port_min", 60.0), seconds("minimum_h", 3600.0));
            found([("billed_h", billed as f64 / 3600.0)])
        }
        other => panic!("{}: no check is called {other}", case.name),
    }
}

fn cg(case: &Case) -> Found {
    let (m, x, y) = (case.list("m"), case.list("x"), case.list("y"));
    let at = |list: &[f64], i: usize| list.get(i).copied().unwrap_or(0.0);
    let items: Vec<Item> = m
        .iter()
        .enumerate()
        .map(|(i, &mass_kg)| Item {
            mass_kg,
            at_m: [at(&x, i), at(&y, i), 0.0],
        })
        .collect();
    let total = takeoff::centre_of_gravity(&items).unwrap();
    found([("total", total.mass_kg), ("x", total.at_m[0]), ("y", total.at_m[1])])
}

/// Weigh points with nothing to take off, in any units: the figures go in as kg and m.
fn weighing(case: &Case) -> Found {
    let metres = |value: f64| Entry::typed(value.to_string(), Unit::M);
    let support = |(gross, x): (&f64, &f64)| WeighPoint {
        gross: Entry::typed(gross.to_string(), Unit::Kg),
        tare: Entry::typed("0", Unit::Kg),
        x: metres(*x),
        ..WeighPoint::default()
    };
    let points: Vec<WeighPoint> = case.list("gross").iter().zip(&case.list("x")).map(support).collect();
    let weighing = takeoff::weighing(&points).unwrap();
    found([("total", weighing.mass_kg), ("x", weighing.x_m.unwrap())])
}

/// Layers by area, by volume and thickness, by length and spacing.
fn assembly_psf(case: &Case) -> Found {
    let typed = |value: &f64| value.to_string();
    let inches = |value: &f64| Entry::typed(typed(value), Unit::Inch);
    let by_area = case.list("area_psf").into_iter().map(|w| LayerWeight::Area {
        density: Entry::typed(typed(&w), Unit::Psf),
    });
    let by_volume = case.list("volume_pcf").into_iter().zip(case.list("thickness_in"));
    let by_volume = by_volume.map(|(w, t)| LayerWeight::Volume {
        density: Entry::typed(typed(&w), Unit::Pcf),
        thickness: inches(&t),
    });
    let by_length = case.list("length_plf").into_iter().zip(case.list("spacing_in"));
    let by_length = by_length.map(|(w, s)| LayerWeight::Length {
        density: Entry::typed(typed(&w), Unit::Plf),
        spacing: inches(&s),
    });
    let layers = by_area.chain(by_volume).chain(by_length).map(|weight| Layer {
        name: String::new(),
        weight,
    });
    let assembly = Assembly {
        layers: layers.collect(),
        ..Assembly::default()
    };
    let kg_per_m2 = takeoff::assembly_kg_per_m2(&assembly).unwrap();
    found([("psf", AreaDensity::kg_per_m2(kg_per_m2).to_psf())])
}

/// A unit weight over a panel with one opening, given as from along, from up, width, height.
fn panel(case: &Case) -> Found {
    let metres = |value: f64| Entry::<Length>::typed(value.to_string(), Unit::M);
    let place = |x, y| Place3 {
        x: metres(x),
        y: metres(y),
        z: metres(0.0),
    };
    let hole = case.list("opening");
    let component = Component {
        weight: Weight::Area {
            density: Entry::typed("1", Unit::KgPerM2),
            area: Entry::blank(Unit::M2),
        },
        shape: Shape::Panel {
            corner: place(0.0, 0.0),
            along: place(case.num("width"), 0.0),
            up: place(0.0, case.num("height")),
            openings: vec![Opening {
                from_along: metres(hole[0]),
                from_up: metres(hole[1]),
                width: metres(hole[2]),
                height: metres(hole[3]),
            }],
        },
        ..Component::default()
    };
    let item = takeoff::item(&component, &[]).unwrap();
    found([("area", item.mass_kg), ("x", item.at_m[0]), ("y", item.at_m[1])])
}

fn bridle_by_lengths(case: &Case) -> Found {
    let (length, rise) = (case.num("length"), case.num("rise"));
    let theta = libm::asin(rise / length);
    let tension = rig::symmetric_bridle_n(case.num("load"), case.num("legs") as u8, theta);
    found([("tension", tension), ("theta_deg", theta.to_degrees())])
}

fn convention(case: &Case) -> Found {
    let name = case.given["convention"].as_str().unwrap();
    let convention = rig::Convention::ALL
        .into_iter()
        .find(|c| serde_json::to_value(c).unwrap() == name)
        .unwrap();
    let shared = rig::symmetric_bridle_n(case.num("load"), 4, case.rad("theta_deg"));
    found([("tension", shared * convention.factor())])
}

/// Horizontal force of two legs on a span of 2 with the hook over its middle.
fn bar_compression(case: &Case) -> Found {
    let theta = case.rad("theta_deg");
    let rise = libm::tan(theta);
    found([(
        "compression",
        rig::uneven_picks_horizontal_n(case.num("load"), [rise, rise], [1.0, 1.0]),
    )])
}

fn gross_load(case: &Case) -> Found {
    let parts = ["load", "rigging", "block", "stowed"].map(|key| Mass::lb(case.num(key)));
    let gross: Mass = parts.into_iter().sum();
    // Through force and back, as the app's tables do.
    let gross = Force::n(gross.weight().to_n()).as_mass();
    found([("gross", gross.to_lb())])
}

/// A chart of one boom, in pounds and feet.
fn chart_rating(case: &Case) -> Found {
    let mut chart = RatingChart::default();
    let written = serde_json::json!({
        "id": "c", "name": "c", "radius_unit": "ft", "boom_unit": "ft", "capacity_unit": "lb", "booms": ["100"], "locked": true,
        "rows": case.list("radii").iter().zip(case.list("ratings"))
            .map(|(r, c)| serde_json::json!({ "radius": r.to_string(), "cells": [c.to_string()] })).collect::<Vec<_>>(),
    });
    chart.read(written).unwrap();
    let table = chart.table().0.unwrap();
    let rated = table
        .rating(Length::ft(case.num("radius")), Length::ft(100.0))
        .capacity()
        .unwrap();
    found([("rating", rated.to_lb())])
}

/// A chart of one radius, in pounds and feet.
fn chart_boom(case: &Case) -> Found {
    let mut chart = RatingChart::default();
    let text = |list: Vec<f64>| list.iter().map(f64::to_string).collect::<Vec<_>>();
    let (booms, cells) = (text(case.list("booms")), text(case.list("ratings")));
    let written = serde_json::json!({
        "id": "c", "name": "c", "radius_unit": "ft", "boom_unit": "ft", "capacity_unit": "lb", "booms": booms, "locked": true,
        "rows": [{ "radius": "40", "cells": cells }],
    });
    chart.read(written).unwrap();
    let rated = chart
        .table()
        .0
        .unwrap()
        .rating(Length::ft(40.0), Length::ft(case.num("boom")));
    found([("rating", rated.capacity().unwrap().to_lb())])
}

/// A bundle on the scenario's crane with these weights, its chart with or without the block taken off.
fn gross_by_chart(case: &Case) -> Found {
    let mut plan = sample::plan();
    let pounds = |key: &str| Entry::typed(case.num(key).to_string(), Unit::Lb);
    let bundle = plan.lifts.len() - 1;
    plan.lifts[bundle].contingency = Entry::typed("0 %", Unit::Percent);
    if let Load::Bundle { mass, .. } = &mut plan.lifts[bundle].load {
        *mass = pounds("load");
    }
    let slings = plan.gear.iter_mut().find(|g| g.id.as_str() == "G15").unwrap();
    slings.mass = pounds("rigging");
    let crane = plan.cranes.iter_mut().find(|c| c.id.as_str() == "S90").unwrap();
    (crane.block_mass, crane.stowed) = (pounds("block"), pounds("stowed"));
    crane.hanging_rope = Entry::typed("0 m", Unit::M);
    let includes_block = case.given["includes_block"].as_bool().unwrap();
    crane.charts[0].includes.hook_block = includes_block;
    let gross = evaluate(&plan).lifts[bundle].ends[0].gross.unwrap();
    found([("gross", gross.to_lb())])
}

fn out_of_scope(case: &Case) -> Found {
    let mut plan = sample::plan();
    plan.lifts[0].scope = case.named("scope");
    let lift = &evaluate(&plan).lifts[0];
    let text = lift.findings.iter().map(|f| f.outcome.words()).collect::<String>();
    let wanted = case.expected["words"].as_str().unwrap();
    let words = if text.contains(wanted) { wanted.to_owned() } else { text };
    BTreeMap::from([
        ("checked", Value::Boolean(lift.outcome.gravity() < 2)),
        ("words", Value::String(words)),
    ])
}

fn sheaves(case: &Case) -> f64 {
    case.named::<Sheaves>("sheaves").friction().unwrap()
}

/// Pads in the order front left, rear left, rear right, front right, in any units.
fn pads(case: &Case) -> Found {
    let base = Base {
        length_m: case.num("length"),
        width_m: case.num("width"),
        ahead_m: 0.0,
    };
    let loads = pad_loads(case.num("v"), [case.num("along"), case.num("across")], base);
    let mut all = loads.map_or(Found::new(), |l| {
        let [fl, rl, rr, fr] = l.pads_kg;
        found([("fl", fl), ("rl", rl), ("rr", rr), ("fr", fr)])
    });
    all.insert("tips", Value::Boolean(loads.is_none()));
    all
}

/// The boom comes down until two pads lift: its foot `pivot` from the pads in front, which are `2·half` from those behind; so far the truck's weight.
fn tipping(case: &Case) -> Found {
    let [truck, boom, load] = ["truck", "boom", "load"].map(|key| case.num(key));
    let (pivot, half) = (case.num("pivot"), case.num("half"));
    let base = Base {
        length_m: 2.0 * half,
        width_m: 2.0 * half,
        ahead_m: 0.0,
    };
    let stands = |theta: f64| {
        let out = |along: f64| along * libm::sin(theta) - (pivot - half);
        let moment = truck * (half - case.num("truck_to_pads"))
            + boom * out(case.num("boom_to_cg"))
            + load * out(case.num("boom_to_load"));
        pad_loads(truck + boom + load, [moment, 0.0], base).is_some()
    };
    let (mut up, mut down) = (0.0, core::f64::consts::FRAC_PI_2);
    for _ in 0..60 {
        let middle = (up + down) / 2.0;
        if stands(middle) { up = middle } else { down = middle }
    }
    found([("angle_deg", up.to_degrees())])
}

fn presumed_value(case: &Case) -> Found {
    let value = presumed(case.named::<Profile>("rules"), case.named::<Soil>("soil")).bears;
    let mut all = value.map_or(Found::new(), |p| {
        found([("psf", p.to_psf_force()), ("kpa", p.to_kpa())])
    });
    all.insert("has_value", Value::Boolean(value.is_some()));
    all
}

fn wind(case: &Case) -> Found {
    let (drag, area) = (case.num("drag"), case.num("length") * case.num("height"));
    let chart = case.num("chart");
    let speed = permitted_m_s(chart, Mass::t(case.num("mass_t")).to_kg(), drag, area);
    found([
        ("q", pressure_pa(chart)),
        ("speed", speed),
        ("force", force_n(speed, drag, area)),
    ])
}

fn distance(keep: Keep) -> Found {
    let mut all = keep
        .away_m
        .map_or(Found::new(), |m| found([("m", m), ("ft", Length::m(m).to_ft())]));
    all.insert("has_value", Value::Boolean(keep.away_m.is_some()));
    all
}
