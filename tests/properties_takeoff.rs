//! Properties of weight and centre of gravity that hold whatever the numbers are.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used)]

use proptest::prelude::*;
use setday::quantity::{Length, Mass};
use setday::takeoff::{Item, centre_of_gravity};

fn items() -> impl Strategy<Value = Vec<Item>> {
    let item = (1.0..5000.0, [-20.0..20.0, -5.0..5.0, 0.0..4.0]).prop_map(|(mass_kg, at_m)| Item { mass_kg, at_m });
    prop::collection::vec(item, 1..40)
}

fn near(a: [f64; 3], b: [f64; 3]) -> bool {
    a.iter().zip(b).all(|(p, q)| (p - q).abs() < 1e-9)
}

proptest! {
    /// Moments add up in any order.
    #[test]
    fn the_order_of_items_does_not_matter(list in items(), turn in 0_usize..40) {
        let mut turned = list.clone();
        turned.rotate_left(turn % list.len());
        let (a, b) = (centre_of_gravity(&list).unwrap(), centre_of_gravity(&turned).unwrap());
        prop_assert!(near(a.at_m, b.at_m) && (a.mass_kg - b.mass_kg).abs() < 1e-9 * a.mass_kg);
    }

    #[test]
    fn splitting_an_item_changes_nothing(list in items(), share in 0.0..1.0) {
        let mut split = list.clone();
        let first = split.remove(0);
        split.push(Item { mass_kg: first.mass_kg * share, ..first });
        split.push(Item { mass_kg: first.mass_kg * (1.0 - share), ..first });
        prop_assert!(near(centre_of_gravity(&list).unwrap().at_m, centre_of_gravity(&split).unwrap().at_m));
    }

    #[test]
    fn moving_everything_moves_the_centre(list in items(), by in [-100.0..100.0, -100.0..100.0, -100.0..100.0]) {
        let moved: Vec<Item> = list.iter().map(|i| Item { at_m: core::array::from_fn(|k| i.at_m[k] + by[k]), ..*i }).collect();
        let expected = centre_of_gravity(&list).unwrap().at_m;
        prop_assert!(near(centre_of_gravity(&moved).unwrap().at_m, core::array::from_fn(|k| expected[k] + by[k])));
    }

    /// Survey coordinates of seven digits lose nothing that matters.
    #[test]
    fn a_far_origin_costs_no_digits(list in items()) {
        let far = 4_500_000.0;
        let moved: Vec<Item> = list.iter().map(|i| Item { at_m: i.at_m.map(|x| x + far), ..*i }).collect();
        let (a, b) = (centre_of_gravity(&list).unwrap().at_m, centre_of_gravity(&moved).unwrap().at_m);
        prop_assert!(a.iter().zip(b).all(|(p, q)| (p + far - q).abs() < 1e-8));
    }

    #[test]
    fn turning_everything_turns_the_centre(list in items(), angle in 0.0..core::f64::consts::TAU) {
        let (cos, sin) = (libm::cos(angle), libm::sin(angle));
        let turn = |p: [f64; 3]| [p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos, p[2]];
        let turned: Vec<Item> = list.iter().map(|i| Item { at_m: turn(i.at_m), ..*i }).collect();
        prop_assert!(near(centre_of_gravity(&turned).unwrap().at_m, turn(centre_of_gravity(&list).unwrap().at_m)));
    }

    #[test]
    fn a_mirror_image_has_the_mirrored_centre(list in items()) {
        let mirror = |p: [f64; 3]| [-p[0], p[1], p[2]];
        let mirrored: Vec<Item> = list.iter().map(|i| Item { at_m: mirror(i.at_m), ..*i }).collect();
        prop_assert!(near(centre_of_gravity(&mirrored).unwrap().at_m, mirror(centre_of_gravity(&list).unwrap().at_m)));
    }

    #[test]
    fn a_mass_at_the_centre_leaves_it_there(list in items(), mass_kg in 1.0..5000.0) {
        let at_m = centre_of_gravity(&list).unwrap().at_m;
        let mut more = list.clone();
        more.push(Item { mass_kg, at_m });
        prop_assert!(near(centre_of_gravity(&more).unwrap().at_m, at_m));
    }

    #[test]
    fn an_item_without_mass_changes_nothing(list in items(), at_m in [-50.0..50.0, -50.0..50.0, -50.0..50.0]) {
        let mut more = list.clone();
        more.push(Item { mass_kg: 0.0, at_m });
        let (a, b) = (centre_of_gravity(&list).unwrap(), centre_of_gravity(&more).unwrap());
        prop_assert_eq!(a, b);
    }

    #[test]
    fn two_halves_make_the_whole(list in items(), cut in 0_usize..40) {
        let (left, right) = list.split_at(cut % list.len());
        let halves: Vec<Item> = [left, right].into_iter().filter_map(centre_of_gravity).map(|c| Item { mass_kg: c.mass_kg, at_m: c.at_m }).collect();
        prop_assert!(near(centre_of_gravity(&halves).unwrap().at_m, centre_of_gravity(&list).unwrap().at_m));
    }

    #[test]
    fn the_centre_lies_among_the_items(list in items()) {
        let at_m = centre_of_gravity(&list).unwrap().at_m;
        for (axis, at) in at_m.iter().enumerate() {
            let along = list.iter().map(|i| i.at_m[axis]);
            prop_assert!(along.clone().fold(f64::INFINITY, f64::min) - 1e-9 <= *at && *at <= along.fold(f64::NEG_INFINITY, f64::max) + 1e-9);
        }
    }

    #[test]
    fn units_come_back(value in 1e-6..1e9_f64) {
        prop_assert!((Mass::lb(Mass::kg(value).to_lb()).to_kg() / value - 1.0).abs() < 1e-14);
        prop_assert!((Length::ft(Length::m(value).to_ft()).to_m() / value - 1.0).abs() < 1e-14);
    }
}

#[test]
fn nothing_has_no_centre() {
    assert_eq!(centre_of_gravity(&[]), None);
    assert_eq!(
        centre_of_gravity(&[Item {
            mass_kg: 0.0,
            at_m: [1.0, 2.0, 3.0]
        }]),
        None
    );
    let cancel = [
        Item {
            mass_kg: 5.0,
            at_m: [0.0; 3],
        },
        Item {
            mass_kg: -5.0,
            at_m: [1.0; 3],
        },
    ];
    assert_eq!(centre_of_gravity(&cancel), None);
}
