//! The card as a file: canonical JSON with a digest.
//!
//! ```text
//! { "format": "ringland-card", "version": 2, "id": …, "plan": …, "entries": […], "digest": "sha256:…" }
//! ```
//!
//! The text is in the canonical form of RFC 8785, so the same card is the same bytes everywhere.
//! The digest is SHA-256 over the canonical form of the file without its `digest` member. Fields
//! and entry kinds that this version does not know are kept through a round trip.
//!
//! A page that was made to be handed over carries such a file: [`carried`] takes it out. A [`Bundle`] has the card's
//! photos beside it.

mod backup;
mod bundle;
mod canonical;
mod fault;
mod fitting;
mod migrate;
mod opening;
mod page;
mod plan_file;
mod read;
mod rescue;
mod residue;
#[cfg(feature = "schema")]
pub mod schema;
mod sizes_file;
mod strict;
mod typed;
mod write;

pub use backup::{
    BACKUP_FORMAT, BACKUP_VERSION, Backup, BackupError, BackupList, KeptPlan, MOST_BACKUP_BYTES,
    MOST_CARDS, MOST_OWN_PLANS, MOST_SHEETS, OpeningBackup, PlanTexts, read_backup, write_backup,
};
pub use bundle::{
    Bundle, BundleError, BundleWriter, MOST_BUNDLE_BYTES, MOST_MEMBERS, PackedError,
    check as check_photo, is_bundle,
};
pub use canonical::canonical;
pub use fault::{FieldFault, JsonFault, Shape};
pub use opening::OpeningCard;
pub use page::{carried, carrying, is_page, showing, shown, shown_bytes};
pub use plan_file::{
    OpenedPlan, Origin, PLAN_FORMAT, PLAN_VERSION, PlanFile, PlanFileError, plan_digest,
    read_draft, read_plan, write_plan,
};
pub use read::{FileError, Opened, join, read};
pub use rescue::{Rescue, Rescued, rescue};
pub use sizes_file::{
    OpenedSizes, SIZES_FORMAT, SIZES_VERSION, SizesFileError, read_sizes, write_sizes,
};
pub use strict::JsonError;
pub use write::{
    DigestingCard, WritingCard, digest, write, write_as_altered, write_entry, write_head,
};

/// The name of the format.
pub const FORMAT: &str = "ringland-card";
/// The version of the format that this code writes.
pub const VERSION: u64 = 2;
/// The largest file read, in bytes: 64 MiB.
pub const MOST_BYTES: usize = 64 << 20;
/// The largest entry and the largest plan's file read, and the most that a card's file may have beside
/// its entries, in bytes: 32 MiB. More than the largest plan takes; each is typed in one go, which nobody
/// is to wait for.
pub const MOST_PIECE_BYTES: usize = 32 << 20;
/// The deepest nesting read.
pub const MOST_DEPTH: usize = 64;

/// The entry kinds of this version.
const KINDS: [&str; 13] = [
    "fact",
    "rating",
    "measurement",
    "reading",
    "gauge",
    "sizes",
    "remark",
    "photo",
    "mark",
    "seal",
    "cause",
    "plan",
    "void",
];
