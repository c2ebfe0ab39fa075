//! What each crane costs: cranes beside each other, a price only for one within its limits.

use super::super::route::Route;
use super::super::show;
use super::super::store::{Action, Dispatch, Shared};
use super::data::{Data, asked, sentences};
use crate::evaluate::{
    ALL, Assessment, OfferResult, Price, break_even, cheapest, offers, quote_against_invoice, quote_lines,
};
use crate::hire::{Line, Money};
use crate::plan::Plan;
use crate::sheet::{MONEY_CAUTION, money_note};
use yew::prelude::*;

/// The plan and what follows from it.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the edits.
    pub dispatch: Dispatch,
}

/// Shows it.
#[component]
pub fn CostView(props: &Props) -> Html {
    let plan = &props.plan;
    let offers = use_memo(plan.clone(), |plan| offers(&plan.0, ALL));
    let questions = questions(&offers);
    html! {
        <article class="estimate">
            <div class="view-head">
                <h2>{ "What each crane costs" }</h2>
                <nav class="ways" aria-label="Near this view">
                    <a href="#/edit/rates">{ "Rates" }</a>
                    <a href={Route::Quick.address()}>{ "Quick size" }</a>
                    <a href={Route::Clock.address()}>{ "Clock" }</a>
                    <a href={Route::Sheets(None).address()}>{ "Sheets" }</a>
                </nav>
                <p class="why">{ MONEY_CAUTION }{ " " }{ money_note(plan) }</p>
            </div>
            { asked("To be answered before there is a price", &questions, "#/edit/rates", "Enter rates") }
            <div class="offers">{ for offers.iter().enumerate().map(|(at, offer)| card(offer, cheapest(&offers) == Some(at), plan, &props.dispatch)) }</div>
            { sentences("Beside each other", &break_even(&offers)) }
            { side_by_side(&offers, &plan.hire.currency) }
            { sentences("Left out: no rate entered", &left_out(&offers)) }
            { against_invoice(plan) }
        </article>
    }
}

fn priced(offer: &OfferResult) -> Option<&Price> {
    offer.price.as_ref()?.as_ref().ok()
}

/// What has to be asked, each once.
fn questions(offers: &[OfferResult]) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for words in offers
        .iter()
        .filter_map(|offer| offer.price.as_ref()?.as_ref().err())
        .flatten()
    {
        if !all.contains(words) {
            all.push(words.clone());
        }
    }
    all
}

fn name(offer: &OfferResult) -> String {
    format!("{}, {}", offer.crane, offer.place)
}

fn card(offer: &OfferResult, cheapest: bool, plan: &Shared<Plan>, dispatch: &Dispatch) -> Html {
    let price = match &offer.price {
        Some(Ok(price)) => {
            let [low, likely, high] = [0, 1, 2].map(|side| price.priced.bills[side].total.to_string());
            html! { <p class="price"><b>{ likely }</b>{ format!(" {}, {low} to {high}", plan.hire.currency) }</p> }
        }
        Some(Err(_)) => html! { <p class="price"><b>{ "No price yet" }</b>{ ": rates or minutes are missing" }</p> },
        None => html! { <p class="price"><b>{ "No price" }</b>{ ": not within its limits" }</p> },
    };
    html! {
        <section class={classes!("offer-card", show::outcome_class(&offer.outcome))}>
            <h3>{ name(offer) }</h3>
            <p>{ &offer.chart }</p>
            <p>{ show::mark(&offer.outcome) }{ " " }{ &offer.deciding }</p>
            { price }
            if cheapest { <p><b>{ "The cheapest of those within their limits" }</b></p> }
            { priced(offer).map(|price| sensitivity(price, plan, dispatch)).unwrap_or_default() }
            { sentences("Would make it fail", &offer.would_fail) }
            { sentences("Beside the crane", &offer.held) }
        </section>
    }
}

fn sensitivity(price: &Price, plan: &Shared<Plan>, dispatch: &Dispatch) -> Html {
    let hours = price.priced.likely().hours;
    let in_hours = |s: i64| format!("{:.2} h", s as f64 / 3600.0);
    let money =
        |amount: Option<Money>| amount.map_or_else(|| "no rate or minutes entered".into(), |amount| amount.to_string());
    let rows = [
        (
            "Port to port, billed",
            format!("{}, {}", in_hours(hours.port_s), in_hours(hours.billed_s)),
        ),
        ("An hour more on site", price.one_hour.to_string()),
        ("A second position", money(price.second_position)),
        ("A weather day", money(price.weather_day)),
    ];
    let keep = {
        let (lines, dispatch) = (quote_lines(price), dispatch.clone());
        move |_| {
            let lines = lines.clone();
            dispatch.dispatch(Action::edit("quote", move |plan| plan.hire.quoted = lines));
        }
    };
    let kept = plan.hire.quoted == quote_lines(price);
    html! {
        <>
            <dl class="rows">{ for rows.into_iter().map(|(label, value)| html! { <div><dt>{ label }</dt><dd>{ value }</dd></div> }) }</dl>
            if kept {
                <p>{ "These lines are kept as the quote" }</p>
            } else {
                <button type="button" class="no-print" onclick={keep}>{ "Keep these lines as the quote" }</button>
            }
        </>
    }
}

/// Cranes in columns, lines in rows.
fn side_by_side(offers: &[OfferResult], currency: &str) -> Html {
    let with_price: Vec<(&OfferResult, &Price)> = offers
        .iter()
        .filter_map(|offer| Some((offer, priced(offer)?)))
        .collect();
    if with_price.is_empty() {
        return Html::default();
    }
    let mut lines: Vec<(crate::plan::RateFor, String)> = Vec::new();
    for (_, price) in &with_price {
        for line in price.priced.likely().lines.iter().chain(&price.priced.only_if) {
            let key = (line.item, line.words.clone());
            if !lines.contains(&key) {
                lines.push(key);
            }
        }
    }
    lines.sort_by_key(|(item, _)| *item);
    let only_if = |key: &(crate::plan::RateFor, String)| {
        with_price
            .iter()
            .any(|(_, price)| price.priced.only_if.iter().any(|line| line.item == key.0))
    };
    let mut head = vec![if currency.is_empty() {
        "Line".to_owned()
    } else {
        format!("Line, {currency}")
    }];
    head.extend(with_price.iter().map(|(offer, _)| name(offer)));
    let amount = |lines: &[Line], key: &(crate::plan::RateFor, String)| {
        lines
            .iter()
            .find(|line| (line.item, &line.words) == (key.0, &key.1))
            .map_or_else(|| "—".into(), |line| line.amount.to_string())
    };
    let mut rows = Vec::new();
    for key in lines.iter().filter(|key| !only_if(key)) {
        let mut row = vec![key.1.clone()];
        row.extend(
            with_price
                .iter()
                .map(|(_, price)| amount(&price.priced.likely().lines, key)),
        );
        rows.push(row);
    }
    let mut strong = Vec::new();
    for (side, words) in [(1, "Total, likely"), (0, "Total, low"), (2, "Total, high")] {
        let mut row = vec![words.to_owned()];
        row.extend(
            with_price
                .iter()
                .map(|(_, price)| price.priced.bills[side].total.to_string()),
        );
        strong.push(rows.len());
        rows.push(row);
    }
    for key in lines.iter().filter(|key| only_if(key)) {
        let mut row = vec![format!("Only if it comes to it: {}", key.1)];
        row.extend(with_price.iter().map(|(_, price)| amount(&price.priced.only_if, key)));
        rows.push(row);
    }
    html! {
        <>
            <h3>{ "Line by line" }</h3>
            <Data caption="Cost line by line" {head} {rows} figures_from={1} {strong} />
            { for with_price.into_iter().map(|(offer, price)| basis(offer, price)) }
        </>
    }
}

/// Each line's basis and who said it.
fn basis(offer: &OfferResult, price: &Price) -> Html {
    let row = |line: &Line| {
        vec![
            line.words.clone(),
            line.basis.clone(),
            line.said.clone(),
            line.amount.to_string(),
        ]
    };
    let bill = price.priced.likely();
    let mut rows: Vec<Vec<String>> = bill.lines.iter().map(row).collect();
    let strong = vec![rows.len()];
    rows.push(vec![
        "Total".into(),
        "sum of the lines above".into(),
        String::new(),
        bill.total.to_string(),
    ]);
    rows.extend(price.priced.only_if.iter().map(row));
    let head = ["Line", "Basis", "Who said the rate", "Amount"]
        .map(str::to_owned)
        .to_vec();
    html! {
        <details class="basis">
            <summary>{ format!("Basis of each line: {}", name(offer)) }</summary>
            <Data caption={format!("Basis of {}", name(offer))} {head} {rows} figures_from={3} {strong} />
        </details>
    }
}

fn left_out(offers: &[OfferResult]) -> Vec<String> {
    let words = |offer: &OfferResult| {
        let price = priced(offer)?;
        (!price.priced.left_out.is_empty()).then(|| format!("{}: {}", name(offer), price.priced.left_out.join(", ")))
    };
    offers.iter().filter_map(words).collect()
}

fn against_invoice(plan: &Plan) -> Html {
    if plan.hire.quoted.is_empty() && plan.hire.invoiced.is_empty() {
        return Html::default();
    }
    let inside = match quote_against_invoice(plan) {
        Err(messages) => asked(
            "The quote and the invoice cannot be compared",
            &messages,
            "#/edit/rates",
            "Mend the lines",
        ),
        Ok(lines) => {
            let shown = |amount: Option<Money>| amount.map_or_else(|| "—".into(), |amount| amount.to_string());
            let mut rows: Vec<Vec<String>> = lines
                .iter()
                .map(|line| {
                    vec![
                        line.words.clone(),
                        shown(line.quoted),
                        shown(line.invoiced),
                        line.more.to_string(),
                    ]
                })
                .collect();
            let sum = |of: fn(&crate::hire::Difference) -> Money| lines.iter().map(of).sum::<Money>().to_string();
            let strong = vec![rows.len()];
            rows.push(vec![
                "Total".into(),
                sum(|l| l.quoted.unwrap_or_default()),
                sum(|l| l.invoiced.unwrap_or_default()),
                sum(|l| l.more),
            ]);
            let head = ["Line", "Quoted", "Invoiced", "More than quoted"]
                .map(str::to_owned)
                .to_vec();
            html! { <Data caption="Quote against invoice" {head} {rows} figures_from={1} {strong} /> }
        }
    };
    html! { <><h3>{ "Quote against invoice" }</h3>{ inside }</> }
}
