//! The demo engines: that the files are what the generator writes, and that they show what they are for.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{collections::BTreeSet, fs, path::PathBuf};

use ringland_assess::{Answer, Assessment, RollUp, Tree, assess};
use ringland_card::{Body, Card, Cause, Depth, Standing, file, layout::Layout};

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../demo-data")
}

fn text(slug: &str) -> String {
    fs::read_to_string(folder().join(format!("{slug}.card.json"))).unwrap()
}

fn open(slug: &str) -> Card {
    let opened = file::read(text(slug).as_bytes()).unwrap();
    assert!(opened.digest_matches, "{slug}");
    opened.card
}

fn assessed(card: &Card) -> Assessment {
    assess(&Standing::of(card), &Tree::of(card.plan()))
}

/// Plan, ratings asked for, whether it is finished.
const ENGINES: [(&str, Depth, usize, bool); 7] = [
    ("tarn-14", Depth::Full, 695, true),
    ("tarn-17", Depth::Full, 695, true),
    ("tarn-21", Depth::Full, 695, true),
    ("tarn-22", Depth::Full, 695, true),
    ("crag-05", Depth::Full, 873, true),
    ("fell-08", Depth::Short, 213, true),
    ("fell-03", Depth::Full, 647, false),
];

#[test]
fn the_files_are_what_the_generator_writes() {
    let mut expected = BTreeSet::new();
    for (slug, card) in suite::demo::cards().unwrap() {
        let same = file::write(&card) == text(slug);
        assert!(
            same,
            "{slug} is out of date: cargo run -p suite --bin make-demo"
        );
        expected.insert(format!("{slug}.card.json"));
    }
    let found: BTreeSet<String> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    assert_eq!(found, expected);
}

#[test]
fn each_opens_under_its_plan_and_covers_it() {
    for (slug, depth, leaves, finished) in ENGINES {
        let card = open(slug);
        assert_eq!(card.plan().depth, depth, "{slug}");
        assert_eq!(card.plan().rating_count(), leaves, "{slug}");
        let assessment = assessed(&card);
        let engine = assessment.all.engine();
        assert!(engine.score.is_some(), "{slug}");
        let by_eye = card.index().leaves().iter().zip(&assessment.answers);
        let open = { by_eye }.any(|(leaf, answer)| !leaf.gauged && *answer == Answer::Open);
        assert_eq!(open, !finished, "{slug}");
        let coverage = if finished { 0.95..1.0 } else { 0.3..0.7 };
        assert!(
            coverage.contains(&engine.coverage),
            "{slug}: {}",
            engine.coverage
        );
        assert!(assessment.answers.contains(&Answer::NotInspected), "{slug}");
        let standing = Standing::of(&card);
        assert_eq!(standing.facts.len(), 16, "{slug}");
        assert!(standing.outside.is_empty(), "{slug}");
        assert!(!standing.remarks.is_empty(), "{slug}");
        assert!(
            card.entries().any(|entry| entry.supersedes.is_some()),
            "{slug}"
        );
    }
}

#[test]
fn all_together_stay_small() {
    let bytes: usize = ENGINES.iter().map(|(slug, ..)| text(slug).len()).sum();
    assert!(bytes < 1_750_000, "{bytes}");
}

#[test]
fn one_is_a_v8() {
    assert_eq!(open("crag-05").plan().layout, Layout::vee_eight());
}

#[test]
fn one_was_rated_by_two_on_two_tablets() {
    let card = open("tarn-17");
    assert_eq!(assessed(&card).raters.len(), 2);
    let standing = Standing::of(&card);
    let twice = standing
        .looks
        .iter()
        .filter(|looks| looks.len() == 2)
        .count();
    let rated = card.plan().rating_count();
    assert!(
        twice * 10 > rated * 9 && twice < rated,
        "{twice} of {rated}"
    );
    let devices: Vec<_> = card.entries().map(|entry| entry.device).collect();
    assert_eq!(devices.iter().collect::<BTreeSet<_>>().len(), 2);
    let turns = devices.windows(2).filter(|pair| pair[0] != pair[1]).count();
    assert!(
        turns > 100,
        "the two tablets' counters do not interleave: {turns}"
    );
}

#[test]
fn one_has_damage_that_the_oil_does_not_answer_for() {
    let assessment = assessed(&open("tarn-22"));
    let causes: BTreeSet<_> = assessment.exclusions.iter().map(|e| e.cause).collect();
    assert!(
        [Cause::Dirt, Cause::Assembly, Cause::Coolant]
            .iter()
            .all(|cause| causes.contains(cause))
    );
    let (all, in_service) = (assessment.all.engine(), assessment.in_service.engine());
    assert!(all.score < in_service.score);
    assert!(all.coverage > in_service.coverage);
    let caps = |roll_up: &RollUp| {
        roll_up
            .nodes
            .iter()
            .filter(|node| node.cap.is_some())
            .count()
    };
    assert_eq!(caps(&assessment.all), 1, "a shell that grit has wiped");
    assert_eq!(caps(&assessment.in_service), 0);
}

#[test]
fn one_is_held_down_by_a_pitted_lobe() {
    let card = open("tarn-21");
    let assessment = assessed(&card);
    let bite = assessment
        .all
        .nodes
        .iter()
        .find_map(|node| node.cap)
        .unwrap();
    assert_eq!(card.plan().caps[bite.rule].id.as_str(), "lobe_pitted");
    let at = card.index().leaves()[bite.set_off_by.0].at(card.plan());
    assert_eq!(at.to_string(), "cyl4/lobe/injector/pitted");
}

#[test]
fn slips_stand_voided_with_their_reason() {
    let voids = ENGINES
        .iter()
        .flat_map(|(slug, ..)| open(slug).entries().cloned().collect::<Vec<_>>())
        .filter(|entry| matches!(&entry.body, Body::Void { reason, .. } if !reason.is_empty()));
    assert_eq!(voids.count(), 2);
}
