//! The database of cards and entries, and of plans of one's own.

use idb::{
    Database, DatabaseEvent, Factory, IndexParams, KeyPath, KeyRange, ObjectStoreParams, Query,
    Transaction, TransactionMode,
};
use js_sys::{Array, Function, JSON, Object, Reflect};
use ringland_card::{
    Card, CardId, Entry,
    file::{self, Rescue, Rescued, WritingCard, rescue},
};
use ringland_report::words::Words;
use serde::{Deserialize, Serialize, de::DeserializeOwned};
use wasm_bindgen::{JsCast, JsValue};

use super::photos::clear_photos;
use crate::{
    slices::{READ_SHARE, Slices, Stopped},
    store::summary::Summary,
};

/// The name starts with the project's own: `file://` pages share one store in some browsers.
const NAME: &str = "ringland";
/// Counts how the stores are laid out; 2 added the plans, 3 took the heads out of the cards' records, 4
/// added the size sheets, 5 the photos.
const VERSION: u32 = 5;
const CARDS: &str = "cards";
const HEADS: &str = "heads";
const SUMMARIES: &str = "summaries";
const ENTRIES: &str = "entries";
const BY_CARD: &str = "by_card";
/// Everything of a card.
const WHOLE: [&str; 4] = [CARDS, HEADS, SUMMARIES, ENTRIES];
pub(super) const PLANS: &str = "plans";
pub(super) const SHEETS: &str = "sheets";
pub(super) const PHOTOS: &str = "photos";
pub(super) const THUMBS: &str = "thumbs";
/// How many entries are asked for at once.
const BATCH: u32 = 2_000;

/// Why something could not be kept or fetched.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum KeepError {
    /// The browser refused: full disk, private window, damaged store.
    #[error("{0}")]
    Browser(String),
    /// There is no room left.
    #[error("the storage of this tablet is full")]
    Full,
    /// The database was closed under this tab.
    #[error("this tab has lost its storage")]
    Closed,
    /// What was stored cannot be read any more.
    #[error(transparent)]
    File(#[from] file::FileError),
    /// The record of the card itself cannot be read any more.
    #[error("the record of this card cannot be read")]
    Damaged,
    /// There is no such card here.
    #[error("this card is not on this tablet")]
    Missing,
    /// Stopped by hand.
    #[error("stopped")]
    Stopped,
}

impl From<Stopped> for KeepError {
    fn from(_by_hand: Stopped) -> Self {
        Self::Stopped
    }
}

impl KeepError {
    /// What went wrong and what to do, in kind words.
    pub fn said(&self, words: &Words) -> String {
        match self {
            Self::Browser(why) => words.errors.storage(why),
            Self::Closed => words.safe.closed.to_owned(),
            Self::Full => words.errors.storage_full.to_owned(),
            Self::File(error) => words.file_error(error),
            Self::Damaged => words.safe.head_damaged.to_owned(),
            Self::Missing => words.safe.gone.to_owned(),
            Self::Stopped => words.files.stopped(1),
        }
    }

    /// The same beside words that say what came of it: what the browser said, in its own words.
    pub fn reason(&self, words: &Words) -> String {
        match self {
            Self::Browser(why) => why.clone(),
            other => other.said(words),
        }
    }

    /// What the browser said. It has one name for a full disk and a used-up share of it, and one for a
    /// database that it closed, or that [`Db::open`] closed for a newer version in another tab.
    fn of(text: String) -> Self {
        if text.contains("QuotaExceeded") {
            Self::Full
        } else if text.contains("InvalidState") {
            Self::Closed
        } else {
            Self::Browser(text)
        }
    }
}

impl From<idb::Error> for KeepError {
    fn from(error: idb::Error) -> Self {
        Self::of(error.to_string())
    }
}

impl From<JsValue> for KeepError {
    fn from(error: JsValue) -> Self {
        Self::of(format!("{error:?}"))
    }
}

/// What is kept of a card beside its head (the file without its entries) and its entries. The head
/// holds the plan whole and is long: it is a record of its own, which the Shelf does without.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoredCard {
    /// The card's id.
    pub id: CardId,
    /// Whether it is in the bin.
    pub deleted: bool,
    /// Since when it is in the bin, milliseconds since 1970 by the tablet's clock.
    #[serde(default)]
    pub binned_ms: i64,
    /// Whether it came from a file whose digest does not match: to be looked at, not written on.
    pub altered: bool,
}

impl StoredCard {
    /// The file of the card, to be written step by step. One that is only to be looked at stays so for
    /// whoever opens the file.
    pub fn writing(&self, card: &Card) -> WritingCard {
        if self.altered {
            WritingCard::as_altered(card)
        } else {
            WritingCard::new(card)
        }
    }
}

/// A record of version 2 or before, which has the head in it.
#[derive(Deserialize)]
struct WithHead {
    head: String,
}

/// A card as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// Its record.
    pub stored: StoredCard,
    /// The card, of every entry that could be read.
    pub card: Card,
    /// How many of its entries could not be read; they stay where they are.
    pub unreadable: usize,
}

/// A card of which nothing can be read but what it was called.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// The key it was kept under.
    pub key: String,
    /// Its name; empty where that is not known either.
    pub name: String,
}

/// A card as the Shelf lists it.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// Its record.
    pub stored: StoredCard,
    /// What the Shelf shows of it; none where it was never written, or is out of date.
    pub summary: Option<Summary>,
}

/// An open database.
#[derive(Debug)]
pub struct Db {
    pub(super) database: Database,
    /// The same, as the page knows it.
    page: JsValue,
}

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
        let page: JsValue = request.await?.into();
        let mut database = Database::try_from(page.clone())?;
        // A newer version in another tab may go on; what this one then keeps is refused, and said so.
        database.on_version_change(|event| {
            let _closed = event.database().map(|database| database.close());
        });
        Ok(Self { database, page })
    }

    /// A transaction that writes, complete only once it is on the disk itself. Left to itself a browser
    /// may say so when the system has it, and a tablet whose battery goes then has lost it.
    pub(super) fn write(&self, stores: &[&str]) -> Result<Transaction, KeepError> {
        let stores: Array = stores.iter().copied().map(JsValue::from_str).collect();
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into())?;
        // The bindings leave the options out: called by its name.
        let begin: Function = Reflect::get(&self.page, &"transaction".into())?.unchecked_into();
        let begun = begin.call3(&self.page, &stores, &"readwrite".into(), &options)?;
        Ok(Transaction::try_from(begun)?)
    }

    /// All cards with what the Shelf shows of them, and those of which nothing can be read.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser does not give them.
    pub async fn list(&self) -> Result<(Vec<Listed>, Vec<Lost>), KeepError> {
        let transaction = self
            .database
            .transaction(&[CARDS, SUMMARIES, ENTRIES], TransactionMode::ReadOnly)?;
        let all = transaction.object_store(CARDS)?;
        let keys = all.get_all_keys(None, None)?.into_future();
        let values = all.get_all(None, None)?.into_future();
        let (keys, values) = (keys.await?, values.await?);
        let summaries = transaction.object_store(SUMMARIES)?;
        let entries = transaction.object_store(ENTRIES)?.index(BY_CARD)?;
        // All are asked for before any is waited for: a Shelf of fifty is there in one turn.
        let asked = keys
            .into_iter()
            .map(|key| {
                let summary = summaries.get(Query::Key(key.clone()))?;
                let count = entries.count(Some(Query::Key(key.clone())))?;
                Ok((key, summary.into_future(), count.into_future()))
            })
            .collect::<Result<Vec<_>, KeepError>>()?;
        let (mut cards, mut lost) = (Vec::new(), Vec::new());
        for ((key, summary, count), value) in asked.into_iter().zip(values) {
            let summary = summary.await?.as_ref().and_then(from_text::<Summary>);
            let count = count.await?;
            match from_text::<StoredCard>(&value) {
                Some(stored) => cards.push(Listed {
                    stored,
                    summary: summary
                        .filter(|summary| usize::try_from(count) == Ok(summary.records())),
                }),
                None => lost.push(Lost {
                    key: key.as_string().unwrap_or_default(),
                    name: summary.unwrap_or_default().name,
                }),
            }
        }
        Ok((cards, lost))
    }

    /// One card with its entries. An entry that cannot be read does not keep the others back.
    ///
    /// # Errors
    ///
    /// [`KeepError::Missing`], or [`KeepError::File`] with the place when the card itself is damaged.
    pub async fn card(&self, id: CardId) -> Result<Read, KeepError> {
        let transaction = self
            .database
            .transaction(&[CARDS, HEADS, ENTRIES], TransactionMode::ReadOnly)?;
        let stored = stored(&transaction, id).await?;
        let head = head(&transaction, key(id)).await?;
        let mut rescue = Rescue::new(&head.ok_or(KeepError::Damaged)?)?;
        let add = |record: JsValue| rescue.add(text(&record).as_deref());
        each_entry(&transaction, key(id), add).await?;
        let step = |bytes| rescue.step(bytes);
        let Rescued { card, lost } = Slices::default().run(step).await?;
        Ok(Read {
            stored,
            card,
            unreadable: lost.len(),
        })
    }

    /// What cannot be read of a card, as it stands in the storage: JSON for whoever can make sense of
    /// it. Of a card that cannot be opened at all, everything.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser does not give it.
    pub async fn damaged(&self, card: &str) -> Result<String, KeepError> {
        let transaction = self
            .database
            .transaction(&[CARDS, HEADS, ENTRIES], TransactionMode::ReadOnly)?;
        let card = JsValue::from_str(card);
        let record = record(&transaction, CARDS, card.clone()).await?;
        let head = head(&transaction, card.clone()).await?;
        let records = entries(&transaction, card.clone()).await?;
        let texts: Vec<Option<String>> = records.iter().map(text).collect();
        let stored = record.as_ref().and_then(from_text::<StoredCard>);
        let rescued = head
            .as_deref()
            .filter(|_| stored.is_some())
            .and_then(|head| rescue(head, &texts).ok());
        let lost = match rescued {
            Some(rescued) => rescued.lost,
            None => (0..records.len()).collect(),
        };
        let lost = lost.into_iter().filter_map(|number| records.get(number));
        let file = Object::new();
        for (name, value) in [
            ("format", "ringland-damaged".into()),
            ("card", card),
            ("record", record.unwrap_or_default()),
            ("head", head.map_or(JsValue::NULL, Into::into)),
            ("entries", lost.collect::<Array>().into()),
        ] {
            Reflect::set(&file, &name.into(), &value)?;
        }
        Ok(JSON::stringify(&file)?.into())
    }

    /// A card without its entries, which may be damaged.
    ///
    /// # Errors
    ///
    /// [`KeepError::Missing`], [`KeepError::Damaged`], or [`KeepError::Browser`] when the browser does not
    /// give it.
    pub async fn stored(&self, id: CardId) -> Result<StoredCard, KeepError> {
        stored(
            &self
                .database
                .transaction(&[CARDS], TransactionMode::ReadOnly)?,
            id,
        )
        .await
    }

    /// Keeps a card in place of the one of the same id, whose entries go: all or nothing.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused, [`KeepError::Stopped`] when somebody stopped it;
    /// then the card is as it was.
    pub async fn replace_card(
        &self,
        stored: &StoredCard,
        card: &Card,
        summary: &Summary,
        slices: &mut Slices,
    ) -> Result<(), KeepError> {
        let transaction = self.write(&WHOLE)?;
        let put = async {
            clear_entries(&transaction, stored.id).await?;
            put_card(&transaction, stored, card, summary).await?;
            put_entries(&transaction, stored.id, &mut card.entries(), slices).await
        };
        let put = put.await;
        end(transaction, put).await
    }

    /// Keeps a card's record and head, those of its entries that are given, and what the Shelf shows of
    /// it: all or nothing.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused, [`KeepError::Stopped`] when somebody stopped it;
    /// then nothing was kept.
    pub async fn keep_card<'e>(
        &self,
        stored: &StoredCard,
        card: &Card,
        summary: &Summary,
        mut entries: impl ExactSizeIterator<Item = &'e Entry>,
        slices: &mut Slices,
    ) -> Result<(), KeepError> {
        let transaction = self.write(&WHOLE)?;
        let put = async {
            put_card(&transaction, stored, card, summary).await?;
            put_entries(&transaction, stored.id, &mut entries, slices).await
        };
        let put = put.await;
        end(transaction, put).await
    }

    /// Keeps further entries of a card: all or nothing. Where it is `known` how many were here, and there
    /// are others, it keeps nothing and says `false`: another tab has written on the card.
    ///
    /// # Errors
    ///
    /// [`KeepError::Missing`] when the card is not here any more, [`KeepError::Browser`] when the browser
    /// refused; then nothing was kept.
    pub async fn keep_entries(
        &self,
        card: CardId,
        known: Option<usize>,
        entries: &[Entry],
    ) -> Result<bool, KeepError> {
        let transaction = self.write(&[CARDS, ENTRIES])?;
        let record = transaction
            .object_store(CARDS)?
            .get(Query::Key(key(card)))?
            .into_future();
        let count = transaction
            .object_store(ENTRIES)?
            .index(BY_CARD)?
            .count(Some(Query::Key(key(card))))?
            .into_future();
        let stored = record.await?.as_ref().and_then(from_text::<StoredCard>);
        let count = usize::try_from(count.await?);
        if stored.is_none_or(|stored| stored.deleted) {
            return Err(KeepError::Missing);
        }
        if known.is_some_and(|known| count != Ok(known)) {
            return Ok(false);
        }
        let mut slices = Slices::default();
        let put = put_entries(&transaction, card, &mut entries.iter(), &mut slices).await;
        end(transaction, put).await?;
        Ok(true)
    }

    /// Keeps what the Shelf shows of a card.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`] when the browser refused; the Shelf works it out again then.
    pub async fn keep_summary(&self, card: CardId, summary: &Summary) -> Result<(), KeepError> {
        // What is lost of it is worked out again: no disk need be waited for.
        let transaction = self
            .database
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
        let transaction = self.write(&[CARDS])?;
        put(&transaction, CARDS, stored.id, to_text(stored)).await?;
        complete(transaction).await
    }

    /// Takes a card, its entries and its photos off this tablet.
    ///
    /// # Errors
    ///
    /// [`KeepError::Browser`]; then nothing was taken.
    pub async fn remove(&self, id: CardId) -> Result<(), KeepError> {
        let all = [&WHOLE[..], &[PHOTOS, THUMBS]].concat();
        let transaction = self.write(&all)?;
        clear_entries(&transaction, id).await?;
        clear_photos(&transaction, id).await?;
        for store in [SUMMARIES, HEADS, CARDS] {
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

/// A card's file without its entries.
async fn head(transaction: &Transaction, card: JsValue) -> Result<Option<String>, KeepError> {
    if let Some(head) = record(transaction, HEADS, card.clone()).await? {
        return Ok(head.as_string());
    }
    let before = record(transaction, CARDS, card).await?;
    let before = before.as_ref().and_then(from_text::<WithHead>);
    Ok(before.map(|record| record.head))
}

async fn stored(transaction: &Transaction, id: CardId) -> Result<StoredCard, KeepError> {
    let value = record(transaction, CARDS, key(id)).await?;
    from_text(&value.ok_or(KeepError::Missing)?).ok_or(KeepError::Damaged)
}

/// The records of a card's entries.
async fn entries(transaction: &Transaction, card: JsValue) -> Result<Vec<JsValue>, KeepError> {
    let mut records = Vec::new();
    each_entry(transaction, card, |record| records.push(record)).await?;
    Ok(records)
}

/// Takes the records of a card's entries one after the other. They come in batches, between which the
/// browser has its turn: all at once would make it stand still.
async fn each_entry(
    transaction: &Transaction,
    card: JsValue,
    mut take: impl FnMut(JsValue),
) -> Result<(), KeepError> {
    let store = transaction.object_store(ENTRIES)?;
    let mut last = JsValue::from_str("");
    loop {
        let rest = Query::KeyRange(entry_keys(&card, &last)?);
        let records = store.get_all(Some(rest), Some(BATCH))?.await?;
        let more = records.len() == BATCH as usize;
        if let Some(record) = records.last() {
            last = Reflect::get(record, &"id".into())?;
        }
        records.into_iter().for_each(&mut take);
        if !more {
            return Ok(());
        }
    }
}

/// The keys of a card's entries after that one's id.
fn entry_keys(card: &JsValue, after: &JsValue) -> Result<KeyRange, KeepError> {
    // Ids are plain letters: every one of them comes before this.
    let end = JsValue::from_str("\u{ffff}");
    let (from, to) = (Array::of2(card, after), Array::of2(card, &end));
    Ok(KeyRange::bound(&from, &to, Some(true), None)?)
}

/// What an entry's record says; none where it was written over by something else.
fn text(entry: &JsValue) -> Option<String> {
    let text = Reflect::get(entry, &"text".into()).ok()?;
    text.as_string()
}

async fn clear_entries(transaction: &Transaction, card: CardId) -> Result<(), KeepError> {
    let all = entry_keys(&key(card), &JsValue::from_str(""))?;
    let entries = transaction.object_store(ENTRIES)?;
    entries.delete(Query::KeyRange(all))?.await?;
    Ok(())
}

async fn put_card(
    transaction: &Transaction,
    stored: &StoredCard,
    card: &Card,
    summary: &Summary,
) -> Result<(), KeepError> {
    put(transaction, CARDS, stored.id, to_text(stored)).await?;
    let head = JsValue::from_str(&file::write_head(card));
    put(transaction, HEADS, stored.id, head).await?;
    put(transaction, SUMMARIES, stored.id, to_text(summary)).await
}

/// Puts entries into the store, a slice at a time: as long as something that was asked for is under way
/// the transaction stays open, so all of them are still in one.
async fn put_entries(
    transaction: &Transaction,
    card: CardId,
    entries: &mut dyn ExactSizeIterator<Item = &Entry>,
    slices: &mut Slices,
) -> Result<(), KeepError> {
    let store = transaction.object_store(ENTRIES)?;
    let (card, all) = (key(card), entries.len().max(1));
    loop {
        slices.begin()?;
        let mut last = None;
        while last.is_none() || !slices.is_over() {
            let Some(entry) = entries.next() else { break };
            let record = Object::new();
            Reflect::set(&record, &"card".into(), &card)?;
            Reflect::set(&record, &"id".into(), &entry.id.to_string().into())?;
            Reflect::set(&record, &"text".into(), &file::write_entry(entry).into())?;
            last = Some(store.put(&record, None)?);
        }
        // They are done in the order asked, and one that is refused breaks all of them off.
        let Some(last) = last else { return Ok(()) };
        last.await?;
        let left = entries.len() as f64 / all as f64;
        slices.tell(1.0 - left * (1.0 - READ_SHARE));
    }
}

/// Ends a transaction: complete where everything was put, and as if it had never been where not. Left
/// to itself the browser would keep the half that was put.
async fn end(transaction: Transaction, put: Result<(), KeepError>) -> Result<(), KeepError> {
    let Err(error) = put else {
        return complete(transaction).await;
    };
    let under_way: JsValue = transaction.into();
    // The browser's reason where it was the browser that broke it off: a full disk shows only here.
    let why = Reflect::get(&under_way, &"error".into())?;
    let _broken_off = Transaction::try_from(under_way)?.abort();
    Err(if why.is_null() { error } else { why.into() })
}

/// The promise of "kept" rests on this: the browser says that the transaction is complete.
pub(super) async fn complete(transaction: Transaction) -> Result<(), KeepError> {
    // Kept for the reason of a write that was broken off: a full disk shows only here.
    let under_way: JsValue = transaction.commit()?.into();
    if Transaction::try_from(under_way.clone())?
        .await?
        .is_committed()
    {
        return Ok(());
    }
    let why = Reflect::get(&under_way, &"error".into())?;
    Err(why.into())
}

/// Makes the stores that the version before did not have; what is in the others stays.
fn make_stores(database: &Database, before: u32) -> Result<(), idb::Error> {
    if before < 1 {
        make_card_stores(database)?;
    }
    for (since, store) in [
        (2, PLANS),
        (3, HEADS),
        (4, SHEETS),
        (5, PHOTOS),
        (5, THUMBS),
    ] {
        if before < since {
            database.create_object_store(store, ObjectStoreParams::new())?;
        }
    }
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
