//! In a real browser: what the Shelf takes in, gives out and gets back.

#![cfg(target_arch = "wasm32")]

use std::{cell::Cell, rc::Rc};

use idb::{Factory, TransactionMode};
use ringland_app::{
    persist::{Db, KeepError},
    slices::Slices,
    store::{
        Shelf,
        open::provide_card,
        prefs::provide_prefs,
        shelf::{Came, NotTaken, provide_shelf},
    },
};
use ringland_card::{
    Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Fact, Layout, Timestamp, builtin, file,
};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

async fn shelf() -> Shelf {
    let db = Rc::new(Db::open().await.expect("a database"));
    let made = Rc::new(Cell::new(None));
    let keep = Rc::clone(&made);
    // An app of its own that shows nothing.
    leptos::mount::mount_to_body(move || {
        let store = provide_card(provide_prefs());
        store.set_db(Rc::clone(&db));
        keep.set(Some(provide_shelf(store)));
    });
    made.take().expect("made with the app")
}

/// A card with one fact for each name; each test has cards of its own.
fn card(number: u8, names: &[&str]) -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("a plan");
    let mut card = Card::new(CardId::v7(1, [number; 10]), plan).expect("a card");
    for (n, name) in (1..).zip(names) {
        let entry = Entry::new(
            EntryId::v7(n, [number; 10]),
            DeviceId::v7(1, [1; 10]),
            card.next_lamport(),
            Timestamp::UNIX_EPOCH,
            "one",
            Body::Fact {
                fact: Fact::Name((*name).to_owned()),
            },
        );
        card.append(entry).expect("an entry that fits");
    }
    card
}

fn bytes(card: &Card) -> Vec<u8> {
    file::write(card).into_bytes()
}

async fn taken(shelf: Shelf, card: &Card) -> Result<Came, NotTaken> {
    shelf.take(&bytes(card)).await
}

#[wasm_bindgen_test]
async fn a_file_is_new_then_merged_then_nothing_new() {
    let shelf = shelf().await;
    let (before, after) = (card(40, &["A"]), card(40, &["A", "B"]));
    let id = before.id();
    assert_eq!(taken(shelf, &before).await, Ok(Came::New(id)));
    assert_eq!(taken(shelf, &after).await, Ok(Came::Merged(id, 1)));
    assert_eq!(taken(shelf, &before).await, Ok(Came::Merged(id, 0)));
    assert_eq!(shelf.file(id).await, Ok((file::write(&after), 0)));
    shelf.refresh().await.expect("a Shelf");
    assert_eq!(shelf.name(id), "B");
}

#[wasm_bindgen_test]
async fn an_altered_file_stays_apart_and_stays_known_as_altered() {
    let shelf = shelf().await;
    let sound = card(41, &["A"]);
    let altered = file::write(&sound).replace("\"A\"", "\"Z\"");
    let id = sound.id();
    assert_eq!(shelf.take(altered.as_bytes()).await, Ok(Came::Altered(id)));
    let (saved, _) = shelf.file(id).await.expect("a file");
    assert!(!file::read(saved.as_bytes()).expect("a card").digest_matches);
    // The sound file takes its place; from then on the altered one is refused.
    assert_eq!(taken(shelf, &sound).await, Ok(Came::New(id)));
    assert_eq!(
        shelf.take(altered.as_bytes()).await,
        Err(NotTaken::AlteredKnown)
    );
    assert_eq!(shelf.file(id).await, Ok((file::write(&sound), 0)));
}

#[wasm_bindgen_test]
async fn what_is_no_card_changes_nothing() {
    let shelf = shelf().await;
    let known = card(42, &["A"]);
    taken(shelf, &known).await.expect("a card");
    let cut = &bytes(&known)[..500];
    assert!(matches!(shelf.take(cut).await, Err(NotTaken::File(_))));
    assert_eq!(shelf.file(known.id()).await, Ok((file::write(&known), 0)));
}

#[wasm_bindgen_test]
async fn a_backup_brings_back_what_was_lost_and_merges_the_rest() {
    let shelf = shelf().await;
    let (kept, lost) = (card(43, &["A"]), card(44, &["B"]));
    let files = [file::write(&kept), file::write(&lost)];
    let backup = file::write_backup(files.iter().map(String::as_str), [], []);
    let grown = card(43, &["A", "C"]);
    taken(shelf, &grown).await.expect("a card");
    let mut came = Vec::new();
    for opened in file::read_backup(backup.as_bytes()).expect("a backup") {
        came.push(
            shelf
                .take_opened(opened.expect("a card"), &mut Slices::default())
                .await
                .expect("taken"),
        );
    }
    assert_eq!(came, [Came::Merged(kept.id(), 0), Came::New(lost.id())]);
    assert_eq!(shelf.file(kept.id()).await, Ok((file::write(&grown), 0)));
    assert_eq!(shelf.file(lost.id()).await, Ok((files[1].clone(), 0)));
}

#[wasm_bindgen_test]
async fn the_bin_gives_back_until_it_is_emptied() {
    let shelf = shelf().await;
    let card = card(45, &["A"]);
    let id = card.id();
    taken(shelf, &card).await.expect("a card");
    let places = || {
        let has =
            |cards: Vec<ringland_app::store::shelf::OnShelf>| cards.iter().any(|c| c.id == id);
        (has(shelf.cards()), has(shelf.binned()))
    };
    shelf.set_deleted(id, true).await.expect("deleted");
    assert_eq!(places(), (false, true));
    shelf.set_deleted(id, false).await.expect("brought back");
    assert_eq!(places(), (true, false));
    assert_eq!(shelf.file(id).await, Ok((file::write(&card), 0)));
    // Another start, in this tab or another, empties it of what has been there for long only.
    shelf.set_deleted(id, true).await.expect("deleted");
    shelf.empty_bin().await.expect("emptied");
    assert_eq!(shelf.file(id).await, Ok((file::write(&card), 0)));
    let db = Db::open().await.expect("a database");
    let mut stored = db.stored(id).await.expect("its record");
    stored.binned_ms -= 25 * 60 * 60 * 1000;
    db.keep_stored(&stored).await.expect("an earlier day");
    shelf.empty_bin().await.expect("emptied");
    assert_eq!(shelf.file(id).await, Err(KeepError::Missing));
}

#[wasm_bindgen_test]
async fn an_engine_is_behind_until_its_entries_are_in_a_backup() {
    let shelf = shelf().await;
    let (before, after) = (card(47, &["A"]), card(47, &["A", "B"]));
    taken(shelf, &before).await.expect("a card");
    shelf.refresh().await.expect("a Shelf");
    shelf.backed_up(|_all| true);
    assert_eq!(shelf.behind(), 0);
    taken(shelf, &after).await.expect("an entry more");
    shelf.refresh().await.expect("a Shelf");
    assert_eq!(shelf.behind(), 1);
    shelf.backed_up(|id| id == after.id());
    assert_eq!(shelf.behind(), 0);
}

/// Writes nonsense over one record, as a damaged disk would.
async fn damage(store: &str, record: &JsValue, key: Option<&JsValue>) {
    let database = Factory::new()
        .expect("a factory")
        .open("ringland", None)
        .expect("asked");
    let database = database.await.expect("a database");
    let transaction = database
        .transaction(&[store], TransactionMode::ReadWrite)
        .expect("a transaction");
    let store = transaction.object_store(store).expect("a store");
    store
        .put(record, key)
        .expect("asked")
        .await
        .expect("written");
    transaction
        .commit()
        .expect("asked")
        .await
        .expect("committed");
    // Another test may want the database in a newer layout.
    database.close();
}

async fn damage_entry(card: CardId, entry: EntryId, text: JsValue) {
    let record = js_sys::Object::new();
    for (key, value) in [
        ("card", card.to_string().into()),
        ("id", entry.to_string().into()),
        ("text", text),
    ] {
        js_sys::Reflect::set(&record, &key.into(), &value).expect("set");
    }
    damage("entries", &record, None).await;
}

#[wasm_bindgen_test]
async fn a_damaged_entry_stays_aside_and_is_mended_by_a_file() {
    let shelf = shelf().await;
    let whole = card(46, &["A", "B", "C"]);
    let id = whole.id();
    taken(shelf, &whole).await.expect("a card");
    damage_entry(id, EntryId::v7(1, [46; 10]), "{".into()).await;
    // Not even a text: it was skipped without a word once.
    damage_entry(id, EntryId::v7(3, [46; 10]), 7.into()).await;
    let (rest, unreadable) = shelf.file(id).await.expect("the rest opens");
    let rest = file::read(rest.as_bytes()).expect("a card");
    assert_eq!((rest.card.len(), unreadable), (1, 2));
    assert!(rest.digest_matches);
    let aside = shelf.damaged(&id.to_string()).await.expect("what is aside");
    assert_eq!(aside.matches("\"text\":").count(), 2, "{aside}");
    shelf
        .set_deleted(id, true)
        .await
        .expect("a damaged card can go");
    shelf.set_deleted(id, false).await.expect("and come back");
    // Half of it, then all: each sound entry goes where the damaged one was.
    taken(shelf, &card(46, &["A"])).await.expect("one of two");
    assert_eq!(shelf.file(id).await.map(|(_, aside)| aside), Ok(1));
    assert_eq!(taken(shelf, &whole).await, Ok(Came::Merged(id, 1)));
    assert_eq!(shelf.file(id).await, Ok((file::write(&whole), 0)));
}

#[wasm_bindgen_test]
async fn a_card_whose_record_is_damaged_is_named_and_keeps_its_entries_for_the_file_that_mends_it()
{
    let shelf = shelf().await;
    let (backup, whole) = (card(48, &["A"]), card(48, &["A", "B"]));
    let id = whole.id();
    taken(shelf, &whole).await.expect("a card");
    let key = JsValue::from_str(&id.to_string());
    damage("cards", &"nonsense".into(), Some(&key)).await;
    shelf.refresh().await.expect("the others open");
    let lost = shelf.lost();
    let named = lost.iter().find(|lost| lost.key == id.to_string());
    assert_eq!(named.map(|lost| lost.name.as_str()), Some("B"));
    assert_eq!(shelf.file(id).await, Err(KeepError::Damaged));
    let aside = shelf.damaged(&id.to_string()).await.expect("what is left");
    assert!(
        aside.contains("nonsense") && aside.matches("\"text\":").count() == 2,
        "{aside}"
    );
    // An older file mends it, and what was written since is there again, too.
    taken(shelf, &backup).await.expect("mended");
    assert_eq!(shelf.file(id).await, Ok((file::write(&whole), 0)));
}
