//! A box made from another: the same again, or its mirror image end for end.

use super::{Component, HouseBox, Id, Place3, Shape};
use crate::quantity::{Entry, Length, written};

/// The next free name after another: "A1-30" behind "A1-29".
pub fn next_name(stem: &str, taken: &[&str]) -> String {
    let head = stem.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = &stem[head.len()..];
    let width = digits.len();
    let from: u64 = digits.parse().unwrap_or(0);
    (1..=taken.len() as u64 + 1)
        .map(|step| format!("{head}{:0width$}", from.saturating_add(step)))
        .find(|name| !taken.contains(&name.as_str()))
        .unwrap_or_default()
}

/// Another box like this one, called `id`.
///
/// Rows named after the box are named after the new one. What belongs to the one box only is left blank: its ticket, the days things went in, and where it is set.
pub fn twin(house: &HouseBox, id: Id) -> HouseBox {
    let mut twin = HouseBox {
        ticket: None,
        last_item_added: String::new(),
        set_corner: super::Point::default(),
        ..house.clone()
    };
    for row in &mut twin.components {
        row.loaded = String::new();
        if let Some(rest) = row
            .id
            .as_str()
            .strip_prefix(house.id.as_str())
            .filter(|_| !house.id.is_empty())
        {
            row.id = Id(format!("{id}{rest}"));
        }
    }
    twin.id = id;
    twin
}

/// The mirror image end for end: every x becomes length − x, so that what was at the one end is at the other. Sides and heights stay.
///
/// The words for the ends are left blank, because "kitchen end" goes with the kitchen and "west end" does not. Picks keep their order, first end first. An x
/// that is blank stays blank; one that cannot be read stays as typed. The error says what is missing.
pub fn mirrored(house: &HouseBox) -> Result<HouseBox, String> {
    let length = house.length.not_negative().filter(|l| l.to_m() > 0.0).ok_or_else(|| {
        format!(
            "length of box {}: read \"{}\", expected a length above nothing such as 52 ft or 15.8 m; enter it first, x is turned round in it",
            house.id,
            house.length.text()
        )
    })?;
    let mut turned = house.clone();
    turned.ends = Default::default();
    for row in &mut turned.components {
        mirror_row(row, length);
    }
    for pick in &mut turned.picks {
        mirror(&mut pick.x, length);
    }
    if let [a, b, c, d] = &mut turned.picks[..] {
        core::mem::swap(a, c);
        core::mem::swap(b, d);
    }
    for edge in &mut turned.edges {
        mirror(&mut edge.from.x, length);
        mirror(&mut edge.to.x, length);
    }
    Ok(turned)
}

fn mirror_row(row: &mut Component, length: Length) {
    let turn = |place: &mut Place3| mirror(&mut place.x, length);
    match &mut row.shape {
        Shape::Point { at } => turn(at),
        Shape::Line { from, to } => {
            turn(from);
            turn(to);
        }
        // openings are placed along the panel's own edges, which turn with it
        Shape::Panel { corner, along, up, .. } => {
            turn(corner);
            turn(along);
            turn(up);
        }
        Shape::Block { from, to } => {
            turn(from);
            turn(to);
            core::mem::swap(&mut from.x, &mut to.x);
        }
    }
}

/// Turns one x round, written in the unit it was typed in; who said so stays, with a note.
fn mirror(x: &mut Entry<Length>, length: Length) {
    let Some(old) = x.get() else { return };
    let mut said = x.said.take();
    if let Some(said) = &mut said {
        let note = format!("turned round end for end, was {}", x.text().trim());
        said.note = [said.note.trim(), &note].join("; ").trim_start_matches("; ").to_owned();
    }
    let text = written(length - old, x.unit(), x.mark());
    *x = Entry::typed_with(text, x.unit(), x.mark());
    x.said = said;
}
