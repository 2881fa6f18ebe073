//! Laws that hold for every plan and every card, on random ones.

#![allow(clippy::unwrap_used, reason = "what builds a case stops the test")]

mod common;

use common::{assessed, card, look, part, place, plan, rate, section, write};
use proptest::prelude::*;
use ringland_assess::{NodeKind, Tree, assess, weights::dependence};
use ringland_card::{
    About, Body, CapId, Card, Cause, CharacteristicId, Grade, Look, Plan, PositionId,
    plan::{CapRule, Repeatability, Trigger},
};

const POSITIONS: [&str; 4] = ["p1", "p2", "p3", "p4"];

/// Two sections of two parts each, all grades, with weights as given.
fn grades(weights: &[f64; 10]) -> Plan {
    let looks = |a: f64, b: f64| {
        vec![
            look("wear", "grade", a, Repeatability::Score(0.6)),
            look("scoring", "grade", b, Repeatability::Score(0.6)),
        ]
    };
    let parts = |names: [&'static str; 2], positions: [&[&str]; 2], w: &[f64]| {
        names
            .iter()
            .zip(positions)
            .enumerate()
            .map(|(n, (name, positions))| {
                part(
                    name,
                    w[n],
                    vec![place(name, 1.0, positions, looks(w[2], w[3]))],
                )
            })
            .collect()
    };
    let mut plan = plan(
        vec![
            section(
                "s1",
                weights[0],
                parts(["a", "b"], [&POSITIONS[..2], &["p5"]], &weights[2..6]),
            ),
            section(
                "s2",
                weights[1],
                parts(["c", "d"], [&POSITIONS[2..], &["p6"]], &weights[6..]),
            ),
        ],
        vec![],
    );
    plan.caps.push(CapRule {
        id: CapId::new("worn").unwrap(),
        label: None,
        node: "s1".to_owned(),
        cap: 4.0,
        within: "s1/a".to_owned(),
        characteristic: CharacteristicId::new("wear").unwrap(),
        when: Trigger::GradeAtLeast(Grade::Heavy),
    });
    plan
}

fn weights() -> impl Strategy<Value = [f64; 10]> {
    prop::array::uniform10(0.1..5.0)
}

/// Looks at some of the twelve leaves: place, rater, half steps.
fn looks() -> impl Strategy<Value = Vec<(usize, bool, usize)>> {
    prop::collection::vec((0..12usize, any::<bool>(), 0..11usize), 0..20)
}

fn position(leaf: usize) -> (&'static str, &'static str) {
    let position = ["p1", "p2", "p3", "p4", "p5", "p6"][leaf / 2];
    (position, ["wear", "scoring"][leaf % 2])
}

fn rated(plan: Plan, looks: &[(usize, bool, usize)]) -> Card {
    let mut card = card(plan);
    for (leaf, second, half_steps) in looks {
        let (position, what) = position(*leaf);
        let rater = if *second { "two" } else { "one" };
        rate(
            &mut card,
            rater,
            position,
            what,
            Look::Grade(Grade::from_half_steps(*half_steps).unwrap()),
        );
    }
    card
}

proptest! {
    #[test]
    fn bounds_contain_the_score_and_coverage_one_closes_them(w in weights(), seen in looks()) {
        let (tree, result) = assessed(&rated(grades(&w), &seen));
        for rolled in [&result.all, &result.in_service] {
            for (node, score) in tree.nodes().iter().zip(&rolled.nodes) {
                prop_assert!(score.low <= score.high + 1e-12);
                prop_assert!((0.0..=1.0 + 1e-12).contains(&score.coverage));
                if let Some(s) = score.score {
                    prop_assert!(score.low <= s + 1e-12 && s <= score.high + 1e-12, "{}", node.path);
                    prop_assert!(score.u.is_some_and(|u| u > 0.0));
                    if score.coverage > 1.0 - 1e-12 {
                        prop_assert!((score.high - score.low).abs() < 1e-9, "{}", node.path);
                    }
                } else {
                    prop_assert!(score.coverage.abs() < 1e-12);
                }
            }
        }
    }

    #[test]
    fn a_better_grade_never_lowers_the_score(w in weights(), seen in looks(), which in 0..20usize) {
        prop_assume!(!seen.is_empty());
        let which = which % seen.len();
        let mut better = seen.clone();
        better[which].2 = better[which].2.saturating_sub(1);
        let score = |looks: &[_]| assessed(&rated(grades(&w), looks)).1.all.engine().score.unwrap();
        prop_assert!(score(&better) >= score(&seen) - 1e-12);
    }

    #[test]
    fn a_cap_never_raises_the_score(w in weights(), seen in looks()) {
        let with = grades(&w);
        let mut without = with.clone();
        without.caps.clear();
        let (capped, free) = (assessed(&rated(with, &seen)).1, assessed(&rated(without, &seen)).1);
        for (capped, free) in capped.all.nodes.iter().zip(&free.all.nodes) {
            prop_assert!(capped.score.unwrap_or(0.0) <= free.score.unwrap_or(0.0) + 1e-12);
            prop_assert_eq!(capped.u, free.u);
        }
    }

    #[test]
    fn weights_scaled_by_a_constant_change_nothing(w in weights(), seen in looks(), by in 0.1..50.0f64) {
        let scaled = w.map(|weight| weight * by);
        let (one, other) =
            (assessed(&rated(grades(&w), &seen)).1, assessed(&rated(grades(&scaled), &seen)).1);
        for (one, other) in one.all.nodes.iter().zip(&other.all.nodes) {
            let pairs = [
                (one.score.unwrap_or(0.0), other.score.unwrap_or(0.0)),
                (one.u.unwrap_or(0.0), other.u.unwrap_or(0.0)),
                (one.coverage, other.coverage),
                (one.low, other.low),
                (one.high, other.high),
            ];
            for (a, b) in pairs {
                prop_assert!((a - b).abs() < 1e-9);
            }
        }
    }

    /// The entries of a card told in any order, and in any grouping into files, give one assessment.
    #[test]
    fn order_and_grouping_of_entries_never_matter(
        w in weights(), seen in looks(), split in prop::collection::vec(any::<bool>(), 20),
    ) {
        let whole = rated(grades(&w), &seen);
        let empty = card(grades(&w));
        let (mut left, mut right) = (empty.clone(), empty);
        for (entry, to_left) in whole.entries().zip(&split) {
            let side = if *to_left { &mut left } else { &mut right };
            side.append(entry.clone()).unwrap();
        }
        for merged in [left.merge(&right).unwrap(), right.merge(&left).unwrap()] {
            prop_assert_eq!(assessed(&merged).1, assessed(&whole).1);
        }
    }

    /// Leaving positions out costs coverage and widens the bounds: it cannot hide anything.
    #[test]
    fn an_exclusion_is_listed_and_costs_coverage(w in weights(), seen in looks(), out in 0..6usize) {
        let mut card = rated(grades(&w), &seen);
        let about = About { position: PositionId::new(position(out * 2).0).unwrap(), characteristic: None };
        write(&mut card, "one", Body::Cause { about, cause: Cause::Dirt });
        let (_, result) = assessed(&card);
        let (all, service) = (result.all.engine(), result.in_service.engine());
        prop_assert!(service.coverage <= all.coverage + 1e-12);
        let excluded: Vec<usize> = result.exclusions.iter().map(|exclusion| exclusion.leaf.0).collect();
        let rated_there: Vec<usize> =
            (0..12).filter(|leaf| leaf / 2 == leaf_of(out) / 2 && result.leaves[*leaf].score.is_some()).collect();
        prop_assert_eq!(excluded, rated_there);
    }

    #[test]
    fn the_same_seed_gives_the_same_draws_within_the_scale(w in weights(), seen in looks(), seed in any::<u64>()) {
        let card = rated(grades(&w), &seen);
        let (tree, result) = assessed(&card);
        let draw = || dependence(card.plan(), card.index(), &tree, &result.leaves, &result.all, seed, 40);
        prop_assert_eq!(draw(), draw());
        match (draw(), result.all.engine().score) {
            (Some(drawn), Some(_)) => {
                prop_assert_eq!(drawn.draws.len(), 40);
                prop_assert!(drawn.draws.iter().all(|s| (0.0..=10.0).contains(s)));
                prop_assert!(drawn.low <= drawn.high);
            }
            (drawn, score) => prop_assert!(drawn.is_none() && score.is_none()),
        }
    }
}

/// The plan lays p1, p2, p5 before p3, p4, p6.
fn leaf_of(position: usize) -> usize {
    2 * [0, 1, 3, 4, 2, 5][position]
}

/// A cap holds the section down, names the position that set it off, and leaves the mean to be seen.
#[test]
fn a_cap_shows_what_set_it_off() {
    let plan = grades(&[1.0; 10]);
    let mut card = card(plan);
    rate(&mut card, "one", "p1", "wear", Look::Grade(Grade::None));
    rate(&mut card, "one", "p2", "wear", Look::Grade(Grade::Heavy));
    let (tree, result) = assessed(&card);
    let section = &result.all.nodes[tree.find("s1").unwrap()];
    assert_eq!(section.score, Some(4.0));
    assert_eq!(section.mean, Some(6.25));
    let bite = section.cap.unwrap();
    assert_eq!(
        tree.nodes()[tree.node_of(bite.set_off_by)].path,
        "s1/a/p2/wear"
    );
    assert!(matches!(
        tree.nodes()[tree.node_of(bite.set_off_by)].kind,
        NodeKind::Leaf(_)
    ));
}

/// With nothing rated there is no score, not 0 and not 10.
#[test]
fn nothing_rated_is_no_score() {
    let card = card(grades(&[1.0; 10]));
    let (_, result) = assessed(&card);
    let engine = result.all.engine();
    assert_eq!((engine.score, engine.u, engine.worst), (None, None, None));
    assert_eq!((engine.coverage, engine.low, engine.high), (0.0, 0.0, 10.0));
}

/// Two looks by one rater at two places share their bias; two raters' do not (JCGM 100:2008, 5.2.2).
#[test]
fn a_raters_bias_does_not_average_away() {
    let u_of = |second: &str| {
        let mut plan = grades(&[1.0; 10]);
        plan.u_bias = 0.3;
        let mut card = card(plan);
        rate(&mut card, "one", "p1", "wear", Look::Grade(Grade::Light));
        rate(&mut card, second, "p2", "wear", Look::Grade(Grade::Light));
        let tree = Tree::of(card.plan());
        let result = assess(&card.standing(), &tree);
        result.all.nodes[tree.find("s1/a").unwrap()].u.unwrap()
    };
    // By hand: both looks have coefficient 1/2. u² = 2·(0.6/2)² + (1·0.3)² = 0.27; with two raters
    // u² = 2·(0.6/2)² + 2·(0.3/2)² = 0.225.
    assert!((u_of("one") - 0.27f64.sqrt()).abs() < 1e-12);
    assert!((u_of("two") - 0.225f64.sqrt()).abs() < 1e-12);
}
