//! What the Shelf shows of a card, kept beside it so that the Shelf opens without reading every entry.

use ringland_assess::{Assessment, Tree};
use ringland_card::{
    Card, FactField, Standing,
    plan::{Place, Plan},
};
use serde::{Deserialize, Serialize};

/// A card in a few words and figures.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Summary {
    /// The engine's name.
    pub name: String,
    /// Whose it is.
    pub fleet: String,
    /// Distance run, metres.
    pub distance_m: Option<f64>,
    /// The oil.
    pub oil: String,
    /// Its viscosity grade.
    pub oil_grade: String,
    /// The engine's score.
    pub score: Option<f64>,
    /// Its standard uncertainty.
    pub u: Option<f64>,
    /// Coverage, 0 to 1.
    pub coverage: f64,
    /// Leaves answered.
    pub answered: usize,
    /// Leaves in all.
    pub asked: usize,
    /// Entries on the card.
    pub entries: usize,
    /// Records of entries that could not be read and stay aside.
    #[serde(default)]
    pub unreadable: usize,
    /// Milliseconds since 1970 of the last entry, by its tablet's clock.
    pub changed_ms: Option<i64>,
    /// The thumbnail: a row for each place, a position's step of the wear ramp each; see
    /// [`ringland_report::ramp`]; `None` where it is not rated.
    pub thumb: Vec<Vec<Option<u8>>>,
}

impl Summary {
    /// The expanded uncertainty of the score, U = 2·u: half its 95 % interval.
    pub fn expanded_u(&self) -> Option<f64> {
        self.u.map(|u| 2.0 * u)
    }

    /// Records of entries that were there when it was written.
    pub fn records(&self) -> usize {
        self.entries + self.unreadable
    }

    /// The summary of a card, of which everything could be read.
    pub fn of(card: &Card, standing: &Standing<'_>, tree: &Tree, result: &Assessment) -> Self {
        let text = |field| standing.text(field).unwrap_or_default().to_owned();
        let engine = result.all.engine();
        Self {
            name: text(FactField::Name),
            fleet: text(FactField::Fleet),
            distance_m: standing.si(FactField::Distance),
            oil: text(FactField::Oil),
            oil_grade: text(FactField::OilGrade),
            score: engine.score,
            u: engine.u,
            coverage: engine.coverage,
            answered: standing
                .index
                .leaves()
                .iter()
                .zip(&result.answers)
                .filter(|(leaf, answer)| !leaf.gauged && **answer != ringland_assess::Answer::Open)
                .count(),
            asked: standing.plan.rating_count(),
            entries: card.len(),
            unreadable: 0,
            changed_ms: card
                .entries()
                .map(|entry| entry.time.as_millisecond())
                .max(),
            thumb: thumb(standing.plan, tree, result),
        }
    }
}

fn thumb(plan: &Plan, tree: &Tree, result: &Assessment) -> Vec<Vec<Option<u8>>> {
    let mut positions = tree
        .nodes()
        .iter()
        .enumerate()
        .filter(|(_, node)| node.kind == ringland_assess::NodeKind::Position)
        .map(|(number, _)| result.all.nodes[number].score);
    let by_eye = |place: &Place| place.looks.iter().any(|look| !plan.is_gauged(look));
    plan.places()
        .map(|(.., place)| {
            let row: Vec<Option<u8>> = positions
                .by_ref()
                .take(place.positions.len())
                .map(|score| score.map(ringland_report::ramp::step))
                .collect();
            (by_eye(place), row)
        })
        .filter_map(|(by_eye, row)| by_eye.then_some(row))
        .collect()
}
