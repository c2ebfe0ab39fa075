//! A drawing on the page: made to the width it is shown at, so that its lettering can be read there.

use super::browser;
use crate::drawing::{self, CraneView, Frame, Paper, Scene, StructureView, View, elements, view_box};
use crate::evaluate::Assessment;
use crate::plan::Plan;
use std::borrow::Cow;
use std::collections::BTreeMap;
use web_sys::Element;
use yew::prelude::*;
use yew::virtual_dom::{AttributeOrProperty, Attributes, Key, VNode, VTag, VText};

/// CSS pixels for a millimetre of the sheet: lettering of 2.5 mm is 11 px high in its capitals' box.
const PX_PER_MM: f64 = 4.4;
/// Drawings are made no narrower than this, mm: a phone.
const NARROWEST_MM: f64 = 80.0;
/// And no wider, mm.
const WIDEST_MM: f64 = 240.0;
/// What a drawing is made for before its place was measured, CSS pixels.
const UNMEASURED_PX: f64 = 520.0;

/// What can be drawn on the page.
pub trait Drawn: Copy + PartialEq + 'static {
    /// Height over width of the sheet that it is made for.
    fn proportion(self) -> f64;
    /// The drawing as data.
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene;
}

impl Drawn for CraneView {
    fn proportion(self) -> f64 {
        match self {
            Self::Plan(_) => 0.95,
            Self::Elevation(..) => 0.75,
            Self::Chart(_) => 0.6,
        }
    }
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        self.scene(plan, assessment, paper)
    }
}

impl Drawn for View {
    fn proportion(self) -> f64 {
        match self {
            Self::Plan(lift) => CraneView::Plan(lift).proportion(),
            Self::Elevation(lift, end) => CraneView::Elevation(lift, end).proportion(),
            Self::Chart(lift) => CraneView::Chart(lift).proportion(),
            Self::Hung(..) => 1.1,
            Self::RigSide(_) | Self::RigEnd(..) => 0.9,
            Self::RigTop(_) => 0.5,
        }
    }
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        self.scene(plan, assessment, paper)
    }
}

impl Drawn for StructureView {
    fn proportion(self) -> f64 {
        match self {
            Self::Shear(_) | Self::Moment(_) | Self::Sag(_) => 0.5,
            Self::Pull(_) => 0.6,
            Self::Raise(_) => 0.9,
        }
    }
    fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        self.scene(plan, assessment, paper)
    }
}

/// The sheet of that height over width that fits the width of the element it is shown in, also after that has changed.
#[hook]
pub fn use_paper(place: &NodeRef, proportion: f64) -> Paper {
    let width_px = use_state_eq(|| UNMEASURED_PX);
    {
        let (place, width_px) = (place.clone(), width_px.setter());
        use_effect_with((), move |()| {
            let measure = move || {
                let width = place.cast::<Element>().map(|element| f64::from(element.client_width()));
                if let Some(width) = width.filter(|width| *width > 0.0) {
                    width_px.set(width);
                }
            };
            measure();
            browser::on_window("resize", move |_| measure())
        });
    }
    let width_mm = (*width_px / PX_PER_MM).clamp(NARROWEST_MM, WIDEST_MM);
    Paper::screen(width_mm, width_mm * proportion)
}

/// The SVG alone.
pub fn picture(scene: &Scene) -> Html {
    html! {
        <svg class="scene" role="img" viewBox={view_box(scene)}>{ for elements(scene).into_iter().map(|element| node(element, None)) }</svg>
    }
}

/// The same at its true size, for a printed sheet.
pub fn picture_in_mm(scene: &Scene) -> Html {
    let [width, height] = [scene.width_mm, scene.height_mm].map(|mm| format!("{mm:.2}mm"));
    html! {
        <svg class="scene" role="img" {width} {height} viewBox={view_box(scene)}>{ for elements(scene).into_iter().map(|element| node(element, None)) }</svg>
    }
}

/// An element as a node: while the crane is dragged, only what has changed about it is written to the page.
fn node(element: drawing::Element, key: Option<Key>) -> VNode {
    let value = |value: Option<Cow<'static, str>>| value.map(|text| AttributeOrProperty::Attribute(text.into()));
    let mut tag = VTag::new(element.tag);
    tag.key = key;
    tag.set_attributes(Attributes::Dynamic {
        keys: element.keys,
        values: element.values.into_iter().map(value).collect(),
    });
    if !element.text.is_empty() {
        tag.add_child(VText::new(element.text).into());
    }
    // each keeps its node by its class, its item and its number among these: one more or less leaves the others as they are
    let mut numbers: BTreeMap<String, u32> = BTreeMap::new();
    tag.add_children(element.inside.into_iter().map(|inside| {
        let kind: String = inside.values.iter().take(2).flatten().map(|value| &**value).collect();
        let number = numbers.entry(kind.clone()).or_default();
        *number += 1;
        node(inside, Some(format!("{kind} {number}").into()))
    }));
    tag.into()
}

/// Where a point of the screen (CSS pixels) lies in the drawing's frame, given the element that shows the whole sheet.
pub fn in_frame(frame: &Frame, sheet_mm: [f64; 2], shown: &Element, screen_px: [f64; 2]) -> Option<[f64; 2]> {
    let area = shown.get_bounding_client_rect();
    let on_sheet = on_sheet(
        sheet_mm,
        [area.left(), area.top(), area.width(), area.height()],
        screen_px,
    )?;
    Some(frame.from_sheet(on_sheet))
}

/// The same as a share of the sheet's width and height, from its left top.
pub fn share_of_sheet(sheet_mm: [f64; 2], shown: &Element, screen_px: [f64; 2]) -> Option<[f64; 2]> {
    let area = shown.get_bounding_client_rect();
    let area = [area.left(), area.top(), area.width(), area.height()];
    let [x, y] = on_sheet(sheet_mm, area, screen_px)?;
    Some([x / sheet_mm[0], y / sheet_mm[1]])
}

/// Millimetres of the sheet for a point of the screen: the sheet fills the area as far as its proportions allow, in the middle.
fn on_sheet(sheet_mm: [f64; 2], [left, top, width, height]: [f64; 4], [x, y]: [f64; 2]) -> Option<[f64; 2]> {
    let px_per_mm = f64::min(width / sheet_mm[0], height / sheet_mm[1]);
    let along = |px: f64, start: f64, room: f64, mm: f64| (px - start - (room - mm * px_per_mm) / 2.0) / px_per_mm;
    let point = [along(x, left, width, sheet_mm[0]), along(y, top, height, sheet_mm[1])];
    point.iter().all(|mm| mm.is_finite()).then_some(point)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::STYLE;

    /// The page's policy allows no style inside a drawing, so the style sheet repeats what a drawing's file carries.
    #[test]
    fn drawings_look_the_same_on_screen_and_in_files() {
        let sheet = include_str!("../../www/styles/drawing.css");
        let rules: String = sheet.lines().skip(1).collect();
        assert_eq!(rules, STYLE);
    }

    #[test]
    fn the_sheet_stands_in_the_middle_of_its_area() {
        let check = |px: [f64; 2], mm: [f64; 2]| {
            assert_eq!(on_sheet([200.0, 100.0], [10.0, 20.0, 400.0, 300.0], px), Some(mm));
        };
        // 2 px a mm, 50 px left over above and below
        check([10.0, 70.0], [0.0, 0.0]);
        check([410.0, 270.0], [200.0, 100.0]);
        check([210.0, 170.0], [100.0, 50.0]);
        assert_eq!(on_sheet([200.0, 100.0], [0.0; 4], [1.0, 1.0]), None);
    }
}
