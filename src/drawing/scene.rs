//! A drawing as data: shapes in the units of its frame, each with a role, no colour.

use crate::plan::Id;

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What it shows: "Plan, lift 5, scale 1 : 200".
    pub title: String,
    /// The same facts in sentences, for who cannot see the drawing.
    pub facts: Vec<String>,
    /// Width of the sheet, mm.
    pub width_mm: f64,
    /// Height of the sheet, mm.
    pub height_mm: f64,
    /// Where frame coordinates lie on the sheet.
    pub frame: Frame,
    /// What is drawn, the first at the bottom.
    pub shapes: Vec<Shape>,
}

/// Where frame coordinates lie on the sheet: `x_mm = x0_mm + x·mm_per_x`, `y_mm = y0_mm − y·mm_per_y`; on the sheet y runs down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The frame's origin, from the left edge of the sheet, mm.
    pub x0_mm: f64,
    /// The frame's origin, from the top edge of the sheet, mm.
    pub y0_mm: f64,
    /// Millimetres on the sheet for one unit of x; not 0.
    pub mm_per_x: f64,
    /// Millimetres on the sheet for one unit of y; not 0.
    pub mm_per_y: f64,
    /// Unit of x: "m".
    pub x_unit: &'static str,
    /// Unit of y: "m", "t".
    pub y_unit: &'static str,
}

impl Frame {
    /// A frame point on the sheet, mm from its top left corner.
    pub fn to_sheet(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [self.x0_mm + x * self.mm_per_x, self.y0_mm - y * self.mm_per_y]
    }
    /// A point of the sheet (mm from its top left corner) in the frame.
    pub fn from_sheet(&self, [x_mm, y_mm]: [f64; 2]) -> [f64; 2] {
        [(x_mm - self.x0_mm) / self.mm_per_x, (self.y0_mm - y_mm) / self.mm_per_y]
    }
}

/// What a shape stands for, for picking, dragging and reading back.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// The crane: its slew centre.
    Crane,
    /// A mat of the crane, in the order of the assessment.
    Mat(usize),
    /// The circle that the counterweight sweeps.
    Tail,
    /// Tie from the slew centre to a foundation corner.
    Tie(usize),
    /// The lift of that index, at the pick.
    Pick(usize),
    /// The lift of that index, at the set.
    Set(usize),
    /// The lift of that index as a whole.
    Lift(usize),
    /// A house box.
    Box(Id),
    /// A pick spot.
    Spot(Id),
    /// A place where the crane may stand.
    Pad(Id),
    /// The foundation.
    Foundation,
    /// The strip round the foundation that takes no load.
    NoLoadStrip,
    /// An area of the lot, by its index.
    Zone(usize),
    /// An obstacle, by its index.
    Obstacle(usize),
    /// A power line, by its index.
    PowerLine(usize),
    /// A cable, by its index.
    Cable(usize),
    /// The boom.
    Boom,
    /// The hook.
    Hook,
    /// The load that hangs on the hook.
    Load,
    /// The centre of gravity of the load.
    CentreOfGravity,
    /// A member of the rig, by its index in the hang.
    Member(usize),
    /// A bar of the rig.
    Bar,
    /// The steps of the rating chart.
    Rating,
    /// The planning limit below them.
    Limit,
    /// The next row of the chart.
    NextRow,
}

impl Item {
    /// The name that stands in the drawing's `data-item`: "crane", "set-4", "box-B1". Lifts and other indices count from 0.
    pub fn key(&self) -> String {
        match self {
            Self::Crane => "crane".into(),
            Self::Mat(i) => format!("mat-{i}"),
            Self::Tail => "tail".into(),
            Self::Tie(i) => format!("tie-{i}"),
            Self::Pick(i) => format!("pick-{i}"),
            Self::Set(i) => format!("set-{i}"),
            Self::Lift(i) => format!("lift-{i}"),
            Self::Box(id) => format!("box-{id}"),
            Self::Spot(id) => format!("spot-{id}"),
            Self::Pad(id) => format!("pad-{id}"),
            Self::Foundation => "foundation".into(),
            Self::NoLoadStrip => "no-load-strip".into(),
            Self::Zone(i) => format!("zone-{i}"),
            Self::Obstacle(i) => format!("obstacle-{i}"),
            Self::PowerLine(i) => format!("power-line-{i}"),
            Self::Cable(i) => format!("cable-{i}"),
            Self::Boom => "boom".into(),
            Self::Hook => "hook".into(),
            Self::Load => "load".into(),
            Self::CentreOfGravity => "cg".into(),
            Self::Member(i) => format!("member-{i}"),
            Self::Bar => "bar".into(),
            Self::Rating => "rating".into(),
            Self::Limit => "limit".into(),
            Self::NextRow => "next-row".into(),
        }
    }
}

/// What part a shape plays: its line type and weight after ISO 128, its fill, its lettering.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Continuous, 0.25 mm.
    Thin,
    /// Visible outline: continuous, 0.5 mm.
    Outline,
    /// Cut or loaded: continuous, 0.7 mm.
    Heavy,
    /// Dashed, 0.25 mm: hidden or underneath.
    Hidden,
    /// Long dash and dot, 0.25 mm: centre lines, reach arcs.
    Centre,
    /// Long dash and two dots, 0.25 mm: neighbouring parts, other positions, limits of movement.
    Phantom,
    /// Lines of a hatch, 0.13 mm.
    Hatch,
    /// Grid of a chart, 0.13 mm.
    Grid,
    /// Lines of a hatch that says "outside the limits entered", 0.35 mm.
    HatchOutside,
    /// Dimension and extension lines, 0.18 mm.
    Dimension,
    /// Leader lines, 0.18 mm.
    Leader,
    /// Lettering.
    Label,
    /// Lettering of what matters most.
    Strong,
    /// Filled with ink, no line.
    Solid,
    /// Filled with paper, no line: keeps lettering and bodies clear of what lies below.
    Cover,
    /// Filled with paper, outlined 0.5 mm.
    Body,
    /// Filled with paper, outlined 0.7 mm: the body that is lifted.
    BodyHeavy,
    /// Lettering in paper colour on solid ink.
    Reverse,
    /// A filled plate of ink behind reversed lettering: "outside".
    Plate,
    /// Dotted outline: cannot be checked.
    Unknown,
    /// Not seen by itself: takes the pointer for its item.
    Grip,
}

impl Role {
    /// The class that the drawing's elements carry: "r-thin".
    pub const fn class(self) -> &'static str {
        match self {
            Self::Thin => "r-thin",
            Self::Outline => "r-outline",
            Self::Heavy => "r-heavy",
            Self::Hidden => "r-hidden",
            Self::Centre => "r-centre",
            Self::Phantom => "r-phantom",
            Self::Hatch => "r-hatch",
            Self::Grid => "r-grid",
            Self::HatchOutside => "r-hatch-outside",
            Self::Dimension => "r-dimension",
            Self::Leader => "r-leader",
            Self::Label => "r-label",
            Self::Strong => "r-strong",
            Self::Solid => "r-solid",
            Self::Cover => "r-cover",
            Self::Body => "r-body",
            Self::BodyHeavy => "r-body-heavy",
            Self::Reverse => "r-reverse",
            Self::Plate => "r-plate",
            Self::Unknown => "r-unknown",
            Self::Grip => "r-grip",
        }
    }
}

/// One shape of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its part.
    pub role: Role,
    /// What it stands for.
    pub item: Option<Item>,
    /// Its form.
    pub form: Form,
}

/// The form of a shape. Points and radii are in frame units, sizes of lettering and marks in mm of the sheet; angles run
/// anticlockwise as seen on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A line through points.
    Line {
        /// Its points.
        points: Vec<[f64; 2]>,
    },
    /// Straight lines apart from each other: a hatch.
    Lines {
        /// Their ends.
        lines: Vec<[[f64; 2]; 2]>,
    },
    /// A closed outline.
    Polygon {
        /// Its corners.
        points: Vec<[f64; 2]>,
    },
    /// A circle.
    Circle {
        /// Centre.
        centre: [f64; 2],
        /// Radius, in units of x.
        radius: f64,
    },
    /// Part of a circle, anticlockwise.
    Arc {
        /// Centre.
        centre: [f64; 2],
        /// Radius, in units of x.
        radius: f64,
        /// Start, rad from the x axis.
        from_rad: f64,
        /// End, rad from the x axis, above `from_rad`.
        to_rad: f64,
    },
    /// Lettering.
    Text {
        /// Where its anchor is, at half the height of its capitals.
        at: [f64; 2],
        /// The words.
        text: String,
        /// Which part of it is at the anchor.
        anchor: Anchor,
        /// Size of the lettering, mm.
        size_mm: f64,
        /// Turned by, degrees anticlockwise.
        angle_deg: f64,
    },
    /// A mark of fixed size.
    Mark {
        /// Its place; an arrow head's tip.
        at: [f64; 2],
        /// Which.
        kind: MarkKind,
        /// Overall size, mm.
        size_mm: f64,
    },
}

/// Which part of a text lies at its anchor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Marks of fixed size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MarkKind {
    /// The quartered circle of a centre of gravity.
    CentreOfGravity,
    /// A cross of two lines.
    Cross,
    /// A filled arrow head.
    Arrow {
        /// Where it points, degrees anticlockwise from the right.
        toward_deg: f64,
    },
    /// A filled dot.
    Dot,
    /// An open circle.
    Ring,
    /// An open square.
    Square,
}

impl Scene {
    /// Every shape that stands for an item.
    pub fn of(&self, item: &Item) -> impl Iterator<Item = &Shape> {
        self.shapes
            .iter()
            .filter(move |shape| shape.item.as_ref() == Some(item))
    }
    /// Every piece of lettering.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        self.shapes.iter().filter_map(|shape| match &shape.form {
            Form::Text { text, .. } => Some(text.as_str()),
            _ => None,
        })
    }
    /// What is written on it and not said by its title and its facts, each once: with those it is all that a drawing says in words.
    pub fn written(&self) -> Vec<&str> {
        let said = |text: &str| self.title.contains(text) || self.facts.iter().any(|fact| fact.contains(text));
        let mut written: Vec<&str> = Vec::new();
        for text in self.texts() {
            if !said(text) && !written.contains(&text) {
                written.push(text);
            }
        }
        written
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_frame_goes_there_and_back() {
        let frame = Frame {
            x0_mm: 20.0,
            y0_mm: 180.0,
            mm_per_x: 5.0,
            mm_per_y: 4.0,
            x_unit: "m",
            y_unit: "m",
        };
        assert_eq!(frame.to_sheet([3.0, 10.0]), [35.0, 140.0]);
        assert_eq!(frame.from_sheet([35.0, 140.0]), [3.0, 10.0]);
    }
}
