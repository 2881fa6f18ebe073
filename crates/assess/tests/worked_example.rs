//! The example worked by hand in the design, to agree on the meaning: every figure to six decimals.

#![allow(
    clippy::unwrap_used,
    clippy::too_many_lines,
    reason = "one example, worked from top to bottom; what is missing stops the test"
)]

mod common;

use common::{assessed, card, look, part, place, plan, rate, section, write};
use ringland_assess::{RollUp, Tree};
use ringland_card::{
    Areas, Body, Grade, LevelId, Look, Scale,
    plan::Repeatability,
    scale::{Breakpoint, DepositLevel},
};

fn close(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() < 5e-7,
        "found {found}, expected {expected}"
    );
}

fn score(rolled: &RollUp, tree: &Tree, path: &str) -> f64 {
    rolled.nodes[tree.find(path).unwrap()].score.unwrap()
}

#[test]
fn the_example_worked_by_hand() {
    let grade = Scale::Grade {
        scores: [10.0, 9.0, 7.5, 5.0, 2.5, 0.0],
    };
    let level = |id: &str, factor| DepositLevel {
        id: LevelId::new(id).unwrap(),
        label: None,
        factor,
    };
    // Level factors from memory: heavy, medium, light carbon; black and amber lacquer.
    let deposit = Scale::Area {
        levels: vec![
            level("heavy", 1.0),
            level("medium", 0.5),
            level("light", 0.25),
            level("black", 0.1),
            level("amber", 0.05),
        ],
    };
    let tenths = Scale::Extent {
        points: vec![
            Breakpoint { x: 0.0, score: 0.0 },
            Breakpoint {
                x: 100.0,
                score: 10.0,
            },
        ],
    };
    let size = Scale::Measured {
        as_new: 0.0,
        limit: 0.001,
    };
    let u = Repeatability::Score;
    let mut plan = plan(
        vec![
            section(
                "a",
                2.0,
                vec![part(
                    "a",
                    1.0,
                    vec![place(
                        "a",
                        1.0,
                        &["a1", "a2", "a3"],
                        vec![
                            look("grade", "g", 2.0, u(0.5)),
                            look("area", "d", 1.0, u(0.4)),
                        ],
                    )],
                )],
            ),
            section(
                "b",
                1.0,
                vec![part(
                    "b",
                    1.0,
                    vec![
                        place("b1", 1.0, &["b1"], vec![look("x", "tenths", 1.0, u(0.3))]),
                        place("b2", 1.0, &["b2"], vec![look("x", "size", 1.0, u(0.2))]),
                    ],
                )],
            ),
        ],
        vec![
            ("g", grade),
            ("d", deposit),
            ("tenths", tenths),
            ("size", size),
        ],
    );
    plan.u_bias = 0.25;
    let mut card = card(plan);
    let shares = [
        ("heavy", 20.0),
        ("medium", 15.0),
        ("light", 25.0),
        ("black", 10.0),
        ("amber", 20.0),
    ];
    let areas = Areas {
        shares: shares
            .into_iter()
            .map(|(id, a)| (LevelId::new(id).unwrap(), a))
            .collect(),
        painted: Vec::new(),
        read_off: None,
    };
    rate(&mut card, "one", "a1", "grade", Look::Grade(Grade::Trace));
    rate(&mut card, "one", "a1", "area", Look::Areas(areas));
    rate(
        &mut card,
        "one",
        "a2",
        "grade",
        Look::Grade(Grade::LightToMedium),
    );
    rate(&mut card, "two", "b1", "x", Look::Percent(80.0));
    // c = 0.3 of an allowance of a millimetre.
    write(
        &mut card,
        "two",
        Body::Measurement {
            at: common::at("b2", "x"),
            value: 0.0003,
        },
    );

    let (tree, result) = assessed(&card);
    close(result.leaves[1].looks[0].scored.demerit.unwrap(), 35.75);
    close(score(&result.all, &tree, "a/a/a1"), 8.141_667);
    close(score(&result.all, &tree, "a"), 7.195_833);
    close(score(&result.all, &tree, "b"), 7.5);
    let engine = result.all.engine();
    close(engine.score.unwrap(), 7.297_222);
    close(engine.coverage, 0.703_704);
    close(engine.low, 5.235_185);
    close(engine.high, 8.198_148);
    close(engine.u.unwrap(), 0.274_270);
}
