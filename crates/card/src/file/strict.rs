//! JSON from outside into a plain value, with what a plain reader lets pass refused: nesting beyond
//! [`MOST_DEPTH`](super::MOST_DEPTH), and a key that stands twice in one object.
//!
//! A number becomes the double that the canonical form writes, whole where it is whole: `1`, `1.0`
//! and `1e0` are one value, so that a file and its own copy written anew never differ.

use std::{cell::RefCell, fmt};

use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

use super::MOST_DEPTH;

/// Text that is not JSON as it is allowed here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, column {column}{}: {what}", at_path(.path))]
pub struct JsonError {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// The way to the place, such as `entries[3].body`; empty at the top.
    pub path: String,
    /// What is wrong.
    pub what: String,
}

fn at_path(path: &str) -> String {
    if path.is_empty() {
        String::new()
    } else {
        format!(" ({path})")
    }
}

/// Reads JSON text into a value.
pub(super) fn parse(bytes: &[u8]) -> Result<Value, JsonError> {
    let path = RefCell::new(Vec::new());
    let mut reader = serde_json::Deserializer::from_slice(bytes);
    let seed = Strict { path: &path };
    let read = seed
        .deserialize(&mut reader)
        .and_then(|value| reader.end().map(|()| value));
    read.map_err(|error| {
        let what = error.to_string();
        let what = match what.rsplit_once(" at line ") {
            Some((what, _)) => what,
            None => &what,
        };
        let path = path.borrow().concat();
        JsonError {
            line: error.line(),
            column: error.column(),
            path: readable(path.trim_start_matches('.')),
            what: readable(what),
        }
    })
}

/// Text out of a file, cut to a length that a message can carry.
pub(super) fn readable(text: &str) -> String {
    const LONGEST: usize = 500;
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

/// The number that the canonical form writes for this one.
fn number(value: f64) -> Option<Number> {
    // Whole numbers of a size at which every whole number is a double keep their plain form.
    const WHOLE: f64 = (1u64 << 53) as f64;
    if value.fract() == 0.0 && value.abs() <= WHOLE {
        #[allow(clippy::cast_possible_truncation, reason = "whole and within 2^53")]
        return Some(Number::from(value as i64));
    }
    Number::from_f64(value)
}

/// Where the reader is, so that an error can say so; a step is taken back only on success.
struct Strict<'p> {
    path: &'p RefCell<Vec<String>>,
}

impl<'de> DeserializeSeed<'de> for Strict<'_> {
    type Value = Value;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl Strict<'_> {
    /// Refuses a list or an object within so many others.
    fn enter<E: Error>(&self) -> Result<(), E> {
        if self.path.borrow().len() < MOST_DEPTH {
            Ok(())
        } else {
            Err(E::custom(format!("nested deeper than {MOST_DEPTH}")))
        }
    }

    fn number<E: Error>(value: f64) -> Result<Value, E> {
        number(value)
            .map(Value::Number)
            .ok_or_else(|| E::custom(format!("{value} is not a finite number")))
    }
}

impl<'de> Visitor<'de> for Strict<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Self::number(value as f64)
    }
    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Self::number(value as f64)
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Self::number(value)
    }
    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_string<E>(self, value: String) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        self.enter()?;
        let mut array = Vec::new();
        loop {
            self.path.borrow_mut().push(format!("[{}]", array.len()));
            match items.next_element_seed(Strict { path: self.path })? {
                Some(item) => array.push(item),
                None => break,
            }
            self.path.borrow_mut().pop();
        }
        self.path.borrow_mut().pop();
        Ok(Value::Array(array))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        self.enter()?;
        let mut object = Map::new();
        while let Some(key) = members.next_key_seed(Key)? {
            if object.contains_key(&key) {
                return Err(A::Error::custom(format!("the key `{key}` stands twice")));
            }
            self.path.borrow_mut().push(format!(".{key}"));
            let value = members.next_value_seed(Strict { path: self.path })?;
            self.path.borrow_mut().pop();
            object.insert(key, value);
        }
        Ok(Value::Object(object))
    }
}

struct Key;

impl<'de> DeserializeSeed<'de> for Key {
    type Value = String;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<String, D::Error> {
        String::deserialize(deserializer)
    }
}
