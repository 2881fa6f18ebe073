//! A file into a card. A file from outside is hostile until it has come through here.

use std::cell::Cell;

use serde::Deserialize;
use serde_json::{Map, Value};

use super::{
    FORMAT, KINDS, MOST_BYTES, MOST_PIECE_BYTES,
    fault::{FieldFault, Shape, named},
    fitting::Fitting,
    migrate::migrate,
    opening::OpeningCard,
    page::carried,
    residue::residue,
    strict::{self, JsonError},
    typed::{self, Wrong},
    write::{known_entry_value, plan_value},
};
use crate::{
    card::{AppendError, Card, MOST_ENTRIES, MOST_PLANS, MOST_RATERS, check_alone},
    entry::{Body, Entry},
    ids::{CardId, EntryId},
    plan::{Plan, PlanError},
};

/// A file that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The card.
    pub card: Card,
    /// Whether the digest in the file is the digest of its content. If not, the file was altered or
    /// damaged after it was written, and the card is to be looked at, not written on.
    pub digest_matches: bool,
}

/// Why a file could not be read. Nothing was taken from it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FileError {
    /// Too large to read.
    #[error("the file has {given} bytes: allowed is {MOST_BYTES} at most")]
    TooLarge {
        /// Its size.
        given: usize,
    },
    /// Not JSON as it is allowed here.
    #[error("the file is not readable: {0}")]
    Json(#[from] JsonError),
    /// JSON, but not a card.
    #[error("this is not a card: it does not say `\"format\": \"{FORMAT}\"`")]
    NotACard,
    /// A page that carries no card.
    #[error("this page carries no whole card, or more than one")]
    NoCardInPage,
    /// Written by a newer version.
    #[error(
        "the file is of format version {version}: this program reads up to version {}",
        super::VERSION
    )]
    Newer {
        /// Its version.
        version: u64,
    },
    /// A member that is missing or wrong.
    #[error("{}: {why}", named(place))]
    Field {
        /// The way to the member; empty for the file itself.
        place: String,
        /// What is wrong with it.
        why: FieldFault,
    },
    /// A plan that contradicts itself.
    #[error("{place}: {why}")]
    Plan {
        /// The way to the plan.
        place: String,
        /// What is wrong with it.
        why: PlanError,
    },
    /// An entry that cannot be on this card.
    #[error("{place}: {why}")]
    Entry {
        /// The way to the entry.
        place: String,
        /// What is wrong with it.
        why: AppendError,
    },
    /// An entry that does not go with the rest of the card.
    #[error("entry {id}: {why}")]
    Misfit {
        /// The entry.
        id: EntryId,
        /// Why it does not go.
        why: AppendError,
    },
    /// More entries than a card may hold.
    #[error("entries: there are {given}, allowed is {MOST_ENTRIES} at most")]
    TooMany {
        /// How many there are.
        given: usize,
    },
    /// An entry larger than any that is made here.
    #[error("{place}: has {given} bytes, allowed is {MOST_PIECE_BYTES} at most")]
    LargeEntry {
        /// The way to the entry.
        place: String,
        /// Its size.
        given: usize,
    },
    /// More beside the entries than a plan takes.
    #[error("beside its entries the file has {given} bytes, allowed is {MOST_PIECE_BYTES} at most")]
    LargeHead {
        /// How many there are.
        given: usize,
    },
    /// More raters than one card may have.
    #[error("entries: they are by more than {MOST_RATERS} raters, the most allowed")]
    TooManyRaters,
    /// More changes of plan than a card may hold.
    #[error("entries: {given} of them change the plan, allowed is {MOST_PLANS} at most")]
    TooManyPlans {
        /// How many there are.
        given: usize,
    },
}

/// Reads a card from the bytes of a file, or of a page that carries one; [`OpeningCard`] does so step by step.
///
/// Limits: 64 MiB, nesting of 64, 200,000 entries, and 32 MiB for one entry and for what is beside them.
///
/// # Errors
///
/// [`FileError`] with the place in the file; nothing is taken from it.
pub fn read(bytes: &[u8]) -> Result<Opened, FileError> {
    OpeningCard::new(&carried(bytes)?).finish()
}

/// Puts a card together from what [`super::write_head`] and [`super::write_entry`] wrote, in any order.
///
/// # Errors
///
/// [`FileError`] with the place; a damaged entry is named by its number.
pub fn join(head: &str, entries: &[String]) -> Result<Card, FileError> {
    let head = strict::parse(head.as_bytes())?;
    let Value::Object(mut document) = head else {
        return Err(FileError::NotACard);
    };
    document.insert("entries".to_owned(), Value::Array(Vec::new()));
    let mut card = begun(migrate(document)?)?;
    if entries.len() > MOST_ENTRIES {
        let given = entries.len();
        return Err(FileError::TooMany { given });
    }
    for (number, text) in entries.iter().enumerate() {
        let value = strict::parse(text.as_bytes())?;
        let entry = typed_entry(number, text.len(), &value)?;
        put(&mut card, number, entry)?;
    }
    check_counts(&card)?;
    card.find_plan();
    let mut fitting = Fitting::new(&card);
    while fitting.step(&card, usize::MAX)?.is_pending() {}
    Ok(card)
}

/// The card that a document without its entries begins.
pub(super) fn begun(mut document: Map<String, Value>) -> Result<Card, FileError> {
    let id: CardId = typed("id", &take(&mut document, "", "id")?)?;
    let plan = plan("plan", &take(&mut document, "", "plan")?)?;
    let mut card = Card::new(id, plan).map_err(|why| FileError::Plan {
        place: "plan".to_owned(),
        why,
    })?;
    match take(&mut document, "", "entries")? {
        Value::Array(_) => {}
        other => return Err(field("entries", FieldFault::shape(Shape::List, &other))),
    }
    for known in ["format", "version", "digest"] {
        document.remove(known);
    }
    card.residue = (!document.is_empty()).then_some(Value::Object(document));
    Ok(card)
}

/// An entry of a file, that many bytes long there, as far as it can be judged by itself.
pub(super) fn typed_entry(number: usize, bytes: usize, value: &Value) -> Result<Entry, FileError> {
    let place = || entry_place(number);
    if bytes > MOST_PIECE_BYTES {
        return Err(FileError::LargeEntry {
            place: place(),
            given: bytes,
        });
    }
    let entry = entry(value).map_err(|wrong| within(&place(), wrong))?;
    match check_alone(&entry) {
        Ok(()) => Ok(entry),
        Err(why) => Err(FileError::Entry {
            place: place(),
            why,
        }),
    }
}

/// Puts an entry on a card that does not have it yet.
pub(super) fn put(card: &mut Card, number: usize, entry: Entry) -> Result<(), FileError> {
    if card.entry(entry.id).is_some() {
        return Err(FileError::Entry {
            place: entry_place(number),
            why: AppendError::KnownId { id: entry.id },
        });
    }
    card.take(entry);
    Ok(())
}

fn entry_place(number: usize) -> String {
    format!("entries[{number}]")
}

/// What a card may hold only so many of, its entries being counted already.
pub(super) fn check_counts(card: &Card) -> Result<(), FileError> {
    let plans = card.plans_written().count();
    if plans > MOST_PLANS {
        return Err(FileError::TooManyPlans { given: plans });
    }
    if card.has_too_many_raters() {
        return Err(FileError::TooManyRaters);
    }
    Ok(())
}

/// Reads a plan, keeping what this version does not know.
pub(super) fn plan(place: &str, value: &Value) -> Result<Plan, FileError> {
    plan_of(value).map_err(|wrong| within(place, wrong))
}

fn plan_of(value: &Value) -> Result<Plan, Wrong> {
    let strange = Cell::new(false);
    let mut plan: Plan = typed::read(value, &strange)?;
    if strange.get() {
        plan.residue = residue(value, &plan_value(&plan));
    }
    Ok(plan)
}

/// Reads an entry, keeping what this version does not know.
fn entry(value: &Value) -> Result<Entry, Wrong> {
    let Value::Object(members) = value else {
        return Err(FieldFault::shape(Shape::Object, value).into());
    };
    let strange = Cell::new(false);
    let supersedes = match members.get("supersedes") {
        Some(_) => member(members, "supersedes", &strange)?,
        None => None,
    };
    let known = if supersedes.is_some() { 7 } else { 6 };
    strange.set(strange.get() || members.len() > known);
    let mut entry = Entry {
        body: body(get(members, "body")?, &strange).map_err(|wrong| wrong.in_member("body"))?,
        id: member(members, "id", &strange)?,
        device: member(members, "device", &strange)?,
        lamport: member(members, "lamport", &strange)?,
        time: member(members, "time", &strange)?,
        rater: member(members, "rater", &strange)?,
        supersedes,
        residue: None,
    };
    if strange.get() || has_instant_respelt(members, &entry) {
        entry.residue = residue(value, &known_entry_value(&entry));
    }
    Ok(entry)
}

/// Whether an instant may stand there in another spelling than the one that is written.
fn has_instant_respelt(members: &Map<String, Value>, entry: &Entry) -> bool {
    matches!(entry.body, Body::Gauge { .. })
        || members
            .get("time")
            .is_none_or(|time| *time != entry.time.to_string())
}

fn body(value: &Value, strange: &Cell<bool>) -> Result<Body, Wrong> {
    let Value::Object(members) = value else {
        return Err(FieldFault::shape(Shape::Object, value).into());
    };
    match get(members, "kind")? {
        Value::String(kind) if kind == "plan" => {
            let plan = plan_of(get(members, "plan")?).map_err(|wrong| wrong.in_member("plan"))?;
            strange.set(strange.get() || members.len() > 2);
            Ok(Body::Plan {
                plan: Box::new(plan),
            })
        }
        Value::String(kind) if !KINDS.contains(&kind.as_str()) => Ok(Body::Other(members.clone())),
        // A kind that is no text is refused with its place there.
        _ => typed::read(value, strange),
    }
}

fn get<'v>(members: &'v Map<String, Value>, name: &'static str) -> Result<&'v Value, Wrong> {
    members
        .get(name)
        .ok_or_else(|| FieldFault::Missing { name }.into())
}

fn member<'v, T: Deserialize<'v>>(
    members: &'v Map<String, Value>,
    name: &'static str,
    strange: &Cell<bool>,
) -> Result<T, Wrong> {
    typed::read(get(members, name)?, strange).map_err(|wrong| wrong.in_member(name))
}

/// Takes a member out of an object that stands at that place.
pub(super) fn take(
    members: &mut Map<String, Value>,
    place: &str,
    name: &'static str,
) -> Result<Value, FileError> {
    members
        .remove(name)
        .ok_or_else(|| field(place, FieldFault::Missing { name }))
}

/// Reads what stands at that place.
pub(super) fn typed<'v, T: Deserialize<'v>>(place: &str, value: &'v Value) -> Result<T, FileError> {
    typed::read(value, &Cell::new(false)).map_err(|wrong| within(place, wrong))
}

fn within(place: &str, wrong: Wrong) -> FileError {
    let (way, why) = wrong.parts();
    field(&[place, &way].concat(), why)
}

fn field(place: &str, why: FieldFault) -> FileError {
    FileError::Field {
        place: place.to_owned(),
        why,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn kinds_that_are_not_known_are_kept_whole() {
        let came = json!({ "kind": "oil_sample", "iron_ppm": 31 });
        let Value::Object(members) = came.clone() else {
            unreachable!()
        };
        let body = body(&came, &Cell::new(false)).unwrap();
        assert_eq!(body, Body::Other(members));
    }
}
