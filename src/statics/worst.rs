//! The largest pull each member can see while lengths, stiffnesses, twist and the centre of gravity stay within their bands.

use std::collections::{BTreeMap, BTreeSet};

use nalgebra::DMatrix;

use super::drawing;
use super::fault::{InputFault, NoHang, Part};
use super::model::Pose;
use super::report;
use super::rig::{Rig, State};
use super::stability::Slopes;
use super::system::System;

/// Pulls are solved to this share of the weight, and count as the same within it.
const SAME: f64 = 1e-8;
/// A guess is not made that turns anything farther than this, rad, or moves it by this share of the reach.
const FARTHEST_GUESS: f64 = 0.1;
/// Most choices of signs solved for one combination of centre of gravity, EA and GJ.
const MOST_CASES: usize = 4096;
/// Lengths that change a member's pull by a larger share may slacken it: the slopes are not relied on.
const MOST_SHARE: f64 = 0.1;
/// What the second order may add to a change in pull: this times the largest share by which any pull changes, taken large.
const SECOND_ORDER: f64 = 4.0;

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
    /// Flexural rigidities of the bending bodies, N·m²; empty is the rig's own.
    pub ei_n_m2: Vec<f64>,
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
    /// Flexural rigidity, N·m²; `None` is the rig's own.
    pub ei_n_m2: Option<f64>,
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

/// Finds the largest tension of every member over centre of gravity, length signs, EA, GJ and EI.
///
/// Each combination of centre of gravity, EA, GJ and EI is solved at nominal lengths. The signs that load a member most are
/// those of ∂Tᵢ/∂Lⱼ there; that case is solved in full, and from it lengths are tried the other way, one at a time and,
/// where a member goes slack, two, for as long as that loads the member more or as much. Where the tolerances can slacken
/// no member, tensions are smooth in the lengths: a combination is then searched only for members that its slopes let come
/// near their largest, and only lengths of doubtful sign are turned. No tension is extrapolated: every figure is that of a
/// solved case.
pub fn worst_case(rig: &Rig, bands: &Bands) -> WorstCase {
    let mut search = WorstSearch::new(rig, bands);
    while !search.go_on(usize::MAX) {}
    search.found()
}

/// The search of [`worst_case`] a few cases at a time, for a caller that has other things to do in between.
pub struct WorstSearch {
    rig: Rig,
    bands: Bands,
    /// Combinations not solved yet, the next one last.
    open: Vec<Case>,
    searches: Vec<Search>,
    /// The search that is at work.
    at: usize,
    promised_n: Vec<f64>,
}

impl WorstSearch {
    /// Nothing is solved yet.
    pub fn new(rig: &Rig, bands: &Bands) -> Self {
        let mut open: Vec<Case> = combinations(rig, bands).collect();
        open.reverse();
        Self {
            rig: rig.clone(),
            bands: bands.clone(),
            open,
            searches: Vec::new(),
            at: 0,
            promised_n: vec![0.0; rig.members.len()],
        }
    }

    /// Solves at most so many cases more, and says whether all is done.
    pub fn go_on(&mut self, most: usize) -> bool {
        (0..most).any(|_| !self.step())
    }

    /// Cases solved so far.
    pub fn solved(&self) -> usize {
        self.searches.iter().map(|search| search.found.solved).sum()
    }

    /// The worst so far; `cut_short` where not all was done.
    pub fn found(self) -> WorstCase {
        let mut worst = WorstCase::empty(self.rig.members.len());
        worst.cut_short = !self.open.is_empty() || self.at < self.searches.len();
        for search in self.searches {
            worst.take_in(search.found);
        }
        worst
    }

    /// Solves one case at most; false when nothing is left.
    fn step(&mut self) -> bool {
        if let Some(case) = self.open.pop() {
            let near = self.searches.iter().rev().find_map(Search::state);
            let search = Search::start(&self.rig, &self.bands, case, near);
            if let Some(taut) = &search.taut {
                for (most_n, promise_n) in self.promised_n.iter_mut().zip(&taut.promise_n) {
                    *most_n = most_n.max(*promise_n);
                }
            }
            self.searches.push(search);
            return true;
        }
        while let Some(search) = self.searches.get_mut(self.at) {
            if search.step(&self.promised_n) {
                return true;
            }
            search.seen.clear();
            self.at += 1;
        }
        false
    }
}

/// Every combination of centre of gravity, GJ, EI and EA, at nominal lengths.
fn combinations<'a>(rig: &'a Rig, bands: &'a Bands) -> impl Iterator<Item = Case> + 'a {
    let shifts = std::iter::once(None).chain((0..bands.cg_shifts.len()).map(Some));
    let or_own = |values: &[f64]| -> Vec<Option<f64>> {
        if values.is_empty() {
            vec![None]
        } else {
            values.iter().copied().map(Some).collect()
        }
    };
    let eis = or_own(&bands.ei_n_m2);
    let of_gj = |gj_n_m2: Option<f64>| eis.iter().map(move |ei_n_m2| (gj_n_m2, *ei_n_m2));
    let rigidities: Vec<_> = or_own(&bands.gj_n_m2).into_iter().flat_map(of_gj).collect();
    let factors = if bands.ea_factors.is_empty() {
        &[1.0][..]
    } else {
        &bands.ea_factors
    };
    shifts.flat_map(move |cg_shift| {
        rigidities.clone().into_iter().flat_map(move |(gj_n_m2, ei_n_m2)| {
            factors.iter().map(move |ea_factor| Case {
                cg_shift,
                ea_factor: *ea_factor,
                gj_n_m2,
                ei_n_m2,
                longer_m: vec![0.0; rig.members.len()],
            })
        })
    })
}

impl WorstCase {
    fn empty(members: usize) -> Self {
        Self {
            members: vec![None; members],
            tilts: Vec::new(),
            refusals: Vec::new(),
            solved: 0,
            cut_short: false,
        }
    }

    /// Takes in what another part of the bands gave.
    fn take_in(&mut self, other: Self) {
        for (mine, theirs) in self.members.iter_mut().zip(other.members) {
            if let Some(theirs) = theirs
                && mine.as_ref().is_none_or(|mine| mine.tension_n < theirs.tension_n)
            {
                *mine = Some(theirs);
            }
        }
        if self.tilts.is_empty() {
            self.tilts = other.tilts;
        } else {
            let widen =
                |mine: &mut [f64; 2], theirs: [f64; 2]| *mine = [mine[0].min(theirs[0]), mine[1].max(theirs[1])];
            for (mine, theirs) in self.tilts.iter_mut().zip(other.tilts) {
                widen(&mut mine.along_rad, theirs.along_rad);
                widen(&mut mine.across_rad, theirs.across_rad);
            }
        }
        self.refusals.extend(other.refusals);
        self.solved += other.solved;
        self.cut_short |= other.cut_short;
    }
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
    if let Some(ei_n_m2) = case.ei_n_m2 {
        for bend in rig.bodies.iter_mut().filter_map(|body| body.bend.as_mut()) {
            bend.ei_n_m2 = ei_n_m2;
        }
    }
    rig
}

/// Which members are longer; the rest are shorter, by their tolerance.
type Signs = Vec<bool>;

/// The search through length signs of one combination of centre of gravity, EA and GJ.
struct Search {
    rig: Rig,
    lengths_m: Vec<f64>,
    tolerance_m: Vec<f64>,
    case: Case,
    /// `None` where the data cannot be a rig.
    system: Option<System>,
    /// `None` where it does not hang.
    nominal: Option<Pose>,
    slopes: Option<Slopes>,
    taut: Option<Taut>,
    seen: BTreeMap<Signs, Option<Vec<f64>>>,
    refused: bool,
    goes_slack: bool,
    /// Searches of members that were begun.
    climbs: usize,
    climb: Option<Climb>,
    found: WorstCase,
}

/// The search for one member's worst signs.
struct Climb {
    member: usize,
    best_n: f64,
    tried: BTreeSet<Signs>,
    /// Signs whose lengths are still to be turned.
    open: Vec<Signs>,
    /// The ones that are being turned, and which lengths of them are left.
    from: Signs,
    turns: Vec<[usize; 2]>,
}

/// What the slopes say where the tolerances cannot slacken any member.
struct Taut {
    /// The largest that each member can come to, to first order, N.
    promise_n: Vec<f64>,
    /// How far that may be wrong, N.
    margin_n: Vec<f64>,
}

impl Taut {
    /// `None` where a member can go slack, or nearly, so that slopes say little.
    fn new(pulls_n: &[f64], slopes_n_per_m: &DMatrix<f64>, tolerance_m: &[f64]) -> Option<Self> {
        let reach_n = |member: usize| -> f64 {
            let parts = tolerance_m.iter().enumerate();
            parts
                .map(|(other, off_m)| slopes_n_per_m[(member, other)].abs() * off_m)
                .sum()
        };
        let reaches_n: Vec<f64> = (0..pulls_n.len()).map(reach_n).collect();
        let shares = reaches_n
            .iter()
            .zip(pulls_n)
            .map(|(reach_n, pull_n)| reach_n / pull_n.max(0.0));
        let share = shares.fold(0.0, f64::max);
        (share < MOST_SHARE).then(|| Self {
            promise_n: pulls_n
                .iter()
                .zip(&reaches_n)
                .map(|(pull_n, reach_n)| pull_n + reach_n)
                .collect(),
            margin_n: reaches_n.iter().map(|reach_n| SECOND_ORDER * share * reach_n).collect(),
        })
    }
}

impl Search {
    /// Solves a combination at nominal lengths, from where another one hangs if there is one.
    fn start(rig: &Rig, bands: &Bands, case: Case, near: Option<State>) -> Self {
        let rig = rig_of(rig, bands, &case);
        let mut tolerance_m = bands.length_tolerance_m.clone();
        tolerance_m.resize(rig.members.len(), 0.0);
        let mut found = WorstCase::empty(rig.members.len());
        let system = match bands_fault(&rig, bands, &tolerance_m).map_or_else(|| System::checked(&rig), Err) {
            Ok(system) => Some(system),
            Err(reason) => {
                let case = case.clone();
                found.refusals.push(Refusal { case, reason });
                None
            }
        };
        let mut search = Self {
            lengths_m: rig.members.iter().map(|member| member.length_m).collect(),
            rig,
            tolerance_m,
            case,
            system,
            nominal: None,
            slopes: None,
            taut: None,
            seen: BTreeMap::new(),
            refused: false,
            goes_slack: false,
            climbs: 0,
            climb: None,
            found,
        };
        search.solve_nominal(near);
        search
    }

    /// Where it hangs at nominal lengths, its twist and bending left out: another combination may have others.
    fn state(&self) -> Option<State> {
        let (system, nominal) = (self.system.as_ref()?, self.nominal.as_ref()?);
        let mut state = system.model.state_of(nominal);
        for body in &mut state.bodies {
            body.twist_rad.clear();
            body.bend_m.clear();
        }
        Some(state)
    }

    /// Looks on for the worst of every member that could have it here: solves one case at most, and says whether anything was left to do.
    ///
    /// Every member is searched from the signs that its slopes give, then from the best that was found for it on the way.
    fn step(&mut self, promised_n: &[f64]) -> bool {
        if let Some(mut climb) = self.climb.take()
            && self.climb_on(&mut climb)
        {
            self.climb = Some(climb);
            return true;
        }
        let Some((member, signs)) = self.next_climb(promised_n) else {
            return false;
        };
        let best_n = self.pull_n(&signs, member);
        self.climb = Some(Climb {
            member,
            best_n,
            tried: BTreeSet::from([signs.clone()]),
            open: vec![signs],
            from: Vec::new(),
            turns: Vec::new(),
        });
        true
    }

    /// The next member to search, and from where.
    fn next_climb(&mut self, promised_n: &[f64]) -> Option<(usize, Signs)> {
        if self.nominal.is_none() || self.tolerance_m.iter().all(|tolerance_m| *tolerance_m == 0.0) {
            return None;
        }
        let all = self.rig.members.len();
        while self.climbs < 2 * all {
            let (member, again) = (self.climbs % all, self.climbs >= all);
            self.climbs += 1;
            let taut = self.taut.as_ref();
            let worth = taut.is_none_or(|taut| taut.promise_n[member] + taut.margin_n[member] >= promised_n[member]);
            let signs = match (worth, again) {
                (false, _) => None,
                (true, false) => Some(self.signs_from(member)),
                (true, true) => self.best_seen(member),
            };
            if let Some(signs) = signs {
                return Some((member, signs));
            }
        }
        None
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
    fn solve_nominal(&mut self, near: Option<State>) -> Option<()> {
        let system = self.system.as_mut()?;
        let near = near.and_then(|near| system.model.pose_of(&self.rig, &near).ok());
        let rest = system.come_to_rest(&self.rig, near.as_ref());
        let pulls_n = self.note(self.case.clone(), rest)?;
        let system = self.system.as_mut()?;
        self.nominal = Some(system.pose.clone());
        let bodies = report::report(&self.rig, system).bodies;
        let range = |body: &report::BodyHang| TiltRange {
            along_rad: [body.tilt_along_rad; 2],
            across_rad: [body.tilt_across_rad; 2],
        };
        self.found.tilts = bodies.iter().map(range).collect();
        self.slopes = system.slopes();
        let slopes = self.slopes.as_ref();
        self.taut = slopes.and_then(|slopes| Taut::new(&pulls_n, &slopes.tension_n_per_m, &self.tolerance_m));
        Some(())
    }

    /// Signs that load a member most by the slopes at nominal lengths; every member longer if there are none.
    fn signs_from(&self, member: usize) -> Signs {
        let slopes = self.slopes.as_ref();
        let longer = |other: usize| slopes.is_none_or(|slopes| slopes.tension_n_per_m[(member, other)] > 0.0);
        (0..self.tolerance_m.len())
            .map(|other| self.tolerance_m[other] > 0.0 && longer(other))
            .collect()
    }

    /// Turns lengths the other way while that loads the member more: one at a time, and two at a time where a member goes slack, since tensions
    /// then bend with the lengths. A slack member's own length may have no effect by itself: signs that load the member as much are followed too.
    /// Solves one case at most; false when all was tried.
    fn climb_on(&mut self, climb: &mut Climb) -> bool {
        let as_much_n = if self.taut.is_some() {
            0.0
        } else {
            SAME * self.weight_n()
        };
        loop {
            let Some([a, b]) = climb.turns.pop() else {
                let Some(signs) = climb.open.pop() else { return false };
                climb.turns = self.turns(climb.member);
                climb.from = signs;
                continue;
            };
            let mut turned = climb.from.clone();
            turned[a] = !turned[a] && self.tolerance_m[a] > 0.0;
            if a != b {
                turned[b] = !turned[b] && self.tolerance_m[b] > 0.0;
            }
            if climb.tried.insert(turned.clone()) {
                let pull_n = self.pull_n(&turned, climb.member);
                if pull_n > climb.best_n - as_much_n {
                    climb.best_n = climb.best_n.max(pull_n);
                    climb.open.push(turned);
                }
                return true;
            }
        }
    }

    /// Lengths to turn from one choice of signs, one or two at a time, the next last.
    fn turns(&self, member: usize) -> Vec<[usize; 2]> {
        let all = self.tolerance_m.len();
        let together = if self.goes_slack { all } else { 1 };
        let doubtful = (0..all).filter(|other| self.is_doubtful(member, *other));
        let mut turns: Vec<[usize; 2]> = doubtful
            .flat_map(|a| (a..all.min(a + together)).map(move |b| [a, b]))
            .collect();
        turns.reverse();
        turns
    }

    /// Whether turning a length may load a member more: where all stay taut, only a slope that the second order can turn.
    fn is_doubtful(&self, member: usize, other: usize) -> bool {
        let (Some(taut), Some(slopes)) = (&self.taut, &self.slopes) else {
            return true;
        };
        let effect_n = slopes.tension_n_per_m[(member, other)].abs() * self.tolerance_m[other];
        effect_n > SAME * taut.promise_n[member] && effect_n <= taut.margin_n[member]
    }

    fn weight_n(&self) -> f64 {
        self.system.as_ref().map_or(0.0, |system| system.model.weight_n)
    }

    /// A member's pull at a choice of signs, solved once; less than any where that does not hang.
    fn pull_n(&mut self, signs: &Signs, member: usize) -> f64 {
        if !self.seen.contains_key(signs) {
            if self.seen.len() >= MOST_CASES {
                self.found.cut_short = true;
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
            None => {
                let start = self.predicted(&longer_m);
                self.system.as_mut()?.come_to_rest(&self.rig, start.as_ref())
            }
        };
        self.note(
            Case {
                longer_m,
                ..self.case.clone()
            },
            rest,
        )
    }

    /// Where the rig hangs with other lengths to first order: a start so near that a step or two find the rest.
    fn predicted(&mut self, longer_m: &[f64]) -> Option<Pose> {
        let (system, nominal) = (self.system.as_mut()?, self.nominal.as_ref()?);
        let Some(slopes) = &self.slopes else {
            return Some(nominal.clone());
        };
        system.held.copy_from(nominal);
        system.step.fill(0.0);
        for (follows_per_m, longer_m) in slopes.follows_per_m.iter().zip(longer_m) {
            system.step.axpy(*longer_m, follows_per_m, 1.0);
        }
        if system.step.amax() > FARTHEST_GUESS {
            return Some(nominal.clone());
        }
        system.move_by(1.0);
        Some(system.pose.clone())
    }

    fn lengthen(&mut self, longer_m: &[f64]) {
        for (index, longer_m) in longer_m.iter().enumerate() {
            let member = &mut self.rig.members[index];
            member.length_m = self.lengths_m[index] + longer_m;
            if let Some(system) = &mut self.system {
                let model = &mut system.model.members[index];
                model.free_length_m = member.free_length_m();
                model.stiffness_n_per_m = member.stiffness_n_per_m();
            }
        }
    }

    /// Takes a solved case into the worst of every member, or notes why it does not hang.
    fn note(&mut self, case: Case, rest: Result<(), NoHang>) -> Option<Vec<f64>> {
        let moves_freely = matches!(rest, Err(NoHang::Mechanism { .. }));
        if let Err(reason) = rest {
            if !self.refused {
                self.refused = true;
                self.found.refusals.push(Refusal {
                    case: case.clone(),
                    reason,
                });
            }
            if !moves_freely {
                return None;
            }
        }
        self.found.solved += 1;
        let pulls_n: Vec<f64> = self.system.as_ref()?.pulls_n().collect();
        self.goes_slack |= pulls_n.iter().any(|pull_n| *pull_n <= 0.0);
        for (worst, pull_n) in self.found.members.iter_mut().zip(&pulls_n) {
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

/// A tolerance that is not a length or takes all of one, or a shift of a body that is not there.
fn bands_fault(rig: &Rig, bands: &Bands, tolerance_m: &[f64]) -> Option<NoHang> {
    let tolerances = tolerance_m.iter().zip(&rig.members).enumerate();
    let tolerance = tolerances.clone().find_map(|(index, (tolerance_m, _))| {
        let (part, what) = (Part::Member(index), "length tolerance");
        (!tolerance_m.is_finite() || *tolerance_m < 0.0).then_some(InputFault::Negative { part, what })
    });
    let length = || {
        tolerances.clone().find_map(|(index, (tolerance_m, member))| {
            let (part, what) = (Part::Member(index), "length less its tolerance");
            (*tolerance_m >= member.length_m).then_some(InputFault::NotPositive { part, what })
        })
    };
    let shift = || {
        let missing = bands.cg_shifts.iter().position(|shift| shift.body >= rig.bodies.len());
        missing.map(|shift| InputFault::NoSuchBody { shift })
    };
    tolerance.or_else(length).or_else(shift).map(NoHang::Input)
}
