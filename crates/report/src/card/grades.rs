//! Wear grades counted by section: a grade is an order, so its distribution stands beside every mean.

use ringland_assess::grades::grade_distribution;
use ringland_card::Grade;

use super::{BLOCK, Sheet, block};
use crate::markup::{Cell, Html, Table};

impl Sheet<'_> {
    /// How often each grade was given, by section; nothing where none was.
    pub fn grades(&self) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let mut table = Table::new("table--grades", words.card.grades_caption)
            .wide()
            .quiet()
            .words(words.card.section);
        for grade in Grade::ALL {
            table = match grade.half_steps() % 2 {
                0 => table.figures(&words.grade(grade)),
                _ => table.figures("½"),
            };
        }
        table = table.figures(words.card.score);
        let sections = &self.tree.nodes()[0].children;
        let counted = grade_distribution(&self.standing);
        for (node, counts) in sections.iter().zip(counted) {
            if counts.iter().all(|count| *count == 0) {
                continue;
            }
            let mut row = vec![Cell::Words(self.node_name(*node))];
            row.extend(counts.iter().map(|count| match count {
                0 => Cell::Figure("·".to_owned()),
                count => Cell::Figure(numbers.count(*count)),
            }));
            row.push(Cell::Figure(
                self.score_or_dash(self.result.all.nodes[*node].score),
            ));
            table.rows.push(row);
        }
        let mut html = Html::new();
        if !table.rows.is_empty() {
            html.table(&table);
        }
        block(BLOCK, words.card.grades, words.card.grades_hint, html)
    }
}
