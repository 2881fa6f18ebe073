//! State: the open card behind one door, the Shelf, and what is set on this tablet.

pub mod draft;
mod jobs;
pub mod open;
pub mod photos;
pub mod plans;
pub mod prefs;
pub mod shelf;
pub mod summary;

pub use open::{CardStore, use_card};
pub use photos::{Photos, use_photos};
pub use plans::{Plans, use_plans};
pub use prefs::{Prefs, use_prefs};
pub use shelf::{Shelf, use_shelf};
