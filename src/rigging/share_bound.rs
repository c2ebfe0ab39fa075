//! The most that each leg of a stiff rig can come to carry, whatever the small differences of the legs' lengths.
//!
//! A linear programme: of all tensions that hold every part of the rig in equilibrium where it hangs, none below zero, the largest of one leg.
//! On four legs under one hook it is the smaller of the leg's end share and its side share; where equilibrium alone gives the tensions it is the
//! tension. Source: lower bound statics of a structure with free self-stress; G. B. Dantzig's simplex method with Bland's rule.

use crate::quantity::STANDARD_GRAVITY_M_S2 as G;

/// Smaller than this beside the rest is rounding.
const ROUNDING: f64 = 1e-9;
/// Equilibrium of the given tensions may be off by this share of the weight.
const IN_BALANCE: f64 = 1e-6;
/// A body may be out of balance sideways, and about the plumb, by this share of the weight (and of weight × the largest distance): it gives way by a
/// little and is in balance, whatever its plumb straps carry. The slight leans of the pose it hangs in must not share the load between them. 0.3° of lean.
const GIVES: f64 = 0.005;
const MOST_PIVOTS: usize = 2000;

/// Forces at places of one part: the columns of its equilibrium.
pub(super) struct Part {
    /// Weight, N.
    pub weight_n: f64,
    /// Where the weight acts, m.
    pub at_m: [f64; 3],
    /// Each pull on it: which leg, the sum of unit vectors and where, m.
    pub pulls: Vec<(usize, [f64; 3], [f64; 3])>,
    /// It is a point: no moments.
    pub point: bool,
}

impl Part {
    /// A part of a mass.
    pub fn of(mass_kg: f64, at_m: [f64; 3], point: bool) -> Self {
        Self {
            weight_n: mass_kg * G,
            at_m,
            pulls: Vec::new(),
            point,
        }
    }
}

/// Largest tension of every leg, N; `None` where the parts cannot be in balance with tensions alone, or a tension has no bound.
pub(super) fn largest_n(parts: &[Part], legs: usize) -> Option<Vec<f64>> {
    let weight_n: f64 = parts.iter().map(|part| part.weight_n).sum();
    let mut table = Table::new(parts, legs, weight_n)?;
    if !table.balance() {
        return None;
    }
    (0..legs)
        .map(|leg| table.clone().most(leg).map(|share| share * weight_n))
        .collect()
}

/// Rows of equations `Σ a·x = b`, b never below zero, each with the unknown that it gives; the last column is b. Unknowns are shares of the weight.
#[derive(Clone)]
struct Table {
    rows: Vec<Vec<f64>>,
    gives: Vec<usize>,
    /// Unknowns: the legs', then those of equations that give.
    legs: usize,
}

impl Table {
    fn new(parts: &[Part], legs: usize, weight_n: f64) -> Option<Self> {
        let far_m = parts
            .iter()
            .flat_map(|part| {
                part.pulls
                    .iter()
                    .flat_map(|(_, _, at_m)| (0..3).map(|i| (at_m[i] - part.at_m[i]).abs()))
            })
            .fold(0.0, f64::max);
        if !(weight_n > 0.0 && far_m > 0.0) {
            return None;
        }
        let mut rows = Vec::new();
        for part in parts {
            let mut own = vec![vec![0.0; legs + 1]; if part.point { 3 } else { 6 }];
            own[2][legs] = part.weight_n / weight_n;
            for (leg, pull, at_m) in &part.pulls {
                let arm: [f64; 3] = core::array::from_fn(|axis| (at_m[axis] - part.at_m[axis]) / far_m);
                for axis in 0..3 {
                    own[axis][*leg] += pull[axis];
                    if !part.point {
                        let (b, c) = ((axis + 1) % 3, (axis + 2) % 3);
                        own[3 + axis][*leg] += arm[b] * pull[c] - arm[c] * pull[b];
                    }
                }
            }
            let sideways = own.len() == 6;
            rows.extend(
                own.into_iter()
                    .enumerate()
                    .map(|(i, row)| (sideways && matches!(i, 0 | 1 | 5), row)),
            );
        }
        Some(Self::yielding(rows, legs))
    }

    /// Lets the equations marked be off by [`GIVES`] either way: `a·x + u = b + GIVES`, `u + v = 2·GIVES`, with unknowns u and v, none below zero,
    /// after the legs'.
    fn yielding(rows: Vec<(bool, Vec<f64>)>, legs: usize) -> Self {
        let marked = rows.iter().filter(|(gives, _)| *gives).count();
        let unknowns = legs + 2 * marked;
        let (mut next, mut wide) = (legs, Vec::with_capacity(rows.len() + marked));
        for (gives, mut row) in rows {
            let b = row.pop().unwrap_or_default();
            row.resize(unknowns + 1, 0.0);
            row[unknowns] = b;
            if gives {
                let mut width = vec![0.0; unknowns + 1];
                (row[next], width[next], width[next + 1]) = (1.0, 1.0, 1.0);
                row[unknowns] += GIVES;
                width[unknowns] = 2.0 * GIVES;
                next += 2;
                wide.push(width);
            }
            wide.push(row);
        }
        Self {
            gives: vec![usize::MAX; wide.len()],
            rows: wide,
            legs: unknowns,
        }
    }

    /// First phase: a set of tensions in balance. An artificial unknown for every equation is driven out; equations that say nothing new go.
    fn balance(&mut self) -> bool {
        let (legs, count) = (self.legs, self.rows.len());
        for (index, row) in self.rows.iter_mut().enumerate() {
            if row[legs] < 0.0 {
                row.iter_mut().for_each(|x| *x = -*x);
            }
            self.gives[index] = legs + index;
        }
        // cost of the artificial unknowns: the sum of all rows, to be brought to nothing
        let mut cost: Vec<f64> = (0..=legs)
            .map(|column| self.rows.iter().map(|row| row[column]).sum())
            .collect();
        self.pivot_while(&mut cost);
        if cost[legs] > IN_BALANCE * count as f64 {
            return false;
        }
        let mut index = 0;
        while index < self.rows.len() {
            if self.gives[index] >= legs {
                let row = &self.rows[index];
                let column = (0..legs).max_by(|a, b| row[*a].abs().total_cmp(&row[*b].abs()));
                match column.filter(|column| row[*column].abs() > IN_BALANCE) {
                    Some(column) => self.pivot(index, column, &mut cost),
                    None => {
                        self.rows.swap_remove(index);
                        self.gives.swap_remove(index);
                        continue;
                    }
                }
            }
            index += 1;
        }
        true
    }

    /// Second phase: the largest share of one leg.
    fn most(mut self, leg: usize) -> Option<f64> {
        let mut gain = vec![0.0; self.legs + 1];
        gain[leg] = 1.0;
        for (row, gives) in self.rows.iter().zip(&self.gives) {
            if *gives == leg {
                gain.iter_mut().zip(row).for_each(|(gain, x)| *gain -= x);
            }
        }
        self.pivot_while(&mut gain).then(|| -gain[self.legs])
    }

    /// Brings unknowns in that raise the aim, by Bland's rule. `false`: without end.
    fn pivot_while(&mut self, aim: &mut [f64]) -> bool {
        for _ in 0..MOST_PIVOTS {
            let Some(column) = (0..self.legs).find(|column| aim[*column] > ROUNDING) else {
                return true;
            };
            let ratios = self.rows.iter().enumerate().filter(|(_, row)| row[column] > ROUNDING);
            let least = ratios
                .map(|(index, row)| (row[self.legs].max(0.0) / row[column], self.gives[index], index))
                .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            let Some((_, _, index)) = least else { return false };
            self.pivot(index, column, aim);
        }
        false
    }

    fn pivot(&mut self, index: usize, column: usize, aim: &mut [f64]) {
        let by = self.rows[index][column];
        self.rows[index].iter_mut().for_each(|x| *x /= by);
        let row = self.rows[index].clone();
        let clear = |other: &mut [f64]| {
            let factor = other[column];
            if factor != 0.0 {
                other.iter_mut().zip(&row).for_each(|(x, y)| *x -= factor * y);
            }
        };
        for other in self
            .rows
            .iter_mut()
            .enumerate()
            .filter(|(at, _)| *at != index)
            .map(|(_, other)| other)
        {
            clear(other);
        }
        clear(aim);
        self.gives[index] = column;
    }
}
