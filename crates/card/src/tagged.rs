//! Enums whose kind stands in a member of the object: `{ "kind": "void", "entry": …, "reason": … }`.
//!
//! serde's own way to these (`tag = "kind"`) reads everything beneath into a buffer of its own and
//! carries a second reader for each type that may come out of it: in the browser 30 kB compressed. Here
//! the derived code sees the plain form, `{ "void": { … } }`. The file's reader, which is the one that
//! these types are read by, knows by a type's name where its kind stands; writing turns one form into
//! the other. `#[serde(remote = "Self")]` makes the derived code methods of the type, which its
//! implementations below call.

use serde::{Serializer, ser};
use serde_json::{Map, Value};

/// Where the content beside the kind stands.
#[derive(Clone, Copy)]
pub(crate) enum Content {
    /// In the same object.
    Beside,
    /// In a member of its own.
    In(&'static str),
}

/// The member that the kind of such an enum stands in, and where its content does, by the type's name.
pub(crate) fn tag_of(name: &str) -> Option<(&'static str, Content)> {
    match name {
        "Body" => Some(("kind", Content::Beside)),
        "Fact" => Some(("field", Content::In("value"))),
        "Scale" => Some(("method", Content::Beside)),
        "LeftOut" | "Mark" => Some(("shape", Content::Beside)),
        _ => None,
    }
}

/// `{ kind: { … } }`, or a mere `kind`, as `{ tag: kind, … }`.
pub(crate) fn tagged<S: Serializer>(
    plain: Result<Value, serde_json::Error>,
    name: &str,
    writer: S,
) -> Result<S::Ok, S::Error> {
    let plain = plain.map_err(ser::Error::custom)?;
    let value = match tag_of(name) {
        Some((tag, content)) => turn_in(plain, tag, content),
        None => plain,
    };
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

/// Reading and writing of an enum with `#[serde(remote = "Self")]` that [`tag_of`] knows.
macro_rules! tagged_serde {
    ($type:ident) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
                let plain = Self::serialize(self, serde_json::value::Serializer);
                crate::tagged::tagged(plain, stringify!($type), writer)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
                Self::deserialize(reader)
            }
        }
    };
}
pub(crate) use tagged_serde;
