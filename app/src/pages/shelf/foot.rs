//! The foot of the Shelf: storage and backups, the bin, the demo engines.

use leptos::{prelude::*, task::spawn_local};
use ringland_report::format::time::from_ms;

use super::{desk::use_desk, engine::name_of};
use crate::{
    components::{act::press, file_button::FileButton, live::live},
    persist::space::{self, Space},
    platform,
    store::{prefs::use_words, use_prefs, use_shelf},
};

/// Fuller than this, storage is called nearly full.
const NEARLY_FULL: f64 = 0.85;

/// How much storage is used and left, whether it stays, and when everything was last backed up.
#[component]
pub fn Storage() -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    view! {
        <section class="panel" aria-labelledby="storage-title">
            <h2 class="panel__title" id="storage-title">{words.shelf.storage}</h2>
            <Used/>
            <Stays/>
            {space::in_a_file().then(|| view! { <p id="in-a-file">{words.shelf.storage_in_file}</p> }.into_any())}
            <Backups/>
            <div class="panel__acts">
                <button type="button" class="button button--act" disabled=move || desk.busy()
                    on:click=press(move || desk.back_up())>{words.shelf.back_up}</button>
                <FileButton label=words.shelf.restore id="restore" picked=Callback::new(move |files| desk.intake.open(files))/>
            </div>
            <Bin/>
        </section>
    }
}

/// Engines to try things out with.
#[component]
pub fn Demo() -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    view! {
        <section class="panel" aria-labelledby="demo-title">
            <h2 class="panel__title" id="demo-title">{words.shelf.demo}</h2>
            <p>{words.shelf.demo_note}</p>
            <div class="panel__acts">
                <button type="button" class="button" disabled=move || desk.busy()
                    on:click=press(move || desk.put_demo())>{words.shelf.demo_put}</button>
            </div>
        </section>
    }
}

#[component]
fn Used() -> impl IntoView {
    let (shelf, words) = (use_shelf(), use_words());
    let space = RwSignal::new(None::<Option<Space>>);
    Effect::new(move || {
        // Asked anew whenever engines came or went.
        let _changed = shelf.cards().len();
        spawn_local(async move { space.set(Some(space::space().await)) });
    });
    let numbers = words.numbers;
    live(move || {
        space.get().map(|space| match space {
            None => view! { <p>{words.shelf.storage_unknown}</p> }.into_any(),
            Some(space) => {
                let full = space.used >= NEARLY_FULL * space.quota;
                #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a size in bytes")]
                let bytes = |size: f64| numbers.bytes(size as u64);
                view! {
                    <p class="num">{words.shelf.storage_used(&bytes(space.used), &bytes(space.left()))}</p>
                    {full.then(|| view! { <p class="panel__wrong" role="alert">{words.shelf.storage_low}</p> }.into_any())}
                }
                .into_any()
            }
        })
    })
}

/// The browser's promise, in plain words, and the way to ask for it again.
#[component]
fn Stays() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    // What the browser says; nothing before it has said something.
    let stays = RwSignal::new(None::<Option<bool>>);
    spawn_local(async move { stays.set(Some(space::stays().await)) });
    let ask = move || {
        prefs.set_asked_to_stay();
        spawn_local(async move { stays.set(Some(space::ask_to_stay().await)) });
    };
    live(move || {
        let text = match stays.get() {
            None => return ().into_any(),
            Some(Some(true)) => {
                return view! { <p id="stays">{words.shelf.storage_stays}</p> }.into_any();
            }
            Some(Some(false)) if prefs.asked_to_stay() => words.shelf.storage_refused,
            Some(Some(false)) => words.shelf.storage_may_go,
            Some(None) => words.safe.stays_unknown,
        };
        view! {
            <p id="stays">{text}</p>
            <button type="button" class="button" on:click=press(ask)>{words.shelf.storage_ask}</button>
        }
        .into_any()
    })
}

#[component]
fn Backups() -> impl IntoView {
    let (shelf, prefs, words) = (use_shelf(), use_prefs(), use_words());
    let last = move || match prefs.last_backup_ms() {
        None => words.shelf.never_backed_up.to_owned(),
        Some(ms) => words
            .shelf
            .backed_up(&words.date_time(from_ms(ms), platform::offset_minutes())),
    };
    let since = move || {
        let count = shelf.behind();
        (count > 0 && prefs.last_backup_ms().is_some()).then(|| words.shelf.changed_since(count))
    };
    view! { <p class="num">{live(last)}" "<b>{live(since)}</b></p> }
}

/// What was deleted and may still be brought back.
#[component]
fn Bin() -> impl IntoView {
    let (shelf, desk, words) = (use_shelf(), use_desk(), use_words());
    live(move || {
        let binned = shelf.binned();
        (!binned.is_empty()).then(|| {
            let lines = binned.into_iter().map(|card| {
                let name = name_of(words, card.summary.as_ref().ok());
                let id = card.id;
                view! {
                    <li class="bin__line">
                        <span>{name.clone()}</span>
                        <button type="button" class="button" aria-label=format!("{}: {name}", words.shelf.bring_back)
                            on:click=press(move || desk.bring_back(id, name.clone()))>{words.shelf.bring_back}</button>
                    </li>
                }
                .into_any()
            });
            view! {
                <h3 class="panel__side">{words.shelf.bin}</h3>
                <ul class="bin">{lines.collect_view()}</ul>
            }
            .into_any()
        })
    })
}
