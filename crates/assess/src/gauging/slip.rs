//! Slips of the hand in a reading that is being typed: asked about, never changed.

use ringland_card::{
    Standing,
    entry::Body,
    gauging::{Decimal, Makes, Quantity, Reading, SizeField, Spot, Unit, Wears},
    ids::SpotId,
    plan::{Leaf, LeafId},
    scale::{GaugedScale, Scale},
};
use ringland_stats::robust::median;

/// How close to the others, as a share of them, a figure must come once the slip is undone.
const CLOSE: f64 = 0.05;
/// How far beyond everything known, in widths of it, a figure is still believed.
const WIDTHS: f64 = 3.0;
/// How far beyond it, as a share of the size, it is still believed in any case.
const SHARE: f64 = 0.01;

/// What may have gone wrong. Figures are in the unit that was typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Slip {
    /// The decimal point is in another place than that of the others.
    Decimal {
        /// What the others are near.
        near: f64,
    },
    /// The figure is in another unit than the one chosen.
    Unit {
        /// The unit that it looks like.
        looks_like: Unit,
    },
    /// The two axes are the other way round than everywhere else.
    Swapped {
        /// The axis that is larger here.
        here: SpotId,
        /// The axis that is larger elsewhere.
        elsewhere: SpotId,
    },
    /// The figure is far from everything that is known of this size.
    Far {
        /// What the others are near.
        near: f64,
    },
}

/// Looks for a slip in a reading that is about to be kept; none where nothing is known to hold it against.
///
/// It is held against all other readings of the same size in other positions and on other spots, and against
/// the size sheet. The rules are the project's own:
///
/// ```text
/// decimal   10ⁿ times the middle of them, n ≠ 0, within 5 %
/// unit      as far off as another unit of the same quantity is, within 5 %
/// far       beyond all of them by more than 3 times their width and 1 % of the size
/// swapped   the larger axis is the smaller one at every other height and position, of two or more
/// ```
pub fn slip(standing: &Standing<'_>, leaf: LeafId, reading: &Reading) -> Option<Slip> {
    let place = standing.index.leaf(leaf)?;
    let look = place.characteristic(standing.plan);
    let Some(Scale::Gauged(scale)) = standing.plan.scale(&look.scale) else {
        return None;
    };
    let known = Known::of(standing, place, scale, reading);
    let figures = reading.values.iter().map(Decimal::value);
    let mut slips = figures.filter_map(|figure| known.slip(figure, reading.unit));
    slips
        .next()
        .or_else(|| swapped(standing, place, scale, leaf, reading))
}

/// What is known of a size, in SI units.
struct Known {
    /// The middle of the others, or of the sheet's figures.
    middle: Option<f64>,
    low: f64,
    high: f64,
    /// Whether the size is nothing but a difference: a gap, a clearance, a play.
    small: bool,
}

impl Known {
    fn of(standing: &Standing<'_>, place: &Leaf, scale: &GaugedScale, reading: &Reading) -> Self {
        let others: Vec<f64> = others(standing, place, reading)
            .flat_map(|(_, other)| other.si().collect::<Vec<_>>())
            .collect();
        let look = place.characteristic(standing.plan);
        let size = standing.size_sheet().and_then(|sheet| {
            sheet.size_in(scale.quantity, &place.place(standing.plan).id, &look.id)
        });
        let sheet: Vec<f64> = [
            SizeField::NewLow,
            SizeField::NewHigh,
            SizeField::LimitLow,
            SizeField::LimitHigh,
        ]
        .into_iter()
        .filter_map(|field| size?.si(field))
        .collect();
        let of = if others.is_empty() { &sheet } else { &others };
        let ends = others.iter().chain(&sheet).copied();
        Self {
            middle: median(of).ok().filter(|middle| *middle > 0.0),
            low: ends.clone().fold(f64::INFINITY, f64::min),
            high: ends.fold(f64::NEG_INFINITY, f64::max),
            // Where the material does not matter, what is read is a difference.
            small: scale.material.is_none() && scale.quantity == Quantity::Length,
        }
    }

    fn slip(&self, figure: f64, unit: Unit) -> Option<Slip> {
        let middle = self.middle?;
        let si = unit.to_si(figure);
        let near = unit.of_si(middle);
        let is_near = |factor: f64| (si * factor - middle).abs() <= CLOSE * middle;
        if self.believes(si) {
            return None;
        }
        let others = Unit::ALL.into_iter();
        let others = others.filter(|other| *other != unit && other.quantity() == unit.quantity());
        // Units that are powers of ten apart are told from a slipped point by nothing: the point is the
        // likelier slip up to two places.
        let tens = [10.0, 0.1, 100.0, 0.01];
        if !self.small && tens.into_iter().any(is_near) {
            return Some(Slip::Decimal { near });
        }
        let looks_like = { others }.find(|other| is_near(other.to_si(1.0) / unit.to_si(1.0)));
        if let (false, Some(looks_like)) = (self.small, looks_like) {
            return Some(Slip::Unit { looks_like });
        }
        Some(Slip::Far { near })
    }

    /// Whether a figure is close enough to everything known.
    fn believes(&self, si: f64) -> bool {
        let width = self.high - self.low;
        // Gaps and clearances vary by their own size, diameters by little of it.
        let share = if self.small { 1.0 } else { SHARE };
        let margin = WIDTHS * width + share * self.high.abs();
        si >= self.low - margin && si <= self.high + margin
    }
}

/// Every other reading of the same size in the same state, with its leaf.
fn others<'s>(
    standing: &'s Standing<'_>,
    place: &Leaf,
    reading: &'s Reading,
) -> impl Iterator<Item = (usize, &'s Reading)> {
    let (section, part, at, look) = (place.section, place.part, place.place, place.look);
    let same = move |leaf: &Leaf| {
        (leaf.section, leaf.part, leaf.place, leaf.look) == (section, part, at, look)
    };
    let leaves = standing.index.leaves().iter().enumerate();
    let leaves = leaves.filter(move |(_, leaf)| same(leaf));
    leaves.flat_map(move |(number, _)| {
        let entries = standing.readings[number].values();
        entries.filter_map(move |entry| match &entry.body {
            Body::Reading { reading: other } => {
                let itself = other.at == reading.at && other.spot == reading.spot;
                // Height and base circle of a lobe are two sizes.
                let alike = other.as_new == reading.as_new
                    && difference_alike(standing, number, other, reading);
                (!itself && alike).then_some((number, &**other))
            }
            _ => None,
        })
    })
}

/// Of a difference only readings of the same station are alike.
fn difference_alike(
    standing: &Standing<'_>,
    leaf: usize,
    other: &Reading,
    reading: &Reading,
) -> bool {
    let look = standing.index.leaves()[leaf].characteristic(standing.plan);
    match standing.plan.scale(&look.scale) {
        Some(Scale::Gauged(scale)) if scale.makes == Makes::Difference => {
            other.spot.station == reading.spot.station
        }
        _ => true,
    }
}

/// Whether the two axes of a height stand the other way round than at every other height and position.
fn swapped(
    standing: &Standing<'_>,
    place: &Leaf,
    scale: &GaugedScale,
    leaf: LeafId,
    reading: &Reading,
) -> Option<Slip> {
    let [first, second] = scale.axes.as_slice() else {
        return None;
    };
    let axis = reading.spot.axis.as_ref()?;
    if scale.wears == Wears::Either {
        return None;
    }
    let all: Vec<(usize, &Reading)> = others(standing, place, reading).collect();
    let mean = |reading: &Reading| reading.si().sum::<f64>() / reading.values.len() as f64;
    let at = |number: usize, station: Option<&SpotId>, axis: &SpotId| {
        let spot = Spot {
            station: station.cloned(),
            axis: Some(axis.clone()),
        };
        all.iter()
            .find(|(of, other)| *of == number && other.spot == spot)
            .map(|(_, other)| mean(other))
    };
    let station = reading.spot.station.as_ref();
    let mate = if axis == first { second } else { first };
    let here = mean(reading) - at(leaf.0, station, mate)?;
    let here = if axis == first { here } else { -here };
    let mut pairs: Vec<f64> = Vec::new();
    for (number, other) in &all {
        let their = other.spot.station.as_ref();
        let same = *number == leaf.0 && their == station;
        if !same
            && other.spot.axis.as_ref() == Some(first)
            && let Some(second) = at(*number, their, second)
        {
            pairs.push(mean(other) - second);
        }
    }
    let against = |pair: &f64| pair.signum() != here.signum() && pair.abs() > 0.0;
    if here.abs() > 0.0 && pairs.len() >= 2 && pairs.iter().all(against) {
        let (here, elsewhere) = if here > 0.0 {
            (first, second)
        } else {
            (second, first)
        };
        return Some(Slip::Swapped {
            here: here.clone(),
            elsewhere: elsewhere.clone(),
        });
    }
    None
}
