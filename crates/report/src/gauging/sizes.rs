//! The form of a size sheet: a row for each kind of size, a field for each figure.

use ringland_card::{
    Plan,
    gauging::{Quantity, SizeField, SizeSheet, Unit, Wears},
    plan::{Characteristic, Place},
    scale::{GaugedScale, Scale},
};

use crate::{
    markup::Html,
    words::{Words, capitalised},
};

/// The kinds of size that a plan measures: place, characteristic and scale, in strip-down order.
fn kinds(plan: &Plan) -> Vec<(&Place, &Characteristic, &GaugedScale)> {
    let mut kinds = Vec::new();
    for (.., place) in plan.places() {
        for look in &place.looks {
            if let Some(Scale::Gauged(scale)) = plan.scale(&look.scale) {
                kinds.push((place, look, scale));
            }
        }
    }
    kinds
}

/// The figures that a kind of size may have: a part that wears larger has no lower limit.
fn allowed(scale: &GaugedScale, field: SizeField) -> bool {
    let length = scale.quantity == Quantity::Length;
    match field {
        SizeField::NewLow | SizeField::NewHigh => true,
        SizeField::LimitLow => length && scale.wears != Wears::Larger,
        SizeField::LimitHigh => length && scale.wears != Wears::Smaller,
        SizeField::OutOfRound => scale.axes.len() > 1,
        SizeField::Taper => {
            scale.stations.len() > 1 && scale.makes == ringland_card::gauging::Makes::Furthest
        }
        SizeField::BreakIn => length && scale.wears != Wears::Either,
    }
}

/// The table of a sheet for what a plan measures. Each field says its row by place and characteristic, and its
/// figure: `data-place`, `data-look`, `data-size`; the unit of a row is a choice with `data-size="unit"`.
pub fn sizes_form(plan: &Plan, sheet: &SizeSheet, unit: Unit, words: &'static Words) -> String {
    let mut html = Html::new();
    html.open("div class=\"sizes__scroll\" tabindex=\"0\" role=\"region\"");
    html.open("table class=\"sizes\"");
    html.el("caption class=\"visually-hidden\"", words.gauging.sheet);
    html.open("thead").open("tr");
    html.el("th scope=\"col\"", words.gauging.size);
    html.el("th scope=\"col\"", words.gauging.unit);
    for field in SizeField::ALL {
        html.el("th scope=\"col\"", &capitalised(words.size_field(field)));
    }
    html.close("tr").close("thead").open("tbody");
    for (place, look, scale) in kinds(plan) {
        let name = words.row_name(place, look);
        let size = sheet.size(&place.id, &look.id);
        let usual = if scale.quantity == Quantity::Mass {
            Unit::G
        } else {
            unit
        };
        let in_unit = size.map_or(usual, |size| size.unit);
        html.open("tr").el("th scope=\"row\"", &name).open("td");
        let of = [
            ("data-place", place.id.as_str()),
            ("data-look", look.id.as_str()),
        ];
        let label = [&name, ", ", words.gauging.unit].concat();
        html.with(
            "select class=\"field__input sizes__unit\"",
            &[of[0], of[1], ("data-size", "unit"), ("aria-label", &label)],
        );
        for unit in Unit::ALL {
            // A unit that does not fit is shown where the sheet has it, so that another may be chosen.
            if unit.quantity() == scale.quantity || unit == in_unit {
                let chosen = if unit == in_unit {
                    "selected"
                } else {
                    "data-other"
                };
                html.with("option", &[("value", unit.as_str()), (chosen, "")]);
                html.text(unit.sign()).close("option");
            }
        }
        html.close("select").close("td");
        for field in SizeField::ALL {
            html.open("td");
            if allowed(scale, field) {
                let figure = size.and_then(|size| size.field(field));
                let figure = figure.map(|figure| words.numbers.as_typed(figure.as_str()));
                let label = [&name, ", ", words.size_field(field)].concat();
                html.with(
                    "input class=\"field__input sizes__figure num\" type=\"text\" inputmode=\"decimal\" autocomplete=\"off\" enterkeyhint=\"next\"",
                    &[
                        of[0],
                        of[1],
                        ("data-size", field.as_str()),
                        ("aria-label", &label),
                        ("value", &figure.unwrap_or_default()),
                    ],
                );
            }
            html.close("td");
        }
        html.close("tr");
    }
    html.close("tbody").close("table").close("div");
    html.done()
}
