//! Patterns along the engine: the profile with its figures, rows that stray, slope or spread.

use ringland_assess::{
    patterns::{MapRow, Patterns, RowPattern, Trend, map_rows, patterns},
    standouts::{clearest_trends, strays, widest},
};

use super::{Sheet, block};
use crate::{
    markup::{Cell, Html, Table},
    swatch,
};

/// How many rows of a kind are shown.
const MOST: usize = 6;
/// How many strays are shown.
const MOST_STRAYS: usize = 10;

impl Sheet<'_> {
    /// What shows along the engine; nothing where nothing is rated.
    pub fn along(&self) -> String {
        if self.nothing_rated() {
            return String::new();
        }
        let (plan, index, words) = (self.card.plan(), self.card.index(), self.words);
        let scores: Vec<Option<f64>> = self.result.leaves.iter().map(|leaf| leaf.score).collect();
        let found = patterns(plan, index, &scores, &self.tree.leaf_shares());
        let rows = map_rows(plan, index);
        let mut html = Html::new();
        if found.profile.iter().all(|column| column.score.is_none()) {
            html.el("p class=\"mute\"", words.card.patterns_none);
        } else {
            self.profile(&mut html, &found);
            self.strays(&mut html, &rows, &found);
            self.trends(&mut html, &rows, &found);
            self.spreads(&mut html, &rows, &found);
        }
        block(LONG, words.card.patterns, "", html)
    }

    /// The mean of each cylinder: a small line, and the same in figures.
    fn profile(&self, html: &mut Html, found: &Patterns) {
        let words = self.words;
        let scores: Vec<Option<f64>> = found.profile.iter().map(|column| column.score).collect();
        let mut table = Table::new("table--columns", words.card.profile_hint)
            .wide()
            .words(words.card.column);
        for one in &found.profile {
            table = table.figures(words.column_head(&one.column));
        }
        let mut row = vec![Cell::Words(words.card.score.to_owned())];
        row.extend(
            scores
                .iter()
                .map(|score| Cell::Figure(self.fixed_or_dash(*score, 2))),
        );
        table.rows.push(row);
        html.el("h3", words.card.profile)
            .open("div class=\"profile\"")
            .markup(&swatch::spark_profile(&scores, Some(words.card.profile)))
            .close("div")
            .table(&table)
            .el(
                "p class=\"num profile__said\"",
                &self.pattern_said(&found.profile_pattern),
            );
    }

    fn pattern_said(&self, pattern: &RowPattern) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let spread = pattern.spread.map(|spread| {
            let (low, high) = (numbers.fixed(spread.min, 2), numbers.fixed(spread.max, 2));
            words.card.spread_line(&low, &high, &numbers.u(spread.sd))
        });
        let trend = pattern.trend.map(|trend| self.slope(&trend));
        let said: Vec<String> = spread.into_iter().chain(trend).collect();
        said.join(". ")
    }

    fn slope(&self, trend: &Trend) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let per = numbers.signed(trend.per_position, 2);
        let (tau, p) = (numbers.signed(trend.tau, 2), numbers.fixed(trend.p, 3));
        words.card.slope_line(&per, &tau, &p)
    }

    fn row_name(&self, row: &MapRow) -> String {
        let part = &self.card.plan().sections[row.section].parts[row.part];
        let place = &part.places[row.place];
        self.words.row_name(place, &place.looks[row.look])
    }

    fn strays(&self, html: &mut Html, rows: &[MapRow], found: &Patterns) {
        let (words, numbers) = (self.words, self.words.numbers);
        let all = strays(rows, found);
        html.el("h3", words.card.strays);
        if all.is_empty() {
            html.el("p class=\"mute\"", words.card.strays_none);
            return;
        }
        let mut table = Table::new("", words.card.outlier_hint)
            .words(words.card.position)
            .figures(words.card.score)
            .figures(words.card.from_median)
            .figures("z");
        for (leaf, stray) in all.iter().take(MOST_STRAYS) {
            let mut name = Html::new();
            self.go_to_leaf(&mut name, *leaf);
            table.rows.push(vec![
                Cell::Html(name),
                Cell::Figure(self.score_or_dash(self.result.leaves[leaf.0].score)),
                Cell::Figure(numbers.signed(stray.from_median, 1)),
                Cell::Figure(numbers.fixed(stray.z, 1)),
            ]);
        }
        html.table(&table);
        if all.len() > MOST_STRAYS {
            html.el(
                "p class=\"fine\"",
                &words.card.n_more(all.len() - MOST_STRAYS),
            );
        }
    }

    fn trends(&self, html: &mut Html, rows: &[MapRow], found: &Patterns) {
        let (words, numbers) = (self.words, self.words.numbers);
        let (clearest, looked) = clearest_trends(found, MOST);
        let mut table = Table::new("", words.card.trends_caption(looked))
            .words(words.card.row)
            .figures(words.card.per_position)
            .figures("τ")
            .figures("p");
        for (row, trend) in clearest {
            table.rows.push(vec![
                Cell::Words(
                    rows.get(row)
                        .map(|row| self.row_name(row))
                        .unwrap_or_default(),
                ),
                Cell::Figure(numbers.signed(trend.per_position, 2)),
                Cell::Figure(numbers.signed(trend.tau, 2)),
                Cell::Figure(numbers.fixed(trend.p, 3)),
            ]);
        }
        if !table.rows.is_empty() {
            html.el("h3", words.card.trends).table(&table);
        }
    }

    fn spreads(&self, html: &mut Html, rows: &[MapRow], found: &Patterns) {
        let (words, numbers) = (self.words, self.words.numbers);
        let mut table = Table::new("", words.card.spreads_caption)
            .words(words.card.row)
            .figures(words.card.lowest)
            .figures(words.card.highest)
            .figures(words.card.sd);
        for (row, spread) in widest(found, MOST) {
            table.rows.push(vec![
                Cell::Words(
                    rows.get(row)
                        .map(|row| self.row_name(row))
                        .unwrap_or_default(),
                ),
                Cell::Figure(numbers.score(spread.min)),
                Cell::Figure(numbers.score(spread.max)),
                Cell::Figure(numbers.u(spread.sd)),
            ]);
        }
        if !table.rows.is_empty() {
            html.el("h3", words.card.spreads).table(&table);
        }
    }
}

const LONG: &str = "section class=\"block block--long\"";
