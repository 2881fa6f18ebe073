//! Which rows of a scale's table a look was read from.

use ringland_card::{
    entry::Look,
    scale::{Breakpoint, Scale},
};

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
        scale::{DepositLevel, StateScore},
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
        };
        assert_eq!(rows_read(&scale, &Look::Areas(areas)), [0, 2]);
        assert!(rows_read(&scale, &Look::Areas(Areas::default())).is_empty());
    }

    #[test]
    fn what_does_not_fit_is_read_from_nothing() {
        let id = ringland_card::StateId::new("free").unwrap();
        let scale = Scale::State {
            states: vec![StateScore {
                id: id.clone(),
                score: 10.0,
            }],
        };
        assert_eq!(rows_read(&scale, &Look::State(id)), [0]);
        assert!(rows_read(&scale, &Look::Count(3)).is_empty());
    }
}
