//! Sling geometry and leg forces by hand formulas.
//!
//! Each holds under the conditions written with it. They serve to start from, to check the general hang against, and to follow a figure by
//! hand. Angles are from the horizontal.

/// Tension in each leg of a symmetric bridle: `T = W/(n·sin θ)`.
///
/// Equal legs, centre of gravity under the hook, `legs` of them sharing the load, θ from the horizontal.
///
/// Source: equilibrium of the hook; tables of sling angle factors (ASME B30.9 practice).
pub fn symmetric_bridle_n(load_n: f64, legs: u8, theta_rad: f64) -> f64 {
    load_n / (f64::from(legs) * libm::sin(theta_rad))
}

/// Tensions of two legs at angles θ₁ and θ₂ from the horizontal: `T₁ = W·cos θ₂/sin(θ₁ + θ₂)`, and the other alike.
///
/// Hook over the centre of gravity. Source: equilibrium of three forces at the hook.
pub fn two_legs_n(load_n: f64, theta1_rad: f64, theta2_rad: f64) -> [f64; 2] {
    let both = libm::sin(theta1_rad + theta2_rad);
    [
        load_n * libm::cos(theta2_rad) / both,
        load_n * libm::cos(theta1_rad) / both,
    ]
}

/// Horizontal force between two legs to picks at different depths: `H = W/(h₁/D₁ + h₂/D₂)`.
///
/// `depth_m` hook above each pick, `out_m` horizontal distance from the hook to each pick. A leg's tension is `H·L/D`.
///
/// Source: equilibrium of the hook.
pub fn uneven_picks_horizontal_n(load_n: f64, depth_m: [f64; 2], out_m: [f64; 2]) -> f64 {
    load_n / (depth_m[0] / out_m[0] + depth_m[1] / out_m[1])
}

/// Where the hook comes over a span hung on two legs: distance from the first end, and height above the span.
///
/// `x = (L₁² − L₂² + s²)/(2s)`, `H = √(L₁² − x²)`. `None` where the legs do not meet: L₁ + L₂ ≤ s or |L₁ − L₂| ≥ s.
///
/// Source: triangle with three known sides.
pub fn apex_m(leg1_m: f64, leg2_m: f64, span_m: f64) -> Option<(f64, f64)> {
    let out_m = (leg1_m * leg1_m - leg2_m * leg2_m + span_m * span_m) / (2.0 * span_m);
    let rise2 = leg1_m * leg1_m - out_m * out_m;
    (span_m > 0.0 && rise2 > 0.0).then(|| (out_m, rise2.sqrt()))
}

/// Tilt of a load that hangs straight from one hook, rad: `tan(tilt) = e/H`.
///
/// `offset_m` centre of gravity beside the hook's plumb as rigged, `height_m` hook above the centre of gravity; massless rigging.
///
/// Source: the centre of gravity comes to hang under the hook.
pub fn tilt_one_hook_rad(offset_m: f64, height_m: f64) -> f64 {
    libm::atan2(offset_m, height_m)
}

/// A piece of gear that hangs with the load: mass, offset from the hook's plumb and depth below the hook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GearMass {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Beside the hook's plumb as rigged, m.
    pub offset_m: f64,
    /// Below the hook, m; for what hangs freely from a lug, the lug's depth.
    pub depth_m: f64,
}

/// Tilt along a box under a bar with equal plumb straps, rad:
/// `tan(tilt) = (M·e + Σm·e_g)/(M·(H − h) + Σm·H_g)`.
///
/// `load_kg` M; `offset_m` e, its centre of gravity beside the hook's plumb; `rise_m` H, hook above the bar's lugs; `cg_m` h, centre of gravity
/// above the picks. Lugs and picks equally far apart; small angles. Strap length gives no stability.
/// `None` where the denominator is not above zero: the box turns over.
///
/// Source: derived: energy of bar and box turning together, straps staying plumb; confirmed against the general hang.
pub fn tilt_under_bar_rad(load_kg: f64, offset_m: f64, rise_m: f64, cg_m: f64, gear: &[GearMass]) -> Option<f64> {
    let moment = load_kg * offset_m + gear.iter().map(|g| g.mass_kg * g.offset_m).sum::<f64>();
    let righting = load_kg * (rise_m - cg_m) + gear.iter().map(|g| g.mass_kg * g.depth_m).sum::<f64>();
    (righting > 0.0).then(|| libm::atan(moment / righting))
}

/// What a box hung across from cross bars needs for its roll.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// Load, kg.
    pub load_kg: f64,
    /// Mass of the cross bars, kg.
    pub bars_kg: f64,
    /// Load's centre of gravity beside the middle of the picks, m.
    pub cg_offset_m: f64,
    /// Bridle apex beside the middle of the cross bar, m, same sense.
    pub apex_offset_m: f64,
    /// Bridle apex above the cross bar, m.
    pub rise_m: f64,
    /// Centre of gravity above the picks, m.
    pub cg_m: f64,
    /// Distance between the cross bar's lugs, m.
    pub lugs_m: f64,
    /// Distance between the picks across, m.
    pub picks_m: f64,
}

impl Across {
    /// Righting height of the load alone, m: `H_c·(w/c)² − h`. Not above zero: the load alone would turn over.
    ///
    /// Source: derived, as [`Across::roll_rad`].
    pub fn margin_m(&self) -> f64 {
        let ratio = self.picks_m / self.lugs_m;
        self.rise_m * ratio * ratio - self.cg_m
    }

    /// Roll across, rad: `tan(roll) = (M·e − (M + m)·a·w/c)/(M·(H_c·(w/c)² − h) + m·H_c·(w/c)²)`.
    ///
    /// With a = 0 this is the row "same, across" of the method page. The apex offset a turns the cross bar; a turn of the box by ψ turns the
    /// bar by ψ·w/c. Small angles, all straps tight. `None` where the denominator is not above zero.
    ///
    /// Source: derived: energy of the two tiers to second order; confirmed against the general hang.
    pub fn roll_rad(&self) -> Option<f64> {
        let ratio = self.picks_m / self.lugs_m;
        let moment = self.load_kg * self.cg_offset_m - (self.load_kg + self.bars_kg) * self.apex_offset_m * ratio;
        let righting = self.load_kg * self.margin_m() + self.bars_kg * self.rise_m * ratio * ratio;
        (righting > 0.0).then(|| libm::atan(moment / righting))
    }
}

/// Largest share of the load that any one corner of a stiff body on four legs can come to carry: min(its end's share, its side's share).
///
/// `along` and `across` are the centre of gravity's place between the picks, 0 at the first, 1 at the second. Result per corner in the order
/// first end first side, first end second side, second end first side, second end second side.
///
/// Source: derived: equilibrium with a free self-stress; the half of a central load that older rules count per leg follows from it.
pub fn stiff_box_bounds(along: f64, across: f64) -> [f64; 4] {
    let ends = [1.0 - along, along];
    let sides = [1.0 - across, across];
    [
        ends[0].min(sides[0]),
        ends[0].min(sides[1]),
        ends[1].min(sides[0]),
        ends[1].min(sides[1]),
    ]
}

/// Shares of the four corners when all legs share as their place says: products of end and side shares, same order as [`stiff_box_bounds`].
///
/// Source: lever rule both ways.
pub fn even_shares(along: f64, across: f64) -> [f64; 4] {
    [
        (1.0 - along) * (1.0 - across),
        (1.0 - along) * across,
        along * (1.0 - across),
        along * across,
    ]
}

/// Inward push of a strap that slants over an eave: `F = V·b/r`.
///
/// `vertical_n` what the strap carries, `half_width_m` b, `rise_m` r from the eave to where the strap is held.
///
/// Source: similar triangles, e.g. a rigging handbook's horizontal component.
pub fn eave_push_n(vertical_n: f64, half_width_m: f64, rise_m: f64) -> f64 {
    vertical_n * half_width_m / rise_m
}

/// A way in which rule books count the legs of a four-leg sling. Each multiplies the share that the centre of gravity gives the leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Convention {
    /// Every leg takes its share.
    AllShare,
    /// Three of four legs carry (EN 818-4 and the OSHA chain tables for three- and four-leg slings).
    ThreeLegs,
    /// Two of four legs carry (US Navy Seabee manuals).
    TwoLegs,
    /// A skew load factor of 1.25 (Noble Denton 0027/ND rev 11 §5.6.12, only for a matched set on one hook under its conditions).
    Skew125,
}

impl Convention {
    /// All of them, lightest first.
    pub const ALL: [Self; 4] = [Self::AllShare, Self::Skew125, Self::ThreeLegs, Self::TwoLegs];

    /// What the leg's share is multiplied with.
    pub const fn factor(self) -> f64 {
        match self {
            Self::AllShare => 1.0,
            Self::Skew125 => 1.25,
            Self::ThreeLegs => 4.0 / 3.0,
            Self::TwoLegs => 2.0,
        }
    }

    /// Its name on screen and paper.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AllShare => "all four share",
            Self::Skew125 => "× 1.25 (0027/ND §5.6.12, matched set only)",
            Self::ThreeLegs => "three legs carry (EN 818-4, OSHA tables)",
            Self::TwoLegs => "two legs carry (US Navy Seabee manuals)",
        }
    }
}
