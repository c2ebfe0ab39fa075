//! The crane that is set up, made into numbers, and its checks at one end of a lift.

use super::{CraneResult, EndKind, EndResult, GrossLine};
use crate::check::{Amount, Check, Finding, Message, Outcome, Working, exceeds};
use crate::crane::{
    Base, Boom, ChartIssue, Deductions, Extension, Rated, RatingChart, RatingTable, Sector, Support, head_needed_m,
};
use crate::geometry::sort_short;
use crate::geometry::{convex_hull, distance_m, polygon_distance_m, rectangle};
use crate::plan::{Crane, Limits, Plan, Point, ZoneKind};
use crate::quantity::{Angle, Entry, Length, Mass, Ratio, Readable as _, Unit, both};
use crate::reach::{Block, Boomed, Demands, End, Gross};
use core::cell::RefCell;
use std::rc::Rc;

/// The radius allowance of the default profile, m: boom deflection and set-up (common practice, no source).
pub const DEFAULT_RADIUS_ALLOWANCE_M: f64 = 0.3;

/// The crane as far as it is known.
#[derive(Clone, Debug)]
pub struct CraneSide<'a> {
    /// The crane as the plan has it.
    pub crane: Option<&'a Crane>,
    chart_name: String,
    /// What the chart has taken off already.
    includes: Deductions,
    /// The chart as numbers.
    pub table: Option<Rc<RatingTable>>,
    /// Slew centre, m.
    pub at_m: Option<[f64; 2]>,
    /// Direction of the carrier's front, from east anticlockwise, rad.
    pub heading_rad: f64,
    length_unit: Unit,
    /// The four outrigger mats, m.
    pub mats_m: Vec<[[f64; 2]; 4]>,
    /// What is wrong with the chart's entries.
    pub messages: Vec<Message>,
    /// Findings that hold for every lift: the chart, the footprint.
    pub findings: Vec<Finding>,
    /// How many of them come from the chart alone.
    of_chart: usize,
}

/// A chart as it was read.
#[derive(Debug)]
struct ReadChart {
    chart: RatingChart,
    table: Option<Rc<RatingTable>>,
    issues: Vec<ChartIssue>,
}

/// The chart that was read last: reading all its cells takes as long as a lift, and while the crane moves it stays the same.
#[derive(Clone, Debug, Default)]
pub struct LastChart(RefCell<Option<Rc<ReadChart>>>);

impl LastChart {
    fn read(&self, chart: &RatingChart) -> Rc<ReadChart> {
        let last = self.0.borrow().clone();
        last.filter(|last| last.chart == *chart).unwrap_or_else(|| {
            let (table, issues) = chart.table();
            let read = Rc::new(ReadChart {
                chart: chart.clone(),
                table: table.map(Rc::new),
                issues,
            });
            self.0.replace(Some(Rc::clone(&read)));
            read
        })
    }
}

/// Reads the crane that is set up.
pub fn resolve(plan: &Plan) -> CraneSide<'_> {
    resolve_again(plan, &LastChart::default())
}

/// The same where a chart was read before.
pub fn resolve_again<'a>(plan: &'a Plan, last: &LastChart) -> CraneSide<'a> {
    let mut side = CraneSide {
        crane: None,
        chart_name: String::new(),
        includes: Deductions::default(),
        table: None,
        at_m: plan.set_up.at.metres(),
        heading_rad: plan.set_up.heading.get().map_or(0.0, |a| a.to_rad()),
        length_unit: Length::usual(plan.project.units),
        mats_m: Vec::new(),
        messages: Vec::new(),
        findings: Vec::new(),
        of_chart: 0,
    };
    let Some(crane) = plan.crane(&plan.set_up.crane) else {
        side.findings.push(Finding::not_checked(
            Check::Chart,
            "the crane",
            "no crane is chosen: choose one in the set-up",
        ));
        return side;
    };
    side.crane = Some(crane);
    read_chart(plan, crane, last, &mut side);
    side.of_chart = side.findings.len();
    side.stand(plan);
    side
}

fn read_chart(plan: &Plan, crane: &Crane, last: &LastChart, side: &mut CraneSide) {
    let Some(chart) = crane.charts.iter().find(|c| c.id == plan.set_up.chart.0) else {
        let missing = format!(
            "no chart of {} is chosen: choose its configuration in the set-up",
            crane.id
        );
        side.findings
            .push(Finding::not_checked(Check::Chart, "the chart", missing));
        return;
    };
    side.chart_name = chart.name.clone();
    side.includes = chart.includes;
    let read = last.read(chart);
    side.messages.extend(read.issues.iter().map(|issue| Message {
        about: crane.id.clone(),
        place: format!("chart {}", chart.name),
        text: issue.message(),
        blocks: issue.blocks,
    }));
    if !chart.locked {
        let missing = format!(
            "chart \"{}\" is not confirmed: compare it with the maker's chart and lock it",
            chart.name
        );
        side.findings
            .push(Finding::not_checked(Check::Chart, "the chart", missing));
    }
    if chart.configuration.support == Support::Rubber {
        let subject = format!(
            "chart \"{}\" is for lifting on tyres: house boxes are lifted on outriggers",
            chart.name
        );
        side.findings.push(Finding::of(Check::Chart, subject, Outcome::Outside));
    }
    side.findings.extend(sector_finding(chart));
    side.findings
        .extend(outriggers_finding(chart, plan.set_up.outriggers.trim()));
    side.table = read.table.clone();
}

/// Outriggers as measured on site against those that the chart holds for. Nothing before somebody has measured.
fn outriggers_finding(chart: &RatingChart, measured: &str) -> Option<Finding> {
    if measured.is_empty() || chart.configuration.support != Support::Outriggers {
        return None;
    }
    let holds_for = chart.configuration.outriggers.trim();
    let subject = format!("outriggers, measured \"{measured}\", the chart holds for \"{holds_for}\"");
    Some(match Extension::of(measured).is_short_of(Extension::of(holds_for)) {
        Some(true) => Finding::of(
            Check::Chart,
            format!("{subject}: set them out as the chart says, or choose the chart for what is out"),
            Outcome::Outside,
        ),
        Some(false) => Finding::of(Check::Chart, subject, Outcome::Within),
        None => Finding::not_checked(
            Check::Chart,
            subject,
            "both in per cent such as 100 %, or both as the distance between floats such as 7.0 m: mend one of them",
        ),
    })
}

/// A chart for part of the circle, or for nobody knows which: whether the swing stays in it is not worked out.
fn sector_finding(chart: &RatingChart) -> Option<Finding> {
    let sector = chart.configuration.sector.trim();
    let until = match sector {
        "" => {
            "the sector that the chart holds for is not entered: 360 deg, over rear …; enter it in the chart".to_owned()
        }
        // the swing is held against it, lift by lift
        known if Sector::of(known).is_some() => return None,
        part => format!(
            "the chart holds for \"{part}\" only: whether boom and swing stay in that from pick to set is not worked out without the sector's width: write it as \"over rear 120 deg\", or choose a chart for 360 deg"
        ),
    };
    let subject = format!("chart \"{}\"", chart.name);
    Some(Finding::of(Check::Chart, subject, Outcome::Held { until }))
}

impl Base {
    /// Where the pads of a configuration are: as its chart says, else as the crane does.
    pub fn of(crane: &Crane, chart: Option<&RatingChart>) -> Option<Self> {
        let of = |chart_s: Option<&Entry<Length>>, crane_s: &Entry<Length>| {
            let own = chart_s.filter(|entry| !entry.is_blank());
            own.map_or_else(|| crane_s.not_negative(), Entry::not_negative)
                .map(Length::to_m)
        };
        Some(Self {
            length_m: of(chart.map(|c| &c.configuration.base_length), &crane.base_length)?,
            width_m: of(chart.map(|c| &c.configuration.base_width), &crane.base_width)?,
            ahead_m: crane.base_ahead.get_or(|| Some(Length::ZERO))?.to_m(),
        })
    }
}

/// The four outrigger mats of a configuration, m.
fn mats_m(crane: &Crane, chart: Option<&RatingChart>, at: [f64; 2], heading_rad: f64) -> Vec<[[f64; 2]; 4]> {
    let Some((base, mat)) = Base::of(crane, chart).zip(crane.mat.not_negative()) else {
        return Vec::new();
    };
    let (long, wide, half) = (base.length_m / 2.0, base.width_m / 2.0, mat.to_m() / 2.0);
    let turn = (libm::cos(heading_rad), libm::sin(heading_rad));
    [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]
        .map(|(x, y)| {
            let (cx, cy) = (base.ahead_m + x * long, y * wide);
            rectangle(at, turn, [cx - half, cy - half], [cx + half, cy + half])
        })
        .to_vec()
}

/// Points as numbers; `None` where one is unknown or there are fewer than three.
pub fn outline_m(points: &[Point]) -> Option<Vec<[f64; 2]>> {
    let outline: Option<Vec<[f64; 2]>> = points.iter().map(Point::metres).collect();
    outline.filter(|o| o.len() >= 3)
}

/// Mats against the strip round the foundation and the areas that take no load.
fn footprint(plan: &Plan, side: &CraneSide) -> Vec<Finding> {
    if side.at_m.is_none() {
        return vec![Finding::not_checked(
            Check::Footprint,
            "the crane",
            "where it stands is not entered: slew centre, east and north",
        )];
    }
    if side.mats_m.is_empty() {
        return vec![Finding::not_checked(
            Check::Footprint,
            "the mats",
            "outrigger base and mat size of the crane",
        )];
    }
    let least_m = |outline: &[[f64; 2]]| {
        side.mats_m
            .iter()
            .filter_map(|mat| polygon_distance_m(mat, outline))
            .fold(f64::INFINITY, f64::min)
    };
    let mut findings = Vec::new();
    if let Some(foundation) = outline_m(&plan.site.foundation) {
        let gap = Length::m(least_m(&foundation));
        findings.push(match plan.site.no_load_offset.not_negative() {
            Some(strip) => Finding::at_least(Check::Footprint, "mats to the foundation", strip.into(), gap.into()),
            None => Finding::not_checked(
                Check::Footprint,
                "mats to the foundation",
                "width of the strip that takes no load",
            ),
        });
    }
    for zone in plan.site.zones.iter().filter(|z| z.kind == ZoneKind::NoLoad) {
        let subject = format!("mats clear of {}", zone.name);
        findings.push(match outline_m(&zone.outline) {
            Some(outline) if least_m(&outline) > 0.0 => Finding::of(Check::Footprint, subject, Outcome::Within),
            Some(_) => Finding::of(Check::Footprint, subject, Outcome::Outside),
            None => Finding::not_checked(Check::Footprint, subject, "its outline"),
        });
    }
    for tree in &plan.site.obstacles {
        let subject = format!("mats clear of {}", tree.name);
        findings.push(match tree.at.metres().zip(tree.radius.not_negative()) {
            Some((at, radius)) if least_m(&[at]) > radius.to_m() => {
                Finding::of(Check::Footprint, subject, Outcome::Within)
            }
            Some(_) => Finding::of(Check::Footprint, subject, Outcome::Outside),
            None => Finding::not_checked(Check::Footprint, subject, "where it stands and how wide it is"),
        });
    }
    findings
}

/// Where a load is at one end of its lift.
#[derive(Clone, Debug)]
pub struct Target {
    /// Which end.
    pub end: EndKind,
    /// Hook, east and north, m.
    pub hook_m: [f64; 2],
    /// Underside of the load above grade, m.
    pub floor_m: f64,
    /// Outline of the load, m; empty where it has none.
    pub outline_m: Vec<[f64; 2]>,
    /// Height of the load, m.
    pub height_m: f64,
}

impl Target {
    /// Top of the load above grade when it is carried clear, m.
    fn top_m(&self, limits: &Limits) -> f64 {
        self.floor_m + self.height_m + limits.carry_clearance.not_negative().map_or(0.0, |l| l.to_m())
    }
}

/// The headroom stack, m.
struct Stack {
    floor_m: f64,
    carry_m: f64,
    hook_m: f64,
    block_m: f64,
    two_block_m: f64,
}

impl Stack {
    fn needed_m(&self) -> f64 {
        head_needed_m(self.floor_m, self.carry_m, self.hook_m, self.block_m, self.two_block_m)
    }
}

/// What the limits demand, in numbers.
pub fn demands(limits: &Limits) -> Demands {
    Demands {
        radius_allowance_m: limits.radius_allowance.not_negative().map(|l| l.to_m()),
        chart_use: limits.chart_use.not_negative().map(|r| r.to_of()),
        boom_gap_m: limits.boom_gap.not_negative().map(|l| l.to_m()),
    }
}

/// What hangs below the hook.
#[derive(Clone, Copy, Debug)]
pub struct Hanging {
    /// Planned weight of the load, kg.
    pub planned_kg: Option<f64>,
    /// Rigging, kg.
    pub rigging_kg: Option<f64>,
    /// Hook above the load's underside, m.
    pub hook_above_m: Option<f64>,
}

impl CraneSide<'_> {
    /// Works out mats and footprint where it stands.
    fn stand(&mut self, plan: &Plan) {
        if let (Some(crane), Some(at_m)) = (self.crane, self.at_m) {
            self.mats_m = mats_m(crane, super::swing::chart_of(plan), at_m, self.heading_rad);
        }
        let findings = footprint(plan, self);
        self.findings.truncate(self.of_chart);
        self.findings.extend(findings);
    }

    /// Moves it: east and north, m; heading from east anticlockwise, rad.
    pub fn move_to(&mut self, plan: &Plan, at_m: [f64; 2], heading_rad: f64) {
        (self.at_m, self.heading_rad) = (Some(at_m), heading_rad);
        self.stand(plan);
    }

    /// For the assessment.
    pub fn result(&self, plan: &Plan) -> CraneResult {
        let foundation = outline_m(&plan.site.foundation).unwrap_or_default();
        let mut ties: Vec<(usize, f64)> = self
            .at_m
            .map(|at| {
                foundation
                    .iter()
                    .enumerate()
                    .map(|(i, c)| (i, distance_m(at, *c)))
                    .collect()
            })
            .unwrap_or_default();
        sort_short(&mut ties, |a, b| a.1.total_cmp(&b.1));
        ties.truncate(2);
        CraneResult {
            name: self.crane.map(|c| c.name.clone()).unwrap_or_default(),
            chart: self.chart_name.clone(),
            at_m: self.at_m,
            heading_rad: self.heading_rad,
            mats_m: self.mats_m.clone(),
            tail_m: self.crane.and_then(|c| c.tail_swing.not_negative()).map(|l| l.to_m()),
            ties,
        }
    }

    /// Boom lengths of the chart, m.
    pub fn booms_m(&self) -> Vec<f64> {
        self.table.iter().flat_map(|t| t.booms().map(|b| b.to_m())).collect()
    }

    /// The crane with one boom, in numbers.
    pub fn boomed(&self, boom_m: f64) -> Boomed {
        Boomed {
            boom: self.boom(boom_m),
            column: self.table.as_ref().and_then(|table| table.column(boom_m)),
            has_chart: self.table.is_some(),
        }
    }

    /// One end of a lift, in numbers.
    pub fn end(&self, limits: &Limits, target: &Target, hanging: Hanging) -> End {
        End {
            hook_m: target.hook_m,
            load: Block::new(target.outline_m.clone(), target.top_m(limits)),
            head_needed_m: self.stack(limits, target, hanging).map(|stack| stack.needed_m()),
            gross: self.gross_in_numbers(target, hanging),
        }
    }

    fn gross_in_numbers(&self, target: &Target, hanging: Hanging) -> Gross {
        let counted = |rope_m| {
            let lines = self.gross(hanging, rope_m).ok()?;
            Some(lines.iter().filter(|l| !l.in_chart).map(|l| l.mass.to_kg()).sum())
        };
        let typed = self.crane.is_some_and(|crane| !crane.hanging_rope.is_blank());
        let found = if typed {
            counted(None).map(Gross::Kg)
        } else {
            let one_m: Option<f64> = counted(Some(1.0));
            counted(Some(0.0))
                .zip(one_m)
                .zip(hanging.hook_above_m)
                .map(|((kg, one_m), hook_m)| Gross::WithRope {
                    kg,
                    rope_kg_per_m: one_m - kg,
                    hook_m: target.floor_m + hook_m,
                })
        };
        found.unwrap_or(Gross::Unknown)
    }

    /// The crane's mats against a carrier that stands at a pick spot.
    fn carrier_finding(&self, target: &Target) -> Option<Finding> {
        let outcome = if self.is_clear_of_carrier(target)? {
            Outcome::Within
        } else {
            Outcome::Outside
        };
        Some(Finding::of(
            Check::Footprint,
            "crane clear of the load on its carrier",
            outcome,
        ))
    }

    /// Whether the crane's mats stand clear of the load on its carrier; `None` where there is no such thing.
    pub fn is_clear_of_carrier(&self, target: &Target) -> Option<bool> {
        let outline = Some(&target.outline_m).filter(|o| target.end == EndKind::Pick && !o.is_empty())?;
        let corners: Vec<[f64; 2]> = self.mats_m.iter().flatten().copied().collect();
        Some(polygon_distance_m(&convex_hull(&corners), outline)? > 0.0)
    }

    /// The crane's figures and checks at one end of a lift, with a boom.
    pub fn at_end(
        &self,
        limits: &Limits,
        boom_m: f64,
        target: &Target,
        hanging: Hanging,
        standing: &[(String, Block)],
    ) -> (EndResult, Vec<Finding>) {
        let at_m = self.at_m.unwrap_or_default();
        let allowance_m = limits.radius_allowance.not_negative().map(|l| l.to_m());
        let radius_m = distance_m(at_m, target.hook_m);
        let planned_m = radius_m + allowance_m.unwrap_or(0.0);
        let mut end = EndResult {
            end: target.end,
            hook_m: target.hook_m,
            floor_m: target.floor_m,
            outline_m: target.outline_m.clone(),
            top_m: target.top_m(limits),
            radius_m,
            planned_radius: Length::m(planned_m),
            row: None,
            rating: None,
            no_rating: None,
            gross_lines: Vec::new(),
            gross: None,
            use_of_chart: None,
            next_row_use: None,
            may_move: None,
            boom_angle: None,
            head: None,
            head_needed: None,
            boom_gap: None,
        };
        let mut findings = Vec::new();
        let words = target.end.words();
        if allowance_m.is_none() {
            findings.push(Finding::not_checked(
                Check::Reach,
                words,
                "the radius allowance is not entered in the limits",
            ));
        }
        self.geometry(limits, boom_m, target, hanging, standing, &mut end, &mut findings);
        self.chart(limits, boom_m, hanging, &mut end, &mut findings);
        findings.extend(self.carrier_finding(target));
        (end, findings)
    }

    /// The geometry of a boom length; `None` where the crane's is not known.
    pub fn boom(&self, boom_m: f64) -> Option<Boom> {
        let crane = self.crane?;
        Some(Boom {
            length_m: boom_m,
            pin_back_m: crane.pin_back.get()?.to_m(),
            pin_height_m: crane.pin_height.not_negative()?.to_m(),
            depth_m: crane.boom_depth.not_negative()?.to_m(),
        })
    }

    #[allow(clippy::too_many_arguments)]
    fn geometry(
        &self,
        limits: &Limits,
        boom_m: f64,
        target: &Target,
        hanging: Hanging,
        standing: &[(String, Block)],
        end: &mut EndResult,
        findings: &mut Vec<Finding>,
    ) {
        let words = target.end.words();
        let Some(boom) = self.boom(boom_m) else {
            findings.push(Finding::not_checked(
                Check::Reach,
                words,
                "the crane's boom pin (height, distance behind the axis) and boom depth",
            ));
            return;
        };
        let planned_m = end.planned_radius.to_m();
        end.boom_angle = boom.angle_rad(planned_m).map(Angle::rad);
        end.head = boom.head_height_m(planned_m).map(Length::m);
        let Some(head) = end.head else {
            let reach = Length::m(boom_m - boom.pin_back_m);
            findings.push(
                Finding::at_most(Check::Reach, words, end.planned_radius.into(), reach.into()).working([Working::new(
                    "largest radius of the boom laid flat",
                    "R",
                    "L − a",
                    reach,
                    "geometry",
                )
                .input("L", "boom length", Length::m(boom_m))
                .input("a", "pin behind the slew axis", Length::m(boom.pin_back_m))]),
            );
            return;
        };
        findings.push(self.headroom(limits, &boom, head, target, hanging, end));
        findings.push(gap_finding(
            limits,
            &boom,
            self.at_m.unwrap_or_default(),
            target,
            standing,
            end,
        ));
    }

    /// What the boom head must stand above; `None` where a part is unknown.
    fn stack(&self, limits: &Limits, target: &Target, hanging: Hanging) -> Option<Stack> {
        let crane = self.crane?;
        Some(Stack {
            floor_m: target.floor_m,
            carry_m: limits.carry_clearance.not_negative()?.to_m(),
            hook_m: hanging.hook_above_m?,
            block_m: crane.block_height.not_negative()?.to_m(),
            two_block_m: crane.two_block.not_negative()?.to_m(),
        })
    }

    fn headroom(
        &self,
        limits: &Limits,
        boom: &Boom,
        head: Length,
        target: &Target,
        hanging: Hanging,
        end: &mut EndResult,
    ) -> Finding {
        let words = target.end.words();
        let Some(stack) = self.stack(limits, target, hanging) else {
            let missing = "hook height over the load, carry clearance, block height and two-block margin";
            return Finding::not_checked(Check::Headroom, words, missing);
        };
        let needed = Length::m(stack.needed_m());
        end.head_needed = Some(needed);
        let stack = Working::new(
            "head height needed above grade",
            "z_n",
            "f + c + k + b + t",
            needed,
            "headroom stack, common practice",
        )
        .input("f", "underside of the load", Length::m(stack.floor_m))
        .input("c", "carry clearance", Length::m(stack.carry_m))
        .input("k", "hook above the load's underside", Length::m(stack.hook_m))
        .input("b", "block above the hook", Length::m(stack.block_m))
        .input("t", "two-block margin", Length::m(stack.two_block_m));
        let height = Working::new(
            "boom head above grade",
            "z",
            "h + √(L² − (R + a)²)",
            head,
            "right triangle of the boom",
        )
        .input("h", "boom pin above grade", Length::m(boom.pin_height_m))
        .input("L", "boom length", Length::m(boom.length_m))
        .input("R", "radius with its allowance", end.planned_radius)
        .input("a", "pin behind the slew axis", Length::m(boom.pin_back_m));
        Finding::at_least(Check::Headroom, words, needed.into(), head.into()).working([stack, height])
    }

    fn chart(&self, limits: &Limits, boom_m: f64, hanging: Hanging, end: &mut EndResult, findings: &mut Vec<Finding>) {
        let words = end.end.words();
        let Some(table) = &self.table else {
            findings.push(Finding::not_checked(Check::ChartUse, words, "the rating chart"));
            return;
        };
        let rated = table.rating(end.planned_radius, Length::m(boom_m));
        if let Some(reason) = rated.reason(self.length_unit) {
            findings.push(match rated {
                Rated::Unconfirmed { .. } => Finding::not_checked(Check::ChartUse, words, reason.clone()),
                _ => Finding::of(Check::ChartUse, format!("{words}: {reason}"), Outcome::Outside),
            });
            end.no_rating = Some(reason);
        }
        let below_head_m = || Some((end.head?.to_m() - end.floor_m - hanging.hook_above_m?).max(0.0));
        match self.gross(hanging, below_head_m()) {
            Ok(lines) => {
                end.gross = Some(lines.iter().filter(|l| !l.in_chart).map(|l| l.mass).sum());
                end.gross_lines = lines;
            }
            Err(missing) => findings.push(Finding::not_checked(Check::ChartUse, words, missing)),
        }
        let Rated::Capacity {
            mass,
            row_radius,
            next_row,
            ..
        } = rated
        else {
            return;
        };
        end.row = Some(row_radius);
        end.rating = Some(mass);
        let Some(gross) = end.gross else { return };
        let Some(limit) = limits.chart_use.not_negative() else {
            findings.push(Finding::not_checked(
                Check::ChartUse,
                words,
                "the limit on the use of the chart is not entered",
            ));
            return;
        };
        let used = Ratio::of(gross / mass);
        end.use_of_chart = Some(used);
        end.next_row_use = next_row.and_then(|(_, mass)| mass).map(|mass| Ratio::of(gross / mass));
        end.may_move = may_move(table, Length::m(boom_m), end.planned_radius, gross, limit);
        findings.push(use_finding(end, (row_radius, mass), gross, used, limit, limits));
    }

    /// The gross load, line by line, with the rope between head and hook as worked out, m; or what is missing to know it.
    fn gross(&self, hanging: Hanging, below_head_m: Option<f64>) -> Result<Vec<GrossLine>, String> {
        let crane = self.crane.ok_or("the crane")?;
        let planned_kg = hanging.planned_kg.ok_or("the weight of the load")?;
        let rigging_kg = hanging.rigging_kg.ok_or("the weight of the rigging")?;
        let block = crane.block_mass.not_negative().ok_or("weight of the hook block")?;
        let stowed = crane
            .stowed
            .get_or(|| Some(Mass::ZERO))
            .ok_or("weight of what is stowed on the boom")?;
        let rope = rope(crane, below_head_m)?;
        let line = |name, mass, in_chart| GrossLine { name, mass, in_chart };
        Ok(vec![
            line("Load with its contingency", Mass::kg(planned_kg), false),
            line("Rigging below the block", Mass::kg(rigging_kg), self.includes.rigging),
            line("Hook block", block, self.includes.hook_block),
            line("Hoist rope below the head", rope, self.includes.hanging_rope),
            line("Stowed on the boom", stowed, self.includes.stowed_attachments),
        ])
    }
}

/// Hoist rope below the head: `m = n·q·l`.
fn rope(crane: &Crane, below_head_m: Option<f64>) -> Result<Mass, String> {
    let per_m = crane
        .rope
        .not_negative()
        .ok_or("weight of the hoist rope per length")?
        .to_kg_per_m();
    let length = crane.hanging_rope.get_or(|| below_head_m.map(Length::m));
    let length_m = length
        .ok_or("length of the hanging rope, or head and hook height to work it out")?
        .to_m();
    Ok(Mass::kg(f64::from(crane.parts) * per_m * length_m))
}

fn use_finding(
    end: &EndResult,
    (row, rating): (Length, Mass),
    gross: Mass,
    used: Ratio,
    limit: Ratio,
    limits: &Limits,
) -> Finding {
    let words = end.end.words();
    let working = Working::new(
        "use of the chart",
        "u",
        "G/C",
        used,
        "the rating at the next larger radius of the chart, never between rows",
    )
    .input("G", "gross load", gross)
    .input("C", "chart rating", rating);
    let row = Working::new(
        "radius read from the chart",
        "R",
        "the next row at or beyond r",
        row,
        "US Army TM 5-3810-305-10 note 19",
    )
    .input("r", "radius with its allowance", end.planned_radius);
    let mut finding = Finding::at_most(Check::ChartUse, words, used.into(), limit.into()).working([working, row]);
    let tolerance = limits.set_up_tolerance.not_negative();
    if finding.outcome.is_within()
        && let (Some(slack), Some(tolerance)) = (end.may_move, tolerance)
        && slack < tolerance
    {
        finding = finding.caution(format!(
            "only {} of slack before the limit is passed, less than the set-up tolerance of {}: tape the crane's place and run it again",
            both(slack.to_m()),
            both(tolerance.to_m())
        ));
    }
    finding
}

/// How much the radius may grow before gross load passes the limit of the rating, m; `None` where it is passed already.
fn may_move(table: &RatingTable, boom: Length, radius: Length, gross: Mass, limit: Ratio) -> Option<Length> {
    let mut largest = None;
    for row in table.radii().filter(|r| r.to_m() >= radius.to_m() * (1.0 - 1e-9)) {
        let Some(rating) = table.rating(row, boom).capacity() else {
            break;
        };
        if exceeds(gross / rating, limit.to_of()) {
            break;
        }
        largest = Some((row - radius).max(Length::ZERO));
    }
    largest
}

fn gap_finding(
    limits: &Limits,
    boom: &Boom,
    at_m: [f64; 2],
    target: &Target,
    standing: &[(String, Block)],
    end: &mut EndResult,
) -> Finding {
    let words = target.end.words();
    let gap_m = |block: &Block| block.gap_m(boom, at_m, target.hook_m);
    let carried = Block::new(target.outline_m.clone(), end.top_m);
    let load = gap_m(&carried).map(|m| (m, "the load"));
    let set = standing
        .iter()
        .filter_map(|(name, block)| Some((gap_m(block)?, name.as_str())));
    let Some((least_m, nearest)) = load.into_iter().chain(set).min_by(|a, b| a.0.total_cmp(&b.0)) else {
        return Finding::of(Check::BoomGap, format!("{words}: nothing near"), Outcome::Within);
    };
    end.boom_gap = Some(Length::m(least_m));
    let subject = format!("{words}, nearest {nearest}");
    let Some(limit) = limits.boom_gap.not_negative() else {
        return Finding::not_checked(Check::BoomGap, subject, "the smallest gap is not entered in the limits");
    };
    let working = Working::new(
        "gap from the boom's underside",
        "g",
        "distance of the boom's axis from the top edges, less half the boom's depth",
        Length::m(least_m),
        "distance of two straight lines in space",
    )
    .input("d", "depth of the boom", Amount::Length(Length::m(boom.depth_m)));
    Finding::at_least(Check::BoomGap, subject, limit.into(), Length::m(least_m).into()).working([working])
}
