//! What holds of any samples, bad ones among them: no panic, and the laws that define the figures.

use proptest::prelude::*;
use ringland_stats::{
    confidence::Confidence,
    regression::{
        Curve, Estimate, Intercept, Possible, compare, compare_units, fit_line, fit_polynomial,
        fit_power, possible_ratios,
    },
    robust, spread,
    trend::{self, Run},
};

fn anything() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(any::<f64>(), 0..12)
}

fn scores() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(
        (0..=100u8).prop_map(|tenths| f64::from(tenths) / 10.0),
        3..20,
    )
}

proptest! {
    #[test]
    fn nothing_panics_and_nothing_given_is_nan(x in anything(), y in anything(), p in any::<f64>()) {
        let plain = [
            spread::mean(&x),
            spread::weighted_mean(&x, &y),
            spread::sample_sd(&x),
            spread::range(&x).map(|range| range.width),
            spread::quantile(&x, p),
            robust::median(&x),
            robust::mad(&x),
            trend::theil_sen(&x, &y).map(|line| line.slope + line.intercept * 0.0),
            trend::kendall(&x, &y).map(|rank| rank.tau + rank.p),
            trend::sen_slope(&[Run { x: &x, y: &x }, Run { x: &y, y: &y }]),
            trend::kendall_of_runs(&[Run { x: &x, y: &x }, Run { x: &y, y: &y }]).map(|rank| rank.p),
        ];
        for figure in plain.into_iter().flatten() {
            prop_assert!(figure.is_finite());
        }
        for z in robust::modified_z(&x).into_iter().flatten() {
            prop_assert!(z.is_finite());
        }
    }

    #[test]
    fn middles_lie_within_the_range(x in scores()) {
        let range = spread::range(&x).unwrap();
        for middle in [spread::mean(&x), robust::median(&x), spread::quantile(&x, 0.3)] {
            let middle = middle.unwrap();
            prop_assert!(range.min - 1e-12 <= middle && middle <= range.max + 1e-12);
        }
    }

    #[test]
    fn quantiles_rise(x in scores(), p in 0.0..1.0f64, q in 0.0..1.0f64) {
        let (low, high) = (p.min(q), p.max(q));
        prop_assert!(spread::quantile(&x, low).unwrap() <= spread::quantile(&x, high).unwrap() + 1e-12);
    }

    #[test]
    fn equal_weights_are_no_weights(x in scores(), weight in 0.1..10.0f64) {
        let weighted = spread::weighted_mean(&x, &vec![weight; x.len()]).unwrap();
        prop_assert!((weighted - spread::mean(&x).unwrap()).abs() < 1e-12);
    }

    #[test]
    fn turning_the_row_round_turns_the_trend(y in scores()) {
        let x: Vec<f64> = (0..y.len()).map(|place| place as f64).collect();
        let turned: Vec<f64> = y.iter().rev().copied().collect();
        let (there, back) = (trend::theil_sen(&x, &y).unwrap(), trend::theil_sen(&x, &turned).unwrap());
        prop_assert!((there.slope + back.slope).abs() < 1e-12);
        if let (Ok(there), Ok(back)) = (trend::kendall(&x, &y), trend::kendall(&x, &turned)) {
            prop_assert!((there.tau + back.tau).abs() < 1e-12);
            prop_assert!((there.p - back.p).abs() < 1e-12);
            prop_assert!((0.0..=1.0).contains(&there.p));
        }
    }

    #[test]
    fn moving_all_samples_moves_no_scores(x in scores(), by in -50..50i8) {
        let moved: Vec<f64> = x.iter().map(|x| x + f64::from(by)).collect();
        let (here, there) = (robust::modified_z(&x).unwrap(), robust::modified_z(&moved).unwrap());
        let mad = robust::mad(&x).unwrap();
        // Where the median deviation is a rounding remnant, dividing by it says nothing.
        prop_assume!(mad <= 0.0 || mad > 1e-3);
        prop_assume!(robust::mad(&moved).unwrap() <= 0.0 || robust::mad(&moved).unwrap() > 1e-3);
        for (here, there) in here.iter().zip(&there) {
            prop_assert!((here - there).abs() < 1e-9);
        }
    }

    #[test]
    fn curves_through_anything_are_finite_or_refused(x in anything(), y in anything(), at in any::<f64>()) {
        for intercept in [Intercept::Free, Intercept::Zero] {
            if let Ok(line) = fit_line(&x, &y, intercept) {
                for figure in [line.intercept, line.se_intercept, line.slope, line.se_slope, line.covariance, line.residual_sd] {
                    prop_assert!(figure.is_finite());
                }
                let ends = [line.band(at, Confidence::P95), line.prediction(at, Confidence::P95)];
                for interval in ends.into_iter().flatten() {
                    prop_assert!(interval.low <= interval.high);
                }
                let choice = compare(&line, fit_power(&x, &y).as_ref().map_err(Clone::clone));
                prop_assert!(choice.curve == Curve::Line || fit_power(&x, &y).is_ok());
            }
            let runs = [Run { x: &x, y: &y }, Run { x: &y, y: &x }];
            if let Ok(Some(between)) = compare_units(&runs, intercept).map(|fit| fit.between) {
                prop_assert!(between.sd.is_finite() && between.mean.se.is_finite());
            }
        }
        if let Ok(power) = fit_power(&x, &y) {
            for figure in [power.factor, power.se_factor, power.exponent, power.se_exponent, power.residual_sd] {
                prop_assert!(figure.is_finite());
            }
        }
        if let Ok(fit) = fit_polynomial(&x, &y, 2) {
            prop_assert!(fit.coefficients.iter().all(|c| c.value.is_finite() && c.se.is_finite()));
        }
    }

    /// What is possible holds the ratio itself, and more so with a larger factor.
    #[test]
    fn what_is_possible_holds_the_ratio(g in -9.0..9.0f64, b in -9.0..9.0f64, u in 0.01..5.0f64, v in 0.01..5.0f64) {
        prop_assume!(b.abs() > 0.01);
        let set = |factor| {
            possible_ratios(Estimate { value: g, u }, Estimate { value: b, u: v }, 0.0, factor).unwrap()
        };
        let holds = |set: Possible, ratio: f64| match set {
            Possible::Between { low, high } => low - 1e-9 <= ratio && ratio <= high + 1e-9,
            Possible::Outside { below, above } => ratio <= below + 1e-9 || above - 1e-9 <= ratio,
            Possible::Everywhere => true,
            _ => false,
        };
        prop_assert!(holds(set(0.5), g / b));
        if let Possible::Between { low, high } = set(0.5) {
            prop_assert!(holds(set(1.0), low) && holds(set(1.0), high));
        }
    }

    /// A line through samples of another scale is the same line.
    #[test]
    fn units_do_not_matter(y in scores(), by in 1e-6..1e6f64) {
        let x: Vec<f64> = (0..y.len()).map(|n| n as f64).collect();
        let other: Vec<f64> = x.iter().map(|x| x * by).collect();
        let (here, there) = (
            fit_line(&x, &y, Intercept::Free).unwrap(),
            fit_line(&other, &y, Intercept::Free).unwrap(),
        );
        prop_assert!((here.slope - there.slope * by).abs() < 1e-9);
        prop_assert!((here.residual_sd - there.residual_sd).abs() < 1e-9);
        if let (Ok(here), Ok(there)) = (fit_power(&x, &y), fit_power(&other, &y)) {
            prop_assert!((here.exponent - there.exponent).abs() < 1e-6);
        }
    }
}
