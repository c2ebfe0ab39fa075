//! A drawing on the page: the scene's SVG, and where a point of the screen lies in it.

use crate::drawing::{Scene, svg};
use web_sys::Element;
use yew::prelude::*;

/// A drawing that is only looked at.
pub fn drawing(scene: &Scene) -> Html {
    html! { <figure class="drawing">{ picture(scene) }</figure> }
}

/// The SVG alone.
pub fn picture(scene: &Scene) -> Html {
    // our own writer made this text and escaped every name in it
    Html::from_html_unchecked(svg(scene).into())
}

/// The value of `viewBox` that lays another SVG exactly over the drawing.
pub fn view_box(scene: &Scene) -> String {
    format!("0 0 {:.3} {:.3}", scene.width_mm, scene.height_mm)
}

/// Where a point of the screen (CSS pixels) lies in the drawing's frame, given the element that shows the whole sheet.
pub fn in_frame(scene: &Scene, shown: &Element, screen_px: [f64; 2]) -> Option<[f64; 2]> {
    let area = shown.get_bounding_client_rect();
    let on_sheet = on_sheet(
        [scene.width_mm, scene.height_mm],
        [area.left(), area.top(), area.width(), area.height()],
        screen_px,
    )?;
    Some(scene.frame.from_sheet(on_sheet))
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
