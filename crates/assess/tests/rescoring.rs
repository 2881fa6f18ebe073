//! A card under another plan: what comes out is what the card would say if it were moved there.

#![allow(clippy::unwrap_used, reason = "what is missing stops the test")]

mod common;

use common::{assessed, card, look, part, place, plan, rate, section, write};
use ringland_assess::rescore::{Rescored, rescore};
use ringland_card::{
    Body, Card, Grade, Look, Plan,
    plan::{Field, LeafId, PlanItem, Repeatability},
};

/// Two sections: shafts with wear and pits at two positions, and a pump.
fn parent() -> Plan {
    let u = Repeatability::Score(0.5);
    let looks = vec![
        look("wear", "grade", 1.0, u),
        look("pitted", "damaged", 1.0, u),
    ];
    let shafts = place("shaft", 1.0, &["s1", "s2"], looks);
    let pump = place("pump", 1.0, &["pump"], vec![look("wear", "grade", 1.0, u)]);
    plan(
        vec![
            section("shafts", 1.0, vec![part("shafts", 1.0, vec![shafts])]),
            section("pump", 1.0, vec![part("pump", 1.0, vec![pump])]),
        ],
        vec![],
    )
}

fn rated() -> Card {
    let mut card = card(parent());
    rate(&mut card, "A", "s1", "wear", Look::Grade(Grade::Trace));
    rate(&mut card, "A", "s1", "pitted", Look::Percent(20.0));
    rate(&mut card, "B", "pump", "wear", Look::Grade(Grade::Medium));
    card
}

fn item(text: &str) -> PlanItem {
    PlanItem::parse(text).unwrap()
}

fn under(card: &Card, plan: &Plan) -> Rescored {
    let (tree, result) = assessed(card);
    rescore(card, &tree, &result, plan)
}

/// Score of a path under the card's own plan and under the other.
fn scores(card: &Card, beside: &Rescored, path: &str) -> (Option<f64>, Option<f64>) {
    let (_, own) = assessed(card);
    let node = beside.nodes.iter().find(|node| node.path == path).unwrap();
    (
        node.own.and_then(|node| own.all.nodes[node].score),
        node.other
            .and_then(|node| beside.result.all.nodes[node].score),
    )
}

#[test]
fn under_its_own_plan_nothing_changes() {
    let card = rated();
    let beside = under(&card, card.plan());
    assert_eq!(beside.result, assessed(&card).1);
    assert_eq!((beside.no_longer.len(), beside.newly_open.len()), (0, 0));
    assert!(beside.nodes.iter().all(|node| node.own == node.other));
}

#[test]
fn a_heavier_section_moves_the_engine_and_nothing_else() {
    let card = rated();
    let mut own = parent();
    own.set_figure(&item("section:pump"), Field::Weight, 3.0)
        .unwrap();
    let beside = under(&card, &own);
    // By hand: shafts (9 + 0) / 2 = 4.5, pump 5; (4.5 + 5) / 2 and (4.5 + 3·5) / 4.
    assert_eq!(scores(&card, &beside, "engine"), (Some(4.75), Some(4.875)));
    assert_eq!(scores(&card, &beside, "shafts"), (Some(4.5), Some(4.5)));
    assert_eq!((beside.no_longer.len(), beside.newly_open.len()), (0, 0));
}

#[test]
fn what_is_off_no_longer_counts_and_what_is_new_is_open() {
    let card = rated();
    let mut own = parent();
    own.switch_off(&item("look:shafts:shafts:shaft:pitted"))
        .unwrap();
    let grade = ringland_card::ScaleId::new("grade").unwrap();
    own.add_look(&item("place:pump:pump:pump"), "Play", &grade)
        .unwrap();
    let beside = under(&card, &own);
    assert_eq!(scores(&card, &beside, "shafts"), (Some(4.5), Some(9.0)));
    assert_eq!(beside.no_longer, [LeafId(1)]);
    let open: Vec<String> = beside
        .newly_open
        .iter()
        .map(|leaf| beside.index.leaf(*leaf).unwrap().path(&own))
        .collect();
    assert_eq!(open, ["pump/pump/pump/play"]);
    own.switch_off(&item("section:shafts")).unwrap();
    let beside = under(&card, &own);
    assert_eq!(
        scores(&card, &beside, "shafts/shafts/s1"),
        (Some(4.5), None)
    );
    assert_eq!(beside.no_longer, [LeafId(0), LeafId(1)]);
}

#[test]
fn a_look_on_another_scale_no_longer_counts_and_is_open() {
    let card = rated();
    let mut own = parent();
    let damaged = ringland_card::ScaleId::new("damaged").unwrap();
    own.set_scale(&item("look:pump:pump:pump:wear"), &damaged)
        .unwrap();
    let beside = under(&card, &own);
    assert_eq!(beside.no_longer, [LeafId(4)]);
    assert_eq!(beside.newly_open, [LeafId(4)]);
}

#[test]
fn what_comes_out_is_what_a_moved_card_says() {
    let mut own = parent();
    own.switch_off(&item("look:shafts:shafts:shaft:pitted"))
        .unwrap();
    own.set_figure(&item("plan"), Field::UBias, 0.1).unwrap();
    let mut card = rated();
    let before = card.clone();
    let beside = under(&card, &own);
    assert_eq!(card, before);
    let plan = Box::new(own);
    write(&mut card, "A", Body::Plan { plan });
    let (tree, result) = assessed(&card);
    assert_eq!((beside.tree, beside.result), (tree, result));
}
