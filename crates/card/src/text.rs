//! Values that the file writes as a text: names, UUIDs, instants.
//!
//! What a text was to be is handed to the reader in these words, so that the file's reader can tell what
//! was wrong by kind, and any other in English.

use std::fmt;

use serde::de::{Deserializer, Error, Unexpected, Visitor};

/// What a name is called.
pub(crate) const NAME: &str = "a name";
/// What a UUID is called.
pub(crate) const UUID: &str = "a UUID";
/// What the digest of a photo is called.
pub(crate) const SHA256: &str = "a SHA-256";
/// What an instant is called.
pub(crate) const INSTANT: &str = "an instant";
/// What a number as it was typed is called.
pub(crate) const DECIMAL: &str = "a decimal number";

/// Reads a text and makes of it what was wanted.
pub(crate) fn read<'de, D: Deserializer<'de>, T>(
    reader: D,
    wanted: &'static str,
    make: fn(&str) -> Option<T>,
) -> Result<T, D::Error> {
    reader.deserialize_str(Text { wanted, make })
}

struct Text<T> {
    wanted: &'static str,
    make: fn(&str) -> Option<T>,
}

impl<T> Visitor<'_> for Text<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.wanted)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        (self.make)(text).ok_or_else(|| E::invalid_value(Unexpected::Str(text), &self))
    }
}
