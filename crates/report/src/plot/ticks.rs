//! Round figures along an axis.

/// The figures of an axis, and with how many decimals they are written.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Ticks {
    /// The figures, rising.
    pub(super) values: Vec<f64>,
    /// Decimals that tell them apart.
    pub(super) decimals: usize,
}

/// Steps finer than this say nothing.
const MOST_DECIMALS: usize = 9;

/// Multiples of 1, 2 or 5 times a power of ten within a range: at most so many steps, and as many as that
/// allows. Nothing for a range without a width.
pub(super) fn ticks(low: f64, high: f64, most_steps: u8) -> Ticks {
    let (span, most) = (high - low, f64::from(most_steps));
    if !span.is_finite() || span <= 0.0 {
        return Ticks {
            values: Vec::new(),
            decimals: 0,
        };
    }
    // The step is `round`·`power` or `round`/`power`: whole numbers, which are exact.
    let (mut power, mut decimals) = (1.0, 0);
    while span / power > most {
        power *= 10.0;
    }
    let mut parts = 1.0;
    while power <= 1.0 && span * parts * 10.0 <= most && decimals < MOST_DECIMALS {
        parts *= 10.0;
        decimals += 1;
    }
    for round in [2.0, 5.0] {
        if power > 1.0 && span / (power / 10.0 * round) <= most {
            return multiples(low, high, round * power / 10.0, 1.0, 0);
        }
        if power <= 1.0 && span * parts * 10.0 / round <= most && decimals < MOST_DECIMALS {
            return multiples(low, high, round, parts * 10.0, decimals + 1);
        }
    }
    multiples(low, high, power, parts, decimals)
}

/// The multiples of `step`/`parts` within a range.
fn multiples(low: f64, high: f64, step: f64, parts: f64, decimals: usize) -> Ticks {
    // A bound that is itself a multiple may miss it by a rounding.
    let slack = 1e-6;
    let mut number = (low * parts / step - slack).ceil();
    let last = (high * parts / step + slack).floor();
    let mut values = Vec::new();
    while number <= last {
        values.push(number * step / parts);
        number += 1.0;
    }
    Ticks { values, decimals }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn are(low: f64, high: f64, most: u8, values: &[f64], decimals: usize) {
        let found = ticks(low, high, most);
        assert_eq!(found.decimals, decimals, "{found:?}");
        assert_eq!(found.values.len(), values.len(), "{found:?}");
        for (found, asked) in found.values.iter().zip(values) {
            assert!((found - asked).abs() < 1e-9, "{found} {asked}");
        }
    }

    #[test]
    fn they_are_round_and_inside() {
        are(0.0, 10.0, 5, &[0.0, 2.0, 4.0, 6.0, 8.0, 10.0], 0);
        are(129.38, 129.55, 5, &[129.4, 129.45, 129.5, 129.55], 2);
        are(
            0.0,
            1.0,
            10,
            &[0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0],
            1,
        );
        are(
            0.0,
            812_400.0,
            5,
            &[0.0, 200_000.0, 400_000.0, 600_000.0, 800_000.0],
            0,
        );
        are(-0.004, 0.011, 4, &[0.0, 0.005, 0.01], 3);
        are(0.0, 1e-7, 2, &[0.0, 5e-8, 1e-7], 8);
    }

    #[test]
    fn there_are_never_too_many() {
        let mut span = 1e-6;
        while span < 1e9 {
            for most in 3..9 {
                let found = ticks(0.123, 0.123 + span, most);
                assert!(
                    found.values.len() <= usize::from(most) + 1,
                    "{span} {found:?}"
                );
                assert!(!found.values.is_empty(), "{span} {most}");
            }
            span *= 1.37;
        }
    }

    #[test]
    fn a_range_without_a_width_has_none() {
        for (low, high) in [
            (1.0, 1.0),
            (2.0, 1.0),
            (0.0, f64::INFINITY),
            (f64::NAN, 1.0),
        ] {
            assert!(ticks(low, high, 5).values.is_empty());
        }
    }
}
