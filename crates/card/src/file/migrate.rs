//! Older versions of the format, brought up to this one on opening; the file itself is not touched.
//!
//! Each step takes the whole document from one version to the next. The last file of each old version
//! stands with the tests as a fixture.

use serde_json::{Map, Value};

use super::{FieldFault, FileError, VERSION};

/// A step from one version to the next.
type Step = fn(Map<String, Value>) -> Map<String, Value>;

/// The steps, each with the version that it starts from, the oldest first.
const STEPS: [(u64, Step); 1] = [(1, add_gauging)];

/// The document at the present version.
pub(super) fn migrate(document: Map<String, Value>) -> Result<Map<String, Value>, FileError> {
    match document.get("version").and_then(Value::as_u64) {
        Some(version @ 1..=VERSION) => {
            let steps = STEPS.iter().filter(|(from, _)| *from >= version);
            Ok(steps.fold(document, |document, (_, step)| step(document)))
        }
        Some(newer) if newer > VERSION => Err(FileError::Newer { version: newer }),
        _ => Err(FileError::Field {
            place: "version".to_owned(),
            why: FieldFault::Version { known: VERSION },
        }),
    }
}

/// Version 2 added gauges, readings and size sheets, and scales that are read with a gauge. A card of
/// version 1 has none, so nothing in it changes but the version.
fn add_gauging(mut document: Map<String, Value>) -> Map<String, Value> {
    document.insert("version".to_owned(), 2.into());
    document
}
