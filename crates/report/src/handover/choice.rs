//! Which photos stand in a page.

use std::collections::BTreeSet;

use ringland_assess::{Tree, assess};
use ringland_card::{PhotoDigest, file::Opened};

use crate::{card::Sheet, words::Words};

/// Which photos stand in a page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Choice {
    /// None.
    None,
    /// One of each of the worst positions.
    #[default]
    Worst,
    /// All that are here.
    All,
}

impl Choice {
    /// Every choice, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::None, Self::Worst, Self::All];

    /// The photos of a sheet's card that this chooses of those that are `here`.
    pub fn of(self, sheet: &Sheet<'_>, here: &BTreeSet<PhotoDigest>) -> BTreeSet<PhotoDigest> {
        let wanted = match self {
            Self::None => BTreeSet::new(),
            Self::Worst => sheet.photos_of_worst(),
            Self::All => sheet.all_photos().map(|photo| photo.digest).collect(),
        };
        wanted.intersection(here).copied().collect()
    }
}

/// The same of a card that was opened.
pub fn chosen(
    opened: &Opened,
    choice: Choice,
    here: &BTreeSet<PhotoDigest>,
) -> BTreeSet<PhotoDigest> {
    let card = &opened.card;
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    choice.of(&Sheet::new(card, &tree, &result, &Words::ENGLISH), here)
}
