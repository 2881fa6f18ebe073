//! Draws and what they come to: the distributions that are asked for, and the examples of JCGM 101:2008.

use ringland_stats::{
    StatsError,
    confidence::{Confidence, Dof},
    distribution::{normal_quantile, t_quantile},
    monte_carlo::{Input, MonteCarlo, Source, Summary, quantile_of_draws, summarise},
};

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
}

/// χ² of the numbers of draws between quantiles that are equally probable.
fn chi_squared(input: Input, quantile: impl Fn(f64) -> f64) -> f64 {
    const BINS: usize = 100;
    const DRAWS: usize = 200_000;
    let ends: Vec<f64> = (1..BINS)
        .map(|n| quantile(n as f64 / BINS as f64))
        .collect();
    let mut draws = vec![0.0; DRAWS];
    Source::seeded(3).fill(&input, &mut draws);
    let mut counts = [0_u32; BINS];
    for draw in draws {
        counts[ends.partition_point(|end| *end < draw)] += 1;
    }
    let expected = (DRAWS / BINS) as f64;
    counts
        .map(|count| f64::from(count) - expected)
        .map(|apart| apart * apart / expected)
        .iter()
        .sum()
}

/// With 99 degrees of freedom χ² is above 160 once in ten thousand times and below 55 as rarely
/// (scipy 1.17.1, `stats.chi2.ppf([1e-4, 1 - 1e-4], 99)`: 55.0 and 160.1): draws that are too even are no draws either.
#[test]
fn draws_are_as_their_distributions() {
    let student = |dof| {
        let dof = Dof::new(dof).unwrap();
        let input = Input::StudentT {
            mean: 2.0,
            scale: 0.5,
            dof,
        };
        chi_squared(input, |p| 2.0 + 0.5 * t_quantile(p, dof).unwrap())
    };
    let normal = Input::Normal {
        mean: -1.0,
        sd: 3.0,
    };
    let even = Input::Rectangular {
        low: -2.0,
        high: 5.0,
    };
    for (what, got) in [
        (
            "normal",
            chi_squared(normal, |p| -1.0 + 3.0 * normal_quantile(p).unwrap()),
        ),
        ("t of 1.5", student(1.5)),
        ("t of 4", student(4.0)),
        ("t of 40", student(40.0)),
        ("rectangular", chi_squared(even, |p| -2.0 + 7.0 * p)),
    ] {
        assert!((55.0..160.1).contains(&got), "{what}: {got}");
    }
}

/// Far out, where the ziggurat draws from its tail: beyond 3.6542 and 4.5 lie 2.580e-4 and 6.795e-6 of all
/// (scipy 1.17.1, `2*stats.norm.sf(x)`).
#[test]
fn the_tail_is_as_heavy_as_it_should_be() {
    const DRAWS: usize = 2_000_000;
    let mut draws = vec![0.0; DRAWS];
    Source::seeded(5).fill(&Input::Normal { mean: 0.0, sd: 1.0 }, &mut draws);
    for (beyond, share) in [(3.654_152_9, 2.580e-4), (4.5, 6.795e-6)] {
        let expected = share * DRAWS as f64;
        let got = draws.iter().filter(|draw| draw.abs() > beyond).count() as f64;
        close(got, expected, 4.0 * expected.sqrt());
    }
}

fn sum_of_four(input: Input) -> Result<Summary, StatsError> {
    let mut drawing = MonteCarlo::new([input; 4], 300_000, Source::seeded(2))?;
    while !drawing
        .go_on(100_000, |_, inputs| inputs.iter().sum())
        .is_whole()
    {}
    summarise(&mut drawing.outputs(), Confidence::P95)
}

/// JCGM 101:2008 9.2.2 and 9.2.3 (from memory): the sum of four normal inputs has u 2.00 and the interval ± 3.92;
/// of four rectangular ones of the same uncertainty u 2.00 and ± 3.88.
#[test]
fn sums_of_four() {
    let half = 3.0_f64.sqrt();
    for (input, end) in [
        (Input::Normal { mean: 0.0, sd: 1.0 }, 3.92),
        (
            Input::Rectangular {
                low: -half,
                high: half,
            },
            3.88,
        ),
    ] {
        let summary = sum_of_four(input).unwrap();
        close(summary.u, 2.0, 0.01);
        close(summary.mean, 0.0, 0.015);
        close(summary.symmetric.low, -end, 0.03);
        close(summary.symmetric.high, end, 0.03);
        // Where the shortest lies is told badly by draws, how long it is, well.
        close(
            summary.shortest.high - summary.shortest.low,
            2.0 * end,
            0.06,
        );
    }
}

/// By hand: of 1 … 100 in any order 95 % are 95 steps; symmetric from the 3rd to the 98th.
#[test]
fn intervals_by_hand() {
    let mut draws: Vec<f64> = (1..=100).rev().map(f64::from).collect();
    let summary = summarise(&mut draws, Confidence::P95).unwrap();
    assert_eq!((summary.symmetric.low, summary.symmetric.high), (3.0, 98.0));
    // All are as long: the first counts.
    assert_eq!((summary.shortest.low, summary.shortest.high), (1.0, 96.0));
    // Squares lie closest at the lower end.
    let mut draws: Vec<f64> = (1..=100).map(|n| f64::from(n * n)).collect();
    let summary = summarise(&mut draws, Confidence::P95).unwrap();
    assert_eq!((summary.shortest.low, summary.shortest.high), (1.0, 9216.0));
}

#[test]
fn draws_without_an_end_are_in_order_too() {
    let draws = [f64::INFINITY, 1.0, 3.0, f64::INFINITY, 2.0];
    for (p, want) in [
        (0.0, 1.0),
        (0.5, 3.0),
        (0.8, f64::INFINITY),
        (1.0, f64::INFINITY),
    ] {
        assert_eq!(quantile_of_draws(&draws, p), Ok(want));
    }
    assert!(quantile_of_draws(&[], 0.5).is_err());
    assert!(quantile_of_draws(&draws, f64::NAN).is_err());
    assert!(summarise(&mut draws.clone(), Confidence::P95).is_err());
    let few = summarise(&mut [1.0; 9], Confidence::P95);
    assert!(
        matches!(few, Err(StatsError::TooFew { got: 9, .. })),
        "{few:?}"
    );
}

/// The same draw as that in its place of the order, whether the sample brackets it or, in draws that are in
/// order already or all but one alike, does not.
#[test]
fn quantiles_of_many_draws_are_those_in_order() {
    let mut drawn = vec![0.0; 50_000];
    Source::seeded(9).fill(&Input::Normal { mean: 0.0, sd: 1.0 }, &mut drawn);
    drawn[1000..1600].fill(f64::INFINITY);
    let mut sorted = drawn.clone();
    sorted.sort_unstable_by(f64::total_cmp);
    let mut steps: Vec<f64> = (0..50_000).map(|n| f64::from(n % 48)).collect();
    steps[7] = -1.0;
    let mut sorted_steps = steps.clone();
    sorted_steps.sort_unstable_by(f64::total_cmp);
    for p in [0.0, 1e-5, 0.025, 0.5, 0.95, 0.975, 0.99, 1.0] {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "p is within 0 and 1"
        )]
        let place = ((p * 50_000.0) as usize).min(49_999);
        for (draws, sorted) in [
            (&drawn, &sorted),
            (&sorted, &sorted),
            (&steps, &sorted_steps),
        ] {
            assert_eq!(quantile_of_draws(draws, p), Ok(sorted[place]), "{p}");
        }
    }
}

#[test]
fn the_seed_and_nothing_else_makes_the_draws() {
    let inputs = [
        Input::Normal { mean: 0.0, sd: 1.0 },
        Input::Rectangular {
            low: 0.0,
            high: 1.0,
        },
    ];
    let drawn = |source: Source, slice: usize| {
        let mut drawing = MonteCarlo::new(inputs, 3000, source).unwrap();
        let mut numbers = Vec::new();
        while !drawing
            .go_on(slice, |n, [a, b]| {
                numbers.push(n);
                a + b
            })
            .is_whole()
        {}
        assert!(
            numbers.into_iter().eq(0..3000),
            "each draw once and in order"
        );
        drawing.outputs()
    };
    let one = drawn(Source::seeded(1), 3000);
    assert_eq!(one, drawn(Source::seeded(1), 1));
    assert_eq!(one, drawn(Source::seeded(1), 700));
    assert_ne!(one, drawn(Source::seeded(2), 3000));
    // A branch goes on as its source would have, the next one elsewhere.
    let mut source = Source::seeded(1);
    assert_eq!(one, drawn(source.branch(), 3000));
    assert_ne!(one, drawn(source.branch(), 3000));
}

#[test]
fn what_is_no_distribution_is_refused() {
    for input in [
        Input::Normal {
            mean: f64::NAN,
            sd: 1.0,
        },
        Input::Normal {
            mean: 0.0,
            sd: -1.0,
        },
        Input::Rectangular {
            low: 1.0,
            high: 0.0,
        },
        Input::Exactly(f64::INFINITY),
    ] {
        assert!(
            MonteCarlo::new([input], 10, Source::seeded(1)).is_err(),
            "{input:?}"
        );
    }
}
