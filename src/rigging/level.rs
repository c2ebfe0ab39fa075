//! Which slings and links from the truck hang a load level: a search through the stock, and the lengths that would do where none does.
//!
//! Hand formulas throw out what cannot hang level; the general hang judges the rest.

use super::closed_form::{Across, GearMass, apex_m, tilt_under_bar_rad};
use super::hang::hang;
use super::hung::{Corner, HangingLoad, Hung, Line, MemberKind, SlingSetUp};
use super::rig::CORNERS;

/// Most links added to one leg.
const MOST_LINKS: u32 = 12;
/// Set-ups of top legs, and of bridles, that the hand formulas pass on to the general hang.
const PASSED_ON: usize = 10;
/// Tilts within one of these steps count as the same, rad: 0.1°, less than a rigger's level shows (common practice, no source).
const SAME_TILT_RAD: f64 = 0.1 * core::f64::consts::PI / 180.0;
/// Set-ups reported.
const BEST: usize = 3;

/// A kind of sling on the truck.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSling {
    /// Length and stiffness.
    pub line: Line,
    /// Rating of one, straight pull, N.
    pub rating_n: f64,
    /// How many there are.
    pub count: u32,
}

/// A kind of shortener: whole links of it lengthen a leg.
#[derive(Clone, Debug, PartialEq)]
pub struct StockShortener {
    /// Length that one link adds, m.
    pub link_m: f64,
    /// Rating of one, N.
    pub rating_n: f64,
    /// How many there are; a leg takes one.
    pub count: u32,
}

/// What may be hung from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Slings.
    pub slings: Vec<StockSling>,
    /// Shorteners.
    pub shorteners: Vec<StockShortener>,
}

/// What a set-up is held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelLimits {
    /// Steepest tilt along or across, rad.
    pub level_rad: f64,
    /// Flattest leg, from the horizontal, rad.
    pub leg_angle_rad: f64,
    /// Largest share of a rating that may be used.
    pub gear_use: f64,
    /// Factor on tensions.
    pub dynamic_factor: f64,
}

/// One leg: a sling, and links of a shortener; indices into the stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct ChosenLeg {
    /// The sling.
    pub sling: usize,
    /// The shortener and its links, one or more; `None`: no shortener in the way.
    pub links: Option<(usize, u32)>,
}

/// A set-up from the stock, and how it hangs.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundSetUp {
    /// The legs that were chosen, with their place in the rig.
    pub legs: Vec<(MemberKind, ChosenLeg)>,
    /// How the load hangs on it.
    pub hung: Hung,
    /// The largest share of a rating that a chosen leg is used to, and which leg.
    pub most_used: (f64, MemberKind),
    /// Slings and shorteners in it.
    pub pieces: usize,
    /// The flattest leg's angle is under the limit.
    pub too_flat: bool,
}

impl FoundSetUp {
    /// The steeper of tilt and roll, rad.
    pub fn steepest_rad(&self) -> f64 {
        self.hung.along.tilt_rad.abs().max(self.hung.across.tilt_rad.abs())
    }
}

/// The answer of a search.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LevelSearch {
    /// Within the limits, best first: by tilt in steps of 0.1°, then by use, then by pieces.
    pub best: Vec<FoundSetUp>,
    /// Would hang level, but a leg is used beyond its rating's limit or is too flat; least tilt first.
    pub refused: Vec<FoundSetUp>,
    /// Lengths that would hang level, m, the rest of the rig as it is: from the apex over the centre of gravity.
    pub ideal: Vec<(MemberKind, f64)>,
    /// Set-ups looked at.
    pub tried: usize,
}

/// Searches the stock for set-ups that hang level, in the arrangement of `set_up`.
///
/// With a bar: top legs and bridle legs are chosen, both ends' bridles alike, links in at most one leg of a pair; bars and straps stay.
/// Four legs: all four are chosen. Every piece is used once.
pub fn level_set_ups(load: &HangingLoad, set_up: &SlingSetUp, stock: &Stock, limits: &LevelLimits) -> LevelSearch {
    let options = options(stock);
    let mut search = LevelSearch {
        ideal: ideal_legs_m(load, set_up),
        ..LevelSearch::default()
    };
    let candidates = match set_up {
        SlingSetUp::FourLegs { .. } => four_leg_candidates(load, stock, &options, &mut search.tried),
        SlingSetUp::BarAndCrossBars { .. } => bar_candidates(load, set_up, stock, &options, limits, &mut search.tried),
    };
    let mut found: Vec<FoundSetUp> = candidates
        .iter()
        .filter_map(|legs| judge(load, set_up, stock, legs, limits))
        .filter(|found| found.steepest_rad() <= limits.level_rad)
        .collect();
    found.sort_by(|a, b| rank(a).partial_cmp(&rank(b)).unwrap_or(core::cmp::Ordering::Equal));
    let (best, refused) = found
        .into_iter()
        .partition::<Vec<_>, _>(|f| f.most_used.0 <= limits.gear_use && !f.too_flat);
    search.best = best.into_iter().take(BEST).collect();
    search.refused = refused.into_iter().take(BEST).collect();
    search
}

/// Smaller is better.
fn rank(found: &FoundSetUp) -> (f64, f64, usize) {
    let steps = libm::floor(found.steepest_rad() / SAME_TILT_RAD);
    (steps, found.most_used.0, found.pieces)
}

/// A leg that the stock could give.
#[derive(Clone, Copy)]
struct LegOption {
    leg: ChosenLeg,
    length_m: f64,
}

fn options(stock: &Stock) -> Vec<LegOption> {
    let with_links = |sling: usize, length_m: f64| {
        let kinds = stock.shorteners.iter().enumerate();
        kinds.flat_map(move |(kind, shortener)| {
            (1..=MOST_LINKS).map(move |links| LegOption {
                leg: ChosenLeg {
                    sling,
                    links: Some((kind, links)),
                },
                length_m: length_m + f64::from(links) * shortener.link_m,
            })
        })
    };
    let slings = stock.slings.iter().enumerate();
    slings
        .flat_map(|(sling, kind)| {
            let plain = LegOption {
                leg: ChosenLeg { sling, links: None },
                length_m: kind.line.length_m,
            };
            core::iter::once(plain).chain(with_links(sling, kind.line.length_m))
        })
        .collect()
}

/// Whether the truck has what the legs need.
fn on_truck(stock: &Stock, legs: &[ChosenLeg]) -> bool {
    let slings = (0..stock.slings.len())
        .all(|kind| legs.iter().filter(|leg| leg.sling == kind).count() <= stock.slings[kind].count as usize);
    let uses = |leg: &&ChosenLeg, kind: usize| leg.links.is_some_and(|(k, _)| k == kind);
    slings
        && (0..stock.shorteners.len())
            .all(|kind| legs.iter().filter(|leg| uses(leg, kind)).count() <= stock.shorteners[kind].count as usize)
}

type Legs = Vec<(MemberKind, ChosenLeg)>;

/// A pair of legs that meet over a bar, and how far out of level the hand formula puts the load on it, rad.
struct Pair {
    legs: [LegOption; 2],
    tilt_rad: f64,
}

fn bar_candidates(
    load: &HangingLoad,
    set_up: &SlingSetUp,
    stock: &Stock,
    options: &[LegOption],
    limits: &LevelLimits,
    tried: &mut usize,
) -> Vec<Legs> {
    let SlingSetUp::BarAndCrossBars {
        bar_kg,
        bar_lugs_m,
        cross_kg,
        cross_lugs_m,
        ..
    } = set_up
    else {
        return Vec::new();
    };
    let [a, b, c, _] = load.picks_m;
    let h_m = load.cg_m[2] - load.picks_m.iter().map(|p| p[2]).sum::<f64>() / 4.0;
    let along = |x_m: f64, rise_m: f64| {
        let apex_m = x_m - bar_lugs_m / 2.0;
        let offset_m = load.cg_m[0] - (a[0] + c[0]) / 2.0 - apex_m;
        let hangs_at_lug = |mass_kg| GearMass {
            mass_kg,
            offset_m: -apex_m,
            depth_m: rise_m,
        };
        let gear = [hangs_at_lug(*bar_kg), hangs_at_lug(2.0 * cross_kg)];
        tilt_under_bar_rad(load.mass_kg, offset_m, rise_m, h_m, &gear)
    };
    let across = |y_m: f64, rise_m: f64| {
        let bars = Across {
            load_kg: load.mass_kg,
            bars_kg: 2.0 * cross_kg,
            cg_offset_m: load.cg_m[1] - (a[1] + b[1]) / 2.0,
            apex_offset_m: y_m - cross_lugs_m / 2.0,
            rise_m,
            cg_m: h_m,
            lugs_m: *cross_lugs_m,
            picks_m: b[1] - a[1],
        };
        bars.roll_rad()
    };
    let mut pairs = |span_m: f64, times: usize, tilt: &dyn Fn(f64, f64) -> Option<f64>| {
        level_pairs(stock, options, span_m, times, limits, tilt, tried)
    };
    let tops = pairs(*bar_lugs_m, 1, &along);
    let bridles = pairs(*cross_lugs_m, 2, &across);
    let all = tops
        .iter()
        .flat_map(|top| bridles.iter().map(move |bridle| bar_legs(top, bridle)));
    all.filter(|legs| on_truck(stock, &legs.iter().map(|(_, leg)| *leg).collect::<Vec<_>>()))
        .collect()
}

fn bar_legs(top: &Pair, bridle: &Pair) -> Legs {
    let tops = (0..2).map(|end| (MemberKind::Top { end }, top.legs[end].leg));
    let bridles = CORNERS.map(|corner| (MemberKind::Bridle(corner), bridle.legs[corner.side].leg));
    tops.chain(bridles).collect()
}

/// Pairs of legs over a span that the hand formula puts near level, the nearest first; `times` such pairs are needed.
fn level_pairs(
    stock: &Stock,
    options: &[LegOption],
    span_m: f64,
    times: usize,
    limits: &LevelLimits,
    tilt: &dyn Fn(f64, f64) -> Option<f64>,
    tried: &mut usize,
) -> Vec<Pair> {
    let mut pairs = Vec::new();
    for (first, second) in options
        .iter()
        .flat_map(|first| options.iter().map(move |second| (first, second)))
    {
        if first.leg.links.is_some() && second.leg.links.is_some() {
            continue;
        }
        *tried += 1;
        let needed: Vec<ChosenLeg> = [first.leg, second.leg].repeat(times);
        let Some((out_m, rise_m)) = apex_m(first.length_m, second.length_m, span_m) else {
            continue;
        };
        let between = out_m > 0.0 && out_m < span_m;
        if let Some(tilt_rad) = tilt(out_m, rise_m)
            && between
            && tilt_rad.abs() <= 1.5 * limits.level_rad
            && on_truck(stock, &needed)
        {
            pairs.push(Pair {
                legs: [*first, *second],
                tilt_rad,
            });
        }
    }
    pairs.sort_by(|p, q| p.tilt_rad.abs().total_cmp(&q.tilt_rad.abs()));
    pairs.truncate(PASSED_ON);
    pairs
}

/// Four legs whose lengths are nearest to those that put the hook over the centre of gravity, for every length of the first leg.
fn four_leg_candidates(load: &HangingLoad, stock: &Stock, options: &[LegOption], tried: &mut usize) -> Vec<Legs> {
    let mut candidates: Vec<(f64, Legs)> = Vec::new();
    for first in options {
        let Some(hook_z_m) = hook_over_cg_m(load, 0, first.length_m) else {
            continue;
        };
        let choices = [1, 2, 3].map(|pick| nearest(options, to_hook_m(load, pick, hook_z_m)));
        for way in 0..8_usize {
            *tried += 1;
            let chosen = [0, 1, 2].map(|i| choices[i][way >> i & 1]);
            let Some(rest) = chosen.into_iter().collect::<Option<Vec<_>>>() else {
                continue;
            };
            let miss_m: f64 = rest.iter().map(|(_, miss_m)| miss_m).sum();
            let legs: Vec<ChosenLeg> = core::iter::once(first.leg)
                .chain(rest.iter().map(|(o, _)| o.leg))
                .collect();
            if on_truck(stock, &legs) {
                candidates.push((miss_m, CORNERS.map(MemberKind::Leg).into_iter().zip(legs).collect()));
            }
        }
    }
    candidates.sort_by(|a, b| a.0.total_cmp(&b.0));
    candidates
        .into_iter()
        .take(PASSED_ON * PASSED_ON)
        .map(|(_, legs)| legs)
        .collect()
}

/// The two options nearest to a length, and how far each is off, m.
fn nearest(options: &[LegOption], length_m: f64) -> [Option<(LegOption, f64)>; 2] {
    let mut two = [None, None];
    for option in options {
        let miss_m = (option.length_m - length_m).abs();
        let closer = |held: &Option<(LegOption, f64)>| held.is_none_or(|(_, held_m)| miss_m < held_m);
        if closer(&two[0]) {
            two = [Some((*option, miss_m)), two[0]];
        } else if closer(&two[1]) {
            two[1] = Some((*option, miss_m));
        }
    }
    two
}

/// Height of a hook plumb over the centre of gravity that a leg of this length to a pick allows, m, box frame.
fn hook_over_cg_m(load: &HangingLoad, pick: usize, length_m: f64) -> Option<f64> {
    let rise2 = length_m * length_m - out2_m2(load, pick);
    (rise2 > 0.0).then(|| load.picks_m[pick][2] + rise2.sqrt())
}

/// Length from a pick to a hook plumb over the centre of gravity at that height: `√(d² + H²)`.
fn to_hook_m(load: &HangingLoad, pick: usize, hook_z_m: f64) -> f64 {
    let rise_m = hook_z_m - load.picks_m[pick][2];
    (out2_m2(load, pick) + rise_m * rise_m).sqrt()
}

fn out2_m2(load: &HangingLoad, pick: usize) -> f64 {
    let away = |axis: usize| load.picks_m[pick][axis] - load.cg_m[axis];
    away(0) * away(0) + away(1) * away(1)
}

/// Hangs a choice and holds it against the limits; `None` where it does not hang.
fn judge(
    load: &HangingLoad,
    set_up: &SlingSetUp,
    stock: &Stock,
    legs: &Legs,
    limits: &LevelLimits,
) -> Option<FoundSetUp> {
    let hung = hang(load, &with_legs(set_up, stock, legs)).ok()?;
    let mut most_used = (0.0, MemberKind::Top { end: 0 });
    let mut too_flat = false;
    for (kind, leg) in legs {
        let member = hung.members.iter().find(|member| member.kind == *kind)?;
        let used = member.tension_n * limits.dynamic_factor / rating_n(stock, *leg);
        if used > most_used.0 {
            most_used = (used, *kind);
        }
        too_flat |= member.angle_rad < limits.leg_angle_rad;
    }
    let shorteners = legs.iter().filter(|(_, leg)| leg.links.is_some()).count();
    Some(FoundSetUp {
        legs: legs.clone(),
        hung,
        most_used,
        pieces: legs.len() + shorteners,
        too_flat,
    })
}

/// The lesser of a leg's sling and its shortener, N.
fn rating_n(stock: &Stock, leg: ChosenLeg) -> f64 {
    let links_n = leg
        .links
        .map_or(f64::INFINITY, |(kind, _)| stock.shorteners[kind].rating_n);
    stock.slings[leg.sling].rating_n.min(links_n)
}

/// The set-up with some of its legs replaced.
fn with_legs(set_up: &SlingSetUp, stock: &Stock, chosen: &Legs) -> SlingSetUp {
    let mut next = set_up.clone();
    for (kind, leg) in chosen {
        let sling = &stock.slings[leg.sling].line;
        let links_m = leg
            .links
            .map_or(0.0, |(kind, links)| f64::from(links) * stock.shorteners[kind].link_m);
        let line = Line {
            length_m: sling.length_m + links_m,
            ea_n: sling.ea_n,
        };
        match (&mut next, *kind) {
            (SlingSetUp::FourLegs { legs }, MemberKind::Leg(Corner { end, side })) => legs[2 * end + side] = line,
            (SlingSetUp::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => top[end] = line,
            (SlingSetUp::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => bridles[c.end][c.side] = line,
            _ => {}
        }
    }
    next
}

/// Lengths that would hang level, m: the apex over what it must be over, the longer top leg and the shorter bridle leg as they are; four legs
/// to a hook plumb over the centre of gravity, as high as the present legs put it on average. Empty where the present lengths do not close.
///
/// Source: derived: `tilt_under_bar_rad` and `Across::roll_rad` set to nothing; right triangles.
fn ideal_legs_m(load: &HangingLoad, set_up: &SlingSetUp) -> Vec<(MemberKind, f64)> {
    match set_up {
        SlingSetUp::FourLegs { legs } => {
            let heights: Option<Vec<f64>> = (0..4).map(|i| hook_over_cg_m(load, i, legs[i].length_m)).collect();
            let Some(heights) = heights else {
                return Vec::new();
            };
            let hook_z_m = heights.iter().sum::<f64>() / 4.0;
            let ideal = |i: usize| (MemberKind::Leg(CORNERS[i]), to_hook_m(load, i, hook_z_m));
            (0..4).map(ideal).collect()
        }
        SlingSetUp::BarAndCrossBars {
            bar_kg,
            bar_lugs_m,
            top,
            cross_kg,
            cross_lugs_m,
            bridles,
            ..
        } => {
            let [a, b, c, _] = load.picks_m;
            let hung_kg = load.mass_kg + bar_kg + 2.0 * cross_kg;
            let apex_m = load.mass_kg * (load.cg_m[0] - (a[0] + c[0]) / 2.0) / hung_kg;
            let longer_m = top[0].length_m.max(top[1].length_m);
            let rise2 = longer_m * longer_m - sq(bar_lugs_m / 2.0 + apex_m.abs());
            let tops = legs_to_apex_m(*bar_lugs_m, apex_m, rise2)
                .into_iter()
                .flat_map(|legs| [0, 1].map(|end| (MemberKind::Top { end }, legs[end])));
            let across_m = load.mass_kg * (load.cg_m[1] - (a[1] + b[1]) / 2.0) * cross_lugs_m
                / ((load.mass_kg + 2.0 * cross_kg) * (b[1] - a[1]));
            let bridle_legs = bridles.iter().flatten();
            let shorter_m = bridle_legs.map(|leg| leg.length_m).fold(f64::INFINITY, f64::min);
            let rise2 = shorter_m * shorter_m - sq(cross_lugs_m / 2.0 - across_m.abs());
            let bridles = legs_to_apex_m(*cross_lugs_m, across_m, rise2)
                .into_iter()
                .flat_map(|legs| CORNERS.map(|corner| (MemberKind::Bridle(corner), legs[corner.side])));
            tops.chain(bridles).collect()
        }
    }
}

/// Two legs from the ends of a span to an apex beside its middle; `None` where they do not rise.
fn legs_to_apex_m(span_m: f64, apex_m: f64, rise2_m2: f64) -> Option<[f64; 2]> {
    let leg = |out_m: f64| (out_m * out_m + rise2_m2).sqrt();
    (rise2_m2 > 0.0 && span_m > 0.0).then(|| [leg(span_m / 2.0 + apex_m), leg(span_m / 2.0 - apex_m)])
}

fn sq(x: f64) -> f64 {
    x * x
}
