//! The wear map of the whole engine, and what the map of a section shares with it.

use leptos::prelude::*;
use ringland_assess::Answer;
use ringland_card::plan::{LeafId, Place, Plan};
use ringland_report::{ramp, words::Words};

use crate::{
    components::{act, live::live},
    store::{open::Open, prefs::use_words, use_card},
};

/// Places of a section that share their columns, so that they share a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// The names of the columns, front to rear.
    pub columns: Vec<String>,
    /// Part and place, by number.
    pub places: Vec<(usize, usize)>,
}

/// The blocks of a section in strip-down order.
pub fn blocks(plan: &Plan, section: usize) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for (p, part) in plan.sections[section].parts.iter().enumerate() {
        for (n, place) in part.places.iter().enumerate() {
            let columns: Vec<String> = place
                .positions
                .iter()
                .map(|position| position.column.clone())
                .collect();
            match blocks.last_mut() {
                Some(last) if last.columns == columns => last.places.push((p, n)),
                _ => blocks.push(Block {
                    columns,
                    places: vec![(p, n)],
                }),
            }
        }
    }
    blocks
}

/// A place of a section by its part's number and its own.
pub fn place(plan: &Plan, section: usize, (part, place): (usize, usize)) -> &Place {
    &plan.sections[section].parts[part].places[place]
}

/// The number of a place's first leaf.
pub fn first_leaf(open: &Open, section: usize, (part, place): (usize, usize)) -> usize {
    let plan = open.card.plan();
    let at = &plan.sections[section].parts[part].places[place].positions[0].id;
    open.card.index().of_position(plan, at.as_str()).start
}

/// What a press does: the cells and the heads of the overview.
#[derive(Clone, Copy)]
pub struct Press {
    /// Of a cell: the first leaf of its position.
    pub cell: Callback<LeafId>,
    /// Of a section's head: its number in the plan.
    pub section: Callback<usize>,
}

/// The whole engine: a row for each place, a cell for each position.
#[component]
pub fn Overview(
    /// What a press does.
    press: Press,
    /// Whether it stands under a heading of its own.
    #[prop(optional)]
    under: bool,
) -> impl IntoView {
    let store = use_card();
    let sections = move || {
        let count = store.structure(|open| open.card.plan().sections.len());
        (0..count.unwrap_or_default())
            .map(|section| view! { <OverviewSection section press under/> })
            .collect_view()
    };
    view! { <div class="overview">{live(sections)}</div> }
}

#[component]
fn OverviewSection(section: usize, press: Press, under: bool) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let title = store
        .peek(|open| {
            words
                .section_name(&open.card.plan().sections[section])
                .to_owned()
        })
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
            let score = at
                .score
                .map(|score| words.numbers.score(score))
                .unwrap_or_default();
            Some(format!("{score} · {}", words.numbers.share(at.coverage)))
        })
    };
    let tables = store
        .peek(|open| blocks(open.card.plan(), section))
        .unwrap_or_default();
    let head = view! {
        <button type="button" class="overview__open" on:click=act::press(move || press.section.run(section))>
            <span>{title}</span>
            <span class="overview__figure num">{live(figure)}</span>
        </button>
    };
    view! {
        <section class="overview__section">
            {if under {
                view! { <h3 class="overview__title">{head}</h3> }.into_any()
            } else {
                view! { <h2 class="overview__title">{head}</h2> }.into_any()
            }}
            {tables.into_iter().map(|block| view! { <OverviewTable section block press/> }).collect_view()}
        </section>
    }
}

#[component]
fn OverviewTable(section: usize, block: Block, press: Press) -> impl IntoView {
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
                    {block.columns.into_iter().map(|column| column_head(words.column_head(&column))).collect_view()}
                </tr>
            </thead>
            <tbody>
                {rows.into_iter().map(|(name, cells)| view! {
                    <tr>
                        <th scope="row">{name}</th>
                        {cells.into_iter().map(|leaf| view! { <OverviewCell leaf press/> }).collect_view()}
                    </tr>
                }.into_any()).collect_view()}
            </tbody>
        </table>
    }
}

/// A position and its score.
#[component]
fn OverviewCell(leaf: LeafId, press: Press) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let name = store
        .peek(|open| words.position(open.card.plan(), open.card.index(), leaf))
        .flatten()
        .unwrap_or_default();
    let cell = move || {
        store
            .position(node, |open| position_cell(open, node, leaf, words))
            .unwrap_or_default()
    };
    view! {
        <td>
            <button type="button" class=move || format!("cell {}", cell().class)
                aria-label=move || format!("{name}: {}", cell().said(words))
                on:click=act::press(move || press.cell.run(leaf))>
                {move || cell().text}
            </button>
        </td>
    }
}

/// What a cell shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// Its look: the step of the wear ramp, or open.
    pub class: &'static str,
    /// Its figure.
    pub text: String,
    /// Small marks beside it.
    pub marks: String,
    /// Whether it has been looked at.
    pub kind: CellKind,
}

/// Whether a cell has been looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CellKind {
    /// Nobody has looked.
    #[default]
    Open,
    /// Not inspected.
    NotInspected,
    /// It has a score.
    Scored,
}

impl Cell {
    /// What it says, in words.
    pub fn said(&self, words: &Words) -> String {
        match self.kind {
            CellKind::Open => words.bench.open.to_owned(),
            // What is seen is said too, so that a voice can name what an eye sees.
            CellKind::NotInspected => format!("{} {}", self.text, words.bench.not_inspected),
            CellKind::Scored => self.text.clone(),
        }
    }
}

fn position_cell(open: &Open, node: usize, first: LeafId, words: &Words) -> Cell {
    let count = open.tree.nodes()[node].children.len();
    let answers = &open.result.answers[first.0..first.0 + count];
    let any_not = answers.contains(&Answer::NotInspected);
    let all_answered = answers.iter().all(|answer| *answer != Answer::Open);
    cell(
        open.result.all.nodes[node].score,
        any_not && all_answered,
        String::new(),
        words,
    )
}

/// The cell of a score, or of what has none.
pub fn cell(score: Option<f64>, not_inspected: bool, marks: String, words: &Words) -> Cell {
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

/// The head of a column; a single position has none, and an empty one would be read out as nothing.
pub fn column_head(name: &str) -> AnyView {
    if name.is_empty() {
        view! { <td></td> }.into_any()
    } else {
        view! { <th scope="col">{name.to_owned()}</th> }.into_any()
    }
}
