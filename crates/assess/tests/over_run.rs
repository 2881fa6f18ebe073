//! Wear against distance, engine beside engine: by hand.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on fails")]

mod common;

use common::{
    bores::{bore, bores, run, sizes},
    write,
};
use ringland_assess::gauging::{
    Confidence, Intercept,
    forecast::{Question, Unit, against_others},
    over_run::{KindId, StandsFor, StripDown, units},
};
use ringland_card::{Body, Card, CharacteristicId, Fact, PlaceId};

fn kind() -> KindId {
    KindId {
        place: PlaceId::new("liner").unwrap(),
        look: CharacteristicId::new("bore").unwrap(),
    }
}

fn told(card: &mut Card, fact: Fact) {
    write(card, "A", Body::Fact { fact });
}

/// Two bores worn by 0.040 and 0.060 mm, of 0.130 mm allowed: new 130.010 in the middle, at most 130.140.
fn stripped(name: &str, serial: &str, km: f64) -> StripDown {
    let mut card = bores(&["1", "2", "3"]);
    sizes(&mut card, "130.140");
    for fact in [
        Fact::Name(name.to_owned()),
        Fact::Model("Inline".to_owned()),
        Fact::Serial(serial.to_owned()),
    ] {
        told(&mut card, fact);
    }
    if km > 0.0 {
        run(&mut card, km);
    }
    bore(&mut card, "1", [50, 30, 30, 30], None);
    bore(&mut card, "3", [70, 30, 30, 30], None);
    StripDown::of(&card.standing())
}

#[test]
fn an_engine_counts_once_by_its_most_worn_position_or_by_the_mean() {
    let strip = stripped("Tarn", "", 500.0);
    let [worn] = &strip.kinds[..] else {
        panic!("{strip:?}");
    };
    assert_eq!((worn.positions, &worn.kind), (2, &kind()));
    let allowance = worn.allowance.unwrap();
    for (is, um) in [(worn.most, 60.0), (worn.mean, 50.0), (allowance, 130.0)] {
        assert!((is * 1e6 - um).abs() < 1e-6, "{is} is not {um} µm");
    }
    for (stands_for, um) in [(StandsFor::Most, 60.0), (StandsFor::Mean, 50.0)] {
        let found = units(&[&strip], &kind(), stands_for);
        assert_eq!((found.len(), found[0].name.as_str()), (1, "Tarn"));
        assert_eq!(found[0].distance, [500_000.0]);
        assert!((found[0].wear[0] * 1e6 - um).abs() < 1e-6);
    }
}

#[test]
fn one_engine_stripped_twice_is_one_and_what_is_not_known_is_left_out() {
    let first = stripped("Tarn", "S1", 500.0);
    let again = stripped("Tarn, again", "S1", 800.0);
    let other = stripped("Fell", "S2", 600.0);
    let nameless = [stripped("", "", 400.0), stripped("", "", 450.0)];
    let no_distance = stripped("Gill", "S3", 0.0);
    let elsewhere = StripDown {
        model: "Vee".to_owned(),
        ..stripped("Beck", "S1", 700.0)
    };
    let all = [
        &first,
        &other,
        &again,
        &nameless[0],
        &nameless[1],
        &no_distance,
        &elsewhere,
    ];
    let found = units(&all, &kind(), StandsFor::Most);
    let runs: Vec<&[f64]> = found.iter().map(|unit| &unit.distance[..]).collect();
    let expected: [&[f64]; 5] = [
        &[500_000.0, 800_000.0],
        &[600_000.0],
        &[400_000.0],
        &[450_000.0],
        &[700_000.0],
    ];
    assert_eq!(runs, expected);
    assert!(first.same_model(&again) && !first.same_model(&elsewhere));
    let other_kind = KindId {
        look: CharacteristicId::new("polished").unwrap(),
        ..kind()
    };
    assert!(units(&all, &other_kind, StandsFor::Most).is_empty());
}

/// The others lie on wear = distance/10 but for a scatter of 1; a reading far above is told apart, one on the
/// line is not, and its own reading has no say in what is expected of it.
#[test]
fn an_engine_is_held_against_what_the_others_foretell() {
    let engine = |x: f64, y: f64| Unit {
        name: String::new(),
        distance: vec![x],
        wear: vec![y],
    };
    let question = Question {
        intercept: Intercept::Zero,
        confidence: Confidence::P95,
        limit: None,
    };
    let others = [
        engine(400.0, 41.0),
        engine(500.0, 49.0),
        engine(600.0, 61.0),
        engine(700.0, 69.0),
    ];
    for (wear, agrees) in [(55.0, true), (90.0, false), (20.0, false)] {
        let mut all = vec![engine(550.0, wear)];
        all.extend(others.clone());
        let last = against_others(&all, 0, &question).unwrap().unwrap();
        assert_eq!(last.agrees(), agrees, "{last:?}");
        assert!((last.expected - 55.0).abs() < 0.5, "{last:?}");
        assert!((last.distance - 550.0).abs() < 1e-9 && (last.wear - wear).abs() < 1e-9);
    }
    let alone = [engine(550.0, 55.0)];
    assert!(against_others(&alone, 0, &question).unwrap().is_none());
    assert!(against_others(&alone, 1, &question).is_err());
}
