//! The words in which the plan's table is written: sections of parts of places of rows.

use super::{
    super::{Characteristic, Depth, Part, Place, Regime, Section},
    gauged,
    scales::Sheet,
};
use crate::ids::{CharacteristicId, PartId, ScaleId, SectionId};

/// Asperities carry the load.
pub(super) const B: Regime = Regime::Boundary;
/// Oil and asperities share it.
pub(super) const M: Regime = Regime::Mixed;
/// A full film carries it.
pub(super) const F: Regime = Regime::FullFilm;
/// Not a lubricated contact.
pub(super) const NO: Regime = Regime::None;

/// A line of the table: one characteristic.
#[derive(Clone)]
pub(super) struct Row {
    look: Characteristic,
    short: bool,
}

/// One characteristic, on a scale, with its weight and lubrication regime.
pub(super) fn look(id: &str, scale: Sheet, weight: f64, regime: Regime) -> Row {
    Row {
        look: Characteristic {
            id: CharacteristicId::fixed(id),
            label: None,
            scale: ScaleId::fixed(scale.id),
            weight,
            regime,
            u_rep: scale.u_rep,
            same_surface: None,
        },
        short: false,
    }
}

impl Row {
    /// The same surface is rated by eye as this.
    pub(super) fn beside(mut self, eye: &str) -> Self {
        self.look.same_surface = Some(CharacteristicId::fixed(eye));
        self
    }

    /// Also in the short plan.
    pub(super) fn short(self) -> Self {
        self.short_if(true)
    }

    /// Also in the short plan when `yes`.
    pub(super) fn short_if(mut self, yes: bool) -> Self {
        self.short |= yes;
        self
    }

    /// Whether it is a size that is read with a gauge.
    pub(super) fn is_size(&self) -> bool {
        gauged::all()
            .iter()
            .any(|(sheet, _)| sheet.id == self.look.scale.as_str())
    }

    /// The characteristic's id.
    pub(super) fn id(&self) -> &str {
        self.look.id.as_str()
    }
}

/// A place with its rows.
pub(super) struct PlaceRow {
    pub(super) place: Place,
    pub(super) rows: Vec<Row>,
    pub(super) full_only: bool,
}

impl PlaceRow {
    /// Not in the short plan, whatever its rows say, when `yes`.
    pub(super) fn full_only(mut self, yes: bool) -> Self {
        self.full_only |= yes;
        self
    }

    fn at(self, depth: Depth) -> Option<Place> {
        let whole = depth == Depth::Full;
        if self.full_only && !whole {
            return None;
        }
        let looks: Vec<Characteristic> = self
            .rows
            .into_iter()
            .filter(|row| whole || row.short)
            .map(|row| row.look)
            .collect();
        (!looks.is_empty() && !self.place.positions.is_empty()).then_some(Place {
            looks,
            ..self.place
        })
    }
}

/// A part with its places.
pub(super) struct PartRow {
    id: &'static str,
    weight: f64,
    places: Vec<PlaceRow>,
}

/// A part of a section.
pub(super) fn part(
    id: &'static str,
    weight: f64,
    places: impl IntoIterator<Item = PlaceRow>,
) -> PartRow {
    PartRow {
        id,
        weight,
        places: places.into_iter().collect(),
    }
}

impl PartRow {
    fn at(self, depth: Depth) -> Option<Part> {
        let places: Vec<Place> = self
            .places
            .into_iter()
            .filter_map(|place| place.at(depth))
            .collect();
        (!places.is_empty()).then(|| Part {
            id: PartId::fixed(self.id),
            label: None,
            weight: self.weight,
            places,
        })
    }
}

/// A section with its parts.
pub(super) struct SectionRow {
    id: &'static str,
    weight: f64,
    parts: Vec<PartRow>,
}

/// A section of the strip-down.
pub(super) fn section(
    id: &'static str,
    weight: f64,
    parts: impl IntoIterator<Item = PartRow>,
) -> SectionRow {
    SectionRow {
        id,
        weight,
        parts: parts.into_iter().collect(),
    }
}

impl SectionRow {
    /// The section at that depth; nothing where the engine or the plan has none of it.
    pub(super) fn at(self, depth: Depth) -> Option<Section> {
        let parts: Vec<Part> = self
            .parts
            .into_iter()
            .filter_map(|part| part.at(depth))
            .collect();
        (!parts.is_empty()).then(|| Section {
            id: SectionId::fixed(self.id),
            label: None,
            weight: self.weight,
            parts,
        })
    }
}
