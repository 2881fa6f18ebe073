//! What a card is: ids, layouts, the inspection plan, entries, merging and the file.
//!
//! A card is a **set of immutable entries** and the **plan** it was made under. Everything shown is
//! a function of these two. Nothing is overwritten: a correction is a new entry that supersedes an
//! old one, a removal is a void with a reason, and merging two files of one card is the union of
//! their entries.
//!
//! ```text
//! Layout ──▶ Plan (sections ▸ parts ▸ places ▸ positions × characteristics, scales, caps)
//!              │
//!  Entry ──▶ Card ──▶ Standing (what holds now)  ──▶ ringland-assess
//!              │
//!            file (canonical JSON, digest)
//! ```
//!
//! This crate computes nothing beyond checks. It knows no clock, no random source, no browser and
//! no language: times, ids and random bytes come in as values.

pub mod card;
pub mod coming;
pub mod entry;
pub mod file;
pub mod gauging;
pub mod grade;
mod hex;
pub mod ids;
pub mod layout;
pub mod look;
pub mod photo;
pub mod plan;
pub mod scale;
pub mod seal;
pub mod standing;
mod tagged;
mod text;
pub mod time;

pub use card::{AppendError, Card, MergeError};
pub use coming::{Brought, Coming};
pub use entry::{About, Areas, At, Body, Cause, Entry, Fact, FactField, Look, NotInspected};
pub use grade::Grade;
pub use ids::{
    CapId, CardId, CharacteristicId, DeviceId, EntryId, GaugeId, LevelId, PartId, PlaceId, PlanId,
    PositionId, ScaleId, SectionId, SizesId, SpotId, StateId,
};
pub use layout::Layout;
pub use look::LookError;
pub use photo::{Mark, Photo, PhotoDigest, Taken};
pub use plan::{Depth, LeafId, Plan, PlanIndex, builtin};
pub use scale::Scale;
pub use seal::Seal;
pub use standing::Standing;
pub use time::Timestamp;
