//! What holds on a card, case by case.

use ringland_card::{
    Body, Card, Cause, EntryId, FactField, Grade, Look, NotInspected, entry::Fact,
};
use uom::si::{f64::Length, length::kilometer};

use crate::bench::{
    at, by, card, card_of, cause, entry, entry_id, lobe, name, new_plan, other_plan, rating,
    remark, smaller_plan, void,
};

/// The grades that hold for the first intake lobe, with their raters.
fn lobe_grades(card: &Card) -> Vec<(&str, Grade)> {
    let standing = card.standing();
    let leaf = standing
        .index
        .find(standing.plan, &at("cyl1/lobe/intake", "wear"))
        .unwrap();
    standing.looks[leaf.0]
        .iter()
        .map(|entry| match &entry.body {
            Body::Rating {
                look: Look::Grade(grade),
                ..
            } => (entry.rater.as_str(), *grade),
            other => panic!("{other:?}"),
        })
        .collect()
}

fn cause_at(card: &Card, place: &str, characteristic: &str) -> Cause {
    let standing = card.standing();
    let leaf = standing
        .index
        .find(standing.plan, &at(place, characteristic))
        .unwrap();
    standing.cause(leaf)
}

#[test]
fn the_last_look_of_a_rater_holds() {
    let card = card_of([entry(1, lobe(Grade::Heavy)), entry(2, lobe(Grade::Light))]);
    assert_eq!(lobe_grades(&card), [("A", Grade::Light)]);
}

/// Last in order, not last to arrive: a tablet with a slow clock and a fast counter still comes last.
#[test]
fn the_order_is_the_lamport_counter_whatever_came_first() {
    let card = card_of([entry(9, lobe(Grade::Light)), entry(2, lobe(Grade::Heavy))]);
    assert_eq!(lobe_grades(&card), [("A", Grade::Light)]);
}

#[test]
fn two_raters_both_hold() {
    let card = card_of([
        by("B", entry(1, lobe(Grade::Heavy))),
        entry(2, lobe(Grade::Light)),
        by("B", entry(3, lobe(Grade::Medium))),
    ]);
    assert_eq!(
        lobe_grades(&card),
        [("A", Grade::Light), ("B", Grade::Medium)]
    );
}

#[test]
fn a_correction_holds_in_place_of_what_it_corrects() {
    let corrected = entry(1, lobe(Grade::Heavy));
    let correction = by("B", entry(2, lobe(Grade::Trace))).superseding(corrected.id);
    let card = card_of([corrected, correction]);
    assert_eq!(lobe_grades(&card), [("B", Grade::Trace)]);
}

#[test]
fn a_void_takes_a_look_back() {
    let card = card_of([
        entry(1, lobe(Grade::Heavy)),
        entry(2, lobe(Grade::Light)),
        entry(3, void(entry_id(2))),
    ]);
    assert_eq!(lobe_grades(&card), [("A", Grade::Heavy)]);
    let card = card_of([entry(1, lobe(Grade::Heavy)), entry(2, void(entry_id(1)))]);
    assert_eq!(lobe_grades(&card), []);
}

#[test]
fn a_void_of_a_correction_brings_the_corrected_back() {
    let card = card_of([
        entry(1, lobe(Grade::Heavy)),
        by("B", entry(2, lobe(Grade::Trace))).superseding(entry_id(1)),
        entry(3, void(entry_id(2))),
    ]);
    assert_eq!(lobe_grades(&card), [("A", Grade::Heavy)]);
}

/// A correction of a correction does not bring the first entry back; taking it back does not either.
#[test]
fn corrections_form_a_chain() {
    let mut card = card_of([
        entry(1, lobe(Grade::Heavy)),
        by("B", entry(2, lobe(Grade::Trace))).superseding(entry_id(1)),
        by("C", entry(3, lobe(Grade::Light))).superseding(entry_id(2)),
    ]);
    assert_eq!(lobe_grades(&card), [("C", Grade::Light)]);
    card.append(entry(4, void(entry_id(3)))).unwrap();
    assert_eq!(lobe_grades(&card), [("B", Grade::Trace)]);
    card.append(entry(5, void(entry_id(2)))).unwrap();
    assert_eq!(lobe_grades(&card), [("A", Grade::Heavy)]);
}

#[test]
fn two_voids_of_one_entry_are_as_good_as_one() {
    let card = card_of([
        entry(1, lobe(Grade::Heavy)),
        entry(2, void(entry_id(1))),
        by("B", entry(3, void(entry_id(1)))),
    ]);
    assert_eq!(lobe_grades(&card), []);
    assert!(card.standing().dead.has(entry_id(1)));
    assert_eq!(card.len(), 3, "nothing leaves the card");
}

#[test]
fn not_inspected_is_an_answer() {
    let place = ("cyl2/rod", "bush_wear");
    let skipped = || rating(place.0, place.1, Look::NotInspected(NotInspected::NoTime));
    let mut card = card_of([entry(1, skipped())]);
    let ask = |card: &Card| {
        let standing = card.standing();
        let leaf = standing
            .index
            .find(standing.plan, &at(place.0, place.1))
            .unwrap();
        (standing.answered(leaf), standing.not_inspected(leaf))
    };
    assert_eq!(ask(&card), (true, true));
    let look = rating(place.0, place.1, Look::Grade(Grade::Trace));
    card.append(by("B", entry(2, look))).unwrap();
    assert_eq!(ask(&card), (true, false), "B did look");
}

#[test]
fn a_cause_for_a_position_covers_it_until_a_later_one_says_otherwise() {
    let liner = "cyl1/liner";
    let mut card = card_of([entry(1, cause(liner, None, Cause::Dirt))]);
    assert_eq!(cause_at(&card, liner, "scoring"), Cause::Dirt);
    assert_eq!(cause_at(&card, liner, "scuffed"), Cause::Dirt);
    assert_eq!(
        cause_at(&card, "cyl2/liner", "scoring"),
        Cause::InService,
        "where nobody said otherwise"
    );
    card.append(entry(
        2,
        cause(liner, Some("coolant_pitting"), Cause::Coolant),
    ))
    .unwrap();
    assert_eq!(cause_at(&card, liner, "coolant_pitting"), Cause::Coolant);
    assert_eq!(cause_at(&card, liner, "scoring"), Cause::Dirt);
    card.append(entry(3, cause(liner, None, Cause::Assembly)))
        .unwrap();
    assert_eq!(cause_at(&card, liner, "coolant_pitting"), Cause::Assembly);
    card.append(entry(4, void(entry_id(3)))).unwrap();
    assert_eq!(cause_at(&card, liner, "coolant_pitting"), Cause::Coolant);
}

#[test]
fn only_a_known_cause_excludes() {
    let excluding: Vec<Cause> = Cause::ALL.into_iter().filter(|c| c.excludes()).collect();
    assert!(!excluding.contains(&Cause::InService));
    assert!(!excluding.contains(&Cause::Unknown));
    assert_eq!(excluding.len(), 6);
}

#[test]
fn the_last_fact_of_a_field_holds() {
    let distance = |km: f64| Body::Fact {
        fact: Fact::DistanceM(Length::new::<kilometer>(km)),
    };
    let card = card_of([
        entry(1, name("Ferry 7")),
        entry(2, distance(700.0)),
        by("B", entry(3, distance(812.5))),
    ]);
    let standing = card.standing();
    assert_eq!(standing.text(FactField::Name), Some("Ferry 7"));
    assert_eq!(standing.si(FactField::Distance), Some(812_500.0));
    assert_eq!(standing.fact(FactField::Oil), None);
}

#[test]
fn remarks_stand_in_order_until_taken_back() {
    let card = card_of([
        entry(2, remark("second")),
        entry(1, remark("first")),
        entry(3, remark("third")),
        entry(4, void(entry_id(2))),
    ]);
    let remarks: Vec<EntryId> = card.standing().remarks.iter().map(|e| e.id).collect();
    assert_eq!(remarks, [entry_id(1), entry_id(3)]);
}

#[test]
fn a_change_of_plan_holds_until_it_is_taken_back() {
    let mut card = card();
    card.append(entry(1, new_plan(other_plan()))).unwrap();
    assert_eq!(card.plan().version, "2");
    card.append(entry(2, void(entry_id(1)))).unwrap();
    assert_eq!(card.plan(), card.first_plan());
}

/// A look that the present plan has no place for is kept beside, and counts again when it has.
#[test]
fn a_look_outside_the_plan_is_kept() {
    let second = rating("cyl2/lobe/intake", "wear", Look::Grade(Grade::Light));
    let mut card = card_of([entry(1, second), entry(2, new_plan(smaller_plan()))]);
    let outside = |card: &Card| -> Vec<EntryId> {
        card.standing()
            .outside
            .iter()
            .map(|entry| entry.id)
            .collect()
    };
    assert_eq!(outside(&card), [entry_id(1)]);
    card.append(entry(3, void(entry_id(2)))).unwrap();
    assert_eq!(outside(&card), []);
}
