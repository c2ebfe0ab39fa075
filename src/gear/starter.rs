//! Rows of published tables to start a gear list from: standards only, never a maker's list.
//!
//! The rows are data in `starter.csv`. A tag in hand always counts for more than any of them.

use crate::json::Json as _;
use crate::plan::{GearItem, GearKind};
use crate::quantity::{Entry, Said, Unit};
use crate::rigging::Construction;
use crate::takeoff::Standing;

/// A row of the starter table.
#[derive(Clone, Debug, PartialEq)]
pub struct Starter {
    /// What part it plays.
    pub kind: GearKind,
    /// What it is.
    pub name: String,
    /// What it is made of.
    pub construction: Construction,
    /// Its size as the table has it: a diameter, or for textiles the rating.
    pub size: String,
    /// Core, grade or class.
    pub grade: String,
    /// Legs that the figure is for: 1, or those of the set.
    pub legs: u32,
    /// Angle from the horizontal down to which a set's figure holds, as text in °; empty for one leg.
    pub angle_deg: String,
    /// The figure as printed.
    pub rating: String,
    /// Its unit.
    pub unit: Unit,
    /// The table it stands in.
    pub source: String,
    /// How well the figure is founded.
    pub standing: Standing,
}

/// All rows. A row that cannot be read is left out; a test holds that none is.
pub fn starters() -> Vec<Starter> {
    let mut reader = csv::Reader::from_reader(include_str!("starter.csv").as_bytes());
    reader.records().filter_map(|record| read(&record.ok()?)).collect()
}

fn read(record: &csv::StringRecord) -> Option<Starter> {
    let cell = |at: usize| record.get(at).map(str::to_owned);
    let (mut kind, mut construction) = (GearKind::default(), Construction::default());
    kind.read(cell(0)?.into()).ok()?;
    construction.read(cell(2)?.into()).ok()?;
    Some(Starter {
        kind,
        name: cell(1)?,
        construction,
        size: cell(3)?,
        grade: cell(4)?,
        legs: record.get(5)?.parse().ok()?,
        angle_deg: cell(6)?,
        rating: cell(7)?,
        unit: Unit::spelled_anywhere(record.get(8)?)?,
        source: cell(9)?,
        standing: Standing::read(record.get(10)?)?,
    })
}

impl Starter {
    /// Whether every word of a search stands in it; capitals do not matter.
    pub fn matches(&self, search: &str) -> bool {
        let text = format!("{} {} {} {}", self.name, self.size, self.grade, self.source).to_lowercase();
        search.to_lowercase().split_whitespace().all(|word| text.contains(word))
    }

    /// "Chain sling, 10 mm, grade 8: 3.15 t"; of a set with the angle from the horizontal.
    pub fn words(&self) -> String {
        let set = match self.legs {
            0 | 1 => String::new(),
            _ => format!(" for the set, legs down to {}° from the horizontal", self.angle_deg),
        };
        format!(
            "{}, {}, {}: {} {}{set}",
            self.name,
            self.size,
            self.grade,
            self.rating,
            self.unit.symbol()
        )
    }

    /// A piece of gear with this rating and its source; what a table cannot say (own weight, length, how many, its tag) is left blank.
    pub fn gear(&self) -> GearItem {
        let mut rating = Entry::typed(format!("{} {}", self.rating, self.unit.symbol()), self.unit);
        rating.said = Some(Said {
            who: self.source.clone(),
            when: String::new(),
            note: format!("{}; the tag in hand counts", self.standing.words()),
        });
        let sized = !matches!(self.construction, Construction::Polyester | Construction::RoundSling);
        let diameter = if sized { self.size.as_str() } else { "" };
        let set = self.legs > 1;
        GearItem {
            kind: self.kind,
            name: format!("{}, {}, {}", self.name, self.size, self.grade),
            quantity: 1,
            rating,
            legs: if set { self.legs } else { 0 },
            rated_angle: Entry::typed(self.angle_deg.clone(), Unit::Deg),
            construction: self.construction,
            diameter: Entry::typed(diameter, Unit::Mm),
            grade: self.grade.clone(),
            ..GearItem::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_read_and_makes_a_piece() {
        let lines = include_str!("starter.csv").lines().count() - 1;
        let rows = starters();
        assert_eq!(rows.len(), lines);
        for row in rows {
            let piece = row.gear();
            assert!(piece.rating.get().is_some_and(|m| m.to_kg() > 0.0), "{}", row.words());
            assert!(piece.legs < 2 || piece.rated_angle.get().is_some(), "{}", row.words());
            assert!(!piece.tag_legible && piece.mass.is_blank() && piece.length.is_blank());
            assert!(row.source.len() > 5);
            assert!(
                matches!(row.construction, Construction::Polyester | Construction::RoundSling)
                    || piece.diameter.get().is_some(),
                "{}",
                row.words()
            );
        }
    }

    #[test]
    fn a_search_takes_words() {
        let found = |search: &str| starters().iter().filter(|row| row.matches(search)).count();
        assert_eq!(found("RR-C-271 1/2"), 2);
        assert_eq!(found("no such thing"), 0);
    }
}
