//! The demo engines: that the files are what the generator writes, and that they show what they are for.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{collections::BTreeSet, fs, path::PathBuf};

use ringland_assess::{
    Answer, Assessment, RollUp, Tree, assess,
    gauging::{
        Remaining, Verdict,
        finding::{CONFIDENCE, Finding, NewFrom, Note, findings},
        outlook::Outlook,
        remaining::remaining,
        second_look::{SecondLook, second_looks},
    },
};
use ringland_card::{
    Body, Card, Cause, Depth, LeafId, Standing,
    entry::{Entry, FactField},
    file,
    gauging::{Quantity, Reading, Unit, Wears},
    layout::Layout,
    scale::Scale,
};

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
    assert!(bytes < 2_700_000, "{bytes}");
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

fn readings(card: &Card) -> impl Iterator<Item = (&Entry, &Reading)> {
    card.entries().filter_map(|entry| match &entry.body {
        Body::Reading { reading } => Some((entry, &**reading)),
        _ => None,
    })
}

fn name(card: &Card, leaf: LeafId) -> String {
    card.index().leaves()[leaf.0].at(card.plan()).to_string()
}

fn found(card: &Card) -> Vec<Finding> {
    let findings = findings(&Standing::of(card));
    findings.into_iter().flatten().collect()
}

/// Every finding of every engine, with its engine and its name.
fn all_found() -> Vec<(&'static str, String, Finding)> {
    let named = ENGINES.iter().flat_map(|(slug, ..)| {
        let card = open(slug);
        let found = found(&card).into_iter();
        found
            .map(|finding| (*slug, name(&card, finding.leaf), finding))
            .collect::<Vec<_>>()
    });
    named.collect()
}

#[test]
fn each_has_an_invented_sheet_of_every_size_of_its_plan() {
    for (slug, ..) in ENGINES {
        let card = open(slug);
        let standing = Standing::of(&card);
        let sheet = standing.size_sheet().unwrap();
        sheet.check_for(card.plan()).unwrap();
        assert!(sheet.name.starts_with("Demo"), "{slug}: {}", sheet.name);
        assert!(sheet.source.contains("Invented"), "{slug}");
        assert!(sheet.break_in_m.is_some(), "{slug}");
        for (.., place) in card.plan().places() {
            for look in &place.looks {
                let Some(Scale::Gauged(scale)) = card.plan().scale(&look.scale) else {
                    continue;
                };
                let size = sheet.size(&place.id, &look.id);
                let size = size.unwrap_or_else(|| panic!("{slug}: {} {}", place.id, look.id));
                assert!(size.new_low.is_some(), "{slug}: {} {}", place.id, look.id);
                let limited = match scale.wears {
                    Wears::Larger => size.limit_high.is_some(),
                    Wears::Smaller => size.limit_low.is_some(),
                    Wears::Either => size.limit_low.is_some() && size.limit_high.is_some(),
                };
                assert_eq!(limited, scale.quantity == Quantity::Length, "{}", look.id);
            }
        }
    }
}

#[test]
fn every_reading_names_a_calibrated_gauge_or_was_taken_with_plastic_strip() {
    for (slug, ..) in ENGINES {
        let card = open(slug);
        let standing = Standing::of(&card);
        // A slip of the point has one digit more behind it.
        let wrong: BTreeSet<_> = card.entries().filter_map(|e| e.supersedes).collect();
        for (entry, reading) in readings(&card) {
            if wrong.contains(&entry.id) {
                continue;
            }
            let Some(id) = reading.gauge else {
                let strip = reading.at.characteristic.as_str();
                assert_eq!(strip, "oil_clearance", "{slug}: {}", reading.at);
                continue;
            };
            let gauge = standing.gauge(id).unwrap();
            gauge.check().unwrap();
            assert!(gauge.expanded.is_some() && gauge.calibrated.is_some());
            assert_eq!(gauge.unit, reading.unit, "{slug}: {}", reading.at);
            let step = gauge.resolution.places();
            assert!(reading.values.iter().all(|value| value.places() == step));
        }
    }
}

#[test]
fn finished_engines_are_measured_or_say_why_not_and_one_is_half_done() {
    for (slug, depth, _, finished) in ENGINES {
        let card = open(slug);
        let assessment = assessed(&card);
        let gauged = card.index().leaves().iter().zip(&assessment.answers);
        let open_sizes = { gauged }
            .filter(|(leaf, answer)| leaf.gauged && **answer == Answer::Open)
            .count();
        assert_eq!(open_sizes == 0, finished, "{slug}: {open_sizes}");
        let measured = found(&card).len();
        assert!(measured >= if depth == Depth::Short { 20 } else { 80 });
    }
    let leaves = open("tarn-14");
    let answers = assessed(&leaves).answers;
    let gauged = leaves.index().leaves().iter().zip(answers);
    let unread = { gauged }
        .filter(|(leaf, answer)| leaf.gauged && *answer == Answer::NotInspected)
        .count();
    assert!(unread > 0, "pistons went to the laboratory");
}

#[test]
fn one_part_of_the_fleet_is_beyond_its_limit() {
    let beyond: Vec<_> = all_found()
        .into_iter()
        .filter(|(.., finding)| finding.verdict() == Some(Verdict::Beyond))
        .map(|(slug, at, _)| (slug, at))
        .collect();
    assert_eq!(beyond, [("tarn-21", "cyl4/lobe/injector/lift".to_owned())]);
}

#[test]
fn one_gauge_is_too_coarse_and_one_part_cannot_be_decided_with_it() {
    let coarse = |finding: &Finding| {
        let mut notes = finding.notes.iter();
        notes.any(|note| matches!(note, Note::TooCoarse { .. }))
    };
    let all = all_found();
    assert!(all.iter().any(|(.., finding)| coarse(finding)));
    for (slug, at, finding) in &all {
        if coarse(finding) {
            assert_eq!(*slug, "tarn-22", "{at}");
            assert!(at.ends_with("side_clearance"), "{at}");
        }
        if finding.verdict() == Some(Verdict::CannotSay) {
            assert!(coarse(finding), "{slug}: {at}");
        }
    }
    let mut undecided = all.iter();
    assert!(undecided.any(|(.., finding)| finding.verdict() == Some(Verdict::CannotSay)));
}

#[test]
fn the_pins_of_one_show_no_wear_to_be_told_from_none() {
    let card = open("tarn-14");
    let pins = found(&card);
    let pins = pins
        .iter()
        .filter(|finding| name(&card, finding.leaf).ends_with("/pin/diameter"));
    let left: Vec<Remaining> = pins
        .map(|pin| {
            let position = pin.position.unwrap();
            remaining(&position, CONFIDENCE, 1, 20_000)
                .unwrap()
                .remaining
        })
        .collect();
    assert_eq!(left.len(), 6);
    for left in left {
        assert!(
            matches!(left, Remaining::AtLeast { .. } | Remaining::NotReached),
            "{left:?}"
        );
    }
}

fn worth_a_second_look(slug: &str) -> Vec<(String, SecondLook)> {
    let card = open(slug);
    let standing = Standing::of(&card);
    let findings = findings(&standing);
    let looks = second_looks(
        card.plan(),
        card.index(),
        &findings,
        &assessed(&card).leaves,
    );
    looks
        .into_iter()
        .map(|look| (name(&card, look.measured), look))
        .collect()
}

#[test]
fn what_the_eye_and_the_gauge_do_not_agree_on_is_worth_a_second_look() {
    let [(at, look)] = &worth_a_second_look("tarn-17")[..] else {
        panic!("one and no more");
    };
    assert_eq!(at, "cyl5/piston/pin_bore_diameter");
    assert!(look.score >= 9.0 && look.share >= 0.5);
    let [(at, look)] = &worth_a_second_look("tarn-22")[..] else {
        panic!("one and no more");
    };
    assert_eq!(at, "cyl5/ring/top/radial_thickness");
    assert!(look.score <= 2.5 && look.share <= 0.1);
}

/// The part that most likely gets to its limit first.
fn first(slug: &str) -> (String, Remaining, f64) {
    let card = open(slug);
    let outlook = Outlook::of(&findings(&Standing::of(&card))).unwrap();
    let first = outlook.first_limit().unwrap();
    let likely = first.likely[0];
    let at = name(&card, outlook.leaves[likely.position]);
    (at, first.engine, likely.probability)
}

#[test]
fn the_first_limit_is_that_of_the_story() {
    let (at, left, probability) = first("tarn-21");
    assert_eq!(at, "cyl4/lobe/injector/lift");
    assert!(matches!(left, Remaining::AlreadyBeyond { .. }));
    assert!(probability > 0.99);
    let (at, left, probability) = first("tarn-14");
    assert_eq!(at, "cyl6/valve/exhaust/guide_diameter");
    assert!(probability > 0.5);
    let run = Standing::of(&open("tarn-14"))
        .si(FactField::Distance)
        .unwrap();
    assert!(left.at_least() > 0.5 * run, "it ran well: {left:?}");
    // What is not yet known for sure is counted as the worse.
    let (at, left, _) = first("tarn-22");
    assert_eq!(at, "cyl1/ring/top/side_clearance");
    assert!(left.at_least() < 0.05 * run, "{left:?}");
}

#[test]
fn wear_is_that_of_such_engines() {
    let within = [
        ("/bore", "liner", 10e-6, 90e-6),
        ("/diameter", "_journal", -12e-6, 30e-6),
        ("/end_gap", "ring", 0.0, 0.6e-3),
        ("/lift", "lobe/exhaust", 0.0, 45e-6),
        ("/mass", "ring", 50e-6, 0.6e-3),
    ];
    for (slug, at, finding) in all_found() {
        for (end, part, least, most) in within {
            if at.ends_with(end) && at.contains(part) {
                let wear = finding.wear.as_ref().unwrap().si;
                assert!((least..=most).contains(&wear), "{slug}: {at} {wear}");
            }
        }
    }
}

#[test]
fn a_v8_was_measured_in_inches_and_millimetres() {
    for (slug, ..) in ENGINES {
        let card = open(slug);
        let inches = readings(&card).any(|(_, reading)| reading.unit == Unit::In);
        let metric = readings(&card).any(|(_, reading)| reading.unit == Unit::Mm);
        assert!(metric && inches == (slug == "crag-05"), "{slug}");
    }
}

#[test]
fn one_was_measured_by_two_and_readings_are_repeated_here_and_there() {
    let card = open("tarn-17");
    let raters: BTreeSet<&str> = readings(&card)
        .map(|(entry, _)| entry.rater.as_str())
        .collect();
    assert_eq!(raters.len(), 2);
    let repeated = readings(&card)
        .filter(|(_, reading)| reading.values.len() > 1)
        .count();
    let all = readings(&card).count();
    assert!(repeated > 3 && repeated * 10 < all, "{repeated} of {all}");
}

#[test]
fn slips_of_the_decimal_point_stand_corrected() {
    let mut slips = 0;
    for (slug, ..) in ENGINES {
        let card = open(slug);
        for (entry, right) in readings(&card) {
            let Some(wrong) = entry.supersedes else {
                continue;
            };
            let (_, wrong) = readings(&card)
                .find(|(entry, _)| entry.id == wrong)
                .unwrap();
            let off = right.values[0].value() / wrong.values[0].value();
            assert!((off - 10.0).abs() < 1e-9, "{slug}: {off}");
            slips += 1;
        }
    }
    assert!((1..=3).contains(&slips), "{slips}");
}

#[test]
fn top_rings_were_weighed_before_and_after() {
    for (slug, at, finding) in all_found() {
        if at.ends_with("/mass") {
            let new = finding.new.unwrap();
            assert_eq!(new.from, NewFrom::Measured, "{slug}: {at}");
            assert!(finding.wear.unwrap().si > 0.0, "{slug}: {at}");
        }
    }
}
