//! A lug with its pin: what the plate and the pin hold, by their steel.
//!
//! The rules are those of ASME BTH-1 for pin-connected plates, from memory: look the edition in force up.

use super::bar::DesignCategory;

/// A plate with a hole and the pin in it. Measures in m, strengths in Pa, all above nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lug {
    /// Thickness of the plate.
    pub thickness_m: f64,
    /// Diameter of the hole.
    pub hole_m: f64,
    /// Diameter of the pin, not above the hole.
    pub pin_m: f64,
    /// From the edge of the hole to the edge of the plate, along the pull.
    pub end_m: f64,
    /// The same square to the pull, on either side.
    pub side_m: f64,
    /// Yield strength of plate and pin.
    pub yield_pa: f64,
    /// Ultimate strength of the plate.
    pub ultimate_pa: f64,
    /// How it is used.
    pub category: DesignCategory,
}

/// What it holds in each way of failing, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LugStrength {
    /// The plate torn beside the hole.
    pub tension_n: f64,
    /// The plate split between hole and edge.
    pub splitting_n: f64,
    /// The plate sheared out in two planes.
    pub shear_out_n: f64,
    /// The pin bearing on the plate.
    pub bearing_n: f64,
    /// The pin sheared in two planes.
    pub pin_shear_n: f64,
}

impl LugStrength {
    /// The least of them, in words and N.
    pub fn least(&self) -> (&'static str, f64) {
        let all = [
            ("tearing beside the hole", self.tension_n),
            ("splitting to the edge", self.splitting_n),
            ("shearing out", self.shear_out_n),
            ("bearing of the pin", self.bearing_n),
            ("shear of the pin", self.pin_shear_n),
        ];
        all.into_iter()
            .fold(all[0], |least, one| if one.1 < least.1 { one } else { least })
    }
}

impl Lug {
    /// Whether its measures can be a lug.
    pub fn is_one(&self) -> bool {
        let all = [
            self.thickness_m,
            self.hole_m,
            self.pin_m,
            self.end_m,
            self.side_m,
            self.yield_pa,
            self.ultimate_pa,
        ];
        all.iter().all(|x| x.is_finite() && *x > 0.0) && self.pin_m <= self.hole_m && self.yield_pa <= self.ultimate_pa
    }

    /// What a loose pin leaves: `Cr = 1 − 0.275·√(1 − (Dp/Dh)²)`.
    fn looseness(&self) -> f64 {
        let fit = self.pin_m / self.hole_m;
        1.0 - 0.275 * (1.0 - fit * fit).max(0.0).sqrt()
    }

    /// What it holds. Source: ASME BTH-1, pin-connected plates (from memory):
    ///
    /// `Pt = Cr·Fu/(1.2Nd)·2t·beff`, beff the least of b, 4t and `0.6b·(Fu/Fy)·√(Dh/b)`;
    /// `Pb = Cr·Fu/(1.2Nd)·[1.13(R − Dh/2) + 0.92b/(1 + b/Dh)]·t`, R from the hole's middle to the edge along the pull;
    /// `Pv = 0.7Fu/(1.2Nd)·2[a + Dp/2·(1 − cos φ)]·t`, φ = 55°·Dp/Dh; bearing `1.25·Fy/Nd·Dp·t`; pin `Fy/(√3·Nd)` over two areas.
    pub fn strength(&self) -> LugStrength {
        let factor = self.category.factor();
        let (t, hole, pin, b, a) = (self.thickness_m, self.hole_m, self.pin_m, self.side_m, self.end_m);
        let ultimate = self.ultimate_pa / (1.2 * factor);
        let clear = self.looseness() * ultimate;
        let effective = b
            .min(4.0 * t)
            .min(0.6 * b * self.ultimate_pa / self.yield_pa * (hole / b).sqrt());
        let splits = 1.13 * a + 0.92 * b / (1.0 + b / hole);
        let phi = 55.0_f64.to_radians() * pin / hole;
        let sheared = 2.0 * (a + pin / 2.0 * (1.0 - libm::cos(phi))) * t;
        let pin_area = core::f64::consts::PI * pin * pin / 4.0;
        LugStrength {
            tension_n: clear * 2.0 * t * effective,
            splitting_n: clear * splits * t,
            shear_out_n: 0.7 * ultimate * sheared,
            bearing_n: 1.25 * self.yield_pa / factor * pin * t,
            pin_shear_n: 2.0 * pin_area * self.yield_pa / (3.0_f64.sqrt() * factor),
        }
    }
}
