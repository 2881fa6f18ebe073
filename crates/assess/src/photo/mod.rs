//! What is read off a photo.
//!
//! | question | where |
//! |---|---|
//! | how long is what was marked? | [`length`](length()) |
//! | how light, how yellow, how far from grey is a pixel? | [`shade::Shades`] |
//! | how much of a region has each shade? | [`count::count`] |
//! | where do the shades part, and what share has each class? | [`areas::part`], [`areas::classes`] |
//! | how far does a score hang on where they part? | [`areas::parting_scatter`] |
//!
//! A pixel is a square with its middle at half a pixel from its edges; shares are of the middles that lie in the region.

pub mod areas;
pub mod count;
mod length;
pub mod shade;

pub use length::{POINTING_PX, PhotoLength, length};
