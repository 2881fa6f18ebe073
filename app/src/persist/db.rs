//! The database of cards and entries, and of plans of one's own.

use idb::{
    Database, DatabaseEvent, Factory, IndexParams, KeyPath, ObjectStoreParams, Query, Transaction,
    TransactionMode,
};
use ringland_card::{Card, CardId, Entry, file};
use serde::{Deserialize, Serialize, de::DeserializeOwned};
use wasm_bindgen::JsValue;

use crate::store::summary::Summary;

/// The name starts with the project's own: `file://` pages share one store in some browsers.
const NAME: &str = "ringland";
/// Counts how the stores are laid out; 2 added the plans.
const VERSION: u32 = 2;
const CARDS: &str = "cards";
const SUMMARIES: &str = "summaries";
const ENTRIES: &str = "entries";
const BY_CARD: &str = "by_card";
pub(super) const PLANS: &str = "plans";

/// Why something could not be kept or fetched.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum KeepError {
    /// The browser refused: full disk, private window, damaged store.
    #[error("{0}")]
    Browser(String),
    /// What was stored cannot be read any more.
    #[error(transparent)]
    File(#[from] file::FileError),
    /// There is no such card here.
    #[error("this card is not on this tablet")]
    Missing,
}

impl From<idb::Error> for KeepError {
    fn from(error: idb::Error) -> Self {
        Self::Browser(error.to_string())
    }
}

impl From<JsValue> for KeepError {
    fn from(error: JsValue) -> Self {
        Self::Browser(format!("{error:?}"))
    }
}

/// A card without its entries.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoredCard {
    /// The card's id.
    pub id: CardId,
    /// The file without its entries.
    pub head: String,
    /// Whether it is in the bin.
    pub deleted: bool,
    /// Whether it came from a file whose digest does not match: to be looked at, not written on.
    pub altered: bool,
}

/// A card as the Shelf lists it.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// The card without its entries.
    pub stored: StoredCard,
    /// What the Shelf shows of it; none where it was never written, or is out of date.
    pub summary: Option<Summary>,
}

/// An open database.
#[derive(Debug)]
pub struct Db(pub(super) Database);

impl Db {
    /// Opens it, made anew where there is none.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser keeps nothing, as in some private windows.
    pub async fn open() -> Result<Self, KeepError> {
        let mut request = Factory::new()?.open(NAME, Some(VERSION))?;
        request.on_upgrade_needed(|event| {
            // An upgrade that fails makes the open fail, which is reported below.
            let before = event.old_version().unwrap_or(0);
            let _made = event
                .database()
                .map(|database| make_stores(&database, before));
        });
        let mut database = request.await?;
        // A newer version in another tab may go on; what this one then keeps is refused, and said so.
        database.on_version_change(|event| {
            let _closed = event.database().map(|database| database.close());
        });
        Ok(Self(database))
    }

    /// All cards with what the Shelf shows of them, and how many records could not be read.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser does not give them.
    pub async fn list(&self) -> Result<(Vec<Listed>, usize), KeepError> {
        let transaction = self
            .0
            .transaction(&[CARDS, SUMMARIES, ENTRIES], TransactionMode::ReadOnly)?;
        let values = transaction
            .object_store(CARDS)?
            .get_all(None, None)?
            .await?;
        let (mut cards, mut damaged) = (Vec::new(), 0);
        for value in values {
            let Some(stored) = from_text::<StoredCard>(&value) else {
                damaged += 1;
                continue;
            };
            let key = key(stored.id);
            let count = transaction
                .object_store(ENTRIES)?
                .index(BY_CARD)?
                .count(Some(Query::Key(key.clone())))?
                .await?;
            let summary = record(&transaction, SUMMARIES, key).await?;
            let summary = summary
                .as_ref()
                .and_then(from_text::<Summary>)
                .filter(|summary| usize::try_from(count) == Ok(summary.entries));
            cards.push(Listed { stored, summary });
        }
        Ok((cards, damaged))
    }

    /// One card with its entries.
    ///
    /// # Errors
    ///
    /// [`KeepError::Missing`], or [`KeepError::File`] with the place when a record is damaged.
    pub async fn card(&self, id: CardId) -> Result<(StoredCard, Card), KeepError> {
        let transaction = self
            .0
            .transaction(&[CARDS, ENTRIES], TransactionMode::ReadOnly)?;
        let stored = stored(&transaction, id).await?;
        let entries = transaction
            .object_store(ENTRIES)?
            .index(BY_CARD)?
            .get_all(Some(Query::Key(key(id))), None)?
            .await?;
        let texts: Vec<String> = entries
            .iter()
            .filter_map(|entry| {
                js_sys::Reflect::get(entry, &"text".into())
                    .ok()?
                    .as_string()
            })
            .collect();
        let card = file::join(&stored.head, &texts)?;
        Ok((stored, card))
    }

    /// A card without its entries, which may be damaged.
    ///
    /// # Errors
    ///
    /// [`KeepError::Missing`], or [`KeepError::Browser`] when the browser does not give it.
    pub async fn stored(&self, id: CardId) -> Result<StoredCard, KeepError> {
        stored(
            &self.0.transaction(&[CARDS], TransactionMode::ReadOnly)?,
            id,
        )
        .await
    }

    /// Keeps a card in place of the one of the same id, whose entries go: all or nothing.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then the card is as it was.
    pub async fn replace_card<'e>(
        &self,
        stored: &StoredCard,
        summary: &Summary,
        mut entries: impl Iterator<Item = &'e Entry>,
    ) -> Result<(), KeepError> {
        let transaction = self
            .0
            .transaction(&[CARDS, SUMMARIES, ENTRIES], TransactionMode::ReadWrite)?;
        clear_entries(&transaction, stored.id).await?;
        put_card(&transaction, stored, summary).await?;
        put_entries(&transaction, stored.id, &mut entries).await?;
        complete(transaction).await
    }

    /// Keeps a card's head, the entries given, and what the Shelf shows of it: all or nothing.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then nothing was kept.
    pub async fn keep_card<'e>(
        &self,
        stored: &StoredCard,
        summary: &Summary,
        mut entries: impl Iterator<Item = &'e Entry>,
    ) -> Result<(), KeepError> {
        let transaction = self
            .0
            .transaction(&[CARDS, SUMMARIES, ENTRIES], TransactionMode::ReadWrite)?;
        put_card(&transaction, stored, summary).await?;
        put_entries(&transaction, stored.id, &mut entries).await?;
        complete(transaction).await
    }

    /// Keeps entries of a card: all or nothing.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then nothing was kept.
    pub async fn keep_entries(&self, card: CardId, entries: &[Entry]) -> Result<(), KeepError> {
        let transaction = self.0.transaction(&[ENTRIES], TransactionMode::ReadWrite)?;
        put_entries(&transaction, card, &mut entries.iter()).await?;
        complete(transaction).await
    }

    /// Keeps what the Shelf shows of a card.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; the Shelf works it out again then.
    pub async fn keep_summary(&self, card: CardId, summary: &Summary) -> Result<(), KeepError> {
        let transaction = self
            .0
            .transaction(&[SUMMARIES], TransactionMode::ReadWrite)?;
        put(&transaction, SUMMARIES, card, to_text(summary)).await?;
        complete(transaction).await
    }

    /// Puts a card into the bin or takes it out.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; then nothing changed.
    pub async fn keep_stored(&self, stored: &StoredCard) -> Result<(), KeepError> {
        let transaction = self.0.transaction(&[CARDS], TransactionMode::ReadWrite)?;
        put(&transaction, CARDS, stored.id, to_text(stored)).await?;
        complete(transaction).await
    }

    /// Takes a card and its entries off this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`]; then nothing was taken.
    pub async fn remove(&self, id: CardId) -> Result<(), KeepError> {
        let transaction = self
            .0
            .transaction(&[CARDS, SUMMARIES, ENTRIES], TransactionMode::ReadWrite)?;
        clear_entries(&transaction, id).await?;
        for store in [SUMMARIES, CARDS] {
            transaction
                .object_store(store)?
                .delete(Query::Key(key(id)))?
                .await?;
        }
        complete(transaction).await
    }
}

fn key(id: CardId) -> JsValue {
    JsValue::from_str(&id.to_string())
}

/// The record of a key; none where there is none.
async fn record(
    transaction: &Transaction,
    store: &str,
    key: JsValue,
) -> Result<Option<JsValue>, KeepError> {
    Ok(transaction
        .object_store(store)?
        .get(Query::Key(key))?
        .await?)
}

/// Puts a card's record into a store.
async fn put(
    transaction: &Transaction,
    store: &str,
    card: CardId,
    record: JsValue,
) -> Result<(), KeepError> {
    transaction
        .object_store(store)?
        .put(&record, Some(&key(card)))?
        .await?;
    Ok(())
}

async fn stored(transaction: &Transaction, id: CardId) -> Result<StoredCard, KeepError> {
    let value = record(transaction, CARDS, key(id)).await?;
    value
        .as_ref()
        .and_then(from_text::<StoredCard>)
        .ok_or(KeepError::Missing)
}

async fn clear_entries(transaction: &Transaction, card: CardId) -> Result<(), KeepError> {
    let entries = transaction.object_store(ENTRIES)?;
    let keys = entries
        .index(BY_CARD)?
        .get_all_keys(Some(Query::Key(key(card))), None)?
        .await?;
    for entry in keys {
        entries.delete(Query::Key(entry))?.await?;
    }
    Ok(())
}

async fn put_card(
    transaction: &Transaction,
    stored: &StoredCard,
    summary: &Summary,
) -> Result<(), KeepError> {
    put(transaction, CARDS, stored.id, to_text(stored)).await?;
    put(transaction, SUMMARIES, stored.id, to_text(summary)).await
}

async fn put_entries(
    transaction: &Transaction,
    card: CardId,
    entries: &mut dyn Iterator<Item = &Entry>,
) -> Result<(), KeepError> {
    let store = transaction.object_store(ENTRIES)?;
    let card = key(card);
    let mut requests = Vec::new();
    for entry in entries {
        let record = js_sys::Object::new();
        js_sys::Reflect::set(&record, &"card".into(), &card)?;
        js_sys::Reflect::set(&record, &"id".into(), &entry.id.to_string().into())?;
        js_sys::Reflect::set(&record, &"text".into(), &file::write_entry(entry).into())?;
        // Not awaited one by one: the transaction is complete when all of them are.
        requests.push(store.put(&record, None)?);
    }
    for request in requests {
        request.await?;
    }
    Ok(())
}

/// The promise of "kept" rests on this: the browser says that the transaction is complete.
pub(super) async fn complete(transaction: Transaction) -> Result<(), KeepError> {
    if transaction.commit()?.await?.is_committed() {
        Ok(())
    } else {
        Err(KeepError::Browser(
            "the browser did not complete the write".to_owned(),
        ))
    }
}

/// Makes the stores that the version before did not have; what is in the others stays.
fn make_stores(database: &Database, before: u32) -> Result<(), idb::Error> {
    if before < 1 {
        make_card_stores(database)?;
    }
    database.create_object_store(PLANS, ObjectStoreParams::new())?;
    Ok(())
}

fn make_card_stores(database: &Database) -> Result<(), idb::Error> {
    database.create_object_store(CARDS, ObjectStoreParams::new())?;
    database.create_object_store(SUMMARIES, ObjectStoreParams::new())?;
    let mut params = ObjectStoreParams::new();
    params.key_path(Some(KeyPath::new_array(["card", "id"])));
    let entries = database.create_object_store(ENTRIES, params)?;
    entries.create_index(
        BY_CARD,
        KeyPath::new_single("card"),
        Some(IndexParams::new()),
    )?;
    Ok(())
}

/// Records are kept as JSON text: one serialiser in the app, and a record can be read by eye.
pub(super) fn to_text(record: &impl Serialize) -> JsValue {
    JsValue::from_str(&serde_json::to_string(record).unwrap_or_default())
}

pub(super) fn from_text<T: DeserializeOwned>(value: &JsValue) -> Option<T> {
    serde_json::from_str(&value.as_string()?).ok()
}
