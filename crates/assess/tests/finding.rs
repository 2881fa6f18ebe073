//! From readings on a card to what they say: what must hold for any of them, and cases worked by hand.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on fails")]

mod common;

use common::{
    at,
    bores::{bore, bores, gauge, read, reading, run, sizes},
    card, rate, write,
};
use proptest::prelude::*;
use ringland_assess::{
    Tree, assess,
    gauging::{
        Remaining, Verdict,
        finding::{Finding, NewFrom, Note, counts, finding},
        outlook::Outlook,
    },
};
use ringland_card::{
    Body, Card, Grade, Look,
    gauging::{Reading, Unit},
};

const TOLERANCE: f64 = 1e-9;

fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within * b.abs().max(1.0), "{a} is not {b}");
}

fn found(card: &Card, position: &str) -> Finding {
    let leaf = card
        .index()
        .find(card.plan(), &at(position, "bore"))
        .unwrap();
    finding(&card.standing(), leaf).unwrap()
}

/// What the sizes of a finding come to, to compare two of them.
fn told(finding: &Finding) -> Vec<f64> {
    let figures = [
        Some(&finding.size),
        finding.wear.as_ref(),
        finding.share.as_ref(),
        finding.out_of_round.as_ref().map(|shape| &shape.figure),
        finding.taper.as_ref().map(|shape| &shape.figure),
    ];
    let figures = figures.into_iter().flatten();
    figures
        .flat_map(|figure| [figure.si, figure.budget.u])
        .collect()
}

/// A bore in hundredths by hand: out of round is the larger less the smaller at a height, taper the top less
/// the bottom on an axis. Common practice, no source.
#[test]
fn a_bore_by_hand() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.110");
    let named = gauge(&mut card, Unit::Mm, "0.001", "0.004");
    bore(&mut card, "1", [60, 40, 30, 25], Some(named));
    let found = found(&card, "1");
    close(found.size.si, 0.130_060, TOLERANCE);
    close(
        found.out_of_round.as_ref().unwrap().figure.si * 1e6,
        20.0,
        1e-6,
    );
    close(found.taper.as_ref().unwrap().figure.si * 1e6, 30.0, 1e-6);
    // From the middle of the new range, 130.010: 50 of 100 µm are gone.
    close(found.wear.as_ref().unwrap().si * 1e6, 50.0, 1e-6);
    close(found.share.as_ref().unwrap().si, 0.5, 1e-9);
    // u² = (1/2/√3)² + (4/2)² µm² of the reading, with (20/2/√3)² of the new size in the wear.
    let reading = 1.0 / 12.0 + 4.0;
    close(found.size.budget.u * 1e6, f64::sqrt(reading), 1e-9);
    let wear = found.wear.unwrap().budget.u * 1e6;
    close(wear, (reading + 400.0 / 12.0_f64).sqrt(), 1e-9);
}

/// Repeats that are all the same have no scatter, not one of a double's rounding, from which the degrees of
/// freedom would be read.
#[test]
fn equal_repeats_have_no_scatter() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.110");
    let named = gauge(&mut card, Unit::Mm, "0.001", "0.004");
    for typed in [
        "130.071",
        "130.071 130.071 130.071",
        "130.07 130.07 130.07 130.07 130.07 130.07",
    ] {
        let again = Reading {
            gauge: Some(named),
            ..reading("1", ["top", "thrust"], typed, Unit::Mm)
        };
        read(&mut card, again);
        let u = found(&card, "1").size.standard();
        close(u.u * 1e6, f64::sqrt(1.0 / 12.0 + 4.0), 1e-9);
        assert!(u.dof.get().is_infinite(), "{typed}: {u:?}");
    }
}

/// A part that measured past its limit before it ran has no allowance: no share, and no score made of one.
#[test]
fn a_part_that_went_in_past_its_limit_has_no_share() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.100");
    run(&mut card, 500_000.0);
    for (as_new, typed) in [(true, "130.130"), (false, "130.150")] {
        read(
            &mut card,
            Reading {
                as_new,
                ..reading("1", ["top", "thrust"], typed, Unit::Mm)
            },
        );
    }
    let found = found(&card, "1");
    assert!(found.share.is_none());
    assert_eq!(found.verdict(), Some(Verdict::Beyond));
    close(found.wear.unwrap().si * 1e6, 20.0, 1e-6);
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let leaf = card.index().find(card.plan(), &at("1", "bore")).unwrap();
    assert_eq!(result.leaves[leaf.0].score, None);
}

/// Read new on one spot and worn on four, the furthest spot may be one that nobody read new: the sheet's range
/// counts then, and it is said. Read new on all four it is the new size.
#[test]
fn a_part_read_new_on_less_of_its_grid_than_worn_has_no_size_as_new() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.110");
    let before = |card: &mut Card, spot: [&str; 2], typed: &str| {
        let new = Reading {
            as_new: true,
            ..reading("1", spot, typed, Unit::Mm)
        };
        read(card, new);
    };
    before(&mut card, ["top", "thrust"], "130.001");
    bore(&mut card, "1", [60, 40, 30, 25], None);
    let notes = |card: &Card| {
        let notes = found(card, "1").notes;
        let lacking = notes.into_iter().filter_map(|note| match note {
            Note::NewUnread { spots } => Some(spots),
            _ => None,
        });
        lacking.collect::<Vec<_>>()
    };
    let new = found(&card, "1").new.unwrap();
    assert!(matches!(new.from, NewFrom::Range { .. }));
    assert_eq!(notes(&card), [3]);
    // A height beyond the grid is none that could have been read new.
    let further = reading("1", ["extra_1", "thrust"], "130.065", Unit::Mm);
    read(&mut card, further);
    assert_eq!(notes(&card), [3]);
    for (spot, typed) in [
        (["top", "pin"], "130.002"),
        (["bottom", "thrust"], "130.004"),
        (["bottom", "pin"], "130.003"),
    ] {
        before(&mut card, spot, typed);
    }
    let new = found(&card, "1").new.unwrap();
    assert_eq!(new.from, NewFrom::Measured);
    close(new.si, 0.130_004, TOLERANCE);
    assert!(notes(&card).is_empty());
}

/// Without the new range of a sheet, the part counts in the score once it is read new on what was read worn.
#[test]
fn a_part_counts_in_the_score_once_it_was_read_new_as_far_as_worn() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.110");
    let mut sheet = card.standing().size_sheet().cloned().unwrap();
    (sheet.sizes[0].new_low, sheet.sizes[0].new_high) = (None, None);
    let body = Body::Sizes {
        sheet: Box::new(sheet),
    };
    write(&mut card, "A", body);
    let leaf = card.index().find(card.plan(), &at("1", "bore")).unwrap();
    assert!(!counts(&card.standing(), leaf));
    let steps = [
        (true, "thrust", true),
        (false, "thrust", true),
        (false, "pin", false),
        (true, "pin", true),
    ];
    for (as_new, axis, takes_part) in steps {
        let one = Reading {
            as_new,
            ..reading("1", ["top", axis], "130.01", Unit::Mm)
        };
        read(&mut card, one);
        assert_eq!(
            counts(&card.standing(), leaf),
            takes_part,
            "{as_new} {axis}"
        );
    }
}

/// Where what is left once a size is left out has no weight, the node counts for nothing; nothing is divided by 0.
#[test]
fn no_weight_left_is_left_out_and_not_a_number_nowhere() {
    let mut one = bores(&["1"]).plan().clone();
    one.sections[0].parts[0].places[0].looks[0].weight = 0.0;
    one.check().unwrap();
    let mut card = card(one);
    rate(&mut card, "A", "1", "polished", Look::Grade(Grade::Heavy));
    let result = assess(&card.standing(), &Tree::of(card.plan()));
    for node in &result.all.nodes {
        for figure in [node.coverage, node.low, node.high] {
            assert!(figure.is_finite(), "{node:?}");
        }
    }
}

/// The engine is past a limit in every draw in which any part is: parts that each may be make it more likely.
#[test]
fn the_engine_is_beyond_where_any_part_is() {
    let positions = ["1", "2", "3", "4"];
    let mut card = bores(&positions);
    sizes(&mut card, "130.100");
    run(&mut card, 500_000.0);
    let named = gauge(&mut card, Unit::Mm, "0.001", "0.010");
    for position in positions {
        bore(&mut card, position, [101, 20, 20, 20], Some(named));
    }
    let standing = card.standing();
    let outlook = Outlook::of(&ringland_assess::gauging::finding::findings(&standing)).unwrap();
    let first = outlook.first_limit().unwrap();
    let Remaining::AlreadyBeyond { probability: one } = first.positions[0] else {
        panic!("{first:?}");
    };
    let Remaining::AlreadyBeyond { probability } = first.engine else {
        panic!("{first:?}");
    };
    // Φ(1/5.01), and one less what none of four is.
    close(one, 0.579, 2e-3);
    close(probability, 1.0 - libm::pow(1.0 - 0.579, 4.0), 5e-3);
}

#[test]
fn a_sheet_without_limits_leaves_every_score_as_it_was() {
    let scored = |read: bool| {
        let mut card = bores(&["1", "2"]);
        rate(&mut card, "A", "1", "polished", Look::Grade(Grade::Light));
        sizes(&mut card, "");
        if read {
            bore(&mut card, "1", [300, 20, 20, 20], None);
        }
        let result = assess(&card.standing(), &Tree::of(card.plan()));
        let engine = *result.all.engine();
        [
            engine.score.unwrap(),
            engine.coverage,
            engine.low,
            engine.high,
            engine.u.unwrap(),
        ]
        .map(f64::to_bits)
    };
    assert_eq!(scored(true), scored(false));
}

#[test]
fn a_reading_taken_out_counts_no_more_and_the_last_sheet_holds() {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.110");
    read(
        &mut card,
        reading("1", ["top", "thrust"], "130.060", Unit::Mm),
    );
    let wrong = read(
        &mut card,
        reading("1", ["bottom", "pin"], "130.090", Unit::Mm),
    );
    close(found(&card, "1").size.si, 0.130_090, TOLERANCE);
    write(
        &mut card,
        "A",
        Body::Void {
            entry: wrong,
            reason: "slip".to_owned(),
        },
    );
    close(found(&card, "1").size.si, 0.130_060, TOLERANCE);
    sizes(&mut card, "130.210");
    close(found(&card, "1").share.unwrap().si, 0.25, 1e-9);
    // Merged with itself nothing changes.
    let before = found(&card, "1");
    let same = card.clone();
    card.merge(&same).unwrap();
    assert_eq!(found(&card, "1"), before);
}

/// What is left of an engine with one bore.
fn left(over: [i64; 4], expanded: &str) -> (Finding, Remaining) {
    let mut card = bores(&["1"]);
    sizes(&mut card, "130.400");
    run(&mut card, 500_000.0);
    let named = gauge(&mut card, Unit::Mm, "0.001", expanded);
    bore(&mut card, "1", over, Some(named));
    let found = found(&card, "1");
    let outlook = Outlook::of(&[Some(found.clone())]).unwrap();
    let mut race = outlook.race(4_000).unwrap();
    race.go_on(1).unwrap();
    (found, race.finish().unwrap().positions[0])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn one_size_in_any_unit_is_one_size(um in 130_000..130_400_i64) {
        let by = |unit: Unit, typed: &str| {
            let mut card = bores(&["1"]);
            sizes(&mut card, "130.500");
            let named = gauge(&mut card, Unit::Mm, "0.001", "0.004");
            read(&mut card, Reading { gauge: Some(named), ..reading("1", ["top", "thrust"], typed, unit) });
            told(&found(&card, "1"))
        };
        let millimetres = format!("{}.{:03}", um / 1000, um % 1000);
        let inches = format!("{:.12}", um as f64 / 25_400.0);
        let first = by(Unit::Mm, &millimetres);
        for (unit, typed) in [(Unit::Um, um.to_string()), (Unit::In, inches)] {
            for (a, b) in by(unit, &typed).iter().zip(&first) {
                prop_assert!((a - b).abs() <= 1e-9 * b.abs().max(0.1), "{a} is not {b}");
            }
        }
    }

    #[test]
    fn swapping_the_axes_leaves_size_shape_and_wear_alone(over in prop::array::uniform4(0..300_i64)) {
        let by = |over: [i64; 4]| {
            let mut card = bores(&["1"]);
            sizes(&mut card, "130.400");
            bore(&mut card, "1", over, None);
            told(&found(&card, "1"))
        };
        let [a, b, c, d] = over;
        for (one, other) in by(over).iter().zip(by([b, a, d, c])) {
            prop_assert!((one - other).abs() <= 1e-15, "{one} is not {other}");
        }
    }

    #[test]
    fn a_wider_uncertainty_never_makes_a_verdict_surer(
        over in prop::array::uniform4(300..500_i64),
        narrow in 1..60_u32,
        wider in 1..60_u32,
    ) {
        let verdict = |expanded: u32| {
            let (found, _) = left(over, &format!("0.{expanded:03}"));
            found.held[0].conformity.verdict
        };
        if verdict(narrow) == Verdict::CannotSay {
            prop_assert_eq!(verdict(narrow + wider), Verdict::CannotSay);
        }
    }

    #[test]
    fn more_wear_never_leaves_more(over in prop::array::uniform4(40..300_i64), more in 1..90_i64) {
        let (_, before) = left(over, "0.004");
        let (_, after) = left(over.map(|um| um + more), "0.004");
        prop_assert!(after.at_least() <= before.at_least() * 1.0001, "{before:?} {after:?}");
        if let (Remaining::Between { estimate: a, high: b, .. }, Remaining::Between { estimate: c, high: d, .. }) = (before, after) {
            prop_assert!(c <= a && d <= b * 1.0001, "{before:?} {after:?}");
        }
    }
}
