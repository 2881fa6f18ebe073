//! Merging is the union of entries: commutative, associative, idempotent, nothing lost.

use std::collections::BTreeSet;

use proptest::prelude::*;
use ringland_card::{
    Body, Card, EntryId, Standing,
    file::{join, write, write_entry, write_head},
};

use crate::histories::{merged, tablets};

/// What holds, as names that two cards can be compared by.
#[derive(Debug, PartialEq)]
pub(crate) struct Holds {
    looks: Vec<Vec<EntryId>>,
    causes: Vec<Option<EntryId>>,
    facts: Vec<EntryId>,
    remarks: Vec<EntryId>,
    outside: Vec<EntryId>,
    dead: Vec<EntryId>,
    plan: ringland_card::Plan,
}

pub(crate) fn holds(card: &Card) -> Holds {
    let standing: Standing<'_> = card.standing();
    Holds {
        looks: standing
            .looks
            .iter()
            .map(|looks| looks.iter().map(|entry| entry.id).collect())
            .collect(),
        causes: standing
            .causes
            .iter()
            .map(|cause| cause.map(|entry| entry.id))
            .collect(),
        facts: standing.facts.values().map(|entry| entry.id).collect(),
        remarks: standing.remarks.iter().map(|entry| entry.id).collect(),
        outside: standing.outside.iter().map(|entry| entry.id).collect(),
        dead: card
            .entries()
            .map(|entry| entry.id)
            .filter(|id| standing.dead.has(*id))
            .collect(),
        plan: standing.plan.clone(),
    }
}

fn ids(card: &Card) -> BTreeSet<EntryId> {
    card.entries().map(|entry| entry.id).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn either_way_round_is_the_same([a, b, _] in tablets()) {
        prop_assert_eq!(a.merge(&b).unwrap(), b.merge(&a).unwrap());
    }

    #[test]
    fn grouping_does_not_matter([a, b, c] in tablets()) {
        let left = a.merge(&b).unwrap().merge(&c).unwrap();
        let right = a.merge(&b.merge(&c).unwrap()).unwrap();
        prop_assert_eq!(write(&left), write(&right));
        prop_assert_eq!(holds(&left), holds(&right));
        prop_assert_eq!(left, right);
    }

    #[test]
    fn merging_again_changes_nothing([a, b, _] in tablets()) {
        let once = a.merge(&b).unwrap();
        prop_assert_eq!(&a.merge(&a).unwrap(), &a);
        prop_assert_eq!(&once.merge(&b).unwrap(), &once);
        prop_assert_eq!(&once.merge(&a).unwrap(), &once);
    }

    #[test]
    fn nothing_is_lost_and_nothing_comes_from_nowhere([a, b, _] in tablets()) {
        let union: BTreeSet<EntryId> = ids(&a).union(&ids(&b)).copied().collect();
        prop_assert_eq!(ids(&a.merge(&b).unwrap()), union);
    }

    /// Entries come off a disk in any order, and off several tablets in any grouping.
    #[test]
    fn the_order_in_which_entries_come_in_never_matters(
        card in merged(),
        shuffled in Just(()).prop_perturb(|(), mut random| random.next_u64()),
    ) {
        let head = write_head(&card);
        let entries: Vec<String> = card.entries().map(write_entry).collect();
        // Dealt out to three cards by a number that knows nothing of their order, each back to front.
        let mut dealt = [Vec::new(), Vec::new(), Vec::new()];
        for (entry, turn) in entries.iter().rev().zip((0u32..).step_by(5)) {
            let pile = shuffled.rotate_left(turn) % 3;
            dealt[pile as usize].push(entry.clone());
        }
        // A pile may hold ratings made under a plan that lies in another, so each has all plans.
        let plans: Vec<String> = card
            .entries()
            .filter(|entry| matches!(entry.body, Body::Plan { .. }))
            .map(write_entry)
            .collect();
        let [a, b, c] = dealt.map(|mut pile| {
            pile.retain(|entry| !plans.contains(entry));
            pile.extend(plans.iter().cloned());
            join(&head, &pile).unwrap()
        });
        let again = c.merge(&a).unwrap().merge(&b).unwrap();
        prop_assert_eq!(holds(&again), holds(&card));
        prop_assert_eq!(write(&again), write(&card));
    }

    /// The plan and the index that a card carries along are those that its entries ask for.
    #[test]
    fn a_card_kept_up_to_date_is_the_card_read_afresh(card in merged()) {
        let entries: Vec<String> = card.entries().map(write_entry).collect();
        let afresh = join(&write_head(&card), &entries).unwrap();
        prop_assert_eq!(afresh.plan(), card.plan());
        prop_assert_eq!(holds(&afresh), holds(&card));
    }
}
