//! The box as a straight beam on its slings: shear, moment, axial force and sag from where the weight really is.
//!
//! Nothing is sampled: loads are points and even strips, so that shear is straight and moment a parabola between their ends
//! (singularity functions). Sagging moment, compression and sag downwards are positive.
//! Source: J. M. Gere and B. J. Goodno, Mechanics of Materials, chapters on shear, moment and deflection (from memory); confirmed against a
//! frame library in `tests/oracles/box_beam.py`.

/// A weight, spread evenly from one place along the box to another; both the same: a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Weight, N; below nothing for a deduction.
    pub weight_n: f64,
    /// Where it begins, m.
    pub from_m: f64,
    /// Where it ends, m, at or beyond `from_m`.
    pub to_m: f64,
}

/// What the slings pull with at one section of picks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Where along the box, m.
    pub x_m: f64,
    /// Upwards, N.
    pub up_n: f64,
    /// Along the box, N; above nothing towards its second end.
    pub along_n: f64,
    /// Height of the picks over the neutral axis, m; below nothing under it.
    pub lever_m: f64,
}

/// A beam with all that acts on it. At rest when what acts on it is in balance: [`super::reactions_n`] gives such pulls.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beam {
    /// Length of the box, m.
    pub length_m: f64,
    /// Its weights.
    pub loads: Vec<Load>,
    /// Its pulls, in rising order along the box.
    pub pulls: Vec<Pull>,
}

/// A largest value and where it is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extreme {
    /// The value, with its sign.
    pub value: f64,
    /// Where along the box, m.
    pub x_m: f64,
}

impl Extreme {
    fn larger(self, value: f64, x_m: f64) -> Self {
        if value.abs() > self.value.abs() {
            Self { value, x_m }
        } else {
            self
        }
    }
}

/// `⟨x − a⟩ⁿ`: nothing before a.
fn beyond(x_m: f64, from_m: f64, power: i32) -> f64 {
    let over = x_m - from_m;
    if over <= 0.0 { 0.0 } else { over.powi(power) }
}

/// The n-th repeated sum of a load from the first end up to x, N·mⁿ: n = 0 is its weight before x, n = 1 its moment about x and so on.
///
/// Strip: `w (⟨x−a⟩ⁿ⁺¹ − ⟨x−b⟩ⁿ⁺¹)/(n+1)!`, point: `W ⟨x−a⟩ⁿ/n!`.
fn before(load: &Load, x_m: f64, n: i32) -> f64 {
    let factorial = |n: i32| (1..=n).product::<i32>() as f64;
    let run_m = load.to_m - load.from_m;
    if run_m <= 0.0 {
        return load.weight_n * step(x_m, load.from_m, n) / factorial(n);
    }
    load.weight_n / run_m * (beyond(x_m, load.from_m, n + 1) - beyond(x_m, load.to_m, n + 1)) / factorial(n + 1)
}

/// `⟨x − a⟩ⁿ` that is there just beyond a also for n = 0.
fn step(x_m: f64, from_m: f64, n: i32) -> f64 {
    if n == 0 {
        f64::from(u8::from(x_m > from_m))
    } else {
        beyond(x_m, from_m, n)
    }
}

impl Beam {
    /// Total weight, N.
    pub fn weight_n(&self) -> f64 {
        self.loads.iter().map(|load| load.weight_n).sum()
    }

    /// Centre of gravity along the box, m; not a number without weight.
    pub fn cg_m(&self) -> f64 {
        let moment = |load: &Load| load.weight_n * (load.from_m + load.to_m) / 2.0;
        self.loads.iter().map(moment).sum::<f64>() / self.weight_n()
    }

    /// Shear just before x, N: what the part before x is pushed up with.
    pub fn shear_n(&self, x_m: f64) -> f64 {
        let up: f64 = self.pulls.iter().map(|p| p.up_n * step(x_m, p.x_m, 0)).sum();
        up - self.loads.iter().map(|load| before(load, x_m, 0)).sum::<f64>()
    }

    /// Moment just before x, N·m; above nothing where the box sags, below where it hogs: `Σ R⟨x−a⟩ + Σ H e ⟨x−a⟩⁰ − Σ weights`.
    pub fn moment_n_m(&self, x_m: f64) -> f64 {
        let pulled = |p: &Pull| p.up_n * beyond(x_m, p.x_m, 1) + p.along_n * p.lever_m * step(x_m, p.x_m, 0);
        self.pulls.iter().map(pulled).sum::<f64>() - self.loads.iter().map(|load| before(load, x_m, 1)).sum::<f64>()
    }

    /// Compression along the box just before x, N.
    pub fn axial_n(&self, x_m: f64) -> f64 {
        self.pulls.iter().map(|p| p.along_n * step(x_m, p.x_m, 0)).sum()
    }

    /// Places where shear jumps or its slope changes, in rising order, m.
    pub fn breaks_m(&self) -> Vec<f64> {
        let ends = self.loads.iter().flat_map(|load| [load.from_m, load.to_m]);
        let mut breaks: Vec<f64> = ends
            .chain(self.pulls.iter().map(|p| p.x_m))
            .chain([0.0, self.length_m])
            .collect();
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|a, b| (*a - *b).abs() < SAME_M);
        breaks
    }

    /// Largest shear by size.
    pub fn largest_shear(&self) -> Extreme {
        self.breaks_m().into_iter().fold(Extreme::default(), |most, x_m| {
            most.larger(self.shear_n(x_m - SAME_M), x_m)
                .larger(self.shear_n(x_m + SAME_M), x_m)
        })
    }

    /// Largest sagging and largest hogging moment; nothing of either where there is none.
    pub fn largest_moments(&self) -> [Extreme; 2] {
        let (mut sag, mut hog) = (Extreme::default(), Extreme::default());
        let mut see = |value: f64, x_m: f64| {
            if value > 0.0 {
                sag = sag.larger(value, x_m);
            } else {
                hog = hog.larger(value, x_m);
            }
        };
        let breaks = self.breaks_m();
        for ends in breaks.windows(2) {
            let (from, to) = (ends[0], ends[1]);
            let (first, last) = (self.shear_n(from + SAME_M), self.shear_n(to - SAME_M));
            see(self.moment_n_m(from + SAME_M), from);
            see(self.moment_n_m(to - SAME_M), to);
            if first * last < 0.0 {
                // shear is straight in between
                let x_m = from + (to - from) * first / (first - last);
                see(self.moment_n_m(x_m), x_m);
            }
        }
        [sag, hog]
    }

    /// `EI v`, N·m³, v upwards, before the chord is taken off: the moment summed twice.
    fn twice_n_m3(&self, x_m: f64) -> f64 {
        let pulled =
            |p: &Pull| p.up_n * beyond(x_m, p.x_m, 3) / 6.0 + p.along_n * p.lever_m * beyond(x_m, p.x_m, 2) / 2.0;
        self.pulls.iter().map(pulled).sum::<f64>() - self.loads.iter().map(|load| before(load, x_m, 3)).sum::<f64>()
    }

    /// `EI` times the sag at x, N·m³, under the straight line through the first and the last pick: `v″ = M/EI` for one EI from end to end.
    pub fn sag_n_m3(&self, x_m: f64) -> f64 {
        let (Some(first), Some(last)) = (self.pulls.first(), self.pulls.last()) else {
            return 0.0;
        };
        let [a, b] = [first, last].map(|p| self.twice_n_m3(p.x_m));
        let share = (x_m - first.x_m) / (last.x_m - first.x_m);
        a + (b - a) * share - self.twice_n_m3(x_m)
    }

    /// Largest sag by size times EI, N·m³, between the outer picks and beyond them: below nothing where the box rises over their line.
    pub fn largest_sags(&self) -> [Extreme; 2] {
        let (Some(first), Some(last)) = (self.pulls.first(), self.pulls.last()) else {
            return [Extreme::default(); 2];
        };
        let (mut between, mut outside) = (Extreme::default(), Extreme::default());
        for i in 0..=SAG_STEPS {
            let x_m = self.length_m * f64::from(i) / f64::from(SAG_STEPS);
            let sag = self.sag_n_m3(x_m);
            if x_m >= first.x_m && x_m <= last.x_m {
                between = between.larger(sag, x_m);
            } else {
                outside = outside.larger(sag, x_m);
            }
        }
        [self.refined(between, [first.x_m, last.x_m]), outside]
    }

    /// The top of the sag near a sampled place, by halving the step.
    fn refined(&self, near: Extreme, [low_m, high_m]: [f64; 2]) -> Extreme {
        let mut best = near;
        let mut step_m = self.length_m / f64::from(SAG_STEPS);
        while step_m > 1e-7 {
            step_m /= 2.0;
            for x_m in [best.x_m - step_m, best.x_m + step_m] {
                if x_m >= low_m && x_m <= high_m {
                    best = best.larger(self.sag_n_m3(x_m), x_m);
                }
            }
        }
        best
    }
}

/// Places nearer than this are one, m.
const SAME_M: f64 = 1e-9;
/// Steps in which the largest sag is looked for.
const SAG_STEPS: u32 = 104;
