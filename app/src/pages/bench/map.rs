//! The wear map at its two depths: the whole engine to look at, a section to press.

use leptos::prelude::*;
use ringland_assess::Answer;
use ringland_card::{
    Cause,
    plan::{LeafId, Place, Plan},
};
use ringland_report::{ramp, words::Words};

use super::state::use_bench;
use crate::store::{open::Open, prefs::use_words, use_card};

/// Places of a section that share their columns, so that they share a table.
#[derive(Clone, Debug, PartialEq)]
struct Block {
    /// The names of the columns, front to rear.
    columns: Vec<String>,
    /// Part and place, by number.
    places: Vec<(usize, usize)>,
}

/// The blocks of a section in strip-down order.
fn blocks(plan: &Plan, section: usize) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for (p, part) in plan.sections[section].parts.iter().enumerate() {
        for (n, place) in part.places.iter().enumerate() {
            let columns: Vec<String> =
                place.positions.iter().map(|position| position.column.clone()).collect();
            match blocks.last_mut() {
                Some(last) if last.columns == columns => last.places.push((p, n)),
                _ => blocks.push(Block { columns, places: vec![(p, n)] }),
            }
        }
    }
    blocks
}

fn place(plan: &Plan, section: usize, (part, place): (usize, usize)) -> &Place {
    &plan.sections[section].parts[part].places[place]
}

fn first_leaf(open: &Open, section: usize, (part, place): (usize, usize)) -> usize {
    let plan = open.card.plan();
    let at = &plan.sections[section].parts[part].places[place].positions[0].id;
    open.card.index().of_position(plan, at.as_str()).start
}

/// The whole engine: a row for each place, a cell for each position.
#[component]
pub fn Overview() -> impl IntoView {
    let store = use_card();
    let sections = move || {
        store.structure(|open| open.card.plan().sections.len()).map_or(0..0, |count| 0..count)
    };
    view! {
        <div class="overview">
            <For each=sections key=|section| *section let:section>
                <OverviewSection section/>
            </For>
        </div>
    }
}

#[component]
fn OverviewSection(section: usize) -> impl IntoView {
    let (store, bench, words) = (use_card(), use_bench(), use_words());
    let title = store
        .peek(|open| words.section_name(&open.card.plan().sections[section]).to_owned())
        .unwrap_or_default();
    let node = store
        .peek(|open| {
            let path = open.card.plan().sections[section].id.as_str();
            open.tree.find(path)
        })
        .flatten();
    let figure = move || {
        store.whole(|open| {
            let at = node.and_then(|node| open.result.all.nodes.get(node))?;
            let score = at.score.map(|score| words.numbers.score(score)).unwrap_or_default();
            Some(format!("{score} · {}", words.numbers.share(at.coverage)))
        })
    };
    let tables = store.peek(|open| blocks(open.card.plan(), section)).unwrap_or_default();
    view! {
        <section class="overview__section">
            <h2 class="overview__title">
                <button type="button" class="overview__open" on:click=move |_| bench.open_section(section)>
                    <span>{title}</span>
                    <span class="overview__figure num">{figure}</span>
                </button>
            </h2>
            {tables.into_iter().map(|block| view! { <OverviewTable section block/> }).collect_view()}
        </section>
    }
}

#[component]
fn OverviewTable(section: usize, block: Block) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let rows = store
        .peek(|open| {
            let plan = open.card.plan();
            let row = |at: &(usize, usize)| {
                let place = place(plan, section, *at);
                let first = first_leaf(open, section, *at);
                let cells: Vec<LeafId> = (0..place.positions.len())
                    .map(|position| LeafId(first + position * place.looks.len()))
                    .collect();
                (words.place_name(place).to_owned(), cells)
            };
            block.places.iter().map(row).collect::<Vec<_>>()
        })
        .unwrap_or_default();
    view! {
        <table class="map map--small">
            <thead>
                <tr>
                    <td></td>
                    {block.columns.into_iter().map(|column| view! { <th scope="col">{words.column_head(&column).to_owned()}</th> }).collect_view()}
                </tr>
            </thead>
            <tbody>
                {rows.into_iter().map(|(name, cells)| view! {
                    <tr>
                        <th scope="row">{name}</th>
                        {cells.into_iter().map(|leaf| view! { <OverviewCell leaf/> }).collect_view()}
                    </tr>
                }).collect_view()}
            </tbody>
        </table>
    }
}

/// A position: its score, pressed to open its section there.
#[component]
fn OverviewCell(leaf: LeafId) -> impl IntoView {
    let (store, bench, words) = (use_card(), use_bench(), use_words());
    let node = store.peek(|open| open.position_of(leaf)).unwrap_or_default();
    let name = store.peek(|open| words.position(open.card.plan(), open.card.index(), leaf)).flatten().unwrap_or_default();
    let cell = move || store.position(node, |open| position_cell(open, node, leaf, words)).unwrap_or_default();
    view! {
        <td>
            <button type="button" class=move || format!("cell {}", cell().class)
                aria-label=move || format!("{name}: {}", cell().said(words))
                on:click=move |_| bench.select(leaf)>
                {move || cell().text}
            </button>
        </td>
    }
}

/// What a cell shows.
#[derive(Clone, Debug, Default, PartialEq)]
struct Cell {
    class: &'static str,
    text: String,
    marks: String,
    kind: CellKind,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum CellKind {
    #[default]
    Open,
    NotInspected,
    Scored,
}

impl Cell {
    fn said(&self, words: &Words) -> String {
        match self.kind {
            CellKind::Open => words.bench.open.to_owned(),
            CellKind::NotInspected => words.bench.not_inspected.to_owned(),
            CellKind::Scored => self.text.clone(),
        }
    }
}

fn position_cell(open: &Open, node: usize, first: LeafId, words: &Words) -> Cell {
    let count = open.tree.nodes()[node].children.len();
    let answers = &open.result.answers[first.0..first.0 + count];
    let any_not = answers.contains(&Answer::NotInspected);
    let all_answered = answers.iter().all(|answer| *answer != Answer::Open);
    cell(open.result.all.nodes[node].score, any_not && all_answered, String::new(), words)
}

fn cell(score: Option<f64>, not_inspected: bool, marks: String, words: &Words) -> Cell {
    match (score, not_inspected) {
        (Some(score), _) => Cell {
            class: ramp::class(score),
            text: words.numbers.score(score),
            marks,
            kind: CellKind::Scored,
        },
        (None, true) => Cell {
            class: "cell--not",
            text: words.bench.not_inspected_mark.to_owned(),
            marks,
            kind: CellKind::NotInspected,
        },
        (None, false) => Cell {
            class: "cell--open",
            text: "·".to_owned(),
            marks,
            kind: CellKind::Open,
        },
    }
}

/// One section: a row for each characteristic of each place, a cell for each position.
#[component]
pub fn SectionMap(section: usize) -> impl IntoView {
    let store = use_card();
    let tables = store.peek(|open| blocks(open.card.plan(), section)).unwrap_or_default();
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
                    {block.columns.into_iter().map(|column| view! { <th scope="col">{words.column_head(&column).to_owned()}</th> }).collect_view()}
                </tr>
            </thead>
            <tbody>
                {rows.into_iter().map(|(name, cells)| view! {
                    <tr>
                        <th scope="row">{name}</th>
                        {cells.into_iter().map(|leaf| view! { <LeafCell leaf/> }).collect_view()}
                    </tr>
                }).collect_view()}
            </tbody>
        </table>
    }
}

/// One characteristic in one position.
#[component]
fn LeafCell(leaf: LeafId) -> impl IntoView {
    let (store, bench, words) = (use_card(), use_bench(), use_words());
    let node = store.peek(|open| open.position_of(leaf)).unwrap_or_default();
    let name = store.peek(|open| words.leaf(open.card.plan(), open.card.index(), leaf)).flatten().unwrap_or_default();
    let cell = Memo::new(move |_| store.position(node, |open| leaf_cell(open, leaf, words)).unwrap_or_default());
    let selected = Memo::new(move |_| bench.leaf.get() == Some(leaf));
    view! {
        <td>
            <button type="button" id=format!("leaf-{}", leaf.0)
                class=move || format!("cell {}", cell.with(|cell| cell.class))
                aria-current=move || selected.get().then_some("true")
                aria-label=move || format!("{name}: {}", cell.with(|cell| cell.said(words)))
                tabindex=move || if selected.get() { "0" } else { "-1" }
                on:click=move |_| bench.select(leaf)>
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
    if open.result.all.nodes.iter().any(|node| node.cap.is_some_and(|cap| cap.set_off_by == leaf)) {
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
