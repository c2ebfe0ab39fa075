//! What the day costs: rates as they were told, the cranes that are compared, the quote that went out and the invoice that came back.

use super::Id;
use crate::json::{fields, names};
use crate::quantity::{Area, AreaDensity, Entry, Length, Ratio, Said};

/// Everything about money. No rate is invented: what nobody entered is not priced, and is listed as left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hire {
    /// The currency of all amounts: "USD". Blank: not said, amounts stand without one.
    pub currency: String,
    /// What is said about taxes: "sales tax not included".
    pub tax: String,
    /// The rates.
    pub rates: Vec<Rate>,
    /// The cranes, configurations and places that are compared.
    pub offers: Vec<Offer>,
    /// Five numbers for a first size.
    pub quick: Quick,
    /// The lines of the quote, as they were when it went out.
    pub quoted: Vec<Quoted>,
    /// The lines of the invoice.
    pub invoiced: Vec<Quoted>,
}

/// One rate, as it was told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rate {
    /// What it is for.
    pub item: RateFor,
    /// The crane it holds for; unnamed: any.
    pub crane: Id,
    /// More words for its line.
    pub what: String,
    /// How many: mats, flaggers, trucks. Blank: not known for things that are counted, one for others.
    pub count: Entry<Ratio>,
    /// The rate with what it is for: "415 per hour", "460 each", "8 h", "7 %", "1.5 x".
    pub likely: String,
    /// At best; blank: as likely.
    pub low: String,
    /// At worst; blank: as likely.
    pub high: String,
    /// Who said so.
    pub said: Said,
}

/// What a rate is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum RateFor {
    /// Crane with its operator.
    #[default]
    Hire,
    /// The least hours billed.
    Minimum,
    /// From the yard and back: hours, charged at the hourly rate, or an amount.
    Travel,
    /// Hours after which overtime is paid, on site or from port to port.
    OvertimeAfter,
    /// What an hour of overtime costs, as a multiple.
    Overtime,
    /// Hours after which double time is paid.
    DoubleAfter,
    /// What an hour of double time costs, as a multiple.
    DoubleTime,
    /// Surcharge on the crane's hours.
    Fuel,
    /// A truck with counterweight, there and back.
    CounterweightTruck,
    /// Road permit.
    Permit,
    /// Escort vehicle.
    Escort,
    /// Mats under the outriggers.
    Mats,
    /// The road is closed.
    RoadClosure,
    /// Flaggers at the road.
    Flagger,
    /// Riggers.
    Rigger,
    /// Signal person.
    SignalPerson,
    /// The pad that the crane stands on.
    Pad,
    /// A cable lifted or taken down.
    Cable,
    /// Anything else, by its words.
    Other,
    /// Added to the sum.
    Contingency,
    /// A day lost to the weather with the crane there, as a share of the hourly rate over the least hours.
    Standby,
    /// Called off late, as a share of the least hire.
    Cancellation,
}

/// A crane in a configuration at a place, to compare.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Offer {
    /// Which crane.
    pub crane: Id,
    /// Its chart, which is its configuration.
    pub chart: Id,
    /// The pad it stands on.
    pub pad: Id,
}

/// What an estimator knows in the first hour.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quick {
    /// How many boxes.
    pub boxes: u32,
    /// Floor area of all boxes together.
    pub floor: Entry<Area>,
    /// Weight per floor area.
    pub per_area: Entry<AreaDensity>,
    /// Foundation, along the road.
    pub along: Entry<Length>,
    /// Foundation, away from the road.
    pub deep: Entry<Length>,
    /// From the foundation to the near edge of the road.
    pub to_road: Entry<Length>,
}

/// An amount that was quoted or invoiced.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quoted {
    /// What for.
    pub item: RateFor,
    /// In words.
    pub what: String,
    /// The amount.
    pub amount: String,
}

fields! {
    Hire { rates; currency, tax, offers, quick, quoted, invoiced }
    Rate { item, likely; crane, what, count, low, high, said }
    Offer { crane, chart, pad }
    Quick { boxes, floor, per_area, along, deep, to_road }
    Quoted { item, amount; what }
}

names!(RateFor {
    "hire" => Hire, "minimum" => Minimum, "travel" => Travel, "overtime_after" => OvertimeAfter, "overtime" => Overtime,
    "double_after" => DoubleAfter, "double_time" => DoubleTime, "fuel" => Fuel, "counterweight_truck" => CounterweightTruck,
    "permit" => Permit, "escort" => Escort, "mats" => Mats, "road_closure" => RoadClosure, "flagger" => Flagger, "rigger" => Rigger,
    "signal_person" => SignalPerson, "pad" => Pad, "cable" => Cable, "other" => Other, "contingency" => Contingency,
    "standby" => Standby, "cancellation" => Cancellation,
});
