//! How the parts of a plan are read from JSON and written to it: one list of fields per part serves both.
//!
//! The lists are data behind one small interface, not generated code: a plan has some two hundred fields, and the page is loaded in a muddy yard.
//! A message names the place in the file where reading stopped.

use crate::crane::{ChartRow, Configuration, ConfirmedCell, Deductions, RatingChart, Support};
use crate::quantity::{DecimalMark, Dimension, Entry, Readable, Said, Unit, UnitSystem};
use crate::rigging::Construction;
use serde_json::{Map, Value};

/// What could not be read, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// Steps from the place outwards: the last one is the outermost.
    path: Vec<String>,
    what: String,
}

impl core::fmt::Display for ReadError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let path: String = self.path.iter().rev().map(String::as_str).collect();
        match path.trim_start_matches('.') {
            "" => f.write_str(&self.what),
            path => write!(f, "{path}: {}", self.what),
        }
    }
}

impl core::error::Error for ReadError {}

impl ReadError {
    fn new(what: String) -> Self {
        Self { path: Vec::new(), what }
    }

    fn at(mut self, step: String) -> Self {
        self.path.push(step);
        self
    }

    /// Something else stands where a value of a certain kind was expected.
    pub fn unexpected(read: &Value, expected: &str) -> Self {
        let read = match read {
            Value::Null => "nothing".to_owned(),
            Value::Array(list) => format!("a list of {}", list.len()),
            Value::Object(_) => "a group of fields".to_owned(),
            other => other.to_string(),
        };
        Self::new(format!("read {read}, expected {expected}"))
    }
}

/// What can stand in a plan file.
pub trait Json {
    /// Takes the value over. What the file leaves out keeps its default.
    fn read(&mut self, value: Value) -> Result<(), ReadError>;
    /// The value for a file; `null` and `false` are left out of their group.
    fn write(&self) -> Value;
}

/// Names of a structure's fields, for tests that none is forgotten.
#[cfg(all(test, feature = "web"))]
pub trait Named {
    /// As they stand in the file.
    const NAMES: &'static [&'static str];
}

/// Reads a group of fields. Fields that are not in the list are passed over: `format` names them.
pub fn read_fields(value: Value, fields: &mut [(&'static str, &mut dyn Json)]) -> Result<(), ReadError> {
    let Value::Object(mut group) = value else {
        return Err(ReadError::unexpected(&value, "a group of fields"));
    };
    for (name, field) in fields {
        if let Some(value) = group.remove(*name) {
            field.read(value).map_err(|error| error.at(format!(".{name}")))?;
        }
    }
    Ok(())
}

/// Writes a group of fields.
pub fn write_fields(fields: &[(&'static str, &dyn Json)]) -> Value {
    let mut group = Map::new();
    for (name, field) in fields {
        let value = field.write();
        if !matches!(value, Value::Null | Value::Bool(false)) {
            group.insert((*name).to_owned(), value);
        }
    }
    Value::Object(group)
}

/// Reads a choice: the one name in a group, and what belongs to it.
pub fn read_choice(value: Value) -> Result<(String, Value), ReadError> {
    match value {
        Value::Object(group) if group.len() == 1 => Ok(group.into_iter().next().unwrap_or_default()),
        other => Err(ReadError::unexpected(&other, "one name with its fields")),
    }
}

/// The error for a name that is none of a choice's.
pub fn unknown_choice(name: &str, known: &[&str]) -> ReadError {
    ReadError::new(format!("read \"{name}\", expected one of {}", known.join(", ")))
}

/// Writes a choice.
pub fn write_choice(name: &'static str, fields: &[(&'static str, &dyn Json)]) -> Value {
    let mut group = Map::new();
    group.insert(name.to_owned(), write_fields(fields));
    Value::Object(group)
}

/// Takes a field out of a written group where it is nothing but its type's default: few rows have it.
pub fn spare<T: Default + PartialEq>(group: &mut Value, name: &str, field: &T) {
    if *field == T::default()
        && let Value::Object(group) = group
    {
        group.remove(name);
    }
}

/// Gives a structure its list of fields: `fields!(Point { east, north })`. Fields behind a semicolon are left out of the file while they are
/// their type's default.
macro_rules! fields {
    ($($type:ident { $($field:ident),+ $(; $($rare:ident),+)? })+) => {$(
        impl $crate::json::Json for $type {
            fn read(&mut self, value: serde_json::Value) -> Result<(), $crate::json::ReadError> {
                $crate::json::read_fields(
                    value,
                    &mut [$((stringify!($field), &mut self.$field)),+ $(, $((stringify!($rare), &mut self.$rare)),+)?],
                )
            }
            fn write(&self) -> serde_json::Value {
                #[allow(unused_mut, reason = "most have no rare fields")]
                let mut group = $crate::json::write_fields(
                    &[$((stringify!($field), &self.$field)),+ $(, $((stringify!($rare), &self.$rare)),+)?],
                );
                $($($crate::json::spare(&mut group, stringify!($rare), &self.$rare);)+)?
                group
            }
        }
        #[cfg(all(test, feature = "web"))]
        impl $crate::json::Named for $type {
            const NAMES: &'static [&'static str] = &[$(stringify!($field)),+ $(, $(stringify!($rare)),+)?];
        }
    )+};
}
pub(crate) use fields;

/// Gives a choice its names, each with its fields: `choice!(Weight { "lump" => Lump { mass } })`.
macro_rules! choice {
    ($type:ident { $($name:literal => $variant:ident { $($field:ident),+ $(,)? }),+ $(,)? }) => {
        impl $crate::json::Json for $type {
            fn read(&mut self, value: serde_json::Value) -> Result<(), $crate::json::ReadError> {
                let (name, value) = $crate::json::read_choice(value)?;
                match name.as_str() {
                    $($name => {
                        $(let mut $field = Default::default();)+
                        $crate::json::read_fields(value, &mut [$((stringify!($field), &mut $field)),+])?;
                        *self = Self::$variant { $($field),+ };
                        Ok(())
                    })+
                    other => Err($crate::json::unknown_choice(other, &[$($name),+])),
                }
            }
            fn write(&self) -> serde_json::Value {
                match self {
                    $(Self::$variant { $($field),+ } => {
                        $crate::json::write_choice($name, &[$((stringify!($field), $field)),+])
                    })+
                }
            }
        }
    };
}
pub(crate) use choice;

/// Gives a plain choice its names: `names!(ZoneKind { "road" => Road, "ground" => Ground })`.
macro_rules! names {
    ($type:ident { $($name:literal => $variant:ident),+ $(,)? }) => {
        impl $crate::json::Json for $type {
            fn read(&mut self, value: serde_json::Value) -> Result<(), $crate::json::ReadError> {
                let index = $crate::json::read_name(&value, &[$($name),+])?;
                *self = [$(Self::$variant),+][index];
                Ok(())
            }
            fn write(&self) -> serde_json::Value {
                serde_json::Value::from(match self { $(Self::$variant => $name),+ })
            }
        }
    };
}
pub(crate) use names;

/// Which of the names a value is.
pub fn read_name(value: &Value, names: &[&str]) -> Result<usize, ReadError> {
    let Value::String(text) = value else {
        return Err(ReadError::unexpected(value, &format!("one of {}", names.join(", "))));
    };
    names
        .iter()
        .position(|name| name == text)
        .ok_or_else(|| unknown_choice(text, names))
}

names!(UnitSystem { "us" => Us, "metric" => Metric });
names!(DecimalMark { "." => Point, "," => Comma });
names!(Construction { "unknown" => Unknown, "wire_rope" => WireRope, "polyester" => Polyester, "nylon" => Nylon, "chain" => Chain });
names!(Support { "outriggers" => Outriggers, "rubber" => Rubber, "crawlers" => Crawlers });

fields! {
    RatingChart { id, name, configuration, radius_unit, boom_unit, capacity_unit, decimal, booms, rows, locked, said, footnotes, includes, confirmed }
    Configuration { counterweight, outriggers, support, sector; outrigger_load, base_length, base_width, rigged, rated_by }
    ChartRow { radius, cells }
    Deductions { hook_block, hanging_rope, rigging, stowed_attachments }
    ConfirmedCell { radius, boom, cell }
}

impl Json for Unit {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        let known = value
            .as_str()
            .and_then(|key| Self::ALL.iter().find(|unit| unit.key() == key));
        *self = *known.ok_or_else(|| ReadError::unexpected(&value, "a unit such as \"ft\" or \"kg\""))?;
        Ok(())
    }
    fn write(&self) -> Value {
        Value::from(self.key())
    }
}

impl Json for Said {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        read_fields(
            value,
            &mut [
                ("who", &mut self.who),
                ("when", &mut self.when),
                ("note", &mut self.note),
            ],
        )
    }
    fn write(&self) -> Value {
        let mut group = Map::new();
        for (name, text) in [("who", &self.who), ("when", &self.when), ("note", &self.note)] {
            if !text.is_empty() {
                group.insert(name.to_owned(), text.write());
            }
        }
        Value::Object(group)
    }
}

impl<Q: Readable> Json for Entry<Q> {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        let (typed, unit, mark, said) = read_entry(value, Q::DIMENSION)?;
        *self = Self::typed_with(typed, unit, mark);
        self.said = said;
        Ok(())
    }
    fn write(&self) -> Value {
        let si = self.get().map(|value| (Q::SI, value.si()));
        write_entry(self.text(), self.unit(), self.mark(), si, self.said.as_ref())
    }
}

/// What is read back of an entry; its SI number is worked out anew from the text.
fn read_entry(value: Value, dimension: &Dimension) -> Result<(String, Unit, DecimalMark, Option<Said>), ReadError> {
    let (mut typed, mut unit, mut mark, mut said) = (String::new(), None::<Unit>, DecimalMark::default(), None);
    read_fields(
        value,
        &mut [
            ("typed", &mut typed),
            ("unit", &mut unit),
            ("decimal", &mut mark),
            ("said", &mut said),
        ],
    )?;
    let example = dimension.units[0].key();
    match unit {
        Some(unit) if dimension.has(unit) => Ok((typed, unit, mark, said)),
        Some(unit) => Err(ReadError::new(format!(
            "read the unit \"{}\" with {}, expected one such as \"{example}\"",
            unit.symbol(),
            dimension.kind
        ))),
        None => Err(ReadError::new(format!(
            "read {} without its unit, expected one such as \"{example}\"",
            dimension.kind
        ))),
    }
}

fn write_entry(typed: &str, unit: Unit, mark: DecimalMark, si: Option<(&str, f64)>, said: Option<&Said>) -> Value {
    let mut group = Map::new();
    group.insert("typed".to_owned(), Value::from(typed));
    group.insert("unit".to_owned(), unit.write());
    if mark != DecimalMark::Point {
        group.insert("decimal".to_owned(), mark.write());
    }
    if let Some((key, value)) = si {
        group.insert(key.to_owned(), Value::from(value));
    }
    if let Some(said) = said {
        group.insert("said".to_owned(), said.write());
    }
    Value::Object(group)
}

impl Json for String {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        let Value::String(text) = value else {
            return Err(ReadError::unexpected(&value, "text in quotes"));
        };
        *self = text;
        Ok(())
    }
    fn write(&self) -> Value {
        Value::from(self.as_str())
    }
}

impl Json for bool {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        *self = value
            .as_bool()
            .ok_or_else(|| ReadError::unexpected(&value, "true or false"))?;
        Ok(())
    }
    fn write(&self) -> Value {
        Value::Bool(*self)
    }
}

impl Json for u32 {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        let whole = value.as_u64().and_then(|number| u32::try_from(number).ok());
        *self = whole.ok_or_else(|| ReadError::unexpected(&value, "a whole number"))?;
        Ok(())
    }
    fn write(&self) -> Value {
        Value::from(*self)
    }
}

impl<T: Json + Default> Json for Vec<T> {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        let Value::Array(list) = value else {
            return Err(ReadError::unexpected(&value, "a list"));
        };
        self.clear();
        for (index, value) in list.into_iter().enumerate() {
            let mut item = T::default();
            item.read(value).map_err(|error| error.at(format!("[{}]", index + 1)))?;
            self.push(item);
        }
        Ok(())
    }
    fn write(&self) -> Value {
        Value::Array(self.iter().map(Json::write).collect())
    }
}

impl<T: Json, const N: usize> Json for [T; N] {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        match value {
            Value::Array(list) if list.len() == N => {
                for (index, (item, value)) in self.iter_mut().zip(list).enumerate() {
                    item.read(value).map_err(|error| error.at(format!("[{}]", index + 1)))?;
                }
                Ok(())
            }
            other => Err(ReadError::unexpected(&other, &format!("a list of {N}"))),
        }
    }
    fn write(&self) -> Value {
        Value::Array(self.iter().map(Json::write).collect())
    }
}

impl<T: Json + Default> Json for Option<T> {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        *self = None;
        if !value.is_null() {
            self.insert(T::default()).read(value)?;
        }
        Ok(())
    }
    fn write(&self) -> Value {
        self.as_ref().map_or(Value::Null, Json::write)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Plan, Weight};
    use serde_json::json;

    #[test]
    fn the_message_names_the_place() {
        let mut plan = Plan::default();
        let error = plan
            .read(json!({ "boxes": [{ "id": "A1" }, { "id": "A2", "components": 3 }] }))
            .unwrap_err();
        assert_eq!(error.to_string(), "boxes[2].components: read 3, expected a list");
    }

    #[test]
    fn a_choice_carries_its_fields() {
        let mut weight = Weight::default();
        weight
            .read(json!({ "length": { "density": { "typed": "3", "unit": "kg/m" } } }))
            .unwrap();
        assert!(
            matches!(&weight, Weight::Length { density, .. } if density.text() == "3"),
            "{weight:?}"
        );
        let error = weight.read(json!({ "heap": {} })).unwrap_err();
        assert_eq!(
            error.to_string(),
            "read \"heap\", expected one of lump, count, length, area, volume, assembly"
        );
    }
}
