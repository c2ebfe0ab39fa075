//! How far the centre of gravity may be from where the take-off puts it: the furthest it can go, and how far it is likely to be.

use super::Item;

/// An item whose mass and place are only known within bands.
#[derive(Clone, Debug, PartialEq)]
pub struct Banded {
    /// Mass and place as taken off.
    pub item: Item,
    /// How far the mass may be off either way, kg, zero or more.
    pub mass_off_kg: f64,
    /// How far the place may be off either way, m, along x, y and z, zero or more.
    pub place_off_m: [f64; 3],
    /// Items with the same name here have masses that are wrong together; empty: this one by itself.
    pub group: String,
}

impl Banded {
    /// A mass that is known, anywhere in a box from the origin to `size_m`: what a ticket finds beyond the take-off.
    pub fn anywhere(mass_kg: f64, size_m: [f64; 3]) -> Self {
        let half_m = size_m.map(|s| s / 2.0);
        Self {
            item: Item { mass_kg, at_m: half_m },
            mass_off_kg: 0.0,
            place_off_m: half_m,
            group: String::new(),
        }
    }
}

/// The furthest that the centre of gravity can be each way, m.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Envelope {
    /// Smallest x, y and z.
    pub low_m: [f64; 3],
    /// Largest.
    pub high_m: [f64; 3],
}

/// Exact extremes of `Σmᵢxᵢ/Σmᵢ` along each axis, every mass and every place anywhere in its band.
///
/// Groups are left out: every mass by itself reaches as far and farther. The three axes reach their extremes in different cases, so the box between them holds every centre of gravity and more; for the unplaced
/// difference alone it is exact. Items that are taken off have a negative mass. `None` without items, or where the masses could sum to
/// nothing.
///
/// Source: derived. `∂X/∂mᵢ = (xᵢ − X)/M`: at an extreme each mass is at an end of its band, switched by whether xᵢ lies beyond X; so sort by
/// x and try each switch. O(n log n).
pub fn envelope(items: &[Banded]) -> Option<Envelope> {
    let end = |axis, sign| furthest_m(items, axis, sign);
    let ends = |sign| Some([end(0, sign)?, end(1, sign)?, end(2, sign)?]);
    Some(Envelope {
        low_m: ends(-1.0)?,
        high_m: ends(1.0)?,
    })
}

/// The extreme along one axis: the largest for sign 1, the smallest for −1.
fn furthest_m(items: &[Banded], axis: usize, sign: f64) -> Option<f64> {
    let about_m = items.first()?.item.at_m[axis];
    let low_kg = |b: &Banded| b.item.mass_kg - b.mass_off_kg;
    let mut rows: Vec<(f64, f64, f64)> = items
        .iter()
        .map(|b| {
            let off_m = sign * b.item.mass_kg.signum() * b.place_off_m[axis];
            (
                sign * (b.item.at_m[axis] - about_m + off_m),
                low_kg(b),
                2.0 * b.mass_off_kg,
            )
        })
        .collect();
    rows.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut mass_kg: f64 = rows.iter().map(|row| row.1).sum();
    let mut moment: f64 = rows.iter().map(|row| row.1 * row.0).sum();
    if mass_kg <= 0.0 || !moment.is_finite() {
        return None;
    }
    let mut best_m = moment / mass_kg;
    for (x_m, _, more_kg) in rows {
        mass_kg += more_kg;
        moment += more_kg * x_m;
        best_m = best_m.max(moment / mass_kg);
    }
    Some(about_m + sign * best_m)
}

/// Standard deviations.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Spread {
    /// Of the mass, kg.
    pub mass_kg: f64,
    /// Of the centre of gravity along x, y and z, m.
    pub cg_m: [f64; 3],
    /// The centre of gravity that it is about, m: unplaced mass in the middle of its box.
    pub about_m: [f64; 3],
}

/// A band as a standard deviation: half width over √3. Source: JCGM 100:2008 4.3.7, rectangular distribution.
fn sigma(half_width: f64) -> f64 {
    half_width / 3.0_f64.sqrt()
}

/// How far mass and centre of gravity are likely to be off.
///
/// `σ_M² = Σσ_mᵢ²`, `σ_X² = Σ[((xᵢ − X)/M)²σ_mᵢ² + (mᵢ/M)²σ_xᵢ²]`; masses of one group are wrong together and add with their signs before
/// they are squared. To first order, so for small bands. `None` without items or mass.
///
/// Source: law of propagation of uncertainty, JCGM 100:2008 5.1.2 (independent) and 5.2.2 (correlated fully).
pub fn spread(items: &[Banded]) -> Option<Spread> {
    let all: Vec<Item> = items.iter().map(|b| b.item).collect();
    let total = super::centre_of_gravity(&all)?;
    let grouped2 = |slope: &dyn Fn(&Banded) -> f64| -> f64 {
        let mut groups: std::collections::BTreeMap<&str, f64> = std::collections::BTreeMap::new();
        let mut alone2 = 0.0;
        for b in items {
            let part = slope(b) * sigma(b.mass_off_kg);
            if b.group.is_empty() {
                alone2 += part * part;
            } else {
                *groups.entry(&b.group).or_default() += part;
            }
        }
        alone2 + groups.values().map(|part| part * part).sum::<f64>()
    };
    let placed2 = |axis: usize| -> f64 {
        let parts = items
            .iter()
            .map(|b| b.item.mass_kg / total.mass_kg * sigma(b.place_off_m[axis]));
        parts.map(|part| part * part).sum()
    };
    Some(Spread {
        mass_kg: grouped2(&|b| b.item.mass_kg.signum()).sqrt(),
        cg_m: core::array::from_fn(|axis| {
            let arm = |b: &Banded| b.item.mass_kg.signum() * (b.item.at_m[axis] - total.at_m[axis]) / total.mass_kg;
            (grouped2(&arm) + placed2(axis)).sqrt()
        }),
        about_m: total.at_m,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// A linear congruential generator with the constants of Knuth's MMIX, TAOCP vol. 2, 3.3.4.
    struct Lcg(u64);

    impl Lcg {
        fn unit(&mut self) -> f64 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 11) as f64 / (1_u64 << 53) as f64
        }
        fn between(&mut self, low: f64, high: f64) -> f64 {
            low + (high - low) * self.unit()
        }
    }

    fn banded(mass_kg: f64, x_m: f64, mass_off_kg: f64, place_off_m: f64, group: &str) -> Banded {
        Banded {
            item: Item {
                mass_kg,
                at_m: [x_m, -x_m, 1.0],
            },
            mass_off_kg,
            place_off_m: [place_off_m, place_off_m, 0.0],
            group: group.to_owned(),
        }
    }

    /// Every mass at either end and every place at either end, all of them tried.
    fn by_all_corners(items: &[Banded]) -> [f64; 2] {
        let mut ends = [f64::INFINITY, f64::NEG_INFINITY];
        for masses in 0..1_u32 << items.len() {
            for side in [-1.0, 1.0] {
                let (mut mass, mut moment) = (0.0, 0.0);
                for (i, b) in items.iter().enumerate() {
                    let up = if masses >> i & 1 == 1 { 1.0 } else { -1.0 };
                    let m = b.item.mass_kg + up * b.mass_off_kg;
                    mass += m;
                    // an item that is taken off moves the other way
                    let place = if m < 0.0 { -side } else { side };
                    moment += m * (b.item.at_m[0] + place * b.place_off_m[0]);
                }
                ends = [ends[0].min(moment / mass), ends[1].max(moment / mass)];
            }
        }
        ends
    }

    #[test]
    fn extremes_against_every_corner() {
        let mut random = Lcg(20_270_503);
        for case in 0..300 {
            let n = 1 + case % 12;
            let items: Vec<Banded> = (0..n)
                .map(|i| {
                    let mass = random.between(50.0, 900.0);
                    let share = random.between(0.0, 0.4);
                    let (x, off) = (random.between(-3.0, 16.0), random.between(0.0, 0.8));
                    let sign = if i > 0 && i % 5 == 0 { -0.05 } else { 1.0 };
                    banded(sign * mass, x, share * mass * sign.abs(), off, "")
                })
                .collect();
            let [low, high] = by_all_corners(&items);
            let found = envelope(&items).unwrap();
            assert_relative_eq!(found.low_m[0], low, epsilon = 1e-9);
            assert_relative_eq!(found.high_m[0], high, epsilon = 1e-9);
            assert_relative_eq!(found.low_m[1], -high, epsilon = 1e-9);
        }
    }

    /// 1000 kg at 5 m, 100 kg anywhere in a box of 12 × 4 × 3 m: by hand x from 5000/1100 to 6200/1100, y and z from nothing to 400/1100 and
    /// 300/1100 beyond the known item's.
    #[test]
    fn an_unplaced_mass() {
        let known = banded(1000.0, 5.0, 0.0, 0.0, "");
        let found = envelope(&[known, Banded::anywhere(100.0, [12.0, 4.0, 3.0])]).unwrap();
        for (value, expected) in [
            (found.low_m[0], 4.545_454_545),
            (found.high_m[0], 5.636_363_636),
            (found.low_m[1], -4.545_454_545),
            (found.high_m[1], -4.181_818_182),
            (found.low_m[2], 0.909_090_909),
            (found.high_m[2], 1.181_818_182),
        ] {
            assert_relative_eq!(value, expected, epsilon = 1e-9);
        }
    }

    #[test]
    fn nothing_to_bound() {
        assert_eq!(envelope(&[]), None);
        assert_eq!(spread(&[]), None);
        assert_eq!(envelope(&[banded(10.0, 1.0, 10.0, 0.0, "")]), None);
    }

    /// Against 400 000 draws of rectangular masses and places; two items share one draw of their mass. The standard error of a standard
    /// deviation from as many draws is 0.11 %, first order leaves about as much: within 1 %.
    #[test]
    fn spread_against_random_draws() {
        let items = [
            banded(2600.0, 7.9, 130.0, 0.1, "floor"),
            banded(400.0, 4.3, 60.0, 0.1, "floor"),
            banded(900.0, 15.0, 45.0, 0.3, ""),
            banded(-150.0, 12.0, 15.0, 0.2, ""),
            Banded::anywhere(120.0, [16.0, 4.0, 3.0]),
        ];
        let mut random = Lcg(7);
        let draws = 400_000;
        let mut sums = [0.0; 4];
        for _ in 0..draws {
            let shared = random.between(-1.0, 1.0);
            let (mut mass, mut moment) = (0.0, 0.0);
            for b in &items {
                let own = if b.group.is_empty() {
                    random.between(-1.0, 1.0)
                } else {
                    shared
                };
                let size = b.item.mass_kg.abs() + own * b.mass_off_kg;
                let m = size * b.item.mass_kg.signum();
                mass += m;
                moment += m * (b.item.at_m[0] + random.between(-1.0, 1.0) * b.place_off_m[0]);
            }
            let x = moment / mass;
            for (sum, value) in sums.iter_mut().zip([mass, mass * mass, x, x * x]) {
                *sum += value / f64::from(draws);
            }
        }
        let found = spread(&items).unwrap();
        assert_relative_eq!(found.mass_kg, (sums[1] - sums[0] * sums[0]).sqrt(), max_relative = 0.01);
        assert_relative_eq!(found.cg_m[0], (sums[3] - sums[2] * sums[2]).sqrt(), max_relative = 0.01);
        assert_relative_eq!(found.about_m[0], sums[2], max_relative = 1e-3);
    }
}
