//! The limits of a file, each at its edge.

use ringland_card::{
    Card,
    card::{MOST_ENTRIES, MOST_PLANS},
    file::{FileError, MOST_BYTES, MOST_DEPTH, join, read, write, write_entry, write_head},
};
use serde_json::{Value, json};

use crate::{
    bench::{by, card, card_of, device, entry, entry_id, new_plan, remark, smaller_plan, time},
    round_trip::{document, sealed},
};

fn refusal(text: &str) -> String {
    read(text.as_bytes()).unwrap_err().to_string()
}

/// A card with a list nested so deep that the innermost stands within `depth` others.
fn nested(depth: usize) -> String {
    let mut inner = Value::Array(Vec::new());
    // The top object is the first level.
    for _ in 2..depth {
        inner = Value::Array(vec![inner]);
    }
    let mut document = document(&card());
    document["newer"] = inner;
    sealed(document)
}

#[test]
fn nesting_of_64_is_read_and_65_is_not() {
    assert_eq!(MOST_DEPTH, 64);
    let deepest = nested(64);
    assert_eq!(write(&read(deepest.as_bytes()).unwrap().card), deepest);
    let message = refusal(&nested(65));
    assert!(
        message.starts_with("the file is not readable: line 1, column "),
        "{message}"
    );
    assert!(message.contains("(newer[0][0]"), "{message}");
    assert!(message.ends_with("nested deeper than 64"), "{message}");
}

/// Deeper than the stack, were it followed.
#[test]
fn nesting_without_end_is_refused() {
    let bottomless = "[".repeat(5_000_000);
    assert!(refusal(&bottomless).ends_with("nested deeper than 64"));
    let objects = "{\"a\":".repeat(1_000_000);
    assert!(refusal(&objects).ends_with("nested deeper than 64"));
}

#[test]
fn a_key_that_stands_twice_is_refused_with_its_place() {
    let text = write(&card_of([entry(1, remark("x"))]))
        .replace("\"rater\":\"A\"", "\"rater\":\"A\",\n\"rater\":\"B\"");
    assert_eq!(
        refusal(&text),
        "the file is not readable: line 2, column 7 (entries[0]): the key `rater` stands twice"
    );
}

#[test]
fn text_that_ends_early_is_refused_at_every_length() {
    let text = write(&card_of([entry(1, remark("x"))]));
    for length in (0..text.len()).step_by(97).chain([text.len() - 1]) {
        let error = read(&text.as_bytes()[..length]).unwrap_err();
        assert!(matches!(error, FileError::Json(_)), "{length}: {error}");
    }
    assert_eq!(
        refusal("{\"format\":"),
        "the file is not readable: line 1, column 10 (format): it ends in the middle"
    );
    let trailing = format!("{text} x");
    assert!(refusal(&trailing).ends_with("there is more after the end"));
}

#[test]
fn a_newer_format_is_named() {
    let mut document = document(&card());
    document["version"] = json!(3);
    assert_eq!(
        refusal(&document.to_string()),
        "the file is of format version 3: this program reads up to version 2"
    );
    for version in [json!(0), json!("1"), json!(1.5), json!(-1), Value::Null] {
        document["version"] = version;
        assert_eq!(
            refusal(&document.to_string()),
            "version: it must be a whole number from 1 to 2"
        );
    }
}

#[test]
fn something_else_than_a_card_is_named() {
    for text in [
        "[]",
        "7",
        "null",
        "{}",
        "{\"format\":\"recipe\",\"version\":1}",
    ] {
        assert_eq!(
            refusal(text),
            "this is not a card: it does not say `\"format\": \"ringland-card\"`"
        );
    }
    assert_eq!(join("[]", &[]), Err(FileError::NotACard));
}

#[test]
fn a_file_of_more_than_64_mib_is_refused_unread() {
    let bytes = vec![b' '; MOST_BYTES + 1];
    assert_eq!(
        read(&bytes).unwrap_err().to_string(),
        "the file has 67108865 bytes: allowed is 67108864 at most"
    );
}

#[test]
fn more_entries_than_a_card_may_hold_are_refused() {
    let mut document = document(&card());
    document["entries"] = vec![Value::Null; MOST_ENTRIES + 1].into();
    assert_eq!(
        refusal(&document.to_string()),
        "entries: there are 200001, allowed is 200000 at most"
    );
}

fn many(first: u64, count: usize) -> Card {
    let mut card = card();
    for n in (first..).take(count) {
        card.append(entry(n, remark("x"))).unwrap();
    }
    card
}

#[test]
fn a_full_card_takes_no_more() {
    let mut full = many(1, MOST_ENTRIES);
    let error = full.append(entry(999_999, remark("x"))).unwrap_err();
    assert_eq!(
        error.to_string(),
        "the card holds 200000 entries, the most allowed"
    );
    assert_eq!(full.len(), MOST_ENTRIES);
    let one_more = card_of([entry(999_999, remark("x"))]);
    assert_eq!(
        full.merge(&one_more).unwrap_err().to_string(),
        "together the files hold 200001 entries: allowed is 200000 at most"
    );
}

fn with_plans(first: u64, count: usize) -> Card {
    let mut card = card();
    for n in (first..).take(count) {
        card.append(entry(n, new_plan(smaller_plan()))).unwrap();
    }
    card
}

#[test]
fn the_plan_is_not_changed_without_end() {
    let mut full = with_plans(1, MOST_PLANS);
    let one_more = entry(9_999, new_plan(smaller_plan()));
    assert_eq!(
        full.append(one_more.clone()).unwrap_err().to_string(),
        "the plan has been changed 200 times on this card, the most allowed"
    );
    full.append(entry(9_998, remark("still open to looks")))
        .unwrap();
    let other = card_of([one_more.clone()]);
    assert_eq!(
        full.merge(&other).unwrap_err().to_string(),
        "together the files change the plan 201 times: allowed is 200 at most"
    );
    let mut pieces: Vec<String> = full.entries().map(write_entry).collect();
    pieces.push(write_entry(&one_more));
    assert_eq!(
        join(&write_head(&full), &pieces).unwrap_err().to_string(),
        "entries: 201 of them change the plan, allowed is 200 at most"
    );
}

#[test]
fn times_and_ids_are_read_in_their_usual_form() {
    let text = write(&card_of([by("B", entry(1, remark("x")))]));
    for (what, wrong, place) in [
        (
            time().to_string(),
            "yesterday".to_owned(),
            "entries[0].time: ",
        ),
        (entry_id(1).to_string(), "one".to_owned(), "entries[0].id: "),
        (
            device(1).to_string(),
            "tablet".to_owned(),
            "entries[0].device: ",
        ),
    ] {
        let message = refusal(&text.replace(&what, &wrong));
        assert!(message.starts_with(place), "{message}");
    }
}

/// A message never carries more than a screenful of what a hostile file says.
#[test]
fn long_nonsense_is_cut_in_messages() {
    let nonsense = "x".repeat(1_000_000);
    let twice = format!("{{\"{nonsense}\":1,\"{nonsense}\":2}}");
    assert!(refusal(&twice).len() < 1_200);
    let mut document = document(&card_of([entry(1, remark("x"))]));
    document["entries"][0]["body"] = json!({ "kind": "cause", "cause": nonsense,
        "about": { "position": "p" } });
    assert!(refusal(&document.to_string()).len() < 1_200);
}
