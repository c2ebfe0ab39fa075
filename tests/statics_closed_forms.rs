//! The hang solver against formulas that do not come from it.
mod rigs;

use rigs::*;
use setday::statics::hang;

#[test]
fn one_long_leg_throws_the_load_on_one_diagonal() {
    let hang = hang(&stiff_box_on_four(0.03, 40e6), None).unwrap();
    for (tension_n, expected_kn) in tensions_n(&hang).into_iter().zip([3.1, 71.1, 3.1, 71.1]) {
        assert!((tension_n / 1000.0 - expected_kn).abs() < 0.05, "{tension_n}");
    }
}
