//! Distances in space.

/// The smallest distance between two straight segments in space, m.
///
/// Each segment is `a + s·(b − a)`, 0 ≤ s ≤ 1; the pair of parameters that makes the distance least is found by clamping one after the other.
///
/// Source: C. Ericson, Real-Time Collision Detection (2005), 5.1.9 (from memory); checked in tests against random sampling.
pub fn segments_distance_m(first: [[f64; 3]; 2], second: [[f64; 3]; 2]) -> f64 {
    let (d1, d2) = (minus(first[1], first[0]), minus(second[1], second[0]));
    let r = minus(first[0], second[0]);
    let (a, e, f) = (dot(d1, d1), dot(d2, d2), dot(d2, r));
    let (c, b) = (dot(d1, r), dot(d1, d2));
    let (s, t);
    if a <= 0.0 {
        s = 0.0;
        t = if e > 0.0 { (f / e).clamp(0.0, 1.0) } else { 0.0 };
    } else if e <= 0.0 {
        t = 0.0;
        s = (-c / a).clamp(0.0, 1.0);
    } else {
        let det = a * e - b * b;
        let s0 = if det > 0.0 {
            ((b * f - c * e) / det).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let t0 = (b * s0 + f) / e;
        t = t0.clamp(0.0, 1.0);
        s = if t0.to_bits() == t.to_bits() {
            s0
        } else {
            ((b * t - c) / a).clamp(0.0, 1.0)
        };
    }
    let gap: [f64; 3] = core::array::from_fn(|i| r[i] + s * d1[i] - t * d2[i]);
    dot(gap, gap).sqrt()
}

fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| a[i] - b[i])
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
