//! How a look was read from its scale: the table with the rows that were used, and the sum.

use ringland_assess::{
    table::{AreaTerm, area_terms, rows_read},
    trade::demerit::demerit,
};
use ringland_card::{Areas, Grade, Look, Scale, scale::Breakpoint};

use super::Sheet;
use crate::{
    format::NBSP,
    markup::{Cell, Html, Table},
    swatch,
    words::capitalised,
};

impl Sheet<'_> {
    /// A look with its score on its scale, and whose it is where there are several.
    pub(super) fn read_on_scale(
        &self,
        html: &mut Html,
        name: &str,
        scale: &Scale,
        (look, score): (&Look, f64),
        rater: Option<&str>,
    ) {
        let mut table = match look {
            Look::Areas(areas) => self.areas(name, scale, areas),
            _ => self.used_rows(name, scale, look),
        };
        if let Some(rater) = rater {
            table.caption = [&table.caption, " · ", rater].concat();
        }
        html.open("div class=\"leaf__read\"");
        if let Some(picture) = self.painted(scale, look) {
            html.open("div class=\"leaf__land\"")
                .markup(&picture)
                .close("div");
        }
        if !table.rows.is_empty() {
            html.table(&table);
        }
        html.el(
            "p class=\"leaf__sum num\"",
            &self.sum(scale, look, score, false),
        );
        if let Some(said) = self.words.read_off_said(look, scale) {
            html.el("p class=\"fine\"", &capitalised(&said));
        }
        html.close("div");
    }

    /// The table of a scale with a mark at the rows that the look was read from.
    fn used_rows(&self, name: &str, scale: &Scale, look: &Look) -> Table {
        let used = rows_read(scale, look);
        let mut table = self.scale_table(name, scale);
        table.heads.push((String::new(), false));
        let rows = std::mem::take(&mut table.rows).into_iter().enumerate();
        table.rows = rows
            .map(|(row, mut cells)| {
                let mark = if used.contains(&row) {
                    self.words.made.read_here
                } else {
                    ""
                };
                cells.push(Cell::Words(mark.to_owned()));
                cells
            })
            .collect();
        table
    }

    /// A measured size against its allowance.
    pub(super) fn read_size(&self, html: &mut Html, scale: &Scale, value: f64, score: f64) {
        let (words, numbers) = (self.words, self.words.numbers);
        let mut table = self.scale_table(words.terms.methods.measured, scale);
        table.rows.push(vec![
            Cell::Words(words.made.seen.to_owned()),
            Cell::Figure(numbers.short(value, 6)),
        ]);
        let formula = format!(
            "{} · s = {}",
            words.made.measured_formula,
            numbers.fixed(score, 3)
        );
        html.open("div class=\"leaf__read\"")
            .table(&table)
            .el("p class=\"leaf__sum num\"", &formula)
            .close("div");
    }

    /// Every scale of the plan, whole.
    pub fn scales(&self) -> String {
        let mut html = Html::new();
        html.open("div class=\"scales\"");
        for (id, scale) in &self.card.plan().scales {
            let table = self.scale_table(id.as_str(), scale);
            if !table.rows.is_empty() {
                html.table(&table);
            }
        }
        html.close("div");
        html.done()
    }

    /// The surface as it was painted, where it was.
    fn painted(&self, scale: &Scale, look: &Look) -> Option<String> {
        let Look::Areas(areas) = look else {
            return None;
        };
        let levels = scale.levels();
        let said = self.words.look(look, scale);
        (!levels.is_empty() && !areas.painted.is_empty())
            .then(|| swatch::land(&areas.painted, &levels, self.words, Some(&said)))
    }

    fn scale_table(&self, name: &str, scale: &Scale) -> Table {
        let (words, numbers) = (self.words, self.words.numbers);
        let (made, score) = (&words.made, words.card.score);
        let (first, second) = match scale {
            Scale::Area { .. } => (made.level, made.factor),
            Scale::MeritArea { .. } => (made.level, made.merit),
            Scale::Measured { .. } => (made.seen, made.size_si),
            _ => (made.seen, score),
        };
        let mut table = Table::new("table--scale", words.scale(name))
            .words(first)
            .figures(second);
        let line = |name: &str, value: f64| {
            vec![
                Cell::Words(name.to_owned()),
                Cell::Figure(numbers.weight(value)),
            ]
        };
        let points = |points: &[Breakpoint], unit: &str| -> Vec<Vec<Cell>> {
            let point =
                |point: &Breakpoint| line(&[&numbers.weight(point.x), unit].concat(), point.score);
            points.iter().map(point).collect()
        };
        table.rows = match scale {
            Scale::Grade { scores } => Grade::WHOLE
                .iter()
                .zip(scores)
                .map(|(grade, score)| line(&capitalised(&words.grade(*grade)), *score))
                .collect(),
            Scale::State { states } => states
                .iter()
                .map(|state| line(words.state(scale, &state.id), state.score))
                .collect(),
            Scale::Extent { points: all } => points(all, &[NBSP, "%"].concat()),
            Scale::Count { points: all } => points(all, ""),
            Scale::Area { levels } => levels
                .iter()
                .map(|level| line(words.level(scale, &level.id), level.factor))
                .collect(),
            Scale::MeritArea { levels } => levels
                .iter()
                .map(|level| line(words.level(scale, &level.id), level.merit))
                .collect(),
            Scale::Measured { as_new, limit } => {
                vec![line(made.as_new, *as_new), line(made.limit, *limit)]
            }
            // What it is held against stands with the measurements.
            Scale::Gauged(_) => Vec::new(),
        };
        table
    }

    fn areas(&self, name: &str, scale: &Scale, areas: &Areas) -> Table {
        let (words, numbers) = (self.words, self.words.numbers);
        let (counts, product) = match scale {
            Scale::MeritArea { .. } => (words.made.merit, "a·m"),
            _ => (words.made.factor, "a·f"),
        };
        let mut table = Table::new("table--scale", words.scale(name))
            .words(words.made.level)
            .figures(words.made.percent)
            .figures(counts)
            .figures(product);
        let row = |term: &AreaTerm| {
            let name = match &term.level {
                Some(level) => words.level(scale, level),
                None => words.terms.levels.clean,
            };
            vec![
                Cell::Words(name.to_owned()),
                Cell::Figure(numbers.short(term.percent, 2)),
                Cell::Figure(numbers.weight(term.counts)),
                Cell::Figure(numbers.short(term.product, 3)),
            ]
        };
        table.rows = area_terms(scale, areas).iter().map(row).collect();
        table
    }

    /// The sum in figures; `brief` leaves out how a table is read.
    pub(super) fn sum(&self, scale: &Scale, look: &Look, score: f64, brief: bool) -> String {
        let (words, numbers) = (self.words, self.words.numbers);
        let shown = numbers.fixed(score, 3);
        let from = |formula: &str| [formula, " · s = ", &shown].concat();
        match (scale, look) {
            (Scale::Area { levels }, Look::Areas(areas)) => {
                let demerit = numbers.fixed(demerit(levels, areas), 2);
                format!("D = Σ a·f = {demerit} · s = 10 − D/10 = {shown}")
            }
            (Scale::MeritArea { .. }, _) => ["s = Σ a·m / 100 = ", &shown].concat(),
            _ if brief => ["s = ", &shown].concat(),
            (Scale::Grade { .. }, Look::Grade(grade)) if grade.half_steps() % 2 == 1 => {
                from(words.made.grade_formula)
            }
            (Scale::Extent { .. } | Scale::Count { .. }, _) => from(words.made.points_formula),
            _ => ["s = ", &shown].concat(),
        }
    }
}
