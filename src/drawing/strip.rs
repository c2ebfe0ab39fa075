//! The strip round a foundation: all that is nearer to it than a distance, outside of it.

use crate::geometry::distance_m;
use crate::geometry::sort_short;

type P = [f64; 2];

/// Hatch lines at 45° in the strip, m.
pub fn hatch(corners: &[P], width_m: f64, spacing_m: f64) -> Vec<[P; 2]> {
    let h = core::f64::consts::FRAC_1_SQRT_2;
    let across: Vec<f64> = corners.iter().map(|p| (p[1] - p[0]) * h).collect();
    let low = across.iter().copied().fold(f64::INFINITY, f64::min) - width_m;
    let high = across.iter().copied().fold(f64::NEG_INFINITY, f64::max) + width_m;
    let count = ((high - low) / spacing_m).min(5000.0) as usize;
    let far_m = 2.0 * (width_m + corners.iter().flatten().map(|x| x.abs()).fold(0.0, f64::max));
    (1..=count)
        .flat_map(|i| {
            let offset = low + i as f64 * spacing_m;
            let at = |along: f64| [(along - offset) * h, (along + offset) * h];
            let (from, to) = (at(-far_m), at(far_m));
            let near = union(
                edges(corners)
                    .filter_map(|edge| in_capsule(from, to, edge, width_m))
                    .collect(),
            );
            subtract(&near, &inside(corners, from, to))
                .into_iter()
                .map(move |[s, t]| [s, t].map(|u| [0, 1].map(|k| from[k] + u * (to[k] - from[k]))))
                .collect::<Vec<_>>()
        })
        .collect()
}

/// The outer border of the strip as lines, m.
pub fn border(corners: &[P], width_m: f64) -> Vec<Vec<P>> {
    let mut parts = Vec::new();
    let turn = if area(corners) < 0.0 { -1.0 } else { 1.0 };
    for (n, [a, b]) in edges(corners).enumerate() {
        let length = distance_m(a, b).max(1e-9);
        let out = [
            (b[1] - a[1]) / length * turn * width_m,
            -(b[0] - a[0]) / length * turn * width_m,
        ];
        let (p, q) = ([a[0] + out[0], a[1] + out[1]], [b[0] + out[0], b[1] + out[1]]);
        let covered = edges(corners)
            .enumerate()
            .filter(|(m, _)| *m != n)
            .filter_map(|(_, edge)| in_capsule(p, q, edge, width_m * (1.0 - 1e-9)));
        let free = subtract(&[[0.0, 1.0]], &union(covered.collect()));
        parts.extend(
            free.into_iter()
                .filter(|[s, t]| t - s > 1e-6)
                .map(|[s, t]| [s, t].map(|u| [0, 1].map(|k| p[k] + u * (q[k] - p[k]))).to_vec()),
        );
        parts.extend(round_corner(corners, b, width_m));
    }
    parts
}

/// The arc of the border round one corner, where nothing else is nearer.
fn round_corner(corners: &[P], at: P, width_m: f64) -> Option<Vec<P>> {
    const STEPS: u32 = 96;
    let on = |i: u32| {
        let a = f64::from(i) / f64::from(STEPS) * core::f64::consts::TAU;
        [at[0] + width_m * libm::cos(a), at[1] + width_m * libm::sin(a)]
    };
    let free = |p: &P| {
        edges(corners).all(|edge| to_segment_m(*p, edge) >= width_m * (1.0 - 1e-6))
            && !crate::geometry::contains(corners, *p)
    };
    // begin where the arc is covered, so that it comes out in one piece
    let start = (0..STEPS).find(|i| !free(&on(*i)))?;
    let arc: Vec<P> = (start..start + STEPS).map(on).filter(free).collect();
    (arc.len() > 1).then_some(arc)
}

fn edges(corners: &[P]) -> impl Iterator<Item = [P; 2]> + '_ {
    (0..corners.len()).map(|i| [corners[i], corners[(i + 1) % corners.len()]])
}

/// Twice the signed area: above 0 when the corners run anticlockwise.
fn area(corners: &[P]) -> f64 {
    edges(corners).map(|[a, b]| a[0] * b[1] - b[0] * a[1]).sum()
}

fn to_segment_m(p: P, [a, b]: [P; 2]) -> f64 {
    let (d, w) = ([b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]);
    let length2 = d[0] * d[0] + d[1] * d[1];
    let t = if length2 > 0.0 {
        ((w[0] * d[0] + w[1] * d[1]) / length2).clamp(0.0, 1.0)
    } else {
        0.0
    };
    distance_m(p, [a[0] + t * d[0], a[1] + t * d[1]])
}

/// The share of a line from `from` to `to` that is nearer than `radius` to an edge: one interval, for the region is convex.
fn in_capsule(from: P, to: P, [a, b]: [P; 2], radius: f64) -> Option<[f64; 2]> {
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let mut found: Option<[f64; 2]> = None;
    let mut add = |s: f64, t: f64| {
        if t > s {
            found = Some(found.map_or([s, t], |[u, v]| [u.min(s), v.max(t)]));
        }
    };
    for end in [a, b] {
        let (wx, wy) = (from[0] - end[0], from[1] - end[1]);
        let (qa, qb, qc) = (
            dx * dx + dy * dy,
            wx * dx + wy * dy,
            wx * wx + wy * wy - radius * radius,
        );
        let root = qb * qb - qa * qc;
        if root > 0.0 {
            add((-qb - root.sqrt()) / qa, (-qb + root.sqrt()) / qa);
        }
    }
    let length = distance_m(a, b);
    if length > 0.0 {
        let (ux, uy) = ((b[0] - a[0]) / length, (b[1] - a[1]) / length);
        let (w, v) = ([from[0] - a[0], from[1] - a[1]], [dx, dy]);
        let (along, across) = (
            [w[0] * ux + w[1] * uy, v[0] * ux + v[1] * uy],
            [w[1] * ux - w[0] * uy, v[1] * ux - v[0] * uy],
        );
        let first = between(along, 0.0, length);
        let second = between(across, -radius, radius);
        if let (Some([s, t]), Some([u, v])) = (first, second) {
            add(s.max(u), t.min(v));
        }
    }
    found.map(|[s, t]| [s.max(0.0), t.min(1.0)]).filter(|[s, t]| t > s)
}

/// Where `start + t·step` lies between two bounds.
fn between([start, step]: [f64; 2], low: f64, high: f64) -> Option<[f64; 2]> {
    if step.abs() < 1e-12 {
        return (start >= low && start <= high).then_some([f64::NEG_INFINITY, f64::INFINITY]);
    }
    let (s, t) = ((low - start) / step, (high - start) / step);
    Some([s.min(t), s.max(t)])
}

/// The shares of a line inside a polygon.
fn inside(corners: &[P], from: P, to: P) -> Vec<[f64; 2]> {
    let side = |p: P| (to[0] - from[0]) * (p[1] - from[1]) - (to[1] - from[1]) * (p[0] - from[0]);
    let length2 = (to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1]);
    let mut crossings: Vec<f64> = edges(corners)
        .filter(|[a, b]| (side(*a) > 0.0) != (side(*b) > 0.0))
        .map(|[a, b]| {
            let t = side(a) / (side(a) - side(b));
            let p = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
            ((p[0] - from[0]) * (to[0] - from[0]) + (p[1] - from[1]) * (to[1] - from[1])) / length2
        })
        .collect();
    sort_short(&mut crossings, f64::total_cmp);
    crossings.chunks_exact(2).map(|c| [c[0], c[1]]).collect()
}

fn union(mut parts: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    sort_short(&mut parts, |a, b| a[0].total_cmp(&b[0]));
    let mut joined: Vec<[f64; 2]> = Vec::new();
    for part in parts {
        match joined.last_mut() {
            Some(last) if part[0] <= last[1] => last[1] = last[1].max(part[1]),
            _ => joined.push(part),
        }
    }
    joined
}

/// What is left of sorted intervals when other sorted intervals are taken out.
fn subtract(from: &[[f64; 2]], holes: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut left = Vec::new();
    for &[start, end] in from {
        let mut at = start;
        for &[s, t] in holes.iter().filter(|[s, t]| *t > start && *s < end) {
            if s > at {
                left.push([at, s]);
            }
            at = at.max(t);
        }
        if end > at {
            left.push([at, end]);
        }
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// An L: its inner corner is nearer to both edges, its five outer ones are round.
    const ELL: [P; 6] = [
        [0.0, 0.0],
        [10.0, 0.0],
        [10.0, 5.0],
        [5.0, 5.0],
        [5.0, 10.0],
        [0.0, 10.0],
    ];

    /// Area of the strip: perimeter 40 × 1 + five quarter circles π/4 − the 1 × 1 square counted twice at the inner corner.
    #[test]
    fn the_hatch_covers_the_strip() {
        let spacing = 0.01;
        let length: f64 = hatch(&ELL, 1.0, spacing).iter().map(|[p, q]| distance_m(*p, *q)).sum();
        let expected = 40.0 + 5.0 * core::f64::consts::FRAC_PI_4 - 1.0;
        assert_abs_diff_eq!(length * spacing, expected, epsilon = 0.02);
    }

    #[test]
    fn the_border_keeps_its_distance() {
        let parts = border(&ELL, 1.0);
        for p in parts.iter().flatten() {
            let away = edges(&ELL).map(|e| to_segment_m(*p, e)).fold(f64::INFINITY, f64::min);
            assert_abs_diff_eq!(away, 1.0, epsilon = 1e-6);
        }
        let length: f64 = parts
            .iter()
            .flat_map(|part| part.windows(2))
            .map(|w| distance_m(w[0], w[1]))
            .sum();
        // 40 − 2 at the inner corner + five quarter circles; arcs are chords between samples
        assert_abs_diff_eq!(length, 38.0 + 5.0 * core::f64::consts::FRAC_PI_2, epsilon = 0.05);
    }
}
