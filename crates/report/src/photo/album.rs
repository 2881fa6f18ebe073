//! The photos of a card by where they were taken.

use std::collections::BTreeMap;

use ringland_card::{
    Body, Entry, Mark, Photo, Standing,
    entry::About,
    plan::{Axis, Place},
};

use crate::words::Words;

/// A photo that stands on the card.
#[derive(Clone, Debug)]
pub struct Shown<'c> {
    /// Its entry.
    pub entry: &'c Entry,
    /// The photo.
    pub photo: &'c Photo,
    /// What it shows; none for the engine.
    pub about: Option<&'c About>,
    /// The marks on it with their entries, in order.
    pub marks: Vec<(&'c Entry, &'c Mark)>,
}

impl Shown<'_> {
    /// The position that it shows; none for the engine.
    pub fn position(&self) -> Option<&str> {
        self.about.map(|about| about.position.as_str())
    }
}

/// The photos of one position.
#[derive(Clone, Debug)]
pub struct Group {
    /// What the position is called.
    pub title: String,
    /// The numbers of its photos in the album: as found first, then cleaned.
    pub photos: Vec<usize>,
}

/// One kind of place along the engine, of which there are photos.
#[derive(Clone, Debug)]
pub struct Row {
    /// What the place is called.
    pub title: String,
    /// Each of its positions along the engine, with or without photos.
    pub groups: Vec<Group>,
}

/// What stands for the engine among the names of positions, none of which is empty.
const ENGINE: &str = "";

/// All photos of a card.
#[derive(Clone, Debug)]
pub struct Album<'c> {
    /// The photos, in the order in which they were taken.
    pub photos: Vec<Shown<'c>>,
    /// By position; those of the engine under no name.
    by_position: BTreeMap<&'c str, Vec<usize>>,
}

impl<'c> Album<'c> {
    /// The album of what stands on a card.
    pub fn of(standing: &Standing<'c>) -> Self {
        let marks_of = |photo: &Entry| {
            let marks = standing.marks.get(&photo.id).into_iter().flatten();
            marks.filter_map(|entry| match &entry.body {
                Body::Mark { mark, .. } => Some((*entry, mark)),
                _ => None,
            })
        };
        let photos = standing
            .photos
            .iter()
            .filter_map(|entry| match &entry.body {
                Body::Photo { about, photo } => Some(Shown {
                    entry,
                    photo,
                    about: about.as_ref(),
                    marks: marks_of(entry).collect(),
                }),
                _ => None,
            });
        let photos: Vec<Shown<'c>> = photos.collect();
        let mut by_position: BTreeMap<&'c str, Vec<usize>> = BTreeMap::new();
        for (number, shown) in photos.iter().enumerate() {
            let position = shown.about.map_or(ENGINE, |about| about.position.as_str());
            by_position.entry(position).or_default().push(number);
        }
        for numbers in by_position.values_mut() {
            // Stable: within each they stay as they were taken.
            numbers.sort_by_key(|number| photos[*number].photo.taken);
        }
        Self {
            photos,
            by_position,
        }
    }

    /// The same for a rater who is not to know what others saw: without what they marked. All of it for everybody else.
    #[must_use]
    pub fn seen_blind(mut self, rater: Option<&str>) -> Self {
        if let Some(rater) = rater {
            for shown in &mut self.photos {
                shown.marks.retain(|(entry, _)| entry.rater == rater);
            }
        }
        self
    }

    /// The photos of a position; of the engine where there is none.
    pub fn at(&self, position: Option<&str>) -> &[usize] {
        self.by_position
            .get(position.unwrap_or(ENGINE))
            .map_or(&[], Vec::as_slice)
    }

    /// Every position with photos: the engine, then in the order of the plan, then what the plan does not have.
    pub fn groups(&self, standing: &Standing<'_>, words: &Words) -> Vec<Group> {
        let group = |title: String, position: Option<&str>| Group {
            title,
            photos: self.at(position).to_vec(),
        };
        let mut groups = vec![group(words.photos.of_engine.to_owned(), None)];
        let mut left: Vec<&str> = self
            .by_position
            .keys()
            .copied()
            .filter(|id| *id != ENGINE)
            .collect();
        for (.., place) in standing.plan.places() {
            for position in &place.positions {
                let id = position.id.as_str();
                left.retain(|other| *other != id);
                groups.push(group(words.position_name(place, position), Some(id)));
            }
        }
        for id in left {
            groups.push(group(id.to_owned(), Some(id)));
        }
        groups.retain(|group| !group.photos.is_empty());
        groups
    }

    /// The kinds of place along the engine that have photos, in the order of the plan.
    pub fn rows(&self, standing: &Standing<'_>, words: &Words) -> Vec<Row> {
        let row = |place: &Place| {
            let along = place.axis != Axis::Single && place.positions.len() > 1;
            let groups: Vec<Group> = place
                .positions
                .iter()
                .map(|position| Group {
                    title: words.position_name(place, position),
                    photos: self.at(Some(position.id.as_str())).to_vec(),
                })
                .collect();
            let any = groups.iter().any(|group| !group.photos.is_empty());
            (along && any).then(|| Row {
                title: words.place_name(place).to_owned(),
                groups,
            })
        };
        let places = standing.plan.places();
        places.filter_map(|(.., place)| row(place)).collect()
    }
}
