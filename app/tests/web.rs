//! In a real browser: storage, reading files, the painter.

#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "what is missing stops the test")]

use leptos::prelude::*;
use ringland_app::{
    components::painter::{Draft, Fills, Painter},
    persist::{Db, KeepError, StoredCard, transfer},
    slices::Slices,
    store::summary::Summary,
};
use ringland_card::{
    At, Body, Card, CardId, CharacteristicId, Depth, DeviceId, Entry, EntryId, Grade, Layout,
    LevelId, Look, PositionId, Timestamp, file, plan::builtin,
};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn card(id: u8) -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    Card::new(CardId::v7(1, [id; 10]), plan).unwrap()
}

fn look(card: &Card, n: u8, grade: Grade) -> Entry {
    let at = At {
        position: PositionId::new("cyl1/lobe/exhaust").unwrap(),
        characteristic: CharacteristicId::new("wear").unwrap(),
    };
    let body = Body::Rating {
        at,
        look: Look::Grade(grade),
    };
    let (id, device) = (EntryId::v7(u64::from(n), [n; 10]), DeviceId::v7(1, [1; 10]));
    Entry::new(
        id,
        device,
        card.next_lamport(),
        Timestamp::UNIX_EPOCH,
        "one",
        body,
    )
}

fn stored(card: &Card) -> StoredCard {
    StoredCard {
        id: card.id(),
        deleted: false,
        binned_ms: 0,
        altered: false,
    }
}

#[wasm_bindgen_test]
async fn what_was_kept_comes_back_the_same() {
    let db = Db::open().await.unwrap();
    let mut card = card(10);
    db.keep_card(
        &stored(&card),
        &card,
        &Summary::default(),
        card.entries(),
        &mut Slices::default(),
    )
    .await
    .unwrap();
    for (n, grade) in [(1, Grade::Trace), (2, Grade::Light)] {
        let entry = look(&card, n, grade);
        db.keep_entries(card.id(), Some(card.len()), std::slice::from_ref(&entry))
            .await
            .unwrap();
        card.append(entry).unwrap();
    }
    // As after a restart: another handle on the same store.
    let back = Db::open().await.unwrap().card(card.id()).await.unwrap();
    assert_eq!(back.card, card);
    assert_eq!(file::write(&back.card), file::write(&card));
}

/// The first layouts had the head in the card's record.
#[wasm_bindgen_test]
async fn a_card_kept_by_an_earlier_version_opens() {
    let db = Db::open().await.unwrap();
    let card = card(15);
    db.keep_card(
        &stored(&card),
        &card,
        &Summary::default(),
        card.entries(),
        &mut Slices::default(),
    )
    .await
    .unwrap();
    let key = JsValue::from_str(&card.id().to_string());
    let page = idb::Factory::new().unwrap().open("ringland", None).unwrap();
    let page = page.await.unwrap();
    let stores = ["cards", "heads"];
    let transaction = page
        .transaction(&stores, idb::TransactionMode::ReadWrite)
        .unwrap();
    let before = serde_json::json!({
        "id": card.id(), "head": file::write_head(&card), "deleted": false, "altered": false,
    });
    let records = transaction.object_store("cards").unwrap();
    let put = records.put(&before.to_string().into(), Some(&key)).unwrap();
    let heads = transaction.object_store("heads").unwrap();
    let gone = heads.delete(idb::Query::Key(key)).unwrap();
    put.await.unwrap();
    gone.await.unwrap();
    transaction.commit().unwrap().await.unwrap();
    page.close();
    assert_eq!(db.card(card.id()).await.unwrap().card, card);
}

#[wasm_bindgen_test]
async fn entries_are_kept_only_on_a_card_that_is_here_and_as_it_was_known() {
    let db = Db::open().await.unwrap();
    let card = card(16);
    let entry = look(&card, 5, Grade::Light);
    let keep = async |known| {
        db.keep_entries(card.id(), known, std::slice::from_ref(&entry))
            .await
    };
    assert_eq!(keep(None).await, Err(KeepError::Missing));
    db.keep_card(
        &stored(&card),
        &card,
        &Summary::default(),
        card.entries(),
        &mut Slices::default(),
    )
    .await
    .unwrap();
    assert_eq!(keep(Some(1)).await, Ok(false));
    assert_eq!(db.card(card.id()).await.unwrap().card, card);
    assert_eq!(keep(Some(0)).await, Ok(true));
    assert_eq!(db.card(card.id()).await.unwrap().card.len(), 1);
    let binned = StoredCard {
        deleted: true,
        ..stored(&card)
    };
    db.keep_stored(&binned).await.unwrap();
    assert_eq!(keep(Some(1)).await, Err(KeepError::Missing));
}

#[wasm_bindgen_test]
async fn a_summary_that_is_behind_its_entries_is_not_shown() {
    let db = Db::open().await.unwrap();
    let card = card(11);
    db.keep_card(
        &stored(&card),
        &card,
        &Summary::default(),
        card.entries(),
        &mut Slices::default(),
    )
    .await
    .unwrap();
    let find = async |id: CardId| {
        let (listed, _) = db.list().await.unwrap();
        listed
            .into_iter()
            .find(|listed| listed.stored.id == id)
            .unwrap()
            .summary
    };
    assert_eq!(find(card.id()).await, Some(Summary::default()));
    db.keep_entries(card.id(), None, &[look(&card, 3, Grade::None)])
        .await
        .unwrap();
    assert_eq!(find(card.id()).await, None);
}

#[wasm_bindgen_test]
async fn a_card_taken_off_the_tablet_is_gone_with_its_entries() {
    let db = Db::open().await.unwrap();
    let card = card(12);
    db.keep_card(
        &stored(&card),
        &card,
        &Summary::default(),
        card.entries(),
        &mut Slices::default(),
    )
    .await
    .unwrap();
    db.keep_entries(card.id(), None, &[look(&card, 4, Grade::None)])
        .await
        .unwrap();
    db.remove(card.id()).await.unwrap();
    assert_eq!(db.card(card.id()).await.unwrap_err(), KeepError::Missing);
}

#[wasm_bindgen_test]
async fn the_bytes_of_a_picked_file_are_the_cards() {
    let text = file::write(&card(13));
    let parts = js_sys::Array::of1(&JsValue::from_str(&text));
    let picked = web_sys::File::new_with_str_sequence(&parts, "engine.card.json").unwrap();
    let bytes = transfer::bytes(&picked).await.unwrap();
    assert_eq!(bytes, text.as_bytes());
    assert!(file::read(&bytes).unwrap().digest_matches);
}

/// A drag over a quarter of the unrolled surface paints a quarter of it.
#[wasm_bindgen_test]
async fn a_drag_paints_the_sectors_it_goes_over() {
    let level = |id: &str| LevelId::new(id).unwrap();
    let (clean, heavy) = (level("clean"), level("heavy_carbon"));
    let draft = RwSignal::new(Draft::new(None, &clean));
    let brush = RwSignal::new(heavy.clone());
    let classes = [(heavy.clone(), "a"), (clean.clone(), "b")];
    let fills = StoredValue::new(Fills::new(classes.into_iter()));
    leptos::mount::mount_to_body(move || {
        view! { <Painter draft brush fills unrolled=true clean=clean.clone()/> }
    });
    leptos::task::tick().await;
    let surface = document()
        .query_selector(".painter__surface")
        .unwrap()
        .unwrap();
    surface.set_attribute("width", "720").unwrap();
    surface.set_attribute("height", "90").unwrap();
    let frame = surface.get_bounding_client_rect();
    let send = |kind: &str, sector: f64| {
        let options = web_sys::PointerEventInit::new();
        let x = frame.left() + (sector + 0.5) / 36.0 * frame.width();
        #[expect(clippy::cast_possible_truncation, reason = "pixels on a screen")]
        options.set_client_x(x as i32);
        #[expect(clippy::cast_possible_truncation, reason = "pixels on a screen")]
        options.set_client_y((frame.top() + frame.height() / 2.0) as i32);
        options.set_bubbles(true);
        let event = web_sys::PointerEvent::new_with_event_init_dict(kind, &options).unwrap();
        surface.dispatch_event(event.unchecked_ref()).unwrap();
    };
    send("pointermove", 30.0);
    assert!(
        draft.get_untracked().areas().shares.is_empty(),
        "nothing is painted before the press"
    );
    send("pointerdown", 0.0);
    (1..9).for_each(|sector| send("pointermove", f64::from(sector)));
    send("pointerup", 8.0);
    send("pointermove", 30.0);
    let areas = draft.get_untracked().areas();
    assert!((areas.shares[&heavy] - 25.0).abs() < 1e-9, "{areas:?}");
}
