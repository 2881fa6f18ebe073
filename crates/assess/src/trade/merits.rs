//! Sludge and varnish merits of the engine.

use ringland_card::{Standing, scale::Scale};

use super::{areas, demerit::merit, leaves_of, mean};

/// The mean merit of a kind of deposit over the places where it was rated, 0 to 10 (clean); none where
/// it was rated nowhere.
///
/// The kind is `sludge` or `varnish`: it takes every characteristic on a merit scale whose id starts with
/// that word or ends in `_` and that word.
///
/// # Formula
///
/// ```text
/// M = Σ Mᵢ / n        Mᵢ merit by area of rated place i, over n rated places
/// ```
///
/// Places count alike whatever their size. Source: averaging over the rated parts, from memory.
pub(super) fn mean_merit(standing: &Standing<'_>, kind: &str) -> Option<f64> {
    let plan = standing.plan;
    mean(plan.places().flat_map(|(.., place)| {
        place.positions.iter().flat_map(move |position| {
            leaves_of(standing, place, &position.id).map(move |(leaf, look)| {
                match plan.scale(&look.scale) {
                    Some(Scale::MeritArea { levels }) if is_of(look.id.as_str(), kind) => {
                        Some(merit(levels, &areas(standing, leaf)?))
                    }
                    _ => None,
                }
            })
        })
    }))
}

fn is_of(id: &str, kind: &str) -> bool {
    id.starts_with(kind)
        || id
            .strip_suffix(kind)
            .is_some_and(|before| before.ends_with('_'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_told_by_their_names() {
        for id in ["sludge", "sludge_in_sump", "breather_sludge"] {
            assert!(is_of(id, "sludge"), "{id}");
        }
        for id in ["varnish", "nosludge", "sump"] {
            assert!(!is_of(id, "sludge"), "{id}");
        }
    }
}
