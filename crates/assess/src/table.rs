//! Which rows of a scale's table a look was read from, and the terms of an area's sum.

use ringland_card::{
    entry::{Areas, Look},
    ids::LevelId,
    scale::{Breakpoint, Scale},
};

use crate::trade::demerit::percent_at;

/// The rows of a scale's table that a look was read from, from 0 at the top.
///
/// A grade on a half step is read from two rows, a figure between two breakpoints too; an area from
/// the row of each level that was seen. None for *not inspected*, for a clean area, and for a look
/// that does not fit the scale. A measured size has no table.
pub fn rows_read(scale: &Scale, look: &Look) -> Vec<usize> {
    match (scale, look) {
        (Scale::Grade { .. }, Look::Grade(grade)) => {
            let half_steps = grade.half_steps();
            (half_steps / 2..=half_steps.div_ceil(2)).collect()
        }
        (Scale::Area { levels }, Look::Areas(areas)) => {
            let seen = |id: &str| areas.shares.get(id).is_some_and(|share| *share > 0.0);
            which(levels.iter().map(|level| seen(level.id.as_str())))
        }
        (Scale::MeritArea { levels }, Look::Areas(areas)) => {
            let seen = |id: &str| areas.shares.get(id).is_some_and(|share| *share > 0.0);
            which(levels.iter().map(|level| seen(level.id.as_str())))
        }
        (Scale::Extent { points }, Look::Percent(percent)) => between(points, *percent),
        (Scale::Count { points }, Look::Count(count)) => between(points, *count as f64),
        (Scale::State { states }, Look::State(state)) => {
            which(states.iter().map(|known| known.id == *state))
        }
        _ => Vec::new(),
    }
}

/// One level of an area in the sum that its score is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct AreaTerm {
    /// The level; none for what is left clean.
    pub level: Option<LevelId>,
    /// aₖ: percent of the area.
    pub percent: f64,
    /// What a percent counts: the demerit factor fₖ, 0 to 1, or the merit mₖ, 0 to 10.
    pub counts: f64,
    /// aₖ·fₖ or aₖ·mₖ.
    pub product: f64,
}

/// The terms of the sum that an area's score is made of, in the order of the scale.
///
/// # Formula
///
/// ```text
/// deposit   D = Σ aₖ·fₖ
/// merit     100·M = Σ aₖ·mₖ, what is clean among them with merit 10
/// ```
///
/// None for other scales.
pub fn area_terms(scale: &Scale, areas: &Areas) -> Vec<AreaTerm> {
    let term = |level: &LevelId, counts: f64| {
        let percent = percent_at(areas, level.as_str());
        AreaTerm {
            level: Some(level.clone()),
            percent,
            counts,
            product: percent * counts,
        }
    };
    match scale {
        Scale::Area { levels } => levels
            .iter()
            .map(|level| term(&level.id, level.factor))
            .collect(),
        Scale::MeritArea { levels } => {
            let clean = areas.clean();
            levels
                .iter()
                .map(|level| term(&level.id, level.merit))
                .chain([AreaTerm {
                    level: None,
                    percent: clean,
                    counts: 10.0,
                    product: clean * 10.0,
                }])
                .collect()
        }
        _ => Vec::new(),
    }
}

fn which(rows: impl Iterator<Item = bool>) -> Vec<usize> {
    rows.enumerate()
        .filter_map(|(row, read)| read.then_some(row))
        .collect()
}

fn between(points: &[Breakpoint], x: f64) -> Vec<usize> {
    let after = points.partition_point(|point| point.x < x);
    match points.get(after) {
        Some(point) if point.x <= x => vec![after],
        Some(_) => (after.saturating_sub(1)..=after).collect(),
        None => points.len().checked_sub(1).into_iter().collect(),
    }
}

#[cfg(test)]
mod tests {
    use ringland_card::{
        Areas, Grade, LevelId,
        scale::{DepositLevel, MeritLevel, StateScore},
    };

    use super::*;

    #[test]
    fn a_half_step_is_read_from_both_neighbours() {
        let scale = Scale::Grade {
            scores: [10.0, 9.0, 7.5, 5.0, 2.5, 0.0],
        };
        let rows = |grade| rows_read(&scale, &Look::Grade(grade));
        assert_eq!(rows(Grade::None), [0]);
        assert_eq!(rows(Grade::LightToMedium), [2, 3]);
        assert_eq!(rows(Grade::Severe), [5]);
    }

    #[test]
    fn a_figure_between_breakpoints_is_read_from_both() {
        let points = [(0.0, 10.0), (5.0, 8.5), (60.0, 0.0)]
            .map(Breakpoint::from)
            .to_vec();
        let scale = Scale::Extent { points };
        let rows = |percent| rows_read(&scale, &Look::Percent(percent));
        assert_eq!(rows(0.0), [0]);
        assert_eq!(rows(3.0), [0, 1]);
        assert_eq!(rows(5.0), [1]);
        assert_eq!(rows(90.0), [2]);
    }

    #[test]
    fn an_area_is_read_from_each_level_seen() {
        let level = |id: &str| DepositLevel {
            id: LevelId::new(id).unwrap(),
            label: None,
            factor: 0.5,
        };
        let scale = Scale::Area {
            levels: vec![level("heavy"), level("medium"), level("light")],
        };
        let shares = [("heavy", 10.0), ("medium", 0.0), ("light", 3.0)]
            .map(|(id, share)| (LevelId::new(id).unwrap(), share));
        let areas = Areas {
            shares: shares.into_iter().collect(),
            painted: Vec::new(),
            read_off: None,
        };
        assert_eq!(rows_read(&scale, &Look::Areas(areas)), [0, 2]);
        assert!(rows_read(&scale, &Look::Areas(Areas::default())).is_empty());
    }

    /// By hand: half at factor 1, a tenth at 1/2; a fifth at merit 8, the rest clean.
    #[test]
    fn terms_of_an_area_come_to_its_figure() {
        let id = |id: &str| LevelId::new(id).unwrap();
        let areas = Areas {
            shares: [(id("a"), 50.0), (id("b"), 10.0)].into_iter().collect(),
            painted: Vec::new(),
            read_off: None,
        };
        let level = |name, factor| DepositLevel {
            id: id(name),
            label: None,
            factor,
        };
        let scale = Scale::Area {
            levels: vec![level("a", 1.0), level("b", 0.5), level("c", 0.25)],
        };
        let sum = |terms: &[AreaTerm]| terms.iter().map(|term| term.product).sum::<f64>();
        let terms = area_terms(&scale, &areas);
        assert_eq!(terms.len(), 3);
        assert!((sum(&terms) - 55.0).abs() < 1e-12);
        let scale = Scale::MeritArea {
            levels: vec![MeritLevel {
                id: id("film"),
                label: None,
                merit: 8.0,
            }],
        };
        let areas = Areas {
            shares: [(id("film"), 20.0)].into_iter().collect(),
            painted: Vec::new(),
            read_off: None,
        };
        let terms = area_terms(&scale, &areas);
        assert_eq!(terms[1].level, None);
        assert!((sum(&terms) / 100.0 - 9.6).abs() < 1e-12);
    }

    #[test]
    fn what_does_not_fit_is_read_from_nothing() {
        let id = ringland_card::StateId::new("free").unwrap();
        let scale = Scale::State {
            states: vec![StateScore {
                id: id.clone(),
                label: None,
                score: 10.0,
            }],
        };
        assert_eq!(rows_read(&scale, &Look::State(id)), [0]);
        assert!(rows_read(&scale, &Look::Count(3)).is_empty());
    }
}
