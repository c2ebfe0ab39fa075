//! How a leg stretches, from what it is made of: its axial stiffness EA between a soft and a stiff end.
//!
//! Stiff is worse where legs are unequal, soft is worse for stretch; whoever asks runs both ends.

use serde::Serialize;

/// Modulus of a wire rope on 0.785 d², Pa: Noble Denton 0027/ND rev 11 §5.6.13, for skew, where stiff is worse.
const WIRE_ROPE_PA: f64 = 80.0e9;
/// Share of that for stretch, where soft is worse: about 25 % softer (common practice, no source).
const WIRE_ROPE_SOFT: f64 = 0.75;
/// Stretch of polyester at its rating, least and most: makers name about 3 %, the spread round it is common practice, no source.
const POLYESTER: [f64; 2] = [0.02, 0.04];
/// Stretch of nylon at its rating: 8 to 10 % (makers' practice).
const NYLON: [f64; 2] = [0.08, 0.10];
/// EA over d² of link chain, Pa: 85 kN/mm² for open links, 101 for links with studs (mooring practice, from memory; used here as common practice).
const CHAIN_PA: [f64; 2] = [85.0e9, 101.0e9];

/// What a sling is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Construction {
    /// Nobody said.
    #[default]
    Unknown,
    /// Steel wire rope with a steel core.
    WireRope,
    /// Steel wire rope with a fibre core.
    FibreCore,
    /// Flat polyester web.
    Polyester,
    /// Polyester round sling.
    RoundSling,
    /// Nylon (polyamide) web.
    Nylon,
    /// Steel link chain.
    Chain,
}

/// EA of a leg between its soft and its stiff end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AxialStiffness {
    /// Soft end, N.
    pub soft_n: f64,
    /// Stiff end, N.
    pub stiff_n: f64,
    /// Where it comes from.
    pub source: &'static str,
}

/// EA of one piece; `None` where what it is made of, its diameter (rope, chain) or its rating (webs) is not known.
///
/// `diameter_m` of the rope, or of the bar that the links are made of; `rating_n` the tag's, straight pull. Webs: the secant at the rating.
/// New wire rope beds in by 0.25 to 1 % besides (common practice): that is length, not stiffness, and belongs in the length tolerance.
pub fn axial_stiffness(
    construction: Construction,
    diameter_m: Option<f64>,
    rating_n: Option<f64>,
) -> Option<AxialStiffness> {
    let diameter_m = diameter_m.filter(|d| *d > 0.0);
    let rating_n = rating_n.filter(|n| *n > 0.0);
    let web = |stretch: [f64; 2], source| {
        rating_n.map(|n| AxialStiffness {
            soft_n: n / stretch[1],
            stiff_n: n / stretch[0],
            source,
        })
    };
    match construction {
        Construction::Unknown => None,
        Construction::WireRope | Construction::FibreCore => diameter_m.map(|d| {
            let stiff_n = wire_rope_n(d);
            AxialStiffness {
                soft_n: WIRE_ROPE_SOFT * stiff_n,
                stiff_n,
                source: "wire rope: 80 kN/mm² on 0.785 d² (0027/ND rev 11 §5.6.13), soft end 25 % less (common practice, no source)",
            }
        }),
        Construction::Polyester | Construction::RoundSling => web(
            POLYESTER,
            "polyester: about 3 % at its rating (makers' practice), 2 to 4 % here (common practice, no source)",
        ),
        Construction::Nylon => web(NYLON, "nylon: 8 to 10 % at its rating (makers' practice)"),
        Construction::Chain => diameter_m.map(|d| AxialStiffness {
            soft_n: CHAIN_PA[0] * d * d,
            stiff_n: CHAIN_PA[1] * d * d,
            source: "chain: 85 to 101 kN/mm² on d² (mooring practice, from memory)",
        }),
    }
}

/// EA of a wire rope, N: `E·0.785·d²` with E 80 kN/mm². Source: Noble Denton 0027/ND rev 11 §5.6.13.
fn wire_rope_n(diameter_m: f64) -> f64 {
    WIRE_ROPE_PA * 0.785 * diameter_m * diameter_m
}

/// The band of a piece of which only the rating is known, N: from the softest web's stretch to none.
pub fn unknown_stiffness_n(rating_n: Option<f64>) -> [f64; 2] {
    let soft_n = rating_n.filter(|n| *n > 0.0).map(|n| n / NYLON[1]);
    [soft_n.unwrap_or(super::STIFF_N), super::STIFF_N]
}

/// Torsional rigidity of a closed box from the shear stiffness of its four faces, N·m²: `GJ = 4A²/Σ(s/(Gt))`.
///
/// `gt_n_per_m` shear stiffness of floor, roof and both sides, above nothing: shear force per length over shear angle, as tables of sheathed
/// panels give it (SDPWS Ga). A is the area inside, s the width of a face. Not for a box with an open side, which resists by warping.
///
/// Source: R. Bredt; W. C. Young and R. G. Budynas, Roark's Formulas for Stress and Strain, table of torsion, thin closed tube (from memory).
pub fn closed_box_gj_n_m2(width_m: f64, height_m: f64, gt_n_per_m: [f64; 4]) -> f64 {
    let area_m2 = width_m * height_m;
    let widths_m = [width_m, width_m, height_m, height_m];
    let flexibility: f64 = widths_m.iter().zip(gt_n_per_m).map(|(s, gt)| s / gt).sum();
    4.0 * area_m2 * area_m2 / flexibility
}

/// EA of pieces in a row, each its length (m) and its EA (N), as one of their whole length: `ΣL/Σ(L/EA)`.
///
/// Lengths above nothing. Source: springs in series.
pub fn in_series_n(pieces: &[(f64, f64)]) -> f64 {
    let length_m: f64 = pieces.iter().map(|(length_m, _)| length_m).sum();
    length_m / pieces.iter().map(|(length_m, ea_n)| length_m / ea_n).sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// 16 mm: 80 000 N/mm² × 0.785 × 256 mm² = 16.0768 MN, by hand from 0027/ND's E and A.
    #[test]
    fn wire_rope() {
        let ea = axial_stiffness(Construction::WireRope, Some(0.016), None).unwrap();
        assert_relative_eq!(ea.stiff_n, 16.0768e6, max_relative = 1e-12);
        assert_relative_eq!(ea.soft_n, 12.0576e6, max_relative = 1e-12);
    }

    /// A web of 50 kN that stretches by 8 to 10 % at its rating, and one leg of 100 kN and 4 m that is 3 % longer under it: 3.33 MN lies
    /// within the band of polyester.
    #[test]
    fn webs_stretch_as_makers_say() {
        let nylon = axial_stiffness(Construction::Nylon, None, Some(50e3)).unwrap();
        assert_relative_eq!(nylon.soft_n, 500e3, max_relative = 1e-12);
        assert_relative_eq!(nylon.stiff_n, 625e3, max_relative = 1e-12);
        let polyester = axial_stiffness(Construction::Polyester, None, Some(100e3)).unwrap();
        assert!(polyester.soft_n < 3.33e6 && 3.33e6 < polyester.stiff_n);
    }

    #[test]
    fn what_is_not_known_has_no_figure() {
        assert_eq!(axial_stiffness(Construction::Unknown, Some(0.02), Some(1e5)), None);
        assert_eq!(axial_stiffness(Construction::WireRope, None, Some(1e5)), None);
        assert_eq!(axial_stiffness(Construction::Chain, Some(0.0), None), None);
        assert_eq!(axial_stiffness(Construction::Nylon, Some(0.02), None), None);
        assert_eq!(unknown_stiffness_n(None), [super::super::STIFF_N; 2]);
        assert_eq!(unknown_stiffness_n(Some(1e4)), [1e5, super::super::STIFF_N]);
    }

    /// Box 4 × 3 m midline, 12 mm thick: J = 0.4937 m⁴ (Bredt), for G = 1.
    #[test]
    fn closed_box() {
        assert_relative_eq!(closed_box_gj_n_m2(4.0, 3.0, [0.012; 4]), 0.4937, epsilon = 1e-4);
        // one soft face of four alike takes most of it: 14/t against 11/t + 3·10/t
        let soft = closed_box_gj_n_m2(4.0, 3.0, [0.012, 0.012, 0.0012, 0.012]);
        assert_relative_eq!(soft / 0.493_714, 14.0 / 41.0, max_relative = 1e-5);
    }

    /// Two equal springs in a row give half the stiffness over twice the length: the same EA.
    #[test]
    fn pieces_in_a_row() {
        assert_relative_eq!(in_series_n(&[(2.0, 5e6), (2.0, 5e6)]), 5e6, max_relative = 1e-12);
        // 3 m at 6 MN and 1 m at 2 MN stretch by 0.5 + 0.5 m per MN: 4 MN over 4 m
        assert_relative_eq!(in_series_n(&[(3.0, 6e6), (1.0, 2e6)]), 4e6, max_relative = 1e-12);
    }
}
