//! Fields of a plan.

use ringland_card::plan::{Field, PlanItem};

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
    pub(super) fn said(&self, item: &PlanItem, field: Field) -> String {
        let what = self.words.plan_item(&self.both, self.parent, item);
        let field = capitalised(self.words.plan_field(field));
        self.words.plans.of(&field, &what)
    }

    /// A choice among things by their names. What is chosen and not among them stands before them, so
    /// that any of them can be chosen.
    pub(super) fn choice<V: AsRef<str>>(
        &self,
        html: &mut Html,
        item: &PlanItem,
        field: Field,
        options: &[(V, String)],
        (chosen, name): (&str, &str),
    ) {
        let title = capitalised(self.words.plan_field(field));
        html.open("label class=\"plan-field plan-field--wide\"");
        html.el("span class=\"plan-field__name\"", &title);
        html.with(
            "select class=\"field__input plan-field__input\" data-choose",
            &[
                ("id", &field_id(item, field)),
                ("data-item", &item.to_string()),
                ("data-field", field.as_str()),
                ("aria-label", &self.said(item, field)),
            ],
        );
        if options.iter().all(|(value, _)| value.as_ref() != chosen) {
            html.open("option value=\"\" selected").text(name);
            html.close("option");
        }
        for (value, name) in options {
            let element = if value.as_ref() == chosen {
                "option selected"
            } else {
                "option"
            };
            html.with(element, &[("value", value.as_ref())]);
            html.text(name).close("option");
        }
        html.close("select").close("label");
    }

    pub(super) fn scale_options(&self) -> Vec<(&str, String)> {
        let all = self.plan.scales.iter();
        all.map(|(id, scale)| {
            let name = self.words.scale_name(id, Some(scale));
            (id.as_str(), name.to_owned())
        })
        .collect()
    }

    /// Sections and parts.
    pub(super) fn node_options(&self) -> Vec<(String, String)> {
        let all = self.plan.nodes().into_iter();
        all.map(|node| {
            let name = self.words.node_way(self.plan, &node);
            (node, name)
        })
        .collect()
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

    /// The head of a row: the switch of what the parent has, the name of what is this plan's own, which
    /// goes for good.
    pub(super) fn switch(&self, html: &mut Html, item: &PlanItem, name: &str) {
        let id = item.to_string();
        if !self.parent.has(item) {
            html.open("div class=\"plan-switch\"");
            html.with(
                "span class=\"plan-switch__name\" tabindex=\"-1\"",
                &[("id", &id)],
            );
            html.text(name).close("span");
            self.act(html, "remove", item, self.words.plans.remove);
            html.close("div");
            return;
        }
        let whole = self.words.plan_item(&self.both, self.parent, item);
        let on = !self.is_off(item);
        html.open("label class=\"plan-switch\"");
        self.tick(html, item, &self.words.plans.is_on(&whole));
        html.el("span class=\"plan-switch__name\"", name);
        if !on {
            html.el("span class=\"plan-switch__off\"", self.words.plans.off);
        }
        html.close("label");
    }

    /// The box that switches an item on and off.
    pub(super) fn tick(&self, html: &mut Html, item: &PlanItem, said: &str) {
        let id = item.to_string();
        let element = if self.is_off(item) {
            "input type=\"checkbox\""
        } else {
            "input type=\"checkbox\" checked"
        };
        html.with(
            element,
            &[
                ("id", &id),
                ("data-act", "switch"),
                ("data-item", &id),
                ("aria-label", said),
            ],
        );
    }

    /// The buttons that move an item past the one beside it; none where it stands alone.
    pub(super) fn moves(&self, html: &mut Html, item: &PlanItem, siblings: &[PlanItem]) {
        let on = || siblings.iter().filter(|sibling| !self.is_off(sibling));
        if on().count() < 2 {
            return;
        }
        let what = self.words.plan_item(&self.both, self.parent, item);
        let words = &self.words.plans;
        html.open("span class=\"plan-moves\"");
        for (act, sign, name, end) in [
            ("up", "↑", words.up, on().next()),
            ("down", "↓", words.down, on().next_back()),
        ] {
            let element = if end == Some(item) {
                "button type=\"button\" class=\"button plan-move\" disabled"
            } else {
                "button type=\"button\" class=\"button plan-move\""
            };
            html.with(
                element,
                &[
                    ("id", &[act, ":", &item.to_string()].concat()),
                    ("data-act", act),
                    ("data-item", &item.to_string()),
                    ("aria-label", &words.of(name, &what)),
                    ("title", name),
                ],
            );
            html.text(sign).close("button");
        }
        html.close("span");
    }
}
