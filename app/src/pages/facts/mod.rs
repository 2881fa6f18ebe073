//! Facts about an engine: the page that changes them.

pub mod fields;
pub mod form;
pub mod input;
pub mod rater;

use leptos::prelude::*;
use ringland_card::{Body, FactField};
use ringland_report::words::{CLEARED, Words};

use self::{
    form::{Change, FactFields, FactsForm},
    input::Suggestions,
    rater::{RaterField, RaterForm},
};
use crate::{
    app::announce,
    components::{act::send, live::live},
    platform::focus,
    store::{
        open::{Draft, Open, refusal},
        prefs::use_words,
        use_card, use_prefs,
    },
};

/// The screen.
#[component]
pub fn FactsPage() -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    // What was written anew is what the form begins with the next time.
    let written = RwSignal::new(false);
    let head = store.peek(|open| layout(words, open)).map(|layout| {
        view! {
        <p class="facts__layout">{layout}</p>
        <p class="fine">{words.facts.layout_fixed}</p>
        }
        .into_any()
    });
    view! {
        <div class="facts">
            <h1>{words.facts.edit_title}</h1>
            {head}
            {live(move || { written.get(); view! { <EditForm written/> } })}
            <Suggestions/>
        </div>
    }
}

/// The engine's layout and plan in a line.
fn layout(words: &Words, open: &Open) -> String {
    let plan = open.card.plan();
    super::new_engine::in_a_line(words, &plan.layout, plan.depth, plan.rating_count())
}

#[component]
fn EditForm(written: RwSignal<bool>) -> impl IntoView {
    let (store, prefs, words) = (use_card(), use_prefs(), use_words());
    let form = store
        .peek(|open| {
            let form = FactsForm::of(&open.card.standing(), words, prefs.units());
            form.remembered(&open.card.id().to_string())
        })
        .unwrap_or_else(|| (FactsForm::open(), false));
    let (form, back) = form;
    let rater = RaterForm::new(prefs);
    let read_only = store.read_only();
    let said = RwSignal::new(back.then(|| words.safe.draft_back.to_owned()));
    let refused = RwSignal::new(None::<String>);
    let keep = move |changes: Vec<Change>| {
        store.after(move || async move {
            let drafts = store.peek(|open| drafts(open, changes)).unwrap_or_default();
            match store.keep(drafts).await {
                Ok(()) => {
                    form.forget();
                    announce(words.facts.saved);
                    written.set(true);
                    focus("facts-saved");
                }
                Err(error) => {
                    let why = store.peek(|open| refusal(words, open.card.plan(), &error));
                    said.set(None);
                    refused.set(why);
                }
            }
        });
    };
    let submit = move || match form.changes(prefs.units()) {
        Err(field) => focus(fields::id(field)),
        Ok(changes) if changes.is_empty() => {
            said.set(Some(words.facts.nothing_changed.to_owned()));
            refused.set(None);
        }
        Ok(_) if !rater.take(prefs) => focus(rater::ID),
        Ok(changes) => keep(changes),
    };
    let was_kept = written.get_untracked();
    view! {
        <form class="facts__form" on:submit=send(submit) novalidate>
            {read_only.then(|| view! { <p class="trouble" role="alert">{words.bench.altered}</p> }.into_any())}
            <fieldset class="facts__all" disabled=read_only>
                <FactFields form/>
                <RaterField form=rater/>
            </fieldset>
            <div class="facts__foot">
                <p class="facts__state" id="facts-saved" tabindex="-1" role="status">
                    {move || match (said.get(), refused.get()) {
                        (Some(text), _) => text,
                        (None, None) if was_kept => words.facts.saved.to_owned(),
                        _ => String::new(),
                    }}
                </p>
                {live(move || refused.get().map(|why| view! { <p class="facts__refused" role="alert">{why}</p> }.into_any()))}
                <button type="submit" class="button button--act" disabled=read_only>{words.facts.save}</button>
            </div>
        </form>
    }
}

/// The entries that make the changes: a fact for each that is said anew, and for each that is left
/// open again a void of every entry that says it, as an older one would hold otherwise.
fn drafts(open: &Open, changes: Vec<Change>) -> Vec<Draft> {
    let dead = open.card.standing().dead;
    let mut drafts = Vec::new();
    for change in changes {
        match change {
            Change::Set(fact) => drafts.push(Body::Fact { fact }.into()),
            Change::Clear(field) => drafts.extend(
                open.card
                    .entries()
                    .filter(|entry| says(&entry.body, field) && !dead.has(entry.id))
                    .map(|entry| {
                        let reason = CLEARED.to_owned();
                        Draft::from(Body::Void {
                            entry: entry.id,
                            reason,
                        })
                    }),
            ),
        }
    }
    drafts
}

fn says(body: &Body, field: FactField) -> bool {
    matches!(body, Body::Fact { fact } if fact.field() == field)
}
