//! What holds the engine down: its worst leaves, what was seen there, what they set off.

use std::collections::BTreeSet;

use ringland_assess::worst::worst_leaves;
use ringland_card::{Cause, PhotoDigest, plan::LeafId};

use super::{BLOCK, Sheet, block};
use crate::{markup::Html, ramp, words::lowered};

/// How many are shown.
const MOST: usize = 8;

impl Sheet<'_> {
    /// The worst leaves of the whole engine; nothing where none is below 10.
    pub fn worst(&self) -> String {
        let mut html = Html::new();
        let mut pictured = BTreeSet::new();
        for (leaf, score) in self.worst_shown() {
            self.bad(&mut html, leaf, score, &mut pictured);
        }
        let lines = html.done();
        if lines.is_empty() {
            return lines;
        }
        let mut list = Html::new();
        list.open("ol class=\"worst\"").markup(&lines).close("ol");
        block(BLOCK, self.words.card.holds_down, "", list)
    }

    /// The worst leaves below 10, with their scores.
    pub(super) fn worst_shown(&self) -> impl Iterator<Item = (LeafId, f64)> {
        let worst = worst_leaves(self.tree, &self.result.all, MOST);
        worst.into_iter().filter(|(_, score)| *score < 10.0)
    }

    /// One of them; `pictured` are the photos that already stand beside another.
    fn bad(&self, html: &mut Html, leaf: LeafId, score: f64, pictured: &mut BTreeSet<PhotoDigest>) {
        let words = self.words;
        let name = self.leaf_name(leaf);
        html.open("li class=\"worst__one\"");
        chip(html, ramp::class(score), &words.numbers.score(score));
        html.open("span class=\"worst__what\"");
        self.go(html, self.tree.node_of(leaf), &name);
        for said in self.seen(leaf) {
            html.el("span class=\"worst__seen\"", &said);
        }
        for cap in self.caps_of(leaf) {
            html.el("b class=\"worst__cap\"", &["▾ ", &cap].concat());
        }
        html.el("span class=\"worst__cause\"", &self.cause_of(leaf));
        html.close("span");
        self.photo_of_leaf(html, leaf, pictured);
        if let Some(bench) = self.bench_at(leaf) {
            let label = words.card.on_bench(&name);
            html.with(
                "a class=\"worst__bench\"",
                &[("href", &bench), ("aria-label", &label)],
            )
            .text(words.nav.bench)
            .close("a");
        }
        html.close("li");
    }

    /// The caps that bit because of this leaf.
    fn caps_of(&self, leaf: LeafId) -> Vec<String> {
        let words = self.words;
        let nodes = self.result.all.nodes.iter().enumerate();
        nodes
            .filter_map(|(number, at)| Some((number, at.cap?)))
            .filter(|(_, bite)| bite.set_off_by == leaf)
            .map(|(number, bite)| {
                let node = lowered(&self.node_name(number));
                words.card.caps_node(&node, &words.numbers.score(bite.cap))
            })
            .collect()
    }

    /// The cause of a leaf where it is not plain service, and whether it is left out for it.
    fn cause_of(&self, leaf: LeafId) -> String {
        let words = self.words;
        let cause = self.result.causes[leaf.0];
        let name = lowered(words.cause(cause));
        match cause {
            Cause::InService => String::new(),
            Cause::Unknown => ["× ", &words.pad.cause_kept(&name)].concat(),
            _ => ["× ", &words.card.cause_left_out(&name)].concat(),
        }
    }

    /// A way to a leaf, by its full name.
    pub(super) fn go_to_leaf(&self, html: &mut Html, leaf: LeafId) {
        self.go(html, self.tree.node_of(leaf), &self.leaf_name(leaf));
    }
}

/// A score in its shade.
pub(super) fn chip(html: &mut Html, shade: &str, score: &str) {
    let class = ["chip num ", shade].concat();
    html.with("span", &[("class", &class)])
        .text(score)
        .close("span");
}
