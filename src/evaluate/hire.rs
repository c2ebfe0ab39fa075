//! What each crane costs: only one whose lifts are all within the crane's limits shows a price.

use super::day::hours_on_site;
use super::{Assessment, Further, Hangs, LiftResult};
use crate::check::{Amount, Check, Finding, Outcome};
use crate::crane::RatingChart;
use crate::hire::{
    Difference, Money, Priced, QuickAnswer, QuickInput, Rates, Side, bill, break_even_s, differences, quick_size,
};
use crate::plan::{Crane, Id, Load, Offer, Plan, Quoted, RateFor, Step};
use crate::quantity::{AreaDensity, DecimalMark, Length, Mass, Safe, Unit, UnitSystem, number, show};
use std::rc::Rc;

/// A crane in a configuration at a place, with its price where it has one.
#[derive(Clone, Debug)]
pub struct OfferResult {
    /// Which crane.
    pub crane: Id,
    /// Which of its charts, in words.
    pub chart: String,
    /// Where it stands, in words.
    pub place: String,
    /// How the crane's side came out over all lifts.
    pub outcome: Outcome,
    /// The lift that decides, in a sentence.
    pub deciding: String,
    /// What other findings hold: gear, lines, ground.
    pub held: Vec<String>,
    /// What would make it fail, the nearest first.
    pub would_fail: Vec<String>,
    /// The price; what has to be asked instead; `None` where the crane is not within its limits.
    pub price: Option<Result<Price, Vec<String>>>,
}

/// The price of a crane's day.
#[derive(Clone, Debug)]
pub struct Price {
    /// The bills.
    pub priced: Priced,
    /// What an hour more on site adds.
    pub one_hour: Money,
    /// What a second position adds: strip-down and set-up once more; `None` where their minutes are not known.
    pub second_position: Option<Money>,
    /// What a weather day costs; `None` where no rate for it was entered.
    pub weather_day: Option<Money>,
    rates: Rates,
    site_s: i64,
}

/// The crane as set up and every offer of the plan, in that order.
pub fn offers(plan: &Rc<Plan>, checks: Further) -> Vec<OfferResult> {
    let hangs = Hangs::of(plan, checks);
    let first = core::iter::once(as_set_up(plan, &hangs.assessment()));
    let others = plan.hire.offers.iter().map(|wanted| match moved(plan, wanted) {
        Ok(other) => {
            let other = Rc::new(other);
            let assessment = hangs.next(&other).assessment();
            offer(&other, &assessment, format!("pad {}", wanted.pad))
        }
        Err(missing) => OfferResult {
            crane: wanted.crane.clone(),
            chart: wanted.chart.to_string(),
            place: wanted.pad.to_string(),
            deciding: missing.clone(),
            outcome: Outcome::NotChecked { missing },
            held: Vec::new(),
            would_fail: Vec::new(),
            price: None,
        },
    });
    let same = |a: &OfferResult, b: &OfferResult| (&a.crane, &a.chart, &a.place) == (&b.crane, &b.chart, &b.place);
    let mut all: Vec<OfferResult> = Vec::new();
    for result in first.chain(others) {
        if !all.iter().any(|other| same(other, &result)) {
            all.push(result);
        }
    }
    all
}

/// The crane as it is set up.
pub fn as_set_up(plan: &Plan, assessment: &Assessment) -> OfferResult {
    offer(plan, assessment, pad_words(plan))
}

/// The plan with another crane, chart and place.
fn moved(plan: &Plan, wanted: &Offer) -> Result<Plan, String> {
    let crane = plan
        .crane(&wanted.crane)
        .ok_or_else(|| format!("crane \"{}\" is not in the plan", wanted.crane))?;
    let chart = crane.charts.iter().find(|chart| chart.id == wanted.chart.as_str());
    chart.ok_or_else(|| format!("crane {} has no chart \"{}\"", crane.id, wanted.chart))?;
    let pad = plan
        .pad(&wanted.pad)
        .ok_or_else(|| format!("pad \"{}\" is not in the plan", wanted.pad))?;
    let mut other = plan.clone();
    other.set_up.crane = crane.id.clone();
    other.set_up.chart = wanted.chart.clone();
    other.set_up.at = pad.at.clone();
    Ok(other)
}

/// Where the crane stands: a pad's name if it stands on one.
fn pad_words(plan: &Plan) -> String {
    let at = plan.set_up.at.metres();
    let pad = plan.site.pads.iter().find(|pad| at.is_some() && pad.at.metres() == at);
    pad.map_or_else(|| "as set up".into(), |pad| format!("pad {}", pad.id))
}

fn offer(plan: &Plan, assessment: &Assessment, place: String) -> OfferResult {
    let outcome = crane_side(assessment);
    let price = (outcome == Outcome::Within).then(|| price(plan, assessment));
    OfferResult {
        crane: plan.set_up.crane.clone(),
        chart: chart_words(plan),
        place,
        deciding: deciding(assessment, &outcome),
        held: held(assessment),
        would_fail: if outcome == Outcome::Within {
            would_fail(plan, assessment)
        } else {
            Vec::new()
        },
        outcome,
        price,
    }
}

fn chart_words(plan: &Plan) -> String {
    let chart = plan
        .crane(&plan.set_up.crane)
        .and_then(|crane| crane.charts.iter().find(|chart| chart.id == plan.set_up.chart.as_str()));
    chart.map_or_else(
        || plan.set_up.chart.to_string(),
        |chart| {
            if chart.name.is_empty() {
                chart.id.clone()
            } else {
                chart.name.clone()
            }
        },
    )
}

/// The gravest outcome of the crane's own checks over all lifts; a plan without lifts cannot be checked.
fn crane_side(assessment: &Assessment) -> Outcome {
    let gravest = assessment
        .lifts
        .iter()
        .map(LiftResult::crane_side)
        .max_by_key(Outcome::gravity);
    gravest.unwrap_or(Outcome::NotChecked {
        missing: "no lift in the plan".into(),
    })
}

fn deciding(assessment: &Assessment, outcome: &Outcome) -> String {
    let used = |lift: &&LiftResult| lift.use_of_chart.map_or(f64::INFINITY, |used| used.to_of());
    let alike = assessment
        .lifts
        .iter()
        .filter(|lift| lift.crane_side().gravity() == outcome.gravity());
    let Some(lift) = alike.max_by(|a, b| used(a).total_cmp(&used(b))) else {
        return outcome.words();
    };
    let failed = assessment
        .lifts
        .iter()
        .filter(|lift| lift.crane_side() == Outcome::Outside)
        .count();
    let count = if failed > 0 {
        format!("{failed} of {} lifts outside; ", assessment.lifts.len())
    } else {
        String::new()
    };
    let grave = lift
        .findings
        .iter()
        .filter(|f| f.check.is_crane_side() && f.outcome.gravity() == outcome.gravity());
    let words = match outcome {
        Outcome::Within => lift.use_of_chart.map_or_else(
            || outcome.words(),
            |used| format!("{} of the chart", show(used, Unit::Percent, 1, Safe::Up)),
        ),
        _ => grave.map(Finding::sentence).next().unwrap_or_else(|| outcome.words()),
    };
    format!("{count}lift {}, {}: {words}", lift.number, lift.title)
}

/// Findings beside the crane's that are not within, each once.
fn held(assessment: &Assessment) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for finding in assessment.lifts.iter().flat_map(|lift| &lift.findings) {
        let text = match &finding.outcome {
            Outcome::Within => continue,
            Outcome::Held { until } => until
                .split_once(" (")
                .map_or(until.as_str(), |(before, _)| before)
                .to_owned(),
            Outcome::NotChecked { missing } => format!("cannot be checked: {missing}"),
            Outcome::Outside => format!("outside: {}", finding.check.title()),
        };
        if !finding.check.is_crane_side() && !words.contains(&text) {
            words.push(text);
        }
    }
    words
}

/// How little would make a crane fail: a heavier load, a crane set farther back, the next row, less head.
fn would_fail(plan: &Plan, assessment: &Assessment) -> Vec<String> {
    let units = assessment.units;
    let limit = plan.limits.chart_use.get().map(|limit| limit.to_of());
    let lift_words = |lift: &LiftResult| format!("lift {}, {}", lift.number, lift.title);
    let mut words = Vec::new();
    let by_use = assessment
        .lifts
        .iter()
        .filter_map(|lift| Some((lift.use_of_chart?.to_of(), lift)));
    if let (Some((used, lift)), Some(limit)) = (by_use.max_by(|a, b| a.0.total_cmp(&b.0)), limit)
        && used > 0.0
    {
        let more = number(100.0 * (limit / used - 1.0), 1, Safe::Down);
        words.push(format!("{}: its gross load {more} % heavier", lift_words(lift)));
    }
    let by_move = assessment.lifts.iter().filter_map(|lift| Some((lift.may_move?, lift)));
    if let Some((away, lift)) = by_move.min_by(|a, b| a.0.to_m().total_cmp(&b.0.to_m())) {
        words.push(format!(
            "{}: the crane more than {} farther from it",
            lift_words(lift),
            Amount::Length(away).show(units, Safe::Down)
        ));
    }
    let next = assessment.lifts.iter().filter(|lift| {
        lift.next_row_not_allowed
            || lift
                .next_row_use
                .zip(limit)
                .is_some_and(|(used, limit)| used.to_of() > limit)
    });
    let next: Vec<String> = next.map(|lift| lift.number.to_string()).collect();
    if !next.is_empty() {
        words.push(format!(
            "the next radius row of the chart: lift{} {}",
            if next.len() > 1 { "s" } else { "" },
            next.join(", ")
        ));
    }
    for check in [Check::Headroom, Check::BoomGap, Check::Footprint] {
        let all = assessment
            .lifts
            .iter()
            .flat_map(|lift| lift.findings.iter().map(move |finding| (lift, finding)));
        let tight = all
            .filter(|(_, f)| f.check == check)
            .filter_map(|(lift, f)| Some((f.ratio?, lift, f)));
        if let Some((ratio, lift, finding)) = tight.max_by(|a, b| a.0.total_cmp(&b.0)) {
            words.push(format!(
                "{}: {} at {} % of its limit",
                lift_words(lift),
                finding.check.title(),
                number(100.0 * ratio, 1, Safe::Up)
            ));
        }
    }
    words
}

fn price(plan: &Plan, assessment: &Assessment) -> Result<Price, Vec<String>> {
    let crane = &plan.set_up.crane;
    let mark = plan.project.decimal;
    let rows = &plan.hire.rates;
    let hours = hours_on_site(plan, assessment, crane);
    let rates = Rates::read(rows, crane, Side::Likely, mark);
    let (site_s, rates) = match (hours, rates) {
        (Ok(site_s), Ok(rates)) => (site_s, rates),
        (hours, rates) => {
            // the questions of rates and of minutes together
            let mut asked = rates.err().unwrap_or_default();
            asked.extend(hours.err().unwrap_or_default());
            return Err(asked);
        }
    };
    let priced = bill(rows, crane, site_s, mark)?;
    let likely = priced.likely().total;
    let more = |more_s: i64| rates.bill(site_s[1] + more_s).total - likely;
    let twice = [Step::SetUp, Step::StripDown].map(|step| likely_s(plan, crane, step));
    let second_position = match twice {
        [Some(up), Some(down)] => Some(more(up + down)),
        _ => None,
    };
    let weather_day = priced
        .only_if
        .iter()
        .find(|line| line.item == RateFor::Standby)
        .map(|line| line.amount);
    Ok(Price {
        one_hour: more(3600),
        second_position,
        weather_day,
        rates,
        site_s: site_s[1],
        priced,
    })
}

fn likely_s(plan: &Plan, crane: &Id, step: Step) -> Option<i64> {
    let rows = || plan.day.minutes.iter().filter(move |row| row.step == step);
    let row = rows()
        .find(|row| row.crane == *crane)
        .or_else(|| rows().find(|row| row.crane.is_empty()))?;
    Some(libm::round(row.likely.not_negative()?.to_s()) as i64)
}

/// The cheapest of the priced offers, as an index.
pub fn cheapest(offers: &[OfferResult]) -> Option<usize> {
    let priced = offers
        .iter()
        .enumerate()
        .filter_map(|(at, offer)| Some((at, offer.price.as_ref()?.as_ref().ok()?.priced.likely().total)));
    priced.min_by_key(|(_, total)| *total).map(|(at, _)| at)
}

/// How the cheapest compares with each dearer one, in sentences.
pub fn break_even(offers: &[OfferResult]) -> Vec<String> {
    let of = |offer: &OfferResult| offer.price.as_ref().and_then(|price| price.as_ref().ok()).cloned();
    let Some((at, cheap)) = cheapest(offers).and_then(|at| Some((at, of(&offers[at])?))) else {
        return Vec::new();
    };
    let name = |offer: &OfferResult| format!("{} {}, {}", offer.crane, offer.chart, offer.place);
    let others = offers.iter().enumerate().filter(|(other, _)| *other != at);
    others
        .filter_map(|(_, offer)| {
            let dear = of(offer)?;
            let more = dear.priced.likely().total - cheap.priced.likely().total;
            let even = match break_even_s((&cheap.rates, cheap.site_s), (&dear.rates, dear.site_s)) {
                Some(0) => "they cost the same".into(),
                Some(longer_s) => format!(
                    "the two cost the same once the day of {} is {} h longer",
                    offers[at].crane,
                    number(longer_s as f64 / 3600.0, 2, Safe::Nearest)
                ),
                None => format!("a day and a half more on {} does not bring it there", offers[at].crane),
            };
            Some(format!(
                "{} costs {more} more than {}; {even}",
                name(offer),
                name(&offers[at])
            ))
        })
        .collect()
}

/// Lines of the likely bill, as they are kept when a quote goes out.
pub fn quote_lines(price: &Price) -> Vec<Quoted> {
    let line = |line: &crate::hire::Line| Quoted {
        item: line.item,
        what: line.words.clone(),
        amount: line.amount.to_string(),
    };
    price.priced.likely().lines.iter().map(line).collect()
}

/// The quote and the invoice, line by line.
///
/// # Errors
/// Amounts that cannot be read.
pub fn quote_against_invoice(plan: &Plan) -> Result<Vec<Difference>, Vec<String>> {
    let mut asked = Vec::new();
    let mut read = |rows: &[Quoted], of: &str, mark: DecimalMark| {
        let mut lines = Vec::new();
        for (at, row) in (1..).zip(rows) {
            match Money::read(&row.amount, mark) {
                Ok(amount) => lines.push((row.item, row.what.trim().to_owned(), amount)),
                Err(_) if row.amount.trim().is_empty() => asked.push(format!("{of}, line {at}: no amount entered")),
                Err(message) => asked.push(format!("{of}, line {at}: {message}")),
            }
        }
        lines
    };
    // the quote was written by the program, with a point
    let quoted = read(&plan.hire.quoted, "quote", DecimalMark::Point);
    let invoiced = read(&plan.hire.invoiced, "invoice", plan.project.decimal);
    if asked.is_empty() {
        Ok(differences(&quoted, &invoiced))
    } else {
        Err(asked)
    }
}

/// A quick size with the plan's own cranes.
#[derive(Clone, Debug)]
pub struct QuickResult {
    /// What follows from the five numbers.
    pub size: QuickAnswer,
    /// Which of the plan's charts say that much there: crane, chart, the rating at the row that is read, its price where rates and minutes are entered.
    pub cranes: Vec<QuickCrane>,
    /// In a sentence.
    pub words: String,
}

/// A crane that would do.
#[derive(Clone, Debug)]
pub struct QuickCrane {
    /// Which.
    pub crane: Id,
    /// Its chart.
    pub chart: String,
    /// The best rating at the radius.
    pub rating: Mass,
    /// Low, likely and high, or what has to be asked.
    pub price: Result<[Money; 3], Vec<String>>,
}

/// What on a site would change a quick size.
pub const SITE_FACTS: [&str; 9] = [
    "where the crane can stand: a strip without load, septic, slope or trees push it back",
    "whether carriers reach the near lane: a wire or a cable across the road moves the pick",
    "upper boxes: head height may rule before capacity does",
    "power lines near the reach of boom and load",
    "what the ground bears under a mat, backfill, walls",
    "the heaviest box: tile, stone, a hinged roof, the wet end",
    "a second position of the crane",
    "road closure, permits, escorts, curfew",
    "weather days",
];

/// Works it out from what is entered in the plan.
///
/// # Errors
/// Which of the numbers are missing.
pub fn quick(plan: &Plan) -> Result<QuickResult, Vec<String>> {
    let quick = &plan.hire.quick;
    let mut missing = Vec::new();
    let mut need = |there: bool, words: &str| {
        if !there {
            missing.push(words.to_owned());
        }
    };
    need(quick.boxes > 0, "how many boxes");
    need(
        quick.floor.get().is_some_and(|x| x.to_m2() > 0.0),
        "floor area of all boxes",
    );
    need(
        quick.per_area.get().is_some_and(|x| x.to_kg_per_m2() > 0.0),
        "weight per floor area",
    );
    need(
        quick.along.get().is_some_and(|x| x.to_m() > 0.0),
        "foundation along the road",
    );
    need(
        quick.deep.get().is_some_and(|x| x.to_m() > 0.0),
        "foundation away from the road",
    );
    need(
        quick.to_road.not_negative().is_some(),
        "from the foundation to the road",
    );
    let limit = plan.limits.chart_use.get().map(|x| x.to_of()).filter(|x| *x > 0.0);
    need(limit.is_some(), "largest share of the chart, under limits");
    let (Some(floor), Some(per_area), Some(along), Some(deep), Some(to_road), Some(limit), true) = (
        quick.floor.get(),
        quick.per_area.get(),
        quick.along.get(),
        quick.deep.get(),
        quick.to_road.get(),
        limit,
        missing.is_empty(),
    ) else {
        return Err(missing);
    };
    let input = QuickInput {
        boxes: quick.boxes,
        floor,
        per_area,
        along,
        deep,
        to_road,
    };
    let size = quick_size(&input, limit).ok_or_else(|| vec!["numbers of a size that a house has".to_owned()])?;
    let allowance = plan.limits.radius_allowance.not_negative().unwrap_or(Length::ZERO);
    let mut cranes: Vec<QuickCrane> = plan
        .cranes
        .iter()
        .flat_map(|crane| charts_that_do(plan, crane, &size, size.radius + allowance))
        .collect();
    cranes.sort_by(|a, b| a.rating.to_kg().total_cmp(&b.rating.to_kg()));
    let units = plan.project.units;
    let mass = |mass: Mass| Amount::Mass(mass).show(units, Safe::Up);
    let words = format!(
        "needs a chart that says {} at {}",
        mass(size.needed),
        Amount::Length(size.radius).show(units, Safe::Up)
    );
    Ok(QuickResult { size, cranes, words })
}

/// Charts of a crane that say as much as is needed at the radius, at whatever boom.
fn charts_that_do(plan: &Plan, crane: &Crane, size: &QuickAnswer, radius: Length) -> Vec<QuickCrane> {
    let rating = |chart: &RatingChart| {
        let table = chart.table().0?;
        let ratings = table.booms().filter_map(|boom| table.rating(radius, boom).capacity());
        ratings.max_by(|a, b| a.to_kg().total_cmp(&b.to_kg()))
    };
    let enough = crane
        .charts
        .iter()
        .filter_map(|chart| Some((chart, rating(chart)?)))
        .filter(|(_, rating)| *rating >= size.needed);
    enough
        .map(|(chart, rating)| QuickCrane {
            crane: crane.id.clone(),
            chart: if chart.name.is_empty() {
                chart.id.clone()
            } else {
                chart.name.clone()
            },
            rating,
            price: quick_price(plan, &crane.id),
        })
        .collect()
}

/// A price band for so many boxes, by the plan's minutes and rates.
fn quick_price(plan: &Plan, crane: &Id) -> Result<[Money; 3], Vec<String>> {
    let mut asked = Vec::new();
    let mut site_s = [0_i64; 3];
    for (step, count) in [
        (Step::SetUp, 1),
        (Step::Box, i64::from(plan.hire.quick.boxes)),
        (Step::FirstBox, 1),
        (Step::StripDown, 1),
    ] {
        match super::day::step_times(plan, crane, step) {
            Ok(times) => (0..3).for_each(|side| site_s[side] += count * times[side]),
            Err(messages) => asked.extend(messages),
        }
    }
    match bill(&plan.hire.rates, crane, site_s, plan.project.decimal) {
        Ok(priced) if asked.is_empty() => Ok(priced.bills.map(|bill| bill.total)),
        Ok(_) => Err(asked),
        Err(mut messages) => {
            messages.extend(asked);
            Err(messages)
        }
    }
}

/// What the day taught: minutes and weights for the next job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learned {
    /// Steps with how long they took: fewest, middle, most minutes, and of how many lifts.
    pub minutes: Vec<(Step, [u32; 3], usize)>,
    /// What the load indicator read beside what was planned, in sentences.
    pub readings: Vec<String>,
    /// Weight per floor area of the boxes that were read, what hangs with them on the hook taken off.
    pub per_area: Option<AreaDensity>,
}

/// From the record of the lifts: minutes by kind of lift, readings against the gross load.
pub fn learned(plan: &Plan, assessment: &Assessment) -> Learned {
    let mut learned = Learned::default();
    for step in [Step::Box, Step::RoofRaise, Step::Bundle] {
        let took = plan.day.lifted.iter().filter(|row| {
            plan.lift(&row.lift)
                .is_some_and(|lift| super::day::step_of(&lift.load) == step)
        });
        let mut minutes: Vec<u32> = took
            .filter_map(|row| row.took.not_negative())
            .map(|t| libm::round(t.to_minute().min(1440.0)) as u32)
            .collect();
        minutes.sort_unstable();
        if let (Some(low), Some(high)) = (minutes.first(), minutes.last()) {
            learned
                .minutes
                .push((step, [*low, minutes[minutes.len() / 2], *high], minutes.len()));
        }
    }
    let (mut kg, mut m2) = (0.0, 0.0);
    for row in &plan.day.lifted {
        let lift = plan
            .lifts
            .iter()
            .position(|lift| lift.id == row.lift)
            .and_then(|at| assessment.lifts.get(at));
        let Some(lift) = lift else { continue };
        let units: UnitSystem = assessment.units;
        if let (Some(read), Some(gross)) = (
            row.reading.not_negative(),
            lift.governing().or(lift.ends.first()).and_then(|end| end.gross),
        ) {
            if let (Some(planned_kg), Some(area_m2)) = (lift.load.planned_kg, floor_m2(plan, &row.lift)) {
                (kg, m2) = (kg + read.to_kg() - (gross.to_kg() - planned_kg), m2 + area_m2);
            }
            let off = 100.0 * (read.to_kg() / gross.to_kg() - 1.0);
            learned.readings.push(format!(
                "lift {}, {}: read {}, planned gross load {}, {} % {}",
                lift.number,
                lift.title,
                Amount::Mass(read).show(units, Safe::Nearest),
                Amount::Mass(gross).show(units, Safe::Up),
                number(off.abs(), 1, Safe::Nearest),
                if off < 0.0 { "lighter" } else { "heavier" }
            ));
        }
    }
    learned.per_area = (m2 > 0.0 && kg > 0.0).then(|| AreaDensity::kg_per_m2(kg / m2));
    learned
}

/// Floor area of the box that a lift's row lifts.
fn floor_m2(plan: &Plan, lift: &Id) -> Option<f64> {
    let Load::Box { id } = &plan.lift(lift)?.load else {
        return None;
    };
    let house = plan.house_box(id)?;
    Some(house.length.not_negative()?.to_m() * house.width.not_negative()?.to_m())
}
