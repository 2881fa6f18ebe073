//! Wear over distance by hand; `tests/reference/` holds the same against other libraries.

use proptest::prelude::*;
use ringland_assess::gauging::{
    Remaining,
    forecast::{Forecast, Question, Unit, forecast},
};
use ringland_stats::{
    StatsError,
    confidence::Confidence,
    regression::{Curve, Intercept, Weighting, Why},
};

fn unit(name: &str, readings: &[(f64, f64)]) -> Unit {
    Unit {
        name: name.to_owned(),
        distance: readings.iter().map(|r| r.0).collect(),
        wear: readings.iter().map(|r| r.1).collect(),
    }
}

fn asked(units: &[Unit], intercept: Intercept, limit: f64) -> Result<Forecast, StatsError> {
    let question = Question {
        intercept,
        confidence: Confidence::P95,
        limit: Some(limit),
    };
    forecast(units, &question)
}

/// Wear that slows down as the root of distance, with a gauge that is off by 1 now up, now down.
const SLOWING: [(f64, f64); 8] = [
    (10.0, 33.0),
    (40.0, 62.0),
    (90.0, 91.0),
    (160.0, 119.0),
    (250.0, 151.0),
    (360.0, 179.0),
    (490.0, 211.0),
    (640.0, 239.0),
];

#[test]
fn a_law_is_taken_where_wear_slows_down() {
    let said = asked(&[unit("a", &SLOWING)], Intercept::Free, 300.0).unwrap();
    assert!(said.pooled.is_none());
    let a = &said.units[0];
    let choice = a.curves.choice.as_ref().unwrap();
    assert_eq!(choice.curve, Curve::PowerLaw);
    assert!(matches!(choice.why, Why::Better { by } if by > 2.0));
    let power = a.curves.power_law.as_ref().unwrap();
    assert!((power.exponent - 0.48).abs() < 0.03, "{power:?}");
    // A root reaches 300 at 1000.
    let Some(Remaining::Between {
        estimate,
        low,
        high,
    }) = a.remaining
    else {
        panic!("{:?}", a.remaining);
    };
    assert!(
        low < estimate && estimate < high && (280.0..440.0).contains(&estimate),
        "{estimate}"
    );
    assert!(a.last_reading.unwrap().agrees());
}

#[test]
fn a_line_is_taken_where_nothing_speaks_against_it() {
    let straight = [
        (10.0, 11.0),
        (20.0, 19.0),
        (30.0, 31.0),
        (40.0, 39.0),
        (50.0, 51.0),
    ];
    let said = asked(&[unit("a", &straight)], Intercept::Free, 100.0).unwrap();
    let choice = said.units[0].curves.choice.as_ref().unwrap();
    assert_eq!(choice.curve, Curve::Line);
    assert!(
        matches!(choice.why, Why::AsGoodAndSimpler { .. }),
        "{choice:?}"
    );
    let few = asked(&[unit("a", &straight[..3])], Intercept::Free, 100.0).unwrap();
    let choice = few.units[0].curves.choice.as_ref().unwrap();
    assert_eq!(choice.why, Why::TooFewToTell { got: 3, least: 5 });
    // By hand: mean (20, 20⅓), slope (31 − 11)/20 = 1.
    let line = few.units[0].curves.line.as_ref().unwrap();
    assert!((line.slope - 1.0).abs() < 1e-12 && (line.intercept - 1.0 / 3.0).abs() < 1e-12);
    // Two others foretell nothing.
    assert!(few.units[0].last_reading.is_none());
}

#[test]
fn a_last_reading_that_does_not_fit_is_told() {
    let jump = [
        (10.0, 1.0),
        (20.0, 2.1),
        (30.0, 2.9),
        (40.0, 4.1),
        (50.0, 9.0),
    ];
    let said = asked(&[unit("a", &jump)], Intercept::Zero, 100.0).unwrap();
    let last = said.units[0].last_reading.unwrap();
    assert!(!last.agrees() && (last.distance, last.wear) == (50.0, 9.0));
    assert_eq!(
        last.curve,
        said.units[0].curves.choice.as_ref().unwrap().curve
    );
}

#[test]
fn no_curve_is_no_reason_to_say_nothing() {
    let units = [unit("a", &[(10.0, 1.0)]), unit("b", &[(20.0, 3.0)])];
    let said = asked(&units, Intercept::Free, 5.0).unwrap();
    assert!(
        said.units
            .iter()
            .all(|unit| unit.remaining.is_none() && unit.curves.line.is_err())
    );
    assert!(asked(&[], Intercept::Free, 5.0).is_err());
    assert!(asked(&[unit("a", &[])], Intercept::Free, 5.0).is_err());
    assert!(asked(&[unit("a", &[(f64::NAN, 1.0)])], Intercept::Free, 5.0).is_err());
}

/// One reading a unit is the teardown's own case: through (0, 0) each has a rate. By hand: 0.1, 0.15, 0.2 have
/// the mean 0.15, s 0.05, and t(2) = 4.3027: 0.15 ± 4.3027·0.05/√3.
#[test]
fn one_reading_of_each_unit_makes_rates() {
    let units = [
        unit("a", &[(10.0, 1.0)]),
        unit("b", &[(20.0, 3.0)]),
        unit("c", &[(30.0, 6.0)]),
    ];
    let said = asked(&units, Intercept::Zero, 5.0).unwrap();
    let between = said.pooled.unwrap().units.between.unwrap();
    assert_eq!((between.units, between.weighting), (3, Weighting::Equal));
    assert!((between.mean.value - 0.15).abs() < 1e-12 && (between.sd - 0.05).abs() < 1e-12);
    let interval = between.mean.interval(Confidence::P95).unwrap();
    assert!((interval.high - (0.15 + 4.3027 * 0.05 / 3.0_f64.sqrt())).abs() < 1e-5);
    // One more unit: t(1) = 12.706·√(s² + s²/3).
    let next = between.next_unit(Confidence::P95).unwrap().unwrap();
    assert!((next.high - (0.15 + 12.706_2 * 0.05 * (4.0_f64 / 3.0).sqrt())).abs() < 1e-5);
}

proptest! {
    #[test]
    fn nothing_panics_whatever_is_read(
        readings in prop::collection::vec((0..3_u8, 0.0..1e6f64, any::<f64>()), 1..12), limit in any::<f64>(),
    ) {
        let mut units: Vec<Unit> = Vec::new();
        for (name, distance, wear) in readings {
            let name = name.to_string();
            let place = units.iter().position(|unit| unit.name == name).unwrap_or_else(|| {
                units.push(unit(&name, &[]));
                units.len() - 1
            });
            units[place].distance.push(distance);
            units[place].wear.push(wear);
        }
        for intercept in [Intercept::Free, Intercept::Zero] {
            let _any = asked(&units, intercept, limit);
        }
    }
}
