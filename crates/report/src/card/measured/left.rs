//! How much further the engine could have run: the first limit reached, and what each part had left.

use std::cmp::Ordering;

use ringland_assess::gauging::{FirstLimit, Remaining, outlook::Outlook};

use crate::{
    card::Sheet,
    markup::{Cell, Html, Table},
};

/// How many parts are named as likely to be first.
const LIKELY: usize = 5;

impl Sheet<'_> {
    /// What the draws say of the engine and of each part. The assumptions and the caution stand beside it.
    pub fn outlook(&self, outlook: &Outlook, first: &FirstLimit) -> String {
        let (words, g, m) = (self.words, &self.words.gauging, &self.words.measured);
        let said = |left: &Remaining| words.remaining(left, outlook.basis, self.units);
        let mut html = Html::new();
        html.open("p class=\"outlook__engine\"");
        html.el("b", g.first_limit)
            .text(": ")
            .text(&said(&first.engine))
            .close("p");
        let likely: Vec<String> = first
            .likely
            .iter()
            .take(LIKELY)
            .filter_map(|likely| {
                let leaf = outlook.leaves.get(likely.position)?;
                let p = words.numbers.share(likely.probability);
                Some(g.first_likely(&self.leaf_name(*leaf), &p))
            })
            .collect();
        html.list("ul class=\"measured__list\"", &likely);
        html.el("p class=\"fine\"", g.left_assumes);
        html.el("p class=\"caution__reuse\"", words.cautions.reuse);
        let mut parts: Vec<(usize, &Remaining)> = first.positions.iter().enumerate().collect();
        parts.sort_by(|(_, a), (_, b)| soonest(a, b));
        let mut table = Table::new("table--left", m.outlook_rows(m.outlook_engine))
            .wide()
            .words(words.card.position)
            .words(g.left);
        for (number, left) in parts {
            if let Some(leaf) = outlook.leaves.get(number) {
                table.rows.push(vec![
                    Cell::Words(self.leaf_name(*leaf)),
                    Cell::Words(said(left)),
                ]);
            }
        }
        html.open("details class=\"measured__more\"")
            .el("summary", m.outlook_parts)
            .table(&table)
            .close("details");
        html.done()
    }
}

/// What is beyond comes first, then what has the least left; what has no end comes last.
fn soonest(a: &Remaining, b: &Remaining) -> Ordering {
    a.at_least().total_cmp(&b.at_least())
}
