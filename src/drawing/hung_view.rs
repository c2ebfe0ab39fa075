//! The box as it hangs, from the side, from an end and isometric: tilt and twist drawn larger by a factor that is written, each leg as thick as
//! its tension.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::rig_view::{lifted, nothing_to_show};
use super::scene::{Anchor, Frame, Item, MarkKind, Role, Scene};
use super::words::fine;
use crate::check::Amount;
use crate::evaluate::{Assessment, corner_name, end_name, member_name, side_name, try_out};
use crate::plan::{HouseBox, Plan};
use crate::quantity::{Angle, Force, Safe, UnitSystem};
use crate::rigging::{Figure, MemberKind, Tried, TryOut, Wall, WallTouch};

type P = [f64; 2];
type P3 = [f64; 3];

/// Factors that tilt and twist are drawn larger by.
const FACTORS: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
/// As steep as a tilt is drawn at most, rad: about 4°.
const SEEN_RAD: f64 = 0.07;
/// A leg without tension is this thick, mm.
const THINNEST_MM: f64 = 0.3;
/// And one that carries all that is on the hook so much thicker, mm.
const THICKER_MM: f64 = 3.5;
/// Tilts and twists below this are not told of, m over the box: less than a tape shows.
const LEVEL_M: f64 = 0.0005;

/// From where the box is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Along the box, first end on the left, first side in front.
    Side,
    /// At the first or second end, first side on the left.
    End(usize),
    /// From above the corner of the first end and the first side; lengths along the three axes to scale (ISO 5456-3).
    Isometric,
}

impl Seen {
    /// What is seen of a place, m.
    pub fn of(self, [x, y, z]: P3) -> P {
        const COS_30: f64 = 0.866_025_403_784_438_6;
        match self {
            Self::Side => [x, z],
            Self::End(_) => [y, z],
            Self::Isometric => [(x - y) * COS_30, z + (x + y) / 2.0],
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Side => "from the side",
            Self::End(0) => "from the first end",
            Self::End(_) => "from the second end",
            Self::Isometric => "isometric",
        }
    }
}

/// A hang to draw.
#[derive(Clone, Copy)]
pub struct HungDrawing<'a> {
    /// What it is of: "lift 2 box A1".
    pub title: &'a str,
    /// The box.
    pub house: &'a HouseBox,
    /// How it hangs.
    pub tried: &'a Tried,
    /// What tilt and twist are drawn larger by.
    pub factor: f64,
    /// The reader's units.
    pub units: UnitSystem,
}

/// The largest round factor that still draws a tilt at about 4°.
pub fn factor_for(steepest_rad: f64) -> f64 {
    let largest = FACTORS.into_iter().rev().find(|f| f * steepest_rad.abs() <= SEEN_RAD);
    // what is level stays as it is drawn
    if steepest_rad.abs() < 1e-5 {
        1.0
    } else {
        largest.unwrap_or(1.0)
    }
}

/// The box of a lift as it would hang on its rig with nominal lengths.
///
/// Frame: that of the hang seen so, m, with every place moved from level by the factor times what it hangs off.
pub fn hung_view(plan: &Plan, assessment: &Assessment, lift: usize, seen: Seen, paper: Paper) -> Scene {
    let result = assessment.lifts.get(lift);
    let house = result.and_then(|lift| lifted(plan, lift));
    let (Some(result), Some(house), Ok(tried)) = (result, house, try_out(plan, lift, &TryOut::nominal())) else {
        return nothing_to_show(result, paper.usable());
    };
    let hung = HungDrawing {
        title: &format!("lift {} {}", result.number, result.title),
        house,
        tried: &tried,
        factor: factor_for(tried.steepest_rad()),
        units: assessment.units,
    };
    as_it_hangs(&hung, seen, paper)
}

/// A hang as a drawing. Frame as [`hung_view`].
pub fn as_it_hangs(hung: &HungDrawing<'_>, seen: Seen, paper: Paper) -> Scene {
    let paper = paper.usable();
    let (low, high) = extent(&hung.tried.level, seen);
    let room = [
        paper.width_mm - 10.0 * paper.lettering_mm(),
        paper.height_mm - foot_mm(paper) - 11.0 * paper.lettering_mm(),
    ];
    let scale = border::scale([high[0] - low[0], high[1] - low[1]], room);
    let mm = 1000.0 / scale;
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0 - (low[0] + high[0]) / 2.0 * mm,
        // room for what is said at the top
        y0_mm: (paper.height_mm - foot_mm(paper)) / 2.0 + 2.5 * paper.lettering_mm() + (low[1] + high[1]) / 2.0 * mm,
        mm_per_x: mm,
        mm_per_y: mm,
        x_unit: "m",
        y_unit: "m",
    };
    let window = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
    let mut draw = Draw {
        pen: Pen::new(frame, paper, window),
        figure: larger(&hung.tried.level, &hung.tried.hung, hung.factor),
        hung: *hung,
        seen,
    };
    draw.all();
    border::border(&mut draw.pen);
    let title = format!("AS IT HANGS, {}, {}", seen.words(), hung.title);
    let along = if seen == Seen::Isometric { " along the axes" } else { "" };
    let note = format!(
        "{}{along}; a leg is as thick as its tension",
        border::scale_note(scale, hung.units)
    );
    border::foot(&mut draw.pen, title.clone(), note);
    let facts = draw.facts();
    draw.pen.finish(title, facts)
}

/// Every place moved from level by so many times what it hangs off.
fn larger(level: &Figure, hung: &Figure, factor: f64) -> Figure {
    let place = |a: P3, b: P3| core::array::from_fn(|k| a[k] + factor * (b[k] - a[k]));
    let run = |a: &[P3; 2], b: &[P3; 2]| [place(a[0], b[0]), place(a[1], b[1])];
    let runs = |a: &[[P3; 2]], b: &[[P3; 2]]| a.iter().zip(b).map(|(a, b)| run(a, b)).collect();
    Figure {
        hook_m: hung.hook_m,
        box_m: core::array::from_fn(|i| place(level.box_m[i], hung.box_m[i])),
        cg_m: hung.cg_m,
        bars_m: runs(&level.bars_m, &hung.bars_m),
        legs_m: runs(&level.legs_m, &hung.legs_m),
        ways_m: level
            .ways_m
            .iter()
            .zip(&hung.ways_m)
            .map(|(a, b)| a.iter().zip(b).map(|(a, b)| place(*a, *b)).collect())
            .collect(),
    }
}

fn extent(level: &Figure, seen: Seen) -> (P, P) {
    let points = level.bars_m.iter().flatten().chain(&level.box_m).chain([&level.hook_m]);
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    for p in points.map(|p| seen.of(*p)) {
        low = [low[0].min(p[0]), low[1].min(p[1])];
        high = [high[0].max(p[0]), high[1].max(p[1])];
    }
    // an end drawn as low as it may be
    let down = 0.5 * SEEN_RAD * (high[0] - low[0]);
    ([low[0], low[1] - down], high)
}

/// Whether a leg is in front of the box, behind it, or not in the view.
#[derive(Clone, Copy, PartialEq)]
enum Place {
    Front,
    Behind,
}

struct Draw<'a> {
    pen: Pen,
    figure: Figure,
    hung: HungDrawing<'a>,
    seen: Seen,
}

impl Draw<'_> {
    fn all(&mut self) {
        self.legs(Place::Behind);
        self.body();
        self.legs(Place::Front);
        self.bars();
        self.marks();
        self.names();
        let size = self.pen.size_mm;
        let mut y_mm = 1.8 * size;
        for line in self.told() {
            y_mm = self
                .pen
                .paragraph([2.5, y_mm], self.pen.paper().width_mm - 6.0, &Words::new(line).strong());
        }
    }

    fn see(&self, p: P3) -> P {
        self.seen.of(p)
    }

    fn place(&self, kind: MemberKind) -> Option<Place> {
        let corner = match kind {
            MemberKind::Top { end } => {
                let shown = !matches!(self.seen, Seen::End(e) if e != end);
                return shown.then_some(Place::Front);
            }
            MemberKind::Leg(corner) | MemberKind::Bridle(corner) | MemberKind::Strap(corner) => corner,
            MemberKind::Line(_) => return Some(Place::Front),
        };
        match self.seen {
            Seen::End(end) => (corner.end == end).then_some(Place::Front),
            _ if corner.side == 1 => Some(Place::Behind),
            _ => Some(Place::Front),
        }
    }

    fn legs(&mut self, which: Place) {
        for i in 0..self.hung.tried.legs.len() {
            let leg = self.hung.tried.legs[i];
            if self.place(leg.kind) != Some(which) {
                continue;
            }
            let way: Vec<P> = self.figure.ways_m[i].iter().map(|p| self.see(*p)).collect();
            let item = Some(Item::Member(i));
            let thick_mm = self.thick_mm(leg.tension_n);
            if leg.slack {
                self.pen.line(Role::Hidden, item, &way);
            } else {
                // seen from the side a leg behind lies below the one in front: outlined, so that both can be seen
                let open = which == Place::Behind && self.seen == Seen::Side;
                let role = if open { Role::Thin } else { Role::Solid };
                for run in way.windows(2) {
                    let band = self.band(run[0], run[1], thick_mm);
                    self.pen.outline(role, item.clone(), &band);
                }
            }
            let length = |run: &[P]| crate::geometry::distance_m(run[0], run[1]);
            let longest = way.windows(2).max_by(|a, b| length(a).total_cmp(&length(b)));
            if let Some((text, run)) = self.figure_of(i, which).zip(longest) {
                let words = Words::new(text).strong().rank(1).of(Item::Member(i));
                self.pen.along_thick(run[0], run[1], thick_mm, words);
            }
        }
    }

    /// How thick a leg is drawn, mm.
    fn thick_mm(&self, tension_n: f64) -> f64 {
        THINNEST_MM + THICKER_MM * tension_n / self.hung.tried.hook_load_n.max(1.0)
    }

    /// The outline of a thick line.
    fn band(&self, a: P, b: P, thick_mm: f64) -> [P; 4] {
        let length = libm::hypot(b[0] - a[0], b[1] - a[1]).max(1e-9);
        let half = thick_mm / 2.0 / self.pen.mm_per_m() / length;
        let (dx, dy) = (-(b[1] - a[1]) * half, (b[0] - a[0]) * half);
        [
            [a[0] + dx, a[1] + dy],
            [b[0] + dx, b[1] + dy],
            [b[0] - dx, b[1] - dy],
            [a[0] - dx, a[1] - dy],
        ]
    }

    /// What stands beside a leg; from the side the one behind is told with the one in front.
    fn figure_of(&self, i: usize, which: Place) -> Option<String> {
        let own = self.tension(i);
        if self.seen != Seen::Side {
            return Some(own);
        }
        if which == Place::Behind {
            return None;
        }
        let twin = |kind: MemberKind| match (self.hung.tried.legs[i].kind, kind) {
            (MemberKind::Leg(a), MemberKind::Leg(b))
            | (MemberKind::Bridle(a), MemberKind::Bridle(b))
            | (MemberKind::Strap(a), MemberKind::Strap(b)) => a.end == b.end && a.side != b.side,
            _ => false,
        };
        let behind = self.hung.tried.legs.iter().position(|leg| twin(leg.kind));
        Some(behind.map_or_else(|| own.clone(), |j| format!("{own}, behind {}", self.tension(j))))
    }

    fn tension(&self, i: usize) -> String {
        tension_words(self.hung.tried, i, self.hung.units)
    }

    fn body(&mut self) {
        let item = Some(Item::Box(self.hung.house.id.clone()));
        let (far, near): (Option<[usize; 4]>, &[[usize; 4]]) = match self.seen {
            Seen::Side => (Some([3, 2, 6, 7]), &[[0, 1, 5, 4]]),
            Seen::End(0) => (Some([1, 2, 6, 5]), &[[0, 3, 7, 4]]),
            Seen::End(_) => (Some([0, 3, 7, 4]), &[[1, 2, 6, 5]]),
            Seen::Isometric => (None, &[[4, 5, 6, 7], [0, 3, 7, 4], [0, 1, 5, 4]]),
        };
        let face = |of: [usize; 4]| of.map(|i| self.see(self.figure.box_m[i]));
        let (far, near) = (far.map(face), near.iter().map(|of| face(*of)).collect::<Vec<_>>());
        if let Some(far) = far {
            self.pen.outline(Role::Body, None, &far);
        }
        for near in near {
            self.pen.outline(Role::BodyHeavy, item.clone(), &near);
        }
        let level = self.hung.tried.level.box_m.map(|p| self.see(p));
        let floor: &[usize] = match self.seen {
            Seen::Side => &[0, 1],
            Seen::End(_) => &[0, 3],
            Seen::Isometric => &[0, 1, 2, 3, 0],
        };
        let floor: Vec<P> = floor.iter().map(|i| level[*i]).collect();
        self.pen.line(Role::Phantom, None, &floor);
    }

    fn bars(&mut self) {
        for (i, bar) in self.figure.bars_m.clone().into_iter().enumerate() {
            // the bar along the box comes first: from an end it is seen on end, and of the cross bars only the near one
            if matches!(self.seen, Seen::End(end) if i != end + 1) {
                continue;
            }
            let [a, b] = bar.map(|p| self.see(p));
            self.pen.line(Role::Heavy, Some(Item::Bar), &[a, b]);
        }
    }

    fn marks(&mut self) {
        let size = self.pen.size_mm;
        let (hook, cg) = (self.see(self.figure.hook_m), self.see(self.figure.cg_m));
        let floor_m = self.hung.tried.level.box_m[0][2];
        let [x, y, _] = self.figure.hook_m;
        self.pen.line(Role::Centre, None, &[hook, self.see([x, y, floor_m])]);
        self.pen
            .mark(Role::Solid, Some(Item::Hook), hook, MarkKind::Dot, 0.8 * size);
        self.pen
            .beside(hook, 0.5 * size, Words::new("hook").strong().rank(3).of(Item::Hook));
        let (item, kind) = (Some(Item::CentreOfGravity), MarkKind::CentreOfGravity);
        self.pen.mark(Role::Body, item, cg, kind, 1.5 * size);
        self.pen
            .beside(cg, 0.8 * size, Words::new("CG").rank(4).of(Item::CentreOfGravity));
        for (leg, at_m) in &self.hung.tried.bends {
            if self.place(self.hung.tried.legs[*leg].kind).is_some() {
                let kind = MarkKind::Ring;
                self.pen.mark(Role::Outline, None, self.see(*at_m), kind, 1.4 * size);
            }
        }
        for touch in &self.hung.tried.touches {
            if self.place(self.hung.tried.legs[touch.member].kind).is_some() {
                let at = self.see(touch.at_m);
                self.pen.mark(Role::Outline, None, at, MarkKind::Ring, 1.4 * size);
                self.pen.beside(at, 0.8 * size, Words::new("touches").strong().rank(2));
            }
        }
        if self.seen == Seen::Isometric && self.is_off() {
            let (corner, down_m) = self.hung.tried.low_corner();
            let at = self.see(self.figure.box_m[[[0, 3], [1, 2]][corner.end][corner.side]]);
            let kind = MarkKind::Arrow { toward_deg: 90.0 };
            self.pen.mark(Role::Solid, None, at, kind, 1.4 * size);
            let text = format!("LOW, {}", fine(down_m, self.hung.units));
            self.pen.beside(at, 1.5 * size, Words::new(text).strong().rank(1));
        }
    }

    fn is_off(&self) -> bool {
        self.hung.tried.low_corner().1 > LEVEL_M
    }

    /// Names of ends and sides where they are.
    fn names(&mut self) {
        let house = self.hung.house;
        if self.seen == Seen::Isometric {
            let middle = |i: usize, j: usize| {
                let (a, b) = (self.figure.box_m[i], self.figure.box_m[j]);
                self.see(core::array::from_fn(|k| (a[k] + b[k]) / 2.0))
            };
            let named = [
                (middle(0, 3), end_name(house, 0)),
                (middle(0, 1), side_name(house, 0)),
                (middle(5, 6), end_name(house, 1)),
                (middle(6, 7), side_name(house, 1)),
            ];
            for (at, name) in named {
                self.pen.beside(at, 0.4 * self.pen.size_mm, Words::new(name).rank(3));
            }
            return;
        }
        let (names, corners, tilt_rad): (fn(&HouseBox, usize) -> &str, _, _) = match self.seen {
            Seen::Side => (end_name, [0, 1], self.hung.tried.along_rad),
            Seen::End(end) => (side_name, [[0, 3], [1, 2]][end.min(1)], self.hung.tried.across_rad),
            Seen::Isometric => return,
        };
        let low = self.is_off().then_some(usize::from(tilt_rad > 0.0));
        let at = corners.map(|i| self.pen.on_sheet(self.see(self.figure.box_m[i])));
        let words = [0, 1].map(|i| {
            let name = names(house, i);
            if low == Some(i) {
                Words::new(format!("{name}: LOW")).strong()
            } else {
                Words::new(name)
            }
        });
        let together: f64 = words.iter().map(|w| self.pen.width_mm(w)).sum();
        let anchors = if together + 4.0 < at[1][0] - at[0][0] {
            [Anchor::Start, Anchor::End]
        } else {
            [Anchor::End, Anchor::Start]
        };
        for ((words, [x, y]), anchor) in words.into_iter().zip(at).zip(anchors) {
            self.pen.fixed([x, y + 2.2 * self.pen.size_mm], anchor, words);
        }
    }

    /// What stands at the top: how far it is off, how much larger that is drawn, what is slack, what touches.
    fn told(&self) -> Vec<String> {
        let HungDrawing {
            house,
            tried,
            factor,
            units,
            ..
        } = self.hung;
        let (corner, down_m) = tried.low_corner();
        let tilt = |rad: f64, low: &str, over_m: f64| {
            let angle = Amount::Angle(Angle::rad(rad.abs())).show(units, Safe::Up);
            let down = fine(libm::sin(rad.abs()) * over_m, units);
            format!("{low} hangs low by {down} ({angle} out of level)")
        };
        let size_m = |i: usize, j: usize| {
            let (a, b) = (tried.level.box_m[i], tried.level.box_m[j]);
            libm::hypot(b[0] - a[0], b[1] - a[1])
        };
        let off = match self.seen {
            _ if !self.is_off() => "hangs level".to_owned(),
            Seen::Side => tilt(
                tried.along_rad,
                end_name(house, usize::from(tried.along_rad > 0.0)),
                size_m(0, 1),
            ),
            Seen::End(_) => tilt(
                tried.across_rad,
                side_name(house, usize::from(tried.across_rad > 0.0)),
                size_m(0, 3),
            ),
            Seen::Isometric => format!(
                "low corner: {}, {} below the highest",
                corner_name(house, corner),
                fine(down_m, units)
            ),
        };
        let twisted = tried.racking_m > LEVEL_M;
        let mut lines = vec![if factor > 1.0 && self.is_off() {
            let what = if twisted { "tilt and twist" } else { "tilt" };
            format!("{off}; {what} drawn × {factor:.0}")
        } else {
            off
        }];
        if twisted {
            lines.push(format!(
                "the box twists: one pick {} out of the plane of the others",
                fine(tried.racking_m, units)
            ));
        }
        lines.extend(slack_words(house, tried));
        lines.extend(touch_words(house, tried));
        lines
    }

    /// The same in sentences, with every leg.
    fn facts(&self) -> Vec<String> {
        let leg = |i: usize| {
            let kind = self.hung.tried.legs[i].kind;
            format!("{}: {}.", member_name(self.hung.house, kind), self.tension(i))
        };
        let told = self.told().into_iter().map(|line| format!("{line}."));
        told.chain((0..self.hung.tried.legs.len()).map(leg)).collect()
    }
}

/// What a leg carries in this hang, to the nearest figure, or that it is slack.
pub fn tension_words(tried: &Tried, leg: usize, units: UnitSystem) -> String {
    match tried.legs.get(leg) {
        Some(leg) if leg.slack => "slack".into(),
        Some(leg) => Amount::Force(Force::n(leg.tension_n)).show(units, Safe::Nearest),
        None => String::new(),
    }
}

/// Which legs hang slack.
pub fn slack_words(house: &HouseBox, tried: &Tried) -> Option<String> {
    let slack: Vec<String> = tried
        .legs
        .iter()
        .filter(|leg| leg.slack)
        .map(|leg| member_name(house, leg.kind))
        .collect();
    (!slack.is_empty()).then(|| format!("slack: {}", slack.join("; ")))
}

/// Which legs touch a wall.
pub fn touch_words(house: &HouseBox, tried: &Tried) -> Option<String> {
    let touch = |touch: &WallTouch| {
        let name = member_name(house, tried.legs[touch.member].kind);
        let wall = match touch.wall {
            Wall::End(end) => end_name(house, end),
            Wall::Side(side) => side_name(house, side),
        };
        format!("{name} at the {wall}")
    };
    let bend = |(leg, _): &(usize, P3)| format!("{} round an edge", member_name(house, tried.legs[*leg].kind));
    let touches: Vec<String> = tried
        .touches
        .iter()
        .map(touch)
        .chain(tried.bends.iter().map(bend))
        .collect();
    (!touches.is_empty()).then(|| format!("touches the eave or wall: {}", touches.join("; ")))
}
