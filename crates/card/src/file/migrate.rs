//! Older versions of the format, brought up to this one on opening; the file itself is not touched.
//!
//! Each step takes the whole document from one version to the next. There is one version so far, so
//! there is no step; the first goes here, with the last file of the old version as a fixture.

use serde_json::{Map, Value};

use super::{FieldFault, FileError, VERSION};

/// The document at the present version.
pub(super) fn migrate(document: Map<String, Value>) -> Result<Map<String, Value>, FileError> {
    match document.get("version").and_then(Value::as_u64) {
        Some(VERSION) => Ok(document),
        Some(newer) if newer > VERSION => Err(FileError::Newer { version: newer }),
        _ => Err(FileError::Field {
            place: "version".to_owned(),
            why: FieldFault::Version,
        }),
    }
}
