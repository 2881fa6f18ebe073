//! Pictures of photos out of the storage, as addresses that the page shows.

use std::{
    cell::RefCell,
    collections::{BTreeMap, VecDeque},
    rc::Rc,
};

use js_sys::{Array, Uint8Array};
use leptos::{prelude::*, task::spawn_local};
use ringland_card::{CardId, Photo, PhotoDigest, photo::PictureKind};
use ringland_report::words::Words;
use wasm_bindgen::JsValue;
use web_sys::{Blob, BlobPropertyBag, Url};

use super::live::live;
use crate::{
    persist::{Db, KeepError, camera::thumb_of, photos::Kept},
    store::{prefs::use_words, use_card},
};

/// How many are fetched at once: while the browser decodes one, another's bytes come from the disk.
const AT_ONCE: usize = 4;

/// What there is to show of a photo.
#[derive(Clone, Debug, PartialEq)]
enum Found {
    /// It is being fetched.
    Coming,
    /// The address of its picture.
    At(String),
    /// Its bytes are not on this tablet.
    Gone,
}

/// The pictures that a part of the page shows: a `Copy` handle. They are let go with that part.
#[derive(Clone, Copy)]
pub struct Pictures {
    card: Option<CardId>,
    kept: Kept,
    found: RwSignal<BTreeMap<PhotoDigest, Found>>,
}

impl Pictures {
    /// The small pictures of the open card's photos.
    pub fn small() -> Self {
        Self::of(Kept::Thumb)
    }

    /// The photos themselves.
    pub fn whole() -> Self {
        Self::of(Kept::Photo)
    }

    fn of(kept: Kept) -> Self {
        let found = RwSignal::new(BTreeMap::<PhotoDigest, Found>::new());
        on_cleanup(move || {
            found.with_untracked(|found| {
                for at in found.values() {
                    if let Found::At(url) = at {
                        // An address that is let go twice is no harm.
                        let _gone = Url::revoke_object_url(url);
                    }
                }
            });
        });
        Self {
            card: use_card().peek(|open| open.card.id()),
            kept,
            found,
        }
    }

    fn at(self, photo: PhotoDigest) -> Found {
        self.found
            .with(|found| found.get(&photo).cloned())
            .unwrap_or(Found::Coming)
    }

    /// Fetches those that are not here yet, a few at a time, so that the first are shown while the rest come.
    pub fn fetch(self, photos: Vec<Photo>) {
        let (Some(card), Some(db)) = (self.card, use_card().db()) else {
            return;
        };
        let new: Vec<Photo> = self
            .found
            .try_update(|found| {
                let new = photos.into_iter().filter(|photo| {
                    // Named twice, it is fetched once.
                    found.insert(photo.digest, Found::Coming).is_none()
                });
                new.collect()
            })
            .unwrap_or_default();
        let left = Rc::new(RefCell::new(VecDeque::from(new)));
        for _ in 0..AT_ONCE {
            let (left, db) = (Rc::clone(&left), Rc::clone(&db));
            spawn_local(async move {
                loop {
                    let next = left.borrow_mut().pop_front();
                    let Some(photo) = next else { return };
                    if !self.fetch_one(&db, card, &photo).await {
                        return;
                    }
                }
            });
        }
    }

    /// Fetches one; whether anybody still looks.
    async fn fetch_one(self, db: &Rc<Db>, card: CardId, photo: &Photo) -> bool {
        let bytes = self.bytes(db, card, photo).await;
        let at = bytes
            .ok()
            .flatten()
            .and_then(|bytes| address(&bytes, self.kind(photo)).ok());
        let at = at.map_or(Found::Gone, Found::At);
        let told = self
            .found
            .try_update(|found| found.insert(photo.digest, at.clone()));
        if told.is_none() {
            // The page was left meanwhile.
            if let Found::At(url) = at {
                let _gone = Url::revoke_object_url(&url);
            }
        }
        told.is_some()
    }

    /// Small pictures are JPEGs whatever the photo is.
    fn kind(self, photo: &Photo) -> PictureKind {
        match self.kept {
            Kept::Photo => photo.picture.kind,
            Kept::Thumb => PictureKind::Jpeg,
        }
    }

    async fn bytes(
        self,
        db: &Rc<Db>,
        card: CardId,
        photo: &Photo,
    ) -> Result<Option<Uint8Array>, KeepError> {
        if let Some(bytes) = db.photo(self.kept, card, photo.digest).await? {
            return Ok(Some(bytes));
        }
        // One that came in a file has no small picture until somebody looks.
        let Some(whole) = db.photo(Kept::Photo, card, photo.digest).await? else {
            return Ok(None);
        };
        let Ok(thumb) = thumb_of(&whole, &photo.picture).await else {
            return Ok(None);
        };
        // Made anew next time where the disk is full.
        let _kept = db.keep_photo(Kept::Thumb, card, photo.digest, &thumb).await;
        Ok(Some(thumb))
    }

    /// A photo's picture, in its shape while it comes; words where it is not here.
    pub fn show(self, photo: &Photo, alt: String) -> AnyView {
        let (digest, words) = (photo.digest, use_words());
        let [width, height] =
            [photo.picture.width, photo.picture.height].map(|side| side.to_string());
        live(move || match self.at(digest) {
            Found::At(url) => view! {
                <img src=url alt=alt.clone() width=width.clone() height=height.clone() decoding="async"/>
            }
            .into_any(),
            Found::Coming => blank(&width, &height).into_any(),
            Found::Gone => gone(words, &alt).into_any(),
        })
        .into_any()
    }
}

/// Keeps the place of a picture that is being fetched.
fn blank(width: &str, height: &str) -> impl IntoView + use<> {
    let shape = format!("0 0 {width} {height}");
    view! { <svg class="photo__blank" viewBox=shape aria-hidden="true"></svg> }
}

fn gone(words: &'static Words, alt: &str) -> impl IntoView + use<> {
    let alt = alt.to_owned();
    view! { <span class="photo__gone"><b>{alt}</b>" "{words.photos.gone}</span> }
}

/// An address for bytes, to be let go when nobody shows them any more.
fn address(bytes: &Uint8Array, kind: PictureKind) -> Result<String, JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind.media_type());
    let blob = Blob::new_with_u8_array_sequence_and_options(&Array::of1(bytes), &options)?;
    Url::create_object_url_with_blob(&blob)
}
