//! The photos of an engine: the wall, and one at a time.

pub mod keep;
mod marking;
pub mod photo;
pub mod pointing;

use leptos::prelude::*;
use ringland_card::{CardId, Photo};
use ringland_report::photo::{Album, Group, Row, Shown, caption, overlay};

use self::keep::Keep;
use crate::{
    components::{
        act::text,
        choice::{Choice, Offer},
        live::live,
        pictures::Pictures,
    },
    platform,
    route::Route,
    store::{open::Open, prefs::use_words, use_card, use_prefs},
};

/// Photos shown at once: a card may name so many that a page would be long in making.
const MOST: usize = 600;

/// The wall: all photos by position, or one kind of place side by side along the engine.
#[component]
pub fn WallPage() -> impl IntoView {
    let (store, prefs, words) = (use_card(), use_prefs(), use_words());
    let pictures = Pictures::small();
    let along = RwSignal::new(0_usize);
    let row = RwSignal::new(0_usize);
    // Whatever is on the wall is fetched, and what comes to it later.
    Effect::new(move || {
        let photos = store.whole(|open| {
            let album = Album::of(&open.card.standing());
            album
                .photos
                .iter()
                .take(MOST)
                .map(|shown| shown.photo.clone())
                .collect::<Vec<Photo>>()
        });
        pictures.fetch(photos.unwrap_or_default());
    });
    let count = move || {
        store
            .whole(|open| Album::of(&open.card.standing()).photos.len())
            .unwrap_or_default()
    };
    let offers = vec![
        Offer::plain(words.photos.by_position),
        Offer::plain(words.photos.side_by_side),
    ];
    let wall = move || {
        let wall = store.whole(|open| {
            let standing = open.card.standing();
            let blind = prefs.blind();
            let album = Album::of(&standing).seen_blind(blind.as_deref());
            if along.get() == 0 {
                let groups = album.groups(&standing, words);
                groups
                    .iter()
                    .map(|group| hung(open, &album, group, pictures))
                    .collect_view()
            } else {
                let rows = album.rows(&standing, words);
                let groups = rows.get(row.get().min(rows.len().saturating_sub(1)));
                let groups = groups.map(|row| row.groups.as_slice()).unwrap_or_default();
                groups
                    .iter()
                    .map(|group| hung(open, &album, group, pictures))
                    .collect_view()
            }
        });
        let class = if along.get() == 0 {
            "wall"
        } else {
            "wall wall--along"
        };
        view! { <div class=class>{wall}</div> }
    };
    let rows = move || {
        (along.get() == 1).then(|| {
            let rows = store.whole(|open| {
                let standing = open.card.standing();
                Album::of(&standing).rows(&standing, words)
            });
            view! { <RowPicker rows=rows.unwrap_or_default() row/> }.into_any()
        })
    };
    view! {
        <section class="photos">
            <header class="photos__head">
                <h1>{words.photos.title}" "<small class="num">{live(move || words.photos.count(count()))}</small></h1>
                <Keep about=None/>
            </header>
            {live(move || match count() {
                0 => view! {
                    <div class="photos__none">
                        <h2>{words.photos.none}</h2>
                        <p class="mute">{words.photos.none_hint}</p>
                    </div>
                }.into_any(),
                _ => view! {
                    <div class="photos__ways">
                        <Choice label=words.photos.wall name="wall" offers=offers.clone()
                            chosen=along.into() choose=Callback::new(move |place| along.set(place)) quiet=true/>
                        {live(rows)}
                    </div>
                }.into_any(),
            })}
            {live(wall)}
            {live(move || count().checked_sub(MOST).filter(|more| *more > 0).map(|more| view! {
                <p class="mute">{words.photos.not_hung(more)}</p>
            }.into_any()))}
        </section>
    }
}

/// Which kind of place is shown side by side.
#[component]
fn RowPicker(rows: Vec<Row>, row: RwSignal<usize>) -> impl IntoView {
    let words = use_words();
    let choose = move |typed: String| row.set(typed.parse().unwrap_or_default());
    let options = rows.into_iter().enumerate().map(|(number, kind)| {
        view! { <option value=number.to_string() selected=move || row.get() == number>{kind.title}</option> }.into_any()
    });
    view! {
        <label class="field">
            <span class="field__label">{words.photos.row}</span>
            <select class="field__input" id="photo-row" on:change=text(choose)>{options.collect_view()}</select>
        </label>
    }
}

/// The photos of a position, under its name.
fn hung(open: &Open, album: &Album<'_>, group: &Group, pictures: Pictures) -> AnyView {
    let words = use_words();
    let card = open.card.id();
    let photos: Vec<AnyView> = group
        .photos
        .iter()
        .filter(|number| **number < MOST)
        .map(|number| small(card, &album.photos[*number], &group.title, pictures))
        .collect();
    let inside = if photos.is_empty() {
        view! { <p class="photo__gone">{words.photos.none_here}</p> }.into_any()
    } else {
        view! { <div class="album">{photos}</div> }.into_any()
    };
    view! {
        <section class="album__group">
            <h2 class="album__title">{group.title.clone()}</h2>
            {inside}
        </section>
    }
    .into_any()
}

/// A photo in small, with what is marked on it; pressed, it is shown whole.
pub fn small(card: CardId, shown: &Shown<'_>, title: &str, pictures: Pictures) -> AnyView {
    let words = use_words();
    let taken = words.taken(shown.photo.taken);
    let when = words.date_time(shown.entry.time, platform::offset_minutes());
    let by = words.pad.by(&shown.entry.rater, &when);
    let below = caption(taken, &by);
    let marks: Vec<_> = shown.marks.iter().map(|(_, mark)| *mark).collect();
    let drawn = (!marks.is_empty()).then(|| overlay(words, &shown.photo.picture, &marks));
    // Its name stands beside it, for whoever listens.
    let picture = pictures.show(shown.photo, String::new());
    view! {
        <a class="photo photo--small" href=Route::Photo(card, shown.entry.id).href() data-photo=shown.entry.id.to_string()>
            <span class="visually-hidden">{words.photos.open(title)}</span>
            <span class="photo__frame">
                {picture}
                {drawn.map(|drawn| view! { <span inner_html=drawn></span> }.into_any())}
            </span>
            <span class="fine">{below.clone()}</span>
        </a>
    }
    .into_any()
}
