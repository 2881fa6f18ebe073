//! Taking figures apart: what is pressed is filled and opened.
//!
//! The page is markup; a press anywhere on it comes here. A `details` opens by itself: before it does,
//! it is given what belongs in it.

use std::time::Duration;

use leptos::{ev::MouseEvent, html, prelude::*};
use ringland_assess::Tree;
use ringland_report::card::{Fill, anchor};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use super::sheet;
use crate::store::{CardStore, Prefs, use_card, use_prefs};

/// How long the browser gets between two sections when everything is opened.
const BREATH: Duration = Duration::from_millis(10);

/// A `Copy` handle on what is open.
#[derive(Clone, Copy)]
pub struct Opened {
    page: NodeRef<html::Article>,
    /// How many sections have been opened so far, while everything is being opened for printing.
    opening: RwSignal<Option<usize>>,
    all: RwSignal<bool>,
    store: CardStore,
    prefs: Prefs,
}

impl Opened {
    /// Nothing open yet on that page.
    pub fn of(page: NodeRef<html::Article>) -> Self {
        Self {
            page,
            opening: RwSignal::new(None),
            all: RwSignal::new(false),
            store: use_card(),
            prefs: use_prefs(),
        }
    }

    /// Whether everything is open.
    pub fn all(self) -> bool {
        self.all.get()
    }

    /// How many sections have been opened so far, while everything is being opened.
    pub fn opening(self) -> Option<usize> {
        self.opening.get()
    }

    /// A press somewhere on the page.
    pub fn press(self, event: &MouseEvent) {
        let target = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok());
        let at = |selector| {
            target
                .as_ref()
                .and_then(|target| target.closest(selector).ok().flatten())
        };
        if let Some(number) = at("[data-go]").and_then(|way| way.get_attribute("data-go")) {
            if let Ok(node) = number.parse() {
                self.go_to(node);
            }
        } else if let Some(row) =
            at("[data-go-size]").and_then(|way| way.get_attribute("data-go-size"))
        {
            self.go_to_rows(std::iter::once(row));
        } else if let Some(details) = at("summary").and_then(|summary| summary.parent_element()) {
            self.fill(&details);
        }
    }

    /// Gives a `details` what belongs in it, once.
    fn fill(self, details: &Element) {
        let wanted = details
            .get_attribute("data-fill")
            .and_then(|fill| Fill::parse(&fill));
        if let (1, Some(fill)) = (details.child_element_count(), wanted) {
            let inside = sheet(self.store, self.prefs, |sheet| sheet.fill(fill, false));
            // Markup of our own; a browser that refuses it leaves the row closed.
            let _filled = details.insert_adjacent_html("beforeend", &inside.unwrap_or_default());
        }
    }

    /// Opens the way to a node and the node itself, and goes there.
    fn go_to(self, node: usize) {
        let way = self
            .store
            .peek(|open| way(&open.tree, node))
            .unwrap_or_default();
        self.go_to_rows(way.into_iter().map(anchor));
    }

    /// Opens rows by their ids, one within the other, and goes to the last.
    fn go_to_rows(self, rows: impl Iterator<Item = String>) {
        let mut last = None;
        for row in rows {
            let summary = document().get_element_by_id(&row);
            if let Some(details) = summary.as_ref().and_then(|row| row.parent_element()) {
                self.fill(&details);
                let _open = details.set_attribute("open", "");
                last = summary;
            }
        }
        if let Some(summary) = last.and_then(|summary| summary.dyn_into::<HtmlElement>().ok()) {
            summary.scroll_into_view();
            // What cannot take the focus is on screen all the same.
            let _focused = summary.focus();
        }
    }

    /// Opens everything, section by section, so that the screen stays awake.
    pub fn open_all(self) {
        self.all.set(true);
        self.opening.set(Some(0));
        self.open_from(0);
    }

    fn open_from(self, done: usize) {
        // Stopped, or left behind with the page.
        if self.opening.try_get_untracked().flatten() != Some(done) {
            return;
        }
        let Some(details) = self.folds().into_iter().nth(done) else {
            self.opening.set(None);
            return;
        };
        let fill = details
            .get_attribute("data-fill")
            .and_then(|fill| Fill::parse(&fill));
        let inside =
            fill.and_then(|fill| sheet(self.store, self.prefs, |sheet| sheet.fill(fill, true)));
        if let Some(inside) = inside {
            empty(&details);
            let _filled = details.insert_adjacent_html("beforeend", &inside);
            let _open = details.set_attribute("open", "");
        }
        self.opening.set(Some(done + 1));
        set_timeout(move || self.open_from(done + 1), BREATH);
    }

    /// The outermost of what opens on the page, in its order.
    fn folds(self) -> Vec<Element> {
        self.select("details:not(details details)")
    }

    fn select(self, selector: &str) -> Vec<Element> {
        let found = self
            .page
            .get_untracked()
            .and_then(|page| page.query_selector_all(selector).ok());
        found
            .map(|found| {
                (0..found.length())
                    .filter_map(|number| found.get(number)?.dyn_into().ok())
                    .collect()
            })
            .unwrap_or_default()
    }

    /// How many there are to open.
    pub fn count(self) -> usize {
        self.folds().len()
    }

    /// Closes everything, and stops opening it.
    pub fn close_all(self) {
        self.opening.set(None);
        self.all.set(false);
        for details in self.folds() {
            // What was opened for paper is brief: pressed again, it is made anew and in full.
            empty(&details);
            let _closed = details.remove_attribute("open");
        }
    }
}

/// Takes everything but the summary out of a `details`.
fn empty(details: &Element) {
    while details.child_element_count() > 1
        && let Some(old) = details.last_element_child()
    {
        old.remove();
    }
}

/// The nodes from a section down to a node.
fn way(tree: &Tree, node: usize) -> Vec<usize> {
    let mut way: Vec<usize> =
        std::iter::successors(Some(node), |node| tree.nodes().get(*node)?.parent).collect();
    // The engine has no row of its own.
    way.pop();
    way.reverse();
    way
}

#[cfg(test)]
mod tests {
    use ringland_card::{Depth, Layout, builtin};

    use super::*;

    #[test]
    fn the_way_to_a_leaf_begins_at_its_section() {
        let Ok(plan) = builtin(&Layout::inline_six(), Depth::Short) else {
            return;
        };
        let tree = Tree::of(&plan);
        let last = tree.nodes().len() - 1;
        let way = way(&tree, last);
        assert_eq!((way.len(), way.last()), (4, Some(&last)));
        assert_eq!(tree.nodes()[way[0]].parent, Some(0));
    }
}
