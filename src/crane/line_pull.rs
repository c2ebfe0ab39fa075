//! How much of the load the hoist's line feels, with the friction of the sheaves, and how many parts it takes.

/// What the sheaves run on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sheaves {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// Ball or roller bearings.
    AntiFriction,
    /// Bronze bushings.
    Bronze,
    /// Plain bearings.
    Plain,
}

impl Sheaves {
    /// Line pull after a sheave over that before it; `None` while nobody has said what they run on.
    ///
    /// Source: riggers' handbooks, K 1.02 anti-friction, 1.045 bronze; Wire Rope Users Manual, K 1.09 plain.
    pub const fn friction(self) -> Option<f64> {
        match self {
            Self::NotSaid => None,
            Self::AntiFriction => Some(1.02),
            Self::Bronze => Some(1.045),
            Self::Plain => Some(1.09),
        }
    }
}

/// Load over line pull while hoisting: `(1 − K⁻ᴺ)/(K − 1)`; without friction it is N.
///
/// `parts` N of line, `friction` K of one sheave, 1 or more.
///
/// Source: riggers' handbooks; sum of the pulls of N parts, each 1/K of the one before.
pub fn hoisting_ratio(parts: u32, friction: f64) -> f64 {
    let mut pull = 1.0;
    (0..parts)
        .map(|_| {
            pull /= friction;
            pull
        })
        .sum()
}

/// The fewest parts at which the line feels no more than it may; `None` where no number of parts does.
///
/// `load` and `line_pull` in one unit, above 0.
pub fn parts_needed(load: f64, line_pull: f64, friction: f64) -> Option<u32> {
    /// More parts than any block has.
    const MOST: u32 = 40;
    (1..=MOST).find(|parts| load <= line_pull * hoisting_ratio(*parts, friction) * (1.0 + 1e-12))
}

/// Rope between drum and the block at its lowest, m: `N·(head − hook) + boom`.
///
/// Source: geometry; the drum is at the boom's foot.
pub fn rope_needed_m(parts: u32, head_m: f64, lowest_hook_m: f64, boom_m: f64) -> f64 {
    f64::from(parts) * (head_m - lowest_hook_m).max(0.0) + boom_m
}
