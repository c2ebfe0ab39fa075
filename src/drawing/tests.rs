//! Every view read back in metres from its scene, and its lettering in three sizes.

use super::rig_view::lifted;
use super::*;
use crate::evaluate::{Assessment, EndKind, evaluate, try_out};
use crate::plan::{Plan, sample};
use crate::quantity::{Force, Safe, UnitSystem, number};
use crate::rigging::TryOut;
use approx::assert_abs_diff_eq;

fn scenario() -> (Plan, Assessment) {
    let plan = sample::plan();
    let assessment = evaluate(&plan);
    (plan, assessment)
}

const PAPERS: [Paper; 4] = [
    Paper::screen(90.0, 85.0),
    Paper::screen(180.0, 160.0),
    Paper::screen(260.0, 180.0),
    Paper::printed(62.0, 72.0),
];

/// Every view of every lift on one paper.
fn views(plan: &Plan, assessment: &Assessment, paper: Paper) -> Vec<Scene> {
    (0..assessment.lifts.len())
        .flat_map(|i| {
            [
                plan_view(plan, assessment, Some(i), paper),
                elevation(plan, assessment, i, EndKind::Pick, paper),
                elevation(plan, assessment, i, EndKind::Set, paper),
                chart_view(plan, assessment, i, paper),
                rig_side(plan, assessment, i, paper),
                rig_end(plan, assessment, i, 0, paper),
                rig_end(plan, assessment, i, 1, paper),
                rig_top(plan, assessment, i, paper),
                hung_view(plan, assessment, i, Seen::Side, paper),
                hung_view(plan, assessment, i, Seen::End(0), paper),
                hung_view(plan, assessment, i, Seen::End(1), paper),
                hung_view(plan, assessment, i, Seen::Isometric, paper),
            ]
        })
        .chain([site_view(plan, assessment, paper)])
        .collect()
}

#[track_caller]
fn no_collision(scene: &Scene) {
    let plates = plates(scene);
    for (i, (a, text)) in plates.iter().enumerate() {
        let [low, high] = a.bounds();
        assert!(
            low[0] >= 0.0 && low[1] >= 0.0 && high[0] <= scene.width_mm && high[1] <= scene.height_mm,
            "{}: \"{text}\" leaves the sheet",
            scene.title
        );
        for (b, other) in &plates[i + 1..] {
            assert!(!a.overlaps(b), "{}: \"{text}\" on \"{other}\"", scene.title);
        }
    }
}

#[test]
fn lettering_never_collides() {
    let (plan, assessment) = scenario();
    for paper in PAPERS {
        for scene in views(&plan, &assessment, paper) {
            assert!(scene.texts().count() > 0, "{}: no lettering", scene.title);
            no_collision(&scene);
        }
    }
}

/// Both papers, as the site sheet has them.
const SITE_PAPERS: [Paper; 3] = [
    Paper::printed(201.9, 130.0),
    Paper::printed(196.0, 150.0),
    Paper::printed(196.0, 190.0),
];

/// The site's plan to a true scale: what its scale bar says is so many metres on the paper, by hand 1000 / scale mm a metre (ISO 5455).
#[test]
fn the_site_and_its_scale_bar_are_true() {
    let (mut plan, _) = scenario();
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        plan.project.units = units;
        let assessment = evaluate(&plan);
        for paper in SITE_PAPERS {
            let scene = site_view(&plan, &assessment, paper);
            let scale: f64 = scene.title.rsplit("1 : ").next().unwrap().parse().unwrap();
            assert_abs_diff_eq!(scene.frame.mm_per_x, 1000.0 / scale, epsilon = 1e-9);
            let unit = if units == UnitSystem::Us { "ft" } else { "m" };
            let bar = scene
                .texts()
                .find_map(|t| t.strip_suffix(unit)?.trim().parse::<f64>().ok())
                .unwrap();
            let bar_m = bar * if units == UnitSystem::Us { 0.3048 } else { 1.0 };
            let (bottom, parts) = (scene.height_mm - 9.0, |s: &&Shape| s.item.is_none());
            let across: Vec<f64> = scene
                .shapes
                .iter()
                .filter(parts)
                .filter_map(|s| match &s.form {
                    Form::Polygon { points } => {
                        Some(points.iter().map(|p| scene.frame.to_sheet(*p)).collect::<Vec<_>>())
                    }
                    _ => None,
                })
                .filter(|points| points.iter().all(|p| p[1] > bottom))
                .flatten()
                .map(|p| p[0])
                .collect();
            let drawn = across.iter().copied().fold(f64::NEG_INFINITY, f64::max)
                - across.iter().copied().fold(f64::INFINITY, f64::min);
            assert_abs_diff_eq!(drawn, bar_m * 1000.0 / scale, epsilon = 1e-6);
            for words in ["crane centre", "farthest radius ", "pick ", "N", "scale 1 : "] {
                assert!(
                    scene.texts().any(|t| t.starts_with(words)),
                    "{paper:?}: {words}: {:?} {:?}",
                    scene.title,
                    plates(&scene)
                );
            }
            no_collision(&scene);
        }
    }
}

/// The farthest reach is that of the largest radius of the day, about the slew centre.
#[test]
fn the_site_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    let scene = site_view(&plan, &assessment, SITE_PAPERS[1]);
    let at = assessment.crane.at_m.unwrap();
    near(mark(&scene, &Item::Crane, |k| k == MarkKind::Cross), at, 1e-9);
    let ends = assessment.lifts.iter().flat_map(|l| &l.ends);
    let farthest = ends.map(|e| e.radius_m).fold(0.0, f64::max);
    let reach = scene.shapes.iter().find_map(|s| match (s.role, &s.form) {
        (Role::Centre, Form::Circle { centre, radius } | Form::Arc { centre, radius, .. }) => Some((*centre, *radius)),
        _ => None,
    });
    let (centre, radius) = reach.unwrap();
    near(centre, at, 1e-9);
    assert_abs_diff_eq!(radius, farthest, epsilon = 1e-9);
    // by hand, lift 5 is picked at √(12.2² + 8.1²) = 14.6441 m: no lift's reach is outside the circle
    assert!(radius >= 14.6441);
    let written = format!("farthest radius {}", words::up(farthest, assessment.units));
    assert!(scene.texts().any(|t| t == written), "{written}");
    for (i, mat) in assessment.crane.mats_m.iter().enumerate() {
        assert!(outlines(&scene, &Item::Mat(i)).contains(&mat.to_vec()));
    }
}

/// Who cannot see a drawing hears all that is written on it: by its title, its facts, or word for word.
#[test]
fn what_is_written_is_also_said() {
    let (plan, assessment) = scenario();
    for scene in views(&plan, &assessment, PAPERS[1]) {
        let written = scene.written();
        for text in scene.texts() {
            let said = scene.title.contains(text) || scene.facts.iter().any(|fact| fact.contains(text));
            assert_ne!(said, written.contains(&text), "{}: {text}", scene.title);
        }
        assert!(!scene.facts.is_empty(), "{}", scene.title);
    }
    let facts = elevation(&plan, &assessment, 4, EndKind::Pick, PAPERS[1])
        .facts
        .join(" ");
    for words in ["48.05 ft", "99.94 ft", "17.48 ft"] {
        assert!(facts.contains(words), "{words}: {facts}");
    }
}

/// ISO 128-20: widths of lines are of the series 0,13 0,18 0,25 0,35 0,5 0,7 mm, wide to narrow 2 to 1; ISO 3098: lettering of 2,5 mm and up.
/// From memory.
#[test]
fn lines_and_lettering_are_of_the_series() {
    const SERIES: [f64; 6] = [0.13, 0.18, 0.25, 0.35, 0.5, 0.7];
    let widths = STYLE.split("stroke-width:").skip(1).map(|rest| {
        let end = rest.find(|c: char| c != '.' && !c.is_ascii_digit()).unwrap();
        rest[..end].parse::<f64>().unwrap()
    });
    // the halo of lettering is paper, no line
    let lines: Vec<f64> = widths.filter(|w| *w != 0.6).collect();
    assert!(lines.len() > 8);
    for width in lines {
        assert!(SERIES.contains(&width), "{width}");
    }
    let (plan, assessment) = scenario();
    for scene in views(&plan, &assessment, PAPERS[1]) {
        for shape in &scene.shapes {
            if let Form::Text { size_mm, text, .. } = &shape.form {
                assert!(*size_mm >= 2.0, "{}: {text} {size_mm}", scene.title);
            }
        }
    }
}

/// What stands on a drawing of the size of a page; nothing that matters may be left out for want of room.
#[test]
fn what_matters_is_written() {
    let (plan, assessment) = scenario();
    let scene = plan_view(&plan, &assessment, Some(4), PAPERS[1]);
    for words in [
        "crane centre",
        "pick radius 48.05 ft",
        "set radius 27.14 ft",
        "33 ft 5 in",
        "33 ft 10 in",
        "1 · A2 below 4 · B2",
        "N",
    ] {
        assert!(scene.texts().any(|t| t == words), "{words} is not on the plan");
    }
    let scene = elevation(&plan, &assessment, 4, EndKind::Pick, PAPERS[1]);
    let needed = assessment.lifts[4].ends[0].head_needed.unwrap();
    let needed = format!("head needed {}", words::up(needed.to_m(), assessment.units));
    for words in [
        "planned radius 48.05 ft",
        &needed,
        "head at 99.94 ft",
        "boom gap 17.48 ft",
    ] {
        assert!(scene.texts().any(|t| t == words), "{words} is not on the elevation");
    }
}

/// What the crew reads off the drawings of a lift sheet, in the room that they have on Letter and on A4.
#[test]
fn what_matters_is_written_on_a_sheet() {
    for (width_mm, height_mm) in [(62.95, 66.0), (62.95, 73.0), (60.0, 85.0), (60.0, 100.0)] {
        on_a_sheet(Paper::printed(width_mm, height_mm));
    }
}

#[track_caller]
fn on_a_sheet(paper: Paper) {
    let (plan, assessment) = scenario();
    for (index, lift) in assessment.lifts.iter().enumerate() {
        let end = lift.governing().unwrap();
        let ends: Vec<String> = lift
            .ends
            .iter()
            .map(|e| {
                let word = if e.end == EndKind::Pick { "pick" } else { "set" };
                format!("{word} radius {}", words::up(e.radius_m, assessment.units))
            })
            .collect();
        let scene = plan_view(&plan, &assessment, Some(index), paper);
        let line = "25 kV line, not confirmed".to_owned();
        let scale = format!("scale 1 : {}", scene.title.rsplit("1 : ").next().unwrap());
        for words in ends.iter().chain([&line, &scale]) {
            assert!(
                scene.texts().any(|t| t == words),
                "{paper:?}, lift {}: {words}",
                lift.number
            );
        }
        no_collision(&scene);
        let scene = elevation(&plan, &assessment, index, end.end, paper);
        for words in ["radius ", "needed ", "head ", "boom gap ", "scale 1 : "] {
            assert!(
                scene.texts().any(|t| t.starts_with(words)),
                "{paper:?}, lift {}: {words}",
                lift.number
            );
        }
        no_collision(&scene);
    }
}

#[track_caller]
fn circle(scene: &Scene, item: &Item) -> ([f64; 2], f64) {
    scene
        .of(item)
        .find_map(|s| match s.form {
            Form::Circle { centre, radius } | Form::Arc { centre, radius, .. } => Some((centre, radius)),
            _ => None,
        })
        .unwrap()
}

#[track_caller]
fn mark(scene: &Scene, item: &Item, wanted: impl Fn(MarkKind) -> bool) -> [f64; 2] {
    scene
        .of(item)
        .find_map(|s| match s.form {
            Form::Mark { at, kind, .. } if wanted(kind) => Some(at),
            _ => None,
        })
        .unwrap()
}

fn outlines(scene: &Scene, item: &Item) -> Vec<Vec<[f64; 2]>> {
    scene
        .of(item)
        .filter(|s| s.role != Role::Leader)
        .filter_map(|s| match &s.form {
            Form::Line { points } | Form::Polygon { points } => Some(points.clone()),
            _ => None,
        })
        .collect()
}

#[track_caller]
fn near(a: [f64; 2], b: [f64; 2], within: f64) {
    assert_abs_diff_eq!(a[0], b[0], epsilon = within);
    assert_abs_diff_eq!(a[1], b[1], epsilon = within);
}

#[test]
fn the_plan_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    for paper in PAPERS {
        let scene = plan_view(&plan, &assessment, Some(4), paper);
        let at = assessment.crane.at_m.unwrap();
        near(mark(&scene, &Item::Crane, |k| k == MarkKind::Cross), at, 1e-9);
        assert_eq!(circle(&scene, &Item::Tail), (at, assessment.crane.tail_m.unwrap()));
        let lift = &assessment.lifts[4];
        for (end, item) in lift.ends.iter().zip([Item::Pick(4), Item::Set(4)]) {
            assert_eq!(circle(&scene, &item), (at, end.radius_m));
            near(
                mark(&scene, &item, |k| k == MarkKind::CentreOfGravity),
                end.hook_m,
                1e-9,
            );
            assert!(outlines(&scene, &item).contains(&end.outline_m));
        }
        for (i, mat) in assessment.crane.mats_m.iter().enumerate() {
            assert!(outlines(&scene, &Item::Mat(i)).contains(&mat.to_vec()));
        }
        for (corner, metres) in &assessment.crane.ties {
            let line = &outlines(&scene, &Item::Tie(*corner))[0];
            assert_abs_diff_eq!(crate::geometry::distance_m(line[0], line[1]), *metres, epsilon = 1e-9);
        }
    }
}

/// A true scale: so many mm of the sheet to a metre, both ways, as the title says.
#[test]
fn the_scale_is_true() {
    let (plan, assessment) = scenario();
    for paper in PAPERS {
        for scene in [
            plan_view(&plan, &assessment, None, paper),
            elevation(&plan, &assessment, 4, EndKind::Set, paper),
        ] {
            let written: f64 = scene.title.rsplit("1 : ").next().unwrap().parse().unwrap();
            assert_abs_diff_eq!(scene.frame.mm_per_x, 1000.0 / written, epsilon = 1e-9);
            assert_abs_diff_eq!(scene.frame.mm_per_y, 1000.0 / written, epsilon = 1e-9);
        }
    }
}

#[test]
fn the_elevation_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    let lift = &assessment.lifts[4];
    for end in &lift.ends {
        let scene = elevation(&plan, &assessment, 4, end.end, PAPERS[1]);
        let boom = &outlines(&scene, &Item::Boom)[0];
        let head = [end.planned_radius.to_m(), end.head.unwrap().to_m()];
        near(boom[1], head, 1e-9);
        // the crane's pin: 1.4 m behind the axis, 2.2 m up, in the scenario's plan
        near(boom[0], [-1.4, 2.2], 1e-9);
        assert_abs_diff_eq!(
            crate::geometry::distance_m(boom[0], boom[1]),
            lift.boom_m.unwrap(),
            epsilon = 1e-6
        );
        let load = &outlines(&scene, &Item::Load)[0];
        assert_abs_diff_eq!(load[2][1], end.top_m, epsilon = 1e-9);
        // carried clear by the plan's 1.0 m
        assert_abs_diff_eq!(load[0][1], end.floor_m + 1.0, epsilon = 1e-9);
        let hook = mark(&scene, &Item::Hook, |k| k == MarkKind::Dot);
        let above = lift.rig.hook_above_m.unwrap();
        near(hook, [end.planned_radius.to_m(), end.floor_m + 1.0 + above], 1e-9);
    }
}

/// The gap is measured in space and drawn in the boom's plane: never longer than drawn, and the same where a box stands square to the boom
/// (lifts 4 and 5 at their set).
#[test]
fn the_boom_gap_is_drawn_true() {
    let (plan, assessment) = scenario();
    for (index, lift) in assessment.lifts.iter().enumerate() {
        for end in &lift.ends {
            let scene = elevation(&plan, &assessment, index, end.end, PAPERS[1]);
            let dimension = scene.of(&Item::Load).find_map(|s| match &s.form {
                Form::Line { points } if s.role == Role::Dimension => Some(points.clone()),
                _ => None,
            });
            let drawn = dimension.map(|p| crate::geometry::distance_m(p[0], p[1])).unwrap();
            let gap = end.boom_gap.unwrap().to_m();
            assert!(gap <= drawn + 1e-6, "lift {}: {gap} against {drawn} drawn", lift.number);
            if matches!(index, 3 | 4) && end.end == EndKind::Set {
                assert_abs_diff_eq!(drawn, gap, epsilon = 0.02);
            }
        }
    }
}

#[test]
fn the_rating_curve_reads_back_in_metres_and_tonnes() {
    let (plan, assessment) = scenario();
    let lift = &assessment.lifts[4];
    for paper in PAPERS {
        let scene = chart_view(&plan, &assessment, 4, paper);
        for (end, item) in lift.ends.iter().zip([Item::Pick(4), Item::Set(4)]) {
            let at = mark(&scene, &item, |_| true);
            near(at, [end.planned_radius.to_m(), end.gross.unwrap().to_t()], 1e-9);
        }
        // the scenario's chart, boom 32.5 m: 18.4 t up to 14 m, 17.1 t up to 15 m, so the curve falls at 14 m
        let steps: Vec<[f64; 2]> = outlines(&scene, &Item::Rating).concat();
        let step_mm = 0.011 / scene.frame.mm_per_x;
        let at_14: Vec<f64> = steps
            .iter()
            .filter(|p| (p[0] - 14.0).abs() < step_mm)
            .map(|p| p[1])
            .collect();
        for tonnes in [18.4, 17.1] {
            assert!(
                at_14.iter().any(|t| (t - tonnes).abs() < 0.02),
                "{tonnes} t at 14 m: {at_14:?}"
            );
        }
        let limit: Vec<[f64; 2]> = outlines(&scene, &Item::Limit).concat();
        assert!(
            limit
                .iter()
                .any(|p| (p[0] - 14.0).abs() < step_mm && (p[1] - 0.85 * 18.4).abs() < 0.02)
        );
        // only lifts on the same boom: lift 1 is not
        assert_eq!(scene.of(&Item::Pick(0)).count(), 0);
        assert!(scene.of(&Item::NextRow).count() > 0);
    }
}

/// No two points of a step line differ in both directions: ratings are never drawn between rows.
#[test]
fn the_rating_curve_is_made_of_steps() {
    let (plan, assessment) = scenario();
    let scene = chart_view(&plan, &assessment, 4, PAPERS[1]);
    let rating = scene.of(&Item::Rating).filter(|s| s.role == Role::Outline);
    let lines: Vec<&Vec<[f64; 2]>> = rating
        .filter_map(|s| match &s.form {
            Form::Line { points } => Some(points),
            _ => None,
        })
        .collect();
    assert!(!lines.is_empty());
    for line in lines {
        for pair in line.windows(2) {
            let level = (pair[0][1] - pair[1][1]).abs() < 1e-6;
            let upright = (pair[0][0] - pair[1][0]).abs() < 1e-6;
            assert!(level || upright, "{pair:?}");
        }
    }
}

#[test]
fn the_rig_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    for (index, lift) in assessment.lifts.iter().enumerate() {
        let Some(hung) = &lift.rig.hung else { continue };
        let figure = &hung.figure;
        let scene = rig_side(&plan, &assessment, index, PAPERS[1]);
        let hook = mark(&scene, &Item::Hook, |k| k == MarkKind::Dot);
        near(hook, [figure.hook_m[0], figure.hook_m[2]], 1e-9);
        let cg = mark(&scene, &Item::CentreOfGravity, |_| true);
        near(cg, [figure.cg_m[0], figure.cg_m[2]], 1e-9);
        // it hangs at rest: the centre of gravity is below the hook, to what the bars and their offsets move it
        assert_abs_diff_eq!(cg[0], hook[0], epsilon = 0.25);
        // top legs lie almost in the plane of the drawing: their length and angle are the hang's
        for (i, member) in hung.members.iter().enumerate() {
            if !matches!(member.kind, crate::rigging::MemberKind::Top { .. }) {
                continue;
            }
            let line = &outlines(&scene, &Item::Member(i))[0];
            let (dx, dy) = (line[1][0] - line[0][0], line[1][1] - line[0][1]);
            assert_abs_diff_eq!(libm::hypot(dx, dy), member.length_m, epsilon = 0.01);
            assert_abs_diff_eq!(libm::atan2(dy.abs(), dx.abs()), member.angle_rad, epsilon = 0.002);
        }
        let end = rig_end(&plan, &assessment, index, 1, PAPERS[1]);
        for (i, member) in hung.members.iter().enumerate() {
            let drawn = outlines(&end, &Item::Member(i));
            match member.kind {
                crate::rigging::MemberKind::Strap(c) if c.end == 1 => {
                    let length = crate::geometry::distance_m(drawn[0][0], drawn[0][1]);
                    assert_abs_diff_eq!(length, member.length_m, epsilon = 0.01);
                }
                crate::rigging::MemberKind::Strap(_) => assert!(drawn.is_empty()),
                _ => {}
            }
        }
    }
}

/// The picks of a drawing: rings that belong to nothing else.
fn picks(scene: &Scene) -> Vec<[f64; 2]> {
    let ring = |shape: &Shape| match shape.form {
        Form::Mark {
            at,
            kind: MarkKind::Ring,
            ..
        } if shape.item.is_none() => Some(at),
        _ => None,
    };
    scene.shapes.iter().filter_map(ring).collect()
}

#[test]
fn the_rig_from_the_top_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    let from_above = |p: [f64; 3]| [p[0], p[1]];
    for (index, lift) in assessment.lifts.iter().enumerate() {
        let Some(hung) = &lift.rig.hung else { continue };
        let figure = &hung.figure;
        for paper in PAPERS {
            let scene = rig_top(&plan, &assessment, index, paper);
            let id = lifted(&plan, lift).unwrap().id.clone();
            let roof: Vec<[f64; 2]> = figure.box_m[4..].iter().copied().map(from_above).collect();
            assert_eq!(outlines(&scene, &Item::Box(id)), [roof]);
            near(
                mark(&scene, &Item::Hook, |k| k == MarkKind::Dot),
                from_above(figure.hook_m),
                1e-9,
            );
            near(
                mark(&scene, &Item::CentreOfGravity, |_| true),
                from_above(figure.cg_m),
                1e-9,
            );
            for (i, ends) in figure.legs_m.iter().enumerate() {
                assert_eq!(outlines(&scene, &Item::Member(i)), [ends.map(from_above).to_vec()]);
            }
            let bars: Vec<Vec<[f64; 2]>> = figure.bars_m.iter().map(|bar| bar.map(from_above).to_vec()).collect();
            assert_eq!(outlines(&scene, &Item::Bar), bars);
            // four picks under the straps, as far apart as the plan has them: the scenario's picks are 13.5 ft apart across
            let picks = picks(&scene);
            assert_eq!(picks.len(), 4);
            let across = |a: [f64; 2], b: [f64; 2]| crate::geometry::distance_m(a, b);
            let least = (1..4).map(|i| across(picks[0], picks[i])).fold(f64::INFINITY, f64::min);
            assert_abs_diff_eq!(least, 13.5 * 0.3048, epsilon = 0.002);
        }
    }
}

/// Four legs to one hook. By hand: picks at 1 and 11 m along, 0 and 4 m across and 3 m up, all legs √(5² + 2² + 7²) m long and the centre of
/// gravity in the middle, so the hook is at 6 m, 2 m, 10 m, a leg stands at asin(7/√78) = 52.43° from the horizontal, and 12 t are 3 t a pick.
#[test]
fn four_legs_read_back_in_metres() {
    let plan = crate::plan::example::four_legs();
    let assessment = evaluate(&plan);
    let figure = &assessment.lifts[0].rig.hung.as_ref().unwrap().figure;
    let hook = [6.0, 2.0, 10.0];
    let pick = |end: usize, side: usize| [[1.0, 11.0][end], [0.0, 4.0][side], 3.0];
    type Seeing = fn([f64; 3]) -> [f64; 2];
    let from_side: Seeing = |p| [p[0], p[2]];
    let from_end: Seeing = |p| [p[1], p[2]];
    let from_top: Seeing = |p| [p[0], p[1]];
    for paper in PAPERS {
        let views = [
            (rig_side(&plan, &assessment, 0, paper), from_side, [true, true]),
            (rig_end(&plan, &assessment, 0, 0, paper), from_end, [true, false]),
            (rig_end(&plan, &assessment, 0, 1, paper), from_end, [false, true]),
            (rig_top(&plan, &assessment, 0, paper), from_top, [true, true]),
        ];
        for (scene, seen, ends) in &views {
            near(mark(scene, &Item::Hook, |k| k == MarkKind::Dot), seen(hook), 1e-3);
            near(mark(scene, &Item::CentreOfGravity, |_| true), seen(figure.cg_m), 1e-9);
            for (i, [a, b]) in figure.legs_m.iter().enumerate() {
                let (end, side) = (i / 2, i % 2);
                let drawn = outlines(scene, &Item::Member(i));
                if !ends[end] {
                    assert!(drawn.is_empty(), "{}: a leg of the other end", scene.title);
                    continue;
                }
                assert_eq!(drawn, [vec![seen(*a), seen(*b)]]);
                let expected = [seen(pick(end, side)), seen(hook)];
                let [first, second] = [drawn[0][0], drawn[0][1]];
                let apart = |p: [f64; 2], q: [f64; 2]| crate::geometry::distance_m(p, q);
                let as_is = apart(first, expected[0]) + apart(second, expected[1]);
                let turned = apart(first, expected[1]) + apart(second, expected[0]);
                assert!(as_is.min(turned) < 2e-3, "{}: leg {i} {drawn:?}", scene.title);
            }
            assert!(outlines(scene, &Item::Bar).is_empty());
            assert_eq!(picks(scene).len(), 4);
            no_collision(scene);
        }
    }
    let side = rig_side(&plan, &assessment, 0, PAPERS[1]);
    assert!(
        side.texts().any(|t| t == "8.83 m at 52.42°"),
        "{:?}",
        side.texts().collect::<Vec<_>>()
    );
    let top = rig_top(&plan, &assessment, 0, PAPERS[1]);
    let shares = top.texts().filter(|t| t.starts_with("3.0") && t.contains("(25.0 %)"));
    assert_eq!(shares.count(), 4, "{:?}", top.texts().collect::<Vec<_>>());
}

/// The same box as it hangs: what is drawn, less the factor that is written, is where the assessment's hang has it.
#[test]
fn four_legs_as_they_hang_read_back_in_metres() {
    let plan = crate::plan::example::four_legs();
    let assessment = evaluate(&plan);
    hangs_as_drawn(&plan, &assessment, 0);
    let figure = &assessment.lifts[0].rig.hung.as_ref().unwrap().figure;
    for seen in [Seen::Side, Seen::End(0), Seen::End(1), Seen::Isometric] {
        let scene = hung_view(&plan, &assessment, 0, seen, PAPERS[1]);
        near(
            mark(&scene, &Item::Hook, |k| k == MarkKind::Dot),
            seen.of([6.0, 2.0, 10.0]),
            2e-3,
        );
        near(seen.of(figure.hook_m), seen.of([6.0, 2.0, 10.0]), 2e-3);
    }
}

/// As it hangs, in all views: what is drawn, less the factor that is written, is where the assessment's hang has it.
#[test]
fn as_it_hangs_reads_back_in_metres() {
    let (plan, assessment) = scenario();
    for index in 0..assessment.lifts.len() {
        hangs_as_drawn(&plan, &assessment, index);
    }
}

#[track_caller]
fn hangs_as_drawn(plan: &Plan, assessment: &Assessment, index: usize) {
    let lift = &assessment.lifts[index];
    let Some(hung) = &lift.rig.hung else { return };
    let figure = &hung.figure;
    let level = try_out(plan, index, &TryOut::nominal()).unwrap().level;
    for (seen, face) in [
        (Seen::Side, [0, 1, 5, 4]),
        (Seen::End(0), [0, 3, 7, 4]),
        (Seen::End(1), [1, 2, 6, 5]),
        (Seen::Isometric, [0, 1, 5, 4]),
    ] {
        let scene = hung_view(plan, assessment, index, seen, PAPERS[1]);
        let words: String = scene.texts().map(|text| format!("{text} ")).collect();
        let factor = words
            .split("drawn × ")
            .nth(1)
            .and_then(|rest| rest.split([' ', ';']).next());
        let factor: f64 = factor.map_or(1.0, |factor| factor.parse().unwrap());
        let outline = outlines(&scene, &Item::Box(lifted(plan, lift).unwrap().id.clone()));
        let drawn = outline.last().unwrap();
        for (corner, at) in face.into_iter().zip(drawn) {
            let (from, to) = (seen.of(level.box_m[corner]), seen.of(figure.box_m[corner]));
            near(*at, [0, 1].map(|k| from[k] + factor * (to[k] - from[k])), 1e-6);
        }
        near(
            mark(&scene, &Item::Hook, |k| k == MarkKind::Dot),
            seen.of(figure.hook_m),
            1e-9,
        );
        near(
            mark(&scene, &Item::CentreOfGravity, |_| true),
            seen.of(figure.cg_m),
            1e-9,
        );
    }
}

/// Each leg is as thick as its tension, and its figure stands beside it: the nominal tensions of the kitchen box.
#[test]
fn a_leg_is_as_thick_as_its_tension() {
    let (plan, assessment) = scenario();
    let hung = assessment.lifts[1].rig.hung.as_ref().unwrap();
    let scene = hung_view(&plan, &assessment, 1, Seen::Isometric, PAPERS[2]);
    let thick = |i: usize| {
        let [a, .., d] = outlines(&scene, &Item::Member(i))[0][..] else {
            panic!("no outline of member {i}")
        };
        crate::geometry::distance_m(a, d) * scene.frame.mm_per_x
    };
    let thinnest = 0.3;
    for (i, member) in hung.members.iter().enumerate() {
        let share = member.shared_n / hung.members[0].shared_n;
        assert_abs_diff_eq!((thick(i) - thinnest) / (thick(0) - thinnest), share, epsilon = 1e-6);
        let figure = number(Force::n(member.shared_n).to_lbf(), 0, Safe::Nearest);
        assert!(scene.texts().any(|text| text == format!("{figure} lbf")), "{figure}");
    }
}

#[test]
fn the_heavy_end_is_named() {
    let (plan, assessment) = scenario();
    // box A1 of the scenario is heavy at its kitchen end
    let scene = rig_side(&plan, &assessment, 1, PAPERS[1]);
    assert!(scene.texts().any(|t| t == "kitchen end: HEAVY END"));
    assert!(scene.texts().any(|t| t == "west end"));
}

/// A box whose weight is outside: the word stands on the drawing, on a plate, and the load is hatched.
#[test]
fn outside_is_a_word_and_a_hatch() {
    let (mut plan, _) = scenario();
    plan.limits.chart_use = crate::quantity::Entry::typed("50 %", crate::quantity::Unit::Percent);
    let assessment = evaluate(&plan);
    for paper in PAPERS {
        let scene = plan_view(&plan, &assessment, Some(4), paper);
        assert!(scene.shapes.iter().any(|s| s.role == Role::HatchOutside));
        assert!(scene.shapes.iter().any(|s| s.role == Role::Plate));
        let words: String = scene
            .shapes
            .iter()
            .filter(|s| s.role == Role::Reverse)
            .filter_map(|s| match &s.form {
                Form::Text { text, .. } => Some(format!("{text} ")),
                _ => None,
            })
            .collect();
        // on a printed sheet the checks beside the drawing say what of
        let expected = if paper.printed {
            "OUTSIDE"
        } else {
            "outside the limits entered"
        };
        assert!(words.contains(expected), "{words}");
        for scene in views(&plan, &assessment, paper) {
            no_collision(&scene);
        }
    }
}

/// Nothing entered, or nothing that can be read, gives a drawing with words, never a panic or a number that is none.
#[test]
fn what_is_missing_leaves_a_drawing() {
    let (full, _) = scenario();
    let mut bare = full.clone();
    bare.set_up = crate::plan::SetUp::default();
    let mut no_rig = full.clone();
    no_rig.rigs.clear();
    let mut no_limits = full.clone();
    no_limits.limits.carry_clearance = crate::quantity::Entry::default();
    no_limits.limits.chart_use = crate::quantity::Entry::default();
    for plan in [Plan::default(), bare, no_rig, no_limits] {
        let assessment = evaluate(&plan);
        for paper in PAPERS {
            let mut scenes = views(&plan, &assessment, paper);
            scenes.push(plan_view(&plan, &assessment, None, paper));
            scenes.push(chart_view(&plan, &assessment, 99, paper));
            scenes.push(elevation(&plan, &assessment, 99, EndKind::Pick, paper));
            for scene in scenes {
                no_collision(&scene);
                assert!(!svg_file(&scene).contains("NaN"));
            }
        }
    }
}
