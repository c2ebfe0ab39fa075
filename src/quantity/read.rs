//! Reading what a person types: "12 ft 6 in", "3.8 m", "18 kip", "33,720 lb".

use super::unit::{Dimension, Readable, Unit};

/// Which sign a person puts before the decimals.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DecimalMark {
    /// 12.5
    #[default]
    Point,
    /// 12,5
    Comma,
}

impl DecimalMark {
    const fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }
}

/// What became of a typed text.
#[derive(Clone, Debug, PartialEq)]
pub enum Reading<Q> {
    /// Nothing typed: not known, and never zero.
    Blank,
    /// Understood.
    Is(Q),
    /// It has more than one meaning: what the person has to say.
    Ask(String),
    /// It has no meaning here: what was read, what was expected, how to fix it.
    Wrong(String),
}

impl<Q> Reading<Q> {
    /// The value, where there is one.
    pub fn value(self) -> Option<Q> {
        match self {
            Self::Is(value) => Some(value),
            Self::Blank | Self::Ask(_) | Self::Wrong(_) => None,
        }
    }

    /// The same with the value in another form.
    pub fn map<R>(self, form: impl FnOnce(Q) -> R) -> Reading<R> {
        match self {
            Self::Blank => Reading::Blank,
            Self::Is(value) => Reading::Is(form(value)),
            Self::Ask(question) => Reading::Ask(question),
            Self::Wrong(message) => Reading::Wrong(message),
        }
    }
}

/// Reads a typed quantity.
///
/// A number without unit is in `bare`. Lengths may be feet and inches, with fractions. Thousands stand in groups of
/// three behind spaces or behind the sign that is not the decimal `mark`; a single such sign that cannot stand before a
/// group ("4,11") is taken for the decimal mark. Anything that would have to be guessed is refused. The value is
/// always finite; limits such as "not negative" are the caller's.
pub fn read<Q: Readable>(text: &str, bare: Unit, mark: DecimalMark) -> Reading<Q> {
    read_si(text, bare, mark, Q::DIMENSION).map(Q::from_si)
}

/// As [`read`], with the SI number for the value.
pub fn read_si(text: &str, bare: Unit, mark: DecimalMark, dimension: &Dimension) -> Reading<f64> {
    let clean = plain_signs(text);
    if clean.is_empty() {
        return Reading::Blank;
    }
    match si_of_clean(&clean, bare, mark, dimension) {
        Ok(si) => Reading::Is(si),
        Err(Trouble::Ask(question)) => Reading::Ask(format!("read \"{}\": {question}", shortened(text))),
        Err(Trouble::Wrong(why)) => Reading::Wrong(format!(
            "read \"{}\" as {kind}: {why}expected {kind} such as {}",
            shortened(text),
            dimension.example,
            kind = dimension.kind,
        )),
    }
}

/// Why a text has no value.
enum Trouble {
    Ask(&'static str),
    /// Nothing, or a clause that ends in "; ".
    Wrong(String),
}

fn wrong(why: &str) -> Trouble {
    Trouble::Wrong(format!("{why}; "))
}

const WHICH_TON: &str = "which ton? write US ton (2,000 lb), tonne (1,000 kg) or long ton (2,240 lb) behind the number";

/// The SI number of an already cleaned text.
fn si_of_clean(clean: &str, bare: Unit, mark: DecimalMark, dimension: &Dimension) -> Result<f64, Trouble> {
    let (sign, unsigned) = split_sign(clean);
    let (digits, rest) = split_number(unsigned);
    if is_exponent(rest) {
        return Err(wrong("powers of ten are not read, write the number out"));
    }
    let number = parse_number(digits, mark)?;
    // adding zero turns -0 into 0
    let si = sign * si_of(number, rest, bare, mark, dimension)? + 0.0;
    if si.is_finite() {
        Ok(si)
    } else {
        Err(wrong("the number is too large"))
    }
}

fn si_of(number: f64, rest: &str, bare: Unit, mark: DecimalMark, dimension: &Dimension) -> Result<f64, Trouble> {
    if rest.is_empty() {
        return if dimension.has(bare) {
            Ok(bare.to_si(number))
        } else {
            Err(wrong("the number has no unit"))
        };
    }
    if let Some(unit) = dimension.spelled(rest) {
        // a lone capital T is written for US tons as well as for tonnes
        return if unit == Unit::T && rest == "T" {
            Err(Trouble::Ask(WHICH_TON))
        } else {
            Ok(unit.to_si(number))
        };
    }
    if dimension.has(Unit::T) && ["ton", "tons"].iter().any(|ton| rest.eq_ignore_ascii_case(ton)) {
        return Err(Trouble::Ask(WHICH_TON));
    }
    if dimension.has(Unit::Ft)
        && let Some(inches) = after_foot_mark(rest)
    {
        return feet_and_inches(number, inches, mark);
    }
    Err(match Unit::spelled_anywhere(rest) {
        Some(_) => Trouble::Wrong(String::new()),
        None => wrong(&format!("no unit is spelled \"{}\"", shortened(rest))),
    })
}

/// What stands behind the foot mark of "12 ft 6 in" or "12'-6", from its first digit.
fn after_foot_mark(rest: &str) -> Option<&str> {
    let lower = ["feet", "foot", "ft.", "ft", "'"];
    let mark = lower.iter().find(|mark| {
        rest.get(..mark.len())
            .is_some_and(|head| head.eq_ignore_ascii_case(mark))
    })?;
    let inches = rest[mark.len()..].trim_start_matches([' ', '-']);
    inches.starts_with(|c: char| c.is_ascii_digit()).then_some(inches)
}

fn feet_and_inches(feet: f64, inches: &str, mark: DecimalMark) -> Result<f64, Trouble> {
    let (digits, rest) = split_number(inches);
    if !(rest.is_empty() || Unit::spelled_anywhere(rest) == Some(Unit::Inch)) {
        return Err(wrong(&format!("\"{}\" behind the inches", shortened(rest))));
    }
    let inches = parse_number(digits, mark)?;
    if feet.fract() != 0.0 || inches >= 12.0 {
        return Err(wrong("before inches the feet are whole, and inches stay below 12"));
    }
    Ok(Unit::Ft.to_si(feet + inches / 12.0))
}

/// The text with plain signs: single spaces, `-`, `'`, `"` and `/` in place of their typographic forms.
fn plain_signs(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\u{200b}' | '\u{2060}' | '\u{feff}' => {}
            '−' | '‐' | '‑' | '‒' | '–' | '—' => plain.push('-'),
            '’' | '‘' | '′' | '´' | '`' => plain.push('\''),
            '”' | '“' | '„' | '″' => plain.push('"'),
            '⁄' => plain.push('/'),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            _ => plain.push(c),
        }
    }
    // whitespace as Unicode has it: no-break and thin spaces too
    plain
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .replace("''", "\"")
}

fn split_sign(text: &str) -> (f64, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// The digits in front, with the signs that may stand among them, and what follows.
fn split_number(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '/')))
        .unwrap_or(text.len());
    (text[..end].trim(), text[end..].trim())
}

fn is_exponent(rest: &str) -> bool {
    let Some(power) = rest.strip_prefix(['e', 'E']) else {
        return false;
    };
    power
        .strip_prefix(['+', '-'])
        .unwrap_or(power)
        .starts_with(|c: char| c.is_ascii_digit())
}

/// A number without sign: "12.5", "1,560", "1 560", "5/8", "32 6/12".
fn parse_number(text: &str, mark: DecimalMark) -> Result<f64, Trouble> {
    if !text.contains(|c: char| c.is_ascii_digit()) {
        return Err(wrong("no number in front"));
    }
    if !text.contains('/') {
        return parse_decimal(text, mark);
    }
    let (whole, fraction) = text.rsplit_once(' ').unwrap_or(("", text));
    let bad = || wrong("a fraction is written 5/8 or 32 6/12");
    let (over, under) = fraction.split_once('/').ok_or_else(bad)?;
    let (over, under) = (all_digits(over).ok_or_else(bad)?, all_digits(under).ok_or_else(bad)?);
    let whole_value = if whole.is_empty() {
        0.0
    } else {
        parse_decimal(whole, mark)?
    };
    if under == 0.0 || whole_value.fract() != 0.0 || (!whole.is_empty() && over >= under) {
        return Err(bad());
    }
    Ok(whole_value + over / under)
}

fn all_digits(text: &str) -> Option<f64> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if digits { text.parse().ok() } else { None }
}

/// A number without sign or fraction bar, its marks told apart by [`read`]'s rules.
fn parse_decimal(text: &str, mark: DecimalMark) -> Result<f64, Trouble> {
    let (whole, decimals) = split_decimals(text, mark)
        .ok_or_else(|| wrong("its commas, points and spaces do not fit together, leave the thousands unseparated"))?;
    format!("{whole}.{decimals}")
        .parse()
        .map_err(|_| wrong("no number in front"))
}

/// Digits before and after the decimal mark, the thousands separators taken out.
fn split_decimals(text: &str, mark: DecimalMark) -> Option<(String, String)> {
    let decimal = mark.sign();
    let thousands = if decimal == '.' { ',' } else { '.' };
    if text.contains(' ') {
        // spaces group: either mark can only be the decimal one
        let (whole, decimals) = text.split_once(['.', ',']).unwrap_or((text, ""));
        return Some((joined_groups(whole, ' ')?, digits_only(decimals)?));
    }
    if let Some((whole, decimals)) = text.split_once(decimal) {
        let whole = if whole.contains(thousands) {
            joined_groups(whole, thousands)?
        } else {
            digits_only(whole)?
        };
        return Some((whole, digits_only(decimals)?));
    }
    if let Some(whole) = joined_groups(text, thousands) {
        return Some((whole, String::new()));
    }
    let (whole, decimals) = text.split_once(thousands).unwrap_or((text, ""));
    // "1234,567" may have lost a separator and "5," its group; "0,567" and "4,11" can only be decimals
    let guess = text.ends_with(thousands) || (decimals.len() == 3 && whole.len() > 1);
    if guess {
        None
    } else {
        Some((digits_only(whole)?, digits_only(decimals)?))
    }
}

/// "1,234,567" without its separators; `None` unless every group is right.
fn joined_groups(text: &str, separator: char) -> Option<String> {
    let mut groups = text.split(separator);
    let first = groups
        .next()
        .filter(|g| (1..=3).contains(&g.len()) && !g.starts_with('0'))?;
    let rest: Vec<&str> = groups.collect();
    let fits = !rest.is_empty() && rest.iter().all(|g| g.len() == 3);
    if fits {
        digits_only(&format!("{first}{}", rest.concat()))
    } else {
        None
    }
}

fn digits_only(text: &str) -> Option<String> {
    text.bytes().all(|b| b.is_ascii_digit()).then(|| text.to_owned())
}

/// The text for a message: one line, not longer than forty signs.
fn shortened(text: &str) -> String {
    const LONGEST: usize = 40;
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match line.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

#[cfg(test)]
mod tests {
    use super::super::kinds::*;
    use super::*;
    use DecimalMark::{Comma, Point};

    #[track_caller]
    fn is<Q: Readable + core::fmt::Debug>(text: &str, bare: Unit, mark: DecimalMark, expected_si: f64) {
        match read::<Q>(text, bare, mark) {
            Reading::Is(q) => approx::assert_relative_eq!(q.si(), expected_si, max_relative = 1e-14),
            other => panic!("{text:?}: {other:?}"),
        }
    }

    #[track_caller]
    fn refused<Q: Readable + core::fmt::Debug>(text: &str, bare: Unit, mark: DecimalMark, words: &[&str]) {
        match read::<Q>(text, bare, mark) {
            Reading::Wrong(message) | Reading::Ask(message) => {
                for word in words {
                    assert!(message.contains(word), "{message:?} has no {word:?}");
                }
                assert!(!message.ends_with('.'), "{message}");
            }
            other => panic!("{text:?}: {other:?}"),
        }
    }

    /// 1 ft = 0.3048 m and 1 in = 25.4 mm exactly (NIST SP 811, B.8): 12.5 ft = 3.81 m, 6.5 in = 0.1651 m.
    #[test]
    fn feet_and_inches_are_read() {
        for text in [
            "12.5",
            "12 1/2",
            "12½",
            "12.5 ft",
            "12.5'",
            "12 ft 6 in",
            "12ft6in",
            "12'-6\"",
            "12' 6\"",
            "12'6",
            "12’ – 6”",
            "12′6″",
            "12' 6''",
            "12 feet 6 inches",
            "12 FT. 6 IN.",
            "150 in",
            "150\"",
            "3.81 m",
            "3,81 m",
            "3810 mm",
            "3 810 mm",
            "381 cm",
            "\u{feff}12.5\u{a0}ft",
            "+12.5",
        ] {
            is::<Length>(text, Unit::Ft, Point, 3.81);
        }
        is::<Length>("12' 6 1/2\"", Unit::M, Point, 3.8227);
        is::<Length>("32 6/12", Unit::Ft, Point, 9.906);
        is::<Length>("32'-6\"", Unit::M, Point, 9.906);
        is::<Length>("−12'-6\"", Unit::M, Point, -3.81);
        is::<Length>("5/8 in", Unit::M, Point, 0.015_875);
    }

    /// 1 lb = 0.45359237 kg exactly (NIST SP 811, B.8): 33,720 lb = 15,295.1347164 kg.
    #[test]
    fn masses_are_read() {
        for text in [
            "33,720 lb",
            "33720",
            "33 720 lbs",
            "33\u{2009}720\u{202f}lb",
            "33.72 kip",
            "16.86 US ton",
            "16.86 short tons",
        ] {
            is::<Mass>(text, Unit::Lb, Point, 15_295.134_716_4);
        }
        is::<Mass>("18 kip", Unit::Kg, Point, 8_164.662_66);
        is::<Mass>("8 t", Unit::Lb, Point, 8000.0);
        is::<Mass>("8 tonne (1,000 kg)", Unit::Lb, Point, 8000.0);
        is::<Mass>("1 560", Unit::Kg, Point, 1560.0);
        is::<Mass>("1 long ton", Unit::Kg, Point, 1_016.046_908_8);
        is::<Mass>("-340", Unit::Kg, Point, -340.0);
        is::<Mass>("0", Unit::Kg, Point, 0.0);
    }

    #[test]
    fn other_quantities_are_read() {
        is::<Ratio>("10 %", Unit::One, Point, 0.1);
        is::<Ratio>("10", Unit::Percent, Point, 0.1);
        is::<Angle>("180°", Unit::Rad, Point, core::f64::consts::PI);
        is::<Speed>("20 mph", Unit::MPerS, Point, 8.9408);
        is::<Force>("1 kip", Unit::N, Point, 4_448.221_615_260_5);
        is::<Pressure>("180 kPa", Unit::PsfForce, Point, 180_000.0);
        is::<AreaDensity>("60 kg/m²", Unit::Psf, Point, 60.0);
        is::<Duration>("1.5 h", Unit::Minute, Point, 5400.0);
    }

    #[test]
    fn thousands_and_decimals_are_told_apart() {
        for (text, point, comma) in [
            ("1,560", 1560.0, 1.56),
            ("1.560", 1.56, 1560.0),
            ("4,11", 4.11, 4.11),
            ("4.11", 4.11, 4.11),
            ("1 560", 1560.0, 1560.0),
            ("1 560,5", 1560.5, 1560.5),
            ("0,450", 0.45, 0.45),
            ("1560", 1560.0, 1560.0),
            (".5", 0.5, 0.5),
        ] {
            is::<Mass>(text, Unit::Kg, Point, point);
            is::<Mass>(text, Unit::Kg, Comma, comma);
        }
        is::<Mass>("1,250.5", Unit::Kg, Point, 1250.5);
        is::<Mass>("1.250,5", Unit::Kg, Comma, 1250.5);
        for text in [
            "1.250,5",
            "1234,567",
            "1,560,2",
            "12 50",
            "1,2345,678",
            "1.2.3",
            "5,",
            "012,345",
            "1,,560",
            "0 560",
        ] {
            refused::<Mass>(text, Unit::Kg, Point, &["leave the thousands unseparated", "33,720 lb"]);
        }
        refused::<Mass>("1,250.5", Unit::Kg, Comma, &["leave the thousands unseparated"]);
    }

    #[test]
    fn a_bare_ton_is_asked() {
        for text in ["14.5 ton", "14.5 tons", "14.5 T", "14.5TON"] {
            assert!(matches!(read::<Mass>(text, Unit::Lb, Point), Reading::Ask(_)));
            refused::<Mass>(
                text,
                Unit::Lb,
                Point,
                &["14.5", "US ton (2,000 lb)", "tonne (1,000 kg)", "long ton (2,240 lb)"],
            );
        }
        is::<Mass>("14.5 t", Unit::Lb, Point, 14_500.0);
    }

    #[test]
    fn what_has_no_meaning_is_refused_with_a_message() {
        refused::<Mass>(
            "3.8 m",
            Unit::Lb,
            Point,
            &["read \"3.8 m\" as a mass: expected a mass such as 33,720 lb or 8 t"],
        );
        refused::<Mass>("26,665#", Unit::Lb, Point, &["no unit is spelled \"#\"", "33,720 lb"]);
        refused::<Mass>("1e3", Unit::Lb, Point, &["write the number out"]);
        refused::<Mass>("2E+4 kg", Unit::Lb, Point, &["write the number out"]);
        refused::<Mass>("5", Unit::M, Point, &["has no unit"]);
        for text in [
            "NaN", "inf", "-∞", "—", "about 5", "twelve", "m", "1/0", "5/", "3/2/1", "7 9/8", "1.5 1/2",
        ] {
            refused::<Length>(
                text,
                Unit::M,
                Point,
                &["expected a length such as 12 ft 6 in or 3.81 m"],
            );
        }
        for text in ["12.5 ft 6 in", "12 ft 14 in"] {
            refused::<Length>(text, Unit::M, Point, &["before inches the feet are whole"]);
        }
        for text in ["12-6", "12 ft 6 ft", "12 x 6", "5 kg"] {
            refused::<Length>(text, Unit::M, Point, &[text]);
        }
        refused::<Length>(&"9".repeat(400), Unit::M, Point, &["too large", "9…\""]);
    }

    #[test]
    fn nothing_typed_is_blank_not_zero() {
        for text in ["", " ", "\u{a0}\t\n", "\u{feff}"] {
            assert_eq!(read::<Mass>(text, Unit::Lb, Point), Reading::Blank);
        }
        let Reading::Is(zero) = read::<Mass>("-0", Unit::Lb, Point) else {
            panic!("zero is a number")
        };
        assert!(zero.si().is_sign_positive());
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties {
    use super::super::kinds::{Length, Mass, Quantity};
    use super::super::print::{Safe, number, show};
    use super::*;
    use proptest::prelude::*;

    fn any_mark() -> impl Strategy<Value = DecimalMark> {
        prop_oneof![Just(DecimalMark::Point), Just(DecimalMark::Comma)]
    }

    proptest! {
        /// Whatever is typed: no panic, and no value that is not finite.
        #[test]
        fn reading_is_total(text in "\\PC*", mark in any_mark()) {
            for si in [
                read::<Length>(&text, Unit::Ft, mark).value().map(Quantity::si),
                read::<Mass>(&text, Unit::Lb, mark).value().map(Quantity::si),
            ].into_iter().flatten() {
                prop_assert!(si.is_finite());
            }
        }

        /// The same for texts made of the signs that numbers are made of.
        #[test]
        fn reading_number_signs_is_total(text in "[0-9.,/ '\"eftin-]{0,14}", mark in any_mark()) {
            if let Reading::Is(length) = read::<Length>(&text, Unit::Ft, mark) {
                prop_assert!(length.si().is_finite());
            }
        }

        /// What is printed reads back as the same and prints as the same, in every unit and rounding.
        #[test]
        fn typed_value_shown(digits in -9_999_999_i64..9_999_999, decimals in 0_u8..4) {
            let value = digits as f64 / [1.0, 10.0, 100.0, 1000.0][usize::from(decimals)];
            for &unit in Mass::UNITS {
                let typed = format!("{} {}", number(value, decimals, Safe::Nearest), unit.symbol());
                let Reading::Is(mass) = read::<Mass>(&typed, Unit::Kg, DecimalMark::Point) else {
                    panic!("{typed:?} is not read");
                };
                for safe in [Safe::Up, Safe::Down, Safe::Nearest] {
                    prop_assert_eq!(&show(mass, unit, decimals, safe), &typed);
                }
            }
        }
    }
}
