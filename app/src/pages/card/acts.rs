//! What can be done with the Card: save its file, open everything, print.

use leptos::prelude::*;
use ringland_card::FactField;
use ringland_report::help::Topic;

use super::open::Opened;
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
        let written = store.peek(|open| {
            let name = open
                .card
                .standing()
                .text(FactField::Name)
                .unwrap_or_default()
                .to_owned();
            (
                transfer::file_name(&name, "engine", ".card.json"),
                open.stored.file_of(&open.card),
            )
        });
        if let Some((name, text)) = written {
            failed.set(transfer::save_text(&name, "application/json", &text).is_err());
        }
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
    view! {
        <div class="head__acts">
            <button type="button" class="button" on:click=press(save)>{words.card.save_file}</button>
            <button type="button" class="button" on:click=press(open_all)>{live(label)}</button>
            <button type="button" class="button" on:click=press(print)>{words.card.print}</button>
            <a class="button" href=Route::Help(Topic::Score).href()>{words.help.score}</a>
            {live(move || failed.get().then(|| view! { <p class="trouble" role="alert">{words.card.not_saved}</p> }.into_any()))}
        </div>
    }
}
