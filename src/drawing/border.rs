//! What every drawing to scale has round it: border, title, scale, and a banner for what is outside the limits entered.

use super::pen::{Pen, Words};
use super::scene::{Anchor, Form, Role};
use crate::check::{Finding, Outcome};
use crate::evaluate::EndKind;
use crate::quantity::UnitSystem;

/// Height of the strip below the drawing that holds title, scale and scale bar, mm.
pub const FOOT_MM: f64 = 11.0;
/// Scales of drawings: 1 to so many (ISO 5455 and steps between).
const SCALES: [f64; 17] = [
    10.0, 20.0, 25.0, 50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 600.0, 750.0, 1000.0, 2000.0,
];
/// Most findings that a banner names.
const MOST_FINDINGS: usize = 4;

/// The largest scale, as 1 to so many, at which a size in metres fits into a room in mm.
pub fn scale(size_m: [f64; 2], room_mm: [f64; 2]) -> f64 {
    let needed = (0..2)
        .map(|i| size_m[i] * 1000.0 / room_mm[i].max(1.0))
        .fold(0.0, f64::max);
    SCALES.into_iter().find(|s| *s >= needed).unwrap_or(needed)
}

/// The scale in words.
pub fn scale_note(scale: f64, units: UnitSystem) -> String {
    let unit = if units == UnitSystem::Us { "feet" } else { "metres" };
    format!("scale 1 : {scale:.0}, lengths in {unit}")
}

/// The line round the drawing, above the foot.
pub fn border(pen: &mut Pen) {
    let paper = pen.paper();
    let (right, bottom) = (paper.width_mm - 0.5, paper.height_mm - FOOT_MM);
    let points = [[0.5, 0.5], [right, 0.5], [right, bottom], [0.5, bottom]]
        .map(|c| pen.at_mm(c))
        .to_vec();
    pen.add(Role::Outline, None, Form::Polygon { points });
}

/// Title and a note below the drawing.
pub fn foot(pen: &mut Pen, title: String, note: String) {
    let bottom = pen.paper().height_mm - FOOT_MM;
    // a printed sheet names the lift and the unit beside each figure
    let short = |text: String| match text.split_once(", ") {
        Some((first, _)) if pen.paper().printed => first.to_owned(),
        _ => text,
    };
    let (title, note) = (short(title), short(note));
    pen.fixed([1.5, bottom + 4.0], Anchor::Start, Words::new(title).strong());
    pen.fixed([1.5, bottom + 8.6], Anchor::Start, Words::new(note).scaled(0.9));
}

/// A bar of round length at the right of the foot: four parts, filled and open in turn.
pub fn scale_bar(pen: &mut Pen, scale: f64, units: UnitSystem) {
    let paper = pen.paper();
    let (unit, unit_m) = if units == UnitSystem::Us {
        ("ft", 0.3048)
    } else {
        ("m", 1.0)
    };
    let room_m = 0.32 * paper.width_mm * scale / 1000.0;
    let whole = [400.0, 200.0, 100.0, 80.0, 40.0, 20.0, 10.0, 8.0, 4.0]
        .into_iter()
        .find(|n| n * unit_m <= room_m)
        .unwrap_or(2.0);
    let part_mm = whole / 4.0 * unit_m * 1000.0 / scale;
    let left = paper.width_mm - 12.0 - 4.0 * part_mm;
    let top = paper.height_mm - 6.4;
    for i in 0..4 {
        let (a, b) = (left + f64::from(i) * part_mm, left + f64::from(i + 1) * part_mm);
        let points = [[a, top], [b, top], [b, top + 1.3], [a, top + 1.3]]
            .map(|p| pen.at_mm(p))
            .to_vec();
        let role = if i % 2 == 0 { Role::Solid } else { Role::Thin };
        pen.add(role, None, Form::Polygon { points });
    }
    for (i, text) in [
        (0, "0".into()),
        (2, format!("{}", whole / 2.0)),
        (4, format!("{whole} {unit}")),
    ] {
        let at = [left + f64::from(i) * part_mm, top + 3.5];
        pen.fixed(at, Anchor::Middle, Words::new(text).scaled(0.85));
    }
}

/// Names at the top of the drawing what is outside the limits entered, on plates, and what cannot be checked.
pub fn banner<'a>(pen: &mut Pen, findings: impl Iterator<Item = &'a Finding>) {
    let room_mm = pen.paper().width_mm - 22.0;
    let mut y_mm = 5.0;
    for finding in findings.filter(|f| f.outcome.gravity() >= 2).take(MOST_FINDINGS) {
        let words = Words::new(finding.sentence());
        let words = if finding.outcome == Outcome::Outside {
            words.plate()
        } else {
            words.strong()
        };
        y_mm = pen.paragraph([3.0, y_mm], room_mm, &words) + 0.6;
    }
}

/// Whether a finding speaks of one end of a lift.
pub fn concerns(finding: &Finding, end: EndKind) -> bool {
    finding.subject.starts_with(end.words())
}

/// Findings worth a sentence in a drawing's text: all that are not within.
pub fn trouble_in_words<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<String> {
    findings
        .filter(|f| f.outcome.gravity() >= 2)
        .map(|f| format!("{}.", f.sentence()))
        .collect()
}
