//! Amounts of money in whole cents: sums are exact, each product is rounded once.

use crate::quantity::{DecimalMark, Ratio, Reading, Unit, read};

/// An amount in hundredths of the plan's currency.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(i64);

/// The largest amount that is read: a thousand million, in hundredths.
const MOST_CENTS: f64 = 1e11;

/// A share or a multiple in millionths: 7 % is 70,000, 1.5 x is 1,500,000.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Share(i64);

/// The largest multiple that is read.
const MOST_TIMES: f64 = 1000.0;

/// `amount · n / d` rounded to the nearest cent, halves away from zero; `d` above 0.
///
/// Rounding halves away from zero is what an invoice does ("commercial rounding", common practice, no source).
pub const fn ratio_of(amount: Money, n: i128, d: i128) -> Money {
    let twice = 2 * amount.0 as i128 * n;
    let rounded = if twice >= 0 {
        (twice + d) / (2 * d)
    } else {
        (twice - d) / (2 * d)
    };
    let most = i64::MAX as i128 / 4;
    // amounts and multiples are bounded where they are read: the bound here only keeps the sum total
    Money(if rounded > most {
        most
    } else if rounded < -most {
        -most
    } else {
        rounded
    } as i64)
}

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// From hundredths.
    pub const fn cents(cents: i64) -> Self {
        Self(cents)
    }

    /// In hundredths.
    pub const fn to_cents(self) -> i64 {
        self.0
    }

    /// This much an hour, for so many seconds.
    #[must_use]
    pub const fn per_hour_for(self, seconds: i64) -> Self {
        ratio_of(self, seconds as i128, 3600)
    }

    /// That share of it.
    #[must_use]
    pub const fn times(self, share: Share) -> Self {
        ratio_of(self, share.0 as i128, 1_000_000)
    }

    /// Reads an amount with at most two decimals. Its currency is the plan's and stands nowhere in it.
    ///
    /// # Errors
    /// What was read, what was expected.
    pub fn read(text: &str, mark: DecimalMark) -> Result<Self, String> {
        let cents = number(text, mark)? * 100.0;
        if (cents - libm::round(cents)).abs() > 1e-6 * cents.abs().max(1.0) {
            return Err(format!(
                "read \"{text}\": expected an amount with at most two decimals; round it as the invoice will"
            ));
        }
        if cents.abs() > MOST_CENTS {
            return Err(format!(
                "read \"{text}\": expected an amount below a thousand million; check the number"
            ));
        }
        Ok(Self(libm::round(cents) as i64))
    }
}

impl Share {
    /// One.
    pub const ONE: Self = Self(1_000_000);

    /// From millionths.
    pub const fn millionths(millionths: i64) -> Self {
        Self(millionths)
    }

    /// In millionths.
    pub const fn to_millionths(self) -> i64 {
        self.0
    }

    /// What is beyond one: of "1.5 x" the half.
    #[must_use]
    pub const fn beyond_one(self) -> Self {
        Self(self.0 - 1_000_000)
    }

    /// From a plain number of parts of one.
    pub fn of_one(value: f64) -> Option<Self> {
        (value.is_finite() && value.abs() <= MOST_TIMES).then(|| Self(libm::round(value * 1e6) as i64))
    }
}

/// A plain number, with thousands as everywhere in the plan.
pub(super) fn number(text: &str, mark: DecimalMark) -> Result<f64, String> {
    match read::<Ratio>(text, Unit::One, mark) {
        Reading::Is(value) if value.to_of().is_finite() => Ok(value.to_of()),
        Reading::Ask(message) | Reading::Wrong(message) => Err(message),
        Reading::Is(_) | Reading::Blank => Err(format!("read \"{text}\": expected a number")),
    }
}

impl core::ops::Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl core::ops::Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl core::iter::Sum for Money {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, |a, b| a + b)
    }
}

/// "11,958.18", without a currency; below zero with a minus sign.
impl core::fmt::Display for Money {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let cents = self.0.unsigned_abs();
        let units = (cents / 100).to_string();
        let mut grouped = String::with_capacity(units.len() + 8);
        if self.0 < 0 {
            grouped.push('−');
        }
        for (at, digit) in units.chars().enumerate() {
            if at > 0 && (units.len() - at).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        grouped.push_str(&format!(".{:02}", cents % 100));
        f.pad(&grouped)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_read_to_the_cent() {
        let check = |text: &str, cents: i64| {
            assert_eq!(Money::read(text, DecimalMark::Point), Ok(Money::cents(cents)), "{text}")
        };
        check("415", 41_500);
        check("92.10", 9_210);
        check("1,450", 145_000);
        check("0.07", 7);
        check("64,123.37", 6_412_337);
        assert_eq!(Money::read("1.450,25", DecimalMark::Comma), Ok(Money::cents(145_025)));
        assert!(Money::read("4.155", DecimalMark::Point).is_err());
        assert!(Money::read("", DecimalMark::Point).is_err());
        assert!(Money::read("9e30", DecimalMark::Point).is_err());
    }

    #[test]
    fn products_are_rounded_once_halves_away_from_zero() {
        assert_eq!(ratio_of(Money::cents(1), 1, 2), Money::cents(1));
        assert_eq!(ratio_of(Money::cents(-1), 1, 2), Money::cents(-1));
        assert_eq!(ratio_of(Money::cents(1), 49, 100), Money::cents(0));
        // 415.00 for 35 minutes at half: 121.041666…
        assert_eq!(
            Money::cents(41_500)
                .per_hour_for(35 * 60)
                .times(Share::millionths(500_000)),
            Money::cents(12_104)
        );
    }

    /// Ten times ten cents: in binary fractions that is not one.
    #[test]
    fn sums_are_exact() {
        assert_eq!((0..10).map(|_| Money::cents(10)).sum::<Money>(), Money::cents(100));
        assert_eq!(Money::cents(1_195_818).to_string(), "11,958.18");
        assert_eq!(Money::cents(-5).to_string(), "−0.05");
        assert_eq!(Money::cents(12_345_678_901).to_string(), "123,456,789.01");
    }
}
