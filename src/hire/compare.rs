//! Two prices beside each other: where they cross, and how a quote differs from the invoice.

use super::bill::Rates;
use super::money::Money;
use crate::plan::RateFor;

/// How far a crossing is looked for, s: a day and a half more.
const LOOKED_FOR_S: i64 = 36 * 3600;
/// In steps of a quarter of an hour.
const STEP_S: i64 = 900;

/// How much longer the cheaper crane's day would have to be for it to cost as much as the dearer one as planned, s; `None` where a day and a half more
/// does not bring it there. Each is its rates with its hours on site, s.
pub fn break_even_s(cheaper: (&Rates, i64), dearer: (&Rates, i64)) -> Option<i64> {
    let aim = dearer.0.bill(dearer.1).total;
    let longer = (0..=LOOKED_FOR_S / STEP_S).map(|step| step * STEP_S);
    longer
        .into_iter()
        .find(|more_s| cheaper.0.bill(cheaper.1 + more_s).total >= aim)
}

/// One line of a quote beside the invoice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// What for.
    pub item: RateFor,
    /// In words.
    pub words: String,
    /// Quoted; `None` where only the invoice has it.
    pub quoted: Option<Money>,
    /// Invoiced; `None` where only the quote has it.
    pub invoiced: Option<Money>,
    /// Invoiced less quoted.
    pub more: Money,
}

/// An amount with what it is for.
pub type Amount = (RateFor, String, Money);

/// The quote and the invoice line by line. Lines for the same thing stand beside each other in their order; where the invoice has more of them than the
/// quote, or fewer, the rest stand alone.
pub fn differences(quoted: &[Amount], invoiced: &[Amount]) -> Vec<Difference> {
    let mut rest: Vec<Option<&Amount>> = invoiced.iter().map(Some).collect();
    let mut lines: Vec<Difference> = Vec::new();
    for (item, words, amount) in quoted {
        let same_words = |(other, text, _): &Amount| other == item && text == words;
        let same_item = |(other, ..): &Amount| other == item && *item != RateFor::Other;
        let at = rest.iter().position(|line| line.is_some_and(same_words)).or_else(|| {
            let named_otherwise = |line: &Option<&Amount>| {
                line.is_some_and(|line| same_item(line) && !quoted.iter().any(|q| q.0 == line.0 && q.1 == line.1))
            };
            rest.iter().position(named_otherwise)
        });
        let other = at.and_then(|at| rest[at].take()).map(|(.., amount)| *amount);
        lines.push(Difference {
            item: *item,
            words: words.clone(),
            quoted: Some(*amount),
            invoiced: other,
            more: other.unwrap_or_default() - *amount,
        });
    }
    lines.extend(rest.into_iter().flatten().map(|(item, words, amount)| Difference {
        item: *item,
        words: words.clone(),
        quoted: None,
        invoiced: Some(*amount),
        more: *amount,
    }));
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_for_the_same_thing_stand_beside_each_other_and_the_differences_add_up() {
        let line = |item, words: &str, cents| (item, words.to_owned(), Money::cents(cents));
        let quoted = [
            line(RateFor::Hire, "crane", 466_875),
            line(RateFor::Mats, "mats", 36_000),
            line(RateFor::Other, "broom", 5_000),
        ];
        let invoiced = [
            line(RateFor::Mats, "mats 8 x 50", 40_000),
            line(RateFor::Other, "waiting", 12_550),
            line(RateFor::Hire, "crane", 487_625),
        ];
        let found = differences(&quoted, &invoiced);
        let short: Vec<(Option<i64>, Option<i64>, i64)> = found
            .iter()
            .map(|d| {
                (
                    d.quoted.map(Money::to_cents),
                    d.invoiced.map(Money::to_cents),
                    d.more.to_cents(),
                )
            })
            .collect();
        assert_eq!(
            short,
            [
                (Some(466_875), Some(487_625), 20_750),
                (Some(36_000), Some(40_000), 4_000),
                (Some(5_000), None, -5_000),
                (None, Some(12_550), 12_550)
            ]
        );
        let sum = |lines: &[Amount]| lines.iter().map(|line| line.2).sum::<Money>();
        assert_eq!(
            found.iter().map(|d| d.more).sum::<Money>(),
            sum(&invoiced) - sum(&quoted)
        );
    }
}
