//! A card into a file.

use serde::Serialize;
use serde_json::{Map, Value, json};

use super::{
    FORMAT, VERSION,
    canonical::{canonical, canonical_without, sha256},
    residue::overlay,
};
use crate::{
    card::Card,
    entry::{Body, Entry},
    plan::Plan,
};

/// The file of a card: canonical JSON with its digest. The same card gives the same bytes.
pub fn write(card: &Card) -> String {
    let (mut text, place) = canonical_without(&document(card), "digest");
    let digest = digest_of(&text);
    // There are always members after it: a card has a plan.
    text.insert_str(place, &format!("\"digest\":\"{digest}\","));
    text
}

/// The file of a card that came from an altered file: as [`write`], but with a digest of zeros, which
/// matches nothing. Whoever opens it sees that the card was altered; saving it again hides nothing.
pub fn write_as_altered(card: &Card) -> String {
    let mut document = document(card);
    document.insert("digest".to_owned(), NO_DIGEST.into());
    canonical(&Value::Object(document))
}

/// A digest that no content has.
const NO_DIGEST: &str = "sha256:0000000000000000000000000000000000000000000000000000000000000000";

/// The digest of a document: SHA-256 over its canonical form without its `digest` member.
pub fn digest(document: &Map<String, Value>) -> String {
    digest_of(&canonical_without(document, "digest").0)
}

fn digest_of(content: &str) -> String {
    format!("sha256:{}", sha256(content.as_bytes()))
}

/// The file of a card without its entries, for a store that keeps each entry by itself.
pub fn write_head(card: &Card) -> String {
    let mut document = head(card);
    if let Some(rest) = &card.residue {
        overlay(&mut document, rest);
    }
    canonical(&document)
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

fn document(card: &Card) -> Map<String, Value> {
    let entries: Vec<Value> = card.entries().map(entry_value).collect();
    let mut document = head(card);
    document["entries"] = entries.into();
    if let Some(rest) = &card.residue {
        overlay(&mut document, rest);
    }
    match document {
        Value::Object(document) => document,
        _ => Map::new(),
    }
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
