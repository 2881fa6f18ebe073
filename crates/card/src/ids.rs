//! Ids: short validated names for places in a plan, UUIDs for cards, entries and devices.
//!
//! A name is checked once, when it is made or read; inside, nobody checks again.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::text;

/// The longest name allowed, in bytes.
pub const LONGEST_NAME: usize = 80;

/// Why a name was refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{given}` is not a valid {kind}: allowed are 1 to {LONGEST_NAME} letters a-z A-Z, digits, `_`, `-` and `.`, in steps parted by `/`"
)]
pub struct NameError {
    /// What the name was for.
    pub kind: &'static str,
    /// The text as given, cut to a readable length.
    pub given: String,
}

fn is_name(text: &str) -> bool {
    let plain = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'_' | b'-' | b'.');
    let step = |s: &[u8]| !s.is_empty() && s.iter().copied().all(plain);
    text.len() <= LONGEST_NAME && text.as_bytes().split(|b| *b == b'/').all(step)
}

fn check(kind: &'static str, text: &str) -> Result<(), NameError> {
    if is_name(text) {
        return Ok(());
    }
    Err(NameError {
        kind,
        given: text.chars().take(LONGEST_NAME).collect(),
    })
}

/// A text that is a name, for the reader.
fn name(text: &str) -> Option<Box<str>> {
    is_name(text).then(|| text.into())
}

/// A text that is a UUID in the form that is written here, for the reader.
fn uuid(text: &str) -> Option<uuid::Uuid> {
    let id = uuid::Uuid::try_parse(text).ok()?;
    let mut written = uuid::Uuid::encode_buffer();
    (*id.hyphenated().encode_lower(&mut written) == *text).then_some(id)
}

macro_rules! name {
    ($(#[$doc:meta])* $type:ident, $kind:literal) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "schema", schemars(extend(
            "minLength" = 1,
            "maxLength" = LONGEST_NAME,
            "pattern" = r"^[A-Za-z0-9_.-]+(/[A-Za-z0-9_.-]+)*$",
        )))]
        pub struct $type(Box<str>);

        impl $type {
            /// Takes a name, checked.
            ///
            /// # Errors
            ///
            /// [`NameError`] when the text is empty, too long or has a character that is not allowed.
            pub fn new(text: &str) -> Result<Self, NameError> {
                check($kind, text)?;
                Ok(Self(text.into()))
            }

            /// Takes a name that this crate itself wrote, such as those of the built-in plan.
            ///
            /// Tests go over every such name, so it is not checked again here.
            pub(crate) fn fixed(text: &str) -> Self {
                debug_assert!(check($kind, text).is_ok(), "`{text}` is no {}", $kind);
                Self(text.into())
            }

            /// The name as text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
                writer.serialize_str(&self.0)
            }
        }

        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
                text::read(reader, text::NAME, name).map(Self)
            }
        }

        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl std::borrow::Borrow<str> for $type {
            fn borrow(&self) -> &str {
                &self.0
            }
        }
    };
}

name!(
    /// A section of the strip-down, such as `camshaft`.
    SectionId, "section id"
);
name!(
    /// A part within a section, such as `lobes`.
    PartId, "part id"
);
name!(
    /// One kind of place on a part, repeated along the engine, such as `lobe/exhaust`.
    PlaceId, "place id"
);
name!(
    /// One place on one engine, such as `cyl2/lobe/exhaust`.
    PositionId, "position id"
);
name!(
    /// What is looked at in a place, such as `pitted`.
    CharacteristicId, "characteristic id"
);
name!(
    /// A scale of a plan, such as `polished`.
    ScaleId, "scale id"
);
name!(
    /// A deposit or merit level of an area scale, such as `heavy_carbon`.
    LevelId, "level id"
);
name!(
    /// A state of a state scale, such as `cold_stuck`.
    StateId, "state id"
);
name!(
    /// A height or an axis on the grid of a measured part, such as `top` or `thrust`.
    SpotId, "spot id"
);
name!(
    /// A cap rule of a plan, such as `lobe_pitted`.
    CapId, "cap rule id"
);

/// Text that is not a UUID as it is written here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is not a UUID: allowed are 8-4-4-4-12 digits 0-9 a-f")]
pub struct UuidError {
    /// The text as given, cut to a readable length.
    pub given: String,
}

macro_rules! uuid_id {
    ($(#[$doc:meta])* $type:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "schema", schemars(with = "String", extend("pattern" = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$")))]
        pub struct $type(uuid::Uuid);

        impl $type {
            /// A UUID version 7 (RFC 9562) from a time in milliseconds since 1970 and ten random bytes.
            ///
            /// The core has neither a clock nor a random source: both come in as values.
            pub fn v7(unix_ms: u64, random: [u8; 10]) -> Self {
                Self(uuid::Builder::from_unix_timestamp_millis(unix_ms, &random).into_uuid())
            }

            /// Reads the text form that [`Display`](fmt::Display) writes, and no other: one id, one text.
            ///
            /// # Errors
            ///
            /// [`UuidError`] when the text is not a UUID.
            pub fn parse(text: &str) -> Result<Self, UuidError> {
                uuid(text).map(Self).ok_or_else(|| UuidError {
                    given: text.chars().take(LONGEST_NAME).collect(),
                })
            }
        }

        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
                writer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
                text::read(reader, text::UUID, uuid).map(Self)
            }
        }

        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.hyphenated().fmt(f)
            }
        }
    };
}

uuid_id!(
    /// One card: one strip-down of one engine.
    CardId
);
uuid_id!(
    /// One entry of a card.
    EntryId
);
uuid_id!(
    /// One tablet, or one browser on it.
    DeviceId
);
uuid_id!(
    /// One plan of one's own, on the tablet that keeps it.
    PlanId
);
uuid_id!(
    /// One gauge.
    GaugeId
);
uuid_id!(
    /// One size sheet, on the tablet that keeps it.
    SizesId
);
