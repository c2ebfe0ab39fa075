//! A rating chart in numbers and how it is read: the next larger radius, the smaller number, and never beyond the table.

/// How near a listed radius or boom length counts as that one, relative.
const SAME: f64 = 1e-9;

/// One cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cell {
    /// Blank, or outside the table.
    NotAllowed,
    /// Odd or unreadable, and nobody has confirmed it.
    Unconfirmed,
    /// A capacity, kg.
    CapacityKg(f64),
}

/// The listed entries around a value: the same one twice when it is listed itself.
pub type Around = (usize, usize);

/// A rating chart in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Ratings {
    booms_m: Vec<f64>,
    radii_m: Vec<f64>,
    cells: Vec<Cell>,
}

impl Ratings {
    /// `booms_m` and `radii_m` rise strictly and are not empty; `cells` holds one row after the other.
    pub fn new(booms_m: Vec<f64>, radii_m: Vec<f64>, cells: Vec<Cell>) -> Self {
        debug_assert_eq!(cells.len(), booms_m.len() * radii_m.len());
        Self {
            booms_m,
            radii_m,
            cells,
        }
    }

    /// Boom lengths of the columns, rising, m.
    pub fn booms_m(&self) -> &[f64] {
        &self.booms_m
    }

    /// Radii of the rows, rising, m.
    pub fn radii_m(&self) -> &[f64] {
        &self.radii_m
    }

    /// One cell, counted along the rising radii and boom lengths.
    pub fn cell(&self, row: usize, column: usize) -> Cell {
        self.cells[row * self.booms_m.len() + column]
    }

    /// The columns around a boom length; `None` outside the table.
    pub fn columns_around(&self, boom_m: f64) -> Option<Around> {
        around(&self.booms_m, boom_m)
    }

    /// The rows around a radius; `None` outside the table.
    pub fn rows_around(&self, radius_m: f64) -> Option<Around> {
        around(&self.radii_m, radius_m)
    }

    /// The cell that governs among those around, and where it stands: a blank one before an unconfirmed one before the
    /// smallest; of equal ones that of the larger radius and the longer boom.
    pub fn smallest(&self, rows: Around, columns: Around) -> (Cell, usize, usize) {
        let mut governing = (self.cell(rows.1, columns.1), rows.1, columns.1);
        for (row, column) in [(rows.1, columns.0), (rows.0, columns.1), (rows.0, columns.0)] {
            let cell = self.cell(row, column);
            if strictness(cell) < strictness(governing.0) {
                governing = (cell, row, column);
            }
        }
        governing
    }

    /// What governs at a boom length, radius by radius; `None` outside the table.
    pub fn column(&self, boom_m: f64) -> Option<Column> {
        let columns = self.columns_around(boom_m)?;
        let count = self.radii_m.len();
        Some(Column {
            radii_m: self.radii_m.clone(),
            listed: (0..count).map(|row| self.smallest((row, row), columns).0).collect(),
            between: (1..count).map(|row| self.smallest((row - 1, row), columns).0).collect(),
        })
    }
}

/// A chart at one boom length, for loops that ask millions of times.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    radii_m: Vec<f64>,
    listed: Vec<Cell>,
    /// Between each row and the next.
    between: Vec<Cell>,
}

impl Column {
    /// What the chart says at a radius, m.
    pub fn at(&self, radius_m: f64) -> Cell {
        match around(&self.radii_m, radius_m) {
            None => Cell::NotAllowed,
            Some((row, next)) if row == next => self.listed[row],
            Some((row, _)) => self.between[row],
        }
    }

    /// The largest radius of the chart, m.
    pub fn largest_m(&self) -> f64 {
        self.radii_m.last().copied().unwrap_or_default()
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
