//! The box as a beam and the roof that is raised: shear, moment and sag along the box, the pull over the arc, and the panel on its way.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::recorder::{Ink, PER_MM, Recorder, line};
use super::scene::{Anchor, Frame, Item, MarkKind, Role, Scene};
use super::words::near;
use crate::check::Amount;
use crate::evaluate::{ArcPoint, Assessment, BeamCase, BoxBeam, Stiffness, box_beam, end_name, raise_arc, stiffnesses};
use crate::plan::{HouseBox, Load, Plan, RaiseArc};
use crate::quantity::{Angle, Force, Length, Mass, Moment, Safe, Unit, UnitSystem, number};
use crate::structure::{Arc, AtAngle, Beam, Extreme};
use plotters::chart::ChartBuilder;
use plotters::drawing::IntoDrawingArea;
use plotters::series::LineSeries;
use plotters::style::{IntoFont, TRANSPARENT};

/// What is drawn of a box or a raise. Lifts are named by their index.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StructureView {
    /// Shear along the box.
    Shear(usize),
    /// Moment along the box.
    Moment(usize),
    /// The shape that it bends to.
    Sag(usize),
    /// The panel on its arc, from the end of the box.
    Raise(usize),
    /// The pull over the arc.
    Pull(usize),
}

impl StructureView {
    /// The drawing as data.
    pub fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        let paper = paper.usable();
        let drawn = match self {
            Self::Shear(lift) | Self::Moment(lift) | Self::Sag(lift) => along(self, plan, assessment, lift, paper),
            Self::Raise(lift) => raise(plan, assessment, lift, paper),
            Self::Pull(lift) => pull(plan, assessment, lift, paper),
        };
        drawn.unwrap_or_else(|why| nothing(&why, paper))
    }
}

/// Steps in which curves are drawn.
const STEPS: u32 = 120;

fn nothing(why: &str, paper: Paper) -> Scene {
    let frame = Frame {
        x0_mm: 0.0,
        y0_mm: paper.height_mm,
        mm_per_x: 1.0,
        mm_per_y: 1.0,
        x_unit: "mm",
        y_unit: "mm",
    };
    let mut pen = Pen::new(frame, paper, [0.0, 0.0, paper.width_mm, paper.height_mm]);
    let text = format!("Nothing to draw: {why}");
    pen.paragraph([3.0, 6.0], paper.width_mm - 8.0, &Words::new(text.clone()).strong());
    pen.finish("Box and roof".into(), vec![text])
}

/// A curve over a straight axis, in the units that are shown.
struct Plot {
    title: String,
    note: String,
    /// Name and unit of both axes.
    axes: [(String, Unit); 2],
    /// Each with its ink.
    lines: Vec<(u8, Vec<[f64; 2]>)>,
    /// Upright lines with their words: picks.
    uprights: Vec<(f64, String)>,
    /// Marked points with their words.
    marks: Vec<([f64; 2], String)>,
    facts: Vec<String>,
}

/// Inks of the plots, by the number that stands for each in the library.
const AXIS: u8 = 0;
const GRID: u8 = 1;
const MAIN: u8 = 2;
const OTHER: u8 = 3;
const LIMIT: u8 = 4;
const ZERO: u8 = 5;

fn inks() -> [Ink; 6] {
    [
        (Role::Outline, None),
        (Role::Grid, None),
        (Role::Heavy, Some(Item::Load)),
        (Role::Thin, None),
        (Role::Hidden, Some(Item::Limit)),
        (Role::Thin, None),
    ]
}

impl Plot {
    fn range(&self, axis: usize) -> [f64; 2] {
        let all = self.lines.iter().flat_map(|(_, points)| points.iter().map(|p| p[axis]));
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| (a.min(v), b.max(v)));
        if axis == 0 {
            return [low, high];
        }
        let (low, high) = (low.min(0.0), high.max(0.0));
        let room = 0.08 * (high - low).max(1e-9);
        [if low < 0.0 { low - room } else { 0.0 }, high + room]
    }

    fn drawn(self, paper: Paper) -> Result<Scene, String> {
        let recorder = Recorder::new(paper.width_mm, paper.height_mm - foot_mm(paper));
        let frame = self.frame(&recorder, paper).ok_or("there is no room for the axes")?;
        let window = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
        let mut pen = Pen::new(frame, paper, window);
        recorder.give(&mut pen, &inks());
        let size = pen.size_mm;
        let words = |(name, unit): &(String, Unit)| format!("{name}, {}", unit.symbol());
        pen.fixed([1.5, size], Anchor::Start, Words::new(words(&self.axes[1])));
        let below_mm = paper.height_mm - foot_mm(paper) - 0.9 * size;
        pen.fixed(
            [paper.width_mm - 4.0, below_mm],
            Anchor::End,
            Words::new(words(&self.axes[0])),
        );
        let [low, high] = self.range(1);
        for (x, words) in &self.uprights {
            pen.line(Role::Phantom, Some(Item::Hook), &[[*x, low], [*x, high]]);
            pen.beside(
                [*x, high - 0.06 * (high - low)],
                0.5,
                Words::new(words.clone()).scaled(0.95).rank(4),
            );
        }
        for (at, words) in &self.marks {
            pen.mark(Role::Solid, None, *at, MarkKind::Dot, 1.6);
            pen.beside(*at, 0.8, Words::new(words.clone()).strong().rank(1));
        }
        border::foot(&mut pen, self.title.to_uppercase(), self.note);
        Ok(pen.finish(self.title, self.facts))
    }

    /// Axes, grid and curves through the charting library; the frame is taken from where it puts the ends of the axes.
    fn frame(&self, recorder: &Recorder, paper: Paper) -> Option<Frame> {
        let ([x0, x1], [y0, y1]) = (self.range(0), self.range(1));
        let size = paper.lettering_mm();
        let px = |mm: f64| (mm * PER_MM) as u32;
        let area = recorder.clone().into_drawing_area();
        let mut chart = ChartBuilder::on(&area)
            .margin_top(px(2.6 * size))
            .margin_right(px(4.0))
            .margin_left(px(0.5))
            .x_label_area_size(px(4.0 * size))
            .y_label_area_size(px(5.0 * size))
            .build_cartesian_2d(x0..x1, y0..y1)
            .ok()?;
        let decimals = |span: f64| u8::from(span < 5.0) + u8::from(span < 0.5);
        let (x_decimals, y_decimals) = (decimals(x1 - x0), decimals(y1 - y0));
        chart
            .configure_mesh()
            .x_labels((paper.width_mm / 16.0) as usize)
            .y_labels((paper.height_mm / 16.0) as usize)
            .axis_style(line(AXIS))
            .bold_line_style(line(GRID))
            .light_line_style(TRANSPARENT)
            .label_style(("sans-serif", size * 0.9 * PER_MM).into_font())
            .set_all_tick_mark_size(px(1.0))
            .x_label_formatter(&|x| number(*x, x_decimals, Safe::Nearest))
            .y_label_formatter(&|y| number(*y, y_decimals, Safe::Nearest))
            .draw()
            .ok()?;
        let zero = (ZERO, vec![[x0, 0.0], [x1, 0.0]]);
        for (ink, points) in core::iter::once(&zero).chain(&self.lines) {
            let points = points.iter().map(|[x, y]| (*x, *y));
            chart.draw_series(LineSeries::new(points, line(*ink))).ok()?;
        }
        let (left, bottom) = chart.backend_coord(&(x0, y0));
        let (right, top) = chart.backend_coord(&(x1, y1));
        let mm_per_x = f64::from(right - left) / PER_MM / (x1 - x0);
        let mm_per_y = f64::from(bottom - top) / PER_MM / (y1 - y0);
        (mm_per_x > 0.0 && mm_per_y > 0.0).then(|| Frame {
            x0_mm: f64::from(left) / PER_MM - x0 * mm_per_x,
            y0_mm: f64::from(bottom) / PER_MM + y0 * mm_per_y,
            mm_per_x,
            mm_per_y,
            x_unit: self.axes[0].1.symbol(),
            y_unit: self.axes[1].1.symbol(),
        })
    }
}

/// The box of a lift, as an index into its plan.
fn lifted(plan: &Plan, lift: usize) -> Result<&HouseBox, String> {
    match plan.lifts.get(lift).map(|lift| &lift.load) {
        Some(Load::Box { id }) => plan.house_box(id).ok_or_else(|| format!("box {id} is not in the plan")),
        _ => Err("this lift is no box".into()),
    }
}

fn number_of(plan: &Plan, lift: usize) -> u32 {
    plan.lifts.get(lift).map_or(0, |l| l.number)
}

/// A value of a beam at x, m, with its EI, N·m².
type Curve = fn(&Beam, f64, f64) -> f64;

/// Shear, moment or sag along the box: every case as a thin line, the worst in full.
fn along(
    view: StructureView,
    plan: &Plan,
    assessment: &Assessment,
    lift: usize,
    paper: Paper,
) -> Result<Scene, String> {
    let house = lifted(plan, lift)?;
    let beam = box_beam(plan, assessment, lift)?;
    let units = assessment.units;
    let x_unit = if units == UnitSystem::Us { Unit::Ft } else { Unit::M };
    let stiffness = stiffnesses(house).into_iter().next();
    let (name, y_unit, of): (&str, Unit, Curve) = match view {
        StructureView::Shear(_) => ("shear", Amount::Force(Force::ZERO).unit(units), |beam, x, _| {
            beam.shear_n(x)
        }),
        StructureView::Moment(_) => ("moment", Amount::Moment(Moment::ZERO).unit(units), |beam, x, _| {
            beam.moment_n_m(x)
        }),
        _ => {
            if stiffness.is_none() {
                return Err(format!(
                    "how stiff box {} is against bending is not entered: moments only",
                    house.id
                ));
            }
            // drawn as the box bends: down is down
            ("sag", Amount::Small(Length::ZERO).unit(units), |beam, x, ei| {
                -beam.sag_n_m3(x) / ei
            })
        }
    };
    let ei = stiffness.map_or(1.0, |s| s.ei_n_m2);
    let shown = |x_m: f64, si: f64| [x_unit.from_si(x_m), y_unit.from_si(si)];
    let (worst, which) = worst_of(view, &beam);
    let mut lines = Vec::new();
    for (i, case) in beam.cases.iter().enumerate() {
        let ink = if i == which { MAIN } else { OTHER };
        let points = places(&case.beam)
            .into_iter()
            .map(|x_m| shown(x_m, of(&case.beam, x_m, ei)));
        lines.push((ink, points.collect()));
    }
    lines.sort_by_key(|(ink, _)| *ink != OTHER);
    limit_lines(view, house, &beam, &shown, &mut lines);
    let words = |si: f64| amount(view, si).show(units, Safe::Up);
    let main = &beam.cases[which].beam;
    let marks = worst
        .iter()
        .filter(|e| e.value != 0.0)
        .map(|e| {
            let si = match view {
                StructureView::Sag(_) => -e.value / ei,
                StructureView::Shear(_) => beside(main, e.x_m, e.value),
                _ => e.value,
            };
            (shown(e.x_m, si), words(si.abs()))
        })
        .collect();
    let uprights = beam
        .sections_m
        .iter()
        .enumerate()
        .map(|(i, x_m)| (x_unit.from_si(*x_m), format!("picks {}", i + 1)));
    let mut facts: Vec<String> = worst
        .iter()
        .filter(|e| e.value != 0.0)
        .map(|e| {
            let value = if matches!(view, StructureView::Sag(_)) {
                e.value / ei
            } else {
                e.value
            };
            let what = match (view, e.value > 0.0) {
                (StructureView::Moment(_), true) => "Largest sagging moment",
                (StructureView::Moment(_), false) => "Largest hogging moment",
                (StructureView::Sag(_), true) => "Largest sag",
                (StructureView::Sag(_), false) => "Largest rise",
                _ => "Largest shear",
            };
            format!(
                "{what} {} at {} from {}.",
                words(value.abs()),
                near(e.x_m, units),
                end_name(house, 0)
            )
        })
        .collect();
    facts.extend(beam.basis.iter().map(|b| format!("{b}.")));
    if let (StructureView::Sag(_), Some(stiffness)) = (view, stiffness) {
        facts.push(format!("{}.", stiffness_words(&stiffness, units)));
    }
    let note = match view {
        StructureView::Moment(_) => "above the line it sags, below it hogs; dashed: what the factory allows".to_owned(),
        StructureView::Shear(_) => "pushed up by what is before it; dashed: what the factory allows".to_owned(),
        _ => stiffness.map_or_else(String::new, |s| {
            format!("from the line of the outer picks; {}", stiffness_words(&s, units))
        }),
    };
    Plot {
        title: format!("Box {}, {name} along the box, lift {}", house.id, number_of(plan, lift)),
        note,
        axes: [
            (format!("from {}", end_name(house, 0)), x_unit),
            (name.to_owned(), y_unit),
        ],
        lines,
        uprights: uprights.collect(),
        marks,
        facts,
    }
    .drawn(paper)
}

/// Shear jumps at a lump: the side of it that is the largest.
fn beside(beam: &Beam, x_m: f64, value: f64) -> f64 {
    let sides = [beam.shear_n(x_m - 1e-6), beam.shear_n(x_m + 1e-6)];
    if (sides[0] - value).abs() < (sides[1] - value).abs() {
        sides[0]
    } else {
        sides[1]
    }
}

fn stiffness_words(stiffness: &Stiffness, units: UnitSystem) -> String {
    let (per, unit) = if units == UnitSystem::Us {
        (413.253, "kip·ft²")
    } else {
        (1e3, "kN·m²")
    };
    format!(
        "{}, {} {unit}",
        stiffness.words,
        number(stiffness.ei_n_m2 / per, 0, Safe::Nearest)
    )
}

const fn amount(view: StructureView, si: f64) -> Amount {
    match view {
        StructureView::Shear(_) => Amount::Force(Force::n(si)),
        StructureView::Moment(_) => Amount::Moment(Moment::n_m(si)),
        _ => Amount::Small(Length::m(si)),
    }
}

/// The largest values, and the case that has the first of them.
fn worst_of(view: StructureView, beam: &BoxBeam) -> (Vec<Extreme>, usize) {
    let worst = match view {
        StructureView::Shear(_) => vec![beam.shear()],
        StructureView::Moment(_) => beam.moments().to_vec(),
        _ => beam.sags().to_vec(),
    };
    let largest = worst.iter().fold(
        Extreme::default(),
        |a, b| if b.value.abs() > a.value.abs() { *b } else { a },
    );
    let has = |case: &BeamCase| match view {
        StructureView::Shear(_) => case.shear == largest,
        StructureView::Moment(_) => case.moments.contains(&largest),
        _ => case.sags.contains(&largest),
    };
    (worst, beam.cases.iter().position(has).unwrap_or(0))
}

/// Places along the box at which a curve is drawn: even steps, and both sides of every jump.
fn places(beam: &Beam) -> Vec<f64> {
    let even = (0..=STEPS).map(|i| beam.length_m * f64::from(i) / f64::from(STEPS));
    let jumps = beam.breaks_m().into_iter().flat_map(|x| [x - 1e-6, x + 1e-6]);
    let mut all: Vec<f64> = even.chain(jumps).filter(|x| *x >= 0.0 && *x <= beam.length_m).collect();
    all.sort_by(f64::total_cmp);
    all
}

/// What the factory allows, dashed.
fn limit_lines(
    view: StructureView,
    house: &HouseBox,
    beam: &BoxBeam,
    shown: &impl Fn(f64, f64) -> [f64; 2],
    lines: &mut Vec<(u8, Vec<[f64; 2]>)>,
) {
    let length_m = beam.cases.first().map_or(0.0, |case| case.beam.length_m);
    let limits: Vec<f64> = match view {
        StructureView::Shear(_) => {
            let shear = house.shear.not_negative().map(Force::to_n);
            shear.into_iter().flat_map(|n| [n, -n]).collect()
        }
        StructureView::Moment(_) => {
            let [sag, hog] = &house.moments;
            let both = [
                sag.not_negative().map(Moment::to_n_m),
                hog.not_negative().map(|m| -m.to_n_m()),
            ];
            both.into_iter().flatten().collect()
        }
        _ => Vec::new(),
    };
    lines.extend(
        limits
            .into_iter()
            .map(|si| (LIMIT, vec![shown(0.0, si), shown(length_m, si)])),
    );
}

/// A roof raise with all it needs.
struct Raise<'a> {
    arc: Arc,
    entered: &'a RaiseArc,
    house: &'a HouseBox,
    points: Vec<ArcPoint>,
}

fn raised<'a>(plan: &'a Plan, assessment: &Assessment, lift: usize, steps: u32) -> Result<Raise<'a>, String> {
    let Some(Load::RoofRaise { on, arc: entered, .. }) = plan.lifts.get(lift).map(|l| &l.load) else {
        return Err("this lift is no roof raise".into());
    };
    let house = plan
        .house_box(on)
        .ok_or_else(|| format!("box {on} is not in the plan"))?;
    let (arc, points) = raise_arc(plan, assessment, lift, steps)?;
    Ok(Raise {
        arc,
        entered,
        house,
        points,
    })
}

/// The pull over the arc: plumb, at its worst lean, and what is planned.
fn pull(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Result<Scene, String> {
    let raise = raised(plan, assessment, lift, 40)?;
    let units = assessment.units;
    let mass = |n: f64| Amount::Mass(Force::n(n).as_mass());
    let unit = mass(0.0).unit(units);
    let shown = |n: f64| unit.from_si(Force::n(n).as_mass().to_kg());
    let of = |value: fn(&AtAngle) -> f64| -> Vec<[f64; 2]> {
        let at = |p: &ArcPoint| Some([p.angle_rad.to_degrees(), shown(value(p.pull.as_ref()?))]);
        raise.points.iter().filter_map(at).collect()
    };
    let mut lines = vec![
        (OTHER, of(|p| p.plumb_n)),
        (MAIN, of(|p| p.pull_n)),
        (OTHER, of(|p| p.hinge_up_n)),
    ];
    let ends = [raise.arc.from_rad, raise.arc.to_rad].map(f64::to_degrees);
    let planned_kg = assessment.lifts.get(lift).and_then(|l| l.load.planned_kg);
    if let Some(kg) = planned_kg {
        lines.push((LIMIT, ends.map(|deg| [deg, unit.from_si(kg)]).to_vec()));
    }
    let worst = raise
        .arc
        .largest_pull()
        .ok_or("the sling comes to run along the panel")?;
    let marks = vec![(
        [worst.angle_rad.to_degrees(), shown(worst.pull_n)],
        format!("pull {}", mass(worst.pull_n).show(units, Safe::Up)),
    )];
    let middle = raise.arc.at((raise.arc.from_rad + raise.arc.to_rad) / 2.0);
    let mut named: Vec<([f64; 2], String)> = middle
        .iter()
        .map(|at| {
            (
                [at.angle_rad.to_degrees(), shown(at.hinge_up_n)],
                "hinge carries".to_owned(),
            )
        })
        .collect();
    named.extend(planned_kg.map(|kg| {
        let planned = Amount::Mass(Mass::kg(kg)).show(units, Safe::Up);
        (
            [ends[0] + 0.3 * (ends[1] - ends[0]), unit.from_si(kg)],
            format!("planned {planned}"),
        )
    }));
    let facts = vec![
        format!(
            "Largest pull {} with the panel at {} from the horizontal, the sling leaning by {}; planned {}.",
            mass(worst.pull_n).show(units, Safe::Up),
            degrees(worst.angle_rad),
            degrees(worst.sling.lean_rad.abs()),
            planned_kg.map_or_else(
                || "not known".into(),
                |kg| Amount::Mass(Mass::kg(kg)).show(units, Safe::Up)
            )
        ),
        format!(
            "The hinge then carries {} upwards and {} sideways.",
            mass(worst.hinge_up_n).show(units, Safe::Up),
            mass(worst.hinge_along_n).show(units, Safe::Up)
        ),
    ];
    Plot {
        title: format!(
            "Pull over the arc, roof raise on {}, lift {}",
            raise.house.id,
            number_of(plan, lift)
        ),
        note: "in full: hook beside the plumb as far as it may be; thin: plumb sling, hinge; dashed: planned".into(),
        axes: [("panel from the horizontal".into(), Unit::Deg), ("pull".into(), unit)],
        lines,
        uprights: Vec::new(),
        marks: marks.into_iter().chain(named).collect(),
        facts,
    }
    .drawn(paper)
}

fn degrees(rad: f64) -> String {
    Amount::Angle(Angle::rad(rad)).show(UnitSystem::Metric, Safe::Nearest)
}

/// The panel on its arc, seen from the first end of the box: at the start, on its way, at the end, with the hook's path.
fn raise(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Result<Scene, String> {
    let raise = raised(plan, assessment, lift, 8)?;
    let units = assessment.units;
    let width_m = raise.house.width.not_negative().map_or(4.0, Length::to_m);
    let hinge = [
        raise.entered.hinge_across.get().map_or(0.0, Length::to_m),
        raise.entered.hinge_up.get().map_or(0.0, Length::to_m),
    ];
    let out = if raise.entered.toward_second { 1.0 } else { -1.0 };
    let panel = &raise.arc.panel;
    let at = |along_m: f64, square_m: f64, angle: f64| {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        [
            hinge[0] + out * (along_m * cos - square_m * sin),
            hinge[1] + along_m * sin + square_m * cos,
        ]
    };
    // the sling is cut off: what is drawn of it, m
    let sling_m = (0.45 * panel.to_pull_m).min(raise.arc.hook_above_m);
    let top_m = hinge[1]
        + panel.to_pull_m.max(0.5) * libm::sin(raise.arc.to_rad.max(raise.arc.from_rad)).max(0.0)
        + sling_m
        + 0.6;
    let low = [(-0.8f64).min(at(panel.to_pull_m, 0.0, 0.0)[0] - 0.8), -0.8];
    let high = [(width_m + 0.8).max(at(panel.to_pull_m, 0.0, 0.0)[0] + 0.8), top_m];
    let room_mm = [paper.width_mm - 8.0, paper.height_mm - foot_mm(paper) - 8.0];
    let scale = border::scale([high[0] - low[0], high[1] - low[1]], room_mm);
    let mm_per_m = 1000.0 / scale;
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0 - (low[0] + high[0]) / 2.0 * mm_per_m,
        y0_mm: paper.height_mm - foot_mm(paper) - 3.0 + low[1] * mm_per_m,
        mm_per_x: mm_per_m,
        mm_per_y: mm_per_m,
        x_unit: "m",
        y_unit: "m",
    };
    let mut pen = Pen::new(
        frame,
        paper,
        [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)],
    );
    border::border(&mut pen);
    let outline = [[0.0, 0.0], [width_m, 0.0], [width_m, hinge[1]], [0.0, hinge[1]]];
    pen.outline(Role::Outline, Some(Item::Box(raise.house.id.clone())), &outline);
    pen.inside(
        &outline,
        Words::new(format!("box {}, from its first end", raise.house.id)),
    );
    let path: Vec<[f64; 2]> = raise
        .points
        .iter()
        .map(|p| at(panel.to_pull_m, 0.0, p.angle_rad))
        .collect();
    pen.line(Role::Centre, Some(Item::Hook), &path);
    for point in &raise.points[1..raise.points.len().saturating_sub(1)] {
        pen.line(Role::Phantom, None, &[hinge, at(panel.to_pull_m, 0.0, point.angle_rad)]);
    }
    let lean = libm::atan2(raise.arc.hook_off_m, raise.arc.hook_above_m);
    for (angle, word, role) in [
        (raise.arc.from_rad, "start", Role::Outline),
        (raise.arc.to_rad, "end", Role::Heavy),
    ] {
        let pick = at(panel.to_pull_m, 0.0, angle);
        pen.line(role, Some(Item::Load), &[hinge, pick]);
        pen.arrow(
            Role::Thin,
            Some(Item::Member(0)),
            pick,
            [pick[0], pick[1] + sling_m],
            2.4,
        );
        for side in [-1.0, 1.0] {
            let aside = [pick[0] + side * sling_m * libm::tan(lean), pick[1] + sling_m];
            pen.line(Role::Hidden, None, &[pick, aside]);
        }
        pen.mark(
            Role::Thin,
            Some(Item::CentreOfGravity),
            at(panel.to_cg_m, panel.cg_square_m, angle),
            MarkKind::CentreOfGravity,
            3.2,
        );
        let words = raise.arc.at(angle).map_or_else(
            || format!("{word}, {}", degrees(angle)),
            |p| {
                format!(
                    "{word}, {}: pull up to {}",
                    degrees(angle),
                    Amount::Mass(Force::n(p.pull_n).as_mass()).show(units, Safe::Up)
                )
            },
        );
        pen.beside([pick[0], pick[1] + sling_m], 1.0, Words::new(words).strong().rank(1));
    }
    pen.mark(Role::Body, Some(Item::Bar), hinge, MarkKind::Ring, 2.2);
    let under = [[hinge[0], hinge[1]], at(panel.to_pull_m, 0.0, raise.arc.from_rad)];
    pen.dimension(
        None,
        under[0],
        under[1],
        -out * 4.0,
        Words::new(format!("l {}", near(panel.to_pull_m, units))),
    );
    pen.dimension(
        None,
        under[0],
        at(panel.to_cg_m, 0.0, raise.arc.from_rad),
        -out * 9.0,
        Words::new(format!("d {}", near(panel.to_cg_m, units))),
    );
    let nobody = Words::new("nobody under the panel until it is tied").strong().rank(2);
    pen.beside([width_m / 2.0, hinge[1] * 0.3], 0.5, nobody);
    let title = format!("Roof raise on {}, lift {}", raise.house.id, number_of(plan, lift));
    border::foot(
        &mut pen,
        format!("{}, {}", title.to_uppercase(), border::scale_note(scale, units)),
        "chain line: path of the pick, the hook plumb over it; dashed: as far as the sling may lean".into(),
    );
    let on_path = |p: &ArcPoint| {
        format!(
            "Panel at {}: pick {} from the hinge in plan and {} over it, radius {}.",
            degrees(p.angle_rad),
            near(panel.pick_m(p.angle_rad)[0], units),
            near(panel.pick_m(p.angle_rad)[1], units),
            near(p.end.radius_m, units)
        )
    };
    let facts = raise.points.iter().map(on_path).collect();
    Ok(pen.finish(title, facts))
}
