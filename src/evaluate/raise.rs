//! A hinged roof half on its way up: the pull over its whole arc, the hinge, the restraint, and the crane where the arc asks most of it.

use super::crane_side::{self, Hanging, Target};
use super::further::{HungLift, PlacedLift};
use super::lifts::named_blocks;
use super::{Assessment, EndKind, EndResult, LoadResult};
use crate::check::{Check, Finding, Outcome, Working};
use crate::geometry::rotate;
use crate::plan::{Arrangement, HouseBox, Lift, Load, Plan, RaiseArc};
use crate::quantity::{Angle, Entry, Force, Length, Mass, Quantity, Readable, STANDARD_GRAVITY_M_S2 as G, both};
use crate::structure::{Arc, AtAngle, Panel, balance_of_flap_rad, flap_restraint_n};

/// Nearer than this to its balance a panel is told of as well, rad: 10° (judgement, no source).
const NEAR_BALANCE_RAD: f64 = 10.0 * core::f64::consts::PI / 180.0;

/// The arc of a raise, or what is missing to know it. Nothing for another lift.
pub fn arc_of(plan: &Plan, lift: &Lift) -> Option<Result<Arc, String>> {
    let Load::RoofRaise {
        panel,
        hinge_to_cg,
        hinge_to_pull,
        arc,
        ..
    } = &lift.load
    else {
        return None;
    };
    let hook_above = plan.rig(&lift.rig).and_then(|rig| match &rig.arrangement {
        Arrangement::Simple { hook_above } => hook_above.not_negative(),
        _ => None,
    });
    let mut missing = Vec::new();
    let mut si = |what: &str, si: Option<f64>| {
        si.unwrap_or_else(|| {
            missing.push(what.to_owned());
            0.0
        })
    };
    let found = Arc {
        panel: Panel {
            weight_n: si("weight of the panel", panel.not_negative().map(|m| m.weight().to_n())),
            to_cg_m: si("hinge to its centre of gravity", known(hinge_to_cg)),
            to_pull_m: si("hinge to the pull", known(hinge_to_pull).filter(|m| *m > 0.0)),
            cg_square_m: si("its centre of gravity square to that line", known(&arc.cg_square)),
        },
        from_rad: si("its angle at the start", known(&arc.from)),
        to_rad: si("its angle at the end", known(&arc.to)),
        hook_off_m: si(
            "how far the hook may be beside the plumb",
            known(&arc.hook_off).map(f64::abs),
        ),
        hook_above_m: si(
            "hook above the pick, in its rig",
            hook_above.map(Length::to_m).filter(|m| *m > 0.0),
        ),
    };
    Some(if missing.is_empty() {
        Ok(found)
    } else {
        Err(format!("the arc of the roof panel: {}", missing.join(", ")))
    })
}

fn known<Q: Readable>(entry: &Entry<Q>) -> Option<f64> {
    entry.get().map(Quantity::si)
}

/// Where the hinge line is: the place of the pull on the box's own plan, across and up, and which way the panel reaches.
struct Hinge {
    along_m: f64,
    across_m: f64,
    up_m: f64,
    outwards: f64,
}

fn hinge(arc: &RaiseArc) -> Option<Hinge> {
    Some(Hinge {
        along_m: known(&arc.pull_along)?,
        across_m: known(&arc.hinge_across)?,
        up_m: known(&arc.hinge_up)?,
        outwards: if arc.toward_second { 1.0 } else { -1.0 },
    })
}

/// Where a raise is on the site: what turns the box's own places into the site's.
pub struct RaiseSite {
    arc: Arc,
    hinge: Hinge,
    corner_m: [f64; 2],
    turn: (f64, f64),
    floor_m: f64,
    length_m: f64,
}

/// The arc and its place, or what is missing.
pub fn raise_site(plan: &Plan, lift: &Lift) -> Option<Result<RaiseSite, String>> {
    let Load::RoofRaise { on, arc: entered, .. } = &lift.load else {
        return None;
    };
    let site = |arc: Arc| {
        let house = plan
            .house_box(on)
            .ok_or_else(|| format!("box {on} is not in the plan"))?;
        let hinge = hinge(entered)
            .ok_or("the hinge line of the roof panel: across, up, and where along the box it is pulled")?;
        let (corner_m, heading_rad, floor_m) = placed(house)?;
        Ok(RaiseSite {
            arc,
            hinge,
            corner_m,
            turn: (libm::cos(heading_rad), libm::sin(heading_rad)),
            floor_m,
            length_m: house.length.not_negative().map_or(0.0, Length::to_m),
        })
    };
    Some(arc_of(plan, lift)?.and_then(site))
}

fn placed(house: &HouseBox) -> Result<([f64; 2], f64, f64), String> {
    super::lifts::placed(house)
}

impl RaiseSite {
    /// The arc.
    pub const fn arc(&self) -> &Arc {
        &self.arc
    }

    fn on_site(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [east, north] = rotate([x, y], self.turn);
        [self.corner_m[0] + east, self.corner_m[1] + north]
    }

    /// Where the hook is over the pick, and the pick above grade, m.
    pub fn pick_m(&self, angle_rad: f64) -> ([f64; 2], f64) {
        let [out_m, up_m] = self.arc.panel.pick_m(angle_rad);
        let across_m = self.hinge.across_m + self.hinge.outwards * out_m;
        (
            self.on_site([self.hinge.along_m, across_m]),
            self.floor_m + self.hinge.up_m + up_m,
        )
    }

    /// What the crane sees of it at one angle.
    pub fn target(&self, end: EndKind, angle_rad: f64) -> Target {
        let (hook_m, pick_up_m) = self.pick_m(angle_rad);
        Target {
            end,
            hook_m,
            floor_m: pick_up_m,
            outline_m: Vec::new(),
            height_m: 0.0,
        }
    }

    /// The panel in plan, m: from its hinge to its pick over the whole box.
    fn outline_m(&self, angle_rad: f64) -> Vec<[f64; 2]> {
        let [out_m, _] = self.arc.panel.pick_m(angle_rad);
        let hinge_m = self.hinge.across_m;
        let edge_m = hinge_m + self.hinge.outwards * out_m;
        [
            [0.0, hinge_m],
            [self.length_m, hinge_m],
            [self.length_m, edge_m],
            [0.0, edge_m],
        ]
        .map(|p| self.on_site(p))
        .to_vec()
    }

    /// Angles at which the hook is nearest to and farthest from the crane, and the ends of the arc, rad.
    ///
    /// In plan the hook runs along a straight line; distance along a line has its top at an end and its least at the foot of the plumb on it.
    fn telling_angles_rad(&self, at_m: [f64; 2]) -> Vec<f64> {
        let (from, to) = (self.arc.from_rad, self.arc.to_rad);
        let mut angles = vec![from, to];
        let inside = |a: f64| a > from.min(to) && a < from.max(to);
        // the pick reaches out farthest where the panel lies level
        angles.extend(Some(0.0).filter(|a| inside(*a)));
        let [a, b] = [0.0, 1.0].map(|out_m| self.pick_at(out_m));
        let run = [b[0] - a[0], b[1] - a[1]];
        let foot_m = (at_m[0] - a[0]) * run[0] + (at_m[1] - a[1]) * run[1];
        let cosine = foot_m / self.arc.panel.to_pull_m;
        if cosine.abs() <= 1.0 {
            angles.extend(Some(libm::acos(cosine)).filter(|a| inside(*a)));
        }
        angles
    }

    /// A place so far out from the hinge on the line that the hook runs over, m.
    fn pick_at(&self, out_m: f64) -> [f64; 2] {
        self.on_site([self.hinge.along_m, self.hinge.across_m + self.hinge.outwards * out_m])
    }
}

/// Largest pull over the arc as a mass, kg; without an arc the share that levers give.
pub fn computed_pull_kg(arc: Option<&Arc>, panel_kg: f64, to_cg_m: f64, to_pull_m: f64) -> Option<f64> {
    match arc {
        Some(arc) => arc.largest_pull().map(|at| at.pull_n.abs() / G),
        None => Some(panel_kg * to_cg_m / to_pull_m),
    }
}

/// The checks of a raise that need no crane: its balance, its flap, and what is to be done before the crane lets go.
pub fn hung_findings(hung: &HungLift<'_>) -> Vec<Finding> {
    let Load::RoofRaise { arc: entered, .. } = &hung.lift.load else {
        return Vec::new();
    };
    let arc = match arc_of(hung.plan, hung.lift) {
        Some(Ok(arc)) => arc,
        Some(Err(missing)) => return vec![Finding::not_checked(Check::RoofRaise, "the arc", missing)],
        None => return Vec::new(),
    };
    let mut findings = vec![pull_finding(&arc, hung.load), balance_finding(&arc, entered)];
    findings.extend(flap_finding(entered));
    findings
}

/// The largest pull of the arc against what the lift is planned with.
fn pull_finding(arc: &Arc, load: &LoadResult) -> Finding {
    const SUBJECT: &str = "largest pull over the arc";
    let Some(worst) = arc.largest_pull() else {
        let outside = format!("{SUBJECT}: the sling comes to run along the panel and cannot hold it");
        return Finding::of(Check::RoofRaise, outside, Outcome::Outside);
    };
    let Some(planned_kg) = load.planned_kg else {
        return Finding::not_checked(Check::RoofRaise, SUBJECT, "the weight of the load");
    };
    let pull = Force::n(worst.pull_n.abs()).as_mass();
    Finding::at_most(Check::RoofRaise, SUBJECT, pull.into(), Mass::kg(planned_kg).into())
        .caution("knee walls and struts stand and are nailed before the sling goes slack; nobody under the panel until it is tied; the lift director looks at each raise")
        .working(arc_working(arc, &worst))
}

fn arc_working(arc: &Arc, worst: &AtAngle) -> [Working; 3] {
    let panel = &arc.panel;
    let angle = Angle::rad(worst.angle_rad);
    let weight = Force::n(panel.weight_n).as_mass();
    let pull = Working::new(
        "pull along the sling at its worst lean",
        "P",
        "W·(d·cos a − n·sin a)/(l·cos g)",
        Force::n(worst.pull_n).as_mass(),
        "moments about the hinge; plumb and n = 0: W·d/l",
    )
    .input("W", "weight of the panel", weight)
    .input("d", "hinge to its centre of gravity", Length::m(panel.to_cg_m))
    .input(
        "n",
        "centre of gravity square to the line",
        Length::m(panel.cg_square_m),
    )
    .input("l", "hinge to the pull", Length::m(panel.to_pull_m))
    .input("a", "panel from the horizontal", angle)
    .input(
        "g",
        "sling from the panel's normal",
        Angle::rad(worst.angle_rad - worst.sling.lean_rad),
    );
    let up = Working::new(
        "hinge carries upwards",
        "V",
        "W − P·cos(a − g)",
        Force::n(worst.hinge_up_n).as_mass(),
        "balance of forces",
    );
    let along = Working::new(
        "hinge pushed sideways",
        "H",
        "P·sin(a − g)",
        Force::n(worst.hinge_along_n).as_mass(),
        "balance of forces",
    );
    [pull, up, along]
}

/// Whether the panel passes its balance within the arc, and what holds it then.
fn balance_finding(arc: &Arc, entered: &RaiseArc) -> Finding {
    let balance = arc.panel.balance_rad();
    let nearest = (arc.from_rad.max(arc.to_rad) - balance).abs();
    let working = Working::new(
        "angle at which nothing turns the panel",
        "a_b",
        "atan(d/n)",
        Angle::rad(balance),
        "its centre of gravity is over the hinge",
    )
    .input("d", "hinge to its centre of gravity", Length::m(arc.panel.to_cg_m))
    .input(
        "n",
        "centre of gravity square to the line",
        Length::m(arc.panel.cg_square_m),
    );
    let finding = match arc.passes_balance_rad() {
        Some(_) => {
            let force = Force::n(arc.restraint_n()).as_mass();
            held_back(
                format!("panel passes its balance at {}", degrees(balance)),
                force,
                entered,
            )
        }
        None if nearest < NEAR_BALANCE_RAD => {
            let near = format!("panel comes within 10° of its balance at {}", degrees(balance));
            held_back(near, Force::n(0.0).as_mass(), entered)
        }
        None => Finding::of(Check::RoofRaise, "panel stays short of its balance", Outcome::Within),
    };
    finding.working([working])
}

/// A flap that is laid over beyond the panel's edge always passes its balance.
fn flap_finding(entered: &RaiseArc) -> Option<Finding> {
    if entered.flap.is_blank() {
        return None;
    }
    let Some((flap, to)) = entered.flap.not_negative().zip(entered.flap_to.get()) else {
        let missing = "weight of the flap, and its angle from the horizontal when it is laid over";
        return Some(Finding::not_checked(Check::RoofRaise, "flap", missing));
    };
    let over = balance_of_flap_rad(to.to_rad())?;
    let force = Force::n(flap_restraint_n(flap.to_kg(), to.to_rad())).as_mass();
    Some(held_back(
        format!("flap passes its balance at {}", degrees(over)),
        force,
        entered,
    ))
}

/// Past its balance a panel is held by a restraint that somebody has thought of; without one the lift is held.
fn held_back(subject: String, force: Mass, entered: &RaiseArc) -> Finding {
    let needed = if force.to_kg() > 0.0 {
        format!(
            "it wants to fall the other way with up to {:.0} lb ({:.0} kg)",
            force.to_lb().ceil(),
            force.to_kg().ceil()
        )
    } else {
        "it may want to fall the other way".into()
    };
    match entered.restraint.trim() {
        "" => {
            let until = format!("{needed}: what holds it back is not entered");
            Finding::of(Check::RoofRaise, subject, Outcome::Held { until })
        }
        by => Finding::of(Check::RoofRaise, subject, Outcome::Within).caution(format!("{needed}; held back by {by}")),
    }
}

fn degrees(rad: f64) -> String {
    format!("{:.1}°", rad.to_degrees())
}

/// What the crane sees at one angle of the arc.
#[derive(Clone, Debug)]
pub struct OnArc {
    /// The panel from the horizontal, rad.
    pub angle_rad: f64,
    /// The pull; `None` where the sling cannot hold the panel so.
    pub pull: Option<AtAngle>,
    /// The crane, with the boom of the lift.
    pub end: EndResult,
    /// Its findings.
    pub findings: Vec<Finding>,
}

/// The crane over the arc at given angles, with the boom that the lift has.
pub fn on_arc(placed: &PlacedLift<'_>, site: &RaiseSite, angles_rad: &[f64]) -> Vec<OnArc> {
    let Some(boom_m) = placed.lift.boom_m else {
        return Vec::new();
    };
    let hanging = Hanging {
        planned_kg: placed.lift.load.planned_kg,
        rigging_kg: placed.lift.load.rigging_kg,
        hook_above_m: placed.lift.rig.hook_above_m,
    };
    let standing = named_blocks(placed.standing);
    let at = |&angle_rad: &f64| {
        let target = Target {
            outline_m: site.outline_m(angle_rad),
            ..site.target(EndKind::Set, angle_rad)
        };
        let (end, findings) = placed
            .crane
            .at_end(&placed.plan.limits, boom_m, &target, hanging, &standing);
        OnArc {
            angle_rad,
            pull: site.arc.at(angle_rad),
            end,
            findings,
        }
    };
    angles_rad.iter().map(at).collect()
}

/// A raise at one angle, with what the crane sees there.
pub type ArcPoint = OnArc;

/// The raise over its whole arc in so many steps, with the crane where it stands, and what is missing where it cannot be worked out.
///
/// # Errors
/// What is missing of the arc or of the crane.
pub fn raise_arc(
    plan: &Plan,
    assessment: &Assessment,
    lift_index: usize,
    steps: u32,
) -> Result<(Arc, Vec<ArcPoint>), String> {
    let (Some(lift), Some(result)) = (plan.lifts.get(lift_index), assessment.lifts.get(lift_index)) else {
        return Err(format!("there is no lift in row {}", lift_index + 1));
    };
    let site = raise_site(plan, lift).ok_or("this lift is no roof raise")??;
    let crane = crane_side::resolve(plan);
    let standing = super::lifts::standing_boxes(plan, lift_index);
    let placed = PlacedLift {
        plan,
        index: lift_index,
        crane: &crane,
        lift: result,
        standing: &standing,
    };
    let angles: Vec<f64> = site.arc.angles_rad(steps).collect();
    let points = on_arc(&placed, &site, &angles);
    if points.is_empty() {
        return Err("the crane, its chart or the boom of this lift is not known".into());
    }
    Ok((site.arc, points))
}

/// The crane at the arc's worst point: the findings there, where they are worse than at both ends.
pub fn placed_findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let lift = &placed.plan.lifts[placed.index];
    let (Some(Ok(site)), Some(at_m)) = (raise_site(placed.plan, lift), placed.crane.at_m) else {
        return Vec::new();
    };
    let points = on_arc(placed, &site, &site.telling_angles_rad(at_m));
    let off_m = site.arc.hook_off_m;
    let mut findings: Vec<Finding> = Vec::new();
    for check in [Check::ChartUse, Check::Headroom, Check::BoomGap, Check::Reach] {
        let of_check = points
            .iter()
            .flat_map(|p| p.findings.iter().filter(|f| f.check == check).map(move |f| (p, f)));
        let worst = of_check.max_by(|a, b| {
            let by = |f: &Finding| (f.outcome.gravity(), f.ratio.unwrap_or(0.0));
            let ((gravity_a, ratio_a), (gravity_b, ratio_b)) = (by(a.1), by(b.1));
            gravity_a.cmp(&gravity_b).then(ratio_a.total_cmp(&ratio_b))
        });
        if let Some((point, finding)) = worst {
            let mut finding = finding.clone();
            finding.subject = format!("worst of the arc, panel at {}", degrees(point.angle_rad));
            if check == Check::ChartUse && off_m > 0.0 {
                finding = with_hook_off(point, finding, off_m);
            }
            findings.push(finding);
        }
    }
    findings
}

/// Tells where the hook may be farther beside the plumb than it may go out before the chart's limit.
fn with_hook_off(point: &OnArc, finding: Finding, off_m: f64) -> Finding {
    match point.end.may_move {
        Some(room) if room.to_m() < off_m => finding.caution(format!(
            "the hook may go out by {} here before the limit is passed, and it may be {} beside the plumb: keep it over the edge",
            both(room.to_m()),
            both(off_m)
        )),
        _ => finding,
    }
}
