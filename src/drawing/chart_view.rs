//! The rating curve: the chart's steps for the boom used, the planning limit below them, and every lift as a mark.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::recorder::{Ink, PER_MM, Recorder, line};
use super::scene::{Anchor, Frame, Item, MarkKind, Role, Scene};
use super::words::{near, up};
use crate::check::Amount;
use crate::crane::RatingTable;
use crate::evaluate::{Assessment, EndKind, EndResult, LiftResult};
use crate::plan::Plan;
use crate::quantity::{Length, Mass, Safe, Unit, UnitSystem, number};
use plotters::chart::ChartBuilder;
use plotters::drawing::IntoDrawingArea;
use plotters::series::LineSeries;
use plotters::style::{IntoFont, TRANSPARENT};

/// Inks of the chart, by the number that stands for each in the library.
const AXIS: u8 = 0;
const GRID: u8 = 1;
const RATING: u8 = 2;
const LIMIT: u8 = 3;

fn inks() -> [Ink; 4] {
    [
        (Role::Outline, None),
        (Role::Grid, None),
        (Role::Outline, Some(Item::Rating)),
        (Role::Hidden, Some(Item::Limit)),
    ]
}

/// The rating curve for the boom of a lift, with every lift on that boom.
///
/// Frame: radius in metres, gross load in tonnes. Ratings are steps: a rating holds from just beyond the row before it to its own row.
pub fn chart_view(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    let paper = paper.usable();
    let drawn = assessment.lifts.get(lift).and_then(|selected| {
        let crane = plan.crane(&plan.set_up.crane)?;
        let table = crane.charts.iter().find(|c| c.id == plan.set_up.chart.0)?.table().0?;
        let boom = Length::m(selected.boom_m?);
        drawn(plan, assessment, lift, selected, &table, boom, paper)
    });
    drawn.unwrap_or_else(|| nothing_to_show(paper))
}

fn nothing_to_show(paper: Paper) -> Scene {
    let frame = Frame {
        x0_mm: 0.0,
        y0_mm: paper.height_mm,
        mm_per_x: 1.0,
        mm_per_y: 1.0,
        x_unit: "m",
        y_unit: "t",
    };
    let mut pen = Pen::new(frame, paper, [0.0, 0.0, paper.width_mm, paper.height_mm]);
    let text = "No rating curve: the crane, its chart or the boom of this lift is not known";
    pen.paragraph([3.0, 6.0], paper.width_mm - 8.0, &Words::new(text).strong());
    pen.finish("Rating curve".into(), vec![format!("{text}.")])
}

/// One step of the chart, m and kg.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Step {
    from_m: f64,
    to_m: f64,
    kg: f64,
}

/// The steps of a boom length: between two rows the rating that holds there; at the first row it begins where the chart begins.
fn steps(table: &RatingTable, boom: Length) -> Vec<Step> {
    let radii: Vec<f64> = table.radii().map(Length::to_m).collect();
    radii
        .windows(2)
        .filter_map(|rows| {
            let between = Length::m((rows[0] + rows[1]) / 2.0);
            let kg = table.rating(between, boom).capacity()?.to_kg();
            Some(Step {
                from_m: rows[0],
                to_m: rows[1],
                kg,
            })
        })
        .collect()
}

/// Lines through steps that touch.
fn step_lines(steps: &[Step], factor: f64) -> Vec<Vec<[f64; 2]>> {
    let mut lines: Vec<Vec<[f64; 2]>> = Vec::new();
    for step in steps {
        let ends = [[step.from_m, step.kg * factor], [step.to_m, step.kg * factor]];
        match lines.last_mut() {
            Some(line) if line.last().is_some_and(|p| (p[0] - step.from_m).abs() < 1e-9) => line.extend(ends),
            _ => lines.push(ends.to_vec()),
        }
    }
    lines
}

/// The units of the axes: of the radius and of the load.
const fn axis_units(units: UnitSystem) -> (Unit, Unit) {
    match units {
        UnitSystem::Us => (Unit::Ft, Unit::Lb),
        UnitSystem::Metric => (Unit::M, Unit::T),
    }
}

fn drawn(
    plan: &Plan,
    assessment: &Assessment,
    index: usize,
    selected: &LiftResult,
    table: &RatingTable,
    boom: Length,
    paper: Paper,
) -> Option<Scene> {
    let units = assessment.units;
    let steps = steps(table, boom);
    let limit = plan.limits.chart_use.get().map(|l| l.to_of());
    let recorder = Recorder::new(paper.width_mm, paper.height_mm - foot_mm(paper));
    let frame = axes(&recorder, &steps, limit, units, paper)?;
    let window = [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm(paper)];
    let mut pen = Pen::new(frame, paper, window);
    recorder.give(&mut pen, &inks());
    name_axes(&mut pen, units);
    name_lines(&mut pen, &steps, limit);
    let on_boom = |l: &LiftResult| l.boom_m.is_some_and(|b| (b - boom.to_m()).abs() < 1e-6);
    let others = assessment
        .lifts
        .iter()
        .enumerate()
        .filter(|(i, l)| *i != index && on_boom(l));
    for (i, lift) in others {
        for end in &lift.ends {
            mark(&mut pen, i, lift, end, false, units);
        }
    }
    for end in &selected.ends {
        mark(&mut pen, index, selected, end, true, units);
    }
    if let Some(end) = selected.governing() {
        next_row(&mut pen, table, boom, end, units);
    }
    let findings = selected
        .findings
        .iter()
        .filter(|f| f.check == crate::check::Check::ChartUse);
    border::banner(&mut pen, findings.clone());
    let title = format!(
        "RATING CURVE, lift {}, boom {}",
        selected.number,
        near(boom.to_m(), units)
    );
    border::foot(
        &mut pen,
        title,
        "circle: pick, square: set; a step holds up to its own row".into(),
    );
    let mut facts = facts(plan, assessment, selected, boom);
    facts.extend(border::trouble_in_words(findings));
    let title = format!(
        "Rating curve, boom {}, lift {}, {}",
        near(boom.to_m(), units),
        selected.number,
        selected.title
    );
    Some(pen.finish(title, facts))
}

/// Axes, grid and step lines through the charting library; the frame is taken from where it puts the ends of the axes.
fn axes(recorder: &Recorder, steps: &[Step], limit: Option<f64>, units: UnitSystem, paper: Paper) -> Option<Frame> {
    let (length_unit, mass_unit) = axis_units(units);
    let (first, last) = (steps.first()?.from_m, steps.last()?.to_m);
    let most_kg = steps.iter().map(|s| s.kg).fold(0.0, f64::max);
    let (x_of, y_of) = (|m: f64| length_unit.from_si(m), |kg: f64| mass_unit.from_si(kg));
    let (x0, x1, y1) = (x_of(first), x_of(last), y_of(most_kg * 1.06));
    let size = paper.lettering_mm();
    let px = |mm: f64| (mm * PER_MM) as u32;
    let area = recorder.clone().into_drawing_area();
    let mut chart = ChartBuilder::on(&area)
        .margin_top(px(2.6 * size))
        .margin_right(px(4.0))
        .margin_left(px(0.5))
        .x_label_area_size(px(4.0 * size))
        .y_label_area_size(px(if units == UnitSystem::Us { 6.4 } else { 4.6 } * size))
        .build_cartesian_2d(x0..x1, 0.0..y1)
        .ok()?;
    let lettering = ("sans-serif", size * 0.9 * PER_MM).into_font();
    chart
        .configure_mesh()
        .x_labels((paper.width_mm / 16.0) as usize)
        .y_labels((paper.height_mm / 16.0) as usize)
        .axis_style(line(AXIS))
        .bold_line_style(line(GRID))
        .light_line_style(TRANSPARENT)
        .label_style(lettering)
        .set_all_tick_mark_size(px(1.0))
        .x_label_formatter(&|x| number(*x, 0, Safe::Nearest))
        .y_label_formatter(&|y| number(*y, 0, Safe::Nearest))
        .draw()
        .ok()?;
    for (factor, ink) in [(Some(1.0), RATING), (limit, LIMIT)] {
        let Some(factor) = factor else { continue };
        for points in step_lines(steps, factor) {
            let points = points.into_iter().map(|[m, kg]| (x_of(m), y_of(kg)));
            chart.draw_series(LineSeries::new(points, line(ink))).ok()?;
        }
    }
    let (left, bottom) = chart.backend_coord(&(x0, 0.0));
    let (right, top) = chart.backend_coord(&(x1, y1));
    let mm_per_x = f64::from(right - left) / PER_MM / (last - first);
    let mm_per_y = f64::from(bottom - top) / PER_MM / Mass::kg(most_kg * 1.06).to_t();
    (mm_per_x > 0.0 && mm_per_y > 0.0).then(|| Frame {
        x0_mm: f64::from(left) / PER_MM - first * mm_per_x,
        y0_mm: f64::from(bottom) / PER_MM,
        mm_per_x,
        mm_per_y,
        x_unit: "m",
        y_unit: "t",
    })
}

fn name_axes(pen: &mut Pen, units: UnitSystem) {
    let (length_unit, mass_unit) = axis_units(units);
    let (paper, size) = (pen.paper(), pen.size_mm);
    let load = format!("gross load, {}", mass_unit.symbol());
    pen.fixed([1.5, size], Anchor::Start, Words::new(load));
    let radius = format!("radius from the slew axis, {}", length_unit.symbol());
    let below_mm = paper.height_mm - foot_mm(paper) - 0.9 * size;
    pen.fixed([paper.width_mm - 4.0, below_mm], Anchor::End, Words::new(radius));
}

fn name_lines(pen: &mut Pen, steps: &[Step], limit: Option<f64>) {
    let Some(step) = steps.get(steps.len() / 3) else { return };
    let at = |factor: f64, t: f64| {
        [
            step.from_m + t * (step.to_m - step.from_m),
            Mass::kg(step.kg * factor).to_t(),
        ]
    };
    pen.beside(
        at(1.0, 0.6),
        0.8,
        Words::new("rating in the chart").rank(5).of(Item::Rating),
    );
    if let Some(limit) = limit {
        let share = number(limit * 100.0, 1, Safe::Down);
        pen.beside(
            at(limit, 0.4),
            0.8,
            Words::new(format!("your limit, {share} % of it"))
                .rank(5)
                .of(Item::Limit),
        );
    }
}

/// A lift at one end: circle at the pick, square at the set, with its number; the selected one in full.
fn mark(pen: &mut Pen, index: usize, lift: &LiftResult, end: &EndResult, selected: bool, units: UnitSystem) {
    let Some(gross) = end.gross else { return };
    let at = [end.planned_radius.to_m(), gross.to_t()];
    let (item, kind) = match end.end {
        EndKind::Pick => (Item::Pick(index), MarkKind::Ring),
        EndKind::Set => (Item::Set(index), MarkKind::Square),
    };
    let size = pen.size_mm * if selected { 1.3 } else { 0.9 };
    let role = if selected { Role::BodyHeavy } else { Role::Body };
    pen.mark(role, Some(item.clone()), at, kind, size);
    let words = match (selected, end.use_of_chart) {
        (true, Some(share)) => {
            let share = Amount::Share(share).show(units, Safe::Up);
            let which = if end.end == EndKind::Pick { "pick" } else { "set" };
            Words::new(format!("{} {which}: {share}", lift.number))
                .strong()
                .rank(1)
                .scaled(1.1)
        }
        _ => Words::new(lift.number.to_string()).rank(3).scaled(0.9),
    };
    pen.beside(at, size / 2.0, words.of(item));
}

/// The row that is read and the one after it, as upright lines from the axis to their rating.
fn next_row(pen: &mut Pen, table: &RatingTable, boom: Length, end: &EndResult, units: UnitSystem) {
    let (Some(row), Some(rating)) = (end.row, end.rating) else {
        return;
    };
    let upright = |pen: &mut Pen, item: Option<Item>, radius: Length, mass: Mass, text: String| {
        let top = [radius.to_m(), mass.to_t()];
        pen.line(Role::Phantom, item.clone(), &[[radius.to_m(), 0.0], top]);
        pen.mark(Role::Solid, item, top, MarkKind::Dot, 1.4);
        pen.beside(
            [radius.to_m(), top[1] * 0.12],
            0.6,
            Words::new(text).rank(4).scaled(0.95),
        );
    };
    let text = if pen.paper().is_small() {
        String::new()
    } else {
        let rating = Amount::Mass(rating).show(units, Safe::Down);
        format!("row {}: {rating}", near(row.to_m(), units))
    };
    upright(pen, None, row, rating, text);
    let next = table.radii().find(|r| r.to_m() > row.to_m() * (1.0 + 1e-9));
    let Some(next) = next else { return };
    if let (Some(mass), Some(share)) = (table.rating(next, boom).capacity(), end.next_row_use) {
        let share = Amount::Share(share).show(units, Safe::Up);
        upright(
            pen,
            Some(Item::NextRow),
            next,
            mass,
            format!("next row {}: {share}", near(next.to_m(), units)),
        );
    } else {
        let at = [next.to_m(), 0.0];
        let text = format!("next row {}: not allowed", near(next.to_m(), units));
        pen.beside(at, 2.0, Words::new(text).strong().rank(4).of(Item::NextRow));
    }
}

fn facts(plan: &Plan, assessment: &Assessment, selected: &LiftResult, boom: Length) -> Vec<String> {
    let units = assessment.units;
    let mut facts = vec![format!(
        "Chart: {}. Boom {}.",
        assessment.crane.chart,
        near(boom.to_m(), units)
    )];
    if let Some(limit) = plan.limits.chart_use.get() {
        facts.push(format!(
            "Planning limit {} of the rating.",
            Amount::Share(limit).show(units, Safe::Down)
        ));
    }
    for end in &selected.ends {
        let radius = up(end.planned_radius.to_m(), units);
        let words = match (end.gross, end.rating, end.use_of_chart) {
            (Some(gross), Some(rating), Some(share)) => format!(
                "gross {}, rating {}, {} used",
                Amount::Mass(gross).show(units, Safe::Up),
                Amount::Mass(rating).show(units, Safe::Down),
                Amount::Share(share).show(units, Safe::Up)
            ),
            _ => end
                .no_rating
                .clone()
                .unwrap_or_else(|| "no use of the chart can be given".into()),
        };
        facts.push(format!(
            "Lift {} {}: planned radius {radius}, {words}.",
            selected.number,
            end.end.words()
        ));
    }
    facts
}
