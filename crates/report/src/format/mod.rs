//! Numbers for eyes, and numbers that people type.
//!
//! - [`Numbers`] writes numbers the way a language does; what is written here is for reading, never
//!   for reckoning on.
//! - [`parse_number`] and its kin read what people type, with comma or point.
//! - [`units`] changes between the units people use and the SI units inside.
//! - [`check_word`] makes a word to be read out of a digest.
//! - [`file_name`] makes a file's name of what people call a thing.
//! - [`time`] writes dates and times of day from an instant and an offset.

mod check_word;
mod decimal;
mod file_name;
mod gauged;
mod number;
mod read;
pub mod time;
pub mod units;

pub use check_word::check_word;
pub use decimal::{TypedReading, parse_decimal, parse_reading};
pub use file_name::file_name;
pub use gauged::{expanded, size_unit};
pub use number::{NBSP, Numbers};
pub use read::{NumberError, Reading, parse_count, parse_number, parse_quantity};
pub use units::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit};
