//! Cranes, and the one that is set up.

use super::{Id, Point};
use crate::crane::RatingChart;
use crate::json::fields;
use crate::quantity::{Angle, Entry, Length, LinearDensity, Mass, Said, Speed};

/// A mobile crane.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Crane {
    /// Short name.
    pub id: Id,
    /// Class and make-up.
    pub name: String,
    /// Boom pin above grade, crane set up.
    pub pin_height: Entry<Length>,
    /// Boom pin behind the slew axis.
    pub pin_back: Entry<Length>,
    /// Depth of the boom across its axis.
    pub boom_depth: Entry<Length>,
    /// Weight of the hook block.
    pub block_mass: Entry<Mass>,
    /// What hook and block are rated for. Blank: not known.
    pub block_rating: Entry<Mass>,
    /// Hook bearing to the top of the block.
    pub block_height: Entry<Length>,
    /// The block stays this far below the boom head.
    pub two_block: Entry<Length>,
    /// Parts of line.
    pub parts: u32,
    /// Weight of one part of hoist rope per length.
    pub rope: Entry<LinearDensity>,
    /// Hoist rope hanging below the head; blank: from the head to the block, computed.
    pub hanging_rope: Entry<Length>,
    /// Weight of what is stowed on the boom and taken off the chart.
    pub stowed: Entry<Mass>,
    /// Radius swept by the counterweight.
    pub tail_swing: Entry<Length>,
    /// Outrigger pads, distance front to back.
    pub base_length: Entry<Length>,
    /// Outrigger pads, distance across.
    pub base_width: Entry<Length>,
    /// Side of the square mats under the floats.
    pub mat: Entry<Length>,
    /// Wind speed up to which the chart holds.
    pub chart_wind: Entry<Speed>,
    /// Where the figures come from.
    pub said: Option<Said>,
    /// Its rating charts, one a configuration.
    pub charts: Vec<RatingChart>,
}

/// Which crane stands where.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SetUp {
    /// The crane.
    pub crane: Id,
    /// Its chart, by name, which is its configuration.
    pub chart: Id,
    /// Slew centre on the site.
    pub at: Point,
    /// Direction in which the carrier's front points, from east, anticlockwise.
    pub heading: Entry<Angle>,
    /// How far the outriggers are out, as somebody measured it on site: "100 %", "7.0 x 5.5 m". Blank: not measured yet.
    pub outriggers: String,
}

fields! {
    Crane { id, name, pin_height, pin_back, boom_depth, block_mass, block_height, two_block, parts, rope, hanging_rope, stowed, tail_swing, base_length, base_width, mat, chart_wind, said, charts; block_rating }
    SetUp { crane, chart, at, heading; outriggers }
}
