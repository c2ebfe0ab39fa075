//! The gear on the truck and the rigs made from it.

use super::{Id, Place3};
use crate::gear::bar::DesignCategory;
use crate::gear::capacity::Hitch;
use crate::json::{choice, fields, names};
use crate::quantity::{Angle, Area, Entry, Length, Mass, Pressure, SecondMoment};
use crate::rigging::Construction;

/// One kind of piece on the truck.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GearItem {
    /// Tag name.
    pub id: Id,
    /// What it is.
    pub name: String,
    /// What part it plays.
    pub kind: GearKind,
    /// How many are on the truck.
    pub quantity: u32,
    /// The tag's rating: slings in the vertical hitch, bars as the load hung below. Blank: no rating known.
    pub rating: Entry<Mass>,
    /// How many legs that rating is for: 0 or 1, one leg; more, the set.
    pub legs: u32,
    /// Of a set or a bar: the flattest angle of its legs, from the horizontal, that the rating holds for.
    pub rated_angle: Entry<Angle>,
    /// Of a bar or a frame: the span that its rating holds for.
    pub rated_span: Entry<Length>,
    /// The tag's rating as a choker. Blank: by the table of its material.
    pub choker: Entry<Mass>,
    /// The tag's rating as a basket with plumb parts. Blank: twice the vertical rating.
    pub basket: Entry<Mass>,
    /// Breaking load, for rules that reckon with it.
    pub breaking: Entry<Mass>,
    /// Own weight of one.
    pub mass: Entry<Mass>,
    /// Sling or strap: length, bearing to bearing. Bar: distance between its end lugs. Shortener: its link pitch. Shackle: what one more in a
    /// leg adds, bearing to bearing. Adjuster: its shortest length.
    pub length: Entry<Length>,
    /// Adjuster: its longest length, bearing to bearing.
    pub longest: Entry<Length>,
    /// What it is made of, which sets how it stretches.
    pub construction: Construction,
    /// Diameter of the rope, or of the bar that a chain's links are made of. Webs need none.
    pub diameter: Entry<Length>,
    /// Core, grade or class: "steel core", "grade 100".
    pub grade: String,
    /// The tag can be read.
    pub tag_legible: bool,
    /// The day it was last inspected by somebody who may, as year-month-day.
    pub inspected: String,
    /// What a bar is made of, to check it by its steel.
    pub steel: Option<BarSteel>,
    /// The lugs of a bar, to check them by their steel.
    pub lug: Option<LugSteel>,
    /// What else to know.
    pub note: String,
}

/// What part a piece plays under the hook.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum GearKind {
    /// Wire rope, chain or web with ends.
    Sling,
    /// Flat strap from a bar to a pick.
    Strap,
    /// Bar or frame.
    Bar,
    /// Adds or takes links in a leg.
    Shortener,
    /// Adds any length within its travel to a leg: a turnbuckle, a screw or lever adjuster.
    Adjuster,
    /// Joins pieces; a stack of them lengthens a leg.
    Shackle,
    /// Master link or ring that legs meet in.
    Link,
    /// A sheave that a sling runs over.
    Block,
    /// Screwed into the box or a bar.
    EyeBolt,
    /// Takes hold of the box.
    Pin,
    /// Saves strap and box at an edge; carries nothing.
    Softener,
    /// Steadies the load; carries nothing.
    TagLine,
    /// Anything else that hangs on the hook.
    #[default]
    Other,
}

impl GearKind {
    /// Whether it carries nothing: it needs neither rating nor tag.
    pub const fn is_idle(self) -> bool {
        matches!(self, Self::Softener | Self::TagLine)
    }
}

/// A bar by its steel. Only closed sections can be checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BarSteel {
    /// Its form.
    pub form: BarForm,
    /// Pipe or tube: outside diameter or side. Given by figures: its depth.
    pub outside: Entry<Length>,
    /// Pipe or tube: thickness of its wall.
    pub wall: Entry<Length>,
    /// Given by figures: area.
    pub area: Entry<Area>,
    /// Given by figures: second moment for bending up and down.
    pub second_moment: Entry<SecondMoment>,
    /// Given by figures: smallest radius of gyration.
    pub radius: Entry<Length>,
    /// Yield strength.
    pub strength: Entry<Pressure>,
    /// How it is used.
    pub category: DesignCategory,
    /// Upper lugs: hole above the axis of the bar.
    pub lug_above: Entry<Length>,
    /// Lower lugs: hole below the axis of the bar.
    pub lug_below: Entry<Length>,
}

/// Form of a bar's section.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BarForm {
    /// Round pipe.
    #[default]
    Pipe,
    /// Square tube.
    SquareTube,
    /// Another closed section, by its figures.
    Closed,
}

/// A lug of a bar with its pin, by its steel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LugSteel {
    /// Thickness of the plate.
    pub thickness: Entry<Length>,
    /// Diameter of the hole.
    pub hole: Entry<Length>,
    /// Diameter of the pin in it.
    pub pin: Entry<Length>,
    /// Edge of the hole to the edge of the plate, along the pull.
    pub end: Entry<Length>,
    /// The same square to the pull.
    pub side: Entry<Length>,
    /// Yield strength of plate and pin.
    pub strength: Entry<Pressure>,
    /// Ultimate strength of the plate.
    pub ultimate: Entry<Pressure>,
}

/// So many of one piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Piece {
    /// Which.
    pub gear: Id,
    /// How many.
    pub count: u32,
}

/// One leg: a sling and what is added to it: whole links of a shortener, a stack of shackles, an adjuster.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Leg {
    /// The sling.
    pub sling: Id,
    /// The shortener that the links belong to; unnamed when there are none.
    pub shortener: Id,
    /// Links added; 0 means no shortener in the way.
    pub links: u32,
    /// The shackle that the stack is made of; unnamed when there is none.
    pub shackle: Id,
    /// Shackles added, beyond those at the ends that belong to the picks and lugs.
    pub shackles: u32,
    /// The adjuster in it; unnamed when there is none.
    pub adjuster: Id,
    /// Length that the adjuster is set to, bearing to bearing.
    pub set_to: Entry<Length>,
    /// Where it runs, piece by piece from one end to the other: "hook > K1.1", "pick 1 > B1 > pick 2", "hook > eave 1 > pick 3". Only a rig that is
    /// entered piece by piece reads it.
    pub runs: String,
    /// The piece that joins its upper end (where it runs from): a shackle, a link; unnamed: the sling itself takes hold.
    pub above: Id,
    /// That piece takes every leg that ends there.
    pub above_takes_all: bool,
    /// The piece that joins its lower end (where it runs to): a shackle, a pin, an eye bolt; unnamed: the sling itself takes hold.
    pub below: Id,
    /// How the sling takes hold.
    pub hitch: Hitch,
    /// Choker: angle between its two parts at the choke. Basket: angle of its parts from the horizontal.
    pub hitch_angle: Entry<Angle>,
    /// Diameter of what it bends over in a basket, or sharper than its own eye.
    pub bends_over: Entry<Length>,
    /// How far off their own line its shackles are pulled. Blank: in line.
    pub side_load: Entry<Angle>,
}

/// A piece between hook and box: a bar, a frame, a lifting beam, or a block.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HungPiece {
    /// What the legs of this rig call it: "K1".
    pub id: Id,
    /// The piece of gear, for its weight and rating.
    pub gear: Id,
    /// Its centre of gravity, in the frame of its lugs. Blank: the middle of its lugs.
    pub cg: Place3,
    /// Its lugs as it hangs level, from any one origin: x along the box, y across it, z up. None: it is a point, such as a block.
    pub lugs: Vec<Place3>,
}

/// How a load hangs, and all that hangs on the hook with it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rig {
    /// Short name.
    pub id: Id,
    /// What it is for.
    pub name: String,
    /// How the slings run.
    pub arrangement: Arrangement,
    /// Every piece whose weight hangs on the hook.
    pub pieces: Vec<Piece>,
    /// The link between the hook and all legs; unnamed: they hang on the hook itself.
    pub link: Id,
}

/// How the slings run from hook to load.
#[derive(Clone, Debug, PartialEq)]
#[allow(
    clippy::large_enum_variant,
    reason = "a plan holds few of them, boxing would only blur the document"
)]
pub enum Arrangement {
    /// Four legs straight from the hook to the four picks, in the order of the box's picks.
    FourLegs {
        /// One leg to each pick.
        legs: [Leg; 4],
    },
    /// A bar hung on two top legs; from each end a two-leg bridle to a cross bar; from the ends of the cross bars straps plumb to the picks.
    BarAndCrossBars {
        /// The bar along the box.
        bar: Id,
        /// Distance between the lugs of the bar that are used.
        bar_lugs: Entry<Length>,
        /// Top legs to the first end and to the second end of the box.
        top: [Leg; 2],
        /// The two cross bars, alike.
        cross_bar: Id,
        /// Distance between the lugs of a cross bar.
        cross_lugs: Entry<Length>,
        /// Bridle legs at the first and the second end, each to the first and to the second side.
        bridles: [[Leg; 2]; 2],
        /// Straps at the first and the second end, each on the first and on the second side.
        straps: [[Leg; 2]; 2],
    },
    /// Entered piece by piece: the pieces between hook and box, and every leg with where it runs. Any number of picks.
    PieceByPiece {
        /// Bars, frames, beams and blocks.
        hung: Vec<HungPiece>,
        /// Every leg.
        legs: Vec<Leg>,
    },
    /// Not modelled leg by leg: only how high the hook is above the load.
    Simple {
        /// Hook above the underside of the load as it is lifted.
        hook_above: Entry<Length>,
    },
}

impl Default for Arrangement {
    fn default() -> Self {
        Self::Simple {
            hook_above: Entry::default(),
        }
    }
}

fields! {
    GearItem { id, name, kind, quantity, rating, mass, length, tag_legible, note; construction, diameter, longest, legs, rated_angle, rated_span, choker, basket, breaking, grade, inspected, steel, lug }
    BarSteel { form, outside, wall, area, second_moment, radius, strength, category, lug_above, lug_below }
    LugSteel { thickness, hole, pin, end, side, strength, ultimate }
    Piece { gear, count }
    Leg { sling, shortener, links; shackle, shackles, adjuster, set_to, runs, above, above_takes_all, below, hitch, hitch_angle, bends_over, side_load }
    HungPiece { id, gear, lugs; cg }
    Rig { id, name, arrangement, pieces; link }
}

choice!(Arrangement {
    "four_legs" => FourLegs { legs },
    "bar_and_cross_bars" => BarAndCrossBars { bar, bar_lugs, top, cross_bar, cross_lugs, bridles, straps },
    "piece_by_piece" => PieceByPiece { hung, legs },
    "simple" => Simple { hook_above },
});

names!(GearKind {
    "sling" => Sling, "strap" => Strap, "bar" => Bar, "shortener" => Shortener, "adjuster" => Adjuster, "shackle" => Shackle, "link" => Link, "block" => Block, "eye_bolt" => EyeBolt, "pin" => Pin, "softener" => Softener, "tag_line" => TagLine,
    "other" => Other,
});

names!(BarForm { "pipe" => Pipe, "square_tube" => SquareTube, "closed" => Closed });
