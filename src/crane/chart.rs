//! Reading a rating chart the way the book says: the next larger radius, the smaller number, and never beyond the table.

use crate::quantity::{Length, Mass, Safe, Unit, show};

/// How near a listed radius or boom length counts as that one, relative.
const SAME: f64 = 1e-9;

/// One cell of the numeric table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Cell {
    NotAllowed,
    /// Odd or unreadable, and nobody has confirmed it.
    Unconfirmed,
    CapacityKg(f64),
}

/// A rating chart in numbers. Made by [`RatingChart::table`](super::RatingChart::table).
#[derive(Clone, Debug, PartialEq)]
pub struct RatingTable {
    /// Boom lengths, rising; at least one.
    booms_m: Vec<f64>,
    /// Radii, rising; at least one.
    radii_m: Vec<f64>,
    /// Which row of the typed chart each radius is.
    typed_rows: Vec<usize>,
    /// Row by row, one per radius and boom length.
    cells: Vec<Cell>,
}

/// What the chart says about one radius and boom length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rated {
    /// A capacity.
    Capacity {
        /// The rating that holds.
        mass: Mass,
        /// The row it stands in.
        row_radius: Length,
        /// The column it stands in.
        column_boom: Length,
        /// That cell's row and column in the chart as typed, where its footnote marks are.
        typed_at: (usize, usize),
        /// The following row, with the rating there if the chart has one: what a little more radius would cost.
        next_row: Option<(Length, Option<Mass>)>,
    },
    /// Outside the table: no rating.
    OffChart {
        /// Which side of the table it leaves.
        axis: Axis,
        /// What was wanted.
        wanted: Length,
        /// Where the table begins.
        from: Length,
        /// Where the table ends.
        to: Length,
    },
    /// A cell that would be needed is blank: not allowed.
    NotAllowed {
        /// The row of the blank cell.
        row_radius: Length,
        /// The column of the blank cell.
        column_boom: Length,
        /// Smallest and largest radius with a rating at the wanted boom length.
        allowed: Option<(Length, Length)>,
    },
    /// A cell that would be needed is odd or unreadable and not confirmed.
    Unconfirmed {
        /// The row of that cell.
        row_radius: Length,
        /// The column of that cell.
        column_boom: Length,
    },
}

/// The two sides of a rating table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// The rows.
    Radius,
    /// The columns.
    Boom,
}

/// The listed entries around a value: the same one twice when it is listed itself.
type Around = (usize, usize);

impl RatingTable {
    /// `booms_m` and `radii_m` rise strictly and are not empty; `cells` holds one row after the other.
    pub(super) fn new(booms_m: Vec<f64>, radii_m: Vec<f64>, typed_rows: Vec<usize>, cells: Vec<Cell>) -> Self {
        debug_assert_eq!(cells.len(), booms_m.len() * radii_m.len());
        debug_assert_eq!(typed_rows.len(), radii_m.len());
        Self {
            booms_m,
            radii_m,
            typed_rows,
            cells,
        }
    }

    /// The boom lengths of the columns, rising.
    pub fn booms(&self) -> impl ExactSizeIterator<Item = Length> + DoubleEndedIterator + '_ {
        self.booms_m.iter().copied().map(Length::m)
    }

    /// The radii of the rows, rising.
    pub fn radii(&self) -> impl ExactSizeIterator<Item = Length> + DoubleEndedIterator + '_ {
        self.radii_m.iter().copied().map(Length::m)
    }

    /// The capacity printed in a cell, counted along the rising radii and boom lengths; `None` if blank, unconfirmed or outside.
    pub fn printed(&self, row: usize, column: usize) -> Option<Mass> {
        if row >= self.radii_m.len() || column >= self.booms_m.len() {
            return None;
        }
        match self.cell(row, column) {
            Cell::CapacityKg(kg) => Some(Mass::kg(kg)),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        }
    }

    /// The rating at a radius and a boom length.
    ///
    /// On a listed radius and length: that cell. Between them: the smallest of the cells around, all of which must be
    /// allowed; on an ordinary chart that is the next larger radius and the next longer boom. Outside: no rating.
    ///
    /// Source: US Army TM 5-3810-305-10, note 19 (radius), and TM 5-3810-306-10 (boom length): the smaller rating holds.
    pub fn rating(&self, radius: Length, boom: Length) -> Rated {
        let Some(columns) = around(&self.booms_m, boom.to_m()) else {
            return off_chart(Axis::Boom, boom, &self.booms_m);
        };
        let Some(rows) = around(&self.radii_m, radius.to_m()) else {
            return off_chart(Axis::Radius, radius, &self.radii_m);
        };
        let (cell, row, column) = self.smallest(rows, columns);
        let (row_radius, column_boom) = (Length::m(self.radii_m[row]), Length::m(self.booms_m[column]));
        match cell {
            Cell::CapacityKg(kg) => Rated::Capacity {
                mass: Mass::kg(kg),
                row_radius,
                column_boom,
                typed_at: (self.typed_rows[row], column),
                next_row: self.next_row(rows.1, columns),
            },
            Cell::NotAllowed => Rated::NotAllowed {
                row_radius,
                column_boom,
                allowed: self.allowed(columns),
            },
            Cell::Unconfirmed => Rated::Unconfirmed {
                row_radius,
                column_boom,
            },
        }
    }

    /// The rating of [`rating`](Self::rating) in kilograms, and nothing else: for loops that ask millions of times.
    pub fn capacity_kg(&self, radius_m: f64, boom_m: f64) -> Option<f64> {
        let columns = around(&self.booms_m, boom_m)?;
        let rows = around(&self.radii_m, radius_m)?;
        match self.smallest(rows, columns).0 {
            Cell::CapacityKg(kg) => Some(kg),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        }
    }

    /// The smallest radius with a rating at this boom length.
    pub fn min_radius(&self, boom: Length) -> Option<Length> {
        Some(self.allowed(around(&self.booms_m, boom.to_m())?)?.0)
    }

    /// The largest radius with a rating at this boom length.
    pub fn max_radius(&self, boom: Length) -> Option<Length> {
        Some(self.allowed(around(&self.booms_m, boom.to_m())?)?.1)
    }

    fn cell(&self, row: usize, column: usize) -> Cell {
        self.cells[row * self.booms_m.len() + column]
    }

    /// The cell that governs among those around, and where it stands: a blank one before an unconfirmed one before the
    /// smallest; of equal ones that of the larger radius and the longer boom.
    fn smallest(&self, rows: Around, columns: Around) -> (Cell, usize, usize) {
        let mut governing = (self.cell(rows.1, columns.1), rows.1, columns.1);
        for (row, column) in [(rows.1, columns.0), (rows.0, columns.1), (rows.0, columns.0)] {
            let cell = self.cell(row, column);
            if strictness(cell) < strictness(governing.0) {
                governing = (cell, row, column);
            }
        }
        governing
    }

    fn next_row(&self, row: usize, columns: Around) -> Option<(Length, Option<Mass>)> {
        let next = row + 1;
        let radius_m = *self.radii_m.get(next)?;
        let capacity = match self.smallest((next, next), columns).0 {
            Cell::CapacityKg(kg) => Some(Mass::kg(kg)),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        };
        Some((Length::m(radius_m), capacity))
    }

    /// First and last radius with a rating in these columns.
    fn allowed(&self, columns: Around) -> Option<(Length, Length)> {
        let mut rated = (0..self.radii_m.len())
            .filter(|&row| matches!(self.smallest((row, row), columns).0, Cell::CapacityKg(_)))
            .map(|row| Length::m(self.radii_m[row]));
        let first = rated.next()?;
        Some((first, rated.next_back().unwrap_or(first)))
    }
}

/// Orders cells by what they allow: nothing, nothing yet, so much.
fn strictness(cell: Cell) -> f64 {
    match cell {
        Cell::NotAllowed => f64::NEG_INFINITY,
        Cell::Unconfirmed => -1.0,
        Cell::CapacityKg(kg) => kg,
    }
}

/// The entries of a rising list around a value; `None` outside it, and for a value that is no number.
fn around(list: &[f64], value: f64) -> Option<Around> {
    let is_listed = |i: usize| list.get(i).is_some_and(|&x| (x - value).abs() <= SAME * x.abs());
    let next = list.partition_point(|&x| x < value);
    if is_listed(next) {
        return Some((next, next));
    }
    let before = next.checked_sub(1)?;
    if is_listed(before) {
        return Some((before, before));
    }
    (next < list.len()).then_some((before, next))
}

fn off_chart(axis: Axis, wanted: Length, list: &[f64]) -> Rated {
    let end = |x: Option<&f64>| Length::m(x.copied().unwrap_or_default());
    Rated::OffChart {
        axis,
        wanted,
        from: end(list.first()),
        to: end(list.last()),
    }
}

impl Rated {
    /// The rating, where there is one.
    pub fn capacity(self) -> Option<Mass> {
        match self {
            Self::Capacity { mass, .. } => Some(mass),
            Self::OffChart { .. } | Self::NotAllowed { .. } | Self::Unconfirmed { .. } => None,
        }
    }

    /// Why there is no rating, with lengths in `unit`.
    pub fn reason(self, unit: Unit) -> Option<String> {
        let plain = |length| show(length, unit, 1, Safe::Nearest);
        Some(match self {
            Self::Capacity { .. } => return None,
            Self::OffChart { axis, wanted, from, to } => {
                let (what, away) = match axis {
                    Axis::Radius => ("radius", if wanted < from { Safe::Down } else { Safe::Up }),
                    Axis::Boom => ("boom length", if wanted < from { Safe::Down } else { Safe::Up }),
                };
                let wanted = show(wanted, unit, 2, away);
                format!(
                    "not on the chart: {what} {wanted}, the chart runs from {} to {}",
                    plain(from),
                    plain(to)
                )
            }
            Self::NotAllowed {
                row_radius,
                column_boom,
                allowed,
            } => {
                let ends = match allowed {
                    Some((from, to)) => format!("rated from {} to {} at this boom length", plain(from), plain(to)),
                    None => "no radius is rated at this boom length".to_owned(),
                };
                format!(
                    "not allowed: the chart is blank at radius {}, boom {}; {ends}",
                    plain(row_radius),
                    plain(column_boom)
                )
            }
            Self::Unconfirmed {
                row_radius,
                column_boom,
            } => format!(
                "not read: the capacity at radius {}, boom {} looks wrong; compare it with the printed chart, then correct or confirm it",
                plain(row_radius),
                plain(column_boom)
            ),
        })
    }
}
