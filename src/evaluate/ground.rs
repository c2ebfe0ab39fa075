//! Outriggers and what they stand on: loads on the pads, pressure under the mats, edges of excavations, the crane's level.

use super::crane_side::{CraneSide, outline_m};
use super::further::PlacedLift;
use super::swing::{Path, chart_of};
use super::{Assessment, CraneResult, LiftResult, crane_side};
use crate::check::{Amount, Check, Finding, Outcome, Working};
use crate::crane::{
    Base, PadLoads, Parts, RatingChart, Weights, around, bearing_pa, effective_side_m, rule_of_thumb_kg,
};
use crate::geometry::{contains, polygon_distance_m};
use crate::plan::{Crane, Plan, Zone, ZoneKind};
use crate::quantity::{Angle, Entry, Length, Mass, Pressure, Ratio, both};
use crate::rules::{Soil, presumed};
use core::f64::consts::TAU;

/// Where the load on a pad comes from, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadSource {
    /// The maker's sheet for the configuration.
    Sheet,
    /// Weights and arms of the crane's parts.
    Statics,
    /// A share of crane and load.
    RuleOfThumb,
}

impl LoadSource {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Sheet => "maker's sheet",
            Self::Statics => "statics over the swing",
            Self::RuleOfThumb => "rule of thumb",
        }
    }
}

/// The largest load on a pad, and how it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worst {
    /// Slew, from the carrier's front anticlockwise, rad.
    pub slew_rad: f64,
    /// On the pad that carries most, kg; infinite where the crane tips.
    pub kg: f64,
    /// Nothing on the hook.
    pub unloaded: bool,
}

/// Loads on the pads of one lift, by each way in which they are known.
#[derive(Clone, Debug, PartialEq)]
pub struct Outriggers {
    /// The maker's sheet, kg.
    pub sheet_kg: Option<f64>,
    /// Statics, over the swing with the load and all round without it.
    pub statics: Option<Worst>,
    /// What is missing for statics.
    pub statics_lack: Option<&'static str>,
    /// The rule of thumb, kg.
    pub thumb_kg: Option<f64>,
    /// Where the pads are.
    pub base: Option<Base>,
    /// With the load, at the largest and at the smallest radius; then without it, at the least radius of the boom.
    pub weights: Vec<Weights>,
    /// The way of the lift.
    pub path: Path,
    /// Gross load, kg.
    pub gross_kg: Option<f64>,
    /// Weight of the crane as it stands, kg.
    pub crane_kg: Option<f64>,
}

impl Outriggers {
    /// The load that counts and where it comes from: the maker's sheet before statics before the rule of thumb.
    pub fn counts(&self) -> Option<(f64, LoadSource)> {
        let statics = self.statics.map(|worst| (worst.kg, LoadSource::Statics));
        self.sheet_kg
            .map(|kg| (kg, LoadSource::Sheet))
            .or(statics)
            .or(self.thumb_kg.map(|kg| (kg, LoadSource::RuleOfThumb)))
    }

    /// Loads on the pads at a slew with the load at its largest radius; `None` where they are not known or it tips.
    pub fn at(&self, slew_rad: f64) -> Option<PadLoads> {
        self.weights.first()?.at(self.base?, slew_rad)
    }
}

/// The crane's parts with their arms, or what is missing.
fn parts(crane: &Crane, chart: Option<&RatingChart>) -> Result<Parts, &'static str> {
    let kg = |entry: &Entry<Mass>, what| entry.not_negative().map(Mass::to_kg).ok_or(what);
    let m = |entry: &Entry<Length>, what| entry.get().map(Length::to_m).ok_or(what);
    Ok(Parts {
        carrier: [
            kg(&crane.carrier_mass, "the carrier's weight")?,
            m(&crane.carrier_ahead, "the carrier's centre of gravity")?,
        ],
        upper: [
            kg(&crane.upper_mass, "the weight of the upper works")?,
            m(&crane.upper_behind, "the upper works' centre of gravity")?,
        ],
        counterweight: [
            chart
                .and_then(|chart| chart.configuration.counterweight.not_negative())
                .map(Mass::to_kg)
                .ok_or("the chart's counterweight")?,
            m(&crane.counterweight_behind, "the counterweight's centre of gravity")?,
        ],
        boom: [
            kg(&crane.boom_mass, "the boom's weight")?,
            crane
                .boom_cg
                .not_negative()
                .map(Ratio::to_of)
                .ok_or("the boom's centre of gravity")?,
        ],
        pin_back_m: m(&crane.pin_back, "the boom pin behind the slew axis")?,
    })
}

/// Loads on the pads of a lift; `None` where the lift has no way.
pub fn outriggers(plan: &Plan, crane: &CraneSide<'_>, lift: &LiftResult) -> Option<Outriggers> {
    let path = Path::of(plan, crane, lift)?;
    let (machine, chart) = (crane.crane?, chart_of(plan));
    let configuration = chart.map(|chart| &chart.configuration);
    let gross_kg = lift
        .ends
        .iter()
        .map(|end| end.gross.map(Mass::to_kg))
        .collect::<Option<Vec<f64>>>()
        .and_then(|all| all.into_iter().reduce(f64::max));
    let base = Base::of(machine, chart).filter(|base| base.length_m > 0.0 && base.width_m > 0.0);
    let parts = parts(machine, chart);
    let mut weights = Vec::new();
    if let (Ok(parts), Some(gross_kg)) = (&parts, gross_kg) {
        let allowance_m = lift
            .ends
            .first()
            .map_or(0.0, |end| end.planned_radius.to_m() - end.radius_m);
        weights.push(parts.with_load(gross_kg, path.radii_m[1] + allowance_m));
        weights.push(parts.with_load(gross_kg, path.radii_m[0]));
        let block_kg = machine.block_mass.not_negative().map_or(0.0, Mass::to_kg);
        let least = lift
            .boom_m
            .and_then(|boom_m| crane.table.as_ref()?.min_radius(Length::m(boom_m)));
        weights.extend(least.map(|radius| parts.with_load(block_kg, radius.to_m())));
    }
    let statics = base.filter(|_| !weights.is_empty()).map(|base| {
        let mut worst = Worst {
            slew_rad: path.from_rad,
            kg: 0.0,
            unloaded: false,
        };
        for (i, of) in weights.iter().enumerate() {
            let unloaded = i == 2;
            let (from_rad, sweep_rad) = if unloaded {
                (0.0, TAU)
            } else {
                (path.from_rad, path.sweep_rad)
            };
            let (slew_rad, kg) = of.worst(base, from_rad, sweep_rad);
            if kg > worst.kg {
                worst = Worst {
                    slew_rad: around(slew_rad),
                    kg,
                    unloaded,
                };
            }
        }
        worst
    });
    let own_kg = parts.as_ref().ok().map(|p| p.with_load(0.0, 0.0).total_kg);
    let rigged_kg = configuration.and_then(|c| c.rigged.not_negative()).map(Mass::to_kg);
    let crane_kg = rigged_kg.or(own_kg);
    let share = plan.limits.outrigger_share.not_negative().map(Ratio::to_of);
    Some(Outriggers {
        sheet_kg: configuration
            .and_then(|c| c.outrigger_load.not_negative())
            .map(Mass::to_kg),
        statics,
        statics_lack: parts.err().or(base.is_none().then_some("where the pads are")),
        thumb_kg: share
            .zip(crane_kg)
            .zip(gross_kg)
            .map(|((share, crane), load)| rule_of_thumb_kg(share, crane, load)),
        base,
        weights,
        path,
        gross_kg,
        crane_kg,
    })
}

/// The same for a view, which has the assessment.
pub fn outriggers_of(plan: &Plan, assessment: &Assessment, index: usize) -> Option<Outriggers> {
    outriggers(plan, &crane_side::resolve(plan), assessment.lifts.get(index)?)
}

/// What the ground may bear under a mat, and who says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Bears {
    /// The zone.
    pub zone: String,
    /// How much; `None` where nobody may presume it.
    pub pressure: Option<Pressure>,
    /// A test, a person, or a table.
    pub source: String,
    /// What the ground is made of.
    pub soil: Soil,
}

/// The smallest zone of ground that a point lies in.
fn zone_at(plan: &Plan, p: [f64; 2]) -> Option<&Zone> {
    let mut smallest: Option<(f64, &Zone)> = None;
    for zone in &plan.site.zones {
        if matches!(zone.kind, ZoneKind::NoLoad | ZoneKind::Excavation) {
            continue;
        }
        let Some(outline) = outline_m(&zone.outline).filter(|outline| contains(outline, p)) else {
            continue;
        };
        let area = area_m2(&outline);
        if smallest.is_none_or(|(least, _)| area < least) {
            smallest = Some((area, zone));
        }
    }
    smallest.map(|(_, zone)| zone)
}

/// Area of a polygon, m².
fn area_m2(outline: &[[f64; 2]]) -> f64 {
    let corners = (0..outline.len()).map(|i| (outline[i], outline[(i + 1) % outline.len()]));
    corners.map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>().abs() / 2.0
}

fn bears_of(plan: &Plan, zone: &Zone) -> Result<Bears, String> {
    let bears = |pressure, source: String| Bears {
        zone: zone.name.clone(),
        pressure,
        source,
        soil: zone.soil,
    };
    if !zone.bearing.is_blank() {
        let pressure = zone.bearing.not_negative();
        let pressure = pressure.ok_or_else(|| format!("what the zone {} bears cannot be read", zone.name))?;
        let said = zone.bearing.said.as_ref().map_or("", |said| said.who.trim());
        let source = if said.is_empty() { zone.note.trim() } else { said };
        if source.is_empty() {
            return Err(format!(
                "who says what the zone {} bears: a test, an engineer, or a table",
                zone.name
            ));
        }
        return Ok(bears(Some(pressure), source.to_owned()));
    }
    if zone.soil == Soil::NotSaid {
        return Err(format!(
            "what the zone {} bears: a tested value with its source, or what it is made of",
            zone.name
        ));
    }
    let presumed = presumed(plan.site.rules, zone.soil);
    if presumed.bears.is_none() && zone.soil != Soil::Fill {
        return Err(format!(
            "what the zone {} bears: the rules chosen for the site presume nothing for it",
            zone.name
        ));
    }
    Ok(bears(presumed.bears, presumed.source.to_owned()))
}

/// The worst ground under a mat: at its corners and its middle.
pub fn bears_under(plan: &Plan, mat: &[[f64; 2]; 4]) -> Result<Bears, String> {
    let middle = [0, 1].map(|i| mat.iter().map(|p| p[i]).sum::<f64>() / 4.0);
    let mut worst: Option<Bears> = None;
    for p in mat.iter().copied().chain([middle]) {
        let zone = zone_at(plan, p).ok_or_else(|| {
            format!(
                "what the ground bears at {:.1} m east, {:.1} m north: a zone round it, with its value",
                p[0], p[1]
            )
        })?;
        let here = bears_of(plan, zone)?;
        let weaker = |worst: &Bears| match (here.pressure, worst.pressure) {
            (None, _) => true,
            (Some(_), None) => false,
            (Some(a), Some(b)) => a < b,
        };
        if worst.as_ref().is_none_or(weaker) {
            worst = Some(here);
        }
    }
    worst.ok_or_else(|| "where the mats are".into())
}

/// Pressure under the mats and under the bare floats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnderMat {
    /// Under a mat.
    pub pressure: Pressure,
    /// Side of the square that bears.
    pub side: Length,
    /// Under the float without a mat.
    pub bare: Option<Pressure>,
}

/// The pressure of a load on a pad, or what is missing.
pub fn under_mat(crane: &Crane, pad_kg: f64) -> Result<UnderMat, &'static str> {
    let mat = crane.mat.not_negative().ok_or("the side of a mat")?;
    let float = crane
        .float_side
        .not_negative()
        .ok_or("the side of the crane's own floats")?;
    let spread = crane
        .mat_spread
        .not_negative()
        .ok_or("how far a mat spreads the load beyond the float")?;
    let own = crane.mat_mass.not_negative().ok_or("the weight of a mat")?;
    let side_m = effective_side_m(mat.to_m(), float.to_m(), spread.to_m());
    if side_m <= 0.0 || float.to_m() <= 0.0 {
        return Err("a mat and a float larger than nothing");
    }
    Ok(UnderMat {
        pressure: Pressure::pa(bearing_pa(pad_kg, own.to_kg(), side_m)),
        side: Length::m(side_m),
        bare: Some(Pressure::pa(bearing_pa(pad_kg, 0.0, float.to_m()))),
    })
}

/// Findings on outriggers, ground and level.
pub fn findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let plan = placed.plan;
    let mut findings = Vec::new();
    if let (Some(crane), Some(outriggers)) = (placed.crane.crane, outriggers(plan, placed.crane, placed.lift))
        && !placed.crane.mats_m.is_empty()
    {
        findings.push(bearing(plan, crane, placed.crane, &outriggers));
    }
    findings.extend(setbacks(plan, placed.crane));
    findings.extend(level(plan));
    findings
}

fn bearing(plan: &Plan, crane: &Crane, side: &CraneSide<'_>, outriggers: &Outriggers) -> Finding {
    let subject = "pressure under the mats";
    let Some((pad_kg, source)) = outriggers.counts() else {
        let missing = format!(
            "the most on one outrigger: the maker's sheet in the chart, or {} for statics, or the crane's weight for the rule of thumb",
            outriggers.statics_lack.unwrap_or("the gross load")
        );
        return Finding::not_checked(Check::Ground, subject, missing);
    };
    if outriggers.statics.is_some_and(|worst| worst.kg.is_infinite()) {
        let subject = "two pads lift off: by its weights the crane tips";
        return Finding::of(Check::Ground, subject, Outcome::Outside);
    }
    let mut weakest: Option<Bears> = None;
    for mat in &side.mats_m {
        match bears_under(plan, mat) {
            Err(missing) => return Finding::not_checked(Check::Ground, subject, missing),
            Ok(Bears {
                pressure: None,
                zone,
                source,
                ..
            }) => {
                let subject = format!(
                    "mats on {zone}: {source}; an engineer's figure for it, mats elsewhere, or the ground prepared and tested"
                );
                return Finding::of(Check::Ground, subject, Outcome::Outside);
            }
            Ok(bears) if weakest.as_ref().is_none_or(|w| bears.pressure < w.pressure) => weakest = Some(bears),
            Ok(_) => {}
        }
    }
    let under = match under_mat(crane, pad_kg) {
        Ok(under) => under,
        Err(missing) => return Finding::not_checked(Check::Ground, subject, missing),
    };
    let Some((bears, limit)) = weakest.and_then(|bears| bears.pressure.map(|limit| (bears, limit))) else {
        return Finding::not_checked(Check::Ground, subject, "where the mats are");
    };
    let pad = Mass::kg(pad_kg);
    let mut working = vec![
        Working::new("largest load on an outrigger", "P", "as stated", pad, source.words()),
        Working::new(
            "pressure under a mat",
            "p",
            "(P + m)·g/b²",
            Amount::Pressure(under.pressure),
            "statics",
        )
        .input("P", "on the outrigger", pad)
        .input("m", "the mat", crane.mat_mass.get().unwrap_or_default())
        .input("b", "side of the square that bears", under.side),
    ];
    working.extend(under.bare.map(|bare| {
        Working::new(
            "under the bare float, without a mat",
            "p₀",
            "P·g/b₀²",
            Amount::Pressure(bare),
            "statics",
        )
        .input("b₀", "side of a float", crane.float_side.get().unwrap_or_default())
    }));
    working.extend(outriggers.statics.map(|worst| {
        Working::new(
            "by statics, the worst slew",
            "P_s",
            "V/4 ± M_x/(2·d_x) ± M_y/(2·d_y)",
            Mass::kg(worst.kg),
            "stiff frame, moments about the middle of the pads; a pad that lifts: Shapiro, Cranes and Derricks, p. 278",
        )
        .input("φ", "slew there, from the carrier's front", Angle::rad(worst.slew_rad))
    }));
    working.extend(outriggers.thumb_kg.map(|kg| {
        Working::new(
            "by the rule of thumb",
            "P_t",
            "k·(crane + load)",
            Mass::kg(kg),
            "Queensland code of practice (2006)",
        )
        .input("k", "share", plan.limits.outrigger_share.get().unwrap_or_default())
        .input("crane", "rigged", Mass::kg(outriggers.crane_kg.unwrap_or(f64::NAN)))
        .input("load", "gross", Mass::kg(outriggers.gross_kg.unwrap_or(f64::NAN)))
    }));
    let subject = format!(
        "{subject}, {} ({}); load by {}",
        bears.zone,
        bears.source,
        source.words()
    );
    let mut finding = Finding::at_most(
        Check::Ground,
        subject,
        Amount::Pressure(under.pressure),
        Amount::Pressure(limit),
    )
    .working(working);
    if finding.outcome == Outcome::Outside && limit.to_pa() > 0.0 {
        let side_m = (bearing_pa(pad_kg, 0.0, 1.0) / limit.to_pa()).sqrt();
        finding = finding.caution(format!(
            "a mat that bears on {} square at least is needed, and its own weight more",
            both(side_m)
        ));
    }
    if let Some(worst) = outriggers.statics.filter(|worst| worst.kg > pad_kg) {
        finding = finding.caution(format!(
            "statics of the weights entered says {:.1} t, more than {}: find out which is wrong",
            worst.kg / 1000.0,
            source.words()
        ));
    }
    finding
}

/// Distance of the mats from what was dug out or holds ground back: its depth in firm ground, twice in loose ground or fill (1 : 1 and 2 : 1, common practice).
fn setbacks(plan: &Plan, side: &CraneSide<'_>) -> Vec<Finding> {
    if side.mats_m.is_empty() {
        return Vec::new();
    }
    let middles = side
        .mats_m
        .iter()
        .map(|mat| [0, 1].map(|i| mat.iter().map(|p| p[i]).sum::<f64>() / 4.0));
    let per_depth = middles
        .map(|p| {
            zone_at(plan, p)
                .map_or(Soil::NotSaid, |zone| zone.soil)
                .setback_per_depth()
        })
        .fold(0.0, f64::max);
    let gap_m = |outline: &[[f64; 2]]| {
        let gaps = side.mats_m.iter().filter_map(|mat| polygon_distance_m(mat, outline));
        gaps.fold(f64::INFINITY, f64::min)
    };
    let finding = |subject: String, depth: Length, beyond: Length, outline: &[[f64; 2]]| {
        let needed = depth * per_depth + beyond;
        Finding::at_least(Check::Ground, subject, needed.into(), Length::m(gap_m(outline)).into()).working([Working::new(
            "distance needed from the edge",
            "s",
            "k·d + e",
            needed,
            "its depth in firm ground, twice in loose or unknown ground and fill (common practice); an engineer otherwise",
        )
        .input("k", "by the ground under the mats", Amount::Factor(per_depth))
        .input("d", "depth", depth)
        .input("e", "dug out beyond", beyond)])
    };
    let mut findings = Vec::new();
    let site = &plan.site;
    if !site.excavation_depth.is_blank() {
        let subject = "mats to the foundation's excavation";
        let overdig = site.overdig.get_or(|| Some(Length::ZERO)).filter(|l| l.to_m() >= 0.0);
        findings.push(
            match (
                site.excavation_depth.not_negative().zip(overdig),
                outline_m(&site.foundation),
            ) {
                (Some((depth, overdig)), Some(outline)) => finding(subject.into(), depth, overdig, &outline),
                _ => Finding::not_checked(
                    Check::Ground,
                    subject,
                    "depth of the excavation, overdig and the foundation's outline",
                ),
            },
        );
    }
    for zone in site.zones.iter().filter(|zone| zone.kind == ZoneKind::Excavation) {
        let subject = format!("mats to {}", zone.name);
        findings.push(match zone.depth.not_negative().zip(outline_m(&zone.outline)) {
            Some((depth, outline)) => finding(subject, depth, Length::ZERO, &outline),
            None => Finding::not_checked(Check::Ground, subject, "its outline and its depth"),
        });
    }
    findings
}

/// The crane's level as measured; nothing before somebody has measured.
fn level(plan: &Plan) -> Option<Finding> {
    let measured = &plan.set_up.slope;
    if measured.is_blank() {
        return None;
    }
    let subject = "slope of the carrier, measured";
    Some(
        match (measured.not_negative(), plan.limits.crane_slope.not_negative()) {
            (Some(slope), Some(limit)) => Finding::at_most(Check::CraneLevel, subject, slope.into(), limit.into()),
            _ => Finding::not_checked(
                Check::CraneLevel,
                subject,
                "the slope as measured and the limit, both as a share such as 0.5 %",
            ),
        },
    )
}

/// A mat of the crane by its place, as the pads are counted.
pub const PAD_NAMES: [&str; 4] = ["front left", "rear left", "rear right", "front right"];

/// The ground under each mat of the crane.
pub fn under_each(plan: &Plan, crane: &CraneResult) -> Vec<Result<Bears, String>> {
    crane.mats_m.iter().map(|mat| bears_under(plan, mat)).collect()
}
