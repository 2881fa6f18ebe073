//! The Card of every demo engine, opened whole: each look that stands is on it, once, with its entry.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{fs, path::Path};

use ringland_assess::{Tree, assess};
use ringland_card::{Card, file};
use ringland_report::{card::Sheet, words::Words};

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
