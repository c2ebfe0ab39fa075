//! Heights that nobody entered: assumed only when somebody asks for it, and marked.

use crate::plan::{Component, HouseBox, Place3, Shape};
use crate::quantity::{Entry, Length, written};

/// Who is named as the source of a height that nobody knows.
pub const ASSUMED: &str = "assumed: mid-height of the box";

/// The heights that are blank while the rest of their place is known, each of them the only thing missing of it.
fn blank_heights(row: &mut Component) -> Vec<&mut Entry<Length>> {
    let places: Vec<&mut Place3> = match &mut row.shape {
        Shape::Point { at } => vec![at],
        Shape::Line { from, to } => vec![from, to],
        // of a panel or a block the heights are its form, which nobody may assume
        Shape::Panel { .. } | Shape::Block { .. } => Vec::new(),
    };
    places
        .into_iter()
        .filter(|place| place.x.get().is_some() && place.y.get().is_some() && place.z.is_blank())
        .map(|place| &mut place.z)
        .collect()
}

/// How many rows lack nothing of their place but its height.
pub fn rows_without_height(house: &HouseBox) -> usize {
    let lacks = |row: &&Component| !blank_heights(&mut (*row).clone()).is_empty();
    house.components.iter().filter(lacks).count()
}

/// Puts half the box's height where a height is blank, marked as an assumption; without the box's height nothing.
pub fn assume_mid_height(house: &mut HouseBox) {
    let Some(height) = house.height.not_negative() else {
        return;
    };
    let (unit, mark) = (house.height.unit(), house.height.mark());
    for z in house.components.iter_mut().flat_map(blank_heights) {
        *z = Entry::typed_with(written(height / 2.0, unit, mark), unit, mark).said_by(ASSUMED, "", "");
    }
}

/// Rows whose height is assumed.
pub fn assumed_heights(house: &HouseBox) -> usize {
    let is_assumed = |place: &Place3| place.z.said.as_ref().is_some_and(|said| said.who == ASSUMED);
    let assumed = |row: &&Component| match &row.shape {
        Shape::Point { at } => is_assumed(at),
        Shape::Line { from, to } => is_assumed(from) || is_assumed(to),
        Shape::Panel { .. } | Shape::Block { .. } => false,
    };
    house.components.iter().filter(assumed).count()
}
