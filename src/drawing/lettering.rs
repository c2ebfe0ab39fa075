//! How much room lettering takes: a table of widths, so that no font and no page is asked.

use super::scene::{Anchor, Form, Frame, Role, Scene};

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

/// Where a line of lettering lies on the sheet: its four corners, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate(pub [[f64; 2]; 4]);

impl Plate {
    /// The room of a line of lettering whose anchor is at a place of the sheet, turned by degrees anticlockwise.
    pub fn of(text: &str, size_mm: f64, bold: bool, at_mm: [f64; 2], anchor: Anchor, angle_deg: f64) -> Self {
        Self::of_width(width_mm(text, size_mm, bold), size_mm, at_mm, anchor, angle_deg)
    }

    /// The same for a line whose width is known, mm.
    pub fn of_width(width: f64, size_mm: f64, at_mm: [f64; 2], anchor: Anchor, angle_deg: f64) -> Self {
        let left = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let (sin, cos) = (libm::sin(angle_deg.to_radians()), libm::cos(angle_deg.to_radians()));
        let (top, bottom) = (-ABOVE * size_mm, BELOW * size_mm);
        Self(
            [[left, top], [left + width, top], [left + width, bottom], [left, bottom]]
                .map(|[x, y]| [at_mm[0] + x * cos + y * sin, at_mm[1] - x * sin + y * cos]),
        )
    }

    /// The same with a margin all round.
    pub fn grown(&self, by_mm: f64) -> Self {
        let [a, b, _, d] = self.0;
        let unit = |p: [f64; 2], q: [f64; 2]| {
            let (x, y) = (q[0] - p[0], q[1] - p[1]);
            let length = libm::hypot(x, y).max(1e-9);
            [x / length * by_mm, y / length * by_mm]
        };
        let (u, v) = (unit(a, b), unit(a, d));
        let moved = |p: [f64; 2], s: f64, t: f64| [p[0] + s * u[0] + t * v[0], p[1] + s * u[1] + t * v[1]];
        Self([
            moved(self.0[0], -1.0, -1.0),
            moved(self.0[1], 1.0, -1.0),
            moved(self.0[2], 1.0, 1.0),
            moved(self.0[3], -1.0, 1.0),
        ])
    }

    /// Whether two share room: no line along an edge of either parts them (separating axes).
    pub fn overlaps(&self, other: &Self) -> bool {
        convex_overlap(&self.0, &other.0) && convex_overlap(&other.0, &self.0)
    }

    /// Whether a straight line passes through it.
    pub fn is_crossed(&self, from: [f64; 2], to: [f64; 2]) -> bool {
        let [low, high] = self.bounds();
        if from[0].max(to[0]) < low[0]
            || from[0].min(to[0]) > high[0]
            || from[1].max(to[1]) < low[1]
            || from[1].min(to[1]) > high[1]
        {
            return false;
        }
        let side = |p: [f64; 2]| (to[0] - from[0]) * (p[1] - from[1]) - (to[1] - from[1]) * (p[0] - from[0]);
        let sides = self.0.map(side);
        let parted = sides.iter().all(|s| *s > 0.0) || sides.iter().all(|s| *s < 0.0);
        // where the lettering is level its own edges cannot part them: the bounds have met
        let is_level = self.0[0][1].total_cmp(&self.0[1][1]).is_eq();
        !parted && (is_level || convex_overlap(&self.0, &[from, to]))
    }

    /// Its least and largest coordinates.
    pub fn bounds(&self) -> [[f64; 2]; 2] {
        let fold = |i: usize, start: f64, f: fn(f64, f64) -> f64| self.0.iter().map(|p| p[i]).fold(start, f);
        [
            [fold(0, f64::INFINITY, f64::min), fold(1, f64::INFINITY, f64::min)],
            [
                fold(0, f64::NEG_INFINITY, f64::max),
                fold(1, f64::NEG_INFINITY, f64::max),
            ],
        ]
    }
}

/// Whether no edge of the first rectangle parts it from the second set of points.
fn convex_overlap(rectangle: &[[f64; 2]; 4], points: &[[f64; 2]]) -> bool {
    (0..2).all(|i| {
        let (p, q) = (rectangle[i], rectangle[i + 1]);
        let axis = [q[0] - p[0], q[1] - p[1]];
        let along = |r: &[f64; 2]| r[0] * axis[0] + r[1] * axis[1];
        let range = |set: &[[f64; 2]]| {
            set.iter()
                .map(along)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
                    (low.min(x), high.max(x))
                })
        };
        let ((a, b), (c, d)) = (range(rectangle), range(points));
        a < d && c < b
    })
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
        } => Some(Plate::of(
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
        let at = |x: f64, y: f64, angle: f64| Plate::of("AAAA", 10.0, false, [x, y], Anchor::Start, angle);
        // four capitals at 10 mm are 4 × 6.67 × 1.02 = 27.2 mm wide and 10.5 mm high
        assert!(at(0.0, 0.0, 0.0).overlaps(&at(27.0, 10.0, 0.0)));
        assert!(!at(0.0, 0.0, 0.0).overlaps(&at(27.5, 0.0, 0.0)));
        assert!(!at(0.0, 0.0, 0.0).overlaps(&at(0.0, 10.6, 0.0)));
        // turned by 45°, it passes over a corner that its bounding box covers but it does not
        assert!(!at(0.0, 0.0, 45.0).overlaps(&Plate::of("A", 2.0, false, [15.0, -1.0], Anchor::Start, 0.0)));
        assert!(at(0.0, 0.0, 45.0).overlaps(&Plate::of("A", 2.0, false, [10.0, -10.0], Anchor::Start, 0.0)));
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
        let plate = Plate::of("AAAA", 10.0, false, [0.0, 0.0], Anchor::Start, 0.0);
        assert!(plate.is_crossed([-5.0, -5.0], [40.0, 5.0]));
        assert!(plate.is_crossed([10.0, 0.0], [11.0, 0.0]));
        assert!(!plate.is_crossed([-5.0, 8.0], [40.0, 8.0]));
        assert!(!plate.is_crossed([-20.0, 0.0], [5.0, -40.0]));
    }
}
