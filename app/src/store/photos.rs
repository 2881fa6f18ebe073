//! Photos on their way onto the card: a `Copy` handle, one for the whole app, so that a photo under way is kept whatever
//! screen is shown meanwhile.

use std::collections::VecDeque;

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{Body, CardId, EntryId, Taken, entry::About, photo::Mark};
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

/// A picture that waits for those before it: a second one is taken before the first is on the disk.
#[derive(Clone)]
struct Waiting {
    card: CardId,
    file: File,
    about: Option<About>,
    taken: Taken,
    full_size: bool,
}

/// The photos under way.
#[derive(Clone, Copy)]
pub struct Photos {
    store: CardStore,
    /// What was done to the part before the next photos.
    pub taken: RwSignal<Taken>,
    /// Whether the next photos are kept in full size.
    pub full_size: RwSignal<bool>,
    waiting: StoredValue<VecDeque<Waiting>, LocalStorage>,
    /// Whether they are being seen to.
    running: StoredValue<bool>,
    /// How many pictures were given since nothing was under way.
    given: RwSignal<usize>,
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
        waiting: StoredValue::new_local(VecDeque::new()),
        running: StoredValue::new(false),
        given: RwSignal::new(0),
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
        let (done, given) = (self.done(), self.given.get());
        (done < given).then_some((done + 1, given))
    }

    /// How many of those given were kept or refused.
    fn done(self) -> usize {
        self.kept.get() + self.refused.with(Vec::len)
    }

    /// How many of the last ones were kept, and those that were not.
    pub fn outcome(self) -> (usize, Vec<(String, PhotoRefused)>) {
        (self.kept.get(), self.refused.get())
    }

    /// Forgets what came of the last ones, as where another position is looked at.
    pub fn forget(self) {
        if untrack(move || self.under_way()).is_none() {
            self.given.set(0);
            self.kept.set(0);
            self.refused.set(Vec::new());
        }
    }

    /// Keeps pictures as photos of a position, or of the engine, on the card that is open now, one after the other and
    /// after those that are under way.
    pub fn keep(self, files: Vec<File>, about: Option<About>) {
        let Some(card) = self.store.peek(|open| open.card.id()) else {
            return;
        };
        self.forget();
        self.given.update(|given| *given += files.len());
        let new = files.into_iter().map(|file| Waiting {
            card,
            file,
            about: about.clone(),
            taken: self.taken.get_untracked(),
            full_size: self.full_size.get_untracked(),
        });
        self.waiting.update_value(|waiting| waiting.extend(new));
        if !self.running.get_value() {
            self.running.set_value(true);
            spawn_local(self.keep_all());
        }
    }

    async fn keep_all(self) {
        while let Some(next) = self.waiting.try_update_value(VecDeque::pop_front).flatten() {
            let name = next.file.name();
            match self.shoot(&next).await {
                Ok(shot) => {
                    let (about, photo) = (next.about, Box::new(shot.photo));
                    self.put(Body::Photo { about, photo }, move |kept| {
                        self.settle(name, kept.map_err(PhotoRefused::Refused));
                    });
                }
                Err(why) => self.settle(name, Err(why)),
            }
        }
        self.running.set_value(false);
    }

    /// Makes a photo of a picture, and has its bytes on disk before its entry is made.
    async fn shoot(self, next: &Waiting) -> Result<Shot, PhotoRefused> {
        let refused = PhotoRefused::Refused;
        self.is_still_open(next.card)?;
        self.store.may_write().map_err(refused)?;
        let shot = shoot(&next.file, next.full_size, next.taken).await;
        let shot = shot.map_err(PhotoRefused::Shot)?;
        let kept = async {
            let db = self.store.db().ok_or(KeepError::Closed)?;
            let (card, digest) = (next.card, shot.photo.digest);
            db.keep_photo(Kept::Photo, card, digest, &shot.bytes)
                .await?;
            db.keep_photo(Kept::Thumb, card, digest, &shot.thumb).await
        };
        kept.await.map_err(|why| refused(why.into()))?;
        self.is_still_open(next.card)?;
        Ok(shot)
    }

    /// A photo is of the card that was open when it was given, whatever is opened before it is kept.
    fn is_still_open(self, card: CardId) -> Result<(), PhotoRefused> {
        if self.store.is_open(card) {
            Ok(())
        } else {
            Err(PhotoRefused::Refused(Refused::NoCard))
        }
    }

    /// What came of one; after the last it is said.
    fn settle(self, file: String, came: Result<(), PhotoRefused>) {
        match came {
            Ok(()) => self.kept.update(|kept| *kept += 1),
            Err(why) => self.refused.update(|refused| refused.push((file, why))),
        }
        if untrack(move || self.under_way()).is_none() {
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
