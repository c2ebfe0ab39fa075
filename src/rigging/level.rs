//! Which slings and links from the truck hang a load level: a search through the stock, and the lengths that would do where none does.
//!
//! Hand formulas throw out what cannot hang level; the general hang judges the rest.

use super::closed_form::{Across, GearMass, apex_m, tilt_under_bar_rad};
use super::hang::hang;
use super::hung::{Corner, HangingLoad, Hung, HungBody, Line, MemberKind, Run, SlingSetUp};
use super::rig::{CORNERS, Stretch, build};

/// Most legs beside the first that are combined in both of their nearest lengths.
const MOST_OTHERS: usize = 7;
/// Most links added to one leg.
const MOST_LINKS: u32 = 12;
/// Most shackles stacked in one leg.
const MOST_SHACKLES: u32 = 6;
/// Halvings in the search for an adjuster's setting: a thousandth of a millimetre in any travel.
const HALVINGS: usize = 24;
/// An adjuster is set to whole steps of this, m.
const SETTING_M: f64 = 0.001;
/// Set-ups of top legs, and of bridles, that the hand formulas pass on to the general hang.
const PASSED_ON: usize = 10;
/// Tilts within one of these steps count as the same, rad: 0.1°, less than a rigger's level shows (common practice, no source).
const SAME_TILT_RAD: f64 = 0.1 * core::f64::consts::PI / 180.0;
/// Places this near a line are on it, m: 50 mm over the length of a bar do not level a box across it.
const ONE_LINE_M: f64 = 0.05;
/// Hangs that mend the place over which the top of a rig is to be.
const SETTLINGS: usize = 3;
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

/// A kind of shackle: a stack of them lengthens a leg.
#[derive(Clone, Debug, PartialEq)]
pub struct StockShackle {
    /// Length that one adds, m.
    pub length_m: f64,
    /// Rating of one, N.
    pub rating_n: f64,
    /// How many are free.
    pub count: u32,
}

/// A kind of adjuster: it adds any length within its travel.
#[derive(Clone, Debug, PartialEq)]
pub struct StockAdjuster {
    /// Shortest length, m.
    pub shortest_m: f64,
    /// Longest length, m.
    pub longest_m: f64,
    /// Rating of one, N.
    pub rating_n: f64,
    /// How many are free; a leg takes one.
    pub count: u32,
}

/// What may be hung from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Slings.
    pub slings: Vec<StockSling>,
    /// Shorteners.
    pub shorteners: Vec<StockShortener>,
    /// Shackles to stack.
    pub shackles: Vec<StockShackle>,
    /// Adjusters.
    pub adjusters: Vec<StockAdjuster>,
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

/// One leg: a sling, and what is added to it; indices into the stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct ChosenLeg {
    /// The sling.
    pub sling: usize,
    /// What is added.
    pub added: Added,
}

/// What lengthens a leg; indices into the stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub enum Added {
    /// Nothing in the way.
    Nothing,
    /// A shortener and its links, one or more.
    Links(usize, u32),
    /// A stack of so many shackles.
    Shackles(usize, u32),
    /// An adjuster, set to so many millimetres from bearing to bearing.
    Adjuster(usize, u32),
}

impl Stock {
    /// Length that is added, m.
    fn added_m(&self, added: Added) -> f64 {
        match added {
            Added::Nothing => 0.0,
            Added::Links(kind, links) => f64::from(links) * self.shorteners[kind].link_m,
            Added::Shackles(kind, count) => f64::from(count) * self.shackles[kind].length_m,
            Added::Adjuster(_, set) => f64::from(set) * SETTING_M,
        }
    }

    /// Rating of what is added, N; no limit where nothing is.
    fn added_n(&self, added: Added) -> f64 {
        match added {
            Added::Nothing => f64::INFINITY,
            Added::Links(kind, _) => self.shorteners[kind].rating_n,
            Added::Shackles(kind, _) => self.shackles[kind].rating_n,
            Added::Adjuster(kind, _) => self.adjusters[kind].rating_n,
        }
    }
}

impl Added {
    /// How many pieces it is.
    const fn pieces(self) -> usize {
        match self {
            Self::Nothing => 0,
            Self::Links(..) | Self::Adjuster(..) => 1,
            Self::Shackles(_, count) => count as usize,
        }
    }
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
    /// Slings, shorteners, shackles and adjusters in it.
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
    /// Tilts along and across, rad, of the set-up that hangs nearest to level, as [`super::Level::tilt_rad`]; `None` where none hangs.
    pub nearest: Option<[f64; 2]>,
    /// The legs at the top stand over one line, 0 along the box or 1 across it: their lengths level it that way only.
    pub levels_only: Option<usize>,
    /// Set-ups looked at.
    pub tried: usize,
}

/// Searches the stock for set-ups that hang level, in the arrangement of `set_up`.
///
/// In the form with a bar and cross bars: top legs and bridle legs are chosen, both ends' bridles alike, something added in at most one leg of a
/// pair; bars and straps stay. In any other rig the legs that meet at the top are chosen ([`Fan`]), the rest stays. Every piece is used once, with one
/// kind of addition to a leg: links, a stack of shackles, or an adjuster, which is set to what is wanted.
///
/// # Errors
/// Why the lengths of this rig's legs cannot hang it level.
pub fn level_set_ups(
    load: &HangingLoad,
    set_up: &SlingSetUp,
    stock: &Stock,
    limits: &LevelLimits,
) -> Result<LevelSearch, String> {
    let options = options(stock);
    let mut search = LevelSearch::default();
    let candidates = match set_up {
        SlingSetUp::BarAndCrossBars { .. } => {
            search.ideal = ideal_on_bars_m(load, set_up);
            bar_candidates(load, set_up, stock, &options, limits, &mut search.tried)
        }
        SlingSetUp::FourLegs { .. } | SlingSetUp::Pieces { .. } => {
            let fan = fan(load, set_up)?.settled(load, set_up);
            search.ideal = fan.ideal_m(set_up);
            search.levels_only = fan.line;
            fan_candidates(stock, &fan, &options, &mut search.tried)
        }
    };
    let judged: Vec<FoundSetUp> = candidates
        .iter()
        .filter_map(|legs| judge(load, set_up, stock, legs, limits))
        .collect();
    search.nearest = judged
        .iter()
        .map(|found| [found.hung.along.tilt_rad, found.hung.across.tilt_rad])
        .min_by(|a, b| steeper(*a).total_cmp(&steeper(*b)));
    let mut found: Vec<FoundSetUp> = judged
        .into_iter()
        .filter(|found| found.steepest_rad() <= limits.level_rad)
        .collect();
    found.sort_by(|a, b| rank(a).partial_cmp(&rank(b)).unwrap_or(core::cmp::Ordering::Equal));
    let (best, refused) = found
        .into_iter()
        .partition::<Vec<_>, _>(|f| f.most_used.0 <= limits.gear_use && !f.too_flat);
    search.best = best.into_iter().take(BEST).collect();
    search.refused = refused.into_iter().take(BEST).collect();
    Ok(search)
}

fn steeper([along_rad, across_rad]: [f64; 2]) -> f64 {
    along_rad.abs().max(across_rad.abs())
}

/// Smaller is better.
fn rank(found: &FoundSetUp) -> (f64, f64, usize) {
    let steps = libm::floor(found.steepest_rad() / SAME_TILT_RAD);
    (steps, found.most_used.0, found.pieces)
}

/// Legs that meet at the top of a rig: at the hook, or at a block or link that alone hangs from it.
///
/// Below them everything counts as one stiff thing, as it is drawn level: it hangs level where the top is plumb over the centre of gravity of all of
/// it. What lies between legs and box may hang otherwise than drawn: the place is mended by the general hang of lengths for it ([`Fan::settled`]).
struct Fan {
    /// Each leg, and where its lower end is, m, box frame.
    legs: Vec<(MemberKind, [f64; 3])>,
    /// What the top is to be over, m.
    over_m: [f64; 2],
    /// Some lower end is a piece that may hang otherwise than drawn.
    on_pieces: bool,
    /// The lower ends lie over one line, 0 along the box or 1 across it: lengths move the top that way only.
    line: Option<usize>,
}

/// The legs of a rig whose lengths level it, or why there are none.
fn fan(load: &HangingLoad, set_up: &SlingSetUp) -> Result<Fan, String> {
    let (hung, legs): (&[HungBody], _) = match set_up {
        SlingSetUp::FourLegs { .. } => (&[], Vec::new()),
        SlingSetUp::Pieces { hung, legs } => (hung, legs.iter().map(|(_, runs)| &runs[..]).collect()),
        SlingSetUp::BarAndCrossBars { .. } => return Err("bars have a search of their own".into()),
    };
    if legs.is_empty() {
        let at_picks = CORNERS.iter().zip(load.four_picks_m());
        let legs = at_picks
            .map(|(corner, at_m)| (MemberKind::Leg(*corner), at_m))
            .collect();
        return Fan::over(legs, [load.cg_m[0], load.cg_m[1]], false);
    }
    let built = build(load, set_up, Stretch::None)?;
    let place_m = |run: Run| match run {
        Run::Pick(pick) => load.picks_m[pick],
        Run::Lug { piece, lug } => built.place_m(piece, lug),
        Run::Hook | Run::Edge(_) => built.rig.points[0].at_m,
    };
    let top = top_of(hung, &legs)?;
    let (mut fan, mut on_pieces) = (Vec::new(), false);
    for (index, runs) in legs.iter().enumerate() {
        match runs[..] {
            [a, b] if a == top || b == top => {
                let lower = if a == top { b } else { a };
                on_pieces |= !matches!(lower, Run::Pick(_));
                fan.push((MemberKind::Line(index), place_m(lower)));
            }
            _ if runs.contains(&top) => {
                return Err(format!(
                    "leg {} runs over the top or round an edge on its way: its length alone does not place the hook; change lengths and look at the tilt",
                    index + 1
                ));
            }
            _ => {}
        }
    }
    let above = |piece: usize| matches!(top, Run::Lug { piece: of, .. } if of == piece);
    let below = (0..hung.len()).filter(|piece| !above(*piece));
    let parts = below.map(|piece| (hung[piece].mass_kg, built.piece_cg_m(piece, &hung[piece])));
    let parts: Vec<(f64, [f64; 3])> = parts.chain([(load.mass_kg, load.cg_m)]).collect();
    let total_kg: f64 = parts.iter().map(|part| part.0).sum();
    let mean_m = |axis: usize| parts.iter().map(|(kg, at_m)| kg * at_m[axis]).sum::<f64>() / total_kg;
    Fan::over(fan, [mean_m(0), mean_m(1)], on_pieces)
}

/// Where the legs that level a rig meet: the hook, or below one leg a block or link.
fn top_of(hung: &[HungBody], legs: &[&[Run]]) -> Result<Run, String> {
    let mut top = Run::Hook;
    // each step goes down one piece
    for _ in 0..=hung.len() {
        let at_top = |runs: &&&[Run]| runs.contains(&top);
        let above = |run: Run| run == top || run == Run::Hook;
        let down: Vec<&&[Run]> = legs
            .iter()
            .filter(at_top)
            .filter(|runs| top == Run::Hook || !runs.contains(&Run::Hook))
            .collect();
        let [only] = down[..] else { return Ok(top) };
        let next = only.iter().copied().find(|run| !above(*run));
        match next {
            Some(Run::Lug { piece, .. }) if hung[piece].lugs_m.len() <= 1 => top = Run::Lug { piece, lug: 0 },
            _ => break,
        }
    }
    Err(
        "all of it hangs from one leg at the top: lengths of legs do not bring the hook over the centre of gravity; move the lug that the leg is in, or the load on its picks"
            .into(),
    )
}

impl Fan {
    fn over(legs: Vec<(MemberKind, [f64; 3])>, over_m: [f64; 2], on_pieces: bool) -> Result<Self, String> {
        let [first, .., last] = &legs[..] else {
            return Err("one leg at the top: its length does not change the level".into());
        };
        let (from_m, run_m) = (first.1, [last.1[0] - first.1[0], last.1[1] - first.1[1]]);
        let length_m = libm::hypot(run_m[0], run_m[1]);
        let off_m = |at_m: [f64; 2]| {
            ((at_m[0] - from_m[0]) * run_m[1] - (at_m[1] - from_m[1]) * run_m[0]) / length_m.max(ONE_LINE_M)
        };
        let in_line = legs
            .iter()
            .all(|(_, at_m)| off_m([at_m[0], at_m[1]]).abs() < ONE_LINE_M);
        if !in_line || length_m < ONE_LINE_M {
            return Ok(Self {
                legs,
                over_m,
                on_pieces,
                line: None,
            });
        }
        // nearest place of the line
        let off_m = off_m(over_m);
        let over_m = [
            over_m[0] - off_m * run_m[1] / length_m,
            over_m[1] + off_m * run_m[0] / length_m,
        ];
        Ok(Self {
            legs,
            over_m,
            on_pieces,
            line: Some(usize::from(run_m[1].abs() > run_m[0].abs())),
        })
    }

    /// The place that the top is to be over, mended by how the load hangs on the lengths for it: `e = H·tan(tilt)` is what it is still off.
    fn settled(mut self, load: &HangingLoad, set_up: &SlingSetUp) -> Self {
        for _ in 0..if self.on_pieces { SETTLINGS } else { 0 } {
            let ideal = self.ideal_m(set_up);
            let lengths_m = |index: usize, line: Line| {
                let own = ideal.iter().enumerate().find(|(place, (kind, _))| match kind {
                    MemberKind::Line(of) => *of == index,
                    _ => *place == index,
                });
                Line {
                    length_m: own.map_or(line.length_m, |(_, (_, length_m))| *length_m),
                    ..line
                }
            };
            let Ok(hung) = hang(load, &set_up.with_lines(lengths_m)) else {
                break;
            };
            for (axis, level) in [hung.along, hung.across].into_iter().enumerate() {
                if self.line.is_none_or(|line| line == axis) {
                    self.over_m[axis] += level.offset_m.unwrap_or(0.0);
                }
            }
        }
        self
    }

    fn out2_m2(&self, at_m: [f64; 3]) -> f64 {
        (0..2).map(|axis| sq(at_m[axis] - self.over_m[axis])).sum()
    }

    /// Height of the top plumb over the centre of gravity that a leg of this length allows, m, box frame.
    fn top_m(&self, at_m: [f64; 3], length_m: f64) -> Option<f64> {
        let rise2 = sq(length_m) - self.out2_m2(at_m);
        (rise2 > 0.0).then(|| at_m[2] + rise2.sqrt())
    }

    /// Length of a leg to the top at that height: `√(d² + H²)`.
    fn length_m(&self, at_m: [f64; 3], top_m: f64) -> f64 {
        (self.out2_m2(at_m) + sq(top_m - at_m[2])).sqrt()
    }

    /// Lengths that would hang level, as high as the present legs put the top on average; none where the present lengths do not close.
    fn ideal_m(&self, set_up: &SlingSetUp) -> Vec<(MemberKind, f64)> {
        let lines = set_up.lines();
        let present_m = |place: usize, kind: MemberKind| match kind {
            MemberKind::Line(index) => lines[index].length_m,
            _ => lines[place].length_m,
        };
        let heights: Option<Vec<f64>> = self
            .legs
            .iter()
            .enumerate()
            .map(|(place, (kind, at_m))| self.top_m(*at_m, present_m(place, *kind)))
            .collect();
        let Some(heights) = heights else { return Vec::new() };
        let top_m = heights.iter().sum::<f64>() / heights.len().max(1) as f64;
        self.legs
            .iter()
            .map(|(kind, at_m)| (*kind, self.length_m(*at_m, top_m)))
            .collect()
    }
}

/// A leg that the stock could give.
#[derive(Clone, Copy)]
struct LegOption {
    leg: ChosenLeg,
    /// Length; with an adjuster the shortest.
    length_m: f64,
    /// How much more an adjuster can give, m.
    more_m: f64,
}

impl LegOption {
    /// The same with its adjuster opened by so much, to whole settings.
    fn opened(self, stock: &Stock, by_m: f64) -> Self {
        let Added::Adjuster(kind, _) = self.leg.added else {
            return self;
        };
        let adjuster = &stock.adjusters[kind];
        let wanted = libm::round((adjuster.shortest_m + by_m) / SETTING_M);
        let most = libm::floor(adjuster.longest_m / SETTING_M + 1e-6);
        let least = libm::ceil(adjuster.shortest_m / SETTING_M - 1e-6);
        let set = wanted.min(most).max(least);
        let leg = ChosenLeg {
            added: Added::Adjuster(kind, set as u32),
            ..self.leg
        };
        Self {
            leg,
            length_m: self.length_m - adjuster.shortest_m + set * SETTING_M,
            more_m: 0.0,
        }
    }
}

fn options(stock: &Stock) -> Vec<LegOption> {
    let links = (0..stock.shorteners.len()).flat_map(|kind| (1..=MOST_LINKS).map(move |n| Added::Links(kind, n)));
    let shackles = stock.shackles.iter().enumerate();
    let stacks = shackles.flat_map(|(kind, shackle)| {
        (1..=MOST_SHACKLES.min(shackle.count)).map(move |count| Added::Shackles(kind, count))
    });
    let additions: Vec<Added> = core::iter::once(Added::Nothing).chain(links).chain(stacks).collect();
    let with = |sling: usize, added: Added| LegOption {
        leg: ChosenLeg { sling, added },
        length_m: stock.slings[sling].line.length_m + stock.added_m(added),
        more_m: 0.0,
    };
    let adjusted = |sling: usize, kind: usize| LegOption {
        leg: ChosenLeg {
            sling,
            added: Added::Adjuster(kind, 0),
        },
        length_m: stock.slings[sling].line.length_m + stock.adjusters[kind].shortest_m,
        more_m: stock.adjusters[kind].longest_m - stock.adjusters[kind].shortest_m,
    };
    (0..stock.slings.len())
        .flat_map(|sling| {
            let fixed = additions.iter().map(move |added| with(sling, *added));
            fixed.chain((0..stock.adjusters.len()).map(move |kind| adjusted(sling, kind)))
        })
        .collect()
}

/// Whether the truck has what the legs need.
fn on_truck(stock: &Stock, legs: &[ChosenLeg]) -> bool {
    let enough = |count: u32, needs: &dyn Fn(&ChosenLeg) -> u32| legs.iter().map(needs).sum::<u32>() <= count;
    let mut slings = stock.slings.iter().enumerate();
    let mut shorteners = stock.shorteners.iter().enumerate();
    let mut shackles = stock.shackles.iter().enumerate();
    let mut adjusters = stock.adjusters.iter().enumerate();
    slings.all(|(kind, sling)| enough(sling.count, &|leg| u32::from(leg.sling == kind)))
        && shorteners.all(|(kind, shortener)| {
            enough(shortener.count, &|leg| {
                u32::from(matches!(leg.added, Added::Links(k, _) if k == kind))
            })
        })
        && shackles.all(|(kind, shackle)| {
            enough(shackle.count, &|leg| match leg.added {
                Added::Shackles(k, count) if k == kind => count,
                _ => 0,
            })
        })
        && adjusters.all(|(kind, adjuster)| {
            enough(adjuster.count, &|leg| {
                u32::from(matches!(leg.added, Added::Adjuster(k, _) if k == kind))
            })
        })
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
    let [a, b, c, _] = load.four_picks_m();
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
        if first.leg.added != Added::Nothing && second.leg.added != Added::Nothing {
            continue;
        }
        *tried += 1;
        let tilt_of = |legs: [LegOption; 2]| {
            let (out_m, rise_m) = apex_m(legs[0].length_m, legs[1].length_m, span_m)?;
            tilt(out_m, rise_m).filter(|_| out_m > 0.0 && out_m < span_m)
        };
        let legs = opened_pair(stock, [*first, *second], &tilt_of);
        let needed: Vec<ChosenLeg> = legs.map(|option| option.leg).repeat(times);
        if let Some(tilt_rad) = tilt_of(legs)
            && tilt_rad.abs() <= 1.5 * limits.level_rad
            && on_truck(stock, &needed)
        {
            pairs.push(Pair { legs, tilt_rad });
        }
    }
    pairs.sort_by(|p, q| p.tilt_rad.abs().total_cmp(&q.tilt_rad.abs()));
    pairs.truncate(PASSED_ON);
    pairs
}

/// A pair with the adjuster in one of its legs, if there is one, set to hang level, or as near as its travel goes. Longer turns the tilt one way
/// only, so that halving finds it.
fn opened_pair(stock: &Stock, legs: [LegOption; 2], tilt_of: &dyn Fn([LegOption; 2]) -> Option<f64>) -> [LegOption; 2] {
    let Some(which) = legs.iter().position(|leg| leg.more_m > 0.0) else {
        return legs.map(|leg| leg.opened(stock, 0.0));
    };
    let at = |by_m: f64| {
        let mut opened = legs;
        opened[which].length_m += by_m;
        tilt_of(opened)
    };
    let (mut low_m, mut high_m) = (0.0, legs[which].more_m);
    let by_m = match (at(low_m), at(high_m)) {
        (Some(low), Some(high)) if low.signum() != high.signum() => {
            for _ in 0..HALVINGS {
                let middle_m = (low_m + high_m) / 2.0;
                if at(middle_m).is_some_and(|tilt| tilt.signum() == low.signum()) {
                    low_m = middle_m;
                } else {
                    high_m = middle_m;
                }
            }
            low_m
        }
        (Some(low), Some(high)) if high.abs() < low.abs() => high_m,
        (None, Some(_)) => high_m,
        _ => low_m,
    };
    let mut opened = legs;
    opened[which] = legs[which].opened(stock, by_m);
    opened
}

/// Legs whose lengths are nearest to those that put the top over the centre of gravity, for every length of the first leg: of each other leg the
/// two nearest, in all combinations.
fn fan_candidates(stock: &Stock, fan: &Fan, options: &[LegOption], tried: &mut usize) -> Vec<Legs> {
    let mut candidates: Vec<(f64, Legs)> = Vec::new();
    let Some(((_, first_m), others)) = fan.legs.split_first() else {
        return Vec::new();
    };
    let half_open = options.iter().map(|option| option.opened(stock, option.more_m / 2.0));
    for first in half_open {
        let Some(top_m) = fan.top_m(*first_m, first.length_m) else {
            continue;
        };
        let choices: Vec<_> = others
            .iter()
            .map(|(_, at_m)| nearest(stock, options, fan.length_m(*at_m, top_m)))
            .collect();
        for way in 0..1_usize << others.len().min(MOST_OTHERS) {
            *tried += 1;
            let chosen = choices.iter().enumerate().map(|(i, choice)| choice[way >> i & 1]);
            let Some(rest) = chosen.collect::<Option<Vec<_>>>() else {
                continue;
            };
            let miss_m: f64 = rest.iter().map(|(_, miss_m)| miss_m).sum();
            let chosen: Vec<ChosenLeg> = core::iter::once(first.leg)
                .chain(rest.iter().map(|(o, _)| o.leg))
                .collect();
            if on_truck(stock, &chosen) {
                let kinds = fan.legs.iter().map(|(kind, _)| *kind);
                candidates.push((miss_m, kinds.zip(chosen).collect()));
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

/// The two options nearest to a length, adjusters set to it, and how far each is off, m.
fn nearest(stock: &Stock, options: &[LegOption], length_m: f64) -> [Option<(LegOption, f64)>; 2] {
    let mut two = [None, None];
    for option in options {
        let option = option.opened(stock, (length_m - option.length_m).clamp(0.0, option.more_m));
        let miss_m = (option.length_m - length_m).abs();
        let closer = |held: &Option<(LegOption, f64)>| held.is_none_or(|(_, held_m)| miss_m < held_m);
        if closer(&two[0]) {
            two = [Some((option, miss_m)), two[0]];
        } else if closer(&two[1]) {
            two[1] = Some((option, miss_m));
        }
    }
    two
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
    let added: usize = legs.iter().map(|(_, leg)| leg.added.pieces()).sum();
    Some(FoundSetUp {
        legs: legs.clone(),
        hung,
        most_used,
        pieces: legs.len() + added,
        too_flat,
    })
}

/// The least of a leg's sling and what is added, N.
fn rating_n(stock: &Stock, leg: ChosenLeg) -> f64 {
    stock.slings[leg.sling].rating_n.min(stock.added_n(leg.added))
}

/// The set-up with some of its legs replaced.
fn with_legs(set_up: &SlingSetUp, stock: &Stock, chosen: &Legs) -> SlingSetUp {
    let mut next = set_up.clone();
    for (kind, leg) in chosen {
        let sling = &stock.slings[leg.sling].line;
        let line = Line {
            length_m: sling.length_m + stock.added_m(leg.added),
            ea_n: sling.ea_n,
        };
        match (&mut next, *kind) {
            (SlingSetUp::FourLegs { legs }, MemberKind::Leg(Corner { end, side })) => legs[2 * end + side] = line,
            (SlingSetUp::Pieces { legs, .. }, MemberKind::Line(i)) => legs[i].0 = line,
            (SlingSetUp::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => top[end] = line,
            (SlingSetUp::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => bridles[c.end][c.side] = line,
            _ => {}
        }
    }
    next
}

/// Lengths that would hang level, m: the apex over what it must be over, the longer top leg and the shorter bridle leg as they are. Empty where the
/// present lengths do not close.
///
/// Source: derived: `tilt_under_bar_rad` and `Across::roll_rad` set to nothing; right triangles.
fn ideal_on_bars_m(load: &HangingLoad, set_up: &SlingSetUp) -> Vec<(MemberKind, f64)> {
    let SlingSetUp::BarAndCrossBars {
        bar_kg,
        bar_lugs_m,
        top,
        cross_kg,
        cross_lugs_m,
        bridles,
        ..
    } = set_up
    else {
        return Vec::new();
    };
    let [a, b, c, _] = load.four_picks_m();
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

/// Two legs from the ends of a span to an apex beside its middle; `None` where they do not rise.
fn legs_to_apex_m(span_m: f64, apex_m: f64, rise2_m2: f64) -> Option<[f64; 2]> {
    let leg = |out_m: f64| (out_m * out_m + rise2_m2).sqrt();
    (rise2_m2 > 0.0 && span_m > 0.0).then(|| [leg(span_m / 2.0 + apex_m), leg(span_m / 2.0 - apex_m)])
}

fn sq(x: f64) -> f64 {
    x * x
}
