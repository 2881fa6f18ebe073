//! Whatever the bytes, reading ends in a card that can be written again, or in a reason.

use proptest::prelude::*;
use ringland_card::file::{FieldFault, FileError, JsonFault, read, write};

use crate::histories::merged;

fn reading_is_safe(bytes: &[u8]) -> Result<(), TestCaseError> {
    match read(bytes) {
        Ok(opened) => {
            let text = write(&opened.card);
            let again = read(text.as_bytes());
            prop_assert!(again.as_ref().is_ok_and(|again| again.digest_matches));
            prop_assert_eq!(again.unwrap().card, opened.card);
        }
        Err(error) => {
            prop_assert!(!error.to_string().is_empty());
            prop_assert!(has_a_kind(&error), "{error:?}");
        }
    }
    Ok(())
}

/// What has no kind of its own can be said in English only.
fn has_a_kind(error: &FileError) -> bool {
    match error {
        FileError::Json(why) => !matches!(why.what, JsonFault::Other { .. }),
        FileError::Field { why, .. } => !matches!(why, FieldFault::Other { .. }),
        _ => true,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        reading_is_safe(&bytes)?;
    }

    #[test]
    fn a_file_with_bytes_changed(
        card in merged(),
        changes in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..4),
    ) {
        let mut bytes = write(&card).into_bytes();
        for (place, byte) in changes {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        reading_is_safe(&bytes)?;
    }

    /// Pieces of one file in places of another: the shapes are right, the sense is not.
    #[test]
    fn a_file_with_values_exchanged(
        card in merged(),
        from in any::<prop::sample::Index>(),
        to in any::<prop::sample::Index>(),
    ) {
        let mut document: serde_json::Value = serde_json::from_str(&write(&card)).unwrap();
        let mut pointers = Vec::new();
        all(&document, "", &mut pointers);
        let from: &String = from.get(&pointers);
        let to: &String = to.get(&pointers);
        let value = document.pointer(from).unwrap().clone();
        *document.pointer_mut(to).unwrap() = value;
        reading_is_safe(document.to_string().as_bytes())?;
    }
}

fn all(value: &serde_json::Value, pointer: &str, found: &mut Vec<String>) {
    found.push(pointer.to_owned());
    match value {
        serde_json::Value::Object(members) => {
            for (key, value) in members {
                let key = key.replace('~', "~0").replace('/', "~1");
                all(value, &format!("{pointer}/{key}"), found);
            }
        }
        serde_json::Value::Array(items) => {
            for (n, item) in items.iter().enumerate() {
                all(item, &format!("{pointer}/{n}"), found);
            }
        }
        _ => {}
    }
}
