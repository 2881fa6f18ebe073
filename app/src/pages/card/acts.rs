//! What can be done with the Card: save its file, write the report to hand over, open everything, print.

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{FactField, file::WritingCard};
use ringland_report::{format::file_name, help::Topic};

use super::{open::Opened, report::Writing};
use crate::{
    components::{act::press, live::live, working::Working},
    persist::transfer,
    route::Route,
    store::{prefs::use_words, use_card, use_prefs},
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
    let writing = Writing {
        store,
        prefs: use_prefs(),
        share: RwSignal::new(0.0),
        stop: RwSignal::new(false),
    };
    let under_way = RwSignal::new(false);
    let report = move || {
        if under_way.get_untracked() {
            return;
        }
        under_way.set(true);
        writing.share.set(0.0);
        writing.stop.set(false);
        spawn_local(async move {
            let page = writing.page().await;
            let saved = page.map(|page| transfer::save_text(&page.name, "text/html", &page.text));
            // The page may have been left by now.
            let _left = failed.try_set(saved.is_some_and(|saved| saved.is_err()));
            let _left = under_way.try_set(false);
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
    view! {
        <div class="head__acts">
            <button type="button" class="button" on:click=press(save)>{words.card.save_file}</button>
            <button type="button" class="button" id="report" on:click=press(report)>{words.hand_over.save}</button>
            <button type="button" class="button" on:click=press(open_all)>{live(label)}</button>
            <button type="button" class="button" on:click=press(print)>{words.card.print}</button>
            <a class="button" href=Route::Help(Topic::Score).href()>{words.help.score}</a>
            {live(move || under_way.get().then(|| view! {
                <Working id="report-progress" label=words.hand_over.saving share=writing.share stop=writing.stop/>
            }.into_any()))}
            {live(move || failed.get().then(|| view! { <p class="trouble" role="alert">{words.card.not_saved}</p> }.into_any()))}
        </div>
    }
}
