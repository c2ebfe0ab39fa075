//! The pen that makes a scene: it cuts shapes at the window, hatches, dimensions, and at the end places lettering so that none collides.

use super::clip::{Window, hatch};
use super::lettering::{is_bold, plate_of, plate_of_width, width_mm};
use super::scene::{Anchor, Form, Frame, Item, MarkKind, Role, Scene, Shape};
use crate::geometry::{Ink, Inks, Plate, sort_short};
use core::f64::consts::{PI, TAU};

/// The room for a drawing, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
    /// On a printed sheet, where it is shown at its true size and no lettering may be smaller than 8.5 points.
    pub printed: bool,
}

impl Paper {
    /// Smallest room a drawing is made in, mm.
    const LEAST_MM: f64 = 40.0;

    /// Room on a screen.
    pub const fn screen(width_mm: f64, height_mm: f64) -> Self {
        Self {
            width_mm,
            height_mm,
            printed: false,
        }
    }

    /// Room on a printed sheet.
    pub const fn printed(width_mm: f64, height_mm: f64) -> Self {
        Self {
            width_mm,
            height_mm,
            printed: true,
        }
    }

    /// The same, large enough to draw in.
    #[must_use]
    pub fn usable(self) -> Self {
        Self {
            width_mm: self.width_mm.clamp(Self::LEAST_MM, 2000.0),
            height_mm: self.height_mm.clamp(Self::LEAST_MM, 2000.0),
            ..self
        }
    }

    /// Too small for all that a page carries.
    pub const fn is_small(self) -> bool {
        self.width_mm < 120.0
    }

    /// The largest rank of lettering that a drawing of this size still carries.
    fn least_rank(self) -> u8 {
        if self.is_small() { 5 } else { u8::MAX }
    }

    /// Size of the lettering, mm: 2.5 (ISO 3098), smaller on a drawing beside others, 3.0 (8.5 points) on a printed sheet.
    pub fn lettering_mm(self) -> f64 {
        match (self.printed, self.is_small()) {
            (true, _) => 3.0,
            (false, true) => 2.0,
            (false, false) => 2.5,
        }
    }
}

/// A place where a piece of lettering may go, on the sheet.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    at_mm: [f64; 2],
    anchor: Anchor,
    angle_deg: f64,
    /// Where its leader line begins.
    leader_mm: Option<[f64; 2]>,
    cost: f64,
}

impl Candidate {
    /// Where the lettering begins: a little after its leader ends.
    fn lettering_mm(&self) -> [f64; 2] {
        let gap_mm = match (self.leader_mm, self.anchor) {
            (Some(_), Anchor::Start) => 0.6,
            (Some(_), Anchor::End) => -0.6,
            _ => 0.0,
        };
        [self.at_mm[0] + gap_mm, self.at_mm[1]]
    }
}

/// Lettering that waits for its place.
struct Waiting {
    text: String,
    role: Role,
    item: Option<Item>,
    size_mm: f64,
    candidates: Vec<Candidate>,
    /// Placed first where smaller.
    rank: u8,
    /// Where a leader comes from if it has to move away, and what that costs; none where it stands at its one place.
    away: Option<([f64; 2], f64)>,
}

/// Makes a scene.
pub struct Pen {
    frame: Frame,
    paper: Paper,
    window: Window,
    /// Size of the lettering, mm.
    pub size_mm: f64,
    shapes: Vec<Shape>,
    waiting: Vec<Waiting>,
}

/// How a piece of lettering is to be set.
#[derive(Clone)]
pub struct Words {
    text: String,
    role: Role,
    item: Option<Item>,
    rank: u8,
    scale: f64,
}

impl Words {
    /// Plain lettering.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            role: Role::Label,
            item: None,
            rank: 5,
            scale: 1.0,
        }
    }
    /// Bold.
    #[must_use]
    pub fn strong(mut self) -> Self {
        self.role = Role::Strong;
        self.rank = self.rank.min(3);
        self
    }
    /// Paper colour on a plate of ink.
    #[must_use]
    pub fn plate(mut self) -> Self {
        self.role = Role::Reverse;
        self.rank = 0;
        self
    }
    /// What it belongs to.
    #[must_use]
    pub fn of(mut self, item: Item) -> Self {
        self.item = Some(item);
        self
    }
    /// Placed before others whose rank is larger; 5 unless said.
    #[must_use]
    pub fn rank(mut self, rank: u8) -> Self {
        self.rank = rank;
        self
    }
    /// Larger or smaller than the drawing's lettering.
    #[must_use]
    pub fn scaled(mut self, scale: f64) -> Self {
        self.scale = scale;
        self
    }
}

impl Pen {
    /// A pen on a sheet; shapes are cut at `window_mm`: left, top, right, bottom on the sheet.
    pub fn new(frame: Frame, paper: Paper, [left, top, right, bottom]: [f64; 4]) -> Self {
        let (a, b) = (frame.from_sheet([left, bottom]), frame.from_sheet([right, top]));
        let window = Window {
            low: [a[0].min(b[0]), a[1].min(b[1])],
            high: [a[0].max(b[0]), a[1].max(b[1])],
        };
        Self {
            frame,
            paper,
            window,
            size_mm: paper.lettering_mm(),
            shapes: Vec::new(),
            waiting: Vec::new(),
        }
    }

    /// The sheet.
    pub const fn paper(&self) -> Paper {
        self.paper
    }

    /// The window, in frame units.
    pub const fn window(&self) -> Window {
        self.window
    }

    /// Millimetres on the sheet for one unit of x.
    pub const fn mm_per_m(&self) -> f64 {
        self.frame.mm_per_x
    }

    /// Size of words, mm: nothing on a printed sheet is smaller than its lettering.
    fn size_of(&self, words: &Words) -> f64 {
        let least = if self.paper.printed { 1.0 } else { 0.0 };
        self.size_mm * words.scale.max(least)
    }

    /// Width that words take, mm.
    pub fn width_mm(&self, words: &Words) -> f64 {
        width_mm(&words.text, self.size_of(words), is_bold(words.role))
    }

    /// A point on the sheet, mm.
    pub fn on_sheet(&self, p: [f64; 2]) -> [f64; 2] {
        self.frame.to_sheet(p)
    }

    /// A frame point moved by mm on the sheet: right and up.
    pub fn moved(&self, p: [f64; 2], [right_mm, up_mm]: [f64; 2]) -> [f64; 2] {
        let [x, y] = self.frame.to_sheet(p);
        self.frame.from_sheet([x + right_mm, y - up_mm])
    }

    /// A frame point from a place on the sheet, mm.
    pub fn at_mm(&self, p_mm: [f64; 2]) -> [f64; 2] {
        self.frame.from_sheet(p_mm)
    }

    /// Adds a shape as it is.
    pub fn add(&mut self, role: Role, item: Option<Item>, form: Form) {
        self.shapes.push(Shape { role, item, form });
    }

    /// A line through points, cut at the window.
    pub fn line(&mut self, role: Role, item: Option<Item>, points: &[[f64; 2]]) {
        for points in self.window.lines(points) {
            self.add(role, item.clone(), Form::Line { points });
        }
    }

    /// A closed outline: whole where it fits, else its sides as lines (filled roles are cut as areas).
    pub fn outline(&mut self, role: Role, item: Option<Item>, points: &[[f64; 2]]) {
        if points.is_empty() {
            return;
        }
        let filled = matches!(
            role,
            Role::Body | Role::BodyHeavy | Role::Cover | Role::Solid | Role::Plate | Role::Grip
        );
        if points.iter().all(|p| self.window.contains(*p)) {
            let points = points.to_vec();
            self.add(role, item, Form::Polygon { points });
        } else if filled {
            let points = self.window.polygon(points);
            if points.len() > 2 {
                self.add(role, item, Form::Polygon { points });
            }
        } else {
            let closed: Vec<_> = points.iter().chain(points.first()).copied().collect();
            self.line(role, item, &closed);
        }
    }

    /// Hatches areas (even-odd), cut at the window.
    pub fn hatch(&mut self, role: Role, item: Option<Item>, areas: &[&[[f64; 2]]], spacing_mm: f64, angle_deg: f64) {
        let cut: Vec<Vec<[f64; 2]>> = areas.iter().map(|a| self.window.polygon(a)).collect();
        let cut: Vec<&[[f64; 2]]> = cut.iter().map(Vec::as_slice).collect();
        let spacing = spacing_mm / self.frame.mm_per_x.abs();
        self.add_lines(role, item, hatch(&cut, spacing, angle_deg.to_radians()));
    }

    /// Straight lines that belong together, cut at the window.
    pub fn lines(&mut self, role: Role, item: Option<Item>, lines: &[[[f64; 2]; 2]]) {
        let cut = lines
            .iter()
            .filter_map(|[from, to]| self.window.line(*from, *to))
            .collect();
        self.add_lines(role, item, cut);
    }

    fn add_lines(&mut self, role: Role, item: Option<Item>, lines: Vec<[[f64; 2]; 2]>) {
        if !lines.is_empty() {
            self.add(role, item, Form::Lines { lines });
        }
    }

    /// A circle, or the arcs of it inside the window.
    pub fn circle(&mut self, role: Role, item: Option<Item>, centre: [f64; 2], radius: f64) {
        self.arc(role, item, centre, radius, [0.0, TAU]);
    }

    /// An arc, or the parts of it inside the window.
    pub fn arc(&mut self, role: Role, item: Option<Item>, centre: [f64; 2], radius: f64, [from_rad, to_rad]: [f64; 2]) {
        const STEPS: usize = 360;
        let step = (to_rad - from_rad) / STEPS as f64;
        let angle = |i: usize| from_rad + step * i as f64;
        let inside = |i: usize| {
            let a = angle(i);
            self.window
                .contains([centre[0] + radius * libm::cos(a), centre[1] + radius * libm::sin(a)])
        };
        let whole = (0..=STEPS).all(inside);
        if whole && to_rad - from_rad >= TAU - 1e-9 {
            self.add(role, item, Form::Circle { centre, radius });
            return;
        }
        let mut parts: Vec<[usize; 2]> = Vec::new();
        for i in (0..=STEPS).filter(|i| inside(*i)) {
            match parts.last_mut() {
                Some(part) if part[1] + 1 == i => part[1] = i,
                _ => parts.push([i, i]),
            }
        }
        for [a, b] in parts.into_iter().filter(|[a, b]| b > a) {
            let form = Form::Arc {
                centre,
                radius,
                from_rad: angle(a),
                to_rad: angle(b),
            };
            self.add(role, item.clone(), form);
        }
    }

    /// A mark, if its place is in the window.
    pub fn mark(&mut self, role: Role, item: Option<Item>, at: [f64; 2], kind: MarkKind, size_mm: f64) {
        if self.window.contains(at) {
            self.add(role, item, Form::Mark { at, kind, size_mm });
        }
    }

    /// A line with a filled arrow head at its end.
    pub fn arrow(&mut self, role: Role, item: Option<Item>, from: [f64; 2], to: [f64; 2], head_mm: f64) {
        self.line(role, item.clone(), &[from, to]);
        let toward_deg = self.direction_deg(from, to);
        self.mark(Role::Solid, item, to, MarkKind::Arrow { toward_deg }, head_mm);
    }

    /// Direction from one frame point to another as seen on the sheet, degrees anticlockwise from the right.
    pub fn direction_deg(&self, from: [f64; 2], to: [f64; 2]) -> f64 {
        let (a, b) = (self.frame.to_sheet(from), self.frame.to_sheet(to));
        libm::atan2(a[1] - b[1], b[0] - a[0]).to_degrees()
    }

    /// A dimension line between two points with arrow heads, moved sideways (to the left as seen from `a` to `b`) by mm, with
    /// extension lines where it is moved, and its words.
    pub fn dimension(&mut self, item: Option<Item>, a: [f64; 2], b: [f64; 2], aside_mm: f64, words: Words) {
        let (am, bm) = (self.frame.to_sheet(a), self.frame.to_sheet(b));
        let length = libm::hypot(bm[0] - am[0], bm[1] - am[1]);
        if length.is_nan() || length <= 0.0 {
            return;
        }
        let (ux, uy) = ((bm[0] - am[0]) / length, (bm[1] - am[1]) / length);
        let aside = |p: [f64; 2], by: f64| [p[0] + uy * by, p[1] - ux * by];
        let (p, q) = (aside(am, aside_mm), aside(bm, aside_mm));
        if aside_mm != 0.0 {
            for (from, to) in [(am, p), (bm, q)] {
                let beyond = [
                    to[0] + (to[0] - from[0]) * 1.5 / aside_mm.abs(),
                    to[1] + (to[1] - from[1]) * 1.5 / aside_mm.abs(),
                ];
                let start = aside(from, aside_mm.signum());
                let ends = [self.at_mm(start), self.at_mm(beyond)];
                self.line(Role::Dimension, None, &ends);
            }
        }
        let (pf, qf) = (self.at_mm(p), self.at_mm(q));
        self.line(Role::Dimension, item.clone(), &[pf, qf]);
        // heads outside where the line is too short for both
        let head_mm = self.size_mm;
        let out = length < 3.0 * head_mm;
        for (tip, other) in [(pf, qf), (qf, pf)] {
            let toward = if out {
                self.direction_deg(tip, other)
            } else {
                self.direction_deg(other, tip)
            };
            self.mark(
                Role::Solid,
                item.clone(),
                tip,
                MarkKind::Arrow { toward_deg: toward },
                head_mm,
            );
        }
        if out {
            for (tip, sign) in [(p, -1.0), (q, 1.0)] {
                let end = [tip[0] + sign * ux * 2.0 * head_mm, tip[1] + sign * uy * 2.0 * head_mm];
                let ends = [self.at_mm(tip), self.at_mm(end)];
                self.line(Role::Dimension, item.clone(), &ends);
            }
        }
        self.along(pf, qf, words);
    }

    /// Lettering along a line, on either side of it.
    pub fn along(&mut self, a: [f64; 2], b: [f64; 2], words: Words) {
        self.along_thick(a, b, 0.0, words);
    }

    /// The same along a line as thick as that, mm.
    pub fn along_thick(&mut self, a: [f64; 2], b: [f64; 2], thick_mm: f64, words: Words) {
        let Some([a, b]) = self.window.line(a, b) else {
            return;
        };
        let (am, bm) = (self.frame.to_sheet(a), self.frame.to_sheet(b));
        let (dx, dy) = (bm[0] - am[0], bm[1] - am[1]);
        let length = libm::hypot(dx, dy).max(1e-6);
        let size = self.size_of(&words);
        let angle_deg = upright(libm::atan2(-dy, dx).to_degrees());
        // the side that is up for lettering at this angle
        let (ux, uy) = (-libm::sin(angle_deg.to_radians()), -libm::cos(angle_deg.to_radians()));
        let short = width_mm(&words.text, size, is_bold(words.role)) - length;
        let mut candidates = Vec::new();
        for (t, t_cost) in [(0.5, 0.0), (0.35, 1.0), (0.65, 1.0), (0.2, 2.0), (0.8, 2.0)] {
            for (side, side_cost) in [(0.85, 0.0), (-0.75, 0.7)] {
                let aside_mm = side * size + f64::signum(side) * thick_mm / 2.0;
                candidates.push(Candidate {
                    at_mm: [am[0] + t * dx + ux * aside_mm, am[1] + t * dy + uy * aside_mm],
                    anchor: Anchor::Middle,
                    angle_deg,
                    leader_mm: None,
                    cost: t_cost + side_cost + 0.35 * short.max(0.0),
                });
            }
        }
        let middle = [am[0] + dx / 2.0, am[1] + dy / 2.0];
        self.wait(words, candidates, Some((middle, 7.0)));
    }

    /// Lettering beside a point, with a leader where it has to move away; `clear_mm` is kept free round the point.
    pub fn beside(&mut self, at: [f64; 2], clear_mm: f64, words: Words) {
        if !self.window.contains(at) {
            return;
        }
        let p = self.frame.to_sheet(at);
        let size = self.size_of(&words);
        let mut candidates = Vec::new();
        for (right, up, anchor, cost) in [
            (1.0, 0.0, Anchor::Start, 0.0),
            (0.7, 0.7, Anchor::Start, 0.3),
            (0.0, 1.0, Anchor::Middle, 0.4),
            (0.0, -1.0, Anchor::Middle, 0.4),
            (0.7, -0.7, Anchor::Start, 0.5),
            (-1.0, 0.0, Anchor::End, 0.5),
            (-0.7, 0.7, Anchor::End, 0.7),
            (-0.7, -0.7, Anchor::End, 0.7),
        ] {
            let above = if anchor == Anchor::Middle {
                size * 0.75
            } else {
                size * 0.4 * f64::abs(up)
            };
            let sign = if up < 0.0 { -1.0 } else { 1.0 };
            candidates.push(Candidate {
                at_mm: [
                    p[0] + right * (clear_mm + 0.7),
                    p[1] - up * (clear_mm + 0.4) - sign * above,
                ],
                anchor,
                angle_deg: 0.0,
                leader_mm: None,
                cost,
            });
        }
        self.wait(words, candidates, Some((p, 2.0)));
    }

    /// Lettering inside an area, level or along its longest side; with a leader where there is no room.
    pub fn inside(&mut self, area: &[[f64; 2]], words: Words) {
        let area = self.window.polygon(area);
        if area.len() < 3 {
            return;
        }
        let corners: Vec<[f64; 2]> = area.iter().map(|p| self.frame.to_sheet(*p)).collect();
        let size = self.size_of(&words);
        let fold = |i: usize, start: f64, f: fn(f64, f64) -> f64| corners.iter().map(|p| p[i]).fold(start, f);
        let (low, high) = (
            [fold(0, f64::INFINITY, f64::min), fold(1, f64::INFINITY, f64::min)],
            [
                fold(0, f64::NEG_INFINITY, f64::max),
                fold(1, f64::NEG_INFINITY, f64::max),
            ],
        );
        let centre = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
        let mut candidates = Vec::new();
        for angle_deg in [0.0, 90.0] {
            for (i, share) in [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].into_iter().enumerate() {
                for (j, other) in [0.5, 0.3, 0.7].into_iter().enumerate() {
                    let at_mm = [low[0] + share * (high[0] - low[0]), low[1] + other * (high[1] - low[1])];
                    let room = plate_of(&words.text, size, is_bold(words.role), at_mm, Anchor::Middle, angle_deg);
                    if room.0.iter().all(|p| crate::geometry::contains(&corners, *p)) {
                        candidates.push(Candidate {
                            at_mm,
                            anchor: Anchor::Middle,
                            angle_deg,
                            leader_mm: None,
                            cost: 0.4 * (i + j) as f64 + angle_deg / 90.0,
                        });
                    }
                }
            }
        }
        self.wait(words, candidates, Some((centre, 8.0)));
    }

    /// Lettering at one place of the sheet, mm, where the drawing keeps room for it: title, notes.
    pub fn fixed(&mut self, at_mm: [f64; 2], anchor: Anchor, words: Words) {
        self.fixed_at(at_mm, anchor, 0.0, words);
    }

    /// The same, turned by degrees anticlockwise.
    pub fn fixed_at(&mut self, at_mm: [f64; 2], anchor: Anchor, angle_deg: f64, words: Words) {
        let candidate = Candidate {
            at_mm,
            anchor,
            angle_deg,
            leader_mm: None,
            cost: 0.0,
        };
        self.wait(words.rank(0), vec![candidate], None);
    }

    /// Lines of lettering from a place of the sheet downwards, broken to a width, mm. The place below them is returned.
    pub fn paragraph(&mut self, [x_mm, y_mm]: [f64; 2], width: f64, words: &Words) -> f64 {
        let size = self.size_of(words);
        let mut y = y_mm;
        for line in broken(&words.text, |text| width_mm(text, size, is_bold(words.role)) <= width) {
            let line = Words {
                text: line,
                ..words.clone()
            };
            self.fixed([x_mm, y], Anchor::Start, line);
            y += size * 1.75;
        }
        y
    }

    fn wait(&mut self, words: Words, candidates: Vec<Candidate>, away: Option<([f64; 2], f64)>) {
        if words.text.trim().is_empty() || words.rank > self.paper.least_rank() {
            return;
        }
        self.waiting.push(Waiting {
            size_mm: self.size_of(&words),
            text: words.text,
            role: words.role,
            item: words.item,
            rank: words.rank,
            candidates,
            away,
        });
    }

    /// Places the lettering and gives the scene.
    pub fn finish(mut self, title: String, facts: Vec<String>) -> Scene {
        let mut waiting = core::mem::take(&mut self.waiting);
        sort_short(&mut waiting, |a, b| a.rank.cmp(&b.rank));
        let mut ink = Inks::of(self.paper.height_mm);
        for shape in &self.shapes {
            ink_of(shape, &self.frame).into_iter().for_each(|i| ink.add(i));
        }
        let mut taken: Vec<Plate> = Vec::new();
        // leaders below all lettering, and the lettering always in the same order: a page need only read again what has moved
        let mut lettering: Vec<Shape> = Vec::new();
        for words in waiting {
            let drawn = self.shapes.len();
            let leader = self.place(&words, &mut ink, &mut taken);
            lettering.extend(self.shapes.drain(drawn + leader..));
        }
        self.shapes.append(&mut lettering);
        Scene {
            title,
            facts,
            width_mm: self.paper.width_mm,
            height_mm: self.paper.height_mm,
            frame: self.frame,
            shapes: self.shapes,
        }
    }

    /// Draws the words where they fit best; how many shapes their leader has.
    fn place(&mut self, words: &Waiting, ink: &mut Inks, taken: &mut Vec<Plate>) -> usize {
        let width = width_mm(&words.text, words.size_mm, is_bold(words.role));
        let room = |c: &Candidate| {
            let plain = plate_of_width(width, words.size_mm, c.lettering_mm(), c.anchor, c.angle_deg);
            plain.grown(if words.role == Role::Reverse { 0.9 } else { 0.3 })
        };
        let (wide, high) = (self.paper.width_mm, self.paper.height_mm);
        // what has a place of its own stands where it is put; all else stays inside the border
        let (from, to) = if words.away.is_some() {
            let (a, b) = (
                self.frame.to_sheet(self.window.low),
                self.frame.to_sheet(self.window.high),
            );
            ([a[0].min(b[0]), a[1].min(b[1])], [a[0].max(b[0]), a[1].max(b[1])])
        } else {
            ([0.0, 0.0], [wide, high])
        };
        let fits = |plate: &Plate, c: &Candidate| {
            let [low, far] = plate.bounds();
            low[0] >= from[0] + 0.5
                && low[1] >= from[1] + 0.5
                && far[0] <= to[0] - 0.5
                && far[1] <= to[1] - 0.5
                && taken
                    .iter()
                    .all(|t| !t.overlaps(plate) && c.leader_mm.is_none_or(|from| !t.is_crossed(from, c.at_mm)))
        };
        // what lies under the lettering and what its leader crosses; sums only grow, so one that has passed the best so far is given up
        let cost = |plate: &Plate, c: &Candidate, best: f64| {
            let cost = c.cost + ink.under(plate);
            let Some(from) = c.leader_mm.map(|from| after(from, c.at_mm)).filter(|_| cost < best) else {
                return cost;
            };
            // a leader that crosses other lines points at the wrong one
            cost + 0.7 * ink.across(from, c.at_mm)
        };
        let mut best: Option<(f64, Plate, Candidate)> = None;
        let least = |best: &Option<(f64, Plate, Candidate)>| best.as_ref().map_or(f64::INFINITY, |(cost, ..)| *cost);
        let consider = |best: &mut Option<(f64, Plate, Candidate)>, c: Candidate| {
            let least = least(best);
            if c.cost >= least {
                return;
            }
            let plate = room(&c);
            if fits(&plate, &c) {
                let cost = cost(&plate, &c, least);
                if cost < least {
                    *best = Some((cost, plate, c));
                }
            }
        };
        for c in &words.candidates {
            consider(&mut best, *c);
        }
        if let Some((from, cost)) = words.away {
            for reach_mm in REACHES.map(|reach| reach * words.size_mm) {
                let cost = cost + reach_mm * 0.12;
                // further out it only costs more
                if cost >= least(&best) {
                    break;
                }
                ring(from, reach_mm, cost).for_each(|c| consider(&mut best, c));
            }
            if best.is_none() {
                // nothing near is free: anywhere on the sheet, the nearest first
                far_away(from, wide, high).for_each(|c| consider(&mut best, c));
            }
        }
        let Some((_, plate, c)) = best else {
            return 0;
        };
        let before = self.shapes.len();
        if let Some(from) = c.leader_mm {
            let points = vec![self.at_mm(from), self.at_mm(c.at_mm)];
            self.add(Role::Leader, words.item.clone(), Form::Line { points });
            let (at, kind) = (self.at_mm(from), MarkKind::Dot);
            self.add(Role::Leader, words.item.clone(), Form::Mark { at, kind, size_mm: 0.7 });
            ink.add(Ink::new(from, c.at_mm, 3.0));
        }
        let leader = self.shapes.len() - before;
        if words.role == Role::Reverse {
            let points = plate.0.map(|p| self.at_mm(p)).to_vec();
            self.add(Role::Plate, words.item.clone(), Form::Polygon { points });
        }
        let form = Form::Text {
            at: self.at_mm(c.lettering_mm()),
            text: words.text.clone(),
            anchor: c.anchor,
            size_mm: words.size_mm,
            angle_deg: c.angle_deg,
        };
        self.add(words.role, words.item.clone(), form);
        taken.push(plate);
        leader
    }
}

/// Words in lines that fit; a single word that does not stands alone.
fn broken(text: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut().map(|line| format!("{line} {word}")) {
            Some(longer) if fits(&longer) => {
                lines.pop();
                lines.push(longer);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A point on a leader past its very beginning, which lies on what it points at.
fn after(from: [f64; 2], to: [f64; 2]) -> [f64; 2] {
    let length = libm::hypot(to[0] - from[0], to[1] - from[1]).max(1e-9);
    [0, 1].map(|k| from[k] + (to[k] - from[k]) * (0.6 / length).min(1.0))
}

fn ink_of(shape: &Shape, frame: &Frame) -> Vec<Ink> {
    let weight = match shape.role {
        Role::Cover | Role::Grip | Role::Plate => return Vec::new(),
        Role::Hatch | Role::Grid => 0.06,
        Role::Thin | Role::Hidden | Role::Centre | Role::Phantom | Role::Unknown => 1.0,
        Role::HatchOutside => 0.4,
        Role::Dimension | Role::Leader => 1.6,
        _ => 3.0,
    };
    let sheet = |p: &[f64; 2]| frame.to_sheet(*p);
    let round = |centre: &[f64; 2], radius: f64, from: f64, to: f64| -> Vec<[f64; 2]> {
        (0..=24)
            .map(|i| from + (to - from) * f64::from(i) / 24.0)
            .map(|a| frame.to_sheet([centre[0] + radius * libm::cos(a), centre[1] + radius * libm::sin(a)]))
            .collect()
    };
    let points: Vec<[f64; 2]> = match &shape.form {
        Form::Lines { lines } => {
            let ink = |[from, to]: &[[f64; 2]; 2]| Ink::new(sheet(from), sheet(to), weight);
            return lines.iter().map(ink).collect();
        }
        Form::Line { points } => points.iter().map(sheet).collect(),
        Form::Polygon { points } => points.iter().chain(points.first()).map(sheet).collect(),
        Form::Circle { centre, radius } => round(centre, *radius, 0.0, TAU),
        Form::Arc {
            centre,
            radius,
            from_rad,
            to_rad,
        } => round(centre, *radius, *from_rad, *to_rad),
        Form::Mark { at, size_mm, .. } => {
            let ([x, y], r) = (frame.to_sheet(*at), size_mm / 2.0);
            vec![[x - r, y - r], [x + r, y + r], [x + r, y - r], [x - r, y + r]]
        }
        Form::Text { .. } => Vec::new(),
    };
    points.windows(2).map(|w| Ink::new(w[0], w[1], weight)).collect()
}

/// An angle at which lettering reads from the bottom or from the right (ISO 129-1).
fn upright(angle_deg: f64) -> f64 {
    if angle_deg > 90.0 + 1e-6 {
        angle_deg - 180.0
    } else if angle_deg <= -90.0 + 1e-6 {
        angle_deg + 180.0
    } else {
        angle_deg
    }
}

/// How far from its point lettering with a leader stands, in sizes of the lettering.
const REACHES: [f64; 6] = [2.4, 3.6, 5.0, 7.0, 9.5, 13.0];

/// Places round a point at a distance, with a leader.
fn ring(from: [f64; 2], reach_mm: f64, cost: f64) -> impl Iterator<Item = Candidate> {
    (0..16).map(move |i| {
        let angle = f64::from(i) * PI / 8.0;
        let (cos, sin) = (libm::cos(angle), libm::sin(angle));
        Candidate {
            at_mm: [from[0] + reach_mm * cos, from[1] - reach_mm * sin],
            anchor: if cos >= -1e-9 { Anchor::Start } else { Anchor::End },
            angle_deg: 0.0,
            leader_mm: Some(from),
            cost,
        }
    })
}

/// Places all over the sheet, with a leader.
fn far_away(from: [f64; 2], wide: f64, high: f64) -> impl Iterator<Item = Candidate> {
    const STEP_MM: f64 = 3.0;
    let (columns, rows) = ((wide / STEP_MM) as usize, (high / STEP_MM) as usize);
    (0..columns * rows)
        .map(move |i| [(i % columns) as f64 * STEP_MM, (i / columns) as f64 * STEP_MM])
        .map(move |at_mm| Candidate {
            at_mm,
            anchor: if at_mm[0] >= from[0] {
                Anchor::Start
            } else {
                Anchor::End
            },
            angle_deg: 0.0,
            leader_mm: Some(from),
            cost: libm::hypot(at_mm[0] - from[0], at_mm[1] - from[1]) * 0.3,
        })
}
