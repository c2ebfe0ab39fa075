//! The hang by hand formulas, for the arrangements that have them.

use super::closed_form::{
    Across, GearMass, apex_m, even_shares, stiff_box_bounds, tilt_one_hook_rad, tilt_under_bar_rad,
};
use super::hung::{Corner, HangingLoad, Hung, Level, Member, MemberKind, SlingSetUp};
use crate::quantity::STANDARD_GRAVITY_M_S2 as G;

/// How a load hangs, or why it does not.
pub fn hang(load: &HangingLoad, set_up: &SlingSetUp) -> Result<Hung, String> {
    let picks = Picks::of(load)?;
    match set_up {
        SlingSetUp::FourLegs { legs_m } => four_legs(load, &picks, legs_m),
        SlingSetUp::BarAndCrossBars {
            bar_kg,
            bar_lugs_m,
            top_m,
            cross_kg,
            cross_lugs_m,
            bridles_m,
            straps_m,
        } => {
            let bar = Bar {
                mass_kg: *bar_kg,
                lugs_m: *bar_lugs_m,
                top_m: *top_m,
            };
            let cross = Cross {
                mass_kg: *cross_kg,
                lugs_m: *cross_lugs_m,
                bridles_m: *bridles_m,
                straps_m: *straps_m,
            };
            bar_and_cross_bars(load, &picks, &bar, &cross)
        }
    }
}

struct Bar {
    mass_kg: f64,
    lugs_m: f64,
    top_m: [f64; 2],
}

struct Cross {
    mass_kg: f64,
    lugs_m: f64,
    bridles_m: [[f64; 2]; 2],
    straps_m: [[f64; 2]; 2],
}

/// The pick rectangle and where the centre of gravity is in it.
struct Picks {
    middle_m: [f64; 2],
    spacing_m: [f64; 2],
    height_m: f64,
    /// Place of the centre of gravity between the picks, 0 at the first, 1 at the second.
    share: [f64; 2],
    /// Centre of gravity above the picks, m.
    cg_above_m: f64,
}

impl Picks {
    fn of(load: &HangingLoad) -> Result<Self, String> {
        let [a, b, c, d] = load.picks_m;
        let tolerance_m = 0.01;
        let aligned = |p: f64, q: f64| (p - q).abs() <= tolerance_m;
        if !(aligned(a[0], b[0]) && aligned(c[0], d[0]) && aligned(a[1], c[1]) && aligned(b[1], d[1])) {
            return Err("the four picks are not a rectangle: the hand formulas need two picks at each end, level with each other".into());
        }
        if ![b, c, d].iter().all(|p| aligned(p[2], a[2])) {
            return Err("the picks are not at one height: the hand formulas need them level".into());
        }
        let spacing_m = [c[0] - a[0], b[1] - a[1]];
        if !(spacing_m[0] > 0.0 && spacing_m[1] > 0.0) {
            return Err("the picks must be entered first end before second end, first side before second side".into());
        }
        let share: [f64; 2] = core::array::from_fn(|i| (load.cg_m[i] - a[i]) / spacing_m[i]);
        for (axis, words) in ["along", "across"].into_iter().enumerate() {
            if !(0.0..=1.0).contains(&share[axis]) {
                let out_m = spacing_m[axis] * (share[axis] - share[axis].clamp(0.0, 1.0)).abs();
                return Err(format!(
                    "the centre of gravity is outside the picks by {out_m:.2} m {words} the box: it would tip on lift-off; the picks must be moved"
                ));
            }
        }
        Ok(Self {
            middle_m: [(a[0] + c[0]) / 2.0, (a[1] + b[1]) / 2.0],
            spacing_m,
            height_m: a[2],
            share,
            cg_above_m: load.cg_m[2] - a[2],
        })
    }

    fn cg_offset_m(&self, axis: usize) -> f64 {
        (self.share[axis] - 0.5) * self.spacing_m[axis]
    }
}

const CORNERS: [Corner; 4] = [
    Corner { end: 0, side: 0 },
    Corner { end: 0, side: 1 },
    Corner { end: 1, side: 0 },
    Corner { end: 1, side: 1 },
];

fn level(tilt_rad: f64, size_m: f64, margin_m: f64, offset_m: f64) -> Level {
    Level {
        tilt_rad,
        rise_m: size_m * libm::sin(tilt_rad.abs()),
        margin_m,
        offset_m,
    }
}

/// Four legs of equal length to level picks: the hook comes over the middle of the picks.
fn four_legs(load: &HangingLoad, picks: &Picks, legs_m: &[f64; 4]) -> Result<Hung, String> {
    let (shortest, longest) = legs_m
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(lo, hi), l| (lo.min(*l), hi.max(*l)));
    if longest - shortest > 1e-9 * longest {
        return Err("legs of unequal length: the hand formulas need four equal legs".into());
    }
    let out2: f64 = picks.spacing_m.iter().map(|s| s * s / 4.0).sum();
    let rise2 = longest * longest - out2;
    if rise2 <= 0.0 {
        return Err(format!(
            "the legs of {longest:.2} m do not reach: they need more than {:.2} m to reach even flat",
            out2.sqrt()
        ));
    }
    let rise_m = rise2.sqrt();
    let weight_n = load.mass_kg * G;
    let angle_rad = libm::asin(rise_m / longest);
    let bounds = stiff_box_bounds(picks.share[0], picks.share[1]);
    let shares = even_shares(picks.share[0], picks.share[1]);
    let members = CORNERS
        .iter()
        .enumerate()
        .map(|(i, corner)| Member {
            kind: MemberKind::Leg(*corner),
            length_m: longest,
            angle_rad,
            vertical_n: weight_n * bounds[i],
            tension_n: weight_n * bounds[i] * longest / rise_m,
            shared_n: weight_n * shares[i] * longest / rise_m,
            slack: false,
        })
        .collect();
    let height_m = rise_m - picks.cg_above_m;
    if height_m <= 0.0 {
        return Err(format!(
            "the hook would be {:.2} m below the centre of gravity: the box turns over; lengthen the legs",
            -height_m
        ));
    }
    let tilt = |axis: usize| tilt_one_hook_rad(picks.cg_offset_m(axis), height_m);
    Ok(Hung {
        hook_above_floor_m: picks.height_m + rise_m,
        along: level(tilt(0), load.length_m, height_m, picks.cg_offset_m(0)),
        across: level(tilt(1), load.width_m, height_m, picks.cg_offset_m(1)),
        members,
        bar_compression_n: None,
        cross_compression_n: None,
        below_bar_kg: None,
        below_cross_kg: None,
        hook_over_m: picks.middle_m,
    })
}

fn bar_and_cross_bars(load: &HangingLoad, picks: &Picks, bar: &Bar, cross: &Cross) -> Result<Hung, String> {
    let (hook_m, rise_m) = apex_m(bar.top_m[0], bar.top_m[1], bar.lugs_m).ok_or_else(|| {
        format!(
            "the top legs of {:.2} m and {:.2} m do not meet over a bar of {:.2} m",
            bar.top_m[0], bar.top_m[1], bar.lugs_m
        )
    })?;
    let along = tilt_along(load, picks, bar, cross, (hook_m, rise_m))?;
    let (across, apex) = roll_across(load, picks, cross)?;
    let below_cross_kg: [f64; 2] = [1.0 - picks.share[0], picks.share[0]].map(|share| share * load.mass_kg);
    let at_lug_kg = below_cross_kg.map(|kg| kg + cross.mass_kg);
    let at_top_kg = at_lug_kg.map(|kg| kg + bar.mass_kg / 2.0);
    let mut members = Vec::with_capacity(10);
    for (end, kg) in at_top_kg.into_iter().enumerate() {
        members.push(member(MemberKind::Top { end }, bar.top_m[end], rise_m, kg * G));
    }
    let mut cross_compression_n = [0.0; 2];
    for end in 0..2 {
        let (out_m, up_m) = apex[end];
        for side in 0..2 {
            let from_m = if side == 0 { out_m } else { cross.lugs_m - out_m };
            let share = if side == 0 {
                1.0 - picks.share[1]
            } else {
                picks.share[1]
            };
            let vertical_n = (share * below_cross_kg[end] + cross.mass_kg / 2.0) * G;
            let corner = Corner { end, side };
            members.push(member(
                MemberKind::Bridle(corner),
                cross.bridles_m[end][side],
                up_m,
                vertical_n,
            ));
            cross_compression_n[end] = f64::max(cross_compression_n[end], vertical_n * from_m / up_m);
            let strap_n = share * below_cross_kg[end] * G;
            members.push(member(
                MemberKind::Strap(corner),
                cross.straps_m[end][side],
                cross.straps_m[end][side],
                strap_n,
            ));
        }
    }
    let outs = [hook_m, bar.lugs_m - hook_m];
    let compression = |end: usize| at_top_kg[end] * G * outs[end] / rise_m;
    let strap_m = cross.straps_m.iter().flatten().sum::<f64>() / 4.0;
    let up_m = (apex[0].1 + apex[1].1) / 2.0;
    Ok(Hung {
        hook_above_floor_m: picks.height_m + strap_m + up_m + rise_m,
        along,
        across,
        members,
        bar_compression_n: Some(compression(0).max(compression(1))),
        cross_compression_n: Some(cross_compression_n),
        below_bar_kg: Some(load.mass_kg + 2.0 * cross.mass_kg),
        below_cross_kg: Some(below_cross_kg),
        hook_over_m: [
            picks.middle_m[0] + hook_m - bar.lugs_m / 2.0,
            picks.middle_m[1] + (apex[0].0 + apex[1].0 - cross.lugs_m) / 2.0,
        ],
    })
}

fn member(kind: MemberKind, length_m: f64, rise_m: f64, vertical_n: f64) -> Member {
    let tension_n = vertical_n * length_m / rise_m;
    Member {
        kind,
        length_m,
        angle_rad: libm::asin((rise_m / length_m).clamp(-1.0, 1.0)),
        vertical_n,
        tension_n,
        shared_n: tension_n,
        slack: false,
    }
}

fn tilt_along(
    load: &HangingLoad,
    picks: &Picks,
    bar: &Bar,
    cross: &Cross,
    (hook_m, rise_m): (f64, f64),
) -> Result<Level, String> {
    let aside_m = bar.lugs_m / 2.0 - hook_m;
    let offset_m = picks.cg_offset_m(0) + aside_m;
    let gear = [bar.mass_kg, 2.0 * cross.mass_kg].map(|mass_kg| GearMass {
        mass_kg,
        offset_m: aside_m,
        depth_m: rise_m,
    });
    let margin_m = rise_m - picks.cg_above_m;
    let tilt = tilt_under_bar_rad(load.mass_kg, offset_m, rise_m, picks.cg_above_m, &gear);
    let tilt_rad = tilt.ok_or_else(|| turns_over("along", margin_m))?;
    Ok(level(tilt_rad, load.length_m, margin_m, offset_m))
}

/// Roll across, and for each end where its bridle's apex is: from the first lug of the cross bar, and above it, m.
fn roll_across(load: &HangingLoad, picks: &Picks, cross: &Cross) -> Result<(Level, [(f64, f64); 2]), String> {
    let mut apex = [(0.0, 0.0); 2];
    for (end, legs) in cross.bridles_m.iter().enumerate() {
        apex[end] = apex_m(legs[0], legs[1], cross.lugs_m).ok_or_else(|| {
            format!(
                "the bridle legs of {:.2} m and {:.2} m do not meet over a cross bar of {:.2} m",
                legs[0], legs[1], cross.lugs_m
            )
        })?;
    }
    let mean = |f: fn(&(f64, f64)) -> f64| (f(&apex[0]) + f(&apex[1])) / 2.0;
    let form = Across {
        load_kg: load.mass_kg,
        bars_kg: 2.0 * cross.mass_kg,
        cg_offset_m: picks.cg_offset_m(1),
        apex_offset_m: mean(|a| a.0) - cross.lugs_m / 2.0,
        rise_m: mean(|a| a.1),
        cg_m: picks.cg_above_m,
        lugs_m: cross.lugs_m,
        picks_m: picks.spacing_m[1],
    };
    let roll_rad = form.roll_rad().ok_or_else(|| turns_over("across", form.margin_m()))?;
    let offset_m = form.cg_offset_m - form.apex_offset_m;
    Ok((level(roll_rad, load.width_m, form.margin_m(), offset_m), apex))
}

fn turns_over(words: &str, margin_m: f64) -> String {
    format!(
        "the box turns over {words}: the apex is {:.2} m too low over the picks for its centre of gravity; lengthen the legs above the bar",
        -margin_m
    )
}
