//! One component becomes one item: a mass at the centroid of its form.

use super::assembly_kg_per_m2;
use crate::plan::{Assembly, Component, Opening, Place3, Shape, Weight};
use crate::quantity::{Area, Entry, Length, Readable, Reading, Volume, read_si};

/// A mass at a place.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Item {
    /// Mass, kg; negative where it is taken off.
    pub mass_kg: f64,
    /// Centroid, m.
    pub at_m: [f64; 3],
}

/// What a component weighs and where, or what is missing to know it. `assemblies` are those of the plan, which a component may refer to.
pub fn item(component: &Component, assemblies: &[Assembly]) -> Result<Item, String> {
    let form = form(&component.shape)?;
    let mass_kg = mass_kg(&component.weight, &form, assemblies)?;
    if mass_kg < 0.0 {
        return Err(format!(
            "weight {mass_kg:.1} kg is below nothing: enter it as a positive weight and mark the row as a deduction, or mend the figure"
        ));
    }
    let sign = if component.deduction { -1.0 } else { 1.0 };
    Ok(Item {
        mass_kg: sign * mass_kg,
        at_m: form.centroid_m,
    })
}

/// Centroid and size of a form.
struct Form {
    centroid_m: [f64; 3],
    length_m: Option<f64>,
    area_m2: Option<f64>,
    volume_m3: Option<f64>,
}

fn form(shape: &Shape) -> Result<Form, String> {
    let known = |place: &Place3| place.metres().ok_or_else(|| missing_place(place));
    Ok(match shape {
        Shape::Point { at } => Form {
            centroid_m: known(at)?,
            length_m: None,
            area_m2: None,
            volume_m3: None,
        },
        Shape::Line { from, to } => {
            let (a, b) = (known(from)?, known(to)?);
            Form {
                centroid_m: middle(a, b),
                length_m: Some(norm(minus(b, a))),
                area_m2: None,
                volume_m3: None,
            }
        }
        Shape::Block { from, to } => {
            let (a, b) = (known(from)?, known(to)?);
            let d = minus(b, a);
            Form {
                centroid_m: middle(a, b),
                length_m: None,
                area_m2: None,
                volume_m3: Some((d[0] * d[1] * d[2]).abs()),
            }
        }
        Shape::Panel {
            corner,
            along,
            up,
            openings,
        } => panel(known(corner)?, known(along)?, known(up)?, openings)?,
    })
}

/// What is wrong with a place that is not known.
fn missing_place(place: &Place3) -> String {
    let all = [("x", &place.x), ("y", &place.y), ("z", &place.z)];
    if let Some((name, entry)) = all.iter().find(|(_, e)| e.get().is_none() && !e.is_blank()) {
        return absent(name, entry);
    }
    let mut missing = Vec::new();
    for (name, entry) in all {
        if entry.is_blank() {
            missing.push(name);
        }
    }
    match missing[..] {
        ["z"] => "height z not entered: tilt and roll cannot be checked; enter it, or take mid-height as an assumption"
            .into(),
        _ => format!("place not entered: {} of the item", missing.join(", ")),
    }
}

/// Why an entry has no value: nothing typed, or what was read of it.
pub(super) fn absent<Q: Readable>(what: &str, entry: &Entry<Q>) -> String {
    match read_si(entry.text(), entry.unit(), entry.mark(), Q::DIMENSION) {
        Reading::Ask(why) | Reading::Wrong(why) => format!("{what}: {why}"),
        Reading::Blank | Reading::Is(_) => format!("{what} not entered"),
    }
}

/// A panel less its openings: `A = A₀ − Σaᵢ`, `c = (A₀c₀ − Σaᵢcᵢ)/A`.
///
/// An opening must lie inside its panel: it is a negative area of that panel only.
///
/// Source: composite areas, e.g. Baker & Haynes, Engineering Statics, ch. 7.
fn panel(corner: [f64; 3], along: [f64; 3], up: [f64; 3], openings: &[Opening]) -> Result<Form, String> {
    let (u, v) = (minus(along, corner), minus(up, corner));
    let (width_m, height_m) = (norm(u), norm(v));
    let square = (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]).abs() <= 1e-6 * width_m * height_m;
    if !(width_m > 0.0 && height_m > 0.0 && square) {
        return Err(
            "the panel's two edges must be square to each other and longer than nothing: check its three corners"
                .into(),
        );
    }
    let mut area_m2 = width_m * height_m;
    let mut moment = [area_m2 * width_m / 2.0, area_m2 * height_m / 2.0];
    for (index, opening) in openings.iter().enumerate() {
        let place = || format!("opening {}", index + 1);
        let read = |entry: &Entry<Length>| {
            entry
                .get()
                .map(|l| l.to_m())
                .ok_or_else(|| format!("{}: size or place not entered", place()))
        };
        let (x, y) = (read(&opening.from_along)?, read(&opening.from_up)?);
        let (w, h) = (read(&opening.width)?, read(&opening.height)?);
        let slack_m = 1e-9;
        if x < -slack_m || y < -slack_m || w < 0.0 || h < 0.0 || x + w > width_m + slack_m || y + h > height_m + slack_m
        {
            return Err(format!(
                "{}: it reaches from {x:.2} to {:.2} m along and {y:.2} to {:.2} m up, outside its panel of {width_m:.2} × {height_m:.2} m",
                place(),
                x + w,
                y + h
            ));
        }
        area_m2 -= w * h;
        moment[0] -= w * h * (x + w / 2.0);
        moment[1] -= w * h * (y + h / 2.0);
    }
    if area_m2 <= 0.0 {
        return Err("the openings leave nothing of the panel: check their sizes".into());
    }
    let (along_share, up_share) = (moment[0] / area_m2 / width_m, moment[1] / area_m2 / height_m);
    let centroid_m = core::array::from_fn(|axis| corner[axis] + along_share * u[axis] + up_share * v[axis]);
    Ok(Form {
        centroid_m,
        length_m: None,
        area_m2: Some(area_m2),
        volume_m3: None,
    })
}

fn mass_kg(weight: &Weight, form: &Form, assemblies: &[Assembly]) -> Result<f64, String> {
    Ok(match weight {
        Weight::Lump { mass } => mass.get().ok_or_else(|| absent("weight", mass))?.to_kg(),
        Weight::Count { count, each } => {
            count.get().ok_or_else(|| absent("count", count))?.to_of()
                * each.get().ok_or_else(|| absent("weight of one", each))?.to_kg()
        }
        Weight::Length { density, length } => {
            let length_m = length.get_or(|| form.length_m.map(Length::m)).map(|l| l.to_m());
            density
                .get()
                .ok_or_else(|| absent("weight per length", density))?
                .to_kg_per_m()
                * length_m.ok_or_else(|| absent("length", length))?
        }
        Weight::Area { density, area } => {
            let area_m2 = area.get_or(|| form.area_m2.map(Area::m2)).map(|a| a.to_m2());
            density
                .get()
                .ok_or_else(|| absent("weight per area", density))?
                .to_kg_per_m2()
                * area_m2.ok_or_else(|| absent("area", area))?
        }
        Weight::Assembly { assembly, area } => {
            let area_m2 = area.get_or(|| form.area_m2.map(Area::m2)).map(|a| a.to_m2());
            let Some(built) = assemblies.iter().find(|a| a.id == *assembly) else {
                return Err(if assembly.is_empty() {
                    "no assembly named: choose one, or know the weight another way".into()
                } else {
                    format!(
                        "read assembly \"{assembly}\": expected one of the plan's assemblies; add it there or choose another"
                    )
                });
            };
            assembly_kg_per_m2(built)? * area_m2.ok_or_else(|| absent("area", area))?
        }
        Weight::Volume { density, volume } => {
            let volume_m3 = volume.get_or(|| form.volume_m3.map(Volume::m3)).map(|v| v.to_m3());
            density
                .get()
                .ok_or_else(|| absent("weight per volume", density))?
                .to_kg_per_m3()
                * volume_m3.ok_or_else(|| absent("volume", volume))?
        }
    })
}

fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| a[i] - b[i])
}
fn middle(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| (a[i] + b[i]) / 2.0)
}
fn norm(a: [f64; 3]) -> f64 {
    (a[0] * a[0] + a[1] * a[1] + a[2] * a[2]).sqrt()
}
