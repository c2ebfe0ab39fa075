//! The clock of the day: how long each step takes, when the day begins, breaks, light, what comes before what, and how it went.

use super::Id;
use crate::json::{fields, names};
use crate::quantity::{Duration, Entry, Length, Mass};

/// Everything about time on the set day. Times of day are texts such as "06:00"; blank: not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SetDay {
    /// When the crane is on site.
    pub start: String,
    /// When there is light enough to lift.
    pub light_from: String,
    /// Until when.
    pub light_to: String,
    /// How long each step takes.
    pub minutes: Vec<StepTime>,
    /// When the crew rests.
    pub breaks: Vec<Break>,
    /// What must be set before what, beyond what follows from the boxes' places.
    pub before: Vec<Before>,
    /// When carriers are told to come.
    pub trucks: Vec<Truck>,
    /// How it went.
    pub lifted: Vec<AsLifted>,
}

/// How long one kind of step takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StepTime {
    /// Which kind.
    pub step: Step,
    /// The crane it holds for; unnamed: any.
    pub crane: Id,
    /// At best.
    pub low: Entry<Duration>,
    /// As a rule.
    pub likely: Entry<Duration>,
    /// At worst.
    pub high: Entry<Duration>,
}

/// A kind of step.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// The crane is set up.
    SetUp,
    /// A box is set.
    #[default]
    Box,
    /// What the first box takes beyond that: everything is squared from it.
    FirstBox,
    /// A roof is raised.
    RoofRaise,
    /// A bundle is set down.
    Bundle,
    /// The rig under the hook is changed for another.
    ReRig,
    /// One carrier leaves a spot and the next stops on it, while the crane waits.
    Carrier,
    /// A carrier stands on its spot this long before the hook takes its box: unwrapping, loosening.
    Ready,
    /// The crane is taken down.
    StripDown,
}

/// A rest of the crew, taken at the first end of a step from its time on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Break {
    /// From when on.
    pub at: String,
    /// How long.
    pub length: Entry<Duration>,
    /// The crane's hours run through it.
    pub billed: bool,
}

/// One lift that must be done before another.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Before {
    /// The row of the lift that comes first.
    pub first: Id,
    /// The row of the lift that follows, at once or later.
    pub then: Id,
    /// Why.
    pub why: String,
}

/// When a carrier is told to come.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Truck {
    /// The row of the lift that it brings.
    pub lift: Id,
    /// When it is on its spot: "10:30".
    pub arrives: String,
    /// Who said so, what else to know.
    pub note: String,
}

/// What was measured when a lift was done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AsLifted {
    /// The row of the lift.
    pub lift: Id,
    /// Radius at the pick.
    pub pick_radius: Entry<Length>,
    /// Radius at the set.
    pub set_radius: Entry<Length>,
    /// What the load indicator read.
    pub reading: Entry<Mass>,
    /// How long the lift took, hook to hook.
    pub took: Entry<Duration>,
    /// Who wrote it down, what else to know.
    pub note: String,
}

fields! {
    SetDay { minutes; start, light_from, light_to, breaks, before, trucks, lifted }
    StepTime { step, likely; crane, low, high }
    Break { at, length; billed }
    Before { first, then; why }
    Truck { lift, arrives; note }
    AsLifted { lift, pick_radius, set_radius, reading, took; note }
}

names!(Step {
    "set_up" => SetUp, "box" => Box, "first_box" => FirstBox, "roof_raise" => RoofRaise, "bundle" => Bundle, "re_rig" => ReRig,
    "carrier" => Carrier, "ready" => Ready, "strip_down" => StripDown,
});
