//! The wear map at its two depths, put up as markup; what a change touches is drawn again in place.

use leptos::{ev::MouseEvent, html, prelude::*};
use ringland_assess::NodeKind;
use ringland_card::plan::LeafId;
use ringland_report::wear_map::{Cell, Leads, WearMap, figure_id, leaf_id, position_id};
use wasm_bindgen::JsCast;
use web_sys::Element;

use super::state::{Bench, use_bench};
use crate::{
    components::act::Act,
    store::{
        open::Open,
        prefs::{use_prefs, use_words},
    },
};

/// The whole engine, or the section that is open.
#[component]
pub(super) fn Map() -> impl IntoView {
    let bench = use_bench();
    let place = NodeRef::<html::Div>::new();
    follow(bench, place);
    view! { <div node_ref=place on:click=pressed(bench)></div> }
}

/// Puts the map up, draws again what changed, and shows which leaf is on the pad.
fn follow(bench: Bench, place: NodeRef<html::Div>) {
    let (store, prefs) = (bench.store, use_prefs());
    Effect::new(move || {
        let (Some(place), section, blind) = (place.get(), bench.section.get(), prefs.blind())
        else {
            return;
        };
        let drawn = store.structure(|open| {
            let map = map(open, blind.as_deref());
            match section {
                Some(section) => map.section(section),
                None => map.whole(Leads::ToPad),
            }
        });
        place.set_inner_html(&drawn.unwrap_or_default());
        if let Some(leaf) = bench.leaf.get_untracked() {
            mark(leaf, true);
        }
    });
    Effect::new(move || {
        let changed = store.changed();
        let blind = untrack(|| prefs.blind());
        store.peek(|open| repaint(&map(open, blind.as_deref()), open, &changed));
    });
    Effect::new(move |before: Option<Option<LeafId>>| {
        let leaf = bench.leaf.get();
        if let Some(before) = before.flatten() {
            mark(before, false);
        }
        if let Some(leaf) = leaf {
            mark(leaf, true);
        }
        leaf
    });
}

fn map<'a>(open: &'a Open, blind: Option<&str>) -> WearMap<'a> {
    let map = WearMap::new(&open.card, &open.tree, &open.result, use_words());
    if blind.is_none() {
        return map;
    }
    let leaves = (0..open.result.leaves.len()).map(LeafId);
    map.hiding(leaves.map(|leaf| open.hides(leaf, blind)).collect())
}

/// Draws the cells of these positions again where they are on the screen, and the figures beside the
/// sections.
fn repaint(map: &WearMap<'_>, open: &Open, positions: &[usize]) {
    let nodes = open.tree.nodes();
    for node in positions.iter().filter_map(|number| nodes.get(*number)) {
        let leaves = node
            .children
            .iter()
            .filter_map(|child| match nodes[*child].kind {
                NodeKind::Leaf(leaf) => Some(leaf),
                _ => None,
            });
        for (place, leaf) in leaves.enumerate() {
            show(&leaf_id(leaf), || map.leaf_cell(leaf));
            if place == 0 {
                show(&position_id(leaf), || map.position_cell(leaf));
            }
        }
    }
    for section in 0..open.card.plan().sections.len() {
        if let Some(figure) = document().get_element_by_id(&figure_id(section)) {
            figure.set_text_content(Some(&map.section_figure(section)));
        }
    }
}

fn show(id: &str, cell: impl FnOnce() -> Cell) {
    let Some(element) = document().get_element_by_id(id) else {
        return;
    };
    let cell = cell();
    element.set_class_name(&cell.class);
    element.set_inner_html(&cell.inside);
    // An attribute of our own that cannot be set leaves the last one.
    let _labelled = element.set_attribute("aria-label", &cell.label);
}

/// Shows that a leaf is on the pad, or no longer; it is the one that the Tab key reaches.
fn mark(leaf: LeafId, on: bool) {
    let Some(cell) = document().get_element_by_id(&leaf_id(leaf)) else {
        return;
    };
    let _marked = if on {
        cell.set_attribute("aria-current", "true")
    } else {
        cell.remove_attribute("aria-current")
    };
    let _reached = cell.set_attribute("tabindex", if on { "0" } else { "-1" });
}

/// A press anywhere on the map.
fn pressed(bench: Bench) -> Act<MouseEvent> {
    Box::new(move |event| {
        let target = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok());
        let number = |name: &str| {
            let way = target.as_ref()?.closest(&format!("[{name}]")).ok()??;
            way.get_attribute(name)?.parse().ok()
        };
        if let Some(leaf) = number("data-leaf") {
            bench.select(LeafId(leaf));
        } else if let Some(section) = number("data-section") {
            bench.open_section(section);
        }
    })
}
