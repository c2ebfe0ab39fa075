//! An invented rig to learn from: a stiff box on four legs whose figures can be worked by hand.

use super::{
    Arrangement, Component, GearItem, GearKind, HouseBox, Leg, Lift, Load, Piece, Place3, Plan, Project, Rig, Shape,
    Weight,
};
use crate::quantity::{Entry, Length, Mass, Unit, UnitSystem};
use crate::rigging::Construction;

/// How much longer than the others one leg of [`four_legs`] is shown at first, m.
pub const LONGER_M: f64 = 0.03;

const NAME: &str = "Four legs, one long";

/// How much longer the first leg of a plan is shown at first when a rig is tried out, mm: nothing but in this example.
pub fn starts_longer_mm(plan: &Plan) -> i32 {
    if plan.project.invented && plan.project.name == NAME {
        30
    } else {
        0
    }
}

/// 12 t on four legs: picks ±5 × ±2 m, hook 7 m above them, EA 40 MN at the stiff end of the ropes.
///
/// The centre of gravity is central and 10 mm below the picks: at their very height the box would rock without resistance once two legs are slack.
pub fn four_legs() -> Plan {
    Plan {
        project: Project {
            name: NAME.into(),
            invented: true,
            units: UnitSystem::Metric,
            notes: "INVENTED EXAMPLE. No real box and no real gear. Never use it for a lift.".into(),
            ..Project::default()
        },
        boxes: vec![house()].into(),
        gear: vec![sling()].into(),
        rigs: vec![Rig {
            id: "R".into(),
            name: "Four legs".into(),
            arrangement: Arrangement::FourLegs {
                legs: core::array::from_fn(|_| Leg {
                    sling: "S".into(),
                    ..Leg::default()
                }),
            },
            pieces: vec![Piece {
                gear: "S".into(),
                count: 4,
            }],
            ..Rig::default()
        }]
        .into(),
        lifts: vec![Lift {
            id: "L1".into(),
            number: 1,
            load: Load::Box { id: "X".into() },
            rig: "R".into(),
            contingency: Entry::typed("0 %", Unit::Percent),
            ..Lift::default()
        }]
        .into(),
        ..Plan::default()
    }
}

fn metres(text: &str) -> Entry<Length> {
    Entry::typed(text, Unit::M)
}

fn tonnes(text: &str) -> Entry<Mass> {
    Entry::typed(text, Unit::T)
}

fn place([x, y, z]: [&str; 3]) -> Place3 {
    let [x, y, z] = [x, y, z].map(metres);
    Place3 { x, y, z }
}

fn house() -> HouseBox {
    HouseBox {
        id: "X".into(),
        name: "invented box".into(),
        ends: ["west end".into(), "east end".into()],
        sides: ["south side".into(), "north side".into()],
        length: metres("12 m"),
        width: metres("4 m"),
        height: metres("3 m"),
        components: vec![Component {
            id: "X-01".into(),
            name: "all of it".into(),
            weight: Weight::Lump { mass: tonnes("12 t") },
            shape: Shape::Point {
                at: place(["6 m", "2 m", "2.99 m"]),
            },
            ..Component::default()
        }],
        picks: [["1 m", "0 m"], ["1 m", "4 m"], ["11 m", "0 m"], ["11 m", "4 m"]]
            .map(|[x, y]| place([x, y, "3 m"]))
            .to_vec(),
        ..HouseBox::default()
    }
}

/// The diameter gives EA 40 MN by 80 kN/mm² on 0.785 d²; the length is √(5² + 2² + 7²) m.
fn sling() -> GearItem {
    GearItem {
        id: "S".into(),
        name: "invented wire rope sling".into(),
        kind: GearKind::Sling,
        quantity: 4,
        rating: tonnes("8 t"),
        mass: tonnes("0.03 t"),
        length: metres("8.83176 m"),
        construction: Construction::WireRope,
        diameter: Entry::typed("25.238 mm", Unit::Mm),
        tag_legible: true,
        ..GearItem::default()
    }
}
