//! What is written is read back, byte for byte, with everything that this version does not know.

use proptest::prelude::*;
use ringland_card::{
    Body, Card, Look,
    file::{self, FileError, Opened, canonical, join, read, write, write_entry, write_head},
};
use serde_json::{Map, Value, json};

use crate::{
    bench::{
        areas, card, card_of, entry, entry_id, lobe, new_plan, other_plan, rating, reading, remark,
        time, typed,
    },
    histories::merged,
};
use ringland_card::{
    GaugeId, Grade,
    gauging::{Gauge, Unit},
};

/// A document as text, with the digest that fits it.
pub(crate) fn sealed(mut document: Value) -> String {
    let members = document.as_object_mut().unwrap();
    let digest = file::digest(members);
    members.insert("digest".to_owned(), digest.into());
    canonical(&document)
}

/// A card as a document to be tampered with.
pub(crate) fn document(card: &Card) -> Value {
    serde_json::from_str(&write(card)).unwrap()
}

fn open(text: &str) -> Opened {
    read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn a_card_comes_back_as_it_was(card in merged()) {
        let text = write(&card);
        let opened = open(&text);
        prop_assert!(opened.digest_matches);
        prop_assert_eq!(write(&opened.card), text);
        prop_assert_eq!(opened.card, card);
    }

    #[test]
    fn so_it_does_piece_by_piece(card in merged()) {
        let entries: Vec<String> = card.entries().rev().map(write_entry).collect();
        prop_assert_eq!(join(&write_head(&card), &entries).unwrap(), card);
    }

    #[test]
    fn fields_of_a_newer_version_are_kept_wherever_they_stand(
        card in merged(),
        news in proptest::collection::vec((any::<prop::sample::Index>(), key(), json_value()), 1..20),
    ) {
        let mut document = document(&card);
        for (place, key, value) in news {
            let objects = growing(&document);
            let pointer: &String = place.get(&objects);
            let object = document.pointer_mut(pointer).unwrap().as_object_mut().unwrap();
            object.insert(format!("newer_{key}"), value);
        }
        let text = sealed(document);
        let opened = open(&text);
        prop_assert!(opened.digest_matches);
        prop_assert_eq!(write(&opened.card), text);
        // And by the way through a store that keeps each entry by itself.
        let entries: Vec<String> = opened.card.entries().map(write_entry).collect();
        let joined = join(&write_head(&opened.card), &entries).unwrap();
        prop_assert_eq!(write(&joined), write(&opened.card));
    }

    #[test]
    fn entries_of_a_newer_kind_are_kept_whole(
        card in merged(),
        kind in "[a-z_]{1,20}_of_tomorrow",
        members in proptest::collection::btree_map(key(), json_value(), 0..5),
    ) {
        let mut document = document(&card);
        let mut body: Map<String, Value> = members.into_iter().collect();
        body.insert("kind".to_owned(), kind.into());
        let id = entry_id(1_000);
        document["entries"].as_array_mut().unwrap().push(json!({
            "id": id, "device": crate::bench::device(9), "lamport": 9_000,
            "time": "2031-01-01T00:00:00Z", "rater": "Z", "body": body,
        }));
        let text = sealed(document);
        let opened = open(&text);
        prop_assert_eq!(write(&opened.card), text);
        prop_assert!(opened.card.entry(id).is_some());
        // It goes along when files are merged.
        prop_assert_eq!(card.merge(&opened.card).unwrap(), opened.card);
    }
}

fn key() -> impl Strategy<Value = String> {
    prop_oneof!["[a-z]{1,8}", ".{1,8}"]
}

/// Any JSON within the file's depth.
fn json_value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>()
            .prop_filter("finite", |x| x.is_finite())
            .prop_map(Value::from),
        ".*".prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 16, 4, |inner| {
        prop_oneof![
            proptest::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            proptest::collection::btree_map(".{0,6}", inner, 0..4)
                .prop_map(|members| Value::Object(members.into_iter().collect())),
        ]
    })
}

/// Pointers to the objects in which a newer version may write more members.
fn growing(document: &Value) -> Vec<String> {
    let mut found = Vec::new();
    walk(document, "", &mut found);
    found
}

fn walk(value: &Value, pointer: &str, found: &mut Vec<String>) {
    // Tables by name, and values whose one member says what they are: a member more is another thing.
    const CLOSED: [&str; 6] = [
        "scales",
        "shares",
        "location_factors",
        "look",
        "u_rep",
        "when",
    ];
    match value {
        Value::Object(members) => {
            let name = pointer.rsplit('/').next().unwrap_or_default();
            if !CLOSED.contains(&name) {
                found.push(pointer.to_owned());
            }
            for (key, value) in members {
                let key = key.replace('~', "~0").replace('/', "~1");
                walk(value, &format!("{pointer}/{key}"), found);
            }
        }
        Value::Array(items) => {
            for (n, item) in items.iter().enumerate() {
                walk(item, &format!("{pointer}/{n}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn fields_are_kept_at_each_level_by_name() {
    let card = card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, new_plan(other_plan())),
    ]);
    let mut document = document(&card);
    let levels = [
        "",
        "/plan",
        "/plan/layout",
        "/plan/sections/0/parts/0/places/0",
        "/plan/sections/0/parts/0/places/0/positions/0",
        "/plan/sections/0/parts/0/places/0/looks/1",
        "/plan/scales/sludge/levels/2",
        "/plan/caps/0",
        "/entries/0",
        "/entries/0/body",
        "/entries/0/body/at",
        "/entries/1/body",
        "/entries/1/body/plan",
        "/entries/1/body/plan/sections/3",
    ];
    for level in levels {
        let object = document.pointer_mut(level).unwrap();
        object["newer"] = json!({ "at": level, "deep": [null, { "x": 1.5 }] });
    }
    let text = sealed(document);
    assert_eq!(write(&open(&text).card), text);
}

/// What this version leaves out where it is empty came all the same, and is part of the digest.
#[test]
fn empty_members_that_are_not_written_are_kept() {
    let mut document = document(&card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, new_plan(other_plan())),
        entry(3, reading("cyl1/pin", "diameter", "51.9900")),
        entry(4, rating("cyl1/piston", "land_1", Look::Areas(areas([])))),
    ]));
    for (owner, member, empty) in [
        ("/plan", "criteria", json!([])),
        ("/plan", "location_factors", json!({})),
        ("/plan/sections/0", "label", Value::Null),
        (
            "/plan/sections/0/parts/0/places/0/looks/0",
            "label",
            Value::Null,
        ),
        ("/entries/0", "supersedes", Value::Null),
        ("/entries/1/body/plan", "criteria", json!([])),
        ("/entries/1/body/plan/sections/0", "label", Value::Null),
        ("/entries/2/body/reading", "as_new", json!(false)),
        ("/entries/2/body/reading", "spot", json!({})),
        ("/entries/2/body/reading", "gauge", Value::Null),
        ("/entries/3/body/look/areas", "painted", json!([])),
    ] {
        document.pointer_mut(owner).unwrap()[member] = empty;
        let text = sealed(document.clone());
        let opened = open(&text);
        assert!(opened.digest_matches, "{owner}/{member}");
        assert_eq!(write(&opened.card), text, "{owner}/{member}");
    }
}

/// An instant that another program writes with an offset, or with zeros, is read as the instant that it
/// is and stays as it was written; so does an empty member beside it. Merging changes neither.
#[test]
fn an_instant_stays_as_it_was_spelt() {
    let gauge = Gauge {
        id: GaugeId::v7(1, [1; 10]),
        name: "Bore gauge 3".to_owned(),
        unit: Unit::Mm,
        resolution: typed("0.001"),
        expanded: None,
        k: 2.0,
        calibrated: Some(time()),
        material: None,
    };
    let gauge = Body::Gauge {
        gauge: Box::new(gauge),
    };
    let card = card_of([entry(1, remark("x")), entry(2, gauge)]);
    for spelt in [
        "2024-05-01T12:00:00+02:00",
        "2024-05-01t10:00:00z",
        "2024-05-01T10:00:00.000Z",
        "2024-05-01T10:00:00-00:00",
    ] {
        for place in ["/entries/0/time", "/entries/1/body/gauge/calibrated"] {
            let mut document = document(&card);
            *document.pointer_mut(place).unwrap() = spelt.into();
            let text = sealed(document);
            let opened = open(&text);
            assert_eq!(opened.card.entry(entry_id(1)).unwrap().time, time());
            assert_eq!(write(&opened.card), text, "{spelt} in {place}");
            let merged = opened.card.merge(&card_of([])).unwrap();
            assert_eq!(write(&merged), text, "{spelt} in {place}");
        }
    }
}

#[test]
fn the_same_card_is_the_same_bytes_in_any_spelling() {
    let card = card_of([entry(1, remark("señal")), entry(2, lobe(Grade::Light))]);
    let canonical = write(&card);
    let pretty = format!("{:#}", document(&card)).replace("ñ", "\\u00f1");
    assert_ne!(pretty, canonical);
    let opened = open(&pretty);
    assert!(
        opened.digest_matches,
        "the digest is over the canonical form"
    );
    assert_eq!(write(&opened.card), canonical);
}

/// The same numbers in other spellings make the same card, so its copies still merge.
#[test]
fn a_number_is_the_same_number_however_it_is_spelt() {
    let mut document = document(&card_of([entry(1, remark("x"))]));
    document["entries"][0]["newer"] = json!([100, -0.0, 1e21]);
    let text = sealed(document);
    let spelt = text
        .replace("[100,0,1e+21]", "[1.0e2,-0.0,1000000000000000000000]")
        .replace("\"lamport\":1,", "\"lamport\":1.0,");
    assert_ne!(text, spelt);
    let (plain, spelt) = (open(&text), open(&spelt));
    assert!(spelt.digest_matches);
    assert_eq!(plain.card.merge(&spelt.card).unwrap(), plain.card);
}

#[test]
fn an_altered_file_opens_and_says_so() {
    let card = card_of([entry(1, lobe(Grade::Heavy))]);
    let text = write(&card).replace("\"grade\":\"heavy\"", "\"grade\":\"trace\"");
    let opened = open(&text);
    assert!(!opened.digest_matches);
    assert_eq!(opened.card.len(), 1);
    for digest in [json!("sha256:00"), json!(7), Value::Null] {
        let mut document = document(&card);
        document["digest"] = digest;
        assert!(!open(&document.to_string()).digest_matches);
    }
    let mut document = document(&card);
    document.as_object_mut().unwrap().remove("digest");
    assert!(!open(&document.to_string()).digest_matches);
}

#[test]
fn an_empty_card_is_a_file_too() {
    let card = card();
    assert!(card.is_empty());
    let text = write(&card);
    assert!(text.starts_with("{\"digest\":\"sha256:"));
    assert_eq!(open(&text).card, card);
}

/// Entry kinds of this version are read as themselves: a known kind that does not read is refused
/// rather than kept as if it were new.
#[test]
fn a_known_kind_that_does_not_read_is_refused() {
    for kind in [
        "fact",
        "rating",
        "measurement",
        "remark",
        "photo",
        "mark",
        "cause",
        "plan",
        "void",
    ] {
        let mut document = document(&card_of([entry(1, remark("x"))]));
        document["entries"][0]["body"] = json!({ "kind": kind });
        let error = read(document.to_string().as_bytes()).unwrap_err();
        assert!(
            matches!(error, FileError::Field { .. }),
            "{kind}: {error:?}"
        );
        assert!(error.to_string().starts_with("entries[0].body"), "{error}");
    }
}
