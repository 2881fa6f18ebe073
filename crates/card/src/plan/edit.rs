//! Changes of a plan in the making: its figures and its texts.
//!
//! A change may leave the plan contradicting itself for a while, which [`Plan::problems`] tells; what
//! would not be a plan at all is refused.

use super::{
    Characteristic, Field, MOST_EACH, Part, Place, Plan, PlanItem, Repeatability, Section,
};
use crate::{
    grade::Grade,
    ids::{CharacteristicId, PartId, PlaceId, ScaleId, SectionId},
    scale::{Method, Scale, ScaleError},
};

/// The longest name of a plan, of its version or of something in it, in characters.
pub const LONGEST_LABEL: usize = 120;

/// Why a plan was not changed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum EditError {
    /// The plan has no such item, or the item no such field.
    #[error("the plan has nothing there to change")]
    NotThere,
    /// A name that is left empty.
    #[error("a name is missing")]
    NoName,
    /// A name too long.
    #[error("the name has {given} characters: allowed is {LONGEST_LABEL} at most")]
    LongName {
        /// Its length.
        given: usize,
    },
    /// A number of things that no row has.
    #[error("{given} of them: allowed is 1 to {MOST_EACH}")]
    Each {
        /// The number.
        given: usize,
    },
    /// Somewhere with nothing in it that a cap rule could look at.
    #[error(
        "nothing there is rated by grade, extent, count or state, so no cap rule can look at it"
    )]
    NothingToCap,
    /// Something that is the first or the last already.
    #[error("it stands at the end already")]
    AtEnd,
    /// A scale that rows still use.
    #[error("{rows} rows use it: take them out or give them another scale first")]
    InUse {
        /// How many.
        rows: usize,
    },
    /// A scale that contradicts itself.
    #[error(transparent)]
    Scale(#[from] ScaleError),
    /// A count that is not whole.
    #[error("{given} is not a whole number")]
    NotWhole {
        /// The figure.
        given: f64,
    },
}

/// The repeatability that a new characteristic starts with, in score: its author's to set.
pub(super) const NEW_U_REP: f64 = 0.5;

impl Plan {
    /// Sets a figure. It may be out of its range, which [`Plan::problems`] tells.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`]; [`EditError::NotWhole`] for a count that is none.
    pub fn set_figure(
        &mut self,
        item: &PlanItem,
        field: Field,
        figure: f64,
    ) -> Result<(), EditError> {
        if let (PlanItem::LocationFactor(look), Field::Factor) = (item, field) {
            self.location_factors.insert(look.clone(), figure);
            return Ok(());
        }
        if let (PlanItem::Cap(id), Field::When) = (item, field)
            && let Some(rule) = self.cap_mut(id)
        {
            return rule.set_threshold(figure);
        }
        *self.figure_mut(item, field).ok_or(EditError::NotThere)? = figure;
        Ok(())
    }

    /// Takes a location factor out of the table.
    pub fn clear_location_factor(&mut self, look: &CharacteristicId) {
        // The rest is put in anew: taking one out of a map is more for the browser to load.
        for (known, factor) in std::mem::take(&mut self.location_factors) {
            if known != *look {
                self.location_factors.insert(known, factor);
            }
        }
    }

    fn figure_mut(&mut self, item: &PlanItem, field: Field) -> Option<&mut f64> {
        match (item, field) {
            (PlanItem::Plan, Field::UBias) => Some(&mut self.u_bias),
            (PlanItem::Section(section), Field::Weight) => {
                Some(&mut self.section_mut(section)?.weight)
            }
            (PlanItem::Part(section, part), Field::Weight) => {
                Some(&mut self.section_mut(section)?.part_mut(part)?.weight)
            }
            (PlanItem::Place(section, part, place), Field::Weight) => {
                Some(&mut self.place_mut(section, part, place)?.weight)
            }
            (PlanItem::Look(section, part, place, look), field) => {
                let look = self.place_mut(section, part, place)?.look_mut(look)?;
                match field {
                    Field::Weight => Some(&mut look.weight),
                    Field::URep => Some(match &mut look.u_rep {
                        Repeatability::Score(u)
                        | Repeatability::Percent(u)
                        | Repeatability::Count(u) => u,
                    }),
                    _ => None,
                }
            }
            (PlanItem::Cap(id), Field::Cap) => Some(&mut self.cap_mut(id)?.cap),
            (PlanItem::Criterion(number), field) => {
                let criterion = self.criteria.get_mut(*number)?;
                Some(match field {
                    Field::Weight => &mut criterion.weight,
                    Field::Anchor => &mut criterion.anchor,
                    Field::Limit => &mut criterion.limit,
                    Field::Best => &mut criterion.best,
                    _ => return None,
                })
            }
            (
                PlanItem::Scale(scale)
                | PlanItem::Grade(scale, _)
                | PlanItem::Level(scale, _)
                | PlanItem::State(scale, _)
                | PlanItem::Point(scale, _),
                field,
            ) => self.scales.get_mut(scale)?.figure_mut(item, field),
            _ => None,
        }
    }

    /// Sets a name, a version or a label. An empty label is taken out.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`], [`EditError::NoName`] or [`EditError::LongName`].
    pub fn set_text(&mut self, item: &PlanItem, field: Field, text: &str) -> Result<(), EditError> {
        let text = text.trim();
        let given = text.chars().count();
        if given > LONGEST_LABEL {
            return Err(EditError::LongName { given });
        }
        let label = match (item, field) {
            (PlanItem::Plan, Field::Name | Field::Version) => {
                if text.is_empty() {
                    return Err(EditError::NoName);
                }
                let held = match field {
                    Field::Name => &mut self.name,
                    _ => &mut self.version,
                };
                text.clone_into(held);
                return Ok(());
            }
            (_, Field::Label) => self.label_mut(item).ok_or(EditError::NotThere)?,
            _ => return Err(EditError::NotThere),
        };
        *label = (!text.is_empty()).then(|| text.to_owned());
        Ok(())
    }

    fn label_mut(&mut self, item: &PlanItem) -> Option<&mut Option<String>> {
        match item {
            PlanItem::Section(section) => Some(&mut self.section_mut(section)?.label),
            PlanItem::Part(section, part) => {
                Some(&mut self.section_mut(section)?.part_mut(part)?.label)
            }
            PlanItem::Place(section, part, place) => {
                Some(&mut self.place_mut(section, part, place)?.label)
            }
            PlanItem::Look(section, part, place, look) => {
                Some(&mut self.place_mut(section, part, place)?.look_mut(look)?.label)
            }
            PlanItem::Cap(rule) => Some(&mut self.cap_mut(rule)?.label),
            PlanItem::Level(scale, level) => self.scales.get_mut(scale)?.label_mut(level.as_str()),
            PlanItem::State(scale, state) => self.scales.get_mut(scale)?.label_mut(state.as_str()),
            _ => None,
        }
    }

    /// Puts a characteristic on another scale of the plan. A repeatability in a unit that the scale
    /// does not have becomes one in score.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`].
    pub fn set_scale(&mut self, item: &PlanItem, scale: &ScaleId) -> Result<(), EditError> {
        let method = self.scales.get(scale).map(Scale::method);
        let method = method.ok_or(EditError::NotThere)?;
        let PlanItem::Look(section, part, place, look) = item else {
            return Err(EditError::NotThere);
        };
        let look = self
            .place_mut(section, part, place)
            .and_then(|place| place.look_mut(look))
            .ok_or(EditError::NotThere)?;
        look.scale = scale.clone();
        let fits = match look.u_rep {
            Repeatability::Score(_) => true,
            Repeatability::Percent(_) => {
                matches!(method, Method::Extent | Method::Area | Method::MeritArea)
            }
            Repeatability::Count(_) => method == Method::Count,
        };
        if !fits {
            look.u_rep = Repeatability::Score(NEW_U_REP);
        }
        Ok(())
    }

    pub(super) fn section_mut(&mut self, id: &SectionId) -> Option<&mut Section> {
        self.sections.iter_mut().find(|section| section.id == *id)
    }

    pub(super) fn place_mut(
        &mut self,
        section: &SectionId,
        part: &PartId,
        place: &PlaceId,
    ) -> Option<&mut Place> {
        let part = self.section_mut(section)?.part_mut(part)?;
        part.places.iter_mut().find(|known| known.id == *place)
    }
}

impl Section {
    pub(super) fn part_mut(&mut self, id: &PartId) -> Option<&mut Part> {
        self.parts.iter_mut().find(|part| part.id == *id)
    }
}

impl Place {
    fn look_mut(&mut self, id: &CharacteristicId) -> Option<&mut Characteristic> {
        self.looks.iter_mut().find(|look| look.id == *id)
    }
}

impl Scale {
    /// The figure of a field of the scale, or of one of its rows.
    fn figure_mut(&mut self, item: &PlanItem, field: Field) -> Option<&mut f64> {
        match (self, item, field) {
            (Self::Grade { scores }, PlanItem::Grade(_, grade), Field::Score) => {
                let row = Grade::WHOLE.iter().position(|whole| whole == grade)?;
                scores.get_mut(row)
            }
            (Self::Area { levels }, PlanItem::Level(_, id), Field::Factor) => {
                let level = levels.iter_mut().find(|level| level.id == *id)?;
                Some(&mut level.factor)
            }
            (Self::MeritArea { levels }, PlanItem::Level(_, id), Field::Merit) => {
                let level = levels.iter_mut().find(|level| level.id == *id)?;
                Some(&mut level.merit)
            }
            (Self::State { states }, PlanItem::State(_, id), Field::Score) => {
                let state = states.iter_mut().find(|state| state.id == *id)?;
                Some(&mut state.score)
            }
            (
                Self::Extent { points } | Self::Count { points },
                PlanItem::Point(_, number),
                field,
            ) => {
                let point = points.get_mut(*number)?;
                match field {
                    Field::X => Some(&mut point.x),
                    Field::Score => Some(&mut point.score),
                    _ => None,
                }
            }
            (Self::Measured { as_new, .. }, PlanItem::Scale(_), Field::AsNew) => Some(as_new),
            (Self::Measured { limit, .. }, PlanItem::Scale(_), Field::Limit) => Some(limit),
            _ => None,
        }
    }
}
