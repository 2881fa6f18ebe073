//! What gauge readings mean: shape, clearance, wear, and how much further a part could have run.
//!
//! Pure functions on plain readings; every result carries the budget of its uncertainty. Lengths,
//! temperatures and distances are quantities; inside a budget everything is in SI units.

mod as_new;
pub mod clearance;
pub mod finding;
pub mod first;
pub mod forecast;
pub mod outlook;
pub mod over_run;
pub mod rate;
pub mod reading;
pub mod remaining;
pub mod second_look;
pub mod shape;
pub mod share;
pub mod slip;
pub mod temperature;
pub mod thumb;

pub use first::{FirstLimit, Race};
pub use rate::{Basis, BreakIn, Exposure, WearRate};
pub use reading::{AsNew, Gauged, GaugingError, Measured, Range, Source};
pub use remaining::{Position, Remaining};
pub use ringland_stats::{
    confidence::Confidence, conformity::Verdict, regression::Intercept, uncertainty::Budget,
};
pub use shape::{Feature, Grid};
