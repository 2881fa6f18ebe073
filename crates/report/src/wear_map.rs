//! The wear map as HTML: the whole engine to look at, a section to press.
//!
//! Both are tables: a row for each place (or each characteristic of it), a cell for each position from
//! front to rear. What a press leads to is in the markup: `data-leaf` and `data-section` on the Bench,
//! `data-go` with the node on the Card. A cell is drawn again by its id: [`leaf_id`],
//! [`position_id`], [`figure_id`].
//! To those who listen a table is a grid with headed rows and columns, and one stop of the Tab key.

use std::ops::Range;

use ringland_assess::{Answer, Assessment, Tree};
use ringland_card::{
    Card, Cause,
    plan::{LeafId, Place},
};

use crate::{
    card::{anchor, row_of},
    markup::Html,
    ramp,
    words::Words,
};

/// More columns than this do not fit beside each other on a small screen.
const MANY: usize = 8;

/// What a press on the map leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leads {
    /// To the rating pad.
    ToPad,
    /// To how a figure was made.
    ToMaking,
    /// The same by links, where no script runs.
    ToRow,
}

/// What a cell shows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cell {
    /// Its classes: a step of the wear ramp, open, not inspected or hidden.
    pub class: String,
    /// Its figure and marks, as markup.
    pub inside: String,
    /// What it is and says, in words.
    pub label: String,
}

/// A card's map.
#[derive(Clone, Debug)]
pub struct WearMap<'a> {
    card: &'a Card,
    tree: &'a Tree,
    result: &'a Assessment,
    words: &'static Words,
    caps: Vec<LeafId>,
    /// By leaf, where anything is hidden: whether what others said of it is.
    hidden: Vec<bool>,
}

/// The id of a leaf's cell on the map of its section.
pub fn leaf_id(leaf: LeafId) -> String {
    ["leaf-", &leaf.0.to_string()].concat()
}

/// The id of a position's cell on the map of the whole engine, by its first leaf.
pub fn position_id(first: LeafId) -> String {
    ["at-", &first.0.to_string()].concat()
}

/// The id of the figure beside a section's name on the map of the whole engine.
pub fn figure_id(section: usize) -> String {
    ["figure-", &section.to_string()].concat()
}

impl<'a> WearMap<'a> {
    /// The map of a card; `tree` and `result` are those of the card.
    pub fn new(
        card: &'a Card,
        tree: &'a Tree,
        result: &'a Assessment,
        words: &'static Words,
    ) -> Self {
        Self {
            card,
            tree,
            result,
            words,
            caps: capping(result),
            hidden: Vec::new(),
        }
    }

    /// The map for somebody who is to rate without knowing what others said of the leaves marked.
    #[must_use]
    pub fn hiding(mut self, hidden: Vec<bool>) -> Self {
        self.hidden = hidden;
        self
    }

    /// The whole engine: a row for each place, a cell for each position.
    pub fn whole(&self, leads: Leads) -> String {
        let mut html = Html::new();
        html.open("div class=\"overview\"");
        for section in 0..self.card.plan().sections.len() {
            self.overview_section(&mut html, section, leads);
        }
        html.close("div");
        html.done()
    }

    /// One section: a row for each characteristic of each place.
    pub fn section(&self, section: usize) -> String {
        let mut html = Html::new();
        html.open("div class=\"sectionmap\"");
        self.tables(
            &mut html,
            section,
            [
                "table class=\"map map--press\" role=\"grid\"",
                "table class=\"map map--press map--wide\" role=\"grid\"",
            ],
            &|html, place, _| {
                let first = self.first_leaf(place);
                for (number, look) in place.looks.iter().enumerate() {
                    if self.card.plan().is_gauged(look) {
                        continue;
                    }
                    html.open("tr")
                        .el("th scope=\"row\"", &self.words.row_name(place, look));
                    for position in 0..place.positions.len() {
                        let leaf = LeafId(first + position * place.looks.len() + number);
                        let at = [("id", leaf_id(leaf)), ("data-leaf", leaf.0.to_string())];
                        put(html, &self.leaf_cell(leaf), &at, "-1");
                    }
                    html.close("tr");
                }
            },
        );
        html.close("div");
        html.done()
    }

    /// The figure beside a section's name: its score and coverage; nothing where a part is hidden.
    pub fn section_figure(&self, section: usize) -> String {
        let words = self.words;
        let node = self.tree.nodes()[0].children[section];
        let at = &self.result.all.nodes[node];
        let leaves = self.card.index().leaves();
        let hidden = self
            .hidden
            .iter()
            .zip(leaves)
            .any(|(hidden, leaf)| *hidden && leaf.section == section);
        match at.score {
            _ if hidden => String::new(),
            Some(score) => {
                let score = words.numbers.score(score);
                [&score, " · ", &words.numbers.share(at.coverage)].concat()
            }
            None => ["– · ", &words.numbers.share(at.coverage)].concat(),
        }
    }

    /// The cell of one characteristic in one position.
    pub fn leaf_cell(&self, leaf: LeafId) -> Cell {
        let name = self
            .words
            .leaf(self.card.plan(), self.card.index(), leaf)
            .unwrap_or_default();
        let score = self.result.leaves[leaf.0].score;
        self.cell(&name, score, leaf.0..leaf.0 + 1)
    }

    /// The cell of a position, by its first leaf.
    pub fn position_cell(&self, first: LeafId) -> Cell {
        let name = self
            .words
            .position(self.card.plan(), self.card.index(), first)
            .unwrap_or_default();
        let node = self.node_of(first);
        let leaves = first.0..first.0 + self.tree.nodes()[node].children.len();
        self.cell(&name, self.result.all.nodes[node].score, leaves)
    }

    fn cell(&self, name: &str, score: Option<f64>, leaves: Range<usize>) -> Cell {
        let words = self.words;
        if leaves.clone().any(|leaf| self.hides(leaf)) {
            return shown(
                "cell--hidden",
                "?",
                "",
                words.names.rating(name, words.bench.hidden),
            );
        }
        let mut by_eye = leaves.clone().filter(|leaf| !self.gauged(*leaf));
        let open = by_eye.any(|leaf| self.result.answers[leaf] == Answer::Open);
        let (class, text, said) = match score {
            Some(score) => (ramp::class(score), words.numbers.score(score), None),
            None if open => ("cell--open", "·".to_owned(), Some(words.bench.open)),
            None => (
                "cell--not",
                words.bench.not_inspected_mark.to_owned(),
                Some(words.bench.not_inspected),
            ),
        };
        // What is seen is said too, so that a voice can name what an eye sees.
        let said = match said {
            Some(said) if open => said.to_owned(),
            Some(said) => [&text, " ", said].concat(),
            None => text.clone(),
        };
        let mut label = words.names.rating(name, &said);
        let mut marks = String::new();
        for (set, mark, meaning) in self.marks(leaves) {
            if set {
                marks.push(mark);
                label = [label.as_str(), ", ", meaning].concat();
            }
        }
        shown(class, &text, &marks, label)
    }

    fn marks(&self, leaves: Range<usize>) -> [(bool, char, &'static str); 3] {
        let words = self.words;
        let mut of_two = self.result.leaves[leaves.clone()].iter();
        let mut caused = self.result.causes[leaves.clone()].iter();
        [
            (
                self.caps.iter().any(|leaf| leaves.contains(&leaf.0)),
                '▾',
                words.bench.mark_cap,
            ),
            (
                of_two.any(|leaf| leaf.looks.len() > 1),
                '²',
                words.bench.mark_two,
            ),
            (
                caused.any(|cause| *cause != Cause::InService),
                '×',
                words.bench.mark_cause,
            ),
        ]
    }

    /// Whether a leaf is read with a gauge: that is done on a page of its own.
    fn gauged(&self, leaf: usize) -> bool {
        let leaf = self.card.index().leaf(LeafId(leaf));
        leaf.is_some_and(|leaf| leaf.gauged)
    }

    fn hides(&self, leaf: usize) -> bool {
        self.hidden.get(leaf).copied().unwrap_or(false)
    }

    fn node_of(&self, leaf: LeafId) -> usize {
        let node = self.tree.node_of(leaf);
        self.tree.nodes()[node].parent.unwrap_or(node)
    }

    fn first_leaf(&self, place: &Place) -> usize {
        let position = place.positions.first().map_or("", |at| at.id.as_str());
        self.card
            .index()
            .of_position(self.card.plan(), position)
            .start
    }

    fn overview_section(&self, html: &mut Html, section: usize, leads: Leads) {
        let name = self.words.section_name(&self.card.plan().sections[section]);
        let node = self.tree.nodes()[0].children[section];
        // The Card has headings above the map's; on the Bench it is the page.
        let (open, close) = match leads {
            Leads::ToPad => ("h2 class=\"overview__title\"", "h2"),
            Leads::ToMaking | Leads::ToRow => ("h3 class=\"overview__title\"", "h3"),
        };
        let way = match leads {
            Leads::ToPad => ("data-section", section.to_string()),
            Leads::ToMaking => ("data-go", node.to_string()),
            Leads::ToRow => ("href", ["#", &anchor(node)].concat()),
        };
        let (way_open, way_close) = match leads {
            Leads::ToRow => ("a class=\"overview__open\"", "a"),
            _ => ("button type=\"button\" class=\"overview__open\"", "button"),
        };
        let table = match leads {
            Leads::ToRow => "table class=\"map map--small\"",
            _ => "table class=\"map map--small\" role=\"grid\"",
        };
        html.open("section class=\"overview__section\"")
            .open(open)
            .with(way_open, &[(way.0, &way.1)])
            .el("span", name)
            .with(
                "span class=\"overview__figure num\"",
                &[("id", &figure_id(section))],
            )
            .text(&self.section_figure(section))
            .close("span")
            .close(way_close)
            .close(close);
        self.tables(html, section, [table; 2], &|html, place, top| {
            html.open("tr")
                .el("th scope=\"row\"", self.words.place_name(place));
            let first = self.first_leaf(place);
            for position in 0..place.positions.len() {
                let leaf = LeafId(first + position * place.looks.len());
                let cell = self.position_cell(leaf);
                let way = match leads {
                    Leads::ToRow => {
                        let row = row_of(self.tree, &self.result.all, self.node_of(leaf));
                        put_link(html, &cell, &anchor(row));
                        continue;
                    }
                    Leads::ToPad => [("id", position_id(leaf)), ("data-leaf", leaf.0.to_string())],
                    Leads::ToMaking => [
                        ("id", position_id(leaf)),
                        ("data-go", self.node_of(leaf).to_string()),
                    ],
                };
                // The Tab key comes into a table at its first cell; arrows go on from there.
                let tab = if top && position == 0 { "0" } else { "-1" };
                put(html, &cell, &way, tab);
            }
            html.close("tr");
        });
        html.close("section");
    }

    /// The places of a section in strip-down order, in one table as long as they share their columns;
    /// the second kind of table is for many columns. A row is told whether it is the first of its table.
    fn tables(
        &self,
        html: &mut Html,
        section: usize,
        table: [&'static str; 2],
        rows: &dyn Fn(&mut Html, &Place, bool),
    ) {
        let section = &self.card.plan().sections[section];
        let mut columns: Option<Vec<&str>> = None;
        let by_eye = |place: &&Place| {
            let mut looks = place.looks.iter();
            looks.any(|look| !self.card.plan().is_gauged(look))
        };
        let places = section.parts.iter().flat_map(|part| &part.places);
        for place in places.filter(by_eye) {
            let own: Vec<&str> = place
                .positions
                .iter()
                .map(|position| position.column.as_str())
                .collect();
            let first = columns.as_ref() != Some(&own);
            if first {
                if columns.is_some() {
                    html.close("tbody").close("table");
                }
                let table = table[usize::from(own.len() > MANY)];
                self.heads(html, table, self.words.section_name(section), &own);
                columns = Some(own);
            }
            rows(html, place, first);
        }
        if columns.is_some() {
            html.close("tbody").close("table");
        }
    }

    fn heads(&self, html: &mut Html, table: &'static str, section: &str, columns: &[&str]) {
        html.open(table)
            .el("caption class=\"visually-hidden\"", section)
            .open("colgroup")
            .open("col class=\"map__names\"/")
            .close("colgroup");
        if columns.iter().any(|column| !column.is_empty()) {
            html.open("thead").open("tr").open("td").close("td");
            for column in columns {
                html.el("th scope=\"col\"", self.words.column_head(column));
            }
            html.close("tr").close("thead");
        }
        html.open("tbody");
    }
}

/// The leaves that set off a cap that bit.
pub fn capping(result: &Assessment) -> Vec<LeafId> {
    let bites = result.all.nodes.iter().filter_map(|node| node.cap);
    bites.map(|bite| bite.set_off_by).collect()
}

fn shown(class: &str, text: &str, marks: &str, label: String) -> Cell {
    let mut html = Html::new();
    html.text(text)
        .el("span class=\"cell__marks\" aria-hidden=\"true\"", marks);
    Cell {
        class: ["cell ", class].concat(),
        inside: html.done(),
        label,
    }
}

/// A cell that leads to a row of the page: its name for ears within it, as a link has no other.
fn put_link(html: &mut Html, cell: &Cell, row: &str) {
    html.open("td")
        .with(
            "a",
            &[("class", &cell.class), ("href", &["#", row].concat())],
        )
        .el("span class=\"visually-hidden\"", &cell.label)
        .open("span aria-hidden=\"true\"")
        .markup(&cell.inside)
        .close("span")
        .close("a")
        .close("td");
}

fn put(html: &mut Html, cell: &Cell, way: &[(&'static str, String); 2], tab: &str) {
    let [(id, id_is), (leads, leads_to)] = way;
    html.open("td")
        .with(
            "button type=\"button\"",
            &[
                ("class", &cell.class),
                (id, id_is),
                (leads, leads_to),
                ("tabindex", tab),
                ("aria-label", &cell.label),
            ],
        )
        .markup(&cell.inside)
        .close("button")
        .close("td");
}
