//! Which screen, as the address says it: a hash, so that it works from a server and from a stick.

use ringland_card::{CardId, EntryId, PlanId, plan::LeafId};
use ringland_report::{help::Topic, words::Words};

/// The last step of the address of [`Route::Areas`], before that of the leaf.
const AREAS: &str = "areas";

/// A screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    /// The engines on this tablet.
    Shelf,
    /// A new engine.
    New,
    /// The facts of an engine.
    Facts(CardId),
    /// Rating.
    Bench(CardId),
    /// Measuring.
    Gauging(CardId),
    /// The result.
    Card(CardId),
    /// The photos.
    Photos(CardId),
    /// One of them, by its entry.
    Photo(CardId, EntryId),
    /// Areas being read off one.
    Areas(CardId, EntryId),
    /// The plans of one's own.
    Plans,
    /// One of them.
    Plan(PlanId),
    /// A page of help.
    Help(Topic),
}

impl Route {
    /// Reads the hash of an address; anything unknown is the Shelf.
    pub fn parse(hash: &str) -> Self {
        let mut steps = hash
            .trim_start_matches('#')
            .trim_start_matches('/')
            .split('/');
        let (screen, id) = (
            steps.next().unwrap_or_default(),
            steps.next().unwrap_or_default(),
        );
        if let ("help", Some(topic)) = (screen, Topic::of_slug(id)) {
            return Self::Help(topic);
        }
        match (screen, CardId::parse(id)) {
            ("new", _) => Self::New,
            ("facts", Ok(id)) => Self::Facts(id),
            ("bench", Ok(id)) => Self::Bench(id),
            ("gauging", Ok(id)) => Self::Gauging(id),
            ("card", Ok(id)) => Self::Card(id),
            ("photos", Ok(id)) => match steps.next().map(EntryId::parse) {
                Some(Ok(photo)) if steps.next() == Some(AREAS) => Self::Areas(id, photo),
                Some(Ok(photo)) => Self::Photo(id, photo),
                _ => Self::Photos(id),
            },
            ("plans", _) => Self::Plans,
            ("plan", _) => PlanId::parse(id).map_or(Self::Plans, Self::Plan),
            _ => Self::Shelf,
        }
    }

    /// The hash for an address.
    pub fn href(self) -> String {
        match self {
            Self::Shelf => "#/shelf".to_owned(),
            Self::New => "#/new".to_owned(),
            Self::Facts(id) => format!("#/facts/{id}"),
            Self::Bench(id) => format!("#/bench/{id}"),
            Self::Gauging(id) => format!("#/gauging/{id}"),
            Self::Card(id) => format!("#/card/{id}"),
            Self::Photos(id) => format!("#/photos/{id}"),
            Self::Photo(id, photo) => format!("#/photos/{id}/{photo}"),
            Self::Areas(id, photo) => format!("#/photos/{id}/{photo}/{AREAS}"),
            Self::Plans => "#/plans".to_owned(),
            Self::Plan(id) => format!("#/plan/{id}"),
            Self::Help(topic) => format!("#/help/{}", topic.slug()),
        }
    }

    /// The address of the Bench with a leaf on its pad.
    pub fn bench_at(card: CardId, leaf: LeafId) -> String {
        format!("{}/{}", Self::Bench(card).href(), leaf.0)
    }

    /// The address of areas being read off a photo for a leaf.
    pub fn areas_at(card: CardId, photo: EntryId, leaf: LeafId) -> String {
        format!("{}/{}", Self::Areas(card, photo).href(), leaf.0)
    }

    /// The leaf that an address of areas being read off a photo asks for.
    pub fn areas_asked(hash: &str) -> Option<LeafId> {
        let (_, leaf) = hash.rsplit_once(AREAS)?;
        leaf.strip_prefix('/')?.parse().ok().map(LeafId)
    }

    /// The leaf that an address of the Bench or of Gauging asks for.
    pub fn leaf_asked(hash: &str) -> Option<LeafId> {
        let mut steps = hash
            .trim_start_matches('#')
            .trim_start_matches('/')
            .split('/');
        matches!(steps.next(), Some("bench" | "gauging")).then_some(())?;
        steps.nth(1)?.parse().ok().map(LeafId)
    }

    /// What the screen is called.
    pub fn title(self, words: &Words) -> &'static str {
        match self {
            Self::Shelf => words.nav.shelf,
            Self::New => words.facts.title,
            Self::Facts(_) => words.facts.edit_title,
            Self::Bench(_) => words.nav.bench,
            Self::Gauging(_) => words.gauging.title,
            Self::Card(_) => words.nav.card,
            Self::Photos(_) | Self::Photo(..) => words.photos.title,
            Self::Areas(..) => words.photo_areas.title,
            Self::Plans | Self::Plan(_) => words.plans.title,
            Self::Help(topic) => topic.title(words),
        }
    }

    /// The card that the screen is about.
    pub fn card(self) -> Option<CardId> {
        match self {
            Self::Shelf | Self::New | Self::Plans | Self::Plan(_) | Self::Help(_) => None,
            Self::Facts(id)
            | Self::Bench(id)
            | Self::Gauging(id)
            | Self::Card(id)
            | Self::Photos(id)
            | Self::Photo(id, _)
            | Self::Areas(id, _) => Some(id),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_route_comes_back_from_its_address() {
        let id = CardId::v7(1, [7; 10]);
        for route in [
            Route::Shelf,
            Route::New,
            Route::Facts(id),
            Route::Bench(id),
            Route::Gauging(id),
            Route::Card(id),
            Route::Photos(id),
            Route::Photo(id, EntryId::v7(1, [9; 10])),
            Route::Areas(id, EntryId::v7(1, [9; 10])),
            Route::Plans,
            Route::Plan(PlanId::v7(1, [8; 10])),
            Route::Help(Topic::Areas),
        ] {
            assert_eq!(Route::parse(&route.href()), route);
        }
        let there = Route::bench_at(id, LeafId(31));
        assert_eq!(Route::parse(&there), Route::Bench(id));
        assert_eq!(Route::leaf_asked(&there), Some(LeafId(31)));
        assert_eq!(Route::leaf_asked(&Route::Bench(id).href()), None);
        let photo = EntryId::v7(1, [9; 10]);
        let there = Route::areas_at(id, photo, LeafId(7));
        assert_eq!(Route::parse(&there), Route::Areas(id, photo));
        assert_eq!(Route::areas_asked(&there), Some(LeafId(7)));
        assert_eq!(Route::areas_asked(&Route::Areas(id, photo).href()), None);
        assert_eq!(Route::parse("#/bench/not-an-id"), Route::Shelf);
        assert_eq!(Route::parse(""), Route::Shelf);
    }
}
