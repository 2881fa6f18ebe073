//! A card out of records of which some are damaged: whatever can be read opens.

use super::{FileError, join as join_all};
use crate::Card;

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
    let mut taken: Vec<usize> = Vec::new();
    let mut left: Vec<usize> = (0..records.len())
        .filter(|number| records[*number].is_some())
        .collect();
    let mut card = join(head, records, &[])?;
    // An entry may hang on another that comes later, as a look does on the plan it was made under.
    loop {
        let before = left.len();
        left = add(head, records, &mut taken, &mut card, &left);
        if left.is_empty() || left.len() == before {
            break;
        }
    }
    let lost = (0..records.len()).filter(|number| !taken.contains(number));
    Ok(Rescued {
        lost: lost.collect(),
        card,
    })
}

fn join(head: &str, records: &[Option<String>], numbers: &[usize]) -> Result<Card, FileError> {
    let texts: Vec<String> = numbers
        .iter()
        .filter_map(|number| records[*number].clone())
        .collect();
    join_all(head, &texts)
}

/// Takes what goes with what is taken already, by halves, so that a card with one damaged entry of a
/// thousand is read some twenty times and not a thousand; gives what did not go.
fn add(
    head: &str,
    records: &[Option<String>],
    taken: &mut Vec<usize>,
    card: &mut Card,
    part: &[usize],
) -> Vec<usize> {
    let with = [taken.as_slice(), part].concat();
    if let Ok(whole) = join(head, records, &with) {
        *card = whole;
        *taken = with;
        return Vec::new();
    }
    if part.len() < 2 {
        return part.to_vec();
    }
    let (first, second) = part.split_at(part.len() / 2);
    let mut left = add(head, records, taken, card, first);
    left.extend(add(head, records, taken, card, second));
    left
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
