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

    /// How many times closer, and how far the picture of the whole sheet is moved then to the right and down, in its own px: the sheet stands in the
    /// middle of a room of so many px.
    pub fn moved_px(self, room_px: [f64; 2]) -> (f64, [f64; 2]) {
        let px_per_mm = f64::min(room_px[0] / self.sheet_mm[0], room_px[1] / self.sheet_mm[1]);
        let shift = [0, 1].map(|k| {
            let beside = (room_px[k] - self.sheet_mm[k] * px_per_mm) / 2.0;
            beside * (1.0 - self.times) - self.at_mm[k] * px_per_mm * self.times
        });
        (self.times, shift)
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

    /// Left, top, width and height of what is shown, mm.
    fn shown(closer: Closer) -> [f64; 4] {
        let ([x, y], [w, h]) = (closer.at_mm, closer.size_mm());
        [x, y, w, h].map(|mm| (mm * 1e6).round() / 1e6)
    }

    #[test]
    fn what_is_pointed_at_stays() {
        let whole = Closer::whole([200.0, 100.0]);
        assert_eq!(shown(whole), [0.0, 0.0, 200.0, 100.0]);
        // twice as close about the middle: a quarter of the sheet is left out on each side
        let twice = whole.by(2.0, [0.5, 0.5]);
        assert_eq!(shown(twice), [50.0, 25.0, 100.0, 50.0]);
        assert_eq!(shown(whole.by(2.0, [0.0, 1.0])), [0.0, 50.0, 100.0, 50.0]);
        assert_eq!(twice.by(0.5, [0.5, 0.5]), whole);
        // never farther than the whole, never closer than the most
        assert_eq!(whole.by(0.1, [0.3, 0.3]), whole);
        assert_eq!(whole.by(1e9, [0.0, 0.0]).times, MOST);
        assert_eq!(twice.by(f64::NAN, [0.5, 0.5]), twice);
    }

    #[test]
    fn the_sheet_follows_the_finger_and_stays_in_sight() {
        let twice = Closer::whole([200.0, 100.0]).by(2.0, [0.5, 0.5]);
        assert_eq!(shown(twice.moved([0.1, -0.2])), [40.0, 35.0, 100.0, 50.0]);
        assert_eq!(shown(twice.moved([9.0, -9.0])), [0.0, 50.0, 100.0, 50.0]);
    }

    #[test]
    fn two_fingers_apart_come_closer() {
        let whole = Closer::whole([200.0, 100.0]);
        // 40 mm apart become 80 mm, round the same middle
        let pinched = whole.pinched([[0.4, 0.5], [0.6, 0.5]], [[0.3, 0.5], [0.7, 0.5]]);
        assert_eq!(shown(pinched), [50.0, 25.0, 100.0, 50.0]);
        // fingers on one spot say nothing
        assert_eq!(whole.pinched([[0.4, 0.5]; 2], [[0.3, 0.5], [0.7, 0.5]]), whole);
    }

    /// By hand: 2 px a mm in a room of 400 × 300 px, 50 px above and below the sheet. Its middle, (200, 150) px, stays where it is at twice the size.
    #[test]
    fn the_picture_is_moved_to_match() {
        let whole = Closer::whole([200.0, 100.0]);
        assert_eq!(whole.moved_px([400.0, 300.0]), (1.0, [0.0, 0.0]));
        let (times, [x, y]) = whole.by(2.0, [0.5, 0.5]).moved_px([400.0, 300.0]);
        assert_eq!([200.0 * times + x, 150.0 * times + y], [200.0, 150.0]);
    }
}
