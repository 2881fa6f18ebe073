//! A size sheet as a file: canonical JSON with a digest, like the card's.
//!
//! ```text
//! { "format": "ringland-sizes", "version": 1, "sheet": …, "digest": "sha256:…" }
//! ```

use serde_json::{Map, Value, json};

use super::{
    FileError, MOST_PIECE_BYTES,
    canonical::canonical,
    read::{take, typed},
    strict::{self, JsonError},
    write::digest,
};
use crate::gauging::{SizeError, SizeSheet};

/// The name of the format.
pub const SIZES_FORMAT: &str = "ringland-sizes";
/// The version of the format that this code writes.
pub const SIZES_VERSION: u64 = 1;

/// A size sheet that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenedSizes {
    /// The sheet.
    pub sheet: SizeSheet,
    /// Whether the digest in the file is the digest of its content. If not, the file was altered or
    /// damaged after it was written.
    pub digest_matches: bool,
}

/// Why the file of a size sheet could not be read. Nothing was taken from it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SizesFileError {
    /// Too large to read.
    #[error("the file has {given} bytes: allowed is {MOST_PIECE_BYTES} at most")]
    TooLarge {
        /// Its size.
        given: usize,
    },
    /// Not JSON as it is allowed here.
    #[error("the file is not readable: {0}")]
    Json(#[from] JsonError),
    /// JSON, but not a size sheet.
    #[error("this is not a size sheet: it does not say `\"format\": \"{SIZES_FORMAT}\"`")]
    NotSizes,
    /// Written by a newer version.
    #[error(
        "the file is of format version {version}: this program reads up to version {SIZES_VERSION}"
    )]
    Newer {
        /// Its version.
        version: u64,
    },
    /// A member that is missing or wrong.
    #[error(transparent)]
    Member(#[from] FileError),
    /// A sheet that contradicts itself.
    #[error("sheet: {0}")]
    Contradiction(#[from] SizeError),
}

/// The file of a size sheet: canonical JSON with its digest. The same sheet gives the same bytes.
pub fn write_sizes(sheet: &SizeSheet) -> String {
    let document = json!({
        "format": SIZES_FORMAT,
        "version": SIZES_VERSION,
        "sheet": sheet,
    });
    let Value::Object(mut document) = document else {
        return String::new();
    };
    let digest = digest(&document);
    document.insert("digest".to_owned(), digest.into());
    canonical(&Value::Object(document))
}

/// Reads a size sheet from the bytes of a file.
///
/// # Errors
///
/// [`SizesFileError`] with the place in the file; nothing is taken from it.
pub fn read_sizes(bytes: &[u8]) -> Result<OpenedSizes, SizesFileError> {
    if bytes.len() > MOST_PIECE_BYTES {
        return Err(SizesFileError::TooLarge { given: bytes.len() });
    }
    let Value::Object(mut document) = strict::parse(bytes)? else {
        return Err(SizesFileError::NotSizes);
    };
    if document.get("format").and_then(Value::as_str) != Some(SIZES_FORMAT) {
        return Err(SizesFileError::NotSizes);
    }
    check_version(&document)?;
    let written = document.get("digest").and_then(Value::as_str);
    let digest_matches = written == Some(digest(&document).as_str());
    let value = take(&mut document, "", "sheet")?;
    let sheet: SizeSheet = typed("sheet", &value)?;
    sheet.check()?;
    Ok(OpenedSizes {
        sheet,
        digest_matches,
    })
}

fn check_version(document: &Map<String, Value>) -> Result<(), SizesFileError> {
    match document.get("version").and_then(Value::as_u64) {
        Some(SIZES_VERSION) => Ok(()),
        Some(version) if version > SIZES_VERSION => Err(SizesFileError::Newer { version }),
        _ => Err(FileError::Field {
            place: "version".to_owned(),
            why: super::FieldFault::Version {
                known: SIZES_VERSION,
            },
        }
        .into()),
    }
}
