//! An inspection plan as a file: canonical JSON with a digest, like the card's.
//!
//! ```text
//! { "format": "ringland-plan", "version": 2, "plan": …, "derived_from": …, "digest": "sha256:…" }
//! ```
//!
//! A plan in the making may contradict itself, so there are two ways in: [`read_plan`] for a file from
//! outside, and [`read_draft`] for what this code kept itself.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

use super::{
    MOST_PIECE_BYTES,
    canonical::{canonical, sha256},
    read::{FileError, plan, take, typed},
    residue::{overlay, residue},
    strict::{self, JsonError},
    write::{digest, plan_value},
};
use crate::plan::{Plan, PlanError};

/// The name of the format.
pub const PLAN_FORMAT: &str = "ringland-plan";
/// The version of the format that this code writes.
pub const PLAN_VERSION: u64 = 2;

/// The plan that another was derived from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Origin {
    /// What it was called.
    pub name: String,
    /// Its version.
    pub version: String,
    /// SHA-256 over its canonical form.
    #[cfg_attr(
        feature = "schema",
        schemars(regex(pattern = r"^sha256:[0-9a-f]{64}$"))
    )]
    pub digest: String,
}

impl Origin {
    /// Names a plan as the one that another is derived from.
    pub fn of(plan: &Plan) -> Self {
        Self {
            name: plan.name.clone(),
            version: plan.version.clone(),
            digest: plan_digest(plan),
        }
    }
}

/// A plan with where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanFile {
    /// The plan.
    pub plan: Plan,
    /// What it was derived from; none for one that stands by itself.
    pub derived_from: Option<Origin>,
    /// Members of a newer version of the format, kept as they came.
    residue: Option<Value>,
}

impl PlanFile {
    /// A plan to be written as a file.
    pub fn new(plan: Plan, derived_from: Option<Origin>) -> Self {
        Self {
            plan,
            derived_from,
            residue: None,
        }
    }
}

/// A plan's file that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenedPlan {
    /// What it holds.
    pub file: PlanFile,
    /// Whether the digest in the file is the digest of its content. If not, the file was altered or
    /// damaged after it was written.
    pub digest_matches: bool,
}

/// Why a plan's file could not be read. Nothing was taken from it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanFileError {
    /// Too large to read.
    #[error("the file has {given} bytes: allowed is {MOST_PIECE_BYTES} at most")]
    TooLarge {
        /// Its size.
        given: usize,
    },
    /// Not JSON as it is allowed here.
    #[error("the file is not readable: {0}")]
    Json(#[from] JsonError),
    /// JSON, but not a plan.
    #[error("this is not a plan: it does not say `\"format\": \"{PLAN_FORMAT}\"`")]
    NotAPlan,
    /// Written by a newer version.
    #[error(
        "the file is of format version {version}: this program reads up to version {PLAN_VERSION}"
    )]
    Newer {
        /// Its version.
        version: u64,
    },
    /// A version that is none.
    #[error("version: it must be a whole number from 1 to {PLAN_VERSION}")]
    NoVersion,
    /// A member that is missing or wrong.
    #[error(transparent)]
    Member(#[from] FileError),
    /// A plan that contradicts itself.
    #[error("plan: {0}")]
    Contradiction(#[from] PlanError),
}

/// The file of a plan: canonical JSON with its digest. The same plan gives the same bytes.
pub fn write_plan(file: &PlanFile) -> String {
    let mut document = known(file);
    if let Some(rest) = &file.residue {
        overlay(&mut document, rest);
    }
    let Value::Object(mut document) = document else {
        return String::new();
    };
    let digest = digest(&document);
    document.insert("digest".to_owned(), digest.into());
    canonical(&Value::Object(document))
}

/// What this version knows of a file, without its digest.
fn known(file: &PlanFile) -> Value {
    let mut document = json!({
        "format": PLAN_FORMAT,
        "version": PLAN_VERSION,
        "plan": plan_value(&file.plan),
    });
    if let (Value::Object(members), Some(origin)) = (&mut document, &file.derived_from) {
        let origin = json!({
            "name": origin.name,
            "version": origin.version,
            "digest": origin.digest,
        });
        members.insert("derived_from".to_owned(), origin);
    }
    document
}

/// The digest of a plan by itself: SHA-256 over its canonical form.
pub fn plan_digest(plan: &Plan) -> String {
    format!("sha256:{}", sha256(canonical(&plan_value(plan)).as_bytes()))
}

/// Reads a plan from the bytes of a file.
///
/// Limits: 64 MiB, nesting of 64, 20,000 ratings.
///
/// # Errors
///
/// [`PlanFileError`] with the place in the file; nothing is taken from it.
pub fn read_plan(bytes: &[u8]) -> Result<OpenedPlan, PlanFileError> {
    let opened = read_draft(bytes)?;
    opened.file.plan.check()?;
    Ok(opened)
}

/// Reads a plan that may still contradict itself; see [`Plan::problems`].
///
/// # Errors
///
/// [`PlanFileError`] with the place; never [`PlanFileError::Contradiction`].
pub fn read_draft(bytes: &[u8]) -> Result<OpenedPlan, PlanFileError> {
    if bytes.len() > MOST_PIECE_BYTES {
        return Err(PlanFileError::TooLarge { given: bytes.len() });
    }
    read_draft_value(strict::parse(bytes)?)
}

/// Reads a plan that may still contradict itself from a document that was parsed.
pub(super) fn read_draft_value(document: Value) -> Result<OpenedPlan, PlanFileError> {
    let Value::Object(mut document) = document else {
        return Err(PlanFileError::NotAPlan);
    };
    if document.get("format").and_then(Value::as_str) != Some(PLAN_FORMAT) {
        return Err(PlanFileError::NotAPlan);
    }
    check_version(&document)?;
    let written = document.get("digest").and_then(Value::as_str);
    let digest_matches = written == Some(digest(&document).as_str());
    let value = take(&mut document, "", "plan")?;
    let origin = document.get("derived_from").unwrap_or(&Value::Null);
    let mut file = PlanFile::new(plan("plan", &value)?, typed("derived_from", origin)?);
    document.remove("digest");
    file.residue = residue(&Value::Object(document), &known(&file));
    Ok(OpenedPlan {
        file,
        digest_matches,
    })
}

fn check_version(document: &Map<String, Value>) -> Result<(), PlanFileError> {
    match document.get("version").and_then(Value::as_u64) {
        // The second version added scales that are read with a gauge, and changed nothing else.
        Some(1..=PLAN_VERSION) => Ok(()),
        Some(newer) if newer > PLAN_VERSION => Err(PlanFileError::Newer { version: newer }),
        _ => Err(PlanFileError::NoVersion),
    }
}
