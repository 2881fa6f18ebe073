//! The key that seals are made with.

use std::fmt;

use ed25519_compact::{KeyPair, Seed};
use serde_json::{Value, json};

use super::{Cover, Seal};
use crate::{
    card::{Card, LONGEST_RATER},
    file::{VERSION, canonical},
    hex,
    time::Timestamp,
};

/// The name of the format of a key's file.
pub const KEY_FORMAT: &str = "ringland-seal-key";
/// The version of that format.
pub const KEY_VERSION: u64 = 1;
/// Bytes of the seed that a key is made of.
const SEED_BYTES: usize = 32;
/// The largest file of a key that is read, in bytes.
const MOST_KEY_BYTES: usize = 10_000;

/// A signer's name and key pair. Whoever has it can seal in that name.
#[derive(Clone, PartialEq, Eq)]
pub struct SealKey {
    name: String,
    seed: [u8; SEED_BYTES],
}

/// Its secret stays out of logs.
impl fmt::Debug for SealKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("SealKey")
            .field("name", &self.name)
            .field("public", &self.public())
            .finish_non_exhaustive()
    }
}

/// Why there is no key.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SealKeyError {
    /// A name that is empty or too long.
    #[error("the signer's name has {given} characters: allowed is 1 to {LONGEST_RATER}")]
    Name {
        /// Its length.
        given: usize,
    },
    /// No file of a key.
    #[error("this is not the file of a key that seals are made with")]
    NotAKey,
    /// A newer version of its format.
    #[error("the key's file is of version {given}: this program reads version {KEY_VERSION}")]
    Version {
        /// The version.
        given: u64,
    },
}

impl SealKey {
    /// A key made of 32 random bytes.
    ///
    /// # Errors
    ///
    /// [`SealKeyError::Name`]; and [`SealKeyError::NotAKey`] for bytes that are all the same, which nothing random is.
    pub fn from_seed(name: &str, seed: [u8; SEED_BYTES]) -> Result<Self, SealKeyError> {
        let given = name.chars().count();
        if !(1..=LONGEST_RATER).contains(&given) {
            return Err(SealKeyError::Name { given });
        }
        if KeyPair::try_from_seed(Seed::new(seed)).is_err() || seed == [seed[0]; SEED_BYTES] {
            return Err(SealKeyError::NotAKey);
        }
        Ok(Self {
            name: name.to_owned(),
            seed,
        })
    }

    /// Who seals with it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The public key, as a seal names it.
    pub fn public(&self) -> String {
        hex::text(self.pair().pk.as_ref())
    }

    fn pair(&self) -> KeyPair {
        KeyPair::from_seed(Seed::new(self.seed))
    }

    /// Seals what a card holds; the digest is that of its file, and the cover that of its entries.
    pub fn seal(&self, card: &Card, at: Timestamp, covers: Cover, digest: String) -> Seal {
        let covered = |entry: &&crate::entry::Entry| super::covers(&covers, entry);
        let entries = card.entries().filter(covered).count() as u64;
        let mut seal = Seal {
            name: self.name.clone(),
            at,
            entries,
            covers,
            digest,
            version: VERSION,
            key: self.public(),
            signature: String::new(),
        };
        let message = seal.message(card.id());
        // Without noise: the same key and the same card give the same seal (RFC 8032, 5.1.6).
        seal.signature = hex::text(self.pair().sk.sign(message, None).as_ref());
        seal
    }

    /// The key's file, to be kept where nobody else has it.
    pub fn write(&self) -> String {
        canonical(&json!({
            "format": KEY_FORMAT,
            "version": KEY_VERSION,
            "name": self.name,
            "seed": hex::text(&self.seed),
        }))
    }

    /// Reads a key's file.
    ///
    /// # Errors
    ///
    /// [`SealKeyError`]; what is in it is not told.
    pub fn read(bytes: &[u8]) -> Result<Self, SealKeyError> {
        if bytes.len() > MOST_KEY_BYTES {
            return Err(SealKeyError::NotAKey);
        }
        let file: Value = serde_json::from_slice(bytes).map_err(|_other| SealKeyError::NotAKey)?;
        if file["format"] != KEY_FORMAT {
            return Err(SealKeyError::NotAKey);
        }
        match file["version"].as_u64() {
            Some(KEY_VERSION) => {}
            Some(given) => return Err(SealKeyError::Version { given }),
            None => return Err(SealKeyError::NotAKey),
        }
        let text = |name: &str| file[name].as_str().ok_or(SealKeyError::NotAKey);
        let seed = hex::read(text("seed")?).ok_or(SealKeyError::NotAKey)?;
        Self::from_seed(text("name")?, seed)
    }
}
