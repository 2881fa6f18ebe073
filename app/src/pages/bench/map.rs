//! The wear map at its two depths: the whole engine to look at, a section to press.

use leptos::prelude::*;
use ringland_assess::Answer;
use ringland_card::{Cause, plan::LeafId};
use ringland_report::words::Words;

use super::state::use_bench;
use crate::{
    components::{
        act::press,
        map::{self, Block, Cell, Press, blocks, cell, first_leaf, place},
    },
    store::{open::Open, prefs::use_words, use_card},
};

/// The whole engine: a press opens a section where it was pressed.
#[component]
pub(super) fn Overview() -> impl IntoView {
    let bench = use_bench();
    let press = Press {
        cell: Callback::new(move |leaf| bench.select(leaf)),
        section: Callback::new(move |section| bench.open_section(section)),
    };
    view! { <map::Overview press/> }
}

/// One section: a row for each characteristic of each place, a cell for each position.
#[component]
pub(super) fn SectionMap(section: usize) -> impl IntoView {
    let store = use_card();
    let tables = store
        .peek(|open| blocks(open.card.plan(), section))
        .unwrap_or_default();
    view! {
        <div class="sectionmap">
            {tables.into_iter().map(|block| view! { <SectionTable section block/> }).collect_view()}
        </div>
    }
}

#[component]
fn SectionTable(section: usize, block: Block) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let rows = store
        .peek(|open| {
            let plan = open.card.plan();
            let mut rows: Vec<(String, Vec<LeafId>)> = Vec::new();
            for at in &block.places {
                let place = place(plan, section, *at);
                let first = first_leaf(open, section, *at);
                for (number, look) in place.looks.iter().enumerate() {
                    let cells = (0..place.positions.len())
                        .map(|position| LeafId(first + position * place.looks.len() + number))
                        .collect();
                    rows.push((words.row_name(place, look), cells));
                }
            }
            rows
        })
        .unwrap_or_default();
    view! {
        <table class="map map--press">
            <thead>
                <tr>
                    <td></td>
                    {block.columns.into_iter().map(|column| map::column_head(words.column_head(&column))).collect_view()}
                </tr>
            </thead>
            <tbody>
                {rows.into_iter().map(|(name, cells)| view! {
                    <tr>
                        <th scope="row">{name}</th>
                        {cells.into_iter().map(|leaf| view! { <LeafCell leaf/> }).collect_view()}
                    </tr>
                }.into_any()).collect_view()}
            </tbody>
        </table>
    }
}

/// One characteristic in one position.
#[component]
fn LeafCell(leaf: LeafId) -> impl IntoView {
    let (store, bench, words) = (use_card(), use_bench(), use_words());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let name = store
        .peek(|open| words.leaf(open.card.plan(), open.card.index(), leaf))
        .flatten()
        .unwrap_or_default();
    let cell = Memo::new(move |_| {
        store
            .position(node, |open| leaf_cell(open, leaf, words))
            .unwrap_or_default()
    });
    let selected = Memo::new(move |_| bench.leaf.get() == Some(leaf));
    view! {
        <td>
            <button type="button" id=format!("leaf-{}", leaf.0)
                class=move || format!("cell {}", cell.with(|cell| cell.class))
                aria-current=move || selected.get().then_some("true")
                aria-label=move || format!("{name}: {}", cell.with(|cell| cell.said(words)))
                tabindex=move || if selected.get() { "0" } else { "-1" }
                on:click=press(move || bench.select(leaf))>
                {move || cell.with(|cell| cell.text.clone())}
                <span class="cell__marks" aria-hidden="true">{move || cell.with(|cell| cell.marks.clone())}</span>
            </button>
        </td>
    }
}

fn leaf_cell(open: &Open, leaf: LeafId, words: &Words) -> Cell {
    let score = open.result.leaves[leaf.0].score;
    let not_inspected = open.result.answers[leaf.0] == Answer::NotInspected;
    let mut marks = String::new();
    if open
        .result
        .all
        .nodes
        .iter()
        .any(|node| node.cap.is_some_and(|cap| cap.set_off_by == leaf))
    {
        marks.push('▾');
    }
    if open.result.leaves[leaf.0].looks.len() > 1 {
        marks.push('²');
    }
    if open.result.causes[leaf.0] != Cause::InService {
        marks.push('×');
    }
    cell(score, not_inspected, marks, words)
}
