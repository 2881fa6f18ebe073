//! A value out of a file into one of our own types, without a copy of it, with what is wrong by kind and
//! the way to it.
//!
//! serde's own readers of a value say what is wrong in English only and not where. This one is driven by
//! the same derived code. It reads just what the schema allows: an object is never written as a list.

use std::{cell::Cell, fmt::Display};

use serde::{
    de::{
        self, DeserializeSeed, Deserializer, EnumAccess, Error, Expected, MapAccess, SeqAccess,
        Unexpected, VariantAccess, Visitor,
        value::{BorrowedStrDeserializer, StrDeserializer},
    },
    forward_to_deserialize_any,
};
use serde_json::{Map, Value, map};

use super::{
    canonical::{MOST_WHOLE, canonical},
    fault::{FieldFault, Shape, readable},
};
use crate::{
    tagged::{Content, tag_of},
    text,
};

/// What is wrong and where. Boxed, as every result carries room for it.
#[derive(Debug)]
pub(super) struct Wrong(Box<(FieldFault, Vec<String>)>);

impl Wrong {
    /// The same, seen from the object that has it in this member.
    pub(super) fn in_member(mut self, name: &str) -> Self {
        self.0.1.push(format!(".{name}"));
        self
    }

    /// The same, seen from the list that has it in this item.
    fn in_item(mut self, number: usize) -> Self {
        self.0.1.push(format!("[{number}]"));
        self
    }

    /// The way, cut to a readable length, and what is wrong there.
    pub(super) fn parts(self) -> (String, FieldFault) {
        let (what, steps) = *self.0;
        let way: String = steps.into_iter().rev().collect();
        (readable(&way), what)
    }
}

impl From<FieldFault> for Wrong {
    fn from(what: FieldFault) -> Self {
        Self(Box::new((what, Vec::new())))
    }
}

impl Display for Wrong {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.0.fmt(f)
    }
}

impl std::error::Error for Wrong {}

impl Error for Wrong {
    fn custom<T: Display>(text: T) -> Self {
        let text = readable(&text.to_string());
        FieldFault::Other { text }.into()
    }

    fn invalid_value(given: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        let Unexpected::Str(given) = given else {
            return Self::custom(format_args!("{given}: allowed is {wanted}"));
        };
        let given = readable(given);
        match wanted.to_string().as_str() {
            text::NAME => FieldFault::Name { given }.into(),
            text::UUID => FieldFault::Uuid { given }.into(),
            text::SHA256 => FieldFault::Sha256 { given }.into(),
            text::INSTANT => FieldFault::Instant { given }.into(),
            text::DECIMAL => FieldFault::Decimal { given }.into(),
            wanted => Self::custom(format_args!("`{given}`: allowed is {wanted}")),
        }
    }

    fn unknown_variant(given: &str, allowed: &'static [&'static str]) -> Self {
        let given = readable(given);
        FieldFault::Unknown { given, allowed }.into()
    }

    fn missing_field(name: &'static str) -> Self {
        FieldFault::Missing { name }.into()
    }
}

/// Reads a value. Whether it may hold more than its type can write again is told by `strange`.
pub(super) fn read<'v, T: de::Deserialize<'v>>(
    value: &'v Value,
    strange: &Cell<bool>,
) -> Result<T, Wrong> {
    T::deserialize(Reader { value, strange })
}

/// A value to be read.
#[derive(Clone, Copy)]
struct Reader<'v, 's> {
    value: &'v Value,
    /// Set where something stands that a writer of this version leaves out: an unknown member, or what
    /// it writes by leaving it out, which is null, `false`, an empty list or an empty object.
    strange: &'s Cell<bool>,
}

impl<'v, 's> Reader<'v, 's> {
    fn at(self, value: &'v Value) -> Self {
        Self { value, ..self }
    }

    fn refuse<T>(self, wanted: Shape) -> Result<T, Wrong> {
        Err(FieldFault::shape(wanted, self.value).into())
    }

    fn list(self) -> Result<&'v [Value], Wrong> {
        match self.value {
            Value::Array(items) => Ok(items),
            _ => self.refuse(Shape::List),
        }
    }

    fn object(self) -> Result<&'v Map<String, Value>, Wrong> {
        match self.value {
            Value::Object(members) => Ok(members),
            _ => self.refuse(Shape::Object),
        }
    }

    fn note_strange(self, strange: bool) {
        self.strange.set(self.strange.get() || strange);
    }

    fn whole(self, low: i64, high: i64) -> Result<i64, Wrong> {
        let Value::Number(number) = self.value else {
            return self.refuse(Shape::Number);
        };
        match number.as_i64() {
            Some(given) if (low..=high).contains(&given) => Ok(given),
            Some(given) => Err(FieldFault::OutOfRange { given, low, high }.into()),
            None => {
                let given = canonical(self.value);
                Err(FieldFault::NotWhole { given }.into())
            }
        }
    }

    /// The way into an object whose `known` member, if one is named, is read already.
    fn members(self, known: Option<&'static str>) -> Result<Members<'v, 's>, Wrong> {
        Ok(Members {
            left: self.object()?.iter(),
            known,
            value: self,
            key: "",
        })
    }

    fn items(self, items: &'v [Value]) -> Items<'v, 's> {
        Items {
            left: items.iter(),
            number: 0,
            reader: self,
        }
    }

    /// An enum that is written as its kind, or as an object with its kind for the one key.
    fn plain_variant(self) -> Result<Variant<'v, 's>, Wrong> {
        let (kind, content) = match self.value {
            Value::String(kind) => (kind, None),
            Value::Object(members) => match members.iter().next() {
                Some((kind, content)) if members.len() == 1 => (kind, Some(self.at(content))),
                _ => {
                    let given = members.len();
                    return Err(FieldFault::OneMember { given }.into());
                }
            },
            _ => return self.refuse(Shape::Text),
        };
        Ok(Variant {
            kind,
            content,
            tag: None,
            way: content.is_some().then_some(kind),
        })
    }

    /// An enum whose kind stands in a member.
    fn tagged_variant(self, tag: &'static str, at: Content) -> Result<Variant<'v, 's>, Wrong> {
        let members = self.object()?;
        let member = |name| members.get(name).ok_or(FieldFault::Missing { name });
        let kind = match member(tag)? {
            Value::String(kind) => kind,
            other => {
                let wrong: Wrong = FieldFault::shape(Shape::Text, other).into();
                return Err(wrong.in_member(tag));
            }
        };
        let (content, way) = match at {
            Content::Beside => (self, None),
            Content::In(name) => {
                self.note_strange(members.len() > 2);
                (self.at(member(name)?), Some(name))
            }
        };
        Ok(Variant {
            kind,
            content: Some(content),
            tag: Some(tag),
            way,
        })
    }
}

impl<'de> Deserializer<'de> for Reader<'de, '_> {
    type Error = Wrong;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.value {
            Value::Null => visitor.visit_unit(),
            Value::Bool(_) => self.deserialize_bool(visitor),
            Value::Number(_) => self.deserialize_f64(visitor),
            Value::String(_) => self.deserialize_str(visitor),
            Value::Array(_) => self.deserialize_seq(visitor),
            Value::Object(_) => self.deserialize_map(visitor),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.value {
            Value::Bool(value) => {
                self.note_strange(!value);
                visitor.visit_bool(*value)
            }
            _ => self.refuse(Shape::Truth),
        }
    }

    fn deserialize_u8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_i64(self.whole(0, u8::MAX.into())?)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_i64(self.whole(0, u32::MAX.into())?)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_i64(self.whole(0, MOST_WHOLE)?)
    }

    fn deserialize_i64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_i64(self.whole(-MOST_WHOLE, MOST_WHOLE)?)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.value.as_f64() {
            Some(number) => visitor.visit_f64(number),
            None => self.refuse(Shape::Number),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.value {
            Value::String(text) => visitor.visit_borrowed_str(text),
            _ => self.refuse(Shape::Text),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        self.note_strange(self.value.is_null());
        match self.value {
            Value::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        let items = self.list()?;
        self.note_strange(items.is_empty());
        visitor.visit_seq(self.items(items))
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        wanted: usize,
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        let items = self.list()?;
        let given = items.len();
        if given != wanted {
            return Err(FieldFault::Length { given, wanted }.into());
        }
        visitor.visit_seq(self.items(items))
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        let members = self.members(None)?;
        self.note_strange(members.left.len() == 0);
        visitor.visit_map(members)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        _kinds: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        visitor.visit_enum(match tag_of(name) {
            Some((tag, at)) => self.tagged_variant(tag, at)?,
            None => self.plain_variant()?,
        })
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        self.note_strange(true);
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i128 u16 u128 f32 char bytes byte_buf unit unit_struct tuple_struct identifier
    }
}

/// The members of an object.
struct Members<'v, 's> {
    left: map::Iter<'v>,
    known: Option<&'static str>,
    value: Reader<'v, 's>,
    key: &'v str,
}

impl<'v> MapAccess<'v> for Members<'v, '_> {
    type Error = Wrong;

    fn next_key_seed<K: DeserializeSeed<'v>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Wrong> {
        for (key, value) in self.left.by_ref() {
            if self.known == Some(key) {
                continue;
            }
            self.key = key;
            self.value = self.value.at(value);
            return seed
                .deserialize(BorrowedStrDeserializer::new(key))
                .map(Some)
                .map_err(|wrong: Wrong| wrong.in_member(key));
        }
        Ok(None)
    }

    fn next_value_seed<S: DeserializeSeed<'v>>(&mut self, seed: S) -> Result<S::Value, Wrong> {
        seed.deserialize(self.value)
            .map_err(|wrong| wrong.in_member(self.key))
    }
}

/// The items of a list.
struct Items<'v, 's> {
    left: std::slice::Iter<'v, Value>,
    number: usize,
    reader: Reader<'v, 's>,
}

impl<'v> SeqAccess<'v> for Items<'v, '_> {
    type Error = Wrong;

    fn next_element_seed<S: DeserializeSeed<'v>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Wrong> {
        let Some(item) = self.left.next() else {
            return Ok(None);
        };
        let number = self.number;
        self.number += 1;
        seed.deserialize(self.reader.at(item))
            .map(Some)
            .map_err(|wrong| wrong.in_item(number))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.left.len())
    }
}

/// An enum: its kind and what stands with it.
struct Variant<'v, 's> {
    kind: &'v str,
    content: Option<Reader<'v, 's>>,
    /// The member that the kind stands in, where it has one of its own.
    tag: Option<&'static str>,
    /// The member that the content stands in, where it has one of its own.
    way: Option<&'v str>,
}

impl<'v, 's> Variant<'v, 's> {
    /// Reads what stands with a kind that is never alone.
    fn content<T>(self, read: impl FnOnce(Reader<'v, 's>) -> Result<T, Wrong>) -> Result<T, Wrong> {
        let Some(content) = self.content else {
            return Err(FieldFault::Shape {
                wanted: Shape::Object,
                given: Shape::Text,
            }
            .into());
        };
        read(content).map_err(|wrong| match self.way {
            Some(member) => wrong.in_member(member),
            None => wrong,
        })
    }
}

impl<'v> EnumAccess<'v> for Variant<'v, '_> {
    type Error = Wrong;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'v>>(self, seed: S) -> Result<(S::Value, Self), Wrong> {
        match seed.deserialize(StrDeserializer::<Wrong>::new(self.kind)) {
            Ok(kind) => Ok((kind, self)),
            Err(wrong) => Err(match self.tag {
                Some(tag) => wrong.in_member(tag),
                None => wrong,
            }),
        }
    }
}

impl<'v> VariantAccess<'v> for Variant<'v, '_> {
    type Error = Wrong;

    /// A kind that is always alone: `"dirt"`, never `{ "dirt": null }`, which would be written otherwise.
    fn unit_variant(self) -> Result<(), Wrong> {
        if self.content.is_none() {
            return Ok(());
        }
        Err(FieldFault::Shape {
            wanted: Shape::Text,
            given: Shape::Object,
        }
        .into())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'v>>(self, seed: S) -> Result<S::Value, Wrong> {
        self.content(|content| seed.deserialize(content))
    }

    fn tuple_variant<V: Visitor<'v>>(self, length: usize, visitor: V) -> Result<V::Value, Wrong> {
        self.content(|content| content.deserialize_tuple(length, visitor))
    }

    fn struct_variant<V: Visitor<'v>>(
        self,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        let tag = self.tag;
        self.content(|content| visitor.visit_map(content.members(tag)?))
    }
}
