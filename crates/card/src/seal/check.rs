//! Whether a seal holds.

use std::{cmp::Ordering, task::Poll};

use ed25519_compact::{PublicKey, Signature};

use super::{KEY_BYTES, SIGNATURE_BYTES, Seal};
use crate::{
    card::Card,
    entry::{Body, Entry},
    file::{DigestingCard, VERSION},
    hex,
    ids::CardId,
};

/// The most seals of one card that a screen or a page looks into, the last ones: each is a walk through all entries.
pub const MOST_CHECKED: usize = 20;

/// Why a seal does not hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SealFault {
    /// It was made under another version of the format, which this program does not write.
    #[error(
        "it was made under version {given} of the format: only what is of version {VERSION} can be looked into"
    )]
    Version {
        /// The version.
        given: u64,
    },
    /// It was not made with its key, or what it says was changed.
    #[error("its signature is not that of its key over what it says")]
    Signature,
    /// Entries that it covered are gone.
    #[error("{entries} of the entries that it covered are not here")]
    Missing {
        /// How many.
        entries: u64,
    },
    /// Entries came in that would have been covered, had they been there.
    #[error("{entries} entries from before it were not there when it was made")]
    More {
        /// How many.
        entries: u64,
    },
    /// What it covered was changed.
    #[error("what it covered was changed")]
    Changed,
}

/// A seal of a card, read.
#[derive(Clone, Debug, PartialEq)]
pub struct SealRead {
    /// The seal.
    pub seal: Seal,
    /// Why it does not hold; nothing where it does.
    pub fault: Option<SealFault>,
    /// How many entries came after it.
    pub after: usize,
}

/// The last seals of a card, in the order in which they were made.
pub fn last_seals(card: &Card) -> Vec<Seal> {
    let mut all = all_seals(card);
    all.split_off(all.len().saturating_sub(MOST_CHECKED))
}

/// The same, each looked into.
pub fn seals(card: &Card) -> Vec<SealRead> {
    look_into(card, last_seals(card))
}

/// Every seal of a card, each looked into, however many there are: for whoever is to say that all of them hold.
pub fn every_seal(card: &Card) -> Vec<SealRead> {
    look_into(card, all_seals(card))
}

fn look_into(card: &Card, seals: Vec<Seal>) -> Vec<SealRead> {
    let read = |seal: Seal| SealRead {
        fault: check(card, &seal).err(),
        after: seal.after(card),
        seal,
    };
    seals.into_iter().map(read).collect()
}

fn all_seals(card: &Card) -> Vec<Seal> {
    card.entries().filter_map(seal_of).cloned().collect()
}

fn seal_of(entry: &Entry) -> Option<&Seal> {
    match &entry.body {
        Body::Seal { seal } => Some(seal),
        _ => None,
    }
}

/// Whether a seal holds on a card.
///
/// # Errors
///
/// [`SealFault`], the first of those that there are.
pub fn check(card: &Card, seal: &Seal) -> Result<(), SealFault> {
    let mut checking = CheckingSeal::new(card, seal.clone());
    loop {
        if let Poll::Ready(found) = checking.step(card, usize::MAX) {
            return found;
        }
    }
}

/// A seal being looked into step by step.
#[derive(Debug)]
pub struct CheckingSeal {
    seal: Seal,
    digesting: DigestingCard,
    /// Whether what needs no digest has been looked at.
    begun: bool,
}

impl CheckingSeal {
    /// Begins.
    pub fn new(card: &Card, seal: Seal) -> Self {
        let digesting = DigestingCard::of_covered(card, seal.covers.clone());
        Self {
            seal,
            digesting,
            begun: false,
        }
    }

    /// Goes on for about so many bytes of the card.
    pub fn step(&mut self, card: &Card, bytes: usize) -> Poll<Result<(), SealFault>> {
        if !std::mem::replace(&mut self.begun, true)
            && let Err(fault) = without_digest(card, &self.seal)
        {
            return Poll::Ready(Err(fault));
        }
        match self.digesting.step(card, bytes) {
            Poll::Pending => Poll::Pending,
            Poll::Ready(digest) if digest == self.seal.digest => Poll::Ready(Ok(())),
            Poll::Ready(_) => Poll::Ready(Err(SealFault::Changed)),
        }
    }
}

/// What can be said of a seal before the entries that it covers are digested.
fn without_digest(card: &Card, seal: &Seal) -> Result<(), SealFault> {
    let given = seal.version;
    if given != VERSION {
        return Err(SealFault::Version { given });
    }
    if !is_signed(seal, card.id()) {
        return Err(SealFault::Signature);
    }
    let here = card.entries().filter(|entry| seal.covers(entry)).count() as u64;
    match here.cmp(&seal.entries) {
        Ordering::Less => Err(SealFault::Missing {
            entries: seal.entries - here,
        }),
        Ordering::Greater => Err(SealFault::More {
            entries: here - seal.entries,
        }),
        Ordering::Equal => Ok(()),
    }
}

/// Whether the signature is that of the seal's key over what it says.
fn is_signed(seal: &Seal, card: CardId) -> bool {
    let (Some(key), Some(signature)) = (
        hex::read::<KEY_BYTES>(&seal.key),
        hex::read::<SIGNATURE_BYTES>(&seal.signature),
    ) else {
        return false;
    };
    let key = PublicKey::new(key);
    key.verify(seal.message(card), &Signature::new(signature))
        .is_ok()
}
