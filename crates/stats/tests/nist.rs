//! Against the NIST Statistical Reference Datasets for linear regression. Norris is the file that scipy
//! 1.17.1 ships; NoInt1 and Pontius are from copies that agree with each other and with statsmodels 0.15.0.

use ringland_stats::{
    regression::{Intercept, fit_line, fit_polynomial},
    trend::theil_sen,
};

/// Relative to the certified value.
#[track_caller]
fn same(got: f64, want: f64, within: f64) {
    assert!(
        ((got - want) / want).abs() <= within,
        "got {got}, want {want}"
    );
}

/// Norris: (y, x) as they stand in the file.
const NORRIS: [(f64, f64); 36] = [
    (0.1, 0.2),
    (338.8, 337.4),
    (118.1, 118.2),
    (888.0, 884.6),
    (9.2, 10.1),
    (228.1, 226.5),
    (668.5, 666.3),
    (998.5, 996.3),
    (449.1, 448.6),
    (778.9, 777.0),
    (559.2, 558.2),
    (0.3, 0.4),
    (0.1, 0.6),
    (778.1, 775.5),
    (668.8, 666.9),
    (339.3, 338.0),
    (448.9, 447.5),
    (10.8, 11.6),
    (557.7, 556.0),
    (228.3, 228.1),
    (998.0, 995.8),
    (888.8, 887.6),
    (119.6, 120.2),
    (0.3, 0.3),
    (0.6, 0.3),
    (557.6, 556.8),
    (339.3, 339.1),
    (888.0, 887.2),
    (998.5, 999.0),
    (778.9, 779.0),
    (10.2, 11.1),
    (117.6, 118.3),
    (228.9, 229.2),
    (668.4, 669.1),
    (449.2, 448.9),
    (0.2, 0.5),
];

/// Theil-Sen has no certified value there. With scipy 1.17.1, `stats.theilslopes(y, x)` gives slope
/// 1.0021968 and intercept -0.0640158 to seven decimals.
#[test]
fn theil_sen_on_norris() {
    let (y, x): (Vec<f64>, Vec<f64>) = NORRIS.into_iter().unzip();
    let line = theil_sen(&x, &y).unwrap();
    assert!((line.slope - 1.002_196_8).abs() < 5e-8, "{line:?}");
    assert!((line.intercept - -0.064_015_8).abs() < 5e-8, "{line:?}");
    // The certified least-squares slope, 1.00211681802045, is near by: the data are nearly straight.
    assert!((line.slope - 1.002_116_818_020_45).abs() < 5e-4);
}

#[test]
fn norris() {
    let (y, x): (Vec<f64>, Vec<f64>) = NORRIS.into_iter().unzip();
    let line = fit_line(&x, &y, Intercept::Free).unwrap();
    same(line.intercept, -0.262_323_073_774_029, 1e-12);
    same(line.se_intercept, 0.232_818_234_301_152, 1e-12);
    same(line.slope, 1.002_116_818_020_45, 1e-14);
    same(line.se_slope, 0.429_796_848_199_937e-3, 1e-12);
    same(line.residual_sd, 0.884_796_396_144_373, 1e-12);
    same(line.r_squared.unwrap(), 0.999_993_745_883_712, 1e-14);
    same(line.residual_squares, 26.617_398_529_422_4, 1e-12);
}

/// NoInt1 (linear regression through (0, 0)): y 130 to 140 at x 60 to 70.
#[test]
fn no_int_1() {
    let x: Vec<f64> = (60..=70).map(f64::from).collect();
    let y: Vec<f64> = (130..=140).map(f64::from).collect();
    let line = fit_line(&x, &y, Intercept::Zero).unwrap();
    same(line.slope, 2.074_380_165_289_26, 1e-13);
    same(line.se_slope, 0.016_528_925_619_834_7, 1e-12);
    same(line.residual_sd, 3.567_530_340_063_38, 1e-12);
    same(line.r_squared.unwrap(), 0.999_365_492_298_663, 1e-13);
    assert!(line.intercept == 0.0 && line.se_intercept == 0.0 && line.covariance == 0.0);
}

/// Pontius (quadratic, x from 150,000 to 3,000,000 twice): (y, twice).
const PONTIUS: [f64; 40] = [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146,
    1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844,
    0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150,
    1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
];

#[test]
fn pontius() {
    let x: Vec<f64> = (0..40).map(|n| 150_000.0 * f64::from(n % 20 + 1)).collect();
    let fit = fit_polynomial(&x, &PONTIUS, 2).unwrap();
    for (coefficient, (value, se)) in fit.coefficients.iter().zip([
        (0.673_565_789_473_684e-3, 0.107_938_612_033_077e-3),
        (0.732_059_160_401_003e-6, 0.157_817_399_981_659e-9),
        (-0.316_081_871_345_029e-14, 0.486_652_849_992_036e-16),
    ]) {
        same(coefficient.value, value, 1e-10);
        same(coefficient.se, se, 1e-10);
    }
    same(fit.residual_sd, 0.205_177_424_076_185e-3, 1e-10);
    same(fit.r_squared.unwrap(), 0.999_999_900_178_537, 1e-14);
}
