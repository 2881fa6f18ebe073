//! Rows of a scale's table in a plan of one's own, and what becomes of what was rated at them.

use ringland_card::{
    Areas, At, Entry, LevelId, Look, Plan, PlanIndex, Scale, ScaleId, Standing, StateId,
    plan::{Change, EditError, Field, PlanItem, Way},
    scale::CLEAN,
};

use crate::{
    bench::{self, plan},
    own_plans::one,
};

fn ids(scale: &Scale) -> Vec<String> {
    match scale {
        Scale::Area { levels } => levels.iter().map(|row| row.id.to_string()).collect(),
        Scale::MeritArea { levels } => levels.iter().map(|row| row.id.to_string()).collect(),
        Scale::State { states } => states.iter().map(|row| row.id.to_string()).collect(),
        _ => Vec::new(),
    }
}

/// The first scale by a method that something is rated on.
fn first(plan: &Plan, method: &str) -> ScaleId {
    let mut looks = plan.places().flat_map(|(.., place)| &place.looks);
    let by = |id| plan.scale(id).unwrap().method().as_str() == method;
    looks.find(|look| by(&look.scale)).unwrap().scale.clone()
}

/// A leaf that is rated on a scale.
fn leaf_on(plan: &Plan, scale: &ScaleId) -> At {
    let index = PlanIndex::of(plan);
    let mut leaves = index.leaves().iter();
    let leaf = leaves.find(|leaf| leaf.characteristic(plan).scale == *scale);
    leaf.unwrap().at(plan)
}

#[test]
fn a_level_and_a_state_go_where_their_figures_put_them() {
    let parent = plan();
    for (method, figure, worst_first) in [
        ("area", 0.3, true),
        ("merit_area", 6.2, true),
        ("state", 5.5, false),
    ] {
        let scale = first(&parent, method);
        let mut own = parent.clone();
        let item = own.add_level(&scale, " Óxido rojo ", figure).unwrap();
        assert!(
            item.to_string().ends_with(&format!(":{scale}:oxido_rojo")),
            "{item}"
        );
        let found = one(&own, &parent);
        assert_eq!((found.item, found.change), (item.clone(), Change::Added));
        own.check().unwrap();
        let label = own.scales[&scale]
            .label_of("oxido_rojo")
            .map(String::as_str);
        assert_eq!(label, Some("Óxido rojo"));
        // Worse before better, or the other way round.
        let figures: Vec<f64> = match &own.scales[&scale] {
            Scale::Area { levels } => levels.iter().map(|row| -row.factor).collect(),
            Scale::MeritArea { levels } => levels.iter().map(|row| row.merit).collect(),
            Scale::State { states } => states.iter().map(|row| -row.score).collect(),
            _ => unreachable!(),
        };
        assert!(figures.is_sorted(), "{method} {worst_first} {figures:?}");
        // Another of that name has another id.
        let again = own.add_level(&scale, "óxido rojo", figure).unwrap();
        assert!(again.to_string().ends_with(":oxido_rojo_2"));
        own.check().unwrap();
        own.switch_off(&again).unwrap();
        own.switch_off(&item).unwrap();
        assert_eq!(own, parent);
    }
}

#[test]
fn a_level_that_is_none_is_refused_and_one_named_for_the_rest_has_another_id() {
    let (parent, mut own) = (plan(), plan());
    let area = first(&parent, "area");
    let bore = ScaleId::new("bore").unwrap();
    assert_eq!(own.add_level(&area, " ", 0.5), Err(EditError::NoName));
    assert_eq!(own.add_level(&bore, "x", 0.5), Err(EditError::NotThere));
    assert_eq!(
        own.add_level(&first(&parent, "grade"), "x", 0.5),
        Err(EditError::NotThere)
    );
    assert_eq!(
        own.add_point(&area, (1.0, 2.0).into()),
        Err(EditError::NotThere)
    );
    assert_eq!(own, parent);
    let item = own.add_level(&area, "Clean", 0.0).unwrap();
    assert!(
        item.to_string().ends_with(":clean_2"),
        "{item} beside {CLEAN}"
    );
    own.check().unwrap();
    own.set_figure(&item, Field::Factor, 1.5).unwrap();
    assert_eq!(own.problems()[0].item, PlanItem::Scale(area));
}

#[test]
fn a_table_without_rows_and_breakpoints_that_do_not_rise_are_told() {
    let mut own = plan();
    let scale = first(&own, "state");
    for id in ids(&own.scales[&scale].clone()) {
        let item = PlanItem::State(scale.clone(), StateId::new(&id).unwrap());
        own.switch_off(&item).unwrap();
    }
    assert!(
        own.problems()
            .iter()
            .any(|problem| problem.item == PlanItem::Scale(scale.clone()))
    );
    let mut own = plan();
    let scale = first(&own, "extent");
    let at_zero = own.add_point(&scale, (0.0, 5.0).into()).unwrap();
    assert_eq!(own.problems()[0].item, PlanItem::Scale(scale.clone()));
    own.switch_off(&at_zero).unwrap();
    assert_eq!(own, plan());
    own.add_point(&scale, (101.0, 0.0).into()).unwrap();
    assert_eq!(own.problems()[0].item, PlanItem::Scale(scale));
}

#[test]
fn a_breakpoint_goes_between_those_beside_it() {
    let parent = plan();
    let scale = first(&parent, "extent");
    let xs = |plan: &Plan| match &plan.scales[&scale] {
        Scale::Extent { points } => points.iter().map(|point| point.x).collect::<Vec<_>>(),
        _ => unreachable!(),
    };
    for x in [0.5, 3.25, 99.5] {
        let mut own = parent.clone();
        own.add_point(&scale, (x, 5.0).into()).unwrap();
        assert!(xs(&own).is_sorted() && xs(&own).contains(&x));
        own.check().unwrap();
        assert_eq!(one(&own, &parent).change, Change::Added);
    }
}

#[test]
fn levels_and_states_move_past_each_other() {
    let parent = plan();
    for method in ["area", "merit_area", "state"] {
        let scale = first(&parent, method);
        let before = ids(&parent.scales[&scale]);
        let item = match method {
            "state" => PlanItem::State(scale.clone(), StateId::new(&before[1]).unwrap()),
            _ => PlanItem::Level(scale.clone(), LevelId::new(&before[1]).unwrap()),
        };
        let mut own = parent.clone();
        own.move_item(&item, Way::Up).unwrap();
        let mut wanted = before.clone();
        wanted.swap(0, 1);
        assert_eq!(ids(&own.scales[&scale]), wanted);
        assert_eq!(own.move_item(&item, Way::Up), Err(EditError::AtEnd));
        own.check().unwrap();
        own.move_item(&item, Way::Down).unwrap();
        assert_eq!(own, parent);
    }
}

/// What was rated at one level or state, and the item that this is.
fn rated_at(plan: &Plan, method: &str) -> (Entry, PlanItem) {
    let scale = first(plan, method);
    let at = leaf_on(plan, &scale);
    let row = ids(&plan.scales[&scale])[1].clone();
    let (look, item) = if method == "state" {
        let id = StateId::new(&row).unwrap();
        (Look::State(id.clone()), PlanItem::State(scale, id))
    } else {
        let id = LevelId::new(&row).unwrap();
        let areas = Areas {
            shares: [(id.clone(), 30.0)].into_iter().collect(),
            painted: Vec::new(),
            read_off: None,
        };
        (Look::Areas(areas), PlanItem::Level(scale, id))
    };
    let entry = bench::entry(
        1,
        bench::rating(at.position.as_str(), at.characteristic.as_str(), look),
    );
    (entry, item)
}

#[test]
fn what_was_rated_at_a_level_or_state_that_is_off_is_kept_and_not_scored() {
    for method in ["area", "merit_area", "state"] {
        let (entry, item) = rated_at(&plan(), method);
        let mut own = plan();
        own.switch_off(&item).unwrap();
        own.check().unwrap();
        // The card under its own plan is as it was; under the other the look is counted as outside.
        let card = bench::card_of([entry.clone()]);
        let index = PlanIndex::of(&own);
        let under = Standing::under(&card, &own, &index);
        let outside: Vec<_> = under.outside.iter().map(|entry| entry.id).collect();
        assert_eq!(outside, [entry.id]);
        assert!(under.looks.iter().all(Vec::is_empty));
        assert!(card.standing().outside.is_empty());
        // Moved there, through the file, and back.
        let moved = bench::entry(2, bench::new_plan(own));
        let card = bench::card_of([entry.clone(), moved.clone()]);
        let read = ringland_card::file::read(ringland_card::file::write(&card).as_bytes()).unwrap();
        assert!(read.digest_matches);
        let mut card = read.card;
        assert_eq!(card.standing().outside.len(), 1);
        assert!(card.entry(entry.id).is_some());
        card.append(bench::entry(3, bench::void(moved.id))).unwrap();
        assert!(card.standing().outside.is_empty());
        assert_eq!(card.standing().looks.iter().flatten().count(), 1);
    }
}

#[test]
fn what_was_rated_before_a_level_or_state_was_added_counts_on() {
    for method in ["area", "merit_area", "state"] {
        let (entry, item) = rated_at(&plan(), method);
        let mut own = plan();
        let PlanItem::Scale(scale) = item.owner() else {
            unreachable!()
        };
        let new = own.add_level(&scale, "Rust", 0.5).unwrap();
        let moved = bench::entry(2, bench::new_plan(own));
        let mut card = bench::card_of([entry.clone(), moved]);
        assert!(card.standing().outside.is_empty());
        assert_eq!(card.standing().looks.iter().flatten().count(), 1);
        // And the new one can be rated.
        let look = match new {
            PlanItem::State(_, id) => Look::State(id),
            PlanItem::Level(_, id) => Look::Areas(Areas {
                shares: [(id, 5.0)].into_iter().collect(),
                painted: Vec::new(),
                read_off: None,
            }),
            other => unreachable!("{other}"),
        };
        let at = leaf_on(&plan(), &scale);
        let rating = bench::rating(at.position.as_str(), at.characteristic.as_str(), look);
        card.append(bench::entry(3, rating)).unwrap();
        assert!(card.standing().outside.is_empty());
    }
}
