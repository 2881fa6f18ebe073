//! Cap rules and criteria of a plan of one's own: added, changed field by field, wrong and told so,
//! removed.

use ringland_card::{
    CharacteristicId, Grade, Plan, StateId,
    plan::{
        CapRule, Change, Criterion, EditError, Field, Held, PlanError, PlanItem, TradeFigure,
        Trigger,
    },
};

use crate::{bench::plan, own_plans::one};

fn added(plan: &mut Plan, name: &str, node: &str) -> PlanItem {
    plan.add_cap(name, node).unwrap()
}

fn rule<'p>(plan: &'p Plan, item: &PlanItem) -> &'p CapRule {
    let is = |rule: &&CapRule| PlanItem::Cap(rule.id.clone()) == *item;
    plan.caps.iter().find(is).unwrap()
}

fn fields(plan: &Plan, other: &Plan) -> Vec<&'static str> {
    let changed = |change: Change| match change {
        Change::Field { field, .. } => field.as_str(),
        Change::Added => "added",
        Change::Removed => "removed",
    };
    let all = plan.differences(other).into_iter();
    all.map(|difference| changed(difference.change)).collect()
}

fn told(plan: &Plan) -> Vec<(String, Option<Field>)> {
    let problems = plan.problems().into_iter();
    problems
        .map(|problem| (problem.item.to_string(), problem.field))
        .collect()
}

#[test]
fn a_new_rule_holds_down_where_it_looks_and_is_one_difference() {
    let (parent, mut own) = (plan(), plan());
    let item = added(&mut own, " Lóbulo gastado ", "camshaft/lobes");
    assert_eq!(item.to_string(), "cap:lobulo_gastado");
    let found = one(&own, &parent);
    assert_eq!((found.item, found.change), (item.clone(), Change::Added));
    own.check().unwrap();
    let made = rule(&own, &item);
    assert_eq!(made.label.as_deref(), Some("Lóbulo gastado"));
    assert_eq!(
        (made.node.as_str(), made.within.as_str()),
        ("camshaft/lobes", "camshaft/lobes")
    );
    assert!(own.is_rated_as(made) && made.when.can_be_met());
    // Another of that name is another rule.
    assert_eq!(
        added(&mut own, "Lóbulo gastado", "camshaft").to_string(),
        "cap:lobulo_gastado_2"
    );
    own.check().unwrap();
    for item in ["cap:lobulo_gastado", "cap:lobulo_gastado_2"] {
        own.switch_off(&PlanItem::parse(item).unwrap()).unwrap();
    }
    assert_eq!(own, parent);
}

#[test]
fn a_rule_can_be_added_wherever_one_of_the_four_kinds_is_rated_and_nowhere_else() {
    let parent = plan();
    let kinds = ["grade", "extent", "count", "state"];
    let (mut with, mut without) = (0, 0);
    for node in parent.nodes() {
        let mut looks = parent
            .places()
            .filter(|(section, part, _)| {
                node == section.id.as_str() || node == format!("{}/{}", section.id, part.id)
            })
            .flat_map(|(.., place)| &place.looks);
        let method = |scale| parent.scale(scale).unwrap().method().as_str();
        let any = looks.any(|look| kinds.contains(&method(&look.scale)));
        let mut own = parent.clone();
        if any {
            added(&mut own, "x", &node);
            own.check().unwrap();
            with += 1;
        } else {
            assert_eq!(
                own.add_cap("x", &node),
                Err(EditError::NothingToCap),
                "{node}"
            );
            assert_eq!(own, parent);
            without += 1;
        }
    }
    assert!(with > 5 && without > 0, "{with} {without}");
}

#[test]
fn a_rule_that_is_none_is_refused_and_changes_nothing() {
    let (parent, mut own) = (plan(), plan());
    assert_eq!(own.add_cap(" ", "camshaft"), Err(EditError::NoName));
    let long = "x".repeat(121);
    assert_eq!(
        own.add_cap(&long, "camshaft"),
        Err(EditError::LongName { given: 121 })
    );
    assert_eq!(own.add_cap("x", "gearbox"), Err(EditError::NothingToCap));
    assert_eq!(own, parent);
    let item = PlanItem::Cap(own.caps[0].id.clone());
    for (field, name) in [
        (Field::Node, "gearbox"),
        (Field::Within, "camshaft/teeth"),
        (Field::Characteristic, "scuffed"),
        (Field::Characteristic, "not an id"),
        // An extent, which has a figure and no choice.
        (Field::When, "heavy"),
        (Field::Cap, "5"),
    ] {
        assert_eq!(
            own.choose(&item, field, name),
            Err(EditError::NotThere),
            "{field:?} {name}"
        );
    }
    let gone = PlanItem::parse("cap:gone").unwrap();
    assert_eq!(
        own.choose(&gone, Field::Node, "camshaft"),
        Err(EditError::NotThere)
    );
    assert_eq!(own, parent);
}

#[test]
fn every_field_of_a_rule_is_changed_by_itself() {
    let mut own = plan();
    let item = added(&mut own, "Worn", "camshaft/lobes");
    let looks: Vec<String> = own
        .cap_looks("camshaft/lobes")
        .iter()
        .map(|look| look.id.to_string())
        .collect();
    assert!(
        looks.contains(&"wear".to_owned()) && looks.contains(&"pitted".to_owned()),
        "{looks:?}"
    );
    own.choose(&item, Field::Characteristic, "wear").unwrap();
    assert!(matches!(rule(&own, &item).when, Trigger::GradeAtLeast(_)));
    own.check().unwrap();

    let before = own.clone();
    own.choose(&item, Field::When, "medium_to_heavy").unwrap();
    assert_eq!(
        rule(&own, &item).when,
        Trigger::GradeAtLeast(Grade::MediumToHeavy)
    );
    assert_eq!(fields(&own, &before), ["when"]);

    let before = own.clone();
    own.choose(&item, Field::Node, "camshaft").unwrap();
    assert_eq!(fields(&own, &before), ["node"]);
    own.check().unwrap();

    let before = own.clone();
    own.set_figure(&item, Field::Cap, 6.5).unwrap();
    assert_eq!(fields(&own, &before), ["cap"]);

    let before = own.clone();
    own.set_text(&item, Field::Label, "Lobe worn").unwrap();
    assert_eq!(fields(&own, &before), ["label"]);

    // What is rated otherwise has another trigger.
    let before = own.clone();
    own.choose(&item, Field::Characteristic, "pitted").unwrap();
    assert!(matches!(rule(&own, &item).when, Trigger::PercentOver(_)));
    assert_eq!(fields(&own, &before), ["characteristic", "when"]);
    let before = own.clone();
    own.set_figure(&item, Field::When, 35.0).unwrap();
    assert_eq!(rule(&own, &item).when, Trigger::PercentOver(35.0));
    assert_eq!(fields(&own, &before), ["when"]);
    own.check().unwrap();
}

#[test]
fn states_go_in_and_out_and_one_without_any_is_told() {
    let mut own = plan();
    let item = added(&mut own, "Stuck", "rings/rings");
    own.choose(&item, Field::Characteristic, "mobility")
        .unwrap();
    let Trigger::StateIn(states) = rule(&own, &item).when.clone() else {
        unreachable!("mobility is a state")
    };
    own.choose(&item, Field::When, "cold_stuck").unwrap();
    let both: Vec<StateId> = states
        .iter()
        .cloned()
        .chain([StateId::new("cold_stuck").unwrap()])
        .collect();
    assert_eq!(rule(&own, &item).when, Trigger::StateIn(both.clone()));
    own.check().unwrap();
    for state in &both {
        own.choose(&item, Field::When, state.as_str()).unwrap();
    }
    assert_eq!(rule(&own, &item).when, Trigger::StateIn(Vec::new()));
    assert_eq!(told(&own), [(item.to_string(), Some(Field::When))]);
    // One that the scale does not have.
    own.choose(&item, Field::When, "molten").unwrap();
    assert_eq!(told(&own), [(item.to_string(), Some(Field::When))]);
}

#[test]
fn a_rule_that_looks_where_its_characteristic_is_not_is_told_at_that() {
    let mut own = plan();
    let item = added(&mut own, "Pitted", "camshaft/lobes");
    own.choose(&item, Field::Characteristic, "pitted").unwrap();
    own.choose(&item, Field::Within, "rings").unwrap();
    assert_eq!(
        rule(&own, &item).characteristic,
        CharacteristicId::new("pitted").unwrap(),
        "what was not chosen stays"
    );
    let problems = own.problems();
    assert!(matches!(problems[0].why, PlanError::CapTrigger { .. }));
    assert_eq!(
        told(&own),
        [(item.to_string(), Some(Field::Characteristic))]
    );
    own.set_figure(&item, Field::Cap, 10.5).unwrap();
    assert_eq!(told(&own)[0], (item.to_string(), Some(Field::Cap)));
}

#[test]
fn trade_figures_are_named_as_the_file_names_them() {
    for figure in TradeFigure::ALL {
        assert_eq!(serde_json::to_value(figure).unwrap(), figure.as_str());
        assert_eq!(TradeFigure::parse(figure.as_str()), Some(figure));
    }
    assert_eq!(TradeFigure::parse("oil_consumption"), None);
}

/// Anchor, limit and best credit of a sludge merit: more is better.
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
fn criteria_are_added_changed_checked_and_removed() {
    let (parent, mut own) = (plan(), plan());
    let item = own.add_criterion(sludge());
    assert_eq!(item, PlanItem::Criterion(0));
    own.check().unwrap();
    let found = one(&own, &parent);
    assert_eq!((found.item, found.change), (item.clone(), Change::Added));

    let fill = Criterion {
        figure: TradeFigure::TopGrooveFill,
        anchor: 40.0,
        limit: 60.0,
        best: 20.0,
        ..sludge()
    };
    assert_eq!(own.add_criterion(fill), PlanItem::Criterion(1));
    let before = own.clone();
    own.choose(&item, Field::Figure, "varnish_merit").unwrap();
    let found = one(&own, &before);
    let (from, to) = (TradeFigure::SludgeMerit, TradeFigure::VarnishMerit);
    assert_eq!(found.item, item);
    assert_eq!(
        found.change,
        Change::Field {
            field: Field::Figure,
            from: Held::TradeFigure(from),
            to: Held::TradeFigure(to)
        }
    );
    for (field, figure) in [
        (Field::Weight, 200.0),
        (Field::Anchor, 8.9),
        (Field::Limit, 8.0),
        (Field::Best, 9.5),
    ] {
        let before = own.clone();
        own.set_figure(&item, field, figure).unwrap();
        assert_eq!(fields(&own, &before), [field.as_str()]);
        own.check().unwrap();
    }
    own.switch_off(&item).unwrap();
    assert_eq!(own.criteria[0].figure, TradeFigure::TopGrooveFill);
    own.switch_off(&item).unwrap();
    assert_eq!(own, parent);
    assert_eq!(own.switch_off(&item), Err(EditError::NotThere));
    for (item, field, name) in [
        (&item, Field::Figure, "varnish_merit"),
        (&PlanItem::Plan, Field::Figure, "varnish_merit"),
    ] {
        assert_eq!(own.choose(item, field, name), Err(EditError::NotThere));
    }
}

#[test]
fn a_criterion_out_of_order_is_told_at_its_anchor() {
    let mut own = plan();
    let item = own.add_criterion(sludge());
    assert_eq!(
        own.choose(&item, Field::Figure, "none"),
        Err(EditError::NotThere)
    );
    for (field, wrong, right) in [
        (Field::Anchor, 9.4, 9.0),
        (Field::Limit, 9.1, 8.7),
        (Field::Best, 8.9, 9.3),
    ] {
        own.set_figure(&item, field, wrong).unwrap();
        assert_eq!(
            told(&own),
            [(item.to_string(), Some(Field::Anchor))],
            "{field:?}"
        );
        own.set_figure(&item, field, right).unwrap();
        own.check().unwrap();
    }
    own.set_figure(&item, Field::Weight, -1.0).unwrap();
    assert_eq!(told(&own), [(item.to_string(), Some(Field::Weight))]);
}
