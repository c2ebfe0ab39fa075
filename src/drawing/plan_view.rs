//! The plan: the lot from above, to scale, with the crane, the boxes in place, and where the truck stops.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::scene::{Anchor, Form, Frame, Item, MarkKind, Role, Scene};
use super::strip;
use super::words::{down, tape, up};
use crate::check::{Check, Finding, Outcome};
use crate::evaluate::{Assessment, EndKind, EndResult, LiftResult};
use crate::geometry::distance_m;
use crate::plan::{Load, Plan, Point, ZoneKind};
use crate::quantity::UnitSystem;

type P = [f64; 2];

/// Room left round what is shown, mm: dimensions of the foundation stand there, unless the drawing is small.
fn margin_mm(paper: Paper) -> f64 {
    if paper.is_small() { 4.0 } else { 12.0 }
}
/// The plan with the reach of a lift: the selected one, else the one the headline speaks of.
///
/// Frame: metres east and north, true scale.
pub fn plan_view(plan: &Plan, assessment: &Assessment, selected: Option<usize>, paper: Paper) -> Scene {
    let paper = paper.usable();
    let shown = selected
        .filter(|i| *i < assessment.lifts.len())
        .or(assessment.headline.lift);
    let (mut draw, scale) = on_the_lot(plan, assessment, shown, paper);
    draw.reach();
    draw.trouble();
    draw.frame_and_foot(scale);
    let (title, facts) = (draw.title(scale), draw.facts());
    draw.pen.finish(title, facts)
}

/// What every plan shows: the lot, the boxes in place, the spots, the crane; and its scale.
fn on_the_lot<'a>(plan: &'a Plan, assessment: &'a Assessment, shown: Option<usize>, paper: Paper) -> (Draw<'a>, f64) {
    let (scale, frame) = fitted(plan, assessment, paper);
    let window_mm = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
    let mut draw = Draw {
        pen: Pen::new(frame, paper, window_mm),
        plan,
        assessment,
        shown,
        units: assessment.units,
    };
    draw.lot();
    draw.foundation();
    draw.boxes();
    draw.spots();
    draw.crane();
    (draw, scale)
}

/// The plan of the whole day for the site: no lift picked out, the farthest reach of all.
///
/// Frame: metres east and north, true scale.
pub fn site_view(plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
    let paper = paper.usable();
    let (mut draw, scale) = on_the_lot(plan, assessment, None, paper);
    draw.farthest_reach();
    draw.frame_and_foot(scale);
    let (title, mut facts) = (draw.title(scale), draw.facts());
    facts.extend(assessment.lifts.iter().flat_map(|lift| draw.radii(lift)));
    draw.pen.finish(title, facts)
}

/// The true scale that fits what matters, and where it lies on the paper.
fn fitted(plan: &Plan, assessment: &Assessment, paper: Paper) -> (f64, Frame) {
    let points = extent(plan, assessment);
    let least = |i: usize| points.iter().map(|p| p[i]).fold(f64::INFINITY, f64::min);
    let most = |i: usize| points.iter().map(|p| p[i]).fold(f64::NEG_INFINITY, f64::max);
    let (low, high) = if points.is_empty() {
        ([0.0, 0.0], [20.0, 20.0])
    } else {
        ([least(0), least(1)], [most(0), most(1)])
    };
    let room = [
        (paper.width_mm - 2.0 * margin_mm(paper)).max(20.0),
        (paper.height_mm - foot_mm(paper) - 2.0 * margin_mm(paper)).max(20.0),
    ];
    let scale = border::scale([high[0] - low[0], high[1] - low[1]], room);
    let mm = 1000.0 / scale;
    let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0 - middle[0] * mm,
        y0_mm: (paper.height_mm - foot_mm(paper)) / 2.0 + middle[1] * mm,
        mm_per_x: mm,
        mm_per_y: mm,
        x_unit: "m",
        y_unit: "m",
    };
    (scale, frame)
}

/// What has to be on the plan: foundation, crane, loads at pick and set, and a power line that is near.
fn extent(plan: &Plan, assessment: &Assessment) -> Vec<P> {
    let mut points: Vec<P> = outline(&plan.site.foundation);
    let crane = &assessment.crane;
    points.extend(crane.mats_m.iter().flatten());
    if let Some(at) = crane.at_m {
        let tail = crane.tail_m.unwrap_or(0.0);
        points.extend([[at[0] - tail, at[1] - tail], [at[0] + tail, at[1] + tail]]);
    }
    for end in assessment.lifts.iter().flat_map(|l| &l.ends) {
        points.push(end.hook_m);
        points.extend(&end.outline_m);
    }
    points.extend(plan.site.spots.iter().filter_map(|s| s.at.metres()));
    points.retain(|p| p.iter().all(|x| x.is_finite()));
    let south = points.clone();
    for line in &plan.site.power_lines {
        let (Some(a), Some(b), Some(trigger)) = (line.from.metres(), line.to.metres(), line.trigger.get()) else {
            continue;
        };
        // the foot of the perpendicular from the nearest point, where the band reaches it
        let near = south
            .iter()
            .map(|p| (foot(*p, a, b), *p))
            .min_by(|x, y| distance_m(x.0, x.1).total_cmp(&distance_m(y.0, y.1)));
        if let Some((at, from)) = near.filter(|(at, from)| distance_m(*at, *from) < 1.5 * trigger.to_m()) {
            let away = distance_m(at, from).max(1e-9);
            points.push([0, 1].map(|i| at[i] + (at[i] - from[i]) / away * 1.0));
        }
    }
    points
}

/// The point of a segment nearest to a point.
fn foot(p: P, a: P, b: P) -> P {
    let d = [b[0] - a[0], b[1] - a[1]];
    let length2 = d[0] * d[0] + d[1] * d[1];
    let t = if length2 > 0.0 {
        (((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / length2).clamp(0.0, 1.0)
    } else {
        0.0
    };
    [a[0] + t * d[0], a[1] + t * d[1]]
}

/// The points of an outline that are known.
fn outline(points: &[Point]) -> Vec<P> {
    points.iter().filter_map(Point::metres).collect()
}

struct Draw<'a> {
    pen: Pen,
    plan: &'a Plan,
    assessment: &'a Assessment,
    shown: Option<usize>,
    units: UnitSystem,
}

impl Draw<'_> {
    fn shown(&self) -> Option<&LiftResult> {
        self.assessment.lifts.get(self.shown?)
    }

    fn lot(&mut self) {
        for (i, zone) in self.plan.site.zones.iter().enumerate() {
            let area = outline(&zone.outline);
            let item = Some(Item::Zone(i));
            match zone.kind {
                ZoneKind::NoLoad | ZoneKind::Excavation => {
                    self.pen.hatch(Role::Hatch, item.clone(), &[&area], 1.6, 45.0);
                    self.pen.outline(Role::Outline, item, &area);
                    self.pen
                        .inside(&area, Words::new(format!("{}: no load", zone.name)).rank(4));
                }
                ZoneKind::Property => {
                    self.pen.outline(Role::Phantom, item, &area);
                    if let Some((a, b)) = sides(&area).next() {
                        self.pen.along(a, b, Words::new(&*zone.name).rank(9).scaled(0.85));
                    }
                }
                ZoneKind::Road | ZoneKind::Driveway | ZoneKind::Ground => {
                    self.pen.outline(Role::Thin, item, &area);
                    self.pen.inside(&area, Words::new(&*zone.name).rank(7));
                }
            }
        }
        self.trees();
        self.wires();
    }

    fn trees(&mut self) {
        for (i, tree) in self.plan.site.obstacles.iter().enumerate() {
            let (Some(at), Some(radius)) = (tree.at.metres(), tree.radius.get()) else {
                continue;
            };
            let item = Some(Item::Obstacle(i));
            self.pen.circle(Role::Thin, item.clone(), at, radius.to_m());
            self.pen.mark(Role::Thin, item, at, MarkKind::Cross, 2.0);
            let height = tree.height.get().map_or_else(
                || "height not known".into(),
                |h| format!("{} high", tape(h.to_m(), self.units)),
            );
            self.pen
                .beside(at, 1.2, Words::new(format!("{}, {height}", tree.name)).rank(6));
        }
    }

    fn wires(&mut self) {
        for (i, line) in self.plan.site.power_lines.iter().enumerate() {
            let (Some(a), Some(b)) = (line.from.metres(), line.to.metres()) else {
                continue;
            };
            let item = Some(Item::PowerLine(i));
            self.pen.line(Role::Heavy, item.clone(), &[a, b]);
            self.zigzag(a, b, item.clone());
            let kilovolts = if line.kilovolts.trim().is_empty() {
                "voltage not known".into()
            } else if line.confirmed.trim().is_empty() {
                format!("{} kV as told, not confirmed", line.kilovolts)
            } else {
                format!("{} kV", line.kilovolts)
            };
            let height = line.height.get().map_or(String::new(), |h| {
                format!(", lowest wire {} up", down(h.to_m(), self.units))
            });
            let name = if line.name.is_empty() { "power line" } else { &line.name };
            let text = if self.pen.paper().is_small() {
                // the words that a narrow drawing has room for
                match (line.kilovolts.trim(), line.confirmed.trim()) {
                    ("", _) => "line, voltage not known".into(),
                    (kv, "") => format!("{kv} kV line, not confirmed"),
                    (kv, _) => format!("{kv} kV line"),
                }
            } else {
                format!("{name}, {kilovolts}{height}")
            };
            self.pen.along(a, b, Words::new(text).rank(2).strong());
            let Some(trigger) = line.trigger.get() else {
                continue;
            };
            for side in [1.0, -1.0] {
                let (p, q) = aside(a, b, side * trigger.to_m());
                self.pen.line(Role::Phantom, item.clone(), &[p, q]);
                self.pen.hatch(Role::Hatch, item.clone(), &[&[a, b, q, p]], 5.0, 135.0);
                if side > 0.0 {
                    let text = format!(
                        "{} from the wire: the rules for power lines begin",
                        up(trigger.to_m(), self.units)
                    );
                    self.pen.along(p, q, Words::new(text).rank(6).scaled(0.9));
                }
            }
        }
        for (i, cable) in self.plan.site.cables.iter().enumerate() {
            let (Some(a), Some(b)) = (cable.from.metres(), cable.to.metres()) else {
                continue;
            };
            let item = Some(Item::Cable(i));
            self.pen.line(Role::Centre, item.clone(), &[a, b]);
            for end in [a, b] {
                self.pen.mark(Role::Solid, item.clone(), end, MarkKind::Dot, 1.2);
            }
            let clear = cable.clear.get().map_or_else(
                || "clear height not known".into(),
                |c| format!("{} clear below", down(c.to_m(), self.units)),
            );
            self.pen
                .along(a, b, Words::new(format!("{}, {clear}", cable.name)).rank(6).scaled(0.9));
        }
    }

    /// Bolts along a line, the sign of an electric line on maps.
    fn zigzag(&mut self, a: P, b: P, item: Option<Item>) {
        let Some([from, to]) = self.pen.window().line(a, b) else {
            return;
        };
        for t in [0.12, 0.88] {
            let at = [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
            let points = [[-0.9, 1.9], [0.5, 0.3], [-0.5, -0.3], [0.9, -1.9]]
                .map(|o| self.pen.moved(at, o))
                .to_vec();
            self.pen.add(Role::Outline, item.clone(), Form::Line { points });
        }
    }

    fn foundation(&mut self) {
        let corners = outline(&self.plan.site.foundation);
        if corners.len() < 3 {
            return;
        }
        if let Some(strip_m) = self
            .plan
            .site
            .no_load_offset
            .get()
            .map(|o| o.to_m())
            .filter(|o| *o > 0.0)
        {
            let item = Some(Item::NoLoadStrip);
            let spacing_m = 1.6 / self.pen.mm_per_m();
            let lines = strip::hatch(&corners, strip_m, spacing_m);
            self.pen.lines(Role::Hatch, item.clone(), &lines);
            for part in strip::border(&corners, strip_m) {
                self.pen.line(Role::Hidden, item.clone(), &part);
            }
            if let Some(at) = strip::border(&corners, strip_m)
                .first()
                .and_then(|part| part.get(part.len() / 2))
                .copied()
            {
                let text = format!("no load within {} of the foundation", up(strip_m, self.units));
                self.pen
                    .beside(at, 0.5, Words::new(text).rank(6).scaled(0.9).of(Item::NoLoadStrip));
            }
        }
        self.pen.outline(Role::Body, Some(Item::Foundation), &corners);
        if !self.pen.paper().is_small() {
            self.foundation_dimensions(&corners);
        }
    }

    /// Overall sizes along the top and the left, where the crane usually is not.
    fn foundation_dimensions(&mut self, corners: &[P]) {
        let least = |i: usize| corners.iter().map(|p| p[i]).fold(f64::INFINITY, f64::min);
        let most = |i: usize| corners.iter().map(|p| p[i]).fold(f64::NEG_INFINITY, f64::max);
        let (low, high) = ([least(0), least(1)], [most(0), most(1)]);
        let crane_north = self
            .assessment
            .crane
            .at_m
            .is_some_and(|at| at[1] > (low[1] + high[1]) / 2.0);
        let item = Some(Item::Foundation);
        let across = Words::new(tape(high[0] - low[0], self.units));
        if crane_north {
            self.pen.dimension(item.clone(), [high[0], low[1]], low, 7.0, across);
        } else {
            self.pen.dimension(item.clone(), [low[0], high[1]], high, 7.0, across);
        }
        self.pen.dimension(
            item,
            low,
            [low[0], high[1]],
            7.0,
            Words::new(tape(high[1] - low[1], self.units)),
        );
    }

    fn boxes(&mut self) {
        let mut seen: Vec<(Vec<P>, Vec<String>)> = Vec::new();
        for lift in &self.assessment.lifts {
            let Some(Load::Box { id }) = self.plan.lifts.iter().find(|l| l.id == lift.id).map(|l| &l.load) else {
                continue;
            };
            let Some(end) = lift.ends.iter().find(|e| e.end == EndKind::Set) else {
                continue;
            };
            self.pen
                .outline(Role::Outline, Some(Item::Box(id.clone())), &end.outline_m);
            let name = if self.pen.paper().is_small() {
                format!("{} {id}", lift.number)
            } else {
                format!("{} · {id}", lift.number)
            };
            match seen.iter_mut().find(|(o, _)| same(o, &end.outline_m)) {
                Some((_, names)) => names.push(name),
                None => seen.push((end.outline_m.clone(), vec![name])),
            }
        }
        for (area, names) in seen {
            // in the plan's order: set from the ground up
            let words = if self.pen.paper().is_small() {
                Words::new(names.join(", ")).scaled(0.9)
            } else {
                Words::new(names.join(" below ")).scaled(1.2)
            };
            self.pen.inside(&area, words.strong().rank(3));
        }
    }

    fn spots(&mut self) {
        let size = self.pen.size_mm;
        for spot in &self.plan.site.spots {
            let Some(at) = spot.at.metres() else { continue };
            let item = Some(Item::Spot(spot.id.clone()));
            let using: Vec<(usize, &LiftResult)> = self
                .assessment
                .lifts
                .iter()
                .enumerate()
                .filter(|(_, l)| l.spot.as_ref() == Some(&spot.id))
                .collect();
            let end_of = |lift: &LiftResult| lift.ends.iter().find(|e| e.end == EndKind::Pick).cloned();
            let here = using.iter().find(|(i, _)| Some(*i) == self.shown);
            let picked = here.or(using.first()).and_then(|(_, l)| end_of(l));
            if let Some(end) = &picked {
                let role = if here.is_some() { Role::Heavy } else { Role::Phantom };
                self.pen.outline(role, item.clone(), &end.outline_m);
            }
            self.pen
                .mark(Role::Outline, item.clone(), at, MarkKind::Cross, 1.2 * size);
            let numbers: Vec<String> = using.iter().map(|(_, l)| l.number.to_string()).collect();
            let text = match numbers.len() {
                0 => format!("pick {}", spot.id),
                1 => format!("pick {}: lift {}", spot.id, numbers[0]),
                _ => format!("pick {}: lifts {}", spot.id, numbers.join(", ")),
            };
            // a sheet for one lift has no room for the names of other spots
            let rank = if here.is_none() && self.pen.paper().printed {
                6
            } else {
                3
            };
            let words = Words::new(text).of(Item::Spot(spot.id.clone())).rank(rank);
            let words = if here.is_some() { words.strong() } else { words };
            match picked.map(|e| e.outline_m).filter(|o| o.len() > 2) {
                Some(area) => self.pen.inside(&area, words),
                None => self.pen.beside(at, 1.8, words),
            }
            if let Some(heading) = spot.heading.get() {
                self.arrival(at, heading.to_rad(), here.map(|(i, _)| *i), item);
            }
        }
    }

    /// The arrow along the load's x axis on its carrier, with the name of the end it points to.
    fn arrival(&mut self, at: P, heading_rad: f64, lift: Option<usize>, item: Option<Item>) {
        let direction = [libm::cos(heading_rad), libm::sin(heading_rad)];
        let reach_m = 3.0;
        let tip = [at[0] + reach_m * direction[0], at[1] + reach_m * direction[1]];
        self.pen.arrow(Role::Outline, item, at, tip, self.pen.size_mm);
        let load = lift.and_then(|i| self.plan.lifts.get(i)).map(|l| &l.load);
        if let Some(Load::Box { id }) = load
            && let Some(end) = self.plan.house_box(id).map(|b| &b.ends[1]).filter(|e| !e.is_empty())
        {
            let words = Words::new(format!("{end} this way")).rank(6).scaled(0.9);
            self.pen.beside(tip, 0.8, words);
        }
    }

    fn crane(&mut self) {
        let pads = if self.pen.paper().is_small() {
            &[][..]
        } else {
            &self.plan.site.pads
        };
        for pad in pads {
            let Some(at) = pad.at.metres() else { continue };
            let item = Item::Pad(pad.id.clone());
            self.pen.mark(Role::Thin, Some(item.clone()), at, MarkKind::Cross, 2.4);
            if self.assessment.crane.at_m.is_none_or(|c| distance_m(c, at) > 0.05) {
                self.pen.beside(
                    at,
                    1.0,
                    Words::new(format!("pad {}", pad.id)).rank(8).scaled(0.85).of(item),
                );
            }
        }
        let crane = &self.assessment.crane;
        let Some(at) = crane.at_m else {
            return;
        };
        let (cos, sin) = (libm::cos(crane.heading_rad), libm::sin(crane.heading_rad));
        let (mats, tail, ties) = (crane.mats_m.clone(), crane.tail_m, crane.ties.clone());
        for (i, mat) in mats.iter().enumerate() {
            let middle = [(mat[0][0] + mat[2][0]) / 2.0, (mat[0][1] + mat[2][1]) / 2.0];
            let along = (middle[0] - at[0]) * cos + (middle[1] - at[1]) * sin;
            // the beam from the carrier's centre line to the float
            self.pen.line(
                Role::Thin,
                Some(Item::Crane),
                &[[at[0] + along * cos, at[1] + along * sin], middle],
            );
            self.pen.outline(Role::Body, Some(Item::Mat(i)), mat);
        }
        if let Some(tail) = tail {
            self.pen.circle(Role::Phantom, Some(Item::Tail), at, tail);
            let on = [at[0] - tail * 0.707, at[1] - tail * 0.707];
            self.pen.beside(
                on,
                0.4,
                Words::new(format!("tail swing {}", up(tail, self.units)))
                    .rank(6)
                    .scaled(0.9),
            );
        }
        let front = [at[0] + 5.5 * cos, at[1] + 5.5 * sin];
        let rear = [at[0] - 4.5 * cos, at[1] - 4.5 * sin];
        self.pen.line(Role::Centre, Some(Item::Crane), &[rear, at]);
        self.pen.arrow(Role::Centre, Some(Item::Crane), at, front, 2.5);
        self.pen
            .beside(front, 0.6, Words::new("carrier front").rank(8).scaled(0.85));
        self.ties(at, &ties);
        let size = self.pen.size_mm;
        self.pen
            .mark(Role::Body, Some(Item::Crane), at, MarkKind::Ring, 1.4 * size);
        self.pen
            .mark(Role::Outline, Some(Item::Crane), at, MarkKind::Cross, 2.4 * size);
        self.pen.mark(Role::Grip, Some(Item::Crane), at, MarkKind::Dot, 14.0);
        if !self.pen.paper().is_small() {
            let words = Words::new("crane centre").strong().rank(2).of(Item::Crane);
            self.pen.beside(at, 3.0, words);
        }
    }

    fn ties(&mut self, at: P, ties: &[(usize, f64)]) {
        let corners = outline(&self.plan.site.foundation);
        for (index, metres) in ties {
            let Some(corner) = corners.get(*index) else { continue };
            let words = Words::new(tape(*metres, self.units)).rank(2).of(Item::Tie(*index));
            self.pen.dimension(Some(Item::Tie(*index)), at, *corner, 0.0, words);
        }
    }

    fn reach(&mut self) {
        let (Some(at), Some(index)) = (self.assessment.crane.at_m, self.shown) else {
            return;
        };
        let ends: Vec<EndResult> = self.shown().map(|l| l.ends.clone()).unwrap_or_default();
        let loaded = self
            .plan
            .lifts
            .get(index)
            .is_some_and(|l| matches!(l.load, Load::Box { .. }));
        let size = self.pen.size_mm;
        for end in &ends {
            let item = match end.end {
                EndKind::Pick => Item::Pick(index),
                EndKind::Set => Item::Set(index),
            };
            if loaded {
                self.pen.outline(Role::Heavy, Some(item.clone()), &end.outline_m);
            }
            let direction = libm::atan2(end.hook_m[1] - at[1], end.hook_m[0] - at[0]);
            self.pen.arc(
                Role::Centre,
                Some(item.clone()),
                at,
                end.radius_m,
                [direction - 0.7, direction + 0.7],
            );
            let text = format!("{} {}", radius_word(end.end), up(end.radius_m, self.units));
            self.pen.dimension(
                Some(item.clone()),
                at,
                end.hook_m,
                0.0,
                Words::new(text).strong().rank(1).of(item.clone()),
            );
            self.pen.mark(
                Role::Body,
                Some(item.clone()),
                end.hook_m,
                MarkKind::CentreOfGravity,
                1.3 * size,
            );
        }
    }

    /// The circle that the hook stays inside all day.
    fn farthest_reach(&mut self) {
        let ends = self.assessment.lifts.iter().flat_map(|l| &l.ends);
        let farthest = ends.map(|e| e.radius_m).fold(0.0, f64::max);
        let Some(at) = self.assessment.crane.at_m.filter(|_| farthest > 0.0) else {
            return;
        };
        self.pen.circle(Role::Centre, None, at, farthest);
        let text = format!("farthest radius {}", up(farthest, self.units));
        let directions = (0..16).map(|i| f64::from(i) * core::f64::consts::FRAC_PI_8);
        let on = directions.map(|a| [at[0] + farthest * libm::cos(a), at[1] + farthest * libm::sin(a)]);
        let window = self.pen.window();
        if let Some(on) = on.into_iter().find(|p| window.contains(*p)) {
            self.pen.beside(on, 0.5, Words::new(text).rank(4));
        }
    }

    /// What is outside or cannot be checked, in hatch and words.
    fn trouble(&mut self) {
        let Some(lift) = self.shown().cloned() else { return };
        let outside = |f: &&Finding| f.outcome == Outcome::Outside;
        if lift
            .findings
            .iter()
            .filter(outside)
            .any(|f| f.check == Check::Footprint)
        {
            for mat in &self.assessment.crane.mats_m {
                self.pen.hatch(Role::HatchOutside, None, &[mat], 1.0, -45.0);
            }
        }
        for end in &lift.ends {
            if lift
                .findings
                .iter()
                .filter(outside)
                .any(|f| border::concerns(f, end.end))
            {
                self.pen.hatch(Role::HatchOutside, None, &[&end.outline_m], 2.0, -45.0);
            }
        }
        border::banner(&mut self.pen, lift.findings.iter());
    }

    fn frame_and_foot(&mut self, scale: f64) {
        let lift = self
            .shown()
            .map_or(String::new(), |l| format!(", lift {} {}", l.number, l.title));
        border::border(&mut self.pen);
        border::foot(
            &mut self.pen,
            format!("PLAN{lift}"),
            border::scale_note(scale, self.units),
        );
        border::scale_bar(&mut self.pen, scale, self.units);
        self.north();
    }

    fn north(&mut self) {
        let (x, y) = (self.pen.paper().width_mm - 7.0, 14.0);
        let (tail, tip) = (self.pen.at_mm([x, y + 4.0]), self.pen.at_mm([x, y - 6.0]));
        self.pen.add(
            Role::Outline,
            None,
            Form::Line {
                points: vec![tail, tip],
            },
        );
        let head = Form::Mark {
            at: tip,
            kind: MarkKind::Arrow { toward_deg: 90.0 },
            size_mm: 4.0,
        };
        self.pen.add(Role::Solid, None, head);
        self.pen.fixed([x, y - 9.0], Anchor::Middle, Words::new("N").strong());
    }

    fn title(&self, scale: f64) -> String {
        let lift = self
            .shown()
            .map_or(String::new(), |l| format!(", lift {}, {}", l.number, l.title));
        format!("Plan{lift}, scale 1 : {scale:.0}")
    }

    fn facts(&self) -> Vec<String> {
        let mut facts = Vec::new();
        let crane = &self.assessment.crane;
        let corners = outline(&self.plan.site.foundation);
        match crane.at_m {
            Some(at) => facts.push(format!(
                "Crane centre {} east, {} north.",
                tape(at[0], self.units),
                tape(at[1], self.units)
            )),
            None => facts.push("Where the crane stands is not entered.".into()),
        }
        for (index, metres) in &crane.ties {
            if let Some([east, north]) = corners.get(*index) {
                facts.push(format!(
                    "Crane centre to the foundation corner at {} east, {} north: {}.",
                    tape(*east, self.units),
                    tape(*north, self.units),
                    tape(*metres, self.units)
                ));
            }
        }
        if let Some(lift) = self.shown() {
            facts.extend(self.radii(lift));
            facts.extend(
                lift.findings
                    .iter()
                    .filter(|f| f.outcome.gravity() >= 2)
                    .map(|f| format!("{}.", f.sentence())),
            );
        }
        facts
    }

    fn radii(&self, lift: &LiftResult) -> Vec<String> {
        let radius = |end: &EndResult| {
            let (radius, at) = (up(end.radius_m, self.units), end.end.words());
            format!("Lift {}, {}: radius {radius} {at}.", lift.number, lift.title)
        };
        lift.ends.iter().map(radius).collect()
    }
}

const fn radius_word(end: EndKind) -> &'static str {
    match end {
        EndKind::Pick => "pick radius",
        EndKind::Set => "set radius",
    }
}

/// A segment moved to its left.
fn aside(a: P, b: P, by: f64) -> (P, P) {
    let length = distance_m(a, b).max(1e-9);
    let n = [-(b[1] - a[1]) / length * by, (b[0] - a[0]) / length * by];
    ([a[0] + n[0], a[1] + n[1]], [b[0] + n[0], b[1] + n[1]])
}

fn sides(area: &[P]) -> impl Iterator<Item = (P, P)> + '_ {
    (0..area.len()).map(|i| (area[i], area[(i + 1) % area.len()]))
}

/// Whether two outlines are the same to a hand's breadth.
fn same(a: &[P], b: &[P]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(p, q)| distance_m(*p, *q) < 0.1)
}
