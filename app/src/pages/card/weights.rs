//! How much hangs on the weights: drawn after the page is painted, a few draws at a time.

use std::time::Duration;

use leptos::{html, prelude::*};
use ringland_assess::weights::{DRAWS, Drawing, SEED};

use super::sheet;
use crate::store::{CardStore, Prefs, use_card, use_prefs};

/// Draws between two looks at what the hands do.
const SLICE: usize = 20;
/// How long the page gets to be painted first.
const FIRST: Duration = Duration::from_millis(150);

/// Draws and writes the outcome where the page has a place for it; stops when the page is left.
pub fn draw(page: NodeRef<html::Article>) {
    let (store, prefs) = (use_card(), use_prefs());
    let drawing = store.peek(|open| {
        open.result.all.engine().score?;
        Some(Drawing::new(open.card.plan(), open.card.index(), SEED))
    });
    if let Some(drawing) = drawing.flatten() {
        // From its first picture on, however long that one takes.
        request_animation_frame(move || {
            set_timeout(move || go_on(page, store, prefs, drawing), FIRST);
        });
    }
}

fn go_on(page: NodeRef<html::Article>, store: CardStore, prefs: Prefs, mut drawing: Drawing) {
    // The page was left.
    let Some(Some(article)) = page.try_get_untracked() else {
        return;
    };
    let before = drawing.len();
    store.peek(|open| {
        let result = &open.result;
        drawing.go_on(
            &open.tree,
            &result.leaves,
            &result.all,
            SLICE.min(DRAWS - before),
        );
    });
    if drawing.len() > before && drawing.len() < DRAWS {
        set_timeout(move || go_on(page, store, prefs, drawing), Duration::ZERO);
    } else if let Some(drawn) = drawing.spread() {
        let said = sheet(store, prefs, |sheet| {
            sheet.drawn_weights(Some((&drawn, SEED)))
        });
        if let (Ok(Some(place)), Some(said)) = (article.query_selector("[data-weights]"), said) {
            place.set_inner_html(&said);
        }
    }
}
