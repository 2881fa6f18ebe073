//! The roll-up as rows that open: section, part, position, characteristic.

use ringland_assess::{NodeKind, RollUp, Tree, explain::Term};

use super::{BLOCK, DASH, Sheet, block, worst::chip};
use crate::{
    markup::{Cell, Html, Table},
    ramp,
};

/// What belongs in a `details` that stands empty: its `data-fill`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// How a node was made, and what is below it.
    Node(usize),
    /// How the engine's score was made of its sections.
    Engine,
    /// Every scale of the plan.
    Scales,
    /// Every correction and removal.
    Corrections,
    /// The remarks from that one on.
    Remarks(usize),
    /// The table of a kind of size, by its first leaf.
    Kind(usize),
    /// The readings and budgets of a size, by its leaf.
    Size(usize),
}

/// How a fill that names a number begins.
const REMARKS: &str = "remarks-";
const KIND: &str = "kind-";
const SIZE: &str = "size-";

/// How such a fill begins, and how it is made of the number.
type Numbered = (&'static str, fn(usize) -> Fill);

impl Fill {
    /// Reads a `data-fill`.
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "engine" => Some(Self::Engine),
            "scales" => Some(Self::Scales),
            "corrections" => Some(Self::Corrections),
            other => {
                let numbered: [Numbered; 3] = [
                    (REMARKS, Self::Remarks),
                    (KIND, Self::Kind),
                    (SIZE, Self::Size),
                ];
                let (number, made) = numbered
                    .into_iter()
                    .find_map(|(begins, made)| Some((other.strip_prefix(begins)?, made)))
                    .unwrap_or((other, Self::Node));
                number.parse().ok().map(made)
            }
        }
    }
}

impl std::fmt::Display for Fill {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Node(number) => number.fmt(f),
            Self::Engine => f.write_str("engine"),
            Self::Scales => f.write_str("scales"),
            Self::Corrections => f.write_str("corrections"),
            Self::Remarks(from) => write!(f, "{REMARKS}{from}"),
            Self::Kind(leaf) => write!(f, "{KIND}{leaf}"),
            Self::Size(leaf) => write!(f, "{SIZE}{leaf}"),
        }
    }
}

impl Sheet<'_> {
    /// The sections, closed; or `whole`, everything below them open.
    pub fn sections(&self, whole: bool) -> String {
        let words = self.words;
        let mut html = Html::new();
        html.open("div class=\"tree\"");
        heads(
            &mut html,
            "div class=\"node__heads node__heads--section\" aria-hidden=\"true\"",
            &[
                ("span class=\"node__name\"", words.card.section),
                ("span class=\"node__head-score\"", words.card.score),
                ("span class=\"node__bar node__scale\"", "0 – 10"),
                ("span class=\"node__figure\"", words.card.interval),
                (
                    "span class=\"node__figure node__figure--cover\"",
                    words.card.coverage,
                ),
                ("span class=\"node__figure\"", words.card.in_service),
            ],
        );
        for &section in &self.tree.nodes()[0].children {
            self.node(&mut html, section, None, whole);
        }
        self.fold(&mut html, words.card.engine_made, Fill::Engine, whole);
        html.close("div");
        block(
            BLOCK,
            words.card.by_section,
            words.card.by_section_hint,
            html,
        )
    }

    /// What belongs in a `details`; see [`Fill`]. With `whole`, what is below stands open in it.
    pub fn fill(&self, fill: Fill, whole: bool) -> String {
        match fill {
            Fill::Node(number) if number < self.tree.nodes().len() => self.inside(number, whole),
            Fill::Node(_) => String::new(),
            Fill::Engine => self.engine_made(),
            Fill::Scales => self.scales(),
            Fill::Corrections => self.all_corrections(),
            Fill::Remarks(from) => self.remarks_from(from, whole),
            Fill::Kind(leaf) => self.kind_inside(leaf, whole),
            Fill::Size(leaf) => self.size_inside(leaf),
        }
    }

    /// A `details` of one line that opens to something of its own.
    pub(super) fn fold(&self, html: &mut Html, title: &str, fill: Fill, whole: bool) {
        let name = fill.to_string();
        html.with(
            details("details class=\"node node--fold\"", whole),
            &[("data-fill", &name)],
        )
        .open("summary class=\"node__row node__row--fold\"")
        .text(title)
        .close("summary");
        if whole {
            html.markup(&self.fill(fill, true));
        }
        html.close("details");
    }

    /// How a node was made, and what is below it.
    pub fn inside(&self, number: usize, whole: bool) -> String {
        let mut html = Html::new();
        let kind = self.tree.nodes()[number].kind;
        if let NodeKind::Leaf(leaf) = kind {
            if whole {
                self.leaf_brief(&mut html, leaf);
            } else {
                self.leaf(&mut html, leaf, number);
            }
            return html.done();
        }
        let words = self.words;
        let made = self.made(&self.result.all, number);
        html.open("div class=\"node__inside\"");
        self.how_made(&mut html, number, &made, whole);
        // On paper the columns of the part above run on.
        let heads_of: &[(&str, &str)] = if whole && kind == NodeKind::Position {
            &[]
        } else {
            &[
                ("span class=\"node__name\"", words.card.below),
                ("span class=\"node__head-score\"", words.card.score),
                ("span class=\"node__figure\"", "± U"),
                ("span class=\"node__figure\"", words.made.weight),
                ("span class=\"node__figure\"", words.made.share),
                ("span class=\"node__figure node__figure--product\"", "w·s"),
                (
                    "span class=\"node__figure node__figure--cover\"",
                    words.card.coverage,
                ),
            ]
        };
        if !heads_of.is_empty() {
            heads(
                &mut html,
                "div class=\"node__heads\" aria-hidden=\"true\"",
                heads_of,
            );
        }
        for term in &made.terms {
            self.node(&mut html, term.node, Some(term), whole);
        }
        html.close("div");
        html.done()
    }

    /// A node as a row; with its term in the mean of the node above, where that is taken apart.
    fn node(&self, html: &mut Html, number: usize, term: Option<&Term>, whole: bool) {
        let kind = self.tree.nodes()[number].kind;
        // On a page that is read and not pressed, a section shows its parts and each part its positions when asked.
        let element = match kind {
            NodeKind::Section => details("details class=\"node node--section\"", whole),
            _ => details("details class=\"node\"", whole && !self.still),
        };
        let (fill, anchor) = (Fill::Node(number).to_string(), anchor(number));
        html.with(element, &[("data-fill", &fill)])
            .with("summary class=\"node__row\"", &[("id", &anchor)]);
        self.row(html, number, term, whole);
        html.close("summary");
        if whole {
            html.markup(&self.inside(number, true));
        }
        html.close("details");
    }

    fn row(&self, html: &mut Html, number: usize, term: Option<&Term>, whole: bool) {
        let (words, numbers) = (self.words, self.words.numbers);
        let (kind, at) = (
            self.tree.nodes()[number].kind,
            &self.result.all.nodes[number],
        );
        html.open("span class=\"node__name\"")
            .el("span class=\"node__title\"", &self.node_name(number));
        if at.cap.is_some() {
            html.el(
                "span class=\"node__cap\"",
                &["▾ ", words.card.capped].concat(),
            );
        }
        html.close("span");
        chip(
            html,
            at.score.map_or("cell--open", ramp::class),
            &self.score_or_dash(at.score),
        );
        if kind == NodeKind::Section {
            let range = at
                .interval()
                .map_or_else(String::new, |(low, high)| self.range(low, high));
            html.open("span class=\"node__bar\"");
            if let (Some(score), Some(interval)) = (at.score, at.interval()) {
                mark(html, score, interval);
            }
            html.close("span");
            figure(
                html,
                "span class=\"node__figure node__figure--range num\"",
                words.card.interval,
                &range,
            );
            figure(
                html,
                COVER,
                words.card.coverage,
                &numbers.share(at.coverage),
            );
            let service = self.result.in_service.nodes[number].score;
            figure(
                html,
                "span class=\"node__figure node__figure--service num\"",
                words.card.in_service,
                &self.score_or_dash(service),
            );
            return;
        }
        let half =
            at.u.map_or_else(String::new, |u| numbers.plus_minus(2.0 * u));
        let share = term
            .and_then(|term| term.share)
            .map_or_else(|| DASH.to_owned(), |share| numbers.share(share));
        let product = self.fixed_or_dash(term.and_then(|term| term.product), 2);
        figure(html, FIGURE, "", &half);
        figure(
            html,
            FIGURE,
            words.made.weight,
            &numbers.weight(self.tree.nodes()[number].weight),
        );
        figure(html, FIGURE, words.made.share, &share);
        figure(
            html,
            "span class=\"node__figure node__figure--product num\"",
            "w·s",
            &product,
        );
        figure(
            html,
            COVER,
            words.card.coverage,
            &numbers.share(at.coverage),
        );
        if let NodeKind::Leaf(leaf) = kind {
            match self.seen(leaf) {
                seen if seen.is_empty() => html.el(SEEN, words.bench.open),
                // On paper each look has a line of its own below.
                _ if whole => html,
                seen => html.el(SEEN, &seen.join(" · ")),
            };
        }
    }

    /// How the engine's score was made of those of its sections.
    fn engine_made(&self) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let made = self.made(&self.result.all, 0);
        let mut table = Table::new("", words.made.terms)
            .words(words.card.section)
            .figures(words.made.weight)
            .figures(words.made.share)
            .figures(words.card.score)
            .figures("w·s");
        table.rows = made
            .terms
            .iter()
            .map(|term| {
                let share = term
                    .share
                    .map_or_else(|| DASH.to_owned(), |share| numbers.share(share));
                vec![
                    Cell::Words(self.node_name(term.node)),
                    Cell::Figure(numbers.weight(term.weight)),
                    Cell::Figure(share),
                    Cell::Figure(self.fixed_or_dash(term.score, 3)),
                    Cell::Figure(self.fixed_or_dash(term.product, 3)),
                ]
            })
            .collect();
        let mut html = Html::new();
        html.open("div class=\"node__inside\"").table(&table);
        self.how_made(&mut html, 0, &made, false);
        html.close("div");
        html.done()
    }
}

/// The heads of the columns, for eyes; each figure carries its own name for ears.
fn heads(html: &mut Html, line: &'static str, heads: &[(&'static str, &str)]) {
    html.open(line);
    for (cell, name) in heads {
        html.open(cell).text(name).close("span");
    }
    html.close("div");
}

const SEEN: &str = "span class=\"node__seen\"";
const COVER: &str = "span class=\"node__figure node__figure--cover num\"";
const FIGURE: &str = "span class=\"node__figure num\"";

/// The same `details`, open where it is to be.
fn details(closed: &'static str, open: bool) -> &'static str {
    match (open, closed) {
        (false, closed) => closed,
        (true, "details class=\"node node--section\"") => {
            "details class=\"node node--section\" open"
        }
        (true, "details class=\"node node--fold\"") => "details class=\"node node--fold\" open",
        (true, _) => "details class=\"node\" open",
    }
}

/// Where a node's row stands on the page.
pub fn anchor(number: usize) -> String {
    format!("node-{number}")
}

/// The node whose row stands for a node: its own, or that of the node above where it is left out of the sum, as then
/// nothing was made of it.
pub fn row_of(tree: &Tree, rolled: &RollUp, number: usize) -> usize {
    let mut row = number;
    let mut at = number;
    while let Some(above) = tree.nodes()[at].parent {
        if tree.nodes()[at].kind != NodeKind::Section && rolled.nodes[at].left_out {
            row = above;
        }
        at = above;
    }
    row
}

/// A figure with its name for whoever cannot see the column it stands in.
fn figure(html: &mut Html, element: &'static str, name: &str, figure: &str) {
    html.open(element);
    if !name.is_empty() && !figure.is_empty() {
        html.open("span class=\"visually-hidden\"")
            .text(" ")
            .text(name)
            .text(" ")
            .close("span");
    }
    html.text(figure).close("span");
}

/// A score with its interval on the line from 0 to 10, for a row. It is stretched to the row's width;
/// its strokes are not.
fn mark(html: &mut Html, score: f64, (low, high): (f64, f64)) {
    let at = |score: f64| format!("{:.1}", score.clamp(0.0, 10.0) * 10.0);
    let wide = format!("{:.1}", (high - low).max(0.1) * 10.0);
    let tick = format!("M{} 0V14", at(score));
    html.open("svg class=\"mark\" viewBox=\"0 0 100 14\" preserveAspectRatio=\"none\" aria-hidden=\"true\"")
        .open("path class=\"mark__line\" d=\"M0 7H100\"/")
        .with(
            "rect class=\"mark__band\" y=\"2\" height=\"10\"",
            &[("x", &at(low)), ("width", &wide)],
        )
        .close("rect")
        .with("path class=\"mark__score\"", &[("d", &tick)])
        .close("path")
        .close("svg");
}
