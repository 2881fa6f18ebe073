//! Instants as the file writes them: RFC 3339, such as `2026-11-24T12:22:07.5Z`.
//!
//! A card needs no more of a calendar than this: to read an instant, to write it, to order instants,
//! and to say what a clock at some offset from UTC shows. The whole of a date library would be a
//! twentieth of the app.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::text;

/// An instant to the nanosecond, in the years 0000 to 9999 of UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Timestamp {
    /// Whole seconds since 1970, rounded down.
    second: i64,
    /// What comes on top.
    nanosecond: u32,
}

/// What a clock on the wall shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Civil {
    /// The day.
    pub date: Date,
    /// Hour, 0 to 23.
    pub hour: u8,
    /// Minute, 0 to 59.
    pub minute: u8,
    /// Second, 0 to 59.
    pub second: u8,
}

/// A day of the Gregorian calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year.
    pub year: i64,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, 1 to 31.
    pub day: u8,
}

/// A text that is not an instant.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{given}` is not an instant: allowed is RFC 3339, such as `2026-11-24T12:22:07Z`, in the years 0000 to 9999"
)]
pub struct TimeError {
    /// What was given, its beginning.
    pub given: String,
}

const DAY: i64 = 86_400;

impl Timestamp {
    /// The beginning of 1970.
    pub const UNIX_EPOCH: Self = Self {
        second: 0,
        nanosecond: 0,
    };

    /// The seconds since 1970 of the first and of the last second.
    const RANGE: (i64, i64) = (-62_167_219_200, 253_402_300_799);

    /// An instant from seconds since 1970; nothing outside the years 0000 to 9999.
    pub fn from_second(second: i64) -> Option<Self> {
        Self::checked(second, 0)
    }

    /// An instant from milliseconds since 1970; nothing outside the years 0000 to 9999.
    pub fn from_millisecond(millisecond: i64) -> Option<Self> {
        let rest = u32::try_from(millisecond.rem_euclid(1000)).ok()?;
        Self::checked(millisecond.div_euclid(1000), rest * 1_000_000)
    }

    /// Milliseconds since 1970, rounded down.
    pub fn as_millisecond(self) -> i64 {
        self.second * 1000 + i64::from(self.nanosecond / 1_000_000)
    }

    /// What a clock shows that is so many seconds ahead of UTC.
    pub fn civil(self, ahead: i32) -> Civil {
        let second = self.second + i64::from(ahead);
        let of_day = second.rem_euclid(DAY);
        Civil {
            date: Date::from_days(second.div_euclid(DAY)),
            hour: small(of_day / 3600),
            minute: small(of_day / 60 % 60),
            second: small(of_day % 60),
        }
    }

    fn checked(second: i64, nanosecond: u32) -> Option<Self> {
        let (first, last) = Self::RANGE;
        (first..=last)
            .contains(&second)
            .then_some(Self { second, nanosecond })
    }

    fn read(text: &str) -> Option<Self> {
        let mut rest = Reader(text.as_bytes());
        let year = rest.number(4)?;
        rest.one_of(b"-")?;
        let month = rest.number_within(2, 1, 12)?;
        rest.one_of(b"-")?;
        let day = rest.number_within(2, 1, days_in(year, month))?;
        rest.one_of(b"Tt ")?;
        let hour = rest.number_within(2, 0, 23)?;
        rest.one_of(b":")?;
        let minute = rest.number_within(2, 0, 59)?;
        rest.one_of(b":")?;
        // A leap second has no instant of its own: it counts as the second before.
        let second = rest.number_within(2, 0, 60)?.min(59);
        let nanosecond = rest.fraction()?;
        let ahead = rest.offset()?;
        rest.0.is_empty().then_some(())?;
        let of_day = hour * 3600 + minute * 60 + second;
        Self::checked(days(year, month, day) * DAY + of_day - ahead, nanosecond)
    }
}

/// A figure of a clock or a calendar, which is small.
fn small(figure: i64) -> u8 {
    u8::try_from(figure).unwrap_or(0)
}

fn days_in(year: i64, month: i64) -> i64 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// Days since 1970 of a date, by years that begin in March, so that the leap day comes last.
fn days(year: i64, month: i64, day: i64) -> i64 {
    let year = if month <= 2 { year - 1 } else { year };
    let era = year.div_euclid(400);
    let of_era = year.rem_euclid(400);
    let of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468
}

impl Date {
    /// The date so many days after the first of 1970; the inverse of [`days`].
    fn from_days(days: i64) -> Self {
        let days = days + 719_468;
        let of_era = days.rem_euclid(146_097);
        let year = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let day = of_year - (153 * month + 2) / 5 + 1;
        let month = if month < 10 { month + 3 } else { month - 9 };
        Self {
            year: year + days.div_euclid(146_097) * 400 + i64::from(month <= 2),
            month: small(month),
            day: small(day),
        }
    }
}

/// What is left of a text.
struct Reader<'t>(&'t [u8]);

impl Reader<'_> {
    fn one_of(&mut self, allowed: &[u8]) -> Option<u8> {
        let (&first, rest) = self.0.split_first()?;
        allowed.contains(&first).then(|| self.0 = rest)?;
        Some(first)
    }

    fn digit(&mut self) -> Option<i64> {
        self.one_of(b"0123456789")
            .map(|digit| i64::from(digit - b'0'))
    }

    fn number(&mut self, digits: usize) -> Option<i64> {
        (0..digits).try_fold(0, |number, _| Some(number * 10 + self.digit()?))
    }

    fn number_within(&mut self, digits: usize, low: i64, high: i64) -> Option<i64> {
        let number = self.number(digits)?;
        (low..=high).contains(&number).then_some(number)
    }

    /// Nanoseconds, where there are any: a point and one to nine digits.
    fn fraction(&mut self) -> Option<u32> {
        if self.one_of(b".").is_none() {
            return Some(0);
        }
        let mut place = 100_000_000;
        let mut sum = self.digit()? * place;
        while place > 1 {
            let Some(digit) = self.digit() else { break };
            place /= 10;
            sum += digit * place;
        }
        u32::try_from(sum).ok()
    }

    /// Seconds ahead of UTC.
    fn offset(&mut self) -> Option<i64> {
        let sign = match self.one_of(b"Zz+-")? {
            b'+' => 1,
            b'-' => -1,
            _ => return Some(0),
        };
        let hours = self.number_within(2, 0, 23)?;
        self.one_of(b":")?;
        let minutes = self.number_within(2, 0, 59)?;
        Some(sign * (hours * 3600 + minutes * 60))
    }
}

impl FromStr for Timestamp {
    type Err = TimeError;

    fn from_str(text: &str) -> Result<Self, TimeError> {
        Self::read(text).ok_or_else(|| TimeError {
            given: text.chars().take(40).collect(),
        })
    }
}

impl fmt::Display for Timestamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Civil {
            date,
            hour,
            minute,
            second,
        } = self.civil(0);
        let Date { year, month, day } = date;
        write!(
            f,
            "{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}"
        )?;
        if self.nanosecond > 0 {
            let digits = format!("{:09}", self.nanosecond);
            write!(f, ".{}", digits.trim_end_matches('0'))?;
        }
        f.write_str("Z")
    }
}

impl Serialize for Timestamp {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        writer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Timestamp {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        text::read(reader, text::INSTANT, Self::read)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    #[test]
    fn what_is_not_an_instant_is_refused() {
        for wrong in [
            "",
            "2026-11-24",
            "2026-11-24T12:22:07",
            "2026-11-24T12:22Z",
            "2026-02-29T00:00:00Z",
            "2026-13-01T00:00:00Z",
            "2026-11-24T24:00:00Z",
            "2026-11-24T12:22:07.Z",
            "2026-11-24T12:22:07.1234567890Z",
            "2026-11-24T12:22:07Z ",
            "2026-11-24T12:22:07+24:00",
            "0000-01-01T00:00:00+00:01",
            "9999-12-31T23:59:59-00:01",
            "２026-11-24T12:22:07Z",
        ] {
            assert_eq!(
                wrong.parse::<Timestamp>().unwrap_err().given,
                wrong,
                "{wrong}"
            );
        }
    }

    #[test]
    fn a_leap_second_counts_as_the_one_before() {
        assert_eq!(at("2016-12-31T23:59:60Z"), at("2016-12-31T23:59:59Z"));
    }

    #[test]
    fn the_range_ends_with_the_years_of_four_digits() {
        let (first, last) = Timestamp::RANGE;
        assert_eq!(at("0000-01-01T00:00:00Z").second, first);
        assert_eq!(at("9999-12-31T23:59:59Z").second, last);
        assert_eq!(Timestamp::from_second(first - 1), None);
        assert_eq!(Timestamp::from_millisecond(i64::MAX), None);
        assert_eq!(
            Timestamp::from_second(last),
            Some(at("9999-12-31T23:59:59Z"))
        );
    }

    proptest! {
        /// A whole date library, in tests only, reads and writes the same.
        #[test]
        fn another_library_agrees(
            second in Timestamp::RANGE.0..=jiff::Timestamp::MAX.as_second(),
            nanosecond in prop_oneof![Just(0), 0..1_000_000_000_i32],
            ahead in -1439..=1439_i32,
        ) {
            let reference = jiff::Timestamp::new(second, nanosecond).unwrap();
            let text = reference.to_string();
            let instant = at(&text);
            prop_assert_eq!(instant.to_string(), text);
            prop_assert_eq!(
                instant.as_millisecond(),
                second * 1000 + i64::from(nanosecond) / 1_000_000
            );
            prop_assert_eq!(
                Timestamp::from_millisecond(instant.as_millisecond()).unwrap().second,
                second
            );
            let offset = jiff::tz::Offset::from_seconds(ahead * 60).unwrap();
            let wall = offset.to_datetime(reference);
            let own = instant.civil(ahead * 60);
            prop_assert_eq!(
                (own.date.year, i32::from(own.date.month), i32::from(own.date.day)),
                (wall.year().into(), i32::from(wall.month()), i32::from(wall.day()))
            );
            prop_assert_eq!(
                [own.hour, own.minute, own.second].map(i32::from),
                [wall.hour(), wall.minute(), wall.second()].map(i32::from)
            );
            let there = reference.display_with_offset(offset).to_string();
            if !there.starts_with('-') {
                prop_assert_eq!(at(&there), instant);
            }
        }

        #[test]
        fn no_text_makes_it_stumble(text in "\\PC{0,40}|[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9:.+-]{0,20}Z?") {
            if let Ok(instant) = text.parse::<Timestamp>() {
                prop_assert_eq!(at(&instant.to_string()), instant);
            }
        }
    }
}
