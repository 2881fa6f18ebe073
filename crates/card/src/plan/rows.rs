//! Rows of a plan in the making: off, on again, and new ones.
//!
//! A row that is off is not in the plan. What was rated there stays on its card, outside the plan.
//! Ids of new rows are made here, of what the author calls them.

use super::{
    Axis, Change, Characteristic, Criterion, EditError, LONGEST_LABEL, Part, Place, Plan, PlanItem,
    Position, Regime, Repeatability, Section, edit::NEW_U_REP,
};
use crate::{
    ids::{CharacteristicId, LONGEST_NAME, PartId, PlaceId, PositionId, ScaleId, SectionId},
    scale::Scale,
};

/// The most numbered things a new row may have, such as pumps.
pub const MOST_EACH: usize = 50;

/// What a new row stands under.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Under {
    /// A section of that name, made for it.
    NewSection(String),
    /// A part of that name, made for it in a section.
    NewPart(SectionId, String),
    /// A part that is there.
    Part(SectionId, PartId),
}

/// A row that the plan lacks: a place with its positions and what is looked at there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewRow {
    /// Where it stands. A new section has one part of the same name.
    pub under: Under,
    /// What the place is called.
    pub name: String,
    /// What its positions are counted along.
    pub axis: Axis,
    /// How many there are, where the layout does not say.
    pub each: usize,
    /// What is looked at.
    pub look: String,
    /// The scale that it is rated on.
    pub scale: ScaleId,
}

/// A weight as everything new has it.
const NEW_WEIGHT: f64 = 1.0;

impl Plan {
    /// Takes an item out of the plan, and what is left empty by that with it. What was rated there
    /// stays on its card, outside this plan.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`].
    pub fn switch_off(&mut self, item: &PlanItem) -> Result<(), EditError> {
        match item {
            PlanItem::Section(section) => take(&mut self.sections, |known| known.id == *section),
            PlanItem::Part(section, part) => {
                let owner = self.section_mut(section).ok_or(EditError::NotThere)?;
                take(&mut owner.parts, |known| known.id == *part)
            }
            PlanItem::Place(section, part, place) => {
                let owner = self
                    .section_mut(section)
                    .and_then(|section| section.part_mut(part))
                    .ok_or(EditError::NotThere)?;
                take(&mut owner.places, |known| known.id == *place)
            }
            PlanItem::Position(section, part, place, position) => {
                let owner = self
                    .place_mut(section, part, place)
                    .ok_or(EditError::NotThere)?;
                take(&mut owner.positions, |known| known.id == *position)
            }
            PlanItem::Look(section, part, place, look) => {
                let owner = self
                    .place_mut(section, part, place)
                    .ok_or(EditError::NotThere)?;
                owner.forget_surface(look);
                take(&mut owner.looks, |known| known.id == *look)
            }
            PlanItem::Cap(rule) => take(&mut self.caps, |known| known.id == *rule),
            PlanItem::Criterion(number) if *number < self.criteria.len() => {
                self.criteria.remove(*number);
                Ok(())
            }
            PlanItem::LocationFactor(look) => {
                self.clear_location_factor(look);
                Ok(())
            }
            PlanItem::Point(scale, number) => self.remove_point(scale, *number),
            PlanItem::Level(scale, level) => match self.scales.get_mut(scale) {
                Some(Scale::Area { levels }) => take(levels, |known| known.id == *level),
                Some(Scale::MeritArea { levels }) => take(levels, |known| known.id == *level),
                _ => Err(EditError::NotThere),
            },
            PlanItem::State(scale, state) => match self.scales.get_mut(scale) {
                Some(Scale::State { states }) => take(states, |known| known.id == *state),
                _ => Err(EditError::NotThere),
            },
            PlanItem::Scale(scale) => self.remove_size(scale),
            PlanItem::Plan | PlanItem::Grade(..) | PlanItem::Criterion(_) => {
                Err(EditError::NotThere)
            }
        }?;
        self.drop_empty();
        Ok(())
    }

    fn drop_empty(&mut self) {
        for section in &mut self.sections {
            for part in &mut section.parts {
                part.places
                    .retain(|place| !place.looks.is_empty() && !place.positions.is_empty());
            }
            section.parts.retain(|part| !part.places.is_empty());
        }
        self.sections.retain(|section| !section.parts.is_empty());
    }

    /// Puts an item of another plan back into this one, whole and in its place among its siblings.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`] where the other plan lacks it, or this one what it stands in.
    pub fn put_back(&mut self, other: &Self, item: &PlanItem) -> Result<(), EditError> {
        self.try_put_back(other, item).ok_or(EditError::NotThere)
    }

    fn try_put_back(&mut self, other: &Self, item: &PlanItem) -> Option<()> {
        match item {
            PlanItem::Section(id) => {
                put(&mut self.sections, &other.sections, id, |known| &known.id)
            }
            PlanItem::Part(section, id) => {
                let from = &other.section(section)?.parts;
                put(&mut self.section_mut(section)?.parts, from, id, |known| {
                    &known.id
                })
            }
            PlanItem::Place(section, part, id) => {
                let from = &other.section(section)?.part(part)?.places;
                let to = &mut self.section_mut(section)?.part_mut(part)?.places;
                put(to, from, id, |known| &known.id)
            }
            PlanItem::Position(section, part, place, id) => {
                let from = &other.section(section)?.part(part)?.place(place)?.positions;
                let to = &mut self.place_mut(section, part, place)?.positions;
                put(to, from, id, |known| &known.id)
            }
            PlanItem::Look(section, part, place, id) => {
                let from = other.section(section)?.part(part)?.place(place)?;
                let to = self.place_mut(section, part, place)?;
                put(&mut to.looks, &from.looks, id, |known| &known.id)?;
                to.recall_surface(from, id);
                Some(())
            }
            PlanItem::Cap(id) => put(&mut self.caps, &other.caps, id, |known| &known.id),
            PlanItem::Level(scale, id) => {
                match (self.scales.get_mut(scale)?, other.scales.get(scale)?) {
                    (Scale::Area { levels: to }, Scale::Area { levels: from }) => {
                        put(to, from, id, |known| &known.id)
                    }
                    (Scale::MeritArea { levels: to }, Scale::MeritArea { levels: from }) => {
                        put(to, from, id, |known| &known.id)
                    }
                    _ => None,
                }
            }
            PlanItem::State(scale, id) => {
                match (self.scales.get_mut(scale)?, other.scales.get(scale)?) {
                    (Scale::State { states: to }, Scale::State { states: from }) => {
                        put(to, from, id, |known| &known.id)
                    }
                    _ => None,
                }
            }
            _ => None,
        }
    }

    /// Whether the plan has an item with an id, so that another that lacks it may have it back.
    pub fn has(&self, item: &PlanItem) -> bool {
        let part = |section, part| self.section(section)?.part(part);
        let place = |section, in_part, at| part(section, in_part)?.place(at);
        let on_scale = |scale, row| {
            let mut rows = self.scale(scale)?.named_rows().into_iter();
            rows.find(|(id, _)| *id == row).map(|_| ())
        };
        let found = match item {
            PlanItem::Section(id) => self.section(id).map(|_| ()),
            PlanItem::Part(s, id) => part(s, id).map(|_| ()),
            PlanItem::Place(s, p, id) => place(s, p, id).map(|_| ()),
            PlanItem::Position(s, p, at, id) => place(s, p, at)
                .and_then(|at| at.positions.iter().find(|known| known.id == *id))
                .map(|_| ()),
            PlanItem::Look(s, p, at, id) => place(s, p, at)
                .and_then(|at| at.looks.iter().find(|known| known.id == *id))
                .map(|_| ()),
            PlanItem::Level(scale, row) => on_scale(scale, row.as_str()),
            PlanItem::State(scale, row) => on_scale(scale, row.as_str()),
            PlanItem::Cap(id) => self.caps.iter().find(|rule| rule.id == *id).map(|_| ()),
            _ => None,
        };
        found.is_some()
    }

    /// The plan with every row that only another has put back, and which these are: what can be
    /// switched on again.
    pub fn with_rows_of(&self, other: &Self) -> (Self, Vec<PlanItem>) {
        let mut both = self.clone();
        let removed = self.differences(other).into_iter();
        let removed = removed.filter(|difference| difference.change == Change::Removed);
        let off = removed
            .map(|difference| difference.item)
            .filter(|item| both.put_back(other, item).is_ok())
            .collect();
        (both, off)
    }

    /// Adds a row, and gives the item of its first characteristic.
    ///
    /// # Errors
    ///
    /// [`EditError`] with what is missing or too much; then the plan is as it was.
    pub fn add_row(&mut self, row: &NewRow) -> Result<PlanItem, EditError> {
        let name = label(&row.name)?;
        let look = self.new_look(&row.look, &row.scale, &[])?;
        let columns = self.columns(row.axis, row.each)?;
        let mut place = Place {
            id: PlaceId::fixed(&unused(&name, |id| {
                self.places().any(|(.., place)| place.id.as_str() == id)
            })),
            label: Some(name),
            axis: row.axis,
            weight: NEW_WEIGHT,
            positions: Vec::new(),
            looks: vec![look],
        };
        place.positions = self.new_positions(&place.id, row.axis, columns);
        let (section, part) = self.make_room(&row.under)?;
        let item = PlanItem::Look(
            section.clone(),
            part.clone(),
            place.id.clone(),
            place.looks[0].id.clone(),
        );
        let owner = self.section_mut(&section);
        let owner = owner.and_then(|section| section.part_mut(&part));
        owner.ok_or(EditError::NotThere)?.places.push(place);
        Ok(item)
    }

    /// Adds something to look at to a place, and gives its item.
    ///
    /// # Errors
    ///
    /// [`EditError`] with what is missing or too long; then the plan is as it was.
    pub fn add_look(
        &mut self,
        place: &PlanItem,
        name: &str,
        scale: &ScaleId,
    ) -> Result<PlanItem, EditError> {
        let PlanItem::Place(s, p, id) = place else {
            return Err(EditError::NotThere);
        };
        let known = self.place_mut(s, p, id).ok_or(EditError::NotThere)?;
        let known: Vec<CharacteristicId> = known.looks.iter().map(|look| look.id.clone()).collect();
        let look = self.new_look(name, scale, &known)?;
        let item = place.look(&look.id);
        let owner = self.place_mut(s, p, id).ok_or(EditError::NotThere)?;
        owner.looks.push(look);
        Ok(item)
    }

    fn new_look(
        &self,
        name: &str,
        scale: &ScaleId,
        known: &[CharacteristicId],
    ) -> Result<Characteristic, EditError> {
        let name = label(name)?;
        if !self.scales.contains_key(scale) {
            return Err(EditError::NotThere);
        }
        let taken = |id: &str| known.iter().any(|known| known.as_str() == id);
        Ok(Characteristic {
            id: CharacteristicId::fixed(&unused(&name, taken)),
            label: Some(name),
            scale: scale.clone(),
            weight: NEW_WEIGHT,
            regime: Regime::None,
            u_rep: Repeatability::Score(NEW_U_REP),
            same_surface: None,
        })
    }

    /// The columns of a new row; one without a name for a single position.
    fn columns(&self, axis: Axis, each: usize) -> Result<Vec<String>, EditError> {
        let numbered = |count: usize| (1..=count).map(|n| n.to_string()).collect();
        Ok(match axis {
            Axis::Cylinder => self.layout.cylinder_names(),
            Axis::Main => numbered(usize::from(self.layout.mains)),
            Axis::Single => vec![String::new()],
            Axis::CamBearing | Axis::Each if (1..=MOST_EACH).contains(&each) => numbered(each),
            Axis::CamBearing | Axis::Each => return Err(EditError::Each { given: each }),
        })
    }

    /// Positions named as the built-in plan names them: `cyl2/pump_drive`, `pump_drive3`, `pump_drive`.
    fn new_positions(&self, place: &PlaceId, axis: Axis, columns: Vec<String>) -> Vec<Position> {
        let taken = |id: &str| {
            let mut all = self.places().flat_map(|(.., place)| &place.positions);
            all.any(|position| position.id.as_str() == id)
        };
        let positions = columns.into_iter().map(|column| {
            let name = match axis {
                Axis::Cylinder => format!("cyl{column}/{place}"),
                Axis::Main => format!("main{column}/{place}"),
                _ => format!("{place}{column}"),
            };
            Position {
                id: PositionId::fixed(&unused_of(&name, taken)),
                column,
            }
        });
        positions.collect()
    }

    /// The section and the part that a new row goes into, made where they are new.
    fn make_room(&mut self, under: &Under) -> Result<(SectionId, PartId), EditError> {
        let part = |name: String, id: String| Part {
            id: PartId::fixed(&id),
            label: Some(name),
            weight: NEW_WEIGHT,
            places: Vec::new(),
        };
        match under {
            Under::Part(section, part) => {
                let known = self.section_mut(section).ok_or(EditError::NotThere)?;
                known.part_mut(part).ok_or(EditError::NotThere)?;
                Ok((section.clone(), part.clone()))
            }
            Under::NewPart(section, name) => {
                let name = label(name)?;
                let known = self.section_mut(section).ok_or(EditError::NotThere)?;
                let taken = |id: &str| known.parts.iter().any(|part| part.id.as_str() == id);
                let id = unused(&name, taken);
                known.parts.push(part(name, id.clone()));
                Ok((section.clone(), PartId::fixed(&id)))
            }
            Under::NewSection(name) => {
                let name = label(name)?;
                let taken = |id: &str| self.sections.iter().any(|known| known.id.as_str() == id);
                let id = unused(&name, taken);
                self.sections.push(Section {
                    id: SectionId::fixed(&id),
                    label: Some(name.clone()),
                    weight: NEW_WEIGHT,
                    parts: vec![part(name, id.clone())],
                });
                Ok((SectionId::fixed(&id), PartId::fixed(&id)))
            }
        }
    }

    /// Adds a criterion of the merit sum, and gives its item.
    pub fn add_criterion(&mut self, criterion: Criterion) -> PlanItem {
        self.criteria.push(criterion);
        PlanItem::Criterion(self.criteria.len() - 1)
    }

    fn section(&self, id: &SectionId) -> Option<&Section> {
        self.sections.iter().find(|section| section.id == *id)
    }
}

impl Section {
    fn part(&self, id: &PartId) -> Option<&Part> {
        self.parts.iter().find(|part| part.id == *id)
    }
}

impl Part {
    fn place(&self, id: &PlaceId) -> Option<&Place> {
        self.places.iter().find(|place| place.id == *id)
    }
}

/// Takes the first such item out of a list.
fn take<T>(items: &mut Vec<T>, is: impl Fn(&T) -> bool) -> Result<(), EditError> {
    let place = items.iter().position(is).ok_or(EditError::NotThere)?;
    items.remove(place);
    Ok(())
}

/// Copies an item from one list to another that lacks it, after the nearest that stands before it in
/// both.
fn put<T: Clone, I: PartialEq>(
    to: &mut Vec<T>,
    from: &[T],
    id: &I,
    id_of: impl Fn(&T) -> &I,
) -> Option<()> {
    if to.iter().any(|known| id_of(known) == id) {
        return None;
    }
    let place = from.iter().position(|known| id_of(known) == id)?;
    let before = from[..place].iter().rev();
    let mut before =
        before.filter_map(|known| to.iter().position(|here| id_of(here) == id_of(known)));
    let slot = before.next().map_or(0, |place| place + 1);
    to.insert(slot, from[place].clone());
    Some(())
}

/// A name as its author typed it, trimmed.
pub(super) fn label(name: &str) -> Result<String, EditError> {
    let name = name.trim();
    match name.chars().count() {
        0 => Err(EditError::NoName),
        given if given > LONGEST_LABEL => Err(EditError::LongName { given }),
        _ => Ok(name.to_owned()),
    }
}

/// An id out of a name: `Pump drive` is `pump_drive`, or `pump_drive_2` where that is taken.
pub(super) fn unused(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let mut id = String::new();
    for c in name.chars().map(plain) {
        match c {
            Some(c) => id.push(c),
            None if !id.is_empty() && !id.ends_with('_') => id.push('_'),
            None => {}
        }
    }
    id.truncate(LONGEST_NAME / 2);
    let id = id.trim_end_matches('_');
    unused_of(if id.is_empty() { "row" } else { id }, taken)
}

/// The id itself, or with the first number from 2 that is not taken.
fn unused_of(id: &str, taken: impl Fn(&str) -> bool) -> String {
    if !taken(id) {
        return id.to_owned();
    }
    let numbered = (2..).map(|n: u64| format!("{id}_{n}"));
    numbered
        .into_iter()
        .find(|id| !taken(id))
        .unwrap_or_else(|| id.to_owned())
}

/// A letter or a digit as an id may have it, without its accent.
fn plain(c: char) -> Option<char> {
    Some(match c.to_lowercase().next()? {
        c if c.is_ascii_alphanumeric() => c,
        'á' | 'à' | 'â' | 'ä' | 'ã' => 'a',
        'é' | 'è' | 'ê' | 'ë' => 'e',
        'í' | 'ì' | 'î' | 'ï' => 'i',
        'ó' | 'ò' | 'ô' | 'ö' | 'õ' => 'o',
        'ú' | 'ù' | 'û' | 'ü' => 'u',
        'ñ' => 'n',
        'ç' => 'c',
        _ => return None,
    })
}
