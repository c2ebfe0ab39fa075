//! A first size from five numbers: how heavy, how far out. For a quote, never for a lift.

use crate::quantity::{Area, AreaDensity, Length, Mass};

/// Added to the floor's weight for what the estimate leaves out (common practice, no source).
const ADDED: f64 = 1.1;
/// Bars, slings and hook block, kg: 0.8 to 2 t of rigging and half a tonne of block, taken as two (common practice, no source).
const BELOW_THE_HOOK_KG: f64 = 2000.0;
/// Width of a box where nothing is known but the size of the house, m: 13.5 ft, about what roads let pass under a permit (common practice, no source).
const BOX_WIDTH_M: f64 = 4.11;
/// Crane's centre in front of the foundation, m: a strip of 2 m without load and half a 90 t class's base with its mats (common practice, no source).
const CRANE_FROM_WALL_M: f64 = 6.5;
/// Middle of a carrier beyond the near edge of the road, m: half a lane of 3.2 m.
const CARRIER_IN_ROAD_M: f64 = 1.6;

/// The five numbers; the foundation's size is two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct QuickInput {
    /// How many boxes, at least one.
    pub boxes: u32,
    /// Floor area of all boxes together.
    pub floor: Area,
    /// Weight per floor area.
    pub per_area: AreaDensity,
    /// Foundation along the road.
    pub along: Length,
    /// Foundation away from the road.
    pub deep: Length,
    /// From the foundation to the near edge of the road.
    pub to_road: Length,
}

/// What follows from them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct QuickAnswer {
    /// Weight of a box, with what estimates leave out.
    pub house_box: Mass,
    /// Gross load on the hook.
    pub gross: Mass,
    /// Crane to the middle of the farthest box.
    pub set_radius: Length,
    /// Crane to the middle of a carrier in the near lane.
    pub pick_radius: Length,
    /// The larger of the two.
    pub radius: Length,
    /// The chart must say this much at that radius.
    pub needed: Mass,
}

/// `W = area per box · weight per area · 1.1 + 2 t`; `r` from a crane in front of the middle of the house to the farthest box and to the near lane;
/// needed `W / limit`, the limit being the share of the chart that may be used.
///
/// The farthest box lies along the road at the back: its middle is half a box in from the back and, lengthwise, half its length in from the end. The
/// method is common practice without a source.
pub fn quick_size(input: &QuickInput, limit: f64) -> Option<QuickAnswer> {
    let boxes = f64::from(input.boxes);
    let area_m2 = input.floor.to_m2() / boxes;
    let (along_m, deep_m, to_road_m) = (input.along.to_m(), input.deep.to_m(), input.to_road.to_m());
    let house_box = Mass::kg(area_m2 * input.per_area.to_kg_per_m2() * ADDED);
    let gross = house_box + Mass::kg(BELOW_THE_HOOK_KG);
    let length_m = (area_m2 / BOX_WIDTH_M).min(along_m);
    let beside_m = (along_m - length_m) / 2.0;
    let behind_m = (deep_m - BOX_WIDTH_M / 2.0).max(deep_m / 2.0);
    let set_radius = Length::m(libm::hypot(beside_m, CRANE_FROM_WALL_M + behind_m));
    // a road nearer than the crane stands: the carrier stops beside the crane, a box width and half a base away at least
    let pick_radius = Length::m((to_road_m + CARRIER_IN_ROAD_M - CRANE_FROM_WALL_M).max(CRANE_FROM_WALL_M));
    let radius = set_radius.max(pick_radius);
    let answer = QuickAnswer {
        house_box,
        gross,
        set_radius,
        pick_radius,
        radius,
        needed: gross / limit,
    };
    let sizes = [
        input.floor.to_m2(),
        input.per_area.to_kg_per_m2(),
        along_m,
        deep_m,
        limit,
    ];
    let known = sizes.iter().all(|x| *x > 0.0 && x.is_finite()) && input.boxes > 0 && to_road_m >= 0.0;
    (known && answer.needed.to_kg().is_finite() && radius.to_m().is_finite()).then_some(answer)
}
