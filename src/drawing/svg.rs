//! A scene written as SVG: sizes in mm, classes for roles, no colour and no style attribute in the shapes.

use super::lettering::{is_bold, width_mm};
use super::scene::{Anchor, Form, Frame, MarkKind, Role, Scene, Shape};
use core::fmt::Write as _;
use std::borrow::Cow;

/// How roles look on paper: black and white, line weights in mm (ISO 128-20: types 01, 02, 04, 05 and 07).
pub const STYLE: &str = "\
text{font-family:Arial,Helvetica,'Liberation Sans',sans-serif;fill:#000;stroke:#fff;stroke-width:.6;paint-order:stroke;stroke-linejoin:round}\
.r-thin,.r-outline,.r-heavy,.r-hidden,.r-centre,.r-phantom,.r-hatch,.r-grid,.r-hatch-outside,.r-dimension,.r-leader,.r-unknown\
{fill:none;stroke:#000;stroke-width:.25;stroke-linejoin:round}\
.r-outline{stroke-width:.5}.r-heavy{stroke-width:.7}.r-hatch,.r-grid{stroke-width:.13}.r-hatch-outside{stroke-width:.35}\
.r-dimension,.r-leader{stroke-width:.18}\
.r-hidden{stroke-dasharray:2 1}.r-centre{stroke-dasharray:6 1 .5 1}.r-phantom{stroke-dasharray:6 1 .5 1 .5 1}\
.r-unknown{stroke-width:.35;stroke-dasharray:.4 1}\
.r-solid,.r-plate{fill:#000;stroke:none}.r-cover{fill:#fff;stroke:none}\
.r-body{fill:#fff;stroke:#000;stroke-width:.5}.r-body-heavy{fill:#fff;stroke:#000;stroke-width:.7}\
text.r-strong{font-weight:bold}text.r-reverse{fill:#fff;stroke:none;font-weight:bold}.r-grip{fill:none;stroke:none;pointer-events:all}";

/// An element of SVG.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    /// Its name.
    pub tag: &'static str,
    /// Names of its attributes.
    pub keys: &'static [&'static str],
    /// Their values, not escaped; none where it has no such attribute.
    pub values: Vec<Option<Cow<'static, str>>>,
    /// The text in it, not escaped.
    pub text: String,
    /// The elements in it.
    pub inside: Vec<Element>,
}

impl Element {
    fn new(
        tag: &'static str,
        keys: &'static [&'static str],
        values: impl IntoIterator<Item: Into<Cow<'static, str>>>,
    ) -> Self {
        Self {
            tag,
            keys,
            values: values.into_iter().map(|value| Some(value.into())).collect(),
            text: String::new(),
            inside: Vec::new(),
        }
    }

    fn holding(tag: &'static str, text: &str) -> Self {
        Self {
            text: text.to_owned(),
            ..Self::new(tag, &[], [""; 0])
        }
    }

    fn group(inside: Vec<Element>) -> Self {
        Self {
            inside,
            ..Self::new("g", &[], [""; 0])
        }
    }

    fn write(&self, out: &mut String) {
        let _ = write!(out, "<{}", self.tag);
        for (key, value) in self.keys.iter().zip(&self.values) {
            if let Some(value) = value {
                let _ = write!(out, " {key}=\"{}\"", escaped(value));
            }
        }
        if self.text.is_empty() && self.inside.is_empty() {
            out.push_str("/>");
            return;
        }
        let _ = write!(out, ">{}", escaped(&self.text));
        self.inside.iter().for_each(|element| element.write(out));
        let _ = write!(out, "</{}>", self.tag);
    }
}

/// What stands inside the scene's SVG element; the page's style sheet gives the roles their look.
///
/// Shapes, leaders and lettering are three groups, so that a leader more moves nothing else to another place in its list.
pub fn elements(scene: &Scene) -> Vec<Element> {
    let layer = |shape: &Shape| match (&shape.form, shape.role) {
        (Form::Text { .. }, _) | (_, Role::Plate) => 2,
        (_, Role::Leader) => 1,
        _ => 0,
    };
    let group = |wanted: u8| {
        let shapes = scene.shapes.iter().filter(|shape| layer(shape) == wanted);
        Element::group(shapes.filter_map(|shape| element(shape, &scene.frame)).collect())
    };
    let mut elements = vec![
        Element::holding("title", &scene.title),
        Element::holding("desc", &scene.facts.join(" ")),
    ];
    elements.extend([0, 1, 2].map(group));
    elements
}

/// The value of `viewBox`.
pub fn view_box(scene: &Scene) -> String {
    format!("0 0 {} {}", number(scene.width_mm), number(scene.height_mm))
}

/// The scene as a file of its own, in black and white at its true size.
pub fn svg_file(scene: &Scene) -> String {
    let (view_box, width, height) = (view_box(scene), number(scene.width_mm), number(scene.height_mm));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"scene\" role=\"img\" viewBox=\"{view_box}\" width=\"{width}mm\" height=\"{height}mm\"><style>{STYLE}</style>"
    );
    elements(scene).iter().for_each(|element| element.write(&mut out));
    out.push_str("</svg>");
    out
}

/// One shape; `None` where a coordinate is no number, which SVG cannot hold.
fn element(shape: &Shape, frame: &Frame) -> Option<Element> {
    let radius_mm = |radius: f64| finite([radius * frame.mm_per_x.abs(), radius * frame.mm_per_y.abs()]);
    let mut element = match &shape.form {
        Form::Line { points } => Element::new("polyline", &["class", "data-item", "points"], [listed(points, frame)?]),
        Form::Lines { lines } => path(separate(lines, frame)?),
        Form::Polygon { points } => {
            Element::new("polygon", &["class", "data-item", "points"], [listed(points, frame)?])
        }
        Form::Circle { centre, radius } => {
            let ([x, y], [rx, ry]) = (finite(frame.to_sheet(*centre))?, radius_mm(*radius)?);
            Element::new(
                "ellipse",
                &["class", "data-item", "cx", "cy", "rx", "ry"],
                [x, y, rx, ry].map(number),
            )
        }
        Form::Arc {
            centre,
            radius,
            from_rad,
            to_rad,
        } => {
            let at = |angle: f64| {
                finite(frame.to_sheet([
                    centre[0] + radius * libm::cos(angle),
                    centre[1] + radius * libm::sin(angle),
                ]))
            };
            let ([x0, y0], [x1, y1], [rx, ry]) = (at(*from_rad)?, at(*to_rad)?, radius_mm(*radius)?);
            let large = u8::from(to_rad - from_rad > core::f64::consts::PI);
            let [x0, y0, x1, y1, rx, ry] = [x0, y0, x1, y1, rx, ry].map(number);
            path(format!("M{x0} {y0}A{rx} {ry} 0 {large} 0 {x1} {y1}"))
        }
        Form::Text {
            at,
            text,
            anchor,
            size_mm,
            angle_deg,
        } => {
            let [x, y] = finite(frame.to_sheet(*at))?.map(number);
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            let turn = (*angle_deg != 0.0).then(|| format!("rotate({} {x} {y})", number(-angle_deg)));
            let dy = number(HALF_CAPITAL * size_mm);
            // whatever the face, the words take the room that was kept for them
            let length = number(width_mm(text, *size_mm, is_bold(shape.role)));
            let mut element = Element::new(
                "text",
                &[
                    "class",
                    "data-item",
                    "x",
                    "y",
                    "dy",
                    "font-size",
                    "textLength",
                    "lengthAdjust",
                    "text-anchor",
                    "transform",
                ],
                [x, y, dy, number(*size_mm), length]
                    .map(Cow::from)
                    .into_iter()
                    .chain([Cow::from("spacingAndGlyphs"), Cow::from(anchor)]),
            );
            element.values.push(turn.map(Cow::from));
            element.text.clone_from(text);
            element
        }
        Form::Mark { at, kind, size_mm } => mark(finite(frame.to_sheet(*at))?, *kind, *size_mm),
    };
    let class = match (&shape.form, shape.role) {
        // the dot at the end of a leader
        (Form::Mark { .. }, Role::Leader) => Role::Solid,
        (_, role) => role,
    };
    let item = shape.item.as_ref().map(|item| item.key().into());
    element.values.splice(0..0, [Some(class.class().into()), item]);
    Some(element)
}

fn path(d: String) -> Element {
    Element::new("path", &["class", "data-item", "d"], [d])
}

/// Half the height of a capital as a share of the lettering's size: usual for sans-serif faces.
const HALF_CAPITAL: f64 = 0.36;

/// A mark without its class and item, which come first.
fn mark([x, y]: [f64; 2], kind: MarkKind, size_mm: f64) -> Element {
    let r = size_mm / 2.0;
    let [xs, ys, rs] = [x, y, r].map(number);
    let [left, right, top, bottom] = [x - r, x + r, y - r, y + r].map(number);
    match kind {
        MarkKind::CentreOfGravity => {
            // two opposite quarters filled, the circle drawn under them
            let quarters = format!(
                "M{xs} {ys}V{top}A{rs} {rs} 0 0 1 {right} {ys}ZM{xs} {ys}V{bottom}A{rs} {rs} 0 0 1 {left} {ys}Z"
            );
            let class = |role: Role| role.class().to_owned();
            Element {
                inside: vec![
                    Element::new("circle", &["class", "cx", "cy", "r"], [class(Role::Body), xs, ys, rs]),
                    Element::new("path", &["class", "d"], [class(Role::Solid), quarters]),
                ],
                ..Element::new("g", &["class", "data-item"], [""; 0])
            }
        }
        MarkKind::Cross => path(format!("M{left} {ys}H{right}M{xs} {top}V{bottom}")),
        MarkKind::Arrow { toward_deg } => {
            let angle = toward_deg.to_radians();
            let (cos, sin) = (libm::cos(angle), libm::sin(angle));
            let corner = |along: f64, across: f64| {
                let (px, py) = (x + along * cos - across * sin, y - along * sin - across * cos);
                format!("{},{}", number(px), number(py))
            };
            let (half, length) = (size_mm * ARROW_HALF_WIDTH, -size_mm);
            let points = format!("{xs},{ys} {} {}", corner(length, half), corner(length, -half));
            Element::new("polygon", &["class", "data-item", "points"], [points])
        }
        MarkKind::Dot | MarkKind::Ring => {
            Element::new("circle", &["class", "data-item", "cx", "cy", "r"], [xs, ys, rs])
        }
        MarkKind::Square => {
            let side = number(size_mm);
            Element::new(
                "rect",
                &["class", "data-item", "x", "y", "width", "height"],
                [left, top, side.clone(), side],
            )
        }
    }
}

/// Half the width of an arrow head as a share of its length: a slim closed and filled head (ISO 129-1).
const ARROW_HALF_WIDTH: f64 = 0.17;

fn finite<const N: usize>(numbers: [f64; N]) -> Option<[f64; N]> {
    numbers.iter().all(|n| n.is_finite()).then_some(numbers)
}

fn listed(points: &[[f64; 2]], frame: &Frame) -> Option<String> {
    let parts: Option<Vec<String>> = points
        .iter()
        .map(|p| finite(frame.to_sheet(*p)).map(|[x, y]| format!("{},{}", number(x), number(y))))
        .collect();
    parts.filter(|p| !p.is_empty()).map(|p| p.join(" "))
}

/// Lines apart from each other in one path.
fn separate(lines: &[[[f64; 2]; 2]], frame: &Frame) -> Option<String> {
    let mut d = String::new();
    for [from, to] in lines {
        let ([x0, y0], [x1, y1]) = (finite(frame.to_sheet(*from))?, finite(frame.to_sheet(*to))?);
        let [x0, y0, x1, y1] = [x0, y0, x1, y1].map(number);
        let _ = write!(d, "M{x0} {y0}L{x1} {y1}");
    }
    Some(d)
}

/// A number with at most three decimals and no needless zeros.
fn number(value: f64) -> String {
    let thousandths = (value * 1000.0).round();
    if thousandths.abs() > LARGEST {
        return format!("{value:.0}");
    }
    // whole numbers are written ten times as fast as broken ones, and a drawing holds a thousand of them
    let (sign, whole) = (if thousandths < 0.0 { "-" } else { "" }, thousandths.abs() as u64);
    match (whole / 1000, whole % 1000) {
        (units, 0) => format!("{sign}{units}"),
        (units, part) => {
            let mut text = format!("{sign}{units}.{part:03}");
            text.truncate(text.trim_end_matches('0').len());
            text
        }
    }
}

/// Thousandths up to here are whole numbers that a float and an integer hold alike.
const LARGEST: f64 = 9.0e15;

/// Text that can stand in XML.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0 holds no other control characters
            c if c.is_control() && !matches!(c, '\n' | '\t') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;

    fn scene(shapes: Vec<Shape>) -> Scene {
        Scene {
            title: "A <&> \"B\"".into(),
            facts: vec!["One & two.".into()],
            width_mm: 100.0,
            height_mm: 50.0,
            frame: Frame {
                x0_mm: 10.0,
                y0_mm: 40.0,
                mm_per_x: 5.0,
                mm_per_y: 5.0,
                x_unit: "m",
                y_unit: "m",
            },
            shapes,
        }
    }

    fn shape(form: Form) -> Shape {
        Shape {
            role: Role::Thin,
            item: Some(Item::Box("B\"1".into())),
            form,
        }
    }

    fn inside(scene: &Scene) -> String {
        let mut out = String::new();
        elements(scene).iter().for_each(|element| element.write(&mut out));
        out
    }

    /// XML 1.0 (fifth edition), 2.4: `&` and `<` are always escaped, the quotation mark inside attributes.
    #[test]
    fn words_are_escaped() {
        let text = Form::Text {
            at: [0.0, 0.0],
            text: "a<b>&\"c\"\u{1}".into(),
            anchor: Anchor::Start,
            size_mm: 2.5,
            angle_deg: 0.0,
        };
        let out = inside(&scene(vec![shape(text)]));
        assert!(out.contains("<title>A &lt;&amp;&gt; &quot;B&quot;</title><desc>One &amp; two.</desc>"));
        assert!(out.contains("data-item=\"box-B&quot;1\""));
        assert!(out.contains(">a&lt;b&gt;&amp;&quot;c&quot; </text>"));
    }

    #[test]
    fn y_runs_up_in_the_frame_and_down_on_the_sheet() {
        let line = Form::Line {
            points: vec![[0.0, 0.0], [1.0, 2.0], [1.0 / 3.0, -0.0]],
        };
        let out = inside(&scene(vec![shape(line)]));
        assert!(out.contains("points=\"10,40 15,30 11.667,40\""), "{out}");
    }

    #[test]
    fn an_arc_runs_anticlockwise_on_the_sheet() {
        let arc = Form::Arc {
            centre: [0.0, 0.0],
            radius: 2.0,
            from_rad: 0.0,
            to_rad: core::f64::consts::FRAC_PI_2,
        };
        let out = inside(&scene(vec![shape(arc)]));
        assert!(out.contains("d=\"M20 40A10 10 0 0 0 10 30\""), "{out}");
    }

    /// Against the standard library's way of writing three decimals.
    #[test]
    fn numbers_have_at_most_three_decimals() {
        for value in [
            0.0,
            -0.0,
            0.0004,
            -0.0004,
            0.0006,
            1.5,
            -2.25,
            10.0,
            123.456_7,
            -0.05,
            1e12 / 3.0,
            1e20,
        ] {
            let long = format!("{value:.3}");
            let short = long.trim_end_matches('0').trim_end_matches('.');
            assert_eq!(number(value), if short == "-0" { "0" } else { short }, "{value}");
        }
    }

    #[test]
    fn what_is_no_number_is_left_out() {
        let bad = Form::Line {
            points: vec![[0.0, 0.0], [f64::NAN, 2.0]],
        };
        let circle = Form::Circle {
            centre: [0.0, 0.0],
            radius: f64::INFINITY,
        };
        let out = inside(&scene(vec![shape(bad), shape(circle)]));
        assert!(!out.contains("polyline") && !out.contains("ellipse") && !out.contains("NaN"));
    }

    #[test]
    fn the_file_has_its_size_and_its_look_and_the_page_has_neither() {
        let (page, file) = (inside(&scene(vec![])), svg_file(&scene(vec![])));
        assert!(file.contains(" width=\"100mm\" height=\"50mm\"") && file.contains("<style>"));
        assert!(!page.contains("<style") && !page.contains("style=") && !page.contains('#'));
        assert!(file.contains("viewBox=\"0 0 100 50\"") && file.contains(&page));
    }
}
