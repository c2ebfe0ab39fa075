//! The shape a body takes when it bends up and down between its picks: a thin strip held at the pick sections.
//!
//! Each section between the first and the last has one shape: height 1 there, 0 at every other section, a natural cubic
//! spline between and straight beyond. A beam loaded at its sections takes exactly such shapes; and what a load anywhere
//! puts on a section is the height of that section's shape at the load (influence lines, Müller-Breslau), so that
//! supports share as in the theorem of three moments, whatever lies between them. Source: S. Timoshenko and D. H. Young,
//! Theory of Structures, chapters on influence lines and continuous beams (from memory); confirmed against the beams of
//! `tests/oracles/continuous_beam.py`.

/// One shape per inner section.
#[derive(Debug, Clone, Default)]
pub(super) struct Shapes {
    sections_x_m: Vec<f64>,
    /// Second derivative at every section, 1/m², by shape.
    curvatures: Vec<Vec<f64>>,
}

impl Shapes {
    /// Shapes over rising sections; none for fewer than three.
    pub fn over(sections_x_m: &[f64]) -> Self {
        let inner = 1..sections_x_m.len().saturating_sub(1);
        Self {
            sections_x_m: sections_x_m.to_vec(),
            curvatures: inner.map(|section| curvatures(sections_x_m, section)).collect(),
        }
    }

    pub fn count(&self) -> usize {
        self.curvatures.len()
    }

    /// Height (m per m) and slope (1/m per m) of a shape at x.
    pub fn at(&self, shape: usize, x_m: f64) -> (f64, f64) {
        let (x, second) = (&self.sections_x_m, &self.curvatures[shape]);
        let height = |section: usize| if section == shape + 1 { 1.0 } else { 0.0 };
        let last_bay = x.len() - 2;
        let bay = (0..last_bay).find(|bay| x_m <= x[bay + 1]).unwrap_or(last_bay);
        let length_m = x[bay + 1] - x[bay];
        let rise = (height(bay + 1) - height(bay)) / length_m;
        let (from, to) = (second[bay], second[bay + 1]);
        let slope_at =
            |s: f64| rise + length_m * (from * (s - s * s / 2.0 - 1.0 / 3.0) + to * (s * s / 2.0 - 1.0 / 6.0));
        let s = (x_m - x[bay]) / length_m;
        if s < 0.0 {
            return (slope_at(0.0) * (x_m - x[bay]), slope_at(0.0));
        }
        if s > 1.0 {
            return (slope_at(1.0) * (x_m - x[bay + 1]), slope_at(1.0));
        }
        let sag = |s: f64| (s * s * s - s) * length_m * length_m / 6.0;
        let line = height(bay) + rise * (x_m - x[bay]);
        (line + from * sag(1.0 - s) + to * sag(s), slope_at(s))
    }

    /// Energy of two shapes together for EI = 1: `∫ w″v″ dx`, 1/m, each w″ straight between sections.
    pub fn stiffness(&self, shape: usize, other: usize) -> f64 {
        let (a, b) = (&self.curvatures[shape], &self.curvatures[other]);
        let bay = |(bay, ends): (usize, &[f64])| {
            let own = a[bay] * b[bay] + a[bay + 1] * b[bay + 1];
            let mixed = a[bay] * b[bay + 1] + a[bay + 1] * b[bay];
            (ends[1] - ends[0]) * (own / 3.0 + mixed / 6.0)
        };
        self.sections_x_m.windows(2).enumerate().map(bay).sum()
    }
}

/// Second derivatives of the natural cubic spline that is 1 at one inner section and 0 at the others, 1/m², by section.
///
/// `h₀ m₀ + 2(h₀ + h₁) m₁ + h₁ m₂ = 6(rise of the second bay − rise of the first)`, nothing at the ends; solved by
/// elimination. Source: the three-moment equation without load, or any text on cubic splines.
fn curvatures(x: &[f64], section: usize) -> Vec<f64> {
    let length = |bay: usize| x[bay + 1] - x[bay];
    let height = |at: usize| if at == section { 1.0 } else { 0.0 };
    let rise = |bay: usize| (height(bay + 1) - height(bay)) / length(bay);
    let last = x.len() - 1;
    let (mut pivot, mut right) = (vec![1.0; x.len()], vec![0.0; x.len()]);
    for at in 1..last {
        let before = if at > 1 { length(at - 1) / pivot[at - 1] } else { 0.0 };
        pivot[at] = 2.0 * (length(at - 1) + length(at)) - before * length(at - 1);
        right[at] = 6.0 * (rise(at) - rise(at - 1)) - before * right[at - 1];
    }
    let mut second = vec![0.0; x.len()];
    for at in (1..last).rev() {
        second[at] = (right[at] - length(at) * second[at + 1]) / pivot[at];
    }
    second
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }

    /// Two equal spans: the middle support's influence line is (3s − s³)/2 from each end; EI = 1 stiffness 48/L³ over the
    /// whole length L = 2 (Machinery's Handbook, simple beam with a load in the middle).
    #[test]
    fn two_equal_spans() {
        let shapes = Shapes::over(&[-1.0, 0.0, 1.0]);
        assert_eq!(shapes.count(), 1);
        for (x_m, height) in [
            (-1.0, 0.0),
            (-0.5, 0.6875),
            (0.0, 1.0),
            (0.5, 0.6875),
            (1.0, 0.0),
            (1.5, -0.75),
        ] {
            near(shapes.at(0, x_m).0, height, 1e-14);
        }
        near(shapes.at(0, -2.0).1, 1.5, 1e-14);
        near(shapes.stiffness(0, 0), 6.0, 1e-13);
    }

    #[test]
    fn slopes_are_those_of_heights() {
        let shapes = Shapes::over(&[0.0, 2.0, 5.0, 9.0]);
        for shape in 0..2 {
            for x_m in [-1.0, 0.5, 2.0, 3.3, 6.1, 9.0, 10.0] {
                let step = 1e-6;
                let rise = shapes.at(shape, x_m + step).0 - shapes.at(shape, x_m - step).0;
                near(shapes.at(shape, x_m).1, rise / (2.0 * step), 1e-8);
            }
        }
        assert_eq!(Shapes::over(&[0.0, 1.0]).count(), 0);
    }
}
