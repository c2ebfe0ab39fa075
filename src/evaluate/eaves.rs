//! Straps that slant round an eave: the push on it, the pull that this brings to the pick at the floor, and the rise that would keep within a limit.

use super::further::HungLift;
use super::load_path::Factors;
use super::rigs::member_name;
use crate::check::{Amount, Check, Finding, Working};
use crate::gear::eave::EaveStrap;
use crate::plan::{HouseBox, Load, Plan};
use crate::quantity::{Force, Length, Mass};
use crate::rigging::{Hung, Wall};

/// A strap pressing on an eave. Forces without factors.
#[derive(Clone, Debug, PartialEq)]
pub struct EavePush {
    /// Which strap.
    pub place: String,
    /// What it carries where it is held.
    pub vertical: Force,
    /// How hard it presses in.
    pub push: Force,
    /// How hard it presses down.
    pub down: Force,
    /// Its tension, which is what the pick at the floor feels where the eave has no friction.
    pub tension: Force,
    /// From the eave up to where it is held.
    pub rise: Length,
    /// From the eave in to the plumb of where it is held.
    pub inward: Length,
}

impl EavePush {
    fn strap(&self) -> EaveStrap {
        EaveStrap {
            vertical: self.vertical.to_n(),
            inward_m: self.inward.to_m(),
            rise_m: self.rise.to_m(),
        }
    }

    /// Rise that keeps the push within a limit.
    pub fn rise_needed(&self, limit: Mass) -> Option<Length> {
        self.strap().rise_needed_m(limit.weight().to_n()).map(Length::m)
    }
}

/// Tension of a leg that would pass inside a wall and bends round its eave instead, N; `None` where it touches none.
pub(super) fn tension_n(house: &HouseBox, hung: &Hung, index: usize) -> Option<f64> {
    straps(house, hung)
        .into_iter()
        .filter(|(member, _)| *member == index)
        .map(|(_, strap)| strap.tension())
        .reduce(f64::max)
}

/// Legs round an eave, each with its place among the members.
fn straps(house: &HouseBox, hung: &Hung) -> Vec<(usize, EaveStrap)> {
    let of_wall =
        |touch: &crate::rigging::WallTouch| Some((touch.member, at_eave(house, hung, touch.member, touch.wall)?));
    hung.walls.iter().filter_map(of_wall).collect()
}

/// Slope inwards, as a share of the height, below which a strap hangs plumb: one that touches a wall because the box tilts is cautioned of, and how its
/// wall then holds the box is nothing to count on.
const PLUMB: f64 = 0.02;

/// A leg from a pick up one wall, over its eave and straight to its upper end.
fn at_eave(house: &HouseBox, hung: &Hung, member: usize, wall: Wall) -> Option<EaveStrap> {
    let corners = &hung.figure.box_m;
    let (eave_corner, inward_to) = match wall {
        Wall::Side(0) => (4, 7),
        Wall::Side(_) => (7, 4),
        Wall::End(0) => (4, 5),
        Wall::End(_) => (5, 4),
    };
    let (eave, far) = (corners[eave_corner], corners[inward_to]);
    let inward: [f64; 3] = core::array::from_fn(|k| far[k] - eave[k]);
    let width_m = libm::hypot(inward[0], inward[1]);
    let [a, b] = hung.figure.legs_m[member];
    let (lower, upper) = if a[2] > b[2] { (b, a) } else { (a, b) };
    let leans_m = ((upper[0] - lower[0]) * inward[0] + (upper[1] - lower[1]) * inward[1]) / width_m;
    let rise_m = upper[2] - eave[2];
    let inward_m = ((upper[0] - eave[0]) * inward[0] + (upper[1] - eave[1]) * inward[1]) / width_m;
    let slants = leans_m > PLUMB * (upper[2] - lower[2]);
    let fits = slants && rise_m > 0.0 && inward_m > 0.0 && house.height.get().is_some();
    fits.then(|| EaveStrap {
        vertical: hung.members[member].vertical_n,
        inward_m,
        rise_m,
    })
}

/// Every strap that presses on an eave or on a named edge of the box, as it hangs.
pub fn eave_pushes(house: &HouseBox, hung: &Hung) -> Vec<EavePush> {
    let place = |member: usize| member_name(house, hung.members[member].kind);
    let of_strap = |(member, strap): (usize, EaveStrap)| EavePush {
        place: place(member),
        vertical: Force::n(strap.vertical),
        push: Force::n(strap.push()),
        down: Force::n(strap.pressed_down()),
        tension: Force::n(strap.tension()),
        rise: Length::m(strap.rise_m),
        inward: Length::m(strap.inward_m),
    };
    let mut pushes: Vec<EavePush> = straps(house, hung).into_iter().map(of_strap).collect();
    for press in &hung.edges {
        let way = &hung.figure.ways_m[press.member];
        let Some(upper) = way.iter().copied().max_by(|a, b| a[2].total_cmp(&b[2])) else {
            continue;
        };
        let [x, y, z] = press.force_n;
        let across_m = libm::hypot(upper[0] - press.at_m[0], upper[1] - press.at_m[1]);
        let (rise_m, tension_n) = (upper[2] - press.at_m[2], hung.members[press.member].tension_n);
        let slant_m = libm::hypot(across_m, rise_m);
        if rise_m > 0.0 {
            pushes.push(EavePush {
                place: place(press.member),
                vertical: Force::n(tension_n * rise_m / slant_m),
                push: Force::n(libm::hypot(x, y)),
                down: Force::n(-z),
                tension: Force::n(tension_n),
                rise: Length::m(rise_m),
                inward: Length::m(across_m),
            });
        }
    }
    pushes
}

/// What a strap would do if it slanted from the heaviest pick round its eave to one apex over the middle of the box, for each height of the apex over the
/// eave. Empty where the box has no width or no pick carries.
pub fn if_slanting(house: &HouseBox, hung: &Hung, rises: &[Length]) -> Vec<EavePush> {
    let Some(half_m) = house.width.get().map(|width| width.to_m() / 2.0).filter(|m| *m > 0.0) else {
        return Vec::new();
    };
    let Some(vertical) = hung.picks.iter().map(|pick| pick.vertical_n).reduce(f64::max) else {
        return Vec::new();
    };
    let one = |rise: &Length| {
        let strap = EaveStrap {
            vertical,
            inward_m: half_m,
            rise_m: rise.to_m(),
        };
        EavePush {
            place: "the heaviest pick".into(),
            vertical: Force::n(vertical),
            push: Force::n(strap.push()),
            down: Force::n(strap.pressed_down()),
            tension: Force::n(strap.tension()),
            rise: *rise,
            inward: Length::m(half_m),
        }
    };
    rises.iter().filter(|rise| rise.to_m() > 0.0).map(one).collect()
}

/// The finding on the strap that presses hardest. Without the factory's limit a push cannot be checked.
pub fn findings(lift: &HungLift<'_>) -> Vec<Finding> {
    let plan = lift.plan;
    let Load::Box { id } = &lift.lift.load else {
        return Vec::new();
    };
    let (Some(house), Some(hung)) = (plan.house_box(id), &lift.rig.hung) else {
        return Vec::new();
    };
    let pushes = eave_pushes(house, hung);
    let hardest = pushes.iter().max_by(|a, b| a.push.to_n().total_cmp(&b.push.to_n()));
    hardest.map(|push| finding(plan, house, push)).into_iter().collect()
}

fn finding(plan: &Plan, house: &HouseBox, push: &EavePush) -> Finding {
    let subject = format!("{}, pressed in at the eave", push.place);
    let working = working(push);
    let finding = match (Factors::of(plan), house.eave_push.not_negative()) {
        (Ok(factors), Some(limit)) => {
            let demand = factors.load_kg(push.push.as_mass().to_kg());
            let finding = factors.finding(Check::Eave, subject, demand, limit.to_kg());
            match push.rise_needed(limit) {
                Some(rise) if !finding.outcome.is_within() => finding.caution(format!(
                    "held {} above the eave it would be within: longer legs, or a spreader as wide as the box",
                    crate::quantity::both(rise.to_m())
                )),
                _ => finding,
            }
        }
        (Err(missing), _) => Finding::not_checked(Check::Eave, subject, missing),
        (_, None) => Finding::not_checked(
            Check::Eave,
            subject,
            format!("the factory's limit for the push on an eave of box {}: ask", house.id),
        ),
    };
    finding.working(working)
}

fn working(push: &EavePush) -> [Working; 3] {
    let (vertical, push_kg) = (push.vertical.as_mass(), push.push.as_mass());
    let slope = push.inward.to_m() / push.rise.to_m();
    [
        Working::new("push on the eave", "F", "V·b/r", push_kg, "similar triangles")
            .input("V", "carried where the strap is held", vertical)
            .input("b", "eave in to the plumb of where it is held", push.inward)
            .input("r", "eave up to where it is held", push.rise),
        Working::new(
            "tension in the strap, and the pull at the pick below",
            "T",
            "V·√(1 + q²)",
            push.tension.as_mass(),
            "a strap round an edge without friction has one tension",
        )
        .input("V", "carried where the strap is held", vertical)
        .input("q", "inward over rise", Amount::Factor(slope)),
        Working::new(
            "what presses the eave down",
            "D",
            "T − V",
            push.down.as_mass(),
            "equilibrium at the eave",
        )
        .input("T", "tension", push.tension.as_mass())
        .input("V", "carried where the strap is held", vertical),
    ]
}
