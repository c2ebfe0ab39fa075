//! How much room lettering takes: a table of widths, so that no font and no page is asked.

use super::scene::{Anchor, Form, Frame, Role, Scene};
use crate::geometry::Plate;

/// Advance widths of the characters from space to tilde in thousandths of the size, for Helvetica and the faces with its measures.
///
/// Source: Adobe Core 14 AFM, Helvetica (from memory); checked in a test against widths that a browser measured.
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
];
/// What other characters are taken as: wider than most of them.
const OTHER: u16 = 750;
/// How much wider bold is taken than plain.
const BOLD: f64 = 1.08;
/// How much wider any face is taken than the table.
const MARGIN: f64 = 1.02;
/// How far letters reach above the middle of the capitals, as a share of the size.
const ABOVE: f64 = 0.45;
/// The same below.
const BELOW: f64 = 0.60;

/// Width of a line of lettering, mm.
pub fn width_mm(text: &str, size_mm: f64, bold: bool) -> f64 {
    let thousandths: u32 = text
        .chars()
        .map(|letter| {
            let place = u32::from(letter).checked_sub(32).and_then(|i| usize::try_from(i).ok());
            u32::from(place.and_then(|i| WIDTHS.get(i).copied()).unwrap_or(OTHER))
        })
        .sum();
    f64::from(thousandths) / 1000.0 * size_mm * MARGIN * if bold { BOLD } else { 1.0 }
}

/// The room of a line of lettering whose anchor is at a place of the sheet, turned by degrees anticlockwise.
pub fn plate_of(text: &str, size_mm: f64, bold: bool, at_mm: [f64; 2], anchor: Anchor, angle_deg: f64) -> Plate {
    plate_of_width(width_mm(text, size_mm, bold), size_mm, at_mm, anchor, angle_deg)
}

/// The same for a line whose width is known, mm.
pub fn plate_of_width(width: f64, size_mm: f64, at_mm: [f64; 2], anchor: Anchor, angle_deg: f64) -> Plate {
    let left = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -width / 2.0,
        Anchor::End => -width,
    };
    Plate::turned(
        at_mm,
        [left, left + width],
        [-ABOVE * size_mm, BELOW * size_mm],
        angle_deg,
    )
}

/// The room of every piece of lettering in a scene, with its words.
pub fn plates(scene: &Scene) -> Vec<(Plate, &str)> {
    let plate = |role: Role, form, frame: &Frame| match form {
        &Form::Text {
            at,
            ref text,
            anchor,
            size_mm,
            angle_deg,
        } => Some(plate_of(
            text,
            size_mm,
            is_bold(role),
            frame.to_sheet(at),
            anchor,
            angle_deg,
        ))
        .zip(Some(text.as_str())),
        _ => None,
    };
    scene
        .shapes
        .iter()
        .filter_map(|s| plate(s.role, &s.form, &scene.frame))
        .collect()
}

/// Whether lettering of a role is bold.
pub const fn is_bold(role: Role) -> bool {
    matches!(role, Role::Strong | Role::Reverse)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plates_overlap_only_where_they_share_room() {
        let at = |x: f64, y: f64, angle: f64| plate_of("AAAA", 10.0, false, [x, y], Anchor::Start, angle);
        // four capitals at 10 mm are 4 × 6.67 × 1.02 = 27.2 mm wide and 10.5 mm high
        assert!(at(0.0, 0.0, 0.0).overlaps(&at(27.0, 10.0, 0.0)));
        assert!(!at(0.0, 0.0, 0.0).overlaps(&at(27.5, 0.0, 0.0)));
        assert!(!at(0.0, 0.0, 0.0).overlaps(&at(0.0, 10.6, 0.0)));
        // turned by 45°, it passes over a corner that its bounding box covers but it does not
        assert!(!at(0.0, 0.0, 45.0).overlaps(&plate_of("A", 2.0, false, [15.0, -1.0], Anchor::Start, 0.0)));
        assert!(at(0.0, 0.0, 45.0).overlaps(&plate_of("A", 2.0, false, [10.0, -10.0], Anchor::Start, 0.0)));
    }

    /// Widths that Chromium 156 measured at a size of 1000 in Liberation Sans, which has Helvetica's measures: plain, bold.
    #[test]
    fn widths_as_a_browser_measures_them() {
        for (text, plain, bold) in [
            ("pick radius 48.05 ft", 8393.55, 9003.91),
            ("WEST END, 84.4 %", 8946.78, 8946.78),
            ("0123456789", 5561.52, 5561.52),
            ("The quick brown fox jumps over (it) & away?", 19_674.32, 21_225.10),
            ("ABCDEFGHIJKLMNOPQRSTUVWXYZ", 17_612.79, 17_889.16),
            ("abcdefghijklmnopqrstuvwxyz", 12_728.03, 14_002.44),
        ] {
            // the browser kerns, the table does not
            approx::assert_relative_eq!(width_mm(text, 1000.0, false) / MARGIN, plain, max_relative = 0.02);
            assert!(width_mm(text, 1000.0, false) >= plain, "{text}");
            assert!(width_mm(text, 1000.0, true) >= bold, "{text}");
        }
    }

    #[test]
    fn a_line_crosses_a_plate_or_passes_it() {
        let plate = plate_of("AAAA", 10.0, false, [0.0, 0.0], Anchor::Start, 0.0);
        assert!(plate.is_crossed([-5.0, -5.0], [40.0, 5.0]));
        assert!(plate.is_crossed([10.0, 0.0], [11.0, 0.0]));
        assert!(!plate.is_crossed([-5.0, 8.0], [40.0, 8.0]));
        assert!(!plate.is_crossed([-20.0, 0.0], [5.0, -40.0]));
    }
}
