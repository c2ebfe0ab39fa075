//! The trial lift: which corner is low and by how much gives where the centre of gravity really is.

use super::hang::hang;
use super::hung::{HangingLoad, SlingSetUp};

/// Tilt is matched to this, rad: a hundredth of a millimetre in the length of any box.
const MATCHED_RAD: f64 = 1e-7;
/// Step for slopes, m.
const STEP_M: f64 = 1e-3;
/// Farthest that one step of the search moves the centre of gravity, m.
const FARTHEST_M: f64 = 0.5;
/// Steps of the search.
const MOST_STEPS: usize = 60;

/// Where the centre of gravity is along and across if the load hangs at these tilts, m, box frame; its height is taken as known.
///
/// Tilts in rad, above 0 where the second end or side hangs lower, as [`super::Level::tilt_rad`]. The whole hang is solved: Newton's method on
/// both tilts, slopes by differences. It holds while nothing touches a wall and legs are as long as entered.
///
/// # Errors
/// The load does not hang at all, or no place makes it hang so.
pub fn cg_from_tilt(load: &HangingLoad, set_up: &SlingSetUp, tilts_rad: [f64; 2]) -> Result<[f64; 2], String> {
    let off_rad = |cg_m: [f64; 2]| -> Result<[f64; 2], String> {
        let there = HangingLoad {
            cg_m: [cg_m[0], cg_m[1], load.cg_m[2]],
            ..load.clone()
        };
        let hung = hang(&there, set_up)?;
        Ok([hung.along.tilt_rad - tilts_rad[0], hung.across.tilt_rad - tilts_rad[1]])
    };
    let size = |off: [f64; 2]| libm::hypot(off[0], off[1]);
    let mut cg_m = [load.cg_m[0], load.cg_m[1]];
    let mut off = off_rad(cg_m)?;
    for _ in 0..MOST_STEPS {
        if size(off) <= MATCHED_RAD {
            return Ok(cg_m);
        }
        let along = off_rad([cg_m[0] + STEP_M, cg_m[1]])?;
        let across = off_rad([cg_m[0], cg_m[1] + STEP_M])?;
        let slope = |there: [f64; 2], axis: usize| (there[axis] - off[axis]) / STEP_M;
        let Some(step_m) = solve(
            [[slope(along, 0), slope(across, 0)], [slope(along, 1), slope(across, 1)]],
            off,
        ) else {
            break;
        };
        let mut share = (FARTHEST_M / size(step_m)).min(1.0);
        let nearer = loop {
            let next_m = [cg_m[0] - share * step_m[0], cg_m[1] - share * step_m[1]];
            match off_rad(next_m) {
                Ok(next) if size(next) < size(off) => break Some((next_m, next)),
                _ if share < 1e-4 => break None,
                _ => share /= 2.0,
            }
        };
        let Some(next) = nearer else { break };
        (cg_m, off) = next;
    }
    Err(
        "no centre of gravity that still hangs gives the tilt that was read: check the heights, and that nothing touched the box".into(),
    )
}

/// Solves two equations by Cramer's rule; `None` where they do not determine both unknowns.
fn solve([[a, b], [c, d]]: [[f64; 2]; 2], [p, q]: [f64; 2]) -> Option<[f64; 2]> {
    let det = a * d - b * c;
    (det.abs() > 1e-12).then(|| [(p * d - b * q) / det, (a * q - p * c) / det])
}

/// The reading of the crane's load indicator at which to stop, kg: nominal gross × 1.05 or the printed gross, whichever is less.
///
/// `nominal_kg` without contingency, `printed_kg` with it. Source: planning rule of this tool (common practice, no source).
pub fn reading_stop_kg(nominal_kg: f64, printed_kg: f64) -> f64 {
    (1.05 * nominal_kg).min(printed_kg)
}
