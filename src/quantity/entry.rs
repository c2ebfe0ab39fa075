//! A number as a person typed it, with the unit it was typed in and who said so.

use super::read::{DecimalMark, Reading, read};
use super::unit::{Dimension, Readable, Unit};
use serde::de::Error as _;
use serde::ser::SerializeMap as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Who said a number, when, and what there is to add; each may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Said {
    /// The person or the paper: "scale ticket 4471".
    #[serde(skip_serializing_if = "String::is_empty")]
    pub who: String,
    /// The date as the person wrote it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub when: String,
    /// Anything else.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A quantity kept as it was typed, with what was understood.
///
/// The unit is the one a bare number had when it was typed, so that a later change of the project's units changes no
/// number. In a plan file: `{"typed":"12'-6\"","unit":"ft","m":3.81}`; the SI number is there for readers and is worked
/// out anew from the typed text when the file is opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry<Q> {
    typed: String,
    unit: Unit,
    mark: DecimalMark,
    value: Option<Q>,
    /// Who said so.
    pub said: Option<Said>,
}

impl<Q: Readable> Entry<Q> {
    /// Typed with a decimal point; a bare number is in `unit`.
    pub fn typed(text: impl Into<String>, unit: Unit) -> Self {
        Self::typed_with(text, unit, DecimalMark::Point)
    }

    /// Typed by a person who puts `mark` before the decimals.
    pub fn typed_with(text: impl Into<String>, unit: Unit, mark: DecimalMark) -> Self {
        let typed = text.into();
        let value = read(&typed, unit, mark).value();
        Self {
            typed,
            unit,
            mark,
            value,
            said: None,
        }
    }

    /// Not typed yet: not known.
    pub fn blank(unit: Unit) -> Self {
        Self::typed("", unit)
    }

    /// The text as typed.
    pub fn text(&self) -> &str {
        &self.typed
    }

    /// The unit of a bare number in it.
    pub const fn unit(&self) -> Unit {
        self.unit
    }

    /// The decimal mark it was typed with.
    pub const fn mark(&self) -> DecimalMark {
        self.mark
    }

    /// The value; `None` while blank, ambiguous or wrong.
    pub const fn get(&self) -> Option<Q> {
        self.value
    }

    /// The value where it is zero or more: for quantities that have no meaning below zero.
    pub fn not_negative(&self) -> Option<Q> {
        self.value.filter(|value| value.si() >= 0.0)
    }

    /// The value, or while nothing is typed what stands in for it. A text that cannot be read is never passed over.
    pub fn get_or(&self, blank: impl FnOnce() -> Option<Q>) -> Option<Q> {
        if self.is_blank() { blank() } else { self.value }
    }

    /// What became of the text, with the message where it has no value.
    pub fn reading(&self) -> Reading<Q> {
        read(&self.typed, self.unit, self.mark)
    }

    /// Nothing typed.
    pub fn is_blank(&self) -> bool {
        self.typed.trim().is_empty()
    }

    /// The same, with its source.
    #[must_use]
    pub fn said_by(mut self, who: impl Into<String>, when: impl Into<String>, note: impl Into<String>) -> Self {
        self.said = Some(Said {
            who: who.into(),
            when: when.into(),
            note: note.into(),
        });
        self
    }
}

impl<Q: Readable> Default for Entry<Q> {
    /// Blank, in the SI unit.
    fn default() -> Self {
        Self::blank(Q::UNITS[0])
    }
}

impl<Q: Readable> Serialize for Entry<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("typed", &self.typed)?;
        map.serialize_entry("unit", &self.unit)?;
        if self.mark != DecimalMark::Point {
            map.serialize_entry("decimal", &self.mark)?;
        }
        if let Some(value) = self.value {
            map.serialize_entry(Q::SI, &value.si())?;
        }
        if let Some(said) = &self.said {
            map.serialize_entry("said", said)?;
        }
        map.end()
    }
}

/// What is read back of an entry; its SI number is not.
#[derive(Deserialize)]
struct Kept {
    typed: String,
    unit: Unit,
    #[serde(default)]
    decimal: DecimalMark,
    said: Option<Said>,
}

impl<'de, Q: Readable> Deserialize<'de> for Entry<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Kept {
            typed,
            unit,
            decimal,
            said,
        } = Kept::deserialize(deserializer)?;
        fits(unit, Q::DIMENSION).map_err(D::Error::custom)?;
        Ok(Self {
            said,
            ..Self::typed_with(typed, unit, decimal)
        })
    }
}

fn fits(unit: Unit, dimension: &Dimension) -> Result<(), String> {
    if dimension.has(unit) {
        return Ok(());
    }
    Err(format!(
        "read the unit \"{}\" with {}: expected one such as \"{}\"",
        unit.symbol(),
        dimension.kind,
        dimension.units[0].si_key()
    ))
}

#[cfg(test)]
mod tests {
    use super::super::kinds::{Length, Mass};
    use super::*;

    #[track_caller]
    fn survives(entry: &Entry<Length>, json: &str) {
        assert_eq!(serde_json::to_string(entry).unwrap(), json);
        assert_eq!(&serde_json::from_str::<Entry<Length>>(json).unwrap(), entry);
    }

    #[test]
    fn the_file_keeps_what_was_typed() {
        survives(
            &Entry::typed("12'-6\"", Unit::Ft),
            r#"{"typed":"12'-6\"","unit":"ft","m":3.81}"#,
        );
        survives(
            &Entry::typed_with("4,5", Unit::M, DecimalMark::Comma),
            r#"{"typed":"4,5","unit":"m","decimal":",","m":4.5}"#,
        );
        survives(&Entry::blank(Unit::Ft), r#"{"typed":"","unit":"ft"}"#);
        survives(
            &Entry::typed("about 12", Unit::Ft),
            r#"{"typed":"about 12","unit":"ft"}"#,
        );
        survives(
            &Entry::typed("3", Unit::M).said_by("survey", "", ""),
            r#"{"typed":"3","unit":"m","m":3.0,"said":{"who":"survey"}}"#,
        );
    }

    #[test]
    fn the_number_in_the_file_is_not_believed() {
        let entry: Entry<Length> = serde_json::from_str(r#"{"typed":"2 m","unit":"ft","m":99.0}"#).unwrap();
        assert_eq!(entry.get(), Some(Length::m(2.0)));
    }

    #[test]
    fn a_unit_of_another_quantity_is_refused() {
        let error = serde_json::from_str::<Entry<Mass>>(r#"{"typed":"2","unit":"ft"}"#)
            .unwrap_err()
            .to_string();
        assert!(
            error.contains("read the unit \"ft\" with a mass: expected one such as \"kg\""),
            "{error}"
        );
        assert!(serde_json::from_str::<Entry<Mass>>(r#""2 lb""#).is_err());
    }

    #[test]
    fn blank_is_not_known() {
        assert!(Entry::<Mass>::default().is_blank());
        assert_eq!(Entry::<Mass>::default().get(), None);
        assert_eq!(Entry::<Mass>::default().unit(), Unit::Kg);
        assert!(!Entry::<Mass>::typed("0", Unit::Lb).is_blank());
    }
}
