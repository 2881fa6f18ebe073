//! The engines on this tablet.

use std::rc::Rc;

use leptos::prelude::*;
use ringland_assess::{Tree, assess};
use ringland_card::{Card, CardId, Entry, MergeError, file};

use super::{open::CardStore, summary::Summary};
use crate::persist::{Db, KeepError, StoredCard};

/// A card on the Shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct OnShelf {
    /// Its id.
    pub id: CardId,
    /// What is shown of it; none when its records are damaged.
    pub summary: Result<Summary, String>,
    /// Whether it is only to be looked at.
    pub altered: bool,
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
    /// An altered file of a card that is here is not mixed with it.
    #[error("the file was altered after it was written, and its card is on this tablet already")]
    AlteredKnown,
}

/// What the Shelf is doing.
#[derive(Clone, Debug, PartialEq)]
pub enum ShelfState {
    /// Being read.
    Loading,
    /// Read.
    Ready,
    /// The browser keeps nothing for us, and why.
    Refused(String),
}

/// A `Copy` handle on the Shelf.
#[derive(Clone, Copy)]
pub struct Shelf {
    cards: RwSignal<Vec<OnShelf>>,
    state: RwSignal<ShelfState>,
    damaged: RwSignal<usize>,
    store: CardStore,
}

/// Provides the Shelf to everything below.
pub fn provide_shelf(store: CardStore) -> Shelf {
    let shelf = Shelf {
        cards: RwSignal::new(Vec::new()),
        state: RwSignal::new(ShelfState::Loading),
        damaged: RwSignal::new(0),
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

    /// Whether it has been read.
    pub fn state(self) -> ShelfState {
        self.state.get()
    }

    /// Records that could not be read.
    pub fn damaged(self) -> usize {
        self.damaged.get()
    }

    /// Says that the browser keeps nothing for us.
    pub fn refuse(self, why: &KeepError) {
        self.state.set(ShelfState::Refused(why.to_string()));
    }

    fn db(self) -> Result<Rc<Db>, KeepError> {
        self.store.db().ok_or(KeepError::Missing)
    }

    /// Reads the Shelf anew. Summaries that are behind are worked out again.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not give the cards.
    pub async fn refresh(self) -> Result<(), KeepError> {
        let db = self.db()?;
        let (listed, damaged) = db.list().await?;
        let mut cards = Vec::new();
        for listed in listed.into_iter().filter(|listed| !listed.stored.deleted) {
            let id = listed.stored.id;
            let summary = match listed.summary {
                Some(summary) => Ok(summary),
                None => work_out(&db, id).await.map_err(|error| error.to_string()),
            };
            cards.push(OnShelf { id, summary, altered: listed.stored.altered });
        }
        cards.sort_by_key(|card| {
            let changed = card.summary.as_ref().ok().and_then(|summary| summary.changed_ms);
            (std::cmp::Reverse(changed), card.id)
        });
        self.cards.set(cards);
        self.damaged.set(damaged);
        self.state.set(ShelfState::Ready);
        Ok(())
    }

    /// Puts a new card on the Shelf.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser did not keep it.
    pub async fn add(self, card: &Card) -> Result<(), KeepError> {
        self.put(card, false).await
    }

    async fn put(self, card: &Card, altered: bool) -> Result<(), KeepError> {
        let stored =
            StoredCard { id: card.id(), head: file::write_head(card), deleted: false, altered };
        self.db()?.keep_card(&stored, &summary_of(card), card.entries()).await
    }

    /// Takes a file in: a new card, or more entries of one that is here.
    ///
    /// # Errors
    ///
    /// [`NotTaken`]; then nothing changed.
    pub async fn take(self, bytes: &[u8]) -> Result<Came, NotTaken> {
        let opened = file::read(bytes)?;
        let id = opened.card.id();
        let db = self.db()?;
        match db.card(id).await {
            Ok((stored, known)) if !stored.deleted && !stored.altered => {
                if !opened.digest_matches {
                    return Err(NotTaken::AlteredKnown);
                }
                let merged = known.merge(&opened.card)?;
                let new: Vec<Entry> = merged
                    .entries()
                    .filter(|entry| known.entry(entry.id).is_none())
                    .cloned()
                    .collect();
                db.keep_card(&stored, &summary_of(&merged), new.iter()).await?;
                if self.store.is_open(id) {
                    self.store.close();
                }
                Ok(Came::Merged(id, new.len()))
            }
            Ok(_) | Err(KeepError::Missing) => {
                db.remove(id).await?;
                self.put(&opened.card, !opened.digest_matches).await?;
                Ok(if opened.digest_matches { Came::New(id) } else { Came::Altered(id) })
            }
            Err(error) => Err(error.into()),
        }
    }

    /// The file of a card.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when it is not there or damaged.
    pub async fn file(self, id: CardId) -> Result<String, KeepError> {
        let (_, card) = self.db()?.card(id).await?;
        Ok(file::write(&card))
    }

    /// The files of all cards.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when one is damaged.
    pub async fn files(self) -> Result<Vec<(CardId, String)>, KeepError> {
        let mut files = Vec::new();
        for card in self.cards.get_untracked() {
            files.push((card.id, self.file(card.id).await?));
        }
        Ok(files)
    }

    /// Puts a card into the bin, or takes it out again.
    ///
    /// # Errors
    ///
    /// [`KeepError`]; then it is where it was.
    pub async fn set_deleted(self, id: CardId, deleted: bool) -> Result<(), KeepError> {
        let db = self.db()?;
        let (mut stored, _) = db.card(id).await?;
        stored.deleted = deleted;
        db.keep_stored(&stored).await?;
        if self.store.is_open(id) {
            self.store.close();
        }
        self.refresh().await
    }

    /// Empties the bin.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser refused.
    pub async fn empty_bin(self) -> Result<(), KeepError> {
        let db = self.db()?;
        let (listed, _) = db.list().await?;
        for listed in listed.into_iter().filter(|listed| listed.stored.deleted) {
            db.remove(listed.stored.id).await?;
        }
        Ok(())
    }
}

fn summary_of(card: &Card) -> Summary {
    let standing = card.standing();
    let tree = Tree::of(card.plan());
    let result = assess(&standing, &tree);
    Summary::of(card, &standing, &tree, &result)
}

async fn work_out(db: &Db, id: CardId) -> Result<Summary, KeepError> {
    let (_, card) = db.card(id).await?;
    let summary = summary_of(&card);
    // Only a help for the next time: the Shelf works it out again where this fails.
    let _kept = db.keep_summary(id, &summary).await;
    Ok(summary)
}
