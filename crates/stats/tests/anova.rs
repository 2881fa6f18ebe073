//! More than two groups: NIST's reference sets, and random cases against scipy and statsmodels.
#![allow(
    clippy::unwrap_used,
    reason = "a figure that cannot be worked out fails the test"
)]

mod table;

use ringland_stats::{
    StatsError,
    compare::anova::{
        all_pairs, design_effect, holm, kruskal_wallis, one_way, variance_components,
    },
};
use table::{all_close, cases};

/// Relative to the certified value.
#[track_caller]
fn same(got: f64, want: f64, within: f64) {
    assert!(
        ((got - want) / want).abs() <= within,
        "got {got}, want {want}"
    );
}

fn slices(rows: &[Vec<f64>]) -> Vec<&[f64]> {
    rows.iter().map(Vec::as_slice).collect()
}

/// `f_oneway`, `kruskal`, and `ttest_ind` of all pairs with Holm's `multipletests`.
#[test]
fn agrees_with_scipy_and_statsmodels() {
    for case in cases("anova") {
        let groups = slices(&case.rows);
        let (f, h) = (one_way(&groups).unwrap(), kruskal_wallis(&groups).unwrap());
        let mut got = vec![f.f, f.p, h.h, h.p];
        got.extend(all_pairs(&groups).unwrap().iter().map(|pair| pair.adjusted));
        all_close("anova", &got, &case.figures, 1e-11);
    }
}

/// NIST Statistical Reference Datasets, `SiRstv`: resistivity of silicon by five instruments.
const SI_RSTV: [[f64; 5]; 5] = [
    [196.3052, 196.1240, 196.1890, 196.2569, 196.3403],
    [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    [196.2119, 196.1051, 196.1850, 196.0052, 196.2090],
];

#[test]
fn si_rstv() {
    let groups: Vec<&[f64]> = SI_RSTV.iter().map(<[f64; 5]>::as_slice).collect();
    let table = one_way(&groups).unwrap();
    // The certified sums of squares have nine digits.
    same(table.between.sum, 5.114_626_16e-2, 2e-9);
    same(table.within.sum, 2.166_365_60e-1, 2e-9);
    assert_eq!((table.between.dof, table.within.dof), (4, 20));
    same(table.f, 1.180_462_374_402_55, 1e-12);
    same(table.r_squared(), 0.190_999_039_051_129, 1e-12);
    same(table.residual_sd(), 0.104_076_068_334_656, 1e-12);
    // With scipy 1.17.1: the p of F, and Kruskal and Wallis's test.
    same(table.p, 0.349_447_493_4, 1e-9);
    let ranks = kruskal_wallis(&groups).unwrap();
    same(ranks.h, 4.364_307_7, 1e-8);
    same(ranks.p, 0.358_942, 1.4e-6);
}

/// NIST Statistical Reference Datasets, `AtmWtAg`: the atomic weight of silver by two instruments, in 10⁻⁷ above 107.868,
/// from the file that scipy 1.17.1 ships.
const ATM_WT_AG: [[f64; 24]; 2] = [
    [
        1568.0, 1465.0, 1572.0, 1785.0, 1446.0, 1903.0, 1526.0, 1494.0, 1616.0, 1587.0, 1519.0,
        1486.0, 1419.0, 1569.0, 1508.0, 1672.0, 1385.0, 1518.0, 1662.0, 1424.0, 1360.0, 1333.0,
        1610.0, 1477.0,
    ],
    [
        1079.0, 1344.0, 1513.0, 1197.0, 1604.0, 1385.0, 1642.0, 1365.0, 1151.0, 1082.0, 1517.0,
        1448.0, 1198.0, 1482.0, 1334.0, 1609.0, 1101.0, 1512.0, 1469.0, 1360.0, 1254.0, 1261.0,
        1450.0, 1368.0,
    ],
];

#[test]
fn atm_wt_ag() {
    // Without the digits that are all alike, every digit is right.
    let groups: Vec<&[f64]> = ATM_WT_AG.iter().map(<[f64; 24]>::as_slice).collect();
    let table = one_way(&groups).unwrap();
    same(table.between.sum, 3.638_341_875_000_00e-9 * 1e14, 1e-13);
    same(table.within.sum, 1.049_517_291_666_67e-8 * 1e14, 1e-13);
    assert_eq!((table.between.dof, table.within.dof), (1, 46));
    same(table.f, 15.946_733_567_793_0, 1e-13);
    same(table.residual_sd(), 1.510_483_144_464_10e-5 * 1e7, 1e-13);
    // With them, a double holds a sample to a billionth of the scatter: so many digits can be had, and no more.
    let full = ATM_WT_AG.map(|row| row.map(|x| (1_078_680_000.0 + x) / 1e7));
    let groups: Vec<&[f64]> = full.iter().map(<[f64; 24]>::as_slice).collect();
    let table = one_way(&groups).unwrap();
    same(table.f, 15.946_733_567_793_0, 1e-9);
    same(table.residual_sd(), 1.510_483_144_464_10e-5, 1e-9);
}

/// NIST Statistical Reference Datasets, `SmLs01`, `SmLs04` and `SmLs07`, from the files that scipy 1.17.1 ships: nine
/// treatments of 21 samples, each one at its middle and ten pairs a tenth about it, above 1, 10⁶ and 10¹². All have the
/// certified F 21, R² 0.482758620689655 and s 0.1, as far as a double holds their tenths.
#[test]
fn large_common_parts_do_no_harm() {
    let middles = [4, 3, 5, 3, 5, 3, 5, 3, 5];
    for (height, within) in [(1.0, 1e-12), (1e6, 1e-8), (1e12, 1e-2)] {
        let treatment = |middle: i32| -> Vec<f64> {
            let tenths = (0..10).flat_map(|_| [middle - 1, middle + 1]);
            let tenths = std::iter::once(middle).chain(tenths);
            tenths
                .map(|tenths| (height * 10.0 + f64::from(tenths)) / 10.0)
                .collect()
        };
        let rows: Vec<Vec<f64>> = middles.into_iter().map(treatment).collect();
        let table = one_way(&slices(&rows)).unwrap();
        assert_eq!((table.between.dof, table.within.dof), (8, 180));
        same(table.f, 21.0, within);
        same(table.r_squared(), 0.482_758_620_689_655, within);
        same(table.residual_sd(), 0.1, within);
    }
}

/// By hand: groups (1, 3) and (4, 6, 8) have means 2 and 6, `SS_within` 2 + 8, `SS_between` 2·(2.4)² + 3·(1.6)² = 19.2.
/// MS 19.2 and 10/3; n₀ = (5 − 13/5)/1 = 2.4; `σ²_b` = (19.2 − 10/3)/2.4.
#[test]
fn components_by_hand() {
    let groups: [&[f64]; 2] = [&[1.0, 3.0], &[4.0, 6.0, 8.0]];
    let table = one_way(&groups).unwrap();
    same(table.between.sum, 19.2, 1e-14);
    same(table.within.sum, 10.0, 1e-14);
    let found = variance_components(&groups).unwrap();
    same(found.group_size, 2.4, 1e-14);
    same(found.within, 10.0 / 3.0, 1e-14);
    let between = (19.2 - 10.0 / 3.0) / 2.4;
    same(found.between, between, 1e-14);
    same(found.intraclass(), between / (between + 10.0 / 3.0), 1e-14);
    // Groups more alike than chance would have them have no variance of their own.
    let found = variance_components(&[&[1.0, 3.0], &[3.0, 1.0]]).unwrap();
    assert!(found.between == 0.0 && found.intraclass() == 0.0);
}

/// Kish's formula by hand: six samples half alike, 1 + 5·0.5.
#[test]
fn samples_that_are_alike_count_less() {
    same(design_effect(6.0, 0.5).unwrap(), 3.5, 1e-15);
    same(design_effect(1.0, 0.9).unwrap(), 1.0, 1e-15);
    same(design_effect(18.0, 1.0).unwrap(), 18.0, 1e-15);
    assert!(design_effect(0.5, 0.5).is_err());
    assert!(design_effect(6.0, 1.5).is_err());
}

/// By hand: 0.01·4, 0.02·3, 0.03·2 and 0.005·… in order 0.01 0.02 0.03 0.9, the third raised to the second.
#[test]
fn holm_by_hand() {
    let got = holm(&[0.03, 0.01, 0.9, 0.02]).unwrap();
    all_close("holm", &got, &[0.06, 0.04, 0.9, 0.06], 1e-15);
    assert_eq!(holm(&[]), Ok(vec![]));
    assert!(holm(&[1.1]).is_err());
    assert!(holm(&[f64::NAN]).is_err());
}

#[test]
fn refusals() {
    assert!(matches!(
        one_way(&[&[1.0, 2.0]]),
        Err(StatsError::TooFew { got: 1, .. })
    ));
    assert!(one_way(&[&[1.0], &[2.0]]).is_err());
    assert!(one_way(&[&[1.0, 2.0], &[]]).is_err());
    assert!(matches!(
        one_way(&[&[1.0, 1.0], &[2.0, 2.0]]),
        Err(StatsError::NoSpread { .. })
    ));
    assert!(matches!(
        kruskal_wallis(&[&[1.0], &[1.0, 1.0]]),
        Err(StatsError::NoSpread { .. })
    ));
    assert!(all_pairs(&[&[1.0], &[1.0, 2.0]]).is_err());
}
