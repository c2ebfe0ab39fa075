//! Rigs the tests and the benchmarks share, built from plain numbers.
#![allow(dead_code)]

use setday::statics::{Bend, Body, Edge, Hang, MassItem, Member, Point, Rig, Stop, Twist};

/// Standard gravity, m/s² (3rd CGPM, 1901).
pub const G_M_S2: f64 = 9.806_65;
/// So stiff that stretch is below a millionth, N.
pub const STIFF_N: f64 = 1.0e10;

pub const HOOK: Stop = Stop::Point(0);

pub fn hook(at_m: [f64; 3]) -> Point {
    Point {
        at_m,
        mass_kg: 0.0,
        fixed: true,
    }
}

pub fn node(body: usize, node: usize) -> Stop {
    Stop::Node { body, node }
}

pub fn lump(mass_kg: f64, at_m: [f64; 3]) -> MassItem {
    MassItem { mass_kg, at_m }
}

pub fn distance_m(a: [f64; 3], b: [f64; 3]) -> f64 {
    ((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2) + (a[2] - b[2]).powi(2)).sqrt()
}

/// A body drawn in place, one hook, and a leg from the hook to every pick, `longer_m` than the drawn distance.
pub fn bridle(masses: Vec<MassItem>, picks_m: &[[f64; 3]], hook_m: [f64; 3], longer_m: &[f64], ea_n: f64) -> Rig {
    let leg = |(index, pick_m): (usize, &[f64; 3])| {
        let longer_m = longer_m.get(index).copied().unwrap_or_default();
        Member::between(HOOK, node(0, index), distance_m(hook_m, *pick_m) + longer_m, ea_n)
    };
    Rig {
        bodies: vec![Body {
            masses,
            nodes_m: picks_m.to_vec(),
            ..Body::default()
        }],
        points: vec![hook(hook_m)],
        members: picks_m.iter().enumerate().map(leg).collect(),
    }
}

/// Four picks ±`half_x_m` × ±`half_y_m` at `z_m`.
pub fn four_picks(half_x_m: f64, half_y_m: f64, z_m: f64) -> [[f64; 3]; 4] {
    [
        [-half_x_m, -half_y_m, z_m],
        [half_x_m, -half_y_m, z_m],
        [half_x_m, half_y_m, z_m],
        [-half_x_m, half_y_m, z_m],
    ]
}

/// Twelve tonnes on four legs, picks ±5 × ±2 m, hook 7 m above them, one leg longer than the rest.
pub fn stiff_box_on_four(longer_m: f64, ea_n: f64) -> Rig {
    bridle(
        vec![lump(12_000.0, [0.0; 3])],
        &four_picks(5.0, 2.0, 0.0),
        [0.0, 0.0, 7.0],
        &[longer_m],
        ea_n,
    )
}

pub fn tensions_n(hang: &Hang) -> Vec<f64> {
    hang.members.iter().map(|member| member.tension_n).collect()
}

pub fn edge(from_m: [f64; 3], to_m: [f64; 3], outward: [f64; 3]) -> Edge {
    Edge { from_m, to_m, outward }
}

pub fn twist(axis_yz_m: [f64; 2], sections_x_m: &[f64], gj_n_m2: f64) -> Option<Twist> {
    Some(Twist {
        axis_yz_m,
        sections_x_m: sections_x_m.to_vec(),
        gj_n_m2,
    })
}

pub fn bend(neutral_z_m: f64, sections_x_m: &[f64], ei_n_m2: f64) -> Option<Bend> {
    Some(Bend {
        neutral_z_m,
        sections_x_m: sections_x_m.to_vec(),
        ei_n_m2,
    })
}

pub const M_PER_FT: f64 = 0.3048;
pub const KG_PER_LB: f64 = 0.453_592_37;
pub const N_PER_LB: f64 = KG_PER_LB * G_M_S2;

/// A bar on two legs, a cross bar on two legs under each end, a strap from each end of those to the load: lengths in m.
#[derive(Debug, Clone)]
pub struct TwoTier {
    pub box_masses: Vec<MassItem>,
    /// West south, east south, east north, west north.
    pub picks_m: [[f64; 3]; 4],
    pub twist: Option<Twist>,
    pub bar_m: f64,
    pub bar_kg: f64,
    pub cross_m: f64,
    pub cross_kg: f64,
    /// West, east.
    pub top_m: [f64; 2],
    /// West south, west north, east south, east north.
    pub bridle_m: [f64; 4],
    pub strap_m: f64,
    pub ea_n: f64,
}

impl TwoTier {
    /// Bodies: box, bar, west and east cross bar. Members: top west, east; bridle as above; straps as the picks.
    pub fn rig(&self) -> Rig {
        let middle = |axis: usize| self.picks_m.iter().map(|pick_m| pick_m[axis]).sum::<f64>() / 4.0;
        let (x_m, y_m) = (middle(0), middle(1));
        let rise_m = |leg_m: f64, half_m: f64| (leg_m * leg_m - half_m * half_m).max(0.0).sqrt();
        let cross_z_m = middle(2) + self.strap_m;
        let bar_z_m = cross_z_m + rise_m(self.bridle_m[0], self.cross_m / 2.0);
        let hook_z_m = bar_z_m + rise_m(self.top_m[0].min(self.top_m[1]), self.bar_m / 2.0);
        let bar = |length_m: f64, mass_kg: f64, at_m: [f64; 3], heading_rad: f64| Body {
            masses: vec![lump(mass_kg, [0.0; 3])],
            nodes_m: vec![[-length_m / 2.0, 0.0, 0.0], [length_m / 2.0, 0.0, 0.0]],
            at_m,
            heading_rad,
            ..Body::default()
        };
        let half = std::f64::consts::FRAC_PI_2;
        let west_m = x_m - self.bar_m / 2.0;
        let load = Body {
            masses: self.box_masses.clone(),
            nodes_m: self.picks_m.to_vec(),
            twist: self.twist.clone(),
            ..Body::default()
        };
        let leg = |from, to, length_m| Member::between(from, to, length_m, self.ea_n);
        Rig {
            bodies: vec![
                load,
                bar(self.bar_m, self.bar_kg, [x_m, y_m, bar_z_m], 0.0),
                bar(self.cross_m, self.cross_kg, [west_m, y_m, cross_z_m], half),
                bar(self.cross_m, self.cross_kg, [west_m + self.bar_m, y_m, cross_z_m], half),
            ],
            points: vec![hook([x_m, y_m, hook_z_m])],
            members: vec![
                leg(HOOK, node(1, 0), self.top_m[0]),
                leg(HOOK, node(1, 1), self.top_m[1]),
                leg(node(1, 0), node(2, 0), self.bridle_m[0]),
                leg(node(1, 0), node(2, 1), self.bridle_m[1]),
                leg(node(1, 1), node(3, 0), self.bridle_m[2]),
                leg(node(1, 1), node(3, 1), self.bridle_m[3]),
                leg(node(2, 0), node(0, 0), self.strap_m),
                leg(node(3, 0), node(0, 1), self.strap_m),
                leg(node(3, 1), node(0, 2), self.strap_m),
                leg(node(2, 1), node(0, 3), self.strap_m),
            ],
        }
    }
}

/// The project's invented box A1 with its gear from the truck; legs in ft.
pub fn kitchen_box(weight_lb: f64, top_ft: [f64; 2], bridle_ft: [f64; 4], strap_ft: f64, ea_n: f64) -> TwoTier {
    let ft = |[x, y, z]: [f64; 3]| [x * M_PER_FT, y * M_PER_FT, z * M_PER_FT];
    TwoTier {
        box_masses: vec![lump(weight_lb * KG_PER_LB, ft([29.807, 6.055, 4.151]))],
        picks_m: [[10.0, 0.0, 0.4], [42.0, 0.0, 0.4], [42.0, 13.5, 0.4], [10.0, 13.5, 0.4]].map(ft),
        twist: None,
        bar_m: 32.0 * M_PER_FT,
        bar_kg: 1640.0 * KG_PER_LB,
        cross_m: 14.0 * M_PER_FT,
        cross_kg: 470.0 * KG_PER_LB,
        top_m: top_ft.map(|leg_ft| leg_ft * M_PER_FT),
        bridle_m: bridle_ft.map(|leg_ft| leg_ft * M_PER_FT),
        strap_m: strap_ft * M_PER_FT,
        ea_n,
    }
}
