//! A file read in steps is the file read at once, whatever the steps; and what one card may hold only so
//! much of.

use std::task::Poll;

use proptest::prelude::*;
use ringland_card::{
    AppendError, Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Layout, MergeError,
    Timestamp, builtin,
    card::MOST_RATERS,
    file::{
        self, Backup, BackupError, DigestingCard, FileError, MOST_PIECE_BYTES, Opened,
        OpeningBackup, OpeningCard, WritingCard, read, read_backup, write, write_as_altered,
        write_backup,
    },
};

use crate::histories::merged;

fn stepped(bytes: &[u8], step: usize) -> Result<Opened, FileError> {
    let mut reading = OpeningCard::new(bytes);
    let mut share = 0.0;
    loop {
        if let Poll::Ready(read) = reading.step(step) {
            return read;
        }
        assert!(reading.share() >= share, "it goes backwards");
        assert!(reading.share() <= 1.0);
        share = reading.share();
    }
}

fn opened_by(bytes: &[u8], step: usize) -> Result<Backup<'_>, BackupError> {
    let mut opening = OpeningBackup::new(bytes);
    loop {
        if let Poll::Ready(opened) = opening.step(step) {
            return opened;
        }
    }
}

/// The texts of the cards in a backup.
fn texts(backup: Result<Backup<'_>, BackupError>) -> Result<Vec<&[u8]>, BackupError> {
    let mut backup = backup?;
    Ok(std::iter::from_fn(|| backup.next_text()).collect())
}

fn card(raters: std::ops::Range<usize>) -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    let mut card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
    for n in raters {
        card.append(remark(n, &format!("Rater {n}"))).unwrap();
    }
    card
}

fn remark(n: usize, rater: &str) -> Entry {
    let body = Body::Remark {
        about: None,
        text: format!("remark {n}"),
    };
    let (id, device) = (EntryId::v7(n as u64, [1; 10]), DeviceId::v7(1, [1; 10]));
    Entry::new(id, device, n as u64 + 1, Timestamp::UNIX_EPOCH, rater, body)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn in_steps_as_at_once(
        card in merged(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..3),
        step in prop::sample::select(vec![1_usize, 100, 3000]),
    ) {
        let mut bytes = write(&card).into_bytes();
        for (place, byte) in changes {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        prop_assert_eq!(stepped(&bytes, step), read(&bytes));
    }

    #[test]
    fn written_in_steps_as_at_once(
        card in merged(),
        step in prop::sample::select(vec![1_usize, 100, 3000]),
    ) {
        for (mut writing, whole) in [
            (WritingCard::new(&card), write(&card)),
            (WritingCard::as_altered(&card), write_as_altered(&card)),
        ] {
            let text = loop {
                if let Poll::Ready(text) = writing.step(&card, step) {
                    break text;
                }
            };
            prop_assert_eq!(text, whole);
        }
        let mut digesting = DigestingCard::new(&card);
        let digest = loop {
            if let Poll::Ready(digest) = digesting.step(&card, step) {
                break digest;
            }
        };
        let wanted = format!("\"digest\":\"{digest}\"");
        prop_assert!(write(&card).contains(&wanted));
    }

    #[test]
    fn a_backup_in_steps_as_at_once(
        cards in prop::collection::vec(merged(), 0..3),
        step in prop::sample::select(vec![1_usize, 100, 3000]),
    ) {
        let files: Vec<String> = cards.iter().map(write).collect();
        let text = write_backup(files.iter().map(String::as_str), [], []);
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        for text in [text, value.to_string(), serde_json::to_string_pretty(&value).unwrap()] {
            let bytes = text.as_bytes();
            let in_steps = texts(opened_by(bytes, step));
            prop_assert_eq!(&in_steps, &texts(read_backup(bytes)));
            prop_assert_eq!(in_steps.unwrap().len(), cards.len());
        }
    }
}

/// The digest is over the canonical form, in which some members stand before the entries and some after,
/// wherever they stand in the file.
#[test]
fn members_may_stand_in_any_order() {
    let text = write(&card(0..3));
    let mut value: serde_json::Value = serde_json::from_str(&text).unwrap();
    value["a_newer_member"] = serde_json::json!({ "of": ["a newer", "version"] });
    let members = value.as_object_mut().unwrap();
    let digest = file::digest(members);
    members.insert("digest".to_owned(), digest.into());
    let members: Vec<String> = value
        .as_object()
        .unwrap()
        .iter()
        .map(|(name, value)| format!("\"{name}\": {value}"))
        .collect();
    let orders = [
        members.clone(),
        members.iter().rev().cloned().collect::<Vec<_>>(),
        [&members[3..], &members[..3]].concat(),
    ];
    for order in orders {
        let text = format!("{{{}}}", order.join(" ,\n "));
        for step in [1, 50, usize::MAX] {
            let opened = stepped(text.as_bytes(), step).unwrap();
            assert!(opened.digest_matches, "{text}");
            assert_eq!(opened.card.len(), 3);
        }
        let altered = text.replace("remark 1", "remark 7");
        assert!(!stepped(altered.as_bytes(), 50).unwrap().digest_matches);
    }
}

/// A card that grows while it is written is written as it is then.
#[test]
fn a_card_that_grows_is_written_anew() {
    let (before, after) = (card(0..20), card(0..21));
    let (mut writing, mut digesting) = (WritingCard::new(&before), DigestingCard::new(&before));
    assert!(writing.step(&before, 1).is_pending());
    assert!(digesting.step(&before, 1).is_pending());
    let text = write(&after);
    let Poll::Ready(digest) = digesting.step(&after, usize::MAX) else {
        panic!("all of it at once");
    };
    assert!(text.contains(&digest));
    assert_eq!(writing.step(&after, usize::MAX), Poll::Ready(text));
}

#[test]
fn a_reading_that_is_over_gives_no_more() {
    let text = write(&card(0..1));
    let mut reading = OpeningCard::new(text.as_bytes());
    while reading.step(usize::MAX).is_pending() {}
    assert_eq!(
        reading.step(usize::MAX),
        Poll::Ready(Err(FileError::NotACard))
    );
    assert!(reading.share() >= 1.0);
}

#[test]
fn an_entry_and_what_is_beside_them_have_a_largest_size() {
    let text = write(&card(0..2));
    let blank = " ".repeat(MOST_PIECE_BYTES);
    let long = text.replacen("remark 1\"", &format!("remark 1\"{blank}"), 1);
    let given = long.find("},{").unwrap();
    let error = read(long.as_bytes()).unwrap_err();
    assert!(
        matches!(&error, FileError::LargeEntry { place, given } if place == "entries[1]"
            && *given > MOST_PIECE_BYTES),
        "{given}: {error}"
    );
    let long = text.replacen("\"format\"", &format!("{blank}\"format\""), 1);
    let error = read(long.as_bytes()).unwrap_err();
    assert!(matches!(error, FileError::LargeHead { .. }), "{error}");
}

#[test]
fn a_card_has_so_many_raters_at_most() {
    let mut full = card(0..MOST_RATERS);
    let known = remark(1000, "Rater 3");
    let strange = remark(1001, "Somebody else");
    assert_eq!(full.check(&strange), Err(AppendError::FullOfRaters));
    full.append(known).unwrap();

    let (ours, theirs) = (card(0..40), card(30..MOST_RATERS + 1));
    assert_eq!(ours.merge(&theirs), Err(MergeError::FullOfRaters));

    let mut value: serde_json::Value = serde_json::from_str(&write(&full)).unwrap();
    value["entries"][0]["rater"] = "Rater 1".into();
    let text = value.to_string();
    assert_eq!(read(text.as_bytes()).unwrap().card.len(), full.len());
    value["entries"][0]["rater"] = "Rater 0".into();
    value["entries"][MOST_RATERS]["rater"] = "Nobody".into();
    assert_eq!(
        read(value.to_string().as_bytes()),
        Err(FileError::TooManyRaters)
    );
}
