//! Where the crane can stand: every place of a grid with every crane and chart of the plan, looked at in numbers ([`crate::reach`]); a place
//! where nothing stops a lift there is then worked out in full, heading by heading.

use super::crane_side::CraneSide;
use super::crane_side::{self, Hanging, demands};
use super::further::{ALL, Further};
use super::lifts::{booms_m, lifted_box, pick_targets, set_target, standing_boxes};
use super::{Assessment, Hangs, LiftResult, ground, hoist, raise, swing};
use crate::check::{Check, Outcome};
use crate::plan::{Id, Plan, Point, SetUp};
use crate::quantity::{Angle, Entry, Length, Ratio, Unit};
use crate::reach::{Block, Boomed, Stand, StandLift, Stop};
use core::f64::consts::TAU;
use std::rc::Rc;

/// How many headings of the carrier are tried at a place.
pub const HEADINGS: usize = 8;
/// Room round the site's outermost points, m.
const MARGIN_M: f64 = 6.0;

/// The places that are looked at: a grid whose first point is the lowest corner, row by row from south to north.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// The first point, east and north, m.
    pub low_m: [f64; 2],
    /// Between points, m.
    pub step_m: f64,
    /// Points from west to east and from south to north.
    pub count: [usize; 2],
}

impl Grid {
    /// Over all that the plan has on the site, on whole steps from the site's origin; `None` where nothing is placed.
    pub fn over(plan: &Plan, step_m: f64) -> Option<Self> {
        let site = &plan.site;
        let mut points: Vec<[f64; 2]> = site.foundation.iter().filter_map(Point::metres).collect();
        points.extend(
            site.zones
                .iter()
                .flat_map(|z| z.outline.iter().filter_map(Point::metres)),
        );
        points.extend(site.pads.iter().filter_map(|p| p.at.metres()));
        points.extend(site.spots.iter().filter_map(|s| s.at.metres()));
        points.extend(plan.set_up.at.metres());
        let first = *points.first()?;
        let (mut low, mut high) = (first, first);
        for p in &points {
            for i in 0..2 {
                low[i] = low[i].min(p[i]);
                high[i] = high[i].max(p[i]);
            }
        }
        let steps = |m: f64| (m / step_m).floor();
        let from = [0, 1].map(|i: usize| steps(low[i] - MARGIN_M));
        let to = [0, 1].map(|i: usize| steps(high[i] + MARGIN_M) + 1.0);
        Some(Self {
            low_m: from.map(|s| s * step_m),
            step_m,
            count: [0, 1].map(|i: usize| (to[i] - from[i]) as usize + 1),
        })
    }

    /// How many points there are.
    pub fn len(&self) -> usize {
        self.count[0] * self.count[1]
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// A point by its number, m.
    pub fn point_m(&self, number: usize) -> [f64; 2] {
        let (row, column) = (number / self.count[0], number % self.count[0]);
        [
            self.low_m[0] + column as f64 * self.step_m,
            self.low_m[1] + row as f64 * self.step_m,
        ]
    }
}

/// A crane with one of its charts.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// The crane's name in the plan.
    pub crane: Id,
    /// The chart's name in the crane.
    pub chart: String,
    /// Both in words.
    pub words: String,
}

/// What stops the crane at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// A check in numbers: see [`Stop`].
    Numbers(Stop),
    /// A check of the full evaluation, at every heading.
    Check(Check),
}

impl Limit {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Numbers(Stop::Chart) => "use of the chart",
            Self::Numbers(Stop::Reach) => "reach",
            Self::Numbers(Stop::Head) => "head height",
            Self::Numbers(Stop::Gap) => "boom to box",
            Self::Check(check) => check.title(),
        }
    }
}

/// What was found at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Found {
    /// Not within the limits at any heading: what stops it and which lift, by its place in the plan.
    Stopped(Limit, usize),
    /// The crane's checks are within the limits entered.
    Within {
        /// The first heading at which they are, from east anticlockwise, rad.
        heading_rad: f64,
        /// The largest use of the chart.
        use_of_chart: f64,
        /// How many lifts are held.
        held: usize,
    },
}

/// One configuration made ready.
#[derive(Debug)]
struct Ready {
    candidate: Candidate,
    /// The plan with it set up.
    plan: Plan,
    /// Or why no lift can be worked out with it.
    stand: Result<Stand, String>,
}

/// A search in slices.
#[derive(Debug)]
pub struct PlaceSearch {
    hangs: Hangs,
    /// The lifts, the heaviest first: it is the one that most often cannot be made.
    order: Vec<usize>,
    grid: Grid,
    ready: Vec<Ready>,
    found: Vec<Vec<Found>>,
    checks: u64,
}

impl PlaceSearch {
    /// Makes a search ready over the grid: every crane with every chart of the plan.
    pub fn new(plan: &Rc<Plan>, grid: Grid) -> Self {
        let hangs = Hangs::of(plan, ALL);
        let assessment = hangs.assessment();
        let candidates = plan.cranes.iter().flat_map(|crane| {
            crane.charts.iter().map(|chart| Candidate {
                crane: crane.id.clone(),
                chart: chart.id.clone(),
                words: format!("{}, {}", crane.id, chart.name),
            })
        });
        let ready: Vec<Ready> = candidates
            .map(|candidate| {
                let plan = with(plan, &candidate);
                Ready {
                    stand: stand(&plan, &assessment),
                    candidate,
                    plan,
                }
            })
            .collect();
        Self {
            found: ready.iter().map(|_| Vec::with_capacity(grid.len())).collect(),
            order: heaviest_first(&assessment),
            hangs,
            grid,
            ready,
            checks: 0,
        }
    }

    /// The grid.
    pub const fn grid(&self) -> Grid {
        self.grid
    }

    /// The configurations, and why one cannot be looked at.
    pub fn candidates(&self) -> impl Iterator<Item = (&Candidate, Option<&str>)> {
        self.ready
            .iter()
            .map(|r| (&r.candidate, r.stand.as_ref().err().map(String::as_str)))
    }

    /// What was found so far with a configuration, point by point in the grid's order.
    pub fn found(&self, candidate: usize) -> &[Found] {
        &self.found[candidate]
    }

    /// How many checks were made in numbers so far.
    pub const fn checks(&self) -> u64 {
        self.checks
    }

    /// Places looked at and places in all.
    pub fn progress(&self) -> (usize, usize) {
        let in_all = self.ready.iter().filter(|r| r.stand.is_ok()).count() * self.grid.len();
        (self.found.iter().map(Vec::len).sum(), in_all)
    }

    /// Looks at so many more places; `false` when none is left.
    pub fn go_on(&mut self, places: usize) -> bool {
        let all = self.grid.len();
        let mut left = places;
        for (ready, found) in self.ready.iter().zip(&mut self.found) {
            let Ok(stand) = &ready.stand else { continue };
            let until = all.min(found.len() + left);
            if found.len() == until {
                continue;
            }
            let mut crane = crane_side::resolve(&ready.plan);
            for number in found.len()..until {
                let at_m = self.grid.point_m(number);
                let point = stand.at(at_m);
                self.checks += u64::from(point.checks);
                found.push(match point.stop {
                    Some((lift, stop)) => Found::Stopped(Limit::Numbers(stop), lift),
                    None => in_full(&ready.plan, &self.hangs, &self.order, &mut crane, at_m),
                });
                left -= 1;
            }
            if left == 0 {
                break;
            }
        }
        let (looked, in_all) = self.progress();
        looked < in_all
    }
}

fn heaviest_first(assessment: &Assessment) -> Vec<usize> {
    let mut order: Vec<usize> = (0..assessment.lifts.len()).collect();
    let kg = |index: usize| assessment.lifts[index].load.planned_kg.unwrap_or(f64::INFINITY);
    crate::geometry::sort_short(&mut order, |a, b| kg(*b).total_cmp(&kg(*a)));
    order
}

/// The plan with a configuration set up.
fn with(plan: &Plan, candidate: &Candidate) -> Plan {
    Plan {
        set_up: SetUp {
            crane: candidate.crane.clone(),
            chart: Id(candidate.chart.clone()),
            ..plan.set_up.clone()
        },
        ..plan.clone()
    }
}

/// A plan with the crane set up at a place, as the search means it.
pub fn stood(plan: &Plan, candidate: &Candidate, [east_m, north_m]: [f64; 2], heading_rad: f64) -> Plan {
    let metres = |m: f64| Entry::typed(format!("{m} m"), Unit::M);
    let mut plan = with(plan, candidate);
    plan.set_up.at = Point {
        east: metres(east_m),
        north: metres(north_m),
    };
    plan.set_up.heading = Entry::typed(format!("{} deg", heading_rad.to_degrees()), Unit::Deg);
    plan
}

/// Headings that are tried, that of the plan first, rad.
fn headings_rad(plan: &Plan) -> impl Iterator<Item = f64> {
    let first = plan.set_up.heading.get().map_or(0.0, Angle::to_rad);
    (0..HEADINGS).map(move |i| first + TAU * i as f64 / HEADINGS as f64)
}

/// The further checks that belong to the crane.
const OF_CRANE: Further = Further {
    of_day: &[],
    of_hang: &[],
    of_place: &[
        swing::findings,
        ground::findings,
        hoist::findings,
        raise::placed_findings,
    ],
};

/// The evaluation at a place, heading by heading until the crane's checks are within; else what stops the first heading.
fn in_full(plan: &Plan, hangs: &Hangs, order: &[usize], crane: &mut CraneSide<'_>, at_m: [f64; 2]) -> Found {
    let mut first = None;
    for heading_rad in headings_rad(plan) {
        crane.move_to(plan, at_m, heading_rad);
        if let Some(stopped) = stopped(plan, hangs, order, crane) {
            first.get_or_insert(stopped);
            continue;
        }
        let lifts = (0..order.len()).map(|index| hangs.lift(plan, index, crane, ALL));
        let mut uses: f64 = 0.0;
        let mut held = 0;
        for lift in lifts {
            uses = uses.max(lift.use_of_chart.map_or(f64::INFINITY, Ratio::to_of));
            held += usize::from(matches!(lift.outcome, Outcome::Held { .. }));
        }
        return Found::Within {
            heading_rad,
            use_of_chart: uses,
            held,
        };
    }
    let (check, lift) = first.unwrap_or((Check::Chart, 0));
    Found::Stopped(Limit::Check(check), lift)
}

/// What stops the crane as it stands: the first lift in that order with a crane-side check that is not within.
fn stopped(plan: &Plan, hangs: &Hangs, order: &[usize], crane: &CraneSide<'_>) -> Option<(Check, usize)> {
    if let Some(finding) = crane.findings.iter().find(|f| f.outcome.gravity() > 1) {
        return Some((finding.check, *order.first()?));
    }
    order.iter().find_map(|&index| {
        let lift = hangs.lift(plan, index, crane, OF_CRANE);
        Some((gravest_of_crane(&lift)?, index))
    })
}

/// The gravest of a lift's crane-side checks, where it is not within.
fn gravest_of_crane(lift: &LiftResult) -> Option<Check> {
    let findings = lift.findings.iter().filter(|f| f.check.is_crane_side());
    let gravest = findings.max_by_key(|f| f.outcome.gravity())?;
    (gravest.outcome.gravity() > 1).then_some(gravest.check)
}

/// The first lift whose crane-side checks are not within, and the gravest of those.
pub fn crane_side_limit(assessment: &Assessment) -> Option<(Check, usize)> {
    let lifts = assessment.lifts.iter().enumerate();
    lifts
        .filter_map(|(index, lift)| Some((gravest_of_crane(lift)?, index)))
        .next()
}

/// The crane that is set up in the plan with its chart, made into numbers; the place where it stands plays no part.
fn stand(plan: &Plan, assessment: &Assessment) -> Result<Stand, String> {
    let crane = crane_side::resolve(plan);
    if let Some(finding) = crane
        .findings
        .iter()
        .find(|f| f.check == Check::Chart && f.outcome.gravity() > 1)
    {
        return Err(finding.sentence());
    }
    let mut booms: Vec<f64> = Vec::new();
    let mut lifts = Vec::with_capacity(plan.lifts.len());
    for (index, (lift, result)) in plan.lifts.iter().zip(&assessment.lifts).enumerate() {
        let house = lifted_box(plan, lift).and_then(|house| assessment.boxes.iter().find(|b| b.id == house.id));
        let cg_m = house.and_then(|house| house.cg_m);
        let hanging = Hanging {
            planned_kg: result.load.planned_kg,
            rigging_kg: result.load.rigging_kg,
            hook_above_m: result.rig.hook_above_m,
        };
        let of = |missing: String| format!("{}: {missing}", result.title);
        let end = |target: &crane_side::Target| crane.end(&plan.limits, target, hanging);
        let picks = pick_targets(plan, lift, cg_m).map_err(of)?;
        let place = |m: f64| booms.iter().position(|b| b.to_bits() == m.to_bits());
        let mut of_lift = Vec::new();
        let mut new = Vec::new();
        for m in booms_m(plan, lift, &crane).map_err(of)? {
            of_lift.push(place(m).unwrap_or_else(|| {
                new.push(m);
                booms.len() + new.len() - 1
            }));
        }
        booms.append(&mut new);
        lifts.push(StandLift {
            picks: picks.iter().map(|(_, target)| target.as_ref().map(end)).collect(),
            set: end(&set_target(plan, lift, cg_m).map_err(of)?),
            booms: of_lift,
            standing: standing_boxes(plan, index)
                .iter()
                .map(|b| b.block())
                .collect::<Vec<Block>>(),
        });
    }
    let boomed: Vec<Boomed> = booms.iter().map(|&m| crane.boomed(m)).collect();
    Ok(Stand {
        boomed,
        lifts,
        demands: demands(&plan.limits),
    })
}

/// What a search says of one configuration.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// How many places are within.
    pub places: usize,
    /// Their area, m²: each place stands for a square of the grid.
    pub area_m2: f64,
    /// How deep it is, m: twice the largest distance of a place within to one that is not, less a step, never below one step.
    pub depth_m: f64,
    /// The place with the least use of the chart: its number, heading and use.
    pub best: Option<(usize, f64, f64)>,
    /// Places by what stops them, most first.
    pub stops: Vec<(Limit, usize)>,
}

/// Sums up what was found over a grid.
pub fn patch(grid: &Grid, found: &[Found]) -> Patch {
    let mut best: Option<(usize, f64, f64)> = None;
    let mut stops: Vec<(Limit, usize)> = Vec::new();
    let mut places = 0;
    for (number, found) in found.iter().enumerate() {
        match *found {
            Found::Within {
                heading_rad,
                use_of_chart,
                ..
            } => {
                places += 1;
                if best.is_none_or(|(_, _, least)| use_of_chart < least) {
                    best = Some((number, heading_rad, use_of_chart));
                }
            }
            Found::Stopped(limit, _) => match stops.iter_mut().find(|(other, _)| *other == limit) {
                Some((_, count)) => *count += 1,
                None => stops.push((limit, 1)),
            },
        }
    }
    crate::geometry::sort_short(&mut stops, |a, b| b.1.cmp(&a.1));
    Patch {
        places,
        area_m2: places as f64 * grid.step_m * grid.step_m,
        depth_m: depth_steps(grid, found) as f64 * grid.step_m,
        best,
        stops,
    }
}

/// The side of the largest square of places within, in steps (largest square of ones, row by row).
fn depth_steps(grid: &Grid, found: &[Found]) -> usize {
    let mut before = vec![0_usize; grid.count[0] + 1];
    let mut deepest = 0;
    for row in found.chunks(grid.count[0]) {
        let mut now = vec![0_usize; grid.count[0] + 1];
        for (column, found) in row.iter().enumerate() {
            if matches!(found, Found::Within { .. }) {
                now[column + 1] = 1 + before[column].min(before[column + 1]).min(now[column]);
                deepest = deepest.max(now[column + 1]);
            }
        }
        before = now;
    }
    deepest
}

/// Where a crane stands that was taped from two known corners: both distances known, on the side of the line between them that is nearer the plan's
/// place.
///
/// # Errors
/// What was read and why there is no such place.
pub fn from_two_tapes(corners_m: [[f64; 2]; 2], tapes: [Length; 2], near_m: [f64; 2]) -> Result<[f64; 2], String> {
    let [a, b] = corners_m;
    let [ra, rb] = tapes.map(Length::to_m);
    let (east, north) = (b[0] - a[0], b[1] - a[1]);
    let apart = (east * east + north * north).sqrt();
    if apart <= 0.0 {
        return Err("both tapes are from the same corner: take two corners".into());
    }
    let along = (apart * apart + ra * ra - rb * rb) / (2.0 * apart);
    let square = ra * ra - along * along;
    if square < 0.0 {
        return Err(format!(
            "tapes of {ra:.2} m and {rb:.2} m do not meet over corners {apart:.2} m apart: measure again, or see whether the corners are the ones named"
        ));
    }
    let off = square.sqrt();
    let at = |side: f64| {
        [
            a[0] + (east * along - north * off * side) / apart,
            a[1] + (north * along + east * off * side) / apart,
        ]
    };
    let away = |p: [f64; 2]| crate::geometry::distance_m(p, near_m);
    let (left, right) = (at(1.0), at(-1.0));
    Ok(if away(left) <= away(right) { left } else { right })
}
