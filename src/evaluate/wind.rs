//! Wind on the load: the gust at which each lift stops, and what may still be lifted in a given wind.

use super::crane_side::CraneSide;
use super::further::PlacedLift;
use super::{Assessment, LiftResult};
use crate::check::{Amount, Check, Finding, Outcome, Working};
use crate::crane::{force_n, gust_factor, largest_face_m2, permitted_m_s, pressure_pa};
use crate::plan::{Lift, Load, Plan, WeighedWhen};
use crate::quantity::{Area, Force, Length, Mass, Pressure, Speed};

/// Below this limit a weather day is planned, m/s (common practice, no source).
const WEATHER_DAY_M_S: f64 = 5.0;

/// What the wind may do to one lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindStop {
    /// The gust at which it stops.
    pub speed: Speed,
    /// The gust at which it would stop, the broad side to the wind and no more.
    pub broadside: Option<Speed>,
    /// The lightest credible load with its rigging.
    pub light: Mass,
    /// The largest face.
    pub face: Area,
    /// Push of the wind on it at that gust.
    pub push: Force,
    /// Wind of the chart.
    pub chart: Speed,
    /// Force coefficient.
    pub drag: f64,
}

/// The lightest that a load may credibly be, kg: as weighed after loading; otherwise as known less its contingency.
fn lightest_kg(plan: &Plan, lift: &Lift, result: &LiftResult) -> Option<f64> {
    let bare_kg = result.load.bare_kg?;
    let weighed = match &lift.load {
        Load::Box { id } => plan
            .house_box(id)
            .and_then(|house| house.ticket.as_ref())
            .is_some_and(|ticket| ticket.weighed == WeighedWhen::AfterLoading),
        Load::RoofRaise { .. } | Load::Bundle { .. } => false,
    };
    let less = if weighed { 0.0 } else { result.load.contingency?.to_of() };
    Some(bare_kg * (1.0 - less).max(0.0) + result.load.rigging_kg?)
}

/// The face that the wind takes hold of, and the broad side alone, m².
fn faces_m2(plan: &Plan, lift: &Lift) -> Result<(f64, Option<f64>), String> {
    if !lift.wind_area.is_blank() {
        let area = lift.wind_area.not_negative().filter(|a| a.to_m2() > 0.0);
        return Ok((
            area.ok_or("the largest face typed in the lift cannot be read")?.to_m2(),
            None,
        ));
    }
    let Load::Box { id } = &lift.load else {
        return Err("the largest face that the load shows to the wind: enter it in the lift".into());
    };
    let house = plan
        .house_box(id)
        .ok_or_else(|| format!("box {id} is not in the plan"))?;
    let size = house
        .length
        .not_negative()
        .zip(house.width.not_negative())
        .zip(house.height.not_negative())
        .filter(|((l, _), h)| l.to_m() > 0.0 && h.to_m() > 0.0);
    let ((l, w), h) = size.ok_or_else(|| format!("length, width and height of box {id}"))?;
    let broadside_m2 = l.to_m().max(w.to_m()) * h.to_m();
    Ok((largest_face_m2(l.to_m(), w.to_m(), h.to_m()), Some(broadside_m2)))
}

/// The wind stop of a lift, or what is missing.
pub fn wind_stop(plan: &Plan, crane: &CraneSide<'_>, lift: &Lift, result: &LiftResult) -> Result<WindStop, String> {
    let crane = crane.crane.ok_or("the crane")?;
    let chart = crane
        .chart_wind
        .not_negative()
        .ok_or("the wind speed up to which the crane's chart holds")?;
    let drag = plan.limits.wind_drag.not_negative().filter(|drag| drag.to_of() > 0.0);
    let drag = drag.ok_or("the wind force coefficient c_w in the limits")?.to_of();
    let (face_m2, broadside_m2) = faces_m2(plan, lift)?;
    let light_kg = lightest_kg(plan, lift, result).ok_or(NO_WEIGHT)?;
    let permitted = |area_m2: f64| permitted_m_s(chart.to_m_per_s(), light_kg, drag, area_m2);
    let speed_m_s = permitted(face_m2);
    Ok(WindStop {
        speed: Speed::m_per_s(speed_m_s),
        broadside: broadside_m2.map(|area| Speed::m_per_s(permitted(area))),
        light: Mass::kg(light_kg),
        face: Area::m2(face_m2),
        push: Force::n(force_n(speed_m_s, drag, face_m2)),
        chart,
        drag,
    })
}

/// The same for a view, lift by lift in the plan's order.
pub fn wind_stops(plan: &Plan, assessment: &Assessment) -> Vec<Result<WindStop, String>> {
    let crane = super::crane_side::resolve(plan);
    let both = plan.lifts.iter().zip(&assessment.lifts);
    both.map(|(lift, result)| {
        if is_hinged(lift) {
            Err(HINGED.to_owned())
        } else {
            wind_stop(plan, &crane, lift, result)
        }
    })
    .collect()
}

const NO_WEIGHT: &str = "the weight of load and rigging";
const HINGED: &str = "lift director and roof maker set the wind for a hinged panel";

fn is_hinged(lift: &Lift) -> bool {
    matches!(lift.load, Load::RoofRaise { .. }) && lift.wind_area.is_blank()
}

/// Findings on wind for one lift.
pub fn findings(placed: &PlacedLift<'_>) -> Vec<Finding> {
    let lift = &placed.plan.lifts[placed.index];
    if is_hinged(lift) {
        let until = HINGED.into();
        return vec![Finding::of(Check::Wind, "the raised roof", Outcome::Held { until })];
    }
    match wind_stop(placed.plan, placed.crane, lift, placed.lift) {
        // told already where the load is weighed
        Err(missing) if missing == NO_WEIGHT => Vec::new(),
        Err(missing) => vec![Finding::not_checked(Check::Wind, "the load", missing)],
        Ok(stop) => against(placed, &stop),
    }
}

/// The crane's stop and that of tag lines and landing, against the wind that is expected where somebody has said it.
fn against(placed: &PlacedLift<'_>, stop: &WindStop) -> Vec<Finding> {
    let working = working(stop);
    let landing = placed.plan.limits.wind_landing.not_negative();
    let lower = landing.map_or(stop.speed, |landing| landing.min(stop.speed));
    let expected = &placed.plan.set_up.wind;
    let weather_day = |finding: Finding| {
        if lower.to_m_per_s() < WEATHER_DAY_M_S {
            finding.caution("under 5 m/s (11 mph): plan a weather day")
        } else {
            finding
        }
    };
    if expected.is_blank() {
        let subject = format!(
            "stop at a gust of {:.1} m/s ({:.0} mph) at the boom head",
            floor(lower.to_m_per_s(), 10.0),
            floor(lower.to_mph(), 1.0)
        );
        return vec![weather_day(
            Finding::of(Check::Wind, subject, Outcome::Within).working(working),
        )];
    }
    let head = placed.lift.ends.iter().filter_map(|end| end.head).reduce(Length::max);
    let (Some(mean), Some(head)) = (expected.not_negative(), head) else {
        let missing = "the wind that is expected, and the height of the boom head";
        return vec![Finding::not_checked(Check::Wind, "gust at the boom head", missing)];
    };
    let factor = gust_factor(head.to_m());
    let gust = mean * factor;
    let gust_line = Working::new(
        "gust at the boom head",
        "v(z)",
        "((z/10)^0.14 + 0.4)·v₁₀",
        Amount::Speed(gust),
        "EN 13000 (from memory), from a ten-minute mean",
    )
    .input("z", "boom head above grade", head)
    .input("v₁₀", "mean that is expected, 10 m up", Amount::Speed(mean));
    let crane = Finding::at_most(
        Check::Wind,
        "gust at the boom head",
        Amount::Speed(gust),
        Amount::Speed(stop.speed),
    );
    let mut findings = vec![weather_day(crane.working(working).working([gust_line]))];
    findings.push(match landing {
        Some(landing) => Finding::at_most(
            Check::Wind,
            "gust on tag lines and landing",
            Amount::Speed(gust),
            Amount::Speed(landing),
        ),
        None => Finding::not_checked(Check::Wind, "gust on tag lines and landing", "its limit"),
    });
    findings
}

/// Rounded down for a sentence.
fn floor(value: f64, parts: f64) -> f64 {
    (value * parts + 1e-9).floor() / parts
}

fn working(stop: &WindStop) -> Vec<Working> {
    let q = Pressure::pa(pressure_pa(stop.speed.to_m_per_s()));
    let mut lines =
        vec![
        Working::new(
            "gust at which the load stops, over its largest face",
            "v",
            "v_c·√(0.0012·m/(c_w·A)), at most v_c",
            Amount::Speed(stop.speed),
            "EN 13000 (from memory): charts allow 1.2 m² a tonne, shape included; it guards the crane, not the landing",
        )
        .input("v_c", "the chart's wind", Amount::Speed(stop.chart))
        .input("m", "lightest credible load with its rigging", stop.light)
        .input("c_w", "force coefficient", Amount::Factor(stop.drag))
        .input("A", "largest face, over the diagonal, m²", Amount::Factor(stop.face.to_m2())),
    ];
    lines.extend(stop.broadside.map(|speed| {
        Working::new(
            "the same with the broad side alone, A = L·H",
            "v_b",
            "v_c·√(0.0012·m/(c_w·L·H))",
            Amount::Speed(speed),
            "for comparison: a box that turns shows more than its side",
        )
    }));
    lines.push(
        Working::new("push of that wind on the load", "F", "q·c_w·A", stop.push, "q = v²/1.6").input(
            "q",
            "pressure of the wind",
            Amount::Pressure(q),
        ),
    );
    lines
}
