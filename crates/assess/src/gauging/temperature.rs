//! A reading at the bench's temperature as it would be at 20 °C.

use ringland_card::gauging::Material;
use ringland_stats::uncertainty::Standard;
use uom::si::{
    f64::{TemperatureCoefficient, TemperatureInterval, ThermodynamicTemperature},
    length::meter,
    temperature_coefficient::per_kelvin,
    temperature_interval::kelvin,
    thermodynamic_temperature::degree_celsius,
};

use super::reading::{Gauged, GaugingError, Measured, Source, gauged, part};

/// The temperature at which sizes are given, in °C. Source: ISO 1.
pub const REFERENCE_C: f64 = 20.0;

/// How a material expands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expansion {
    /// α.
    pub coefficient: TemperatureCoefficient,
    /// Its standard uncertainty.
    pub u: TemperatureCoefficient,
}

impl Expansion {
    /// Of a gauge that does not grow with warmth, or corrects for it.
    pub const NONE: Self = Self {
        coefficient: TemperatureCoefficient {
            dimension: std::marker::PhantomData,
            units: std::marker::PhantomData,
            value: 0.0,
        },
        u: TemperatureCoefficient {
            dimension: std::marker::PhantomData,
            units: std::marker::PhantomData,
            value: 0.0,
        },
    };

    /// Of a material, with the half-width that its table leaves, as rectangular.
    ///
    /// # Source
    ///
    /// Steel 11.5·10⁻⁶/K: J. Res. NIST 99, 31 (1994). Grey iron 10 to 11 and aluminium-silicon piston alloy
    /// 19 to 21: from memory. That of steel is known to ±1 is common practice, no source.
    pub fn of(material: Material) -> Self {
        let (coefficient, half) = match material {
            Material::Steel => (11.5e-6, 1.0e-6),
            Material::Iron => (10.5e-6, 0.5e-6),
            Material::Aluminium => (20.0e-6, 1.0e-6),
        };
        Self {
            coefficient: TemperatureCoefficient::new::<per_kelvin>(coefficient),
            u: TemperatureCoefficient::new::<per_kelvin>(Standard::rectangular(half).u),
        }
    }

    fn standard(&self) -> Standard {
        Standard::known(self.u.get::<per_kelvin>())
    }

    fn per_kelvin(&self) -> f64 {
        self.coefficient.get::<per_kelvin>()
    }
}

/// A temperature that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermometer {
    /// What it showed.
    pub shown: ThermodynamicTemperature,
    /// Its standard uncertainty.
    pub u: TemperatureInterval,
}

impl Thermometer {
    fn above_reference(&self) -> f64 {
        self.shown.get::<degree_celsius>() - REFERENCE_C
    }

    fn standard(&self) -> Standard {
        Standard::known(self.u.get::<kelvin>())
    }
}

/// How warm part and gauge were.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warmth {
    /// Both had taken on one temperature, which was read once.
    Together(Thermometer),
    /// Each was read by itself.
    Apart {
        /// The part.
        part: Thermometer,
        /// The gauge.
        gauge: Thermometer,
    },
}

/// The size at 20 °C.
///
/// # Formula
///
/// ```text
/// L₂₀ = L·(1 − α_part·(T_part − 20) + α_gauge·(T_gauge − 20))        first order, T in °C
/// ```
///
/// A gauge that has grown reads too little, hence the other sign. What α of a gauge without one (a
/// measured reading at 20 °C, or one that corrects itself) is: 0, with no uncertainty.
///
/// # Errors
///
/// When a number is not finite.
///
/// # Source
///
/// ISO 1; J. Res. NIST 99, 31 (1994).
pub fn at_20_c(
    reading: &Measured,
    part_expansion: &Expansion,
    gauge_expansion: &Expansion,
    warmth: &Warmth,
) -> Result<Gauged, GaugingError> {
    let length = reading.value.get::<meter>();
    let (of_part, of_gauge) = (part_expansion.per_kelvin(), gauge_expansion.per_kelvin());
    let (part_above, gauge_above) = match warmth {
        Warmth::Together(both) => (both.above_reference(), both.above_reference()),
        Warmth::Apart { part, gauge } => (part.above_reference(), gauge.above_reference()),
    };
    let factor = 1.0 - of_part * part_above + of_gauge * gauge_above;
    let mut components = vec![
        part(Source::Reading, reading.standard(), factor),
        part(
            Source::PartExpansion,
            part_expansion.standard(),
            -length * part_above,
        ),
        part(
            Source::GaugeExpansion,
            gauge_expansion.standard(),
            length * gauge_above,
        ),
    ];
    match warmth {
        Warmth::Together(both) => components.push(part(
            Source::Temperature,
            both.standard(),
            length * (of_gauge - of_part),
        )),
        Warmth::Apart {
            part: on_part,
            gauge,
        } => {
            components.push(part(
                Source::PartTemperature,
                on_part.standard(),
                -length * of_part,
            ));
            components.push(part(
                Source::GaugeTemperature,
                gauge.standard(),
                length * of_gauge,
            ));
        }
    }
    gauged(length * factor, components)
}
