//! Cutting shapes at the edge of a window, and hatching.

use crate::geometry::sort_short;

/// An upright window: its low and its high corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Least coordinates.
    pub low: [f64; 2],
    /// Largest coordinates.
    pub high: [f64; 2],
}

impl Window {
    /// Whether a point is in it.
    pub fn contains(&self, p: [f64; 2]) -> bool {
        (0..2).all(|i| p[i] >= self.low[i] && p[i] <= self.high[i])
    }

    /// The part of a straight line inside it (Liang and Barsky).
    pub fn line(&self, from: [f64; 2], to: [f64; 2]) -> Option<[[f64; 2]; 2]> {
        let (mut start, mut end) = (0.0_f64, 1.0_f64);
        for i in 0..2 {
            let step = to[i] - from[i];
            for (toward, room) in [(-step, from[i] - self.low[i]), (step, self.high[i] - from[i])] {
                if toward == 0.0 {
                    if room < 0.0 {
                        return None;
                    }
                } else if toward < 0.0 {
                    start = start.max(room / toward);
                } else {
                    end = end.min(room / toward);
                }
            }
        }
        let at = |t: f64| [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
        (start < end).then(|| [at(start), at(end)])
    }

    /// The parts of a line through points inside it.
    pub fn lines(&self, points: &[[f64; 2]]) -> Vec<Vec<[f64; 2]>> {
        let mut parts: Vec<Vec<[f64; 2]>> = Vec::new();
        for pair in points.windows(2) {
            let Some([from, to]) = self.line(pair[0], pair[1]) else {
                continue;
            };
            match parts.last_mut() {
                Some(part) if part.last() == Some(&from) => part.push(to),
                _ => parts.push(vec![from, to]),
            }
        }
        parts
    }

    /// The part of a polygon inside it (Sutherland and Hodgman); empty where nothing is.
    pub fn polygon(&self, points: &[[f64; 2]]) -> Vec<[f64; 2]> {
        let mut kept = points.to_vec();
        for (i, sign, edge) in [
            (0, 1.0, self.low[0]),
            (0, -1.0, self.high[0]),
            (1, 1.0, self.low[1]),
            (1, -1.0, self.high[1]),
        ] {
            let depth = |p: &[f64; 2]| sign * (p[i] - edge);
            let corners = std::mem::take(&mut kept);
            for (n, p) in corners.iter().enumerate() {
                let q = &corners[(n + 1) % corners.len()];
                let (a, b) = (depth(p), depth(q));
                if a >= 0.0 {
                    kept.push(*p);
                }
                if (a < 0.0) != (b < 0.0) {
                    let t = a / (a - b);
                    kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
                }
            }
        }
        kept
    }
}

/// Parallel lines that fill polygons by the even-odd rule: `spacing` apart, at an angle from the x axis.
pub fn hatch(polygons: &[&[[f64; 2]]], spacing: f64, angle_rad: f64) -> Vec<[[f64; 2]; 2]> {
    let (cos, sin) = (libm::cos(angle_rad), libm::sin(angle_rad));
    // in the turned frame hatch lines are level
    let turned = |p: [f64; 2]| [p[0] * cos + p[1] * sin, p[1] * cos - p[0] * sin];
    let back = |p: [f64; 2]| [p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos];
    let edges: Vec<[[f64; 2]; 2]> = polygons
        .iter()
        .flat_map(|polygon| (0..polygon.len()).map(|i| [turned(polygon[i]), turned(polygon[(i + 1) % polygon.len()])]))
        .filter(|edge| edge.iter().flatten().all(|x| x.is_finite()))
        .collect();
    let ys = || edges.iter().flatten().map(|p| p[1]);
    let low = (ys().fold(f64::INFINITY, f64::min) / spacing).ceil() as i64;
    let high = (ys().fold(f64::NEG_INFINITY, f64::max) / spacing).floor() as i64;
    let mut lines = Vec::new();
    // without edges the lowest level is above the highest
    for level in low..=high {
        let y = level as f64 * spacing;
        let mut crossings: Vec<f64> = edges
            .iter()
            .filter(|[p, q]| (p[1] > y) != (q[1] > y))
            .map(|[p, q]| p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
            .collect();
        sort_short(&mut crossings, f64::total_cmp);
        lines.extend(
            crossings
                .chunks_exact(2)
                .map(|pair| [back([pair[0], y]), back([pair[1], y])]),
        );
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Window = Window {
        low: [0.0, 0.0],
        high: [10.0, 10.0],
    };

    #[test]
    fn lines_end_at_the_window() {
        assert_eq!(WINDOW.line([-5.0, 5.0], [5.0, 5.0]), Some([[0.0, 5.0], [5.0, 5.0]]));
        assert_eq!(WINDOW.line([-5.0, 11.0], [5.0, 11.0]), None);
        let parts = WINDOW.lines(&[[-1.0, 5.0], [5.0, 5.0], [5.0, 12.0], [8.0, 12.0], [8.0, 8.0]]);
        assert_eq!(
            parts,
            [vec![[0.0, 5.0], [5.0, 5.0], [5.0, 10.0]], vec![[8.0, 10.0], [8.0, 8.0]]]
        );
    }

    #[test]
    fn a_polygon_ends_at_the_window() {
        let cut = WINDOW.polygon(&[[5.0, 5.0], [15.0, 5.0], [15.0, 8.0], [5.0, 8.0]]);
        assert_eq!(cut, [[5.0, 5.0], [10.0, 5.0], [10.0, 8.0], [5.0, 8.0]]);
        assert_eq!(
            WINDOW.polygon(&[[20.0, 5.0], [25.0, 5.0], [25.0, 8.0]]),
            Vec::<[f64; 2]>::new()
        );
    }

    /// The lines of a hatch 1 apart in a 10 × 4 rectangle with a 2 × 4 hole cover 8 on each of the three levels inside.
    #[test]
    fn a_hatch_leaves_holes_free() {
        let outer = [[0.0, 0.5], [10.0, 0.5], [10.0, 3.5], [0.0, 3.5]];
        let hole = [[4.0, 0.5], [6.0, 0.5], [6.0, 3.5], [4.0, 3.5]];
        let lines = hatch(&[&outer, &hole], 1.0, 0.0);
        assert_eq!(lines.len(), 6);
        let total: f64 = lines.iter().map(|[p, q]| q[0] - p[0]).sum();
        assert_eq!(total, 24.0);
    }
}
