//! The rig in the box's frame, drawn from the lengths and angles that the hang gives.

use crate::evaluate::{LiftResult, RigResult};
use crate::plan::{HouseBox, Load, Plan};
use crate::rigging::{Corner, Hung, MemberKind};

/// A point in the box frame, m: along from the first end, across from the first side, up from the underside of the floor.
pub type P3 = [f64; 3];

/// The rig as lines in the box's frame, box level.
pub struct RigLines {
    /// The hook.
    pub hook: P3,
    /// Each member of the hang by its index, from its upper to its lower end.
    pub members: Vec<(usize, [P3; 2])>,
    /// Bars, from the first to the second end (or side).
    pub bars: Vec<[P3; 2]>,
    /// The picks.
    pub picks: Vec<P3>,
}

/// The box of a lift with its place in the assessment; `None` for other loads.
pub fn lifted<'a>(plan: &'a Plan, lift: &LiftResult) -> Option<&'a HouseBox> {
    match &plan.lifts.iter().find(|l| l.id == lift.id)?.load {
        Load::Box { id } => plan.house_box(id),
        Load::RoofRaise { .. } | Load::Bundle { .. } => None,
    }
}

/// The rig of a lift as lines; `None` without a hang or without four picks.
pub fn rig_lines(house: &HouseBox, rig: &RigResult) -> Option<RigLines> {
    let hung = rig.hung.as_ref()?;
    let picks: Vec<P3> = house.picks.iter().map(|p| p.metres()).collect::<Option<_>>()?;
    if picks.len() != 4 {
        return None;
    }
    let hook = [hung.hook_over_m[0], hung.hook_over_m[1], hung.hook_above_floor_m];
    let pick = |c: Corner| picks.get(2 * c.end + c.side).copied().unwrap_or(hook);
    let mut members = Vec::new();
    let mut bars = Vec::new();
    for (index, member) in hung.members.iter().enumerate() {
        let line = match member.kind {
            MemberKind::Leg(corner) => [hook, pick(corner)],
            MemberKind::Top { end } => [hook, bar_end(hung, hook, end)?],
            MemberKind::Bridle(corner) => [bar_end(hung, hook, corner.end)?, cross_end(hung, hook, corner)?],
            MemberKind::Strap(corner) => [cross_end(hung, hook, corner)?, pick(corner)],
        };
        members.push((index, line));
    }
    if let (Some(a), Some(b)) = (bar_end(hung, hook, 0), bar_end(hung, hook, 1)) {
        bars.push([a, b]);
    }
    for end in 0..2 {
        let at = |side| cross_end(hung, hook, Corner { end, side });
        if let (Some(a), Some(b)) = (at(0), at(1)) {
            bars.push([a, b]);
        }
    }
    Some(RigLines {
        hook,
        members,
        bars,
        picks,
    })
}

/// −1 towards the first end or side, 1 towards the second.
fn sign(which: usize) -> f64 {
    if which == 0 { -1.0 } else { 1.0 }
}

/// Run and fall of a member, m.
fn run_and_fall(hung: &Hung, kind: MemberKind) -> Option<[f64; 2]> {
    let member = hung.members.iter().find(|m| m.kind == kind)?;
    Some([
        member.length_m * libm::cos(member.angle_rad),
        member.length_m * libm::sin(member.angle_rad),
    ])
}

/// The end of the bar along the box.
fn bar_end(hung: &Hung, hook: P3, end: usize) -> Option<P3> {
    let [run, fall] = run_and_fall(hung, MemberKind::Top { end })?;
    Some([hook[0] + sign(end) * run, hook[1], hook[2] - fall])
}

/// The end of a cross bar.
fn cross_end(hung: &Hung, hook: P3, corner: Corner) -> Option<P3> {
    let bar = bar_end(hung, hook, corner.end)?;
    let [run, fall] = run_and_fall(hung, MemberKind::Bridle(corner))?;
    Some([bar[0], bar[1] + sign(corner.side) * run, bar[2] - fall])
}
