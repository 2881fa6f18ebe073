//! A card out of records of which some are damaged: whatever can be read opens.

use std::task::Poll;

use serde_json::Value;

use super::{
    FileError,
    fitting::Fitting,
    migrate::migrate,
    read::{begun, typed_entry},
    strict,
};
use crate::{
    card::{Card, MOST_ENTRIES, MOST_PLANS},
    entry::{Body, Entry},
    ids::EntryId,
};

/// A card, and which of its records could not be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Rescued {
    /// The card of all that could be read.
    pub card: Card,
    /// The records that could not, by their numbers.
    pub lost: Vec<usize>,
}

/// Puts a card together from its head and its entries; an entry that is no text comes as none.
///
/// # Errors
///
/// [`FileError`] when the head cannot be read: then there is no card to put entries on.
pub fn rescue(head: &str, records: &[Option<String>]) -> Result<Rescued, FileError> {
    let mut rescue = Rescue::new(head)?;
    for record in records {
        rescue.add(record.as_deref());
    }
    loop {
        if let Poll::Ready(rescued) = rescue.step(usize::MAX) {
            return Ok(rescued);
        }
    }
}

/// A card being put together from its records step by step: first [`Rescue::add`] for each record, then
/// [`Rescue::step`] until it is there.
#[derive(Debug)]
pub struct Rescue {
    card: Option<Card>,
    plans: usize,
    /// By record: the entry that it is, where it could be read.
    records: Vec<Option<EntryId>>,
    fitting: Option<Fitting>,
}

impl Rescue {
    /// Begins with a card's head.
    ///
    /// # Errors
    ///
    /// [`FileError`] when it cannot be read.
    pub fn new(head: &str) -> Result<Self, FileError> {
        Ok(Self {
            card: Some(headed(head)?),
            plans: 0,
            records: Vec::new(),
            fitting: None,
        })
    }

    /// Takes the next record as far as it can be judged by itself.
    pub fn add(&mut self, record: Option<&str>) {
        let entry = record.and_then(|text| {
            let value = strict::parse(text.as_bytes()).ok()?;
            typed_entry(self.records.len(), text.len(), &value).ok()
        });
        let taken = entry.and_then(|entry| self.take(entry));
        self.records.push(taken);
    }

    fn take(&mut self, entry: Entry) -> Option<EntryId> {
        let (id, card) = (entry.id, self.card.as_mut()?);
        let plans = self.plans + usize::from(matches!(entry.body, Body::Plan { .. }));
        let full =
            card.len() >= MOST_ENTRIES || plans > MOST_PLANS || card.is_full_for(&entry.rater);
        if full || card.entry(id).is_some() {
            return None;
        }
        card.take(entry);
        self.plans = plans;
        Some(id)
    }

    /// Goes on with what was taken, for as many entries as count for so many bytes; then the card is
    /// there, or there is more to be done.
    ///
    /// An entry may hang on another that comes later, as a look does on the plan it was made under: so
    /// all are there before the first is held against the others.
    pub fn step(&mut self, bytes: usize) -> Poll<Rescued> {
        let Some(mut card) = self.card.take() else {
            return Poll::Pending;
        };
        let fitting = self.fitting.take();
        let mut fitting = fitting.unwrap_or_else(|| Fitting::leaving_out(&card));
        // What does not fit is left out, so it is no error.
        if let Ok(Poll::Pending) = fitting.step(&card, bytes) {
            (self.card, self.fitting) = (Some(card), Some(fitting));
            return Poll::Pending;
        }
        let left_out = fitting.left_out();
        if !left_out.is_empty() {
            card = card.without(&left_out);
        }
        card.find_plan();
        let is_lost = |id: &Option<EntryId>| id.is_none_or(|id| left_out.contains(&id));
        let records = self.records.iter().enumerate();
        let lost = records
            .filter(|(_, id)| is_lost(id))
            .map(|(number, _)| number);
        Poll::Ready(Rescued {
            lost: lost.collect(),
            card,
        })
    }
}

/// The card that a head begins.
fn headed(head: &str) -> Result<Card, FileError> {
    match strict::parse(head.as_bytes())? {
        Value::Object(document) => begun(migrate(document)?),
        _ => Err(FileError::NotACard),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Body, CardId, Depth, DeviceId, Entry, EntryId, Fact, Grade, Layout, Look, Scale, Timestamp,
        builtin, file,
    };

    fn card(names: usize) -> Card {
        let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
        let mut card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
        for n in 0..names {
            let name = Fact::Name(format!("Name {n}"));
            card.append(entry(&card, n, Body::Fact { fact: name }))
                .unwrap();
        }
        card
    }

    fn entry(card: &Card, n: usize, body: Body) -> Entry {
        let id = EntryId::v7(n as u64, [1; 10]);
        let device = DeviceId::v7(1, [1; 10]);
        let (lamport, time) = (card.next_lamport(), Timestamp::UNIX_EPOCH);
        Entry::new(id, device, lamport, time, "one", body)
    }

    fn records(card: &Card) -> Vec<Option<String>> {
        card.entries()
            .map(|entry| Some(file::write_entry(entry)))
            .collect()
    }

    #[test]
    fn a_sound_card_is_whole() {
        let card = card(5);
        let rescued = rescue(&file::write_head(&card), &records(&card)).unwrap();
        assert_eq!((rescued.card, rescued.lost), (card, vec![]));
    }

    #[test]
    fn only_what_is_damaged_stays_out() {
        let card = card(40);
        let mut records = records(&card);
        records[3] = None;
        records[17] = Some("{".to_owned());
        records[18] = Some("{\"id\":7}".to_owned());
        records[39] = records[0].clone();
        let rescued = rescue(&file::write_head(&card), &records).unwrap();
        assert_eq!(rescued.lost, [3, 17, 18, 39]);
        assert_eq!(rescued.card.len(), 36);
    }

    #[test]
    fn a_look_under_a_plan_that_stands_later_is_not_lost_with_a_damaged_one() {
        let mut card = card(4);
        let full = builtin(&Layout::inline_six(), Depth::Full).unwrap();
        let replan = Body::Plan {
            plan: Box::new(full),
        };
        card.append(entry(&card, 10, replan)).unwrap();
        let plan = card.plan().clone();
        let mut leaves = card.index().leaves().iter();
        let at = leaves.find_map(|leaf| {
            let scale = plan.scale(&leaf.characteristic(&plan).scale)?;
            let here = leaf.at(&plan);
            let graded = matches!(scale, Scale::Grade { .. });
            let new = card.first_plan().places().all(|(.., place)| {
                place
                    .positions
                    .iter()
                    .all(|known| known.id != here.position)
            });
            (graded && new).then_some(here)
        });
        let (at, look) = (at.unwrap(), Look::Grade(Grade::Light));
        let rated = entry(&card, 11, Body::Rating { at, look });
        card.append(rated).unwrap();
        let mut records = records(&card);
        records.reverse();
        records[5] = Some(String::new());
        let rescued = rescue(&file::write_head(&card), &records).unwrap();
        assert_eq!(rescued.lost, [5]);
        assert_eq!(rescued.card.len(), card.len() - 1);
    }

    #[test]
    fn without_a_head_there_is_no_card() {
        assert!(rescue("{", &[]).is_err());
    }
}
