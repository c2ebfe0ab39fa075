//! Every piece in the load path of a lift, from the hook to the picks: what pulls on it, what it may carry as it is used, and the weakest by name.
//!
//! One factor format holds for all pieces, as the limits say: static loads against the tags' ratings, or static loads with their factors against
//! breaking loads. What a piece is not known to carry cannot be checked.

use super::bars::bar_pieces;
use super::further::HungLift;
use super::rigs::{corner_name, dynamic_factor, leg_of, member_name};
use super::{Assessment, LiftResult};
use crate::check::{Amount, Check, Finding, Working};
use crate::gear::capacity::{self, Hitch};
use crate::plan::{Arrangement, FactorFormat, GearItem, GearKind, HouseBox, Id, Leg, Load, Plan, Rig};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, both};
use crate::rigging::closed_form::Convention;
use crate::rigging::{Construction, Corner, Hung, Member, MemberKind, Wall, WallTouch};
use std::borrow::Cow;

/// A piece in the load path.
#[derive(Clone, Debug, PartialEq)]
pub struct PathPiece {
    /// How far down the path: 0 the hook, 1 the link, then the legs and bars, last the picks.
    pub tier: u8,
    /// Where it is: "top leg, west end".
    pub place: String,
    /// What it does there: "sling", "shackle below".
    pub role: &'static str,
    /// Which piece of gear; none for a pick of the box.
    pub gear: Id,
    /// Its load against what it may carry.
    pub finding: Finding,
}

/// Tiers of the path.
pub(super) const LINK: u8 = 1;
pub(super) const TOP: u8 = 2;
pub(super) const BAR: u8 = 3;
const BRIDLE: u8 = 4;
pub(super) const CROSS_BAR: u8 = 5;
const STRAP: u8 = 6;
const PICK: u8 = 7;

/// The findings on every piece below the hook.
pub fn findings(lift: &HungLift<'_>) -> Vec<Finding> {
    let pieces = below_the_hook(lift);
    pieces.into_iter().map(|piece| piece.finding).collect()
}

/// The finding on hook and block.
pub fn hook_findings(plan: &Plan, lift: &LiftResult) -> Vec<Finding> {
    hook(plan, lift).map(|piece| piece.finding).into_iter().collect()
}

/// Every piece of a lift's load path, from the hook down.
pub fn load_path(plan: &Plan, assessment: &Assessment, index: usize) -> Vec<PathPiece> {
    let (Some(lift), Some(result)) = (plan.lifts.get(index), assessment.lifts.get(index)) else {
        return Vec::new();
    };
    let hung = HungLift {
        plan,
        lift,
        house: None,
        load: &result.load,
        rig: &result.rig,
    };
    let mut pieces: Vec<PathPiece> = hook(plan, result).into_iter().chain(below_the_hook(&hung)).collect();
    pieces.sort_by_key(|piece| piece.tier);
    pieces
}

/// The piece or pick nearest to what it may carry; `None` where nothing could be compared.
pub fn weakest(findings: &[Finding]) -> Option<&Finding> {
    findings
        .iter()
        .filter(|f| is_on_the_path(f.check) && f.ratio.is_some())
        .max_by(|a, b| a.ratio.unwrap_or(0.0).total_cmp(&b.ratio.unwrap_or(0.0)))
}

/// The finding on the sling of a leg, by the leg's name.
pub fn leg_finding<'a>(findings: &'a [Finding], name: &str) -> Option<&'a Finding> {
    let is_about = |subject: &str| subject.strip_prefix(name).is_some_and(|rest| rest.starts_with(" ("));
    findings.iter().find(|f| f.check == Check::Gear && is_about(&f.subject))
}

/// Whether a check is on a piece of the load path or on a pick.
pub const fn is_on_the_path(check: Check) -> bool {
    matches!(check, Check::Gear | Check::Pick)
}

/// What a static load is multiplied with, and how much of a piece's capacity may be used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    format: FactorFormat,
    /// Dynamic, times consequence where that counts.
    k: f64,
    /// Where legs share by their lengths; 1 in the trade's format, whose demand is the bound itself.
    skew: f64,
    /// Share of a capacity that may be used.
    allowed: f64,
}

impl Factors {
    /// Those of the limits.
    ///
    /// # Errors
    /// Which one is not entered.
    pub fn of(plan: &Plan) -> Result<Self, String> {
        let limits = &plan.limits;
        let dynamic = dynamic_factor(plan).ok_or("the dynamic factor (1 or more) is not entered in the limits")?;
        let allowed = limits
            .gear_use
            .not_negative()
            .ok_or("the limit of gear use is not entered in the limits")?;
        let at_least_one = |entry: &crate::quantity::Entry<Ratio>, name: &str| {
            let value = entry.get().map(Ratio::to_of).filter(|k| *k >= 1.0);
            value.ok_or_else(|| format!("the marine format's {name} (1 or more) is not entered in the limits"))
        };
        let (skew, consequence) = match limits.format {
            FactorFormat::Trade => (1.0, 1.0),
            FactorFormat::Marine => (
                at_least_one(&limits.skew_factor, "skew factor")?,
                at_least_one(&limits.consequence_factor, "consequence factor")?,
            ),
        };
        Ok(Self {
            format: limits.format,
            k: dynamic.to_of() * consequence,
            skew,
            allowed: allowed.to_of(),
        })
    }

    /// Demand of a member, N: in the trade's format the stiff box's bound; in the marine one the shared tension times the skew factor where legs share.
    fn member_n(&self, member: &Member) -> f64 {
        let shares = member.tension_n > member.shared_n * (1.0 + 1e-9);
        let static_n = match self.format {
            FactorFormat::Marine if shares => member.shared_n * self.skew,
            _ => member.tension_n,
        };
        static_n * self.k
    }

    /// A static load with its factors, kg.
    pub(super) fn load_kg(&self, static_kg: f64) -> f64 {
        static_kg * self.k
    }

    /// A finding against what a piece may carry.
    pub(super) fn finding(&self, check: Check, subject: String, demand_kg: f64, capacity_kg: f64) -> Finding {
        let limit = Mass::kg(capacity_kg * self.allowed);
        Finding::at_most(check, subject, Mass::kg(demand_kg).into(), limit.into())
    }
}

/// What a piece may carry as it is used, kg, and how that comes about.
type Capacity = Result<(f64, Vec<Working>), String>;

/// How a piece of gear is used.
#[derive(Clone, Copy, Debug, Default)]
struct Use<'a> {
    /// The leg whose hitch, bend and side pull count for it.
    leg: Option<&'a Leg>,
    /// Angle of the pull from the horizontal, rad.
    angle_rad: f64,
}

/// Rating of one leg as its tag has it, kg: of a set, what one leg of it is rated for.
///
/// # Errors
/// What is missing, in words.
pub fn rating_kg(plan: &Plan, item: &GearItem) -> Result<f64, String> {
    let id = &item.id;
    if !item.tag_legible {
        return Err(format!(
            "the tag of {id} is not entered as legible: a piece whose tag cannot be read is not used; read it and tick it, or take another"
        ));
    }
    let rating = item.rating.not_negative();
    let rating_kg = rating
        .ok_or_else(|| format!("rating of {id} ({}) not entered", item.name))?
        .to_kg();
    if item.legs < 2 {
        return Ok(rating_kg);
    }
    let legs = item.legs;
    let angle = item.rated_angle.not_negative().ok_or_else(|| {
        format!("the rating of {id} is for a set of {legs} legs: enter the angle from the horizontal that it holds for")
    })?;
    let counted = plan.limits.legs_counted.get().map(Ratio::to_of);
    let counted = counted.ok_or("how many legs of a set count is not entered in the limits")?;
    capacity::leg_of_set(rating_kg, legs, counted, angle.to_rad()).ok_or_else(|| {
        format!(
            "the rating of {id} for a set of {legs} legs at {:.0}° from the horizontal, {counted} legs counting: expected 30 to 90° and no more legs than it has",
            angle.to_deg()
        )
    })
}

/// Strength of one piece before hitch, bend and side pull, kg: its rating, or in the marine format its breaking load over the factor.
fn strength_kg(plan: &Plan, item: &GearItem) -> Result<f64, String> {
    if plan.limits.format == FactorFormat::Trade {
        return rating_kg(plan, item);
    }
    if !item.tag_legible {
        return rating_kg(plan, item);
    }
    let breaking = item.breaking.not_negative();
    let breaking = breaking.ok_or_else(|| {
        format!(
            "breaking load of {} ({}), which the marine format reckons with",
            item.id, item.name
        )
    })?;
    let by = plan
        .limits
        .breaking_factor
        .get()
        .map(Ratio::to_of)
        .filter(|k| *k >= 1.0);
    let by = by.ok_or("what breaking loads are divided by (1 or more) is not entered in the limits")?;
    Ok(breaking.to_kg() / by)
}

fn capacity_of(plan: &Plan, item: &GearItem, used: Use<'_>) -> Capacity {
    let strength = strength_kg(plan, item)?;
    let mut working = Vec::new();
    if item.legs > 1 {
        working.push(set_working(plan, item, strength));
    }
    let mut shares: Vec<(&'static str, &'static str, f64)> = Vec::new();
    let mut base = strength;
    match (item.kind, used.leg) {
        (GearKind::EyeBolt, _) => base = eye_bolt_kg(item, strength, used.angle_rad)?,
        (GearKind::Sling | GearKind::Strap, Some(leg)) => {
            base = hitch_base_kg(plan, item, leg, strength)?;
            shares.extend(hitch_shares(item, leg)?);
        }
        (GearKind::Shackle, Some(leg)) if !leg.side_load.is_blank() => {
            let angle = leg.side_load.not_negative().map(Angle::to_deg);
            let share = angle.and_then(capacity::side_load_share);
            let share = share.ok_or_else(|| {
                format!(
                    "side pull of \"{}\" on {}: expected 0 to 90° off its line",
                    leg.side_load.text(),
                    item.id
                )
            })?;
            shares.push((
                "s",
                "side pull on the shackle, 0/45/90° leave 100/70/50 % (trade tables)",
                share,
            ));
        }
        _ => {}
    }
    let left = shares.iter().fold(base, |kg, (.., share)| kg * share);
    if !shares.is_empty() || (base - strength).abs() > 1e-9 * strength {
        working.push(capacity_working(item, base, &shares, left));
    }
    Ok((left, working))
}

/// Rating × hitch × choke × D/d × side pull, line by line.
fn capacity_working(item: &GearItem, base: f64, shares: &[(&'static str, &'static str, f64)], left: f64) -> Working {
    let formula = match shares.len() {
        0 => "R",
        1 => match shares[0].0 {
            "c" => "R·c",
            "b" => "R·b",
            _ => "R·s",
        },
        _ => "R·c·b",
    };
    let mut line = Working::new("what it may carry as it is used", "C", formula, Mass::kg(left), "").input(
        "R",
        "rating in this hitch",
        Mass::kg(base),
    );
    line.source = Cow::Owned(format!("tag of {}, tables of its material", item.id));
    for (symbol, meaning, share) in shares {
        line = line.input(symbol, meaning, Amount::Factor(*share));
    }
    line
}

fn set_working(plan: &Plan, item: &GearItem, leg_kg: f64) -> Working {
    let counted = plan.limits.legs_counted.get().map_or(0.0, Ratio::to_of);
    let n = if item.legs > 2 { counted } else { f64::from(item.legs) };
    let sine = item.rated_angle.get().map_or(0.0, |angle| libm::sin(angle.to_rad()));
    Working::new(
        "rating of one leg, from that of the set",
        "R",
        "S/(n·sinθ)",
        Mass::kg(leg_kg),
        "equilibrium; legs that count: the limits",
    )
    .input("S", "rating of the set", item.rating.get().unwrap_or_default())
    .input("n", "legs that count", Amount::Factor(n))
    .input(
        "sinθ",
        "sine of the angle from the horizontal on the tag",
        Amount::Factor(sine),
    )
}

/// The rating that a hitch starts from, kg: the tag's own for it where there is one, else by the table.
fn hitch_base_kg(plan: &Plan, item: &GearItem, leg: &Leg, strength: f64) -> Result<f64, String> {
    let trade = plan.limits.format == FactorFormat::Trade;
    let tagged = |entry: &crate::quantity::Entry<Mass>| trade.then(|| entry.not_negative().map(Mass::to_kg)).flatten();
    match leg.hitch {
        Hitch::Vertical => Ok(strength),
        // chain chokes by a table on its single-leg rating
        Hitch::Choker if item.construction == Construction::Chain => Ok(strength),
        Hitch::Choker => tagged(&item.choker)
            .or_else(|| Some(strength * capacity::choker_share(item.construction)?))
            .ok_or_else(|| not_made_of(item, "a choker")),
        Hitch::Basket => Ok(tagged(&item.basket).map_or(strength, |basket| basket / 2.0)),
    }
}

fn not_made_of(item: &GearItem, hitch: &str) -> String {
    format!("what {} is made of: {hitch} is rated by its material's table", item.id)
}

/// What choke, bend or the spread of a basket leave: symbol, meaning, share.
fn hitch_shares(item: &GearItem, leg: &Leg) -> Result<Vec<(&'static str, &'static str, f64)>, String> {
    let mut shares = Vec::new();
    let wire = matches!(item.construction, Construction::WireRope | Construction::FibreCore);
    let angle = leg.hitch_angle.not_negative();
    match leg.hitch {
        Hitch::Vertical => {}
        Hitch::Choker => {
            let angle = angle.ok_or_else(|| format!("angle of choke of {}", item.id))?;
            if item.construction == Construction::Unknown {
                return Err(not_made_of(item, "a choker"));
            }
            let share = capacity::choke_share(item.construction, angle.to_deg());
            let share = share.ok_or_else(|| {
                format!(
                    "angle of choke of {} read as {:.0}°: its table begins at 30°; let it choke at 120° or more",
                    item.id,
                    angle.to_deg()
                )
            })?;
            shares.push(("c", "angle of choke, by the table of its material", share));
        }
        Hitch::Basket => {
            let angle =
                angle.ok_or_else(|| format!("angle of the parts of {} in its basket, from the horizontal", item.id))?;
            let share = capacity::basket_share(angle.to_rad()).ok_or_else(|| {
                format!(
                    "parts of {} in its basket read as {:.0}° from the horizontal: expected 30 to 90°",
                    item.id,
                    angle.to_deg()
                )
            })?;
            shares.push(("c", "basket: 2·sin of its parts' angle from the horizontal", share));
        }
    }
    if wire && (leg.hitch == Hitch::Basket || !leg.bends_over.is_blank()) {
        shares.push((
            "b",
            "bend over D: 1 − 0.5/√(D/d) (0027/ND Table 7-1); a basket keeps all from D/d 25",
            bend_share(item, leg)?,
        ));
    }
    Ok(shares)
}

fn bend_share(item: &GearItem, leg: &Leg) -> Result<f64, String> {
    let over = leg.bends_over.not_negative().map(Length::to_m);
    let over = over.ok_or_else(|| format!("diameter that {} bends over", item.id))?;
    let own = item.diameter.not_negative().map(Length::to_m).filter(|d| *d > 0.0);
    let ratio = over / own.ok_or_else(|| format!("diameter of {}", item.id))?;
    let share = if leg.hitch == Hitch::Basket {
        capacity::basket_bend_share(ratio)
    } else {
        capacity::bend_share(ratio)
    };
    share.ok_or_else(|| {
        format!(
            "{} bends over less than its own diameter: take a larger bearing",
            item.id
        )
    })
}

/// Rating of an eye bolt at the angle of its pull, kg: by its own table, and never more than its tag says.
fn eye_bolt_kg(item: &GearItem, strength: f64, angle_rad: f64) -> Result<f64, String> {
    let off_deg = (90.0 - angle_rad.to_degrees()).abs();
    // a hair off the plumb is the hang's arithmetic
    if off_deg < 0.05 {
        return Ok(strength);
    }
    let size_in = item.diameter.not_negative().map(Length::to_inch);
    let table_lb = size_in.and_then(|size| capacity::eye_bolt_lb(size, off_deg));
    let table_lb = table_lb.ok_or_else(|| {
        format!(
            "{} is pulled {off_deg:.1}° off its shank: no table of eye bolts for its diameter (never a sine); pull in line, or ask its maker",
            item.id
        )
    })?;
    Ok(strength.min(Mass::lb(table_lb).to_kg()))
}

/// Smallest capacity of the pieces that are in a leg alone, kg.
///
/// # Errors
/// What is missing, in words.
pub fn leg_capacity_kg(plan: &Plan, rig: &Rig, member: MemberKind, angle_rad: f64) -> Result<f64, String> {
    let leg = leg_of(rig, member).ok_or("the leg is not in the rig")?;
    let used = Use {
        leg: Some(leg),
        angle_rad,
    };
    let mut least_kg = f64::INFINITY;
    for (_, id) in pieces_in(leg) {
        let item = on_truck(plan, id)?;
        least_kg = least_kg.min(capacity_of(plan, item, used)?.0);
    }
    Ok(least_kg)
}

pub(super) fn on_truck<'a>(plan: &'a Plan, id: &Id) -> Result<&'a GearItem, String> {
    plan.gear_item(id)
        .ok_or_else(|| format!("{id} is not on the truck's list"))
}

/// The pieces that a leg alone pulls on, with what they do there, from its upper end down.
fn pieces_in(leg: &Leg) -> impl Iterator<Item = (&'static str, &Id)> {
    let above = (!leg.above_takes_all).then_some(("above", &leg.above));
    let stack = (leg.shackles > 0).then_some(("stack", &leg.shackle));
    let links = (leg.links > 0).then_some(("shortener", &leg.shortener));
    let adjuster = Some(("adjuster", &leg.adjuster));
    let all = [
        above,
        links,
        Some(("sling", &leg.sling)),
        stack,
        adjuster,
        Some(("below", &leg.below)),
    ];
    all.into_iter()
        .flatten()
        .filter(|(role, id)| *role == "sling" || !id.is_empty())
}

/// Hook and block of the crane that is set up, under load and rigging.
fn hook(plan: &Plan, lift: &LiftResult) -> Option<PathPiece> {
    let crane = plan.crane(&plan.set_up.crane)?;
    let subject = format!("hook and block of {}", crane.id);
    let (Some(load), Some(rigging)) = (lift.load.planned_kg, lift.load.rigging_kg) else {
        return None;
    };
    let rated = crane.block_rating.not_negative();
    let rated = rated.ok_or_else(|| format!("rating of the hook block of {}", crane.id));
    let finding = match Factors::of(plan).and_then(|factors| Ok((factors, rated?))) {
        Ok((factors, rating)) => factors.finding(Check::Gear, subject, factors.load_kg(load + rigging), rating.to_kg()),
        Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
    };
    Some(PathPiece {
        tier: 0,
        place: "hook".into(),
        role: "hook and block",
        gear: Id::default(),
        finding,
    })
}

fn below_the_hook(lift: &HungLift<'_>) -> Vec<PathPiece> {
    let plan = lift.plan;
    let Some(rig) = plan.rig(&lift.lift.rig) else {
        return Vec::new();
    };
    let factors = match Factors::of(plan) {
        Ok(factors) => factors,
        Err(missing) => {
            return vec![PathPiece {
                tier: LINK,
                place: String::new(),
                role: "every piece",
                gear: Id::default(),
                finding: Finding::not_checked(Check::Gear, format!("rig {}", rig.id), missing),
            }];
        }
    };
    if matches!(rig.arrangement, Arrangement::Simple { .. }) {
        return whole_load_each(lift, rig, &factors);
    }
    let Load::Box { id } = &lift.lift.load else {
        return Vec::new();
    };
    let (Some(house), Some(hung)) = (plan.house_box(id), &lift.rig.hung) else {
        return Vec::new();
    };
    let path = Path {
        plan,
        rig,
        house,
        hung,
        factors,
    };
    let mut pieces = Vec::new();
    pieces.extend(
        path.link(
            lift.load
                .planned_kg
                .zip(lift.load.rigging_kg)
                .map(|(load, gear)| load + gear),
        ),
    );
    for (index, member) in hung.members.iter().enumerate() {
        pieces.extend(path.leg(index, member));
    }
    pieces.extend(bar_pieces(&path));
    pieces.extend(path.picks());
    pieces
}

/// A rig whose legs are not entered: each piece that carries is held against the whole load, for how they share is not known.
fn whole_load_each(lift: &HungLift<'_>, rig: &Rig, factors: &Factors) -> Vec<PathPiece> {
    let Some(load_kg) = lift.load.planned_kg else {
        return Vec::new();
    };
    let piece = |piece: &crate::plan::Piece| {
        let item = lift.plan.gear_item(&piece.gear)?;
        if item.kind.is_idle() {
            return None;
        }
        let subject = format!("{} ({})", item.name, item.id);
        let finding = match rating_or_strength(lift.plan, item) {
            Ok(kg) => factors.finding(Check::Gear, subject, factors.load_kg(load_kg), kg).caution(
                "its legs are not entered: it is held against the whole load, and the angle of its legs is not checked",
            ),
            Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
        };
        Some(PathPiece {
            tier: TOP,
            place: "the whole load".into(),
            role: "piece",
            gear: item.id.clone(),
            finding,
        })
    };
    rig.pieces.iter().filter_map(piece).collect()
}

fn rating_or_strength(plan: &Plan, item: &GearItem) -> Result<f64, String> {
    strength_kg(plan, item)
}

/// A lift's rig at rest, with what is needed to follow its load down.
pub(super) struct Path<'a> {
    pub plan: &'a Plan,
    pub rig: &'a Rig,
    pub house: &'a HouseBox,
    pub hung: &'a Hung,
    pub factors: Factors,
}

/// Two ends of legs are at one place within this, m.
const SAME_PLACE_M: f64 = 1e-6;

impl Path<'_> {
    /// The force of a leg on what holds its upper end or what hangs from its lower end, N with factors: along the leg, away from that end.
    pub(super) fn force_n(&self, index: usize, lower: bool) -> [f64; 3] {
        let way = &self.hung.figure.ways_m[index];
        let [from, to] = if lower {
            [way[way.len() - 1], way[way.len() - 2]]
        } else {
            [way[0], way[1]]
        };
        let along: [f64; 3] = core::array::from_fn(|k| to[k] - from[k]);
        let length = along.iter().map(|x| x * x).sum::<f64>().sqrt();
        let tension = self.demand_n(index);
        along.map(|x| if length > 0.0 { x / length * tension } else { 0.0 })
    }

    /// Demand of a leg, N with factors: its tension, or what it comes to round the eave that it touches.
    fn demand_n(&self, index: usize) -> f64 {
        let member = &self.hung.members[index];
        let plain = self.factors.member_n(member);
        let bent = super::eaves::tension_n(self.house, self.hung, index).map_or(0.0, |n| n * self.factors.k);
        plain.max(bent)
    }

    fn link(&self, hanging_kg: Option<f64>) -> Option<PathPiece> {
        let id = &self.rig.link;
        if id.is_empty() {
            return None;
        }
        let subject = format!("link on the hook ({id})");
        let used = Use {
            leg: None,
            angle_rad: core::f64::consts::FRAC_PI_2,
        };
        let known = on_truck(self.plan, id).and_then(|item| capacity_of(self.plan, item, used));
        let known = known.and_then(|c| Ok((c, hanging_kg.ok_or("the weight on the hook")?)));
        let finding = match known {
            Ok(((kg, working), load)) => {
                let demand = self.factors.load_kg(load);
                self.factors.finding(Check::Gear, subject, demand, kg).working(working)
            }
            Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
        };
        Some(PathPiece {
            tier: LINK,
            place: "hook".into(),
            role: "link",
            gear: id.clone(),
            finding,
        })
    }

    /// The pieces of one leg from its upper end down.
    fn leg(&self, index: usize, member: &Member) -> Vec<PathPiece> {
        let Some(leg) = leg_of(self.rig, member.kind) else {
            return Vec::new();
        };
        let tier = match member.kind {
            MemberKind::Leg(_) | MemberKind::Line(_) | MemberKind::Top { .. } => TOP,
            MemberKind::Bridle(_) => BRIDLE,
            MemberKind::Strap(_) => STRAP,
        };
        let place = member_name(self.house, member.kind);
        let used = Use {
            leg: Some(leg),
            angle_rad: member.angle_rad,
        };
        let mut pieces = Vec::new();
        if leg.above_takes_all && !leg.above.is_empty() && self.is_first_to_name(index, leg) {
            let (force_n, legs) = self.resultant_n(index);
            let finding = self.checked(
                format!("{} above the {place}, with {legs} legs", self.kind_of(&leg.above)),
                &leg.above,
                force_n,
                used,
            );
            pieces.push(self.piece(tier, &place, "above, for all legs there", &leg.above, finding));
        }
        for (role, id) in pieces_in(leg) {
            let demand_n = self.demand_n(index);
            let subject = match role {
                "sling" => place.clone(),
                "above" | "below" => format!("{} {role} the {place}", self.kind_of(id)),
                role => format!("{role} in the {place}"),
            };
            let mut finding = self.checked(subject, id, demand_n, used);
            if role == "sling" {
                finding = self.sling(index, member, finding);
            }
            pieces.push(self.piece(tier, &place, role, id, finding));
        }
        pieces
    }

    fn piece(&self, tier: u8, place: &str, role: &'static str, gear: &Id, finding: Finding) -> PathPiece {
        PathPiece {
            tier,
            place: place.to_owned(),
            role,
            gear: gear.clone(),
            finding,
        }
    }

    fn kind_of(&self, id: &Id) -> &'static str {
        match self.plan.gear_item(id).map(|item| item.kind) {
            Some(GearKind::Shackle) => "shackle",
            Some(GearKind::Link) => "link",
            Some(GearKind::Block) => "block",
            Some(GearKind::EyeBolt) => "eye bolt",
            Some(GearKind::Pin) => "pin",
            _ => "piece",
        }
    }

    fn checked(&self, subject: String, id: &Id, demand_n: f64, used: Use<'_>) -> Finding {
        let subject = format!("{subject} ({id})");
        match on_truck(self.plan, id).and_then(|item| capacity_of(self.plan, item, used)) {
            Ok((kg, working)) => {
                let demand = Force::n(demand_n).as_mass().to_kg();
                self.factors.finding(Check::Gear, subject, demand, kg).working(working)
            }
            Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
        }
    }

    /// What is to be told of a leg beside its load: how its tension comes about, conventions, walls that it touches.
    fn sling(&self, index: usize, member: &Member, finding: Finding) -> Finding {
        let k = self.factors.k;
        let working = Working::new(
            "tension in the leg",
            "T",
            "V·k/sinθ",
            Force::n(member.tension_n * k).as_mass(),
            "equilibrium of the leg; θ from the horizontal",
        )
        .input("V", "vertical part of the load", Force::n(member.vertical_n).as_mass())
        .input("k", "factor on the static load", Amount::Factor(k))
        .input(
            "sinθ",
            "sine of the leg's angle from the horizontal",
            Amount::Factor(libm::sin(member.angle_rad)),
        );
        let finding = finding.working([working]).working(conventions(member, k));
        touches(self.house, self.hung, index)
            .into_iter()
            .fold(finding, Finding::caution)
    }

    /// Legs that end at the upper end of one of them, and whether that is their upper or their lower end.
    fn ends_there(&self, index: usize) -> Vec<(usize, bool)> {
        let legs = &self.hung.figure.legs_m;
        let at = legs[index][0];
        let is_there = |p: [f64; 3]| (0..3).all(|k| (p[k] - at[k]).abs() < SAME_PLACE_M);
        let ends = |i: usize| {
            [(i, false), (i, true)]
                .into_iter()
                .filter(move |(i, lower)| is_there(legs[*i][usize::from(*lower)]))
        };
        (0..legs.len()).flat_map(ends).collect()
    }

    /// Legs beside this one: those with their upper end at the same place.
    fn beside(&self, index: usize) -> Vec<usize> {
        self.ends_there(index)
            .into_iter()
            .filter(|(_, lower)| !lower)
            .map(|(i, _)| i)
            .collect()
    }

    fn is_first_to_name(&self, index: usize, leg: &Leg) -> bool {
        let names = |i: usize| {
            let other = leg_of(self.rig, self.hung.members[i].kind);
            other.is_some_and(|other| other.above_takes_all && other.above == leg.above)
        };
        self.beside(index).into_iter().find(|i| names(*i)) == Some(index)
    }

    /// Resultant of the legs that hang from one place, N with factors, and how many they are.
    fn resultant_n(&self, index: usize) -> (f64, usize) {
        let legs = self.beside(index);
        let sum = legs.iter().fold([0.0; 3], |sum, i| {
            let force = self.force_n(*i, false);
            core::array::from_fn(|k| sum[k] + force[k])
        });
        (sum.iter().map(|x| x * x).sum::<f64>().sqrt(), legs.len())
    }

    /// What pulls at each pick against the factory's limits.
    fn picks(&self) -> Vec<PathPiece> {
        let house = self.house;
        let limits = [
            (&house.pick_vertical, "straight up", "pull straight up"),
            (&house.pick_inward, "sideways", "pull sideways"),
        ];
        let mut pieces = Vec::new();
        for (which, (limit, way, what)) in limits.into_iter().enumerate() {
            let Some(limit) = limit.not_negative() else {
                let missing = format!("the factory's limit for the pull {way} at a pick of box {}", house.id);
                let finding =
                    Finding::not_checked(Check::Pick, format!("{what} at the picks of box {}", house.id), missing);
                pieces.push(self.piece(PICK, "the picks", what, &Id::default(), finding));
                continue;
            };
            for (pick, pull) in self.pulls_kg() {
                let name = self.pick_name(pick);
                let finding = self
                    .factors
                    .finding(Check::Pick, format!("{what}, {name}"), pull[which], limit.to_kg());
                pieces.push(self.piece(PICK, &name, what, &Id::default(), finding));
            }
        }
        pieces
    }

    fn pick_name(&self, pick: usize) -> String {
        if self.house.picks.len() == 4 {
            let corner = Corner {
                end: pick / 2,
                side: pick % 2,
            };
            format!("pick {}", corner_name(self.house, corner))
        } else {
            format!("pick {}", pick + 1)
        }
    }

    /// Pull straight up and sideways at each pick in use, kg with factors, of all legs that take hold there.
    fn pulls_kg(&self) -> Vec<(usize, [f64; 2])> {
        let in_use = self.hung.picks.iter().map(|pull| {
            let mut sum = [0.0; 3];
            for (index, lower) in self.at_pick(pull.pick) {
                let force = self.force_n(index, lower);
                (0..3).for_each(|k| sum[k] += force[k]);
            }
            let kg = |n: f64| Force::n(n).as_mass().to_kg();
            (pull.pick, [kg(sum[2]), kg(libm::hypot(sum[0], sum[1]))])
        });
        in_use.collect()
    }

    /// Ends of legs at a pick of the box, as it hangs.
    fn at_pick(&self, pick: usize) -> Vec<(usize, bool)> {
        let Some(at) = self.pick_at_m(pick) else {
            return Vec::new();
        };
        let is_there = |p: [f64; 3]| (0..3).all(|k| (p[k] - at[k]).abs() < 1e-4);
        let legs = &self.hung.figure.legs_m;
        let ends = |i: usize| {
            [(i, true), (i, false)]
                .into_iter()
                .filter(move |(i, lower)| is_there(legs[*i][usize::from(*lower)]))
        };
        (0..legs.len()).flat_map(ends).collect()
    }

    /// Where a pick is as the box hangs: the lower end of the legs of the usual forms, else carried by the corners of the box.
    fn pick_at_m(&self, pick: usize) -> Option<[f64; 3]> {
        let usual = self.hung.members.iter().position(|member| match member.kind {
            MemberKind::Leg(c) | MemberKind::Strap(c) => 2 * c.end + c.side == pick,
            _ => false,
        });
        if let Some(index) = usual {
            return Some(self.hung.figure.legs_m[index][1]);
        }
        let local = self.house.picks.get(pick)?.metres()?;
        let size =
            [&self.house.length, &self.house.width, &self.house.height].map(|entry| entry.get().map(Length::to_m));
        let corners = &self.hung.figure.box_m;
        let axes = [corners[1], corners[3], corners[4]];
        let mut at = corners[0];
        for axis in 0..3 {
            let share = local[axis] / size[axis].filter(|m| *m > 0.0)?;
            (0..3).for_each(|k| at[k] += share * (axes[axis][k] - corners[0][k]));
        }
        Some(at)
    }
}

/// What rule books would count in one of four legs, beside the bound for a stiff box that is the demand.
fn conventions(member: &Member, k: f64) -> Vec<Working> {
    if !matches!(member.kind, MemberKind::Leg(_)) {
        return Vec::new();
    }
    let shared = Force::n(member.shared_n * k).as_mass();
    let line = |convention: Convention| {
        Working::new(
            convention.words(),
            "T",
            "S·f",
            shared * convention.factor(),
            "convention named; not the demand of this check",
        )
        .input("S", "tension if every leg takes its share", shared)
        .input("f", "factor of the convention", Amount::Factor(convention.factor()))
    };
    Convention::ALL.map(line).to_vec()
}

/// What a leg touches, in words: walls and edges hold nothing and give no stability here.
fn touches(house: &HouseBox, hung: &Hung, member: usize) -> Vec<String> {
    let wall = |touch: &WallTouch| {
        let name = match touch.wall {
            Wall::End(end) => super::end_name(house, end),
            Wall::Side(side) => super::side_name(house, side),
        };
        format!(
            "touches the wall of the {name}: it would pass {} inside; the wall is not counted on",
            both(touch.inside_m)
        )
    };
    let walls = hung.walls.iter().filter(|touch| touch.member == member).map(wall);
    let off_end = hung
        .edges
        .iter()
        .filter(|press| press.member == member && press.beyond_end_m > 0.0);
    let slips = off_end.map(|press| {
        let edge = house.edges.get(press.edge).map(|edge| edge.id.to_string());
        format!(
            "bears {} beyond the end of edge {}: it slips off",
            both(press.beyond_end_m),
            edge.unwrap_or_default()
        )
    });
    walls.chain(slips).collect()
}
