//! What the words around a pasted chart say: units, which axis is which, on outriggers or on tyres.

use crate::crane::split_marks;
use crate::quantity::{DecimalMark, Length, Mass, Readable, Unit, read};

/// A unit that the words name once, differently, or not at all.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Named {
    #[default]
    Not,
    As(Unit),
    Differently,
}

impl Named {
    fn also(&mut self, unit: Unit) {
        *self = match *self {
            Self::Not => Self::As(unit),
            Self::As(same) if same == unit => Self::As(unit),
            Self::As(_) | Self::Differently => Self::Differently,
        };
    }

    pub(super) const fn unit(self) -> Option<Unit> {
        match self {
            Self::As(unit) => Some(unit),
            Self::Not | Self::Differently => None,
        }
    }
}

/// What the text around the figures says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Hints {
    /// Unit of the radii.
    pub radius: Named,
    /// Unit of the boom lengths.
    pub boom: Named,
    /// A unit of length, of no axis in particular.
    pub length: Named,
    /// Unit of the capacities.
    pub capacity: Named,
    /// The text speaks of lifting on tyres.
    pub on_rubber: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Word {
    Radius,
    Boom,
    Length(Unit),
    Mass(Unit),
    /// A thousand, as in "x 1000 lb".
    Thousand,
    Number,
    Other,
}

impl Hints {
    /// Takes in one field or line of text.
    ///
    /// A unit behind a number belongs to that number ("49,600 lb counterweight") and says nothing of the table, except
    /// behind a thousand ("1,000 lb").
    pub(super) fn scan(&mut self, text: &str) {
        let lower = text.to_lowercase();
        self.on_rubber |= ["rubber", "tire", "tyre", "pick and carry", "pick & carry"]
            .iter()
            .any(|w| lower.contains(w));
        let words: Vec<Word> = words(text).map(word).collect();
        let mut axis = None;
        for (i, &word) in words.iter().enumerate() {
            let before = i.checked_sub(1).map(|i| words[i]);
            match word {
                Word::Radius | Word::Boom => axis = Some(word),
                Word::Length(unit) if before != Some(Word::Number) => match axis {
                    Some(Word::Radius) => self.radius.also(unit),
                    Some(_) => self.boom.also(unit),
                    None => self.length.also(unit),
                },
                Word::Mass(unit) if before != Some(Word::Number) => {
                    let thousand = before == Some(Word::Thousand) || words[i + 1..].contains(&Word::Thousand);
                    match (unit, thousand) {
                        (Unit::Lb, true) => self.capacity.also(Unit::Kip),
                        (Unit::Kg, true) => self.capacity.also(Unit::T),
                        (unit, false) => self.capacity.also(unit),
                        (_, true) => self.capacity = Named::Differently,
                    }
                }
                _ => {}
            }
        }
    }
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || "()[]{}/\\_;:|=×\"".contains(c))
        .map(|word| word.trim_matches([',', '.', '*', '-', '–', '—', '\'']))
        .filter(|word| !word.is_empty())
}

fn word(text: &str) -> Word {
    match text.to_lowercase().as_str() {
        "radius" | "radii" | "rad" => return Word::Radius,
        "boom" | "booms" => return Word::Boom,
        "1000" | "1,000" | "1.000" | "1000's" | "1000s" | "thousand" | "thousands" => return Word::Thousand,
        _ => {}
    }
    if text.chars().all(|c| c.is_ascii_digit() || ".,'".contains(c)) {
        return Word::Number;
    }
    // "in" is a word of the language before it is a unit
    if let Some(unit @ (Unit::M | Unit::Ft)) = Unit::spelled::<Length>(text) {
        return Word::Length(unit);
    }
    match Unit::spelled::<Mass>(text) {
        Some(unit) if text != "T" => Word::Mass(unit),
        _ => Word::Other,
    }
}

/// Whether the text speaks of radii.
pub(super) fn says_radius(text: &str) -> bool {
    words(text).any(|w| word(w) == Word::Radius)
}

/// Whether the text speaks of booms.
pub(super) fn says_boom(text: &str) -> bool {
    words(text).any(|w| word(w) == Word::Boom)
}

/// Whether a column head speaks of boom angles or parts of line.
pub(super) fn says_angle_or_parts(text: &str) -> bool {
    let is = |w: &str| {
        matches!(
            w.to_lowercase().as_str(),
            "angle" | "angles" | "deg" | "degrees" | "parts" | "falls"
        )
    };
    text.contains('°') || words(text).any(is)
}

/// A length with either decimal mark; a bare number counts as metres.
pub(super) fn any_length(text: &str) -> Option<Length> {
    length_or_bare(text, Unit::M)
}

/// A length with either decimal mark; a bare number is in `bare`.
pub(super) fn length_or_bare(text: &str, bare: Unit) -> Option<Length> {
    let (number, _) = split_marks(text);
    [DecimalMark::Point, DecimalMark::Comma]
        .into_iter()
        .find_map(|mark| read::<Length>(number, bare, mark).value())
}

/// The length in a head such as "boom_11.5_m", "37.7 ft*" or "Radius, ft 9.8", as it stands there.
pub(super) fn length_in(head: &str) -> Option<String> {
    let spaced = head.replace('_', " ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    for start in 0..words.len() {
        for end in (start + 1..=words.len()).rev() {
            let part = words[start..end].join(" ");
            if part.starts_with(|c: char| c.is_ascii_digit()) && any_length(&part).is_some() {
                return Some(part);
            }
        }
    }
    None
}

/// The unit of `Q` that stands behind the number of a text.
pub(super) fn own_unit<Q: Readable>(text: &str) -> Option<Unit> {
    let (number, _) = split_marks(text);
    let unit = number.trim_start_matches(|c: char| c.is_ascii_digit() || ".,/ ".contains(c));
    // 32'-6"
    let unit = if unit.starts_with('\'') { "'" } else { unit };
    Unit::spelled::<Q>(unit)
}

/// What a number's signs say about the decimal mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum MarkEvidence {
    /// It can only be read with this mark.
    Only(DecimalMark),
    /// One sign before exactly three digits: thousands or decimals.
    Either {
        sign: char,
    },
    None,
}

pub(super) fn mark_evidence(text: &str) -> MarkEvidence {
    let (number, _) = split_marks(text);
    let end = number
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .unwrap_or(number.len());
    let number = &number[..end];
    let Some(last) = number.rfind(['.', ',']) else {
        return MarkEvidence::None;
    };
    let (sign, other) = if number[last..].starts_with('.') {
        ('.', ',')
    } else {
        (',', '.')
    };
    let mark_of = |sign| {
        if sign == '.' {
            DecimalMark::Point
        } else {
            DecimalMark::Comma
        }
    };
    if number.matches(sign).count() > 1 {
        return MarkEvidence::Only(mark_of(other));
    }
    let (whole, decimals) = (&number[..last], &number[last + 1..]);
    let may_be_thousands = decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
    if may_be_thousands && !whole.contains(other) {
        MarkEvidence::Either { sign }
    } else {
        MarkEvidence::Only(mark_of(sign))
    }
}
