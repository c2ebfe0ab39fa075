//! The hire page: what the crane's day costs line by line, who said each rate, what is left out.

use super::page::{self, Flexible, Format};
use super::{Section, Sheet, blank};
use crate::evaluate::{Assessment, OfferResult, Price, as_set_up};
use crate::hire::Line;
use crate::plan::Plan;

/// On the page and wherever a price is shown.
pub const MONEY_CAUTION: &str =
    "Rates are entered by the user; not a quotation of a hirer. A crane that is outside its limits shows no price.";

/// What is left out whatever the rates are.
const NEVER_IN: [&str; 3] = [
    "Left out in any case: waiting for others, a second position, a weather day, damage, and work that is not named above.",
    "Hours are the plan's: the bill follows the hours on the signed ticket.",
    "Planning aid: no offer and no acceptance of one.",
];

/// The currency and the note on taxes; what nobody said is told.
pub fn money_note(plan: &Plan) -> String {
    let currency = match plan.hire.currency.trim() {
        "" => "No currency entered.".to_owned(),
        currency => format!("All amounts in {currency}."),
    };
    match plan.hire.tax.trim() {
        "" => format!("{currency} Nothing entered about taxes."),
        tax => format!("{currency} Taxes: {tax}."),
    }
}

/// The page for the crane as it is set up. Empty where no rate is entered. A crane that is not within its limits has a page without a price.
pub fn hire_sheet(plan: &Plan, assessment: &Assessment, format: Format) -> Vec<Sheet> {
    if plan.hire.rates.is_empty() {
        return Vec::new();
    }
    let offer = as_set_up(plan, assessment);
    let blank = blank(
        plan,
        assessment,
        "Hire of the crane".into(),
        ("hire page", (1, 1)),
        true,
    );
    let [wide_mm, high_mm] = format.inside_mm();
    let room_mm = high_mm - page::frame_mm(&blank, format);
    let mut sections = vec![Section::lines("", [MONEY_CAUTION.to_owned(), money_note(plan)]).large()];
    match &offer.price {
        Some(Ok(price)) => sections.extend(priced(&offer, price)),
        Some(Err(asked)) => sections.push(Section::lines("No price yet: to be answered first", asked.clone())),
        None => sections.push(Section::lines(
            "No price: the crane is not within its limits",
            [offer.deciding.clone()],
        )),
    }
    let (_, off) = page::fit(&mut sections, room_mm, wide_mm, &Flexible::OfTheirOwn, 0.0);
    page::leaves(blank, sections, off, room_mm, wide_mm)
}

fn priced(offer: &OfferResult, price: &Price) -> Vec<Section> {
    let bill = price.priced.likely();
    let row = |line: &Line| {
        vec![
            line.words.clone(),
            line.basis.clone(),
            line.said.clone(),
            line.amount.to_string(),
        ]
    };
    let mut rows: Vec<Vec<String>> = bill.lines.iter().map(row).collect();
    rows.push(vec![
        "TOTAL".into(),
        "sum of the lines above".into(),
        String::new(),
        bill.total.to_string(),
    ]);
    let head = [
        ("Line", 0.22),
        ("Basis", 0.45),
        ("Who said the rate", 0.19),
        ("Amount", 0.14),
    ];
    let [low, likely, high] = [0, 1, 2].map(|side| price.priced.bills[side].total.to_string());
    let band = format!("Low {low}, likely {likely}, high {high}: minutes and rates at best, as a rule, at worst.");
    let mut sections = vec![Section::lines("", [band]).large(), Section::table("", &head, rows)];
    if !price.priced.only_if.is_empty() {
        sections.push(Section::table(
            "Only if it comes to it, not in the total",
            &head,
            price.priced.only_if.iter().map(row).collect(),
        ));
    }
    let mut left_out: Vec<String> = Vec::new();
    if !price.priced.left_out.is_empty() {
        left_out.push(format!(
            "No rate entered, so left out: {}.",
            price.priced.left_out.join(", ")
        ));
    }
    left_out.extend(NEVER_IN.map(str::to_owned));
    sections.push(Section::lines("Left out", left_out));
    let more = [
        ("An hour more on site".to_owned(), price.one_hour.to_string()),
        (
            "A second position".to_owned(),
            price
                .second_position
                .map_or_else(|| "minutes not entered".into(), |m| m.to_string()),
        ),
        (
            "A weather day".to_owned(),
            price
                .weather_day
                .map_or_else(|| "no rate entered".into(), |m| m.to_string()),
        ),
    ];
    sections.push(Section::rows("What more would cost", more.to_vec()));
    if !offer.would_fail.is_empty() {
        sections.push(Section::lines(
            "What would make this crane fail, and the price with it",
            offer.would_fail.clone(),
        ));
    }
    sections
}
