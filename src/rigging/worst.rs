//! The worst that each leg can see while the centre of gravity, the lengths, the stretch and the twist stay within what is known of them.

use super::hang::{bounds_n, four_leg_bounds, hang, words};
use super::hung::{HangingLoad, Hung, Member, MemberKind, SlingSetUp, TwistBay};
use super::rig::{BuiltRig, Stretch, build};
use crate::quantity::STANDARD_GRAVITY_M_S2 as G;
use crate::statics::{self, Bands, Bend, CgShift, MassItem, Twist};
use serde::Serialize;

/// Pick sections nearer than this are one, m.
const ONE_SECTION_M: f64 = 0.01;

/// What of a lift is only known within limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Smallest x, y, z of the centre of gravity, box frame, m.
    pub cg_low_m: [f64; 3],
    /// Largest.
    pub cg_high_m: [f64; 3],
    /// How far each leg's length may be off either way, m.
    pub length_tolerance_m: f64,
    /// Stiffnesses of the box against twist to run, N·m²: 0 twists freely, infinite is rigid. Empty: rigid.
    pub gj_n_m2: Vec<f64>,
    /// Rigidities of the box against bending up and down to run, N·m²: 0 follows its picks, infinite is rigid. Empty: rigid. Picks at two sections
    /// share alike whatever it is.
    pub ei_n_m2: Vec<f64>,
    /// Where the box's mass is, for twist and bending: only its distribution counts. Empty: all at the centre of gravity.
    pub masses: Vec<MassItem>,
}

/// One combination within the limits.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorstCase {
    /// Which end of its band the centre of gravity is at along x, y, z: −1 low, 1 high, 0 where taken off or where the band has no width.
    pub cg_at: [i8; 3],
    /// The legs are at the stiff end of their band; else at the soft end.
    pub stiff: bool,
    /// Stiffness against twist, N·m²; `None` is rigid.
    pub gj_n_m2: Option<f64>,
    /// Rigidity against bending, N·m²; `None` is rigid.
    pub ei_n_m2: Option<f64>,
    /// What each member is longer than its nominal length, m, in the order of the members.
    pub longer_m: Vec<f64>,
}

/// One member's tensions.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorstMember {
    /// Which.
    pub kind: MemberKind,
    /// As the lift table has it, N: nominal lengths and place, on four legs the bound for a stiff box.
    pub nominal_n: f64,
    /// The largest of all cases solved, N.
    pub worst_n: f64,
    /// The case that gave it; `None` where no case could be solved.
    pub case: Option<WorstCase>,
    /// On four legs to one hook, and piece by piece: the largest of the stiff box's bound over the envelope, N, whatever the lengths.
    pub bound_n: Option<f64>,
}

impl WorstMember {
    /// The tension to design with, N: the bound where legs share by their lengths, else the largest solved; never less than nominal.
    pub fn demand_n(&self) -> f64 {
        self.worst_n.max(self.nominal_n).max(self.bound_n.unwrap_or(0.0))
    }
}

/// The worst of a lift.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorstLift {
    /// Every member, in the order of the hang's.
    pub members: Vec<WorstMember>,
    /// Tilt along over the envelope at nominal lengths, rad, least and most; above 0 the second end hangs lower.
    pub along_rad: [f64; 2],
    /// Tilt across, above 0 the second side hangs lower.
    pub across_rad: [f64; 2],
    /// With picks at three or more sections: what each member carries under a box that bends freely and so follows its picks, and under a rigid one,
    /// N, at nominal lengths, stiff legs. The two bounds of vertical bending; `None` where one of them does not hang or there are two sections.
    pub bending_n: Option<[Vec<f64>; 2]>,
    /// Twist of the box at nominal lengths, stiff legs, for each stiffness that was run short of rigid: stiffness, N·m², and its bays.
    pub twists: Vec<(f64, Vec<TwistBay>)>,
    /// Cases that do not hang, and why: the tensions do not cover them.
    pub refused: Vec<(WorstCase, String)>,
    /// Cases solved.
    pub solved: usize,
    /// The search was stopped early: a worse case may be left.
    pub cut_short: bool,
}

/// How the load hangs when each member is longer by so much than its nominal length, m (missing ones by nothing), legs at their stiff end.
///
/// On four legs the member's `shared_n` is what it carries so; its `tension_n` stays the bound.
pub fn hang_with_errors(load: &HangingLoad, set_up: &SlingSetUp, longer_m: &[f64]) -> Result<Hung, String> {
    let off = Off {
        longer_m: longer_m.to_vec(),
        ..Off::default()
    };
    hang_off(load, set_up, &off)
}

/// What is other than nominal in one hang.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Off {
    /// What each member is longer than its nominal length, m; missing ones by nothing.
    pub longer_m: Vec<f64>,
    /// Legs at the soft end of their stiffness; else at the stiff end.
    pub soft: bool,
    /// Stiffness of the box against twist, N·m²; `None` is rigid.
    pub gj_n_m2: Option<f64>,
    /// Rigidity of the box against bending, N·m²; `None` is rigid.
    pub ei_n_m2: Option<f64>,
    /// Where the box's mass is, for twist and bending, as in [`Doubt`].
    pub masses: Vec<MassItem>,
}

/// How the load hangs with some things other than nominal. A box that twists or bends is told with its twist.
pub fn hang_off(load: &HangingLoad, set_up: &SlingSetUp, off: &Off) -> Result<Hung, String> {
    let stretch = if off.soft { Stretch::Soft } else { Stretch::Stiff };
    let built = build(load, set_up, stretch)?;
    let mut built = giving(built, load, off.gj_n_m2, off.ei_n_m2, &off.masses);
    for (member, longer_m) in built.rig.members.iter_mut().zip(&off.longer_m) {
        member.length_m += longer_m;
    }
    super::hang::hang_built(load, set_up, &built)
}

/// The worst of every member over centre of gravity, lengths, stretch and twist. Strength is judged by it; level by the nominal hang.
///
/// Every corner of the envelope and the nominal place × soft and stiff legs × every stiffness against twist and bending × the signs of the lengths that
/// load a member most: [`statics::WorstSearch`]. All legs are soft together or stiff together. The twist axis is taken at half width and half
/// height; bays run between the pick sections.
pub fn worst(load: &HangingLoad, set_up: &SlingSetUp, doubt: &Doubt) -> Result<WorstLift, String> {
    let mut search = WorstSearch::new(load, set_up, doubt)?;
    while !search.go_on(usize::MAX) {}
    Ok(search.found())
}

/// The search of [`worst`] a few cases at a time, so that a page can do other things in between.
pub struct WorstSearch {
    answer: WorstLift,
    corners: Vec<CgCorner>,
    /// Legs soft, then stiff.
    searches: Vec<(Stretch, BuiltRig, statics::WorstSearch)>,
}

impl WorstSearch {
    /// Nothing is searched yet but the nominal hang, and the bounds are known.
    ///
    /// # Errors
    /// Why it does not hang nominally.
    pub fn new(load: &HangingLoad, set_up: &SlingSetUp, doubt: &Doubt) -> Result<Self, String> {
        let nominal = hang(load, set_up)?;
        let corners = corners(load, doubt);
        let bound_n = widest_bounds_n(load, set_up, &corners, &nominal.members);
        let member = |(i, member): (usize, &Member)| WorstMember {
            kind: member.kind,
            nominal_n: member.tension_n,
            worst_n: 0.0,
            case: None,
            bound_n: bound_n.as_ref().and_then(|bounds| bounds.get(i).copied()),
        };
        let answer = WorstLift {
            members: nominal.members.iter().enumerate().map(member).collect(),
            along_rad: [nominal.along.tilt_rad; 2],
            across_rad: [nominal.across.tilt_rad; 2],
            bending_n: bending_bounds_n(load, set_up, doubt),
            twists: twists(load, set_up, doubt),
            refused: Vec::new(),
            solved: 0,
            cut_short: false,
        };
        let stretches: &[Stretch] = if stretches(set_up) {
            &[Stretch::Soft, Stretch::Stiff]
        } else {
            &[Stretch::Stiff]
        };
        let mut searches = Vec::new();
        for &stretch in stretches {
            let gives = [&doubt.gj_n_m2, &doubt.ei_n_m2].map(|values| values.iter().any(|value| value.is_finite()));
            let built = yielding(build(load, set_up, stretch)?, load, gives, &doubt.masses);
            let search = statics::WorstSearch::new(&built.rig, &bands(&built, load, &corners, doubt));
            searches.push((stretch, built, search));
        }
        Ok(Self {
            answer,
            corners,
            searches,
        })
    }

    /// Solves at most twice so many cases more, and says whether all is done.
    pub fn go_on(&mut self, most: usize) -> bool {
        self.searches.iter_mut().all(|(.., search)| search.go_on(most))
    }

    /// Cases solved so far.
    pub fn solved(&self) -> usize {
        self.searches.iter().map(|(.., search)| search.solved()).sum()
    }

    /// The worst so far; `cut_short` where not all was done.
    pub fn found(self) -> WorstLift {
        let mut answer = self.answer;
        for (stretch, built, search) in self.searches {
            answer.take(&built, search.found(), &self.corners, stretch);
        }
        answer
    }
}

fn bending_bounds_n(load: &HangingLoad, set_up: &SlingSetUp, doubt: &Doubt) -> Option<[Vec<f64>; 2]> {
    if sections_m(load).len() < 3 {
        return None;
    }
    let at = |ei_n_m2: Option<f64>| {
        let off = Off {
            ei_n_m2,
            masses: doubt.masses.clone(),
            ..Off::default()
        };
        let hung = hang_off(load, set_up, &off).ok()?;
        Some(hung.members.iter().map(|member| member.shared_n).collect())
    };
    Some([at(Some(0.0))?, at(None)?])
}

fn twists(load: &HangingLoad, set_up: &SlingSetUp, doubt: &Doubt) -> Vec<(f64, Vec<TwistBay>)> {
    let finite = doubt.gj_n_m2.iter().copied().filter(|gj| gj.is_finite());
    let at = |gj_n_m2: f64| {
        let off = Off {
            gj_n_m2: Some(gj_n_m2),
            masses: doubt.masses.clone(),
            ..Off::default()
        };
        Some((gj_n_m2, hang_off(load, set_up, &off).ok()?.twist))
    };
    finite.filter_map(at).collect()
}

/// A corner of the envelope: which end of each band, and the place, m.
struct CgCorner {
    at: [i8; 3],
    cg_m: [f64; 3],
}

/// Corners of the envelope; an axis whose band has no width is not counted twice.
fn corners(load: &HangingLoad, doubt: &Doubt) -> Vec<CgCorner> {
    let mut corners = vec![CgCorner {
        at: [0; 3],
        cg_m: load.cg_m,
    }];
    for axis in 0..3 {
        let (low_m, high_m) = (doubt.cg_low_m[axis], doubt.cg_high_m[axis]);
        if high_m - low_m <= 0.0 {
            continue;
        }
        corners = [(-1, low_m), (1, high_m)]
            .into_iter()
            .flat_map(|(sign, to_m)| {
                corners.iter().map(move |corner| {
                    let mut next = CgCorner { ..*corner };
                    (next.at[axis], next.cg_m[axis]) = (sign, to_m);
                    next
                })
            })
            .collect();
    }
    corners.retain(|corner| corner.at != [0; 3]);
    corners
}

fn bands(built: &BuiltRig, load: &HangingLoad, corners: &[CgCorner], doubt: &Doubt) -> Bands {
    Bands {
        cg_shifts: corners
            .iter()
            .map(|corner| CgShift {
                body: 0,
                by_m: core::array::from_fn(|axis| corner.cg_m[axis] - load.cg_m[axis]),
            })
            .collect(),
        length_tolerance_m: vec![doubt.length_tolerance_m; built.rig.members.len()],
        ea_factors: Vec::new(),
        gj_n_m2: if built.rig.bodies[0].twist.is_some() {
            doubt.gj_n_m2.clone()
        } else {
            Vec::new()
        },
        ei_n_m2: if built.rig.bodies[0].bend.is_some() {
            doubt.ei_n_m2.clone()
        } else {
            Vec::new()
        },
    }
}

/// Where the box is picked along its length, m.
fn sections_m(load: &HangingLoad) -> Vec<f64> {
    let mut sections_x_m: Vec<f64> = load.picks_m.iter().map(|p| p[0]).collect();
    sections_x_m.sort_by(f64::total_cmp);
    sections_x_m.dedup_by(|a, b| (*a - *b).abs() < ONE_SECTION_M);
    sections_x_m
}

/// Lets the box twist and bend between its pick sections with these stiffnesses, N·m²; without one, or with an infinite one, it is rigid.
pub(super) fn giving(
    built: BuiltRig,
    load: &HangingLoad,
    gj_n_m2: Option<f64>,
    ei_n_m2: Option<f64>,
    masses: &[MassItem],
) -> BuiltRig {
    let finite = [gj_n_m2, ei_n_m2].map(|value| value.is_some_and(f64::is_finite));
    let mut built = yielding(built, load, finite, masses);
    let house = &mut built.rig.bodies[0];
    if let Some((twist, gj_n_m2)) = house.twist.as_mut().zip(gj_n_m2) {
        twist.gj_n_m2 = gj_n_m2;
    }
    if let Some((bend, ei_n_m2)) = house.bend.as_mut().zip(ei_n_m2) {
        bend.ei_n_m2 = ei_n_m2;
    }
    built
}

/// Makes the box one that can twist and bend between its pick sections, its masses riding along; still rigid. The twist axis is at half width and
/// half height, the neutral axis at half height.
fn yielding(mut built: BuiltRig, load: &HangingLoad, [twists, bends]: [bool; 2], masses: &[MassItem]) -> BuiltRig {
    let sections_x_m = sections_m(load);
    let twists = twists && sections_x_m.len() >= 2;
    let bends = bends && sections_x_m.len() >= 3;
    if !twists && !bends {
        return built;
    }
    let house = &mut built.rig.bodies[0];
    house.twist = twists.then(|| Twist {
        axis_yz_m: [load.width_m / 2.0, load.height_m / 2.0],
        sections_x_m: sections_x_m.clone(),
        gj_n_m2: f64::INFINITY,
    });
    house.bend = bends.then_some(Bend {
        neutral_z_m: load.height_m / 2.0,
        sections_x_m,
        ei_n_m2: f64::INFINITY,
    });
    let total_kg: f64 = masses.iter().map(|item| item.mass_kg).sum();
    if total_kg > 0.0 && masses.iter().all(|item| item.mass_kg >= 0.0) {
        let as_loaded = |item: &MassItem| MassItem {
            mass_kg: item.mass_kg * load.mass_kg / total_kg,
            ..*item
        };
        house.masses = masses.iter().map(as_loaded).collect();
    }
    built
}

fn stretches(set_up: &SlingSetUp) -> bool {
    let lines = set_up.lines();
    lines
        .iter()
        .any(|line| line.ea_n.is_some_and(|[soft_n, stiff_n]| soft_n < stiff_n))
}

/// The largest of the stiff box's bound over the envelope, N; on four legs at each leg's nominal angle.
fn widest_bounds_n(
    load: &HangingLoad,
    set_up: &SlingSetUp,
    corners: &[CgCorner],
    nominal: &[Member],
) -> Option<Vec<f64>> {
    if matches!(set_up, SlingSetUp::Pieces { .. }) {
        let at = |cg_m: [f64; 3]| {
            let there = HangingLoad { cg_m, ..load.clone() };
            let built = build(&there, set_up, Stretch::None).ok()?;
            let at_rest = statics::hang(&built.rig, None).ok()?;
            bounds_n(&there, set_up, &built, &at_rest)
        };
        let places = core::iter::once(load.cg_m).chain(corners.iter().map(|corner| corner.cg_m));
        let larger = |a: Vec<f64>, b: Vec<f64>| a.into_iter().zip(b).map(|(a, b)| a.max(b)).collect();
        return places.filter_map(at).reduce(larger);
    }
    let at = |cg_m: [f64; 3]| four_leg_bounds(&HangingLoad { cg_m, ..load.clone() }, set_up);
    let mut shares = at(load.cg_m)?;
    for corner in corners {
        let more = at(corner.cg_m)?;
        shares = core::array::from_fn(|i| shares[i].max(more[i]));
    }
    let of_leg = |(leg, share): (&Member, f64)| share * load.mass_kg * G / libm::sin(leg.angle_rad);
    Some(nominal.iter().zip(shares).map(of_leg).collect())
}

impl WorstLift {
    fn take(&mut self, built: &BuiltRig, found: statics::WorstCase, corners: &[CgCorner], stretch: Stretch) {
        let case = |case: &statics::Case| WorstCase {
            cg_at: case.cg_shift.map_or([0; 3], |i| corners[i].at),
            stiff: stretch == Stretch::Stiff,
            gj_n_m2: case.gj_n_m2.filter(|gj| gj.is_finite()),
            ei_n_m2: case.ei_n_m2.filter(|ei| ei.is_finite()),
            longer_m: case.longer_m.clone(),
        };
        for (mine, worst) in self.members.iter_mut().zip(&found.members) {
            if let Some(worst) = worst
                && (mine.case.is_none() || worst.tension_n > mine.worst_n)
            {
                mine.worst_n = worst.tension_n;
                mine.case = Some(case(&worst.case));
            }
        }
        if let Some(tilt) = found.tilts.first() {
            widen(&mut self.along_rad, tilt.along_rad);
            widen(&mut self.across_rad, tilt.across_rad);
        }
        let refused = found
            .refusals
            .iter()
            .map(|refusal| (case(&refusal.case), words(&refusal.reason, built)));
        self.refused.extend(refused);
        self.solved += found.solved;
        self.cut_short |= found.cut_short;
    }
}

/// Takes in a range of the solver's tilt, which is above 0 where the second end is up.
fn widen(range: &mut [f64; 2], [low, high]: [f64; 2]) {
    *range = [range[0].min(-high), range[1].max(-low)];
}
