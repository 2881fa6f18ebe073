//! The engines on this tablet.

use std::{cmp::Reverse, rc::Rc};

use leptos::prelude::*;
use ringland_assess::{Tree, assess};
use ringland_card::{
    Card, CardId, Coming, Entry, MergeError,
    file::{self, OpeningCard},
    gauging::SizeSheet,
};

use super::{open::CardStore, summary::Summary};
use crate::{
    order,
    persist::{
        Db, KeepError, Lost, StoredCard,
        tabs::{alone, tell},
    },
    platform,
    slices::{Slices, Stopped},
};

/// How long a card stays in the bin at least: a day.
const BIN_MS: i64 = 24 * 60 * 60 * 1000;

/// A card on the Shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct OnShelf {
    /// Its id.
    pub id: CardId,
    /// What is shown of it; none when its records are damaged.
    pub summary: Result<Summary, KeepError>,
    /// Whether it is only to be looked at.
    pub altered: bool,
}

impl OnShelf {
    /// Whether the engine's name, its fleet or its oil has that text in it, given in lower case.
    pub fn mentions(&self, lower: &str) -> bool {
        self.summary.as_ref().is_ok_and(|summary| {
            [
                &summary.name,
                &summary.fleet,
                &summary.oil,
                &summary.oil_grade,
            ]
            .iter()
            .any(|text| text.to_lowercase().contains(lower))
        })
    }
}

/// What opening a file came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Came {
    /// A card that was not here yet.
    New(CardId),
    /// A card that was here: so many entries came in.
    Merged(CardId, usize),
    /// A card whose digest does not match: only to be looked at.
    Altered(CardId),
}

/// Why a file did not come in. Nothing changed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NotTaken {
    /// It cannot be read.
    #[error(transparent)]
    File(#[from] file::FileError),
    /// It cannot be merged with the card that is here.
    #[error(transparent)]
    Merge(#[from] MergeError),
    /// The browser did not keep it.
    #[error(transparent)]
    Keep(#[from] KeepError),
    /// Somebody stopped it.
    #[error("stopped")]
    Stopped,
    /// An altered file of a card that is here is not mixed with it.
    #[error("the file was altered after it was written, and its card is on this tablet already")]
    AlteredKnown,
}

impl From<Stopped> for NotTaken {
    fn from(_by_hand: Stopped) -> Self {
        Self::Stopped
    }
}

/// What the Shelf is doing.
#[derive(Clone, Debug, PartialEq)]
pub enum ShelfState {
    /// Being read.
    Loading,
    /// Read.
    Ready,
    /// The browser keeps nothing for us, and why.
    Refused(KeepError),
}

/// A `Copy` handle on the Shelf.
#[derive(Clone, Copy)]
pub struct Shelf {
    cards: RwSignal<Vec<OnShelf>>,
    binned: RwSignal<Vec<OnShelf>>,
    state: RwSignal<ShelfState>,
    lost: RwSignal<Vec<Lost>>,
    cleared: RwSignal<Option<usize>>,
    store: CardStore,
}

/// Provides the Shelf to everything below.
pub fn provide_shelf(store: CardStore) -> Shelf {
    let shelf = Shelf {
        cards: RwSignal::new(Vec::new()),
        binned: RwSignal::new(Vec::new()),
        state: RwSignal::new(ShelfState::Loading),
        lost: RwSignal::new(Vec::new()),
        cleared: RwSignal::new(None),
        store,
    };
    provide_context(shelf);
    shelf
}

/// The Shelf.
pub fn use_shelf() -> Shelf {
    expect_context()
}

impl Shelf {
    /// The cards, the last changed first.
    pub fn cards(self) -> Vec<OnShelf> {
        self.cards.get()
    }

    /// The cards in the bin.
    pub fn binned(self) -> Vec<OnShelf> {
        self.binned.get()
    }

    /// The name of an engine on the Shelf or in the bin; empty where nobody gave it one.
    pub fn name(self, id: CardId) -> String {
        let name = |cards: &Vec<OnShelf>| {
            let card = cards.iter().find(|card| card.id == id)?;
            Some(card.summary.as_ref().ok()?.name.clone())
        };
        self.cards
            .with(name)
            .or_else(|| self.binned.with(name))
            .unwrap_or_default()
    }

    /// The cards as they are now, for a caller that is not to be woken.
    pub fn cards_now(self) -> Vec<OnShelf> {
        self.cards.get_untracked()
    }

    /// Whether it has been read, for a caller that is not to be woken.
    pub fn state_now(self) -> ShelfState {
        self.state.get_untracked()
    }

    /// Whether it has been read.
    pub fn state(self) -> ShelfState {
        self.state.get()
    }

    /// The cards of which nothing can be read.
    pub fn lost(self) -> Vec<Lost> {
        self.lost.get()
    }

    /// How many engines were here when the browser cleared its storage, until they are back or somebody
    /// goes on without them.
    pub fn cleared(self) -> Option<usize> {
        self.cleared.get()
    }

    /// Goes on without what the browser cleared.
    pub fn go_on(self) {
        self.cleared.set(None);
        let here = [self.cards, self.binned].map(|cards| cards.with_untracked(Vec::len));
        let lost = self.lost.with_untracked(Vec::len);
        self.store.prefs().set_engines(here[0] + here[1] + lost);
    }

    /// Remembers outside the database how many engines are in it: an empty one then tells whether they
    /// were deleted or the browser cleared it.
    fn count(self, here: usize) {
        let prefs = self.store.prefs();
        let known = prefs.engines();
        let missed = self.cleared.get_untracked();
        if here == 0 && known > 0 {
            self.cleared.set(Some(known));
        } else if missed.is_none_or(|missed| here >= missed) {
            self.cleared.set(None);
            prefs.set_engines(here);
        }
    }

    /// The engines with entries that are in no backup.
    pub fn behind(self) -> usize {
        let prefs = self.store.prefs();
        self.cards.with(|cards| {
            let behind = cards.iter().filter(|card| {
                let entries = card.summary.as_ref().map(|summary| summary.entries);
                entries.is_ok_and(|entries| !prefs.is_backed_up(card.id, entries))
            });
            behind.count()
        })
    }

    /// Remembers of these engines, as they are on the Shelf, that they are safe elsewhere.
    pub fn backed_up(self, which: impl Fn(CardId) -> bool) {
        let safe = self.cards.with_untracked(|cards| {
            let safe = cards.iter().filter(|card| which(card.id));
            safe.filter_map(|card| Some((card.id, card.summary.as_ref().ok()?.entries)))
                .collect()
        });
        self.store.prefs().set_backed_up(safe);
    }

    /// Says that the browser keeps nothing for us.
    pub fn refuse(self, why: KeepError) {
        self.state.set(ShelfState::Refused(why));
    }

    fn db(self) -> Result<Rc<Db>, KeepError> {
        self.store.db().ok_or(KeepError::Missing)
    }

    /// The files of the size sheets on this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when they cannot be read.
    pub async fn sheets(self) -> Result<Vec<String>, KeepError> {
        let sheets = self.db()?.sheets().await?;
        Ok(sheets.into_iter().map(|sheet| sheet.file).collect())
    }

    /// Keeps a size sheet that came in a file; whether it is new here.
    ///
    /// # Errors
    ///
    /// [`KeepError`]; then it is not kept.
    pub async fn take_sheet(self, sheet: &SizeSheet) -> Result<bool, KeepError> {
        self.db()?.add_sheet(sheet).await
    }

    /// Reads the Shelf anew. Summaries that are behind are worked out again.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not give the cards.
    pub async fn refresh(self) -> Result<(), KeepError> {
        let db = self.db()?;
        let (listed, lost) = db.list().await?;
        self.count(listed.len() + lost.len());
        let (mut cards, mut binned) = (Vec::new(), Vec::new());
        for listed in listed {
            let id = listed.stored.id;
            let summary = match listed.summary {
                Some(summary) => Ok(summary),
                None => work_out(&db, id).await,
            };
            let place = if listed.stored.deleted {
                &mut binned
            } else {
                &mut cards
            };
            place.push(OnShelf {
                id,
                summary,
                altered: listed.stored.altered,
            });
        }
        let cards = order::by_key(cards, last_changed_first);
        // Read anew for nothing new, it leaves alone what is open on the screen.
        if self.cards.with_untracked(|known| *known != cards) {
            self.cards.set(cards);
        }
        self.binned.set(binned);
        self.lost.set(lost);
        self.state.set(ShelfState::Ready);
        Ok(())
    }

    /// Puts a new card on the Shelf.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser did not keep it.
    pub async fn add(self, card: &Card) -> Result<(), KeepError> {
        let stored = record(card, false);
        self.db()?
            .keep_card(
                &stored,
                card,
                &summary_of(card),
                card.entries(),
                &mut Slices::default(),
            )
            .await?;
        tell(card.id());
        Ok(())
    }

    /// Takes a file in: a new card, or more entries of one that is here.
    ///
    /// # Errors
    ///
    /// [`NotTaken`]; then nothing changed.
    pub async fn take(self, bytes: &[u8]) -> Result<Came, NotTaken> {
        let mut slices = Slices::default();
        let mut opening = OpeningCard::new(bytes);
        let opened = slices.run(|bytes| opening.step(bytes)).await??;
        self.take_opened(opened, &mut slices).await
    }

    /// What a file that was read would bring to the card of it that is here; none where none is, or one that the
    /// file is to take the place of.
    ///
    /// # Errors
    ///
    /// [`NotTaken`] where the two cannot be merged.
    pub async fn coming(self, opened: &file::Opened) -> Result<Option<(Card, Coming)>, NotTaken> {
        match self.db()?.card(opened.card.id()).await {
            Ok(known)
                if !known.stored.deleted && !known.stored.altered && opened.digest_matches =>
            {
                let coming = Coming::of(&known.card, &opened.card)?;
                Ok(Some((known.card, coming)))
            }
            // What stands in the way is said where it is taken in.
            _ => Ok(None),
        }
    }

    /// Takes in a file that was read, as one out of a backup; see [`Shelf::take`].
    ///
    /// # Errors
    ///
    /// [`NotTaken`]; then nothing changed.
    pub async fn take_opened(
        self,
        opened: file::Opened,
        slices: &mut Slices,
    ) -> Result<Came, NotTaken> {
        let id = opened.card.id();
        let _alone = alone(id).await;
        let db = self.db()?;
        let came = take_alone(&db, opened, slices).await?;
        tell(id);
        if self.store.is_open(id) {
            self.store.close();
        }
        Ok(came)
    }

    /// The file of a card, and how many of its entries could not be read and are not in it. One that is
    /// only to be looked at stays so for whoever opens the file.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when it is not there or damaged.
    pub async fn file(self, id: CardId) -> Result<(String, usize), KeepError> {
        let read = self.db()?.card(id).await?;
        let mut writing = read.stored.writing(&read.card);
        let step = |bytes| writing.step(&read.card, bytes);
        let text = Slices::default().run(step).await?;
        Ok((text, read.unreadable))
    }

    /// How many engines have photos on this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not say.
    pub async fn with_photos(self) -> Result<usize, KeepError> {
        self.db()?.engines_with_photos().await
    }

    /// A card as it is kept, of every entry that can be read.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when it is not there or damaged.
    pub async fn card(self, id: CardId) -> Result<Card, KeepError> {
        Ok(self.db()?.card(id).await?.card)
    }

    /// What cannot be read of a card, as it stands in the storage; see [`Db::damaged`].
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not give it.
    pub async fn damaged(self, card: &str) -> Result<String, KeepError> {
        self.db()?.damaged(card).await
    }

    /// Puts a card into the bin, or takes it out again.
    ///
    /// # Errors
    ///
    /// [`KeepError`]; then it is where it was.
    pub async fn set_deleted(self, id: CardId, deleted: bool) -> Result<(), KeepError> {
        let db = self.db()?;
        let _alone = alone(id).await;
        let mut stored = db.stored(id).await?;
        stored.deleted = deleted;
        stored.binned_ms = platform::now().as_millisecond();
        db.keep_stored(&stored).await?;
        tell(id);
        if self.store.is_open(id) {
            self.store.close();
        }
        self.refresh().await
    }

    /// Takes off the tablet what has been in the bin for more than a day: another tab may just have put
    /// something there, and so may a tab that was killed.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser refused.
    pub async fn empty_bin(self) -> Result<(), KeepError> {
        let (db, prefs) = (self.db()?, self.store.prefs());
        let binned: Vec<CardId> = self
            .binned
            .with_untracked(|binned| binned.iter().map(|card| card.id).collect());
        let mut gone = false;
        for id in binned {
            let _alone = alone(id).await;
            // Looked at anew: another tab may have taken it out meanwhile.
            let stored = db.stored(id).await?;
            let age = platform::now().as_millisecond() - stored.binned_ms;
            if stored.deleted && age > BIN_MS {
                db.remove(id).await?;
                prefs.set_engines(prefs.engines().saturating_sub(1));
                tell(id);
                gone = true;
            }
        }
        if gone { self.refresh().await } else { Ok(()) }
    }
}

/// Takes in a file while no other tab writes on its card.
async fn take_alone(db: &Db, opened: file::Opened, slices: &mut Slices) -> Result<Came, NotTaken> {
    let id = opened.card.id();
    match db.card(id).await {
        Ok(known) if !known.stored.deleted && !known.stored.altered => {
            if !opened.digest_matches {
                return Err(NotTaken::AlteredKnown);
            }
            slices.turn().await?;
            let merged = known.card.merge(&opened.card)?;
            slices.turn().await?;
            let new: Vec<Entry> = merged
                .entries()
                .filter(|entry| known.card.entry(entry.id).is_none())
                .cloned()
                .collect();
            slices.turn().await?;
            let summary = summary_of(&merged);
            db.keep_card(&known.stored, &merged, &summary, new.iter(), slices)
                .await?;
            Ok(Came::Merged(id, new.len()))
        }
        // In the bin, or only to be looked at: the file takes its place.
        Ok(_) | Err(KeepError::Missing) => {
            let (stored, card) = (stored(&opened), &opened.card);
            slices.turn().await?;
            let summary = summary_of(card);
            slices.turn().await?;
            db.replace_card(&stored, card, &summary, slices).await?;
            Ok(if stored.altered {
                Came::Altered(id)
            } else {
                Came::New(id)
            })
        }
        Err(KeepError::File(_) | KeepError::Damaged) if opened.digest_matches => {
            mend(db, &opened, slices).await
        }
        Err(error) => Err(error.into()),
    }
}

/// Writes a sound file over a card whose record here is damaged; its other entries stay.
async fn mend(db: &Db, sound: &file::Opened, slices: &mut Slices) -> Result<Came, NotTaken> {
    let (id, card) = (sound.card.id(), &sound.card);
    let summary = summary_of(card);
    db.keep_card(&stored(sound), card, &summary, card.entries(), slices)
        .await?;
    // What is kept beside it may be behind; the Shelf works it out anew then.
    let _summary = work_out(db, id).await;
    Ok(Came::Merged(id, card.len()))
}

/// The record of a card that came in.
fn stored(opened: &file::Opened) -> StoredCard {
    record(&opened.card, !opened.digest_matches)
}

fn record(card: &Card, altered: bool) -> StoredCard {
    StoredCard {
        id: card.id(),
        deleted: false,
        binned_ms: 0,
        altered,
    }
}

/// The order of the Shelf.
fn last_changed_first(card: &OnShelf) -> (Reverse<Option<i64>>, CardId) {
    let summary = card.summary.as_ref().ok();
    let changed = summary.and_then(|summary| summary.changed_ms);
    (Reverse(changed.or_else(|| born_ms(card.id))), card.id)
}

/// When a card was made, milliseconds since 1970: the first 48 bits of a UUID version 7 (RFC 9562).
fn born_ms(id: CardId) -> Option<i64> {
    let id = id.to_string();
    let hex: String = id.chars().filter(|c| *c != '-').take(12).collect();
    i64::from_str_radix(&hex, 16).ok()
}

fn summary_of(card: &Card) -> Summary {
    let standing = card.standing();
    let tree = Tree::of(card.plan());
    let result = assess(&standing, &tree);
    Summary::of(card, &standing, &tree, &result)
}

async fn work_out(db: &Db, id: CardId) -> Result<Summary, KeepError> {
    let read = db.card(id).await?;
    let summary = Summary {
        unreadable: read.unreadable,
        ..summary_of(&read.card)
    };
    // Only a help for the next time: the Shelf works it out again where this fails.
    let _kept = db.keep_summary(id, &summary).await;
    Ok(summary)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_card_knows_when_it_was_made() {
        assert_eq!(
            born_ms(CardId::v7(1_795_522_927_000, [3; 10])),
            Some(1_795_522_927_000)
        );
    }
}
