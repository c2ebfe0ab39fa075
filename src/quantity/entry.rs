//! A number as a person typed it, with the unit it was typed in and who said so.

use super::read::{DecimalMark, Reading, read};
use super::unit::{Readable, Unit};

/// Who said a number, when, and what there is to add; each may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// The person or the paper: "scale ticket 4471".
    pub who: String,
    /// The date as the person wrote it.
    pub when: String,
    /// Anything else.
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

#[cfg(test)]
mod tests {
    use super::super::kinds::{Length, Mass};
    use super::*;
    use crate::json::{Json as _, ReadError};
    use serde_json::Value;

    fn read<Q: Readable>(json: &str) -> Result<Entry<Q>, ReadError> {
        let mut entry = Entry::default();
        entry.read(serde_json::from_str(json).unwrap()).map(|()| entry)
    }

    #[track_caller]
    fn survives(entry: &Entry<Length>, json: &str) {
        let written: Value = serde_json::from_str(json).unwrap();
        assert_eq!(entry.write(), written);
        assert_eq!(&read::<Length>(json).unwrap(), entry);
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
        let entry = read::<Length>(r#"{"typed":"2 m","unit":"ft","m":99.0}"#).unwrap();
        assert_eq!(entry.get(), Some(Length::m(2.0)));
    }

    #[test]
    fn a_unit_of_another_quantity_is_refused() {
        let refused = |json: &str| read::<Mass>(json).unwrap_err().to_string();
        assert_eq!(
            refused(r#"{"typed":"2","unit":"ft"}"#),
            "read the unit \"ft\" with a mass, expected one such as \"kg\""
        );
        assert_eq!(
            refused(r#"{"typed":"2"}"#),
            "read a mass without its unit, expected one such as \"kg\""
        );
        assert_eq!(refused(r#""2 lb""#), "read \"2 lb\", expected a group of fields");
        assert_eq!(
            refused(r#"{"typed":"2","unit":"stone"}"#),
            "unit: read \"stone\", expected a unit such as \"ft\" or \"kg\""
        );
    }

    #[test]
    fn blank_is_not_known() {
        assert!(Entry::<Mass>::default().is_blank());
        assert_eq!(Entry::<Mass>::default().get(), None);
        assert_eq!(Entry::<Mass>::default().unit(), Unit::Kg);
        assert!(!Entry::<Mass>::typed("0", Unit::Lb).is_blank());
    }
}
