//! The scales with their tables.

use ringland_card::{
    Grade, Scale, ScaleId,
    plan::{Field, PlanItem},
    scale::Breakpoint,
};

use super::{PlanSheet, fold};
use crate::{markup::Html, words::capitalised};

impl PlanSheet<'_> {
    /// Every scale, closed.
    pub fn scales(&self) -> String {
        let mut html = Html::new();
        for (id, scale) in &self.plan.scales {
            let looks = self.plan.places().flat_map(|(.., place)| &place.looks);
            let used = looks.filter(|look| look.scale == *id).count();
            let more = [
                self.words.method(scale.method()),
                &self.words.plans.used_by(used),
            ]
            .join(" · ");
            let item = PlanItem::Scale(id.clone());
            fold(&mut html, &item, self.words.scale(id.as_str()), &more);
        }
        html.done()
    }

    pub(super) fn scale(&self, id: &ScaleId) -> String {
        let mut html = Html::new();
        let Some(scale) = self.plan.scales.get(id) else {
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
                for level in levels {
                    let item = PlanItem::Level(id.clone(), level.id.clone());
                    let name = self.words.level(&level.id);
                    self.line(&mut html, &item, name, (Field::Factor, level.factor));
                }
            }
            Scale::MeritArea { levels } => {
                for level in levels {
                    let item = PlanItem::Level(id.clone(), level.id.clone());
                    let name = self.words.level(&level.id);
                    self.line(&mut html, &item, name, (Field::Merit, level.merit));
                }
            }
            Scale::State { states } => {
                for state in states {
                    let item = PlanItem::State(id.clone(), state.id.clone());
                    let name = self.words.state(&state.id);
                    self.line(&mut html, &item, name, (Field::Score, state.score));
                }
            }
            Scale::Extent { points } | Scale::Count { points } => {
                self.points(&mut html, id, points);
            }
            Scale::Measured { as_new, limit } => {
                let (item, made) = (PlanItem::Scale(id.clone()), &self.words.made);
                self.line(&mut html, &item, made.as_new, (Field::AsNew, *as_new));
                self.line(&mut html, &item, made.limit, (Field::Limit, *limit));
            }
        }
        html.close("div");
        html.done()
    }

    fn line(&self, html: &mut Html, item: &PlanItem, name: &str, (field, value): (Field, f64)) {
        html.open("div class=\"plan-line\"");
        html.el("span class=\"plan-line__name\"", name);
        self.figure(html, item, field, Some(value));
        html.close("div");
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
        let item = PlanItem::Scale(id.clone());
        self.act(html, "point", &item, self.words.plans.add_point);
    }
}
