//! JSON from outside into a plain value, with what a plain reader lets pass refused: nesting beyond
//! [`MOST_DEPTH`](super::MOST_DEPTH), and a key that stands twice in one object.
//!
//! A number becomes the double that the canonical form writes, whole where it is whole: `1`, `1.0`
//! and `1e0` are one value, so that a file and its own copy written anew never differ.

use std::{
    cell::{Cell, RefCell},
    fmt,
};

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value, map::Entry};

use super::{
    MOST_DEPTH,
    canonical::whole,
    fault::{JsonFault, readable},
};

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
    pub what: JsonFault,
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
    let stumble = Stumble::default();
    let mut reader = serde_json::Deserializer::from_slice(bytes);
    let seed = Strict {
        stumble: &stumble,
        depth: 0,
    };
    let read = seed
        .deserialize(&mut reader)
        .and_then(|value| reader.end().map(|()| value));
    read.map_err(|error| {
        let way: String = stumble.steps.take().into_iter().rev().collect();
        JsonError {
            line: error.line(),
            column: error.column(),
            path: readable(way.trim_start_matches('.')),
            what: stumble.what.take().unwrap_or_else(|| JsonFault::of(&error)),
        }
    })
}

/// The number that the canonical form writes for this one.
fn number(value: f64) -> Option<Number> {
    match whole(value) {
        Some(whole) => Some(Number::from(whole)),
        None => Number::from_f64(value),
    }
}

/// What the parser's own errors have no room for.
#[derive(Default)]
struct Stumble {
    /// What is wrong, where the parser itself saw nothing wrong.
    what: Cell<Option<JsonFault>>,
    /// The way to the place, innermost step first: put together only once something is wrong.
    steps: RefCell<Vec<String>>,
}

#[derive(Clone, Copy)]
struct Strict<'s> {
    stumble: &'s Stumble,
    /// How many lists and objects this stands in.
    depth: usize,
}

impl<'de> DeserializeSeed<'de> for Strict<'_> {
    type Value = Value;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl Strict<'_> {
    fn refuse<E: Error>(self, what: JsonFault) -> E {
        self.stumble.what.set(Some(what));
        E::custom("")
    }

    /// The reader for what stands within; refuses a list or an object within too many others.
    fn enter<E: Error>(self) -> Result<Self, E> {
        if self.depth < MOST_DEPTH {
            Ok(Self {
                depth: self.depth + 1,
                ..self
            })
        } else {
            Err(self.refuse(JsonFault::Deep))
        }
    }

    fn step(self, step: String) {
        self.stumble.steps.borrow_mut().push(step);
    }

    fn number<E: Error>(self, value: f64) -> Result<Value, E> {
        number(value)
            .map(Value::Number)
            .ok_or_else(|| self.refuse(JsonFault::Large))
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
        self.number(value as f64)
    }
    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        self.number(value as f64)
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        self.number(value)
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
        let within = self.enter()?;
        let mut array = Vec::new();
        loop {
            match items.next_element_seed(within) {
                Ok(Some(item)) => array.push(item),
                Ok(None) => return Ok(Value::Array(array)),
                Err(error) => {
                    self.step(format!("[{}]", array.len()));
                    return Err(error);
                }
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        let within = self.enter()?;
        let mut object = Map::new();
        while let Some(key) = members.next_key::<String>()? {
            match object.entry(key) {
                Entry::Vacant(place) => {
                    let value = members.next_value_seed(within).inspect_err(|_| {
                        self.step(format!(".{}", place.key()));
                    })?;
                    place.insert(value);
                }
                Entry::Occupied(place) => {
                    let key = readable(place.key());
                    return Err(self.refuse(JsonFault::Twice { key }));
                }
            }
        }
        Ok(Value::Object(object))
    }
}
