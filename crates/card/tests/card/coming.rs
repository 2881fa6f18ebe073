//! What another file would bring, said before it is merged.

use proptest::prelude::*;
use ringland_card::{Brought, Coming, Fact, FactField, Grade, MergeError, coming::FactApart};

use crate::{
    bench::{
        at, by, card_id, card_of, cause, entry, entry_id, lobe, name, plan, rating, reading,
        remark, void,
    },
    histories::tablets,
};

#[test]
fn what_comes_is_counted_by_what_it_is() {
    let here = card_of([entry(1, name("Six")), entry(2, lobe(Grade::Light))]);
    let there = card_of([
        entry(1, name("Six")),
        entry(3, lobe(Grade::Medium)),
        entry(4, reading("cyl1/pin", "diameter", "55.0")),
        entry(5, remark("Hello.")),
        entry(6, remark("Wrong.")),
        entry(7, void(entry_id(6))),
        entry(
            8,
            cause("cyl1/lobe/intake", None, ringland_card::Cause::Dirt),
        ),
        by("B", entry(9, name("Six B"))),
    ]);
    let coming = Coming::of(&here, &there).unwrap();
    let counts: Vec<(Brought, usize)> = coming.entries.clone().into_iter().collect();
    assert_eq!(
        counts,
        [
            (Brought::Look, 1),
            (Brought::Reading, 1),
            (Brought::Fact, 1),
            (Brought::Remark, 2),
            (Brought::Cause, 1),
            (Brought::Correction, 1)
        ]
    );
    assert_eq!((coming.len(), coming.is_empty()), (7, false));
    assert_eq!(
        coming.facts,
        [FactApart {
            field: FactField::Name,
            here: Fact::Name("Six".to_owned()),
            there: Fact::Name("Six B".to_owned()),
            then: Some(Fact::Name("Six B".to_owned())),
        }]
    );
}

#[test]
fn looks_at_what_was_looked_at_are_told_apart_by_rater() {
    let severe = || ringland_card::Look::Grade(Grade::Severe);
    let exhaust = || rating("cyl1/lobe/exhaust", "wear", severe());
    let here = card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, exhaust()),
        entry(3, reading("cyl1/pin", "diameter", "55.0")),
    ]);
    let there = card_of([
        by("B", entry(4, lobe(Grade::Heavy))),
        entry(5, exhaust()),
        by("B", entry(6, reading("cyl1/pin", "diameter", "55.1"))),
        by("B", entry(7, rating("cyl2/lobe/intake", "wear", severe()))),
    ]);
    let coming = Coming::of(&here, &there).unwrap();
    let leaf = |place, look| here.index().find(here.plan(), &at(place, look)).unwrap();
    let mut both = vec![
        leaf("cyl1/lobe/intake", "wear"),
        leaf("cyl1/pin", "diameter"),
    ];
    both.sort();
    assert_eq!(coming.both, both);
    assert_eq!(coming.anew, [leaf("cyl1/lobe/exhaust", "wear")]);
    assert!(coming.facts.is_empty());
}

#[test]
fn of_two_facts_the_later_holds_whichever_file_it_is_in() {
    let (early, late) = (
        card_of([entry(1, name("Early"))]),
        card_of([entry(2, name("Late"))]),
    );
    let then = |here, there| Coming::of(here, there).unwrap().facts[0].then.clone();
    let holds = Some(Fact::Name("Late".to_owned()));
    assert_eq!(
        (then(&early, &late), then(&late, &early)),
        (holds.clone(), holds)
    );
}

#[test]
fn of_another_card_nothing_comes() {
    let other = ringland_card::Card::new(card_id(2), plan()).unwrap();
    let refused = Coming::of(&card_of([]), &other);
    assert!(matches!(refused, Err(MergeError::OtherCard { .. })));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// As many come as the merged card has more; what came comes no second time.
    #[test]
    fn what_is_said_to_come_is_what_comes([a, b, _] in tablets()) {
        let coming = Coming::of(&a, &b).unwrap();
        let merged = a.merge(&b).unwrap();
        prop_assert_eq!(coming.len(), merged.len() - a.len());
        prop_assert!(Coming::of(&merged, &b).unwrap().is_empty());
        for apart in &coming.facts {
            prop_assert!(apart.here != apart.there);
        }
    }
}
