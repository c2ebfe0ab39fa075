//! A rate as it was told: the amount, and what it is for. A rate that does not say so is asked about.

use super::money::{Money, Share, number};
use crate::plan::RateFor;
use crate::quantity::{DecimalMark, Duration, Reading, Unit, read};

/// What an amount is paid for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// For each hour.
    Hour,
    /// For each day.
    Day,
    /// Once, or for each thing that is counted.
    Each,
}

/// Which hours a limit counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// From the crane's arrival until it leaves.
    OnSite,
    /// From leaving the yard until it is back.
    PortToPort,
}

/// A rate that was understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// An amount for something.
    Price(Money, Per),
    /// Whole seconds, and which hours they count where that was said.
    Time(i64, Option<Basis>),
    /// A share or a multiple.
    Share(Share),
}

/// What kind of rate an item needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// An amount for an hour or for a day.
    PerTime,
    /// An amount for an hour, for a day, or once.
    Amount,
    /// Hours.
    Hours,
    /// Hours, or an amount once.
    HoursOrAmount,
    /// Hours with what they count: on site or port to port.
    HoursCounted,
    /// Per cent or a multiple.
    Share,
}

/// Each item: its words, what it needs, whether it is counted.
pub const WANTED: [(RateFor, &str, Wanted, bool); 22] = [
    (RateFor::Hire, "Crane with operator", Wanted::PerTime, false),
    (RateFor::Minimum, "Least hours billed", Wanted::Hours, false),
    (RateFor::Travel, "Travel there and back", Wanted::HoursOrAmount, false),
    (RateFor::OvertimeAfter, "Overtime after", Wanted::HoursCounted, false),
    (RateFor::Overtime, "Overtime", Wanted::Share, false),
    (RateFor::DoubleAfter, "Double time after", Wanted::HoursCounted, false),
    (RateFor::DoubleTime, "Double time", Wanted::Share, false),
    (RateFor::Fuel, "Fuel surcharge", Wanted::Share, false),
    (
        RateFor::CounterweightTruck,
        "Counterweight trucks",
        Wanted::Amount,
        true,
    ),
    (RateFor::Permit, "Permits", Wanted::Amount, false),
    (RateFor::Escort, "Escorts", Wanted::Amount, true),
    (RateFor::Mats, "Mats", Wanted::Amount, true),
    (RateFor::RoadClosure, "Road closure", Wanted::Amount, false),
    (RateFor::Flagger, "Flaggers", Wanted::Amount, true),
    (RateFor::Rigger, "Riggers", Wanted::Amount, true),
    (RateFor::SignalPerson, "Signal person", Wanted::Amount, true),
    (RateFor::Pad, "Crane pad works", Wanted::Amount, false),
    (RateFor::Cable, "Cable works", Wanted::Amount, false),
    (RateFor::Other, "Other", Wanted::Amount, false),
    (RateFor::Contingency, "Contingency", Wanted::Share, false),
    (RateFor::Standby, "Weather standby", Wanted::Share, false),
    (RateFor::Cancellation, "Cancelled late", Wanted::Share, false),
];

/// An item's words, what it needs, whether it is counted.
pub fn wanted(item: RateFor) -> (&'static str, Wanted, bool) {
    let found = WANTED.iter().find(|(one, ..)| *one == item);
    found.map_or(("Other", Wanted::Amount, false), |(_, words, wanted, counted)| {
        (words, *wanted, *counted)
    })
}

impl Wanted {
    /// How to write one.
    pub const fn example(self) -> &'static str {
        match self {
            Self::PerTime => "415 per hour or 3,200 per day",
            Self::Amount => "45 each, 92 per hour or 780 per day",
            Self::Hours => "8 h",
            Self::HoursOrAmount => "2.5 h or 900 each",
            Self::HoursCounted => "8 h on site or 10 h port to port",
            Self::Share => "7 % or 1.5 x",
        }
    }
}

/// Reads a rate. Blank is not known and not nothing.
///
/// Amounts say what they are for: "415 per hour", "415/h", "780 per day", "460 each", "390 in all". Hours are "8 h" or "90 min"; limits of overtime say
/// what they count: "8 h on site", "10 h port to port". Shares are "7 %", "1.5 x" or "0.5". A plain number where more than one reading is possible is
/// asked about.
pub fn read_rate(text: &str, wanted: Wanted, mark: DecimalMark) -> Reading<Told> {
    let text = text.trim();
    if text.is_empty() {
        return Reading::Blank;
    }
    let (digits, words) = split(text);
    let told = match wanted {
        Wanted::PerTime | Wanted::Amount => price(text, digits, words, wanted, mark),
        Wanted::Share => share(text, digits, words, mark),
        Wanted::HoursOrAmount if per(words).is_some() => price(text, digits, words, wanted, mark),
        Wanted::Hours | Wanted::HoursCounted | Wanted::HoursOrAmount => hours(text, digits, words, wanted, mark),
    };
    match told {
        Ok(told) if negative(told) => Reading::Wrong(format!(
            "read \"{text}\": expected nothing below zero; write a credit as a line of the quote"
        )),
        Ok(told) => Reading::Is(told),
        Err(Trouble::Ask(question)) => Reading::Ask(question),
        Err(Trouble::Wrong(message)) => Reading::Wrong(message),
    }
}

enum Trouble {
    Ask(String),
    Wrong(String),
}

const fn negative(told: Told) -> bool {
    match told {
        Told::Price(money, _) => money.to_cents() < 0,
        Told::Time(seconds, _) => seconds < 0,
        Told::Share(share) => share.to_millionths() < 0,
    }
}

/// The number a text begins with, and the words behind it.
fn split(text: &str) -> (&str, &str) {
    let text = text.trim_start_matches(['$', '€', '£', ' ']);
    let end = text.find(|c: char| {
        !(c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '\u{a0}' | '\u{202f}' | '-' | '−' | '+'))
    });
    let (digits, words) = text.split_at(end.unwrap_or(text.len()));
    (digits.trim(), words.trim())
}

fn is_one_of(words: &str, known: &[&str]) -> bool {
    known.iter().any(|one| words.eq_ignore_ascii_case(one))
}

/// What an amount is for, in words.
fn per(words: &str) -> Option<Per> {
    // a currency between the number and what it is for says nothing new: "415 USD per hour"
    let behind_currency = |words: &str| -> Option<Per> {
        let (code, rest) = words.split_at_checked(3)?;
        (code.bytes().all(|b| b.is_ascii_uppercase()))
            .then(|| per(rest.trim()))
            .flatten()
    };
    if is_one_of(
        words,
        &[
            "/h", "/hr", "/ h", "per h", "per hr", "per hour", "an hour", "a hour", "hourly", "/hour",
        ],
    ) {
        Some(Per::Hour)
    } else if is_one_of(
        words,
        &[
            "/day",
            "/d",
            "/ day",
            "per day",
            "a day",
            "daily",
            "per mat and day",
            "per mat a day",
        ],
    ) {
        Some(Per::Day)
    } else if is_one_of(
        words,
        &[
            "each",
            "in all",
            "lump",
            "lump sum",
            "once",
            "per trip",
            "per round trip",
            "a trip",
            "per truck",
            "per mat",
            "per permit",
            "flat",
        ],
    ) {
        Some(Per::Each)
    } else {
        behind_currency(words)
    }
}

fn price(text: &str, digits: &str, words: &str, wanted: Wanted, mark: DecimalMark) -> Result<Told, Trouble> {
    let amount = Money::read(digits, mark).map_err(Trouble::Wrong)?;
    match per(words) {
        Some(Per::Hour | Per::Day) if wanted == Wanted::HoursOrAmount => Err(Trouble::Wrong(format!(
            "read \"{text}\": expected hours, which are charged at the hourly rate, or an amount once; write {}",
            wanted.example()
        ))),
        Some(Per::Each) if wanted == Wanted::PerTime => Err(Trouble::Wrong(format!(
            "read \"{text}\": expected an amount for an hour or a day; write {}",
            wanted.example()
        ))),
        Some(per) => Ok(Told::Price(amount, per)),
        None if words.is_empty() || words.bytes().all(|b| b.is_ascii_uppercase()) => Err(Trouble::Ask(format!(
            "read \"{text}\": for an hour, for a day{}? Write \"{digits} per hour\"{}",
            if wanted == Wanted::PerTime { "" } else { ", or once" },
            if wanted == Wanted::PerTime {
                " or \"… per day\""
            } else {
                ", \"… per day\" or \"… each\""
            },
        ))),
        None => Err(Trouble::Wrong(format!(
            "read \"{text}\": \"{words}\" is not known; write {}",
            wanted.example()
        ))),
    }
}

fn hours(text: &str, digits: &str, words: &str, wanted: Wanted, mark: DecimalMark) -> Result<Told, Trouble> {
    if digits.is_empty() {
        return Err(Trouble::Wrong(format!(
            "read \"{text}\": expected {}",
            wanted.example()
        )));
    }
    let (unit, basis) = match ["on site", "port to port"].iter().find(|basis| {
        words.len() >= basis.len()
            && words.is_char_boundary(words.len() - basis.len())
            && words[words.len() - basis.len()..].eq_ignore_ascii_case(basis)
    }) {
        Some(&"on site") => (words[..words.len() - 7].trim(), Some(Basis::OnSite)),
        Some(_) => (words[..words.len() - 12].trim(), Some(Basis::PortToPort)),
        None => (words, None),
    };
    if unit.is_empty() {
        return Err(Trouble::Ask(format!(
            "read \"{text}\": hours or minutes? Write \"{digits} h\"{}",
            if wanted == Wanted::HoursOrAmount {
                " or, if it is an amount, \"… each\""
            } else {
                ""
            }
        )));
    }
    let time = match read::<Duration>(&format!("{digits} {unit}"), Unit::Hour, mark) {
        Reading::Is(time) => time,
        Reading::Ask(message) | Reading::Wrong(message) => return Err(Trouble::Wrong(message)),
        Reading::Blank => {
            return Err(Trouble::Wrong(format!(
                "read \"{text}\": expected {}",
                wanted.example()
            )));
        }
    };
    let seconds = libm::round(time.to_s());
    // a hundred days
    if seconds.abs() > 8_640_000.0 {
        return Err(Trouble::Wrong(format!(
            "read \"{text}\": expected hours of a day or two; write {}",
            wanted.example()
        )));
    }
    match (wanted, basis) {
        (Wanted::HoursCounted, None) => Err(Trouble::Ask(format!(
            "read \"{text}\": counted on site or from port to port? Write \"{text} on site\" or \"{text} port to port\""
        ))),
        _ => Ok(Told::Time(seconds as i64, basis)),
    }
}

fn share(text: &str, digits: &str, words: &str, mark: DecimalMark) -> Result<Told, Trouble> {
    let value = number(digits, mark).map_err(Trouble::Wrong)?;
    let of_one = match words {
        "%" | "per cent" | "percent" => value / 100.0,
        "x" | "X" | "×" | "times" => value,
        // "7" may be seven times or seven per cent; "0.5" and "1.5" have one meaning
        "" if value <= 3.0 && value.fract() != 0.0 => value,
        "" => {
            return Err(Trouble::Ask(format!(
                "read \"{text}\": per cent or times? Write \"{digits} %\" or \"{digits} x\""
            )));
        }
        other => {
            return Err(Trouble::Wrong(format!(
                "read \"{text}\": \"{other}\" is not known; write {}",
                Wanted::Share.example()
            )));
        }
    };
    Share::of_one(of_one).map(Told::Share).ok_or_else(|| {
        Trouble::Wrong(format!(
            "read \"{text}\": expected a share below a thousand times; write {}",
            Wanted::Share.example()
        ))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const POINT: DecimalMark = DecimalMark::Point;

    fn price_of(cents: i64, per: Per) -> Reading<Told> {
        Reading::Is(Told::Price(Money::cents(cents), per))
    }

    #[test]
    fn a_rate_says_what_it_is_for() {
        for text in [
            "415 per hour",
            "415/h",
            "$415 an hour",
            "415 USD per hour",
            "415.00 /hr",
            "415 USD/h",
        ] {
            assert_eq!(
                read_rate(text, Wanted::PerTime, POINT),
                price_of(41_500, Per::Hour),
                "{text}"
            );
        }
        assert_eq!(
            read_rate("780 per day", Wanted::Amount, POINT),
            price_of(78_000, Per::Day)
        );
        assert_eq!(
            read_rate("1,450 each", Wanted::Amount, POINT),
            price_of(145_000, Per::Each)
        );
        assert_eq!(
            read_rate("2.5 h", Wanted::HoursOrAmount, POINT),
            Reading::Is(Told::Time(9000, None))
        );
        assert_eq!(
            read_rate("900 each", Wanted::HoursOrAmount, POINT),
            price_of(90_000, Per::Each)
        );
        assert_eq!(
            read_rate("8 h on site", Wanted::HoursCounted, POINT),
            Reading::Is(Told::Time(28_800, Some(Basis::OnSite)))
        );
        assert_eq!(
            read_rate("10 h Port to Port", Wanted::HoursCounted, POINT),
            Reading::Is(Told::Time(36_000, Some(Basis::PortToPort)))
        );
        assert_eq!(
            read_rate("7 %", Wanted::Share, POINT),
            Reading::Is(Told::Share(Share::millionths(70_000)))
        );
        assert_eq!(
            read_rate("1.5 x", Wanted::Share, POINT),
            Reading::Is(Told::Share(Share::millionths(1_500_000)))
        );
        assert_eq!(read_rate("  ", Wanted::Share, POINT), Reading::Blank);
    }

    #[test]
    fn a_rate_without_what_it_is_for_is_asked_about() {
        for (text, wanted) in [
            ("415", Wanted::PerTime),
            ("415 USD", Wanted::PerTime),
            ("390", Wanted::Amount),
            ("8", Wanted::Hours),
            ("2.5", Wanted::HoursOrAmount),
            ("8 h", Wanted::HoursCounted),
            ("7", Wanted::Share),
            ("2", Wanted::Share),
        ] {
            assert!(
                matches!(read_rate(text, wanted, POINT), Reading::Ask(_)),
                "{text}: {:?}",
                read_rate(text, wanted, POINT)
            );
        }
        assert_eq!(
            read_rate("415", Wanted::PerTime, POINT),
            Reading::Ask("read \"415\": for an hour, for a day? Write \"415 per hour\" or \"… per day\"".into())
        );
    }

    #[test]
    fn what_is_no_rate_is_refused_with_what_was_read() {
        for (text, wanted) in [
            ("abc", Wanted::Amount),
            ("415 per furlong", Wanted::Amount),
            ("-5 each", Wanted::Amount),
            ("1e400 each", Wanted::Amount),
            ("99999999999999 each", Wanted::Amount),
            ("3 lb", Wanted::Hours),
            ("415 per hour", Wanted::HoursOrAmount),
            ("415 each", Wanted::PerTime),
            ("5 apples", Wanted::Share),
            ("∞", Wanted::Share),
            ("½", Wanted::Hours),
        ] {
            let found = read_rate(text, wanted, POINT);
            assert!(
                matches!(found, Reading::Wrong(_) | Reading::Ask(_)),
                "{text}: {found:?}"
            );
        }
    }
}
