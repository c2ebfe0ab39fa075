//! The largest pull each member can see while lengths, stiffnesses, twist and the centre of gravity stay within their bands.

use std::collections::{BTreeMap, BTreeSet};

use nalgebra::DMatrix;

use super::drawing;
use super::fault::NoHang;
use super::model::Pose;
use super::report;
use super::rig::Rig;
use super::system::System;

/// Pulls are solved to this share of the weight, and count as the same within it.
const SAME: f64 = 1e-8;
/// Most choices of signs solved for one combination of centre of gravity, EA and GJ.
const MOST_CASES: usize = 4096;

/// What is only known within limits.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bands {
    /// Where a body's mass may be besides its nominal place, one case each: corners of the centre of gravity's envelope.
    pub cg_shifts: Vec<CgShift>,
    /// How far each member's length may be off, ± m; members beyond the end of the list have none.
    pub length_tolerance_m: Vec<f64>,
    /// Factors on the EA of all members together, low and high; empty is 1.
    pub ea_factors: Vec<f64>,
    /// Torsional rigidities of the twisting bodies, N·m²; empty is the rig's own.
    pub gj_n_m2: Vec<f64>,
}

/// All mass of one body moved together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CgShift {
    /// The body.
    pub body: usize,
    /// By how much, m, body frame.
    pub by_m: [f64; 3],
}

/// One combination inside the bands.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Which shift of the centre of gravity; `None` is the nominal one.
    pub cg_shift: Option<usize>,
    /// Factor on EA.
    pub ea_factor: f64,
    /// Torsional rigidity, N·m²; `None` is the rig's own.
    pub gj_n_m2: Option<f64>,
    /// What is added to each member's length, m.
    pub longer_m: Vec<f64>,
}

/// The largest tension of one member.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// Tension, N.
    pub tension_n: f64,
    /// The case that gave it.
    pub case: Case,
}

/// How far one body's level may go with nominal lengths, rad, lowest and highest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltRange {
    /// Tilt along.
    pub along_rad: [f64; 2],
    /// Tilt across.
    pub across_rad: [f64; 2],
}

/// A case that does not hang, or hangs only just.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// The case.
    pub case: Case,
    /// Why.
    pub reason: NoHang,
}

/// The worst inside the bands.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstCase {
    /// One per member; `None` when no case could be solved.
    pub members: Vec<Option<Worst>>,
    /// One per body, over the centre of gravity, EA and GJ at nominal lengths; empty when none could be solved.
    pub tilts: Vec<TiltRange>,
    /// Cases that do not hang, the first of each combination of centre of gravity, EA and GJ: the tensions do not cover them.
    ///
    /// A pose that can move without resistance is listed, and its tensions count: they are the same all along the motion.
    pub refusals: Vec<Refusal>,
    /// Cases solved.
    pub solved: usize,
    /// The search through length signs was stopped after 4096 cases of one combination: a worse one may be left.
    pub cut_short: bool,
}

/// Finds the largest tension of every member over centre of gravity, length signs, EA and GJ.
///
/// Each combination of centre of gravity, EA and GJ is solved at nominal lengths. The signs that load a member most are
/// those of ∂Tᵢ/∂Lⱼ there; that case is solved in full, and from it each single length is tried the other way, for as
/// long as that loads the member more or as much. No tension is extrapolated: every figure is that of a solved case.
pub fn worst_case(rig: &Rig, bands: &Bands) -> WorstCase {
    let mut worst = WorstCase {
        members: vec![None; rig.members.len()],
        tilts: Vec::new(),
        refusals: Vec::new(),
        solved: 0,
        cut_short: false,
    };
    let shifts = std::iter::once(None).chain((0..bands.cg_shifts.len()).map(Some));
    let gjs: Vec<Option<f64>> = if bands.gj_n_m2.is_empty() {
        vec![None]
    } else {
        bands.gj_n_m2.iter().copied().map(Some).collect()
    };
    let factors = if bands.ea_factors.is_empty() {
        &[1.0][..]
    } else {
        &bands.ea_factors
    };
    for cg_shift in shifts {
        for gj_n_m2 in &gjs {
            for ea_factor in factors {
                let case = Case {
                    cg_shift,
                    ea_factor: *ea_factor,
                    gj_n_m2: *gj_n_m2,
                    longer_m: vec![0.0; rig.members.len()],
                };
                Search::run(rig, bands, case, &mut worst);
            }
        }
    }
    worst
}

/// The rig of a case, lengths apart.
fn rig_of(rig: &Rig, bands: &Bands, case: &Case) -> Rig {
    let mut rig = rig.clone();
    if let Some(shift) = case.cg_shift.map(|index| bands.cg_shifts[index])
        && let Some(body) = rig.bodies.get_mut(shift.body)
    {
        for item in &mut body.masses {
            item.at_m = std::array::from_fn(|axis| item.at_m[axis] + shift.by_m[axis]);
        }
    }
    for member in &mut rig.members {
        member.ea_n *= case.ea_factor;
    }
    if let Some(gj_n_m2) = case.gj_n_m2 {
        for twist in rig.bodies.iter_mut().filter_map(|body| body.twist.as_mut()) {
            twist.gj_n_m2 = gj_n_m2;
        }
    }
    rig
}

/// Which members are longer; the rest are shorter, by their tolerance.
type Signs = Vec<bool>;

/// The search through length signs of one combination of centre of gravity, EA and GJ.
struct Search<'a> {
    rig: Rig,
    lengths_m: Vec<f64>,
    tolerance_m: Vec<f64>,
    case: Case,
    system: System,
    nominal: Pose,
    seen: BTreeMap<Signs, Option<Vec<f64>>>,
    refused: bool,
    goes_slack: bool,
    worst: &'a mut WorstCase,
}

impl<'a> Search<'a> {
    fn run(rig: &Rig, bands: &Bands, case: Case, worst: &'a mut WorstCase) {
        let rig = rig_of(rig, bands, &case);
        let mut tolerance_m = bands.length_tolerance_m.clone();
        tolerance_m.resize(rig.members.len(), 0.0);
        let system = match bands_fault(&tolerance_m).map_or_else(|| System::checked(&rig), Err) {
            Ok(system) => system,
            Err(reason) => {
                worst.refusals.push(Refusal { case, reason });
                return;
            }
        };
        let nominal = system.pose.clone();
        let lengths_m = rig.members.iter().map(|member| member.length_m).collect();
        let mut search = Search {
            lengths_m,
            rig,
            tolerance_m,
            case,
            system,
            nominal,
            seen: BTreeMap::new(),
            refused: false,
            goes_slack: false,
            worst,
        };
        if search.solve_nominal().is_none() || search.tolerance_m.iter().all(|tolerance_m| *tolerance_m == 0.0) {
            return;
        }
        let slopes_n_per_m = search.system.tension_slopes();
        for member in 0..search.rig.members.len() {
            let signs = search.signs_from(slopes_n_per_m.as_ref(), member);
            search.climb(member, signs);
        }
        for member in 0..search.rig.members.len() {
            if let Some(signs) = search.best_seen(member) {
                search.climb(member, signs);
            }
        }
    }

    /// The signs that load a member most of all solved so far, for whichever member they were.
    fn best_seen(&self, member: usize) -> Option<Signs> {
        let solved = self
            .seen
            .iter()
            .filter_map(|(signs, pulls_n)| Some((signs, pulls_n.as_ref()?[member])));
        solved
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(signs, _)| signs.clone())
    }

    /// Solves with nominal lengths, and notes the level.
    fn solve_nominal(&mut self) -> Option<()> {
        let rest = self.system.come_to_rest(&self.rig, None);
        self.note(self.case.clone(), rest)?;
        self.nominal.copy_from(&self.system.pose);
        let tilts = report::report(&self.rig, &mut self.system).bodies.into_iter();
        let tilts: Vec<[f64; 2]> = tilts.map(|body| [body.tilt_along_rad, body.tilt_across_rad]).collect();
        if self.worst.tilts.is_empty() {
            let range = |[along, across]: &[f64; 2]| TiltRange {
                along_rad: [*along; 2],
                across_rad: [*across; 2],
            };
            self.worst.tilts = tilts.iter().map(range).collect();
        }
        let widen = |range: &mut [f64; 2], x: f64| *range = [range[0].min(x), range[1].max(x)];
        for (range, [along, across]) in self.worst.tilts.iter_mut().zip(tilts) {
            widen(&mut range.along_rad, along);
            widen(&mut range.across_rad, across);
        }
        Some(())
    }

    /// Signs that load a member most by the slopes at nominal lengths; every member longer if there are none.
    fn signs_from(&self, slopes_n_per_m: Option<&DMatrix<f64>>, member: usize) -> Signs {
        let longer = |other: usize| slopes_n_per_m.is_none_or(|slopes| slopes[(member, other)] > 0.0);
        (0..self.tolerance_m.len())
            .map(|other| self.tolerance_m[other] > 0.0 && longer(other))
            .collect()
    }

    /// Solves a choice of signs, then turns lengths the other way while that loads the member more: one at a time, and two
    /// at a time where a member goes slack, since tensions then bend with the lengths. A slack member's own length may
    /// have no effect by itself: signs that load the member as much are followed too.
    fn climb(&mut self, member: usize, signs: Signs) {
        let mut best = self.pull_n(&signs, member);
        let mut tried = BTreeSet::from([signs.clone()]);
        let mut open = vec![signs];
        while let Some(signs) = open.pop() {
            let (all, together) = (signs.len(), if self.goes_slack { signs.len() } else { 1 });
            for [a, b] in (0..all).flat_map(|a| (a..all.min(a + together)).map(move |b| [a, b])) {
                let mut turned = signs.clone();
                turned[a] = !turned[a] && self.tolerance_m[a] > 0.0;
                if a != b {
                    turned[b] = !turned[b] && self.tolerance_m[b] > 0.0;
                }
                if tried.insert(turned.clone()) {
                    let pull_n = self.pull_n(&turned, member);
                    if pull_n > best - SAME * self.system.model.weight_n {
                        best = best.max(pull_n);
                        open.push(turned);
                    }
                }
            }
        }
    }

    /// A member's pull at a choice of signs, solved once; less than any where that does not hang.
    fn pull_n(&mut self, signs: &Signs, member: usize) -> f64 {
        if !self.seen.contains_key(signs) {
            if self.seen.len() >= MOST_CASES {
                self.worst.cut_short = true;
                return f64::NEG_INFINITY;
            }
            let pulls_n = self.solve(signs);
            self.seen.insert(signs.clone(), pulls_n);
        }
        self.seen
            .get(signs)
            .and_then(Option::as_ref)
            .map_or(f64::NEG_INFINITY, |pulls_n| pulls_n[member])
    }

    fn solve(&mut self, signs: &Signs) -> Option<Vec<f64>> {
        let off = |(longer, tolerance_m): (&bool, &f64)| if *longer { *tolerance_m } else { -tolerance_m };
        let longer_m: Vec<f64> = signs.iter().zip(&self.tolerance_m).map(off).collect();
        self.lengthen(&longer_m);
        let rest = match drawing::fault(&self.rig) {
            Some(fault) => Err(fault),
            None => self.system.come_to_rest(&self.rig, Some(&self.nominal)),
        };
        self.note(
            Case {
                longer_m,
                ..self.case.clone()
            },
            rest,
        )
    }

    fn lengthen(&mut self, longer_m: &[f64]) {
        for (index, longer_m) in longer_m.iter().enumerate() {
            let member = &mut self.rig.members[index];
            member.length_m = self.lengths_m[index] + longer_m;
            let model = &mut self.system.model.members[index];
            model.free_length_m = member.free_length_m();
            model.stiffness_n_per_m = member.stiffness_n_per_m();
        }
    }

    /// Takes a solved case into the worst of every member, or notes why it does not hang.
    fn note(&mut self, case: Case, rest: Result<(), NoHang>) -> Option<Vec<f64>> {
        let moves_freely = matches!(rest, Err(NoHang::Mechanism { .. }));
        if let Err(reason) = rest {
            if !self.refused {
                self.refused = true;
                self.worst.refusals.push(Refusal {
                    case: case.clone(),
                    reason,
                });
            }
            if !moves_freely {
                return None;
            }
        }
        self.worst.solved += 1;
        let pulls_n: Vec<f64> = self.system.pulls_n().collect();
        self.goes_slack |= pulls_n.iter().any(|pull_n| *pull_n <= 0.0);
        for (worst, pull_n) in self.worst.members.iter_mut().zip(&pulls_n) {
            let tension_n = pull_n.max(0.0);
            if worst.as_ref().is_none_or(|worst| worst.tension_n < tension_n) {
                *worst = Some(Worst {
                    tension_n,
                    case: case.clone(),
                });
            }
        }
        Some(pulls_n)
    }
}

/// A tolerance that is not a length.
fn bands_fault(tolerance_m: &[f64]) -> Option<NoHang> {
    use super::fault::{InputFault, Part};
    let bad = tolerance_m
        .iter()
        .position(|tolerance_m| !tolerance_m.is_finite() || *tolerance_m < 0.0)?;
    Some(NoHang::Input(InputFault::Negative {
        part: Part::Member(bad),
        what: "length tolerance",
    }))
}
