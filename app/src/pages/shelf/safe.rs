//! What the Shelf says of what is safe and what is not: storage that was cleared, records that are
//! damaged, a backup that is old.

use leptos::prelude::*;
use ringland_report::format::time::from_ms;

use super::{
    desk::{backup_name, use_desk},
    engine::Damaged,
};
use crate::{
    components::{act::press, file_button::FileButton, live::live},
    platform,
    store::{prefs::use_words, use_prefs, use_shelf},
};

const DAY_MS: i64 = 24 * 60 * 60 * 1000;
/// A backup older than this is an old one.
const OLD_MS: i64 = 7 * DAY_MS;

/// Everything of it that there is to say now.
#[component]
pub fn Safe() -> impl IntoView {
    view! {
        <Cleared/>
        <Lost/>
        <Reminder/>
    }
}

/// The browser has cleared the storage: what is gone, and how it comes back.
#[component]
fn Cleared() -> impl IntoView {
    let (desk, shelf, prefs, words) = (use_desk(), use_shelf(), use_prefs(), use_words());
    let how = move || match prefs.last_backup_ms() {
        Some(ms) => {
            let made = from_ms(ms);
            let when = words.date_time(made, platform::offset_minutes());
            words.safe.cleared_backup(&when, &backup_name(made))
        }
        None => words.safe.cleared_no_backup.to_owned(),
    };
    live(move || {
        shelf.cleared().map(|engines| {
            view! {
                <section class="safe safe--wrong" id="cleared" role="alert">
                    <h2 class="safe__title">{words.safe.cleared(engines)}</h2>
                    <p>{how()}</p>
                    <div class="panel__acts">
                        <FileButton label=words.shelf.restore id="restore-cleared" class="button--act"
                            picked=Callback::new(move |files| desk.intake.open(files))/>
                        <button type="button" class="button" on:click=press(move || shelf.go_on())>{words.safe.cleared_seen}</button>
                    </div>
                </section>
            }
            .into_any()
        })
    })
}

/// Engines of which nothing can be read: named, and what is left of each as a file.
#[component]
fn Lost() -> impl IntoView {
    let (desk, shelf, words) = (use_desk(), use_shelf(), use_words());
    live(move || {
        let lost = shelf.lost().into_iter().map(|lost| {
            let name = if lost.name.is_empty() {
                words.shelf.nameless.to_owned()
            } else {
                lost.name
            };
            view! {
                <section class="safe safe--wrong" role="alert">
                    <p>{words.safe.lost(&name)}</p>
                    <div class="panel__acts">
                        <Damaged key=lost.key name/>
                        <FileButton label=words.shelf.restore id="restore-lost"
                            picked=Callback::new(move |files| desk.intake.open(files))/>
                    </div>
                </section>
            }
            .into_any()
        });
        lost.collect_view()
    })
}

/// There is work that is in no backup, and the last one is old: said until there is a new one.
#[component]
fn Reminder() -> impl IntoView {
    let (desk, shelf, prefs, words) = (use_desk(), use_shelf(), use_prefs(), use_words());
    let since = move || {
        let now = platform::now().as_millisecond();
        let (last, began) = (prefs.last_backup_ms(), prefs.began_ms());
        let age = now - last.or(began)?;
        let old = if last.is_some() { OLD_MS } else { DAY_MS };
        // A clock that was set back says nothing: better one backup too many.
        (age >= old || age < 0).then_some(last.map(|_| age / DAY_MS))
    };
    live(move || {
        let behind = shelf.behind();
        let days = since().filter(|_| behind > 0)?;
        let days = days.and_then(|days| usize::try_from(days).ok());
        let last = days.map_or_else(
            || words.shelf.never_backed_up.to_owned(),
            |days| words.safe.last_backup_days(days),
        );
        let said = words.safe.behind(behind);
        Some(
            view! {
                <section class="safe" id="backup-due" aria-label=words.shelf.back_up>
                    <p class="num"><b>{said}</b>" · "{last}</p>
                    <button type="button" class="button" disabled=move || desk.busy()
                        on:click=press(move || desk.back_up())>{words.shelf.back_up}</button>
                </section>
            }
            .into_any(),
        )
    })
}
