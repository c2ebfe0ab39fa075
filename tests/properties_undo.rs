//! Undo and redo give every document back exactly: two hundred edits of all kinds, in any order.
#![allow(clippy::unwrap_used)]
#![cfg(not(target_arch = "wasm32"))]

use proptest::prelude::*;
use setday::plan::{Component, DEPTH, History, HouseBox, Id, Plan, Weight, format, sample};
use setday::quantity::{Entry, Unit};

/// An edit as a person makes them: a field, a row more, a row less, rows in another order, a drag.
#[derive(Clone, Debug)]
enum Edit {
    Name(String),
    Weight { on: usize, of: usize, text: String },
    Length { on: usize, text: String },
    AddComponent { on: usize },
    DropComponent { on: usize, of: usize },
    Swap { on: usize, of: usize },
    AddBox(String),
    DropLift { of: usize },
    Drag { gesture: u32, east_cm: i32, north_cm: i32 },
}

fn edit() -> impl Strategy<Value = Edit> {
    let row = 0..40_usize;
    prop_oneof![
        "[ -~äß\"\\\\]{0,12}".prop_map(Edit::Name),
        (row.clone(), row.clone(), "[0-9]{1,5}( lb| kg|,5|x)?").prop_map(|(on, of, text)| Edit::Weight {
            on,
            of,
            text
        }),
        (row.clone(), "[0-9]{0,6}").prop_map(|(on, text)| Edit::Length { on, text }),
        row.clone().prop_map(|on| Edit::AddComponent { on }),
        (row.clone(), row.clone()).prop_map(|(on, of)| Edit::DropComponent { on, of }),
        (row.clone(), row.clone()).prop_map(|(on, of)| Edit::Swap { on, of }),
        "[A-Z][0-9]".prop_map(Edit::AddBox),
        row.prop_map(|of| Edit::DropLift { of }),
        (0..4_u32, -900..900_i32, -900..900_i32).prop_map(|(gesture, east_cm, north_cm)| Edit::Drag {
            gesture,
            east_cm,
            north_cm
        }),
    ]
}

fn chosen<T>(list: &mut [T], at: usize) -> Option<&mut T> {
    let count = list.len().max(1);
    list.get_mut(at % count)
}

fn change(plan: &mut Plan, edit: &Edit) {
    match edit {
        Edit::Name(name) => plan.project.name.clone_from(name),
        Edit::Weight { on, of, text } => {
            if let Some(one) = chosen(&mut plan.boxes, *on).and_then(|house| chosen(&mut house.components, *of)) {
                one.weight = Weight::Lump {
                    mass: Entry::typed(text.clone(), Unit::Lb),
                };
            }
        }
        Edit::Length { on, text } => {
            if let Some(house) = chosen(&mut plan.boxes, *on) {
                house.length = Entry::typed(text.clone(), Unit::Ft);
            }
        }
        Edit::AddComponent { on } => {
            if let Some(house) = chosen(&mut plan.boxes, *on) {
                house.components.push(Component::default());
            }
        }
        Edit::DropComponent { on, of } => {
            if let Some(house) = chosen(&mut plan.boxes, *on)
                && !house.components.is_empty()
            {
                let at = of % house.components.len();
                house.components.remove(at);
            }
        }
        Edit::Swap { on, of } => {
            if let Some(house) = chosen(&mut plan.boxes, *on)
                && house.components.len() > 1
            {
                let last = house.components.len() - 1;
                house.components.swap(of % last, last);
            }
        }
        Edit::AddBox(id) => plan.boxes.push(HouseBox {
            id: Id(id.clone()),
            ..HouseBox::default()
        }),
        Edit::DropLift { of } => {
            if !plan.lifts.is_empty() {
                let at = of % plan.lifts.len();
                plan.lifts.remove(at);
            }
        }
        Edit::Drag { east_cm, north_cm, .. } => {
            plan.set_up.at.east = Entry::typed(format!("{east_cm} cm"), Unit::M);
            plan.set_up.at.north = Entry::typed(format!("{north_cm} cm"), Unit::M);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn two_hundred_edits_are_undone_and_made_again(edits in proptest::collection::vec(edit(), 200)) {
        const { assert!(DEPTH >= 200) };
        let mut history = History::new(sample::plan());
        // what each step of undo has to give back, as the text of its file
        let mut before = vec![format::save(history.present())];
        for edit in &edits {
            let gesture = match edit {
                Edit::Drag { gesture, .. } => Some(*gesture),
                _ => None,
            };
            let steps = history.undo_name().map(str::to_owned);
            let was = history.present().clone();
            history.edit(format!("edit {}", before.len()), gesture, |plan| change(plan, edit));
            if *history.present() == was {
                prop_assert_eq!(history.undo_name().map(str::to_owned), steps, "an edit that changes nothing is no step");
                continue;
            }
            let same_step = history.undo_name().map(str::to_owned) == steps;
            if same_step {
                before.pop();
            }
            before.push(format::save(history.present()));
        }
        for text in before.iter().rev().skip(1) {
            history.undo();
            prop_assert_eq!(&format::save(history.present()), text);
        }
        prop_assert_eq!(history.undo_name(), None);
        for text in before.iter().skip(1) {
            history.redo();
            prop_assert_eq!(&format::save(history.present()), text);
        }
        prop_assert_eq!(history.redo_name(), None);
        prop_assert_eq!(&format::open(&before[before.len() - 1]).unwrap().plan, &**history.present());
    }
}
