//! Points and polygons in a plane.

use super::sorted::sort_short;

/// Distance between two points, m.
pub fn distance_m(a: [f64; 2], b: [f64; 2]) -> f64 {
    let (dx, dy) = (a[0] - b[0], a[1] - b[1]);
    (dx * dx + dy * dy).sqrt()
}

/// A vector turned anticlockwise by an angle given as its cosine and sine.
pub fn rotate(v: [f64; 2], (cos, sin): (f64, f64)) -> [f64; 2] {
    [v[0] * cos - v[1] * sin, v[0] * sin + v[1] * cos]
}

/// A point moved by a vector.
pub fn offset(p: [f64; 2], v: [f64; 2]) -> [f64; 2] {
    [p[0] + v[0], p[1] + v[1]]
}

/// The corners of a rectangle from `low` to `high` in its own frame, whose origin is at `at` and which is turned by the given
/// cosine and sine; anticlockwise from the low corner.
pub fn rectangle(at: [f64; 2], turn: (f64, f64), low: [f64; 2], high: [f64; 2]) -> [[f64; 2]; 4] {
    [
        [low[0], low[1]],
        [high[0], low[1]],
        [high[0], high[1]],
        [low[0], high[1]],
    ]
    .map(|p| offset(at, rotate(p, turn)))
}

/// Whether a point is inside a polygon (either winding, closed by itself); the outline itself counts as either.
pub fn contains(polygon: &[[f64; 2]], p: [f64; 2]) -> bool {
    let mut inside = false;
    for (a, b) in edges(polygon) {
        if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
            inside = !inside;
        }
    }
    inside
}

/// The smallest distance between two polygons, m; 0 where they touch, cross or lie within each other.
/// `None` where one of them has no point.
pub fn polygon_distance_m(a: &[[f64; 2]], b: &[[f64; 2]]) -> Option<f64> {
    let (&first_a, &first_b) = (a.first()?, b.first()?);
    if contains(a, first_b) || contains(b, first_a) {
        return Some(0.0);
    }
    let mut least_m = f64::INFINITY;
    for (p, q) in edges(a) {
        for (r, s) in edges(b) {
            least_m = least_m.min(segment_distance_m((p, q), (r, s)));
        }
    }
    Some(least_m)
}

/// The edges of a closed polygon; a single point is an edge of no length.
fn edges(polygon: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    (0..polygon.len()).map(|i| (polygon[i], polygon[(i + 1) % polygon.len()]))
}

fn segment_distance_m((p, q): ([f64; 2], [f64; 2]), (r, s): ([f64; 2], [f64; 2])) -> f64 {
    if cross(p, q, r) * cross(p, q, s) < 0.0 && cross(r, s, p) * cross(r, s, q) < 0.0 {
        return 0.0;
    }
    let ends = [
        point_segment_m(p, (r, s)),
        point_segment_m(q, (r, s)),
        point_segment_m(r, (p, q)),
        point_segment_m(s, (p, q)),
    ];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

/// Twice the signed area of a triangle.
fn cross(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

fn point_segment_m(p: [f64; 2], (a, b): ([f64; 2], [f64; 2])) -> f64 {
    let (d, w) = ([b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]);
    let length2 = d[0] * d[0] + d[1] * d[1];
    let t = if length2 > 0.0 {
        ((w[0] * d[0] + w[1] * d[1]) / length2).clamp(0.0, 1.0)
    } else {
        0.0
    };
    distance_m(p, [a[0] + t * d[0], a[1] + t * d[1]])
}

/// The convex hull of points, anticlockwise from the leftmost; fewer than three points come back sorted.
///
/// Source: A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions (1979).
pub fn convex_hull(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut sorted = points.to_vec();
    sort_short(&mut sorted, |a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    sorted.dedup();
    if sorted.len() < 3 {
        return sorted;
    }
    let chain = |points: &mut dyn Iterator<Item = [f64; 2]>| {
        let mut chain: Vec<[f64; 2]> = Vec::new();
        for p in points {
            while chain.len() >= 2 && cross(chain[chain.len() - 2], chain[chain.len() - 1], p) <= 0.0 {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut hull = chain(&mut sorted.iter().copied());
    hull.extend(chain(&mut sorted.iter().rev().copied()));
    hull
}
