//! The card and its photos in one file, put together photo by photo so that the tablet never holds all of them at once.

use js_sys::{Array, Uint8Array};
use leptos::{prelude::*, task::spawn_local};
use ringland_card::{
    CardId, FactField, Photo,
    file::{BundleWriter, WritingCard},
};
use ringland_report::format::file_name;
use wasm_bindgen::JsValue;

use crate::{
    components::{act::press, live::live, working::Working},
    persist::{photos::Kept, transfer},
    slices::{Slices, Stopped},
    store::{CardStore, prefs::use_words, use_card},
};

/// How the name of the file ends, after that of the card.
const ENDS: &str = ".card.zip";

/// What came of the last file.
#[derive(Clone, Debug, PartialEq)]
enum Made {
    /// It was saved: its name, how many photos are in it and how many are not, its size in bytes.
    Saved {
        name: String,
        photos: usize,
        missing: usize,
        bytes: u64,
    },
    /// The browser did not give or save something.
    Not,
}

/// Saves the card with its photos; nothing where it names none.
#[component]
pub fn WithPhotos() -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let (share, stop) = (RwSignal::new(0.0), RwSignal::new(false));
    let under_way = RwSignal::new(false);
    let made = RwSignal::new(None::<Made>);
    let any = Memo::new(move |_| {
        store
            .whole(|open| !open.card.photos_named().is_empty())
            .unwrap_or_default()
    });
    let save = move || {
        if under_way.get_untracked() {
            return;
        }
        under_way.set(true);
        made.set(None);
        share.set(0.0);
        stop.set(false);
        spawn_local(async move {
            let came = match write(store, &mut Slices::until(stop, share)).await {
                Ok(Ok(saved)) => Some(saved),
                Ok(Err(_refused)) => Some(Made::Not),
                Err(Stopped) => None,
            };
            // The page may have been left by now.
            let _left = made.try_set(came);
            let _left = under_way.try_set(false);
        });
    };
    let outcome = move || {
        Some(match made.get()? {
            Made::Not => {
                view! { <p class="trouble" role="alert">{words.card.not_saved}</p> }.into_any()
            }
            Made::Saved {
                name,
                photos,
                missing,
                bytes,
            } => {
                let (photos, bytes) = (words.photos.count(photos), words.numbers.bytes(bytes));
                let without = (missing > 0).then(|| words.photos.saved_without(missing));
                view! {
                    <p class="head__made" role="status">{words.photos.saved_with(&name, &photos, &bytes)}</p>
                    {without.map(|said| view! { <p class="trouble">{said}</p> }.into_any())}
                }
                .into_any()
            }
        })
    };
    live(move || {
        any.get().then(|| {
            view! {
                <button type="button" class="button" id="save-with-photos" on:click=press(save)>{words.photos.save_with}</button>
                {live(move || under_way.get().then(|| view! {
                    <Working id="bundle-progress" label=words.photos.saving_with share stop/>
                }.into_any()))}
                {live(outcome)}
            }
            .into_any()
        })
    })
}

/// Puts the file together and saves it.
async fn write(store: CardStore, slices: &mut Slices) -> Result<Result<Made, JsValue>, Stopped> {
    let begun = store.peek(|open| {
        let name = open.card.standing().text(FactField::Name);
        let name = file_name(name.unwrap_or_default(), "engine", ENDS);
        let writing = open.stored.writing(&open.card);
        let photos: Vec<Photo> = open.card.photos_named().into_values().cloned().collect();
        (open.card.id(), name, photos, writing)
    });
    let Some((card, name, photos, writing)) = begun else {
        return Err(Stopped);
    };
    let Some(file) = store.in_slices(writing, WritingCard::step).await else {
        return Err(Stopped);
    };
    let parts = Array::new();
    let put = pack(store, card, (&name, &file), &photos, &parts, slices).await?;
    Ok(put.and_then(|packed| {
        let file = transfer::file_of_parts(&name, "application/zip", &parts)?;
        transfer::save(&file)?;
        let bytes = transfer::size(&file);
        Ok(Made::Saved {
            name,
            photos: packed,
            missing: photos.len() - packed,
            bytes,
        })
    }))
}

/// Puts the archive's parts together; how many photos are in it.
async fn pack(
    store: CardStore,
    card: CardId,
    (name, file): (&str, &str),
    photos: &[Photo],
    parts: &Array,
    slices: &mut Slices,
) -> Result<Result<usize, JsValue>, Stopped> {
    let refused = |why: &dyn std::fmt::Display| JsValue::from_str(&why.to_string());
    let Some(db) = store.db() else {
        return Err(Stopped);
    };
    let add = |bytes: Vec<u8>| {
        parts.push(&Uint8Array::from(&*bytes));
    };
    let mut writer = match BundleWriter::new(name.trim_end_matches(ENDS), file) {
        Ok(writer) => writer,
        Err(why) => return Ok(Err(refused(&why))),
    };
    let mut packed = 0;
    for (number, photo) in photos.iter().enumerate() {
        slices.tell(number as f64 / photos.len() as f64);
        add(writer.take());
        let bytes = match db.photo(Kept::Photo, card, photo.digest).await {
            Ok(bytes) => bytes,
            Err(why) => return Ok(Err(refused(&why))),
        };
        if let Some(bytes) = bytes {
            if let Err(why) = writer.photo(photo, &bytes.to_vec()) {
                return Ok(Err(refused(&why)));
            }
            packed += 1;
        }
        slices.turn().await?;
    }
    Ok(writer
        .finish()
        .map(|rest| {
            add(rest);
            packed
        })
        .map_err(|why| refused(&why)))
}
