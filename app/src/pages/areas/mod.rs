//! Areas read off a photo: the surface is outlined, its shades parted into classes, and what comes of it goes to the pad.

mod classes;
mod reading;
mod tools;

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{
    CardId, EntryId, Photo,
    entry::{About, Body},
    plan::LeafId,
};
use ringland_report::{help::Topic, photo::region, words::capitalised};

use self::{classes::Classes, reading::Reading, tools::Tools};
use crate::{
    components::{act::text, live::live, pictures::Pictures},
    persist::{camera::pixels_of, photos::Kept},
    route::Route,
    store::{CardStore, open::Open, prefs::use_words, use_card},
};

/// What the page begins with.
#[derive(Clone)]
struct Begin {
    card: CardId,
    photo: Photo,
    title: String,
    /// What is rated by area in the photo's position.
    leaves: Vec<(LeafId, String)>,
}

/// The screen.
#[component]
pub fn AreasPage(
    /// The photo's entry.
    photo: EntryId,
) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    match store.peek(|open| begin(open, photo)).flatten() {
        Some(begun) => view! { <OnPhoto entry=photo begun/> }.into_any(),
        None => view! {
            <section class="photos"><p class="mute">{words.names.gone}</p></section>
        }
        .into_any(),
    }
}

fn begin(open: &Open, entry: EntryId) -> Option<Begin> {
    let words = use_words();
    let entry = open.card.entry(entry)?;
    let Body::Photo { about, photo } = &entry.body else {
        return None;
    };
    let plan = open.card.plan();
    let name = |leaf: LeafId| {
        let look = open.card.index().leaf(leaf)?.characteristic(plan);
        Some((leaf, capitalised(words.characteristic_name(look))))
    };
    Some(Begin {
        card: open.card.id(),
        photo: (**photo).clone(),
        title: words.photo_of(&open.card, entry),
        leaves: rated_by_area(open, about.as_ref())
            .filter_map(name)
            .collect(),
    })
}

/// What is rated by area where a photo was taken.
pub fn rated_by_area<'o>(
    open: &'o Open,
    about: Option<&About>,
) -> impl Iterator<Item = LeafId> + use<'o> {
    let (plan, index) = (open.card.plan(), open.card.index());
    let position = about.map(|about| about.position.as_str());
    let here = position.map_or(0..0, |position| index.of_position(plan, position));
    here.map(LeafId).filter(move |leaf| {
        let look = index.leaf(*leaf).map(|leaf| leaf.characteristic(plan));
        let scale = look.and_then(|look| plan.scale(&look.scale));
        scale.is_some_and(|scale| !scale.levels().is_empty())
    })
}

/// The leaf that the address asks for, or the first that is rated by area.
fn first_leaf(leaves: &[(LeafId, String)]) -> Option<LeafId> {
    let asked = Route::areas_asked(&window().location().hash().unwrap_or_default());
    let known = leaves.iter().map(|(leaf, _)| *leaf);
    asked
        .filter(|asked| known.clone().any(|leaf| leaf == *asked))
        .or_else(|| known.clone().next())
}

#[component]
fn OnPhoto(entry: EntryId, begun: Begin) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let (w, photo) = (&words.photo_areas, begun.photo);
    let picture = photo.picture;
    let pictures = Pictures::whole();
    pictures.fetch(vec![photo.clone()]);
    let reading = Reading::of(entry, picture);
    reading.leaf.set(first_leaf(&begun.leaves));
    give(store, begun.card, &photo, reading);
    let drawn = move || region(&picture, &reading.region(), &reading.at_hand());
    let back = Route::Photo(begun.card, entry).href();
    let (alt, none) = (
        words.photos.alt(&begun.title, words.taken(photo.taken)),
        begun.leaves.is_empty(),
    );
    let leaves = begun.leaves;
    let options = leaves.into_iter().map(|(leaf, name)| {
        let selected = move || reading.leaf.get() == Some(leaf);
        view! { <option value=leaf.0.to_string() selected=selected>{name}</option> }.into_any()
    });
    let choose = move |typed: String| reading.leaf.set(typed.parse().ok().map(LeafId));
    view! {
        <section class="photos areas-page">
            <header class="photos__head">
                <h1>{w.title}" "<small>{begun.title.clone()}</small></h1>
                <nav class="photos__acts">
                    <a class="button" href=back>{w.back}</a>
                    <a class="button" href=Route::Help(Topic::Photos).href()>{words.help.photos}</a>
                </nav>
            </header>
            <div class="viewer">
                <div class="viewer__picture" id="photo">
                    {pictures.show(&photo, alt)}
                    <canvas class="viewer__classes" id="areas-classes" node_ref=reading.canvas aria-hidden="true"></canvas>
                    <span class="viewer__marks" inner_html=drawn></span>
                    <div class="viewer__touch viewer__touch--draw" id="photo-touch"
                        on:pointerdown=move |event| reading.down(&event)
                        on:pointermove=move |event| reading.moved(&event)
                        on:pointerup=move |event| reading.up(&event)></div>
                </div>
                <aside class="viewer__side">
                    {if none {
                        view! { <p class="trouble" role="alert">{w.nothing_by_area}</p> }.into_any()
                    } else {
                        view! {
                            <label class="field">
                                <span class="field__label">{w.what}</span>
                                <select class="field__input" id="areas-leaf" on:change=text(choose)>{options.collect_view()}</select>
                            </label>
                        }.into_any()
                    }}
                    <Tools reading/>
                    {live(move || (!none).then(|| view! { <Classes reading card=begun.card/> }.into_any()))}
                </aside>
            </div>
        </section>
    }
}

/// Fetches the photo's pixels and hands them to the worker.
fn give(store: CardStore, card: CardId, photo: &Photo, reading: Reading) {
    let (digest, db) = (photo.digest, store.db());
    spawn_local(async move {
        let Some(db) = db else { return };
        let Ok(Some(bytes)) = db.photo(Kept::Photo, card, digest).await else {
            return reading.refuse_all("gone");
        };
        match pixels_of(&bytes).await {
            Ok(plane) => reading.give(plane),
            Err(_unread) => reading.refuse_all("pixels"),
        }
    });
}
