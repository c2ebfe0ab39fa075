//! What of its rating a piece keeps: hitch, angle of choke, bend and side pull, each by its own material's table.
//!
//! Tables are read on the safe side: between two listed angles the smaller share holds, and nothing is extrapolated.

use crate::rigging::Construction;

/// How a sling takes hold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hitch {
    /// Straight, end to end.
    #[default]
    Vertical,
    /// Round the load and through its own eye.
    Choker,
    /// Both ends up, the load in the bight.
    Basket,
}

/// Share of the vertical rating in a choker hitch where the tag gives none.
///
/// Wire rope 0.75 (US Navy NAVEDTRA 14081), textile 0.8 (EN 1492-1, mode factor). Chain has its own table with another base: see
/// [`choke_share`]. `None`: not known what it is made of.
pub const fn choker_share(construction: Construction) -> Option<f64> {
    match construction {
        Construction::WireRope | Construction::FibreCore => Some(0.75),
        Construction::Polyester | Construction::Nylon | Construction::RoundSling => Some(0.8),
        Construction::Chain => Some(1.0),
        Construction::Unknown => None,
    }
}

/// A row of a choke table: from this angle of choke up (°), this share.
type ChokeRow = (f64, f64);

/// Wire rope (and older synthetic tables), × the choker rating. At the border of two bands the smaller share holds. Source: ASME B30.9 practice.
const CHOKE_WIRE: [ChokeRow; 5] = [(120.0, 1.0), (90.0, 0.87), (60.0, 0.74), (30.0, 0.62), (0.0, 0.49)];
/// Synthetic slings, × the choker rating. Source: WSTDA tables.
const CHOKE_SYNTHETIC: [ChokeRow; 5] = [(120.0, 1.0), (105.0, 0.82), (90.0, 0.71), (60.0, 0.58), (30.0, 0.50)];
/// Chain, × the single-leg rating. Source: trade tables.
const CHOKE_CHAIN: [ChokeRow; 4] = [(120.0, 0.80), (90.0, 0.65), (60.0, 0.55), (30.0, 0.40)];

/// What is left at an angle of choke (°): of the choker rating, or for chain of the single-leg rating.
///
/// The angle is that between the two parts at the choke, 120° and more where it hangs free. `None` off the table, or where the material is not known.
pub fn choke_share(construction: Construction, angle_deg: f64) -> Option<f64> {
    if !(0.0..=180.0).contains(&angle_deg) {
        return None;
    }
    match construction {
        Construction::WireRope | Construction::FibreCore => {
            let beyond = |row: &&ChokeRow| angle_deg > row.0 || angle_deg >= 120.0;
            let last = CHOKE_WIRE[CHOKE_WIRE.len() - 1];
            Some(CHOKE_WIRE.iter().find(beyond).map_or(last.1, |row| row.1))
        }
        Construction::Polyester | Construction::Nylon | Construction::RoundSling => from(&CHOKE_SYNTHETIC, angle_deg),
        Construction::Chain => from(&CHOKE_CHAIN, angle_deg),
        Construction::Unknown => None,
    }
}

fn from(rows: &[ChokeRow], angle_deg: f64) -> Option<f64> {
    rows.iter().find(|row| angle_deg >= row.0).map(|row| row.1)
}

/// Share of a straight sling's rating that a basket hitch carries: `2·sin θ`, θ of its two parts from the horizontal, 30 to 90°.
///
/// With the parts of length L up to a height H that is `2·H/L`. A Navy manual prints `4·H/L` for one basket: that is twice what the two parts hold.
/// Source: equilibrium of the bight.
pub fn basket_share(angle_rad: f64) -> Option<f64> {
    let sine = libm::sin(angle_rad);
    (0.499_999..=1.0).contains(&sine).then_some(2.0 * sine)
}

/// D/d from which a wire rope's basket keeps its full rating: 25, mechanical splice. Source: wire rope users' practice.
pub const FULL_BASKET_D_OVER_D: f64 = 25.0;

/// What a wire rope keeps where it is bent: `1 − 0.5/√(D/d)`, D the diameter that it bends over, d its own, D/d from 1 up.
///
/// Source: Noble Denton 0027/ND rev 11, Table 7-1.
pub fn bend_share(d_over_d: f64) -> Option<f64> {
    (d_over_d >= 1.0 && d_over_d.is_finite()).then(|| 1.0 - 0.5 / d_over_d.sqrt())
}

/// The same for a basket hitch whose rating on the tag holds from D/d 25 up.
pub fn basket_bend_share(d_over_d: f64) -> Option<f64> {
    if d_over_d >= FULL_BASKET_D_OVER_D {
        return Some(1.0);
    }
    bend_share(d_over_d)
}

/// What a shackle keeps where it is pulled off its line by an angle (°): 0, 45 and 90° leave 100, 70 and 50 %. Source: trade tables.
pub fn side_load_share(angle_deg: f64) -> Option<f64> {
    let rows = [(0.0, 1.0), (45.0, 0.7), (90.0, 0.5)];
    rows.iter()
        .find(|(angle, _)| (0.0..=*angle).contains(&angle_deg))
        .map(|row| row.1)
}

/// A shouldered eye bolt: its size (in) and its rating (lb) at 0, 30, 60 and 90° from its axis.
type EyeBolt = (f64, [f64; 4]);

/// Shouldered eye bolts, carbon steel. Source: ASME B18.15. Sizes that nobody has looked up are left out.
const EYE_BOLTS: [EyeBolt; 1] = [(0.75, [4340.0, 2230.0, 1310.0, 1140.0])];
const EYE_BOLT_DEG: [f64; 4] = [0.0, 30.0, 60.0, 90.0];

/// What a shouldered eye bolt of a size (in) carries at an angle from its axis (°), lb: by its own table, never by a sine.
///
/// Between listed angles the smaller rating holds. `None`: no table for this size, or beyond 90°.
pub fn eye_bolt_lb(size_in: f64, angle_deg: f64) -> Option<f64> {
    let (_, ratings) = EYE_BOLTS.iter().find(|(size, _)| (size - size_in).abs() < 1e-6)?;
    let at = EYE_BOLT_DEG
        .iter()
        .position(|listed| (0.0..=*listed).contains(&angle_deg))?;
    Some(ratings[at])
}

/// What one leg of a set is rated for: `set/(n·sin θ)`, n the legs that count, θ from the horizontal at which the tag's figure holds, 30 to 90°.
///
/// `legs` of the set, `counted` of a four- or three-leg set by the rules in use; a two-leg set counts both. `None` for an angle below 30° or no legs.
/// Tables with rounded figures give a leg a little less than its own row: that is on the safe side for EN tables, and within their rounding else.
///
/// Source: equilibrium; EN 818-4 and the OSHA tables count three of four.
pub fn leg_of_set(set_kg: f64, legs: u32, counted: f64, angle_rad: f64) -> Option<f64> {
    let n = if legs > 2 { counted } else { f64::from(legs) };
    let sine = libm::sin(angle_rad);
    (n >= 1.0 && n <= f64::from(legs.max(1)) && (0.499_999..=1.0).contains(&sine)).then(|| set_kg / (n * sine))
}

/// How a textile sling is used, in the words of EN 1492.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextileMode {
    /// One sling, straight.
    Straight,
    /// One sling, choked.
    Choked,
    /// One sling in a basket, its parts up to this angle from the vertical (°).
    Basket(u32),
    /// Two slings, up to this angle from the vertical (°).
    TwoLegs(u32),
    /// Three or four slings, up to this angle from the vertical (°).
    FourLegs(u32),
}

/// Mode factor of textile slings: what one sling's rating is multiplied with. `None` beyond 60° from the vertical.
///
/// Source: EN 1492-1 and EN 1492-2, table of mode factors.
pub const fn mode_factor(mode: TextileMode) -> Option<f64> {
    Some(match mode {
        TextileMode::Straight => 1.0,
        TextileMode::Choked => 0.8,
        TextileMode::Basket(0) => 2.0,
        TextileMode::Basket(..=45) | TextileMode::TwoLegs(..=45) => 1.4,
        TextileMode::Basket(..=60) | TextileMode::TwoLegs(..=60) => 1.0,
        TextileMode::FourLegs(..=45) => 2.1,
        TextileMode::FourLegs(..=60) => 1.5,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common sense of reading a table on the safe side: a border belongs to the smaller share, nothing beyond the last row.
    #[test]
    fn tables_are_read_on_the_safe_side() {
        let wire = |deg| choke_share(Construction::WireRope, deg).unwrap();
        assert_eq!(
            [135.0, 120.0, 119.9, 90.0, 60.0, 30.0, 10.0].map(wire),
            [1.0, 1.0, 0.87, 0.74, 0.62, 0.49, 0.49]
        );
        assert_eq!(choke_share(Construction::Polyester, 119.0), Some(0.82));
        assert_eq!(choke_share(Construction::Polyester, 29.0), None);
        assert_eq!(choke_share(Construction::Chain, 29.0), None);
        assert_eq!(choke_share(Construction::Unknown, 120.0), None);
        assert_eq!(side_load_share(1.0), Some(0.7));
        assert_eq!(side_load_share(46.0), Some(0.5));
        assert_eq!(side_load_share(91.0), None);
        assert_eq!(side_load_share(f64::NAN), None);
        assert_eq!(eye_bolt_lb(0.75, 31.0), Some(1310.0));
        assert_eq!(eye_bolt_lb(0.5, 0.0), None);
        assert_eq!(bend_share(0.9), None);
        assert_eq!(basket_share(0.5), None);
        assert_eq!(mode_factor(TextileMode::FourLegs(61)), None);
    }
}
