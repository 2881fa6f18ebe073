//! The bytes of photos, beside the cards that name them, and small pictures of them for the wall.

use std::collections::BTreeSet;

use idb::{KeyRange, Query, Transaction, TransactionMode};
use js_sys::{Array, Uint8Array};
use ringland_card::{CardId, PhotoDigest};
use wasm_bindgen::{JsCast, JsValue};

use super::{
    Db, KeepError,
    db::{PHOTOS, THUMBS, complete},
};

/// What is kept of a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// Its bytes, as the card names them.
    Photo,
    /// A small picture of it, made on this tablet.
    Thumb,
}

impl Kept {
    fn store(self) -> &'static str {
        match self {
            Self::Photo => PHOTOS,
            Self::Thumb => THUMBS,
        }
    }
}

impl Db {
    /// Keeps the bytes of a photo, or a small picture of it. What its entry names is on disk before the entry is: a
    /// tablet that dies in between has bytes that nobody asks for, and no entry without its photo.
    ///
    /// # Errors
    ///
    /// [`KeepError`]; then nothing was kept.
    pub async fn keep_photo(
        &self,
        kept: Kept,
        card: CardId,
        photo: PhotoDigest,
        bytes: &Uint8Array,
    ) -> Result<(), KeepError> {
        let transaction = match kept {
            Kept::Photo => self.write(&[PHOTOS])?,
            // What is lost of it is made anew: no disk need be waited for.
            Kept::Thumb => self
                .database
                .transaction(&[THUMBS], TransactionMode::ReadWrite)?,
        };
        let store = transaction.object_store(kept.store())?;
        let put = store.put(bytes, Some(&key(card, photo)))?;
        // A full disk shows where the transaction ends.
        let _asked = put.await;
        complete(transaction).await
    }

    /// The bytes of a photo, or its small picture; none where they are not on this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not give them.
    pub async fn photo(
        &self,
        kept: Kept,
        card: CardId,
        photo: PhotoDigest,
    ) -> Result<Option<Uint8Array>, KeepError> {
        let transaction = self
            .database
            .transaction(&[kept.store()], TransactionMode::ReadOnly)?;
        let store = transaction.object_store(kept.store())?;
        let found = store.get(Query::Key(key(card, photo)))?.await?;
        Ok(found.and_then(|found| found.dyn_into().ok()))
    }

    /// The photos of a card whose bytes are on this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not say.
    pub async fn photos_of(&self, card: CardId) -> Result<BTreeSet<PhotoDigest>, KeepError> {
        let transaction = self
            .database
            .transaction(&[PHOTOS], TransactionMode::ReadOnly)?;
        let store = transaction.object_store(PHOTOS)?;
        let keys = store.get_all_keys(Some(Query::KeyRange(all_of(card)?)), None)?;
        let digest = |key: JsValue| {
            let text = key.dyn_into::<Array>().ok()?.get(1).as_string()?;
            PhotoDigest::parse(&text)
        };
        Ok(keys.await?.into_iter().filter_map(digest).collect())
    }

    /// How many engines have photos on this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when the browser does not say.
    pub async fn engines_with_photos(&self) -> Result<usize, KeepError> {
        let transaction = self
            .database
            .transaction(&[PHOTOS], TransactionMode::ReadOnly)?;
        let keys = transaction.object_store(PHOTOS)?.get_all_keys(None, None)?;
        let card = |key: JsValue| key.dyn_into::<Array>().ok()?.get(0).as_string();
        let cards: BTreeSet<String> = keys.await?.into_iter().filter_map(card).collect();
        Ok(cards.len())
    }
}

/// Takes the photos of a card off the tablet.
pub(super) async fn clear_photos(transaction: &Transaction, card: CardId) -> Result<(), KeepError> {
    for store in [PHOTOS, THUMBS] {
        let all = Query::KeyRange(all_of(card)?);
        transaction.object_store(store)?.delete(all)?.await?;
    }
    Ok(())
}

fn key(card: CardId, photo: PhotoDigest) -> JsValue {
    Array::of2(&card.to_string().into(), &photo.to_string().into()).into()
}

/// The keys of all photos of a card.
fn all_of(card: CardId) -> Result<KeyRange, KeepError> {
    let card = JsValue::from_str(&card.to_string());
    // Digests are figures and letters: every one of them lies between these.
    let [from, to] = ["", "\u{ffff}"].map(|end| Array::of2(&card, &end.into()));
    Ok(KeyRange::bound(&from, &to, None, None)?)
}
