//! What is wrong in a plan, and what differs from its parent.

use ringland_card::plan::{Field, PlanItem, Problem};

use super::{PlanSheet, field_id};
use crate::markup::Html;

/// A field that holds something wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The id of the field on the page.
    pub field: String,
    /// What is wrong.
    pub why: String,
}

impl PlanSheet<'_> {
    /// What is wrong, each leading to its place; or that nothing is.
    pub fn problems(&self, problems: &[Problem]) -> String {
        let words = &self.words.plans;
        let mut html = Html::new();
        if problems.is_empty() {
            html.el("p class=\"plan-right\"", words.right);
            return html.done();
        }
        html.open("ul class=\"plan-problems\"");
        for problem in problems {
            html.open("li").with(
                "button type=\"button\" class=\"button plan-problem\" data-act=\"go\"",
                &[
                    ("data-item", &problem.item.to_string()),
                    ("data-field", problem.field.map_or("", Field::as_str)),
                ],
            );
            html.text(&self.words.plan_problem(self.plan, problem));
            html.close("button").close("li");
        }
        html.close("ul");
        html.done()
    }

    /// The fields that hold something wrong. What a whole scale is wrong about stands at its first row.
    pub fn marks(&self, problems: &[Problem]) -> Vec<Mark> {
        let mark = |problem: &Problem| Mark {
            field: match problem.field {
                Some(field) => field_id(&problem.item, field),
                None => problem.item.to_string(),
            },
            why: self.words.plan_problem_here(problem),
        };
        problems.iter().map(mark).collect()
    }

    /// What differs from the parent.
    pub fn differences(&self) -> String {
        let (words, mut html) = (&self.words.plans, Html::new());
        let from = words.differs_from(&self.parent.name, &self.parent.version);
        html.el("p class=\"fine\"", &from);
        let all = self.plan.differences(self.parent);
        if all.is_empty() {
            html.el("p", words.differs_none);
            return html.done();
        }
        html.el("p", &words.n_differences(all.len()));
        let line = |difference| {
            self.words
                .plan_difference(self.plan, self.parent, difference)
        };
        let lines: Vec<String> = all.iter().map(line).collect();
        html.list("ul class=\"plan-differences\"", &lines);
        html.done()
    }

    /// How many ratings the plan asks for, in a line.
    pub fn asks_for(&self) -> String {
        self.words.facts.n_ratings(self.plan.rating_count())
    }

    /// What an item is called.
    pub fn name(&self, item: &PlanItem) -> String {
        self.words.plan_item(&self.both, self.parent, item)
    }
}
