//! The elevation: a look across the boom, to scale, with the load carried clear at the pick or at the set.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::rig_view::{floor_m, lifted};
use super::scene::{Frame, Item, MarkKind, Role, Scene};
use super::words::{down, near, up};
use crate::evaluate::{Assessment, EndKind, EndResult, LiftResult};
use crate::geometry::distance_m;
use crate::plan::{Id, Plan};
use crate::quantity::{Safe, UnitSystem};

type P = [f64; 2];

/// Room left round what is shown, mm.
const MARGIN_MM: f64 = 3.0;
/// From what stands farthest out to the first of two upright dimensions, mm, and from that to the second, in sizes of the lettering.
const FIRST_MM: f64 = 4.5;
const STEP: f64 = 2.8;

/// The elevation along the boom at one end of a lift.
///
/// Frame: metres out from the slew axis towards the hook, and up from grade, true scale. The boom and what hangs on it are drawn
/// at the planned radius, allowance included.
pub fn elevation(plan: &Plan, assessment: &Assessment, lift: usize, end: EndKind, paper: Paper) -> Scene {
    let paper = paper.usable();
    let result = assessment.lifts.get(lift);
    let at_end = result.and_then(|l| l.ends.iter().find(|e| e.end == end));
    let (Some(result), Some(at_end), Some(at)) = (result, at_end, assessment.crane.at_m) else {
        return nothing_to_show(result, end, paper);
    };
    let side = Side::new(plan, assessment, lift, result, at_end, at);
    let (low, high) = side.extent();
    // beyond all that stands there two upright dimensions with their figures, below grade that of the radius
    let size_mm = paper.lettering_mm();
    let (beyond_mm, below_mm) = (FIRST_MM + (STEP + 1.4) * size_mm, 7.5 + 1.2 * size_mm);
    let room = [
        paper.width_mm - 2.0 * MARGIN_MM - beyond_mm,
        paper.height_mm - foot_mm(paper) - below_mm - 2.0 * MARGIN_MM,
    ];
    let scale = border::scale([high[0] - low[0], high[1] - low[1]], room);
    let mm = 1000.0 / scale;
    let frame = Frame {
        x0_mm: (paper.width_mm - beyond_mm) / 2.0 - (low[0] + high[0]) / 2.0 * mm,
        y0_mm: paper.height_mm - foot_mm(paper) - below_mm,
        mm_per_x: mm,
        mm_per_y: mm,
        x_unit: "m",
        y_unit: "m",
    };
    let window = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
    let mut draw = Draw {
        pen: Pen::new(frame, paper, window),
        units: assessment.units,
        lift,
        title: result.title.clone(),
        side,
    };
    draw.grade();
    draw.standing();
    draw.boom();
    draw.load();
    draw.clearances();
    let (side, units) = (&draw.side, assessment.units);
    let findings: Vec<_> = result
        .findings
        .iter()
        .filter(|f| f.check.is_crane_side() && border::concerns(f, end))
        .collect();
    border::banner(&mut draw.pen, findings.iter().copied());
    border::border(&mut draw.pen);
    let title = format!("ELEVATION {}, lift {} {}", end.words(), result.number, result.title);
    border::foot(&mut draw.pen, title, border::scale_note(scale, units));
    border::scale_bar(&mut draw.pen, scale, units);
    let mut facts = side.facts(units);
    facts.extend(border::trouble_in_words(findings.into_iter()));
    let title = format!(
        "Elevation along the boom {}, lift {}, {}, scale 1 : {scale:.0}",
        end.words(),
        result.number,
        result.title
    );
    draw.pen.finish(title, facts)
}

/// A sheet that says what is missing.
fn nothing_to_show(result: Option<&LiftResult>, end: EndKind, paper: Paper) -> Scene {
    let frame = Frame {
        x0_mm: 0.0,
        y0_mm: paper.height_mm,
        mm_per_x: 1.0,
        mm_per_y: 1.0,
        x_unit: "m",
        y_unit: "m",
    };
    let mut pen = Pen::new(frame, paper, [0.0, 0.0, paper.width_mm, paper.height_mm]);
    let text = match result {
        Some(lift) => format!(
            "Lift {}, {}, {}: cannot be drawn, the crane's place or this end of the lift is not known",
            lift.number,
            lift.title,
            end.words()
        ),
        None => "No such lift".into(),
    };
    pen.paragraph([3.0, 6.0], paper.width_mm - 8.0, &Words::new(text.clone()).strong());
    pen.finish("Elevation".into(), vec![format!("{text}.")])
}

/// A box seen from the side.
struct Standing {
    id: Id,
    /// From and to along the boom, m.
    along_m: [f64; 2],
    /// Bottom and top, m.
    up_m: [f64; 2],
    /// From and to where the boom's plane cuts it, m.
    cut_m: Option<[f64; 2]>,
}

/// Everything in the plane of the boom, m.
struct Side<'a> {
    end: &'a EndResult,
    /// Pin, head and depth of the boom.
    boom: Option<(P, P, f64)>,
    tail_m: Option<f64>,
    mats_m: Vec<[f64; 2]>,
    /// Radius at which the hook is drawn.
    radius_m: f64,
    load_along_m: [f64; 2],
    /// Where the boom's plane cuts the load, else where the load is nearest.
    load_cut_m: [f64; 2],
    /// Bottom and top of the load, carried clear.
    load_up_m: [f64; 2],
    hook_m: Option<f64>,
    block_m: Option<f64>,
    rig: Vec<(Option<usize>, [P; 2])>,
    standing: Vec<Standing>,
    nearest: Option<String>,
    wires: Vec<(usize, P, Option<f64>)>,
}

impl<'a> Side<'a> {
    fn new(plan: &Plan, assessment: &Assessment, index: usize, lift: &LiftResult, end: &'a EndResult, at: P) -> Self {
        let toward = [end.hook_m[0] - at[0], end.hook_m[1] - at[1]];
        let length = distance_m(at, end.hook_m);
        let unit = if length > 0.0 {
            toward.map(|x| x / length)
        } else {
            [1.0, 0.0]
        };
        let along = |p: &P| (p[0] - at[0]) * unit[0] + (p[1] - at[1]) * unit[1];
        let across = |p: &P| (p[1] - at[1]) * unit[0] - (p[0] - at[0]) * unit[1];
        let crane = plan.crane(&plan.set_up.crane);
        let radius_m = end.planned_radius.to_m();
        let shift = radius_m - end.radius_m;
        let carry = plan.limits.carry_clearance.get().map_or(0.0, |l| l.to_m());
        let bottom = end.floor_m + carry;
        let span = |points: &[P]| {
            let all = points.iter().map(along);
            [
                all.clone().fold(f64::INFINITY, f64::min),
                all.fold(f64::NEG_INFINITY, f64::max),
            ]
        };
        let section = |points: &[P]| {
            let cuts: Vec<f64> = (0..points.len())
                .filter_map(|i| {
                    let (p, q) = (points[i], points[(i + 1) % points.len()]);
                    let (a, b) = (across(&p), across(&q));
                    ((a > 0.0) != (b > 0.0)).then(|| along(&p) + a / (a - b) * (along(&q) - along(&p)))
                })
                .collect();
            (cuts.len() > 1).then(|| {
                [
                    cuts.iter().copied().fold(f64::INFINITY, f64::min),
                    cuts.iter().copied().fold(f64::NEG_INFINITY, f64::max),
                ]
            })
        };
        let (load_along_m, load_cut_m) = if end.outline_m.len() > 2 {
            let span = span(&end.outline_m);
            (span, section(&end.outline_m).unwrap_or(span))
        } else {
            (
                [end.radius_m - 0.6, end.radius_m + 0.6],
                [end.radius_m - 0.6, end.radius_m + 0.6],
            )
        };
        let hook_m = lift.rig.hook_above_m.map(|h| bottom + h);
        let size = lifted(plan, lift).and_then(|house| assessment.boxes.iter().find(|b| b.id == house.id)?.size_m);
        let rig = lift
            .rig
            .hung
            .as_ref()
            .zip(size)
            .filter(|_| end.outline_m.len() == 4)
            .map(|(hung, size)| {
                let (o, floor_m) = (&end.outline_m, floor_m(&hung.figure));
                // the figure lies as the box lies; it is seen along the boom
                let seen = |p: [f64; 3]| {
                    let (u, v) = (p[0] / size[0], p[1] / size[1]);
                    let on_site = [0, 1].map(|k| o[0][k] + u * (o[1][k] - o[0][k]) + v * (o[3][k] - o[0][k]));
                    [along(&on_site) + shift, bottom + p[2] - floor_m]
                };
                let legs = hung
                    .figure
                    .legs_m
                    .iter()
                    .enumerate()
                    .map(|(i, leg)| (Some(i), leg.map(seen)));
                let bars = hung.figure.bars_m.iter().map(|bar| (None, bar.map(seen)));
                legs.chain(bars).collect()
            });
        let rig = rig.unwrap_or_default();
        let standing = plan.lifts[..index.min(plan.lifts.len())]
            .iter()
            .filter_map(|earlier| {
                let result = assessment.lifts.iter().find(|l| l.id == earlier.id)?;
                let house = lifted(plan, result)?;
                let set = result.ends.iter().find(|e| e.end == EndKind::Set)?;
                let size = assessment.boxes.iter().find(|b| b.id == house.id)?.size_m?;
                Some(Standing {
                    id: house.id.clone(),
                    along_m: span(&set.outline_m),
                    up_m: [set.floor_m, set.floor_m + size[2]],
                    cut_m: section(&set.outline_m),
                })
            })
            .filter(|b| b.along_m[1].is_finite())
            .collect();
        let wires = plan
            .site
            .power_lines
            .iter()
            .enumerate()
            .filter_map(|(i, line)| {
                let (a, b, z) = (line.from.metres()?, line.to.metres()?, line.height.get()?.to_m());
                let (p, q) = (across(&a), across(&b));
                let r = ((p > 0.0) != (q > 0.0)).then(|| along(&a) + p / (p - q) * (along(&b) - along(&a)))?;
                (r > 0.0).then_some(())?;
                Some((i, [r, z], line.trigger.get().map(|t| t.to_m())))
            })
            .collect();
        let boom = crane.and_then(|c| {
            let pin = [-c.pin_back.get()?.to_m(), c.pin_height.get()?.to_m()];
            Some((pin, [radius_m, end.head?.to_m()], c.boom_depth.get()?.to_m()))
        });
        let mats_m = assessment.crane.mats_m.iter().map(|mat| span(mat)).collect();
        let nearest = lift
            .findings
            .iter()
            .find(|f| f.check == crate::check::Check::BoomGap && border::concerns(f, end.end))
            .and_then(|f| f.subject.split("nearest ").nth(1).map(Into::into));
        Self {
            end,
            boom,
            tail_m: assessment.crane.tail_m,
            mats_m,
            radius_m,
            load_along_m: load_along_m.map(|x| x + shift),
            load_cut_m: load_cut_m.map(|x| x + shift),
            load_up_m: [bottom, end.top_m],
            hook_m,
            block_m: crane.and_then(|c| c.block_height.get()).map(|b| b.to_m()),
            rig,
            standing,
            nearest,
            wires,
        }
    }

    /// How far out anything stands, m.
    fn far_m(&self) -> f64 {
        let boxes = self.standing.iter().map(|b| b.along_m[1]);
        boxes.fold(self.load_along_m[1].max(self.radius_m), f64::max)
    }

    /// Low and high corner of what has to be seen, with room for dimensions.
    fn extent(&self) -> (P, P) {
        let head = self.boom.map_or(0.0, |(_, head, _)| head[1]);
        let needed = self.end.head_needed.map_or(0.0, |n| n.to_m());
        let top = [head, needed, self.load_up_m[1], self.hook_m.unwrap_or(0.0)]
            .into_iter()
            .fold(5.0, f64::max);
        let far = self.far_m();
        let near = [self.tail_m.unwrap_or(3.0), -self.load_along_m[0]]
            .into_iter()
            .fold(3.0, f64::max);
        ([-near - 0.02 * top, 0.0], [far, top])
    }

    fn facts(&self, units: UnitSystem) -> Vec<String> {
        let mut facts = vec![format!(
            "Planned radius {} {}, allowance included.",
            up(self.radius_m, units),
            self.end.end.words()
        )];
        if let (Some(have), Some(need)) = (self.end.head, self.end.head_needed) {
            facts.push(format!(
                "Boom head {} above grade, needed {}.",
                down(have.to_m(), units),
                up(need.to_m(), units)
            ));
        }
        if let Some(gap) = self.end.boom_gap {
            let nearest = self.nearest.as_deref().unwrap_or("the load");
            facts.push(format!(
                "Smallest gap from the boom to {nearest}: {}.",
                down(gap.to_m(), units)
            ));
        }
        if !self.standing.is_empty() {
            let names: Vec<&str> = self.standing.iter().map(|b| b.id.as_str()).collect();
            facts.push(format!("Boxes already set: {}.", names.join(", ")));
        }
        facts
    }
}

struct Draw<'a> {
    pen: Pen,
    units: UnitSystem,
    lift: usize,
    title: String,
    side: Side<'a>,
}

impl Draw<'_> {
    fn grade(&mut self) {
        let window = self.pen.window();
        let (left, right) = (window.low[0], window.high[0]);
        self.pen.line(Role::Outline, None, &[[left, 0.0], [right, 0.0]]);
        let depth = 1.4 / self.pen.mm_per_m();
        let ground = [[left, -depth], [right, -depth], [right, 0.0], [left, 0.0]];
        self.pen.hatch(Role::Hatch, None, &[&ground], 1.2, 45.0);
        for (i, [a, b]) in self.side.mats_m.clone().into_iter().enumerate() {
            let points = [[a, 0.0], [b, 0.0], [b, 0.25], [a, 0.25]];
            self.pen.outline(Role::Body, Some(Item::Mat(i)), &points);
        }
        let top = self.side.boom.map_or(4.0, |(pin, ..)| pin[1] + 2.0);
        self.pen
            .line(Role::Centre, Some(Item::Crane), &[[0.0, -depth], [0.0, top]]);
        self.pen
            .beside([0.0, top], 0.3, Words::new("slew axis").rank(7).scaled(0.9));
        if let Some(tail) = self.side.tail_m {
            let height = self.side.boom.map_or(2.0, |(pin, ..)| pin[1]);
            self.pen
                .line(Role::Phantom, Some(Item::Tail), &[[-tail, 0.0], [-tail, height + 1.0]]);
            self.pen
                .beside([-tail, height + 1.0], 0.3, Words::new("tail swing").rank(7).scaled(0.9));
        }
        for (i, at, trigger) in self.side.wires.clone() {
            self.pen
                .mark(Role::Heavy, Some(Item::PowerLine(i)), at, MarkKind::Cross, 3.0);
            self.pen
                .beside(at, 1.6, Words::new("power line, lowest wire").strong().rank(3));
            if let Some(trigger) = trigger {
                self.pen.circle(Role::Phantom, Some(Item::PowerLine(i)), at, trigger);
            }
        }
    }

    /// Boxes already set: cut by the boom's plane as bodies, all that lies beside it dashed.
    fn standing(&mut self) {
        let rectangle = |[a, c]: [f64; 2], [low, high]: [f64; 2]| [[a, low], [c, low], [c, high], [a, high]];
        let seen = |b: &Standing| {
            (
                b.id.clone(),
                rectangle(b.along_m, b.up_m),
                b.cut_m.map(|cut| rectangle(cut, b.up_m)),
            )
        };
        let boxes: Vec<(Id, [P; 4], Option<[P; 4]>)> = self.side.standing.iter().map(seen).collect();
        for (id, whole, _) in &boxes {
            self.pen.outline(Role::Hidden, Some(Item::Box(id.clone())), whole);
        }
        let load = rectangle(self.side.load_along_m, self.side.load_up_m);
        let cuts: Vec<[P; 4]> = boxes.iter().filter_map(|b| b.2).chain([load]).collect();
        for (id, whole, cut) in &boxes {
            if let Some(cut) = cut {
                self.pen.outline(Role::Body, Some(Item::Box(id.clone())), cut);
                self.pen.inside(cut, Words::new(format!("{id} set")).rank(4));
            } else {
                let free = |p: &&P| !cuts.iter().any(|c| crate::geometry::contains(c, **p));
                let at = [whole[2], whole[3], whole[1]].iter().find(free).copied();
                let words = Words::new(format!("{id} set, beside")).rank(7).scaled(0.9);
                self.pen.beside(at.unwrap_or(whole[2]), 0.5, words);
            }
        }
    }

    fn boom(&mut self) {
        let Some((pin, head, depth)) = self.side.boom else {
            return;
        };
        let length = distance_m(pin, head).max(1e-9);
        let n = [
            -(head[1] - pin[1]) / length * depth / 2.0,
            (head[0] - pin[0]) / length * depth / 2.0,
        ];
        let corners = [
            [pin[0] + n[0], pin[1] + n[1]],
            [head[0] + n[0], head[1] + n[1]],
            [head[0] - n[0], head[1] - n[1]],
            [pin[0] - n[0], pin[1] - n[1]],
        ];
        self.pen.outline(Role::Body, None, &corners);
        self.pen.line(Role::Centre, Some(Item::Boom), &[pin, head]);
        let size = self.pen.size_mm;
        self.pen
            .mark(Role::Body, Some(Item::Boom), pin, MarkKind::Ring, 0.9 * size);
        self.pen
            .mark(Role::Body, Some(Item::Boom), head, MarkKind::Ring, 0.9 * size);
        let angle = self.side.end.boom_angle.map_or(String::new(), |a| {
            format!(
                ", {} from the horizontal",
                crate::check::Amount::Angle(a).show(self.units, Safe::Nearest)
            )
        });
        // over the boom's upper side, clear of the load
        self.pen.along(
            corners[0],
            corners[1],
            Words::new(format!("boom {}{angle}", near(length, self.units))).rank(4),
        );
    }

    fn load(&mut self) {
        let side = &self.side;
        let ([a, b], [low, high], floor) = (side.load_along_m, side.load_up_m, side.end.floor_m);
        let hook = side.hook_m.map(|z| [side.radius_m, z]);
        let (block, boom, rig) = (side.block_m, side.boom, side.rig.clone());
        let lift = self.lift;
        let landed = [[a, floor], [b, floor], [b, floor + high - low], [a, floor + high - low]];
        self.pen.outline(Role::Phantom, None, &landed);
        let body = [[a, low], [b, low], [b, high], [a, high]];
        self.pen.outline(Role::BodyHeavy, Some(Item::Load), &body);
        self.pen.inside(
            &body,
            Words::new(self.title.clone()).strong().rank(3).of(Item::Lift(lift)),
        );
        for (member, [p, q]) in rig {
            let (role, item) = match member {
                Some(i) => (Role::Thin, Item::Member(i)),
                None => (Role::Heavy, Item::Bar),
            };
            self.pen.line(role, Some(item), &[p, q]);
        }
        let Some(hook) = hook else { return };
        if self.side.rig.is_empty() {
            for x in [a, b] {
                self.pen.line(Role::Hidden, None, &[hook, [x, high]]);
            }
        }
        if let (Some(block), Some((_, head, _))) = (block, boom) {
            let top = hook[1] + block;
            let half = 0.22 * block;
            self.pen.line(Role::Thin, None, &[[hook[0], top], head]);
            let corners = [
                [hook[0] - half, hook[1]],
                [hook[0] + half, hook[1]],
                [hook[0] + half, top],
                [hook[0] - half, top],
            ];
            self.pen.outline(Role::Body, None, &corners);
        }
        self.pen.mark(Role::Solid, Some(Item::Hook), hook, MarkKind::Dot, 1.4);
        self.pen.beside(hook, 1.2, Words::new("hook").rank(6).of(Item::Hook));
    }

    fn clearances(&mut self) {
        let (units, end, lift) = (self.units, self.side.end, self.lift);
        let item = match end.end {
            EndKind::Pick => Item::Pick(lift),
            EndKind::Set => Item::Set(lift),
        };
        let mm = self.pen.mm_per_m();
        let below = -6.0 / mm;
        let planned = if self.pen.paper().is_small() { "" } else { "planned " };
        let radius = format!("{planned}radius {}", up(self.side.radius_m, units));
        let (from, to) = ([0.0, below], [self.side.radius_m, below]);
        self.pen
            .line(Role::Dimension, None, &[[0.0, -1.5 / mm], [0.0, below - 1.5 / mm]]);
        self.pen
            .line(Role::Dimension, None, &[[to[0], 0.0], [to[0], below - 1.5 / mm]]);
        self.pen
            .dimension(Some(item), from, to, 0.0, Words::new(radius).strong().rank(1));
        self.head_heights();
        self.gap();
    }

    fn head_heights(&mut self) {
        let (units, end) = (self.units, self.side.end);
        let mm = self.pen.mm_per_m();
        let right = self.side.far_m() + FIRST_MM / mm;
        let step = STEP * self.pen.size_mm / mm;
        for (i, (height, what, rank)) in [(end.head_needed, "head needed", 1), (end.head, "head", 1)]
            .into_iter()
            .enumerate()
        {
            let Some(height) = height.map(|h| h.to_m()) else {
                continue;
            };
            let x = right + i as f64 * step;
            let small = self.pen.paper().is_small();
            let text = match (i, small) {
                (0, false) => format!("{what} {}", up(height, units)),
                (0, true) => format!("needed {}", up(height, units)),
                (_, false) => format!("{what} at {}", down(height, units)),
                (_, true) => format!("{what} {}", down(height, units)),
            };
            let start = self.side.radius_m + 1.0 / mm;
            self.pen
                .line(Role::Dimension, None, &[[start, height], [x + 1.5 / mm, height]]);
            self.pen.dimension(
                Some(Item::Boom),
                [x, 0.0],
                [x, height],
                0.0,
                Words::new(text).strong().rank(rank),
            );
        }
    }

    /// Square to the boom, from the top edge that is nearest to it in the boom's plane.
    fn gap(&mut self) {
        let (Some(gap), Some((pin, head, depth))) = (self.side.end.boom_gap, self.side.boom) else {
            return;
        };
        let side = &self.side;
        let nearest = side.nearest.as_deref().unwrap_or("the load");
        let standing = nearest
            .strip_prefix("box ")
            .and_then(|id| side.standing.iter().find(|b| b.id.as_str() == id));
        let (cut_m, top_m) = match standing {
            Some(b) => (b.cut_m, b.up_m[1]),
            None => (Some(side.load_cut_m), side.load_up_m[1]),
        };
        let text = format!("boom gap {}", down(gap.to_m(), self.units));
        let Some(cut_m) = cut_m else {
            // what is nearest is not in this plane: no line can show it
            let words = Words::new(format!("{text} to {nearest}, beside the boom"));
            let middle = [(pin[0] + head[0]) / 2.0, (pin[1] + head[1]) / 2.0];
            self.pen.beside(middle, 2.0, words.strong().rank(1));
            return;
        };
        let corners = cut_m.map(|x| [x, top_m]);
        let [a, b] = corners.map(|p| off_axis(p, pin, head));
        let (corner, away) = if a < b { (corners[0], a) } else { (corners[1], b) };
        let length = distance_m(pin, head).max(1e-9);
        let n = [(head[1] - pin[1]) / length, -(head[0] - pin[0]) / length];
        let away = away - depth / 2.0;
        let on_boom = [corner[0] - n[0] * away, corner[1] - n[1] * away];
        self.pen.dimension(
            Some(Item::Load),
            on_boom,
            corner,
            0.0,
            Words::new(text).strong().rank(1),
        );
    }
}

/// Distance of a point from the line of the boom, below it above 0.
fn off_axis(p: P, pin: P, head: P) -> f64 {
    let length = distance_m(pin, head).max(1e-9);
    ((p[0] - pin[0]) * (head[1] - pin[1]) - (p[1] - pin[1]) * (head[0] - pin[0])) / length
}
