//! How each lift hangs: the plan's rig made into numbers, the hang, and the checks on it.

use super::{LoadResult, RigResult, Stretched};
use crate::check::{Check, Finding, Outcome, Working};
use crate::plan::{Arrangement, BoxEdge, GearItem, HouseBox, HungPiece, Id, Leg, Lift, Load, Plan, Rig};
use crate::quantity::{Angle, Entry, Length, Ratio, Safe, Unit, both, show};
use crate::rigging::{self, Corner, HangingLoad, Hung, HungBody, Level, Line, Member, MemberKind, Run, SlingSetUp};

/// The hang of one lift and what the checks on it say.
pub fn assess(plan: &Plan, lift: &Lift, load: &LoadResult, cg_m: Option<[f64; 3]>) -> (RigResult, Vec<Finding>) {
    let Some(rig) = plan.rig(&lift.rig) else {
        let missing = "no rig for this lift: name one in the lift's row";
        let result = RigResult {
            id: lift.rig.clone(),
            why_not: Some(missing.into()),
            ..RigResult::default()
        };
        return (result, vec![Finding::not_checked(Check::Stability, "the rig", missing)]);
    };
    let mut findings = Vec::new();
    let mut result = RigResult {
        id: rig.id.clone(),
        ..RigResult::default()
    };
    if let Arrangement::Simple { hook_above } = &rig.arrangement {
        result.hook_above_m = hook_above.not_negative().map(|h| h.to_m());
        if result.hook_above_m.is_none() {
            findings.push(Finding::not_checked(
                Check::Stability,
                format!("rig {}", rig.id),
                "hook height over the load not entered",
            ));
        }
        return (result, findings);
    }
    let hung = hanging_load(plan, lift, load, cg_m).and_then(|(house, hanging)| {
        let set_up = set_up(plan, rig, house)?;
        let hung = rigging::hang(&hanging, &set_up)?;
        let stretched = stretched(plan, house, rigging::hang_stretched(&hanging, &set_up));
        Ok((house, hung, stretched))
    });
    match hung {
        Ok((house, hung, stretched)) => {
            result.stretched = Some(stretched);
            result.hook_above_m = Some(hung.hook_above_floor_m);
            findings.extend(hang_findings(plan, house, &hung));
            result.hung = Some(hung);
        }
        Err(Why::Missing(what)) => findings.push(Finding::not_checked(Check::Stability, "the hang", what)),
        Err(Why::NoHang(reason)) => {
            result.why_not = Some(reason.clone());
            findings.push(Finding::of(Check::Stability, reason, Outcome::Outside));
        }
    }
    if result.why_not.is_none()
        && let Some(missing) = findings.iter().find_map(|f| match &f.outcome {
            Outcome::NotChecked { missing } if f.check == Check::Stability => Some(missing.clone()),
            _ => None,
        })
    {
        result.why_not = Some(missing);
    }
    (result, findings)
}

/// Below this it is level, rad: a tenth of the last digit printed.
const LEVEL_RAD: f64 = 1e-5;

/// The level with stretched legs, in words.
fn stretched(plan: &Plan, house: &HouseBox, hung: Result<Hung, String>) -> Stretched {
    let limit = level_limit(plan);
    let hung = match hung {
        Ok(hung) => hung,
        Err(why) => {
            return Stretched {
                along: None,
                across: None,
                hook_above: None,
                beyond_level: limit.map(|_| true),
                words: format!("with its legs stretched to their soft end it does not hang: {why}"),
            };
        }
    };
    let low = |way: &str, rad: f64, names: [&str; 2]| {
        if rad.abs() < LEVEL_RAD {
            return format!("level {way}");
        }
        let angle = show(Angle::rad(rad.abs()), Unit::Deg, 2, Safe::Up);
        format!("{} {angle} low", names[usize::from(rad > 0.0)])
    };
    let (along, across) = (hung.along.tilt_rad, hung.across.tilt_rad);
    let beyond_level = limit.map(|limit| along.abs().max(across.abs()) > limit.to_rad());
    let advice = match beyond_level {
        Some(true) => "; beyond the level limit: expect to re-rig",
        Some(false) => "; within the level limit",
        None => "",
    };
    Stretched {
        along: Some(Angle::rad(along)),
        across: Some(Angle::rad(across)),
        hook_above: Some(Length::m(hung.hook_above_floor_m)),
        beyond_level,
        words: format!(
            "with its legs stretched to their soft end: {}, {}{advice}",
            low("along", along, [end_name(house, 0), end_name(house, 1)]),
            low("across", across, [side_name(house, 0), side_name(house, 1)])
        ),
    }
}

/// Why there is no hang: a number is missing, or the load does not hang so.
pub enum Why {
    Missing(String),
    NoHang(String),
}

impl From<String> for Why {
    fn from(reason: String) -> Self {
        Self::NoHang(reason)
    }
}

impl From<Why> for String {
    fn from(why: Why) -> Self {
        match why {
            Why::Missing(what) | Why::NoHang(what) => what,
        }
    }
}

pub fn hanging_load<'a>(
    plan: &'a Plan,
    lift: &Lift,
    load: &LoadResult,
    cg_m: Option<[f64; 3]>,
) -> Result<(&'a HouseBox, HangingLoad), Why> {
    let missing = |text: &str| Why::Missing(text.to_owned());
    let Load::Box { id } = &lift.load else {
        return Err(missing(
            "this rig is for a box: choose a rig that only gives its hook height",
        ));
    };
    let house = plan
        .house_box(id)
        .ok_or_else(|| Why::Missing(format!("box {id} is not in the plan")))?;
    let mass_kg = load.planned_kg.ok_or_else(|| missing("the weight of the load"))?;
    let cg_m = cg_m.ok_or_else(|| missing("the centre of gravity"))?;
    let picks: Option<Vec<[f64; 3]>> = house.picks.iter().map(|p| p.metres()).collect();
    let picks = picks.ok_or_else(|| missing("a pick point has no place: x, y and z"))?;
    let listed = plan
        .rig(&lift.rig)
        .is_some_and(|rig| matches!(rig.arrangement, Arrangement::PieceByPiece { .. }));
    if !listed && picks.len() != 4 {
        return Err(Why::Missing(format!(
            "{} pick points entered, four are expected; for another number enter the rig piece by piece",
            picks.len()
        )));
    }
    let size = house
        .length
        .not_negative()
        .zip(house.width.not_negative())
        .zip(house.height.not_negative());
    let ((length, width), height) = size.ok_or_else(|| missing("the box's length, width and height"))?;
    let load = HangingLoad {
        mass_kg,
        cg_m,
        picks_m: picks,
        edges_m: edges_m(house)?,
        length_m: length.to_m(),
        width_m: width.to_m(),
        height_m: height.to_m(),
    };
    Ok((house, load))
}

/// The edges that straps may bend round, m.
fn edges_m(house: &HouseBox) -> Result<Vec<[[f64; 3]; 2]>, Why> {
    let ends = |edge: &BoxEdge| {
        let places = edge.from.metres().zip(edge.to.metres());
        places.map(|(from_m, to_m)| [from_m, to_m]).ok_or_else(|| {
            Why::Missing(format!(
                "edge {} of box {} has no place: x, y and z of both ends",
                edge.id, house.id
            ))
        })
    };
    house.edges.iter().map(ends).collect()
}

pub fn set_up(plan: &Plan, rig: &Rig, house: &HouseBox) -> Result<SlingSetUp, Why> {
    match &rig.arrangement {
        Arrangement::FourLegs { legs: [a, b, c, d] } => Ok(SlingSetUp::FourLegs {
            legs: [line(plan, a)?, line(plan, b)?, line(plan, c)?, line(plan, d)?],
        }),
        Arrangement::BarAndCrossBars {
            bar,
            bar_lugs,
            top,
            cross_bar,
            cross_lugs,
            bridles,
            straps,
        } => {
            let pair =
                |legs: &[Leg; 2]| -> Result<[Line; 2], Why> { Ok([line(plan, &legs[0])?, line(plan, &legs[1])?]) };
            Ok(SlingSetUp::BarAndCrossBars {
                bar_kg: mass_kg_of(gear(plan, bar)?)?,
                bar_lugs_m: positive_m(bar_lugs, "distance between the bar's lugs")?,
                top: pair(top)?,
                cross_kg: mass_kg_of(gear(plan, cross_bar)?)?,
                cross_lugs_m: positive_m(cross_lugs, "distance between the cross bar's lugs")?,
                bridles: [pair(&bridles[0])?, pair(&bridles[1])?],
                straps: [pair(&straps[0])?, pair(&straps[1])?],
            })
        }
        Arrangement::PieceByPiece { hung, legs } => Ok(SlingSetUp::Pieces {
            hung: hung
                .iter()
                .map(|piece| hung_body(plan, piece))
                .collect::<Result<_, _>>()?,
            legs: legs
                .iter()
                .enumerate()
                .map(|(index, leg)| Ok((line(plan, leg)?, runs(index, &leg.runs, hung, house)?)))
                .collect::<Result<_, Why>>()?,
        }),
        Arrangement::Simple { .. } => Err(Why::Missing("this rig gives no legs".into())),
    }
}

fn hung_body(plan: &Plan, piece: &HungPiece) -> Result<HungBody, Why> {
    let lugs_m: Option<Vec<[f64; 3]>> = piece.lugs.iter().map(|lug| lug.metres()).collect();
    let lugs_m = lugs_m.ok_or_else(|| Why::Missing(format!("a lug of {} has no place: x, y and z", piece.id)))?;
    let middle_m =
        core::array::from_fn(|axis| lugs_m.iter().map(|lug| lug[axis]).sum::<f64>() / lugs_m.len().max(1) as f64);
    let blank = [&piece.cg.x, &piece.cg.y, &piece.cg.z]
        .iter()
        .all(|entry| entry.is_blank());
    let cg_m = if blank { Some(middle_m) } else { piece.cg.metres() };
    Ok(HungBody {
        mass_kg: mass_kg_of(gear(plan, &piece.gear)?)?,
        cg_m: cg_m.ok_or_else(|| Why::Missing(format!("centre of gravity of {}: x, y and z", piece.id)))?,
        lugs_m,
    })
}

/// Reads where a leg runs: "hook > K1.2 > pick 3".
fn runs(index: usize, text: &str, hung: &[HungPiece], house: &HouseBox) -> Result<Vec<Run>, Why> {
    let numbered = |number: &str, count: usize| {
        let number: usize = number.trim().parse().ok()?;
        (1..=count).contains(&number).then(|| number - 1)
    };
    let is = |id: &Id, name: &str| id.as_str().trim().eq_ignore_ascii_case(name);
    let stop = |word: &str| {
        if word.eq_ignore_ascii_case("hook") {
            return Some(Run::Hook);
        }
        if let Some(edge) = house.edges.iter().position(|edge| is(&edge.id, word)) {
            return Some(Run::Edge(edge));
        }
        if let Some(piece) = hung.iter().position(|piece| is(&piece.id, word)) {
            return (hung[piece].lugs.len() <= 1).then_some(Run::Lug { piece, lug: 0 });
        }
        if let Some((name, lug)) = word.rsplit_once('.')
            && let Some(piece) = hung.iter().position(|piece| is(&piece.id, name.trim()))
        {
            return numbered(lug, hung[piece].lugs.len()).map(|lug| Run::Lug { piece, lug });
        }
        let (name, pick) = word.rsplit_once(' ')?;
        let pick = numbered(pick, house.picks.len())?;
        name.trim().eq_ignore_ascii_case("pick").then_some(Run::Pick(pick))
    };
    let read: Result<Vec<Run>, &str> = text
        .split('>')
        .map(str::trim)
        .map(|word| stop(word).ok_or(word))
        .collect();
    let expected =
        "\"hook\", \"pick 1\", a piece with its lug such as \"K1.2\", or an edge of the box, with \">\" between";
    let wrong = |what: String| Why::Missing(format!("leg {} runs \"{}\": {what}", index + 1, text.trim()));
    let runs = read.map_err(|word| wrong(format!("\"{word}\" was read, expected is {expected}")))?;
    let on_edge = |run: Option<&Run>| matches!(run, Some(Run::Edge(_)));
    if runs.len() < 2 || on_edge(runs.first()) || on_edge(runs.last()) {
        return Err(wrong(format!(
            "a leg has two ends, neither of them on an edge; expected is {expected}"
        )));
    }
    if runs.windows(2).any(|pair| pair[0] == pair[1]) {
        return Err(wrong("the same place stands twice in a row".into()));
    }
    Ok(runs)
}

fn line(plan: &Plan, leg: &Leg) -> Result<Line, Why> {
    Ok(Line {
        length_m: leg_m_of(plan, leg)?,
        ea_n: Some(leg_ea_n(plan, leg)?),
    })
}

fn gear<'a>(plan: &'a Plan, id: &Id) -> Result<&'a GearItem, Why> {
    plan.gear_item(id).ok_or_else(|| {
        Why::Missing(if id.is_empty() {
            "a piece of the rig is not chosen".into()
        } else {
            format!("{id} is not on the truck's list")
        })
    })
}

fn mass_kg_of(item: &GearItem) -> Result<f64, Why> {
    item.mass
        .not_negative()
        .map(|m| m.to_kg())
        .ok_or_else(|| Why::Missing(format!("own weight of {} ({})", item.id, item.name)))
}

fn positive_m(entry: &Entry<Length>, what: &str) -> Result<f64, Why> {
    match entry.not_negative().map(|l| l.to_m()) {
        Some(m) if m > 0.0 => Ok(m),
        Some(m) => Err(Why::Missing(format!(
            "{what}: {} was read, a length above nothing is expected",
            both(m)
        ))),
        None => Err(Why::Missing(format!("{what} not entered"))),
    }
}

/// Length of a leg: its sling and what is added.
fn leg_m_of(plan: &Plan, leg: &Leg) -> Result<f64, Why> {
    Ok(leg_parts(plan, leg)?.iter().map(|(length_m, _)| length_m).sum())
}

/// Length, m, and EA, soft and stiff end, N, of everything in a leg. Shackles and adjusters stretch by nothing beside a sling.
fn leg_parts(plan: &Plan, leg: &Leg) -> Result<Vec<(f64, [f64; 2])>, Why> {
    let sling = gear(plan, &leg.sling)?;
    let sling_m = positive_m(&sling.length, &format!("length of {} ({})", sling.id, sling.name))?;
    let mut parts = vec![(sling_m, ea_n(sling))];
    if leg.links > 0 {
        let shortener = gear(plan, &leg.shortener).map_err(|_| {
            Why::Missing(format!(
                "{} links on {}: choose the shortener that they belong to",
                leg.links, leg.sling
            ))
        })?;
        let link_m = positive_m(&shortener.length, &format!("link pitch of {}", shortener.id))?;
        parts.push((f64::from(leg.links) * link_m, ea_n(shortener)));
    }
    if leg.shackles > 0 {
        let shackle = gear(plan, &leg.shackle)
            .map_err(|_| Why::Missing(format!("{} shackles on {}: choose which", leg.shackles, leg.sling)))?;
        let one_m = positive_m(&shackle.length, &format!("length that one {} adds", shackle.id))?;
        parts.push((f64::from(leg.shackles) * one_m, [rigging::STIFF_N; 2]));
    }
    if !leg.adjuster.is_empty() {
        parts.push((set_m(gear(plan, &leg.adjuster)?, leg)?, [rigging::STIFF_N; 2]));
    }
    Ok(parts)
}

/// Length that a leg's adjuster is set to, m, within its travel.
fn set_m(adjuster: &GearItem, leg: &Leg) -> Result<f64, Why> {
    let set_m = positive_m(&leg.set_to, &format!("length that {} is set to", adjuster.id))?;
    let shortest_m = positive_m(&adjuster.length, &format!("shortest length of {}", adjuster.id))?;
    let longest_m = positive_m(&adjuster.longest, &format!("longest length of {}", adjuster.id))?;
    let hair_m = 1e-6;
    if set_m < shortest_m - hair_m || set_m > longest_m + hair_m {
        return Err(Why::Missing(format!(
            "{} set to {}: it goes from {} to {}",
            adjuster.id,
            both(set_m),
            both(shortest_m),
            both(longest_m)
        )));
    }
    Ok(set_m)
}

/// EA of a leg, soft and stiff end, N: its parts in a row. What is not known runs from the softest web to no stretch.
fn leg_ea_n(plan: &Plan, leg: &Leg) -> Result<[f64; 2], Why> {
    let parts = leg_parts(plan, leg)?;
    Ok([0, 1].map(|end| {
        let in_a_row: Vec<(f64, f64)> = parts.iter().map(|(length_m, ea_n)| (*length_m, ea_n[end])).collect();
        rigging::in_series_n(&in_a_row)
    }))
}

pub fn ea_n(item: &GearItem) -> [f64; 2] {
    let rating_n = item.rating.not_negative().map(|m| m.weight().to_n());
    stiffness_of(item).map_or_else(|| rigging::unknown_stiffness_n(rating_n), |ea| [ea.soft_n, ea.stiff_n])
}

/// How a piece stretches, with the source; `None` where it cannot be known from what is entered.
pub fn stiffness_of(item: &GearItem) -> Option<rigging::AxialStiffness> {
    let rating_n = item.rating.not_negative().map(|m| m.weight().to_n());
    let diameter_m = item.diameter.not_negative().map(|d| d.to_m());
    rigging::axial_stiffness(item.construction, diameter_m, rating_n)
}

/// The plan's leg behind a member of the hang.
pub fn leg_of(rig: &Rig, kind: MemberKind) -> Option<&Leg> {
    match (&rig.arrangement, kind) {
        (Arrangement::FourLegs { legs }, MemberKind::Leg(Corner { end, side })) => legs.get(2 * end + side),
        (Arrangement::PieceByPiece { legs, .. }, MemberKind::Line(index)) => legs.get(index),
        (Arrangement::BarAndCrossBars { top, .. }, MemberKind::Top { end }) => top.get(end),
        (Arrangement::BarAndCrossBars { bridles, .. }, MemberKind::Bridle(c)) => bridles.get(c.end)?.get(c.side),
        (Arrangement::BarAndCrossBars { straps, .. }, MemberKind::Strap(c)) => straps.get(c.end)?.get(c.side),
        _ => None,
    }
}

fn hang_findings(plan: &Plan, house: &HouseBox, hung: &Hung) -> Vec<Finding> {
    let mut findings = vec![
        level_finding(plan, Check::LevelAlong, hung.along, &house.ends),
        level_finding(plan, Check::LevelAcross, hung.across, &house.sides),
    ];
    findings.extend(
        hung.members
            .iter()
            .filter_map(|member| angle_finding(plan, house, member)),
    );
    findings
}

/// The steepest a load may hang under one hook, °. Source: Noble Denton 0027/ND rev 11 §5.3.2.
const ONE_HOOK_DEG: f64 = 2.0;
/// A rise over the length that a box can still be seated with, m. Common practice, no source.
const SEATING_M: f64 = 0.05;

/// How far out of level a box may hang: what is entered, and never more than under one hook.
pub fn level_limit(plan: &Plan) -> Option<Angle> {
    let (entered, most) = (plan.limits.level.not_negative()?, Angle::deg(ONE_HOOK_DEG));
    Some(if entered < most { entered } else { most })
}

fn level_finding(plan: &Plan, check: Check, level: Level, names: &[String; 2]) -> Finding {
    let low = usize::from(level.tilt_rad > 0.0);
    let name = if names[low].is_empty() {
        ["first", "second"][low]
    } else {
        &names[low]
    };
    let tilt = Angle::rad(level.tilt_rad.abs());
    let subject = format!("{name} low");
    let Some(limit) = level_limit(plan) else {
        return Finding::not_checked(check, subject, "the level limit is not entered in the limits");
    };
    let mut finding = Finding::at_most(check, subject, tilt.into(), limit.into());
    if plan.limits.level.not_negative().is_some_and(|entered| entered > limit) {
        finding = finding
            .caution("2° is the most under one hook, whatever limit is entered (Noble Denton 0027/ND rev 11 §5.3.2)");
    }
    if check == Check::LevelAlong && level.rise_m.abs() > SEATING_M {
        finding = finding.caution(format!(
            "{} out of level over the length: more than 50 mm is hard to seat (common practice, no source)",
            both(level.rise_m.abs())
        ));
    }
    let Some((offset_m, margin_m)) = level.offset_m.zip(level.margin_m) else {
        return finding;
    };
    let working = Working::new(
        "tilt as rigged",
        "φ",
        "atan(e/H)",
        tilt,
        "equilibrium of box, bars and hook; docs/method.md",
    )
    .input(
        "e",
        "combined centre of gravity beside the hook's plumb",
        Length::m(offset_m.abs()),
    )
    .input("H", "righting height of the load", Length::m(margin_m));
    finding.working([working])
}

/// "short top leg, kitchen end" and the like.
pub fn member_name(house: &HouseBox, kind: MemberKind) -> String {
    match kind {
        MemberKind::Leg(c) => format!("leg, {}", corner_name(house, c)),
        MemberKind::Top { end } => format!("top leg, {}", end_name(house, end)),
        MemberKind::Bridle(c) => format!("bridle leg, {}", corner_name(house, c)),
        MemberKind::Strap(c) => format!("strap, {}", corner_name(house, c)),
        MemberKind::Line(index) => format!("leg {}", index + 1),
    }
}

/// An end of the box in words, 0 the first.
pub fn end_name(house: &HouseBox, end: usize) -> &str {
    if house.ends[end].is_empty() {
        ["first end", "second end"][end]
    } else {
        &house.ends[end]
    }
}

/// A side of the box in words, 0 the first.
pub fn side_name(house: &HouseBox, side: usize) -> &str {
    if house.sides[side].is_empty() {
        ["first side", "second side"][side]
    } else {
        &house.sides[side]
    }
}

/// A corner of the box in words: "west end / north side".
pub fn corner_name(house: &HouseBox, corner: Corner) -> String {
    format!("{} / {}", end_name(house, corner.end), side_name(house, corner.side))
}

/// The factor on static loads; below 1 it would take load away and counts as not entered.
pub fn dynamic_factor(plan: &Plan) -> Option<Ratio> {
    plan.limits.dynamic_factor.get().filter(|factor| factor.to_of() >= 1.0)
}

fn angle_finding(plan: &Plan, house: &HouseBox, member: &Member) -> Option<Finding> {
    if matches!(member.kind, MemberKind::Strap(_)) {
        return None;
    }
    let name = member_name(house, member.kind);
    let angle = Angle::rad(member.angle_rad);
    let Some(stop) = plan.limits.leg_angle_stop.not_negative() else {
        return Some(Finding::not_checked(
            Check::LegAngle,
            name,
            "the flattest leg angle is not entered in the limits",
        ));
    };
    let mut finding = Finding::at_least(Check::LegAngle, name, stop.into(), angle.into());
    if let Some(caution) = plan.limits.leg_angle_caution.not_negative()
        && angle < caution
        && finding.outcome.is_within()
    {
        finding = finding.caution(format!("flatter than {:.0}° from the horizontal", caution.to_deg()));
    }
    Some(finding)
}

/// The pieces of a leg, each as often as it is in it; what joins its upper end for all legs there is left out.
fn pieces_of(leg: &Leg) -> impl Iterator<Item = &Id> {
    let shackles = core::iter::repeat_n(&leg.shackle, leg.shackles as usize);
    core::iter::once(&leg.sling)
        .chain((leg.links > 0).then_some(&leg.shortener))
        .chain(shackles)
        .chain([&leg.adjuster, &leg.below])
        .chain((!leg.above_takes_all).then_some(&leg.above))
}

/// What joins the upper ends of several legs: once for the legs that it takes together.
fn joining<'a>(legs: impl Iterator<Item = &'a Leg>) -> Vec<&'a Id> {
    let mut joined: Vec<&Id> = Vec::new();
    for leg in legs.filter(|leg| leg.above_takes_all) {
        if !joined.contains(&&leg.above) {
            joined.push(&leg.above);
        }
    }
    joined
}

/// Every piece that the legs and bars of an arrangement name, each as often as it is used; names may be empty.
pub fn named_pieces(arrangement: &Arrangement) -> Vec<&Id> {
    let mut names = Vec::new();
    match arrangement {
        Arrangement::FourLegs { legs } => {
            names.extend(legs.iter().flat_map(pieces_of));
            names.extend(joining(legs.iter()));
        }
        Arrangement::PieceByPiece { hung, legs } => {
            names.extend(hung.iter().map(|piece| &piece.gear));
            names.extend(legs.iter().flat_map(pieces_of));
            let mut starts: Vec<&str> = Vec::new();
            for start in legs.iter().map(start_of) {
                if !starts.contains(&start) {
                    starts.push(start);
                    names.extend(joining(legs.iter().filter(|leg| start_of(leg) == start)));
                }
            }
        }
        Arrangement::BarAndCrossBars {
            bar,
            top,
            cross_bar,
            bridles,
            straps,
            ..
        } => {
            names.extend([bar, cross_bar, cross_bar]);
            let pairs = core::iter::once(top).chain(bridles);
            for pair in pairs {
                names.extend(pair.iter().flat_map(pieces_of));
                names.extend(joining(pair.iter()));
            }
            for strap in straps.iter().flatten() {
                names.extend(pieces_of(strap));
                names.extend(joining(core::iter::once(strap)));
            }
        }
        Arrangement::Simple { .. } => {}
    }
    names
}

/// Where a leg of a rig entered piece by piece begins, as typed.
fn start_of(leg: &Leg) -> &str {
    leg.runs.split('>').next().unwrap_or_default().trim()
}

/// Every leg of an arrangement.
pub fn legs_of(arrangement: &Arrangement) -> Vec<&Leg> {
    match arrangement {
        Arrangement::FourLegs { legs } => legs.iter().collect(),
        Arrangement::BarAndCrossBars {
            top, bridles, straps, ..
        } => {
            let lower = bridles.iter().flatten().chain(straps.iter().flatten());
            top.iter().chain(lower).collect()
        }
        Arrangement::PieceByPiece { legs, .. } => legs.iter().collect(),
        Arrangement::Simple { .. } => Vec::new(),
    }
}

/// How often a piece is in the legs themselves: sling, links, stack or adjuster, not what joins their ends.
pub fn times_in_legs(arrangement: &Arrangement, id: &Id) -> usize {
    let in_leg = |leg: &Leg| {
        let stack = if leg.shackle == *id { leg.shackles as usize } else { 0 };
        let once = [
            leg.sling == *id,
            leg.links > 0 && leg.shortener == *id,
            leg.adjuster == *id,
        ];
        stack + once.into_iter().filter(|named| *named).count()
    };
    legs_of(arrangement).into_iter().map(in_leg).sum()
}
