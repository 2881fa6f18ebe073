//! Whether a part was read as it went in on as much of its grid as when it came out.

use ringland_card::{
    Standing,
    gauging::{Makes, Spot},
    plan::LeafId,
    scale::GaugedScale,
};

/// How many spots the readings of a part as it went in lack; none where there are no such readings.
///
/// Asked are the spots of the grid that were read as it came out, and of a difference both stations: a size
/// out of fewer spots would be held against one that may come from where the part was never read new. Heights
/// beyond the grid are chosen by what is found there, so they are not asked.
pub(super) fn unread_new(
    standing: &Standing<'_>,
    leaf: LeafId,
    scale: &GaugedScale,
) -> Option<usize> {
    let readings = standing.readings.get(leaf.0)?;
    // Raters side by side: the spots are in order, each as often as somebody read it.
    let read = |as_new: bool| {
        let keys = readings.keys();
        let mut spots: Vec<Spot> = keys
            .filter(|(new, ..)| *new == as_new)
            .map(|(_, spot, _)| (*spot).clone())
            .collect();
        spots.dedup();
        spots
    };
    let new = read(true);
    if new.is_empty() {
        return None;
    }
    let mut asked = match scale.makes {
        Makes::Furthest => read(false),
        Makes::Difference => {
            let stations = scale.stations.iter().cloned();
            let spot = |station| Spot {
                station: Some(station),
                axis: None,
            };
            stations.map(spot).collect()
        }
    };
    asked.retain(|spot| {
        let station = spot.station.as_ref();
        let on_grid = station.is_none_or(|station| scale.stations.contains(station));
        on_grid && !new.contains(spot)
    });
    Some(asked.len())
}
