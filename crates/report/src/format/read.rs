//! Numbers as people type them.
//!
//! Comma and point are both decimal signs; spaces (and an apostrophe) part groups of three digits.
//! The rules, in order:
//!
//! 1. Both signs stand there: the last is the decimal sign, the other parts groups of three.
//! 2. One sign stands there more than once: it parts groups of three.
//! 3. One sign stands there once: it is the decimal sign. Only where a figure is [`Reading::Large`],
//!    as a distance, hours or fuel burned, and just three digits follow one to three that do not
//!    begin with 0, it parts a group: nobody knows a life's distance to the metre.
//!
//! What fits none of them is refused, not guessed at. A caller shows how it understood the figure.
//!
//! The rules are the same in every language: people type what their keyboard and their gauge give them,
//! not what the screen is set to, and a file that a colleague reads in another language must not change
//! its meaning. So `1.234` and `1,234` alike are a little over one where [`Reading::Plain`] is asked for,
//! and one thousand two hundred and thirty-four where [`Reading::Large`] is.

/// Which figures are to be expected.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Sizes, percentages, counts, a sump's volume: `12,345` is a little over twelve.
    Plain,
    /// Distances, hours, fuel burned: `500,000` is half a million.
    Large,
}

/// Why a typed figure was refused. The words for it are [`crate::words::Words::number_error`].
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NumberError {
    /// Nothing was typed.
    #[error("nothing was typed")]
    Empty,
    /// Something other than digits and signs.
    #[error("`{given}` is not a number")]
    NotANumber {
        /// What was typed, cut to a readable length.
        given: String,
    },
    /// Signs that part neither decimals nor groups of three.
    #[error("`{given}` can be read in more than one way: leave out what parts the thousands")]
    Groups {
        /// What was typed, cut to a readable length.
        given: String,
    },
    /// A unit that does not belong to the quantity.
    #[error("`{given}` is not a unit of this: allowed are {allowed}")]
    Unit {
        /// The unit typed.
        given: String,
        /// What may stand there.
        allowed: &'static str,
    },
    /// A figure below 0 where none can be.
    #[error("`{given}` is negative: allowed is 0 or more")]
    Negative {
        /// What was typed.
        given: String,
    },
    /// A part of one where only whole numbers count.
    #[error("`{given}` is not a whole number")]
    NotWhole {
        /// What was typed.
        given: String,
    },
}

/// Longer than any number worth typing.
const LONGEST: usize = 40;

/// Reads a plain figure: a percentage, a size, a share. See the rules above.
///
/// # Errors
///
/// [`NumberError`] with what was typed.
pub fn parse_number(text: &str) -> Result<f64, NumberError> {
    parse(text, Reading::Plain)
}

/// Reads a count: a whole number from 0.
///
/// # Errors
///
/// [`NumberError`] with what was typed.
pub fn parse_count(text: &str) -> Result<i64, NumberError> {
    let value = parse(text, Reading::Large)?;
    if value < 0.0 {
        return Err(NumberError::Negative { given: cut(text) });
    }
    // Beyond 2⁵³ a float no longer tells one whole number from the next.
    if value.fract() > 0.0 || value > 9_007_199_254_740_992.0 {
        return Err(NumberError::NotWhole { given: cut(text) });
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "checked to be whole and small enough"
    )]
    Ok(value as i64)
}

/// Reads a figure of 0 or more with an optional unit after it: the figure and the unit's text.
///
/// # Errors
///
/// [`NumberError`] with what was typed.
pub fn parse_quantity(text: &str, reading: Reading) -> Result<(f64, &str), NumberError> {
    let text = text.trim();
    let unit_at = text
        .char_indices()
        .find(|(_, c)| c.is_alphabetic() || matches!(c, '°' | '"' | '″'))
        .map_or(text.len(), |(at, _)| at);
    let (figure, unit) = text.split_at(unit_at);
    if figure.trim().is_empty() && !unit.is_empty() {
        return Err(NumberError::NotANumber { given: cut(text) });
    }
    let value = parse(figure, reading)?;
    if value < 0.0 {
        return Err(NumberError::Negative { given: cut(text) });
    }
    Ok((value, unit.trim_end_matches(['.', ' '])))
}

/// Reads a figure by the rules above.
pub(super) fn parse(text: &str, reading: Reading) -> Result<f64, NumberError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NumberError::Empty);
    }
    let wrong = || NumberError::NotANumber { given: cut(text) };
    let (negative, figure) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(figure) => (true, figure.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    if figure.chars().count() > LONGEST || !figure.contains(|c: char| c.is_ascii_digit()) {
        return Err(wrong());
    }
    if !figure
        .chars()
        .all(|c| c.is_ascii_digit() || is_space(c) || matches!(c, ',' | '.'))
    {
        return Err(wrong());
    }
    let (whole, parts) = split(figure, reading);
    let digits = ungrouped(whole).ok_or_else(|| NumberError::Groups { given: cut(text) })?;
    if !parts.chars().all(|c| c.is_ascii_digit()) {
        return Err(NumberError::Groups { given: cut(text) });
    }
    let value: f64 = format!("{digits}.{parts}0")
        .parse()
        .map_err(|_not| wrong())?;
    Ok(if negative { -value } else { value })
}

/// The whole with whatever parts its groups, and the digits after the decimal sign.
fn split(figure: &str, reading: Reading) -> (&str, &str) {
    let signs = |sign: char| figure.matches(sign).count();
    let decimal = match (signs(','), signs('.')) {
        (0, 1) | (1, 0) => figure
            .rfind([',', '.'])
            .filter(|at| reading == Reading::Plain || !parts_a_group(figure, *at)),
        (0, _) | (_, 0) => None,
        _ => figure.rfind([',', '.']),
    };
    match decimal {
        Some(at) => (&figure[..at], &figure[at + 1..]),
        None => (figure, ""),
    }
}

/// Whether the one sign at this place can only part thousands in a large figure.
fn parts_a_group(figure: &str, at: usize) -> bool {
    let (before, after) = (&figure[..at], &figure[at + 1..]);
    after.len() == 3
        && after.bytes().all(|c| c.is_ascii_digit())
        && (1..=3).contains(&before.len())
        && !before.starts_with('0')
        && before.bytes().all(|c| c.is_ascii_digit())
}

/// The digits of a whole number whose groups, if any, are all of three and parted by one sign.
fn ungrouped(whole: &str) -> Option<String> {
    let Some(sign) = whole.chars().find(|c| !c.is_ascii_digit()) else {
        return Some(if whole.is_empty() {
            "0".to_owned()
        } else {
            whole.to_owned()
        });
    };
    let same = |c: char| c == sign || (is_space(c) && is_space(sign));
    let groups: Vec<&str> = whole.split(same).collect();
    let fits = groups.iter().enumerate().all(|(place, group)| {
        let long = if place == 0 {
            (1..=3).contains(&group.len())
        } else {
            group.len() == 3
        };
        long && group.bytes().all(|c| c.is_ascii_digit())
    });
    fits.then(|| groups.concat())
}

/// Spaces of every width, and the apostrophes that some write in their place.
fn is_space(c: char) -> bool {
    matches!(
        c,
        ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' | '\'' | '\u{2019}'
    )
}

fn cut(text: &str) -> String {
    text.trim().chars().take(LONGEST).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(reading: Reading, text: &str, value: f64) {
        assert_eq!(parse(text, reading), Ok(value), "{text}");
    }

    #[test]
    fn comma_and_point_are_decimal_signs() {
        for reading in [Reading::Plain, Reading::Large] {
            check(reading, "12,5", 12.5);
            check(reading, "12.5", 12.5);
            check(reading, " 12 ", 12.0);
            check(reading, ".5", 0.5);
            check(reading, "5.", 5.0);
            check(reading, "0,125", 0.125);
            check(reading, "-3,5", -3.5);
            check(reading, "\u{2212}3.5", -3.5);
            check(reading, "+7", 7.0);
            check(reading, "1,234.5", 1234.5);
            check(reading, "1.234,5", 1234.5);
            check(reading, "1,234,567", 1_234_567.0);
            check(reading, "1.234.567", 1_234_567.0);
            check(reading, "812 400", 812_400.0);
            check(reading, "812\u{202f}400,5", 812_400.5);
            check(reading, "812'400", 812_400.0);
        }
    }

    #[test]
    fn one_sign_before_three_digits_is_told_by_what_is_asked() {
        check(Reading::Plain, "12,345", 12.345);
        check(Reading::Plain, "37.854", 37.854);
        check(Reading::Large, "500,000", 500_000.0);
        check(Reading::Large, "812.400", 812_400.0);
        check(Reading::Large, "1234.567", 1234.567);
        check(Reading::Large, "0.125", 0.125);
    }

    /// Whichever language is set, and whichever sign it writes: the two signs are read alike.
    #[test]
    fn point_and_comma_are_read_alike() {
        for (with_comma, with_point) in [
            ("1,234", "1.234"),
            ("0,5", "0.5"),
            ("12,34", "12.34"),
            ("1234,567", "1234.567"),
            ("812,400", "812.400"),
            ("1.234,5", "1,234.5"),
            ("1.234.567,8", "1,234,567.8"),
            ("14 930,5", "14\u{202f}930.5"),
        ] {
            for reading in [Reading::Plain, Reading::Large] {
                let comma = parse(with_comma, reading);
                assert!(comma.is_ok(), "{with_comma}");
                assert_eq!(comma, parse(with_point, reading), "{with_comma}");
            }
        }
        check(Reading::Plain, "1,234", 1.234);
        check(Reading::Plain, "1.234", 1.234);
        check(Reading::Large, "1,234", 1234.0);
        check(Reading::Large, "1.234", 1234.0);
    }

    #[test]
    fn what_can_be_read_in_two_ways_is_refused() {
        for text in [
            "1,23,4",
            "12 34",
            "1.2.3",
            "1,2345,678",
            "1,234.567.8",
            "1 2,5",
            "1,234 567",
        ] {
            assert!(
                matches!(parse(text, Reading::Plain), Err(NumberError::Groups { .. })),
                "{text}"
            );
        }
        for text in [
            "x", "12a", "--3", "1e5", "NaN", "inf", "½", ",", "٣", "0x10",
        ] {
            assert!(
                matches!(
                    parse(text, Reading::Plain),
                    Err(NumberError::NotANumber { .. })
                ),
                "{text}"
            );
        }
        assert_eq!(parse_number("  "), Err(NumberError::Empty));
        assert_eq!(
            parse_quantity("lots", Reading::Plain),
            Err(NumberError::NotANumber {
                given: "lots".to_owned()
            })
        );
        assert!(parse_number(&"9".repeat(500)).is_err());
    }

    #[test]
    fn a_count_is_whole() {
        assert_eq!(parse_count("12"), Ok(12));
        assert_eq!(parse_count("1,200"), Ok(1200));
        assert!(matches!(
            parse_count("-1"),
            Err(NumberError::Negative { .. })
        ));
        assert!(matches!(
            parse_count("1.5"),
            Err(NumberError::NotWhole { .. })
        ));
    }

    #[test]
    fn a_unit_may_follow() {
        assert_eq!(
            parse_quantity("500,000 mi", Reading::Large),
            Ok((500_000.0, "mi"))
        );
        assert_eq!(
            parse_quantity("500000mi.", Reading::Large),
            Ok((500_000.0, "mi"))
        );
        assert_eq!(parse_quantity("38", Reading::Plain), Ok((38.0, "")));
        assert!(matches!(
            parse_quantity("-3 km", Reading::Large),
            Err(NumberError::Negative { .. })
        ));
    }
}
