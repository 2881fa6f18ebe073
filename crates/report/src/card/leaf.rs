//! One characteristic in one position: who saw what, how it became a score, and everything ever said of it.

use ringland_assess::{explain::Made, leaf::ScoredLook};
use ringland_card::{
    Body, Cause, Entry, EntryId, Look,
    plan::{LeafId, Repeatability},
};

use super::{
    Sheet,
    log::Became,
    made::{LINES, line},
};
use crate::{
    markup::{Cell, Html, Table},
    words::lowered,
};

impl Sheet<'_> {
    /// A leaf taken apart.
    pub(super) fn leaf(&self, html: &mut Html, leaf: LeafId, number: usize) {
        html.open("div class=\"node__inside leaf\"");
        if self.card.index().leaf(leaf).is_some_and(|leaf| leaf.gauged) {
            html.markup(&self.size_inside(leaf.0));
        }
        self.looks_table(html, leaf);
        html.open("div class=\"leaf__reads\"");
        for entry in self
            .log
            .looks(leaf)
            .iter()
            .filter_map(|id| self.card.entry(*id))
        {
            self.reading(html, leaf, entry);
        }
        html.close("div");
        html.open(LINES);
        self.leaf_lines(html, leaf, number, &self.made(&self.result.all, number));
        html.close("dl");
        self.history(html, leaf);
        if let Some(bench) = self.bench_at(leaf) {
            html.with("a class=\"leaf__bench\"", &[("href", &bench)])
                .text(self.words.card.open_on_bench)
                .close("a");
        }
        html.close("div");
    }

    /// A leaf taken apart in a line for each look, as paper has it: every scale stands whole at the end.
    pub(super) fn leaf_brief(&self, html: &mut Html, leaf: LeafId) {
        let (words, numbers, plan) = (self.words, self.words.numbers, self.card.plan());
        html.open("div class=\"leaf--brief num\"");
        for entry in self
            .log
            .looks(leaf)
            .iter()
            .filter_map(|id| self.card.entry(*id))
        {
            html.open("p")
                .el("b", &entry.rater)
                .text(" ")
                .text(&self.said(entry));
            let at = self.card.index().leaf(leaf);
            let scale = at.and_then(|at| plan.scale(&at.characteristic(plan).scale));
            if let (Some(scored), Some(scale)) = (self.scored(leaf, entry.id), scale) {
                let (score, u) = (scored.scored.score, numbers.fixed(scored.scored.u_rep, 3));
                let sum = match &entry.body {
                    Body::Rating { look, .. } => self.sum(scale, look, score, true),
                    _ => ["s = ", &numbers.fixed(score, 3)].concat(),
                };
                html.text(" · ").text(&sum).text(" · u_rep ").text(&u);
            }
            html.text(" ")
                .markup(&self.written(entry).done())
                .close("p");
        }
        let cause = self.result.causes[leaf.0];
        if cause != Cause::InService {
            html.el("p", &words.pad.cause_kept(&lowered(words.cause(cause))));
        }
        self.history(html, leaf);
        html.close("div");
    }

    /// The rater's scored look behind an entry.
    fn scored(&self, leaf: LeafId, entry: EntryId) -> Option<&ScoredLook> {
        let looks = &self.result.leaves[leaf.0].looks;
        looks.iter().find(|look| look.entry == entry)
    }

    fn looks_table(&self, html: &mut Html, leaf: LeafId) {
        let words = self.words;
        let mut table = Table::new("table--looks", words.made.entries)
            .words(words.made.rater)
            .words(words.made.seen)
            .figures(words.card.score)
            .figures("u_rep")
            .words(words.made.entry_id);
        for entry in self
            .log
            .looks(leaf)
            .iter()
            .filter_map(|id| self.card.entry(*id))
        {
            let scored = self.scored(leaf, entry.id).map(|look| look.scored);
            table.rows.push(vec![
                Cell::Words(entry.rater.clone()),
                Cell::Words(self.said(entry)),
                Cell::Figure(self.fixed_or_dash(scored.map(|scored| scored.score), 3)),
                Cell::Figure(self.fixed_or_dash(scored.map(|scored| scored.u_rep), 3)),
                Cell::Html(self.written(entry)),
            ]);
        }
        if !table.rows.is_empty() {
            html.table(&table);
        }
    }

    /// When an entry was written, which it is, and on which tablet: the end of that id tells them apart.
    pub(super) fn written(&self, entry: &Entry) -> Html {
        let (id, device) = (entry.id.to_string(), entry.device.to_string());
        let tablet = device
            .get(device.len().saturating_sub(8)..)
            .unwrap_or(&device);
        let mut html = Html::new();
        html.text(&self.when(entry)).text(" ").el(
            "span class=\"fine num\"",
            &self.words.made.entry_ids(&id, tablet),
        );
        html
    }

    /// How one look became a score.
    fn reading(&self, html: &mut Html, leaf: LeafId, entry: &Entry) {
        let plan = self.card.plan();
        let Some(at) = self.card.index().leaf(leaf) else {
            return;
        };
        let characteristic = at.characteristic(plan);
        let (Some(scale), Some(look)) = (
            plan.scale(&characteristic.scale),
            self.scored(leaf, entry.id),
        ) else {
            return;
        };
        let score = look.scored.score;
        let several = self.log.looks(leaf).len() > 1;
        let rater = several.then_some(entry.rater.as_str());
        match &entry.body {
            Body::Rating {
                look: Look::NotInspected(_),
                ..
            } => {}
            Body::Rating { look, .. } => {
                let name = characteristic.scale.as_str();
                self.read_on_scale(html, name, scale, (look, score), rater);
            }
            Body::Measurement { value, .. } => self.read_size(html, scale, *value, score),
            _ => {}
        }
    }

    fn leaf_lines(&self, html: &mut Html, leaf: LeafId, number: usize, made: &Made) {
        let (words, numbers, plan) = (self.words, self.words.numbers, self.card.plan());
        let known = &self.result.leaves[leaf.0];
        if let (Some(score), [_, _, ..]) = (known.score, known.looks.as_slice()) {
            let each: Vec<String> = known
                .looks
                .iter()
                .map(|look| numbers.fixed(look.scored.score, 3))
                .collect();
            let sum = each.join(" + ");
            let text = format!("({sum}) / {} = {}", each.len(), numbers.fixed(score, 3));
            line(html, words.made.mean_of_looks, &text);
        }
        if let Some(at) = self.card.index().leaf(leaf) {
            let u = match at.characteristic(plan).u_rep {
                Repeatability::Score(u) => words.made.u_rep_score(&numbers.short(u, 3)),
                Repeatability::Percent(p) => words.made.u_rep_percent(&numbers.short(p, 3)),
                Repeatability::Count(n) => words.made.u_rep_count(&numbers.short(n, 3)),
            };
            line(html, words.made.repeatability, &u);
        }
        self.uncertainty(html, number, made, false);
        let cause = self.result.causes[leaf.0];
        if cause != Cause::InService {
            let name = lowered(words.cause(cause));
            let text = if cause.excludes() {
                words.card.cause_left_out(&name)
            } else {
                words.pad.cause_kept(&name)
            };
            line(html, words.pad.cause, &text);
        }
        for rule in self.tree.watched_by(leaf) {
            line(
                html,
                words.made.watched,
                &words.cap_rule(plan, &plan.caps[*rule]),
            );
        }
    }

    /// Everything ever said of a leaf, the last first, where there is more than what stands.
    fn history(&self, html: &mut Html, leaf: LeafId) {
        let (history, remarks) = (self.log.history(leaf), self.log.remarks(leaf));
        if history.len() <= self.log.looks(leaf).len() && remarks.is_empty() {
            return;
        }
        html.el("p class=\"leaf__head\"", self.words.pad.history)
            .open("ul class=\"leaf__history\"");
        let all = history.iter().rev().chain(remarks);
        for entry in all.filter_map(|id| self.card.entry(*id)) {
            let became = self.became(entry.id);
            let by = self.words.pad.by(&entry.rater, &self.when(entry));
            html.open("li")
                .el(if became.is_empty() { "b" } else { "s" }, &self.said(entry));
            html.text(" ").open("span class=\"fine\"").text(&by);
            if !became.is_empty() {
                html.text(" · ").text(&became);
            }
            html.close("span").close("li");
        }
        html.close("ul");
    }

    /// What became of an entry, in words; nothing where it stands.
    fn became(&self, entry: EntryId) -> String {
        let words = self.words;
        match self.log.became(entry) {
            Became::Stands => String::new(),
            Became::Corrected(by) => match self.card.entry(by) {
                Some(by) => words.made.corrected_by(&by.rater),
                None => words.pad.corrected.to_owned(),
            },
            Became::TakenOut(void) => {
                match self.card.entry(void).map(|void| (&void.rater, &void.body)) {
                    Some((rater, Body::Void { reason, .. })) => {
                        words.pad.voided_by(rater, words.void_reason(reason))
                    }
                    _ => words.names.gone.to_owned(),
                }
            }
        }
    }
}
