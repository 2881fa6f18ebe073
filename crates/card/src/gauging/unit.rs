//! Units that gauges show.

use serde::{Deserialize, Serialize};
use uom::si::{
    f64::{Length, Mass},
    length::{inch, meter, micrometer, mil, millimeter},
    mass::{gram, kilogram, milligram},
};

/// Grams in an avoirdupois ounce, exactly. The quantity crate's own ounce is rounded in the seventh digit.
const GRAMS_IN_OUNCE: f64 = 28.349_523_125;

/// What kind of quantity is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// A length, in metres inside.
    Length,
    /// A mass, in kilograms inside.
    Mass,
}

/// A unit as a gauge shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Micrometres.
    Um,
    /// Inches.
    In,
    /// Thousandths of an inch.
    Mil,
    /// Grams.
    G,
    /// Milligrams.
    Mg,
    /// Ounces (avoirdupois).
    Oz,
}

impl Unit {
    /// Every unit, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::Mm,
        Self::Um,
        Self::In,
        Self::Mil,
        Self::G,
        Self::Mg,
        Self::Oz,
    ];

    /// What it measures.
    pub fn quantity(self) -> Quantity {
        match self {
            Self::Mm | Self::Um | Self::In | Self::Mil => Quantity::Length,
            Self::G | Self::Mg | Self::Oz => Quantity::Mass,
        }
    }

    /// Its sign, which is the same in every language.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Um => "µm",
            Self::In => "in",
            Self::Mil => "0.001 in",
            Self::G => "g",
            Self::Mg => "mg",
            Self::Oz => "oz",
        }
    }

    /// The name as the file writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Um => "um",
            Self::In => "in",
            Self::Mil => "mil",
            Self::G => "g",
            Self::Mg => "mg",
            Self::Oz => "oz",
        }
    }

    /// The unit of that name.
    pub fn parse(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.as_str() == name)
    }

    /// So many of it in the SI unit of its quantity: metres or kilograms.
    pub fn to_si(self, figure: f64) -> f64 {
        match self {
            Self::Mm => Length::new::<millimeter>(figure).get::<meter>(),
            Self::Um => Length::new::<micrometer>(figure).get::<meter>(),
            Self::In => Length::new::<inch>(figure).get::<meter>(),
            Self::Mil => Length::new::<mil>(figure).get::<meter>(),
            Self::G => Mass::new::<gram>(figure).get::<kilogram>(),
            Self::Mg => Mass::new::<milligram>(figure).get::<kilogram>(),
            Self::Oz => Mass::new::<gram>(figure * GRAMS_IN_OUNCE).get::<kilogram>(),
        }
    }

    /// How many of it an amount in the SI unit comes to.
    pub fn of_si(self, si: f64) -> f64 {
        match self {
            Self::Mm => Length::new::<meter>(si).get::<millimeter>(),
            Self::Um => Length::new::<meter>(si).get::<micrometer>(),
            Self::In => Length::new::<meter>(si).get::<inch>(),
            Self::Mil => Length::new::<meter>(si).get::<mil>(),
            Self::G => Mass::new::<kilogram>(si).get::<gram>(),
            Self::Mg => Mass::new::<kilogram>(si).get::<milligram>(),
            Self::Oz => Mass::new::<kilogram>(si).get::<gram>() / GRAMS_IN_OUNCE,
        }
    }
}

/// The names of the units of a quantity.
pub(super) fn units_of(quantity: Quantity) -> String {
    let units = Unit::ALL.into_iter();
    let units: Vec<&str> = units
        .filter(|unit| unit.quantity() == quantity)
        .map(Unit::as_str)
        .collect();
    units.join(", ")
}
