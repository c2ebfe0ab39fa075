//! Unit weights to start a take-off from, each with its source beside it.
//!
//! The rows are data in `library.csv`: name, form, figure as printed in the source, unit, source, and how far the source can be trusted.

use crate::plan::{Component, Layer, LayerWeight, Weight};
use crate::quantity::{Entry, Readable, Said, Unit};

/// How well a unit weight is founded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Printed in the source named.
    Published,
    /// From the source named, remembered and not looked up.
    Memory,
    /// Worked out from the figures named.
    Computed,
    /// A usual figure of the trade.
    Practice,
}

impl Standing {
    /// From its word in a table.
    pub fn read(word: &str) -> Option<Self> {
        Some(match word {
            "published" => Self::Published,
            "memory" => Self::Memory,
            "computed" => Self::Computed,
            "practice" => Self::Practice,
            _ => return None,
        })
    }

    /// In words, for the source of a number.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Memory => "from memory: look the edition in force up",
            Self::Computed => "computed",
            Self::Practice => "common practice, no source: weigh or ask the maker",
        }
    }
}

/// A row of the library.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitWeight {
    /// What it is.
    pub name: String,
    /// Size, grade or kind.
    pub form: String,
    /// The figure as the source prints it.
    pub figure: String,
    /// Its unit: per volume, per area, per length, or of one piece.
    pub unit: Unit,
    /// Where it comes from.
    pub source: String,
    /// How well it is founded.
    pub standing: Standing,
}

/// All rows. A row that cannot be read is left out; a test holds that none is.
pub fn library() -> Vec<UnitWeight> {
    let mut reader = csv::Reader::from_reader(include_str!("library.csv").as_bytes());
    reader
        .records()
        .filter_map(|record| {
            let record = record.ok()?;
            let cell = |at: usize| record.get(at).map(str::to_owned);
            Some(UnitWeight {
                name: cell(0)?,
                form: cell(1)?,
                figure: cell(2)?,
                unit: Unit::spelled_anywhere(record.get(3)?)?,
                source: cell(4)?,
                standing: Standing::read(record.get(5)?)?,
            })
        })
        .collect()
}

impl UnitWeight {
    /// Whether every word of a search stands in its name, its form or its source; capitals do not matter.
    pub fn matches(&self, search: &str) -> bool {
        let text = format!("{} {} {}", self.name, self.form, self.source).to_lowercase();
        search.to_lowercase().split_whitespace().all(|word| text.contains(word))
    }

    /// The source that goes beside the number.
    pub fn said(&self) -> Said {
        Said {
            who: self.source.clone(),
            when: String::new(),
            note: format!("{}, {}: {}", self.name, self.form, self.standing.words()),
        }
    }

    fn entry<Q: Readable>(&self) -> Entry<Q> {
        let mut entry = Entry::typed(format!("{} {}", self.figure, self.unit.symbol()), self.unit);
        entry.said = Some(self.said());
        entry
    }

    /// Gives a component this unit weight with its source; what it has of lengths, areas, volumes and counts stays. A row without a name gets the name too.
    pub fn put(&self, component: &mut Component) {
        let old = core::mem::take(&mut component.weight);
        component.weight = match self.unit.si_key() {
            "kg/m" => Weight::Length {
                density: self.entry(),
                length: match old {
                    Weight::Length { length, .. } => length,
                    _ => Entry::default(),
                },
            },
            "kg/m2" => Weight::Area {
                density: self.entry(),
                area: match old {
                    Weight::Area { area, .. } | Weight::Assembly { area, .. } => area,
                    _ => Entry::default(),
                },
            },
            "kg/m3" => Weight::Volume {
                density: self.entry(),
                volume: match old {
                    Weight::Volume { volume, .. } => volume,
                    _ => Entry::default(),
                },
            },
            _ => Weight::Count {
                each: self.entry(),
                count: match old {
                    Weight::Count { count, .. } => count,
                    _ => Entry::default(),
                },
            },
        };
        if component.name.trim().is_empty() {
            component.name = self.name.clone();
        }
    }

    /// The same as a layer of an assembly; `None` for what is weighed by the piece.
    pub fn layer(&self) -> Option<Layer> {
        let weight = match self.unit.si_key() {
            "kg/m" => LayerWeight::Length {
                density: self.entry(),
                spacing: Entry::default(),
            },
            "kg/m2" => LayerWeight::Area { density: self.entry() },
            "kg/m3" => LayerWeight::Volume {
                density: self.entry(),
                thickness: Entry::default(),
            },
            _ => return None,
        };
        Some(Layer {
            name: format!("{}, {}", self.name, self.form),
            weight,
        })
    }
}
