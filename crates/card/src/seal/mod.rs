//! Seals: somebody says of everything that stands on a card now that it is what they hand over.
//!
//! A seal is an entry. It covers, of each device, the entries up to some Lamport counter: files are exchanged whole, so a
//! tablet that holds one entry of a device holds what that device wrote before it. That fails where a device goes on from
//! an older file of the card and uses its counters again, and where entries were lost from a damaged storage: if the
//! others come in later, the seal says that entries from before it were not there ([`SealFault::More`]). It names the digest that the card's file has with these entries alone, and is signed with Ed25519 (RFC 8032).
//! What comes later stands on the card beside it and is told apart from it. A seal that no longer holds hinders nobody
//! from opening the card: what is wrong with it is a [`SealFault`].
//!
//! What was sealed cannot be changed without the signer's key. A seal does not say who holds that key, that a clock was
//! right, or that what was written is true.

mod check;
mod key;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::json;

pub use check::{
    CheckingSeal, MOST_CHECKED, SealFault, SealRead, check, every_seal, last_seals, seals,
};
pub use key::{KEY_FORMAT, KEY_VERSION, SealKey, SealKeyError};

use crate::{
    card::Card,
    entry::Entry,
    file::canonical,
    ids::{CardId, DeviceId},
    time::Timestamp,
};
#[cfg(feature = "schema")]
use crate::{card::LONGEST_RATER, entry::MOST_LAMPORT};

/// Bytes of a public key.
const KEY_BYTES: usize = 32;
/// Bytes of a signature.
const SIGNATURE_BYTES: usize = 64;
/// The longest text of a digest, a key or a signature, in characters; those of other lengths are kept, and are none.
pub const LONGEST_SEALED: usize = 200;

/// Of each device, the last Lamport counter covered.
pub type Cover = BTreeMap<DeviceId, u64>;

/// A seal over what a card held.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Seal {
    /// Who seals.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = LONGEST_RATER)))]
    pub name: String,
    /// When, by the signer's clock.
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("format" = "date-time")))]
    pub at: Timestamp,
    /// What is covered: of each device, the entries up to and with this Lamport counter.
    #[cfg_attr(feature = "schema", schemars(with = "BTreeMap<DeviceId, u64>", extend("additionalProperties" = json!({ "type": "integer", "minimum": 0, "maximum": MOST_LAMPORT }))))]
    pub covers: Cover,
    /// How many entries that is.
    pub entries: u64,
    /// The digest of the card's file with these entries alone, in this version of the format.
    #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_SEALED)))]
    pub digest: String,
    /// The version of the format that was digested.
    pub version: u64,
    /// The public key: 64 digits 0-9 a-f.
    #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_SEALED)))]
    pub key: String,
    /// The signature over [`Seal::message`]: 128 digits 0-9 a-f.
    #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_SEALED)))]
    pub signature: String,
}

impl Seal {
    /// What is signed: the canonical form (RFC 8785) of the card's id and of everything that the seal says but its
    /// signature.
    pub fn message(&self, card: CardId) -> String {
        canonical(&json!({
            "at": self.at,
            "card": card,
            "covers": self.covers,
            "digest": self.digest,
            "entries": self.entries,
            "key": self.key,
            "name": self.name,
            "ringland": "seal",
            "version": self.version,
        }))
    }

    /// Whether it covers an entry.
    pub fn covers(&self, entry: &Entry) -> bool {
        covers(&self.covers, entry)
    }

    /// How many entries of a card it does not cover, itself aside.
    pub fn after(&self, card: &Card) -> usize {
        let later = card.entries().filter(|entry| !self.covers(entry)).count();
        later.saturating_sub(1)
    }
}

/// What all of a card's entries come to.
pub fn cover(card: &Card) -> Cover {
    let mut cover = Cover::new();
    for entry in card.entries() {
        let last = cover.entry(entry.device).or_insert(entry.lamport);
        *last = (*last).max(entry.lamport);
    }
    cover
}

/// Whether an entry is covered.
pub(crate) fn covers(cover: &Cover, entry: &Entry) -> bool {
    cover
        .get(&entry.device)
        .is_some_and(|last| entry.lamport <= *last)
}
