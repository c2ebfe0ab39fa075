//! Reading a rating chart the way the book says: the next larger radius, the smaller number, and never beyond the table.

use crate::quantity::{Length, Mass, Safe, Unit, show};
use crate::reach::{Around, Cell, Column, Ratings};

/// A rating chart in numbers. Made by [`RatingChart::table`](super::RatingChart::table).
#[derive(Clone, Debug, PartialEq)]
pub struct RatingTable {
    ratings: Ratings,
    /// Which row of the typed chart each radius is.
    typed_rows: Vec<usize>,
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

impl RatingTable {
    /// `booms_m` and `radii_m` rise strictly and are not empty; `cells` holds one row after the other.
    pub(super) fn new(booms_m: Vec<f64>, radii_m: Vec<f64>, typed_rows: Vec<usize>, cells: Vec<Cell>) -> Self {
        debug_assert_eq!(typed_rows.len(), radii_m.len());
        Self {
            ratings: Ratings::new(booms_m, radii_m, cells),
            typed_rows,
        }
    }

    /// The boom lengths of the columns, rising.
    pub fn booms(&self) -> impl ExactSizeIterator<Item = Length> + DoubleEndedIterator + '_ {
        self.ratings.booms_m().iter().copied().map(Length::m)
    }

    /// The radii of the rows, rising.
    pub fn radii(&self) -> impl ExactSizeIterator<Item = Length> + DoubleEndedIterator + '_ {
        self.ratings.radii_m().iter().copied().map(Length::m)
    }

    /// The capacity printed in a cell, counted along the rising radii and boom lengths; `None` if blank, unconfirmed or outside.
    pub fn printed(&self, row: usize, column: usize) -> Option<Mass> {
        if row >= self.ratings.radii_m().len() || column >= self.ratings.booms_m().len() {
            return None;
        }
        match self.ratings.cell(row, column) {
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
        let Some(columns) = self.ratings.columns_around(boom.to_m()) else {
            return off_chart(Axis::Boom, boom, self.ratings.booms_m());
        };
        let Some(rows) = self.ratings.rows_around(radius.to_m()) else {
            return off_chart(Axis::Radius, radius, self.ratings.radii_m());
        };
        let (cell, row, column) = self.ratings.smallest(rows, columns);
        let (row_radius, column_boom) = (
            Length::m(self.ratings.radii_m()[row]),
            Length::m(self.ratings.booms_m()[column]),
        );
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

    /// The ratings at one boom length, radius by radius; `None` outside the table. It answers as [`rating`](Self::rating) does.
    pub fn column(&self, boom_m: f64) -> Option<Column> {
        self.ratings.column(boom_m)
    }

    /// The rating of [`rating`](Self::rating) in kilograms, and nothing else.
    pub fn capacity_kg(&self, radius_m: f64, boom_m: f64) -> Option<f64> {
        match self.column(boom_m)?.at(radius_m) {
            Cell::CapacityKg(kg) => Some(kg),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        }
    }

    /// The smallest radius with a rating at this boom length.
    pub fn min_radius(&self, boom: Length) -> Option<Length> {
        Some(self.allowed(self.ratings.columns_around(boom.to_m())?)?.0)
    }

    /// The largest radius with a rating at this boom length.
    pub fn max_radius(&self, boom: Length) -> Option<Length> {
        Some(self.allowed(self.ratings.columns_around(boom.to_m())?)?.1)
    }

    fn next_row(&self, row: usize, columns: Around) -> Option<(Length, Option<Mass>)> {
        let next = row + 1;
        let radius_m = *self.ratings.radii_m().get(next)?;
        let capacity = match self.ratings.smallest((next, next), columns).0 {
            Cell::CapacityKg(kg) => Some(Mass::kg(kg)),
            Cell::NotAllowed | Cell::Unconfirmed => None,
        };
        Some((Length::m(radius_m), capacity))
    }

    /// First and last radius with a rating in these columns.
    fn allowed(&self, columns: Around) -> Option<(Length, Length)> {
        let mut rated = (0..self.ratings.radii_m().len())
            .filter(|&row| matches!(self.ratings.smallest((row, row), columns).0, Cell::CapacityKg(_)))
            .map(|row| Length::m(self.ratings.radii_m()[row]));
        let first = rated.next()?;
        Some((first, rated.next_back().unwrap_or(first)))
    }
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
