//! Photos: what an entry says of one, and what its bytes must be.
//!
//! The bytes stand beside the card, under the digest that the entry names: in the storage of a tablet, or in a bundle
//! ([`crate::file::bundle`]). Nothing is ever painted into them: what somebody marks on a photo is an entry of its own,
//! and what was read off one stands with the look that it became.

mod areas;
mod digest;
mod mark;
mod picture;

pub use areas::{
    Cut, LeftOut, MOST_CLASSES, MOST_LEFT_OUT, PhotoAreas, PhotoAreasError, Region, Shade,
    ShadeClass,
};
pub use digest::PhotoDigest;
pub use mark::{LONGEST_LABEL, MOST_CORNERS, Mark, MarkError, Point};
pub use picture::{MOST_PHOTO_BYTES, MOST_PHOTO_SIDE, Outside, Picture, PictureError, PictureKind};

use serde::{Deserialize, Serialize};

/// What was done to a part before it was photographed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Taken {
    /// As it came out of the engine.
    #[default]
    AsFound,
    /// After it was cleaned.
    Cleaned,
}

impl Taken {
    /// Both, in the order in which they are taken.
    pub const ALL: [Self; 2] = [Self::AsFound, Self::Cleaned];
}

/// One photo.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Photo {
    /// SHA-256 of its bytes.
    pub digest: PhotoDigest,
    /// What its bytes are.
    pub picture: Picture,
    /// What was done to the part before.
    pub taken: Taken,
}
