//! The wear of one kind of size on engine after engine, against how far each had run when it was stripped.
//!
//! Lengths and distances are metres, masses kilograms. An engine counts once for each strip-down: its positions
//! are repeats of each other, not engines.

use ringland_card::{
    Standing,
    entry::FactField,
    gauging::Wears,
    ids::{CharacteristicId, PlaceId},
    plan::LeafId,
    scale::Scale,
};

use super::{finding::finding, forecast::Unit};

/// Which figure stands for the positions of an engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandsFor {
    /// That of the position that has worn most.
    Most,
    /// The mean of those that were measured.
    Mean,
}

/// A kind of size: what is measured of a place, on any engine that has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KindId {
    /// The place.
    pub place: PlaceId,
    /// What is measured there.
    pub look: CharacteristicId,
}

/// How far a kind of size had worn on one engine.
#[derive(Clone, Debug, PartialEq)]
pub struct KindWear {
    /// Which kind.
    pub kind: KindId,
    /// How many positions were measured whose new size is known.
    pub positions: usize,
    /// The wear of the position that has worn most, above 0 towards the limit.
    pub most: f64,
    /// The mean wear.
    pub mean: f64,
    /// The least wear allowance of these positions; none where the limit is not known.
    pub allowance: Option<f64>,
}

/// An engine as it was stripped once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StripDown {
    /// What it is called.
    pub name: String,
    /// Its model.
    pub model: String,
    /// Its serial number.
    pub serial: String,
    /// How far it had run.
    pub distance: Option<f64>,
    /// What had worn how far.
    pub kinds: Vec<KindWear>,
}

impl StripDown {
    /// Works out every kind of size on a card. Cost: linear in the leaves and the readings.
    pub fn of(standing: &Standing<'_>) -> Self {
        Self::with(standing, |_| true)
    }

    /// Works out one kind only.
    pub fn of_kind(standing: &Standing<'_>, kind: &KindId) -> Self {
        Self::with(standing, |of| of == kind)
    }

    fn with(standing: &Standing<'_>, wanted: impl Fn(&KindId) -> bool) -> Self {
        let text = |field| standing.text(field).unwrap_or_default().trim().to_owned();
        let mut kinds: Vec<(KindId, Vec<Worn>)> = Vec::new();
        for number in 0..standing.index.leaves().len() {
            let leaf = LeafId(number);
            let Some(kind) = one_way(standing, leaf).filter(&wanted) else {
                continue;
            };
            let Some(worn) = Worn::at(standing, leaf) else {
                continue;
            };
            match kinds.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, all)) => all.push(worn),
                None => kinds.push((kind, vec![worn])),
            }
        }
        Self {
            name: text(FactField::Name),
            model: text(FactField::Model),
            serial: text(FactField::Serial),
            distance: standing
                .si(FactField::Distance)
                .filter(|distance| *distance > 0.0),
            kinds: kinds
                .into_iter()
                .map(|(kind, worn)| KindWear::new(kind, &worn))
                .collect(),
        }
    }

    /// Whether both are of one model, as far as the cards say.
    pub fn same_model(&self, other: &Self) -> bool {
        self.model.to_lowercase() == other.model.to_lowercase()
    }

    /// Whether it is the same engine, stripped at another time: a serial number is its model's own.
    fn same_engine(&self, other: &Self) -> bool {
        !self.serial.is_empty() && self.serial == other.serial && self.same_model(other)
    }

    /// How far a kind had worn, and after which distance.
    fn reading(&self, kind: &KindId, stands_for: StandsFor) -> Option<(f64, f64)> {
        let worn = self.kinds.iter().find(|worn| worn.kind == *kind)?;
        let wear = match stands_for {
            StandsFor::Most => worn.most,
            StandsFor::Mean => worn.mean,
        };
        Some((self.distance?, wear))
    }
}

/// The readings of one kind by engine, in the order of the strip-downs; those of one engine go together.
/// Left out are strip-downs without a distance or without that kind's wear.
pub fn units(stripped: &[&StripDown], kind: &KindId, stands_for: StandsFor) -> Vec<Unit> {
    let mut units: Vec<(&StripDown, Unit)> = Vec::new();
    for strip in stripped {
        let Some((distance, wear)) = strip.reading(kind, stands_for) else {
            continue;
        };
        if let Some((_, unit)) = units.iter_mut().find(|(of, _)| of.same_engine(strip)) {
            unit.distance.push(distance);
            unit.wear.push(wear);
        } else {
            let unit = Unit {
                name: strip.name.clone(),
                distance: vec![distance],
                wear: vec![wear],
            };
            units.push((strip, unit));
        }
    }
    units.into_iter().map(|(_, unit)| unit).collect()
}

/// One position.
#[derive(Clone, Copy, Debug)]
struct Worn {
    wear: f64,
    allowance: Option<f64>,
}

impl Worn {
    fn at(standing: &Standing<'_>, leaf: LeafId) -> Option<Self> {
        let found = finding(standing, leaf)?;
        let wear = found.wear?.si;
        let allowance = found
            .share
            .and(found.position)
            .map(|at| (at.limit - at.as_new.measured().value).abs().value);
        Some(Self { wear, allowance })
    }
}

impl KindWear {
    fn new(kind: KindId, worn: &[Worn]) -> Self {
        let wears = worn.iter().map(|worn| worn.wear);
        Self {
            kind,
            positions: worn.len(),
            most: wears.clone().fold(f64::NEG_INFINITY, f64::max),
            mean: wears.sum::<f64>() / worn.len() as f64,
            allowance: worn
                .iter()
                .filter_map(|worn| worn.allowance)
                .reduce(f64::min),
        }
    }
}

/// The kind of a leaf that is measured and wears one way only: which way one of either way will go on is
/// not known.
pub fn one_way(standing: &Standing<'_>, leaf: LeafId) -> Option<KindId> {
    let at = standing.index.leaf(leaf)?;
    let (place, look) = (at.place(standing.plan), at.characteristic(standing.plan));
    match standing.plan.scale(&look.scale)? {
        Scale::Gauged(scale) if scale.wears != Wears::Either => Some(KindId {
            place: place.id.clone(),
            look: look.id.clone(),
        }),
        _ => None,
    }
}
