//! The random cases that `tests/reference/comparisons.py` writes, by what they are of.

/// `what,rows,figures`: rows part by `;`, numbers by blanks.
const TABLE: &str = include_str!("../data/comparisons.csv");

/// Rows of samples, and what is worked out of them.
pub(crate) struct Case {
    pub(crate) rows: Vec<Vec<f64>>,
    pub(crate) figures: Vec<f64>,
}

/// All cases of one kind, which are there.
pub(crate) fn cases(what: &str) -> Vec<Case> {
    let found: Vec<Case> = TABLE
        .lines()
        .filter_map(|line| {
            let mut cells = line.split(',');
            (cells.next()? == what).then(|| Case {
                rows: cells.next().unwrap().split(';').map(numbers).collect(),
                figures: numbers(cells.next().unwrap()),
            })
        })
        .collect();
    assert!(!found.is_empty(), "no case of {what}");
    found
}

fn numbers(row: &str) -> Vec<f64> {
    row.split(' ').map(|cell| cell.parse().unwrap()).collect()
}

/// Relative, or absolute below 1.
#[track_caller]
pub(crate) fn all_close(what: &str, got: &[f64], want: &[f64], within: f64) {
    assert_eq!(got.len(), want.len(), "{what}");
    for (place, (got, want)) in got.iter().zip(want).enumerate() {
        assert!(
            (got - want).abs() <= within * want.abs().max(1.0),
            "{what}, figure {place}: got {got}, want {want}"
        );
    }
}
