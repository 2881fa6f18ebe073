//! Gauge studies: a published one, and what must hold for any.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use proptest::prelude::*;
use ringland_stats::gauge_study::{GaugeStudy, analysis_of_variance, average_and_range};

/// Ten parts, three appraisers, three trials each.
///
/// Source: AIAG, *Measurement Systems Analysis*, 4th edition, the study with which it shows both methods; from
/// memory, and its sums of squares are those published to six decimals.
const AIAG: [[[f64; 10]; 3]; 3] = [
    [
        [
            0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36,
        ],
        [
            0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25,
        ],
        [
            0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31,
        ],
    ],
    [
        [
            0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68,
        ],
        [
            0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62,
        ],
        [
            0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50,
        ],
    ],
    [
        [
            0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49,
        ],
        [
            -0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77,
        ],
        [
            -0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16,
        ],
    ],
];

fn published() -> GaugeStudy {
    let by_part = |trials: &[[f64; 10]; 3]| {
        let part = |part: usize| trials.iter().map(|trial| trial[part]).collect();
        (0..10).map(part).collect()
    };
    GaugeStudy::new(AIAG.iter().map(by_part).collect()).unwrap()
}

fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} is not {want}");
}

/// Published: EV 0.20188, AV 0.22963, GRR 0.30575, PV 1.10456, TV 1.14610, %GRR 26.68, ndc 5. The book rounds on
/// its way: worked in full the third to fifth digit differ.
#[test]
fn the_published_study_by_average_and_range() {
    let by_range = average_and_range(&published()).unwrap();
    for (got, want) in [
        (by_range.equipment, 0.20188),
        (by_range.appraisers, 0.22963),
        (by_range.gauge(), 0.30575),
        (by_range.parts, 1.10456),
        (by_range.total(), 1.14610),
        (by_range.gauge_share(), 0.2668),
    ] {
        close(got, want, 6e-5);
    }
    close(by_range.categories(), 5.09, 0.01);
}

/// Published: sums of squares 3.1673, 88.3619, 0.3590, 2.7589; F of the interaction 0.434, p 0.974, so it is
/// pooled: EV 0.199933, AV 0.226838, GRR 0.302373, PV 1.042327, TV 1.085300, %GRR 27.86, ndc 4.
#[test]
fn the_published_study_by_analysis_of_variance() {
    let found = analysis_of_variance(&published()).unwrap();
    for (squares, sum, dof) in [
        (found.appraisers, 3.167_262, 2),
        (found.parts, 88.361_934, 9),
        (found.interaction, 0.358_982, 18),
        (found.equipment, 2.758_933, 60),
    ] {
        close(squares.sum, sum, 5e-7);
        assert_eq!(squares.dof, dof);
    }
    close(found.f.unwrap(), 0.434, 5e-4);
    close(found.p.unwrap(), 0.974, 5e-4);
    assert!(found.is_pooled());
    let of = found.variation;
    for (got, want) in [
        (of.equipment, 0.199_933),
        (of.appraisers, 0.226_838),
        (of.gauge(), 0.302_373),
        (of.parts, 1.042_327),
        (of.total(), 1.085_300),
    ] {
        // The last digit of GRR is rounded from rounded parts.
        close(got, want, 2e-6);
    }
    close(of.gauge_share(), 0.2786, 5e-5);
    close(of.categories(), 4.86, 0.005);
}

#[test]
fn what_is_not_a_study_is_refused() {
    let cell = vec![1.0, 2.0];
    for bad in [
        vec![],
        vec![vec![cell.clone(), cell.clone()]],
        vec![vec![cell.clone()], vec![cell.clone()]],
        vec![vec![vec![1.0], vec![2.0]], vec![vec![1.0], vec![2.0]]],
        vec![vec![cell.clone(), cell.clone()], vec![cell.clone()]],
        vec![
            vec![cell.clone(), cell.clone()],
            vec![cell.clone(), vec![1.0, f64::NAN]],
        ],
    ] {
        assert!(GaugeStudy::new(bad.clone()).is_err(), "{bad:?}");
    }
    let eleven = GaugeStudy::new(vec![vec![cell; 11]; 2]).unwrap();
    assert!(average_and_range(&eleven).is_err());
    // A gauge that never scatters has no F; and it is not the gauge that scatters.
    let found = analysis_of_variance(&eleven).unwrap();
    assert!(found.f.is_some());
    let still = GaugeStudy::new(vec![vec![vec![1.0; 2], vec![3.0; 2]]; 2]).unwrap();
    let found = analysis_of_variance(&still).unwrap();
    assert!(found.f.is_none() && found.variation.gauge_share() < 1e-12);
}

fn studies() -> impl Strategy<Value = Vec<Vec<Vec<f64>>>> {
    (2_usize..5, 2_usize..8, 2_usize..4).prop_flat_map(|(a, n, r)| {
        let cell = prop::collection::vec(-10.0..10.0_f64, r);
        prop::collection::vec(prop::collection::vec(cell, n), a)
    })
}

proptest! {
    /// The four sums of squares make up that about the mean of everything, whatever the readings.
    #[test]
    fn squares_add_up(readings in studies()) {
        let all: Vec<f64> = readings.iter().flatten().flatten().copied().collect();
        let middle = all.iter().sum::<f64>() / all.len() as f64;
        let total: f64 = all.iter().map(|x| (x - middle) * (x - middle)).sum();
        let found = analysis_of_variance(&GaugeStudy::new(readings).unwrap()).unwrap();
        let parts = [found.appraisers, found.parts, found.interaction, found.equipment];
        let sum: f64 = parts.iter().map(|squares| squares.sum).sum();
        prop_assert!((sum - total).abs() <= 1e-9 * total.max(1.0), "{sum} is not {total}");
        let dof: usize = parts.iter().map(|squares| squares.dof).sum();
        prop_assert_eq!(dof, all.len() - 1);
    }

    /// In another unit, and from another zero, the shares are the same.
    #[test]
    fn another_unit_changes_no_share(readings in studies(), per in 0.01..100.0_f64, zero in -50.0..50.0_f64) {
        let told = |readings: Vec<Vec<Vec<f64>>>| {
            let study = GaugeStudy::new(readings).unwrap();
            let by_squares = analysis_of_variance(&study).unwrap();
            [average_and_range(&study).unwrap().gauge_share(), by_squares.variation.gauge_share(), by_squares.p.unwrap_or(0.0)]
        };
        let other = readings.iter().map(|of| {
            of.iter().map(|cell| cell.iter().map(|x| x * per + zero).collect()).collect()
        });
        let other = told(other.collect());
        for (a, b) in told(readings).into_iter().zip(other) {
            prop_assert!((a - b).abs() < 1e-6, "{a} is not {b}");
        }
    }
}
