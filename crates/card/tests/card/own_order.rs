//! Positions off and on by themselves, and rows moved past each other, in a plan of one's own.

use ringland_card::{
    Look, PlanIndex,
    plan::{Change, EditError, Field, PlanItem, Way},
};

use crate::{
    bench::{self, plan},
    own_plans::one,
};

fn item(text: &str) -> PlanItem {
    PlanItem::parse(text).unwrap()
}

#[test]
fn a_position_that_is_off_is_not_asked_for_and_what_was_rated_there_is_kept() {
    let (parent, mut own) = (plan(), plan());
    let lobe = item("position:camshaft:lobes:lobe/injector:cyl2/lobe/injector");
    let asked = parent
        .places()
        .find(|(.., place)| place.id.as_str() == "lobe/injector")
        .map(|(.., place)| place.looks.len());
    own.switch_off(&lobe).unwrap();
    own.check().unwrap();
    assert_eq!(parent.leaf_count() - own.leaf_count(), asked.unwrap());
    let found = one(&own, &parent);
    assert_eq!((found.item, found.change), (lobe.clone(), Change::Removed));

    let rating = |n, at| bench::entry(n, bench::rating(at, "pitted", Look::Percent(3.0)));
    let (first, second) = (
        rating(1, "cyl1/lobe/injector"),
        rating(2, "cyl2/lobe/injector"),
    );
    let moved = bench::entry(3, bench::new_plan(own.clone()));
    let mut card = bench::card_of([first.clone(), second.clone(), moved.clone()]);
    let outside: Vec<_> = card
        .standing()
        .outside
        .iter()
        .map(|entry| entry.id)
        .collect();
    assert_eq!(outside, [second.id]);
    assert_eq!(card.standing().looks.iter().flatten().count(), 1);
    card.append(bench::entry(4, bench::void(moved.id))).unwrap();
    assert!(card.standing().outside.is_empty());
    assert_eq!(card.standing().looks.iter().flatten().count(), 2);

    own.put_back(&parent, &lobe).unwrap();
    assert_eq!(own, parent);
}

#[test]
fn a_place_whose_positions_are_all_off_is_off_and_comes_back_whole() {
    let (parent, mut own) = (plan(), plan());
    for cylinder in ["cyl1", "cyl2"] {
        let at = format!("position:camshaft:lobes:lobe/injector:{cylinder}/lobe/injector");
        own.switch_off(&item(&at)).unwrap();
    }
    let place = item("place:camshaft:lobes:lobe/injector");
    let found = one(&own, &parent);
    assert_eq!((found.item, found.change), (place.clone(), Change::Removed));
    own.put_back(&parent, &place).unwrap();
    assert_eq!(own, parent);
}

#[test]
fn rows_move_past_each_other_and_back() {
    let parent = plan();
    let camshaft = &parent.sections[1];
    assert_eq!(camshaft.id.as_str(), "camshaft");
    let part = &camshaft.parts[1];
    let (_, _, place) = parent
        .places()
        .find(|(.., place)| place.looks.len() > 1)
        .unwrap();
    let (section, of, _) = parent
        .places()
        .find(|(.., known)| known.id == place.id)
        .unwrap();
    let (_, lobes, lobe) = parent
        .places()
        .filter(|(_, part, _)| part.id.as_str() == "lobes")
        .nth(1)
        .unwrap();
    let caps = PlanItem::Cap(parent.caps[1].id.clone());
    for (moved, owner) in [
        (camshaft.item(), PlanItem::Plan),
        (part.item(camshaft), camshaft.item()),
        (lobe.item(camshaft, lobes), lobes.item(camshaft)),
        (
            place.look_item(section, of, &place.looks[1]),
            place.item(section, of),
        ),
        (caps, PlanItem::Plan),
    ] {
        let mut own = parent.clone();
        own.move_item(&moved, Way::Up).unwrap();
        own.check().unwrap();
        let found = one(&own, &parent);
        assert_eq!(found.item, owner);
        let Change::Field { field, .. } = found.change else {
            unreachable!("{moved}")
        };
        assert_eq!(field, Field::Order);
        own.move_item(&moved, Way::Down).unwrap();
        assert_eq!(own, parent);
    }
}

#[test]
fn the_leaves_follow_the_order_and_looks_stay_at_theirs() {
    let (parent, mut own) = (plan(), plan());
    own.move_item(&item("section:camshaft"), Way::Up).unwrap();
    let index = PlanIndex::of(&own);
    assert_eq!(
        index.leaves()[0].path(&own).split('/').next(),
        Some("camshaft")
    );
    assert_eq!(own.leaf_count(), parent.leaf_count());
    let rating = bench::entry(
        1,
        bench::rating("cyl1/lobe/intake", "pitted", Look::Percent(3.0)),
    );
    let card = bench::card_of([rating, bench::entry(2, bench::new_plan(own))]);
    let standing = card.standing();
    assert!(standing.outside.is_empty());
    let at = bench::at("cyl1/lobe/intake", "pitted");
    let leaf = card.index().find(card.plan(), &at).unwrap();
    assert_eq!(standing.looks[leaf.0].len(), 1);
}

#[test]
fn what_stands_at_the_end_or_not_at_all_does_not_move() {
    let (parent, mut own) = (plan(), plan());
    let first = parent.sections[0].item();
    let last = parent.sections.last().unwrap().item();
    assert_eq!(own.move_item(&first, Way::Up), Err(EditError::AtEnd));
    assert_eq!(own.move_item(&last, Way::Down), Err(EditError::AtEnd));
    for nowhere in [
        "section:gearbox",
        "look:a:b:c:d",
        "grade:grade:trace",
        "plan",
    ] {
        assert_eq!(
            own.move_item(&item(nowhere), Way::Up),
            Err(EditError::NotThere)
        );
    }
    assert_eq!(own, parent);
}
