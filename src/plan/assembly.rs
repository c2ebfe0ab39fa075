//! A build-up of layers that several parts of the boxes share: an outside wall, a floor, a roof.

use super::Id;
use crate::json::{choice, fields};
use crate::quantity::{AreaDensity, Density, Entry, Length, LinearDensity};

/// Layers that weigh so much per area together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assembly {
    /// Short name that components refer to: "W1".
    pub id: Id,
    /// What it is.
    pub name: String,
    /// What it is made of; the order changes nothing.
    pub layers: Vec<Layer>,
}

/// One layer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layer {
    /// What it is.
    pub name: String,
    /// How its weight is known.
    pub weight: LayerWeight,
}

/// How the weight per area of a layer is known.
#[derive(Clone, Debug, PartialEq)]
pub enum LayerWeight {
    /// As such: a panel, a felt.
    Area {
        /// Weight per area.
        density: Entry<AreaDensity>,
    },
    /// A bulk of some thickness: insulation, a topping.
    Volume {
        /// Weight per volume.
        density: Entry<Density>,
        /// Thickness.
        thickness: Entry<Length>,
    },
    /// Members side by side: studs, joists.
    Length {
        /// Weight per length of one.
        density: Entry<LinearDensity>,
        /// From one to the next.
        spacing: Entry<Length>,
    },
}

impl Default for LayerWeight {
    fn default() -> Self {
        Self::Area {
            density: Entry::default(),
        }
    }
}

fields! {
    Assembly { id, name, layers }
    Layer { name, weight }
}

choice!(LayerWeight {
    "area" => Area { density },
    "volume" => Volume { density, thickness },
    "length" => Length { density, spacing },
});
