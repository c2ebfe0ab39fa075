//! The crane's day on a line of time: a bar for each lift, its band, breaks, light, and when the crane is done.

use super::border;
use super::pen::{Paper, Pen, Words};
use super::scene::{Anchor, Form, Frame, Item, Role, Scene};
use crate::day::Band;
use crate::evaluate::{DayPlan, DayStep, clock_words};

/// Height of a row, mm.
const ROW_MM: f64 = 6.5;
/// Room for the hours above the rows, mm.
const TOP_MM: f64 = 9.0;
/// Width of the names at the left, mm.
const NAMES_MM: f64 = 34.0;

/// A bar: its name, the lift's row in the plan, when it begins and ends.
struct Bar {
    words: String,
    lift: Option<usize>,
    begins: Band,
    ends: Band,
}

/// Steps of the same lift are one bar.
fn bars(steps: &[DayStep]) -> Vec<Bar> {
    let mut bars: Vec<Bar> = Vec::new();
    for step in steps {
        let (Some(begins), Some(ends)) = (step.begins, step.ends) else {
            continue;
        };
        match bars
            .last_mut()
            .filter(|bar| step.lift.is_some() && bar.lift == step.lift)
        {
            Some(bar) => bar.ends = ends,
            None => bars.push(Bar {
                words: String::new(),
                lift: step.lift,
                begins,
                ends,
            }),
        }
        if let Some(bar) = bars.last_mut()
            && (bar.words.is_empty()
                || !step.words.starts_with("change")
                    && !step.words.starts_with("carriers")
                    && !step.words.contains("squaring"))
        {
            bar.words = step.words.clone();
        }
    }
    bars
}

/// Height over width of a sheet that holds so many steps' bars.
pub fn day_view_proportion(lifts: usize) -> f64 {
    (((lifts + 3) as f64) * ROW_MM + TOP_MM + 14.0) / 140.0
}

/// The day as drawn; without a start or with minutes missing it says so.
///
/// Frame: x in hours from midnight, y in rows from the top down, below 0.
pub fn day_view(day: &DayPlan, paper: Paper) -> Scene {
    let paper = paper.usable();
    let bars = bars(&day.steps);
    let first = bars.first().map_or(6 * 60, |bar| bar.begins.low);
    let last = day.done.map_or(18 * 60, |done| done.high).max(first + 60);
    let (from_h, to_h) = (first / 60, last.div_ceil(60));
    let names_mm = if paper.is_small() { 22.0 } else { NAMES_MM };
    let foot_mm = border::foot_mm(paper);
    let rows = bars.len() + 1;
    let row_mm = ((paper.height_mm - TOP_MM - foot_mm - 2.0) / rows as f64).min(ROW_MM * 1.4);
    let frame = Frame {
        x0_mm: names_mm - f64::from(from_h) * hour_mm(paper, names_mm, from_h, to_h),
        y0_mm: TOP_MM,
        mm_per_x: hour_mm(paper, names_mm, from_h, to_h),
        mm_per_y: row_mm,
        x_unit: "h",
        y_unit: "row",
    };
    let mut pen = Pen::new(
        frame,
        paper,
        [0.5, 0.5, paper.width_mm - 0.5, paper.height_mm - foot_mm],
    );
    hours(&mut pen, from_h, to_h, rows);
    light_and_breaks(&mut pen, day, [from_h, to_h], rows);
    for (row, bar) in bars.iter().enumerate() {
        draw(&mut pen, bar, row, names_mm);
    }
    if let Some(done) = day.done {
        draw_done(&mut pen, done, bars.len(), names_mm);
    }
    border::border(&mut pen);
    let note = "bar: median begin to median end; thin: 1 day of 10 to 9 days of 10".to_owned();
    border::foot(&mut pen, "The crane's day".into(), note);
    pen.finish("The crane's day".into(), facts(day, &bars))
}

fn hour_mm(paper: Paper, names_mm: f64, from_h: u32, to_h: u32) -> f64 {
    (paper.width_mm - names_mm - 3.0) / f64::from(to_h - from_h).max(1.0)
}

fn at(minutes: u32) -> f64 {
    f64::from(minutes) / 60.0
}

fn hours(pen: &mut Pen, from_h: u32, to_h: u32, rows: usize) {
    let every = if pen.paper().is_small() && to_h - from_h > 8 {
        2
    } else {
        1
    };
    for hour in from_h..=to_h {
        let x = f64::from(hour);
        pen.line(Role::Grid, None, &[[x, 0.0], [x, -(rows as f64)]]);
        if (hour - from_h).is_multiple_of(every) && hour < to_h {
            let on_sheet = pen.on_sheet([x, 0.0]);
            pen.fixed(
                [on_sheet[0], 5.5],
                Anchor::Middle,
                Words::new(format!("{}", hour % 24)).scaled(0.9),
            );
        }
    }
}

fn light_and_breaks(pen: &mut Pen, day: &DayPlan, [from_h, to_h]: [u32; 2], rows: usize) {
    let bottom = -(rows as f64);
    for pause in &day.pauses {
        let (a, b) = (at(pause.at_min), at(pause.at_min + pause.takes_min));
        pen.hatch(
            Role::Hatch,
            None,
            &[&[[a, 0.0], [b, 0.0], [b, bottom], [a, bottom]]],
            1.5,
            45.0,
        );
    }
    for minute in day.light.into_iter().chain([day.overtime_min]).flatten() {
        if (from_h * 60..to_h * 60).contains(&minute) {
            pen.line(Role::Phantom, None, &[[at(minute), 0.0], [at(minute), bottom]]);
        }
    }
}

fn draw(pen: &mut Pen, bar: &Bar, row: usize, names_mm: f64) {
    let item = bar.lift.map(Item::Lift);
    let (top, bottom, middle) = (-(row as f64) - 0.2, -(row as f64) - 0.8, -(row as f64) - 0.5);
    pen.line(
        Role::Thin,
        item.clone(),
        &[[at(bar.begins.low), middle], [at(bar.ends.high), middle]],
    );
    for end in [bar.begins.low, bar.ends.high] {
        pen.line(
            Role::Thin,
            item.clone(),
            &[[at(end), middle - 0.15], [at(end), middle + 0.15]],
        );
    }
    let (a, b) = (at(bar.begins.likely), at(bar.ends.likely));
    let points = vec![[a, top], [b, top], [b, bottom], [a, bottom]];
    pen.add(Role::Body, item, Form::Polygon { points });
    name(pen, &short(&bar.words, names_mm), row, false);
}

fn draw_done(pen: &mut Pen, done: Band, row: usize, names_mm: f64) {
    let middle = -(row as f64) - 0.5;
    pen.line(Role::Heavy, None, &[[at(done.low), middle], [at(done.high), middle]]);
    for end in [done.low, done.likely, done.high] {
        pen.line(Role::Heavy, None, &[[at(end), middle - 0.3], [at(end), middle + 0.3]]);
    }
    name(pen, &short("crane is done", names_mm), row, true);
}

fn name(pen: &mut Pen, words: &str, row: usize, strong: bool) {
    let y = pen.on_sheet([0.0, -(row as f64) - 0.5])[1];
    let words = Words::new(words).scaled(0.9);
    pen.fixed([1.5, y], Anchor::Start, if strong { words.strong() } else { words });
}

/// A name that fits at the left: "3 box C1" of "lift 3, box C1".
fn short(words: &str, names_mm: f64) -> String {
    let bare = words
        .strip_prefix("lift ")
        .map_or_else(|| words.to_owned(), |rest| rest.replacen(", ", " ", 1));
    let room = (names_mm / 1.7) as usize;
    if bare.chars().count() <= room {
        bare
    } else {
        format!("{}…", bare.chars().take(room.saturating_sub(1)).collect::<String>())
    }
}

fn facts(day: &DayPlan, bars: &[Bar]) -> Vec<String> {
    let mut facts: Vec<String> = bars
        .iter()
        .map(|bar| {
            format!(
                "{}: {} to {}, at the latest by {} on 9 days of 10",
                bar.words,
                clock_words(bar.begins.likely),
                clock_words(bar.ends.likely),
                clock_words(bar.ends.high)
            )
        })
        .collect();
    facts.extend(
        day.pauses
            .iter()
            .map(|pause| format!("break of {} min from {} on", pause.takes_min, clock_words(pause.at_min))),
    );
    for (words, minute) in ["light from", "light until"].iter().zip(day.light) {
        facts.extend(minute.map(|minute| format!("{words} {}", clock_words(minute))));
    }
    facts.extend(
        day.overtime_min
            .map(|minute| format!("overtime is paid from {} on", clock_words(minute))),
    );
    facts.push(match day.done {
        Some(done) => format!(
            "the crane is done by {} on half of such days, {} on 1 of 10, {} on 9 of 10",
            clock_words(done.likely),
            clock_words(done.low),
            clock_words(done.high)
        ),
        None => "when the crane is done cannot be worked out: times or minutes are missing".into(),
    });
    facts
}
