//! Which slings and links on the truck hang a lift's box level, in the plan's terms: legs to put into its rig.

use super::load_path::rating_kg;
use super::member_name;
use super::ready::{Ready, ready};
use super::rigs::{dynamic_factor, ea_n, level_limit, named_pieces, times_in_legs};
use crate::plan::{Arrangement, GearItem, GearKind, HouseBox, Id, Leg, Piece, Plan, Rig};
use crate::quantity::{Angle, Entry, Length, Mass, Ratio, Safe, Unit, UnitSystem, feet_inches, show};
use crate::rigging::{
    self, Added, ChosenLeg, FoundSetUp, HangingLoad, LevelLimits, LevelSearch, Line, MemberKind, Stock, StockAdjuster,
    StockShackle, StockShortener, StockSling,
};
use serde::Serialize;

/// Set-ups that hang level, or what would.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelAnswer {
    /// Within the limits, the best first, three at most.
    pub set_ups: Vec<LevelSetUp>,
    /// Level, but refused for the reason that stands in each.
    pub refused: Vec<LevelSetUp>,
    /// Lengths that would hang level, the rest of the rig as it is.
    pub ideal: Vec<IdealLeg>,
    /// What came out, in a sentence; what would make it level where nothing does.
    pub words: String,
    /// Combinations looked at.
    pub tried: usize,
}

/// One set-up from the truck.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelSetUp {
    /// To put into the rig.
    pub arrangement: Arrangement,
    /// The rig's pieces with the new legs counted.
    pub pieces: Vec<Piece>,
    /// "top leg, west end: G03 + 2 links of G05; …".
    pub words: String,
    /// Tilt along; above 0 the second end hangs lower.
    pub along: Angle,
    /// Tilt across; above 0 the second side hangs lower.
    pub across: Angle,
    /// Hook above the underside of the floor.
    pub hook_above: Length,
    /// The most used leg, and the share of its rating.
    pub most_used: (String, Ratio),
    /// Slings, shorteners, shackles and adjusters in it.
    pub piece_count: usize,
    /// Why it is refused.
    pub refused: Option<String>,
}

/// A length that would do.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct IdealLeg {
    /// Which.
    pub kind: MemberKind,
    /// Its name.
    pub name: String,
    /// How long it would have to be.
    pub length: Length,
}

/// Set-ups from the truck's gear that hang the lift's box level at its nominal centre of gravity, in the arrangement of its rig.
///
/// # Errors
/// What is missing, in words.
pub fn level_set_ups(plan: &Plan, lift_index: usize) -> Result<LevelAnswer, String> {
    let ready = ready(plan, lift_index)?;
    level_for(plan, &ready, &ready.load)
}

/// The same for another centre of gravity.
pub fn level_for(plan: &Plan, ready: &Ready<'_>, load: &HangingLoad) -> Result<LevelAnswer, String> {
    let limits = limits(plan)?;
    let truck = Truck::read(plan, ready.rig);
    if truck.stock.slings.is_empty() {
        return Err("no sling on the truck has a length, a rating and a legible tag".into());
    }
    let found = rigging::level_set_ups(load, &ready.set_up, &truck.stock, &limits)?;
    let told = |f: &FoundSetUp| truck.told(ready.rig, ready.house, f, &limits);
    let ideal: Vec<IdealLeg> = found
        .ideal
        .iter()
        .map(|(kind, length_m)| IdealLeg {
            kind: *kind,
            name: member_name(ready.house, *kind),
            length: Length::m(*length_m),
        })
        .collect();
    let set_ups: Vec<LevelSetUp> = found.best.iter().map(told).collect();
    let refused: Vec<LevelSetUp> = found.refused.iter().map(told).collect();
    let mut words = words(plan, &set_ups, &refused, &ideal);
    if set_ups.is_empty() {
        words.extend(beside_the_line(ready.house, &found, &limits));
    }
    Ok(LevelAnswer {
        set_ups,
        refused,
        ideal,
        words,
        tried: found.tried,
    })
}

fn limits(plan: &Plan) -> Result<LevelLimits, String> {
    let missing = |what: &str| format!("{what} is not entered in the limits");
    let l = &plan.limits;
    Ok(LevelLimits {
        level_rad: level_limit(plan).ok_or_else(|| missing("the level limit"))?.to_rad(),
        leg_angle_rad: l
            .leg_angle_stop
            .not_negative()
            .ok_or_else(|| missing("the flattest leg angle"))?
            .to_rad(),
        gear_use: l
            .gear_use
            .not_negative()
            .ok_or_else(|| missing("the limit of gear use"))?
            .to_of(),
        dynamic_factor: dynamic_factor(plan)
            .ok_or_else(|| missing("the dynamic factor (1 or more)"))?
            .to_of(),
    })
}

/// The truck's slings and shorteners, and the same as numbers.
struct Truck<'a> {
    slings: Vec<&'a GearItem>,
    shorteners: Vec<&'a GearItem>,
    shackles: Vec<&'a GearItem>,
    adjusters: Vec<&'a GearItem>,
    stock: Stock,
}

impl<'a> Truck<'a> {
    /// Pieces without length, rating or legible tag are left out; what hangs in the rig outside its legs is not free.
    fn read(plan: &'a Plan, rig: &Rig) -> Self {
        let free = |g: &GearItem| {
            let in_legs = times_in_legs(&rig.arrangement, &g.id);
            let counted: u32 = rig
                .pieces
                .iter()
                .filter(|piece| piece.gear == g.id)
                .map(|piece| piece.count)
                .sum();
            g.quantity.saturating_sub(counted.saturating_sub(in_legs as u32))
        };
        let of = |kind: GearKind| {
            plan.gear
                .iter()
                .filter(move |g| g.kind == kind && free(g) > 0)
                .filter_map(|g| {
                    let length_m = g.length.not_negative()?.to_m();
                    let rating_n = Mass::kg(rating_kg(plan, g).ok()?).weight().to_n();
                    (length_m > 0.0 && rating_n > 0.0).then_some((g, length_m, rating_n))
                })
        };
        let as_sling = |(g, length_m, rating_n): (&GearItem, f64, f64)| StockSling {
            line: Line {
                length_m,
                ea_n: Some(ea_n(g)),
            },
            rating_n,
            count: free(g),
        };
        let as_shortener = |(g, link_m, rating_n): (&GearItem, f64, f64)| StockShortener {
            link_m,
            rating_n,
            count: free(g),
        };
        let as_shackle = |(g, length_m, rating_n): (&GearItem, f64, f64)| StockShackle {
            length_m,
            rating_n,
            count: free(g),
        };
        let longest_m =
            |g: &GearItem, shortest_m: f64| g.longest.not_negative().map(|l| l.to_m()).filter(|m| *m >= shortest_m);
        let adjusters: Vec<_> = of(GearKind::Adjuster)
            .filter_map(|(g, shortest_m, rating_n)| {
                let adjuster = StockAdjuster {
                    shortest_m,
                    longest_m: longest_m(g, shortest_m)?,
                    rating_n,
                    count: free(g),
                };
                Some((g, adjuster))
            })
            .collect();
        Self {
            slings: of(GearKind::Sling).map(|row| row.0).collect(),
            shorteners: of(GearKind::Shortener).map(|row| row.0).collect(),
            shackles: of(GearKind::Shackle).map(|row| row.0).collect(),
            adjusters: adjusters.iter().map(|(g, _)| *g).collect(),
            stock: Stock {
                shackles: of(GearKind::Shackle).map(as_shackle).collect(),
                adjusters: adjusters.into_iter().map(|(_, adjuster)| adjuster).collect(),
                slings: of(GearKind::Sling).map(as_sling).collect(),
                shorteners: of(GearKind::Shortener).map(as_shortener).collect(),
            },
        }
    }

    fn leg(&self, chosen: ChosenLeg) -> Leg {
        let mut leg = Leg {
            sling: self.slings[chosen.sling].id.clone(),
            ..Leg::default()
        };
        match chosen.added {
            Added::Nothing => {}
            Added::Links(kind, links) => (leg.shortener, leg.links) = (self.shorteners[kind].id.clone(), links),
            Added::Shackles(kind, count) => (leg.shackle, leg.shackles) = (self.shackles[kind].id.clone(), count),
            Added::Adjuster(kind, set_mm) => {
                leg.adjuster = self.adjusters[kind].id.clone();
                leg.set_to = Entry::typed(format!("{set_mm} mm"), Unit::Mm);
            }
        }
        leg
    }

    fn told(&self, rig: &Rig, house: &HouseBox, found: &FoundSetUp, limits: &LevelLimits) -> LevelSetUp {
        let arrangement = self.arrangement(rig, found);
        let (used, kind) = found.most_used;
        let name = member_name(house, kind);
        let over = (used > limits.gear_use).then(|| {
            let sling = found
                .legs
                .iter()
                .find(|(k, _)| *k == kind)
                .map(|(_, leg)| self.leg(*leg).sling);
            let percent = show(Ratio::of(used), Unit::Percent, 1, Safe::Up);
            format!(
                "{name}: {percent} of the rating of {}, or of what is added to it",
                sling.unwrap_or_default()
            )
        });
        let flat = || {
            found
                .too_flat
                .then(|| "a leg is flatter than the limit, from the horizontal".to_owned())
        };
        LevelSetUp {
            pieces: pieces(rig, &arrangement),
            arrangement,
            words: self.words(house, found),
            along: Angle::rad(found.hung.along.tilt_rad),
            across: Angle::rad(found.hung.across.tilt_rad),
            hook_above: Length::m(found.hung.hook_above_floor_m),
            refused: over.or_else(flat),
            most_used: (name, Ratio::of(used)),
            piece_count: found.pieces,
        }
    }

    fn arrangement(&self, rig: &Rig, found: &FoundSetUp) -> Arrangement {
        let mut next = rig.arrangement.clone();
        for (kind, chosen) in &found.legs {
            let place = match (&mut next, *kind) {
                (Arrangement::FourLegs { legs }, MemberKind::Leg(c)) => &mut legs[2 * c.end + c.side],
                (Arrangement::PieceByPiece { legs, .. }, MemberKind::Line(index)) => &mut legs[index],
                (Arrangement::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => &mut top[end],
                (Arrangement::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => &mut bridles[c.end][c.side],
                _ => continue,
            };
            let leg = self.leg(*chosen);
            *place = Leg {
                sling: leg.sling,
                shortener: leg.shortener,
                links: leg.links,
                shackle: leg.shackle,
                shackles: leg.shackles,
                adjuster: leg.adjuster,
                set_to: leg.set_to,
                // where it runs, what joins its ends and how it takes hold stay
                ..place.clone()
            };
        }
        next
    }

    /// Both ends' bridles are alike, so only the first end's are named.
    fn words(&self, house: &HouseBox, found: &FoundSetUp) -> String {
        let named = found
            .legs
            .iter()
            .filter(|(kind, _)| !matches!(kind, MemberKind::Bridle(c) if c.end == 1));
        let leg = |(kind, chosen): &(MemberKind, ChosenLeg)| {
            let name = match kind {
                MemberKind::Bridle(c) => format!("bridle legs, {}", super::side_name(house, c.side)),
                other => member_name(house, *other),
            };
            let leg = self.leg(*chosen);
            let sling = &leg.sling;
            match chosen.added {
                Added::Nothing => format!("{name}: {sling}"),
                Added::Links(_, 1) => format!("{name}: {sling} + 1 link of {}", leg.shortener),
                Added::Links(_, n) => format!("{name}: {sling} + {n} links of {}", leg.shortener),
                Added::Shackles(_, 1) => format!("{name}: {sling} + 1 shackle {}", leg.shackle),
                Added::Shackles(_, n) => format!("{name}: {sling} + {n} shackles {}", leg.shackle),
                Added::Adjuster(..) => format!("{name}: {sling} + {} set to {}", leg.adjuster, leg.set_to.text()),
            }
        };
        named.map(leg).collect::<Vec<_>>().join("; ")
    }
}

/// The rig's pieces, the pieces of its old legs taken out and those of the new ones put in.
fn pieces(rig: &Rig, next: &Arrangement) -> Vec<Piece> {
    let mut pieces = rig.pieces.clone();
    for id in named_pieces(&rig.arrangement) {
        if let Some(piece) = pieces.iter_mut().find(|p| p.gear == *id) {
            piece.count = piece.count.saturating_sub(1);
        }
    }
    for id in named_pieces(next).into_iter().filter(|id| !id.is_empty()) {
        match pieces.iter_mut().find(|p| p.gear == *id) {
            Some(piece) => piece.count += 1,
            None => pieces.push(Piece {
                gear: Id::clone(id),
                count: 1,
            }),
        }
    }
    pieces.retain(|p| p.count > 0);
    pieces
}

/// Where the legs at the top cannot level it because they stand over one line.
fn beside_the_line(house: &HouseBox, found: &LevelSearch, limits: &LevelLimits) -> Option<String> {
    let across = 1 - found.levels_only?;
    let tilt_rad = found.nearest?[across];
    if tilt_rad.abs() <= limits.level_rad {
        return None;
    }
    let low = usize::from(tilt_rad > 0.0);
    let (way, name) = if across == 1 {
        ("across", super::side_name(house, low))
    } else {
        ("along", super::end_name(house, low))
    };
    let angle = show(Angle::rad(tilt_rad.abs()), Unit::Deg, 2, Safe::Up);
    Some(format!(
        "; {way} the {name} stays {angle} low, which the searched legs cannot change, since they stand over one line: shorten what is below them on the {name}"
    ))
}

fn words(plan: &Plan, set_ups: &[LevelSetUp], refused: &[LevelSetUp], ideal: &[IdealLeg]) -> String {
    if let Some(best) = set_ups.first() {
        return format!("hangs level on {}", best.words);
    }
    let length = |length: Length| match plan.project.units {
        UnitSystem::Us => feet_inches(length),
        UnitSystem::Metric => show(length, Unit::M, 2, Safe::Nearest),
    };
    let lengths: Vec<String> = ideal
        .iter()
        .map(|leg| format!("{} {}", leg.name, length(leg.length)))
        .collect();
    let would = if lengths.is_empty() {
        "lengthen the legs until they close over the bar or the picks".to_owned()
    } else {
        format!("level with {}", lengths.join(", "))
    };
    match refused.first().and_then(|r| r.refused.as_ref()) {
        Some(why) => format!("nothing on the truck hangs it level within the limits entered ({why}); {would}"),
        None => format!("nothing on the truck hangs it level within the limits entered; {would}"),
    }
}
