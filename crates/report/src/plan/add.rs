//! The forms for what is new.

use ringland_card::{
    Scale, ScaleId,
    gauging::{Makes, Material, Quantity, Wears},
    plan::{Axis, Field, MOST_EACH, PlanItem, TradeFigure},
};

use super::PlanSheet;
use crate::{markup::Html, words::capitalised};

/// What positions of a new row can be counted along, by the name in the form.
pub const AXES: [(&str, Axis); 4] = [
    ("cylinder", Axis::Cylinder),
    ("main", Axis::Main),
    ("each", Axis::Each),
    ("single", Axis::Single),
];

/// The `data-add` of the form for a cap rule.
pub const NEW_CAP: &str = "cap";
/// The `data-add` of the form for a size of one's own.
pub const NEW_SIZE: &str = "size";
/// The `data-add` of the form for a criterion.
pub const NEW_CRITERION: &str = "criterion";

/// What a size of one's own may be, by the names in the form.
pub const QUANTITIES: [(&str, Quantity); 2] =
    [("length", Quantity::Length), ("mass", Quantity::Mass)];
/// Which way it may go with wear.
pub const WEARS: [(&str, Wears); 3] = [
    ("larger", Wears::Larger),
    ("smaller", Wears::Smaller),
    ("either", Wears::Either),
];
/// How its readings may make one size.
pub const MAKES: [(&str, Makes); 2] = [
    ("furthest", Makes::Furthest),
    ("difference", Makes::Difference),
];
/// What its part may be made of.
pub const MATERIALS: [(&str, Material); 3] = [
    ("steel", Material::Steel),
    ("iron", Material::Iron),
    ("aluminium", Material::Aluminium),
];

/// The figures of a new criterion, each by the name of its field.
const OF_CRITERION: [Field; 4] = [Field::Weight, Field::Best, Field::Anchor, Field::Limit];

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
        self.form(html, &under.to_string(), title, &|html| {
            if let Some(name) = name {
                new_text(html, "name", name);
                let axes = AXES.map(|(value, axis)| (value, self.words.axis(axis).to_owned()));
                new_choice(html, "axis", words.along, &axes);
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
            new_choice(html, "scale", words.scale, &self.scale_options());
        });
    }

    /// The form for a cap rule.
    pub(super) fn add_cap(&self, html: &mut Html) {
        let words = &self.words.plans;
        self.form(html, NEW_CAP, words.add_cap, &|html| {
            new_text(html, "name", words.what_cap);
            let nodes = self.node_options();
            new_choice(html, "node", words.cap_for, &nodes);
        });
    }

    /// The form for a criterion.
    pub(super) fn add_criterion(&self, html: &mut Html) {
        let words = &self.words.plans;
        self.form(html, NEW_CRITERION, words.add_criterion, &|html| {
            let figure = self.words.plan_field(Field::Figure);
            new_choice(html, "figure", &capitalised(figure), &self.trade_options());
            for field in OF_CRITERION {
                self.new_figure(html, field);
            }
        });
    }

    /// The form for a size of one's own: how it is read.
    pub(super) fn add_size(&self, html: &mut Html) {
        let (words, g) = (&self.words.plans, &self.words.gauging);
        self.form(html, NEW_SIZE, words.add_size, &|html| {
            html.el("p class=\"fine plan-field--whole\"", words.add_size_hint);
            new_text(html, "name", words.what_size);
            let quantities = QUANTITIES.map(|(id, it)| (id, self.words.quantity(it).to_owned()));
            new_choice(html, "quantity", words.quantity, &quantities);
            let wears = WEARS.map(|(id, it)| (id, self.words.wears(it).to_owned()));
            new_choice(html, "wears", words.wears, &wears);
            let makes = MAKES.map(|(id, it)| (id, self.words.makes(it).to_owned()));
            new_choice(html, "makes", words.makes, &makes);
            new_text(html, "stations", words.size_stations);
            new_text(html, "axes", words.size_axes);
            let mut materials = vec![("", g.no_material.to_owned())];
            materials.extend(MATERIALS.map(|(id, it)| (id, self.words.material(it).to_owned())));
            new_choice(html, "material", g.material, &materials);
        });
    }

    /// The form for a row of a scale's table: a level, a state or a breakpoint.
    pub(super) fn add_scale_row(&self, html: &mut Html, id: &ScaleId, scale: &Scale) {
        let words = &self.words.plans;
        let (title, name, field) = match scale {
            Scale::Area { .. } => (words.add_level, Some(words.what_level), Field::Factor),
            Scale::MeritArea { .. } => (words.add_level, Some(words.what_level), Field::Merit),
            Scale::State { .. } => (words.add_state, Some(words.what_state), Field::Score),
            Scale::Extent { .. } | Scale::Count { .. } => (words.add_point, None, Field::Score),
            Scale::Grade { .. } | Scale::Measured { .. } | Scale::Gauged(_) => return,
        };
        let item = PlanItem::Scale(id.clone());
        self.form(html, &item.to_string(), title, &|html| {
            match name {
                Some(name) => new_text(html, "name", name),
                None => self.new_figure(html, Field::X),
            }
            self.new_figure(html, field);
        });
    }

    fn form(&self, html: &mut Html, add: &str, title: &str, fields: &dyn Fn(&mut Html)) {
        html.open("details class=\"plan-add\"");
        html.open("summary class=\"button plan-add__head\"");
        html.text(title).close("summary");
        html.with(
            "div class=\"plan-add__form\" role=\"group\"",
            &[("data-add", add), ("aria-label", title)],
        );
        fields(html);
        html.open("button type=\"button\" class=\"button button--act\" data-act=\"add\"");
        html.text(self.words.plans.add).close("button");
        html.open("p class=\"plan-why\" role=\"alert\" data-refused")
            .close("p");
        html.close("div").close("details");
    }

    /// A figure of something new, by the name of its field.
    fn new_figure(&self, html: &mut Html, field: Field) {
        html.open("label class=\"plan-field\"");
        let name = capitalised(self.words.plan_field(field));
        html.el("span class=\"plan-field__name\"", &name);
        html.with(
            "input class=\"field__input plan-field__input num\" type=\"text\" inputmode=\"decimal\" autocomplete=\"off\"",
            &[("data-new", field.as_str())],
        );
        html.close("label");
    }

    pub(super) fn trade_options(&self) -> Vec<(&'static str, String)> {
        let option = |figure: TradeFigure| {
            let name = self.words.trade_figure(figure);
            (figure.as_str(), name.to_owned())
        };
        TradeFigure::ALL.map(option).into()
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

fn new_choice<V: AsRef<str>>(html: &mut Html, what: &str, name: &str, options: &[(V, String)]) {
    html.open("label class=\"plan-field plan-field--wide\"");
    html.el("span class=\"plan-field__name\"", name);
    html.with(
        "select class=\"field__input plan-field__input\"",
        &[("data-new", what)],
    );
    for (value, name) in options {
        html.with("option", &[("value", value.as_ref())]);
        html.text(name).close("option");
    }
    html.close("select").close("label");
}
