//! Against the worked examples of JCGM 100:2008 (GUM), H.1 and H.3, and their propagation of
//! distributions after JCGM 101:2008.

use ringland_stats::{
    confidence::{Confidence, Dof},
    monte_carlo::{Input, MonteCarlo, Source, summarise},
    regression::{Intercept, fit_line},
    uncertainty::{Component, Correlation, Standard, combine, repeats},
};

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

fn component(u: f64, dof: f64, sensitivity: f64) -> Component<()> {
    let dof = Dof::new(dof).unwrap_or(Dof::INFINITE);
    Component {
        label: (),
        standard: Standard { u, dof },
        sensitivity,
    }
}

/// H.1, the end gauge, in nanometres: l = lₛ + d − lₛ(δα·θ + αₛ·δθ). The published figures: components 25, 9.7, 2.9
/// and 16.7 nm; u 32 nm (31.71 from unrounded parts); ν 16; U₉₉ 93 nm with k 2.92.
#[test]
fn the_end_gauge() {
    const L: f64 = 50.000_623e6;
    let infinite = f64::INFINITY;
    // 9.7 nm is made of three parts: repeats 5.8 (24), comparator 3.9 (5) and 6.7 (8).
    let difference = combine(
        vec![
            component(5.8, 24.0, 1.0),
            component(3.9, 5.0, 1.0),
            component(6.7, 8.0, 1.0),
        ],
        &[],
    )
    .unwrap();
    close(difference.u, 9.7, 0.05);
    // 25.6 is made of the rounded 9.7; 9.68 makes it 25.45.
    close(difference.dof.unwrap().get(), 25.6, 0.2);
    let parts = vec![
        component(25.0, 18.0, 1.0),
        component(9.7, 25.6, 1.0),
        // θ = −0.1 °C; αₛ = 11.5e-6 /°C; δα has u 0.58e-6 (50), δθ has u 0.029 (2).
        component(0.58e-6, 50.0, L * 0.1),
        component(0.029, 2.0, -L * 11.5e-6),
        // αₛ and θ have no effect at δθ = 0 and δα = 0.
        component(1.2e-6, infinite, 0.0),
        component(0.41, infinite, 0.0),
    ];
    let budget = combine(parts, &[]).unwrap();
    for (row, want) in budget.rows.iter().zip([25.0, 9.7, 2.9, 16.7]) {
        close(row.contribution.abs(), want, 0.05);
    }
    close(budget.u, 31.71, 0.005);
    let expanded = budget.expanded(Confidence::P99).unwrap().unwrap();
    close(budget.dof.unwrap().get(), 16.66, 0.1);
    close(expanded.dof.get(), 16.0, 0.0);
    close(expanded.factor, 2.921, 5e-4);
    close(expanded.uncertainty, 93.0, 0.5);
    close(L + 215.0, 50.000_838e6, 0.5);
}

/// The same by draws: the second-order terms 11.9 and 1.7 nm, which the law of propagation leaves out, make
/// it √(31.71² + 11.9² + 1.7²) = 33.9 nm.
#[test]
fn the_end_gauge_by_draws_has_its_second_order_too() {
    let normal = |mean, sd| Input::Normal { mean, sd };
    let inputs = [
        normal(50.000_623e6, 25.0),
        normal(215.0, 9.7),
        normal(11.5e-6, 1.2e-6),
        normal(-0.1, 0.41),
        normal(0.0, 0.58e-6),
        normal(0.0, 0.029),
    ];
    let mut drawing = MonteCarlo::new(inputs, 400_000, Source::seeded(1)).unwrap();
    let length = |_, [l, d, alpha, theta, d_alpha, d_theta]: [f64; 6]| {
        l + d - l * (d_alpha * theta + alpha * d_theta)
    };
    while !drawing.go_on(100_000, length).is_whole() {}
    let summary = summarise(&mut drawing.outputs(), Confidence::P95).unwrap();
    // So many draws tell a standard deviation to a part in 900.
    close(summary.u, 33.9, 0.12);
    close(summary.mean, 50.000_838e6, 0.2);
}

/// H.3, the thermometer: temperatures, corrections (from memory; they give the published figures).
const THERMOMETER: [(f64, f64); 11] = [
    (21.521, -0.171),
    (22.012, -0.169),
    (22.512, -0.166),
    (23.003, -0.159),
    (23.507, -0.164),
    (23.999, -0.165),
    (24.513, -0.156),
    (25.002, -0.157),
    (25.503, -0.159),
    (26.010, -0.161),
    (26.511, -0.160),
];

#[test]
fn the_thermometer_line() {
    let (t, b): (Vec<f64>, Vec<f64>) = THERMOMETER.iter().map(|(t, b)| (t - 20.0, *b)).unzip();
    let line = fit_line(&t, &b, Intercept::Free).unwrap();
    close(line.intercept, -0.1712, 5e-5);
    close(line.se_intercept, 0.0029, 5e-5);
    close(line.slope, 0.002_18, 5e-6);
    close(line.se_slope, 0.000_67, 5e-6);
    close(
        line.covariance / line.se_intercept / line.se_slope,
        -0.930,
        5e-4,
    );
    close(line.residual_sd, 0.0035, 5e-5);
    close(line.at(10.0), -0.1494, 5e-5);
    close(line.se_at(10.0), 0.0041, 5e-5);
    // The same by the law of propagation with the correlation.
    let dof = line.dof.get();
    let budget = combine(
        vec![
            component(line.se_intercept, dof, 1.0),
            component(line.se_slope, dof, 10.0),
        ],
        &[Correlation {
            one: 0,
            other: 1,
            r: line.covariance / line.se_intercept / line.se_slope,
        }],
    )
    .unwrap();
    close(budget.u, line.se_at(10.0), 1e-12);
    assert_eq!(budget.dof, None);
}

/// 4.4.3 of the GUM, twenty temperatures: mean 100.145, s 1.489, u 0.333 with 19 degrees of freedom (its
/// table 1, from memory; it gives the published figures).
#[test]
fn repeats_of_a_temperature() {
    let readings = [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42,
        100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ];
    let repeats = repeats(&readings).unwrap();
    close(repeats.mean, 100.145, 5e-4);
    close(repeats.standard.u, 0.333, 5e-4);
    close(repeats.standard.dof.get(), 19.0, 0.0);
    // 4.4.5 and 4.4.6: ± 4 °C, rectangular 2.3 and triangular 1.6.
    close(Standard::rectangular(4.0).u, 2.3, 0.05);
    close(Standard::triangular(4.0).u, 1.6, 0.05);
    // 4.3.4: U = 240 µg at three standard deviations.
    close(Standard::expanded(240.0, 3.0).u, 80.0, 0.0);
}

#[test]
fn correlations_that_contradict_each_other_are_refused() {
    let parts = || vec![component(1.0, 5.0, 1.0); 3];
    let pair = |one, other, r| Correlation { one, other, r };
    let all = [pair(0, 1, -1.0), pair(0, 2, -1.0), pair(1, 2, -1.0)];
    assert!(combine(parts(), &all).is_err());
    assert!(combine(parts(), &[pair(0, 3, 0.5)]).is_err());
    assert!(combine(parts(), &[pair(0, 1, 1.5)]).is_err());
    assert!(combine(vec![component(f64::NAN, 1.0, 1.0)], &[]).is_err());
    let nothing = combine(vec![component(0.0, 3.0, 1.0)], &[]).unwrap();
    close(nothing.u, 0.0, 0.0);
    assert_eq!(nothing.dof, Some(Dof::INFINITE));
}
