//! The page of a card's file, all of its draws done at once.

use std::collections::BTreeSet;

use ringland_assess::{
    Tree, assess,
    gauging::{finding::findings, outlook::Outlook},
    weights::{DRAWS, SEED, dependence},
};
use ringland_card::{
    PhotoDigest,
    file::{self, DigestingCard, Opened},
    seal::seals,
};

use super::{Carried, HandOver, ReadAs};
use crate::{card::Sheet, words::words};

/// The page of a card that was opened, with those pictures: the same text as where the draws are done in slices. Where a
/// picture's bytes go they are only named, see [`pieces`](crate::photo::pieces).
pub fn page_of(opened: &Opened, read_as: ReadAs, pictures: &BTreeSet<PhotoDigest>) -> String {
    let card = &opened.card;
    let (tree, standing) = (Tree::of(card.plan()), card.standing());
    let result = assess(&standing, &tree);
    let drawn = dependence(
        card.plan(),
        card.index(),
        &tree,
        &result.leaves,
        &result.all,
        SEED,
        DRAWS,
    );
    let outlook = Outlook::of(&findings(&standing));
    let first = outlook
        .as_ref()
        .and_then(|outlook| outlook.first_limit().ok());
    let mut sheet = Sheet::new(card, &tree, &result, words(read_as.language));
    sheet.pictures = Some(pictures);
    sheet.other_weights = drawn.as_ref().map(|drawn| (drawn, SEED));
    let text = if opened.digest_matches {
        file::write(card)
    } else {
        file::write_as_altered(card)
    };
    let digest = DigestingCard::new(card).finish(card);
    let left = outlook.as_ref().zip(first.as_ref());
    HandOver::new(sheet, read_as, left, !opened.digest_matches).page(Carried {
        file: &text,
        digest: &digest,
        seals: &seals(card),
    })
}
