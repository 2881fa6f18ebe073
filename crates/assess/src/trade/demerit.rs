//! Deposits by area: the demerit of a land or groove, the merit of a sludge or varnish rating.
//!
//! The formulas stand here and nowhere else: the score of a look and the trade figures both call them.
//!
//! Units: areas in percent of the rated surface; demerits 0 (clean) to 100; merits 0 to 10 (clean).

use std::collections::BTreeMap;

use ringland_card::{
    entry::Areas,
    ids::LevelId,
    scale::{DepositLevel, MeritLevel},
};

/// The demerit of a deposit, 0 (clean) to 100 (all of it heavy carbon).
///
/// # Formula
///
/// ```text
/// D = Σ aₖ·fₖ        aₖ percent of the area at level k, fₖ the demerit factor of level k, 0 to 1
/// ```
///
/// What Σ aₖ leaves of 100 is clean and costs nothing. A level that has no area counts 0; an area at a
/// level that the scale lacks has no factor and is left out (entries are checked when written).
///
/// # Source
///
/// Area bookkeeping: ASTM D6618 clause 11.2.4. That a demerit is area times factor, and the factors
/// 1, 1/2 and 1/4 of heavy, medium and light carbon: the deposit rating manual that it calls, from memory.
pub fn demerit(levels: &[DepositLevel], areas: &Areas) -> f64 {
    levels
        .iter()
        .map(|level| percent_at(areas, level.id.as_str()) * level.factor)
        .sum()
}

/// The merit of a sludge or varnish rating by area, 0 to 10 (clean).
///
/// # Formula
///
/// ```text
/// M = (Σ aₖ·mₖ + (100 − Σ aₖ)·10) / 100        aₖ percent of the area, mₖ merit of level k
/// ```
///
/// What Σ aₖ leaves of 100 is clean, merit 10. A level without area counts 0; an area at a level that the
/// scale lacks is taken for clean (entries are checked when written).
///
/// # Source
///
/// Direction of the scale: ASTM D4857 clause 10.2.1. Averaging by area: from memory.
pub fn merit(levels: &[MeritLevel], areas: &Areas) -> f64 {
    let (mut rated, mut sum) = (0.0, 0.0);
    for level in levels {
        let percent = percent_at(areas, level.id.as_str());
        rated += percent;
        sum += percent * level.merit;
    }
    (sum + (100.0 - rated) * 10.0) / 100.0
}

/// Percent of the area at a level, 0 where the level was not seen.
pub fn percent_at(areas: &Areas, level: &str) -> f64 {
    areas.shares.get(level).copied().unwrap_or(0.0)
}

/// The mean of several raters' areas, level by level; a level that a rater did not see counts 0 there.
///
/// # Formula
///
/// ```text
/// āₖ = Σᵣ aₖᵣ / n        over n raters r, for every level k that any of them saw
/// ```
///
/// A mean was painted by nobody, so it carries no painting. Of no areas the mean is empty.
pub fn mean_areas(areas: &[&Areas]) -> Areas {
    let mut shares: BTreeMap<LevelId, f64> = BTreeMap::new();
    for one in areas {
        for (level, percent) in &one.shares {
            *shares.entry(level.clone()).or_insert(0.0) += percent;
        }
    }
    for share in shares.values_mut() {
        *share /= areas.len() as f64;
    }
    Areas {
        shares,
        painted: Vec::new(),
        read_off: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn areas(shares: &[(&str, f64)]) -> Areas {
        Areas {
            shares: shares
                .iter()
                .map(|(level, percent)| (LevelId::new(level).unwrap(), *percent))
                .collect(),
            painted: Vec::new(),
            read_off: None,
        }
    }

    /// Factors of heavy, medium and light carbon and of two lacquers: from memory, of the deposit
    /// rating manual that ASTM D6618, D6750 and D6681 call.
    fn carbon_and_lacquer() -> Vec<DepositLevel> {
        [
            ("heavy_carbon", 1.0),
            ("medium_carbon", 0.5),
            ("light_carbon", 0.25),
            ("black_lacquer", 0.1),
            ("amber_lacquer", 0.05),
        ]
        .map(|(id, factor)| DepositLevel {
            id: LevelId::new(id).unwrap(),
            label: None,
            factor,
        })
        .into()
    }

    #[track_caller]
    fn close(got: f64, want: f64) {
        assert!((got - want).abs() < 1e-12, "got {got}, want {want}");
    }

    /// The arithmetic by hand: 20·1 + 15·0.5 + 25·0.25 + 10·0.1 + 20·0.05 = 35.75.
    #[test]
    fn demerit_of_the_worked_example() {
        let seen = areas(&[
            ("heavy_carbon", 20.0),
            ("medium_carbon", 15.0),
            ("light_carbon", 25.0),
            ("black_lacquer", 10.0),
            ("amber_lacquer", 20.0),
        ]);
        close(demerit(&carbon_and_lacquer(), &seen), 35.75);
    }

    #[test]
    fn clean_is_0_and_heavy_carbon_all_over_is_100() {
        let levels = carbon_and_lacquer();
        close(demerit(&levels, &areas(&[])), 0.0);
        close(demerit(&levels, &areas(&[("heavy_carbon", 100.0)])), 100.0);
    }

    /// All of it black lacquer (10.0) is less than heavy carbon on just over a tenth (10.1).
    #[test]
    fn lacquer_does_not_outrank_a_tenth_of_heavy_carbon() {
        let levels = carbon_and_lacquer();
        let lacquer = demerit(&levels, &areas(&[("black_lacquer", 100.0)]));
        let carbon = demerit(&levels, &areas(&[("heavy_carbon", 10.1)]));
        close(lacquer, 10.0);
        close(carbon, 10.1);
    }

    /// Common practice: a land half under heavy carbon is demerit 50, one with medium carbon on a fifth
    /// is 10, a clean one is 0.
    #[test]
    fn lands_of_a_used_piston() {
        let levels = carbon_and_lacquer();
        close(demerit(&levels, &areas(&[("heavy_carbon", 50.0)])), 50.0);
        close(demerit(&levels, &areas(&[("medium_carbon", 20.0)])), 10.0);
        close(demerit(&levels, &areas(&[])), 0.0);
    }

    /// The template of ASTM D6618 clause 11.2.4: 20 segments, each 5 % of the area. Six segments heavy,
    /// five medium, four light, three black lacquer, two clean: 30 + 12.5 + 5 + 1.5 = 49 by hand.
    #[test]
    fn twenty_segment_template() {
        let segments = "HHHHHHMMMMMLLLLBBB..";
        assert_eq!(segments.len(), 20);
        let share = |mark: char| 5.0 * segments.chars().filter(|c| *c == mark).count() as f64;
        let seen = areas(&[
            ("heavy_carbon", share('H')),
            ("medium_carbon", share('M')),
            ("light_carbon", share('L')),
            ("black_lacquer", share('B')),
        ]);
        close(percent_at(&seen, "heavy_carbon"), 30.0);
        close(seen.clean(), 10.0);
        close(demerit(&carbon_and_lacquer(), &seen), 49.0);
    }

    /// By hand: 40 % at merit 10 (clean), 35 % at 8, 25 % at 5 is (400 + 280 + 125)/100 = 8.05.
    #[test]
    fn merit_is_the_mean_by_area() {
        let levels = [("light", 8.0), ("heavy", 5.0)].map(|(id, merit)| MeritLevel {
            id: LevelId::new(id).unwrap(),
            label: None,
            merit,
        });
        close(
            merit(&levels, &areas(&[("light", 35.0), ("heavy", 25.0)])),
            8.05,
        );
        close(merit(&levels, &areas(&[])), 10.0);
        close(merit(&levels, &areas(&[("heavy", 100.0)])), 5.0);
    }

    #[test]
    fn raters_areas_are_averaged_level_by_level() {
        let (one, two) = (
            areas(&[("heavy_carbon", 30.0), ("light_carbon", 10.0)]),
            areas(&[("heavy_carbon", 20.0)]),
        );
        let mean = mean_areas(&[&one, &two]);
        assert_eq!(
            mean,
            areas(&[("heavy_carbon", 25.0), ("light_carbon", 5.0)])
        );
        assert_eq!(mean_areas(&[]), Areas::default());
    }
}
