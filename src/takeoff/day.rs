//! Days as people write them in a plan: year-month-day.

/// A day: year, month, day of the month. Later days compare greater.
pub type Day = (u16, u8, u8);

/// The day that a text says; `None` for a blank and for anything but year-month-day.
///
/// "3 May" and "5/3/27" are not read: which is the month, and of which year, would be a guess, and the order of days decides which weight stands.
///
/// Source: ISO 8601, calendar date.
pub fn day(text: &str) -> Option<Day> {
    let mut parts = text.trim().split('-');
    let mut digits = |count: usize| {
        let part = parts.next()?;
        let fits = part.len() == count && part.bytes().all(|b| b.is_ascii_digit());
        fits.then_some(part)
    };
    let (year, month, date) = (
        digits(4)?.parse().ok()?,
        digits(2)?.parse().ok()?,
        digits(2)?.parse().ok()?,
    );
    let whole = parts.next().is_none() && (1..=12).contains(&month) && (1..=days_in(year, month)).contains(&date);
    whole.then_some((year, month, date))
}

/// Days in a month. Source: Gregorian calendar.
const fn days_in(year: u16, month: u8) -> u8 {
    match month {
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_year_month_day_is_a_day() {
        assert_eq!(day(" 2027-05-03 "), Some((2027, 5, 3)));
        assert_eq!(day("2028-02-29"), Some((2028, 2, 29)));
        for text in [
            "",
            "2027-5-3",
            "3 May 2027",
            "05/03/2027",
            "2027-13-01",
            "2027-02-29",
            "2100-02-29",
            "2027-05-03-1",
        ] {
            assert_eq!(day(text), None, "{text}");
        }
        assert!(day("2027-05-03") < day("2027-11-01"));
    }
}
