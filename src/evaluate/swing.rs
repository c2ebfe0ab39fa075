//! The way from pick to set: which way it swings, through which radii, and whether the load passes the crane itself.

use super::crane_side::CraneSide;
use super::further::PlacedLift;
use super::{EndResult, LiftResult};
use crate::check::{Check, Finding, Outcome, Working};
use crate::crane::{Body, RatingChart, Sector, around, turned_m};
use crate::geometry::{convex_hull, distance_m, polygon_distance_m};
use crate::plan::{Crane, Plan, Swing};
use crate::quantity::{Angle, Length, both};
use core::f64::consts::{FRAC_PI_2, PI, TAU};

/// Steps in which a load is turned square to the boom, and set from there.
const TURNS: usize = 12;
/// How far apart poses along the swing are looked at, rad.
const STEP_RAD: f64 = TAU / 72.0;

/// How the crane goes from pick to set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// Slew axis, east and north, m.
    pub at_m: [f64; 2],
    /// Slew at the start, from the carrier's front anticlockwise, rad.
    pub from_rad: f64,
    /// How far it swings, anticlockwise above 0, rad.
    pub sweep_rad: f64,
    /// The smallest and the largest radius on the way, m, without allowance; it changes only from the one to the other.
    pub radii_m: [f64; 2],
}

impl Path {
    /// Of a lift whose crane is placed; `None` where it has no end.
    pub fn of(plan: &Plan, crane: &CraneSide<'_>, lift: &LiftResult) -> Option<Self> {
        let at_m = crane.at_m?;
        let (first, last) = (lift.ends.first()?, lift.ends.last()?);
        let slew = |end: &EndResult| {
            let (east, north) = (end.hook_m[0] - at_m[0], end.hook_m[1] - at_m[1]);
            around(libm::atan2(north, east) - crane.heading_rad)
        };
        let (from_rad, to_rad) = (slew(first), slew(last));
        let way = plan.lifts.iter().find(|l| l.id == lift.id).map(|l| l.swing);
        Some(Self {
            at_m,
            from_rad,
            sweep_rad: sweep(from_rad, to_rad, way.unwrap_or_default()),
            radii_m: [first.radius_m.min(last.radius_m), first.radius_m.max(last.radius_m)],
        })
    }

    /// "132° anticlockwise".
    pub fn words(&self) -> String {
        let way = if self.sweep_rad < 0.0 {
            "clockwise"
        } else {
            "anticlockwise"
        };
        format!("{:.0}° {way}", self.sweep_rad.abs().to_degrees())
    }

    /// Slews on the way, with what part of it is behind, 0 to 1.
    pub fn steps(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let count = (self.sweep_rad.abs() / STEP_RAD).ceil().max(1.0);
        (0..=count as usize).map(move |i| {
            let part = i as f64 / count;
            (self.from_rad + part * self.sweep_rad, part)
        })
    }
}

/// From one slew to another by the way asked for, rad; above 0 anticlockwise.
fn sweep(from_rad: f64, to_rad: f64, way: Swing) -> f64 {
    let short = around(to_rad - from_rad);
    match way {
        Swing::Short => short,
        Swing::Anticlockwise if short < 0.0 => short + TAU,
        Swing::Clockwise if short > 0.0 => short - TAU,
        Swing::Anticlockwise | Swing::Clockwise => short,
    }
}

/// The chart that is set up.
pub fn chart_of(plan: &Plan) -> Option<&RatingChart> {
    let crane = plan.crane(&plan.set_up.crane)?;
    crane.charts.iter().find(|chart| chart.id == plan.set_up.chart.0)
}

/// Findings on the way from pick to set.
pub fn findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let Some(path) = Path::of(placed.plan, placed.crane, placed.lift) else {
        return Vec::new();
    };
    let mut findings = vec![way(placed.plan, &path)];
    findings.extend(placed.crane.crane.map(|crane| body(placed, crane, &path)));
    findings.extend(placed.lift.ends.iter().flat_map(|end| past_obstacles(placed, end)));
    findings
}

/// The swing itself, against the sector that the chart holds for.
fn way(plan: &Plan, path: &Path) -> Finding {
    let sector = chart_of(plan).and_then(|chart| Sector::of(&chart.configuration.sector));
    let subject = format!(
        "{}, radius {} to {}",
        path.words(),
        both(path.radii_m[0]),
        both(path.radii_m[1])
    );
    let (subject, outcome) = match &sector {
        Some(sector) if !sector.holds(path.from_rad, path.sweep_rad) => {
            let holds = chart_of(plan).map_or("", |chart| chart.configuration.sector.trim());
            let subject = format!(
                "{subject}: it leaves the sector \"{holds}\" that the chart holds for; turn the carrier, swing the other way round, or choose a chart for 360 deg"
            );
            (subject, Outcome::Outside)
        }
        // a sector without its width is held where the chart is read
        _ => (subject, Outcome::Within),
    };
    let degrees = |rad: f64| Angle::rad(rad);
    Finding::of(Check::Swing, subject, outcome).working([Working::new(
        "slew at the set, from the carrier's front anticlockwise",
        "φ₂",
        "φ₁ + Δφ",
        degrees(path.from_rad + path.sweep_rad),
        "bearings from the slew axis; the radius changes only from that at the pick to that at the set",
    )
    .input("φ₁", "slew at the pick", degrees(path.from_rad))
    .input("Δφ", "swing, anticlockwise", degrees(path.sweep_rad))])
}

/// The crane's own outline; what is not known is named.
fn body_of(crane: &Crane) -> Result<Body, &'static str> {
    let m = |entry: &crate::quantity::Entry<Length>| entry.not_negative().map(Length::to_m);
    Ok(Body {
        ahead_m: m(&crane.body_ahead).ok_or("how far superstructure and cab reach ahead of the slew axis")?,
        behind_m: m(&crane.tail_swing).ok_or("the tail swing")?,
        side_m: m(&crane.body_side).ok_or("how far superstructure and cab reach to the side")?,
        top_m: m(&crane.body_top).ok_or("the top of superstructure and cab above grade")?,
    })
}

/// How near the load comes to the crane itself, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Distance, m.
    pub gap_m: f64,
    /// At which slew, rad.
    pub slew_rad: f64,
    /// Of the outriggers, not of what turns.
    pub outriggers: bool,
}

/// The load against superstructure, cab, tail and outriggers: lifted as it lies, turned until its long side is square to the boom, swung so, turned back and set.
///
/// Parts that the load's underside is above, by the carry clearance, are passed over.
pub fn nearest_to_crane(placed: &PlacedLift<'_>, crane: &Crane, path: &Path) -> Result<Option<Nearest>, String> {
    let lift = placed.lift;
    let (Some(first), Some(last)) = (lift.ends.first(), lift.ends.last()) else {
        return Ok(None);
    };
    if first.outline_m.is_empty() || last.outline_m.is_empty() {
        return Ok(None);
    }
    let body = body_of(crane)?;
    let outriggers_top_m = crane
        .outrigger_top
        .not_negative()
        .ok_or("the top of the outrigger beams above grade")?
        .to_m();
    let clear_m = placed
        .plan
        .limits
        .carry_clearance
        .not_negative()
        .ok_or("the carry clearance in the limits")?
        .to_m();
    let stand: Vec<[f64; 2]> = placed.crane.mats_m.iter().flatten().copied().collect();
    let stand = convex_hull(&stand);
    let heading_rad = placed.crane.heading_rad;
    let mut nearest: Option<Nearest> = None;
    let mut look = |slew_rad: f64, radius_m: f64, corners_m: &[[f64; 2]], under_m: f64| {
        let mut take = |gap_m: Option<f64>, outriggers: bool| {
            if let Some(gap_m) = gap_m.filter(|gap| nearest.is_none_or(|n| *gap < n.gap_m)) {
                nearest = Some(Nearest {
                    gap_m,
                    slew_rad,
                    outriggers,
                });
            }
        };
        if under_m < body.top_m + clear_m {
            take(body.gap_m(radius_m, corners_m), false);
        }
        if under_m < outriggers_top_m {
            let turn = (libm::cos(slew_rad + heading_rad), libm::sin(slew_rad + heading_rad));
            let on_site = corners_m.iter().map(|c| {
                let turned = crate::geometry::rotate([c[0] + radius_m, c[1]], turn);
                crate::geometry::offset(path.at_m, turned)
            });
            let on_site: Vec<[f64; 2]> = on_site.collect();
            take(polygon_distance_m(&stand, &on_site), true);
        }
    };
    let carried_m = first.floor_m.max(last.floor_m) + clear_m;
    // the load's corners from its hook, in a frame that turns with the boom
    let ends = [(first, path.from_rad), (last, path.from_rad + path.sweep_rad)];
    let square: [(Vec<[f64; 2]>, f64); 2] = ends.map(|(end, slew_rad)| {
        let corners: Vec<[f64; 2]> = end
            .outline_m
            .iter()
            .map(|p| [p[0] - end.hook_m[0], p[1] - end.hook_m[1]])
            .collect();
        let in_boom = turned_m(&corners, -(slew_rad + heading_rad));
        let turn = to_square(&in_boom);
        (in_boom, turn)
    });
    for (i, (end, slew_rad)) in ends.iter().enumerate() {
        let (corners, turn) = &square[i];
        look(*slew_rad, end.radius_m, corners, end.floor_m);
        for step in 1..=TURNS {
            let turned = turned_m(corners, turn * step as f64 / TURNS as f64);
            look(*slew_rad, end.radius_m, &turned, end.floor_m.max(end.floor_m + clear_m));
        }
    }
    let carried: [Vec<[f64; 2]>; 2] = [0, 1].map(|i: usize| turned_m(&square[i].0, square[i].1));
    // swung at the smaller radius, which is the nearer one, as either end leaves it
    // what turns with the boom is as far from the load at every slew: only the outriggers are looked at again and again
    let slews = if carried_m < outriggers_top_m { usize::MAX } else { 1 };
    for (slew_rad, _) in path.steps().take(slews) {
        for corners in &carried {
            look(slew_rad, path.radii_m[0], corners, carried_m);
        }
    }
    Ok(nearest)
}

/// By how much to turn a load until its long side is square to the boom, the shorter way, rad.
fn to_square(corners_m: &[[f64; 2]]) -> f64 {
    let side = |i: usize| {
        let (a, b) = (corners_m[i], corners_m[(i + 1) % corners_m.len()]);
        ([b[0] - a[0], b[1] - a[1]], distance_m(a, b))
    };
    let (mut along, mut longest) = side(0);
    for (direction, length) in (1..corners_m.len()).map(side) {
        if length > longest {
            (along, longest) = (direction, length);
        }
    }
    let off = around(FRAC_PI_2 - libm::atan2(along[1], along[0]));
    if off > FRAC_PI_2 {
        off - PI
    } else if off < -FRAC_PI_2 {
        off + PI
    } else {
        off
    }
}

fn body(placed: &PlacedLift<'_>, crane: &Crane, path: &Path) -> Finding {
    let subject = "superstructure, cab, tail and outriggers, at every slew";
    let limit = placed.plan.limits.boom_gap.not_negative();
    let (nearest, limit) = match (nearest_to_crane(placed, crane, path), limit) {
        (Err(missing), _) => return Finding::not_checked(Check::CraneBody, subject, missing),
        (Ok(None), _) => {
            let subject = "nothing near: the load has no outline or is carried over the crane";
            return Finding::of(Check::CraneBody, subject, Outcome::Within);
        }
        (_, None) => {
            return Finding::not_checked(
                Check::CraneBody,
                subject,
                "the smallest gap is not entered in the limits",
            );
        }
        (Ok(Some(nearest)), Some(limit)) => (nearest, limit),
    };
    let of = if nearest.outriggers {
        "the outriggers"
    } else {
        "superstructure, cab or tail"
    };
    let gap = Length::m(nearest.gap_m);
    Finding::at_least(
        Check::CraneBody,
        format!("nearest to {of}, carried with its long side square to the boom"),
        limit.into(),
        gap.into(),
    )
    .working([Working::new(
        "smallest distance in plan",
        "g",
        "of the load's outline from the crane's, over the swing and while it is turned at either end",
        gap,
        "distance of two polygons; parts below the load by the carry clearance are passed over",
    )
    .input(
        "φ",
        "slew there, from the carrier's front",
        Angle::rad(nearest.slew_rad),
    )
    .input("R", "smallest radius", Length::m(path.radii_m[0]))])
}

/// The boom over trees and other things that stand up, at one end: each as a round of twelve corners about its reach, at its height.
fn past_obstacles(placed: &PlacedLift<'_>, end: &EndResult) -> Vec<Finding> {
    const CORNERS: usize = 12;
    let Some((at_m, boom)) = placed
        .crane
        .at_m
        .zip(placed.lift.boom_m.and_then(|m| placed.crane.boom(m)))
    else {
        return Vec::new();
    };
    // the corners' circle round the obstacle's
    let out = 1.0 / libm::cos(PI / CORNERS as f64);
    let toward = libm::atan2(end.hook_m[1] - at_m[1], end.hook_m[0] - at_m[0]);
    let turn = (libm::cos(toward), -libm::sin(toward));
    let obstacles = placed.plan.site.obstacles.iter();
    obstacles
        .filter_map(|thing| {
            let subject = format!("{}, past {}", end.end.words(), thing.name);
            let known = thing
                .at
                .metres()
                .zip(thing.radius.not_negative())
                .zip(thing.height.not_negative());
            let Some(((middle, radius), height)) = known else {
                let missing = format!("where {} stands, how wide and how high it is", thing.name);
                return Some(Finding::not_checked(Check::BoomGap, subject, missing));
            };
            // out of reach of the boom: nothing to say
            if distance_m(at_m, middle) - radius.to_m() > end.radius_m {
                return None;
            }
            let corners: Vec<[f64; 2]> = (0..CORNERS)
                .map(|i| {
                    let angle = TAU * i as f64 / CORNERS as f64;
                    let [x, y] = [libm::cos(angle), libm::sin(angle)].map(|c| c * radius.to_m() * out);
                    let p = [middle[0] + x - at_m[0], middle[1] + y - at_m[1]];
                    crate::geometry::rotate(p, turn)
                })
                .collect();
            let gap = Length::m(boom.gap_m(end.radius_m, &corners, height.to_m())?);
            Some(match placed.plan.limits.boom_gap.not_negative() {
                Some(limit) => {
                    Finding::at_least(Check::BoomGap, subject, limit.into(), gap.into()).working([Working::new(
                        "gap from the boom's underside",
                        "g",
                        "distance of the boom's axis from the top of the obstacle, less half the boom's depth",
                        gap,
                        "distance of two straight lines in space",
                    )
                    .input("h", "height of the obstacle", height)])
                }
                None => Finding::not_checked(Check::BoomGap, subject, "the smallest gap is not entered in the limits"),
            })
        })
        .collect()
}
