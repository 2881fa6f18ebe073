//! Dates and times of day, from an instant and the offset from UTC where the reader is.
//!
//! The core knows neither a clock nor a time zone: both come in as values.

use ringland_card::{Timestamp, time::Civil};

/// The civil date and time at an offset, in minutes east of UTC. An offset that no place on earth has
/// counts as UTC.
pub fn civil(instant: Timestamp, offset_minutes: i32) -> Civil {
    let on_earth = (-LONGEST_OFFSET..=LONGEST_OFFSET).contains(&offset_minutes);
    instant.civil(if on_earth { offset_minutes * 60 } else { 0 })
}

/// A day and an hour, in minutes: further apart are no two clocks.
const LONGEST_OFFSET: i32 = 25 * 60;

/// The time of day to the second: `14:22:07`.
pub fn time_of_day(instant: Timestamp, offset_minutes: i32) -> String {
    let at = civil(instant, offset_minutes);
    format!("{:02}:{:02}:{:02}", at.hour, at.minute, at.second)
}

/// The date and the time of day in figures alone, the year first, as files and logs have it:
/// `2026-11-24 14:22`. Words make [`crate::words::Words::date`].
pub fn stamp(instant: Timestamp, offset_minutes: i32) -> String {
    let at = civil(instant, offset_minutes);
    format!(
        "{:04}-{:02}-{:02} {:02}:{:02}",
        at.date.year, at.date.month, at.date.day, at.hour, at.minute
    )
}

/// An instant from milliseconds since 1970; the first instant where no calendar reaches.
pub fn from_ms(unix_ms: i64) -> Timestamp {
    Timestamp::from_millisecond(unix_ms).unwrap_or(Timestamp::UNIX_EPOCH)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_instant_reads_as_the_clock_on_the_wall() {
        let noon: Timestamp = "2026-11-24T12:22:07Z".parse().unwrap();
        assert_eq!(time_of_day(noon, 0), "12:22:07");
        assert_eq!(time_of_day(noon, 120), "14:22:07");
        assert_eq!(stamp(noon, -13 * 60), "2026-11-23 23:22");
        assert_eq!(stamp(noon, 345), "2026-11-24 18:07");
        assert_eq!(stamp(noon, i32::MAX), "2026-11-24 12:22");
        assert_eq!(
            from_ms(1_795_522_927_000),
            "2026-11-24T12:22:07Z".parse().unwrap()
        );
    }
}
