//! One engine on the Shelf.

use leptos::prelude::*;
use ringland_card::CardId;
use ringland_report::{format::time::from_ms, words::Words};

use super::desk::{Desk, use_desk};
use crate::{
    components::{act::press, thumb::Thumb},
    platform::{self, focus},
    route::Route,
    store::{prefs::use_words, shelf::OnShelf, summary::Summary, use_prefs},
};

/// What a card on the Shelf shows below its figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shows {
    /// The ways into it.
    Ways,
    /// What else may be done with it.
    More,
    /// The question whether to delete it.
    Ask,
}

/// What one engine shows below its figures. It stands on the desk, so that it stays when the Shelf is
/// read anew.
#[derive(Clone, Copy)]
struct Panel {
    id: CardId,
    opened: RwSignal<Option<(CardId, Shows)>>,
}

impl Panel {
    fn get(self) -> Shows {
        match self.opened.get() {
            Some((id, shows)) if id == self.id => shows,
            _ => Shows::Ways,
        }
    }

    fn set(self, shows: Shows) {
        self.opened.set(Some((self.id, shows)));
    }
}

/// The engine: its map and figures, the ways into it, and what else may be done with it.
#[component]
pub fn Engine(
    /// What the Shelf knows of it.
    card: OnShelf,
) -> impl IntoView {
    let words = use_words();
    let OnShelf {
        id,
        summary,
        altered,
    } = card;
    let name = name_of(words, summary.as_ref().ok());
    let title_id = format!("engine-{id}");
    let titled_by = title_id.clone();
    let shows = Panel {
        id,
        opened: use_desk().opened,
    };
    // Only the engine whose panel opens or closes is drawn anew.
    let shown = Memo::new(move |_| shows.get());
    let done = summary
        .as_ref()
        .is_ok_and(|summary| summary.answered >= summary.asked)
        || altered;
    let way = if done {
        Route::Card(id)
    } else {
        Route::Bench(id)
    };
    let unreadable = summary.as_ref().map_or(1, |summary| summary.unreadable);
    let body = match summary {
        Ok(summary) => view! { <Figures summary altered/> }.into_any(),
        Err(why) => view! {
            <p class="engine__wrong">{words.shelf.damaged}</p>
            <p class="fine">{why.reason(words)}</p>
        }
        .into_any(),
    };
    view! {
        <article class="engine" aria-labelledby=titled_by>
            <h2 class="engine__name" id=title_id>
                <a class="engine__way" href=way.href()>{name.clone()}</a>
            </h2>
            {body}
            {(unreadable > 0).then(|| view! { <Damaged key=id.to_string() name=name.clone()/> }.into_any())}
            {move || match shown.get() {
                Shows::Ways => view! { <Ways id name=name.clone() done altered shows/> }.into_any(),
                Shows::More => view! { <More id name=name.clone() altered shows/> }.into_any(),
                Shows::Ask => view! { <Ask id name=name.clone() shows/> }.into_any(),
            }}
        </article>
    }
}

/// The way to keep what cannot be read.
#[component]
pub fn Damaged(
    /// The key of the engine's record.
    key: String,
    /// Its name.
    name: String,
) -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    view! {
        <button type="button" class="button engine__damaged"
            on:click=press(move || desk.save_damaged(key.clone(), name.clone()))>{words.safe.save_damaged}</button>
    }
}

/// An engine's name, or what stands for one.
pub fn name_of(words: &Words, summary: Option<&Summary>) -> String {
    match summary {
        Some(summary) if !summary.name.is_empty() => summary.name.clone(),
        _ => words.shelf.nameless.to_owned(),
    }
}

/// The map, the score and what is known of the engine.
#[component]
fn Figures(summary: Summary, altered: bool) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let Summary {
        fleet,
        distance_m,
        oil,
        oil_grade,
        changed_ms,
        unreadable,
        ..
    } = summary.clone();
    let numbers = words.numbers;
    let distance = move || distance_m.map(|metres| numbers.distance_m(metres, prefs.units()));
    let oil = [oil, oil_grade]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let changed = changed_ms.map(|ms| {
        words
            .shelf
            .last_change(&words.date(from_ms(ms), platform::offset_minutes()))
    });
    let or_open = |text: String| {
        if text.is_empty() {
            words.common.left_open.to_owned()
        } else {
            text
        }
    };
    let oil = or_open(oil);
    view! {
        <div class="engine__body">
            <Thumb rows=summary.thumb.clone()/>
            <div class="engine__figures">
                <p class="engine__fleet">{fleet}</p>
                <Score summary/>
                <dl class="engine__facts num">
                    <dt>{words.shelf.distance}</dt>
                    <dd>{move || or_open(distance().unwrap_or_default())}</dd>
                    <dt>{words.shelf.oil}</dt>
                    <dd>{oil}</dd>
                </dl>
                {altered.then(|| view! { <p class="engine__wrong">{words.shelf.read_only}</p> }.into_any())}
                {(unreadable > 0).then(|| view! { <p class="engine__wrong">{words.safe.unreadable(unreadable)}</p> }.into_any())}
                <p class="engine__changed num">{changed}</p>
            </div>
        </div>
    }
}

/// The score with its expanded uncertainty, and how much of the plan it rests on.
#[component]
fn Score(summary: Summary) -> impl IntoView {
    let words = use_words();
    let numbers = words.numbers;
    let score = match summary.score {
        Some(score) => {
            let u = summary.expanded_u().map(|u| numbers.plus_minus(u));
            view! {
                <p class="engine__score num">
                    <b>{numbers.score(score)}</b>" "<span class="engine__u">{u}</span>
                    <span class="engine__label">{words.shelf.score}</span>
                </p>
            }
            .into_any()
        }
        None => view! { <p class="engine__unscored">{words.shelf.not_scored}</p> }.into_any(),
    };
    let looked = if summary.answered >= summary.asked {
        words.shelf.all_of(&numbers.count(summary.asked))
    } else {
        words.shelf.of_all(
            &numbers.count(summary.answered),
            &numbers.count(summary.asked),
        )
    };
    let coverage = summary.coverage.clamp(0.0, 1.0);
    view! {
        {score}
        <p class="engine__coverage num">
            <progress class="meter" max="1" value=coverage.to_string() aria-label=words.shelf.coverage></progress>
            <span>{words.shelf.coverage_of(&numbers.share(coverage))}" · "{looked}</span>
        </p>
    }
}

/// The ways into an engine: the likely one first in colour, the other beside it.
#[component]
fn Ways(id: CardId, name: String, done: bool, altered: bool, shows: Panel) -> impl IntoView {
    let words = use_words();
    let class = |likely| {
        if likely {
            "button button--soft"
        } else {
            "button"
        }
    };
    let more_id = format!("more-{id}");
    view! {
        <div class="engine__acts">
            {(!altered).then(|| view! {
                <a class=class(!done) href=Route::Bench(id).href() aria-label=format!("{}: {name}", words.shelf.rate)>
                    {words.shelf.rate}
                </a>
            }.into_any())}
            <a class=class(done) href=Route::Card(id).href() aria-label=format!("{}: {name}", words.shelf.show_card)>
                {words.nav.card}
            </a>
            <button type="button" class="button engine__more" id=more_id aria-expanded="false"
                aria-label=words.shelf.actions(&name) on:click=press(move || {
                    shows.set(Shows::More);
                    focus(&format!("first-{id}"));
                })>"⋯"</button>
        </div>
    }
}

/// Goes back to the ways, with the keyboard where it was.
fn back(id: CardId, shows: Panel) {
    shows.set(Shows::Ways);
    focus(&format!("more-{id}"));
}

/// What else may be done with an engine.
#[component]
fn More(id: CardId, name: String, altered: bool, shows: Panel) -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    let saved = name.clone();
    view! {
        <div class="engine__panel" role="group" aria-label=words.shelf.actions(&name)
            on:keydown=move |event| if event.key() == "Escape" { back(id, shows) }>
            <button type="button" class="button" id=format!("first-{id}")
                on:click=press(move || desk.save(id, saved.clone()))>{words.shelf.save_file}</button>
            {(!altered).then(|| view! {
                <a class="button" href=Route::Facts(id).href()>{words.shelf.edit_facts}</a>
            }.into_any())}
            <button type="button" class="button" on:click=press(move || {
                shows.set(Shows::Ask);
                focus(&format!("stay-{id}"));
            })>{words.shelf.delete}</button>
            <button type="button" class="button" aria-expanded="true" on:click=press(move || back(id, shows))>
                {words.common.back}
            </button>
        </div>
    }
}

/// The question whether to delete an engine. The keyboard stands on the answer that keeps it.
#[component]
fn Ask(id: CardId, name: String, shows: Panel) -> impl IntoView {
    let (desk, words): (Desk, _) = (use_desk(), use_words());
    let asked = words.shelf.delete_ask(&name);
    let label = asked.clone();
    view! {
        <div class="engine__panel engine__panel--ask" role="group" aria-label=label
            on:keydown=move |event| if event.key() == "Escape" { back(id, shows) }>
            <p><b>{asked}</b>" "{words.shelf.bin_hint}". "{words.shelf.delete_hint}</p>
            <button type="button" class="button" id=format!("stay-{id}") on:click=press(move || back(id, shows))>
                {words.shelf.delete_no}
            </button>
            <button type="button" class="button button--warn" on:click=press(move || desk.delete(id, name.clone()))>
                {words.shelf.delete_yes}
            </button>
        </div>
    }
}
