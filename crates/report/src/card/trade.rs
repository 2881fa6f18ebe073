//! The trade's own figures, each with its unit, and the merit sum where the plan sets criteria.

use ringland_assess::trade::{
    PistonFigures, TradeFigures,
    criteria::{MeritSum, Outcome, REQUIRED, Verdict, judge_figures},
    trade_figures,
};
use ringland_card::{
    PositionId,
    plan::{Leaf, LeafId},
};

use super::{Sheet, block};
use crate::markup::{Cell, Html, Table};

/// A figure of a piston.
type OfPiston = fn(&PistonFigures) -> Option<f64>;

impl Sheet<'_> {
    /// The trade's own figures; nothing where nothing is rated.
    pub fn trade(&self) -> String {
        if self.nothing_rated() {
            return String::new();
        }
        let words = self.words;
        let found = trade_figures(&self.standing);
        let mut html = Html::new();
        self.trade_summary(&mut html, &found);
        self.pistons(&mut html, &found);
        self.rings(&mut html, &found);
        self.criteria(&mut html, &found);
        block(
            "section class=\"block block--long\"",
            words.card.trade,
            words.card.trade_hint,
            html,
        )
    }

    fn figure_cell(&self, value: Option<f64>, decimals: usize) -> Cell {
        Cell::Figure(self.fixed_or_dash(value, decimals))
    }

    fn trade_summary(&self, html: &mut Html, found: &TradeFigures) {
        let trade = &self.words.trade;
        let pistons = |figure: OfPiston| {
            let rated = found
                .pistons
                .iter()
                .filter(|piston| figure(piston).is_some());
            trade.mean_of_pistons(rated.count())
        };
        let (total, hint) = if found.unweighted {
            (
                [trade.weighted_demerits, ", ", trade.unweighted].concat(),
                trade.unweighted_hint,
            )
        } else {
            (trade.weighted_demerits.to_owned(), trade.factors_own)
        };
        let lines: [(&str, Option<f64>, usize, &str, String); 6] = [
            (
                &total,
                found.weighted_demerits,
                1,
                trade.total_unit,
                [
                    trade.weighted_demerits_formula,
                    "; ",
                    &pistons(|p| p.weighted_demerits),
                    ". ",
                    hint,
                ]
                .concat(),
            ),
            (
                trade.top_groove_fill,
                found.top_groove_fill,
                1,
                trade.percent_unit,
                [
                    trade.top_groove_fill_formula,
                    "; ",
                    &pistons(|p| p.top_groove_fill),
                ]
                .concat(),
            ),
            (
                trade.top_land_heavy_carbon,
                found.top_land_heavy_carbon,
                1,
                trade.percent_unit,
                [
                    trade.top_land_heavy_carbon_formula,
                    "; ",
                    &pistons(|p| p.top_land_heavy_carbon),
                ]
                .concat(),
            ),
            (
                trade.sludge_merit,
                found.sludge_merit,
                2,
                trade.merit_unit,
                trade.merit_formula.to_owned(),
            ),
            (
                trade.varnish_merit,
                found.varnish_merit,
                2,
                trade.merit_unit,
                trade.merit_formula.to_owned(),
            ),
            (
                trade.ring_distress,
                found.ring_distress,
                3,
                trade.ring_distress_unit,
                trade.ring_distress_formula.to_owned(),
            ),
        ];
        let mut table = Table::new("table--trade", trade.summary)
            .quiet()
            .words(trade.figure)
            .figures(trade.value)
            .words(trade.unit);
        for (name, value, decimals, unit, note) in lines {
            let mut head = Html::new();
            head.text(name).el("span class=\"fine table__note\"", &note);
            table.rows.push(vec![
                Cell::Html(head),
                self.figure_cell(value, decimals),
                Cell::Words(unit.to_owned()),
            ]);
        }
        html.table(&table);
    }

    fn leaf_of(&self, position: &PositionId) -> Option<Leaf> {
        let index = self.card.index();
        let first = index.of_position(self.card.plan(), position.as_str()).start;
        index.leaf(LeafId(first)).copied()
    }

    /// A column for each position.
    fn columns<'p>(
        &self,
        mut table: Table,
        positions: impl Iterator<Item = &'p PositionId>,
    ) -> Table {
        for position in positions {
            let column = self
                .leaf_of(position)
                .map(|leaf| &leaf.position(self.card.plan()).column);
            table = table.figures(self.words.column_head(column.map_or("", String::as_str)));
        }
        table
    }

    /// Lands, grooves and totals down, pistons across.
    fn pistons(&self, html: &mut Html, found: &TradeFigures) {
        let trade = &self.words.trade;
        let Some(first) = found
            .pistons
            .first()
            .and_then(|piston| self.leaf_of(&piston.position))
        else {
            return;
        };
        let empty = Table::new("table--columns", trade.demerits_caption)
            .wide()
            .words(trade.surface);
        let mut table = self.columns(empty, found.pistons.iter().map(|piston| &piston.position));
        for look in &first.place(self.card.plan()).looks {
            let of = |piston: &PistonFigures| {
                let rated = piston
                    .lands_and_grooves
                    .iter()
                    .find(|(id, _)| *id == look.id);
                rated.map(|(_, demerit)| *demerit)
            };
            if found.pistons.iter().all(|piston| of(piston).is_none()) {
                continue;
            }
            let mut row = vec![Cell::Words(self.words.characteristic_name(look).to_owned())];
            row.extend(
                found
                    .pistons
                    .iter()
                    .map(|piston| self.figure_cell(of(piston), 1)),
            );
            table.rows.push(row);
        }
        if table.rows.is_empty() {
            return;
        }
        let totals: [(&str, OfPiston); 3] = [
            (trade.weighted_demerits, |piston| piston.weighted_demerits),
            (trade.top_groove_fill_percent, |piston| {
                piston.top_groove_fill
            }),
            (trade.top_land_heavy_carbon_percent, |piston| {
                piston.top_land_heavy_carbon
            }),
        ];
        for (name, figure) in totals {
            let mut row = vec![Cell::Words(name.to_owned())];
            row.extend(
                found
                    .pistons
                    .iter()
                    .map(|piston| self.figure_cell(figure(piston), 1)),
            );
            table.rows.push(row);
        }
        html.el("h3", trade.demerits).table(&table);
        let done: usize = found
            .pistons
            .iter()
            .map(|piston| piston.lands_and_grooves.len())
            .sum();
        let asked: usize = found.pistons.iter().map(|piston| piston.asked).sum();
        if done < asked {
            html.el("p class=\"fine\"", &trade.incomplete(done, asked));
        }
    }

    /// Rings down by their kind, cylinders across.
    fn rings(&self, html: &mut Html, found: &TradeFigures) {
        let trade = &self.words.trade;
        if found.ring_distress.is_none() {
            return;
        }
        let mut rows: Vec<(usize, Vec<Cell>)> = Vec::new();
        let mut columns: Vec<&PositionId> = Vec::new();
        for ring in &found.rings {
            let Some(leaf) = self.leaf_of(&ring.position) else {
                continue;
            };
            if rows.last().is_none_or(|(place, _)| *place != leaf.place) {
                let name = self
                    .words
                    .place_name(leaf.place(self.card.plan()))
                    .to_owned();
                rows.push((leaf.place, vec![Cell::Words(name)]));
            }
            if rows.len() == 1 {
                columns.push(&ring.position);
            }
            if let Some((_, row)) = rows.last_mut() {
                row.push(self.figure_cell(ring.distress, 2));
            }
        }
        let empty = Table::new("table--columns", trade.ring_distress_formula)
            .wide()
            .words(trade.ring);
        let mut table = self.columns(empty, columns.into_iter());
        table.rows = rows.into_iter().map(|(_, row)| row).collect();
        html.el("h3", trade.ring_distress).table(&table);
    }

    /// The merit sum, where the plan sets criteria.
    fn criteria(&self, html: &mut Html, found: &TradeFigures) {
        let (trade, plan) = (&self.words.trade, self.card.plan());
        let Ok(Some(judged)) = judge_figures(plan, found, REQUIRED) else {
            return;
        };
        let mut table = Table::new("table--criteria", trade.criteria_caption)
            .wide()
            .words(trade.criterion)
            .figures(trade.value)
            .figures(trade.best)
            .figures(trade.anchor)
            .figures(trade.limit)
            .figures(self.words.made.weight)
            .figures(trade.merits);
        let numbers = self.words.numbers;
        let figure = |value: f64| Cell::Figure(numbers.weight(value));
        for (criterion, one) in plan.criteria.iter().zip(&judged.criteria) {
            let merits = match one.outcome {
                Outcome::Earned(merits) => numbers.fixed(merits, 0),
                Outcome::PastLimit => trade.past_limit.to_owned(),
                Outcome::Open => trade.no_result.to_owned(),
            };
            table.rows.push(vec![
                Cell::Words(self.words.trade_figure(criterion.figure).to_owned()),
                one.rounded
                    .map_or_else(|| self.figure_cell(None, 0), figure),
                figure(criterion.best),
                figure(criterion.anchor),
                figure(criterion.limit),
                figure(criterion.weight),
                Cell::Figure(merits),
            ]);
        }
        html.el("h3", trade.criteria)
            .table(&table)
            .el("p class=\"num\"", &self.verdict(&judged));
    }

    fn verdict(&self, judged: &MeritSum) -> String {
        let (trade, numbers) = (&self.words.trade, self.words.numbers);
        let became = match judged.verdict {
            Verdict::Pass => trade.pass,
            Verdict::PastLimit | Verdict::TooFewMerits => trade.fail,
            Verdict::Open => trade.no_result,
        };
        let least = numbers.fixed(REQUIRED, 0);
        trade.merit_sum_line(&numbers.fixed(judged.sum, 0), &least, became)
    }
}
