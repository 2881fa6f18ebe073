//! Bench: the wear map and the rating pad.

mod find;
mod keys;
mod map;
mod pad;
mod said;
mod state;
mod walk;

use leptos::prelude::*;
use ringland_card::Plan;
use ringland_report::{format::time, words::Words};

use self::state::{Mode, provide_bench, use_bench};
use crate::{
    app::use_route,
    components::{act::press, live::live},
    platform,
    route::Route,
    store::{
        open::{Kept, Refused},
        prefs::{Walk, use_words},
        use_card, use_prefs,
    },
};

/// The screen.
#[component]
pub fn BenchPage() -> impl IntoView {
    let (bench, store, words) = (provide_bench(), use_card(), use_words());
    keys::listen(bench);
    said::speak_of_looks();
    // The Card leads to a leaf by its address.
    let asked = Route::leaf_asked(&window().location().hash().unwrap_or_default());
    if let Some(leaf) = store.take_stay().or(asked) {
        bench.select(leaf);
    }
    let route = use_route();
    let here = route.get_untracked();
    on_cleanup(move || {
        // The address is the same: only the words are another language's.
        if route.try_get_untracked() == Some(here) {
            store.stay_at(bench.leaf.try_get_untracked().flatten());
        }
    });
    let altered = store.read_only();
    let damaged = move || {
        let unreadable = store.whole(|open| open.unreadable).filter(|n| *n > 0)?;
        let said = words.safe.unreadable(unreadable);
        Some(view! { <p class="trouble" role="alert">{said}</p> }.into_any())
    };
    view! {
        <h1 class="visually-hidden">{words.nav.bench}</h1>
        <div class="bench" class:bench--section=move || bench.section.get().is_some()>
            <section class="bench__left" aria-label=words.bench.wear_map>
                {altered.then(|| view! { <p class="trouble" role="alert">{words.bench.altered}</p> }.into_any())}
                {live(damaged)}
                <Bar/>
                <div class="bench__map">
                    {live(move || bench.section.get().map(|section| view! { <Cautions section=Some(section)/> }))}
                    <map::Map/>
                    <p class="fine legend">{words.bench.legend}</p>
                </div>
            </section>
            <pad::Pad/>
        </div>
    }
}

/// Progress, what was kept, finding, and the ways to look.
#[component]
fn Bar() -> impl IntoView {
    let (bench, store, prefs, words) = (use_bench(), use_card(), use_prefs(), use_words());
    let kept = move || match store.kept() {
        Kept::Nothing => String::new(),
        Kept::Writing => words.bench.keeping.to_owned(),
        Kept::At(ms) => words.bench.kept_at(&time::time_of_day(
            time::from_ms(ms),
            platform::offset_minutes(),
        )),
        Kept::Not(_) => words.bench.not_kept.to_owned(),
    };
    let along = move || prefs.walk() == Walk::AlongEngine;
    let turn = move || {
        prefs.set_walk(if along() {
            Walk::ByPosition
        } else {
            Walk::AlongEngine
        });
    };
    let rater = move || {
        let rater = prefs.rater();
        if rater.is_empty() {
            words.bench.no_rater.to_owned()
        } else {
            words.bench.rater(&rater)
        }
    };
    view! {
        <div class="bar">
            {live(move || bench.section.get().is_some().then(|| view! {
                <button type="button" class="button" on:click=press(move || bench.whole_engine())>
                    {words.bench.whole_engine}
                </button>
            }.into_any()))}
            <div class="bar__state">
                <p class="num" id="progress">{move || { let (done, all) = bench.progress(); words.bench.looked_at(done, all) }}</p>
                <progress class="bar__progress" max=move || bench.progress().1.to_string()
                    value=move || bench.progress().0.to_string() aria-label=words.bench.progress></progress>
                <p class="fine num" id="kept" aria-live="off">{live(kept)}</p>
            </div>
            <find::Find/>
            <button type="button" class="button" id="rater" on:click=press(move || bench.mode.set(Mode::Rater))>{live(rater)}</button>
            <button type="button" class="button" disabled=move || !store.can_undo() on:click=press(move || bench.undo())>{words.bench.undo}</button>
            <button type="button" class="button" disabled=move || !store.can_redo() on:click=press(move || bench.redo())>{words.bench.redo}</button>
            <button type="button" class="button" aria-pressed=move || (!along()).to_string() on:click=press(turn)>{words.bench.by_position}</button>
        </div>
    }
}

/// Cautions where the hands are: those of a section, or the general ones.
#[component]
pub fn Cautions(
    /// The section, by number; none for the general ones.
    section: Option<usize>,
) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let lines = store
        .peek(|open| {
            let section = section.and_then(|number| open.card.plan().sections.get(number));
            words.cautions(section.map(|section| section.id.as_str()))
        })
        .unwrap_or_default();
    (!lines.is_empty()).then(|| {
        view! {
            <ul class="caution">
                {lines.into_iter().map(|line| view! { <li>{line}</li> }.into_any()).collect_view()}
            </ul>
        }
        .into_any()
    })
}

/// A refusal in kind words.
fn refusal(words: &Words, plan: &Plan, refused: &Refused) -> String {
    match refused {
        Refused::Append(error) => words.append_error(plan, error),
        Refused::Keep(error) => error.said(words),
        Refused::NoRater => words.bench.name_rater_first.to_owned(),
        Refused::ReadOnly => words.bench.altered.to_owned(),
        Refused::NoCard => words.common.cannot_open.to_owned(),
    }
}
