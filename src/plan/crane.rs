//! Cranes, and the one that is set up.

use super::{Id, Point};
use crate::crane::{RatingChart, Sheaves};
use crate::json::{fields, names};
use crate::quantity::{Angle, Entry, Force, Length, LinearDensity, Mass, Ratio, Said, Speed};

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
    /// Rope on the drum.
    pub rope_length: Entry<Length>,
    /// The most that one part of the hoist's line may pull.
    pub line_pull: Entry<Force>,
    /// What the sheaves of head and block run on.
    pub sheaves: Sheaves,
    /// Superstructure and cab reach this far ahead of the slew axis.
    pub body_ahead: Entry<Length>,
    /// And this far to either side of it.
    pub body_side: Entry<Length>,
    /// Their top above grade.
    pub body_top: Entry<Length>,
    /// Top of the outrigger beams above grade.
    pub outrigger_top: Entry<Length>,
    /// Middle of the outrigger pads ahead of the slew axis; blank: on it.
    pub base_ahead: Entry<Length>,
    /// Side of the crane's own square floats.
    pub float_side: Entry<Length>,
    /// Weight of one mat.
    pub mat_mass: Entry<Mass>,
    /// How far a mat spreads the load beyond the float, each way.
    pub mat_spread: Entry<Length>,
    /// Weight of the carrier with its outriggers.
    pub carrier_mass: Entry<Mass>,
    /// Its centre of gravity ahead of the slew axis.
    pub carrier_ahead: Entry<Length>,
    /// Weight of the upper works, without counterweight and boom.
    pub upper_mass: Entry<Mass>,
    /// Its centre of gravity behind the slew axis.
    pub upper_behind: Entry<Length>,
    /// The counterweight's centre of gravity behind the slew axis; its weight is the chart's.
    pub counterweight_behind: Entry<Length>,
    /// Weight of the boom with its head.
    pub boom_mass: Entry<Mass>,
    /// The boom's centre of gravity from its pin, as a share of the length that is out.
    pub boom_cg: Entry<Ratio>,
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
    /// Boom length for the whole day; blank: each lift its own.
    pub boom: Entry<Length>,
    /// How far the crane is out of level, as measured on site: a slope. Blank: not measured yet.
    pub slope: Entry<Ratio>,
    /// The wind that is expected: mean over ten minutes, 10 m up. Blank: not known.
    pub wind: Entry<Speed>,
}

fields! {
    Crane { id, name, pin_height, pin_back, boom_depth, block_mass, block_height, two_block, parts, rope, hanging_rope, stowed, tail_swing, base_length, base_width, mat, chart_wind, said, charts; rope_length, line_pull, sheaves, body_ahead, body_side, body_top, outrigger_top, base_ahead, float_side, mat_mass, mat_spread, carrier_mass, carrier_ahead, upper_mass, upper_behind, counterweight_behind, boom_mass, boom_cg }
    SetUp { crane, chart, at, heading; outriggers, boom, slope, wind }
}

names!(Sheaves { "not_said" => NotSaid, "anti_friction" => AntiFriction, "bronze" => Bronze, "plain" => Plain });
