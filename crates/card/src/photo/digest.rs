//! What a photo is known by: the digest of its bytes.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest, Sha256};

use crate::{hex, text};

/// How many bytes SHA-256 has.
const BYTES: usize = 32;

/// The SHA-256 of a photo's bytes, written as 64 digits 0-9 a-f.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(with = "String", extend("pattern" = "^[0-9a-f]{64}$")))]
pub struct PhotoDigest([u8; BYTES]);

impl PhotoDigest {
    /// The digest of a photo.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// Reads the text form that [`Display`](fmt::Display) writes, and no other.
    pub fn parse(text: &str) -> Option<Self> {
        hex::read(text).map(Self)
    }
}

impl fmt::Display for PhotoDigest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        hex::write(&self.0, f)
    }
}

impl Serialize for PhotoDigest {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        writer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for PhotoDigest {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        text::read(reader, text::SHA256, Self::parse)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4's example of one block, as NIST's example values give it.
    const ABC: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    #[test]
    fn it_is_the_sha_256_of_the_bytes() {
        assert_eq!(PhotoDigest::of(b"abc").to_string(), ABC);
        assert_eq!(PhotoDigest::parse(ABC), Some(PhotoDigest::of(b"abc")));
    }

    #[test]
    fn one_digest_has_one_text() {
        for text in [
            "",
            &ABC[1..],
            &ABC[2..],
            &ABC.to_uppercase(),
            &ABC.replace('a', "g"),
            &[ABC, "00"].concat(),
        ] {
            assert_eq!(PhotoDigest::parse(text), None, "{text}");
        }
    }
}
