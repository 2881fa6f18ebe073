//! Distress of the ring faces.
//!
//! A ring is a position that has a `face_distress` given as an extent; a state `whole` beside it says
//! whether it is broken.

use ringland_card::{
    Standing,
    entry::Look,
    plan::{Place, Position},
    scale::Scale,
};

use super::{RingFigure, leaves_of, looks, mean};

/// What a percent of distressed ring face costs, in hundredths of a demerit.
const FACTOR: f64 = 1.0;

/// The distress demerit of a ring, 0 (none) to 1.
///
/// # Formula
///
/// ```text
/// demerit = p/100 · 1        p percent of the ring face that is distressed
/// demerit = 1.00             for a broken ring, which counts as distressed all over
/// ```
///
/// None where neither is known. The factor is 1 for every kind of distress: the table of the method was
/// not seen, and until a user fills one in the demerit is the fraction of the face.
///
/// # Source
///
/// ASTM D5862 clause 14.2.5.
pub fn distress(percent: Option<f64>, broken: bool) -> Option<f64> {
    if broken {
        Some(1.0)
    } else {
        percent.map(|percent| percent / 100.0 * FACTOR)
    }
}

/// The distress of every ring, in plan order.
pub(super) fn rings(standing: &Standing<'_>) -> Vec<RingFigure> {
    let plan = standing.plan;
    plan.places()
        .filter(|(.., place)| {
            place.looks.iter().any(|look| {
                look.id.as_str() == "face_distress"
                    && matches!(plan.scale(&look.scale), Some(Scale::Extent { .. }))
            })
        })
        .flat_map(|(.., place)| {
            place
                .positions
                .iter()
                .map(|position| ring(standing, place, position))
        })
        .collect()
}

fn ring(standing: &Standing<'_>, place: &Place, position: &Position) -> RingFigure {
    let (mut percent, mut broken) = (None, false);
    for (leaf, look) in leaves_of(standing, place, &position.id) {
        match look.id.as_str() {
            "face_distress" => {
                percent = mean(looks(standing, leaf).map(|look| match look {
                    Look::Percent(percent) => Some(*percent),
                    _ => None,
                }));
            }
            "whole" => {
                broken = looks(standing, leaf)
                    .any(|look| matches!(look, Look::State(state) if state.as_str() == "broken"));
            }
            _ => {}
        }
    }
    RingFigure {
        position: position.id.clone(),
        distress: distress(percent, broken),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASTM D5862 clause 14.2.5: area fraction times factor; a broken ring is 100 % and 1.00.
    #[test]
    fn a_broken_ring_is_distressed_all_over() {
        assert_eq!(distress(Some(25.0), false), Some(0.25));
        assert_eq!(distress(Some(100.0), false), Some(1.0));
        assert_eq!(distress(Some(25.0), true), Some(1.0));
        assert_eq!(distress(None, true), Some(1.0));
        assert_eq!(distress(None, false), None);
    }
}
