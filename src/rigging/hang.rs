//! How a load hangs: the general hang of its rig, told in the trade's terms.

use super::closed_form::{Across, apex_m, stiff_box_bounds};
use super::hung::{Figure, HangingLoad, Hung, Level, Member, MemberKind, SlingSetUp};
use super::rig::{BuiltRig, Stretch, build};
use crate::quantity::{STANDARD_GRAVITY_M_S2 as G, both};
use crate::statics::{self, BodyState, Hang, NoHang, Part, Stop};

/// Picks this far apart in height or plan still count as one rectangle for the stiff box's bound, m.
const RECTANGLE_M: f64 = 0.01;

/// How a load hangs, or why it does not.
///
/// Slings and straps do not stretch and weigh nothing here; bars have their mass. A member's `tension_n` is the one to design with: on four
/// legs to one hook the bound for a stiff box, whatever the legs' small differences.
pub fn hang(load: &HangingLoad, set_up: &SlingSetUp) -> Result<Hung, String> {
    let built = build(load, set_up, Stretch::None)?;
    hang_built(load, set_up, &built)
}

/// How a rig that was built of the load and the set-up hangs.
pub(super) fn hang_built(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig) -> Result<Hung, String> {
    let at_rest = statics::hang(&built.rig, None).map_err(|reason| words(&reason, built))?;
    Ok(told(load, set_up, built, &at_rest))
}

fn told(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig, at_rest: &Hang) -> Hung {
    let figure = figure(load, built, at_rest);
    let house = &at_rest.bodies[0];
    let offsets = offsets_m(load, set_up);
    let margins = margins_m(load, set_up, &figure);
    let level = |tilt_rad: f64, rise_m: f64, axis: usize| Level {
        tilt_rad: -tilt_rad,
        rise_m: rise_m.abs(),
        margin_m: margins[axis],
        offset_m: offsets[axis],
    };
    let members = members(load, set_up, built, at_rest);
    let floor_m = figure.box_m[..4].iter().map(|p| p[2]).fold(f64::INFINITY, f64::min);
    let across_kn = |kinds: fn(&MemberKind) -> bool| horizontal_n(&members, kinds);
    let on_bars = matches!(set_up, SlingSetUp::BarAndCrossBars { .. });
    let end_of = |end: usize| -> f64 {
        members
            .iter()
            .filter(|m| matches!(m.kind, MemberKind::Strap(c) if c.end == end))
            .map(|m| m.vertical_n)
            .sum::<f64>()
            / G
    };
    let cross_kg = match set_up {
        SlingSetUp::BarAndCrossBars { cross_kg, .. } => *cross_kg,
        SlingSetUp::FourLegs { .. } => 0.0,
    };
    Hung {
        hook_above_floor_m: figure.hook_m[2] - floor_m,
        along: level(house.tilt_along_rad, house.rise_along_m, 0),
        across: level(house.tilt_across_rad, house.rise_across_m, 1),
        bar_compression_n: on_bars.then(|| across_kn(|k| matches!(k, MemberKind::Top { .. }))),
        cross_compression_n: on_bars.then(|| {
            [
                across_kn(|k| matches!(k, MemberKind::Bridle(c) if c.end == 0)),
                across_kn(|k| matches!(k, MemberKind::Bridle(c) if c.end == 1)),
            ]
        }),
        below_bar_kg: on_bars.then_some(load.mass_kg + 2.0 * cross_kg),
        below_cross_kg: on_bars.then(|| [end_of(0), end_of(1)]),
        hook_over_m: hook_over_m(&at_rest.state.bodies[0], figure.hook_m),
        members,
        figure,
    }
}

/// Largest horizontal part of the tensions of some members, N: what a bar between them is pressed with.
fn horizontal_n(members: &[Member], kinds: fn(&MemberKind) -> bool) -> f64 {
    members
        .iter()
        .filter(|m| kinds(&m.kind))
        .map(|m| m.shared_n * libm::cos(m.angle_rad))
        .fold(0.0, f64::max)
}

fn members(load: &HangingLoad, set_up: &SlingSetUp, built: &BuiltRig, at_rest: &Hang) -> Vec<Member> {
    let bounds = four_leg_bounds(load, set_up);
    built
        .kinds
        .iter()
        .zip(&built.rig.members)
        .zip(&at_rest.members)
        .enumerate()
        .map(|(i, ((kind, line), pull))| {
            let angle_rad = pull.angles_from_horizontal_rad.first().copied().unwrap_or_default();
            let sine = libm::sin(angle_rad);
            let bound_n = bounds.map(|shares| load.mass_kg * G * shares[i] / sine);
            let tension_n = bound_n.map_or(pull.tension_n, |bound| bound.max(pull.tension_n));
            Member {
                kind: *kind,
                length_m: line.length_m,
                angle_rad,
                vertical_n: tension_n * sine,
                tension_n,
                shared_n: pull.tension_n,
                slack: pull.slack,
            }
        })
        .collect()
}

/// Shares of a stiff box's bound on four legs to picks that form a rectangle; for other picks any leg may carry up to half and its own share.
pub(super) fn four_leg_bounds(load: &HangingLoad, set_up: &SlingSetUp) -> Option<[f64; 4]> {
    let SlingSetUp::FourLegs { .. } = set_up else {
        return None;
    };
    let [a, b, c, d] = load.picks_m;
    let same = |p: f64, q: f64| (p - q).abs() <= RECTANGLE_M;
    let rectangle = same(a[0], b[0]) && same(c[0], d[0]) && same(a[1], c[1]) && same(b[1], d[1]);
    let share = |axis: usize, low: f64, high: f64| ((load.cg_m[axis] - low) / (high - low)).clamp(0.0, 1.0);
    if rectangle {
        Some(stiff_box_bounds(share(0, a[0], c[0]), share(1, a[1], b[1])))
    } else {
        Some([0.5 + (share(0, a[0], c[0]) - 0.5).abs(); 4])
    }
}

/// Centre of gravity beside the plumb of the hook as the lengths put it, along and across, m; positive towards the second end and side.
fn offsets_m(load: &HangingLoad, set_up: &SlingSetUp) -> [f64; 2] {
    let [a, b, c, _] = load.picks_m;
    let middle = [(a[0] + c[0]) / 2.0, (a[1] + b[1]) / 2.0];
    let mut offsets = [load.cg_m[0] - middle[0], load.cg_m[1] - middle[1]];
    if let SlingSetUp::BarAndCrossBars {
        bar_lugs_m,
        top,
        cross_lugs_m,
        bridles,
        ..
    } = set_up
    {
        let aside = |legs: &[super::hung::Line; 2], span_m: f64| {
            apex_m(legs[0].length_m, legs[1].length_m, span_m).map_or(0.0, |(x, _)| x - span_m / 2.0)
        };
        offsets[0] -= aside(top, *bar_lugs_m);
        offsets[1] -= bridles.iter().map(|legs| aside(legs, *cross_lugs_m)).sum::<f64>() / 2.0;
    }
    offsets
}

/// Righting heights along and across, m, by the hand formulas: they say how far from turning over the load is.
fn margins_m(load: &HangingLoad, set_up: &SlingSetUp, figure: &Figure) -> [f64; 2] {
    let pick_z = load.picks_m.iter().map(|p| p[2]).sum::<f64>() / 4.0;
    let cg_m = load.cg_m[2] - pick_z;
    match set_up {
        SlingSetUp::FourLegs { .. } => [figure.hook_m[2] - figure.cg_m[2]; 2],
        SlingSetUp::BarAndCrossBars {
            bar_lugs_m,
            top,
            cross_kg,
            cross_lugs_m,
            bridles,
            ..
        } => {
            let rise = |legs: &[super::hung::Line; 2], span_m: f64| {
                apex_m(legs[0].length_m, legs[1].length_m, span_m).map_or(0.0, |(_, up)| up)
            };
            let across = Across {
                load_kg: load.mass_kg,
                bars_kg: 2.0 * cross_kg,
                cg_offset_m: 0.0,
                apex_offset_m: 0.0,
                rise_m: bridles.iter().map(|legs| rise(legs, *cross_lugs_m)).sum::<f64>() / 2.0,
                cg_m,
                lugs_m: *cross_lugs_m,
                picks_m: load.picks_m[1][1] - load.picks_m[0][1],
            };
            [rise(top, *bar_lugs_m) - cg_m, across.margin_m()]
        }
    }
}

fn figure(load: &HangingLoad, built: &BuiltRig, at_rest: &Hang) -> Figure {
    let state = &at_rest.state;
    let place = |stop: &Stop| match stop {
        Stop::Point(i) => state.points_m[*i],
        Stop::Node { body, node } => in_space(&state.bodies[*body], built.rig.bodies[*body].nodes_m[*node]),
        Stop::Edge { body, edge } => in_space(&state.bodies[*body], built.rig.bodies[*body].edges[*edge].from_m),
    };
    let corners = &at_rest.bodies[0].corners_m;
    let bar = |body: usize| [0, 1].map(|node| in_space(&state.bodies[body], built.rig.bodies[body].nodes_m[node]));
    let bodies = built.rig.bodies.len();
    let bars = (bodies > 1).then(|| core::iter::once(bodies - 1).chain(1..bodies - 1));
    Figure {
        hook_m: state.points_m[0],
        box_m: core::array::from_fn(|i| corners[i]),
        cg_m: in_space(&state.bodies[0], load.cg_m),
        bars_m: bars.into_iter().flatten().map(bar).collect(),
        legs_m: built
            .rig
            .members
            .iter()
            .map(|m| [place(&m.path[0]), place(&m.path[m.path.len() - 1])])
            .collect(),
    }
}

/// A point of a body in space: its origin and its attitude, a unit quaternion w, x, y, z.
pub(super) fn in_space(body: &BodyState, p: [f64; 3]) -> [f64; 3] {
    let turned = turn(body.attitude, p);
    core::array::from_fn(|i| body.at_m[i] + turned[i])
}

/// Where a point in space is over the body's own plan, m.
fn hook_over_m(body: &BodyState, hook_m: [f64; 3]) -> [f64; 2] {
    let [w, x, y, z] = body.attitude;
    let away = core::array::from_fn(|i| hook_m[i] - body.at_m[i]);
    let [along, across, _] = turn([w, -x, -y, -z], away);
    [along, across]
}

/// `p + 2w(q × p) + 2q × (q × p)`, the rotation by a unit quaternion (w, q).
fn turn([w, x, y, z]: [f64; 4], p: [f64; 3]) -> [f64; 3] {
    let cross = |a: [f64; 3], b: [f64; 3]| {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    };
    let q = [x, y, z];
    let once = cross(q, p);
    let twice = cross(q, once);
    core::array::from_fn(|i| p[i] + 2.0 * (w * once[i] + twice[i]))
}

/// Why it does not hang, in the trade's words.
pub(super) fn words(reason: &NoHang, built: &BuiltRig) -> String {
    let name = |i: &usize| built.kinds.get(*i).map_or("a leg", |kind| kind.words());
    match reason {
        NoHang::CgOutsidePicks { body: 0, outside_m } => {
            format!(
                "the centre of gravity is outside the picks by {}: it tips on lift-off; move the picks or the weight",
                both(*outside_m)
            )
        }
        NoHang::GoesOver {
            body,
            toward,
            either_way,
        } => {
            let what = if *body == 0 { "the box" } else { "a bar" };
            let way = match (toward[0].abs() > toward[1].abs(), either_way) {
                (_, true) if toward[1].abs() > toward[0].abs() => "across, either way",
                (_, true) => "along, either way",
                (true, _) if toward[0] > 0.0 => "towards its second end",
                (true, _) => "towards its first end",
                (false, _) if toward[1] > 0.0 => "towards its second side",
                (false, _) => "towards its first side",
            };
            format!(
                "{what} turns over {way}: the slings hold it too low over its picks for its centre of gravity; lengthen the legs above the bar"
            )
        }
        NoHang::ShorterThanSpan {
            members: [a, b],
            length_m,
            span_m,
        } => {
            format!(
                "too short: {} and {} are {} together and must span {}; lengthen them",
                name(a),
                name(b),
                both(*length_m),
                both(*span_m)
            )
        }
        NoHang::HookBelowPick { member, below_m } => {
            format!(
                "{}: its upper end is {} below the end it carries; lengthen the legs",
                name(member),
                both(*below_m)
            )
        }
        NoHang::Overstretched { member, strain } => {
            format!(
                "{} would have to stretch by {:.0} %: the lengths do not close; check them",
                name(member),
                strain * 100.0
            )
        }
        NoHang::Mechanism { part: Part::Member(i) } => {
            format!("{} can move without resistance: the rig does not hold the box", name(i))
        }
        other => other.to_string(),
    }
}
