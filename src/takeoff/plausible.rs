//! Weights that can be read but look like a slip: they are asked about, never changed.

use crate::plan::{Component, Shape, Weight};
use crate::quantity::{AreaDensity, Entry, Mass, Readable, Safe, Unit, show};

/// A kind of surface, words that name it, and what such a thing usually weighs, psf (common practice, no source).
const USUAL: [(&str, &[&str], [f64; 2]); 3] = [
    ("a wall", &["wall", "partition"], [4.0, 14.0]),
    ("a floor", &["floor"], [6.0, 14.0]),
    ("a roof or a ceiling", &["roof", "ceiling"], [4.0, 15.0]),
];

/// A question about a weight per area that is far from what such a surface usually weighs; `None` where it is usual, or where somebody stands by it
/// as its source.
///
/// The kind of surface comes from the row's name, else from whether its panel stands or lies. A layer by itself is light, so that too little is only
/// asked about where the row is called by the whole surface.
pub fn odd_per_area(component: &Component) -> Option<String> {
    let Weight::Area { density, .. } = &component.weight else {
        return None;
    };
    let psf = density.get()?.to_psf();
    if has_source(component, density) {
        return None;
    }
    let name = component.name.to_ascii_lowercase();
    let by_name = USUAL
        .iter()
        .find(|(_, words, _)| words.iter().any(|word| name.contains(word)));
    let (what, _, [low, high]) =
        by_name.or_else(|| stands(&component.shape).map(|stands| &USUAL[usize::from(!stands)]))?;
    let too_much = psf > *high;
    let too_little = by_name.is_some() && psf < *low;
    let slip = match (too_much, too_little) {
        (true, _) => psf / 10.0,
        (_, true) => psf * 10.0,
        _ => return None,
    };
    let likely = if (*low..=*high).contains(&slip) {
        format!("did you mean {}? ", per_area(slip))
    } else {
        String::new()
    };
    Some(format!(
        "read {} for {what}, usual is {low} to {high} psf ({:.0} to {:.0} kg/m², common practice): {likely}mend it, or say who gave it as its source",
        per_area(psf),
        AreaDensity::psf(*low).to_kg_per_m2(),
        AreaDensity::psf(*high).to_kg_per_m2(),
    ))
}

fn per_area(psf: f64) -> String {
    let density = AreaDensity::psf(psf);
    format!(
        "{} ({})",
        show(density, Unit::Psf, 1, Safe::Nearest),
        show(density, Unit::KgPerM2, 0, Safe::Nearest)
    )
}

fn has_source<Q: Readable>(component: &Component, entry: &Entry<Q>) -> bool {
    [&component.said, &entry.said]
        .into_iter()
        .flatten()
        .any(|said| !said.who.trim().is_empty())
}

/// Whether a panel stands; `None` for what is no panel or has no place yet.
fn stands(shape: &Shape) -> Option<bool> {
    let Shape::Panel { corner, along, up, .. } = shape else {
        return None;
    };
    let (corner, along, up) = (corner.metres()?, along.metres()?, up.metres()?);
    let rise = |to: [f64; 3]| (to[2] - corner[2]).abs();
    let run = |to: [f64; 3]| (to[0] - corner[0]).abs() + (to[1] - corner[1]).abs();
    Some(rise(along) > run(along) || rise(up) > run(up))
}

/// The one row whose weight is in another unit than all the others (three or more), with a question; `None` where all agree, where several differ, or
/// where somebody stands by the row.
pub fn odd_unit(components: &[Component]) -> Option<(usize, String)> {
    let units: Vec<(usize, Unit)> = components
        .iter()
        .enumerate()
        .filter_map(|(at, row)| Some((at, typed_unit(mass(row)?)?)))
        .collect();
    let alone = |unit: Unit| units.iter().filter(|(_, other)| *other == unit).count() == 1;
    let (at, unit) = *units.iter().find(|(_, unit)| alone(*unit))?;
    let mut others = units.iter().filter(|(row, _)| *row != at).map(|(_, unit)| *unit);
    let usual = others.next()?;
    if units.len() < 4 || !others.all(|unit| unit == usual) {
        return None;
    }
    let entry = mass(&components[at])?;
    if has_source(&components[at], entry) {
        return None;
    }
    let (value, other) = (entry.get()?, usual.symbol());
    let figure = show(value, unit, 0, Safe::Nearest);
    let bare = figure.split(' ').next().unwrap_or_default();
    Some((
        at,
        format!(
            "read {figure}, which is {}, while every other row is in {other}: did you mean {bare} {other}? mend it, or say who gave it as its source",
            show(value, usual, 0, Safe::Nearest)
        ),
    ))
}

/// The figure of a row that is a weight by itself.
fn mass(component: &Component) -> Option<&Entry<Mass>> {
    match &component.weight {
        Weight::Lump { mass } => Some(mass),
        Weight::Count { each, .. } => Some(each),
        _ => None,
    }
}

/// The unit that an entry was typed in: the one in its text, else that of a bare number.
fn typed_unit(entry: &Entry<Mass>) -> Option<Unit> {
    entry.get()?;
    let word = entry.text().trim().trim_start_matches(|c: char| !c.is_alphabetic());
    Some(Unit::spelled::<Mass>(word).unwrap_or_else(|| entry.unit()))
}
