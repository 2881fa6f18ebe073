//! The editor's markup, as far as the app and its users rest on it.

use ringland_card::{
    Depth, Layout, Plan, Scale, ScaleId, builtin,
    plan::{Axis, Criterion, Field, NewRow, PlanItem, TradeFigure, Under, Way},
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
    own.add_cap("Shaft worn", "pump").unwrap();
    own.add_cap("Ring stuck", "rings").unwrap();
    own.add_criterion(sludge());
    let deposit = own.scales.iter().find_map(|(id, scale)| match scale {
        Scale::Area { .. } => Some(id.clone()),
        _ => None,
    });
    own.add_level(&deposit.unwrap(), "Rust", 0.3).unwrap();
    let sheet = PlanSheet::new(&own, &parent, words(Language::English));
    let mut html = [
        sheet.rows(),
        sheet.scales(),
        sheet.caps(),
        sheet.criteria(),
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
        let (input, _) = input.split_once('>').unwrap();
        let at = |name| values(input, name).first().copied();
        if input.contains("data-choose") {
            assert!(chosen(&own, at("data-item"), at("data-field"), at("value")));
            continue;
        }
        if let (Some(item), Some(field)) = (at("data-item"), at("data-field")) {
            let (item, field) = (PlanItem::parse(item).unwrap(), Field::parse(field).unwrap());
            let mut edited = own.clone();
            match field {
                Field::Label => edited.set_text(&item, field, "x").unwrap(),
                _ => edited.set_figure(&item, field, 1.0).unwrap(),
            }
        }
    }
    let mut choices = 0;
    for select in html.split("<select").skip(1) {
        let (select, _) = select.split_once("</select>").unwrap();
        let at = |name| values(select, name).first().copied();
        if !select.contains("data-choose") {
            continue;
        }
        assert_eq!(select.matches(" selected").count(), 1, "{select}");
        for option in values(select, "value") {
            assert!(
                chosen(&own, at("data-item"), at("data-field"), Some(option)),
                "{select}"
            );
            choices += 1;
        }
    }
    assert!(choices > 500, "{choices}");
}

/// Whether a choice that the page offers can be made.
fn chosen(own: &Plan, item: Option<&str>, field: Option<&str>, name: Option<&str>) -> bool {
    let (item, field) = (item.and_then(PlanItem::parse), field.and_then(Field::parse));
    let mut edited = own.clone();
    edited
        .choose(&item.unwrap(), field.unwrap(), name.unwrap())
        .is_ok()
}

/// A criterion in which more is better.
fn sludge() -> Criterion {
    Criterion {
        figure: TradeFigure::SludgeMerit,
        weight: 150.0,
        anchor: 9.0,
        limit: 8.7,
        best: 9.3,
    }
}

#[test]
fn what_is_of_the_plan_itself_goes_for_good_and_what_is_the_parents_is_switched() {
    let (parent, mut own) = (parent(), parent());
    let rule = own.add_cap("Shaft worn", "camshaft").unwrap();
    let lobe = item("position:camshaft:lobes:lobe/injector:cyl3/lobe/injector");
    own.switch_off(&lobe).unwrap();
    let sheet = PlanSheet::new(&own, &parent, words(Language::English));
    let acts = |html: &str, item: &PlanItem| -> Vec<String> {
        let tags = html
            .split('<')
            .filter(|tag| values(tag, "data-item").first() == Some(&item.to_string().as_str()));
        let acts = tags.flat_map(|tag| values(tag, "data-act"));
        acts.map(str::to_owned).collect()
    };
    assert_eq!(acts(&sheet.caps(), &rule), ["remove"]);
    let parents = PlanItem::Cap(parent.caps[0].id.clone());
    assert_eq!(acts(&sheet.caps(), &parents), ["switch"]);
    let inside = sheet.inside("section:camshaft");
    let box_of = |position: &str| {
        let id = format!("id=\"position:camshaft:lobes:lobe/injector:{position}/lobe/injector\"");
        let tag = inside.split('<').find(|tag| tag.contains(&id)).unwrap();
        tag.contains("checked")
    };
    assert!(box_of("cyl2") && !box_of("cyl3"));
}

#[test]
fn the_ends_of_an_order_cannot_be_passed() {
    let (parent, mut own) = (parent(), parent());
    let disabled = |own: &Plan, id: &str| {
        let sheet = PlanSheet::new(own, &parent, words(Language::English));
        let inside = sheet.inside("section:camshaft");
        let tag = inside
            .split('<')
            .find(|tag| tag.contains(&format!("id=\"{id}\"")));
        tag.map(|tag| tag.contains(" disabled"))
    };
    let first = "place:camshaft:lobes:lobe/intake";
    let (up, down) = (format!("up:{first}"), format!("down:{first}"));
    assert_eq!(
        (disabled(&own, &up), disabled(&own, &down)),
        (Some(true), Some(false))
    );
    own.move_item(&item(first), Way::Down).unwrap();
    assert_eq!(
        (disabled(&own, &up), disabled(&own, &down)),
        (Some(false), Some(false))
    );
    // What is off is not passed: alone, a row has nowhere to go.
    for other in ["exhaust", "injector"] {
        own.switch_off(&item(&format!("place:camshaft:lobes:lobe/{other}")))
            .unwrap();
    }
    assert_eq!((disabled(&own, &up), disabled(&own, &down)), (None, None));
}

#[test]
fn rules_levels_and_criteria_that_differ_read_well_in_every_language() {
    let (parent, mut own) = (parent(), parent());
    own.switch_off(&item(
        "position:camshaft:lobes:lobe/injector:cyl3/lobe/injector",
    ))
    .unwrap();
    own.move_item(&item("section:camshaft"), Way::Up).unwrap();
    own.switch_off(&item("state:mobility:sluggish")).unwrap();
    let mobility = ScaleId::new("mobility").unwrap();
    own.add_level(&mobility, "Sluggish when cold", 8.0).unwrap();
    own.add_cap("Cam journals worn", "camshaft/cam_journals")
        .unwrap();
    let pitted = item("cap:lobe_pitted");
    own.choose(&pitted, Field::Node, "camshaft/lobes").unwrap();
    own.set_figure(&pitted, Field::When, 25.0).unwrap();
    own.add_criterion(sludge());
    let lines = |from: &Plan, to: &Plan, language| {
        let words = words(language);
        let line = |difference| words.plan_difference(to, from, difference);
        to.differences(from).iter().map(line).collect::<Vec<_>>()
    };
    assert_eq!(
        lines(&parent, &own, Language::English),
        [
            "Plan: order changed",
            "Cylinder 3, injector lobe: off",
            "Ring mobility · Sluggish: off",
            "Ring mobility · Sluggish when cold: added",
            "Cam journals worn: added",
            "Pitted lobe: what is capped Camshaft → Lobes",
            "Pitted lobe: what sets it off over 10\u{a0}% → over 25\u{a0}%",
            "Criterion 1, Sludge merit: added",
        ]
    );
    assert_eq!(
        lines(&own, &parent, Language::English)[7],
        "Criterion 1, Sludge merit: removed"
    );
    let mut other = own.clone();
    other
        .set_figure(&PlanItem::Criterion(0), Field::Limit, 8.5)
        .unwrap();
    assert_eq!(
        lines(&own, &other, Language::Spanish),
        ["Criterio 1, Mérito por lodo: límite 8,7 → 8,5"]
    );
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
