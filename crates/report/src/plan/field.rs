//! Fields of a plan.

use ringland_card::{
    Plan, ScaleId,
    plan::{Field, PlanItem},
};

use super::PlanSheet;
use crate::{markup::Html, words::capitalised};

/// The id of a field on the page.
pub fn field_id(item: &PlanItem, field: Field) -> String {
    ["f:", field.as_str(), ":", &item.to_string()].concat()
}

impl PlanSheet<'_> {
    /// A field for a figure; `value` empty where there is none yet.
    pub(super) fn figure(
        &self,
        html: &mut Html,
        item: &PlanItem,
        field: Field,
        value: Option<f64>,
    ) {
        let value = value.map(|value| self.words.numbers.plain(value));
        self.input(html, item, field, (&value.unwrap_or_default(), "decimal"));
    }

    /// A field for a text.
    pub(super) fn text(&self, html: &mut Html, item: &PlanItem, field: Field, value: &str) {
        self.input(html, item, field, (value, "text"));
    }

    fn input(&self, html: &mut Html, item: &PlanItem, field: Field, (value, mode): (&str, &str)) {
        let class = match mode {
            "decimal" => "field__input plan-field__input num",
            _ => "field__input plan-field__input",
        };
        let name = capitalised(self.words.plan_field(field));
        html.open("label class=\"plan-field\"");
        html.el("span class=\"plan-field__name\"", &name);
        html.with(
            "input type=\"text\" autocomplete=\"off\"",
            &[
                ("class", class),
                ("inputmode", mode),
                ("id", &field_id(item, field)),
                ("data-item", &item.to_string()),
                ("data-field", field.as_str()),
                ("aria-label", &self.said(item, field)),
                ("value", value),
            ],
        );
        html.close("label");
    }

    /// A field by its whole name, for ears.
    fn said(&self, item: &PlanItem, field: Field) -> String {
        let what = self.words.plan_item(&self.both, self.parent, item);
        let field = capitalised(self.words.plan_field(field));
        self.words.plans.of(&field, &what)
    }

    /// A choice among the plan's scales.
    pub(super) fn scale_choice(&self, html: &mut Html, item: &PlanItem, chosen: &ScaleId) {
        html.open("label class=\"plan-field plan-field--wide\"");
        html.el("span class=\"plan-field__name\"", self.words.plans.scale);
        html.with(
            "select class=\"field__input plan-field__input\"",
            &[
                ("id", &field_id(item, Field::Scale)),
                ("data-item", &item.to_string()),
                ("data-field", Field::Scale.as_str()),
                ("aria-label", &self.said(item, Field::Scale)),
            ],
        );
        self.scale_options(html, self.plan, Some(chosen));
        html.close("select").close("label");
    }

    pub(super) fn scale_options(&self, html: &mut Html, plan: &Plan, chosen: Option<&ScaleId>) {
        for id in plan.scales.keys() {
            let value = [("value", id.as_str())];
            if chosen == Some(id) {
                html.with("option selected", &value);
            } else {
                html.with("option", &value);
            }
            html.text(self.words.scale(id.as_str())).close("option");
        }
    }

    /// A button that does something with an item.
    pub(super) fn act(&self, html: &mut Html, act: &str, item: &PlanItem, name: &str) {
        let what = self.words.plan_item(&self.both, self.parent, item);
        html.with(
            "button type=\"button\" class=\"button\"",
            &[
                ("data-act", act),
                ("data-item", &item.to_string()),
                ("aria-label", &self.words.plans.of(name, &what)),
            ],
        );
        html.text(name).close("button");
    }

    /// The switch of a row.
    pub(super) fn switch(&self, html: &mut Html, item: &PlanItem, name: &str) {
        let whole = self.words.plan_item(&self.both, self.parent, item);
        let on = !self.is_off(item);
        html.open("label class=\"plan-switch\"");
        html.with(
            if on {
                "input type=\"checkbox\" checked"
            } else {
                "input type=\"checkbox\""
            },
            &[
                ("id", &item.to_string()),
                ("data-act", "switch"),
                ("data-item", &item.to_string()),
                ("aria-label", &self.words.plans.is_on(&whole)),
            ],
        );
        html.el("span class=\"plan-switch__name\"", name);
        if !on {
            html.el("span class=\"plan-switch__off\"", self.words.plans.off);
        }
        html.close("label");
    }
}
