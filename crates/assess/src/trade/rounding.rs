//! Rounding before a decision, as people do it: in decimal.

/// Decimals of a number as people write it: 1 of 286.2, 0 of 20.
pub fn decimals_of(number: f64) -> usize {
    let text = number.to_string();
    text.split_once('.')
        .map_or(0, |(_, decimals)| decimals.len())
}

/// Rounds half to even in decimal: 8.65 becomes 8.6 and 2.35 becomes 2.4, whatever the binary fractions
/// next to them are.
///
/// Works on the decimal text of the number to 15 significant digits, which is as many as an `f64` is sure
/// to hold. Up to so many digits that is the number as somebody typed it. A result worked out of such
/// numbers may differ from its true decimal in the last bits (the mean of 0.1 and 1.6 comes out as
/// 0.8500000000000001), and it is this difference that must not decide.
///
/// NaN and infinities come back as they are; −0 comes back as 0.
///
/// # Source
///
/// The rounding method of ASTM E29 (from memory).
pub fn round_half_even(number: f64, decimals: usize) -> f64 {
    if !number.is_finite() {
        return number;
    }
    // To 15 significant digits, then to the shortest text of that.
    let typed = match format!("{number:.14e}").parse::<f64>() {
        Ok(typed) if typed.is_finite() => typed,
        _ => number,
    };
    let text = typed.abs().to_string();
    let Some((whole, fraction)) = text.split_once('.') else {
        return typed + 0.0;
    };
    if fraction.len() <= decimals {
        return typed + 0.0;
    }
    let (kept, rest) = fraction.split_at(decimals);
    let mut digits: Vec<u8> = whole.bytes().chain(kept.bytes()).collect();
    let odd = digits.last().is_some_and(|digit| digit % 2 == 1);
    let up = match rest.as_bytes() {
        [b'5', zeros @ ..] if zeros.iter().all(|zero| *zero == b'0') => odd,
        [first, ..] => *first >= b'5',
        [] => false,
    };
    if up {
        add_one(&mut digits);
    }
    digits.insert(digits.len() - decimals, b'.');
    let rounded: f64 = String::from_utf8_lossy(&digits)
        .parse()
        .unwrap_or(typed.abs());
    rounded.copysign(number) + 0.0
}

/// Adds one to the last of a row of decimal digits.
fn add_one(digits: &mut Vec<u8>) {
    for digit in digits.iter_mut().rev() {
        if *digit < b'9' {
            *digit += 1;
            return;
        }
        *digit = b'0';
    }
    digits.insert(0, b'1');
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Worked with Python's `decimal` (`quantize`, `ROUND_HALF_EVEN`) on the decimal texts.
    #[test]
    fn rounding_is_half_to_even_in_decimal() {
        for (number, decimals, want) in [
            (2.25, 1, 2.2),
            (2.35, 1, 2.4),
            (2.45, 1, 2.4),
            (8.65, 1, 8.6),
            (311.65, 1, 311.6),
            (0.305, 2, 0.30),
            (0.315, 2, 0.32),
            (0.5, 0, 0.0),
            (1.5, 0, 2.0),
            (9.96, 1, 10.0),
            (99.5, 0, 100.0),
            (-2.35, 1, -2.4),
            (-0.04, 1, 0.0),
            (8.651, 1, 8.7),
            (8.65, 4, 8.65),
            (1e300, 2, 1e300),
            (1e-300, 2, 0.0),
        ] {
            assert_eq!(
                round_half_even(number, decimals).to_bits(),
                f64::to_bits(want),
                "{number}"
            );
        }
        assert!(round_half_even(f64::NAN, 1).is_nan());
        assert!(round_half_even(f64::INFINITY, 1).is_infinite());
        assert!(round_half_even(f64::MAX, 1).is_finite());
    }

    /// By hand: the mean of 0.1 and 1.6 is 0.85, and of 0.2 and 2.7 it is 1.45; both round down to even.
    /// As binary fractions they come out a little above.
    #[test]
    fn the_last_bits_of_a_mean_do_not_decide() {
        let mean = f64::midpoint;
        assert_eq!(mean(0.1, 1.6).to_string(), "0.8500000000000001");
        assert_eq!(
            round_half_even(mean(0.1, 1.6), 1).to_bits(),
            0.8_f64.to_bits()
        );
        assert_eq!(
            round_half_even(mean(0.2, 2.7), 1).to_bits(),
            1.4_f64.to_bits()
        );
    }

    #[test]
    fn decimals_are_those_of_the_limit() {
        assert_eq!(decimals_of(286.2), 1);
        assert_eq!(decimals_of(20.0), 0);
        assert_eq!(decimals_of(0.25), 2);
    }

    proptest! {
        #[test]
        fn rounding_moves_by_half_a_unit_at_most(number in -1e6..1e6f64, decimals in 0usize..6) {
            let rounded = round_half_even(number, decimals);
            let unit = libm::pow(10.0, -(decimals as f64));
            prop_assert!((rounded - number).abs() <= unit / 2.0 * (1.0 + 1e-9));
            prop_assert!(decimals_of(rounded) <= decimals);
            prop_assert!((round_half_even(rounded, decimals) - rounded).abs() <= 0.0);
            prop_assert!((round_half_even(-number, decimals) + rounded).abs() <= 0.0);
        }

        #[test]
        fn nothing_panics(number in any::<f64>(), decimals in 0usize..400) {
            prop_assert_eq!(round_half_even(number, decimals).is_finite(), number.is_finite());
        }
    }
}
