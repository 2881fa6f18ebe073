//! The editor's markup, as far as the app and its users rest on it.

use ringland_card::{
    Depth, Layout, Plan, ScaleId, builtin,
    plan::{Axis, Field, NewRow, PlanItem, Under},
};

use super::*;
use crate::words::{Language, words};

fn parent() -> Plan {
    builtin(&Layout::inline_six(), Depth::Full).unwrap()
}

fn item(text: &str) -> PlanItem {
    PlanItem::parse(text).unwrap()
}

/// Every value of an attribute.
fn values<'h>(html: &'h str, attribute: &str) -> Vec<&'h str> {
    html.split(&format!(" {attribute}=\""))
        .skip(1)
        .filter_map(|rest| rest.split_once('"').map(|(value, _)| value))
        .collect()
}

#[test]
fn every_field_of_the_page_can_be_set() {
    let (parent, mut own) = (parent(), parent());
    own.add_row(&NewRow {
        under: Under::NewSection("Pump".to_owned()),
        name: "Shaft".to_owned(),
        axis: Axis::Cylinder,
        each: 0,
        look: "Wear".to_owned(),
        scale: ScaleId::new("grade").unwrap(),
    })
    .unwrap();
    let sheet = PlanSheet::new(&own, &parent, words(Language::English));
    let mut html = [
        sheet.rows(),
        sheet.scales(),
        sheet.caps(),
        sheet.raters(),
        sheet.location_factors(),
    ]
    .concat();
    let folds: Vec<String> = values(&html, "data-fill")
        .into_iter()
        .map(str::to_owned)
        .collect();
    assert!(folds.len() > 20);
    for fill in folds {
        let inside = sheet.inside(&fill);
        assert!(!inside.is_empty(), "{fill}");
        html.push_str(&inside);
    }
    let (items, fields) = (values(&html, "data-item"), values(&html, "data-field"));
    assert!(items.iter().all(|item| PlanItem::parse(item).is_some()));
    assert!(fields.iter().all(|field| Field::parse(field).is_some()));
    let mut ids = values(&html, "id");
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "an id stands twice");
    for input in html.split("<input").skip(1) {
        let at = |name| values(input, name).first().copied();
        if let (Some(item), Some(field)) = (at("data-item"), at("data-field")) {
            let (item, field) = (PlanItem::parse(item).unwrap(), Field::parse(field).unwrap());
            let mut edited = own.clone();
            match field {
                Field::Label => edited.set_text(&item, field, "x").unwrap(),
                _ => edited.set_figure(&item, field, 1.0).unwrap(),
            }
        }
    }
}

#[test]
fn a_row_that_is_off_keeps_its_switch_and_loses_its_fields() {
    let (parent, mut own) = (parent(), parent());
    let pitted = item("look:camshaft:lobes:lobe/intake:pitted");
    own.switch_off(&pitted).unwrap();
    let sheet = PlanSheet::new(&own, &parent, words(Language::English));
    let inside = sheet.inside("section:camshaft");
    let switch = format!("<input type=\"checkbox\" id=\"{pitted}\"");
    assert!(inside.contains(&switch));
    assert!(!inside.contains(&field_id(&pitted, Field::Weight)));
    own.switch_off(&item("section:camshaft")).unwrap();
    let sheet = PlanSheet::new(&own, &parent, words(Language::English));
    assert_eq!(
        values(&sheet.inside("section:camshaft"), "data-item"),
        ["section:camshaft"]
    );
}

#[test]
fn differences_and_problems_read_well_in_every_language() {
    let (parent, mut own) = (parent(), parent());
    own.set_text(&PlanItem::Plan, Field::Name, "Ours").unwrap();
    own.set_figure(&item("section:camshaft"), Field::Weight, -1.5)
        .unwrap();
    own.switch_off(&item("look:camshaft:lobes:lobe/intake:wear"))
        .unwrap();
    own.set_figure(&item("point:polished:1"), Field::X, 7.5)
        .unwrap();
    own.set_figure(&item("factor:land_1"), Field::Factor, 2.0)
        .unwrap();
    own.set_figure(&item("grade:grade:trace"), Field::Score, 11.0)
        .unwrap();
    let lines = |language| {
        let words = words(language);
        let line = |difference| words.plan_difference(&own, &parent, difference);
        own.differences(&parent)
            .iter()
            .map(line)
            .collect::<Vec<_>>()
    };
    assert_eq!(
        lines(Language::English),
        [
            "Plan: name Ringland built-in → Ours",
            "Camshaft: weight 2 → -1.5",
            "Camshaft › Lobes › Lobe, intake · Wear: off",
            "Wear grade · Trace: score 9 → 11",
            "Polished area, row 2: breakpoint 5 → 7.5",
            "Location factor, Top land deposit: factor none → 2",
        ]
    );
    assert_eq!(
        lines(Language::Spanish)[4],
        "Área pulida, fila 2: punto de la tabla 5 → 7,5"
    );
    let said: Vec<String> = own
        .problems()
        .iter()
        .map(|problem| words(Language::English).plan_problem(&own, problem))
        .collect();
    assert_eq!(
        said[..2],
        [
            "Wear grade: Score is 11: allowed is 0 to 10".to_owned(),
            "Camshaft: Weight is -1.5: allowed is 0 to 1000000".to_owned(),
        ]
    );
}
