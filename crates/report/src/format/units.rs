//! The units that people use, to and from the SI units inside.
//!
//! Factors as NIST Special Publication 811 (2008), appendix B, gives them as exact: 1 mile is
//! 1609.344 m, 1 inch is 25.4 mm, 1 US gallon is 3.785 411 784 L.
//!
//! A typed unit is known by its sign and by its name in every language, whichever is set: a gallon is
//! the US gallon.

use serde::{Deserialize, Serialize};
use uom::si::{
    f64::{Length, ThermodynamicTemperature, Time, Volume},
    length::{inch, kilometer, meter, mile, millimeter},
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
    time::hour,
    volume::{cubic_meter, liter},
};

use super::{NBSP, NumberError, Numbers, Reading, parse_quantity};

/// Litres in a US gallon, exactly. The quantity crate's own gallon is rounded in the seventh digit.
const LITRES_IN_US_GALLON: f64 = 3.785_411_784;

/// Units of distance.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DistanceUnit {
    /// Kilometres.
    #[default]
    Kilometre,
    /// Miles.
    Mile,
}

/// Units of volume.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum VolumeUnit {
    /// Litres.
    #[default]
    Litre,
    /// US gallons.
    UsGallon,
}

/// Units of size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches.
    Inch,
}

/// Units of temperature.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// The units somebody likes to see, one for each quantity: people mix them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct UnitPrefs {
    /// For distances.
    pub distance: DistanceUnit,
    /// For volumes.
    pub volume: VolumeUnit,
    /// For sizes.
    pub length: LengthUnit,
    /// For temperatures.
    pub temperature: TemperatureUnit,
}

impl DistanceUnit {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Kilometre, Self::Mile];

    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kilometre => "km",
            Self::Mile => "mi",
        }
    }

    /// So many of this unit.
    pub fn length(self, value: f64) -> Length {
        match self {
            Self::Kilometre => Length::new::<kilometer>(value),
            Self::Mile => Length::new::<mile>(value),
        }
    }

    /// How many of this unit a distance is.
    pub fn value(self, distance: Length) -> f64 {
        match self {
            Self::Kilometre => distance.get::<kilometer>(),
            Self::Mile => distance.get::<mile>(),
        }
    }

    /// The distance and its unit as it was typed: `500,000 mi`, `800 000 km`, or a bare figure in
    /// this unit.
    ///
    /// # Errors
    ///
    /// [`NumberError`] with what was typed and what may stand there.
    pub fn parse(self, text: &str) -> Result<(Length, Self), NumberError> {
        let (value, unit) = parse_quantity(text, Reading::Large)?;
        let unit = match unit.to_lowercase().as_str() {
            "" => self,
            "km" | "kms" | "kilometre" | "kilometres" | "kilometer" | "kilometers"
            | "kilómetro" | "kilómetros" | "kilometro" | "kilometros" => Self::Kilometre,
            "mi" | "mile" | "miles" | "milla" | "millas" => Self::Mile,
            _ => return Err(unknown(unit, "km, mi")),
        };
        Ok((unit.length(value), unit))
    }
}

impl VolumeUnit {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Litre, Self::UsGallon];

    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Litre => "L",
            Self::UsGallon => "gal",
        }
    }

    /// So many of this unit.
    pub fn volume(self, value: f64) -> Volume {
        match self {
            Self::Litre => Volume::new::<liter>(value),
            Self::UsGallon => Volume::new::<liter>(value * LITRES_IN_US_GALLON),
        }
    }

    /// How many of this unit a volume is.
    pub fn value(self, volume: Volume) -> f64 {
        match self {
            Self::Litre => volume.get::<liter>(),
            Self::UsGallon => volume.get::<liter>() / LITRES_IN_US_GALLON,
        }
    }

    /// The volume and its unit as it was typed; a bare figure is in this unit.
    ///
    /// # Errors
    ///
    /// [`NumberError`] with what was typed and what may stand there.
    pub fn parse(self, text: &str, reading: Reading) -> Result<(Volume, Self), NumberError> {
        let (value, unit) = parse_quantity(text, reading)?;
        let unit = match unit.to_lowercase().as_str() {
            "" => self,
            "l" | "lt" | "lts" | "ltr" | "litre" | "litres" | "liter" | "liters" | "litro"
            | "litros" => Self::Litre,
            "gal" | "gals" | "gallon" | "gallons" | "us gal" | "us gallon" | "us gallons"
            | "galón" | "galon" | "galones" => Self::UsGallon,
            _ => return Err(unknown(unit, "L, gal")),
        };
        Ok((unit.volume(value), unit))
    }
}

impl LengthUnit {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Millimetre, Self::Inch];

    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }

    /// So many of this unit.
    pub fn length(self, value: f64) -> Length {
        match self {
            Self::Millimetre => Length::new::<millimeter>(value),
            Self::Inch => Length::new::<inch>(value),
        }
    }

    /// How many of this unit a size is.
    pub fn value(self, size: Length) -> f64 {
        match self {
            Self::Millimetre => size.get::<millimeter>(),
            Self::Inch => size.get::<inch>(),
        }
    }

    /// The size and its unit as it was typed: `0.012"`, `0,3 mm`, `12 µm`, or a bare figure in this
    /// unit.
    ///
    /// # Errors
    ///
    /// [`NumberError`] with what was typed and what may stand there.
    pub fn parse(self, text: &str) -> Result<(Length, Self), NumberError> {
        let (value, unit) = parse_quantity(text, Reading::Plain)?;
        let (unit, value) = match unit.to_lowercase().as_str() {
            "" => (self, value),
            "mm" => (Self::Millimetre, value),
            "µm" | "μm" | "um" => (Self::Millimetre, value / 1000.0),
            "in" | "inch" | "inches" | "pulg" | "pulgada" | "pulgadas" | "\"" | "″" => {
                (Self::Inch, value)
            }
            _ => return Err(unknown(unit, "mm, µm, in")),
        };
        Ok((unit.length(value), unit))
    }
}

impl TemperatureUnit {
    /// Both, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Celsius, Self::Fahrenheit];

    /// Its sign.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }

    /// The temperature of that many degrees.
    pub fn temperature(self, value: f64) -> ThermodynamicTemperature {
        match self {
            Self::Celsius => ThermodynamicTemperature::new::<degree_celsius>(value),
            Self::Fahrenheit => ThermodynamicTemperature::new::<degree_fahrenheit>(value),
        }
    }

    /// How many of these degrees a temperature is.
    pub fn value(self, temperature: ThermodynamicTemperature) -> f64 {
        match self {
            Self::Celsius => temperature.get::<degree_celsius>(),
            Self::Fahrenheit => temperature.get::<degree_fahrenheit>(),
        }
    }
}

/// Running hours as they were typed: `14 930`, `14,930 h`.
///
/// # Errors
///
/// [`NumberError`] with what was typed and what may stand there.
pub fn parse_hours(text: &str) -> Result<Time, NumberError> {
    let (value, unit) = parse_quantity(text, Reading::Large)?;
    match unit.to_lowercase().as_str() {
        "" | "h" | "hr" | "hrs" | "hour" | "hours" | "hora" | "horas" => {
            Ok(Time::new::<hour>(value))
        }
        _ => Err(unknown(unit, "h")),
    }
}

fn unknown(given: &str, allowed: &'static str) -> NumberError {
    NumberError::Unit {
        given: given.chars().take(20).collect(),
        allowed,
    }
}

/// The catalogue keeps no figures, so quantities are written here.
impl Numbers {
    /// A distance in whole units: `812,400 km`.
    pub fn distance(self, distance: Length, units: UnitPrefs) -> String {
        let unit = units.distance;
        format!(
            "{}{NBSP}{}",
            self.fixed(unit.value(distance), 0),
            unit.symbol()
        )
    }

    /// A distance given in metres; see [`Numbers::distance`].
    pub fn distance_m(self, metres: f64, units: UnitPrefs) -> String {
        self.distance(Length::new::<meter>(metres), units)
    }

    /// A volume; a decimal below a hundred, where it says something: `37.9 L`, `240,000 L`.
    pub fn volume(self, volume: Volume, units: UnitPrefs) -> String {
        let unit = units.volume;
        let value = unit.value(volume);
        let decimals = usize::from(value < 100.0);
        format!("{}{NBSP}{}", self.short(value, decimals), unit.symbol())
    }

    /// A volume given in cubic metres; see [`Numbers::volume`].
    pub fn volume_m3(self, cubic_metres: f64, units: UnitPrefs) -> String {
        self.volume(Volume::new::<cubic_meter>(cubic_metres), units)
    }

    /// Running hours: `14,930 h`.
    pub fn hours(self, time: Time) -> String {
        format!("{}{NBSP}h", self.fixed(time.get::<hour>(), 0))
    }

    /// Running hours given in seconds; see [`Numbers::hours`].
    pub fn hours_s(self, seconds: f64) -> String {
        self.hours(Time::new::<uom::si::time::second>(seconds))
    }

    /// A size: three decimals of a millimetre, four of an inch.
    pub fn size(self, size: Length, units: UnitPrefs) -> String {
        let unit = units.length;
        let decimals = match unit {
            LengthUnit::Millimetre => 3,
            LengthUnit::Inch => 4,
        };
        format!(
            "{}{NBSP}{}",
            self.fixed(unit.value(size), decimals),
            unit.symbol()
        )
    }

    /// A temperature in whole degrees.
    pub fn temperature(self, temperature: ThermodynamicTemperature, units: UnitPrefs) -> String {
        let unit = units.temperature;
        format!(
            "{}{NBSP}{}",
            self.fixed(unit.value(temperature), 0),
            unit.symbol()
        )
    }
}

#[cfg(test)]
mod tests {
    use uom::si::{thermodynamic_temperature::kelvin, time::second};

    use super::*;

    #[track_caller]
    fn close(is: f64, should: f64) {
        assert!(
            (is - should).abs() <= 1e-12 * should.abs(),
            "{is} is not {should}"
        );
    }

    /// NIST SP 811 (2008), appendix B.8, factors in bold type (exact).
    #[test]
    fn exact_factors() {
        close(DistanceUnit::Mile.length(1.0).get::<meter>(), 1609.344);
        close(DistanceUnit::Kilometre.length(1.0).get::<meter>(), 1000.0);
        close(LengthUnit::Inch.length(1.0).get::<millimeter>(), 25.4);
        close(LengthUnit::Inch.length(1.0).get::<meter>(), 0.0254);
        close(
            VolumeUnit::UsGallon.volume(1.0).get::<liter>(),
            3.785_411_784,
        );
        // A US gallon is 231 cubic inches.
        close(
            VolumeUnit::UsGallon.volume(1.0).get::<cubic_meter>(),
            231.0 * 0.0254 * 0.0254 * 0.0254,
        );
        // 1 mil is 25.4 µm.
        close(LengthUnit::Inch.length(0.001).get::<meter>() * 1e6, 25.4);
    }

    /// NIST SP 811 (2008), appendix B.8: t/°C = (t/°F − 32)/1.8, T/K = t/°C + 273.15.
    #[test]
    fn temperatures() {
        let boiling = TemperatureUnit::Fahrenheit.temperature(212.0);
        assert!((boiling.get::<kelvin>() - 373.15).abs() < 1e-9);
        assert!((TemperatureUnit::Celsius.value(boiling) - 100.0).abs() < 1e-9);
        let cold = TemperatureUnit::Celsius.temperature(-40.0);
        assert!((TemperatureUnit::Fahrenheit.value(cold) + 40.0).abs() < 1e-9);
    }

    #[test]
    fn there_and_back() {
        for unit in DistanceUnit::ALL {
            close(unit.value(unit.length(812_400.0)), 812_400.0);
        }
        for unit in VolumeUnit::ALL {
            close(unit.value(unit.volume(37.9)), 37.9);
        }
        for unit in LengthUnit::ALL {
            close(unit.value(unit.length(0.0123)), 0.0123);
        }
    }

    #[test]
    fn a_typed_unit_holds() {
        let km = DistanceUnit::Kilometre;
        let (distance, unit) = km.parse("500,000 mi").unwrap();
        assert_eq!(unit, DistanceUnit::Mile);
        close(distance.get::<meter>(), 804_672_000.0);
        assert_eq!(km.parse("500000mi").unwrap(), (distance, unit));
        let (distance, unit) = DistanceUnit::Mile.parse("800 000 km").unwrap();
        assert_eq!(unit, km);
        close(distance.get::<meter>(), 8e8);
        assert_eq!(km.parse("800000").unwrap(), (distance, km));
        assert_eq!(
            km.parse("12 furlongs"),
            Err(NumberError::Unit {
                given: "furlongs".to_owned(),
                allowed: "km, mi"
            })
        );
        let (sump, unit) = VolumeUnit::Litre.parse("10 gal", Reading::Plain).unwrap();
        assert_eq!(unit, VolumeUnit::UsGallon);
        close(sump.get::<liter>(), 37.854_117_84);
        let (gap, _) = LengthUnit::Millimetre.parse("0.012\"").unwrap();
        close(gap.get::<millimeter>(), 0.3048);
        close(
            LengthUnit::Inch.parse("12 µm").unwrap().0.get::<meter>(),
            12e-6,
        );
        close(
            parse_hours("14,930 h").unwrap().get::<second>(),
            14_930.0 * 3600.0,
        );
    }

    #[test]
    fn a_unit_has_its_name_in_every_language() {
        let km = DistanceUnit::Kilometre;
        let miles = km.parse("500.000 millas").unwrap();
        assert_eq!(miles, km.parse("500,000 miles").unwrap());
        let metric = DistanceUnit::Mile.parse("812 400 kilómetros").unwrap();
        assert_eq!(metric, km.parse("812,400 km").unwrap());
        let litre = VolumeUnit::Litre;
        let gallons = litre.parse("10,5 galones", Reading::Plain).unwrap();
        assert_eq!(gallons, litre.parse("10.5 gal", Reading::Plain).unwrap());
        let litres = VolumeUnit::UsGallon.parse("38 Litros", Reading::Plain);
        assert_eq!(litres.unwrap(), litre.parse("38", Reading::Plain).unwrap());
        let inches = LengthUnit::Millimetre.parse("0,012 pulg.").unwrap();
        assert_eq!(inches, LengthUnit::Inch.parse("0.012").unwrap());
        assert_eq!(parse_hours("14.930 horas"), parse_hours("14,930 h"));
    }

    #[test]
    fn quantities_read_well() {
        let (metric, american) = (
            UnitPrefs::default(),
            UnitPrefs {
                distance: DistanceUnit::Mile,
                volume: VolumeUnit::UsGallon,
                length: LengthUnit::Inch,
                temperature: TemperatureUnit::Fahrenheit,
            },
        );
        let en = Numbers::ENGLISH;
        assert_eq!(en.distance_m(812_400_000.0, metric), "812,400\u{a0}km");
        assert_eq!(en.distance_m(804_672_000.0, american), "500,000\u{a0}mi");
        assert_eq!(en.volume_m3(0.038, metric), "38\u{a0}L");
        assert_eq!(en.volume_m3(0.037_854_117_84, american), "10\u{a0}gal");
        assert_eq!(en.hours_s(14_930.0 * 3600.0), "14,930\u{a0}h");
        assert_eq!(
            en.size(Length::new::<millimeter>(130.0123), metric),
            "130.012\u{a0}mm"
        );
        assert_eq!(
            en.temperature(TemperatureUnit::Celsius.temperature(100.0), american),
            "212\u{a0}°F"
        );
    }
}
