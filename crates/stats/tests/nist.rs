//! Against the Norris data of the NIST Statistical Reference Datasets (linear regression, file
//! `Norris.dat`, as scipy 1.17.1 ships it).

use ringland_stats::trend::theil_sen;

/// (y, x) as they stand in the file.
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
