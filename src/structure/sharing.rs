//! How much each section of picks carries: by equilibrium alone for two, between bounds for more.

use super::Beam;

/// What the box does between more than two sections of picks. The truth lies between the bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sharing {
    /// It does not bend, and the slings give alike: a straight line of pulls.
    RigidBox,
    /// It bends, and its picks stay on one line: a beam through all its supports (three moments).
    LevelPicks,
    /// It follows its picks: each bay carries itself.
    LimpBox,
}

impl Sharing {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::RigidBox, Self::LevelPicks, Self::LimpBox];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::RigidBox => "rigid box on slings that give alike (bound)",
            Self::LevelPicks => "box that bends, picks held on one line",
            Self::LimpBox => "box that follows its picks, each bay by itself (bound)",
        }
    }
}

/// Upward pull at each section, N, that holds the beam's weights and the moments of its inclined legs (`along_n · lever_m`) in balance.
///
/// Sections in rising order, no two at one place. Two sections: levers, whatever the sharing. `None` for fewer than two.
/// Sources: rigid, the pile-group sum `W/n + M x/Σx²`; level, the equation of three moments (Clapeyron); limp, simple spans.
pub fn reactions_n(beam: &Beam, sharing: Sharing) -> Option<Vec<f64>> {
    let at_m: Vec<f64> = beam.pulls.iter().map(|p| p.x_m).collect();
    if at_m.len() < 2 || at_m.windows(2).any(|pair| pair[1] <= pair[0]) {
        return None;
    }
    let held = unheld(beam);
    let moments = match sharing {
        _ if at_m.len() == 2 => vec![0.0; 2],
        Sharing::RigidBox => return Some(straight_line_n(&held, &at_m)),
        Sharing::LevelPicks => inner_moments_n_m(&held, &at_m),
        Sharing::LimpBox => vec![0.0; at_m.len()],
    };
    Some(from_moments_n(&held, &at_m, &moments))
}

/// The beam with its pulls' moments but not their upward part.
fn unheld(beam: &Beam) -> Beam {
    let mut held = beam.clone();
    held.pulls.iter_mut().for_each(|pull| pull.up_n = 0.0);
    held
}

/// Moments of the inclined legs together, N·m.
fn couples_n_m(beam: &Beam) -> f64 {
    beam.pulls.iter().map(|p| p.along_n * p.lever_m).sum()
}

/// `Rᵢ = W/n + M (xᵢ − x̄)/Σ(x − x̄)²`.
fn straight_line_n(beam: &Beam, at_m: &[f64]) -> Vec<f64> {
    let count = at_m.len() as f64;
    let middle_m = at_m.iter().sum::<f64>() / count;
    let second_m2: f64 = at_m.iter().map(|x| (x - middle_m).powi(2)).sum();
    let weight_n = beam.weight_n();
    let turning_n_m = weight_n * (beam.cg_m() - middle_m) + couples_n_m(beam);
    let one = |x: &f64| weight_n / count + turning_n_m * (x - middle_m) / second_m2;
    at_m.iter().map(one).collect()
}

/// Pulls that leave a given moment just before each inner section: moments about the sections in turn, the last two by the balance of all.
fn from_moments_n(beam: &Beam, at_m: &[f64], inner_n_m: &[f64]) -> Vec<f64> {
    let mut pulled = beam.clone();
    let last = at_m.len() - 1;
    for i in 0..last {
        let to_m = at_m[i + 1];
        let missing_n_m = if i + 1 < last {
            inner_n_m[i + 1] - pulled.moment_n_m(to_m)
        } else {
            let nearer = pulled.pulls.iter().map(|p| p.up_n * (to_m - p.x_m)).sum::<f64>();
            beam.weight_n() * (to_m - beam.cg_m()) - couples_n_m(beam) - nearer
        };
        pulled.pulls[i].up_n = missing_n_m / (to_m - at_m[i]);
    }
    pulled.pulls[last].up_n = beam.weight_n() - pulled.pulls.iter().map(|p| p.up_n).sum::<f64>();
    pulled.pulls.iter().map(|p| p.up_n).collect()
}

/// Moments at the inner sections of a beam whose sections stay on one line, N·m, by section (the outer ones 0, unused).
///
/// Each bay by itself first; where two bays then meet at an angle, the moment between them turns them straight again:
/// `h₀M₀ + 2(h₀+h₁)M₁ + h₁M₂ = −6·(EI times that angle)`, by elimination. Source: the equation of three moments, Clapeyron.
fn inner_moments_n_m(beam: &Beam, at_m: &[f64]) -> Vec<f64> {
    let last = at_m.len() - 1;
    let mut limp = beam.clone();
    let ups_n = from_moments_n(beam, at_m, &vec![0.0; at_m.len()]);
    for (pull, up_n) in limp.pulls.iter_mut().zip(ups_n) {
        pull.up_n = up_n;
    }
    let length = |bay: usize| at_m[bay + 1] - at_m[bay];
    let rise: Vec<f64> = at_m.iter().map(|x| -limp.sag_n_m3(*x)).collect();
    let slope = |bay: usize| (rise[bay + 1] - rise[bay]) / length(bay);
    let (mut pivot, mut right) = (vec![1.0; at_m.len()], vec![0.0; at_m.len()]);
    for at in 1..last {
        let carry = if at > 1 { length(at - 1) / pivot[at - 1] } else { 0.0 };
        pivot[at] = 2.0 * (length(at - 1) + length(at)) - carry * length(at - 1);
        right[at] = -6.0 * (slope(at) - slope(at - 1)) - carry * right[at - 1];
    }
    let mut moments = vec![0.0; at_m.len()];
    for at in (1..last).rev() {
        moments[at] = (right[at] - length(at) * moments[at + 1]) / pivot[at];
    }
    moments
}
