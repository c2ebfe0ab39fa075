//! Room on a sheet: the rectangles that lettering takes, and the lines that it had better not cover. Sheet frame: mm, y runs down.

/// Where a line of lettering lies on the sheet: its four corners, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate(pub [[f64; 2]; 4]);

impl Plate {
    /// A rectangle from its left, right, top and bottom edges about a point, turned by degrees anticlockwise about it.
    pub fn turned(at: [f64; 2], [left, right]: [f64; 2], [top, bottom]: [f64; 2], angle_deg: f64) -> Self {
        let (sin, cos) = (libm::sin(angle_deg.to_radians()), libm::cos(angle_deg.to_radians()));
        Self(
            [[left, top], [right, top], [right, bottom], [left, bottom]]
                .map(|[x, y]| [at[0] + x * cos + y * sin, at[1] - x * sin + y * cos]),
        )
    }

    /// The same with a margin all round.
    pub fn grown(&self, by_mm: f64) -> Self {
        let [a, b, _, d] = self.0;
        let unit = |p: [f64; 2], q: [f64; 2]| {
            let (x, y) = (q[0] - p[0], q[1] - p[1]);
            let length = libm::hypot(x, y).max(1e-9);
            [x / length * by_mm, y / length * by_mm]
        };
        let (u, v) = (unit(a, b), unit(a, d));
        let moved = |p: [f64; 2], s: f64, t: f64| [p[0] + s * u[0] + t * v[0], p[1] + s * u[1] + t * v[1]];
        Self([
            moved(self.0[0], -1.0, -1.0),
            moved(self.0[1], 1.0, -1.0),
            moved(self.0[2], 1.0, 1.0),
            moved(self.0[3], -1.0, 1.0),
        ])
    }

    /// Whether two share room: no line along an edge of either parts them (separating axes).
    pub fn overlaps(&self, other: &Self) -> bool {
        convex_overlap(&self.0, &other.0) && convex_overlap(&other.0, &self.0)
    }

    /// Whether a straight line passes through it.
    pub fn is_crossed(&self, from: [f64; 2], to: [f64; 2]) -> bool {
        let [low, high] = self.bounds();
        if from[0].max(to[0]) < low[0]
            || from[0].min(to[0]) > high[0]
            || from[1].max(to[1]) < low[1]
            || from[1].min(to[1]) > high[1]
        {
            return false;
        }
        let side = |p: [f64; 2]| (to[0] - from[0]) * (p[1] - from[1]) - (to[1] - from[1]) * (p[0] - from[0]);
        let sides = self.0.map(side);
        let parted = sides.iter().all(|s| *s > 0.0) || sides.iter().all(|s| *s < 0.0);
        // where the lettering is level its own edges cannot part them: the bounds have met
        let is_level = self.0[0][1].total_cmp(&self.0[1][1]).is_eq();
        !parted && (is_level || convex_overlap(&self.0, &[from, to]))
    }

    /// Its least and largest coordinates.
    pub fn bounds(&self) -> [[f64; 2]; 2] {
        let fold = |i: usize, start: f64, f: fn(f64, f64) -> f64| self.0.iter().map(|p| p[i]).fold(start, f);
        [
            [fold(0, f64::INFINITY, f64::min), fold(1, f64::INFINITY, f64::min)],
            [
                fold(0, f64::NEG_INFINITY, f64::max),
                fold(1, f64::NEG_INFINITY, f64::max),
            ],
        ]
    }
}

/// Whether no edge of the first rectangle parts it from the second set of points.
fn convex_overlap(rectangle: &[[f64; 2]; 4], points: &[[f64; 2]]) -> bool {
    (0..2).all(|i| {
        let (p, q) = (rectangle[i], rectangle[i + 1]);
        let axis = [q[0] - p[0], q[1] - p[1]];
        let along = |r: &[f64; 2]| r[0] * axis[0] + r[1] * axis[1];
        let range = |set: &[[f64; 2]]| {
            set.iter()
                .map(along)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
                    (low.min(x), high.max(x))
                })
        };
        let ((a, b), (c, d)) = (range(rectangle), range(points));
        a < d && c < b
    })
}

/// What is drawn, in level bands of the sheet, so that lettering only looks at what is near it.
#[derive(Debug)]
pub struct Inks {
    bands: Vec<Vec<Ink>>,
}

impl Inks {
    /// Height of a band, mm: a line of lettering touches one or two.
    const BAND_MM: f64 = 6.0;

    /// For a sheet of that height, mm.
    pub fn of(height_mm: f64) -> Self {
        let count = (height_mm / Self::BAND_MM).max(0.0) as usize + 1;
        Self {
            bands: vec![Vec::new(); count],
        }
    }

    /// The band of a height; what lies outside the sheet belongs to its first or last one.
    fn band(&self, y_mm: f64) -> usize {
        // the cast takes what is below zero to zero
        ((y_mm / Self::BAND_MM) as usize).min(self.bands.len() - 1)
    }

    /// Notes what is drawn.
    pub fn add(&mut self, ink: Ink) {
        let [low, high] = ink.bounds.map(|corner| self.band(corner[1]));
        for band in &mut self.bands[low..=high] {
            band.push(ink);
        }
    }

    /// How much lies under a plate: the weights of what passes through it.
    pub fn under(&self, plate: &Plate) -> f64 {
        self.near(plate.bounds())
            .filter(|ink| plate.is_crossed(ink.from, ink.to))
            .map(|ink| ink.weight)
            .sum()
    }

    /// How much a straight line crosses: the weights of what it parts.
    pub fn across(&self, from: [f64; 2], to: [f64; 2]) -> f64 {
        self.near(bounds_of(from, to))
            .filter(|ink| cross(from, to, ink.from, ink.to))
            .map(|ink| ink.weight)
            .sum()
    }

    /// What has bounds that meet these, each once.
    fn near(&self, bounds: [[f64; 2]; 2]) -> impl Iterator<Item = &Ink> {
        let [first, last] = bounds.map(|corner| self.band(corner[1]));
        (first..=last).flat_map(move |band| {
            // what lies in several bands counts in the first one that both touch
            let counts = move |ink: &&Ink| ink.meets(bounds) && self.band(ink.bounds[0][1]).max(first) == band;
            self.bands[band].iter().filter(counts)
        })
    }
}

/// Something drawn that lettering had better not cover, on the sheet.
#[derive(Clone, Copy, Debug)]
pub struct Ink {
    from: [f64; 2],
    to: [f64; 2],
    /// Its least and largest coordinates.
    bounds: [[f64; 2]; 2],
    weight: f64,
}

impl Ink {
    /// A straight line of that weight.
    pub fn new(from: [f64; 2], to: [f64; 2], weight: f64) -> Self {
        let bounds = bounds_of(from, to);
        Self {
            from,
            to,
            bounds,
            weight,
        }
    }

    /// Whether its bounds meet others: what does not meet cannot cross.
    fn meets(&self, [low, high]: [[f64; 2]; 2]) -> bool {
        (0..2).all(|k| self.bounds[0][k] <= high[k] && self.bounds[1][k] >= low[k])
    }
}

/// Least and largest coordinates of a straight line.
fn bounds_of(a: [f64; 2], b: [f64; 2]) -> [[f64; 2]; 2] {
    [[a[0].min(b[0]), a[1].min(b[1])], [a[0].max(b[0]), a[1].max(b[1])]]
}

/// Whether two straight lines cross.
fn cross(a: [f64; 2], b: [f64; 2], c: [f64; 2], d: [f64; 2]) -> bool {
    let side = |p: [f64; 2], q: [f64; 2], r: [f64; 2]| (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}
