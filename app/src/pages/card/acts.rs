//! What can be done with the Card: save its file, write the report to hand over, open everything, print.

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{FactField, file::WritingCard};
use ringland_report::{format::file_name, help::Topic};

use super::{bundle::WithPhotos, open::Opened, report::Report, seal::SealCard};
use crate::{
    components::{act::press, live::live},
    persist::transfer,
    route::Route,
    store::{prefs::use_words, use_card},
};

/// The buttons beside the name.
#[component]
pub fn Acts(
    /// What is open.
    opened: Opened,
) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let failed = RwSignal::new(false);
    let save = move || {
        let begun = store.peek(|open| {
            let name = open.card.standing().text(FactField::Name);
            let name = file_name(name.unwrap_or_default(), "engine", ".card.json");
            (name, open.stored.writing(&open.card))
        });
        let Some((name, writing)) = begun else { return };
        spawn_local(async move {
            let text = store.in_slices(writing, WritingCard::step).await;
            if let Some(text) = text {
                let saved = transfer::save_text(&name, "application/json", &text);
                let _left = failed.try_set(saved.is_err());
            }
        });
    };
    let open_all = move || {
        if opened.all() {
            opened.close_all();
        } else {
            opened.open_all();
        }
    };
    let label = move || match (opened.opening(), opened.all()) {
        (Some(done), _) => words.card.opening_all(done, opened.count()),
        (None, true) => words.card.close_all.to_owned(),
        (None, false) => words.card.open_all.to_owned(),
    };
    // A browser that cannot print shows no dialog; nothing else happens.
    let print = move || drop(window().print());
    let photos = store.peek(|open| {
        let (to, n) = (Route::Photos(open.card.id()).href(), open.card.standing().photos.len());
        view! { <a class="button" id="to-photos" href=to>{words.photos.title}" "<small class="num">{n}</small></a> }.into_any()
    });
    view! {
        <div class="head__acts">
            <button type="button" class="button" on:click=press(save)>{words.card.save_file}</button>
            <WithPhotos/>
            <Report/>
            {photos}
            <button type="button" class="button" on:click=press(open_all)>{live(label)}</button>
            <button type="button" class="button" on:click=press(print)>{words.card.print}</button>
            <SealCard/>
            <a class="button" href=Route::Help(Topic::Score).href()>{words.help.score}</a>
            {live(move || failed.get().then(|| view! { <p class="trouble" role="alert">{words.card.not_saved}</p> }.into_any()))}
        </div>
    }
}
