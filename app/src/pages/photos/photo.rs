//! One photo, whole, and what is marked on it.

use leptos::prelude::*;
use ringland_card::{Body, CardId, EntryId, Mark, Photo};
use ringland_report::photo::{Album, Shown, caption, overlay};

use super::marking::{Marking, Tools};
use crate::{
    app::{announce, go},
    components::{act::press, live::live, pictures::Pictures},
    pages::areas::rated_by_area,
    platform,
    route::Route,
    store::{open::Open, prefs::use_words, use_card, use_photos, use_prefs},
};

/// The screen of a photo.
#[component]
pub fn PhotoPage(
    /// Its entry.
    photo: EntryId,
) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let found = store.peek(|open| {
        let shown = find(open, photo, |open, shown, album| {
            let place = order(open, album);
            let here = place
                .iter()
                .position(|entry| *entry == photo)
                .unwrap_or_default();
            Whole {
                photo: shown.photo.clone(),
                title: words.photo_of(&open.card, shown.entry),
                before: here
                    .checked_sub(1)
                    .and_then(|before| place.get(before))
                    .copied(),
                after: place.get(here + 1).copied(),
            }
        });
        (open.card.id(), shown)
    });
    match found {
        Some((card, Some(whole))) => view! { <OnePhoto card entry=photo whole/> }.into_any(),
        Some((card, None)) => view! {
            <section class="photos">
                <p class="mute">{words.names.gone}</p>
                <a class="button" href=Route::Photos(card).href()>{words.photos.back}</a>
            </section>
        }
        .into_any(),
        None => ().into_any(),
    }
}

/// What a photo's page is made of.
#[derive(Clone)]
struct Whole {
    photo: Photo,
    title: String,
    before: Option<EntryId>,
    after: Option<EntryId>,
}

/// The entries of all photos, in the order of the wall.
fn order(open: &Open, album: &Album<'_>) -> Vec<EntryId> {
    let groups = album.groups(&open.card.standing(), use_words());
    let numbers = groups.iter().flat_map(|group| &group.photos);
    numbers
        .map(|number| album.photos[*number].entry.id)
        .collect()
}

fn find<T>(
    open: &Open,
    photo: EntryId,
    read: impl FnOnce(&Open, &Shown<'_>, &Album<'_>) -> T,
) -> Option<T> {
    let blind = use_prefs().blind();
    let album = Album::of(&open.card.standing()).seen_blind(blind.as_deref());
    let shown = album.photos.iter().find(|shown| shown.entry.id == photo)?;
    Some(read(open, shown, &album))
}

#[component]
fn OnePhoto(card: CardId, entry: EntryId, whole: Whole) -> impl IntoView {
    let (store, photos, words) = (use_card(), use_photos(), use_words());
    let pictures = Pictures::whole();
    pictures.fetch(vec![whole.photo.clone()]);
    let marking = Marking::of(entry, whole.photo.picture);
    let taken = words.taken(whole.photo.taken);
    let alt = words.photos.alt(&whole.title, taken);
    let by = store.peek(|open| {
        let entry = open.card.entry(entry)?;
        let when = words.date_time(entry.time, platform::offset_minutes());
        Some(words.pad.by(&entry.rater, &when))
    });
    let by = by.flatten().unwrap_or_default();
    let picture = whole.photo.picture;
    let drawn = move || {
        let mut marks: Vec<Mark> = marks_on(store.whole(|open| marks(open, entry)));
        marks.extend(marking.draft());
        overlay(words, &picture, &marks.iter().collect::<Vec<_>>())
    };
    let step = |to: Option<EntryId>, name: &'static str, id: &'static str| {
        to.map(|to| {
            view! { <a class="button" id=id href=Route::Photo(card, to).href()>{name}</a> }
                .into_any()
        })
    };
    let take_out = move || {
        photos.take_out(entry, move |kept| match kept {
            Ok(()) => {
                announce(words.photos.taken_out);
                go(Route::Photos(card));
            }
            Err(why) => marking.refuse(photos.refusal(words, &why)),
        });
    };
    let writable = !store.read_only();
    let by_area = store.peek(
        |open| match open.card.entry(entry).map(|entry| &entry.body) {
            Some(Body::Photo { about, .. }) => rated_by_area(open, about.as_ref()).next().is_some(),
            _ => false,
        },
    );
    let by_area = by_area.unwrap_or_default();
    let class = move || {
        if marking.is_drawing() {
            "viewer__touch viewer__touch--draw"
        } else {
            "viewer__touch"
        }
    };
    view! {
        <section class="photos">
            <header class="photos__head">
                <h1>{whole.title.clone()}</h1>
                <p class="fine">{caption(taken, &by)}</p>
                <nav class="photos__acts">
                    <a class="button" href=Route::Photos(card).href()>{words.photos.back}</a>
                    {step(whole.before, words.photos.earlier, "photo-before")}
                    {step(whole.after, words.photos.later, "photo-after")}
                </nav>
            </header>
            <div class="viewer">
                <div class="viewer__picture" id="photo">
                    {pictures.show(&whole.photo, alt)}
                    <span class="viewer__marks" inner_html=drawn></span>
                    <div class=class id="photo-touch"
                        on:pointerdown=move |event| marking.down(&event)
                        on:pointermove=move |event| marking.moved(&event)
                        on:pointerup=move |event| marking.up(&event)></div>
                </div>
                <aside class="viewer__side">
                    {(writable && by_area).then(|| view! {
                        <a class="button" id="photo-areas" href=Route::Areas(card, entry).href()>{words.photo_areas.from_photo}</a>
                    }.into_any())}
                    {writable.then(|| view! { <Tools marking/> }.into_any())}
                    <h2>{words.photos.marks}</h2>
                    {live(move || said(entry, marking, writable))}
                    {writable.then(|| view! {
                        <button type="button" class="button" id="photo-out" on:click=press(take_out)>{words.photos.take_out_photo}</button>
                    }.into_any())}
                </aside>
            </div>
        </section>
    }
}

fn marks_on(marks: Option<Vec<(EntryId, Mark)>>) -> Vec<Mark> {
    marks
        .unwrap_or_default()
        .into_iter()
        .map(|(_, mark)| mark)
        .collect()
}

fn marks(open: &Open, photo: EntryId) -> Vec<(EntryId, Mark)> {
    let marks = find(open, photo, |_, shown, _| {
        shown
            .marks
            .iter()
            .map(|(entry, mark)| (entry.id, (*mark).clone()))
            .collect()
    });
    marks.unwrap_or_default()
}

/// The marks in words, each to be taken out.
fn said(entry: EntryId, marking: Marking, writable: bool) -> AnyView {
    let (store, photos, words) = (use_card(), use_photos(), use_words());
    let marks = store.whole(|open| marks(open, entry)).unwrap_or_default();
    if marks.is_empty() {
        return view! { <p class="mute" id="photo-marks">{words.photos.no_marks}</p> }.into_any();
    }
    let measured = marks.iter().any(|(_, mark)| mark.is_length());
    let all: Vec<&Mark> = marks.iter().map(|(_, mark)| mark).collect();
    let items = marks.iter().map(|(id, mark)| {
        let id = *id;
        let out = move || {
            photos.take_out(id, move |kept| {
                if let Err(why) = kept {
                    marking.refuse(photos.refusal(words, &why));
                }
            });
        };
        let said = words.mark_among(mark, &all);
        let label = format!("{}: {said}", words.photos.take_out);
        view! {
            <li class="viewer__mark">
                <span>{said}</span>
                {writable.then(|| view! {
                    <button type="button" class="button" aria-label=label on:click=press(out)>{words.photos.take_out}</button>
                }.into_any())}
            </li>
        }
        .into_any()
    });
    view! {
        <ul class="viewer__list" id="photo-marks">{items.collect_view()}</ul>
        {measured.then(|| view! { <p class="fine">{words.photos.read_off}</p> }.into_any())}
    }
    .into_any()
}
