//! A card into a file.

use std::{ops::Range, task::Poll};

use serde::Serialize;
use serde_json::{Map, Value, json};

use super::{
    FORMAT, VERSION,
    canonical::{Hash, canonical, canonical_around, canonical_without, write_canonical},
    residue::overlay,
};
use crate::{
    card::Card,
    entry::{Body, Entry, OrderKey},
    plan::Plan,
    seal::{Cover, covers},
};

/// The file of a card: canonical JSON with its digest. The same card gives the same bytes.
/// [`WritingCard`] does so step by step.
pub fn write(card: &Card) -> String {
    WritingCard::new(card).finish(card)
}

/// The file of a card that came from an altered file: as [`write`], but with a digest of zeros, which
/// matches nothing. Whoever opens it sees that the card was altered; saving it again hides nothing.
pub fn write_as_altered(card: &Card) -> String {
    WritingCard::as_altered(card).finish(card)
}

/// A card's file being written step by step.
///
/// The entries are never held as one value: each is written, digested and let go. The digest stands
/// before them, so its place is kept free until they are all written. Each step is given the card, which
/// may have grown: then it is begun anew.
#[derive(Debug)]
pub struct WritingCard {
    content: Content,
    text: String,
    /// Where the digest stands.
    digest: Range<usize>,
    altered: bool,
}

impl WritingCard {
    /// Begins to write a card's file.
    pub fn new(card: &Card) -> Self {
        let (content, head) = Content::new(card);
        let (mut text, _) = canonical_around(&head.members, "digest", "entries");
        let before = text.len() - "\"digest\":".len();
        text.push('"');
        let digest = text.len()..text.len() + NO_DIGEST.len();
        text.push_str(NO_DIGEST);
        text.push_str("\",");
        text.push_str(&head.text[before..]);
        Self {
            content,
            text,
            digest,
            altered: false,
        }
    }

    /// The same as [`write_as_altered`] does.
    pub fn as_altered(card: &Card) -> Self {
        Self {
            altered: true,
            ..Self::new(card)
        }
    }

    /// Goes on for about so many bytes; then the file is there, or there is more to be done. Once it is
    /// there nothing more is to be had.
    pub fn step(&mut self, card: &Card, bytes: usize) -> Poll<String> {
        if self.content.is_of_another(card) {
            let altered = self.altered;
            *self = Self {
                altered,
                ..Self::new(card)
            };
        }
        let until = self.text.len().saturating_add(bytes.max(1));
        while self.text.len() < until {
            if !self.content.next(card, &mut self.text) {
                return Poll::Ready(self.end());
            }
        }
        Poll::Pending
    }

    fn finish(mut self, card: &Card) -> String {
        loop {
            if let Poll::Ready(text) = self.step(card, usize::MAX) {
                return text;
            }
        }
    }

    fn end(&mut self) -> String {
        let mut text = std::mem::take(&mut self.text);
        let digest = self.content.end(&mut text);
        if !self.altered && text.get(self.digest.clone()).is_some() {
            text.replace_range(self.digest.clone(), &digest);
        }
        text
    }
}

/// The digest of a card's file being worked out step by step, as [`WritingCard`] does it, without the
/// file.
#[derive(Debug)]
pub struct DigestingCard {
    content: Content,
    text: String,
}

impl DigestingCard {
    /// Does all that is left.
    pub fn finish(mut self, card: &Card) -> String {
        loop {
            if let Poll::Ready(digest) = self.step(card, usize::MAX) {
                return digest;
            }
        }
    }

    /// Begins to work it out.
    pub fn new(card: &Card) -> Self {
        let (content, _) = Content::new(card);
        let text = String::new();
        Self { content, text }
    }

    /// The same of the card's file with some of its entries alone: those that a seal covers.
    pub(crate) fn of_covered(card: &Card, cover: Cover) -> Self {
        let mut digesting = Self::new(card);
        digesting.content.cover = Some(cover);
        digesting
    }

    /// Goes on for about so many bytes; see [`WritingCard::step`].
    pub fn step(&mut self, card: &Card, bytes: usize) -> Poll<String> {
        if self.content.is_of_another(card) {
            let cover = self.content.cover.take();
            *self = Self::new(card);
            self.content.cover = cover;
        }
        let mut done = 0;
        while done < bytes {
            self.text.clear();
            if !self.content.next(card, &mut self.text) {
                return Poll::Ready(self.content.end(&mut self.text));
            }
            done += self.text.len();
        }
        Poll::Pending
    }
}

/// What a card's file holds, written and digested one entry after the other.
#[derive(Debug)]
struct Content {
    /// How many entries the card had when it was begun. A card only grows, so as many are the same.
    entries: usize,
    /// The last entry looked at.
    last: Option<OrderKey>,
    /// Whether any was written.
    any: bool,
    /// Which are written; all where there is nothing.
    cover: Option<Cover>,
    hash: Hash,
    /// What stands after the entries.
    tail: String,
}

/// What stands before the entries.
struct Head {
    members: Map<String, Value>,
    text: String,
}

impl Content {
    fn new(card: &Card) -> (Self, Head) {
        let members = match whole_head(card) {
            Value::Object(members) => members,
            _ => Map::new(),
        };
        let (mut text, tail) = canonical_around(&members, "entries", "digest");
        text.push('[');
        let mut hash = Hash::default();
        hash.add(text.as_bytes());
        let content = Self {
            entries: card.len(),
            last: None,
            any: false,
            cover: None,
            hash,
            tail,
        };
        (content, Head { members, text })
    }

    fn is_of_another(&self, card: &Card) -> bool {
        self.entries != card.len()
    }

    /// Appends the next entry to a text, or passes over it; whether there was one.
    fn next(&mut self, card: &Card, text: &mut String) -> bool {
        let Some(entry) = card.entry_after(self.last) else {
            return false;
        };
        self.last = Some(entry.order());
        if self
            .cover
            .as_ref()
            .is_some_and(|cover| !covers(cover, entry))
        {
            return true;
        }
        let start = text.len();
        if self.any {
            text.push(',');
        }
        self.any = true;
        write_canonical(text, &entry_value(entry));
        self.hash.add(&text.as_bytes()[start..]);
        true
    }

    /// Appends what stands after the entries; gives the digest.
    fn end(&mut self, text: &mut String) -> String {
        let start = text.len();
        text.push(']');
        text.push_str(&self.tail);
        self.hash.add(&text.as_bytes()[start..]);
        named_digest(std::mem::take(&mut self.hash))
    }
}

/// A digest that no content has.
const NO_DIGEST: &str = "sha256:0000000000000000000000000000000000000000000000000000000000000000";

/// The digest of a document: SHA-256 over its canonical form without its `digest` member.
pub fn digest(document: &Map<String, Value>) -> String {
    let mut hash = Hash::default();
    hash.add(canonical_without(document, "digest").as_bytes());
    named_digest(hash)
}

/// A digest as a file says it, of content that came piece by piece.
pub(super) fn named_digest(hash: Hash) -> String {
    format!("sha256:{}", hash.hex())
}

/// The file of a card without its entries, for a store that keeps each entry by itself.
pub fn write_head(card: &Card) -> String {
    canonical(&whole_head(card))
}

/// A card without its entries, with what a newer version wrote.
fn whole_head(card: &Card) -> Value {
    let mut document = head(card);
    if let Some(rest) = &card.residue {
        overlay(&mut document, rest);
    }
    document
}

/// One entry as it stands in the file.
pub fn write_entry(entry: &Entry) -> String {
    canonical(&entry_value(entry))
}

fn head(card: &Card) -> Value {
    json!({
        "format": FORMAT,
        "version": VERSION,
        "id": card.id(),
        "plan": plan_value(card.first_plan()),
        "entries": [],
    })
}

/// A plan with what a newer version wrote in it.
pub(super) fn plan_value(plan: &Plan) -> Value {
    let mut value = plain(plan);
    if let Some(rest) = &plan.residue {
        overlay(&mut value, rest);
    }
    value
}

/// An entry with what a newer version wrote in it.
pub(super) fn entry_value(entry: &Entry) -> Value {
    let mut value = known_entry_value(entry);
    if let Some(rest) = &entry.residue {
        overlay(&mut value, rest);
    }
    value
}

/// An entry as this version knows it; a body of an unknown kind whole.
pub(super) fn known_entry_value(entry: &Entry) -> Value {
    let body = match &entry.body {
        Body::Other(body) => Value::Object(body.clone()),
        Body::Plan { plan } => json!({ "kind": "plan", "plan": plan_value(plan) }),
        body => plain(body),
    };
    let mut value = json!({
        "id": entry.id,
        "device": entry.device,
        "lamport": entry.lamport,
        "time": entry.time,
        "rater": entry.rater,
        "body": body,
    });
    if let (Value::Object(members), Some(target)) = (&mut value, entry.supersedes) {
        members.insert("supersedes".to_owned(), plain(&target));
    }
    value
}

/// Our own types are plain trees with text keys and finite numbers, which always have a value.
fn plain(item: &impl Serialize) -> Value {
    serde_json::to_value(item).unwrap_or(Value::Null)
}
