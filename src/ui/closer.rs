//! Looking closer at a drawing: which part of its sheet is shown, as numbers. The view in `figure.rs` moves it.

/// How many times closer than the whole sheet, at most.
const MOST: f64 = 12.0;

/// The part of a sheet that is shown; it has the sheet's proportions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closer {
    /// Size of the sheet, mm.
    sheet_mm: [f64; 2],
    /// Left and top of the part, mm.
    at_mm: [f64; 2],
    /// How many times closer, 1 for the whole sheet.
    times: f64,
}

impl Closer {
    /// The whole sheet.
    pub const fn whole(sheet_mm: [f64; 2]) -> Self {
        Self {
            sheet_mm,
            at_mm: [0.0, 0.0],
            times: 1.0,
        }
    }

    /// Whether less than the whole sheet is shown.
    pub fn is_closer(self) -> bool {
        self.times > 1.0
    }

    fn size_mm(self) -> [f64; 2] {
        self.sheet_mm.map(|mm| mm / self.times)
    }

    /// The value of `viewBox`.
    pub fn view_box(self) -> String {
        let ([x, y], [w, h]) = (self.at_mm, self.size_mm());
        format!("{x:.3} {y:.3} {w:.3} {h:.3}")
    }

    /// Closer by a factor (below 1: farther), with a point of the shown part staying where it is: from 0, 0 at its left top to 1, 1.
    #[must_use]
    pub fn by(self, factor: f64, about: [f64; 2]) -> Self {
        let times = (self.times * factor).clamp(1.0, MOST);
        if !times.is_finite() {
            return self;
        }
        let (was, next) = (self.size_mm(), Self { times, ..self });
        let is = next.size_mm();
        let at_mm = [0, 1].map(|k| self.at_mm[k] + about[k] * (was[k] - is[k]));
        Self { at_mm, ..next }.inside()
    }

    /// Moved by shares of what is shown: the sheet follows the finger to the right and down.
    #[must_use]
    pub fn moved(self, by: [f64; 2]) -> Self {
        let size = self.size_mm();
        let at_mm = [0, 1].map(|k| self.at_mm[k] - by[k] * size[k]);
        Self { at_mm, ..self }.inside()
    }

    /// Two fingers from two places to two others, as shares of what is shown: closer by how far they have spread, about the middle between them.
    #[must_use]
    pub fn pinched(self, was: [[f64; 2]; 2], is: [[f64; 2]; 2]) -> Self {
        let apart =
            |[a, b]: [[f64; 2]; 2]| libm::hypot((a[0] - b[0]) * self.sheet_mm[0], (a[1] - b[1]) * self.sheet_mm[1]);
        let middle = |[a, b]: [[f64; 2]; 2]| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
        let (from, to) = (middle(was), middle(is));
        let factor = if apart(was) > 0.0 { apart(is) / apart(was) } else { 1.0 };
        self.by(factor, from).moved([to[0] - from[0], to[1] - from[1]])
    }

    /// Kept on the sheet; a place that is no number is given up.
    fn inside(self) -> Self {
        let size = self.size_mm();
        let at_mm = [0, 1].map(|k| {
            let most = (self.sheet_mm[k] - size[k]).max(0.0);
            if self.at_mm[k].is_finite() {
                self.at_mm[k].clamp(0.0, most)
            } else {
                0.0
            }
        });
        Self { at_mm, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_pointed_at_stays() {
        let whole = Closer::whole([200.0, 100.0]);
        assert_eq!(whole.view_box(), "0.000 0.000 200.000 100.000");
        // twice as close about the middle: a quarter of the sheet is left out on each side
        let twice = whole.by(2.0, [0.5, 0.5]);
        assert_eq!(twice.view_box(), "50.000 25.000 100.000 50.000");
        assert_eq!(whole.by(2.0, [0.0, 1.0]).view_box(), "0.000 50.000 100.000 50.000");
        assert_eq!(twice.by(0.5, [0.5, 0.5]), whole);
        // never farther than the whole, never closer than the most
        assert_eq!(whole.by(0.1, [0.3, 0.3]), whole);
        assert_eq!(whole.by(1e9, [0.0, 0.0]).times, MOST);
        assert_eq!(twice.by(f64::NAN, [0.5, 0.5]), twice);
    }

    #[test]
    fn the_sheet_follows_the_finger_and_stays_in_sight() {
        let twice = Closer::whole([200.0, 100.0]).by(2.0, [0.5, 0.5]);
        assert_eq!(twice.moved([0.1, -0.2]).view_box(), "40.000 35.000 100.000 50.000");
        assert_eq!(twice.moved([9.0, -9.0]).view_box(), "0.000 50.000 100.000 50.000");
    }

    #[test]
    fn two_fingers_apart_come_closer() {
        let whole = Closer::whole([200.0, 100.0]);
        // 40 mm apart become 80 mm, round the same middle
        let pinched = whole.pinched([[0.4, 0.5], [0.6, 0.5]], [[0.3, 0.5], [0.7, 0.5]]);
        assert_eq!(pinched.view_box(), "50.000 25.000 100.000 50.000");
        // fingers on one spot say nothing
        assert_eq!(whole.pinched([[0.4, 0.5]; 2], [[0.3, 0.5], [0.7, 0.5]]), whole);
    }
}
