//! Sizes of one's own: how something is read with a gauge that the plan has no scale for.

use super::{
    EditError, Plan, PlanItem,
    rows::{label, unused},
};
use crate::{
    gauging::{Makes, Material, Quantity, Wears},
    ids::{ScaleId, SpotId},
    scale::{GaugedScale, Scale},
};

/// A scale that the plan lacks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewSize {
    /// What it is called.
    pub name: String,
    /// What kind of quantity it is.
    pub quantity: Quantity,
    /// Which way it goes with wear.
    pub wears: Wears,
    /// How its readings make one size.
    pub makes: Makes,
    /// The heights or stations as typed, a comma between them; empty for one reading.
    pub stations: String,
    /// The axes, likewise.
    pub axes: String,
    /// What the part is made of, where warmth is to be corrected for.
    pub material: Option<Material>,
}

impl Plan {
    /// Adds a scale that is read with a gauge, for rows to use, and gives its item.
    ///
    /// # Errors
    ///
    /// [`EditError::NoName`], [`EditError::LongName`], [`EditError::Scale`] where its grid contradicts itself; then
    /// the plan is as it was.
    pub fn add_size(&mut self, new: &NewSize) -> Result<PlanItem, EditError> {
        let name = label(&new.name)?;
        let scale = Scale::Gauged(GaugedScale {
            label: Some(name.clone()),
            quantity: new.quantity,
            wears: new.wears,
            makes: new.makes,
            stations: spots(&new.stations),
            axes: spots(&new.axes),
            material: new.material,
        });
        scale.check()?;
        let id = ScaleId::fixed(&unused(&name, |id| {
            self.scales.keys().any(|known| known.as_str() == id)
        }));
        self.scales.insert(id.clone(), scale);
        Ok(PlanItem::Scale(id))
    }

    /// Takes a scale that is read with a gauge out of the plan.
    pub(super) fn remove_size(&mut self, id: &ScaleId) -> Result<(), EditError> {
        let Some(Scale::Gauged(_)) = self.scales.get(id) else {
            return Err(EditError::NotThere);
        };
        let rows = self.rows_on(id);
        if rows > 0 {
            return Err(EditError::InUse { rows });
        }
        self.scales.remove(id);
        Ok(())
    }

    /// How many characteristics are rated or measured on a scale.
    pub fn rows_on(&self, scale: &ScaleId) -> usize {
        let looks = self.places().flat_map(|(.., place)| &place.looks);
        looks.filter(|look| look.scale == *scale).count()
    }
}

/// Names with commas between them as the ids of spots. Two of one name stay two, which the scale's check refuses.
fn spots(typed: &str) -> Vec<SpotId> {
    let names = typed.split([',', ';']).map(str::trim);
    let named = names.filter(|name| !name.is_empty());
    named
        .map(|name| SpotId::fixed(&unused(name, |_| false)))
        .collect()
}
