//! What is measured with a gauge: readings as they were typed, the gauges they were taken with, and the
//! sizes that they are held against.
//!
//! ```text
//! Scale::Gauged (in the plan)    what is read: length or mass, on which grid, which way it wears
//! Gauge, Reading (entries)       what was read, as typed, with its unit
//! SizeSheet (an entry, a file)   new sizes and wear limits, the engine maker's, typed in by the user
//! ```

mod decimal;
mod gauge;
mod reading;
mod sizes;
mod unit;

pub use decimal::{Decimal, DecimalError, MOST_DIGITS};
pub use gauge::{Gauge, GaugeError, LARGEST_K, LONGEST_GAUGE_NAME};
pub use reading::{
    COLDEST_C, EXTRA_STATIONS, HOTTEST_C, MOST_REPEATS, Reading, ReadingError, Spot,
};
pub use sizes::{LONGEST_BREAK_IN_M, MOST_SIZES, Size, SizeError, SizeField, SizeSheet};
pub use unit::{Quantity, Unit};

use serde::{Deserialize, Serialize};

/// Which way a size goes with wear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Wears {
    /// It grows: a bore, a clearance, a gap.
    Larger,
    /// It shrinks: a journal, a wall, a mass.
    Smaller,
    /// It may go either way: a protrusion.
    Either,
}

/// How the readings of one part make the size that is held against its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Makes {
    /// The reading that is furthest worn.
    Furthest,
    /// The first station less the second: a lobe's lift is its height less its base circle.
    Difference,
}

/// What a part is made of, as far as its expansion goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Steel.
    Steel,
    /// Grey cast iron.
    Iron,
    /// Aluminium-silicon alloy, as of pistons.
    Aluminium,
}

impl Material {
    /// Every material, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Steel, Self::Iron, Self::Aluminium];
}
