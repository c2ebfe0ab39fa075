//! Reads a plan's parts out of JSON values, with the path of what could not be read.
//!
//! `serde_json`'s own reader of values accepts lists for structures and names nothing in its messages; this one takes only the form that we
//! write, which also halves the size of the page, and says where in the file it stopped.

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error as _, IntoDeserializer, MapAccess, SeqAccess, VariantAccess,
    Visitor,
};
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
        write!(f, "{}: {}", path.trim_start_matches('.'), self.what)
    }
}

impl core::error::Error for ReadError {}

impl serde::de::Error for ReadError {
    fn custom<T: core::fmt::Display>(what: T) -> Self {
        Self {
            path: Vec::new(),
            what: what.to_string(),
        }
    }
}

impl ReadError {
    fn at(mut self, step: String) -> Self {
        self.path.push(step);
        self
    }
}

/// Reads a value of our own format.
pub fn read<'de, T: serde::Deserialize<'de>>(value: Value) -> Result<T, ReadError> {
    T::deserialize(Reader(value))
}

struct Reader(Value);

impl Reader {
    #[inline(never)]
    fn unexpected<T>(&self, expected: &str) -> Result<T, ReadError> {
        let read = match &self.0 {
            Value::Null => "nothing".to_owned(),
            Value::Array(list) => format!("a list of {}", list.len()),
            Value::Object(_) => "a group of fields".to_owned(),
            other => other.to_string(),
        };
        Err(ReadError::custom(format!("read {read}, expected {expected}")))
    }
}

macro_rules! numbers {
    ($($method:ident $visit:ident $get:ident $expected:literal)+) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
            match self.0.$get() {
                Some(number) => visitor.$visit(number),
                None => self.unexpected($expected),
            }
        }
    )+};
}

impl<'de> Deserializer<'de> for Reader {
    type Error = ReadError;

    numbers! {
        deserialize_u8 visit_u64 as_u64 "a whole number"
        deserialize_u16 visit_u64 as_u64 "a whole number"
        deserialize_u32 visit_u64 as_u64 "a whole number"
        deserialize_u64 visit_u64 as_u64 "a whole number"
        deserialize_i8 visit_i64 as_i64 "a whole number"
        deserialize_i16 visit_i64 as_i64 "a whole number"
        deserialize_i32 visit_i64 as_i64 "a whole number"
        deserialize_i64 visit_i64 as_i64 "a whole number"
        deserialize_f32 visit_f64 as_f64 "a number"
        deserialize_f64 visit_f64 as_f64 "a number"
        deserialize_bool visit_bool as_bool "true or false"
    }

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, ReadError> {
        self.unexpected("a value of a known kind")
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.0 {
            Value::String(text) => visitor.visit_string(text),
            _ => self.unexpected("text in quotes"),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.deserialize_string(visitor)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.deserialize_string(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        if self.0.is_null() {
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, ReadError> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.0 {
            Value::Array(list) => visitor.visit_seq(List {
                items: list.into_iter(),
                index: 0,
            }),
            _ => self.unexpected("a list"),
        }
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, ReadError> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.0 {
            Value::Object(map) => visitor.visit_map(Fields::new(map)),
            _ => self.unexpected("a group of fields"),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(name.into_deserializer()),
            Value::Object(map) if map.len() == 1 => visitor.visit_enum(Choice(map)),
            _ => self.unexpected("one of the known names"),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        visitor.visit_unit()
    }

    serde::forward_to_deserialize_any! { i128 u128 char bytes byte_buf unit unit_struct tuple_struct }
}

struct List {
    items: std::vec::IntoIter<Value>,
    index: usize,
}

impl<'de> SeqAccess<'de> for List {
    type Error = ReadError;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, ReadError> {
        let Some(item) = self.items.next() else { return Ok(None) };
        self.index += 1;
        let index = self.index;
        seed.deserialize(Reader(item))
            .map(Some)
            .map_err(|error| error.at(format!("[{index}]")))
    }
}

struct Fields {
    items: serde_json::map::IntoIter,
    next: Option<(String, Value)>,
}

impl Fields {
    fn new(map: Map<String, Value>) -> Self {
        Self {
            items: map.into_iter(),
            next: None,
        }
    }
}

impl<'de> MapAccess<'de> for Fields {
    type Error = ReadError;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, ReadError> {
        self.next = self.items.next();
        let Some((key, _)) = &self.next else { return Ok(None) };
        let key: StrDeserializer<ReadError> = key.as_str().into_deserializer();
        seed.deserialize(key).map(Some)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, ReadError> {
        let (key, value) = self.next.take().unwrap_or_default();
        seed.deserialize(Reader(value))
            .map_err(|error| error.at(format!(".{key}")))
    }
}

/// A choice with what belongs to it: `{"lump": {…}}`.
struct Choice(Map<String, Value>);

impl<'de> EnumAccess<'de> for Choice {
    type Error = ReadError;
    type Variant = Chosen;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Chosen), ReadError> {
        let (name, value) = self.0.into_iter().next().unwrap_or_default();
        let key: StrDeserializer<ReadError> = name.as_str().into_deserializer();
        let variant = seed.deserialize(key)?;
        Ok((variant, Chosen { name, value }))
    }
}

struct Chosen {
    name: String,
    value: Value,
}

impl<'de> VariantAccess<'de> for Chosen {
    type Error = ReadError;

    fn unit_variant(self) -> Result<(), ReadError> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, ReadError> {
        let name = self.name;
        seed.deserialize(Reader(self.value))
            .map_err(|error| error.at(format!(".{name}")))
    }

    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, ReadError> {
        Reader(self.value)
            .deserialize_tuple(len, visitor)
            .map_err(|error| error.at(format!(".{}", self.name)))
    }

    fn struct_variant<V: Visitor<'de>>(self, _: &'static [&'static str], visitor: V) -> Result<V::Value, ReadError> {
        Reader(self.value)
            .deserialize_map(visitor)
            .map_err(|error| error.at(format!(".{}", self.name)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Plan, Weight};
    use serde_json::json;

    #[test]
    fn the_message_names_the_place() {
        let file = json!({ "boxes": [{ "id": "A1" }, { "id": "A2", "length": { "typed": 3, "unit": "ft" } }] });
        let error = read::<Plan>(file).unwrap_err();
        assert_eq!(
            error.to_string(),
            "boxes[2].length.typed: read 3, expected text in quotes"
        );
    }

    #[test]
    fn a_choice_carries_its_fields() {
        let weight: Weight = read(json!({ "lump": { "mass": { "typed": "3 lb", "unit": "lb" } } })).unwrap();
        assert!(matches!(weight, Weight::Lump { mass } if mass.text() == "3 lb"));
        let error = read::<Weight>(json!({ "heap": {} })).unwrap_err();
        assert!(error.to_string().contains("unknown variant `heap`"), "{error}");
    }
}
