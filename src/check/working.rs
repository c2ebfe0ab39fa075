//! How a figure came about, as an engineer writes it: symbol = formula = numbers = value unit, source.

use super::Amount;
use crate::quantity::{Safe, UnitSystem};
use serde::Serialize;
use std::borrow::Cow;

/// A symbol of a formula and its number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Input {
    /// The symbol as it stands in the formula.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Its number.
    pub value: Amount,
}

/// One line of working. It is kept as data; the text is made when it is opened.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Working {
    /// What is computed, in words.
    pub meaning: Cow<'static, str>,
    /// Its symbol.
    pub symbol: &'static str,
    /// The formula.
    pub formula: &'static str,
    /// The numbers that go in.
    pub inputs: Vec<Input>,
    /// What comes out.
    pub result: Amount,
    /// Where the formula stands, or who gave its numbers.
    pub source: Cow<'static, str>,
}

impl Working {
    /// A line of working without inputs yet.
    pub fn new(
        meaning: &'static str,
        symbol: &'static str,
        formula: &'static str,
        result: impl Into<Amount>,
        source: &'static str,
    ) -> Self {
        Self {
            meaning: Cow::Borrowed(meaning),
            symbol,
            formula,
            inputs: Vec::new(),
            result: result.into(),
            source: Cow::Borrowed(source),
        }
    }

    /// The same, of something that the plan names and whose numbers somebody gave.
    #[must_use]
    pub fn of(mut self, meaning: String, source: String) -> Self {
        (self.meaning, self.source) = (Cow::Owned(meaning), Cow::Owned(source));
        self
    }

    /// Adds an input.
    #[must_use]
    pub fn input(mut self, symbol: &'static str, meaning: &'static str, value: impl Into<Amount>) -> Self {
        self.inputs.push(Input {
            symbol,
            meaning,
            value: value.into(),
        });
        self
    }

    /// The line as text: `C = W·a/H = 26,665 lb·12 ft/22.98 ft = 13,838 lb`.
    pub fn text(&self, units: UnitSystem) -> String {
        let result = self.result.show(units, Safe::Nearest);
        if self.inputs.is_empty() {
            return format!("{} = {} = {result}", self.symbol, self.formula);
        }
        format!(
            "{} = {} = {} = {result}",
            self.symbol,
            self.formula,
            self.numbers(units)
        )
    }

    /// The formula with its symbols replaced by their numbers.
    fn numbers(&self, units: UnitSystem) -> String {
        let mut text = String::new();
        let mut word = String::new();
        for c in self.formula.chars().chain(['\0']) {
            if c.is_alphanumeric() || c == '_' || ('\u{2080}'..='\u{2089}').contains(&c) {
                word.push(c);
                continue;
            }
            match self.inputs.iter().find(|input| input.symbol == word) {
                Some(input) => text.push_str(&input.value.show(units, Safe::Nearest)),
                None => text.push_str(&word),
            }
            word.clear();
            if c != '\0' {
                text.push(c);
            }
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Mass};

    #[test]
    fn symbols_are_replaced_whole() {
        let line = Working::new("lever", "c", "(m₁·x₁ + m·x)/m", Length::m(2.0), "moments")
            .input("m₁", "one", Mass::t(1.0))
            .input("x₁", "arm", Length::m(4.0))
            .input("m", "all", Mass::t(2.0))
            .input("x", "arm", Length::m(0.0));
        assert_eq!(
            line.text(UnitSystem::Metric),
            "c = (m₁·x₁ + m·x)/m = (1.00 t·4.00 m + 2.00 t·0.00 m)/2.00 t = 2.00 m"
        );
    }
}
