//! How a page is to be read: its language, units and clock. It stands in the page, so that the page can be made
//! anew.

use std::{fmt, str::FromStr};

use crate::{
    format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit},
    words::Language,
};

/// What a page's bytes depend on beside its card.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ReadAs {
    /// The language.
    pub language: Language,
    /// The units.
    pub units: UnitPrefs,
    /// Minutes that the clock is ahead of UTC.
    pub offset_minutes: i32,
}

/// A day; no clock on Earth is as far from UTC.
const MOST_OFFSET: i32 = 24 * 60;

impl ReadAs {
    /// The clock's zone: `UTC`, `UTC+02:00`.
    pub fn zone(self) -> String {
        let ahead = self.offset_minutes.unsigned_abs();
        match self.offset_minutes {
            0 => "UTC".to_owned(),
            offset => {
                let sign = if offset < 0 { '−' } else { '+' };
                format!("UTC{sign}{:02}:{:02}", ahead / 60, ahead % 60)
            }
        }
    }
}

/// `en;km;L;mm;°C;0`.
impl fmt::Display for ReadAs {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let UnitPrefs {
            distance,
            volume,
            length,
            temperature,
        } = self.units;
        write!(
            f,
            "{};{};{};{};{};{}",
            self.language.tag(),
            distance.symbol(),
            volume.symbol(),
            length.symbol(),
            temperature.symbol(),
            self.offset_minutes
        )
    }
}

/// Not of the form that [`ReadAs`] writes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("allowed is a language, four units and minutes, such as `en;km;L;mm;°C;0`")]
pub struct ReadAsError;

impl FromStr for ReadAs {
    type Err = ReadAsError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        fn one<T: Copy>(all: &[T], symbol: fn(T) -> &'static str, given: &str) -> Option<T> {
            all.iter().copied().find(|unit| symbol(*unit) == given)
        }
        let read = || {
            let mut parts = text.split(';');
            let language = Language::of_tag(parts.next()?)?;
            let units = UnitPrefs {
                distance: one(&DistanceUnit::ALL, DistanceUnit::symbol, parts.next()?)?,
                volume: one(&VolumeUnit::ALL, VolumeUnit::symbol, parts.next()?)?,
                length: one(&LengthUnit::ALL, LengthUnit::symbol, parts.next()?)?,
                temperature: one(
                    &TemperatureUnit::ALL,
                    TemperatureUnit::symbol,
                    parts.next()?,
                )?,
            };
            let offset: i32 = parts.next()?.parse().ok()?;
            let known = (-MOST_OFFSET..=MOST_OFFSET).contains(&offset) && parts.next().is_none();
            known.then_some(Self {
                language,
                units,
                offset_minutes: offset,
            })
        };
        read().ok_or(ReadAsError)
    }
}

/// How a page says that it is to be read; none where it does not.
pub fn was_read_as(page: &str) -> Option<ReadAs> {
    let (_, after) = page.split_once("<meta name=\"ringland-page\" content=\"")?;
    after.split_once('"')?.0.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        for language in Language::ALL {
            for offset_minutes in [0, 60, -210, 14 * 60] {
                for (distance, length) in DistanceUnit::ALL.into_iter().zip(LengthUnit::ALL) {
                    let units = UnitPrefs {
                        distance,
                        length,
                        ..UnitPrefs::default()
                    };
                    let read_as = ReadAs {
                        language,
                        units,
                        offset_minutes,
                    };
                    assert_eq!(read_as.to_string().parse(), Ok(read_as));
                }
            }
        }
    }

    #[test]
    fn anything_else_is_refused() {
        for text in [
            "",
            "en",
            "en;km;L;mm;°C",
            "xx;km;L;mm;°C;0",
            "en;km;L;mm;°C;0;0",
            "en;km;L;mm;°C;1441",
        ] {
            assert_eq!(text.parse::<ReadAs>(), Err(ReadAsError), "{text}");
        }
    }

    #[test]
    fn a_clock_is_named_by_how_far_it_is_from_utc() {
        let zone = |offset_minutes| {
            let read_as = ReadAs {
                offset_minutes,
                ..ReadAs::default()
            };
            read_as.zone()
        };
        assert_eq!(zone(0), "UTC");
        assert_eq!(zone(120), "UTC+02:00");
        assert_eq!(zone(-210), "UTC−03:30");
    }
}
