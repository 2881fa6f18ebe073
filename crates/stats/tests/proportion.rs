//! Shares of a number and their differences: Newcombe's published examples, and cases against statsmodels.
#![allow(
    clippy::unwrap_used,
    reason = "a figure that cannot be worked out fails the test"
)]

mod table;

use ringland_stats::{
    StatsError,
    confidence::{Confidence, Interval},
    proportion::{Share, clopper_pearson, newcombe, wilson},
};
use table::{all_close, cases};

fn share(hits: u64, of: u64) -> Share {
    Share::new(hits, of).unwrap()
}

#[track_caller]
fn ends(got: Interval, low: f64, high: f64, within: f64) {
    assert!(
        (got.low - low).abs() <= within && (got.high - high).abs() <= within,
        "got {got:?}, want {low} to {high}"
    );
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the table holds whole numbers"
)]
fn of_row(row: &[f64]) -> Share {
    share(row[0] as u64, row[1] as u64)
}

/// `proportion_confint` by `wilson` and `beta`, `confint_proportions_2indep` by `newcomb`.
#[test]
fn agrees_with_statsmodels() {
    for case in cases("share") {
        let given = of_row(&case.rows[0]);
        let (one, two) = (
            wilson(given, Confidence::P95).unwrap(),
            clopper_pearson(given, Confidence::P95).unwrap(),
        );
        let got = [one.low, one.high, two.low, two.high];
        all_close("share", &got, &case.figures, 1e-9);
    }
    for case in cases("newcombe") {
        let found = newcombe(
            of_row(&case.rows[0]),
            of_row(&case.rows[1]),
            Confidence::P95,
        );
        let interval = found.unwrap().interval;
        all_close(
            "newcombe",
            &[interval.low, interval.high],
            &case.figures,
            1e-12,
        );
    }
}

/// R. G. Newcombe 1998, *Two-sided confidence intervals for the single proportion*, table I, from memory; worked again
/// with statsmodels 0.15.0.
#[test]
fn newcombe_single_shares() {
    for (hits, of, wilson_ends, exact_ends) in [
        (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
        (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
        (0, 20, (0.0, 0.1611), (0.0, 0.1684)),
        (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
    ] {
        let given = share(hits, of);
        let found = wilson(given, Confidence::P95).unwrap();
        ends(found, wilson_ends.0, wilson_ends.1, 5.1e-5);
        let found = clopper_pearson(given, Confidence::P95).unwrap();
        ends(found, exact_ends.0, exact_ends.1, 5.1e-5);
    }
}

/// R. G. Newcombe 1998, *Interval estimation for the difference between independent proportions*, table II, method 10,
/// from memory; worked again with statsmodels 0.15.0.
#[test]
fn newcombe_differences() {
    for (one, two, value, low, high) in [
        ((56, 70), (48, 80), 0.2, 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.6, 0.1705, 0.8090),
        ((6, 7), (2, 7), 4.0 / 7.0, 0.0582, 0.8062),
        ((5, 56), (0, 29), 5.0 / 56.0, -0.0381, 0.1926),
        ((0, 10), (0, 20), 0.0, -0.1611, 0.2775),
        ((10, 10), (0, 20), 1.0, 0.6791, 1.0),
        ((10, 10), (0, 10), 1.0, 0.6075, 1.0),
    ] {
        let found = newcombe(share(one.0, one.1), share(two.0, two.1), Confidence::P95).unwrap();
        assert!((found.value - value).abs() < 1e-15, "{found:?}");
        ends(found.interval, low, high, 5.1e-5);
        // Turned round, all changes its sign.
        let turned = newcombe(share(two.0, two.1), share(one.0, one.1), Confidence::P95).unwrap();
        ends(
            turned.interval,
            -found.interval.high,
            -found.interval.low,
            1e-15,
        );
    }
}

/// None of n: 1 − 0.05^(1/n) above at a one-sided 95 %, by algebra.
#[test]
fn none_of_so_many() {
    let one_sided = Confidence::new(0.9).unwrap();
    for (n, above) in [(10, 0.2589), (30, 0.0950), (59, 0.0495), (300, 0.0099)] {
        let found = clopper_pearson(share(0, n), one_sided).unwrap();
        ends(found, 0.0, 1.0 - libm::pow(0.05, 1.0 / n as f64), 1e-12);
        ends(found, 0.0, above, 6e-5);
        // All of n, the same from above.
        let found = clopper_pearson(share(n, n), one_sided).unwrap();
        ends(found, libm::pow(0.05, 1.0 / n as f64), 1.0, 1e-12);
    }
}

/// How probable x of n are at a share p, for every x.
fn binomial(n: u32, p: f64) -> Vec<f64> {
    let mut row = vec![1.0];
    for _ in 0..n {
        let mut next = vec![0.0; row.len() + 1];
        for (x, chance) in row.iter().enumerate() {
            next[x] += chance * (1.0 - p);
            next[x + 1] += chance * p;
        }
        row = next;
    }
    row
}

/// Counted over all outcomes: never less sure than it says, by Clopper and Pearson; near it on average, by Wilson.
#[test]
fn as_sure_as_they_say() {
    for n in [1, 5, 12, 40] {
        let (mut sum, mut seen) = (0.0, 0.0);
        for step in 1..200 {
            let p = f64::from(step) / 200.0;
            let holds = |work_out: fn(Share, Confidence) -> Result<Interval, StatsError>| {
                (0..).zip(binomial(n, p)).fold(0.0, |held, (x, chance)| {
                    let interval = work_out(share(x, n.into()), Confidence::P95).unwrap();
                    held + if interval.contains(p) { chance } else { 0.0 }
                })
            };
            assert!(holds(clopper_pearson) >= 0.95 - 1e-12, "{n}, {p}");
            sum += holds(wilson);
            seen += 1.0;
        }
        let average = sum / seen;
        assert!((0.94..0.97).contains(&average), "{n}: {average}");
    }
}

#[test]
fn refusals() {
    assert!(matches!(Share::new(0, 0), Err(StatsError::TooFew { .. })));
    assert_eq!(
        Share::new(3, 2).unwrap_err().to_string(),
        "hits is 3: allowed is 0 to 2"
    );
}
