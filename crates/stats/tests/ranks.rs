//! Groups by ranks and by all ways to part them: published examples, smallest p-values by counting, and random cases
//! against scipy and against counting out.
#![allow(
    clippy::unwrap_used,
    reason = "a figure that cannot be worked out fails the test"
)]

mod table;

use ringland_stats::{
    StatsError,
    compare::{
        Alternative, Margin, Verdict, Worse,
        permutation::{Draws, Ways, non_inferiority, permutation},
        rank::{
            Shift, least_group_size, mann_whitney, paired_shift, shift, signed_rank, smallest_p,
            stochastic,
        },
    },
    confidence::Confidence,
    trend::PValue,
};
use table::{all_close, cases};

const ALL: [Alternative; 3] = [Alternative::Differ, Alternative::Higher, Alternative::Lower];

const DRAWS: Draws = Draws { n: 20_000, seed: 7 };

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

fn percent(percent: f64) -> Confidence {
    Confidence::new(percent / 100.0).unwrap()
}

/// `mannwhitneyu`, exact without ties and approximate with many samples; with ties counted out.
#[test]
fn mann_whitney_agrees() {
    for case in cases("mann_whitney") {
        let run = |alternative| mann_whitney(&case.rows[0], &case.rows[1], alternative).unwrap();
        let [both, above, below] = ALL.map(run);
        let got = [both.u, both.p, above.p, below.p];
        all_close("mann_whitney", &got, &case.figures, 1e-11);
        let few = case.rows[0].len() + case.rows[1].len() <= 50;
        assert_eq!(both.p_value == PValue::Exact, few);
    }
}

/// `wilcoxon`, exact without ties and approximate with many pairs; with ties counted out.
#[test]
fn signed_rank_agrees() {
    for case in cases("signed_rank") {
        let run = |alternative| signed_rank(&case.rows[0], &case.rows[1], alternative).unwrap();
        let [both, above, below] = ALL.map(run);
        let got = [both.v, both.p, above.p, below.p];
        all_close("signed_rank", &got, &case.figures, 1e-11);
    }
}

/// Counted out in whole numbers.
#[test]
fn permutation_agrees_with_counting() {
    for case in cases("permutation") {
        let run =
            |alternative| permutation(&case.rows[0], &case.rows[1], alternative, DRAWS).unwrap();
        let got = ALL.map(|alternative| run(alternative).p);
        all_close("permutation", &got, &case.figures, 1e-14);
    }
}

fn figures(found: Shift) -> [f64; 4] {
    let interval = found.interval.unwrap();
    [found.value, interval.low, interval.high, found.attained]
}

/// Every difference, and the chance of each U and V, counted out.
#[test]
fn shifts_agree_with_counting() {
    for case in cases("shift") {
        let found = shift(&case.rows[0], &case.rows[1], percent(90.0)).unwrap();
        all_close("shift", &figures(found), &case.figures, 1e-13);
    }
    for case in cases("paired_shift") {
        let found = paired_shift(&case.rows[0], &case.rows[1], percent(90.0)).unwrap();
        all_close("paired_shift", &figures(found), &case.figures, 1e-13);
    }
}

/// `brunnermunzel`.
#[test]
fn stochastic_agrees_with_scipy() {
    for case in cases("stochastic") {
        let found = stochastic(&case.rows[0], &case.rows[1]).unwrap();
        let spread = found.spread.unwrap();
        // scipy's statistic has the sign of the first group's mean rank.
        let se = spread.se.copysign(case.figures[1]);
        all_close(
            "stochastic",
            &[found.value, se, spread.p],
            &case.figures,
            1e-10,
        );
    }
}

/// The example of `mannwhitneyu` in scipy's documentation: ages at which men and women were diagnosed.
#[test]
fn ages_at_diagnosis() {
    let (men, women) = ([19.0, 22.0, 16.0, 29.0, 24.0], [20.0, 11.0, 17.0, 12.0]);
    let found = mann_whitney(&men, &women, Alternative::Differ).unwrap();
    close(found.u, 17.0, 0.0);
    close(found.p, 0.111_111, 5e-7);
    assert_eq!(found.p_value, PValue::Exact);
    // By counting: 14 of the 126 ways are as far.
    close(found.p, 14.0 / 126.0, 1e-14);
}

/// M. Hollander and D. A. Wolfe, *Nonparametric statistical methods*, 1973, table 3.1 (from memory): a scale of depression
/// at two visits. V = 40, one-sided p 0.01953125, shift 0.46; by the 6th and 40th of the 45 averages 0.010 to 0.786,
/// which leaves 2·10/512 outside.
#[test]
#[allow(clippy::approx_constant, reason = "3.14 is a sample, not π")]
fn depression_at_two_visits() {
    let first = [1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30];
    let second = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
    let found = signed_rank(&first, &second, Alternative::Higher).unwrap();
    close(found.v, 40.0, 0.0);
    close(found.p, 0.019_531_25, 1e-16);
    let found = paired_shift(&first, &second, Confidence::P95).unwrap();
    close(found.value, 0.46, 1e-12);
    let interval = found.interval.unwrap();
    close(interval.low, 0.010, 5e-4);
    close(interval.high, 0.786, 5e-4);
    close(found.attained, 1.0 - 20.0 / 512.0, 1e-14);
}

/// 1/C(2n, n) of two groups wholly apart: by counting.
#[test]
fn the_smallest_p_of_small_groups() {
    for (n, ways) in [(2, 6.0), (3, 20.0), (4, 70.0), (5, 252.0)] {
        let low: Vec<f64> = (1..=n).map(f64::from).collect();
        let high: Vec<f64> = low.iter().map(|x| x + 100.0).collect();
        let n = low.len();
        for (alternative, times) in [(Alternative::Differ, 2.0), (Alternative::Higher, 1.0)] {
            let ranked = mann_whitney(&high, &low, alternative).unwrap();
            close(ranked.p, times / ways, 1e-15);
            let permuted = permutation(&high, &low, alternative, DRAWS).unwrap();
            close(permuted.p, times / ways, 1e-15);
            close(smallest_p(n, n, alternative).unwrap(), times / ways, 1e-15);
        }
    }
    // Figures as they are printed: .1667, .05, .0143, .00397.
    for (n, p) in [(2, 0.1667), (3, 0.05), (4, 0.0143), (5, 0.003_97)] {
        close(smallest_p(n, n, Alternative::Lower).unwrap(), p, 5e-5);
    }
    // Three against three can never reach a two-sided 0.05.
    assert_eq!(least_group_size(0.05, Alternative::Differ), Ok(4));
    assert_eq!(least_group_size(0.05, Alternative::Lower), Ok(3));
    let apart = shift(&[7.0, 8.0, 9.0], &[1.0, 2.0, 3.0], Confidence::P95).unwrap();
    assert_eq!(apart.interval, None);
    close(apart.attained, 0.9, 1e-15);
    close(apart.value, 6.0, 0.0);
}

#[test]
fn many_samples_are_drawn() {
    let row = |by: f64| -> Vec<f64> { (0..20).map(|n| f64::from(n * 7 % 20) + by).collect() };
    let (one, two) = (row(3.0), row(0.0));
    let found = permutation(&one, &two, Alternative::Higher, DRAWS).unwrap();
    let Ways::Drawn { n, se } = found.ways else {
        panic!("{:?}", found.ways);
    };
    assert_eq!(n, 20_000);
    close(se, (found.p * (1.0 - found.p) / 20_000.0).sqrt(), 1e-15);
    // By a million draws of scipy 1.17.1's `permutation_test`.
    close(found.p, 0.061_20, 3.0 * se);
    // The same seed, the same p; and never 0.
    assert_eq!(
        permutation(&one, &two, Alternative::Higher, DRAWS),
        Ok(found)
    );
    let far = permutation(&row(1e6), &two, Alternative::Higher, DRAWS).unwrap();
    close(far.p, 1.0 / 20_001.0, 1e-18);
    let none = Draws { n: 0, seed: 1 };
    assert!(permutation(&one, &two, Alternative::Higher, none).is_err());
    // Those that can be counted are.
    let few = permutation(&one[..8], &two[..8], Alternative::Higher, none).unwrap();
    assert_eq!(few.ways, Ways::All(12_870));
}

/// By hand: worse by 4 if at all, groups 2 apart and wholly mixed once 4 is taken off. Of 20 ways one is as good: 1/20.
#[test]
fn no_worse_by_shift() {
    let (one, two) = ([10.0, 11.0, 12.0], [9.9, 11.1, 12.2]);
    let claim = |delta: f64, worse, sure: f64| {
        non_inferiority(
            &one,
            &two,
            Margin::new(delta).unwrap(),
            worse,
            percent(sure),
            DRAWS,
        )
        .unwrap()
    };
    let found = claim(4.0, Worse::Higher, 95.0);
    close(found.p, 1.0 / 20.0, 1e-15);
    close(found.p_contrary, 1.0, 1e-15);
    assert_eq!(found.verdict, Verdict::Supported);
    assert_eq!(found.ways, Ways::All(20));
    assert_eq!(
        claim(4.0, Worse::Higher, 96.0).verdict,
        Verdict::NotShown,
        "three against three cannot be surer"
    );
    assert_eq!(claim(4.0, Worse::Lower, 95.0).verdict, Verdict::Supported);
    assert_eq!(claim(0.5, Worse::Higher, 95.0).verdict, Verdict::NotShown);
    let bad = non_inferiority(
        &[20.0, 21.0, 22.0],
        &two,
        Margin::new(4.0).unwrap(),
        Worse::Higher,
        percent(95.0),
        DRAWS,
    )
    .unwrap();
    assert_eq!(bad.verdict, Verdict::Contradicted);
}

/// Tenths whose differences are equal, though not to the last bit.
#[test]
fn rounding_sets_nothing_apart() {
    // 0.3 − 0.1 and 0.2 − 0 differ in the last bit; they are a tie, and V is half of both.
    let found = signed_rank(&[0.3, 0.0], &[0.1, 0.2], Alternative::Differ).unwrap();
    close(found.v, 1.5, 0.0);
    // 0.1 + 0.2 is not below 0.3.
    let found = mann_whitney(&[0.1 + 0.2, 5.0], &[0.3, 5.0], Alternative::Differ).unwrap();
    close(found.u, 2.0, 0.0);
    // All four in any order: each of the six ways is as far as that of no difference.
    let found = permutation(&[0.1, 0.4], &[0.2, 0.3], Alternative::Differ, DRAWS).unwrap();
    close(found.p, 1.0, 0.0);
    assert!(found.difference.abs() < 1e-15);
}

/// By hand: of nine pairs the second is larger in six and ties in two.
#[test]
fn grades_have_an_order() {
    let found = stochastic(&[1.0, 2.0, 3.0], &[2.0, 3.0, 4.0]).unwrap();
    close(found.value, 7.0 / 9.0, 1e-15);
    let interval = found.interval(Confidence::P95).unwrap().unwrap();
    assert!(interval.contains(7.0 / 9.0) && interval.high <= 1.0 && interval.low >= 0.0);
    let apart = stochastic(&[1.0, 2.0], &[3.0, 4.0]).unwrap();
    close(apart.value, 1.0, 0.0);
    assert_eq!(apart.spread, None);
    assert_eq!(apart.interval(Confidence::P95), Ok(None));
}

#[test]
fn refusals() {
    assert!(mann_whitney(&[], &[1.0], Alternative::Differ).is_err());
    assert!(matches!(
        mann_whitney(&[1.0, 1.0], &[1.0], Alternative::Differ),
        Err(StatsError::NoSpread { n: 3, .. })
    ));
    assert!(signed_rank(&[1.0], &[1.0], Alternative::Differ).is_err());
    assert!(signed_rank(&[1.0], &[1.0, 2.0], Alternative::Differ).is_err());
    assert!(shift(&[f64::MAX], &[-f64::MAX], Confidence::P95).is_err());
    assert!(stochastic(&[1.0], &[1.0, 2.0]).is_err());
    assert!(permutation(&[], &[1.0], Alternative::Differ, DRAWS).is_err());
    assert!(permutation(&[f64::NAN], &[1.0], Alternative::Differ, DRAWS).is_err());
    assert!(smallest_p(0, 3, Alternative::Differ).is_err());
    assert!(least_group_size(0.0, Alternative::Differ).is_err());
}
