//! Thresholds against scikit-image on its own pictures, a case by hand, and every partition tried.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on fails, in its helpers too"
)]

use proptest::prelude::*;
use ringland_stats::{
    StatsError,
    threshold::{Histogram, multi_otsu, otsu, within_class_variance},
};

/// Histograms of pictures that come with scikit-image 0.26.0, and what its `threshold_otsu` and `threshold_multiotsu`
/// with three and four classes give: `tests/reference/skimage_histograms.py`.
const PICTURES: &str = include_str!("data/skimage_histograms.csv");

struct Picture {
    name: &'static str,
    /// The thresholds of two, three and four classes.
    thresholds: [Vec<u8>; 3],
    histogram: Histogram,
}

fn picture(line: &'static str) -> Picture {
    let mut cells = line.split(',');
    let name = cells.next().unwrap();
    let mut thresholds = || {
        let cell = cells.next().unwrap().split('+');
        cell.map(|threshold| threshold.parse().unwrap()).collect()
    };
    let thresholds = [thresholds(), thresholds(), thresholds()];
    let counts: Vec<u64> = cells.map(|cell| cell.parse().unwrap()).collect();
    Picture {
        name,
        thresholds,
        histogram: Histogram::of_counts(counts.try_into().unwrap()),
    }
}

#[test]
fn pictures_part_where_scikit_image_parts_them() {
    let pictures: Vec<_> = PICTURES.lines().map(picture).collect();
    for picture in &pictures {
        let Picture {
            name,
            thresholds,
            histogram,
        } = picture;
        assert_eq!(otsu(histogram), Ok(thresholds[0][0]), "{name}");
        for thresholds in thresholds {
            let found = multi_otsu(histogram, thresholds.len() + 1);
            assert_eq!(found.as_ref(), Ok(thresholds), "{name}");
        }
    }
    // The table itself, lest it be written anew with other figures unseen: scikit-image 0.26.0, by hand.
    let named = pictures
        .iter()
        .map(|picture| (picture.name, picture.thresholds[0][0]));
    assert_eq!(
        named.collect::<Vec<_>>(),
        [
            ("camera", 102),
            ("coins", 107),
            ("page", 157),
            ("text", 109),
            ("moon", 87),
            ("brick", 131),
            ("grass", 112),
            ("gravel", 117),
        ]
    );
    assert_eq!(pictures[0].thresholds[1], [87, 176]);
    assert_eq!(pictures[1].thresholds[1], [77, 139]);
}

/// Six by six pixels with 8, 7, 2, 6, 9, 4 of the shades 0 to 5. The variance within for the split before each shade,
/// worked by hand from Otsu's definition.
#[test]
fn the_case_by_hand() {
    let counts = [8, 7, 2, 6, 9, 4];
    let shades = (0_u8..)
        .zip(counts)
        .flat_map(|(shade, n)| std::iter::repeat_n(shade, n));
    let histogram: Histogram = shades.collect();
    assert_eq!(histogram.total(), 36);
    for (last_below, within) in [
        (0, 1.5268),
        (1, 0.5561),
        (2, 0.4909),
        (3, 0.9779),
        (4, 2.2491),
    ] {
        let found = within_class_variance(&histogram, &[last_below]).unwrap();
        assert!((found - within).abs() < 5e-5, "{last_below}: {found}");
    }
    // All in one class: what lies within the best two and what lies between them.
    let all = within_class_variance(&histogram, &[]).unwrap();
    assert!((all - (0.4909 + 2.6287)).abs() < 1e-4, "{all}");
    assert_eq!(otsu(&histogram), Ok(2));
    assert_eq!(histogram.counts(&[2]), [17, 19]);
    assert_eq!(histogram.counts(&[0, 3]), [8, 15, 13]);
}

#[test]
fn fewer_shades_than_classes_part_nowhere() {
    let flat: Histogram = [7; 100].into_iter().collect();
    assert!(matches!(
        otsu(&flat),
        Err(StatsError::TooFew {
            got: 1,
            least: 2,
            ..
        })
    ));
    assert!(matches!(
        otsu(&Histogram::default()),
        Err(StatsError::TooFew { got: 0, .. })
    ));
    let two: Histogram = [7, 9].into_iter().collect();
    assert_eq!(otsu(&two), Ok(7));
    assert!(multi_otsu(&two, 3).is_err());
    for classes in [0, 1, 6] {
        assert!(matches!(
            multi_otsu(&two, classes),
            Err(StatsError::OutOfRange { .. })
        ));
    }
}

#[test]
fn as_many_classes_as_shades_leave_no_variance() {
    let shades = [3, 3, 90, 141, 255, 255, 255, 200].repeat(1001);
    let histogram: Histogram = shades.into_iter().collect();
    assert_eq!(multi_otsu(&histogram, 5), Ok(vec![3, 90, 141, 200]));
    assert_eq!(
        within_class_variance(&histogram, &[3, 90, 141, 200]),
        Ok(0.0)
    );
    assert!(within_class_variance(&Histogram::default(), &[3]).is_err());
    // With so many pixels the squares are no longer exact, and their difference is −2e-12.
    let mut counts = [0; 256];
    counts[7] = 12_345_759;
    counts[253] = 4_115_253;
    assert_eq!(
        within_class_variance(&Histogram::of_counts(counts), &[7]),
        Ok(0.0)
    );
}

/// Five shades, as many pixels of each. In halves the sums are exact, so that 0 2, 1 2 and 1 3 are equally good.
#[test]
fn of_several_the_lowest() {
    let histogram: Histogram = [0, 1, 2, 3, 4].into_iter().collect();
    for thresholds in [[0, 2], [1, 2], [1, 3]] {
        assert_eq!(within_class_variance(&histogram, &thresholds), Ok(0.2));
    }
    assert_eq!(multi_otsu(&histogram, 3), Ok(vec![0, 2]));
}

/// Shades 0 to 11 are tried.
const TRIED: u8 = 12;

/// The variance within by its definition, pixel for pixel.
fn defined(shades: &[u8], thresholds: &[u8]) -> f64 {
    let class = |shade: u8| thresholds.iter().filter(|t| **t < shade).count();
    let squares = (0..=thresholds.len()).map(|number| {
        let of_class = shades.iter().filter(|shade| class(**shade) == number);
        let of_class: Vec<f64> = of_class.map(|shade| f64::from(*shade)).collect();
        let mean = of_class.iter().sum::<f64>() / of_class.len() as f64;
        of_class
            .iter()
            .map(|v| (v - mean) * (v - mean))
            .sum::<f64>()
    });
    squares.sum::<f64>() / shades.len() as f64
}

/// Every way to part the shades with so many thresholds.
fn every(thresholds: usize) -> Vec<Vec<u8>> {
    (1..thresholds).fold((0..TRIED).map(|t| vec![t]).collect(), |fewer, _| {
        let longer = |fewer: Vec<u8>| {
            let next = fewer.last().unwrap() + 1;
            (next..TRIED).map(move |t| [&fewer[..], &[t]].concat())
        };
        fewer.into_iter().flat_map(longer).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_other_partition_has_less_variance_within(
        shades in proptest::collection::vec(0..TRIED, 3..40),
        classes in 2_usize..=5,
    ) {
        let histogram: Histogram = shades.iter().copied().collect();
        if let Ok(thresholds) = multi_otsu(&histogram, classes) {
            let found = within_class_variance(&histogram, &thresholds).unwrap();
            prop_assert!((found - defined(&shades, &thresholds)).abs() < 1e-9);
            let least = every(classes - 1).iter().map(|other| defined(&shades, other)).fold(f64::INFINITY, f64::min);
            prop_assert!((found - least).abs() < 1e-9);
            prop_assert!(histogram.counts(&thresholds).iter().all(|count| *count > 0));
        }
    }

    /// The thresholds themselves may differ where two partitions are equally good.
    #[test]
    fn a_shift_of_all_shades_leaves_the_variance(shades in proptest::collection::vec(0_u8..100, 10..80), by in 1_u8..150) {
        let there: Histogram = shades.iter().map(|shade| shade + by).collect();
        let here: Histogram = shades.into_iter().collect();
        let within = |histogram: &Histogram| {
            multi_otsu(histogram, 4).map(|thresholds| within_class_variance(histogram, &thresholds).unwrap())
        };
        match (within(&here), within(&there)) {
            (Ok(here), Ok(there)) => prop_assert!((here - there).abs() < 1e-8),
            (here, there) => prop_assert_eq!(here, there),
        }
    }
}
