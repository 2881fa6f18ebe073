//! Gauging against figures from outside: handbook geometry, expansion coefficients of J. Res. NIST 99, 31
//! (1994), fits of ISO 286, and laws that must hold of any readings.

use proptest::prelude::*;
use ringland_assess::gauging::{
    AsNew, BreakIn, Exposure, Feature, Gauged, GaugingError, Grid, Measured, Position, Race, Range,
    Remaining, Source,
    clearance::{
        clearance, clearance_in_shells, clearances_as_new, closing_when_warm, ring_gap_growth,
    },
    rate::wear_rate,
    remaining::{remaining, remaining_on_line},
    share::wear_share,
    temperature::{Expansion, Thermometer, Warmth, at_20_c},
};
use ringland_stats::{
    confidence::Confidence,
    conformity::{Tolerance, Verdict, conformity},
    regression::{Intercept, Possible, fit_line},
    uncertainty::Standard,
};
use uom::si::{
    f64::{
        Length, TemperatureCoefficient, TemperatureInterval, ThermodynamicTemperature, Time, Volume,
    },
    length::{kilometer, micrometer, millimeter},
    temperature_coefficient::per_kelvin,
    temperature_interval::kelvin,
    thermodynamic_temperature::degree_celsius,
    time::hour,
    volume::liter,
};

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn um(value: f64) -> Length {
    Length::new::<micrometer>(value)
}

fn known(size: Length, u: Length) -> Measured {
    Measured::known(size, u)
}

fn exact(size: Length) -> Measured {
    Measured::known(size, mm(0.0))
}

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

#[track_caller]
fn in_mm(gauged: &Gauged, want: f64) {
    close(gauged.value.get::<millimeter>(), want, 1e-9);
}

/// Three heights, thrust and pin axis, as the Navy training manual 14076 has it (arithmetic on its
/// definitions): new 130.000; top 130.045/130.031, middle 130.022/130.018, bottom 130.012/130.010.
fn liner() -> Grid {
    let rows = [[130.045, 130.031], [130.022, 130.018], [130.012, 130.010]]
        .map(|row| row.map(mm).to_vec());
    Grid::new(Feature::Bore, &rows, exact(mm(0.0)), mm(0.0)).expect("a whole grid")
}

#[test]
fn a_liner_by_its_definitions() {
    let liner = liner();
    for (height, want) in [0.014, 0.004, 0.002].into_iter().enumerate() {
        in_mm(&liner.out_of_round(height).unwrap(), want);
    }
    for (axis, want) in [0.033, 0.021].into_iter().enumerate() {
        in_mm(&liner.taper(axis).unwrap(), want);
    }
    let most = liner.max_wear(&AsNew::Known(exact(mm(130.0)))).unwrap();
    in_mm(&most.wear, 0.045);
    assert_eq!((most.height, most.axis), (0, 0));
}

/// By hand: readings of 1.5 µm, a gauge known to 2 µm, a new size of 130.00 to 130.02 (10/√3 µm): differences
/// have √2·1.5 µm, wear √(1.5² + 2² + 100/3) µm.
#[test]
fn what_the_gauge_does_not_know_goes_into_the_budget() {
    let rows = [
        vec![mm(130.045), mm(130.031)],
        vec![mm(130.012), mm(130.010)],
    ];
    let grid = Grid::new(Feature::Bore, &rows, known(mm(0.0), um(1.5)), um(2.0)).unwrap();
    let micrometres = |gauged: &Gauged| gauged.budget.u * 1e6;
    close(
        micrometres(&grid.out_of_round(0).unwrap()),
        2.0_f64.sqrt() * 1.5,
        1e-9,
    );
    let new = AsNew::Range(Range {
        low: mm(130.0),
        high: mm(130.02),
    });
    let most = grid.max_wear(&new).unwrap();
    in_mm(&most.wear, 0.035);
    close(
        micrometres(&most.wear),
        (2.25 + 4.0 + 100.0 / 3.0_f64).sqrt(),
        1e-9,
    );
    let largest = most
        .wear
        .budget
        .rows
        .iter()
        .max_by(|a, b| a.share.total_cmp(&b.share));
    assert_eq!(largest.unwrap().component.label, Source::AsNew);
}

#[test]
fn a_journal_wears_down() {
    let rows = [vec![mm(99.98), mm(99.95)]];
    let grid = Grid::new(Feature::Journal, &rows, exact(mm(0.0)), mm(0.0)).unwrap();
    let most = grid.max_wear(&AsNew::Known(exact(mm(100.0)))).unwrap();
    in_mm(&most.wear, 0.05);
    assert_eq!((most.height, most.axis), (0, 1));
}

#[test]
fn a_grid_with_a_gap_is_refused() {
    let grid = |rows: &[Vec<Length>]| Grid::new(Feature::Bore, rows, exact(mm(0.0)), mm(0.0));
    assert!(grid(&[]).is_err());
    assert!(grid(&[vec![]]).is_err());
    let gap = grid(&[vec![mm(1.0), mm(1.0)], vec![mm(1.0)]]);
    assert_eq!(
        gap,
        Err(GaugingError::Grid {
            height: 1,
            got: 1,
            want: 2
        })
    );
    assert!(liner().out_of_round(3).is_err());
    assert!(liner().taper(2).is_err());
}

/// Geometry: π·0.05 = 0.1571, 2π·0.02 = 0.1257, both 0.2827 mm.
#[test]
fn ring_gaps() {
    let gap = |bore, face| ring_gap_growth(&exact(mm(bore)), &exact(mm(face))).unwrap();
    let value = |gap: Gauged| gap.value.get::<millimeter>();
    close(value(gap(0.05, 0.0)), 0.1571, 5e-5);
    close(value(gap(0.0, 0.02)), 0.1257, 5e-5);
    close(value(gap(0.05, 0.02)), 0.2827, 5e-5);
    // TM 5-3825-229-14&P says 0.08 mm for 0.03 mm (0.0031 in for 0.0012 in); geometry gives 0.094 mm.
    close(value(gap(0.03, 0.0)), 0.094, 5e-4);
    assert!(value(gap(0.03, 0.0)) - 0.08 > 0.01);
    let known = ring_gap_growth(&known(mm(0.05), um(3.0)), &known(mm(0.02), um(2.0))).unwrap();
    close(known.budget.u * 1e6, std::f64::consts::PI * 5.0, 1e-9);
}

#[test]
fn shells_count_twice() {
    let housing = exact(mm(105.0));
    let journal = exact(mm(99.95));
    let with = |wall: f64| {
        let walls = [exact(mm(wall)), exact(mm(wall))];
        clearance_in_shells(&housing, &walls, &journal).unwrap()
    };
    in_mm(&with(2.5), 0.05);
    // Wear of t on each of two shells opens the clearance by 2t.
    in_mm(&with(2.49), 0.07);
    let bore = known(mm(100.0), um(3.0));
    let open = clearance(&bore, &known(mm(99.95), um(4.0))).unwrap();
    in_mm(&open, 0.05);
    close(open.budget.u * 1e6, 5.0, 1e-9);
}

fn expansion(ppm: f64, u_ppm: f64) -> Expansion {
    Expansion {
        coefficient: TemperatureCoefficient::new::<per_kelvin>(ppm * 1e-6),
        u: TemperatureCoefficient::new::<per_kelvin>(u_ppm * 1e-6),
    }
}

fn thermometer(shown_c: f64, u: f64) -> Thermometer {
    Thermometer {
        shown: ThermodynamicTemperature::new::<degree_celsius>(shown_c),
        u: TemperatureInterval::new::<kelvin>(u),
    }
}

/// 130 mm at 28 °C: steel 11.5 and aluminium 23.1 ppm/K (J. Res. NIST 99, 31), grey iron 10.5 (from memory).
#[test]
fn sizes_at_20_degrees() {
    let bore = exact(mm(130.0));
    let warm = Warmth::Together(thermometer(28.0, 0.0));
    let none = expansion(0.0, 0.0);
    let shrinks = |part: &Expansion, gauge: &Expansion| {
        let at_20 = at_20_c(&bore, part, gauge, &warm).unwrap();
        (bore.value - at_20.value).get::<micrometer>()
    };
    for (ppm, want) in [(10.5, 10.92), (11.5, 11.96), (23.1, 24.02)] {
        close(shrinks(&expansion(ppm, 0.0), &none), want, 0.005);
    }
    // A steel gauge in an iron bore, both at 28 °C: it reads 1.04 µm too little.
    close(
        shrinks(&expansion(10.5, 0.0), &expansion(11.5, 0.0)),
        -1.04,
        0.005,
    );
    // A piston of 20.5 in a bore of 10.5 ppm/K, 137 mm, 70 K warmer.
    let closes = closing_when_warm(
        mm(137.0),
        expansion(20.5, 0.0).coefficient,
        expansion(10.5, 0.0).coefficient,
        TemperatureInterval::new::<kelvin>(70.0),
    );
    close(closes.get::<micrometer>(), 95.9, 0.05);
}

/// By hand, in µm: 130 mm × (8 K × 1 ppm/K for the part, 8 × 0.5 for the gauge, and 1 K of temperature ×
/// (11.5 − 10.5) ppm/K) = 1.04, 0.52, 0.13. With two thermometers the 1 K of each counts by itself: 1.365, 1.495.
#[test]
fn a_common_temperature_counts_once() {
    let bore = exact(mm(130.0));
    let (iron, steel) = (expansion(10.5, 1.0), expansion(11.5, 0.5));
    let u = |warmth| at_20_c(&bore, &iron, &steel, &warmth).unwrap().budget.u * 1e6;
    let one = thermometer(28.0, 1.0);
    let squares = |parts: &[f64]| parts.iter().map(|p| p * p).sum::<f64>().sqrt();
    close(u(Warmth::Together(one)), squares(&[1.04, 0.52, 0.13]), 1e-6);
    let apart = Warmth::Apart {
        part: one,
        gauge: one,
    };
    close(u(apart), squares(&[1.04, 0.52, 1.365, 1.495]), 1e-6);
}

/// Fits of ISO 286: 100 H7/g6 is +35/0 and −12/−34 µm, 130 H7/g6 +40/0 and −14/−39, 130 H7/p6 +68/+43 (tolerance
/// grades from published tables, fundamental deviations from memory).
#[test]
fn clearances_of_iso_fits() {
    let part = |size: f64, low: f64, high: f64| Range {
        low: mm(size) + um(low),
        high: mm(size) + um(high),
    };
    for (size, hole, shaft, want) in [
        (100.0, 35.0, (-34.0, -12.0), (12.0, 69.0)),
        (130.0, 40.0, (-39.0, -14.0), (14.0, 79.0)),
        (130.0, 40.0, (43.0, 68.0), (-68.0, -3.0)),
    ] {
        let got = clearances_as_new(part(size, 0.0, hole), part(size, shaft.0, shaft.1));
        close(got.low.get::<micrometer>(), want.0, 1e-6);
        close(got.high.get::<micrometer>(), want.1, 1e-6);
    }
}

/// By hand: 0.045 of 0.1 mm is 45 %. With u 3 µm, and a new size from 129.99 to 130.01 (10/√3 µm):
/// √((3/100)² + (0.055·10/√3/0.1²/1000)²).
#[test]
fn shares_of_the_allowance() {
    let size = known(mm(130.045), um(3.0));
    let new = AsNew::Range(Range {
        low: mm(129.99),
        high: mm(130.01),
    });
    let share = wear_share(&size, &new, mm(130.1)).unwrap();
    close(share.used, 0.45, 1e-9);
    let of_new = 0.55 * 10.0 / 3.0_f64.sqrt() / 100.0;
    close(
        share.budget.u,
        (0.03_f64 * 0.03 + of_new * of_new).sqrt(),
        1e-9,
    );
    // A journal from 100 down to 99.9.
    let journal = wear_share(&exact(mm(99.98)), &AsNew::Known(exact(mm(100.0))), mm(99.9));
    close(journal.unwrap().used, 0.2, 1e-9);
    let none = wear_share(&size, &AsNew::Known(exact(mm(130.0))), mm(130.0));
    assert_eq!(none, Err(GaugingError::NoAllowance));
}

fn km(value: f64) -> Exposure {
    Exposure::distance(Length::new::<kilometer>(value))
}

/// By hand: 45 µm over 450,000 km is 0.1 µm per 1000 km; with 9 µm over the first 50,000 km it is 36 over 400,000.
#[test]
fn wear_rates() {
    let (size, new) = (exact(mm(130.045)), AsNew::Known(exact(mm(130.0))));
    let per_1000_km = |rate: f64| rate * 1e6 * 1e6;
    let plain = wear_rate(&size, &new, true, km(450_000.0), None).unwrap();
    close(per_1000_km(plain.rate), 0.1, 1e-9);
    let break_in = BreakIn {
        until: km(50_000.0),
        wear: known(um(9.0), um(2.0)),
    };
    let later = wear_rate(&size, &new, true, km(450_000.0), Some(&break_in)).unwrap();
    close(per_1000_km(later.rate), 0.09, 1e-9);
    close(per_1000_km(later.budget.u), 2.0 / 400.0, 1e-9);
    // Per hour and per litre.
    let hours = Exposure::time(Time::new::<hour>(9000.0));
    let rate = wear_rate(&size, &new, true, hours, None).unwrap().rate;
    close(rate * 1e6 * 3600.0, 45.0 / 9000.0, 1e-12);
    let fuel = Exposure::fuel(Volume::new::<liter>(90_000.0));
    let rate = wear_rate(&size, &new, true, fuel, None).unwrap().rate;
    close(rate * 1e6 / 1000.0, 45.0 / 90_000.0, 1e-12);
    assert!(wear_rate(&size, &new, true, hours, Some(&break_in)).is_err());
    assert!(wear_rate(&size, &new, true, km(50_000.0), Some(&break_in)).is_err());
}

fn worn(size: f64, u: f64) -> Position {
    Position {
        size: known(mm(size), um(u)),
        as_new: AsNew::Known(known(mm(130.0), um(2.0))),
        limit: mm(130.1),
        run: km(450_000.0),
        break_in: None,
    }
}

const DRAWS: usize = 20_000;

fn left(position: &Position) -> Remaining {
    remaining(position, Confidence::P95, 1, DRAWS)
        .expect("finite numbers")
        .remaining
}

/// By hand: 45 of 100 µm in 450,000 km leaves 550,000 km. Fieller's ends are those of the ratio of two normal
/// quantities, which the draws must come to within their scatter.
#[test]
fn what_is_left_by_draws_and_by_fieller() {
    let checked = remaining(&worn(130.045, 3.0), Confidence::P95, 1, 100_000).unwrap();
    let Remaining::Between {
        estimate,
        low,
        high,
    } = checked.remaining
    else {
        panic!("{checked:?}");
    };
    close(estimate / 1000.0, 550_000.0, 1e-3);
    let Possible::Between {
        low: f_low,
        high: f_high,
    } = checked.fieller
    else {
        panic!("{checked:?}");
    };
    // The density at the ends is low: 100,000 draws tell them to about half a percent.
    close(low / f_low, 1.0, 0.01);
    close(high / f_high, 1.0, 0.01);
}

#[test]
fn what_is_left_where_wear_is_hardly_there() {
    let Remaining::AtLeast { low } = left(&worn(130.003, 3.0)) else {
        panic!("3 µm of wear with u 3.6 µm is not distinguishable from none");
    };
    // By hand: wear may be 3 + 1.645·√(3² + 2²) = 8.9 µm; 97 µm at 8.9 in 450,000 km are 4.9 million km.
    assert!((3.5e6..6.5e6).contains(&(low / 1000.0)), "{low}");
    let beyond = left(&worn(130.105, 3.0));
    let Remaining::AlreadyBeyond { probability } = beyond else {
        panic!("{beyond:?}");
    };
    // Φ(5/3).
    close(probability, 0.952_21, 1e-4);
    let shrunk = left(&worn(129.9, 1.0));
    assert_eq!(shrunk, Remaining::NotReached);
}

#[test]
fn what_is_left_on_a_line() {
    // y = x/100 exactly: the limit 1 is at 100.
    let x = [10.0, 20.0, 30.0, 40.0];
    let line = fit_line(&x, &[0.1, 0.2, 0.3, 0.4], Intercept::Free).unwrap();
    let Remaining::Between {
        estimate,
        low,
        high,
    } = remaining_on_line(&line, 40.0, 1.0, Confidence::P95).unwrap()
    else {
        panic!("a straight row has two ends");
    };
    for end in [estimate, low, high] {
        close(end, 60.0, 1e-9);
    }
    // Up and down: no slope to speak of.
    let flat = fit_line(&x, &[0.1, 0.12, 0.09, 0.11], Intercept::Free).unwrap();
    let left = remaining_on_line(&flat, 40.0, 1.0, Confidence::P95).unwrap();
    assert!(
        matches!(left, Remaining::AtLeast { low } if low > 0.0),
        "{left:?}"
    );
    let beyond = remaining_on_line(&line, 40.0, 0.35, Confidence::P95).unwrap();
    assert!(matches!(beyond, Remaining::AlreadyBeyond { .. }));
}

#[test]
fn the_first_limit_is_that_of_the_most_worn() {
    let positions = [worn(130.03, 2.0), worn(130.06, 2.0), worn(130.058, 2.0)];
    let race = |slice| {
        let mut race = Race::new(&positions, um(1.0), Confidence::P95, 7, DRAWS).unwrap();
        while !race.go_on(slice).unwrap().is_whole() {}
        race.finish().unwrap()
    };
    let first = race(1);
    assert_eq!(first, race(3), "the slices make no difference");
    for parts in [2, 3, 9] {
        let mut races =
            Race::in_parts(&positions, um(1.0), Confidence::P95, 7, DRAWS, parts).unwrap();
        for race in &mut races {
            assert!(race.go_on(3).unwrap().is_whole());
        }
        let joined = races.into_iter().reduce(Race::join).unwrap();
        assert_eq!(first, joined.finish().unwrap(), "nor do {parts} parts");
    }
    assert_eq!(first.likely[0].position, 1);
    assert!(first.likely.iter().all(|likely| likely.position != 0));
    let sum: f64 = first.likely.iter().map(|likely| likely.probability).sum();
    close(sum, 1.0, 1e-12);
    // The minimum is not above any of its positions.
    for position in &first.positions {
        assert!(first.engine.at_least() <= position.at_least());
    }
    assert!(Race::new(&[], um(1.0), Confidence::P95, 7, DRAWS).is_err());
}

fn sizes() -> impl Strategy<Value = Vec<Vec<f64>>> {
    (1..4_usize, 2..4_usize).prop_flat_map(|(heights, axes)| {
        prop::collection::vec(prop::collection::vec(129.9..130.2f64, axes), heights)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn swapping_axes_leaves_out_of_round_alone(rows in sizes()) {
        let grid = |turned: bool| {
            let rows: Vec<Vec<Length>> = rows
                .iter()
                .map(|row| {
                    let mut row: Vec<Length> = row.iter().copied().map(mm).collect();
                    if turned {
                        row.reverse();
                    }
                    row
                })
                .collect();
            Grid::new(Feature::Bore, &rows, known(mm(0.0), um(1.0)), um(1.0)).unwrap()
        };
        for height in 0..rows.len() {
            prop_assert_eq!(grid(false).out_of_round(height), grid(true).out_of_round(height));
        }
        let new = AsNew::Known(exact(mm(130.0)));
        prop_assert_eq!(grid(false).max_wear(&new).unwrap().wear, grid(true).max_wear(&new).unwrap().wear);
    }

    #[test]
    fn a_wider_uncertainty_never_turns_cannot_say_into_within(
        y in -10.0..10.0f64, u in 0.01..5.0f64, wider in 1.0..10.0f64, width in 0.0..10.0f64,
    ) {
        for tolerance in [Tolerance::AtMost(0.0), Tolerance::AtLeast(0.0), Tolerance::Between { low: -width, high: 0.0 }] {
            let verdict = |u| conformity(y, Standard::known(u), tolerance, Confidence::P95).unwrap().verdict;
            if verdict(u) == Verdict::CannotSay {
                prop_assert_ne!(verdict(u * wider), Verdict::Within);
            }
        }
    }

    #[test]
    fn what_is_enough_is_enough(y in -10.0..10.0f64, width in 0.1..10.0f64) {
        for tolerance in [Tolerance::AtMost(0.0), Tolerance::Between { low: -width, high: 0.0 }] {
            let said = |u| conformity(y, Standard::known(u), tolerance, Confidence::P95).unwrap();
            if let Some(enough) = said(1.0).sufficient_u {
                prop_assert_ne!(said(enough * 0.999).verdict, Verdict::CannotSay);
            }
        }
    }

    #[test]
    fn more_wear_never_lengthens_what_is_left(
        size in 129.98..130.12f64, more in 0.0..0.05f64, u in 0.1..20.0f64,
    ) {
        let (less, worse) = (left(&worn(size, u)), left(&worn(size + more, u)));
        prop_assert!(worse.at_least() <= less.at_least() + 1e-6, "{less:?} then {worse:?}");
    }
}
