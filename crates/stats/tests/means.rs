//! Differences of means and what is claimed of them: published examples, and random cases against scipy and
//! statsmodels.
#![allow(
    clippy::unwrap_used,
    reason = "a figure that cannot be worked out fails the test"
)]

mod table;

use ringland_stats::{
    StatsError,
    compare::{
        Alternative, Margin, Verdict, Worse,
        anova::{design_effect, variance_components},
        welch::{
            Difference, Moments, equivalence, non_inferiority, paired, pooled, pooled_of, welch,
            welch_of,
        },
    },
    confidence::{Confidence, Interval},
};
use table::{all_close, cases};

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

fn percent(percent: f64) -> Confidence {
    Confidence::new(percent / 100.0).unwrap()
}

fn figures(found: Difference) -> [f64; 8] {
    let Interval { low, high } = found.interval(Confidence::P95).unwrap();
    [
        found.value,
        found.se,
        found.dof.get(),
        found.p(0.0, Alternative::Differ),
        found.p(0.0, Alternative::Higher),
        found.p(0.0, Alternative::Lower),
        low,
        high,
    ]
}

/// `scipy.stats.ttest_ind`, `ttest_rel`.
#[test]
fn differences_agree_with_scipy() {
    for (what, work_out) in [
        ("welch", welch as fn(&[f64], &[f64]) -> _),
        ("pooled", pooled),
        ("paired", paired),
    ] {
        for case in cases(what) {
            let found = work_out(&case.rows[0], &case.rows[1]).unwrap();
            all_close(what, &figures(found), &case.figures, 1e-10);
        }
    }
}

/// `statsmodels.stats.weightstats.ttost_ind`, `ttost_paired`.
#[test]
fn equivalence_agrees_with_statsmodels() {
    for case in cases("tost") {
        let margin = Margin::new(case.figures[0]).unwrap();
        let p = |found: Result<Difference, StatsError>| {
            equivalence(found.unwrap(), margin, Confidence::P95)
                .unwrap()
                .p
        };
        let (x, y) = (&case.rows[0], &case.rows[1]);
        let got = [p(welch(x, y)), p(pooled(x, y)), p(paired(x, y))];
        all_close("tost", &got, &case.figures[1..], 1e-11);
    }
}

/// Miles per gallon of cars of two origins: NIST/SEMATECH e-Handbook 1.3.5.3 (`AUTO83B`), from a secondary copy; its
/// pooled t of -12.62059 with 326 degrees. Welch's with scipy 1.17.1, `ttest_ind_from_stats`.
#[test]
fn two_samples_of_the_handbook() {
    let one = Moments {
        n: 249,
        mean: 20.144_58,
        sd: 6.414_70,
    };
    let two = Moments {
        n: 79,
        mean: 30.481_01,
        sd: 6.107_71,
    };
    let alike = pooled_of(one, two).unwrap();
    close(alike.t(0.0), -12.620_59, 5e-6);
    close(alike.dof.get(), 326.0, 0.0);
    let apart = welch_of(one, two).unwrap();
    close(apart.t(0.0), -12.946_27, 5e-6);
    close(apart.dof.get(), 136.875_0, 5e-5);
}

/// Hours of sleep gained by ten patients with two drugs: Student 1908, with Welch's figures and the paired ones of scipy
/// 1.17.1.
#[test]
fn student_sleep() {
    let one = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
    let two = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    let apart = welch(&one, &two).unwrap();
    close(apart.t(0.0), -1.8608, 5e-5);
    close(apart.dof.get(), 17.776, 5e-4);
    close(apart.p(0.0, Alternative::Differ), 0.079_39, 5e-6);
    let interval = apart.interval(Confidence::P95).unwrap();
    close(interval.low, -3.365_48, 5e-6);
    close(interval.high, 0.205_48, 5e-6);
    let pairs = paired(&one, &two).unwrap();
    close(pairs.t(0.0), -4.0621, 5e-5);
    close(pairs.p(0.0, Alternative::Differ), 0.002_833, 5e-7);
    let interval = pairs.interval(Confidence::P95).unwrap();
    close(interval.low, -2.459_89, 5e-6);
    close(interval.high, -0.700_11, 5e-6);
}

/// The clinical set that statsmodels 0.15.0 carries in `stats/tests/test_tost.py` with results of R's `tost`.
#[allow(clippy::approx_constant, reason = "3.14 is a sample, not π")]
const CLINIC: [[f64; 15]; 2] = [
    [
        2.84, 2.51, 2.41, 2.95, 3.14, 3.79, 4.14, 3.85, 3.02, 3.45, 5.37, 3.81, 4.19, 3.16, 3.84,
    ],
    [
        2.60, 2.82, 2.18, 3.46, 4.01, 3.04, 3.47, 4.06, 2.91, 3.59, 4.51, 3.16, 3.86, 3.31, 3.02,
    ],
];

#[test]
fn clinic_is_equivalent_by_a_hair() {
    let margin = Margin::new(0.6).unwrap();
    let [one, two] = CLINIC;
    for (found, se, dof, low, high, p) in [
        (
            welch(&one, &two).unwrap(),
            0.253_163,
            26.7485,
            -0.266_686,
            0.596_020,
            0.048_531,
        ),
        (
            pooled(&one, &two).unwrap(),
            0.253_163,
            28.0,
            -0.265_996,
            0.595_329,
            0.048_273,
        ),
        (
            paired(&one, &two).unwrap(),
            0.135_751,
            14.0,
            -0.074_434,
            0.403_767,
            0.003_166_9,
        ),
    ] {
        close(found.value, 0.164_667, 5e-7);
        close(found.se, se, 5e-7);
        close(found.dof.get(), dof, 5e-5);
        let claim = equivalence(found, margin, percent(95.0)).unwrap();
        close(claim.interval.low, low, 5e-7);
        close(claim.interval.high, high, 6e-7);
        close(claim.p, p, 5e-7);
        assert_eq!(claim.verdict, Verdict::Supported);
        // By a hair: a little surer, and two of the three are shown no more.
        let surer = equivalence(found, margin, percent(95.5)).unwrap();
        assert_eq!(surer.verdict == Verdict::Supported, p < 0.045);
    }
}

/// The same on logarithms, within 0.8 to 1.25: 0.0431223, 0.0381958, p 0.00016642.
#[test]
fn clinic_ratio_is_equivalent() {
    let [one, two] = CLINIC.map(|row| row.map(libm::log));
    let found = paired(&one, &two).unwrap();
    close(found.value, 0.043_122_3, 5e-8);
    close(found.se, 0.038_195_8, 5e-8);
    let margin = Margin::new(libm::log(1.25)).unwrap();
    let claim = equivalence(found, margin, percent(95.0)).unwrap();
    close(claim.p, 0.000_166_42, 5e-9);
}

/// With no difference seen, k a group that scatter by s support a margin above t(0.95; 2k − 2)·√(2/k)·s. From tables of t.
#[test]
fn margins_that_few_samples_can_support() {
    for (k, factor) in [
        (2, 2.920),
        (3, 1.741),
        (4, 1.374),
        (5, 1.176),
        (6, 1.046),
        (8, 0.881),
        (10, 0.775),
    ] {
        let group = Moments {
            n: k,
            mean: 7.0,
            sd: 1.0,
        };
        let none = pooled_of(group, group).unwrap();
        for worse in [Worse::Higher, Worse::Lower] {
            let verdict = |delta: f64| {
                non_inferiority(none, Margin::new(delta).unwrap(), worse, percent(95.0))
                    .unwrap()
                    .verdict
            };
            assert_eq!(verdict(factor + 5e-4), Verdict::Supported);
            assert_eq!(verdict(factor - 6e-4), Verdict::NotShown);
        }
    }
}

/// By hand: means 10 and 8 of two samples ±1 each, SE = √(1/2·2/2·2) = √2, ν = 2, t(0.95; 2) = 2.919986.
#[test]
fn claims_by_hand() {
    let (one, two) = ([9.0, 11.0], [7.0, 9.0]);
    let found = welch(&one, &two).unwrap();
    close(found.value, 2.0, 0.0);
    close(found.se, 2.0_f64.sqrt(), 1e-15);
    close(found.dof.get(), 2.0, 1e-15);
    let claim = |delta: f64, worse| {
        non_inferiority(found, Margin::new(delta).unwrap(), worse, percent(95.0)).unwrap()
    };
    let half = 2.919_986 * 2.0_f64.sqrt();
    // Higher is worse: the first may be worse by up to 2 + half.
    close(claim(1.0, Worse::Higher).bound, 2.0 + half, 2e-6);
    assert_eq!(claim(6.0, Worse::Higher).verdict, Verdict::NotShown);
    assert_eq!(claim(6.2, Worse::Higher).verdict, Verdict::Supported);
    // Lower is worse: it is better by 2, and worse by up to half − 2.
    close(claim(1.0, Worse::Lower).bound, 2.0 - half, 2e-6);
    assert_eq!(claim(2.2, Worse::Lower).verdict, Verdict::Supported);
    assert_eq!(claim(2.1, Worse::Lower).verdict, Verdict::NotShown);
}

/// Worse by far more than the margin is contradicted, not merely not shown; so is being equivalent.
#[test]
fn the_contrary_is_told_from_ignorance() {
    let (one, two) = ([20.0, 21.0, 22.0], [10.0, 11.0, 12.0]);
    let margin = Margin::new(3.0).unwrap();
    let found = welch(&one, &two).unwrap();
    let verdict = |worse| {
        non_inferiority(found, margin, worse, percent(95.0))
            .unwrap()
            .verdict
    };
    assert_eq!(verdict(Worse::Higher), Verdict::Contradicted);
    assert_eq!(verdict(Worse::Lower), Verdict::Supported);
    let claim = equivalence(found, margin, percent(95.0)).unwrap();
    assert_eq!(claim.verdict, Verdict::Contradicted);
}

/// Eighteen readings of each of two units, against as many of two others. Units of a kind differ by 3 and more, readings
/// of a unit by a tenth of that. Taken as 36 readings against 36 the groups seem to differ beyond doubt; they are two
/// against two, and as such say nothing.
#[test]
fn readings_of_a_unit_are_not_units() {
    let unit = |middle: f64| -> Vec<f64> {
        (0..18)
            .map(|place| middle + 0.3 * (f64::from(place * 7 % 18) / 8.5 - 1.0))
            .collect()
    };
    let groups = [[unit(10.0), unit(13.0)], [unit(12.0), unit(15.5)]];
    let [one, two] = groups.each_ref().map(|units| units.concat());
    let naive = welch(&one, &two).unwrap();
    assert!(naive.p(0.0, Alternative::Differ) < 1e-6, "{naive:?}");
    let [first, second] = groups
        .each_ref()
        .map(|units| units.each_ref().map(|unit| Moments::of(unit).unwrap().mean));
    let honest = welch(&first, &second).unwrap();
    close(honest.value, naive.value, 1e-12);
    assert!(honest.p(0.0, Alternative::Differ) > 0.3, "{honest:?}");
    // What gave it away: readings of a unit are so alike that eighteen are worth little more than one.
    let units: Vec<&[f64]> = groups.iter().flatten().map(Vec::as_slice).collect();
    let alike = variance_components(&units).unwrap().intraclass();
    assert!(alike > 0.95, "{alike}");
    assert!(design_effect(18.0, alike).unwrap() > 17.0);
}

#[test]
fn a_group_without_scatter() {
    // By hand: SE² = 0 + 4/2 and ν = 1, those of the other group.
    let found = welch(&[5.0, 5.0, 5.0], &[1.0, 3.0]).unwrap();
    close(found.se, 1.0, 1e-15);
    close(found.dof.get(), 1.0, 1e-15);
    let none = welch(&[5.0, 5.0], &[4.0, 4.0]).unwrap_err();
    assert_eq!(
        none.to_string(),
        "all 4 samples of each group are equal, so the Welch difference is not defined"
    );
    assert!(matches!(
        welch(&[5.0], &[4.0, 3.0]),
        Err(StatsError::TooFew {
            got: 1,
            least: 2,
            ..
        })
    ));
    // One against two, pooled, by hand: s² = 2 of one degree, SE² = 2·(1 + 1/2).
    let found = pooled(&[5.0], &[4.0, 2.0]).unwrap();
    close(found.se, 3.0_f64.sqrt(), 1e-15);
    close(found.dof.get(), 1.0, 0.0);
    assert!(pooled(&[5.0], &[4.0]).is_err());
    assert!(paired(&[5.0, 6.0], &[4.0, 5.0]).is_err());
    assert!(paired(&[5.0, 6.0], &[4.0]).is_err());
}

#[test]
fn refusals() {
    assert!(Margin::new(0.0).is_err());
    assert!(Margin::new(f64::NAN).is_err());
    assert!(Margin::new(f64::INFINITY).is_err());
    let group = |n, sd| Moments { n, mean: 1.0, sd };
    assert!(welch_of(group(3, -1.0), group(3, 1.0)).is_err());
    assert!(welch_of(group(3, f64::NAN), group(3, 1.0)).is_err());
    assert!(welch_of(group(1, 0.0), group(3, 1.0)).is_err());
    assert!(pooled_of(group(0, 1.0), group(3, 1.0)).is_err());
    let found = welch_of(group(3, 1.0), group(3, 1.0)).unwrap();
    let margin = Margin::new(1.0).unwrap();
    let refused = non_inferiority(found, margin, Worse::Lower, percent(40.0)).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "confidence is 0.4: allowed is 0.5 to 1"
    );
    assert!(equivalence(found, margin, percent(40.0)).is_err());
    assert!(welch(&[f64::MAX, f64::MAX], &[-f64::MAX, 0.0]).is_err());
}
