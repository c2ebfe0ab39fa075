//! How far everything stays from a power line, by whose rules and by the voltage.

use super::Profile;

const M_PER_FT: f64 = 0.3048;

/// How far to keep away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keep {
    /// The distance, m; `None` where only the line's owner or an engineer can set it.
    pub away_m: Option<f64>,
    /// Where the rule stands.
    pub source: &'static str,
}

/// Upper end of a band of voltage, kV, which belongs to the band, and the distance, m.
type Band = (f64, f64);

const fn ft(feet: f64) -> f64 {
    feet * M_PER_FT
}

/// 29 CFR 1926.1408 Table A. The upper value belongs to its band; above 1,000 kV the owner or a registered engineer sets the distance.
const US: [Band; 6] = [
    (50.0, ft(10.0)),
    (200.0, ft(15.0)),
    (350.0, ft(20.0)),
    (500.0, ft(25.0)),
    (750.0, ft(35.0)),
    (1000.0, ft(45.0)),
];
/// O. Reg. 213/91 s. 188: 750 V to 150 kV, to 250 kV, above. (S2: seen in a second publication.)
const ONTARIO: [Band; 3] = [(150.0, 3.0), (250.0, 4.5), (f64::INFINITY, 6.0)];
/// Alberta OHS Code, Schedule 4 (distances from memory).
const ALBERTA: [Band; 6] = [
    (40.0, 3.0),
    (72.0, 3.5),
    (144.0, 4.5),
    (260.0, 6.0),
    (500.0, 7.0),
    (f64::INFINITY, 7.0),
];
/// British Columbia OHS Regulation, Table 19-1A: 3 m to 75 kV, 4.5 m to 250 kV (S2), 6 m above (from memory).
const BRITISH_COLUMBIA: [Band; 3] = [(75.0, 3.0), (250.0, 4.5), (f64::INFINITY, 6.0)];

/// Distance until the utility has confirmed the voltage, m: Alberta OHS Code.
const ALBERTA_UNCONFIRMED_M: f64 = 7.0;

/// How far to keep away at a voltage that the utility confirmed, kV; of a profile that nobody has said, the farthest of all.
///
/// A voltage that is no number above 0 has no distance.
pub fn keep_away(profile: Profile, kilovolts: f64) -> Keep {
    let (bands, source): (&[Band], _) = match profile {
        Profile::Us => (&US, "29 CFR 1926.1408 Table A"),
        Profile::Ontario => (&ONTARIO, "O. Reg. 213/91 s. 188"),
        Profile::Alberta => (&ALBERTA, "Alberta OHS Code, Schedule 4 (from memory)"),
        Profile::BritishColumbia => (&BRITISH_COLUMBIA, "BC OHS Regulation, Table 19-1A"),
        Profile::NotSaid => return farthest(kilovolts),
    };
    let away_m = (kilovolts > 0.0)
        .then(|| bands.iter().find(|(up_to, _)| kilovolts <= *up_to))
        .flatten()
        .map(|(_, away_m)| *away_m);
    Keep { away_m, source }
}

fn farthest(kilovolts: f64) -> Keep {
    let mut farthest = Keep {
        away_m: Some(0.0),
        source: "no rules are chosen: the farthest of all of them",
    };
    for keep in Profile::NAMED.map(|profile| keep_away(profile, kilovolts)) {
        farthest.away_m = farthest.away_m.zip(keep.away_m).map(|(a, b)| a.max(b));
    }
    farthest
}

/// From which distance the rules begin, m, and where that stands. `kilovolts` is the confirmed voltage, `None` while it is not.
///
/// United States: 20 ft, 50 ft above 350 kV, at the crane's largest working radius (29 CFR 1926.1408, 1926.1409). Alberta: 7 m until
/// the utility confirms. Elsewhere, and where nobody has said: the larger of both.
pub fn trigger_m(profile: Profile, kilovolts: Option<f64>) -> Keep {
    let us_m = if kilovolts.is_some_and(|kv| kv > 350.0) {
        ft(50.0)
    } else {
        ft(20.0)
    };
    match profile {
        Profile::Us => Keep {
            away_m: Some(us_m),
            source: "29 CFR 1926.1408, 1926.1409",
        },
        Profile::Alberta => Keep {
            away_m: Some(ALBERTA_UNCONFIRMED_M),
            source: "Alberta OHS Code",
        },
        Profile::Ontario | Profile::BritishColumbia | Profile::NotSaid => Keep {
            away_m: Some(us_m.max(ALBERTA_UNCONFIRMED_M)),
            source: "the larger of 29 CFR 1926.1408 and the Alberta OHS Code",
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 29 CFR 1926.1408 Table A: "up to 50" is 10 ft, "over 50 to 200" 15 ft: the upper value belongs to the band.
    #[test]
    fn a_band_holds_its_upper_value() {
        let ft = |kv| keep_away(Profile::Us, kv).away_m.map(|m| m / M_PER_FT);
        for (kv, feet) in [
            (50.0, 10.0),
            (50.1, 15.0),
            (200.0, 15.0),
            (350.0, 20.0),
            (500.0, 25.0),
            (1000.0, 45.0),
        ] {
            approx::assert_relative_eq!(ft(kv).unwrap(), feet, max_relative = 1e-12);
        }
        for none in [1000.1, 0.0, -5.0, f64::NAN] {
            assert_eq!(ft(none), None, "{none}");
        }
    }

    #[test]
    fn with_no_rules_chosen_the_farthest_counts() {
        assert_eq!(keep_away(Profile::NotSaid, 100.0).away_m, Some(ft(15.0)));
        assert_eq!(keep_away(Profile::NotSaid, 2000.0).away_m, None);
        assert_eq!(trigger_m(Profile::NotSaid, None).away_m, Some(7.0));
        assert_eq!(trigger_m(Profile::NotSaid, Some(400.0)).away_m, Some(ft(50.0)));
    }
}
