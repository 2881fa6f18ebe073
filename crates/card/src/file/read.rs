//! A file into a card. A file from outside is hostile until it has come through here.

use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use super::{
    FORMAT, KINDS, MOST_BYTES, MOST_DEPTH, locate,
    migrate::migrate,
    residue::residue,
    strict::{self, JsonError},
    write::{digest, known_entry_value, plan_value},
};
use crate::{
    card::{AppendError, Card, MOST_ENTRIES, MOST_PLANS, check_alone},
    entry::{Body, Entry},
    ids::{CardId, DeviceId, EntryId},
    look::{LookError, check_body},
    plan::{Plan, PlanError, PlanIndex},
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
    #[error("{place}: {why}")]
    Field {
        /// The way to the member.
        place: String,
        /// What is wrong with it.
        why: String,
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
    /// More entries than a card may hold.
    #[error("entries: there are {given}, allowed is {MOST_ENTRIES} at most")]
    TooMany {
        /// How many there are.
        given: usize,
    },
    /// More changes of plan than a card may hold.
    #[error("entries: {given} of them change the plan, allowed is {MOST_PLANS} at most")]
    TooManyPlans {
        /// How many there are.
        given: usize,
    },
}

/// Reads a card from the bytes of a file.
///
/// Limits: 64 MiB, nesting of 64, 200,000 entries.
///
/// # Errors
///
/// [`FileError`] with the place in the file; nothing is taken from it.
pub fn read(bytes: &[u8]) -> Result<Opened, FileError> {
    if bytes.len() > MOST_BYTES {
        return Err(FileError::TooLarge { given: bytes.len() });
    }
    const {
        assert!(MOST_DEPTH < 128, "the parser's own limit would come first");
    }
    match strict::parse(bytes)? {
        Value::Object(document) => read_document(document),
        _ => Err(FileError::NotACard),
    }
}

/// Reads a card from a document that came through the strict reader.
pub(super) fn read_document(document: Map<String, Value>) -> Result<Opened, FileError> {
    if document.get("format").and_then(Value::as_str) != Some(FORMAT) {
        return Err(FileError::NotACard);
    }
    let digest_matches =
        document.get("digest").and_then(Value::as_str) == Some(digest(&document).as_str());
    let card = card(migrate(document)?)?;
    Ok(Opened {
        card,
        digest_matches,
    })
}

/// Puts a card together from what [`super::write_head`] and [`super::write_entry`] wrote, in any order.
///
/// # Errors
///
/// [`FileError`] with the place; a damaged entry is named by its number.
pub fn join(head: &str, entries: &[String]) -> Result<Card, FileError> {
    let Value::Object(mut document) = strict::parse(head.as_bytes())? else {
        return Err(FileError::NotACard);
    };
    let entries = entries
        .iter()
        .map(|entry| strict::parse(entry.as_bytes()))
        .collect::<Result<Vec<Value>, JsonError>>()?;
    document.insert("entries".to_owned(), Value::Array(entries));
    card(migrate(document)?)
}

fn card(mut document: Map<String, Value>) -> Result<Card, FileError> {
    let id: CardId = typed("id", take(&mut document, "", "id")?)?;
    let plan = plan("plan", &take(&mut document, "", "plan")?)?;
    let mut card = Card::new(id, plan).map_err(|why| FileError::Plan {
        place: "plan".to_owned(),
        why,
    })?;
    let Value::Array(values) = take(&mut document, "", "entries")? else {
        return Err(field("entries", "it must be a list"));
    };
    if values.len() > MOST_ENTRIES {
        return Err(FileError::TooMany {
            given: values.len(),
        });
    }
    for known in ["format", "version", "digest"] {
        document.remove(known);
    }
    card.residue = (!document.is_empty()).then_some(Value::Object(document));
    for (n, value) in values.into_iter().enumerate() {
        let place = format!("entries[{n}]");
        let entry = entry(&place, &value)?;
        check_alone(&entry).map_err(|why| FileError::Entry {
            place: place.clone(),
            why,
        })?;
        if card.entry(entry.id).is_some() {
            return Err(FileError::Entry {
                place,
                why: AppendError::KnownId { id: entry.id },
            });
        }
        card.take(entry);
    }
    let plans = card.plans_written().count();
    if plans > MOST_PLANS {
        return Err(FileError::TooManyPlans { given: plans });
    }
    card.find_plan();
    check_entries(&card)?;
    Ok(card)
}

/// Each rating must fit one of the card's plans: it was made under one of them.
fn check_entries(card: &Card) -> Result<(), FileError> {
    let refuse = |entry: &Entry, why| FileError::Entry {
        place: format!("entry {}", entry.id),
        why,
    };
    for entry in card.entries() {
        card.check_known_targets(entry)
            .map_err(|why| refuse(entry, why))?;
    }
    // What does not fit the first plan is tried against the later ones, one plan at a time: a file
    // with many plans must not hold an index of each at once.
    let mut misfits: Vec<(&Entry, LookError)> = misfits(card.first_plan(), card.entries());
    for plan in card.plans_written() {
        if misfits.is_empty() {
            break;
        }
        let index = PlanIndex::of(plan);
        misfits.retain(|(entry, _)| check_body(plan, &index, &entry.body).is_err());
    }
    match misfits.into_iter().next() {
        Some((entry, why)) => Err(refuse(entry, AppendError::Look(why))),
        None => Ok(()),
    }
}

fn misfits<'c>(
    plan: &Plan,
    entries: impl Iterator<Item = &'c Entry>,
) -> Vec<(&'c Entry, LookError)> {
    let index = PlanIndex::of(plan);
    entries
        .filter_map(|entry| Some((entry, check_body(plan, &index, &entry.body).err()?)))
        .collect()
}

/// Reads a plan, keeping what this version does not know.
fn plan(place: &str, value: &Value) -> Result<Plan, FileError> {
    let mut plan: Plan = match serde_json::from_value(value.clone()) {
        Ok(plan) => plan,
        Err(error) => {
            let (place, why) = locate::in_plan(place, value).unwrap_or((place.to_owned(), error));
            return Err(field(&place, &why.to_string()));
        }
    };
    plan.residue = residue(value, &plan_value(&plan));
    Ok(plan)
}

/// Reads an entry, keeping what this version does not know.
fn entry(place: &str, value: &Value) -> Result<Entry, FileError> {
    let Value::Object(mut members) = value.clone() else {
        return Err(field(place, "it must be an object"));
    };
    let mut member = |name: &str| take(&mut members, place, name);
    let at = |name: &str| format!("{place}.{name}");
    let body = body(&at("body"), member("body")?)?;
    let mut entry = Entry {
        id: typed::<EntryId>(&at("id"), member("id")?)?,
        device: typed::<DeviceId>(&at("device"), member("device")?)?,
        lamport: typed(&at("lamport"), member("lamport")?)?,
        time: typed(&at("time"), member("time")?)?,
        rater: typed(&at("rater"), member("rater")?)?,
        supersedes: typed(
            &at("supersedes"),
            members.remove("supersedes").unwrap_or(Value::Null),
        )?,
        body,
        residue: None,
    };
    entry.residue = residue(value, &known_entry_value(&entry));
    Ok(entry)
}

fn body(place: &str, value: Value) -> Result<Body, FileError> {
    let kind = value.get("kind").and_then(Value::as_str).map(str::to_owned);
    match (kind.as_deref(), value) {
        (Some("plan"), Value::Object(mut members)) => {
            let plan = plan(
                &format!("{place}.plan"),
                &take(&mut members, place, "plan")?,
            )?;
            Ok(Body::Plan {
                plan: Box::new(plan),
            })
        }
        (Some(known), value) if KINDS.contains(&known) => typed(place, value),
        (Some(_), Value::Object(other)) => Ok(Body::Other(other)),
        _ => Err(field(place, "it must be an object with a `kind`")),
    }
}

fn take(members: &mut Map<String, Value>, place: &str, name: &str) -> Result<Value, FileError> {
    members.remove(name).ok_or_else(|| {
        let place = if place.is_empty() { "the file" } else { place };
        field(place, &format!("the member `{name}` is missing"))
    })
}

fn typed<T: DeserializeOwned>(place: &str, value: Value) -> Result<T, FileError> {
    serde_json::from_value(value).map_err(|error| field(place, &error.to_string()))
}

fn field(place: &str, why: &str) -> FileError {
    FileError::Field {
        place: place.to_owned(),
        why: strict::readable(why),
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
        assert_eq!(body("b", came).unwrap(), Body::Other(members));
    }
}
