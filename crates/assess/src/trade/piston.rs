//! Deposits of the pistons: the demerit of each land and groove, their weighted total, top groove fill
//! and top land heavy carbon.
//!
//! A piston is a position in the section `pistons` that has a deposit area on a `land_…` or a `groove_…`.
//! Groove 1 and land 1 are the topmost.

use std::collections::BTreeMap;

use ringland_card::{
    Standing,
    entry::Areas,
    ids::CharacteristicId,
    plan::{Characteristic, Place, Plan, Position},
    scale::{DepositLevel, Scale},
};

use super::{
    PistonFigures, areas,
    demerit::{demerit, percent_at},
    leaves_of,
};

/// The section that the pistons stand in.
const SECTION: &str = "pistons";

/// The weighted demerit total of a piston over its rated lands and grooves; none where none is rated.
///
/// # Formula
///
/// ```text
/// WD = Σ L_f·D_f        D_f demerit of land or groove f, 0 to 100; L_f its location factor
/// ```
///
/// The factors are the user's table, for they differ by procedure. Where the table is empty every factor
/// is 1 and the total is called unweighted. Where it is not, a land or groove that it lacks counts 0.
///
/// # Source
///
/// ASTM D6750 and D6681 limit such totals; the form of the sum is from memory.
pub fn weighted_demerits(
    lands_and_grooves: &[(CharacteristicId, f64)],
    factors: &BTreeMap<CharacteristicId, f64>,
) -> Option<f64> {
    if lands_and_grooves.is_empty() {
        return None;
    }
    let factor = |id: &CharacteristicId| {
        if factors.is_empty() {
            1.0
        } else {
            factors.get(id).copied().unwrap_or(0.0)
        }
    };
    let weighted = lands_and_grooves
        .iter()
        .map(|(id, demerit)| factor(id) * demerit);
    Some(weighted.sum())
}

/// Top groove fill: how much of the space behind the top ring is filled with carbon, percent.
///
/// # Formula
///
/// ```text
/// TGF = 1.00·HC % + 0.50·MC % + 0.25·LC %        of groove 1
/// ```
///
/// # Source
///
/// What heavy, medium and light carbon fill of a groove: ASTM D6618 clause 11.2.5. The formula follows
/// from it; from memory.
pub fn top_groove_fill(groove_1: &Areas) -> f64 {
    percent_at(groove_1, "heavy_carbon")
        + 0.50 * percent_at(groove_1, "medium_carbon")
        + 0.25 * percent_at(groove_1, "light_carbon")
}

/// Top land heavy carbon: the share of land 1 that heavy carbon covers, percent.
///
/// # Formula
///
/// ```text
/// TLHC = HC %        of land 1
/// ```
///
/// Source: ASTM D6750 limits it; the formula is from memory.
pub fn top_land_heavy_carbon(land_1: &Areas) -> f64 {
    percent_at(land_1, "heavy_carbon")
}

/// The figures of every piston, in plan order.
pub(super) fn pistons(standing: &Standing<'_>) -> Vec<PistonFigures> {
    let plan = standing.plan;
    plan.places()
        .filter(|(section, ..)| section.id.as_str() == SECTION)
        .filter(|(.., place)| place.looks.iter().any(|look| levels(plan, look).is_some()))
        .flat_map(|(.., place)| {
            place
                .positions
                .iter()
                .map(|position| piston(standing, place, position))
        })
        .collect()
}

fn piston(standing: &Standing<'_>, place: &Place, position: &Position) -> PistonFigures {
    let mut figures = PistonFigures {
        position: position.id.clone(),
        lands_and_grooves: Vec::new(),
        asked: 0,
        weighted_demerits: None,
        top_groove_fill: None,
        top_land_heavy_carbon: None,
    };
    for (leaf, look) in leaves_of(standing, place, &position.id) {
        let Some(levels) = levels(standing.plan, look) else {
            continue;
        };
        figures.asked += 1;
        if let Some(areas) = areas(standing, leaf) {
            let demerit = demerit(levels, &areas);
            figures.lands_and_grooves.push((look.id.clone(), demerit));
            match look.id.as_str() {
                "groove_1" => figures.top_groove_fill = Some(top_groove_fill(&areas)),
                "land_1" => figures.top_land_heavy_carbon = Some(top_land_heavy_carbon(&areas)),
                _ => {}
            }
        }
    }
    figures.weighted_demerits =
        weighted_demerits(&figures.lands_and_grooves, &standing.plan.location_factors);
    figures
}

/// The deposit levels of a land or groove; none for anything else.
fn levels<'p>(plan: &'p Plan, look: &Characteristic) -> Option<&'p [DepositLevel]> {
    let id = look.id.as_str();
    match plan.scale(&look.scale)? {
        Scale::Area { levels } if id.starts_with("land_") || id.starts_with("groove_") => {
            Some(levels)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use ringland_card::ids::LevelId;

    use super::*;

    fn table(rows: &[(&str, f64)]) -> Vec<(CharacteristicId, f64)> {
        rows.iter()
            .map(|(id, figure)| (CharacteristicId::new(id).unwrap(), *figure))
            .collect()
    }

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

    /// By hand: 2·35.75 + 3·10 + 1·50 + 4·5 = 171.5; with factors of 1 the sum is 100.75; twice the
    /// factors are twice the total. The factors are invented: those of the procedures are not public.
    #[test]
    fn weighted_total_by_hand() {
        let demerits = table(&[
            ("groove_1", 35.75),
            ("groove_2", 10.0),
            ("land_1", 50.0),
            ("land_2", 5.0),
        ]);
        let factors = table(&[
            ("groove_1", 2.0),
            ("groove_2", 3.0),
            ("land_1", 1.0),
            ("land_2", 4.0),
        ]);
        let with = |scale: f64| {
            let factors = factors.iter().map(|(id, l)| (id.clone(), l * scale));
            weighted_demerits(&demerits, &factors.collect())
        };
        assert_eq!(with(1.0), Some(171.5));
        assert_eq!(with(2.0), Some(343.0));
        assert_eq!(weighted_demerits(&demerits, &BTreeMap::new()), Some(100.75));
    }

    #[test]
    fn a_land_that_the_table_lacks_counts_nothing() {
        let factors: BTreeMap<_, _> = table(&[("groove_1", 2.0)]).into_iter().collect();
        let demerits = table(&[("groove_1", 10.0), ("land_1", 50.0)]);
        assert_eq!(weighted_demerits(&demerits, &factors), Some(20.0));
        assert_eq!(weighted_demerits(&[], &factors), None);
    }

    /// By hand: 10 + 16/2 + 8/4 = 20, the one-test limit of ASTM D6750 (1N).
    #[test]
    fn top_groove_fill_by_hand() {
        let groove = areas(&[
            ("heavy_carbon", 10.0),
            ("medium_carbon", 16.0),
            ("light_carbon", 8.0),
            ("black_lacquer", 30.0),
        ]);
        assert!((top_groove_fill(&groove) - 20.0).abs() < 1e-12);
        assert!(top_groove_fill(&areas(&[])).abs() < 1e-12);
    }

    #[test]
    fn only_heavy_carbon_counts_on_the_top_land() {
        let land = areas(&[("heavy_carbon", 3.0), ("light_carbon", 60.0)]);
        assert!((top_land_heavy_carbon(&land) - 3.0).abs() < 1e-12);
    }
}
