//! A drawing backend for the charting library that records into a scene and takes the widths of lettering from our own table.
//!
//! So a chart prints, exports and tests like every drawing, and asks neither a font nor a page.

use super::lettering::width_mm;
use super::pen::{Pen, Words};
use super::scene::{Anchor, Form, Item, Role};
use core::cell::RefCell;
use core::convert::Infallible;
use plotters::style::text_anchor::{HPos, VPos};
use plotters::style::{RGBColor, ShapeStyle};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind, FontTransform,
};
use std::rc::Rc;

/// The library counts whole pixels: so many of them are a millimetre.
pub const PER_MM: f64 = 100.0;

/// What a colour of the library stands for here: a role and an item.
pub type Ink = (Role, Option<Item>);

/// Something the library drew, in mm of the sheet.
enum Drawn {
    Line(usize, Vec<[f64; 2]>),
    Text {
        text: String,
        at_mm: [f64; 2],
        anchor: Anchor,
        size_mm: f64,
        angle_deg: f64,
    },
}

/// Records what the library draws.
#[derive(Clone)]
pub struct Recorder {
    size_mm: [f64; 2],
    drawn: Rc<RefCell<Vec<Drawn>>>,
}

/// The colour that stands for an ink of the list.
pub const fn colour(ink: u8) -> RGBColor {
    RGBColor(ink, 0, 0)
}

/// The line style that stands for an ink of the list.
pub fn line(ink: u8) -> ShapeStyle {
    ShapeStyle::from(colour(ink))
}

impl Recorder {
    /// For a sheet of this size.
    pub fn new(width_mm: f64, height_mm: f64) -> Self {
        Self {
            size_mm: [width_mm, height_mm],
            drawn: Rc::default(),
        }
    }

    /// Puts all that was drawn on the sheet.
    pub fn give(&self, pen: &mut Pen, inks: &[Ink]) {
        for drawn in self.drawn.borrow_mut().drain(..) {
            match drawn {
                Drawn::Line(ink, points) => {
                    let Some((role, item)) = inks.get(ink) else { continue };
                    let points = points.into_iter().map(|p| pen.at_mm(p)).collect();
                    pen.add(*role, item.clone(), Form::Line { points });
                }
                Drawn::Text {
                    text,
                    at_mm,
                    anchor,
                    size_mm,
                    angle_deg,
                } => pen.fixed_at(at_mm, anchor, angle_deg, Words::new(text).scaled(size_mm / pen.size_mm)),
            }
        }
    }

    fn record(&self, drawn: Drawn) {
        self.drawn.borrow_mut().push(drawn);
    }
}

fn mm((x, y): BackendCoord) -> [f64; 2] {
    [f64::from(x) / PER_MM, f64::from(y) / PER_MM]
}

fn ink(color: BackendColor) -> Option<usize> {
    (color.alpha > 0.0).then_some(usize::from(color.rgb.0))
}

type Done = Result<(), DrawingErrorKind<Infallible>>;

impl DrawingBackend for Recorder {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        let [w, h] = self.size_mm.map(|mm| (mm * PER_MM) as u32);
        (w, h)
    }

    fn ensure_prepared(&mut self) -> Done {
        Ok(())
    }

    fn present(&mut self) -> Done {
        Ok(())
    }

    /// Single pixels have no meaning here: nothing that we draw is made of them.
    fn draw_pixel(&mut self, _: BackendCoord, _: BackendColor) -> Done {
        Ok(())
    }

    fn draw_line<S: BackendStyle>(&mut self, from: BackendCoord, to: BackendCoord, style: &S) -> Done {
        self.draw_path([from, to], style)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(&mut self, path: I, style: &S) -> Done {
        if let Some(ink) = ink(style.color()) {
            self.record(Drawn::Line(ink, path.into_iter().map(mm).collect()));
        }
        Ok(())
    }

    fn draw_text<T: BackendTextStyle>(&mut self, text: &str, style: &T, at: BackendCoord) -> Done {
        let size_mm = style.size() / PER_MM;
        let angle_deg = match style.transform() {
            FontTransform::None => 0.0,
            FontTransform::Rotate90 => -90.0,
            FontTransform::Rotate180 => 180.0,
            FontTransform::Rotate270 => 90.0,
        };
        let (anchor, h) = match style.anchor().h_pos {
            HPos::Left => (Anchor::Start, 0.0),
            HPos::Center => (Anchor::Middle, 0.0),
            HPos::Right => (Anchor::End, 0.0),
        };
        // our anchors are at half height
        let v = match style.anchor().v_pos {
            VPos::Top => size_mm / 2.0,
            VPos::Center => 0.0,
            VPos::Bottom => -size_mm / 2.0,
        };
        let [x, y] = mm(at);
        let turn = f64::to_radians(angle_deg);
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        self.record(Drawn::Text {
            text: text.to_owned(),
            at_mm: [x + h * cos + v * sin, y - h * sin + v * cos],
            anchor,
            size_mm,
            angle_deg,
        });
        Ok(())
    }

    fn estimate_text_size<T: BackendTextStyle>(
        &self,
        text: &str,
        style: &T,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        let wide = width_mm(text, style.size(), false);
        Ok((wide.ceil() as u32, style.size().ceil() as u32))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plotters_backend::FontFamily;

    /// A style whose font cannot be asked for its widths.
    struct NoFont;

    impl BackendTextStyle for NoFont {
        type FontError = Infallible;
        fn size(&self) -> f64 {
            250.0
        }
        fn family(&self) -> FontFamily<'_> {
            FontFamily::SansSerif
        }
        fn layout_box(&self, _: &str) -> Result<((i32, i32), (i32, i32)), Infallible> {
            unreachable!("the font was asked for its widths")
        }
        fn draw<E, F: FnMut(i32, i32, BackendColor) -> Result<(), E>>(
            &self,
            _: &str,
            _: BackendCoord,
            _: F,
        ) -> Result<Result<(), E>, Infallible> {
            unreachable!("the font was asked to draw")
        }
    }

    /// "100" is three digits of 0.556 of the size (Helvetica), here with the margin of 2 %: 3 × 0.556 × 250 × 1.02 = 425.3.
    #[test]
    fn no_font_is_asked() {
        let mut recorder = Recorder::new(100.0, 50.0);
        assert_eq!(recorder.estimate_text_size("100", &NoFont).unwrap(), (426, 250));
        recorder.draw_text("100", &NoFont, (1000, 2000)).unwrap();
        let drawn = recorder.drawn.borrow();
        assert!(
            matches!(&drawn[0], Drawn::Text { text, at_mm: [x, y], .. } if text == "100" && *x == 10.0 && *y == 21.25)
        );
    }
}
