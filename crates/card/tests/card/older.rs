//! Files of older versions of the format.

use ringland_card::file::{self, FileError};

/// The last file of version 1, as that version wrote it.
const FIRST: &str = include_str!("../fixtures/version-1.card.json");

#[test]
fn a_file_of_the_first_version_opens_with_its_digest() {
    let opened = file::read(FIRST.as_bytes()).unwrap();
    assert!(opened.digest_matches);
    assert!(!opened.card.is_empty());
    assert_eq!(opened.card.plan().measurement_count(), 0);
    let now = file::write(&opened.card);
    assert!(now.contains("\"version\":2"));
    let again = file::read(now.as_bytes()).unwrap();
    assert!(again.digest_matches);
    assert_eq!(again.card, opened.card);
}

#[test]
fn versions_that_are_none_are_refused() {
    for version in ["0", "3", "1.5", "-1", "\"1\""] {
        let other = FIRST.replace("\"version\":1}", &format!("\"version\":{version}}}"));
        assert_ne!(other, FIRST);
        let refused = file::read(other.as_bytes()).unwrap_err();
        match version {
            "3" => assert_eq!(refused, FileError::Newer { version: 3 }),
            _ => {
                assert!(
                    matches!(refused, FileError::Field { ref place, .. } if place == "version")
                );
            }
        }
    }
}
