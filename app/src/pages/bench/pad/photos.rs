//! Photos of the position on the pad.

use leptos::prelude::*;
use ringland_card::{CardId, Photo, entry::About, plan::LeafId};
use ringland_report::photo::Album;

use crate::{
    components::{file_button::FileButton, live::live, pictures::Pictures},
    pages::photos::{keep::Keep, small},
    route::Route,
    store::{CardStore, prefs::use_words, use_card, use_photos, use_prefs},
};

/// What a photo of a leaf's position is about.
fn about(store: CardStore, leaf: LeafId) -> Option<About> {
    let position = store.peek(|open| {
        let leaf = open.card.index().leaf(leaf)?;
        Some(leaf.position(open.card.plan()).id.clone())
    });
    Some(About {
        position: position.flatten()?,
        characteristic: None,
    })
}

/// How many photos there are of a leaf's position.
pub(super) fn count(store: CardStore, leaf: LeafId) -> usize {
    let at = about(store, leaf);
    let position = at.as_ref().map(|about| about.position.as_str());
    store
        .whole(|open| Album::of(&open.card.standing()).at(position).len())
        .unwrap_or_default()
}

/// Takes a photo of the position with one tap, and stays on the pad.
#[component]
pub(super) fn TakePhoto(leaf: LeafId) -> impl IntoView {
    let (store, photos, words) = (use_card(), use_photos(), use_words());
    photos.forget();
    let keep = Callback::new(move |files| photos.keep(files, about(store, leaf)));
    view! {
        <FileButton label=words.photos.take id="pad-photo" class="pad__act" accept="image/*" camera=true picked=keep/>
    }
}

/// The photos of the position, and more of them.
#[component]
pub(super) fn PhotosPad(leaf: LeafId) -> impl IntoView {
    let (store, prefs, words) = (use_card(), use_prefs(), use_words());
    let pictures = Pictures::small();
    let at = about(store, leaf);
    let of = StoredValue::new(at.clone());
    let card: Option<CardId> = store.peek(|open| open.card.id());
    Effect::new(move || {
        let photos = store.whole(|open| {
            let album = Album::of(&open.card.standing());
            let here = of.with_value(|at| {
                album
                    .at(at.as_ref().map(|about| about.position.as_str()))
                    .to_vec()
            });
            here.iter()
                .map(|number| album.photos[*number].photo.clone())
                .collect::<Vec<Photo>>()
        });
        pictures.fetch(photos.unwrap_or_default());
    });
    let hung = move || {
        store.whole(|open| {
            let blind = prefs.blind();
            let album = Album::of(&open.card.standing()).seen_blind(blind.as_deref());
            let here = of.with_value(|at| {
                album
                    .at(at.as_ref().map(|about| about.position.as_str()))
                    .to_vec()
            });
            let shown = here.iter().map(|number| &album.photos[*number]);
            shown
                .map(|shown| {
                    small(
                        open.card.id(),
                        shown,
                        &words.photo_of(&open.card, shown.entry),
                        pictures,
                    )
                })
                .collect_view()
        })
    };
    view! {
        <h3 class="pad__side">{words.photos.here}</h3>
        <div class="album">{live(hung)}</div>
        <Keep about=at/>
        {card.map(|card| view! { <a class="button" href=Route::Photos(card).href()>{words.photos.wall}</a> }.into_any())}
    }
}
