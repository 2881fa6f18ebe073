//! Against the examples of JCGM 106:2012 (from memory, worked again with scipy 1.17.1) and factors worked
//! with it: `scipy.stats.norm.ppf`, `scipy.stats.t.ppf`.

use ringland_stats::{
    confidence::{Confidence, Dof},
    conformity::{Prior, Tolerance, Verdict, conformity, global_risks, probability_of_conformity},
    distribution::{normal_quantile, t_quantile},
    uncertainty::Standard,
};

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

/// 7.3.3: the diode's voltage −5.47 V ± 0.05 V, at most −5.40 V: Φ(1.40) = 0.9192.
#[test]
fn one_limit() {
    let p = probability_of_conformity(-5.47, Standard::known(0.05), Tolerance::AtMost(-5.40));
    close(p, 0.9192, 5e-5);
}

/// 7.4: an oil of grade 40, 12.5 to 16.3 mm²/s, measured 13.6 ± 1.8: 0.6626 (0.66).
#[test]
fn two_limits() {
    let grade = Tolerance::Between {
        low: 12.5,
        high: 16.3,
    };
    close(
        probability_of_conformity(13.6, Standard::known(1.8), grade),
        0.6626,
        5e-5,
    );
}

/// 9.5: resistors of 1500 Ω ± 0.12 Ω, measured with 0.04 Ω, tolerance ± 0.20, accepted within ± 0.18.
#[test]
fn risks_of_resistors() {
    let within = |half: f64| Tolerance::Between {
        low: 1500.0 - half,
        high: 1500.0 + half,
    };
    let prior = Prior {
        mean: 1500.0,
        sd: 0.12,
    };
    let guarded = global_risks(prior, 0.04, within(0.20), within(0.18)).unwrap();
    close(guarded.conforming, 0.9044, 5e-5);
    close(guarded.consumer, 0.00988, 5e-6);
    close(guarded.producer, 0.0690, 5e-5);
    let simple = global_risks(prior, 0.04, within(0.20), within(0.20)).unwrap();
    close(simple.consumer, 0.0189, 5e-5);
    close(simple.producer, 0.0372, 5e-5);
}

/// A bore with the limit 130.075 mm, measured with 0.003 mm.
#[test]
fn a_bore_at_its_limit() {
    let limit = Tolerance::AtMost(130.075);
    let known = Standard::known(0.003);
    for (y, p, verdict) in [
        (130.066, 0.9987, Verdict::Within),
        (130.070, 0.9522, Verdict::Within),
        (130.075, 0.5, Verdict::CannotSay),
        (130.080, 0.0478, Verdict::Beyond),
    ] {
        let said = conformity(y, known, limit, Confidence::P95).unwrap();
        close(said.probability, p, 5e-5);
        assert_eq!(said.verdict, verdict, "{y}");
    }
    // What would be enough: |130.075 − y|/1.6449.
    let at = |y| {
        conformity(y, known, limit, Confidence::P95)
            .unwrap()
            .sufficient_u
    };
    close(at(130.0733).unwrap(), 0.0017 / 1.644_854, 1e-8);
    assert_eq!(at(130.075), None);
}

/// One-sided factors.
#[test]
fn factors() {
    for (p, k) in [
        (0.80, 0.8416),
        (0.90, 1.2816),
        (0.95, 1.6449),
        (0.99, 2.3263),
        (0.999, 3.0902),
    ] {
        close(normal_quantile(p).unwrap(), k, 5e-5);
    }
    for (p, dof, k) in [
        (0.95, 4.0, 2.1318),
        (0.95, 9.0, 1.8331),
        (0.95, 19.0, 1.7291),
        (0.99, 4.0, 3.7469),
    ] {
        close(t_quantile(p, Dof::new(dof).unwrap()).unwrap(), k, 5e-5);
    }
}

/// 4.5 u away with 4 degrees of freedom the risk is 5.41e-3, not the 3.40e-6 of a normal distribution.
#[test]
fn few_readings_leave_more_risk() {
    let risk = |dof| {
        let standard = Standard { u: 1.0, dof };
        1.0 - probability_of_conformity(-4.5, standard, Tolerance::AtMost(0.0))
    };
    close(risk(Dof::new(4.0).unwrap()), 5.41e-3, 5e-6);
    close(risk(Dof::INFINITE), 3.40e-6, 5e-9);
}

#[test]
fn what_makes_no_sense_is_refused() {
    let known = Standard::known(1.0);
    let backwards = Tolerance::Between {
        low: 1.0,
        high: 0.0,
    };
    assert!(conformity(0.0, known, backwards, Confidence::P95).is_err());
    assert!(conformity(f64::NAN, known, Tolerance::AtMost(0.0), Confidence::P95).is_err());
    let half = Confidence::new(0.4).unwrap();
    assert!(conformity(0.0, known, Tolerance::AtMost(0.0), half).is_err());
    let prior = Prior { mean: 0.0, sd: 1.0 };
    assert!(global_risks(prior, 0.0, Tolerance::AtMost(0.0), Tolerance::AtMost(0.0)).is_err());
}
