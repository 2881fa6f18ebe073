//! Patterns along the engine: profile, cylinder-to-cylinder spread, outliers, front-to-rear trend.
//!
//! They are read off the rows of the wear map: one row for each characteristic of each place, its columns
//! front to rear. A pattern is pointed out, and nothing follows from it: an outlier stays in every score.
//!
//! Units: scores, 0 to 10.

use std::collections::BTreeMap;

use ringland_card::plan::{Axis, LeafId, Plan, PlanIndex, Position};
use ringland_stats::{
    robust::{OUTLIER, median, modified_z},
    spread::{range, sample_sd, weighted_mean},
    trend::{PValue, Run, kendall_of_runs, sen_slope},
};

/// Scores that a row must have before outliers or a trend are looked for: with fewer, one stray is half
/// the story and the chance of a straight order is high (2/4! for four).
pub const LEAST_FOR_PATTERNS: usize = 5;

/// A row of the wear map: one characteristic along one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MapRow {
    /// Index of the section in the plan.
    pub section: usize,
    /// Index of the part in its section.
    pub part: usize,
    /// Index of the place in its part.
    pub place: usize,
    /// Index of the characteristic in its place.
    pub look: usize,
    /// The leaf of each position of the place, front to rear.
    pub leaves: Vec<LeafId>,
}

/// The rows of the wear map in strip-down order.
///
/// `index` is that of the plan.
pub fn map_rows(plan: &Plan, index: &PlanIndex) -> Vec<MapRow> {
    let mut rows = Vec::new();
    for (section, s) in plan.sections.iter().enumerate() {
        for (part, p) in s.parts.iter().enumerate() {
            for (place, site) in p.places.iter().enumerate() {
                let first_leaves: Vec<usize> = site
                    .positions
                    .iter()
                    .map(|position| index.of_position(plan, position.id.as_str()).start)
                    .collect();
                rows.extend((0..site.looks.len()).map(|look| {
                    MapRow {
                        section,
                        part,
                        place,
                        look,
                        leaves: first_leaves
                            .iter()
                            .map(|first| LeafId(first + look))
                            .collect(),
                    }
                }));
            }
        }
    }
    rows
}

/// How far apart the scores of a row lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// How many are rated.
    pub n: usize,
    /// The lowest.
    pub min: f64,
    /// The highest.
    pub max: f64,
    /// highest − lowest.
    pub range: f64,
    /// Their standard deviation, s = √(Σ(sᵢ − s̄)²/(n − 1)).
    pub sd: f64,
}

/// A score that strays from its row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlier {
    /// Which one: its place in the row, from 0 at the front.
    pub place: usize,
    /// Its modified z-score, further from 0 than 3.5; below 0 is worse than the row.
    pub z: f64,
    /// Score less the row's median: a stray in a row that is otherwise all alike may differ by little.
    pub from_median: f64,
}

/// How the scores of a row change from front to rear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trend {
    /// Score gained from one position to the next; below 0 it gets worse towards the rear.
    pub per_position: f64,
    /// Kendall's τ-b, −1 to 1.
    pub tau: f64,
    /// The two-sided chance of such an order if position had nothing to do with it.
    pub p: f64,
    /// How p was worked out.
    pub p_value: PValue,
}

/// What shows along a row of scores.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RowPattern {
    /// How far apart they lie; none under two scores.
    pub spread: Option<Spread>,
    /// Those that stray, front to rear; none under five scores.
    pub outliers: Vec<Outlier>,
    /// The trend; none under five scores, where all are equal, or where the positions are not counted
    /// along the engine.
    pub trend: Option<Trend>,
}

/// The mean score of one cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct ProfileColumn {
    /// Its column on the wear map.
    pub column: String,
    /// The weighted mean over its rated leaves; none where none is rated.
    pub score: Option<f64>,
}

/// What shows along the engine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Patterns {
    /// By row of [`map_rows`].
    pub rows: Vec<RowPattern>,
    /// The cylinders, front to rear, bank by bank.
    pub profile: Vec<ProfileColumn>,
    /// What shows along them.
    pub profile_pattern: RowPattern,
}

/// Finds the patterns of a card.
///
/// `leaf_scores` and `leaf_weight_in_engine` go by leaf of the plan; the weight of a leaf is its share in
/// the engine's score when everything is rated. Cost: linear in the leaves, and in each row what
/// [`kendall_of_runs`] costs.
///
/// # Formula
///
/// ```text
/// profile   s_c = Σ wᵢsᵢ / Σ wᵢ        over the rated leaves i of cylinder c
/// spread    range and standard deviation of the row, and of the profile
/// outlier   |M| > 3.5, M the modified z-score (median and MAD), from five scores up
/// trend     Theil–Sen slope against the place along the engine, Kendall's τ-b and p, from five up
/// ```
///
/// A trend is looked for along cylinders, main bearings and camshaft bearings. On a V, place is counted
/// within the bank, and only positions of one bank are compared with each other: the row has one trend
/// for both banks, which a difference between the banks neither makes nor hides.
///
/// # Source
///
/// [`modified_z`]: Iglewicz and Hoaglin 1993; [`sen_slope`]: Hirsch, Slack and Smith 1982.
pub fn patterns(
    plan: &Plan,
    index: &PlanIndex,
    leaf_scores: &[Option<f64>],
    leaf_weight_in_engine: &[f64],
) -> Patterns {
    let score = |leaf: LeafId| leaf_scores.get(leaf.0).copied().flatten();
    let rows = map_rows(plan, index)
        .iter()
        .map(|row| {
            let place = &plan.sections[row.section].parts[row.part].places[row.place];
            let scores: Vec<Option<f64>> = row.leaves.iter().map(|leaf| score(*leaf)).collect();
            let along = matches!(place.axis, Axis::Cylinder | Axis::Main | Axis::CamBearing);
            let columns = along.then(|| place.positions.iter().map(column));
            pattern(&scores, columns)
        })
        .collect();
    let profile = profile(plan, index, score, leaf_weight_in_engine);
    let scores: Vec<Option<f64>> = profile.iter().map(|column| column.score).collect();
    let profile_pattern = pattern(&scores, Some(profile.iter().map(|one| one.column.as_str())));
    Patterns {
        rows,
        profile,
        profile_pattern,
    }
}

fn column(position: &Position) -> &str {
    &position.column
}

/// The mean score of each cylinder over the places that are counted by cylinder.
fn profile(
    plan: &Plan,
    index: &PlanIndex,
    score: impl Fn(LeafId) -> Option<f64>,
    weights: &[f64],
) -> Vec<ProfileColumn> {
    let mut columns = plan.layout.cylinder_names();
    let mut rated: BTreeMap<&str, (Vec<f64>, Vec<f64>)> = BTreeMap::new();
    for (.., place) in plan
        .places()
        .filter(|(.., place)| place.axis == Axis::Cylinder)
    {
        for position in &place.positions {
            if !columns.contains(&position.column) {
                columns.push(position.column.clone());
            }
            let (scores, shares) = rated.entry(&position.column).or_default();
            for leaf in index.of_position(plan, position.id.as_str()) {
                if let (Some(score), Some(weight)) = (score(LeafId(leaf)), weights.get(leaf)) {
                    scores.push(score);
                    shares.push(*weight);
                }
            }
        }
    }
    columns
        .into_iter()
        .map(|column| {
            let rated = rated.get(column.as_str());
            let score = rated.and_then(|(scores, shares)| weighted_mean(scores, shares).ok());
            ProfileColumn { column, score }
        })
        .collect()
}

/// What shows along a row; `columns` are those of its positions where they are counted along the engine.
fn pattern<'a>(
    scores: &[Option<f64>],
    columns: Option<impl Iterator<Item = &'a str>>,
) -> RowPattern {
    let rated: Vec<f64> = scores.iter().copied().flatten().collect();
    let enough = rated.len() >= LEAST_FOR_PATTERNS;
    RowPattern {
        spread: spread(&rated),
        outliers: if enough {
            outliers(scores, &rated)
        } else {
            Vec::new()
        },
        trend: columns
            .filter(|_| enough)
            .and_then(|columns| trend(scores, columns)),
    }
}

fn spread(rated: &[f64]) -> Option<Spread> {
    let (range, sd) = (range(rated).ok()?, sample_sd(rated).ok()?);
    Some(Spread {
        n: rated.len(),
        min: range.min,
        max: range.max,
        range: range.width,
        sd,
    })
}

fn outliers(scores: &[Option<f64>], rated: &[f64]) -> Vec<Outlier> {
    let (Ok(middle), Ok(strays)) = (median(rated), modified_z(rated)) else {
        return Vec::new();
    };
    let places = scores
        .iter()
        .enumerate()
        .filter(|(_, score)| score.is_some());
    places
        .zip(rated.iter().zip(strays))
        .filter(|(_, (_, z))| z.abs() > OUTLIER)
        .map(|((place, _), (score, z))| Outlier {
            place,
            z,
            from_median: score - middle,
        })
        .collect()
}

/// The rated scores of one bank, against their place along it.
#[derive(Default)]
struct Bank<'a> {
    columns: Vec<&'a str>,
    x: Vec<f64>,
    y: Vec<f64>,
}

fn trend<'a>(scores: &[Option<f64>], columns: impl Iterator<Item = &'a str>) -> Option<Trend> {
    let mut banks: BTreeMap<&str, Bank<'_>> = BTreeMap::new();
    for (score, column) in scores.iter().zip(columns) {
        let bank = banks.entry(bank_of(column)).or_default();
        if bank.columns.last() != Some(&column) {
            bank.columns.push(column);
        }
        if let Some(score) = score {
            bank.x.push(bank.columns.len() as f64);
            bank.y.push(*score);
        }
    }
    let runs: Vec<Run<'_>> = banks
        .values()
        .map(|bank| Run {
            x: &bank.x,
            y: &bank.y,
        })
        .collect();
    let rank = kendall_of_runs(&runs).ok()?;
    let per_position = sen_slope(&runs).ok()?;
    Some(Trend {
        per_position,
        tau: rank.tau,
        p: rank.p,
        p_value: rank.p_value,
    })
}

/// The bank of a column such as `L3`; nothing where columns are plain numbers.
fn bank_of(column: &str) -> &str {
    let number = column.trim_start_matches(['L', 'R']);
    let bank = &column[..column.len() - number.len()];
    if bank.len() == 1 && !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit()) {
        bank
    } else {
        ""
    }
}

#[cfg(test)]
mod tests {
    use ringland_card::{
        layout::Layout,
        plan::{Depth, builtin},
    };

    use super::*;

    struct Bench {
        plan: Plan,
        index: PlanIndex,
        scores: Vec<Option<f64>>,
    }

    impl Bench {
        fn new(layout: &Layout) -> Self {
            let plan = builtin(layout, Depth::Full).unwrap();
            let index = PlanIndex::of(&plan);
            let scores = vec![None; index.leaves().len()];
            Self {
                plan,
                index,
                scores,
            }
        }

        /// The first row along this axis.
        fn row(&self, axis: Axis) -> usize {
            let along = |row: &MapRow| {
                self.plan.sections[row.section].parts[row.part].places[row.place].axis == axis
            };
            map_rows(&self.plan, &self.index)
                .iter()
                .position(along)
                .unwrap()
        }

        fn rate(&mut self, row: usize, scores: &[f64]) {
            for (leaf, score) in map_rows(&self.plan, &self.index)[row]
                .leaves
                .iter()
                .zip(scores)
            {
                self.scores[leaf.0] = (*score >= 0.0).then_some(*score);
            }
        }

        fn patterns(&self) -> Patterns {
            let weights = vec![1.0; self.scores.len()];
            patterns(&self.plan, &self.index, &self.scores, &weights)
        }
    }

    #[track_caller]
    fn close(got: f64, want: f64) {
        assert!((got - want).abs() < 1e-12, "got {got}, want {want}");
    }

    #[test]
    fn rows_hold_every_leaf_once_in_order() {
        for layout in [Layout::inline_six(), Layout::vee_eight()] {
            let bench = Bench::new(&layout);
            let rows = map_rows(&bench.plan, &bench.index);
            let mut all: Vec<LeafId> = rows.iter().flat_map(|row| row.leaves.clone()).collect();
            for row in &rows {
                let place = &bench.plan.sections[row.section].parts[row.part].places[row.place];
                let looks = row
                    .leaves
                    .iter()
                    .map(|leaf| bench.index.leaves()[leaf.0].look);
                assert!(looks.into_iter().all(|look| look == row.look));
                assert_eq!(row.leaves.len(), place.positions.len());
                assert!(row.leaves.is_sorted());
            }
            assert!(rows.is_sorted_by_key(|row| (row.section, row.part, row.place, row.look)));
            all.sort_unstable();
            assert_eq!(
                all,
                (0..bench.plan.leaf_count()).map(LeafId).collect::<Vec<_>>()
            );
        }
    }

    #[test]
    fn nothing_rated_shows_nothing() {
        let found = Bench::new(&Layout::inline_six()).patterns();
        assert!(found.rows.iter().all(|row| *row == RowPattern::default()));
        let names: Vec<&str> = found
            .profile
            .iter()
            .map(|one| one.column.as_str())
            .collect();
        assert_eq!(names, ["1", "2", "3", "4", "5", "6"]);
        assert!(found.profile.iter().all(|one| one.score.is_none()));
        assert_eq!(found.profile_pattern, RowPattern::default());
    }

    /// By hand: the median is 9; deviations 0 1 1 0 0 7, in order 0 0 0 1 1 7, have median 1/2, so that
    /// cylinder 6 scores −0.6745·7/0.5 = −9.443 and the others 1.349 at most. The squares
    /// sum to 411 and the scores to 47, so s = √((411 − 47²/6)/5) = √(257/30).
    #[test]
    fn one_bad_cylinder_is_pointed_out() {
        let mut bench = Bench::new(&Layout::inline_six());
        let row = bench.row(Axis::Cylinder);
        bench.rate(row, &[9.0, 8.0, 10.0, 9.0, 9.0, 2.0]);
        let found = &bench.patterns().rows[row];
        let [stray] = found.outliers.as_slice() else {
            panic!("one outlier: {found:?}");
        };
        assert_eq!(stray.place, 5);
        close(stray.z, -9.443);
        close(stray.from_median, -7.0);
        let spread = found.spread.unwrap();
        assert_eq!(
            (spread.n, spread.min, spread.max, spread.range),
            (6, 2.0, 10.0, 8.0)
        );
        close(spread.sd, (257.0_f64 / 30.0).sqrt());
    }

    #[test]
    fn under_five_scores_only_the_spread_is_told() {
        let mut bench = Bench::new(&Layout::inline_six());
        let row = bench.row(Axis::Cylinder);
        bench.rate(row, &[9.0, 8.0, 7.0, 1.0, -1.0, -1.0]);
        let found = &bench.patterns().rows[row];
        assert_eq!(found.spread.map(|spread| spread.n), Some(4));
        assert!(found.outliers.is_empty());
        assert_eq!(found.trend, None);
    }

    /// By counting: six falling throughout are one order of 720, and so are six rising: p = 2/720. The
    /// unrated second main bearing still takes its place: from 1 to 7 in steps of 1.
    #[test]
    fn a_fall_towards_the_rear_is_a_trend() {
        let mut bench = Bench::new(&Layout::inline_six());
        let row = bench.row(Axis::Main);
        bench.rate(row, &[9.0, -1.0, 8.0, 7.5, 7.0, 6.5, 6.0]);
        let trend = bench.patterns().rows[row].trend.unwrap();
        close(trend.per_position, -0.5);
        close(trend.tau, -1.0);
        close(trend.p, 2.0 / 720.0);
        assert_eq!(trend.p_value, PValue::Exact);
    }

    /// Both banks rise by 1 a cylinder, the right one from 5 below. By counting: two orders of 4!·4! go
    /// one way throughout.
    #[test]
    fn banks_share_a_trend_but_not_a_height() {
        let mut bench = Bench::new(&Layout::vee_eight());
        let row = bench.row(Axis::Cylinder);
        bench.rate(row, &[6.0, 7.0, 8.0, 9.0, 1.0, 2.0, 3.0, 4.0]);
        let found = &bench.patterns();
        let trend = found.rows[row].trend.unwrap();
        close(trend.per_position, 1.0);
        close(trend.tau, 1.0);
        close(trend.p, 2.0 / 576.0);
        assert_eq!(found.profile_pattern.trend, Some(trend));
    }

    /// Left bank all 9, right bank all 5: a step between the banks is no trend along them.
    #[test]
    fn a_worse_bank_is_no_trend() {
        let mut bench = Bench::new(&Layout::vee_eight());
        let row = bench.row(Axis::Cylinder);
        bench.rate(row, &[9.0, 9.0, -1.0, -1.0, -1.0, -1.0, 5.0, 5.0]);
        bench.rate(row + 1, &[9.0, 9.0, 9.0, 8.0, 5.0, 5.0, 5.0, 5.0]);
        let found = bench.patterns();
        assert_eq!(found.rows[row].trend, None);
        close(found.rows[row + 1].trend.unwrap().per_position, 0.0);
    }

    #[test]
    fn things_that_do_not_stand_along_the_engine_have_no_trend() {
        let mut falling = Bench::new(&Layout::inline_six());
        let rows = map_rows(&falling.plan, &falling.index);
        for (place, leaf) in rows.iter().flat_map(|row| row.leaves.iter().enumerate()) {
            falling.scores[leaf.0] = Some(9.0 - 0.5 * place as f64);
        }
        for (row, found) in rows.iter().zip(falling.patterns().rows) {
            let place = &falling.plan.sections[row.section].parts[row.part].places[row.place];
            let along = matches!(place.axis, Axis::Cylinder | Axis::Main | Axis::CamBearing);
            assert_eq!(found.trend.is_some(), along && place.positions.len() >= 5);
        }
    }

    /// By hand: (2·9 + 1·6)/3 = 8 for cylinder 1, 6 for cylinder 2 where one of the two is rated.
    #[test]
    fn the_profile_weighs_the_leaves_of_a_cylinder() {
        let mut bench = Bench::new(&Layout::inline_six());
        let row = bench.row(Axis::Cylinder);
        let rows = map_rows(&bench.plan, &bench.index);
        bench.rate(row, &[9.0, -1.0]);
        bench.rate(row + 1, &[6.0, 6.0]);
        let mut weights = vec![0.0; bench.scores.len()];
        for (row, weight) in [(row, 2.0), (row + 1, 1.0)] {
            for leaf in &rows[row].leaves {
                weights[leaf.0] = weight;
            }
        }
        let found = patterns(&bench.plan, &bench.index, &bench.scores, &weights);
        let scores: Vec<Option<f64>> = found.profile.iter().map(|one| one.score).collect();
        assert_eq!(scores, [Some(8.0), Some(6.0), None, None, None, None]);
        close(found.profile_pattern.spread.unwrap().range, 2.0);
    }

    #[test]
    fn banks_are_told_by_their_letter() {
        assert_eq!(
            ["L3", "R12", "3", "front", "L", "LR1", "", "Lé"].map(bank_of),
            ["L", "R", "", "", "", "", "", ""]
        );
    }
}
