//! How far outriggers are out, as a chart or a person says it: "100 % (7.0 x 7.0 m)".

use crate::quantity::{DecimalMark, Length, Unit, read};

/// Two figures of per cent this near are the same (judgement, no source).
const SAME_PERCENT: f64 = 0.5;
/// Taped lengths this near are the same, m (judgement, no source).
const SAME_M: f64 = 0.05;

/// What a text says about outriggers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extension {
    /// Share of the full extension, %.
    pub percent: Option<f64>,
    /// The shorter of the distances between opposite floats, m.
    pub shortest_m: Option<f64>,
}

impl Extension {
    /// Reads a text; what is neither per cent nor a length is passed over. A bare number has the unit of the one behind it: "7.0 x 5.5 m".
    pub fn of(text: &str) -> Self {
        let mut found = Self::default();
        let mut unit = None;
        for piece in text.rsplit(['(', ')', 'x', '×', ',', ';']).map(str::trim) {
            if let Some(percent) = piece.strip_suffix('%') {
                found.percent = percent.trim().parse().ok();
                continue;
            }
            let word = piece.trim_start_matches(|c: char| !c.is_alphabetic());
            unit = Unit::spelled::<Length>(word).or(unit.filter(|_| word.is_empty()));
            let length = unit.and_then(|unit| read::<Length>(piece, unit, DecimalMark::Point).value());
            if let Some(length) = length {
                found.shortest_m = Some(found.shortest_m.map_or(length.to_m(), |m: f64| m.min(length.to_m())));
            }
        }
        found
    }

    /// Whether it falls short of another one; `None` where the two do not say the same kind of thing.
    pub fn is_short_of(self, wanted: Self) -> Option<bool> {
        let pair = |a: Option<f64>, b: Option<f64>, same: f64| Some(a? < b? - same);
        pair(self.percent, wanted.percent, SAME_PERCENT).or_else(|| pair(self.shortest_m, wanted.shortest_m, SAME_M))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn per_cent_and_lengths_are_read_out_of_a_chart_s_words() {
        let read = |text| {
            let Extension { percent, shortest_m } = Extension::of(text);
            (percent, shortest_m)
        };
        assert_eq!(read("100 % (7.0 x 7.0 m)"), (Some(100.0), Some(7.0)));
        assert_eq!(read("50%"), (Some(50.0), None));
        assert_eq!(read("7.0 × 5.5 m"), (None, Some(5.5)));
        assert_eq!(read("10 ft"), (None, Some(3.048)));
        for nothing in ["", "full", "7.0 x 7.0", "about half"] {
            assert_eq!(read(nothing), (None, None), "{nothing}");
        }
    }

    #[test]
    fn less_than_the_chart_holds_for_is_short() {
        let short = |measured, chart| Extension::of(measured).is_short_of(Extension::of(chart));
        assert_eq!(short("50 %", "100 % (7.0 x 7.0 m)"), Some(true));
        assert_eq!(short("6.97 m", "100 % (7.0 x 7.0 m)"), Some(false));
        assert_eq!(short("6.9 m", "100 % (7.0 x 7.0 m)"), Some(true));
        assert_eq!(short("100 %", "50 %"), Some(false));
        assert_eq!(short("5.5 m", "100 %"), None);
    }
}
