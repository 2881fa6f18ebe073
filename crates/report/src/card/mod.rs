//! The Card as HTML: the result on one page, which opens down to the entries it was made of.
//!
//! | what | where |
//! |---|---|
//! | name, facts, score and what qualifies it | [`Sheet::who`], [`Sheet::score`] |
//! | the worst leaves | [`Sheet::worst`] |
//! | sections and everything below, how each figure was made | [`Sheet::sections`], [`Sheet::inside`] |
//! | wear map | [`Sheet::map`] |
//! | not looked at, left out in service | [`Sheet::not_looked_at`], [`Sheet::left_out`] |
//! | what was measured, how much further it could have run | [`Sheet::measured`], [`Sheet::outlook`] |
//! | trade figures, patterns, grades counted | [`Sheet::trade`], [`Sheet::along`], [`Sheet::grades`] |
//! | raters, remarks, corrections, looks outside the plan | [`Sheet::people`], [`Sheet::remarks`], [`Sheet::corrections`], [`Sheet::outside`] |
//! | photos, where a page has their pictures | [`Sheet::photos`] |
//! | plan, method, digest, cautions, who decides | [`Sheet::method`], [`Sheet::scales`], [`Sheet::cautions`], [`Sheet::reuse`] |
//!
//! Each piece is markup by itself. What opens is a `details`: it stands closed and empty with
//! `data-fill` saying what belongs in it ([`Fill`]), so that a whole engine is on screen at once; or
//! open and full, for paper and for where no script runs. What leads to a node has `data-go`, what
//! leads to a kind of size `data-go-size` with the id of its row.

mod along;
mod gaps;
mod grades;
mod head;
mod leaf;
mod log;
mod made;
mod map;
mod measured;
mod method;
mod names;
mod people;
mod photos;
mod records;
mod scale;
mod seals;
mod trade;
mod tree;
mod worst;

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use ringland_assess::{Assessment, Tree, weights::Dependence};
use ringland_card::{Card, Entry, PhotoDigest, Standing, plan::LeafId};

pub use self::{
    log::{Became, Log},
    tree::{Fill, anchor, row_of},
};
use crate::{format::UnitPrefs, markup::Html, words::Words};

/// A card with everything that its pages are made from.
#[derive(Clone, Debug)]
pub struct Sheet<'a> {
    /// The card.
    pub card: &'a Card,
    /// The tree of its plan.
    pub tree: &'a Tree,
    /// What is worked out of it.
    pub result: &'a Assessment,
    /// What holds on it.
    pub standing: Standing<'a>,
    /// What was written about each leaf.
    pub log: Log,
    /// The words.
    pub words: &'static Words,
    /// The reader's units.
    pub units: UnitPrefs,
    /// Minutes that the reader's clock is ahead of UTC.
    pub offset_minutes: i32,
    /// Where the Bench is for this card, to lead there; none where there is no Bench.
    pub bench: Option<String>,
    /// Where Gauging is for this card; none where there is none.
    pub gauging: Option<String>,
    /// Whether no script runs where this is read: what leads somewhere is then a link within the page.
    pub still: bool,
    /// The photos whose pictures the page has; none where photos have a screen of their own.
    pub pictures: Option<&'a BTreeSet<PhotoDigest>>,
    /// The score under other weights and the seed of its draws, where it has been drawn.
    pub other_weights: Option<(&'a Dependence, u64)>,
}

impl<'a> Sheet<'a> {
    /// A sheet on which nothing leads to the Bench, in the default units and in UTC.
    ///
    /// `tree` and `result` are those of the card.
    pub fn new(
        card: &'a Card,
        tree: &'a Tree,
        result: &'a Assessment,
        words: &'static Words,
    ) -> Self {
        let standing = card.standing();
        let log = Log::of(card, &standing);
        Self {
            card,
            tree,
            result,
            standing,
            log,
            words,
            units: UnitPrefs::default(),
            offset_minutes: 0,
            bench: None,
            gauging: None,
            still: false,
            pictures: None,
            other_weights: None,
        }
    }

    /// Something to press, or on a page without a script to follow, that leads to a row of the page.
    fn way(&self, html: &mut Html, pressed: (&'static str, &str), row: &str, name: &str) {
        if self.still {
            html.with("a class=\"link\"", &[("href", &["#", row].concat())])
                .text(name)
                .close("a");
        } else {
            html.with("button type=\"button\" class=\"link\"", &[pressed])
                .text(name)
                .close("button");
        }
    }

    /// A way to a node of the page.
    fn go(&self, html: &mut Html, node: usize, name: &str) {
        let pressed = node.to_string();
        let row = anchor(row_of(self.tree, &self.result.all, node));
        self.way(html, ("data-go", &pressed), &row, name);
    }

    /// When an entry was written, by the reader's clock.
    fn when(&self, entry: &Entry) -> String {
        self.words.date_time(entry.time, self.offset_minutes)
    }

    /// The address of a leaf on the Bench.
    fn bench_at(&self, leaf: LeafId) -> Option<String> {
        let bench = self.bench.as_deref()?;
        Some([bench, &leaf.0.to_string()].join("/"))
    }

    fn nothing_rated(&self) -> bool {
        self.result.all.engine().score.is_none()
    }

    /// A score, or a dash where there is none.
    fn score_or_dash(&self, score: Option<f64>) -> String {
        self.fixed_or_dash(score, 1)
    }

    fn fixed_or_dash(&self, value: Option<f64>, decimals: usize) -> String {
        value.map_or_else(
            || DASH.to_owned(),
            |value| self.words.numbers.fixed(value, decimals),
        )
    }

    /// Two scores with a word between.
    fn range(&self, low: f64, high: f64) -> String {
        let numbers = self.words.numbers;
        self.words
            .common
            .range(&numbers.score(low), &numbers.score(high))
    }
}

/// A line of text by itself.
pub fn line(text: &str) -> String {
    let mut html = Html::new();
    html.el("p", text);
    html.done()
}

/// What stands where there is no figure.
const DASH: &str = "–";

/// A part of the page with a heading; nothing where there is nothing in it.
fn block(class: &'static str, title: &str, hint: &str, inside: Html) -> String {
    let inside = inside.done();
    if inside.is_empty() {
        return inside;
    }
    let mut html = Html::new();
    html.open(class).el("h2", title);
    html.el("p class=\"fine block__hint\"", hint);
    html.markup(&inside).close("section");
    html.done()
}

const BLOCK: &str = "section class=\"block\"";
