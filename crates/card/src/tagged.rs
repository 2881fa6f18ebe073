//! Enums whose kind stands in a member of the object: `{ "kind": "void", "entry": …, "reason": … }`.
//!
//! serde's own way to these (`tag = "kind"`) reads everything beneath into a buffer of its own and
//! carries a second reader for each type that may come out of it: in the browser 30 kB compressed. Here
//! the derived code sees the plain form, `{ "void": { … } }`, and these two functions turn one form into
//! the other. `#[serde(remote = "Self")]` makes the derived code methods of the type, which its
//! implementations below call.

use serde::{Deserializer, Serializer, de, ser};
use serde_json::{Map, Value};

/// Where the content beside the kind stands.
#[derive(Clone, Copy)]
pub(crate) enum Content {
    /// In the same object.
    Beside,
    /// In a member of its own.
    In(&'static str),
}

/// `{ tag: kind, … }` as `{ kind: { … } }`.
pub(crate) fn untagged<'de, D: Deserializer<'de>>(
    reader: D,
    tag: &'static str,
    content: Content,
) -> Result<Value, D::Error> {
    let value = de::Deserialize::deserialize(reader)?;
    turn_out(value, tag, content).map_err(de::Error::custom)
}

fn turn_out(value: Value, tag: &'static str, content: Content) -> Result<Value, String> {
    let Value::Object(mut members) = value else {
        return Err(format!("it must be an object with a `{tag}`"));
    };
    let missing = |name: &str| format!("missing field `{name}`");
    let kind = match members.remove(tag) {
        Some(Value::String(kind)) => kind,
        Some(_) => return Err(format!("`{tag}` must be a text")),
        None => return Err(missing(tag)),
    };
    let inner = match content {
        Content::Beside => Value::Object(members),
        Content::In(name) => members.remove(name).ok_or_else(|| missing(name))?,
    };
    Ok(Value::Object(Map::from_iter([(kind, inner)])))
}

/// `{ kind: { … } }`, or a mere `kind`, as `{ tag: kind, … }`.
pub(crate) fn tagged<S: Serializer>(
    plain: Result<Value, serde_json::Error>,
    tag: &'static str,
    content: Content,
    writer: S,
) -> Result<S::Ok, S::Error> {
    let value = plain
        .map_err(ser::Error::custom)
        .map(|plain| turn_in(plain, tag, content))?;
    ser::Serialize::serialize(&value, writer)
}

fn turn_in(plain: Value, tag: &str, content: Content) -> Value {
    let Value::Object(members) = plain else {
        return plain;
    };
    let Some((kind, inner)) = members.into_iter().next() else {
        return Value::Null;
    };
    let mut members = match (content, inner) {
        (Content::Beside, Value::Object(members)) => members,
        (Content::Beside, _) => Map::new(),
        (Content::In(name), inner) => Map::from_iter([(name.to_owned(), inner)]),
    };
    members.insert(tag.to_owned(), Value::String(kind));
    Value::Object(members)
}

/// Reading and writing of an enum with `#[serde(remote = "Self")]`.
macro_rules! tagged_serde {
    ($type:ty, $tag:literal, $content:expr) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
                let plain = Self::serialize(self, serde_json::value::Serializer);
                crate::tagged::tagged(plain, $tag, $content, writer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
                let plain = crate::tagged::untagged(reader, $tag, $content)?;
                Self::deserialize(plain).map_err(serde::de::Error::custom)
            }
        }
    };
}
pub(crate) use tagged_serde;
