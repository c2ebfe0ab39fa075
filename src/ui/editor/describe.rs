//! The columns of everything in the plan, in the words of the trade.

use crate::crane::{Configuration, Deductions, RatingChart, Support};
use crate::plan::{
    Arrangement, Cable, Component, Crane, GearItem, GearKind, HouseBox, Id, Leg, Lift, Limits, Load, Obstacle, Opening,
    Pad, PickSpot, Piece, Place3, Plan, Point, PowerLine, Project, Rig, SetUp, Shape, Site, Ticket, WeighedWhen,
    Weight, Zone, ZoneKind,
};
use crate::quantity::{DecimalMark, Said, Unit, UnitSystem};
use crate::takeoff;
use crate::ui::fields::{Bare, Options, Typing, listed};
use crate::ui::tables::{Column, Described, Kind, Worded, check, choice, count, id, long, number, number_if, text};

const LENGTH: Bare = Bare::new(Unit::Ft, Unit::M);
const MASS: Bare = Bare::new(Unit::Lb, Unit::Kg);
const HEAVY: Bare = Bare::new(Unit::Lb, Unit::T);
const ANGLE: Bare = Bare::only(Unit::Deg);
const SHARE: Bare = Bare::only(Unit::Percent);
const FACTOR: Bare = Bare::only(Unit::One);
const PER_LENGTH: Bare = Bare::new(Unit::Plf, Unit::KgPerM);
const PER_AREA: Bare = Bare::new(Unit::Psf, Unit::KgPerM2);
const PER_VOLUME: Bare = Bare::new(Unit::Pcf, Unit::KgPerM3);
const AREA: Bare = Bare::new(Unit::Ft2, Unit::M2);
const VOLUME: Bare = Bare::new(Unit::Ft3, Unit::M3);
const PRESSURE: Bare = Bare::new(Unit::PsfForce, Unit::Kpa);
const SPEED: Bare = Bare::new(Unit::Mph, Unit::MPerS);

/// Things to choose from, each by its name with more words behind; the first choice is none.
fn named<'a>(things: impl Iterator<Item = (&'a Id, &'a str)>) -> Options {
    let none = ("".into(), "none".into());
    let thing = |(id, words): (&Id, &str)| {
        let words = if words.is_empty() {
            id.to_string()
        } else {
            format!("{id} {words}")
        };
        (id.to_string().into(), words.into())
    };
    Options::new(std::iter::once(none).chain(things.map(thing)).collect())
}

fn boxes(plan: &Plan) -> Options {
    named(plan.boxes.iter().map(|b| (&b.id, b.name.as_str())))
}
fn rigs(plan: &Plan) -> Options {
    named(plan.rigs.iter().map(|r| (&r.id, r.name.as_str())))
}
fn cranes(plan: &Plan) -> Options {
    named(plan.cranes.iter().map(|c| (&c.id, c.name.as_str())))
}
fn spots(plan: &Plan) -> Options {
    Options::new(
        plan.site
            .spots
            .iter()
            .map(|s| (s.id.to_string().into(), s.note.clone().into()))
            .collect(),
    )
}
fn charts(plan: &Plan) -> Options {
    let charts = plan.crane(&plan.set_up.crane).map_or(&[][..], |crane| &crane.charts);
    let none = ("".into(), "none".into());
    let chart = |c: &RatingChart| (c.id.clone().into(), c.name.clone().into());
    Options::new(std::iter::once(none).chain(charts.iter().map(chart)).collect())
}
fn gear(plan: &Plan) -> Options {
    named(plan.gear.iter().map(|g| (&g.id, g.name.as_str())))
}
fn gear_of(plan: &Plan, kinds: &[GearKind]) -> Options {
    named(
        plan.gear
            .iter()
            .filter(|g| kinds.contains(&g.kind))
            .map(|g| (&g.id, g.name.as_str())),
    )
}
fn slings(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Sling, GearKind::Strap])
}
fn shorteners(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Shortener])
}
fn bars(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Bar])
}

impl Worded for UnitSystem {
    const WORDS: &'static [(Self, &'static str)] =
        &[(Self::Us, "feet and pounds"), (Self::Metric, "metres and tonnes")];
}
impl Worded for DecimalMark {
    const WORDS: &'static [(Self, &'static str)] = &[(Self::Point, "point: 12.5"), (Self::Comma, "comma: 12,5")];
}
impl Worded for WeighedWhen {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::AfterLoading, "complete, after loading"),
        (Self::BeforeLoading, "before loading was complete, or axle by axle"),
    ];
}
impl Worded for GearKind {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Sling, "sling"),
        (Self::Strap, "strap"),
        (Self::Bar, "bar"),
        (Self::Shortener, "shortener"),
        (Self::Shackle, "shackle"),
        (Self::Pin, "pin"),
        (Self::Other, "other"),
    ];
}
impl Worded for ZoneKind {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Road, "road"),
        (Self::Driveway, "driveway"),
        (Self::Ground, "ground"),
        (Self::NoLoad, "no load"),
        (Self::Property, "owner's line"),
    ];
}
impl Worded for Support {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Outriggers, "outriggers"),
        (Self::Rubber, "tyres"),
        (Self::Crawlers, "crawlers"),
    ];
}

impl Described for Project {
    const ONE: &'static str = "project";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Project", name),
            text!("Place, as an ambulance would find it", place),
            text!("Set day", set_day),
            text!("Revision", revision),
            text!("Revised", revised),
            text!("Prepared by", prepared_by),
            choice!("Units", UnitSystem, units),
            choice!("Decimals", DecimalMark, decimal),
            check!("Invented sample data", invented),
            long!("Notes", notes),
        ]
    }
}

impl Described for Limits {
    const ONE: &'static str = "limits";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("Use of the chart, at most", SHARE, chart_use),
            number!("Added to every radius", LENGTH, radius_allowance),
            number!("Set-up tolerance of the crane", LENGTH, set_up_tolerance),
            number!("Dynamic factor on slings", FACTOR, dynamic_factor),
            number!("Load carried clear by", LENGTH, carry_clearance),
            number!("Boom to box, at least", LENGTH, boom_gap),
            number!("Use of a piece's rating, at most", SHARE, gear_use),
            number!("Out of level, at most", ANGLE, level),
            number!("No leg flatter than, from the horizontal", ANGLE, leg_angle_stop),
            number!(
                "Caution for legs flatter than, from the horizontal",
                ANGLE,
                leg_angle_caution
            ),
            number!("Add, where weighed after loading", SHARE, contingency_weighed).adding(),
            number!("Add, where weighed early or by axle", SHARE, contingency_weighed_early).adding(),
            number!("Add, where known from the take-off", SHARE, contingency_takeoff).adding(),
        ]
    }
}

impl Described for HouseBox {
    const ONE: &'static str = "box";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        for lift in &mut plan.lifts {
            match &mut lift.load {
                Load::Box { id } | Load::RoofRaise { on: id, .. } if id == old => *id = new.clone(),
                _ => {}
            }
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Box", id),
            text!("Name", name),
            number!("Length", LENGTH, length).also(&["l"]),
            number!("Width", LENGTH, width).also(&["w"]),
            number!("Shipped height", LENGTH, height).also(&["height", "h"]),
            text!("End at x = 0", ends[0]),
            text!("End at x = length", ends[1]),
            text!("Side at y = 0", sides[0]),
            text!("Side at y = width", sides[1]),
            text!("Last item added", last_item_added),
            number!("Corner x = 0, y = 0 lands east of the origin", LENGTH, set_corner.east),
            number!("and north of it", LENGTH, set_corner.north),
            number!("Direction of the box, from east anticlockwise", ANGLE, set_heading),
            number!("Underside of its floor above grade, set", LENGTH, set_floor),
        ]
    }
}

impl Described for Ticket {
    const ONE: &'static str = "ticket";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("Weight of the box alone", HEAVY, mass),
            text!("Weighed on", date),
            choice!("Weighed", WeighedWhen, weighed),
        ]
    }
}

impl Described for Place3 {
    const ONE: &'static str = "pick";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("x", LENGTH, x).along(),
            number!("y", LENGTH, y),
            number!("z", LENGTH, z),
        ]
    }
}

impl Described for Opening {
    const ONE: &'static str = "opening";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("From the corner along", LENGTH, from_along),
            number!("From the corner up", LENGTH, from_up),
            number!("Width", LENGTH, width),
            number!("Height", LENGTH, height),
        ]
    }
}

const BY: [&str; 5] = ["lump", "count", "length", "area", "volume"];
const FORMS: [&str; 4] = ["point", "line", "panel", "block"];

fn words(words: &[&'static str]) -> Options {
    Options::new(words.iter().map(|word| ((*word).into(), (*word).into())).collect())
}

fn by(weight: &Weight) -> &'static str {
    BY[match weight {
        Weight::Lump { .. } => 0,
        Weight::Count { .. } => 1,
        Weight::Length { .. } => 2,
        Weight::Area { .. } => 3,
        Weight::Volume { .. } => 4,
    }]
}

/// Another way to know the weight; what both ways have stays.
fn set_by(weight: &mut Weight, word: &str) {
    if by(weight) == word {
        return;
    }
    let known = match weight {
        Weight::Lump { mass } | Weight::Count { each: mass, .. } => mass.clone(),
        _ => crate::quantity::Entry::default(),
    };
    *weight = match word {
        "lump" => Weight::Lump { mass: known },
        "count" => Weight::Count {
            count: crate::quantity::Entry::default(),
            each: known,
        },
        "length" => Weight::Length {
            density: crate::quantity::Entry::default(),
            length: crate::quantity::Entry::default(),
        },
        "area" => Weight::Area {
            density: crate::quantity::Entry::default(),
            area: crate::quantity::Entry::default(),
        },
        "volume" => Weight::Volume {
            density: crate::quantity::Entry::default(),
            volume: crate::quantity::Entry::default(),
        },
        _ => return,
    };
}

fn form(shape: &Shape) -> &'static str {
    FORMS[match shape {
        Shape::Point { .. } => 0,
        Shape::Line { .. } => 1,
        Shape::Panel { .. } => 2,
        Shape::Block { .. } => 3,
    }]
}

/// Another form; the places that both have stay.
fn set_form(shape: &mut Shape, word: &str) {
    if form(shape) == word {
        return;
    }
    let first = place(shape, 0).cloned().unwrap_or_default();
    let second = place(shape, 1).cloned().unwrap_or_default();
    *shape = match word {
        "point" => Shape::Point { at: first },
        "line" => Shape::Line {
            from: first,
            to: second,
        },
        "panel" => Shape::Panel {
            corner: first,
            along: second,
            up: Place3::default(),
            openings: Vec::new(),
        },
        "block" => Shape::Block {
            from: first,
            to: second,
        },
        _ => return,
    };
}

fn place(shape: &Shape, which: usize) -> Option<&Place3> {
    match (shape, which) {
        (
            Shape::Point { at: place }
            | Shape::Line { from: place, .. }
            | Shape::Panel { corner: place, .. }
            | Shape::Block { from: place, .. },
            0,
        )
        | (Shape::Line { to: place, .. } | Shape::Panel { along: place, .. } | Shape::Block { to: place, .. }, 1)
        | (Shape::Panel { up: place, .. }, 2) => Some(place),
        _ => None,
    }
}

fn place_mut(shape: &mut Shape, which: usize) -> Option<&mut Place3> {
    match (shape, which) {
        (
            Shape::Point { at: place }
            | Shape::Line { from: place, .. }
            | Shape::Panel { corner: place, .. }
            | Shape::Block { from: place, .. },
            0,
        )
        | (Shape::Line { to: place, .. } | Shape::Panel { along: place, .. } | Shape::Block { to: place, .. }, 1)
        | (Shape::Panel { up: place, .. }, 2) => Some(place),
        _ => None,
    }
}

/// The field of an enumeration's member, where the row is that member.
macro_rules! of {
    ($head:expr, $bare:expr, $base:ident, $pattern:pat => $field:ident) => {
        number_if!(
            $head,
            $bare,
            |r: &Self| match &r.$base {
                $pattern => Some($field),
                _ => None,
            },
            |r: &mut Self| match &mut r.$base {
                $pattern => Some($field),
                _ => None,
            }
        )
    };
}
macro_rules! at {
    ($head:expr, $which:expr, $axis:ident) => {
        number_if!(
            $head,
            LENGTH,
            |r: &Self| place(&r.shape, $which).map(|p| &p.$axis),
            |r: &mut Self| place_mut(&mut r.shape, $which).map(|p| &mut p.$axis)
        )
    };
}

impl Described for Component {
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn weighs(&self, typing: Typing) -> Option<(f64, String)> {
        let item = takeoff::item(self).ok()?;
        let (weight, x) = super::figures::mass_and_length(typing, item.mass_kg, item.at_m[0]);
        Some((item.mass_kg, format!("{} {}: {weight} at x = {x}", self.id, self.name)))
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Row", id).also(&["item", "id", "no", "item no"]),
            text!("Item", name).also(&["description", "name", "component"]),
            Column::new(
                "By",
                Kind::Choice(|_| words(&BY)),
                |r: &Self, _| Some(by(&r.weight).to_owned()),
                |r: &mut Self, text, _| set_by(&mut r.weight, text),
            ),
            of!("Weight", MASS, weight, Weight::Lump { mass } => mass).also(&["mass", "wt", "weight each"]),
            of!("Count", FACTOR, weight, Weight::Count { count, .. } => count).also(&["qty", "quantity", "number"]),
            of!("Each", MASS, weight, Weight::Count { each, .. } => each),
            of!("Per length", PER_LENGTH, weight, Weight::Length { density, .. } => density),
            of!("Run", LENGTH, weight, Weight::Length { length, .. } => length),
            of!("Per area", PER_AREA, weight, Weight::Area { density, .. } => density),
            of!("Area", AREA, weight, Weight::Area { area, .. } => area),
            of!("Per volume", PER_VOLUME, weight, Weight::Volume { density, .. } => density),
            of!("Volume", VOLUME, weight, Weight::Volume { volume, .. } => volume),
            Column::new(
                "Form",
                Kind::Choice(|_| words(&FORMS)),
                |r: &Self, _| Some(form(&r.shape).to_owned()),
                |r: &mut Self, text, _| set_form(&mut r.shape, text),
            ),
            at!("x", 0, x).along(),
            at!("y", 0, y),
            at!("z", 0, z),
            at!("x to", 1, x).along(),
            at!("y to", 1, y),
            at!("z to", 1, z),
            at!("x up to", 2, x).along(),
            at!("y up to", 2, y),
            at!("z up to", 2, z),
            check!("Deduct", deduction).also(&["deduction"]),
            check!("Overhang", overhang).also(&["outside"]),
            Column::new(
                "Who said so",
                Kind::Text,
                |r: &Self, _| Some(r.said.clone().unwrap_or_default().who),
                |r: &mut Self, text, _| {
                    let mut said = r.said.take().unwrap_or_default();
                    said.who = text.trim().to_owned();
                    r.said = (said != Said::default()).then_some(said);
                },
            )
            .also(&["source", "who"]),
        ]
    }
}

impl Described for GearItem {
    const ONE: &'static str = "gear";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        for rig in &mut plan.rigs {
            for name in super::rigs::gear_names(rig).into_iter().filter(|name| **name == *old) {
                *name = new.clone();
            }
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Tag", id).also(&["id", "gear"]),
            text!("What", name).also(&["item", "name", "description"]),
            choice!("Kind", GearKind, kind),
            count!("On the truck", quantity).also(&["qty", "quantity", "count"]),
            number!("Rating of one", MASS, rating).also(&["rating", "wll", "wll vertical", "rated capacity"]),
            number!("Weight of one", MASS, mass).also(&["weight", "self weight"]),
            number!("Length, lugs or link", LENGTH, length).also(&["length"]),
            check!("Tag legible", tag_legible),
            text!("Note", note),
        ]
    }
}

impl Described for Piece {
    const ONE: &'static str = "piece";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Gear", gear, gear),
            count!("How many", count).also(&["qty", "count"]),
        ]
    }
}

const ARRANGEMENTS: [&str; 3] = ["four legs", "bar and cross bars", "only the hook's height"];

fn set_arrangement(rig: &mut Rig, word: &str) {
    let fresh = match word {
        "four legs" => Arrangement::FourLegs {
            legs: Default::default(),
        },
        "bar and cross bars" => Arrangement::BarAndCrossBars {
            bar: Id::default(),
            bar_lugs: Default::default(),
            top: Default::default(),
            cross_bar: Id::default(),
            cross_lugs: Default::default(),
            bridles: Default::default(),
            straps: Default::default(),
        },
        "only the hook's height" => Arrangement::default(),
        _ => return,
    };
    if arrangement(&rig.arrangement) != word {
        rig.arrangement = fresh;
    }
}

fn arrangement(arrangement: &Arrangement) -> &'static str {
    ARRANGEMENTS[match arrangement {
        Arrangement::FourLegs { .. } => 0,
        Arrangement::BarAndCrossBars { .. } => 1,
        Arrangement::Simple { .. } => 2,
    }]
}

macro_rules! bar_of {
    ($head:expr, $field:ident) => {
        Column::new(
            $head,
            Kind::Choice(bars),
            |r: &Self, _| match &r.arrangement {
                Arrangement::BarAndCrossBars { $field, .. } => Some($field.to_string()),
                _ => None,
            },
            |r: &mut Self, text, _| {
                if let Arrangement::BarAndCrossBars { $field, .. } = &mut r.arrangement {
                    *$field = Id::from(text.trim())
                }
            },
        )
    };
}

impl Described for Rig {
    const ONE: &'static str = "rig";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        for lift in plan.lifts.iter_mut().filter(|lift| lift.rig == *old) {
            lift.rig = new.clone();
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Rig", id),
            text!("Name", name),
            Column::new(
                "Slings run as",
                Kind::Choice(|_| words(&ARRANGEMENTS)),
                |r: &Self, _| Some(arrangement(&r.arrangement).to_owned()),
                |r: &mut Self, text, _| set_arrangement(r, text),
            ),
            bar_of!("Bar along the box", bar),
            of!("Lugs of the bar, apart", LENGTH, arrangement, Arrangement::BarAndCrossBars { bar_lugs, .. } => bar_lugs),
            bar_of!("Cross bars", cross_bar),
            of!("Lugs of a cross bar, apart", LENGTH, arrangement, Arrangement::BarAndCrossBars { cross_lugs, .. } => cross_lugs),
            of!("Hook above the underside of the load", LENGTH, arrangement, Arrangement::Simple { hook_above } => hook_above),
        ]
    }
}

impl Described for Leg {
    const ONE: &'static str = "leg";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Sling", slings, sling),
            count!("Links added", links),
            id!("Shortener", shorteners, shortener),
        ]
    }
}

impl Described for Crane {
    const ONE: &'static str = "crane";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        if plan.set_up.crane == *old {
            plan.set_up.crane = new.clone();
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Crane", id),
            text!("Class and make-up", name),
            number!("Boom pin above grade", LENGTH, pin_height),
            number!("Boom pin behind the slew axis", LENGTH, pin_back),
            number!("Depth of the boom", LENGTH, boom_depth),
            number!("Weight of the hook block", HEAVY, block_mass),
            number!("Hook to the top of the block", LENGTH, block_height),
            number!("Block stays below the head by", LENGTH, two_block),
            count!("Parts of line", parts),
            number!("Rope, one part", PER_LENGTH, rope),
            number!("Rope hanging below the head", LENGTH, hanging_rope),
            number!("Stowed on the boom", HEAVY, stowed),
            number!("Tail swing", LENGTH, tail_swing),
            number!("Outrigger pads, front to back", LENGTH, base_length),
            number!("Outrigger pads, across", LENGTH, base_width),
            number!("Mat, side of the square", LENGTH, mat),
            number!("Chart holds up to a wind of", SPEED, chart_wind),
        ]
    }
}

impl Described for SetUp {
    const ONE: &'static str = "set-up";
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Crane", cranes, crane),
            id!("Chart, which is its configuration", charts, chart),
            number!("Slew centre east of the origin", LENGTH, at.east),
            number!("and north of it", LENGTH, at.north),
            number!("Carrier's front points, from east anticlockwise", ANGLE, heading),
        ]
    }
}

/// Units that a chart may be printed in; none until somebody says.
macro_rules! unit_of {
    ($head:expr, $units:expr, $field:ident) => {
        Column::new(
            $head,
            Kind::Choice(|_| {
                Options::new(
                    std::iter::once(("".into(), "not said yet".into()))
                        .chain(
                            $units
                                .iter()
                                .map(|unit: &Unit| (unit.symbol().into(), unit.name().into())),
                        )
                        .collect(),
                )
            }),
            |r: &Self, _| Some(r.$field.map_or_else(String::new, |unit| unit.symbol().to_owned())),
            |r: &mut Self, text, _| r.$field = $units.iter().copied().find(|unit: &Unit| unit.symbol() == text),
        )
    };
}

const CHART_LENGTHS: [Unit; 2] = [Unit::Ft, Unit::M];
const CHART_MASSES: [Unit; 5] = [Unit::Lb, Unit::Kip, Unit::UsTon, Unit::T, Unit::Kg];

impl Described for RatingChart {
    const ONE: &'static str = "chart";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Chart", id),
            text!("Name", name),
            unit_of!("Radii are in", CHART_LENGTHS, radius_unit),
            unit_of!("Boom lengths are in", CHART_LENGTHS, boom_unit),
            unit_of!("Capacities are in", CHART_MASSES, capacity_unit),
            choice!("Decimals", DecimalMark, decimal),
            text!("Who said so", said.who),
            text!("When", said.when),
            text!("Note", said.note),
            Column::new(
                "Footnotes",
                Kind::Long,
                |r: &Self, _| Some(r.footnotes.join("\n")),
                |r: &mut Self, text, _| {
                    r.footnotes = text
                        .lines()
                        .map(str::trim)
                        .filter(|line| !line.is_empty())
                        .map(str::to_owned)
                        .collect();
                },
            ),
        ]
    }
    fn label(&self, _: usize) -> String {
        format!("chart {}", self.id)
    }
}

impl Described for Configuration {
    const ONE: &'static str = "configuration";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("Counterweight", HEAVY, counterweight),
            text!("Outriggers", outriggers),
            choice!("Stands on", Support, support),
            text!("Sector", sector),
        ]
    }
}

impl Described for Deductions {
    const ONE: &'static str = "deductions";
    fn columns() -> Vec<Column<Self>> {
        vec![
            check!("Hook block taken off already", hook_block),
            check!("Hanging rope taken off already", hanging_rope),
            check!("Rigging taken off already", rigging),
            check!("Stowed attachments taken off already", stowed_attachments),
        ]
    }
}

const LOADS: [&str; 3] = ["box", "roof raise", "bundle"];

fn what(load: &Load) -> &'static str {
    LOADS[match load {
        Load::Box { .. } => 0,
        Load::RoofRaise { .. } => 1,
        Load::Bundle { .. } => 2,
    }]
}

fn set_what(load: &mut Load, word: &str) {
    if what(load) == word {
        return;
    }
    let of_box = match load {
        Load::Box { id } | Load::RoofRaise { on: id, .. } => id.clone(),
        Load::Bundle { .. } => Id::default(),
    };
    *load = match word {
        "box" => Load::Box { id: of_box },
        "roof raise" => Load::RoofRaise {
            on: of_box,
            panel: Default::default(),
            hinge_to_cg: Default::default(),
            hinge_to_pull: Default::default(),
            least_share: Default::default(),
        },
        "bundle" => Load::Bundle {
            name: String::new(),
            mass: Default::default(),
            set: Point::default(),
            set_height: Default::default(),
        },
        _ => return,
    };
}

impl Described for Lift {
    const ONE: &'static str = "lift";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn label(&self, index: usize) -> String {
        if self.number == 0 {
            format!("lift row {}", index + 1)
        } else {
            format!("lift {}", self.number)
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Row", id),
            count!("Lift", number).also(&["no", "number", "order"]),
            Column::new(
                "What",
                Kind::Choice(|_| words(&LOADS)),
                |r: &Self, _| Some(what(&r.load).to_owned()),
                |r: &mut Self, text, _| set_what(&mut r.load, text),
            ),
            Column::new(
                "Box",
                Kind::Choice(boxes),
                |r: &Self, _| match &r.load {
                    Load::Box { id } | Load::RoofRaise { on: id, .. } => Some(id.to_string()),
                    Load::Bundle { .. } => None,
                },
                |r: &mut Self, text, _| {
                    if let Load::Box { id } | Load::RoofRaise { on: id, .. } = &mut r.load {
                        *id = Id::from(text.trim());
                    }
                },
            ),
            id!("Rig", rigs, rig),
            Column::new(
                "Pick spots",
                Kind::Names(spots),
                |r: &Self, _| Some(r.picks.iter().map(Id::as_str).collect::<Vec<_>>().join(", ")),
                |r: &mut Self, text, _| r.picks = listed(text).map(Id::from).collect(),
            )
            .also(&["picks", "spots"]),
            number!("Add", SHARE, contingency)
                .adding()
                .also(&["contingency", "add %"]),
            number!("Boom", LENGTH, boom),
            text!("Note", note),
            of!("Panel", MASS, load, Load::RoofRaise { panel, .. } => panel),
            of!("Hinge to its CG", LENGTH, load, Load::RoofRaise { hinge_to_cg, .. } => hinge_to_cg),
            of!("Hinge to the pull", LENGTH, load, Load::RoofRaise { hinge_to_pull, .. } => hinge_to_pull),
            of!("Pull at least, share of the panel", SHARE, load, Load::RoofRaise { least_share, .. } => least_share),
            Column::new(
                "Bundle",
                Kind::Text,
                |r: &Self, _| match &r.load {
                    Load::Bundle { name, .. } => Some(name.clone()),
                    _ => None,
                },
                |r: &mut Self, text, _| {
                    if let Load::Bundle { name, .. } = &mut r.load {
                        *name = text.trim().to_owned();
                    }
                },
            ),
            of!("Weight of the bundle", MASS, load, Load::Bundle { mass, .. } => mass),
            number_if!(
                "Set down east of the origin",
                LENGTH,
                |r: &Self| match &r.load {
                    Load::Bundle { set, .. } => Some(&set.east),
                    _ => None,
                },
                |r: &mut Self| match &mut r.load {
                    Load::Bundle { set, .. } => Some(&mut set.east),
                    _ => None,
                }
            ),
            number_if!(
                "and north of it",
                LENGTH,
                |r: &Self| match &r.load {
                    Load::Bundle { set, .. } => Some(&set.north),
                    _ => None,
                },
                |r: &mut Self| match &mut r.load {
                    Load::Bundle { set, .. } => Some(&mut set.north),
                    _ => None,
                }
            ),
            of!("Set down above grade", LENGTH, load, Load::Bundle { set_height, .. } => set_height),
        ]
    }
}

impl Described for Point {
    const ONE: &'static str = "point";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("East", LENGTH, east).also(&["e", "x"]),
            number!("North", LENGTH, north).also(&["n", "y"]),
        ]
    }
}

impl Described for Site {
    const ONE: &'static str = "site";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("Strip round the foundation without load", LENGTH, no_load_offset),
            text!("Why that wide, who said so", no_load_basis),
        ]
    }
}

impl Described for Zone {
    const ONE: &'static str = "zone";
    fn label(&self, _: usize) -> String {
        format!("zone {}", self.name)
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Zone", name),
            choice!("Kind", ZoneKind, kind),
            number!("Ground bears", PRESSURE, bearing),
            text!("Who said so, what it is made of", note),
        ]
    }
}

impl Described for Obstacle {
    const ONE: &'static str = "obstacle";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Name", name),
            number!("East", LENGTH, at.east),
            number!("North", LENGTH, at.north),
            number!("Reach in plan", LENGTH, radius),
            number!("Height", LENGTH, height),
        ]
    }
}

impl Described for PowerLine {
    const ONE: &'static str = "power line";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Name", name),
            number!("From east", LENGTH, from.east),
            number!("From north", LENGTH, from.north),
            number!("To east", LENGTH, to.east),
            number!("To north", LENGTH, to.north),
            number!("Lowest wire above grade", LENGTH, height),
            text!("Voltage as told, kV", kilovolts),
            text!("Confirmed by the utility: who, when", confirmed),
            number!("Rules begin inside", LENGTH, trigger),
        ]
    }
}

impl Described for Cable {
    const ONE: &'static str = "cable";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Name", name),
            number!("From east", LENGTH, from.east),
            number!("From north", LENGTH, from.north),
            number!("To east", LENGTH, to.east),
            number!("To north", LENGTH, to.north),
            number!("Clear height below", LENGTH, clear),
            text!("Note", note),
        ]
    }
}

impl Described for PickSpot {
    const ONE: &'static str = "spot";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        for name in plan
            .lifts
            .iter_mut()
            .flat_map(|lift| &mut lift.picks)
            .filter(|name| **name == *old)
        {
            *name = new.clone();
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Spot", id),
            number!("East", LENGTH, at.east),
            number!("North", LENGTH, at.north),
            number!("Box points, from east anticlockwise", ANGLE, heading),
            number!("Underside of the load above grade", LENGTH, floor),
            text!("Note", note),
        ]
    }
}

impl Described for Pad {
    const ONE: &'static str = "pad";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Pad", id),
            number!("East", LENGTH, at.east),
            number!("North", LENGTH, at.north),
            text!("Note", note),
        ]
    }
}
