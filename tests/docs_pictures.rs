//! The pictures in docs/ are those that the project's own drawing code makes now.
//!
//! `SETDAY_WRITE_DOCS=1 cargo test --test docs_pictures` writes them anew.
#![allow(clippy::unwrap_used)]

use setday::drawing::{HungDrawing, Paper, Seen, StructureView, as_it_hangs, factor_for, svg_file};
use setday::evaluate::{evaluate, try_out};
use setday::plan::{example, format};
use setday::quantity::UnitSystem;
use setday::rigging::{Stretch, TryOut};

const PAPER: Paper = Paper::screen(140.0, 126.0);
const FLAT: Paper = Paper::screen(160.0, 80.0);

/// The example's box with one leg long, stiff, soft and on a running sling: one name and one drawing each.
fn pictures() -> Vec<(&'static str, String)> {
    let plan = example::four_legs();
    let one_long = TryOut {
        longer_m: vec![example::LONGER_M],
        stretch: Stretch::Stiff,
        ..TryOut::nominal()
    };
    let soft = TryOut {
        gj_n_m2: 1e8,
        ..one_long.clone()
    };
    let cases = [
        ("four-legs-one-long.svg", "stiff box, one leg 30 mm long", one_long),
        (
            "four-legs-soft-box.svg",
            "box of GJ 100,000 kN·m², one leg 30 mm long",
            soft,
        ),
    ];
    let draw = |(name, title, what): (&'static str, &str, TryOut)| {
        let tried = try_out(&plan, 0, &what).unwrap();
        let hung = HungDrawing {
            title,
            house: &plan.boxes[0],
            tried: &tried,
            factor: factor_for(tried.steepest_rad()),
            units: UnitSystem::Metric,
        };
        (name, svg_file(&as_it_hangs(&hung, Seen::Isometric, PAPER)))
    };
    let hung = cases.map(draw).to_vec();
    hung.into_iter().chain(box_and_roof()).collect()
}

/// The scenario's kitchen box as a beam, and its two roof raises: lifts 2, 6 and 7.
fn box_and_roof() -> Vec<(&'static str, String)> {
    let plan = format::open(include_str!("plans/v1/halden.json")).unwrap().plan;
    let assessment = evaluate(&plan);
    [
        ("box-kitchen-shear.svg", StructureView::Shear(1), FLAT),
        ("box-kitchen-moment.svg", StructureView::Moment(1), FLAT),
        ("box-kitchen-sag.svg", StructureView::Sag(1), FLAT),
        ("roof-raise-b2.svg", StructureView::Raise(5), PAPER),
        ("roof-raise-b1.svg", StructureView::Raise(6), PAPER),
        ("roof-raise-pull.svg", StructureView::Pull(5), FLAT),
    ]
    .map(|(name, view, paper)| (name, svg_file(&view.scene(&plan, &assessment, paper))))
    .to_vec()
}

#[test]
fn the_pictures_are_current() {
    for (name, drawn) in pictures() {
        let path = format!("{}/docs/{name}", env!("CARGO_MANIFEST_DIR"));
        if std::env::var_os("SETDAY_WRITE_DOCS").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        let stored = std::fs::read_to_string(&path).unwrap();
        assert!(
            stored == drawn,
            "docs/{name} is not what the drawing code makes now: SETDAY_WRITE_DOCS=1 cargo test --test docs_pictures"
        );
    }
}
