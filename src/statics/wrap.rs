//! Where a strap that runs over edges touches them: the shortest way round, pressing on every edge it touches.

use super::Vec3;

/// Shorter than this a segment has no direction, m.
pub(super) const NO_LENGTH_M: f64 = 1e-9;
/// Sweeps over the contacts before giving up on the last digits.
const SWEEPS: usize = 400;

/// An edge in space; unit vectors.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub at_m: Vec3,
    pub along: Vec3,
    pub outward: Vec3,
    /// Where the strap crosses it, m along from `at_m`.
    pub slide_m: f64,
    pub touching: bool,
}

impl Line {
    pub fn contact_m(&self) -> Vec3 {
        self.at_m + self.along * self.slide_m
    }
}

/// Finds which edges a strap from `from_m` to `to_m` touches, in order, and where.
///
/// All edges are taken as touched at first; while one would have to pull the strap, the one pulling most is let go.
/// Without friction the strap crosses each edge at equal angles on both sides, which is the shortest way.
/// Source: derived, shortest path over a convex body.
pub(super) fn settle(from_m: Vec3, to_m: Vec3, lines: &mut [Line]) {
    lines.iter_mut().for_each(|line| line.touching = true);
    for _ in 0..lines.len() {
        slide(from_m, to_m, lines);
        let Some((worst, pull)) = most_pulling(from_m, to_m, lines) else {
            return;
        };
        if pull < 0.0 {
            return;
        }
        lines[worst].touching = false;
    }
}

/// Slides every contact to where the path is shortest, each in turn between its neighbours until none moves.
fn slide(from_m: Vec3, to_m: Vec3, lines: &mut [Line]) {
    for _ in 0..SWEEPS {
        let mut moved_m: f64 = 0.0;
        for index in 0..lines.len() {
            if lines[index].touching {
                let (before_m, after_m) = neighbours_m(from_m, to_m, lines, index);
                let slide_m = crossing_m(&lines[index], before_m, after_m);
                moved_m = moved_m.max((slide_m - lines[index].slide_m).abs());
                lines[index].slide_m = slide_m;
            }
        }
        if moved_m < 1e-13 {
            return;
        }
    }
}

/// Where the shortest way from one point to another over a line crosses it: turned flat about the line, the way is straight.
fn crossing_m(line: &Line, before_m: Vec3, after_m: Vec3) -> f64 {
    let ((along_a, off_a), (along_b, off_b)) = (flat(line, before_m), flat(line, after_m));
    let off = off_a + off_b;
    if off > 0.0 {
        along_a + (along_b - along_a) * off_a / off
    } else {
        (along_a + along_b) / 2.0
    }
}

/// A point's place along a line and its distance from it, m.
fn flat(line: &Line, point_m: Vec3) -> (f64, f64) {
    let arm_m = point_m - line.at_m;
    let along_m = arm_m.dot(&line.along);
    (along_m, (arm_m - line.along * along_m).norm())
}

fn neighbours_m(from_m: Vec3, to_m: Vec3, lines: &[Line], index: usize) -> (Vec3, Vec3) {
    let touching = |line: &&Line| line.touching;
    let before_m = lines[..index]
        .iter()
        .rev()
        .find(touching)
        .map_or(from_m, Line::contact_m);
    let after_m = lines[index + 1..].iter().find(touching).map_or(to_m, Line::contact_m);
    (before_m, after_m)
}

/// The touched edge on which the strap presses least, and its pull outward per unit of tension.
fn most_pulling(from_m: Vec3, to_m: Vec3, lines: &[Line]) -> Option<(usize, f64)> {
    let pulls = (0..lines.len()).filter(|index| lines[*index].touching).map(|index| {
        let at_m = lines[index].contact_m();
        let (before_m, after_m) = neighbours_m(from_m, to_m, lines, index);
        let pull = (direction(at_m, before_m) + direction(at_m, after_m)).dot(&lines[index].outward);
        (index, pull)
    });
    pulls.max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Unit vector from one point to another; none where they coincide.
pub(super) fn direction(from_m: Vec3, to_m: Vec3) -> Vec3 {
    (to_m - from_m).try_normalize(NO_LENGTH_M).unwrap_or_default()
}
