//! One reading of one spot, as it was typed.

use serde::{Deserialize, Serialize};

use super::{Decimal, Makes, Unit, unit::units_of};
use crate::{
    entry::At,
    ids::{GaugeId, SpotId},
    scale::Scale,
};

/// The most repeats that one reading may have.
pub const MOST_REPEATS: usize = 50;
/// The coldest part that is believed, in °C.
pub const COLDEST_C: f64 = -60.0;
/// The warmest part that is believed, in °C.
pub const HOTTEST_C: f64 = 200.0;
/// Heights that may be read beyond those of the plan, in the order in which they are added.
pub const EXTRA_STATIONS: [&str; 9] = [
    "extra_1", "extra_2", "extra_3", "extra_4", "extra_5", "extra_6", "extra_7", "extra_8",
    "extra_9",
];

/// A spot on the grid of a part; both are left out where the part has one reading.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Spot {
    /// Which height of a bore, or which station of a journal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<SpotId>,
    /// Which axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axis: Option<SpotId>,
}

/// What a gauge showed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Reading {
    /// Where, and of what.
    pub at: At,
    /// Where on its grid.
    #[serde(default, skip_serializing_if = "is_whole")]
    pub spot: Spot,
    /// Whether the part was new, or as it went in: the size that wear is counted from.
    #[serde(default, skip_serializing_if = "is_false")]
    pub as_new: bool,
    /// The unit of the figures.
    pub unit: Unit,
    /// What was typed, once or repeated.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = MOST_REPEATS)))]
    pub values: Vec<Decimal>,
    /// The gauge; left out where nobody said which.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gauge: Option<GaugeId>,
    /// The temperature of part and gauge, in °C; left out where nobody read it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = COLDEST_C, max = HOTTEST_C)))]
    pub part_c: Option<f64>,
}

fn is_whole(spot: &Spot) -> bool {
    *spot == Spot::default()
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks for a reference"
)]
fn is_false(flag: &bool) -> bool {
    !flag
}

/// Why a reading was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReadingError {
    /// Read where the plan looks by eye.
    #[error("`{at}` is rated by {wanted}, not read with a gauge")]
    NotGauged {
        /// Where.
        at: String,
        /// What the scale takes.
        wanted: &'static str,
    },
    /// A height or an axis that the grid does not have.
    #[error("`{at}`: `{given}` is not on its grid: allowed are {allowed}")]
    Spot {
        /// Where.
        at: String,
        /// What was given; empty where it was left out.
        given: String,
        /// What the grid has.
        allowed: String,
    },
    /// A unit of another quantity.
    #[error("`{at}` is read in {allowed}, not in {given}")]
    Unit {
        /// Where.
        at: String,
        /// The unit given.
        given: &'static str,
        /// The units that fit.
        allowed: String,
    },
    /// No figure, or more than anybody repeats.
    #[error("`{at}`: the reading has {given} figures: allowed is 1 to {MOST_REPEATS}")]
    Repeats {
        /// Where.
        at: String,
        /// How many there are.
        given: usize,
    },
    /// A temperature that nobody works at.
    #[error("`{at}`: {given} °C is not believed: allowed is {COLDEST_C} to {HOTTEST_C}")]
    Temperature {
        /// Where.
        at: String,
        /// What was given.
        given: f64,
    },
}

impl Reading {
    /// Whether the reading fits the scale of what it is about.
    ///
    /// # Errors
    ///
    /// [`ReadingError`] with the field, the value and what is allowed.
    pub(crate) fn check(&self, scale: &Scale) -> Result<(), ReadingError> {
        let at = || self.at.to_string();
        let Scale::Gauged(gauged) = scale else {
            return Err(ReadingError::NotGauged {
                at: at(),
                wanted: scale.method().as_str(),
            });
        };
        let extra = match gauged.makes {
            Makes::Furthest if !gauged.stations.is_empty() => &EXTRA_STATIONS[..],
            _ => &[],
        };
        self.check_spot(self.spot.station.as_ref(), &gauged.stations, extra)?;
        self.check_spot(self.spot.axis.as_ref(), &gauged.axes, &[])?;
        if self.unit.quantity() != gauged.quantity {
            return Err(ReadingError::Unit {
                at: at(),
                given: self.unit.as_str(),
                allowed: units_of(gauged.quantity),
            });
        }
        let given = self.values.len();
        if !(1..=MOST_REPEATS).contains(&given) {
            return Err(ReadingError::Repeats { at: at(), given });
        }
        match self.part_c {
            Some(given) if !(COLDEST_C..=HOTTEST_C).contains(&given) => {
                Err(ReadingError::Temperature { at: at(), given })
            }
            _ => Ok(()),
        }
    }

    fn check_spot(
        &self,
        given: Option<&SpotId>,
        grid: &[SpotId],
        extra: &[&str],
    ) -> Result<(), ReadingError> {
        let fits = match given {
            None => grid.is_empty(),
            Some(given) => grid.contains(given) || extra.contains(&given.as_str()),
        };
        if fits {
            return Ok(());
        }
        let allowed: Vec<&str> = grid.iter().map(SpotId::as_str).collect();
        Err(ReadingError::Spot {
            at: self.at.to_string(),
            given: given.map_or_else(String::new, ToString::to_string),
            allowed: allowed.join(", "),
        })
    }

    /// The figures in the SI unit.
    pub fn si(&self) -> impl Iterator<Item = f64> {
        self.values
            .iter()
            .map(|value| self.unit.to_si(value.value()))
    }
}
