//! The forms for new rows.

use ringland_card::plan::{Axis, MOST_EACH, PlanItem};

use super::PlanSheet;
use crate::markup::Html;

/// What positions of a new row can be counted along, by the name in the form.
pub const AXES: [(&str, Axis); 4] = [
    ("cylinder", Axis::Cylinder),
    ("main", Axis::Main),
    ("each", Axis::Each),
    ("single", Axis::Single),
];

impl PlanSheet<'_> {
    /// The form for something new under an item: a section under the plan, a part under a section, a
    /// place under a part, a characteristic under a place.
    pub(super) fn add(&self, html: &mut Html, under: &PlanItem) {
        let words = &self.words.plans;
        let (title, name) = match under {
            PlanItem::Section(_) => (words.add_part, Some(words.what_part)),
            PlanItem::Part(..) => (words.add_place, Some(words.what_place)),
            PlanItem::Place(..) => (words.add_look, None),
            _ => (words.add_section, Some(words.what_section)),
        };
        html.open("details class=\"plan-add\"");
        html.open("summary class=\"button plan-add__head\"");
        html.text(title).close("summary");
        html.with(
            "div class=\"plan-add__form\" role=\"group\"",
            &[("data-add", &under.to_string()), ("aria-label", title)],
        );
        if let Some(name) = name {
            new_text(html, "name", name);
            html.open("label class=\"plan-field plan-field--wide\"");
            html.el("span class=\"plan-field__name\"", words.along);
            html.open("select class=\"field__input plan-field__input\" data-new=\"axis\"");
            for (value, axis) in AXES {
                html.with("option", &[("value", value)]);
                html.text(self.words.axis(axis)).close("option");
            }
            html.close("select").close("label");
            html.open("label class=\"plan-field\"");
            html.el("span class=\"plan-field__name\"", words.how_many);
            let most = MOST_EACH.to_string();
            html.with(
                "input class=\"field__input plan-field__input num\" type=\"number\" min=\"1\" value=\"1\" data-new=\"each\"",
                &[("max", &most)],
            );
            html.close("label");
        }
        new_text(html, "look", words.what_look);
        html.open("label class=\"plan-field plan-field--wide\"");
        html.el("span class=\"plan-field__name\"", words.scale);
        html.open("select class=\"field__input plan-field__input\" data-new=\"scale\"");
        self.scale_options(html, self.plan, None);
        html.close("select").close("label");
        html.open("button type=\"button\" class=\"button button--act\" data-act=\"add\"");
        html.text(words.add).close("button");
        html.open("p class=\"plan-why\" role=\"alert\" data-refused")
            .close("p");
        html.close("div").close("details");
    }
}

fn new_text(html: &mut Html, what: &str, name: &str) {
    html.open("label class=\"plan-field plan-field--wide\"");
    html.el("span class=\"plan-field__name\"", name);
    html.with(
        "input class=\"field__input plan-field__input\" type=\"text\" autocomplete=\"off\"",
        &[("data-new", what)],
    );
    html.close("label");
}
