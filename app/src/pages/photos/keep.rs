//! The buttons that take a photo, and what came of the last ones.

use leptos::prelude::*;
use ringland_card::{Taken, entry::About};

use crate::{
    components::{
        choice::{Choice, Offer, place},
        file_button::FileButton,
        live::live,
    },
    persist::camera::LONGER_SIDE,
    store::{prefs::use_words, use_card, use_photos},
};

/// What the browser is to offer: any picture that it can read.
const PICTURES: &str = "image/*";

/// Takes photos of a position, or of the engine.
#[component]
pub fn Keep(
    /// Of what; of the engine where there is none.
    about: Option<About>,
) -> impl IntoView {
    let (store, photos, words) = (use_card(), use_photos(), use_words());
    photos.forget();
    let of = StoredValue::new(about);
    let keep = Callback::new(move |files| photos.keep(files, of.get_value()));
    let offers = Taken::ALL
        .map(|taken| Offer::plain(words.taken(taken)))
        .to_vec();
    let turn = move |place: usize| photos.taken.set(Taken::ALL[place.min(1)]);
    (!store.read_only()).then(|| {
        view! {
            <div class="keep-photos">
                <div class="keep-photos__acts">
                    <FileButton label=words.photos.take id="photo-take" class="button--act" accept=PICTURES camera=true picked=keep/>
                    <FileButton label=words.photos.from_files id="photo-files" accept=PICTURES picked=keep/>
                </div>
                <Choice label=words.photos.show_part name="taken" offers
                    chosen=Signal::derive(move || place(&Taken::ALL, &photos.taken.get())) choose=Callback::new(turn)/>
                <label class="check">
                    <input type="checkbox" id="photo-full" prop:checked=move || photos.full_size.get()
                        on:change=move |event| photos.full_size.set(event_target_checked(&event))/>
                    <span>{words.photos.full_size}" "<small class="mute">{words.photos.full_size_hint(&words.numbers.count(LONGER_SIDE as usize))}</small></span>
                </label>
                <Outcome/>
            </div>
        }
        .into_any()
    })
}

/// What is under way, and what came of the last ones.
#[component]
pub fn Outcome() -> impl IntoView {
    let (photos, words) = (use_photos(), use_words());
    live(move || {
        if let Some((number, all)) = photos.under_way() {
            let said = words.photos.keeping(number, all);
            return view! { <p class="fine num" id="photo-working" role="status">{said}</p> }
                .into_any();
        }
        let (kept, refused) = photos.outcome();
        if kept + refused.len() == 0 {
            return ().into_any();
        }
        let class = if refused.is_empty() {
            "fine"
        } else {
            "trouble"
        };
        let lines = photos
            .said(words)
            .into_iter()
            .map(|line| view! { <p>{line}</p> }.into_any());
        view! { <div class=class id="photo-outcome">{lines.collect_view()}</div> }.into_any()
    })
}
