//! Pictures of the crane's further checks: loads on the pads over the slew, the pads where it is worst, the wires, the wind.

use super::border::{self, foot_mm};
use super::pen::{Paper, Pen, Words};
use super::scene::{Anchor, Frame, Item, MarkKind, Role, Scene};
use super::words::near;
use crate::check::Amount;
use crate::evaluate::{
    Assessment, Distances, EndKind, Outriggers, PAD_NAMES, WindStop, outriggers_of, wind_stops, wires_of,
};
use crate::plan::Plan;
use crate::quantity::{Length, Mass, Safe, Speed, UnitSystem, number};
use core::f64::consts::TAU;

/// Points of a curve once round.
const STEPS: usize = 180;
/// What the four pads' curves are drawn with, so that they differ without colour.
const CURVES: [Role; 4] = [Role::Heavy, Role::Hidden, Role::Centre, Role::Phantom];

fn mass(kg: f64, units: UnitSystem) -> String {
    Amount::Mass(Mass::kg(kg)).show(units, Safe::Up)
}

/// A drawing without a scale of lengths: its frame in millimetres about its middle, y up.
fn free(paper: Paper) -> Pen {
    let high_mm = paper.height_mm - foot_mm(paper);
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0,
        y0_mm: high_mm / 2.0,
        mm_per_x: 1.0,
        mm_per_y: 1.0,
        x_unit: "mm",
        y_unit: "mm",
    };
    let mut pen = Pen::new(frame, paper, [0.5, 0.5, paper.width_mm - 0.5, high_mm]);
    border::border(&mut pen);
    pen
}

fn nothing_to_show(paper: Paper, title: &str, why: &str) -> Scene {
    let mut pen = free(paper);
    let text = format!("{title}: {why}");
    pen.paragraph([3.0, 6.0], paper.width_mm - 8.0, &Words::new(text.clone()).strong());
    pen.finish(title.into(), vec![format!("{text}.")])
}

/// Why statics give no loads.
fn lack(outriggers: Option<&Outriggers>) -> &'static str {
    outriggers.map_or("crane, chart or lift are not known", |o| {
        o.statics_lack.unwrap_or("the gross load is not known")
    })
}

/// Load on each pad against the slew, all round, the swing of the lift marked.
///
/// Frame: millimetres about the slew axis, the carrier's front to the right; the distance from the middle is the load.
pub fn pads_over_slew(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    const TITLE: &str = "Load on each outrigger over the slew";
    let paper = paper.usable();
    let outriggers = outriggers_of(plan, assessment, lift);
    let drawn = outriggers.as_ref().filter(|o| o.statics.is_some());
    let Some(outriggers) = drawn else {
        return nothing_to_show(paper, TITLE, lack(outriggers.as_ref()));
    };
    let units = assessment.units;
    let angle = |i: usize| TAU * i as f64 / STEPS as f64;
    let loads: Vec<Option<[f64; 4]>> = (0..=STEPS)
        .map(|i| outriggers.at(angle(i)).map(|p| p.pads_kg))
        .collect();
    let most_kg = loads
        .iter()
        .flatten()
        .flatten()
        .copied()
        .chain(outriggers.sheet_kg)
        .fold(1.0, f64::max);
    let radius_mm = (paper.width_mm.min(paper.height_mm - foot_mm(paper)) / 2.0 - 3.2 * paper.lettering_mm()).max(5.0);
    let mm = |kg: f64| radius_mm * kg / most_kg;
    let at = |i: usize, kg: f64| [mm(kg) * libm::cos(angle(i)), mm(kg) * libm::sin(angle(i))];
    let mut pen = free(paper);
    for ring in 1..=4 {
        let kg = most_kg * f64::from(ring) / 4.0;
        pen.circle(Role::Grid, None, [0.0, 0.0], mm(kg));
        pen.beside(
            [mm(kg) * 0.26, -mm(kg) * 0.965],
            0.3,
            Words::new(mass(kg, units)).rank(7).scaled(0.8),
        );
    }
    for (degrees, words) in [(0.0, "front"), (90.0, "left"), (180.0, "rear"), (270.0, "right")] {
        let (cos, sin) = (libm::cos(f64::to_radians(degrees)), libm::sin(f64::to_radians(degrees)));
        pen.line(Role::Grid, None, &[[0.0, 0.0], [radius_mm * cos, radius_mm * sin]]);
        let out = radius_mm + 1.3 * paper.lettering_mm();
        let p = pen.on_sheet([out * cos, out * sin]);
        pen.fixed(p, Anchor::Middle, Words::new(words).scaled(0.9));
    }
    for (pad, role) in CURVES.into_iter().enumerate() {
        let mut part: Vec<[f64; 2]> = Vec::new();
        for (i, loads) in loads.iter().enumerate() {
            match loads {
                Some(loads) => part.push(at(i, loads[pad])),
                None => pen.line(role, Some(Item::Mat(pad)), &core::mem::take(&mut part)),
            }
        }
        pen.line(role, Some(Item::Mat(pad)), &part);
        let peak = (0..=STEPS)
            .filter_map(|i| Some((i, loads[i]?[pad])))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((i, kg)) = peak {
            pen.beside(at(i, kg), 1.0, Words::new(PAD_NAMES[pad]).rank(4).of(Item::Mat(pad)));
        }
    }
    if let Some(kg) = outriggers.sheet_kg {
        pen.circle(Role::Dimension, Some(Item::Limit), [0.0, 0.0], mm(kg));
        let text = format!("maker's sheet {}", mass(kg, units));
        pen.beside(
            [-mm(kg) * 0.71, mm(kg) * 0.71],
            0.6,
            Words::new(text).rank(3).of(Item::Limit),
        );
    }
    let path = outriggers.path;
    let (low, high) = if path.sweep_rad < 0.0 {
        (path.from_rad + path.sweep_rad, path.from_rad)
    } else {
        (path.from_rad, path.from_rad + path.sweep_rad)
    };
    pen.arc(
        Role::Outline,
        Some(Item::Boom),
        [0.0, 0.0],
        radius_mm,
        [low, high.max(low + 1e-3)],
    );
    let mut facts = vec![
        format!("The lift swings {}.", path.words()),
        "Distance from the middle is the load; the carrier's front is to the right.".into(),
    ];
    if let Some(worst) = outriggers.statics {
        let degrees = number(worst.slew_rad.to_degrees(), 1, Safe::Nearest);
        let empty = if worst.unloaded { ", nothing on the hook" } else { "" };
        let words = format!("worst: {} at {degrees}°{empty}", mass(worst.kg, units));
        let end = [libm::cos(worst.slew_rad), libm::sin(worst.slew_rad)].map(|c| c * mm(worst.kg));
        pen.line(Role::Thin, Some(Item::Boom), &[[0.0, 0.0], end]);
        pen.mark(Role::Solid, None, end, MarkKind::Dot, 1.6);
        pen.beside(end, 1.2, Words::new(words.clone()).strong().rank(1));
        facts.push(format!(
            "By statics the {words}, from the carrier's front anticlockwise."
        ));
    }
    facts.extend(
        outriggers
            .sheet_kg
            .map(|kg| format!("The maker's sheet says at most {}.", mass(kg, units))),
    );
    border::foot(
        &mut pen,
        "OUTRIGGERS OVER THE SLEW".into(),
        "heavy arc: the swing of this lift; load at its largest radius".into(),
    );
    pen.finish(TITLE.into(), facts)
}

/// The pads in plan with what each carries where the worst one is worst.
///
/// Frame: metres from the slew axis, the carrier's front to the right, true scale.
pub fn pads_at_worst(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    const TITLE: &str = "Outriggers at the worst slew";
    let paper = paper.usable();
    let outriggers = outriggers_of(plan, assessment, lift);
    let found = outriggers.as_ref().and_then(|o| Some((o, o.base?, o.statics?)));
    let Some((outriggers, base, worst)) = found else {
        return nothing_to_show(paper, TITLE, lack(outriggers.as_ref()));
    };
    let units = assessment.units;
    let weights = &outriggers.weights[if worst.unloaded {
        outriggers.weights.len() - 1
    } else {
        0
    }];
    let Some(loads) = weights.at(base, worst.slew_rad) else {
        return nothing_to_show(paper, TITLE, "by its weights the crane tips");
    };
    let crane = plan.crane(&plan.set_up.crane);
    let mat_m = crane.and_then(|c| c.mat.not_negative()).map_or(0.0, Length::to_m);
    let size = [base.length_m + mat_m + 5.0, base.width_m + mat_m + 2.5];
    let high_mm = paper.height_mm - foot_mm(paper);
    let scale = border::scale(size, [paper.width_mm - 6.0, high_mm - 6.0]);
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0 - base.ahead_m * 1000.0 / scale,
        y0_mm: high_mm / 2.0,
        mm_per_x: 1000.0 / scale,
        mm_per_y: 1000.0 / scale,
        x_unit: "m",
        y_unit: "m",
    };
    let mut pen = Pen::new(frame, paper, [0.5, 0.5, paper.width_mm - 0.5, high_mm]);
    border::border(&mut pen);
    let mut facts = Vec::new();
    for (i, [x, y]) in [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]]
        .into_iter()
        .enumerate()
    {
        let (cx, cy) = (base.ahead_m + x * base.length_m / 2.0, y * base.width_m / 2.0);
        let h = mat_m / 2.0;
        let mat = [[cx - h, cy - h], [cx + h, cy - h], [cx + h, cy + h], [cx - h, cy + h]];
        pen.line(Role::Thin, None, &[[base.ahead_m, 0.0], [cx, cy]]);
        let role = if loads.lifted == Some(i) {
            Role::Unknown
        } else {
            Role::Body
        };
        pen.outline(role, Some(Item::Mat(i)), &mat);
        let lifted = if loads.lifted == Some(i) { ", lifts off" } else { "" };
        let words = format!("{}: {}{lifted}", PAD_NAMES[i], mass(loads.pads_kg[i], units));
        pen.beside(
            [cx, cy + y * (h + 0.2)],
            1.0,
            Words::new(words.clone()).rank(2).of(Item::Mat(i)),
        );
        facts.push(format!("{words}."));
    }
    let reach = (base.length_m.max(base.width_m) / 2.0) + 1.6;
    let tip = [libm::cos(worst.slew_rad) * reach, libm::sin(worst.slew_rad) * reach];
    pen.arrow(Role::Outline, Some(Item::Boom), [0.0, 0.0], tip, 3.0);
    pen.mark(Role::Outline, Some(Item::Crane), [0.0, 0.0], MarkKind::Cross, 4.0);
    let degrees = number(worst.slew_rad.to_degrees(), 1, Safe::Nearest);
    pen.beside(tip, 1.0, Words::new(format!("boom at {degrees}°")).rank(3));
    facts.push(format!(
        "Boom at {degrees}° from the carrier's front, which is to the right."
    ));
    border::foot(
        &mut pen,
        "OUTRIGGERS, WORST SLEW".into(),
        border::scale_note(scale, units),
    );
    border::scale_bar(&mut pen, scale, units);
    pen.finish(TITLE.into(), facts)
}

/// How near each part comes to each power line on one lift, as bars across the distance, the trigger beside them.
///
/// Frame: millimetres; a bar's length is a distance in plan.
pub fn wires_view(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    const TITLE: &str = "Distances to the power line";
    let paper = paper.usable();
    let units = assessment.units;
    let all = wires_of(plan, assessment, lift);
    let found: Option<(usize, Distances)> = all
        .iter()
        .enumerate()
        .filter_map(|(i, d)| Some((i, (*d)?)))
        .min_by(|a, b| a.1.nearest_m().total_cmp(&b.1.nearest_m()));
    let Some((line, distances)) = found else {
        return nothing_to_show(paper, TITLE, "no line with a place, or no lift with one");
    };
    let trigger_m = crate::evaluate::trigger_of(plan, &plan.site.power_lines[line]).and_then(|k| k.away_m);
    let named: Vec<(&str, f64)> = distances.named();
    let bars: Vec<(&str, f64)> = named.into_iter().filter(|(_, m)| m.is_finite()).collect();
    let most_m = bars.iter().map(|b| b.1).chain(trigger_m).fold(1.0, f64::max);
    let mut pen = free(paper);
    let (left, right) = (6.0, paper.width_mm - 14.0);
    let top = 8.0;
    let high = paper.height_mm - foot_mm(paper) - top - 8.0;
    let step = high / bars.len().max(1) as f64;
    let x = |m: f64| left + (right - left) * m.max(0.0) / most_m;
    let wire = [[left, top - 4.0], [left, top + high]].map(|p| pen.at_mm(p));
    pen.line(Role::Heavy, Some(Item::PowerLine(line)), &wire);
    if let Some(m) = trigger_m {
        let ends = [[x(m), top - 4.0], [x(m), top + high]].map(|p| pen.at_mm(p));
        pen.line(Role::Centre, Some(Item::Limit), &ends);
        let text = format!("rules begin at {}", near(m, units));
        let at = [x(m).min(right - 24.0), top + high + 3.5];
        pen.fixed(at, Anchor::Middle, Words::new(text).of(Item::Limit));
    }
    let mut facts = vec![format!("Line: {}.", plan.site.power_lines[line].name)];
    for (i, (name, m)) in bars.iter().enumerate() {
        let y = top + step * (i as f64 + 0.7);
        let across = *m <= 0.0;
        let ends = [[left, y], [x(*m).max(left + 0.5), y]].map(|p| pen.at_mm(p));
        pen.line(if across { Role::HatchOutside } else { Role::Outline }, None, &ends);
        let far = if across {
            format!("{name}: across the line")
        } else {
            format!("{name}: {}", near(*m, units))
        };
        pen.fixed(
            [left + 1.5, y - 0.75 * pen.size_mm],
            Anchor::Start,
            Words::new(far.clone()).scaled(0.95),
        );
        facts.push(format!("{far}."));
    }
    border::foot(
        &mut pen,
        "POWER LINE, distances in plan".into(),
        "heavy: the line; bars: how far each part stays from it".into(),
    );
    pen.finish(TITLE.into(), facts)
}

/// The gust at which each lift stops, as bars up to the chart's own limit.
///
/// Frame: millimetres; a bar's length is a speed.
pub fn wind_view(plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
    const TITLE: &str = "Gust at which each lift stops";
    let paper = paper.usable();
    let units = assessment.units;
    let stops = wind_stops(plan, assessment);
    let chart = stops.iter().flatten().map(|s: &WindStop| s.chart).reduce(Speed::max);
    let Some(chart) = chart else {
        return nothing_to_show(paper, TITLE, "no lift has a wind stop");
    };
    let mut pen = free(paper);
    let (left, right, top) = (6.0, paper.width_mm - 16.0, 6.0);
    let high = paper.height_mm - foot_mm(paper) - top - 8.0;
    let step = high / assessment.lifts.len().max(1) as f64;
    let x = |v: Speed| left + (right - left) * (v / chart).clamp(0.0, 1.0);
    let speed = |v: Speed| Amount::Speed(v).show(units, Safe::Down);
    let axis = [[left, top - 2.0], [left, top + high]].map(|p| pen.at_mm(p));
    pen.line(Role::Outline, None, &axis);
    let ends = [[x(chart), top - 2.0], [x(chart), top + high]].map(|p| pen.at_mm(p));
    pen.line(Role::Centre, Some(Item::Limit), &ends);
    pen.fixed(
        [right - 12.0, top + high + 3.5],
        Anchor::Middle,
        Words::new(format!("chart {}", speed(chart))).of(Item::Limit),
    );
    let mut facts = vec![format!("The chart holds up to {}.", speed(chart))];
    for (i, (lift, stop)) in assessment.lifts.iter().zip(&stops).enumerate() {
        let y = top + step * (i as f64 + 0.72);
        let words = match stop {
            Ok(stop) => {
                let ends = [[left, y], [x(stop.speed), y]].map(|p| pen.at_mm(p));
                pen.line(Role::Heavy, Some(Item::Lift(i)), &ends);
                format!("{} {}: {}", lift.number, lift.title, speed(stop.speed))
            }
            Err(_) => format!("{} {}: no figure", lift.number, lift.title),
        };
        pen.fixed(
            [left + 1.5, y - 0.75 * pen.size_mm],
            Anchor::Start,
            Words::new(words.clone()).scaled(0.95),
        );
        facts.push(format!("{words}."));
    }
    border::foot(
        &mut pen,
        "WIND STOPS, 3 s gust at the boom head".into(),
        "the crane's limit; tag lines and landing have their own".into(),
    );
    pen.finish(TITLE.into(), facts)
}

/// The crane seen from above with the load at pick and at set and as it is carried between.
///
/// Frame: metres east and north of the slew axis, true scale.
pub fn swing_view(plan: &Plan, assessment: &Assessment, lift: usize, paper: Paper) -> Scene {
    const TITLE: &str = "Load past the crane";
    let paper = paper.usable();
    let outriggers = outriggers_of(plan, assessment, lift);
    let found = outriggers.zip(assessment.lifts.get(lift)).zip(assessment.crane.at_m);
    let Some(((outriggers, result), at)) = found else {
        return nothing_to_show(paper, TITLE, "crane or lift have no place");
    };
    let path = outriggers.path;
    let units = assessment.units;
    let from_axis = |p: &[f64; 2]| [p[0] - at[0], p[1] - at[1]];
    let outlines: Vec<Vec<[f64; 2]>> = result
        .ends
        .iter()
        .map(|e| e.outline_m.iter().map(from_axis).collect())
        .collect();
    let reach = outlines
        .iter()
        .flatten()
        .flatten()
        .map(|c| c.abs())
        .fold(path.radii_m[1] + 1.0, f64::max)
        + 1.0;
    let high_mm = paper.height_mm - foot_mm(paper);
    let scale = border::scale([2.0 * reach, 2.0 * reach], [paper.width_mm - 4.0, high_mm - 4.0]);
    let frame = Frame {
        x0_mm: paper.width_mm / 2.0,
        y0_mm: high_mm / 2.0,
        mm_per_x: 1000.0 / scale,
        mm_per_y: 1000.0 / scale,
        x_unit: "m",
        y_unit: "m",
    };
    let mut pen = Pen::new(frame, paper, [0.5, 0.5, paper.width_mm - 0.5, high_mm]);
    border::border(&mut pen);
    for (i, mat) in assessment.crane.mats_m.iter().enumerate() {
        let mat: Vec<[f64; 2]> = mat.iter().map(from_axis).collect();
        pen.outline(Role::Thin, Some(Item::Mat(i)), &mat);
    }
    if let Some(tail_m) = assessment.crane.tail_m {
        pen.circle(Role::Phantom, Some(Item::Tail), [0.0, 0.0], tail_m);
        pen.beside([0.0, tail_m], 0.6, Words::new("tail").rank(6).scaled(0.85));
    }
    let heading = assessment.crane.heading_rad;
    let (a, b) = (path.from_rad + heading, path.from_rad + path.sweep_rad + heading);
    for radius_m in path.radii_m {
        pen.arc(
            Role::Centre,
            Some(Item::Boom),
            [0.0, 0.0],
            radius_m,
            [a.min(b), a.max(b).max(a.min(b) + 1e-3)],
        );
    }
    for (end, outline) in result.ends.iter().zip(&outlines) {
        let hook = from_axis(&end.hook_m);
        let (word, item) = match end.end {
            EndKind::Pick => ("pick", Item::Pick(lift)),
            EndKind::Set => ("set", Item::Set(lift)),
        };
        if !outline.is_empty() {
            pen.outline(Role::Outline, Some(item.clone()), outline);
        }
        pen.mark(Role::Solid, Some(item), hook, MarkKind::Dot, 1.6);
        pen.beside(hook, 1.2, Words::new(word).rank(2));
    }
    // half way, its long side square to the boom
    if let Some(outline) = result.ends.last().map(|e| &e.outline_m).filter(|o| o.len() == 4) {
        let side = |i: usize| crate::geometry::distance_m(outline[i], outline[(i + 1) % 4]);
        let (long, short) = (side(0).max(side(1)), side(0).min(side(1)));
        let middle = path.from_rad + path.sweep_rad / 2.0 + heading;
        let turn = (libm::cos(middle), libm::sin(middle));
        let centre = crate::geometry::rotate([path.radii_m[0], 0.0], turn);
        let carried = crate::geometry::rectangle(centre, turn, [-short / 2.0, -long / 2.0], [short / 2.0, long / 2.0]);
        pen.outline(Role::Phantom, Some(Item::Load), &carried);
        pen.beside(
            centre,
            1.0,
            Words::new("carried, long side square to the boom").rank(4).scaled(0.9),
        );
    }
    pen.mark(Role::Outline, Some(Item::Crane), [0.0, 0.0], MarkKind::Cross, 4.0);
    let front = [libm::cos(heading), libm::sin(heading)].map(|c| c * 3.0);
    pen.arrow(Role::Thin, None, [0.0, 0.0], front, 2.0);
    let findings = result
        .findings
        .iter()
        .filter(|f| f.check == crate::check::Check::CraneBody);
    let facts = core::iter::once(format!("It swings {}.", path.words()))
        .chain(findings.map(|f| format!("{}.", f.sentence())))
        .collect();
    border::foot(&mut pen, "LOAD PAST THE CRANE".into(), border::scale_note(scale, units));
    border::scale_bar(&mut pen, scale, units);
    pen.finish(TITLE.into(), facts)
}
