//! What every drawing to scale has round it: border, title, scale, and a banner for what is outside the limits entered.

use super::pen::{Paper, Pen, Words};
use super::scene::{Anchor, Form, Role};
use crate::check::{Finding, Outcome};
use crate::evaluate::EndKind;
use crate::geometry::sort_short;
use crate::quantity::UnitSystem;

/// Height of the strip below the drawing that holds title, scale and scale bar, mm.
pub const fn foot_mm(paper: Paper) -> f64 {
    if paper.printed { 9.0 } else { 11.0 }
}
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
    let (right, bottom) = (paper.width_mm - 0.5, paper.height_mm - foot_mm(paper));
    let points = [[0.5, 0.5], [right, 0.5], [right, bottom], [0.5, bottom]]
        .map(|c| pen.at_mm(c))
        .to_vec();
    pen.add(Role::Outline, None, Form::Polygon { points });
}

/// Title and a note below the drawing.
pub fn foot(pen: &mut Pen, title: String, note: String) {
    let bottom = pen.paper().height_mm - foot_mm(pen.paper());
    // a printed sheet names the lift and the unit beside each figure
    let short = |text: String| match text.split_once(", ") {
        Some((first, _)) if pen.paper().printed => first.to_owned(),
        _ => text,
    };
    let (title, note) = (short(title), short(note));
    let [first, second] = if pen.paper().printed { [2.5, 6.3] } else { [4.0, 8.6] };
    pen.fixed([1.5, bottom + first], Anchor::Start, Words::new(title).strong());
    pen.fixed([1.5, bottom + second], Anchor::Start, Words::new(note).scaled(0.9));
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
    // a printed sheet has its bar beside the scale, with one figure behind it
    let (behind_mm, above_mm) = if paper.printed { (13.0, 3.3) } else { (12.0, 6.4) };
    let left = paper.width_mm - behind_mm - 4.0 * part_mm;
    let top = paper.height_mm - above_mm;
    for i in 0..4 {
        let (a, b) = (left + f64::from(i) * part_mm, left + f64::from(i + 1) * part_mm);
        let points = [[a, top], [b, top], [b, top + 1.3], [a, top + 1.3]]
            .map(|p| pen.at_mm(p))
            .to_vec();
        let role = if i % 2 == 0 { Role::Solid } else { Role::Thin };
        pen.add(role, None, Form::Polygon { points });
    }
    if paper.printed {
        let at = [left + 4.0 * part_mm + 1.0, top + 0.65];
        pen.fixed(at, Anchor::Start, Words::new(format!("{whole} {unit}")));
        return;
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
    // a printed sheet has its checks in full: the drawing carries the word
    let (most, printed) = if pen.paper().printed {
        (1, true)
    } else {
        (MOST_FINDINGS, false)
    };
    let mut graver: Vec<&Finding> = findings.filter(|f| f.outcome.gravity() >= 2).collect();
    sort_short(&mut graver, |a, b| b.outcome.gravity().cmp(&a.outcome.gravity()));
    for finding in graver.into_iter().take(most) {
        let word = finding.outcome.word().to_ascii_uppercase();
        let words = Words::new(if printed { word } else { finding.sentence() });
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
