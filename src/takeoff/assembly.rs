//! What an assembly weighs per area, layer by layer.

use super::items::absent;
use crate::plan::{Assembly, Layer, LayerWeight};
use crate::quantity::{Entry, Readable};

/// Weight per area of an assembly, kg/m²: `w = Σwᵢ`; or which layer lacks what.
pub fn assembly_kg_per_m2(assembly: &Assembly) -> Result<f64, String> {
    if assembly.layers.is_empty() {
        return Err(format!("assembly {} has no layers yet", assembly.id));
    }
    assembly.layers.iter().enumerate().try_fold(0.0, |sum, (at, layer)| {
        let one = layer_kg_per_m2(layer);
        one.map(|kg_per_m2| sum + kg_per_m2)
            .map_err(|why| format!("assembly {}, layer {} ({}): {why}", assembly.id, at + 1, layer.name))
    })
}

/// Weight per area of a layer, kg/m²: as such; density times thickness; or weight per length over the spacing of members side by side.
///
/// Plates, headers and blocking are no part of the spacing: they are layers or components of their own.
pub fn layer_kg_per_m2(layer: &Layer) -> Result<f64, String> {
    match &layer.weight {
        LayerWeight::Area { density } => known("weight per area", density),
        LayerWeight::Volume { density, thickness } => {
            Ok(known("weight per volume", density)? * known("thickness", thickness)?)
        }
        LayerWeight::Length { density, spacing } => {
            let spacing_m = known("spacing", spacing)?;
            if spacing_m <= 0.0 {
                return Err("spacing of nothing: enter the distance from one member to the next".into());
            }
            Ok(known("weight per length", density)? / spacing_m)
        }
    }
}

/// An entry's SI number, where it is typed and not below zero.
fn known<Q: Readable>(what: &str, entry: &Entry<Q>) -> Result<f64, String> {
    match entry.not_negative() {
        Some(value) => Ok(value.si()),
        None if entry.get().is_some() => Err(format!("{what}: read \"{}\", expected zero or more", entry.text())),
        None => Err(absent(what, entry)),
    }
}
