//! The columns of everything in the plan, in the words of the trade.

use crate::crane::{Configuration, Deductions, RatingChart, Sheaves, Support};
use crate::gear::bar::DesignCategory;
use crate::gear::capacity::Hitch;
use crate::plan::{
    Arrangement, Assembly, BarForm, BarSteel, BoxEdge, Cable, Component, Crane, FactorFormat, GearItem, GearKind,
    HouseBox, HungPiece, Id, Layer, LayerWeight, Leg, Lift, Limits, Load, LugSteel, Obstacle, Opening, Pad, PickSpot,
    Piece, Place3, Plan, Point, PowerLine, Project, RaiseArc, Rig, Scope, SetUp, Shape, Site, Swing, Ticket, Torsion,
    WeighPoint, WeighedWhen, Weight, Zone, ZoneKind, twin,
};
use crate::quantity::{DecimalMark, Said, Unit, UnitSystem};
use crate::rigging::Construction;
use crate::rules::{Profile, Soil};
use crate::takeoff;
use crate::ui::fields::{Bare, Options, Typing, listed};
use crate::ui::tables::{
    Column, Described, Heavy, Kind, Worded, check, choice, count, id, long, number, number_if, text,
};

pub(super) const LENGTH: Bare = Bare::new(Unit::Ft, Unit::M);
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
const RIGIDITY: Bare = Bare::new(Unit::KipFt2, Unit::KnM2);
const MOMENT: Bare = Bare::new(Unit::KipFt, Unit::KnM);
const FORCE: Bare = Bare::new(Unit::Lbf, Unit::Kn);
const SHEAR: Bare = Bare::new(Unit::KipPerInch, Unit::KnPerMm);
/// Small lengths: tolerances, diameters, links.
const SMALL: Bare = Bare::new(Unit::Inch, Unit::Mm);
/// Stresses in steel, and figures of its sections.
const STRESS: Bare = Bare::new(Unit::Ksi, Unit::Mpa);
const SECTION_AREA: Bare = Bare::new(Unit::In2, Unit::Cm2);
const SECOND_MOMENT: Bare = Bare::new(Unit::In4, Unit::Cm4);
const SPEED: Bare = Bare::new(Unit::Mph, Unit::MPerS);

/// Things to choose from, each by its name with more words behind; the first choice is none.
pub(super) fn named<'a>(things: impl Iterator<Item = (&'a Id, &'a str)>) -> Options {
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
fn assemblies(plan: &Plan) -> Options {
    named(plan.assemblies.iter().map(|a| (&a.id, a.name.as_str())))
}
fn rigs(plan: &Plan) -> Options {
    named(plan.rigs.iter().map(|r| (&r.id, r.name.as_str())))
}
pub(super) fn cranes(plan: &Plan) -> Options {
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
fn shackles(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Shackle])
}
fn adjusters(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Adjuster])
}
/// What can join the ends of legs.
fn joining(plan: &Plan) -> Options {
    gear_of(
        plan,
        &[
            GearKind::Shackle,
            GearKind::Link,
            GearKind::EyeBolt,
            GearKind::Pin,
            GearKind::Other,
        ],
    )
}
fn links(plan: &Plan) -> Options {
    gear_of(plan, &[GearKind::Link, GearKind::Shackle])
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
        (Self::Adjuster, "adjuster"),
        (Self::Shackle, "shackle"),
        (Self::Link, "link"),
        (Self::Block, "block"),
        (Self::EyeBolt, "eye bolt"),
        (Self::Pin, "pin"),
        (Self::Softener, "softener"),
        (Self::TagLine, "tag line"),
        (Self::Other, "other"),
    ];
}
impl Worded for Construction {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Unknown, "not said"),
        (Self::WireRope, "wire rope"),
        (Self::FibreCore, "wire rope with fibre core"),
        (Self::Polyester, "polyester"),
        (Self::RoundSling, "polyester round sling"),
        (Self::Nylon, "nylon"),
        (Self::Chain, "chain"),
    ];
}
impl Worded for Hitch {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Vertical, "vertical"),
        (Self::Choker, "choker"),
        (Self::Basket, "basket"),
    ];
}
impl Worded for FactorFormat {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Trade, "trade: static load against the tag's rating"),
        (Self::Marine, "marine: load with its factors against the breaking load"),
    ];
}
impl Worded for BarForm {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Pipe, "pipe"),
        (Self::SquareTube, "square tube"),
        (Self::Closed, "closed section by its figures"),
    ];
}
impl Worded for DesignCategory {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::B, "B: loads or surroundings vary, 3.00"),
        (Self::A, "A: loads and surroundings known, 2.00"),
    ];
}
impl Worded for Torsion {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Unknown, "not known: from nothing to rigid"),
        (Self::Rigid, "rigid"),
        (Self::Typed, "as typed"),
        (Self::Panels, "from its sheathing, closed all round"),
        (Self::OpenSide, "one long side open: from nothing to rigid"),
    ];
}
impl Worded for ZoneKind {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Road, "road"),
        (Self::Driveway, "driveway"),
        (Self::Ground, "ground"),
        (Self::NoLoad, "no load"),
        (Self::Property, "owner's line"),
        (Self::Excavation, "excavation or retaining wall"),
    ];
}
impl Worded for Soil {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::NotSaid, "not said"),
        (Self::Unknown, "seen, cannot be told"),
        (Self::Rock, "crystalline rock"),
        (Self::SoftRock, "sedimentary rock"),
        (Self::Gravel, "dense gravel"),
        (Self::Sand, "dense sand"),
        (Self::Till, "glacial till"),
        (Self::StiffClay, "stiff clay"),
        (Self::FirmClay, "firm clay"),
        (Self::Soft, "soft clay or loose sand"),
        (Self::Fill, "fill, not prepared"),
    ];
}
impl Worded for Profile {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::NotSaid, "not said: the strictest of all"),
        (Self::Us, "United States, OSHA"),
        (Self::Ontario, "Ontario"),
        (Self::Alberta, "Alberta"),
        (Self::BritishColumbia, "British Columbia"),
    ];
}
impl Worded for Sheaves {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::NotSaid, "not said"),
        (Self::AntiFriction, "ball or roller bearings"),
        (Self::Bronze, "bronze bushings"),
        (Self::Plain, "plain bearings"),
    ];
}
impl Worded for Swing {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Short, "the shorter way"),
        (Self::Anticlockwise, "anticlockwise"),
        (Self::Clockwise, "clockwise"),
    ];
}
impl Worded for Scope {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Plain, "one crane, nobody on the load or under it"),
        (Self::People, "people are lifted"),
        (Self::TwoCranes, "two cranes share the load"),
        (Self::Occupied, "over a place where people are"),
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
            text!("Firm whose sheets these are", owner),
            text!("Reviewed by (any change clears it)", reviewed_by),
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
            text!("Gear rules started from the profile", profile),
            choice!("Loads on gear are held", FactorFormat, format),
            number!("Dynamic factor on slings", FACTOR, dynamic_factor),
            number!("Marine: skew factor where legs share", FACTOR, skew_factor),
            number!("Marine: consequence factor", FACTOR, consequence_factor),
            number!("Marine: breaking load is divided by", FACTOR, breaking_factor),
            number!("Legs that count of a set of three or four", FACTOR, legs_counted),
            number!("Legs straight on the hook, included angle at most", ANGLE, hook_angle),
            number!("Breaking load over rating, at least", FACTOR, design_factor),
            number!("Months between inspections of gear, at most", FACTOR, inspection_months),
            number!("Proof test of bars and frames, of their rating", SHARE, proof_test),
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
            number!("Length of any leg off by, either way", SMALL, length_tolerance),
            number!("Weight of a component off by, either way", SHARE, mass_band),
            number!("Place of a component off by, any way", LENGTH, place_band),
            number!("Sag between picks, at most, share of their distance", SHARE, sag),
            number!("Racking of a face, at most, share of its width", SHARE, racking),
            number!("One bolster lower by, case of an uneven lift-off", SMALL, bolsters),
            number!("Held back by a frozen seal, share of the load", SHARE, held_back),
            number!("Add, where weighed after loading", SHARE, contingency_weighed).adding(),
            number!("Add, where weighed early or by axle", SHARE, contingency_weighed_early).adding(),
            number!("Add, where known from the take-off", SHARE, contingency_takeoff).adding(),
            number!("Add, where estimated per floor area", SHARE, contingency_per_area).adding(),
            number!("Wind force coefficient of a box, c_w", FACTOR, wind_drag),
            number!("Wind for tag lines and landing, at most", SPEED, wind_landing),
            number!("Tag lines, length", LENGTH, tag_line),
            number!(
                "Most on one outrigger by rule of thumb, of crane and load",
                SHARE,
                outrigger_share
            ),
            number!("Slope that the crane stands on, at most", SHARE, crane_slope),
            number!("Break-out, more than its weight by", SHARE, break_out),
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
    fn copied(&self, id: Id) -> Self {
        twin(self, id)
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
            number!("Pull straight up at a pick, at most (factory)", MASS, pick_vertical),
            number!("Pull sideways at a pick, at most (factory)", MASS, pick_inward),
            number!("Push of a strap on an eave, at most (factory)", MASS, eave_push),
            text!("End at x = 0", ends[0]),
            text!("End at x = length", ends[1]),
            text!("Side at y = 0", sides[0]),
            text!("Side at y = width", sides[1]),
            text!("Last item added, year-month-day", last_item_added),
            number!("Weight per floor area", PER_AREA, estimate),
            choice!("Stiff against twist", Torsion, torsion),
            number!("Stiffness against twist, GJ", RIGIDITY, gj),
            number!("Shear stiffness of the floor, Ga", SHEAR, panels[0]),
            number!("Shear stiffness of the roof, Ga", SHEAR, panels[1]),
            number!("Shear stiffness of the side at y = 0, Ga", SHEAR, panels[2]),
            number!("Shear stiffness of the side at y = width, Ga", SHEAR, panels[3]),
            number!("Floor sheathed, area ratio", SHARE, sheathed[0]),
            number!("Roof sheathed, area ratio", SHARE, sheathed[1]),
            number!("Side at y = 0 sheathed, area ratio", SHARE, sheathed[2]),
            number!("Side at y = width sheathed, area ratio", SHARE, sheathed[3]),
            number!("Stiffness against bending, EI", RIGIDITY, ei),
            number!("EI of the rims alone, a bound", RIGIDITY, ei_rim),
            number!("EI of the walls as girders, a bound", RIGIDITY, ei_wall),
            number!("Neutral axis above the underside of the floor", LENGTH, neutral),
            number!("Sagging moment that the factory allows", MOMENT, moments[0]),
            number!("Hogging moment that the factory allows", MOMENT, moments[1]),
            number!("Shear that the factory allows", FORCE, shear),
            number!("Picks no nearer to an end than", LENGTH, pick_range[0]),
            number!("Picks no farther from it than", LENGTH, pick_range[1]),
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
            text!("Weighed on, year-month-day", date),
            choice!("Weighed", WeighedWhen, weighed),
        ]
    }
}

impl Described for WeighPoint {
    const ONE: &'static str = "axle group";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Axle group or cell", name),
            number!("With the box on it", HEAVY, gross).also(&["gross"]),
            number!("Empty", HEAVY, tare).also(&["tare"]),
            number!("Along the box from the end at x = 0", LENGTH, x).also(&["x"]),
            number!("Across from the side at y = 0", LENGTH, y).also(&["y"]),
        ]
    }
}

impl Described for Assembly {
    const ONE: &'static str = "assembly";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn renamed(plan: &mut Plan, old: &Id, new: &Id) {
        for row in plan.boxes.iter_mut().flat_map(|house| &mut house.components) {
            match &mut row.weight {
                Weight::Assembly { assembly, .. } if assembly == old => *assembly = new.clone(),
                _ => {}
            }
        }
    }
    fn columns() -> Vec<Column<Self>> {
        vec![id!("Assembly", id), text!("Name", name)]
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

impl Described for BoxEdge {
    const ONE: &'static str = "edge";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Edge", id),
            number!("x", LENGTH, from.x).along(),
            number!("y", LENGTH, from.y),
            number!("z", LENGTH, from.z),
            number!("x to", LENGTH, to.x).along(),
            number!("y to", LENGTH, to.y),
            number!("z to", LENGTH, to.z),
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

const BY: [&str; 6] = ["lump", "count", "length", "area", "volume", "assembly"];
/// How a layer's weight is known: as such, by its thickness, or as members side by side.
const LAYER_BY: [&str; 3] = ["area", "thickness", "members"];
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
        Weight::Assembly { .. } => 5,
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
    let net = match weight {
        Weight::Area { area, .. } | Weight::Assembly { area, .. } => area.clone(),
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
            area: net,
        },
        "assembly" => Weight::Assembly {
            assembly: Id::default(),
            area: net,
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

/// A part of who said so; all of it empty is nobody.
macro_rules! said {
    ($head:expr, $part:ident) => {
        Column::new(
            $head,
            Kind::Text,
            |r: &Self, _| Some(r.said.clone().unwrap_or_default().$part),
            |r: &mut Self, text, _| {
                let mut said = r.said.take().unwrap_or_default();
                said.$part = text.trim().to_owned();
                r.said = (said != Said::default()).then_some(said);
            },
        )
    };
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

impl Described for Layer {
    const ONE: &'static str = "layer";
    fn columns() -> Vec<Column<Self>> {
        vec![
            text!("Layer", name).also(&["material", "description", "name"]),
            Column::new(
                "By",
                Kind::Choice(|_| words(&LAYER_BY)),
                |r: &Self, _| {
                    let by = match r.weight {
                        LayerWeight::Area { .. } => 0,
                        LayerWeight::Volume { .. } => 1,
                        LayerWeight::Length { .. } => 2,
                    };
                    Some(LAYER_BY[by].to_owned())
                },
                |r: &mut Self, text, _| match (text, &r.weight) {
                    ("area", LayerWeight::Volume { .. } | LayerWeight::Length { .. }) => {
                        r.weight = LayerWeight::default()
                    }
                    ("thickness", LayerWeight::Area { .. } | LayerWeight::Length { .. }) => {
                        r.weight = LayerWeight::Volume {
                            density: crate::quantity::Entry::default(),
                            thickness: crate::quantity::Entry::default(),
                        }
                    }
                    ("members", LayerWeight::Area { .. } | LayerWeight::Volume { .. }) => {
                        r.weight = LayerWeight::Length {
                            density: crate::quantity::Entry::default(),
                            spacing: crate::quantity::Entry::default(),
                        }
                    }
                    _ => {}
                },
            ),
            of!("Per area", PER_AREA, weight, LayerWeight::Area { density } => density),
            of!("Per volume", PER_VOLUME, weight, LayerWeight::Volume { density, .. } => density),
            of!("Thickness", SMALL, weight, LayerWeight::Volume { thickness, .. } => thickness),
            of!("Per length of one", PER_LENGTH, weight, LayerWeight::Length { density, .. } => density),
            of!("From one to the next", SMALL, weight, LayerWeight::Length { spacing, .. } => spacing),
        ]
    }
}

impl Described for Component {
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn weighs(&self, plan: &Plan, typing: Typing) -> Option<Heavy> {
        let item = takeoff::item(self, &plan.assemblies).ok()?;
        let (weight, x) = super::figures::mass_and_length(typing, item.mass_kg, item.at_m[0]);
        Some(Heavy {
            kg: item.mass_kg,
            words: format!("{} {}: {weight} at x = {x}", self.id, self.name),
            at_m: item.at_m,
        })
    }
    fn questions(rows: &[Self]) -> Vec<String> {
        let call = |at: usize, text: String| format!("{} {}: {text}", rows[at].id, rows[at].name);
        let odd_unit = takeoff::odd_unit(rows).map(|(at, text)| call(at, text));
        let per_area = rows
            .iter()
            .enumerate()
            .filter_map(|(at, row)| Some(call(at, takeoff::odd_per_area(row)?)));
        odd_unit.into_iter().chain(per_area).collect()
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
            Column::new(
                "Assembly",
                Kind::Choice(assemblies),
                |r: &Self, _| match &r.weight {
                    Weight::Assembly { assembly, .. } => Some(assembly.to_string()),
                    _ => None,
                },
                |r: &mut Self, text, _| {
                    if let Weight::Assembly { assembly, .. } = &mut r.weight {
                        *assembly = Id::from(text.trim());
                    }
                },
            ),
            of!("Area", AREA, weight, Weight::Area { area, .. } | Weight::Assembly { area, .. } => area),
            of!("Per volume", PER_VOLUME, weight, Weight::Volume { density, .. } => density),
            of!("Volume", VOLUME, weight, Weight::Volume { volume, .. } => volume),
            Column::new(
                "Form",
                Kind::Choice(|_| words(&FORMS)),
                |r: &Self, _| Some(form(&r.shape).to_owned()),
                |r: &mut Self, text, _| set_form(&mut r.shape, text),
            ),
            at!("x", 0, x).along(),
            at!("y", 0, y).across(),
            at!("z", 0, z),
            at!("x to", 1, x).along(),
            at!("y to", 1, y).across(),
            at!("z to", 1, z),
            at!("x up to", 2, x).along(),
            at!("y up to", 2, y).across(),
            at!("z up to", 2, z),
            check!("Deduct", deduction).also(&["deduction"]),
            check!("Overhang", overhang).also(&["outside"]),
            text!("Went in on", loaded).also(&["loaded", "loaded on", "date"]),
            number!("Reaches along the box", LENGTH, run),
            number!("Weight off by", SHARE, mass_band),
            number!("Place off by", LENGTH, place_band),
            text!("Wrong together with", group),
            said!("Who said so", who).also(&["source", "who"]),
            said!("Said when", when),
            said!("Said besides", note),
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
            number!("Rating vertical", MASS, rating).also(&[
                "rating",
                "wll",
                "wll vertical",
                "rated capacity",
                "rating of one",
            ]),
            count!("Legs the rating is for", legs),
            number!("Rating holds down to", ANGLE, rated_angle),
            number!("Rating holds to a span of", LENGTH, rated_span),
            number!("Rating as a choker", MASS, choker).also(&["choker", "wll choker"]),
            number!("Rating as a basket", MASS, basket).also(&["basket", "wll basket"]),
            number!("Breaking load", MASS, breaking).also(&["breaking strength", "mbl"]),
            number!("Weight of one", MASS, mass).also(&["weight", "self weight"]),
            number!("Length lugs or link", LENGTH, length).also(&["length", "length, lugs or link"]),
            number!("Adjuster longest", LENGTH, longest),
            choice!("Made of", Construction, construction).also(&["material"]),
            text!("Core grade or class", grade).also(&["grade", "core"]),
            number!("Diameter of rope or chain", SMALL, diameter).also(&["diameter"]),
            check!("Tag legible", tag_legible),
            text!("Last inspected", inspected).also(&["inspected"]),
            text!("Note", note),
        ]
    }
}

impl Described for BarSteel {
    const ONE: &'static str = "steel";
    fn columns() -> Vec<Column<Self>> {
        vec![
            choice!("Section", BarForm, form),
            number!("Outside diameter, side or depth", SMALL, outside),
            number!("Thickness of the wall", SMALL, wall),
            number!("By its figures: area", SECTION_AREA, area),
            number!(
                "By its figures: second moment, bending up and down",
                SECOND_MOMENT,
                second_moment
            ),
            number!("By its figures: smallest radius of gyration", SMALL, radius),
            number!("Yield strength", STRESS, strength),
            choice!("Design category", DesignCategory, category),
            number!("Upper lugs above the axis", SMALL, lug_above),
            number!("Lower lugs below the axis", SMALL, lug_below),
        ]
    }
}

impl Described for LugSteel {
    const ONE: &'static str = "lug";
    fn columns() -> Vec<Column<Self>> {
        vec![
            number!("Thickness of the plate", SMALL, thickness),
            number!("Diameter of the hole", SMALL, hole),
            number!("Diameter of the pin", SMALL, pin),
            number!("Hole to edge, along the pull", SMALL, end),
            number!("Hole to edge, square to the pull", SMALL, side),
            number!("Yield strength", STRESS, strength),
            number!("Ultimate strength", STRESS, ultimate),
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

const ARRANGEMENTS: [&str; 4] = [
    "four legs",
    "bar and cross bars",
    "piece by piece",
    "only the hook's height",
];

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
        "piece by piece" => Arrangement::PieceByPiece {
            hung: Vec::new(),
            legs: straight_legs(&rig.arrangement),
        },
        "only the hook's height" => Arrangement::default(),
        _ => return,
    };
    if arrangement(&rig.arrangement) != word {
        rig.arrangement = fresh;
    }
}

/// The legs of a rig of four, each with where it runs.
fn straight_legs(arrangement: &Arrangement) -> Vec<Leg> {
    let Arrangement::FourLegs { legs } = arrangement else {
        return Vec::new();
    };
    let run = |(pick, leg): (usize, &Leg)| Leg {
        runs: format!("hook > pick {}", pick + 1),
        ..leg.clone()
    };
    legs.iter().enumerate().map(run).collect()
}

fn arrangement(arrangement: &Arrangement) -> &'static str {
    ARRANGEMENTS[match arrangement {
        Arrangement::FourLegs { .. } => 0,
        Arrangement::BarAndCrossBars { .. } => 1,
        Arrangement::PieceByPiece { .. } => 2,
        Arrangement::Simple { .. } => 3,
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
            id!("Link on the hook", links, link),
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
            count!("Shackles added", shackles),
            id!("Shackle", shackles, shackle),
            id!("Adjuster", adjusters, adjuster),
            number!("Adjuster set to", LENGTH, set_to),
            text!("Runs", runs),
            id!("Joined above by", joining, above),
            check!("Takes all legs there", above_takes_all),
            id!("Joined below by", joining, below),
            choice!("Hitch", Hitch, hitch),
            number!("Angle of choke, or of a basket's parts", ANGLE, hitch_angle),
            number!("Bends over a diameter of", SMALL, bends_over),
            number!("Shackles pulled off their line by", ANGLE, side_load),
        ]
    }
}

impl Described for HungPiece {
    const ONE: &'static str = "piece";
    fn id(&self) -> Option<&Id> {
        Some(&self.id)
    }
    fn set_id(&mut self, id: Id) {
        self.id = id;
    }
    fn columns() -> Vec<Column<Self>> {
        vec![
            id!("Piece", id),
            id!("Gear", gear, gear),
            number!("CG x", LENGTH, cg.x).along(),
            number!("CG y", LENGTH, cg.y),
            number!("CG z", LENGTH, cg.z),
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
            number!("Rating of hook and block", HEAVY, block_rating),
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
            number!("Rope on the drum", LENGTH, rope_length),
            number!("One part of line may pull", FORCE, line_pull),
            choice!("Sheaves run on", Sheaves, sheaves),
            number!("Superstructure and cab ahead of the slew axis", LENGTH, body_ahead),
            number!("and to either side of it", LENGTH, body_side),
            number!("Top of superstructure and cab above grade", LENGTH, body_top),
            number!("Top of the outrigger beams above grade", LENGTH, outrigger_top),
            number!("Middle of the pads ahead of the slew axis", LENGTH, base_ahead),
            number!("Float, side of the square", LENGTH, float_side),
            number!("Weight of one mat", MASS, mat_mass),
            number!("Mat spreads beyond the float, each way", LENGTH, mat_spread),
            number!("Carrier with outriggers, weight", HEAVY, carrier_mass),
            number!("Carrier's CG ahead of the slew axis", LENGTH, carrier_ahead),
            number!("Upper works without counterweight and boom, weight", HEAVY, upper_mass),
            number!("Upper works' CG behind the slew axis", LENGTH, upper_behind),
            number!("Counterweight's CG behind the slew axis", LENGTH, counterweight_behind),
            number!("Boom with head, weight", HEAVY, boom_mass),
            number!("Boom's CG from its pin, of the length out", SHARE, boom_cg),
            said!("Who said so", who),
            said!("Said when", when),
            said!("Said besides", note),
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
            text!("Outriggers out, as measured on site", outriggers),
            number!("Boom for the whole day", LENGTH, boom),
            number!("Slope that the crane stands on, as measured", SHARE, slope),
            number!("Wind expected, ten-minute mean 10 m up", SPEED, wind),
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
            number!("Most on one outrigger, maker's sheet", HEAVY, outrigger_load),
            number!("Outrigger pads, front to back, if not the crane's", LENGTH, base_length),
            number!("Outrigger pads, across, if not the crane's", LENGTH, base_width),
            number!("Weight of the crane rigged so", HEAVY, rigged),
            text!("Rated by structure or stability", rated_by),
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
            arc: Default::default(),
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

fn arc(load: &Load) -> Option<&RaiseArc> {
    match load {
        Load::RoofRaise { arc, .. } => Some(arc),
        _ => None,
    }
}

fn arc_mut(load: &mut Load) -> Option<&mut RaiseArc> {
    match load {
        Load::RoofRaise { arc, .. } => Some(arc),
        _ => None,
    }
}

/// A number of a roof raise's arc.
macro_rules! of_arc {
    ($head:expr, $bare:expr, $field:ident) => {
        number_if!(
            $head,
            $bare,
            |r: &Self| arc(&r.load).map(|arc| &arc.$field),
            |r: &mut Self| arc_mut(&mut r.load).map(|arc| &mut arc.$field)
        )
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
            of_arc!("Hinge across, from the side at y = 0", LENGTH, hinge_across),
            of_arc!("Hinge above the underside of the floor", LENGTH, hinge_up),
            of_arc!("Pull along the box, from the end at x = 0", LENGTH, pull_along),
            Column::new(
                "Panel reaches from its hinge to",
                Kind::Choice(|_| words(&["y = 0", "y = width"])),
                |r: &Self, _| arc(&r.load).map(|arc| if arc.toward_second { "y = width" } else { "y = 0" }.to_owned()),
                |r: &mut Self, text, _| {
                    if let Some(arc) = arc_mut(&mut r.load) {
                        arc.toward_second = text == "y = width";
                    }
                },
            ),
            of_arc!("CG square to the line hinge to pull, up", LENGTH, cg_square),
            of_arc!("Panel at the start, from the horizontal", ANGLE, from),
            of_arc!("Panel at the end, from the horizontal", ANGLE, to),
            of_arc!("Hook beside the plumb, at most", LENGTH, hook_off),
            of_arc!("Folded flap at its edge", MASS, flap),
            of_arc!("Flap laid over, from the horizontal", ANGLE, flap_to),
            Column::new(
                "Held back by",
                Kind::Text,
                |r: &Self, _| arc(&r.load).map(|arc| arc.restraint.clone()),
                |r: &mut Self, text, _| {
                    if let Some(arc) = arc_mut(&mut r.load) {
                        arc.restraint = text.trim().to_owned();
                    }
                },
            ),
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
            choice!("Swings", Swing, swing),
            number!("Largest face to the wind", AREA, wind_area),
            number!("Reading at the trial lift", MASS, reading),
            choice!("Kind of lift", Scope, scope),
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
            number!("Depth of the foundation's excavation", LENGTH, excavation_depth),
            number!("Dug out beyond the foundation by", LENGTH, overdig),
            choice!("Rules that hold here", Profile, rules),
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
            choice!("Made of", Soil, soil),
            number!("Depth of the excavation", LENGTH, depth),
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
            number!("Sags below that height by", LENGTH, sag),
            number!("Wind blows it out by", LENGTH, blow_out),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::json::{Json, Named};
    use crate::plan::sample;
    use serde_json::Value;
    use std::collections::BTreeSet;

    /// The scenario, with one of each kind of gear.
    fn plan() -> Plan {
        let mut plan = sample::plan();
        plan.gear.push(GearItem {
            id: "T1".into(),
            kind: GearKind::Adjuster,
            ..GearItem::default()
        });
        plan.assemblies.push(Assembly {
            id: "F1".into(),
            ..Assembly::default()
        });
        plan
    }

    fn text_for(kind: Kind, plan: &Plan) -> String {
        match kind {
            Kind::Text | Kind::Long => "abc".into(),
            Kind::Number(..) | Kind::Count => "7".into(),
            Kind::Check => "yes".into(),
            Kind::Choice(options) | Kind::Names(options) => {
                let options = options(plan);
                // the first is often none, or what a fresh row has
                let one = options.get(1).or(options.first());
                one.map(|(value, _)| value.to_string()).unwrap_or_default()
            }
        }
    }

    /// Names of what is still empty, as paths.
    fn blanks(value: &Value, path: &str, elsewhere: &[&str]) -> Vec<String> {
        match value {
            Value::String(text) if text.is_empty() => vec![path.to_owned()],
            Value::Null | Value::Bool(false) => vec![path.to_owned()],
            Value::Object(group) if group.contains_key("typed") => blanks(&group["typed"], path, elsewhere),
            Value::Object(group) => {
                let inner = group.iter().filter(|(name, _)| !elsewhere.contains(&name.as_str()));
                inner
                    .flat_map(|(name, value)| blanks(value, &format!("{path}.{name}"), elsewhere))
                    .collect()
            }
            Value::Array(list) => list.iter().flat_map(|value| blanks(value, path, elsewhere)).collect(),
            _ => Vec::new(),
        }
    }

    /// Types into every column, with one of them first and at one of its values; then no field of the file is blank or as it was, but for
    /// those that have a table of their own.
    fn all_typed<T: Described + Json + Named>(elsewhere: &[&str]) {
        let (plan, typing) = (plan(), Typing::default());
        let columns = T::columns();
        let choices = columns
            .iter()
            .enumerate()
            .flat_map(|(at, column)| match column.plain.kind {
                Kind::Choice(options) => options(&plan)
                    .iter()
                    .map(|(value, _)| (at, value.to_string()))
                    .collect(),
                _ => Vec::new(),
            });
        let fresh = T::default().write();
        let mut starts: Vec<Option<(usize, String)>> =
            choices.filter(|(_, value)| !value.is_empty()).map(Some).collect();
        starts.push(None);
        let mut changed = BTreeSet::new();
        for start in starts {
            let mut row = T::default();
            if let Some((at, value)) = &start {
                (columns[*at].set)(&mut row, value, typing);
            }
            for (at, column) in columns.iter().enumerate() {
                let first = start.as_ref().filter(|(first, _)| *first == at);
                let text = first.map_or_else(|| text_for(column.plain.kind, &plan), |(_, value)| value.clone());
                (column.set)(&mut row, &text, typing);
            }
            let typed = row.write();
            for name in T::NAMES.iter().filter(|name| !elsewhere.contains(name)) {
                let value = typed.get(*name).unwrap_or(&Value::Null);
                let blank = blanks(value, name, elsewhere);
                // a choice may be set to what is left out of the file
                let chosen = start.is_some() && typed.get(*name) == fresh.get(*name);
                assert!(
                    blank.is_empty() || chosen,
                    "{} {start:?}: nothing types {blank:?}",
                    T::ONE
                );
                if Some(value) != fresh.get(*name) {
                    changed.insert(*name);
                }
            }
        }
        for name in T::NAMES.iter().filter(|name| !elsewhere.contains(name)) {
            assert!(changed.contains(name), "{}: nothing types {name}", T::ONE);
        }
    }

    #[test]
    fn every_field_of_the_day_and_its_cost_can_be_typed() {
        use crate::plan::{AsLifted, Before, Break, Hire, Offer, Quick, Quoted, Rate, SetDay, StepTime, Truck};
        all_typed::<SetDay>(&["minutes", "breaks", "before", "trucks", "lifted"]);
        all_typed::<StepTime>(&[]);
        all_typed::<Break>(&[]);
        all_typed::<Before>(&[]);
        all_typed::<Truck>(&[]);
        all_typed::<AsLifted>(&[]);
        all_typed::<Hire>(&["rates", "offers", "quick", "quoted", "invoiced"]);
        all_typed::<Rate>(&[]);
        all_typed::<Offer>(&[]);
        all_typed::<Quick>(&[]);
        all_typed::<Quoted>(&[]);
    }

    #[test]
    fn every_field_of_the_plan_can_be_typed() {
        all_typed::<Project>(&[]);
        all_typed::<Limits>(&[]);
        all_typed::<HouseBox>(&["components", "ticket", "picks", "edges"]);
        all_typed::<Ticket>(&["weigh_points"]);
        all_typed::<Place3>(&[]);
        all_typed::<Opening>(&[]);
        all_typed::<BoxEdge>(&[]);
        all_typed::<Component>(&["openings"]);
        all_typed::<GearItem>(&["steel", "lug"]);
        all_typed::<BarSteel>(&[]);
        all_typed::<LugSteel>(&[]);
        all_typed::<Piece>(&[]);
        all_typed::<Leg>(&[]);
        all_typed::<HungPiece>(&["lugs"]);
        all_typed::<Rig>(&["pieces", "legs", "top", "bridles", "straps", "hung"]);
        all_typed::<Crane>(&["charts"]);
        all_typed::<SetUp>(&[]);
        all_typed::<Lift>(&[]);
        all_typed::<Point>(&[]);
        all_typed::<Site>(&[
            "foundation",
            "zones",
            "obstacles",
            "power_lines",
            "cables",
            "spots",
            "pads",
        ]);
        all_typed::<Zone>(&["outline"]);
        all_typed::<Obstacle>(&[]);
        all_typed::<PowerLine>(&[]);
        all_typed::<Cable>(&[]);
        all_typed::<PickSpot>(&[]);
        all_typed::<Pad>(&[]);
    }
}
