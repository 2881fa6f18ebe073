//! The Card of every demo engine, opened whole: each look that stands is on it, once, with its entry.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{fs, path::Path};

use ringland_assess::{
    Tree, assess,
    gauging::{
        Intercept,
        over_run::{StandsFor, StripDown, one_way, units},
    },
};
use ringland_card::{Card, file};
use ringland_report::{
    card::Sheet,
    format::UnitPrefs,
    gauging::{Beside, Gauger},
    words::{Language, Words, words},
};

fn demo_cards() -> Vec<Card> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-data");
    let mut names: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.to_string_lossy().ends_with(".card.json"))
        .collect();
    names.sort();
    let read = |path: &_| file::read(&fs::read(path).unwrap()).unwrap().card;
    names.iter().map(read).collect()
}

#[test]
fn every_look_that_stands_can_be_found_with_its_entry() {
    let cards = demo_cards();
    assert!(!cards.is_empty());
    for card in cards {
        let tree = Tree::of(card.plan());
        let result = assess(&card.standing(), &tree);
        let sheet = Sheet::new(&card, &tree, &result, &Words::ENGLISH);
        let page = sheet.sections(true);
        for entry in sheet.standing.looks.iter().flatten() {
            let id = entry.id.to_string();
            assert_eq!(
                page.matches(&id).count(),
                1,
                "entry {id} of card {}",
                card.id()
            );
        }
    }
}

/// The same card gives the same page.
#[test]
fn a_card_has_one_page() {
    for card in demo_cards() {
        let tree = Tree::of(card.plan());
        let result = assess(&card.standing(), &tree);
        let page = || Sheet::new(&card, &tree, &result, &Words::ENGLISH).sections(true);
        assert_eq!(page(), page());
    }
}

/// Wear against distance of every kind of size, each engine beside all the others: a plot with a mark for each
/// strip-down and one in its key, and a sentence for the curve; a size of either way says why there is none.
#[test]
fn every_size_of_every_engine_is_drawn_beside_the_others() {
    let cards = demo_cards();
    let stripped: Vec<StripDown> = cards
        .iter()
        .map(|card| StripDown::of(&card.standing()))
        .collect();
    let mut plots = 0;
    for (number, card) in cards.iter().enumerate() {
        let mut others = stripped.clone();
        others.remove(number);
        let standing = card.standing();
        for language in Language::ALL.map(words) {
            let gauger = Gauger {
                standing: &standing,
                words: language,
                units: UnitPrefs::default(),
                rater: "",
                blind: false,
                as_new: false,
            };
            for kind in gauger.kinds() {
                for intercept in [Intercept::Zero, Intercept::Free] {
                    let beside = Beside {
                        others: &others,
                        every_model: true,
                        stands_for: StandsFor::Most,
                        intercept,
                    };
                    let page = gauger.over_run(kind, &beside);
                    let known = one_way(&standing, kind.first).map(|kind| {
                        let all: Vec<&StripDown> = stripped.iter().collect();
                        units(&all, &kind, StandsFor::Most).len()
                    });
                    match known {
                        None => assert!(page.contains(language.over_run.either_way), "{page}"),
                        Some(0) => assert!(page.contains(language.over_run.nothing), "{page}"),
                        Some(known) => {
                            plots += 1;
                            assert_eq!(page.matches("\"plot__mark").count(), 2 * known, "{page}");
                            assert!(page.contains("<li>"), "{page}");
                            assert!(!page.contains("NaN") && !page.contains('{'), "{page}");
                        }
                    }
                }
                let blind = Gauger {
                    blind: true,
                    ..gauger.clone()
                };
                let beside = Beside {
                    others: &others,
                    every_model: true,
                    stands_for: StandsFor::Mean,
                    intercept: Intercept::Zero,
                };
                assert!(blind.over_run(kind, &beside).is_empty());
            }
        }
    }
    assert!(plots > 100, "{plots}");
}
