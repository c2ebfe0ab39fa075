//! The sector of the circle that a chart holds for, as the chart says it: "360 deg", "over rear 120 deg", "over side 90 deg".

use core::f64::consts::{FRAC_PI_2, PI, TAU};

/// Directions of the boom from the carrier's front that a chart holds for.
#[derive(Clone, Debug, PartialEq)]
pub enum Sector {
    /// All round.
    All,
    /// Within half a width of one of these directions, rad.
    About(Vec<f64>, f64),
}

impl Sector {
    /// Reads a chart's words; `None` where they do not say how wide the sector is.
    pub fn of(text: &str) -> Option<Self> {
        let text = text.trim();
        let number: String = text
            .chars()
            .skip_while(|c| !c.is_ascii_digit())
            .take_while(|c| c.is_ascii_digit() || *c == '.')
            .collect();
        let degrees: f64 = number.parse().ok()?;
        if degrees >= 360.0 {
            return Some(Self::All);
        }
        let says = |word: &str| {
            text.as_bytes()
                .windows(word.len())
                .any(|part| part.eq_ignore_ascii_case(word.as_bytes()))
        };
        let about = [
            (says("front"), vec![0.0]),
            (says("rear"), vec![PI]),
            (says("side"), vec![FRAC_PI_2, -FRAC_PI_2]),
        ];
        let about: Vec<f64> = about.into_iter().filter(|(is, _)| *is).flat_map(|(_, a)| a).collect();
        (!about.is_empty() && degrees > 0.0).then(|| Self::About(about, degrees.to_radians() / 2.0))
    }

    /// Whether the boom stays in one piece of it from a slew over a sweep (either way), rad from the carrier's front.
    pub fn holds(&self, from_rad: f64, sweep_rad: f64) -> bool {
        let Self::About(about, half_rad) = self else {
            return true;
        };
        about.iter().any(|middle| {
            let start = around(from_rad - middle);
            let end = start + sweep_rad;
            start.abs() <= half_rad + 1e-9 && end.abs() <= half_rad + 1e-9
        })
    }
}

/// An angle brought between −180° and 180°, rad.
pub fn around(rad: f64) -> f64 {
    let turned = libm::fmod(rad, TAU);
    if turned > PI {
        turned - TAU
    } else if turned <= -PI {
        turned + TAU
    } else {
        turned
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sector_is_read_with_its_width() {
        assert_eq!(Sector::of("360 deg"), Some(Sector::All));
        assert_eq!(Sector::of("360°"), Some(Sector::All));
        for unknown in ["over rear", "", "rear only", "over the moon 90"] {
            assert_eq!(Sector::of(unknown), None, "{unknown}");
        }
        let rear = Sector::of("Over Rear 120 deg").unwrap();
        let holds = |from: f64, sweep: f64| rear.holds(from.to_radians(), sweep.to_radians());
        assert!(holds(180.0, 0.0) && holds(-170.0, -20.0) && holds(120.0, 120.0));
        assert!(!holds(170.0, 71.0) && !holds(90.0, 30.0) && !holds(180.0, 360.0));
        let side = Sector::of("over side, 90 deg").unwrap();
        assert!(side.holds(1.0, 0.5) && side.holds(-1.0, -0.5));
        assert!(!side.holds(1.0, -2.0), "over the front from one side to the other");
    }
}
