//! The day of a plan: its steps with their times, what must come before what, when carriers come, and what clashes with what is set.

use super::{Assessment, EndKind};
use crate::check::{Check, Finding, Outcome};
use crate::day::{Band, Clock, Job, Ordered, Pause, Work, changes, fewest_changes, run};
use crate::geometry::{contains, distance_m, polygon_distance_m, rectangle};
use crate::hire::{Basis, Told, Wanted, read_rate};
use crate::plan::{HouseBox, Id, Load, Plan, RateFor, Rig, Step, StepTime};
use crate::quantity::{Duration, Entry, Reading};

/// Nobody plans a step longer than this, min.
const LONGEST_STEP_MIN: f64 = 1440.0;
/// Boxes that overlap by less than this in plan stand beside each other, m.
const BESIDE_M: f64 = 0.05;

/// One thing that must come before another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    /// The lift's row that comes first.
    pub first: usize,
    /// The lift's row that follows.
    pub then: usize,
    /// Why.
    pub why: String,
}

/// One step of the crane's day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayStep {
    /// What kind.
    pub step: Step,
    /// The lift's row in the plan that it belongs to.
    pub lift: Option<usize>,
    /// In words: "lift 3, box C1".
    pub words: String,
    /// How long, min.
    pub takes: Band,
    /// When it begins, minutes from midnight; `None` where the day has no start.
    pub begins: Option<Band>,
    /// When it ends.
    pub ends: Option<Band>,
}

/// When a carrier is to be on its spot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Carrier {
    /// The lift's row in the plan.
    pub lift: usize,
    /// Its spot.
    pub spot: Id,
    /// At the latest, minutes from midnight: so that nobody waits even if all before it goes as well as in 1 day of 10.
    pub latest_min: u32,
    /// Not before that, because the spot is taken until then, even if all before goes as badly as in 1 day of 10; `None` where it is free.
    pub free_min: Option<u32>,
    /// When it is told to come.
    pub told_min: Option<u32>,
    /// What does not fit.
    pub clash: Option<String>,
}

/// The day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayPlan {
    /// The steps in order, as far as their minutes are known.
    pub steps: Vec<DayStep>,
    /// When the crane is done, minutes from midnight: in 1 day of 10 by `low`, in 5 by `likely`, in 9 by `high`.
    pub done: Option<Band>,
    /// The same if every step went as at best, as a rule, as at worst together.
    pub together: Option<Band>,
    /// The crane's hours on site at best, as a rule and at worst, without breaks that are not billed, s.
    pub site_s: Option<[i64; 3]>,
    /// Chance of being done in light, from 0 to 1.
    pub in_light: Option<f64>,
    /// First and last light, minutes from midnight.
    pub light: [Option<u32>; 2],
    /// From when on overtime is paid, where a rate says after how many hours on site.
    pub overtime_min: Option<u32>,
    /// Breaks: from when on and how long, min.
    pub pauses: Vec<Pause>,
    /// When carriers come.
    pub carriers: Vec<Carrier>,
    /// What is wrong with the order.
    pub conflicts: Vec<String>,
    /// How often the rig changes.
    pub rig_changes: usize,
    /// Minutes and times that are missing or cannot be read.
    pub asked: Vec<String>,
    /// What else to know: light, carriers.
    pub cautions: Vec<String>,
}

/// A time of day, minutes from midnight: "6:05", "06:05", "18.30", "6 h 05", "6:05 am", "6 pm".
///
/// # Errors
/// What was read and how to write it; `Ok(None)` for blank.
pub fn read_clock(text: &str) -> Result<Option<u32>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let wrong = || format!("read \"{text}\": expected a time of day such as 06:30 or 6:30 pm");
    let half = |words: &str| -> Option<(usize, u32)> {
        let tail = words.get(words.len().checked_sub(2)?..)?;
        if tail.eq_ignore_ascii_case("am") {
            Some((words.len() - 2, 0))
        } else if tail.eq_ignore_ascii_case("pm") {
            Some((words.len() - 2, 12))
        } else {
            None
        }
    };
    let (figures, afternoon) = half(text).map_or((text, None), |(end, add)| (text[..end].trim(), Some(add)));
    let mut parts = figures.split([':', '.', 'h']).map(str::trim);
    let whole = |part: Option<&str>| {
        part.filter(|p| !p.is_empty() && p.len() <= 2)
            .and_then(|p| p.parse::<u32>().ok())
    };
    let hours = whole(parts.next()).ok_or_else(wrong)?;
    let minutes = match parts.next() {
        None if afternoon.is_some() => 0,
        None => return Err(wrong()),
        Some("") => 0,
        part => whole(part).ok_or_else(wrong)?,
    };
    let hours = match afternoon {
        Some(_) if hours == 0 || hours > 12 => return Err(wrong()),
        Some(add) => hours % 12 + add,
        None => hours,
    };
    if hours > 23 || minutes > 59 || parts.next().is_some() {
        return Err(wrong());
    }
    Ok(Some(hours * 60 + minutes))
}

/// "07:05"; beyond midnight "00:20 the next day".
pub fn clock_words(minutes: u32) -> String {
    let next = match minutes / 1440 {
        0 => String::new(),
        1 => " the next day".into(),
        days => format!(" after {days} days"),
    };
    format!("{:02}:{:02}{next}", minutes / 60 % 24, minutes % 60)
}

/// Outline in plan and height of a box's floor as it is set.
fn set_outline(house: &HouseBox) -> Option<([[f64; 2]; 4], f64)> {
    let heading = house.set_heading.get()?;
    let size = [house.length.not_negative()?.to_m(), house.width.not_negative()?.to_m()];
    let outline = rectangle(
        house.set_corner.metres()?,
        (heading.cos(), heading.sin()),
        [0.0, 0.0],
        size,
    );
    Some((outline, house.set_floor.get()?.to_m()))
}

/// Whether two convex outlines overlap by more than [`BESIDE_M`]: no direction of an edge keeps them apart.
fn overlap(a: &[[f64; 2]], b: &[[f64; 2]]) -> bool {
    let kept_apart = |outline: &[[f64; 2]]| {
        let ends = outline.iter().zip(outline.iter().cycle().skip(1));
        ends.filter(|(p, q)| distance_m(**p, **q) > 0.0).any(|(p, q)| {
            let length = distance_m(*p, *q);
            let across = [(q[1] - p[1]) / length, (p[0] - q[0]) / length];
            let along = |points: &[[f64; 2]]| {
                let at = points.iter().map(|p| p[0] * across[0] + p[1] * across[1]);
                at.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| {
                    [low.min(x), high.max(x)]
                })
            };
            let ([a0, a1], [b0, b1]) = (along(a), along(b));
            a1.min(b1) - a0.max(b0) <= BESIDE_M
        })
    };
    !kept_apart(a) && !kept_apart(b)
}

/// What must come before what: a box before the box above it, a box before its roof, boxes before a bundle that lands on them, and what people wrote.
pub fn rules(plan: &Plan) -> Vec<Rule> {
    (0..plan.lifts.len()).flat_map(|then| rules_of(plan, then)).collect()
}

/// The same for one lift: what must be done before it.
fn rules_of(plan: &Plan, then: usize) -> Vec<Rule> {
    let boxes = || {
        plan.lifts
            .iter()
            .enumerate()
            .filter_map(|(index, lift)| match &lift.load {
                Load::Box { id } if index != then => Some((index, id)),
                _ => None,
            })
    };
    let outline_of = |id: &Id| plan.house_box(id).and_then(set_outline);
    let mut rules = Vec::new();
    let mut add = |first: usize, why: String| {
        if !rules.iter().any(|rule: &Rule| rule.first == first) {
            rules.push(Rule { first, then, why });
        }
    };
    match &plan.lifts[then].load {
        Load::Box { id } => {
            if let Some((upper, floor_m)) = outline_of(id) {
                let lower = boxes().filter(|(_, other)| {
                    outline_of(other)
                        .is_some_and(|(outline, low_m)| low_m < floor_m - BESIDE_M && overlap(&upper, &outline))
                });
                lower.for_each(|(first, other)| add(first, format!("box {id} stands on box {other}")));
            }
        }
        Load::RoofRaise { on, .. } => {
            if let Some((first, _)) = boxes().find(|(_, id)| *id == on) {
                add(first, format!("the roof belongs to box {on}"));
            }
        }
        Load::Bundle { name, set, .. } => {
            if let Some(at) = set.metres() {
                let below = boxes().filter(|(_, id)| outline_of(id).is_some_and(|(outline, _)| contains(&outline, at)));
                below.for_each(|(first, id)| add(first, format!("{name} is set down on box {id}")));
            }
        }
    }
    for rule in plan
        .day
        .before
        .iter()
        .filter(|rule| rule.then == plan.lifts[then].id && rule.first != rule.then)
    {
        if let Some(first) = plan.lifts.iter().position(|lift| lift.id == rule.first) {
            let why = rule.why.trim();
            add(
                first,
                if why.is_empty() {
                    "as entered".to_owned()
                } else {
                    why.to_owned()
                },
            );
        }
    }
    rules
}

/// Rules that the plan's order breaks, in words.
fn broken(plan: &Plan, rules: &[Rule]) -> Vec<String> {
    let late = rules.iter().filter(|rule| rule.first > rule.then);
    late.map(|rule| {
        let [first, then] = [rule.first, rule.then].map(|index| lift_words(plan, index));
        format!("{then} comes before {first}: {}; move it down", rule.why)
    })
    .collect()
}

/// The order as a check: each lift, by its row, before which something must be there that is set later.
pub fn order_findings(plan: &Plan) -> Vec<(usize, Finding)> {
    let late = rules(plan).into_iter().filter(|rule| rule.first > rule.then);
    late.map(|rule| {
        let subject = format!("{} is set later: {}", lift_words(plan, rule.first), rule.why);
        (rule.then, Finding::of(Check::Order, subject, Outcome::Outside))
    })
    .collect()
}

/// "lift 3, box C1".
fn lift_words(plan: &Plan, index: usize) -> String {
    let lift = &plan.lifts[index];
    let what = match &lift.load {
        Load::Box { id } => format!("box {id}"),
        Load::RoofRaise { on, .. } => format!("roof of {on}"),
        Load::Bundle { name, .. } => name.clone(),
    };
    format!("lift {}, {what}", lift.number)
}

/// Which rig each lift hangs on: lifts whose rigs are made of the same pieces in the same arrangement need no change.
fn rig_of_each(plan: &Plan) -> Vec<usize> {
    let alike = |a: Option<&Rig>, b: Option<&Rig>| match (a, b) {
        (Some(a), Some(b)) => a.id == b.id || (a.arrangement == b.arrangement && a.pieces == b.pieces),
        _ => false,
    };
    let mut firsts: Vec<usize> = Vec::new();
    let mut of_each = Vec::new();
    for (index, lift) in plan.lifts.iter().enumerate() {
        let same = |&first: &usize| {
            plan.lifts[first].rig == lift.rig || alike(plan.rig(&plan.lifts[first].rig), plan.rig(&lift.rig))
        };
        match firsts.iter().position(same) {
            Some(rig) => of_each.push(rig),
            None => {
                of_each.push(firsts.len());
                firsts.push(index);
            }
        }
    }
    of_each
}

fn jobs(plan: &Plan) -> Vec<Job> {
    let rules = rules(plan);
    let rigs = rig_of_each(plan);
    let after = |index: usize| {
        rules
            .iter()
            .filter(|rule| rule.then == index && rule.first < 64)
            .fold(0, |bits, rule| bits | 1 << rule.first)
    };
    rigs.into_iter()
        .enumerate()
        .map(|(index, rig)| Job {
            rig,
            after: after(index),
        })
        .collect()
}

/// The order with the fewest changes of the rig, and how many the plan's own has.
///
/// # Errors
/// Lifts that wait for each other, or more of them than an order can be searched for.
pub fn fewer_changes(plan: &Plan) -> Result<(Ordered, usize), String> {
    let jobs = jobs(plan);
    let own: Vec<usize> = (0..jobs.len()).collect();
    match fewest_changes(&jobs) {
        Ok(found) => Ok((found, changes(&jobs, &own))),
        Err(circle) => {
            let lifts: Vec<String> = circle.into_iter().map(|index| lift_words(plan, index)).collect();
            Err(format!(
                "{} cannot be put in order: each waits for another of them; take one of the rules out",
                lifts.join(" and ")
            ))
        }
    }
}

/// Puts the lifts into an order and numbers them anew from 1.
pub fn reorder(plan: &mut Plan, order: &[usize]) {
    let lifts: Vec<_> = order
        .iter()
        .filter_map(|&index| plan.lifts.get(index).cloned())
        .collect();
    if lifts.len() == plan.lifts.len() {
        *plan.lifts = lifts;
        for (number, lift) in (1..).zip(plan.lifts.iter_mut()) {
            lift.number = number;
        }
    }
}

/// A step's words.
pub const fn step_words(step: Step) -> &'static str {
    match step {
        Step::SetUp => "crane is set up",
        Step::Box => "a box is set",
        Step::FirstBox => "first box, beyond that",
        Step::RoofRaise => "a roof is raised",
        Step::Bundle => "a bundle is set down",
        Step::ReRig => "rig is changed",
        Step::Carrier => "carriers change on a spot",
        Step::Ready => "carrier is made ready on its spot",
        Step::StripDown => "crane is taken down",
    }
}

/// The kind of step that a lift is.
pub const fn step_of(load: &Load) -> Step {
    match load {
        Load::Box { .. } => Step::Box,
        Load::RoofRaise { .. } => Step::RoofRaise,
        Load::Bundle { .. } => Step::Bundle,
    }
}

/// How long a step takes with a crane at best, as a rule and at worst, s.
///
/// # Errors
/// What is missing.
pub fn step_times(plan: &Plan, crane: &Id, step: Step) -> Result<[i64; 3], Vec<String>> {
    let mut reader = Reader {
        plan,
        crane,
        asked: Vec::new(),
    };
    reader.times(step).ok_or(reader.asked)
}

/// Low, likely and high of a step, s.
type Times = [i64; 3];

/// Reads minutes and times of the plan, and gathers what is missing.
struct Reader<'a> {
    plan: &'a Plan,
    crane: &'a Id,
    asked: Vec<String>,
}

impl Reader<'_> {
    fn row(&self, step: Step) -> Option<&StepTime> {
        let rows = || self.plan.day.minutes.iter().filter(move |row| row.step == step);
        rows()
            .find(|row| row.crane == *self.crane && !row.crane.is_empty())
            .or_else(|| rows().find(|row| row.crane.is_empty()))
    }

    fn time(&mut self, words: &str, entry: &Entry<Duration>) -> Option<i64> {
        let longest = Duration::minute(LONGEST_STEP_MIN);
        match entry.not_negative().filter(|time| *time <= longest) {
            Some(time) => Some(libm::round(time.to_s()) as i64),
            None => {
                let read = if entry.is_blank() {
                    "no minutes entered".into()
                } else {
                    format!("read \"{}\"", entry.text())
                };
                self.ask(format!(
                    "{words}: {read}; write how long it takes, such as 45 min, 0 min if it takes none"
                ));
                None
            }
        }
    }

    fn ask(&mut self, words: String) {
        if !self.asked.contains(&words) {
            self.asked.push(words);
        }
    }

    /// How long a step takes; blank at best or at worst is as a rule.
    fn times(&mut self, step: Step) -> Option<Times> {
        let words = step_words(step);
        let Some(row) = self.row(step).cloned() else {
            self.ask(format!(
                "{words}: no minutes entered; write how long it takes, such as 45 min, 0 min if it takes none"
            ));
            return None;
        };
        let likely = self.time(words, &row.likely)?;
        let low = if row.low.is_blank() {
            likely
        } else {
            self.time(words, &row.low)?
        };
        let high = if row.high.is_blank() {
            likely
        } else {
            self.time(words, &row.high)?
        };
        if low > likely || likely > high {
            self.ask(format!(
                "{words}: read {}, {} and {} min: expected at best, as a rule, at worst in that order",
                low / 60,
                likely / 60,
                high / 60
            ));
            return None;
        }
        Some([low, likely, high])
    }

    fn clock(&mut self, what: &str, text: &str) -> Option<u32> {
        match read_clock(text) {
            Ok(minute) => minute,
            Err(message) => {
                self.ask(format!("{what}: {message}"));
                None
            }
        }
    }
}

fn band(times: Times) -> Band {
    let [low, likely, high] = times.map(|s| ((s + 30) / 60).max(0) as u32);
    Band { low, likely, high }
}

/// A step before it has its place on the clock.
struct Planned {
    step: Step,
    lift: Option<usize>,
    words: String,
    times: Times,
    not_before_min: Option<u32>,
}

/// The spot that a lift is picked from, as the assessment chose it.
fn spot_of(assessment: &Assessment, index: usize) -> Option<&Id> {
    assessment.lifts.get(index)?.spot.as_ref()
}

/// The steps in order; `None` among them where minutes are missing.
fn planned(reader: &mut Reader<'_>, assessment: &Assessment, told: &[(usize, u32)]) -> Option<Vec<Planned>> {
    let plan = reader.plan;
    let rigs = rig_of_each(plan);
    let mut steps = Vec::new();
    let mut whole = true;
    let mut first_box = true;
    let mut add =
        |reader: &mut Reader<'_>, step: Step, lift: Option<usize>, words: String, not_before_min: Option<u32>| {
            match reader.times(step) {
                Some(times) => steps.push(Planned {
                    step,
                    lift,
                    words,
                    times,
                    not_before_min,
                }),
                None => whole = false,
            }
        };
    add(reader, Step::SetUp, None, "set up the crane".into(), None);
    for (index, lift) in plan.lifts.iter().enumerate() {
        let words = lift_words(plan, index);
        if index > 0 && rigs[index] != rigs[index - 1] {
            add(
                reader,
                Step::ReRig,
                Some(index),
                format!("change the rig for {words}"),
                None,
            );
        }
        let spot = spot_of(assessment, index);
        if index > 0 && spot.is_some() && spot == spot_of(assessment, index - 1) {
            add(
                reader,
                Step::Carrier,
                Some(index),
                format!("carriers change for {words}"),
                None,
            );
        }
        let kind = step_of(&lift.load);
        let comes = told.iter().find(|(at, _)| *at == index).map(|(_, minute)| *minute);
        add(reader, kind, Some(index), words.clone(), comes);
        if kind == Step::Box && core::mem::replace(&mut first_box, false) {
            add(
                reader,
                Step::FirstBox,
                Some(index),
                format!("{words}, squaring the first box"),
                None,
            );
        }
    }
    add(reader, Step::StripDown, None, "take the crane down".into(), None);
    whole.then_some(steps)
}

/// One course of the day with every step at one side of its band, s from midnight: when the crane is done, and what of it was breaks not billed.
fn course(start_s: i64, steps: &[Planned], pauses: &[(Pause, bool)], side: usize) -> (i64, i64) {
    let (mut now_s, mut unbilled_s) = (start_s, 0);
    let mut due = pauses.iter().peekable();
    for step in steps {
        while let Some((pause, billed)) = due.next_if(|(pause, _)| now_s >= i64::from(pause.at_min) * 60) {
            let takes_s = i64::from(pause.takes_min) * 60;
            now_s += takes_s;
            unbilled_s += if *billed { 0 } else { takes_s };
        }
        if let Some(minute) = step.not_before_min {
            now_s = now_s.max(i64::from(minute) * 60);
        }
        now_s += step.times[side];
    }
    (now_s, unbilled_s)
}

/// When the day begins, its breaks, when carriers are told to come.
struct Hours {
    start_min: Option<u32>,
    light: [Option<u32>; 2],
    pauses: Vec<(Pause, bool)>,
    told: Vec<(usize, u32)>,
}

fn times_of_day(reader: &mut Reader<'_>) -> Hours {
    let day = &*reader.plan.day;
    let start_min = reader.clock("crane on site", &day.start);
    if day.start.trim().is_empty() {
        reader.ask("crane on site: no time entered; write when the crane is there, such as 06:00".into());
    }
    let light = [
        reader.clock("light from", &day.light_from),
        reader.clock("light until", &day.light_to),
    ];
    let mut pauses: Vec<(Pause, bool)> = Vec::new();
    for pause in &day.breaks {
        let (at, takes) = (reader.clock("break", &pause.at), reader.time("break", &pause.length));
        if let (Some(at_min), Some(takes_s)) = (at, takes) {
            pauses.push((
                Pause {
                    at_min,
                    takes_min: band([takes_s; 3]).likely,
                },
                pause.billed,
            ));
        }
    }
    pauses.sort_by_key(|(pause, _)| pause.at_min);
    let mut told = Vec::new();
    for truck in &day.trucks {
        let Some(index) = reader.plan.lifts.iter().position(|lift| lift.id == truck.lift) else {
            reader.ask(format!(
                "carrier for \"{}\": no lift has that row's name; choose one that is in the plan",
                truck.lift
            ));
            continue;
        };
        if let Some(minute) = reader.clock(
            &format!("carrier of {}", lift_words(reader.plan, index)),
            &truck.arrives,
        ) {
            told.push((index, minute));
        }
    }
    Hours {
        start_min,
        light,
        pauses,
        told,
    }
}

/// The crane's hours on site at best, as a rule and at worst, s, for a crane that need not be the one set up.
///
/// # Errors
/// What is missing.
pub fn hours_on_site(plan: &Plan, assessment: &Assessment, crane: &Id) -> Result<[i64; 3], Vec<String>> {
    let mut reader = Reader {
        plan,
        crane,
        asked: Vec::new(),
    };
    let times = times_of_day(&mut reader);
    let told = ready_times(&mut reader, &times.told);
    match (planned(&mut reader, assessment, &told), times.start_min) {
        (Some(steps), start) if reader.asked.is_empty() || only_start_is_missing(&reader.asked, start) => {
            Ok(on_site(start, &steps, &times.pauses))
        }
        _ => Err(reader.asked),
    }
}

/// Without the hour at which the crane comes there are no breaks and no carriers to wait for, but there are hours.
fn only_start_is_missing(asked: &[String], start_min: Option<u32>) -> bool {
    start_min.is_none() && asked.len() == 1
}

fn on_site(start_min: Option<u32>, steps: &[Planned], pauses: &[(Pause, bool)]) -> [i64; 3] {
    [0, 1, 2].map(|side| match start_min {
        Some(minute) => {
            let start_s = i64::from(minute) * 60;
            let (done_s, unbilled_s) = course(start_s, steps, pauses, side);
            done_s - start_s - unbilled_s
        }
        None => steps.iter().map(|step| step.times[side]).sum(),
    })
}

/// A carrier that is told to come later than its box is due is waited for until it is made ready.
fn ready_times(reader: &mut Reader<'_>, told: &[(usize, u32)]) -> Vec<(usize, u32)> {
    if told.is_empty() {
        return Vec::new();
    }
    let ready = reader.times(Step::Ready).map_or(0, |times| band(times).likely);
    told.iter().map(|(index, minute)| (*index, minute + ready)).collect()
}

/// The day as planned, for the crane that is set up.
pub fn day_plan(plan: &Plan, assessment: &Assessment) -> DayPlan {
    let mut reader = Reader {
        plan,
        crane: &plan.set_up.crane,
        asked: Vec::new(),
    };
    let times = times_of_day(&mut reader);
    let told = ready_times(&mut reader, &times.told);
    let planned = planned(&mut reader, assessment, &told);
    let rules = rules(plan);
    let mut conflicts = broken(plan, &rules);
    let of_order = |place: &str| place.starts_with("lift ");
    conflicts.extend(
        assessment
            .messages
            .iter()
            .filter(|m| m.blocks && of_order(&m.place))
            .map(|m| format!("{}: {}", m.place, m.text)),
    );
    let jobs = jobs(plan);
    let own: Vec<usize> = (0..jobs.len()).collect();
    let mut day = DayPlan {
        steps: Vec::new(),
        done: None,
        together: None,
        site_s: None,
        in_light: None,
        light: times.light,
        overtime_min: times
            .start_min
            .and_then(|start_min| overtime_from(plan, start_min, &times.pauses)),
        pauses: times.pauses.iter().map(|(pause, _)| *pause).collect(),
        carriers: Vec::new(),
        conflicts,
        rig_changes: changes(&jobs, &own),
        asked: Vec::new(),
        cautions: Vec::new(),
    };
    if let Some(steps) = planned {
        day.site_s = Some(on_site(times.start_min, &steps, &times.pauses));
        let clock = times.start_min.map(|start_min| {
            let works: Vec<Work> = steps
                .iter()
                .map(|s| Work {
                    takes: band(s.times),
                    not_before_min: s.not_before_min,
                })
                .collect();
            let [low, likely, high] =
                [0, 1, 2].map(|side| course(i64::from(start_min) * 60, &steps, &times.pauses, side).0);
            day.together = Some(band([low, likely, high]));
            run(start_min, &works, &day.pauses)
        });
        if let Some(clock) = &clock
            && let Some(done) = clock.ends.last()
        {
            day.done = Some(done.band());
            day.in_light = times.light[1].map(|dark| done.by(dark));
            day.carriers = carriers(&mut reader, assessment, &steps, clock, &times.told);
        }
        day.steps = in_time(steps, clock.as_ref());
    }
    day.cautions = cautions(&day);
    day.asked = reader.asked;
    day
}

/// The minute from which on overtime is paid: the hours on site that a rate names after the start, breaks that are not billed not counted.
fn overtime_from(plan: &Plan, start_min: u32, pauses: &[(Pause, bool)]) -> Option<u32> {
    let rows = || {
        plan.hire
            .rates
            .iter()
            .filter(|rate| rate.item == RateFor::OvertimeAfter)
    };
    let row = rows()
        .find(|rate| rate.crane == plan.set_up.crane)
        .or_else(|| rows().find(|rate| rate.crane.is_empty()))?;
    let Reading::Is(Told::Time(after_s, Some(Basis::OnSite))) =
        read_rate(&row.likely, Wanted::HoursCounted, plan.project.decimal)
    else {
        return None;
    };
    let mut from_min = start_min + u32::try_from(after_s / 60).ok()?;
    for (pause, billed) in pauses {
        if !billed && pause.at_min >= start_min && pause.at_min < from_min {
            from_min += pause.takes_min;
        }
    }
    Some(from_min)
}

fn in_time(steps: Vec<Planned>, clock: Option<&Clock>) -> Vec<DayStep> {
    let at = |spreads: fn(&Clock) -> &Vec<crate::day::Spread>, index: usize| {
        clock
            .and_then(|clock| spreads(clock).get(index))
            .map(crate::day::Spread::band)
    };
    let steps = steps.into_iter().enumerate();
    steps
        .map(|(index, step)| DayStep {
            step: step.step,
            lift: step.lift,
            words: step.words,
            takes: band(step.times),
            begins: at(|clock| &clock.begins, index),
            ends: at(|clock| &clock.ends, index),
        })
        .collect()
}

/// When each carrier is to be on its spot.
fn carriers(
    reader: &mut Reader<'_>,
    assessment: &Assessment,
    steps: &[Planned],
    clock: &Clock,
    told: &[(usize, u32)],
) -> Vec<Carrier> {
    let lifted = |index: usize| {
        steps
            .iter()
            .position(|step| step.lift == Some(index) && matches!(step.step, Step::Box | Step::Bundle))
    };
    let spots: Vec<(usize, Id, usize)> = (0..reader.plan.lifts.len())
        .filter_map(|index| Some((index, spot_of(assessment, index)?.clone(), lifted(index)?)))
        .collect();
    if spots.is_empty() {
        return Vec::new();
    }
    let Some(ready) = reader.times(Step::Ready).map(band) else {
        return Vec::new();
    };
    let mut carriers = Vec::new();
    for (at, (index, spot, step)) in spots.iter().enumerate() {
        let latest_min = clock.begins[*step].quantile(0.1).saturating_sub(ready.high);
        let before = spots[..at].iter().rev().find(|(_, other, _)| other == spot);
        let free_min = before.map(|(_, _, step)| clock.ends[*step].quantile(0.9));
        let told_min = told.iter().find(|(lift, _)| lift == index).map(|(_, minute)| *minute);
        let words = |index: usize| lift_words(reader.plan, index);
        let clash = told_min.and_then(|told| match (free_min, before) {
            (Some(free), Some((other, ..))) if told < free => {
                Some(format!("the carrier of {} is told for {} to {spot}, where that of {} may stand until {}", words(*index), clock_words(told), words(*other), clock_words(free)))
            }
            _ if told > latest_min => Some(format!(
                "the carrier of {} is told for {}: the crane may wait for it, which it does not where the carrier is there by {}",
                words(*index),
                clock_words(told),
                clock_words(latest_min)
            )),
            _ => None,
        });
        carriers.push(Carrier {
            lift: *index,
            spot: spot.clone(),
            latest_min,
            free_min,
            told_min,
            clash,
        });
    }
    carriers
}

fn cautions(day: &DayPlan) -> Vec<String> {
    let mut cautions: Vec<String> = day
        .carriers
        .iter()
        .filter_map(|carrier| carrier.clash.clone())
        .collect();
    if let (Some(share), [_, Some(dark)]) = (day.in_light, day.light)
        && share < 0.9
    {
        cautions.push(format!(
            "light ends at {}: by then the crane is done on {:.0} of 100 such days",
            clock_words(dark),
            100.0 * share
        ));
    }
    if let (Some(from), Some(done)) = (day.overtime_min, day.done)
        && done.high > from
    {
        cautions.push(format!("overtime is paid from {} on", clock_words(from)));
    }
    if let ([Some(light), _], Some(first)) = (
        day.light,
        day.steps.iter().find(|s| s.lift.is_some()).and_then(|s| s.begins),
    ) && first.low < light
    {
        cautions.push(format!(
            "the first lift may begin at {}, before there is light at {}",
            clock_words(first.low),
            clock_words(light)
        ));
    }
    cautions
}

/// The plan and its assessment as they stand at one lift: only what is set by then, and the box that is lifted.
pub fn at_step(plan: &Plan, assessment: &Assessment, index: usize) -> (Plan, Assessment) {
    let mut then = plan.clone();
    let shown = index.min(plan.lifts.len().saturating_sub(1));
    let there: Vec<Id> = plan
        .lifts
        .iter()
        .take(shown + 1)
        .filter_map(|lift| match &lift.load {
            Load::Box { id } => Some(id.clone()),
            _ => None,
        })
        .collect();
    then.boxes.retain(|house| there.contains(&house.id));
    then.lifts.truncate(shown + 1);
    let mut result = assessment.clone();
    result.boxes.retain(|house| there.contains(&house.id));
    result.lifts.truncate(shown + 1);
    result.headline.lift = result.headline.lift.filter(|lift| *lift <= shown);
    (then, result)
}

/// What a step clashes with on the ground, in words: the place of the load or its carrier against what is set and where the crane stands.
pub fn clashes(plan: &Plan, assessment: &Assessment, index: usize) -> Vec<String> {
    let Some(lift) = assessment.lifts.get(index) else {
        return Vec::new();
    };
    let earlier = plan.lifts.iter().take(index).filter_map(|lift| match &lift.load {
        Load::Box { id } => plan.house_box(id),
        _ => None,
    });
    let standing: Vec<(&Id, [[f64; 2]; 4], f64, f64)> = earlier
        .filter_map(|house| {
            let (outline, floor_m) = set_outline(house)?;
            Some((
                &house.id,
                outline,
                floor_m,
                floor_m + house.height.not_negative()?.to_m(),
            ))
        })
        .collect();
    let mut found = Vec::new();
    for end in &lift.ends {
        if end.outline_m.len() < 3 {
            continue;
        }
        let what = match end.end {
            EndKind::Pick => "its carrier",
            EndKind::Set => "its place",
        };
        for (id, outline, floor_m, top_m) in &standing {
            let same_height = match end.end {
                EndKind::Pick => *floor_m < end.floor_m + BESIDE_M,
                EndKind::Set => end.floor_m < *top_m - BESIDE_M && *floor_m <= end.floor_m + BESIDE_M,
            };
            if same_height && overlap(&end.outline_m, outline) {
                found.push(format!("{what} is where box {id} stands"));
            }
        }
        if assessment.crane.mats_m.iter().any(|mat| overlap(&end.outline_m, mat)) {
            found.push(format!("{what} is where the crane's mats lie"));
        }
    }
    if let (Some(at), Some(tail_m)) = (assessment.crane.at_m, assessment.crane.tail_m) {
        for (id, outline, ..) in &standing {
            if polygon_distance_m(&[at], outline).is_some_and(|away_m| away_m < tail_m) {
                found.push(format!("the tail swing reaches box {id}"));
            }
        }
    }
    found
}
