//! The bill of one crane for one day: hours as they are billed, then a line for each thing that somebody gave a rate for.

use super::money::{Money, Share, ratio_of};
use super::rate::{Basis, Per, Told, read_rate, wanted};
use crate::plan::{Id, Rate, RateFor};
use crate::quantity::{DecimalMark, Reading, Safe, number};
use std::collections::BTreeSet;

/// A quarter of an hour, s: hirers bill in whole ones (hirers' terms).
const QUARTER_S: i64 = 900;
/// A day of work for a rate per day.
const DAYS: i128 = 1;

/// Time billed: from port to port in quarter hours begun, and never less than the least call-out.
///
/// Source: hirers' terms: port to port, quarter hours, a least call-out by the crane's class.
pub fn billed_s(port_to_port_s: i64, minimum_s: i64) -> i64 {
    let quarters = (port_to_port_s + QUARTER_S - 1).div_euclid(QUARTER_S);
    (quarters * QUARTER_S).max(minimum_s)
}

/// Seconds at overtime and at double time, of hours that are counted without rounding.
pub fn overtime_s(counted_s: i64, after_s: i64, double_after_s: Option<i64>) -> (i64, i64) {
    let past = (counted_s - after_s).max(0);
    let double = double_after_s.map_or(0, |limit_s| (counted_s - limit_s).clamp(0, past));
    (past - double, double)
}

/// Which end of a band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At best.
    Low,
    /// As a rule.
    Likely,
    /// At worst.
    High,
}

impl Side {
    /// The three in order.
    pub const ALL: [Self; 3] = [Self::Low, Self::Likely, Self::High];
}

/// The hours of a bill, s.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Hours {
    /// From the crane's arrival until it leaves.
    pub site_s: i64,
    /// On the road, where travel is charged by the hour.
    pub travel_s: i64,
    /// From leaving the yard until it is back.
    pub port_s: i64,
    /// As billed.
    pub billed_s: i64,
}

/// When overtime begins and what it costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Overtime {
    /// After these hours.
    pub after_s: i64,
    /// Which hours count.
    pub basis: Basis,
    /// Its multiple of the hourly rate.
    pub factor: Share,
}

/// A line of the bill.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What for.
    pub item: RateFor,
    /// In words.
    pub words: String,
    /// How it was reckoned.
    pub basis: String,
    /// Who said the rate.
    pub said: String,
    /// The amount.
    pub amount: Money,
}

/// A bill: its total is the sum of its lines as printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bill {
    /// The hours.
    pub hours: Hours,
    /// The lines.
    pub lines: Vec<Line>,
    /// Their sum.
    pub total: Money,
}

/// Low, likely and high.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Priced {
    /// The bills.
    pub bills: [Bill; 3],
    /// What is paid only if it comes to it, outside the total: weather standby, cancelled late.
    pub only_if: Vec<Line>,
    /// What nobody gave a rate for, in words.
    pub left_out: Vec<&'static str>,
}

impl Priced {
    /// The likely bill.
    pub fn likely(&self) -> &Bill {
        &self.bills[1]
    }
}

/// A row with a rate that adds a line.
#[derive(Clone, Debug)]
struct Row {
    item: RateFor,
    words: String,
    said: String,
    amount: Money,
    per: Per,
    /// How many, in millionths.
    count: Share,
    counted: bool,
}

/// A share with who said it.
type Cited = (Share, String);

/// The rates of one crane, understood.
#[derive(Clone, Debug)]
pub struct Rates {
    hire: (Money, Per, String),
    minimum_s: i64,
    travel: Told,
    travel_said: String,
    overtime: Overtime,
    overtime_said: String,
    double: Option<(i64, Share, String)>,
    fuel: Option<Cited>,
    rows: Vec<Row>,
    contingency: Option<Cited>,
    standby: Option<Cited>,
    cancellation: Option<Cited>,
}

/// Items of which a crane has one: a row for the crane goes before a row for any.
const SINGLE: [RateFor; 11] = [
    RateFor::Hire,
    RateFor::Minimum,
    RateFor::Travel,
    RateFor::OvertimeAfter,
    RateFor::Overtime,
    RateFor::DoubleAfter,
    RateFor::DoubleTime,
    RateFor::Fuel,
    RateFor::Contingency,
    RateFor::Standby,
    RateFor::Cancellation,
];

/// Items that a set day usually has: without a rate they are named as left out.
const USUAL: [RateFor; 14] = [
    RateFor::Fuel,
    RateFor::CounterweightTruck,
    RateFor::Permit,
    RateFor::Escort,
    RateFor::Mats,
    RateFor::RoadClosure,
    RateFor::Flagger,
    RateFor::Rigger,
    RateFor::SignalPerson,
    RateFor::Pad,
    RateFor::Cable,
    RateFor::DoubleTime,
    RateFor::Standby,
    RateFor::Cancellation,
];

/// Reads the rates of a crane and gathers what has to be asked.
struct Reader<'a> {
    rows: &'a [Rate],
    crane: &'a Id,
    side: Side,
    mark: DecimalMark,
    asked: Vec<String>,
}

impl Reader<'_> {
    /// The one row of an item that holds for the crane.
    fn single(&mut self, item: RateFor) -> Option<&Rate> {
        let (words, ..) = wanted(item);
        for name in [self.crane, &Id::default()] {
            let mut rows = self
                .rows
                .iter()
                .filter(|row| row.item == item && row.crane == *name && !row.likely.trim().is_empty());
            let first = rows.next();
            if rows.next().is_some() {
                let whose = if name.is_empty() {
                    "any crane".to_owned()
                } else {
                    name.to_string()
                };
                self.asked.push(format!("{words}: two rates for {whose}; take one out"));
                return None;
            }
            if first.is_some() {
                return first;
            }
        }
        None
    }

    /// What a row says on this side.
    fn told(&mut self, row: &Rate) -> Option<Told> {
        let (words, kind, _) = wanted(row.item);
        let text = match self.side {
            Side::Low if !row.low.trim().is_empty() => &row.low,
            Side::High if !row.high.trim().is_empty() => &row.high,
            _ => &row.likely,
        };
        match read_rate(text, kind, self.mark) {
            Reading::Is(told) => Some(told),
            Reading::Blank => None,
            Reading::Ask(message) | Reading::Wrong(message) => {
                let whose = if row.crane.is_empty() {
                    String::new()
                } else {
                    format!(" of {}", row.crane)
                };
                self.asked.push(format!("{words}{whose}: {message}"));
                None
            }
        }
    }

    fn one(&mut self, item: RateFor) -> Option<(Told, String)> {
        let row = self.single(item)?.clone();
        Some((self.told(&row)?, cited(&row)))
    }

    /// The one rate of an item, asked for where there is none.
    fn needed(&mut self, item: RateFor) -> Option<(Told, String)> {
        let before = self.asked.len();
        let told = self.one(item);
        if told.is_none() && self.asked.len() == before {
            let (words, kind, _) = wanted(item);
            self.asked.push(format!(
                "{words}: no rate entered; write one such as {}",
                kind.example()
            ));
        }
        told
    }

    fn share(&mut self, item: RateFor) -> Option<Cited> {
        match self.one(item) {
            Some((Told::Share(share), said)) => Some((share, said)),
            _ => None,
        }
    }

    /// Every row of the items that may stand more than once.
    fn lines(&mut self) -> Vec<Row> {
        let mut lines = Vec::new();
        for row in self.rows {
            let (words, _, counted) = wanted(row.item);
            let here = row.crane.is_empty() || row.crane == *self.crane;
            if SINGLE.contains(&row.item) || !here || row.likely.trim().is_empty() {
                continue;
            }
            let words = match row.what.trim() {
                "" => words.to_owned(),
                what if row.item == RateFor::Other => what.to_owned(),
                what => format!("{words}: {what}"),
            };
            let count = match row
                .count
                .get_or(|| None)
                .map(|count| count.to_of())
                .and_then(Share::of_one)
            {
                Some(count) if count.to_millionths() >= 0 => count,
                None if row.count.is_blank() && !counted => Share::ONE,
                None if row.count.is_blank() => {
                    self.asked
                        .push(format!("{words}: how many? Write the number beside the rate"));
                    continue;
                }
                _ => {
                    self.asked.push(format!(
                        "{words}: read \"{}\" for how many: expected a number such as 2",
                        row.count.text()
                    ));
                    continue;
                }
            };
            if let Some(Told::Price(amount, per)) = self.told(row) {
                lines.push(Row {
                    item: row.item,
                    words,
                    said: cited(row),
                    amount,
                    per,
                    count,
                    counted,
                });
            }
        }
        lines
    }
}

/// Who said a rate, in words.
fn cited(row: &Rate) -> String {
    let said = &row.said;
    let parts = [&said.who, &said.when, &said.note].map(|part| part.trim());
    let words = parts
        .iter()
        .filter(|part| !part.is_empty())
        .copied()
        .collect::<Vec<_>>()
        .join(", ");
    if words.is_empty() { "nobody named".into() } else { words }
}

impl Rates {
    /// The rates of a crane on one side of the band.
    ///
    /// # Errors
    /// All that has to be asked, together: rates without what they are for, least hours, travel and overtime that are missing, things to be counted
    /// without a number.
    pub fn read(rows: &[Rate], crane: &Id, side: Side, mark: DecimalMark) -> Result<Self, Vec<String>> {
        let mut reader = Reader {
            rows,
            crane,
            side,
            mark,
            asked: Vec::new(),
        };
        let hire = reader.needed(RateFor::Hire);
        let minimum = reader.needed(RateFor::Minimum);
        let travel = reader.needed(RateFor::Travel);
        let after = reader.needed(RateFor::OvertimeAfter);
        let factor = reader.needed(RateFor::Overtime);
        let double_after = reader.one(RateFor::DoubleAfter);
        let double_factor = reader.one(RateFor::DoubleTime);
        let fuel = reader.share(RateFor::Fuel);
        let rows = reader.lines();
        let contingency = reader.share(RateFor::Contingency);
        let standby = reader.share(RateFor::Standby);
        let cancellation = reader.share(RateFor::Cancellation);
        let mut asked = reader.asked;
        let double = match (double_after, double_factor) {
            (None, None) => None,
            (Some((Told::Time(after_s, _), _)), Some((Told::Share(factor), said))) => Some((after_s, factor, said)),
            _ => {
                asked.push("Double time: it needs both the hours after which it is paid and its multiple; write both or neither".into());
                None
            }
        };
        for (words, factor) in [
            ("Overtime", factor.as_ref().map(|(told, _)| *told)),
            (
                "Double time",
                double.as_ref().map(|(_, factor, _)| Told::Share(*factor)),
            ),
        ] {
            if let Some(Told::Share(share)) = factor
                && share < Share::ONE
            {
                asked.push(format!(
                    "{words}: a multiple of the hourly rate below one was read; write one such as 1.5 x"
                ));
            }
        }
        for (words, share) in [("Fuel surcharge", &fuel), ("Contingency", &contingency)] {
            if share.as_ref().is_some_and(|(share, _)| *share >= Share::ONE) {
                asked.push(format!(
                    "{words}: a share to add of 100 % or more was read; write 5 % where 1.05 was meant"
                ));
            }
        }
        match (hire, minimum, travel, after, factor) {
            (
                Some((Told::Price(amount, per), hire_said)),
                Some((Told::Time(minimum_s, _), _)),
                Some((travel, travel_said)),
                Some((Told::Time(after_s, Some(basis)), _)),
                Some((Told::Share(factor), overtime_said)),
            ) if asked.is_empty() => Ok(Self {
                hire: (amount, per, hire_said),
                minimum_s,
                travel,
                travel_said,
                overtime: Overtime { after_s, basis, factor },
                overtime_said,
                double,
                fuel,
                rows,
                contingency,
                standby,
                cancellation,
            }),
            _ => Err(asked),
        }
    }

    /// The bill for so long on site.
    ///
    /// Crane: billed hours at the hourly rate; overtime by hours counted without rounding, at what is beyond the plain rate; fuel as a share of both.
    /// Crew and flaggers by the hours on site, not rounded. Contingency on the sum of the lines above it. Each line is rounded once, to the cent.
    pub fn bill(&self, site_s: i64) -> Bill {
        let hours = self.hours(site_s);
        let (rate, per, said) = &self.hire;
        let mut lines = Vec::new();
        let mut line = |item, words: &str, basis: String, said: &str, amount| {
            lines.push(Line {
                item,
                words: words.to_owned(),
                basis,
                said: said.to_owned(),
                amount,
            });
        };
        let hire = match per {
            Per::Hour => rate.per_hour_for(hours.billed_s),
            Per::Day | Per::Each => *rate,
        };
        line(
            RateFor::Hire,
            wanted(RateFor::Hire).0,
            self.hire_basis(hours),
            said,
            hire,
        );
        if let Told::Price(amount, _) = self.travel {
            line(
                RateFor::Travel,
                wanted(RateFor::Travel).0,
                "once".into(),
                &self.travel_said,
                amount,
            );
        }
        let (over_s, double_s) = self.overtime_s(hours);
        let over = self.beyond(over_s, self.overtime.factor);
        line(
            RateFor::Overtime,
            "Overtime, what is beyond the plain rate",
            self.overtime_basis(over_s, self.overtime.after_s, self.overtime.factor),
            &self.overtime_said,
            over,
        );
        let mut crane = hire + over;
        if let Some((after_s, factor, said)) = &self.double {
            let double = self.beyond(double_s, *factor);
            line(
                RateFor::DoubleTime,
                "Double time, what is beyond the plain rate",
                self.overtime_basis(double_s, *after_s, *factor),
                said,
                double,
            );
            crane = crane + double;
        }
        if let Some((share, said)) = &self.fuel {
            line(
                RateFor::Fuel,
                wanted(RateFor::Fuel).0,
                format!("{} of {crane}", percent(*share)),
                said,
                crane.times(*share),
            );
        }
        for row in &self.rows {
            let (basis, amount) = row.amount(hours.site_s);
            line(row.item, &row.words, basis, &row.said, amount);
        }
        let before: Money = lines.iter().map(|line| line.amount).sum();
        if let Some((share, said)) = &self.contingency {
            lines.push(Line {
                item: RateFor::Contingency,
                words: wanted(RateFor::Contingency).0.into(),
                basis: format!("{} of {before}", percent(*share)),
                said: said.clone(),
                amount: before.times(*share),
            });
        }
        let total = lines.iter().map(|line| line.amount).sum();
        Bill { hours, lines, total }
    }

    /// What is paid only if it comes to it.
    pub fn only_if(&self) -> Vec<Line> {
        let (rate, per, _) = &self.hire;
        let least = match per {
            Per::Hour => rate.per_hour_for(self.minimum_s),
            Per::Day | Per::Each => *rate,
        };
        let line = |item: RateFor, cited: &Option<Cited>| {
            let (share, said) = cited.as_ref()?;
            let basis = format!("{} of the least hire, {least}", percent(*share));
            Some(Line {
                item,
                words: wanted(item).0.into(),
                basis,
                said: said.clone(),
                amount: least.times(*share),
            })
        };
        let lines = [
            (RateFor::Standby, &self.standby),
            (RateFor::Cancellation, &self.cancellation),
        ];
        lines
            .into_iter()
            .filter_map(|(item, cited)| line(item, cited))
            .collect()
    }

    fn hours(&self, site_s: i64) -> Hours {
        let travel_s = match self.travel {
            Told::Time(seconds, _) => seconds,
            Told::Price(..) | Told::Share(_) => 0,
        };
        let port_s = site_s + travel_s;
        Hours {
            site_s,
            travel_s,
            port_s,
            billed_s: billed_s(port_s, self.minimum_s),
        }
    }

    fn overtime_s(&self, hours: Hours) -> (i64, i64) {
        let counted_s = match self.overtime.basis {
            Basis::OnSite => hours.site_s,
            Basis::PortToPort => hours.port_s,
        };
        overtime_s(
            counted_s,
            self.overtime.after_s,
            self.double.as_ref().map(|(after_s, ..)| *after_s),
        )
    }

    /// What overtime adds to the plain rate: `rate · (factor − 1) · time`. Nothing where the crane is hired by the day.
    fn beyond(&self, seconds: i64, factor: Share) -> Money {
        match self.hire {
            (rate, Per::Hour, _) => ratio_of(
                rate,
                i128::from(seconds) * i128::from(factor.beyond_one().to_millionths()),
                3600 * 1_000_000,
            ),
            _ => Money::ZERO,
        }
    }

    fn hire_basis(&self, hours: Hours) -> String {
        let (rate, per, _) = &self.hire;
        match per {
            Per::Hour => {
                let least = if hours.billed_s == self.minimum_s {
                    format!(", the least is {}", in_hours(self.minimum_s))
                } else {
                    String::new()
                };
                format!(
                    "port to port {} of which {} on the road, billed {}{least}, at {rate} per hour",
                    in_hours(hours.port_s),
                    in_hours(hours.travel_s),
                    in_hours(hours.billed_s)
                )
            }
            Per::Day | Per::Each => format!("1 day at {rate}"),
        }
    }

    fn overtime_basis(&self, seconds: i64, after_s: i64, factor: Share) -> String {
        if self.hire.1 != Per::Hour {
            return "hired by the day: none".into();
        }
        let basis = match self.overtime.basis {
            Basis::OnSite => "on site",
            Basis::PortToPort => "port to port",
        };
        format!(
            "{} beyond {} {basis}, {} more than {} per hour",
            in_hours(seconds),
            in_hours(after_s),
            percent(factor.beyond_one()),
            self.hire.0
        )
    }
}

impl Row {
    fn amount(&self, site_s: i64) -> (String, Money) {
        let count = i128::from(self.count.to_millionths());
        let many = if self.counted || self.count != Share::ONE {
            format!("{} × ", plain(self.count))
        } else {
            String::new()
        };
        match self.per {
            Per::Hour => (
                format!("{many}{} on site at {} per hour", in_hours(site_s), self.amount),
                ratio_of(self.amount, count * i128::from(site_s), 3600 * 1_000_000),
            ),
            Per::Day => (
                format!("{many}1 day at {}", self.amount),
                ratio_of(self.amount, count * DAYS, 1_000_000),
            ),
            Per::Each => (
                format!("{many}{}", self.amount),
                ratio_of(self.amount, count, 1_000_000),
            ),
        }
    }
}

/// Prices a crane for its hours on site at best, as a rule and at worst, s.
///
/// # Errors
/// All that has to be asked, each once.
pub fn bill(rows: &[Rate], crane: &Id, site_s: [i64; 3], mark: DecimalMark) -> Result<Priced, Vec<String>> {
    let sides = Side::ALL.map(|side| Rates::read(rows, crane, side, mark));
    let [Ok(low), Ok(likely), Ok(high)] = &sides else {
        let mut seen = BTreeSet::new();
        let all = sides.into_iter().filter_map(Result::err).flatten();
        return Err(all.filter(|message| seen.insert(message.clone())).collect());
    };
    let bills = [low.bill(site_s[0]), likely.bill(site_s[1]), high.bill(site_s[2])];
    if bills[0].total > bills[1].total || bills[1].total > bills[2].total {
        return Err(vec![format!(
            "low, likely and high come to {}, {} and {}: expected in that order; look over the low and high rates and minutes",
            bills[0].total, bills[1].total, bills[2].total
        )]);
    }
    let has = |item: &&RateFor| {
        let here = |row: &&Rate| {
            row.item == **item && (row.crane.is_empty() || row.crane == *crane) && !row.likely.trim().is_empty()
        };
        !rows.iter().any(|row| here(&row))
    };
    Ok(Priced {
        only_if: likely.only_if(),
        left_out: USUAL.iter().filter(has).map(|item| wanted(*item).0).collect(),
        bills,
    })
}

/// "11.25 h", to the hundredth.
fn in_hours(seconds: i64) -> String {
    format!("{} h", number(seconds as f64 / 3600.0, 2, Safe::Nearest))
}

fn percent(share: Share) -> String {
    format!("{} %", trimmed(share.to_millionths() as f64 / 1e4))
}

fn plain(share: Share) -> String {
    trimmed(share.to_millionths() as f64 / 1e6)
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
