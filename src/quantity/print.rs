//! Printing figures, rounded once and to the safe side.

use super::kinds::Length;
use super::read::DecimalMark;
use super::unit::{Readable, Unit};

/// Which way a figure is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Safe {
    /// A demand: never printed smaller than it is.
    Up,
    /// A capacity: never printed larger than it is.
    Down,
    /// A plain figure.
    Nearest,
}

/// What stands where there is no figure to print.
const NO_FIGURE: &str = "—";

/// How near a whole number counts as that number, relative and in units of the last printed digit.
///
/// Without it a sum such as 26,665.000000001 would print as 26,666.
const SAME: f64 = 1e-9;

/// Most decimals printed.
const MOST_DECIMALS: u8 = 12;

/// `value` with `decimals` (at most 12), thousands in groups, a true minus sign, and never "−0".
///
/// `Up` rounds towards plus infinity and `Down` towards minus infinity, except within 1e-9 of a printable figure.
/// A value that is no number prints as "—".
pub fn number(value: f64, decimals: u8, safe: Safe) -> String {
    if !value.is_finite() {
        return NO_FIGURE.to_owned();
    }
    let decimals = decimals.min(MOST_DECIMALS);
    let scale = (0..decimals).fold(1.0, |scale, _| scale * 10.0);
    let scaled = value * scale;
    let rounded = if scaled.is_finite() {
        rounded(scaled, safe) / scale
    } else {
        value
    };
    let text = format!("{:.*}", usize::from(decimals), rounded.abs());
    let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
    let sign = if rounded < 0.0 { "−" } else { "" };
    let point = if fraction.is_empty() { "" } else { "." };
    format!("{sign}{}{point}{fraction}", in_groups(whole))
}

fn rounded(scaled: f64, safe: Safe) -> f64 {
    let nearest = scaled.round();
    if (scaled - nearest).abs() <= SAME * scaled.abs().max(1.0) {
        return nearest;
    }
    match safe {
        Safe::Up => scaled.ceil(),
        Safe::Down => scaled.floor(),
        Safe::Nearest => nearest,
    }
}

fn in_groups(digits: &str) -> String {
    let mut grouped = String::with_capacity(digits.len() + digits.len() / 3);
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    grouped
}

/// A figure without zeros behind its last decimal.
pub fn trimmed(value: f64, decimals: u8) -> String {
    let text = number(value, decimals, Safe::Nearest);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// A value written out in a unit with its symbol behind, to read back as itself to nine decimals.
pub fn written<Q: Readable>(value: Q, unit: Unit, mark: DecimalMark) -> String {
    written_si(value.si(), unit, mark)
}

/// As [`written`], of an SI number.
pub fn written_si(si: f64, unit: Unit, mark: DecimalMark) -> String {
    let figure = trimmed(unit.from_si(si), 9).replace(',', "").replace('−', "-");
    let figure = match mark {
        DecimalMark::Point => figure,
        DecimalMark::Comma => figure.replace('.', ","),
    };
    if unit == Unit::One {
        figure
    } else {
        format!("{figure} {}", unit.symbol())
    }
}

/// A length in metres and in feet, for messages that are read in either country: "3.81 m (12.50 ft)".
pub fn both(length_m: f64) -> String {
    format!("{length_m:.2} m ({:.2} ft)", Length::m(length_m).to_ft())
}

/// A quantity in `unit` with the unit behind it: "33,720 lb", "84.4 %", "60°".
pub fn show<Q: Readable>(q: Q, unit: Unit, decimals: u8, safe: Safe) -> String {
    show_si(q.si(), unit, decimals, safe)
}

/// As [`show`], of an SI number.
pub fn show_si(si: f64, unit: Unit, decimals: u8, safe: Safe) -> String {
    let figure = number(unit.from_si(si), decimals, safe);
    match unit {
        Unit::One => figure,
        Unit::Deg => format!("{figure}{}", unit.symbol()),
        _ => format!("{figure} {}", unit.symbol()),
    }
}

/// Parts of an inch that a tape shows.
const PARTS_OF_AN_INCH: f64 = 16.0;

/// A length in feet and inches to the nearest sixteenth: "12 ft 6 1/2 in", "6 in".
pub fn feet_inches(length: Length) -> String {
    let sixteenths = (length.to_inch() * PARTS_OF_AN_INCH).round();
    if !sixteenths.is_finite() {
        return NO_FIGURE.to_owned();
    }
    let sign = if sixteenths < 0.0 { "−" } else { "" };
    let inches = (sixteenths.abs() / PARTS_OF_AN_INCH).trunc();
    let (feet, inches_left) = ((inches / 12.0).trunc(), inches % 12.0);
    let parts = sixteenths.abs() % PARTS_OF_AN_INCH;
    let feet_text = if feet > 0.0 {
        format!("{} ft ", number(feet, 0, Safe::Nearest))
    } else {
        String::new()
    };
    let inches_text = match (inches_left > 0.0, fraction_text(parts as u8)) {
        (false, Some(fraction)) if feet_text.is_empty() => fraction,
        (_, Some(fraction)) => format!("{inches_left} {fraction}"),
        (_, None) => inches_left.to_string(),
    };
    format!("{sign}{feet_text}{inches_text} in")
}

/// "1/2" for eight sixteenths.
fn fraction_text(sixteenths: u8) -> Option<String> {
    let shared = sixteenths.trailing_zeros();
    (sixteenths > 0).then(|| format!("{}/{}", sixteenths >> shared, 16u8 >> shared))
}

#[cfg(test)]
mod tests {
    use super::super::kinds::{Angle, Mass, Ratio};
    use super::*;

    #[track_caller]
    fn check(value: f64, decimals: u8, safe: Safe, expected: &str) {
        assert_eq!(number(value, decimals, safe), expected);
    }

    #[test]
    fn demands_print_up_and_capacities_down() {
        check(84.41, 1, Safe::Up, "84.5");
        check(84.49, 1, Safe::Down, "84.4");
        check(84.45, 0, Safe::Nearest, "84");
        check(-84.41, 1, Safe::Up, "−84.4");
        check(-84.41, 1, Safe::Down, "−84.5");
        check(0.0001, 2, Safe::Up, "0.01");
    }

    #[test]
    fn a_sum_with_the_last_bit_wrong_prints_as_it_should() {
        check(26_665.000_000_001, 0, Safe::Up, "26,665");
        check(26_664.999_999_999, 0, Safe::Down, "26,665");
        check(0.1 + 0.2, 1, Safe::Up, "0.3");
        check(1e-17, 2, Safe::Up, "0.00");
        check(26_665.001, 0, Safe::Up, "26,666");
    }

    #[test]
    fn signs_and_groups() {
        check(33_720.0, 0, Safe::Nearest, "33,720");
        check(-1_234_567.891, 2, Safe::Nearest, "−1,234,567.89");
        check(999.0, 0, Safe::Nearest, "999");
        check(999.96, 1, Safe::Nearest, "1,000.0");
        check(-0.0, 1, Safe::Nearest, "0.0");
        check(-0.04, 1, Safe::Nearest, "0.0");
        check(-0.04, 1, Safe::Up, "0.0");
        check(f64::NAN, 1, Safe::Up, "—");
        check(f64::INFINITY, 1, Safe::Down, "—");
        assert!(number(f64::MAX, 20, Safe::Up).starts_with("179,769"));
    }

    #[test]
    fn units_stand_behind() {
        assert_eq!(show(Mass::lb(33_720.0), Unit::Lb, 0, Safe::Up), "33,720 lb");
        assert_eq!(show(Ratio::percent(84.41), Unit::Percent, 1, Safe::Up), "84.5 %");
        assert_eq!(show(Ratio::of(0.25), Unit::One, 2, Safe::Nearest), "0.25");
        assert_eq!(show(Angle::deg(60.0), Unit::Deg, 1, Safe::Nearest), "60.0°");
    }

    /// 3.81 m = 12.5 ft = 12 ft 6 in exactly (NIST SP 811, B.8).
    #[test]
    fn feet_and_inches() {
        for (length, expected) in [
            (Length::m(3.81), "12 ft 6 in"),
            (Length::inch(150.5), "12 ft 6 1/2 in"),
            (Length::inch(6.0), "6 in"),
            (Length::inch(0.3125), "5/16 in"),
            (Length::inch(12.25), "1 ft 0 1/4 in"),
            (Length::inch(-6.0625), "−6 1/16 in"),
            (Length::inch(11.99), "1 ft 0 in"),
            (Length::ZERO, "0 in"),
            (Length::ft(1234.0), "1,234 ft 0 in"),
            (Length::m(f64::NAN), "—"),
        ] {
            assert_eq!(feet_inches(length), expected);
        }
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties {
    use super::*;
    use proptest::prelude::*;

    fn printed(value: f64, decimals: u8, safe: Safe) -> f64 {
        number(value, decimals, safe)
            .replace(',', "")
            .replace('−', "-")
            .parse()
            .expect("a printed number is a number")
    }

    proptest! {
        #[test]
        fn printing_stays_on_the_safe_side(value in -1e9_f64..1e9, decimals in 0_u8..5) {
            let slack = 2e-9 * f64::max(value.abs(), 1.0);
            let step = [1.0, 0.1, 0.01, 0.001, 0.0001][usize::from(decimals)];
            let (up, down) = (printed(value, decimals, Safe::Up), printed(value, decimals, Safe::Down));
            prop_assert!(up >= value - slack && up <= value + step + slack);
            prop_assert!(down <= value + slack && down >= value - step - slack);
            let nearest = printed(value, decimals, Safe::Nearest);
            prop_assert!((nearest - value).abs() <= step / 2.0 + slack);
        }
    }
}
