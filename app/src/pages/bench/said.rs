//! What people who listen to the screen hear of what was kept: one short sentence, and what is next.

use std::time::Duration;

use leptos::prelude::*;
use ringland_card::{Body, Card, Entry, plan::LeafId};
use ringland_report::words::Words;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::state::{Bench, use_bench};
use crate::{
    app::announce,
    store::{Prefs, open::Kept, prefs::use_words, use_card, use_prefs},
};

/// How long a burst of keys may go on before it is spoken of: the pad has moved on by then, too.
const BREATH: Duration = Duration::from_millis(120);

/// Speaks of every look that is kept while the Bench is open, and leads the keyboard along the map.
pub(super) fn speak_of_looks() {
    let (bench, store, prefs) = (use_bench(), use_card(), use_prefs());
    let count = move || store.whole(|open| open.card.len()).unwrap_or_default();
    let spoken = StoredValue::new(untrack(count));
    Effect::new(move || {
        let now = count();
        // What is only being written may still be refused.
        if store.kept() == Kept::Writing {
            return;
        }
        set_timeout(
            move || {
                // The page was left, or more was kept meanwhile, which will be spoken of.
                let before = spoken.try_get_value();
                let last = before.is_some() && store.peek(|open| open.card.len()) == Some(now);
                if let (Some(before), true) = (before.filter(|before| *before < now), last) {
                    spoken.set_value(now);
                    say(bench, prefs, now - before);
                }
            },
            BREATH,
        );
    });
    follow(bench);
}

fn say(bench: Bench, prefs: Prefs, kept: usize) {
    let words = use_words();
    let said = bench.store.peek(|open| {
        let entry = open.card.entries().next_back()?;
        // What is taken back says so itself.
        (!matches!(entry.body, Body::Void { .. }))
            .then(|| kept_said(words, &open.card, entry, kept, prefs))
    });
    let Some(said) = said.flatten() else { return };
    let next = bench
        .leaf
        .get_untracked()
        .and_then(|leaf| name(bench, words, leaf));
    announce(&match next {
        Some(next) => words.bench.kept_then(&said, &next),
        None => said,
    });
}

fn kept_said(words: &Words, card: &Card, entry: &Entry, kept: usize, prefs: Prefs) -> String {
    let one = words.entry(card, entry, prefs.units());
    if kept > 1 {
        words.bench.n_kept(kept, &one)
    } else {
        one
    }
}

fn name(bench: Bench, words: &Words, leaf: LeafId) -> Option<String> {
    let named =
        |open: &crate::store::open::Open| words.leaf(open.card.plan(), open.card.index(), leaf);
    bench.store.peek(named).flatten()
}

/// Where the keyboard is on the map of a section, it goes to the cell that is on the pad.
fn follow(bench: Bench) {
    Effect::new(move || {
        let Some(leaf) = bench.leaf.get() else { return };
        let on_the_map = document()
            .active_element()
            .is_some_and(|active| active.closest(".sectionmap").is_ok_and(|map| map.is_some()));
        let cell = document().get_element_by_id(&format!("leaf-{}", leaf.0));
        if let (true, Some(cell)) = (on_the_map, cell) {
            // What cannot take the keyboard leaves it where it is.
            let _focused = cell.unchecked_into::<HtmlElement>().focus();
        }
    });
}
