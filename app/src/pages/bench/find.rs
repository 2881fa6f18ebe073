//! Finding a part by typing.

use leptos::prelude::*;
use ringland_card::plan::LeafId;

use super::state::use_bench;
use crate::{
    components::{
        act::{self, press, send},
        live::live,
    },
    store::{open::Open, prefs::use_words, use_card},
};

/// The most that is offered.
const MOST: usize = 12;

/// A field that offers rows of the map as one types.
#[component]
pub(super) fn Find() -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let text = RwSignal::new(String::new());
    let field = NodeRef::<leptos::html::Input>::new();
    let found = move || {
        let text = text.get().to_lowercase();
        let wanted: Vec<&str> = text.split_whitespace().collect();
        if wanted.is_empty() {
            return Vec::new();
        }
        store
            .structure(|open| rows(open, &wanted))
            .unwrap_or_default()
    };
    let choose = move |leaf: LeafId| {
        text.set(String::new());
        if let Some(field) = field.get_untracked() {
            field.set_value("");
            let _left = field.blur();
        }
        bench.select(leaf);
    };
    let first = move || {
        if let Some((_, leaf)) = untrack(found).first() {
            choose(*leaf);
        }
    };
    let offers = move || {
        let found = found();
        if found.is_empty() {
            let typed = text.get();
            return (!typed.trim().is_empty()).then(|| {
                view! { <p class="find__list find__none" role="status">{words.bench.find_none(typed.trim())}</p> }
                    .into_any()
            });
        }
        Some(view! {
            <ul class="find__list">
                {found.into_iter().map(|(name, leaf)| view! {
                    <li><button type="button" class="find__one" on:click=press(move || choose(leaf))>{name}</button></li>
                }.into_any()).collect_view()}
            </ul>
        }.into_any())
    };
    view! {
        <form class="find" role="search" on:submit=send(first)>
            <label class="visually-hidden" for="find">{words.bench.find}</label>
            <input id="find" class="field__input" placeholder=words.bench.find autocomplete="off" node_ref=field
                on:input=act::text(move |typed| text.set(typed))/>
            {live(offers)}
        </form>
    }
}

/// Rows of the map whose name has every word wanted.
fn rows(open: &Open, wanted: &[&str]) -> Vec<(String, LeafId)> {
    let words = use_words();
    let (plan, index) = (open.card.plan(), open.card.index());
    let heads = index
        .leaves()
        .iter()
        .enumerate()
        .filter(|(_, leaf)| leaf.position == 0 && !leaf.gauged);
    heads
        .filter_map(|(number, leaf)| {
            let section = &plan.sections[leaf.section];
            let row = words.row_name(leaf.place(plan), leaf.characteristic(plan));
            let name = format!("{} › {row}", words.section_name(section));
            let plain = name.to_lowercase();
            wanted
                .iter()
                .all(|word| plain.contains(word))
                .then_some((name, LeafId(number)))
        })
        .take(MOST)
        .collect()
}
