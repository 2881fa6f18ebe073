//! A number as it was typed: `129.410` says more than 129.41 does.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::text;

/// The most digits of a number: more than any gauge shows, and few enough to be kept exact.
pub const MOST_DIGITS: usize = 15;

/// A decimal number with its digits as they were typed, zeros at its end included.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend(
    "maxLength" = MOST_DIGITS + 2,
    "pattern" = r"^-?[0-9]+(\.[0-9]+)?$",
)))]
pub struct Decimal(Box<str>);

/// Text that is not a decimal number as it is written here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is not a number: allowed are up to {MOST_DIGITS} digits with one `.`")]
pub struct DecimalError {
    /// The text as given, cut to a readable length.
    pub given: String,
}

fn is_decimal(text: &str) -> bool {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = match digits.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (digits, None),
    };
    let all_digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    all_digits(whole)
        && fraction.is_none_or(all_digits)
        && whole.len() + fraction.map_or(0, str::len) <= MOST_DIGITS
}

fn decimal(text: &str) -> Option<Decimal> {
    is_decimal(text).then(|| Decimal(text.into()))
}

impl Decimal {
    /// Reads the form that the file has: digits with one `.`; a screen turns its comma into it first.
    ///
    /// # Errors
    ///
    /// [`DecimalError`] for anything else.
    pub fn new(text: &str) -> Result<Self, DecimalError> {
        decimal(text).ok_or_else(|| DecimalError {
            given: text.chars().take(MOST_DIGITS + 2).collect(),
        })
    }

    /// The number.
    pub fn value(&self) -> f64 {
        // Every text that came through the check is a number.
        self.0.parse().unwrap_or(f64::NAN)
    }

    /// How many digits stand after the point.
    pub fn places(&self) -> usize {
        self.0
            .split_once('.')
            .map_or(0, |(_, fraction)| fraction.len())
    }

    /// One of its last digit: 0.001 for `129.410`.
    pub fn last_digit(&self) -> f64 {
        // The nearest double to the power of ten, which multiplying up to it may miss.
        format!("1e-{}", self.places()).parse().unwrap_or(1.0)
    }

    /// The digits as typed.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Serialize for Decimal {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        writer.serialize_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Decimal {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        text::read(reader, text::DECIMAL, decimal)
    }
}
