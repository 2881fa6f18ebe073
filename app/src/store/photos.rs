//! Photos on their way onto the card: a `Copy` handle, one for the whole app, so that a photo under way is kept whatever
//! screen is shown meanwhile.

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{Body, EntryId, Taken, entry::About, photo::Mark};
use ringland_report::words::{UNDONE, Words};
use web_sys::File;

use super::{
    CardStore,
    open::{Refused, refusal},
    prefs::use_words,
};
use crate::{
    app::announce,
    persist::{
        KeepError,
        camera::{Shot, ShotError, shoot},
        photos::Kept,
    },
};

/// Why a photo was not kept.
#[derive(Clone, Debug, PartialEq)]
pub enum PhotoRefused {
    /// It is no picture that is kept.
    Shot(ShotError),
    /// It could not be kept.
    Refused(Refused),
}

/// The photos under way.
#[derive(Clone, Copy)]
pub struct Photos {
    store: CardStore,
    /// What was done to the part before the next photos.
    pub taken: RwSignal<Taken>,
    /// Whether the next photos are kept in full size.
    pub full_size: RwSignal<bool>,
    /// Which is being kept, and of how many.
    under_way: RwSignal<Option<(usize, usize)>>,
    /// How many of the last ones were kept.
    kept: RwSignal<usize>,
    /// Those of the last ones that were not kept: the file, and why.
    refused: RwSignal<Vec<(String, PhotoRefused)>>,
}

/// Makes it, for the whole app.
pub fn provide_photos(store: CardStore) {
    provide_context(Photos {
        store,
        taken: RwSignal::new(Taken::AsFound),
        full_size: RwSignal::new(false),
        under_way: RwSignal::new(None),
        kept: RwSignal::new(0),
        refused: RwSignal::new(Vec::new()),
    });
}

/// The photos under way.
pub fn use_photos() -> Photos {
    expect_context()
}

impl Photos {
    /// Which is being kept, and of how many.
    pub fn under_way(self) -> Option<(usize, usize)> {
        self.under_way.get()
    }

    /// How many of the last ones were kept, and those that were not.
    pub fn outcome(self) -> (usize, Vec<(String, PhotoRefused)>) {
        (self.kept.get(), self.refused.get())
    }

    /// Forgets what came of the last ones, as where another position is looked at.
    pub fn forget(self) {
        if self.under_way.get_untracked().is_none() {
            self.kept.set(0);
            self.refused.set(Vec::new());
        }
    }

    /// Keeps pictures as photos of a position, or of the engine, on the card that is open, one after the other.
    pub fn keep(self, files: Vec<File>, about: Option<About>) {
        if files.is_empty() || self.under_way.get_untracked().is_some() {
            return;
        }
        self.forget();
        let all = files.len();
        self.under_way.set(Some((1, all)));
        spawn_local(async move {
            for file in files {
                let name = file.name();
                match self.shoot(&file).await {
                    Ok(shot) => {
                        let photo = Box::new(shot.photo);
                        let about = about.clone();
                        let settle = move |kept: Result<(), Refused>| {
                            self.settle(name, kept.map_err(PhotoRefused::Refused), all);
                        };
                        self.put(Body::Photo { about, photo }, settle);
                    }
                    Err(why) => self.settle(name, Err(why), all),
                }
            }
        });
    }

    /// Makes a photo of a picture, and has its bytes on disk before its entry is made.
    async fn shoot(self, file: &File) -> Result<Shot, PhotoRefused> {
        let refused = PhotoRefused::Refused;
        let card = self.store.peek(|open| open.card.id());
        let card = card.ok_or(refused(Refused::NoCard))?;
        self.store.may_write().map_err(refused)?;
        let (taken, full_size) = (self.taken.get_untracked(), self.full_size.get_untracked());
        let shot = shoot(file, full_size, taken).await;
        let shot = shot.map_err(PhotoRefused::Shot)?;
        let kept = async {
            let db = self.store.db().ok_or(KeepError::Closed)?;
            let digest = shot.photo.digest;
            db.keep_photo(Kept::Photo, card, digest, &shot.bytes)
                .await?;
            db.keep_photo(Kept::Thumb, card, digest, &shot.thumb).await
        };
        kept.await.map_err(|why| refused(why.into()))?;
        // Another card may have been opened while the picture was drawn.
        if self.store.is_open(card) {
            Ok(shot)
        } else {
            Err(refused(Refused::NoCard))
        }
    }

    /// What came of one of so many; after the last it is said.
    fn settle(self, file: String, came: Result<(), PhotoRefused>, all: usize) {
        match came {
            Ok(()) => self.kept.update(|kept| *kept += 1),
            Err(why) => self.refused.update(|refused| refused.push((file, why))),
        }
        let done = self.kept.get_untracked() + self.refused.with_untracked(Vec::len);
        self.under_way.set((done < all).then_some((done + 1, all)));
        if done == all {
            announce(&self.said(use_words()).join(". "));
        }
    }

    /// Keeps a mark on a photo; `then` hears what came of it.
    pub fn mark(self, on: EntryId, mark: Mark, then: impl FnOnce(Result<(), Refused>) + 'static) {
        self.put(Body::Mark { on, mark }, then);
    }

    /// Takes a photo or a mark out of account; `then` hears what came of it.
    pub fn take_out(self, entry: EntryId, then: impl FnOnce(Result<(), Refused>) + 'static) {
        let reason = UNDONE.to_owned();
        self.put(Body::Void { entry, reason }, then);
    }

    /// Keeps an entry after what was asked for before.
    fn put(self, body: Body, then: impl FnOnce(Result<(), Refused>) + 'static) {
        let store = self.store;
        store.after(move || async move { then(store.keep(vec![body.into()]).await) });
    }

    /// Why something was not kept.
    pub fn refusal(self, words: &Words, why: &Refused) -> String {
        let said = self
            .store
            .peek(|open| refusal(words, open.card.plan(), why));
        said.unwrap_or_else(|| words.common.cannot_open.to_owned())
    }

    /// What came of the last ones, a line each.
    pub fn said(self, words: &Words) -> Vec<String> {
        let (kept, refused) = (self.kept.get_untracked(), self.refused.get_untracked());
        let mut said = Vec::new();
        if kept > 0 {
            said.push(words.photos.kept(kept));
        }
        said.extend(refused.iter().map(|(file, why)| {
            let why = match why {
                PhotoRefused::Shot(ShotError::Unread) => words.photos.no_picture.to_owned(),
                PhotoRefused::Shot(ShotError::Picture(why)) => words.picture_refused(why),
                PhotoRefused::Refused(why) => self.refusal(words, why),
            };
            words.photos.not_kept(file, &why)
        }));
        said
    }
}
