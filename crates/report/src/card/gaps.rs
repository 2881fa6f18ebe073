//! What the score does not rest on: not inspected and why, still open, left out in service.

use ringland_assess::gaps::{NotSeen, not_seen, open_parts};
use ringland_card::plan::LeafId;

use super::{BLOCK, Sheet, block};
use crate::{
    markup::{Cell, Html, Table},
    words::{capitalised, lowered},
};

impl Sheet<'_> {
    /// What nobody has looked at: by reason, and what is still open by part.
    pub fn not_looked_at(&self) -> String {
        let words = self.words;
        let seen = not_seen(&self.standing, &self.result.answers);
        let still = open_parts(self.card.index(), &self.result.answers);
        let mut html = Html::new();
        if seen.is_empty() && still.is_empty() {
            html.el("p", words.card.all_looked_at);
        }
        for seen in &seen {
            self.reason(&mut html, seen);
        }
        if !still.is_empty() {
            let all: usize = still.iter().map(|part| part.open).sum();
            let mut table = Table::new("", words.card.n_open(all))
                .words(words.card.part)
                .figures(words.card.still_open_head)
                .figures(words.card.in_plan_head);
            table.rows = still
                .iter()
                .map(|part| {
                    vec![
                        Cell::Words(self.part_name(part.section, part.part)),
                        Cell::Figure(words.numbers.count(part.open)),
                        Cell::Figure(words.numbers.count(part.asked)),
                    ]
                })
                .collect();
            html.el("h3", words.card.still_open_title).table(&table);
        }
        block(BLOCK, words.card.not_looked_at, "", html)
    }

    /// One reason with everything it was given for.
    fn reason(&self, html: &mut Html, seen: &NotSeen) {
        html.open("h3")
            .text(&capitalised(self.words.reason(seen.reason)))
            .text(" ")
            .el(
                "span class=\"fine\"",
                &self.words.card.n_looks(seen.leaves.len()),
            )
            .close("h3")
            .list("ul class=\"reasons\"", &self.grouped(&seen.leaves));
    }

    /// Leaves in plan order, a line for neighbouring positions of which the same is missing; of a
    /// position that is missing whole, only the position.
    fn grouped(&self, leaves: &[LeafId]) -> Vec<String> {
        let (plan, index, words) = (self.card.plan(), self.card.index(), self.words);
        let mut positions: Vec<(String, Vec<&str>, usize)> = Vec::new();
        for id in leaves {
            let Some(leaf) = index.leaf(*id) else {
                continue;
            };
            let name = words.position(plan, index, *id).unwrap_or_default();
            let look = words.characteristic_short(leaf.characteristic(plan));
            match positions.last_mut() {
                Some((last, looks, _)) if *last == name => looks.push(look),
                _ => positions.push((name, vec![look], leaf.place(plan).looks.len())),
            }
        }
        let mut lines: Vec<(Vec<String>, Vec<&str>, usize)> = Vec::new();
        for (name, looks, asked) in positions {
            match lines.last_mut() {
                Some((names, same, _)) if *same == looks => names.push(name),
                _ => lines.push((vec![name], looks, asked)),
            }
        }
        lines
            .into_iter()
            .map(|(names, looks, asked)| {
                let names = names.join("; ");
                if looks.len() == asked {
                    names
                } else {
                    [&names, " · ", &looks.join(", ")].concat()
                }
            })
            .collect()
    }

    /// Every look that is left out in service, with its cause; nothing where nothing is rated.
    pub fn left_out(&self) -> String {
        if self.nothing_rated() {
            return String::new();
        }
        let words = self.words;
        let mut table = Table::new("", words.card.left_out_hint)
            .words(words.card.position)
            .figures(words.card.score)
            .words(words.pad.cause);
        for out in &self.result.exclusions {
            let mut name = Html::new();
            self.go_to_leaf(&mut name, out.leaf);
            table.rows.push(vec![
                Cell::Html(name),
                Cell::Figure(self.score_or_dash(self.result.leaves[out.leaf.0].score)),
                Cell::Words(lowered(words.cause(out.cause))),
            ]);
        }
        let mut html = Html::new();
        if table.rows.is_empty() {
            html.el("p", words.card.in_service_same);
        } else {
            html.table(&table);
        }
        block(BLOCK, words.card.left_out, "", html)
    }
}
