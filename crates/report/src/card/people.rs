//! Who looked, how much, and how far two raters of the same thing are apart.

use ringland_assess::raters::{rater_looks, rater_pairs};

use super::{BLOCK, Sheet, block};
use crate::markup::{Cell, Html, Table};

impl Sheet<'_> {
    /// The raters; nothing where nobody looked.
    pub fn people(&self) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let mut table = Table::new("", words.card.raters_caption)
            .quiet()
            .words(words.made.rater)
            .figures(words.card.looks)
            .figures(words.card.not_inspected);
        for rater in rater_looks(&self.standing) {
            table.rows.push(vec![
                Cell::Words(rater.name),
                Cell::Figure(numbers.count(rater.ratings + rater.measurements)),
                Cell::Figure(numbers.count(rater.not_inspected)),
            ]);
        }
        let mut html = Html::new();
        if !table.rows.is_empty() {
            html.table(&table);
        }
        self.pairs(&mut html);
        block(BLOCK, words.card.raters, "", html)
    }

    fn pairs(&self, html: &mut Html) {
        let (words, numbers) = (self.words, self.words.numbers);
        let mut table = Table::new("", words.card.pairs_caption)
            .words(words.card.raters)
            .figures(words.card.both)
            .figures(words.card.mean_difference)
            .figures(words.card.sd);
        let name = |rater: usize| self.result.raters.get(rater).map_or("", String::as_str);
        for pair in rater_pairs(self.result) {
            table.rows.push(vec![
                Cell::Words(words.card.two_raters(name(pair.a), name(pair.b))),
                Cell::Figure(numbers.count(pair.both)),
                Cell::Figure(numbers.signed(pair.difference, 2)),
                Cell::Figure(self.fixed_or_dash(pair.scatter, 2)),
            ]);
        }
        if !table.rows.is_empty() {
            html.table(&table);
        }
    }
}
