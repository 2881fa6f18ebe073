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

/// Histograms of pictures that come with scikit-image 0.26.0, and what its `threshold_otsu` and, where a picture has
/// shades from 0 to 255, `threshold_multiotsu` with three classes give: `tests/reference/skimage_histograms.py`.
const PICTURES: &str = include_str!("data/skimage_histograms.csv");

fn picture(line: &str) -> (String, u8, Vec<u8>, Histogram) {
    let mut cells = line.split(',');
    let name = cells.next().unwrap().to_owned();
    let two = cells.next().unwrap().parse().unwrap();
    let three = cells
        .next()
        .unwrap()
        .split('+')
        .filter_map(|cell| cell.parse().ok());
    let three = three.collect();
    let counts: Vec<u64> = cells.map(|cell| cell.parse().unwrap()).collect();
    (
        name,
        two,
        three,
        Histogram::of_counts(counts.try_into().unwrap()),
    )
}

#[test]
fn pictures_part_where_scikit_image_parts_them() {
    let pictures: Vec<_> = PICTURES.lines().map(picture).collect();
    assert_eq!(pictures.len(), 8);
    for (name, two, three, histogram) in &pictures {
        assert_eq!(otsu(histogram), Ok(*two), "{name}");
        if !three.is_empty() {
            assert_eq!(multi_otsu(histogram, 3).as_ref(), Ok(three), "{name}");
        }
    }
    assert_eq!(
        pictures
            .iter()
            .filter(|(_, _, three, _)| !three.is_empty())
            .count(),
        3
    );
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

/// Every way to part shades 0 to 15 into three, tried one after the other.
fn tried(histogram: &Histogram) -> f64 {
    let pairs = (0..15_u8).flat_map(|low| (low + 1..16).map(move |high| [low, high]));
    let within = pairs.map(|pair| within_class_variance(histogram, &pair).unwrap());
    within.fold(f64::INFINITY, f64::min)
}

proptest! {
    #[test]
    fn no_other_partition_has_less_variance_within(shades in proptest::collection::vec(0_u8..16, 3..80)) {
        let histogram: Histogram = shades.into_iter().collect();
        if let Ok(thresholds) = multi_otsu(&histogram, 3) {
            let found = within_class_variance(&histogram, &thresholds).unwrap();
            prop_assert!((found - tried(&histogram)).abs() < 1e-9);
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
