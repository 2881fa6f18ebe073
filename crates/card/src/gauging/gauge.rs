//! A gauge and what is known of it.

use serde::{Deserialize, Serialize};

use super::{Decimal, Material, Unit};
use crate::{ids::GaugeId, time::Timestamp};

/// The longest name of a gauge, in characters.
pub const LONGEST_GAUGE_NAME: usize = 200;

/// The largest coverage factor.
pub const LARGEST_K: f64 = 10.0;

/// A gauge: what it is called, how finely it reads and how well it is known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Gauge {
    /// Its id. Of several entries on one gauge the last holds.
    pub id: GaugeId,
    /// What it is called: a kind and a number, such as *bore gauge 3*.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = LONGEST_GAUGE_NAME)))]
    pub name: String,
    /// The unit of the figures here, and the one that it types.
    pub unit: Unit,
    /// The smallest step that it shows.
    pub resolution: Decimal,
    /// The expanded uncertainty U in its certificate; left out where there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expanded: Option<Decimal>,
    /// The coverage factor k that U was stated with.
    #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = LARGEST_K)))]
    pub k: f64,
    /// When it was last calibrated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<String>", extend("format" = "date-time")))]
    pub calibrated: Option<Timestamp>,
    /// What it is made of; left out for one that does not grow with warmth, or corrects for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<Material>,
}

/// A gauge that contradicts itself.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum GaugeError {
    /// A name that is empty or too long.
    #[error("the gauge's name has {given} characters: allowed is 1 to {LONGEST_GAUGE_NAME}")]
    Name {
        /// Its length.
        given: usize,
    },
    /// A step that is none.
    #[error("the resolution is {given}: it must be above 0")]
    Resolution {
        /// What was given.
        given: String,
    },
    /// An uncertainty below none.
    #[error("the expanded uncertainty is {given}: it must be 0 or more")]
    Expanded {
        /// What was given.
        given: String,
    },
    /// A coverage factor that none is.
    #[error("the coverage factor is {given}: allowed is 1 to {LARGEST_K}")]
    Coverage {
        /// What was given.
        given: f64,
    },
}

impl Gauge {
    /// Refuses a gauge that contradicts itself.
    ///
    /// # Errors
    ///
    /// [`GaugeError`] with the field and what is allowed.
    pub fn check(&self) -> Result<(), GaugeError> {
        let given = self.name.chars().count();
        if !(1..=LONGEST_GAUGE_NAME).contains(&given) {
            return Err(GaugeError::Name { given });
        }
        if self.resolution.value() <= 0.0 {
            return Err(GaugeError::Resolution {
                given: self.resolution.to_string(),
            });
        }
        if let Some(expanded) = &self.expanded
            && expanded.value() < 0.0
        {
            return Err(GaugeError::Expanded {
                given: expanded.to_string(),
            });
        }
        if (1.0..=LARGEST_K).contains(&self.k) {
            Ok(())
        } else {
            Err(GaugeError::Coverage { given: self.k })
        }
    }

    /// The smallest step that it shows, in the SI unit.
    pub fn resolution_si(&self) -> f64 {
        self.unit.to_si(self.resolution.value())
    }

    /// The standard uncertainty of its calibration, U/k, in the SI unit; none where no U is known.
    pub fn calibration_si(&self) -> Option<f64> {
        let expanded = self.expanded.as_ref()?;
        Some(self.unit.to_si(expanded.value()) / self.k)
    }
}
