//! Bars, frames and beams of a rig: by their certificate at the span and the angle they are used at, and by their steel where that is entered.

use super::load_path::{BAR, CROSS_BAR, Path, PathPiece, on_truck, rating_kg};
use super::rigs::end_name;
use crate::check::{Amount, Check, Finding, Outcome, Working};
use crate::gear::bar::{self, Bar, Combined, Cut, Pull, Section};
use crate::gear::lug::Lug;
use crate::plan::{Arrangement, BarForm, BarSteel, GearItem, GearKind, HungPiece, Id};
use crate::quantity::{Angle, Area, Entry, Length, Mass, Pressure, Ratio, SecondMoment, both};
use crate::rigging::MemberKind;

/// A bar at rest: what its certificate is for, and what acts on it.
struct BarUse {
    tier: u8,
    place: String,
    gear: Id,
    /// What hangs below it, kg, without factors.
    below_kg: f64,
    /// Between the lugs in use.
    span_m: f64,
    /// Flattest leg above it, rad from the horizontal; none pulls slantwise on a beam.
    angle_rad: Option<f64>,
    /// Axis and pulls, N with factors; or why they are not known.
    acts: Result<([[f64; 3]; 2], Vec<Pull>), String>,
    /// Largest pull on one lug, N with factors.
    lug_n: f64,
}

/// Every bar of the rig with its findings.
pub(super) fn bar_pieces(path: &Path<'_>) -> Vec<PathPiece> {
    let uses = match &path.rig.arrangement {
        Arrangement::BarAndCrossBars { bar, cross_bar, .. } => cross_bar_rig(path, bar, cross_bar),
        Arrangement::PieceByPiece { hung, .. } => listed(path, hung),
        _ => Vec::new(),
    };
    uses.iter().flat_map(|one| checked(path, one)).collect()
}

fn checked(path: &Path<'_>, used: &BarUse) -> Vec<PathPiece> {
    let subject = format!("{} ({})", used.place, used.gear);
    let findings = match on_truck(path.plan, &used.gear) {
        Ok(item) if item.kind == GearKind::Block || used.span_m == 0.0 => vec![marked(path, item, used, subject)],
        Ok(item) => {
            let mut findings = vec![certificate(path, item, used, subject.clone())];
            findings.extend(
                item.steel
                    .as_ref()
                    .map(|steel| by_steel(path, item, steel, used, &subject)),
            );
            findings.extend(item.lug.as_ref().map(|_| by_lug(item, used, &subject)));
            findings
        }
        Err(missing) => vec![Finding::not_checked(Check::Gear, subject, missing)],
    };
    let piece = |finding: Finding| PathPiece {
        tier: used.tier,
        place: used.place.clone(),
        role: "bar",
        gear: used.gear.clone(),
        finding,
    };
    findings.into_iter().map(piece).collect()
}

/// What hangs below a piece against the rating marked on it.
fn marked(path: &Path<'_>, item: &GearItem, used: &BarUse, subject: String) -> Finding {
    match rating_kg(path.plan, item) {
        Ok(kg) => path
            .factors
            .finding(Check::Gear, subject, path.factors.load_kg(used.below_kg), kg),
        Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
    }
}

/// Legs steeper than this pull plumb: 89° from the horizontal, which squeezes a bar by less than a fiftieth.
const PLUMB_RAD: f64 = 89.0 * core::f64::consts::PI / 180.0;

/// A rating holds for the span and down to the angle that its certificate names, and for nothing beyond.
fn certificate(path: &Path<'_>, item: &GearItem, used: &BarUse, subject: String) -> Finding {
    const HAIR: f64 = 1e-9;
    let slants = |angle: &f64| *angle < PLUMB_RAD && (item.rated_angle.is_blank() || item.rated_span.is_blank());
    if let Some(angle) = used.angle_rad.filter(slants) {
        let missing = format!(
            "at which span and down to which angle from the horizontal the rating of {} holds: it is used at {} and {:.1}°",
            item.id,
            both(used.span_m),
            angle.to_degrees()
        );
        return Finding::not_checked(Check::Gear, subject, missing);
    }
    let beyond = |entry: Option<f64>, used: f64, sign: f64| entry.is_some_and(|rated| sign * (used - rated) > HAIR);
    let wide = beyond(item.rated_span.not_negative().map(Length::to_m), used.span_m, 1.0);
    let flat = used
        .angle_rad
        .is_some_and(|angle| beyond(item.rated_angle.not_negative().map(Angle::to_rad), angle, -1.0));
    let finding = marked(path, item, used, subject.clone());
    if !(wide || flat) || !finding.outcome.is_within() && finding.ratio.is_none() {
        return finding;
    }
    let mut beyond = Vec::new();
    if let Some(rated) = item.rated_span.get().filter(|_| wide) {
        beyond.push(format!(
            "to a span of {}, used at {}",
            both(rated.to_m()),
            both(used.span_m)
        ));
    }
    if let Some((rated, angle)) = item.rated_angle.get().zip(used.angle_rad).filter(|_| flat) {
        let angle = angle.to_degrees();
        beyond.push(format!(
            "down to {:.0}° from the horizontal, used at {angle:.1}°",
            rated.to_deg()
        ));
    }
    let text = format!("{subject}: rated {}", beyond.join(" and "));
    Finding::of(Check::Gear, text, Outcome::Outside)
}

/// Compression and bending together, by ASME BTH-1.
fn by_steel(path: &Path<'_>, item: &GearItem, steel: &BarSteel, used: &BarUse, subject: &str) -> Finding {
    let subject = format!("{subject}, by its steel");
    let worked = section(item, steel).and_then(|(section, yield_pa)| {
        let (axis, pulls) = used.acts.as_ref().map_err(Clone::clone)?;
        let mass = item
            .mass
            .not_negative()
            .ok_or_else(|| format!("own weight of {}", item.id))?;
        let bar = Bar {
            section,
            yield_pa,
            category: steel.category,
            length_m: used.span_m,
        };
        let weight = Mass::kg(path.factors.load_kg(mass.to_kg())).weight();
        let cuts: Vec<Cut> = bar::cuts(*axis, pulls, weight.to_n());
        let worst = bar.worst(&cuts).ok_or_else(|| format!("the lugs of {}", item.id))?;
        Ok((bar, worst))
    });
    match worked {
        Ok((bar, worst)) => {
            if !worst.used.is_finite() {
                let text =
                    format!("{subject}: its compression alone reaches the load at which a strut of its length buckles");
                return Finding::of(Check::Gear, text, Outcome::Outside);
            }
            Finding::at_most(
                Check::Gear,
                subject,
                Ratio::of(worst.used).into(),
                Ratio::of(1.0).into(),
            )
            .working(stress_working(&bar, &worst))
        }
        Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
    }
}

fn positive<Q: crate::quantity::Readable>(
    entry: &Entry<Q>,
    si: fn(Q) -> f64,
    what: &str,
    id: &Id,
) -> Result<f64, String> {
    let value = entry.get().map(si).filter(|x| *x > 0.0);
    value.ok_or_else(|| format!("{what} of {id}, above nothing"))
}

fn section(item: &GearItem, steel: &BarSteel) -> Result<(Section, f64), String> {
    let id = &item.id;
    let yield_pa = positive(&steel.strength, Pressure::to_pa, "yield strength", id)?;
    let outside = || positive(&steel.outside, Length::to_m, "outside measure or depth", id);
    let wall = || positive(&steel.wall, Length::to_m, "thickness of the wall", id);
    let section = match steel.form {
        BarForm::Pipe => Section::pipe(outside()?, wall()?),
        BarForm::SquareTube => Section::square_tube(outside()?, wall()?),
        BarForm::Closed => Section::by_figures(
            positive(&steel.area, Area::to_m2, "area of the section", id)?,
            positive(&steel.second_moment, SecondMoment::to_m4, "second moment of area", id)?,
            positive(&steel.radius, Length::to_m, "radius of gyration", id)?,
            outside()?,
        ),
    };
    let section = section
        .ok_or_else(|| format!("section of {id}: its wall is thicker than half of it, enter outside and wall anew"))?;
    if section.is_thin_walled(yield_pa) {
        return Err(format!(
            "{id} has so thin a wall that it may buckle locally, for which nothing here stands: ask an engineer"
        ));
    }
    Ok((section, yield_pa))
}

const BTH: &str = "ASME BTH-1, from memory: look the edition in force up";

fn stress_working(bar: &Bar, worst: &Combined) -> Vec<Working> {
    let stress = |pa: f64| Amount::Stress(Pressure::pa(pa));
    let factor = Amount::Factor(bar.category.factor());
    vec![
        Working::new(
            "compression",
            "fa",
            "C/A",
            stress(worst.axial_pa),
            "stress over the whole section",
        )
        .input(
            "C",
            "compression at the worst cut",
            crate::quantity::Force::n(worst.cut.compression_n),
        ),
        Working::new(
            "allowed compression",
            "Fa",
            "by KL/r, Fy and Nd",
            stress(worst.allowed_axial_pa),
            BTH,
        )
        .input("KL/r", "slenderness, K 1", Amount::Factor(worst.slenderness))
        .input("Fy", "yield strength", stress(bar.yield_pa))
        .input("Nd", "design factor", factor),
        Working::new(
            "bending",
            "fb",
            "M/S",
            stress(worst.bending_pa),
            "own weight, and lugs beside the axis",
        ),
        Working::new("allowed bending", "Fb", "Fy/Nd", stress(worst.allowed_bending_pa), BTH)
            .input("Fy", "yield strength", stress(bar.yield_pa))
            .input("Nd", "design factor", factor),
        Working::new(
            "use of the section",
            "u",
            "max(fa/Fa + fb/[(1 − fa/Fe)·Fb], fa/(Fy/Nd) + fb/Fb)",
            Ratio::of(worst.used),
            BTH,
        )
        .input("fa", "compression", stress(worst.axial_pa))
        .input("Fa", "allowed compression", stress(worst.allowed_axial_pa))
        .input("fb", "bending", stress(worst.bending_pa))
        .input("Fb", "allowed bending", stress(worst.allowed_bending_pa))
        .input("Fe", "Euler's stress over 1.15 Nd", stress(worst.euler_pa))
        .input("Fy", "yield strength", stress(bar.yield_pa))
        .input("Nd", "design factor", factor),
    ]
}

/// The lug that is pulled hardest, by its steel.
fn by_lug(item: &GearItem, used: &BarUse, subject: &str) -> Finding {
    let subject = format!("{subject}, its lugs by their steel");
    match lug(item) {
        Ok(lug) => {
            let (way, least_n) = lug.strength().least();
            let kg = |n: f64| crate::quantity::Force::n(n).as_mass();
            Finding::at_most(
                Check::Gear,
                format!("{subject}: {way}"),
                kg(used.lug_n).into(),
                kg(least_n).into(),
            )
            .working([Working::new(
                "what the lug holds",
                "P",
                "least of five ways to fail",
                kg(least_n),
                BTH,
            )])
        }
        Err(missing) => Finding::not_checked(Check::Gear, subject, missing),
    }
}

fn lug(item: &GearItem) -> Result<Lug, String> {
    let entered = item.lug.as_ref().ok_or_else(|| format!("lugs of {}", item.id))?;
    let id = &item.id;
    let m = |entry: &Entry<Length>, what: &str| positive(entry, Length::to_m, what, id);
    let pa = |entry: &Entry<Pressure>, what: &str| positive(entry, Pressure::to_pa, what, id);
    let lug = Lug {
        thickness_m: m(&entered.thickness, "thickness of the lug")?,
        hole_m: m(&entered.hole, "hole of the lug")?,
        pin_m: m(&entered.pin, "pin in the lug")?,
        end_m: m(&entered.end, "hole to edge of the lug, along the pull,")?,
        side_m: m(&entered.side, "hole to edge of the lug, square to the pull,")?,
        yield_pa: pa(&entered.strength, "yield strength of the lug")?,
        ultimate_pa: pa(&entered.ultimate, "ultimate strength of the lug")?,
        category: item.steel.as_ref().map(|steel| steel.category).unwrap_or_default(),
    };
    lug.is_one().then_some(lug).ok_or_else(|| {
        format!("lugs of {id}: a pin thicker than its hole, or a yield strength above the ultimate one, was read")
    })
}

fn length_n(force: [f64; 3]) -> f64 {
    force.iter().map(|x| x * x).sum::<f64>().sqrt()
}

/// A lug's offset from the axis, with the sign of its side.
fn offset_m(item: Option<&GearItem>, upper: bool) -> Result<f64, String> {
    let steel = item
        .and_then(|item| item.steel.as_ref())
        .ok_or("the steel of the bar")?;
    let (entry, what, sign) = if upper {
        (&steel.lug_above, "upper lugs above its axis", 1.0)
    } else {
        (&steel.lug_below, "lower lugs below its axis", -1.0)
    };
    let id = item.map(|item| item.id.to_string()).unwrap_or_default();
    let m = entry.not_negative().map(Length::to_m);
    m.map(|m| sign * m)
        .ok_or_else(|| format!("how far the {what} are on {id}"))
}

fn cross_bar_rig(path: &Path<'_>, bar: &Id, cross_bar: &Id) -> Vec<BarUse> {
    let hung = path.hung;
    let of = |want: fn(MemberKind) -> Option<usize>| -> Vec<(usize, usize)> {
        let members = hung.members.iter().enumerate();
        members
            .filter_map(|(i, member)| Some((i, want(member.kind)?)))
            .collect()
    };
    let tops = of(|kind| match kind {
        MemberKind::Top { end } => Some(end),
        _ => None,
    });
    let bridles = of(|kind| match kind {
        MemberKind::Bridle(c) => Some(2 * c.end + c.side),
        _ => None,
    });
    let straps = of(|kind| match kind {
        MemberKind::Strap(c) => Some(2 * c.end + c.side),
        _ => None,
    });
    let mut uses = Vec::new();
    if let (Some(below_kg), Some(axis)) = (hung.below_bar_kg, hung.figure.bars_m.first()) {
        let above: Vec<_> = tops.iter().map(|(i, end)| (*i, *end)).collect();
        let below: Vec<_> = bridles.iter().map(|(i, corner)| (*i, corner / 2)).collect();
        uses.push(one_bar(
            path,
            (BAR, "the bar".into(), bar),
            below_kg,
            *axis,
            &above,
            &below,
        ));
    }
    for (end, below_kg) in hung.below_cross_kg.into_iter().flatten().enumerate() {
        let Some(axis) = hung.figure.bars_m.get(1 + end) else {
            continue;
        };
        let at_end = |list: &[(usize, usize)]| -> Vec<(usize, usize)> {
            let here = list.iter().filter(|(_, corner)| corner / 2 == end);
            here.map(|(i, corner)| (*i, corner % 2)).collect()
        };
        let name = format!("cross bar, {}", end_name(path.house, end));
        let at = (CROSS_BAR, name, cross_bar);
        uses.push(one_bar(path, at, below_kg, *axis, &at_end(&bridles), &at_end(&straps)));
    }
    uses
}

/// A bar with legs above and below its two ends: each a member and the end of the bar that it takes hold of.
fn one_bar(
    path: &Path<'_>,
    (tier, place, gear): (u8, String, &Id),
    below_kg: f64,
    axis: [[f64; 3]; 2],
    above: &[(usize, usize)],
    below: &[(usize, usize)],
) -> BarUse {
    let item = path.plan.gear_item(gear);
    let along: [f64; 3] = core::array::from_fn(|k| axis[1][k] - axis[0][k]);
    let span_m = length_n(along);
    let up = square_up(along);
    let pull = |(index, end): &(usize, usize), upper: bool| -> Result<Pull, String> {
        let offset_m = offset_m(item, upper)?;
        Ok(Pull {
            at_m: core::array::from_fn(|k| axis[*end][k] + offset_m * up[k]),
            // a leg pulls the bar towards its other end
            force_n: path.force_n(*index, upper),
        })
    };
    let pulls: Result<Vec<Pull>, String> = above
        .iter()
        .map(|leg| pull(leg, true))
        .chain(below.iter().map(|leg| pull(leg, false)))
        .collect();
    let largest = |legs: &[(usize, usize)], upper: bool| {
        let at_end = |end: usize| {
            let here = legs.iter().filter(|leg| leg.1 == end);
            let sum = here.fold([0.0; 3], |sum: [f64; 3], leg| {
                let force = path.force_n(leg.0, upper);
                core::array::from_fn(|k| sum[k] + force[k])
            });
            length_n(sum)
        };
        at_end(0).max(at_end(1))
    };
    let angles = above.iter().map(|(i, _)| path.hung.members[*i].angle_rad);
    BarUse {
        tier,
        place,
        gear: gear.clone(),
        below_kg,
        span_m,
        angle_rad: angles.reduce(f64::min),
        acts: pulls.map(|pulls| (axis, pulls)),
        lug_n: largest(above, true).max(largest(below, false)),
    }
}

/// Unit vector square to a direction, as much upwards as may be.
fn square_up(along: [f64; 3]) -> [f64; 3] {
    let length = length_n(along);
    if length == 0.0 {
        return [0.0, 0.0, 1.0];
    }
    let unit = along.map(|x| x / length);
    let up: [f64; 3] = core::array::from_fn(|k| if k == 2 { 1.0 } else { 0.0 } - unit[2] * unit[k]);
    let size = length_n(up);
    if size > 0.0 {
        up.map(|x| x / size)
    } else {
        [1.0, 0.0, 0.0]
    }
}

/// Pieces of a rig that is entered piece by piece, in the frame of their lugs as they hang level.
fn listed(path: &Path<'_>, pieces: &[HungPiece]) -> Vec<BarUse> {
    let below = pieces.iter().zip(&path.hung.pieces);
    below
        .map(|(piece, hung)| one_piece(path, piece, hung.below_kg))
        .collect()
}

fn one_piece(path: &Path<'_>, piece: &HungPiece, below_kg: f64) -> BarUse {
    let lugs: Vec<[f64; 3]> = piece.lugs.iter().filter_map(|lug| lug.metres()).collect();
    let far = farthest(&lugs);
    let pulls = pulls_at_lugs(path, piece, &lugs);
    let span_m = far.map_or(0.0, |[a, b]| {
        length_n(core::array::from_fn(|k| if k == 2 { 0.0 } else { b[k] - a[k] }))
    });
    let angle = pulls
        .iter()
        .filter(|(_, force)| force[2] > 0.0)
        .map(|(_, force)| libm::atan2(force[2], libm::hypot(force[0], force[1])));
    let angle_rad = angle.reduce(f64::min);
    BarUse {
        tier: BAR,
        place: format!("piece {}", piece.id),
        gear: piece.gear.clone(),
        below_kg,
        span_m,
        angle_rad,
        acts: acts(piece, &lugs, far, &pulls),
        lug_n: pulls.iter().map(|(_, force)| length_n(*force)).fold(0.0, f64::max),
    }
}

fn farthest(lugs: &[[f64; 3]]) -> Option<[[f64; 3]; 2]> {
    let apart = |a: &[f64; 3], b: &[f64; 3]| libm::hypot(b[0] - a[0], b[1] - a[1]);
    let pairs = lugs
        .iter()
        .enumerate()
        .flat_map(|(i, a)| lugs[i + 1..].iter().map(move |b| [*a, *b]));
    pairs.max_by(|x, y| apart(&x[0], &x[1]).total_cmp(&apart(&y[0], &y[1])))
}

/// Force at each lug of a piece, N with factors: the lug's place in the piece's own frame, and the force on the piece.
fn pulls_at_lugs(path: &Path<'_>, piece: &HungPiece, lugs: &[[f64; 3]]) -> Vec<([f64; 3], [f64; 3])> {
    let Arrangement::PieceByPiece { legs, .. } = &path.rig.arrangement else {
        return Vec::new();
    };
    let lug_of = |word: &str| -> Option<usize> {
        let word = word.trim();
        let (name, number) = word.rsplit_once('.').unwrap_or((word, "1"));
        let lug: usize = number.trim().parse().ok()?;
        let mine = name.trim().eq_ignore_ascii_case(piece.id.as_str().trim());
        (mine && (1..=lugs.len()).contains(&lug)).then(|| lug - 1)
    };
    let mut pulls = Vec::new();
    for (member, leg) in legs.iter().enumerate() {
        let words: Vec<&str> = leg.runs.split('>').collect();
        if let Some(lug) = words.first().and_then(|word| lug_of(word)) {
            pulls.push((lugs[lug], path.force_n(member, false)));
        }
        if let Some(lug) = words.last().and_then(|word| lug_of(word)) {
            pulls.push((lugs[lug], path.force_n(member, true)));
        }
    }
    pulls
}

/// Axis and pulls of a straight bar; a frame is not one.
fn acts(
    piece: &HungPiece,
    lugs: &[[f64; 3]],
    far: Option<[[f64; 3]; 2]>,
    pulls: &[([f64; 3], [f64; 3])],
) -> Result<([[f64; 3]; 2], Vec<Pull>), String> {
    const STRAIGHT_M: f64 = 0.01;
    let [a, b] = far.ok_or_else(|| format!("two lugs of piece {}", piece.id))?;
    let along = [b[0] - a[0], b[1] - a[1]];
    let span_m = libm::hypot(along[0], along[1]);
    let aside = |p: &[f64; 3]| ((p[0] - a[0]) * along[1] - (p[1] - a[1]) * along[0]).abs() / span_m;
    if span_m == 0.0 || lugs.iter().any(|lug| aside(lug) > STRAIGHT_M) {
        return Err(format!(
            "piece {} is no straight bar: a frame is checked by its certificate",
            piece.id
        ));
    }
    let middle_z = lugs.iter().map(|lug| lug[2]).sum::<f64>() / lugs.len() as f64;
    let axis_z = if piece.cg.z.is_blank() {
        middle_z
    } else {
        piece.cg.z.get().map_or(middle_z, Length::to_m)
    };
    let axis = [a, b].map(|p| [p[0], p[1], axis_z]);
    let pulls = pulls.iter().map(|(at_m, force_n)| Pull {
        at_m: *at_m,
        force_n: *force_n,
    });
    Ok((axis, pulls.collect()))
}
