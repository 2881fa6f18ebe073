//! What the Card shows beside the roll-up: how each figure was made, the worst, the gaps, the raters.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

mod common;

use common::{assessed, card, look, part, place, plan, rate, section};
use proptest::prelude::*;
use ringland_assess::{
    NodeKind, RollUp, Tree,
    explain::explain,
    gaps::{NotSeen, OpenPart, not_seen, open_parts},
    grades::grade_distribution,
    patterns::{map_rows, patterns},
    raters::{RaterLooks, rater_looks, rater_pairs},
    standouts::{clearest_trends, strays, widest},
    weights::{Drawing, dependence},
    worst::worst_leaves,
};
use ringland_card::{
    Card, Depth, Grade, Layout, Look, NotInspected,
    plan::{Axis, LeafId, Repeatability, builtin},
    scale::Method,
};

/// A short inline six with a grade on each characteristic that takes one.
fn rated(grades: &[usize]) -> Card {
    let mut card = card(builtin(&Layout::inline_six(), Depth::Short).unwrap());
    let places: Vec<(String, String)> = (0..card.index().leaves().len())
        .filter_map(|number| {
            let leaf = card.index().leaves()[number];
            let characteristic = leaf.characteristic(card.plan());
            let scale = card.plan().scale(&characteristic.scale)?;
            let at = leaf.at(card.plan());
            (scale.method() == Method::Grade)
                .then(|| (at.position.to_string(), at.characteristic.to_string()))
        })
        .collect();
    for (n, half_steps) in grades.iter().enumerate() {
        let (position, what) = &places[n % places.len()];
        let rater = if n % 3 == 0 { "two" } else { "one" };
        let grade = Grade::from_half_steps(*half_steps).unwrap();
        rate(&mut card, rater, position, what, Look::Grade(grade));
    }
    card
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

fn check_made(card: &Card, tree: &Tree, rolled: &RollUp) {
    let (_, result) = assessed(card);
    for (number, at) in rolled.nodes.iter().enumerate() {
        let made = explain(
            card.plan(),
            tree,
            &result.leaves,
            rolled,
            result.raters.len(),
            number,
        );
        let Some(mean) = at.mean else {
            assert!(near(made.sum, 0.0) && near(made.u_looks, 0.0));
            continue;
        };
        let u = made.u_looks.hypot(made.u_raters);
        assert!(near(u, at.u.unwrap()), "u of {}", tree.nodes()[number].path);
        if !matches!(tree.nodes()[number].kind, NodeKind::Leaf(_)) {
            assert!(near(made.sum / made.weight_rated, mean));
            let shares: f64 = made.terms.iter().filter_map(|term| term.share).sum();
            assert!(near(shares, 1.0));
        }
        let bit = made.caps.iter().find(|cap| cap.bit);
        assert_eq!(bit.map(|cap| cap.rule), at.cap.map(|bite| bite.rule));
        assert_eq!(
            bit.and_then(|cap| cap.set_off_by.first().copied()),
            at.cap.map(|bite| bite.set_off_by)
        );
    }
}

proptest! {
    /// Taking apart gives back what was put together, at every node, capped or not.
    #[test]
    fn what_is_taken_apart_adds_up_again(grades in prop::collection::vec(0..11usize, 1..120)) {
        let card = rated(&grades);
        let (tree, result) = assessed(&card);
        check_made(&card, &tree, &result.all);
    }

    #[test]
    fn the_first_of_the_worst_is_the_worst(grades in prop::collection::vec(0..11usize, 1..120)) {
        let (tree, result) = assessed(&rated(&grades));
        let worst = worst_leaves(&tree, &result.all, 8);
        prop_assert_eq!(worst.first().copied(), result.all.engine().worst);
        prop_assert!(worst.windows(2).all(|pair| pair[0].1 <= pair[1].1));
        prop_assert!(worst.len() <= 8);
    }
}

/// Slices of draws are the draws in one go.
#[test]
fn drawing_a_few_at_a_time_is_the_same() {
    let card = rated(&[3, 5, 7, 2, 9, 4]);
    let (tree, result) = assessed(&card);
    let (plan, index) = (card.plan(), card.index());
    let whole = dependence(plan, index, &tree, &result.leaves, &result.all, 1, 100);
    let mut drawing = Drawing::new(plan, index, 1);
    for draws in [30, 0, 69, 1] {
        drawing.go_on(&tree, &result.leaves, &result.all, draws);
    }
    assert_eq!(drawing.len(), 100);
    assert_eq!(drawing.spread(), whole);
}

#[test]
fn shares_of_all_leaves_come_to_the_whole() {
    for depth in [Depth::Short, Depth::Full] {
        let tree = Tree::of(&builtin(&Layout::vee_eight(), depth).unwrap());
        assert!(near(tree.leaf_shares().iter().sum(), 1.0));
    }
}

#[test]
fn of_equals_the_first_in_plan_order_is_worst() {
    let (tree, result) = assessed(&rated(&[4, 8, 8, 0]));
    let worst = worst_leaves(&tree, &result.all, 2);
    assert!(worst[0].0 < worst[1].0);
    assert!(near(worst[0].1, worst[1].1));
}

/// Two sections: `s` with two positions of two grades, `t` with one percentage.
fn small() -> Card {
    let grade = |id| look(id, "grade", 1.0, Repeatability::Score(0.6));
    card(plan(
        vec![
            section(
                "s",
                1.0,
                vec![part(
                    "a",
                    1.0,
                    vec![place(
                        "a",
                        1.0,
                        &["a1", "a2"],
                        vec![grade("wear"), grade("scoring")],
                    )],
                )],
            ),
            section(
                "t",
                1.0,
                vec![part(
                    "b",
                    1.0,
                    vec![place(
                        "b",
                        1.0,
                        &["b1"],
                        vec![look(
                            "polished",
                            "polished",
                            1.0,
                            Repeatability::Percent(3.0),
                        )],
                    )],
                )],
            ),
        ],
        vec![],
    ))
}

#[test]
fn grades_are_counted_by_section() {
    let mut card = small();
    rate(&mut card, "one", "a1", "wear", Look::Grade(Grade::Light));
    rate(
        &mut card,
        "two",
        "a1",
        "wear",
        Look::Grade(Grade::LightToMedium),
    );
    rate(&mut card, "one", "a2", "wear", Look::Grade(Grade::Light));
    rate(
        &mut card,
        "one",
        "a2",
        "scoring",
        Look::NotInspected(NotInspected::NoTime),
    );
    rate(&mut card, "one", "b1", "polished", Look::Percent(5.0));
    let counted = grade_distribution(&card.standing());
    assert_eq!(counted[0], [0, 0, 0, 0, 2, 1, 0, 0, 0, 0, 0]);
    assert_eq!(counted[1], [0; 11]);
}

#[test]
fn gaps_are_told_by_reason_and_by_part() {
    let mut card = small();
    rate(
        &mut card,
        "one",
        "a1",
        "wear",
        Look::NotInspected(NotInspected::Cleaned),
    );
    rate(
        &mut card,
        "two",
        "a1",
        "wear",
        Look::NotInspected(NotInspected::NoTime),
    );
    rate(
        &mut card,
        "one",
        "a2",
        "wear",
        Look::NotInspected(NotInspected::NoTime),
    );
    rate(&mut card, "two", "a2", "wear", Look::Grade(Grade::Trace));
    let (_, result) = assessed(&card);
    let expected = NotSeen {
        reason: NotInspected::NoTime,
        leaves: vec![LeafId(0)],
    };
    assert_eq!(not_seen(&card.standing(), &result.answers), [expected]);
    let part = |section, open, asked| OpenPart {
        section,
        part: 0,
        open,
        asked,
    };
    assert_eq!(
        open_parts(card.index(), &result.answers),
        [part(0, 2, 4), part(1, 1, 1)]
    );
}

/// By hand: light 7.5 against medium 5 and trace 9 against light 7.5: differences 2.5 and 1.5, mean 2,
/// standard deviation √0.5.
#[test]
fn two_raters_are_held_against_each_other() {
    let mut card = small();
    rate(&mut card, "one", "a1", "wear", Look::Grade(Grade::Light));
    rate(&mut card, "two", "a1", "wear", Look::Grade(Grade::Medium));
    rate(&mut card, "one", "a2", "wear", Look::Grade(Grade::Trace));
    rate(&mut card, "two", "a2", "wear", Look::Grade(Grade::Light));
    rate(
        &mut card,
        "two",
        "a2",
        "scoring",
        Look::NotInspected(NotInspected::OutOfReach),
    );
    let (_, result) = assessed(&card);
    let pairs = rater_pairs(&result);
    assert_eq!(
        (pairs.len(), pairs[0].a, pairs[0].b, pairs[0].both),
        (1, 0, 1, 2)
    );
    assert!(near(pairs[0].difference, 2.0));
    assert!(near(pairs[0].scatter.unwrap(), 0.5_f64.sqrt()));
    let looks = |name: &str, ratings, not_inspected| RaterLooks {
        name: name.to_owned(),
        ratings,
        measurements: 0,
        not_inspected,
    };
    assert_eq!(
        rater_looks(&card.standing()),
        [looks("one", 2, 0), looks("two", 2, 1)]
    );
}

/// A row of six with one stray, and a row that falls from front to rear.
#[test]
fn what_stands_out_comes_first() {
    let columns = ["1", "2", "3", "4", "5", "6"];
    let positions: Vec<String> = columns.iter().map(|c| format!("cyl{c}/x")).collect();
    let names: Vec<&str> = positions.iter().map(String::as_str).collect();
    let grade = |id| look(id, "grade", 1.0, Repeatability::Score(0.6));
    let mut row = place("x", 1.0, &names, vec![grade("wear"), grade("scoring")]);
    row.axis = Axis::Cylinder;
    for (position, column) in row.positions.iter_mut().zip(columns) {
        column.clone_into(&mut position.column);
    }
    let mut card = card(plan(
        vec![section("s", 1.0, vec![part("a", 1.0, vec![row])])],
        vec![],
    ));
    let mut grade = |position: usize, what: &str, half_steps: usize| {
        let grade = Grade::from_half_steps(half_steps).unwrap();
        rate(&mut card, "one", names[position], what, Look::Grade(grade));
    };
    for (position, half_steps) in [1, 2, 1, 10, 2, 1].into_iter().enumerate() {
        grade(position, "wear", half_steps);
    }
    for (position, half_steps) in [0, 1, 2, 3, 4, 5].into_iter().enumerate() {
        grade(position, "scoring", half_steps);
    }
    let (tree, result) = assessed(&card);
    let scores: Vec<Option<f64>> = result.leaves.iter().map(|leaf| leaf.score).collect();
    let (plan, index) = (card.plan(), card.index());
    let found = patterns(plan, index, &scores, &tree.leaf_shares());
    let rows = map_rows(plan, index);
    let stray = strays(&rows, &found);
    assert_eq!(stray.len(), 1);
    assert_eq!(stray[0].0, LeafId(6));
    assert_eq!(widest(&found, 1)[0].0, 0);
    let (trends, looked) = clearest_trends(&found, 1);
    assert_eq!((trends[0].0, looked), (1, 2));
    assert!(trends[0].1.per_position < 0.0);
}
