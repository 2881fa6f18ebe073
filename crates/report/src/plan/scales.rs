//! The scales with their tables.

use ringland_card::{
    Grade, Scale, ScaleId,
    plan::{Field, PlanItem},
    scale::{Breakpoint, DepositLevel, GaugedScale, MeritLevel, StateScore},
};

use super::{PlanSheet, fold};
use crate::{markup::Html, words::capitalised};

impl PlanSheet<'_> {
    /// Every scale, closed.
    pub fn scales(&self) -> String {
        let mut html = Html::new();
        for (id, scale) in &self.plan.scales {
            let more = [
                self.words.method(scale.method()),
                &self.words.plans.used_by(self.plan.rows_on(id)),
            ]
            .join(" · ");
            let item = PlanItem::Scale(id.clone());
            fold(
                &mut html,
                &item,
                self.words.scale_name(id, Some(scale)),
                &more,
            );
        }
        self.add_size(&mut html);
        html.done()
    }

    pub(super) fn scale(&self, id: &ScaleId) -> String {
        let (mut html, made) = (Html::new(), &self.words.made);
        let Some(scale) = self.both.scales.get(id) else {
            return String::new();
        };
        html.open("div class=\"plan-table\"");
        match scale {
            Scale::Grade { scores } => {
                for (grade, score) in Grade::WHOLE.into_iter().zip(scores) {
                    let item = PlanItem::Grade(id.clone(), grade);
                    let name = capitalised(&self.words.grade(grade));
                    self.line(&mut html, &item, &name, (Field::Score, *score));
                }
            }
            Scale::Area { levels } => {
                let level = |row: &DepositLevel| {
                    let item = PlanItem::Level(id.clone(), row.id.clone());
                    let name = self.words.level(scale, &row.id);
                    (item, name.to_owned(), row.label.clone(), row.factor)
                };
                self.table(&mut html, Field::Factor, levels.iter().map(level).collect());
            }
            Scale::MeritArea { levels } => {
                let level = |row: &MeritLevel| {
                    let item = PlanItem::Level(id.clone(), row.id.clone());
                    let name = self.words.level(scale, &row.id);
                    (item, name.to_owned(), row.label.clone(), row.merit)
                };
                self.table(&mut html, Field::Merit, levels.iter().map(level).collect());
            }
            Scale::State { states } => {
                let state = |row: &StateScore| {
                    let item = PlanItem::State(id.clone(), row.id.clone());
                    let name = self.words.state(scale, &row.id);
                    (item, name.to_owned(), row.label.clone(), row.score)
                };
                self.table(&mut html, Field::Score, states.iter().map(state).collect());
            }
            Scale::Extent { points } | Scale::Count { points } => {
                self.points(&mut html, id, points);
            }
            Scale::Measured { as_new, limit } => {
                let item = PlanItem::Scale(id.clone());
                self.line(&mut html, &item, made.as_new, (Field::AsNew, *as_new));
                self.line(&mut html, &item, made.limit, (Field::Limit, *limit));
            }
            Scale::Gauged(gauged) => self.grid(&mut html, id, gauged),
        }
        self.add_scale_row(&mut html, id, scale);
        html.close("div");
        html.done()
    }

    /// How a size is read: what it is, its heights and axes. What it is held against stands in a size sheet.
    /// One of the author's own that nothing uses may go.
    fn grid(&self, html: &mut Html, id: &ScaleId, gauged: &GaugedScale) {
        let (g, words) = (&self.words.gauging, &self.words.plans);
        let material = gauged
            .material
            .map(|material| self.words.material(material));
        let says = [
            self.words.quantity(gauged.quantity),
            self.words.wears(gauged.wears),
            self.words.makes(gauged.makes),
            material.unwrap_or(g.no_material),
        ];
        html.el("p class=\"fine\"", &says.join(" · "));
        for (name, spots) in [(g.station, &gauged.stations), (g.axis, &gauged.axes)] {
            if !spots.is_empty() {
                let spots: Vec<String> = spots.iter().map(|id| self.words.spot_name(id)).collect();
                html.el(
                    "p class=\"fine\"",
                    &[name, " · ", &spots.join(", ")].concat(),
                );
            }
        }
        if self.parent.scale(id).is_none() && self.plan.rows_on(id) == 0 {
            let item = PlanItem::Scale(id.clone());
            self.act(html, "remove", &item, words.remove);
        }
    }

    fn line(&self, html: &mut Html, item: &PlanItem, name: &str, (field, value): (Field, f64)) {
        html.open("div class=\"plan-line\"");
        html.el("span class=\"plan-line__name\"", name);
        self.figure(html, item, field, Some(value));
        html.close("div");
    }

    /// Rows that have ids, each with its name, that of its author where it is one, and its figure.
    fn table(
        &self,
        html: &mut Html,
        field: Field,
        rows: Vec<(PlanItem, String, Option<String>, f64)>,
    ) {
        let siblings: Vec<PlanItem> = rows.iter().map(|(item, ..)| item.clone()).collect();
        for (item, name, label, figure) in rows {
            html.open("div class=\"plan-line\"");
            self.switch(html, &item, &name);
            if !self.is_off(&item) {
                if let Some(label) = &label {
                    self.text(html, &item, Field::Label, label);
                }
                self.figure(html, &item, field, Some(figure));
                self.moves(html, &item, &siblings);
            }
            html.close("div");
        }
        html.el("p class=\"fine\"", self.words.plans.scale_rows_hint);
    }

    fn points(&self, html: &mut Html, id: &ScaleId, points: &[Breakpoint]) {
        for (number, point) in points.iter().enumerate() {
            let item = PlanItem::Point(id.clone(), number);
            html.open("div class=\"plan-line\"");
            self.figure(html, &item, Field::X, Some(point.x));
            self.figure(html, &item, Field::Score, Some(point.score));
            self.act(html, "remove", &item, self.words.plans.remove);
            html.close("div");
        }
    }
}
